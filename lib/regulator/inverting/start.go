package inverting

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// InrushInputs are the arguments of Inrush.
type InrushInputs struct {
	Stage             Stage          // a SEPIC
	Capacitance       units.Quantity // of the coupling capacitor, F
	OutputCapacitance units.Quantity // F
	Leakage           units.Quantity // of Coupled inductors: inductance of one winding with the other shorted, H
	Resistance        units.Quantity // of supply, windings and capacitors in series, Ω; left out: none
}

// InrushResult is what Inrush finds.
type InrushResult struct {
	Inductance units.Quantity // through which the coupling capacitor charges, H
	Undamped   units.Quantity // peak of the current without any resistance, A
	Peak       units.Quantity // that no resistance lets it exceed, A
	Time       units.Quantity // until the peak, s
	Most       units.Quantity // voltage that the coupling capacitor reaches at most, V
	OutputLift units.Quantity // to which the output rises at most before the regulator starts, V
}

// Inrush computes what a step of the input from nothing does to a SEPIC at
// rest: its coupling capacitor charges through the first inductor.
//
//	Inductance = first; of Coupled inductors leakage
//	Undamped   = input · √(capacitance/Inductance)
//	Peak       = smaller of Undamped and input/resistance
//	Time       = π/2 · √(Inductance · capacitance)
//	Most       = 2 · input
//	OutputLift = input · √(capacitance/output capacitance); of Coupled inductors none
//
// Two inductors of their own push charge on through the rectifier into the
// empty output. Coupled ones hold the rectifier back, and only their leakage
// limits the current.
//
// Arguments: Stage, a SEPIC; Capacitance and OutputCapacitance, F, above zero;
// Leakage, H, above zero and below Inductance of Coupled inductors, left out
// of others; Resistance, Ω, above zero if given. It is an error outside of
// that.
//
//	s, err := inverting.Inrush(inverting.InrushInputs{Stage: sepic, Capacitance: 10µF, OutputCapacitance: 100µF})
//	Require(s.Most <= 50V, "the coupling capacitor stands plugging in")
//
// Holds as an upper bound for an input that steps at once: of what the input
// gives, input · capacitance · voltage of the capacitor, at most half of
// capacitance · input² is left for anything else.
//
// Source: conservation of energy; an inductor and a capacitor at a step of
// voltage (any textbook).
//
// Caution: unlike a step-up regulator a SEPIC has no direct path from input to
// output: a shorted output stays off with the switch. An inductor that
// saturates under the inrush lets more through than this.
func Inrush(in InrushInputs) (InrushResult, error) {
	const function = "inverting.Inrush"
	if err := argument.First(function,
		in.Stage.twoInductors(),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Capacitance.Positive("OutputCapacitance", in.OutputCapacitance),
		in.Stage.leakage(in.Leakage),
		argument.Resistance.Optional("Resistance", in.Resistance),
	); err != nil {
		return InrushResult{}, err
	}
	input, two := in.Stage.Input, units.Number(2)
	inductance := in.Stage.Inductance
	outputLift := input.Mul(units.Sqrt(in.Capacitance.Div(in.OutputCapacitance)))
	if in.Stage.Coupled {
		inductance, outputLift = in.Leakage, input.Sub(input)
	}
	undamped := input.Mul(units.Sqrt(in.Capacitance.Div(inductance)))
	peak := undamped
	if argument.Given(in.Resistance) {
		peak = units.Min(undamped, input.Div(in.Resistance))
	}
	return InrushResult{
		Inductance: inductance,
		Undamped:   undamped,
		Peak:       peak,
		Time:       units.Pi.Div(two).Mul(units.Sqrt(inductance.Mul(in.Capacitance))),
		Most:       two.Mul(input),
		OutputLift: outputLift,
	}, nil
}

// LiftInputs are the arguments of Lift.
type LiftInputs struct {
	Step              units.Quantity // of the input, at once, V
	Bypass            units.Quantity // capacitance from the regulator's input to its ground pin, the output, F
	OutputCapacitance units.Quantity // from the output to ground, F
	Quiescent         units.Quantity // that the regulator takes before it starts, A; left out: none
	LoadResistance    units.Quantity // of what hangs on the output before the start, Ω; left out with Quiescent
	Clamp             units.Quantity // forward voltage of a diode from output to ground, V; left out: no diode
}

// LiftResult is what Lift finds.
type LiftResult struct {
	Share     units.Quantity // of the step that reaches the output, no unit
	Capacitor units.Quantity // by which the capacitors lift the output, V
	Current   units.Quantity // by which the regulator's current does, V
	Lift      units.Quantity // of the output above ground, at most, V
}

// Lift computes how far the output of a step-down regulator that is used
// inverted goes above ground, the wrong way, before it starts.
//
//	Share     = bypass/(bypass + output capacitance)
//	Capacitor = step · Share
//	Current   = quiescent · load resistance
//	Lift      = Capacitor + Current; at most clamp, if there is one
//
// Arguments: Step, V, Bypass and OutputCapacitance, F, above zero; Quiescent,
// A, and LoadResistance, Ω, not below zero; Clamp, V, above zero if given. It
// is an error outside of that.
//
//	u, err := inverting.Lift(inverting.LiftInputs{Step: 12V, Bypass: 2.2µF, OutputCapacitance: 47µF, Clamp: 0.4V})
//	Require(u.Lift <= 0.3V, "what hangs on the rail stands the start")
//
// Holds for a supply that steps at once and a load that takes nothing
// meanwhile; each later step of the input does the same to the running output
// until the loop answers.
//
// Source: two capacitors in series share a step of voltage (any textbook);
// common practice, as SNVAA63 (Texas Instruments, 2023) has a diode there.
//
// Caution: most integrated circuits stand 0.3 V on a negative supply pin: only
// a Schottky diode at the output keeps that, at the current of the step.
func Lift(in LiftInputs) (LiftResult, error) {
	quiescent, loadResistance := argument.Current.OrZero(in.Quiescent), argument.Resistance.OrZero(in.LoadResistance)
	if err := argument.First("inverting.Lift",
		argument.Voltage.Positive("Step", in.Step),
		argument.Capacitance.Positive("Bypass", in.Bypass),
		argument.Capacitance.Positive("OutputCapacitance", in.OutputCapacitance),
		argument.Current.NotNegative("Quiescent", quiescent),
		argument.Resistance.NotNegative("LoadResistance", loadResistance),
		argument.Voltage.Optional("Clamp", in.Clamp),
	); err != nil {
		return LiftResult{}, err
	}
	share := in.Bypass.Div(in.Bypass.Add(in.OutputCapacitance))
	capacitor := in.Step.Mul(share)
	current := quiescent.Mul(loadResistance)
	lift := capacitor.Add(current)
	if argument.Given(in.Clamp) {
		lift = units.Min(capacitor.Add(current), in.Clamp)
	}
	return LiftResult{Share: share, Capacitor: capacitor, Current: current, Lift: lift}, nil
}
