package cell

import (
	"errors"
	"strings"
	"unicode"
	"unicode/utf8"

	"ohmwright/units"
)

// A cell is Go with two things added, quantity literals and ±. The scan turns
// both into ordinary Go of the same length: a literal becomes an identifier,
// ± becomes an operator that quantities do not have. So every offset in what
// the parser sees is the offset in what the user typed, and no position needs
// translating.

// reserved starts every identifier that the scan or the checker makes up. It
// is two bytes long, as the shortest literal is (5V).
const reserved = "ƣ"

// literal is a quantity literal as it stands in the source.
type literal struct {
	start, end int // bytes
	value      units.Quantity
	text       string // as typed, where it does not stand in the cell (an override)
}

// scanned is the source with its additions turned into Go.
type scanned struct {
	text       string // same length as the source
	literals   map[int]literal
	tolerances map[int]bool // offsets of ± and +/-
}

// typographic signs that people paste from documents, and the Go for them.
var typographic = []struct{ sign, code string }{
	{"−", "-"}, {"·", "*"}, {"×", "*"}, {"≤", "<="}, {"≥", ">="}, {"≠", "!="},
}

// scan finds the literals and tolerances of a cell.
func scan(src string) (*scanned, []problem) {
	s := &scanned{literals: map[int]literal{}, tolerances: map[int]bool{}}
	var out strings.Builder
	out.Grow(len(src))
	var problems []problem
	keep := func(n int, i *int) { out.WriteString(src[*i : *i+n]); *i += n }
	replace := func(with string, n int, i *int) {
		out.WriteString(with)
		out.WriteString(strings.Repeat(" ", n-len(with)))
		*i += n
	}
	for i := 0; i < len(src); {
		rest := src[i:]
		c := rest[0]
		switch {
		case strings.HasPrefix(rest, "//"):
			n := strings.IndexByte(rest, '\n')
			if n < 0 {
				n = len(rest)
			}
			keep(n, &i)
		case strings.HasPrefix(rest, "/*"):
			n := strings.Index(rest, "*/")
			if n < 0 {
				n = len(rest)
			} else {
				n += 2
			}
			keep(n, &i)
		case c == '"' || c == '\'' || c == '`':
			keep(quoted(rest), &i)
		case strings.HasPrefix(rest, reserved):
			problems = append(problems, problem{at: i, code: CodeSyntax, msg: "a name cannot contain " + reserved, hint: "the program keeps this letter for itself, use another"})
			keep(word(rest), &i)
		case isLetter(rest):
			n := word(rest)
			if strings.Contains(rest[:n], reserved) {
				problems = append(problems, problem{at: i, code: CodeSyntax, msg: "a name cannot contain " + reserved, hint: "the program keeps this letter for itself, use another"})
			}
			keep(n, &i)
		case c == '.' && i > 0 && len(rest) > 1 && isDigit(rest[1]) && endsWord(src[:i]):
			keep(goNumber(rest), &i) // a.5 is no selection: the parser says so
		case isDigit(c) || c == '.' && len(rest) > 1 && isDigit(rest[1]):
			q, n, err := units.ScanLiteral(rest)
			var bad *units.LiteralError
			switch {
			case errors.As(err, &bad) && rest[:max(bad.Len, 1)] == rest[:goNumber(rest)] && strings.HasSuffix(rest[:goNumber(rest)], "i"):
				problems = append(problems, problem{at: i, code: CodeRefused, msg: "complex numbers are not available in cells", hint: "work with magnitude and phase"})
				replace("1", goNumber(rest), &i)
			case errors.As(err, &bad):
				problems = append(problems, problem{at: i, code: CodeLiteral, msg: bad.Msg, hint: bad.Hint})
				n = max(bad.Len, 1)
				replace("1", n, &i)
			case err != nil:
				problems = append(problems, problem{at: i, code: CodeLiteral, msg: err.Error()})
				keep(goNumber(rest), &i)
			case n == 0:
				keep(goNumber(rest), &i)
			default:
				if n < len(rest) && (isDigit(rest[n]) || isLetter(rest[n:])) {
					problems = append(problems, problem{at: i, code: CodeLiteral, msg: rest[:n] + " is followed by " + rest[n:n+max(word(rest[n:]), 1)] + " without a space or an operator",
						hint: "write an operator between them"})
				}
				s.literals[i] = literal{start: i, end: i + n, value: q}
				out.WriteString(reserved)
				out.WriteString(strings.Repeat("_", n-len(reserved)))
				i += n
			}
		case strings.HasPrefix(rest, "±"):
			s.tolerances[i] = true
			replace("&^", len("±"), &i)
		case strings.HasPrefix(rest, "+/-"):
			s.tolerances[i] = true
			replace("&^", len("+/-"), &i)
		case notTolerance(src[:i], rest):
			problems = append(problems, problem{at: i, code: CodeSyntax, msg: "+- is no tolerance: Go reads it as plus a negative value",
				hint: "write ± or +/-, as in 10kΩ ± 1%; with a space, a + -b, for the sum"})
			keep(1, &i)
		default:
			found := false
			for _, t := range typographic {
				if strings.HasPrefix(rest, t.sign) {
					replace(t.code, len(t.sign), &i)
					found = true
					break
				}
			}
			if !found {
				r, n := utf8.DecodeRuneInString(rest)
				if unicode.IsDigit(r) { // of another script: no number and no name, the parser says so
					n = word(rest)
				}
				keep(n, &i)
			}
		}
	}
	s.text = out.String()
	return s, problems
}

// problem is an error at a byte offset of the source.
type problem struct {
	at        int
	code      Code
	msg, hint string
}

// notTolerance reports whether a +- stands where people write ±, which Go would
// take for a subtraction: beside a space, or before a value with a unit.
func notTolerance(before, rest string) bool {
	after, ok := strings.CutPrefix(rest, "+-")
	if !ok {
		if after, ok = strings.CutPrefix(rest, "+−"); !ok {
			return false
		}
	}
	if before != strings.TrimRight(before, " \t") || after != strings.TrimLeft(after, " \t") {
		return true
	}
	_, n, err := units.ScanLiteral(after)
	return n > 0 || err != nil
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

func isLetter(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return r == '_' || unicode.IsLetter(r)
}

// endsWord reports whether s ends in a letter, a digit or an underscore.
func endsWord(s string) bool {
	r, _ := utf8.DecodeLastRuneInString(s)
	return r == '_' || unicode.IsLetter(r) || unicode.IsDigit(r)
}

// word is the length of the identifier at the start of s.
func word(s string) int {
	for i, r := range s {
		if r != '_' && !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			return i
		}
	}
	return len(s)
}

// quoted is the length of the string or rune literal at the start of s; an
// unfinished one ends at its line, where the parser will say so.
func quoted(s string) int {
	q := s[0]
	for i := 1; i < len(s); i++ {
		switch {
		case s[i] == q:
			return i + 1
		case q == '`':
		case s[i] == '\\' && i+1 < len(s):
			i++
		case s[i] == '\n':
			return i
		}
	}
	return len(s)
}

// goNumber is the length of the ordinary Go number at the start of s.
func goNumber(s string) int {
	hex := len(s) > 1 && s[0] == '0' && (s[1] == 'x' || s[1] == 'X')
	for i := 0; i < len(s); i++ {
		c := s[i]
		switch {
		case isDigit(c) || c == '.' || c == '_' || 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z':
		case (c == '+' || c == '-') && i > 0 && (!hex && (s[i-1] == 'e' || s[i-1] == 'E') || hex && (s[i-1] == 'p' || s[i-1] == 'P')):
		default:
			return max(i, 1)
		}
	}
	return len(s)
}

// isMade reports whether an identifier came from the scan or the checker.
func isMade(name string) bool { return strings.HasPrefix(name, reserved) }
