package stepdown

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/regulator/switching"
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
	Core             units.Quantity // loss in the core, W; see switching.CoreLoss
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
	const function = "stepdown.Losses"
	if err := argument.First(function,
		in.Stage.withInductor(),
		argument.Current.Positive("Load", in.Stage.Load),
		argument.Current.NotNegative("DiodeLeakage", argument.Current.OrZero(in.DiodeLeakage)),
		argument.Current.NotNegative("Quiescent", argument.Current.OrZero(in.Quiescent)),
		argument.Resistance.NotNegative("InputESR", argument.Resistance.OrZero(in.InputESR)),
		argument.Resistance.NotNegative("OutputESR", argument.Resistance.OrZero(in.OutputESR)),
	); err != nil {
		return LossesResult{}, err
	}
	input, load, i := in.Stage.Input, in.Stage.Load, in.Stage.currents()
	edges, err := in.edges(i)
	if err != nil {
		return LossesResult{}, argument.Within(function, err)
	}
	inductor, err := switching.InductorLoss(switching.InductorLossInputs{
		Mean: load, AlternatingRMS: i.OutputCapacitorRMS, Winding: in.Stage.Winding, WindingAC: in.WindingAC, Core: in.Core,
	})
	if err != nil {
		return LossesResult{}, argument.Within(function, err)
	}
	highConduction := argument.Resistance.OrZero(in.Stage.HighSwitch).Mul(i.HighRMS).Mul(i.HighRMS)
	lowConduction := argument.Resistance.OrZero(in.Stage.LowSwitch).Mul(i.LowRMS).Mul(i.LowRMS)
	leakage := argument.Current.OrZero(in.DiodeLeakage).Mul(input).Mul(i.OnShare)
	diode := argument.Voltage.OrZero(in.Stage.Diode).Mul(i.LowAverage).Add(leakage)
	quiescent := input.Mul(argument.Current.OrZero(in.Quiescent))
	inputHeat := argument.Resistance.OrZero(in.InputESR).Mul(i.InputCapacitorRMS).Mul(i.InputCapacitorRMS)
	outputHeat := argument.Resistance.OrZero(in.OutputESR).Mul(i.OutputCapacitorRMS).Mul(i.OutputCapacitorRMS)
	capacitors := outputHeat.Add(inputHeat)
	switches := highConduction.Add(lowConduction).Add(edges.Switching).Add(edges.Node).Add(edges.Recovery).Add(edges.DeadTime)
	driver := edges.Gate.Add(quiescent)
	regulator := switches.Add(driver)
	total := regulator.Add(diode).Add(inductor.Total).Add(capacitors)
	if in.ExternalSwitches {
		regulator = driver
	}
	outputPower := in.Stage.Output.Mul(load)
	inputPower := outputPower.Add(total)
	return LossesResult{
		HighConduction: highConduction,
		LowConduction:  lowConduction,
		Diode:          diode,
		Switching:      edges.Switching,
		Node:           edges.Node,
		Recovery:       edges.Recovery,
		DeadTime:       edges.DeadTime,
		Gate:           edges.Gate,
		Quiescent:      quiescent,
		Regulator:      regulator,
		Winding:        inductor.Winding,
		Core:           inductor.Core,
		Inductor:       inductor.Total,
		Capacitors:     capacitors,
		Total:          total,
		OutputPower:    outputPower,
		InputPower:     inputPower,
		InputCurrent:   inputPower.Div(input),
		Efficiency:     outputPower.Div(inputPower),
	}, nil
}

func (in LossesInputs) edges(i CurrentsResult) (switching.EdgesResult, error) {
	zero := i.Ripple.Sub(i.Ripple)
	turnOn := units.Max(i.Valley, zero)
	return switching.Edges(switching.EdgesInputs{
		Blocked:         in.Stage.Input,
		RectifierDrop:   in.Stage.duty().LowDrop,
		TurnOn:          turnOn,
		TurnOff:         i.Peak,
		Frequency:       in.Stage.Frequency,
		RiseTime:        in.RiseTime,
		FallTime:        in.FallTime,
		NodeCapacitance: in.NodeCapacitance,
		RecoveryCharge:  in.RecoveryCharge,
		GateCharge:      in.GateCharge,
		GateSupply:      in.GateSupply,
		DeadTime:        in.DeadTime,
		BodyDiode:       in.BodyDiode,
	})
}
