package loop

import (
	"math"
	"math/cmplx"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// A loop by hand, with the textbook's sums of angles. The zero of the network,
// at 1 kHz, stands on the plant's pole, so that the loop is an integrator with
// a gain of 1 at 40 · 0.16 · 350 µS · 8.92857 kΩ · 1 kHz = 20 kHz.
func TestMarginsByHand(t *testing.T) {
	t.Parallel()
	plant := Plant{Gain: q("40"), Frequency: q("400 kHz"), Poles: all("1 kHz"), SamplingQuality: q("1")}
	amplifier := Amplifier{Transconductance: q("350 µS"), Upper: q("52.5 kΩ"), Lower: q("10 kΩ"), Resistor: q("8.92857142857 kΩ"), Capacitor: of(1/(2*math.Pi*8.92857142857e3*1e3), "F")}
	// The pair at 200 kHz alone moves it: at a tenth its gain is 1/√((1 − 0.01)² + 0.01) = 1.00504.
	m, err := Margins(plant, amplifier)
	expect.Must(t, m, err)
	expect.Near(t, "Crossover", m.Crossover, "20.1 kHz", 1e-3)
	expect.Near(t, "CrossoverShare", m.CrossoverShare, "5.025 %", 1e-3)
	// 180° − 90° − atan(0.1005/(1 − 0.0101)): 84.2°.
	expect.Near(t, "PhaseMargin", m.PhaseMargin, "84.2 deg", 1e-3)
	// Integrator and pair pass −180° together at 200 kHz, where the pair has a
	// gain of its quality: 20 kHz/200 kHz, 20 dB.
	expect.Near(t, "Turning", m.Turning, "200 kHz", 1e-3)
	expect.Near(t, "GainMargin", m.GainMargin, "20 dB", 1e-3)
	// A delay of 1 µs takes 360° · 20.1 kHz · 1 µs = 7.24° from the phase.
	plant.Delay = q("1 µs")
	late, err := Margins(plant, amplifier)
	expect.Near(t, "PhaseMargin with a delay", expect.Must(t, late, err).PhaseMargin, "76.96 deg", 1e-3)
	// A zero at 201 kHz in the right half plane takes atan(0.1), 5.71°, and
	// raises the gain by √1.01: the crossover by about 0.5 %.
	plant.Delay, plant.RightZero = none, q("201 kHz")
	right, err := Margins(plant, amplifier)
	expect.Near(t, "PhaseMargin with a right zero", expect.Must(t, right, err).PhaseMargin, "78.43 deg", 1e-3)
}

// drawAmplifier draws an amplifier of any type.
func drawAmplifier(t *rapid.T) Amplifier {
	a := Amplifier{Upper: of(size(t, "upper", 1e3, 1e6), "Ω"), Capacitor: of(size(t, "capacitor", 1e-10, 1e-7), "F")}
	a.Lower = a.Upper.Mul(units.Number(size(t, "lower", 0.05, 2)))
	if rapid.Bool().Draw(t, "with a transconductance") {
		a.Transconductance = of(size(t, "transconductance", 5e-5, 2e-3), "S")
		if rapid.Bool().Draw(t, "with an output resistance") {
			a.OutputResistance = of(size(t, "output resistance", 1e5, 1e8), "Ω")
		}
	} else if rapid.Bool().Draw(t, "with a limit") {
		a.GainBandwidth = of(size(t, "gain-bandwidth", 1e5, 1e8), "Hz")
	}
	if rapid.Bool().Draw(t, "type II") {
		a.Resistor = of(size(t, "resistor", 1e2, 1e6), "Ω")
		a.HighCapacitor = of(size(t, "high capacitor", 1e-12, 1e-9), "F")
	}
	if rapid.Bool().Draw(t, "type III") {
		a.LeadCapacitor = of(size(t, "lead capacitor", 1e-11, 1e-8), "F")
		a.LeadResistor = of(size(t, "lead resistor", 1, 1e5), "Ω")
	}
	return a
}

// nodal is the response of an amplifier by nodal analysis, counted from its
// inversion: nodes are the output that it senses, its inverting input, its
// output and those between two parts in series.
func nodal(t rapid.TB, a Amplifier, frequency float64) complex128 {
	const sensed, input, output, lead, middle = 1, 2, 3, 4, 5
	n := newNodes(complex(0, 2*math.Pi*frequency), 5)
	n.voltage(sensed, 0, 0, 1)
	n.resistor(sensed, input, a.Upper.SI())
	if a.Lower != none {
		n.resistor(input, 0, a.Lower.SI())
	}
	if a.LeadCapacitor != none {
		n.capacitor(sensed, lead, a.LeadCapacitor.SI())
		n.resistor(lead, input, a.LeadResistor.SI())
	} else {
		n.resistor(lead, 0, 1)
	}
	end := input
	if a.Transconductance != none {
		end = 0
		n.current(output, input, complex(-a.Transconductance.SI(), 0))
		if a.OutputResistance != none {
			n.resistor(output, 0, a.OutputResistance.SI())
		}
	} else {
		open := 1e18 / n.s // without limit, as good as
		if a.GainBandwidth != none {
			open = complex(2*math.Pi*a.GainBandwidth.SI(), 0) / n.s
		}
		n.voltage(output, input, -open, 0)
	}
	if a.Resistor != none {
		n.resistor(output, middle, a.Resistor.SI())
		n.capacitor(middle, end, a.Capacitor.SI())
	} else {
		n.capacitor(output, end, a.Capacitor.SI())
		n.resistor(middle, 0, 1)
	}
	if a.HighCapacitor != none {
		n.capacitor(output, end, a.HighCapacitor.SI())
	}
	return -n.solve(t)[output]
}

// Every amplifier against nodal analysis of its circuit.
func TestAmplifierAgainstNodalAnalysis(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		a := drawAmplifier(t)
		f := size(t, "frequency", 10, 1e6)
		r, err := Response(Plant{Gain: q("1"), Frequency: q("2 MHz")}, a, of(f, "Hz"))
		if err != nil {
			t.Fatal(err)
		}
		same(t, r.AmplifierGain, r.AmplifierPhase, nodal(t, a, f), 1e-4)
	})
}

// same holds a gain and a phase against a complex number.
func same(t rapid.TB, gain, phase units.Quantity, want complex128, tolerance float64) {
	t.Helper()
	got := cmplx.Rect(units.VoltageRatio(gain).SI(), phase.SI())
	if d := cmplx.Abs(got-want) / cmplx.Abs(want); !(d < tolerance) {
		t.Fatalf("the response is %v, want %v: off by %g", got, want, d)
	}
}

// Crossover and margins of any loop: where they say that the gain is 1, or
// the phase −180°, it is, and above it is so no more.
func TestMarginsAgainstTheProduct(t *testing.T) {
	t.Parallel()
	found := 0
	rapid.Check(t, func(t *rapid.T) {
		f := size(t, "frequency", 1e5, 2e6)
		gain, pole, zero := size(t, "gain", 1, 100), size(t, "pole", 100, 1e4), size(t, "zero", 1e4, 1e6)
		resonance, quality := size(t, "resonance", 1e3, 3e4), size(t, "quality", 0.3, 20)
		right, sampling, delay := size(t, "right zero", 3e4, 1e6), size(t, "sampling", 0.2, 5), size(t, "delay", 1e-9, 1e-6)
		a := drawAmplifier(t)
		plant := Plant{Gain: of(gain, ""), Frequency: of(f, "Hz"), Delay: of(delay, "s")}
		two := rapid.Bool().Draw(t, "with a resonance")
		if two {
			plant.Resonance, plant.Quality = of(resonance, "Hz"), of(quality, "")
		} else {
			plant.Poles, plant.SamplingQuality = []units.Quantity{of(pole, "Hz")}, of(sampling, "")
		}
		plant.Zeros, plant.RightZero = []units.Quantity{of(zero, "Hz")}, of(right, "Hz")
		m, err := Margins(plant, a)
		if err != nil {
			t.Skip(err) // no crossover
		}
		found++
		response := func(x float64) complex128 {
			s := complex(0, x)
			g := complex(gain, 0) * (1 + s/complex(zero, 0)) * (1 - s/complex(right, 0)) * cmplx.Exp(complex(0, -2*math.Pi*x*delay))
			if two {
				g /= 1 + s/complex(resonance*quality, 0) + s*s/complex(resonance*resonance, 0)
			} else {
				n := s / complex(f/2, 0)
				g /= (1 + s/complex(pole, 0)) * (1 + n/complex(sampling, 0) + n*n)
			}
			return g * nodal(t, a, x)
		}
		at := response(m.Crossover.SI())
		if g := cmplx.Abs(at); math.Abs(g-1) > 1e-4 {
			t.Fatalf("at the crossover, %v, the gain is %v", m.Crossover, g)
		}
		// The angles agree but for whole turns.
		if d := math.Abs(cmplx.Phase(-at * cmplx.Exp(complex(0, -m.PhaseMargin.SI())))); d > 1e-4 {
			t.Fatalf("phase margin %v, the response is %v", m.PhaseMargin, at)
		}
		for k := 1; k < 100; k++ {
			x := m.Crossover.SI() * math.Pow(f/2/m.Crossover.SI(), float64(k)/100)
			if g := cmplx.Abs(response(x)); g > 1.05 { // a little peak between two points of the search
				t.Fatalf("above the crossover, at %v Hz, the gain is %v", x, g)
			}
		}
		turn := response(m.Turning.SI())
		if m.Turning.SI() < f/2*(1-1e-9) && math.Abs(imag(turn)) > 1e-4*cmplx.Abs(turn) {
			t.Fatalf("at %v the response is %v", m.Turning, turn)
		}
		if g := 1 / units.VoltageRatio(m.GainMargin).SI(); math.Abs(cmplx.Abs(turn)-g) > 1e-4*g {
			t.Fatalf("gain margin %v, the response is %v", m.GainMargin, turn)
		}
	})
	if found < 30 && !testing.Short() { // which draws few
		t.Errorf("only %d of the loops had a crossover", found)
	}
}
