package units

import "math"

// String writes the value with four significant digits: "10 kΩ", "−40 °C".
func (a Quantity) String() string { return a.Text(4) }

// Text writes the value with that many significant digits, without trailing
// zeros: the number, a space, the unit. With 0 digits it writes the value in
// full: Parse reads it back to the same value.
//
// The unit is the one that the value was given or asked for in, otherwise
// the preferred one of its dimension. Its prefix follows from the rounded
// number, so that 999.96 mV at four digits is 1 V and never 1000 mV; a unit
// that was asked for with In keeps its prefix. A temperature, level or gain
// has no more decimals than a number between 1 and 10 would have: what is left
// of 25 °C − 25 K is written 0 °C, whatever the last bit of the sum. Numbers
// that no prefix brings near 1 have an exponent: 1.25e-5 m².
func (a Quantity) Text(digits int) string {
	number, unit := a.Parts(digits)
	return join(number, unit)
}

func join(number, unit string) string {
	if unit == "" {
		return number
	}
	return number + " " + unit
}

// Parts returns the number and the unit of Text.
func (a Quantity) Parts(digits int) (number, unit string) {
	u := a.printed()
	return a.partsOn(u, u.ladder, digits)
}

// AsBought writes the value of a part with just the digits it is marked with:
// "1.91 kΩ", "4.7 µF", "100 nF", "4700 µF".
func (a Quantity) AsBought() string {
	u := a.printed()
	ladder := u.bought
	if ladder == nil {
		ladder = u.ladder
	} else if x := math.Abs(a.v); x >= 0.1 {
		ladder = u.ladder // a farad is a farad
	}
	digits := 3
	if short := u.digits(a.v, 3); math.Abs(u.toSI(short)-a.v) > 1e-9*math.Abs(a.v) {
		digits = 6
	}
	return join(a.partsOn(u, ladder, digits))
}

// printed returns the unit in which a is written, never nil.
func (a Quantity) printed() *Unit {
	if a.u != nil && !a.u.hidden {
		return a.u
	}
	return preferred(a.Dim())
}

// preferred returns the unit that values of a dimension are written in.
func preferred(d Dim) *Unit {
	if d == 0 {
		return unitOne
	}
	if k, ok := std.named[named{dim: d}]; ok {
		return k.unit
	}
	return composeSI(d, tag{})
}

var unitOne = &Unit{scale: ratPow10(0), pure: true, si: "1"}

// partsOn writes a in unit u, with a prefix of the ladder.
func (a Quantity) partsOn(u *Unit, ladder []rung, digits int) (number, unit string) {
	if a.v-a.v != 0 {
		return nonFinite(a.v), u.Symbol
	}
	d := u.digits(a.v, digits)
	unit = u.Symbol
	if ladder != nil {
		r := ladder[0]
		for _, next := range ladder[1:] {
			if next.exp <= d.order() {
				r = next
			}
		}
		if d.digits == "" {
			r = zeroRung(ladder)
		}
		d.exp -= r.exp
		unit = r.symbol
	}
	return d.written(digits), unit
}

// zeroRung is the rung without prefix, or the nearest to it.
func zeroRung(ladder []rung) rung {
	best := ladder[0]
	for _, r := range ladder {
		if max(r.exp, -r.exp) < max(best.exp, -best.exp) {
			best = r
		}
	}
	return best
}

func nonFinite(v float64) string {
	switch {
	case math.IsNaN(v):
		return "NaN"
	case v < 0:
		return "−∞"
	}
	return "∞"
}

// written chooses between the plain form and one with an exponent.
func (d decimal) written(digits int) string {
	high := 6
	if digits == 0 || digits > 7 {
		high = 14
	}
	if d.digits != "" && (d.order() > high || d.order() < -4) {
		return d.scientific()
	}
	return d.plain()
}

// digits rounds v to n significant digits of the unit; n = 0 gives the
// fewest that read back as v.
func (u *Unit) digits(v float64, n int) decimal {
	if n < 0 {
		n = 0
	}
	kind := u.dim.Kind()
	limited := kind == PointScale || kind == LevelScale || u.dim == dimGain
	switch {
	case u.pure && (n == 0 || !limited):
		d := floatDigits(v, n)
		if d.digits != "" {
			d.exp -= u.pow10
		}
		return d
	case n == 0:
		return u.shortest(v)
	}
	x := u.fromSI(v)
	if x.Sign() == 0 {
		return decimal{}
	}
	decimals := n - 1 - ratOrder(x)
	if limited {
		decimals = min(decimals, n-1)
	}
	return ratDecimals(x, decimals)
}

// shortest returns the decimal with the fewest digits (for a scale with an
// offset: the fewest decimals) that reads back as v.
func (u *Unit) shortest(v float64) decimal {
	x := u.fromSI(v)
	if u.offset != nil {
		for n := 0; ; n++ {
			if d := ratDecimals(x, n); u.toSI(d) == v || n > maxDigits-100 {
				return d
			}
		}
	}
	if x.Sign() == 0 {
		return decimal{}
	}
	for n := 1; ; n++ {
		if d := ratDigits(x, n); u.toSI(d) == v || n > 40 {
			return d
		}
	}
}

// Column writes several values with one common unit and prefix, chosen for
// the largest. Values of another dimension than the first are written by
// themselves.
func Column(digits int, qs ...Quantity) []string {
	out := make([]string, len(qs))
	if len(qs) == 0 {
		return out
	}
	u := qs[0].printed()
	common := func(q Quantity) bool { return q.Dim() == qs[0].Dim() && tagOf(q.u) == tagOf(qs[0].u) }
	ladder := u.ladder
	if ladder != nil {
		largest := Quantity{}
		for _, q := range qs {
			if common(q) && math.Abs(q.v) > math.Abs(largest.v) && q.v-q.v == 0 {
				largest = q
			}
		}
		_, symbol := largest.partsOn(u, ladder, digits)
		for _, r := range ladder {
			if r.symbol == symbol {
				ladder = []rung{r}
				break
			}
		}
	}
	for i, q := range qs {
		if common(q) {
			out[i] = join(q.partsOn(u, ladder, digits))
		} else {
			out[i] = q.Text(digits)
		}
	}
	return out
}
