package loop

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// TypeIIIResult is what TypeIII finds.
type TypeIIIResult struct {
	PlantGain     units.Quantity // at the crossover, no unit
	PlantPhase    units.Quantity // there, °
	Boost         units.Quantity // that both zeros add to the −90° of an integrator, °
	LeadBoost     units.Quantity // of it from the parts across the upper resistor, °
	Ratio         units.Quantity // of crossover to Zero and of Pole to crossover, no unit
	LeadRatio     units.Quantity // of crossover to LeadZero and of LeadPole to crossover, no unit
	Zero          units.Quantity // Hz
	Pole          units.Quantity // Hz
	LeadZero      units.Quantity // Hz
	LeadPole      units.Quantity // Hz
	Resistor      units.Quantity // in series with Capacitor, Ω
	Capacitor     units.Quantity // F
	HighCapacitor units.Quantity // across both, F
	LeadResistor  units.Quantity // in series with LeadCapacitor, Ω
	LeadCapacitor units.Quantity // across the upper resistor, F
}

// TypeIII finds the ideal parts of a network with two zeros and two poles,
// for a crossover and a phase margin.
//
//	PlantGain     = |plant(2πj · crossover)|
//	PlantPhase    = phase of it
//	Boost         = phase margin − 90° − PlantPhase
//	LeadBoost     = Boost/2; at most 2 · atan(√(1 + upper/lower)) − 90° with a transconductance amplifier
//	LeadRatio     = tan(45° + LeadBoost/2)
//	Ratio         = tan(45° + (Boost − LeadBoost)/2)
//	Zero          = crossover/Ratio
//	Pole          = crossover · Ratio
//	LeadZero      = crossover/LeadRatio
//	LeadPole      = crossover · LeadRatio
//	total         = Ratio · LeadRatio · PlantGain/(2π · crossover · scale)
//	HighCapacitor = total · Zero/Pole
//	Capacitor     = total − HighCapacitor
//	Resistor      = 1/(2π · Zero · Capacitor)
//	LeadCapacitor = (1/(2π · LeadZero) − 1/(2π · LeadPole))/(upper − floor)
//	LeadResistor  = 1/(2π · LeadPole · LeadCapacitor) − floor
//	scale         = upper; (1 + upper/lower)/transconductance with a transconductance amplifier
//	floor         = 0; upper ∥ lower with a transconductance amplifier
//
// Arguments: Plant; Amplifier, of which Upper and, with a Transconductance,
// Lower, Ω, are given and the parts of the network left out; Crossover, Hz,
// above zero and below half the switching frequency; PhaseMargin, °. It is an
// error outside of that, and where Boost is not above 0°, or too much: 180° at
// an operational amplifier, at a transconductance amplifier what its divider
// leaves.
//
//	c, err := loop.TypeIII(loop.DesignInputs{
//		Plant: plant, Amplifier: loop.Amplifier{Upper: 10kΩ}, Crossover: 60kHz, PhaseMargin: 60deg,
//	})
//
// For voltage-mode control with capacitors of little ESR. At a
// transconductance amplifier the divider limits the lead: LeadPole is at most
// output/reference times LeadZero; where half the boost is more than that,
// the network takes the rest. Feed the chosen parts back through Margins.
//
// Source: H. D. Venable, The k factor: a new mathematical tool for stability
// analysis and synthesis, 1983, from memory; the divider's limit from
// Kirchhoff's laws.
//
// Caution: it asks the amplifier for a gain of 1/PlantGain, and more above the
// crossover: give Margins the GainBandwidth. Where the zeros come to lie above
// a resonance of the plant the phase dips there; Margins does not count what
// is below the crossover.
func TypeIII(in DesignInputs) (TypeIIIResult, error) {
	const function = "loop.TypeIII"
	if err := argument.First(function, in.check(), argument.Angle.Positive("PhaseMargin", in.PhaseMargin)); err != nil {
		return TypeIIIResult{}, err
	}
	crossover, a := in.Crossover, in.Amplifier
	decibels, plantPhase := in.Plant.at(crossover)
	plantGain := units.VoltageRatio(decibels)
	boost := units.In(in.PhaseMargin.Sub(quarterTurn).Sub(plantPhase), "deg")
	mostLead := a.mostLead()
	if err := argument.First(function, boostAbove(boost), boostUnder(boost, mostLead.Add(quarterTurn), "two zeros cannot; lower PhaseMargin or Crossover")); err != nil {
		return TypeIIIResult{}, err
	}
	half := units.Number(0.5)
	leadBoost := units.Min(boost.Mul(half), units.In(mostLead, "deg"))
	leadRatio := lift(leadBoost)
	ratio := lift(boost.Sub(leadBoost))
	zero := crossover.Div(ratio)
	pole := crossover.Mul(ratio)
	leadZero := crossover.Div(leadRatio)
	leadPole := crossover.Mul(leadRatio)
	n := a.network(ratio.Mul(leadRatio).Mul(plantGain), crossover, zero, pole)
	l := a.lead(leadZero, leadPole)
	return TypeIIIResult{
		PlantGain:     plantGain,
		PlantPhase:    plantPhase,
		Boost:         boost,
		LeadBoost:     leadBoost,
		Ratio:         ratio,
		LeadRatio:     leadRatio,
		Zero:          zero,
		Pole:          pole,
		LeadZero:      leadZero,
		LeadPole:      leadPole,
		Resistor:      n.resistor,
		Capacitor:     n.capacitor,
		HighCapacitor: n.highCapacitor,
		LeadResistor:  l.resistor,
		LeadCapacitor: l.capacitor,
	}, nil
}

// mostLead is the largest boost of a lead across the upper resistor.
func (a Amplifier) mostLead() units.Quantity {
	if !argument.Given(a.Transconductance) {
		return quarterTurn
	}
	spread := units.Number(1).Add(a.Upper.Div(a.Lower))
	return units.Atan(units.Sqrt(spread)).Mul(units.Number(2)).Sub(quarterTurn)
}

// lead are the parts across the upper resistor that make a zero and a pole.
type lead struct{ resistor, capacitor units.Quantity }

func (a Amplifier) lead(zero, pole units.Quantity) lead {
	one, turn := units.Number(1), units.Number(2).Mul(units.Pi)
	floor := a.leadFloor()
	zeroTime := one.Div(turn.Mul(zero))
	poleTime := one.Div(turn.Mul(pole))
	capacitor := zeroTime.Sub(poleTime).Div(a.Upper.Sub(floor))
	resistor := poleTime.Div(capacitor).Sub(floor)
	// Rounding may leave a little less than nothing where the lead is at its limit.
	return lead{resistor: units.Max(resistor, floor.Sub(floor)), capacitor: capacitor}
}
