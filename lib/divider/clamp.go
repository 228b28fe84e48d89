package divider

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// ClampInputs are the arguments of Clamp.
type ClampInputs struct {
	Input units.Quantity // voltage at the divider in the fault, V
	Upper units.Quantity // resistor from the input to the node, Ω
	Lower units.Quantity // resistor from the node to ground, Ω
	Level units.Quantity // voltage at which the clamp holds the node, V
}

// ClampResult is what Clamp finds.
type ClampResult struct {
	OpenVoltage  units.Quantity // node without the clamp, V
	Node         units.Quantity // node with the clamp, V
	UpperCurrent units.Quantity // through the upper resistor, A
	LowerCurrent units.Quantity // through the lower resistor, A
	Current      units.Quantity // into the clamp, A; zero below its level
	ClampPower   units.Quantity // that the clamp takes, W
	UpperPower   units.Quantity // lost in the upper resistor, W
}

// Clamp computes what flows into the clamp of a converter's pin when the
// input goes beyond the range.
//
//	OpenVoltage  = input · lower/(upper + lower)
//	Node         = least of OpenVoltage and level
//	UpperCurrent = (input − Node)/upper
//	LowerCurrent = Node/lower
//	Current      = UpperCurrent − LowerCurrent, not below zero
//	ClampPower   = Current · level
//
// Arguments: Input, V, Upper and Lower, Ω, and Level, V, above zero. Level
// is, for a diode to the supply, supply plus forward voltage. It is an error
// outside of that. A fault below ground is the same sum with the sizes of
// both voltages.
//
//	c, err := divider.Clamp(divider.ClampInputs{Input: 60V, Upper: 100kΩ, Lower: 10kΩ, Level: 3.6V})
//	// c.Current: 204 µA
//
// Holds for a clamp that is stiff at its level; what leaks below it is
// neglected.
//
// Source: Kirchhoff's laws.
//
// Caution: hold Current against the injection current of the data sheet, not
// the latch-up limit; it flows into the supply, which must take it (a linear
// regulator cannot) and may lift it, also while the supply is off: take the
// level without supply then. Current injected into one pin disturbs the
// converter's other channels. Upper needs the voltage rating for the fault.
func Clamp(in ClampInputs) (ClampResult, error) {
	if err := argument.First("divider.Clamp",
		argument.Voltage.Positive("Input", in.Input),
		argument.Resistance.Positive("Upper", in.Upper),
		argument.Resistance.Positive("Lower", in.Lower),
		argument.Voltage.Positive("Level", in.Level),
	); err != nil {
		return ClampResult{}, err
	}
	input, upper, lower, level := in.Input, in.Upper, in.Lower, in.Level
	openVoltage := input.Mul(lower).Div(upper.Add(lower))
	node := units.Min(openVoltage, level)
	upperCurrent := input.Sub(node).Div(upper)
	lowerCurrent := node.Div(lower)
	// Below the level both currents are the same but for rounding, which is
	// no current into the clamp.
	nothing := upperCurrent.Sub(upperCurrent)
	current := units.Where(openVoltage, level, nothing, upperCurrent.Sub(lowerCurrent))
	clampPower := current.Mul(level)
	upperPower := upperCurrent.Mul(upperCurrent).Mul(upper)
	return ClampResult{
		OpenVoltage:  openVoltage,
		Node:         node,
		UpperCurrent: upperCurrent,
		LowerCurrent: lowerCurrent,
		Current:      current,
		ClampPower:   clampPower,
		UpperPower:   upperPower,
	}, nil
}
