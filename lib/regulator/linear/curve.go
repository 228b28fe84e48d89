package linear

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// checkCurve checks that a curve over the load, and over the temperature where
// it is a family, gives what has the unit, and nothing below zero. of names the
// curve in messages; kind is what it gives.
func checkCurve(of string, curve table.Table, kind argument.Kind, columns ...string) error {
	if err := curve.Expect(of, columns...); err != nil {
		return err
	}
	output, err := curve.Output()
	if err != nil {
		return err
	}
	least, _, err := curve.Ends(output)
	if err != nil {
		return err
	}
	return kind.NotNegative("the least "+output+" of "+of, least)
}

// alongLoad reads a curve over the load after checking it.
func alongLoad(curve table.Table, kind argument.Kind, unit string, load units.Quantity) (units.Quantity, error) {
	if err := checkCurve("curve", curve, kind, "A", unit); err != nil {
		return none, err
	}
	if err := argument.Current.NotNegative("load", load); err != nil {
		return none, err
	}
	value, err := curve.At(load)
	return value, err
}
