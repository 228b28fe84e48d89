package units

import "slices"

// Sub returns a − b. The difference of two points on the temperature scale
// is a difference in kelvin, the difference of two levels a gain.
func (a Quantity) Sub(b Quantity) Quantity {
	if (a.d^b.d)&^computedMark|(a.d|b.d)&kindMask == 0 && a.u == b.u && a.e == nil && b.e == nil {
		return Quantity{v: a.v - b.v, d: a.d | computedMark, u: a.u}
	}
	return sumSlow(a, b, -1)
}

// Div returns a / b; it refuses to divide by zero.
func (a Quantity) Div(b Quantity) Quantity {
	if d, ok := subExponents(a.d, b.d); ok && (a.d|b.d)&kindMask == 0 && a.u == nil && b.u == nil && a.e == nil && b.e == nil && b.v != 0 {
		return Quantity{v: a.v / b.v, d: d | computedMark}
	}
	return productSlow(a, b, -1)
}

// Neg returns −a. A point or a level has no negative: -40°C is a literal.
func (a Quantity) Neg() Quantity {
	switch a.d.Kind() {
	case PointScale:
		refuse("cannot negate the temperature "+a.String(), "a point below zero is written as a literal, -40°C; a difference in K")
	case LevelScale:
		refuse("cannot negate the level "+a.String(), "a level below zero is written as a literal, -120dBm; a gain in dB")
	}
	return Quantity{v: -a.v, d: a.d | computedMark, u: a.u, e: each(a, func(x float64) float64 { return -x })}
}

func mulSlow(a, b Quantity) Quantity { return productSlow(a, b, 1) }
func addSlow(a, b Quantity) Quantity { return sumSlow(a, b, 1) }

// wild reports whether a is the constant 0 or an unset Quantity, which takes
// the dimension of the other side.
func (a Quantity) wild() bool { return a.d == 0 && a.v == 0 }

// like returns a, or a zero of the kind of b where a is the constant 0 and b
// is on a scale that has one.
func (a Quantity) like(b Quantity) Quantity {
	if k := b.d.Kind(); a.wild() && !b.wild() && k != PointScale && k != LevelScale {
		return Quantity{d: b.d | computedMark, u: b.u}
	}
	return a
}

// sumSlow is a + sign·b for every case that the short way does not cover.
func sumSlow(a, b Quantity, sign float64) Quantity {
	verb, join := "add", "and"
	if sign < 0 {
		verb, join = "subtract", "from"
	}
	no := func(hint string) {
		x, y := a, b
		if sign < 0 {
			x, y = b, a
		}
		refuse("cannot "+verb+" "+x.described()+" "+join+" "+y.described(), hint)
	}
	ka, kb := a.d.Kind(), b.d.Kind()
	v := a.v + sign*b.v
	var e *Ensemble
	if a.e != nil || b.e != nil {
		op := byte('+')
		if sign < 0 {
			op = '-'
		}
		// Whether they may be added at all is decided below, and said of the
		// values and not of their lanes.
		e = combine(op, a, b, func(where string) { no("the result is too large" + where) })
	}
	switch {
	case ka == PlainScale && kb == PlainScale, ka == GainScale && kb == GainScale:
		if !a.d.Same(b.d) {
			if a.wild() || b.wild() {
				break
			}
			no(mismatchHint(a, b))
		}
	case a.wild() && kb == GainScale, b.wild() && ka == GainScale:
	case a.wild() || b.wild():
		no("the constant 0 has no place on this scale: write its unit")
	case ka == PointScale && kb == PointScale:
		if sign > 0 {
			no("a sum of two points means nothing: add a difference in K, or take the mean as T1 + (T2 − T1)/2")
		}
		return Quantity{v: v, d: dimKelvin | computedMark, e: e}
	case ka == PointScale && b.d.Same(dimKelvin), kb == PointScale && a.d.Same(dimKelvin) && sign > 0:
		point := a
		if ka != PointScale {
			point = b
		}
		if v < 0 {
			no("the result is below absolute zero")
		}
		out := Quantity{v: v, d: point.d | computedMark, u: point.u, e: e}
		if e != nil {
			for i, t := range e.lanes {
				if t < 0 {
					no("the result is below absolute zero where " + e.where(i))
				}
			}
		}
		return out
	case ka == PointScale || kb == PointScale:
		if kb == PointScale && a.d.Same(dimKelvin) {
			no("subtract the difference from the point")
		}
		no("a point on the scale changes by a difference in K")
	case ka == LevelScale && kb == LevelScale:
		if sign > 0 {
			no("levels do not add: PowerSum(a, b) is the level of both powers together; a gain in dB may be added")
		}
		if !a.d.Same(b.d) {
			no("only levels of the same kind have a difference")
		}
		return Quantity{v: v, d: dimGain | computedMark, e: e}
	case ka == LevelScale && b.d.Same(dimGain), kb == LevelScale && a.d.Same(dimGain) && sign > 0:
		level := a
		if ka != LevelScale {
			level = b
		}
		return Quantity{v: v, d: level.d | computedMark, u: level.u, e: e}
	case ka == LevelScale || kb == LevelScale:
		if kb == LevelScale && a.d.Same(dimGain) {
			no("subtract the gain from the level")
		}
		no("a level changes by a gain in dB: Power(x) and Voltage(x) give the value of a level, Level(x, 1mW) the level of a value")
	default:
		no("a ratio becomes a gain by PowerGain(x) or VoltageGain(x), a gain a ratio by PowerRatio(g) or VoltageRatio(g)")
	}
	d, u := a.d, a.u
	if a.wild() {
		d, u = b.d, b.u
	} else if !b.wild() {
		if hint := tagConflict(a, b); hint != "" {
			no(hint)
		}
		if u == nil && a.d.Same(dimRate) && tagOf(b.u) != (tag{}) {
			u = b.u
		}
	}
	return Quantity{v: v, d: d | computedMark, u: u, e: e}
}

// productSlow is a · b^sign for every case that the short way does not cover.
func productSlow(a, b Quantity, sign int8) Quantity {
	verb, join := "multiply", "by"
	if sign < 0 {
		verb, join = "divide", "by"
	}
	no := func(hint string) {
		refuse("cannot "+verb+" "+a.described()+" "+join+" "+b.described(), hint)
	}
	ka, kb := a.d.Kind(), b.d.Kind()
	switch {
	case ka == PointScale || kb == PointScale:
		no("a point on the scale has no product: multiply a difference, as in (T − 25°C), or use Absolute(T)")
	case ka == LevelScale || kb == LevelScale:
		no("a level has no product: add a gain in dB, or use Power(x) or Voltage(x)")
	case ka == GainScale && kb == GainScale && sign > 0:
		no("gains add: write g1 + g2; PowerRatio(g) and VoltageRatio(g) are ratios that multiply")
	case ka == PlainScale && kb == GainScale && sign < 0:
		no("PowerRatio(g) and VoltageRatio(g) are ratios to divide by")
	}
	var d Dim
	var ok bool
	v := a.v * b.v
	if sign > 0 {
		d, ok = addExponents(a.d, b.d)
	} else {
		if b.v == 0 {
			no("the divisor is zero")
		}
		d, ok = subExponents(a.d, b.d)
		v = a.v / b.v
	}
	if !ok {
		no("the exponent of the result is beyond what a dimension holds, 63")
	}
	if ka != kb {
		d |= Dim(GainScale) << kindShift
	}
	large := func(where string) { no("the result is too large" + where) }
	out := Quantity{v: v, d: d | computedMark, u: productUnit(a, b, sign, d)}
	switch {
	case a.e == nil && b.e == nil:
	case sign > 0:
		out.e = combine('*', a, b, large)
	default:
		out.e = combine('/', a, b, func(where string) {
			if y := b.live(); y != nil {
				if i := slices.Index(y.lanes, 0); i >= 0 {
					no("the divisor is zero where " + y.where(i))
				}
			}
			large(where)
		})
	}
	return out
}
