package divider

import (
	"testing"

	"ohmwright/units"
)

// A result that depends on a value with spread has spread: nothing on the way
// drops it. Without holds the results that do not depend on the value.
func TestSpreadIsKept(t *testing.T) {
	t.Parallel()
	spread := func(x string) units.Quantity { return units.Tolerance(q(x), q("1 %")) }
	for _, test := range []struct {
		name    string
		call    func() (any, error)
		without []string
	}{
		{"Plain", func() (any, error) { return box(Plain(q("12 V"), spread("10 kΩ"), q("3.3 kΩ"))) }, nil},
		{"Plain, input", func() (any, error) { return box(Plain(spread("12 V"), q("10 kΩ"), q("3.3 kΩ"))) }, []string{"Ratio", "Resistance"}},
		{"Loaded", func() (any, error) {
			return box(Loaded(LoadedInputs{q("12 V"), q("10 kΩ"), q("3.3 kΩ"), spread("10 kΩ"), q("1 µA")}))
		}, []string{"Unloaded"}},
		{"Loaded, current", func() (any, error) {
			return box(Loaded(LoadedInputs{q("12 V"), q("10 kΩ"), q("3.3 kΩ"), q("10 kΩ"), spread("1 µA")}))
		}, []string{"Effective", "OpenVoltage", "Resistance", "Unloaded"}},
		{"FeedbackUpper", func() (any, error) {
			return box(FeedbackUpper(FeedbackInputs{Reference: spread("0.8 V"), Output: q("5 V"), Lower: q("10 kΩ"), PinCurrent: q("1 nA")}))
		}, []string{"Lower"}},
		{"FeedbackLower", func() (any, error) {
			return box(FeedbackLower(FeedbackInputs{Reference: q("0.8 V"), Output: q("5 V"), Upper: spread("10 kΩ"), PinCurrent: q("1 nA")}))
		}, nil},
		{"FeedbackOutput", func() (any, error) {
			return box(FeedbackOutput(FeedbackInputs{Reference: q("0.8 V"), Upper: q("10 kΩ"), Lower: q("10 kΩ"), PinCurrent: spread("1 nA")}))
		}, []string{"LowerCurrent", "Upper", "Lower"}},
		{"MeasuringUpper", func() (any, error) { return box(MeasuringUpper(q("32 V"), spread("3.3 V"), q("10 kΩ"))) }, nil},
		{"Measuring", func() (any, error) {
			return box(Measuring(MeasuringInputs{q("32 V"), spread("100 kΩ"), q("10 kΩ"), q("3.3 V"), 12, q("100 nA")}))
		}, []string{"Step"}},
		{"Filter", func() (any, error) { return box(Filter(q("9 kΩ"), spread("100 nF"), 12)) }, []string{"TimeConstants"}},
		{"DirectSampling", func() (any, error) {
			return box(DirectSampling(DirectInputs{Source: q("9 kΩ"), Switch: q("1 kΩ"), Sampling: spread("14 pF"), Bits: 12}))
		}, []string{"TimeConstants", "Source"}},
		{"LargestSource", func() (any, error) {
			return box(LargestSource(DirectInputs{Time: q("1.5 µs"), Switch: spread("1 kΩ"), Sampling: q("14 pF"), Bits: 12}))
		}, []string{"TimeConstant", "TimeConstants", "Settling"}},
		{"ReservoirSampling", func() (any, error) {
			return box(ReservoirSampling(ReservoirInputs{q("3.3 V"), 12, q("9 kΩ"), spread("100 nF"), q("14 pF"), q("1 ms")}))
		}, []string{"Step", "LeastReservoir"}},
		{"Clamp", func() (any, error) {
			return box(Clamp(ClampInputs{spread("60 V"), q("100 kΩ"), q("10 kΩ"), q("3.6 V")}))
		}, nil},
		{"Clamp at rest", func() (any, error) {
			return box(Clamp(ClampInputs{spread("32 V"), q("100 kΩ"), q("10 kΩ"), q("3.6 V")}))
		}, nil},
	} {
		result, err := test.call()
		if err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
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
