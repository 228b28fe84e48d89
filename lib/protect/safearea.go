package protect

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// SafeAreaInputs are the arguments of SafeArea.
type SafeAreaInputs struct {
	Area    table.Table    // safe operating area: from a time in s and a voltage in V to a current in A, at 25 °C
	Voltage units.Quantity // across the transistor, V
	Current units.Quantity // through it, A
	Time    units.Quantity // for which both last, s: SlopeInrush's PulseTime
	Case    units.Quantity // temperature before the pulse, °C; left out: 25 °C
	Zero    units.Quantity // highest of the junction, °C; left out: 150 °C
}

// SafeAreaResult is what SafeArea finds.
type SafeAreaResult struct {
	AtRoom           units.Quantity // current that the table allows, A
	TemperatureShare units.Quantity // left at Case, no unit
	Allowed          units.Quantity // current, A
	Margin           units.Quantity // of Allowed above Current, A; below zero: the transistor dies
	Used             units.Quantity // Current as a share of Allowed, no unit
}

// SafeArea holds voltage, current and time of a pulse against the safe
// operating area of a transistor.
//
//	AtRoom           = area at time and voltage
//	TemperatureShare = (zero − case)/(zero − 25 °C), not above 1
//	Allowed          = AtRoom · TemperatureShare
//	Margin           = Allowed − current
//	Used             = current/Allowed
//
// Arguments: see SafeAreaInputs; Voltage, Current and Time above zero, Zero
// above 25 °C and above Case. It is an error outside of that and of the
// table. A Current above Allowed is none: Margin is below zero.
//
//	soa, err := table.Text("time [s] log, drain voltage [V] log, current [A] log\n0.001, 10, 30\n0.001, 60, 2\n0.01, 10, 9\n0.01, 60, 0.5")
//	a, err := protect.SafeArea(protect.SafeAreaInputs{Area: soa, Voltage: 24V, Current: 2.4A, Time: 6ms, Case: 60°C})
//
// Holds for a rectangular pulse. The lines of a data sheet are straight on
// logarithmic axes: write log into the headings of all three columns.
//
// Source: derating by the temperature that is left below the highest, common
// practice (Texas Instruments SLVA673, Robust Hot Swap Design, from memory).
//
// Caution: the area of a data sheet is mostly typical, and for a case held at
// 25 °C: leave 30 % and more. At high voltages it falls faster than constant
// power (hot spots); never go beyond its lines.
func SafeArea(in SafeAreaInputs) (SafeAreaResult, error) {
	const function = "protect.SafeArea"
	before, zero, room := orElse(in.Case, units.MustParse("25 °C")), orElse(in.Zero, units.MustParse("150 °C")), units.MustParse("25 °C")
	if err := argument.First(function,
		in.Area.Expect("Area", "s", "V", "A"),
		argument.Voltage.Positive("Voltage", in.Voltage),
		argument.Current.Positive("Current", in.Current),
		argument.Time.Positive("Time", in.Time),
		argument.Temperature("Case", before),
		argument.Temperature("Zero", zero),
	); err != nil {
		return SafeAreaResult{}, err
	}
	if err := argument.First(function,
		argument.Above("Zero", zero, "the temperature of the table", room, "take the highest junction temperature of the data sheet"),
		argument.Above("Zero", zero, "Case", before, "nothing is left for a pulse; lower Case"),
	); err != nil {
		return SafeAreaResult{}, err
	}
	atRoom, err := in.Area.At(in.Time, in.Voltage)
	if err := argument.First(function, err); err != nil {
		return SafeAreaResult{}, err
	}
	if err := argument.First(function, argument.Current.Positive("the current that Area gives", atRoom)); err != nil {
		return SafeAreaResult{}, err
	}
	line := zero.Sub(before).Div(zero.Sub(room))
	temperatureShare := units.Min(line, units.Number(1))
	allowed := atRoom.Mul(temperatureShare)
	margin := allowed.Sub(in.Current)
	used := in.Current.Div(allowed)
	return SafeAreaResult{AtRoom: atRoom, TemperatureShare: temperatureShare, Allowed: allowed, Margin: margin, Used: used}, nil
}
