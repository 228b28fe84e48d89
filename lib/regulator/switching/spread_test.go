package switching

import (
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"
)

// Every case of a value with spread is what the function gives of the exact
// value in it, on both sides of the boundary, and nothing on the way decides
// for all cases or drops the spread. Without holds the results that do not
// depend on the value.
func TestSpreadIsKept(t *testing.T) {
	t.Parallel()
	light := units.Range(q("20 mA"), q("0.4 A"), q("1.5 A"))
	cycle := CycleInputs{OnVoltage: q("18.7 V"), OffVoltage: q("5.2 V"), Inductance: q("22 µH"), Frequency: q("400 kHz"), Mean: q("0.26 A")}
	slopes := []string{"OnSlope", "OffSlope", "Duty", "FullRipple", "Boundary"}
	falls := expect.Table("current [A], left [%]\n0, 100\n2, 80\n5, 50")
	for _, test := range []struct {
		name    string
		value   units.Quantity
		call    func(x units.Quantity) (any, error)
		without []string
	}{
		{"Cycle, mean", light, func(x units.Quantity) (any, error) { in := cycle; in.Mean = x; return box(Cycle(in)) }, slopes},
		{"Cycle, on-voltage", units.Range(q("1 V"), q("18.7 V"), q("40 V")), func(x units.Quantity) (any, error) { in := cycle; in.OnVoltage = x; return box(Cycle(in)) }, []string{"OffSlope"}},
		{"Cycle, inductance", units.Tolerance(q("22 µH"), q("20 %")), func(x units.Quantity) (any, error) { in := cycle; in.Inductance = x; return box(Cycle(in)) }, []string{"Duty"}},
		// The mean cancels in what alternates, which has its spread, of no width.
		{"Cycle, forced", light, func(x units.Quantity) (any, error) {
			in := cycle
			in.Mean, in.Forced = x, true
			return box(Cycle(in))
		}, append(slopes, "Conduction", "OnShare", "OffShare", "OnTime", "OffTime", "Ripple")},
		{"InductorLoss", light, func(x units.Quantity) (any, error) {
			return box(InductorLoss(InductorLossInputs{Mean: q("1 A"), AlternatingRMS: x, Winding: q("60 mΩ"), WindingAC: q("0.3 Ω"), Core: q("20 mW")}))
		}, []string{"Direct", "Core"}},
		{"Edges", light, func(x units.Quantity) (any, error) {
			return box(Edges(EdgesInputs{Blocked: q("12 V"), RectifierDrop: q("0.4 V"), TurnOn: q("10 mA"), TurnOff: x, Frequency: q("1 MHz"), RiseTime: q("5 ns"), FallTime: q("5 ns"),
				NodeCapacitance: q("100 pF"), RecoveryCharge: q("5 nC"), GateCharge: q("5 nC"), DeadTime: q("20 ns"), BodyDiode: q("0.7 V")}))
		}, []string{"Node", "Recovery", "Gate"}},
		{"Saturation", light, func(x units.Quantity) (any, error) {
			in := cycle
			in.Mean = x
			return box(Saturation(SaturationInputs{Cycle: in, Curve: falls}))
		}, nil},
		{"CoreLoss", light, func(x units.Quantity) (any, error) {
			return box(CoreLoss(CoreLossInputs{Ripple: x, Frequency: q("400 kHz"), ReferenceLoss: q("60 mW"), ReferenceRipple: q("0.5 A"), ReferenceFrequency: q("500 kHz"), Alpha: 1.4, Beta: 2.3}))
		}, []string{"FrequencyRatio"}},
		{"SoftStart", units.Band(q("1.5 µA"), q("2 µA"), q("2.5 µA")), func(x units.Quantity) (any, error) {
			return box(SoftStart(SoftStartInputs{Capacitor: q("10 nF"), Current: x, Reference: q("0.8 V"), Output: q("5 V"), Bank: q("66 µF")}))
		}, nil},
		{"SoftStartCapacitor", units.Band(q("1.5 µA"), q("2 µA"), q("2.5 µA")), func(x units.Quantity) (any, error) {
			return box(SoftStartCapacitor(q("4 ms"), x, q("0.8 V")))
		}, nil},
		{"Lockout", units.Band(q("1.1 V"), q("1.2 V"), q("1.3 V")), func(x units.Quantity) (any, error) {
			return box(Lockout(LockoutInputs{Upper: q("365 kΩ"), Lower: q("88.7 kΩ"), Rising: x, Pull: q("1.2 µA"), Extra: q("3.4 µA")}))
		}, nil},
		{"LockoutDivider", units.Band(q("3 µA"), q("3.4 µA"), q("4 µA")), func(x units.Quantity) (any, error) {
			return box(LockoutDivider(LockoutDividerInputs{Start: q("5.75 V"), Stop: q("4.5 V"), Rising: q("1.2 V"), Pull: q("1.2 µA"), Extra: x}))
		}, []string{"Ratio"}},
		{"InputFilter", units.Tolerance(q("10 µF"), q("40 %")), func(x units.Quantity) (any, error) {
			return box(InputFilter(InputFilterInputs{Input: q("18 V"), Power: q("9 W"), Frequency: q("400 kHz"), Inductance: q("4.7 µH"), Capacitance: x, Damping: q("47 µF"), Resistance: q("0.5 Ω")}))
		}, []string{"NegativeResistance", "Resistance"}},
	} {
		expect.Spread(t, test.name, test.value, test.call, test.without...)
	}
}
