package render

import (
	"strings"

	"ohmwright/kernel/note"
)

// LaTeX sets the items of a cell as one display that LaTeX with amsmath and
// MathJax both read: an array of one column, since MathJax knows no cells
// that span several.
func LaTeX(items []note.Item) string { return latexOf(statements(items)) }

func latexOf(ss []statement) string {
	var rows []string
	for _, s := range ss {
		rows = append(rows, latexRows(s)...)
	}
	if len(rows) == 0 {
		return ""
	}
	return "$$\n\\begin{array}{l}\n" + strings.Join(rows, " \\\\\n") + "\n\\end{array}\n$$\n"
}

func latexRows(s statement) []string {
	var rows []string
	switch s.kind {
	case printedStatement:
		for _, line := range strings.Split(s.description, "\n") {
			rows = append(rows, texText("texttt", line))
		}
		return rows
	case proseStatement:
		for _, line := range proseLines(s.prose) {
			rows = append(rows, texText("text", line.text))
		}
		return rows
	case whyStatement:
		return latexWhy(s.why, 0)
	case noticeStatement:
		return []string{texText("text", s.description)}
	case requirementStatement:
		rows = append(rows, texText("textbf", s.word)+`\quad `+texText("text", s.description))
	default:
		rows = append(rows, latexEntry(s))
		rows = append(rows, latexFields(s.value, `\qquad `)...)
	}
	return append(rows, latexLines(s.lines, "")...)
}

func latexEntry(s statement) string {
	var cols []string
	switch {
	case s.spoken:
		cols = append(cols, texText("text", s.name))
	case s.name != "":
		cols = append(cols, writeTeX(nameNode(s.name)))
	}
	cols = append(cols, latexValue(s.value))
	if s.limits != "" {
		cols = append(cols, latexLimits(s.limits))
	}
	for _, t := range []string{s.description, s.source} {
		if t != "" {
			cols = append(cols, texText("text", t))
		}
	}
	return strings.Join(cols, `\quad `)
}

func latexValue(s shape) string {
	if s.plain {
		return texScalar(s.text)
	}
	return texText("text", s.text)
}

func latexLimits(s string) string {
	lo, hi, _ := strings.Cut(s, " … ")
	return texScalar(lo) + ` \ldots ` + texScalar(hi)
}

func latexTable(rows [][]string) string {
	var lines []string
	for _, row := range rows {
		var cols []string
		for _, s := range row {
			cols = append(cols, texText("text", s))
		}
		lines = append(lines, strings.Join(cols, " & "))
	}
	return `\begin{array}{l` + strings.Repeat("r", len(rows[0])-1) + "}" + strings.Join(lines, ` \\ `) + `\end{array}`
}

func latexFields(s shape, indent string) []string {
	var rows []string
	parts := s.parts
	if table, ok := latexRecords(s); ok {
		rows, parts = append(rows, indent+table), nil
	}
	for _, f := range parts {
		rows = append(rows, indent+texText("text", f.name)+`\quad `+latexValue(f.value))
		if f.value.limits != "" {
			rows[len(rows)-1] += `\quad ` + latexLimits(f.value.limits)
		}
		rows = append(rows, latexFields(f.value, indent+`\quad `)...)
	}
	if s.more > 0 {
		rows = append(rows, indent+`\text{… `+count(s.more)+` more}`)
	}
	return rows
}

// texScalar writes the text of a value: "−40 °C".
func texScalar(s string) string {
	s, negative := cutMinus(s)
	num, unit, ok := strings.Cut(s, " ")
	out := texNumber(num)
	if ok {
		out += `\ ` + texUnit(unit)
	}
	if negative {
		out = "{-" + out + "}" // in braces it is a sign and gets no space behind it
	}
	return out
}

func latexParts(parts []part) string {
	var b strings.Builder
	for _, p := range parts {
		switch {
		case p.formula != nil:
			bu := builder{numbers: p.numbers, digits: shownDigits}
			b.WriteString(`\displaystyle ` + writeTeX(bu.expr(p.formula).node))
		case p.users != "":
			b.WriteString(texText("text", p.users))
		default:
			b.WriteString(texText("text", p.ours))
		}
	}
	return b.String()
}
