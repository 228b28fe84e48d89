package render

import (
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/note"
)

// HTML sets the items of a cell as HTML, with formulas as MathML (the page
// and reports) or as TeX between \( and \) (Jupyter). Only tables, spans and
// their like, class names and short styles without a colour are used: the
// rest does not survive the sanitising of untrusted notebooks, and a colour
// of ours would vanish on a dark theme.
//
// Classes: ow-items is the table of a cell, ow-entry a row of a result with
// ow-name, ow-value, ow-limits, ow-about and ow-source; ow-line a row below
// it with ow-label; ow-requirement with ow-holds or ow-fails; ow-parts the
// table of a record; ow-why what can be
// folded; ow-printed, ow-notice, ow-error, ow-text.
//
// as is MathML or TeX; anything else is taken for TeX.
func HTML(items []note.Item, as Flavour) string {
	if as != MathML {
		as = TeX
	}
	return htmlOf(statements(items), as)
}

const (
	left = ` style="text-align:left"`
	// Front ends stripe the rows of a table one by one, which here would part
	// a result from its own lines.
	calm = ` style="background:none"`
)

func htmlOf(ss []statement, as Flavour) string {
	h := htmlWriter{as: as}
	for _, s := range ss {
		switch s.kind {
		case printedStatement:
			h.table(false)
			h.put(`<pre class="ow-printed">`, escape(s.description), "</pre>\n")
		case noticeStatement:
			h.table(false)
			h.put(`<p class="ow-notice">`, user(s.description, as), "</p>\n")
		case proseStatement: // front ends and reports set its Markdown, where there is Markdown
			h.table(false)
			for _, line := range proseLines(s.prose) {
				h.put(`<p class="ow-text">`, user(line.text, as), "</p>\n")
			}
		case whyStatement:
			h.table(false)
			h.why(s.why, true)
		case requirementStatement:
			h.group(s)
			h.requirement(s)
		default:
			h.group(s)
			h.entry(s)
		}
	}
	h.table(false)
	return h.b.String()
}

type htmlWriter struct {
	b    strings.Builder
	as   Flavour
	open bool // inside the table
}

func (h *htmlWriter) put(ss ...string) {
	for _, s := range ss {
		h.b.WriteString(s)
	}
}

// table opens or closes the table of entries and requirements.
func (h *htmlWriter) table(open bool) {
	switch {
	case open && !h.open:
		h.put(`<table class="ow-items">`, "\n<tbody>\n")
	case !open && h.open:
		h.put("</tbody>\n</table>\n")
	}
	h.open = open
}

// group opens the table for s. A result with lines of its own is a body of its
// own, so that where front ends stripe, all such results look alike.
func (h *htmlWriter) group(s statement) {
	if h.open && len(s.lines)+len(s.value.parts) > 0 {
		h.put("</tbody>\n<tbody>\n")
	}
	h.table(true)
}

func (h *htmlWriter) cell(class, content string) {
	h.put(`<td class="`, class, `"`, left, ">", content, "</td>")
}

func (h *htmlWriter) entry(s statement) {
	h.put(`<tr class="ow-entry">`)
	name := ""
	switch {
	case s.spoken:
		name = user(s.name, h.as)
	case s.name != "":
		name = htmlName(s.name, h.as)
	}
	h.cell("ow-name", name)
	value := ""
	switch {
	case s.value.plain:
		value = "<b>" + escape(firm(s.value.text)) + "</b>"
	case strings.Contains(s.value.text, "\n"):
		value = strings.ReplaceAll(user(s.value.text, h.as), "\n", "<br/>")
	default:
		value = user(s.value.text, h.as)
	}
	switch {
	case s.limits == "" && s.description == "" && s.source == "":
		h.put(`<td class="ow-value" colspan="4"`, left, ">", value, "</td>")
	case len(s.value.parts) > 0:
		// The type of a record is wide: as a column it would push the formulas
		// below it far to the right.
		h.put(`<td colspan="4"`, left, `><span class="ow-value">`, value, `</span>`)
		for _, note := range []struct{ class, text string }{{"ow-about", s.description}, {"ow-source", s.source}} {
			if note.text != "" {
				h.put("\u2003", `<span class="`, note.class, `">`, user(note.text, h.as), "</span>")
			}
		}
		h.put("</td>")
	default:
		h.cell("ow-value", value)
		h.cell("ow-limits", escape(firm(s.limits)))
		h.cell("ow-about", user(s.description, h.as))
		h.cell("ow-source", user(s.source, h.as))
	}
	h.put("</tr>\n")
	if len(s.value.parts) > 0 || s.value.more > 0 {
		h.put(`<tr class="ow-line"`, calm, `><td></td><td colspan="4"`, left, ">")
		h.parts(s.value)
		h.put("</td></tr>\n")
	}
	h.lines(s.lines)
}

func (h *htmlWriter) requirement(s statement) {
	class := "ow-fails"
	if s.holds {
		class = "ow-holds"
	}
	h.put(`<tr class="ow-requirement `, class, `"><td`, left, "><b>", s.word, `</b></td><td colspan="4"`, left, ">",
		user(s.description, h.as), "</td></tr>\n")
	h.lines(s.lines)
}

func (h *htmlWriter) lines(ls []labelled) {
	for _, l := range ls {
		h.put(`<tr class="ow-line"`, calm, `><td></td>`)
		h.cell("ow-label", "<i>"+l.label+"</i>")
		h.put(`<td colspan="3"`, left, ">")
		if l.rows != nil {
			h.rows(l.rows)
		} else {
			h.put(htmlParts(l.parts, h.as))
		}
		h.put("</td></tr>\n")
	}
}

// rows sets a small table. Figures are brought to the right by spaces as wide
// as a figure: alignment to the right is not sure to survive.
func (h *htmlWriter) rows(rows [][]string) {
	h.put(`<table class="ow-parts"><tbody>`)
	body := rightAligned(rows[1:], "\u2007")
	for i, row := range append(rows[:1:1], body...) {
		h.put("<tr", calm, ">")
		for c, s := range row {
			text := escape(firm(s))
			switch {
			case i == 0:
				text = "<i>" + escape(s) + "</i>"
			case c == 0:
				text = user(rows[i][0], h.as)
			}
			h.put("<td", left, ">", text, "</td>")
		}
		h.put("</tr>")
	}
	h.put("</tbody></table>")
}

// parts sets a record as a table of its own.
func (h *htmlWriter) parts(s shape) {
	h.put(`<table class="ow-parts"><tbody>`)
	parts := s.parts
	if h.records(s) {
		parts = nil
	}
	for _, f := range parts {
		nested := len(f.value.parts) > 0 || f.value.more > 0
		h.put("<tr", calm, "><td", left, ">", user(oneLine(f.name), h.as), "</td><td")
		if nested { // as wide as a column it would push the limits far to the right
			h.put(` colspan="2"`)
		}
		h.put(left, ">")
		if f.value.plain {
			h.put(escape(firm(f.value.text)))
			if f.value.limits != "" {
				h.put("</td><td class=\"ow-limits\"", left, ">", escape(firm(f.value.limits)))
			}
		} else {
			h.put(strings.ReplaceAll(user(f.value.text, h.as), "\n", "<br/>"))
		}
		if nested {
			h.parts(f.value)
		}
		h.put("</td></tr>")
	}
	if s.more > 0 {
		h.put("<tr", calm, `><td colspan="2"`, left, ">… ", count(s.more), " more</td></tr>")
	}
	h.put("</tbody></table>")
}

func htmlParts(parts []part, as Flavour) string {
	var b strings.Builder
	for _, p := range parts {
		switch {
		case p.formula != nil && isSource(p.formula):
			b.WriteString(user(spaced(plainParts([]part{p})), as))
		case p.formula != nil:
			bu := builder{numbers: p.numbers, digits: shownDigits}
			ours, n := leadingWords(bu.expr(p.formula).node)
			b.WriteString(escape(ours))
			b.WriteString(htmlMath(n, as))
		case p.users != "":
			b.WriteString(user(FirmUnits(p.users), as))
		default:
			b.WriteString(escape(FirmUnits(p.ours)))
		}
	}
	return b.String()
}

// isSource: a formula with a record or code in it is more source than
// mathematics, and long: it is set as text, which can be wrapped.
func isSource(e *cell.Expr) bool {
	if e == nil {
		return false
	}
	if e.Kind == cell.ExprRecord || e.Kind == cell.ExprCode {
		return true
	}
	for _, a := range e.Args {
		if isSource(a) {
			return true
		}
	}
	return false
}

// leadingWords parts the words at the start of a formula from it, "nearest
// E96 to ", so that they are set in the font of the text around.
func leadingWords(n node) (string, node) {
	r, ok := n.(*row)
	if !ok {
		return "", n
	}
	text, parts := "", r.parts
	for len(parts) > 1 {
		w, ok := parts[0].(*words)
		if !ok {
			break
		}
		text, parts = text+w.text, parts[1:]
	}
	return text, &row{parts}
}

func htmlMath(n node, as Flavour) string {
	if as == MathML {
		return writeMathML(n)
	}
	return `\(\displaystyle ` + escape(writeTeX(n)) + `\)`
}

// htmlName sets a name. Beside TeX it is sub and i, which show at once and
// everywhere, while formulas wait for the front end's typesetting.
func htmlName(name string, as Flavour) string {
	n := nameNode(name).(*ident)
	if as == MathML && !(n.sym.word && n.sym.sub == "") {
		return writeMathML(n)
	}
	out := ""
	if n.qualifier != "" {
		out = escape(n.qualifier) + "."
	}
	out += n.sym.prefix
	if n.sym.word {
		out += escape(n.sym.base)
	} else {
		out += "<i>" + escape(n.sym.base) + "</i>"
	}
	if n.sym.sub != "" {
		out += "<sub>" + escape(n.sym.sub) + "</sub>"
	}
	return out
}

// FirmUnits keeps numbers in a text with their units.
func FirmUnits(s string) string {
	words := unbroken(s)
	for i, w := range words {
		words[i] = firm(w)
	}
	return strings.Join(words, " ")
}

// firm keeps a value with its unit, and limits, in one line.
func firm(s string) string { return strings.ReplaceAll(s, " ", hard) }
