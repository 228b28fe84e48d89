package report

import (
	"fmt"
	"slices"
	"strings"
)

// Unsourced is what some requirements do not say of themselves.
type Unsourced struct {
	What         string
	Requirements []Requirement // none where it is so of all
}

// Unsourced tells which requirements name no source, and which no owner where
// others name theirs. A rating comes with its part.
func (d *Document) Unsourced() (list []Unsourced) {
	stated := slices.Clone(d.Requirements)
	stated = slices.DeleteFunc(stated, func(q Requirement) bool { return q.Rating != nil })
	without := func(what string, lacks func(q Requirement) bool) {
		missing := slices.Clone(stated)
		missing = slices.DeleteFunc(missing, func(q Requirement) bool { return !lacks(q) })
		switch {
		case len(missing) == 0:
		case len(missing) == len(stated):
			list = append(list, Unsourced{What: fmt.Sprintf("None of the requirements (%d) names %s.", len(stated), what)})
		default:
			list = append(list, Unsourced{"Requirements without " + what + ":", missing})
		}
	}
	without("a source", func(q Requirement) bool { return q.Requirement.Source == "" })
	owned := func(q Requirement) bool { return strings.Contains(strings.ToLower(q.Description), "owner:") }
	if slices.ContainsFunc(stated, owned) {
		without("an owner", func(q Requirement) bool { return !owned(q) })
	}
	return list
}
