package inverting

import (
	"errors"

	"ohmwright/lib/argument"
	"ohmwright/lib/regulator/switching"
	"ohmwright/units"
)

// LossesInputs are the arguments of Losses. Whatever is left out is none.
type LossesInputs struct {
	Stage            Stage          // Load above zero
	RiseTime         units.Quantity // of the switch node as the switch turns on, s
	FallTime         units.Quantity // of the switch node as it turns off, s
	NodeCapacitance  units.Quantity // of the switch node, with switch and rectifier, F
	RecoveryCharge   units.Quantity // reverse recovery of the rectifier, C
	GateCharge       units.Quantity // of all gates driven in each period, C
	GateSupply       units.Quantity // where that charge is taken from, V; left out: what the regulator is supplied with
	DeadTime         units.Quantity // both gaps of a period together, s
	BodyDiode        units.Quantity // forward voltage in the dead time, V
	DiodeLeakage     units.Quantity // of a Diode, hot, at its reverse voltage, A
	Quiescent        units.Quantity // of the regulator itself, A
	WindingAC        units.Quantity // resistance of a winding to the ripple, Ω; left out: as Winding and SecondWinding
	Core             units.Quantity // loss in the core or both, W; see switching.CoreLoss
	InputESR         units.Quantity // of the input capacitor, Ω
	OutputESR        units.Quantity // of the output capacitor, Ω
	CouplingESR      units.Quantity // of a SEPIC's coupling capacitor, Ω
	ExternalSwitches bool           // switch and rectifier are no part of the regulator
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
	Winding             units.Quantity // of the inductor, or both, W
	Core                units.Quantity // W
	Inductor            units.Quantity // heat of the inductor, or both, W
	Capacitors          units.Quantity // in all ESRs, W
	Total               units.Quantity // W
	OutputPower         units.Quantity // W
	InputPower          units.Quantity // W
	InputCurrent        units.Quantity // average, A
	Efficiency          units.Quantity // no unit
}

// Losses computes where an inverting regulator or a SEPIC loses power, and its
// efficiency.
//
//	SwitchConduction    = switch · SwitchRMS²
//	RectifierConduction = rectifier · RectifierRMS²
//	Diode      = diode · load + leakage · blocked · OnShare
//	blocked    = input + size, where size is that of the output
//	supply     = blocked; of a SEPIC input
//	Switching, Node, Recovery, DeadTime and Gate as switching.Edges, of blocked,
//	             Valley (not below zero), Peak, and gate supply or supply
//	Quiescent  = supply · quiescent
//	Regulator  = all of these but Diode
//	Winding    = winding · Current² + winding AC · (RMS² − Current²)
//	             of a SEPIC the same of each winding with its own mean current
//	Inductor   = Winding + Core
//	Capacitors = output ESR · OutputCapacitorRMS² + input ESR · InputCapacitorRMS² + coupling ESR · CouplingRMS²
//	Total      = Regulator + Diode + Inductor + Capacitors
//	OutputPower  = size · load
//	InputPower   = OutputPower + Total
//	InputCurrent = InputPower/input
//	Efficiency   = OutputPower/InputPower
//
// with the currents as Currents and Inductors find them, and Current as Duty
// does.
//
// Arguments: Stage, of which Load, A, is above zero here; the others, in the
// units named at them, not below zero. It is an error outside of that.
// CouplingESR is for a SEPIC only. Of a stage with an Efficiency, Diode holds
// all that it stands for. Where switch and rectifier are parts of
// their own, ExternalSwitches takes them out of Regulator: what is left is
// Gate and Quiescent.
//
//	p, err := inverting.Losses(inverting.LossesInputs{Stage: stage, RiseTime: 8ns, FallTime: 10ns, GateCharge: 3nC, Quiescent: 150µA})
//	Tj := Ta + p.Regulator*θJA
//
// Give Input and Load as ranges: conduction is largest at the lowest input,
// the edges at the highest.
//
// Where it holds: as switching.Edges and Currents. A regulator that skips
// pulses at light load does better there.
//
// Source: Erickson and Maksimović, Fundamentals of Power Electronics,
// chapters 3 and 4, from memory.
//
// Caution: switch and rectifier switch input and output together, so edges
// cost more than in a step-down or step-up regulator for the same power.
// Resistances, forward voltage and leakage depend on the temperature that the
// loss makes: take them hot, or let Settle find them.
func Losses(in LossesInputs) (LossesResult, error) {
	const function = "inverting.Losses"
	couplingESR := argument.Resistance.OrZero(in.CouplingESR)
	if err := argument.First(function,
		in.Stage.loaded(),
		argument.Current.NotNegative("DiodeLeakage", argument.Current.OrZero(in.DiodeLeakage)),
		argument.Current.NotNegative("Quiescent", argument.Current.OrZero(in.Quiescent)),
		argument.Resistance.NotNegative("InputESR", argument.Resistance.OrZero(in.InputESR)),
		argument.Resistance.NotNegative("OutputESR", argument.Resistance.OrZero(in.OutputESR)),
		argument.Resistance.NotNegative("CouplingESR", couplingESR),
	); err != nil {
		return LossesResult{}, err
	}
	if !in.Stage.SEPIC && argument.Given(in.CouplingESR) {
		return LossesResult{}, argument.First(function, errors.New("CouplingESR is given, but an inverting stage has no coupling capacitor: leave it out, or set SEPIC"))
	}
	c, err := in.Stage.cycle()
	if err != nil {
		return LossesResult{}, argument.Within(function, err)
	}
	input, size, load := in.Stage.Input, in.Stage.size(), in.Stage.Load
	blocked := input.Add(size)
	supply := blocked
	if in.Stage.SEPIC {
		supply = input
	}
	edges, err := in.edges(c, blocked, supply)
	if err != nil {
		return LossesResult{}, argument.Within(function, err)
	}
	coils, err := in.coils(c)
	if err != nil {
		return LossesResult{}, argument.Within(function, err)
	}
	p := in.Stage.parts()
	switchConduction := p.on.Mul(c.OnRMS).Mul(c.OnRMS)
	rectifierConduction := p.rectifier.Mul(c.OffRMS).Mul(c.OffRMS)
	leakage := argument.Current.OrZero(in.DiodeLeakage).Mul(blocked).Mul(c.OnShare)
	diode := p.diode.Mul(load).Add(leakage)
	quiescent := supply.Mul(argument.Current.OrZero(in.Quiescent))
	inputHeat := argument.Resistance.OrZero(in.InputESR).Mul(coils.inputRMS).Mul(coils.inputRMS)
	outputHeat := argument.Resistance.OrZero(in.OutputESR).Mul(c.OffPulseRMS).Mul(c.OffPulseRMS)
	couplingHeat := couplingESR.Mul(coils.couplingRMS).Mul(coils.couplingRMS)
	capacitors := outputHeat.Add(inputHeat).Add(couplingHeat)
	switches := switchConduction.Add(rectifierConduction).Add(edges.Switching).Add(edges.Node).Add(edges.Recovery).Add(edges.DeadTime)
	driver := edges.Gate.Add(quiescent)
	regulator := switches.Add(driver)
	inductor := coils.winding.Add(coils.core)
	total := switches.Add(driver).Add(diode).Add(inductor).Add(capacitors)
	if in.ExternalSwitches {
		regulator = driver
	}
	outputPower := size.Mul(load)
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
		Winding:             coils.winding,
		Core:                coils.core,
		Inductor:            inductor,
		Capacitors:          capacitors,
		Total:               total,
		OutputPower:         outputPower,
		InputPower:          inputPower,
		InputCurrent:        inputPower.Div(input),
		Efficiency:          outputPower.Div(inputPower),
	}, nil
}

func (in LossesInputs) edges(c switching.CycleResult, blocked, supply units.Quantity) (switching.EdgesResult, error) {
	if argument.Given(in.GateSupply) {
		supply = in.GateSupply
	}
	rectifierDrop := in.Stage.parts().diode.Add(c.Flowing.Mul(in.Stage.parts().rectifier))
	zero := c.Ripple.Sub(c.Ripple)
	return switching.Edges(switching.EdgesInputs{
		Blocked:         blocked,
		RectifierDrop:   rectifierDrop,
		TurnOn:          units.Max(c.Valley, zero),
		TurnOff:         c.Peak,
		Frequency:       in.Stage.Frequency,
		RiseTime:        in.RiseTime,
		FallTime:        in.FallTime,
		NodeCapacitance: in.NodeCapacitance,
		RecoveryCharge:  in.RecoveryCharge,
		GateCharge:      in.GateCharge,
		GateSupply:      supply,
		DeadTime:        in.DeadTime,
		BodyDiode:       in.BodyDiode,
	})
}

// coils is what the losses of windings and capacitors come from.
type coils struct{ winding, core, inputRMS, couplingRMS units.Quantity }

func (in LossesInputs) coils(c switching.CycleResult) (coils, error) {
	s := in.Stage
	if !s.SEPIC {
		l, err := switching.InductorLoss(switching.InductorLossInputs{
			Mean: s.duty().Current, AlternatingRMS: c.AlternatingRMS, Winding: s.Winding, WindingAC: in.WindingAC, Core: in.Core,
		})
		return coils{l.Winding, l.Core, c.OnPulseRMS, c.Ripple.Sub(c.Ripple)}, err
	}
	i := s.inductors(c)
	first, err := switching.InductorLoss(switching.InductorLossInputs{
		Mean: i.Mean, AlternatingRMS: i.AlternatingRMS, Winding: s.Winding, WindingAC: in.WindingAC, Core: in.Core,
	})
	if err != nil {
		return coils{}, err
	}
	second, err := switching.InductorLoss(switching.InductorLossInputs{
		Mean: i.SecondMean, AlternatingRMS: i.SecondAlternatingRMS, Winding: s.parts().second, WindingAC: in.WindingAC,
	})
	return coils{first.Winding.Add(second.Winding), first.Core, i.AlternatingRMS, i.CouplingRMS}, err
}
