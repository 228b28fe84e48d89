package stepup

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// RectifierInputs are the arguments of Rectifier.
type RectifierInputs struct {
	Stage   Stage
	Ringing units.Quantity // of the switch node above the output and below ground, as a share of the output, no unit; left out: none
	Rating  units.Quantity // reverse voltage that the rectifier stands, V
	Leakage units.Quantity // of a diode, hot, at the output voltage, A; left out: none
}

// RectifierResult is what Rectifier finds.
type RectifierResult struct {
	Average       units.Quantity // current, A: the load
	RMS           units.Quantity // current, A
	Peak          units.Quantity // current, A
	Reverse       units.Quantity // voltage across the rectifier while the switch is on, with the ringing, V
	ReverseMargin units.Quantity // of Rating above Reverse, V
	SwitchVoltage units.Quantity // across the switch while the rectifier conducts, with the ringing, V
	Forward       units.Quantity // loss of the current, W
	Reversed      units.Quantity // loss of the leakage, W
	Heat          units.Quantity // sum of the two, W
}

// Rectifier computes what diode or synchronous rectifier must stand, and the
// switch with it.
//
//	Average       = load
//	Reverse       = output · (1 + Ringing)
//	ReverseMargin = rating − Reverse
//	SwitchVoltage = (output + RectifierDrop) · (1 + Ringing)
//	Forward       = diode · load + rectifier · RMS²
//	Reversed      = leakage · (output · OnShare + (output − input) · (1 − Conduction))
//	Heat          = Forward + Reversed
//
// with the currents as Currents finds them, RectifierDrop as Duty.
//
// Arguments: Stage, with Diode or Rectifier and not with Efficiency; Ringing
// not below zero and at most 300 %; Rating, V, above zero; Leakage, A, not
// below zero. It is an error outside of that. Whether the margin suffices is
// for a requirement of the note to say.
//
//	d, err := stepup.Rectifier(stepup.RectifierInputs{Stage: stage, Ringing: 30%, Rating: 30V, Leakage: 0.5mA})
//	Require(d.ReverseMargin > 0V, "the diode stands the output and its ringing")
//
// The diode carries the load on average, whatever the duty, but in pulses of
// the inductor's peak.
//
// Source: Kirchhoff's voltage law; common practice asks for 20 % to 30 % of
// margin, and a ringing of as much until it is measured.
//
// Caution: the loop of switch, rectifier and output capacitor rings with its
// nanohenries; its length on the board decides Ringing. With the output above
// its value (a fault in the feedback divider, a load thrown off) all of this
// rises with it.
func Rectifier(in RectifierInputs) (RectifierResult, error) {
	const function = "stepup.Rectifier"
	ringing, leak := argument.Share.OrZero(in.Ringing), argument.Current.OrZero(in.Leakage)
	if err := argument.First(function,
		argument.Unset("Efficiency", in.Stage.Efficiency, "leave it out, and give the diode or the rectifier"),
		in.Stage.withInductor(),
		argument.Share.NotNegative("Ringing", ringing),
		argument.Voltage.Positive("Rating", in.Rating),
		argument.Current.NotNegative("Leakage", leak),
	); err != nil {
		return RectifierResult{}, err
	}
	if err := argument.First(function,
		argument.AtMost("Ringing", ringing, "three times the output", units.Number(3), "write it as a share of the output, such as 30 %"),
	); err != nil {
		return RectifierResult{}, err
	}
	d, c, err := in.Stage.cycle(function)
	if err != nil {
		return RectifierResult{}, err
	}
	one, output := units.Number(1), in.Stage.Output
	p := in.Stage.parts()
	reverse := output.Mul(one.Add(ringing))
	switchVoltage := output.Add(d.RectifierDrop).Mul(one.Add(ringing))
	forward := p.diode.Mul(in.Stage.Load).Add(p.rectifier.Mul(c.OffRMS).Mul(c.OffRMS))
	blocked := output.Mul(c.OnShare).Add(output.Sub(in.Stage.Input).Mul(one.Sub(c.Conduction)))
	reversed := leak.Mul(blocked)
	return RectifierResult{
		Average:       in.Stage.Load,
		RMS:           c.OffRMS,
		Peak:          c.Peak,
		Reverse:       reverse,
		ReverseMargin: in.Rating.Sub(reverse),
		SwitchVoltage: switchVoltage,
		Forward:       forward,
		Reversed:      reversed,
		Heat:          forward.Add(reversed),
	}, nil
}
