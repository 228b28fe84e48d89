package loop

import (
	"math"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// MarginsResult is what Margins finds.
type MarginsResult struct {
	Crossover      units.Quantity // highest frequency at which the loop's gain is 1, Hz
	CrossoverShare units.Quantity // of the switching frequency, no unit
	PhaseMargin    units.Quantity // above −180° at the crossover, °
	Turning        units.Quantity // frequency at which the phase reaches −180°, half the switching frequency at most, Hz
	GainMargin     units.Quantity // below 1 there, dB
}

// Margins computes crossover, phase margin and gain margin of a loop.
//
//	loop(s)        = plant(s) · amplifier(s)
//	|loop(2πj · Crossover)| = 1
//	CrossoverShare = Crossover/frequency
//	PhaseMargin    = 180° + phase of loop(2πj · Crossover)
//	phase of loop(2πj · Turning) = −180°
//	GainMargin     = −gain of loop(2πj · Turning)
//
// with plant(s) and amplifier(s) as the comments of Plant and Amplifier give
// them.
//
// Arguments: a Plant, of which Gain and Frequency, Hz, are above zero, and an
// Amplifier, of which Upper, Ω, and Capacitor, F, are above zero; what is left
// out of both is not there. It is an error outside of that, and where the gain
// is not above 1 at a millionth of the switching frequency and below 1 at half
// of it: such a loop has no crossover to speak of.
//
//	m, err := loop.Margins(plant, amplifier)
//	Require(m.PhaseMargin >= 45deg, "the loop is stable")
//
// Common practice asks for 45° to 60° and 6 dB to 10 dB, and for a crossover
// below a fifth of the switching frequency and a third of a right-half-plane
// zero. A margin below zero says that the loop oscillates.
//
// Holds below half the switching frequency, which therefore ends the search
// for both frequencies. Of several crossovers the highest counts.
//
// Source: H. W. Bode, Network Analysis and Feedback Amplifier Design, 1945,
// chapter 18, from memory; Kirchhoff's laws.
//
// Caution: transconductances of data sheets are typical, with 20 % to 30 %
// either way; the capacitance under bias decides the crossover. A phase that
// falls below −180° at lower frequencies and rises again is not looked at:
// Bode shows it. Ripple that the amplifier passes on moves the limit of
// oscillation by some tenths. A measured loop is the proof.
func Margins(plant Plant, amplifier Amplifier) (MarginsResult, error) {
	const function = "loop.Margins"
	if err := argument.First(function, plant.check(), amplifier.check()); err != nil {
		return MarginsResult{}, err
	}
	of, parts := circuits(plant, amplifier)
	gainAt := func(name string, share float64) units.Quantity {
		return units.Lanewise(name, unity, func(x []float64) float64 { c := of(x); return c.loop(share * c.frequency).decibels() }, parts...)
	}
	if err := argument.First(function,
		argument.Above("the gain at a millionth of the switching frequency", gainAt("the gain at low frequency", least), "a gain of 1", unity, "such a loop hardly regulates; give the amplifier more gain"),
		argument.Under("the gain at half the switching frequency", gainAt("the gain at half the switching frequency", most), "a gain of 1", unity, "such a loop oscillates; give the amplifier less gain, or raise the output capacitance"),
	); err != nil {
		return MarginsResult{}, err
	}
	crossover := units.Lanewise("the crossover", plant.Frequency, func(x []float64) float64 { return of(x).crossover() }, parts...)
	_, shape := circuits(plant.unscaled(), amplifier.unscaled())
	turning := units.Lanewise("the frequency of −180°", plant.Frequency, func(x []float64) float64 { return of(x).turning() }, shape...)
	phase := units.Lanewise("the phase", radian, func(x []float64) float64 { return of(x[1:]).loop(x[0]).phase }, prepend(crossover, shape)...)
	gain := units.Lanewise("the gain", unity, func(x []float64) float64 { return of(x[1:]).loop(x[0]).decibels() }, prepend(turning, parts)...)
	return MarginsResult{
		Crossover:      crossover,
		CrossoverShare: crossover.Div(plant.Frequency),
		PhaseMargin:    units.In(halfTurn.Add(phase), "deg"),
		Turning:        turning,
		GainMargin:     unity.Sub(gain),
	}, nil
}

var (
	unity    = units.VoltageGain(units.Number(1))
	radian   = units.Atan(units.Number(1)).Div(units.Number(math.Pi / 4))
	siemens  = units.MustParse("1 S")
	halfTurn = units.In(radian.Mul(units.Pi), "deg")
)
