package protect

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// SlopeInputs are the arguments of SlopeInrush.
type SlopeInputs struct {
	Supply      units.Quantity // V
	Capacitance units.Quantity // that is charged, F
	Slope       units.Quantity // of the output voltage, V/s
	Load        units.Quantity // constant current that the load takes meanwhile, A; left out: none
	Resistance  units.Quantity // load that takes current as the voltage rises, Ω; left out: none
}

// SlopeResult is what SlopeInrush finds.
type SlopeResult struct {
	Time      units.Quantity // of the rise, s
	Charging  units.Quantity // current into the capacitor, A
	Current   units.Quantity // largest through the switch, at the end of the rise, A
	PeakPower units.Quantity // in the switch, W
	Energy    units.Quantity // in the switch, J
	PulseTime units.Quantity // length of a rectangle of that power and energy, s
}

// SlopeInrush computes a capacitor that a transistor charges with a
// controlled slope, and what the transistor takes meanwhile.
//
//	Time      = supply/slope
//	Charging  = capacitance · slope
//	steady    = Charging + load
//	Current   = steady + supply/resistance
//	PeakPower = supply · steady, without a resistance
//	PeakPower = supply · steady + excess²/4 · resistance,
//	            with excess = supply/resistance − steady, not below 0
//	Energy    = supply · steady · Time/2 + supply²/resistance · Time/6
//	PulseTime = Energy/PeakPower
//
// Arguments: see SlopeInputs; Supply, V, Capacitance, F, and Slope, V/s, above
// zero, Load, A, not below, Resistance, Ω, above. It is an error outside of
// that.
//
//	s, err := protect.SlopeInrush(protect.SlopeInputs{Supply: 24V, Capacitance: 2.2mF, Slope: 1V/ms, Load: 0.2A})
//	// s.Charging: 2.2 A; s.PeakPower: 57.6 W; s.PulseTime: 12 ms
//
// Holds for a slope that the circuit keeps, from 0 V to the supply. Whether a
// transistor survives PeakPower for PulseTime is for SafeArea.
//
// Source: charge of a capacitor, integral of the power over the rise; the
// rectangle of the same power and energy is common practice.
//
// Caution: a load that starts before the rise ends multiplies the heat: hold
// it with the enable input of the regulator behind. Into a short circuit the
// slope is never reached, and only a current limit with a timer saves the
// transistor.
func SlopeInrush(in SlopeInputs) (SlopeResult, error) {
	load := argument.Current.OrZero(in.Load)
	if err := argument.First("protect.SlopeInrush",
		argument.Voltage.Positive("Supply", in.Supply),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.VoltageSlope.Positive("Slope", in.Slope),
		argument.Current.NotNegative("Load", load),
		argument.Resistance.Optional("Resistance", in.Resistance),
	); err != nil {
		return SlopeResult{}, err
	}
	two, six := units.Number(2), units.Number(6)
	time := in.Supply.Div(in.Slope)
	charging := in.Capacitance.Mul(in.Slope)
	steady := charging.Add(load)
	current := steady
	peakPower := in.Supply.Mul(steady)
	energy := peakPower.Mul(time).Div(two)
	if argument.Given(in.Resistance) {
		last := in.Supply.Div(in.Resistance)
		excess := units.Max(last.Sub(steady), steady.Sub(steady))
		current = steady.Add(last)
		peakPower = in.Supply.Mul(steady).Add(excess.Mul(excess).Mul(in.Resistance).Div(units.Number(4)))
		energy = in.Supply.Mul(steady).Mul(time).Div(two).Add(in.Supply.Mul(last).Mul(time).Div(six))
	}
	pulseTime := energy.Div(peakPower)
	return SlopeResult{Time: time, Charging: charging, Current: current, PeakPower: peakPower, Energy: energy, PulseTime: pulseTime}, nil
}
