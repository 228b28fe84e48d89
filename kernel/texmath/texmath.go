package texmath

import (
	"html"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// MathML sets TeX as a math element; display: on lines of its own.
func MathML(tex string, display bool) string {
	kind := ""
	if display {
		kind = ` display="block"`
	}
	p := &parser{rest: tex, display: display}
	return "<math" + kind + ">" + p.row(func() bool { return false }) + "</math>"
}

// deepest is how far groups may be nested; what is deeper stays TeX.
const deepest = 100

type parser struct {
	rest    string
	display bool
	depth   int
}

// token takes the next token: a command with its backslash, or a character.
// White space is dropped.
func (p *parser) token() string {
	p.rest = strings.TrimLeftFunc(p.rest, unicode.IsSpace)
	t := p.peeked()
	p.rest = p.rest[len(t):]
	return t
}

func (p *parser) peek() string {
	p.rest = strings.TrimLeftFunc(p.rest, unicode.IsSpace)
	return p.peeked()
}

func (p *parser) peeked() string {
	if p.rest == "" {
		return ""
	}
	_, n := utf8.DecodeRuneInString(p.rest)
	if p.rest[0] != '\\' || len(p.rest) == 1 {
		return p.rest[:n]
	}
	end := 1
	for end < len(p.rest) && letter(p.rest[end]) {
		end++
	}
	if end == 1 {
		_, n = utf8.DecodeRuneInString(p.rest[1:])
		return p.rest[:1+n]
	}
	return p.rest[:end]
}

func letter(c byte) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' }

// row sets what comes until end says so, or the text ends, as one element.
func (p *parser) row(end func() bool) string {
	var parts []string
	p.depth++
	defer func() { p.depth-- }()
	for p.peek() != "" && !end() {
		if part := p.scripted(); part != "" {
			parts = append(parts, part)
		}
	}
	if len(parts) == 1 {
		return parts[0]
	}
	return "<mrow>" + strings.Join(parts, "") + "</mrow>"
}

// scripted sets an atom with its scripts.
func (p *parser) scripted() string {
	before := p.peek()
	base := ""
	if before != "^" && before != "_" {
		base = p.atom()
	}
	if base == "" && before != "^" && before != "_" {
		return ""
	}
	over := p.display && large[strings.TrimPrefix(before, `\`)] != "" && !strings.Contains(before, "int") || p.display && before == `\lim`
	sub, sup := "", ""
	for {
		switch t := p.peek(); {
		case t == "_" && sub == "":
			p.token()
			sub = p.argument()
		case t == "^" && sup == "":
			p.token()
			sup = p.argument()
		case t == "'" && sup == "":
			p.token()
			sup = "<mo>′</mo>"
		case t == "_" || t == "^": // a second one, which TeX refuses
			p.token()
			return scripts(base, sub, sup, over) + text(t)
		default:
			return scripts(base, sub, sup, over)
		}
	}
}

func scripts(base, sub, sup string, over bool) string {
	if base == "" {
		base = "<mrow></mrow>"
	}
	names := [3]string{"msub", "msup", "msubsup"}
	if over {
		names = [3]string{"munder", "mover", "munderover"}
	}
	switch {
	case sub != "" && sup != "":
		return "<" + names[2] + ">" + base + sub + sup + "</" + names[2] + ">"
	case sub != "":
		return "<" + names[0] + ">" + base + sub + "</" + names[0] + ">"
	case sup != "":
		return "<" + names[1] + ">" + base + sup + "</" + names[1] + ">"
	}
	return base
}

// argument sets a group, or the next atom; it is always one element.
func (p *parser) argument() string {
	if p.depth > deepest {
		return text(p.token())
	}
	if p.peek() == "{" {
		p.token()
		out := p.row(func() bool { return p.peek() == "}" })
		p.token()
		return out
	}
	switch t := p.peek(); {
	case t == "}" || t == "" || t == "&":
		return "<mrow></mrow>"
	case t[0] >= '0' && t[0] <= '9': // one figure, as \frac12 is a half
		return "<mn>" + p.token() + "</mn>"
	}
	if out := p.atom(); out != "" {
		return out
	}
	return "<mrow></mrow>"
}

func text(s string) string { return "<mtext>" + escape(s) + "</mtext>" }

// escape also keeps out what XML has no place for, and white space at the ends.
func escape(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == utf8.RuneError || r == 0xfffe || r == 0xffff || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 {
			return utf8.RuneError
		}
		return r
	}, strings.NewReplacer("\n", " ", "\t", " ").Replace(s))
	return html.EscapeString(strings.ReplaceAll(s, " ", "\u00a0"))
}

// atom sets one thing without its scripts.
func (p *parser) atom() string {
	t := p.token()
	r, _ := utf8.DecodeRuneInString(t)
	switch {
	case t == "{":
		p.rest = t + p.rest
		return p.argument()
	case t == "}" || t == "&":
		return ""
	case t == "~":
		return `<mspace width="0.33em"></mspace>`
	case len(t) > 1 && t[0] == '\\':
		return p.command(t[1:])
	case unicode.IsDigit(r) || t == "." && p.rest != "" && p.rest[0] >= '0' && p.rest[0] <= '9':
		n := 0
		for n < len(p.rest) && (p.rest[n] >= '0' && p.rest[n] <= '9' || p.rest[n] == '.' && n+1 < len(p.rest) && p.rest[n+1] >= '0' && p.rest[n+1] <= '9') {
			n++
		}
		t += p.rest[:n]
		p.rest = p.rest[n:]
		return "<mn>" + t + "</mn>"
	case unicode.IsLetter(r):
		return "<mi>" + escape(t) + "</mi>"
	case t == "-":
		return "<mo>−</mo>"
	case strings.Contains("()[]|", t):
		return `<mo stretchy="false">` + t + "</mo>"
	case r < utf8.RuneSelf && t != `\`, strings.ContainsRune("±−×·⋅≤≥≠≈→√∥…", r):
		return "<mo>" + escape(t) + "</mo>"
	}
	return text(t)
}

// command sets what a command stands for.
func (p *parser) command(name string) string {
	if s, ok := letters[name]; ok {
		return "<mi>" + escape(s) + "</mi>"
	}
	if s, ok := signs[name]; ok {
		return `<mo stretchy="false">` + escape(s) + "</mo>"
	}
	if s, ok := large[name]; ok {
		return "<mo>" + s + "</mo>"
	}
	if functions[name] {
		return "<mrow><mi>" + name + "</mi><mo>\u2061</mo></mrow>" // function application, invisible
	}
	if w, ok := spaces[name]; ok {
		return `<mspace width="` + w + `"></mspace>`
	}
	if a, ok := accents[name]; ok {
		return `<mover accent="true">` + p.argument() + "<mo>" + a + "</mo></mover>"
	}
	switch name {
	case "frac", "dfrac", "tfrac":
		return "<mfrac>" + p.argument() + p.argument() + "</mfrac>"
	case "sqrt":
		if p.peek() == "[" {
			p.token()
			index := p.row(func() bool { return p.peek() == "]" })
			p.token()
			return "<mroot>" + p.argument() + index + "</mroot>"
		}
		return "<msqrt>" + p.argument() + "</msqrt>"
	case "underline":
		return "<munder>" + p.argument() + "<mo>_</mo></munder>"
	case "text", "textrm", "textnormal", "mbox", "mathrm", "operatorname", "textbf", "textit", "mathsf", "mathtt", "rm":
		return p.words(name)
	case "mathbf", "boldsymbol", "mathit", "mathcal", "displaystyle", "textstyle", "scriptstyle", "limits", "nolimits", "big", "Big", "bigl", "bigr", "Bigl", "Bigr":
		return "" // their argument follows as a group of its own
	case "left":
		return p.fence()
	case "right": // without \left
		p.token()
		return ""
	case "begin":
		return p.environment()
	case `\`:
		return `<mspace linebreak="newline"></mspace>`
	}
	return text(`\` + name)
}

// words are upright.
func (p *parser) words(name string) string {
	if p.peek() != "{" {
		return "<mi mathvariant=\"normal\">" + escape(p.token()) + "</mi>"
	}
	end, depth := len(p.rest), 0
	for i, r := range p.rest {
		if r == '{' {
			depth++
		}
		if r == '}' {
			if depth--; depth == 0 {
				end = i
				break
			}
		}
	}
	inside := p.rest[1:end]
	p.rest = strings.TrimPrefix(p.rest[end:], "}")
	if strings.HasPrefix(name, "text") || name == "mbox" {
		return text(inside)
	}
	inside = strings.NewReplacer(`\,`, "\u2009", `\ `, " ", `\Omega`, "Ω", `\mu`, "µ", `\degree`, "°", "{", "", "}", "", `\%`, "%").Replace(inside)
	if strings.ContainsAny(inside, "\\ ") || utf8.RuneCountInString(inside) != 1 {
		return text(inside)
	}
	return `<mi mathvariant="normal">` + escape(inside) + "</mi>"
}

func (p *parser) delimiter() string {
	t := p.token()
	switch {
	case t == ".":
		return ""
	case len(t) > 1:
		return escape(signs[t[1:]])
	}
	return escape(t)
}

func (p *parser) fence() string {
	if p.depth > deepest {
		return text(`\left`)
	}
	open := p.delimiter()
	body := p.row(func() bool { return p.peek() == `\right` || p.peek() == "}" })
	close := ""
	if p.peek() == `\right` {
		p.token()
		close = p.delimiter()
	}
	return `<mrow><mo form="prefix" stretchy="true">` + open + "</mo>" + body + `<mo form="postfix" stretchy="true">` + close + "</mo></mrow>"
}

// environments are tables, with what fences them.
var environments = map[string][2]string{
	"aligned": {}, "align": {}, "align*": {}, "split": {}, "matrix": {}, "gathered": {}, "cases": {"{", ""},
	"pmatrix": {"(", ")"}, "bmatrix": {"[", "]"}, "vmatrix": {"|", "|"},
}

func (p *parser) environment() string {
	name := p.name()
	ends, ok := environments[name]
	if !ok || p.depth > deepest {
		return text(`\begin{` + name + "}")
	}
	var b strings.Builder
	b.WriteString("<mtable><mtr>")
	for {
		b.WriteString("<mtd>" + p.row(func() bool { return slices.Contains([]string{"&", `\\`, `\end`}, p.peek()) }) + "</mtd>")
		switch p.token() {
		case "&":
			continue
		case `\\`:
			b.WriteString("</mtr><mtr>")
			continue
		case `\end`:
			p.name()
		}
		break
	}
	b.WriteString("</mtr></mtable>")
	if ends == [2]string{} {
		return b.String()
	}
	return `<mrow><mo form="prefix" stretchy="true">` + ends[0] + "</mo>" + b.String() + `<mo form="postfix" stretchy="true">` + ends[1] + "</mo></mrow>"
}

// name reads {name}.
func (p *parser) name() string {
	if p.peek() != "{" {
		return ""
	}
	name, rest, ok := strings.Cut(p.rest[1:], "}")
	if !ok {
		return ""
	}
	p.rest = rest
	return name
}
