package loop

import (
	"errors"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// PlaceInputs are the arguments of Place.
type PlaceInputs struct {
	Plant     Plant
	Amplifier Amplifier      // with its divider; the other parts are found, and left out here
	Crossover units.Quantity // wanted, Hz
	Zero      units.Quantity // of the network, Hz
	Pole      units.Quantity // of the network, Hz; left out: no HighCapacitor
	LeadZero  units.Quantity // of the parts across the upper resistor, Hz; left out: no such parts
	LeadPole  units.Quantity // of them, Hz
}

// PlaceResult is what Place finds.
type PlaceResult struct {
	PlantGain     units.Quantity // at the crossover, no unit
	Shape         units.Quantity // gain there of zeros and poles over that of the integrator alone, no unit
	Resistor      units.Quantity // in series with Capacitor, Ω
	Capacitor     units.Quantity // F
	HighCapacitor units.Quantity // across both, F; not given without Pole
	LeadResistor  units.Quantity // in series with LeadCapacitor, Ω; not given without LeadZero
	LeadCapacitor units.Quantity // across the upper resistor, F; not given without LeadZero
	PhaseMargin   units.Quantity // °
}

// Place finds the ideal parts of a network whose zeros and poles the designer
// places, for a crossover.
//
//	PlantGain     = |plant(2πj · crossover)|
//	rise(f)       = √(1 + (crossover/f)²)
//	Shape         = rise(zero)/rise(pole) · rise(lead zero)/rise(lead pole)
//	total         = PlantGain · Shape/(2π · crossover · scale)
//	HighCapacitor = total · zero/pole
//	Capacitor     = total − HighCapacitor
//	Resistor      = 1/(2π · zero · Capacitor)
//	LeadCapacitor = (1/(2π · lead zero) − 1/(2π · lead pole))/(upper − floor)
//	LeadResistor  = 1/(2π · lead pole · LeadCapacitor) − floor
//	PhaseMargin   = 90° + phase of the plant + atan(crossover/zero) − atan(crossover/pole) + atan(crossover/lead zero) − atan(crossover/lead pole)
//	scale         = upper; (1 + upper/lower)/transconductance with a transconductance amplifier
//	floor         = 0; upper ∥ lower with a transconductance amplifier
//
// Arguments: Plant; Amplifier, of which Upper and, with a Transconductance,
// Lower, Ω, are given and the parts of the network left out; Crossover, Hz,
// above zero and below half the switching frequency; Zero, Hz, above zero;
// Pole above Zero; LeadPole above LeadZero, and at a transconductance
// amplifier at most (1 + upper/lower) times that, which its divider allows. It
// is an error outside of that.
//
//	c, err := loop.Place(loop.PlaceInputs{
//		Plant: plant, Amplifier: amplifier, Crossover: 25kHz, Zero: 430Hz, Pole: 200kHz,
//	})
//
// Common practice for current-mode control: Zero at the load's pole, Pole at
// the ESR's zero or half the switching frequency. For voltage-mode control
// with type III: Zero at half the resonance, LeadZero at it, LeadPole at the
// ESR's zero, Pole at half the switching frequency. Feed the chosen parts
// back through Margins.
//
// Source: asymptotes of H. W. Bode, here without their rounding of corners;
// L5987 Doc ID 14972 Rev 3 p. 23 for the parts.
//
// Caution: limits of the amplifier (OutputResistance, GainBandwidth) are left
// out here; Margins counts them.
func Place(in PlaceInputs) (PlaceResult, error) {
	const function = "loop.Place"
	d := DesignInputs{Plant: in.Plant, Amplifier: in.Amplifier, Crossover: in.Crossover}
	if err := argument.First(function, d.check()); err != nil {
		return PlaceResult{}, err
	}
	if err := argument.First(function, in.checkPlaces()); err != nil {
		return PlaceResult{}, err
	}
	crossover, a := in.Crossover, in.Amplifier
	decibels, plantPhase := in.Plant.at(crossover)
	plantGain := units.VoltageRatio(decibels)
	shape := rise(crossover, in.Zero)
	angle := quarterTurn.Add(plantPhase).Add(units.Atan(crossover.Div(in.Zero)))
	r := PlaceResult{PlantGain: plantGain}
	if argument.Given(in.LeadZero) {
		shape = shape.Mul(rise(crossover, in.LeadZero)).Div(rise(crossover, in.LeadPole))
		angle = angle.Add(units.Atan(crossover.Div(in.LeadZero))).Sub(units.Atan(crossover.Div(in.LeadPole)))
		l := a.lead(in.LeadZero, in.LeadPole)
		r.LeadResistor = l.resistor
		r.LeadCapacitor = l.capacitor
	}
	if argument.Given(in.Pole) {
		shape = shape.Div(rise(crossover, in.Pole))
		angle = angle.Sub(units.Atan(crossover.Div(in.Pole)))
		n := a.network(plantGain.Mul(shape), crossover, in.Zero, in.Pole)
		r.HighCapacitor = n.highCapacitor
		r.Capacitor = n.capacitor
		r.Resistor = n.resistor
	} else {
		one, turn := units.Number(1), units.Number(2).Mul(units.Pi)
		capacitor := plantGain.Mul(shape).Div(turn.Mul(crossover).Mul(a.scale()))
		r.Capacitor = capacitor
		r.Resistor = one.Div(turn.Mul(in.Zero).Mul(capacitor))
	}
	r.Shape = shape
	r.PhaseMargin = units.In(angle, "deg")
	return r, nil
}

// rise is the gain of a zero at a frequency.
func rise(frequency, zero units.Quantity) units.Quantity {
	share := frequency.Div(zero)
	return units.Sqrt(units.Number(1).Add(share.Mul(share)))
}

// checkPlaces refuses zeros and poles in the wrong order.
func (in PlaceInputs) checkPlaces() error {
	const above = "the pole ends what the zero begins; raise it or lower the zero"
	if err := argument.Frequency.Positive("Zero", in.Zero); err != nil {
		return err
	}
	if argument.Given(in.Pole) {
		if err := argument.Frequency.Positive("Pole", in.Pole); err != nil {
			return err
		}
		if err := argument.Above("Pole", in.Pole, "Zero", in.Zero, above); err != nil {
			return err
		}
	}
	if argument.Given(in.LeadZero) != argument.Given(in.LeadPole) {
		return errors.New("of LeadZero and LeadPole one is given; the parts across the upper resistor make both: give the other, or leave out both")
	}
	if !argument.Given(in.LeadZero) {
		return nil
	}
	for _, err := range []error{
		argument.Frequency.Positive("LeadZero", in.LeadZero),
		argument.Frequency.Positive("LeadPole", in.LeadPole),
	} {
		if err != nil {
			return err
		}
	}
	if err := argument.Above("LeadPole", in.LeadPole, "LeadZero", in.LeadZero, above); err != nil {
		return err
	}
	if !argument.Given(in.Amplifier.Transconductance) {
		return nil
	}
	spread := units.Number(1).Add(in.Amplifier.Upper.Div(in.Amplifier.Lower))
	return argument.AtMost("LeadPole", in.LeadPole, "LeadZero times 1 + Upper/Lower", in.LeadZero.Mul(spread), "the divider lets the lead lift no further; lower LeadPole or raise LeadZero")
}
