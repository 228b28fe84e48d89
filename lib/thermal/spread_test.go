package thermal

import (
	"math"
	"reflect"
	"testing"

	"ohmwright/units"
)

// A result that depends on a value with spread has spread: nothing on the way
// drops it. Each case gives how many quantities of the result do not depend
// on the value.
func TestSpreadIsKept(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name    string
		value   string // with 1 %, for x; or the air
		call    func(x units.Quantity) (any, error)
		without int
	}{
		{"Rise", "1 W", func(x units.Quantity) (any, error) { return box(Rise(x, q("62 K/W"))) }, 0},
		{"Junction", "air", func(x units.Quantity) (any, error) { return box(Junction(x, q("1 W"), q("62 K/W"))) }, 0},
		{"Junction, resistance", "1 K/W", func(x units.Quantity) (any, error) { return box(Junction(q("25 °C"), q("1 W"), q("62 K/W"), x)) }, 0},
		{"JunctionFromTop", "2 K/W", func(x units.Quantity) (any, error) { return box(JunctionFromTop(q("25 °C"), q("1 W"), x)) }, 0},
		{"Chain", "1 W", func(x units.Quantity) (any, error) {
			return box(Chain(ChainInputs{q("25 °C"), x, []Segment{{"junction", "case", q("1 K/W")}, {"case", "air", q("10 K/W")}}}))
		}, 3}, // the sum of the resistances, the reference and its rise above itself
		{"LargestPower", "air", func(x units.Quantity) (any, error) { return box(LargestPower(x, q("125 °C"), q("62 K/W"))) }, 0},
		{"LargestResistance", "air", func(x units.Quantity) (any, error) { return box(LargestResistance(x, q("125 °C"), q("1 W"))) }, 0},
		{"LargestAmbient", "1 W", func(x units.Quantity) (any, error) { return box(LargestAmbient(q("125 °C"), x, q("62 K/W"))) }, 0},
		{"RequiredSink", "air", func(x units.Quantity) (any, error) {
			return box(RequiredSink(SinkInputs{x, q("125 °C"), q("10 W"), q("1 K/W"), q("1 K/W")}))
		}, 0},
		{"ParallelPaths", "62 K/W", func(x units.Quantity) (any, error) { return box(ParallelPaths(q("1 W"), q("62 K/W"), x)) }, 0},
		{"Derating", "air", func(x units.Quantity) (any, error) {
			return box(Derating(DeratingInputs{q("250 mW"), q("70 °C"), q("155 °C"), x}))
		}, 1}, // the slope
		{"DeratingBySlope", "3 mW/K", func(x units.Quantity) (any, error) {
			return box(DeratingBySlope(SlopeDeratingInputs{q("250 mW"), x, q("70 °C"), q("100 °C")}))
		}, 0},
		{"DeratingFrom", "air", func(x units.Quantity) (any, error) {
			return box(DeratingFrom([]DeratingPoint{{q("-40 °C"), q("2 A")}, {q("40 °C"), q("2 A")}, {q("85 °C"), q("1 A")}}, x))
		}, 0},
	} {
		study := units.NewStudy(units.StudyOptions{Boards: 20})
		x := study.Place("x", "x", units.Range(q("-20 °C"), q("25 °C"), q("50 °C")))
		if test.value != "air" {
			x = study.Place("x", "x", units.Tolerance(q(test.value), q("1 %")))
		}
		result, err := test.call(x)
		if err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		// Every case is what the function gives of the exact value in it.
		cases := study.CasesOf([]units.Quantity{x})
		for i := range cases.Len() {
			exact, err := test.call(cases.Pick(x, i))
			if err != nil {
				t.Fatalf("%s, where %s: %v", test.name, cases.Where(i), err)
			}
			got := quantities(reflect.ValueOf(result))
			for k, want := range quantities(reflect.ValueOf(exact)) {
				if v := cases.Pick(got[k], i); math.Abs(v.SI()-want.SI()) > 1e-12*math.Abs(want.SI()) {
					t.Errorf("%s: the %d. result is %v where %s, of the exact value %v", test.name, k+1, v.SI(), cases.Where(i), want.SI())
				}
			}
		}
		if splits, n := study.TakeSplits(); n > 0 {
			t.Errorf("%s decides for all cases: %v", test.name, splits)
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
