package powertree

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// StageInputs are the arguments of Linear and Switching.
type StageInputs struct {
	Input      units.Quantity // voltage, V
	Output     units.Quantity // voltage, V
	Load       units.Quantity // current out, A
	Efficiency units.Quantity // of a switching converter at this load, 85 %
	Quiescent  units.Quantity // taken from the input beside the rest, A; may be left out
}

// StageResult is what a converter takes and loses.
type StageResult struct {
	Power   units.Quantity // out, W
	Heat    units.Quantity // lost, W
	InPower units.Quantity // Power + Heat, W
	In      units.Quantity // current in, A
}

// Linear computes what a linear regulator takes and loses: the load passes
// through.
//
//	Power   = output · load
//	Heat    = (input − output) · load + input · quiescent
//	InPower = Power + Heat
//	In      = load + quiescent
//
// Arguments: Input and Output, V, above zero, Output not above Input; Load, A,
// not below zero; Quiescent, A, not below zero. It is an error outside of
// that, and if Efficiency is given, which follows.
//
//	s, err := powertree.Linear(powertree.StageInputs{Input: 5V, Output: 3.3V, Load: 100mA, Quiescent: 60µA})
//	// s.Heat: 170.3 mW
//
// Source: Kirchhoff's laws. Caution: the ground current of many regulators
// rises with the load; take that of the load that is met.
func Linear(in StageInputs) (StageResult, error) {
	const function = "powertree.Linear"
	if err := in.check(function); err != nil {
		return StageResult{}, err
	}
	if err := argument.First(function,
		argument.Unset("Efficiency", in.Efficiency, "leave it out; a linear regulator has output/input at most"),
		argument.AtMost("Output", in.Output, "Input", in.Input, "a linear regulator cannot step up"),
	); err != nil {
		return StageResult{}, err
	}
	return linear(in.Input, in.Output, in.Load, argument.Current.OrZero(in.Quiescent)), nil
}

func linear(input, output, load, quiescent units.Quantity) StageResult {
	power := output.Mul(load)
	heat := input.Sub(output).Mul(load).Add(input.Mul(quiescent))
	inPower := power.Add(heat)
	in := load.Add(quiescent)
	return StageResult{Power: power, Heat: heat, InPower: inPower, In: in}
}

// Switching computes what a switching converter takes and loses.
//
//	Power   = output · load
//	Heat    = Power · (1 − efficiency)/efficiency + input · quiescent
//	InPower = Power + Heat
//	In      = InPower/input
//
// Arguments: Input and Output, V, above zero (of an inverting converter the
// size); Load, A, not below zero; Efficiency, above 0 %, not above 100 %;
// Quiescent, A, not below zero. It is an error outside of that.
//
//	s, err := powertree.Switching(powertree.StageInputs{Input: 12V, Output: 3.3V, Load: 1A, Efficiency: 85%})
//	// s.In: 323.5 mA
//
// Source: the definition of efficiency. Caution: published efficiencies
// contain what the converter takes by itself; Quiescent adds to that, so give
// it for light loads, where a fixed efficiency says nothing.
func Switching(in StageInputs) (StageResult, error) {
	const function = "powertree.Switching"
	if err := in.check(function); err != nil {
		return StageResult{}, err
	}
	if err := argument.First(function, efficiency("Efficiency", in.Efficiency)); err != nil {
		return StageResult{}, err
	}
	return switching(in.Input, in.Output, in.Load, in.Efficiency, argument.Current.OrZero(in.Quiescent)), nil
}

func switching(input, output, load, efficiency, quiescent units.Quantity) StageResult {
	power := output.Mul(load)
	lost := units.Number(1).Sub(efficiency).Div(efficiency)
	heat := power.Mul(lost).Add(input.Mul(quiescent))
	inPower := power.Add(heat)
	in := inPower.Div(input)
	return StageResult{Power: power, Heat: heat, InPower: inPower, In: in}
}

// losing is a converter whose loss is known.
func losing(input, output, load, heat units.Quantity) StageResult {
	power := output.Mul(load)
	inPower := power.Add(heat)
	in := inPower.Div(input)
	return StageResult{Power: power, Heat: heat, InPower: inPower, In: in}
}

func (in StageInputs) check(function string) error {
	return argument.First(function,
		argument.Voltage.Positive("Input", in.Input),
		argument.Voltage.Positive("Output", in.Output),
		argument.Current.NotNegative("Load", in.Load),
		argument.Current.NotNegative("Quiescent", argument.Current.OrZero(in.Quiescent)),
	)
}

// efficiency checks that x is one.
func efficiency(name string, x units.Quantity) error {
	if err := argument.Share.Positive(name, x); err != nil {
		return err
	}
	return argument.AtMost(name, x, "that without loss", units.In(units.Number(1), "%"), "no converter gives more than it takes")
}
