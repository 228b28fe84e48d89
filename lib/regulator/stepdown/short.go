package stepdown

import (
	"errors"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// ShortCircuitInputs are the arguments of ShortCircuit.
type ShortCircuitInputs struct {
	Stage     Stage          // as in operation; Load plays no part here
	Limit     units.Quantity // peak current at which the regulator switches off, A
	LeastOn   units.Quantity // shortest on-time with the limit's delay, s
	Foldback  units.Quantity // share of the frequency that is left in a short circuit, no unit; left out: all
	Remaining units.Quantity // share of the inductance that is left at the limit, no unit; left out: all
	Short     units.Quantity // resistance of the short circuit and its leads, Ω; left out: none
	On        units.Quantity // time for which a hiccup tries, s; left out: it does not stop
	Off       units.Quantity // time for which it then waits, s; left out: it does not stop
}

// ShortCircuitResult is what ShortCircuit finds.
type ShortCircuitResult struct {
	Frequency   units.Quantity // in the short circuit, Hz
	Settled     units.Quantity // mean current at which the shortest pulses settle by themselves, A
	Rise        units.Quantity // of the current in the shortest pulse, A
	Runaway     units.Quantity // peak to which the shortest pulses drive the current by themselves, A
	LimitMargin units.Quantity // of the limit above Runaway, A: below zero the limit does not hold
	Peak        units.Quantity // of the current, A
	MostShare   units.Quantity // of the frequency at which the limit still holds, no unit; above 1 all of it does, at 0 none
	Average     units.Quantity // current out of the regulator, with the pauses of a hiccup, at most, A
}

// ShortCircuit computes to what the inductor's current comes when the output
// is shorted, where the limit can end no pulse before the shortest on-time
// and the current falls so slowly that it climbs from pulse to pulse.
//
//	Frequency   = frequency · foldback
//	share       = LeastOn · Frequency
//	on path     = high switch + winding + short
//	off path    = low switch + winding + short
//	Settled     = (input · share − diode · (1 − share))/(on path · share + off path · (1 − share)), or 0
//	Rise        = (input − Settled · on path) · LeastOn/(inductance · remaining)
//	Runaway     = largest of Settled and Rise/2, + Rise/2
//	LimitMargin = limit − Runaway
//	Peak        = largest of limit and Runaway
//	rise        = (input − limit · on path) · LeastOn/(inductance · remaining)
//	mean        = limit − rise/2, or 0
//	MostShare   = 0 where rise is not below limit; otherwise (diode + mean · off path)/(input + diode + mean · (off path − on path))/(LeastOn · frequency)
//	Average     = (Peak − Rise/2) · On/(On + Off)
//
// Arguments: Stage; Limit, A, and LeastOn, s, above zero, LeastOn shorter than
// a period; Foldback and Remaining above zero and at most 1; Short, Ω, not
// below zero; On and Off, s, both or neither, above zero. At least one of
// HighSwitch, LowSwitch, Winding and Short is given: without any resistance
// nothing ends the climb. It is an error outside of that, and where the limit's
// current drops the whole input across the on path: no current reaches it.
//
//	s, err := stepdown.ShortCircuit(stepdown.ShortCircuitInputs{
//		Stage: stage, Limit: Ilim, LeastOn: 120ns + 60ns, Foldback: 25%,
//	})
//	Require(s.LimitMargin > 0A, "the limit holds into a short circuit")
//
// Give Input as a range: its high end is worst. What a regulator leaves of its
// frequency in a short circuit must be below MostShare.
//
// Holds for the settled current at an output near zero, which it reaches
// within a few L/R.
//
// Source: volt-second balance, as function Duty, of a shorted output.
//
// Caution: the inductor is saturated long before a runaway settles, and the
// current then climbs within a pulse; Remaining at the limit is the start of
// that. A wire to the short circuit is an inductance that swings the output
// below ground.
func ShortCircuit(in ShortCircuitInputs) (ShortCircuitResult, error) {
	const function = "stepdown.ShortCircuit"
	one, half := units.Number(1), units.Number(0.5)
	s := in.Stage
	s.Load = argument.Current.OrZero(none) // a drop in operation plays no part
	foldback, remaining := one, one
	if argument.Given(in.Foldback) {
		foldback = in.Foldback
	}
	if argument.Given(in.Remaining) {
		remaining = in.Remaining
	}
	short := argument.Resistance.OrZero(in.Short)
	if err := argument.First(function,
		s.withInductor(),
		argument.Current.Positive("Limit", in.Limit),
		argument.Time.Positive("LeastOn", in.LeastOn),
		argument.Share.Positive("Foldback", foldback),
		argument.Share.Positive("Remaining", remaining),
		argument.Resistance.NotNegative("Short", short),
		argument.Time.Optional("On", in.On),
		argument.Time.Optional("Off", in.Off),
	); err != nil {
		return ShortCircuitResult{}, err
	}
	frequency := s.Frequency.Mul(foldback)
	highSwitch, lowSwitch := argument.Resistance.OrZero(s.HighSwitch), argument.Resistance.OrZero(s.LowSwitch)
	diode, winding := argument.Voltage.OrZero(s.Diode), argument.Resistance.OrZero(s.Winding)
	onPath := highSwitch.Add(winding).Add(short)
	offPath := lowSwitch.Add(winding).Add(short)
	inductance := s.Inductance.Mul(remaining)
	share := in.LeastOn.Mul(frequency)
	offShare := one.Sub(share)
	resistance := onPath.Mul(share).Add(offPath.Mul(offShare))
	if err := argument.First(function,
		argument.AtMost("Foldback", foldback, "all of the frequency", one, "write a smaller share"),
		argument.AtMost("Remaining", remaining, "all of the inductance", one, "write a smaller share"),
		argument.Under("LeastOn", in.LeastOn, "a period", one.Div(frequency), "the high switch would never open; lower the frequency"),
		argument.Above("Input", s.Input, "what the limit's current drops across the switch and the rest", in.Limit.Mul(onPath), "no current reaches the limit; lower Limit"),
		argument.Resistance.Positive("the resistance of HighSwitch, LowSwitch, Winding and Short", resistance),
		hiccup(in.On, in.Off),
	); err != nil {
		return ShortCircuitResult{}, err
	}
	drive := s.Input.Mul(share).Sub(diode.Mul(offShare))
	settled := units.Max(drive, drive.Sub(drive)).Div(resistance)
	rise := s.Input.Sub(settled.Mul(onPath)).Mul(in.LeastOn).Div(inductance)
	runaway := units.Max(settled, rise.Mul(half)).Add(rise.Mul(half))
	peak := units.Max(in.Limit, runaway)
	riseAtLimit := s.Input.Sub(in.Limit.Mul(onPath)).Mul(in.LeastOn).Div(inductance)
	mean := units.Max(in.Limit.Sub(riseAtLimit.Mul(half)), in.Limit.Sub(in.Limit))
	rising := s.Input.Sub(mean.Mul(onPath))
	falling := diode.Add(mean.Mul(offPath))
	holding := falling.Div(rising.Add(falling)).Div(in.LeastOn.Mul(s.Frequency))
	mostShare := units.Where(riseAtLimit, in.Limit, holding, one.Sub(one))
	average := peak.Sub(rise.Mul(half))
	if argument.Given(in.On) {
		average = average.Mul(in.On).Div(in.On.Add(in.Off))
	}
	return ShortCircuitResult{
		Frequency:   frequency,
		Settled:     settled,
		Rise:        rise,
		Runaway:     runaway,
		LimitMargin: in.Limit.Sub(runaway),
		Peak:        peak,
		MostShare:   mostShare,
		Average:     average,
	}, nil
}

// hiccup refuses half of one.
func hiccup(on, off units.Quantity) error {
	if argument.Given(on) == argument.Given(off) {
		return nil
	}
	return errors.New("of On and Off one is given; a hiccup has both: give the other, or leave out both")
}
