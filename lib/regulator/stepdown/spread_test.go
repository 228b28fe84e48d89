package stepdown

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
	input := func(x units.Quantity) Stage { s := lossy(); s.Input = x; return s }
	load := func(x units.Quantity) Stage { s := lossy(); s.Load = x; return s }
	inductance := func(x units.Quantity) Stage { s := lossy(); s.Inductance = x; return s }
	wide, light, coil := units.Range(q("8 V"), q("24 V"), q("32 V")), units.Range(q("20 mA"), q("0.4 A"), q("1.5 A")), units.Tolerance(q("22 µH"), q("20 %"))
	curve := expect.Table("current [A], left [%]\n0, 100\n1, 90\n5, 50")
	for _, test := range []struct {
		name    string
		value   units.Quantity
		call    func(x units.Quantity) (any, error)
		without []string
	}{
		{"Duty", wide, func(x units.Quantity) (any, error) { return box(Duty(input(x))) }, []string{"HighDrop", "LowDrop", "WindingDrop", "OffVoltage"}},
		{"Currents, input", wide, func(x units.Quantity) (any, error) { return box(Currents(input(x))) }, []string{"OffSlope"}},
		{"Currents, load", light, func(x units.Quantity) (any, error) { return box(Currents(load(x))) }, nil},
		{"Currents, inductance", coil, func(x units.Quantity) (any, error) { s := inductance(x); s.Load = q("0.26 A"); return box(Currents(s)) }, []string{"Duty"}},
		{"Currents, forced", light, func(x units.Quantity) (any, error) { s := load(x); s.Forced = true; return box(Currents(s)) }, []string{"Conduction"}},
		{"Inductance", wide, func(x units.Quantity) (any, error) {
			s := input(x)
			s.Inductance = units.Quantity{}
			return box(Inductance(InductanceInputs{Stage: s, Ratio: q("30 %")}))
		}, []string{"Ripple", "OffVoltage"}},
		{"OutputRipple", light, func(x units.Quantity) (any, error) {
			return box(OutputRipple(OutputRippleInputs{Stage: load(x), Capacitance: q("44 µF"), ESR: q("3 mΩ"), ESL: q("1 nH")}))
		}, nil},
		{"OutputCapacitor", light, func(x units.Quantity) (any, error) {
			return box(OutputCapacitor(OutputCapacitorInputs{Stage: load(x), Capacitive: q("10 mV"), Resistive: q("10 mV")}))
		}, nil},
		{"LoadStep", wide, func(x units.Quantity) (any, error) {
			return box(LoadStep(LoadStepInputs{Stage: input(x), Step: q("1.2 A"), Capacitance: q("44 µF"), ESR: q("30 mΩ"), Delay: q("1 µs"), MostDuty: q("95 %")}))
		}, []string{"FallSlope", "FallTime", "Overshoot"}},
		{"LoadStep, capacitance", units.Tolerance(q("300 µF"), q("60 %")), func(x units.Quantity) (any, error) {
			// τ is shorter than RiseTime in some cases and longer in others.
			return box(LoadStep(LoadStepInputs{Stage: lossy(), Step: q("1.2 A"), Capacitance: x, ESR: q("5 mΩ")}))
		}, []string{"RiseSlope", "FallSlope", "RiseTime", "FallTime"}},
		{"StepCapacitor", coil, func(x units.Quantity) (any, error) {
			return box(StepCapacitor(StepCapacitorInputs{Stage: inductance(x), Step: q("1.2 A"), Undershoot: q("0.1 V"), Overshoot: q("0.1 V")}))
		}, []string{"ESR"}},
		{"InputRipple", light, func(x units.Quantity) (any, error) {
			return box(InputRipple(InputRippleInputs{Stage: load(x), Capacitance: q("10 µF"), ESR: q("3 mΩ")}))
		}, nil},
		{"InputCapacitor", wide, func(x units.Quantity) (any, error) {
			return box(InputCapacitor(InputCapacitorInputs{Stage: input(x), Capacitive: q("0.1 V"), Resistive: q("0.1 V")}))
		}, nil},
		{"Losses", light, func(x units.Quantity) (any, error) {
			s := load(x)
			s.LowSwitch, s.Diode = units.Quantity{}, q("0.45 V")
			return box(Losses(LossesInputs{Stage: s, RiseTime: q("5 ns"), FallTime: q("5 ns"), NodeCapacitance: q("100 pF"), RecoveryCharge: q("5 nC"), GateCharge: q("5 nC"),
				DeadTime: q("20 ns"), BodyDiode: q("0.7 V"), DiodeLeakage: q("1 mA"), Quiescent: q("200 µA"), WindingAC: q("0.3 Ω"), Core: q("20 mW"), InputESR: q("3 mΩ"), OutputESR: q("3 mΩ")}))
		}, []string{"Node", "Recovery", "Gate", "Quiescent", "Core"}},
		{"Timing", light, func(x units.Quantity) (any, error) {
			return box(Timing(TimingInputs{Stage: load(x), LeastOn: q("100 ns"), LeastOff: q("150 ns")}))
		}, []string{"MostDuty"}},
		{"CurrentLimit", units.Band(q("2.5 A"), q("3.1 A"), q("3.7 A")), func(x units.Quantity) (any, error) {
			return box(CurrentLimit(CurrentLimitInputs{Stage: lossy(), Limit: x, Delay: q("60 ns"), Saturation: q("4 A")}))
		}, []string{"Peak", "Overrun"}},
		{"Bootstrap", units.Tolerance(q("400 kHz"), q("10 %")), func(x units.Quantity) (any, error) {
			return box(Bootstrap(BootstrapInputs{GateCharge: q("10 nC"), Leakage: q("100 µA"), Frequency: x, Droop: q("0.1 V"), Resistance: q("2 Ω")}))
		}, nil},
		{"VoltageMode, load", light, func(x units.Quantity) (any, error) {
			return box(VoltageMode(VoltageModeInputs{Stage: load(x), Capacitance: q("44 µF"), ESR: q("3 mΩ"), Ramp: q("2 V")}))
		}, []string{"ESRZero", "Plant.Frequency", "Plant.Zeros"}},
		{"VoltageMode, input", wide, func(x units.Quantity) (any, error) {
			return box(VoltageMode(VoltageModeInputs{Stage: input(x), Capacitance: q("44 µF"), ESR: q("3 mΩ"), RampShare: q("10 %")}))
		}, []string{"LoadResistance", "ESRZero", "Plant.Frequency", "Plant.Zeros"}},
		{"CurrentMode, load", light, func(x units.Quantity) (any, error) {
			return box(CurrentMode(CurrentModeInputs{Stage: load(x), Capacitance: q("110 µF"), ESR: q("1 mΩ"), PowerStage: q("12 A/V"), Slope: q("0.2 A/µs")}))
		}, []string{"ESRZero", "Plant.Frequency", "Plant.Zeros"}},
		{"CurrentMode, input", wide, func(x units.Quantity) (any, error) {
			return box(CurrentMode(CurrentModeInputs{Stage: input(x), Capacitance: q("110 µF"), ESR: q("1 mΩ"), PowerStage: q("12 A/V"), Slope: q("0.2 A/µs")}))
		}, []string{"LoadResistance", "ESRZero", "Plant.Frequency", "Plant.Zeros"}},
		{"Skipping, load", units.Range(q("1 mA"), q("0.2 A"), q("1.5 A")), func(x units.Quantity) (any, error) {
			return box(Skipping(SkippingInputs{Stage: load(x), LeastOn: q("250 ns"), LeastPeak: q("0.4 A"), Capacitance: q("44 µF"), ESR: q("3 mΩ")}))
		}, nil},
		{"Skipping, input", units.Range(q("8 V"), q("24 V"), q("60 V")), func(x units.Quantity) (any, error) {
			return box(Skipping(SkippingInputs{Stage: input(x), LeastOn: q("400 ns"), Capacitance: q("44 µF"), ESR: q("3 mΩ")}))
		}, []string{"ShortestOn"}},
		{"Saturation", light, func(x units.Quantity) (any, error) {
			return box(Saturation(SaturationInputs{Stage: load(x), Curve: curve}))
		}, nil},
		{"ShortCircuit, input", units.Range(q("6 V"), q("24 V"), q("60 V")), func(x units.Quantity) (any, error) {
			return box(ShortCircuit(ShortCircuitInputs{Stage: input(x), Limit: q("3 A"), LeastOn: q("150 ns"), Short: q("10 mΩ"), On: q("1 ms"), Off: q("20 ms")}))
		}, []string{"Frequency"}},
		{"ShortCircuit, foldback", units.Range(q("5 %"), q("50 %"), q("100 %")), func(x units.Quantity) (any, error) {
			return box(ShortCircuit(ShortCircuitInputs{Stage: lossy(), Limit: q("3 A"), LeastOn: q("150 ns"), Foldback: x, Remaining: q("80 %")}))
		}, []string{"MostShare"}},
	} {
		expect.Spread(t, test.name, test.value, test.call, test.without...)
	}
}

// The worst corner is found, not assumed: the capacitor at the input works
// hardest where the duty is a half, inside the range and at neither end.
func TestWorstCaseInsideTheRange(t *testing.T) {
	t.Parallel()
	study := units.NewStudy(units.StudyOptions{Boards: 20})
	stage := Stage{Input: study.Place("Vin", "Vin", units.Range(q("6 V"), q("12 V"), q("40 V"))), Output: q("5 V"), Load: q("2 A"), Frequency: q("400 kHz"), Inductance: q("1 mH")}
	r, err := InputRipple(InputRippleInputs{Stage: stage, Capacitance: q("10 µF")})
	_, high, ok := expect.Must(t, r, err).UsualRMS.Limits()
	if !ok {
		t.Fatal("no limits")
	}
	// I·√(D(1 − D)) is I/2 at a half, 10 V.
	expect.Near(t, "the largest", high, "1 A", 1e-3)
}
