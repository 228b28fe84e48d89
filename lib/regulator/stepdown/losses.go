package stepdown

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// LossesInputs are the arguments of Losses. Whatever is left out is none.
type LossesInputs struct {
	Stage            Stage          // Load above zero
	RiseTime         units.Quantity // of the switch node as the high switch turns on, s
	FallTime         units.Quantity // of the switch node as it turns off, s
	NodeCapacitance  units.Quantity // of the switch node, both switches or the diode, F
	RecoveryCharge   units.Quantity // reverse recovery of diode or low switch, C
	GateCharge       units.Quantity // of all gates driven in each period, C
	GateSupply       units.Quantity // where that charge is taken from, V; left out: the input
	DeadTime         units.Quantity // both gaps of a period together, s
	BodyDiode        units.Quantity // forward voltage in the dead time, V
	DiodeLeakage     units.Quantity // of a Diode, hot, at the input voltage, A
	Quiescent        units.Quantity // input current of the regulator itself, A
	WindingAC        units.Quantity // resistance of the winding to the ripple, Ω; left out: as Stage.Winding
	Core             units.Quantity // loss in the core, W; see CoreLoss
	InputESR         units.Quantity // of the input capacitor, Ω
	OutputESR        units.Quantity // of the output capacitor, Ω
	ExternalSwitches bool           // the switches are no part of the regulator
}

// LossesResult is what Losses finds.
type LossesResult struct {
	HighConduction units.Quantity // in the high switch, W
	LowConduction  units.Quantity // in the low switch, W
	Diode          units.Quantity // forward and leakage, W
	Switching      units.Quantity // where voltage and current overlap in the high switch, W
	Node           units.Quantity // of the switch node's capacitance, W
	Recovery       units.Quantity // W
	DeadTime       units.Quantity // in the body diode, W
	Gate           units.Quantity // W
	Quiescent      units.Quantity // W
	Regulator      units.Quantity // heat of the regulator with its switches, W
	Winding        units.Quantity // W
	Core           units.Quantity // W
	Inductor       units.Quantity // heat of the inductor, W
	Capacitors     units.Quantity // in both ESRs, W
	Total          units.Quantity // W
	OutputPower    units.Quantity // W
	InputPower     units.Quantity // W
	InputCurrent   units.Quantity // average, A
	Efficiency     units.Quantity // no unit
}

// Losses computes where a step-down regulator loses power, and its
// efficiency.
//
//	HighConduction = high switch · HighRMS²
//	LowConduction  = low switch · LowRMS²
//	Diode          = diode · LowAverage + leakage · input · OnShare
//	Switching      = (input + LowDrop) · (turn-on · RiseTime + Peak · FallTime)/2 · frequency
//	turn-on        = Valley, not below zero
//	Node           = node capacitance · input² · frequency/2
//	Recovery       = recovery charge · input · frequency
//	DeadTime       = body diode · (turn-on + Peak)/2 · dead time · frequency
//	Gate           = gate charge · gate supply · frequency
//	Quiescent      = input · quiescent
//	Regulator      = all of these but Diode
//	Winding        = winding · Conduction² · Mean² + winding AC · (InductorRMS² − Conduction² · Mean²)
//	Inductor       = Winding + Core
//	Capacitors     = output ESR · OutputCapacitorRMS² + input ESR · InputCapacitorRMS²
//	Total          = Regulator + Diode + Inductor + Capacitors
//	OutputPower    = output · load
//	InputPower     = OutputPower + Total
//	InputCurrent   = InputPower/input
//	Efficiency     = OutputPower/InputPower
//
// with the currents as Currents finds them; Conduction · Mean is the load.
//
// Arguments: Stage, of which Load, A, is above zero here; the others, in the
// units named at them, not below zero. It is an error outside of that. With a
// diode, LowConduction is none; without, Diode is. Where the regulator's
// switches are parts of their own, ExternalSwitches takes them out of
// Regulator: what is left is Gate and Quiescent.
//
//	p, err := stepdown.Losses(stepdown.LossesInputs{Stage: stage, RiseTime: 5ns, FallTime: 5ns, GateCharge: 3nC, Quiescent: 150µA})
//	Tj := Ta + p.Regulator*θJA
//
// Give Load as a range, or ask in a loop, for efficiency against load: from
// Gate, Node and Quiescent at light load to conduction at full load.
//
// Holds for hard switching with straight edges, at a fixed frequency; a
// regulator that skips pulses at light load does better there. Recovery and
// Node count all of their energy as heat in the high switch, and Recovery also
// below the boundary, where there is less.
//
// Source: Erickson and Maksimović, Fundamentals of Power Electronics,
// chapters 3 and 4, from memory; the sum of the parts is in many data sheets
// (TPS54360 SLVSBB7C p. 33).
//
// Caution: on-resistance, forward voltage, leakage and copper all depend on
// the temperature that the loss makes: take them hot, or let Settle find
// them. A Schottky diode's leakage can run away.
func Losses(in LossesInputs) (LossesResult, error) {
	w := windingOf(in)
	if err := argument.First("stepdown.Losses",
		in.Stage.withInductor(),
		argument.Current.Positive("Load", in.Stage.Load),
		argument.Time.NotNegative("RiseTime", argument.Time.OrZero(in.RiseTime)),
		argument.Time.NotNegative("FallTime", argument.Time.OrZero(in.FallTime)),
		argument.Capacitance.NotNegative("NodeCapacitance", argument.Capacitance.OrZero(in.NodeCapacitance)),
		argument.Charge.NotNegative("RecoveryCharge", argument.Charge.OrZero(in.RecoveryCharge)),
		argument.Charge.NotNegative("GateCharge", argument.Charge.OrZero(in.GateCharge)),
		argument.Voltage.Optional("GateSupply", in.GateSupply),
		argument.Time.NotNegative("DeadTime", argument.Time.OrZero(in.DeadTime)),
		argument.Voltage.NotNegative("BodyDiode", argument.Voltage.OrZero(in.BodyDiode)),
		argument.Current.NotNegative("DiodeLeakage", argument.Current.OrZero(in.DiodeLeakage)),
		argument.Current.NotNegative("Quiescent", argument.Current.OrZero(in.Quiescent)),
		argument.Resistance.NotNegative("WindingAC", w),
		argument.Power.NotNegative("Core", argument.Power.OrZero(in.Core)),
		argument.Resistance.NotNegative("InputESR", argument.Resistance.OrZero(in.InputESR)),
		argument.Resistance.NotNegative("OutputESR", argument.Resistance.OrZero(in.OutputESR)),
	); err != nil {
		return LossesResult{}, err
	}
	i := in.Stage.currents()
	r := in.switchLosses(i)
	load := in.Stage.Load
	winding := argument.Resistance.OrZero(in.Stage.Winding)
	direct := load.Mul(load)
	ripple := i.OutputCapacitorRMS.Mul(i.OutputCapacitorRMS)
	r.Winding = winding.Mul(direct).Add(w.Mul(ripple))
	r.Core = argument.Power.OrZero(in.Core)
	r.Inductor = r.Winding.Add(r.Core)
	inputHeat := argument.Resistance.OrZero(in.InputESR).Mul(i.InputCapacitorRMS).Mul(i.InputCapacitorRMS)
	outputHeat := argument.Resistance.OrZero(in.OutputESR).Mul(ripple)
	r.Capacitors = outputHeat.Add(inputHeat)
	switches := r.HighConduction.Add(r.LowConduction).Add(r.Switching).Add(r.Node).Add(r.Recovery).Add(r.DeadTime)
	driver := r.Gate.Add(r.Quiescent)
	r.Regulator = switches.Add(driver)
	r.Total = r.Regulator.Add(r.Diode).Add(r.Inductor).Add(r.Capacitors)
	if in.ExternalSwitches {
		r.Regulator = driver
	}
	r.OutputPower = in.Stage.Output.Mul(load)
	r.InputPower = r.OutputPower.Add(r.Total)
	r.InputCurrent = r.InputPower.Div(in.Stage.Input)
	r.Efficiency = r.OutputPower.Div(r.InputPower)
	return r, nil
}

// windingOf is the winding's resistance to the ripple.
func windingOf(in LossesInputs) units.Quantity {
	if argument.Given(in.WindingAC) {
		return in.WindingAC
	}
	return argument.Resistance.OrZero(in.Stage.Winding)
}

// switchLosses computes what the switches, the diode and the driver lose.
func (in LossesInputs) switchLosses(i CurrentsResult) LossesResult {
	input, frequency, half := in.Stage.Input, in.Stage.Frequency, units.Number(0.5)
	highSwitch, lowSwitch := argument.Resistance.OrZero(in.Stage.HighSwitch), argument.Resistance.OrZero(in.Stage.LowSwitch)
	diode := argument.Voltage.OrZero(in.Stage.Diode)
	riseTime, fallTime := argument.Time.OrZero(in.RiseTime), argument.Time.OrZero(in.FallTime)
	nodeCapacitance := argument.Capacitance.OrZero(in.NodeCapacitance)
	gateSupply := input
	if argument.Given(in.GateSupply) {
		gateSupply = in.GateSupply
	}
	zero := i.Ripple.Sub(i.Ripple)
	turnOn := units.Max(i.Valley, zero)
	swing := input.Add(in.Stage.duty().LowDrop)
	overlap := turnOn.Mul(riseTime).Add(i.Peak.Mul(fallTime)).Mul(half)
	leakage := argument.Current.OrZero(in.DiodeLeakage).Mul(input).Mul(i.OnShare)
	edges := turnOn.Add(i.Peak).Mul(half)
	return LossesResult{
		HighConduction: highSwitch.Mul(i.HighRMS).Mul(i.HighRMS),
		LowConduction:  lowSwitch.Mul(i.LowRMS).Mul(i.LowRMS),
		Diode:          diode.Mul(i.LowAverage).Add(leakage),
		Switching:      swing.Mul(overlap).Mul(frequency),
		Node:           nodeCapacitance.Mul(input).Mul(input).Mul(frequency).Mul(half),
		Recovery:       argument.Charge.OrZero(in.RecoveryCharge).Mul(input).Mul(frequency),
		DeadTime:       argument.Voltage.OrZero(in.BodyDiode).Mul(edges).Mul(argument.Time.OrZero(in.DeadTime)).Mul(frequency),
		Gate:           argument.Charge.OrZero(in.GateCharge).Mul(gateSupply).Mul(frequency),
		Quiescent:      input.Mul(argument.Current.OrZero(in.Quiescent)),
	}
}
