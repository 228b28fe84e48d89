package divider

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// LoadedInputs are the arguments of Loaded.
type LoadedInputs struct {
	Input          units.Quantity // voltage across the divider, V, of either sign
	Upper          units.Quantity // resistor from the input to the node, Ω
	Lower          units.Quantity // resistor from the node to ground, Ω
	LoadResistance units.Quantity // from the node to ground, Ω; left out: none
	LoadCurrent    units.Quantity // constant, out of the node, A, of either sign; left out: none
}

// LoadedResult is what Loaded finds.
type LoadedResult struct {
	Effective    units.Quantity // lower resistor and load resistance in parallel, Ω
	OpenVoltage  units.Quantity // node without the load current, V
	Resistance   units.Quantity // that the load current sees, Ω
	Output       units.Quantity // node to ground, V
	Unloaded     units.Quantity // node without any load, V
	Sag          units.Quantity // Unloaded − Output, V
	UpperCurrent units.Quantity // through the upper resistor, A
	LowerCurrent units.Quantity // through the lower resistor, A
	Load         units.Quantity // current into the load resistance and the load current, A
	UpperPower   units.Quantity // lost in the upper resistor, W
	LowerPower   units.Quantity // lost in the lower resistor, W
	Power        units.Quantity // taken from the input, W
}

// Loaded computes a divider with a load resistance, a constant load current,
// or both.
//
//	Effective   = lower ∥ load resistance
//	OpenVoltage = input · Effective/(upper + Effective)
//	Resistance  = upper ∥ Effective
//	Output      = OpenVoltage − load current · Resistance
//
// Arguments: see LoadedInputs; resistances above zero. A load current flows
// out of the node where positive (an input that draws bias current), into it
// where negative. It is an error for resistors of zero or less, for other
// dimensions, and for a load current that is more than the input delivers
// through the upper resistor (input/upper): the node would change its sign.
//
//	d, err := divider.Loaded(divider.LoadedInputs{Input: 12V, Upper: 10kΩ, Lower: 3.3kΩ, LoadResistance: 10kΩ})
//	// d.Output: 2.386 V
//
// Holds for direct current and loads that are linear, or constant over the
// range of Output.
//
// Source: Kirchhoff's laws, Thévenin's theorem (any textbook).
//
// Caution: a divider is no supply: its output moves with the load by
// Resistance.
func Loaded(in LoadedInputs) (LoadedResult, error) {
	input, upper, lower := in.Input, in.Upper, in.Lower
	loadCurrent := argument.Current.OrZero(in.LoadCurrent)
	if err := argument.First("divider.Loaded",
		argument.Voltage.Signed("Input", input),
		argument.Resistance.Positive("Upper", upper),
		argument.Resistance.Positive("Lower", lower),
		argument.Resistance.Optional("LoadResistance", in.LoadResistance),
		argument.Current.Signed("LoadCurrent", loadCurrent),
	); err != nil {
		return LoadedResult{}, err
	}
	effective := lower
	if argument.Given(in.LoadResistance) {
		effective = units.Parallel(lower, in.LoadResistance)
	}
	openVoltage := input.Mul(effective).Div(upper.Add(effective))
	resistance := units.Parallel(upper, effective)
	output := openVoltage.Sub(loadCurrent.Mul(resistance))

	var zero units.Quantity
	if at := argument.Below(output.Mul(input), zero, loadCurrent, input.Div(upper)); at != nil {
		return LoadedResult{}, fmt.Errorf("divider.Loaded: LoadCurrent is %s; it must not be above %s, which is Input/Upper: lower the resistors or the load", at[0], at[1])
	}
	unloaded := input.Mul(lower).Div(upper.Add(lower))
	sag := unloaded.Sub(output)
	upperCurrent := input.Sub(output).Div(upper)
	lowerCurrent := output.Div(lower)
	load := upperCurrent.Sub(lowerCurrent)
	upperPower := upperCurrent.Mul(upperCurrent).Mul(upper)
	lowerPower := lowerCurrent.Mul(lowerCurrent).Mul(lower)
	power := input.Mul(upperCurrent)
	return LoadedResult{
		Effective:    effective,
		OpenVoltage:  openVoltage,
		Resistance:   resistance,
		Output:       output,
		Unloaded:     unloaded,
		Sag:          sag,
		UpperCurrent: upperCurrent,
		LowerCurrent: lowerCurrent,
		Load:         load,
		UpperPower:   upperPower,
		LowerPower:   lowerPower,
		Power:        power,
	}, nil
}
