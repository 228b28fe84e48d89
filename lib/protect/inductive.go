package protect

import (
	"math"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// InductiveInputs are the arguments of InductiveTurnOff.
type InductiveInputs struct {
	Supply     units.Quantity // V
	Inductance units.Quantity // of the load, H
	Resistance units.Quantity // of its winding, Ω
	Current    units.Quantity // when it is switched off, A
	Clamp      units.Quantity // voltage of what takes the current over, V: a diode's drop, a zener's voltage
	AcrossLoad bool           // the clamp lies across the load, as a freewheeling diode; otherwise across the switch
	Rating     units.Quantity // highest voltage that the switch survives, V
	Frequency  units.Quantity // of switching off, Hz; left out: zero
}

// InductiveResult is what InductiveTurnOff finds.
type InductiveResult struct {
	Opposing      units.Quantity // voltage that drives the current down, beside the winding's, V
	SwitchVoltage units.Quantity // largest at the switch, V
	Margin        units.Quantity // of Rating above SwitchVoltage, V; below zero: the switch breaks down
	TimeConstant  units.Quantity // of the load, s
	Time          units.Quantity // until the current is zero, s
	Charge        units.Quantity // that flows meanwhile, C
	Stored        units.Quantity // energy in the inductance before, J
	FromSupply    units.Quantity // energy that the supply adds meanwhile, J
	Energy        units.Quantity // in the clamp, J
	WindingHeat   units.Quantity // in the winding meanwhile, J
	PeakPower     units.Quantity // in the clamp, W
	Average       units.Quantity // power in the clamp, W
}

// InductiveTurnOff computes what happens when the current of a relay, a valve
// or a motor is switched off and a diode, a zener or a suppressor diode takes
// it over.
//
//	Opposing      = clamp, across the load; clamp − supply, across the switch
//	SwitchVoltage = supply + clamp, across the load; clamp, across the switch
//	Margin        = rating − SwitchVoltage
//	TimeConstant  = inductance/resistance
//	Time          = TimeConstant · ln(1 + x), with x = current · resistance/Opposing
//	Charge        = inductance · current²/Opposing · (x − ln(1 + x))/x²
//	Stored        = inductance · current²/2
//	FromSupply    = 0, across the load; supply · Charge, across the switch
//	Energy        = clamp · Charge
//	WindingHeat   = Stored + FromSupply − Energy
//	PeakPower     = clamp · current
//	Average       = Energy · frequency
//
// Arguments: see InductiveInputs; all above zero, Frequency not below; across
// the switch Clamp above Supply. It is an error outside of that. A
// SwitchVoltage above Rating is none: Margin is below zero.
//
//	t, err := protect.InductiveTurnOff(protect.InductiveInputs{
//		Supply: 24V, Inductance: 200mH, Resistance: 48Ω, Current: 0.5A, Clamp: 0.8V, AcrossLoad: true, Rating: 60V,
//	})
//	// t.Time: 14.31 ms; with 47 V across the switch 2.986 ms
//
// Holds for a clamp of constant voltage and an inductance that does not
// change; one whose iron saturates stores less.
//
// Source: decay of the current in an inductance against a voltage and a
// resistance (any textbook).
//
// Caution: a relay with a diode alone opens slowly, and its contacts arc and
// weld: a zener in series with the diode opens it fast. Two loads that are
// switched off together share a clamp's energy rating. Without any clamp the
// switch is the clamp.
func InductiveTurnOff(in InductiveInputs) (InductiveResult, error) {
	const function = "protect.InductiveTurnOff"
	frequency := argument.Frequency.OrZero(in.Frequency)
	if err := argument.First(function,
		argument.Voltage.Positive("Supply", in.Supply),
		argument.Inductance.Positive("Inductance", in.Inductance),
		argument.Resistance.Positive("Resistance", in.Resistance),
		argument.Current.Positive("Current", in.Current),
		argument.Voltage.Positive("Clamp", in.Clamp),
		argument.Voltage.Positive("Rating", in.Rating),
		argument.Frequency.NotNegative("Frequency", frequency),
	); err != nil {
		return InductiveResult{}, err
	}
	opposing, switchVoltage := in.Clamp, in.Supply.Add(in.Clamp)
	if !in.AcrossLoad {
		if err := argument.First(function,
			argument.Above("Clamp", in.Clamp, "Supply", in.Supply, "a clamp across the switch conducts all the time then; raise Clamp, or write AcrossLoad: true"),
		); err != nil {
			return InductiveResult{}, err
		}
		opposing, switchVoltage = in.Clamp.Sub(in.Supply), in.Clamp
	}
	margin := in.Rating.Sub(switchVoltage)
	timeConstant := in.Inductance.Div(in.Resistance)
	x := in.Current.Mul(in.Resistance).Div(opposing)
	logarithm := lnOnePlus(x)
	time := timeConstant.Mul(logarithm)
	remaining := chargeFactorOf(x)
	charge := in.Inductance.Mul(in.Current).Mul(in.Current).Div(opposing).Mul(remaining)
	stored := in.Inductance.Mul(in.Current).Mul(in.Current).Div(units.Number(2))
	fromSupply := argument.Energy.OrZero(none)
	if !in.AcrossLoad {
		fromSupply = in.Supply.Mul(charge)
	}
	energy := in.Clamp.Mul(charge)
	windingHeat := stored.Add(fromSupply).Sub(energy)
	peakPower := in.Clamp.Mul(in.Current)
	average := energy.Mul(frequency)
	return InductiveResult{
		Opposing:      opposing,
		SwitchVoltage: switchVoltage,
		Margin:        margin,
		TimeConstant:  timeConstant,
		Time:          time,
		Charge:        charge,
		Stored:        stored,
		FromSupply:    fromSupply,
		Energy:        energy,
		WindingHeat:   windingHeat,
		PeakPower:     peakPower,
		Average:       average,
	}, nil
}

// lnOnePlus is ln(1 + x), with all its digits for a small x.
func lnOnePlus(x units.Quantity) units.Quantity {
	return units.Lanewise("the decay", x, func(x []float64) float64 { return math.Log1p(x[0]) }, x)
}

func chargeFactorOf(x units.Quantity) units.Quantity {
	return units.Lanewise("the charge", x, func(x []float64) float64 { return chargeFactor(x[0]) }, x)
}

// chargeFactor is (x − ln(1 + x))/x². For small x both terms are nearly the
// same, and its series 1/2 − x/3 + x²/4 … keeps the digits.
func chargeFactor(x float64) float64 {
	if x > 0.05 {
		return (x - math.Log1p(x)) / x / x
	}
	sum, power := 0.0, 1.0
	for n := 2.0; n < 16; n++ {
		sum += power / n
		power *= -x
	}
	return sum
}

// SnubberInputs are the arguments of InductiveSnubber.
type SnubberInputs struct {
	Supply      units.Quantity // V
	Inductance  units.Quantity // of the load, H
	Winding     units.Quantity // its resistance, Ω
	Current     units.Quantity // when it is switched off, A
	Resistance  units.Quantity // of the snubber across the switch, Ω
	Capacitance units.Quantity // of the snubber, F
	Rating      units.Quantity // highest voltage that the switch survives, V
	Frequency   units.Quantity // of switching, Hz; left out: zero
}

// SnubberResult is what InductiveSnubber finds.
type SnubberResult struct {
	Impedance units.Quantity // of inductance and capacitance, Ω
	FirstStep units.Quantity // at the switch as it opens, V
	Peak      units.Quantity // largest voltage at the switch, V
	Margin    units.Quantity // of Rating above Peak, V; below zero: too high
	Discharge units.Quantity // current of the capacitor through the switch as it closes, A
	Heat      units.Quantity // in resistances, of switching off and on once, J
	Average   units.Quantity // power of that, W
}

// InductiveSnubber computes a resistor and a capacitor in series across the
// switch of an inductive load: the current flows on into the capacitor, and
// rings with it.
//
//	Impedance = √(inductance/capacitance)
//	FirstStep = current · resistance
//	Peak      = the largest voltage of the circuit at the switch
//	Margin    = rating − Peak
//	Discharge = supply/resistance
//	Heat      = inductance · current²/2 + capacitance · supply²
//	Average   = Heat · frequency
//
// Peak is found by following the circuit by its matrix exponential, exactly;
// without resistances it would be supply + √(supply² + (current · Impedance)²).
//
// Arguments: see SnubberInputs; all above zero, Frequency not below, Winding
// and Resistance from a millionth to a thousand times Impedance. It is an
// error outside of that. A Peak above Rating is none: Margin is below zero.
//
//	s, err := protect.InductiveSnubber(protect.SnubberInputs{
//		Supply: 24V, Inductance: 100mH, Winding: 48Ω, Current: 0.5A, Resistance: 100Ω, Capacitance: 1µF, Rating: 250V,
//	})
//
// Holds for a switch that opens at once and without an arc, and a capacitor
// that is empty then.
//
// Source: the differential equations of the circuit.
//
// Caution: across a contact on the mains a snubber leaks current through an
// open switch, and its capacitor must be one of class X. A small Resistance
// makes the contact weld at Discharge.
func InductiveSnubber(in SnubberInputs) (SnubberResult, error) {
	const function = "protect.InductiveSnubber"
	frequency := argument.Frequency.OrZero(in.Frequency)
	if err := argument.First(function,
		argument.Voltage.Positive("Supply", in.Supply),
		argument.Inductance.Positive("Inductance", in.Inductance),
		argument.Resistance.Positive("Winding", in.Winding),
		argument.Current.Positive("Current", in.Current),
		argument.Resistance.Positive("Resistance", in.Resistance),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Voltage.Positive("Rating", in.Rating),
		argument.Frequency.NotNegative("Frequency", frequency),
	); err != nil {
		return SnubberResult{}, err
	}
	impedance := units.Sqrt(in.Inductance.Div(in.Capacitance))
	if err := argument.First(function,
		withinImpedance("Winding", in.Winding, impedance, 1e-6),
		withinImpedance("Resistance", in.Resistance, impedance, 1e-6),
	); err != nil {
		return SnubberResult{}, err
	}
	firstStep := in.Current.Mul(in.Resistance)
	above := snubberOvershoot(in.Winding.Div(impedance), in.Resistance.Div(impedance), in.Current.Mul(impedance), in.Supply)
	peak := in.Supply.Add(above)
	margin := in.Rating.Sub(peak)
	discharge := in.Supply.Div(in.Resistance)
	half := in.Inductance.Mul(in.Current).Mul(in.Current).Div(units.Number(2))
	heat := half.Add(in.Capacitance.Mul(in.Supply).Mul(in.Supply))
	average := heat.Mul(frequency)
	return SnubberResult{
		Impedance: impedance,
		FirstStep: firstStep,
		Peak:      peak,
		Margin:    margin,
		Discharge: discharge,
		Heat:      heat,
		Average:   average,
	}, nil
}

// snubberOvershoot is how far the voltage at the switch goes above the supply:
// of the resistances over √(L/C), the current times that, and the supply.
func snubberOvershoot(winding, snubber, drive, supply units.Quantity) units.Quantity {
	return units.Lanewise("the peak at the switch", supply, func(x []float64) float64 {
		winding, snubber, drive, supply := x[0], x[1], x[2], x[3]
		// Current and capacitor voltage, away from where they settle, in units
		// of √(L·C), √(L/C) and a volt.
		circuit := matrix{{-winding - snubber, -1, 0}, {1, 0, 0}, {0, 0, -1}}
		return newResponse(circuit, state{snubber, 1, 0}, 4.0/firstPart).largest(state{drive, -supply, 0})
	}, winding, snubber, drive, supply)
}
