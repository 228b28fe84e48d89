package units

import (
	"strconv"
	"strings"
)

// Place gives a value that was stated with Range, Band or ± its place in the
// study: key says which source it is (the same key is the same part), name
// what people call it. Any other value is returned as it is.
func (s *Study) Place(key, name string, x Quantity) Quantity {
	if x.e == nil || x.e.kind != spreadDeclared {
		return x
	}
	g := x.e.given
	nominal := x.exact()
	base := nominal
	base.e = g.base
	if base.e != nil && base.e.kind == spreadDeclared {
		base.live()
	}
	var streams []int
	if g.low != g.high {
		streams = append(streams, 0)
	}
	for i, t := range g.terms {
		if !t.drift {
			streams = append(streams, i+1)
		}
	}
	src := s.source(Source{Key: key, streams: streams, Bounded: g.bounded(s.options.Parts), Name: name, Kind: g.source, Shape: s.shapeOf(g), value: x.saying(g)})
	large := func(where string) { refuse("the limits of "+x.described()+" are too large"+where, "give it less room") }
	out := base
	if g.low != g.high || g.base == nil && len(streams) == 0 {
		out.e = s.axis(src, 0, g.shape, g.low, nominal.v, g.high, asItIs, large)
	}
	for i, t := range g.terms {
		axis, n := src, i+1
		if t.drift {
			axis = s.source(Source{Key: key + "/drift", Name: name + "'s drift", Kind: DriftSource, value: func(u float64) string { return direction(u) }})
		}
		unit := Number(0)
		if t.width.live() == nil && base.e == nil { // the common case needs no lanes but those of the result
			f := affine{width: t.width.v, of: 1}
			if t.share {
				f.of = base.v
			}
			if out.e == nil {
				f.from = base.v
				out.e = s.axis(axis, n, t.shape, -1, 0, 1, f, large)
				continue
			}
			unit.e = s.axis(axis, n, t.shape, -1, 0, 1, f, large)
			out.e = combine('+', out, unit, large)
			continue
		}
		unit.e = s.axis(axis, n, t.shape, -1, 0, 1, asItIs, large)
		off := t.width.Mul(unit)
		if t.share {
			off = off.exactUnit().Mul(base)
		}
		out.e = combine('+', out, off, large) // term has seen to it that they go together
	}
	e := *out.e
	e.given = g
	out.e = &e
	s.checkScale(out)
	return out
}

// bounded reports whether no part lies outside the limits.
func (g *given) bounded(parts Shape) bool {
	if g.low != g.high && g.shape.or(parts).kind == shapeNormal {
		return false
	}
	for _, t := range g.terms {
		if !t.drift && t.shape.or(parts).kind == shapeNormal {
			return false
		}
	}
	return true
}

// exactUnit drops the unit of a share, so that it multiplies as a number.
func (a Quantity) exactUnit() Quantity {
	a.u = nil
	return a
}

// shapeOf is the shape of a part's own spread, for people.
func (s *Study) shapeOf(g *given) Shape {
	shape := g.shape
	for _, t := range g.terms {
		if shape.kind == shapeDefault && !t.drift {
			shape = t.shape
		}
	}
	return shape.or(s.options.Parts)
}

// axis returns the lanes of a source by itself: low at −1, mid at 0, high at 1,
// and f put to them. Where a lane is no finite number, it calls no with that
// case in words.
func (s *Study) axis(src *Source, stream int, shape Shape, low, mid, high float64, f affine, no func(where string)) *Ensemble {
	shape = shape.or(s.options.Parts)
	set := s.setOf(src.id)
	e := &Ensemble{study: s, set: set, lanes: make([]float64, set.width)}
	at := func(u float64) float64 {
		switch {
		case u == -1:
			return low
		case u == 1:
			return high
		case u < 0:
			return mid + float64(u*(mid-low))
		}
		return mid + float64(u*(high-mid))
	}
	chance := src.Kind == PartSource && low != high
	flat := set.flatAt(s)
	if s.cases == nil {
		e.lanes[0], e.lanes[1] = low, high
		for p := range sweepPoints {
			e.lanes[set.sweepAt(0)+p] = at(sweepPoint(p))
		}
		f.apply(e.lanes[:flat])
	}
	term, numbers := src.term(stream), src.stream(stream)
	ok := inBlocks(s.flat(), func(from, to int) bool {
		lanes := e.lanes[flat+from : flat+to]
		switch {
		case s.cases != nil:
			for i, c := range s.cases[from:to] {
				u, stated := c.At[src.Key]
				if !stated {
					u, stated = c.At[term]
				}
				switch {
				case stated:
					lanes[i] = at(u)
				case c.Quantile > 0 && chance:
					lanes[i] = shape.value(c.Quantile, low, mid, high)
				case c.Board > 0 && chance:
					lanes[i] = shape.value(drawn(numbers, c.Board-1), low, mid, high)
				default:
					lanes[i] = mid
				}
			}
		case chance:
			shape.draw(lanes, numbers, from, low, mid, high)
		default:
			for i := range lanes {
				lanes[i] = mid
			}
		}
		f.apply(lanes)
		return finite(lanes)
	})
	if !ok || !finite(e.lanes[:flat]) {
		e.refuseInfinite(no)
	}
	return e
}

// checkScale refuses a temperature below absolute zero in some case.
func (s *Study) checkScale(x Quantity) {
	if x.d.Kind() != PointScale {
		return
	}
	for _, v := range x.e.lanes {
		if v < 0 {
			refuse("the limits of "+x.described()+" go below absolute zero", "give it less room")
		}
	}
}

// saying returns what says in words where a source stands.
func (x Quantity) saying(g *given) func(u float64) string {
	low, high := g.low, g.high
	exact := g.base == nil
	for _, t := range g.terms {
		if t.drift {
			continue
		}
		if t.width.e != nil {
			exact = false // it depends on something else how far it goes
			continue
		}
		w := t.width.v
		if t.share {
			w *= x.v
			if w < 0 {
				w = -w
			}
		}
		low, high = low-w, high+w
	}
	nominal := x.exact()
	return func(u float64) string {
		if !exact {
			return direction(u)
		}
		q := nominal
		switch {
		case u < 0:
			q.v += u * (x.v - low)
		default:
			q.v += u * (high - x.v)
		}
		if u == -1 {
			q.v = low
		} else if u == 1 {
			q.v = high
		}
		return q.String()
	}
}

// direction says where a source stands that has no value by itself.
func direction(u float64) string {
	switch {
	case u == 1:
		return "at its upper limit"
	case u == -1:
		return "at its lower limit"
	}
	sign := "+"
	if u < 0 {
		sign, u = "−", -u
	}
	return "at " + sign + strings.TrimSuffix(strconv.FormatFloat(100*u, 'f', 1, 64), ".0") + " % of its limit"
}

// GivenAs reports whether a and b were given in the same words: the same
// nominal value, with the same limits.
func (a Quantity) GivenAs(b Quantity) bool {
	return a.e != nil && b.e != nil && a.e.given != nil && a.Same(b) && tagOf(a.u) == tagOf(b.u) && a.e.given.same(b.e.given)
}
