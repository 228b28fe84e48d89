// Package report writes what people read beside a design: what a change did
// to it.
//
// A [Design] is some notes that have been computed. [Compare] finds what parts
// two versions of one: requirements that flipped, inputs that changed, results
// that moved and because of what, sentences that say something else. It goes
// by names and values. The order of cells and of definitions, the spelling of
// a value and the name of a variable change nothing that a board could show,
// and are no difference.
//
//	changes := report.Compare(old, new)
//	fmt.Print(report.Text(changes, 80))
package report

import "ohmwright/kernel/note"

// Design is one version of some notes.
type Design struct{ Notes []*Note }

// Note is one of them, computed.
type Note struct {
	Path    string // by which the same note is found in another version
	Note    *note.Note
	Results []*note.Result
	Prose   []Prose // its Markdown cells
}

// Prose is a Markdown cell.
type Prose struct {
	ID, Text string
}
