package note_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"ohmwright/kernel/note"
	"ohmwright/units"
)

// Sensitivities by differentiation on paper. P = U²/R goes with the square of
// U and the inverse of R; a junction rises by θ · dP/dU; 10^(x/20) dB.
func TestTouchesBySlopes(t *testing.T) {
	t.Parallel()
	cells := []string{"U := Range(3V, 5V, 6V)\nR := 100Ω ± 1%\nT := 40°C\nG := 6dB\nn := 2.0\nleft := \"text\"",
		"P := U*U/R\nΔ := U - 5V\nTj := T + P*100°C/W",
		"d := divider.Plain(U, R, 100Ω)\nA := VoltageRatio(G) * n",
		"E := Nearest(E24, R*1.1)\nq := E*2\nRequire(Tj <= 100°C, \"cool\")\nRequire(U >= 2V, \"supply\")\nf := func(x Quantity) Quantity { return x + U }"}
	for _, c := range []struct {
		name, step string
		want       map[string]float64 // a share of the value, or in coherent units for those marked
	}{
		{"U", "1 %", map[string]float64{"P": 0.02, "=Δ": 0.05, "=Tj": 0.25 * 0.02 * 100, "d.Current": 0.01, "d.Ratio": 0}},
		{"R", "1 %", map[string]float64{"P": -0.01, "=Tj": -0.25 * 0.01 * 100, "d.Current": -0.005, "d.Ratio": -0.005, "E": 0, "q": 0}},
		{"T", "1 K", map[string]float64{"=Tj": 1}},
		{"G", "1 dB", map[string]float64{"A": math.Ln10 / 20}},
		{"n", "1 %", map[string]float64{"A": 0.01}},
		{"P", "1 %", map[string]float64{"=Tj": 0.25 * 0.01 * 100}}, // a computed value is moved as well
	} {
		n, _ := compute(t, cells...)
		got, err := n.Touches(context.Background(), c.name)
		if err != nil || got.Step != c.step || got.Trouble != "" {
			t.Errorf("%s: step %q, %v %s", c.name, got.Step, err, got.Trouble)
			continue
		}
		effects := map[string]note.Effect{}
		for _, v := range got.Values {
			for _, e := range v.Effects {
				effects[e.Name] = e
			}
		}
		for name, want := range c.want {
			plain, absolute := strings.CutPrefix(name, "=")
			e, ok := effects[plain]
			if !ok || !e.Known || e.Percent == absolute || math.Abs(e.Moves.SI()-want) > 1e-7*max(math.Abs(want), 1e-3) {
				t.Errorf("%s moves %s by %v (known %v), on paper %v", c.name, plain, e.Moves, e.Known, want)
			}
		}
	}
}

// The worst margin by hand, linear in all. Worst of U − 2·I·R over U from 4 V to
// 6 V, 10 Ω ± 1 % and 100 mA is 4 V − 2 · 0.1 A · 10.1 Ω = 1.98 V, nominal
// 5 V − 2 V = 3 V, and 0.5 V less to the limit. 1 % more of U are 40 mV and
// 50 mV more, of R 20.2 mV and 20 mV less, of the exact current as much. The
// other of two requirements in the same words is not mistaken for the first.
func TestTouchesMovesTheWorstMargin(t *testing.T) {
	t.Parallel()
	n, _ := compute(t, "U := Range(4V, 5V, 6V)\nI := 100mA", "R := 10Ω ± 1%", "V := U - 2*I*R\nRequire(V >= 0.5V, \"enough\")\nRequire(2*V >= 0.5V, \"enough\")\nRequire(I <= 1A, \"exact\")")
	for _, c := range []struct {
		name           string
		nominal, worst float64
	}{{"U", 50e-3, 40e-3}, {"R", -20e-3, -20.2e-3}, {"I", -20e-3, -20.2e-3}} {
		got, err := n.Touches(context.Background(), c.name)
		if err != nil {
			t.Fatal(err)
		}
		for i, times := range []float64{1, 2} {
			q := got.Requirements[i]
			if math.Abs(q.Worst.SI()-(1.98*times-0.5)) > 1e-12 || math.Abs(q.Moves.SI()-c.nominal*times) > 1e-8 || math.Abs(q.WorstMoves.SI()-c.worst*times) > 1e-8 {
				t.Errorf("%s: worst %v, moves %v, worst moves %v", c.name, q.Worst, q.Moves, q.WorstMoves)
			}
		}
		if c.name == "I" && (len(got.Requirements) != 3 || got.Requirements[2].WorstMoves != nil || math.Abs(got.Requirements[2].Moves.SI()+1e-3) > 1e-12) {
			t.Errorf("exact: %+v", got.Requirements)
		}
	}
}

// Afterwards all is as before, also under a what-if, and what does not depend
// on the name is not there.
func TestTouchesLeavesNoTrace(t *testing.T) {
	t.Parallel()
	n, before := compute(t, "U := 5V\nR := 100Ω\nI := U/R\nother := R*2\nRequire(I <= 60mA, \"enough\")\nRequire(other <= 1kΩ, \"not on U\")")
	if err := n.WhatIf(map[string]string{"R": "200Ω"}, false); err != nil {
		t.Fatal(err)
	}
	before = n.Run(context.Background())
	got, err := n.Touches(context.Background(), "U")
	if err != nil {
		t.Fatal(err)
	}
	if len(got.Values) != 1 || got.Values[0].Entry.Name != "I" || strings.Join(got.Values[0].Through, " ") != "U" {
		t.Errorf("values: %+v", got.Values)
	}
	if len(got.Requirements) != 1 || got.Requirements[0].Text != "enough" || math.Abs(got.Requirements[0].Moves.SI()+0.25e-3) > 1e-12 { // 1 % of 5 V/200 Ω
		t.Errorf("requirements: %+v", got.Requirements)
	}
	for i, r := range n.Run(context.Background()) {
		for k, it := range r.Items {
			e, ok := it.(*note.Entry)
			if ok && !e.Value.Quantity.(units.Quantity).Same(before[i].Items[k].(*note.Entry).Value.Quantity.(units.Quantity)) {
				t.Errorf("%s is %v afterwards", e.Name, e.Value.Quantity)
			}
		}
	}
}

func TestTouchesRefusals(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ cells, name, err, trouble string }{
		{"Vin := 9V", "Vni", "the note does not define Vni: did you mean Vin?", ""},
		{"x := 1V + 1A", "x", "x has no value: cell 1, line 1: cannot add 1 V (voltage) and 1 A (current): both sides need the same dimension", ""},
		{"Vin := 9V\nRequire(Vin > 1V, \"PWR-3: enough\")", "PWR-3", "PWR-3 is a requirement, on which nothing depends: ask for what it comes from, without --uses", ""},
		{"Part(\"C1\", 10µF)", "C1", "C1 is 10 µF, and no name of the note: define a name for it to see what depends on it", ""},
		{"Part(\"C1\", 10µF)", "C2", "the note does not define C2: did you mean C1?", ""},
		{"a, b := 1V, 2V\nc := a", "a", "", ""},
		{"f := func() (Quantity, Quantity) { return 1V, 2V }\na, b := f()\nc := a + b", "a", "", "a shares its expression with other names, and is not moved to see what that does"},
		{"s := \"x\"\nu := s + \"y\"", "s", "", "s is no quantity, and is not moved to see what that does"},
	} {
		n, _ := compute(t, c.cells)
		got, err := n.Touches(context.Background(), c.name)
		switch {
		case c.err != "" && (err == nil || err.Error() != c.err):
			t.Errorf("%s: %v", c.cells, err)
		case c.err == "" && (err != nil || got.Trouble != c.trouble):
			t.Errorf("%s: %v, %+v", c.cells, err, got)
		}
	}
}
