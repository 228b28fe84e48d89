package inverting

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
	Average    units.Quantity // input current without what the losses add, A
	RMS        units.Quantity // current of the capacitor, A
	Charge     units.Quantity // that the capacitor takes and gives in each period, C
	Capacitive units.Quantity // ripple that the charge makes, peak to peak, V
	Resistive  units.Quantity // ripple across the ESR, peak to peak, V
	Total      units.Quantity // sum of the two, V
	Heat       units.Quantity // lost in the ESR, W
}

// InputRipple computes current and ripple of the input capacitor. In an
// inverting stage it gives the pulses of the switch while the supply gives
// their average; in a SEPIC the first inductor stands between, and the
// capacitor takes only the ripple.
//
//	Average    = SwitchAverage
//	RMS        = InputCapacitorRMS
//	Charge     = Average · (1 − OnShare)/frequency + early²/(2 · OnSlope)
//	early      = Average − Valley, not below zero
//	Resistive  = (Peak − Valley below zero) · ESR
//	Capacitive = Charge/capacitance
//	Total      = Capacitive + Resistive
//	Heat       = RMS² · ESR
//
// with the currents as Currents finds them; in a SEPIC
//
//	Charge     = (Peak − Average)²/2 · (1/OnSlope + 1/OffSlope)
//	Resistive  = Ripple · ESR
//
// with Peak, Ripple and slopes of the first inductor, as Inductors finds them.
//
// Arguments: Stage; Capacitance, F, above zero; ESR, Ω, not below zero. It is
// an error outside of that.
//
//	r, err := inverting.InputRipple(inverting.InputRippleInputs{Stage: stage, Capacitance: 10µF, ESR: 3mΩ})
//
// Give Input as a range: an inverting stage's is largest at its low end.
//
// Holds where the supply's own inductance keeps its current steady; with a
// supply that takes part, the capacitor has less to do.
//
// Source: RMS value and charge of a trapezoid (any textbook).
//
// Caution: of a step-down regulator used inverted two capacitors count: from
// input to ground, which this is, and from its input to its ground pin, the
// output. The latter takes a part of the same pulses, but couples each step of
// the input to the output (Lift). Ceramic capacitors lose most of their
// capacitance at the rated voltage.
func InputRipple(in InputRippleInputs) (InputRippleResult, error) {
	const function = "inverting.InputRipple"
	esr := argument.Resistance.OrZero(in.ESR)
	if err := argument.First(function,
		in.Stage.withInductor(),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.NotNegative("ESR", esr),
	); err != nil {
		return InputRippleResult{}, err
	}
	f, err := in.Stage.feed()
	if err != nil {
		return InputRippleResult{}, argument.Within(function, err)
	}
	capacitive := f.charge.Div(in.Capacitance)
	resistive := f.swing.Mul(esr)
	return InputRippleResult{
		Average:    f.average,
		RMS:        f.rms,
		Charge:     f.charge,
		Capacitive: capacitive,
		Resistive:  resistive,
		Total:      capacitive.Add(resistive),
		Heat:       f.rms.Mul(f.rms).Mul(esr),
	}, nil
}

// feed is what the input gives: its average current, and RMS value, charge and
// swing of what a capacitor takes of the rest.
type feed struct{ average, rms, charge, swing units.Quantity }

func (s Stage) feed() (feed, error) {
	c, err := s.cycle()
	if err != nil || !s.SEPIC {
		return feed{c.OnAverage, c.OnPulseRMS, c.OnCharge, c.Swing}, err
	}
	one, first := units.Number(1), s.inductors(c)
	over := first.Peak.Sub(first.Mean)
	slopes := one.Div(c.OnSlope).Add(one.Div(c.OffSlope)).Div(first.Share)
	charge := over.Mul(over).Mul(slopes).Mul(units.Number(0.5))
	return feed{first.Mean, first.AlternatingRMS, charge, first.Ripple}, nil
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
//	ESR         = resistive/swing
//
// with Charge as InputRipple finds it, and swing what its Resistive multiplies
// the ESR by.
//
// Arguments: Stage, of which Load, A, is above zero here; Capacitive and
// Resistive, V, above zero. It is an error outside of that. Where both
// matter, share the allowed ripple between them.
//
//	c, err := inverting.InputCapacitor(inverting.InputCapacitorInputs{Stage: stage, Capacitive: 150mV, Resistive: 150mV})
//
// Where it holds, source and cautions: as InputRipple.
func InputCapacitor(in InputCapacitorInputs) (InputCapacitorResult, error) {
	const function = "inverting.InputCapacitor"
	if err := argument.First(function,
		in.Stage.loaded(),
		argument.Voltage.Positive("Capacitive", in.Capacitive),
		argument.Voltage.Positive("Resistive", in.Resistive),
	); err != nil {
		return InputCapacitorResult{}, err
	}
	f, err := in.Stage.feed()
	if err != nil {
		return InputCapacitorResult{}, argument.Within(function, err)
	}
	return InputCapacitorResult{
		RMS:         f.rms,
		Charge:      f.charge,
		Capacitance: f.charge.Div(in.Capacitive),
		ESR:         in.Resistive.Div(f.swing),
	}, nil
}
