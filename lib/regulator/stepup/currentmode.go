package stepup

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/regulator/loop"
	"ohmwright/units"
)

// CurrentModeInputs are the arguments of CurrentMode.
type CurrentModeInputs struct {
	Stage       Stage          // Load is a resistance that takes this current
	Capacitance units.Quantity // at the output, with its bias, F
	ESR         units.Quantity // its equivalent series resistance, Ω; left out: none
	PowerStage  units.Quantity // peak current of the inductor per control voltage, A/V
	Slope       units.Quantity // of the compensation ramp, as a current, A/s; left out: none
	Delay       units.Quantity // of comparator and driver, s; left out: none
}

// CurrentModeResult is what CurrentMode finds.
type CurrentModeResult struct {
	LoadResistance  units.Quantity // Ω
	Conduction      units.Quantity // share of a period in which current flows, no unit; 1 if continuous
	LeastSlope      units.Quantity // at which the current begins to alternate, A/s
	Gain            units.Quantity // output per control voltage at low frequency, no unit
	Pole            units.Quantity // of load and output capacitor, Hz
	ESRZero         units.Quantity // Hz; left out without ESR
	RightZero       units.Quantity // in the right half plane, Hz; far away below the boundary
	SamplingQuality units.Quantity // of the pair at half the switching frequency, no unit
	Plant           loop.Plant     // for package loop
}

// CurrentMode finds what the control voltage does to the output where it sets
// the peak of the inductor's current.
//
//	LoadResistance  = output/load
//	LeastSlope      = (OffSlope − OnSlope)/2, not below zero
//	Conductance     = 1/LoadResistance + load/Swing + (1 − Duty)² · (slope + OnSlope/2)/(frequency · Swing)
//	Swing           = OnVoltage + OffVoltage
//	Gain            = power stage · (1 − Duty)/Conductance
//	Pole            = 1/(2π · (1/Conductance + ESR) · capacitance)
//	ESRZero         = 1/(2π · ESR · capacitance)
//	RightZero       = OnVoltage/(2π · inductance · Mean)
//	SamplingQuality = (OnSlope + OffSlope)/(π · (slope − (OffSlope − OnSlope)/2))
//
// and below the boundary of conduction, where the current rests,
//
//	Conductance     = 1/LoadResistance + load/OffVoltage
//	Gain            = power stage · 2 · load · OnSlope/((OnSlope + slope) · Peak · Conductance)
//	RightZero       = a hundred times the switching frequency
//	SamplingQuality = 1
//
// with Duty, Mean and the voltages as function Duty finds them, Peak and the
// slopes as Currents does. Without the last part of Conductance, which is
// small, Gain and Pole are those of data sheets: power stage · LoadResistance
// · (1 − Duty)/2 and 2/(2π · LoadResistance · capacitance).
//
// Arguments: Stage, of which Load, A, is above zero here; Capacitance, F, and
// PowerStage, A/V, above zero; ESR, Ω, and Delay, s, not below zero; Slope,
// A/s, not below zero, and in continuous conduction above half of what
// OffSlope is above OnSlope. It is an error outside of that.
//
//	p, err := stepup.CurrentMode(stepup.CurrentModeInputs{Stage: stage, Capacitance: 22µF, ESR: 3mΩ, PowerStage: 10A/V, Slope: 0.5A/µs})
//	m, err := loop.Margins(p.Plant, amplifier)
//
// SamplingQuality is the usual 1/(π · (m · (1 − Duty) − 1/2)), where m is
// (OnSlope + slope)/OnSlope. The two sides do not agree at the boundary, and
// cannot: there the current begins to remember the period before.
//
// Holds below half the switching frequency, and for a load that is a
// resistance; one of constant current damps less.
//
// Source: Erickson and Maksimović, Fundamentals of Power Electronics,
// chapters on current-programmed control, and R. B. Ridley, A new,
// continuous-time model for current-mode control, 1991, both from memory;
// LM5176 section 8.2.2.14 has the pole and both zeros.
//
// Caution: the worst of the loop is at the lowest input and the largest load,
// where the zero in the right half plane is lowest; give both their ranges.
func CurrentMode(in CurrentModeInputs) (CurrentModeResult, error) {
	const function = "stepup.CurrentMode"
	slope := argument.CurrentSlope.OrZero(in.Slope)
	d, c, err := in.Stage.cycle(function)
	if err != nil {
		return CurrentModeResult{}, err
	}
	if err := argument.First(function,
		in.Stage.plant(in.Capacitance, in.ESR, in.Delay),
		argument.Transconductance.Positive("PowerStage", in.PowerStage),
		argument.CurrentSlope.NotNegative("Slope", slope),
	); err != nil {
		return CurrentModeResult{}, err
	}
	one, two, half, twoPi := units.Number(1), units.Number(2), units.Number(0.5), units.Number(2).Mul(units.Pi)
	zero := slope.Sub(slope)
	fullLeast := c.OffSlope.Sub(c.OnSlope).Mul(half)
	// A current that rests forgets the period before: any slope will do.
	least := units.Where(c.Conduction, one, c.OnSlope.Neg(), fullLeast)
	excess := slope.Sub(fullLeast)
	if err := argument.First(function,
		argument.Above("Slope", slope, "half of what the falling slope is steeper than the rising one", least, "the current would alternate from period to period; raise Slope or Inductance, or keep the duty below a half"),
	); err != nil {
		return CurrentModeResult{}, err
	}
	load, frequency := in.Stage.Load, in.Stage.Frequency
	loadResistance := in.Stage.Output.Div(load)
	swing := d.OnVoltage.Add(d.OffVoltage)
	offShare := d.OnVoltage.Div(swing)
	ramps := slope.Add(c.OnSlope.Mul(half)).Div(frequency.Mul(swing))
	fullConductance := one.Div(loadResistance).Add(load.Div(swing)).Add(offShare.Mul(offShare).Mul(ramps))
	fullGain := in.PowerStage.Mul(offShare).Div(fullConductance)
	restConductance := one.Div(loadResistance).Add(load.Div(d.OffVoltage))
	restGain := in.PowerStage.Mul(two).Mul(load).Mul(c.OnSlope).Div(c.OnSlope.Add(slope).Mul(c.Peak).Mul(restConductance))
	resistance := one.Div(units.Where(c.Conduction, one, restConductance, fullConductance))
	// The quality of those that rest is 1, and its formula must not divide by zero there.
	both := c.OnSlope.Add(c.OffSlope)
	positive := units.Where(c.Conduction, one, both.Div(units.Pi), excess)
	r := CurrentModeResult{
		LoadResistance:  loadResistance,
		Conduction:      c.Conduction,
		LeastSlope:      units.Max(least, zero),
		Gain:            units.Where(c.Conduction, one, restGain, fullGain),
		Pole:            one.Div(twoPi.Mul(resistance.Add(argument.Resistance.OrZero(in.ESR))).Mul(in.Capacitance)),
		RightZero:       units.Where(c.Conduction, one, units.Number(100).Mul(frequency), in.Stage.zero()),
		SamplingQuality: both.Div(units.Pi.Mul(positive)),
	}
	r.Plant = loop.Plant{
		Gain: r.Gain, Frequency: frequency, Poles: []units.Quantity{r.Pole}, RightZero: r.RightZero, SamplingQuality: r.SamplingQuality, Delay: in.Delay,
	}
	if argument.Given(in.ESR) {
		r.ESRZero = esrZero(in.ESR, in.Capacitance, frequency)
		r.Plant.Zeros = []units.Quantity{r.ESRZero}
	}
	return r, nil
}

// plant refuses what no plant can be made of, of a stage that was checked.
func (s Stage) plant(capacitance, esr, delay units.Quantity) error {
	for _, err := range []error{
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

// esrZero is the zero of a capacitor's resistance. A resistance of nothing
// puts it at infinity, which a hundred thousand times the switching frequency
// stands for.
func esrZero(esr, capacitance, frequency units.Quantity) units.Quantity {
	one, twoPi := units.Number(1), units.Number(2).Mul(units.Pi)
	time := units.Max(esr.Mul(capacitance), units.Number(1e-6).Div(frequency))
	return one.Div(twoPi.Mul(time))
}
