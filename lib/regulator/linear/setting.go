package linear

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/divider"
	"ohmwright/units"
)

// SettingInputs are the arguments of Setting.
type SettingInputs struct {
	Reference  units.Quantity // voltage that the regulator holds at its feedback pin, V
	Upper      units.Quantity // resistor from the output to the feedback pin, Ω
	Lower      units.Quantity // resistor from the feedback pin to ground, Ω
	PinCurrent units.Quantity // into the feedback pin, A, negative out of it; left out: none
	Wanted     units.Quantity // output voltage that is wanted, V
	LeastLoad  units.Quantity // that the regulator needs to hold its output, A; left out: none
}

// SettingResult is what Setting finds.
type SettingResult struct {
	Output     units.Quantity // voltage that the divider sets, V
	Error      units.Quantity // above the one that is wanted, V
	ErrorShare units.Quantity // of the one that is wanted, no unit
	PinShift   units.Quantity // part of Output that the pin current makes, V
	PinShare   units.Quantity // size of the pin current as a share of the divider's, no unit
	Current    units.Quantity // that the divider takes from the output, A
	Power      units.Quantity // that the divider takes, W
	Missing    units.Quantity // of LeastLoad, that the load itself must draw at all times, A
}

// Setting computes the output voltage that chosen feedback resistors set.
//
//	Output     = reference · (1 + upper/lower) + PinShift
//	Error      = Output − wanted
//	ErrorShare = Error/wanted
//	PinShift   = pin current · upper
//	PinShare   = |pin current|/(reference/lower)
//	Current    = reference/lower + pin current
//	Power      = Output · Current
//	Missing    = least load − Current, not below 0
//
// Arguments: see SettingInputs; Reference, Upper, Lower and Wanted above
// zero, LeastLoad not below. It is an error outside of that, and where a pin
// current out of the pin is as large as what flows through Lower.
//
//	s, err := linear.Setting(linear.SettingInputs{Reference: 0.8V, Upper: 37.4kΩ, Lower: 12kΩ, Wanted: 3.3V})
//	// s.Output: 3.293 V; s.ErrorShare: −0.2 %
//
// The resistors themselves come from divider.FeedbackUpper or
// divider.FeedbackLower and a series of preferred numbers; where it holds,
// and the kind whose reference stands between output and adjust pin, as
// there.
//
// Source: Kirchhoff's current law at the feedback pin, as
// divider.FeedbackOutput, which this function calls.
//
// Caution: the divider also sets how much of the reference's noise comes out.
// A regulator of the three-terminal kind rises without its least load.
func Setting(in SettingInputs) (SettingResult, error) {
	const function = "linear.Setting"
	leastLoad := argument.Current.OrZero(in.LeastLoad)
	if err := argument.First(function,
		argument.Voltage.Positive("Wanted", in.Wanted),
		argument.Current.NotNegative("LeastLoad", leastLoad),
	); err != nil {
		return SettingResult{}, err
	}
	f, err := divider.FeedbackOutput(divider.FeedbackInputs{
		Reference: in.Reference, Upper: in.Upper, Lower: in.Lower, PinCurrent: in.PinCurrent,
	})
	if err != nil {
		return SettingResult{}, argument.First(function, err)
	}
	output, current := f.Output, f.UpperCurrent
	difference := output.Sub(in.Wanted)
	errorShare := difference.Div(in.Wanted)
	power := output.Mul(current)
	missing := units.Max(leastLoad.Sub(current), argument.Current.OrZero(none))
	return SettingResult{
		Output:     output,
		Error:      difference,
		ErrorShare: errorShare,
		PinShift:   f.PinShift,
		PinShare:   f.PinShare,
		Current:    current,
		Power:      power,
		Missing:    missing,
	}, nil
}
