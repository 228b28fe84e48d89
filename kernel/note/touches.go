package note

import (
	"context"
	"fmt"
	"maps"
	"math"
	"slices"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// Touches says what depends on a name, and how much.
type Touches struct {
	Entry        *Entry
	Cell         string
	Reference    string // of the part that was asked for, which is this value
	Step         string // by which the name is moved: "1 %", "1 K", "1 dB"; "" where it cannot be
	Trouble      string // why it cannot be moved
	Values       []Touched
	Requirements []TouchedRequirement
}

// Touched is a value that depends on the name.
type Touched struct {
	Entry   *Entry
	Cell    string
	Through []string // the names by which it depends, that one itself if directly
	Effects []Effect
}

// Effect is how far a value, or a field of it, moves by a step of the name.
type Effect struct {
	Name    string         // "rail.Vout" for a field
	Value   units.Quantity // nominal
	Moves   units.Quantity // of a relative effect a number, else in the value's unit
	Percent bool           // Moves is a share of Value
	Known   bool
}

// TouchedRequirement is one that rests on the name.
type TouchedRequirement struct {
	*Requirement
	Cell       string
	Moves      *units.Quantity // the nominal margin
	WorstMoves *units.Quantity // the worst margin of all cases
}

// margins are those of a requirement with a name moved; nil where there is none.
type margins struct{ nominal, worst *units.Quantity }

// nudge is the part of a step that a name is moved by: small, so that the
// effect is that of a slope, and large beside the digits of a number.
const nudge = 1e-3

// Touches finds what depends on a name, or on the value of a part. It moves the name a little up and down,
// with parts kept as they were chosen, and computes what depends on it; then
// all is as before.
func (n *Note) Touches(ctx context.Context, name string) (*Touches, error) {
	n.mu.Lock()
	name, reference, err := n.nameOf(name)
	if err != nil {
		n.mu.Unlock()
		return nil, err
	}
	c := n.owner[name]
	if c == nil || c.result == nil || !c.ok {
		defer n.mu.Unlock()
		_, err := n.derive(ctx, name, WhyOptions{Depth: 1}) // says why
		if err == nil {
			err = n.unknown(name)
		}
		return nil, err
	}
	t := &Touches{Cell: c.Label, Entry: entryOf(c, name), Reference: reference}
	list := n.touchedBy(name)
	up, down, step, err := n.moves(c, name, t.Entry)
	n.mu.Unlock()
	var high, low map[string]units.Quantity
	var marginsUp, marginsDown map[string]margins
	if err != nil {
		t.Trouble = err.Error()
	} else {
		t.Step = step
		before := n.overrides()
		high, marginsUp = n.moved(ctx, before, name, up)
		low, marginsDown = n.moved(ctx, before, name, down)
		if err := n.WhatIf(before, false); err != nil {
			return nil, err
		}
		n.Run(ctx)
	}
	n.mu.Lock()
	defer n.mu.Unlock()
	for i := range list {
		list[i].effects(high, low)
	}
	t.Values = list
	t.Requirements = n.touchedRequirements(name, marginsUp, marginsDown)
	return t, ctx.Err()
}

func (n *Note) overrides() map[string]string {
	n.mu.Lock()
	defer n.mu.Unlock()
	set := map[string]string{}
	for name, o := range n.whatIf {
		set[name] = o.Text
	}
	return set
}

// entryOf is the entry of a name, also of what has no value to show.
func entryOf(c *node, name string) *Entry {
	if e := c.entry(name); e != nil {
		return e
	}
	return &Entry{Name: name, Form: FormMade}
}

// touchedBy lists what depends on a name, what is needed first above.
func (n *Note) touchedBy(name string) (list []Touched) {
	on := map[string]bool{name: true}
	for _, other := range n.order() {
		c := n.owner[other]
		if other == name || c == nil || !c.ok || c.checked == nil {
			continue
		}
		var through []string
		for _, used := range c.checked.UsedBy(other) {
			if on[used] {
				through = append(through, used)
			}
		}
		if len(through) == 0 {
			continue
		}
		on[other] = true
		if e := entryOf(c, other); e.Value.Kind != exec.KindOther {
			list = append(list, Touched{Entry: e, Cell: c.Label, Through: through})
		}
	}
	return list
}

// moves gives the expressions for a name that is a little higher and lower.
func (n *Note) moves(c *node, name string, e *Entry) (up, down, step string, err error) {
	text, ok := c.parsed.DefinitionText(name)
	if o := n.whatIf[name]; o != nil {
		text = o.Text
	}
	q, isQuantity := e.Value.Quantity.(units.Quantity)
	switch {
	case !ok:
		return "", "", "", fmt.Errorf("%s shares its expression with other names, and is not moved to see what that does", name)
	case isQuantity && q.Dim().Kind() == units.PlainScale, e.Value.Kind == exec.KindNumber && e.Value.Type == "float64":
		return fmt.Sprintf("(%s) * %v", text, 1+nudge*0.01), fmt.Sprintf("(%s) * %v", text, 1-nudge*0.01), "1 %", nil
	case isQuantity && q.Dim().Kind() == units.PointScale:
		return fmt.Sprintf("(%s) + %vK", text, nudge), fmt.Sprintf("(%s) - %vK", text, nudge), "1 K", nil
	case isQuantity:
		return fmt.Sprintf("(%s) + %vdB", text, nudge), fmt.Sprintf("(%s) - %vdB", text, nudge), "1 dB", nil
	}
	return "", "", "", fmt.Errorf("%s is no quantity, and is not moved to see what that does", name)
}

// moved computes the note with the name moved: values by the names of their parts, and
// margins by where the requirement stands.
func (n *Note) moved(ctx context.Context, before map[string]string, name, text string) (values map[string]units.Quantity, needs map[string]margins) {
	set := maps.Clone(before)
	set[name] = text
	if n.WhatIf(set, false) != nil {
		return nil, nil
	}
	values, needs = map[string]units.Quantity{}, map[string]margins{}
	for _, r := range n.Run(ctx) {
		for _, it := range r.Items {
			switch x := it.(type) {
			case *Entry:
				for _, a := range amountsOf(x) {
					values[a.name] = a.value
				}
			case *Requirement:
				needs[r.ID+x.block+x.key] = margins{x.Margin, x.Worst}
			}
		}
	}
	return values, needs
}

// amount is a quantity or number in a value.
type amount struct {
	name  string
	value units.Quantity
}

// amountsOf lists the nominal quantities of a value and its parts.
func amountsOf(e *Entry) (list []amount) {
	e.Value.Walk(e.Name, func(name string, v cell.View) {
		switch v.Kind {
		case exec.KindQuantity:
			list = append(list, amount{name, units.Nominal(v.Quantity.(units.Quantity))})
		case exec.KindNumber:
			list = append(list, amount{name, units.Number(v.Number)})
		}
	})
	return list
}

// effects compares what a value was with the name up and down.
func (t *Touched) effects(high, low map[string]units.Quantity) {
	for _, a := range amountsOf(t.Entry) {
		e := Effect{Name: a.name, Value: a.value}
		up, ok := high[a.name]
		down, ok2 := low[a.name]
		if ok && ok2 && up.Dim() == down.Dim() && up.Dim() == e.Value.Dim() {
			e.Known = true
			e.Moves = slope(up, down)
			if e.Value.Dim().Kind() == units.PlainScale && e.Value.SI() != 0 {
				e.Percent, e.Moves = true, e.Moves.Div(e.Value)
			}
			// What is smaller than the digits of the value is no effect.
			if size := math.Abs(e.Value.SI()); math.Abs(up.SI()-down.SI()) <= 1e-13*size {
				e.Moves = e.Moves.Sub(e.Moves)
			}
		}
		t.Effects = append(t.Effects, e)
	}
}

// slope is the effect of a whole step.
func slope(up, down units.Quantity) units.Quantity {
	return up.Sub(down).Mul(units.Number(0.5 / nudge))
}

// slopeOf is the effect of a whole step; nil where it is not known.
func slopeOf(up, down *units.Quantity) *units.Quantity {
	if up == nil || down == nil || up.Dim() != down.Dim() {
		return nil
	}
	m := slope(units.Nominal(*up), units.Nominal(*down))
	return &m
}

// touchedRequirements lists what must hold and rests on the name.
func (n *Note) touchedRequirements(name string, up, down map[string]margins) (list []TouchedRequirement) {
	for _, c := range n.cells {
		if c.result.State != Done || c.checked == nil {
			continue
		}
		for _, it := range c.result.Items {
			q, ok := it.(*Requirement)
			if !ok {
				continue
			}
			high, low := up[c.ID+q.block+q.key], down[c.ID+q.block+q.key]
			t := TouchedRequirement{Requirement: q, Cell: c.Label, Moves: slopeOf(high.nominal, low.nominal), WorstMoves: slopeOf(high.worst, low.worst)}
			seen, formula := map[string]bool{}, q.Condition
			if q.Rating != nil {
				formula = q.Rating.Stress
			}
			// Of a rating itself there is no formula: it tells by moving.
			moves := q.Rating != nil && (t.Moves != nil && t.Moves.SI() != 0 || t.WorstMoves != nil && t.WorstMoves.SI() != 0)
			if moves || n.restsOn(formula, name, seen) {
				list = append(list, t)
			}
		}
	}
	return list
}

// restsOn reports whether a formula depends on a name, directly or not.
func (n *Note) restsOn(e *cell.Expr, name string, seen map[string]bool) bool {
	for u := range e.Names() {
		if n.comesFrom(u, name, seen) {
			return true
		}
	}
	return false
}

func (n *Note) comesFrom(u, name string, seen map[string]bool) bool {
	if u == name {
		return true
	}
	c := n.owner[u]
	if seen[u] || c == nil || c.checked == nil {
		return false
	}
	seen[u] = true
	return slices.ContainsFunc(c.checked.UsedBy(u), func(used string) bool { return n.comesFrom(used, name, seen) })
}
