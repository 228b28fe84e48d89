package note_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"ohmwright/kernel/note"
	"ohmwright/units"
)

// What a decision keeps some cases out of may fail in them: the root of a
// negative, a check of lib. Each case is computed by itself there, and only
// what it reaches itself counts.
func TestGuardedPlaceIsReachedByItsCasesOnly(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name, cell string
		low, high  float64
	}{
		// Nominally guarded in: √(12 − 5) at the usual input, 0 below 5 V, √(24 − 5) at most.
		{"root", "y := 0V\nif Vin > 5V { y = Sqrt((Vin - 5V)*1V) }", 0, math.Sqrt(19)},
		// The other way round: nominally kept out, and reached by some.
		{"other branch", "y := 1V\nif Vin < 5V { y = 2*Sqrt((5V - Vin)*1V) }", 1, 2},
		{"early return", "f := func(v Quantity) Quantity {\n if v < 5V { return 0V }\n return Sqrt((v - 5V)*1V) }\ny := f(Vin)", 0, math.Sqrt(19)},
		// 10 kΩ·(Vin/5 V − 1) above 5 V: 38 kΩ at 24 V.
		{"check of lib", "y := 0Ω\nif Vin > 5V { y = divider.MeasuringUpper(Vin, 5V, 10kΩ) }", 0, 38e3},
		{"own source", "R := 1kΩ ± 10%\ny := 0V\nif Vin > 5V { y = Sqrt((Vin - 5V)*1V)*R/1kΩ }", 0, 1.1 * math.Sqrt(19)},
		{"chosen before", "R := Nearest(E24, 1kΩ*Vin/12V)\nhi := High(Vin)\ny := 0V\nif Vin > 5V { y = Sqrt((Vin - 5V)*1V)*(R/1kΩ)*(hi/24V) }", 0, math.Sqrt(19)},
	} {
		_, rs := compute(t, "Vin := Range(4V, 12V, 24V)", c.cell, "z := 2*y")
		if err := firstError(rs); err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		q := entry(rs, "z").Value.Quantity.(units.Quantity)
		low, high, ok := q.Limits()
		if !ok || math.Abs(low.SI()-2*c.low) > 1e-9 || math.Abs(high.SI()-2*c.high) > 1e-9*c.high {
			t.Errorf("%s: %v to %v, want twice %v to %v", c.name, low, high, c.low, c.high)
		}
	}
}

// What fails in a case that does reach it is an error of that case.
func TestGuardThatLetsABadCaseThrough(t *testing.T) {
	t.Parallel()
	for cell, want := range map[string]string{
		"y := 0V\nif Vin > 5V { y = Sqrt((Vin - 8V)*1V) }":                             "where Vin is",
		"y := 0Ω\nif Vin > 3V { y = divider.MeasuringUpper(Vin, 5V, 10kΩ) }":           "it must be above reference, 5 V",
		"y := 0V\nif Vin > 5V { y = Sqrt((Vin - 5V)*1V) }\nR := AtLeast(E24, 1kΩ*y/y)": "where Vin is", // not known without the cases
	} {
		_, rs := compute(t, "Vin := Range(4V, 12V, 24V)", cell)
		err := firstError(rs)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: error %v, want %q", cell, err, want)
		}
	}
}

// What was printed before the failure is not printed twice.
func TestGuardedPlacePrintsOnce(t *testing.T) {
	t.Parallel()
	_, rs := compute(t, "import \"fmt\"", "Vin := Range(4V, 12V, 24V)",
		"fmt.Println(\"before\")\ny := 0V\nif Vin > 5V { y = Sqrt((Vin - 5V)*1V) }\nfmt.Println(\"after\")")
	printed := ""
	for _, r := range rs {
		for _, i := range r.Items {
			if p, ok := i.(*note.Printed); ok {
				printed += p.Text
			}
		}
	}
	if err := firstError(rs); err != nil || printed != "before\nafter\n" {
		t.Errorf("printed %q, error %v", printed, fmt.Sprint(err))
	}
}

// Under a what-if a choice stays what it was in the design as written (1 kΩ,
// the nearest to 1 kΩ · 12/12), also where the cases are computed one by one.
func TestChosenPartStaysWhereCasesPart(t *testing.T) {
	t.Parallel()
	n, rs := compute(t, "Vin := Range(6V, 12V, 24V)", "R := Nearest(E24, 1kΩ*Vin/12V)\nh := High(Vin)\ny := 0V\nif Vin > 5V { y = 1V*R/1kΩ }")
	if err := firstError(rs); err != nil {
		t.Fatal(err)
	}
	if err := n.WhatIf(map[string]string{"Vin": "Range(4V, 13V, 20V)"}, false); err != nil {
		t.Fatal(err)
	}
	rs = n.Run(context.Background())
	if err := firstError(rs); err != nil {
		t.Fatal(err)
	}
	low, high, _ := entry(rs, "y").Value.Quantity.(units.Quantity).Limits()
	if text(rs, "R") != "1 kΩ" || entry(rs, "R").Value.Quantity.(units.Quantity).HasSpread() || low.String() != "0 V" || high.String() != "1 V" {
		t.Errorf("R is %s, y from %v to %v", text(rs, "R"), low, high)
	}
	if got := text(rs, "h"); got != "20 V" {
		t.Errorf("the upper limit is %s", got)
	}
}
