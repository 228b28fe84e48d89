package note

import (
	"context"
	"fmt"
	"go/token"
	"slices"
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
)

// WhyOptions say how much of a derivation is wanted.
type WhyOptions struct {
	Depth  int  // steps from the value towards its inputs; 0: all
	Inside bool // what happens inside lib functions is told for every value, not only for the one asked for
}

// Why gives the derivation of a name, or of a field of it ("i.Peak"), down to
// the inputs; or that of the value of a part, by its reference, or of a
// requirement, by its identifier. The error of an unknown name suggests the
// nearest.
func (n *Note) Why(ctx context.Context, name string, o WhyOptions) (*Why, error) {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.derive(ctx, name, o)
}

func (n *Note) derive(ctx context.Context, asked string, o WhyOptions) (*Why, error) {
	name, field := n.split(asked)
	c := n.owner[name]
	if c == nil || field != "" { // R1.2 may be an identifier
		if w, err := n.deriveCalled(ctx, asked, o); w != nil || err != nil {
			return w, err
		}
	}
	switch {
	case c == nil && !token.IsIdentifier(name): // LIM-1.2
		return nil, n.unknown(asked, n.called()...)
	case c == nil:
		return nil, n.unknown(name, n.called()...)
	case c.isImport(name):
		return nil, fmt.Errorf("%s is a note: ask for a name in it, %s.NAME", name, name)
	}
	if c.result == nil || !c.ok {
		if c.result != nil && len(c.result.Errors) > 0 {
			return nil, fmt.Errorf("%s has no value: %s, line %d: %w", name, c.Label, c.result.Errors[0].Line, c.result.Errors[0])
		}
		return nil, fmt.Errorf("%s has no value: run the note first", name)
	}
	d := &derivation{n: n, ctx: ctx, options: o, shown: map[string]bool{}}
	w := d.of(name, 0)
	if field == "" {
		return w, nil
	}
	part, err := partOf(w.Entry.Value, name, field)
	if err != nil {
		return nil, err
	}
	w.Field, w.Part = field, part
	first, _, _ := strings.Cut(field, ".")
	for i, in := range w.Inside {
		w.Inside[i] = towards(in, first)
	}
	return w, nil
}

// partOf finds a field of a record, and in it the next.
func partOf(v cell.View, name, field string) (*cell.View, error) {
	first, rest, more := strings.Cut(field, ".")
	for _, it := range v.Items {
		if it.Name != first || v.Kind != exec.KindRecord {
			continue
		}
		if more {
			return partOf(it.Value, name+"."+first, rest)
		}
		return &it.Value, nil
	}
	var have []string
	for _, it := range v.Items {
		if v.Kind == exec.KindRecord {
			have = append(have, it.Name)
		}
	}
	if len(have) == 0 {
		return nil, fmt.Errorf("%s has no field %s: it is a single value", name, first)
	}
	return nil, fmt.Errorf("%s has no field %s; it has %s", name, first, strings.Join(have, ", "))
}

// derivation is one tree in the making.
type derivation struct {
	n       *Note
	ctx     context.Context
	options WhyOptions
	shown   map[string]bool
}

func (d *derivation) of(name string, depth int) *Why {
	c := d.n.owner[name]
	w := &Why{Cell: c.Label, Entry: c.entry(name)}
	if w.Entry == nil { // a function, a type or a constant
		w.Entry = &Entry{Name: name, Form: FormMade, Files: d.n.filesOf(c, name)}
	}
	if d.shown[name] {
		w.Again = true
		return w
	}
	d.shown[name] = true
	if depth == 0 || d.options.Inside {
		w.Inside = d.n.inner(d.ctx, c, name)
	}
	d.inputs(w, name, c.checked.UsedBy(name), depth)
	return w
}

// inputs adds the derivations of the names that a value was computed from.
func (d *derivation) inputs(w *Why, name string, used []string, depth int) {
	for _, used := range used {
		if d.n.owner[used] == nil || used == name {
			continue
		}
		if d.options.Depth > 0 && depth+1 >= d.options.Depth {
			w.Cut = append(w.Cut, used)
			continue
		}
		w.Inputs = append(w.Inputs, d.of(used, depth+1))
	}
}

// derivations fills in what Why(x) shows: in the cells that ran, and in those
// that stand on one that ran, because what it says about a value may be new
// although the value is not.
func (n *Note) derivations(ctx context.Context, ran []*node) {
	for _, c := range n.cells {
		if c.result.State != Done {
			continue
		}
		for i, it := range c.result.Items {
			d, ok := it.(*Derivation)
			if !ok || d.Why != nil && !slices.ContainsFunc(ran, func(r *node) bool { return reaches(c, r, map[*node]bool{}) }) {
				continue
			}
			w, err := n.derive(ctx, d.Of, WhyOptions{})
			if err != nil { // what it asks for has a value, or the cell would wait
				c.result.Items[i] = &Notice{Text: err.Error()}
				continue
			}
			c.result.Items[i] = &Derivation{Of: d.Of, Why: w}
			c.result.Ran = true
		}
	}
}
