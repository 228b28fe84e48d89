package cell

import (
	"go/scanner"
	"go/token"
	"strings"
)

// Finish says whether a cell is finished, as far as its text tells: "complete"
// if it can be read, "incomplete" if something typed behind it could make it
// so, "invalid" if nothing could. indent is that of the next line of an
// incomplete cell.
//
// Open brackets, comments and raw strings, an operator or comma at the end and
// a statement without its body make a cell incomplete.
func Finish(src string) (status, indent string) {
	if !strings.ContainsFunc(src, func(r rune) bool { return r > ' ' }) || readable(src) {
		return "complete", ""
	}
	p := pieceAt(src, len(src))
	switch {
	case p.kind == pieceComment && strings.HasPrefix(src[p.start:], "/*"):
		if status, _ := Finish(src[:p.start] + " "); status == "invalid" {
			return status, ""
		}
		return "incomplete", indentOf(lastLine(src))
	case p.kind == pieceString && src[p.start] == '`':
		if status, _ := Finish(src[:p.start] + "``"); status == "invalid" {
			return status, ""
		}
		return "incomplete", "" // what stands in a raw string is the user's
	}
	sc, problems := scan(src)
	if len(problems) > 0 {
		return "invalid", ""
	}
	o := outlineOf(sc.text, 0, len(sc.text))
	word := madeWord(src)
	// What could come next: nothing but the bodies and brackets, an operand, a
	// list of parameters, a type, a path.
	for _, next := range []string{"", " " + word, " {}", " " + word + " {}", "(){}", " " + word + "(){}", " int", " " + word + " int", ` "math"`} {
		for _, bodies := range []int{len(o.levels), 0} {
			if readable(src + "\n"[:newline(src)] + next + o.closing(bodies)) {
				return "incomplete", nextIndent(sc.text, o)
			}
		}
	}
	return "invalid", ""
}

// newline is 1 behind a comment that would swallow what follows.
func newline(src string) int {
	if p := pieceAt(src, len(src)); p.kind == pieceComment {
		return 1
	}
	return 0
}

func readable(src string) bool {
	_, errs := Parse(token.NewFileSet(), "", src, nil)
	return len(errs) == 0
}

// nextIndent is the white space that the line behind text starts with: a tab
// more than the line that opened something, or than a line that ends in an
// operator; the same as the present line otherwise.
func nextIndent(text string, o *outline) string {
	lines := codeLines(text)
	if len(lines) == 0 {
		return ""
	}
	line := lines[len(lines)-1]
	top := o.top()
	switch {
	case len(o.levels) > 1 && top.at >= line.start:
		return indentOf(text[line.start:]) + "\t"
	case line.continues:
		if len(lines) > 1 && lines[len(lines)-2].continues {
			return indentOf(text[line.start:])
		}
		return indentOf(text[line.start:]) + "\t"
	case line.last == token.COLON && (line.first == token.CASE || line.first == token.DEFAULT):
		return indentOf(text[line.start:]) + "\t"
	case len(o.levels) > 1 && line.closes:
		return indentOf(text[strings.LastIndexByte(text[:top.at], '\n')+1:]) + "\t"
	}
	// Behind a line that a statement went on over: back to where it began.
	for i := len(lines) - 1; i > 0 && lines[i-1].continues; i-- {
		line = lines[i-1]
	}
	return indentOf(text[line.start:])
}

// codeLine is a line of a cell with what it starts and ends in.
type codeLine struct {
	start       int
	first, last token.Token
	continues   bool // it ends in an operator: the statement goes on
	closes      bool // it starts with a closing bracket
}

// codeLines lists the lines that hold more than comments.
func codeLines(text string) []codeLine {
	fset := token.NewFileSet()
	file := fset.AddFile("", fset.Base(), len(text))
	var s scanner.Scanner
	s.Init(file, []byte(text), func(token.Position, string) {}, 0)
	var lines []codeLine
	for {
		pos, tok, lit := s.Scan()
		if tok == token.EOF {
			return lines
		}
		if tok == token.SEMICOLON && lit != ";" {
			continue
		}
		start := strings.LastIndexByte(text[:file.Offset(pos)], '\n') + 1
		if n := len(lines); n == 0 || lines[n-1].start != start {
			lines = append(lines, codeLine{start: start, first: tok, closes: closes(tok)})
		}
		l := &lines[len(lines)-1]
		l.last = tok
		switch tok {
		case token.COMMA, token.COLON, token.LPAREN, token.LBRACK, token.LBRACE:
			l.continues = false
		default:
			l.continues = goesOn(tok)
		}
	}
}

func lastLine(s string) string { return s[strings.LastIndexByte(s, '\n')+1:] }

// indentOf is the white space at the start of a line.
func indentOf(line string) string {
	return line[:len(line)-len(strings.TrimLeft(line, " \t"))]
}
