package stepup

import (
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"
)

// Source: TPS65140 SLVS497E p. 13: 3.3 V to 10 V, diode 0.8 V, switch 0.5 V,
// 300 mA, 1.6 MHz, 4.2 µH: duty 0.73, 1.11 A in the inductor, 304 mA of ripple,
// peak 1.26 A. It takes (10 + 0.8 − 3.3)/(10 + 0.8 − 0.5) = 0.7282 for the duty
// and the rounded 0.73 from there on: 0.3/0.27 = 1.111 A, (3.3 − 0.5)/4.2 µH ·
// 0.73/1.6 MHz = 304 mA. The switch of 0.5 V is 0.5 V/1.1036 A here, where
// 1.1036 A is 0.3/(1 − 0.7282).
func TestTenVolts(t *testing.T) {
	t.Parallel()
	stage := Stage{
		Input: q("3.3 V"), Output: q("10 V"), Load: q("300 mA"), Frequency: q("1.6 MHz"), Inductance: q("4.2 µH"),
		Diode: q("0.8 V"), Switch: q("0.5 V").Div(q("1.10357143 A")),
	}
	d, err := Duty(stage)
	expect.Near(t, "Duty", expect.Must(t, d, err).Duty, "0.7281553398", 1e-7) // 7.5/10.3
	expect.Near(t, "Duty", d.Duty, "0.73", 3e-3)
	expect.Near(t, "Mean", d.Mean, "1.11 A", 1e-2)
	expect.Near(t, "SwitchDrop", d.SwitchDrop, "0.5 V", 1e-7)
	i, err := Currents(stage)
	expect.Near(t, "Ripple", expect.Must(t, i, err).Ripple, "304 mA", 5e-3)
	expect.Near(t, "Peak", i.Peak, "1.26 A", 5e-3)
	expect.Near(t, "RectifierAverage", i.RectifierAverage, "300 mA", 1e-12)
}

// Source: LM5176 data sheet, section 8.2.2, its four-switch regulator stepping
// 6 V up to 12 V, 6 A, 300 kHz (the frequency from 2.8 µH: 36 · 6/(0.3 · 6 ·
// 300 kHz · 144) = 2.778 µH). Printed: 2.8 µH for 30 %; with 4.7 µH 2.1 A of
// ripple; 13.3 A of mean current at 90 %, peak 14.4 A; 6 A of RMS current in
// the output capacitor, 60 mV across 5 mΩ and 25 mV across 400 µF; the pole
// at 398 Hz, the zero of the ESR at 79.6 kHz, that in the right half plane at
// 16.9 kHz, and a third of it, rounded down to 4 kHz, as crossover.
func TestSixToTwelveVolts(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("6 V"), Output: q("12 V"), Load: q("6 A"), Frequency: q("300 kHz")}
	// It takes 30 % of the load for that of the mean current, twice as much
	// here; its factor (6/12)² instead of 6/12 does the same.
	l, err := Inductance(InductanceInputs{Stage: stage, Ratio: q("30 %")})
	expect.Near(t, "Inductance", expect.Must(t, l, err).Inductance, "2.8 µH", 1e-2)
	stage.Inductance = q("4.7 µH")
	i, err := Currents(stage)
	expect.Near(t, "Ripple", expect.Must(t, i, err).Ripple, "2.1 A", 2e-2)
	expect.Near(t, "Ripple", i.Ripple, "2.127659574 A", 1e-9) // 6 V · 0.5/(300 kHz · 4.7 µH)
	r, err := OutputRipple(OutputRippleInputs{Stage: stage, Capacitance: q("400 µF"), ESR: q("5 mΩ")})
	expect.Near(t, "UsualRMS", expect.Must(t, r, err).UsualRMS, "6 A", 1e-12)
	expect.Near(t, "RMS", r.RMS, "6 A", 1e-2)
	expect.Near(t, "Capacitive", r.Capacitive, "25 mV", 1e-12)
	expect.Near(t, "Resistive", r.Resistive, "60 mV", 0.1) // it leaves out half the ripple: 5 mΩ · 1.06 A
	z, err := RightHalfPlaneZero(RightHalfPlaneZeroInputs{Stage: stage})
	expect.Near(t, "Zero", expect.Must(t, z, err).Zero, "16.9 kHz", 3e-3)
	expect.Near(t, "LoadResistance", z.LoadResistance, "2 Ω", 1e-12)
	expect.Near(t, "Crossover", z.Crossover, "5.644 kHz", 1e-3) // 16.93 kHz/3, for which it takes 4 kHz
	p, err := CurrentMode(CurrentModeInputs{Stage: stage, Capacitance: q("400 µF"), ESR: q("5 mΩ"), PowerStage: q("25 A/V"), Slope: q("0.1 A/µs")})
	// It leaves out what the ripple takes from the gain, and the ESR: 0.25 ·
	// (0.1 + 0.638) A/µs/(300 kHz · 12 V) of 1.051 S, and 0.5 % of the pole.
	expect.Near(t, "Pole", expect.Must(t, p, err).Pole, "398 Hz", 5e-2)
	expect.Near(t, "ESRZero", p.ESRZero, "79.6 kHz", 1e-3)
	expect.Near(t, "RightZero", p.RightZero, "16.9 kHz", 3e-3)
	// It finds the amplifier's resistor from 2π · 4 kHz · 5 · 8 mΩ · 400 µF/0.5
	// = 0.804 V/V at 4 kHz; 5 · 8 mΩ are 25 A/V. Far above the pole the plant is
	// Gain · Pole/4 kHz, the inverse of that.
	expect.Near(t, "the plant at 4 kHz", p.Gain.Mul(p.Pole).Div(q("4 kHz")), "1.243398", 1e-2) // 0.5/(2π · 4 kHz · 0.04 · 400 µF)

	stage.Efficiency = q("90 %")
	d, err := Duty(stage)
	expect.Near(t, "Mean", expect.Must(t, d, err).Mean, "13.3 A", 3e-3)
	i, err = Currents(stage)
	expect.Near(t, "Peak", expect.Must(t, i, err).Peak, "14.4 A", 1e-2)
	// The efficiency lengthens the duty here, not there: 6 V · 0.55/(2 · 300
	// kHz · 4.7 µH) = 1.170 A of half ripple in place of 1.064 A.
	expect.Near(t, "Peak", i.Peak, "14.50354610 A", 1e-8)
}

// Source: SLVA372D, Basic Calculation of a Boost Converter's Power Stage (its
// equations from memory; it has no numbers): D = 1 − Vin · η/Vout, ΔI = Vin · D
// /(f · L), Imaxout = (Ilim − ΔI/2) · (1 − D), peak = ΔI/2 + Iout/(1 − D). By
// hand for 3 V, 12 V, 80 %, 1 MHz, 10 µH, 2 A: D = 0.8; 240 mA; 1.88 A · 0.2 =
// 376 mA; at 0.2 A 1.12 A.
func TestEfficiencyInPlaceOfDrops(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("3 V"), Output: q("12 V"), Load: q("0.2 A"), Frequency: q("1 MHz"), Inductance: q("10 µH"), Efficiency: q("80 %")}
	l, err := CurrentLimit(CurrentLimitInputs{Stage: stage, Limit: q("2 A"), Delay: q("100 ns"), Saturation: q("3 A")})
	expect.Near(t, "MostLoad", expect.Must(t, l, err).MostLoad, "376 mA", 1e-9)
	expect.Near(t, "MostMean", l.MostMean, "1.88 A", 1e-9)
	expect.Near(t, "Peak", l.Peak, "1.12 A", 1e-9)
	expect.Near(t, "Overrun", l.Overrun, "30 mA", 1e-9) // 3 V · 100 ns/10 µH
	expect.Near(t, "LargestPeak", l.LargestPeak, "2.03 A", 1e-9)
	expect.Near(t, "SaturationMargin", l.SaturationMargin, "0.97 A", 1e-9)
	expect.Near(t, "SaturationShare", l.SaturationShare, "32.33333333 %", 1e-9)
	d, err := Duty(stage)
	expect.Near(t, "Duty", expect.Must(t, d, err).Duty, "80 %", 1e-12)
}

// Source: Erickson and Maksimović, Fundamentals of Power Electronics, section
// 3.2, from memory: with a winding of RL, V/Vg = 1/D' · 1/(1 + RL/(D'² · R))
// and η = 1/(1 + RL/(D'² · R)); for RL/R = 0.02 the highest V/Vg is at D' =
// √0.02, 1/(2 · √0.02) = 3.5355.
func TestWindingLimitsTheOutput(t *testing.T) {
	t.Parallel()
	// D' = 0.5, R = 100 Ω, RL = 2 Ω, Vg = 10 V: 10/0.5/(1 + 2/25) = 18.5185 V.
	stage := Stage{Input: q("10 V"), Output: q("18.5185185185 V"), Load: q("185.185185185 mA"), Frequency: q("100 kHz"), Inductance: q("10 mH"), Winding: q("2 Ω")}
	d, err := Duty(stage)
	expect.Near(t, "Duty", expect.Must(t, d, err).Duty, "50 %", 1e-9)
	p, err := Losses(LossesInputs{Stage: stage})
	expect.Near(t, "Efficiency", expect.Must(t, p, err).Efficiency, "92.5925926 %", 1e-5) // 1/1.08; the ripple adds a little
	expect.Near(t, "PassThrough", d.PassThrough, "9.62962963 V", 1e-9)                    // 10 − 0.185185 · 2

	// At the highest output the load is 35.355 V/100 Ω; just above it fails.
	stage.Output, stage.Load = q("35.35533 V"), q("353.5533 mA")
	d, err = Duty(stage)
	expect.Near(t, "Duty at the highest output", expect.Must(t, d, err).Duty, "85.857864 %", 1e-3) // 1 − √0.02
	stage.Output, stage.Load = q("35.3554 V"), q("353.554 mA")
	if _, err = Duty(stage); err == nil {
		t.Error("no error above the highest output")
	}
	if highest := stage.highest(); highest.SI() > 35.35533906 || highest.SI() < 35.355 {
		t.Errorf("the highest output is %v", highest)
	}
}

// Source: Erickson and Maksimović, section 5.3, from memory: below the
// boundary V/Vg = (1 + √(1 + 4D²/K))/2 with K = 2L/(R · T), and the boundary is
// at K = D · (1 − D)². By hand for D = 0.5, K = 0.04: M = (1 + √26)/2 =
// 3.0495098.
func TestBelowTheBoundary(t *testing.T) {
	t.Parallel()
	// Vg = 10 V, R = 1 kΩ, T = 10 µs: L = 0.04 · 1 kΩ · 10 µs/2 = 200 µH.
	stage := Stage{Input: q("10 V"), Output: q("30.49509757 V"), Load: q("30.49509757 mA"), Frequency: q("100 kHz"), Inductance: q("200 µH")}
	i, err := Currents(stage)
	expect.Near(t, "OnShare", expect.Must(t, i, err).OnShare, "50 %", 1e-9)
	expect.Near(t, "Peak", i.Peak, "250 mA", 1e-8) // 10 V · 5 µs/200 µH
	// The boundary at this ratio: D = 1 − 1/M = 0.672078, K = D · (1 − D)² =
	// 0.0722703, R = 2L/(K · T) = 553.478 Ω, so 30.4951 V/553.478 Ω.
	expect.Near(t, "Boundary", i.Boundary, "55.09725 mA", 1e-5)
	expect.Near(t, "the mean", i.Mean, "92.9950975 mA", 1e-8) // 30.4951 V · 30.4951 mA/10 V
}

// Source: textbook values for 5 V to 10 V without drops: 1 A of load, 100 kHz,
// 50 µH: duty 0.5, 2 A, ripple 0.5 A (5 V · 5 µs/50 µH).
func TestByHand(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("5 V"), Output: q("10 V"), Load: q("1 A"), Frequency: q("100 kHz"), Inductance: q("50 µH")}
	i, err := Currents(stage)
	expect.Must(t, i, err)
	r, err := OutputRipple(OutputRippleInputs{Stage: stage, Capacitance: q("100 µF"), ESR: q("10 mΩ")})
	expect.Must(t, r, err)
	in, err := InputRipple(InputRippleInputs{Stage: stage, Capacitance: q("10 µF"), ESR: q("10 mΩ")})
	expect.Must(t, in, err)
	tm, err := Timing(TimingInputs{Stage: stage, LeastOn: q("500 ns"), LeastOff: q("400 ns"), MostDuty: q("90 %")})
	expect.Must(t, tm, err)
	s, err := LoadStep(LoadStepInputs{Stage: stage, Step: q("0.5 A"), Capacitance: q("470 µF"), ESR: q("10 mΩ")})
	expect.Must(t, s, err)
	lossy := stage
	lossy.Switch, lossy.Sense, lossy.Diode, lossy.Winding = q("0.1 Ω"), q("20 mΩ"), q("0.5 V"), q("50 mΩ")
	d, err := Duty(lossy)
	expect.Must(t, d, err)
	x, err := Rectifier(RectifierInputs{Stage: lossy, Ringing: q("25 %"), Rating: q("20 V"), Leakage: q("1 mA")})
	expect.Must(t, x, err)
	in1, err := Inrush(InrushInputs{Input: q("5 V"), Diode: q("0.5 V"), Charged: q("0.5 V"), Inductance: q("50 µH"), Capacitance: q("200 µF"), Resistance: q("0.6 Ω")})
	expect.Must(t, in1, err)
	v, err := VoltageMode(VoltageModeInputs{Stage: stage, Capacitance: q("200 µF"), ESR: q("10 mΩ"), Ramp: q("2 V")})
	expect.Must(t, v, err)
	c, err := CurrentMode(CurrentModeInputs{Stage: stage, Capacitance: q("200 µF"), PowerStage: q("5 A/V"), Slope: q("50 mA/µs")})
	expect.Must(t, c, err)
	for _, x := range []struct {
		name string
		got  units.Quantity
		want string
	}{
		{"Duty", i.Duty, "50 %"}, {"Mean", i.Mean, "2 A"}, {"Ripple", i.Ripple, "0.5 A"}, {"Peak", i.Peak, "2.25 A"}, {"Valley", i.Valley, "1.75 A"},
		{"Boundary", i.Boundary, "125 mA"},
		{"SwitchAverage", i.SwitchAverage, "1 A"},
		{"SwitchRMS", i.SwitchRMS, "1.41789045 A"},                   // √(0.5 · (4 + 0.25/12))
		{"OutputCapacitorRMS", i.OutputCapacitorRMS, "1.00519485 A"}, // √(0.5 · (4 · 0.5 + 0.25/12))
		{"InputCapacitorRMS", i.InputCapacitorRMS, "0.144337567 A"},  // 0.5/√12
		{"Charge", r.Charge, "5 µC"}, {"Capacitive", r.Capacitive, "50 mV"}, {"Resistive", r.Resistive, "22.5 mV"},
		{"Heat", r.Heat, "10.1041667 mW"},
		{"input Capacitive", in.Capacitive, "62.5 mV"}, {"input Resistive", in.Resistive, "5 mV"}, // 0.5 A/(8 · 100 kHz · 10 µF)
		{"MostDuty", tm.MostDuty, "90 %"}, {"DutyMargin", tm.DutyMargin, "40 %"}, {"OnMargin", tm.OnMargin, "4.5 µs"}, {"OffMargin", tm.OffMargin, "4.6 µs"},
		{"LeastInput", tm.LeastInput, "1 V"}, {"MostInput", tm.MostInput, "9.5 V"}, {"LightSpare", tm.LightSpare, "4.5 µs"},
		{"Zero", s.Zero, "7.95774715 kHz"},                   // 10 Ω · 0.25/(2π · 50 µH)
		{"LoopCharge", s.LoopCharge, "30 µC"},                // 0.5 A/(2π · 2.65258238 kHz)
		{"RiseTime", s.RiseTime, "10 µs"},                    // 50 µH · 1 A/5 V
		{"LeastUnder", s.LeastUnder, "10 µC"},                //
		{"LeastOver", s.LeastOver, "11.25 µC"},               // 50 µH · 1.5²/(2 · 5 V)
		{"Undershoot", s.Undershoot, "68.8297872 mV"},        // 5 mV + 30 µC/470 µF
		{"Overshoot", s.Overshoot, "68.8297872 mV"},          //
		{"LeastSag", s.LeastSag, "21.2765957 mV"},            //
		{"lossy Mean", d.Mean, "2.213456263 A"},              // 1/s, s = (5.12 + √(5.12² − 42 · 0.17))/21 = 0.4517821
		{"lossy OnVoltage", d.OnVoltage, "4.62371244 V"},     // 5 − 0.17 · 2.213456
		{"lossy OffVoltage", d.OffVoltage, "5.61067281 V"},   // 10 + 0.5 + 0.05 · 2.213456 − 5
		{"PassThrough", d.PassThrough, "4.45 V"},             //
		{"Reverse", x.Reverse, "12.5 V"},                     //
		{"ReverseMargin", x.ReverseMargin, "7.5 V"},          //
		{"SwitchVoltage", x.SwitchVoltage, "13.125 V"},       //
		{"Forward", x.Forward, "0.5 W"},                      //
		{"Characteristic", in1.Characteristic, "0.5 Ω"},      //
		{"Damping", in1.Damping, "0.6"},                      //
		{"UndampedPeak", in1.UndampedPeak, "8 A"},            //
		{"UndampedOutput", in1.UndampedOutput, "8.5 V"},      //
		{"PeakTime", in1.PeakTime, "115.911898 µs"},          // 100 µs · arccos 0.6/0.8
		{"Peak", in1.Peak, "3.99071386 A"},                   // 8 A · e^(−0.6 · 1.15911898)
		{"HighestOutput", in1.HighestOutput, "4.87912090 V"}, // 4.5 + 4 · e^(−0.75π)
		{"voltage Gain", v.Gain, "10"},                       // 10 V/0.5/2 V
		{"Resonance", v.Resonance, "795.774715 Hz"},          // 0.5/(2π · 100 µs)
		{"Quality", v.Quality, "9.09090909"},                 // 1/(5000/s · (200 µH/10 Ω + 200 µF · 10 mΩ))
		{"current Gain", c.Gain, "11.1111111"},               // 2.5/(0.1 + 0.1 + 0.25 · 0.1 A/µs/(100 kHz · 10 V))
		{"Pole", c.Pole, "179.049311 Hz"},                    // 0.225 S/(2π · 200 µF)
		{"SamplingQuality", c.SamplingQuality, "1.27323954"}, // 0.2/(π · 0.05)
	} {
		expect.Near(t, x.name, x.got, x.want, 3e-6)
	}
	if c.LeastSlope.SI() != 0 || c.ESRZero != (units.Quantity{}) || len(c.Plant.Zeros) != 0 {
		t.Errorf("at a duty of a half without ESR: %v, %v", c.LeastSlope, c.Plant)
	}
}
