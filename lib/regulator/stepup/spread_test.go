package stepup

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
	var none units.Quantity
	input := func(x units.Quantity) Stage { s := lossy(); s.Input = x; return s }
	load := func(x units.Quantity) Stage { s := lossy(); s.Load = x; return s }
	inductance := func(x units.Quantity) Stage { s := lossy(); s.Inductance = x; return s }
	diode := func(s Stage) Stage { s.Rectifier, s.Diode = none, q("0.4 V"); return s }
	wide, light, coil := units.Range(q("3 V"), q("3.7 V"), q("11 V")), units.Range(q("5 mA"), q("0.1 A"), q("0.25 A")), units.Tolerance(q("6.8 µH"), q("20 %"))
	falls := expect.Table("current [A], left [%]\n0, 100\n2, 80\n5, 50")
	for _, test := range []struct {
		name    string
		value   units.Quantity
		call    func(x units.Quantity) (any, error)
		without []string
	}{
		{"Duty", wide, func(x units.Quantity) (any, error) { return box(Duty(input(x))) }, nil},
		// What is no resistance at all drops nothing, with a spread of no width.
		{"Duty, efficiency", units.Band(q("70 %"), q("80 %"), q("90 %")), func(x units.Quantity) (any, error) {
			return box(Duty(Stage{Input: q("5 V"), Output: q("12 V"), Load: q("0.1 A"), Frequency: q("1 MHz"), Efficiency: x}))
		}, []string{"Ideal"}},
		{"Currents, input", wide, func(x units.Quantity) (any, error) { return box(Currents(input(x))) }, []string{"RectifierAverage"}},
		{"Currents, load", light, func(x units.Quantity) (any, error) { return box(Currents(load(x))) }, nil},
		{"Currents, inductance", coil, func(x units.Quantity) (any, error) { s := inductance(x); s.Load = q("0.06 A"); return box(Currents(s)) }, []string{"Duty", "Mean", "RectifierAverage"}},
		{"Currents, forced", light, func(x units.Quantity) (any, error) { s := load(x); s.Forced = true; return box(Currents(s)) }, []string{"Conduction"}},
		{"Inductance", wide, func(x units.Quantity) (any, error) {
			s := input(x)
			s.Inductance = none
			return box(Inductance(InductanceInputs{Stage: s, Ratio: q("30 %")}))
		}, nil},
		{"OutputRipple", light, func(x units.Quantity) (any, error) {
			return box(OutputRipple(OutputRippleInputs{Stage: load(x), Capacitance: q("22 µF"), ESR: q("3 mΩ")}))
		}, nil},
		{"OutputCapacitor", wide, func(x units.Quantity) (any, error) {
			return box(OutputCapacitor(OutputCapacitorInputs{Stage: input(x), Capacitive: q("10 mV"), Resistive: q("10 mV")}))
		}, nil},
		{"InputRipple", light, func(x units.Quantity) (any, error) {
			return box(InputRipple(InputRippleInputs{Stage: load(x), Capacitance: q("10 µF"), ESR: q("3 mΩ")}))
		}, nil},
		{"InputCapacitor", wide, func(x units.Quantity) (any, error) {
			return box(InputCapacitor(InputCapacitorInputs{Stage: input(x), Capacitive: q("0.1 V"), Resistive: q("0.1 V")}))
		}, nil},
		{"LoadStep", units.Range(q("0.1 A"), q("0.2 A"), q("0.25 A")), func(x units.Quantity) (any, error) {
			return box(LoadStep(LoadStepInputs{Stage: load(x), Step: q("0.1 A"), Capacitance: q("22 µF"), ESR: q("5 mΩ")}))
		}, []string{"Jump"}},
		{"LoadStep, step", units.Range(q("1 mA"), q("0.1 A"), q("0.25 A")), func(x units.Quantity) (any, error) {
			// Whether the loop or the inductor's energy decides changes on the way.
			return box(LoadStep(LoadStepInputs{Stage: lossy(), Step: x, Capacitance: q("22 µF"), Crossover: q("14 kHz")}))
		}, []string{"Zero", "Crossover"}},
		{"StepCapacitor", wide, func(x units.Quantity) (any, error) {
			return box(StepCapacitor(StepCapacitorInputs{Stage: input(x), Step: q("0.1 A"), Undershoot: q("0.1 V"), Overshoot: q("0.1 V")}))
		}, []string{"ESR"}},
		{"Losses", light, func(x units.Quantity) (any, error) {
			return box(Losses(LossesInputs{Stage: diode(load(x)), RiseTime: q("5 ns"), FallTime: q("5 ns"), NodeCapacitance: q("100 pF"), RecoveryCharge: q("5 nC"), GateCharge: q("5 nC"),
				DeadTime: q("20 ns"), BodyDiode: q("0.7 V"), DiodeLeakage: q("1 mA"), Quiescent: q("200 µA"), WindingAC: q("0.3 Ω"), Core: q("20 mW"), InputESR: q("3 mΩ"), OutputESR: q("3 mΩ")}))
		}, []string{"Node", "Recovery", "Gate", "Quiescent", "Core"}},
		{"Timing", light, func(x units.Quantity) (any, error) {
			return box(Timing(TimingInputs{Stage: load(x), LeastOn: q("100 ns"), LeastOff: q("120 ns"), MostDuty: q("90 %")}))
		}, []string{"MostDuty"}},
		{"Timing, duty", units.Band(q("80 %"), q("90 %"), q("99.9 %")), func(x units.Quantity) (any, error) {
			// At the longest, more duty brings less.
			return box(Timing(TimingInputs{Stage: lossy(), LeastOn: q("100 ns"), MostDuty: x}))
		}, []string{"Duty", "OnTime", "OnMargin", "OffTime", "OffMargin", "MostInput", "LightOn", "LightSpare"}},
		{"CurrentLimit", units.Band(q("0.2 A"), q("1.6 A"), q("3 A")), func(x units.Quantity) (any, error) {
			return box(CurrentLimit(CurrentLimitInputs{Stage: lossy(), Limit: x, Delay: q("60 ns"), Saturation: q("4 A")}))
		}, []string{"Peak", "Overrun"}},
		{"CurrentLimit, input", wide, func(x units.Quantity) (any, error) {
			return box(CurrentLimit(CurrentLimitInputs{Stage: diode(input(x)), Limit: q("1.6 A"), Delay: q("60 ns"), Saturation: q("4 A")}))
		}, []string{"LeastInput"}},
		{"Saturation", light, func(x units.Quantity) (any, error) {
			return box(Saturation(SaturationInputs{Stage: load(x), Curve: falls}))
		}, nil},
		{"RightHalfPlaneZero", light, func(x units.Quantity) (any, error) {
			return box(RightHalfPlaneZero(RightHalfPlaneZeroInputs{Stage: load(x), ZeroShare: q("25 %"), FrequencyShare: q("5 %")}))
		}, []string{"OfFrequency"}},
		{"Rectifier", light, func(x units.Quantity) (any, error) {
			return box(Rectifier(RectifierInputs{Stage: load(x), Ringing: q("30 %"), Rating: q("20 V"), Leakage: q("1 mA")}))
		}, []string{"Reverse", "ReverseMargin"}},
		{"Inrush", units.Range(q("10 mΩ"), q("0.3 Ω"), q("5 Ω")), func(x units.Quantity) (any, error) {
			return box(Inrush(InrushInputs{Input: q("4.2 V"), Diode: q("0.4 V"), Inductance: q("6.8 µH"), Capacitance: q("22 µF"), Resistance: x}))
		}, []string{"Step", "Characteristic", "Settled", "UndampedPeak", "UndampedOutput"}},
		{"CurrentMode", light, func(x units.Quantity) (any, error) {
			return box(CurrentMode(CurrentModeInputs{Stage: load(x), Capacitance: q("22 µF"), ESR: q("3 mΩ"), PowerStage: q("10 A/V"), Slope: q("0.6 A/µs")}))
		}, []string{"ESRZero", "Plant.Frequency", "Plant.Zeros"}},
		{"VoltageMode", wide, func(x units.Quantity) (any, error) {
			return box(VoltageMode(VoltageModeInputs{Stage: input(x), Capacitance: q("22 µF"), ESR: q("3 mΩ"), Ramp: q("1 V")}))
		}, []string{"LoadResistance", "ESRZero", "Plant.Frequency", "Plant.Zeros"}},
	} {
		expect.Spread(t, test.name, test.value, test.call, test.without...)
	}
}

// The worst corner is found, not assumed: the inductance for a ripple ratio is
// largest where the input is two thirds of the output, inside the range.
func TestWorstCaseInsideTheRange(t *testing.T) {
	t.Parallel()
	study := units.NewStudy(units.StudyOptions{Boards: 20})
	stage := Stage{Input: study.Place("Vin", "Vin", units.Range(q("3 V"), q("8 V"), q("11 V"))), Output: q("12 V"), Load: q("0.5 A"), Frequency: q("1 MHz")}
	l, err := Inductance(InductanceInputs{Stage: stage, Ratio: q("40 %")})
	_, high, ok := expect.Must(t, l, err).Inductance.Limits()
	if !ok {
		t.Fatal("no limits")
	}
	// Vin² · (Vout − Vin)/(ratio · load · f · Vout²) at 8 V: 64 · 4/(0.4 · 0.5 · 1 MHz · 144).
	expect.Near(t, "the largest", high, "8.88888889 µH", 1e-3)
}
