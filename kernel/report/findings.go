package report

import (
	"strings"

	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
)

// Finding is what is not as it has to be, beside requirements: an operating
// case that misses one, a reading outside of what was computed, a reference that
// stands twice.
type Finding struct {
	Place
	Text string
	kind int // of kinds
}

var kinds = [][2]string{
	{"operating case fails", "operating cases fail"},
	{"reading lies outside", "readings lie outside"},
	{"reference stands twice", "references stand twice"},
}

// findings of a cell.
func (d *Document) findings(p Place, r *note.Result) {
	for _, it := range r.Items {
		if !note.Fails(it) {
			continue
		}
		f := Finding{Place: p, Text: render.Verdict(it)}
		switch x := it.(type) {
		case *note.Requirement: // has its own list
			continue
		case *note.Operating:
			if missed := x.Misses(); len(missed) > 0 {
				f.Text += ": fails " + strings.Join(missed, "; ")
			}
			if x.Trouble != "" {
				f.Text += ": " + x.Trouble
			}
		case *note.Measurement:
			f.kind = 1
		case *note.Part:
			f.kind = 2
		}
		d.Findings = append(d.Findings, f)
	}
}

// twice finds references that stand in two notes; in one note a part says so
// itself.
func (d *Document) twice() {
	first := map[string]Part{}
	for _, p := range d.Parts {
		other, again := first[p.Reference]
		switch {
		case p.Reference == "":
		case !again:
			first[p.Reference] = p
		case other.chapter != p.chapter:
			d.Findings = append(d.Findings, Finding{p.Place, p.Reference + " stands twice: in " + other.Where() + ", too", 2})
		}
	}
}

// found counts the findings.
func (d *Document) found() string {
	var list []string
	for kind, words := range kinds {
		n := 0
		for _, f := range d.Findings {
			if f.kind == kind {
				n++
			}
		}
		if n > 0 {
			list = append(list, counted(n, words[0], words[1]))
		}
	}
	return strings.Join(list, ", ")
}
