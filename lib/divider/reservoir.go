package divider

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// ReservoirInputs are the arguments of ReservoirSampling.
type ReservoirInputs struct {
	Reference units.Quantity // voltage at which the converter is full, V
	Bits      int            // resolution of the converter
	Source    units.Quantity // resistance of what charges the reservoir, Ω
	Reservoir units.Quantity // capacitor at the converter's pin, F
	Sampling  units.Quantity // sampling capacitor of the converter, F
	Period    units.Quantity // from one sample of this pin to the next, s
}

// ReservoirResult is what ReservoirSampling finds.
type ReservoirResult struct {
	Share          units.Quantity // of the difference, that the sampling capacitor takes, no unit
	Step           units.Quantity // one step of the converter, V
	Dip            units.Quantity // of the node at a first sample, V
	DipInSteps     units.Quantity // the same in steps of the converter, no unit
	LeastReservoir units.Quantity // capacitor with which the first dip is half a step, F
	TimeConstant   units.Quantity // source · reservoir, s
	Recovery       units.Quantity // until half a step is left of the dip, s; zero if it is less
	Remaining      units.Quantity // share of an error that is left after Period, no unit
	SampleError    units.Quantity // of every sample after many, V
	ErrorInSteps   units.Quantity // the same in steps of the converter, no unit
}

// ReservoirSampling computes what a converter does to a node that is held by
// a capacitor: the sampling capacitor takes its charge from the reservoir at
// once, and the divider fills it up again until the next sample.
//
//	Share          = sampling/(sampling + reservoir)
//	Step           = reference/2^bits
//	Dip            = reference · Share
//	LeastReservoir = sampling · (2^(bits+1) − 1)
//	TimeConstant   = source · reservoir
//	Recovery       = TimeConstant · ln(Dip/(Step/2))
//	Remaining      = e^(−period/TimeConstant)
//	SampleError    = reference · Share/(Share + (1 − Share)(1 − Remaining))
//
// SampleError follows from the charge balance in the steady state. With an
// error e before a sample the node has (1 − Share)·e + Share·reference after
// it, and that times Remaining before the next one; e repeats itself. For
// short periods it comes near reference·source·sampling/period: the average
// current of a switched capacitor through the source.
//
// Arguments: see ReservoirInputs; all above zero, Bits from 1 to 32. It is
// an error outside of that. The sampling capacitor is taken to come a full
// scale away from the node each time, as after a grounded channel of a
// multiplexer; a converter on one channel finds the capacitor nearly charged
// and errs less.
//
//	r, err := divider.ReservoirSampling(divider.ReservoirInputs{
//		Reference: 3.3V, Bits: 12, Source: 9.091kΩ, Reservoir: 100nF, Sampling: 14pF, Period: 1ms,
//	})
//	// r.DipInSteps: 0.573; r.LeastReservoir: 114.7 nF; r.ErrorInSteps: 0.859
//
// Holds while the acquisition time is long enough for the sampling capacitor
// to settle through the switch alone, and far shorter than TimeConstant.
//
// Source: charge balance, written out above; the rule for LeastReservoir is
// common practice in converter application notes.
//
// Caution: a large reservoir slows the measurement (see Filter); a fast
// period with a large reservoir leaves a standing error, however small the
// dip.
func ReservoirSampling(in ReservoirInputs) (ReservoirResult, error) {
	if err := argument.First("divider.ReservoirSampling",
		argument.Voltage.Positive("Reference", in.Reference),
		argument.Count("Bits", in.Bits, fewestBits, mostBits, bitsMend),
		argument.Resistance.Positive("Source", in.Source),
		argument.Capacitance.Positive("Reservoir", in.Reservoir),
		argument.Capacitance.Positive("Sampling", in.Sampling),
		argument.Time.Positive("Period", in.Period),
	); err != nil {
		return ReservoirResult{}, err
	}
	reference, reservoir, sampling := in.Reference, in.Reservoir, in.Sampling
	one := units.Number(1)
	share := sampling.Div(sampling.Add(reservoir))
	step := reference.Div(units.Pow(units.Number(2), float64(in.Bits)))
	dip := reference.Mul(share)
	dipInSteps := dip.Div(step)
	leastReservoir := sampling.Mul(units.Pow(units.Number(2), float64(in.Bits+1)).Sub(one))
	timeConstant := in.Source.Mul(reservoir)
	halfSteps := dipInSteps.Mul(units.Number(2))
	recovery := timeConstant.Mul(units.Ln(units.Max(halfSteps, one)))
	remaining := units.Exp(in.Period.Div(timeConstant).Neg())
	lost := one.Sub(share).Mul(one.Sub(remaining))
	sampleError := reference.Mul(share).Div(share.Add(lost))
	errorInSteps := sampleError.Div(step)
	return ReservoirResult{
		Share:          share,
		Step:           step,
		Dip:            dip,
		DipInSteps:     dipInSteps,
		LeastReservoir: leastReservoir,
		TimeConstant:   timeConstant,
		Recovery:       recovery,
		Remaining:      remaining,
		SampleError:    sampleError,
		ErrorInSteps:   errorInSteps,
	}, nil
}
