package stepup

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/regulator/switching"
	"ohmwright/units"
)

// LossesInputs are the arguments of Losses. Whatever is left out is none.
type LossesInputs struct {
	Stage            Stage          // Load above zero
	RiseTime         units.Quantity // of the switch's current and voltage as it turns on, s
	FallTime         units.Quantity // as it turns off, s
	NodeCapacitance  units.Quantity // of the switch node, switch and rectifier, F
	RecoveryCharge   units.Quantity // reverse recovery of the rectifier, C
	GateCharge       units.Quantity // of all gates driven in each period, C
	GateSupply       units.Quantity // where that charge is taken from, V; left out: the input
	DeadTime         units.Quantity // both gaps of a period together, s
	BodyDiode        units.Quantity // forward voltage in the dead time, V
	DiodeLeakage     units.Quantity // of a Diode, hot, at the output voltage, A
	Quiescent        units.Quantity // input current of the regulator itself, A
	WindingAC        units.Quantity // resistance of the winding to the ripple, Ω; left out: as Stage.Winding
	Core             units.Quantity // loss in the core, W; see switching.CoreLoss
	InputESR         units.Quantity // of the input capacitor, Ω
	OutputESR        units.Quantity // of the output capacitor, Ω
	ExternalSwitches bool           // the switches are no part of the regulator
}

// LossesResult is what Losses finds.
type LossesResult struct {
	SwitchConduction    units.Quantity // W
	RectifierConduction units.Quantity // in a synchronous rectifier, W
	Diode               units.Quantity // forward and leakage, W
	Switching           units.Quantity // where voltage and current overlap in the switch, W
	Node                units.Quantity // of the switch node's capacitance, W
	Recovery            units.Quantity // W
	DeadTime            units.Quantity // in the body diode, W
	Gate                units.Quantity // W
	Quiescent           units.Quantity // W
	Regulator           units.Quantity // heat of the regulator with its switches, W
	Sense               units.Quantity // in the sense resistor, W
	Winding             units.Quantity // W
	Core                units.Quantity // W
	Inductor            units.Quantity // heat of the inductor, W
	Capacitors          units.Quantity // in both ESRs, W
	Total               units.Quantity // W
	OutputPower         units.Quantity // W
	InputPower          units.Quantity // W
	InputCurrent        units.Quantity // average, A
	Efficiency          units.Quantity // no unit
}

// Losses computes where a step-up regulator loses power, and its efficiency.
//
//	SwitchConduction    = switch · SwitchRMS²
//	RectifierConduction = rectifier · RectifierRMS²
//	Diode               = diode · load + leakage · (output · OnShare + (output − input) · (1 − Conduction))
//	Switching           = (output + RectifierDrop) · (turn-on · RiseTime + Peak · FallTime)/2 · frequency
//	turn-on             = Valley, not below zero
//	Node                = node capacitance · output² · frequency/2
//	Recovery            = recovery charge · output · frequency
//	DeadTime            = body diode · (turn-on + Peak)/2 · dead time · frequency
//	Gate                = gate charge · gate supply · frequency
//	Quiescent           = input · quiescent
//	Regulator           = all of these but Diode
//	Sense               = sense · SwitchRMS²
//	Winding             = winding · Mean² + winding AC · InputCapacitorRMS²
//	Inductor            = Winding + core
//	Capacitors          = output ESR · OutputCapacitorRMS² + input ESR · InputCapacitorRMS²
//	Total               = Regulator + Diode + Sense + Inductor + Capacitors
//	OutputPower         = output · load
//	InputPower          = OutputPower + Total
//	InputCurrent        = InputPower/input
//	Efficiency          = OutputPower/InputPower
//
// with the currents as Currents finds them.
//
// Arguments: Stage, without Efficiency, which this function finds, and of
// which Load, A, is above zero here; the others, in the units named at them,
// not below zero. It is an error outside of that. Where the regulator's
// switches are parts of their own, ExternalSwitches takes them out of
// Regulator: what is left is Gate and Quiescent.
//
//	p, err := stepup.Losses(stepup.LossesInputs{Stage: stage, RiseTime: 8ns, FallTime: 8ns, GateCharge: 3nC, Quiescent: 150µA})
//	Tj := Ta + p.Regulator*θJA
//
// Give Input and Load as ranges, or ask in a loop, for efficiency against
// load: nearly everything is worst at the lowest input.
//
// Holds for hard switching with straight edges, at a fixed frequency; a
// regulator that skips pulses at light load does better there. The currents
// are those that the resistances and the diode make; what the edges, the core
// and the driver take besides comes from the input, and is in InputCurrent but
// not in Mean. Put Efficiency into a Stage in place of the resistances to see
// the peak with it.
//
// Source: Erickson and Maksimović, Fundamentals of Power Electronics,
// chapters 3 and 4, from memory; the sum of the parts is in many data sheets
// (LM5176 section 8.2.2.13 has conduction and edges of the switch).
//
// Caution: on-resistance, forward voltage, leakage and copper all depend on
// the temperature that the loss makes: take them hot, or let Settle find
// them. A Schottky diode blocks the whole output here, and its leakage can run
// away.
func Losses(in LossesInputs) (LossesResult, error) {
	const function = "stepup.Losses"
	if err := argument.First(function,
		argument.Unset("Efficiency", in.Stage.Efficiency, "leave it out, and give the resistances and the diode"),
		in.Stage.withInductor(),
		argument.Current.Positive("Load", in.Stage.Load),
		argument.Current.NotNegative("DiodeLeakage", argument.Current.OrZero(in.DiodeLeakage)),
		argument.Current.NotNegative("Quiescent", argument.Current.OrZero(in.Quiescent)),
		argument.Resistance.NotNegative("InputESR", argument.Resistance.OrZero(in.InputESR)),
		argument.Resistance.NotNegative("OutputESR", argument.Resistance.OrZero(in.OutputESR)),
	); err != nil {
		return LossesResult{}, err
	}
	d, c, err := in.Stage.cycle(function)
	if err != nil {
		return LossesResult{}, err
	}
	edges, err := in.edges(d, c)
	if err != nil {
		return LossesResult{}, argument.Within(function, err)
	}
	inductor, err := switching.InductorLoss(switching.InductorLossInputs{
		Mean: d.Mean, AlternatingRMS: c.AlternatingRMS, Winding: in.Stage.Winding, WindingAC: in.WindingAC, Core: in.Core,
	})
	if err != nil {
		return LossesResult{}, argument.Within(function, err)
	}
	input, output, load := in.Stage.Input, in.Stage.Output, in.Stage.Load
	switchConduction := argument.Resistance.OrZero(in.Stage.Switch).Mul(c.OnRMS).Mul(c.OnRMS)
	sense := argument.Resistance.OrZero(in.Stage.Sense).Mul(c.OnRMS).Mul(c.OnRMS)
	rectifierConduction := argument.Resistance.OrZero(in.Stage.Rectifier).Mul(c.OffRMS).Mul(c.OffRMS)
	blocked := output.Mul(c.OnShare).Add(output.Sub(input).Mul(units.Number(1).Sub(c.Conduction)))
	leakage := argument.Current.OrZero(in.DiodeLeakage).Mul(blocked)
	diode := argument.Voltage.OrZero(in.Stage.Diode).Mul(load).Add(leakage)
	quiescent := input.Mul(argument.Current.OrZero(in.Quiescent))
	outputHeat := argument.Resistance.OrZero(in.OutputESR).Mul(c.OffPulseRMS).Mul(c.OffPulseRMS)
	inputHeat := argument.Resistance.OrZero(in.InputESR).Mul(c.AlternatingRMS).Mul(c.AlternatingRMS)
	capacitors := outputHeat.Add(inputHeat)
	switches := switchConduction.Add(rectifierConduction).Add(edges.Switching).Add(edges.Node).Add(edges.Recovery).Add(edges.DeadTime)
	driver := edges.Gate.Add(quiescent)
	regulator := switches.Add(driver)
	total := regulator.Add(diode).Add(sense).Add(inductor.Total).Add(capacitors)
	if in.ExternalSwitches {
		regulator = driver
	}
	outputPower := output.Mul(load)
	inputPower := outputPower.Add(total)
	return LossesResult{
		SwitchConduction:    switchConduction,
		RectifierConduction: rectifierConduction,
		Diode:               diode,
		Switching:           edges.Switching,
		Node:                edges.Node,
		Recovery:            edges.Recovery,
		DeadTime:            edges.DeadTime,
		Gate:                edges.Gate,
		Quiescent:           quiescent,
		Regulator:           regulator,
		Sense:               sense,
		Winding:             inductor.Winding,
		Core:                inductor.Core,
		Inductor:            inductor.Total,
		Capacitors:          capacitors,
		Total:               total,
		OutputPower:         outputPower,
		InputPower:          inputPower,
		InputCurrent:        inputPower.Div(input),
		Efficiency:          outputPower.Div(inputPower),
	}, nil
}

func (in LossesInputs) edges(d DutyResult, c switching.CycleResult) (switching.EdgesResult, error) {
	zero := c.Ripple.Sub(c.Ripple)
	gateSupply := in.GateSupply
	if !argument.Given(in.GateSupply) {
		gateSupply = in.Stage.Input
	}
	return switching.Edges(switching.EdgesInputs{
		Blocked:         in.Stage.Output,
		RectifierDrop:   d.RectifierDrop,
		TurnOn:          units.Max(c.Valley, zero),
		TurnOff:         c.Peak,
		Frequency:       in.Stage.Frequency,
		RiseTime:        in.RiseTime,
		FallTime:        in.FallTime,
		NodeCapacitance: in.NodeCapacitance,
		RecoveryCharge:  in.RecoveryCharge,
		GateCharge:      in.GateCharge,
		GateSupply:      gateSupply,
		DeadTime:        in.DeadTime,
		BodyDiode:       in.BodyDiode,
	})
}
