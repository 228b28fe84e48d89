package battery

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// PeukertInputs are the arguments of Peukert.
type PeukertInputs struct {
	Rated    units.Quantity // capacity at the rated discharge time, Ah
	Hours    units.Quantity // rated discharge time, s; mostly 20 h
	Exponent units.Quantity // Peukert's, no unit: 1.05 to 1.6
	Load     units.Quantity // current, A
}

// PeukertResult is what Peukert and PeukertAtOneAmpere find.
type PeukertResult struct {
	RatedCurrent units.Quantity // for which the capacity is stated, A
	Time         units.Quantity // until empty, s
	Delivered    units.Quantity // at this load, Ah
	Share        units.Quantity // of the stated capacity, no unit
}

// Peukert computes how long a lead-acid battery lasts at a constant current,
// from its capacity at a rated discharge time.
//
//	RatedCurrent = rated/hours
//	Time         = hours · (RatedCurrent/load)^exponent
//	Delivered    = load · Time
//	Share        = Delivered/rated
//
// Arguments: see PeukertInputs; all above zero, Exponent from 1 to 2, Load
// from a thousandth of RatedCurrent to a thousand times it. It is an error
// outside of that. Two laws go by this name: this one takes the capacity at the
// rated hours, as batteries are printed; PeukertAtOneAmpere takes it at 1 A. At
// 5 A, 100 Ah and 1.2 they give 20 h and 14.5 h.
//
//	p, err := battery.Peukert(battery.PeukertInputs{Rated: 100Ah, Hours: 20h, Exponent: 1.2, Load: 10A})
//	// p.Time: 8.706 h
//
// Holds for lead-acid at constant current and 20 °C to 25 °C. Below the rated
// current it gives more than is printed: do not count on it. After a rest some
// of what was not delivered comes back.
//
// Source: W. Peukert, 1897, in the form for a rated discharge time, from memory.
//
// Caution: charged lead-acid batteries give off hydrogen: air the place. Half
// discharged for weeks they sulphate. Lithium cells do not follow this law.
func Peukert(in PeukertInputs) (PeukertResult, error) {
	const function = "battery.Peukert"
	if err := argument.First(function,
		argument.Capacity.Positive("Rated", in.Rated),
		argument.Time.Positive("Hours", in.Hours),
		checkExponent(in.Exponent),
		argument.Current.Positive("Load", in.Load),
	); err != nil {
		return PeukertResult{}, err
	}
	ratedCurrent := in.Rated.Div(in.Hours)
	if err := argument.First(function, checkRate(in.Load, "RatedCurrent", ratedCurrent)); err != nil {
		return PeukertResult{}, err
	}
	ratio := ratedCurrent.Div(in.Load)
	time := in.Hours.Mul(units.Exp(in.Exponent.Mul(units.Ln(ratio))))
	delivered := in.Load.Mul(time)
	share := delivered.Div(in.Rated)
	return PeukertResult{RatedCurrent: units.In(ratedCurrent, "A"), Time: time, Delivered: units.In(delivered, "Ah"), Share: share}, nil
}

// PeukertAtOneAmpere computes how long a lead-acid battery lasts at a constant
// current, from its capacity at 1 A.
//
//	Time      = capacity/1 A · (1 A/load)^exponent
//	Delivered = load · Time
//
// Arguments: capacity at a load of 1 A, Ah, above zero; exponent, from 1 to 2;
// load, A, from 1 mA to 1 kA. It is an error outside of that. See Peukert for
// the other form, and take this one only for a capacity that is stated at 1 A.
//
//	p, err := battery.PeukertAtOneAmpere(100Ah, 1.2, 5A)
//	// p.Time: 14.5 h
//
// Source: W. Peukert, 1897, as in
// https://www.electrotechnik.net/2010/01/peukert-law-and-discharge-of-lead-acid_9.html
func PeukertAtOneAmpere(capacity, exponent, load units.Quantity) (PeukertResult, error) {
	const function = "battery.PeukertAtOneAmpere"
	ampere := unit(argument.Current.OrZero(none))
	if err := argument.First(function,
		argument.Capacity.Positive("capacity", capacity),
		checkExponent(exponent),
		argument.Current.Positive("load", load),
		checkRate(load, "1 A", ampere),
	); err != nil {
		return PeukertResult{}, err
	}
	ratio := ampere.Div(load)
	time := capacity.Div(ampere).Mul(units.Exp(exponent.Mul(units.Ln(ratio))))
	delivered := load.Mul(time)
	share := delivered.Div(capacity)
	return PeukertResult{RatedCurrent: ampere, Time: units.In(time, "h"), Delivered: units.In(delivered, "Ah"), Share: share}, nil
}

// PeukertExponent finds Peukert's exponent from the capacities at two
// discharge times.
//
//	exponent = ln(time₂/time₁)/ln(current₁/current₂), each current capacity/time
//
// Arguments: capacity1, Ah, at time1, s, the shorter one, and capacity2 at
// time2; all above zero. It is an error where time2 is not above time1, or the
// exponent is not from 1 to 2.
//
//	k, err := battery.PeukertExponent(75Ah, 5h, 100Ah, 20h)
//	// 1.262
//
// Source: Peukert's law at two points (IEC 60896 states capacities at several
// times, from memory).
func PeukertExponent(capacity1, time1, capacity2, time2 units.Quantity) (units.Quantity, error) {
	const function = "battery.PeukertExponent"
	if err := argument.First(function,
		argument.Capacity.Positive("capacity1", capacity1),
		argument.Time.Positive("time1", time1),
		argument.Capacity.Positive("capacity2", capacity2),
		argument.Time.Positive("time2", time2),
		argument.Above("time2", time2, "time1", time1, "write the shorter time first"),
	); err != nil {
		return none, err
	}
	current1 := capacity1.Div(time1)
	current2 := capacity2.Div(time2)
	if err := argument.First(function,
		argument.Above("capacity1/time1", current1, "capacity2/time2", current2, "the shorter time takes more current; check the capacities"),
	); err != nil {
		return none, err
	}
	exponent := units.Ln(time2.Div(time1)).Div(units.Ln(current1.Div(current2)))
	if err := argument.First(function, checkExponent(exponent)); err != nil {
		return none, err
	}
	return exponent, nil
}

func checkExponent(exponent units.Quantity) error {
	const mend = "take it from the data sheet, or from two capacities with PeukertExponent"
	if err := argument.Share.Positive("exponent", exponent); err != nil {
		return err
	}
	if err := argument.AtLeast("exponent", exponent, "that of a battery without the effect", units.Number(1), mend); err != nil {
		return err
	}
	return argument.AtMost("exponent", exponent, "that of the worst batteries", units.Number(2), mend)
}

func checkRate(load units.Quantity, name string, rated units.Quantity) error {
	const mend = "the law does not reach so far from the current that the capacity is stated for"
	far := units.Number(1000)
	if err := argument.AtLeast("load", load, "a thousandth of "+name, rated.Div(far), mend); err != nil {
		return err
	}
	return argument.AtMost("load", load, "a thousand times "+name, rated.Mul(far), mend)
}
