package units

import (
	"errors"
	"strings"
	"unicode"
)

// Parse reads a value from text: a number, and its unit with or without a
// space between: "4.7kΩ", "4.7 kohm", "-40 °C", "5 %", "12". Whatever Text
// writes in full, Parse reads back to the same value. Errors are *Error.
func Parse(s string) (Quantity, error) {
	text := strings.TrimSpace(s)
	neg, n := scanSign(text)
	d, w, ok := scanDecimal(text[n:])
	if !ok {
		return Quantity{}, &Error{quoted(s) + " does not start with a number", "write a number with its unit, as in 4.7kΩ"}
	}
	d.neg = neg
	n += w
	unit := strings.TrimLeftFunc(text[n:], unicode.IsSpace)
	number := text[:n]
	fail := func(err error) (Quantity, error) {
		var e *Error
		if !errors.As(err, &e) {
			return Quantity{}, err
		}
		return Quantity{}, &Error{"cannot read " + quoted(s) + ": " + e.Msg, e.Hint}
	}
	if strings.HasPrefix(unit, ",") {
		return fail(&Error{"a comma stands in the number", "write a point for decimals, as in 4.7"})
	}
	if code, ok := rkmLike(number, unit); ok {
		return fail(&Error{"this is a marking code", "write " + code + " with its unit, as in " + code + "Ω"})
	}
	if isGoPrefix(text[n-w:]) {
		return fail(&Error{"only decimal numbers are values", "write the number in base ten"})
	}
	factors, err := std.factors(unit)
	if err != nil {
		return fail(err)
	}
	q, err := std.value(d, factors)
	if err != nil {
		return fail(err)
	}
	return q, nil
}

// MustParse is Parse for values that are known to be right; it panics with
// the error.
func MustParse(s string) Quantity {
	q, err := Parse(s)
	if err != nil {
		panic(err)
	}
	return q
}

// quoted shows a piece of input, cut where it is long.
func quoted(s string) string {
	return "“" + cut(s) + "”"
}

// cut shortens what a message shows of a long input.
func cut(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}
