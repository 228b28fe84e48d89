package protect

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// ResettableInputs are the arguments of Resettable.
type ResettableInputs struct {
	Hold           table.Table    // current that it carries without tripping, from °C to A
	Trip           table.Table    // current at which it trips for certain, from °C to A; left out: twice Hold
	Ambient        units.Quantity // around the fuse, °C
	Load           units.Quantity // largest lasting current, A
	Supply         units.Quantity // highest voltage, V
	Voltage        units.Quantity // highest that it survives when tripped, V
	Fault          units.Quantity // largest current into a short circuit, A
	LargestFault   units.Quantity // highest that it survives, A
	LeastFault     units.Quantity // smallest current of a fault that it must see, A; left out: Fault
	Resistance     units.Quantity // before its first trip, Ω
	AfterTrip      units.Quantity // largest, an hour after a trip or after soldering, Ω
	TripTimes      table.Table    // from a current in A to a time in s, at Reference; left out: by TripIntegral
	TripIntegral   units.Quantity // I²t until it trips at large currents, at Reference, A²·s; left out: by TripTimes
	Reference      units.Quantity // ambient of TripTimes and TripIntegral, °C; left out: 23 °C
	LongestTripped units.Quantity // time that what it protects survives the fault, s; left out: none is known
}

// ResettableResult is what Resettable finds.
type ResettableResult struct {
	HoldCurrent     units.Quantity // at Ambient, A
	TripCurrent     units.Quantity // at Ambient, A
	HoldMargin      units.Quantity // of HoldCurrent above Load, A
	TripMargin      units.Quantity // of LeastFault above TripCurrent, A
	VoltageMargin   units.Quantity // of Voltage above Supply, V
	FaultMargin     units.Quantity // of LargestFault above Fault, A
	Drop            units.Quantity // at Load, new, V
	DropAfterTrip   units.Quantity // at Load, after a trip, V
	LossAfterTrip   units.Quantity // at Load, after a trip, W
	EquivalentFault units.Quantity // current that trips as fast at Reference, A
	TripTime        units.Quantity // at LeastFault, s; not there without TripTimes or TripIntegral
	TripTimeMargin  units.Quantity // of LongestTripped above TripTime, s; not there where either is not known
}

// Resettable holds a resettable fuse, a polymer of positive temperature
// coefficient, against its load, its faults and its supply.
//
//	HoldCurrent      = hold at ambient
//	TripCurrent      = trip at ambient, or 2 · HoldCurrent
//	HoldMargin       = HoldCurrent − load
//	TripMargin       = least fault − TripCurrent
//	VoltageMargin    = voltage − supply
//	FaultMargin      = largest fault − fault
//	Drop             = load · resistance
//	DropAfterTrip    = load · after trip
//	LossAfterTrip    = load · DropAfterTrip
//	EquivalentFault  = least fault · hold at reference/HoldCurrent
//	TripTime         = trip times at EquivalentFault
//	TripTime         = trip integral/EquivalentFault², without trip times
//	TripTimeMargin   = longest tripped − TripTime
//
// Arguments: see ResettableInputs; currents, voltages and resistances above
// zero, AfterTrip not below Resistance. It is an error outside of that and of
// the tables, and where Load is above HoldCurrent (it trips in operation),
// LeastFault below TripCurrent (it never trips), Supply above Voltage or Fault
// above LargestFault (it burns).
//
//	hold, err := table.Text("ambient [°C], hold current [A]\n-40, 1.52\n23, 1.1\n60, 0.76\n85, 0.53")
//	r, err := protect.Resettable(protect.ResettableInputs{
//		Hold: hold, Ambient: Range(-20°C, 25°C, 60°C), Load: 0.5A, Supply: 32V, Voltage: 60V, Fault: 20A, LargestFault: 40A,
//		LeastFault: 5A, Resistance: 0.2Ω, AfterTrip: 0.4Ω, TripIntegral: 4A²·s,
//	})
//
// Holds for currents that last until the fuse is as warm as it gets. Trip
// times at another ambient go by the ratio of hold currents, common practice.
// TripIntegral holds while no heat escapes, far above TripCurrent: below some
// ten times HoldCurrent give TripTimes.
//
// Source: balance of heat; that the trip current is about twice the hold
// current, and hold currents over temperature, as in data sheets of
// polymer fuses.
//
// Caution: between HoldCurrent and TripCurrent it may do either, for hours. After
// the first trip, and after soldering, its resistance stays higher: AfterTrip
// counts in a design. It ages by trips: it is for faults, not for daily use. It
// is no fuse in the sense of codes that demand one, and it never disconnects;
// see Tripped for its hot surface.
func Resettable(in ResettableInputs) (ResettableResult, error) {
	const function = "protect.Resettable"
	reference, leastFault := orElse(in.Reference, units.MustParse("23 °C")), in.Fault
	if argument.Given(in.LeastFault) {
		leastFault = in.LeastFault
	}
	if err := argument.First(function,
		in.Hold.Expect("Hold", "°C", "A"),
		argument.Temperature("Ambient", in.Ambient),
		argument.Temperature("Reference", reference),
		argument.Current.Positive("Load", in.Load),
		argument.Voltage.Positive("Supply", in.Supply),
		argument.Voltage.Positive("Voltage", in.Voltage),
		argument.Current.Positive("Fault", in.Fault),
		argument.Current.Positive("LargestFault", in.LargestFault),
		argument.Current.Positive("LeastFault", leastFault),
		argument.Resistance.Positive("Resistance", in.Resistance),
		argument.Resistance.Positive("AfterTrip", in.AfterTrip),
		argument.JouleIntegral.Optional("TripIntegral", in.TripIntegral),
		argument.Time.Optional("LongestTripped", in.LongestTripped),
	); err != nil {
		return ResettableResult{}, err
	}
	if err := argument.First(function,
		argument.AtLeast("AfterTrip", in.AfterTrip, "Resistance", in.Resistance, "a trip raises the resistance; take both from the data sheet, such as R min and R1 max"),
	); err != nil {
		return ResettableResult{}, err
	}
	hold, err := in.Hold.At(in.Ambient)
	if err := argument.First(function, err, argument.Current.Positive("the hold current at Ambient", hold)); err != nil {
		return ResettableResult{}, err
	}
	trip, err := tripCurrent(in.Trip, in.Ambient, hold)
	if err := argument.First(function, err); err != nil {
		return ResettableResult{}, err
	}
	if err := argument.First(function,
		argument.AtLeast("the trip current at Ambient", trip, "the hold current there", hold, "take both tables from one data sheet"),
		atMost("Load", in.Load, "the hold current at Ambient", hold, "it trips in operation; choose a larger one, or lower Load or Ambient"),
		atLeast("LeastFault", leastFault, "the trip current at Ambient", trip, "such a fault never trips it; choose a smaller one, or a fuse"),
		atMost("Supply", in.Supply, "the fuse's Voltage", in.Voltage, "it burns when it trips; choose one with a higher Voltage"),
		atMost("Fault", in.Fault, "the fuse's LargestFault", in.LargestFault, "it burns in such a fault; choose one for more, or put resistance before it"),
	); err != nil {
		return ResettableResult{}, err
	}
	atReference, err := in.Hold.At(reference)
	if err := argument.First(function, err, argument.Current.Positive("the hold current at Reference", atReference)); err != nil {
		return ResettableResult{}, err
	}
	equivalentFault := leastFault.Mul(atReference).Div(hold)
	tripTime, err := tripTimeOf(in.TripTimes, in.TripIntegral, equivalentFault)
	if err := argument.First(function, err); err != nil {
		return ResettableResult{}, err
	}
	tripTimeMargin := timeLeft(in.LongestTripped, tripTime)
	dropAfterTrip := in.Load.Mul(in.AfterTrip)
	return ResettableResult{
		HoldCurrent:     hold,
		TripCurrent:     trip,
		HoldMargin:      hold.Sub(in.Load),
		TripMargin:      leastFault.Sub(trip),
		VoltageMargin:   in.Voltage.Sub(in.Supply),
		FaultMargin:     in.LargestFault.Sub(in.Fault),
		Drop:            in.Load.Mul(in.Resistance),
		DropAfterTrip:   dropAfterTrip,
		LossAfterTrip:   in.Load.Mul(dropAfterTrip),
		EquivalentFault: equivalentFault,
		TripTime:        tripTime,
		TripTimeMargin:  tripTimeMargin,
	}, nil
}

// tripCurrent is the current that trips it for certain.
func tripCurrent(trip table.Table, ambient, hold units.Quantity) (units.Quantity, error) {
	if !trip.Given() {
		return hold.Mul(units.Number(2)), nil
	}
	if err := trip.Expect("Trip", "°C", "A"); err != nil {
		return none, err
	}
	current, err := trip.At(ambient)
	if err != nil {
		return none, err
	}
	return current, argument.Current.Positive("the trip current at Ambient", current)
}

// tripTimeOf is the time to trip at the reference ambient; none where nothing
// tells.
func tripTimeOf(times table.Table, integral, fault units.Quantity) (units.Quantity, error) {
	if times.Given() {
		if err := argument.First("TripTimes", times.Expect("TripTimes", "A", "s"), unused("TripIntegral", integral, "TripTimes already says when it trips: leave one of them out")); err != nil {
			return none, err
		}
		time, err := times.At(fault)
		if err != nil {
			return none, err
		}
		return time, argument.Time.Positive("what TripTimes gives", time)
	}
	if !argument.Given(integral) {
		return none, nil
	}
	return integral.Div(fault).Div(fault), nil
}

// timeLeft is none where either is not known.
func timeLeft(longest, time units.Quantity) units.Quantity {
	if !argument.Given(longest) || !argument.Given(time) {
		return none
	}
	return longest.Sub(time)
}
