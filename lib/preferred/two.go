package preferred

import (
	"fmt"
	"math"

	"ohmwright/units"
)

// Combination is what SeriesPair and ParallelPair chose.
type Combination struct {
	First     units.Quantity // the larger part
	Second    units.Quantity // the smaller part, or the same
	Value     units.Quantity // what both make together
	Deviation units.Quantity // Value/wanted − 1
}

// SeriesPair returns the two members of s that in series come nearest to x.
//
//	resistors, inductors (uncoupled):  Value = First + Second
//	capacitors:                        Value = 1/(1/First + 1/Second)
//
// Arguments: s, a series or a stock; x, the value wanted, above zero; its
// unit says whether the parts are capacitors. Result: the two parts, the
// larger one first, what they make together, in the unit of x, and its
// relative deviation Value/x − 1.
//
//	c, err := SeriesPair(E24, 12.5kΩ)   // 8.2 kΩ and 4.3 kΩ, also 11 kΩ and 1.5 kΩ, less alike
//
// Neither part is beyond a factor of 1000 of x: such a part changes the
// value by less than any tolerance. Nearest is by smallest size of the
// relative deviation; of pairs that are equally good the one whose parts are
// most alike is taken, because it shares voltage and heat best. It is an
// error where Nearest would panic, and where a stock holds no part in reach.
//
// Source: IEC 60063 (members); Kirchhoff; every pair is tried.
//
// Caution: the voltage across capacitors in series is shared by their
// leakage at direct current, not by their capacitance alone.
func SeriesPair(s Series, x units.Quantity) (Combination, error) {
	return combine("cannot choose a series pair for", s, x, !isCapacitance(x))
}

// ParallelPair returns the two members of s that in parallel come nearest to
// x.
//
//	resistors, inductors (uncoupled):  Value = 1/(1/First + 1/Second)
//	capacitors:                        Value = First + Second
//
// Arguments: s, a series or a stock; x, the value wanted, above zero; its
// unit says whether the parts are capacitors. Result: the two parts, the
// larger one first, what they make together, in the unit of x, and its
// relative deviation Value/x − 1.
//
//	c, err := ParallelPair(E12, 50Ω)   // 100 Ω and 100 Ω
//
// Neither part is beyond a factor of 1000 of x: such a part changes the
// value by less than any tolerance. Nearest is by smallest size of the
// relative deviation; of pairs that are equally good the one whose parts are
// most alike is taken, because it shares current and heat best. It is an
// error where Nearest would panic, and where a stock holds no part in reach.
//
// Source: IEC 60063 (members); Kirchhoff; every pair is tried.
func ParallelPair(s Series, x units.Quantity) (Combination, error) {
	return combine("cannot choose a parallel pair for", s, x, isCapacitance(x))
}

// reach is the factor by which a part of a combination may differ from the
// whole.
const reach = 1000

// combine tries every first part and the best second part for it. sum says
// that values add; otherwise their reciprocals do.
func combine(use string, s Series, x units.Quantity, sum bool) (Combination, error) {
	v, l, err := climb(use, s, x)
	if err != nil {
		return Combination{}, err
	}
	first, last := l.ceil(v/reach), l.floor(v*reach)
	if sum {
		last = min(last, l.ceil(v)) // a part just above x may still be best, a larger one never
	} else {
		first = max(first, l.floor(v))
	}
	if l.stock != nil {
		first, last = max(first, 0), min(last, len(l.stock)-1)
	}
	if last < first {
		return Combination{}, &units.Error{
			Msg:  fmt.Sprintf("%s %v: %s holds no part in reach", use, x, s.Name),
			Hint: "choose from a series, or add parts to the stock",
		}
	}
	together := func(a, b float64) float64 {
		if sum {
			return a + b
		}
		return 1 / (1/a + 1/b)
	}
	best, large, small := math.Inf(1), 0, 0
	for i := first; i <= last; i++ {
		a := l.value(i)
		rest := v - a
		if !sum {
			rest = 1 / (1/v - 1/a)
		}
		below, above := first, first // for a first part that is too large (or, of reciprocals, too small) already
		switch {
		case rest > l.value(last) || math.IsInf(rest, 0) || !sum && rest <= 0:
			below, above = last, last
		case rest >= l.value(first):
			below, above = l.floor(rest), min(l.ceil(rest), last)
		}
		for _, j := range [2]int{below, above} {
			hi, lo := max(i, j), min(i, j)
			d := math.Abs(together(l.value(hi), l.value(lo))/v - 1)
			alike := math.Abs(d-best) <= tie && l.value(hi)/l.value(lo) < l.value(large)/l.value(small)-tie
			if d < best-tie || alike {
				best, large, small = min(best, d), hi, lo
			}
		}
	}
	return l.combination(large, small, x, sum)
}

func (l ladder) combination(large, small int, wanted units.Quantity, sum bool) (c Combination, err error) {
	if c.First, err = l.quantity(large); err != nil {
		return Combination{}, err
	}
	if c.Second, err = l.quantity(small); err != nil {
		return Combination{}, err
	}
	if sum {
		c.Value = c.First.Add(c.Second)
	} else {
		c.Value = units.Parallel(c.First, c.Second)
	}
	c.Value = l.scale.show(c.Value)
	c.Deviation = c.Value.Div(units.Nominal(wanted)).Sub(units.Number(1))
	return c, nil
}

func isCapacitance(x units.Quantity) bool { return x.Dim() == units.MustParse("1 F").Dim() }
