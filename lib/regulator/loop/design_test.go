package loop

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// The k factor by hand: a plant with a gain of 2 at 10 kHz, which turns by
// −90° there (an integrator in effect: a gain of 20000 and a pole at 1 Hz), for
// 60°: boost 60°, k = tan(75°)... with half a right angle and half the boost,
// 45° + 30°, k = 3.732. C2 = 1/(2π f G k R1), C1 = C2 (k² − 1), R2 = k/(2π f C1)
// with G = 1/2 and R1 = 10 kΩ.
func TestTypeIIByHand(t *testing.T) {
	t.Parallel()
	plant := Plant{Gain: q("20000"), Frequency: q("500 kHz"), Poles: all("1 Hz")}
	c, err := TypeII(DesignInputs{Plant: plant, Amplifier: Amplifier{Upper: q("10 kΩ")}, Crossover: q("10 kHz"), PhaseMargin: q("60 deg")})
	expect.Must(t, c, err)
	expect.Near(t, "PlantGain", c.PlantGain, "2", 1e-4)
	expect.Near(t, "PlantPhase", c.PlantPhase, "-90 deg", 1e-3)
	expect.Near(t, "Boost", c.Boost, "60 deg", 1e-3)
	expect.Near(t, "Ratio", c.Ratio, "3.732", 1e-3)
	expect.Near(t, "Zero", c.Zero, "2.679 kHz", 1e-3)
	expect.Near(t, "Pole", c.Pole, "37.32 kHz", 1e-3)
	expect.Near(t, "HighCapacitor", c.HighCapacitor, "853 pF", 1e-3) // 1/(2π · 10 kHz · 0.5 · 3.732 · 10 kΩ)
	expect.Near(t, "Capacitor", c.Capacitor, "11.03 nF", 1e-3)       // 853 pF · 12.93
	expect.Near(t, "Resistor", c.Resistor, "5.386 kΩ", 1e-3)         // 3.732/(2π · 10 kHz · 11.03 nF)
	// A transconductance of 400 µS behind a divider by 4 is 10 kΩ in effect.
	gm, err := TypeII(DesignInputs{Plant: plant, Amplifier: Amplifier{Transconductance: q("400 µS"), Upper: q("30 kΩ"), Lower: q("10 kΩ")}, Crossover: q("10 kHz"), PhaseMargin: q("60 deg")})
	expect.Near(t, "Resistor at a transconductance", expect.Must(t, gm, err).Resistor, "5.386 kΩ", 1e-3)
	// Type I: 2/(2π · 10 kHz · 10 kΩ), which leaves nothing of the phase.
	fast := Plant{Gain: q("2"), Frequency: q("500 kHz"), Poles: all("100 kHz")}
	one, err := TypeI(DesignInputs{Plant: fast, Amplifier: Amplifier{Upper: q("10 kΩ")}, Crossover: q("10 kHz")})
	expect.Must(t, one, err)
	expect.Near(t, "Capacitor alone", one.Capacitor, "3.167 nF", 1e-3)      // 3.183 nF/√1.01
	expect.Near(t, "PhaseMargin alone", one.PhaseMargin, "84.29 deg", 1e-3) // 90° − atan(0.1)
}

// Type III by hand, for a plant at −180° with a gain of 1/4 at 20 kHz: boost
// for 60° is 150°, K = tan²(150°/4 + 45°) = tan²(82.5°) = 57.70. C2 = 1/(2π f G
// R1), C1 = C2 (K − 1), R2 = √K/(2π f C1), R3 = R1/(K − 1), C3 = 1/(2π f √K R3)
// with G = 4 and R1 = 10 kΩ.
func TestTypeIIIByHand(t *testing.T) {
	t.Parallel()
	plant := Plant{Gain: q("10000"), Frequency: q("500 kHz"), Resonance: q("100 Hz"), Quality: q("1")}
	c, err := TypeIII(DesignInputs{Plant: plant, Amplifier: Amplifier{Upper: q("10 kΩ")}, Crossover: q("20 kHz"), PhaseMargin: q("59.71 deg")}) // the pair has turned by 179.71°
	expect.Must(t, c, err)
	expect.Near(t, "Boost", c.Boost, "149.42 deg", 1e-3)
	expect.Near(t, "LeadBoost", c.LeadBoost, "74.71 deg", 1e-3)
	// tan²(82.36°) = 55.5
	expect.Near(t, "Ratio squared", c.Ratio.Mul(c.Ratio), "55.5", 0.01)
	expect.Near(t, "HighCapacitor", c.HighCapacitor, "198.9 pF", 1e-3) // 1/(2π · 20 kHz · 4 · 10 kΩ)
	expect.Near(t, "Capacitor", c.Capacitor, "10.84 nF", 0.01)         // 198.9 pF · 54.5
	expect.Near(t, "Resistor", c.Resistor, "5.47 kΩ", 0.01)            // 7.45/(2π · 20 kHz · 10.84 nF)
	expect.Near(t, "LeadResistor", c.LeadResistor, "183.5 Ω", 0.01)    // 10 kΩ/54.5
	expect.Near(t, "LeadCapacitor", c.LeadCapacitor, "5.82 nF", 0.01)  // 1/(2π · 20 kHz · 7.45 · 183.5 Ω)
}

// What is designed has the crossover and the phase margin that were asked
// for, as Margins finds them of the parts: for any plant, type and amplifier.
func TestDesignMeetsItsAim(t *testing.T) {
	t.Parallel()
	found := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		f := size(t, "frequency", 1e5, 2e6)
		plant := Plant{Gain: of(size(t, "gain", 3, 100), ""), Frequency: of(f, "Hz"), Zeros: []units.Quantity{of(size(t, "zero", f/3, f*100), "Hz")}}
		if rapid.Bool().Draw(t, "with a resonance") {
			plant.Resonance, plant.Quality = of(size(t, "resonance", f/1000, f/50), "Hz"), of(size(t, "quality", 0.3, 5), "")
		} else {
			plant.Poles, plant.SamplingQuality = []units.Quantity{of(size(t, "pole", f/3000, f/300), "Hz")}, of(size(t, "sampling", 0.4, 2), "")
		}
		plant.Delay = of(size(t, "delay", 1e-10, 0.1/f), "s")
		a := Amplifier{Upper: of(size(t, "upper", 1e3, 1e5), "Ω")}
		if rapid.Bool().Draw(t, "with a transconductance") {
			a.Transconductance = of(size(t, "transconductance", 1e-4, 2e-3), "S")
			a.Lower = of(a.Upper.SI()/size(t, "divider", 0.5, 20), "Ω")
		}
		in := DesignInputs{Plant: plant, Amplifier: a, Crossover: of(f/size(t, "crossover", 6, 25), "Hz"), PhaseMargin: of(rapid.Float64Range(30, 75).Draw(t, "margin"), "deg")}
		kind := rapid.SampledFrom([]string{"I", "II", "III", "placed"}).Draw(t, "type")
		want := in.PhaseMargin
		var err error
		switch kind {
		case "I":
			in.PhaseMargin = none
			c, e := TypeI(in)
			a.Capacitor, want, err = c.Capacitor, c.PhaseMargin, e
		case "II":
			c, e := TypeII(in)
			a.Resistor, a.Capacitor, a.HighCapacitor, err = c.Resistor, c.Capacitor, c.HighCapacitor, e
		case "III":
			c, e := TypeIII(in)
			a.Resistor, a.Capacitor, a.HighCapacitor, err = c.Resistor, c.Capacitor, c.HighCapacitor, e
			a.LeadResistor, a.LeadCapacitor = c.LeadResistor, c.LeadCapacitor
		case "placed":
			place := PlaceInputs{Plant: plant, Amplifier: a, Crossover: in.Crossover, Zero: in.Crossover.Div(units.Number(size(t, "low", 2, 50)))}
			if rapid.Bool().Draw(t, "with a pole") {
				place.Pole = in.Crossover.Mul(units.Number(size(t, "high", 1, 50)))
			}
			if rapid.Bool().Draw(t, "with a lead") {
				place.LeadZero = in.Crossover.Div(units.Number(size(t, "lead", 0.5, 3)))
				place.LeadPole = place.LeadZero.Mul(units.Number(1.3))
			}
			c, e := Place(place)
			a.Resistor, a.Capacitor, a.HighCapacitor, want, err = c.Resistor, c.Capacitor, c.HighCapacitor, c.PhaseMargin, e
			a.LeadResistor, a.LeadCapacitor = c.LeadResistor, c.LeadCapacitor
		}
		if err != nil {
			return // cannot be had
		}
		r, err := Response(plant, a, in.Crossover)
		if err != nil {
			t.Fatal(err)
		}
		if g := r.Gain.SI(); math.Abs(g) > 1e-9 {
			t.Fatalf("type %s: the gain at the crossover is %v dB", kind, g)
		}
		if d := math.Abs(r.Phase.SI() + math.Pi - want.SI()); d > 1e-9 {
			t.Fatalf("type %s: the phase is %v, the margin wanted %v", kind, r.Phase, want)
		}
		found[kind]++
	})
	for _, kind := range []string{"II", "III", "placed"} {
		if found[kind] == 0 {
			t.Errorf("no design of type %s", kind)
		}
	}
}
