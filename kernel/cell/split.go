package cell

import (
	"go/scanner"
	"go/token"
	"strings"
)

// A cell mixes declarations and statements, which Go keeps apart. The split
// cuts the source at its top level and makes two texts of it, each as long as
// the source and each with the other's part blanked: one of functions, types
// and constants, one of everything that runs.

// The two prefixes have one length and no newline, so that lines and columns
// stay the user's.
const (
	declPrefix = "package note;           "
	stmtPrefix = "package note;func " + runName + "(){"
	runName    = reserved + "r"
)

func init() {
	if len(declPrefix) != len(stmtPrefix) {
		panic("cell: prefixes differ in length")
	}
}

// segment is one top-level piece of the source.
type segment struct {
	start, end int
	first      token.Token
	decl       bool // func, type, const
	importing  bool
	quiet      bool // ended by a semicolon at the end of its line
}

// split cuts scanned text into its top-level segments.
func split(text string) ([]segment, []problem) {
	fset := token.NewFileSet()
	file := fset.AddFile("", fset.Base(), len(text))
	var s scanner.Scanner
	s.Init(file, []byte(text), func(token.Position, string) {}, 0) // the parser reports
	var segs []segment
	var problems []problem
	depth := 0
	var cur segment
	open := false
	var head []token.Token // first tokens of a segment, to tell a method from a function literal
	close := func(end int, quiet bool) {
		if open {
			cur.end, cur.quiet = end, quiet
			cur.decl = cur.first == token.TYPE || cur.first == token.CONST || cur.first == token.FUNC && isFuncDecl(head)
			cur.importing = cur.first == token.IMPORT
			segs = append(segs, cur)
		}
		open, head = false, nil
	}
	for {
		pos, tok, lit := s.Scan()
		at := file.Offset(pos)
		if tok == token.EOF {
			close(len(text), false)
			return segs, problems
		}
		if tok == token.SEMICOLON && depth == 0 {
			quiet := lit == ";" && endsLine(text[at+1:])
			end := at
			if lit == ";" {
				end++
			}
			close(end, quiet)
			continue
		}
		if !open {
			cur, open = segment{start: at, first: tok}, true
		}
		if len(head) < 64 {
			head = append(head, tok)
		}
		switch tok {
		case token.LPAREN, token.LBRACK, token.LBRACE:
			depth++
		case token.RPAREN, token.RBRACK, token.RBRACE:
			depth--
			if depth < 0 {
				problems = append(problems, problem{at: at, code: CodeSyntax, msg: "unexpected " + tok.String(), hint: "nothing is open here"})
				depth = 0
			}
		}
	}
}

// isFuncDecl tells func f( and func (r T) f( from func(…) … {…}(…).
func isFuncDecl(head []token.Token) bool {
	if len(head) < 2 || head[1] != token.LPAREN {
		return len(head) > 1 && head[1] == token.IDENT
	}
	depth := 0
	for i, t := range head[1:] {
		switch t {
		case token.LPAREN, token.LBRACK:
			depth++
		case token.RPAREN, token.RBRACK:
			depth--
			if depth == 0 {
				next := head[1+i+1:]
				return len(next) > 1 && next[0] == token.IDENT && next[1] == token.LPAREN
			}
		}
	}
	return false
}

// endsLine reports whether nothing but space and a comment follows on the line.
func endsLine(s string) bool {
	if n := strings.IndexByte(s, '\n'); n >= 0 {
		s = s[:n]
	}
	s = strings.TrimSpace(s)
	return s == "" || strings.HasPrefix(s, "//")
}

// texts makes the two texts of a cell.
func texts(text string, segs []segment) (decls, stmts string) {
	d := []byte(text)
	s := []byte(text)
	blank := func(b []byte, from, to int) {
		for i := from; i < to; i++ {
			if b[i] != '\n' {
				b[i] = ' '
			}
		}
	}
	last := 0
	for _, g := range segs {
		blank(d, last, g.start)
		if g.importing {
			blank(s, g.start, g.end)
			blank(d, g.start, g.end)
		} else if g.decl {
			blank(s, g.start, g.end)
		} else {
			blank(d, g.start, g.end)
		}
		last = g.end
	}
	blank(d, last, len(d))
	return declPrefix + string(d), stmtPrefix + string(s) + "\n}"
}
