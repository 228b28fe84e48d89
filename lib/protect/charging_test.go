package protect

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
)

// Source: Ametherm, Selecting an inrush current limiter: 480 V +10 %, so
// 746.59 V, and 2350 µF store 655 J; 30 A at most ask for 746.59/30 = 24.9 Ω
// (25 Ω printed).
func TestPrecharge(t *testing.T) {
	t.Parallel()
	in := InrushInputs{Supply: q("746.59 V"), Capacitance: q("2350 µF"), Resistor: q("24.886333 Ω"), Rating: q("750 J"), Load: q("2 A")}
	i := expect.Result[InrushResult](t)(Inrush(in))
	expect.Near(t, "Energy", i.Energy, "655 J", 1e-3)
	expect.Near(t, "Peak", i.Peak, "30 A", 1e-7)
	expect.Near(t, "EnergyMargin", i.EnergyMargin, "95 J", 1e-2)
	expect.Near(t, "Drop", i.Drop, "49.772666 V", 1e-9)
	expect.Near(t, "Loss", i.Loss, "99.545332 W", 1e-9)
	// The resistor shares the energy with the source.
	in.Source = in.Resistor
	expect.Near(t, "Energy", expect.Result[InrushResult](t)(Inrush(in)).Energy, "327.5 J", 1e-3)
}

// Source: definition of B: R(T)/R(25 °C) = e^(B · (1/T − 1/298.15 K)). By hand
// for 3000 K at −20 °C, 1/253.15 − 1/298.15 = 5.962104e-4 1/K: 5 Ω · e^1.7886312
// = 29.906 Ω. The settled state is checked by its own balance.
func TestThermistorStates(t *testing.T) {
	t.Parallel()
	in := ThermistorInputs{
		Supply: q("24 V"), Capacitance: q("2.2 mF"), Resistance: q("5 Ω"), Constant: q("3000 K"), Ambient: q("-20 °C"),
		Load: q("2 A"), Dissipation: q("12 mW/K"), Hottest: q("170 °C"), Rating: q("5 J"),
	}
	r := expect.Result[ThermistorResult](t)(Thermistor(in))
	expect.Near(t, "Cold", r.Cold, "29.906 Ω", 1e-4)
	expect.Near(t, "Peak", r.Peak, "0.80251 A", 1e-4)
	expect.Near(t, "Energy", r.Energy, "0.6336 J", 1e-12)
	rise := r.Temperature.SI() - q("-20 °C").SI()
	closeTo(t, "balance of heat", 0.012*rise, r.Loss.SI(), 1e-9)
	closeTo(t, "Hot", r.Hot.SI(), 5*math.Exp(3000*(1/r.Temperature.SI()-1/298.15)), 1e-9)
	closeTo(t, "RestartPeak", r.RestartPeak.SI(), 24/r.Hot.SI(), 1e-12)
	// Without load it stays as cold as the air.
	r = expect.Result[ThermistorResult](t)(Thermistor(with(in, func(in *ThermistorInputs) { in.Load = q("0 A") })))
	closeTo(t, "Temperature without load", r.Temperature.SI(), 253.15, 1e-12)
	// A larger load makes it hotter and smaller, all the way.
	before := r
	for _, load := range []string{"0.1 A", "0.5 A", "1 A", "2 A", "3 A"} {
		r = expect.Result[ThermistorResult](t)(Thermistor(with(in, func(in *ThermistorInputs) { in.Load = q(load) })))
		if r.Hot.SI() >= before.Hot.SI() || r.Temperature.SI() <= before.Temperature.SI() {
			t.Errorf("%s: %v, %v", load, r.Temperature, r.Hot)
		}
		before = r
	}
}

// Sources: Texas Instruments TPS22918-Q1 (SLVSCZ8B): 5 V, 22 µF and at most
// 400 mA, so 18.18 V/ms at most; TPS22919 (SLVSEN5B): 3.6 V, 47 µF, 150 mA, so
// 3.19 V/ms: inputs read, quotients by hand.
func TestSlopes(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ supply, capacitance, slope, current string }{
		{"5 V", "22 µF", "18.181818 V/ms", "400 mA"}, {"3.6 V", "47 µF", "3.1914894 V/ms", "150 mA"},
	} {
		s := expect.Result[SlopeResult](t)(SlopeInrush(SlopeInputs{Supply: q(test.supply), Capacitance: q(test.capacitance), Slope: q(test.slope)}))
		expect.Near(t, "Charging", s.Charging, test.current, 1e-7)
		// The switch takes as much energy as the capacitor.
		closeTo(t, "Energy", s.Energy.SI(), q(test.capacitance).SI()*q(test.supply).SI()*q(test.supply).SI()/2, 1e-12)
	}
	s := expect.Result[SlopeResult](t)(SlopeInrush(SlopeInputs{Supply: q("24 V"), Capacitance: q("2.2 mF"), Slope: q("1 V/ms"), Load: q("0.2 A")}))
	expect.Near(t, "PeakPower", s.PeakPower, "57.6 W", 1e-12)
	expect.Near(t, "PulseTime", s.PulseTime, "12 ms", 1e-12)
	// Both sides of the boundary at which the peak leaves the start: 24 V/10 Ω is
	// as much as the steady current.
	in := SlopeInputs{Supply: q("24 V"), Capacitance: q("2.2 mF"), Slope: q("1 V/ms"), Load: q("0.2 A"), Resistance: q("10 Ω")}
	expect.Near(t, "PeakPower", expect.Result[SlopeResult](t)(SlopeInrush(in)).PeakPower, "57.6 W", 1e-12)
	in.Resistance = q("9.999999 Ω")
	expect.Near(t, "PeakPower", expect.Result[SlopeResult](t)(SlopeInrush(in)).PeakPower, "57.6 W", 1e-9)
}

// Source: straight lines on logarithmic axes, by hand: at 24 V between 10 V and
// 60 V for 10 ms 9 A · (0.5/9)^(ln 2.4/ln 6) = 2.19067 A; at 85 °C (150 − 85)/125 of it.
func TestSafeAreas(t *testing.T) {
	t.Parallel()
	in := SafeAreaInputs{Area: area(), Voltage: q("24 V"), Current: q("1 A"), Time: q("10 ms")}
	a := expect.Result[SafeAreaResult](t)(SafeArea(in))
	closeTo(t, "AtRoom", a.AtRoom.SI(), 9*math.Pow(0.5/9, math.Log(2.4)/math.Log(6)), 1e-9)
	in.Case = q("85 °C")
	b := expect.Result[SafeAreaResult](t)(SafeArea(in))
	expect.Near(t, "TemperatureShare", b.TemperatureShare, "52 %", 1e-12)
	closeTo(t, "Allowed", b.Allowed.SI(), 0.52*a.AtRoom.SI(), 1e-12)
	closeTo(t, "Used", b.Used.SI(), 1/b.Allowed.SI(), 1e-12)
}

// Sources: the ringing circuit as of any textbook; Linear Technology
// application note 88, 2001: spikes of twice the input and more. By hand: 1 µH
// and 10 µF have 0.31622777 Ω and 50.329212 kHz; with 0.1 Ω ζ is 0.15811388,
// e^(−π · 0.15811388/0.98742088) = 0.60467, so 38.512 V of 24 V.
func TestHotPlugByHand(t *testing.T) {
	t.Parallel()
	in := HotPlugInputs{Supply: q("24 V"), Inductance: q("1 µH"), Resistance: q("0.1 Ω"), Capacitance: q("10 µF"), Limit: q("40 V")}
	h := expect.Result[HotPlugResult](t)(HotPlug(in))
	expect.Near(t, "Impedance", h.Impedance, "0.3162277660 Ω", 1e-9)
	expect.Near(t, "Resonance", h.Resonance, "50.329212 kHz", 1e-8)
	expect.Near(t, "DampingRatio", h.DampingRatio, "0.15811388", 1e-7)
	expect.Near(t, "UndampedPeak", h.UndampedPeak, "38.5121 V", 1e-5)
	expect.Near(t, "Peak", h.Peak, "38.5121 V", 1e-5)
	// Nearly without resistance it is twice the supply, and the current that of
	// supply over impedance.
	in.Resistance = q("1 µΩ")
	h = expect.Result[HotPlugResult](t)(HotPlug(in))
	expect.Near(t, "UndampedPeak", h.UndampedPeak, "48 V", 1e-5)
	expect.Near(t, "PeakCurrent", h.PeakCurrent, "75.894664 A", 1e-5)
	// Both sides of the boundary of ringing agree: supply/impedance/e.
	for _, r := range []string{"0.632455532 Ω", "0.63245550 Ω", "0.63245557 Ω"} {
		in.Resistance = q(r)
		h = expect.Result[HotPlugResult](t)(HotPlug(in))
		expect.Near(t, "PeakCurrent at the boundary", h.PeakCurrent, "27.9200862 A", 2e-7)
		expect.Near(t, "UndampedPeak at the boundary", h.UndampedPeak, "24 V", 1e-12)
	}
	// A damping branch of next to nothing changes next to nothing.
	in.Resistance, in.Damping, in.DampingResistance = q("0.1 Ω"), q("0.11 µF"), q("300 Ω")
	expect.Near(t, "Peak", expect.Result[HotPlugResult](t)(HotPlug(in)).Peak, "38.5121 V", 1e-3)
	// One of no resistance is more capacitance: 20 µF, ζ 0.2236068, overshoot
	// e^(−π · 0.2236068/0.9746794) = 0.48643.
	in.Damping, in.DampingResistance = q("10 µF"), q("0.4 mΩ")
	expect.Near(t, "Peak", expect.Result[HotPlugResult](t)(HotPlug(in)).Peak, "35.6743 V", 1e-3)
}

// Source: elektroda.com, topic 1062919, of a 12 V relay: 275 Ω and 2.29 H take
// 43.6 mA. By hand from the decay law: 8.3273 ms · ln(1 + 12/0.7) = 24.133 ms with a
// diode of 0.7 V, 8.3273 ms · ln(1 + 12/24) = 3.3764 ms with 36 V across the switch.
func TestRelay(t *testing.T) {
	t.Parallel()
	in := InductiveInputs{Supply: q("12 V"), Inductance: q("2.29 H"), Resistance: q("275 Ω"), Current: q("43.636364 mA"), Clamp: q("0.7 V"), AcrossLoad: true, Rating: q("50 V")}
	s := expect.Result[InductiveResult](t)(InductiveTurnOff(in))
	expect.Near(t, "TimeConstant", s.TimeConstant, "8.3272727 ms", 1e-8)
	expect.Near(t, "Time", s.Time, "24.1328 ms", 1e-4)
	expect.Near(t, "SwitchVoltage", s.SwitchVoltage, "12.7 V", 1e-12)
	expect.Near(t, "Stored", s.Stored, "2.180231 mJ", 1e-6)
	in.AcrossLoad, in.Clamp = false, q("36 V")
	s = expect.Result[InductiveResult](t)(InductiveTurnOff(in))
	expect.Near(t, "Time", s.Time, "3.37641 ms", 1e-5)
	expect.Near(t, "Margin", s.Margin, "14 V", 1e-12)
}

// The charge's two forms agree where the one gives over to the other; x − ln(1 +
// x) over x² for x = 1 is 1 − ln 2, and 1/2 for none.
func TestChargeFactor(t *testing.T) {
	t.Parallel()
	closeTo(t, "at 1", chargeFactor(1), 1-math.Ln2, 1e-14)
	closeTo(t, "at 0", chargeFactor(0), 0.5, 1e-15)
	closeTo(t, "at the boundary", chargeFactor(0.05), chargeFactor(math.Nextafter(0.05, 1)), 1e-12)
	closeTo(t, "at 0.01", chargeFactor(0.01), 0.4966914683, 1e-9) // 1/2 − 0.01/3 + 0.01²/4 − 0.01³/5 + 0.01⁴/6
}

// Sources: checks 07-13 (8 mΩ at 5 A, 60 mΩ at 4 A: 0.2 W, 0.96 W) and 07-14
// (2 A: 0.45 V against 20 mΩ: 0.9 W, 0.08 W).
func TestReversePolarity(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ resistance, load, loss string }{{"8 mΩ", "5 A", "0.2 W"}, {"60 mΩ", "4 A", "0.96 W"}, {"20 mΩ", "2 A", "0.08 W"}} {
		s := expect.Result[ReverseSwitchResult](t)(ReverseSwitch(ReverseSwitchInputs{
			Supply: q("24 V"), Load: q(test.load), Resistance: q(test.resistance), Needed: q("10 V"), GateRating: q("20 V"),
			GateClamp: q("12 V"), GateResistor: q("100 kΩ"), Rating: q("60 V"), Held: q("20 V"), Leakage: q("1 µA"),
		}))
		expect.Near(t, "Loss", s.Loss, test.loss, 1e-12)
		expect.Near(t, "Gate", s.Gate, "12 V", 1e-12)
		expect.Near(t, "ClampCurrent", s.ClampCurrent, "120 µA", 1e-12)
		expect.Near(t, "ReverseVoltage", s.ReverseVoltage, "44 V", 1e-12)
		expect.Near(t, "Margin", s.Margin, "16 V", 1e-12)
		expect.Near(t, "LeakageLoss", s.LeakageLoss, "44 µW", 1e-12)
	}
	// Below the clamp the supply drives the gate, above it the zener holds; both
	// sides agree at it.
	for supply, gate := range map[string]string{"11 V": "11 V", "12 V": "12 V", "13 V": "12 V"} {
		s := expect.Result[ReverseSwitchResult](t)(ReverseSwitch(ReverseSwitchInputs{Supply: q(supply), Load: q("2 A"), Resistance: q("20 mΩ"), Needed: q("10 V"), GateRating: q("20 V"), GateClamp: q("12 V"), GateResistor: q("100 kΩ"), Rating: q("60 V")}))
		expect.Near(t, "Gate at "+supply, s.Gate, gate, 1e-12)
	}
	d := expect.Result[ReverseDiodeResult](t)(ReverseDiode(ReverseDiodeInputs{Supply: q("24 V"), Load: q("2 A"), Forward: q("0.45 V"), Leakage: q("5 mA"), Rating: q("60 V"), Reversed: q("30 V"), Held: q("24 V")}))
	expect.Near(t, "Loss", d.Loss, "0.9 W", 1e-12)
	expect.Near(t, "Output", d.Output, "23.55 V", 1e-12)
	expect.Near(t, "Share", d.Share, "1.875 %", 1e-12)
	expect.Near(t, "Margin", d.Margin, "6 V", 1e-12)
	expect.Near(t, "LeakageLoss", d.LeakageLoss, "0.27 W", 1e-12)
}

// Source: Texas Instruments CIRCUIT060078, non-inverting comparator with
// hysteresis: 1.7 V and 1.3 V of 3 V, 400 mV between; its reference is taken as
// what its network of 100 kΩ and 750 kΩ gives: 1.5 V, from memory. By hand: 100
// kΩ · 3/0.4 = 750 kΩ; (1.7 V)/(1 + 100/750) = 1.5 V leaves no lower resistor.
func TestDisconnectThresholds(t *testing.T) {
	t.Parallel()
	// Lower is what 1.5 V needs within a part in a billion: as good as none.
	d := expect.Result[DisconnectResult](t)(Disconnect(DisconnectInputs{Reference: q("1.5 V"), Upper: q("100 kΩ"), Lower: q("1e15 Ω"), Feedback: q("750 kΩ"), High: q("3 V"), Working: q("1.2 V"), Limit: q("2 V")}))
	expect.Near(t, "Disconnect", d.Disconnect, "1.7 V", 1e-9)
	expect.Near(t, "Reconnect", d.Reconnect, "1.3 V", 1e-9)
	expect.Near(t, "Hysteresis", d.Hysteresis, "0.4 V", 1e-9)
	expect.Near(t, "WorkingMargin", d.WorkingMargin, "0.1 V", 1e-8)
	expect.Near(t, "LimitMargin", d.LimitMargin, "0.3 V", 1e-8)
	// The inverse, and the node equation at both thresholds.
	in := DisconnectDividerInputs{Disconnect: q("36 V"), Reconnect: q("34 V"), Reference: q("2.5 V"), Upper: q("127 kΩ"), High: q("5 V"), Low: q("0.2 V")}
	r := expect.Result[DisconnectDividerResult](t)(DisconnectDivider(in))
	d = expect.Result[DisconnectResult](t)(Disconnect(DisconnectInputs{Reference: in.Reference, Upper: in.Upper, Lower: r.Lower, Feedback: r.Feedback, High: in.High, Low: in.Low, Working: q("32 V"), Limit: q("40 V")}))
	expect.Near(t, "Disconnect", d.Disconnect, "36 V", 1e-12)
	expect.Near(t, "Reconnect", d.Reconnect, "34 V", 1e-12)
	node := func(supply, output float64) float64 {
		return (supply-2.5)/127e3 + (output-2.5)/r.Feedback.SI() - 2.5/r.Lower.SI()
	}
	if a, b := node(36, 0.2), node(34, 5); math.Abs(a) > 1e-12 || math.Abs(b) > 1e-12 {
		t.Errorf("the currents into the node are %v A and %v A", a, b)
	}
	// Hysteresis = 4.8 V · 127 kΩ/304.8 kΩ = 2 V.
	expect.Near(t, "Feedback", r.Feedback, "304.8 kΩ", 1e-12)
}

// Source: definitions; by hand.
func TestFuseCoordination(t *testing.T) {
	t.Parallel()
	c := expect.Result[ClearingResult](t)(FuseClearing(ClearingInputs{Clearing: q("12 A²·s"), Fault: q("80 A"), Withstand: q("50 A²·s")}))
	expect.Near(t, "Time", c.Time, "1.875 ms", 1e-12)
	expect.Near(t, "Margin", c.Margin, "38 A²·s", 1e-12)
	expect.Near(t, "Used", c.Used, "24 %", 1e-12)
	s := expect.Result[SelectivityResult](t)(FuseSelectivity(q("12 A²·s"), q("60 A²·s")))
	expect.Near(t, "Ratio", s.Ratio, "5", 1e-12)
	f := expect.Result[FailedShortResult](t)(FailedShort(FailedShortInputs{Supply: q("18 V"), Source: q("0.3 Ω"), Fuse: q("0.06 Ω"), Shorted: q("0.04 Ω"), Rated: q("3 A"), Family: "IEC 60127", Melting: q("8 A²·s"), Clearing: q("20 A²·s"), Surge: q("0.02 A²·s")}))
	expect.Near(t, "Fault", f.Fault, "45 A", 1e-12)
	expect.Near(t, "Multiple", f.Multiple, "15", 1e-12)
	expect.Near(t, "Time", f.Time, "9.8765432 ms", 1e-8)
	expect.Near(t, "Heat", f.Heat, "0.8 J", 1e-12) // 20 A²s · 0.04 Ω
	expect.Near(t, "SurgeMargin", f.SurgeMargin, "1.74 A²·s", 1e-12)
}

// The chain by hand. Normal: 0.4 A through 0.1 + 0.05 + 0.06 Ω and 0.5 V. Reversed:
// the clamp of 1 V behind 0.21 Ω and 1.5 Ω: (24 − 1)/1.71 A. Shorted: (24 −
// 0.5)/0.21 A, the clamp at rest. Surged: see below.
func TestChainByHand(t *testing.T) {
	t.Parallel()
	in := ChainInputs{Stages: input(), Supply: q("24 V"), Source: q("0.1 Ω"), Load: q("0.4 A")}
	normal := expect.Result[ChainResult](t)(Chain(in))
	expect.Near(t, "Output", normal.Output, "23.416 V", 1e-12)
	expect.Near(t, "Current", normal.Current, "0.4 A", 1e-12)
	expect.Near(t, "loss of the diode", normal.Stages[2].Loss, "0.2 W", 1e-12)
	expect.Near(t, "voltage behind the fuse", normal.Stages[1].Voltage, "23.916 V", 1e-12)
	expect.Near(t, "Margin", normal.Stages[2].Margin, "36.584 V", 1e-12)

	reversed := expect.Result[ChainResult](t)(Chain(with(in, func(in *ChainInputs) { in.Reversed = true })))
	expect.Near(t, "Current, reversed", reversed.Current, "-13.450292 A", 1e-7)
	expect.Near(t, "voltage behind the fuse, reversed", reversed.Stages[1].Voltage, "-21.175439 V", 1e-7)
	expect.Near(t, "Margin of the diode", reversed.Stages[2].Margin, "78.824561 V", 1e-7)
	if reversed.Output.SI() != 0 {
		t.Errorf("reversed, %v reach the output", reversed.Output)
	}

	// A clamp of less resistance forward: 23 V over 0.21 Ω + 0.02 Ω.
	forward := expect.Result[ChainResult](t)(Chain(with(in, func(in *ChainInputs) {
		in.Reversed, in.Stages = true, input()
		in.Stages[1].ClampForwardResistance = q("20 mΩ")
	})))
	expect.Near(t, "Current, reversed", forward.Current, "-100 A", 1e-12)

	shorted := expect.Result[ChainResult](t)(Chain(with(in, func(in *ChainInputs) { in.Shorted = true })))
	expect.Near(t, "Current, shorted", shorted.Current, "111.90476 A", 1e-7)

	// 1 kV through 42.11 Ω, 0.4 A of it into the load: the clamp takes i with
	// 1000 = 40 + 1.5 i + 42.11 (i + 0.4): i = (960 − 16.844)/43.61.
	surged := expect.Result[ChainResult](t)(Chain(with(in, func(in *ChainInputs) { in.Supply, in.Source = q("1 kV"), q("42 Ω") })))
	expect.Near(t, "clamp, surged", surged.Stages[1].ClampCurrent, "21.627058 A", 1e-7)
	expect.Near(t, "Output, surged", surged.Output, "71.940587 V", 1e-7)
	for name, r := range map[string]ChainResult{"normal": normal, "reversed": reversed, "shorted": shorted, "surged": surged} {
		source, supply := 0.1, 24.0
		if name == "surged" {
			source, supply = 42, 1000
		}
		i := math.Abs(r.Current.SI())
		closeTo(t, "energy, "+name, supply*i, source*i*i+r.Loss.SI()+r.Delivered.SI(), 1e-9)
		closeTo(t, "Supplied, "+name, r.Supplied.SI(), r.Loss.SI()+r.Delivered.SI(), 1e-12)
	}
}
