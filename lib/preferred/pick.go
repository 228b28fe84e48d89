package preferred

import (
	"fmt"

	"ohmwright/units"
)

// Nearest returns the member of s that is nearest to x: the one with the
// smallest relative error |member − x|/x, which is also the smallest
// difference.
//
// Arguments: s, a series or a stock; x, the ideal value, above zero, of any
// unit. Result: the member, exact, in the unit of x.
//
//	Nearest(E96, 1.905kΩ)   // 1.91 kΩ
//	Nearest(E24, 1.25)      // 1.2: on a tie the smaller
//
// The error against the ideal value is what a designer writes beside a choice
// and what spoils the circuit, so it is held small rather than the ratio of
// the two; the two rules part only near the middle of a gap (in E3, 1.5
// lies nearer to 1.0, though the ratio to 2.2 is smaller). Where both
// neighbours are equally far the smaller is taken. A member within rounding
// (1e-9 of x) is itself. Where x has spread its nominal value decides.
//
// Nearest panics with a *units.Error, as arithmetic does, where x is zero,
// negative, not finite, a temperature point or a level, or where a stock
// holds another kind of value.
//
// Source: IEC 60063 (members); the rule of choice is common practice.
//
// Caution: nearest may be the wrong side; a limit asks for AtLeast or AtMost.
func Nearest(s Series, x units.Quantity) units.Quantity {
	return must(nearest(s, x))
}

// AtLeast returns the smallest member of s that is not below x: the part
// where x is a lower limit, such as a capacitance needed or the least
// resistance of a pull-up.
//
// Arguments: s, a series or a stock; x, the limit, above zero, without
// spread. Result: the member, exact, in the unit of x.
//
//	AtLeast(E6, 95uF)    // 100 µF
//	AtLeast(E6, 100uF)   // 100 µF
//
// A member within rounding (1e-9 of x) is itself. A limit with spread is
// refused: High(x), Low(x) or Nominal(x) says which end counts. Otherwise it
// panics as Nearest does, and where a stock holds nothing so large.
//
// Source: IEC 60063 (members).
//
// Caution: the part's own tolerance still takes
// it below x; ask for x/(1−tolerance) where the limit must hold for every
// part.
func AtLeast(s Series, x units.Quantity) units.Quantity {
	return must(atLeast(s, x))
}

// AtMost returns the largest member of s that is not above x: the part where
// x is an upper limit, such as the largest pull-up for a rise time.
//
// Arguments: s, a series or a stock; x, the limit, above zero, without
// spread. Result: the member, exact, in the unit of x.
//
//	AtMost(E24, 1770.3Ω)   // 1.6 kΩ
//
// A member within rounding (1e-9 of x) is itself. A limit with spread is
// refused: High(x), Low(x) or Nominal(x) says which end counts. Otherwise it
// panics as Nearest does, and where a stock holds nothing so small.
//
// Source: IEC 60063 (members).
//
// Caution: the part's own tolerance still takes
// it above x; ask for x/(1+tolerance) where the limit must hold for every
// part.
func AtMost(s Series, x units.Quantity) units.Quantity {
	return must(atMost(s, x))
}

// Next returns the smallest member of s that is above x, beyond rounding
// (1e-9 of x): one step up.
//
//	Next(E12, 4.7kΩ)   // 5.6 kΩ
//
// Arguments: s, a series or a stock; x, above zero, of any unit. Result: the
// member, exact, in the unit of x. It is an error where Nearest would panic,
// and where a stock holds nothing larger.
//
// Source: IEC 60063 (members).
func Next(s Series, x units.Quantity) (units.Quantity, error) {
	v, l, err := climb("cannot step up from", s, x)
	if err != nil {
		return none, err
	}
	return l.choose(l.floor(v)+1, "above", x)
}

// Previous returns the largest member of s that is below x, beyond rounding
// (1e-9 of x): one step down.
//
//	Previous(E12, 4.7kΩ)   // 3.9 kΩ
//
// Arguments: s, a series or a stock; x, above zero, of any unit. Result: the
// member, exact, in the unit of x. It is an error where Nearest would panic,
// and where a stock holds nothing smaller.
//
// Source: IEC 60063 (members).
func Previous(s Series, x units.Quantity) (units.Quantity, error) {
	v, l, err := climb("cannot step down from", s, x)
	if err != nil {
		return none, err
	}
	return l.choose(l.ceil(v)-1, "below", x)
}

// IsMember reports whether x is a member of s, within rounding (1e-9 of x).
// What has no preferred number at all (zero, a negative value, a temperature
// point, a level) is not a member.
//
//	IsMember(E24, 4.7kΩ)   // true
//	IsMember(E96, 4.7kΩ)   // false: E96 has 4.64 and 4.75
//
// Source: IEC 60063 (members).
func IsMember(s Series, x units.Quantity) bool {
	v, l, err := climb("cannot look up", s, x)
	if err != nil {
		return false
	}
	return l.floor(v) == l.ceil(v)
}

// mostMembers bounds a list, so that a wrong prefix does not fill a page.
const mostMembers = 10_000

// Members returns the members of s from the value from to the value to, both
// included within rounding, rising, in the unit of from.
//
//	Members(E6, 1kΩ, 10kΩ)   // 1 kΩ, 1.5 kΩ, 2.2 kΩ, 3.3 kΩ, 4.7 kΩ, 6.8 kΩ, 10 kΩ
//
// Arguments: s, a series or a stock; from and to, above zero, of the same
// dimension, to not below from. The list may be empty. It is an error where
// Nearest would panic, and for more than 10 000 members.
//
// Source: IEC 60063 (members).
func Members(s Series, from, to units.Quantity) ([]units.Quantity, error) {
	l, first, last, err := span("cannot list members", s, "from", from, "to", to)
	if err != nil {
		return nil, err
	}
	if last-first >= mostMembers {
		return nil, &units.Error{
			Msg:  fmt.Sprintf("cannot list members from %v to %v: there are %d", from, to, last-first+1),
			Hint: fmt.Sprintf("list at most %d; check the prefixes of the two ends", mostMembers),
		}
	}
	var list []units.Quantity
	for i := first; i <= last; i++ {
		q, err := l.quantity(i)
		if err != nil {
			return nil, err
		}
		list = append(list, q)
	}
	return list, nil
}

func must(q units.Quantity, err error) units.Quantity {
	if err != nil {
		panic(err)
	}
	return q
}

func nearest(s Series, x units.Quantity) (units.Quantity, error) {
	v, l, err := climb("cannot choose the nearest to", s, x)
	if err != nil {
		return none, err
	}
	return l.quantity(l.nearest(v))
}

func atLeast(s Series, x units.Quantity) (units.Quantity, error) {
	if err := noSpread("AtLeast", s, x); err != nil {
		return none, err
	}
	v, l, err := climb("cannot choose a value of at least", s, x)
	if err != nil {
		return none, err
	}
	return l.choose(l.ceil(v), "at or above", x)
}

func atMost(s Series, x units.Quantity) (units.Quantity, error) {
	if err := noSpread("AtMost", s, x); err != nil {
		return none, err
	}
	v, l, err := climb("cannot choose a value of at most", s, x)
	if err != nil {
		return none, err
	}
	return l.choose(l.floor(v), "at or below", x)
}

// nearest returns the rung nearest to v, the lower one on a tie.
func (l ladder) nearest(v float64) int {
	below, above := l.floor(v), l.ceil(v)
	switch {
	case !l.has(below):
		return above
	case !l.has(above):
		return below
	case v-l.value(below) <= l.value(above)-v+rounding*v:
		return below
	}
	return above
}

// choose returns rung i, and where a stock has none says what it holds.
func (l ladder) choose(i int, where string, x units.Quantity) (units.Quantity, error) {
	if l.has(i) {
		return l.quantity(i)
	}
	first, last := l.stock[0], l.stock[len(l.stock)-1]
	return none, &units.Error{
		Msg:  fmt.Sprintf("%s holds nothing %s %v: it goes from %v to %v", l.name, where, x, first, last),
		Hint: "choose from a series, or combine two parts with SeriesPair or ParallelPair",
	}
}

// climb prepares the choice of x from s.
func climb(use string, s Series, x units.Quantity) (float64, ladder, error) {
	v, sc, err := sizeOf(use, x)
	if err != nil {
		return 0, ladder{}, err
	}
	l, err := s.ladder(sc)
	return v, l, err
}

// span prepares the choice between two values: the rungs from a to b, in the
// unit of a.
func span(use string, s Series, aName string, a units.Quantity, bName string, b units.Quantity) (l ladder, first, last int, err error) {
	v, l, err := climb(use+": "+aName+" is", s, a)
	if err != nil {
		return l, 0, 0, err
	}
	if _, _, err := sizeOf(use+": "+bName+" is", b); err != nil {
		return l, 0, 0, err
	}
	if a.Dim() != b.Dim() {
		return l, 0, 0, &units.Error{
			Msg:  fmt.Sprintf("%s: %s is %v and %s is %v", use, aName, a, bName, b),
			Hint: "give both ends in the same unit",
		}
	}
	if units.Nominal(b).Less(units.Nominal(a)) {
		return l, 0, 0, &units.Error{
			Msg:  fmt.Sprintf("%s: %s is %v, above %s, which is %v", use, aName, a, bName, b),
			Hint: "exchange the two ends",
		}
	}
	w := units.Nominal(b).SI() / l.scale.one.SI()
	return l, l.ceil(v), l.floor(w), nil
}

func noSpread(function string, s Series, x units.Quantity) error {
	if !x.HasSpread() {
		return nil
	}
	return &units.Error{
		Msg:  fmt.Sprintf("%s(%s, x) got x with spread, nominally %v: a limit needs one value", function, s.Name, units.Nominal(x)),
		Hint: fmt.Sprintf("say which end counts: %s(%s, High(x)), Low(x) or Nominal(x)", function, s.Name),
	}
}
