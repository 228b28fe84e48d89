package units

import (
	"math"
	"slices"
	"sort"
)

// Extreme is the smallest or largest value that was found, and the case that
// gives it.
type Extreme struct {
	Value Quantity // exact
	Case  Case
}

// Extremes returns the smallest and the largest value over all corners and
// sweeps (and stated cases). It is not ok for an exact value. Boards drawn at
// random do not count: a normal shape has no end.
func (a Quantity) Extremes() (low, high Extreme, ok bool) {
	if a.e == nil || !a.e.spreads() {
		return Extreme{}, Extreme{}, false
	}
	if a.e.kind == spreadDeclared {
		lo, hi, ok := a.Limits()
		return Extreme{Value: lo}, Extreme{Value: hi}, ok
	}
	e := a.e
	lanes := e.lanes[:e.searched()]
	lo, hi := 0, 0
	for i, v := range lanes {
		if v < lanes[lo] {
			lo = i
		}
		if v > lanes[hi] {
			hi = i
		}
	}
	low, high = Extreme{Value: a.exact(), Case: e.caseAt(lo)}, Extreme{Value: a.exact(), Case: e.caseAt(hi)}
	low.Value.v, high.Value.v = lanes[lo], lanes[hi]
	return low, high, true
}

// searched is the number of lanes in which extremes are looked for.
func (e *Ensemble) searched() int {
	if e.study.cases != nil {
		return len(e.lanes)
	}
	return e.set.flatAt(e.study)
}

// Limits returns the limits of a value: as given where it was given with
// Range, Band or ±, as found for one that was computed. It is not ok for an
// exact value, and for one outside any study whose limits depend on others.
func (a Quantity) Limits() (low, high Quantity, ok bool) {
	if a.e == nil || !a.e.spreads() {
		return Quantity{}, Quantity{}, false
	}
	if a.e.kind == spreadLive {
		l, h, ok := a.Extremes()
		return l.Value, h.Value, ok
	}
	g := a.e.given
	low, high = a.exact(), a.exact()
	low.v, high.v = g.low, g.high
	if g.base != nil {
		return Quantity{}, Quantity{}, false
	}
	for _, t := range g.terms {
		if t.width.e != nil {
			return Quantity{}, Quantity{}, false
		}
		w := t.width.v
		if t.share {
			w *= math.Abs(a.v)
		}
		low.v -= w
		high.v += w
	}
	return low, high, true
}

// Sources returns the sources of a value, by name.
func (a Quantity) Sources() []Source { return a.sources(func(int) bool { return true }) }

// Movers returns those of the sources that change a in some corner or sweep.
// What is computed from a source need not depend on it: Min(Max(x, y), y) is y.
// Where the corners are a sample they are all taken to.
func (a Quantity) Movers() []Source {
	return a.sources(func(i int) bool { return a.Sampled() || a.e.study.cases != nil || a.e.moves(i) })
}

func (a Quantity) sources(wanted func(i int) bool) []Source {
	if a.e == nil || a.e.kind != spreadLive {
		return nil
	}
	var out []Source
	for i, id := range a.e.set.ids {
		if !wanted(i) {
			continue
		}
		out = append(out, *a.e.study.sourceAt(id))
	}
	sort.Slice(out, func(i, j int) bool {
		if out[i].Name != out[j].Name {
			return out[i].Name < out[j].Name
		}
		return out[i].Key < out[j].Key
	})
	return out
}

// Sampled reports whether the corners of a are a sample, because it has more
// than MaxCorners sources.
func (a Quantity) Sampled() bool {
	return a.e != nil && a.e.kind == spreadLive && len(a.e.set.ids) > MaxCorners
}

// Sweep is how a value goes with one of its sources while the others are
// nominal.
type Sweep struct {
	Source Source
	Values []Quantity // exact, from the lower end to the upper; the middle one is nominal
}

// Sweeps returns the sweeps of a value over each of its sources, by name.
func (a Quantity) Sweeps() []Sweep {
	if a.e == nil || a.e.kind != spreadLive || a.e.study.cases != nil {
		return nil
	}
	var out []Sweep
	e := a.e
	for i, id := range e.set.ids {
		s := Sweep{Source: *e.study.sourceAt(id)}
		for _, v := range e.lanes[e.set.sweepAt(i):][:sweepPoints] {
			s.Values = append(s.Values, a.at(v))
		}
		out = append(out, s)
	}
	sort.Slice(out, func(i, j int) bool { return out[i].Source.Key < out[j].Source.Key })
	return out
}

// at returns the exact value of the kind of a with the number v.
func (a Quantity) at(v float64) Quantity {
	a.v = v
	return a.exact()
}

// Bounded reports whether no board that is drawn can lie outside the limits of
// a's sources.
func (a Quantity) Bounded() bool {
	for _, s := range a.Sources() {
		if s.Kind == PartSource && !s.Bounded {
			return false
		}
	}
	return true
}

// Inside reports whether a sweep goes beyond its ends in between, so that an
// extreme may lie inside a range or band and not at a corner.
func (a Quantity) Inside() bool {
	if a.e == nil || a.e.kind != spreadLive || a.e.study.cases != nil {
		return false
	}
	for i := range a.e.set.ids {
		row := a.e.lanes[a.e.set.sweepAt(i):][:sweepPoints]
		lo, hi := min(row[0], row[sweepPoints-1]), max(row[0], row[sweepPoints-1])
		slack := 1e-9 * max(math.Abs(lo), math.Abs(hi))
		for _, v := range row {
			if v < lo-slack || v > hi+slack {
				return true
			}
		}
	}
	return false
}

// Boards returns the value on the boards that were drawn, in the order of the
// draw; in a restricted study, in the stated cases. Nil for an exact value.
func (a Quantity) Boards() []Quantity {
	if a.e == nil || a.e.kind != spreadLive {
		return nil
	}
	lanes := a.e.lanes[a.e.set.flatAt(a.e.study):]
	out := make([]Quantity, len(lanes))
	for i, v := range lanes {
		out[i] = a.at(v)
	}
	return out
}

// HasChance reports whether chance moves a: one of its sources is a part.
func (a Quantity) HasChance() bool {
	for _, s := range a.Sources() {
		if s.Kind == PartSource {
			return true
		}
	}
	return false
}

// Std returns the standard deviation over the boards that were drawn, as a
// difference. It is not ok where chance does not move a.
func (a Quantity) Std() (Quantity, bool) {
	if !a.HasChance() {
		return Quantity{}, false
	}
	lanes := a.e.lanes[a.e.set.flatAt(a.e.study):]
	if len(lanes) < 2 {
		return Quantity{}, false
	}
	n := float64(len(lanes))
	sum, squares := moments(lanes, a.v)
	if sum*sum/n > squares/2 { // digits would cancel: again, around the mean
		sum, squares = moments(lanes, a.v+sum/n)
	}
	return a.difference(math.Sqrt(max(squares-sum*sum/n, 0) / (n - 1))), true
}

// difference returns a difference of two values of the kind of a.
func (a Quantity) difference(v float64) Quantity {
	q := a.at(v)
	switch a.d.Kind() {
	case PointScale:
		return Quantity{v: v, d: dimKelvin | computedMark}
	case LevelScale:
		return Quantity{v: v, d: dimGain | computedMark}
	}
	return q
}

// Percentile returns the value that p percent of the boards drawn stay below,
// interpolated between two of them. It is not ok where chance does not move a.
func (a Quantity) Percentile(p float64) (Quantity, bool) {
	if !a.HasChance() {
		return Quantity{}, false
	}
	lanes := slices.Clone(a.e.lanes[a.e.set.flatAt(a.e.study):])
	if len(lanes) == 0 {
		return Quantity{}, false
	}
	slices.Sort(lanes)
	// The i-th of n stands for (i+½)/n: Hyndman and Fan, The American
	// Statistician 50 (1996), definition 5.
	at := min(max(p/100*float64(len(lanes))-0.5, 0), float64(len(lanes)-1))
	i := int(at)
	v := lanes[i]
	if i+1 < len(lanes) {
		v += (at - float64(i)) * (lanes[i+1] - v)
	}
	return a.at(v), true
}

// WithSI returns the exact value of the kind of a that SI would return x for.
func (a Quantity) WithSI(x float64) Quantity {
	if a.d.Kind() == LevelScale {
		return a.at(a.v + x - a.SI())
	}
	return a.at(x)
}
