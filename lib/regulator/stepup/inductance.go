package stepup

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// InductanceInputs are the arguments of Inductance.
type InductanceInputs struct {
	Stage Stage          // without Inductance; Load is the largest
	Ratio units.Quantity // ripple wanted, peak to peak, as a share of the inductor's mean current, no unit
}

// InductanceResult is what Inductance finds.
type InductanceResult struct {
	Duty       units.Quantity // share of a period with the switch on, no unit
	Mean       units.Quantity // of the inductor's current, A
	Ripple     units.Quantity // peak to peak, A
	OnTime     units.Quantity // in which the current rises by Ripple, s
	OnVoltage  units.Quantity // across the inductance meanwhile, V
	Inductance units.Quantity // H
}

// Inductance finds the inductance that makes a wanted ripple of the current.
//
//	Ripple     = Ratio · Mean
//	OnTime     = Duty/frequency
//	Inductance = OnVoltage · OnTime/Ripple
//
// with Duty, Mean and OnVoltage as function Duty finds them.
//
// Arguments: Stage, of which Load, A, is above zero here and Inductance is
// left out; Ratio, above zero and at most 200 %, at which the current just
// comes to rest. It is an error outside of that.
//
//	l, err := stepup.Inductance(stepup.InductanceInputs{
//		Stage: stepup.Stage{Input: Range(3V, 3.7V, 4.2V), Output: 12V, Load: 0.2A, Frequency: 1MHz}, Ratio: 40%,
//	})
//
// Give Input as a range and take High(l.Inductance): of one ripple ratio the
// inductance is largest where the input is two thirds of the output, which may
// lie inside the range. Common practice is a Ratio of 20 % to 40 %.
//
// Source: definition of inductance; the ratio is in many data sheets and in
// SLVA372D.
//
// Caution: a larger inductance lowers the zero in the right half plane, and
// with it the highest crossover of the loop: see RightHalfPlaneZero.
func Inductance(in InductanceInputs) (InductanceResult, error) {
	const function = "stepup.Inductance"
	if err := argument.First(function,
		argument.Unset("Inductance", in.Stage.Inductance, "leave it out, or use Currents to see what it makes"),
		in.Stage.check(),
		argument.Current.Positive("Load", in.Stage.Load),
		argument.Share.Positive("Ratio", in.Ratio),
	); err != nil {
		return InductanceResult{}, err
	}
	if err := argument.First(function,
		argument.AtMost("Ratio", in.Ratio, "twice the mean current", units.Number(2), "above that the current rests and the ratio means nothing; write a smaller ratio"),
	); err != nil {
		return InductanceResult{}, err
	}
	d := in.Stage.duty()
	ripple := in.Ratio.Mul(d.Mean)
	onTime := d.Duty.Div(in.Stage.Frequency)
	inductance := d.OnVoltage.Mul(onTime).Div(ripple)
	return InductanceResult{
		Duty:       d.Duty,
		Mean:       d.Mean,
		Ripple:     ripple,
		OnTime:     onTime,
		OnVoltage:  d.OnVoltage,
		Inductance: inductance,
	}, nil
}
