package stepup

import (
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/regulator/loop"
)

// Source: LM5176 data sheet, section 8.2.2.14: for 6 V to 12 V, 6 A, with 400
// µF of 5 mΩ and 4.7 µH it aims at a crossover of 4 kHz, a zero of the
// compensation at 600 Hz and a pole at 28 kHz, and finds 9.49 kΩ, 27.9 nF and
// 568 pF. Its amplifier has 1.27 mS (from 9.49 kΩ = 2π · 4 kHz/gm · 15 · 5 · 8
// mΩ · 400 µF/0.5), its reference 0.8 V, its divider 280 kΩ and 20 kΩ. Its
// slope is that of the falling current, 6 V/4.7 µH, which leaves nothing of a
// disturbance after one period: a quality of 2/π.
func TestPublishedLoop(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("6 V"), Output: q("12 V"), Load: q("6 A"), Frequency: q("300 kHz"), Inductance: q("4.7 µH")}
	p, err := CurrentMode(CurrentModeInputs{Stage: stage, Capacitance: q("400 µF"), ESR: q("5 mΩ"), PowerStage: q("25 A/V"), Slope: q("1.27659574468 A/µs")})
	expect.Near(t, "SamplingQuality", expect.Must(t, p, err).SamplingQuality, "0.6366197724", 1e-9)
	m, err := loop.Margins(p.Plant, loop.Amplifier{
		Transconductance: q("1.2713 mS"), Upper: q("280 kΩ"), Lower: q("20 kΩ"),
		Resistor: q("9.49 kΩ"), Capacitor: q("27.9 nF"), HighCapacitor: q("568 pF"),
	})
	// It leaves out what zeros and poles add around the crossover: 1.011 · 1.027
	// · 0.990 of the gain, and less than 1 % elsewhere.
	expect.Near(t, "Crossover", expect.Must(t, m, err).Crossover, "4 kHz", 4e-2)
	// 180° − 83.6° of the pole − 13.3° of the right zero + 2.9° of the ESR − 8.5°
	// and 8.1° of the compensation − 1.2° of the sampling.
	expect.Near(t, "PhaseMargin", m.PhaseMargin, "68.2°", 2e-2)
	if m.GainMargin.SI() < 6 {
		t.Errorf("a gain margin of %v", m.GainMargin)
	}
}
