package inverting

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// TimingInputs are the arguments of Timing.
type TimingInputs struct {
	Stage    Stage
	LeastOn  units.Quantity // shortest on-time that the regulator makes, s
	LeastOff units.Quantity // shortest off-time that the regulator makes, s; left out: none
	MostDuty units.Quantity // limit of its duty, no unit; left out: what LeastOff leaves
}

// TimingResult is what Timing finds.
type TimingResult struct {
	Duty       units.Quantity // of continuous conduction, no unit
	OnTime     units.Quantity // of the switch in continuous conduction, s
	OnMargin   units.Quantity // of OnTime above the shortest, s
	OffTime    units.Quantity // of the switch in continuous conduction, s
	OffMargin  units.Quantity // of OffTime above the shortest, s
	MostDuty   units.Quantity // limit of the duty, no unit
	DutyMargin units.Quantity // of MostDuty above Duty, no unit
	LeastInput units.Quantity // below which the output drops out, V
	MostInput  units.Quantity // above which pulses are skipped, V
	LightOn    units.Quantity // on-time at this load, shorter below the boundary, s
	LightSpare units.Quantity // of LightOn above the shortest, s; below zero pulses are skipped
}

// Timing holds a stage against the shortest on-time, the shortest off-time and
// the longest duty of its regulator.
//
//	OnTime     = Duty/frequency
//	OnMargin   = OnTime − LeastOn
//	OffTime    = (1 − Duty)/frequency
//	OffMargin  = OffTime − LeastOff
//	MostDuty   = least of the limit given and 1 − LeastOff · frequency
//	DutyMargin = MostDuty − Duty
//	LeastInput = input at MostDuty
//	MostInput  = input at LeastOn · frequency
//	LightOn    = OnShare/frequency
//	LightSpare = LightOn − LeastOn
//
// with Duty as function Duty finds it, OnShare as Currents does, and, of any
// duty d and off-share x = 1 − d,
//
//	input at d = (x · (size + diode) + load · (winding + rectifier))/d + load · (switch + winding)/x
//
// in a SEPIC
//
//	input at d = (x · (size + diode + load · second winding) + load · rectifier)/d + load · (switch + winding · d)/x
//
// Arguments: Stage; LeastOn, s, above zero and shorter than a period;
// LeastOff, s, not below zero, and shorter than a period; MostDuty, if given,
// above zero and below 1. It is an error outside of that. Whether the margins
// suffice is for a requirement of the note to say.
//
//	t, err := inverting.Timing(inverting.TimingInputs{Stage: stage, LeastOn: 100ns, MostDuty: 88%})
//	Require(t.DutyMargin > 0%, "the output holds at the lowest input")
//
// Give Input as a range: OnMargin is smallest at its high end, DutyMargin at
// its low end. LeastInput and MostInput are at the load of the stage.
//
// Source: volt-second balance, as function Duty.
//
// Caution: at the lowest input a longer duty raises the output only down to
// LeastInput of function Duty; a limit of the duty keeps a start or an
// overload from getting stuck beyond.
func Timing(in TimingInputs) (TimingResult, error) {
	const function = "inverting.Timing"
	leastOff := argument.Time.OrZero(in.LeastOff)
	if err := argument.First(function,
		in.Stage.withInductor(),
		argument.Time.Positive("LeastOn", in.LeastOn),
		argument.Time.NotNegative("LeastOff", leastOff),
		argument.Share.Optional("MostDuty", in.MostDuty),
	); err != nil {
		return TimingResult{}, err
	}
	one, frequency := units.Number(1), in.Stage.Frequency
	period := one.Div(frequency)
	offDuty, mostDuty := one, one
	if argument.Given(in.LeastOff) {
		offDuty = one.Sub(leastOff.Mul(frequency))
	}
	leastDuty := in.LeastOn.Mul(frequency)
	if argument.Given(in.MostDuty) {
		mostDuty = units.Min(in.MostDuty, offDuty)
	} else {
		mostDuty = offDuty
	}
	if err := argument.First(function,
		argument.Under("LeastOn", in.LeastOn, "a period", period, "no time is left to switch off; lower the frequency"),
		argument.Under("LeastOff", leastOff, "a period", period, "no time is left to switch on; lower the frequency"),
		argument.Share.Positive("the duty that LeastOff leaves", mostDuty),
		argument.Share.Positive("the share that LeastOn leaves", one.Sub(leastDuty)),
	); err != nil {
		return TimingResult{}, err
	}
	if argument.Given(in.MostDuty) || argument.Given(in.LeastOff) {
		if err := argument.First(function, argument.Under("MostDuty", mostDuty, "all of the time", one, "the output gets its current in the off-time; write the limit of the regulator")); err != nil {
			return TimingResult{}, err
		}
	}
	c, err := in.Stage.cycle()
	if err != nil {
		return TimingResult{}, argument.Within(function, err)
	}
	d := in.Stage.duty()
	onTime := d.Duty.Div(frequency)
	offTime := d.OffShare.Div(frequency)
	leastInput := d.LeastInput
	if argument.Given(in.MostDuty) || argument.Given(in.LeastOff) {
		leastInput = in.Stage.inputAt(mostDuty)
	}
	return TimingResult{
		Duty:       d.Duty,
		OnTime:     onTime,
		OnMargin:   onTime.Sub(in.LeastOn),
		OffTime:    offTime,
		OffMargin:  offTime.Sub(leastOff),
		MostDuty:   mostDuty,
		DutyMargin: mostDuty.Sub(d.Duty),
		LeastInput: leastInput,
		MostInput:  in.Stage.inputAt(leastDuty),
		LightOn:    c.OnTime,
		LightSpare: c.OnTime.Sub(in.LeastOn),
	}, nil
}

// inputAt is the input at which a duty makes the output, in continuous
// conduction.
func (s Stage) inputAt(duty units.Quantity) units.Quantity {
	load, offShare, size, p := s.Load, units.Number(1).Sub(duty), s.size(), s.parts()
	falling := offShare.Mul(size.Add(p.diode)).Add(load.Mul(p.winding.Add(p.rectifier)))
	rising := load.Mul(p.on.Add(p.winding))
	if s.SEPIC {
		falling = offShare.Mul(size.Add(p.diode).Add(load.Mul(p.second))).Add(load.Mul(p.rectifier))
		rising = load.Mul(p.on.Add(p.winding.Mul(duty)))
	}
	return falling.Div(duty).Add(rising.Div(offShare))
}
