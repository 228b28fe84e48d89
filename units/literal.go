package units

import (
	"errors"
	"strings"
)

// LiteralError says what is wrong with a quantity literal.
type LiteralError struct {
	Msg  string // "10k has a prefix without a unit"
	Hint string // what to write instead
	Len  int    // bytes of the source that it speaks of, from the start of the literal
}

// Error returns the message with its hint.
func (e *LiteralError) Error() string { return (&Error{e.Msg, e.Hint}).Error() }

// UnitIdent is a unit symbol inside a literal, with its place in bytes from
// the start of the literal. Where the note has a name of that spelling, the
// reader is told that the literal means the unit.
type UnitIdent struct {
	Name   string
	Offset int
}

// ScanLiteral reads the longest quantity literal at the start of src: a
// number with a unit right behind it, 4.7kΩ, 62°C/W, 5%. It returns the value
// and the number of bytes read.
//
// n is 0 and err nil where src starts with a plain Go number (12, 1e3, 0x1F,
// 1_000) or with no number at all. A number whose unit cannot be read (10k,
// 4.7kOhmz) gives a *LiteralError.
//
// The unit reads on over / · * ^ while what follows is a unit symbol that
// no letter, digit, bracket or point makes part of a name: 62°C/W is K/W,
// 10V/W(1) is 10 V over a call of W.
//
// A sign before the number is read as part of it: the caller passes it where
// it belongs to the literal, as in -40°C and -120dBm.
func ScanLiteral(src string) (q Quantity, n int, err error) {
	q, n, _, err = scanLiteral(src)
	return q, n, err
}

// LiteralUnits returns the unit symbols of the literal at the start of src,
// in order, each as a name could be spelt: °C and W for 62°C/W.
func LiteralUnits(src string) []UnitIdent {
	_, _, idents, _ := scanLiteral(src)
	return idents
}

func scanLiteral(src string) (q Quantity, n int, idents []UnitIdent, err error) {
	neg, start := scanSign(src)
	if isGoPrefix(src[start:]) {
		return Quantity{}, 0, nil, nil
	}
	d, w, ok := scanDecimal(src[start:])
	if !ok {
		return Quantity{}, 0, nil, nil
	}
	d.neg = neg
	end := start + w
	rest := src[end:]
	name := identAt(strings.TrimPrefix(rest, "√"))
	if name == "" {
		return Quantity{}, 0, nil, nil
	}
	r := unitReader{t: std, s: src, start: end, pos: end, literal: true}
	if err := r.read(1); err != nil {
		return Quantity{}, 0, nil, literalError(src, end, name, err)
	}
	if name == "%" || name == "‰" {
		if next := src[r.pos:]; next != "" && (isDigit(next[0]) || next[0] == '(' || identAt(next) != "" && identAt(next) != "%") {
			return Quantity{}, 0, nil, &LiteralError{
				Msg:  src[:end] + name + " is a percentage, and a value follows it",
				Hint: "write spaces around % for the remainder, or an operator behind the percentage",
				Len:  r.pos,
			}
		}
	}
	q, err = std.value(d, r.factors)
	if err != nil {
		return Quantity{}, 0, nil, literalError(src, r.pos, "", err)
	}
	return q, r.pos, r.idents, nil
}

// quantityOf makes the quantity d·u that remembers the unit kept.
func quantityOf(d decimal, u, kept *Unit) (Quantity, error) {
	if d.tooLong() {
		return Quantity{}, &Error{"the number is too long or its exponent too large", "write it with fewer digits"}
	}
	return checked(d, u.toSI(d), u, kept)
}

// checked makes the quantity whose number in SI is v, read from d in unit u.
func checked(d decimal, v float64, u, kept *Unit) (Quantity, error) {
	switch {
	case v-v != 0:
		return Quantity{}, &Error{"the number is too large", "the largest is about 1.8e308 in SI units"}
	case v == 0 && d.digits != "" && u.offset == nil:
		return Quantity{}, &Error{"the number is too small to tell from 0", "the smallest is about 4.9e-324 in SI units"}
	case u.dim.Kind() == PointScale && v < 0:
		return Quantity{}, &Error{"the temperature is below absolute zero", "−273.15 °C is the lowest"}
	}
	return Quantity{v: v, d: u.dim | computedMark, u: kept}, nil
}

// literalError turns what the unit reader said into an error of the literal.
func literalError(src string, end int, name string, err error) error {
	var e *Error
	if !errors.As(err, &e) {
		return err
	}
	number := src[:end]
	l := &LiteralError{Msg: e.Msg, Hint: e.Hint, Len: max(end+len(name), 1)}
	switch {
	case name == "":
		l.Len = end
		l.Msg = number + ": " + e.Msg
	case std.prefix(name) != nil && std.refused[name] == "":
		l.Msg = number + name + " has a prefix without a unit"
		l.Hint = "write " + std.prefix(name).likely(number)
	default:
		if code, ok := rkmLike(number, name); ok {
			l.Msg = number + name + " is a marking code, not a number with a unit"
			l.Hint = "write " + code + " with its unit, as in " + code + "Ω"
		}
	}
	return l
}

// rkmLike recognises 4k7 and returns 4.7k.
func rkmLike(number, name string) (string, bool) {
	if len(name) < 2 || strings.ContainsAny(number, ".eE_") || strings.Trim(name[1:], "0123456789") != "" {
		return "", false
	}
	p := strings.ToLower(name[:1])
	if name[0] == 'R' {
		p = ""
	} else if name[0] == 'M' {
		p = "M"
	} else if !strings.Contains("kunp", p) {
		return "", false
	}
	return number + "." + name[1:] + p, true
}

// scanSign reads an optional sign: +, - or the minus of print.
func scanSign(s string) (neg bool, n int) {
	for _, minus := range []string{"-", "−"} {
		if strings.HasPrefix(s, minus) {
			return true, len(minus)
		}
	}
	if strings.HasPrefix(s, "+") {
		return false, 1
	}
	return false, 0
}

// isGoPrefix reports whether s is a Go number in another base: 0x1F, 0b11.
func isGoPrefix(s string) bool {
	if len(s) < 3 || s[0] != '0' {
		return false
	}
	switch s[1] {
	case 'x', 'X':
		return true
	case 'b', 'B', 'o', 'O':
		return isDigit(s[2]) || s[2] == '_'
	}
	return false
}
