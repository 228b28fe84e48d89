package units

import (
	"errors"
	"strings"
	"unicode/utf8"
)

// rkmPowers are the letters that stand for the decimal point, IEC 60062
// clause 4 (from memory of the 2016 edition); k and u are the spellings that
// designers type for K and µ.
var rkmPowers = map[rune]int{
	'R': 0, 'r': 0, 'K': 3, 'k': 3, 'M': 6, 'G': 9, 'T': 12,
	'L': -3, 'm': -3, 'µ': -6, 'μ': -6, 'u': -6, 'n': -9, 'p': -12,
}

// rkmTolerances are the letters behind a code that state its tolerance, in
// ppm of the value (IEC 60062 clause 5).
var rkmTolerances = map[rune]int{
	'E': 50, 'L': 100, 'P': 200, 'W': 500, 'B': 1000, 'C': 2500, 'D': 5000,
	'F': 10000, 'G': 20000, 'H': 30000, 'J': 50000, 'K': 100000, 'M': 200000, 'N': 300000,
}

// rkmPicofarads are the same letters for capacitors below 10 pF, where they
// state the tolerance in hundredths of a picofarad.
var rkmPicofarads = map[rune]int{'B': 10, 'C': 25, 'D': 50, 'F': 100, 'G': 200}

// ParseRKM reads a marking code of IEC 60062, in which a letter stands for
// the decimal point and the power of ten: "4k7" is 4.7 kΩ for the unit "Ω",
// "R47" 0.47 Ω, "100n" 100 nF for "F", "3V3" 3.3 V for "V". A tolerance
// letter may follow: "4k7F" is 4.7 kΩ ± 1%. Errors are *Error.
func ParseRKM(code, unit string) (Quantity, error) {
	fail := func(msg, hint string) (Quantity, error) {
		return Quantity{}, &Error{"cannot read the marking code " + quoted(code) + ": " + msg, hint}
	}
	u, err := std.parseUnit(unit)
	if err != nil {
		return Quantity{}, err
	}
	e, known := std.units[unit]
	if !known || u.dim.Kind() != PlainScale || u.dim == 0 {
		return fail("the unit "+quoted(unit)+" is no unit of a part", "give the unit without prefix, as in Ω, F, H or V")
	}
	text := strings.TrimSpace(code)
	if text == "" {
		return fail("it is empty", "write for instance 4k7")
	}
	// The first letter is the point; a second one the tolerance.
	var digits []byte
	exp, letter, tolerance := 0, rune(0), rune(0)
	for i, r := range text {
		switch {
		case isDecimalDigit(r) && r < 0x80 && tolerance == 0:
			digits = append(digits, byte(r))
			if letter != 0 {
				exp--
			}
		case r == '.' || r == ',':
			return fail("it has both a point and a letter for it", "write 4k7 for 4.7 k, or 4.7kΩ as a value")
		case letter == 0:
			power, ok := rkmPowers[r]
			if !ok && isUnitLetter(r, e) {
				ok = true
			}
			if !ok {
				return fail("the letter "+string(r)+" stands for no power of ten", "the letters are R, k, M, G, T, m, µ (u), n and p")
			}
			letter = r
			exp += power
		case i+utf8.RuneLen(r) == len(text) && tolerance == 0:
			tolerance = r
		default:
			return fail("it has a letter too many", "write for instance 4k7, and a tolerance letter behind it")
		}
	}
	switch {
	case len(digits) == 0:
		return fail("it has no digits", "write for instance 4k7")
	case letter == 0:
		return fail("it has no letter for the point", "470 Ω is 470R; a code of digits alone, 471, is of another kind")
	}
	d := decimal{digits: strings.TrimLeft(string(digits), "0"), exp: exp}
	q, err := quantityOf(d, u, std.unlessPreferred(e.unit))
	if err != nil {
		var known *Error
		if errors.As(err, &known) {
			return fail(known.Msg, known.Hint)
		}
		return Quantity{}, err
	}
	if tolerance == 0 {
		return q, nil
	}
	if hundredths, ok := rkmPicofarads[tolerance]; ok && u.Symbol == "F" && q.v < 10e-12 {
		t := decimal{digits: itoa(hundredths), exp: -14}
		return Tolerance(q, Quantity{v: t.float(0), d: q.d}), nil
	}
	ppm, ok := rkmTolerances[tolerance]
	if !ok {
		return fail("the letter "+string(tolerance)+" states no tolerance", "F is 1 %, J 5 %, K 10 %, M 20 %")
	}
	t := decimal{digits: itoa(ppm), exp: -6}
	return Tolerance(q, Quantity{v: t.float(0), d: computedMark, u: std.units["%"].unit}), nil
}

// isUnitLetter reports whether r is the unit itself, in the place of the
// point: 3V3, 4F7.
func isUnitLetter(r rune, e *entry) bool {
	return e.unit.Symbol == string(r)
}
