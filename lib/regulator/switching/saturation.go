package switching

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// SaturationInputs are the arguments of Saturation.
type SaturationInputs struct {
	Cycle CycleInputs // Inductance is that without current, with its tolerance
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
//	Inductance = cycle's inductance · Remaining
//	Peak       = what Cycle finds with Inductance
//	Ripple     = the same
//	Headroom   = last current of the curve − Peak
//
// which Peak and Inductance solve together.
//
// Arguments: Cycle, as function Cycle takes it; Curve, with current in A and
// inductance in H or %, the first row almost without current. It is an error
// outside of that, and where the peak would lie beyond the curve: the inductor
// saturates.
//
//	s, err := switching.Saturation(switching.SaturationInputs{Cycle: cycle, Curve: Table("inductor.csv")})
//	Require(s.Remaining >= 70%, "the inductor does not saturate in operation")
//
// The inductance at the peak counts for all of the ripple, so that the peak
// is on the safe side. The curve's own figure without current does not: that,
// with its tolerance, is the cycle's.
//
// Source: definition of inductance; common practice.
//
// Caution: take the curve at the inductor's highest temperature; ferrite
// saturates abruptly and at a lower current when hot. Curves are typical.
func Saturation(in SaturationInputs) (SaturationResult, error) {
	const function = "switching.Saturation"
	kind := in.Curve.Expect("Curve", "A", "H")
	if kind != nil && in.Curve.Expect("Curve", "A", "%") == nil {
		kind = nil
	}
	if err := argument.First(function, kind); err != nil {
		return SaturationResult{}, err
	}
	if _, err := Cycle(in.Cycle); err != nil {
		return SaturationResult{}, argument.Within(function, err)
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
	at := func(current units.Quantity) (remaining units.Quantity) {
		y, err := curve.At(current)
		if err != nil {
			// Held curves have a value everywhere, so that none is lost here.
			panic(fmt.Sprintf("%s: %v", function, err))
		}
		return y.Div(whole)
	}
	if err := argument.First(function,
		argument.Under("the peak with what the curve leaves at its end", in.Cycle.peak(at(high)), "the last current of Curve", high, "the inductor saturates; take a larger one, or lower the load or the ripple"),
	); err != nil {
		return SaturationResult{}, err
	}
	peak := units.Solve("the peak", low.Sub(low), high, func(x units.Quantity) units.Quantity {
		return x.Sub(in.Cycle.peak(at(x)))
	})
	remaining := at(peak)
	inductance := in.Cycle.Inductance.Mul(remaining)
	in.Cycle.Inductance = inductance
	c, err := Cycle(in.Cycle)
	if err != nil {
		return SaturationResult{}, argument.Within(function, err)
	}
	return SaturationResult{
		Remaining:  remaining,
		Inductance: inductance,
		Ripple:     c.Ripple,
		Peak:       peak,
		Headroom:   high.Sub(peak),
	}, nil
}

// peak is that of Cycle, with a share of the inductance.
func (in CycleInputs) peak(remaining units.Quantity) units.Quantity {
	inductance := in.Inductance.Mul(remaining)
	volts := in.OnVoltage.Mul(in.OffVoltage).Div(in.OnVoltage.Add(in.OffVoltage))
	half := volts.Div(inductance).Div(in.Frequency).Mul(units.Number(0.5))
	flowing := in.Mean.Add(half)
	if in.Forced {
		return flowing
	}
	resting := units.Sqrt(units.Number(4).Mul(in.Mean).Mul(half))
	return units.Where(in.Mean, half, resting, flowing)
}
