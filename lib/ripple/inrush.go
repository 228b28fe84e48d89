package ripple

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// InrushInputs are the arguments of Inrush.
type InrushInputs struct {
	Arrangement Arrangement    // HalfWave, FullWave or Bridge
	Input       units.Quantity // RMS value of the source without load; of one half of a tapped winding; V
	Diode       units.Quantity // forward voltage of one diode, V; left out: none
	Resistance  units.Quantity // of the source, wires and diodes, cold, Ω
	Capacitance units.Quantity // of the reservoir, F
}

// InrushResult is what Inrush finds.
type InrushResult struct {
	Peak         units.Quantity // to which the reservoir is charged, V
	Current      units.Quantity // at most, A
	TimeConstant units.Quantity // of the charging, s
	Energy       units.Quantity // in the reservoir afterwards, J
	SquareTime   units.Quantity // of the current, summed over the time, at most, A²s
}

// Inrush computes the current into the empty reservoir of a rectifier that is
// switched on at the worst phase, the peak of the source.
//
//	Peak         = √2 · input − drop
//	Current      = Peak/resistance
//	TimeConstant = resistance · capacitance
//	Energy       = capacitance · Peak²/2
//	SquareTime   = capacitance · Peak²/(2 · resistance)
//
// with the drop of one diode, of two in a bridge.
//
// Arguments: Arrangement; Input, V, Resistance, Ω, and Capacitance, F, above
// zero; Diode, V, not below zero. It is an error outside of that, and where
// the source's peak is not above the drop.
//
//	i, err := ripple.Inrush(ripple.InrushInputs{
//		Arrangement: ripple.Bridge, Input: 27V, Diode: 0.9V, Resistance: 2.5Ω, Capacitance: 4.7mF,
//	})
//	// i.Current against the diodes' surge current, i.SquareTime against the fuse's
//
// Current is exact at the peak's phase, and less at every other. SquareTime
// is an upper bound at any phase: what a source that is never above Peak
// gives, less what the reservoir keeps. It is reached where TimeConstant is
// short beside a period.
//
// Source: Ohm's law; energy.
//
// Caution: Resistance is the cold one, and a thermistor that limits the
// current is still warm after a short interruption. The inductance of the
// source lowers the current; the iron of a transformer that is switched on at
// the zero of its voltage draws a current of its own, on its other side.
func Inrush(in InrushInputs) (InrushResult, error) {
	const function = "ripple.Inrush"
	diode := argument.Voltage.OrZero(in.Diode)
	if err := argument.First(function,
		in.Arrangement.check(),
		argument.Voltage.Positive("Input", in.Input),
		argument.Voltage.NotNegative("Diode", diode),
		argument.Resistance.Positive("Resistance", in.Resistance),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
	); err != nil {
		return InrushResult{}, err
	}
	amplitude := units.Sqrt(units.Number(2)).Mul(in.Input)
	drop := units.Number(in.Arrangement.inWay()).Mul(diode)
	if err := argument.First(function, argument.Above("the peak of Input", amplitude, "the diodes in its way", drop, "no current flows; raise Input")); err != nil {
		return InrushResult{}, err
	}
	peak := amplitude.Sub(drop)
	current := peak.Div(in.Resistance)
	timeConstant := in.Resistance.Mul(in.Capacitance)
	energy := in.Capacitance.Mul(peak).Mul(peak).Mul(units.Number(0.5))
	squareTime := energy.Div(in.Resistance)
	return InrushResult{Peak: peak, Current: current, TimeConstant: timeConstant, Energy: energy, SquareTime: squareTime}, nil
}
