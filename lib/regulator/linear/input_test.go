package linear

import (
	"fmt"
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// By hand: √(1 µH/10 µF) = 0.316228 Ω; 280 mA · 10 mΩ = 2.8 mV; 280 mA ·
// 0.316228 Ω = 88.5438 mV; 1/(2π · √(1e-11) s) = 50.3292 kHz; 10 mΩ/0.632456 Ω
// = 0.0158114. For 100 mV: (0.28/0.0972)² · 1 µH = 8.298193 µF.
func TestInputDip(t *testing.T) {
	t.Parallel()
	d := expect.Result[InputResult](t)(InputDip(InputInputs{Step: q("280 mA"), Inductance: q("1 µH"), Capacitance: q("10 µF"), ESR: q("10 mΩ")}))
	expect.Within(t, "Impedance", d.Impedance, "0.316227766 Ω", "1e-9 Ω")
	expect.Within(t, "Jump", d.Jump, "2.8 mV", "1e-12 V")
	expect.Within(t, "Swing", d.Swing, "88.5437745 mV", "1e-9 V")
	expect.Within(t, "Dip", d.Dip, "91.3437745 mV", "1e-9 V")
	expect.Within(t, "Frequency", d.Frequency, "50329.212 Hz", "0.001 Hz")
	expect.Within(t, "Damping", d.Damping, "0.0158113883", "1e-10")
	c := expect.Result[InputResult](t)(InputCapacitor(InputInputs{Step: q("280 mA"), Inductance: q("1 µH"), ESR: q("10 mΩ"), Allowed: q("100 mV")}))
	expect.Within(t, "Capacitance", c.Capacitance, "8.29819303 µF", "1e-13 F")
}

// Source: Pololu's guide 0J16 to LC voltage spikes, part 3: leads of a yard and
// about 9 µF ring just under 100 kHz, which it reads as some hundred nanohenry;
// 300 nH by hand: 1/(2π · √(2.7e-12) s) = 96.858 kHz.
func TestInputRingsAsMeasured(t *testing.T) {
	t.Parallel()
	d := expect.Result[InputResult](t)(InputDip(InputInputs{Step: q("1 A"), Inductance: q("300 nH"), Capacitance: q("9 µF")}))
	expect.Within(t, "Frequency", d.Frequency, "96.858 kHz", "1 Hz")
}

// The energy that the lead's current needs comes out of the capacitor.
func TestInputSwingKeepsEnergy(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		step := rapid.Float64Range(0.01, 10).Draw(t, "step")
		l := math.Pow(10, rapid.Float64Range(-9, -4).Draw(t, "inductance"))
		c := math.Pow(10, rapid.Float64Range(-8, -3).Draw(t, "capacitance"))
		d, err := InputDip(InputInputs{Step: of(step, "A"), Inductance: of(l, "H"), Capacitance: of(c, "F")})
		if err != nil {
			t.Fatal(err)
		}
		lead, capacitor := l*step*step/2, c*d.Swing.SI()*d.Swing.SI()/2
		if math.Abs(lead-capacitor) > 1e-12*lead {
			t.Fatalf("%v J in the lead, %v J out of the capacitor", lead, capacitor)
		}
	})
}

// simulateInput integrates the supply lead and the input capacitor over the
// time of two rings, from rest, by the midpoint rule, which shares nothing
// with the formulas, and returns the largest dip at the node and the largest
// voltage of the capacitor.
//
//	L·di/dt = V − R·i − v − ESR·(i − I),  C·dv/dt = i − I,  node = v + ESR·(i − I)
func simulateInput(v0, supply, r, esr, l, c, load float64) (dip, peak float64) {
	slope := func(i, v float64) (float64, float64) {
		return (supply - r*i - v - esr*(i-load)) / l, (i - load) / c
	}
	i, v := 0.0, v0
	h := math.Sqrt(l*c) / 2000
	for range 30000 {
		dip = math.Max(dip, supply-(v+esr*(i-load)))
		peak = math.Max(peak, v)
		di, dv := slope(i, v)
		di, dv = slope(i+h/2*di, v+h/2*dv)
		i, v = i+h*di, v+h*dv
	}
	return dip, peak
}

// A load step in the time domain: without ESR the node dips by Dip, with ESR
// by less but by more than either part.
func TestInputDipInTheTimeDomain(t *testing.T) {
	t.Parallel()
	for _, esr := range []float64{0, 0.01, 0.05, 0.2, 0.6, 2} {
		for _, l := range []float64{1e-7, 1e-6, 1e-5} {
			const c, step = 10e-6, 0.28
			d := expect.Result[InputResult](t)(InputDip(InputInputs{Step: of(step, "A"), Inductance: of(l, "H"), Capacitance: of(c, "F"), ESR: of(esr, "Ω")}))
			dip, _ := simulateInput(5, 5, 0, esr, l, c, step)
			name := fmt.Sprintf("ESR %v Ω, %v H", esr, l)
			if dip > d.Dip.SI()*(1+1e-5) {
				t.Errorf("%s: the node dips by %v V, the bound is %v", name, dip, d.Dip)
			}
			if least := max(d.Jump.SI(), d.Swing.SI()*math.Exp(-math.Pi/2*d.Damping.SI())*0.99); dip < least*(1-1e-5) {
				t.Errorf("%s: the node dips by %v V only, less than %v V", name, dip, least)
			}
			if esr == 0 && math.Abs(dip-d.Dip.SI()) > 1e-5*dip {
				t.Errorf("%s: the node dips by %v V, want %v", name, dip, d.Dip)
			}
		}
	}
}

// Overshoot of a second-order step response against damping, as every control
// textbook tabulates it (from memory): 0.2: 52.7 %, 0.5: 16.3 %, 0.7: 4.6 %.
// With 4 Ω of impedance (16 µH, 1 µF) and 10 V; by hand e^(−0.5π/√0.75) =
// 0.163034.
func TestHotPlug(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ resistance, damping, overshoot, within string }{
		{"1.6 Ω", "0.2", "0.527", "0.0005"},
		{"4 Ω", "0.5", "0.163034", "0.0000005"},
		{"5.6 Ω", "0.7", "0.046", "0.0005"},
		{"8 Ω", "1", "0", "0"},
		{"100 Ω", "12.5", "0", "0"},
	} {
		p := expect.Result[HotPlugResult](t)(HotPlug(HotPlugInputs{Input: q("10 V"), Inductance: q("16 µH"), Capacitance: q("1 µF"), Resistance: q(test.resistance), Rating: q("12 V")}))
		expect.Within(t, "Impedance", p.Impedance, "4 Ω", "1e-12 Ω")
		expect.Within(t, "Quiet", p.Quiet, "8 Ω", "1e-12 Ω")
		expect.Within(t, "Damping with "+test.resistance, p.Damping, test.damping, "1e-12")
		expect.Within(t, "Overshoot with "+test.resistance, p.Overshoot, test.overshoot, test.within)
		// The peak in the time domain, and both sides of the boundary.
		_, peak := simulateInput(0, 10, q(test.resistance).SI(), 0, 16e-6, 1e-6, 0)
		if d := peak - p.Peak.SI(); d > 1e-4 || d < -1e-4 && p.Overshoot.SI() > 0 {
			t.Errorf("with %s the capacitor rises to %v V, the formula says %v", test.resistance, peak, p.Peak)
		}
		expect.Within(t, "Margin with "+test.resistance, p.Margin, q("12 V").Sub(p.Peak).Text(0), "1e-12 V")
	}
	// Without damping the peak is twice the input (Linear Technology
	// application note 88: spikes easily reach twice the input step).
	free := expect.Result[HotPlugResult](t)(HotPlug(HotPlugInputs{Input: q("24 V"), Inductance: q("16 µH"), Capacitance: q("1 µF"), Resistance: q("1 µΩ"), Rating: q("40 V")}))
	expect.Within(t, "Peak without damping", free.Peak, "48 V", "0.0001 V")
	almost := expect.Result[HotPlugResult](t)(HotPlug(HotPlugInputs{Input: q("10 V"), Inductance: q("16 µH"), Capacitance: q("1 µF"), Resistance: q("7.9999999 Ω"), Rating: q("12 V")}))
	expect.Within(t, "Overshoot at the boundary", almost.Overshoot, "0", "1e-12")
}

func ExampleInputDip() {
	p := units.MustParse
	d, err := InputDip(InputInputs{Step: p("280 mA"), Inductance: p("1 µH"), Capacitance: p("10 µF"), ESR: p("10 mΩ")})
	fmt.Println(d.Impedance, d.Dip, err)
	// Output: 316.2 mΩ 91.34 mV <nil>
}

func ExampleHotPlug() {
	p := units.MustParse
	h, err := HotPlug(HotPlugInputs{Input: p("24 V"), Inductance: p("1 µH"), Capacitance: p("10 µF"), Resistance: p("100 mΩ"), Rating: p("40 V")})
	fmt.Println(units.In(h.Overshoot, "%"), h.Peak, err)
	// Output: 60.47 % 38.51 V <nil>
}
