package loop

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
)

// A loop with voltage-mode control whose crossover and phase margin are
// printed beside its parts: L5987 Doc ID 14972 Rev 3 p. 23, "about 71 kHz" and
// 46°. The modulator's gain is 9; the pair of poles by its equations 18 and 19
// is 1/(2π√(10 µH · 22 µF)) = 10.73 kHz and 1.1 Ω/√(10 µH/22 µF) = 1.63. The
// amplifier is that of the family, 100 dB and 4.5 MHz (L5986 and L7985 Doc ID
// 022446 Rev 3 p. 12, table 5); an ideal one would leave 53°.
func TestPublishedVoltageMode(t *testing.T) {
	t.Parallel()
	plant := Plant{Gain: q("9"), Frequency: q("250 kHz"), Resonance: q("10.73 kHz"), Quality: q("1.63"), Zeros: all("7.23 MHz")}
	m, err := Margins(plant, Amplifier{
		GainBandwidth: q("4.5 MHz"), Upper: q("4.99 kΩ"), Lower: q("1.1 kΩ"), LeadResistor: q("220 Ω"), LeadCapacitor: q("3.3 nF"),
		Resistor: q("3.3 kΩ"), Capacitor: q("10 nF"), HighCapacitor: q("180 pF"),
	})
	expect.Must(t, m, err)
	expect.Near(t, "Crossover", m.Crossover, "71 kHz", 0.03)
	expect.Near(t, "PhaseMargin", m.PhaseMargin, "46 deg", 0.02)
}

// Its equations 21 to 25, by hand for a bandwidth of 70 kHz: R3 = 4.99 kΩ/(280
// kHz/10.73 kHz − 1) = 198.9 Ω, C3 = 1/(2π · 198.9 Ω · 280 kHz) = 2.858 nF. The
// rest it finds on asymptotes, R4 = 70/10.73/9 · 4.99 kΩ = 3.62 kΩ, which
// rounded corners move by a few percent.
func TestPublishedPlaces(t *testing.T) {
	t.Parallel()
	plant := Plant{Gain: q("9"), Frequency: q("250 kHz"), Resonance: q("10.73 kHz"), Quality: q("1.63")}
	c, err := Place(PlaceInputs{
		Plant: plant, Amplifier: Amplifier{Upper: q("4.99 kΩ")}, Crossover: q("70 kHz"),
		Zero: q("5.365 kHz"), LeadZero: q("10.73 kHz"), Pole: q("280 kHz"), LeadPole: q("280 kHz"),
	})
	expect.Must(t, c, err)
	expect.Near(t, "LeadResistor", c.LeadResistor, "198.9 Ω", 1e-3)
	expect.Near(t, "LeadCapacitor", c.LeadCapacitor, "2.858 nF", 1e-3)
	expect.Near(t, "Resistor", c.Resistor, "3.62 kΩ", 0.06)
	// C4 = 1/(π · R4 · fLC), C5 = C4/(2π · R4 · C4 · 280 kHz − 1) of the resistor found.
	r := c.Resistor.SI()
	c4 := 1 / (math.Pi * r * 10.73e3)
	expect.Near(t, "Capacitor", c.Capacitor, of(c4, "F").Text(0), 1e-9)
	expect.Near(t, "HighCapacitor", c.HighCapacitor, of(c4/(2*math.Pi*r*c4*280e3-1), "F").Text(0), 1e-9)
}

// Loops with current-mode control: TPS54540 SLVSBX7 p. 27, TPS54360 SLVSBB4C p.
// 28, TPS54560 SLVSBN0 p. 27: 350 µA/V and 0.8 V in all; printed 17, 13 and
// 16.8 kΩ. The zero stands on the load's pole and the pole on the ESR's zero,
// or at half the switching frequency.
func TestPublishedCurrentMode(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name                                                     string
		output, load, capacitance, esr, powerStage, pole         float64
		frequency, crossover, resistor, capacitor, highCapacitor string
	}{
		{"TPS54540", 3.3, 5, 130e-6, 1e-3, 17, 200e3, "400 kHz", "30 kHz", "17 kΩ", "5100 pF", "47 pF"},
		{"TPS54360", 5, 3.5, 58.3e-6, 2.5e-3, 12, 300e3, "600 kHz", "23.9 kHz", "13 kΩ", "6404 pF", "40.8 pF"},
		{"TPS54560", 5, 5, 87.4e-6, 1.67e-3, 17, 200e3, "400 kHz", "29.2 kHz", "16.8 kΩ", "5172 pF", "47.1 pF"},
	} {
		load := test.output / test.load
		pole := of(1/(2*math.Pi*load*test.capacitance), "Hz")
		c, err := Place(PlaceInputs{
			Plant:     Plant{Gain: of(load*test.powerStage, ""), Frequency: q(test.frequency), Poles: append(all(), pole)},
			Amplifier: Amplifier{Transconductance: q("350 µS"), Upper: of((test.output/0.8-1)*1e4, "Ω"), Lower: q("10 kΩ")},
			Crossover: q(test.crossover), Zero: pole, Pole: of(test.pole, "Hz"),
		})
		expect.Must(t, c, err)
		// They leave the pole out of the gain, √(1 + (30/200)²) = 1.011, and the
		// high capacitor out of the sum, 1/(1 − 1.85/200) = 1.009.
		expect.Near(t, test.name+" Resistor", c.Resistor, test.resistor, 0.025)
		expect.Near(t, test.name+" Capacitor", c.Capacitor, test.capacitor, 0.03)
		expect.Near(t, test.name+" HighCapacitor", c.HighCapacitor, test.highCapacitor, 0.03)
	}
}

// The textbook's buck regulator: Erickson and Maksimović, Fundamentals of
// Power Electronics, section 9.5.4, from memory: 28 V to 15 V, 50 µH, 500 µF, 3 Ω,
// a ramp of 4 V and a sensor of 1/3, so 28/4/3 = 2.33 at low frequency, 1 kHz
// and a Q of 9.5. A lead with 1.7 kHz, 14.5 kHz and a gain of 3.7 makes a
// crossover of 5 kHz and a phase margin of 52°; the inverted zero at 500 Hz then
// takes atan(500/5000) = 5.7°. The book takes 25 for the filter's 5² − 1 at 5 kHz:
// the crossover comes out 4 % higher.
func TestTextbookRegulator(t *testing.T) {
	t.Parallel()
	plant := Plant{Gain: of(28.0/4/3*3.7, ""), Frequency: q("100 kHz"), Resonance: q("1 kHz"), Quality: q("9.5")}
	lead := Amplifier{Upper: q("10 kΩ"), Resistor: q("10 kΩ")}
	// 1/(2π · C · (10 kΩ + R)) = 1.7 kHz, 1/(2π · C · R) = 14.5 kHz.
	lead.LeadResistor = of(1e4/(14.5/1.7-1), "Ω")
	lead.LeadCapacitor = of(1/(2*math.Pi*14.5e3*lead.LeadResistor.SI()), "F")
	for _, test := range []struct{ capacitor, margin string }{
		{"100 µF", "52 deg"}, // as good as none
		{"31.83 nF", "46.3 deg"},
	} {
		a := lead
		a.Capacitor = q(test.capacitor)
		m, err := Margins(plant, a)
		expect.Must(t, m, err)
		expect.Near(t, "Crossover", m.Crossover, "5 kHz", 0.05)
		expect.Near(t, "PhaseMargin", m.PhaseMargin, test.margin, 0.04)
	}
}
