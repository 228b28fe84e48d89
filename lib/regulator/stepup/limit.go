package stepup

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

// CurrentLimitResult is what CurrentLimit finds. None of it holds in a short
// circuit: the limit acts on the switch, and the short circuit's current
// flows past it, from the input through inductor and rectifier.
type CurrentLimitResult struct {
	Peak             units.Quantity // of the inductor's current in operation, A
	PeakMargin       units.Quantity // of Limit above Peak, A: below zero the limit trips in operation
	MostMean         units.Quantity // mean of the inductor's current whose peak is the limit, A
	MostLoad         units.Quantity // that the limit lets through from this input, A
	LeastInput       units.Quantity // from which the stage carries its load within the limit, V; the output if none does
	Overrun          units.Quantity // that the delay adds at most, A
	LargestPeak      units.Quantity // of an overload that does not pull the output below the input, A
	SaturationMargin units.Quantity // of Saturation above LargestPeak, A
	SaturationShare  units.Quantity // of Saturation that is left, no unit
}

// CurrentLimit holds the current limit of a regulator's switch against the
// peaks of operation below it and the inductor's saturation above it, and
// says how much load the limit lets through.
//
//	PeakMargin       = limit − Peak
//	Peak(MostMean)   = limit
//	MostLoad         = MostMean · OffShare at MostMean
//	Peak(LeastInput) = limit
//	Overrun          = input · delay/inductance
//	LargestPeak      = limit + Overrun
//	SaturationMargin = saturation − LargestPeak
//	SaturationShare  = SaturationMargin/saturation
//
// with Peak as Currents finds it. In continuous conduction and without drops
// MostMean is limit − Ripple/2 and MostLoad that times input/output; of a
// Stage with an Efficiency, times the efficiency.
//
// Arguments: Stage; Limit and Saturation, A, above zero; Delay, s, not below
// zero. It is an error outside of that, and where the limit alone would drop
// half the input in the resistances. Whether the margins suffice is for a
// requirement of the note to say.
//
//	l, err := stepup.CurrentLimit(stepup.CurrentLimitInputs{
//		Stage: stage, Limit: Band(1.6A, 2A, 2.4A), Delay: 80ns, Saturation: 3A,
//	})
//	Require(l.MostLoad >= 0.25A, "the limit lets the load through")
//
// Give Limit its limits and Input its range: MostLoad is least at the lowest
// input and the least limit, and so far below Limit that data sheets call a
// regulator by its switch's current, not by its output's.
//
// Holds for a limit on the peak in each period, as current-mode regulators
// have it; LeastInput leaves out what a
// current that is forced below zero adds to the peak.
//
// Source: volt-second balance and the triangle of the current, as Currents;
// SLVA372D has the form with an efficiency.
//
// Caution: a step-up regulator has no protection against a short circuit, and
// none against an overload that pulls the output below the input: switching
// off changes nothing, the current flows through inductor and rectifier until
// a fuse, a load switch or the source ends it. Some regulators lower the
// limit as the duty rises, for their slope compensation: take it at the
// longest duty.
func CurrentLimit(in CurrentLimitInputs) (CurrentLimitResult, error) {
	const function = "stepup.CurrentLimit"
	delay := argument.Time.OrZero(in.Delay)
	_, c, err := in.Stage.cycle(function)
	if err != nil {
		return CurrentLimitResult{}, err
	}
	if err := argument.First(function,
		argument.Current.Positive("Limit", in.Limit),
		argument.Time.NotNegative("Delay", delay),
		argument.Current.Positive("Saturation", in.Saturation),
	); err != nil {
		return CurrentLimitResult{}, err
	}
	p := in.Stage.parts()
	half := units.Number(0.5)
	drops := in.Limit.Mul(p.low.Add(p.rectifier).Add(p.winding))
	if err := argument.First(function,
		argument.Under("what Limit drops in the resistances", drops, "half the input", in.Stage.Input.Mul(half), "with so much lost more current brings no more load; lower Limit or the resistances"),
	); err != nil {
		return CurrentLimitResult{}, err
	}
	mostMean := in.Stage.mostMean(in.Limit)
	at := in.Stage.voltages(mostMean)
	offShare := at.on.Div(at.on.Add(at.off))
	overrun := in.Stage.Input.Mul(delay).Div(in.Stage.Inductance)
	largestPeak := in.Limit.Add(overrun)
	saturationMargin := in.Saturation.Sub(largestPeak)
	return CurrentLimitResult{
		Peak:             c.Peak,
		PeakMargin:       in.Limit.Sub(c.Peak),
		MostMean:         mostMean,
		MostLoad:         mostMean.Mul(offShare),
		LeastInput:       in.Stage.leastInput(in.Limit),
		Overrun:          overrun,
		LargestPeak:      largestPeak,
		SaturationMargin: saturationMargin,
		SaturationShare:  saturationMargin.Div(in.Saturation),
	}, nil
}

// voltages are those across the inductance at a mean current.
type voltages struct{ on, off units.Quantity }

func (s Stage) voltages(mean units.Quantity) voltages {
	p := s.parts()
	on := s.Input.Sub(mean.Mul(p.low.Add(p.winding)))
	off := s.Output.Sub(s.Input).Add(p.diode).Add(mean.Mul(p.rectifier.Add(p.winding)))
	return voltages{on: on, off: off}
}

// peak is that of the inductor's current at a mean.
func (s Stage) peak(mean units.Quantity) units.Quantity {
	v := s.voltages(mean)
	half := v.on.Mul(v.off).Div(v.on.Add(v.off)).Div(s.Inductance).Div(s.Frequency).Mul(units.Number(0.5))
	flowing := mean.Add(half)
	if s.Forced {
		return flowing
	}
	resting := units.Sqrt(units.Number(4).Mul(mean).Mul(half))
	return units.Where(mean, half, resting, flowing)
}

// mostMean is the mean current whose peak is limit; none if even that has a
// higher one, which a current that is forced may.
func (s Stage) mostMean(limit units.Quantity) units.Quantity {
	zero := limit.Sub(limit)
	mean := crossing("the mean current at the limit", zero, limit, func(mean units.Quantity) units.Quantity {
		return s.peak(mean).Sub(limit).Div(limit)
	})
	return units.Where(s.peak(zero), limit, mean, zero)
}

// leastInput is the input at which the peak is limit: above, it is lower, if
// the current rests where it can.
func (s Stage) leastInput(limit units.Quantity) units.Quantity {
	p := s.parts()
	wanted := s.Output.Add(p.diode)
	_, lost := s.quadratic()
	root := units.Sqrt(wanted.Mul(lost))
	seen := units.Max(root.Add(root), wanted.Mul(units.Number(1e-3)))
	drops := s.Load.Mul(p.low.Add(p.rectifier).Add(p.winding))
	lowest := units.Max(seen.Sub(s.Load.Mul(p.low.Sub(p.rectifier))), drops)
	return crossing("the least input", lowest, s.Output, func(input units.Quantity) units.Quantity {
		at := s
		at.Input, at.Forced = input, false
		return limit.Sub(at.peak(at.duty().Mean)).Div(limit)
	})
}

// crossing is where f, a number, rises through 0 between low and high; low if
// it is above 0 from there on, high if it is below up to there.
func crossing(name string, low, high units.Quantity, f func(x units.Quantity) units.Quantity) units.Quantity {
	one := units.Number(1)
	return units.Solve(name, low, high, func(x units.Quantity) units.Quantity {
		inside := units.Where(x, high, f(x), one)
		return units.Where(low, x, inside, one.Neg())
	})
}
