package note_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
	"ohmwright/units"
)

// A formula that is shown must say what the code computed. Random expressions
// are typed into a cell; the formula and the numbers shown for them are read
// as text and computed again.

// formulaInputs is the cell of names that the expressions use, by kind. The
// kinds: V A Ω W K/W and 1 are quantities, K a difference and °C a point of
// temperature, f a float64, i an int, c a constant. Some names are spelt like units.
var formulaInputs = map[string][]string{
	"V": {"Vin", "V_top", "Vneg"}, "A": {"Iout", "A"}, "Ω": {"Rtop", "R1", "m"}, "W": {"Pd"}, "1": {"ratio", "eff", "s"},
	"K": {"ΔT", "dTneg"}, "°C": {"Ta", "Tj"}, "K/W": {"θJA"}, "f": {"gain", "k"}, "i": {"n", "N2"}, "c": {"third", "two"},
}

// literalUnits are units in which a kind is typed.
var literalUnits = map[string][]string{
	"V": {"V", "mV", "µV", "kV"}, "A": {"mA", "A", "uA"}, "Ω": {"kΩ", "ohm", "MΩ", "mohm"}, "W": {"W", "mW"}, "1": {"%", "ppm"},
	"K": {"K", "mK"}, "°C": {"°C", "degC"}, "K/W": {"K/W", "°C/W"},
}

// source is Go that was made up: how tightly it binds and what it ends in.
type source struct {
	text    string
	prec    int  // 1 sum, 2 product, 3 sign, 4 operand
	literal bool // ends in a literal: an operator behind it needs space
	whole   bool // a constant of whole numbers, which must not be divided
}

type formulaMaker struct{ t *rapid.T }

func (m formulaMaker) pick(list ...string) string { return rapid.SampledFrom(list).Draw(m.t, "pick") }
func (m formulaMaker) chance(of int) bool         { return rapid.IntRange(1, of).Draw(m.t, "chance") == 1 }

// bracket puts brackets where Go needs them, and sometimes where it doesn't.
func (m formulaMaker) bracket(s source, least int) source {
	for s.prec < least || m.chance(8) {
		s = source{text: "(" + s.text + ")", prec: 4, whole: s.whole}
	}
	return s
}

func (m formulaMaker) binary(op string, l, r source) source {
	prec := 1
	if op == "*" || op == "/" {
		prec = 2
	}
	l, r = m.bracket(l, prec), m.bracket(r, prec+1)
	space := " "
	sign := strings.HasPrefix(r.text, "-") // x+-1V is refused: people write it for ±
	if !l.literal && !strings.HasPrefix(r.text, op) && !(op == "+" && sign) && m.chance(3) {
		space = ""
	}
	return source{text: l.text + space + op + space + r.text, prec: prec, literal: r.literal, whole: l.whole && r.whole}
}

func (m formulaMaker) call(f string, args ...source) source {
	var texts []string
	for _, a := range args {
		texts = append(texts, m.bracket(a, 0).text)
	}
	return source{text: f + "(" + strings.Join(texts, ", ") + ")", prec: 4}
}

func (m formulaMaker) negative(s source) source {
	s = m.bracket(s, 3)
	if strings.HasPrefix(s.text, "-") {
		s = source{text: "(" + s.text + ")", prec: 4, whole: s.whole}
	}
	return source{text: "-" + s.text, prec: 3, literal: s.literal, whole: s.whole}
}

func (m formulaMaker) leaf(kind string) source {
	if kind == "c" {
		if m.chance(3) {
			name := m.pick(formulaInputs["c"]...)
			return source{text: name, prec: 4, whole: name == "two"}
		}
		n := m.pick("2", "3", "0.5", "1e-3", "2.5e2", "1_000", "0.1")
		return source{text: n, prec: 4, whole: !strings.ContainsAny(n, ".e")}
	}
	if kind == "f" || kind == "i" || m.chance(2) {
		return source{text: m.pick(formulaInputs[kind]...), prec: 4}
	}
	n := fmt.Sprint(rapid.IntRange(1, 99).Draw(m.t, "n")) + m.pick("", ".5", ".25")
	if kind != "°C" {
		n += m.pick("", "e1", "e-1")
	}
	if kind == "°C" && m.chance(2) {
		return source{text: "-" + n + m.pick(literalUnits[kind]...), prec: 3, literal: true}
	}
	return source{text: n + m.pick(literalUnits[kind]...), prec: 4, literal: true}
}

func (m formulaMaker) expr(kind string, depth int) source {
	if depth <= 0 || m.chance(6) {
		return m.leaf(kind)
	}
	sub := func(kind string) source { return m.expr(kind, depth-1) }
	bin := func(l, op, r string) source { return m.binary(op, sub(l), sub(r)) }
	type rule = func() source
	of := map[string][]rule{
		"V":   {func() source { return bin("A", "*", "Ω") }, func() source { return bin("W", "/", "A") }, func() source { return m.call("Sqrt", bin("W", "*", "Ω")) }},
		"A":   {func() source { return bin("V", "/", "Ω") }, func() source { return m.call("Sqrt", bin("W", "/", "Ω")) }},
		"Ω":   {func() source { return bin("V", "/", "A") }, func() source { return m.call("Sqrt", m.call("Pow", sub("Ω"), source{text: "2", prec: 4})) }},
		"W":   {func() source { return bin("V", "*", "A") }, func() source { return m.binary("/", m.call("Pow", sub("V"), source{text: "2", prec: 4}), sub("Ω")) }, func() source { return bin("K", "/", "K/W") }},
		"K/W": {func() source { return bin("K", "/", "W") }},
		"K":   {func() source { return bin("°C", "-", "°C") }, func() source { return bin("W", "*", "K/W") }},
		"1": {func() source { return bin("V", "/", "V") }, func() source { return bin("K", "/", "K") },
			func() source { return m.call("Pow", sub("1"), m.exponent(depth)) }, func() source { return m.call("Sqrt", sub("1")) },
			func() source { return bin("1", m.pick("+", "-"), m.pick("c", "f", "i")) }, func() source { return bin(m.pick("c", "f", "i"), m.pick("+", "-"), "1") },
			func() source { return bin(m.pick("c", "f", "i"), "/", "1") }},
		"f": {func() source { return bin("f", m.pick("+", "-", "*", "/"), m.pick("f", "c")) }, func() source { return bin("c", m.pick("+", "-", "*", "/"), "f") },
			func() source { return m.call("float64", sub("i")) }, func() source { return m.negative(sub("f")) }},
		"i":  {func() source { return bin("i", m.pick("+", "-", "*"), "i") }, func() source { return m.binary("*", sub("i"), source{text: "3", prec: 4, whole: true}) }},
		"c":  {func() source { return m.constants(sub("c"), sub("c")) }, func() source { return m.negative(sub("c")) }},
		"°C": {func() source { return bin("°C", m.pick("+", "-"), "K") }, func() source { return bin("K", "+", "°C") }},
	}
	rules := of[kind]
	if kind != "°C" && kind != "f" && kind != "i" && kind != "c" {
		rules = append(rules,
			func() source { return bin(kind, m.pick("+", "-"), kind) }, func() source { return bin(kind, m.pick("+", "-"), kind) },
			func() source { return bin(kind, m.pick("*", "/"), m.pick("1", "f", "c", "i")) },
			func() source { return bin(m.pick("1", "f", "c", "i"), "*", kind) },
			func() source { return m.negative(sub(kind)) },
			func() source { return m.call("Abs", sub(kind)) })
	}
	return rapid.SampledFrom(rules).Draw(m.t, "rule")()
}

// constants joins two constants; whole ones are not divided, because a cell refuses a remainder.
func (m formulaMaker) constants(l, r source) source {
	op := m.pick("+", "-", "*", "/")
	if op == "/" && l.whole && r.whole {
		op = "*"
	}
	return m.binary(op, l, r)
}

func (m formulaMaker) exponent(depth int) source {
	if m.chance(3) {
		return m.expr("f", depth-2)
	}
	n := m.pick("2", "3", "-1", "0.5", "-2.5", "1/3.0")
	return source{text: n, prec: 1}
}

// drawInputs makes the cell of names, and tells what they are.
func (m formulaMaker) drawInputs() (code string, names map[string]amount) {
	names = map[string]amount{}
	var lines []string
	number := func(most int) string {
		return fmt.Sprintf("%d.%d", rapid.IntRange(1, most).Draw(m.t, "whole"), rapid.IntRange(0, 999).Draw(m.t, "part"))
	}
	value := func(name, text string) {
		lines = append(lines, name+" := "+text)
		names[name] = quantityAmount(units.MustParse(text))
	}
	for _, name := range []string{"Vin", "V_top"} {
		value(name, number(50)+"V")
	}
	lines = append(lines, "Vneg := -5.25V")
	names["Vneg"] = quantityAmount(units.MustParse("5.25V").Neg())
	value("Iout", number(900)+"mA")
	value("A", number(9)+"A")
	value("Rtop", number(99)+"kΩ")
	value("R1", number(99)+"Ω")
	value("m", number(9)+"MΩ")
	value("Pd", number(900)+"mW")
	value("eff", number(99)+"%")
	value("s", number(900)+"ppm")
	value("ΔT", number(90)+"K")
	lines = append(lines, "dTneg := -7.5K")
	names["dTneg"] = quantityAmount(units.MustParse("7.5K").Neg())
	value("Ta", "-"+number(40)+"°C")
	value("Tj", number(120)+"°C")
	value("θJA", number(80)+"°C/W")
	lines = append(lines, "ratio := 5V/8V", "gain := -1.75", "k := 0.3", "n := 3", "N2 := -7", "const third = 1.0/3", "const two = 2")
	names["ratio"] = quantityAmount(units.MustParse("5V").Div(units.MustParse("8V")))
	for name, x := range map[string]float64{"gain": -1.75, "k": 0.3, "n": 3, "N2": -7} {
		names[name] = quantityAmount(units.Number(x))
	}
	names["third"], names["two"] = amount{exact: big.NewRat(1, 3)}, amount{exact: big.NewRat(2, 1)}
	return strings.Join(lines, "\n"), names
}

func TestFormulaReadsBack(t *testing.T) {
	t.Parallel()
	tried, computed := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		tried++
		m := formulaMaker{t}
		inputs, names := m.drawInputs()
		code := "x := " + m.expr(m.pick("V", "A", "Ω", "W", "1", "K", "°C", "K/W"), 4).text
		note := note.New(note.Options{World: world})
		note.Set(sources(inputs, code))
		rs := note.Run(context.Background())
		e := entry(rs, "x")
		if e == nil {
			// A division by nothing, the root of something negative.
			if err := firstError(rs); err == nil || err.Code != "dimension" && !strings.Contains(err.Msg, "division by zero") {
				t.Fatalf("%s: %v", code, err)
			}
			return
		}
		want := e.Value.Quantity.(units.Quantity)
		if e.Formula == nil {
			return // a single literal
		}
		if x := want.SI(); math.IsNaN(x) || math.IsInf(x, 0) {
			return
		}
		computed++
		formula := render.Formula(e.Formula, render.Plain)
		got, err := readPlain(formula, names)
		if refused := (*units.Error)(nil); errors.As(err, &refused) && strings.Contains(refused.Msg+refused.Hint, "divisor is zero") {
			return // plain float64 made of it an infinity that was divided by later
		}
		if err != nil {
			t.Fatalf("%s is shown as %v", code, err)
		}
		if q := got.quantity(); q.SI() != want.SI() || !q.Dim().Same(want.Dim()) {
			t.Fatalf("%s\nis %s, shown as\n%s\nwhich is %s", code, want.Text(0), formula, q.Text(0))
		}
		numbers := render.Numbers(e.Formula, render.Plain, 0)
		got, err = readPlain(numbers, nil)
		if err != nil {
			t.Fatalf("%s is shown as %v", code, err)
		}
		q := got.quantity()
		if off := math.Abs(q.SI() - want.SI()); off > max(1e-12*math.Abs(want.SI()), 64*got.bound()) || !q.Dim().Same(want.Dim()) {
			t.Fatalf("%s\nis %s, shown as\n%s\nwhich is %s", code, want.Text(0), numbers, q.Text(0))
		}
	})
	if computed < tried/2 {
		t.Errorf("only %d of %d expressions had a value", computed, tried)
	}
}

// TestReaderTells holds the reader itself to the conventions, with values worked out by hand.
func TestReaderTells(t *testing.T) {
	t.Parallel()
	names := map[string]amount{"a": quantityAmount(units.Number(2)), "b": quantityAmount(units.Number(3)), "c": quantityAmount(units.Number(5))}
	for text, want := range map[string]float64{
		"a − b − c": -6, "a − (b − c)": 4, "a · b/c": 1.2, "a/(b · c)": 2.0 / 15, "−a²": -4, "(−a)²": 4, "a^(b + c)": 256, "−a · b": -6,
		"√(a + b · c)": math.Sqrt(17), "a⁻²": 0.25, "|a − c| · b": 9, "abs(|a − c| − b · c)": 12, "√c": math.Sqrt(5), "50 % · a": 1, "5 V/(2 V)": 2.5, "1e-3 · a": 2e-3,
		"−20 °C − (−25 °C)": 5,
	} {
		got, err := readPlain(text, names)
		if err != nil || math.Abs(got.quantity().SI()-want) > 1e-12 {
			t.Errorf("%s is read as %v, %v", text, got.quantity(), err)
		}
	}
	for _, bad := range []string{"a − −b", "a/b/c", "a/b · c", "a · −b", "a +", "(a", "a b", "|a", "d", "5 V V"} {
		if got, err := readPlain(bad, names); err == nil {
			t.Errorf("%s is accepted as %v", bad, got.quantity())
		}
	}
}
