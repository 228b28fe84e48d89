package units

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// isUnitRune reports whether r may stand in a unit symbol.
func isUnitRune(r rune) bool { return unicode.IsLetter(r) || r == '°' || r == '_' }

// identAt returns the identifier or unit symbol at the start of s: letters,
// °, digits behind the first; % and ‰ stand alone.
func identAt(s string) string {
	for _, p := range []string{"%", "‰"} {
		if strings.HasPrefix(s, p) {
			return p
		}
	}
	n := 0
	for n < len(s) {
		r, w := utf8.DecodeRuneInString(s[n:])
		if !isUnitRune(r) && !(n > 0 && isDecimalDigit(r)) {
			break
		}
		n += w
	}
	return s[:n]
}

func isDecimalDigit(r rune) bool { return unicode.Is(unicode.Nd, r) }

// unitReader reads a unit expression:
//
//	unit   = factor { ("/" | "·" | "*") factor }
//	factor = ["√"] symbol [power] | "(" unit ")" | "1"
//	power  = "^" ["-"] number | superscripts
//
// sqrtHz and rtHz are √Hz. Brackets and the 1 of 1/K are read in strings
// only: in a cell they belong to Go.
type unitReader struct {
	t       *table
	s       string
	start   int // where the unit begins in s
	pos     int
	literal bool
	factors []factor
	total   int // sum of the exponents without sign, in halves
	idents  []UnitIdent
}

// symbol finds the unit symbol at the start of s: its length, and the factor.
func (t *table) symbol(s string) (f factor, name string, ok bool) {
	root := 0
	if strings.HasPrefix(s, "√") {
		root = len("√")
	}
	name = identAt(s[root:])
	if name == "" {
		return factor{}, "", false
	}
	halves := 2
	if root > 0 {
		halves = 1
	}
	e, p, found := t.lookup(name)
	if !found && root == 0 {
		for _, word := range []string{"sqrt", "rt"} {
			if rest, cut := strings.CutPrefix(name, word); cut {
				if e, p, found = t.lookup(rest); found {
					halves = 1
					break
				}
			}
		}
	}
	full := s[:root] + name
	if !found {
		return factor{}, full, false
	}
	f = factor{unit: e.unit, prefix: p, symbol: e.unit.Symbol, halves: halves}
	if p != nil {
		f.symbol = p.symbol + f.symbol
	}
	return f, full, true
}

// power reads ^2, ^-1, ^0.5, ² or ⁻¹ at the start of s, in halves.
func power(s string) (halves, n int, ok bool) {
	if strings.HasPrefix(s, "^") {
		i := 1
		if i < len(s) && s[i] == '-' {
			i++
		}
		j := i
		for j < len(s) && isDigit(s[j]) {
			j++
		}
		if j == i {
			return 0, 0, false
		}
		half := 0
		whole, err := strconv.Atoi(s[i:j])
		if strings.HasPrefix(s[j:], ".5") && (j+2 == len(s) || !isDigit(s[j+2])) {
			half, j = 1, j+2
		}
		if err != nil || whole > 61 {
			whole = 61 // the exponent check refuses it with the unit's name
		}
		halves = 2*whole + half
		if s[1] == '-' {
			halves = -halves
		}
		return halves, j, true
	}
	value, digits := 0, 0
	neg := strings.HasPrefix(s, "⁻")
	if neg {
		n = len("⁻")
	}
	for n < len(s) {
		r, w := utf8.DecodeRuneInString(s[n:])
		d := -1
		for i, sup := range []rune(superscripts) {
			if r == sup {
				d = i
			}
		}
		if d < 0 {
			break
		}
		value = min(value*10+d, 61)
		digits++
		n += w
	}
	if digits == 0 {
		return 0, 0, false
	}
	if neg {
		value = -value
	}
	return 2 * value, n, true
}

// read reads a unit from r.pos on; sign is -1 below a fraction stroke.
func (r *unitReader) read(sign int) error {
	stroke := false
	n := 0
	for first := true; ; first = false {
		at := r.pos
		s := sign
		if !first {
			w := 1
			switch {
			case strings.HasPrefix(r.s[at:], "/"):
				s = -sign
			case strings.HasPrefix(r.s[at:], "*"):
			case strings.HasPrefix(r.s[at:], "·"):
				w = len("·")
			case strings.HasPrefix(r.s[at:], "⋅"):
				w = len("⋅")
			default:
				return nil
			}
			if r.literal && w == 1 && !r.unitFollows(at+w) {
				return nil // Go's own operator: · is none
			}
			if s == sign && stroke {
				_, name, _ := r.t.symbol(r.s[at+w:])
				before := r.s[r.start:at]
				return &Error{"the unit " + cut(before+r.s[at:at+w]+name) + " can be read in two ways",
					"write every unit of the denominator behind a stroke of its own, as in W/m/K, or those of the numerator first"}
			}
			stroke = stroke || s != sign
			r.pos = at + w
		}
		if !r.literal && r.group() {
			if err := r.read(s); err != nil {
				return err
			}
			if !strings.HasPrefix(r.s[r.pos:], ")") {
				return &Error{"the unit " + cut(r.text()) + " lacks a closing bracket", "write for instance W/(m·K)"}
			}
			r.pos++
			continue
		}
		if first && !r.literal && strings.HasPrefix(r.s[r.pos:], "1/") {
			r.pos++
			continue
		}
		f, name, ok := r.t.symbol(r.s[r.pos:])
		if !ok {
			return r.t.unknown(name, r.s[r.pos:])
		}
		r.idents = append(r.idents, UnitIdent{Name: strings.TrimPrefix(name, "√"), Offset: r.pos + len(name) - len(strings.TrimPrefix(name, "√"))})
		r.pos += len(name)
		if halves, w, ok := power(r.s[r.pos:]); ok {
			if f.halves == 1 {
				return &Error{"a power of a root such as " + name + " is not read", "write the exponent once, as in Hz^0.5"}
			}
			f.halves = f.halves * halves / 2
			r.pos += w
		}
		f.halves *= s
		// Beyond this exact arithmetic on the size of the unit takes long.
		if r.total += max(f.halves, -f.halves); r.total > 120 {
			return &Error{"the unit " + cut(r.text()) + " has too large an exponent", "no quantity has a power beyond 60"}
		}
		if f.halves != 0 {
			r.factors = append(r.factors, f)
		}
		if n++; n > 16 {
			return &Error{"the unit " + cut(r.text()) + " has too many factors", "no quantity has more than a few"}
		}
	}
}

// text is the unit as far as it was read.
func (r *unitReader) text() string { return r.s[r.start:r.pos] }

// group steps over an opening bracket.
func (r *unitReader) group() bool {
	if strings.HasPrefix(r.s[r.pos:], "(") && strings.Count(r.s[:r.pos], "(") < 8 {
		r.pos++
		return true
	}
	return false
}

// unitFollows reports whether a unit symbol, and nothing that makes it a
// name of the note, starts at i: V is a unit, V(, V. and V[ are not.
func (r *unitReader) unitFollows(i int) bool {
	_, name, ok := r.t.symbol(r.s[i:])
	if !ok {
		return false
	}
	rest := r.s[i+len(name):]
	return rest == "" || !strings.ContainsAny(rest[:1], "([.{")
}

// factors reads a whole string as a unit; "" and "1" have none.
func (t *table) factors(s string) ([]factor, error) {
	if s == "" || s == "1" {
		return nil, nil
	}
	r := unitReader{t: t, s: s}
	if err := r.read(1); err != nil {
		return nil, err
	}
	if r.pos < len(s) {
		if identAt(s[r.pos:]) == "" {
			return nil, &Error{"the unit " + cut(s) + " has " + quoteRune(s[r.pos:]) + " where no unit stands", "write a unit such as mV, K/W or kg*m^2"}
		}
		return nil, &Error{"the unit " + cut(s) + " has no sign between its parts", "write · or * or / between them"}
	}
	return r.factors, nil
}

// parseUnit reads a whole string as a unit.
func (t *table) parseUnit(s string) (*Unit, error) {
	fs, err := t.factors(s)
	if err != nil {
		return nil, err
	}
	return compose(fs)
}

func quoteRune(s string) string {
	r, _ := utf8.DecodeRuneInString(s)
	return strconv.Quote(string(r))
}
