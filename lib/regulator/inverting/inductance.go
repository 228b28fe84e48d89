package inverting

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// InductanceInputs are the arguments of Inductance.
type InductanceInputs struct {
	Stage Stage          // without inductances; Load is the largest
	Ratio units.Quantity // ripple wanted, peak to peak, as a share of Current, no unit
}

// InductanceResult is what Inductance finds.
type InductanceResult struct {
	Duty       units.Quantity // share of a period with the switch on, no unit
	Current    units.Quantity // mean in the switch while it conducts, A
	Ripple     units.Quantity // of that current, peak to peak, A
	OnTime     units.Quantity // in which the current rises by Ripple, s
	OnVoltage  units.Quantity // across the inductance meanwhile, V
	Inductance units.Quantity // for the field of the Stage, H
}

// Inductance finds the inductance that makes a wanted ripple of the current
// in the switch.
//
//	Ripple     = Ratio · Current
//	OnTime     = Duty/frequency
//	Inductance = OnVoltage · OnTime/Ripple
//
// with Duty, Current and OnVoltage as function Duty finds them; twice that for
// each of a SEPIC's inductors unless they are Coupled, because both take
// current at a time.
//
// Arguments: Stage, of which Load, A, is above zero here and Inductance and
// Second are left out; Ratio, above zero and at most 200 %, at which the
// current just comes to rest. It is an error outside of that.
//
//	l, err := inverting.Inductance(inverting.InductanceInputs{
//		Stage: inverting.Stage{Input: 12V, Output: -5V, Load: 1A, Frequency: 500kHz, Diode: 0.5V}, Ratio: 40%,
//	})
//	// l.Inductance: 12.93 µH
//
// Give Input as a range and take High(l.Inductance): it is at the highest
// input, where the same share of the smaller Current is asked for. Common
// practice is a Ratio of 20 % to 40 % at the lowest input. A ripple given as
// a share of the input current is the same share here, if both inductors of
// a SEPIC are equal, at a duty of a half.
//
// Source: definition of inductance; two equal windings with all of their flux
// in common take half of the ripple each (any textbook on coupled inductors).
//
// Caution: a larger inductance makes a lower right-half-plane zero, and so a
// slower loop. Give the chosen inductance its tolerance.
func Inductance(in InductanceInputs) (InductanceResult, error) {
	const function = "inverting.Inductance"
	const found = "leave it out, or use Currents to see what it makes"
	if err := argument.First(function,
		argument.Unset("Inductance", in.Stage.Inductance, found),
		argument.Unset("Second", in.Stage.Second, found),
		in.Stage.check(),
		argument.Current.Positive("Load", in.Stage.Load),
		argument.Share.Positive("Ratio", in.Ratio),
	); err != nil {
		return InductanceResult{}, err
	}
	if err := argument.First(function,
		argument.AtMost("Ratio", in.Ratio, "twice the current", units.Number(2), "above that the current rests and the ratio means nothing; write a smaller ratio"),
	); err != nil {
		return InductanceResult{}, err
	}
	d := in.Stage.duty()
	ripple := in.Ratio.Mul(d.Current)
	onTime := d.Duty.Div(in.Stage.Frequency)
	inductance := d.OnVoltage.Mul(onTime).Div(ripple)
	if in.Stage.SEPIC && !in.Stage.Coupled {
		inductance = d.OnVoltage.Mul(onTime).Div(ripple).Mul(units.Number(2))
	}
	return InductanceResult{
		Duty:       d.Duty,
		Current:    d.Current,
		Ripple:     ripple,
		OnTime:     onTime,
		OnVoltage:  d.OnVoltage,
		Inductance: inductance,
	}, nil
}
