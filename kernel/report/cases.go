package report

import (
	"slices"
	"strings"

	"ohmwright/kernel/note"
	"ohmwright/units"
)

// OperatingCase is a named operating case of a note.
type OperatingCase struct {
	Place
	*note.Operating
}

// Inputs are what is otherwise in it.
func (o OperatingCase) Inputs() string {
	var list []string
	for _, i := range o.Operating.Inputs {
		list = append(list, i.Name+" = "+i.Text())
	}
	return strings.Join(list, ", ")
}

// Verdict of the case.
func (o OperatingCase) Verdict() string {
	switch {
	case o.Trouble != "":
		return "cannot be computed"
	case o.Holds:
		return "holds"
	}
	return "fails"
}

// CaseRow is a requirement as designed, and then in the operating cases of the
// design, which are known by their names.
type CaseRow struct {
	Requirement
	In []CaseCell
}

// CaseCell is what a requirement comes to.
type CaseCell struct {
	Text   string
	Misses bool
}

// caseTable sets every requirement of the design against every operating case.
func (d *Document) caseTable() {
	column := map[string]int{}
	for _, o := range d.OperatingCases {
		if _, known := column[o.Name]; !known {
			column[o.Name] = 1 + len(d.CaseNames)
			d.CaseNames = append(d.CaseNames, o.Name)
		}
	}
	if len(d.CaseNames) == 0 {
		return
	}
	known := map[*note.Requirement][]CaseCell{}
	for _, ch := range d.Notes {
		cases, needs := note.InCases(ch.Results)
		for _, q := range needs {
			row := make([]CaseCell, 1+len(d.CaseNames))
			row[0] = caseCell(q.Holds, q.Waived, q.Margin, q.Worst)
			for i, j := range q.In {
				cell := CaseCell{Text: "as designed", Misses: row[0].Misses}
				switch {
				case j != nil:
					cell = caseCell(j.Holds, j.Waived, j.Margin, j.Worst)
				case cases[i].Trouble != "":
					cell = CaseCell{"not computed", true}
				}
				at := &row[column[cases[i].Name]]
				if at.Text != "" { // two cases of one name
					cell.Text = at.Text + "; " + cell.Text
				}
				*at = CaseCell{cell.Text, at.Misses || cell.Misses}
			}
			for i := range row {
				if row[i].Text == "" {
					row[i].Text = "–" // its note has no such case
				}
			}
			known[q.Requirement] = row
		}
	}
	for _, q := range d.Requirements {
		d.CaseRows = append(d.CaseRows, CaseRow{q, known[q.Requirement]})
	}
}

// caseCell is a verdict with its margins.
func caseCell(holds bool, waived string, margin, worst *units.Quantity) CaseCell {
	var parts []string
	switch {
	case !holds && waived != "":
		parts = append(parts, "waived")
	case !holds:
		parts = append(parts, "fails")
	case margin == nil:
		parts = append(parts, "holds")
	}
	if margin != nil {
		parts = append(parts, margin.String())
	}
	if worst != nil {
		parts = append(parts, "worst "+worst.String())
	}
	return CaseCell{strings.Join(parts, ", "), !holds && waived == ""}
}

// CasesShown are the rows of the notes that state cases; of the others, which are
// named, a table would have nothing but dashes.
func (d *Document) CasesShown() (shown []CaseRow) {
	for _, r := range d.CaseRows {
		if slices.ContainsFunc(d.OperatingCases, func(o OperatingCase) bool { return o.Note == r.Note }) {
			shown = append(shown, r)
		}
	}
	return shown
}

// Caseless names the notes with requirements that state no operating case.
func (d *Document) Caseless() string {
	var names []string
	for _, r := range d.CaseRows {
		if !slices.Contains(names, r.Note) && !slices.ContainsFunc(d.OperatingCases, func(o OperatingCase) bool { return o.Note == r.Note }) {
			names = append(names, r.Note)
		}
	}
	return behind("No operating case is stated in: ", strings.Join(names, "; "))
}

// Elsewhere reports whether a note with cases lacks some of the others.
func (d *Document) Elsewhere() bool {
	return slices.ContainsFunc(d.CasesShown(), func(r CaseRow) bool {
		return slices.ContainsFunc(r.In, func(c CaseCell) bool { return c.Text == "–" })
	})
}
