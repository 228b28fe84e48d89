package linear

import (
	"math"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// InputInputs are the arguments of InputDip and InputCapacitor; the first
// leaves out Allowed, the second Capacitance.
type InputInputs struct {
	Step        units.Quantity // of the current that the regulator takes, A
	Inductance  units.Quantity // of the supply and its leads, H
	Capacitance units.Quantity // at the regulator's input, F
	ESR         units.Quantity // of that capacitor, Ω; left out: none
	Allowed     units.Quantity // dip that leaves enough headroom, V
}

// InputResult is what InputDip and InputCapacitor find.
type InputResult struct {
	Impedance   units.Quantity // characteristic, of inductance and capacitor, Ω
	Jump        units.Quantity // at once, over the ESR, V
	Swing       units.Quantity // of the capacitor while the current in the lead builds up, V
	Dip         units.Quantity // both together: never exceeded, V
	Frequency   units.Quantity // at which the input rings, Hz
	Damping     units.Quantity // by the ESR; 1 and above: it does not ring, no unit
	Capacitance units.Quantity // F
}

// InputDip computes how far a load step pulls the regulator's input down,
// while the inductance of the supply's lead holds back the current.
//
//	Impedance = √(inductance/capacitance)
//	Jump      = step · ESR
//	Swing     = step · Impedance
//	Dip       = Jump + Swing
//	Frequency = 1/(2π · √(inductance · capacitance))
//	Damping   = ESR/(2 · Impedance)
//
// Swing is where the energy that the current in the lead needs,
// inductance · step²/2, has come out of the capacitor. Jump and Swing do not
// come together, so the dip stays below Dip; it reaches it without ESR.
//
// Arguments: see InputInputs; Step, Inductance and Capacitance above zero,
// ESR not below; Allowed is left out. It is an error outside of that.
//
//	d, err := linear.InputDip(linear.InputInputs{Step: 280mA, Inductance: 1µH, Capacitance: 10µF, ESR: 10mΩ})
//	// d.Impedance: 316.2 mΩ; d.Dip: 91.34 mV
//
// Holds for a supply whose own regulation is fast or far away; what drops
// over its resistance is part of the input's range and not of this.
//
// Source: energy of inductor and capacitor (any textbook).
//
// Caution: common practice puts 100 nF to 1 µF right at the pins whatever
// comes out here, and takes 1 µH for a metre of lead. Many regulators
// oscillate on an inductive supply without it.
func InputDip(in InputInputs) (InputResult, error) {
	const function = "linear.InputDip"
	esr := argument.Resistance.OrZero(in.ESR)
	if err := argument.First(function,
		argument.Unset("Allowed", in.Allowed, "leave it out, or use InputCapacitor to find the capacitor for it"),
		argument.Current.Positive("Step", in.Step),
		argument.Inductance.Positive("Inductance", in.Inductance),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.NotNegative("ESR", esr),
	); err != nil {
		return InputResult{}, err
	}
	return inputDip(in.Step, in.Inductance, in.Capacitance, esr), nil
}

// InputCapacitor finds the input capacitor with which a load step pulls the
// regulator's input down by no more than is allowed.
//
//	Jump        = step · ESR
//	Swing       = allowed − Jump
//	Capacitance = inductance · (step/Swing)²
//
// Arguments: see InputInputs; Step, Inductance and Allowed above zero, ESR
// not below; Capacitance is left out. It is an error outside of that, and
// where the ESR alone takes all that is allowed.
//
//	d, err := linear.InputCapacitor(linear.InputInputs{Step: 280mA, Inductance: 1µH, ESR: 10mΩ, Allowed: 100mV})
//	// d.Capacitance: 8.3 µF
//
// Where it holds, source and cautions: as InputDip.
func InputCapacitor(in InputInputs) (InputResult, error) {
	const function = "linear.InputCapacitor"
	esr := argument.Resistance.OrZero(in.ESR)
	if err := argument.First(function,
		argument.Unset("Capacitance", in.Capacitance, "leave it out, or use InputDip to see what it does"),
		argument.Current.Positive("Step", in.Step),
		argument.Inductance.Positive("Inductance", in.Inductance),
		argument.Resistance.NotNegative("ESR", esr),
		argument.Voltage.Positive("Allowed", in.Allowed),
	); err != nil {
		return InputResult{}, err
	}
	jump := in.Step.Mul(esr)
	if err := argument.First(function, argument.Above("Allowed", in.Allowed, "what the ESR alone takes", jump, "lower the ESR or the step")); err != nil {
		return InputResult{}, err
	}
	swing := in.Allowed.Sub(jump)
	capacitance := in.Inductance.Mul(units.Pow(in.Step.Div(swing), 2))
	return inputDip(in.Step, in.Inductance, capacitance, esr), nil
}

// inputDip computes every step from the capacitor.
func inputDip(step, inductance, capacitance, esr units.Quantity) InputResult {
	impedance := units.Sqrt(inductance.Div(capacitance))
	jump := step.Mul(esr)
	swing := step.Mul(impedance)
	dip := jump.Add(swing)
	frequency := units.Number(1).Div(units.Number(2 * math.Pi).Mul(units.Sqrt(inductance.Mul(capacitance))))
	damping := esr.Div(units.Number(2).Mul(impedance))
	return InputResult{
		Impedance:   impedance,
		Jump:        jump,
		Swing:       swing,
		Dip:         dip,
		Frequency:   frequency,
		Damping:     damping,
		Capacitance: capacitance,
	}
}

// HotPlugInputs are the arguments of HotPlug.
type HotPlugInputs struct {
	Input       units.Quantity // voltage of the supply that is plugged in, V
	Inductance  units.Quantity // of the lead, H
	Capacitance units.Quantity // at the regulator's input, F
	Resistance  units.Quantity // of lead, contacts and capacitor together, Ω
	Rating      units.Quantity // highest input voltage that the regulator survives, V
}

// HotPlugResult is what HotPlug finds.
type HotPlugResult struct {
	Impedance units.Quantity // characteristic, of lead and capacitor, Ω
	Damping   units.Quantity // 1 and above: nothing overshoots, no unit
	Overshoot units.Quantity // as a share of the input, no unit
	Peak      units.Quantity // of the voltage at the capacitor, V
	Margin    units.Quantity // left to Rating, V; below zero: too high
	Quiet     units.Quantity // resistance with which nothing overshoots, Ω
}

// HotPlug computes how far the input of a regulator shoots over when its
// supply is plugged in while it is live, and the empty input capacitor is
// charged through the inductance of the lead.
//
//	Impedance = √(inductance/capacitance)
//	Damping   = resistance/(2 · Impedance)
//	Overshoot = e^(−π · Damping/√(1 − Damping²)); 0 where Damping ≥ 1
//	Peak      = input · (1 + Overshoot)
//	Margin    = rating − Peak
//	Quiet     = 2 · Impedance
//
// Arguments: see HotPlugInputs; all above zero. It is an error outside of
// that. A peak above Rating is none: Margin is below zero.
//
//	p, err := linear.HotPlug(linear.HotPlugInputs{
//		Input: 24V, Inductance: 1µH, Capacitance: 10µF, Resistance: 100mΩ, Rating: 40V,
//	})
//	// p.Overshoot: 60.5 %; p.Peak: 38.51 V
//
// Holds for a capacitance that does not change with voltage and a supply
// that is stiff. A class 2 ceramic capacitor loses capacitance as it charges
// and overshoots further, beyond twice the input.
//
// Source: step response of a series resonant circuit (any textbook); the
// effect as in Linear Technology application note 88.
//
// Caution: a ceramic capacitor alone at the input is the usual cause of
// regulators that die when plugged in; an aluminium capacitor beside it, with
// about Quiet as its ESR and some times the capacitance, damps the circuit:
// protect.HotPlug computes it.
func HotPlug(in HotPlugInputs) (HotPlugResult, error) {
	const function = "linear.HotPlug"
	if err := argument.First(function,
		argument.Voltage.Positive("Input", in.Input),
		argument.Inductance.Positive("Inductance", in.Inductance),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.Positive("Resistance", in.Resistance),
		argument.Voltage.Positive("Rating", in.Rating),
	); err != nil {
		return HotPlugResult{}, err
	}
	one := units.Number(1)
	impedance := units.Sqrt(in.Inductance.Div(in.Capacitance))
	quiet := units.Number(2).Mul(impedance)
	damping := in.Resistance.Div(quiet)
	// Where it is damped, a stand-in keeps the root from ending the others.
	left := units.Where(damping, one, one.Sub(damping.Mul(damping)), one)
	ringing := units.Exp(units.Number(math.Pi).Mul(damping).Div(units.Sqrt(left)).Neg())
	overshoot := units.Where(damping, one, ringing, units.Number(0))
	peak := in.Input.Mul(one.Add(overshoot))
	margin := in.Rating.Sub(peak)
	return HotPlugResult{
		Impedance: impedance,
		Damping:   damping,
		Overshoot: overshoot,
		Peak:      peak,
		Margin:    margin,
		Quiet:     quiet,
	}, nil
}
