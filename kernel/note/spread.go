package note

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"sort"

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
		o, err := r.compute(t.cell)
		if err != nil {
			return nil, err
		}
		x, err := t.in(o)
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
		o, err := r.compute(t.cell)
		if err != nil {
			return nil, err
		}
		x, err := t.in(o)
		if err != nil {
			return nil, err
		}
		out[i] = slice(x, 0, len(cases))
	}
	return out, nil
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

// judge finds the verdict of a requirement over all cases, and where the
// ranges have to stand when boards are counted.
func (n *Note) judge(r *Requirement) {
	r.Inputs = n.inputsOf(r)
	if r.FailsWhere != "" {
		r.Holds = false
	}
	if r.live == nil || r.spread == nil {
		return
	}
	worst := r.spread.Low
	r.Worst, r.WorstCase, r.Search, r.Trouble = &worst, r.spread.LowCase, r.spread.Search, r.spread.Trouble
	r.WorstAll = r.live.DescribeAll(r.spread.lowCase)
	if !r.passes(worst) {
		r.Holds = false
	}
	if !r.live.HasChance() {
		return
	}
	r.points = n.rangePoints(*r.live, r.spread.lowCase)
}

// pass counts the boards that meet the requirements of some cells. Where the
// ranges are usual, the boards are those that were drawn with the values;
// elsewhere they are computed again, for all requirements that depend on the
// same ranges at once.
func (n *Note) pass(ctx context.Context, cells []*node) {
	type group struct {
		points  []map[string]float64
		targets []target
		needs   []*Requirement
	}
	groups := map[string]*group{}
	var order []string
	for _, c := range cells {
		if c.result.State != Done {
			continue
		}
		for _, i := range c.result.Items {
			r, ok := i.(*Requirement)
			if !ok || r.points == nil {
				continue
			}
			key := fmt.Sprint(r.points)
			if groups[key] == nil {
				groups[key] = &group{points: r.points}
				order = append(order, key)
			}
			g := groups[key]
			g.targets, g.needs = append(g.targets, target{cell: c, key: r.key}), append(g.needs, r)
		}
	}
	boards := n.study.Options().Boards
	for _, key := range order {
		g := groups[key]
		var cases []units.Case
		for _, at := range g.points[1:] {
			for b := 1; b <= boards; b++ {
				cases = append(cases, units.Case{At: at, Board: b})
			}
		}
		values, err := n.together(ctx, g.targets, cases)
		for i, r := range g.needs {
			if err != nil {
				r.Trouble = err.Error()
				continue
			}
			r.count(n.study, append(r.live.Boards(), values[i]...), boards)
		}
	}
}

// count finds the share of boards that pass where fewest do; values are those
// of all boards at one point of the ranges after another.
func (r *Requirement) count(s *units.Study, values []units.Quantity, boards int) {
	y := &Yield{Boards: boards, Passed: boards + 1, Assumed: assumed(*r.live)}
	for p, at := range r.points {
		passed := 0
		for _, q := range values[p*boards : (p+1)*boards] {
			if r.passes(q) {
				passed++
			}
		}
		if passed < y.Passed {
			y.Passed, y.Where = passed, ""
			if len(at) > 0 {
				y.Where = s.Describe(units.Case{At: at})
			}
		}
	}
	y.Low, y.High = confidence(y.Passed, boards)
	if y.Passed < boards && r.live.Bounded() {
		r.Holds = false // a board within all limits fails
	}
	r.Yield = y
}

func (r *Requirement) passes(q units.Quantity) bool {
	return q.SI() > 0 || !r.strict && q.SI() == 0
}

// rangePoints lists where ranges and drifts may stand while boards are drawn:
// first at their usual values, then at all their corners where these are few,
// else at the ends together and at the worst case that is known.
func (n *Note) rangePoints(x units.Quantity, worst units.Case) []map[string]float64 {
	var keys []string
	for _, s := range x.Sources() {
		if s.Kind != units.PartSource {
			keys = append(keys, s.Key)
		}
	}
	sort.Strings(keys)
	usual, low, high, known := map[string]float64{}, map[string]float64{}, map[string]float64{}, map[string]float64{}
	for _, k := range keys {
		low[k], high[k] = -1, 1
		known[k] = worst.At[k]
	}
	if len(keys) > 4 {
		return []map[string]float64{usual, known, low, high}
	}
	points := []map[string]float64{usual}
	if len(keys) == 0 {
		return points
	}
	if slices.ContainsFunc(keys, func(k string) bool { return math.Abs(known[k]) != 1 }) && len(worst.At) > 0 {
		points = append(points, known) // inside
	}
	for c := range 1 << len(keys) {
		at := map[string]float64{}
		for i, k := range keys {
			at[k] = float64(2*(c>>i&1) - 1)
		}
		points = append(points, at)
	}
	return points
}

// assumed says how the parts of x were taken to be distributed.
func assumed(x units.Quantity) string {
	var shapes []string
	for _, s := range x.Sources() {
		if s.Kind == units.PartSource && !slices.Contains(shapes, s.Shape.String()) {
			shapes = append(shapes, s.Shape.String())
		}
	}
	sort.Strings(shapes)
	text := ""
	for i, s := range shapes {
		if i > 0 {
			text += "; "
		}
		text += s
	}
	return text
}

// inputsOf counts the inputs that a requirement rests on, by what is known of
// their spread.
func (n *Note) inputsOf(r *Requirement) Inputs {
	var in Inputs
	seen := map[string]bool{}
	var walk func(name string)
	walk = func(name string) {
		c := n.owner[name]
		if c == nil || seen[name] || c.checked == nil {
			return
		}
		seen[name] = true
		for _, i := range c.result.Items {
			e, ok := i.(*Entry)
			if !ok || e.Name != name || e.Form != FormInput {
				continue
			}
			q, isQuantity := e.Value.Quantity.(units.Quantity)
			switch {
			case isQuantity && q.HasSpread():
				in.Spread++
			case isQuantity && q.IsTypical():
				in.Typical++
			case isQuantity || e.Value.Kind == exec.KindNumber:
				in.Exact++
			}
			return
		}
		for _, used := range c.checked.UsedBy(name) {
			walk(used)
		}
	}
	of := r.Condition
	if r.Rating != nil {
		of = r.Rating.Stress
	}
	for _, name := range namesIn(of) {
		walk(name)
	}
	return in
}

// namesIn lists the names of a formula.
func namesIn(e *cell.Expr) []string {
	if e == nil {
		return nil
	}
	var out []string
	if e.Kind == cell.ExprName {
		out = append(out, e.Text)
	}
	for _, a := range e.Args {
		out = append(out, namesIn(a)...)
	}
	return out
}

// near reports whether two numbers are the same but for rounding.
func near(a, b float64) bool { return math.Abs(a-b) <= 1e-12*max(math.Abs(a), math.Abs(b)) }
