package thermal

import (
	"fmt"
	"math"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// LeakageInputs are the arguments of Leakage.
type LeakageInputs struct {
	Ambient    units.Quantity // °C
	Resistance units.Quantity // from the junction to there, K/W
	Fixed      units.Quantity // loss that does not depend on temperature, such as conduction, W; left out: none
	Leakage    units.Quantity // loss by leakage at At: reverse voltage · leakage current · share of the time, W
	At         units.Quantity // temperature for which Leakage is stated, °C
	Doubling   units.Quantity // rise that doubles the leakage, K
	Limit      units.Quantity // highest junction temperature allowed, °C
}

// LeakageResult is what Leakage finds.
type LeakageResult struct {
	RunawayLoss     units.Quantity // leakage loss at which the loop gain is 1, W
	RunawayJunction units.Quantity // junction temperature there, °C
	RunawayAmbient  units.Quantity // ambient from which the part runs away, °C
	RunawayMargin   units.Quantity // from Ambient to there, K
	Junction        units.Quantity // temperature at which it settles, °C
	Leaking         units.Quantity // loss by leakage there, W
	Heat            units.Quantity // whole loss there, W
	Gain            units.Quantity // of the loop of temperature and leakage there, no unit; below 1
	Margin          units.Quantity // left to Limit, K; below zero: too hot
	AmbientMargin   units.Quantity // by which Ambient may rise until the part reaches Limit or runs away, K; below zero: too hot
}

// Leakage computes where a part comes to rest whose leakage doubles every so
// many kelvin, such as a Schottky diode that blocks while it is hot, and the
// ambient from which it does not come to rest at all.
//
//	RunawayLoss     = doubling/(ln 2 · resistance)
//	RunawayJunction = at + doubling · log₂(RunawayLoss/leakage)
//	RunawayAmbient  = RunawayJunction − resistance · (fixed + RunawayLoss)
//	RunawayMargin   = RunawayAmbient − ambient
//	Junction        = ambient + resistance · (fixed + leakage · 2^((Junction − at)/doubling)), the lower of two
//	Leaking         = leakage · 2^((Junction − at)/doubling)
//	Heat            = fixed + Leaking
//	Gain            = Leaking/RunawayLoss
//	Margin          = limit − Junction
//	AmbientMargin   = hottest − ambient − resistance · (fixed + leakage · 2^((hottest − at)/doubling)), hottest = limit, not above RunawayJunction
//
// Arguments: Ambient, At and Limit, °C, Limit above Ambient; Resistance, K/W,
// Leakage, W, and Doubling, K, above zero; Fixed, W, not below zero. It is an
// error outside of that, and where Ambient is not below RunawayAmbient: the
// line of what the heat sink carries away then nowhere meets the curve of what
// the part makes. The largest ambient is Ambient + AmbientMargin.
//
//	l, err := thermal.Leakage(thermal.LeakageInputs{
//		Ambient: 60°C, Resistance: 60K/W, Fixed: 0.4W, Leakage: 24mW, At: 75°C, Doubling: 12K, Limit: 125°C,
//	})
//	// l.Junction: 86.86 °C, l.RunawayAmbient: 76.74 °C
//
// Holds for leakage that grows exponentially: with 10 K (silicon) to 15 K
// (Schottky) to the doubling, read from two points of the data sheet's curve.
// Leakage also grows with voltage: take it at the voltage that is blocked.
//
// Source: tangent of a straight line to an exponential: R. Stout, Beyond the
// data sheet: demystifying thermal runaway, Power Electronics Technology,
// November 2007.
//
// Caution: typical curves of leakage hide a factor of ten between parts; take
// the limit of the data sheet. RunawayJunction may lie below the rating of the
// part, which does not help then.
func Leakage(in LeakageInputs) (LeakageResult, error) {
	const function = "thermal.Leakage"
	fixed := argument.Power.OrZero(in.Fixed)
	if err := argument.First(function,
		argument.Temperature("Ambient", in.Ambient),
		argument.ThermalResistance.Positive("Resistance", in.Resistance),
		argument.Power.NotNegative("Fixed", fixed),
		argument.Power.Positive("Leakage", in.Leakage),
		argument.Temperature("At", in.At),
		argument.Difference.Positive("Doubling", in.Doubling),
		argument.Temperature("Limit", in.Limit),
	); err != nil {
		return LeakageResult{}, err
	}
	if err := argument.First(function,
		argument.Above("Limit", in.Limit, "Ambient", in.Ambient, limitMend),
	); err != nil {
		return LeakageResult{}, err
	}
	ambient, resistance := in.Ambient, in.Resistance
	folding := in.Doubling.Div(units.Number(math.Ln2)) // rise that makes e times as much
	runawayLoss := folding.Div(resistance)
	untilRunaway := folding.Mul(units.Ln(runawayLoss.Div(in.Leakage))) // above At
	runawayRise := untilRunaway.Sub(ambient.Sub(in.At))
	runawayMargin := runawayRise.Sub(resistance.Mul(fixed.Add(runawayLoss)))
	if at := argument.NotAbove(runawayMargin, none, ambient, runawayMargin.Neg()); at != nil {
		return LeakageResult{}, fmt.Errorf("%s: Ambient is %s; that is %s too hot: the leakage heats the part more than Resistance carries away, and it runs away; lower Ambient, Resistance or Fixed, or choose a part with less leakage", function, at[0], at[1])
	}
	// Counted from the point of runaway, so that no exponential overflows and
	// the difference there is the margin, to the last digit: from 0 to there it
	// falls all the way through zero.
	leaks := func(below units.Quantity) units.Quantity { return runawayLoss.Mul(units.Exp(below.Div(folding).Neg())) }
	rise := units.Solve("rise at which the leakage settles", argument.Difference.OrZero(none), runawayRise, func(rise units.Quantity) units.Quantity {
		return resistance.Mul(fixed.Add(leaks(runawayRise.Sub(rise)))).Sub(rise)
	})
	leaking := leaks(runawayRise.Sub(rise))
	hottest := units.Min(in.Limit.Sub(ambient), runawayRise) // above ambient
	ambientMargin := hottest.Sub(resistance.Mul(fixed.Add(leaks(runawayRise.Sub(hottest)))))
	junction := ambient.Add(rise)
	// Only now: without a margin they may lie below absolute zero.
	runawayJunction := in.At.Add(untilRunaway)
	runawayAmbient := runawayJunction.Sub(resistance.Mul(fixed.Add(runawayLoss)))
	return LeakageResult{
		RunawayLoss:     runawayLoss,
		RunawayJunction: runawayJunction,
		RunawayAmbient:  runawayAmbient,
		RunawayMargin:   runawayMargin,
		Junction:        junction,
		Leaking:         leaking,
		Heat:            fixed.Add(leaking),
		Gain:            leaking.Div(runawayLoss),
		Margin:          in.Limit.Sub(junction),
		AmbientMargin:   ambientMargin,
	}, nil
}
