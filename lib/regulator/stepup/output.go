package stepup

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
	RMS        units.Quantity // current of the capacitor, A
	UsualRMS   units.Quantity // by the usual form without ripple, A
	Charge     units.Quantity // that the capacitor gives and takes in each period, C
	Capacitive units.Quantity // ripple that the charge makes, peak to peak, V
	Resistive  units.Quantity // ripple across the ESR, peak to peak, V
	Total      units.Quantity // sum of the two, V
	Heat       units.Quantity // lost in the ESR, W
}

// OutputRipple computes current and ripple of the output capacitor, which
// alone feeds the load while the switch is on, and takes the pulses of the
// rectifier.
//
//	RMS        = √(OffShare · (Flowing² · (1 − OffShare) + Ripple²/12))
//	UsualRMS   = load · √(Duty/(1 − Duty))
//	Charge     = load · (1 − OffShare)/frequency + late²/(2 · OffSlope)
//	late       = load − Valley, not below zero
//	Capacitive = Charge/capacitance
//	Resistive  = (Peak − Valley below zero) · ESR
//	Total      = Capacitive + Resistive
//	Heat       = RMS² · ESR
//
// with the currents as Currents finds them; late is by how much the pulse ends
// below the load, while the capacitor already helps. In continuous conduction
// with little ripple Charge is load · Duty/frequency, the form of the data
// sheets.
//
// Arguments: Stage; Capacitance, F, above zero; ESR, Ω, not below zero. It is
// an error outside of that.
//
//	r, err := stepup.OutputRipple(stepup.OutputRippleInputs{Stage: stage, Capacitance: 22µF, ESR: 3mΩ})
//
// Give Input as a range: all of it is largest at the low end. Total is an
// upper bound: the two parts do not peak at one instant.
//
// Source: RMS value and charge of a trapezoid (any textbook); UsualRMS and the
// usual Charge are in many data sheets (LM5176 section 8.2.2.5).
//
// Caution: the current jumps by the whole peak in nanoseconds, so that each
// nanohenry of capacitor and layout makes a spike besides. The capacitance of
// a ceramic capacitor of class 2 falls most in just this place, at the highest
// voltage of the board.
func OutputRipple(in OutputRippleInputs) (OutputRippleResult, error) {
	const function = "stepup.OutputRipple"
	esr := argument.Resistance.OrZero(in.ESR)
	d, c, err := in.Stage.cycle(function)
	if err != nil {
		return OutputRippleResult{}, err
	}
	if err := argument.First(function,
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.NotNegative("ESR", esr),
	); err != nil {
		return OutputRippleResult{}, err
	}
	rms := c.OffPulseRMS
	usualRMS := in.Stage.Load.Mul(units.Sqrt(d.OffVoltage.Div(d.OnVoltage)))
	charge := c.OffCharge
	capacitive := charge.Div(in.Capacitance)
	resistive := c.Swing.Mul(esr)
	total := capacitive.Add(resistive)
	heat := rms.Mul(rms).Mul(esr)
	return OutputRippleResult{
		RMS:        rms,
		UsualRMS:   usualRMS,
		Charge:     charge,
		Capacitive: capacitive,
		Resistive:  resistive,
		Total:      total,
		Heat:       heat,
	}, nil
}

// OutputCapacitorInputs are the arguments of OutputCapacitor.
type OutputCapacitorInputs struct {
	Stage      Stage          // Load above zero
	Capacitive units.Quantity // ripple allowed to the capacitance, peak to peak, V
	Resistive  units.Quantity // ripple allowed to the ESR, peak to peak, V
}

// OutputCapacitorResult is what OutputCapacitor finds.
type OutputCapacitorResult struct {
	RMS         units.Quantity // current of the capacitor, A
	Charge      units.Quantity // that the capacitor gives and takes in each period, C
	Capacitance units.Quantity // at least, F
	ESR         units.Quantity // at most, Ω
}

// OutputCapacitor finds the least capacitance and the largest equivalent
// series resistance that keep the output's ripple within what is allowed to
// each.
//
//	Capacitance = Charge/capacitive
//	ESR         = resistive/(Peak − Valley below zero)
//
// with Charge as OutputRipple finds it, Peak and Valley as Currents does.
//
// Arguments: Stage, of which Load, A, is above zero here; Capacitive and
// Resistive, V, above zero. It is an error outside of that. Where both
// matter, share the allowed ripple between them.
//
//	c, err := stepup.OutputCapacitor(stepup.OutputCapacitorInputs{Stage: stage, Capacitive: 50mV, Resistive: 20mV})
//
// Where it holds, source and cautions: as OutputRipple. A load step usually
// needs more: StepCapacitor.
func OutputCapacitor(in OutputCapacitorInputs) (OutputCapacitorResult, error) {
	const function = "stepup.OutputCapacitor"
	_, c, err := in.Stage.cycle(function)
	if err != nil {
		return OutputCapacitorResult{}, err
	}
	if err := argument.First(function,
		argument.Current.Positive("Load", in.Stage.Load),
		argument.Voltage.Positive("Capacitive", in.Capacitive),
		argument.Voltage.Positive("Resistive", in.Resistive),
	); err != nil {
		return OutputCapacitorResult{}, err
	}
	capacitance := c.OffCharge.Div(in.Capacitive)
	esr := in.Resistive.Div(c.Swing)
	return OutputCapacitorResult{RMS: c.OffPulseRMS, Charge: c.OffCharge, Capacitance: capacitance, ESR: esr}, nil
}
