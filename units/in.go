package units

import "strconv"

// In returns x with the unit, prefix included, in which it is to be shown:
// In(Q, "mAh") is 400 mAh where Q would be 1.44 kC. The value stays what it
// is; the unit stays with it in sums and while it is multiplied by numbers.
//
// It panics with *Error where the unit does not measure x, and where it counts
// something else: a frequency in Hz is not shown in rad/s (multiply by 2*Pi),
// a sheet resistance not in Ω (multiply by the number of squares).
func In(x Quantity, unit string) Quantity {
	u, err := std.parseUnit(unit)
	if err != nil {
		panic(err)
	}
	no := func(hint string) {
		refuse("cannot show "+x.described()+" in "+unit, hint)
	}
	if x.wild() && u.dim.Kind() == PlainScale {
		x.d = u.dim
	}
	if !x.d.Same(u.dim) {
		no(inHint(x, u))
	}
	if hint := x.inConflict(u); hint != "" {
		no(hint)
	}
	if u.Symbol == "" {
		u = nil
	}
	return Quantity{v: x.v, d: x.d | computedMark, u: u, e: x.e}
}

// In returns a with the unit in which it is to be shown, as the function In.
func (a Quantity) In(unit string) Quantity { return In(a, unit) }

// inHint says how to get from x to a value that unit u measures.
func inHint(x Quantity, u *Unit) string {
	kx, ku := x.d.Kind(), u.dim.Kind()
	switch {
	case kx == PointScale && u.dim.Same(dimKelvin):
		return "Absolute(T) is the temperature in kelvin, T − 0°C the difference"
	case ku == PointScale && x.d.Same(dimKelvin):
		return "a difference is shown in K; Temperature(x) is the point of a thermodynamic temperature, 25°C + x one above another point"
	case ku == LevelScale && kx == PlainScale && x.d&exponents == u.dim&exponents:
		return "write Level(x, 1mW) or Level(x, 1V)"
	case kx == LevelScale && ku == PlainScale && x.d&exponents == u.dim&exponents:
		if x.d&exponents == dimWatt {
			return "write Power(x)"
		}
		return "write Voltage(x)"
	case ku == GainScale && x.Dim() == 0:
		return "write PowerGain(x) or VoltageGain(x)"
	case kx == GainScale && u.dim == 0:
		return "write PowerRatio(x) or VoltageRatio(x)"
	}
	return "the unit measures " + Quantity{d: u.dim, u: u}.kindName()
}

// inConflict says why x, which has the dimension of u, counts something else.
func (a Quantity) inConflict(u *Unit) string {
	ta, tu := tagOf(a.u), u.tag
	if ta == tu {
		return ""
	}
	if a.d.Same(dimRate) {
		switch {
		case ta == (tag{}) || tu == (tag{}):
			return ""
		case ta.rate == cycleRate && tu.rad == 1 && tu.counts() == (tag{}):
			return "an angular frequency is 2·Pi times the frequency: multiply by 2*Pi"
		case ta.rad == 1 && tu.rate == cycleRate:
			return "a frequency is the angular frequency divided by 2·Pi: divide by 2*Pi"
		}
		return "it counts something else"
	}
	if ta.counts() == (tag{}) || ta.counts() == tu.counts() {
		return ""
	}
	switch {
	case ta.sq != tu.sq && ta.sq < 0:
		return "multiply by the number of squares, as in 10sq"
	case ta.bit != tu.bit && ta.bit > 0:
		return "divide by 1bit"
	}
	return "it counts something else"
}

// Unit returns the symbol of the unit that a was given or asked for in, or of
// the preferred one of its dimension: "mAh", "V"; "" for a plain number. What
// printing adds as a prefix is not part of it.
func (a Quantity) Unit() string { return a.printed().Symbol }

// SIUnit returns the symbol of the unit in which SI returns the number: "V",
// "K/W", "kg", "1"; the unit itself for a level or gain, "dBm".
func (a Quantity) SIUnit() string {
	u := a.u
	if u == nil || u.hidden {
		u = preferred(a.Dim())
	}
	switch {
	case a.d.Kind() == PointScale:
		return "K"
	case u.si != "":
		return u.si
	case a.d.Kind() == GainScale:
		return preferred(a.Dim()).si
	case a.Dim() == 0 && u.tag == (tag{}):
		return "1"
	}
	t := u.tag
	t.rate = noRate
	if k, ok := std.named[named{a.Dim(), t}]; ok && k.unit.si != "" {
		return k.unit.si
	}
	return composeSI(a.d&exponents, t).Symbol
}

// SI returns the number in the coherent SI unit, which SIUnit names: volts,
// kelvin per watt; kelvin for a point on the temperature scale. A level is
// returned in its own unit, 14 for 14 dBm, a gain in decibels.
func (a Quantity) SI() float64 {
	if a.d.Kind() == LevelScale {
		return levelNumber(a)
	}
	return a.v
}

// levelNumber returns a level in its own unit, as it would be written.
func levelNumber(a Quantity) float64 {
	u := a.printed()
	if u.offset == nil || a.v-a.v != 0 {
		return a.v
	}
	f, _ := strconv.ParseFloat(string(asciiMinus(u.shortest(a.v).plain())), 64)
	return f
}

func asciiMinus(s string) string {
	if neg, n := scanSign(s); neg {
		return "-" + s[n:]
	}
	return s
}

// Float returns a plain number as a float64; it panics with *Error for
// anything with a dimension.
func (a Quantity) Float() float64 {
	if a.Dim() != 0 {
		hint := "divide by a value of the same kind first, as in x/1" + a.SIUnit()
		switch a.d.Kind() {
		case PointScale:
			hint = "Absolute(T)/1K is the temperature in kelvin as a number"
		case LevelScale:
			hint = "Power(x)/1mW or Voltage(x)/1V is a number"
		case GainScale:
			hint = "PowerRatio(g) and VoltageRatio(g) are numbers"
		}
		refuse("cannot take "+a.described()+" as a plain number", hint)
	}
	return a.v
}

// Plain returns a as Float does, for a calculation that goes on with a bare
// number. If a spreads, its study is told that the cases part here.
func (a Quantity) Plain() float64 {
	if e := a.live(); e != nil {
		for i, v := range e.lanes {
			if v != a.v {
				e.study.NoteSplit("the bare number of "+a.String(), e.where(i))
				break
			}
		}
	}
	return a.Float()
}
