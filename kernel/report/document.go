package report

import (
	"cmp"
	"fmt"
	"math"
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
	Version      string // of the program
	Notes        []*Chapter
	Failures     []Failure
	Requirements []Requirement
	Inputs       []Input
	Assumptions  []Input
	Parts        []Part
	Cautions     []Caution
	Files        []File
}

// Chapter is the working of one note.
type Chapter struct {
	*Note
	Title string
	ID    string // of its place in the document
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

// Where names the place.
func (p Place) Where() string {
	if p.alone {
		return p.Cell
	}
	return p.Note + ", " + p.Cell
}

// Requirement is a line of the list of requirements.
type Requirement struct {
	Place
	*note.Requirement
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

// NewDocument gathers what a design says. An empty title is the first heading
// of the first note.
func NewDocument(d *Design, title, version string) *Document {
	doc := &Document{Title: title, Version: version}
	cautions := map[string]int{}
	for i, n := range d.Notes {
		ch := &Chapter{Note: n, ID: fmt.Sprintf("note-%d", i+1)}
		ch.Title = cmp.Or(firstHeading(n), path.Base(strings.TrimSuffix(n.Path, ".ipynb")))
		doc.Notes = append(doc.Notes, ch)
		for _, f := range n.Files {
			if !slices.Contains(doc.Files, f) {
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
	if doc.Title == "" && len(doc.Notes) > 0 {
		doc.Title = doc.Notes[0].Title
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
		switch x := it.(type) {
		case *note.Requirement:
			d.Requirements = append(d.Requirements, Requirement{p, x})
		case *note.Entry:
			d.entry(p, x)
		}
	}
}

func (d *Document) entry(p Place, e *note.Entry) {
	switch {
	case e.Form == note.FormInput:
		for _, l := range leaves(nil, e.Name, e.Value) {
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

// deviation of a chosen value from the ideal one.
func deviation(d float64) string {
	if math.Abs(d) < 0.0005 {
		return "0 %"
	}
	return percent(d)
}

// Fails reports whether a cell has no result, or something that the design must
// meet is missed.
func (d *Document) Fails() bool {
	if len(d.Failures) > 0 {
		return true
	}
	for _, c := range d.Notes {
		for _, r := range c.Results {
			if slices.ContainsFunc(r.Items, note.Fails) {
				return true
			}
		}
	}
	return false
}

func (d *Document) missed() (list []Requirement) {
	for _, q := range d.Requirements {
		if q.Missed() {
			list = append(list, q)
		}
	}
	return list
}

// Verdict says in a sentence or two how the design stands.
func (d *Document) Verdict() string {
	var parts []string
	if n := len(d.Failures); n > 0 {
		parts = append(parts, counted(n, "cell has", "cells have")+" no result, so this document is incomplete.")
	}
	all, missed, nominal, waived := len(d.Requirements), len(d.missed()), 0, 0
	for _, q := range d.Requirements {
		if q.Nominal {
			nominal++
		}
		if !q.Holds && q.Waived != "" {
			waived++
		}
	}
	switch {
	case all == 0:
		parts = append(parts, "No requirement is stated.")
	case missed == 0:
		parts = append(parts, "In every case, "+counted(all-waived, "requirement holds", "requirements hold")+"; none fails.")
	default:
		parts = append(parts, fmt.Sprintf("%s, %s. With nominal values %d of %d hold.",
			counted(missed, "requirement fails", "requirements fail"), counted(all-missed-waived, "holds in every case", "hold in every case"), nominal, all))
	}
	if waived > 0 {
		parts = append(parts, counted(waived, "is missed and waived.", "are missed and waived."))
	}
	if n := d.twice(); n > 0 {
		parts = append(parts, counted(n, "reference, identifier or case stands twice.", "references, identifiers or cases stand twice."))
	}
	return strings.Join(parts, " ")
}

// twice counts what stands twice and may not.
func (d *Document) twice() (n int) {
	for _, c := range d.Notes {
		for _, r := range c.Results {
			for _, it := range r.Items {
				if what, _ := note.Twice(it); what != "" {
					n++
				}
			}
		}
	}
	return n
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// verdict, margin and worst case of a requirement in words, for its table.
func (q Requirement) Verdict() string {
	switch {
	case q.Holds:
		return "holds"
	case q.Waived != "":
		return "waived"
	case q.Nominal:
		return "fails in the worst case"
	}
	return "fails"
}

// Nominally is the margin with nominal values.
func (q Requirement) Nominally() string {
	if q.Margin == nil {
		return ""
	}
	return q.Margin.String()
}

// Worstly is the smallest margin of all cases.
func (q Requirement) Worstly() string {
	if q.Worst == nil {
		return ""
	}
	return q.Worst.String()
}

// Case is what gives the smallest margin.
func (q Requirement) Case() string {
	return strings.TrimSpace(cmp.Or(q.WorstCase, q.FailsWhere))
}

// Needs is the condition.
func (q Requirement) Needs() string {
	if q.Condition == nil {
		return ""
	}
	return render.Formula(q.Condition, render.Plain)
}
