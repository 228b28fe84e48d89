package stepdown

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// LoadStepInputs are the arguments of LoadStep.
type LoadStepInputs struct {
	Stage       Stage          // Load is where the step ends
	Step        units.Quantity // size of the step, up or down, A
	Capacitance units.Quantity // at the output, with its bias, hot and aged, F
	ESR         units.Quantity // its equivalent series resistance, Ω; left out: none
	Delay       units.Quantity // until the regulator goes to its limit, s; left out: none
	MostDuty    units.Quantity // limit of the duty, no unit; left out: 1
}

// LoadStepResult is what LoadStep finds.
type LoadStepResult struct {
	RiseSlope  units.Quantity // at which the current rises at the duty's limit, A/s
	FallSlope  units.Quantity // at which it falls with the high switch off, A/s
	RiseTime   units.Quantity // until the current has risen by the step, s
	FallTime   units.Quantity // until it has fallen by the step, s
	Undershoot units.Quantity // of the output after a step up, V
	Overshoot  units.Quantity // of the output after a step down, V
}

// LoadStep computes by how much a load step moves the output.
//
//	RiseSlope  = (MostDuty · OnVoltage − (1 − MostDuty) · OffVoltage)/inductance
//	FallSlope  = OffVoltage/inductance
//	RiseTime   = step/RiseSlope
//	FallTime   = step/FallSlope
//	deviation  = step · delay/capacitance + slope/(2 · capacitance) · (time² + early²) + slope · time · (τ − early)/capacitance
//	τ          = ESR · capacitance
//	early      = least of τ and time
//
// where Undershoot is the deviation with RiseSlope and RiseTime, Overshoot
// that with FallSlope and FallTime. Without ESR and delay they are
// inductance · step²/(2 · capacitance · voltage across the inductance). A long
// τ makes the jump step · ESR at the beginning the largest deviation.
//
// Arguments: Stage; Step, A, and Capacitance, F, above zero; ESR, Ω, and
// Delay, s, not below zero; MostDuty above the duty of the stage and at most
// 100 %. It is an error outside of that: at its own duty the stage has no
// voltage left to raise the current with.
//
//	s, err := stepdown.LoadStep(stepdown.LoadStepInputs{
//		Stage: stage, Step: 1.2A, Capacitance: 40µF, ESR: 3mΩ, Delay: 2/400kHz,
//	})
//
// Give Input as a range: the undershoot is worst at its low end. Delay is
// what the control loop needs to notice; common practice takes one to two
// periods, or 1/(4 · crossover frequency).
//
// Holds for a step that is fast beside the inductor, a deviation that is
// small beside the output, and continuous conduction. The overshoot is on the
// safe side: it counts the output as constant while the current falls.
//
// Source: charge of a triangle of current, and its largest value across
// capacitance and ESR in series (derived from Kirchhoff's laws). Data sheets
// that take inductance · step²/(capacitance · voltage) count twice the charge.
//
// Caution: after a step down to no load a stage that does not let its current
// reverse stays high until the load has drained the capacitor.
func LoadStep(in LoadStepInputs) (LoadStepResult, error) {
	const function = "stepdown.LoadStep"
	esr := argument.Resistance.OrZero(in.ESR)
	r, delay, err := in.slopes(function)
	if err != nil {
		return LoadStepResult{}, err
	}
	if err := argument.First(function,
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.NotNegative("ESR", esr),
	); err != nil {
		return LoadStepResult{}, err
	}
	tau := esr.Mul(in.Capacitance)
	late := in.Step.Mul(delay)
	r.Undershoot = deviation(late, r.RiseSlope, r.RiseTime, tau, in.Capacitance)
	r.Overshoot = deviation(late, r.FallSlope, r.FallTime, tau, in.Capacitance)
	return r, nil
}

// deviation is the largest over t, from 0 to time, of
// (late + slope · (time · t − t²/2) + slope · (time − t) · tau)/capacitance:
// that at time − tau, or at 0 where tau is longer than time.
func deviation(late, slope, time, tau, capacitance units.Quantity) units.Quantity {
	early := units.Min(tau, time)
	squares := time.Mul(time).Add(early.Mul(early)).Mul(units.Number(0.5))
	rest := time.Mul(tau.Sub(early))
	charge := late.Add(slope.Mul(squares.Add(rest)))
	return charge.Div(capacitance)
}

// slopes finds slopes and times of a step, and the delay before it.
func (in LoadStepInputs) slopes(function string) (r LoadStepResult, delay units.Quantity, err error) {
	one := units.Number(1)
	mostDuty := one
	delay = argument.Time.OrZero(in.Delay)
	if argument.Given(in.MostDuty) {
		mostDuty = in.MostDuty
	}
	if err := argument.First(function,
		in.Stage.withInductor(),
		argument.Current.Positive("Step", in.Step),
		argument.Time.NotNegative("Delay", delay),
		argument.Share.Positive("MostDuty", mostDuty),
	); err != nil {
		return r, delay, err
	}
	d := in.Stage.duty()
	rising := mostDuty.Mul(d.OnVoltage).Sub(one.Sub(mostDuty).Mul(d.OffVoltage))
	if err := argument.First(function,
		argument.AtMost("MostDuty", mostDuty, "all of the time", one, "write a smaller share"),
		argument.Above("MostDuty", mostDuty, "the duty of the stage", d.Duty, "at its limit the regulator cannot raise the current; raise the input or the limit, or lower the output"),
		// Rounding may leave nothing of a duty that is just above.
		argument.Voltage.Positive("the voltage that raises the current", rising),
	); err != nil {
		return r, delay, err
	}
	r.RiseSlope = rising.Div(in.Stage.Inductance)
	r.FallSlope = d.OffVoltage.Div(in.Stage.Inductance)
	r.RiseTime = in.Step.Div(r.RiseSlope)
	r.FallTime = in.Step.Div(r.FallSlope)
	return r, delay, nil
}

// StepCapacitorInputs are the arguments of StepCapacitor.
type StepCapacitorInputs struct {
	Stage      Stage          // Load is where the step ends
	Step       units.Quantity // size of the step, up or down, A
	Undershoot units.Quantity // allowed after a step up, V
	Overshoot  units.Quantity // allowed after a step down, V
	Delay      units.Quantity // until the regulator goes to its limit, s; left out: none
	MostDuty   units.Quantity // limit of the duty, no unit; left out: 1
}

// StepCapacitorResult is what StepCapacitor finds.
type StepCapacitorResult struct {
	RiseTime      units.Quantity // until the current has risen by the step, s
	FallTime      units.Quantity // until it has fallen by the step, s
	ForUndershoot units.Quantity // least capacitance for the step up, F
	ForOvershoot  units.Quantity // least capacitance for the step down, F
	Capacitance   units.Quantity // the larger of the two, F
	ESR           units.Quantity // at most, Ω, with which the first jump alone is within both limits
}

// StepCapacitor finds the least output capacitance that keeps a load step
// within what is allowed.
//
//	ForUndershoot = step · (delay + RiseTime/2)/undershoot
//	ForOvershoot  = step · (delay + FallTime/2)/overshoot
//	Capacitance   = largest of ForUndershoot and ForOvershoot
//	ESR           = least of undershoot and overshoot, over step
//
// with RiseTime and FallTime as LoadStep finds them.
//
// Arguments: Stage; Step, A, Undershoot and Overshoot, V, above zero; Delay,
// s, not below zero; MostDuty above the duty of the stage and at most 100 %.
// It is an error outside of that.
//
//	c, err := stepdown.StepCapacitor(stepdown.StepCapacitorInputs{
//		Stage: stage, Step: 1.2A, Undershoot: 150mV, Overshoot: 150mV, Delay: 2/400kHz,
//	})
//
// Capacitance counts no ESR, which ceramic capacitors hardly have; feed the
// chosen capacitor, with its ESR, back through LoadStep.
//
// Where it holds, source and cautions: as LoadStep.
func StepCapacitor(in StepCapacitorInputs) (StepCapacitorResult, error) {
	const function = "stepdown.StepCapacitor"
	s, delay, err := LoadStepInputs{Stage: in.Stage, Step: in.Step, Delay: in.Delay, MostDuty: in.MostDuty}.slopes(function)
	if err != nil {
		return StepCapacitorResult{}, err
	}
	if err := argument.First(function,
		argument.Voltage.Positive("Undershoot", in.Undershoot),
		argument.Voltage.Positive("Overshoot", in.Overshoot),
	); err != nil {
		return StepCapacitorResult{}, err
	}
	half := units.Number(0.5)
	forUndershoot := in.Step.Mul(delay.Add(s.RiseTime.Mul(half))).Div(in.Undershoot)
	forOvershoot := in.Step.Mul(delay.Add(s.FallTime.Mul(half))).Div(in.Overshoot)
	capacitance := units.Max(forUndershoot, forOvershoot)
	esr := units.Min(in.Undershoot, in.Overshoot).Div(in.Step)
	return StepCapacitorResult{
		RiseTime:      s.RiseTime,
		FallTime:      s.FallTime,
		ForUndershoot: forUndershoot,
		ForOvershoot:  forOvershoot,
		Capacitance:   capacitance,
		ESR:           esr,
	}, nil
}
