package battery

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// HeadroomInputs are the arguments of Headroom.
type HeadroomInputs struct {
	OpenCircuit table.Table    // open-circuit voltage over state of charge, % and V, rising
	Resistance  units.Quantity // of the battery, Ω; or ResistanceBy
	// ResistanceBy is the resistance over temperature, °C and Ω; or Resistance.
	ResistanceBy table.Table
	Temperature  units.Quantity // of the battery, °C; with ResistanceBy
	Load         units.Quantity // largest current at the end, A; or Power
	Power        units.Quantity // largest power at the end, W, of a switching regulator's input; or Load
	Output       units.Quantity // of a regulator that follows, V; with Dropout; or LeastInput
	Dropout      units.Quantity // of the regulator at this load, V; or LeastInput
	LeastInput   units.Quantity // that the converter or load needs, V; or Output and Dropout
}

// HeadroomResult is what Headroom finds.
type HeadroomResult struct {
	Cutoff      units.Quantity // lowest voltage of the battery under load, V
	Current     units.Quantity // at the cut-off, A
	Resistance  units.Quantity // Ω
	Sag         units.Quantity // under the load, V
	OpenCircuit units.Quantity // at the cut-off, V
	Margin      units.Quantity // of the full battery above that, V; below zero: it cannot even start
	Left        units.Quantity // state of charge at the cut-off, no unit
	Usable      units.Quantity // share of the capacity from full to there, no unit
}

// Headroom computes how much of a battery's charge a regulator can use before
// its input is too low.
//
//	Cutoff      = output + dropout, or least input
//	Current     = load, or power/Cutoff
//	Sag         = Current · resistance
//	OpenCircuit = Cutoff + Sag
//	Left        = state of charge with that voltage, from the table
//	Usable      = full − Left
//
// Arguments: see HeadroomInputs; OpenCircuit rises from empty to full.
// Voltages, and the resistance, are above zero, Dropout and the load not below.
// It is an error outside of that. A battery that is too low even when full is
// none: Usable is 0 then, and Margin below zero by what is missing. Lower the
// dropout, the load or the resistance, or take more cells in series.
//
//	h, err := battery.Headroom(battery.HeadroomInputs{
//		OpenCircuit: curve, Resistance: 200mΩ, Load: 60mA, Output: 3.3V, Dropout: 150mV,
//	})
//
// Holds for a load that stays until the end; the resistance is the one at the
// length of the load, for pulses that of the pulse. Two regimes meet where the
// cut-off is at the lowest row of the table: below it all the charge is usable.
//
// Source: Kirchhoff's voltage law; open-circuit voltage and resistance as
// equivalent circuit of a cell (any textbook).
//
// Caution: never discharge a lithium cell below its own lowest voltage: the
// protection must cut off there, above the first row of the table. The
// resistance of a cell grows several times in the cold and doubles with age.
func Headroom(in HeadroomInputs) (HeadroomResult, error) {
	const function = "battery.Headroom"
	const both = "write either Load or Power"
	if err := argument.First(function, in.OpenCircuit.Expect("OpenCircuit", "%", "V")); err != nil {
		return HeadroomResult{}, err
	}
	resistance := in.Resistance
	if in.ResistanceBy.Given() {
		if err := argument.First(function,
			argument.Unset("Resistance", in.Resistance, "leave it out where ResistanceBy is given"),
			in.ResistanceBy.Expect("ResistanceBy", "°C", "Ω"),
			argument.Temperature("Temperature", in.Temperature),
		); err != nil {
			return HeadroomResult{}, err
		}
		var err error
		if resistance, err = in.ResistanceBy.At(in.Temperature); err != nil {
			return HeadroomResult{}, argument.First(function, err)
		}
	}
	cutoff := in.LeastInput
	if !argument.Given(cutoff) {
		if err := argument.First(function,
			argument.Voltage.Positive("Output", in.Output),
			argument.Voltage.NotNegative("Dropout", in.Dropout),
		); err != nil {
			return HeadroomResult{}, err
		}
		cutoff = in.Output.Add(in.Dropout)
	}
	if err := argument.First(function,
		argument.Resistance.Positive("Resistance", resistance),
		argument.Voltage.Positive("LeastInput", cutoff),
	); err != nil {
		return HeadroomResult{}, err
	}
	current := in.Load
	if argument.Given(in.Power) {
		if err := argument.First(function,
			argument.Unset("Load", in.Load, both),
			argument.Power.NotNegative("Power", in.Power),
		); err != nil {
			return HeadroomResult{}, err
		}
		current = in.Power.Div(cutoff)
	}
	if err := argument.First(function, argument.Current.NotNegative("Load", current)); err != nil {
		return HeadroomResult{}, err
	}
	charge, err := in.OpenCircuit.Inverse()
	if err != nil {
		return HeadroomResult{}, argument.First(function, err)
	}
	empty, full, fullVoltage, err := ends(in.OpenCircuit)
	if err != nil {
		return HeadroomResult{}, argument.First(function, err)
	}
	sag := current.Mul(resistance)
	openCircuit := cutoff.Add(sag)
	margin := fullVoltage.Sub(openCircuit)
	left, err := charge.Held().At(openCircuit)
	if err != nil {
		return HeadroomResult{}, argument.First(function, err)
	}
	one := units.Number(1)
	usable := full.Sub(left).Div(full.Sub(empty))
	return HeadroomResult{
		Cutoff: cutoff, Current: current, Resistance: resistance, Sag: sag,
		OpenCircuit: openCircuit, Margin: margin, Left: left.Mul(one), Usable: usable,
	}, nil
}

// ends are the first and the last state of charge of a curve, and the voltage
// of the last.
func ends(curve table.Table) (empty, full, voltage units.Quantity, err error) {
	empty, full, err = curve.Ends(curve.Columns()[0])
	if err != nil {
		return none, none, none, err
	}
	voltage, err = curve.At(full)
	if err != nil {
		return none, none, none, err
	}
	start, err := curve.At(empty)
	if err != nil {
		return none, none, none, err
	}
	return empty, full, voltage, argument.Above("the voltage of OpenCircuit at the highest state of charge", voltage, "that at the lowest", start, "write the state of charge, which is 100 % when full, and not the discharge")
}
