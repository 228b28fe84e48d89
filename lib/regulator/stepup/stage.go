package stepup

import (
	"errors"

	"ohmwright/lib/argument"
	"ohmwright/lib/regulator/switching"
	"ohmwright/units"
)

// Stage is what a step-up regulator switches, and between which voltages.
type Stage struct {
	Input      units.Quantity // V
	Output     units.Quantity // V
	Load       units.Quantity // current that the output gives, A
	Frequency  units.Quantity // of switching, Hz
	Inductance units.Quantity // H
	Switch     units.Quantity // on-resistance, hot, Ω; left out: none
	Sense      units.Quantity // resistor between switch and ground, Ω; left out: none
	Diode      units.Quantity // forward voltage of the rectifier, V; left out: none
	Rectifier  units.Quantity // on-resistance of a synchronous rectifier in place of a diode, hot, Ω; left out: none
	Winding    units.Quantity // resistance of the inductor, hot, Ω; left out: none
	Efficiency units.Quantity // assumed, in place of all resistances and the diode, no unit; left out: from these
	Forced     bool           // the rectifier lets the current reverse
}

// parts are the resistances and the forward voltage of a stage, none where
// they are left out.
type parts struct{ low, rectifier, winding, diode units.Quantity }

func (s Stage) parts() parts {
	low := argument.Resistance.OrZero(s.Switch).Add(argument.Resistance.OrZero(s.Sense))
	diode := argument.Voltage.OrZero(s.Diode)
	if argument.Given(s.Efficiency) {
		// What is lost is as if the rectifier dropped it.
		diode = s.Output.Div(s.Efficiency).Sub(s.Output)
	}
	return parts{low: low, rectifier: argument.Resistance.OrZero(s.Rectifier), winding: argument.Resistance.OrZero(s.Winding), diode: diode}
}

// check refuses what cannot be a stage; the inductance is the business of
// those who need it.
func (s Stage) check() error {
	for _, err := range []error{
		argument.Voltage.Positive("Input", s.Input),
		argument.Voltage.Positive("Output", s.Output),
		argument.Current.NotNegative("Load", s.Load),
		argument.Frequency.Positive("Frequency", s.Frequency),
		argument.Resistance.NotNegative("Switch", argument.Resistance.OrZero(s.Switch)),
		argument.Resistance.NotNegative("Sense", argument.Resistance.OrZero(s.Sense)),
		argument.Voltage.NotNegative("Diode", argument.Voltage.OrZero(s.Diode)),
		argument.Resistance.NotNegative("Rectifier", argument.Resistance.OrZero(s.Rectifier)),
		argument.Resistance.NotNegative("Winding", argument.Resistance.OrZero(s.Winding)),
		argument.Share.Optional("Efficiency", s.Efficiency),
		s.exclusive(),
	} {
		if err != nil {
			return err
		}
	}
	if argument.Given(s.Efficiency) {
		if err := argument.AtMost("Efficiency", s.Efficiency, "that of a stage without loss", units.Number(1), "write a share of the input power, such as 85 %"); err != nil {
			return err
		}
	}
	if err := argument.Under("Input", s.Input, "the output", s.Output,
		"a step-up regulator passes a higher input through its inductor and rectifier to the output, which then follows it; lower the input, raise the output, or take a regulator that also steps down"); err != nil {
		return err
	}
	p := s.parts()
	drops := s.Load.Mul(p.low.Add(p.rectifier).Add(p.winding))
	if err := argument.Above("Input", s.Input, "what the load alone drops in switch, rectifier and winding", drops, "raise the input, or lower load or resistances"); err != nil {
		return err
	}
	return argument.AtMost("Output", s.Output, "the highest that this input reaches with this load", s.highest(),
		"more duty only heats the resistances; raise the input, or lower output, load or resistances")
}

// exclusive refuses a stage that says one thing twice.
func (s Stage) exclusive() error {
	if argument.Given(s.Diode) && argument.Given(s.Rectifier) {
		return errors.New("both Diode and Rectifier are given; the current flows through one of them: leave out Diode for a synchronous rectifier, and give its body diode to Losses")
	}
	if argument.Given(s.Diode) && s.Forced {
		return errors.New("a stage with a Diode is Forced; a diode lets no current reverse: leave out Forced, or Diode")
	}
	if argument.Given(s.Efficiency) && (argument.Given(s.Switch) || argument.Given(s.Sense) || argument.Given(s.Diode) || argument.Given(s.Rectifier) || argument.Given(s.Winding)) {
		return errors.New("Efficiency is given beside a resistance or the diode; it stands in place of them all: leave out Efficiency, or the others")
	}
	return nil
}

// withInductor refuses a stage without an inductance too.
func (s Stage) withInductor() error {
	if err := s.check(); err != nil {
		return err
	}
	return argument.Inductance.Positive("Inductance", s.Inductance)
}

// highest is the highest output that the stage reaches, a thousand times the
// input at most.
func (s Stage) highest() units.Quantity {
	p := s.parts()
	seen, lost := s.quadratic()
	most := seen.Mul(units.Number(1e-3))
	return seen.Mul(seen).Div(units.Max(units.Number(4).Mul(lost), most)).Sub(p.diode)
}

// quadratic gives what function Duty calls Seen and Lost.
func (s Stage) quadratic() (seen, lost units.Quantity) {
	p := s.parts()
	seen = s.Input.Add(s.Load.Mul(p.low.Sub(p.rectifier)))
	lost = s.Load.Mul(p.low.Add(p.winding))
	return seen, lost
}

// DutyResult is what Duty finds.
type DutyResult struct {
	PassThrough   units.Quantity // output while the regulator does not switch, at this load, V
	Mean          units.Quantity // of the inductor's current, which is the input's, A
	SwitchDrop    units.Quantity // across switch and sense resistor, V
	RectifierDrop units.Quantity // across diode or synchronous rectifier, V
	WindingDrop   units.Quantity // across the winding's resistance, V
	OnVoltage     units.Quantity // across the inductance while its current rises, V
	OffVoltage    units.Quantity // across it while the current falls, V
	Ideal         units.Quantity // duty without any drop, no unit
	Duty          units.Quantity // share of a period with the switch on, no unit
}

// Duty computes the duty cycle of continuous conduction and the mean current
// of the inductor, with the drops of switch, rectifier and winding.
//
//	Wanted        = output + diode
//	Seen          = input + load · (switch + sense − rectifier)
//	Lost          = load · (switch + sense + winding)
//	OffShare      = (Seen + √(Seen² − 4 · Wanted · Lost))/(2 · Wanted)
//	Mean          = load/OffShare
//	SwitchDrop    = Mean · (switch + sense)
//	RectifierDrop = diode + Mean · rectifier
//	WindingDrop   = Mean · winding
//	OnVoltage     = input − SwitchDrop − WindingDrop
//	OffVoltage    = output + RectifierDrop + WindingDrop − input
//	Ideal         = 1 − input/output
//	Duty          = OffVoltage/(OnVoltage + OffVoltage)
//	PassThrough   = input − diode − load · (winding + rectifier)
//
// Without resistances OffShare is input/Wanted. With them no duty makes more
// than Seen²/(4 · Lost): beyond, the current that a longer duty draws costs
// more than it brings. An Efficiency makes Wanted output/efficiency.
//
// Arguments: a Stage, of which Inductance is not needed: Input, Output, V,
// and Frequency, Hz, above zero; Load, A, Switch, Sense, Rectifier and
// Winding, Ω, and Diode, V, not below zero; Efficiency at most 100 %. It is an
// error outside of that; where the input is not below the output, which then
// follows the input through inductor and rectifier; and where the output lies
// above what the resistances let the stage reach.
//
//	d, err := stepup.Duty(stepup.Stage{Input: 3.3V, Output: 10V, Load: 300mA, Frequency: 1.6MHz, Diode: 0.8V})
//	// d.Duty: 69.4 %, d.Mean: 982 mA
//
// Holds in continuous conduction; Currents gives the share below it. Give
// Input as a range: duty and current are largest at its low end.
//
// Source: the mean voltage of an inductor is zero in the settled state
// (volt-second balance; Erickson and Maksimović, Fundamentals of Power
// Electronics, chapters 2 and 3, from memory), solved for the duty.
//
// Caution: on-resistances are those at the junction's temperature. Nothing in
// a step-up regulator stands between input and output but inductor and
// rectifier: PassThrough is there before it starts and after it stops, and a
// short circuit of the output is one of the input.
func Duty(stage Stage) (DutyResult, error) {
	if err := argument.First("stepup.Duty", stage.check()); err != nil {
		return DutyResult{}, err
	}
	return stage.duty(), nil
}

func (s Stage) duty() DutyResult {
	input, output, load := s.Input, s.Output, s.Load
	p := s.parts()
	wanted := output.Add(p.diode)
	seen, lost := s.quadratic()
	square := seen.Mul(seen).Sub(units.Number(4).Mul(wanted).Mul(lost))
	zero := square.Sub(square)
	offShare := seen.Add(units.Sqrt(units.Max(square, zero))).Div(wanted.Add(wanted))
	mean := load.Div(offShare)
	switchDrop := mean.Mul(p.low)
	rectifierDrop := p.diode.Add(mean.Mul(p.rectifier))
	windingDrop := mean.Mul(p.winding)
	onVoltage := input.Sub(switchDrop).Sub(windingDrop)
	offVoltage := output.Sub(input).Add(rectifierDrop).Add(windingDrop)
	ideal := output.Sub(input).Div(output)
	duty := offVoltage.Div(onVoltage.Add(offVoltage))
	passThrough := input.Sub(p.diode).Sub(load.Mul(p.winding.Add(p.rectifier)))
	return DutyResult{
		PassThrough:   passThrough,
		Mean:          mean,
		SwitchDrop:    switchDrop,
		RectifierDrop: rectifierDrop,
		WindingDrop:   windingDrop,
		OnVoltage:     onVoltage,
		OffVoltage:    offVoltage,
		Ideal:         ideal,
		Duty:          duty,
	}
}

// cycle is the inductor's current over a period, of a stage that function
// needs.
func (s Stage) cycle(function string) (DutyResult, switching.CycleResult, error) {
	if err := argument.First(function, s.withInductor()); err != nil {
		return DutyResult{}, switching.CycleResult{}, err
	}
	c, err := switching.Cycle(s.cycleInputs())
	return s.duty(), c, argument.Within(function, err)
}

func (s Stage) cycleInputs() switching.CycleInputs {
	d := s.duty()
	return switching.CycleInputs{OnVoltage: d.OnVoltage, OffVoltage: d.OffVoltage, Inductance: s.Inductance, Frequency: s.Frequency, Mean: d.Mean, Forced: s.Forced}
}
