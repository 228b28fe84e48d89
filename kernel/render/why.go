package render

import (
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/note"
)

// whyNode is a derivation as it is set: a value, its lines, what happened inside
// lib functions, and below it what it was computed from.
type whyNode struct {
	statement
	origin string // its source and the cell
	inside []inner
	cut    string // what lies deeper than was asked for, in words
	inputs []*whyNode
	again  bool
	above  bool // its lines stand where its name first does
}

// inner is a lib function, step by step.
type inner struct {
	head  string
	steps []statement
}

func treeOf(w *note.Why) *whyNode {
	t := &whyNode{statement: entry(w.Entry), again: w.Again}
	if w.Reference != "" {
		t.lines = append([]labelled{users("part", w.Reference)}, t.lines...)
	}
	if q := w.Requirement; q != nil {
		t.statement = requirement(q)
		t.name, t.spoken, t.value = w.Entry.Name, true, shape{text: t.word}
		t.description = strings.TrimSpace(strings.TrimPrefix(t.description, t.name+":"))
	}
	if w.Field != "" {
		t.name += "." + w.Field
		t.value = shapeOf(w.Part, 0)
		t.limits = t.value.limits
	}
	t.origin = t.source
	if w.Cell != "" {
		if t.origin != "" {
			t.origin += "; "
		}
		t.origin += oneLine(w.Cell)
	}
	if w.Again {
		t.above = len(t.lines) > 0
		return t
	}
	for _, in := range w.Inside {
		t.inside = append(t.inside, innerOf(in))
	}
	if len(w.Cut) > 0 {
		t.cut = oneLine("computed from " + strings.Join(w.Cut, ", ") + ": deeper than was asked for")
	}
	for _, in := range w.Inputs {
		if in.Entry != nil {
			t.inputs = append(t.inputs, treeOf(in))
		}
	}
	return t
}

func innerOf(in *note.Inner) inner {
	if in.Trouble != "" {
		return inner{head: oneLine(in.Trouble)}
	}
	n := inner{head: "inside " + oneLine(in.Function) + ", at the nominal values"}
	for _, e := range in.Steps {
		s := entry(e)
		if e.Formula != nil && e.Formula.Kind == cell.ExprNumber {
			s.lines = nil // it is that number
		}
		n.steps = append(n.steps, s)
	}
	return n
}

// about is what stands behind a value: its description, and where it is from.
func (t *whyNode) about() string {
	text := t.description
	if t.origin != "" {
		text = strings.TrimPrefix(text+" ("+t.origin+")", " ")
	}
	if t.above {
		text = strings.TrimPrefix(text+", see above", ", ")
	}
	return text
}

// why sets a derivation for folding: every value that was computed from others
// opens onto them.
func (h *htmlWriter) why(t *whyNode, top bool) {
	folds := len(t.lines)+len(t.inside)+len(t.inputs)+len(t.value.parts) > 0 && !t.again || t.cut != ""
	switch {
	case folds && top:
		h.put(`<details class="ow-why" open="open"><summary>`)
	case folds:
		h.put(`<details class="ow-why"><summary>`)
	default:
		h.put(`<div class="ow-why">`)
	}
	value := user(t.value.text, h.as)
	if t.value.plain {
		value = "<b>" + escape(firm(t.value.text)) + "</b>"
	}
	name := htmlName(t.name, h.as)
	if t.spoken {
		name = user(t.name, h.as)
	}
	h.put(name, "\u2003", value)
	if t.limits != "" {
		h.put("\u2003", `<span class="ow-limits">`, escape(firm(t.limits)), "</span>")
	}
	if a := t.about(); a != "" {
		h.put("\u2003", `<span class="ow-about">`, user(a, h.as), "</span>")
	}
	if !folds {
		h.put("</div>\n")
		return
	}
	h.put("</summary>\n")
	if len(t.lines)+len(t.value.parts) > 0 {
		h.put(`<table class="ow-items"><tbody>`, "\n")
		if len(t.value.parts) > 0 {
			h.put(`<tr class="ow-line"`, calm, `><td></td><td colspan="4"`, left, ">")
			h.parts(t.value)
			h.put("</td></tr>\n")
		}
		h.lines(t.lines)
		h.put("</tbody></table>\n")
	}
	for _, in := range t.inside {
		if len(in.steps) == 0 {
			h.put(`<p class="ow-notice">`, user(in.head, h.as), "</p>\n")
			continue
		}
		h.put(`<details class="ow-why"><summary>`, user(in.head, h.as), "</summary>\n", htmlOf(in.steps, h.as), "</details>\n")
	}
	if t.cut != "" {
		h.put(`<p class="ow-notice">`, user(t.cut, h.as), "</p>\n")
	}
	if len(t.inputs) > 0 {
		h.put(`<div style="margin-left:2em">`, "\n")
		for _, in := range t.inputs {
			h.why(in, false)
		}
		h.put("</div>\n")
	}
	h.put("</details>\n")
}

// markdownWhy sets a derivation as a list of lists.
func markdownWhy(b *strings.Builder, t *whyNode, indent string) {
	s := t.statement
	s.source = t.origin
	if t.above {
		s.description = strings.TrimPrefix(s.description+", see above", ", ")
	}
	b.WriteString(indent + "- " + markdownEntry(s) + "\n")
	further := indent + "  "
	markdownFields(b, further, t.value)
	if t.again {
		return
	}
	markdownLines(b, further, t.lines)
	for _, in := range t.inside {
		b.WriteString(further + "- *" + MarkdownText(in.head) + "*\n")
		for _, s := range in.steps {
			b.WriteString(further + "  - " + markdownEntry(s) + "\n")
			markdownLines(b, further+"    ", s.lines)
		}
	}
	if t.cut != "" {
		b.WriteString(further + "- *" + MarkdownText(t.cut) + "*\n")
	}
	for _, in := range t.inputs {
		markdownWhy(b, in, further)
	}
}

func markdownLines(b *strings.Builder, indent string, lines []labelled) {
	for _, l := range lines {
		b.WriteString(indent + "- " + l.label + " " + markdownParts(l.parts) + "\n")
	}
}

// latexWhy sets a derivation in rows, one step further in for what a value was
// computed from.
func latexWhy(t *whyNode, depth int) []string {
	in := strings.Repeat(`\qquad `, depth)
	s := t.statement
	s.source = t.origin
	rows := []string{in + latexEntry(s)}
	rows = append(rows, latexFields(t.value, in+`\qquad `)...)
	if t.again {
		return rows
	}
	rows = append(rows, latexLines(t.lines, in)...)
	for _, n := range t.inside {
		rows = append(rows, in+`\qquad `+texText("text", n.head))
		for _, s := range n.steps {
			rows = append(rows, in+`\qquad \qquad `+latexEntry(s))
			rows = append(rows, latexLines(s.lines, in+`\qquad \qquad `)...)
		}
	}
	if t.cut != "" {
		rows = append(rows, in+`\qquad `+texText("text", t.cut))
	}
	for _, i := range t.inputs {
		rows = append(rows, latexWhy(i, depth+1)...)
	}
	return rows
}

func latexLines(lines []labelled, indent string) (rows []string) {
	for _, l := range lines {
		text := latexParts(l.parts)
		if l.rows != nil {
			text = latexTable(l.rows)
		}
		rows = append(rows, indent+`\qquad \text{`+l.label+`}\quad `+text)
	}
	return rows
}
