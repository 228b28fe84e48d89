package preferred

import (
	"fmt"
	"math"

	"ohmwright/units"
)

// Pair is what RatioPair chose.
type Pair struct {
	Upper     units.Quantity // the numerator
	Lower     units.Quantity // the denominator
	Ratio     units.Quantity // Upper/Lower
	Deviation units.Quantity // Ratio/wanted − 1
}

// tie is the difference of two relative deviations below which both are
// equally good: arithmetic alone parts 20/10 from 22/11 by so much.
const tie = 1e-12

// RatioPair returns the two members of s, both from least to most, whose
// ratio comes nearest to the wanted one: Upper/Lower ≈ ratio.
//
// Arguments: s, a series or a stock; ratio, above zero, without dimension;
// least and most, the smallest and largest value allowed for either part.
// Result: the two parts, in the unit of least, the ratio they have and its
// relative deviation Upper/Lower/ratio − 1.
//
//	p, err := RatioPair(E96, 3.125, 10kΩ, 1MΩ)
//
// Nearest is by smallest size of the relative deviation. Of pairs that are
// equally good (the same two figures a decade higher, say) the one with the
// smallest Lower is taken: it loads the circuit most but is disturbed least
// by leakage and noise, so put least where the current is still affordable.
//
// It is an error where Nearest would panic, where ratio has a dimension,
// where least is above most, and where s has no member between them.
//
// Source: IEC 60063 (members); every pair is tried.
//
// Caution: the nominal ratio is met far better than the parts' tolerances
// hold it; a pair of 1 % parts is rarely better than 1 %.
func RatioPair(s Series, ratio, least, most units.Quantity) (Pair, error) {
	want, rs, err := sizeOf("cannot choose a pair for the ratio", ratio)
	if err != nil {
		return Pair{}, err
	}
	if ratio.Dim() != units.Number(1).Dim() {
		return Pair{}, &units.Error{
			Msg:  fmt.Sprintf("cannot choose a pair for the ratio %v: it has a unit", ratio),
			Hint: "divide the two values: a ratio is a plain number",
		}
	}
	want *= rs.one.SI() // a ratio may come in percent
	l, first, last, err := span("cannot choose a pair", s, "least", least, "most", most)
	if err != nil {
		return Pair{}, err
	}
	if last < first {
		return Pair{}, emptySpan(s, least, most)
	}
	if last-first >= mostMembers {
		return Pair{}, &units.Error{
			Msg:  fmt.Sprintf("cannot choose a pair from %v to %v: there are %d members between", least, most, last-first+1),
			Hint: "narrow the range; check the prefixes of the two ends",
		}
	}
	best, upper, lower := math.Inf(1), 0, 0
	for j := first; j <= last; j++ {
		target := l.value(j) * want
		below, above := first, last
		if target >= l.value(first) { // a ladder is climbed only where it has rungs to offer
			below = min(l.floor(target), last)
		}
		if target <= l.value(last) {
			above = max(l.ceil(target), first)
		}
		for _, i := range [2]int{below, above} {
			if d := math.Abs(l.value(i)/target - 1); d < best-tie {
				best, upper, lower = d, i, j
			}
		}
	}
	return l.pair(upper, lower, ratio)
}

func (l ladder) pair(upper, lower int, wanted units.Quantity) (p Pair, err error) {
	if p.Upper, err = l.quantity(upper); err != nil {
		return Pair{}, err
	}
	if p.Lower, err = l.quantity(lower); err != nil {
		return Pair{}, err
	}
	p.Ratio = p.Upper.Div(p.Lower)
	p.Deviation = p.Ratio.Div(units.Nominal(wanted)).Sub(units.Number(1))
	return p, nil
}

func emptySpan(s Series, least, most units.Quantity) error {
	return &units.Error{
		Msg:  fmt.Sprintf("%s has no member from %v to %v", s.Name, least, most),
		Hint: "widen the range, or take a series with more members",
	}
}
