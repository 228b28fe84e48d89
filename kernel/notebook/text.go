package notebook

import (
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// text reads a string with its quotes. JSON may hold halves of surrogate pairs
// (Python writes them); they become the three bytes that UTF-8 would give them,
// which writeText turns back into an escape, so that nothing is lost.
func (p *parser) text() (string, *Error) {
	start := p.pos + 1
	p.pos = start
	// Most strings have no escapes and need no copy.
	for p.pos < len(p.src) && p.src[p.pos] >= 0x20 && p.src[p.pos] != '"' && p.src[p.pos] != '\\' {
		p.pos++
	}
	if p.peek() == '"' {
		p.pos++
		return p.src[start : p.pos-1], nil
	}
	out := []byte(p.src[start:p.pos])
	for p.pos < len(p.src) {
		switch c := p.src[p.pos]; {
		case c == '"':
			p.pos++
			return string(out), nil
		case c < 0x20:
			return "", errorAt(p.src, p.pos, `write it as an escape such as \n`, "a text in quotes holds the control character U+%04X", c)
		case c != '\\':
			out = append(out, c)
			p.pos++
		default:
			var err *Error
			if out, err = p.escape(out); err != nil {
				return "", err
			}
		}
	}
	line, column := position(p.src, start-1)
	return "", p.truncated("in the text that begins at line " + strconv.Itoa(line) + ", column " + strconv.Itoa(column))
}

// escape reads what a backslash introduces and appends it.
func (p *parser) escape(out []byte) ([]byte, *Error) {
	at := p.pos
	if at+1 >= len(p.src) {
		p.pos = len(p.src)
		return nil, p.truncated("in an escape")
	}
	c := p.src[at+1]
	p.pos += 2
	if i := strings.IndexByte(`"\/bfnrt`, c); i >= 0 {
		return append(out, "\"\\/\b\f\n\r\t"[i]), nil
	}
	if c != 'u' {
		r, _ := utf8.DecodeRuneInString(p.src[at+1:])
		return nil, errorAt(p.src, at, `write \\ for a backslash`, "not valid JSON: %s is not an escape", quote(`\`+string(r)))
	}
	r, ok := p.hex4()
	if !ok {
		if len(p.src)-p.pos < 4 {
			p.pos = len(p.src)
			return nil, p.truncated("in an escape")
		}
		return nil, errorAt(p.src, at, "", `not valid JSON: \u needs four hexadecimal digits`)
	}
	if utf16.IsSurrogate(r) {
		mark := p.pos
		if p.word(`\u`) {
			if low, ok := p.hex4(); ok {
				if whole := utf16.DecodeRune(r, low); whole != utf8.RuneError {
					return utf8.AppendRune(out, whole), nil
				}
			}
		}
		p.pos = mark
		return append(out, 0xE0|byte(r>>12), 0x80|byte(r>>6)&0x3F, 0x80|byte(r)&0x3F), nil
	}
	return utf8.AppendRune(out, r), nil
}

func (p *parser) hex4() (rune, bool) {
	if len(p.src)-p.pos < 4 {
		return 0, false
	}
	var r rune
	for _, c := range []byte(p.src[p.pos : p.pos+4]) {
		switch {
		case c >= '0' && c <= '9':
			r = r<<4 | rune(c-'0')
		case c >= 'a' && c <= 'f':
			r = r<<4 | rune(c-'a'+10)
		case c >= 'A' && c <= 'F':
			r = r<<4 | rune(c-'A'+10)
		default:
			return 0, false
		}
	}
	p.pos += 4
	return r, true
}

// halfPair decodes half a surrogate pair as parser.text keeps it.
func halfPair(s string) (rune, bool) {
	if len(s) >= 3 && s[0] == 0xED && s[1] >= 0xA0 && s[1] <= 0xBF && s[2]&0xC0 == 0x80 {
		return 0xD000 | rune(s[1]&0x3F)<<6 | rune(s[2]&0x3F), true
	}
	return 0, false
}

// joinHalves makes characters of halves that joining lines has brought together.
func joinHalves(s string) string {
	if utf8.ValidString(s) {
		return s
	}
	var b strings.Builder
	for i := 0; i < len(s); {
		high, ok := halfPair(s[i:])
		if ok {
			if low, ok := halfPair(s[i+3:]); ok {
				if whole := utf16.DecodeRune(high, low); whole != utf8.RuneError {
					b.WriteRune(whole)
					i += 6
					continue
				}
			}
		}
		b.WriteByte(s[i])
		i++
	}
	return b.String()
}

const hexDigits = "0123456789abcdef"

// writeText writes a string in quotes as Python's json module does with
// ensure_ascii off: only quotes, backslashes and control characters escaped.
func writeText(b *strings.Builder, s string) {
	b.WriteByte('"')
	done := 0 // what stands before needs no escape, or is written
	for i := 0; i < len(s); i++ {
		c := s[i]
		if c >= 0x20 && c != '"' && c != '\\' && c != 0xED {
			continue
		}
		if c == 0xED { // halves of pairs begin with it, and some whole characters
			if r, half := halfPair(s[i:]); half {
				b.WriteString(s[done:i])
				writeEscape(b, r)
				done = i + 3
				i += 2
			}
			continue
		}
		b.WriteString(s[done:i])
		done = i + 1
		if k := strings.IndexByte("\"\\\b\f\n\r\t", c); k >= 0 {
			b.WriteByte('\\')
			b.WriteByte(`"\bfnrt`[k])
		} else {
			writeEscape(b, rune(c))
		}
	}
	b.WriteString(s[done:])
	b.WriteByte('"')
}

func writeEscape(b *strings.Builder, r rune) {
	b.WriteString(`\u`)
	for shift := 12; shift >= 0; shift -= 4 {
		b.WriteByte(hexDigits[r>>shift&0xF])
	}
}

// quote shows a piece of the file in a message.
func quote(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "…"
	}
	return strconv.Quote(s)
}

// valid gives text as the rest of the program may see it: UTF-8 throughout.
func valid(s string) string { return strings.ToValidUTF8(s, "\uFFFD") }

// splitLines cuts text where Python's str.splitlines(True) does, which the
// format's reference writer uses: the ends stay with their lines.
func splitLines(s string) []string {
	var lines []string
	start := 0
	for i := 0; i < len(s); {
		r, size := utf8.DecodeRuneInString(s[i:])
		i += size
		switch r {
		case '\r':
			if i < len(s) && s[i] == '\n' {
				i++
			}
		case '\n', '\v', '\f', 0x1C, 0x1D, 0x1E, 0x85, 0x2028, 0x2029:
		default:
			continue
		}
		lines = append(lines, s[start:i])
		start = i
	}
	if start < len(s) {
		lines = append(lines, s[start:])
	}
	return lines
}

// spellNumber writes a JSON number as Python does after reading it: whole
// numbers digit by digit, others as repr(float), so that a save in a front end
// leaves no difference. A number too large for float64 stays as it is.
func spellNumber(s string) string {
	if !strings.ContainsAny(s, ".eE") {
		if s == "-0" {
			return "0"
		}
		return s
	}
	f, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return s
	}
	scientific := strconv.FormatFloat(f, 'e', -1, 64)
	exponent, err := strconv.Atoi(scientific[strings.IndexByte(scientific, 'e')+1:])
	if err != nil || exponent < -4 || exponent >= 16 {
		return scientific
	}
	plain := strconv.FormatFloat(f, 'f', -1, 64)
	if !strings.Contains(plain, ".") {
		plain += ".0"
	}
	return plain
}
