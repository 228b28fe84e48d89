package units

import (
	"math/big"
	"strconv"
	"strings"
)

// A decimal is a number as it is written: digits × 10^exp, exactly. Values
// go from text to float64 and back through decimals and rational numbers, so
// that 4.7µF is the float64 nearest to 4.7e-6 and not a product of two
// rounded numbers.
type decimal struct {
	neg    bool
	digits string // no leading zeros; "" is zero
	exp    int
}

// Longer numbers than these are refused before any arithmetic: 1e999999999
// would otherwise fill the memory with zeros.
const (
	maxDigits   = 1200
	maxExponent = 1200
)

// scanDecimal reads an unsigned decimal number (digits with underscores,
// point, exponent) at the start of s. It returns the number of bytes read, 0
// if there is none. A letter e that no digit follows is not read: 1eV is one
// electronvolt.
func scanDecimal(s string) (d decimal, n int, ok bool) {
	var digits []byte
	exp, i, any := 0, 0, false
	point := false
	for ; i < len(s); i++ {
		c := s[i]
		switch {
		case '0' <= c && c <= '9':
			digits = append(digits, c)
			any = true
			if point {
				exp--
			}
			continue
		case c == '_' && any && i+1 < len(s) && isDigit(s[i+1]) && isDigit(s[i-1]):
			continue
		case c == '.' && !point && (any || i+1 < len(s) && isDigit(s[i+1])):
			point = true
			continue
		}
		break
	}
	if !any {
		return decimal{}, 0, false
	}
	if i < len(s) && (s[i] == 'e' || s[i] == 'E') {
		j := i + 1
		if j < len(s) && (s[j] == '+' || s[j] == '-') {
			j++
		}
		start := j
		for j < len(s) && (isDigit(s[j]) || s[j] == '_' && isDigit(s[j-1]) && j+1 < len(s) && isDigit(s[j+1])) {
			j++
		}
		if j > start {
			e, err := strconv.Atoi(strings.ReplaceAll(s[i+1:j], "_", ""))
			if err != nil || e > 1e6 || e < -1e6 {
				e = 1e6
				if s[i+1] == '-' {
					e = -1e6
				}
			}
			exp += e
			i = j
		}
	}
	return decimal{digits: strings.TrimLeft(string(digits), "0"), exp: exp}, i, true
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// trimmed returns d without trailing zeros in its digits.
func (d decimal) trimmed() decimal {
	t := strings.TrimRight(d.digits, "0")
	d.exp += len(d.digits) - len(t)
	d.digits = t
	if t == "" {
		d.exp = 0
	}
	return d
}

// order is the power of ten of the first digit: 2 for 470.
func (d decimal) order() int { return d.exp + len(d.digits) - 1 }

// tooLong reports whether exact arithmetic on d would take unreasonable room.
func (d decimal) tooLong() bool {
	return len(d.digits) > maxDigits || d.digits != "" && (d.order() > maxExponent || d.order() < -maxExponent)
}

// float returns the float64 nearest to d × 10^shift; it is infinite where
// that is too large.
func (d decimal) float(shift int) float64 {
	if d.digits == "" {
		return 0
	}
	f, _ := strconv.ParseFloat(d.digits+"e"+strconv.Itoa(d.exp+shift), 64)
	if d.neg {
		f = -f
	}
	return f
}

// rat returns d as a rational number.
func (d decimal) rat() *big.Rat {
	if d.digits == "" {
		return new(big.Rat)
	}
	n, _ := new(big.Int).SetString(d.digits, 10)
	if d.neg {
		n.Neg(n)
	}
	r := new(big.Rat).SetInt(n)
	return r.Mul(r, ratPow10(d.exp))
}

// ratPow10 returns 10^n exactly.
func ratPow10(n int) *big.Rat {
	p := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(max(n, -n))), nil)
	if n < 0 {
		return new(big.Rat).SetFrac(big.NewInt(1), p)
	}
	return new(big.Rat).SetInt(p)
}

// floatDigits rounds v to n significant digits; n = 0 gives the shortest
// digits that read back as v.
func floatDigits(v float64, n int) decimal {
	s := strconv.FormatFloat(v, 'e', n-1, 64)
	d := decimal{neg: s[0] == '-'}
	mant, exp, _ := strings.Cut(strings.TrimPrefix(s, "-"), "e")
	whole, frac, _ := strings.Cut(mant, ".")
	d.exp, _ = strconv.Atoi(exp)
	d.exp -= len(frac)
	d.digits = strings.TrimLeft(whole+frac, "0")
	return d.trimmed()
}

// ratDigits rounds x to n significant digits, halves to even.
func ratDigits(x *big.Rat, n int) decimal {
	if x.Sign() == 0 {
		return decimal{}
	}
	order := ratOrder(x)
	d := ratDecimals(x, n-1-order)
	return d.trimmed()
}

// ratOrder returns the power of ten of the first digit of x, which is not 0.
func ratOrder(x *big.Rat) int {
	// The bit lengths give the order within one; the comparison settles it.
	order := int(float64(x.Num().BitLen()-x.Denom().BitLen()) * 0.30103)
	a := new(big.Rat).Abs(x)
	for a.Cmp(ratPow10(order)) < 0 {
		order--
	}
	for a.Cmp(ratPow10(order+1)) >= 0 {
		order++
	}
	return order
}

// ratDecimals rounds x to n digits behind the point (before it, for a
// negative n), halves to even.
func ratDecimals(x *big.Rat, n int) decimal {
	scaled := new(big.Rat).Mul(x, ratPow10(n))
	neg := scaled.Sign() < 0
	scaled.Abs(scaled)
	quo, rem := new(big.Int).QuoRem(scaled.Num(), scaled.Denom(), new(big.Int))
	if c := rem.Lsh(rem, 1).Cmp(scaled.Denom()); c > 0 || c == 0 && quo.Bit(0) == 1 {
		quo.Add(quo, big.NewInt(1))
	}
	if quo.Sign() == 0 {
		return decimal{}
	}
	return decimal{neg: neg, digits: quo.String(), exp: -n}.trimmed()
}

// plain writes d without an exponent: 0.00047, 4700.
func (d decimal) plain() string {
	if d.digits == "" {
		return "0"
	}
	var b strings.Builder
	if d.neg {
		b.WriteString("−")
	}
	switch point := len(d.digits) + d.exp; {
	case d.exp >= 0:
		b.WriteString(d.digits)
		b.WriteString(strings.Repeat("0", d.exp))
	case point > 0:
		b.WriteString(d.digits[:point])
		b.WriteByte('.')
		b.WriteString(d.digits[point:])
	default:
		b.WriteString("0.")
		b.WriteString(strings.Repeat("0", -point))
		b.WriteString(d.digits)
	}
	return b.String()
}

// scientific writes d with an exponent: 4.7e-12.
func (d decimal) scientific() string {
	if d.digits == "" {
		return "0"
	}
	e := d.order()
	d.exp -= e
	return d.plain() + "e" + strconv.Itoa(e)
}

func itoa(n int) string { return strconv.Itoa(n) }
