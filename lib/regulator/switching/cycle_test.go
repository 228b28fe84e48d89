package switching

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// Sources: TPS54540 SLVSBX7 (May 2013) p. 22 to 24: 42 V to 3.3 V, 5 A, 400
// kHz, 4.8 µH: 1.58 A of ripple, peak 5.79 A, 460 mA alternating. TPS65140
// SLVS497E p. 13: 3.3 V to 10 V with a diode of 0.8 V and a switch of 0.5 V,
// 1.6 MHz, 4.2 µH, 300 mA: duty 0.73, 1.11 A in the inductor (it takes 1 − the
// rounded duty: 300 mA/0.27), 304 mA of ripple, peak 1.26 A. 2.8 V/10.3 V is
// 0.27184.
func TestPublishedCycles(t *testing.T) {
	t.Parallel()
	c, err := Cycle(CycleInputs{OnVoltage: q("38.7 V"), OffVoltage: q("3.3 V"), Inductance: q("4.8 µH"), Frequency: q("400 kHz"), Mean: q("5 A")})
	expect.Near(t, "Ripple", expect.Must(t, c, err).Ripple, "1.58 A", 5e-3)
	expect.Near(t, "Peak", c.Peak, "5.79 A", 1e-3)
	expect.Near(t, "AlternatingRMS", c.AlternatingRMS, "460 mA", 1e-2)
	c, err = Cycle(CycleInputs{OnVoltage: q("2.8 V"), OffVoltage: q("7.5 V"), Inductance: q("4.2 µH"), Frequency: q("1.6 MHz"), Mean: q("1.11 A")})
	expect.Near(t, "Duty", expect.Must(t, c, err).Duty, "0.728", 1e-3)
	expect.Near(t, "Ripple", c.Ripple, "304 mA", 5e-3)
	expect.Near(t, "Peak", c.Peak, "1.26 A", 2e-3)
	expect.Near(t, "OffAverage", c.OffAverage, "0.3 A", 1e-2)
}

// Below the boundary, by arithmetic: 9 V and 3 V across 10 µH at 100 kHz:
// duty 1/4, full ripple 9 V/10 µH · 2.5 µs = 2.25 A, boundary 1.125 A. A mean
// of 0.28125 A is a quarter of that: current flows for half the period, 1.25 µs
// up to 1.125 A and 3.75 µs down.
func TestRestingCycleByHand(t *testing.T) {
	t.Parallel()
	c, err := Cycle(CycleInputs{OnVoltage: q("9 V"), OffVoltage: q("3 V"), Inductance: q("10 µH"), Frequency: q("100 kHz"), Mean: q("0.28125 A")})
	expect.Must(t, c, err)
	for _, x := range []struct {
		name string
		got  units.Quantity
		want string
	}{
		{"Duty", c.Duty, "25 %"}, {"Boundary", c.Boundary, "1.125 A"}, {"Conduction", c.Conduction, "0.5"},
		{"OnTime", c.OnTime, "1.25 µs"}, {"OffTime", c.OffTime, "3.75 µs"}, {"Peak", c.Peak, "1.125 A"}, {"Flowing", c.Flowing, "0.5625 A"},
		{"RMS", c.RMS, "0.459279326772 A"},                       // 1.125 · √(0.5/3)
		{"AlternatingRMS", c.AlternatingRMS, "0.363092188706 A"}, // √(0.2109375 − 0.0791015625)
		{"OnAverage", c.OnAverage, "70.3125 mA"},                 // 0.125 · 0.5625
		{"OnRMS", c.OnRMS, "0.229639663386 A"},                   // 1.125 · √(0.125/3)
		{"OffPulseRMS", c.OffPulseRMS, "0.337206903980 A"},       // √(0.375/3 · 1.125² − 0.2109375²)
		{"Swing", c.Swing, "1.125 A"},                            //
		{"Charge", c.Charge, "1.58203125 µC"},                    // (1.125 − 0.28125)²/2 · (1/0.9 + 1/0.3) µs/A
		{"OnCharge", c.OnCharge, "0.617980957031 µC"},            // 70.3125 mA · 8.75 µs + 0.0703125²/(2 · 0.9 A/µs)
		{"OffCharge", c.OffCharge, "1.39251708984 µC"},           // 0.2109375 A · 6.25 µs + 0.2109375²/(2 · 0.3 A/µs)
	} {
		expect.Near(t, x.name, x.got, x.want, 1e-9)
	}
	if c.Valley.SI() != 0 {
		t.Errorf("Valley is %v", c.Valley)
	}
}

func drawCycle(t *rapid.T) CycleInputs {
	size := func(name string, low, high float64) float64 {
		return math.Exp(rapid.Float64Range(math.Log(low), math.Log(high)).Draw(t, name))
	}
	return CycleInputs{
		OnVoltage: of(size("on", 0.1, 100), "V"), OffVoltage: of(size("off", 0.1, 100), "V"), Inductance: of(size("inductance", 1e-7, 1e-3), "H"),
		Frequency: of(size("frequency", 5e4, 3e6), "Hz"), Mean: of(size("mean", 1e-3, 20), "A"), Forced: rapid.Bool().Draw(t, "forced"),
	}
}

// The waveform that a cycle describes, summed in small steps, has its mean,
// squares and charges; and its two sides agree at the boundary.
func TestCycleIsItsWaveform(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := drawCycle(t)
		c, err := Cycle(in)
		if err != nil {
			t.Fatal(err)
		}
		const steps = 3000
		period, on, off := 1/in.Frequency.SI(), c.OnTime.SI(), c.OffTime.SI()
		up, down := in.OnVoltage.SI()/in.Inductance.SI(), in.OffVoltage.SI()/in.Inductance.SI()
		start := c.Valley.SI()
		var whole, first, second []float64
		sample := func(time float64, part *[]float64) {
			i := 0.0
			switch {
			case part == &first:
				i = start + up*time
			case part == &second:
				i = start + up*on - down*time
			}
			whole = append(whole, i)
			*part = append(*part, i)
		}
		rest := period - on - off
		var none []float64
		for _, p := range []struct {
			length float64
			part   *[]float64
		}{{on, &first}, {off, &second}, {rest, &none}} {
			for k := range steps {
				sample(p.length*(float64(k)+0.5)/steps, p.part)
			}
		}
		weights := func(k int) float64 { return [3]float64{on, off, rest}[k/steps] / steps }
		// A part is nothing outside of itself.
		only := func(part int) []float64 {
			xs := make([]float64, 3*steps)
			copy(xs[part*steps:(part+1)*steps], whole[part*steps:])
			return xs
		}
		size := math.Abs(c.Peak.SI()) + math.Abs(start)
		for _, x := range []struct {
			name                     string
			xs                       []float64
			mean, rms, pulse, charge units.Quantity
		}{
			{"whole", whole, in.Mean, c.RMS, c.AlternatingRMS, c.Charge},
			{"on", only(0), c.OnAverage, c.OnRMS, c.OnPulseRMS, c.OnCharge},
			{"off", only(1), c.OffAverage, c.OffRMS, c.OffPulseRMS, c.OffCharge},
		} {
			mean, square := 0.0, 0.0
			for k, i := range x.xs {
				mean += i * weights(k) / period
				square += i * i * weights(k) / period
			}
			charge, least, most := 0.0, 0.0, 0.0
			// Once round from where it starts is not enough for the extremes.
			for range 2 {
				for k, i := range x.xs {
					charge += (i - mean) * weights(k)
					least, most = math.Min(least, charge), math.Max(most, charge)
				}
			}
			for _, y := range []struct {
				name       string
				got        units.Quantity
				want, unit float64
			}{
				{"mean", x.mean, mean, size}, {"RMS", x.rms, math.Sqrt(square), size},
				{"pulse RMS", x.pulse, math.Sqrt(math.Max(0, square-mean*mean)), size}, {"charge", x.charge, most - least, size * period},
			} {
				if d := math.Abs(y.got.SI() - y.want); d > 2e-3*y.unit {
					t.Fatalf("%s %s is %v, summed %v", x.name, y.name, y.got.SI(), y.want)
				}
			}
		}
		if !in.Forced && (c.Conduction.SI() < 1) != (in.Mean.SI() < c.Boundary.SI()) {
			t.Fatalf("conduction %v at %v of the boundary", c.Conduction, in.Mean.Div(c.Boundary))
		}
	})
}

func TestBoundary(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := drawCycle(t)
		in.Forced = false
		c, err := Cycle(in)
		if err != nil {
			t.Fatal(err)
		}
		const hair = 1e-9
		at := func(share float64, forced bool) map[string]units.Quantity {
			in := in
			in.Mean, in.Forced = c.Boundary.Mul(units.Number(share)), forced
			c, err := Cycle(in)
			if err != nil {
				t.Fatal(err)
			}
			return expect.Quantities(c)
		}
		below, above, forced := at(1-hair, false), at(1+hair, false), at(1+hair, true)
		for name, x := range below {
			y := above[name]
			floor := math.Max(math.Abs(x.SI()), math.Abs(y.SI()))
			if name == "Valley" {
				floor = c.Boundary.SI()
			}
			if d := math.Abs(x.SI() - y.SI()); d > 10*hair*floor {
				t.Fatalf("%s is %v below the boundary, %v above it", name, x.SI(), y.SI())
			}
			if y.SI() != forced[name].SI() {
				t.Fatalf("%s is %v above the boundary, forced %v", name, y.SI(), forced[name].SI())
			}
		}
	})
}

// The losses by arithmetic written out.
func TestLossesByHand(t *testing.T) {
	t.Parallel()
	// 60 mΩ · 1.5² = 135 mW; 300 mΩ · 0.2² = 12 mW; 20 mW.
	l, err := InductorLoss(InductorLossInputs{Mean: q("1.5 A"), AlternatingRMS: q("0.2 A"), Winding: q("60 mΩ"), WindingAC: q("300 mΩ"), Core: q("20 mW")})
	expect.Near(t, "Direct", expect.Must(t, l, err).Direct, "135 mW", 1e-12)
	expect.Near(t, "Ripple", l.Ripple, "12 mW", 1e-12)
	expect.Near(t, "Total", l.Total, "167 mW", 1e-12)
	// 12.5 V · (1.2 A · 8 ns + 1.8 A · 10 ns)/2 · 1 MHz = 172.5 mW; 100 pF · 144/2
	// · 1 MHz = 7.2 mW; 5 nC · 12 V · 1 MHz = 60 mW; 0.7 V · 1.5 A · 20 ns · 1
	// MHz = 21 mW; 4 nC · 5 V · 1 MHz = 20 mW.
	e, err := Edges(EdgesInputs{Blocked: q("12 V"), RectifierDrop: q("0.5 V"), TurnOn: q("1.2 A"), TurnOff: q("1.8 A"), Frequency: q("1 MHz"), RiseTime: q("8 ns"), FallTime: q("10 ns"),
		NodeCapacitance: q("100 pF"), RecoveryCharge: q("5 nC"), GateCharge: q("4 nC"), GateSupply: q("5 V"), DeadTime: q("20 ns"), BodyDiode: q("0.7 V")})
	expect.Near(t, "Switching", expect.Must(t, e, err).Switching, "172.5 mW", 1e-12)
	expect.Near(t, "Node", e.Node, "7.2 mW", 1e-12)
	expect.Near(t, "Recovery", e.Recovery, "60 mW", 1e-12)
	expect.Near(t, "DeadTime", e.DeadTime, "21 mW", 1e-12)
	expect.Near(t, "Gate", e.Gate, "20 mW", 1e-12)
	expect.Near(t, "Total", e.Total, "280.7 mW", 1e-12)
}

// Source: TPS54360 SLVSBB4C (October 2012) p. 33: 12 V, 3.5 A, 600 kHz, 4.9
// ns, 3 nC: 0.123 W of switching, 0.022 W of gates.
func TestPublishedEdges(t *testing.T) {
	t.Parallel()
	e, err := Edges(EdgesInputs{Blocked: q("12 V"), TurnOn: q("3.5 A"), TurnOff: q("3.5 A"), Frequency: q("600 kHz"), RiseTime: q("4.9 ns"), FallTime: q("4.9 ns"), GateCharge: q("3 nC")})
	expect.Near(t, "Switching", expect.Must(t, e, err).Switching, "0.123 W", 5e-3)
	expect.Near(t, "Gate", e.Gate, "0.022 W", 2e-2)
}
