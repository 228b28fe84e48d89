package divider

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// The number of bits of a converter that the functions take.
const (
	fewestBits = 1
	mostBits   = 32
	bitsMend   = "write the converter's number of bits, such as 12"
)

// MeasuringUpper finds the ideal upper resistor with which the largest input
// voltage just reaches the converter's reference.
//
//	Upper = lower · (largest/reference − 1)
//
// Arguments: largest, the largest voltage to be measured, V, above
// reference; reference, the converter's full scale, V, above zero; lower, the
// lower resistor, Ω, above zero. Result: the upper resistor, Ω. It is an
// error outside of that: at or below the reference no divider is needed.
//
//	Rtop, err := divider.MeasuringUpper(32V, 3.3V, 10kΩ)   // 86.97 kΩ
//
// Source: Kirchhoff's laws.
//
// Caution: choose the next larger preferred value
// (AtLeast), and leave room for the tolerance of reference and resistors.
func MeasuringUpper(largest, reference, lower units.Quantity) (units.Quantity, error) {
	const function = "divider.MeasuringUpper"
	if err := argument.First(function,
		argument.Voltage.Positive("largest", largest),
		argument.Voltage.Positive("reference", reference),
		argument.Resistance.Positive("lower", lower),
	); err != nil {
		return none, err
	}
	if err := argument.First(function,
		argument.Above("largest", largest, "reference", reference, "connect it without a divider, or choose a lower reference"),
	); err != nil {
		return none, err
	}
	upper := lower.Mul(largest.Div(reference).Sub(units.Number(1)))
	return upper, nil
}

// MeasuringInputs are the arguments of Measuring.
type MeasuringInputs struct {
	Input     units.Quantity // voltage to be measured, V; usually the largest
	Upper     units.Quantity // resistor from the input to the node, Ω
	Lower     units.Quantity // resistor from the node to ground, Ω
	Reference units.Quantity // voltage at which the converter is full, V
	Bits      int            // resolution of the converter
	Leakage   units.Quantity // size of the current into or out of the converter's pin, A; left out: none
}

// MeasuringResult is what Measuring finds.
type MeasuringResult struct {
	Ratio        units.Quantity // node/input, no unit
	Node         units.Quantity // voltage at the converter for Input, V
	FullScale    units.Quantity // input voltage at which the converter is full, V
	Headroom     units.Quantity // FullScale/Input − 1; below zero: Input is beyond full scale
	Step         units.Quantity // one step of the converter at its pin, V
	Resolution   units.Quantity // one step of the converter at the input, V
	Source       units.Quantity // resistance that the converter sees, Ω
	PinError     units.Quantity // size of the error by leakage at the pin, V
	InputError   units.Quantity // size of the error by leakage at the input, V
	ErrorInSteps units.Quantity // the same in steps of the converter, no unit
	Current      units.Quantity // through the divider at Input, A
	UpperPower   units.Quantity // lost in the upper resistor, W
	LowerPower   units.Quantity // lost in the lower resistor, W
	Power        units.Quantity // taken from the input, W
}

// Measuring computes the divider between a voltage and a converter input.
//
//	Ratio      = lower/(upper + lower)
//	Node       = input · Ratio
//	FullScale  = reference/Ratio
//	Headroom   = FullScale/input − 1
//	Step       = reference/2^bits
//	Resolution = Step/Ratio
//	Source     = upper ∥ lower
//	PinError   = leakage · Source
//	InputError = PinError/Ratio   (= leakage · upper)
//
// Arguments: see MeasuringInputs; voltages and resistors above zero, Bits
// from 1 to 32, Leakage not below zero: its sign is seldom known, so errors
// come as sizes, to be read as ±. It is an error outside of that. An Input
// beyond full scale is no error: Headroom is then below zero.
//
//	m, err := divider.Measuring(divider.MeasuringInputs{
//		Input: 32V, Upper: 100kΩ, Lower: 10kΩ, Reference: 3.3V, Bits: 12, Leakage: 100nA,
//	})
//	// m.FullScale: 36.3 V; m.Resolution: 8.862 mV; m.InputError: 10 mV
//
// Holds for direct current, an input resistance of the converter far above
// Source, and a pin inside its range; beyond it see Clamp.
//
// Source: Kirchhoff's laws, Thévenin's theorem; the step of an ideal
// converter is textbook content.
//
// Caution: leakage of a pin doubles about every 10 K (common practice), so
// take it at the highest temperature; tolerance of reference and resistors
// usually outweighs the step.
func Measuring(in MeasuringInputs) (MeasuringResult, error) {
	leakage := argument.Current.OrZero(in.Leakage)
	if err := argument.First("divider.Measuring",
		argument.Voltage.Positive("Input", in.Input),
		argument.Resistance.Positive("Upper", in.Upper),
		argument.Resistance.Positive("Lower", in.Lower),
		argument.Voltage.Positive("Reference", in.Reference),
		argument.Count("Bits", in.Bits, fewestBits, mostBits, bitsMend),
		argument.Current.NotNegative("Leakage", leakage),
	); err != nil {
		return MeasuringResult{}, err
	}
	input, upper, lower, reference := in.Input, in.Upper, in.Lower, in.Reference
	ratio := lower.Div(upper.Add(lower))
	node := input.Mul(ratio)
	fullScale := reference.Div(ratio)
	headroom := fullScale.Div(input).Sub(units.Number(1))
	step := reference.Div(units.Pow(units.Number(2), float64(in.Bits)))
	resolution := step.Div(ratio)
	source := units.Parallel(upper, lower)
	pinError := leakage.Mul(source)
	inputError := pinError.Div(ratio)
	errorInSteps := pinError.Div(step)
	current := input.Div(upper.Add(lower))
	upperPower := current.Mul(current).Mul(upper)
	lowerPower := current.Mul(current).Mul(lower)
	power := input.Mul(current)
	return MeasuringResult{
		Ratio:        ratio,
		Node:         node,
		FullScale:    fullScale,
		Headroom:     headroom,
		Step:         step,
		Resolution:   resolution,
		Source:       source,
		PinError:     pinError,
		InputError:   inputError,
		ErrorInSteps: errorInSteps,
		Current:      current,
		UpperPower:   upperPower,
		LowerPower:   lowerPower,
		Power:        power,
	}, nil
}
