package units

import (
	"fmt"
	"math"
	"slices"
)

// Lanewise returns f of the numbers of its arguments (in coherent SI; kelvin,
// decibels over the SI unit), case by case, as a value of the kind of like. It
// is for functions that arithmetic does not have; f must be pure. A result
// that is no number panics with *Error and names the case.
func Lanewise(name string, like Quantity, f func(x []float64) float64, args ...Quantity) Quantity {
	x := make([]float64, len(args))
	for i, a := range args {
		x[i] = a.v
	}
	q := like.exact()
	q.v = f(x)
	no := func(where string) {
		refuse("cannot take "+name+" of "+describeAll(args), "the result is no number"+where)
	}
	if q.v-q.v != 0 {
		no("")
	}
	q.e = every(f, args...)
	if q.e != nil {
		for i, v := range q.e.lanes {
			if v-v != 0 {
				no(" where " + q.e.where(i))
			}
		}
	}
	return q
}

func describeAll(args []Quantity) string {
	text := ""
	for i, a := range args {
		if i > 0 {
			text += ", "
		}
		text += a.String()
	}
	return text
}

// Solve returns the x between low and high at which f is 0, case by case: it
// halves the interval until every case has converged to the last digits. f
// must change its sign between low and high once and may have spread; it works
// through arithmetic and the functions of this package. Solve panics with
// *Error, which names the case, where f has one sign at both ends.
func Solve(name string, low, high Quantity, f func(x Quantity) Quantity) Quantity {
	low, high = low.like(high), high.like(low)
	mustCompare(low, high)
	var none Quantity
	atLow, atHigh := f(low), f(high)
	one := func(x, y float64) bool { return x > 0 && y > 0 || x < 0 && y < 0 || x-x != 0 || y-y != 0 }
	no := func(where string) {
		refuse("cannot solve "+name+" between "+low.String()+" and "+high.String(), "no solution lies between them"+where)
	}
	if one(atLow.v, atHigh.v) {
		no("")
	}
	bad := every(func(x []float64) float64 {
		if one(x[0], x[1]) {
			return 1
		}
		return 0
	}, atLow, atHigh)
	if bad != nil {
		for i, v := range bad.lanes {
			if v != 0 {
				no(" where " + bad.where(i))
			}
		}
	}
	rising := Lanewise(name, Number(1), func(x []float64) float64 {
		if x[0] > 0 || x[0] == 0 && x[1] < 0 {
			return -1
		}
		return 1
	}, atLow, atHigh)
	half := Number(0.5)
	for range 200 {
		middle := low.Add(high.Sub(low).Mul(half))
		at := f(middle).Mul(rising)
		nextLow, nextHigh := Where(at, none, middle, low), Where(at, none, high, middle)
		if settledBetween(low, high, nextLow, nextHigh) {
			break
		}
		low, high = nextLow, nextHigh
	}
	return low.Add(high.Sub(low).Mul(half))
}

// settledBetween reports whether an interval no longer shrinks in any case.
func settledBetween(low, high, nextLow, nextHigh Quantity) bool {
	moves := func(x []float64) float64 {
		if (x[0] != x[2] || x[1] != x[3]) && math.Abs(x[3]-x[2]) > 1e-15*max(math.Abs(x[2]), math.Abs(x[3])) {
			return 1
		}
		return 0
	}
	if moves([]float64{low.v, high.v, nextLow.v, nextHigh.v}) != 0 {
		return false
	}
	if e := every(moves, low, high, nextLow, nextHigh); e != nil {
		for _, v := range e.lanes {
			if v != 0 {
				return false
			}
		}
	}
	return true
}

// Cases are all cases of some values together, for computing them one by one
// where a decision does not come out alike in all of them.
type Cases struct {
	study *Study
	set   *sourceSet
	like  *Ensemble
}

// CasesOf returns the cases of these values together; nil where there is only
// the nominal one.
func (s *Study) CasesOf(values []Quantity) *Cases {
	var set *sourceSet
	for _, q := range values {
		if e := q.live(); e != nil {
			if e.study != s {
				refuse("cannot combine values of two studies", "place both in one study")
			}
			if set == nil {
				set = e.set
			} else {
				set = s.union(set, e.set)
			}
		}
	}
	if set == nil {
		return nil
	}
	return &Cases{study: s, set: set, like: &Ensemble{study: s, set: set}}
}

// Len is the number of cases.
func (c *Cases) Len() int { return c.set.width }

// Where says in words what case i is.
func (c *Cases) Where(i int) string { return c.like.where(i) }

// WhereAll is Where with all sources, however many.
func (c *Cases) WhereAll(i int) string { return c.like.study.DescribeAll(c.like.caseAt(i)) }

// Has reports whether all sources of x are among those of the cases.
func (c *Cases) Has(x Quantity) bool {
	e := x.live()
	if e == nil || c.study.cases != nil {
		return true
	}
	for _, id := range e.set.ids {
		if !slices.Contains(c.set.ids, id) {
			return false
		}
	}
	return true
}

// Pick returns x as it is in case i, exact.
func (c *Cases) Pick(x Quantity, i int) Quantity {
	e := x.live()
	if e == nil {
		return x
	}
	q := x.exact()
	if at := e.lane(c.set, i); at >= 0 {
		q.v = e.lanes[at]
	}
	return q
}

// lane is where lane i of a larger set is found in e; −1 for the nominal value.
func (e *Ensemble) lane(of *sourceSet, i int) int {
	s := e.study
	if e.set == of || s.cases != nil {
		return i
	}
	j := s.gather(e.set, of)
	switch at := of.flatAt(s); {
	case i >= at:
		return e.set.flatAt(s) + i - at
	case i < of.corners:
		return int(j.corner[i])
	}
	row, p := (i-of.corners)/sweepPoints, (i-of.corners)%sweepPoints
	if j.row[row] < 0 {
		return -1
	}
	return e.set.sweepAt(j.row[row]) + p
}

// Join makes one value of what it is in every case. All of them are of one
// dimension, that of nominal.
func (c *Cases) Join(nominal Quantity, values []Quantity) Quantity {
	if len(values) != c.Len() {
		refuse(fmt.Sprintf("cannot join %d values of %d cases", len(values), c.Len()), "")
	}
	same, known := true, true
	e := &Ensemble{study: c.study, set: c.set, lanes: make([]float64, len(values))}
	for i, v := range values {
		v = v.like(nominal)
		if !v.d.Same(nominal.d) && !nominal.wild() {
			refuse("cannot join "+nominal.described()+" and "+v.described(), "the value is of another kind where "+c.Where(i))
		}
		e.lanes[i] = v.v
		same = same && v.v == nominal.v
		known = known && c.Pick(nominal, i).v == v.v
	}
	if known {
		return nominal // it was right without going case by case
	}
	if nominal.wild() && len(values) > 0 {
		nominal = nominal.like(values[0])
	}
	q := nominal.exact()
	if !same {
		q.e = e.reduced()
	}
	return q
}

// reduced returns e without the sources that change nothing in any corner or
// sweep: they are those of other values computed beside it.
func (e *Ensemble) reduced() *Ensemble {
	s, t := e.study, e.set
	if s.cases != nil || len(t.ids) > MaxCorners {
		return e
	}
	var kept []int // places in t.ids
	var ids []int
	for i, id := range t.ids {
		if e.moves(i) {
			kept, ids = append(kept, i), append(ids, id)
		}
	}
	if len(ids) == len(t.ids) || len(ids) == 0 {
		return e
	}
	out := &Ensemble{study: s, set: s.setOf(ids...)}
	out.lanes = make([]float64, out.set.width)
	for c := range out.set.corners {
		from := 0
		for k, i := range kept {
			from |= (c >> k & 1) << i
		}
		out.lanes[c] = e.lanes[from]
	}
	for k, i := range kept {
		copy(out.lanes[out.set.sweepAt(k):][:sweepPoints], e.lanes[t.sweepAt(i):])
	}
	copy(out.lanes[out.set.flatAt(s):], e.lanes[t.flatAt(s):])
	return out
}

// moves reports whether the i-th source changes the value in some corner or
// sweep.
func (e *Ensemble) moves(i int) bool {
	for c := range e.set.corners {
		if e.lanes[c] != e.lanes[c^1<<i] {
			return true
		}
	}
	row := e.lanes[e.set.sweepAt(i):][:sweepPoints]
	for _, v := range row {
		if v != row[0] {
			return true
		}
	}
	return false
}
