package battery

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"
)

func TestPublished(t *testing.T) {
	t.Parallel()
	// Check 08-01, https://www.iocare.in/post/calculating-sensor-battery-life: 0.142 mA, 14 101 h.
	// By hand: (28·0.65 + 31·0.05 + 0.12·900)/900.7 mA = 127.75/900.7 = 0.141834 mA.
	m := expect.Result[ModesResult](t)(Modes(ModesInputs{Modes: []Mode{
		{Name: "idle", Current: q("28 mA"), Time: q("0.65 s")},
		{Name: "send", Current: q("31 mA"), Time: q("50 ms")},
		{Name: "sleep", Current: q("120 µA"), Time: q("15 min")},
	}}))
	expect.Within(t, "average", m.Average, "0.141834 mA", "1 nA")
	expect.Within(t, "peak", m.Peak, "31 mA", "0 A")
	r := expect.Result[RunTimeResult](t)(RunTime(RunTimeInputs{Capacity: q("2000 mAh"), Current: m.Average}))
	expect.Within(t, "run time", r.Time, "14101 h", "0.5 h")

	// The same with a period and a mode that has the rest.
	rest := expect.Result[ModesResult](t)(Modes(ModesInputs{Period: q("900.7 s"), Modes: []Mode{
		{Name: "idle", Current: q("28 mA"), Time: q("0.65 s")},
		{Name: "send", Power: q("93 mW"), Time: q("50 ms")},
		{Name: "sleep", Current: q("120 µA")},
	}, Voltage: q("3 V")}))
	expect.Within(t, "average with a rest", rest.Average, "0.141834 mA", "1 nA")

	// A published method for radio nodes (Semtech, LoRa developers, calculate
	// battery life) with numbers of ours: charge per day = N·(t·I) + sleep for
	// what is left of the day. 24 a day of 50 ms at 44 mA and 2 s at 5 mA, 1.8 µA:
	// (24·(2.2+10) mA·s + 1.8 µA·(86 400 − 49.2) s)/3600 = (292.8+155.43)/3600 mAh = 0.124509 mAh.
	n := expect.Result[ModesResult](t)(Modes(ModesInputs{Period: q("1 h"), Modes: []Mode{
		{Name: "send", Current: q("44 mA"), Time: q("50 ms")},
		{Name: "measure", Current: q("5 mA"), Time: q("2 s")},
		{Name: "sleep", Current: q("1.8 µA")},
	}}))
	expect.Within(t, "daily charge", n.Daily, "0.124509 mAh", "10 nAh")

	// Check 08-03, https://www.electrotechnik.net/2010/01/peukert-law-and-discharge-of-lead-acid_9.html: 14.5 h.
	one := expect.Result[PeukertResult](t)(PeukertAtOneAmpere(q("100 Ah"), q("1.2"), q("5 A")))
	expect.Within(t, "Peukert at 1 A", one.Time, "14.496 h", "0.001 h")
	// Check 08-04, from memory: 20·0.5^1.2 h = 8.7055 h; the rated time at the rated current.
	rated := PeukertInputs{Rated: q("100 Ah"), Hours: q("20 h"), Exponent: q("1.2"), Load: q("10 A")}
	expect.Within(t, "Peukert", expect.Result[PeukertResult](t)(Peukert(rated)).Time, "8.7055 h", "0.0001 h")
	rated.Load = q("5 A")
	expect.Within(t, "Peukert at the rated current", expect.Result[PeukertResult](t)(Peukert(rated)).Time, "20 h", "1e-9 s")
	// A knowledge base for lead-acid (BatteryGuy, Peukert's law) has 100 Ah at 20 h
	// last about 7.5 h at 10 A: that is an exponent of ln(20/7.5)/ln 2 = 1.4150.
	k := expect.Result[units.Quantity](t)(PeukertExponent(q("75 Ah"), q("7.5 h"), q("100 Ah"), q("20 h")))
	expect.Within(t, "exponent", k, "1.41504", "0.00001")
	rated.Load, rated.Exponent = q("10 A"), k
	expect.Within(t, "and back", expect.Result[PeukertResult](t)(Peukert(rated)).Time, "7.5 h", "1 ms")

	// A coin cell of 3 V and 20 Ω carries 60 mA down to 1.8 V:
	// Interactive Matter Lab, Driving circuits from a CR2032, 29 August 2009.
	p := expect.Result[PulseResult](t)(Pulse(PulseInputs{OpenCircuit: q("3 V"), Resistance: q("20 Ω"), Current: q("10 mA"), LeastVoltage: q("1.8 V")}))
	expect.Within(t, "largest pulse", p.LargestCurrent, "60 mA", "1 nA")

	// By hand: 500 mAh·98 % after 30 d at 2 %; the run time is that of the
	// equation dQ/dt = −I − k·Q, see the simulation.
	s := expect.Result[StorageResult](t)(Storage(StorageInputs{Capacity: q("1200 mAh"), SelfDischarge: q("1 %"), Per: q("365 d"), Time: q("3650 d")}))
	expect.Within(t, "after ten years", s.Left, "1085.258 mAh", "0.001 mAh") // 1200 · 0.99^10 = 1200 · 0.904382
	// By hand: 3 in series, 2 parallel of 3.6 V, 2.5 Ah, 40 mΩ.
	pack := expect.Result[PackResult](t)(Pack(CellInputs{Voltage: q("3.6 V"), Capacity: q("2.5 Ah"), Resistance: q("40 mΩ")}, 3, 2))
	expect.Within(t, "energy", pack.Energy, "54 Wh", "1 µWh")
	expect.Within(t, "short circuit", pack.ShortCircuit, "180 A", "1 nA")
	expect.Within(t, "short power", pack.ShortPower, "1944 W", "1 µW")
	expect.Within(t, "pack resistance", pack.Resistance, "60 mΩ", "1 nΩ")

	cold := expect.Table("cell [°C], capacity [%]\n-20, 50\n0, 80\n25, 100")
	c := expect.Result[CapacityResult](t)(Capacity(CapacityInputs{Rated: q("500 mAh"), Temperature: q("-10 °C"), ByTemperature: cold, Aged: q("80 %"),
		Cycles: q("150"), ByCycles: expect.Table("cycles [1], capacity [%]\n0, 100\n300, 80"), Load: q("0.5 A"), ByRate: expect.Table("load [A], capacity [%]\n0, 100\n1, 90")}))
	expect.Within(t, "capacity", c.Left, "222.3 mAh", "1 nAh") // 500 · 0.65 · 0.8 · 0.9 · 0.95
}

// A cell whose curve is straight from 3 V to 4 V, by hand: 3.3 V + 0.15 V +
// 100 mA · 0.5 Ω = 3.5 V, half of the charge.
func TestHeadroom(t *testing.T) {
	t.Parallel()
	curve := expect.Table("charge [%], voltage [V]\n0, 3\n50, 3.5\n100, 4")
	in := HeadroomInputs{OpenCircuit: curve, Resistance: q("0.5 Ω"), Load: q("100 mA"), Output: q("3.3 V"), Dropout: q("150 mV")}
	h := expect.Result[HeadroomResult](t)(Headroom(in))
	expect.Within(t, "usable", h.Usable, "50 %", "1e-12")
	expect.Within(t, "margin", h.Margin, "0.5 V", "1 pV")
	// A switching regulator's power is constant: 345 mW at 3.45 V is the same.
	in.Load, in.Power = none, q("345 mW")
	expect.Within(t, "usable with a power", expect.Result[HeadroomResult](t)(Headroom(in)).Usable, "50 %", "1e-12")
	// Cold, from a table: 1 Ω in the middle of its rows, 3.55 V.
	in.Power, in.Load, in.Resistance = none, q("100 mA"), none
	in.ResistanceBy, in.Temperature = expect.Table("cell [°C], resistance [Ω]\n-20, 1.5\n20, 0.5"), q("0 °C")
	expect.Within(t, "usable when cold", expect.Result[HeadroomResult](t)(Headroom(in)).Usable, "45 %", "1e-12")
	// Below the curve all is usable; above it nothing, and the margin says by how much.
	in = HeadroomInputs{OpenCircuit: curve, Resistance: q("1 Ω"), Load: q("0.1 A"), LeastInput: q("2 V")}
	expect.Within(t, "all usable", expect.Result[HeadroomResult](t)(Headroom(in)).Usable, "100 %", "0")
	in.LeastInput = q("2.9 V") // the boundary
	expect.Within(t, "at the boundary", expect.Result[HeadroomResult](t)(Headroom(in)).Usable, "100 %", "1e-12")
	in.LeastInput = q("4.2 V")
	h = expect.Result[HeadroomResult](t)(Headroom(in))
	expect.Within(t, "nothing usable", h.Usable, "0 %", "0")
	expect.Within(t, "too high", h.Margin, "-0.3 V", "1 pV")
}

// A discharge through operating modes with self-discharge, stepped through in
// time, over a grid; what is delivered, lost and unused adds up.
func TestRunTimeAgainstSteps(t *testing.T) {
	t.Parallel()
	for _, capacity := range []float64{0.05, 0.5} { // Ah
		for _, asleep := range []float64{2e-6, 200e-6} { // A
			for _, month := range []float64{0, 0.02, 0.3} { // lost in 30 d
				period, awake, current := 600.0, 2.0, 0.02
				m := expect.Result[ModesResult](t)(Modes(ModesInputs{Period: of(period, "s"), Modes: []Mode{
					{Name: "awake", Current: of(current, "A"), Time: of(awake, "s")}, {Name: "asleep", Current: of(asleep, "A")}}}))
				in := RunTimeInputs{Capacity: of(capacity, "Ah"), Usable: q("90 %"), Current: m.Average, SelfDischarge: of(month, "1"), Per: q("30 d")}
				r := expect.Result[RunTimeResult](t)(RunTime(in))
				// Each period: the charge of both modes goes, and a little of the rest by itself.
				charge, seconds, lost := 0.9*capacity*3600, 0.0, 0.0
				rate := -math.Log(1-month) / (30 * 86400)
				for charge > 0 {
					step := awake*current + (period-awake)*asleep
					self := charge * rate * period
					charge -= step + self
					lost += self
					seconds += period
				}
				if d := math.Abs(r.Time.SI()/seconds - 1); d > 2e-3 {
					t.Errorf("%v Ah, %v A, %v: %v, steps give %v s", capacity, asleep, month, r.Time, seconds)
				}
				if d := math.Abs(r.Lost.SI() - lost); d > 2e-3*capacity*3600 {
					t.Errorf("%v Ah, %v A, %v: %v lost, steps give %v C", capacity, asleep, month, r.Lost, lost)
				}
				balance(t, r)
				// The shelf ends it earlier: some is left, and all adds up.
				in.Shelf = r.Time.Div(units.Number(2))
				short := expect.Result[RunTimeResult](t)(RunTime(in))
				balance(t, short)
				if short.Unused.SI() <= 0 || short.Time.SI() != in.Shelf.SI() {
					t.Errorf("with a shelf life: %v", short)
				}
			}
		}
	}
}

func balance(t *testing.T, r RunTimeResult) {
	t.Helper()
	if d := r.Usable.SI() - r.Delivered.SI() - r.Lost.SI() - r.Unused.SI(); math.Abs(d) > 1e-12*r.Usable.SI() || r.Lost.SI() < -1e-9*r.Usable.SI() {
		t.Errorf("%v C of %v are nowhere: %+v", d, r.Usable, r)
	}
}

// A battery with resistance and a capacitor, integrated through many pulses.
func TestPulsesAgainstSteps(t *testing.T) {
	t.Parallel()
	for _, esr := range []float64{0, 1, 10} {
		for _, capacitance := range []float64{10e-6, 100e-6, 1e-3} {
			for _, period := range []float64{0.03, 1} {
				r, i, duration, v0 := 20.0, 0.03, 5e-3, 3.0
				p := expect.Result[PulseResult](t)(Pulse(PulseInputs{OpenCircuit: of(v0, "V"), Resistance: of(r, "Ω"), Current: of(i, "A"), LeastVoltage: q("2 V"),
					Capacitance: of(capacitance, "F"), ESR: of(esr, "Ω"), Duration: of(duration, "s"), Period: of(period, "s")}))
				const dt = 2e-6
				vc, v := v0, v0
				for range 12 {
					for _, part := range []struct{ time, current float64 }{{duration, i}, {period - duration, 0}} {
						for n := int(math.Round(part.time / dt)); n > 0; n-- {
							if part.current == 0 && v0-vc < 1e-12 {
								break
							}
							into := (v0 - vc - r*part.current) / (r + esr)
							vc += into * dt / capacitance
							if part.current > 0 {
								v = vc + esr*into
							}
						}
					}
				}
				if math.Abs(p.Voltage.SI()-v) > 1.5e-3 {
					t.Errorf("%v Ω, %v F, %v s: %v, steps give %v V", esr, capacitance, period, p.Voltage, v)
				}
			}
		}
	}
	// Long pulses: as without a capacitor.
	in := PulseInputs{OpenCircuit: q("3 V"), Resistance: q("20 Ω"), Current: q("30 mA"), LeastVoltage: q("2 V")}
	alone := expect.Result[PulseResult](t)(Pulse(in))
	in.Capacitance, in.Duration = q("1 µF"), q("1 s")
	expect.Within(t, "a long pulse", expect.Result[PulseResult](t)(Pulse(in)).Voltage, alone.Voltage.Text(12), "1 nV")
}

func TestEveryCaseIsComputedByItself(t *testing.T) {
	t.Parallel()
	curve := expect.Table("charge [%], voltage [V]\n0, 3\n20, 3.5\n100, 4.2")
	for _, test := range []struct {
		name   string
		values []string
		call   func(x []units.Quantity) (any, error)
	}{
		{"Modes", []string{"30 mA", "100 ms", "4 µA", "10 min"}, func(x []units.Quantity) (any, error) {
			return box(Modes(ModesInputs{Period: x[3], Modes: []Mode{{Current: x[0], Time: x[1]}, {Current: x[2]}}}))
		}},
		{"Modes, shares", []string{"30 mW", "10 %", "4 µA", "3 V"}, func(x []units.Quantity) (any, error) {
			return box(Modes(ModesInputs{Voltage: x[3], Modes: []Mode{{Power: x[0], Share: x[1]}, {Current: x[2]}}}))
		}},
		{"Capacity", []string{"500 mAh", "10 °C", "80 %"}, func(x []units.Quantity) (any, error) {
			return box(Capacity(CapacityInputs{Rated: x[0], Temperature: x[1], ByTemperature: expect.Table("cell [°C], left [%]\n-10, 60\n10, 90\n30, 100"), Aged: x[2]}))
		}},
		// In some cases the shelf ends it.
		{"RunTime", []string{"500 mAh", "200 µA", "10 %", "60 d"}, func(x []units.Quantity) (any, error) {
			return box(RunTime(RunTimeInputs{Capacity: x[0], Current: x[1], SelfDischarge: x[2], Per: q("30 d"), Shelf: x[3]}))
		}},
		{"Storage", []string{"500 mAh", "2 %", "365 d"}, func(x []units.Quantity) (any, error) {
			return box(Storage(StorageInputs{Capacity: x[0], SelfDischarge: x[1], Per: q("30 d"), Time: x[2]}))
		}},
		{"Peukert", []string{"100 Ah", "20 h", "1.3", "10 A"}, func(x []units.Quantity) (any, error) {
			return box(Peukert(PeukertInputs{Rated: x[0], Hours: x[1], Exponent: x[2], Load: x[3]}))
		}},
		{"PeukertAtOneAmpere", []string{"100 Ah", "1.3", "10 A"}, func(x []units.Quantity) (any, error) { return box(PeukertAtOneAmpere(x[0], x[1], x[2])) }},
		{"PeukertExponent", []string{"100 Ah"}, func(x []units.Quantity) (any, error) {
			return box(PeukertExponent(q("75 Ah"), q("5 h"), x[0], q("20 h")))
		}},
		// On both sides of the corner of the curve, and above its end.
		{"Headroom", []string{"1 Ω", "0.3 A", "3.4 V"}, func(x []units.Quantity) (any, error) {
			return box(Headroom(HeadroomInputs{OpenCircuit: curve, Resistance: x[0], Load: x[1], LeastInput: x[2]}))
		}},
		{"Pulse", []string{"3 V", "20 Ω", "30 mA", "2.2 V", "100 µF", "1 Ω", "5 ms"}, func(x []units.Quantity) (any, error) {
			return box(Pulse(PulseInputs{OpenCircuit: x[0], Resistance: x[1], Current: x[2], LeastVoltage: x[3], Capacitance: x[4], ESR: x[5], Duration: x[6], Period: q("50 ms")}))
		}},
		{"Pack", []string{"3.6 V", "2.5 Ah", "40 mΩ"}, func(x []units.Quantity) (any, error) {
			return box(Pack(CellInputs{Voltage: x[0], Capacity: x[1], Resistance: x[2]}, 3, 2))
		}},
	} {
		expect.SpreadOfAll(t, test.name, test.values, test.call)
	}
}
