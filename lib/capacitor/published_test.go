package capacitor

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"
)

// Codes as Holy Stone's general information p. 53 and TI SLAA701B table 1-16
// print them; U2J as makers print it (−750 ± 120 ppm/K, from memory).
func TestPublishedCodes(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		code                        string
		class                       int
		low, high                   string
		lost, gained, slope, either float64
	}{
		{"X7R", 2, "-55 °C", "125 °C", 0.15, 0.15, 0, 0},
		{"X5R", 2, "-55 °C", "85 °C", 0.15, 0.15, 0, 0},
		{"Y5V", 2, "-30 °C", "85 °C", 0.82, 0.22, 0, 0},
		{"Z5U", 2, "10 °C", "85 °C", 0.56, 0.22, 0, 0},
		{"C0G", 1, "-55 °C", "125 °C", 0, 0, 0, 30e-6},
		{"NP0", 1, "-55 °C", "125 °C", 0, 0, 0, 30e-6},
		{"cog", 1, "-55 °C", "125 °C", 0, 0, 0, 30e-6},
		{"U2J", 1, "-55 °C", "125 °C", 0, 0, -750e-6, 120e-6},
	} {
		r, err := TemperatureCode(test.code)
		expect.Must(t, r, err)
		if r.Class != test.class {
			t.Errorf("%s is of class %d", test.code, r.Class)
		}
		expect.Near(t, test.code+" lowest", r.Lowest, test.low, 0)
		expect.Near(t, test.code+" highest", r.Highest, test.high, 0)
		for name, x := range map[string][2]float64{"lost": {r.Lost.SI(), test.lost}, "gained": {r.Gained.SI(), test.gained}, "slope": {r.Slope.SI(), test.slope}, "either": {r.Either.SI(), test.either}} {
			if math.Abs(x[0]-x[1]) > 1e-12 {
				t.Errorf("%s: %s is %v, want %v", test.code, name, x[0], x[1])
			}
		}
	}
}

func class2() CeramicInputs {
	return CeramicInputs{Printed: q("47 µF"), Tolerance: q("20 %"), Code: "X5R", Bias: q("5 V"), Coldest: q("-20 °C"), Hottest: q("60 °C"), Ageing: q("2.5 %"), Age: q("100000 h")}
}

// By hand: at 5 V halfway between 70 % and 50 % are kept; 10⁵ h are five
// decades of 2.5 %: 0.875 is kept. Four of 47 µF are 188 µF; usual 188 µF ·
// 0.6 · 0.875 = 98.7 µF; least · 0.8 · 0.85 = 67.116 µF, 35.7 %; most new:
// 188 µF · 0.6 · 1.2 · 1.15 = 155.664 µF. A class 2 ceramic loses twice the
// share between 1 h and 100 h and three times to 1000 h, 2.5 % a decade for
// X7R (primidi.com, types of capacitor, aging).
func TestCeramicByHand(t *testing.T) {
	t.Parallel()
	in := class2()
	in.Kept, in.Count = expect.Table("bias [V], kept [%]\n0, 100\n4, 70\n6, 50\n10, 30"), 4
	c, err := Ceramic(in)
	expect.Must(t, c, err)
	expect.Near(t, "printed", c.Printed, "188 µF", 1e-12)
	expect.Near(t, "kept at bias", c.BiasShare, "60 %", 1e-12)
	expect.Near(t, "decades", c.Decades, "5", 1e-12)
	expect.Near(t, "kept with age", c.AgeShare, "0.875", 1e-12)
	expect.Near(t, "usual", c.Usual, "98.7 µF", 1e-12)
	expect.Near(t, "least", c.Least, "67.116 µF", 1e-12)
	expect.Near(t, "least share", c.LeastShare, "0.357", 1e-12)
	expect.Near(t, "most", c.Most, "155.664 µF", 1e-12)
	expect.Near(t, "missing", c.Missing, "120.884 µF", 1e-12)
	for age, want := range map[string]string{"1 h": "1", "30 min": "1", "100 h": "0.95", "1000 h": "0.925"} {
		in.Age = q(age)
		c, err := Ceramic(in)
		expect.Near(t, "kept after "+age, expect.Must(t, c, err).AgeShare, want, 1e-12)
	}
	// C0G to 125 °C: 100 K · 30 ppm/K = 0.3 %, no bias, no age.
	c, err = Ceramic(CeramicInputs{Printed: q("1 nF"), Tolerance: q("5 %"), Code: "C0G", Bias: q("24 V"), Coldest: q("-55 °C"), Hottest: q("125 °C")})
	expect.Must(t, c, err)
	expect.Near(t, "C0G with temperature", c.TemperatureLoss, "0.3 %", 1e-9)
	expect.Near(t, "C0G least", c.Least, "0.94715 nF", 1e-9) // 0.95 · 0.997
	expect.Near(t, "C0G most", c.Most, "1.05315 nF", 1e-9)   // 1.05 · 1.003
}

// Of several frequencies (a guide to the life of aluminium capacitors,
// scribd.com 510653990, equation 4.6: I = √((I₁/k₁)² + (I₂/k₂)² …)): 3 A at
// 1 and 5.6 A at 1.4 are √(9 + 16) = 5 A; alone they have √(9 + 31.36) =
// 6.353 A.
func TestPublishedRippleCurrent(t *testing.T) {
	t.Parallel()
	m := expect.Table("frequency [Hz] log, multiplier [1]\n120, 1\n1e4, 1.4\n1e5, 1.5")
	r, err := RippleCurrent([]Component{{q("120 Hz"), q("3 A")}, {q("10 kHz"), q("5.6 A")}}, m)
	expect.Must(t, r, err)
	expect.Near(t, "equivalent", r.Equivalent, "5 A", 1e-12)
	expect.Near(t, "total", r.Total, "6.352952 A", 1e-6)
	// Halfway on the logarithmic axis, √10 · 10 kHz, the multiplier is 1.45.
	r, err = RippleCurrent([]Component{{q("31.6227766 kHz"), q("1.45 A")}}, m)
	expect.Near(t, "between the rows", expect.Must(t, r, err).Equivalent, "1 A", 1e-9)
}

// Definition of the loss angle: 0.16/(2π · 120 Hz · 4.7 mF) = 45.150 mΩ;
// 0.15 of 100 µF is 1.98944 Ω.
func TestESRAndHeat(t *testing.T) {
	t.Parallel()
	r, err := ESR(q("0.16"), q("120 Hz"), q("4.7 mF"))
	expect.Near(t, "ESR", expect.Must(t, r, err), "45.150 mΩ", 1e-4)
	r, err = ESR(q("15 %"), q("120 Hz"), q("100 µF"))
	expect.Near(t, "ESR", expect.Must(t, r, err), "1.98944 Ω", 1e-5)
	// (2 A)² · 45 mΩ + 1 mA · 30 V = 0.21 W; · 20 K/W = 4.2 K.
	h, err := Heating(HeatingInputs{Current: q("2 A"), ESR: q("45 mΩ"), Leakage: q("1 mA"), Voltage: q("30 V"), Resistance: q("20 K/W"), Ambient: q("60 °C")})
	expect.Must(t, h, err)
	expect.Near(t, "loss", h.Loss, "0.21 W", 1e-12)
	expect.Near(t, "core", h.Core, "64.2 °C", 1e-12)
}

func rated() LifeInputs {
	return LifeInputs{Base: q("1000 h"), RatedAmbient: q("105 °C"), RatedRipple: q("1 A"), RatedRise: q("5 K"), Ambient: q("65 °C"), Ripple: q("1 A")}
}

func TestPublishedLife(t *testing.T) {
	t.Parallel()
	life := func(change func(in *LifeInputs)) LifeResult {
		in := rated()
		change(&in)
		r, err := Life(in)
		return expect.Must(t, r, err)
	}
	// Cosel, Q&A a0057: 1000 h at 105 °C live 64 000 h at 45 °C, 32 000 h at
	// 55 °C, 16 000 h at 65 °C.
	for at, want := range map[string]string{"45 °C": "64000 h", "55 °C": "32000 h", "65 °C": "16000 h", "105 °C": "1000 h"} {
		expect.Near(t, "life at "+at, life(func(in *LifeInputs) { in.Ambient = q(at) }).Life, want, 1e-9)
	}
	// Rubycon, life time calculation formula: L = Lb · 2^((Tmax − Ta)/10) ·
	// 2^(ΔT₀/(10 − 0.25 ΔT₀) − ΔT/(10 − 0.25 ΔT)), ΔT = ΔT₀ · (I/I₀)²: another
	// maker's way, which agrees at the rated current and is near below it.
	for _, i := range []float64{1, 0.8, 0.5, 0.1} {
		rise := 5 * i * i
		want := 16000 * math.Exp2(5/(10-0.25*5)-rise/(10-0.25*rise))
		got := life(func(in *LifeInputs) { in.Ripple = of(i, "A") }).Life.SI() / 3600
		if math.Abs(got-want) > 0.06*want || i == 1 && math.Abs(got-want) > 1e-9*want {
			t.Errorf("with %v of the ripple %v h, by another maker's formula %v h", i, got, want)
		}
	}
	// Jianghai, calculation of capacitor life: the ripple's factor is
	// K^((1 − (I/I₀)²) · ΔT₀/10), with K = 2 up to the rated current and 4
	// above (form from memory). By hand at 1.2 of it: 4^(−0.44 · 0.5) = 0.73713;
	// at 0.5: 2^(0.75 · 0.5) = 1.29684.
	expect.Near(t, "above the rated ripple", life(func(in *LifeInputs) { in.Ripple = q("1.2 A") }).RippleFactor, "0.73713", 1e-5)
	expect.Near(t, "below the rated ripple", life(func(in *LifeInputs) { in.Ripple = q("0.5 A") }).RippleFactor, "1.29684", 1e-5)
	// Both sides agree at the rated ripple.
	for _, i := range []string{"0.9999999 A", "1.0000001 A"} {
		expect.Near(t, "about the rated ripple", life(func(in *LifeInputs) { in.Ripple = q(i) }).RippleFactor, "1", 1e-6)
	}
	// 0.8^(−2.5) = 1.74693 (by hand: √0.8 = 0.894427, 0.8² · that = 0.572433),
	// and no more than at half the voltage: 2^2.5 = 5.65685.
	expect.Near(t, "with less voltage", life(func(in *LifeInputs) { in.Exponent, in.Voltage, in.RatedVoltage = 2.5, q("28 V"), q("35 V") }).VoltageFactor, "1.74693", 1e-5)
	expect.Near(t, "with little voltage", life(func(in *LifeInputs) { in.Exponent, in.Voltage, in.RatedVoltage = 2.5, q("3 V"), q("35 V") }).VoltageFactor, "5.65685", 1e-5)
	// The cold does not count below 40 °C, and no life is longer than 15 years
	// of 8766 h.
	expect.Near(t, "in the cold", life(func(in *LifeInputs) { in.Ambient = q("-20 °C") }).TemperatureFactor, "90.50967", 1e-6) // 2^6.5
	r := life(func(in *LifeInputs) { in.Base, in.Ambient = q("5000 h"), q("40 °C") })
	expect.Near(t, "computed", r.Computed, "452548.3 h", 1e-6)
	expect.Near(t, "promised", r.Life, "131490 h", 1e-12)
	expect.Near(t, "core", r.Core, "45 °C", 1e-12)
	expect.Near(t, "core margin", r.CoreMargin, "65 K", 1e-12)
}

// Data sheet of a small electrolytic (KP series, scribd.com/document/284157441):
// I = 0.05 CV or 10 µA, whichever is greater. Numbers ours: 10 µF at 16 V:
// 8 µA, so 10 µA; 47 µF at 50 V: 117.5 µA.
func TestPublishedLeakage(t *testing.T) {
	t.Parallel()
	in := LeakageInputs{Capacitance: q("10 µF"), Voltage: q("16 V"), Factor: q("0.05"), Least: q("10 µA")}
	l, err := Leakage(in)
	expect.Must(t, l, err)
	expect.Near(t, "product", l.Product, "8 µA", 1e-12)
	expect.Near(t, "current", l.Current, "10 µA", 1e-12)
	in.Capacitance, in.Voltage = q("47 µF"), q("50 V")
	l, err = Leakage(in)
	expect.Must(t, l, err)
	expect.Near(t, "current", l.Current, "117.5 µA", 1e-12)
	expect.Near(t, "resistance", l.Resistance, "425.5319 kΩ", 1e-6)
}

func TestPublishedDerating(t *testing.T) {
	t.Parallel()
	// KEMET's guideline at forum.digikey.com/t/1245: a 50 V tantalum is one
	// of 25 V up to 85 °C.
	v, err := VoltageDerating(VoltageInputs{Rated: q("50 V"), Applied: q("24 V"), Use: q("50 %"), Temperature: q("85 °C"), Full: q("85 °C"), Last: q("125 °C"), LastShare: q("67 %")})
	expect.Must(t, v, err)
	expect.Near(t, "allowed", v.Allowed, "25 V", 1e-12)
	expect.Near(t, "margin", v.Margin, "1 V", 1e-12)
	// KEMET, how much do I need to derate polymer capacitors: above 10 V by
	// 20 %, and 16 V are 10.7 V at 125 °C (second-hand: a third less there).
	v, err = VoltageDerating(VoltageInputs{Rated: q("16 V"), Applied: q("5 V"), Use: q("80 %"), Temperature: q("125 °C"), Full: q("105 °C"), Last: q("125 °C"), LastShare: q("67 %")})
	expect.Must(t, v, err)
	expect.Near(t, "category", v.Category, "10.7 V", 3e-3)
	// Halfway: 83.5 % of 16 V.
	v, err = VoltageDerating(VoltageInputs{Rated: q("16 V"), Applied: q("5 V"), Use: q("80 %"), Temperature: q("115 °C"), Full: q("105 °C"), Last: q("125 °C"), LastShare: q("67 %")})
	expect.Near(t, "category halfway", expect.Must(t, v, err).Category, "13.36 V", 1e-9)
	v, err = VoltageDerating(VoltageInputs{Rated: q("16 V"), Applied: q("5 V"), Use: units.Number(1), Temperature: q("20 °C")})
	expect.Near(t, "category without a curve", expect.Must(t, v, err).Category, "16 V", 0)
}
