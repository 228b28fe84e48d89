package report

import (
	"fmt"
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
// of this many characters; a text, which is not turned, one of the third number.
const mostColumns, mostMath, mostText = 8, 90, 80

var (
	formulas = regexp.MustCompile(`(?s)<math.*?</math>`)
	markedUp = regexp.MustCompile(`<[^>]*>`)
)

// sized fits what users wrote into narrow screens and sheets: a table or a formula
// that stands alone can be moved, also by keys, and the style learns how long a
// formula is.
func sized(text string) string {
	text = strings.NewReplacer(
		`<math display="block"`, `<math tabindex="0" display="block"`,
		"<table>", `<div class="wide" role="group" tabindex="0" aria-label="table"><table>`, "</table>", "</table></div>",
	).Replace(text)
	return formulas.ReplaceAllStringFunc(text, func(m string) string {
		if n := length(m); n > mostText {
			return fmt.Sprintf(`<math style="--math: %d"%s`, n, strings.TrimPrefix(m, "<math"))
		}
		return m
	})
}

// length of a formula in characters.
func length(math string) int { return utf8.RuneCountInString(markedUp.ReplaceAllString(math, "")) }

// placed gives what a cell shows with the attributes of its box. What is too broad
// for a sheet on end is turned, and the style learns how broad it is.
func placed(shown string) (attributes, content string) {
	columns, math := 0, 0
	for row := range strings.SplitSeq(shown, "<tr") {
		columns = max(columns, strings.Count(row, "<td"))
	}
	for _, m := range formulas.FindAllString(shown, -1) {
		math = max(math, length(m))
	}
	// Of two figures in a column one may stand above the other.
	shown = strings.ReplaceAll(shown, ",\u00a0", ", ")
	if columns <= mostColumns && math <= mostMath {
		return `class="cell"`, shown
	}
	// Spaces that bring figures to the right (render's) would only make columns wide.
	shown = strings.ReplaceAll(shown, "\u2007", "")
	return fmt.Sprintf(`class="cell turned" style="--columns: %d; --math: %d"`, columns, math), shown
}
