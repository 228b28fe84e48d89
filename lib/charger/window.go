package charger

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// WindowDividerInputs are the arguments of WindowDivider.
type WindowDividerInputs struct {
	Cold      units.Quantity // resistance of the thermistor where charging shall begin, Ω
	Hot       units.Quantity // and where it shall end, Ω
	ColdShare units.Quantity // of the reference at the pin: colder above it, %
	HotShare  units.Quantity // of the reference at the pin: hotter below it, %
}

// WindowDividerResult is what WindowDivider finds.
type WindowDividerResult struct {
	Upper    units.Quantity // from the reference to the pin, Ω
	Parallel units.Quantity // across the thermistor, Ω
}

// WindowDivider finds the two resistors with which a charger's thermistor pin
// opens the window between two temperatures.
//
//	cold ratio = cold share/(1 − cold share), hot ratio likewise
//	Upper      = (1/hot ratio − 1/cold ratio)/(1/hot − 1/cold)
//	Parallel   = 1/(1/(cold ratio · Upper) − 1/cold)
//
// Arguments: see WindowDividerInputs; resistances above zero, Cold above Hot;
// shares between 0 % and 100 %, ColdShare above HotShare. It is an error outside
// of that, and where Parallel would have to be negative: the window is narrower
// than the thermistor and the thresholds allow. Widen it, or take a thermistor
// with a larger B.
//
//	d, err := charger.WindowDivider(charger.WindowDividerInputs{Cold: 27.28kΩ, Hot: 4.917kΩ, ColdShare: 73.5%, HotShare: 34.4%})
//	// d.Upper: 9.275 kΩ; d.Parallel: 451.2 kΩ
//
// Source: a loaded divider at two points.
func WindowDivider(in WindowDividerInputs) (WindowDividerResult, error) {
	const function = "charger.WindowDivider"
	one := units.Number(1)
	if err := argument.First(function,
		argument.Resistance.Positive("Cold", in.Cold),
		argument.Resistance.Positive("Hot", in.Hot),
		checkShares(in.ColdShare, in.HotShare),
	); err != nil {
		return WindowDividerResult{}, err
	}
	if err := argument.First(function, argument.Above("Cold", in.Cold, "Hot", in.Hot, "the resistance of such a thermistor falls with temperature")); err != nil {
		return WindowDividerResult{}, err
	}
	coldRatio := in.ColdShare.Div(one.Sub(in.ColdShare))
	hotRatio := in.HotShare.Div(one.Sub(in.HotShare))
	difference := one.Div(in.Hot).Sub(one.Div(in.Cold))
	upper := one.Div(hotRatio).Sub(one.Div(coldRatio)).Div(difference)
	needed := coldRatio.Mul(upper)
	if err := argument.First(function,
		argument.Under("the resistance needed below the pin when cold", needed, "Cold", in.Cold, "nothing in parallel makes it larger: widen the window, or take a thermistor with a larger B"),
	); err != nil {
		return WindowDividerResult{}, err
	}
	parallel := one.Div(one.Div(needed).Sub(one.Div(in.Cold)))
	return WindowDividerResult{Upper: upper, Parallel: parallel}, nil
}

// WindowInputs are the arguments of Window.
type WindowInputs struct {
	Upper      units.Quantity // from the reference to the pin, Ω
	Parallel   units.Quantity // across the thermistor, Ω; left out: none
	ColdShare  units.Quantity // of the reference at the pin, %
	HotShare   units.Quantity // of the reference at the pin, %
	Thermistor table.Table    // its resistance over temperature, °C and Ω
}

// WindowResult is what Window finds.
type WindowResult struct {
	Cold            units.Quantity // resistance of the thermistor at the cold threshold, Ω
	Hot             units.Quantity // at the hot one, Ω
	ColdTemperature units.Quantity // °C
	HotTemperature  units.Quantity // °C
}

// Window computes the temperatures between which a charger charges.
//
//	below = upper · share/(1 − share), of each threshold
//	Cold  = 1/(1/below − 1/parallel), Hot likewise
//	ColdTemperature, HotTemperature = where the thermistor has it, from the table
//
// Arguments: see WindowInputs; resistances above zero, shares between 0 % and
// 100 %, ColdShare above HotShare. It is an error outside of that, where the
// divider never reaches the threshold, and outside of the table's rows.
//
//	w, err := charger.Window(charger.WindowInputs{
//		Upper: 9.31kΩ, Parallel: 442kΩ, ColdShare: 73.5%, HotShare: 34.4%, Thermistor: curve,
//	})
//
// Source: a loaded divider; the thermistor's table.
//
// Caution: the thermistor measures the cell only where it touches it. Lithium
// cells are mostly not to be charged below 0 °C and above 45 °C: the cell's data
// sheet says. Tolerances of thresholds and thermistor narrow the window.
func Window(in WindowInputs) (WindowResult, error) {
	const function = "charger.Window"
	one := units.Number(1)
	if err := argument.First(function,
		argument.Resistance.Positive("Upper", in.Upper),
		argument.Resistance.Optional("Parallel", in.Parallel),
		checkShares(in.ColdShare, in.HotShare),
		in.Thermistor.Expect("Thermistor", "°C", "Ω"),
	); err != nil {
		return WindowResult{}, err
	}
	cold := in.Upper.Mul(in.ColdShare).Div(one.Sub(in.ColdShare))
	hot := in.Upper.Mul(in.HotShare).Div(one.Sub(in.HotShare))
	if argument.Given(in.Parallel) {
		if err := argument.First(function,
			argument.Above("Parallel", in.Parallel, "the resistance needed below the pin when cold", cold, "the pin never gets so high: raise Parallel or lower Upper"),
		); err != nil {
			return WindowResult{}, err
		}
		cold = one.Div(one.Div(cold).Sub(one.Div(in.Parallel)))
		hot = one.Div(one.Div(hot).Sub(one.Div(in.Parallel)))
	}
	temperature, err := in.Thermistor.Inverse()
	if err != nil {
		return WindowResult{}, argument.First(function, err)
	}
	coldTemperature, errCold := temperature.At(cold)
	hotTemperature, errHot := temperature.At(hot)
	if err := argument.First(function, errCold, errHot); err != nil {
		return WindowResult{}, err
	}
	return WindowResult{Cold: cold, Hot: hot, ColdTemperature: coldTemperature, HotTemperature: hotTemperature}, nil
}

func checkShares(cold, hot units.Quantity) error {
	one := units.Number(1)
	for _, err := range []error{
		argument.Share.Positive("ColdShare", cold),
		argument.Share.Positive("HotShare", hot),
	} {
		if err != nil {
			return err
		}
	}
	if err := argument.Under("ColdShare", cold, "all of the reference", one, "write the threshold as a share of the reference"); err != nil {
		return err
	}
	return argument.Above("ColdShare", cold, "HotShare", hot, "the pin's voltage falls as the thermistor warms")
}
