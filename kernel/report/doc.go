// Package report writes what people read beside a design: the document that
// says why it is as it is, and what a change did to it.
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
//
// [NewDocument] gathers the rationale of one version: verdict, requirements,
// inputs, assumptions, chosen parts, the working of each note, cautions. Its
// methods HTML, Markdown and CSV write it; the same design gives the same bytes.
package report

import "ohmwright/kernel/note"

// Design is one version of some notes.
type Design struct {
	Notes []*Note

	// What only a document needs:
	WhatIf   []string // inputs that were set to other values than the notes say: "Vin=9V"
	Redesign bool     // parts were chosen again for those
	Unread   []string // why notes that belong to it are not among Notes
	Folder   string   // the name of the folder that it is, which several notes are called by
	Revision string
	Author   string
}

// Note is one of them, computed.
type Note struct {
	Path    string // by which the same note is found in another version
	Note    *note.Note
	Results []*note.Result
	Prose   []Prose // its Markdown cells, and the texts that its other cells show
	// Order are its names, what is needed first; nil: as Note has them now. It
	// keeps a version that Note has left behind.
	Order []string
	// Borrowed are its inputs in notes that it imports, where Order is given.
	Borrowed []note.Borrowed

	// What only a document needs:
	Cells []Cell
	Files []File // the note itself, then the files that its cells read
	// Open reads a file of the note's folder, for the pictures in its text; nil
	// where there are none.
	Open func(name string) ([]byte, error)

	// Stored says which of the results that the file has stored are not those
	// of Results: "cell 2, Vout". Another program shows what is stored.
	Stored []string
}

// Prose is a Markdown cell, or a text that a cell shows, with its markers.
type Prose struct {
	ID, Text string
}

// Cell is one cell of a note, in the order of the file.
type Cell struct {
	Markdown    string                       // of a text cell
	Attachments map[string]map[string]string // its pictures: name, type, base64
	Result      *note.Result                 // of a code cell
	Code        string

	shown *note.Prose // of a text that a code cell shows
}

// File is what a design was read from.
type File struct {
	Name string
	Hash string // SHA-256, all of it
}
