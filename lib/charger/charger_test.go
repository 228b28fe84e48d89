package charger

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"
)

func TestPublished(t *testing.T) {
	t.Parallel()
	// Check 08-06: Microchip DS22036B, equation 5-1, 1000 V/R: 2 kΩ 500 mA, 10 kΩ 100 mA.
	for _, c := range [][2]string{{"2 kΩ", "500 mA"}, {"10 kΩ", "100 mA"}} {
		s := expect.Result[SettingResult](t)(Setting(SettingInputs{Constant: q("1000 V"), Resistor: q(c[0]), Precharge: q("20 %"), Termination: q("10 %"), Most: q("0.4 A")}))
		expect.Within(t, "current", s.Current, c[1], "1 pA")
		expect.Within(t, "resistor", expect.Result[units.Quantity](t)(Resistor(q("1000 V"), s.Current)), c[0], "1 nΩ")
		expect.Within(t, "margin", s.Margin.Add(s.Current), "0.4 A", "1 pA")
		expect.Within(t, "termination", s.Termination.Mul(units.Number(10)), c[1], "1 pA")
		expect.Within(t, "precharge", s.Precharge.Mul(units.Number(5)), c[1], "1 pA")
	}

	// A linear charger of 5 V into 3.75 V at 25 °C and 150 K/W, held at 120 °C:
	// 95 K/(150 K/W · 1.25 V) = 506.7 mA; the form of the example in data sheets
	// of chargers with thermal regulation (LTC4054, from memory), numbers worked by hand.
	in := HeatInputs{Input: q("5 V"), Battery: q("3.75 V"), Current: q("800 mA"), Ambient: q("25 °C"), Resistance: q("150 K/W"), Regulation: q("120 °C")}
	h := expect.Result[HeatResult](t)(Heat(in))
	expect.Within(t, "regulated current", h.Charging, "506.667 mA", "1 µA")
	expect.Within(t, "junction held", h.Junction, "120 °C", "1 nK")
	expect.Within(t, "loss", h.Loss, "633.333 mW", "1 µW")
	// Both sides of the boundary agree at it, and below it nothing throttles.
	in.Current = h.Allowed
	expect.Within(t, "at the boundary", expect.Result[HeatResult](t)(Heat(in)).Margin, "0 A", "1 pA")
	in.Current = q("100 mA")
	expect.Within(t, "not throttled", expect.Result[HeatResult](t)(Heat(in)).Junction, "43.75 °C", "1 nK") // 25 + 0.125 · 150
	in.Ambient = q("130 °C")
	expect.Within(t, "too hot to charge", expect.Result[HeatResult](t)(Heat(in)).Charging, "0 A", "0 A")

	// By hand: 8 W at 90 % from 12 V.
	s := expect.Result[SwitchingResult](t)(Switching(SwitchingInputs{Input: q("12 V"), Battery: q("4 V"), Current: q("2 A"), Efficiency: q("90 %")}))
	expect.Within(t, "input current", s.InputCurrent, "740.741 mA", "1 µA")
	expect.Within(t, "loss", s.Loss, "888.889 mW", "1 µW")
	expect.Within(t, "energy balance", s.InputPower.Sub(s.Loss), "8 W", "1 pW")

	expect.Within(t, "timer", expect.Result[units.Quantity](t)(Timer(q("5 h"), q("5.5 h"))), "-30 min", "1 µs")
}

// A window from 0 °C to 45 °C with a 10 kΩ thermistor (27.28 kΩ and 4.917 kΩ)
// and thresholds of 73.5 % and 34.4 %: the data sheet of bq24105 has 9.31 kΩ and
// 442 kΩ, as quoted in e2e.ti.com threads 70278 and 70286; thresholds and
// thermistor from memory. By hand: 9.275 kΩ; E96 has 9.31 kΩ.
func TestWindow(t *testing.T) {
	t.Parallel()
	in := WindowDividerInputs{Cold: q("27.28 kΩ"), Hot: q("4.917 kΩ"), ColdShare: q("73.5 %"), HotShare: q("34.4 %")}
	d := expect.Result[WindowDividerResult](t)(WindowDivider(in))
	expect.Within(t, "upper", d.Upper, "9.31 kΩ", "50 Ω")
	expect.Within(t, "parallel", d.Parallel, "442 kΩ", "12 kΩ")
	// The inverse gives the thermistor's resistances, and with a table the temperatures.
	thermistor := expect.Table("cell [°C], resistance [Ω]\n-10, 42470\n0, 27280\n45, 4917\n60, 3020")
	w := expect.Result[WindowResult](t)(Window(WindowInputs{Upper: d.Upper, Parallel: d.Parallel, ColdShare: in.ColdShare, HotShare: in.HotShare, Thermistor: thermistor}))
	expect.Within(t, "cold", w.ColdTemperature, "0 °C", "1 nK")
	expect.Within(t, "hot", w.HotTemperature, "45 °C", "1 nK")
	// From 10 °C to 40 °C (17.96 kΩ, 5.82 kΩ) no resistor is found, as in thread
	// 482683: the resistor in parallel comes out negative.
	in.Cold, in.Hot = q("17.96 kΩ"), q("5.82 kΩ")
	if _, err := WindowDivider(in); err == nil || err.Error() != "charger.WindowDivider: the resistance needed below the pin when cold is 36.93 kΩ; it must be below Cold, 17.96 kΩ: nothing in parallel makes it larger: widen the window, or take a thermistor with a larger B" {
		t.Errorf("a window that is too narrow: %v", err)
	}
}

// The four regimes of a power path, by Kirchhoff's law.
func TestSharing(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ limit, load, charge, battery, source, charging, helped, missing, margin string }{
		{"500 mA", "100 mA", "250 mA", "1 A", "350 mA", "250 mA", "0 A", "0 A", "1.4 A"},   // all is served
		{"500 mA", "350 mA", "250 mA", "1 A", "500 mA", "150 mA", "0 A", "0 A", "1.15 A"},  // the charge gives way
		{"500 mA", "500 mA", "250 mA", "1 A", "500 mA", "0 A", "0 A", "0 A", "1 A"},        // the boundary
		{"500 mA", "800 mA", "250 mA", "1 A", "500 mA", "0 A", "300 mA", "0 A", "700 mA"},  // the battery helps
		{"500 mA", "800 mA", "250 mA", "0 A", "500 mA", "0 A", "0 A", "300 mA", "-300 mA"}, // and when it is empty
		{"0 A", "800 mA", "250 mA", "1 A", "0 A", "0 A", "800 mA", "0 A", "200 mA"},        // unplugged
		{"500 mA", "1.7 A", "250 mA", "1 A", "500 mA", "0 A", "1 A", "200 mA", "-200 mA"},  // both are not enough
		{"500 mA", "0 A", "750 mA", "1 A", "500 mA", "500 mA", "0 A", "0 A", "1.5 A"},      // the source bounds the charge
	} {
		s := expect.Result[SharingResult](t)(Sharing(SharingInputs{Limit: q(c.limit), Load: q(c.load), Charge: q(c.charge), Battery: q(c.battery)}))
		for _, r := range []struct {
			name string
			got  units.Quantity
			want string
		}{{"source", s.FromSource, c.source}, {"charging", s.Charging, c.charging}, {"battery", s.FromBattery, c.helped}, {"missing", s.Missing, c.missing}, {"margin", s.Margin, c.margin}} {
			expect.Within(t, c.load+" of "+c.limit+": "+r.name, r.got, r.want, "1 pA")
		}
		// What comes in goes out.
		if d := s.FromSource.SI() + s.FromBattery.SI() + s.Missing.SI() - s.Charging.SI() - q(c.load).SI(); math.Abs(d) > 1e-15 {
			t.Errorf("%v A are nowhere: %+v", d, s)
		}
	}
}

var cell = expect.Table("charge [%], voltage [V]\n0, 3.0\n5, 3.4\n20, 3.6\n60, 3.8\n90, 4.1\n100, 4.2")

// ocv is the same curve for the steps, which share nothing with the formulas.
func ocv(s float64) float64 {
	x := []float64{0, 0.05, 0.2, 0.6, 0.9, 1}
	y := []float64{3.0, 3.4, 3.6, 3.8, 4.1, 4.2}
	for i := 1; i < len(x); i++ {
		if s <= x[i] || i == len(x)-1 {
			return y[i-1] + (y[i]-y[i-1])*(s-x[i-1])/(x[i]-x[i-1])
		}
	}
	return math.NaN()
}

// A charge from empty to full, stepped through in time with a charger that
// limits current and voltage, over a grid of resistances and currents.
func TestChargeAgainstSteps(t *testing.T) {
	t.Parallel()
	for _, r := range []float64{0.05, 0.3, 2} {
		for _, current := range []float64{0.1, 0.25, 0.5} {
			for _, start := range []float64{0, 0.1, 0.5, 0.93} {
				for _, pre := range []bool{false, true} {
					const capacity, float, dt = 0.5 * 3600, 4.2, 0.5
					ends := current / 10
					in := ChargeInputs{OpenCircuit: cell, Resistance: of(r, "Ω"), Capacity: q("500 mAh"), Start: of(start, "1"),
						FullVoltage: q("4.2 V"), Current: of(current, "A"), Termination: of(ends, "A")}
					if pre {
						in.Precharge, in.Threshold = of(current/5, "A"), q("3.3 V")
					}
					if ocv(start) >= float-ends*r {
						if _, err := Charge(in); err == nil {
							t.Errorf("%v Ω, %v A from %v: it is full, and charges", r, current, start)
						}
						continue
					}
					c := expect.Result[ChargeResult](t)(Charge(in))
					s, seconds, slow, fading, lost, stored := start, 0.0, 0.0, 0.0, 0.0, 0.0
					for {
						v := ocv(s)
						i := current
						if pre && v+current/5*r < 3.3 {
							i = current / 5
							slow += dt
						} else if most := (float - v) / r; most < i {
							i = most
							fading += dt
						}
						if i <= ends {
							break
						}
						lost += i * i * r * dt
						stored += v * i * dt
						s += i * dt / capacity
						seconds += dt
					}
					about := func(name string, got units.Quantity, want, tolerance float64) {
						if math.Abs(got.SI()-want) > tolerance {
							t.Errorf("%v Ω, %v A from %v, precharge %v: %s is %v, steps give %v", r, current, start, pre, name, got, want)
						}
					}
					about("time", c.Time, seconds, 2+1e-3*seconds)
					about("precharge time", c.PrechargeTime, slow, 2+1e-3*seconds)
					about("fading time", c.FadingTime, fading, 2+1e-3*seconds)
					about("stored", c.Stored, stored, 1+1e-3*stored)
					about("lost", c.Lost, lost, 1+2e-3*lost)
					about("end", c.End, s, 1e-4)
					about("charge", c.Charge, capacity*(s-start), 1)
					if d := c.Energy.SI() - c.Stored.SI() - c.Lost.SI(); math.Abs(d) > 1e-12*c.Energy.SI() {
						t.Errorf("%v J are nowhere: %+v", d, c)
					}
				}
			}
		}
	}
}

func TestChargeMonotone(t *testing.T) {
	t.Parallel()
	time := func(current, resistance string) float64 {
		return expect.Result[ChargeResult](t)(Charge(ChargeInputs{OpenCircuit: cell, Resistance: q(resistance), Capacity: q("500 mAh"), FullVoltage: q("4.2 V"), Current: q(current), Termination: q("25 mA")})).Time.SI()
	}
	if !(time("0.5 A", "0.2 Ω") < time("0.25 A", "0.2 Ω")) || !(time("0.25 A", "0.2 Ω") < time("0.25 A", "0.4 Ω")) {
		t.Error("more current, or less resistance, does not charge faster")
	}
	// By hand: without resistance nearly all of it at constant current: 500 mAh/250 mA = 2 h.
	if d := time("0.25 A", "1 mΩ") / 7200; math.Abs(d-1) > 3e-3 {
		t.Errorf("%v of two hours", d)
	}
}

func TestEveryCaseIsComputedByItself(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name   string
		values []string
		call   func(x []units.Quantity) (any, error)
	}{
		{"Setting", []string{"1000 V", "2 kΩ", "10 %", "500 mA"}, func(x []units.Quantity) (any, error) {
			return box(Setting(SettingInputs{Constant: x[0], Resistor: x[1], Precharge: x[2], Termination: x[2], Most: x[3]}))
		}},
		{"Resistor", []string{"1000 V", "500 mA"}, func(x []units.Quantity) (any, error) { return box(Resistor(x[0], x[1])) }},
		{"Timer", []string{"5 h", "5 h"}, func(x []units.Quantity) (any, error) { return box(Timer(x[0], x[1])) }},
		// With and without a precharge, in some cases at constant voltage at once.
		{"Charge", []string{"600 mΩ", "500 mAh", "10 %", "400 mA", "20 mA", "80 mA", "3.3 V"}, func(x []units.Quantity) (any, error) {
			return box(Charge(ChargeInputs{OpenCircuit: cell, Resistance: x[0], Capacity: x[1], Start: x[2], FullVoltage: q("4.2 V"), Current: x[3], Termination: x[4], Precharge: x[5], Threshold: x[6]}))
		}},
		// In some cases throttled.
		{"Heat", []string{"5 V", "500 mA", "30 °C", "150 K/W"}, func(x []units.Quantity) (any, error) {
			return box(Heat(HeatInputs{Input: x[0], Battery: q("3.6 V"), Current: x[1], Ambient: x[2], Resistance: x[3], Regulation: q("120 °C")}))
		}},
		{"Switching", []string{"12 V", "4 V", "2 A", "80 %"}, func(x []units.Quantity) (any, error) {
			return box(Switching(SwitchingInputs{Input: x[0], Battery: x[1], Current: x[2], Efficiency: x[3]}))
		}},
		// On both sides of two boundaries.
		{"Sharing", []string{"500 mA", "500 mA", "60 mA", "60 mA"}, func(x []units.Quantity) (any, error) {
			return box(Sharing(SharingInputs{Limit: x[0], Load: x[1], Charge: x[2], Battery: x[3]}))
		}},
		{"WindowDivider", []string{"40 kΩ", "4.9 kΩ"}, func(x []units.Quantity) (any, error) {
			return box(WindowDivider(WindowDividerInputs{Cold: x[0], Hot: x[1], ColdShare: q("70 %"), HotShare: q("34 %")}))
		}},
		{"Window", []string{"9 kΩ", "400 kΩ", "60 %"}, func(x []units.Quantity) (any, error) {
			return box(Window(WindowInputs{Upper: x[0], Parallel: x[1], ColdShare: x[2], HotShare: q("34 %"), Thermistor: expect.Table("cell [°C], resistance [Ω]\n-30, 120000\n0, 27280\n45, 4917\n90, 1000")}))
		}},
	} {
		expect.SpreadOfAll(t, test.name, test.values, test.call)
	}
}
