package units

import "math"

// Ensemble is how a value spreads. An exact value has none.
type Ensemble struct {
	kind      spreadKind
	low, high float64 // limits as given, in the number of the quantity
	thermal   bool    // a term per kelvin is part of it
}

type spreadKind uint8

const (
	spreadPending spreadKind = iota // computed from values with spread
	spreadRange                     // what a board will meet
	spreadPart                      // what differs from part to part
	spreadTypical                   // no limits published
)

// pending is the spread of a value computed from others with spread: this
// version computes its nominal value only.
var pending = &Ensemble{kind: spreadPending}

// pendingOf returns the spread of what is computed from values of these.
func pendingOf(es ...*Ensemble) *Ensemble {
	for _, e := range es {
		if e.spreads() {
			return pending
		}
	}
	return nil
}

func (e *Ensemble) spreads() bool { return e != nil && e.kind != spreadTypical }

// HasSpread reports whether a differs from board to board: it was given with
// Range, Band or ±, or is computed from such a value.
func (a Quantity) HasSpread() bool { return a.e.spreads() }

// IsTypical reports whether a was given with Typical: nobody published limits.
func (a Quantity) IsTypical() bool { return a.e != nil && a.e.kind == spreadTypical }

// Limits returns the limits of a value that was given with Range, Band or ±,
// as given. It is not ok for an exact value, for a value computed from others
// (their spread is not computed yet), and for one with a term per kelvin,
// whose limits depend on the temperature.
func (a Quantity) Limits() (low, high Quantity, ok bool) {
	if a.e == nil || a.e.kind != spreadRange && a.e.kind != spreadPart || a.e.thermal {
		return Quantity{}, Quantity{}, false
	}
	low, high = a.exact(), a.exact()
	low.v, high.v = a.e.low, a.e.high
	return low, high, true
}

// exact returns a without its spread.
func (a Quantity) exact() Quantity {
	a.e = nil
	a.d |= computedMark
	return a
}

// Range gives a value that every board meets anywhere between least and most,
// and usually at usual: a supply, a load, an ambient temperature, as in
// Range(18V, 24V, 32V). What differs from part to part is a Band or a
// tolerance instead. The three stand in rising order and have one dimension.
func Range(least, usual, most Quantity) Quantity {
	return limits("Range", spreadRange, least, usual, most)
}

// Band gives a value that differs from part to part between min and max, as
// a datasheet states it: Band(788mV, 800mV, 812mV). What a board meets in use
// is a Range instead. The three stand in rising order and have one dimension.
func Band(min, typ, max Quantity) Quantity { return limits("Band", spreadPart, min, typ, max) }

func limits(f string, kind spreadKind, low, mid, high Quantity) Quantity {
	mid = mid.like(high).like(low)
	for _, q := range []*Quantity{&low, &high} {
		if q.HasSpread() {
			refuse("cannot use "+q.described()+" as a limit of "+f, "it has spread of its own: take Nominal(x)")
		}
		mustCompare(*q, mid)
	}
	if mid.HasSpread() {
		refuse("cannot use "+mid.described()+" in "+f, "it has spread of its own: take Nominal(x)")
	}
	if !(low.v <= mid.v && mid.v <= high.v) {
		refuse("the values of "+f+" are out of order: "+low.String()+", "+mid.String()+", "+high.String(), "write the smallest first and the largest last")
	}
	mid.e = &Ensemble{kind: kind, low: low.v, high: high.v}
	mid.d |= computedMark
	return mid
}

// Tolerance returns x ± t: a part whose value lies within t of x. t is a
// percentage (1%, 100ppm), a value of the kind of x (25mV, 5K for a
// temperature, 1dB for a level), or one of these per kelvin (100ppm/K).
// Several terms add up: x ± 1% ± 0.5%. In cells it is written ±, or +/-.
//
// A percentage of a temperature, of decibels or of a percentage is refused:
// it would be read in two ways.
func Tolerance(x, t Quantity) Quantity {
	no := func(hint string) {
		refuse("cannot use ± "+t.described()+" on "+x.described(), hint)
	}
	if t.HasSpread() {
		no("the tolerance has spread of its own: take Nominal(t)")
	}
	if k := t.d.Kind(); k != PointScale && k != LevelScale && !(t.v >= 0) {
		no("a tolerance is not negative")
	}
	if x.e.spreads() && x.e.kind == spreadRange {
		no("a Range has its ends already")
	}
	if x.wild() && t.Dim() != 0 {
		x = x.like(t) // an offset, 0 ± 5mV
	}
	width, thermal := 0.0, false
	kind := x.d.Kind()
	share := t.Dim() == 0 && isShare(t.u)
	switch {
	case share && kind == PlainScale && isShare(x.u):
		no("a share of a share is ambiguous: write Band(min, typ, max)")
	case share && kind == PlainScale:
		width = t.v * math.Abs(x.v)
	case share && kind == PointScale:
		no("a percentage of a point on the scale means nothing: write a difference, 25°C ± 5K")
	case share:
		no("a percentage of decibels is ambiguous: write the tolerance in dB")
	case kind == PointScale && t.d.Same(dimKelvin), kind == LevelScale && t.d.Same(dimGain), kind != PointScale && kind != LevelScale && t.d.Same(x.d):
		width = t.v
	case t.d.Same(dimPerKelvin) && kind == PlainScale:
		thermal = true
	case kind == PlainScale && t.d.Kind() == PlainScale && perKelvin(x.d, t.d):
		thermal = true
	case kind == PointScale:
		no("a point on the scale varies by a difference, 25°C ± 5K")
	case kind == LevelScale:
		no("a level varies by a gain, 10dBm ± 1dB")
	case t.Dim() == 0:
		no("write a percentage, ± 1%, or a value with its unit")
	default:
		no("the tolerance is a percentage or a value of the same kind")
	}
	out := x
	out.d |= computedMark
	if x.e.spreads() && x.e.kind == spreadPending {
		return out
	}
	e := &Ensemble{kind: spreadPart, low: x.v, high: x.v}
	if x.e != nil && x.e.kind == spreadPart {
		*e = *x.e
	}
	e.low -= width
	e.high += width
	e.thermal = e.thermal || thermal
	out.e = e
	return out
}

var dimPerKelvin = dimOf(0, 0, 0, 0, -2, 0, 0)

// perKelvin reports whether t is x per kelvin.
func perKelvin(x, t Dim) bool {
	d, ok := addExponents(x, dimPerKelvin)
	return ok && d == t&exponents
}

// Typical marks x as a value for which no limits are published: it computes
// as an exact value, and a verdict can say how much it rests on such values.
func Typical(x Quantity) Quantity {
	if x.HasSpread() {
		refuse("cannot call "+x.described()+" typical", "it has limits")
	}
	x.e = &Ensemble{kind: spreadTypical}
	x.d |= computedMark
	return x
}

// High returns the upper limit of x as an exact value, and x itself where it
// has none: High(Range(18V, 24V, 32V)) is 32 V. The limits of values that were
// computed from others are not known yet, and are refused.
func High(x Quantity) Quantity {
	return limitOf("High", x, func(e *Ensemble) float64 { return e.high })
}

// Low returns the lower limit of x as an exact value, and x itself where it
// has none: Low(Range(18V, 24V, 32V)) is 18 V. The limits of values that were
// computed from others are not known yet, and are refused.
func Low(x Quantity) Quantity { return limitOf("Low", x, func(e *Ensemble) float64 { return e.low }) }

func limitOf(f string, x Quantity, limit func(*Ensemble) float64) Quantity {
	if !x.HasSpread() {
		return x.exact()
	}
	if x.e.thermal {
		refuse("cannot take "+f+" of "+x.described(), "a term per kelvin is not computed yet by this version: write it as a percentage over the temperature range")
	}
	if x.e.kind == spreadPending {
		refuse("cannot take "+f+" of "+x.described(), "the spread of computed values is not computed yet by this version: take the limits of the inputs")
	}
	q := x.exact()
	q.v = limit(x.e)
	return q
}

// Nominal returns x without its spread: 24 V for Range(18V, 24V, 32V).
func Nominal(x Quantity) Quantity { return x.exact() }

// Another returns another part of the same kind as x: the same value and
// limits, but spread of its own. Using a name twice is the same part twice;
// R2 := Another(R1) is a second part.
func Another(x Quantity) Quantity {
	if x.e != nil && x.e != pending {
		e := *x.e
		x.e = &e
	}
	return x
}
