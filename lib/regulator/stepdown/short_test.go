package stepdown

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/table"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// By hand: 32 V, 200 ns at 400 kHz are 8 % of the time: 2.56 V less 0.46 V of
// a diode of 0.5 V drive 0.22 Ω · 8 % + 0.07 Ω = 87.6 mΩ: 23.97 A.
func TestShortCircuitByHand(t *testing.T) {
	t.Parallel()
	in := ShortCircuitInputs{
		Stage: Stage{Input: q("32 V"), Output: q("5 V"), Frequency: q("400 kHz"), Inductance: q("22 µH"), HighSwitch: q("220 mΩ"), Winding: q("70 mΩ"), Diode: q("0.5 V")},
		Limit: q("3 A"), LeastOn: q("200 ns"),
	}
	s, err := ShortCircuit(in)
	expect.Must(t, s, err)
	expect.Near(t, "Settled", s.Settled, "23.97 A", 1e-3)
	expect.Near(t, "Rise", s.Rise, "227.7 mA", 1e-3) // (32 V − 23.97 A · 0.29 Ω) · 200 ns/22 µH
	expect.Near(t, "Peak", s.Peak, "24.09 A", 1e-3)
	expect.Near(t, "LimitMargin", s.LimitMargin, "-21.09 A", 1e-3)
	// At 3 A less half of 283.0 mA, 2.8585 A, the current falls with 0.5 V + 0.2001 V
	// and rises with 31.171 V: 2.1965 % of the time, of 8 %.
	expect.Near(t, "MostShare", s.MostShare, "27.46 %", 1e-3)
	// A quarter of the frequency holds: 2 % of 32 V less 0.49 V drive 74.4 mΩ.
	in.Foldback = q("25 %")
	s, err = ShortCircuit(in)
	expect.Must(t, s, err)
	expect.Near(t, "Settled at a quarter", s.Settled, "2.016 A", 1e-3)
	expect.Near(t, "Peak at a quarter", s.Peak, "3 A", 1e-12)
	// A hiccup of 1 ms in 20 ms lets a twentieth through: 3 A less half of (32 V −
	// 2.016 A · 0.29 Ω) · 200 ns/22 µH = 285.6 mA.
	in.On, in.Off = q("1 ms"), q("19 ms")
	s, err = ShortCircuit(in)
	expect.Near(t, "Average", expect.Must(t, s, err).Average, "142.9 mA", 1e-3)
}

// A shorted stage in time: from no current on, each pulse ends at the limit,
// but not before the shortest on-time.
func TestShortCircuitAgainstSimulation(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		size := func(name string, low, high float64) float64 {
			return math.Exp(rapid.Float64Range(math.Log(low), math.Log(high)).Draw(t, name))
		}
		in, f, l, on := size("input", 8, 40), size("frequency", 1e5, 1e6), size("inductance", 5e-6, 5e-5), size("on", 5e-8, 3e-7)
		limit, high, winding, diode, fold := size("limit", 1, 6), size("high", 0.05, 0.3), size("winding", 0.03, 0.2), size("diode", 0.2, 0.7), size("foldback", 0.1, 1)
		s, err := ShortCircuit(ShortCircuitInputs{
			Stage: Stage{Input: of(in, "V"), Output: of(5, "V"), Frequency: of(f, "Hz"), Inductance: of(l, "H"), HighSwitch: of(high, "Ω"), Winding: of(winding, "Ω"), Diode: of(diode, "V")},
			Limit: of(limit, "A"), LeastOn: of(on, "s"), Foldback: of(fold, ""),
		})
		if err != nil {
			t.Fatal(err)
		}
		// Between two events the current runs to a resting value by e^(−t·R/L).
		i, peak := 0.0, 0.0
		run := func(i, drive, r, time float64) float64 {
			rest := drive / r
			return rest + (i-rest)*math.Exp(-time*r/l)
		}
		for range int(8*l/winding*f*fold) + 300 {
			period := 1 / (f * fold)
			time := on
			// Until the limit, if it takes longer than the shortest on-time.
			if rest := in / (high + winding); rest > limit && i < limit {
				time = math.Min(period, math.Max(on, l/(high+winding)*math.Log((rest-i)/(rest-limit))))
			}
			peak = run(i, in, high+winding, time)
			i = math.Max(0, run(peak, -diode, winding, period-time))
		}
		// Where the current rises by much in a pulse, it does so along a curve.
		if want := s.Peak.SI(); math.Abs(peak-want) > 0.01*want+0.06*s.Rise.SI() {
			t.Fatalf("the circuit comes to %v A, not %v of %+v", peak, want, s)
		}
		if (peak > limit*1.0001) != (s.MostShare.SI() < fold) && math.Abs(s.Runaway.SI()/limit-1) > 0.05 {
			t.Fatalf("the circuit comes to %v A with %v of the frequency; %+v", peak, fold, s)
		}
	})
}

// An inductance that falls in a straight line from 22 µH at nothing to 11 µH at
// 5 A. 24 V to 5 V at 400 kHz without losses make 19 V/24 V · 5 V/400 kHz =
// 9.8958 Vµs; with 2 A of load the peak p solves p = 2 A + 9.8958 Vµs/(2 ·
// (22 − 2.2 p) µH): 2.2 p² − 26.4 p + 48.948 = 0 (p in A), p = 2.292 A.
func TestSaturationByHand(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("24 V"), Output: q("5 V"), Load: q("2 A"), Frequency: q("400 kHz"), Inductance: q("22 µH")}
	for _, text := range []string{"current [A], inductance [µH]\n0, 22\n5, 11", "current [A], left [%]\n0, 100\n2, 80\n5, 50"} {
		curve, err := table.Text(text)
		expect.Must(t, curve, err)
		s, err := Saturation(SaturationInputs{Stage: stage, Curve: curve})
		expect.Must(t, s, err)
		expect.Near(t, "Peak", s.Peak, "2.292 A", 1e-3)
		expect.Near(t, "Remaining", s.Remaining, "77.08 %", 1e-3) // 1 − 2.292/10
		expect.Near(t, "Inductance", s.Inductance, "16.96 µH", 1e-3)
		expect.Near(t, "Ripple", s.Ripple, "583.6 mA", 1e-3) // 9.8958/16.957
		expect.Near(t, "Headroom", s.Headroom, "2.708 A", 1e-3)
	}
	// A curve that does not fall is an inductance.
	flat := expect.Table("current [A], left [%]\n0, 100\n5, 100")
	s, err := Saturation(SaturationInputs{Stage: stage, Curve: flat})
	expect.Must(t, s, err)
	i, err := Currents(stage)
	expect.Must(t, i, err)
	if d := s.Peak.Sub(i.Peak); math.Abs(d.SI()) > 1e-12 {
		t.Errorf("without a fall the peak differs by %v", d)
	}
	var study = units.NewStudy(units.StudyOptions{Boards: 20})
	curve := expect.Table("current [A], left [%]\n0, 100\n2, 80\n5, 50")
	stage.Load = study.Place("load", "load", units.Range(q("0.1 A"), q("1 A"), q("4.9 A")))
	_, err = Saturation(SaturationInputs{Stage: stage, Curve: curve})
	if got, want := err.Error(), "stepdown.Saturation: the peak with what the curve leaves at its end is 5.35 A where load is 4.9 A; it must be below the last current of Curve, 5 A: the inductor saturates; take a larger one, or lower the load or the ripple"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}
