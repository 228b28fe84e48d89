package units

import (
	"fmt"
	"math"
	"sort"
)

// Shape is how parts are distributed between the limits of a band. The zero
// Shape is the study's default.
type Shape struct {
	kind   shapeKind
	sigmas float64 // of a normal shape, from the nominal value to each limit
	table  *shapeTable
}

type shapeKind uint8

const (
	shapeDefault shapeKind = iota
	shapeUniform
	shapeNormal
	shapeTabled
)

// shapeTable is a histogram: cumulated shares at the edges of its classes.
type shapeTable struct {
	edges []float64 // in the number of the quantity
	upTo  []float64 // 0 … 1
}

// UniformShape spreads parts evenly between the limits.
func UniformShape() Shape { return Shape{kind: shapeUniform} }

// NormalShape spreads parts normally, each limit being so many standard
// deviations from the nominal value (on each side its own, where they differ).
// Some boards lie outside the limits: 0.27 % for 3.
func NormalShape(sigmas float64) Shape {
	if !(sigmas > 0) || math.IsInf(sigmas, 0) {
		refuse(fmt.Sprintf("cannot use %v standard deviations", sigmas), "write how many of them the limit stands for, as in 3")
	}
	return Shape{kind: shapeNormal, sigmas: sigmas}
}

// String names the shape: "uniform", "normal, limits at 3 σ".
func (s Shape) String() string {
	switch s.kind {
	case shapeNormal:
		return fmt.Sprintf("normal, limits at %g σ", s.sigmas)
	case shapeTabled:
		return "as tabled"
	}
	return "uniform"
}

// or returns s, or the default where s does not say.
func (s Shape) or(d Shape) Shape {
	if s.kind == shapeDefault {
		s = d
	}
	if s.kind == shapeDefault {
		s.kind = shapeUniform
	}
	return s
}

// value returns what a part is for the random number r, where low, mid and
// high are its limits and nominal value. The conversions keep compilers from
// joining a product and a sum into one rounding: the digits are the same on
// every machine.
func (s Shape) value(r, low, mid, high float64) float64 {
	switch s.kind {
	case shapeNormal:
		z := math.Sqrt2 * math.Erfinv(2*r-1) / s.sigmas
		if z < 0 {
			return mid + float64(z*(mid-low))
		}
		return mid + float64(z*(high-mid))
	case shapeTabled:
		t := s.table
		i := sort.SearchFloat64s(t.upTo, r)
		i = min(max(i, 1), len(t.edges)-1)
		return t.edges[i-1] + (t.edges[i]-t.edges[i-1])*(r-t.upTo[i-1])/(t.upTo[i]-t.upTo[i-1])
	}
	return low + float64(r*(high-low))
}

// draw fills lanes with what the part is on the boards from first on.
func (s Shape) draw(lanes []float64, stream uint64, first int, low, mid, high float64) {
	if s.kind == shapeUniform { // a call for each lane would cost more than the draw
		width := high - low
		for i := range lanes {
			lanes[i] = low + float64(drawn(stream, first+i)*width)
		}
		return
	}
	for i := range lanes {
		lanes[i] = s.value(drawn(stream, first+i), low, mid, high)
	}
}

// Histogram gives a part whose spread is known from a table: edges[i] to
// edges[i+1] holds the share counts[i] of all parts (any scale; within a class
// they spread evenly). Its limits are the outer edges, its nominal value the
// mean. It panics with *Error where the table is no such table.
func Histogram(edges []Quantity, counts []float64) Quantity {
	no := func(hint string) { refuse("cannot make a Histogram of this table", hint) }
	if len(edges) < 2 || len(counts) != len(edges)-1 {
		no(fmt.Sprintf("%d edges have %d classes between them, and %d counts are given", len(edges), max(len(edges)-1, 0), len(counts)))
	}
	t := &shapeTable{upTo: []float64{0}}
	sum, mean := 0.0, 0.0
	for i, e := range edges {
		mustCompare(e, edges[0])
		if e.HasSpread() {
			no("its edges are exact values")
		}
		if i > 0 && !(e.v > edges[i-1].v) {
			no("the edges stand in rising order")
		}
		t.edges = append(t.edges, e.v)
	}
	for i, c := range counts {
		if !(c >= 0) || math.IsInf(c, 0) {
			no("a count is not negative")
		}
		if c == 0 && (i == 0 || i == len(counts)-1) {
			no("the first and the last class hold parts")
		}
	}
	for i, c := range counts {
		sum += c
		mean += c * (t.edges[i] + t.edges[i+1]) / 2
		t.upTo = append(t.upTo, sum)
	}
	for i := range t.upTo {
		t.upTo[i] /= sum
	}
	q := edges[0]
	q.v = mean / sum
	q.d |= computedMark
	q.e = &Ensemble{kind: spreadDeclared, given: &given{source: PartSource, low: t.edges[0], high: t.edges[len(t.edges)-1], shape: Shape{kind: shapeTabled, table: t}}}
	return q
}
