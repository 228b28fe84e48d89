package units

import "math"

// plainOnly refuses points, levels and gains for function f.
func plainOnly(f string, x Quantity) {
	switch x.d.Kind() {
	case PointScale:
		refuse("cannot take "+f+" of "+x.described(), "use Absolute(T), or a difference")
	case LevelScale:
		refuse("cannot take "+f+" of "+x.described(), "use Power(x) or Voltage(x)")
	case GainScale:
		refuse("cannot take "+f+" of "+x.described(), "use PowerRatio(g) or VoltageRatio(g)")
	}
}

// numberOnly refuses anything with a dimension for function f.
func numberOnly(f string, x Quantity) {
	plainOnly(f, x)
	if x.Dim() != 0 {
		refuse("cannot take "+f+" of "+x.described(), "divide by a value of the same kind first, as in "+f+"(x/1"+x.SIUnit()+")")
	}
}

// number makes the plain number v from x.
func number(v float64, x Quantity) Quantity {
	return Quantity{v: v, d: computedMark, e: pendingOf(x.e)}
}

// Sqrt returns the square root of x, which is not negative: Sqrt(P*R) of a
// power and a resistance is a voltage, Sqrt of 100 Hz is 10 √Hz.
func Sqrt(x Quantity) Quantity {
	plainOnly("Sqrt", x)
	if x.v < 0 {
		refuse("cannot take Sqrt of "+x.described(), "the argument is negative")
	}
	q := rootPower("Sqrt", x, 1)
	q.v = math.Sqrt(x.v)
	return q
}

// rootPower returns x^(halves/2) but for its number.
func rootPower(f string, x Quantity, halves int) Quantity {
	d, ok := scaleExponents(x.d&exponents, halves)
	if !ok {
		refuse("cannot take "+f+" of "+x.described(), "its exponent would be finer than a half or larger than 63")
	}
	return Quantity{d: d | computedMark, u: powerUnit(x, halves, d), e: pendingOf(x.e)}
}

// Pow returns x to the power n: Pow(V, 2)/R. Where x has a dimension, n is a
// whole number or a half.
func Pow(x Quantity, n float64) Quantity {
	plainOnly("Pow", x)
	v := math.Pow(x.v, n)
	if v-v != 0 && x.v-x.v == 0 {
		hint := "the result is too large"
		if x.v == 0 {
			hint = "zero has no negative power"
		} else if x.v < 0 {
			hint = "a negative number has whole powers only"
		}
		refuse("cannot take Pow of "+x.described(), hint)
	}
	if x.Dim() == 0 && tagOf(x.u) == (tag{}) {
		return number(v, x)
	}
	if n*2 != math.Trunc(n*2) || math.Abs(n) > 127 {
		if x.Dim() == 0 {
			return number(v, x)
		}
		refuse("cannot take Pow of "+x.described(), "the exponent of a value with a dimension is a whole number or a half")
	}
	q := rootPower("Pow", x, int(n*2))
	q.v = v
	return q
}

// Exp returns e^x for a plain number, as in V*(1 - Exp(-t/(R*C))).
func Exp(x Quantity) Quantity {
	numberOnly("Exp", x)
	v := math.Exp(x.v)
	if math.IsInf(v, 1) && !math.IsInf(x.v, 1) {
		refuse("cannot take Exp of "+x.described(), "the result is too large")
	}
	return number(v, x)
}

// Ln returns the natural logarithm of a positive number, as in R*C*Ln(V1/V2).
// The logarithm of a value with a dimension does not exist: divide by a value
// of its kind first.
func Ln(x Quantity) Quantity {
	numberOnly("Ln", x)
	positive("Ln", x)
	return number(math.Log(x.v), x)
}

// Log10 returns the decimal logarithm of a positive number; that of a power
// of ten is exact. For decibels there are PowerGain, VoltageGain and Level.
func Log10(x Quantity) Quantity {
	numberOnly("Log10", x)
	positive("Log10", x)
	return number(log10(x.v), x)
}

func positive(f string, x Quantity) {
	if !(x.v > 0) {
		refuse("cannot take "+f+" of "+x.described(), "the argument is not positive")
	}
}

// log10 is math.Log10, exact for powers of ten: that gives
// -2.9999999999999996 for 0.001.
func log10(x float64) float64 {
	l := math.Log10(x)
	if r := math.Round(l); math.Abs(l-r) < 1e-12 && pow10(r) == x {
		return r
	}
	return l
}

// pow10 is 10^x, exact where x is whole.
func pow10(x float64) float64 {
	if x == math.Trunc(x) && math.Abs(x) < 400 {
		// math.Pow10 is off in the last place for 24 and others.
		return decimal{digits: "1", exp: int(x)}.float(0)
	}
	return math.Pow(10, x)
}

// Sin returns the sine of an angle; a plain number is in radians.
func Sin(x Quantity) Quantity {
	numberOnly("Sin", x)
	return number(math.Sin(x.v), x)
}

// Cos returns the cosine of an angle; a plain number is in radians.
func Cos(x Quantity) Quantity {
	numberOnly("Cos", x)
	return number(math.Cos(x.v), x)
}

// Tan returns the tangent of an angle; a plain number is in radians.
func Tan(x Quantity) Quantity {
	numberOnly("Tan", x)
	return number(math.Tan(x.v), x)
}

// Atan returns the angle, in radians between −π/2 and π/2, whose tangent is x.
func Atan(x Quantity) Quantity {
	numberOnly("Atan", x)
	q := number(math.Atan(x.v), x)
	q.u = unitRadian
	return q
}

// Abs returns x without its sign. A point on the temperature scale and a level
// have no natural zero and are refused.
func Abs(x Quantity) Quantity {
	switch x.d.Kind() {
	case PointScale, LevelScale:
		refuse("cannot take Abs of "+x.described(), "zero is no natural place on this scale: take Abs of a difference")
	}
	return Quantity{v: math.Abs(x.v), d: x.d | computedMark, u: x.u, e: pendingOf(x.e)}
}

// Min returns the smallest of the values, which have one dimension.
func Min(x Quantity, more ...Quantity) Quantity { return extreme(x, more, Quantity.Less) }

// Max returns the largest of the values, which have one dimension.
func Max(x Quantity, more ...Quantity) Quantity {
	return extreme(x, more, func(a, b Quantity) bool { return b.Less(a) })
}

func extreme(x Quantity, more []Quantity, before func(a, b Quantity) bool) Quantity {
	if len(more) == 0 {
		return x
	}
	best, e := x, x.e
	for _, q := range more {
		if before(q, best) {
			best, q = q, best
		}
		best = best.like(q)
		e = pendingOf(e, q.e, best.e)
	}
	best.d |= computedMark
	best.e = pendingOf(e)
	return best
}

// Where returns less where a < b, and otherwise where not. Unlike an if
// statement it decides for each case of values with spread by itself. Both
// results are computed, and have one dimension.
func Where(a, b, less, otherwise Quantity) Quantity {
	mustCompare(less, otherwise)
	q := otherwise.like(less)
	if a.Less(b) {
		q = less.like(otherwise)
	}
	q.d |= computedMark
	q.e = pendingOf(a.e, b.e, less.e, otherwise.e)
	return q
}

// Parallel returns the value of resistors in parallel, 1/(1/x + 1/y + …).
// The same holds for inductors in parallel that are not coupled, and for
// capacitors in series. A zero among them makes the result zero.
func Parallel(x Quantity, more ...Quantity) Quantity {
	plainOnly("Parallel", x)
	e := x.e
	sum, zero := 0.0, x.v == 0
	if !zero {
		sum = 1 / x.v
	}
	for _, q := range more {
		plainOnly("Parallel", q)
		mustCompare(x, q)
		x = x.like(q)
		e = pendingOf(e, q.e)
		if q.v == 0 {
			zero = true
			continue
		}
		sum += 1 / q.v
	}
	out := Quantity{d: x.d | computedMark, u: x.u, e: pendingOf(e)}
	switch {
	case zero:
	case sum == 0:
		refuse("cannot put "+x.described()+" and the others in parallel", "their conductances cancel")
	case len(more) == 0:
		out.v = x.v
	default:
		out.v = 1 / sum
	}
	return out
}
