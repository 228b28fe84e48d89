package linear

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// SurgeInputs are the arguments of Surge.
type SurgeInputs struct {
	Peak     units.Quantity // voltage of the surge without load, V
	Source   units.Quantity // resistance that it comes from, Ω
	Duration units.Quantity // for which it stays, s
	Clamp    units.Quantity // voltage of a clamp at the input at its current, V; left out: no clamp
	Rating   units.Quantity // highest input voltage that the regulator survives, V
	Output   units.Quantity // voltage that comes out, V
	Load     units.Quantity // current drawn from the output meanwhile, A
}

// SurgeResult is what Surge finds.
type SurgeResult struct {
	Arriving     units.Quantity // voltage at the regulator's input, V
	Margin       units.Quantity // left to Rating, V; below zero: too high
	ClampCurrent units.Quantity // through the clamp, A
	ClampPower   units.Quantity // in the clamp, W
	ClampEnergy  units.Quantity // in the clamp over Duration, J
	Loss         units.Quantity // in the regulator's pass element meanwhile, W
	Heat         units.Quantity // in the regulator over Duration, J
}

// Surge computes what a surge on the supply, such as the load dump of a
// vehicle, does at a regulator's input, with or without a clamp.
//
//	Arriving     = peak, not above clamp
//	Margin       = rating − Arriving
//	ClampCurrent = (peak − clamp)/source, not below 0
//	ClampPower   = clamp · ClampCurrent
//	ClampEnergy  = ClampPower · duration
//	Loss         = (Arriving − output) · load, not below 0
//	Heat         = Loss · duration
//
// Arguments: see SurgeInputs; all above zero but Load, which is not below. It
// is an error outside of that. More than Rating is none: Margin is below zero
// by what is too much.
//
//	s, err := linear.Surge(linear.SurgeInputs{
//		Peak: 79V, Source: 0.5Ω, Duration: 40ms, Clamp: 36V, Rating: 40V, Output: 5V, Load: 100mA,
//	})
//	// s.ClampCurrent: 86 A; s.ClampEnergy: 123.8 J; s.Margin: 4 V
//
// Holds for a surge that keeps its peak; one that decays has less energy, so
// the figures are upper bounds. The load is not counted in the clamp's
// favour.
//
// Source: Ohm's law. ISO 16750-2, load dump of an alternator without
// suppression: 79 V with 0.5 Ω to 101 V with 4 Ω in a 12 V system, 151 V with
// 1 Ω to 202 V with 8 Ω in a 24 V system, 40 ms to 400 ms; with suppression
// 35 V in the 12 V system.
//
// Caution: the low voltage with the low resistance is the hard end for a
// clamp, the high voltage for the regulator. A clamp has its tolerance and
// rises with its current: take the voltage at ClampCurrent. A clamp below the
// voltage of a jump start (24 V for minutes in a 12 V system) burns. Most
// regulators' ratings hold for the surge as well, however short it is. The
// short surges of IEC 61000-4-5 are protect.Surge.
func Surge(in SurgeInputs) (SurgeResult, error) {
	clamp := in.Peak
	if argument.Given(in.Clamp) {
		clamp = in.Clamp
	}
	if err := argument.First("linear.Surge",
		argument.Voltage.Positive("Peak", in.Peak),
		argument.Resistance.Positive("Source", in.Source),
		argument.Time.Positive("Duration", in.Duration),
		argument.Voltage.Positive("Clamp", clamp),
		argument.Voltage.Positive("Rating", in.Rating),
		argument.Voltage.Positive("Output", in.Output),
		argument.Current.NotNegative("Load", in.Load),
	); err != nil {
		return SurgeResult{}, err
	}
	zero := argument.Voltage.OrZero(none)
	arriving := units.Min(in.Peak, clamp)
	margin := in.Rating.Sub(arriving)
	clampCurrent := units.Max(in.Peak.Sub(clamp), zero).Div(in.Source)
	clampPower := clamp.Mul(clampCurrent)
	clampEnergy := clampPower.Mul(in.Duration)
	loss := units.Max(arriving.Sub(in.Output), zero).Mul(in.Load)
	heat := loss.Mul(in.Duration)
	return SurgeResult{
		Arriving:     arriving,
		Margin:       margin,
		ClampCurrent: clampCurrent,
		ClampPower:   clampPower,
		ClampEnergy:  clampEnergy,
		Loss:         loss,
		Heat:         heat,
	}, nil
}
