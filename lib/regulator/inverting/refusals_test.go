package inverting

import (
	"math"
	"reflect"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// Every message of the package that is not argument's own, exactly, and for
// each function one argument that meets it.
func TestRefusals(t *testing.T) {
	t.Parallel()
	e := func(_ any, err error) error { return err }
	var none units.Quantity
	with := func(s Stage, change func(*Stage)) Stage { change(&s); return s }
	without := with(rail(), func(s *Stage) { s.Inductance = none })
	study := units.NewStudy(units.StudyOptions{Boards: 20})
	low := study.Place("Vin", "Vin", units.Range(q("1 V"), q("12 V"), q("24 V")))
	signs := study.Place("Vout", "Vout", units.Range(q("-5 V"), q("-5 V"), q("5 V")))
	for _, test := range []struct {
		name string
		err  error
		want string
	}{
		{"positive output", e(Duty(with(rail(), func(s *Stage) { s.Output = q("5 V") }))), "inverting.Duty: Output is 5 V; it must be below ground, 0 V: an inverting stage makes a negative output; write its minus sign, or set SEPIC for a positive one"},
		{"positive output in one case", e(Duty(with(rail(), func(s *Stage) { s.Output = signs }))), "inverting.Duty: Output is 5 V where Vout is 5 V; it must be below ground, 0 V: an inverting stage makes a negative output; write its minus sign, or set SEPIC for a positive one"},
		{"no output", e(Duty(with(rail(), func(s *Stage) { s.Output = q("0 V") }))), "inverting.Duty: Output is 0 V; it must be below ground, 0 V: an inverting stage makes a negative output; write its minus sign, or set SEPIC for a positive one"},
		{"negative SEPIC", e(Currents(with(sepic(), func(s *Stage) { s.Output = q("-12 V") }))), "inverting.Currents: Output is −12 V; it must be above ground, 0 V: a SEPIC makes a positive output; leave out SEPIC for a negative one"},
		{"second inductor", e(Currents(with(rail(), func(s *Stage) { s.Second = q("10 µH") }))), "inverting.Currents: Second, SecondWinding or Coupled is given, but an inverting stage has one inductor: leave them out, or set SEPIC"},
		{"second and coupled", e(Currents(with(sepic(), func(s *Stage) { s.Coupled = true }))), "inverting.Currents: Second is given and the inductors are Coupled; on one core both windings have one inductance: leave out Second, or Coupled"},
		{"two rectifiers", e(Currents(with(rail(), func(s *Stage) { s.Diode = q("0.5 V") }))), "inverting.Currents: both Diode and Rectifier are given; the current goes through one of them: leave out Diode for a synchronous rectifier, and give its body diode to Losses"},
		{"forced diode", e(Currents(with(sepic(), func(s *Stage) { s.Forced = true }))), "inverting.Currents: a stage with a Diode is Forced; a diode lets no current reverse: leave out Forced, or Diode"},
		{"low input", e(Duty(with(rail(), func(s *Stage) { s.Input = q("2 V") }))), "inverting.Duty: Input is 2 V; it must be above the least at which any duty reaches the output, 2.143 V: below it the drops eat more than a longer duty adds; raise the input or lower output, load or resistances"},
		{"low input in one case", e(Losses(LossesInputs{Stage: with(rail(), func(s *Stage) { s.Input = low })})), "inverting.Losses: Input is 1 V where Vin is 1 V; it must be above the least at which any duty reaches the output, 2.143 V: below it the drops eat more than a longer duty adds; raise the input or lower output, load or resistances"},
		{"a thousandfold", e(Duty(Stage{Input: q("4 mV"), Output: q("-5 V"), Load: q("1 A"), Frequency: q("1 MHz")})), "inverting.Duty: Input is 4 mV; it must be above a thousandth of the output, 5 mV: no regulator steps up so far; raise the input or lower the output"},
		{"no inductance", e(Currents(without)), "inverting.Currents: Inductance is not given, or is the bare number 0: write its inductance, such as 10 µH"},
		{"negative load", e(Duty(with(rail(), func(s *Stage) { s.Load = q("-1 A") }))), "inverting.Duty: Load is −1 A; it must not be below 0 A: check its sign and the formula it comes from"},
		{"winding of another kind", e(Duty(with(rail(), func(s *Stage) { s.Winding = q("1 V") }))), "inverting.Duty: Winding is 1 V; it must be a resistance: write it in Ω, such as 10 kΩ"},

		{"inductance given", e(Inductance(InductanceInputs{Stage: rail(), Ratio: q("30 %")})), "inverting.Inductance: Inductance is 15 µH, but this function finds it: leave it out, or use Currents to see what it makes"},
		{"ratio above two", e(Inductance(InductanceInputs{Stage: without, Ratio: q("2.5")})), "inverting.Inductance: Ratio is 2.5; it must not be above twice the current, 2: above that the current rests and the ratio means nothing; write a smaller ratio"},
		{"no coupling capacitor", e(Inductors(rail())), "inverting.Inductors: an inverting stage has neither a coupling capacitor nor a second inductor: set SEPIC, or use Currents"},
		{"its ripple", e(CouplingRipple(CouplingRippleInputs{Stage: rail(), Capacitance: q("1 µF")})), "inverting.CouplingRipple: an inverting stage has neither a coupling capacitor nor a second inductor: set SEPIC, or use Currents"},
		{"its size", e(CouplingCapacitor(CouplingCapacitorInputs{Stage: sepic()})), "inverting.CouplingCapacitor: Capacitive is not given, or is the bare number 0: write its voltage, such as 3.3 V"},
		{"its ESR", e(Losses(LossesInputs{Stage: rail(), CouplingESR: q("1 mΩ")})), "inverting.Losses: CouplingESR is given, but an inverting stage has no coupling capacitor: leave it out, or set SEPIC"},
		{"leakage without coupling", e(CouplingResonance(CouplingResonanceInputs{Stage: sepic(), Capacitance: q("10 µF"), Leakage: q("1 µH")})), "inverting.CouplingResonance: Leakage is given, but the inductors are not Coupled: leave it out, or set Coupled"},
		{"no leakage", e(Inrush(InrushInputs{Stage: coupled(), Capacitance: q("10 µF"), OutputCapacitance: q("10 µF")})), "inverting.Inrush: Leakage is not given, or is the bare number 0: write its inductance, such as 10 µH"},
		{"all leakage", e(CouplingResonance(CouplingResonanceInputs{Stage: coupled(), Capacitance: q("10 µF"), Leakage: q("33 µH")})), "inverting.CouplingResonance: Leakage is 33 µH; it must be below Inductance, 33 µH: such windings have nothing in common; write the inductance of one winding with the other shorted"},
		{"small coupling capacitor", e(CouplingResonance(CouplingResonanceInputs{Stage: sepic(), Capacitance: q("1 nF")})), "inverting.CouplingResonance: Resonance is 696.4 kHz; it must be below the switching frequency, 400 kHz: the coupling capacitor does not hold its voltage over a period; raise Capacitance"},
		{"small damping", e(CouplingResonance(CouplingResonanceInputs{Stage: sepic(), Capacitance: q("10 µF"), Damping: q("10 nF")})), "inverting.CouplingResonance: Damping/Capacitance is 0.001; it must not be below a hundredth, 0.01: so little does not damp; raise Damping, usually to four times Capacitance"},

		{"low rating", e(Stresses(StressesInputs{Stage: sepic(), Ringing: q("5 V"), Rating: q("16 V")})), "inverting.Stresses: Rating is 16 V; it must be above output, diode and ringing together, 17.45 V: no input is left; take a part that stands more, or lower the output"},
		{"on all the time", e(Timing(TimingInputs{Stage: rail(), LeastOn: q("2 µs")})), "inverting.Timing: LeastOn is 2 µs; it must be below a period, 2 µs: no time is left to switch off; lower the frequency"},
		{"off all the time", e(Timing(TimingInputs{Stage: rail(), LeastOn: q("1 µs"), LeastOff: q("2 µs")})), "inverting.Timing: LeastOff is 2 µs; it must be below a period, 2 µs: no time is left to switch on; lower the frequency"},
		{"duty of one", e(Timing(TimingInputs{Stage: rail(), LeastOn: q("1 µs"), MostDuty: q("100 %")})), "inverting.Timing: MostDuty is 100 %; it must be below all of the time, 1: the output gets its current in the off-time; write the limit of the regulator"},
		{"no saturation", e(CurrentLimit(CurrentLimitInputs{Stage: rail(), Limit: q("3 A")})), "inverting.CurrentLimit: Saturation is not given, or is the bare number 0: write its current, such as 1 mA"},
		{"step above the load", e(LoadStep(LoadStepInputs{Stage: rail(), Step: q("1 A"), Capacitance: q("44 µF")})), "inverting.LoadStep: Step is 1 A; it must not be above the load that it ends at, 800 mA: give the larger of the two loads as Load"},
		{"fast loop", e(StepCapacitor(StepCapacitorInputs{Stage: rail(), Step: q("0.5 A"), Undershoot: q("0.1 V"), Overshoot: q("0.1 V"), Crossover: q("200 kHz")})), "inverting.StepCapacitor: Crossover is 200 kHz; it must be below the zero in the right half plane, 108.3 kHz: no loop is stable there; leave Crossover out for the highest that is sensible"},
		{"no undershoot", e(StepCapacitor(StepCapacitorInputs{Stage: rail(), Step: q("0.5 A"), Overshoot: q("0.1 V")})), "inverting.StepCapacitor: Undershoot is not given, or is the bare number 0: write its voltage, such as 3.3 V"},
		{"share of the zero", e(RightHalfPlaneZero(RightHalfPlaneZeroInputs{Stage: rail(), ZeroShare: q("120 %")})), "inverting.RightHalfPlaneZero: ZeroShare is 120 %; it must be below the zero itself, 1: no loop crosses over there; write a share such as 20 %"},
		{"share of the frequency", e(RightHalfPlaneZero(RightHalfPlaneZeroInputs{Stage: rail(), FrequencyShare: q("120 %")})), "inverting.RightHalfPlaneZero: FrequencyShare is 120 %; it must be below the switching frequency itself, 1: no loop crosses over there; write a share such as 10 %"},
		{"slope too small", e(CurrentMode(CurrentModeInputs{Stage: with(rail(), func(s *Stage) { s.Input = q("4 V") }), Capacitance: q("44 µF"), PowerStage: q("6 A/V")})), "inverting.CurrentMode: Slope is 0 A/s; it must be above half of what the falling slope is steeper than the rising one, 57.12 kA/s: the current would alternate from period to period; raise Slope or Inductance, or keep the duty below a half"},
		{"no ramp", e(VoltageMode(VoltageModeInputs{Stage: rail(), Capacitance: q("44 µF")})), "inverting.VoltageMode: Ramp is not given, or is the bare number 0: write its voltage, such as 3.3 V"},
		{"large limit", e(CurrentLimit(CurrentLimitInputs{Stage: rail(), Limit: q("40 A"), Saturation: q("50 A")})), "inverting.CurrentLimit: what Limit drops in switch and winding is 8.4 V; it must be below half the input, 6 V: with so much lost more current brings no more load; lower Limit or the resistances"},
		{"efficiency and a part", e(Duty(with(rail(), func(s *Stage) { s.Efficiency = q("80 %") }))), "inverting.Duty: Efficiency is given beside a resistance or the diode; it stands in place of them all: leave out Efficiency, or the others"},
		{"efficiency above one", e(Duty(Stage{Input: q("12 V"), Output: q("-5 V"), Load: q("1 A"), Frequency: q("1 MHz"), Efficiency: q("120 %")})), "inverting.Duty: Efficiency is 120 %; it must not be above that of a stage without loss, 1: write a share of the input power, such as 85 %"},
		{"no load at the capacitor", e(OutputCapacitor(OutputCapacitorInputs{Stage: with(rail(), func(s *Stage) { s.Load = q("0 A") }), Capacitive: q("1 mV"), Resistive: q("1 mV")})), "inverting.OutputCapacitor: Load is 0 A; it must be above 0 A: write its current, such as 1 mA"},
		{"no load and no zero", e(RightHalfPlaneZero(RightHalfPlaneZeroInputs{Stage: with(rail(), func(s *Stage) { s.Load = q("0 A") })})), "inverting.RightHalfPlaneZero: Load is 0 A; it must be above 0 A: write its current, such as 1 mA"},
		{"no capacitance", e(OutputRipple(OutputRippleInputs{Stage: rail()})), "inverting.OutputRipple: Capacitance is not given, or is the bare number 0: write its capacitance, such as 100 nF"},
		{"negative ESR", e(InputRipple(InputRippleInputs{Stage: rail(), Capacitance: q("1 µF"), ESR: q("-1 mΩ")})), "inverting.InputRipple: ESR is −1 mΩ; it must not be below 0 Ω: check its sign and the formula it comes from"},
		{"no input ripple", e(InputCapacitor(InputCapacitorInputs{Stage: rail(), Resistive: q("1 mV")})), "inverting.InputCapacitor: Capacitive is not given, or is the bare number 0: write its voltage, such as 3.3 V"},
		{"amplifier's gain", e(CurrentMode(CurrentModeInputs{Stage: rail(), Capacitance: q("44 µF"), PowerStage: q("6 A")})), "inverting.CurrentMode: PowerStage is 6 A; it must be a transconductance: write it in S, such as 350 µA/V"},
		{"negative charge", e(Losses(LossesInputs{Stage: rail(), GateCharge: q("-1 nC")})), "inverting.Losses: GateCharge is −1 nC; it must not be below 0 C: check its sign and the formula it comes from"},
		{"no bypass", e(Lift(LiftInputs{Step: q("12 V"), OutputCapacitance: q("47 µF")})), "inverting.Lift: Bypass is not given, or is the bare number 0: write its capacitance, such as 100 nF"},
	} {
		expect.Message(t, test.name, test.err, test.want)
	}
}

// Whatever the arguments, no function panics, and a result without an error
// holds finite numbers only.
func TestNothingInfiniteLeaves(t *testing.T) {
	t.Parallel()
	unit := map[string]string{
		"LiftInputs.Step": "V",
		"Input":           "V", "Output": "V", "Load": "A", "Frequency": "Hz", "Inductance": "H", "Switch": "Ω", "Rectifier": "Ω", "Diode": "V", "Winding": "Ω", "Second": "H", "SecondWinding": "Ω",
		"Ratio": "", "Capacitance": "F", "ESR": "Ω", "Capacitive": "V", "Resistive": "V", "Step": "A", "Delay": "s", "MostDuty": "", "Leakage": "H", "Damping": "F",
		"RiseTime": "s", "FallTime": "s", "NodeCapacitance": "F", "RecoveryCharge": "C", "GateCharge": "C", "GateSupply": "V", "DeadTime": "s", "BodyDiode": "V", "DiodeLeakage": "A",
		"Quiescent": "A", "WindingAC": "Ω", "Core": "W", "InputESR": "Ω", "OutputESR": "Ω", "CouplingESR": "Ω", "LeastOn": "s", "LeastOff": "s", "Limit": "A", "Saturation": "A",
		"Ringing": "V", "Rating": "V", "Crossover": "Hz", "PowerStage": "S", "Slope": "A/s", "Ramp": "V", "Undershoot": "V", "Overshoot": "V", "Efficiency": "", "ZeroShare": "", "FrequencyShare": "", "OutputCapacitance": "F", "Resistance": "Ω", "Bypass": "F", "LoadResistance": "Ω", "Clamp": "V",
	}
	rapid.Check(t, func(t *rapid.T) {
		draw, mayWork := expect.Manner(t)
		filler := expect.Filler{Units: unit, Draw: draw}
		for _, f := range []any{
			Duty, Currents, Inductors, Inductance, OutputRipple, OutputCapacitor, InputRipple, InputCapacitor, CouplingRipple, CouplingCapacitor, CouplingResonance,
			Losses, Timing, CurrentLimit, Stresses, RightHalfPlaneZero, CurrentMode, VoltageMode, LoadStep, StepCapacitor, Inrush, Lift,
		} {
			filler.Call(t, f, func(in reflect.Value) {
				p := expect.Part[Stage](in)
				if p == nil || !mayWork {
					return
				}
				// What works nearly always, but for the sizes.
				var none units.Quantity
				p.Diode, p.Switch, p.Winding, p.SecondWinding, p.Efficiency = none, none, none, none, none
				if p.Output.Dim() == q("1 V").Dim() {
					p.Input = p.Output.Mul(units.Number(math.Pow(10, rapid.Float64Range(-2.9, 28).Draw(t, "ratio"))))
				}
				if p.SEPIC = p.SEPIC || p.Coupled; !p.SEPIC {
					p.Second = none
					if p.Output.Dim() == q("1 V").Dim() {
						p.Output = p.Output.Neg()
					}
				} else if p.Coupled {
					p.Second = none
				}
				if in.Type() == reflect.TypeFor[InductanceInputs]() {
					p.Inductance, p.Second = none, none
				}
			})
		}
	})
}
