package report

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
)

// Document is the rationale of a design.
type Document struct {
	Title        string
	Revision     string
	Author       string
	Version      string   // of the program
	State        []string // what a reader must know of where the values come from
	Notes        []*Chapter
	Unread       []string // why notes are missing
	Failures     []Failure
	Missed       []Missed
	Requirements []Requirement
	Inputs       []Input
	Assumptions  []Input
	Parts        []Part
	Cautions     []Caution
	Files        []File

	OperatingCases []OperatingCase
	CaseNames      []string
	CaseRows       []CaseRow

	linked map[string]bool // ids to which the text of the notes leads
}

// Chapter is the working of one note.
type Chapter struct {
	*Note
	Title string
	ID    string // of its place in the document

	headed   bool // Title is a heading of the note
	document *Document
	values   render.Values
	headings []heading
	links    []string
	beside   map[string]picture // files in its folder that the text names
	pictures []File             // those of them that the document shows
}

// Failure is a cell that has no result.
type Failure struct {
	Place
	Text string
}

// Place leads to the working of a cell.
type Place struct {
	Note string
	Cell string
	ID   string

	alone bool // there is no other note
}

func (p Place) place() Place { return p }

// Where names the place.
func (p Place) Where() string {
	if p.alone {
		return p.Cell
	}
	return p.Note + ", " + p.Cell
}

// Input is a value that the design was given.
type Input struct {
	Place
	Name, Value, Limits, About, Source, Reason string
}

// Part is a part of the schematic, or a value that was chosen from a series.
type Part struct {
	Place
	Reference, Name, Value, Limits, Rule, Series, Ideal, Deviation, Stress, About, Reason string
}

// Caution is what the documentation of a function warns of.
type Caution struct {
	Function, Text string
	Places         []Place
}

// NewDocument gathers what a design says. An empty title is that of the note, or
// of the design.
func NewDocument(d *Design, title, version string) *Document {
	doc := &Document{Title: title, Revision: d.Revision, Author: d.Author, Version: version, State: stateOf(d), Unread: d.Unread, linked: map[string]bool{}}
	cautions := map[string]int{}
	for i, n := range d.Notes {
		ch := &Chapter{Note: n, ID: fmt.Sprintf("note-%d", i+1), document: doc, values: render.ValuesOf(n.Results), beside: map[string]picture{}}
		ch.Title = path.Base(strings.TrimSuffix(n.Path, ".ipynb"))
		ch.read()
		doc.Notes = append(doc.Notes, ch)
		for _, f := range slices.Concat(n.Files, ch.pictures) {
			if !slices.Contains(doc.Files, f) { // two notes may read the same table
				doc.Files = append(doc.Files, f)
			}
		}
		places := map[string]Place{}
		for k, r := range n.Results {
			p := Place{Note: ch.Title, Cell: r.Label, ID: ch.cellID(k), alone: len(d.Notes) == 1}
			places[r.ID] = p
			doc.cell(p, r)
		}
		for _, b := range n.Note.Borrowed() {
			file := path.Join(path.Dir(n.Path), b.File)
			if !slices.ContainsFunc(d.Notes, func(o *Note) bool { return o.Path == file }) {
				doc.entry(Place{Note: ch.Title, Cell: b.File, ID: ch.importOf(b.File), alone: len(d.Notes) == 1}, b.Entry)
			}
		}
		doc.board(n, places)
		for _, c := range n.Note.Cautions() {
			at, known := cautions[c.Function]
			if !known {
				at = len(doc.Cautions)
				cautions[c.Function] = at
				doc.Cautions = append(doc.Cautions, Caution{Function: c.Function, Text: c.Text})
			}
			for _, id := range c.Cells {
				doc.Cautions[at].Places = append(doc.Cautions[at].Places, places[id])
			}
		}
	}
	if doc.Title == "" {
		doc.Title = doc.titleOf(d)
	}
	doc.caseTable()
	for _, ch := range doc.Notes { // only now all headings are known
		for _, l := range ch.links {
			if href, ok := ch.target(l); ok {
				doc.linked[strings.TrimPrefix(href, "#")] = true
			}
		}
	}
	return doc
}

// cellID is the place of the code cell of a number, from 0.
func (c *Chapter) cellID(number int) string { return fmt.Sprintf("%s-cell-%d", c.ID, number+1) }

// importOf is the place of the cell that imports a note, or else of the note's
// working.
func (c *Chapter) importOf(file string) string {
	for k, r := range c.Results {
		if slices.ContainsFunc(r.Items, func(it note.Item) bool { x, ok := it.(*note.Imported); return ok && x.File == file }) {
			return c.cellID(k)
		}
	}
	return c.ID
}

func (d *Document) cell(p Place, r *note.Result) {
	for _, e := range r.Errors {
		d.Failures = append(d.Failures, Failure{p, e.Error()})
	}
	for _, it := range r.Items {
		if what, at := note.Twice(it); what != "" {
			d.Missed = append(d.Missed, Missed{Place: p, What: what, How: "stands twice: in " + at + ", too", twice: what})
		}
		if it := note.WithTwice(it, ""); note.Fails(it) {
			d.Missed = append(d.Missed, missed(p, it))
		}
		switch x := it.(type) {
		case *note.Requirement:
			d.Requirements = append(d.Requirements, Requirement{p, x})
		case *note.Operating:
			d.OperatingCases = append(d.OperatingCases, OperatingCase{p, x})
		case *note.Entry:
			d.entry(p, x)
		}
	}
}

func (d *Document) entry(p Place, e *note.Entry) {
	switch {
	case e.Form == note.FormInput:
		for _, l := range leavesOf(e) {
			in := Input{Place: p, Name: l.name, About: e.Description, Source: e.Origin(), Reason: e.Reason}
			bare := l
			bare.low, bare.high = nil, nil
			in.Value = bare.text(e)
			switch {
			case l.name == e.Name:
				in.Limits = limits(e)
			case l.low != nil && !l.low.Same(*l.high):
				in.Limits = render.Limits(*l.low, *l.high)
			}
			d.Inputs = append(d.Inputs, in)
			if e.Origin() == "" || strings.HasPrefix(strings.ToLower(e.Source), "assumed") {
				d.Assumptions = append(d.Assumptions, in)
			}
		}
	}
}

func limits(e *note.Entry) string {
	if e.Spread == nil || e.Value.Kind != exec.KindQuantity || e.Spread.Low.Same(e.Spread.High) {
		return ""
	}
	return render.EntryLimits(e)
}
