package stepdown

import (
	"errors"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// SkippingInputs are the arguments of Skipping.
type SkippingInputs struct {
	Stage       Stage          // Load may be zero
	LeastOn     units.Quantity // shortest on-time that the regulator makes, s; left out: none
	LeastPeak   units.Quantity // peak of the current below which it ends no pulse, A; left out: none
	Capacitance units.Quantity // at the output, with its bias, F
	ESR         units.Quantity // its equivalent series resistance, Ω; left out: none
}

// SkippingResult is what Skipping finds.
type SkippingResult struct {
	ShortestOn units.Quantity // on-time of the smallest pulse, s
	SkipLoad   units.Quantity // load below which pulses are skipped, A
	OnTime     units.Quantity // of the pulses at this load, s
	Swing      units.Quantity // of the inductor's current in a pulse, A
	Frequency  units.Quantity // mean number of pulses, Hz
	Share      units.Quantity // of the periods that have a pulse, no unit
	Peak       units.Quantity // of the inductor's current, A
	Capacitive units.Quantity // ripple of the output from the capacitance, peak to peak, V
	Resistive  units.Quantity // ripple from the ESR, V
}

// Skipping computes how often a regulator pulses at light load, or at an
// input so high that its shortest pulse is too long, and the output's ripple.
//
//	ShortestOn = largest of LeastOn and LeastPeak/OnSlope
//	SkipLoad   = OnSlope · ShortestOn/2 · ShortestOn · frequency/Duty
//	OnTime     = largest of ShortestOn and what Currents finds
//	Swing      = OnSlope · OnTime
//	Frequency  = Duty/OnTime · (least of 1 and load/(Swing/2))
//	Share      = Frequency/frequency
//	Mean       = largest of load and Swing/2
//	Peak       = Mean + Swing/2
//	Capacitive = (Peak − load)²/(2 · Swing) · OnTime/Duty/capacitance
//	Resistive  = Swing · ESR
//
// with Duty as function Duty finds it and the slopes as Currents does.
//
// Arguments: Stage, which is not Forced; LeastOn, s, and LeastPeak, A, of
// which at least one is given, above zero; Capacitance, F, above zero; ESR, Ω,
// not below zero. It is an error outside of that.
//
//	s, err := stepdown.Skipping(stepdown.SkippingInputs{
//		Stage: stage, LeastOn: 110ns, LeastPeak: 0.4A, Capacitance: 44µF, ESR: 2mΩ,
//	})
//	Require(s.Frequency > 20kHz, "nobody hears the regulator")
//
// Give Load as a range, down to what the sleeping circuit takes: the ripple is
// largest there. Above SkipLoad the results are those of Currents, and the
// capacitive part that of OutputRipple; the sides agree. Where ShortestOn is
// longer than the on-time of continuous conduction pulses are skipped at any
// load.
//
// Holds for pulses that come singly. A regulator that gathers them into
// bursts adds the hysteresis of its comparator to the ripple, and lowers the
// frequency of the bursts by the number of pulses in each. One that pulses
// only at the edges of its clock waits for the next: the ripple grows by up to
// load/(frequency · capacitance).
//
// Source: charge of a triangle of current; data sheets of regulators with
// pulse-frequency modulation give the same with Duty as output/input, such as
// TPS62130 SLVSAG7, equation for the frequency in power-save mode, from memory.
//
// Caution: the output's mean is a little higher than at full load, by half of
// the ripple or more. Ceramic capacitors sing at audible frequencies.
func Skipping(in SkippingInputs) (SkippingResult, error) {
	const function = "stepdown.Skipping"
	esr := argument.Resistance.OrZero(in.ESR)
	if err := argument.First(function,
		in.Stage.withInductor(),
		argument.Time.Optional("LeastOn", in.LeastOn),
		argument.Current.Optional("LeastPeak", in.LeastPeak),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.NotNegative("ESR", esr),
		in.skips(),
	); err != nil {
		return SkippingResult{}, err
	}
	load, frequency := in.Stage.Load, in.Stage.Frequency
	one, two, half := units.Number(1), units.Number(2), units.Number(0.5)
	i := in.Stage.currents()
	shortestOn := argument.Time.OrZero(in.LeastOn)
	if argument.Given(in.LeastPeak) {
		shortestOn = units.Max(shortestOn, in.LeastPeak.Div(i.OnSlope))
	}
	skipLoad := i.OnSlope.Mul(shortestOn).Mul(half).Mul(shortestOn.Mul(frequency)).Div(i.Duty)
	onTime := units.Max(shortestOn, i.OnTime)
	swing := i.OnSlope.Mul(onTime)
	boundary := swing.Mul(half)
	pulses := i.Duty.Div(onTime).Mul(units.Min(one, load.Div(boundary)))
	mean := units.Max(load, boundary)
	peak := mean.Add(boundary)
	above := peak.Sub(load)
	length := onTime.Div(i.Duty)
	capacitive := above.Mul(above).Div(two.Mul(swing)).Mul(length).Div(in.Capacitance)
	resistive := swing.Mul(esr)
	return SkippingResult{
		ShortestOn: shortestOn,
		SkipLoad:   skipLoad,
		OnTime:     onTime,
		Swing:      swing,
		Frequency:  pulses,
		Share:      pulses.Div(frequency),
		Peak:       peak,
		Capacitive: capacitive,
		Resistive:  resistive,
	}, nil
}

// skips refuses a stage that has no reason to skip.
func (in SkippingInputs) skips() error {
	switch {
	case in.Stage.Forced:
		return errors.New("the stage is Forced; its current reverses at light load and no pulse is skipped there: leave out Forced, or ask Timing for the highest input")
	case !argument.Given(in.LeastOn) && !argument.Given(in.LeastPeak):
		return errors.New("neither LeastOn nor LeastPeak is given; one of them makes the smallest pulse: give the shortest on-time, such as 110 ns, or the least peak current, such as 0.4 A")
	}
	return nil
}
