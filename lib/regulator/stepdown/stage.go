package stepdown

import (
	"errors"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// Stage is what a step-down regulator switches, and between which voltages.
type Stage struct {
	Input      units.Quantity // V
	Output     units.Quantity // V
	Load       units.Quantity // current that the output gives, A
	Frequency  units.Quantity // of switching, Hz
	Inductance units.Quantity // H
	HighSwitch units.Quantity // on-resistance, hot, Ω; left out: none
	LowSwitch  units.Quantity // on-resistance of a synchronous rectifier, hot, Ω; left out: none
	Diode      units.Quantity // forward voltage in place of a low switch, V; left out: none
	Winding    units.Quantity // resistance of the inductor, hot, Ω; left out: none
	Forced     bool           // the low switch lets the current reverse
}

// check refuses what cannot be a stage; the inductance is the business of
// those who need it.
func (s Stage) check() error {
	for _, err := range []error{
		argument.Voltage.Positive("Input", s.Input),
		argument.Voltage.Positive("Output", s.Output),
		argument.Current.NotNegative("Load", s.Load),
		argument.Frequency.Positive("Frequency", s.Frequency),
		argument.Resistance.NotNegative("HighSwitch", argument.Resistance.OrZero(s.HighSwitch)),
		argument.Resistance.NotNegative("LowSwitch", argument.Resistance.OrZero(s.LowSwitch)),
		argument.Voltage.NotNegative("Diode", argument.Voltage.OrZero(s.Diode)),
		argument.Resistance.NotNegative("Winding", argument.Resistance.OrZero(s.Winding)),
	} {
		if err != nil {
			return err
		}
	}
	if argument.Given(s.Diode) && argument.Given(s.LowSwitch) {
		return errors.New("both Diode and LowSwitch are given; the current falls through one of them: leave out Diode for a synchronous rectifier, and give its body diode to Losses")
	}
	if argument.Given(s.Diode) && s.Forced {
		return errors.New("a stage with a Diode is Forced; a diode lets no current reverse: leave out Forced, or Diode")
	}
	highSwitch, winding := argument.Resistance.OrZero(s.HighSwitch), argument.Resistance.OrZero(s.Winding)
	drops := s.Load.Mul(highSwitch.Add(winding))
	return argument.Above("Input", s.Input, "the output and the drops in switch and winding", s.Output.Add(drops),
		"a step-down regulator cannot reach the output; raise the input or lower output, load or resistances")
}

// withInductor refuses a stage without an inductance too.
func (s Stage) withInductor() error {
	if err := s.check(); err != nil {
		return err
	}
	return argument.Inductance.Positive("Inductance", s.Inductance)
}

// DutyResult is what Duty finds.
type DutyResult struct {
	HighDrop    units.Quantity // across the high switch, V
	LowDrop     units.Quantity // across diode or low switch, V
	WindingDrop units.Quantity // across the winding's resistance, V
	OnVoltage   units.Quantity // across the inductance while its current rises, V
	OffVoltage  units.Quantity // across it while the current falls, V
	Ideal       units.Quantity // duty without any drop, no unit
	Duty        units.Quantity // share of a period with the high switch on, no unit
}

// Duty computes the duty cycle of continuous conduction, with the drops of
// switches and winding.
//
//	HighDrop    = load · high switch
//	LowDrop     = diode + load · low switch
//	WindingDrop = load · winding
//	OnVoltage   = input − output − HighDrop − WindingDrop
//	OffVoltage  = output + LowDrop + WindingDrop
//	Ideal       = output/input
//	Duty        = OffVoltage/(OnVoltage + OffVoltage)
//
// Arguments: a Stage, of which Inductance is not needed: Input, Output, V,
// and Frequency, Hz, above zero; Load, A, HighSwitch, LowSwitch and Winding,
// Ω, and Diode, V, not below zero. It is an error outside of that, and where
// the input is not above the output and the drops, which no duty makes.
//
//	d, err := stepdown.Duty(stepdown.Stage{Input: 12V, Output: 5V, Load: 3A, Frequency: 500kHz, Diode: 0.5V})
//	// d.Duty: 44 %
//
// Holds in continuous conduction; Currents gives the share below it. Give
// Input as a range: the duty is longest at its low end.
//
// Source: the mean voltage of an inductor is zero in the settled state
// (volt-second balance; Erickson and Maksimović, Fundamentals of Power
// Electronics, chapters 2 and 3, from memory).
//
// Caution: on-resistances are those at the junction's temperature, often half
// as much again as at 25 °C; hold the longest duty against the regulator's
// limit with Timing.
func Duty(stage Stage) (DutyResult, error) {
	if err := argument.First("stepdown.Duty", stage.check()); err != nil {
		return DutyResult{}, err
	}
	return stage.duty(), nil
}

func (s Stage) duty() DutyResult {
	input, output, load := s.Input, s.Output, s.Load
	highSwitch, lowSwitch := argument.Resistance.OrZero(s.HighSwitch), argument.Resistance.OrZero(s.LowSwitch)
	diode, winding := argument.Voltage.OrZero(s.Diode), argument.Resistance.OrZero(s.Winding)
	highDrop := load.Mul(highSwitch)
	lowDrop := diode.Add(load.Mul(lowSwitch))
	windingDrop := load.Mul(winding)
	onVoltage := input.Sub(output).Sub(highDrop).Sub(windingDrop)
	offVoltage := output.Add(lowDrop).Add(windingDrop)
	ideal := output.Div(input)
	duty := offVoltage.Div(onVoltage.Add(offVoltage))
	return DutyResult{
		HighDrop:    highDrop,
		LowDrop:     lowDrop,
		WindingDrop: windingDrop,
		OnVoltage:   onVoltage,
		OffVoltage:  offVoltage,
		Ideal:       ideal,
		Duty:        duty,
	}
}
