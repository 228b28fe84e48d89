package report

import (
	"slices"

	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
	"ohmwright/units"
)

// requirements compares what must hold. They are found again by their words,
// else by their condition.
func (n *NoteChanges) requirements(renamed map[string]string) {
	a, b := requirementsOf(n.old), requirementsOf(n.now)
	used := map[*note.Requirement]bool{}
	match := func(x *note.Requirement, like func(o *note.Requirement) bool) *note.Requirement {
		for _, o := range a {
			if !used[o] && like(o) {
				return o
			}
		}
		return nil
	}
	partner := map[*note.Requirement]*note.Requirement{}
	for _, like := range []func(o, x *note.Requirement) bool{
		func(o, x *note.Requirement) bool {
			return o.Text == x.Text && sameExpr(renamedIn(o.Condition, renamed), x.Condition)
		},
		func(o, x *note.Requirement) bool { return o.Text == x.Text },
		func(o, x *note.Requirement) bool {
			return x.Condition != nil && sameExpr(renamedIn(o.Condition, renamed), x.Condition)
		},
	} {
		for _, x := range b {
			if partner[x] != nil {
				continue
			}
			if o := match(x, func(o *note.Requirement) bool { return like(o, x) }); o != nil {
				partner[x], used[o] = o, true
			}
		}
	}
	for _, x := range b {
		o := partner[x]
		if o == nil {
			n.Requirements = append(n.Requirements, RequirementChange{Text: x.Text, Now: judged(x), Flipped: x.Missed()})
			continue
		}
		c := RequirementChange{Text: x.Text, Was: judged(o), Now: judged(x), Flipped: o.Missed() != x.Missed()}
		if was := renamedIn(o.Condition, renamed); !sameExpr(was, x.Condition) {
			c.Needed, c.Needs = render.Formula(was, render.Plain), render.Formula(x.Condition, render.Plain)
		}
		if c.Flipped || o.Waived != x.Waived || c.Needs != "" || !sameMargin(o.Margin, x.Margin) || !sameMargin(o.Worst, x.Worst) {
			n.Requirements = append(n.Requirements, c)
		}
		if o.Text != x.Text {
			n.Said = append(n.Said, Said{Name: "requirement", What: "words", Was: o.Text, Now: x.Text})
		}
	}
	for _, o := range a {
		if !used[o] {
			n.Requirements = append(n.Requirements, RequirementChange{Text: o.Text, Was: judged(o)})
		}
	}
	n.onTheBoard()
	slices.SortStableFunc(n.Requirements, func(x, y RequirementChange) int {
		switch {
		case x.Flipped == y.Flipped:
			return 0
		case x.Flipped:
			return -1
		}
		return 1
	})
}

func requirementsOf(n *Note) (list []*note.Requirement) {
	for _, r := range n.Results {
		for _, it := range r.Items {
			if q, ok := it.(*note.Requirement); ok {
				list = append(list, q)
			}
		}
	}
	return list
}

// judged is a verdict with its margins.
func judged(q *note.Requirement) string {
	text := "fails"
	if q.Holds {
		text = "holds"
	}
	if q.Waived != "" {
		text += ", waived: " + q.Waived
	}
	if q.Margin != nil {
		text += ", margin " + q.Margin.String()
	}
	if q.Worst != nil {
		text += ", worst " + q.Worst.String()
	}
	return text
}

func sameMargin(a, b *units.Quantity) bool {
	if a == nil || b == nil {
		return a == b
	}
	return a.Dim() == b.Dim() && near(a.SI(), b.SI())
}

// failing lists the cells of one version that fail, and whose errors the other
// version does not have.
func failing(n, other *Note) []string {
	known := map[string]bool{}
	for _, r := range other.Results {
		for _, e := range r.Errors {
			known[e.Msg] = true
		}
	}
	list := []string{}
	for _, r := range n.Results {
		for _, e := range r.Errors {
			if !known[e.Msg] {
				list = append(list, e.Error())
			}
		}
	}
	return list
}
