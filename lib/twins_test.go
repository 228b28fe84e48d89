package lib_test

import (
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/protect"
	"ohmwright/lib/regulator/inverting"
	"ohmwright/lib/regulator/linear"
	"ohmwright/lib/regulator/stepdown"
	"ohmwright/lib/regulator/stepup"
	"ohmwright/lib/regulator/switching"
	"ohmwright/lib/ripple"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// Formulas that two packages have, each in the words and steps of its own
// topic, give the same.
func TestTwinsAgree(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		of := func(name string, least, most float64, unit string) units.Quantity {
			return units.Number(rapid.Float64Range(least, most).Draw(t, name)).Mul(q("1 " + unit))
		}
		same := func(name string, a, b units.Quantity) {
			t.Helper()
			expect.Near(t, name, a.Div(b), "1", 1e-12)
		}
		inductance, capacitance, resistance := of("L", 0.1, 10, "µH"), of("C", 1, 100, "µF"), of("R", 1, 900, "mΩ")

		damping := of("n", 0.5, 10, "1").Mul(capacitance)
		d, err := ripple.Damping(ripple.DampingInputs{Inductance: inductance, Capacitance: capacitance, Damping: damping})
		expect.Must(t, d, err)
		f, err := switching.InputFilter(switching.InputFilterInputs{
			Input: q("24 V"), Power: q("5 W"), Frequency: q("2 MHz"), Inductance: inductance, Capacitance: capacitance, Damping: damping,
		})
		expect.Must(t, f, err)
		same("the damping resistance", d.Resistance, f.BestResistance)
		same("the largest impedance", d.LargestImpedance, f.LargestImpedance)

		supply, limit := of("V", 5, 60, "V"), q("100 V")
		a, err := linear.HotPlug(linear.HotPlugInputs{Input: supply, Inductance: inductance, Capacitance: capacitance, Resistance: resistance, Rating: limit})
		expect.Must(t, a, err)
		b, err := protect.HotPlug(protect.HotPlugInputs{Supply: supply, Inductance: inductance, Capacitance: capacitance, Resistance: resistance, Limit: limit})
		expect.Must(t, b, err)
		same("the peak of a hot plug", a.Peak, b.UndampedPeak)

		esr, load, frequency := of("ESR", 1, 100, "mΩ"), q("0.5 A"), q("500 kHz")
		down, err := stepdown.VoltageMode(stepdown.VoltageModeInputs{
			Stage: stepdown.Stage{Input: q("12 V"), Output: q("5 V"), Load: load, Frequency: frequency, Inductance: q("22 µH")}, Capacitance: capacitance, ESR: esr, Ramp: q("1 V"),
		})
		expect.Must(t, down, err)
		up, err := stepup.VoltageMode(stepup.VoltageModeInputs{
			Stage: stepup.Stage{Input: q("5 V"), Output: q("12 V"), Load: load, Frequency: frequency, Inductance: q("22 µH")}, Capacitance: capacitance, ESR: esr, Ramp: q("1 V"),
		})
		expect.Must(t, up, err)
		turned, err := inverting.VoltageMode(inverting.VoltageModeInputs{
			Stage: inverting.Stage{Input: q("12 V"), Output: q("-5 V"), Load: load, Frequency: frequency, Inductance: q("22 µH")}, Capacitance: capacitance, ESR: esr, Ramp: q("1 V"),
		})
		expect.Must(t, turned, err)
		same("the zero of the ESR of a step-up stage", up.ESRZero, down.ESRZero)
		same("the zero of the ESR of an inverting stage", turned.ESRZero, down.ESRZero)
	})
}

// A load step moves the output of a step-up stage and that of an inverting one
// by the same arithmetic: with their own charges, the same crossover and
// capacitor, both take LoopCharge, or what the inductor's energy takes, where
// that is more. The figures are those of the two definitions, by hand:
// step-up, 5 V to 12 V: mean 0.5 A · 12/5 and 0.2 A · 12/5, 720 mA apart, so
// 10 µH · 0.72 A/5 V = 1.44 µs and 0.5 A · 1.44 µs = 720 nC. Inverting, 5 V to
// −7 V: the current is load · 12/5 as well, and so are all that follows.
func TestLoadStepsAgree(t *testing.T) {
	t.Parallel()
	up, err := stepup.LoadStep(stepup.LoadStepInputs{
		Stage: stepup.Stage{Input: q("5 V"), Output: q("12 V"), Load: q("0.5 A"), Frequency: q("1 MHz"), Inductance: q("10 µH")},
		Step:  q("0.3 A"), Capacitance: q("47 µF"), ESR: q("2 mΩ"), Crossover: q("9 kHz"),
	})
	expect.Must(t, up, err)
	turned, err := inverting.LoadStep(inverting.LoadStepInputs{
		Stage: inverting.Stage{Input: q("5 V"), Output: q("-7 V"), Load: q("0.5 A"), Frequency: q("1 MHz"), Inductance: q("10 µH")},
		Step:  q("0.3 A"), Capacitance: q("47 µF"), ESR: q("2 mΩ"), Crossover: q("9 kHz"),
	})
	expect.Must(t, turned, err)
	expect.Near(t, "LeastUnder", up.LeastUnder, "720 nC", 1e-12)
	for _, x := range []struct {
		name string
		a, b units.Quantity
	}{
		{"LoopCharge", up.LoopCharge, turned.LoopCharge}, {"RiseTime", up.RiseTime, turned.RiseTime}, {"LeastUnder", up.LeastUnder, turned.LeastUnder},
		{"LeastOver", up.LeastOver, turned.LeastOver}, {"Undershoot", up.Undershoot, turned.Undershoot}, {"Overshoot", up.Overshoot, turned.Overshoot},
	} {
		expect.Near(t, x.name, x.a.Div(x.b), "1", 1e-12)
	}
}
