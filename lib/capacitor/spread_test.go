package capacitor

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/table"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// Every case of a value with spread is what the function gives of the exact
// value in it, on both sides of each regime, and nothing on the way decides
// for all cases or drops the spread.
func TestSpreadIsKept(t *testing.T) {
	t.Parallel()
	bias := expect.Table("bias [V], kept [%]\n0, 100\n4, 70\n6, 50\n10, 30")
	multiplier := expect.Table("frequency [Hz] log, multiplier [1]\n50, 0.85\n120, 1\n1e4, 1.4\n1e5, 1.5")
	ceramic := func(change func(in *CeramicInputs)) (any, error) {
		in := class2()
		in.Kept = bias
		change(&in)
		return box(Ceramic(in))
	}
	life := func(change func(in *LifeInputs)) (any, error) {
		in := rated()
		change(&in)
		return box(Life(in))
	}
	for _, test := range []struct {
		name    string
		value   units.Quantity
		call    func(x units.Quantity) (any, error)
		without []string
	}{
		{"Ceramic, bias", units.Range(q("1 V"), q("5 V"), q("9 V")), func(x units.Quantity) (any, error) {
			return ceramic(func(in *CeramicInputs) { in.Bias = x })
		}, []string{"Printed", "TemperatureLoss", "TemperatureGain", "Decades", "AgeShare"}},
		{"Ceramic, age", units.Range(q("0.1 h"), q("10 h"), q("100000 h")), func(x units.Quantity) (any, error) {
			return ceramic(func(in *CeramicInputs) { in.Age = x })
		}, []string{"Printed", "BiasShare", "TemperatureLoss", "TemperatureGain", "Most"}},
		// The farther end from 25 °C is the cold one in some cases.
		{"Ceramic, temperature", units.Range(q("26 °C"), q("60 °C"), q("85 °C")), func(x units.Quantity) (any, error) {
			return ceramic(func(in *CeramicInputs) {
				in.Code, in.Kept, in.Age, in.Ageing, in.Hottest = "U2J", table.Table{}, none, none, x
			})
		}, []string{"Printed", "BiasShare", "Decades", "AgeShare", "Usual"}},
		{"RippleCurrent, current", units.Range(q("0 A"), q("1 A"), q("2 A")), func(x units.Quantity) (any, error) {
			return box(RippleCurrent([]Component{{q("100 Hz"), x}, {q("10 kHz"), q("0.3 A")}}, multiplier))
		}, []string{"Multipliers"}},
		{"RippleCurrent, frequency", units.Range(q("60 Hz"), q("200 Hz"), q("20 kHz")), func(x units.Quantity) (any, error) {
			return box(RippleCurrent([]Component{{x, q("1 A")}}, multiplier))
		}, []string{"Total"}},
		{"ESR", units.Tolerance(q("4.7 mF"), q("20 %")), func(x units.Quantity) (any, error) { return box(ESR(q("0.16"), q("120 Hz"), x)) }, nil},
		{"Heating", units.Range(q("0 A"), q("1 A"), q("2 A")), func(x units.Quantity) (any, error) {
			return box(Heating(HeatingInputs{Current: x, ESR: q("45 mΩ"), Resistance: q("20 K/W"), Ambient: q("60 °C")}))
		}, nil},
		// Below and above 40 °C, and up to the longest life.
		{"Life, ambient", units.Range(q("-20 °C"), q("45 °C"), q("105 °C")), func(x units.Quantity) (any, error) {
			return life(func(in *LifeInputs) { in.Ambient, in.Base = x, q("5000 h") })
		}, []string{"Rise", "RippleFactor", "VoltageShare", "VoltageFactor"}},
		// Below and above the rated ripple.
		{"Life, ripple", units.Range(q("0 A"), q("0.9 A"), q("2 A")), func(x units.Quantity) (any, error) {
			return life(func(in *LifeInputs) { in.Ripple = x })
		}, []string{"Counted", "TemperatureFactor", "VoltageShare", "VoltageFactor"}},
		{"Life, voltage", units.Range(q("5 V"), q("20 V"), q("35 V")), func(x units.Quantity) (any, error) {
			return life(func(in *LifeInputs) { in.Exponent, in.Voltage, in.RatedVoltage = 2.5, x, q("35 V") })
		}, []string{"Rise", "Core", "Counted", "TemperatureFactor", "RippleFactor", "CoreMargin"}},
		{"Leakage", units.Range(q("1 V"), q("10 V"), q("30 V")), func(x units.Quantity) (any, error) {
			return box(Leakage(LeakageInputs{Capacitance: q("47 µF"), Voltage: x, Factor: q("0.01"), Least: q("3 µA")}))
		}, nil},
		{"VoltageDerating", units.Range(q("20 °C"), q("80 °C"), q("125 °C")), func(x units.Quantity) (any, error) {
			return box(VoltageDerating(VoltageInputs{Rated: q("16 V"), Applied: q("5 V"), Use: q("50 %"), Temperature: x, Full: q("85 °C"), Last: q("125 °C"), LastShare: q("67 %")}))
		}, nil},
	} {
		expect.Spread(t, test.name, test.value, test.call, test.without...)
	}
}

// What only takes away takes more the more there is of it, and nothing gives
// back; life falls with every stress.
func TestDirections(t *testing.T) {
	t.Parallel()
	bias := expect.Table("bias [V], kept [%]\n0, 100\n4, 70\n6, 50\n10, 30")
	least := func(change func(in *CeramicInputs)) float64 {
		in := class2()
		in.Kept = bias
		change(&in)
		r, err := Ceramic(in)
		return expect.Must(t, r, err).Least.SI()
	}
	life := func(change func(in *LifeInputs)) float64 {
		in := rated()
		change(&in)
		r, err := Life(in)
		return expect.Must(t, r, err).Life.SI()
	}
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0.01, 0.98).Draw(t, "a")
		b := rapid.Float64Range(a+0.01, 1).Draw(t, "b")
		for name, f := range map[string]func(x float64) float64{
			"bias":      func(x float64) float64 { return least(func(in *CeramicInputs) { in.Bias = of(10*x, "V") }) },
			"age":       func(x float64) float64 { return least(func(in *CeramicInputs) { in.Age = of(2+1e5*x, "h") }) },
			"tolerance": func(x float64) float64 { return least(func(in *CeramicInputs) { in.Tolerance = of(0.9*x, "") }) },
			"ripple":    func(x float64) float64 { return life(func(in *LifeInputs) { in.Ripple = of(2*x, "A") }) },
			"heat": func(x float64) float64 {
				return life(func(in *LifeInputs) { in.Ambient = q("40 °C").Add(of(60*x, "K")) })
			},
			"voltage": func(x float64) float64 {
				return life(func(in *LifeInputs) { in.Exponent, in.Voltage, in.RatedVoltage = 2.5, of(17.5+17.5*x, "V"), q("35 V") })
			},
		} {
			if !(f(b) < f(a)) {
				t.Fatalf("%s: %v at %v and %v at %v", name, f(a), a, f(b), b)
			}
		}
	})
}

// Whatever the arguments, no function panics, and a result without an error
// holds finite numbers only.
func TestNothingInfiniteLeaves(t *testing.T) {
	t.Parallel()
	unit := map[string]string{
		"Printed": "F", "Tolerance": "", "Bias": "V", "Coldest": "°C", "Hottest": "°C", "Ageing": "", "Age": "s",
		"Current": "A", "ESR": "Ω", "Leakage": "A", "Voltage": "V", "Resistance": "K/W", "Ambient": "°C",
		"Base": "s", "RatedAmbient": "°C", "RatedRipple": "A", "RatedRise": "K", "Ripple": "A", "RatedVoltage": "V", "Longest": "s",
		"Capacitance": "F", "Factor": "", "Least": "A", "Rated": "V", "Applied": "V", "Use": "", "Temperature": "°C", "Full": "°C", "Last": "°C", "LastShare": "",
	}
	curves := []table.Table{{}, expect.Table("bias [V], kept [%]\n0, 100\n4, 70\n1e3, 50"), expect.Table("bias [V], kept [%]\n0, -5\n4, 0\n1e3, 50"), expect.Table("f [Hz] log, kept [1]\n1, 1\n1e6, 2")}
	rapid.Check(t, func(t *rapid.T) {
		draw, _ := expect.Manner(t)
		filler := expect.Filler{Units: unit, Draw: draw, Others: []any{
			curves, []string{"X7R", "C0G", "U2J", "Y5V", "", "M9N", "☕", "X7R "}, []int{0, 1, 100, -1, 101}, []float64{0, 2.5, 12, -1, math.NaN(), math.Inf(1)},
		}}
		for _, f := range []any{Ceramic, Heating, Life, Leakage, VoltageDerating} {
			filler.Call(t, f, nil)
		}
		expect.Finite(t, "ESR", func() (any, error) {
			return box(ESR(draw("loss", ""), draw("frequency", "Hz"), draw("capacitance", "F")))
		})
		expect.Finite(t, "RippleCurrent", func() (any, error) {
			components := []Component{{draw("first", "Hz"), draw("one", "A")}, {draw("second", "Hz"), draw("other", "A")}}
			return box(RippleCurrent(components, rapid.SampledFrom(curves).Draw(t, "curve")))
		})
	})
}
