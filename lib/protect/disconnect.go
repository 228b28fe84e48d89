package protect

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// DisconnectInputs are the arguments of Disconnect.
type DisconnectInputs struct {
	Reference units.Quantity // at the inverting input, V
	Upper     units.Quantity // resistor from the supply to the other input, Ω
	Lower     units.Quantity // resistor from there to ground, Ω
	Feedback  units.Quantity // resistor from the output to there, Ω
	High      units.Quantity // output that says too high, V
	Low       units.Quantity // the other output, V; left out: 0 V
	Offset    units.Quantity // of the comparator, of either sign, V; left out: none
	Working   units.Quantity // highest supply in operation, V
	Limit     units.Quantity // highest voltage that what hangs on it survives, V
}

// DisconnectResult is what Disconnect finds.
type DisconnectResult struct {
	Disconnect    units.Quantity // supply at which it switches off, rising, V
	Reconnect     units.Quantity // supply at which it switches on again, falling, V
	Hysteresis    units.Quantity // between the two, V
	WorkingMargin units.Quantity // of Reconnect above Working, V; below zero: it stays off in operation
	LimitMargin   units.Quantity // of Limit above Disconnect, V; below zero: it comes too late
}

// Disconnect computes the thresholds of a comparator with hysteresis that
// switches the supply off when it is too high.
//
//	supply ── upper ──┬── lower ── ground
//	                  ├── feedback ── output of the comparator
//	                  └── its non-inverting input; the reference at the other
//
//	level      = reference + offset
//	Disconnect = level · (1 + upper/lower + upper/feedback) − low · upper/feedback
//	Reconnect  = level · (1 + upper/lower + upper/feedback) − high · upper/feedback
//	Hysteresis = Disconnect − Reconnect
//	WorkingMargin = Reconnect − working
//	LimitMargin   = limit − Disconnect
//
// Arguments: see DisconnectInputs; Reference, Working and Limit, V, and the
// resistors, Ω, above zero, Low not below, High above Low. It is an error
// outside of that, and where no supply above zero reconnects. Thresholds on
// the wrong side of Working or Limit are none: the margins are below zero.
//
//	d, err := protect.Disconnect(protect.DisconnectInputs{
//		Reference: 2.5V ± 1%, Upper: 127kΩ ± 1%, Lower: 10kΩ ± 1%, Feedback: 402kΩ ± 1%, High: 5V, Working: 30V, Limit: 40V,
//	})
//
// Holds for a comparator whose input takes no current. With an open-drain
// output the pull-up is a part of Feedback while it is high.
//
// Source: Kirchhoff's current law at the input.
//
// Caution: it does not see a surge of microseconds: that is for a clamp before
// it. The comparator must live from a supply that stays up, and its input
// survive the highest voltage of the divider.
func Disconnect(in DisconnectInputs) (DisconnectResult, error) {
	const function = "protect.Disconnect"
	low, offset := argument.Voltage.OrZero(in.Low), argument.Voltage.OrZero(in.Offset)
	if err := argument.First(function,
		argument.Voltage.Positive("Reference", in.Reference),
		argument.Resistance.Positive("Upper", in.Upper),
		argument.Resistance.Positive("Lower", in.Lower),
		argument.Resistance.Positive("Feedback", in.Feedback),
		argument.Voltage.Positive("High", in.High),
		argument.Voltage.NotNegative("Low", low),
		argument.Voltage.Signed("Offset", offset),
		argument.Voltage.Positive("Working", in.Working),
		argument.Voltage.Positive("Limit", in.Limit),
	); err != nil {
		return DisconnectResult{}, err
	}
	level := in.Reference.Add(offset)
	toFeedback := in.Upper.Div(in.Feedback)
	ratio := units.Number(1).Add(in.Upper.Div(in.Lower)).Add(toFeedback)
	disconnect := level.Mul(ratio).Sub(low.Mul(toFeedback))
	reconnect := level.Mul(ratio).Sub(in.High.Mul(toFeedback))
	if err := argument.First(function,
		argument.Above("High", in.High, "Low", low, "High is the output that says too high"),
		argument.Above("the supply that reconnects", reconnect, "zero", low.Sub(low), "it would stay off for ever; raise Feedback, for less hysteresis"),
	); err != nil {
		return DisconnectResult{}, err
	}
	hysteresis := in.High.Sub(low).Mul(toFeedback)
	workingMargin := reconnect.Sub(in.Working)
	limitMargin := in.Limit.Sub(disconnect)
	return DisconnectResult{
		Disconnect:    disconnect,
		Reconnect:     reconnect,
		Hysteresis:    hysteresis,
		WorkingMargin: workingMargin,
		LimitMargin:   limitMargin,
	}, nil
}

// DisconnectDividerInputs are the arguments of DisconnectDivider.
type DisconnectDividerInputs struct {
	Disconnect units.Quantity // supply at which it switches off, rising, V
	Reconnect  units.Quantity // supply at which it switches on again, falling, V
	Reference  units.Quantity // at the inverting input, V
	Upper      units.Quantity // resistor from the supply to the other input, Ω
	High       units.Quantity // output that says too high, V
	Low        units.Quantity // the other output, V; left out: 0 V
}

// DisconnectDividerResult is what DisconnectDivider finds.
type DisconnectDividerResult struct {
	Feedback units.Quantity // resistor from the output to the input, Ω
	Lower    units.Quantity // resistor from the input to ground, Ω
}

// DisconnectDivider finds the resistors for thresholds that are wanted: the
// inverse of Disconnect.
//
//	Feedback = upper · (high − low)/(disconnect − reconnect)
//	Lower    = upper/((disconnect + low · upper/Feedback)/reference − 1 − upper/Feedback)
//
// Arguments: see DisconnectDividerInputs; all but Low above zero, Disconnect
// above Reconnect, High above Low. It is an error outside of that, and where
// Reference is too high for the thresholds.
//
//	d, err := protect.DisconnectDivider(protect.DisconnectDividerInputs{Disconnect: 36V, Reconnect: 34V, Reference: 2.5V, Upper: 127kΩ, High: 5V})
//
// Where it holds, source and cautions: as Disconnect.
func DisconnectDivider(in DisconnectDividerInputs) (DisconnectDividerResult, error) {
	const function = "protect.DisconnectDivider"
	low := argument.Voltage.OrZero(in.Low)
	if err := argument.First(function,
		argument.Voltage.Positive("Disconnect", in.Disconnect),
		argument.Voltage.Positive("Reconnect", in.Reconnect),
		argument.Voltage.Positive("Reference", in.Reference),
		argument.Resistance.Positive("Upper", in.Upper),
		argument.Voltage.Positive("High", in.High),
		argument.Voltage.NotNegative("Low", low),
	); err != nil {
		return DisconnectDividerResult{}, err
	}
	if err := argument.First(function,
		argument.Above("Disconnect", in.Disconnect, "Reconnect", in.Reconnect, "without hysteresis it chatters"),
		argument.Above("High", in.High, "Low", low, "High is the output that says too high"),
	); err != nil {
		return DisconnectDividerResult{}, err
	}
	toFeedback := in.Disconnect.Sub(in.Reconnect).Div(in.High.Sub(low))
	feedback := in.Upper.Div(toFeedback)
	toLower := in.Disconnect.Add(low.Mul(toFeedback)).Div(in.Reference).Sub(units.Number(1)).Sub(toFeedback)
	if err := argument.First(function,
		argument.Above("upper/lower", toLower, "zero", toLower.Sub(toLower), "Reference is too high for these thresholds, or the hysteresis too wide; lower one"),
	); err != nil {
		return DisconnectDividerResult{}, err
	}
	lower := in.Upper.Div(toLower)
	return DisconnectDividerResult{Feedback: feedback, Lower: lower}, nil
}
