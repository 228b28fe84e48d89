package render

import (
	"fmt"
	"strconv"
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/note"
)

// statement is one thing that a cell shows, the same for every flavour.
type statement struct {
	kind        statementKind
	name        string // of an entry, "" for a value shown
	spoken      bool   // the name is words of source and no identifier
	value       shape
	limits      string
	description string // or the text of a requirement, a print, a notice
	source      string
	word        string // the verdict of a requirement
	holds       bool
	lines       []labelled
	why         *whyNode    // of a whyStatement, which has nothing else
	prose       *note.Prose // of a proseStatement, which has nothing else
}

type statementKind int

const (
	entryStatement statementKind = iota
	requirementStatement
	printedStatement
	noticeStatement // description only, the program's own words
	whyStatement
	proseStatement
)

// labelled is a line below a result: from, with, because, needs.
type labelled struct {
	label string
	parts []part
	rows  [][]string // a small table in place of parts; the first row is its head
}

// part is a piece of a labelled line: a formula, or words.
type part struct {
	formula *cell.Expr
	numbers bool   // its numbers instead of its names
	ours    string // words of the program
	users   string // words of the user
}

// statements turns the items of a cell into what is set.
func statements(items []note.Item) []statement {
	var out []statement
	for _, it := range items {
		switch it := it.(type) {
		case *note.Entry:
			if !it.Quiet {
				out = append(out, entry(it))
			}
		case *note.Shown:
			out = append(out, shown(it))
		case *note.Requirement:
			out = append(out, requirement(it))
		case *note.Printed:
			out = append(out, statement{kind: printedStatement, description: strings.TrimSuffix(visible(it.Text), "\n")})
		case *note.Notice:
			text := oneLine(it.Text)
			if it.Line > 0 {
				text = "line " + strconv.Itoa(it.Line) + ": " + text
			}
			out = append(out, statement{kind: noticeStatement, description: text})
		case *note.Spreading:
			out = append(out, spreading(it))
		case *note.Derivation:
			if it.Why != nil {
				out = append(out, statement{kind: whyStatement, why: treeOf(it.Why)})
			}
		case *note.Plotted:
			out = append(out, plotted(it))
		case *note.Prose:
			out = append(out, statement{kind: proseStatement, prose: it})
		case *note.Part:
			out = append(out, partStatement(it))
		case *note.Policy:
			out = append(out, policyStatement(it))
		case *note.Waiver:
			out = append(out, waiverStatement(it))
		case *note.Operating:
			out = append(out, caseStatement(it))
		case *note.Measurement:
			out = append(out, measuredStatement(it))
		case *note.Imported:
			out = append(out, importStatement(it))
		}
	}
	return out
}

func entry(e *note.Entry) statement {
	s := statement{
		name:        e.Name,
		value:       entryValue(e),
		limits:      EntryLimits(e),
		description: oneLine(e.Description),
		source:      oneLine(e.Origin()),
	}
	if e.Form == note.FormComputed || e.Form == note.FormChosen {
		s.lines = derivation(e)
	}
	if _, columns, ok := tableText(e); ok {
		s.lines = append([]labelled{{label: "reads", parts: []part{{users: oneLine(columns)}}}}, s.lines...)
	}
	s.lines = append(s.lines, searchLines(e.Spread)...)
	s.lines = append(s.lines, roughParts(&e.Value)...)
	if r := oneLine(e.Reason); r != "" {
		s.lines = append(s.lines, labelled{label: "because", parts: []part{{users: r}}})
	}
	return s
}

// entryValue is the result; a chosen part stands as it is bought, an input as
// it was typed.
func entryValue(e *note.Entry) shape {
	if t, ok := e.Text(); ok {
		return shape{text: t, plain: true}
	}
	if rows, _, ok := tableText(e); ok {
		return shape{text: rows, plain: true}
	}
	return shapeOf(&e.Value, 0)
}

// importStatement is a note that is imported, and what is wrong in it.
func importStatement(i *note.Imported) statement {
	s := statement{name: i.Name, value: shape{text: oneLine(i.File)}}
	for _, label := range i.Errors {
		s.lines = append(s.lines, labelled{label: "error", parts: []part{{users: oneLine(label) + " has an error"}}})
	}
	for _, text := range i.Failed {
		s.lines = append(s.lines, labelled{label: "fails", parts: []part{{users: oneLine(text)}}})
	}
	return s
}

// tableText splits what a table says of itself: how many rows it has, and what
// it gives over which inputs.
func tableText(e *note.Entry) (rows, columns string, ok bool) {
	if e.Value.Type != "table.Table" {
		return "", "", false
	}
	return strings.Cut(e.Value.Text, ": ")
}

// derivation is the lines from and with.
func derivation(e *note.Entry) []labelled {
	f := e.Formula
	if e.Spread != nil {
		f = withoutTolerance(f) // the limits stand in their column
	}
	var lines []labelled
	switch {
	case f != nil:
		lines = append(lines, labelled{label: "from", parts: []part{{formula: f}}})
	case e.Choice != nil && e.Choice.Of != nil:
		lines = append(lines, labelled{label: "from", parts: []part{{ours: choiceText(e.Choice)}, {formula: e.Choice.Of}}})
	}
	if e.Choice == nil {
		if hasNumbers(f) {
			lines = append(lines, labelled{label: "with", parts: []part{{formula: f, numbers: true}}})
		}
		return lines
	}
	c := e.Choice
	with := labelled{label: "with"}
	if hasNumbers(c.Of) {
		with.parts = append(with.parts, part{formula: c.Of, numbers: true}, part{ours: ", "})
	}
	text := "ideal " + c.Ideal.String() + ", chosen " + c.Chosen.AsBought() + " (" + Deviation(c.Deviation) + ")"
	text += keptText(c)
	with.parts = append(with.parts, part{ours: text})
	return append(lines, with)
}

func choiceText(c *note.Choice) string {
	switch c.Rule {
	case "at least":
		return "smallest " + c.Series + " of at least "
	case "at most":
		return "largest " + c.Series + " of at most "
	}
	return c.Rule + " " + c.Series + " to "
}

// withoutTolerance takes ± off a definition, but for what depends on another
// value.
func withoutTolerance(e *cell.Expr) *cell.Expr {
	for e != nil && e.Kind == cell.ExprBinary && e.Text == "±" && e.Args[1].Kind == cell.ExprLiteral {
		e = e.Args[0]
	}
	return e
}

// hasNumbers reports whether putting numbers for names says something new:
// e has a name or field with a number, and is more than that name.
func hasNumbers(e *cell.Expr) bool {
	if e == nil || chain(e) || e.Kind == cell.ExprCall && e.Text == "Another" {
		return false
	}
	for _, a := range e.Args {
		if chain(a) && numeric(a) || hasNumbers(a) {
			return true
		}
	}
	return false
}

func numeric(e *cell.Expr) bool {
	return e.Value != nil && (e.Value.Kind == exec.KindNumber || e.Value.Kind == exec.KindQuantity)
}

func shown(s *note.Shown) statement {
	out := statement{value: shapeOf(&s.Value, 0), limits: spreadText(s.Spread)}
	f := s.Formula
	switch {
	case f == nil || f.Kind == cell.ExprString:
	case f.Kind == cell.ExprName:
		out.name = f.Text
	default:
		out.lines = append(out.lines, labelled{label: "from", parts: []part{{formula: f}}})
		if hasNumbers(f) {
			out.lines = append(out.lines, labelled{label: "with", parts: []part{{formula: f, numbers: true}}})
		}
	}
	out.lines = append(out.lines, searchLines(s.Spread)...)
	if (f == nil || f.Kind != cell.ExprName) && rough(&s.Value) {
		out.lines = append(out.lines, ours("limits", "at least as far as shown: give it a name to have its limits searched"))
	} else {
		out.lines = append(out.lines, roughParts(&s.Value)...)
	}
	return out
}

func requirement(r *note.Requirement) statement {
	s := statement{kind: requirementStatement, description: oneLine(MustHold(r)), word: judgedWord(r), holds: r.Holds || r.Waived != "", lines: twiceLines(r)}
	if r.Rating != nil {
		s.lines = append(s.lines, ratedLines(r)...)
		s.lines = append(s.lines, verdictLines(r)...)
		s.lines = append(s.lines, aboutLines(r)...)
		return s
	}
	if r.Condition != nil {
		s.lines = append(s.lines, labelled{label: "needs", parts: []part{{formula: r.Condition}}})
	}
	var with []part
	if hasNumbers(r.Condition) {
		with = append(with, part{formula: r.Condition, numbers: true})
	}
	if r.Margin != nil {
		text := "margin " + r.Margin.String()
		if len(with) > 0 {
			text = ", " + text
		}
		with = append(with, part{ours: text})
	}
	if len(with) > 0 {
		s.lines = append(s.lines, labelled{label: "with", parts: with})
	}
	s.lines = append(s.lines, verdictLines(r)...)
	s.lines = append(s.lines, aboutLines(r)...)
	return s
}

// verdict is the first word of a requirement.
func verdict(holds bool) string {
	if holds {
		return "holds"
	}
	return "FAILS"
}

func count(n int) string { return fmt.Sprintf("%d", n) }
