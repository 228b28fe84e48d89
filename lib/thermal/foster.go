package thermal

import (
	"fmt"
	"math"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// FosterStage is one stage of a Foster network: a resistance with a
// capacitance across it. Give its time constant or its capacitance.
type FosterStage struct {
	Resistance   units.Quantity // K/W
	TimeConstant units.Quantity // s
	Capacitance  units.Quantity // J/K
}

// Foster is a Foster network (also partial-fraction or tank network): the form
// in which data sheets give a transient thermal impedance as a sum of
// exponentials. A Cauer network (ladder, continued-fraction or filter network),
// whose capacitances go to ground, is another thing with other values. The
// numbers alone do not tell the two apart; KnownTime and KnownImpedance, a
// point of the data sheet's curve, do: values of a ladder miss it and are
// refused.
type Foster struct {
	Stages         []FosterStage  // in any order; each capacitance is across its own resistance
	KnownTime      units.Quantity // of a single pulse, s; left out: nothing to hold the stages against
	KnownImpedance units.Quantity // that the curve of the data sheet shows there, K/W
}

// fosterStage is a stage that was checked.
type fosterStage struct{ resistance, timeConstant units.Quantity }

// knownWithin is how far the stages may miss the known point: what a curve can
// be read to, and more than the error of a fit.
const knownWithin = 0.2

// check returns the stages, each with its time constant.
func (n Foster) check(function string) ([]fosterStage, error) {
	if len(n.Stages) == 0 {
		return nil, fmt.Errorf("%s: Network has no stages: write each with its resistance and its time constant", function)
	}
	stages := make([]fosterStage, len(n.Stages))
	for i, s := range n.Stages {
		name := fmt.Sprintf("of stage %d", i+1)
		if err := argument.First(function, argument.ThermalResistance.Positive("the resistance "+name, s.Resistance)); err != nil {
			return nil, err
		}
		switch {
		case argument.Given(s.TimeConstant) && argument.Given(s.Capacitance):
			return nil, fmt.Errorf("%s: stage %d has both TimeConstant and Capacitance: give one of them", function, i+1)
		case argument.Given(s.Capacitance):
			if err := argument.First(function, argument.HeatCapacity.Positive("the capacitance "+name, s.Capacitance)); err != nil {
				return nil, err
			}
			stages[i] = fosterStage{s.Resistance, s.Resistance.Mul(s.Capacitance)}
		default:
			if err := argument.First(function, argument.Time.Positive("the time constant "+name, s.TimeConstant)); err != nil {
				return nil, err
			}
			stages[i] = fosterStage{s.Resistance, s.TimeConstant}
		}
	}
	return stages, n.checkKnown(function, stages)
}

// checkKnown holds the stages against the known point of the curve.
func (n Foster) checkKnown(function string, stages []fosterStage) error {
	if !argument.Given(n.KnownTime) && !argument.Given(n.KnownImpedance) {
		return nil
	}
	if err := argument.First(function,
		argument.Time.Positive("KnownTime", n.KnownTime),
		argument.ThermalResistance.Positive("KnownImpedance", n.KnownImpedance),
	); err != nil {
		return err
	}
	impedance := impedanceOf(stages, n.KnownTime)
	miss := units.Abs(impedance.Div(n.KnownImpedance).Sub(units.Number(1)))
	if at := argument.NotAbove(units.Number(knownWithin), miss, impedance, n.KnownTime, n.KnownImpedance); at != nil {
		return fmt.Errorf("%s: the stages make %s at %s, where KnownImpedance is %s: these are not the stages of that curve; values of a ladder (Cauer or filter network) do not go into a Foster network: take those of the tank network", function, at[0], at[1], at[2])
	}
	return nil
}

// impedanceOf is the sum of what the stages have reached after a time.
func impedanceOf(stages []fosterStage, time units.Quantity) units.Quantity {
	total := argument.ThermalResistance.OrZero(none)
	for _, s := range stages {
		total = total.Add(s.resistance.Mul(reached(time, s.timeConstant)))
	}
	return total
}

func steadyOf(stages []fosterStage) units.Quantity {
	total := argument.ThermalResistance.OrZero(none)
	for _, s := range stages {
		total = total.Add(s.resistance)
	}
	return total
}

// reached is 1 − e^(−time/timeConstant), without the loss of digits that this
// has for short times.
func reached(time, timeConstant units.Quantity) units.Quantity {
	return units.Lanewise("1 − e^−x", units.Number(1), func(x []float64) float64 { return -math.Expm1(-x[0]) }, time.Div(timeConstant))
}

// left is e^(−time/timeConstant).
func left(time, timeConstant units.Quantity) units.Quantity {
	return units.Exp(time.Div(timeConstant).Neg())
}

// Impedance returns the transient thermal impedance of a Foster network: what
// a constant power has heated after a time, for each watt.
//
//	Zth = resistance₁ · (1 − e^(−time/τ₁)) + resistance₂ · (1 − e^(−time/τ₂)) + …
//	τ   = resistance · capacitance
//
// Arguments: network, of which each stage has a resistance, K/W, above zero
// and a time constant, s, or a capacitance, J/K, above zero; time, s, not below
// zero. Result: K/W. It is an error outside of that, and where the network
// misses its known point by more than 20 %.
//
//	Z, err := thermal.Impedance(thermal.Foster{Stages: []thermal.FosterStage{
//		{Resistance: 0.693K/W, TimeConstant: 1.222ms}, {Resistance: 0.621K/W, TimeConstant: 5.254ms}, {Resistance: 0.307K/W, TimeConstant: 38.14ms},
//	}}, 10ms)
//	// 1.292 K/W
//
// Holds from the junction to the point that the network is stated for, which
// must stay at its temperature meanwhile: the case for milliseconds, the air
// for good. Stages for the board cannot be put behind those of a data sheet:
// a Foster network has no points inside.
//
// Source: JEDEC JESD51-14 (Foster network), from memory; the sum is in many
// data sheets (IRGP4640D, January 2015, p. 8, which has the stages above).
//
// Caution: a sum of exponentials is good only down to its shortest time
// constant: below, the true impedance falls with the root of time, and the
// network shows too little.
func Impedance(network Foster, time units.Quantity) (units.Quantity, error) {
	const function = "thermal.Impedance"
	stages, err := network.check(function)
	if err != nil {
		return none, err
	}
	if err := argument.First(function, argument.Time.NotNegative("time", time)); err != nil {
		return none, err
	}
	return impedanceOf(stages, time), nil
}
