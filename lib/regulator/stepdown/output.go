package stepdown

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// OutputRippleInputs are the arguments of OutputRipple.
type OutputRippleInputs struct {
	Stage       Stage
	Capacitance units.Quantity // at the output, with its bias, hot and aged, F
	ESR         units.Quantity // its equivalent series resistance, Ω; left out: none
	ESL         units.Quantity // its equivalent series inductance, H; left out: none
}

// OutputRippleResult is what OutputRipple finds.
type OutputRippleResult struct {
	Ripple     units.Quantity // of the inductor's current, peak to peak, A
	Charge     units.Quantity // that the capacitor takes and gives in each period, C
	Capacitive units.Quantity // ripple that the charge makes, V
	Resistive  units.Quantity // ripple across the ESR, V
	Inductive  units.Quantity // step across the ESL, V
	Total      units.Quantity // sum of the three, peak to peak, V
	RMS        units.Quantity // current of the capacitor, A
	Heat       units.Quantity // lost in the ESR, W
}

// OutputRipple computes the ripple of the output voltage.
//
//	Charge     = (Peak − load)²/2 · (1/OnSlope + 1/OffSlope)
//	Capacitive = Charge/capacitance
//	Resistive  = Ripple · ESR
//	Inductive  = ESL · (OnSlope + OffSlope)
//	Total      = Capacitive + Resistive + Inductive
//	Heat       = RMS² · ESR
//
// with Peak, Ripple, the slopes and RMS as Currents finds them. In continuous
// conduction Charge is Ripple/(8 · frequency), the form of the data sheets.
//
// Arguments: Stage; Capacitance, F, above zero; ESR, Ω, and ESL, H, not below
// zero. It is an error outside of that.
//
//	r, err := stepdown.OutputRipple(stepdown.OutputRippleInputs{
//		Stage: stage, Capacitance: 44µF, ESR: 2mΩ, ESL: 0.5nH,
//	})
//
// Total is an upper bound: the three parts do not peak at one instant.
//
// Source: charge of a triangle of current; the three parts are in every
// regulator's data sheet.
//
// Caution: the printed capacitance of a ceramic capacitor of class 2 is
// without bias; at its rated voltage less than half may be left. Regulators
// that burst at light load make more ripple than this.
func OutputRipple(in OutputRippleInputs) (OutputRippleResult, error) {
	esr, esl := argument.Resistance.OrZero(in.ESR), argument.Inductance.OrZero(in.ESL)
	if err := argument.First("stepdown.OutputRipple",
		in.Stage.withInductor(),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.NotNegative("ESR", esr),
		argument.Inductance.NotNegative("ESL", esl),
	); err != nil {
		return OutputRippleResult{}, err
	}
	i := in.Stage.currents()
	charge := i.outputCharge(in.Stage.Load)
	capacitive := charge.Div(in.Capacitance)
	resistive := i.Ripple.Mul(esr)
	inductive := esl.Mul(i.OnSlope.Add(i.OffSlope))
	total := capacitive.Add(resistive).Add(inductive)
	rms := i.OutputCapacitorRMS
	heat := rms.Mul(rms).Mul(esr)
	return OutputRippleResult{
		Ripple:     i.Ripple,
		Charge:     charge,
		Capacitive: capacitive,
		Resistive:  resistive,
		Inductive:  inductive,
		Total:      total,
		RMS:        rms,
		Heat:       heat,
	}, nil
}

// outputCharge is that of the triangle by which the inductor's current rises
// over the load.
func (i CurrentsResult) outputCharge(load units.Quantity) units.Quantity {
	one := units.Number(1)
	over := i.Peak.Sub(load)
	return over.Mul(over).Mul(units.Number(0.5)).Mul(one.Div(i.OnSlope).Add(one.Div(i.OffSlope)))
}

// OutputCapacitorInputs are the arguments of OutputCapacitor.
type OutputCapacitorInputs struct {
	Stage      Stage          // Load above zero
	Capacitive units.Quantity // ripple allowed to the capacitance, peak to peak, V
	Resistive  units.Quantity // ripple allowed to the ESR, peak to peak, V
}

// OutputCapacitorResult is what OutputCapacitor finds.
type OutputCapacitorResult struct {
	Ripple      units.Quantity // of the inductor's current, peak to peak, A
	Charge      units.Quantity // that the capacitor takes and gives in each period, C
	Capacitance units.Quantity // at least, F
	ESR         units.Quantity // at most, Ω
}

// OutputCapacitor finds the least capacitance and the largest equivalent
// series resistance that keep the output's ripple within what is allowed to
// each.
//
//	Charge      = (Peak − load)²/2 · (1/OnSlope + 1/OffSlope)
//	Capacitance = Charge/capacitive
//	ESR         = resistive/Ripple
//
// with Peak, Ripple and the slopes as Currents finds them.
//
// Arguments: Stage, of which Load, A, is above zero here; Capacitive and
// Resistive, V, above zero. It is an error outside of that. Where both
// matter, share the allowed ripple between them.
//
//	c, err := stepdown.OutputCapacitor(stepdown.OutputCapacitorInputs{Stage: stage, Capacitive: 16mV, Resistive: 16mV})
//
// Where it holds, source and cautions: as OutputRipple. A load step often
// needs more: StepCapacitor.
func OutputCapacitor(in OutputCapacitorInputs) (OutputCapacitorResult, error) {
	if err := argument.First("stepdown.OutputCapacitor",
		in.Stage.withInductor(),
		argument.Current.Positive("Load", in.Stage.Load),
		argument.Voltage.Positive("Capacitive", in.Capacitive),
		argument.Voltage.Positive("Resistive", in.Resistive),
	); err != nil {
		return OutputCapacitorResult{}, err
	}
	i := in.Stage.currents()
	charge := i.outputCharge(in.Stage.Load)
	capacitance := charge.Div(in.Capacitive)
	esr := in.Resistive.Div(i.Ripple)
	return OutputCapacitorResult{Ripple: i.Ripple, Charge: charge, Capacitance: capacitance, ESR: esr}, nil
}
