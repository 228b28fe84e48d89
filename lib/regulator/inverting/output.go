package inverting

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// OutputRippleInputs are the arguments of OutputRipple.
type OutputRippleInputs struct {
	Stage       Stage
	Capacitance units.Quantity // at the output, with its bias, hot and aged, F
	ESR         units.Quantity // its equivalent series resistance, Ω; left out: none
}

// OutputRippleResult is what OutputRipple finds.
type OutputRippleResult struct {
	RMS         units.Quantity // current of the capacitor, A
	Swing       units.Quantity // of the rectifier's current, from nothing or below zero to the peak, A
	Charge      units.Quantity // that the capacitor takes and gives in each period, C
	UsualCharge units.Quantity // by the usual form without ripple, C
	Capacitive  units.Quantity // ripple that the charge makes, peak to peak, V
	Resistive   units.Quantity // step across the ESR, V
	Total       units.Quantity // sum of the two, V
	Heat        units.Quantity // lost in the ESR, W
}

// OutputRipple computes the ripple of the output voltage. The rectifier's
// current comes in pulses, and the capacitor alone carries the load between
// them.
//
//	Charge      = load · (1 − OffShare)/frequency + lack²/(2 · OffSlope)
//	lack        = load − Valley, not below zero
//	UsualCharge = load · Duty/frequency
//	Capacitive  = Charge/capacitance
//	Swing       = Peak − Valley below zero
//	Resistive   = Swing · ESR
//	Total       = Capacitive + Resistive
//	RMS         = OutputCapacitorRMS
//	Heat        = RMS² · ESR
//
// with OffShare, OffSlope, Peak, Valley, Duty and OutputCapacitorRMS as
// Currents finds them; lack is how far the pulse falls below the load, while
// the capacitor already gives.
//
// Arguments: Stage; Capacitance, F, above zero; ESR, Ω, not below zero. It is
// an error outside of that.
//
//	r, err := inverting.OutputRipple(inverting.OutputRippleInputs{Stage: stage, Capacitance: 44µF, ESR: 2mΩ})
//
// Total is an upper bound: the two parts do not peak at one instant. Charge is
// UsualCharge where the current never falls below the load.
//
// Source: charge and RMS value of a trapezoid (any textbook); UsualCharge is
// in data sheets (TPS55340 SLVSBD4E, section on the SEPIC).
//
// Caution: the step of the pulse's edge across ESR and the capacitor's
// inductance is what a probe sees first; ceramic capacitors and a small second
// filter keep it from an amplifier's supply. The printed capacitance of a
// ceramic capacitor of class 2 is without bias.
func OutputRipple(in OutputRippleInputs) (OutputRippleResult, error) {
	const function = "inverting.OutputRipple"
	esr := argument.Resistance.OrZero(in.ESR)
	if err := argument.First(function,
		in.Stage.withInductor(),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.NotNegative("ESR", esr),
	); err != nil {
		return OutputRippleResult{}, err
	}
	c, err := in.Stage.cycle()
	if err != nil {
		return OutputRippleResult{}, argument.Within(function, err)
	}
	rms, swing := c.OffPulseRMS, c.Swing
	usual := in.Stage.Load.Mul(c.Duty).Div(in.Stage.Frequency)
	capacitive := c.OffCharge.Div(in.Capacitance)
	resistive := swing.Mul(esr)
	return OutputRippleResult{
		RMS:         rms,
		Swing:       swing,
		Charge:      c.OffCharge,
		UsualCharge: usual,
		Capacitive:  capacitive,
		Resistive:   resistive,
		Total:       capacitive.Add(resistive),
		Heat:        rms.Mul(rms).Mul(esr),
	}, nil
}

// OutputCapacitorInputs are the arguments of OutputCapacitor.
type OutputCapacitorInputs struct {
	Stage      Stage          // Load above zero
	Capacitive units.Quantity // ripple allowed to the capacitance, peak to peak, V
	Resistive  units.Quantity // step allowed to the ESR, V
}

// OutputCapacitorResult is what OutputCapacitor finds.
type OutputCapacitorResult struct {
	RMS         units.Quantity // current of the capacitor, A
	Charge      units.Quantity // that the capacitor takes and gives in each period, C
	Capacitance units.Quantity // at least, F
	ESR         units.Quantity // at most, Ω
}

// OutputCapacitor finds the least capacitance and the largest equivalent
// series resistance that keep the output's ripple within what is allowed to
// each.
//
//	Capacitance = Charge/capacitive
//	ESR         = resistive/Swing
//
// with Charge and Swing as OutputRipple finds them.
//
// Arguments: Stage, of which Load, A, is above zero here; Capacitive and
// Resistive, V, above zero. It is an error outside of that. Where both
// matter, share the allowed ripple between them.
//
//	c, err := inverting.OutputCapacitor(inverting.OutputCapacitorInputs{Stage: stage, Capacitive: 20mV, Resistive: 20mV})
//
// Where it holds, source and cautions: as OutputRipple. A load step often
// needs more: StepCapacitor.
func OutputCapacitor(in OutputCapacitorInputs) (OutputCapacitorResult, error) {
	const function = "inverting.OutputCapacitor"
	if err := argument.First(function,
		in.Stage.loaded(),
		argument.Voltage.Positive("Capacitive", in.Capacitive),
		argument.Voltage.Positive("Resistive", in.Resistive),
	); err != nil {
		return OutputCapacitorResult{}, err
	}
	c, err := in.Stage.cycle()
	if err != nil {
		return OutputCapacitorResult{}, argument.Within(function, err)
	}
	return OutputCapacitorResult{
		RMS:         c.OffPulseRMS,
		Charge:      c.OffCharge,
		Capacitance: c.OffCharge.Div(in.Capacitive),
		ESR:         in.Resistive.Div(c.Swing),
	}, nil
}
