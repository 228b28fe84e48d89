package note_test

import (
	"math"
	"testing"

	"ohmwright/units"
)

// ΔT = P·R/(1 − α·P·R) with α = 0.4 %/K: 2 W · 55 K/W = 110 K gives 196.4 K,
// 0.5 W · 45 K/W = 22.5 K gives 24.7 K; the air adds −20 °C and 50 °C.
func TestSettleInANoteWithSpread(t *testing.T) {
	t.Parallel()
	_, rs := compute(t, "Ta := Range(-20°C, 25°C, 50°C)\nP := Range(0.5W, 1W, 2W)\nR := 50K/W ± 10%",
		"Tw := Settle(25°C, func(t Quantity) Quantity { return Ta + P*(1 + 0.4%/K*(t - Ta))*R })")
	if err := firstError(rs); err != nil {
		t.Fatal(err)
	}
	low, high, _ := entry(rs, "Tw").Value.Quantity.(units.Quantity).Limits()
	rise := func(pr float64) float64 { return pr / (1 - 0.004*pr) }
	if want := 273.15 - 20 + rise(22.5); math.Abs(low.SI()-want) > 1e-8 {
		t.Errorf("at least %v, want %v", low.SI(), want)
	}
	if want := 273.15 + 50 + rise(110); math.Abs(high.SI()-want) > 1e-8 {
		t.Errorf("at most %v, want %v", high.SI(), want)
	}
}

// A fan that runs where the air is above 40 °C and the part above 60 °C halves
// the resistance: without it the part is 60 K above the air, with it 30 K. The
// nominal case has none.
func TestSettleWithADecisionInside(t *testing.T) {
	t.Parallel()
	_, rs := compute(t, "Ta := Range(-10°C, -5°C, 50°C)",
		"T := Settle(0°C, func(t Quantity) Quantity {\n R := 60K/W\n if Ta > 40°C && t > 60°C { R = 30K/W }\n return Ta + 1W*R\n})")
	if err := firstError(rs); err != nil {
		t.Fatal(err)
	}
	low, high, _ := entry(rs, "T").Value.Quantity.(units.Quantity).Limits()
	// −10 °C + 60 K; and just below 40 °C, 100 °C, of which the sweep of the air
	// finds what it steps on above 35 °C.
	if low.String() != "50 °C" || high.SI() < 273.15+95 || high.SI() > 273.15+100 {
		t.Errorf("%v to %v", low, high)
	}
}
