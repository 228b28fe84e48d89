package cell

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"ohmwright/units"
)

// piece is what stands at a place of a cell that is being typed, whose text
// may be wrong everywhere.
type piece struct {
	kind       pieceKind
	start, end int // bytes
	closed     bool
}

type pieceKind int

const (
	pieceOther   pieceKind = iota // between words
	pieceComment                  // a comment
	pieceString                   // a string or a character
	pieceWord                     // a name or keyword
	pieceNumber                   // a number, with its unit as far as it goes
)

// pieceAt finds the piece that the offset at stands in, or at the end of.
func pieceAt(src string, at int) piece {
	last := piece{kind: pieceOther, start: at, end: at, closed: true}
	for i := 0; i < len(src) && i <= at; {
		p := pieceFrom(src, i)
		// Behind the closing quote or bracket one is outside again.
		outside := p.closed && (p.kind == pieceString || p.kind == pieceComment)
		if p.kind != pieceOther && i < at && (at < p.end || at == p.end && !outside) {
			last = p
			if at < p.end {
				return last
			}
		}
		if p.kind == pieceNumber && at > p.end && at == p.end+isUnitSign(src[p.end:]) && !strings.ContainsRune("0123456789._", rune(src[p.end-1])) {
			return piece{kind: pieceNumber, start: i, end: at, closed: true} // 62°C/ and nothing behind it yet
		}
		if p.kind == pieceNumber && at >= p.end {
			// As the scan reads it: a unit goes on over a stroke only where a unit follows.
			p.end = i + numberLength(src[i:])
		}
		i = max(p.end, i+1)
	}
	return last
}

// pieceFrom is the piece that starts at i.
func pieceFrom(src string, i int) piece {
	rest := src[i:]
	p := piece{start: i, closed: true}
	switch c := rest[0]; {
	case strings.HasPrefix(rest, "//"):
		p.kind, p.closed = pieceComment, false // its end belongs to it
		p.end = i + len(rest)
		if n := strings.IndexByte(rest, '\n'); n >= 0 {
			p.end = i + n
		}
	case strings.HasPrefix(rest, "/*"):
		p.kind, p.end, p.closed = pieceComment, len(src), false
		if n := strings.Index(rest[2:], "*/"); n >= 0 {
			p.end, p.closed = i+2+n+2, true
		}
	case c == '"' || c == '\'' || c == '`':
		n := quoted(rest)
		p.kind, p.end = pieceString, i+n
		p.closed = n > 1 && rest[n-1] == c
	case isLetter(rest):
		p.kind, p.end = pieceWord, i+word(rest)
	case isDigit(c) || c == '.' && len(rest) > 1 && isDigit(rest[1]) && !(i > 0 && endsWord(src[:i])):
		p.kind, p.end = pieceNumber, i+literalReach(rest)
	default:
		_, n := utf8.DecodeRuneInString(rest)
		p.end = i + n
	}
	return p
}

// numberLength is what the scan would read at the start of s, which starts
// with a digit.
func numberLength(s string) int {
	if _, n, err := units.ScanLiteral(s); err == nil && n > 0 {
		return n
	}
	return goNumber(s)
}

// literalReach is how far a literal at the start of s could go: over letters
// and the signs of units, and over an operator without spaces once a unit has
// begun.
func literalReach(s string) int {
	unit := false
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		switch {
		case unicode.IsLetter(r) || strings.ContainsRune("°%‰√⁰¹²³⁴⁵⁶⁷⁸⁹⁻", r):
			unit = true
		case r == '_' || unicode.IsDigit(r) || r == '.' && !unit || r == '^' && unit:
		case unit && isUnitSign(s[i:]) > 0 && i+n < len(s) && isLetter(s[i+n:]):
		default:
			return i
		}
		i += n
	}
	return len(s)
}

// isUnitSign is the length of an operator that may join two units.
func isUnitSign(s string) int {
	for _, sign := range []string{"/", "·", "⋅", "*"} {
		if strings.HasPrefix(s, sign) && !strings.HasPrefix(s, "//") && !strings.HasPrefix(s, "/*") {
			return len(sign)
		}
	}
	return 0
}
