package ripple

import (
	"math"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// logOver is ln(1 + x) without losing the digits of a small x.
func logOver(x units.Quantity) units.Quantity {
	return units.Lanewise("ln(1 + x)", units.Number(1), func(v []float64) float64 { return math.Log1p(v[0]) }, x)
}

// RCInputs are the arguments of RC.
type RCInputs struct {
	Resistance  units.Quantity // in series, the source's with it, Ω
	Capacitance units.Quantity // across the output, with its bias, F
	Load        units.Quantity // across the output, Ω; left out: none
	Frequency   units.Quantity // of what is to be filtered, Hz
}

// RCResult is what RC finds.
type RCResult struct {
	Parallel     units.Quantity // resistance that the capacitor sees, Ω
	TimeConstant units.Quantity // s
	Corner       units.Quantity // frequency at which 3 dB are gone, Hz
	Direct       units.Quantity // what is left of a direct voltage, no unit
	Transfer     units.Quantity // what is left at Frequency, no unit
	Attenuation  units.Quantity // at Frequency, dB
	Phase        units.Quantity // of the output against the input, rad
}

// RC computes a low-pass filter of one resistor and one capacitor.
//
//	source ── resistance ──┬────────┬── output
//	                  capacitance  load
//	source ────────────────┴────────┴── 0 V
//
//	Direct       = load/(load + resistance), or 1
//	Parallel     = resistance · Direct
//	TimeConstant = Parallel · capacitance
//	Corner       = 1/(2π · TimeConstant)
//	Transfer     = Direct/√(1 + (frequency/Corner)²)
//	Attenuation  = −20 dB · lg(Transfer)
//	Phase        = −arctan(frequency/Corner)
//
// Arguments: Resistance, Ω, Capacitance, F, and Frequency, Hz, above zero;
// Load, Ω, above zero or left out. It is an error outside of that.
//
//	f, err := ripple.RC(ripple.RCInputs{Resistance: 100Ω, Capacitance: 10µF, Frequency: 100Hz})
//	// times the ripple before it, f.Transfer is the ripple behind it
//
// Holds for a capacitor without ESR; with one, Transfer comes down to
// ESR/(resistance + ESR) at most (Filter).
//
// Source: complex voltage divider.
//
// Caution: several such filters in a row load one another: Filter. A ripple of
// another form than a sine has harmonics that are filtered better than its
// fundamental.
func RC(in RCInputs) (RCResult, error) {
	if err := argument.First("ripple.RC",
		argument.Resistance.Positive("Resistance", in.Resistance),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.Optional("Load", in.Load),
		argument.Frequency.Positive("Frequency", in.Frequency),
	); err != nil {
		return RCResult{}, err
	}
	one := units.Number(1)
	direct := one
	if argument.Given(in.Load) {
		direct = in.Load.Div(in.Load.Add(in.Resistance))
	}
	parallel := in.Resistance.Mul(direct)
	timeConstant := parallel.Mul(in.Capacitance)
	corner := one.Div(units.Number(2).Mul(units.Pi).Mul(timeConstant))
	times := in.Frequency.Div(corner)
	transfer := direct.Div(units.Sqrt(one.Add(times.Mul(times))))
	attenuation := units.VoltageGain(one.Div(transfer))
	phase := units.Atan(times).Neg()
	return RCResult{
		Parallel:     parallel,
		TimeConstant: timeConstant,
		Corner:       corner,
		Direct:       direct,
		Transfer:     transfer,
		Attenuation:  attenuation,
		Phase:        phase,
	}, nil
}

// RCTimeInputs are the arguments of RCTime.
type RCTimeInputs struct {
	Resistance  units.Quantity // Ω
	Capacitance units.Quantity // F
	Source      units.Quantity // voltage to which the capacitor goes in the end, V; 0 V to discharge it
	Start       units.Quantity // voltage of the capacitor at the beginning, V
	End         units.Quantity // voltage to be reached, V
}

// RCTimeResult is what RCTime finds.
type RCTimeResult struct {
	TimeConstant units.Quantity // s
	Left         units.Quantity // of the way to Source when End is reached, no unit
	Time         units.Quantity // from Start to End, s
}

// RCTime computes how long a capacitor takes from one voltage to another
// through a resistor.
//
//	TimeConstant = resistance · capacitance
//	Left         = (source − end)/(source − start)
//	Time         = −TimeConstant · ln(Left)
//
// Arguments: Resistance, Ω, and Capacitance, F, above zero; Source, Start and
// End, V, of either sign, with End between Start and Source, or at Start. It
// is an error outside of that: a capacitor never quite reaches Source.
//
//	t, err := ripple.RCTime(ripple.RCTimeInputs{Resistance: 100kΩ, Capacitance: 1µF, Source: 3.3V, Start: 0V, End: 2V})
//
// Source: Kirchhoff's laws.
//
// Caution: the input that watches for End takes current of its own, and its
// threshold spreads: both change the time more than the resistor's tolerance.
// An electrolytic capacitor's leakage may keep it from End for ever.
func RCTime(in RCTimeInputs) (RCTimeResult, error) {
	const function = "ripple.RCTime"
	if err := argument.First(function,
		argument.Resistance.Positive("Resistance", in.Resistance),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Voltage.Signed("Source", in.Source),
		argument.Voltage.Signed("Start", in.Start),
		argument.Voltage.Signed("End", in.End),
	); err != nil {
		return RCTimeResult{}, err
	}
	way := in.Source.Sub(in.Start)
	gone := in.End.Sub(in.Start)
	one, zero := units.Number(1), units.Number(0)
	if err := argument.First(function, argument.Above("the way from Start to Source", units.Abs(way), "none", way.Sub(way), "nothing changes; check both")); err != nil {
		return RCTimeResult{}, err
	}
	share := gone.Div(way)
	if err := argument.First(function,
		argument.AtLeast("the way to End, as a share of that to Source,", share, "none", zero, "the capacitor goes away from End; exchange Start and End, or check Source"),
		argument.Under("the way to End, as a share of that to Source,", share, "all of it", one, "a capacitor never quite gets there; write an End that is nearer to Start"),
	); err != nil {
		return RCTimeResult{}, err
	}
	timeConstant := in.Resistance.Mul(in.Capacitance)
	left := one.Sub(share)
	time := timeConstant.Mul(logOver(share.Neg())).Neg()
	return RCTimeResult{TimeConstant: timeConstant, Left: left, Time: time}, nil
}

// BleedInputs are the arguments of Bleed.
type BleedInputs struct {
	Capacitance units.Quantity // at its upper tolerance, F
	Resistance  units.Quantity // across it, at its upper tolerance, Ω
	Start       units.Quantity // highest voltage before switching off, V
	Safe        units.Quantity // voltage that may be touched, by the rules that apply, V
}

// BleedResult is what Bleed finds.
type BleedResult struct {
	Time   units.Quantity // until the voltage is down to Safe, s
	Loss   units.Quantity // in the resistor while the supply is on, W
	Energy units.Quantity // stored at Start, J
}

// Bleed computes how long the voltage of a capacitor stays dangerous after
// switching off, with a resistor that discharges it.
//
//	Time    = resistance · capacitance · ln(start/safe)
//	Loss    = start²/resistance
//	Energy  = capacitance · start²/2
//
// Arguments: Capacitance, F, and Resistance, Ω, above zero; Start, V, above
// Safe, V, above zero. It is an error outside of that.
//
//	b, err := ripple.Bleed(ripple.BleedInputs{Capacitance: 470µF, Resistance: 47kΩ, Start: 375V, Safe: 60V})
//	// b.Time against the time until somebody can reach it
//
// Safe is yours to give: 60 V of direct voltage is a usual limit in dry
// places, less where it is wet, and the local code has the last word.
//
// Source: Kirchhoff's laws.
//
// Caution: stored energy kills after the plug is out. A resistor that fails
// open gives no warning: use two where lives depend on it, rated for Start,
// and measure before you touch. Capacitors recover part of their voltage by
// themselves (dielectric absorption).
func Bleed(in BleedInputs) (BleedResult, error) {
	const function = "ripple.Bleed"
	if err := argument.First(function,
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.Positive("Resistance", in.Resistance),
		argument.Voltage.Positive("Start", in.Start),
		argument.Voltage.Positive("Safe", in.Safe),
	); err != nil {
		return BleedResult{}, err
	}
	if err := argument.First(function,
		argument.Above("Start", in.Start, "Safe", in.Safe, "it may be touched at once; nothing is to be discharged"),
	); err != nil {
		return BleedResult{}, err
	}
	over := in.Start.Sub(in.Safe).Div(in.Safe)
	time := in.Resistance.Mul(in.Capacitance).Mul(logOver(over))
	loss := in.Start.Mul(in.Start).Div(in.Resistance)
	energy := in.Capacitance.Mul(in.Start).Mul(in.Start).Mul(units.Number(0.5))
	return BleedResult{Time: time, Loss: loss, Energy: energy}, nil
}
