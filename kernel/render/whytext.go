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
	t.add(w, 0, cells(w.Entry.Name))
	return spaced(t.b.String())
}

type whyTree struct {
	b     strings.Builder
	width int
}

const treeStep = "    "

// add writes w at a depth; name is the width of the names beside it.
func (t *whyTree) add(w *note.Why, depth, name int) {
	e := w.Entry
	indent := strings.Repeat(treeStep, depth)
	s := entry(e)
	text := strings.ReplaceAll(oneLine(s.value.text), " ", hard)
	if s.limits != "" {
		text += gap + strings.ReplaceAll(s.limits, " ", hard)
	}
	origin := s.source
	if w.Cell != "" {
		if origin != "" {
			origin += "; "
		}
		origin += w.Cell
	}
	about := s.description
	if origin != "" {
		if about != "" {
			about += " "
		}
		about += "(" + origin + ")"
	}
	if w.Again && len(s.lines) > 0 {
		about = strings.TrimPrefix(about+", see above", ", ")
	}
	t.wrapped(indent+pad(s.name, name)+gap, text+gap+about)
	body := indent + treeStep
	for _, f := range s.value.parts {
		text := f.name + gap + f.value.text
		if f.value.limits != "" {
			text += gap + strings.ReplaceAll(f.value.limits, " ", hard)
		}
		t.wrapped(body, text)
	}
	if w.Again {
		return
	}
	for _, l := range s.lines {
		t.wrapped(body+pad(l.label, minValue)+gap, plainParts(l.parts))
	}
	widest := 0
	for _, in := range w.Inputs {
		if in.Entry != nil {
			widest = max(widest, cells(in.Entry.Name))
		}
	}
	for _, in := range w.Inputs {
		if in.Entry != nil {
			t.add(in, depth+1, widest)
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
