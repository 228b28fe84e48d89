package preferred

import (
	"fmt"
	"strings"

	"ohmwright/units"
)

// ParseRKM reads the letter and digit code of IEC 60062, in which the
// multiplier stands in place of the decimal point and a tolerance letter may
// follow.
//
//	ParseRKM("4K7", "Ω")    // 4.7 kΩ
//	ParseRKM("R47J", "Ω")   // 0.47 Ω, 5 %
//	ParseRKM("100nK", "F")  // 100 nF, 10 %
//	ParseRKM("4p7C", "F")   // 4.7 pF, 0.25 pF: below 10 pF B C D F G are capacitances
//
// Arguments: code, as printed on the part; unit, Ω, F or H. Result: value and
// tolerance, the latter unset where the code has none. It is an error where
// the code cannot be read. A K or M behind digits alone is the multiplier
// (47K is 47 kΩ); behind a complete code it is the tolerance (4K7K is 10 %).
//
// Source: IEC 60062, letter and digit code; inductors: common practice.
func ParseRKM(code, unit string) (Marking, error) {
	if _, err := partOfUnit(code, unit); err != nil {
		return Marking{}, err
	}
	trimmed := strings.TrimSpace(code)
	rest, letter := splitTolerance(trimmed, hasLetter)
	value, err := units.ParseRKM(rest, unit)
	if err != nil {
		return Marking{}, err
	}
	return Marking{Value: value, Tolerance: toleranceOf(letter, value)}, nil
}

// mostFigures is the number of significant figures that a printed code holds.
const mostFigures = 4

// FormatRKM writes a value in the letter and digit code of IEC 60062.
//
//	FormatRKM(4.7kΩ)    // 4K7
//	FormatRKM(0.47Ω)    // R47
//	FormatRKM(4.7uF)    // 4µ7
//
// Argument: q, the value of a resistor, capacitor or inductor, above zero;
// of a value with spread the nominal is written. Result: the code, without a
// tolerance letter. It is an error for more than four significant figures,
// which the code does not hold, and for sizes beyond its letters.
//
// Source: IEC 60062, letter and digit code; inductors: common practice.
func FormatRKM(q units.Quantity) (string, error) {
	p, err := partOf("cannot write a letter and digit code for", q)
	if err != nil {
		return "", err
	}
	digits, power := figures(q)
	if len(digits) > mostFigures {
		return "", tooManyFigures("a letter and digit code", q, mostFigures)
	}
	letters := []rune(p.letters)
	group := floorDiv(power-p.lowest, 3)
	if group >= len(letters) || group < -1 {
		return "", fmt.Errorf("marking of %v: the letters %s do not reach that size: check its prefix", q, p.letters)
	}
	group = max(group, 0) // below the first letter it is followed by zeros: R047
	return place(digits, power-p.lowest-3*group, string(letters[group])), nil
}

func tooManyFigures(code string, q units.Quantity, most int) error {
	return fmt.Errorf("marking of %s: %s holds %d significant figures: choose a preferred value first, such as Nearest(E96, x)", q.Text(0), code, most)
}

func floorDiv(a, b int) int {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
