package units

import (
	"math/big"
	"strings"
)

// Unit is a unit as a value was given in or asked for. It never changes.
type Unit struct {
	Symbol string // canonical, with prefix: "mAh", "°C/W"

	dim    Dim      // dimension and kind
	scale  *big.Rat // the number in SI is x·scale + offset
	offset *big.Rat // nil is 0
	pow10  int      // scale is 10^pow10, where decimal is true
	pure   bool     // decimal: scale is a power of ten and there is no offset
	tag    tag
	si     string // symbol of the coherent SI unit that says the same
	ladder []rung // what printing may choose from; nil: the unit as it is
	bought []rung // the same for values of parts as they are bought; nil: ladder
	number bool   // %, ppm: a share, which multiplies like a plain number
	hidden bool   // says nothing in print, only remembers its tag
}

// A rung is one prefix that printing may choose.
type rung struct {
	exp    int // power of ten
	symbol string
}

// tag is what a unit says beyond its dimension: exponents of the things that
// are counted (radians, squares of a film, bits), and what a rate counts.
type tag struct {
	rad, sq, bit int8
	rate         rate
}

// rate tells frequencies apart: 1 Hz is a cycle a second, 1 Bd a symbol.
type rate uint8

const (
	noRate rate = iota
	cycleRate
	symbolRate
)

func (t tag) plus(o tag, sign int8) tag {
	return tag{rad: t.rad + sign*o.rad, sq: t.sq + sign*o.sq, bit: t.bit + sign*o.bit}
}

// counts returns the tag without the angle and the rate, which come and go
// in calculations of their own accord.
func (t tag) counts() tag { return tag{sq: t.sq, bit: t.bit} }

// dimRate is the dimension 1/s, in which frequencies of several kinds meet.
var dimRate = dimOf(0, 0, -2, 0, 0, 0, 0)

// tagOf returns the tag of a unit, which may be nil.
func tagOf(u *Unit) tag {
	if u == nil {
		return tag{}
	}
	return u.tag
}

// hiddenAngles remember a power of the radian, from -8 to 8, that a factor
// such as Pi brought in: 2·Pi·f comes out in rad/s.
var hiddenAngles = func() (us [17]*Unit) {
	for i := range us {
		if i != 8 {
			us[i] = &Unit{hidden: true, tag: tag{rad: int8(i - 8)}}
		}
	}
	return us
}()

// hiddenAngle returns the hidden unit for rad^n, nil for 0 and for powers
// that no formula has.
func hiddenAngle(n int8) *Unit {
	if n < -8 || n > 8 {
		return nil
	}
	return hiddenAngles[n+8]
}

// finish sets what follows from the other fields.
func (u *Unit) finish() *Unit {
	if u.offset != nil && u.offset.Sign() == 0 {
		u.offset = nil
	}
	u.pow10, u.pure = 0, false
	if u.offset == nil {
		u.pow10, u.pure = powerOfTen(u.scale)
	}
	return u
}

// powerOfTen reports whether r is 10^n.
func powerOfTen(r *big.Rat) (n int, ok bool) {
	if r.Sign() <= 0 {
		return 0, false
	}
	switch {
	case r.IsInt() && r.Num().IsInt64():
		n, ok = intPowerOfTen(r.Num().Int64())
		return n, ok
	case r.Num().IsInt64() && r.Num().Int64() == 1 && r.Denom().IsInt64():
		n, ok = intPowerOfTen(r.Denom().Int64())
		return -n, ok
	}
	n = ratOrder(r)
	return n, r.Cmp(ratPow10(n)) == 0
}

func intPowerOfTen(x int64) (n int, ok bool) {
	for x%10 == 0 {
		x /= 10
		n++
	}
	return n, x == 1
}

// fixed returns u without the freedom to print with another prefix.
func (u *Unit) fixed() *Unit {
	if u.ladder == nil {
		return u
	}
	f := *u
	f.ladder, f.bought = nil, nil
	return &f
}

// toSI returns the float64 nearest to d of this unit in SI.
func (u *Unit) toSI(d decimal) float64 {
	if u.pure {
		return d.float(u.pow10)
	}
	r := d.rat()
	r.Mul(r, u.scale)
	if u.offset != nil {
		r.Add(r, u.offset)
	}
	f, _ := r.Float64()
	return f
}

// fromSI returns v, a number in SI, as an exact number of this unit.
func (u *Unit) fromSI(v float64) *big.Rat {
	r := new(big.Rat)
	r.SetFloat64(v)
	if u.offset != nil {
		r.Sub(r, u.offset)
	}
	return r.Quo(r, u.scale)
}

// factor is one symbol of a compound unit with its power in halves.
type factor struct {
	unit   *Unit
	prefix *prefix // nil: none
	symbol string  // canonical, with prefix
	halves int     // 2 for V, -1 for 1/√Hz
}

// compose builds the unit that the factors make.
func compose(fs []factor) (*Unit, error) {
	if len(fs) == 0 {
		return unitOne, nil
	}
	if len(fs) == 1 && fs[0].halves == 2 {
		f := fs[0]
		if f.prefix == nil {
			return f.unit.fixed(), nil
		}
		u := *f.unit.fixed()
		u.Symbol = f.symbol
		u.scale = new(big.Rat).Mul(u.scale, f.prefix.factor)
		return u.finish(), nil
	}
	u := &Unit{scale: big.NewRat(1, 1)}
	for i, f := range fs {
		kind := f.unit.dim.Kind()
		scale := f.unit.scale
		switch kind {
		case LevelScale:
			return nil, &Error{"the level unit " + f.unit.Symbol + " does not combine with other units", "write the level by itself, and a gain such as 3dB beside it"}
		case GainScale:
			if i != 0 || f.halves != 2 {
				return nil, &Error{"decibels combine with other units only as dB per something", "write dB/m"}
			}
			u.dim |= Dim(GainScale) << kindShift
		}
		if f.prefix != nil {
			scale = new(big.Rat).Mul(scale, f.prefix.factor)
		}
		p, ok := ratPower(scale, f.halves)
		if !ok {
			return nil, &Error{"the root of " + f.symbol + " has no exact size", "write it with the SI unit, V/√Hz"}
		}
		u.scale.Mul(u.scale, p)
		d, ok := scaleExponents(f.unit.dim&exponents, f.halves)
		if ok {
			var sum Dim
			sum, ok = addExponents(u.dim&exponents, d)
			u.dim = u.dim&^exponents | sum
		}
		if !ok {
			return nil, &Error{"the unit " + symbolOf(fs) + " has too large an exponent", "no quantity has a power beyond 60"}
		}
		t := f.unit.tag
		if f.halves%2 == 0 {
			n := int8(f.halves / 2)
			u.tag = u.tag.plus(tag{rad: t.rad * n, sq: t.sq * n, bit: t.bit * n}, 1)
		}
	}
	u.Symbol = symbolOf(fs)
	return u.finish(), nil
}

// ratPower returns r^(halves/2), where that is rational.
func ratPower(r *big.Rat, halves int) (*big.Rat, bool) {
	if halves%2 != 0 {
		n := new(big.Int).Sqrt(r.Num())
		d := new(big.Int).Sqrt(r.Denom())
		if new(big.Int).Mul(n, n).Cmp(r.Num()) != 0 || new(big.Int).Mul(d, d).Cmp(r.Denom()) != 0 {
			return nil, false
		}
		r = new(big.Rat).SetFrac(n, d)
	} else {
		halves /= 2
	}
	p := big.NewRat(1, 1)
	for range max(halves, -halves) {
		p.Mul(p, r)
	}
	if halves < 0 {
		p.Inv(p)
	}
	return p, true
}

// symbolOf writes a compound unit: numerator, a stroke, denominator, the
// latter in brackets where it has several factors.
func symbolOf(fs []factor) string {
	var over, under []string
	for i, f := range fs {
		// A root sign before several factors would seem to cover them all.
		var part *[]string
		last := true
		for _, g := range fs[i+1:] {
			last = last && (g.halves > 0) != (f.halves > 0)
		}
		if part = &over; f.halves < 0 {
			part = &under
		}
		*part = append(*part, powerSymbol(f.symbol, max(f.halves, -f.halves), last))
	}
	s := strings.Join(over, "·")
	switch {
	case len(under) == 0:
		return s
	case s == "":
		s = "1"
	}
	if len(under) == 1 {
		return s + "/" + under[0]
	}
	return s + "/(" + strings.Join(under, "·") + ")"
}

// powerSymbol writes symbol^(halves/2), with a root sign where it may.
func powerSymbol(symbol string, halves int, root bool) string {
	switch {
	case halves == 2:
		return symbol
	case halves == 1 && root:
		return "√" + symbol
	case halves%2 == 0:
		return symbol + superscript(halves/2)
	}
	return symbol + "^" + decimal{digits: itoa(halves * 5), exp: -1}.plain()
}

const superscripts = "⁰¹²³⁴⁵⁶⁷⁸⁹"

func superscript(n int) string {
	var b strings.Builder
	runes := []rune(superscripts)
	for _, c := range itoa(n) {
		b.WriteRune(runes[c-'0'])
	}
	return b.String()
}
