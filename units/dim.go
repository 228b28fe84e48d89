package units

// Dim is a dimension: the exponents of the seven SI base dimensions and what
// kind of scale the number is on, packed into one word so that multiplying
// two quantities costs one add.
//
// Bytes 0 to 6 hold the exponents of length, mass, time, current,
// temperature, amount and luminous intensity in halves (V/√Hz needs them),
// each as an int8; byte 7 holds the kind and the computed mark.
type Dim uint64

// Kind says which scale a number is on.
type Kind uint8

const (
	PlainScale Kind = iota // an ordinary quantity: 5 V, 40 K (a difference), 3
	PointScale             // a temperature on the scale: 25 °C
	LevelScale             // a level: 14 dBm
	GainScale              // a ratio in decibels: 3 dB
)

const (
	highBits = 0x0080_8080_8080_8080
	lowBits  = 0x007f_7f7f_7f7f_7f7f

	kindShift    = 56
	kindMask     = Dim(0x7f) << kindShift
	computedMark = Dim(0x80) << kindShift
	exponents    = Dim(1)<<kindShift - 1
)

// Kind returns the scale that d is on.
func (d Dim) Kind() Kind { return Kind(d & kindMask >> kindShift) }

// Same reports whether d and e are the same dimension on the same scale.
func (d Dim) Same(e Dim) bool { return (d^e)&^computedMark == 0 }

// addExponents adds the exponents of two plain dimensions, byte by byte
// without carry; ok is false where an exponent leaves the int8 range.
func addExponents(a, b Dim) (sum Dim, ok bool) {
	x, y := uint64(a&exponents), uint64(b&exponents)
	s := (x&lowBits + y&lowBits) ^ (x^y)&highBits
	return Dim(s), (x^s)&(y^s)&highBits == 0
}

// subExponents is addExponents for a quotient.
func subExponents(a, b Dim) (diff Dim, ok bool) {
	x, y := uint64(a&exponents), uint64(b&exponents)
	s := ((x | highBits) - y&lowBits) ^ (x^^y)&highBits
	return Dim(s), (x^y)&(x^s)&highBits == 0
}

// dimOf packs exponents given in halves, in the order of Dim.
func dimOf(halves ...int) (d Dim) {
	for i, h := range halves {
		d |= Dim(uint8(int8(h))) << (8 * i)
	}
	return d
}

// halves returns the exponent of base dimension i in halves.
func (d Dim) halves(i int) int { return int(int8(d >> (8 * i))) }

// scaleExponents multiplies all exponents of a plain dimension by n/2.
func scaleExponents(d Dim, n int) (Dim, bool) {
	var out Dim
	for i := range 7 {
		h := d.halves(i) * n
		if h%2 != 0 || h/2 > 127 || h/2 < -128 {
			return 0, false
		}
		out |= Dim(uint8(int8(h/2))) << (8 * i)
	}
	return out, true
}
