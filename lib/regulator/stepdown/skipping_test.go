package stepdown

import (
	"fmt"
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// TPS62130 SLVSAG7, power-save mode, from memory: f = 2 · I/(ton² · (Vin/Vout) ·
// (Vin − Vout)/L), with ton = 400 ns · Vout/Vin = 110 ns from 12 V to 3.3 V;
// with 2.2 µH and 10 mA by hand: 20 mA/(1.21e-14 s² · 3.636 · 3.955 A/µs) =
// 114.9 kHz.
func TestPublishedSkipping(t *testing.T) {
	t.Parallel()
	s, err := Skipping(SkippingInputs{
		Stage:   Stage{Input: q("12 V"), Output: q("3.3 V"), Load: q("10 mA"), Frequency: q("2.5 MHz"), Inductance: q("2.2 µH")},
		LeastOn: q("110 ns"), Capacitance: q("22 µF"), ESR: q("5 mΩ"),
	})
	expect.Must(t, s, err)
	expect.Near(t, "Frequency", s.Frequency, "114.9 kHz", 1e-3)
	expect.Near(t, "Peak", s.Peak, "435 mA", 1e-3)               // 3.955 A/µs · 110 ns
	expect.Near(t, "SkipLoad", s.SkipLoad, "217.5 mA", 1e-3)     // 435 mA/2: 110 ns is the whole on-time
	expect.Near(t, "Share", s.Share, "4.597 %", 1e-3)            // 10 mA/217.5 mA
	expect.Near(t, "Capacitive", s.Capacitive, "3.773 mV", 2e-3) // (425 mA)²/(2 · 435 mA) · 400 ns/22 µF
	expect.Near(t, "Resistive", s.Resistive, "2.175 mV", 1e-3)
	// A least peak of 0.87 A makes pulses of twice the length: a quarter as many.
	p, err := Skipping(SkippingInputs{
		Stage:     Stage{Input: q("12 V"), Output: q("3.3 V"), Load: q("10 mA"), Frequency: q("2.5 MHz"), Inductance: q("2.2 µH")},
		LeastPeak: q("0.87 A"), Capacitance: q("22 µF"),
	})
	expect.Near(t, "Frequency with a least peak", expect.Must(t, p, err).Frequency, "28.73 kHz", 1e-3)
}

// Where no pulse is skipped, the results are those of Currents and
// OutputRipple, and at SkipLoad both sides agree.
func TestSkippingAgreesAtItsBoundary(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		size := func(name string, low, high float64) float64 {
			return math.Exp(rapid.Float64Range(math.Log(low), math.Log(high)).Draw(t, name))
		}
		stage := lossy()
		stage.Load, stage.Input = of(size("load", 1e-3, 2), "A"), of(size("input", 8, 40), "V")
		in := SkippingInputs{Stage: stage, LeastOn: of(size("least on", 1e-9, 1e-6), "s"), Capacitance: q("44 µF"), ESR: q("3 mΩ")}
		s, err := Skipping(in)
		if err != nil {
			t.Fatal(err)
		}
		i, err := Currents(stage)
		if err != nil {
			t.Fatal(err)
		}
		same := func(name string, a, b units.Quantity) {
			if math.Abs(a.SI()-b.SI()) > 1e-9*math.Abs(b.SI()) {
				t.Fatalf("%s is %v, not %v", name, a, b)
			}
		}
		if s.ShortestOn.SI() <= i.OnTime.SI() {
			same("Frequency", s.Frequency, stage.Frequency)
			same("Peak", s.Peak, i.Peak)
			r, err := OutputRipple(OutputRippleInputs{Stage: stage, Capacitance: in.Capacitance})
			if err != nil {
				t.Fatal(err)
			}
			same("Capacitive", s.Capacitive, r.Capacitive)
		} else if !s.Frequency.Less(stage.Frequency) || !i.Peak.Less(s.Peak) {
			t.Fatalf("%+v skips nothing", s)
		}
		// Charge balance: what the pulses bring is the load.
		brought := s.Peak.SI() / 2 * s.OnTime.SI() / i.Duty.SI() * s.Frequency.SI()
		if s.Peak.SI() <= s.Swing.SI()*(1+1e-9) && math.Abs(brought-stage.Load.SI()) > 1e-9*stage.Load.SI() {
			t.Fatalf("the pulses bring %v A of %v", brought, stage.Load)
		}
		if s.ShortestOn.SI()*stage.Frequency.SI() < i.Duty.SI() {
			stage.HighSwitch, stage.LowSwitch, stage.Winding = none, none, none // so that the duty does not change with the load
			in.Stage = stage
			s, err := Skipping(in)
			if err != nil {
				t.Fatal(err)
			}
			in.Stage.Load = s.SkipLoad
			at, err := Skipping(in)
			if err != nil {
				t.Fatal(err)
			}
			if s.ShortestOn.SI()*stage.Frequency.SI() < stage.Output.SI()/stage.Input.SI() {
				same("Frequency at SkipLoad", at.Frequency, stage.Frequency)
				same("OnTime at SkipLoad", at.OnTime, s.ShortestOn)
			}
		}
	})
}

// A regulator that compares its output at each edge of its clock, and then
// makes a pulse of the shortest on-time or none: the mean number of pulses and
// the ripple, in time.
func TestSkippingAgainstSimulation(t *testing.T) {
	t.Parallel()
	for _, load := range []float64{2e-3, 10e-3, 30e-3} {
		const in, out, l, c, f, on, diode = 24.0, 5.0, 22e-6, 10e-6, 400e3, 300e-9, 0.4
		s, err := Skipping(SkippingInputs{
			Stage:   Stage{Input: of(in, "V"), Output: of(out, "V"), Load: of(load, "A"), Frequency: of(f, "Hz"), Inductance: of(l, "H"), Diode: of(diode, "V")},
			LeastOn: of(on, "s"), Capacitance: of(c, "F"),
		})
		expect.Must(t, s, err)
		const steps = 200
		h := 1 / f / steps
		i, v, pulses, ripple, rounds := 0.0, out, 0, 0.0, int(15000/(load/1e-3))
		low, high := v, v
		for range rounds {
			pulse := v < out
			if pulse {
				pulses++
				ripple += high - low
				low, high = v, v
			}
			for k := range steps {
				share := 0.0
				if pulse {
					share = math.Max(0, math.Min(1, on/h-float64(k)))
				}
				di := (share*in - (1-share)*(diode*bool01(i > 0)) - v*bool01(i > 0 || share > 0)) / l * h
				mid := math.Max(0, i+di/2)
				i = math.Max(0, i+di)
				v += (mid - load) / c * h
				low, high = math.Min(low, v), math.Max(high, v)
			}
		}
		name := fmt.Sprintf("at %g mA", load*1e3)
		if got := float64(pulses) / float64(rounds) * f; math.Abs(got/s.Frequency.SI()-1) > 0.02 {
			t.Errorf("%s the circuit pulses at %g Hz, not %v", name, got, s.Frequency)
		}
		// It waits for the edge of its clock, half a period in the mean.
		if got, wait := ripple/float64(pulses), load/f/c; got < s.Capacitive.SI()*0.98 || got > s.Capacitive.SI()*1.02+wait {
			t.Errorf("%s the circuit's ripple is %g V, not %v and at most %g V", name, got, s.Capacitive, wait)
		}
	}
}

func bool01(b bool) float64 {
	if b {
		return 1
	}
	return 0
}
