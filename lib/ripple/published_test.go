package ripple

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"
)

// Checks against publications, or arithmetic that stands beside them. Where
// something is from memory it says so.
func TestPublishedRectifiers(t *testing.T) {
	t.Parallel()
	// Textbook rule dV = I/(2 f C), which is an upper bound: 1 A, 50 Hz, 10 mF.
	r, err := Rectifier(RectifierInputs{Arrangement: FullWave, Input: q("12 V"), Frequency: q("50 Hz"), Capacitance: q("10 mF"), LoadCurrent: q("1 A")})
	expect.Must(t, r, err)
	expect.Near(t, "usual ripple", r.UsualRipple, "1 V", 1e-12)
	if !r.Ripple.Less(r.UsualRipple) || r.UsualRippleError.SI() < 0 {
		t.Errorf("ripple %v is not below its bound %v", r.Ripple, r.UsualRipple)
	}

	// Exercise at homeworksource.com/p/974070 (second-hand): 0.154 A for
	// 8.33 ms, 1 V peak to peak, 1283 µF.
	r, err = Rectifier(RectifierInputs{Arrangement: Bridge, Input: q("12 V"), Frequency: q("60 Hz"), Diode: q("0.7 V"), Capacitance: q("1283 µF"), LoadCurrent: q("0.154 A")})
	expect.Near(t, "usual ripple", expect.Must(t, r, err).UsualRipple, "1 V", 1e-3)

	// Sedra and Smith, Microelectronic Circuits, peak rectifier (from memory):
	// 60 Hz, 100 V peak, 10 kΩ, 83.3 µF: 2 V, conduction over 0.2 rad, 638 mA.
	r, err = Rectifier(RectifierInputs{Arrangement: HalfWave, Input: of(100/math.Sqrt2, "V"), Frequency: q("60 Hz"), Capacitance: q("83.33 µF"), LoadResistance: q("10 kΩ")})
	expect.Must(t, r, err)
	expect.Near(t, "Sedra's ripple", r.UsualRipple, "2 V", 1e-3)
	expect.Near(t, "Sedra's peak current", r.UsualPulsePeak, "638 mA", 1e-3)
	expect.Near(t, "Sedra's conduction, from the exact solution", r.Start, "0.2 rad", 0.03)
	expect.Near(t, "Sedra's peak current, from the exact solution", r.PulsePeak, "638 mA", 0.03)

	// Problem at coursehero.com/file/6129693: 7.5 V, 60 Hz, 0.7 V, 10 mA,
	// 47 µF. By hand: 7.5 V · 1.41421 − 0.7 V = 9.9066 V; 10 mA/(60 Hz · 47 µF)
	// = 3.5461 V; 2 · 10.6066 V − 0.7 V = 20.513 V.
	r, err = Rectifier(RectifierInputs{Arrangement: HalfWave, Input: q("7.5 V"), Frequency: q("60 Hz"), Diode: q("0.7 V"), Capacitance: q("47 µF"), LoadCurrent: q("10 mA")})
	expect.Must(t, r, err)
	expect.Near(t, "peak", r.Peak, "9.9066 V", 1e-5)
	expect.Near(t, "usual ripple", r.UsualRipple, "3.5461 V", 1e-4)
	expect.Near(t, "reverse voltage", r.Reverse, "20.513 V", 1e-4)

	// Problem at brainmass.com, piv-required-diode-22332: 12 V, 60 Hz, no
	// load, 0.7 V: the output peaks at 16.271 V; of its answers 33.24 V is 2 · 16.971 V − 0.7 V.
	r, err = Rectifier(RectifierInputs{Arrangement: HalfWave, Input: q("12 V"), Frequency: q("60 Hz"), Diode: q("0.7 V"), Capacitance: q("1 mF"), LoadCurrent: q("1 µA")})
	expect.Must(t, r, err)
	expect.Near(t, "peak without load", r.Peak, "16.271 V", 4e-5)
	expect.Near(t, "reverse voltage without load", r.Reverse, "33.24 V", 2e-4)
}

// With a very large reservoir the output is a straight line, as a battery
// under charge: the mean of (cos x − cos φ)/R over the pulse is the load's
// current, so tan φ − φ = π/n · R/RL with n pulses in a period (textbook), which
// Newton's rule solves below.
func TestLargeReservoirAtSourceWithResistance(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		arrangement Arrangement
		share       float64 // of the source's resistance in the load's
	}{{FullWave, 0.01}, {FullWave, 0.1}, {HalfWave, 0.01}, {HalfWave, 0.1}} {
		r, err := RectifierWithSource(RectifierInputs{
			Arrangement: test.arrangement, Input: of(1/math.Sqrt2, "V"), Frequency: q("50 Hz"), Resistance: of(100*test.share, "Ω"),
			Capacitance: q("1 F"), LoadResistance: q("100 Ω"),
		})
		expect.Must(t, r, err)
		phi := 1.0
		for range 100 {
			phi -= (math.Tan(phi) - phi - math.Pi/test.arrangement.pulses()*test.share) / (math.Tan(phi) * math.Tan(phi))
		}
		if math.Abs(r.Mean.SI()-math.Cos(phi)) > 1e-5 {
			t.Errorf("%v with %v: mean is %v, of the line cos %v = %v", test.arrangement, test.share, r.Mean.SI(), phi, math.Cos(phi))
		}
	}
}

// The two ways of solving meet where the source's resistance goes away.
func TestLittleResistanceIsNone(t *testing.T) {
	t.Parallel()
	in := RectifierInputs{Arrangement: Bridge, Input: q("24 V"), Frequency: q("50 Hz"), Diode: q("0.9 V"), Capacitance: q("1 mF"), LoadPower: q("12 W")}
	stiff, err := Rectifier(in)
	expect.Must(t, stiff, err)
	in.Resistance = q("20 mΩ")
	soft, err := RectifierWithSource(in)
	expect.Must(t, soft, err)
	for name, limit := range map[string]float64{"Ripple": 5e-3, "Mean": 1e-3, "Valley": 1e-3, "Peak": 5e-4, "LoadCurrent": 1e-3, "PulsePeak": 0.06, "CapacitorRMS": 0.02} {
		a, b := expect.Quantities(stiff)[name].SI(), expect.Quantities(soft)[name].SI()
		if math.Abs(a-b) > limit*math.Abs(a) {
			t.Errorf("%s is %v stiff and %v with 20 mΩ", name, a, b)
		}
	}
}

func TestPublishedHoldUp(t *testing.T) {
	t.Parallel()
	// C = I · t/dV: 0.5 A, 12 V to 9 V, 10 ms: 1667 µF (definition).
	c, err := HoldUpCapacitor(HoldUpCapacitorInputs{Time: q("10 ms"), Start: q("12 V"), Stop: q("9 V"), LoadCurrent: q("0.5 A")})
	expect.Near(t, "capacitance", expect.Must(t, c, err).Needed, "1667 µF", 3e-4)
	// infoneva.com, buffer module: 100 W, 20 ms, 400 V to 300 V: 57.1 µF.
	c, err = HoldUpCapacitor(HoldUpCapacitorInputs{Time: q("20 ms"), Start: q("400 V"), Stop: q("300 V"), LoadPower: q("100 W")})
	expect.Near(t, "capacitance", expect.Must(t, c, err).Needed, "57.1 µF", 1e-3)
	// Technical Information Paper, Output Voltage Holding Time
	// (studylib.net/doc/18231289): 3.3 V, 0.15 A at 80 %: 0.61875 W. The time by hand: 1000 µF · (5² − 2²) V²/2 =
	// 10.5 mJ, over 0.61875 W is 16.970 ms.
	h, err := HoldUp(HoldUpInputs{Capacitance: q("1000 µF"), Start: q("5 V"), Stop: q("2 V"), LoadPower: q("0.495 W"), Efficiency: q("80 %")})
	expect.Must(t, h, err)
	expect.Near(t, "power taken", h.Taken, "0.61875 W", 1e-12)
	expect.Near(t, "energy", h.Energy, "10.5 mJ", 1e-12)
	expect.Near(t, "time", h.Time, "16.970 ms", 1e-4)
	// R · C · ln 2, ln 2 = 0.693147.
	h, err = HoldUp(HoldUpInputs{Capacitance: q("1 mF"), Start: q("10 V"), Stop: q("5 V"), LoadResistance: q("1 kΩ")})
	expect.Near(t, "half of the voltage at a resistance", expect.Must(t, h, err).Time, "0.693147 s", 1e-6)
	// 0.8 · 0.9 · 0.8 = 0.576; 57.142857 µF/0.576 = 99.206 µF.
	c, err = HoldUpCapacitor(HoldUpCapacitorInputs{Time: q("20 ms"), Start: q("400 V"), Stop: q("300 V"), LoadPower: q("100 W"), Tolerance: q("20 %"), Cold: q("10 %"), Life: q("20 %")})
	expect.Must(t, c, err)
	expect.Near(t, "share kept", c.Kept, "0.576", 1e-12)
	expect.Near(t, "printed capacitance", c.Printed, "99.206 µF", 1e-5)
}

func TestPublishedRC(t *testing.T) {
	t.Parallel()
	// NXP UM10204 7.1: time to 0.3 and 0.7 of the supply, 0.3566749 and
	// 1.2039729 R·C, 0.8473 R·C between.
	at := func(start, end string) units.Quantity {
		r, err := RCTime(RCTimeInputs{Resistance: q("1 kΩ"), Capacitance: q("1 mF"), Source: q("1 V"), Start: q(start), End: q(end)})
		return expect.Must(t, r, err).Time
	}
	expect.Near(t, "to 0.3", at("0 V", "0.3 V"), "0.3566749 s", 1e-6)
	expect.Near(t, "to 0.7", at("0 V", "0.7 V"), "1.2039729 s", 1e-6)
	expect.Near(t, "from 0.3 to 0.7", at("0.3 V", "0.7 V"), "0.8473 s", 1e-4)
	// ln 2, ln 10, and 1 − 1/e after one time constant.
	expect.Near(t, "to a half", at("0 V", "0.5 V"), "0.693147 s", 1e-6)
	expect.Near(t, "to 90 %", at("0 V", "0.9 V"), "2.302585 s", 1e-6)
	expect.Near(t, "to 1 − 1/e", at("0 V", "0.632121 V"), "1 s", 1e-5)
	// TI TPS54283 SLUS749C p. 36: 100 µF, 400 mΩ: 3980 Hz.
	f, err := RC(RCInputs{Resistance: q("400 mΩ"), Capacitance: q("100 µF"), Frequency: q("3978.874 Hz")})
	expect.Must(t, f, err)
	expect.Near(t, "corner", f.Corner, "3980 Hz", 1e-3)
	// At the corner 1/√2 and 45° are left (definition).
	expect.Near(t, "transfer at the corner", f.Transfer, "0.7071068", 1e-6)
	expect.Near(t, "attenuation at the corner", f.Attenuation, "3.0103 dB", 1e-5)
	expect.Near(t, "phase at the corner", f.Phase, "-45 deg", 1e-6)
	// A load of the same resistance halves it and doubles the corner.
	f, err = RC(RCInputs{Resistance: q("400 mΩ"), Load: q("400 mΩ"), Capacitance: q("100 µF"), Frequency: q("1 Hz")})
	expect.Must(t, f, err)
	expect.Near(t, "direct", f.Direct, "0.5", 1e-12)
	expect.Near(t, "corner", f.Corner, "7957.747 Hz", 1e-6)

	// Physics exercise at jiskha.com, 1362970384: 260 kΩ and 85 µF have
	// 22.1 s, and 0.350 % are left after 125 s.
	b, err := Bleed(BleedInputs{Capacitance: q("85 µF"), Resistance: q("260 kΩ"), Start: q("1000 V"), Safe: q("3.5 V")})
	expect.Must(t, b, err)
	expect.Near(t, "bleed", b.Time, "125 s", 1e-3)
	// By hand: (1000 V)²/260 kΩ = 3.84615 W; 85 µF · (1000 V)²/2 = 42.5 J.
	expect.Near(t, "loss", b.Loss, "3.84615 W", 2e-6)
	expect.Near(t, "energy", b.Energy, "42.5 J", 1e-12)
}

func TestPublishedLC(t *testing.T) {
	t.Parallel()
	// Definition: 10 µH, 10 µF: 15.9155 kHz, 1 Ω.
	f, err := LC(LCInputs{Inductance: q("10 µH"), Capacitance: q("10 µF"), Load: q("0.7071068 Ω"), Frequency: q("15.91549 kHz")})
	expect.Must(t, f, err)
	expect.Near(t, "resonance", f.Resonance, "15.9155 kHz", 1e-5)
	expect.Near(t, "characteristic impedance", f.Characteristic, "1 Ω", 1e-9)
	// Butterworth's filter of second order: 3.01 dB at its corner, and
	// √(1 + 10⁴) = 40.00 dB at ten times that.
	expect.Near(t, "Butterworth at the corner", f.Attenuation, "3.0103 dB", 1e-4)
	f, err = LC(LCInputs{Inductance: q("10 µH"), Capacitance: q("10 µF"), Load: q("0.7071068 Ω"), Frequency: q("159.1549 kHz")})
	expect.Near(t, "Butterworth at tenfold", expect.Must(t, f, err).Attenuation, "40.00043 dB", 1e-6)
	// multisim.com, 2ndolpfilt: 10 µH, 0.1 µF: 159.155 kHz; 70.71 Ω: Q 7.071.
	f, err = LC(LCInputs{Inductance: q("10 µH"), Capacitance: q("0.1 µF"), Load: q("70.71 Ω"), Frequency: q("159.1549 kHz")})
	expect.Must(t, f, err)
	expect.Near(t, "resonance", f.Resonance, "159.155 kHz", 1e-5)
	expect.Near(t, "quality", units.Number(1).Div(f.LossShare), "7.071", 1e-4)
	// Without other loss what is left at the resonance is Q.
	expect.Near(t, "transfer at resonance", f.Transfer, "7.071", 1e-4)
	// The peak of such a filter is Q/√(1 − 1/(4Q²)), at √(1 − 1/(2Q²)) of
	// the resonance (textbook): Q² = 50: 7.0888, 158.3572 kHz.
	c, err := Filter(FilterInputs{Sections: []Section{{Inductance: q("10 µH"), Capacitance: q("0.1 µF")}}, Load: of(math.Sqrt(5000), "Ω"), Frequency: q("1 MHz")})
	expect.Must(t, c, err)
	expect.Near(t, "peak", c.PeakTransfer, "7.088812", 1e-6)
	expect.Near(t, "frequency of the peak", c.PeakFrequency, "158.3572 kHz", 1e-6)

	// Erickson and Maksimović, Fundamentals of Power Electronics, 10.4.1 (from
	// memory): 330 µH, 470 µF, a peak of 1 Ω takes 2.5 times the capacitance
	// (1200 µF) and 0.67 Ω.
	d, err := Damping(DampingInputs{Inductance: q("330 µH"), Capacitance: q("470 µF"), Damping: q("1175 µF")})
	expect.Must(t, d, err)
	expect.Near(t, "characteristic impedance", d.Characteristic, "0.84 Ω", 3e-3)
	expect.Near(t, "damping resistor", d.Resistance, "0.67 Ω", 3e-3)
	expect.Near(t, "peak impedance", d.LargestImpedance, "1 Ω", 1e-2)
}

// Sections of R and C that load one another (textbook: the oscillators made of
// them): two pass 1/3 at ω = 1/RC, three 1/29 at ω = √6/RC.
func TestChainsOfTextbooks(t *testing.T) {
	t.Parallel()
	section := Section{Resistance: q("1 kΩ"), Capacitance: q("1 µF")}
	f, err := Filter(FilterInputs{Sections: []Section{section, section}, Frequency: of(1000/(2*math.Pi), "Hz")})
	expect.Must(t, f, err)
	expect.Near(t, "two sections", f.Transfer, "0.3333333333", 1e-9)
	if f.PeakFrequency.SI() != 0 || f.Peaking.SI() != 0 {
		t.Errorf("resistors and capacitors peak at %v by %v", f.PeakFrequency, f.Peaking)
	}
	f, err = Filter(FilterInputs{Sections: []Section{section, section, section}, Frequency: of(1000*math.Sqrt(6)/(2*math.Pi), "Hz")})
	expect.Near(t, "three sections", expect.Must(t, f, err).Transfer, "0.03448275862", 1e-9)
}

// The worst phase, by hand: (√2 · 12 V − 1.4 V)/0.5 Ω = 31.141 A; 0.5 Ω · 1 mF;
// 1 mF · (15.5706 V)²/2 = 121.22 mJ; over 0.5 Ω 0.24244 A²s.
func TestInrushByHand(t *testing.T) {
	t.Parallel()
	i, err := Inrush(InrushInputs{Arrangement: Bridge, Input: q("12 V"), Diode: q("0.7 V"), Resistance: q("0.5 Ω"), Capacitance: q("1 mF")})
	expect.Must(t, i, err)
	expect.Near(t, "current", i.Current, "31.141 A", 1e-5)
	expect.Near(t, "time constant", i.TimeConstant, "0.5 ms", 1e-12)
	expect.Near(t, "energy", i.Energy, "121.22 mJ", 1e-4)
	expect.Near(t, "square", i.SquareTime, "0.24244 s*A^2", 1e-4)
}
