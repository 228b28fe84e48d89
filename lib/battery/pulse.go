package battery

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// PulseInputs are the arguments of Pulse.
type PulseInputs struct {
	OpenCircuit  units.Quantity // voltage of the battery at rest, V
	Resistance   units.Quantity // of the battery at the length of the pulse, Ω
	Current      units.Quantity // of the pulse, A
	LeastVoltage units.Quantity // that the load needs, V
	Capacitance  units.Quantity // across the battery, F; left out: none
	ESR          units.Quantity // of the capacitor, Ω; left out: none
	Duration     units.Quantity // of a pulse, s; with Capacitance
	Period       units.Quantity // from pulse to pulse, s; left out: a single pulse
}

// PulseResult is what Pulse finds.
type PulseResult struct {
	Alone          units.Quantity // drop without a capacitor, V
	Step           units.Quantity // drop at the start of the first pulse, V
	Drop           units.Quantity // at the end of a pulse, V
	Voltage        units.Quantity // at the end of a pulse, V
	Margin         units.Quantity // above LeastVoltage, V; below zero: the load fails
	LargestCurrent units.Quantity // with which Margin is zero, A
}

// Pulse computes the voltage of a battery at the end of current pulses, alone
// or with a capacitor across it.
//
//	Alone       = current · resistance
//	constant    = (resistance + ESR) · capacitance, s
//	fall        = 1 − e^(−duration/constant)
//	whole       = 1 − e^(−period/constant), 1 for a single pulse
//	sag         = Alone · fall/whole, of the capacitor
//	Step        = Alone · ESR/(resistance + ESR)
//	Drop        = (sag · resistance + Alone · ESR)/(resistance + ESR)
//	Voltage     = open circuit − Drop
//
// Arguments: see PulseInputs; OpenCircuit, Resistance, Current and LeastVoltage
// above zero, ESR not below; Duration above zero, and Period above it. It is an
// error outside of that. Too low a voltage is none: Margin is below zero by
// what is missing.
//
//	p, err := battery.Pulse(battery.PulseInputs{OpenCircuit: 3V, Resistance: 20Ω, Current: 60mA, LeastVoltage: 1.8V})
//	// p.Voltage: 1.8 V
//
// Holds for a battery that is a voltage behind one resistance, after many equal
// pulses. Without a capacitor both regimes agree: the drop with one goes to
// Alone as the pulse gets long.
//
// Source: Kirchhoff's laws; charge of a capacitor through a resistance.
//
// Caution: a lithium primary that lay for years answers its first pulse with a
// much deeper dip (passivation): take the resistance of an old, cold cell. A
// capacitor that leaks more than the load sleeps empties the battery.
func Pulse(in PulseInputs) (PulseResult, error) {
	const function = "battery.Pulse"
	if err := argument.First(function,
		argument.Voltage.Positive("OpenCircuit", in.OpenCircuit),
		argument.Resistance.Positive("Resistance", in.Resistance),
		argument.Current.Positive("Current", in.Current),
		argument.Voltage.Positive("LeastVoltage", in.LeastVoltage),
		argument.Capacitance.Optional("Capacitance", in.Capacitance),
		argument.Resistance.NotNegative("ESR", argument.Resistance.OrZero(in.ESR)),
		argument.Time.Optional("Period", in.Period),
	); err != nil {
		return PulseResult{}, err
	}
	current, resistance := in.Current, in.Resistance
	alone := current.Mul(resistance)
	step, drop := alone, alone
	if argument.Given(in.Capacitance) {
		if err := argument.First(function, argument.Time.Positive("Duration", in.Duration)); err != nil {
			return PulseResult{}, err
		}
		esr := argument.Resistance.OrZero(in.ESR)
		total := resistance.Add(esr)
		constant := total.Mul(in.Capacitance)
		fall := shortFall(in.Duration.Div(constant))
		// What all of a period would let the capacitor fall: all the way for a
		// single pulse.
		whole := units.Number(1)
		if argument.Given(in.Period) {
			if err := argument.First(function, argument.Above("Period", in.Period, "Duration", in.Duration, "write the time from the start of a pulse to that of the next")); err != nil {
				return PulseResult{}, err
			}
			whole = shortFall(in.Period.Div(constant))
		}
		sag := alone.Mul(fall).Div(whole)
		step = alone.Mul(esr).Div(total)
		drop = sag.Mul(resistance).Add(alone.Mul(esr)).Div(total)
	}
	voltage := in.OpenCircuit.Sub(drop)
	margin := voltage.Sub(in.LeastVoltage)
	room := units.Max(in.OpenCircuit.Sub(in.LeastVoltage), argument.Voltage.OrZero(none))
	largestCurrent := current.Mul(room.Div(drop))
	return PulseResult{Alone: alone, Step: step, Drop: drop, Voltage: voltage, Margin: margin, LargestCurrent: largestCurrent}, nil
}

// shortFall is 1 − e^(−x), without the rounding of 1 − 1 for a large capacitor.
func shortFall(x units.Quantity) units.Quantity { return x.Mul(fadeOver(x)) }

// CellInputs are one cell of a Pack.
type CellInputs struct {
	Voltage    units.Quantity // nominal, V
	Capacity   units.Quantity // Ah
	Resistance units.Quantity // Ω
}

// PackResult is what Pack finds.
type PackResult struct {
	Voltage      units.Quantity // nominal, V
	Capacity     units.Quantity // Ah
	Energy       units.Quantity // Wh
	Resistance   units.Quantity // Ω
	ShortCircuit units.Quantity // current into a short circuit at the terminals, A
	ShortPower   units.Quantity // that becomes heat inside meanwhile, W
}

// Pack computes what equal cells in series and parallel are together.
//
//	Voltage      = series · cell voltage
//	Capacity     = parallel · cell capacity
//	Energy       = Voltage · Capacity
//	Resistance   = cell resistance · series/parallel
//	ShortCircuit = Voltage/Resistance
//	ShortPower   = Voltage · ShortCircuit
//
// Arguments: cell, all above zero; series and parallel, from 1 to 1000. It is
// an error outside of that.
//
//	p, err := battery.Pack(battery.CellInputs{Voltage: 3.6V, Capacity: 2.5Ah, Resistance: 40mΩ}, 3, 2)
//	// p.Energy: 54 Wh; p.ShortCircuit: 180 A
//
// Holds for equal cells. The weakest cell in series ends the discharge: of
// cells with a tolerance count the least.
//
// Source: Kirchhoff's laws.
//
// Caution: the short-circuit current is what the fuse at the battery must
// break, and what welds a tool. Lithium cells in series need a protection that
// watches each of them; cells in parallel feed a shorted one. Use certified
// packs; transport above 100 Wh has rules of its own (UN 38.3 and ICAO, from memory).
func Pack(cell CellInputs, series, parallel int) (PackResult, error) {
	const function = "battery.Pack"
	if err := argument.First(function,
		argument.Voltage.Positive("Voltage", cell.Voltage),
		argument.Capacity.Positive("Capacity", cell.Capacity),
		argument.Resistance.Positive("Resistance", cell.Resistance),
		argument.Count("series", series, 1, 1000, "write how many cells follow each other"),
		argument.Count("parallel", parallel, 1, 1000, "write how many strings are side by side"),
	); err != nil {
		return PackResult{}, err
	}
	inSeries, inParallel := units.Number(float64(series)), units.Number(float64(parallel))
	voltage := cell.Voltage.Mul(inSeries)
	capacity := cell.Capacity.Mul(inParallel)
	energy := voltage.Mul(capacity)
	resistance := cell.Resistance.Mul(inSeries).Div(inParallel)
	shortCircuit := voltage.Div(resistance)
	shortPower := voltage.Mul(shortCircuit)
	return PackResult{
		Voltage: voltage, Capacity: capacity, Energy: units.In(energy, "Wh"), Resistance: resistance,
		ShortCircuit: shortCircuit, ShortPower: shortPower,
	}, nil
}
