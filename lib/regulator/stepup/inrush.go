package stepup

import (
	"math"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// InrushInputs are the arguments of Inrush.
type InrushInputs struct {
	Input       units.Quantity // to which the input steps, V
	Charged     units.Quantity // of the output capacitor before, V; left out: none
	Diode       units.Quantity // forward voltage of the rectifier, V; left out: none
	Inductance  units.Quantity // of the regulator, with that of the leads, H
	Capacitance units.Quantity // at the output, F
	Resistance  units.Quantity // of source, leads, winding, rectifier and the capacitor's ESR together, Ω; left out: none
}

// InrushResult is what Inrush finds.
type InrushResult struct {
	Step           units.Quantity // that drives the current, V
	Characteristic units.Quantity // impedance of inductance and capacitance, Ω
	Damping        units.Quantity // ratio, no unit; from 1 on nothing overshoots
	Settled        units.Quantity // output without overshoot, V
	UndampedPeak   units.Quantity // current without resistance, A
	UndampedOutput units.Quantity // highest output without resistance, V
	Peak           units.Quantity // current, A
	HighestOutput  units.Quantity // V
	PeakTime       units.Quantity // until the peak of the current, s
}

// Inrush computes current and output when the input of a step-up regulator is
// switched on: it reaches the output capacitor through inductor and rectifier,
// before any switch works, and no soft start slows it.
//
//	Step           = input − diode − charged
//	Characteristic = √(inductance/capacitance)
//	Damping        = resistance/(2 · Characteristic)
//	Settled        = input − diode
//	UndampedPeak   = Step/Characteristic
//	UndampedOutput = Settled + Step
//	Peak           = UndampedPeak · e^(−Damping · angle)
//	PeakTime       = angle · √(inductance · capacitance)
//	angle          = arccos(Damping)/√(1 − Damping²), arcosh(Damping)/√(Damping² − 1) above 1, 1 at 1
//	HighestOutput  = Settled + Step · e^(−π · Damping/√(1 − Damping²)); Settled from a Damping of 1 on
//
// Arguments: Input, V, Inductance, H, and Capacitance, F, above zero; Charged
// and Diode, V, not below zero and together below Input; Resistance, Ω, not
// below zero. It is an error outside of that.
//
//	r, err := stepup.Inrush(stepup.InrushInputs{Input: 4.2V, Diode: 0.4V, Inductance: 10µH, Capacitance: 22µF, Resistance: 0.2Ω})
//	// r.Peak: 4.554 A, r.HighestOutput: 6.172 V
//
// Holds for an input that steps at once (a plugged battery, a load switch
// without a slow edge), a light load, and an inductance that does not
// saturate. The rectifier keeps the overshoot in the capacitor until the load
// has taken it.
//
// Source: step response of a series circuit of resistance, inductance and
// capacitance (any textbook).
//
// Caution: the inductor does saturate where Peak is above its saturation, and
// then the resistance alone limits: Step/Resistance bounds it. Hold Peak
// against the surge rating of the diode and the source's fuse, HighestOutput
// against the load's rating where Input comes near the output.
func Inrush(in InrushInputs) (InrushResult, error) {
	const function = "stepup.Inrush"
	charged, diode, resistance := argument.Voltage.OrZero(in.Charged), argument.Voltage.OrZero(in.Diode), argument.Resistance.OrZero(in.Resistance)
	if err := argument.First(function,
		argument.Voltage.Positive("Input", in.Input),
		argument.Voltage.NotNegative("Charged", charged),
		argument.Voltage.NotNegative("Diode", diode),
		argument.Inductance.Positive("Inductance", in.Inductance),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.NotNegative("Resistance", resistance),
	); err != nil {
		return InrushResult{}, err
	}
	if err := argument.First(function,
		argument.Above("Input", in.Input, "what the output and the rectifier hold against it", charged.Add(diode), "no current flows then; raise Input or lower Charged"),
	); err != nil {
		return InrushResult{}, err
	}
	one, two := units.Number(1), units.Number(2)
	settled := in.Input.Sub(diode)
	step := settled.Sub(charged)
	characteristic := units.Sqrt(in.Inductance.Div(in.Capacitance))
	damping := resistance.Div(two.Mul(characteristic))
	angle := units.Lanewise("the angle of the peak", one, func(x []float64) float64 { return peakAngle(x[0]) }, damping)
	overshoot := units.Lanewise("the overshoot", one, func(x []float64) float64 { return overshootShare(x[0]) }, damping)
	undampedPeak := step.Div(characteristic)
	fading := units.Exp(damping.Mul(angle).Neg())
	period := units.Sqrt(in.Inductance.Mul(in.Capacitance))
	return InrushResult{
		Step:           step,
		Characteristic: characteristic,
		Damping:        damping,
		Settled:        settled,
		UndampedPeak:   undampedPeak,
		UndampedOutput: settled.Add(step),
		Peak:           undampedPeak.Mul(fading),
		HighestOutput:  settled.Add(step.Mul(overshoot)),
		PeakTime:       period.Mul(angle),
	}, nil
}

// peakAngle is the time of the current's peak, in radians of the undamped
// oscillation. Near a damping of 1 both forms tend to 1 and lose digits.
func peakAngle(damping float64) float64 {
	d := damping
	switch beyond := d*d - 1; {
	case math.Abs(d-1) < 1e-6:
		return 1 - (d-1)/3 // the slope there
	case beyond < 0:
		return math.Acos(d) / math.Sqrt(-beyond)
	default:
		return math.Acosh(d) / math.Sqrt(beyond)
	}
}

// overshootShare is by how much the output goes above where it settles, as a
// share of the step.
func overshootShare(damping float64) float64 {
	if damping >= 1 {
		return 0
	}
	return math.Exp(-math.Pi * damping / math.Sqrt(1-damping*damping))
}
