package protect

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// DischargeInputs are the arguments of Discharge.
type DischargeInputs struct {
	Level             units.Quantity // contact discharge, V
	Breakdown         units.Quantity // of the clamp, V
	DynamicResistance units.Quantity // of the clamp, from its curve with pulses of 100 ns, Ω
	Inductance        units.Quantity // in the way through the clamp to ground, H; left out: none
	Limit             units.Quantity // highest voltage that the protected part survives, V
}

// DischargeResult is what Discharge finds.
type DischargeResult struct {
	FirstPeak      units.Quantity // of the current, within the first nanosecond, A
	At30           units.Quantity // current after 30 ns, A
	At60           units.Quantity // current after 60 ns, A
	InductiveStep  units.Quantity // across Inductance while the current rises, V
	FirstVoltage   units.Quantity // at the first peak, for about a nanosecond, V
	Voltage30      units.Quantity // after 30 ns, V
	Voltage60      units.Quantity // after 60 ns, V
	Margin         units.Quantity // of Limit above Voltage30, V; below zero: too much comes through
	Charge         units.Quantity // of the generator, C
	Energy         units.Quantity // of the generator, J
	MostInductance units.Quantity // with which InductiveStep is as much as Breakdown, H
}

// Discharge computes what an electrostatic discharge of IEC 61000-4-2 leaves
// behind a clamp.
//
//	FirstPeak      = 3.75 A/kV · level
//	At30           = 2 A/kV · level
//	At60           = 1 A/kV · level
//	InductiveStep  = inductance · 0.8 · FirstPeak/0.8 ns
//	FirstVoltage   = breakdown + dynamic resistance · FirstPeak + InductiveStep
//	Voltage30      = breakdown + dynamic resistance · At30
//	Voltage60      = breakdown + dynamic resistance · At60
//	Margin         = limit − Voltage30
//	Charge         = 150 pF · level
//	Energy         = 150 pF · level²/2
//	MostInductance = breakdown · 0.8 ns/(0.8 · FirstPeak)
//
// Arguments: see DischargeInputs; Level and Breakdown, V, and
// DynamicResistance, Ω, above zero, Inductance, H, not below, Limit above
// zero. It is an error outside of that, and where Limit is not above
// Breakdown.
//
//	d, err := protect.Discharge(protect.DischargeInputs{Level: 8kV, Breakdown: 6V, DynamicResistance: 0.5Ω, Inductance: 1nH, Limit: 20V})
//	// d.FirstPeak: 30 A; d.Voltage30: 14 V
//
// Holds for contact discharge; the rise from 10 % to 90 % of the first peak
// takes 0.8 ns. A limit of the part for 100 ns is held against Voltage30; the
// first peak is over before most junctions heat.
//
// Source: IEC 61000-4-2:2008, table 3, from memory: 3.75 A/kV within 15 %, 2
// and 1 A/kV within 30 %, 150 pF, 330 Ω, 0.8 ns within 25 %. The first
// edition has 0.7 ns to 1 ns.
//
// Caution: a nanohenry is a millimetre of trace: the way from the connector
// to the clamp and from there to ground counts, not that to the part. A
// clamp's dynamic resistance from 8/20 µs pulses is not that of a discharge.
func Discharge(in DischargeInputs) (DischargeResult, error) {
	const function = "protect.Discharge"
	inductance := argument.Inductance.OrZero(in.Inductance)
	if err := argument.First(function,
		argument.Voltage.Positive("Level", in.Level),
		argument.Voltage.Positive("Breakdown", in.Breakdown),
		argument.Resistance.Positive("DynamicResistance", in.DynamicResistance),
		argument.Inductance.NotNegative("Inductance", inductance),
		argument.Voltage.Positive("Limit", in.Limit),
	); err != nil {
		return DischargeResult{}, err
	}
	if err := argument.First(function,
		argument.Above("Limit", in.Limit, "Breakdown", in.Breakdown, "the protected part is gone before the clamp conducts; choose a lower Breakdown or a part that survives more"),
	); err != nil {
		return DischargeResult{}, err
	}
	perVolt := units.MustParse("1 A/kV")
	firstPeak := units.Number(3.75).Mul(perVolt).Mul(in.Level)
	at30 := units.Number(2).Mul(perVolt).Mul(in.Level)
	at60 := perVolt.Mul(in.Level)
	slope := firstPeak.Mul(units.Number(0.8)).Div(units.MustParse("0.8 ns"))
	inductiveStep := inductance.Mul(slope)
	firstVoltage := in.Breakdown.Add(in.DynamicResistance.Mul(firstPeak)).Add(inductiveStep)
	voltage30 := in.Breakdown.Add(in.DynamicResistance.Mul(at30))
	voltage60 := in.Breakdown.Add(in.DynamicResistance.Mul(at60))
	margin := in.Limit.Sub(voltage30)
	body := units.MustParse("150 pF")
	charge := body.Mul(in.Level)
	energy := charge.Mul(in.Level).Div(units.Number(2))
	mostInductance := in.Breakdown.Div(slope)
	return DischargeResult{
		FirstPeak:      firstPeak,
		At30:           at30,
		At60:           at60,
		InductiveStep:  inductiveStep,
		FirstVoltage:   firstVoltage,
		Voltage30:      voltage30,
		Voltage60:      voltage60,
		Margin:         margin,
		Charge:         charge,
		Energy:         energy,
		MostInductance: mostInductance,
	}, nil
}

// DischargeCapacitorResult is what DischargeIntoCapacitor finds.
type DischargeCapacitorResult struct {
	Voltage units.Quantity // at the capacitor after the discharge, V
	Margin  units.Quantity // of the limit above Voltage, V; below zero: too much comes through
	Least   units.Quantity // capacitance with which Voltage is the limit, F
}

// DischargeIntoCapacitor computes the voltage to which an electrostatic
// discharge of IEC 61000-4-2 charges a capacitor at a terminal.
//
//	Voltage = level · 150 pF/(150 pF + capacitance)
//	Margin  = limit − Voltage
//	Least   = 150 pF · (level/limit − 1)
//
// Arguments: level, V, capacitance, at Voltage with its bias, F, and limit, V,
// all above zero; level above limit. It is an error outside of that. A Voltage
// above the limit is none: Margin is below zero.
//
//	d, err := protect.DischargeIntoCapacitor(8kV, 100nF, 50V)   // d.Voltage: 11.98 V
//
// Holds for a capacitor that is empty before, of little inductance.
//
// Source: charge of the generator's 150 pF shared between two capacitors.
//
// Caution: a class 2 ceramic capacitor loses most of its capacitance above its
// rated voltage, and a discharge repeats: without a resistor across it the
// charges add.
func DischargeIntoCapacitor(level, capacitance, limit units.Quantity) (DischargeCapacitorResult, error) {
	const function = "protect.DischargeIntoCapacitor"
	if err := argument.First(function,
		argument.Voltage.Positive("level", level),
		argument.Capacitance.Positive("capacitance", capacitance),
		argument.Voltage.Positive("limit", limit),
	); err != nil {
		return DischargeCapacitorResult{}, err
	}
	if err := argument.First(function,
		argument.Above("level", level, "limit", limit, "a part that survives the level needs no capacitor"),
	); err != nil {
		return DischargeCapacitorResult{}, err
	}
	body := units.MustParse("150 pF")
	voltage := level.Mul(body).Div(body.Add(capacitance))
	margin := limit.Sub(voltage)
	least := body.Mul(level.Div(limit).Sub(units.Number(1)))
	return DischargeCapacitorResult{Voltage: voltage, Margin: margin, Least: least}, nil
}
