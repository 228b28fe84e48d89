package stepdown

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// CompensationInputs are the arguments of Compensation.
type CompensationInputs struct {
	Stage       Stage          // Load is the largest
	Capacitance units.Quantity // at the output, with its bias, F
	ESR         units.Quantity // its equivalent series resistance, Ω; left out: none
	Reference   units.Quantity // voltage at the feedback pin, V
	Amplifier   units.Quantity // transconductance of the error amplifier, A/V
	PowerStage  units.Quantity // inductor current per volt of the amplifier's output, A/V
	Crossover   units.Quantity // frequency wanted at which the loop's gain is 1, Hz
}

// CompensationResult is what Compensation finds.
type CompensationResult struct {
	LoadPole      units.Quantity // of load and output capacitor, Hz
	Resistor      units.Quantity // from the amplifier's output, in series with Capacitor, Ω
	Capacitor     units.Quantity // to ground, F
	HighCapacitor units.Quantity // across both, F
}

// Compensation finds the ideal parts that compensate the loop of a regulator
// with current-mode control and a transconductance amplifier: a resistor with
// a capacitor in series, and a small capacitor across both (type II).
//
//	LoadPole      = load/(2π · output · capacitance)
//	Resistor      = 2π · crossover · capacitance/power stage · output/(reference · amplifier)
//	Capacitor     = 1/(2π · Resistor · LoadPole)
//	HighCapacitor = largest of ESR · capacitance/Resistor and 1/(π · Resistor · frequency)
//
// Arguments: Stage, of which Load, A, is above zero here; Capacitance, F,
// Reference, V, Amplifier and PowerStage, A/V, and Crossover, Hz, above zero;
// ESR, Ω, not below zero. It is an error outside of that, and where Crossover
// is not below half the switching frequency.
//
//	c, err := stepdown.Compensation(stepdown.CompensationInputs{
//		Stage: stage, Capacitance: 110µF, ESR: 1mΩ, Reference: 0.8V,
//		Amplifier: 350µA/V, PowerStage: 12A/V, Crossover: 25kHz,
//	})
//	Rc := Nearest(E96, c.Resistor)
//
// Common practice puts the crossover at a tenth of the switching frequency,
// at a fifth at most. Feed the chosen parts back through Loop.
//
// Where it holds and cautions: as Loop.
//
// Source: TPS54540 SLVSBX7 p. 27, equations 45 to 48; the gain of the loop at
// the crossover is 1 (any textbook).
func Compensation(in CompensationInputs) (CompensationResult, error) {
	const function = "stepdown.Compensation"
	esr := argument.Resistance.OrZero(in.ESR)
	if err := argument.First(function,
		in.Stage.check(),
		argument.Current.Positive("Load", in.Stage.Load),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.NotNegative("ESR", esr),
		argument.Voltage.Positive("Reference", in.Reference),
		argument.Transconductance.Positive("Amplifier", in.Amplifier),
		argument.Transconductance.Positive("PowerStage", in.PowerStage),
		argument.Frequency.Positive("Crossover", in.Crossover),
	); err != nil {
		return CompensationResult{}, err
	}
	output, frequency := in.Stage.Output, in.Stage.Frequency
	if err := argument.First(function,
		argument.Under("Crossover", in.Crossover, "half the switching frequency", frequency.Mul(units.Number(0.5)), "no loop is faster; lower it to about a tenth"),
	); err != nil {
		return CompensationResult{}, err
	}
	one, turn := units.Number(1), units.Number(2).Mul(units.Pi)
	loadPole := in.Stage.Load.Div(turn.Mul(output).Mul(in.Capacitance))
	modulator := turn.Mul(in.Crossover).Mul(in.Capacitance).Div(in.PowerStage)
	amplifier := output.Div(in.Reference.Mul(in.Amplifier))
	resistor := modulator.Mul(amplifier)
	capacitor := one.Div(turn.Mul(resistor).Mul(loadPole))
	forESR := esr.Mul(in.Capacitance).Div(resistor)
	forFrequency := one.Div(units.Pi.Mul(resistor).Mul(frequency))
	return CompensationResult{
		LoadPole:      loadPole,
		Resistor:      resistor,
		Capacitor:     capacitor,
		HighCapacitor: units.Max(forESR, forFrequency),
	}, nil
}
