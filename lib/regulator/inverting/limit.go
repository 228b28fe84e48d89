package inverting

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// CurrentLimitInputs are the arguments of CurrentLimit.
type CurrentLimitInputs struct {
	Stage      Stage
	Limit      units.Quantity // peak of the switch current at which the regulator switches off, A
	Delay      units.Quantity // until the switch is off, s; left out: none
	Saturation units.Quantity // current at which the inductor saturates, hot; of a SEPIC that of both together, A
}

// CurrentLimitResult is what CurrentLimit finds.
type CurrentLimitResult struct {
	Peak             units.Quantity // of the switch current in operation, A
	PeakMargin       units.Quantity // of Limit above Peak, A: below zero the limit trips in operation
	MostLoad         units.Quantity // that the limit lets through in continuous conduction at this duty, A
	Overrun          units.Quantity // that the delay adds, A
	LargestPeak      units.Quantity // in a fault, A
	SaturationMargin units.Quantity // of Saturation above LargestPeak, A
	SaturationShare  units.Quantity // of Saturation that is left, no unit
}

// CurrentLimit holds the limit of the switch current against the peaks of
// operation below it and the inductor's saturation above it.
//
//	PeakMargin       = limit − Peak
//	MostLoad         = (1 − Duty) · (limit − FullRipple/2)
//	Overrun          = input · delay/together
//	LargestPeak      = limit + Overrun
//	SaturationMargin = saturation − LargestPeak
//	SaturationShare  = SaturationMargin/saturation
//
// with Peak, FullRipple, Duty and together as Currents finds them.
//
// Arguments: Stage; Limit and Saturation, A, above zero; Delay, s, not below
// zero. It is an error outside of that. Whether the margins suffice is for a
// requirement of the note to say.
//
//	l, err := inverting.CurrentLimit(inverting.CurrentLimitInputs{
//		Stage: stage, Limit: Band(2.5A, 3.1A, 3.7A), Delay: 60ns, Saturation: 4.2A,
//	})
//	Require(l.PeakMargin > 0A, "the limit does not trip in operation")
//
// Give Input as a range: PeakMargin and MostLoad are least at its low end. The
// load that a regulator for 3 A of switch current can give is far below 3 A.
// MostLoad has the drops of the stage's own load: PeakMargin is exact.
//
// Holds for a limit on the peak in each period. Two inductors of their own
// each take a part of LargestPeak that Inductors tells in operation only: give
// them Saturation each, or the sum of both and look at Inductors too.
//
// Source: definition of inductance; SNVAA63 and SNVA962 (Texas Instruments)
// for MostLoad without its ripple.
//
// Caution: into a short circuit the current hardly falls between pulses, and
// with a least on-time it can climb past the limit period by period unless the
// regulator lowers its frequency or stops. The output is not joined to the
// input, so a short circuit draws no more than this.
func CurrentLimit(in CurrentLimitInputs) (CurrentLimitResult, error) {
	const function = "inverting.CurrentLimit"
	delay := argument.Time.OrZero(in.Delay)
	if err := argument.First(function,
		in.Stage.withInductor(),
		argument.Current.Positive("Limit", in.Limit),
		argument.Time.NotNegative("Delay", delay),
		argument.Current.Positive("Saturation", in.Saturation),
	); err != nil {
		return CurrentLimitResult{}, err
	}
	c, err := in.Stage.cycle()
	if err != nil {
		return CurrentLimitResult{}, argument.Within(function, err)
	}
	offShare := in.Stage.duty().OffShare
	mostLoad := in.Limit.Sub(c.FullRipple.Mul(units.Number(0.5))).Mul(offShare)
	overrun := in.Stage.Input.Mul(delay).Div(in.Stage.together())
	largestPeak := in.Limit.Add(overrun)
	saturationMargin := in.Saturation.Sub(largestPeak)
	return CurrentLimitResult{
		Peak:             c.Peak,
		PeakMargin:       in.Limit.Sub(c.Peak),
		MostLoad:         mostLoad,
		Overrun:          overrun,
		LargestPeak:      largestPeak,
		SaturationMargin: saturationMargin,
		SaturationShare:  saturationMargin.Div(in.Saturation),
	}, nil
}
