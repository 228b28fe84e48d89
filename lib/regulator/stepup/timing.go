package stepup

import (
	"errors"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// TimingInputs are the arguments of Timing.
type TimingInputs struct {
	Stage    Stage
	LeastOn  units.Quantity // shortest on-time that the regulator makes, s
	LeastOff units.Quantity // shortest off-time that it makes, s; left out: none
	MostDuty units.Quantity // its longest duty, no unit; left out: what LeastOff leaves
}

// TimingResult is what Timing finds.
type TimingResult struct {
	Duty       units.Quantity // of continuous conduction, no unit
	MostDuty   units.Quantity // that the regulator makes, no unit
	DutyMargin units.Quantity // of Duty below MostDuty, no unit
	OnTime     units.Quantity // of the switch in continuous conduction, s
	OnMargin   units.Quantity // of OnTime above the shortest, s
	OffTime    units.Quantity // of the switch in continuous conduction, s
	OffMargin  units.Quantity // of OffTime above the shortest, s
	LeastInput units.Quantity // below which the output sags at this load, V
	MostInput  units.Quantity // above which pulses are skipped in continuous conduction, V; the output at most
	LightOn    units.Quantity // on-time at this load, shorter below the boundary, s
	LightSpare units.Quantity // of LightOn above the shortest, s; below zero pulses are skipped
}

// Timing holds a stage against the shortest on-time, the shortest off-time
// and the longest duty of its regulator.
//
//	MostDuty   = least of most duty and 1 − LeastOff · frequency
//	DutyMargin = MostDuty − Duty
//	OnTime     = Duty/frequency
//	OnMargin   = OnTime − LeastOn
//	OffTime    = (1 − Duty)/frequency
//	OffMargin  = OffTime − LeastOff
//	input(share) = Wanted · share + Lost/share − load · (switch + sense − rectifier)
//	LeastInput = input(largest of 1 − MostDuty and √(Lost/Wanted))
//	MostInput  = input(1 − LeastOn · frequency), the output at most
//	LightOn    = OnShare/frequency
//	LightSpare = LightOn − LeastOn
//
// with Duty, Wanted and Lost as function Duty finds them, OnShare as Currents
// does. √(Lost/Wanted) is the share beyond which more duty brings less output.
//
// Arguments: Stage; LeastOn, s, above zero; LeastOff, s, not below zero;
// MostDuty above zero and below 100 %; one of the two at least, and both
// times shorter than a period. It is an error outside of that. Whether the
// margins suffice is for a requirement of the note to say.
//
//	t, err := stepup.Timing(stepup.TimingInputs{Stage: stage, LeastOn: 100ns, MostDuty: 90%})
//	Require(t.DutyMargin > 0, "the output is reached at the lowest input")
//
// Give Input as a range: the duty is longest at its low end, OnMargin smallest
// at its high end, where the input comes near the output. LeastInput is at the
// load of the stage.
//
// Source: volt-second balance, as function Duty.
//
// Caution: at its longest duty a step-up regulator draws its largest current:
// a source that sags then lengthens the duty further, and the input collapses
// to where more duty brings less. An under-voltage lockout above LeastInput
// prevents it.
func Timing(in TimingInputs) (TimingResult, error) {
	const function = "stepup.Timing"
	one, frequency := units.Number(1), in.Stage.Frequency
	leastOff := argument.Time.OrZero(in.LeastOff)
	if !argument.Given(in.LeastOff) && !argument.Given(in.MostDuty) {
		return TimingResult{}, argument.First(function, errors.New("neither LeastOff nor MostDuty is given; no regulator stays on for good: write the one that its data sheet has"))
	}
	d, c, err := in.Stage.cycle(function)
	if err != nil {
		return TimingResult{}, err
	}
	if err := argument.First(function,
		argument.Time.Positive("LeastOn", in.LeastOn),
		argument.Time.NotNegative("LeastOff", leastOff),
		argument.Share.Optional("MostDuty", in.MostDuty),
	); err != nil {
		return TimingResult{}, err
	}
	left := one.Sub(leastOff.Mul(frequency))
	mostDuty := in.MostDuty
	if !argument.Given(in.MostDuty) {
		mostDuty = left
	} else if argument.Given(in.LeastOff) {
		mostDuty = units.Min(left, in.MostDuty)
	}
	period := one.Div(frequency)
	leastShare := one.Sub(mostDuty)
	mostShare := one.Sub(in.LeastOn.Mul(frequency))
	if err := argument.First(function,
		argument.Under("LeastOn", in.LeastOn, "a period", period, "no time is left to switch off; lower the frequency"),
		argument.Under("LeastOff", leastOff, "a period", period, "no time is left to switch on; lower the frequency"),
		argument.Under("the longest duty", mostDuty, "all of the time", one, "then nothing reaches the output; write MostDuty or LeastOff"),
		argument.Share.Positive("the longest duty", mostDuty),
		argument.Share.Positive("the share that the longest duty leaves", leastShare),
		argument.Share.Positive("the share that LeastOn leaves", mostShare),
	); err != nil {
		return TimingResult{}, err
	}
	p := in.Stage.parts()
	wanted := in.Stage.Output.Add(p.diode)
	_, lost := in.Stage.quadratic()
	best := units.Sqrt(lost.Div(wanted))
	low := units.Max(leastShare, best)
	helped := in.Stage.Load.Mul(p.low.Sub(p.rectifier))
	leastInput := wanted.Mul(low).Add(lost.Div(low)).Sub(helped)
	mostInput := wanted.Mul(mostShare).Add(lost.Div(mostShare)).Sub(helped)
	onTime := c.Duty.Div(frequency)
	offTime := d.OnVoltage.Div(d.OnVoltage.Add(d.OffVoltage)).Div(frequency)
	return TimingResult{
		Duty:       c.Duty,
		MostDuty:   mostDuty,
		DutyMargin: mostDuty.Sub(c.Duty),
		OnTime:     onTime,
		OnMargin:   onTime.Sub(in.LeastOn),
		OffTime:    offTime,
		OffMargin:  offTime.Sub(leastOff),
		LeastInput: leastInput,
		MostInput:  units.Min(mostInput, in.Stage.Output),
		LightOn:    c.OnTime,
		LightSpare: c.OnTime.Sub(in.LeastOn),
	}, nil
}
