package cell

import (
	"go/ast"
	"go/token"
	"slices"
	"strings"
)

// typedMarker is the marker of a text of Markdown that a place stands in. What
// it may be is asked of a cell in which the name alone stands in place of the
// text.
type typedMarker struct {
	cell  string // such a cell
	from  int    // where the marker's name starts in it
	typed string // of the marker, up to the place
	rest  string // what follows of the word at the place
}

// markerAt finds the marker at a place in a string, whose start the draft
// stands at.
func (d *draft) markerAt(src string, p piece, at int) (m typedMarker, ok bool) {
	i := 1
	for {
		if _, sum := d.parent(i).(*ast.BinaryExpr); !sum {
			break
		}
		i++
	}
	call, isCall := d.parent(i).(*ast.CallExpr)
	if !isCall || !d.isBuiltin(call.Fun, "Markdown") || d.before.start < 0 {
		return m, false
	}
	open := strings.LastIndexByte(src[p.start:at], '{') + p.start
	if open < p.start || src[open-1] == '\\' {
		return m, false
	}
	m.typed = src[open+1 : at]
	for i, part := range strings.FieldsFunc(m.typed, func(r rune) bool { return r == '.' || r == ' ' }) {
		if word(part) != len(part) || i > 20 {
			return m, false
		}
	}
	m.rest = src[at : at+word(src[at:])]
	head := src[:d.before.start]
	m.from = len(head)
	name, _, _ := strings.Cut(m.typed, " ")
	m.cell = head + name + m.rest + "\n" + src[leftEdge(src, p.end):]
	return m, true
}

// complete offers names of the note and the cell, fields that a value has, and
// behind a name the word that a marker may have.
func (m typedMarker) complete(at int, s Surroundings) Completion {
	if name, w, second := strings.Cut(m.typed, " "); second {
		c := Completion{Start: at - len(w), End: at}
		if name != "" && strings.HasPrefix("limits", w) {
			c.Offers = []Offer{{Text: "limits", Kind: KindKeyword, Beside: "its limits in all cases"}}
		}
		return c
	}
	end := m.from + len(m.typed)
	start := m.from + strings.LastIndexByte(m.typed, '.') + 1
	c := completeName(m.cell, start, end, s)
	c.Start, c.End = at-(end-c.Start), at
	p, _ := Parse(token.NewFileSet(), "", m.cell, nil)
	c.Offers = slices.DeleteFunc(c.Offers, func(o Offer) bool {
		switch o.Kind {
		case KindQuantity, KindVariable, KindConstant, KindField:
			return start == m.from && !slices.Contains(s.Names(), o.Text) && !slices.Contains(p.Defines, o.Text)
		}
		return true
	})
	return c
}

// subject is what the marker is about.
func (m typedMarker) subject(s Scope) Subject {
	if strings.Contains(m.typed, " ") {
		return Subject{}
	}
	start := m.from + strings.LastIndexByte(m.typed, '.') + 1
	end := m.from + len(m.typed) + len(m.rest)
	if start == end {
		return Subject{}
	}
	return wordAt(m.cell, piece{kind: pieceWord, start: start, end: end, closed: true}, s)
}
