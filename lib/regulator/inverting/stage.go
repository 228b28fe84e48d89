package inverting

import (
	"errors"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// Stage is what an inverting regulator or a SEPIC switches, and between which
// voltages.
type Stage struct {
	Input         units.Quantity // V
	Output        units.Quantity // V: below zero; of a SEPIC above zero
	Load          units.Quantity // size of the current at the output, A
	Frequency     units.Quantity // of switching, Hz
	Inductance    units.Quantity // of the inductor, in a SEPIC of the one at the input, H
	Switch        units.Quantity // on-resistance, hot, Ω; left out: none
	Rectifier     units.Quantity // on-resistance of a synchronous rectifier, hot, Ω; left out: none
	Diode         units.Quantity // forward voltage in place of a synchronous rectifier, V; left out: none
	Winding       units.Quantity // resistance of that inductor, hot, Ω; left out: none
	SEPIC         bool           // two inductors and a coupling capacitor make a positive output
	Second        units.Quantity // inductance of a SEPIC's second inductor, H; left out: as Inductance
	SecondWinding units.Quantity // its resistance, hot, Ω; left out: as Winding
	Coupled       bool           // both of a SEPIC's inductors are on one core, one to one
	Efficiency    units.Quantity // assumed, in place of all resistances and the diode, no unit; left out: from these
	Forced        bool           // the synchronous rectifier lets the current reverse
}

// parts are the resistances and the forward voltage of a stage, none where
// they are left out.
type parts struct{ on, rectifier, winding, second, diode units.Quantity }

func (s Stage) parts() parts {
	winding, diode := argument.Resistance.OrZero(s.Winding), argument.Voltage.OrZero(s.Diode)
	second := winding
	if argument.Given(s.SecondWinding) {
		second = s.SecondWinding
	}
	if argument.Given(s.Efficiency) {
		// What is lost is as if the rectifier dropped it.
		diode = s.size().Div(s.Efficiency).Sub(s.size())
	}
	return parts{on: argument.Resistance.OrZero(s.Switch), rectifier: argument.Resistance.OrZero(s.Rectifier), winding: winding, second: second, diode: diode}
}

// check refuses what cannot be a stage; inductances are the business of those
// who need them.
func (s Stage) check() error {
	for _, err := range []error{
		argument.Voltage.Positive("Input", s.Input),
		argument.Voltage.Signed("Output", s.Output),
		argument.Current.NotNegative("Load", s.Load),
		argument.Frequency.Positive("Frequency", s.Frequency),
		argument.Resistance.NotNegative("Switch", argument.Resistance.OrZero(s.Switch)),
		argument.Resistance.NotNegative("Rectifier", argument.Resistance.OrZero(s.Rectifier)),
		argument.Voltage.NotNegative("Diode", argument.Voltage.OrZero(s.Diode)),
		argument.Resistance.NotNegative("Winding", argument.Resistance.OrZero(s.Winding)),
		argument.Resistance.NotNegative("SecondWinding", argument.Resistance.OrZero(s.SecondWinding)),
		argument.Share.Optional("Efficiency", s.Efficiency),
		s.exclusive(),
	} {
		if err != nil {
			return err
		}
	}
	if err := s.form(); err != nil {
		return err
	}
	if argument.Given(s.Efficiency) {
		if err := argument.AtMost("Efficiency", s.Efficiency, "that of a stage without loss", units.Number(1), "write a share of the input power, such as 85 %"); err != nil {
			return err
		}
	}
	if err := argument.Above("Input", s.Input, "a thousandth of the output", s.size().Mul(units.Number(0.001)), "no regulator steps up so far; raise the input or lower the output"); err != nil {
		return err
	}
	return argument.Above("Input", s.Input, "the least at which any duty reaches the output", s.leastInput(),
		"below it the drops eat more than a longer duty adds; raise the input or lower output, load or resistances")
}

// exclusive refuses a stage that says one thing twice.
func (s Stage) exclusive() error {
	if argument.Given(s.Diode) && argument.Given(s.Rectifier) {
		return errors.New("both Diode and Rectifier are given; the current goes through one of them: leave out Diode for a synchronous rectifier, and give its body diode to Losses")
	}
	if argument.Given(s.Diode) && s.Forced {
		return errors.New("a stage with a Diode is Forced; a diode lets no current reverse: leave out Forced, or Diode")
	}
	part := argument.Given(s.Switch) || argument.Given(s.Diode) || argument.Given(s.Rectifier) || argument.Given(s.Winding) || argument.Given(s.SecondWinding)
	if argument.Given(s.Efficiency) && part {
		return errors.New("Efficiency is given beside a resistance or the diode; it stands in place of them all: leave out Efficiency, or the others")
	}
	return nil
}

// form refuses an output with the wrong sign, and what only a SEPIC has in an
// inverting stage.
func (s Stage) form() error {
	zero := s.Output.Sub(s.Output)
	if s.SEPIC {
		if s.Coupled && argument.Given(s.Second) {
			return errors.New("Second is given and the inductors are Coupled; on one core both windings have one inductance: leave out Second, or Coupled")
		}
		return argument.Above("Output", s.Output, "ground", zero, "a SEPIC makes a positive output; leave out SEPIC for a negative one")
	}
	if s.Coupled || argument.Given(s.Second) || argument.Given(s.SecondWinding) {
		return errors.New("Second, SecondWinding or Coupled is given, but an inverting stage has one inductor: leave them out, or set SEPIC")
	}
	return argument.Under("Output", s.Output, "ground", zero, "an inverting stage makes a negative output; write its minus sign, or set SEPIC for a positive one")
}

// withInductor refuses a stage without an inductance too.
func (s Stage) withInductor() error {
	if err := s.check(); err != nil {
		return err
	}
	if err := argument.Inductance.Positive("Inductance", s.Inductance); err != nil {
		return err
	}
	return argument.Inductance.Optional("Second", s.Second)
}

// loaded refuses a stage without a load too.
func (s Stage) loaded() error {
	if err := s.withInductor(); err != nil {
		return err
	}
	return argument.Current.Positive("Load", s.Load)
}

// twoInductors refuses a stage that has no coupling capacitor.
func (s Stage) twoInductors() error {
	if err := s.withInductor(); err != nil {
		return err
	}
	if !s.SEPIC {
		return errors.New("an inverting stage has neither a coupling capacitor nor a second inductor: set SEPIC, or use Currents")
	}
	return nil
}

// size is that of the output.
func (s Stage) size() units.Quantity {
	if s.SEPIC {
		return s.Output
	}
	return s.Output.Neg()
}

// second is the inductance of the second inductor.
func (s Stage) second() units.Quantity {
	if argument.Given(s.Second) {
		return s.Second
	}
	return s.Inductance
}

// together is the inductance that the current of switch and rectifier meets.
func (s Stage) together() units.Quantity {
	if s.SEPIC && !s.Coupled {
		first, second := s.Inductance, s.second()
		return first.Mul(second).Div(first.Add(second))
	}
	return s.Inductance
}
