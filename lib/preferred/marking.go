package preferred

import (
	"fmt"
	"strconv"
	"strings"

	"ohmwright/units"
)

// Marking is what a part says about itself. What it does not say is unset
// (the zero Quantity).
type Marking struct {
	Value     units.Quantity
	Tolerance units.Quantity // a share, or a capacitance for capacitors below 10 pF
	TempCo    units.Quantity // change per kelvin, as 100 ppm/K
}

// toleranceLetters are the symmetrical tolerances of IEC 60062.
// Source: IEC 60062, letter code for tolerance (second-hand copy, and from
// memory): A 0.05, B 0.1, C 0.25, D 0.5, F 1, G 2, J 5, K 10, M 20 %.
const toleranceLetters = "ABCDFGJKM"

var tolerances = map[byte]string{
	'A': "0.05 %", 'B': "0.1 %", 'C': "0.25 %", 'D': "0.5 %",
	'F': "1 %", 'G': "2 %", 'J': "5 %", 'K': "10 %", 'M': "20 %",
}

// smallCapacitorTolerances hold below 10 pF, where a share would be less
// than the stray capacitance. Source: IEC 60062, from memory.
var smallCapacitorTolerances = map[byte]string{
	'B': "0.1 pF", 'C': "0.25 pF", 'D': "0.5 pF", 'F': "1 pF", 'G': "2 pF",
}

// splitTolerance takes the tolerance letter off the end of a code. complete
// says whether what stands before the letter is a code by itself: K at the
// end of 47K is a multiplier.
func splitTolerance(code string, complete func(string) bool) (rest string, letter byte) {
	if code == "" {
		return code, 0
	}
	rest, letter = code[:len(code)-1], code[len(code)-1]
	if strings.IndexByte(toleranceLetters, letter) < 0 || !complete(rest) {
		return code, 0
	}
	return rest, letter
}

// toleranceOf reads a tolerance letter that splitTolerance found behind
// value; letter 0 is none.
func toleranceOf(letter byte, value units.Quantity) units.Quantity {
	if letter == 0 {
		return none
	}
	if isCapacitance(value) && value.Less(units.MustParse("10 pF")) {
		if text, ok := smallCapacitorTolerances[letter]; ok {
			return units.MustParse(text)
		}
	}
	return units.MustParse(tolerances[letter])
}

// part is a kind of part that has marking codes.
type part struct {
	unit    string // as ParseRKM is given it
	letters string // multiplier letters, rising by factors of 1000
	lowest  int    // power of ten of the first letter
	plain   string // unit of figure codes
	power   int    // power of ten of plain
}

// parts are all of them. Source: IEC 60062 for resistors and capacitors; inductors: common practice.
var parts = []part{
	{unit: "Ω", letters: "RKMGT", lowest: 0, plain: "Ω", power: 0},
	{unit: "F", letters: "pnµmF", lowest: -12, plain: "pF", power: -12},
	{unit: "H", letters: "nµmH", lowest: -9, plain: "µH", power: -6},
}

// partOfUnit finds the kind of part by the unit a code is read in. Both code
// points of Ω and the spelling ohm are taken.
func partOfUnit(code, unit string) (part, error) {
	one, err := units.Parse("1 " + unit)
	if err == nil {
		for _, p := range parts {
			if one.Same(units.MustParse("1 " + p.unit)) {
				return p, nil
			}
		}
	}
	return part{}, fmt.Errorf("marking %q in %q: marking codes are for resistors, capacitors and inductors: give the unit as Ω, F or H", code, unit)
}

// partOf finds the kind of part by its value.
func partOf(use string, q units.Quantity) (part, error) {
	if _, _, err := sizeOf(use, q); err != nil {
		return part{}, err
	}
	for _, p := range parts {
		if q.Dim() == units.MustParse("1 "+p.unit).Dim() {
			return p, nil
		}
	}
	return part{}, &units.Error{
		Msg:  fmt.Sprintf("%s %v: marking codes are for resistors, capacitors and inductors", use, q),
		Hint: "give the value in Ω, F or H",
	}
}

// hasLetter reports whether s holds anything but digits: a code that does
// has its multiplier already.
func hasLetter(s string) bool {
	return strings.ContainsFunc(s, func(r rune) bool { return r < '0' || r > '9' })
}

// figures writes the number of q in its coherent unit as d.ddd × 10^power,
// without zeros at the end: 4700 Ω is "47", 3. What arithmetic adds in the
// thirteenth figure is left out.
func figures(q units.Quantity) (digits string, power int) {
	mantissa, exponent, _ := strings.Cut(strconv.FormatFloat(units.Nominal(q).SI(), 'e', 11, 64), "e")
	power, _ = strconv.Atoi(exponent)
	return strings.TrimRight(strings.Replace(mantissa, ".", "", 1), "0"), power
}

// place writes digits, the first of which stands for 10^power, with mark in
// place of the decimal point: place("47", 0, "R") is 4R7, place("47", 1, "R")
// is 47R, place("47", -1, "R") is R47.
func place(digits string, power int, mark string) string {
	switch before := power + 1; {
	case before <= 0:
		return mark + strings.Repeat("0", -before) + digits
	case before >= len(digits):
		return digits + strings.Repeat("0", before-len(digits)) + mark
	default:
		return digits[:before] + mark + digits[before:]
	}
}
