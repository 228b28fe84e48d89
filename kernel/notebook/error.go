package notebook

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Error says why a file is not a notebook that can be read.
type Error struct {
	Path   string // "" when the text did not come from a file
	Line   int    // 1-based; 0: the file as a whole
	Column int    // 1-based, in characters
	Cell   int    // 1-based; 0: not in a cell
	Msg    string // what is wrong
	Hint   string // what to do about it, "" if there is nothing to say
}

func (e *Error) Error() string {
	var b strings.Builder
	b.WriteString(e.Path)
	if e.Line > 0 {
		if e.Path == "" {
			fmt.Fprintf(&b, "line %d, column %d", e.Line, e.Column)
		} else {
			fmt.Fprintf(&b, ":%d:%d", e.Line, e.Column)
		}
	}
	if b.Len() > 0 {
		b.WriteString(": ")
	}
	if e.Cell > 0 {
		fmt.Fprintf(&b, "cell %d: ", e.Cell)
	}
	b.WriteString(e.Msg)
	if e.Hint != "" {
		b.WriteString(": ")
		b.WriteString(e.Hint)
	}
	return b.String()
}

// errorAt is an error at a byte of the text.
func errorAt(src string, at int, hint, format string, args ...any) *Error {
	line, column := position(src, at)
	return &Error{Line: line, Column: column, Msg: fmt.Sprintf(format, args...), Hint: hint}
}

// position turns a byte offset into line and column.
func position(src string, at int) (line, column int) {
	at = min(at, len(src))
	before := src[:at]
	start := strings.LastIndexByte(before, '\n') + 1
	return strings.Count(before, "\n") + 1, utf8.RuneCountInString(before[start:]) + 1
}
