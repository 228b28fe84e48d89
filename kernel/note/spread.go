package note

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// target is something in a cell whose cases can be computed again: a name, or
// the requirement or Spread with a key.
type target struct {
	cell *node
	name string
	key  string
}

// in finds what the target came to.
func (t target) in(o *cell.Outcome) (units.Quantity, error) {
	if t.name != "" {
		if q, ok := o.Values[t.name].V.(units.Quantity); ok {
			return q, nil
		}
		return units.Quantity{}, fmt.Errorf("%s is no quantity in the cases that are computed", t.name)
	}
	for _, s := range o.Steps {
		switch {
		case s.Key != t.key:
		case s.Spread != nil:
			return s.Spread.Value, nil
		case s.Measured != nil:
			return s.Measured.Value, nil
		case s.Require.Margin != nil:
			return *s.Require.Margin, nil
		}
	}
	return units.Quantity{}, errors.New("a requirement is not reached in the cases that are computed")
}

// lanes computes targets in stated cases, each in its own part of them.
func (n *Note) lanes(ctx context.Context, targets []target, cases [][]units.Case) ([][]units.Quantity, error) {
	all := slices.Concat(cases...)
	if len(all) == 0 {
		return make([][]units.Quantity, len(targets)), nil
	}
	r := n.replay(ctx, all)
	out := make([][]units.Quantity, len(targets))
	at := 0
	for i, t := range targets {
		x, err := r.target(t)
		if err != nil {
			return nil, err
		}
		out[i] = slice(x, at, len(cases[i]))
		at += len(cases[i])
	}
	return out, nil
}

// together computes targets in the same stated cases.
func (n *Note) together(ctx context.Context, targets []target, cases []units.Case) ([][]units.Quantity, error) {
	out := make([][]units.Quantity, len(targets))
	if len(cases) == 0 {
		return out, nil
	}
	r := n.replay(ctx, cases)
	for i, t := range targets {
		x, err := r.target(t)
		if err != nil {
			return nil, err
		}
		out[i] = slice(x, 0, len(cases))
	}
	return out, nil
}

func (r *replay) target(t target) (units.Quantity, error) {
	o, err := r.compute(t.cell)
	if err != nil {
		return units.Quantity{}, err
	}
	return t.in(o)
}

// slice returns x in n cases from the at-th on.
func slice(x units.Quantity, at, n int) []units.Quantity {
	if lanes := x.Boards(); lanes != nil {
		return lanes[at : at+n]
	}
	out := make([]units.Quantity, n) // it does not depend on the cases
	for i := range out {
		out[i] = x
	}
	return out
}

// wanted is a value with spread that is about to be shown.
type wanted struct {
	target
	value     units.Quantity
	spread    *Spread
	low, high *search
}

// surveyed completes the spread of what the cells show that ran: where corners
// and sweeps do not settle an extreme it is searched for; requirements get
// their worst case and the share of boards that pass.
func (n *Note) surveyed(ctx context.Context, cells []*node) {
	var list []*wanted
	for _, c := range cells {
		if c.result.State != Done {
			continue
		}
		for _, i := range c.result.Items {
			switch x := i.(type) {
			case *Entry:
				q, ok := x.Value.Quantity.(units.Quantity)
				if x.Spread = spreadOf(q); ok && x.Spread != nil && n.owner[x.Name] == c {
					list = append(list, &wanted{target: target{cell: c, name: x.Name}, value: q, spread: x.Spread})
				}
			case *Shown:
				if q, ok := x.Value.Quantity.(units.Quantity); ok {
					x.Spread = spreadOf(q)
					if f := x.Formula; x.Spread != nil && f != nil && f.Kind == cell.ExprName && n.owner[f.Text] != nil {
						list = append(list, &wanted{target: target{cell: n.owner[f.Text], name: f.Text}, value: q, spread: x.Spread})
					}
				}
			case *Requirement:
				if x.live != nil {
					x.spread = spreadOf(*x.live)
				}
				if x.spread != nil {
					list = append(list, &wanted{target: target{cell: c, key: x.key}, value: *x.live, spread: x.spread})
				}
			case *Measurement:
				if x.live != nil {
					x.spread = spreadOf(*x.live)
				}
				if x.spread != nil {
					list = append(list, &wanted{target: target{cell: c, key: x.key}, value: *x.live, spread: x.spread})
				}
			case *Spreading:
				x.Spread = spreadOf(x.live)
				if x.Spread != nil {
					list = append(list, &wanted{target: target{cell: c, key: x.key}, value: x.live, spread: x.Spread})
				}
			}
		}
	}
	n.searchAll(ctx, list)
	for _, c := range cells {
		if c.result.State != Done {
			continue
		}
		for _, i := range c.result.Items {
			switch x := i.(type) {
			case *Requirement:
				n.judge(x)
			case *Measurement:
				x.judge()
			case *Spreading:
				n.detail(ctx, c, x)
			}
		}
	}
	n.pass(ctx, cells)
	for _, c := range cells {
		for _, i := range c.result.Items {
			switch x := i.(type) { // the cases have told what they can
			case *Requirement:
				x.live, x.spread, x.points = nil, nil, nil
			case *Measurement:
				x.live, x.spread = nil, nil
			case *Spreading:
				x.live = units.Nominal(x.live)
			}
		}
	}
}

// spreadOf is the spread of a value as its corners and sweeps show it; nil for
// an exact value, and for one that is the same in all cases.
func spreadOf(q units.Quantity) *Spread {
	low, high, ok := q.Extremes()
	if !ok {
		return nil
	}
	s := &Spread{Low: low.Value, High: high.Value, lowCase: low.Case, highCase: high.Case, Search: Corners}
	for _, src := range q.Movers() {
		s.Sources = append(s.Sources, src.Name)
	}
	if std, ok := q.Std(); ok {
		s.Std = &std
	}
	return s
}

// searchAll searches the extremes that corners and sweeps do not settle, all
// in the same replays.
func (n *Note) searchAll(ctx context.Context, list []*wanted) {
	var open []*wanted
	for _, w := range list {
		if !w.value.Inside() && !w.value.Sampled() {
			w.describe()
			continue
		}
		w.low, w.high = newSearch(w.value, -1), newSearch(w.value, 1)
		w.spread.Search = Inside
		if w.value.Sampled() {
			w.spread.Search = Sampled
		}
		open = append(open, w)
	}
	for range searchRounds {
		var active []*wanted
		var targets []target
		var cases [][]units.Case
		for _, w := range open {
			a, b := w.low.next(), w.high.next()
			if len(a)+len(b) > 0 {
				active = append(active, w)
				targets = append(targets, w.target, w.target)
				cases = append(cases, a, b)
			}
		}
		if len(targets) == 0 {
			break
		}
		values, err := n.lanes(ctx, targets, cases)
		if err != nil {
			for _, w := range open {
				w.spread.Trouble = err.Error()
			}
			break
		}
		for i, w := range active {
			w.low.learn(numbers(values[2*i]))
			w.high.learn(numbers(values[2*i+1]))
		}
	}
	for _, w := range open {
		w.spread.Low, w.spread.lowCase = n.found(w, w.low)
		w.spread.High, w.spread.highCase = n.found(w, w.high)
		w.describe()
	}
}

// found is the exact value and the case that a search came to.
func (n *Note) found(w *wanted, s *search) (units.Quantity, units.Case) {
	return units.Nominal(w.value).WithSI(s.value), units.Case{At: s.best}
}

func numbers(qs []units.Quantity) []float64 {
	out := make([]float64, len(qs))
	for i, q := range qs {
		out[i] = q.SI()
	}
	return out
}

func (w *wanted) describe() {
	w.spread.LowCase, w.spread.HighCase = w.value.Describe(w.spread.lowCase), w.value.Describe(w.spread.highCase)
}

// limit answers High and Low of a value whose corners and sweeps may miss its
// extreme, while its cell runs.
func (n *Note) limit(ctx context.Context, c *node) func(call, key string, x units.Quantity, soFar map[string][]exec.Value) (units.Quantity, error) {
	return func(call, key string, x units.Quantity, soFar map[string][]exec.Value) (units.Quantity, error) {
		sign := 1.0
		if call == "Low" {
			sign = -1
		}
		s := newSearch(x, sign)
		for cases := s.next(); len(cases) > 0; cases = s.next() {
			got, err := n.replay(ctx, cases).probe(c, key, soFar)
			if err != nil {
				return units.Quantity{}, err
			}
			s.learn(numbers(slice(got, 0, len(cases))))
		}
		return units.Nominal(x).WithSI(s.value), nil
	}
}

// near reports whether two numbers are the same but for rounding.
func near(a, b float64) bool { return math.Abs(a-b) <= 1e-12*max(math.Abs(a), math.Abs(b)) }
