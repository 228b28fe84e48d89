package note

import (
	"context"
	"fmt"
	"math"
	"slices"
	"sort"

	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

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
		if e := c.entry(name); e != nil && e.Form == FormInput {
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
	for name := range of.Names() {
		walk(name)
	}
	return in
}
