package render

import "strings"

// hard is a space at which a line must not be broken: 10 kΩ. The last step
// of every text turns it into an ordinary one.
const hard = "\u00a0"

func spaced(s string) string { return strings.ReplaceAll(s, hard, " ") }

// writePlain writes n as a line of text, with hard spaces inside quantities.
func writePlain(n node) string {
	var b strings.Builder
	plain(&b, n)
	return b.String()
}

func plain(b *strings.Builder, n node) {
	switch n := n.(type) {
	case *ident:
		b.WriteString(n.typed)
	case *number:
		b.WriteString(n.text)
	case *quantity:
		b.WriteString(n.number)
		if n.unit != "%" && strings.HasPrefix(n.unit, "%") {
			b.WriteString(n.unit)
			return
		}
		b.WriteString(hard + strings.ReplaceAll(n.unit, " ", hard))
	case *words:
		if strings.HasPrefix(n.text, ":") {
			b.WriteString(":" + hard) // a key stays with its value
			return
		}
		b.WriteString(n.text)
	case *verbatim:
		b.WriteString(n.text)
	case *function:
		b.WriteString(n.name + n.base)
	case *sign:
		switch {
		case n.text == ",":
			b.WriteString(", ")
		case n.space:
			// A line breaks before an operator, not behind it.
			b.WriteString(" " + n.text + hard)
		default:
			b.WriteString(n.text)
		}
	case *row:
		for _, p := range n.parts {
			plain(b, p)
		}
	case *fence:
		b.WriteString(n.open)
		plain(b, n.body)
		b.WriteString(n.close)
	case *fraction: // not built for a line of text
		plain(b, n.num)
		b.WriteString("/")
		plain(b, n.den)
	case *power:
		plain(b, n.base)
		exponent := writePlain(n.exponent)
		if up, ok := superscript(exponent); ok {
			b.WriteString(up)
		} else {
			b.WriteString("^" + exponent)
		}
	case *root:
		b.WriteString("√")
		plain(b, n.body)
	}
}

// superscript raises a whole number: −2 → ⁻².
func superscript(s string) (string, bool) {
	var b strings.Builder
	for i, r := range s {
		switch {
		case r == '−' && i == 0:
			b.WriteRune('⁻')
		case r >= '0' && r <= '9':
			b.WriteRune([]rune("⁰¹²³⁴⁵⁶⁷⁸⁹")[r-'0'])
		default:
			return "", false
		}
	}
	return b.String(), b.Len() > 0
}
