package divider

import (
	"math"
	"testing"

	"ohmwright/units"
)

// A result that depends on a value with spread has spread: nothing on the way
// drops it. Without holds the results that do not depend on the value.
func TestSpreadIsKept(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name    string
		value   string // with 1 %, for x
		call    func(x units.Quantity) (any, error)
		without []string
	}{
		{"Plain", "10 kΩ", func(x units.Quantity) (any, error) { return box(Plain(q("12 V"), x, q("3.3 kΩ"))) }, nil},
		{"Plain, input", "12 V", func(x units.Quantity) (any, error) { return box(Plain(x, q("10 kΩ"), q("3.3 kΩ"))) }, []string{"Ratio", "Resistance"}},
		{"Loaded", "10 kΩ", func(x units.Quantity) (any, error) {
			return box(Loaded(LoadedInputs{q("12 V"), q("10 kΩ"), q("3.3 kΩ"), x, q("1 µA")}))
		}, []string{"Unloaded"}},
		{"Loaded, current", "1 µA", func(x units.Quantity) (any, error) {
			return box(Loaded(LoadedInputs{q("12 V"), q("10 kΩ"), q("3.3 kΩ"), q("10 kΩ"), x}))
		}, []string{"Effective", "OpenVoltage", "Resistance", "Unloaded"}},
		{"FeedbackUpper", "0.8 V", func(x units.Quantity) (any, error) {
			return box(FeedbackUpper(FeedbackInputs{Reference: x, Output: q("5 V"), Lower: q("10 kΩ"), PinCurrent: q("1 nA")}))
		}, []string{"Lower"}},
		{"FeedbackLower", "10 kΩ", func(x units.Quantity) (any, error) {
			return box(FeedbackLower(FeedbackInputs{Reference: q("0.8 V"), Output: q("5 V"), Upper: x, PinCurrent: q("1 nA")}))
		}, nil},
		{"FeedbackOutput", "1 nA", func(x units.Quantity) (any, error) {
			return box(FeedbackOutput(FeedbackInputs{Reference: q("0.8 V"), Upper: q("10 kΩ"), Lower: q("10 kΩ"), PinCurrent: x}))
		}, []string{"LowerCurrent", "Upper", "Lower"}},
		{"MeasuringUpper", "3.3 V", func(x units.Quantity) (any, error) { return box(MeasuringUpper(q("32 V"), x, q("10 kΩ"))) }, nil},
		{"Measuring", "100 kΩ", func(x units.Quantity) (any, error) {
			return box(Measuring(MeasuringInputs{q("32 V"), x, q("10 kΩ"), q("3.3 V"), 12, q("100 nA")}))
		}, []string{"Step"}},
		{"Filter", "100 nF", func(x units.Quantity) (any, error) { return box(Filter(q("9 kΩ"), x, 12)) }, []string{"TimeConstants"}},
		{"DirectSampling", "14 pF", func(x units.Quantity) (any, error) {
			return box(DirectSampling(DirectInputs{Source: q("9 kΩ"), Switch: q("1 kΩ"), Sampling: x, Bits: 12}))
		}, []string{"TimeConstants", "Source"}},
		{"LargestSource", "1 kΩ", func(x units.Quantity) (any, error) {
			return box(LargestSource(DirectInputs{Time: q("1.5 µs"), Switch: x, Sampling: q("14 pF"), Bits: 12}))
		}, []string{"TimeConstant", "TimeConstants", "Settling"}},
		{"ReservoirSampling", "100 nF", func(x units.Quantity) (any, error) {
			return box(ReservoirSampling(ReservoirInputs{q("3.3 V"), 12, q("9 kΩ"), x, q("14 pF"), q("1 ms")}))
		}, []string{"Step", "LeastReservoir"}},
		{"Clamp", "60 V", func(x units.Quantity) (any, error) {
			return box(Clamp(ClampInputs{x, q("100 kΩ"), q("10 kΩ"), q("3.6 V")}))
		}, nil},
		{"Clamp at rest", "32 V", func(x units.Quantity) (any, error) {
			return box(Clamp(ClampInputs{x, q("100 kΩ"), q("10 kΩ"), q("3.6 V")}))
		}, nil},
	} {
		study := units.NewStudy(units.StudyOptions{Boards: 20})
		x := study.Place("x", "x", units.Tolerance(q(test.value), q("1 %")))
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
			for name, want := range quantities(exact) {
				if got := cases.Pick(quantities(result)[name], i); math.Abs(got.SI()-want.SI()) > 1e-12*math.Abs(want.SI()) {
					t.Errorf("%s: %s is %v where %s, of the exact value %v", test.name, name, got.SI(), cases.Where(i), want.SI())
				}
			}
		}
		if splits, n := study.TakeSplits(); n > 0 {
			t.Errorf("%s decides for all cases: %v", test.name, splits)
		}
		without := map[string]bool{}
		for _, name := range test.without {
			without[name] = true
		}
		for name, x := range quantities(result) {
			if x.HasSpread() == without[name] {
				t.Errorf("%s: %s has spread: %v", test.name, name, x.HasSpread())
			}
		}
	}
}
