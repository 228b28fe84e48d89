package inverting

import (
	"fmt"
	"reflect"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"
)

// calls are all functions that take a stage, each with a stage of any form;
// those of the coupling capacitor refuse an inverting one.
var calls = []struct {
	name  string
	sepic bool // only
	call  func(s Stage) (any, error)
}{
	{"Duty", false, func(s Stage) (any, error) { return box(Duty(s)) }},
	{"Currents", false, func(s Stage) (any, error) { return box(Currents(s)) }},
	{"Inductors", true, func(s Stage) (any, error) { return box(Inductors(s)) }},
	{"Inductance", false, func(s Stage) (any, error) {
		s.Inductance, s.Second = units.Quantity{}, units.Quantity{}
		return box(Inductance(InductanceInputs{Stage: s, Ratio: q("30 %")}))
	}},
	{"CurrentLimit", false, func(s Stage) (any, error) {
		return box(CurrentLimit(CurrentLimitInputs{Stage: s, Limit: q("4 A"), Delay: q("80 ns"), Saturation: q("6 A")}))
	}},
	{"Stresses", false, func(s Stage) (any, error) {
		return box(Stresses(StressesInputs{Stage: s, Ringing: q("3 V"), Rating: q("60 V")}))
	}},
	{"Timing", false, func(s Stage) (any, error) {
		return box(Timing(TimingInputs{Stage: s, LeastOn: q("100 ns"), LeastOff: q("120 ns"), MostDuty: q("90 %")}))
	}},
	{"OutputRipple", false, func(s Stage) (any, error) {
		return box(OutputRipple(OutputRippleInputs{Stage: s, Capacitance: q("44 µF"), ESR: q("3 mΩ")}))
	}},
	{"OutputCapacitor", false, func(s Stage) (any, error) {
		return box(OutputCapacitor(OutputCapacitorInputs{Stage: s, Capacitive: q("20 mV"), Resistive: q("20 mV")}))
	}},
	{"InputRipple", false, func(s Stage) (any, error) {
		return box(InputRipple(InputRippleInputs{Stage: s, Capacitance: q("10 µF"), ESR: q("3 mΩ")}))
	}},
	{"InputCapacitor", false, func(s Stage) (any, error) {
		return box(InputCapacitor(InputCapacitorInputs{Stage: s, Capacitive: q("0.1 V"), Resistive: q("0.1 V")}))
	}},
	{"CouplingRipple", true, func(s Stage) (any, error) {
		return box(CouplingRipple(CouplingRippleInputs{Stage: s, Capacitance: q("10 µF"), ESR: q("5 mΩ")}))
	}},
	{"CouplingCapacitor", true, func(s Stage) (any, error) {
		return box(CouplingCapacitor(CouplingCapacitorInputs{Stage: s, Capacitive: q("0.3 V")}))
	}},
	{"CouplingResonance", true, func(s Stage) (any, error) {
		in := CouplingResonanceInputs{Stage: s, Capacitance: q("10 µF"), Damping: q("47 µF")}
		if s.Coupled {
			in.Leakage = q("0.3 µH")
		}
		return box(CouplingResonance(in))
	}},
	{"Losses", false, func(s Stage) (any, error) {
		in := LossesInputs{
			Stage: s, RiseTime: q("5 ns"), FallTime: q("8 ns"), NodeCapacitance: q("200 pF"), RecoveryCharge: q("5 nC"), GateCharge: q("4 nC"), DeadTime: q("20 ns"),
			BodyDiode: q("0.7 V"), DiodeLeakage: q("20 µA"), Quiescent: q("1 mA"), WindingAC: q("0.2 Ω"), Core: q("20 mW"), InputESR: q("3 mΩ"), OutputESR: q("2 mΩ"),
		}
		if s.SEPIC {
			in.CouplingESR = q("5 mΩ")
		}
		return box(Losses(in))
	}},
	{"RightHalfPlaneZero", false, func(s Stage) (any, error) { return box(RightHalfPlaneZero(RightHalfPlaneZeroInputs{Stage: s})) }},
	{"CurrentMode", false, func(s Stage) (any, error) {
		return box(CurrentMode(CurrentModeInputs{Stage: s, Capacitance: q("44 µF"), ESR: q("3 mΩ"), PowerStage: q("6 A/V"), Slope: q("2 A/µs")}))
	}},
	{"VoltageMode", false, func(s Stage) (any, error) {
		return box(VoltageMode(VoltageModeInputs{Stage: s, Capacitance: q("44 µF"), ESR: q("3 mΩ"), Ramp: q("1 V")}))
	}},
	{"LoadStep", false, func(s Stage) (any, error) {
		return box(LoadStep(LoadStepInputs{Stage: s, Step: q("15 mA"), Capacitance: q("44 µF"), ESR: q("3 mΩ")}))
	}},
	{"StepCapacitor", false, func(s Stage) (any, error) {
		return box(StepCapacitor(StepCapacitorInputs{Stage: s, Step: q("15 mA"), Undershoot: q("50 mV"), Overshoot: q("60 mV"), Crossover: q("2 kHz")}))
	}},
	{"Inrush", true, func(s Stage) (any, error) {
		in := InrushInputs{Stage: s, Capacitance: q("10 µF"), OutputCapacitance: q("100 µF"), Resistance: q("0.3 Ω")}
		if s.Coupled {
			in.Leakage = q("0.3 µH")
		}
		return box(Inrush(in))
	}},
}

// stages are the forms, each with each of its values spread in turn: input and
// load through the boundary of conduction.
func stages() map[string]Stage {
	forced := rail()
	forced.Forced = true
	return map[string]Stage{"inverting": rail(), "forced": forced, "SEPIC": sepic(), "coupled": coupled()}
}

// Every case of a value with spread is what the function gives of the exact
// value in it, on both sides of the boundary, and nothing on the way decides
// for all cases.
func TestSpreadIsKept(t *testing.T) {
	t.Parallel()
	for form, base := range stages() {
		for _, c := range calls {
			if c.sepic && !base.SEPIC {
				continue
			}
			for k := range reflect.TypeFor[Stage]().NumField() {
				field := reflect.TypeFor[Stage]().Field(k).Name
				nominal, ok := reflect.ValueOf(base).Field(k).Interface().(units.Quantity)
				if !ok || nominal.Same(units.Quantity{}) {
					continue
				}
				spread := units.Tolerance(nominal, q("20 %"))
				switch field {
				case "Load":
					spread = units.Range(q("20 mA"), q("0.2 A"), nominal)
				case "Input":
					spread = units.Range(q("8 V"), q("12 V"), q("32 V"))
				}
				name := fmt.Sprint(c.name, " of ", form, ", ", field)
				expect.Spread(t, name, spread, func(x units.Quantity) (any, error) {
					s := base
					reflect.ValueOf(&s).Elem().Field(k).Set(reflect.ValueOf(x))
					return c.call(s)
				}, "*")
			}
		}
	}
}

// So do the values that are not the stage's.
func TestSpreadOfTheRest(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name  string
		value units.Quantity
		call  func(x units.Quantity) (any, error)
	}{
		{"Lift, clamped in some cases", units.Range(q("0.1 µF"), q("1 µF"), q("10 µF")), func(x units.Quantity) (any, error) {
			return box(Lift(LiftInputs{Step: q("12 V"), Bypass: x, OutputCapacitance: q("47 µF"), Quiescent: q("1 mA"), LoadResistance: q("100 Ω"), Clamp: q("0.4 V")}))
		}},
		{"CurrentLimit", units.Band(q("2.5 A"), q("3.1 A"), q("3.7 A")), func(x units.Quantity) (any, error) {
			return box(CurrentLimit(CurrentLimitInputs{Stage: rail(), Limit: x, Delay: q("60 ns"), Saturation: q("4 A")}))
		}},
		{"CouplingResonance, leakage", units.Tolerance(q("0.3 µH"), q("50 %")), func(x units.Quantity) (any, error) {
			return box(CouplingResonance(CouplingResonanceInputs{Stage: coupled(), Capacitance: q("10 µF"), Leakage: x}))
		}},
		{"Inrush, limited by resistance in some cases", units.Range(q("10 mΩ"), q("1 Ω"), q("10 Ω")), func(x units.Quantity) (any, error) {
			return box(Inrush(InrushInputs{Stage: sepic(), Capacitance: q("10 µF"), OutputCapacitance: q("100 µF"), Resistance: x}))
		}},
		{"CurrentMode", units.Tolerance(q("44 µF"), q("40 %")), func(x units.Quantity) (any, error) {
			return box(CurrentMode(CurrentModeInputs{Stage: rail(), Capacitance: x, ESR: q("3 mΩ"), PowerStage: q("6 A/V")}))
		}},
		{"Duty, efficiency", units.Band(q("70 %"), q("80 %"), q("90 %")), func(x units.Quantity) (any, error) {
			return box(Duty(Stage{Input: q("12 V"), Output: q("-5 V"), Load: q("1 A"), Frequency: q("500 kHz"), Efficiency: x}))
		}},
		{"Timing, off-time decides in some cases", units.Range(q("10 ns"), q("0.1 µs"), q("0.4 µs")), func(x units.Quantity) (any, error) {
			return box(Timing(TimingInputs{Stage: rail(), LeastOn: q("100 ns"), LeastOff: x, MostDuty: q("90 %")}))
		}},
	} {
		expect.Spread(t, test.name, test.value, test.call, "*")
	}
}
