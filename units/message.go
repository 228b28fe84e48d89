package units

// described shows a value with what it is: "3.3 V (voltage)".
func (a Quantity) described() string {
	return a.String() + " (" + a.kindName() + ")"
}

// kindName names what a measures: "voltage", "power level"; the SI unit
// where the table has no name.
func (a Quantity) kindName() string {
	d := a.Dim()
	t := tagOf(a.u)
	rate := t.rate
	t.rate = noRate
	if a.u != nil && a.u.hidden {
		t = tag{}
	}
	if rate == symbolRate {
		return "symbol rate"
	}
	if d == 0 && t == (tag{}) {
		return "number"
	}
	if k, ok := std.named[named{d, t}]; ok {
		return k.name
	}
	if k, ok := std.named[named{dim: d}]; ok {
		return k.name
	}
	return a.SIUnit()
}

// mismatchHint looks for the usual reasons why two values do not go together.
func mismatchHint(a, b Quantity) string {
	for _, p := range [][2]Quantity{{a, b}, {b, a}} {
		x, y := p[0], p[1]
		switch {
		case x.d.Kind() == PointScale && y.d.Same(dimKelvin):
			return "25°C is a point on the scale and 40K a difference: subtract a point first, or use Absolute(T)"
		case x.d.Kind() == PointScale && y.Dim() == std.units["C"].unit.dim:
			return "C is the coulomb: a temperature is written 25°C or 25degC"
		case x.d.Kind() == LevelScale && y.d.Kind() == PlainScale:
			return "Power(x) and Voltage(x) give the value of a level, Level(x, 1mW) the level of a value"
		case x.d.Kind() == GainScale && y.d.Kind() == PlainScale:
			return "PowerRatio(g) and VoltageRatio(g) give the ratio of a gain"
		case x.d.Kind() == LevelScale && y.d.Same(dimGain):
			return "a gain is the difference of two levels: compare with a level, as in 3" + x.Unit()
		case isShare(x.u) && x.Dim() == 0 && y.d.Kind() == PlainScale:
			return "a share of a value is a product, x*(1 + " + x.Text(0)[:len(x.Text(0))-len(" "+x.u.Symbol)] + x.u.Symbol + ")"
		case x.isNumber() && y.d.Kind() == PlainScale:
			return "write the number with its unit, as in 1" + y.Unit()
		}
	}
	return ""
}
