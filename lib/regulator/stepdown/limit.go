package stepdown

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// CurrentLimitInputs are the arguments of CurrentLimit.
type CurrentLimitInputs struct {
	Stage      Stage
	Limit      units.Quantity // peak current at which the regulator switches off, A
	Delay      units.Quantity // until the switch is off, s; left out: none
	Saturation units.Quantity // current at which the inductor saturates, hot, A
}

// CurrentLimitResult is what CurrentLimit finds.
type CurrentLimitResult struct {
	Peak             units.Quantity // of the inductor's current in operation, A
	PeakMargin       units.Quantity // of Limit above Peak, A: below zero the limit trips in operation
	MostLoad         units.Quantity // that the limit lets through in continuous conduction, A
	Overrun          units.Quantity // that the delay adds with the output shorted, A
	LargestPeak      units.Quantity // in a fault, A
	SaturationMargin units.Quantity // of Saturation above LargestPeak, A
	SaturationShare  units.Quantity // of Saturation that is left, no unit
}

// CurrentLimit holds the regulator's current limit against the peaks of
// operation below it and the inductor's saturation above it.
//
//	PeakMargin       = limit − Peak
//	MostLoad         = limit − FullRipple/2
//	Overrun          = input · delay/inductance
//	LargestPeak      = limit + Overrun
//	SaturationMargin = saturation − LargestPeak
//	SaturationShare  = SaturationMargin/saturation
//
// with Peak and FullRipple as Currents finds them.
//
// Arguments: Stage; Limit and Saturation, A, above zero; Delay, s, not below
// zero. It is an error outside of that. Whether the margins suffice is for a
// requirement of the note to say.
//
//	l, err := stepdown.CurrentLimit(stepdown.CurrentLimitInputs{
//		Stage: stage, Limit: Band(2.5A, 3.1A, 3.7A), Delay: 60ns, Saturation: 4.2A,
//	})
//	Require(l.PeakMargin > 0A, "the limit does not trip in operation")
//	Require(l.SaturationMargin > 0A, "the inductor does not saturate in a fault")
//
// Give Limit its limits: the least counts against Peak, the most against
// Saturation. Saturation is the figure at the inductor's highest temperature,
// some 20 % to 30 % below that at 25 °C for ferrite.
//
// Holds for a limit on the peak in each period, as current-mode regulators
// have it.
//
// Source: definition of inductance; common practice.
//
// Caution: into a short circuit the current falls slowly between pulses and
// can climb past the limit: ShortCircuit says how far. A ferrite core saturates
// abruptly, and then the overrun is many times this.
func CurrentLimit(in CurrentLimitInputs) (CurrentLimitResult, error) {
	delay := argument.Time.OrZero(in.Delay)
	if err := argument.First("stepdown.CurrentLimit",
		in.Stage.withInductor(),
		argument.Current.Positive("Limit", in.Limit),
		argument.Time.NotNegative("Delay", delay),
		argument.Current.Positive("Saturation", in.Saturation),
	); err != nil {
		return CurrentLimitResult{}, err
	}
	i := in.Stage.currents()
	overrun := in.Stage.Input.Mul(delay).Div(in.Stage.Inductance)
	largestPeak := in.Limit.Add(overrun)
	saturationMargin := in.Saturation.Sub(largestPeak)
	return CurrentLimitResult{
		Peak:             i.Peak,
		PeakMargin:       in.Limit.Sub(i.Peak),
		MostLoad:         in.Limit.Sub(i.Boundary),
		Overrun:          overrun,
		LargestPeak:      largestPeak,
		SaturationMargin: saturationMargin,
		SaturationShare:  saturationMargin.Div(in.Saturation),
	}, nil
}
