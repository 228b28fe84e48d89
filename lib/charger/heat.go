package charger

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// HeatInputs are the arguments of Heat.
type HeatInputs struct {
	Input      units.Quantity // voltage, V
	Battery    units.Quantity // voltage, V; all that a charge goes through as a Range
	Current    units.Quantity // that is set, A
	Ambient    units.Quantity // air at the part, °C
	Resistance units.Quantity // junction to air, K/W
	Regulation units.Quantity // junction temperature that the charger holds, °C
}

// HeatResult is what Heat finds.
type HeatResult struct {
	Loss     units.Quantity // W, at Charging
	Allowed  units.Quantity // current that this air allows, A
	Charging units.Quantity // current that flows, A
	Share    units.Quantity // of the set current, no unit
	Junction units.Quantity // temperature, °C
	Margin   units.Quantity // of Allowed above the set current, A; below zero: the charger throttles
}

// Heat computes the dissipation of a linear charger and the current to which
// its thermal regulation holds it.
//
//	Allowed  = (regulation − ambient)/(resistance · (input − battery)), not below 0
//	Charging = the smaller of current and Allowed
//	Loss     = (input − battery) · Charging
//	Junction = ambient + Loss · resistance
//
// Arguments: see HeatInputs; voltages, current and resistance above zero, Input
// above Battery. It is an error outside of that. Too much heat is none: the
// charger throttles, Charging is less than is set, and Margin below zero.
//
//	h, err := charger.Heat(charger.HeatInputs{
//		Input: 5V, Battery: 3.75V, Current: 800mA, Ambient: 25°C, Resistance: 150K/W, Regulation: 120°C,
//	})
//	// h.Charging: 506.7 mA
//
// Holds in the steady state. Both regimes meet where Allowed is the set
// current. It is worst where the constant current begins: the battery is lowest.
//
// Source: definition of thermal resistance (JEDEC JESD51-1); thermal regulation
// as data sheets of linear chargers describe it.
//
// Caution: a throttled charge takes longer: hold its time against the timer.
func Heat(in HeatInputs) (HeatResult, error) {
	const function = "charger.Heat"
	if err := argument.First(function,
		argument.Voltage.Positive("Input", in.Input),
		argument.Voltage.Positive("Battery", in.Battery),
		argument.Current.Positive("Current", in.Current),
		argument.Temperature("Ambient", in.Ambient),
		argument.ThermalResistance.Positive("Resistance", in.Resistance),
		argument.Temperature("Regulation", in.Regulation),
	); err != nil {
		return HeatResult{}, err
	}
	if err := argument.First(function,
		argument.Above("Input", in.Input, "Battery", in.Battery, "raise the input: a linear charger cannot charge to more than it is fed with"),
	); err != nil {
		return HeatResult{}, err
	}
	drop := in.Input.Sub(in.Battery)
	room := in.Regulation.Sub(in.Ambient)
	allowed := units.Max(room.Div(in.Resistance.Mul(drop)), argument.Current.OrZero(none))
	charging := units.Min(in.Current, allowed)
	loss := drop.Mul(charging)
	junction := in.Ambient.Add(loss.Mul(in.Resistance))
	return HeatResult{
		Loss: loss, Allowed: allowed, Charging: charging, Share: charging.Div(in.Current), Junction: junction,
		Margin: allowed.Sub(in.Current),
	}, nil
}

// SwitchingInputs are the arguments of Switching.
type SwitchingInputs struct {
	Input      units.Quantity // voltage, V
	Battery    units.Quantity // voltage, V
	Current    units.Quantity // into the battery, A
	Efficiency units.Quantity // at this point, %
}

// SwitchingResult is what Switching finds.
type SwitchingResult struct {
	Power        units.Quantity // into the battery, W
	InputPower   units.Quantity // W
	InputCurrent units.Quantity // A
	Loss         units.Quantity // W
}

// Switching computes what a switching charger takes from its source.
//
//	Power        = battery · current
//	InputPower   = Power/efficiency
//	InputCurrent = InputPower/input
//	Loss         = InputPower − Power
//
// Arguments: see SwitchingInputs; all above zero, Efficiency not above 100 %.
// It is an error outside of that.
//
//	s, err := charger.Switching(charger.SwitchingInputs{Input: 12V, Battery: 4V, Current: 2A, Efficiency: 90%})
//	// s.InputCurrent: 740.7 mA; s.Loss: 888.9 mW
//
// Source: definition of efficiency.
//
// Caution: the input takes most when the battery is nearly full.
func Switching(in SwitchingInputs) (SwitchingResult, error) {
	const function = "charger.Switching"
	if err := argument.First(function,
		argument.Voltage.Positive("Input", in.Input),
		argument.Voltage.Positive("Battery", in.Battery),
		argument.Current.Positive("Current", in.Current),
		argument.Share.Positive("Efficiency", in.Efficiency),
		argument.AtMost("Efficiency", in.Efficiency, "all of the power", units.Number(1), "write it from 0 % to 100 %"),
	); err != nil {
		return SwitchingResult{}, err
	}
	power := in.Battery.Mul(in.Current)
	inputPower := power.Div(in.Efficiency)
	inputCurrent := inputPower.Div(in.Input)
	loss := inputPower.Sub(power)
	return SwitchingResult{Power: power, InputPower: inputPower, InputCurrent: inputCurrent, Loss: loss}, nil
}

// SharingInputs are the arguments of Sharing.
type SharingInputs struct {
	Limit   units.Quantity // current that the source gives at most, A; 0 A: it is unplugged
	Load    units.Quantity // current that the load wants, A
	Charge  units.Quantity // current that is set for the battery, A
	Battery units.Quantity // current that the battery gives at most, A; left out: none
}

// SharingResult is what Sharing finds.
type SharingResult struct {
	FromSource  units.Quantity // A
	Charging    units.Quantity // into the battery, A
	FromBattery units.Quantity // into the load, A
	Missing     units.Quantity // to the load, A; above zero: the rail breaks down
	Margin      units.Quantity // that source and battery could still give the load, A; below zero by Missing
}

// Sharing computes who gives what where source, load and battery meet at a
// dynamic power path: the load comes first, the battery gets what is left, and
// helps where the source is too weak.
//
//	Charging    = limit − load, not below 0 and not above charge
//	FromBattery = load − limit, not below 0 and not above battery
//	Missing     = load − limit − battery, not below 0
//	FromSource  = load + Charging, not above limit
//	Margin      = limit + battery − load
//
// Arguments: see SharingInputs; currents not below zero. It is an error outside
// of that. A source that is too weak is none: Missing says by how much the rail
// falls short, in each case by itself. Lower the load or raise the limit.
//
//	s, err := charger.Sharing(charger.SharingInputs{Limit: 500mA, Load: 350mA, Charge: 250mA, Battery: 1A})
//	// s.Charging: 150 mA
//
// Holds for a linear path, where all currents meet at one voltage. For a
// switching path write every current as power/voltage of the rail.
//
// Source: Kirchhoff's current law, with the priorities of data sheets of power
// path chargers.
//
// Caution: with the battery empty or absent, write 0 A for Battery: a load
// step above the limit then resets the system, which charges nothing.
func Sharing(in SharingInputs) (SharingResult, error) {
	const function = "charger.Sharing"
	zero := argument.Current.OrZero(none)
	most := argument.Current.OrZero(in.Battery)
	if err := argument.First(function,
		argument.Current.NotNegative("Limit", in.Limit),
		argument.Current.NotNegative("Load", in.Load),
		argument.Current.NotNegative("Charge", in.Charge),
		argument.Current.NotNegative("Battery", most),
	); err != nil {
		return SharingResult{}, err
	}
	spare := units.Max(in.Limit.Sub(in.Load), zero)
	needed := units.Max(in.Load.Sub(in.Limit), zero)
	charging := units.Min(spare, in.Charge)
	fromBattery := units.Min(needed, most)
	missing := units.Max(needed.Sub(most), zero)
	fromSource := units.Min(in.Limit, in.Load.Add(charging))
	margin := in.Limit.Add(most).Sub(in.Load)
	return SharingResult{FromSource: fromSource, Charging: charging, FromBattery: fromBattery, Missing: missing, Margin: margin}, nil
}
