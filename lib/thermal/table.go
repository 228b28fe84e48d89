package thermal

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// DeratingFrom reads a derating curve.
//
//	value = value₁ + (value₂ − value₁) · (temperature − temperature₁)/(temperature₂ − temperature₁)
//
// between the two rows around temperature.
//
// Arguments: curve, a table of the temperature, °C, and of what is allowed
// there, a power, a current or a share, not below zero; temperature, °C, from
// its first row to its last. Result: the value there. It is an error outside of
// that: a curve says nothing beyond its ends, so give it a row at the lowest
// temperature of the design.
//
//	curve := table.Text("air [°C], current [A]\n-40, 2\n60, 2\n85, 1.2\n105, 0")
//	I, err := thermal.DeratingFrom(curve, 70°C)
//	// 1.68 A
//
// Holds for curves that are straight between their rows; of a bent curve take
// enough of them.
//
// Source: straight-line interpolation.
func DeratingFrom(curve table.Table, temperature units.Quantity) (units.Quantity, error) {
	const function = "thermal.DeratingFrom"
	if err := argument.First(function,
		checkDerating(curve),
		argument.Temperature("temperature", temperature),
	); err != nil {
		return none, err
	}
	value, err := curve.At(temperature)
	return value, argument.First(function, err)
}

// checkDerating checks that a curve is over a temperature, and that what it
// allows is of a size.
func checkDerating(curve table.Table) error {
	output, err := curve.Output()
	if err != nil {
		return curve.Expect("curve", "°C", "W")
	}
	least, _, err := curve.Ends(output)
	if err != nil {
		return err
	}
	if err := argument.Size("the least "+output+" of curve", least); err != nil {
		return err
	}
	return curve.Expect("curve", "°C", least.SIUnit())
}
