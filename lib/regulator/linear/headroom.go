package linear

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// HeadroomInputs are the arguments of Headroom.
type HeadroomInputs struct {
	Input   units.Quantity // voltage at the input, average, V
	Output  units.Quantity // voltage that the regulator is set to, V
	Dropout units.Quantity // that the pass element needs at this load and temperature, V
	Ripple  units.Quantity // on the input, peak to peak, V; left out: none
}

// HeadroomResult is what Headroom finds.
type HeadroomResult struct {
	LeastInput units.Quantity // average with which the output is just held, V
	Valley     units.Quantity // lowest voltage at the input, V
	Headroom   units.Quantity // left over, V; below zero: the regulator has dropped out
	Delivered  units.Quantity // voltage that comes out in the valley, V
	Lost       units.Quantity // of the output in the valley, V; zero in regulation
}

// Headroom computes what is left between input and output beyond the
// dropout, and what comes out where nothing is left.
//
//	LeastInput = output + dropout + ripple/2
//	Valley     = input − ripple/2
//	Headroom   = Valley − output − dropout
//	Delivered  = Valley − dropout, not below 0; output where Headroom ≥ 0
//	Lost       = output − Delivered
//
// Arguments: see HeadroomInputs; Input and Output above zero, Dropout and
// Ripple not below, Ripple not above twice Input. It is an error outside of
// that. An input that is too low is none: Headroom is then below zero, in
// each case by itself. Raise Input to LeastInput, or take a regulator with
// less dropout.
//
//	h, err := linear.Headroom(linear.HeadroomInputs{Input: 3.6V, Output: 3.3V, Dropout: 450mV})
//	// h.Headroom: −150 mV; h.Delivered: 3.15 V
//
// Holds for input and load that change slowly against the loop. In dropout
// the pass element follows the input: nothing of the ripple is rejected.
//
// Source: definition of the dropout voltage (any regulator's data sheet).
//
// Caution: ripple rejection and the answer to load steps are stated with
// headroom to spare, often 0.5 V to 1 V; common practice keeps a few hundred
// millivolts. Some parts take far more ground current in dropout.
func Headroom(in HeadroomInputs) (HeadroomResult, error) {
	const function = "linear.Headroom"
	ripple := argument.Voltage.OrZero(in.Ripple)
	if err := argument.First(function,
		argument.Voltage.Positive("Input", in.Input),
		argument.Voltage.Positive("Output", in.Output),
		argument.Voltage.NotNegative("Dropout", in.Dropout),
		argument.Voltage.NotNegative("Ripple", ripple),
	); err != nil {
		return HeadroomResult{}, err
	}
	input, output, dropout := in.Input, in.Output, in.Dropout
	two := units.Number(2)
	if err := argument.First(function,
		argument.AtMost("Ripple", ripple, "twice Input", input.Mul(two), "write it peak to peak, and the average for Input"),
	); err != nil {
		return HeadroomResult{}, err
	}
	zero := argument.Voltage.OrZero(none)
	leastInput := output.Add(dropout).Add(ripple.Div(two))
	valley := input.Sub(ripple.Div(two))
	headroom := valley.Sub(output).Sub(dropout)
	following := units.Max(valley.Sub(dropout), zero)
	delivered := units.Where(headroom, zero, following, output)
	lost := output.Sub(delivered)
	return HeadroomResult{
		LeastInput: leastInput,
		Valley:     valley,
		Headroom:   headroom,
		Delivered:  delivered,
		Lost:       lost,
	}, nil
}
