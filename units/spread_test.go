package units

import (
	"fmt"
	"testing"
)

func limitsText(a Quantity) string {
	low, high, ok := a.Limits()
	if !ok {
		return fmt.Sprintf("%v ? %v", a, a.HasSpread())
	}
	return fmt.Sprintf("%v: %v … %v", a, low, high)
}

func TestLimitsAsGiven(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		got  Quantity
		want string
	}{
		{"exact", q("5 V"), "5 V ? false"},
		{"Range", Range(q("18 V"), q("24 V"), q("32 V")), "24 V: 18 V … 32 V"},
		{"Range of points", Range(q("-20 °C"), q("25 °C"), q("50 °C")), "25 °C: −20 °C … 50 °C"},
		{"Range of levels", Range(q("-20 dBm"), q("0 dBm"), q("10 dBm")), "0 dBm: −20 dBm … 10 dBm"},
		{"Range from 0", Range(Quantity{}, q("2 mA"), q("5 mA")), "2 mA: 0 A … 5 mA"},
		{"Range around 0", Range(q("-5 mV"), Quantity{}, q("5 mV")), "0 V: −5 mV … 5 mV"},
		{"± around 0", Tolerance(Quantity{}, q("5 mV")), "0 V: −5 mV … 5 mV"},
		{"Range keeps the unit", Range(q("1 C"), In(q("72 C"), "mAh"), q("0.1 Ah")), "20 mAh: 0.2778 mAh … 100 mAh"},
		{"Range of one value", Range(q("5 V"), q("5 V"), q("5 V")), "5 V: 5 V … 5 V"},
		{"Band", Band(q("788 mV"), q("800 mV"), q("812 mV")), "800 mV: 788 mV … 812 mV"},
		{"± %", Tolerance(q("10 kΩ"), q("1 %")), "10 kΩ: 9.9 kΩ … 10.1 kΩ"},
		{"± % of a negative value", Tolerance(q("-10 V"), q("1 %")), "−10 V: −10.1 V … −9.9 V"},
		{"± ppm", Tolerance(q("1 MHz"), q("50 ppm")), "1 MHz: 1 MHz … 1 MHz"},
		{"± value", Tolerance(q("5 V"), q("25 mV")), "5 V: 4.975 V … 5.025 V"},
		{"± K on a point", Tolerance(q("25 °C"), q("5 K")), "25 °C: 20 °C … 30 °C"},
		{"± dB on a level", Tolerance(q("14 dBm"), q("1.5 dB")), "14 dBm: 12.5 dBm … 15.5 dBm"},
		{"± dB on a gain", Tolerance(q("14 dB"), q("1.5 dB")), "14 dB: 12.5 dB … 15.5 dB"},
		{"± number on a number", Tolerance(Number(0.5), Number(0.1)), "0.5: 0.4 … 0.6"},
		{"± % on a number", Tolerance(Number(200), q("5 %")), "200: 190 … 210"},
		{"two terms", Tolerance(q("10 kΩ"), q("1 %"), q("0.5 %")), "10 kΩ: 9.85 kΩ … 10.15 kΩ"},
		{"a drift adds straight", Tolerance(q("10 kΩ"), q("1 %"), Drift(q("0.5 %"))), "10 kΩ: 9.85 kΩ … 10.15 kΩ"},
		{"normal", Tolerance(q("10 kΩ"), Normal(q("1 %"), 3)), "10 kΩ: 9.9 kΩ … 10.1 kΩ"},
		{"a normal Band", Normal(Band(q("788 mV"), q("800 mV"), q("812 mV")), 3), "800 mV: 788 mV … 812 mV"},
		{"Histogram", Histogram([]Quantity{q("1 V"), q("2 V"), q("4 V")}, []float64{1, 1}), "2.25 V: 1 V … 4 V"},
		{"Band and a term", Tolerance(Band(q("0.9 V"), q("1 V"), q("1.2 V")), q("1 %")), "1 V: 890 mV … 1.21 V"},
		{"0 %", Tolerance(q("10 kΩ"), q("0 %")), "10 kΩ: 10 kΩ … 10 kΩ"},
		{"Typical", Typical(q("5 V")), "5 V ? false"},
		{"Typical and a term", Tolerance(Typical(q("5 V")), q("1 %")), "5 V: 4.95 V … 5.05 V"},
		{"Another", Another(Tolerance(q("10 kΩ"), q("1 %"))), "10 kΩ: 9.9 kΩ … 10.1 kΩ"},
		{"Another of an exact value", Another(q("10 kΩ")), "10 kΩ ? false"},
		{"Nominal", Nominal(Tolerance(q("10 kΩ"), q("1 %"))), "10 kΩ ? false"},
		{"High", High(Tolerance(q("10 kΩ"), q("1 %"))), "10.1 kΩ ? false"},
		{"Low", Low(Range(q("18 V"), q("24 V"), q("32 V"))), "18 V ? false"},
		{"High of an exact value", High(q("5 V")), "5 V ? false"},
		{"High of a typical value", High(Typical(q("5 V"))), "5 V ? false"},
		{"In keeps the limits", In(Tolerance(q("10 kΩ"), q("1 %")), "Ω"), "10000 Ω: 9900 Ω … 10100 Ω"},
	} {
		if got := limitsText(c.got); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// Whatever is computed from a value with spread says so, whichever way it
// was computed; the nominal value is that of exact inputs.
func TestSpreadIsNeverLostOnTheWay(t *testing.T) {
	t.Parallel()
	s := NewStudy(StudyOptions{})
	r := s.Place("r", "r", Tolerance(q("10 kΩ"), q("1 %")))
	x := s.Place("x", "x", Tolerance(Number(0.5), q("1 %")))
	tp := s.Place("tp", "tp", Tolerance(q("25 °C"), q("5 K")))
	g := s.Place("g", "g", Tolerance(q("3 dB"), q("1 dB")))
	l := s.Place("l", "l", Tolerance(q("0 dBm"), q("1 dB")))
	v := s.Place("v", "v", Tolerance(q("0 dBV"), q("1 dB")))
	e := q("10 kΩ")
	for name, f := range map[string]func(r, x, tp, g, l, v Quantity) Quantity{
		"Mul":          func(r, x, tp, g, l, v Quantity) Quantity { return r.Mul(e) },
		"Mul right":    func(r, x, tp, g, l, v Quantity) Quantity { return e.Mul(r) },
		"Div":          func(r, x, tp, g, l, v Quantity) Quantity { return e.Div(r) },
		"Add":          func(r, x, tp, g, l, v Quantity) Quantity { return e.Add(r) },
		"Sub":          func(r, x, tp, g, l, v Quantity) Quantity { return r.Sub(e) },
		"Neg":          func(r, x, tp, g, l, v Quantity) Quantity { return r.Neg() },
		"Sub points":   func(r, x, tp, g, l, v Quantity) Quantity { return tp.Sub(q("20 °C")) },
		"Add point":    func(r, x, tp, g, l, v Quantity) Quantity { return tp.Add(q("20 K")) },
		"Add level":    func(r, x, tp, g, l, v Quantity) Quantity { return l.Add(q("20 dB")) },
		"Sub levels":   func(r, x, tp, g, l, v Quantity) Quantity { return l.Sub(q("20 dBm")) },
		"Mul gain":     func(r, x, tp, g, l, v Quantity) Quantity { return g.Mul(Number(2)) },
		"Sqrt":         func(r, x, tp, g, l, v Quantity) Quantity { return Sqrt(r) },
		"Pow":          func(r, x, tp, g, l, v Quantity) Quantity { return Pow(r, 2) },
		"Pow number":   func(r, x, tp, g, l, v Quantity) Quantity { return Pow(x, 1.7) },
		"Exp":          func(r, x, tp, g, l, v Quantity) Quantity { return Exp(x) },
		"Ln":           func(r, x, tp, g, l, v Quantity) Quantity { return Ln(x) },
		"Log10":        func(r, x, tp, g, l, v Quantity) Quantity { return Log10(x) },
		"Abs":          func(r, x, tp, g, l, v Quantity) Quantity { return Abs(r) },
		"Min":          func(r, x, tp, g, l, v Quantity) Quantity { return Min(q("1 kΩ"), r) },
		"Max":          func(r, x, tp, g, l, v Quantity) Quantity { return Max(r, q("100 kΩ")) },
		"Sin":          func(r, x, tp, g, l, v Quantity) Quantity { return Sin(x) },
		"Cos":          func(r, x, tp, g, l, v Quantity) Quantity { return Cos(x) },
		"Tan":          func(r, x, tp, g, l, v Quantity) Quantity { return Tan(x) },
		"Atan":         func(r, x, tp, g, l, v Quantity) Quantity { return Atan(x) },
		"Parallel":     func(r, x, tp, g, l, v Quantity) Quantity { return Parallel(e, r) },
		"Where":        func(r, x, tp, g, l, v Quantity) Quantity { return Where(r, q("1 kΩ"), e, e) },
		"Where other":  func(r, x, tp, g, l, v Quantity) Quantity { return Where(q("1 V"), q("2 V"), e, r) },
		"Absolute":     func(r, x, tp, g, l, v Quantity) Quantity { return Absolute(tp) },
		"Power":        func(r, x, tp, g, l, v Quantity) Quantity { return Power(l) },
		"Voltage":      func(r, x, tp, g, l, v Quantity) Quantity { return Voltage(v) },
		"Level":        func(r, x, tp, g, l, v Quantity) Quantity { return LevelOf(Power(l), q("1 mW")) },
		"PowerRatio":   func(r, x, tp, g, l, v Quantity) Quantity { return PowerRatio(g) },
		"VoltageRatio": func(r, x, tp, g, l, v Quantity) Quantity { return VoltageRatio(g) },
		"PowerGain":    func(r, x, tp, g, l, v Quantity) Quantity { return PowerGain(x) },
		"VoltageGain":  func(r, x, tp, g, l, v Quantity) Quantity { return VoltageGain(x) },
		"PowerSum":     func(r, x, tp, g, l, v Quantity) Quantity { return PowerSum(q("3 dBm"), l) },
		"Tolerance":    func(r, x, tp, g, l, v Quantity) Quantity { return Tolerance(r.Mul(Number(2)), q("1 %")) },
		"twice":        func(r, x, tp, g, l, v Quantity) Quantity { return r.Mul(r).Div(r) },
	} {
		got := f(r, x, tp, g, l, v)
		exact := f(Nominal(r), Nominal(x), Nominal(tp), Nominal(g), Nominal(l), Nominal(v))
		if !got.HasSpread() {
			t.Errorf("%s loses the spread", name)
		}
		// Every lane is what the same function gives of exact values in that case.
		if name != "Tolerance" {
			c := s.CasesOf([]Quantity{r, x, tp, g, l, v})
			for i := range c.Len() {
				p := func(q Quantity) Quantity { return c.Pick(q, i) }
				if want := f(p(r), p(x), p(tp), p(g), p(l), p(v)); !p(got).Same(want) {
					t.Fatalf("%s: %v where %s, want %v", name, p(got), c.Where(i), want)
				}
			}
		}
		if !got.Same(exact) {
			t.Errorf("%s: nominal value is %v, of exact inputs %v", name, got, exact)
		}
		if name != "Tolerance" && exact.HasSpread() {
			t.Errorf("%s makes spread of exact inputs", name)
		}
	}
}

func TestTypicalIsExactForArithmetic(t *testing.T) {
	t.Parallel()
	x := Typical(q("5 V"))
	if !x.IsTypical() || q("5 V").IsTypical() || Tolerance(x, q("1 %")).IsTypical() {
		t.Error("IsTypical is wrong")
	}
	if y := x.Mul(Number(2)); y.HasSpread() || y.String() != "10 V" {
		t.Errorf("a product of a typical value is %v", limitsText(y))
	}
}
