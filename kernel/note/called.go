package note

import (
	"context"
	"fmt"
	"iter"
	"slices"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
)

// What people call by another name than a cell defines: a part by its
// reference, a requirement by its identifier, a rating by part and what is rated.

// shown goes through what the cells show; nothing before the first run.
func (n *Note) shown(yield func(*node, Item) bool) {
	for _, c := range n.cells {
		if c.result == nil {
			continue
		}
		for _, it := range c.result.Items {
			if !yield(c, it) {
				return
			}
		}
	}
}

// called lists what may be asked for beside the names of the note.
func (n *Note) called() (list []string) {
	for _, it := range n.shown {
		switch x := it.(type) {
		case *Part:
			list = append(list, x.Reference)
		case *Requirement:
			if id := x.waivedAs(); id != "" {
				list = append(list, id)
			}
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// Called lists the references of parts and the identifiers of requirements,
// which Why and Touches take as they take names.
func (n *Note) Called() []string {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.called()
}

// partCalled is the first part with a reference, and its cell.
func (n *Note) partCalled(reference string) (*Part, *node) {
	for c, it := range n.shown {
		if p, ok := it.(*Part); ok && p.Reference == reference {
			return p, c
		}
	}
	return nil, nil
}

// requirementCalled is the requirement with an identifier, of several the first
// that is missed, and its cell.
func (n *Note) requirementCalled(id string) (found *Requirement, in *node) {
	for c, it := range n.shown {
		if q, ok := it.(*Requirement); ok && q.waivedAs() == id && (found == nil || !found.Missed() && q.Missed()) {
			found, in = q, c
		}
	}
	return found, in
}

// deriveCalled is the derivation of a part or a requirement; nil if there is
// none that is called so.
func (n *Note) deriveCalled(ctx context.Context, asked string, o WhyOptions) (*Why, error) {
	d := &derivation{n: n, ctx: ctx, options: o, shown: map[string]bool{}}
	if p, c := n.partCalled(asked); p != nil {
		if p.Name != "" {
			w, err := n.derive(ctx, p.Name, o)
			if w != nil {
				w.Reference = asked
			}
			return w, err
		}
		w := &Why{Cell: c.Label, Entry: p.ownEntry()}
		d.inputs(w, "", onceEach(p.Formula.Names()), 0)
		return w, nil
	}
	q, c := n.requirementCalled(asked)
	if q == nil {
		return nil, nil
	}
	w := &Why{Cell: c.Label, Requirement: q, Entry: &Entry{Name: asked, Form: FormMade, Formula: q.Condition, Description: q.Text, Source: q.Source, Reason: q.Reason}}
	if q.Rating != nil {
		w.Entry.Formula = q.Rating.Stress
	}
	d.inputs(w, "", onceEach(w.Entry.Formula.Names()), 0)
	return w, nil
}

func onceEach(names iter.Seq[string]) (list []string) {
	for name := range names {
		if !slices.Contains(list, name) {
			list = append(list, name)
		}
	}
	return list
}

// ownEntry is the entry of a part whose value has no name.
func (p *Part) ownEntry() *Entry {
	e := &Entry{Name: p.Reference, Form: FormInput, Line: p.Line, Value: cell.View{Kind: exec.KindQuantity, Type: "Quantity", Text: p.Text(), Quantity: p.Value}}
	if p.Words != "" {
		e.Value = cell.View{Kind: exec.KindText, Type: "string", Text: p.Words}
	}
	if p.Low != nil {
		e.Spread = &Spread{Low: *p.Low, High: *p.High}
	}
	if len(onceEach(p.Formula.Names())) > 0 {
		e.Form, e.Formula = FormComputed, p.Formula
	}
	return e
}

// nameOf is the name of the note that what was asked for is: that of the value
// of a part.
func (n *Note) nameOf(asked string) (name, reference string, err error) {
	if n.owner[asked] != nil {
		return asked, "", nil
	}
	if p, _ := n.partCalled(asked); p != nil {
		if p.Name == "" {
			return "", "", fmt.Errorf("%s is %s, and no name of the note: define a name for it to see what depends on it", asked, p.Text())
		}
		name, _ := n.split(p.Name)
		return name, asked, nil
	}
	if q, _ := n.requirementCalled(asked); q != nil {
		return "", "", fmt.Errorf("%s is a requirement, on which nothing depends: ask for what it comes from, without --uses", asked)
	}
	return asked, "", nil
}
