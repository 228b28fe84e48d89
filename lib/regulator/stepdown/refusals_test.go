package stepdown

import (
	"reflect"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/table"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// Every message of the package that is not argument's own, exactly, and for
// each function one argument that meets it.
func TestRefusals(t *testing.T) {
	t.Parallel()
	e := func(_ any, err error) error { return err }
	var none units.Quantity
	stage := func(change func(*Stage)) Stage { s := lossy(); change(&s); return s }
	without := stage(func(s *Stage) { s.Inductance = none })
	step := LoadStepInputs{Stage: lossy(), Step: q("1.2 A"), Capacitance: q("44 µF")}
	stepWith := func(change func(*LoadStepInputs)) error { in := step; change(&in); return e(LoadStep(in)) }
	volts := expect.Table("bias [V], left [%]\n0, 100\n5, 50")
	study := units.NewStudy(units.StudyOptions{Boards: 20})
	low := study.Place("Vin", "Vin", units.Range(q("4.5 V"), q("12 V"), q("24 V")))
	for _, test := range []struct {
		name string
		err  error
		want string
	}{
		{"input below output", e(Duty(stage(func(s *Stage) { s.Input = q("4 V") }))), "stepdown.Duty: Input is 4 V; it must be above the output and the drops in switch and winding, 5.315 V: a step-down regulator cannot reach the output; raise the input or lower output, load or resistances"},
		{"input below output in one case", e(Currents(stage(func(s *Stage) { s.Input = low }))), "stepdown.Currents: Input is 4.5 V where Vin is 4.5 V; it must be above the output and the drops in switch and winding, 5.315 V: a step-down regulator cannot reach the output; raise the input or lower output, load or resistances"},
		{"input at the output", e(Duty(Stage{Input: q("5 V"), Output: q("5 V"), Load: q("1 A"), Frequency: q("400 kHz")})), "stepdown.Duty: Input is 5 V; it must be above the output and the drops in switch and winding, 5 V: a step-down regulator cannot reach the output; raise the input or lower output, load or resistances"},
		{"two rectifiers", e(Currents(stage(func(s *Stage) { s.Diode = q("0.5 V") }))), "stepdown.Currents: both Diode and LowSwitch are given; the current falls through one of them: leave out Diode for a synchronous rectifier, and give its body diode to Losses"},
		{"forced diode", e(Currents(stage(func(s *Stage) { s.LowSwitch, s.Diode, s.Forced = none, q("0.5 V"), true }))), "stepdown.Currents: a stage with a Diode is Forced; a diode lets no current reverse: leave out Forced, or Diode"},
		{"no inductance", e(Currents(without)), "stepdown.Currents: Inductance is not given, or is the bare number 0: write its inductance, such as 10 µH"},
		{"no frequency", e(Duty(stage(func(s *Stage) { s.Frequency = none }))), "stepdown.Duty: Frequency is not given, or is the bare number 0: write its frequency, such as 100 kHz"},
		{"negative load", e(Duty(stage(func(s *Stage) { s.Load = q("-1 A") }))), "stepdown.Duty: Load is −1 A; it must not be below 0 A: check its sign and the formula it comes from"},
		{"negative resistance", e(Duty(stage(func(s *Stage) { s.HighSwitch = q("-1 Ω") }))), "stepdown.Duty: HighSwitch is −1 Ω; it must not be below 0 Ω: check its sign and the formula it comes from"},
		{"winding of another kind", e(Duty(stage(func(s *Stage) { s.Winding = q("1 V") }))), "stepdown.Duty: Winding is 1 V; it must be a resistance: write it in Ω, such as 10 kΩ"},

		{"inductance given", e(Inductance(InductanceInputs{Stage: lossy(), Ratio: q("30 %")})), "stepdown.Inductance: Inductance is 22 µH, but this function finds it: leave it out, or use Currents to see what it makes"},
		{"no ratio", e(Inductance(InductanceInputs{Stage: without})), "stepdown.Inductance: Ratio is not given, or is the bare number 0: write its share, such as 60 %"},
		{"ratio above two", e(Inductance(InductanceInputs{Stage: without, Ratio: q("2.5")})), "stepdown.Inductance: Ratio is 2.5; it must not be above twice the load, 2: above that the current rests and the ratio means nothing; write a smaller ratio"},

		{"no capacitance", e(OutputRipple(OutputRippleInputs{Stage: lossy()})), "stepdown.OutputRipple: Capacitance is not given, or is the bare number 0: write its capacitance, such as 100 nF"},
		{"no load at the capacitor", e(OutputCapacitor(OutputCapacitorInputs{Stage: stage(func(s *Stage) { s.Load = q("0 A") }), Capacitive: q("1 mV"), Resistive: q("1 mV")})), "stepdown.OutputCapacitor: Load is 0 A; it must be above 0 A: write its current, such as 1 mA"},
		{"no input ripple", e(InputCapacitor(InputCapacitorInputs{Stage: lossy(), Resistive: q("1 mV")})), "stepdown.InputCapacitor: Capacitive is not given, or is the bare number 0: write its voltage, such as 3.3 V"},
		{"negative ESR", e(InputRipple(InputRippleInputs{Stage: lossy(), Capacitance: q("1 µF"), ESR: q("-1 mΩ")})), "stepdown.InputRipple: ESR is −1 mΩ; it must not be below 0 Ω: check its sign and the formula it comes from"},

		{"no step", stepWith(func(in *LoadStepInputs) { in.Step = none }), "stepdown.LoadStep: Step is not given, or is the bare number 0: write its current, such as 1 mA"},
		{"duty limit above one", stepWith(func(in *LoadStepInputs) { in.MostDuty = q("1.1") }), "stepdown.LoadStep: MostDuty is 1.1; it must not be above all of the time, 1: write a smaller share"},
		{"duty limit too low", stepWith(func(in *LoadStepInputs) { in.MostDuty = q("20 %") }), "stepdown.LoadStep: MostDuty is 20 %; it must be above the duty of the stage, 0.2185: at its limit the regulator cannot raise the current; raise the input or the limit, or lower the output"},
		{"no overshoot", e(StepCapacitor(StepCapacitorInputs{Stage: lossy(), Step: q("1 A"), Undershoot: q("0.1 V")})), "stepdown.StepCapacitor: Overshoot is not given, or is the bare number 0: write its voltage, such as 3.3 V"},

		{"losses at no load", e(Losses(LossesInputs{Stage: stage(func(s *Stage) { s.Load = q("0 A") })})), "stepdown.Losses: Load is 0 A; it must be above 0 A: write its current, such as 1 mA"},
		{"negative charge", e(Losses(LossesInputs{Stage: lossy(), GateCharge: q("-1 nC")})), "stepdown.Losses: GateCharge is −1 nC; it must not be below 0 C: check its sign and the formula it comes from"},
		{"no gate supply", e(Losses(LossesInputs{Stage: lossy(), GateSupply: q("0 V")})), "stepdown.Losses: GateSupply is 0 V; it must be above 0 V: write its voltage, such as 3.3 V"},

		{"no least on-time", e(Timing(TimingInputs{Stage: lossy()})), "stepdown.Timing: LeastOn is not given, or is the bare number 0: write its time, such as 10 µs"},
		{"off all the time", e(Timing(TimingInputs{Stage: lossy(), LeastOn: q("100 ns"), LeastOff: q("3 µs")})), "stepdown.Timing: LeastOff is 3 µs; it must be below a period, 2.5 µs: no time is left to switch on; lower the frequency"},
		{"no saturation", e(CurrentLimit(CurrentLimitInputs{Stage: lossy(), Limit: q("3 A")})), "stepdown.CurrentLimit: Saturation is not given, or is the bare number 0: write its current, such as 1 mA"},
		{"no gate charge", e(Bootstrap(BootstrapInputs{Frequency: q("400 kHz"), Droop: q("0.1 V")})), "stepdown.Bootstrap: GateCharge is not given, or is the bare number 0: write its charge, such as 5 nC"},

		{"no ramp", e(VoltageMode(VoltageModeInputs{Stage: lossy(), Capacitance: q("44 µF")})), "stepdown.VoltageMode: of Ramp and RampShare one says how far the control voltage goes: give Ramp in V for a fixed ramp, or RampShare for one that follows the input, such as 10 %"},
		{"current that alternates", e(CurrentMode(CurrentModeInputs{Stage: stage(func(s *Stage) { s.Input = q("8 V") }), Capacitance: q("44 µF"), PowerStage: q("5 S")})), "stepdown.CurrentMode: Slope is 0 A/s; it must be above the least at which the current is steady, 57.73 kA/s: raise Slope or Inductance, or lower the duty"},
		{"forced skipping", e(Skipping(SkippingInputs{Stage: stage(func(s *Stage) { s.Forced = true }), LeastOn: q("100 ns"), Capacitance: q("44 µF")})), "stepdown.Skipping: the stage is Forced; its current reverses at light load and no pulse is skipped there: leave out Forced, or ask Timing for the highest input"},
		{"nothing to skip", e(Skipping(SkippingInputs{Stage: lossy(), Capacitance: q("44 µF")})), "stepdown.Skipping: neither LeastOn nor LeastPeak is given; one of them makes the smallest pulse: give the shortest on-time, such as 110 ns, or the least peak current, such as 0.4 A"},
		{"curve of another kind", e(Saturation(SaturationInputs{Stage: lossy(), Curve: volts})), "stepdown.Saturation: Curve: column 1 of the table (bias) is in V; it must be in A, or in another unit of that kind"},
		{"half a hiccup", e(ShortCircuit(ShortCircuitInputs{Stage: lossy(), Limit: q("3 A"), LeastOn: q("100 ns"), On: q("1 ms")})), "stepdown.ShortCircuit: of On and Off one is given; a hiccup has both: give the other, or leave out both"},
		{"nothing that stops the current", e(ShortCircuit(ShortCircuitInputs{Stage: Stage{Input: q("24 V"), Output: q("5 V"), Frequency: q("400 kHz"), Inductance: q("22 µH"), Diode: q("0.5 V")}, Limit: q("3 A"), LeastOn: q("100 ns")})), "stepdown.ShortCircuit: the resistance of HighSwitch, LowSwitch, Winding and Short is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ"},
		{"a long pulse", e(ShortCircuit(ShortCircuitInputs{Stage: lossy(), Limit: q("3 A"), LeastOn: q("3 µs")})), "stepdown.ShortCircuit: LeastOn is 3 µs; it must be below a period, 2.5 µs: the high switch would never open; lower the frequency"},
	} {
		expect.Message(t, test.name, test.err, test.want)
	}
}

// Whatever the arguments, no function panics, and a result without an error
// holds finite numbers only.
func TestNothingInfiniteLeaves(t *testing.T) {
	t.Parallel()
	curve := expect.Table("current [A], inductance [µH]\n0, 22\n2, 17\n100, 11")
	odd := expect.Table("current [V], inductance [µH]\n1, 22\n5, -11")
	unit := map[string]string{
		"Input": "V", "Output": "V", "Load": "A", "Frequency": "Hz", "Inductance": "H", "HighSwitch": "Ω", "LowSwitch": "Ω", "Diode": "V", "Winding": "Ω",
		"Ratio": "", "Capacitance": "F", "ESR": "Ω", "ESL": "H", "Capacitive": "V", "Resistive": "V", "Step": "A", "Delay": "s", "MostDuty": "",
		"Undershoot": "V", "Overshoot": "V", "RiseTime": "s", "FallTime": "s", "NodeCapacitance": "F", "RecoveryCharge": "C", "GateCharge": "C",
		"GateSupply": "V", "DeadTime": "s", "BodyDiode": "V", "DiodeLeakage": "A", "Quiescent": "A", "WindingAC": "Ω", "Core": "W", "InputESR": "Ω", "OutputESR": "Ω",
		"LeastOn": "s", "LeastOff": "s", "Limit": "A", "Saturation": "A",
		"Capacitor": "F", "Reference": "V", "Leakage": "A", "Droop": "V", "Resistance": "Ω",
		"Amplifier": "S", "PowerStage": "S", "Crossover": "Hz", "Resistor": "Ω", "HighCapacitor": "F", "Quality": "", "LeastPeak": "A", "Foldback": "", "Remaining": "", "Short": "Ω", "On": "s", "Off": "s", "Ramp": "V", "RampShare": "", "Slope": "A/s",
	}
	rapid.Check(t, func(t *rapid.T) {
		draw, mayWork := expect.Manner(t)
		filler := expect.Filler{Units: unit, Draw: draw, Others: []any{[]table.Table{{}, curve, odd}}}
		for _, f := range []any{
			Duty, Currents, Inductance, OutputRipple, OutputCapacitor, LoadStep, StepCapacitor, InputRipple, InputCapacitor,
			Losses, Timing, CurrentLimit, Bootstrap,
			VoltageMode, CurrentMode, Skipping, Saturation, ShortCircuit,
		} {
			filler.Call(t, f, func(in reflect.Value) {
				p := expect.Part[Stage](in)
				if p == nil || !mayWork {
					return
				}
				var none units.Quantity
				p.Diode, p.HighSwitch, p.Winding = none, none, none
				if in.Type() == reflect.TypeFor[InductanceInputs]() {
					p.Inductance = none
				}
			})
		}
	})
}
