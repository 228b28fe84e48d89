package loop

import (
	"errors"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// Amplifier is the error amplifier with the parts around it: the feedback
// divider at its input, which a resistor and a capacitor in series may bridge
// (type III), and a resistor and a capacitor in series with a capacitor across
// both (type II), or the capacitor alone (type I). This network lies between
// the output of a transconductance amplifier and ground, or between output and
// inverting input of an operational amplifier.
//
//	input(s)   = Upper ∥ (LeadResistor + 1/(s · LeadCapacitor))
//	network(s) = (Resistor + 1/(s · Capacitor)) ∥ 1/(s · HighCapacitor)
//
//	with a transconductance:
//	amplifier(s) = Lower/(Lower + input(s)) · Transconductance · (network(s) ∥ OutputResistance)
//	with an operational amplifier:
//	amplifier(s) = network(s)/input(s)/(1 + (1 + network(s)/input(s) + network(s)/Lower)/open(s))
//	open(s)      = 2π · GainBandwidth/s
//
// The sign of both is that of a loop that is closed: the amplifier inverts,
// and its phase is counted from there.
type Amplifier struct {
	Transconductance units.Quantity // A/V; left out: an operational amplifier
	OutputResistance units.Quantity // of a transconductance amplifier, Ω; left out: without limit
	GainBandwidth    units.Quantity // of an operational amplifier, Hz; left out: without limit
	Upper            units.Quantity // of the feedback divider, from the output, Ω
	Lower            units.Quantity // of it, to ground, Ω; an operational amplifier without GainBandwidth does not need it
	LeadResistor     units.Quantity // in series with LeadCapacitor, Ω; left out: none
	LeadCapacitor    units.Quantity // across Upper, F; left out: none
	Resistor         units.Quantity // in series with Capacitor, Ω; left out: none
	Capacitor        units.Quantity // F
	HighCapacitor    units.Quantity // across both, F; left out: none
}

func (a Amplifier) check() error {
	if err := a.checkInput(); err != nil {
		return err
	}
	for _, err := range []error{
		argument.Resistance.NotNegative("LeadResistor", argument.Resistance.OrZero(a.LeadResistor)),
		argument.Capacitance.Optional("LeadCapacitor", a.LeadCapacitor),
		argument.Resistance.NotNegative("Resistor", argument.Resistance.OrZero(a.Resistor)),
		argument.Capacitance.Positive("Capacitor", a.Capacitor),
		argument.Capacitance.NotNegative("HighCapacitor", argument.Capacitance.OrZero(a.HighCapacitor)),
	} {
		if err != nil {
			return err
		}
	}
	if argument.Given(a.LeadResistor) && !argument.Given(a.LeadCapacitor) {
		return errors.New("LeadResistor is given without LeadCapacitor; alone it would change the output voltage: give both, or leave out both")
	}
	return nil
}

// checkInput refuses what cannot be an amplifier with its divider.
func (a Amplifier) checkInput() error {
	for _, err := range []error{
		argument.Transconductance.Optional("Transconductance", a.Transconductance),
		argument.Resistance.Optional("OutputResistance", a.OutputResistance),
		argument.Frequency.Optional("GainBandwidth", a.GainBandwidth),
		argument.Resistance.Positive("Upper", a.Upper),
		argument.Resistance.Optional("Lower", a.Lower),
	} {
		if err != nil {
			return err
		}
	}
	gm := argument.Given(a.Transconductance)
	switch {
	case gm && argument.Given(a.GainBandwidth):
		return errors.New("both Transconductance and GainBandwidth are given; the first makes a transconductance amplifier, the second an operational one: leave out one")
	case !gm && argument.Given(a.OutputResistance):
		return errors.New("OutputResistance is given without Transconductance; it is that of a transconductance amplifier: give both, or leave it out")
	case (gm || argument.Given(a.GainBandwidth)) && !argument.Given(a.Lower):
		return errors.New("Lower is not given; with a Transconductance or a GainBandwidth the lower resistor of the divider counts: write its resistance, such as 10 kΩ")
	}
	return nil
}

// values are the quantities of an amplifier in the order of circuitOf.
func (a Amplifier) values() []units.Quantity {
	resistance, capacitance := argument.Resistance, argument.Capacitance
	return []units.Quantity{
		argument.Transconductance.OrZero(a.Transconductance), resistance.OrZero(a.OutputResistance), argument.Frequency.OrZero(a.GainBandwidth),
		a.Upper, resistance.OrZero(a.Lower), resistance.OrZero(a.LeadResistor), capacitance.OrZero(a.LeadCapacitor),
		resistance.OrZero(a.Resistor), a.Capacitor, capacitance.OrZero(a.HighCapacitor),
	}
}
