package solar

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// Panel finds the peak power of the panel that a load needs.
//
//	panel = energy/(sun · kept)
//
// Arguments: energy that the load takes in a day, Wh; sun, peak sun hours a
// day in the worst month, s, at most 24 h: the day's irradiation over 1 kW/m²;
// kept, the share of the panel's energy that comes to the load, %: dirt, heat,
// charger, battery and wire. All above zero, kept not above 100 %. It is an
// error outside of that.
//
//	P, err := solar.Panel(1000Wh, 5h, 70%)
//	// 285.7 W
//
// Source: peak power by energy, sun hours and a factor for the whole system:
// https://www.simplisolar.org/education/ has it in the same form.
//
// Caution: the worst month counts, not the mean of the year. A panel tied
// straight to a battery without tracking of the maximum power keeps less.
func Panel(energy, sun, kept units.Quantity) (units.Quantity, error) {
	const function = "solar.Panel"
	if err := argument.First(function,
		argument.BatteryEnergy.Positive("energy", energy),
		argument.Time.Positive("sun", sun),
		argument.AtMost("sun", sun, "the whole day", units.MustParse("24 h"), "write peak sun hours of one day"),
		argument.Share.Positive("kept", kept),
		argument.AtMost("kept", kept, "all of it", units.Number(1), "write the share that comes to the load"),
	); err != nil {
		return none, err
	}
	return units.In(energy.Div(sun.Mul(kept)), "W"), nil
}

// BatteryInputs are the arguments of Battery.
type BatteryInputs struct {
	Daily   units.Quantity // energy that the load takes in a day, Wh
	Days    units.Quantity // without sun, a number
	Depth   units.Quantity // share of the capacity that may be taken, %
	Kept    units.Quantity // share of the energy that comes to the load, %; left out: all of it
	Cold    units.Quantity // share of the capacity that is there in the cold, %; left out: all of it
	Voltage units.Quantity // nominal, V
}

// BatteryResult is what Battery finds.
type BatteryResult struct {
	Taken    units.Quantity // from the battery in that time, Wh
	Energy   units.Quantity // rated, Wh
	Capacity units.Quantity // rated, Ah
}

// Battery finds the battery that carries a load through days without sun.
//
//	Taken    = daily · days/kept
//	Energy   = Taken/(depth · cold)
//	Capacity = Energy/voltage
//
// Arguments: see BatteryInputs; all above zero, the shares not above 100 %. It
// is an error outside of that.
//
//	b, err := solar.Battery(solar.BatteryInputs{Daily: 1000Wh, Days: 3, Depth: 50%, Kept: 95%, Voltage: 12V})
//	// b.Capacity: 526.3 Ah
//
// Source: IEEE Std 1013, days of autonomy, depth of discharge and temperature,
// from memory; https://www.simplisolar.org/education/ has it in the same form.
//
// Caution: the capacity of lead-acid is that at the rate of the load, mostly
// slower than 20 h. A discharged lead-acid battery freezes.
func Battery(in BatteryInputs) (BatteryResult, error) {
	const function = "solar.Battery"
	one := units.Number(1)
	kept, cold := in.Kept, in.Cold
	if !argument.Given(kept) {
		kept = one
	}
	if !argument.Given(cold) {
		cold = one
	}
	if err := argument.First(function,
		argument.BatteryEnergy.Positive("Daily", in.Daily),
		argument.Share.Positive("Days", in.Days),
		argument.Share.Positive("Depth", in.Depth),
		argument.AtMost("Depth", in.Depth, "all of it", one, "write the share that may be taken"),
		argument.Share.Positive("Kept", kept),
		argument.AtMost("Kept", kept, "all of it", one, "write the share that comes to the load"),
		argument.Share.Positive("Cold", cold),
		argument.AtMost("Cold", cold, "all of it", one, "write the share that is there in the cold"),
		argument.Voltage.Positive("Voltage", in.Voltage),
	); err != nil {
		return BatteryResult{}, err
	}
	taken := in.Daily.Mul(in.Days).Div(kept)
	energy := taken.Div(in.Depth.Mul(cold))
	capacity := energy.Div(in.Voltage)
	return BatteryResult{Taken: units.In(taken, "Wh"), Energy: units.In(energy, "Wh"), Capacity: units.In(capacity, "Ah")}, nil
}
