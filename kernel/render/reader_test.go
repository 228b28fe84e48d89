package render

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"ohmwright/units"
)

// reader reads drawn formulas and computes them. It is written from the
// conventions of mathematics and knows nothing of how they are drawn.
type reader struct {
	vals map[string]units.Quantity
	src  string
	fail func(format string, args ...any)
}

// item is an operator, or a value.
type item struct {
	op string
	q  units.Quantity
}

// compute evaluates a row: products before sums, each from the left. A sign
// may only start the row. solidus: no factor follows a solidus.
func (r *reader) compute(row []item, solidus bool) units.Quantity {
	i := 0
	next := func() units.Quantity {
		if i >= len(row) || row[i].op != "" {
			r.fail("%s: a value is missing", r.src)
		}
		i++
		return row[i-1].q
	}
	product := func(q units.Quantity) units.Quantity {
		divided := false
		for i < len(row) && (row[i].op == "*" || row[i].op == "/") {
			op := row[i].op
			if divided && solidus {
				r.fail("%s: a factor follows a solidus", r.src)
			}
			divided = op == "/"
			i++
			q = apply(op, q, next())
		}
		return q
	}
	var sum units.Quantity
	if len(row) > 0 && row[0].op == "-" {
		i++
		sum = product(next().Neg())
	} else {
		sum = product(next())
	}
	for i < len(row) {
		op := row[i].op
		if op != "+" && op != "-" {
			r.fail("%s: %q is out of place", r.src, op)
		}
		i++
		sum = apply(op, sum, product(next()))
	}
	return sum
}

func (r *reader) name(n string) units.Quantity {
	q, ok := r.vals[n]
	if !ok {
		r.fail("%s: unknown name %q", r.src, n)
	}
	return q
}

// signed applies a sign that belongs to a literal: −40 °C is one value.
func (r *reader) literal(row []item, number, unit string) []item {
	text := number + unit
	if n := len(row); n > 0 && row[n-1].op == "-" && n == 1 {
		if q, err := units.Parse("-" + text); err == nil && q.Dim().Kind() != units.PlainScale {
			return append(row[:0], item{q: q})
		}
	}
	q, err := units.Parse(text)
	if err != nil {
		r.fail("%s: %v", r.src, err)
	}
	return append(row, item{q: q})
}

// ---- a line of text

func (r *reader) text(s string) units.Quantity {
	q, rest := r.textRow(s)
	if rest != "" {
		r.fail("%s: %q is left over", r.src, rest)
	}
	return q
}

// textRow reads up to the end or a closing bracket.
func (r *reader) textRow(s string) (units.Quantity, string) {
	var row []item
	for s != "" && s[0] != ')' {
		c, size := utf8.DecodeRuneInString(s)
		switch c {
		case ' ':
			s = s[1:]
			continue
		case '+', '·', '/', '−':
			row = append(row, item{op: map[rune]string{'+': "+", '·': "*", '/': "/", '−': "-"}[c]})
			s = s[size:]
			continue
		}
		row, s = r.textAtom(row, s)
		s = r.textPower(row, s)
	}
	return r.compute(row, true), s
}

func (r *reader) textAtom(row []item, s string) ([]item, string) {
	c, size := utf8.DecodeRuneInString(s)
	switch {
	case c == '(':
		q, rest := r.textRow(s[1:])
		if rest == "" {
			r.fail("%s: a bracket is not closed", r.src)
		}
		return append(row, item{q: q}), rest[1:]
	case c == '√':
		inner, rest := r.textAtom(nil, s[size:])
		return append(row, item{q: units.Sqrt(inner[0].q)}), rest
	case c >= '0' && c <= '9':
		number, rest := cutNumber(s)
		unit, rest := cutUnit(rest)
		return r.literal(row, number, unit), rest
	case unicode.IsLetter(c) || c == '_':
		n := strings.IndexFunc(s, func(c rune) bool { return !unicode.IsLetter(c) && !(c >= '0' && c <= '9') && c != '_' })
		if n < 0 {
			n = len(s)
		}
		return append(row, item{q: r.name(s[:n])}), s[n:]
	}
	r.fail("%s: %q is no value", r.src, s)
	return row, ""
}

// textPower raises the last item of row.
func (r *reader) textPower(row []item, s string) string {
	last := &row[len(row)-1]
	const raised, flat = "⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789"
	digits := ""
	for _, c := range s {
		i := strings.IndexRune(raised, c)
		if i < 0 {
			break
		}
		digits += string(flat[utf8.RuneCountInString(raised[:i])])
	}
	if digits != "" {
		last.q = units.Pow(last.q, units.MustParse(digits).Float())
		return s[len(string([]rune(s)[:len(digits)])):]
	}
	if strings.HasPrefix(s, "^") {
		exponent, rest := r.textAtom(nil, s[1:])
		last.q = units.Pow(last.q, exponent[0].q.Float())
		return rest
	}
	return s
}

// cutNumber takes a number as Go and SI write it: 2, 0.5, 1e-3.
func cutNumber(s string) (string, string) {
	n := len(s) - len(strings.TrimLeft(s, "0123456789."))
	if n < len(s) && s[n] == 'e' {
		tail := strings.TrimPrefix(s[n+1:], "-")
		n = len(s) - len(strings.TrimLeft(tail, "0123456789"))
	}
	return s[:n], s[n:]
}

// cutUnit takes the longest unit behind a number and a space, ending where a
// word ends: that is how a reader takes it.
func cutUnit(s string) (string, string) {
	if !strings.HasPrefix(s, " ") {
		return "", s
	}
	for n := len(s); n > 1; n-- {
		if !utf8.ValidString(s[1:n]) || strings.ContainsAny(s[1:n], " ()+−") {
			continue
		}
		if c, _ := utf8.DecodeRuneInString(s[n:]); unicode.IsLetter(c) || c >= '0' && c <= '9' || c == '_' {
			continue
		}
		if _, err := units.Parse("1" + s[1:n]); err == nil && s[1] != '/' && s[1:n] != "" && !strings.HasSuffix(s[1:n], "/") {
			return s[1:n], s[n:]
		}
	}
	return "", s
}

// ---- TeX

func (r *reader) tex(s string) units.Quantity {
	var row []item
	for s != "" {
		switch {
		case s[0] == ' ':
			s = s[1:]
		case s[0] == '+' || s[0] == '-':
			row = append(row, item{op: s[:1]})
			s = s[1:]
		case strings.HasPrefix(s, `\cdot`):
			row = append(row, item{op: "*"})
			s = s[len(`\cdot`):]
		case strings.HasPrefix(s, `\frac`):
			num, rest := group(s[len(`\frac`):])
			den, rest := group(rest)
			row = append(row, item{q: r.tex(num).Div(r.tex(den))})
			s = rest
		case strings.HasPrefix(s, `\sqrt`):
			body, rest := group(s[len(`\sqrt`):])
			row = append(row, item{q: units.Sqrt(r.tex(body))})
			s = rest
		case strings.HasPrefix(s, `\left(`):
			body, rest := r.fenced(s)
			row = append(row, item{q: r.tex(body)})
			s = rest
		case s[0] == '{':
			row, s = r.texGroup(row, s)
		case s[0] >= '0' && s[0] <= '9':
			number, rest := cutNumber(s)
			var unit string
			if strings.HasPrefix(rest, `\ `) {
				unit, rest = texUnitText(rest[2:])
			}
			row, s = r.literal(row, number, unit), rest
		default:
			row, s = r.texName(row, s)
		}
	}
	return r.compute(row, false)
}

// texGroup reads {base}^{exponent} and {2 \times 10^{-3}}.
func (r *reader) texGroup(row []item, s string) ([]item, string) {
	body, rest := group(s)
	if m, e, ok := strings.Cut(body, ` \times 10^{`); ok && strings.Trim(m, "0123456789.") == "" {
		number := m + "e" + strings.TrimSuffix(e, "}")
		var unit string
		if strings.HasPrefix(rest, `\ `) {
			unit, rest = texUnitText(rest[2:])
		}
		return r.literal(row, number, unit), rest
	}
	q := r.tex(body)
	if strings.HasPrefix(rest, "^") {
		var exponent string
		exponent, rest = group(rest[1:])
		q = units.Pow(q, r.tex(exponent).Float())
	}
	return append(row, item{q: q}), rest
}

// texName reads a symbol with its subscript, or an upright word.
func (r *reader) texName(row []item, s string) ([]item, string) {
	for name, tex := range texNames {
		rest, ok := strings.CutPrefix(s, tex)
		if ok && (rest == "" || strings.ContainsAny(rest[:1], ` }^\`)) {
			return append(row, item{q: r.name(name)}), rest
		}
	}
	r.fail("%s: %q is no name", r.src, s)
	return row, ""
}

// texNames is how the names of the random formulas are typeset, by hand.
var texNames = map[string]string{
	"Vin": `V_{\mathrm{in}}`, "V_top": `V_{\mathrm{top}}`, "Vneg": `V_{\mathrm{neg}}`, "Iout": `I_{\mathrm{out}}`, "A": "A",
	"Rtop": `R_{\mathrm{top}}`, "R1": "R_{1}", "theta": `\theta`, "x": "x", "ratio": `\mathrm{ratio}`, "gain": `\mathrm{gain}`,
	"margin": `\mathrm{margin}`, "Pd": `P_{\mathrm{d}}`, "Ta": `T_{\mathrm{a}}`, "Tj": `T_{\mathrm{j}}`, "ΔT": `\Delta T`, "θJA": `\theta_{\mathrm{JA}}`,
	"a": "a", "b": "b", "c": "c",
}

// group cuts {…}.
func group(s string) (body, rest string) {
	depth := 0
	for i, c := range s {
		switch c {
		case '{':
			depth++
		case '}':
			depth--
			if depth == 0 {
				return s[1:i], s[i+1:]
			}
		}
	}
	return s, ""
}

// fenced cuts \left( … \right).
func (r *reader) fenced(s string) (body, rest string) {
	depth := 0
	for i := 0; i < len(s); i++ {
		if strings.HasPrefix(s[i:], `\left(`) {
			depth++
		} else if strings.HasPrefix(s[i:], `\right)`) {
			depth--
			if depth == 0 {
				return s[len(`\left(`):i], s[i+len(`\right)`):]
			}
		}
	}
	r.fail("%s: a bracket is not closed", r.src)
	return "", ""
}

// texUnitText reads an upright unit back to its text.
func texUnitText(s string) (unit, rest string) {
	for s != "" {
		matched := false
		for _, p := range [][2]string{{`\Omega `, "Ω"}, {`\Omega`, "Ω"}, {`\text{µ}`, "µ"}, {`{}^{\circ}`, "°"}, {`\%`, "%"}, {"/", "/"},
			{"^{2}", "²"}, {"^{-1}", "⁻¹"}, {"^{-2}", "⁻²"}} {
			if tail, ok := strings.CutPrefix(s, p[0]); ok {
				unit, s, matched = unit+p[1], tail, true
				break
			}
		}
		if tail, ok := strings.CutPrefix(s, `\mathrm{`); ok && !matched {
			n := strings.IndexByte(tail, '}')
			unit, s, matched = unit+tail[:n], tail[n+1:], true
		}
		if !matched {
			break
		}
	}
	return unit, s
}
