package render

import (
	"strconv"
	"strings"

	"github.com/mattn/go-runewidth"

	"ohmwright/kernel/cell"
)

const (
	sourceIndent = "    "
	sourceWidth  = 86 // of a line of source, which the classic notebook shows unbroken; a longer one is cut around the place
	tabWidth     = 4
)

// ErrorText tells what is wrong in a cell: where, what, the line with a
// caret below the place, what to write instead, and who called whom. source
// is the cell as the user typed it; without it the line is left out.
func ErrorText(errs []*cell.Error, source string) string {
	var b strings.Builder
	for i, e := range errs {
		if i > 0 {
			b.WriteString("\n")
		}
		b.WriteString(errorHead(e) + "\n")
		if line, caret, ok := placeOf(e, source); ok {
			b.WriteString(sourceIndent + line + "\n")
			if caret >= 0 {
				b.WriteString(sourceIndent + strings.Repeat(" ", caret) + "^\n")
			}
		}
		for _, h := range errorTail(e) {
			b.WriteString("  " + h + "\n")
		}
	}
	return b.String()
}

// Traceback is ErrorText line by line, as an error output holds it.
func Traceback(errs []*cell.Error, source string) []string {
	return strings.Split(strings.TrimRight(ErrorText(errs, source), "\n"), "\n")
}

// ErrorHTML is ErrorText as HTML that survives sanitising. Source stands in
// pre and code, where neither tags nor dollar signs mean anything.
func ErrorHTML(errs []*cell.Error, source string) string {
	var b strings.Builder
	for _, e := range errs {
		b.WriteString(`<div class="ow-error"><p><b>` + user(errorHead(e), TeX) + "</b></p>\n")
		if line, caret, ok := placeOf(e, source); ok {
			b.WriteString("<pre><code>" + escape(line))
			if caret >= 0 {
				b.WriteString("\n" + strings.Repeat(" ", caret) + "^")
			}
			b.WriteString("</code></pre>\n")
		}
		for _, h := range errorTail(e) {
			b.WriteString("<p>" + user(h, TeX) + "</p>\n")
		}
		b.WriteString("</div>\n")
	}
	return b.String()
}

// errorHead is the place and the message in one line. Who waits needs no
// place: there is nothing to mend there.
func errorHead(e *cell.Error) string {
	if e.Code == cell.CodeWaiting {
		return oneLine(e.Msg)
	}
	var where []string
	if e.Cell != "" {
		where = append(where, oneLine(e.Cell))
	}
	if e.Line > 0 {
		where = append(where, "line "+strconv.Itoa(e.Line))
		if e.Column > 0 {
			where = append(where, "column "+strconv.Itoa(e.Column))
		}
	}
	msg := oneLine(e.Msg)
	if len(where) == 0 {
		return msg
	}
	return strings.Join(where, ", ") + ": " + msg
}

func errorTail(e *cell.Error) []string {
	var lines []string
	if e.Hint != "" {
		lines = append(lines, oneLine(e.Hint))
	}
	for _, f := range e.Frames {
		lines = append(lines, "in "+oneLine(f))
	}
	return lines
}

// placeOf gives the line of an error as it is printed and the cell of the
// terminal below which the caret belongs, −1 for none.
func placeOf(e *cell.Error, source string) (line string, caret int, ok bool) {
	lines := strings.Split(strings.ReplaceAll(source, "\r\n", "\n"), "\n")
	if source == "" || e.Code == cell.CodeWaiting || e.Line < 1 || e.Line > len(lines) {
		return "", 0, false
	}
	typed := []rune(visible(lines[e.Line-1]))
	at := e.Column - 1
	if e.Column < 1 || at > len(typed) {
		at = -1
	}
	// A mark that combines with the letter before it has no cell of its own.
	for at > 0 && at < len(typed) && zeroWidth(typed[at]) {
		at--
	}
	var before, after strings.Builder
	for i, r := range typed {
		b := &before
		if at >= 0 && i >= at {
			b = &after
		}
		if r == '\t' {
			// Tabs are set in the line as it is printed, from its own start.
			n := tabWidth - cells(before.String()+after.String())%tabWidth
			b.WriteString(strings.Repeat(" ", n))
			continue
		}
		b.WriteRune(r)
	}
	if at < 0 {
		return cutRight(before.String(), sourceWidth), -1, true
	}
	return window(before.String(), after.String())
}

// window cuts a long line so that the place stays in sight.
func window(before, after string) (string, int, bool) {
	const keep = sourceWidth / 2
	if cells(before)+cells(after) > sourceWidth && cells(before) > keep {
		r := []rune(before)
		for cells(string(r)) > keep || len(r) > 0 && zeroWidth(r[0]) {
			r = r[1:]
		}
		before = "… " + string(r)
	}
	return cutRight(before+after, sourceWidth+2), cells(before), true
}

func cutRight(s string, width int) string {
	if cells(s) <= width {
		return s
	}
	r := []rune(s)
	for cells(string(r)) > width {
		r = r[:len(r)-1]
	}
	return strings.TrimRight(string(r), " ") + " …"
}

func zeroWidth(r rune) bool {
	c := runewidth.Condition{}
	return r != '\t' && c.RuneWidth(r) == 0
}
