package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
)

// Requirement is a line of the list of requirements.
type Requirement struct {
	Place
	*note.Requirement
}

// Missed is what the design, or the note, must meet and does not: a
// requirement, a named case, a reading, a reference or identifier that stands twice.
type Missed struct {
	Place
	What, How string

	item  note.Item // nil for what stands twice
	twice string
}

func missed(p Place, it note.Item) Missed {
	m := Missed{Place: p, item: it, What: render.Verdict(it)}
	switch x := it.(type) {
	case *note.Requirement:
		q := Requirement{p, x}
		m.What = q.Words()
		m.How = q.Verdict() + behind(", nominal margin ", q.Nominally()) + behind(", worst ", q.Worstly()) + behind(" where ", q.Case())
	case *note.Operating:
		var how []string
		if x.Trouble != "" {
			how = append(how, "cannot be computed: "+x.Trouble)
		}
		for _, j := range x.Judged {
			if j.Holds || j.Waived != "" {
				continue
			}
			s := "“" + j.Text + "” fails"
			if j.Margin != nil {
				s += ", nominal margin " + j.Margin.String()
			}
			if j.Worst != nil {
				s += ", worst " + j.Worst.String() + behind(" where ", j.WorstCase)
			}
			how = append(how, s)
		}
		for _, text := range x.Anyway {
			how = append(how, "“"+text+"” fails as designed, and the case does not touch it")
		}
		m.How = strings.Join(how, "; ")
	case *note.Measurement:
		m.How = "the reading lies outside of what was computed"
	}
	return m
}

// Fails reports whether a note is missing, a cell has no result, or something that the design must
// meet is missed.
func (d *Document) Fails() bool { return len(d.Failures)+len(d.Missed)+len(d.Unread) > 0 }

// Verdict says in a few sentences how the design stands. What fails is named
// where it is not much.
func (d *Document) Verdict() string {
	var parts []string
	judged := "none fails."
	if n := len(d.Unread); n > 0 {
		parts = append(parts, counted(n, "note is", "notes are")+" missing, so this document is incomplete.")
	}
	if n := len(d.Failures); n > 0 {
		parts = append(parts, counted(n, "cell has", "cells have")+" no result, so this document is incomplete.")
		judged = "none fails of those that could be judged."
	}
	var fail, cases, readings, twice []string
	for _, m := range d.Missed {
		switch x := m.item.(type) {
		case nil:
			twice = append(twice, m.twice)
		case *note.Requirement:
			fail = append(fail, cmp.Or(x.ID, "“"+x.Text+"”"))
		case *note.Operating:
			cases = append(cases, x.Name)
		case *note.Measurement:
			readings = append(readings, cmp.Or(x.Name, render.Formula(x.Formula, render.Plain)))
		}
	}
	all, nominal := len(d.Requirements), 0
	var waived []string
	for _, q := range d.Requirements {
		if q.Nominal {
			nominal++
		}
		if !q.Holds && q.Waived != "" {
			waived = append(waived, cmp.Or(q.Requirement.ID, q.Text))
		}
	}
	hold := all - len(fail) - len(waived)
	designed := "As designed, " + counted(hold, "requirement holds", "requirements hold") + " over all limits"
	but := ""
	switch {
	case all == 0 && len(d.Failures) > 0:
		parts = append(parts, "No requirement could be judged.")
	case all == 0:
		parts = append(parts, "No requirement is stated.")
	case len(fail) > 0:
		parts = append(parts, listing(fail, "requirement fails", "requirements fail"))
		if hold > 0 {
			parts = append(parts, "As designed, "+counted(hold, "holds", "hold")+" over all limits.")
		}
		parts = append(parts, fmt.Sprintf("With nominal values %d of %d hold.", nominal, all))
	case hold == 0: // all are waived
	case len(d.Missed)+len(waived) > 0:
		parts, but = append(parts, designed+"."), "But "
	default:
		parts = append(parts, designed+"; "+judged)
	}
	for _, c := range []struct {
		names     []string
		one, many string
	}{
		{waived, "requirement is missed and waived", "requirements are missed and waived"},
		{cases, "operating case fails", "operating cases fail"},
		{readings, "reading lies outside of what was computed", "readings lie outside of what was computed"},
		{twice, "reference, identifier or case stands twice", "references, identifiers or cases stand twice"},
	} {
		if len(c.names) > 0 {
			parts = append(parts, but+listing(c.names, c.one, c.many))
			but = ""
		}
	}
	return strings.Join(parts, " ")
}

// listing counts things, and names them where they are few.
func listing(names []string, one, many string) string {
	text := counted(len(names), one, many)
	var once []string // two notes may use the same words
	for _, n := range names {
		if n = strings.Join(strings.Fields(n), " "); !slices.Contains(once, n) {
			once = append(once, n)
		}
	}
	if len(names) <= 3 {
		text += ": " + strings.Join(once, ", ")
	}
	return text + "."
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
		return "fails at some limits"
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

// Worstly is the smallest margin over all limits.
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

// Misses reports whether it fails and nobody waived it.
func (q Requirement) Misses() bool { return q.Requirement.Missed() }

// Words is what must hold; of a rating, with what is allowed.
func (q Requirement) Words() string { return render.MustHold(q.Requirement) }

// Unnumbered is Words without the identifier.
func (q Requirement) Unnumbered() string {
	return strings.TrimSpace(strings.TrimPrefix(q.Words(), q.Requirement.ID+":"))
}

// About is the comment behind it, the source in brackets, and its reason.
func (q Requirement) About() string {
	return strings.TrimSpace(q.Description + behind(" [", q.Requirement.Source) + strings.Repeat("]", min(1, len(q.Requirement.Source))) + behind(" Because: ", q.Reason))
}

// Described reports whether a requirement has a comment.
func (d *Document) Described() bool {
	return slices.ContainsFunc(d.Requirements, func(q Requirement) bool { return q.About() != "" })
}

// Needs is the condition.
func (q Requirement) Needs() string {
	switch r := q.Rating; {
	case r != nil && r.Policy < 1:
		return render.Formula(r.Stress, render.Plain) + " ≤ " + render.ShareText(r.Policy) + " of " + r.Limit.String()
	case r != nil:
		return render.Formula(r.Stress, render.Plain) + " ≤ " + r.Limit.String()
	case q.Condition == nil:
		return ""
	}
	return render.Formula(q.Condition, render.Plain)
}
