package cell

import (
	"go/ast"
	"go/token"
	"regexp"
	"slices"
	"strings"
)

// Note is what the comments around a definition say of it.
type Note struct {
	Description string // the comment behind it
	Source      string // what stands in square brackets at the end of that comment
	Reason      string // the comment lines right above
}

// bitRange is what a register's bits look like at the end of a comment; it is no source.
var bitRange = regexp.MustCompile(`^\s*\d+\s*:\s*\d+\s*$`)

// describe splits the comment behind a definition into description and source.
func describe(text string) (description, source string) {
	text = strings.TrimSpace(text)
	if !strings.HasSuffix(text, "]") {
		return text, ""
	}
	depth := 0
	for i := len(text) - 1; i >= 0; i-- {
		switch text[i] {
		case ']':
			depth++
		case '[':
			depth--
			if depth > 0 {
				continue
			}
			inside := text[i+1 : len(text)-1]
			// a[3] and CTRL[7:0] are indices: a source stands apart.
			if i > 0 && text[i-1] != ' ' && text[i-1] != '\t' || bitRange.MatchString(inside) || strings.TrimSpace(inside) == "" {
				return text, ""
			}
			return strings.TrimSpace(text[:i]), strings.TrimSpace(inside)
		}
	}
	return text, ""
}

// comments finds the comments that belong to the statement from start to end.
type comments struct {
	file   *token.File
	groups []*ast.CommentGroup
	code   map[int]bool // lines on which code stands
}

func (c *comments) around(start, end token.Pos) Note {
	var n Note
	endLine := c.file.Line(end)
	first := c.file.Line(start)
	above := first - 1
	var lines []string
	for i := len(c.groups) - 1; i >= 0; i-- {
		list := c.groups[i].List
		for j := len(list) - 1; j >= 0; j-- {
			k := list[j]
			line, last := c.file.Line(k.Pos()), c.file.Line(k.End())
			switch {
			case k.Pos() >= end && line == endLine:
				n.Description, n.Source = describe(strip(k.Text))
			case k.End() <= start && last == above && !c.code[line]:
				lines = append(lines, strip(k.Text))
				above = line - 1
			}
		}
	}
	slices.Reverse(lines)
	n.Reason = strings.TrimSpace(strings.Join(lines, " "))
	return n
}

func strip(comment string) string {
	if s, ok := strings.CutPrefix(comment, "//"); ok {
		return strings.TrimSpace(s)
	}
	s := strings.TrimSuffix(strings.TrimPrefix(comment, "/*"), "*/")
	return strings.Join(strings.Fields(s), " ")
}
