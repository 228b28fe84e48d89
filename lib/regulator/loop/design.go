package loop

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// DesignInputs are the arguments of TypeI, TypeII and TypeIII.
type DesignInputs struct {
	Plant       Plant
	Amplifier   Amplifier      // with its divider; the other parts are found, and left out here
	Crossover   units.Quantity // wanted, Hz
	PhaseMargin units.Quantity // wanted, °; TypeI finds it, and has it left out
}

// check refuses what no network can be found for.
func (in DesignInputs) check() error {
	for _, err := range []error{
		in.Plant.check(),
		in.Amplifier.checkInput(),
		in.Amplifier.checkUnset(),
		argument.Frequency.Positive("Crossover", in.Crossover),
	} {
		if err != nil {
			return err
		}
	}
	return argument.Under("Crossover", in.Crossover, "half the switching frequency", in.Plant.Frequency.Mul(units.Number(0.5)), "no loop is faster; lower it to about a tenth")
}

// checkUnset refuses parts that are to be found.
func (a Amplifier) checkUnset() error {
	const mend = "leave it out, and give the chosen parts to Margins"
	for _, err := range []error{
		argument.Unset("LeadResistor", a.LeadResistor, mend),
		argument.Unset("LeadCapacitor", a.LeadCapacitor, mend),
		argument.Unset("Resistor", a.Resistor, mend),
		argument.Unset("Capacitor", a.Capacitor, mend),
		argument.Unset("HighCapacitor", a.HighCapacitor, mend),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// scale is the resistance by which the network's impedance is divided: the
// amplifier's gain without a lead is that of the network over it.
func (a Amplifier) scale() units.Quantity {
	if !argument.Given(a.Transconductance) {
		return a.Upper
	}
	return units.Number(1).Add(a.Upper.Div(a.Lower)).Div(a.Transconductance)
}

// leadFloor is the resistance that lies in series with a lead at the input of
// a transconductance amplifier: the divider's. The input of an operational
// amplifier is a virtual ground.
func (a Amplifier) leadFloor() units.Quantity {
	if !argument.Given(a.Transconductance) {
		return a.Upper.Sub(a.Upper)
	}
	return units.Parallel(a.Upper, a.Lower)
}

// TypeIResult is what TypeI finds.
type TypeIResult struct {
	PlantGain   units.Quantity // at the crossover, no unit
	PlantPhase  units.Quantity // there, °
	Capacitor   units.Quantity // of the network, F
	PhaseMargin units.Quantity // °
}

// TypeI finds the capacitor that alone compensates a loop: an integrator.
//
//	PlantGain   = |plant(2πj · crossover)|
//	PlantPhase  = phase of it
//	Capacitor   = PlantGain/(2π · crossover · scale)
//	PhaseMargin = 90° + PlantPhase
//	scale       = upper; (1 + upper/lower)/transconductance with a transconductance amplifier
//
// Arguments: Plant; Amplifier, of which Upper and, with a Transconductance,
// Lower, Ω, are given and the parts of the network left out; Crossover, Hz,
// above zero and below half the switching frequency; PhaseMargin left out. It
// is an error outside of that, and where the phase margin is not above zero.
//
//	c, err := loop.TypeI(loop.DesignInputs{
//		Plant: plant, Amplifier: loop.Amplifier{Upper: 10kΩ}, Crossover: 1kHz,
//	})
//	Cc := Nearest(E12, c.Capacitor)
//
// For a crossover far below the plant's poles, as with a double pole that no
// lead is to lift.
//
// Source: H. D. Venable, The k factor, 1983, from memory.
//
// Caution: the double pole of an output filter may lift the gain above 1 once
// more; Margins finds it. Its limits of the amplifier are left out here.
func TypeI(in DesignInputs) (TypeIResult, error) {
	const function = "loop.TypeI"
	if err := argument.First(function, in.check(), argument.Unset("PhaseMargin", in.PhaseMargin, "leave it out")); err != nil {
		return TypeIResult{}, err
	}
	crossover := in.Crossover
	decibels, plantPhase := in.Plant.at(crossover)
	plantGain := units.VoltageRatio(decibels)
	scale := in.Amplifier.scale()
	turn := units.Number(2).Mul(units.Pi)
	capacitor := plantGain.Div(turn.Mul(crossover).Mul(scale))
	phaseMargin := quarterTurn.Add(plantPhase)
	if err := argument.First(function,
		argument.Above("the phase margin", units.In(phaseMargin, "deg"), "zero", noAngle, "an integrator alone cannot close this loop there; lower Crossover or take TypeII or TypeIII"),
	); err != nil {
		return TypeIResult{}, err
	}
	return TypeIResult{PlantGain: plantGain, PlantPhase: plantPhase, Capacitor: capacitor, PhaseMargin: units.In(phaseMargin, "deg")}, nil
}

// TypeIIResult is what TypeII finds.
type TypeIIResult struct {
	PlantGain     units.Quantity // at the crossover, no unit
	PlantPhase    units.Quantity // there, °
	Boost         units.Quantity // that the network adds to the −90° of an integrator, °
	Ratio         units.Quantity // of crossover to Zero and of Pole to crossover, no unit
	Zero          units.Quantity // Hz
	Pole          units.Quantity // Hz
	Resistor      units.Quantity // in series with Capacitor, Ω
	Capacitor     units.Quantity // F
	HighCapacitor units.Quantity // across both, F
}

// TypeII finds the ideal parts of a network with one zero and one pole, for
// a crossover and a phase margin.
//
//	PlantGain     = |plant(2πj · crossover)|
//	PlantPhase    = phase of it
//	Boost         = phase margin − 90° − PlantPhase
//	Ratio         = tan(45° + Boost/2)
//	Zero          = crossover/Ratio
//	Pole          = crossover · Ratio
//	total         = Ratio · PlantGain/(2π · crossover · scale)
//	HighCapacitor = total · Zero/Pole
//	Capacitor     = total − HighCapacitor
//	Resistor      = 1/(2π · Zero · Capacitor)
//	scale         = upper; (1 + upper/lower)/transconductance with a transconductance amplifier
//
// Arguments: Plant; Amplifier, of which Upper and, with a Transconductance,
// Lower, Ω, are given and the parts of the network left out; Crossover, Hz,
// above zero and below half the switching frequency; PhaseMargin, °. It is an
// error outside of that, and where Boost is not between 0° and 90°, which one
// zero cannot give.
//
//	c, err := loop.TypeII(loop.DesignInputs{
//		Plant: plant, Crossover: 25kHz, PhaseMargin: 65deg,
//		Amplifier: loop.Amplifier{Transconductance: 350µA/V, Upper: 52.3kΩ, Lower: 10kΩ},
//	})
//	Rc := Nearest(E96, c.Resistor)
//
// For current-mode control, and for voltage-mode control where an ESR gives
// the second zero. Feed the chosen parts back through Margins.
//
// Source: H. D. Venable, The k factor: a new mathematical tool for stability
// analysis and synthesis, 1983, from memory; with the transconductance
// amplifier's scale in place of the upper resistor.
//
// Caution: a wanted margin far above what the plant needs puts Zero so low
// that load steps settle slowly. Limits of the amplifier (OutputResistance,
// GainBandwidth) are left out here; Margins counts them.
func TypeII(in DesignInputs) (TypeIIResult, error) {
	const function = "loop.TypeII"
	if err := argument.First(function, in.check(), argument.Angle.Positive("PhaseMargin", in.PhaseMargin)); err != nil {
		return TypeIIResult{}, err
	}
	crossover := in.Crossover
	decibels, plantPhase := in.Plant.at(crossover)
	plantGain := units.VoltageRatio(decibels)
	boost := units.In(in.PhaseMargin.Sub(quarterTurn).Sub(plantPhase), "deg")
	if err := argument.First(function, boostAbove(boost), boostUnder(boost, quarterTurn, "one zero cannot; lower PhaseMargin or Crossover, or take TypeIII")); err != nil {
		return TypeIIResult{}, err
	}
	ratio := lift(boost)
	zero := crossover.Div(ratio)
	pole := crossover.Mul(ratio)
	n := in.Amplifier.network(ratio.Mul(plantGain), crossover, zero, pole)
	return TypeIIResult{
		PlantGain:     plantGain,
		PlantPhase:    plantPhase,
		Boost:         boost,
		Ratio:         ratio,
		Zero:          zero,
		Pole:          pole,
		Resistor:      n.resistor,
		Capacitor:     n.capacitor,
		HighCapacitor: n.highCapacitor,
	}, nil
}

// lift is tan(45° + boost/2): the ratio of crossover to zero, and of pole to
// crossover, with which zero and pole together give a boost.
func lift(boost units.Quantity) units.Quantity {
	half := units.Number(0.5)
	return units.Tan(quarterTurn.Add(boost).Mul(half))
}

func boostAbove(boost units.Quantity) error {
	return argument.Above("the boost that the network must give", boost, "zero", noAngle, "the plant leaves more phase margin than that; raise PhaseMargin or Crossover, or take TypeI")
}

func boostUnder(boost, most units.Quantity, mend string) error {
	return argument.Under("the boost that the network must give", boost, "the most", units.In(most, "deg"), mend)
}

// network are the parts of a network whose integrator has a gain of 1/factor
// at the crossover, with a zero and a pole.
type network struct{ resistor, capacitor, highCapacitor units.Quantity }

func (a Amplifier) network(factor, crossover, zero, pole units.Quantity) network {
	one, turn := units.Number(1), units.Number(2).Mul(units.Pi)
	scale := a.scale()
	total := factor.Div(turn.Mul(crossover).Mul(scale))
	highCapacitor := total.Mul(zero.Div(pole))
	capacitor := total.Sub(highCapacitor)
	resistor := one.Div(turn.Mul(zero).Mul(capacitor))
	return network{resistor: resistor, capacitor: capacitor, highCapacitor: highCapacitor}
}

var (
	quarterTurn = halfTurn.Div(units.Number(2))
	noAngle     = units.In(radian.Sub(radian), "deg")
)
