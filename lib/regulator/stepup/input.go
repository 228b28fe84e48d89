package stepup

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// InputRippleInputs are the arguments of InputRipple.
type InputRippleInputs struct {
	Stage       Stage
	Capacitance units.Quantity // at the input, with its bias, hot and aged, F
	ESR         units.Quantity // its equivalent series resistance, Ω; left out: none
}

// InputRippleResult is what InputRipple finds.
type InputRippleResult struct {
	Average    units.Quantity // input current, A
	Ripple     units.Quantity // of the inductor's current, peak to peak, A
	RMS        units.Quantity // current of the capacitor, A
	Charge     units.Quantity // that the capacitor takes and gives in each period, C
	Capacitive units.Quantity // ripple that the charge makes, peak to peak, V
	Resistive  units.Quantity // ripple across the ESR, peak to peak, V
	Total      units.Quantity // sum of the two, V
	Heat       units.Quantity // lost in the ESR, W
}

// InputRipple computes current and ripple of the input capacitor, which takes
// what alternates in the inductor's current while the supply gives its mean.
//
//	Charge     = (Peak − Average)²/2 · (1/OnSlope + 1/OffSlope)
//	Capacitive = Charge/capacitance
//	Resistive  = Ripple · ESR
//	Total      = Capacitive + Resistive
//	Heat       = RMS² · ESR
//
// with the currents as Currents finds them. In continuous conduction RMS is
// Ripple/√12 and Charge is Ripple/(8 · frequency).
//
// Arguments: Stage; Capacitance, F, above zero; ESR, Ω, not below zero. It is
// an error outside of that.
//
//	r, err := stepup.InputRipple(stepup.InputRippleInputs{Stage: stage, Capacitance: 10µF, ESR: 3mΩ})
//
// Give Input as a range: the ripple is largest where the input comes nearest
// to half the output. Total is an upper bound: the two parts do not peak at
// one instant.
//
// Holds where the supply's own inductance keeps its current steady; with a
// supply that takes part, the capacitor has less to do.
//
// Source: RMS value and charge of a triangle (any textbook).
//
// Caution: the ripple is the easy part. A battery with long leads sags and
// rings at each load step unless a capacitor here is many times larger than
// the ripple asks for.
func InputRipple(in InputRippleInputs) (InputRippleResult, error) {
	const function = "stepup.InputRipple"
	esr := argument.Resistance.OrZero(in.ESR)
	d, c, err := in.Stage.cycle(function)
	if err != nil {
		return InputRippleResult{}, err
	}
	if err := argument.First(function,
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.NotNegative("ESR", esr),
	); err != nil {
		return InputRippleResult{}, err
	}
	rms := c.AlternatingRMS
	capacitive := c.Charge.Div(in.Capacitance)
	resistive := c.Ripple.Mul(esr)
	total := capacitive.Add(resistive)
	heat := rms.Mul(rms).Mul(esr)
	return InputRippleResult{
		Average:    d.Mean,
		Ripple:     c.Ripple,
		RMS:        rms,
		Charge:     c.Charge,
		Capacitive: capacitive,
		Resistive:  resistive,
		Total:      total,
		Heat:       heat,
	}, nil
}

// InputCapacitorInputs are the arguments of InputCapacitor.
type InputCapacitorInputs struct {
	Stage      Stage          // Load above zero
	Capacitive units.Quantity // ripple allowed to the capacitance, peak to peak, V
	Resistive  units.Quantity // ripple allowed to the ESR, peak to peak, V
}

// InputCapacitorResult is what InputCapacitor finds.
type InputCapacitorResult struct {
	RMS         units.Quantity // current of the capacitor, A
	Charge      units.Quantity // that the capacitor takes and gives in each period, C
	Capacitance units.Quantity // at least, F
	ESR         units.Quantity // at most, Ω
}

// InputCapacitor finds the least capacitance and the largest equivalent
// series resistance that keep the input's ripple within what is allowed to
// each.
//
//	Capacitance = Charge/capacitive
//	ESR         = resistive/Ripple
//
// with Charge as InputRipple finds it, Ripple as Currents does.
//
// Arguments: Stage, of which Load, A, is above zero here; Capacitive and
// Resistive, V, above zero. It is an error outside of that.
//
//	c, err := stepup.InputCapacitor(stepup.InputCapacitorInputs{Stage: stage, Capacitive: 20mV, Resistive: 10mV})
//
// Where it holds, source and cautions: as InputRipple.
func InputCapacitor(in InputCapacitorInputs) (InputCapacitorResult, error) {
	const function = "stepup.InputCapacitor"
	_, c, err := in.Stage.cycle(function)
	if err != nil {
		return InputCapacitorResult{}, err
	}
	if err := argument.First(function,
		argument.Current.Positive("Load", in.Stage.Load),
		argument.Voltage.Positive("Capacitive", in.Capacitive),
		argument.Voltage.Positive("Resistive", in.Resistive),
	); err != nil {
		return InputCapacitorResult{}, err
	}
	capacitance := c.Charge.Div(in.Capacitive)
	esr := in.Resistive.Div(c.Ripple)
	return InputCapacitorResult{RMS: c.AlternatingRMS, Charge: c.Charge, Capacitance: capacitance, ESR: esr}, nil
}
