package thermal

import (
	"reflect"
	"testing"

	"ohmwright/units"
)

// A result that depends on a value with spread has spread: nothing on the way
// drops it. Each case gives how many quantities of the result do not depend
// on the value.
func TestSpreadIsKept(t *testing.T) {
	t.Parallel()
	air := units.Range(q("-20 °C"), q("25 °C"), q("50 °C"))
	spread := func(x string) units.Quantity { return units.Tolerance(q(x), q("1 %")) }
	for _, test := range []struct {
		name    string
		call    func() (any, error)
		without int
	}{
		{"Rise", func() (any, error) { return box(Rise(spread("1 W"), q("62 K/W"))) }, 0},
		{"Junction", func() (any, error) { return box(Junction(air, q("1 W"), q("62 K/W"))) }, 0},
		{"Junction, resistance", func() (any, error) { return box(Junction(q("25 °C"), q("1 W"), q("62 K/W"), spread("1 K/W"))) }, 0},
		{"JunctionFromTop", func() (any, error) { return box(JunctionFromTop(q("25 °C"), q("1 W"), spread("2 K/W"))) }, 0},
		{"Chain", func() (any, error) {
			return box(Chain(ChainInputs{q("25 °C"), spread("1 W"), []Segment{{"junction", "case", q("1 K/W")}, {"case", "air", q("10 K/W")}}}))
		}, 3}, // the sum of the resistances, the reference and its rise above itself
		{"LargestPower", func() (any, error) { return box(LargestPower(air, q("125 °C"), q("62 K/W"))) }, 0},
		{"LargestResistance", func() (any, error) { return box(LargestResistance(air, q("125 °C"), q("1 W"))) }, 0},
		{"LargestAmbient", func() (any, error) { return box(LargestAmbient(q("125 °C"), spread("1 W"), q("62 K/W"))) }, 0},
		{"RequiredSink", func() (any, error) {
			return box(RequiredSink(SinkInputs{air, q("125 °C"), q("10 W"), q("1 K/W"), q("1 K/W")}))
		}, 0},
		{"ParallelPaths", func() (any, error) { return box(ParallelPaths(q("1 W"), q("62 K/W"), spread("62 K/W"))) }, 0},
		{"Derating", func() (any, error) {
			return box(Derating(DeratingInputs{q("250 mW"), q("70 °C"), q("155 °C"), air}))
		}, 1}, // the slope
		{"DeratingBySlope", func() (any, error) {
			return box(DeratingBySlope(SlopeDeratingInputs{q("250 mW"), spread("3 mW/K"), q("70 °C"), q("100 °C")}))
		}, 0},
		{"DeratingFrom", func() (any, error) {
			return box(DeratingFrom([]DeratingPoint{{q("-40 °C"), q("2 A")}, {q("40 °C"), q("2 A")}, {q("85 °C"), q("1 A")}}, air))
		}, 0},
	} {
		result, err := test.call()
		if err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		var without int
		for _, x := range quantities(reflect.ValueOf(result)) {
			if !x.HasSpread() {
				without++
			}
		}
		if without != test.without {
			t.Errorf("%s: %d quantities without spread, want %d: %v", test.name, without, test.without, result)
		}
	}
}
