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
	MostMean         units.Quantity // mean of the current, in the sense of Current, whose peak is the limit, A
	MostLoad         units.Quantity // that the limit lets through from this input, A
	Overrun          units.Quantity // that the delay adds, A
	LargestPeak      units.Quantity // in a fault, A
	SaturationMargin units.Quantity // of Saturation above LargestPeak, A
	SaturationShare  units.Quantity // of Saturation that is left, no unit
}

// CurrentLimit holds the limit of the switch current against the peaks of
// operation below it and the inductor's saturation above it.
//
//	PeakMargin       = limit − Peak
//	Peak(MostMean)   = limit
//	MostLoad         = MostMean · (1 − Duty at MostMean)
//	Overrun          = input · delay/together
//	LargestPeak      = limit + Overrun
//	SaturationMargin = saturation − LargestPeak
//	SaturationShare  = SaturationMargin/saturation
//
// with Peak and together as Currents finds them. In continuous conduction
// MostMean is limit − Ripple/2, and without drops MostLoad that times
// input/(input + size of the output).
//
// Arguments: Stage; Limit and Saturation, A, above zero; Delay, s, not below
// zero. It is an error outside of that, and where the limit alone would drop
// half the input in switch and winding. Whether the margins suffice is for a
// requirement of the note to say.
//
//	l, err := inverting.CurrentLimit(inverting.CurrentLimitInputs{
//		Stage: stage, Limit: Band(2.5A, 3.1A, 3.7A), Delay: 60ns, Saturation: 4.2A,
//	})
//	Require(l.PeakMargin > 0A, "the limit does not trip in operation")
//
// Give Input as a range: PeakMargin and MostLoad are least at its low end. The
// load that a regulator for 3 A of switch current can give is far below 3 A.
//
// Holds for a limit on the peak in each period. Two inductors of their own
// each take a part of LargestPeak that Inductors tells in operation only: give
// them Saturation each, or the sum of both and look at Inductors too.
//
// Source: volt-second balance and the triangle of the current, as Currents;
// SNVAA63 and SNVA962 (Texas Instruments) have MostLoad without the ripple.
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
	p := in.Stage.parts()
	drops := in.Limit.Mul(p.on.Add(p.winding))
	if err := argument.First(function,
		argument.Under("what Limit drops in switch and winding", drops, "half the input", in.Stage.Input.Mul(units.Number(0.5)), "with so much lost more current brings no more load; lower Limit or the resistances"),
	); err != nil {
		return CurrentLimitResult{}, err
	}
	c, err := in.Stage.cycle()
	if err != nil {
		return CurrentLimitResult{}, argument.Within(function, err)
	}
	mostMean := in.Stage.mostMean(in.Limit)
	on, off := in.Stage.voltages(mostMean)
	mostLoad := mostMean.Mul(on).Div(on.Add(off))
	overrun := in.Stage.Input.Mul(delay).Div(in.Stage.together())
	largestPeak := in.Limit.Add(overrun)
	saturationMargin := in.Saturation.Sub(largestPeak)
	return CurrentLimitResult{
		Peak:             c.Peak,
		PeakMargin:       in.Limit.Sub(c.Peak),
		MostMean:         mostMean,
		MostLoad:         mostLoad,
		Overrun:          overrun,
		LargestPeak:      largestPeak,
		SaturationMargin: saturationMargin,
		SaturationShare:  saturationMargin.Div(in.Saturation),
	}, nil
}

// voltages are those across the inductance at a mean of the current in switch
// and rectifier. A SEPIC's windings carry shares of it that depend on the
// duty, for which the balance of both voltages is quadratic.
func (s Stage) voltages(mean units.Quantity) (on, off units.Quantity) {
	p, wanted := s.parts(), s.size()
	rising, falling := mean.Mul(p.on), wanted.Add(p.diode).Add(mean.Mul(p.rectifier))
	if !s.SEPIC {
		winding := mean.Mul(p.winding)
		return s.Input.Sub(rising).Sub(winding), falling.Add(winding)
	}
	two, four := units.Number(2), units.Number(4)
	first, second := mean.Mul(p.winding), mean.Mul(p.second)
	a := first.Add(second)
	b := s.Input.Sub(rising).Add(falling).Add(two.Mul(second))
	c := falling.Add(second)
	duty := two.Mul(c).Div(b.Add(units.Sqrt(b.Mul(b).Sub(four.Mul(a).Mul(c)))))
	return s.Input.Sub(rising).Sub(first.Mul(duty)), falling.Add(second.Mul(units.Number(1).Sub(duty)))
}

// peak is that of the current at a mean.
func (s Stage) peak(mean units.Quantity) units.Quantity {
	on, off := s.voltages(mean)
	half := on.Mul(off).Div(on.Add(off)).Div(s.together()).Div(s.Frequency).Mul(units.Number(0.5))
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
	zero, one := limit.Sub(limit), units.Number(1)
	mean := units.Solve("the mean current at the limit", zero, limit, func(mean units.Quantity) units.Quantity {
		over := s.peak(mean).Sub(limit).Div(limit)
		return units.Where(zero, mean, units.Where(mean, limit, over, one), one.Neg())
	})
	return units.Where(s.peak(zero), limit, mean, zero)
}
