package units

import "math"

// given is what a person said about the spread of a value.
type given struct {
	source    SourceKind
	low, high float64 // limits of a Range or Band; the value itself where ± alone gives them
	shape     Shape   // of the Band
	terms     []term
	base      *Ensemble // of a value that spread already before ± was put to it
}

// term is one ± of a value.
type term struct {
	width Quantity // at its upper end: a share of the value, or a difference
	share bool
	drift bool
	shape Shape
}

func (g *given) same(h *given) bool {
	if g == nil || h == nil {
		return g == h
	}
	if g.source != h.source || g.low != h.low || g.high != h.high || g.shape != h.shape || len(g.terms) != len(h.terms) || !g.base.same(h.base) {
		return false
	}
	for i, t := range g.terms {
		u := h.terms[i]
		if t.share != u.share || t.drift != u.drift || t.shape != u.shape || !t.width.Same(u.width) || !t.width.e.same(u.width.e) {
			return false
		}
	}
	return true
}

// HasSpread reports whether a differs from board to board: it was given with
// Range, Band or ±, or is computed from such a value.
func (a Quantity) HasSpread() bool { return a.e.spreads() }

// IsTypical reports whether a was given with Typical: nobody published limits.
func (a Quantity) IsTypical() bool { return a.e != nil && a.e.kind == spreadTypical }

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
	return limits("Range", RangeSource, least, usual, most)
}

// Band gives a value that differs from part to part between min and max, as
// a datasheet states it: Band(788mV, 800mV, 812mV). What a board meets in use
// is a Range instead. The three stand in rising order and have one dimension.
func Band(min, typ, max Quantity) Quantity { return limits("Band", PartSource, min, typ, max) }

func limits(f string, kind SourceKind, low, mid, high Quantity) Quantity {
	mid = mid.like(high).like(low)
	for _, q := range []*Quantity{&low, &high} {
		if q.HasSpread() {
			refuse("cannot use "+q.described()+" as a limit of "+f, "it has spread of its own: take High(x), Low(x) or Nominal(x)")
		}
		mustCompare(*q, mid)
	}
	if mid.HasSpread() {
		refuse("cannot use "+mid.described()+" in "+f, "it has spread of its own: take High(x), Low(x) or Nominal(x)")
	}
	if !(low.v <= mid.v && mid.v <= high.v) {
		refuse("the values of "+f+" are out of order: "+low.String()+", "+mid.String()+", "+high.String(), "write the smallest first and the largest last")
	}
	mid.e = &Ensemble{kind: spreadDeclared, given: &given{source: kind, low: low.v, high: high.v}}
	mid.d |= computedMark
	return mid
}

// Tolerance returns x ± t ± …: a part whose value lies within the terms of x.
// A term is a percentage (1%, 100ppm), a value of the kind of x (25mV, 5K for
// a temperature, 1dB for a level), or one of these over the temperature,
// Tempco(100ppm/K, Tboard). Terms add up at the limits, and are drawn each by
// itself; one that is Drift(0.2%) belongs to the age of a board and not to
// chance. In cells it is written ±, or +/-.
//
// A percentage of a temperature, of decibels or of a percentage is refused:
// it would be read in two ways.
func Tolerance(x, t Quantity, more ...Quantity) Quantity {
	g := &given{source: PartSource}
	for _, t := range append([]Quantity{t}, more...) {
		x = x.zeroLike(t)
		g.terms = append(g.terms, x.term(t))
	}
	share := 0.0
	for _, t := range g.terms {
		if t.share {
			share += math.Abs(t.width.v)
		}
	}
	if share >= 1 && x.d.Kind() == PlainScale && positiveOnly[x.d&exponents] {
		refuse("cannot use ± "+Quantity{v: share, u: unitPercent}.String()+" on "+x.described(), "such a part could be zero or negative")
	}
	out := x
	out.d |= computedMark
	if x.e != nil && x.e.kind == spreadTerm {
		x.live()
	}
	switch {
	case x.e.spreads() && x.e.given != nil && x.e.kind == spreadDeclared: // a Band, which has its own limits
		if x.e.given.source != PartSource {
			refuse("cannot use ± on "+x.described(), "a Range has its ends already")
		}
		b := *x.e.given
		b.terms = append(append([]term(nil), b.terms...), g.terms...)
		g = &b
	case x.e.spreads():
		g.low, g.high, g.base = x.v, x.v, x.e
	default:
		g.low, g.high = x.v, x.v
	}
	out.e = &Ensemble{kind: spreadDeclared, given: g}
	return out
}

// zeroLike gives the constant 0 the dimension of its tolerance: 0 ± 5mV.
func (a Quantity) zeroLike(t Quantity) Quantity {
	if a.wild() && t.Dim() != 0 {
		return a.like(t)
	}
	return a
}

// term checks one tolerance of x.
func (x Quantity) term(t Quantity) term {
	no := func(hint string) {
		refuse("cannot use ± "+t.described()+" on "+x.described(), hint)
	}
	out := term{width: t}
	if e := t.e; e != nil && e.kind == spreadTerm {
		out.drift, out.shape = e.given.source == DriftSource, e.given.shape
		out.width.e = e.given.base
	}
	switch e := out.width.e; {
	case e == nil:
	case e.kind == spreadTypical:
		out.width.e = nil
	case e.kind == spreadDeclared, e.given != nil:
		no("the tolerance has spread of its own: take Nominal(t)")
	}
	if k := t.d.Kind(); k != PointScale && k != LevelScale && !(t.v >= 0) && out.width.e == nil {
		no("a tolerance is not negative")
	}
	if x.e.spreads() && x.e.given != nil && x.e.given.source == RangeSource {
		no("a Range has its ends already")
	}
	kind := x.d.Kind()
	share := t.Dim() == 0 && isShare(t.u)
	switch {
	case share && kind == PlainScale && isShare(x.u):
		no("a share of a share is ambiguous: write Band(min, typ, max)")
	case share && kind == PlainScale:
		out.share = true
	case share && kind == PointScale:
		no("a percentage of a point on the scale means nothing: write a difference, 25°C ± 5K")
	case share:
		no("a percentage of decibels is ambiguous: write the tolerance in dB")
	case kind == PointScale && t.d.Same(dimKelvin), kind == LevelScale && t.d.Same(dimGain), kind != PointScale && kind != LevelScale && t.d.Same(x.d):
	case kind == PlainScale && t.d.Kind() == PlainScale && (t.d.Same(dimPerKelvin) || perKelvin(x.d, t.d)):
		no("say which temperature it goes with: ± Tempco(" + t.literal() + ", T), where T is the temperature that all parts of the board share")
	case kind == PointScale:
		no("a point on the scale varies by a difference, 25°C ± 5K")
	case kind == LevelScale:
		no("a level varies by a gain, 10dBm ± 1dB")
	case t.Dim() == 0:
		no("write a percentage, ± 1%, or a value with its unit")
	default:
		no("the tolerance is a percentage or a value of the same kind")
	}
	return out
}

// literal is a as it is written in a cell: "100ppm/K".
func (a Quantity) literal() string {
	number, unit := a.Parts(0)
	return number + unit
}

// positiveOnly are dimensions whose values are above zero in every part.
var positiveOnly = map[Dim]bool{}

func init() {
	for _, symbol := range []string{"Ω", "S", "F", "H", "Hz", "s", "m", "g"} {
		positiveOnly[std.units[symbol].unit.dim] = true
	}
}

var (
	unitPercent  = std.units["%"].unit
	dimPerKelvin = dimOf(0, 0, 0, 0, -2, 0, 0)
)

// perKelvin reports whether t is x per kelvin.
func perKelvin(x, t Dim) bool {
	d, ok := addExponents(x, dimPerKelvin)
	return ok && d == t&exponents
}

// Tempco returns the tolerance, for use behind ±, of a part whose temperature
// coefficient lies within ± c: c times the distance of the temperature T from
// 25 °C, or from the reference that stands behind it, as in
//
//	Rtop := 10kΩ ± 1% ± Tempco(100ppm/K, Tboard)
//
// c is a share per kelvin or a value per kelvin. All parts that name one
// temperature are at that temperature together.
func Tempco(c, temperature Quantity, reference ...Quantity) Quantity {
	from := MustParse("25°C")
	if len(reference) > 0 {
		from = reference[0]
	}
	if temperature.d.Kind() != PointScale || from.d.Kind() != PointScale || len(reference) > 1 {
		refuse("cannot use Tempco at "+temperature.described(), "write Tempco(100ppm/K, T), where T is a point on the temperature scale")
	}
	if c.d.Kind() != PlainScale || c.d.halves(4) != -2 || c.HasSpread() || !(c.v >= 0) {
		refuse("cannot use "+c.described()+" as a temperature coefficient", "write its limit per kelvin, as in 100ppm/K")
	}
	out := c.exact().Mul(temperature.Sub(from))
	if out.Dim() == 0 {
		out.u = unitPercent
	}
	return out
}

// Drift marks a tolerance, for use behind ±, as one that comes with age: it
// moves all boards one way, so it adds straight to what chance does and takes
// no part in it, as in 10kΩ ± 1% ± Drift(0.2%).
func Drift(t Quantity) Quantity { return t.mark("Drift", DriftSource, Shape{}) }

// Normal says that a tolerance behind ±, or a Band, is normal with its limits
// at so many standard deviations: 10kΩ ± Normal(1%, 3). Some parts lie outside
// the limits then, 0.27 % for 3.
func Normal(x Quantity, sigmas float64) Quantity { return x.shaped("Normal", NormalShape(sigmas)) }

// Uniform says that a tolerance behind ±, or a Band, is spread evenly, where
// the note assumes something else of its other parts.
func Uniform(x Quantity) Quantity { return x.shaped("Uniform", UniformShape()) }

func (a Quantity) shaped(f string, s Shape) Quantity {
	if a.e == nil || a.e.given == nil {
		return a.mark(f, PartSource, s)
	}
	if a.e.kind == spreadTerm {
		return a.mark(f, a.e.given.source, s)
	}
	if a.e.given.source != PartSource {
		refuse("cannot use "+f+" on "+a.described(), "a Range is no matter of chance: every board meets all of it")
	}
	g := *a.e.given
	if g.low != g.high {
		g.shape = s
	}
	g.terms = append([]term(nil), g.terms...)
	for i := range g.terms {
		g.terms[i].shape = s
	}
	a.e = &Ensemble{kind: spreadDeclared, given: &g}
	return a
}

// mark makes a tolerance that says how it counts.
func (a Quantity) mark(f string, kind SourceKind, s Shape) Quantity {
	base := a.e
	if base != nil && base.kind == spreadTerm {
		if kind == DriftSource {
			refuse("cannot use "+f+" on "+a.String(), "a drift is no matter of chance, so it has no shape")
		}
		base = base.given.base
	}
	if base != nil && base.kind == spreadDeclared {
		refuse("cannot use "+f+" on "+a.described(), "it marks a tolerance behind ±, as in 10kΩ ± "+f+"(1%)")
	}
	a.e = &Ensemble{kind: spreadTerm, given: &given{source: kind, shape: s, base: base}}
	a.d |= computedMark
	return a
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

// High returns the upper limit of x as an exact value, the largest of all
// cases, and x itself where it has none: High(Range(18V, 24V, 32V)) is 32 V.
func High(x Quantity) Quantity {
	_, high, ok := x.Extremes()
	if !ok {
		return x.exact()
	}
	return high.Value
}

// Low returns the lower limit of x as an exact value, the smallest of all
// cases, and x itself where it has none: Low(Range(18V, 24V, 32V)) is 18 V.
func Low(x Quantity) Quantity {
	low, _, ok := x.Extremes()
	if !ok {
		return x.exact()
	}
	return low.Value
}

// Nominal returns x without its spread: 24 V for Range(18V, 24V, 32V).
func Nominal(x Quantity) Quantity { return x.exact() }

// Another returns another part of the same kind as x: the same value and
// limits, but spread of its own. Using a name twice is the same part twice;
// R2 := Another(R1) is a second part.
func Another(x Quantity) Quantity {
	if !x.HasSpread() {
		return x
	}
	if x.e.given == nil {
		refuse("cannot take Another of "+x.described(), "it is computed from several parts: write its definition again with Another of each")
	}
	x.e = &Ensemble{kind: spreadDeclared, given: x.e.given}
	return x
}

// Matched returns n parts of one array or one die, which are like x, and each
// of which lies within ± t of what the others have in common: their ratio is
// t, however far x may be off.
func Matched(x Quantity, t Quantity, n int) []Quantity {
	if n < 2 || n > 100 {
		refuse("cannot make an array of that many matched parts", "write a number from 2 to 100")
	}
	if !x.HasSpread() {
		refuse("cannot match parts of the exact value "+x.described(), "give what they have in common first, as in Matched(10kΩ ± 1%, 0.1%, 4)")
	}
	if x.e.kind == spreadDeclared {
		x.live()
	}
	out := make([]Quantity, n)
	for i := range out {
		out[i] = Tolerance(x, t)
	}
	return out
}
