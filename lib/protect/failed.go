package protect

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// FailedShortInputs are the arguments of FailedShort.
type FailedShortInputs struct {
	Supply     units.Quantity // least voltage in operation, V
	Source     units.Quantity // resistance of source and wires, Ω
	Fuse       units.Quantity // resistance of the fuse, Ω; left out: none
	Shorted    units.Quantity // resistance of the clamp that failed, Ω; left out: none
	Rated      units.Quantity // current of the fuse, A
	Family     string         // standard that it is rated by: "UL 248" or "IEC 60127"
	Melting    units.Quantity // melting integral of the fuse, least, A²·s
	Clearing   units.Quantity // integral until the arc is out, largest, A²·s
	Times      table.Table    // longest opening time over the multiple of Rated; left out: Clearing alone
	Surge      units.Quantity // integral of the surge that the clamp takes in order, A²·s: Surge's Integral
	SurgeShare units.Quantity // of Melting that a surge may have, no unit; left out: 22 %, for a hundred thousand
}

// FailedShortResult is what FailedShort finds.
type FailedShortResult struct {
	Fault       units.Quantity // current through fuse and failed clamp, A
	Multiple    units.Quantity // of Rated, no unit
	Time        units.Quantity // until the fuse has opened, s
	Heat        units.Quantity // in the failed clamp until then, J
	SurgeMargin units.Quantity // of what the fuse bears above Surge, A²·s; below zero: a surge blows the fuse
}

// FailedShort computes what happens when a clamp fails, which it does as a
// short circuit: whether the fuse before it opens, and when; and whether the
// fuse stays whole while the clamp works in order.
//
//	Fault       = supply/(source + fuse + shorted)
//	Multiple    = Fault/rated
//	Time        = clearing/Fault², not below times at Multiple
//	Heat        = Fault² · shorted · Time
//	SurgeMargin = melting · surge share − surge
//
// Arguments: see FailedShortInputs; Supply, Source, Rated, Melting and Clearing
// above zero, Clearing not below Melting; Fuse, Shorted and Surge not below
// zero. It is an error outside of that, and where Multiple is below 2 for
// UL 248 or 2.1 for IEC 60127: the standards promise no opening below that.
//
//	s, err := protect.FailedShort(protect.FailedShortInputs{
//		Supply: 18V, Source: 0.4Ω, Rated: 3A, Family: "IEC 60127", Melting: 8A²·s, Clearing: 20A²·s, Surge: 0.01A²·s,
//	})
//	// s.Fault: 45 A; s.Multiple: 15; s.Time: 9.877 ms
//
// Holds, without Times, for a Multiple above ten; below that the fuse takes
// longer than Time.
//
// Source: Ohm's law; the gates of the standards: 200 % within two minutes in
// UL 248-14, 210 % within half an hour (fast) or two minutes (time-lag) in
// IEC 60127-2, both from memory.
//
// Caution: a supply that limits its current may never blow the fuse: the clamp
// and the wires then get hot instead. Below the gate's time a failed clamp of
// some tenths of an ohm heats like an oven. A resettable fuse holds it warm for
// ever: see Tripped.
func FailedShort(in FailedShortInputs) (FailedShortResult, error) {
	const function = "protect.FailedShort"
	fuse, shorted := argument.Resistance.OrZero(in.Fuse), argument.Resistance.OrZero(in.Shorted)
	surge, surgeShare := argument.JouleIntegral.OrZero(in.Surge), orElse(in.SurgeShare, units.MustParse("22 %"))
	if err := argument.First(function,
		argument.Voltage.Positive("Supply", in.Supply),
		argument.Resistance.Positive("Source", in.Source),
		argument.Resistance.NotNegative("Fuse", fuse),
		argument.Resistance.NotNegative("Shorted", shorted),
		argument.Current.Positive("Rated", in.Rated),
		oneOf("Family", in.Family, "UL 248", "IEC 60127"),
		argument.JouleIntegral.Positive("Melting", in.Melting),
		argument.JouleIntegral.Positive("Clearing", in.Clearing),
		argument.JouleIntegral.NotNegative("Surge", surge),
		argument.Share.Positive("SurgeShare", surgeShare),
	); err != nil {
		return FailedShortResult{}, err
	}
	fault := in.Supply.Div(in.Source.Add(fuse).Add(shorted))
	multiple := fault.Div(in.Rated)
	if err := argument.First(function,
		argument.AtLeast("Clearing", in.Clearing, "Melting", in.Melting, "the arc adds to the melting integral"),
		atLeast("the fault current over Rated", multiple, "the multiple at which "+in.Family+" promises opening", gateOf(in.Family), "the fuse may never open and the failed clamp burns; lower Rated or Source"),
	); err != nil {
		return FailedShortResult{}, err
	}
	slow, err := openingTime(in.Times, multiple)
	if err := argument.First(function, err); err != nil {
		return FailedShortResult{}, err
	}
	time := units.Max(in.Clearing.Div(fault).Div(fault), slow)
	heat := fault.Mul(fault).Mul(shorted).Mul(time)
	surgeMargin := in.Melting.Mul(surgeShare).Sub(surge)
	return FailedShortResult{Fault: fault, Multiple: multiple, Time: time, Heat: heat, SurgeMargin: surgeMargin}, nil
}

// gateOf is the multiple of the rated current at which a family promises that
// the fuse opens.
func gateOf(family string) units.Quantity {
	if family == "IEC 60127" {
		return units.Number(2.1)
	}
	return units.Number(2)
}

// openingTime reads the opening time of a fuse, and is zero where no curve is
// given.
func openingTime(times table.Table, multiple units.Quantity) (units.Quantity, error) {
	if !times.Given() {
		return argument.Time.OrZero(none), nil
	}
	if err := times.Expect("Times", "1", "s"); err != nil {
		return none, err
	}
	time, err := times.At(multiple)
	if err != nil {
		return none, err
	}
	return time, argument.Time.Positive("what Times gives", time)
}
