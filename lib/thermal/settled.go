package thermal

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// SettledInputs are the arguments of Settled.
type SettledInputs struct {
	Ambient    units.Quantity // °C
	Resistance units.Quantity // from where the loss is made to there, K/W
	Loss       units.Quantity // that grows with temperature, at At, W
	At         units.Quantity // temperature for which Loss is stated, °C
	Tempco     units.Quantity // by which Loss grows, of its value at At, 1/K
	Fixed      units.Quantity // loss that does not depend on temperature, W; left out: none
	Limit      units.Quantity // highest temperature allowed, °C
}

// SettledResult is what Settled finds.
type SettledResult struct {
	Gain           units.Quantity // of the loop of temperature and loss, no unit; below 1
	Cold           units.Quantity // loss at the ambient temperature, W
	Rise           units.Quantity // K
	Junction       units.Quantity // temperature at which it settles, °C
	Heat           units.Quantity // whole loss there, W
	Margin         units.Quantity // left to Limit, K; below zero: too hot
	RunawayThermal units.Quantity // thermal resistance from which it runs away, K/W
	AmbientMargin  units.Quantity // by which Ambient may rise until it settles at Limit, K; below zero: too hot
	LargestLoss    units.Quantity // value of Loss, at At, with which it settles at Limit, W
}

// Settled computes where a part comes to rest whose loss grows with its
// temperature in a straight line: a switch's on-resistance, a copper winding.
//
//	Gain           = resistance · loss · tempco
//	Cold           = fixed + loss · (1 + tempco · (ambient − at))
//	Rise           = resistance · Cold/(1 − Gain)
//	Junction       = ambient + Rise
//	Heat           = Rise/resistance
//	Margin         = limit − Junction
//	RunawayThermal = 1/(loss · tempco)
//	AmbientMargin  = limit − ambient − resistance · (fixed + loss · (1 + tempco · (limit − at)))
//	LargestLoss    = ((limit − ambient)/resistance − fixed)/(1 + tempco · (limit − at)), not below 0
//
// Arguments: Ambient, At and Limit, °C, Limit above Ambient; Resistance, K/W,
// Loss, W, and Tempco, 1/K, above zero; Fixed, W, not below zero. It is an
// error outside of that; where Gain is 1 or more, at which no ambient is cold
// enough and the part runs away; and where the straight line has fallen to no
// loss at Ambient already. The largest ambient is Ambient + AmbientMargin.
//
//	s, err := thermal.Settled(thermal.SettledInputs{
//		Ambient: 60°C, Resistance: 50K/W, Loss: 0.5W, At: 25°C, Tempco: 0.5%/K, Limit: 125°C,
//	})
//	// s.Gain: 12.5 %, s.Junction: 93.57 °C
//
// Holds for a constant current: I² · R grows with R. At a constant voltage the
// loss of a resistance falls with temperature. On-resistance is a curve rather
// than a line: take the tempco between where it works, or SettledCurve.
//
// Source: thermal stability, resistance · dP/dT below 1: R. Stout, Beyond the
// data sheet: demystifying thermal runaway, Power Electronics Technology,
// November 2007. Copper has 0.393 %/K of its resistance at 20 °C (IEC 60028).
//
// Caution: a Gain above a half makes the result uncertain: each per cent of
// error in the thermal resistance becomes two of the rise.
func Settled(in SettledInputs) (SettledResult, error) {
	const function = "thermal.Settled"
	fixed := argument.Power.OrZero(in.Fixed)
	if err := argument.First(function,
		argument.Temperature("Ambient", in.Ambient),
		argument.ThermalResistance.Positive("Resistance", in.Resistance),
		argument.Power.Positive("Loss", in.Loss),
		argument.Temperature("At", in.At),
		argument.Tempco.Positive("Tempco", in.Tempco),
		argument.Power.NotNegative("Fixed", fixed),
		argument.Temperature("Limit", in.Limit),
	); err != nil {
		return SettledResult{}, err
	}
	if err := argument.First(function,
		argument.Above("Limit", in.Limit, "Ambient", in.Ambient, limitMend),
	); err != nil {
		return SettledResult{}, err
	}
	one := units.Number(1)
	ambient, resistance, limit, tempco := in.Ambient, in.Resistance, in.Limit, in.Tempco
	gain := resistance.Mul(in.Loss).Mul(tempco)
	runawayThermal := one.Div(in.Loss.Mul(tempco))
	if at := argument.NotAbove(one, gain, gain, resistance, runawayThermal); at != nil {
		return SettledResult{}, fmt.Errorf("%s: the loop gain Resistance · Loss · Tempco is %s; from 1 on the part runs away at any ambient: bring Resistance, %s, below %s, or lower Loss", function, at[0], at[1], at[2])
	}
	coldFactor := one.Add(tempco.Mul(ambient.Sub(in.At)))
	hotFactor := one.Add(tempco.Mul(limit.Sub(in.At)))
	if at := argument.NotAbove(coldFactor, none, ambient, in.Tempco); at != nil {
		return SettledResult{}, fmt.Errorf("%s: Ambient is %s; with Tempco, %s, the straight line has fallen to no loss there: take the tempco between temperatures at which the part works", function, at[0], at[1])
	}
	cold := fixed.Add(in.Loss.Mul(coldFactor))
	rise := resistance.Mul(cold).Div(one.Sub(gain))
	junction := ambient.Add(rise)
	heat := rise.Div(resistance)
	margin := limit.Sub(junction)
	atLimit := fixed.Add(in.Loss.Mul(hotFactor))
	ambientMargin := limit.Sub(ambient).Sub(resistance.Mul(atLimit))
	zero := fixed.Sub(fixed)
	allowed := units.Max(limit.Sub(ambient).Div(resistance).Sub(fixed), zero)
	largestLoss := allowed.Div(hotFactor)
	return SettledResult{
		Gain:           gain,
		Cold:           cold,
		Rise:           rise,
		Junction:       junction,
		Heat:           heat,
		Margin:         margin,
		RunawayThermal: runawayThermal,
		AmbientMargin:  ambientMargin,
		LargestLoss:    largestLoss,
	}, nil
}
