package note_test

import (
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"
	"unicode"

	"ohmwright/units"
)

// plainReader computes formulas from the plain text in which they are shown.
// It is written from the conventions of mathematics: products before sums,
// from the left, powers first, at most one solidus in a product, a number and
// a unit with a space between are one value. It shares no code with what draws.
//
// Numbers alone are computed exactly, as Go computes constants; with anything
// else they become float64.
type plainReader struct {
	rest  []rune
	names map[string]amount
	inner int // open bars of an absolute value
}

// amount is a number that is exact, or a quantity, with a bound of what
// rounding may have done to it.
type amount struct {
	exact *big.Rat
	q     units.Quantity
	err   float64
}

const eps = 0x1p-53

func quantityAmount(q units.Quantity) amount { return amount{q: q, err: math.Abs(q.SI()) * eps} }

func (a amount) quantity() units.Quantity {
	if a.exact == nil {
		return a.q
	}
	f, _ := a.exact.Float64()
	return units.Number(f)
}

func (a amount) size() float64 { return math.Abs(a.quantity().SI()) }

func (a amount) bound() float64 {
	if a.exact != nil {
		return a.size() * eps
	}
	return a.err
}

// readPlain computes a drawn formula. A text that cannot be read is an error,
// and what units refuses is an *units.Error.
func readPlain(text string, names map[string]amount) (a amount, err error) {
	r := &plainReader{rest: []rune(text), names: names}
	defer func() {
		switch x := recover().(type) {
		case nil:
		case unreadable:
			err = fmt.Errorf("%s: %s at %q", text, string(x), string(r.rest))
		case *units.Error:
			err = x
		default:
			panic(x)
		}
	}()
	a = r.sum()
	if len(r.rest) > 0 {
		r.fail("something is left over")
	}
	return a, nil
}

type unreadable string

func (r *plainReader) fail(why string) { panic(unreadable(why)) }

// take takes a text if it comes next, with the space around it.
func (r *plainReader) take(text string) bool {
	if !strings.HasPrefix(string(r.rest), text) {
		return false
	}
	r.rest = r.rest[len([]rune(text)):]
	return true
}

func (r *plainReader) sum() amount {
	var a amount
	switch {
	case r.take("−"):
		// The sign of a temperature on a scale belongs to it; any other
		// applies to the whole product.
		if a, ok := r.point(); ok {
			return r.terms(r.product(a))
		}
		a = negate(r.product(r.power()))
	case r.take("+"):
		a = r.product(r.power())
	default:
		a = r.product(r.power())
	}
	return r.terms(a)
}

func (r *plainReader) terms(a amount) amount {
	for {
		switch {
		case r.take(" + "):
			a = add(a, r.product(r.power()), 1)
		case r.take(" − "):
			a = add(a, r.product(r.power()), -1)
		default:
			return a
		}
	}
}

func (r *plainReader) product(a amount) amount {
	divided := false
	for {
		times, over := r.take(" · "), false
		if !times {
			over = r.take("/")
		}
		if !times && !over {
			return a
		}
		if divided {
			r.fail("a factor follows a solidus")
		}
		divided = over
		if over {
			a = divide(a, r.power())
		} else {
			a = multiply(a, r.power())
		}
	}
}

// power reads an atom and its exponent.
func (r *plainReader) power() amount {
	a := r.atom()
	const raised, flat = "⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789"
	digits := ""
	for len(r.rest) > 0 {
		i := slices.Index([]rune(raised), r.rest[0])
		if i < 0 {
			break
		}
		digits += flat[i : i+1]
		r.rest = r.rest[1:]
	}
	switch {
	case digits != "":
		x, ok := new(big.Rat).SetString(digits)
		if !ok {
			r.fail("no exponent")
		}
		return raise(a, amount{exact: x})
	case r.take("^"):
		return raise(a, r.atom())
	}
	return a
}

func (r *plainReader) atom() amount {
	switch {
	case r.take("("):
		inner := r.inner
		r.inner = 0
		a := r.sum()
		r.inner = inner
		if !r.take(")") {
			r.fail("a bracket is not closed")
		}
		return a
	case r.take("√("):
		a := r.sum()
		if !r.take(")") {
			r.fail("a bracket is not closed")
		}
		return root(a)
	case r.take("√"):
		return root(r.atom())
	case r.take("abs("):
		a := r.sum()
		if !r.take(")") {
			r.fail("a bracket is not closed")
		}
		return absolute(a)
	case r.inner == 0 && r.take("|"):
		r.inner++
		a := r.sum()
		r.inner--
		if !r.take("|") {
			r.fail("a bar is not closed")
		}
		return absolute(a)
	case len(r.rest) > 0 && unicode.IsDigit(r.rest[0]):
		return r.value()
	case len(r.rest) > 0 && (unicode.IsLetter(r.rest[0]) || r.rest[0] == '_'):
		n := 0
		for n < len(r.rest) && (unicode.IsLetter(r.rest[n]) || unicode.IsDigit(r.rest[n]) || r.rest[n] == '_') {
			n++
		}
		a, ok := r.names[string(r.rest[:n])]
		if !ok {
			r.fail("unknown name")
		}
		r.rest = r.rest[n:]
		return a
	}
	r.fail("a value is missing")
	return amount{}
}

// value reads a number, and the longest unit that follows it.
func (r *plainReader) value() amount {
	n := r.number()
	text := string(r.rest[:n])
	if unit := r.unit(text, n); unit != "" {
		q, err := units.Parse(text + unit)
		if err != nil {
			r.fail(err.Error())
		}
		r.rest = r.rest[n+1+len([]rune(unit)):]
		return quantityAmount(q)
	}
	x, ok := new(big.Rat).SetString(text)
	if !ok {
		r.fail("no number")
	}
	r.rest = r.rest[n:]
	return amount{exact: x}
}

// point reads a temperature point or a level whose sign was just taken.
func (r *plainReader) point() (amount, bool) {
	if len(r.rest) == 0 || !unicode.IsDigit(r.rest[0]) {
		return amount{}, false
	}
	n := r.number()
	text := string(r.rest[:n])
	unit := r.unit(text, n)
	q, err := units.Parse("-" + text + unit)
	if unit == "" || err != nil || q.Dim().Kind() == units.PlainScale {
		return amount{}, false
	}
	r.rest = r.rest[n+1+len([]rune(unit)):]
	return quantityAmount(q), true
}

// number is the length of the number that comes next: 2, 0.5, 1e-3.
func (r *plainReader) number() int {
	n := 0
	digits := func() {
		for n < len(r.rest) && (unicode.IsDigit(r.rest[n]) || r.rest[n] == '.') {
			n++
		}
	}
	digits()
	if n < len(r.rest) && r.rest[n] == 'e' {
		n++
		if n < len(r.rest) && (r.rest[n] == '-' || r.rest[n] == '+') {
			n++
		}
		digits()
	}
	return n
}

// unit is the longest unit that stands behind n runes and a space, up to
// where a word ends.
func (r *plainReader) unit(number string, n int) string {
	if n >= len(r.rest) || r.rest[n] != ' ' {
		return ""
	}
	s := r.rest[n+1:]
	end := 0
	for end < len(s) && !strings.ContainsRune(" ()|+−", s[end]) {
		end++
	}
	for ; end > 0; end-- {
		if end < len(s) && (unicode.IsLetter(s[end]) || unicode.IsDigit(s[end]) || s[end] == '_') {
			continue
		}
		if _, err := units.Parse(number + string(s[:end])); err == nil {
			return string(s[:end])
		}
	}
	return ""
}

// The arithmetic, with its bounds of rounding.

func negate(a amount) amount {
	if a.exact != nil {
		return amount{exact: new(big.Rat).Neg(a.exact)}
	}
	return amount{q: a.q.Neg(), err: a.err}
}

func add(a, b amount, sign int) amount {
	if a.exact != nil && b.exact != nil {
		if sign < 0 {
			return amount{exact: new(big.Rat).Sub(a.exact, b.exact)}
		}
		return amount{exact: new(big.Rat).Add(a.exact, b.exact)}
	}
	x, y := a.quantity(), b.quantity()
	if sign < 0 {
		x = x.Sub(y)
	} else {
		x = x.Add(y)
	}
	return amount{q: x, err: a.bound() + b.bound() + math.Abs(x.SI())*eps}
}

func multiply(a, b amount) amount {
	if a.exact != nil && b.exact != nil {
		return amount{exact: new(big.Rat).Mul(a.exact, b.exact)}
	}
	q := a.quantity().Mul(b.quantity())
	return amount{q: q, err: a.size()*b.bound() + b.size()*a.bound() + math.Abs(q.SI())*eps}
}

func divide(a, b amount) amount {
	if a.exact != nil && b.exact != nil && b.exact.Sign() != 0 {
		return amount{exact: new(big.Rat).Quo(a.exact, b.exact)}
	}
	q := a.quantity().Div(b.quantity())
	size := math.Abs(q.SI())
	return amount{q: q, err: (a.bound()+size*b.bound())/b.size() + size*eps}
}

func raise(a, n amount) amount {
	x := n.quantity().Float()
	q := units.Pow(a.quantity(), x)
	size := math.Abs(q.SI())
	return amount{q: q, err: size * (math.Abs(x)*a.bound()/a.size() + math.Abs(math.Log(a.size()))*n.bound() + 8*eps)}
}

func root(a amount) amount {
	q := units.Sqrt(a.quantity())
	return amount{q: q, err: a.bound()/(2*q.SI()) + q.SI()*eps}
}

func absolute(a amount) amount { return amount{q: units.Abs(a.quantity()), err: a.bound()} }
