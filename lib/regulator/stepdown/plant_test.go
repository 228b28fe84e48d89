package stepdown

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
)

// The textbook's buck regulator, 28 V to 15 V at 3 Ω with 50 µH and 500 µF:
// Erickson and Maksimović, Fundamentals of Power Electronics, section 9.5.4,
// from memory: 1 kHz and a Q of 9.5, 28 V/4 V at low frequency. And L5987 Doc ID
// 14972 Rev 3 p. 20 to 23: 9 at any input, 10.73 kHz and 1.63 by its equations.
func TestPublishedVoltageModePlants(t *testing.T) {
	t.Parallel()
	p, err := VoltageMode(VoltageModeInputs{
		Stage:       Stage{Input: q("28 V"), Output: q("15 V"), Load: q("5 A"), Frequency: q("100 kHz"), Inductance: q("50 µH")},
		Capacitance: q("500 µF"), Ramp: q("4 V"),
	})
	expect.Must(t, p, err)
	expect.Near(t, "Gain", p.Gain, "7", 1e-12)
	expect.Near(t, "Resonance", p.Resonance, "1 kHz", 0.01)
	expect.Near(t, "Quality", p.Quality, "9.5", 0.01)
	for _, input := range []string{"8 V", "12 V", "18 V"} {
		p, err := VoltageMode(VoltageModeInputs{
			Stage:       Stage{Input: q(input), Output: q("3.3 V"), Load: q("3 A"), Frequency: q("250 kHz"), Inductance: q("10 µH")},
			Capacitance: q("22 µF"), ESR: q("1 mΩ"), RampShare: of(1.0/9, ""),
		})
		expect.Must(t, p, err)
		expect.Near(t, "Gain from "+input, p.Gain, "9", 1e-9)
		expect.Near(t, "Resonance", p.Resonance, "10.73 kHz", 1e-3)
		expect.Near(t, "Quality", p.Quality, "1.63", 5e-3)
		expect.Near(t, "ESRZero", p.ESRZero, "7.234 MHz", 1e-3) // 1/(2π · 1 mΩ · 22 µF)
	}
}

// Below the boundary of conduction, by the textbook's formulas (Erickson and
// Maksimović, tables 11.3 and 11.4, from memory) and by hand: 24 V to 12 V, M
// = 0.5, 120 Ω, 10 µH, 100 kHz: K = 2·10 µH·100 kHz/120 Ω = 1/60, D = M·√(K/(1 − M))
// = 9.129 %; 2·12 V/D · (1 − M)/(2 − M) = 87.64 V; (2 − M)/((1 − M)·120 Ω·10 µF) and
// 2·M·100 kHz/D, over 2π, are 397.9 Hz and 174.3 kHz.
func TestTextbookPlantBelowTheBoundary(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("24 V"), Output: q("12 V"), Load: q("0.1 A"), Frequency: q("100 kHz"), Inductance: q("10 µH")}
	p, err := VoltageMode(VoltageModeInputs{Stage: stage, Capacitance: q("10 µF"), Ramp: q("1 V")})
	expect.Must(t, p, err)
	expect.Near(t, "Gain", p.Gain, "87.64", 1e-3)
	expect.Near(t, "Resonance", p.Resonance, "8.328 kHz", 1e-3) // √(397.9 Hz · 174.3 kHz)
	expect.Near(t, "Quality", p.Quality, "0.04767", 1e-3)       // 8.328/(0.3979 + 174.3)
	// With current mode the pole is (2 − 3M)/(1 − M)/(R·C), which is 1/(R·C) here:
	// 132.6 Hz; the peak is 1.2 A/µs · 0.9129 µs = 1.0954 A, and the gain at 5 A/V
	// 5 · 2 · 0.1 A/1.0954 A · 120 Ω = 109.5.
	c, err := CurrentMode(CurrentModeInputs{Stage: stage, Capacitance: q("10 µF"), PowerStage: q("5 A/V")})
	expect.Must(t, c, err)
	expect.Near(t, "Pole", c.Pole, "132.6 Hz", 1e-3)
	expect.Near(t, "Gain", c.Gain, "109.5", 1e-3)
	expect.Near(t, "SlopeRatio", c.SlopeRatio, "1", 1e-12)
	// Without a slope it runs away above M = 2/3.
	for output, runs := range map[string]bool{"15.9 V": false, "16.1 V": true} {
		stage.Output = q(output)
		if _, err := CurrentMode(CurrentModeInputs{Stage: stage, Capacitance: q("10 µF"), PowerStage: q("5 A/V")}); (err != nil) != runs {
			t.Errorf("at %s: %v", output, err)
		}
	}
}

// Ridley 1991, from memory: the gain is R · gps/(1 + R · T/L · (mc · D′ − 0.5)),
// the pole 1/(R·C) + T/(L·C) · (mc · D′ − 0.5), the quality 1/(π · (mc · D′ − 0.5)).
// By hand for 12 V to 9 V, D = 0.75, 3 Ω, 10 µH, 400 kHz, 47 µF and a ramp as steep
// as the falling current, 0.9 A/µs over 0.3 A/µs: mc = 4, mc · D′ − 0.5 = 0.5; R · T/L =
// 0.75: 3 Ω · 5 S/1.375 = 10.91; (7092 + 2660)/2π = 1552 Hz; 2/π.
func TestPublishedCurrentModePlant(t *testing.T) {
	t.Parallel()
	in := CurrentModeInputs{
		Stage:       Stage{Input: q("12 V"), Output: q("9 V"), Load: q("3 A"), Frequency: q("400 kHz"), Inductance: q("10 µH")},
		Capacitance: q("47 µF"), PowerStage: q("5 A/V"), Slope: q("0.9 A/µs"),
	}
	c, err := CurrentMode(in)
	expect.Must(t, c, err)
	expect.Near(t, "SlopeRatio", c.SlopeRatio, "4", 1e-9)
	expect.Near(t, "Gain", c.Gain, "10.91", 1e-3)
	expect.Near(t, "Pole", c.Pole, "1552 Hz", 1e-3)
	expect.Near(t, "SamplingQuality", c.SamplingQuality, "0.6366", 1e-4)
	expect.Near(t, "LeastSlope", c.LeastSlope, "0.3 A/µs", 1e-9) // (0.9 − 0.3)/2
	// A slope as steep as the falling current makes 2/π at any input.
	for _, input := range []float64{9.5, 15, 40} {
		in.Stage.Input = of(input, "V")
		c, err := CurrentMode(in)
		expect.Must(t, c, err)
		expect.Near(t, "SamplingQuality", c.SamplingQuality, of(2/math.Pi, "").Text(0), 1e-9)
	}
}
