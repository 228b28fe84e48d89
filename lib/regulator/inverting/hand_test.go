package inverting

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
)

// By arithmetic written out.
func TestByHand(t *testing.T) {
	t.Parallel()
	// 5.5 V/(12 V + 5.5 V) and 1 A/(12/17.5); 12 V · 0.3143/(500 kHz · 15 µH).
	stage := Stage{Input: q("12 V"), Output: q("-5 V"), Load: q("1 A"), Frequency: q("500 kHz"), Diode: q("0.5 V")}
	d, err := Duty(stage)
	expect.Near(t, "Duty", expect.Must(t, d, err).Duty, "31.4285714286 %", 1e-9)
	expect.Near(t, "Ideal", d.Ideal, "29.4117647059 %", 1e-9)
	expect.Near(t, "Current", d.Current, "1.45833333333 A", 1e-9)
	expect.Near(t, "InputMean", d.InputMean, "0.458333333333 A", 1e-9)
	l, err := Inductance(InductanceInputs{Stage: stage, Ratio: q("40 %")})
	expect.Near(t, "Inductance", expect.Must(t, l, err).Inductance, "12.9306122449 µH", 1e-9) // 12 V · 628.571 ns/0.583333 A
	stage.Inductance = q("15 µH")
	i, err := Currents(stage)
	expect.Near(t, "Ripple", expect.Must(t, i, err).Ripple, "0.502857142857 A", 1e-9)
	expect.Near(t, "Peak", i.Peak, "1.7097619 A", 1e-7)
	expect.Near(t, "Boundary", i.Boundary, "0.172408163 A", 1e-7) // 0.502857/2 · 0.685714

	// With every drop: charging 0.8 · 0.21 = 0.168 V, a = 17 V, b = 12 + 0.8 ·
	// 0.06 = 12.048 V; off-share (12.048 + √(145.154304 − 11.424))/34 = (12.048 +
	// 11.5641819)/34.
	d, err = Duty(rail())
	expect.Near(t, "OffShare", expect.Must(t, d, err).OffShare, "69.4475938 %", 1e-7)
	expect.Near(t, "Current", d.Current, "1.15194776 A", 1e-7)
	expect.Near(t, "OnVoltage", d.OnVoltage, "11.7580910 V", 1e-7)   // 12 − 1.15194776 · 0.21
	expect.Near(t, "OffVoltage", d.OffVoltage, "5.17279216 V", 1e-7) // 5 + 1.15194776 · 0.15
	// 0.8 · (0.15 + 0.09 + 0.12) + 2 · √(0.168 · (5 + 0.8 · 0.15)) = 0.288 + 1.85490.
	expect.Near(t, "LeastInput", d.LeastInput, "2.14291 V", 1e-5)
	// Half of 22 µH and 33 µH in parallel counts: 13.2 µH.
	expect.Near(t, "together", sepic().together(), "13.2 µH", 1e-12)

	// 15 V + 5 V + 0.5 V + 4 V; the regulator 20 V; 36 V − 9.5 V.
	stage.Input = q("15 V")
	v, err := Stresses(StressesInputs{Stage: stage, Ringing: q("4 V"), Rating: q("36 V")})
	expect.Near(t, "Switch", expect.Must(t, v, err).Switch, "24.5 V", 1e-12)
	expect.Near(t, "Rectifier", v.Rectifier, "24 V", 1e-12)
	expect.Near(t, "Regulator", v.Regulator, "20 V", 1e-12)
	expect.Near(t, "Margin", v.Margin, "11.5 V", 1e-12)
	expect.Near(t, "MostInput", v.MostInput, "26.5 V", 1e-12)
	v, err = Stresses(StressesInputs{Stage: sepic(), Rating: q("40 V")})
	expect.Near(t, "Regulator of a SEPIC", expect.Must(t, v, err).Regulator, "12 V", 1e-12)

	// 12 V · 2.2/49.2 = 0.536585 V, and 1 mA · 100 Ω; the diode holds 0.4 V.
	u, err := Lift(LiftInputs{Step: q("12 V"), Bypass: q("2.2 µF"), OutputCapacitance: q("47 µF"), Quiescent: q("1 mA"), LoadResistance: q("100 Ω")})
	expect.Near(t, "Lift", expect.Must(t, u, err).Lift, "0.636585365854 V", 1e-9)
	u, err = Lift(LiftInputs{Step: q("12 V"), Bypass: q("2.2 µF"), OutputCapacitance: q("47 µF"), Clamp: q("0.4 V")})
	expect.Near(t, "Lift, clamped", expect.Must(t, u, err).Lift, "0.4 V", 1e-12)

	// 0.3 A/(2π · 8 kHz) = 5.96831 µC over 44 µF, and 0.3 A · 3 mΩ; Current of
	// 0.5 A: off-share (12.03 + √(144.7209 − 7.14))/34 = 0.698810, 0.715503 A.
	w, err := LoadStep(LoadStepInputs{Stage: rail(), Step: q("0.3 A"), Capacitance: q("44 µF"), ESR: q("3 mΩ"), Crossover: q("8 kHz")})
	expect.Near(t, "Undershoot", expect.Must(t, w, err).Undershoot, "136.5434 mV", 1e-6)
	expect.Near(t, "RiseTime", w.RiseTime, "556.78 ns", 1e-4)     // 15 µH · 0.436445 A/11.7580910 V
	expect.Near(t, "LeastOver", w.LeastOver, "0.616257 µC", 1e-4) // 15 µH · (1.15194776 − 0.5)²/(2 · 5.17279216 V)

	// 12 V · 80 ns/15 µH = 64 mA.
	k, err := CurrentLimit(CurrentLimitInputs{Stage: rail(), Limit: q("2.5 A"), Delay: q("80 ns"), Saturation: q("3 A")})
	expect.Near(t, "LargestPeak", expect.Must(t, k, err).LargestPeak, "2.564 A", 1e-12)
	expect.Near(t, "SaturationShare", k.SaturationShare, "14.5333333333 %", 1e-9)

	// Off 0.305524/0.694476 of 2 µs; the input at 90 %: (0.1 · 5 V + 0.8 A · 0.15
	// Ω)/0.9 + 0.8 A · 0.21 Ω/0.1.
	tm, err := Timing(TimingInputs{Stage: rail(), LeastOn: q("100 ns"), LeastOff: q("120 ns"), MostDuty: q("90 %")})
	expect.Near(t, "OnTime", expect.Must(t, tm, err).OnTime, "611.048 ns", 1e-5)
	expect.Near(t, "DutyMargin", tm.DutyMargin, "59.4476 %", 1e-5)
	expect.Near(t, "LeastInput", tm.LeastInput, "2.36888888889 V", 1e-9)
	expect.Near(t, "MostInput", tm.MostInput, "97.5768421053 V", 1e-9) // (0.95 · 5 + 0.12)/0.05 + 0.168/0.95
	tm, err = Timing(TimingInputs{Stage: rail(), LeastOn: q("100 ns")})
	expect.Near(t, "LeastInput without a limit", expect.Must(t, tm, err).LeastInput, "2.14291 V", 1e-5)
}

// The inrush of a SEPIC at rest, integrated: its coupling capacitor, the first
// inductor and the empty output; what is found is not exceeded, and nearly
// reached with a stiff supply.
func TestSimulatedInrush(t *testing.T) {
	t.Parallel()
	const in, l1, l2, cc, co = 24.0, 22e-6, 22e-6, 10e-6, 100e-6
	stage := Stage{Input: of(in, "V"), Output: q("12 V"), Load: q("1 A"), Frequency: q("400 kHz"), Inductance: of(l1, "H"), Second: of(l2, "H"), SEPIC: true}
	r, err := Inrush(InrushInputs{Stage: stage, Capacitance: of(cc, "F"), OutputCapacitance: of(co, "F")})
	expect.Must(t, r, err)
	var i1, i2, vc, vo, peak, most, lift float64
	const h = 1e-9
	for range 200000 {
		// i2 flows from ground to the anode; the diode takes what is left over.
		diode := i1 + i2
		anode := vo
		if diode <= 0 && (in-vc)*l2/(l1+l2) < vo {
			diode, i2 = 0, -i1
			anode = (in - vc) * l2 / (l1 + l2)
		}
		i1 += h * (in - vc - anode) / l1
		i2 += h * -anode / l2
		vc += h * i1 / cc
		vo += h * math.Max(diode, 0) / co
		peak, most, lift = math.Max(peak, i1), math.Max(most, vc), math.Max(lift, vo)
	}
	for _, x := range []struct {
		name       string
		got, bound float64
		least      float64
	}{{"Undamped", peak, r.Undamped.SI(), 0.85}, {"Most", most, r.Most.SI(), 0.7}, {"OutputLift", lift, r.OutputLift.SI(), 0.7}} {
		if x.got > x.bound*1.001 || x.got < x.least*x.bound {
			t.Errorf("%s: integrated %v, bound %v", x.name, x.got, x.bound)
		}
	}
	expect.Near(t, "Undamped", r.Undamped, "16.18080 A", 1e-6)     // 24 V · √(10/22)
	expect.Near(t, "OutputLift", r.OutputLift, "7.589466 V", 1e-6) // 24 V · √(10/100)
	expect.Near(t, "Time", r.Time, "23.2987 µs", 1e-5)             // π/2 · √(220) µs
	two := stage
	two.Second, two.Coupled = rail().Second, true
	c, err := Inrush(InrushInputs{Stage: two, Capacitance: of(cc, "F"), OutputCapacitance: of(co, "F"), Leakage: q("0.4 µH"), Resistance: q("0.5 Ω")})
	expect.Near(t, "Undamped, coupled", expect.Must(t, c, err).Undamped, "120 A", 1e-9) // 24 V · √(10/0.4)
	expect.Near(t, "Peak, coupled", c.Peak, "48 A", 1e-9)
}

// The charges of a load step, integrated in small steps: the switch held on
// until the current is that of the larger load, while the capacitor feeds it
// alone; and held off until the current is that of the smaller one.
func TestSimulatedStep(t *testing.T) {
	t.Parallel()
	for _, stage := range []Stage{rail(), coupled()} {
		r, err := LoadStep(LoadStepInputs{Stage: stage, Step: q("0.4 A"), Capacitance: q("44 µF"), Crossover: q("10 kHz")})
		expect.Must(t, r, err)
		light := stage
		light.Load = stage.Load.Sub(q("0.4 A"))
		after, err := Duty(stage)
		expect.Must(t, after, err)
		before, err := Duty(light)
		expect.Must(t, before, err)
		const h = 1e-10
		l, i, under, over := stage.Inductance.SI(), before.Current.SI(), 0.0, 0.0
		for i < after.Current.SI() {
			under += h * stage.Load.SI()
			i += h * after.OnVoltage.SI() / l
		}
		for i > light.Load.SI() {
			over += h * (i - light.Load.SI())
			i -= h * after.OffVoltage.SI() / l
		}
		expect.Near(t, "LeastUnder", r.LeastUnder, of(under, "C").Text(9), 1e-3)
		expect.Near(t, "LeastOver", r.LeastOver, of(over, "C").Text(9), 1e-3)
	}
}
