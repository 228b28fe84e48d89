package divider

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// PlainResult is what Plain finds.
type PlainResult struct {
	Current    units.Quantity // through both resistors, A
	Output     units.Quantity // node to ground, V
	Ratio      units.Quantity // Output/Input, no unit
	Resistance units.Quantity // that a load sees (Thévenin), Ω
	UpperPower units.Quantity // lost in the upper resistor, W
	LowerPower units.Quantity // lost in the lower resistor, W
	Power      units.Quantity // taken from the input, W
}

// Plain computes a divider that nothing loads.
//
//	Current    = input/(upper + lower)
//	Ratio      = lower/(upper + lower)
//	Output     = input · Ratio
//	Resistance = upper ∥ lower
//	Power      = Current² · upper + Current² · lower
//
// Arguments: input, the voltage across both resistors, V, of either sign;
// upper and lower, the resistors, Ω, above zero. It is an error for resistors
// of zero or less, and for other dimensions.
//
//	d, err := divider.Plain(12V, 10kΩ, 3.3kΩ)   // d.Output: 2.977 V
//
// Holds for direct current and low frequency, with a load resistance far
// above Resistance (a hundred times for 1 %); otherwise use Loaded.
//
// Source: Kirchhoff's laws, Thévenin's theorem (any textbook).
//
// Caution: stray capacitance of the node, a few picofarads, makes a low-pass
// with Resistance.
func Plain(input, upper, lower units.Quantity) (PlainResult, error) {
	if err := argument.First("divider.Plain",
		argument.Voltage.Signed("input", input),
		argument.Resistance.Positive("upper", upper),
		argument.Resistance.Positive("lower", lower),
	); err != nil {
		return PlainResult{}, err
	}
	total := upper.Add(lower)
	current := input.Div(total)
	ratio := lower.Div(total)
	output := input.Mul(ratio)
	resistance := units.Parallel(upper, lower)
	upperPower := current.Mul(current).Mul(upper)
	lowerPower := current.Mul(current).Mul(lower)
	power := upperPower.Add(lowerPower)
	return PlainResult{
		Current:    current,
		Output:     output,
		Ratio:      ratio,
		Resistance: resistance,
		UpperPower: upperPower,
		LowerPower: lowerPower,
		Power:      power,
	}, nil
}
