package ripple

import (
	"math"
	"reflect"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// What physics says about the direction: along each line one input rises.
func TestDirections(t *testing.T) {
	t.Parallel()
	with := func(change func(in *RectifierInputs, x units.Quantity)) func(x units.Quantity) (RectifierResult, error) {
		return func(x units.Quantity) (RectifierResult, error) {
			in := supply()
			change(&in, x)
			if in.Resistance != none {
				return RectifierWithSource(in)
			}
			return Rectifier(in)
		}
	}
	for name, test := range map[string]struct {
		low, high string
		call      func(x units.Quantity) (RectifierResult, error)
		rises     []string
		falls     []string
	}{
		"capacitance, stiff":  {"0.5 mF", "20 mF", with(func(in *RectifierInputs, x units.Quantity) { in.Capacitance = x }), []string{"Valley", "Mean", "PulsePeak"}, []string{"Ripple", "Start", "UsualRippleError"}},
		"load, stiff":         {"0.1 W", "20 W", with(func(in *RectifierInputs, x units.Quantity) { in.LoadPower = x }), []string{"Ripple", "CapacitorRMS", "SourceRMS"}, []string{"Valley", "Mean"}},
		"input, stiff":        {"20 V", "40 V", with(func(in *RectifierInputs, x units.Quantity) { in.Input = x }), []string{"Valley", "Mean", "Reverse"}, []string{"LoadCurrent", "Ripple"}},
		"resistance":          {"50 mΩ", "5 Ω", with(func(in *RectifierInputs, x units.Quantity) { in.Resistance = x }), []string{"Start", "LoadCurrent"}, []string{"Mean", "Valley", "PulsePeak", "CapacitorRMS"}},
		"load through a wire": {"0.1 W", "20 W", with(func(in *RectifierInputs, x units.Quantity) { in.Resistance, in.LoadPower = q("1.5 Ω"), x }), []string{"LoadCurrent", "PulsePeak", "ResistanceLoss"}, []string{"Mean", "Valley", "Peak"}},
	} {
		var before map[string]units.Quantity
		for k := range 30 {
			x := q(test.low).Mul(units.Number(math.Pow(q(test.high).Div(q(test.low)).SI(), float64(k)/29)))
			r, err := test.call(x)
			if err != nil {
				t.Fatalf("%s at %v: %v", name, x, err)
			}
			now := expect.Quantities(r)
			for _, field := range test.rises {
				if before != nil && !before[field].Less(now[field]) {
					t.Errorf("%s: %s goes from %v to %v at %v", name, field, before[field].SI(), now[field].SI(), x)
				}
			}
			for _, field := range test.falls {
				if before != nil && !now[field].Less(before[field]) {
					t.Errorf("%s: %s goes from %v to %v at %v", name, field, before[field].SI(), now[field].SI(), x)
				}
			}
			before = now
		}
	}
}

// The capacitance that HoldUpCapacitor asks for holds up as long as asked,
// and the time of RCTime is that of its parts.
func TestBackAndForth(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		in := HoldUpCapacitorInputs{Time: of(number("time", 1e-3, 10), "s"), Stop: of(number("stop", 1, 20), "V")}
		in.Start = in.Stop.Mul(units.Number(number("over", 1.0001, 20)))
		held := HoldUpInputs{Start: in.Start, Stop: in.Stop}
		switch rapid.IntRange(0, 2).Draw(t, "kind") {
		case 0:
			in.LoadCurrent = of(number("current", 1e-3, 10), "A")
		case 1:
			in.LoadPower, in.Efficiency = of(number("power", 1e-3, 100), "W"), of(number("efficiency", 0.1, 1), "")
		default:
			in.LoadResistance = of(number("resistance", 1, 1e6), "Ω")
		}
		held.LoadCurrent, held.LoadPower, held.LoadResistance, held.Efficiency = in.LoadCurrent, in.LoadPower, in.LoadResistance, in.Efficiency
		c, err := HoldUpCapacitor(in)
		if err != nil {
			t.Fatal(err)
		}
		held.Capacitance = c.Needed
		h, err := HoldUp(held)
		if err != nil || math.Abs(h.Time.Div(in.Time).SI()-1) > 1e-12 {
			t.Fatalf("%v holds up %v of %v (%v)", c.Needed, h.Time, in.Time, err)
		}
		rc := RCTimeInputs{Resistance: q("1 kΩ"), Capacitance: q("1 µF"), Source: of(float64(rapid.IntRange(-1000, 1000).Draw(t, "source"))/100, "V"), Start: of(float64(rapid.IntRange(-1000, 1000).Draw(t, "from"))/100, "V")}
		way := rc.Source.Sub(rc.Start)
		middle := rc.Start.Add(way.Mul(units.Number(number("middle", 0.01, 0.5))))
		end := rc.Start.Add(way.Mul(units.Number(number("end", 0.51, 0.99))))
		leg := func(from, to units.Quantity) float64 {
			in := rc
			in.Start, in.End = from, to
			r, err := RCTime(in)
			if err != nil && math.Abs(way.SI()) > 1e-6 {
				t.Fatal(err)
			}
			return r.Time.SI()
		}
		if whole, parts := leg(rc.Start, end), leg(rc.Start, middle)+leg(middle, end); math.Abs(whole-parts) > 1e-9*whole {
			t.Fatalf("the whole takes %v, its parts %v", whole, parts)
		}
	})
}

// Whatever the arguments, no function panics, and a result without an error
// holds finite numbers only.
func TestNothingInfiniteLeaves(t *testing.T) {
	t.Parallel()
	unit := map[string]string{
		"FilterInputs.Source": "Ω",
		"Input":               "V", "Frequency": "Hz", "Diode": "V", "Resistance": "Ω", "Capacitance": "F", "LoadCurrent": "A", "LoadPower": "W", "LoadResistance": "Ω",
		"Start": "V", "Stop": "V", "Efficiency": "", "Time": "s", "Tolerance": "", "Cold": "", "Life": "", "Load": "Ω", "Source": "V", "End": "V", "Safe": "V",
		"Inductance": "H", "Winding": "Ω", "ESR": "Ω", "Damping": "F", "DampingESR": "Ω",
	}
	rapid.Check(t, func(t *rapid.T) {
		draw, mayWork := expect.Manner(t)
		filler := expect.Filler{Units: unit, Draw: draw, Others: []any{[]Arrangement{HalfWave, FullWave, Bridge, {}}}}
		for _, f := range []any{Rectifier, RectifierWithSource, Inrush, HoldUp, HoldUpCapacitor, RC, RCTime, Bleed, LC, Damping, Filter} {
			filler.Call(t, f, func(in reflect.Value) {
				if !mayWork {
					return
				}
				if reflect.ValueOf(f).Pointer() == reflect.ValueOf(Rectifier).Pointer() {
					in.FieldByName("Resistance").SetZero()
				}
				loads := []string{"LoadCurrent", "LoadPower", "LoadResistance"} // one of them
				given := rapid.SampledFrom(loads).Draw(t, "load")
				for _, name := range loads {
					if f := in.FieldByName(name); f.IsValid() && name != given {
						f.SetZero()
					}
				}
			})
		}
	})
}
