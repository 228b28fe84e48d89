package stepdown

import (
	"math"
	"math/cmplx"
	"testing"

	"ohmwright/units"

	"pgregory.net/rapid"
)

// Sources: TPS54540 SLVSBX7 p. 27, TPS54360 SLVSBB4C p. 28, TPS54560 SLVSBN0
// p. 27: 350 µA/V and 0.8 V in all; printed 17, 13 and 16.8 kΩ, with the
// crossovers 30, 23.9 and 29.2 kHz. The capacitors are printed for the
// standard resistors (16.9, 13, 16.9 kΩ) and rounded poles.
func TestPublishedCompensation(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name, output, load, frequency, capacitance, esr, powerStage, crossover string
		pole, resistor, capacitor, high                                        string
	}{
		{"TPS54540", "3.3 V", "5 A", "400 kHz", "130 µF", "1 mΩ", "17 A/V", "30 kHz", "1850 Hz", "17 kΩ", "5100 pF", "47 pF"},
		{"TPS54360", "5 V", "3.5 A", "600 kHz", "58.3 µF", "2.5 mΩ", "12 A/V", "23.9 kHz", "1912 Hz", "13 kΩ", "6404 pF", "40.8 pF"},
		{"TPS54560", "5 V", "5 A", "400 kHz", "87.4 µF", "1.67 mΩ", "17 A/V", "29.2 kHz", "1821 Hz", "16.8 kΩ", "5172 pF", "47.1 pF"},
	} {
		c, err := Compensation(CompensationInputs{
			Stage:       Stage{Input: q("12 V"), Output: q(test.output), Load: q(test.load), Frequency: q(test.frequency)},
			Capacitance: q(test.capacitance), ESR: q(test.esr), Reference: q("0.8 V"), Amplifier: q("350 µA/V"), PowerStage: q(test.powerStage), Crossover: q(test.crossover),
		})
		must(t, c, err)
		near(t, test.name+" LoadPole", c.LoadPole, test.pole, threeDigits)
		near(t, test.name+" Resistor", c.Resistor, test.resistor, threeDigits)
		near(t, test.name+" Capacitor", c.Capacitor, test.capacitor, 1e-2)
		near(t, test.name+" HighCapacitor", c.HighCapacitor, test.high, 1e-2)
	}
}

// The loop that is compensated for a crossover has it there: gain and phase
// as sums of the textbook's asymptotes. With the zero on the load's pole and
// no ESR, the gain is that of an integrator, factor · Resistor/(ω · C), and
// the phase −90° less the high capacitor's and the sampling's part.
func TestLoopByHand(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("24 V"), Output: q("5 V"), Load: q("1.5 A"), Frequency: q("400 kHz")}
	c, err := Compensation(CompensationInputs{Stage: stage, Capacitance: q("110 µF"), Reference: q("0.8 V"), Amplifier: q("350 µA/V"), PowerStage: q("12 A/V"), Crossover: q("20 kHz")})
	must(t, c, err)
	l, err := Loop(LoopInputs{Stage: stage, Capacitance: q("110 µF"), Reference: q("0.8 V"), Amplifier: q("350 µA/V"), PowerStage: q("12 A/V"), Resistor: c.Resistor, Capacitor: c.Capacitor, Quality: q("1")})
	must(t, l, err)
	// The pole pair alone moves it: at a tenth of half the frequency its gain is
	// 1/√((1 − 0.01)² + 0.01) = 1.00504.
	near(t, "Crossover", l.Crossover, "20.1 kHz", 1e-3)
	// 180° − 90° − atan(0.1005/(1 − 0.0101)): 84.2°.
	near(t, "PhaseMargin", l.PhaseMargin, "84.2 deg", 1e-3)
	// Integrator and pole pair pass −180° at half the frequency, where the pair
	// has a gain of Quality: 20 kHz/200 kHz, 20 dB.
	near(t, "the ratio of GainMargin", units.VoltageRatio(l.GainMargin), "10", 1e-3)
}

// Crossover and margins of any loop, against the product of its complex
// impedances.
func TestLoopAgainstComplexNumbers(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		size := func(name string, low, high float64) float64 {
			return math.Exp(rapid.Float64Range(math.Log(low), math.Log(high)).Draw(t, name))
		}
		out, load, f := size("output", 0.8, 24), size("load", 0.1, 20), size("frequency", 1e5, 2e6)
		c, esr := size("capacitance", 1e-5, 1e-3), size("ESR", 1e-4, 0.1)
		gm, gps, ref := size("amplifier", 5e-5, 1e-3), size("power stage", 1, 30), 0.6
		r, cc, ch, quality := size("resistor", 1e3, 1e5), size("capacitor", 1e-10, 1e-8), size("high", 1e-12, 1e-10), size("quality", 0.2, 2)
		l, err := Loop(LoopInputs{
			Stage:       Stage{Input: of(out+10, "V"), Output: of(out, "V"), Load: of(load, "A"), Frequency: of(f, "Hz")},
			Capacitance: of(c, "F"), ESR: of(esr, "Ω"), Reference: of(ref, "V"), Amplifier: of(gm, "S"), PowerStage: of(gps, "S"),
			Resistor: of(r, "Ω"), Capacitor: of(cc, "F"), HighCapacitor: of(ch, "F"), Quality: of(quality, ""),
		})
		if err != nil {
			t.Skip(err) // no crossover
		}
		response := func(frequency float64) complex128 {
			s := complex(0, 2*math.Pi*frequency)
			parallel := func(a, b complex128) complex128 { return a * b / (a + b) }
			amplifier := parallel(complex(r, 0)+1/(s*complex(cc, 0)), 1/(s*complex(ch, 0)))
			output := parallel(complex(out/load, 0), complex(esr, 0)+1/(s*complex(c, 0)))
			n := s / complex(math.Pi*f, 0)
			return complex(gm*gps*ref/out, 0) * amplifier * output / (1 + n/complex(quality, 0) + n*n)
		}
		at := response(l.Crossover.SI())
		if g := cmplx.Abs(at); math.Abs(g-1) > 1e-9 {
			t.Fatalf("at the crossover, %v, the gain is %v", l.Crossover, g)
		}
		// The angles agree but for whole turns.
		margin := l.PhaseMargin.SI() - math.Pi
		if d := math.Abs(cmplx.Phase(at * cmplx.Exp(complex(0, -margin)))); d > 1e-9 {
			t.Fatalf("phase margin %v, the response is %v", l.PhaseMargin, at)
		}
		for k := 1; k < 100; k++ {
			x := l.Crossover.SI() * math.Pow(f/2/l.Crossover.SI(), float64(k)/100)
			if g := cmplx.Abs(response(x)); g > 1+1e-6 {
				// A peak between two points of the search.
				if g > 1.05 {
					t.Fatalf("above the crossover, at %v Hz, the gain is %v", x, g)
				}
			}
		}
		// Where the gain margin is taken, no phase before it passed the half turn
		// downwards for good: the margin's gain is that of a point with it.
		worst := 1 / units.VoltageRatio(l.GainMargin).SI()
		found := math.Abs(cmplx.Abs(response(f/2))-worst) < 1e-9*worst
		for k := 0; k < 4000 && !found; k++ {
			x := f / 2 * math.Pow(1e-6, float64(k)/4000)
			y := f / 2 * math.Pow(1e-6, float64(k+1)/4000)
			a, b := response(x), response(y)
			crosses := (imag(a) < 0) != (imag(b) < 0) && real(a) < 0
			lo, hi := math.Min(cmplx.Abs(a), cmplx.Abs(b)), math.Max(cmplx.Abs(a), cmplx.Abs(b))
			found = crosses && lo*(1-1e-6) <= worst && worst <= hi*(1+1e-6)
		}
		if !found {
			t.Fatalf("the gain margin, %v, is that of no point with a phase of −180°", l.GainMargin)
		}
	})
}

// What a loop refuses.
func TestLoopRefusals(t *testing.T) {
	t.Parallel()
	good := LoopInputs{Stage: lossy(), Capacitance: q("110 µF"), Reference: q("0.8 V"), Amplifier: q("350 µA/V"), PowerStage: q("12 A/V"), Resistor: q("10 kΩ"), Capacitor: q("5 nF")}
	with := func(change func(*LoopInputs)) error { in := good; change(&in); _, err := Loop(in); return err }
	compensation := CompensationInputs{Stage: lossy(), Capacitance: q("110 µF"), Reference: q("0.8 V"), Amplifier: q("350 µA/V"), PowerStage: q("12 A/V"), Crossover: q("300 kHz")}
	_, fast := Compensation(compensation)
	for _, test := range []struct {
		name string
		err  error
		want string
	}{
		{"amplifier of another kind", with(func(in *LoopInputs) { in.Amplifier = q("350 µA") }), "stepdown.Loop: Amplifier is 350 µA; it must be a transconductance: write it in S, such as 350 µA/V"},
		{"no quality", with(func(in *LoopInputs) { in.Quality = q("0 %") }), "stepdown.Loop: Quality is 0 %; it must be above 0 %: write its share, such as 60 %"},
		{"much gain", with(func(in *LoopInputs) { in.Resistor = q("1 MΩ") }), "stepdown.Loop: the gain at half the switching frequency is 3.095; it must be below 1, 1: such a loop oscillates; lower Resistor or raise Capacitance"},
		{"no gain", with(func(in *LoopInputs) { in.Resistor, in.Capacitor = q("1 mΩ"), q("1 F") }), "stepdown.Loop: the gain at a millionth of the switching frequency is 0.0008913; it must be above 1, 1: such a loop hardly regulates; raise Resistor or lower Capacitor"},
		{"fast crossover", fast, "stepdown.Compensation: Crossover is 300 kHz; it must be below half the switching frequency, 200 kHz: no loop is faster; lower it to about a tenth"},
	} {
		got := "no error"
		if test.err != nil {
			got = test.err.Error()
		}
		if got != test.want {
			t.Errorf("%s:\ngot  %s\nwant %s", test.name, got, test.want)
		}
	}
}
