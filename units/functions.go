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

// number makes the plain number f(x).
func number(x Quantity, f func(float64) float64) Quantity {
	return Quantity{v: f(x.v), d: computedMark, e: each(x, f)}
}

// within refuses where a case of x is outside of what f can take.
func within(f string, x Quantity, hint string, ok func(float64) bool) {
	if !ok(x.v) {
		refuse("cannot take "+f+" of "+x.described(), hint)
	}
	if e := x.live(); e != nil {
		for i, v := range e.lanes {
			if !ok(v) {
				refuse("cannot take "+f+" of "+x.described(), hint+" where "+e.where(i))
			}
		}
	}
}

// bounded refuses a result that is too large in some case.
func bounded(f string, x, result Quantity) Quantity {
	no := func(where string) { refuse("cannot take "+f+" of "+x.described(), "the result is too large"+where) }
	if result.v-result.v != 0 && x.v-x.v == 0 {
		no("")
	}
	if result.e != nil {
		result.e.refuseInfinite(no)
	}
	return result
}

// Sqrt returns the square root of x, which is not negative: Sqrt(P*R) of a
// power and a resistance is a voltage, Sqrt of 100 Hz is 10 √Hz.
func Sqrt(x Quantity) Quantity {
	plainOnly("Sqrt", x)
	within("Sqrt", x, "the argument is negative", func(v float64) bool { return !(v < 0) })
	return rootPower("Sqrt", x, 1, math.Sqrt)
}

// rootPower returns x^(halves/2), of whose number f is the function.
func rootPower(f string, x Quantity, halves int, number func(float64) float64) Quantity {
	d, ok := scaleExponents(x.d&exponents, halves)
	if !ok {
		refuse("cannot take "+f+" of "+x.described(), "its exponent would be finer than a half or larger than 63")
	}
	return Quantity{v: number(x.v), d: d | computedMark, u: powerUnit(x, halves, d), e: each(x, number)}
}

// Pow returns x to the power n: Pow(V, 2)/R. Where x has a dimension, n is a
// whole number or a half.
func Pow(x Quantity, n float64) Quantity {
	plainOnly("Pow", x)
	power := func(v float64) float64 { return math.Pow(v, n) }
	if v := power(x.v); v-v != 0 && x.v-x.v == 0 {
		refuse("cannot take Pow of "+x.described(), powerHint(x.v))
	}
	if e := x.live(); e != nil {
		for i, v := range e.lanes {
			if p := power(v); p-p != 0 && v-v == 0 {
				refuse("cannot take Pow of "+x.described(), powerHint(v)+" where "+e.where(i))
			}
		}
	}
	if x.Dim() == 0 && tagOf(x.u) == (tag{}) {
		return number(x, power)
	}
	if n*2 != math.Trunc(n*2) || math.Abs(n) > 127 {
		if x.Dim() == 0 {
			return number(x, power)
		}
		refuse("cannot take Pow of "+x.described(), "the exponent of a value with a dimension is a whole number or a half")
	}
	return rootPower("Pow", x, int(n*2), power)
}

// powerHint says why v has no such power.
func powerHint(v float64) string {
	switch {
	case v == 0:
		return "zero has no negative power"
	case v < 0:
		return "a negative number has whole powers only"
	}
	return "the result is too large"
}

// Exp returns e^x for a plain number, as in V*(1 - Exp(-t/(R*C))).
func Exp(x Quantity) Quantity {
	numberOnly("Exp", x)
	return bounded("Exp", x, number(x, math.Exp))
}

// Ln returns the natural logarithm of a positive number, as in R*C*Ln(V1/V2).
// The logarithm of a value with a dimension does not exist: divide by a value
// of its kind first.
func Ln(x Quantity) Quantity {
	numberOnly("Ln", x)
	positive("Ln", x)
	return number(x, math.Log)
}

// Log10 returns the decimal logarithm of a positive number; that of a power
// of ten is exact. For decibels there are PowerGain, VoltageGain and Level.
func Log10(x Quantity) Quantity {
	numberOnly("Log10", x)
	positive("Log10", x)
	return number(x, log10)
}

func positive(f string, x Quantity) {
	within(f, x, "the argument is not positive", func(v float64) bool { return v > 0 })
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
	return number(x, math.Sin)
}

// Cos returns the cosine of an angle; a plain number is in radians.
func Cos(x Quantity) Quantity {
	numberOnly("Cos", x)
	return number(x, math.Cos)
}

// Tan returns the tangent of an angle; a plain number is in radians.
func Tan(x Quantity) Quantity {
	numberOnly("Tan", x)
	return number(x, math.Tan)
}

// Atan returns the angle, in radians between −π/2 and π/2, whose tangent is x.
func Atan(x Quantity) Quantity {
	numberOnly("Atan", x)
	q := number(x, math.Atan)
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
	return Quantity{v: math.Abs(x.v), d: x.d | computedMark, u: x.u, e: each(x, math.Abs)}
}

// Min returns the smallest of the values, which have one dimension; of values
// with spread the smallest in each case.
func Min(x Quantity, more ...Quantity) Quantity {
	return extreme(x, more, func(a, b float64) bool { return a < b })
}

// Max returns the largest of the values, which have one dimension; of values
// with spread the largest in each case.
func Max(x Quantity, more ...Quantity) Quantity {
	return extreme(x, more, func(a, b float64) bool { return b < a })
}

func extreme(x Quantity, more []Quantity, before func(a, b float64) bool) Quantity {
	if len(more) == 0 {
		return x
	}
	best := x
	for _, q := range more {
		mustCompare(best, q)
		a, b := best, q
		if before(q.v, best.v) {
			best, q = q, best
		}
		best = best.like(q)
		best.d |= computedMark
		best.e = every(func(x []float64) float64 {
			if before(x[1], x[0]) {
				return x[1]
			}
			return x[0]
		}, a, b)
	}
	return best
}

// Where returns less where a < b, and otherwise where not. Unlike an if
// statement it decides for each case of values with spread by itself. Both
// results are computed, and have one dimension.
func Where(a, b, less, otherwise Quantity) Quantity {
	mustCompare(a, b)
	mustCompare(less, otherwise)
	q := otherwise.like(less)
	if a.v < b.v {
		q = less.like(otherwise)
	}
	q.d |= computedMark
	q.e = every(func(x []float64) float64 {
		if x[0] < x[1] {
			return x[2]
		}
		return x[3]
	}, a, b, less, otherwise)
	return q
}

// Parallel returns the value of resistors in parallel, 1/(1/x + 1/y + …).
// The same holds for inductors in parallel that are not coupled, and for
// capacitors in series. A zero among them makes the result zero.
func Parallel(x Quantity, more ...Quantity) Quantity {
	plainOnly("Parallel", x)
	all := []Quantity{x}
	for _, q := range more {
		plainOnly("Parallel", q)
		mustCompare(x, q)
		x = x.like(q)
		all = append(all, q)
	}
	out := Quantity{d: x.d | computedMark, u: x.u}
	if len(more) == 0 {
		return Quantity{v: x.v, d: x.d | computedMark, u: x.u, e: each(x, func(v float64) float64 { return v })}
	}
	numbers := make([]float64, len(all))
	for i, q := range all {
		numbers[i] = q.v
	}
	out.v = parallel(numbers)
	out.e = every(parallel, all...)
	no := func(where string) {
		refuse("cannot put "+x.described()+" and the others in parallel", "their conductances cancel"+where)
	}
	if math.IsNaN(out.v) {
		no("")
	}
	if out.e != nil {
		for i, v := range out.e.lanes {
			if math.IsNaN(v) {
				no(" where " + out.e.where(i))
			}
		}
	}
	return out
}

// parallel is NaN where the conductances cancel.
func parallel(x []float64) float64 {
	sum, zero := 0.0, false
	for _, v := range x {
		if v == 0 {
			zero = true
			continue
		}
		sum += 1 / v
	}
	switch {
	case zero:
		return 0
	case sum == 0:
		return math.NaN()
	}
	return 1 / sum
}
