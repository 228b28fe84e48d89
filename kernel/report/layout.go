package report

import (
	"html"
	"html/template"
	"regexp"
	"strings"
	"unicode/utf8"
)

// rows are what one note has of a table.
type rows[T any] struct {
	Note string
	Rows []T
}

// byNote parts the rows of a table by the note that they lead to.
func byNote[T interface{ place() Place }](list []T) (out []rows[T]) {
	for _, x := range list {
		if n := len(out); n == 0 || out[n-1].Note != x.place().Note {
			out = append(out, rows[T]{Note: x.place().Note})
		}
		last := &out[len(out)-1]
		last.Rows = append(last.Rows, x)
	}
	return out
}

// width is the class of a cell: values are kept in one line, but the long ones,
// such as that of a table.
func width(value string) string {
	if utf8.RuneCountInString(value) > 20 {
		return "long"
	}
	return "value"
}

// dotted lets the name of a field go on in the next line behind a dot.
func dotted(name string) template.HTML {
	return template.HTML(strings.ReplaceAll(html.EscapeString(name), ".", ".<wbr>"))
}

// A sheet of A4 or Letter on end holds this many columns of figures, or a formula
// of this many characters.
const mostColumns, mostMath = 8, 90

var (
	formulas = regexp.MustCompile(`(?s)<math.*?</math>`)
	tags     = regexp.MustCompile(`<[^>]*>`)
)

// broad reports whether what a cell shows needs a sheet on its side.
func broad(shown string) bool {
	for row := range strings.SplitSeq(shown, "<tr") {
		if strings.Count(row, "<td") > mostColumns {
			return true
		}
	}
	for _, m := range formulas.FindAllString(shown, -1) {
		if utf8.RuneCountInString(tags.ReplaceAllString(m, "")) > mostMath {
			return true
		}
	}
	return false
}
