package divider

import (
	"fmt"
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// By hand: 10 kΩ · (32/3.3 − 1) = 86.9697 kΩ.
func TestMeasuringUpper(t *testing.T) {
	t.Parallel()
	got, err := MeasuringUpper(q("32 V"), q("3.3 V"), q("10 kΩ"))
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "Upper", got, "86.969697 kΩ", 1e-8)
}

// By hand, 32 V over 100 kΩ and 10 kΩ into 12 bits of 3.3 V, 100 nA:
// ratio 1/11; node 32/11 = 2.909091 V; full scale 36.3 V; headroom
// 36.3/32 − 1 = 13.4375 %; step 3.3/4096 = 805.6641 µV, at the input
// · 11 = 8.862305 mV; source 100·10/110 = 9.090909 kΩ; error 100 nA · 9.090909
// kΩ = 0.9090909 mV = 1.128375 steps, at the input 10 mV; current 32/110 kΩ =
// 290.9091 µA; 8.463 mW, 0.8463 mW, 9.309 mW.
func TestMeasuring(t *testing.T) {
	t.Parallel()
	m, err := Measuring(MeasuringInputs{
		Input: q("32 V"), Upper: q("100 kΩ"), Lower: q("10 kΩ"), Reference: q("3.3 V"), Bits: 12, Leakage: q("100 nA"),
	})
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "Ratio", m.Ratio, "0.09090909", rounded)
	expect.Near(t, "Node", m.Node, "2.909091 V", rounded)
	expect.Near(t, "FullScale", m.FullScale, "36.3 V", 1e-12)
	expect.Near(t, "Headroom", m.Headroom, "0.134375", 1e-9)
	expect.Near(t, "Step", m.Step, "805.6641 µV", rounded)
	expect.Near(t, "Resolution", m.Resolution, "8.862305 mV", rounded)
	expect.Near(t, "Source", m.Source, "9.090909 kΩ", rounded)
	expect.Near(t, "PinError", m.PinError, "0.9090909 mV", rounded)
	expect.Near(t, "InputError", m.InputError, "10 mV", 1e-12)
	expect.Near(t, "ErrorInSteps", m.ErrorInSteps, "1.128375", rounded)
	expect.Near(t, "Current", m.Current, "290.9091 µA", rounded)
	expect.Near(t, "UpperPower", m.UpperPower, "8.46281 mW", rounded)
	expect.Near(t, "LowerPower", m.LowerPower, "0.846281 mW", rounded)
	expect.Near(t, "Power", m.Power, "9.309091 mW", rounded)

	m, err = Measuring(MeasuringInputs{Input: q("40 V"), Upper: q("100 kΩ"), Lower: q("10 kΩ"), Reference: q("3.3 V"), Bits: 12})
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "Headroom beyond full scale", m.Headroom, "-0.0925", 1e-9) // 36.3/40 − 1
	expect.Near(t, "InputError without leakage", m.InputError, "0 V", 0)
}

// By hand: 9.090909 kΩ · 100 nF = 909.0909 µs; 1/(2π · 909.0909 µs) = 175.0704 Hz;
// 13 · ln 2 = 9.010913; settling 8.191739 ms.
func TestFilter(t *testing.T) {
	t.Parallel()
	f, err := Filter(units.Parallel(q("100 kΩ"), q("10 kΩ")), q("100 nF"), 12)
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "TimeConstant", f.TimeConstant, "909.0909 µs", rounded)
	expect.Near(t, "Corner", f.Corner, "175.0704 Hz", rounded)
	expect.Near(t, "TimeConstants", f.TimeConstants, "9.010913", rounded)
	expect.Near(t, "Settling", f.Settling, "8.191739 ms", rounded)
	if f.Corner.String() != "175.1 Hz" {
		t.Errorf("Corner is shown as %v", f.Corner)
	}
}

// By hand: (9.091 + 1) kΩ · 14 pF = 141.274 ns; · 9.010913 = 1.273008 µs.
// The other way round: 1.5 µs/9.010913/14 pF − 1 kΩ = 10.89034 kΩ.
func TestDirectSampling(t *testing.T) {
	t.Parallel()
	s, err := DirectSampling(DirectInputs{Source: q("9.091 kΩ"), Switch: q("1 kΩ"), Sampling: q("14 pF"), Bits: 12})
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "TimeConstant", s.TimeConstant, "141.274 ns", 1e-12)
	expect.Near(t, "TimeConstants", s.TimeConstants, "9.010913", rounded)
	expect.Near(t, "Settling", s.Settling, "1.273008 µs", rounded)
	s, err = LargestSource(DirectInputs{Time: q("1.5 µs"), Switch: q("1 kΩ"), Sampling: q("14 pF"), Bits: 12})
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "Source", s.Source, "10.89034 kΩ", rounded)
}

// After the settling time half a step is left of a full-scale difference:
// e^(−t/τ) · 2^bits = 1/2, whatever the converter.
func TestHalfAStepIsLeft(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := DirectInputs{
			Source: drawResistance(t, "source"), Switch: drawResistance(t, "switch"),
			Sampling: units.Number(rapid.Float64Range(1, 100).Draw(t, "pF")).Mul(q("1 pF")),
			Bits:     rapid.IntRange(1, 32).Draw(t, "bits"),
		}
		s, err := DirectSampling(in)
		if err != nil {
			t.Fatal(err)
		}
		left := math.Exp(-s.Settling.SI()/s.TimeConstant.SI()) * math.Ldexp(1, in.Bits)
		if math.Abs(left-0.5) > 1e-9 {
			t.Fatalf("%v steps are left, want half a step", left)
		}
		back, err := LargestSource(DirectInputs{Time: s.Settling, Switch: in.Switch, Sampling: in.Sampling, Bits: in.Bits})
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(back.Source.SI()-in.Source.SI()) > 1e-6*(in.Source.SI()+in.Switch.SI()) {
			t.Fatalf("source %v, want %v", back.Source, in.Source)
		}
	})
}

// By hand: 14 pF/(14 pF + 100 nF) = 1.399804e-4; of 3.3 V 461.9353 µV or
// 0.5733597 steps; 14 pF · 8191 = 114.674 nF; 9.091 kΩ · 100 nF = 909.1 µs;
// recovery 909.1 µs · ln(2 · 0.5733597) = 124.4549 µs.
func TestReservoir(t *testing.T) {
	t.Parallel()
	in := ReservoirInputs{
		Reference: q("3.3 V"), Bits: 12, Source: q("9.091 kΩ"), Reservoir: q("100 nF"), Sampling: q("14 pF"), Period: q("1 ms"),
	}
	r, err := ReservoirSampling(in)
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "Share", r.Share, "0.0001399804", rounded)
	expect.Near(t, "Dip", r.Dip, "461.9353 µV", rounded)
	expect.Near(t, "DipInSteps", r.DipInSteps, "0.5733597", rounded)
	expect.Near(t, "LeastReservoir", r.LeastReservoir, "114.674 nF", 1e-12)
	expect.Near(t, "TimeConstant", r.TimeConstant, "909.1 µs", 1e-12)
	expect.Near(t, "Recovery", r.Recovery, fmt.Sprintf("%.9g µs", 909.1*math.Log(2*0.5733597)), rounded)

	in.Reservoir = q("1 µF")
	r, err = ReservoirSampling(in)
	if err != nil {
		t.Fatal(err)
	}
	if r.Recovery.SI() != 0 {
		t.Errorf("a dip of %v steps needs %v to recover, want none", r.DipInSteps, r.Recovery)
	}
}

// The standing error against a simulation of the charges, sample by sample.
func TestReservoirAgainstSimulation(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		source := rapid.Float64Range(1e3, 1e5).Draw(t, "source")
		reservoir := rapid.Float64Range(1e-10, 1e-8).Draw(t, "reservoir")
		sampling := rapid.Float64Range(1e-12, 5e-11).Draw(t, "sampling")
		period := source * reservoir * rapid.Float64Range(0.05, 5).Draw(t, "periods")
		const reference = 2.5
		r, err := ReservoirSampling(ReservoirInputs{
			Reference: q("2.5 V"), Bits: 10, Source: units.Number(source).Mul(q("1 Ω")),
			Reservoir: units.Number(reservoir).Mul(q("1 F")), Sampling: units.Number(sampling).Mul(q("1 F")),
			Period: units.Number(period).Mul(q("1 s")),
		})
		if err != nil {
			t.Fatal(err)
		}
		node, sampled := reference, 0.0
		for range 2000 {
			sampled = node * reservoir / (reservoir + sampling)                         // the sampling capacitor comes empty
			node = reference + (sampled-reference)*math.Exp(-period/(source*reservoir)) // the source fills up the reservoir
		}
		if want := reference - sampled; math.Abs(r.SampleError.SI()-want) > 1e-9*reference {
			t.Fatalf("standing error %v, simulated %v", r.SampleError.SI(), want)
		}
	})
}

// By hand: (60 − 3.6)/100 kΩ = 564 µA, 3.6/10 kΩ = 360 µA, 204 µA into the
// clamp, · 3.6 V = 734.4 µW, 564 µA² · 100 kΩ = 31.8096 mW.
func TestClamp(t *testing.T) {
	t.Parallel()
	c, err := Clamp(ClampInputs{Input: q("60 V"), Upper: q("100 kΩ"), Lower: q("10 kΩ"), Level: q("3.6 V")})
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "OpenVoltage", c.OpenVoltage, "5.454545 V", rounded)
	expect.Near(t, "Node", c.Node, "3.6 V", 1e-12)
	expect.Near(t, "UpperCurrent", c.UpperCurrent, "564 µA", 1e-12)
	expect.Near(t, "LowerCurrent", c.LowerCurrent, "360 µA", 1e-12)
	expect.Near(t, "Current", c.Current, "204 µA", 1e-12)
	expect.Near(t, "ClampPower", c.ClampPower, "734.4 µW", 1e-12)
	expect.Near(t, "UpperPower", c.UpperPower, "31.8096 mW", 1e-12)
	// Below the level the clamp does nothing: 32 V/11 = 2.909091 V.
	c, err = Clamp(ClampInputs{Input: q("32 V"), Upper: q("100 kΩ"), Lower: q("10 kΩ"), Level: q("3.6 V")})
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "Node", c.Node, "2.909091 V", rounded)
	expect.Near(t, "Current", c.Current, "0 A", 0)
}

func ExampleMeasuring() {
	m, err := Measuring(MeasuringInputs{
		Input: units.MustParse("32 V"), Upper: units.MustParse("100 kΩ"), Lower: units.MustParse("10 kΩ"),
		Reference: units.MustParse("3.3 V"), Bits: 12, Leakage: units.MustParse("100 nA"),
	})
	fmt.Println(m.FullScale, m.Resolution, m.InputError, err)
	// Output: 36.3 V 8.862 mV 10 mV <nil>
}

func ExampleReservoirSampling() {
	r, err := ReservoirSampling(ReservoirInputs{
		Reference: units.MustParse("3.3 V"), Bits: 12, Source: units.MustParse("9.091 kΩ"),
		Reservoir: units.MustParse("100 nF"), Sampling: units.MustParse("14 pF"), Period: units.MustParse("1 ms"),
	})
	fmt.Println(r.DipInSteps, r.LeastReservoir, r.ErrorInSteps, err)
	// Output: 0.5734 114.7 nF 0.8594 <nil>
}
