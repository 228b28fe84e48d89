package thermal

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// CurvePulseInputs are the arguments of CurvePulse.
type CurvePulseInputs struct {
	Curve     table.Table    // single-pulse impedance: time [s] log, impedance [K/W] log
	Steady    units.Quantity // thermal resistance after a long time, K/W; needed with Period
	Reference units.Quantity // temperature of the point that the curve is stated to, which stays, °C
	Limit     units.Quantity // highest junction temperature allowed, °C
	Power     units.Quantity // during each pulse, W
	Duration  units.Quantity // of the pulse, s
	Period    units.Quantity // from one pulse to the next, s; left out: a single pulse
}

// CurvePulseResult is what CurvePulse finds.
type CurvePulseResult struct {
	Single       units.Quantity // impedance of a single pulse, K/W
	Impedance    units.Quantity // that the pulses see at their ends, K/W
	Rise         units.Quantity // at the end of each pulse, K
	Peak         units.Quantity // temperature there, °C
	Margin       units.Quantity // left to Limit, K; below zero: too hot
	LargestPower units.Quantity // with which Peak is Limit, W
}

// CurvePulse computes what a single pulse or a long train of equal pulses
// heats, from the curve of the transient thermal impedance in a data sheet.
//
//	Single       = Zth(duration)
//	Impedance    = Single of a single pulse, and of a train
//	             = Duty · Steady + (1 − Duty) · Zth(period + duration) + Single − Zth(period)
//	Duty         = duration/period
//	Rise         = power · Impedance
//	Peak         = reference + Rise
//	Margin       = limit − Peak
//	LargestPower = (limit − reference)/Impedance
//
// with Zth read from the curve.
//
// Arguments: Curve, s and K/W, over all of duration, period and their sum, or
// Held at its long end; Steady, K/W, above zero; Reference and Limit, °C, Limit
// above Reference; Power, W, not below zero; Duration and Period, s, above zero,
// Duration not above Period. It is an error outside of that.
//
//	zth := table.Text("time [s] log, impedance [K/W] log\n1e-4, 0.06\n1e-3, 0.2\n1e-2, 0.6\n0.1, 1.2\n1, 1.6")
//	p, err := thermal.CurvePulse(thermal.CurvePulseInputs{
//		Curve: zth.Held(), Steady: 1.6K/W, Reference: 50°C, Limit: 150°C, Power: 20W, Duration: 5ms, Period: 50ms,
//	})
//
// Holds for a single pulse as well as the curve can be read, to 10 %. The
// figure for a train takes all pulses but the last two as their mean; against
// the exact train of Foster networks it is within 10 %, and at a duty of one
// exact. With stages of a Foster network PulseTrain is exact.
//
// Source: Motorola AN569, Transient thermal resistance, general data and its
// use, from memory; superposition.
//
// Caution: a normalised curve r(t) is multiplied by its resistance first. The
// family of curves for several duties, which data sheets print, is this
// formula already: take the curve that is called single pulse.
func CurvePulse(in CurvePulseInputs) (CurvePulseResult, error) {
	const function = "thermal.CurvePulse"
	train := argument.Given(in.Period)
	if err := argument.First(function,
		in.Curve.Expect("Curve", "s", "K/W"),
		argument.Temperature("Reference", in.Reference),
		argument.Temperature("Limit", in.Limit),
		argument.Power.NotNegative("Power", in.Power),
		argument.Time.Positive("Duration", in.Duration),
		argument.Time.Optional("Period", in.Period),
	); err != nil {
		return CurvePulseResult{}, err
	}
	if err := argument.First(function,
		argument.Above("Limit", in.Limit, "Reference", in.Reference, limitMend),
	); err != nil {
		return CurvePulseResult{}, err
	}
	single, err := in.read(in.Duration)
	if err != nil {
		return CurvePulseResult{}, argument.First(function, err)
	}
	impedance := single
	if train {
		if err := argument.First(function,
			argument.AtMost("Duration", in.Duration, "Period", in.Period, "lengthen the period, or take the power as constant"),
			argument.ThermalResistance.Positive("Steady", in.Steady),
		); err != nil {
			return CurvePulseResult{}, err
		}
		if impedance, err = in.train(single); err != nil {
			return CurvePulseResult{}, argument.First(function, err)
		}
	}
	rise := in.Power.Mul(impedance)
	peak := in.Reference.Add(rise)
	margin := in.Limit.Sub(peak)
	largestPower := in.Limit.Sub(in.Reference).Div(impedance)
	return CurvePulseResult{Single: single, Impedance: impedance, Rise: rise, Peak: peak, Margin: margin, LargestPower: largestPower}, nil
}

func (in CurvePulseInputs) train(single units.Quantity) (units.Quantity, error) {
	oneMore, err := in.read(in.Period.Add(in.Duration))
	if err != nil {
		return none, err
	}
	onePeriod, err := in.read(in.Period)
	if err != nil {
		return none, err
	}
	duty := in.Duration.Div(in.Period)
	before := duty.Mul(in.Steady).Add(units.Number(1).Sub(duty).Mul(oneMore))
	impedance := before.Add(single).Sub(onePeriod)
	if at := argument.NotAbove(impedance, argument.ThermalResistance.OrZero(none), impedance); at != nil {
		return none, fmt.Errorf("the impedance of the train comes out as %s: Curve falls between Duration and Period; that of a single pulse only rises", at[0])
	}
	return impedance, nil
}

// read reads the curve, whose values must be impedances to go on with.
func (in CurvePulseInputs) read(time units.Quantity) (units.Quantity, error) {
	impedance, err := in.Curve.At(time)
	if err != nil {
		return none, err
	}
	return impedance, argument.ThermalResistance.Positive("the impedance in Curve", impedance)
}
