package linear

import (
	"fmt"
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// By hand: 5 − 0.7 = 4.3 V over 200 mΩ: 21.5 A, of the size that the LM337
// data sheet SNVS778 gives for small capacitors when shorted (20 A); 20 µs;
// 430 µC; 430 µC · (2.15 + 0.7) V = 1.2255 mJ.
func TestReverseCurrent(t *testing.T) {
	t.Parallel()
	in := ReverseInputs{Output: q("5 V"), Forward: q("0.7 V"), Resistance: q("200 mΩ"), Capacitance: q("100 µF"), Rated: q("1 A")}
	r := expect.Result[ReverseResult](t)(ReverseCurrent(in))
	expect.Within(t, "Excess", r.Excess, "4.3 V", "1e-12 V")
	expect.Within(t, "Peak", r.Peak, "21.5 A", "1e-12 A")
	expect.Within(t, "Margin", r.Margin, "-20.5 A", "1e-12 A")
	expect.Within(t, "TimeConstant", r.TimeConstant, "20 µs", "1e-15 s")
	expect.Within(t, "Charge", r.Charge, "430 µC", "1e-12 C")
	expect.Within(t, "Energy", r.Energy, "1.2255 mJ", "1e-12 J")
	// At the boundary, and where the input stays above the output, none flows.
	for _, input := range []string{"4.3 V", "4.9 V", "12 V"} {
		in.Input = q(input)
		r := expect.Result[ReverseResult](t)(ReverseCurrent(in))
		expect.Within(t, "Peak at "+input, r.Peak, "0 A", "1e-12 A")
		expect.Within(t, "Margin at "+input, r.Margin, "1 A", "1e-12 A")
	}
}

// The discharge in the time domain, by the midpoint rule: charge and heat in
// resistance and diode are what the formulas say, and the energy is what the
// capacitor has lost.
func TestReverseCurrentInTheTimeDomain(t *testing.T) {
	t.Parallel()
	const output, input, forward, r, c = 5.0, 0.8, 0.7, 0.2, 100e-6
	v, charge, heat := output, 0.0, 0.0
	const h = r * c / 2000
	for range 60000 { // 30 time constants
		current := (v - input - forward) / r
		middle := (v - h/2*current/c - input - forward) / r
		charge += h * middle
		heat += h * middle * (middle*r + forward)
		v -= h * middle / c
	}
	got := expect.Result[ReverseResult](t)(ReverseCurrent(ReverseInputs{
		Output: of(output, "V"), Input: of(input, "V"), Forward: of(forward, "V"), Resistance: of(r, "Ω"), Capacitance: of(c, "F"), Rated: q("1 A"),
	}))
	if math.Abs(got.Charge.SI()-charge) > 1e-6*charge || math.Abs(got.Energy.SI()-heat) > 1e-6*heat {
		t.Errorf("charge %v and energy %v, in the time domain %v C and %v J", got.Charge, got.Energy, charge, heat)
	}
	lost := c/2*(output*output-v*v) - charge*input // less what arrives at the input
	if math.Abs(got.Energy.SI()-lost) > 1e-6*lost {
		t.Errorf("energy %v, the capacitor lost %v J", got.Energy, lost)
	}
}

// The two ends of ISO 16750-2 (12 V system, values read in test equipment
// manuals, the divisions by hand): 79 V with 0.5 Ω into 36 V: 86 A, 3096 W,
// 123.84 J over 40 ms; 101 V with 4 Ω: 16.25 A, 585 W, 234 J over 400 ms. The
// regulator: (36 − 5) V · 100 mA = 3.1 W.
func TestSurge(t *testing.T) {
	t.Parallel()
	in := SurgeInputs{Rating: q("40 V"), Output: q("5 V"), Load: q("100 mA"), Clamp: q("36 V")}
	for _, test := range []struct{ peak, source, duration, current, power, energy, heat string }{
		{"79 V", "0.5 Ω", "40 ms", "86 A", "3.096 kW", "123.84 J", "124 mJ"},
		{"101 V", "4 Ω", "400 ms", "16.25 A", "585 W", "234 J", "1.24 J"},
	} {
		in.Peak, in.Source, in.Duration = q(test.peak), q(test.source), q(test.duration)
		s := expect.Result[SurgeResult](t)(Surge(in))
		expect.Within(t, "Arriving of "+test.peak, s.Arriving, "36 V", "0 V")
		expect.Within(t, "Margin", s.Margin, "4 V", "1e-12 V")
		expect.Within(t, "ClampCurrent", s.ClampCurrent, test.current, "1e-9 A")
		expect.Within(t, "ClampPower", s.ClampPower, test.power, "1e-9 W")
		expect.Within(t, "ClampEnergy", s.ClampEnergy, test.energy, "1e-9 J")
		expect.Within(t, "Loss", s.Loss, "3.1 W", "1e-12 W")
		expect.Within(t, "Heat", s.Heat, test.heat, "1e-12 J")
	}
	// A clamp above the surge does nothing; without one all of it arrives.
	in.Peak, in.Source, in.Duration, in.Clamp = q("35 V"), q("0.5 Ω"), q("400 ms"), q("36 V")
	s := expect.Result[SurgeResult](t)(Surge(in))
	expect.Within(t, "Arriving below the clamp", s.Arriving, "35 V", "0 V")
	expect.Within(t, "ClampCurrent below the clamp", s.ClampCurrent, "0 A", "0 A")
	in.Peak, in.Clamp = q("101 V"), units.Quantity{}
	s = expect.Result[SurgeResult](t)(Surge(in))
	expect.Within(t, "Arriving without a clamp", s.Arriving, "101 V", "0 V")
	expect.Within(t, "Margin without a clamp", s.Margin, "-61 V", "1e-12 V")
	expect.Within(t, "ClampEnergy without a clamp", s.ClampEnergy, "0 J", "0 J")
}

// The source's energy is that of the clamp and of its own resistance.
func TestSurgePowerIsKept(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		peak, clamp := rapid.Float64Range(1, 200).Draw(t, "peak"), rapid.Float64Range(1, 200).Draw(t, "clamp")
		source := rapid.Float64Range(0.1, 50).Draw(t, "source")
		s, err := Surge(SurgeInputs{
			Peak: of(peak, "V"), Source: of(source, "Ω"), Duration: q("1 ms"), Clamp: of(clamp, "V"), Rating: q("40 V"), Output: q("5 V"), Load: q("1 A"),
		})
		if err != nil {
			t.Fatal(err)
		}
		i := s.ClampCurrent.SI()
		if given, taken := peak*i, s.ClampPower.SI()+i*i*source; math.Abs(given-taken) > 1e-9*given {
			t.Fatalf("the source gives %v W, %v W are taken", given, taken)
		}
		if s.Arriving.SI() > peak || s.Arriving.SI() > clamp {
			t.Fatalf("%v arrives of %v V behind %v V", s.Arriving, peak, clamp)
		}
	})
}

func ExampleReverseCurrent() {
	p := units.MustParse
	r, err := ReverseCurrent(ReverseInputs{Output: p("5 V"), Forward: p("0.7 V"), Resistance: p("200 mΩ"), Capacitance: p("100 µF"), Rated: p("1 A")})
	fmt.Println(r.Peak, r.Margin, err)
	// Output: 21.5 A −20.5 A <nil>
}

func ExampleSurge() {
	p := units.MustParse
	s, err := Surge(SurgeInputs{
		Peak: p("79 V"), Source: p("0.5 Ω"), Duration: p("40 ms"), Clamp: p("36 V"), Rating: p("40 V"), Output: p("5 V"), Load: p("100 mA"),
	})
	fmt.Println(s.ClampCurrent, s.ClampEnergy, s.Margin, err)
	// Output: 86 A 123.8 J 4 V <nil>
}
