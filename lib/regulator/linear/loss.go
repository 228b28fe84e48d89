package linear

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// GroundCurrent returns the current that the regulator itself takes at a
// load, from a curve over the load.
//
//	ground = ground₁ + (ground₂ − ground₁) · (load − load₁)/(load₂ − load₁)
//
// between the two rows around load.
//
// Arguments: curve, a table of the load, A, and the ground current, A, not
// below zero; load, A, from its first row to its last. Result: a current. It is
// an error outside of that.
//
//	Iq, err := linear.GroundCurrent(table.Text("load [mA], ground [mA]\n0, 0.09\n500, 1.2"), 250mA)
//	// 645 µA
//
// Holds between the rows as well as a straight line does.
//
// Source: straight-line interpolation.
//
// Caution: a bipolar pass element takes its base current to ground, up to
// several per cent of the load, and more in dropout; a MOSFET one takes
// nearly the same at any load. "Quiescent current" in a data sheet is mostly
// the figure without load.
func GroundCurrent(curve table.Table, load units.Quantity) (units.Quantity, error) {
	ground, err := alongLoad(curve, argument.Current, "A", load)
	return ground, argument.First("linear.GroundCurrent", err)
}

// LossInputs are the arguments of Loss.
type LossInputs struct {
	Input  units.Quantity // voltage at the input, V
	Output units.Quantity // voltage that comes out, V
	Load   units.Quantity // current drawn from the output, A
	Ground units.Quantity // current that the regulator itself takes, A; left out: none
}

// LossResult is what Loss finds.
type LossResult struct {
	Drop           units.Quantity // from input to output, V
	PassLoss       units.Quantity // in the pass element, W
	GroundLoss     units.Quantity // by the ground current, W
	Loss           units.Quantity // both together, W
	InputCurrent   units.Quantity // taken from the input, A
	InputPower     units.Quantity // taken from the input, W
	OutputPower    units.Quantity // delivered, W
	Efficiency     units.Quantity // share of the input power that is delivered, no unit
	GroundShare    units.Quantity // share of the input current that the part itself takes, no unit
	MostEfficiency units.Quantity // at a load far above the ground current, no unit
}

// Loss computes where the power goes.
//
//	Drop           = input − output
//	PassLoss       = Drop · load
//	GroundLoss     = input · ground
//	Loss           = PassLoss + GroundLoss
//	InputCurrent   = load + ground
//	InputPower     = input · InputCurrent
//	OutputPower    = output · load
//	Efficiency     = OutputPower/InputPower
//	GroundShare    = ground/InputCurrent
//	MostEfficiency = output/input
//
// Arguments: see LossInputs; Input and Output above zero, Output not above
// Input, Load and Ground not below zero and not both zero. It is an error
// outside of that.
//
//	l, err := linear.Loss(linear.LossInputs{Input: 5V, Output: 3.3V, Load: 60mA, Ground: 90µA})
//	// l.Loss: 102.5 mW; l.Efficiency: 65.9 %; l.GroundShare: 0.15 %
//
// Holds in regulation and in dropout, with what then comes out (Headroom's
// Delivered) for Output. InputPower = OutputPower + Loss.
//
// Source: Kirchhoff's current law; efficiency as in TI application report
// SLVA072.
//
// Caution: current that the feedback divider takes is load here: add it.
func Loss(in LossInputs) (LossResult, error) {
	const function = "linear.Loss"
	ground := argument.Current.OrZero(in.Ground)
	if err := argument.First(function,
		argument.Voltage.Positive("Input", in.Input),
		argument.Voltage.Positive("Output", in.Output),
		argument.Current.NotNegative("Load", in.Load),
		argument.Current.NotNegative("Ground", ground),
	); err != nil {
		return LossResult{}, err
	}
	input, output, load := in.Input, in.Output, in.Load
	inputCurrent := load.Add(ground)
	if err := argument.First(function,
		argument.AtMost("Output", output, "Input", input, tooLowMend),
		argument.Current.Positive("the sum of Load and Ground", inputCurrent),
	); err != nil {
		return LossResult{}, err
	}
	drop := input.Sub(output)
	passLoss := drop.Mul(load)
	groundLoss := input.Mul(ground)
	loss := passLoss.Add(groundLoss)
	inputPower := input.Mul(inputCurrent)
	outputPower := output.Mul(load)
	efficiency := outputPower.Div(inputPower)
	groundShare := ground.Div(inputCurrent)
	mostEfficiency := output.Div(input)
	return LossResult{
		Drop:           drop,
		PassLoss:       passLoss,
		GroundLoss:     groundLoss,
		Loss:           loss,
		InputCurrent:   inputCurrent,
		InputPower:     inputPower,
		OutputPower:    outputPower,
		Efficiency:     efficiency,
		GroundShare:    groundShare,
		MostEfficiency: mostEfficiency,
	}, nil
}

const tooLowMend = "a linear regulator only lowers: raise the input, or give what comes out in dropout (Headroom's Delivered)"
