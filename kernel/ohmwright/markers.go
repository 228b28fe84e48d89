package main

import (
	"cmp"
	"fmt"

	"ohmwright/kernel/prose"
	"ohmwright/kernel/render"
)

// unknownMarker is a place in the text of a note that stands for no value.
type unknownMarker struct {
	Cell   string `json:"cell"` // "Markdown cell 2", counted among those
	Marker string `json:"marker"`
	Hint   string `json:"hint,omitempty"`

	several bool // it stands for more than one value
}

// text says what is wrong with it.
func (m unknownMarker) text() string {
	switch {
	case m.several:
		return m.Hint
	case m.Hint == "":
		return `the note has no such value, write \{ for a brace`
	}
	return "the note has no such value; " + m.Hint
}

// unknownMarkers lists the markers in Markdown cells that the note has no
// value for. Where a cell failed, its own error says why.
func (n *noteFile) unknownMarkers() []unknownMarker {
	list := []unknownMarker{}
	values := render.ValuesOf(n.results)
	number := 0
	for _, c := range n.file.Cells() {
		if c.Type() != "markdown" {
			continue
		}
		number++
		_, unknown := prose.Replace(c.Source(), values.Text)
		for _, m := range unknown {
			if values.Meant(m) {
				several := values.Several(m)
				list = append(list, unknownMarker{fmt.Sprintf("Markdown cell %d", number), m.String(), cmp.Or(several, values.Nearest(m)), several != ""})
			}
		}
	}
	return list
}
