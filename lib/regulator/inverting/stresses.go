package inverting

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// StressesInputs are the arguments of Stresses.
type StressesInputs struct {
	Stage   Stage
	Ringing units.Quantity // that leads and capacitances add at the switch node, V; left out: none
	Rating  units.Quantity // largest voltage that switch and regulator stand, V
}

// StressesResult is what Stresses finds.
type StressesResult struct {
	Switch    units.Quantity // across the open switch, V
	Rectifier units.Quantity // across the blocking rectifier, V
	Regulator units.Quantity // from the regulator's supply pin to its ground pin, V
	Margin    units.Quantity // of Rating above Switch, V
	MostInput units.Quantity // at which Rating is reached, V
}

// Stresses computes the voltages that switch, rectifier and regulator stand.
//
//	Switch    = input + size + diode + ringing, where size is that of the output
//	Rectifier = input + size + ringing
//	Regulator = input + size; of a SEPIC, whose ground is ground, input
//	Margin    = rating − Switch
//	MostInput = rating − size − diode − ringing
//
// Arguments: Stage, of which inductances are not needed; Rating, V, above
// zero; Ringing, V, not below zero. It is an error outside of that, and where
// Rating does not exceed what output and ringing alone take.
//
//	v, err := inverting.Stresses(inverting.StressesInputs{Stage: stage, Ringing: 4V, Rating: 36V})
//	Require(v.Margin >= 0V, "the regulator stands input and output together")
//
// Give Input as a range: all are largest at its high end. Drops of
// resistances, which are small, are left out.
//
// Source: Kirchhoff's voltage law with the switch open and the rectifier
// conducting, and the other way round; LM5017 as an inverting regulator (Texas
// Instruments, 2012) for MostInput.
//
// Caution: a step-down regulator used inverted has its ground pin at the
// output, so a part for 36 V makes −12 V of at most 24 V less ringing; its
// input capacitor to that pin must stand the same. Ringing of 20 % to 40 % is
// usual before layout and snubber are known.
func Stresses(in StressesInputs) (StressesResult, error) {
	const function = "inverting.Stresses"
	ringing, diode := argument.Voltage.OrZero(in.Ringing), argument.Voltage.OrZero(in.Stage.Diode) // not what an Efficiency stands for
	if err := argument.First(function,
		in.Stage.check(),
		argument.Voltage.NotNegative("Ringing", ringing),
		argument.Voltage.Positive("Rating", in.Rating),
	); err != nil {
		return StressesResult{}, err
	}
	input, size := in.Stage.Input, in.Stage.size()
	taken := size.Add(diode).Add(ringing)
	if err := argument.First(function,
		argument.Above("Rating", in.Rating, "output, diode and ringing together", taken, "no input is left; take a part that stands more, or lower the output"),
	); err != nil {
		return StressesResult{}, err
	}
	open := input.Add(taken)
	regulator := input
	if !in.Stage.SEPIC {
		regulator = input.Add(size)
	}
	return StressesResult{
		Switch:    open,
		Rectifier: input.Add(size).Add(ringing),
		Regulator: regulator,
		Margin:    in.Rating.Sub(open),
		MostInput: in.Rating.Sub(taken),
	}, nil
}
