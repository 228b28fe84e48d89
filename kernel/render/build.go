package render

import (
	"math"
	"strconv"
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// Formula draws e with its names: Rtop · Vref/(5 V − Vref). Literals appear
// in full, as typed but for the spelling of their unit.
func Formula(e *cell.Expr, as Flavour) string {
	b := builder{linear: as.linear()}
	return write(b.expr(e).node, as)
}

// Numbers draws e with the value of each name in place of the name, to so
// many significant digits; 0 writes them in full, so that they read back to
// the same values. Names of anything but a number stay names.
func Numbers(e *cell.Expr, as Flavour, digits int) string {
	b := builder{linear: as.linear(), numbers: true, digits: digits}
	return write(b.expr(e).node, as)
}

// builder turns an Expr into nodes and sets the brackets.
type builder struct {
	linear  bool // one line of text: a/b; otherwise a fraction with a bar
	numbers bool // values instead of names
	digits  int
}

// term is a drawn part and what its surroundings must know to bracket it.
type term struct {
	node
	prec    prec
	signed  bool // starts with a sign: never behind an operator without brackets
	solidus bool // linear only: is a quotient, no factor may follow (ISO 80000-1)
	unitEnd bool // linear only: ends in a unit, so that /name could be read as part of it
	slashed bool // linear only: ends in a unit that has a solidus or product of its own
}

// prec orders what binds weaker before what binds tighter.
type prec int

const (
	precWords prec = iota // nearest E96 to …
	precOr
	precAnd
	precCompare
	precParallel // ∥ and bit operations: always bracketed inside a formula
	precTolerance
	precSum
	precProduct
	precSigned   // −a
	precFraction // a fraction with a bar, a number with a unit
	precPower
	precAtom
)

// at draws e as an operand that must bind at least as tightly as least.
func (b *builder) at(e *cell.Expr, least prec) term { return b.bracketed(b.expr(e), least) }

func (b *builder) bracketed(t term, least prec) term {
	if t.prec < least {
		return b.fenced(t)
	}
	return t
}

func (b *builder) fenced(t term) term {
	return term{node: &fence{"(", ")", t.node}, prec: precAtom}
}

// right draws the right operand of an operator: it must not start with a sign.
func (b *builder) right(e *cell.Expr, least prec) term {
	t := b.at(e, least)
	if t.signed {
		return b.fenced(t)
	}
	return t
}

func (b *builder) expr(e *cell.Expr) term {
	if e == nil {
		return term{node: &words{""}, prec: precAtom}
	}
	switch e.Kind {
	case cell.ExprName:
		if t, ok := b.value(e); ok {
			return t
		}
		return term{node: nameNode(e.Text), prec: precAtom}
	case cell.ExprLiteral:
		if q, ok := quantityOf(e); ok {
			return b.quantity(q, 0)
		}
		if q, err := units.Parse(e.Text); err == nil {
			return b.quantity(q, 0)
		}
	case cell.ExprNumber:
		return b.number(strings.ReplaceAll(e.Text, "_", ""))
	case cell.ExprUnary:
		return b.unary(e)
	case cell.ExprBinary:
		return b.binary(e)
	case cell.ExprCall:
		return b.call(e)
	case cell.ExprField:
		if chain(e) {
			if t, ok := b.value(e); ok {
				return t
			}
		}
		return b.join(b.at(e.Args[0], precAtom).node, &sign{".", false}, nameNode(e.Text))
	case cell.ExprIndex:
		if chain(e) {
			if t, ok := b.value(e); ok {
				return t
			}
		}
		return b.join(b.at(e.Args[0], precAtom).node, &fence{"[", "]", b.expr(e.Args[1]).node})
	case cell.ExprRecord:
		return b.join(&verbatim{e.Text}, &fence{"{", "}", b.list(e.Args)})
	case cell.ExprKey:
		return term{node: &row{[]node{nameNode(e.Text), &words{": "}, b.expr(e.Args[0]).node}}, prec: precWords}
	}
	return term{node: &verbatim{shortSource(e.Text)}, prec: precAtom}
}

// join sets atoms side by side to one atom.
func (b *builder) join(parts ...node) term { return term{node: &row{parts}, prec: precAtom} }

// list draws arguments with commas between them.
func (b *builder) list(es []*cell.Expr) node {
	r := &row{}
	for i, e := range es {
		if i > 0 {
			r.parts = append(r.parts, &sign{",", true})
		}
		r.parts = append(r.parts, b.expr(e).node)
	}
	return r
}

// chain: a name with fields and indices behind it, nothing computed.
func chain(e *cell.Expr) bool {
	for e.Kind == cell.ExprField || e.Kind == cell.ExprIndex {
		e = e.Args[0]
	}
	return e.Kind == cell.ExprName
}

// value draws what e was, in a line of numbers.
func (b *builder) value(e *cell.Expr) (term, bool) {
	if !b.numbers || e.Value == nil {
		return term{}, false
	}
	if q, ok := quantityOf(e); ok {
		return b.quantity(q, b.digits), true
	}
	if n, ok := numberOf(e.Value, b.digits); ok {
		return b.number(n), true
	}
	return term{}, false
}

// quantity draws a value; one with a minus is a signed term.
func (b *builder) quantity(q units.Quantity, digits int) term {
	num, unit := q.Parts(digits)
	num, negative := cutMinus(num)
	if unit == "" {
		t := b.number(num)
		if negative {
			return negated(t)
		}
		return t
	}
	t := term{node: &quantity{num, unit}, prec: precFraction}
	if b.linear {
		t.unitEnd = true
		t.slashed = strings.ContainsAny(unit, "/·*^ ")
	}
	if negative {
		return negated(t)
	}
	return t
}

func (b *builder) number(text string) term {
	text, negative := cutMinus(text)
	t := term{node: &number{text}, prec: precAtom}
	if strings.ContainsAny(text, "eE") && !strings.HasPrefix(text, "0x") {
		t.prec = precFraction // 1 · 10⁻³ must be bracketed as the base of a power
	}
	if negative {
		return negated(t)
	}
	return t
}

func negated(t term) term {
	t.node, t.prec, t.signed = &row{[]node{&sign{"−", false}, t.node}}, precSigned, true
	return t
}

func cutMinus(s string) (string, bool) {
	for _, m := range []string{"−", "-"} {
		if rest, ok := strings.CutPrefix(s, m); ok {
			return rest, true
		}
	}
	return s, false
}

func quantityOf(e *cell.Expr) (units.Quantity, bool) {
	if e.Value == nil {
		return units.Quantity{}, false
	}
	q, ok := e.Value.Quantity.(units.Quantity)
	return q, ok
}

func (b *builder) unary(e *cell.Expr) term {
	switch e.Text {
	case "-", "+":
		t := b.right(e.Args[0], precFraction)
		text := "−"
		if e.Text == "+" {
			text = "+"
		}
		return term{node: &row{[]node{&sign{text, false}, t.node}}, prec: precSigned, signed: true,
			unitEnd: t.unitEnd, slashed: t.slashed}
	case "!":
		return term{node: &row{[]node{&words{"not "}, b.at(e.Args[0], precAtom).node}}, prec: precCompare}
	}
	return b.join(&verbatim{e.Text}, b.at(e.Args[0], precAtom).node)
}

// An operator that needs no more thought than this.
type operator struct {
	text        string
	own         prec
	left, right prec // the least that its operands must bind
}

var operators = map[string]operator{
	"+":  {"+", precSum, precSum, precProduct},
	"-":  {"−", precSum, precSum, precProduct},
	"*":  {"·", precProduct, precProduct, precFraction},
	"||": {"or", precOr, precOr, precAnd},
	"&&": {"and", precAnd, precAnd, precCompare},
	"==": {"=", precCompare, precParallel, precParallel},
	"!=": {"≠", precCompare, precParallel, precParallel},
	"<":  {"<", precCompare, precParallel, precParallel},
	"<=": {"≤", precCompare, precParallel, precParallel},
	">":  {">", precCompare, precParallel, precParallel},
	">=": {"≥", precCompare, precParallel, precParallel},
	"%":  {"mod", precParallel, precFraction, precFraction},
	"&":  {"&", precParallel, precFraction, precFraction},
	"|":  {"|", precParallel, precFraction, precFraction},
	"^":  {"xor", precParallel, precFraction, precFraction},
	"<<": {"<<", precParallel, precFraction, precFraction},
	">>": {">>", precParallel, precFraction, precFraction},
	"&^": {"&^", precParallel, precFraction, precFraction},
}

func (b *builder) binary(e *cell.Expr) term {
	x, y := e.Args[0], e.Args[1]
	switch e.Text {
	case "/":
		return b.quotient(x, y)
	case "±":
		// A sum is bracketed on either side: a + b ± c says nothing.
		l := b.expr(x)
		if l.prec == precSum || l.prec < precTolerance {
			l = b.fenced(l)
		}
		r := b.right(y, precFraction)
		return term{node: &row{[]node{l.node, &sign{"±", true}, r.node}}, prec: precTolerance, signed: l.signed}
	}
	op, ok := operators[e.Text]
	if !ok {
		op = operator{e.Text, precParallel, precFraction, precFraction}
	}
	l := b.at(x, op.left)
	if op.own == precProduct && l.solidus {
		l = b.fenced(l)
	}
	r := b.at(y, op.right)
	if r.signed && op.own >= precParallel {
		r = b.fenced(r)
	}
	t := term{node: &row{[]node{l.node, &sign{op.text, true}, r.node}}, prec: op.own}
	t.signed = l.signed && op.own >= precParallel
	t.unitEnd, t.slashed = r.unitEnd, r.slashed
	return t
}

// quotient draws x/y: a bar, or a solidus in a line of text.
func (b *builder) quotient(x, y *cell.Expr) term {
	if !b.linear {
		x, y = oneBar(x, y)
		return term{node: &fraction{b.expr(x).node, b.expr(y).node}, prec: precFraction}
	}
	l := b.at(x, precProduct)
	r := b.right(y, precFraction)
	if r.slashed {
		r = b.fenced(r)
	}
	if l.solidus || l.slashed || l.unitEnd && startsLikeUnit(r.node) {
		l = b.fenced(l)
	}
	return term{node: &row{[]node{l.node, &sign{"/", false}, r.node}}, prec: precProduct,
		signed: l.signed, solidus: true, unitEnd: r.unitEnd}
}

// oneBar joins the divisors of a chain: a/b/c is a over b · c, and no tower of
// ever smaller type.
func oneBar(x, y *cell.Expr) (num, den *cell.Expr) {
	if x.Kind != cell.ExprBinary || x.Text != "/" {
		return x, y
	}
	num, den = oneBar(x.Args[0], x.Args[1])
	return num, &cell.Expr{Kind: cell.ExprBinary, Text: "*", Args: []*cell.Expr{den, y}}
}

// startsLikeUnit: the text starts with a name that is spelt like a unit, so
// that 5 V/A would be read as five volts per ampere.
func startsLikeUnit(n node) bool {
	switch n := n.(type) {
	case *ident:
		_, err := units.Parse("1 " + n.typed)
		return err == nil
	case *power:
		return startsLikeUnit(n.base)
	case *root: // V/√Hz
		return startsLikeUnit(n.body)
	case *row:
		return len(n.parts) > 0 && startsLikeUnit(n.parts[0])
	}
	return false
}

// shortSource cuts source that is too long to stand in a formula.
func shortSource(s string) string {
	s = strings.Join(strings.Fields(s), " ")
	if r := []rune(s); len(r) > 60 {
		return string(r[:59]) + "…"
	}
	return s
}

// numberOf writes a plain number; digits 0 in full.
func numberOf(v *cell.View, digits int) (string, bool) {
	if v.Kind != exec.KindNumber {
		return "", false
	}
	return plainNumber(v.Number, digits), true
}

func plainNumber(x float64, digits int) string {
	switch {
	case math.IsInf(x, 1):
		return "∞"
	case math.IsInf(x, -1):
		return "-∞"
	}
	if x == float64(int64(x)) && x > -1e15 && x < 1e15 {
		return strconv.FormatInt(int64(x), 10)
	}
	if digits <= 0 {
		digits = -1
	}
	return tidyExponent(strconv.FormatFloat(x, 'g', digits, 64))
}

// tidyExponent writes 1e-6, not 1e-06.
func tidyExponent(s string) string {
	m, e, ok := strings.Cut(s, "e")
	if !ok {
		return s
	}
	neg := strings.HasPrefix(e, "-")
	e = strings.TrimLeft(e, "+-0")
	if neg {
		e = "-" + e
	}
	return m + "e" + e
}
