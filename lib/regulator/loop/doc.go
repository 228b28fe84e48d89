// Package loop computes the control loop of a switching regulator, of any
// kind: from the regulator's plant and its error amplifier to crossover,
// margins and the parts of the compensation.
//
//	             ┌───────── upper and lower resistor ◄──┐
//	error amplifier ── control voltage ── Plant ── output
//
// A Plant is what lies between the control voltage and the output; the
// packages stepdown, stepup and inverting make one of a stage, and one can be
// written down from a data sheet or a measurement:
//
//	plant := loop.Plant{Gain: 40, Frequency: 400kHz, Poles: []Quantity{430Hz}, Zeros: []Quantity{530kHz}, SamplingQuality: 0.64}
//	amplifier := loop.Amplifier{
//		Transconductance: 350µA/V, Upper: 52.3kΩ, Lower: 10kΩ,
//		Resistor: 13kΩ, Capacitor: 10nF, HighCapacitor: 47pF,
//	}
//	m, err := loop.Margins(plant, amplifier)
//	// m.Crossover, m.PhaseMargin, m.GainMargin
//
// TypeI, TypeII, TypeIII and Place find the parts for a crossover; choose
// buyable ones, and ask Margins of those. Bode draws the response. Give every
// value its tolerance and its range: the margins then are those of every case.
//
// What fails: a value of another dimension, parts that make no amplifier, a
// loop whose gain does not pass 1 between a millionth and a half of the
// switching frequency. Each error names the argument, its value, the limit,
// and what to change.
//
// What holds throughout: small signals around one state; below half the
// switching frequency, above which no averaged model says anything.
//
// What the package does not cover: a phase that dips below −180° at less than
// the crossover (Bode shows it), amplifiers that feed an optocoupler, digital
// control, the output impedance that a loop makes, and an input filter's part in
// it.
package loop
