package report

import (
	"fmt"
	"strings"

	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
)

// board lists the parts of the schematic in a note, and what was chosen from a
// series without a place there.
func (d *Document) board(n *Note, places map[string]Place) {
	named := map[string]bool{}
	for _, r := range n.Results {
		for _, it := range r.Items {
			if p, ok := it.(*note.Part); ok {
				named[p.Name] = true
				d.Parts = append(d.Parts, onBoard(p, n, places[r.ID]))
			}
		}
	}
	for _, r := range n.Results {
		for _, it := range r.Items {
			if e, ok := it.(*note.Entry); ok && e.Form == note.FormChosen && e.Choice != nil && !named[e.Name] {
				value, _ := e.Text()
				p := Part{Place: places[r.ID], Name: e.Name, Value: value, Limits: limits(e)}
				p.chosen(e)
				d.Parts = append(d.Parts, p)
			}
		}
	}
}

// onBoard is a part of the schematic with the stress that its ratings see.
func onBoard(p *note.Part, n *Note, at Place) Part {
	out := Part{Place: at, Reference: p.Reference, Name: p.Name, Value: p.Text()}
	if p.Low != nil && !p.Low.Same(*p.High) {
		out.Limits = render.Limits(*p.Low, *p.High)
	}
	if e := p.Entry; e != nil {
		out.About, out.Reason = e.Description, e.Reason
		if e.Choice != nil && e.Name == p.Name {
			out.chosen(e)
		}
	}
	var stress []string
	for _, r := range n.Results {
		for _, it := range r.Items {
			q, ok := it.(*note.Requirement)
			if !ok || q.Rating == nil || q.Rating.Reference != p.Reference {
				continue
			}
			share, worst := q.Share()
			stress = append(stress, fmt.Sprintf("%s %v of %v, %s (allowed %s)", q.Rating.What, worst, q.Rating.Limit, render.ShareText(share), render.ShareText(q.Rating.Policy)))
		}
	}
	out.Stress = strings.Join(stress, "; ")
	return out
}

// chosen says how a value was picked from a series.
func (p *Part) chosen(e *note.Entry) {
	c := e.Choice
	p.Rule, p.Series, p.Ideal, p.Deviation = c.Rule, c.Series, c.Ideal.String(), render.Deviation(c.Deviation)
	p.About, p.Reason = e.Description, e.Reason
}
