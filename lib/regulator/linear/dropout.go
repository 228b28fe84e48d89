package linear

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// Dropout returns the dropout voltage at a load and a temperature, from a
// table of curves as data sheets draw them: dropout over load, one for each
// temperature.
//
//	dropout = dropout₁ + (dropout₂ − dropout₁) · (temperature − temperature₁)/(temperature₂ − temperature₁)
//
// where dropout₁ and dropout₂ are read on the two curves around temperature,
// each straight between its rows.
//
// Arguments: curves, a table of the load, A, the temperature of the junction,
// °C, and the dropout, V, not below zero; load, A, within every curve that is
// needed; temperature, of the junction, °C, from the first curve to the last.
// Result: a voltage. It is an error outside of that: a curve says nothing
// beyond its ends.
//
//	curves := table.Text("load [A], junction [°C], dropout [V]\n0, 25, 0\n0.5, 25, 0.3\n0, 125, 0\n0.5, 125, 0.45")
//	Vdrop, err := linear.Dropout(curves, 250mA, 75°C)
//	// 187.5 mV
//
// Holds between the rows as well as a straight line does; take enough.
//
// Source: straight-line interpolation.
//
// Caution: drawn curves are typical; the limit stands in the table, mostly at
// full load only (see DropoutOfSwitch). Dropout is stated at an output that
// has already fallen, often by 2 % or 100 mV.
func Dropout(curves table.Table, load, temperature units.Quantity) (units.Quantity, error) {
	const function = "linear.Dropout"
	if err := argument.First(function,
		checkCurve("curves", curves, argument.Voltage, "A", "°C", "V"),
		argument.Current.NotNegative("load", load),
		argument.Temperature("temperature", temperature),
	); err != nil {
		return none, err
	}
	dropout, err := curves.At(load, temperature)
	return dropout, argument.First(function, err)
}

// DropoutAtLoad returns the dropout voltage at a load, from one curve over
// the load.
//
//	dropout = dropout₁ + (dropout₂ − dropout₁) · (load − load₁)/(load₂ − load₁)
//
// between the two rows around load.
//
// Arguments: curve, a table of the load, A, and the dropout, V, not below
// zero; load, A, from its first row to its last. Result: a voltage. It is an
// error outside of that.
//
//	Vdrop, err := linear.DropoutAtLoad(table.Text("load [A], dropout [V]\n0, 0\n0.1, 0.09\n0.5, 0.45"), 300mA)
//	// 270 mV
//
// Where it holds, source and cautions: as Dropout; take the curve at the
// temperature at which the dropout is largest, mostly the highest.
func DropoutAtLoad(curve table.Table, load units.Quantity) (units.Quantity, error) {
	dropout, err := alongLoad(curve, argument.Voltage, "V", load)
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
