package linear

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// DropoutCurve is a dropout curve over the load at one temperature.
type DropoutCurve struct {
	Temperature units.Quantity // of the junction, °C
	Points      []LoadPoint    // load, A, and dropout, V
}

// Dropout returns the dropout voltage at a load and a temperature, from
// curves as data sheets draw them: dropout over load, one for each
// temperature.
//
//	dropout = dropout₁ + (dropout₂ − dropout₁) · (temperature − temperature₁)/(temperature₂ − temperature₁)
//
// where dropout₁ and dropout₂ are read on the two curves around temperature,
// each straight between its points.
//
// Arguments: curves, at least two, with rising temperatures, °C, each of at
// least two points with rising loads, A, and dropouts, V, not below zero;
// load, A, within every curve; temperature, of the junction, °C, from the
// first curve to the last. Result: a voltage. It is an error outside of that:
// a curve says nothing beyond its ends.
//
//	Vdrop, err := linear.Dropout([]linear.DropoutCurve{
//		{25°C, []linear.LoadPoint{{0A, 0V}, {500mA, 300mV}}},
//		{125°C, []linear.LoadPoint{{0A, 0V}, {500mA, 450mV}}},
//	}, 250mA, 75°C)
//	// 187.5 mV
//
// Holds between the points as well as a straight line does; take enough.
//
// Source: straight-line interpolation.
//
// Caution: drawn curves are typical; the limit stands in the table, mostly at
// full load only (see DropoutOfSwitch). Dropout is stated at an output that
// has already fallen, often by 2 % or 100 mV.
func Dropout(curves []DropoutCurve, load, temperature units.Quantity) (units.Quantity, error) {
	const function = "linear.Dropout"
	if len(curves) < 2 {
		return none, fmt.Errorf("%s: curves needs at least two temperatures and has %d: use DropoutAtLoad for a single curve", function, len(curves))
	}
	if err := argument.First(function, argument.Temperature("temperature", temperature)); err != nil {
		return none, err
	}
	var temperatures, dropouts []units.Quantity
	for i, c := range curves {
		name := fmt.Sprintf("the temperature of curve %d", i+1)
		if err := argument.First(function, argument.Temperature(name, c.Temperature)); err != nil {
			return none, err
		}
		if i > 0 {
			if err := argument.First(function, argument.Above(name, c.Temperature, fmt.Sprintf("that of curve %d", i), curves[i-1].Temperature, "write the curves with rising temperatures")); err != nil {
				return none, err
			}
		}
		dropout, err := alongLoad(fmt.Sprintf("curve %d", i+1), argument.Voltage, c.Points, load)
		if err != nil {
			return none, argument.First(function, err)
		}
		temperatures, dropouts = append(temperatures, c.Temperature), append(dropouts, dropout)
	}
	if err := argument.First(function, inside("temperature", temperature, temperatures, "curves")); err != nil {
		return none, err
	}
	return between(temperature, temperatures, dropouts), nil
}

// DropoutAtLoad returns the dropout voltage at a load, from one curve over
// the load.
//
//	dropout = dropout₁ + (dropout₂ − dropout₁) · (load − load₁)/(load₂ − load₁)
//
// between the two points around load.
//
// Arguments: curve, at least two points with rising loads, A, and dropouts,
// V, not below zero; load, A, from the first point to the last. Result: a
// voltage. It is an error outside of that.
//
//	Vdrop, err := linear.DropoutAtLoad([]linear.LoadPoint{{0A, 0V}, {100mA, 90mV}, {500mA, 450mV}}, 300mA)
//	// 270 mV
//
// Where it holds, source and cautions: as Dropout; take the curve at the
// temperature at which the dropout is largest, mostly the highest.
func DropoutAtLoad(curve []LoadPoint, load units.Quantity) (units.Quantity, error) {
	dropout, err := alongLoad("curve", argument.Voltage, curve, load)
	return dropout, argument.First("linear.DropoutAtLoad", err)
}

// DropoutOfSwitch returns the dropout voltage at a load below the one that
// it is stated for, for a pass element that is a plain switch when it is
// fully on.
//
//	dropout = stated · load/at
//
// Arguments: stated, the dropout of the data sheet, V, above zero; at, the
// load that it is stated for, A, above zero; load, A, not below zero and not
// above at. Result: a voltage. It is an error outside of that.
//
//	Vdrop, err := linear.DropoutOfSwitch(450mV, 500mA, 280mA)   // 252 mV
//
// Holds for MOSFET pass elements: in dropout they are a resistance. A bipolar
// one keeps a saturation voltage at small loads, an emitter follower one or
// two junctions: take Dropout's curve, or the stated figure at every load.
//
// Source: on-resistance of the pass element; TPS795 data sheet SLVS350,
// dropout voltage.
//
// Caution: a limit over temperature scales only to the same temperature.
func DropoutOfSwitch(stated, at, load units.Quantity) (units.Quantity, error) {
	const function = "linear.DropoutOfSwitch"
	if err := argument.First(function,
		argument.Voltage.Positive("stated", stated),
		argument.Current.Positive("at", at),
		argument.Current.NotNegative("load", load),
	); err != nil {
		return none, err
	}
	if err := argument.First(function,
		argument.AtMost("load", load, "at", at, "the data sheet states nothing beyond; choose a larger regulator"),
	); err != nil {
		return none, err
	}
	dropout := stated.Mul(load).Div(at)
	return dropout, nil
}
