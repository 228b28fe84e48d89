package switching

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// CoreLossInputs are the arguments of CoreLoss.
type CoreLossInputs struct {
	Ripple             units.Quantity // of the inductor's current, peak to peak, A
	Frequency          units.Quantity // Hz
	ReferenceLoss      units.Quantity // of the core at one point of its curves, W
	ReferenceRipple    units.Quantity // at that point, peak to peak, A
	ReferenceFrequency units.Quantity // at that point, Hz
	Alpha              float64        // exponent of the frequency, 1 to 2.5
	Beta               float64        // exponent of the flux swing, 1.5 to 3.5
}

// CoreLossResult is what CoreLoss finds.
type CoreLossResult struct {
	FrequencyRatio units.Quantity // no unit
	RippleRatio    units.Quantity // no unit
	Loss           units.Quantity // W
}

// CoreLoss computes the loss in an inductor's core from one published point
// of it and the exponents of the core's material.
//
//	FrequencyRatio = frequency/reference frequency
//	RippleRatio    = ripple/reference ripple
//	Loss           = reference loss · FrequencyRatio^alpha · RippleRatio^beta
//
// Arguments: Ripple, A, not below zero; Frequency, Hz, ReferenceLoss, W,
// ReferenceRipple, A, and ReferenceFrequency, Hz, above zero, with ratios
// below 100, beyond which no curve is straight; Alpha from 1 to 2.5 and Beta
// from 1.5 to 3.5. It is an error outside of that.
//
//	c, err := switching.CoreLoss(switching.CoreLossInputs{
//		Ripple: i.Ripple, Frequency: 400kHz,
//		ReferenceLoss: 60mW, ReferenceRipple: 0.5A, ReferenceFrequency: 500kHz, Alpha: 1.4, Beta: 2.3,
//	})
//
// The flux swings in proportion to the ripple, so the ratio of ripples is that
// of the fluxes, and neither turns nor area are needed.
//
// Holds within about a factor of three of the point, for sine-like excitation;
// short duty cycles lose more.
//
// Source: C. P. Steinmetz, On the law of hysteresis, 1892, in the form with
// an exponent of the frequency that makers of cores fit, from memory.
func CoreLoss(in CoreLossInputs) (CoreLossResult, error) {
	const function = "switching.CoreLoss"
	if err := argument.First(function,
		argument.Current.NotNegative("Ripple", in.Ripple),
		argument.Frequency.Positive("Frequency", in.Frequency),
		argument.Power.Positive("ReferenceLoss", in.ReferenceLoss),
		argument.Current.Positive("ReferenceRipple", in.ReferenceRipple),
		argument.Frequency.Positive("ReferenceFrequency", in.ReferenceFrequency),
		exponent("Alpha", in.Alpha, 1, 2.5),
		exponent("Beta", in.Beta, 1.5, 3.5),
	); err != nil {
		return CoreLossResult{}, err
	}
	const far = "the exponents hold near the reference only; take a nearer point of the curves"
	frequencyRatio := in.Frequency.Div(in.ReferenceFrequency)
	rippleRatio := in.Ripple.Div(in.ReferenceRipple)
	limit := units.Number(100)
	if err := argument.First(function,
		argument.Under("Frequency/ReferenceFrequency", frequencyRatio, "a hundredfold", limit, far),
		argument.Under("Ripple/ReferenceRipple", rippleRatio, "a hundredfold", limit, far),
	); err != nil {
		return CoreLossResult{}, err
	}
	loss := in.ReferenceLoss.Mul(units.Pow(frequencyRatio, in.Alpha)).Mul(units.Pow(rippleRatio, in.Beta))
	return CoreLossResult{FrequencyRatio: frequencyRatio, RippleRatio: rippleRatio, Loss: loss}, nil
}

func exponent(name string, x, least, most float64) error {
	if least <= x && x <= most {
		return nil
	}
	return fmt.Errorf("%s is %g; it must be from %g to %g: take it from the curves of the core's material", name, x, least, most)
}
