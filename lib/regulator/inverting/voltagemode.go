package inverting

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/regulator/loop"
	"ohmwright/units"
)

// VoltageModeInputs are the arguments of VoltageMode.
type VoltageModeInputs struct {
	Stage       Stage          // Load is a resistance that takes this current
	Capacitance units.Quantity // at the output, with its bias, F
	ESR         units.Quantity // its equivalent series resistance, Ω; left out: none
	Ramp        units.Quantity // of the modulator, peak to peak, V
	Delay       units.Quantity // of comparator and driver, s; left out: none
}

// VoltageModeResult is what VoltageMode finds.
type VoltageModeResult struct {
	LoadResistance units.Quantity // Ω
	Conduction     units.Quantity // share of a period in which current flows, no unit; 1 if continuous
	Gain           units.Quantity // output per control voltage at low frequency, no unit
	Resonance      units.Quantity // of the two poles, Hz
	Quality        units.Quantity // of the two poles, no unit; below 0.5 they are apart
	ESRZero        units.Quantity // Hz; left out without ESR
	RightZero      units.Quantity // in the right half plane, Hz; far away below the boundary
	Plant          loop.Plant     // for package loop
}

// VoltageMode finds what the control voltage does to the output where it sets
// the duty.
//
//	LoadResistance = size/load, where size is that of the output
//	Gain           = Swing/((1 − Duty) · ramp)
//	Swing          = OnVoltage + OffVoltage
//	Slow           = inductance; of a SEPIC that is not Coupled Duty² · first + (1 − Duty)² · second
//	Seen           = Slow/(1 − Duty)²
//	Resonance      = 1/(2π · √(Seen · capacitance))
//	Copper         = winding; of a SEPIC Duty² · winding + (1 − Duty)² · second winding
//	Resistance     = (Copper + Duty · switch + (1 − Duty) · rectifier)/(1 − Duty)²
//	Quality        = 1/(2π · Resonance · (Seen/LoadResistance + capacitance · (ESR + Resistance)))
//	ESRZero        = 1/(2π · ESR · capacitance)
//	RightZero      = Zero of RightHalfPlaneZero
//
// and below the boundary of conduction, where the current rests,
//
//	Conductance = 1/LoadResistance + load/OffVoltage
//	Gain        = 2 · load/(OnShare · Conductance · ramp)
//	low pole    = 1/(2π · (1/Conductance + ESR) · capacitance)
//	high pole   = frequency/(π · Conduction)
//	Resonance   = √(low pole · high pole)
//	Quality     = Resonance/(low pole + high pole)
//	RightZero   = a hundred times the switching frequency
//
// with Duty and the voltages as function Duty finds them, OnShare and
// Conduction as Currents does. Seen and Resistance are inductance and
// resistances as the output sees them.
//
// Arguments: Stage, of which Load, A, is above zero here; Capacitance, F, and
// Ramp, V, above zero; ESR, Ω, and Delay, s, not below zero. It is an error
// outside of that.
//
//	p, err := inverting.VoltageMode(inverting.VoltageModeInputs{Stage: stage, Capacitance: 33µF, ESR: 3mΩ, Ramp: 1V})
//	m, err := loop.Margins(p.Plant, amplifier)
//
// Sign: the amplifier of an inverting stage turns the plant's sign back.
//
// Holds below half the switching frequency, of a SEPIC far below
// CouplingResonance, and for resistances that are small beside the load's. The
// two sides do not agree at the boundary, and cannot.
//
// Source: Erickson and Maksimović, Fundamentals of Power Electronics,
// chapters 8 (canonical model) and 11 (below the boundary), from memory.
//
// Caution: the resonance moves with input and load, and above it the zero in
// the right half plane follows soon.
func VoltageMode(in VoltageModeInputs) (VoltageModeResult, error) {
	const function = "inverting.VoltageMode"
	if err := argument.First(function,
		in.Stage.plant(in.Capacitance, in.ESR, in.Delay),
		argument.Voltage.Positive("Ramp", in.Ramp),
	); err != nil {
		return VoltageModeResult{}, err
	}
	c, err := in.Stage.cycle()
	if err != nil {
		return VoltageModeResult{}, argument.Within(function, err)
	}
	one, two, twoPi := units.Number(1), units.Number(2), units.Number(2).Mul(units.Pi)
	p, d, load, frequency := in.Stage.parts(), in.Stage.duty(), in.Stage.Load, in.Stage.Frequency
	esr := argument.Resistance.OrZero(in.ESR)
	loadResistance := in.Stage.size().Div(load)
	// Continuous conduction.
	onSquare, offSquare := d.Duty.Mul(d.Duty), d.OffShare.Mul(d.OffShare)
	slow, copper := in.Stage.Inductance, p.winding
	if in.Stage.SEPIC {
		copper = onSquare.Mul(p.winding).Add(offSquare.Mul(p.second))
		if !in.Stage.Coupled {
			slow = onSquare.Mul(in.Stage.Inductance).Add(offSquare.Mul(in.Stage.second()))
		}
	}
	fullGain := d.OnVoltage.Add(d.OffVoltage).Div(d.OffShare.Mul(in.Ramp))
	seen := slow.Div(offSquare)
	fullResonance := one.Div(twoPi.Mul(units.Sqrt(seen.Mul(in.Capacitance))))
	resistance := copper.Add(d.Duty.Mul(p.on)).Add(d.OffShare.Mul(p.rectifier)).Div(offSquare)
	damping := seen.Div(loadResistance).Add(in.Capacitance.Mul(esr.Add(resistance)))
	fullQuality := one.Div(twoPi.Mul(fullResonance).Mul(damping))
	// Below the boundary.
	outputResistance := one.Div(one.Div(loadResistance).Add(load.Div(d.OffVoltage)))
	restGain := two.Mul(load).Div(c.OnShare).Mul(outputResistance).Div(in.Ramp)
	lowPole := one.Div(twoPi.Mul(outputResistance.Add(esr)).Mul(in.Capacitance))
	highPole := frequency.Div(units.Pi.Mul(c.Conduction))
	restResonance := units.Sqrt(lowPole.Mul(highPole))
	restQuality := restResonance.Div(lowPole.Add(highPole))
	r := VoltageModeResult{
		LoadResistance: loadResistance,
		Conduction:     c.Conduction,
		Gain:           units.Where(c.Conduction, one, restGain, fullGain),
		Resonance:      units.Where(c.Conduction, one, restResonance, fullResonance),
		Quality:        units.Where(c.Conduction, one, restQuality, fullQuality),
		RightZero:      units.Where(c.Conduction, one, units.Number(100).Mul(frequency), in.Stage.zero()),
	}
	r.Plant = loop.Plant{
		Gain: r.Gain, Frequency: frequency, RightZero: r.RightZero, Resonance: r.Resonance, Quality: r.Quality, Delay: in.Delay,
	}
	if argument.Given(in.ESR) {
		r.ESRZero = esrZero(in.ESR, in.Capacitance, frequency)
		r.Plant.Zeros = []units.Quantity{r.ESRZero}
	}
	return r, nil
}
