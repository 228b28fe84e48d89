package stepdown

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
	RMS        units.Quantity // current of the capacitor, A
	UsualRMS   units.Quantity // by the usual form without ripple, A
	Charge     units.Quantity // that the capacitor takes and gives in each period, C
	Capacitive units.Quantity // ripple that the charge makes, peak to peak, V
	Resistive  units.Quantity // ripple across the ESR, peak to peak, V
	Total      units.Quantity // sum of the two, V
	Heat       units.Quantity // lost in the ESR, W
}

// InputRipple computes current and ripple of the input capacitor, which
// gives the pulses of the high switch while the supply gives their average.
//
//	Average    = OnShare · Mean
//	RMS        = √(OnShare · (Mean² · (1 − OnShare) + Ripple²/12))
//	UsualRMS   = load · √(Duty · (1 − Duty))
//	Charge     = Average · (1 − OnShare)/frequency + early²/(2 · OnSlope)
//	early      = Average − Valley, not below zero
//	Capacitive = Charge/capacitance
//	Resistive  = (Peak − Valley below zero) · ESR
//	Total      = Capacitive + Resistive
//	Heat       = RMS² · ESR
//
// with the currents as Currents finds them; early is how far the pulse begins
// below the average, while the capacitor still charges.
//
// Arguments: Stage; Capacitance, F, above zero; ESR, Ω, not below zero. It is
// an error outside of that.
//
//	r, err := stepdown.InputRipple(stepdown.InputRippleInputs{Stage: stage, Capacitance: 10µF, ESR: 3mΩ})
//
// Give Input as a range: the current is largest where the duty comes nearest
// to a half, and there about half the load. RMS is exact for straight ramps;
// UsualRMS is what data sheets print, and too low where the ripple is large.
//
// Holds where the supply's own inductance keeps its current steady; with a
// supply that takes part, the capacitor has less to do.
//
// Source: RMS value and charge of a trapezoid (any textbook); UsualRMS is in
// every regulator's data sheet.
//
// Caution: ceramic capacitors lose most of their capacitance at the rated
// voltage; and plugging a live supply to them rings up to twice its voltage
// on the lead's inductance, so give them a damping electrolytic beside.
func InputRipple(in InputRippleInputs) (InputRippleResult, error) {
	esr := argument.Resistance.OrZero(in.ESR)
	if err := argument.First("stepdown.InputRipple",
		in.Stage.withInductor(),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.NotNegative("ESR", esr),
	); err != nil {
		return InputRippleResult{}, err
	}
	i := in.Stage.currents()
	rms := i.InputCapacitorRMS
	usualRMS := in.Stage.Load.Mul(units.Sqrt(i.Duty.Mul(units.Number(1).Sub(i.Duty))))
	charge := i.inputCharge(in.Stage.Frequency)
	capacitive := charge.Div(in.Capacitance)
	resistive := i.inputSwing().Mul(esr)
	total := capacitive.Add(resistive)
	heat := rms.Mul(rms).Mul(esr)
	return InputRippleResult{
		Average:    i.HighAverage,
		RMS:        rms,
		UsualRMS:   usualRMS,
		Charge:     charge,
		Capacitive: capacitive,
		Resistive:  resistive,
		Total:      total,
		Heat:       heat,
	}, nil
}

func (i CurrentsResult) inputCharge(frequency units.Quantity) units.Quantity {
	zero := i.Ripple.Sub(i.Ripple)
	resting := units.Number(1).Sub(i.OnShare).Div(frequency)
	early := units.Max(i.HighAverage.Sub(i.Valley), zero)
	earlyCharge := early.Mul(early).Mul(units.Number(0.5)).Div(i.OnSlope)
	return i.HighAverage.Mul(resting).Add(earlyCharge)
}

// inputSwing is between no current and the peak of the high switch, or from
// below zero where the current reverses.
func (i CurrentsResult) inputSwing() units.Quantity {
	zero := i.Ripple.Sub(i.Ripple)
	return i.Peak.Sub(units.Min(i.Valley, zero))
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
//	ESR         = resistive/(Peak − Valley below zero)
//
// with Charge as InputRipple finds it, Peak and Valley as Currents does.
//
// Arguments: Stage, of which Load, A, is above zero here; Capacitive and
// Resistive, V, above zero. It is an error outside of that. Where both
// matter, share the allowed ripple between them.
//
//	c, err := stepdown.InputCapacitor(stepdown.InputCapacitorInputs{Stage: stage, Capacitive: 150mV, Resistive: 150mV})
//
// Where it holds, source and cautions: as InputRipple. Data sheets that take
// load · Duty/(frequency · ripple) leave out the factor 1 − Duty and ask for
// more.
func InputCapacitor(in InputCapacitorInputs) (InputCapacitorResult, error) {
	if err := argument.First("stepdown.InputCapacitor",
		in.Stage.withInductor(),
		argument.Current.Positive("Load", in.Stage.Load),
		argument.Voltage.Positive("Capacitive", in.Capacitive),
		argument.Voltage.Positive("Resistive", in.Resistive),
	); err != nil {
		return InputCapacitorResult{}, err
	}
	i := in.Stage.currents()
	charge := i.inputCharge(in.Stage.Frequency)
	capacitance := charge.Div(in.Capacitive)
	esr := in.Resistive.Div(i.inputSwing())
	return InputCapacitorResult{RMS: i.InputCapacitorRMS, Charge: charge, Capacitance: capacitance, ESR: esr}, nil
}
