package thermal

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// SettledCurveInputs are the arguments of SettledCurve.
type SettledCurveInputs struct {
	Ambient    units.Quantity // °C
	Resistance units.Quantity // from where the loss is made to there, K/W
	Loss       units.Quantity // where Factor is 1, W
	Factor     table.Table    // by which the loss grows: temperature [°C], factor [1]
	Fixed      units.Quantity // loss that does not depend on temperature, W; left out: none
	Limit      units.Quantity // highest temperature allowed, °C
}

// SettledCurveResult is what SettledCurve finds.
type SettledCurveResult struct {
	Junction      units.Quantity // temperature at which it settles, °C
	Factor        units.Quantity // there, no unit
	Heat          units.Quantity // whole loss there, W
	Gain          units.Quantity // of the loop of temperature and loss, over the kelvin around, no unit
	Margin        units.Quantity // left to Limit, K
	AmbientMargin units.Quantity // by which Ambient may rise until it settles at Limit, K
}

// SettledCurve computes where a part comes to rest whose loss grows with its
// temperature along a curve: the normalised on-resistance of a data sheet.
//
//	Junction      = ambient + resistance · (fixed + loss · factor(Junction)), between ambient and limit
//	Heat          = fixed + loss · factor(Junction)
//	Gain          = resistance · loss · (factor(Junction + ½ K) − factor(Junction − ½ K))/1 K
//	Margin        = limit − Junction
//	AmbientMargin = limit − ambient − resistance · (fixed + loss · factor(limit))
//
// with the end values of the curve half a kelvin beyond its ends.
//
// Arguments: Ambient and Limit, °C, Limit above Ambient; Resistance, K/W, and
// Loss, W, above zero; Factor, °C and a number above zero, over all from
// Ambient to Limit; Fixed, W, not below zero. It is an error outside of that,
// and where the part does not settle below Limit.
//
//	factor := table.Text("junction [°C], factor [1]\n25, 1\n75, 1.28\n125, 1.62\n150, 1.82")
//	s, err := thermal.SettledCurve(thermal.SettledCurveInputs{
//		Ambient: 60°C, Resistance: 50K/W, Loss: 0.5W, Factor: factor, Limit: 150°C,
//	})
//
// Holds for a factor that grows the steeper the hotter it is; where one falls,
// as the loss of a core does up to some 80 °C, there may be more than one rest.
//
// Source and cautions: as Settled.
func SettledCurve(in SettledCurveInputs) (SettledCurveResult, error) {
	const function = "thermal.SettledCurve"
	fixed := argument.Power.OrZero(in.Fixed)
	if err := argument.First(function,
		argument.Temperature("Ambient", in.Ambient),
		argument.ThermalResistance.Positive("Resistance", in.Resistance),
		argument.Power.Positive("Loss", in.Loss),
		in.Factor.Expect("Factor", "°C", "1"),
		argument.Power.NotNegative("Fixed", fixed),
		argument.Temperature("Limit", in.Limit),
	); err != nil {
		return SettledCurveResult{}, err
	}
	if err := argument.First(function,
		argument.Above("Limit", in.Limit, "Ambient", in.Ambient, limitMend),
	); err != nil {
		return SettledCurveResult{}, err
	}
	for _, end := range []units.Quantity{in.Ambient, in.Limit} {
		factor, err := in.Factor.At(end)
		if err == nil {
			err = argument.Share.Positive("the factor in Factor", factor)
		}
		if err != nil {
			return SettledCurveResult{}, argument.First(function, err)
		}
	}
	held := in.Factor.Held()
	factor := func(temperature units.Quantity) units.Quantity {
		f, _ := held.At(temperature) // the ends were read before
		return f
	}
	heated := func(temperature units.Quantity) units.Quantity {
		return in.Resistance.Mul(fixed.Add(in.Loss.Mul(factor(temperature))))
	}
	most := in.Limit.Sub(in.Ambient)
	atLimit := heated(in.Ambient.Add(most))
	ambientMargin := most.Sub(atLimit)
	if at := argument.NotAbove(ambientMargin, none, atLimit, most); at != nil {
		return SettledCurveResult{}, fmt.Errorf("%s: at Limit the loss heats by %s; it must be below %s, from Ambient to Limit: the part does not settle below its limit; lower Loss, Resistance or Ambient", function, at[0], at[1])
	}
	rise := units.Solve("rise at which the loss settles", argument.Difference.OrZero(none), most, func(rise units.Quantity) units.Quantity {
		return heated(in.Ambient.Add(rise)).Sub(rise)
	})
	junction := in.Ambient.Add(rise)
	half := kelvin.Mul(units.Number(0.5))
	slope := factor(junction.Add(half)).Sub(factor(junction.Sub(half))).Div(kelvin)
	there := factor(junction)
	return SettledCurveResult{
		Junction:      junction,
		Factor:        there,
		Heat:          fixed.Add(in.Loss.Mul(there)),
		Gain:          in.Resistance.Mul(in.Loss).Mul(slope),
		Margin:        in.Limit.Sub(junction),
		AmbientMargin: ambientMargin,
	}, nil
}
