package stepup

import (
	"math"
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
	light := stage(func(s *Stage) { s.Load = q("0 A") })
	step := LoadStepInputs{Stage: lossy(), Step: q("0.1 A"), Capacitance: q("22 µF")}
	stepWith := func(change func(*LoadStepInputs)) error { in := step; change(&in); return e(LoadStep(in)) }
	plant := CurrentModeInputs{Stage: lossy(), Capacitance: q("22 µF"), PowerStage: q("10 A/V"), Slope: q("0.6 A/µs")}
	plantWith := func(change func(*CurrentModeInputs)) error {
		in := plant
		change(&in)
		return e(CurrentMode(in))
	}
	timing := TimingInputs{Stage: lossy(), LeastOn: q("100 ns"), LeastOff: q("100 ns")}
	timingWith := func(change func(*TimingInputs)) error { in := timing; change(&in); return e(Timing(in)) }
	study := units.NewStudy(units.StudyOptions{Boards: 20})
	high := study.Place("Vin", "Vin", units.Range(q("4.5 V"), q("5 V"), q("13 V")))
	for _, test := range []struct {
		name string
		err  error
		want string
	}{
		{"input above output", e(Duty(stage(func(s *Stage) { s.Input = q("13 V") }))), "stepup.Duty: Input is 13 V; it must be below the output, 12 V: a step-up regulator passes a higher input through its inductor and rectifier to the output, which then follows it; lower the input, raise the output, or take a regulator that also steps down"},
		{"input at the output", e(Duty(stage(func(s *Stage) { s.Input = q("12 V") }))), "stepup.Duty: Input is 12 V; it must be below the output, 12 V: a step-up regulator passes a higher input through its inductor and rectifier to the output, which then follows it; lower the input, raise the output, or take a regulator that also steps down"},
		{"input above output in one case", e(Currents(stage(func(s *Stage) { s.Input = high }))), "stepup.Currents: Input is 13 V where Vin is 13 V; it must be below the output, 12 V: a step-up regulator passes a higher input through its inductor and rectifier to the output, which then follows it; lower the input, raise the output, or take a regulator that also steps down"},
		// Seen is 3.7 + 2 · (0.17 − 0.1) = 3.84 V, Lost 2 · 0.23 = 0.46 V: 3.84²/(4 · 0.46) = 8.0139 V.
		{"output out of reach", e(Duty(stage(func(s *Stage) { s.Load = q("2 A") }))), "stepup.Duty: Output is 12 V; it must not be above the highest that this input reaches with this load, 8.014 V: more duty only heats the resistances; raise the input, or lower output, load or resistances"},
		{"a thousandfold", e(Duty(Stage{Input: q("1 V"), Output: q("1001 V"), Load: q("1 mA"), Frequency: q("100 kHz")})), "stepup.Duty: Output is 1.001 kV; it must not be above the highest that this input reaches with this load, 1 kV: more duty only heats the resistances; raise the input, or lower output, load or resistances"},
		{"drops above the input", e(Duty(stage(func(s *Stage) { s.Load = q("12 A") }))), "stepup.Duty: Input is 3.7 V; it must be above what the load alone drops in switch, rectifier and winding, 3.96 V: raise the input, or lower load or resistances"},
		{"two rectifiers", e(Currents(stage(func(s *Stage) { s.Diode = q("0.5 V") }))), "stepup.Currents: both Diode and Rectifier are given; the current flows through one of them: leave out Diode for a synchronous rectifier, and give its body diode to Losses"},
		{"forced diode", e(Currents(stage(func(s *Stage) { s.Rectifier, s.Diode, s.Forced = none, q("0.5 V"), true }))), "stepup.Currents: a stage with a Diode is Forced; a diode lets no current reverse: leave out Forced, or Diode"},
		{"efficiency and resistances", e(Currents(stage(func(s *Stage) { s.Efficiency = q("90 %") }))), "stepup.Currents: Efficiency is given beside a resistance or the diode; it stands in place of them all: leave out Efficiency, or the others"},
		{"efficiency above one", e(Duty(Stage{Input: q("3 V"), Output: q("5 V"), Load: q("1 A"), Frequency: q("1 MHz"), Efficiency: q("120 %")})), "stepup.Duty: Efficiency is 120 %; it must not be above that of a stage without loss, 1: write a share of the input power, such as 85 %"},
		{"no inductance", e(Currents(without)), "stepup.Currents: Inductance is not given, or is the bare number 0: write its inductance, such as 10 µH"},
		{"no frequency", e(Duty(stage(func(s *Stage) { s.Frequency = none }))), "stepup.Duty: Frequency is not given, or is the bare number 0: write its frequency, such as 100 kHz"},
		{"negative load", e(Duty(stage(func(s *Stage) { s.Load = q("-1 A") }))), "stepup.Duty: Load is −1 A; it must not be below 0 A: check its sign and the formula it comes from"},
		{"winding of another kind", e(Duty(stage(func(s *Stage) { s.Winding = q("1 V") }))), "stepup.Duty: Winding is 1 V; it must be a resistance: write it in Ω, such as 10 kΩ"},

		{"inductance given", e(Inductance(InductanceInputs{Stage: lossy(), Ratio: q("30 %")})), "stepup.Inductance: Inductance is 6.8 µH, but this function finds it: leave it out, or use Currents to see what it makes"},
		{"ratio above two", e(Inductance(InductanceInputs{Stage: without, Ratio: q("2.5")})), "stepup.Inductance: Ratio is 2.5; it must not be above twice the mean current, 2: above that the current rests and the ratio means nothing; write a smaller ratio"},

		{"no capacitance", e(OutputRipple(OutputRippleInputs{Stage: lossy()})), "stepup.OutputRipple: Capacitance is not given, or is the bare number 0: write its capacitance, such as 100 nF"},
		{"no load at the capacitor", e(OutputCapacitor(OutputCapacitorInputs{Stage: light, Capacitive: q("1 mV"), Resistive: q("1 mV")})), "stepup.OutputCapacitor: Load is 0 A; it must be above 0 A: write its current, such as 1 mA"},
		{"negative ESR", e(InputRipple(InputRippleInputs{Stage: lossy(), Capacitance: q("1 µF"), ESR: q("-1 mΩ")})), "stepup.InputRipple: ESR is −1 mΩ; it must not be below 0 Ω: check its sign and the formula it comes from"},
		{"no input ripple", e(InputCapacitor(InputCapacitorInputs{Stage: lossy(), Resistive: q("1 mV")})), "stepup.InputCapacitor: Capacitive is not given, or is the bare number 0: write its voltage, such as 3.3 V"},

		{"step above the load", stepWith(func(in *LoadStepInputs) { in.Step = q("0.3 A") }), "stepup.LoadStep: Step is 300 mA; it must not be above the load that it ends at, 250 mA: give the larger of the two loads as Load"},
		// On-voltage and mean by the quadratic: share = (3.7175 + √(3.7175² − 48 · 0.0575))/24 = 0.2934637,
		// mean 0.8518941 A, on 3.504064 V: 3.504064/(2π · 6.8 µH · 0.8518941) = 96.272 kHz.
		{"crossover above the zero", stepWith(func(in *LoadStepInputs) { in.Crossover = q("100 kHz") }), "stepup.LoadStep: Crossover is 100 kHz; it must be below the zero in the right half plane, 96.27 kHz: no loop is stable there; leave Crossover out for the highest that is sensible"},
		{"no overshoot", e(StepCapacitor(StepCapacitorInputs{Stage: lossy(), Step: q("0.1 A"), Undershoot: q("0.1 V")})), "stepup.StepCapacitor: Overshoot is not given, or is the bare number 0: write its voltage, such as 3.3 V"},
		{"zero without a load", e(RightHalfPlaneZero(RightHalfPlaneZeroInputs{Stage: light})), "stepup.RightHalfPlaneZero: Load is 0 A; it must be above 0 A: write its current, such as 1 mA"},
		{"crossover at the zero", e(RightHalfPlaneZero(RightHalfPlaneZeroInputs{Stage: lossy(), ZeroShare: q("100 %")})), "stepup.RightHalfPlaneZero: ZeroShare is 100 %; it must be below the zero itself, 1: no loop crosses over there; write a share such as 30 %"},
		{"crossover at the frequency", e(RightHalfPlaneZero(RightHalfPlaneZeroInputs{Stage: lossy(), FrequencyShare: q("100 %")})), "stepup.RightHalfPlaneZero: FrequencyShare is 100 %; it must be below the switching frequency itself, 1: no loop crosses over there; write a share such as 10 %"},

		{"losses at no load", e(Losses(LossesInputs{Stage: light})), "stepup.Losses: Load is 0 A; it must be above 0 A: write its current, such as 1 mA"},
		{"losses of an efficiency", e(Losses(LossesInputs{Stage: Stage{Input: q("3 V"), Output: q("5 V"), Load: q("1 A"), Frequency: q("1 MHz"), Inductance: q("1 µH"), Efficiency: q("90 %")}})), "stepup.Losses: Efficiency is 90 %, but this function finds it: leave it out, and give the resistances and the diode"},
		{"negative charge", e(Losses(LossesInputs{Stage: lossy(), GateCharge: q("-1 nC")})), "stepup.Losses: GateCharge is −1 nC; it must not be below 0 C: check its sign and the formula it comes from"},
		{"negative core", e(Losses(LossesInputs{Stage: lossy(), Core: q("-1 W")})), "stepup.Losses: Core is −1 W; it must not be below 0 W: check its sign and the formula it comes from"},
		{"no rating", e(Rectifier(RectifierInputs{Stage: lossy()})), "stepup.Rectifier: Rating is not given, or is the bare number 0: write its voltage, such as 3.3 V"},
		{"ringing", e(Rectifier(RectifierInputs{Stage: lossy(), Ringing: q("30"), Rating: q("20 V")})), "stepup.Rectifier: Ringing is 30; it must not be above three times the output, 3: write it as a share of the output, such as 30 %"},

		{"no longest duty", timingWith(func(in *TimingInputs) { in.LeastOff = none }), "stepup.Timing: neither LeastOff nor MostDuty is given; no regulator stays on for good: write the one that its data sheet has"},
		{"off all the time", timingWith(func(in *TimingInputs) { in.LeastOff = q("3 µs") }), "stepup.Timing: LeastOff is 3 µs; it must be below a period, 1 µs: no time is left to switch on; lower the frequency"},
		{"on all the time", timingWith(func(in *TimingInputs) { in.LeastOn = q("1 µs") }), "stepup.Timing: LeastOn is 1 µs; it must be below a period, 1 µs: no time is left to switch off; lower the frequency"},
		{"duty of one", timingWith(func(in *TimingInputs) { in.LeastOff, in.MostDuty = none, q("100 %") }), "stepup.Timing: the longest duty is 100 %; it must be below all of the time, 1: then nothing reaches the output; write MostDuty or LeastOff"},
		{"no saturation", e(CurrentLimit(CurrentLimitInputs{Stage: lossy(), Limit: q("3 A")})), "stepup.CurrentLimit: Saturation is not given, or is the bare number 0: write its current, such as 1 mA"},
		{"limit above sense", e(CurrentLimit(CurrentLimitInputs{Stage: lossy(), Limit: q("6 A"), Saturation: q("7 A")})), "stepup.CurrentLimit: what Limit drops in the resistances is 1.98 V; it must be below half the input, 1.85 V: with so much lost more current brings no more load; lower Limit or the resistances"},

		{"saturation without inductance", e(Saturation(SaturationInputs{Stage: without})), "stepup.Saturation: Inductance is not given, or is the bare number 0: write its inductance, such as 10 µH"},
		{"saturation without a curve", e(Saturation(SaturationInputs{Stage: lossy()})), "stepup.Saturation: Curve is not given: write a table whose columns are in A and H, such as Table(\"file.csv\") or table.Text(\"…\")"},

		{"charged", e(Inrush(InrushInputs{Input: q("4 V"), Charged: q("3.8 V"), Diode: q("0.4 V"), Inductance: q("10 µH"), Capacitance: q("22 µF")})), "stepup.Inrush: Input is 4 V; it must be above what the output and the rectifier hold against it, 4.2 V: no current flows then; raise Input or lower Charged"},

		// Slopes: off (12 − 3.7 + 0.8518941 · 0.16) V/6.8 µH = 1.240633 A/µs, on 0.515304 A/µs: half of the difference.
		{"no ramp", plantWith(func(in *CurrentModeInputs) { in.Slope = none }), "stepup.CurrentMode: Slope is 0 A/s; it must be above half of what the falling slope is steeper than the rising one, 362.7 kA/s: the current would alternate from period to period; raise Slope or Inductance, or keep the duty below a half"},
		{"ramp in volts", plantWith(func(in *CurrentModeInputs) { in.Slope = q("1 V") }), "stepup.CurrentMode: Slope is 1 V; it must be a current slope: write it in A/s, such as 0.2 A/µs"},
		{"negative ESR of a plant", plantWith(func(in *CurrentModeInputs) { in.ESR = q("-1 Ω") }), "stepup.CurrentMode: ESR is −1 Ω; it must not be below 0 Ω: check its sign and the formula it comes from"},
		{"no modulator", e(VoltageMode(VoltageModeInputs{Stage: lossy(), Capacitance: q("22 µF")})), "stepup.VoltageMode: Ramp is not given, or is the bare number 0: write its voltage, such as 3.3 V"},
	} {
		expect.Message(t, test.name, test.err, test.want)
	}
}

// Whatever the arguments, no function panics, and a result without an error
// holds finite numbers only.
func TestNothingInfiniteLeaves(t *testing.T) {
	t.Parallel()
	curve := expect.Table("current [A], left [%]\n0, 100\n2, 80\n5, 50")
	unit := map[string]string{
		"Input": "V", "Output": "V", "Load": "A", "Frequency": "Hz", "Inductance": "H", "Switch": "Ω", "Sense": "Ω", "Rectifier": "Ω", "Diode": "V", "Winding": "Ω", "Efficiency": "",
		"Ratio": "", "Capacitance": "F", "ESR": "Ω", "Capacitive": "V", "Resistive": "V", "Step": "A", "Crossover": "Hz", "Undershoot": "V", "Overshoot": "V",
		"RiseTime": "s", "FallTime": "s", "NodeCapacitance": "F", "RecoveryCharge": "C", "GateCharge": "C", "GateSupply": "V", "DeadTime": "s", "BodyDiode": "V",
		"DiodeLeakage": "A", "Quiescent": "A", "WindingAC": "Ω", "Core": "W", "InputESR": "Ω", "OutputESR": "Ω", "Delay": "s", "Limit": "A", "Saturation": "A",
		"LeastOn": "s", "LeastOff": "s", "MostDuty": "", "ZeroShare": "", "FrequencyShare": "", "Ringing": "", "Rating": "V", "Leakage": "A", "Charged": "V", "Resistance": "Ω",
		"PowerStage": "S", "Ramp": "V", "Slope": "A/s",
	}
	rapid.Check(t, func(t *rapid.T) {
		draw, mayWork := expect.Manner(t)
		filler := expect.Filler{Units: unit, Draw: draw, Others: []any{[]table.Table{{}, curve}}}
		for _, f := range []any{
			Duty, Currents, Inductance, OutputRipple, OutputCapacitor, InputRipple, InputCapacitor, LoadStep, StepCapacitor, Losses, Rectifier,
			Timing, CurrentLimit, Saturation, RightHalfPlaneZero, CurrentMode, VoltageMode, Inrush,
		} {
			filler.Call(t, f, func(in reflect.Value) {
				p := expect.Part[Stage](in)
				if p == nil || !mayWork {
					return
				}
				var none units.Quantity
				p.Diode, p.Switch, p.Sense, p.Winding, p.Efficiency = none, none, none, none, none
				// An output that the input reaches.
				if p.Input.Dim() == q("1 V").Dim() {
					p.Output = p.Input.Mul(units.Number(math.Pow(10, rapid.Float64Range(1e-12, 3).Draw(t, "output to input"))))
				}
				if in.Type() == reflect.TypeFor[InductanceInputs]() {
					p.Inductance = none
				}
			})
		}
	})
}
