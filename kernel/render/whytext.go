package render

import (
	"strings"

	"ohmwright/kernel/note"
)

// WhyText sets a derivation as an indented tree: each value with its source
// and cell, how it came about, and below it, one step further in, what it was
// computed from. width 0 does not wrap.
func WhyText(w *note.Why, width int) string {
	if w == nil || w.Entry == nil {
		return ""
	}
	t := &whyTree{width: width}
	top := treeOf(w)
	t.add(top, 0, cells(top.name))
	return spaced(t.b.String())
}

type whyTree struct {
	b     strings.Builder
	width int
}

const treeStep = "    "

// add writes a tree at a depth; name is the width of the names beside it.
func (t *whyTree) add(w *whyNode, depth, name int) {
	indent := strings.Repeat(treeStep, depth)
	text := strings.ReplaceAll(oneLine(w.value.text), " ", hard)
	if w.limits != "" {
		text += gap + strings.ReplaceAll(w.limits, " ", hard)
	}
	t.wrapped(indent+pad(w.name, name)+gap, text+gap+w.about())
	body := indent + treeStep
	for _, f := range w.value.parts {
		text := f.name + gap + f.value.text
		if f.value.limits != "" {
			text += gap + strings.ReplaceAll(f.value.limits, " ", hard)
		}
		t.wrapped(body, text)
	}
	if w.again {
		return
	}
	for _, l := range w.lines {
		t.wrapped(body+pad(l.label, minValue)+gap, plainParts(l.parts))
	}
	for _, in := range w.inside {
		t.inside(in, body)
	}
	if w.cut != "" {
		t.wrapped(body, w.cut)
	}
	widest := 0
	for _, in := range w.inputs {
		widest = max(widest, cells(in.name))
	}
	for _, in := range w.inputs {
		t.add(in, depth+1, widest)
	}
}

// inside writes the steps of a lib function.
func (t *whyTree) inside(in inner, indent string) {
	t.wrapped(indent, in.head)
	widest := 0
	for _, s := range in.steps {
		widest = max(widest, cells(s.name))
	}
	for _, s := range in.steps {
		t.wrapped(indent+treeStep+pad(s.name, widest)+gap, strings.ReplaceAll(oneLine(s.value.text), " ", hard))
		for _, l := range s.lines {
			t.wrapped(indent+treeStep+strings.Repeat(" ", widest)+gap+pad(l.label, minValue)+gap, plainParts(l.parts))
		}
	}
}

// wrapped puts text behind head; its further lines start where it does.
func (t *whyTree) wrapped(head, text string) {
	width := 0
	if t.width > 0 {
		width = max(minWrap, t.width-cells(head))
	}
	for i, line := range wrap(text, width) {
		if i > 0 {
			head = strings.Repeat(" ", cells(head))
		}
		t.b.WriteString(strings.TrimRight(head+line, " ") + "\n")
	}
}
