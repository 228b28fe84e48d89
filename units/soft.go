package units

import "strings"

// Which unit a result has: the unit that a value was given in stays with it
// as long as it is only multiplied by numbers; what units say beyond their
// dimension (radians, squares, bits) is carried along, so that rad/s never
// turns into Hz by itself.

// productUnit returns the unit of a · b^sign, whose dimension is d.
func productUnit(a, b Quantity, sign int8, d Dim) *Unit {
	if a.u == nil && b.u == nil {
		return nil
	}
	ta, tb := tagOf(a.u), tagOf(b.u)
	if sign > 0 && (isTorque(a.u) && tb.rate == cycleRate || isTorque(b.u) && ta.rate == cycleRate) {
		refuse("cannot multiply "+a.described()+" and "+b.described()+" to a power: a turn is 2·π rad",
			"write torque * (2*Pi*speed), or give the speed in rad/s")
	}
	t := ta.plus(tb, sign)
	angle := ta.rad != 0 || tb.rad != 0
	counts := ta.counts() != (tag{}) || tb.counts() != (tag{})
	if d.Kind() == GainScale {
		switch {
		case b.isNumber():
			return a.u
		case a.isNumber():
			return b.u
		}
		return nil
	}
	switch {
	case isShare(a.u) && isShare(b.u):
		return nil
	case b.isNumber() && tb.rad == 0 && a.hasOwnUnit():
		return a.u
	case sign > 0 && a.isNumber() && ta.rad == 0 && b.hasOwnUnit():
		return b.u
	case angle && !counts && d.Same(dimRate):
		if t.rad > 0 {
			return unitRadPerSecond
		}
		return unitHertz
	case b.isNumber() && a.hasOwnUnit():
		return a.u
	case sign > 0 && a.isNumber() && b.hasOwnUnit():
		return b.u
	case counts:
		return countUnit(d, t)
	case t.rad != 0 && !isLength(d):
		return hiddenAngle(t.rad)
	}
	return nil
}

// isTorque reports whether a unit is one of torque, which nobody gives in J.
func isTorque(u *Unit) bool { return u != nil && strings.HasSuffix(u.Symbol, "N·m") }

// isNumber reports whether a multiplies like a plain number: no dimension,
// and it counts nothing. A hidden angle (Pi) and a share (5%) are numbers.
func (a Quantity) isNumber() bool {
	return a.d&^computedMark == 0 && (a.u == nil || a.u.hidden || a.u.number)
}

// hasOwnUnit reports whether a has a unit worth keeping.
func (a Quantity) hasOwnUnit() bool { return a.u != nil && !a.u.hidden }

func isShare(u *Unit) bool { return u != nil && u.number }

// isLength reports whether d is a power of length alone: in π·r² the π says
// something about a shape and nothing about an angle.
func isLength(d Dim) bool { return d&exponents != 0 && d&exponents&^0xff == 0 }

// countUnit returns the unit of dimension d that counts t.
func countUnit(d Dim, t tag) *Unit {
	if t.counts() == (tag{}) {
		if isLength(d) {
			return nil
		}
		return hiddenAngle(t.rad)
	}
	t.rate = noRate
	if k, ok := std.named[named{d & exponents, t}]; ok {
		return k.unit
	}
	return composeSI(d&exponents, t)
}

// powerUnit returns the unit of a^(halves/2), whose dimension is d.
func powerUnit(a Quantity, halves int, d Dim) *Unit {
	t := tagOf(a.u)
	if t.rad == 0 && t.counts() == (tag{}) {
		return nil
	}
	var p tag
	ok := true
	part := func(x int8) int8 {
		n := int(x) * halves
		if n%2 != 0 || n/2 > 120 || n/2 < -120 {
			ok = false
		}
		return int8(n / 2)
	}
	p.rad, p.sq, p.bit = part(t.rad), part(t.sq), part(t.bit)
	if !ok {
		return nil
	}
	if p.rad != 0 && p.counts() == (tag{}) && d.Same(dimRate) {
		if p.rad > 0 {
			return unitRadPerSecond
		}
		return unitHertz
	}
	return countUnit(d, p)
}

// Units that results drop to by rule.
var (
	unitHertz        = std.units["Hz"].unit
	unitRadian       = std.units["rad"].unit
	unitRadPerSecond = std.named[named{dimRate, tag{rad: 1}}].unit
)

// Dimensions that rules speak of.
var (
	dimKelvin = dimOf(0, 0, 0, 0, 2, 0, 0)
	dimGain   = Dim(GainScale) << kindShift
	dimPoint  = dimKelvin | Dim(PointScale)<<kindShift
	dimWatt   = std.units["W"].unit.dim
	dimVolt   = std.units["V"].unit.dim
)

// tagConflict returns what to write instead where a and b have one dimension
// but count different things; "" where they go together.
func tagConflict(a, b Quantity) string {
	ta, tb := tagOf(a.u), tagOf(b.u)
	if ta == tb {
		return ""
	}
	switch {
	case ta.sq != tb.sq && (ta.sq < 0 || tb.sq < 0):
		return "multiply by the number of squares, as in 10sq"
	case ta.counts() != tb.counts() && a.isNumber():
		return "write the number with its unit, as in 1" + b.Unit()
	case ta.counts() != tb.counts() && b.isNumber():
		return "write the number with its unit, as in 1" + a.Unit()
	case ta.counts() != tb.counts():
		return "they count different things"
	}
	if !a.d.Same(dimRate) || ta == (tag{}) || tb == (tag{}) {
		return ""
	}
	if ta.rad != tb.rad {
		return "an angular frequency is 2·Pi times the frequency"
	}
	return "they count different things"
}

// composeSI builds the coherent unit of a dimension that has no name.
func composeSI(d Dim, t tag) *Unit {
	u := &Unit{dim: d, scale: ratPow10(0), tag: t, pure: true}
	var fs []factor
	if k, ok := std.named[named{dim: d}]; ok && t != (tag{}) && d != 0 {
		// A named unit reads better than its base units: V/sq.
		r := unitReader{t: std, s: std.coherentSymbol(k)}
		if r.read(1) == nil {
			fs = r.factors
		}
	}
	if fs == nil && d.Kind() == PlainScale && t == (tag{}) {
		fs = shortProduct(d)
	}
	if fs == nil {
		if d.Kind() == GainScale {
			fs = append(fs, factor{symbol: "dB", halves: 2})
		}
		for _, i := range []int{1, 0, 2, 3, 4, 5, 6} {
			if h := d.halves(i); h != 0 {
				fs = append(fs, factor{symbol: baseSymbols[i], halves: h})
			}
		}
	}
	for _, c := range []struct {
		symbol string
		n      int8
	}{{"bit", t.bit}, {"sq", t.sq}, {"rad", t.rad}} {
		if c.n != 0 {
			fs = append(fs, factor{symbol: c.symbol, halves: 2 * int(c.n)})
		}
	}
	u.Symbol = symbolOf(fs)
	u.si = u.Symbol
	return u
}

// tradeUnits are the units in which a designer thinks of a product that has
// no name of its own, the most usual first.
var tradeUnits = [...]string{"V", "A", "Ω", "W", "s", "F", "H", "K", "m"}

// shortProduct writes a dimension as a product of two or three trade units,
// V·Ω or W²: the one with the fewest factors, and of these the most usual; nil
// where the base units do as well.
func shortProduct(d Dim) []factor {
	base := 0
	for i := range 7 {
		h := d.halves(i)
		if h%2 != 0 {
			return nil
		}
		base += max(h, -h) / 2
	}
	var dims [len(tradeUnits)]Dim
	for i, symbol := range tradeUnits {
		dims[i] = std.units[symbol].unit.dim
	}
	var best []factor
	cost := base // factors, as V² has two
	try := func(units []int, powers []int) {
		sum := 0
		product := Dim(0)
		for k, u := range units {
			p, ok := scaleExponents(dims[u], 2*powers[k])
			if !ok {
				return
			}
			if product, ok = addExponents(product, p); !ok {
				return
			}
			sum += max(powers[k], -powers[k])
		}
		if product != d&exponents || sum >= cost {
			return
		}
		cost, best = sum, nil
		for k, u := range units {
			if powers[k] > 0 {
				best = append(best, factor{symbol: tradeUnits[u], halves: 2 * powers[k]})
			}
		}
		for k, u := range units {
			if powers[k] < 0 {
				best = append(best, factor{symbol: tradeUnits[u], halves: 2 * powers[k]})
			}
		}
	}
	for i := range tradeUnits {
		for p := -4; p <= 4; p++ {
			if p == 0 {
				continue
			}
			try([]int{i}, []int{p})
			for j := i + 1; j < len(tradeUnits); j++ {
				for r := -3; r <= 3; r++ {
					if r != 0 {
						try([]int{i, j}, []int{p, r})
					}
				}
			}
		}
	}
	return best
}

var baseSymbols = [7]string{"m", "kg", "s", "A", "K", "mol", "cd"}

// coherent returns the symbol of the coherent SI unit that says the same as
// u, "" where that follows from dimension and tag.
func (t *table) coherent(u *Unit) string {
	if k := u.dim.Kind(); k == GainScale || k == LevelScale {
		return u.Symbol
	}
	if u.offset == nil && u.scale.IsInt() && u.scale.Num().IsInt64() && u.scale.Num().Int64() == 1 {
		return u.Symbol
	}
	return ""
}

// coherentSymbol returns the symbol of k's coherent SI unit.
func (t *table) coherentSymbol(k *kindOf) string {
	if k.unit.si != "" {
		return k.unit.si
	}
	return composeSI(k.unit.dim&exponents, tag{}).Symbol
}
