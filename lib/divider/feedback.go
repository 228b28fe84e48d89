package divider

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// FeedbackInputs are the arguments of FeedbackUpper, FeedbackLower and
// FeedbackOutput; each leaves out what it finds.
type FeedbackInputs struct {
	Reference  units.Quantity // voltage that the regulator holds at its feedback pin, V
	Output     units.Quantity // voltage wanted at the top of the divider, V
	Upper      units.Quantity // resistor from the output to the feedback pin, Ω
	Lower      units.Quantity // resistor from the feedback pin to ground, Ω
	PinCurrent units.Quantity // into the feedback pin, A, negative out of it; left out: none
}

// FeedbackResult is what the three functions find.
type FeedbackResult struct {
	LowerCurrent units.Quantity // through the lower resistor, A
	UpperCurrent units.Quantity // through the upper resistor, A: what the divider takes from the output
	Upper        units.Quantity // resistor from the output to the feedback pin, Ω
	Lower        units.Quantity // resistor from the feedback pin to ground, Ω
	Output       units.Quantity // voltage at the top of the divider, V
	PinShift     units.Quantity // part of Output that the pin current makes, V
	PinShare     units.Quantity // size of the pin current as a share of LowerCurrent, no unit
}

// FeedbackUpper finds the ideal upper resistor of an adjustable regulator's
// feedback divider from the lower one.
//
//	LowerCurrent = reference/lower
//	UpperCurrent = LowerCurrent + pin current
//	Upper        = (output − reference)/UpperCurrent
//
// Arguments: Reference, V, and Lower, Ω, above zero; Output, V, not below
// Reference; PinCurrent, A, positive into the pin; Upper is left out. It is
// an error outside of that, and where a pin current out of the pin is as
// large as LowerCurrent, so that nothing is left to flow through Upper.
//
//	f, err := divider.FeedbackUpper(divider.FeedbackInputs{Reference: 0.8V, Output: 3.3V, Lower: 10kΩ})
//	Rtop := Nearest(E96, f.Upper)   // ideal 31.25 kΩ, chosen 30.9 kΩ
//
// Holds for regulators that compare a pin with a reference against ground.
// For the kind whose reference stands between output and adjust pin, Lower is
// the resistor from output to adjust pin, Upper the one from adjust pin to
// ground, and the current out of the adjust pin counts as positive.
//
// Source: Kirchhoff's current law at the feedback pin; the form without pin
// current is in every regulator's data sheet.
//
// Caution: common practice keeps PinShare below a few per cent, because the
// pin current of a data sheet is typical at best; and Lower is often bounded
// by the data sheet for stability and noise. Feed the chosen values back
// through FeedbackOutput: the output is what they make, not what was wanted.
func FeedbackUpper(in FeedbackInputs) (FeedbackResult, error) {
	const function = "divider.FeedbackUpper"
	pinCurrent := argument.Current.OrZero(in.PinCurrent)
	if err := argument.First(function,
		argument.Unset("Upper", in.Upper, "leave it out, or use FeedbackOutput to see what it makes"),
		argument.Voltage.Positive("Reference", in.Reference),
		argument.Voltage.Positive("Output", in.Output),
		argument.Resistance.Positive("Lower", in.Lower),
		argument.Current.Signed("PinCurrent", pinCurrent),
	); err != nil {
		return FeedbackResult{}, err
	}
	reference, output, lower := in.Reference, in.Output, in.Lower
	if err := argument.First(function,
		argument.AtLeast("Output", output, "Reference", reference, "a divider only sets outputs above the reference; choose a regulator with a lower one"),
	); err != nil {
		return FeedbackResult{}, err
	}
	lowerCurrent := reference.Div(lower)
	upperCurrent := lowerCurrent.Add(pinCurrent)
	if err := nothingLeft(function, pinCurrent, lowerCurrent, upperCurrent); err != nil {
		return FeedbackResult{}, err
	}
	upper := output.Sub(reference).Div(upperCurrent)
	return feedback(reference, upper, lower, pinCurrent), nil
}

// FeedbackLower finds the ideal lower resistor of an adjustable regulator's
// feedback divider from the upper one.
//
//	UpperCurrent = (output − reference)/upper
//	LowerCurrent = UpperCurrent − pin current
//	Lower        = reference/LowerCurrent
//
// Arguments: Reference, V, and Upper, Ω, above zero; Output, V, above
// Reference; PinCurrent, A, positive into the pin; Lower is left out. It is
// an error outside of that, and where the pin takes all of UpperCurrent.
//
//	f, err := divider.FeedbackLower(divider.FeedbackInputs{Reference: 0.8V, Output: 5V, Upper: 20kΩ})
//	// f.Lower: 3.81 kΩ
//
// Where it holds, source and cautions: as FeedbackUpper.
func FeedbackLower(in FeedbackInputs) (FeedbackResult, error) {
	const function = "divider.FeedbackLower"
	pinCurrent := argument.Current.OrZero(in.PinCurrent)
	if err := argument.First(function,
		argument.Unset("Lower", in.Lower, "leave it out, or use FeedbackOutput to see what it makes"),
		argument.Voltage.Positive("Reference", in.Reference),
		argument.Voltage.Positive("Output", in.Output),
		argument.Resistance.Positive("Upper", in.Upper),
		argument.Current.Signed("PinCurrent", pinCurrent),
	); err != nil {
		return FeedbackResult{}, err
	}
	reference, output, upper := in.Reference, in.Output, in.Upper
	if err := argument.First(function,
		argument.Above("Output", output, "Reference", reference, "at the reference itself no lower resistor is needed, and below it a divider cannot go"),
	); err != nil {
		return FeedbackResult{}, err
	}
	upperCurrent := output.Sub(reference).Div(upper)
	lowerCurrent := upperCurrent.Sub(pinCurrent)
	var zero units.Quantity
	if at := argument.NotAbove(lowerCurrent, zero, pinCurrent, upperCurrent); at != nil {
		return FeedbackResult{}, fmt.Errorf("%s: PinCurrent is %s; it must be below %s, which flows through Upper: choose a smaller upper resistor", function, at[0], at[1])
	}
	lower := reference.Div(lowerCurrent)
	return feedback(reference, upper, lower, pinCurrent), nil
}

// FeedbackOutput finds the output voltage that chosen feedback resistors
// make.
//
//	LowerCurrent = reference/lower
//	UpperCurrent = LowerCurrent + pin current
//	PinShift     = pin current · upper
//	Output       = reference · (1 + upper/lower) + PinShift
//
// Arguments: Reference, V, Upper and Lower, Ω, above zero; PinCurrent, A,
// positive into the pin; Output is left out. It is an error outside of that,
// and where a pin current out of the pin is as large as LowerCurrent.
//
//	f, err := divider.FeedbackOutput(divider.FeedbackInputs{Reference: 0.8V, Upper: 31.6kΩ, Lower: 10kΩ})
//	// f.Output: 3.328 V
//
// Where it holds, source and cautions: as FeedbackUpper.
func FeedbackOutput(in FeedbackInputs) (FeedbackResult, error) {
	const function = "divider.FeedbackOutput"
	pinCurrent := argument.Current.OrZero(in.PinCurrent)
	if err := argument.First(function,
		argument.Unset("Output", in.Output, "leave it out, or use FeedbackUpper or FeedbackLower to find a resistor for it"),
		argument.Voltage.Positive("Reference", in.Reference),
		argument.Resistance.Positive("Upper", in.Upper),
		argument.Resistance.Positive("Lower", in.Lower),
		argument.Current.Signed("PinCurrent", pinCurrent),
	); err != nil {
		return FeedbackResult{}, err
	}
	lowerCurrent := in.Reference.Div(in.Lower)
	upperCurrent := lowerCurrent.Add(pinCurrent)
	if err := nothingLeft(function, pinCurrent, lowerCurrent, upperCurrent); err != nil {
		return FeedbackResult{}, err
	}
	return feedback(in.Reference, in.Upper, in.Lower, pinCurrent), nil
}

// feedback computes every step from both resistors.
func feedback(reference, upper, lower, pinCurrent units.Quantity) FeedbackResult {
	lowerCurrent := reference.Div(lower)
	upperCurrent := lowerCurrent.Add(pinCurrent)
	pinShift := pinCurrent.Mul(upper)
	output := reference.Mul(units.Number(1).Add(upper.Div(lower))).Add(pinShift)
	pinShare := units.Abs(pinCurrent).Div(lowerCurrent)
	return FeedbackResult{
		LowerCurrent: lowerCurrent,
		UpperCurrent: upperCurrent,
		Upper:        upper,
		Lower:        lower,
		Output:       output,
		PinShift:     pinShift,
		PinShare:     pinShare,
	}
}

func nothingLeft(function string, pinCurrent, lowerCurrent, upperCurrent units.Quantity) error {
	var zero units.Quantity
	at := argument.NotAbove(upperCurrent, zero, pinCurrent, lowerCurrent)
	if at == nil {
		return nil
	}
	return fmt.Errorf("%s: PinCurrent is %s; out of the pin it must be smaller than %s, which flows through Lower: choose a smaller lower resistor", function, at[0], at[1])
}
