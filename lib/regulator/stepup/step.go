package stepup

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// LoadStepInputs are the arguments of LoadStep.
type LoadStepInputs struct {
	Stage       Stage          // Load is the larger of the two, where a step up ends
	Step        units.Quantity // size of the step, up or down, A
	Capacitance units.Quantity // at the output, with its bias, hot and aged, F
	ESR         units.Quantity // its equivalent series resistance, Ω; left out: none
	Crossover   units.Quantity // of the control loop, Hz; left out: the highest that RightHalfPlaneZero finds sensible
}

// LoadStepResult is what LoadStep finds.
type LoadStepResult struct {
	Zero       units.Quantity // in the right half plane, Hz
	Crossover  units.Quantity // Hz
	LoopCharge units.Quantity // that a loop of this crossover leaves to the capacitor, C
	RiseTime   units.Quantity // until the inductor carries the larger load, with the switch held on, s
	LeastUnder units.Quantity // charge that even the fastest control takes from the capacitor, C
	LeastOver  units.Quantity // charge that even the fastest control gives to it, C
	Jump       units.Quantity // of the ESR at once, V
	LeastSag   units.Quantity // of the output without the jump, with the fastest control, V
	Undershoot units.Quantity // of the output after a step up, V
	Overshoot  units.Quantity // of the output after a step down, V
}

// LoadStep computes by how much a load step moves the output. The loop, which
// the zero in the right half plane keeps slow, usually sets it; never less
// than what the inductor's energy takes or gives.
//
//	LoopCharge = step/(2π · Crossover)
//	RiseTime   = inductance · (Mean − before)/OnVoltage
//	LeastUnder = load · RiseTime
//	LeastOver  = inductance · (Mean − (load − step))²/(2 · OffVoltage)
//	Jump       = step · ESR
//	LeastSag   = LeastUnder/capacitance
//	Undershoot = Jump + largest of LoopCharge and LeastUnder, over capacitance
//	Overshoot  = Jump + largest of LoopCharge and LeastOver, over capacitance
//
// with Mean and the voltages as function Duty finds them, and before the mean
// of the smaller load. To give more, the inductor must first take more: while
// its switch is on, the capacitor alone feeds the load. That is the quickest
// way, because each other spends as much energy and takes longer.
//
// Arguments: Stage, of which Load, A, is above zero here; Step, A, above zero
// and at most Load; Capacitance, F, above zero; ESR, Ω, not below zero;
// Crossover, Hz, above zero and below Zero. It is an error outside of that.
//
//	s, err := stepup.LoadStep(stepup.LoadStepInputs{Stage: stage, Step: 150mA, Capacitance: 22µF, ESR: 3mΩ})
//
// Give Input as a range: the undershoot is worst at its low end.
//
// Holds for a step that is fast beside the loop, a deviation that is small
// beside the output, and continuous conduction. Undershoot and Overshoot are
// upper bounds: the jump has faded when the capacitor's part is largest.
//
// Source: common practice (step/(2π · crossover · capacitance)); the least
// charges from Kirchhoff's laws and the energy of the inductor.
//
// Caution: a regulator that cannot let its current reverse stays high after a
// step down until the load has drained the capacitor.
func LoadStep(in LoadStepInputs) (LoadStepResult, error) {
	const function = "stepup.LoadStep"
	esr := argument.Resistance.OrZero(in.ESR)
	r, err := in.charges(function)
	if err != nil {
		return LoadStepResult{}, err
	}
	if err := argument.First(function,
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.NotNegative("ESR", esr),
	); err != nil {
		return LoadStepResult{}, err
	}
	r.Jump = in.Step.Mul(esr)
	r.LeastSag = r.LeastUnder.Div(in.Capacitance)
	r.Undershoot = r.Jump.Add(units.Max(r.LoopCharge, r.LeastUnder).Div(in.Capacitance))
	r.Overshoot = r.Jump.Add(units.Max(r.LoopCharge, r.LeastOver).Div(in.Capacitance))
	return r, nil
}

// charges finds what does not depend on the capacitor.
func (in LoadStepInputs) charges(function string) (r LoadStepResult, err error) {
	if err := argument.First(function,
		in.Stage.withInductor(),
		argument.Current.Positive("Load", in.Stage.Load),
		argument.Current.Positive("Step", in.Step),
		argument.Frequency.Optional("Crossover", in.Crossover),
	); err != nil {
		return r, err
	}
	if err := argument.First(function,
		argument.AtMost("Step", in.Step, "the load that it ends at", in.Stage.Load, "give the larger of the two loads as Load"),
	); err != nil {
		return r, err
	}
	z, err := RightHalfPlaneZero(RightHalfPlaneZeroInputs{Stage: in.Stage})
	if err != nil {
		return r, argument.Within(function, err)
	}
	r.Zero, r.Crossover = z.Zero, z.Crossover
	if argument.Given(in.Crossover) {
		r.Crossover = in.Crossover
		if err := argument.First(function,
			argument.Under("Crossover", in.Crossover, "the zero in the right half plane", z.Zero, "no loop is stable there; leave Crossover out for the highest that is sensible"),
		); err != nil {
			return r, err
		}
	}
	light := in.Stage
	light.Load = in.Stage.Load.Sub(in.Step)
	d, before := in.Stage.duty(), light.duty()
	l, twoPi := in.Stage.Inductance, units.Number(2).Mul(units.Pi)
	over := d.Mean.Sub(light.Load)
	r.LoopCharge = in.Step.Div(twoPi.Mul(r.Crossover))
	r.RiseTime = l.Mul(d.Mean.Sub(before.Mean)).Div(d.OnVoltage)
	r.LeastUnder = in.Stage.Load.Mul(r.RiseTime)
	r.LeastOver = l.Mul(over).Mul(over).Div(d.OffVoltage.Add(d.OffVoltage))
	return r, nil
}

// StepCapacitorInputs are the arguments of StepCapacitor.
type StepCapacitorInputs struct {
	Stage      Stage          // Load is the larger of the two
	Step       units.Quantity // size of the step, up or down, A
	Undershoot units.Quantity // allowed after a step up, V
	Overshoot  units.Quantity // allowed after a step down, V
	Crossover  units.Quantity // of the control loop, Hz; left out: the highest that RightHalfPlaneZero finds sensible
}

// StepCapacitorResult is what StepCapacitor finds.
type StepCapacitorResult struct {
	Crossover     units.Quantity // Hz
	ForUndershoot units.Quantity // least capacitance for the step up, F
	ForOvershoot  units.Quantity // least capacitance for the step down, F
	Capacitance   units.Quantity // the larger of the two, F
	ESR           units.Quantity // at most, Ω, with which the first jump alone is within both limits
}

// StepCapacitor finds the least output capacitance that keeps a load step
// within what is allowed.
//
//	ForUndershoot = largest of LoopCharge and LeastUnder, over undershoot
//	ForOvershoot  = largest of LoopCharge and LeastOver, over overshoot
//	Capacitance   = largest of ForUndershoot and ForOvershoot
//	ESR           = least of undershoot and overshoot, over step
//
// with the charges as LoadStep finds them.
//
// Arguments: Stage, of which Load, A, is above zero here; Step, A, above zero
// and at most Load; Undershoot and Overshoot, V, above zero; Crossover, Hz,
// above zero and below the zero in the right half plane. It is an error
// outside of that.
//
//	c, err := stepup.StepCapacitor(stepup.StepCapacitorInputs{Stage: stage, Step: 150mA, Undershoot: 0.3V, Overshoot: 0.3V})
//
// Capacitance counts no ESR, which ceramic capacitors hardly have; feed the
// chosen capacitor, with its ESR, back through LoadStep.
//
// Where it holds, source and cautions: as LoadStep.
func StepCapacitor(in StepCapacitorInputs) (StepCapacitorResult, error) {
	const function = "stepup.StepCapacitor"
	r, err := LoadStepInputs{Stage: in.Stage, Step: in.Step, Crossover: in.Crossover}.charges(function)
	if err != nil {
		return StepCapacitorResult{}, err
	}
	if err := argument.First(function,
		argument.Voltage.Positive("Undershoot", in.Undershoot),
		argument.Voltage.Positive("Overshoot", in.Overshoot),
	); err != nil {
		return StepCapacitorResult{}, err
	}
	forUndershoot := units.Max(r.LoopCharge, r.LeastUnder).Div(in.Undershoot)
	forOvershoot := units.Max(r.LoopCharge, r.LeastOver).Div(in.Overshoot)
	return StepCapacitorResult{
		Crossover:     r.Crossover,
		ForUndershoot: forUndershoot,
		ForOvershoot:  forOvershoot,
		Capacitance:   units.Max(forUndershoot, forOvershoot),
		ESR:           units.Min(in.Undershoot, in.Overshoot).Div(in.Step),
	}, nil
}
