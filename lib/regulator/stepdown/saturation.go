package stepdown

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// SaturationInputs are the arguments of Saturation.
type SaturationInputs struct {
	Stage Stage       // Inductance is that without current, with its tolerance
	Curve table.Table // inductance, H or %, over current, A, from almost none on
}

// SaturationResult is what Saturation finds.
type SaturationResult struct {
	Remaining  units.Quantity // share of the inductance that is left at the peak, no unit
	Inductance units.Quantity // at the peak, H
	Ripple     units.Quantity // of the inductor's current with it, peak to peak, A
	Peak       units.Quantity // of the inductor's current, A
	Headroom   units.Quantity // from Peak to the last current of the curve, A
}

// Saturation finds the peak of the current in an inductor whose inductance
// falls as the current rises, from a curve of its data sheet.
//
//	Remaining  = curve(Peak)/curve(its first current)
//	Inductance = stage's inductance · Remaining
//	Peak       = what Currents finds with Inductance
//	Ripple     = the same
//	Headroom   = last current of the curve − Peak
//
// which Peak and Inductance solve together.
//
// Arguments: Stage; Curve, with current in A and inductance in H or %, the
// first row almost without current. It is an error outside of that, and where
// the peak would lie beyond the curve: the inductor saturates.
//
//	s, err := stepdown.Saturation(stepdown.SaturationInputs{Stage: stage, Curve: Table("inductor.csv")})
//	Require(s.Remaining >= 70%, "the inductor does not saturate in operation")
//
// The inductance at the peak counts for all of the ripple, so that the peak
// is on the safe side. The curve's own figure without current does not: that,
// with its tolerance, is the stage's.
//
// Source: definition of inductance; common practice.
//
// Caution: take the curve at the inductor's highest temperature; ferrite
// saturates abruptly and at a lower current when hot. Curves are typical.
func Saturation(in SaturationInputs) (SaturationResult, error) {
	const function = "stepdown.Saturation"
	kind := in.Curve.Expect("Curve", "A", "H")
	if kind != nil && in.Curve.Expect("Curve", "A", "%") == nil {
		kind = nil
	}
	if err := argument.First(function, in.Stage.withInductor(), kind); err != nil {
		return SaturationResult{}, err
	}
	low, high, err := in.Curve.Ends(in.Curve.Columns()[0])
	if err != nil {
		return SaturationResult{}, argument.First(function, err)
	}
	curve := in.Curve.Held()
	whole, err := curve.At(low)
	if err != nil {
		return SaturationResult{}, argument.First(function, err)
	}
	end, err := curve.At(high)
	if err != nil {
		return SaturationResult{}, argument.First(function, err)
	}
	// At an inductance of nothing there is no current to speak of.
	if err := argument.First(function,
		argument.AtLeast("the first current of Curve", low, "zero", low.Sub(low), "a current runs from none up"),
		argument.Above("the last inductance of Curve", end, "zero", end.Sub(end), "leave out rows in which nothing is left"),
		argument.AtLeast("the first inductance of Curve", whole, "the last", end, "an inductance falls as the current rises"),
	); err != nil {
		return SaturationResult{}, err
	}
	at := func(peak units.Quantity) (remaining units.Quantity, s Stage) {
		y, err := curve.At(peak)
		if err != nil {
			// Held curves have a value everywhere, so that none is lost here.
			panic(fmt.Sprintf("%s: %v", function, err))
		}
		s = in.Stage
		remaining = y.Div(whole)
		s.Inductance = in.Stage.Inductance.Mul(remaining)
		return remaining, s
	}
	_, last := at(high)
	if err := argument.First(function,
		argument.Under("the peak with what the curve leaves at its end", last.currents().Peak, "the last current of Curve", high, "the inductor saturates; take a larger one, or lower the load or the ripple"),
	); err != nil {
		return SaturationResult{}, err
	}
	peak := units.Solve("the peak", low.Sub(low), high, func(x units.Quantity) units.Quantity {
		_, s := at(x)
		return x.Sub(s.currents().Peak)
	})
	remaining, s := at(peak)
	return SaturationResult{
		Remaining:  remaining,
		Inductance: s.Inductance,
		Ripple:     s.currents().Ripple,
		Peak:       peak,
		Headroom:   high.Sub(peak),
	}, nil
}
