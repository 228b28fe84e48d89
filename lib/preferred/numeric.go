package preferred

import (
	"fmt"
	"strconv"
	"strings"

	"ohmwright/units"
)

// ParseNumeric reads the three- and four-digit codes of small parts: two or
// three figures and the number of zeros, or figures with R in place of the
// decimal point, in ohms for resistors, picofarads for capacitors and
// microhenries for inductors. A tolerance letter may follow.
//
//	ParseNumeric("103", "Ω")    // 10 kΩ
//	ParseNumeric("1002", "Ω")   // 10 kΩ
//	ParseNumeric("4R7", "Ω")    // 4.7 Ω
//	ParseNumeric("104K", "F")   // 100 nF, 10 %
//	ParseNumeric("000", "Ω")    // 0 Ω, a link
//
// Arguments: code, as printed on the part; unit, Ω, F or H, says what the
// part is. Result: value and tolerance, the latter unset where the code has
// none. It is an error where the code cannot be read. The last digits 8 and 9
// stand for ×0.01 and ×0.1 on capacitors and are refused on others.
//
// Source: IEC 60062 and common practice, from memory.
//
// Caution: 471 and 4700 are both codes of 470; a code of three figures and no
// letter may also be a value written out on an old part.
func ParseNumeric(code, unit string) (Marking, error) {
	p, err := partOfUnit(code, unit)
	if err != nil {
		return Marking{}, err
	}
	rest, letter := splitTolerance(strings.TrimSpace(code), func(s string) bool { return len(s) >= 3 })
	number, err := readNumeric(code, rest, p)
	if err != nil {
		return Marking{}, err
	}
	value, err := units.Parse(number + " " + p.plain)
	if err != nil {
		return Marking{}, err
	}
	return Marking{Value: value, Tolerance: toleranceOf(letter, value)}, nil
}

// readNumeric gives the number that a code of figures stands for.
func readNumeric(code, body string, p part) (string, error) {
	bad := func(why string) (string, error) {
		return "", fmt.Errorf("marking %q: %s: write two or three figures and the number of zeros, such as 103 or 1002, or R as the decimal point, such as 4R7", code, why)
	}
	if p.unit == "Ω" && strings.Trim(body, "0") == "" && 1 <= len(body) && len(body) <= 4 {
		return "0", nil
	}
	if before, after, ok := strings.Cut(body, "R"); ok {
		if len(body) < 2 || len(body) > 4 || hasLetter(before) || hasLetter(after) {
			return bad("it has other letters than one R among two or three figures")
		}
		if strings.Trim(before+after, "0") == "" {
			return bad("it has no figure above zero")
		}
		return "0" + before + "." + after + "0", nil
	}
	if hasLetter(body) {
		return bad("it has other letters than one R among two or three figures")
	}
	if len(body) != 3 && len(body) != 4 {
		return bad(fmt.Sprintf("it has %d figures", len(body)))
	}
	if body[0] == '0' {
		return bad("it starts with 0")
	}
	mantissa, zeros := body[:len(body)-1], int(body[len(body)-1]-'0')
	if zeros >= 8 {
		if p.unit != "F" {
			return bad("its last digit is 8 or 9, which has a meaning on capacitors only")
		}
		zeros -= 10
	}
	return decimal(mantissa, zeros), nil
}

// decimal writes mantissa × 10^power without an exponent.
func decimal(mantissa string, power int) string {
	v, _ := strconv.ParseFloat(mantissa+"e"+strconv.Itoa(power), 64) // mantissa is digits
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// FormatNumeric writes a value in the three- or four-digit code: significant
// figures, then the number of zeros, or R in place of the decimal point.
//
//	FormatNumeric(10kΩ, 3)     // 103
//	FormatNumeric(10kΩ, 4)     // 1002
//	FormatNumeric(4.7Ω, 3)     // 4R7
//	FormatNumeric(100nF, 3)    // 104
//
// Arguments: q, the value of a resistor (coded in Ω), capacitor (in pF) or
// inductor (in µH), above zero; digits, 3 or 4. Result: the code. It is an
// error where q has more significant figures than the code, or is beyond its
// reach.
//
// Source: IEC 60062 and common practice, from memory.
func FormatNumeric(q units.Quantity, digits int) (string, error) {
	if digits != 3 && digits != 4 {
		return "", fmt.Errorf("marking with %d digits: there are codes of 3 and of 4: give one of these", digits)
	}
	p, err := partOf("cannot write a digit code for", q)
	if err != nil {
		return "", err
	}
	figs, power := figures(q)
	power -= p.power
	room := digits - 1
	if len(figs) > room {
		return "", tooManyFigures(fmt.Sprintf("a code of %d digits", digits), q, room)
	}
	figs += strings.Repeat("0", room-len(figs))
	zeros := power - (room - 1)
	switch {
	case zeros > 7:
		return "", fmt.Errorf("marking of %v: a digit code has at most seven zeros: check its prefix", q)
	case zeros >= 0:
		return figs + strconv.Itoa(zeros), nil
	}
	code := place(figs, power, "R")
	for len(code) > digits && strings.HasSuffix(code, "0") {
		code = code[:len(code)-1]
	}
	if len(code) > digits {
		return "", fmt.Errorf("marking of %v: a code of %d digits does not reach so low: use the letter and digit code", q, digits)
	}
	return code, nil
}
