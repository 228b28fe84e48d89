package report

import (
	"fmt"
	"strings"

	"ohmwright/kernel/note"
)

// PartChange is a part of the schematic that changed, came or went.
type PartChange struct {
	Reference string `json:"reference"`
	Was       string `json:"was,omitempty"` // "" where it is added
	Now       string `json:"now,omitempty"` // "" where it is removed
}

// onTheBoard compares what two versions say of the board: parts by their
// reference, waivers by what they waive, cases by their name, readings by what
// they are readings of.
func (n *NoteChanges) onTheBoard() {
	was, is := partsOf(n.old), partsOf(n.now)
	for _, p := range is.order {
		if was.text[p] != is.text[p] {
			n.Parts = append(n.Parts, PartChange{p, was.text[p], is.text[p]})
		}
	}
	for _, p := range was.order {
		if is.text[p] == "" {
			n.Parts = append(n.Parts, PartChange{Reference: p, Was: was.text[p]})
		}
	}
	before, after := waiversOf(n.old), waiversOf(n.now)
	for _, id := range after.order {
		if before.text[id] != after.text[id] {
			n.Said = append(n.Said, Said{Name: id, What: "waiver", Was: before.text[id], Now: after.text[id]})
		}
	}
	for _, id := range before.order {
		if after.text[id] == "" {
			n.Said = append(n.Said, Said{Name: id, What: "waiver", Was: before.text[id]})
		}
	}
	a, b := judgedOf(n.old), judgedOf(n.now)
	for _, k := range b.order {
		if a.text[k] != b.text[k] {
			n.Requirements = append(n.Requirements, RequirementChange{Text: k, Was: a.text[k], Now: b.text[k], Flipped: a.fails[k] != b.fails[k]})
		}
	}
	for _, k := range a.order {
		if b.text[k] == "" {
			n.Requirements = append(n.Requirements, RequirementChange{Text: k, Was: a.text[k]})
		}
	}
}

// listed is what a note says of some things, in its order.
type listed struct {
	order []string
	text  map[string]string
	fails map[string]bool
}

func newListed() listed { return listed{text: map[string]string{}, fails: map[string]bool{}} }

func (l *listed) add(key, text string, fails bool) {
	if _, again := l.text[key]; again {
		l.text[key] += "; " + text
	} else {
		l.order = append(l.order, key)
		l.text[key] = text
	}
	l.fails[key] = l.fails[key] || fails
}

// partsOf lists the parts with value, tolerance, what they are and their
// ratings, and the rules of derating.
func partsOf(n *Note) listed {
	l := newListed()
	ratings := map[string]string{}
	for _, r := range n.Results {
		for _, it := range r.Items {
			if q, ok := it.(*note.Requirement); ok && q.Rating != nil {
				ratings[q.Rating.Reference] += ", " + q.Rating.What + " rated " + q.Rating.Limit.String()
			}
		}
	}
	for _, r := range n.Results {
		for _, it := range r.Items {
			if rule, ok := it.(*note.Policy); ok {
				l.add(strings.TrimSpace("derating, "+rule.Letters+" "+rule.What), fmt.Sprintf("at most %.4g %% of the rating", rule.Share*100), false)
			}
			p, ok := it.(*note.Part)
			if !ok {
				continue
			}
			text := p.Text()
			if share, ok := p.Tolerance(); ok {
				text += fmt.Sprintf(" ± %.3g %%", share*100)
			}
			if e := p.Entry; e != nil && e.Choice != nil && e.Name == p.Name {
				text += ", " + e.Choice.Series
			}
			l.add(p.Reference, text+ratings[p.Reference], false)
		}
	}
	return l
}

// waiversOf lists the waivers, also those that waive nothing, by what they waive.
func waiversOf(n *Note) listed {
	l := newListed()
	for _, r := range n.Results {
		for _, it := range r.Items {
			if w, ok := it.(*note.Waiver); ok {
				l.add(w.ID, w.Reason, false)
			}
		}
	}
	return l
}

// judgedOf lists the cases and the readings with their verdicts.
func judgedOf(n *Note) listed {
	l := newListed()
	for _, r := range n.Results {
		for _, it := range r.Items {
			switch x := it.(type) {
			case *note.Operating:
				text := "fails"
				if x.Holds {
					text = "holds"
				}
				for _, i := range x.Inputs {
					text += ", " + i.Name + " = " + i.Text()
				}
				for _, missed := range x.Misses() {
					text += "; missed: " + missed
				}
				l.add("operating case "+x.Name, text, !x.Holds)
			case *note.Measurement:
				text := "fails"
				if !note.Fails(x) {
					text = "holds"
				}
				l.add("reading of "+x.Name+", "+x.How, text+", "+x.Verdict.String()+", "+x.Reading.String()+" in "+x.Low.String()+" … "+x.High.String(), note.Fails(x))
			}
		}
	}
	return l
}
