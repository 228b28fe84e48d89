package protect

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// Suppressor is a clamp for transients as its data sheet gives it: a
// suppressor diode, or a varistor near its figures.
type Suppressor struct {
	StandOff    units.Quantity // voltage up to which it does nothing, V
	Breakdown   units.Quantity // at the test current and 25 °C, with its limits, V
	Clamping    units.Quantity // at PeakCurrent, largest, V
	PeakCurrent units.Quantity // rated pulse current, A
	Tempco      units.Quantity // of Breakdown, 1/K; left out: none
	Temperature units.Quantity // of the part before the pulse, °C; left out: 25 °C
}

// check is for the functions that take a Suppressor.
func (s Suppressor) check() error {
	if err := argument.First("Suppressor",
		argument.Voltage.Positive("StandOff", s.StandOff),
		argument.Voltage.Positive("Breakdown", s.Breakdown),
		argument.Voltage.Positive("Clamping", s.Clamping),
		argument.Current.Positive("PeakCurrent", s.PeakCurrent),
		argument.Tempco.Signed("Tempco", argument.Tempco.OrZero(s.Tempco)),
		argument.Temperature("Temperature", orElse(s.Temperature, units.MustParse("25 °C"))),
	); err != nil {
		return err
	}
	return argument.First("Suppressor",
		argument.AtLeast("Breakdown", s.Breakdown, "StandOff", s.StandOff, "take both from one row of the data sheet"),
		argument.Above("Clamping", s.Clamping, "Breakdown", s.Breakdown, "Clamping is the largest voltage at PeakCurrent; take both from one row of the data sheet"),
		argument.Above("the breakdown at Temperature", breakdownOf(s), "zero", s.StandOff.Sub(s.StandOff), "write Tempco per kelvin, such as 0.1 %/K"),
		argument.Above("Clamping", s.Clamping, "the breakdown at Temperature", breakdownOf(s), "lower Temperature, or check Tempco"),
	)
}

// breakdownOf is the voltage at which it begins to conduct, at its temperature.
func breakdownOf(s Suppressor) units.Quantity {
	return s.Breakdown.Mul(units.Number(1).Add(argument.Tempco.OrZero(s.Tempco).Mul(orElse(s.Temperature, units.MustParse("25 °C")).Sub(units.MustParse("25 °C")))))
}

// resistanceOf is the slope from the breakdown to Clamping.
func resistanceOf(s Suppressor) units.Quantity {
	return s.Clamping.Sub(s.Breakdown).Div(s.PeakCurrent)
}

// ClampInputs are the arguments of Clamp.
type ClampInputs struct {
	Suppressor Suppressor
	Working    units.Quantity // highest voltage in operation, V
	Current    units.Quantity // of the pulse, A
	Limit      units.Quantity // highest voltage that the protected part survives, V
}

// ClampResult is what Clamp finds.
type ClampResult struct {
	WorkingMargin     units.Quantity // of StandOff above Working, V
	Breakdown         units.Quantity // at Temperature, V
	DynamicResistance units.Quantity // Ω
	Voltage           units.Quantity // at Current, V
	Margin            units.Quantity // of Limit above Voltage, V; below zero: too much comes through
	LargestCurrent    units.Quantity // with which Voltage is Limit, A
	Power             units.Quantity // in the clamp at Current, W
}

// Clamp computes the voltage that a clamp lets through at a current, and
// holds it against what works before it and what it protects.
//
//	WorkingMargin     = stand-off − working
//	Breakdown         = breakdown · (1 + tempco · (temperature − 25 °C))
//	DynamicResistance = (clamping − breakdown)/peak current
//	Voltage           = Breakdown + DynamicResistance · current
//	Margin            = limit − Voltage
//	LargestCurrent    = (limit − Breakdown)/DynamicResistance
//	Power             = Voltage · current
//
// Arguments: see ClampInputs; Working, V, and Limit, V, above zero, Current, A,
// not below zero. It is an error outside of that, and where Working is above
// StandOff (the clamp conducts in operation) or Limit not above Breakdown (it
// protects nothing). A Voltage above Limit is none: Margin is below zero.
//
//	c, err := protect.Clamp(protect.ClampInputs{
//		Suppressor: protect.Suppressor{StandOff: 33V, Breakdown: Band(36.7V, 38.6V, 40.6V), Clamping: 53.3V, PeakCurrent: 11.3A},
//		Working: 32V, Current: 5A, Limit: 60V,
//	})
//
// Holds between zero and PeakCurrent; for shorter pulses than that of
// PeakCurrent the line goes on to larger currents, somewhat steeper than the
// part is. Every part is taken to clamp at the largest Clamping, wherever
// its Breakdown lies: a part of low breakdown thus gets more resistance.
//
// Source: line between breakdown and clamping voltage, as in application
// notes of makers of suppressor diodes.
//
// Caution: Limit is an absolute maximum rating, which knows no short excess
// unless the data sheet says so. The leads and traces to the clamp add their
// inductance times the slope of the current; lead them past it, not to it.
// Breakdown rises with temperature, StandOff falls in the cold.
func Clamp(in ClampInputs) (ClampResult, error) {
	const function = "protect.Clamp"
	if err := argument.First(function,
		in.Suppressor.check(),
		argument.Voltage.Positive("Working", in.Working),
		argument.Current.NotNegative("Current", in.Current),
		argument.Voltage.Positive("Limit", in.Limit),
	); err != nil {
		return ClampResult{}, err
	}
	if err := in.Suppressor.fits(function, in.Working, in.Limit); err != nil {
		return ClampResult{}, err
	}
	workingMargin := in.Suppressor.StandOff.Sub(in.Working)
	breakdown := breakdownOf(in.Suppressor)
	dynamicResistance := resistanceOf(in.Suppressor)
	voltage := breakdown.Add(dynamicResistance.Mul(in.Current))
	margin := in.Limit.Sub(voltage)
	largestCurrent := in.Limit.Sub(breakdown).Div(dynamicResistance)
	power := voltage.Mul(in.Current)
	return ClampResult{
		WorkingMargin:     workingMargin,
		Breakdown:         breakdown,
		DynamicResistance: dynamicResistance,
		Voltage:           voltage,
		Margin:            margin,
		LargestCurrent:    largestCurrent,
		Power:             power,
	}, nil
}

// fits checks that the clamp leaves operation alone and can protect at all.
func (s Suppressor) fits(function string, working, limit units.Quantity) error {
	return argument.First(function,
		atMost("Working", working, "the clamp's StandOff", s.StandOff, "it would conduct in operation; choose a clamp with a higher StandOff"),
		atLeast("Limit", limit, "the clamp's StandOff", s.StandOff, "the protected part is gone before the clamp begins; choose a lower StandOff or a part that survives more"),
		argument.Above("Limit", limit, "the clamp's breakdown at Temperature", breakdownOf(s), "the protected part is gone before the clamp conducts; choose a lower Breakdown or a part that survives more"),
	)
}
