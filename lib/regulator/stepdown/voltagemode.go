package stepdown

import (
	"errors"

	"ohmwright/lib/argument"
	"ohmwright/lib/regulator/loop"
	"ohmwright/units"
)

// VoltageModeInputs are the arguments of VoltageMode.
type VoltageModeInputs struct {
	Stage       Stage          // Load is a resistance that takes this current
	Capacitance units.Quantity // at the output, with its bias, F
	ESR         units.Quantity // its equivalent series resistance, Ω; left out: none
	Ramp        units.Quantity // of the modulator, peak to peak, V; left out with RampShare
	RampShare   units.Quantity // of a feed-forward modulator: Ramp over the input voltage, no unit
	Delay       units.Quantity // of comparator and driver, s; left out: none
}

// VoltageModeResult is what VoltageMode finds.
type VoltageModeResult struct {
	Modulator        units.Quantity // switch node's mean voltage per control voltage, no unit
	LoadResistance   units.Quantity // Ω
	SeriesResistance units.Quantity // of switches and winding, as the output sees it, Ω
	Conduction       units.Quantity // share of a period in which current flows, no unit; 1 if continuous
	Gain             units.Quantity // output per control voltage at low frequency, no unit
	Resonance        units.Quantity // of the two poles, Hz
	Quality          units.Quantity // of the two poles, no unit; below 0.5 they are apart
	ESRZero          units.Quantity // Hz; left out without ESR
	Plant            loop.Plant     // for package loop
}

// VoltageMode finds what the control voltage does to the output where it sets
// the duty: the output filter's pair of poles, damped by the load, the series
// resistances and the capacitor's.
//
//	Modulator        = (OnVoltage + OffVoltage)/ramp
//	LoadResistance   = output/load
//	SeriesResistance = winding + Duty · high switch + (1 − Duty) · low switch
//	Gain             = Modulator · LoadResistance/(LoadResistance + SeriesResistance)
//	Resonance        = √((LoadResistance + SeriesResistance)/(inductance · capacitance · (LoadResistance + ESR)))/2π
//	damping          = (inductance + capacitance · (LoadResistance · SeriesResistance + LoadResistance · ESR + SeriesResistance · ESR))/(LoadResistance + SeriesResistance)
//	Quality          = 1/(2π · Resonance · damping)
//	ESRZero          = 1/(2π · ESR · capacitance)
//
// and below the boundary of conduction, where the current rests,
//
//	output resistance = LoadResistance ∥ 1/(load · (1/OnVoltage + 1/OffVoltage))
//	Gain       = Modulator/(OnVoltage + OffVoltage) · 2 · load/OnShare · output resistance
//	low pole   = 1/(2π · (output resistance + ESR) · capacitance)
//	high pole  = frequency/(π · Conduction)
//	Resonance  = √(low pole · high pole)
//	Quality    = Resonance/(low pole + high pole)
//
// with Duty and the voltages as function Duty finds them, OnShare and
// Conduction as Currents does. RampShare makes ramp = RampShare · input: then
// the loop does not change with the input.
//
// Arguments: Stage, of which Load, A, is above zero here; Capacitance, F,
// above zero; ESR, Ω, and Delay, s, not below zero; of Ramp, V, and RampShare
// one, above zero. It is an error outside of that.
//
//	p, err := stepdown.VoltageMode(stepdown.VoltageModeInputs{
//		Stage: stage, Capacitance: 44µF, ESR: 2mΩ, RampShare: 1/8.0,
//	})
//	c, err := loop.TypeIII(loop.DesignInputs{
//		Plant: p.Plant, Amplifier: loop.Amplifier{Upper: 10kΩ}, Crossover: 40kHz, PhaseMargin: 60deg,
//	})
//
// Give Load as a range: at light load of a stage that lets the current rest
// the pair falls apart, and the crossover with it. The two sides do not agree
// at the boundary, and cannot: there the current begins to remember the period
// before.
//
// Holds below half the switching frequency, for a modulator that compares
// once in a period and a load that is a resistance. A load of constant current
// damps less: LoadResistance counts as if it took the load.
//
// Source: Erickson and Maksimović, Fundamentals of Power Electronics,
// chapters 7 and 11, from memory; with every resistance from Kirchhoff's laws.
//
// Caution: losses in core, edges and capacitor damp a little more than that.
// A ramp's amplitude of a data sheet has a tolerance as wide as any.
func VoltageMode(in VoltageModeInputs) (VoltageModeResult, error) {
	const function = "stepdown.VoltageMode"
	if err := argument.First(function, in.check()); err != nil {
		return VoltageModeResult{}, err
	}
	s := in.Stage
	load, frequency, inductance, capacitance := s.Load, s.Frequency, s.Inductance, in.Capacitance
	esr := argument.Resistance.OrZero(in.ESR)
	one, two, turn := units.Number(1), units.Number(2), units.Number(2).Mul(units.Pi)
	d, i := s.duty(), s.currents()
	ramp := in.Ramp
	if argument.Given(in.RampShare) {
		ramp = in.RampShare.Mul(s.Input)
	}
	swing := d.OnVoltage.Add(d.OffVoltage)
	modulator := swing.Div(ramp)
	loadResistance := s.Output.Div(load)
	seriesResistance := s.seriesResistance(d)
	// Continuous conduction.
	sum := loadResistance.Add(seriesResistance)
	fullGain := modulator.Mul(loadResistance).Div(sum)
	square := sum.Div(inductance.Mul(capacitance).Mul(loadResistance.Add(esr)))
	fullResonance := units.Sqrt(square).Div(turn)
	products := loadResistance.Mul(seriesResistance).Add(loadResistance.Mul(esr)).Add(seriesResistance.Mul(esr))
	damping := inductance.Add(capacitance.Mul(products)).Div(sum)
	fullQuality := one.Div(turn.Mul(fullResonance).Mul(damping))
	// Below the boundary.
	conductance := load.Div(d.OnVoltage).Add(load.Div(d.OffVoltage))
	outputResistance := one.Div(one.Div(loadResistance).Add(conductance))
	restGain := two.Mul(load).Div(i.OnShare).Mul(outputResistance).Div(ramp)
	lowPole := one.Div(turn.Mul(outputResistance.Add(esr)).Mul(capacitance))
	highPole := frequency.Div(units.Pi.Mul(i.Conduction))
	restResonance := units.Sqrt(lowPole.Mul(highPole))
	restQuality := restResonance.Div(lowPole.Add(highPole))
	r := VoltageModeResult{
		Modulator:        modulator,
		LoadResistance:   loadResistance,
		SeriesResistance: seriesResistance,
		Conduction:       i.Conduction,
		Gain:             units.Where(i.Conduction, one, restGain, fullGain),
		Resonance:        units.Where(i.Conduction, one, restResonance, fullResonance),
		Quality:          units.Where(i.Conduction, one, restQuality, fullQuality),
	}
	r.Plant = loop.Plant{Gain: r.Gain, Frequency: frequency, Resonance: r.Resonance, Quality: r.Quality, Delay: in.Delay}
	if argument.Given(in.ESR) {
		r.ESRZero = esrZero(esr, capacitance, frequency)
		r.Plant.Zeros = []units.Quantity{r.ESRZero}
	}
	return r, nil
}

func (in VoltageModeInputs) check() error {
	if err := plantStage(in.Stage, in.Capacitance, in.ESR, in.Delay); err != nil {
		return err
	}
	if argument.Given(in.Ramp) == argument.Given(in.RampShare) {
		return errors.New("of Ramp and RampShare one says how far the control voltage goes: give Ramp in V for a fixed ramp, or RampShare for one that follows the input, such as 10 %")
	}
	if argument.Given(in.RampShare) {
		return argument.Share.Positive("RampShare", in.RampShare)
	}
	return argument.Voltage.Positive("Ramp", in.Ramp)
}

// plantStage refuses what no plant can be made of.
func plantStage(s Stage, capacitance, esr, delay units.Quantity) error {
	for _, err := range []error{
		s.withInductor(),
		argument.Current.Positive("Load", s.Load),
		argument.Capacitance.Positive("Capacitance", capacitance),
		argument.Resistance.NotNegative("ESR", argument.Resistance.OrZero(esr)),
		argument.Time.NotNegative("Delay", argument.Time.OrZero(delay)),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// seriesResistance is what switches and winding put in series with the
// inductor, each for the share of a period for which it conducts.
func (s Stage) seriesResistance(d DutyResult) units.Quantity {
	highSwitch, lowSwitch := argument.Resistance.OrZero(s.HighSwitch), argument.Resistance.OrZero(s.LowSwitch)
	offShare := units.Number(1).Sub(d.Duty)
	return argument.Resistance.OrZero(s.Winding).Add(d.Duty.Mul(highSwitch)).Add(offShare.Mul(lowSwitch))
}

// esrZero is the zero of a capacitor's resistance. A resistance of nothing
// puts it at infinity, which a hundred thousand times the switching frequency
// stands for.
func esrZero(esr, capacitance, frequency units.Quantity) units.Quantity {
	one, turn := units.Number(1), units.Number(2).Mul(units.Pi)
	time := units.Max(esr.Mul(capacitance), units.Number(1e-6).Div(frequency))
	return one.Div(turn.Mul(time))
}
