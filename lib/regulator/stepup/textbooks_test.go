package stepup

import (
	"testing"

	"ohmwright/lib/internal/expect"
)

// Source: M. H. Rashid, Power Electronics, 4th edition, example 5.6 (its
// numbers as a reader's worked script gives them): 5 V to 15 V, 0.5 A, 25 kHz,
// 150 µH, 220 µF: duty 66.67 %, 0.89 A of ripple, peak 1.945 A, 60.61 mV of
// ripple at the output. Its critical inductance of 133 µH holds half the
// ripple against the load in place of the inductor's current, three times as
// much: a third of it, 44.4 µH, is at the boundary.
func TestRashid(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("5 V"), Output: q("15 V"), Load: q("0.5 A"), Frequency: q("25 kHz"), Inductance: q("150 µH")}
	i, err := Currents(stage)
	expect.Near(t, "Duty", expect.Must(t, i, err).Duty, "66.67 %", 1e-4)
	expect.Near(t, "Ripple", i.Ripple, "0.89 A", 2e-3)
	expect.Near(t, "Peak", i.Peak, "1.945 A", 5e-4)
	expect.Near(t, "Mean", i.Mean, "1.5 A", 1e-12)
	r, err := OutputRipple(OutputRippleInputs{Stage: stage, Capacitance: q("220 µF")})
	expect.Near(t, "Capacitive", expect.Must(t, r, err).Capacitive, "60.61 mV", 1e-4)
	stage.Inductance = q("44.4444444444 µH")
	i, err = Currents(stage)
	expect.Near(t, "Boundary", expect.Must(t, i, err).Boundary, "0.5 A", 1e-9)
}

// Source: D. W. Hart, Power Electronics, example 6-4 (from memory): 12 V to
// 30 V at 50 Ω, 25 kHz: duty 0.6, at least 96 µH; with 120 µH a mean of 1.5 A
// between 0.3 A and 2.7 A, and 48 µF for 1 % of ripple. The last leaves out
// that the pulse ends 0.3 A below the load: (0.3 A)²/(2 · 150 kA/s) more than
// 14.4 µC.
func TestHart(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("12 V"), Output: q("30 V"), Load: q("0.6 A"), Frequency: q("25 kHz")}
	l, err := Inductance(InductanceInputs{Stage: stage, Ratio: q("200 %")})
	expect.Near(t, "least Inductance", expect.Must(t, l, err).Inductance, "96 µH", 1e-9)
	stage.Inductance = q("120 µH")
	i, err := Currents(stage)
	expect.Near(t, "Duty", expect.Must(t, i, err).Duty, "60 %", 1e-12)
	expect.Near(t, "Mean", i.Mean, "1.5 A", 1e-12)
	expect.Near(t, "Peak", i.Peak, "2.7 A", 1e-9)
	expect.Near(t, "Valley", i.Valley, "0.3 A", 1e-9)
	c, err := OutputCapacitor(OutputCapacitorInputs{Stage: stage, Capacitive: q("0.3 V"), Resistive: q("0.3 V")})
	expect.Near(t, "Capacitance", expect.Must(t, c, err).Capacitance, "48 µF", 2.1e-2)
	expect.Near(t, "Charge", c.Charge, "14.7 µC", 1e-9)
	expect.Near(t, "ESR", c.ESR, "0.111111111 Ω", 1e-8) // 0.3 V/2.7 A
}

// Source: Hart, example 6-9 or thereabouts (from memory): 20 V, duty 0.6, 100
// µH, 50 Ω, 15 kHz: the current rests, the output is 60 V, the peak 8 A.
// 20 V/2 · (1 + √(1 + 2 · 0.36 · 50 Ω/(100 µH · 15 kHz))) = 10 V · 6.
func TestHartBelowTheBoundary(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("20 V"), Output: q("60 V"), Load: q("1.2 A"), Frequency: q("15 kHz"), Inductance: q("100 µH")}
	i, err := Currents(stage)
	expect.Near(t, "OnShare", expect.Must(t, i, err).OnShare, "60 %", 1e-9)
	expect.Near(t, "Peak", i.Peak, "8 A", 1e-9)
	expect.Near(t, "Conduction", i.Conduction, "90 %", 1e-9) // the rectifier: 8 A · 100 µH/40 V of 66.7 µs
	if i.Valley.SI() != 0 {
		t.Errorf("Valley is %v", i.Valley)
	}
}
