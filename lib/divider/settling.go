package divider

import (
	"fmt"
	"math"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// FilterResult is what Filter finds.
type FilterResult struct {
	TimeConstant  units.Quantity // source · capacitor, s
	Corner        units.Quantity // frequency at which the signal has lost 3 dB, Hz
	TimeConstants units.Quantity // until half a step is left, no unit
	Settling      units.Quantity // until half a step is left, s
}

// Filter computes the low-pass that a capacitor at the node makes with the
// resistance of the divider.
//
//	TimeConstant  = source · capacitor
//	Corner        = 1/(2π · TimeConstant)
//	TimeConstants = (bits + 1) · ln 2
//	Settling      = TimeConstants · TimeConstant
//
// After a step of full size at the input, e^(−t/τ) of it is missing at the
// node; half a step of an N-bit converter is 2^−(N+1) of full size.
//
// Arguments: source, the resistance the capacitor sees (MeasuringResult's
// Source), Ω, above zero; capacitor, F, above zero; bits, from 1 to 32. It is
// an error outside of that.
//
//	f, err := divider.Filter(9.091kΩ, 100nF, 12)   // 909.1 µs, 175.1 Hz, 8.192 ms
//
// Source: first-order low-pass (any textbook).
//
// Caution: a class 2 ceramic capacitor has less capacitance under voltage,
// and any capacitor has leakage that adds to that of the pin.
func Filter(source, capacitor units.Quantity, bits int) (FilterResult, error) {
	if err := argument.First("divider.Filter",
		argument.Resistance.Positive("source", source),
		argument.Capacitance.Positive("capacitor", capacitor),
		argument.Count("bits", bits, fewestBits, mostBits, bitsMend),
	); err != nil {
		return FilterResult{}, err
	}
	timeConstant := source.Mul(capacitor)
	corner := units.Number(1).Div(units.Number(2 * math.Pi).Mul(timeConstant))
	timeConstants := toHalfStep(bits)
	settling := timeConstants.Mul(timeConstant)
	return FilterResult{
		TimeConstant:  timeConstant,
		Corner:        corner,
		TimeConstants: timeConstants,
		Settling:      settling,
	}, nil
}

// toHalfStep is the number of time constants until 2^−(bits+1) is left.
func toHalfStep(bits int) units.Quantity {
	return units.Number(float64(bits + 1)).Mul(units.Ln(units.Number(2)))
}

// DirectInputs are the arguments of DirectSampling and LargestSource; each
// leaves out what it finds.
type DirectInputs struct {
	Source   units.Quantity // resistance of what drives the pin, Ω
	Switch   units.Quantity // resistance inside the converter, Ω; left out: none
	Sampling units.Quantity // sampling capacitor of the converter, F
	Bits     int            // resolution of the converter
	Time     units.Quantity // acquisition time that there is, s; for LargestSource
}

// DirectResult is what DirectSampling and LargestSource find.
type DirectResult struct {
	TimeConstant  units.Quantity // (Source + Switch) · Sampling, s
	TimeConstants units.Quantity // until half a step is left, no unit
	Settling      units.Quantity // acquisition time needed, s
	Source        units.Quantity // resistance of what drives the pin, Ω
}

// DirectSampling computes how long a converter must sample a node that has
// no capacitor of its own: the sampling capacitor is charged through the
// divider and the switch.
//
//	TimeConstant  = (source + switch) · sampling
//	TimeConstants = (bits + 1) · ln 2
//	Settling      = TimeConstants · TimeConstant
//
// Arguments: Source, Ω, Sampling, F, above zero; Switch, Ω, not below zero;
// Bits from 1 to 32; Time is left out. It is an error outside of that. The
// sampling capacitor is taken to start a full scale away, as after another
// channel of a multiplexer; the time ends with half a step left.
//
//	s, err := divider.DirectSampling(divider.DirectInputs{Source: 9.091kΩ, Switch: 1kΩ, Sampling: 14pF, Bits: 12})
//	// s.Settling: 1.273 µs
//
// Holds while the capacitance of pin and traces is far below Sampling, or
// settles with it; it adds to Sampling otherwise.
//
// Source: charging through a resistance (any textbook); the half step is
// common practice in converter application notes.
func DirectSampling(in DirectInputs) (DirectResult, error) {
	inside := argument.Resistance.OrZero(in.Switch)
	if err := argument.First("divider.DirectSampling",
		argument.Unset("Time", in.Time, "leave it out, or use LargestSource to find the source for it"),
		argument.Resistance.Positive("Source", in.Source),
		argument.Resistance.NotNegative("Switch", inside),
		argument.Capacitance.Positive("Sampling", in.Sampling),
		argument.Count("Bits", in.Bits, fewestBits, mostBits, bitsMend),
	); err != nil {
		return DirectResult{}, err
	}
	timeConstant := in.Source.Add(inside).Mul(in.Sampling)
	timeConstants := toHalfStep(in.Bits)
	settling := timeConstants.Mul(timeConstant)
	return DirectResult{
		TimeConstant:  timeConstant,
		TimeConstants: timeConstants,
		Settling:      settling,
		Source:        in.Source,
	}, nil
}

// LargestSource finds the largest source resistance that an acquisition time
// allows; it is DirectSampling the other way round.
//
//	TimeConstants = (bits + 1) · ln 2
//	TimeConstant  = time/TimeConstants
//	Source        = TimeConstant/sampling − switch
//
// Arguments: Time, s, Sampling, F, above zero; Switch, Ω, not below zero;
// Bits from 1 to 32; Source is left out. It is an error outside of that, and
// where the switch alone takes longer than Time.
//
//	s, err := divider.LargestSource(divider.DirectInputs{Time: 1.5us, Switch: 1kΩ, Sampling: 14pF, Bits: 12})
//	// s.Source: 10.89 kΩ
//
// Where it holds and source: as DirectSampling.
func LargestSource(in DirectInputs) (DirectResult, error) {
	const function = "divider.LargestSource"
	inside := argument.Resistance.OrZero(in.Switch)
	if err := argument.First(function,
		argument.Unset("Source", in.Source, "leave it out, or use DirectSampling to find the time for it"),
		argument.Time.Positive("Time", in.Time),
		argument.Resistance.NotNegative("Switch", inside),
		argument.Capacitance.Positive("Sampling", in.Sampling),
		argument.Count("Bits", in.Bits, fewestBits, mostBits, bitsMend),
	); err != nil {
		return DirectResult{}, err
	}
	timeConstants := toHalfStep(in.Bits)
	timeConstant := in.Time.Div(timeConstants)
	source := timeConstant.Div(in.Sampling).Sub(inside)
	var zero units.Quantity
	if at := argument.NotAbove(source, zero, in.Time, timeConstants.Mul(inside).Mul(in.Sampling)); at != nil {
		return DirectResult{}, fmt.Errorf("%s: Time is %s; it must be above %s, which the switch alone takes: lengthen the acquisition time", function, at[0], at[1])
	}
	return DirectResult{
		TimeConstant:  timeConstant,
		TimeConstants: timeConstants,
		Settling:      in.Time,
		Source:        source,
	}, nil
}
