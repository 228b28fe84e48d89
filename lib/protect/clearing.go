package protect

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// ClearingInputs are the arguments of FuseClearing.
type ClearingInputs struct {
	Clearing  units.Quantity // integral until the arc is out, at the supply's voltage, largest, A²·s
	Fault     units.Quantity // current into the short circuit, A
	Withstand units.Quantity // integral that what is protected survives: wire, trace, diode, A²·s
}

// ClearingResult is what FuseClearing finds.
type ClearingResult struct {
	Time   units.Quantity // until the fault is cleared, s
	Margin units.Quantity // of Withstand above Clearing, A²·s; below zero: the fuse comes too late
	Used   units.Quantity // share of Withstand, no unit
}

// FuseClearing holds what a fuse lets through until it has cleared a fault
// against what the protected part survives.
//
//	Time   = clearing/fault²
//	Margin = withstand − clearing
//	Used   = clearing/withstand
//
// Arguments: see ClearingInputs; all above zero. It is an error outside of
// that. A fuse that comes too late is none: Margin is below zero.
//
//	c, err := protect.FuseClearing(protect.ClearingInputs{Clearing: 12A²·s, Fault: 80A, Withstand: 50A²·s})
//	// c.Time: 1.875 ms
//
// Holds while no heat escapes: for a Time below some 10 ms, or a fault above
// ten times the rated current. Below that the time is that of the fuse's curve.
//
// Source: definition of the Joule integral (IEC 60127-1; IEC 60269-1 calls it
// operating I²t), from memory.
//
// Caution: melting is not clearing: the arc adds as much again or more, and
// more at a higher voltage. A semiconductor's I²t is given for half a sine of
// 8.3 ms or 10 ms; for shorter times it survives less.
func FuseClearing(in ClearingInputs) (ClearingResult, error) {
	if err := argument.First("protect.FuseClearing",
		argument.JouleIntegral.Positive("Clearing", in.Clearing),
		argument.Current.Positive("Fault", in.Fault),
		argument.JouleIntegral.Positive("Withstand", in.Withstand),
	); err != nil {
		return ClearingResult{}, err
	}
	time := in.Clearing.Div(in.Fault).Div(in.Fault)
	margin := in.Withstand.Sub(in.Clearing)
	used := in.Clearing.Div(in.Withstand)
	return ClearingResult{Time: time, Margin: margin, Used: used}, nil
}

// SelectivityResult is what FuseSelectivity finds.
type SelectivityResult struct {
	Ratio  units.Quantity // of the upstream melting to the downstream clearing integral, no unit
	Margin units.Quantity // of the one above the other, A²·s; below zero: both blow
}

// FuseSelectivity holds two fuses in series against each other: in a fault
// behind the second only that one is to blow.
//
//	Ratio  = melting/clearing
//	Margin = melting − clearing
//
// Arguments: clearing, the largest clearing integral of the fuse downstream,
// near the load, A²·s; melting, the least melting integral of the fuse
// upstream, A²·s; both above zero. It is an error outside of that.
//
//	s, err := protect.FuseSelectivity(12A²·s, 60A²·s)   // s.Ratio: 5
//
// Holds for faults of more than ten times the rated currents; below that
// compare the curves.
//
// Source: definition of selectivity of fuses (IEC 60269-1), from memory.
//
// Caution: a fuse that carries load, or is hot, melts with less.
func FuseSelectivity(clearing, melting units.Quantity) (SelectivityResult, error) {
	if err := argument.First("protect.FuseSelectivity",
		argument.JouleIntegral.Positive("clearing", clearing),
		argument.JouleIntegral.Positive("melting", melting),
	); err != nil {
		return SelectivityResult{}, err
	}
	ratio := melting.Div(clearing)
	margin := melting.Sub(clearing)
	return SelectivityResult{Ratio: ratio, Margin: margin}, nil
}
