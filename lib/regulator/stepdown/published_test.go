package stepdown

import (
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"
)

// Tolerances of values that a data sheet prints with so many digits.
const (
	threeDigits = 5e-3
	twoDigits   = 3e-2
)

// Source: TPS54540 SLVSBX7 (May 2013) p. 22 to 24: 42 V, 3.3 V, 5 A, 400 kHz,
// ripple 0.3 of the load. Printed: 5.1 µH; with 4.8 µH 1.58 A of ripple, peak
// 5.79 A, 460 mA in the output capacitor, at least 30 µF and at most 10 mΩ for
// 16 mV. Unrounded: 5.069 µH, 1.5838 A, 5.7919 A, 457.2 mA, 30.9 µF, 10.1 mΩ.
func TestFortyTwoVolts(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("42 V"), Output: q("3.3 V"), Load: q("5 A"), Frequency: q("400 kHz")}
	l, err := Inductance(InductanceInputs{Stage: stage, Ratio: q("30 %")})
	expect.Near(t, "Inductance", expect.Must(t, l, err).Inductance, "5.1 µH", 1e-2)
	stage.Inductance = q("4.8 µH")
	i, err := Currents(stage)
	expect.Must(t, i, err)
	expect.Near(t, "Ripple", i.Ripple, "1.58 A", threeDigits)
	expect.Near(t, "Peak", i.Peak, "5.79 A", threeDigits)
	expect.Near(t, "InductorRMS", i.InductorRMS, "5 A", threeDigits)
	expect.Near(t, "OutputCapacitorRMS", i.OutputCapacitorRMS, "460 mA", 1e-2)
	c, err := OutputCapacitor(OutputCapacitorInputs{Stage: stage, Capacitive: q("16 mV"), Resistive: q("16 mV")})
	expect.Near(t, "Capacitance", expect.Must(t, c, err).Capacitance, "30 µF", twoDigits+1e-2)
	expect.Near(t, "ESR", c.ESR, "10 mΩ", 2e-2)
	// A step of 2.5 A and 130 mV, for two periods: 95 µF printed, 96.2 µF by
	// its own numbers; the source counts no slope, so take nearly no inductance.
	stage.Inductance = q("1 pH")
	s, err := StepCapacitor(StepCapacitorInputs{Stage: stage, Step: q("2.5 A"), Undershoot: q("0.13 V"), Overshoot: q("0.13 V"), Delay: q("5 µs")})
	expect.Near(t, "ForUndershoot", expect.Must(t, s, err).ForUndershoot, "96.153846 µF", 1e-6)
}

// Sources: TPS54531 SLVSBI5B (4.8 µH for 0.3; with 4.7 µH less 20 % 5.03 A
// RMS and 5.96 A peak: its equations put 0.8 before the inductance, from
// memory; 28 V, 5 V, 5 A, 570 kHz inferred), TPS54561 JAJSLY1G (7.6 µH for
// 0.3, with 7.2 µH 5.8 A peak; 60 V, 5 V, 5 A, 400 kHz inferred).
func TestInductorsOfDataSheets(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ name, input, frequency, inductance, chosen, peak, rms string }{
		{"TPS54531", "28 V", "570 kHz", "4.8 µH", "3.76 µH", "5.96 A", "5.03 A"},
		{"TPS54561", "60 V", "400 kHz", "7.6 µH", "7.2 µH", "5.8 A", "5 A"},
	} {
		stage := Stage{Input: q(test.input), Output: q("5 V"), Load: q("5 A"), Frequency: q(test.frequency)}
		l, err := Inductance(InductanceInputs{Stage: stage, Ratio: q("0.3")})
		expect.Near(t, test.name+" Inductance", expect.Must(t, l, err).Inductance, test.inductance, 6e-3)
		stage.Inductance = q(test.chosen)
		i, err := Currents(stage)
		expect.Near(t, test.name+" Peak", expect.Must(t, i, err).Peak, test.peak, 2e-3)
		expect.Near(t, test.name+" InductorRMS", i.InductorRMS, test.rms, threeDigits)
	}
}

// Source: TPS40400 SLUS930B p. 52: 750 nH, off-time 3.05 µs, 1.2 V, 20 A, 1.2
// mΩ: ripple 4.88 A, 20.05 A RMS, 22.44 A peak, 0.482 W in the winding; 50 mV
// of ripple with 521 µF at 300 kHz allow 9.45 mΩ; 10 A of step and 120 mV ask
// for 520 µF, which counts twice the charge of the triangle.
func TestTwentyAmperes(t *testing.T) {
	t.Parallel()
	// The off-time is 3.05 µs of 1/300 kHz, so the duty 0.085 and the input
	// 1.2 V/0.085.
	stage := Stage{Input: q("14.117647 V"), Output: q("1.2 V"), Load: q("20 A"), Frequency: q("300 kHz"), Inductance: q("750 nH")}
	i, err := Currents(stage)
	expect.Near(t, "Ripple", expect.Must(t, i, err).Ripple, "4.88 A", 1e-6)
	expect.Near(t, "InductorRMS", i.InductorRMS, "20.05 A", 1e-4)
	expect.Near(t, "Peak", i.Peak, "22.44 A", 1e-6)
	r, err := OutputRipple(OutputRippleInputs{Stage: stage, Capacitance: q("521 µF"), ESR: q("9.45 mΩ")})
	expect.Near(t, "Total", expect.Must(t, r, err).Total, "50 mV", 1e-3)
	s, err := StepCapacitor(StepCapacitorInputs{Stage: stage, Step: q("10 A"), Undershoot: q("120 mV"), Overshoot: q("120 mV")})
	expect.Near(t, "twice ForOvershoot", expect.Must(t, s, err).ForOvershoot.Mul(units.Number(2)), "520.8333 µF", 1e-6)
	// 0.482 W: 20.05² · 1.2 mΩ = 0.4824 W. The drop of the winding moves the
	// duty by 2 % and the ripple by less.
	stage.Winding = q("1.2 mΩ")
	p, err := Losses(LossesInputs{Stage: stage})
	expect.Near(t, "Winding", expect.Must(t, p, err).Winding, "0.482 W", 2e-3)
}

// Source: TPS40303 SLUS964A p. 15 and 16: 14 V, 1.8 V, 10 A, 1.2 MHz; step
// 4 A and 100 mV with the chosen 400 nH: 35.6 µF, twice the triangle's charge;
// 36 mV with 3.5 A of ripple and 35 µF: 7.3 mΩ. Its inductor is in error (471
// nH printed, 435.7 nH by its
// own formula). Input capacitor: 8 V, duty 0.225, 4.18 A; 150 mV at 11.75 A
// of peak: 12.7 mΩ; its 12.5 µF leaves out the factor 1 − duty.
func TestTenAmperes(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("14 V"), Output: q("1.8 V"), Load: q("10 A"), Frequency: q("1.2 MHz"), Inductance: q("400 nH")}
	s, err := StepCapacitor(StepCapacitorInputs{Stage: stage, Step: q("4 A"), Undershoot: q("100 mV"), Overshoot: q("100 mV")})
	expect.Near(t, "twice ForOvershoot", expect.Must(t, s, err).ForOvershoot.Mul(units.Number(2)), "35.6 µF", 2e-3)
	// 1.8 V · (1 − 1.8/14)/(1.2 MHz · 3.5 A) = 373.469 nH makes 3.5 A.
	stage.Inductance = q("373.46939 nH")
	r, err := OutputRipple(OutputRippleInputs{Stage: stage, Capacitance: q("35 µF"), ESR: q("7.3 mΩ")})
	expect.Near(t, "Total", expect.Must(t, r, err).Total, "36 mV", 2e-3)

	// 1.8 V · (1 − 0.225)/(1.2 MHz · 3.5 A) = 332.143 nH makes 3.5 A at 8 V.
	stage.Input, stage.Inductance = q("8 V"), q("332.14286 nH")
	c, err := InputCapacitor(InputCapacitorInputs{Stage: stage, Capacitive: q("150 mV"), Resistive: q("150 mV")})
	expect.Near(t, "ESR", expect.Must(t, c, err).ESR, "12.77 mΩ", 1e-3)
	expect.Near(t, "Capacitance", c.Capacitance, "9.6875 µF", 1e-6) // 12.5 µF · (1 − 0.225)
	in, err := InputRipple(InputRippleInputs{Stage: stage, Capacitance: q("12.5 µF")})
	expect.Near(t, "UsualRMS", expect.Must(t, in, err).UsualRMS, "4.176 A", 1e-3)
}

// Source: TPS56221 SLUSAH5B p. 16: 14 V, 1.0 V, 25 A, 500 kHz; 320 nH make
// 5.80 A of ripple and 25.06 A RMS; 186 nH belong to a ratio of 0.4 (0.3 is
// printed); step 10 A and 100 mV: 320 µF, twice the triangle's charge.
func TestTwentyFiveAmperes(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("14 V"), Output: q("1 V"), Load: q("25 A"), Frequency: q("500 kHz")}
	l, err := Inductance(InductanceInputs{Stage: stage, Ratio: q("40 %")})
	expect.Near(t, "Inductance", expect.Must(t, l, err).Inductance, "186 nH", threeDigits)
	stage.Inductance = q("320 nH")
	i, err := Currents(stage)
	expect.Near(t, "Ripple", expect.Must(t, i, err).Ripple, "5.80 A", 1e-3)
	expect.Near(t, "InductorRMS", i.InductorRMS, "25.06 A", 2e-4)
	s, err := StepCapacitor(StepCapacitorInputs{Stage: stage, Step: q("10 A"), Undershoot: q("100 mV"), Overshoot: q("100 mV")})
	expect.Near(t, "twice ForOvershoot", expect.Must(t, s, err).ForOvershoot.Mul(units.Number(2)), "320 µF", 1e-9)
}

// Source: RMS value of a trapezoid, computed by hand: 14 V, 1.8 V, 10 A with
// 2.6 A of ripple: √(D · (10² + 2.6²/12) − (10 · D)²) = 3.358 A.
func TestInputCapacitorExactly(t *testing.T) {
	t.Parallel()
	// 1.8 V · (1 − 1.8/14)/(1 MHz · 2.6 A) = 603.2967 nH.
	stage := Stage{Input: q("14 V"), Output: q("1.8 V"), Load: q("10 A"), Frequency: q("1 MHz"), Inductance: q("603.2967 nH")}
	in, err := InputRipple(InputRippleInputs{Stage: stage, Capacitance: q("10 µF"), ESR: q("1 mΩ")})
	expect.Near(t, "RMS", expect.Must(t, in, err).RMS, "3.358 A", 2e-4)
	expect.Near(t, "UsualRMS", in.UsualRMS, "3.347 A", 2e-4)
	expect.Near(t, "Average", in.Average, "1.2857143 A", 1e-7)
	expect.Near(t, "Heat", in.Heat, "11.276 mW", 3e-4) // 3.358² · 1 mΩ
}

// Source: TPS54061 SLVSBB7C p. 24: below the boundary with D1 0.1345 and
// input/output 4.8 (inferred): D2 0.5111, and 0.1078 A in the inductor for
// 0.0774 A in the output capacitor, 1.3928 times as much.
func TestBelowTheBoundary(t *testing.T) {
	t.Parallel()
	// D1 is 1/4.8 of the conduction: 0.6456, so the load is 0.6456² of the
	// boundary. With 24 V, 5 V, 1 MHz and 39.583333 µH the full ripple is
	// 5 V · (1 − 1/4.8)/(1 MHz · 39.583333 µH) = 0.1 A, the boundary 50 mA.
	stage := Stage{Input: q("24 V"), Output: q("5 V"), Load: q("20.8399968 mA"), Frequency: q("1 MHz"), Inductance: q("39.583333 µH")}
	i, err := Currents(stage)
	expect.Near(t, "OnShare", expect.Must(t, i, err).OnShare, "0.1345", 1e-5)
	expect.Near(t, "the share of the low side", i.Conduction.Sub(i.OnShare), "0.5111", 1e-5)
	expect.Near(t, "the ratio of both RMS", i.InductorRMS.Div(i.OutputCapacitorRMS), "1.3928", 1e-3)
	if i.Valley.SI() != 0 {
		t.Errorf("below the boundary Valley is %v", i.Valley)
	}
}

// Source: TPS54360 SLVSBB4C (October 2012) p. 33: 12 V, 5 V, 3.5 A, 600 kHz,
// 92 mΩ, 4.9 ns, 3 nC, 146 µA: 0.47, 0.123, 0.022 and 0.0018 W, 0.616 W in all.
// Its conduction loss takes the duty without drops, 5/12: I²·R·D = 0.4696 W;
// with the drop of the switch the duty is 5/(12 − 0.322) and it is 0.4825 W.
func TestPublishedLosses(t *testing.T) {
	t.Parallel()
	p, err := Losses(LossesInputs{
		// Hardly any ripple, which the source leaves out.
		Stage:    Stage{Input: q("12 V"), Output: q("5 V"), Load: q("3.5 A"), Frequency: q("600 kHz"), Inductance: q("1 H"), HighSwitch: q("92 mΩ"), Diode: q("0 V")},
		RiseTime: q("4.9 ns"), FallTime: q("4.9 ns"), GateCharge: q("3 nC"), Quiescent: q("146 µA"),
	})
	expect.Near(t, "HighConduction", expect.Must(t, p, err).HighConduction, "0.48253126 W", 1e-6) // 3.5² · 92 mΩ · 5/11.678
	expect.Near(t, "Switching", p.Switching, "0.123 W", threeDigits)
	expect.Near(t, "Gate", p.Gate, "0.022 W", 2e-2)
	expect.Near(t, "Quiescent", p.Quiescent, "0.0018 W", 3e-2)
	expect.Near(t, "Regulator", p.Regulator, "0.616 W", 3e-2)
	// 12.25 A² · 92 mΩ · 5/11.678 + 123.48 + 21.6 + 1.752 mW.
	expect.Near(t, "Regulator", p.Regulator, "0.62936326 W", 1e-6)
	expect.Near(t, "Efficiency", p.Efficiency, "96.528487 %", 1e-6) // 17.5/18.12936326
}
