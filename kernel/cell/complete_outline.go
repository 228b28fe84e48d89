package cell

import (
	"go/scanner"
	"go/token"
	"strings"
)

// outline is what a text is made of as far as it can be told while it is
// being typed: its top-level pieces, and what is open at its end.
type outline struct {
	segments []segment
	start    int     // of the piece that is not finished, -1 if all are
	levels   []level // of that piece: the top level, then each open bracket
	last     token.Token
	lastEnd  int
	sameLine bool // the last token stands on the line of the end
}

// level is an open bracket, or the top level.
type level struct {
	close     string // what closes it
	at        int    // where it was opened
	group     bool   // of var ( … ), which holds lines
	switches  bool   // the body of a switch
	pending   string // what the statement in progress still needs: the body of an if, the colon of a case
	statement int    // where that statement starts, -1 between statements
	first     token.Token
}

// top is the innermost level.
func (o *outline) top() *level { return &o.levels[len(o.levels)-1] }

// outlineOf reads text between two offsets. A line that starts at its left
// edge closes round and square brackets before it: these were forgotten, or
// are being typed.
func outlineOf(text string, from, to int) *outline {
	o := &outline{start: -1, levels: []level{{statement: -1}}}
	part := text[from:to]
	fset := token.NewFileSet()
	file := fset.AddFile("", fset.Base(), len(part))
	var s scanner.Scanner
	s.Init(file, []byte(part), func(token.Position, string) {}, 0)
	var cur segment
	var head []token.Token
	finish := func(end int) {
		if o.start >= 0 {
			cur.end = end
			cur.decl = cur.first == token.TYPE || cur.first == token.CONST || cur.first == token.FUNC && isFuncDecl(head)
			cur.importing = cur.first == token.IMPORT
			o.segments = append(o.segments, cur)
		}
		o.start, head = -1, nil
		o.levels = []level{{statement: -1}}
	}
	for {
		pos, tok, lit := s.Scan()
		if tok == token.EOF {
			break
		}
		at := from + file.Offset(pos)
		if tok == token.SEMICOLON && lit != ";" {
			if file.Offset(pos) == len(part) {
				break // the line goes on behind the end
			}
			if len(o.levels) == 1 {
				finish(at)
			} else if t := o.top(); t.close == "}" || t.group {
				t.pending, t.statement = "", -1
			}
			o.last = tok
			continue
		}
		leftEdge := at == 0 || text[at-1] == '\n'
		if leftEdge && !closes(tok) && !goesOn(o.last) {
			for len(o.levels) > 1 && o.top().close != "}" && !o.top().group {
				o.levels = o.levels[:len(o.levels)-1]
				if len(o.levels) == 1 {
					finish(at)
				}
			}
		}
		if o.start < 0 {
			o.start = at
			cur = segment{start: at, first: tok}
		}
		if len(head) < 64 {
			head = append(head, tok)
		}
		o.token(tok, at)
		if tok == token.SEMICOLON && len(o.levels) == 1 && o.top().pending == "" {
			finish(at + 1)
		}
		o.last, o.lastEnd = tok, at+len(tokenText(tok, lit))
	}
	if o.start < 0 {
		o.lastEnd = min(o.lastEnd, to)
	}
	o.sameLine = o.lastEnd <= to && !strings.Contains(text[o.lastEnd:to], "\n")
	return o
}

// closes reports whether a token is a closing bracket.
func closes(tok token.Token) bool {
	return tok == token.RPAREN || tok == token.RBRACK || tok == token.RBRACE
}

// goesOn reports whether a statement goes on behind a token, on the next line.
func goesOn(tok token.Token) bool {
	return tok.IsOperator() && !closes(tok) && tok != token.SEMICOLON && tok != token.INC && tok != token.DEC
}

func tokenText(tok token.Token, lit string) string {
	if lit != "" {
		return lit
	}
	return tok.String()
}

// token follows one token.
func (o *outline) token(tok token.Token, at int) {
	t := o.top()
	if t.statement < 0 && !closes(tok) {
		t.statement, t.first = at, tok
	}
	open := func(close string) {
		switches := close == "}" && t.pending == "{}" && t.first == token.SWITCH
		group := close == ")" && (o.last == token.VAR || o.last == token.CONST || o.last == token.TYPE || o.last == token.IMPORT)
		if close == "}" && t.pending == "{}" {
			t.pending = ""
		}
		o.levels = append(o.levels, level{close: close, at: at, group: group, switches: switches, statement: -1})
	}
	switch tok {
	case token.LPAREN:
		open(")")
	case token.LBRACK:
		open("]")
	case token.LBRACE:
		open("}")
	case token.RPAREN, token.RBRACK, token.RBRACE:
		// Forgotten round brackets end with the brace around them.
		for n := len(o.levels) - 1; n > 0; n-- {
			if o.levels[n].close == tok.String() {
				o.levels = o.levels[:n]
				break
			}
		}
	case token.IF, token.FOR, token.SWITCH, token.FUNC, token.SELECT:
		t.pending = "{}"
	case token.CASE, token.DEFAULT:
		t.pending = ":"
	case token.COLON:
		if t.pending == ":" {
			t.pending, t.statement = "", -1
		}
	case token.COMMA:
		if t.close == ")" || t.close == "]" {
			t.pending = "" // func(Quantity) Quantity as the type of an argument
		}
	case token.SEMICOLON:
		if t.pending != "{}" {
			t.pending, t.statement = "", -1
		}
	}
}

// closing is the text that closes what is open. The statements of the outer
// so many levels get the body that they lack.
func (o *outline) closing(bodies int) string {
	var b strings.Builder
	for i := len(o.levels) - 1; i >= 0; i-- {
		if i < bodies {
			b.WriteString(o.levels[i].pending)
		}
		b.WriteString(o.levels[i].close)
	}
	return b.String()
}
