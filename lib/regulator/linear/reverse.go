package linear

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// ReverseInputs are the arguments of ReverseCurrent.
type ReverseInputs struct {
	Output      units.Quantity // voltage that the output capacitor holds, V
	Input       units.Quantity // voltage to which the input falls, V; left out: 0 V, a short circuit
	Forward     units.Quantity // drop of what then conducts: body diode, or a diode beside the part, V
	Resistance  units.Quantity // of that path and the capacitor's ESR together, Ω
	Capacitance units.Quantity // at the output, F
	Rated       units.Quantity // current that the path survives, A
}

// ReverseResult is what ReverseCurrent finds.
type ReverseResult struct {
	Excess       units.Quantity // voltage that drives the current, V; zero: none flows
	Peak         units.Quantity // of the current, A
	Margin       units.Quantity // left to Rated, A; below zero: too much
	TimeConstant units.Quantity // with which it fades, s
	Charge       units.Quantity // that flows back, C
	Energy       units.Quantity // turned into heat, in the resistances and the diode, J
}

// ReverseCurrent computes what flows back through a regulator when its input
// falls below its output: the input is shorted, or something else at the
// input discharges it faster than the load discharges the output.
//
//	Excess       = output − input − forward, not below 0
//	Peak         = Excess/resistance
//	Margin       = rated − Peak
//	TimeConstant = resistance · capacitance
//	Charge       = capacitance · Excess
//	Energy       = Charge · (Excess/2 + forward)
//
// Arguments: see ReverseInputs; Output, Resistance, Capacitance and Rated
// above zero, Input and Forward not below. It is an error outside of that. A
// current above Rated is none: Margin is below zero.
//
//	r, err := linear.ReverseCurrent(linear.ReverseInputs{
//		Output: 5V, Forward: 0.7V, Resistance: 200mΩ, Capacitance: 100µF, Rated: 1A,
//	})
//	// r.Peak: 21.5 A; r.Margin: −20.5 A: it needs a diode from output to input
//
// Holds for an input that falls at once; one that falls slowly draws
// capacitance · dV/dt instead.
//
// Source: discharge of a capacitor; that small capacitors deliver tens of
// amperes as in the data sheet LM337, SNVS778, protection diodes.
//
// Caution: a MOSFET pass element conducts through its body diode, a bipolar
// one breaks down at some volts in reverse. A part whose data sheet speaks of
// reverse-current protection may still take milliamperes back, which empties
// a backup battery at the output. A diode from output to input carries the
// discharge, one in series with the input blocks it and costs headroom. The
// capacitor at an adjust pin needs a diode of its own.
func ReverseCurrent(in ReverseInputs) (ReverseResult, error) {
	input := argument.Voltage.OrZero(in.Input)
	if err := argument.First("linear.ReverseCurrent",
		argument.Voltage.Positive("Output", in.Output),
		argument.Voltage.NotNegative("Input", input),
		argument.Voltage.NotNegative("Forward", in.Forward),
		argument.Resistance.Positive("Resistance", in.Resistance),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Current.Positive("Rated", in.Rated),
	); err != nil {
		return ReverseResult{}, err
	}
	output, forward := in.Output, in.Forward
	excess := units.Max(output.Sub(input).Sub(forward), argument.Voltage.OrZero(none))
	peak := excess.Div(in.Resistance)
	margin := in.Rated.Sub(peak)
	timeConstant := in.Resistance.Mul(in.Capacitance)
	charge := in.Capacitance.Mul(excess)
	energy := charge.Mul(excess.Div(units.Number(2)).Add(forward))
	return ReverseResult{
		Excess:       excess,
		Peak:         peak,
		Margin:       margin,
		TimeConstant: timeConstant,
		Charge:       charge,
		Energy:       energy,
	}, nil
}
