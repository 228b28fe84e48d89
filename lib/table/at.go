package table

import (
	"fmt"
	"math"
	"sort"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// At returns the output at a value of the input, or at values of both in a
// family of curves, on the straight line between the rows around it:
//
//	y = y₁ + (y₂ − y₁) · (x − x₁)/(x₂ − x₁)
//
// An input whose axis is logarithmic counts by its logarithm; an output whose
// axis is, changes from y₁ to y₂ by equal ratios. In a family both curves
// around the second input are read, and then the line between them.
//
// Values with spread are read in every case on the piece of that case. It is
// an error where a value is outside of the rows in some case, unless Held or
// Extended say what is there.
func (t Table) At(x ...units.Quantity) (units.Quantity, error) {
	out, err := t.output()
	if err != nil {
		return none, err
	}
	if len(x) != t.inputs {
		return none, fmt.Errorf("%s: At gets %s, and the table has %s: write %s", t.name, count(len(x), "value"), count(t.inputs, "input"), words(t.Columns()[:t.inputs], "and"))
	}
	for i, v := range x {
		c := t.columns[i]
		plain := c.one.Dim() == 0
		switch {
		case !argument.Given(v) && !plain:
			return none, fmt.Errorf("%s: %s is not given, or is the bare number 0: write it in %s", t.name, c.name, c.unit)
		case argument.Given(v) && !sameKind(v, c.one):
			return none, fmt.Errorf("%s: %s is %v: write it in %s", t.name, c.name, v, c.unit)
		}
	}
	r := t.reader(out)
	holds := func(x []float64) bool {
		_, _, inside := r.inside(x)
		return inside
	}
	if where, at, ok := units.Everywhere(holds, x...); !ok {
		return none, t.outside(r, where, at)
	}
	return units.Lanewise(t.columns[out].name, t.columns[out].one, r.at, x...), nil
}

// outside is the error for a case, whose inputs are at, that the rows do not
// reach.
func (t Table) outside(r reader, where string, at []units.Quantity) error {
	input, k, _ := r.inside(numbersOf(at...))
	if where != "" {
		where = " " + where
	}
	c := t.columns[input]
	low, high := r.curves[k].from, r.curves[k].to
	of := "the column goes"
	switch {
	case input == 1:
		low, high = r.curves[0].of, r.curves[len(r.curves)-1].of
	case t.inputs > 1:
		of = fmt.Sprintf("the curve of %s %v goes", t.columns[1].name, r.curves[k].of)
	}
	mend := "add rows there, or say with Held() that the end values hold"
	if t.ends != nothingKnown {
		mend = "it cannot be read so far outside"
	}
	return fmt.Errorf("%s: %s is %v%s; %s from %v to %v: %s", t.name, c.name, at[input], where, of, low, high, mend)
}

// reader reads an output by numbers.
type reader struct {
	curves           []curve
	ends             ends
	logX, logZ, logY bool
	point            bool // the output is a temperature, which has a lowest
}

func (t Table) reader(out int) reader {
	return reader{curves: t.columns[out].curves, ends: t.ends, logX: t.columns[0].log, logZ: t.inputs > 1 && t.columns[1].log, logY: t.columns[out].log,
		point: t.columns[out].one.Dim().Kind() == units.PointScale}
}

// inside reports whether the output is known at x; where it is not, of which
// input, and on which curve.
func (r reader) inside(x []float64) (input, k int, ok bool) {
	if len(x) > 1 {
		z := x[1]
		if !r.reaches(z, r.curves[0].at, r.curves[len(r.curves)-1].at, r.logZ) {
			return 1, 0, false
		}
		low, high := r.around(z)
		for k := low; k <= high; k++ {
			if !r.along(x[0], k) {
				return 0, k, false
			}
		}
	} else if !r.along(x[0], 0) {
		return 0, 0, false
	}
	if r.ends == straightOn {
		if y := r.at(x); y-y != 0 || r.point && y < 0 {
			return 0, 0, false
		}
	}
	return 0, 0, true
}

func (r reader) along(x float64, k int) bool {
	c := r.curves[k]
	return r.reaches(x, c.x[0], c.x[len(c.x)-1], r.logX)
}

func (r reader) reaches(x, low, high float64, log bool) bool {
	switch r.ends {
	case heldEnds:
		return x == x
	case straightOn:
		return -1e30 < x && x < 1e30 && (x > 0 || !log)
	}
	return low <= x && x <= high
}

// around returns the curves between which z lies: one, where it is on it.
func (r reader) around(z float64) (low, high int) {
	n := len(r.curves)
	if r.ends == heldEnds {
		z = min(max(z, r.curves[0].at), r.curves[n-1].at)
	}
	i := sort.Search(n, func(i int) bool { return r.curves[i].at >= z })
	if i < n && r.curves[i].at == z {
		return i, i
	}
	i = min(max(i, 1), n-1)
	return i - 1, i
}

// at is the output at x.
func (r reader) at(x []float64) float64 {
	if len(x) == 1 {
		return r.on(0, x[0])
	}
	low, high := r.around(x[1])
	first := r.on(low, x[0])
	if low == high {
		return first
	}
	return between(x[1], r.curves[low].at, r.curves[high].at, first, r.on(high, x[0]), r.logZ, r.logY)
}

// on is the output on one curve.
func (r reader) on(k int, x float64) float64 {
	c := r.curves[k]
	n := len(c.x)
	if r.ends == heldEnds {
		x = min(max(x, c.x[0]), c.x[n-1])
	}
	i := min(max(sort.SearchFloat64s(c.x, x), 1), n-1)
	return between(x, c.x[i-1], c.x[i], c.y[i-1], c.y[i], r.logX, r.logY)
}

// between is the value at x on the line from x1, y1 to x2, y2. It is y1 and y2
// to the last bit at the ends, and between them inside; the conversion keeps
// compilers from joining a product and a sum into one rounding, so that the
// digits are the same on every machine.
func between(x, x1, x2, y1, y2 float64, logX, logY bool) float64 {
	switch x {
	case x1:
		return y1
	case x2:
		return y2
	}
	share := (x - x1) / (x2 - x1)
	if logX {
		share = math.Log(x/x1) / math.Log(x2/x1)
	}
	var y float64
	if logY {
		y = y1 * math.Exp(share*math.Log(y2/y1))
	} else {
		y = y1 + float64((y2-y1)*share)
	}
	if x1 < x && x < x2 {
		y = min(max(y, min(y1, y2)), max(y1, y2))
	}
	return y
}
