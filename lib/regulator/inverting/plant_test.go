package inverting

import (
	"math"
	"math/cmplx"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/regulator/loop"
)

func response(t *testing.T, plant loop.Plant, hertz float64) complex128 {
	r, err := loop.Response(plant, loop.Amplifier{Upper: q("10 kΩ"), Capacitor: q("1 nF")}, of(hertz, "Hz"))
	expect.Must(t, r, err)
	return cmplx.Rect(math.Pow(10, r.PlantGain.SI()/20), r.PlantPhase.SI())
}

// linear solves n complex equations by Gauss's elimination; each row has its
// right side behind it.
func linear(m [][]complex128) []complex128 {
	n := len(m)
	for k := range n {
		p := k
		for r := k; r < n; r++ {
			if cmplx.Abs(m[r][k]) > cmplx.Abs(m[p][k]) {
				p = r
			}
		}
		m[k], m[p] = m[p], m[k]
		for r := range n {
			if r != k {
				g := m[r][k] / m[k][k]
				for col := k; col <= n; col++ {
					m[r][col] -= g * m[k][col]
				}
			}
		}
	}
	x := make([]complex128, n)
	for k := range n {
		x[k] = m[k][n] / m[k][k]
	}
	return x
}

// In continuous conduction the plants are those of the averaged circuit,
// solved here at single frequencies: both inductors with what they have in
// common, the coupling capacitor, the output, and the duty, which a modulator
// or a peak of the current sets; the mean lies below the peak by half the
// ripple, and the peak below what the control asks for by the slope.
func TestPlantsAgainstTheAveragedCircuit(t *testing.T) {
	t.Parallel()
	const in, out, load, f, esr, resistance, slope = 8.0, 12.0, 0.6, 1e6, 5e-3, 0.02, 2e6
	for _, c := range []struct {
		name          string
		l1, l2, m, cc float64
		coupled       bool
		most          float64 // highest frequency to compare at: below the coupling capacitor's resonance
	}{
		{name: "inverting", l1: 10e-6, most: 30e3},
		{name: "two inductors", l1: 10e-6, l2: 15e-6, cc: 1e-7, most: 12e3},
		{name: "one core", l1: 10e-6, l2: 10e-6, m: 9.99e-6, cc: 10e-6, coupled: true, most: 30e3},
	} {
		stage := Stage{Input: of(in, "V"), Output: of(-out, "V"), Load: of(load, "A"), Frequency: of(f, "Hz"), Inductance: of(c.l1, "H"), Switch: of(resistance, "Ω"), Rectifier: of(resistance, "Ω")}
		sepic := c.l2 > 0
		if sepic {
			stage.Output, stage.SEPIC, stage.Coupled = of(out, "V"), true, c.coupled
			if !c.coupled {
				stage.Second = of(c.l2, "H")
			}
		}
		const co = 220e-6
		v, err := VoltageMode(VoltageModeInputs{Stage: stage, Capacitance: of(co, "F"), ESR: of(esr, "Ω"), Ramp: q("1 V")})
		expect.Must(t, v, err)
		i, err := CurrentMode(CurrentModeInputs{Stage: stage, Capacitance: of(co, "F"), ESR: of(esr, "Ω"), PowerStage: q("1 A/V"), Slope: of(slope, "A/s")})
		expect.Must(t, i, err)
		d, err := Duty(stage)
		expect.Must(t, d, err)
		duty, sum := d.Duty.SI(), d.Current.SI()
		x, swing := 1-duty, d.OnVoltage.SI()+d.OffVoltage.SI()
		below := (slope + d.OnVoltage.SI()/stage.together().SI()/2) / f
		for hertz := 10.0; hertz <= c.most; hertz *= 3 {
			s := complex(0, 2*math.Pi*hertz)
			impedance := 1 / (1/(complex(esr, 0)+1/(s*co)) + complex(load/out, 0))
			// Unknown: i1, i2, voltage of the coupling capacitor, output, duty.
			one := func(x float64) complex128 { return complex(x, 0) }
			var rows [][]complex128
			if sepic {
				rows = [][]complex128{
					// What lies across each: −x·(u + out) + swing·d and D·u − x·out + swing·d, less the drops.
					{s*one(c.l1) + one(resistance), s*one(c.m) + one(resistance), one(x), one(x), one(-swing), 0},
					{s*one(c.m) + one(resistance), s*one(c.l2) + one(resistance), one(-duty), one(x), one(-swing), 0},
					// The coupling capacitor: x·i1 − D·i2 − sum·d.
					{one(-x), one(duty), s * one(c.cc), 0, one(sum), 0},
				}
			} else {
				rows = [][]complex128{
					{s*one(c.l1) + one(resistance), 0, 0, one(x), one(-swing), 0},
					{0, 1, 0, 0, 0, 0},
					{0, 0, 1, 0, 0, 0},
				}
			}
			// The output: impedance · (x·(i1 + i2) − sum·d).
			rows = append(rows, []complex128{-impedance * one(x), -impedance * one(x), 0, 1, impedance * one(sum), 0})
			solve := func(control []complex128) complex128 {
				all := append([][]complex128{}, control)
				for _, r := range rows {
					all = append(all, append([]complex128{}, r...))
				}
				return linear(all)[3]
			}
			voltage := solve([]complex128{0, 0, 0, 0, 1, 1})
			current := solve([]complex128{1, 1, 0, 0, one(below), 1})
			for _, y := range []struct {
				name      string
				got, want complex128
			}{{"voltage mode", response(t, v.Plant, hertz), voltage}, {"current mode", response(t, i.Plant, hertz), current}} {
				if d := cmplx.Abs(y.got/y.want - 1); d > 0.05 {
					t.Errorf("%s, %s at %v Hz is %v, the circuit %v: %.2g %% off", c.name, y.name, hertz, y.got, y.want, 100*d)
				}
			}
		}
	}
}

// Below the boundary the gain at low frequency is what a slightly larger
// control voltage makes of the exact steady state, V/Vg = D·√(R/(2·L·f)) of
// the buck-boost (Erickson and Maksimović, section 5.3, from memory), and the
// pole that of energy: C·v·dv/dt = power in − v²/R with a power that the
// output does not change: 2/(2π·R·C).
func TestPlantsBelowTheBoundary(t *testing.T) {
	t.Parallel()
	const in, l, r, f, c, share = 12.0, 10e-6, 400.0, 200e3, 22e-6, 0.2
	slope := in * math.Sqrt(r/(2*l*f)) // output per duty
	out := slope * share
	for _, sepic := range []bool{false, true} {
		stage := Stage{Input: of(in, "V"), Output: of(-out, "V"), Load: of(out/r, "A"), Frequency: of(f, "Hz"), Inductance: of(l, "H")}
		if sepic { // two of twice the inductance in parallel
			stage.Output, stage.SEPIC, stage.Inductance = of(out, "V"), true, of(2*l, "H")
		}
		i, err := Currents(stage)
		expect.Must(t, i, err)
		expect.Near(t, "OnShare", i.OnShare, of(share, "").Text(12), 1e-9)
		v, err := VoltageMode(VoltageModeInputs{Stage: stage, Capacitance: of(c, "F"), Ramp: q("2 V")})
		expect.Must(t, v, err)
		expect.Near(t, "voltage Gain", v.Gain, of(slope/2, "").Text(12), 1e-9)
		// 0.3 A/V and 0.2 A/µs: the switch is on until the peak, 1.2 A/µs ·
		// share/f, and the slope meet the control.
		m, err := CurrentMode(CurrentModeInputs{Stage: stage, Capacitance: of(c, "F"), PowerStage: q("0.3 A/V"), Slope: q("0.2 A/µs")})
		expect.Must(t, m, err)
		expect.Near(t, "current Gain", m.Gain, of(slope*0.3*f/1.4e6, "").Text(12), 1e-9)
		expect.Near(t, "Pole", m.Pole, of(2/(2*math.Pi*r*c), "Hz").Text(12), 1e-9)
		expect.Near(t, "low and high pole", v.Resonance.Mul(v.Resonance).Div(m.Pole), of(f/(math.Pi*i.Conduction.SI()), "Hz").Text(12), 1e-9)
	}
}

// The slope from which the current no longer alternates: the map of one
// period to the next of a disturbance is −(OffSlope − slope)/(OnSlope + slope),
// as two lines that meet show.
func TestLeastSlope(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("5 V"), Output: q("-12 V"), Load: q("1 A"), Frequency: q("500 kHz"), Inductance: q("10 µH")}
	m, err := CurrentMode(CurrentModeInputs{Stage: stage, Capacitance: q("100 µF"), PowerStage: q("5 A/V"), Slope: q("0.5 A/µs")})
	expect.Must(t, m, err)
	// (1.2 − 0.5)/2 A/µs; with 0.5 A/µs the quality is 1.7/(π · 0.15).
	expect.Near(t, "LeastSlope", m.LeastSlope, "0.35 A/µs", 1e-9)
	expect.Near(t, "SamplingQuality", m.SamplingQuality, "3.607512", 1e-6)
	after := func(slope float64) float64 { return (1.2 - slope) / (0.5 + slope) }
	if after(0.351) >= 1 || after(0.349) <= 1 {
		t.Error("at the least slope a disturbance neither grows nor fades")
	}
}
