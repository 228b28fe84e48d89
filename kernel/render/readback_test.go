package render

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ohmwright/kernel/cell"
	"ohmwright/units"
)

// A formula is drawn, read back by a parser that shares no code with this
// package, and evaluated: the result is that of the tree, to the bit. With
// four digits in the numbers it is that of a tree with rounded values.

// names of the random formulas, by what they are. A is spelt like a unit.
var pool = map[string][]string{
	"V": {"Vin", "V_top", "Vneg"}, "A": {"Iout", "A"}, "Ω": {"Rtop", "R1", "theta"},
	"1": {"x", "ratio", "gain", "margin"}, "W": {"Pd"}, "°C": {"Ta", "Tj"}, "K": {"ΔT"}, "K/W": {"θJA"},
}

var unitOf = map[string]string{"V": "V", "A": "mA", "Ω": "kΩ", "1": "", "W": "mW", "°C": "°C", "K": "K", "K/W": "°C/W"}

// drawTree makes an expression of one kind; every rule keeps the dimension.
func drawTree(t *rapid.T, kind string, depth int, vals map[string]units.Quantity) *cell.Expr {
	bin := func(op, l, r string) *cell.Expr {
		return &cell.Expr{Kind: cell.ExprBinary, Text: op, Args: []*cell.Expr{drawTree(t, l, depth-1, vals), drawTree(t, r, depth-1, vals)}}
	}
	call := func(f string, args ...*cell.Expr) *cell.Expr {
		return &cell.Expr{Kind: cell.ExprCall, Text: f, Args: args}
	}
	number := func(s string) *cell.Expr { return &cell.Expr{Kind: cell.ExprNumber, Text: s} }
	leaves := []func() *cell.Expr{
		func() *cell.Expr {
			n := rapid.SampledFrom(pool[kind]).Draw(t, "name")
			return &cell.Expr{Kind: cell.ExprName, Text: n, Value: quantityView(vals[n])}
		},
		func() *cell.Expr {
			if kind == "1" {
				return number(rapid.SampledFrom([]string{"2", "0.5", "3", "1e-3", "2.5e4", "1_000"}).Draw(t, "number"))
			}
			text := fmt.Sprintf("%d.%d%s", rapid.IntRange(1, 99).Draw(t, "n"), rapid.IntRange(0, 9).Draw(t, "d"), unitOf[kind])
			if kind == "°C" && rapid.Bool().Draw(t, "cold") {
				text = "-" + text
			}
			q, err := units.Parse(text)
			if err != nil {
				t.Fatalf("%s: %v", text, err)
			}
			return &cell.Expr{Kind: cell.ExprLiteral, Text: text, Value: quantityView(q)}
		},
	}
	if depth <= 0 {
		return rapid.SampledFrom(leaves).Draw(t, "leaf")()
	}
	same := kind
	rules := map[string][]func() *cell.Expr{
		"V": {
			func() *cell.Expr { return bin("*", "A", "Ω") }, func() *cell.Expr { return bin("*", "Ω", "A") },
			func() *cell.Expr { return bin("/", "W", "A") },
			func() *cell.Expr { return call("Sqrt", bin("*", "W", "Ω")) },
		},
		"A": {func() *cell.Expr { return bin("/", "V", "Ω") }},
		"Ω": {
			func() *cell.Expr { return bin("/", "V", "A") },
			func() *cell.Expr { return call("Sqrt", call("Pow", drawTree(t, "Ω", depth-1, vals), number("2"))) },
		},
		"W": {
			func() *cell.Expr { return bin("*", "V", "A") },
			func() *cell.Expr {
				return &cell.Expr{Kind: cell.ExprBinary, Text: "/", Args: []*cell.Expr{
					call("Pow", drawTree(t, "V", depth-1, vals), number("2")), drawTree(t, "Ω", depth-1, vals)}}
			},
		},
		"1": {
			func() *cell.Expr { return bin("/", "V", "V") }, func() *cell.Expr { return bin("/", "Ω", "Ω") },
			func() *cell.Expr {
				n := rapid.SampledFrom([]string{"2", "3", "0.5", "-1", "-2.5"}).Draw(t, "exponent")
				e := number(strings.TrimPrefix(n, "-"))
				if strings.HasPrefix(n, "-") {
					e = &cell.Expr{Kind: cell.ExprUnary, Text: "-", Args: []*cell.Expr{e}}
				}
				return call("Pow", drawTree(t, "1", depth-1, vals), e)
			},
			func() *cell.Expr {
				return call("Pow", drawTree(t, "1", depth-1, vals), drawTree(t, "1", depth-1, vals))
			},
			func() *cell.Expr { return call("Sqrt", drawTree(t, "1", depth-1, vals)) },
		},
		"K":  {func() *cell.Expr { return bin("-", "°C", "°C") }, func() *cell.Expr { return bin("*", "W", "K/W") }},
		"°C": {func() *cell.Expr { return bin("+", "°C", "K") }, func() *cell.Expr { return bin("-", "°C", "K") }},
	}[kind]
	if kind != "°C" {
		rules = append(rules,
			func() *cell.Expr { return bin("+", same, same) },
			func() *cell.Expr { return bin("-", same, same) },
			func() *cell.Expr { return bin("*", "1", same) },
			func() *cell.Expr { return bin("*", same, "1") },
			func() *cell.Expr { return bin("/", same, "1") },
			func() *cell.Expr {
				return &cell.Expr{Kind: cell.ExprUnary, Text: "-", Args: []*cell.Expr{drawTree(t, same, depth-1, vals)}}
			})
	}
	return rapid.SampledFrom(append(rules, leaves...)).Draw(t, "rule")()
}

// drawValues gives every name a value, among them negative ones.
func drawValues(t *rapid.T) map[string]units.Quantity {
	vals := map[string]units.Quantity{}
	for _, kind := range slices.Sorted(maps.Keys(pool)) {
		for _, n := range pool[kind] {
			most := 999.0
			if kind == "°C" {
				most = 200
			}
			x := rapid.Float64Range(0.001, most).Draw(t, n)
			if n == "Vneg" || n == "gain" || n == "Ta" {
				x = -x
			}
			q, err := units.Parse(strings.TrimSpace(fmt.Sprintf("%v %s", x, unitOf[kind])))
			if err != nil {
				t.Fatalf("%v", err)
			}
			vals[n] = q
		}
	}
	return vals
}

// evaluate computes a tree with the arithmetic of units.
func evaluate(e *cell.Expr, value func(q units.Quantity) units.Quantity) units.Quantity {
	arg := func(i int) units.Quantity { return evaluate(e.Args[i], value) }
	switch e.Kind {
	case cell.ExprName:
		return value(e.Value.Quantity.(units.Quantity))
	case cell.ExprLiteral:
		return e.Value.Quantity.(units.Quantity)
	case cell.ExprNumber:
		return units.MustParse(strings.ReplaceAll(e.Text, "_", ""))
	case cell.ExprUnary:
		return arg(0).Neg()
	case cell.ExprBinary:
		return apply(e.Text, arg(0), arg(1))
	}
	if e.Text == "Sqrt" {
		return units.Sqrt(arg(0))
	}
	return units.Pow(arg(0), arg(1).Float())
}

func apply(op string, a, b units.Quantity) units.Quantity {
	switch op {
	case "+":
		return a.Add(b)
	case "-":
		return a.Sub(b)
	case "*":
		return a.Mul(b)
	}
	return a.Div(b)
}

// attempt catches what units refuses (a root of a negative number): the
// reader has to meet the same refusal.
func attempt(f func() units.Quantity) (q units.Quantity, refused string) {
	defer func() {
		if r := recover(); r != nil {
			e, ok := r.(*units.Error)
			if !ok {
				panic(r)
			}
			refused = e.Msg
		}
	}()
	return f(), ""
}

func sameValue(a, b units.Quantity) bool {
	x, y := a.SI(), b.SI()
	return (x == y || x != x && y != y) && a.Dim().Same(b.Dim())
}

func TestReadBack(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		vals := drawValues(t)
		e := drawTree(t, rapid.SampledFrom([]string{"V", "A", "Ω", "1", "W", "°C", "K"}).Draw(t, "kind"), 4, vals)
		exact := func(q units.Quantity) units.Quantity { return q }
		rounded := func(q units.Quantity) units.Quantity { return units.MustParse(q.Text(4)) }
		for _, as := range []Flavour{Plain, TeX, MathML} {
			readBack(t, e, Formula(e, as), as, vals, exact)
			readBack(t, e, Numbers(e, as, 0), as, nil, exact)
			readBack(t, e, Numbers(e, as, 4), as, nil, rounded)
		}
	})
}

// readBack holds what is read from drawn against the tree. vals is nil where
// drawn must not contain a name.
func readBack(t *rapid.T, e *cell.Expr, drawn string, as Flavour, vals map[string]units.Quantity, value func(units.Quantity) units.Quantity) {
	t.Helper()
	if as != Plain {
		e = joined(e) // which rounds otherwise
	}
	want, wantRefused := attempt(func() units.Quantity { return evaluate(e, value) })
	got, refused := attempt(func() units.Quantity { return read(t, drawn, as, vals) })
	switch {
	case (wantRefused == "") != (refused == ""):
		t.Fatalf("%s\n tree refused: %q\n read refused: %q", drawn, wantRefused, refused)
	case refused == "" && !sameValue(got, want):
		t.Fatalf("%s\n reads back as %s, the tree is %s", drawn, got.Text(0), want.Text(0))
	}
}

// joined is a tree with a/b/c as a/(b·c), which a bar draws.
func joined(e *cell.Expr) *cell.Expr {
	out := *e
	out.Args = nil
	for _, a := range e.Args {
		out.Args = append(out.Args, joined(a))
	}
	for over := func(x *cell.Expr) bool { return x.Kind == cell.ExprBinary && x.Text == "/" }; over(&out) && over(out.Args[0]); {
		x := out.Args[0] // (a/b)/c: a joined x has no quotient on top
		out.Args = []*cell.Expr{x.Args[0], {Kind: cell.ExprBinary, Text: "*", Args: []*cell.Expr{x.Args[1], out.Args[1]}}}
	}
	return &out
}

// 36/2/3 is 6 and stands over one bar: in a tower of bars type got ever smaller.
func TestChainOfDivisionsHasOneBar(t *testing.T) {
	t.Parallel()
	n := func(s string) *cell.Expr { return &cell.Expr{Kind: cell.ExprNumber, Text: s} }
	over := func(x, y *cell.Expr) *cell.Expr {
		return &cell.Expr{Kind: cell.ExprBinary, Text: "/", Args: []*cell.Expr{x, y}}
	}
	for _, c := range []struct {
		e    *cell.Expr
		want string
	}{
		{over(over(n("36"), n("2")), n("3")), `\frac{36}{2 \cdot 3}`},
		{over(over(over(n("36"), n("2")), n("3")), n("6")), `\frac{36}{2 \cdot 3 \cdot 6}`},
		{over(n("36"), over(n("2"), n("3"))), `\frac{36}{\frac{2}{3}}`},
		{over(over(n("36"), over(n("2"), n("3"))), n("6")), `\frac{36}{\frac{2}{3} \cdot 6}`},
	} {
		if got := Formula(c.e, TeX); got != c.want {
			t.Errorf("%s, want %s", got, c.want)
		}
	}
}

func read(t *rapid.T, drawn string, as Flavour, vals map[string]units.Quantity) units.Quantity {
	r := &reader{fail: t.Fatalf, vals: vals, src: drawn}
	switch as {
	case Plain:
		return r.text(drawn)
	case TeX:
		return r.tex(drawn)
	}
	return r.mathML(drawn)
}

// The parser itself must be able to tell: wrong drawings are found.
func TestReadBackFindsLostBrackets(t *testing.T) {
	t.Parallel()
	vals := map[string]units.Quantity{"a": units.MustParse("2"), "b": units.MustParse("3"), "c": units.MustParse("5")}
	var failed string
	r := &reader{vals: vals, fail: func(f string, args ...any) { failed = fmt.Sprintf(f, args...); panic(&units.Error{Msg: failed}) }}
	for src, want := range map[string]float64{
		"a − b − c": -6, "a − (b − c)": 4, "a · b/c": 1.2, "a/(b · c)": 2.0 / 15, "−a²": -4, "(−a)²": 4, "a^(b + c)": 256,
		"√(a + b · c)": math.Sqrt(17), "a⁻²": 0.25,
	} {
		if got := r.text(src).SI(); math.Abs(got-want) > 1e-12 {
			t.Errorf("%s is read as %v", src, got)
		}
	}
	for src, want := range map[string]float64{
		`a - \left(b - c\right)`: 4, `\frac{a}{b \cdot c}`: 2.0 / 15, `-{a}^{2}`: -4, `{\left(-a\right)}^{2}`: 4, `\sqrt{a + b} \cdot c`: 5 * math.Sqrt(5),
		`{2.5 \times 10^{-3}} \cdot a`: 0.005,
	} {
		if got := r.tex(src).SI(); math.Abs(got-want) > 1e-12 {
			t.Errorf("%s is read as %v", src, got)
		}
	}
	for _, bad := range []string{"a − −b", "a/b/c", "a/b · c", "a · −b", "a +", "(a"} {
		failed = ""
		if _, refused := attempt(func() units.Quantity { return r.text(bad) }); refused == "" {
			t.Errorf("%s is accepted", bad)
		}
	}
}
