package stepdown

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// InductanceInputs are the arguments of Inductance.
type InductanceInputs struct {
	Stage Stage          // without Inductance; Load is the largest
	Ratio units.Quantity // ripple wanted, peak to peak, as a share of Load, no unit
}

// InductanceResult is what Inductance finds.
type InductanceResult struct {
	Duty       units.Quantity // share of a period with the high switch on, no unit
	Ripple     units.Quantity // peak to peak, A
	OffTime    units.Quantity // in which the current falls by Ripple, s
	OffVoltage units.Quantity // across the inductance meanwhile, V
	Inductance units.Quantity // H
}

// Inductance finds the inductance that makes a wanted ripple of the current.
//
//	Ripple     = Ratio · load
//	OffTime    = (1 − Duty)/frequency
//	Inductance = OffVoltage · OffTime/Ripple
//
// with Duty and OffVoltage as function Duty finds them.
//
// Arguments: Stage, of which Load, A, is above zero here and Inductance is
// left out; Ratio, above zero and at most 200 %, at which the current just
// comes to rest. It is an error outside of that.
//
//	l, err := stepdown.Inductance(stepdown.InductanceInputs{
//		Stage: stepdown.Stage{Input: 42V, Output: 3.3V, Load: 5A, Frequency: 400kHz}, Ratio: 30%,
//	})
//	// l.Inductance: 5.068 µH
//
// Give Input as a range and take High(l.Inductance), which is at the highest
// input; and the largest load as Load. Common practice is a Ratio of 20 % to
// 40 %: less makes a large inductor and a slow answer to load steps, more a
// large peak and more loss.
//
// Source: definition of inductance; the ratio is in every regulator's data
// sheet.
//
// Caution: regulators with current-mode control often need a least ripple;
// look for it in the data sheet, and give the chosen inductance its tolerance.
func Inductance(in InductanceInputs) (InductanceResult, error) {
	const function = "stepdown.Inductance"
	if err := argument.First(function,
		argument.Unset("Inductance", in.Stage.Inductance, "leave it out, or use Currents to see what it makes"),
		in.Stage.check(),
		argument.Current.Positive("Load", in.Stage.Load),
		argument.Share.Positive("Ratio", in.Ratio),
	); err != nil {
		return InductanceResult{}, err
	}
	if err := argument.First(function,
		argument.AtMost("Ratio", in.Ratio, "twice the load", units.Number(2), "above that the current rests and the ratio means nothing; write a smaller ratio"),
	); err != nil {
		return InductanceResult{}, err
	}
	d := in.Stage.duty()
	ripple := in.Ratio.Mul(in.Stage.Load)
	offTime := units.Number(1).Sub(d.Duty).Div(in.Stage.Frequency)
	inductance := d.OffVoltage.Mul(offTime).Div(ripple)
	return InductanceResult{
		Duty:       d.Duty,
		Ripple:     ripple,
		OffTime:    offTime,
		OffVoltage: d.OffVoltage,
		Inductance: inductance,
	}, nil
}
