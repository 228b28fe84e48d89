package render

import (
	"strings"
	"unicode/utf8"
)

// writeMathML writes n as a MathML Core element.
func writeMathML(n node) string {
	var b strings.Builder
	b.WriteString(`<math xmlns="http://www.w3.org/1998/Math/MathML" displaystyle="true">`)
	mathML(&b, n)
	b.WriteString("</math>")
	return b.String()
}

func mathML(b *strings.Builder, n node) {
	switch n := n.(type) {
	case *ident:
		mathIdent(b, n)
	case *number:
		mathNumber(b, n.text)
	case *quantity:
		b.WriteString("<mrow>")
		mathNumber(b, n.number)
		b.WriteString(`<mspace width="0.17em"/><mtext>` + escape(n.unit) + "</mtext></mrow>")
	case *words:
		// White space at the ends of an mtext is dropped unless it is hard.
		b.WriteString("<mtext>" + escape(strings.ReplaceAll(n.text, " ", hard)) + "</mtext>")
	case *verbatim:
		b.WriteString("<mtext>" + escape(n.text) + "</mtext>")
	case *function:
		if n.base != "" {
			b.WriteString("<msub>")
		}
		b.WriteString("<mi>" + escape(n.name) + "</mi>")
		if n.base != "" {
			b.WriteString("<mn>" + n.base + "</mn></msub>")
		}
		b.WriteString("<mo>\u2061</mo>") // function application, invisible
	case *sign:
		mathSign(b, n)
	case *row:
		b.WriteString("<mrow>")
		for _, p := range n.parts {
			mathML(b, p)
		}
		b.WriteString("</mrow>")
	case *fence:
		b.WriteString(`<mrow><mo form="prefix" stretchy="true">` + n.open + "</mo>")
		mathML(b, n.body)
		b.WriteString(`<mo form="postfix" stretchy="true">` + n.close + "</mo></mrow>")
	case *fraction:
		mathPair(b, "mfrac", n.num, n.den)
	case *power:
		mathPair(b, "msup", n.base, n.exponent)
	case *root:
		b.WriteString("<msqrt>")
		mathML(b, n.body)
		b.WriteString("</msqrt>")
	}
}

// mathPair writes an element of exactly two children.
func mathPair(b *strings.Builder, element string, x, y node) {
	b.WriteString("<" + element + ">")
	mathML(b, x)
	mathML(b, y)
	b.WriteString("</" + element + ">")
}

func mathSign(b *strings.Builder, n *sign) {
	switch {
	case n.text == ",":
		b.WriteString(`<mo separator="true">,</mo>`)
	case n.text == ".":
		b.WriteString(`<mo lspace="0" rspace="0">.</mo>`)
	case n.space && len(n.text) > 1 && n.text[0] < utf8.RuneSelf:
		b.WriteString("<mtext>" + escape(hard+n.text+hard) + "</mtext>")
	default:
		b.WriteString("<mo>" + escape(n.text) + "</mo>")
	}
}

func mathIdent(b *strings.Builder, n *ident) {
	if n.qualifier != "" {
		b.WriteString("<mrow>" + upright(n.qualifier) + `<mo lspace="0" rspace="0">.</mo>`)
		defer b.WriteString("</mrow>")
	}
	s := n.sym
	if s.prefix != "" {
		b.WriteString("<mrow>" + upright(s.prefix))
		defer b.WriteString("</mrow>")
	}
	base := "<mi>" + escape(s.base) + "</mi>" // one letter is slanted, several are upright
	if s.word {
		base = upright(s.base)
	}
	if s.sub == "" {
		b.WriteString(base)
		return
	}
	sub := upright(s.sub)
	if strings.Trim(s.sub, "0123456789") == "" {
		sub = "<mn>" + s.sub + "</mn>"
	}
	b.WriteString("<msub>" + base + sub + "</msub>")
}

func upright(s string) string {
	if utf8.RuneCountInString(s) == 1 {
		return `<mi mathvariant="normal">` + escape(s) + "</mi>"
	}
	return "<mi>" + escape(s) + "</mi>"
}

func mathNumber(b *strings.Builder, s string) {
	m, e, ok := mantissa(s)
	if !ok {
		b.WriteString("<mn>" + escape(s) + "</mn>")
		return
	}
	e, negative := strings.CutPrefix(e, "-")
	b.WriteString("<mrow><mn>" + m + "</mn><mo>×</mo><msup><mn>10</mn>")
	if negative {
		b.WriteString("<mrow><mo>−</mo><mn>" + e + "</mn></mrow>")
	} else {
		b.WriteString("<mn>" + e + "</mn>")
	}
	b.WriteString("</msup></mrow>")
}
