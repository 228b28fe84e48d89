package protect

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// TrippedInputs are the arguments of Tripped.
type TrippedInputs struct {
	Supply      units.Quantity // V
	Load        units.Quantity // resistance behind the fuse, the fault or the load, Ω; zero: a short circuit
	Power       units.Quantity // of the tripped fuse at Reference, W
	Reference   units.Quantity // ambient for which Power is given, °C; left out: 23 °C
	Ambient     units.Quantity // °C
	Temperature units.Quantity // at which the material trips, °C; left out: 125 °C
}

// TrippedResult is what Tripped finds.
type TrippedResult struct {
	Cooling    units.Quantity // power that the tripped fuse gives off at Ambient, and takes, W
	LeastLoad  units.Quantity // resistance above which it resets by itself, Ω
	Margin     units.Quantity // of LeastLoad above Load, Ω; below zero: it resets
	Current    units.Quantity // that goes on flowing, A
	Voltage    units.Quantity // across the fuse, V
	Resistance units.Quantity // of the tripped fuse, Ω
	LoadPower  units.Quantity // in what lies behind, W
}

// Tripped computes the state in which a tripped resettable fuse stays: it
// takes as much power as it gives off, whatever the voltage.
//
//	Cooling    = power · (temperature − ambient)/(temperature − reference)
//	LeastLoad  = supply²/(4 · Cooling)
//	Margin     = LeastLoad − load
//	Current    = 2 · Cooling/(supply + √(supply² − 4 · load · Cooling))
//	Voltage    = supply − load · Current
//	Resistance = Voltage/Current
//	LoadPower  = load · Current²
//
// Where load is above LeastLoad the fuse cannot take Cooling any more and
// resets by itself; Current is then that of the boundary.
//
// Arguments: see TrippedInputs; Supply, V, and Power, W, above zero, Load, Ω,
// not below zero, Temperature above Ambient and Reference. It is an error
// outside of that.
//
//	t, err := protect.Tripped(protect.TrippedInputs{Supply: 24V, Load: 1Ω, Power: 1.2W, Ambient: 40°C})
//	// t.Current: 41.75 mA
//
// Holds once the fuse has settled; the law of cooling is taken as linear.
//
// Source: balance of power; the condition for the reset as in application
// notes of makers of polymer fuses, supply²/(4 · load) < power, from memory.
//
// Caution: the surface of a tripped fuse is as hot as Temperature; keep what
// melts or burns, and fingers, away. A small load that stays connected holds it
// tripped: the user must switch off before it resets. It is no disconnection:
// Current goes on flowing.
func Tripped(in TrippedInputs) (TrippedResult, error) {
	const function = "protect.Tripped"
	reference, temperature := orElse(in.Reference, units.MustParse("23 °C")), orElse(in.Temperature, units.MustParse("125 °C"))
	if err := argument.First(function,
		argument.Voltage.Positive("Supply", in.Supply),
		argument.Resistance.NotNegative("Load", in.Load),
		argument.Power.Positive("Power", in.Power),
		argument.Temperature("Reference", reference),
		argument.Temperature("Ambient", in.Ambient),
		argument.Temperature("Temperature", temperature),
	); err != nil {
		return TrippedResult{}, err
	}
	if err := argument.First(function,
		argument.Above("Temperature", temperature, "Reference", reference, "write the ambient for which the data sheet gives Power as Reference"),
		argument.Above("Temperature", temperature, "Ambient", in.Ambient, "in air that hot the fuse is tripped without any current; lower Ambient"),
	); err != nil {
		return TrippedResult{}, err
	}
	four := units.Number(4)
	cooling := in.Power.Mul(temperature.Sub(in.Ambient)).Div(temperature.Sub(reference))
	leastLoad := in.Supply.Mul(in.Supply).Div(four.Mul(cooling))
	margin := leastLoad.Sub(in.Load)
	// Above LeastLoad there is no balance: the current is held at its boundary.
	load := units.Min(in.Load, leastLoad)
	square := in.Supply.Mul(in.Supply).Sub(four.Mul(load).Mul(cooling))
	root := units.Sqrt(units.Max(square, square.Sub(square)))
	current := units.Number(2).Mul(cooling).Div(in.Supply.Add(root))
	voltage := in.Supply.Sub(load.Mul(current))
	resistance := voltage.Div(current)
	loadPower := load.Mul(current).Mul(current)
	return TrippedResult{
		Cooling:    cooling,
		LeastLoad:  leastLoad,
		Margin:     margin,
		Current:    current,
		Voltage:    voltage,
		Resistance: resistance,
		LoadPower:  loadPower,
	}, nil
}
