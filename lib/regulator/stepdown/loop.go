package stepdown

import (
	"math"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// LoopInputs are the arguments of Loop.
type LoopInputs struct {
	Stage         Stage
	Capacitance   units.Quantity // at the output, with its bias, F
	ESR           units.Quantity // its equivalent series resistance, Ω; left out: none
	Reference     units.Quantity // voltage at the feedback pin, V
	Amplifier     units.Quantity // transconductance of the error amplifier, A/V
	PowerStage    units.Quantity // inductor current per volt of the amplifier's output, A/V
	Resistor      units.Quantity // from the amplifier's output, in series with Capacitor, Ω
	Capacitor     units.Quantity // to ground, F
	HighCapacitor units.Quantity // across both, F; left out: none
	Quality       units.Quantity // of the pole pair at half the switching frequency, no unit; left out: 2/π
}

// LoopResult is what Loop finds.
type LoopResult struct {
	LoadResistance units.Quantity // Ω
	Crossover      units.Quantity // highest frequency at which the loop's gain is 1, Hz
	CrossoverShare units.Quantity // of the switching frequency, no unit
	PhaseMargin    units.Quantity // above −180° at the crossover, °
	GainMargin     units.Quantity // below 1 where the phase reaches −180°, at half the switching frequency at most, dB
}

// Loop computes crossover, phase margin and gain margin of a regulator with
// current-mode control and a type II network at a transconductance amplifier.
//
//	gain(ω)      = factor · |amplifier's load(ω)| · |output's impedance(ω)| · |sampling(ω)|
//	factor       = amplifier · power stage · reference/output
//	amplifier's load:   resistor and capacitor in series, high capacitor across them
//	output's impedance: LoadResistance = output/load, and ESR and capacitance in series across it
//	sampling(ω)  = 1/(1 + jω/(Quality · ωn) − ω²/ωn²), ωn = π · frequency
//	gain(2π · Crossover) = 1
//	PhaseMargin  = 180° + phase(2π · Crossover)
//	GainMargin   = −gain in dB, where the phase is −180°
//
// Arguments: Stage, of which Load, A, is above zero here; Capacitance, F,
// Reference, V, Amplifier and PowerStage, A/V, Resistor, Ω, and Capacitor, F,
// above zero; ESR, Ω, and HighCapacitor, F, not below zero; Quality above
// zero. It is an error outside of that, and where the gain is not above 1 at
// a millionth of the switching frequency and below 1 at half of it: such a
// loop has no crossover to speak of.
//
//	l, err := stepdown.Loop(stepdown.LoopInputs{
//		Stage: stage, Capacitance: Cout, ESR: 1mΩ, Reference: Vref, Amplifier: 350µA/V, PowerStage: 12A/V,
//		Resistor: Rc, Capacitor: Cc, HighCapacitor: Ch,
//	})
//	Require(l.PhaseMargin >= 45deg, "the loop is stable")
//
// Give every value its tolerance: the margins then are those of every case.
// Common practice asks for 45° to 60° and 6 dB to 10 dB.
//
// Holds in continuous conduction, below half the switching frequency, for an
// ideal amplifier. Quality is 1/(π · (m · (1 − Duty) − 0.5)), where m is the
// ramp of the slope compensation and of the current together over that of
// the current; 2/π is the usual aim. Below the boundary of conduction the
// crossover is lower.
//
// Source: R. B. Ridley, A new, continuous-time model for current-mode
// control, 1991, from memory (pole pair at half the switching frequency);
// Kirchhoff's laws.
//
// Caution: transconductances of data sheets are typical, with 20 % to 30 %
// either way. The capacitance under bias decides the crossover. A measured
// loop is the proof.
func Loop(in LoopInputs) (LoopResult, error) {
	const function = "stepdown.Loop"
	esr := argument.Resistance.OrZero(in.ESR)
	highCapacitor := argument.Capacitance.OrZero(in.HighCapacitor)
	quality := units.Number(2 / math.Pi)
	if argument.Given(in.Quality) {
		quality = in.Quality
	}
	if err := argument.First(function,
		in.Stage.check(),
		argument.Current.Positive("Load", in.Stage.Load),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.NotNegative("ESR", esr),
		argument.Voltage.Positive("Reference", in.Reference),
		argument.Transconductance.Positive("Amplifier", in.Amplifier),
		argument.Transconductance.Positive("PowerStage", in.PowerStage),
		argument.Resistance.Positive("Resistor", in.Resistor),
		argument.Capacitance.Positive("Capacitor", in.Capacitor),
		argument.Capacitance.NotNegative("HighCapacitor", highCapacitor),
		argument.Share.Positive("Quality", quality),
	); err != nil {
		return LoopResult{}, err
	}
	one, frequency := units.Number(1), in.Stage.Frequency
	loadResistance := in.Stage.Output.Div(in.Stage.Load)
	factor := in.Amplifier.Mul(in.PowerStage).Mul(in.Reference).Div(in.Stage.Output)
	parts := []units.Quantity{factor, loadResistance, in.Capacitance, esr, in.Resistor, in.Capacitor, highCapacitor, frequency, quality}
	lowGain := units.Lanewise("the gain at low frequency", one, func(x []float64) float64 { return loopOf(x).gain(1e-6) }, parts...)
	highGain := units.Lanewise("the gain at half the switching frequency", one, func(x []float64) float64 { return loopOf(x).gain(0.5) }, parts...)
	if err := argument.First(function,
		argument.Above("the gain at a millionth of the switching frequency", lowGain, "1", one, "such a loop hardly regulates; raise Resistor or lower Capacitor"),
		argument.Under("the gain at half the switching frequency", highGain, "1", one, "such a loop oscillates; lower Resistor or raise Capacitance"),
	); err != nil {
		return LoopResult{}, err
	}
	crossoverShare := units.Lanewise("the crossover", one, func(x []float64) float64 { return loopOf(x).crossover() }, parts...)
	phaseMargin := units.Lanewise("the phase margin", units.Atan(one), func(x []float64) float64 { l := loopOf(x); return math.Pi + l.phase(l.crossover()) }, parts...)
	worstGain := units.Lanewise("the gain margin", one, func(x []float64) float64 { l := loopOf(x); return l.gain(l.turning()) }, parts...)
	return LoopResult{
		LoadResistance: loadResistance,
		Crossover:      crossoverShare.Mul(frequency),
		CrossoverShare: crossoverShare,
		PhaseMargin:    units.In(phaseMargin, "deg"),
		GainMargin:     units.VoltageGain(one.Div(worstGain)),
	}, nil
}

// loop is one case of a loop; frequencies are shares of the switching
// frequency.
type loop struct{ factor, load, c, esr, r, cc, ch, f, q float64 }

func loopOf(x []float64) loop {
	return loop{x[0], x[1], x[2], x[3], x[4], x[5], x[6], x[7], x[8]}
}

// gain is the size of the loop's response at a frequency.
func (l loop) gain(share float64) float64 {
	w, n := 2*math.Pi*share*l.f, 2*share
	x, y := 1/(w*l.cc), 1/(w*l.c) // reactances of capacitor and output capacitor
	amplifier := math.Hypot(l.r, x) / math.Hypot(1+w*l.ch*x, w*l.ch*l.r)
	output := l.load * math.Hypot(l.esr, y) / math.Hypot(l.load+l.esr, y)
	sampling := 1 / math.Hypot(1-n*n, n/l.q)
	return l.factor * amplifier * output * sampling
}

// phase is its angle. No part turns by more than half a turn, so that the
// angles add up without a jump.
func (l loop) phase(share float64) float64 {
	w, n := 2*math.Pi*share*l.f, 2*share
	x, y := 1/(w*l.cc), 1/(w*l.c)
	amplifier := -math.Atan2(x, l.r) - math.Atan2(w*l.ch*l.r, 1+w*l.ch*x)
	output := math.Atan2(y, l.load+l.esr) - math.Atan2(y, l.esr)
	sampling := -math.Atan2(n/l.q, 1-n*n)
	return amplifier + output + sampling
}

// crossover is the highest frequency at which the gain is 1.
func (l loop) crossover() float64 {
	return l.last(1e-6, func(share float64) bool { return l.gain(share) > 1 })
}

// turning is where the phase reaches a half turn, or half the switching
// frequency if it does not before.
func (l loop) turning() float64 {
	if l.phase(0.5) > -math.Pi {
		return 0.5
	}
	return l.last(1e-6, func(share float64) bool { return l.phase(share) > -math.Pi })
}

// last finds where something that is so at low frequencies ends to be so for
// good, up to half the switching frequency: on a grid from above, then by
// halving.
func (l loop) last(low float64, is func(share float64) bool) float64 {
	const points = 200
	step := math.Pow(0.5/low, 1.0/points)
	high := 0.5
	for range points {
		below := high / step
		if is(below) {
			for range 60 {
				if middle := (below + high) / 2; is(middle) {
					below = middle
				} else {
					high = middle
				}
			}
			return (below + high) / 2
		}
		high = below
	}
	return high
}
