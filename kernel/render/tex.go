package render

import (
	"strings"
	"unicode"
)

// writeTeX writes n as TeX that both MathJax and LaTeX with amsmath read.
func writeTeX(n node) string {
	var b strings.Builder
	tex(&b, n)
	return b.String()
}

// texSigns are operators with a command; all others stand for themselves.
// MathJax sets a space behind a full stop that is not text, in braces too.
var texSigns = map[string]string{
	"·": `\cdot`, "−": "-", "∥": `\parallel`, "≤": `\le`, "≥": `\ge`, "≠": `\ne`, "±": `\pm`,
	"and": `\;\text{and}\;`, "or": `\;\text{or}\;`, "mod": `\bmod`, "xor": `\mathbin{\text{xor}}`,
	"&": `\mathbin{\&}`, "|": `\mathbin{|}`, "<<": `\mathbin{\text{<<}}`, ">>": `\mathbin{\text{>>}}`,
	"&^": `\mathbin{\&\hat{\ }}`, ".": `\text{.}`,
}

var texFunctions = map[string]string{
	"exp": `\exp`, "ln": `\ln`, "log": `\log`, "min": `\min`, "max": `\max`,
	"sin": `\sin`, "cos": `\cos`, "tan": `\tan`, "arctan": `\arctan`,
}

var texGreek = map[string]string{
	"α": `\alpha`, "β": `\beta`, "γ": `\gamma`, "δ": `\delta`, "ε": `\varepsilon`, "ζ": `\zeta`,
	"η": `\eta`, "θ": `\theta`, "ι": `\iota`, "κ": `\kappa`, "λ": `\lambda`, "μ": `\mu`, "ν": `\nu`,
	"ξ": `\xi`, "π": `\pi`, "ρ": `\rho`, "σ": `\sigma`, "τ": `\tau`, "φ": `\varphi`, "χ": `\chi`,
	"ψ": `\psi`, "ω": `\omega`, "Γ": `\Gamma`, "Δ": `\Delta`, "Θ": `\Theta`, "Λ": `\Lambda`,
	"Ξ": `\Xi`, "Π": `\Pi`, "Σ": `\Sigma`, "Φ": `\Phi`, "Ψ": `\Psi`, "Ω": `\Omega`,
}

func tex(b *strings.Builder, n node) {
	switch n := n.(type) {
	case *ident:
		texIdent(b, n)
	case *number:
		b.WriteString(texNumber(n.text))
	case *quantity:
		// Not `\,`: MathJax 2, and so the classic notebook, breaks lines there.
		b.WriteString(texNumber(n.number) + `\ ` + texUnit(n.unit))
	case *words:
		b.WriteString(texText("text", n.text))
	case *verbatim:
		b.WriteString(texText("texttt", n.text))
	case *function:
		f, known := texFunctions[n.name]
		pkg, name, qualified := strings.Cut(n.name, ".")
		switch {
		case known:
			b.WriteString(f)
		case qualified: // \operatorname would set spaces around the full stop
			b.WriteString(texUpright(pkg) + texSigns["."] + texUpright(name))
		default:
			b.WriteString(`\operatorname{` + strings.ReplaceAll(n.name, "_", `\_`) + "}")
		}
		if n.base != "" {
			b.WriteString("_{" + n.base + "}")
		}
	case *sign:
		text, ok := texSigns[n.text]
		if !ok {
			text = n.text
		}
		switch {
		case n.text == ",":
			b.WriteString(", ")
		case n.space:
			b.WriteString(" " + text + " ")
		default:
			b.WriteString(text)
		}
	case *row:
		for _, p := range n.parts {
			tex(b, p)
		}
	case *fence:
		open, end := n.open, n.close
		if open == "{" {
			open, end = `\{`, `\}`
		}
		b.WriteString(`\left` + open)
		tex(b, n.body)
		b.WriteString(`\right` + end)
	case *fraction:
		b.WriteString(`\frac{`)
		tex(b, n.num)
		b.WriteString("}{")
		tex(b, n.den)
		b.WriteString("}")
	case *power:
		b.WriteString("{")
		tex(b, n.base)
		b.WriteString("}^{")
		tex(b, n.exponent)
		b.WriteString("}")
	case *root:
		b.WriteString(`\sqrt{`)
		tex(b, n.body)
		b.WriteString("}")
	}
}

func texIdent(b *strings.Builder, n *ident) {
	if n.qualifier != "" {
		b.WriteString(texUpright(n.qualifier) + texSigns["."])
	}
	s := n.sym
	if s.prefix != "" {
		b.WriteString(texGreek[s.prefix] + " ")
	}
	command, isGreek := texGreek[s.base]
	switch {
	case isGreek:
		b.WriteString(command)
	case s.word:
		b.WriteString(texUpright(s.base))
	default:
		b.WriteString(s.base)
	}
	if s.sub != "" {
		b.WriteString("_{" + texUpright(s.sub) + "}")
	}
}

// texUpright sets a word upright; digits alone are upright as they are.
func texUpright(s string) string {
	if strings.Trim(s, "0123456789") == "" {
		return s
	}
	for _, r := range s {
		if r > unicode.MaxASCII {
			return texText("text", s)
		}
	}
	return `\mathrm{` + strings.ReplaceAll(s, "_", `\_`) + "}"
}

// texNumber writes 1e-3 as a product with a power of ten, held together.
func texNumber(s string) string {
	m, e, ok := mantissa(s)
	if !ok {
		return s
	}
	return "{" + m + ` \times 10^{` + e + "}}"
}

// mantissa parts 1.5e-3; hexadecimal numbers have none.
func mantissa(s string) (m, e string, ok bool) {
	if strings.HasPrefix(s, "0x") || strings.HasPrefix(s, "0X") {
		return "", "", false
	}
	m, e, ok = strings.Cut(strings.ToLower(s), "e")
	return m, strings.TrimPrefix(e, "+"), ok
}

// texUnit writes a unit symbol upright. Letters go into \mathrm; the micro
// sign into \text, because \mu is always slanted.
func texUnit(u string) string {
	var b strings.Builder
	letters := ""
	flush := func() {
		if letters != "" {
			b.WriteString(`\mathrm{` + letters + "}")
			letters = ""
		}
	}
	runes := []rune(u)
	for i := 0; i < len(runes); i++ {
		r := runes[i]
		switch {
		case r == 'Ω':
			flush()
			b.WriteString(`\Omega `)
		case r == 'µ' || r == 'μ':
			flush()
			b.WriteString(`\text{µ}`)
		case r == '°':
			flush()
			b.WriteString(`{}^{\circ}`)
		case r == '%':
			flush()
			b.WriteString(`\%`)
		case r == '·':
			flush()
			b.WriteString(`\cdot `)
		case r == '√':
			flush()
			j := i + 1
			for j < len(runes) && unicode.IsLetter(runes[j]) {
				j++
			}
			b.WriteString(`\sqrt{` + texUnit(string(runes[i+1:j])) + "}")
			i = j - 1
		case strings.ContainsRune("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", r):
			flush()
			j := i
			for j < len(runes) && strings.ContainsRune("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", runes[j]) {
				j++
			}
			b.WriteString("^{" + lowered(string(runes[i:j])) + "}")
			i = j - 1
		case unicode.IsLetter(r) && r <= unicode.MaxASCII:
			letters += string(r)
		case r == '/' || r == '(' || r == ')' || r >= '0' && r <= '9' || r == '^' || r == '-' || r == '.':
			flush()
			b.WriteRune(r)
		default:
			flush()
			b.WriteString(texText("text", string(r)))
		}
	}
	flush()
	return strings.TrimSpace(b.String())
}

// lowered is the number that stands in superscript digits.
func lowered(s string) string {
	return strings.NewReplacer("⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4",
		"⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9", "⁻", "-").Replace(s)
}

// texSpecials are characters that mean something to TeX, in mathematics.
// They stand outside \text: inside, LaTeX wants \% and MathJax shows it.
var texSpecials = map[rune]string{
	'$': `\$`, '%': `\%`, '#': `\#`, '&': `\&`, '_': `\_`, '{': `\{`, '}': `\}`,
	'\\': `\backslash `, '~': `\sim `, '^': `\hat{\ }`,
}

// texText sets any text upright in the font of command, text or texttt.
func texText(command, s string) string {
	var b strings.Builder
	open := false // inside the braces of command
	brace := func(want bool) {
		switch {
		case want && !open:
			b.WriteString(`\` + command + "{")
		case !want && open:
			b.WriteString("}")
		}
		open = want
	}
	for _, r := range visible(s) {
		if special, ok := texSpecials[r]; ok {
			brace(false)
			b.WriteString(special)
			continue
		}
		if r == '\n' || r == '\t' {
			r = ' '
		}
		brace(true)
		b.WriteRune(r)
	}
	brace(false)
	return b.String()
}
