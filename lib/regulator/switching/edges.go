package switching

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// EdgesInputs are the arguments of Edges. Times, charges, capacitance and
// BodyDiode that are left out are none.
type EdgesInputs struct {
	Blocked         units.Quantity // across the rectifier while the switch is on, V: what the switch node swings by
	RectifierDrop   units.Quantity // across the rectifier while it conducts, V; the switch blocks both together
	TurnOn          units.Quantity // current that the switch takes over, A; none below the boundary of conduction
	TurnOff         units.Quantity // current that the switch gives up, A: the peak
	Frequency       units.Quantity // Hz
	RiseTime        units.Quantity // of current and voltage as the switch turns on, s
	FallTime        units.Quantity // of current and voltage as it turns off, s
	NodeCapacitance units.Quantity // of the switch node, with switch and rectifier, F
	RecoveryCharge  units.Quantity // reverse recovery of the rectifier, C
	GateCharge      units.Quantity // of all gates driven in each period, C
	GateSupply      units.Quantity // where that charge is taken from, V; left out: Blocked
	DeadTime        units.Quantity // both gaps of a period together, s
	BodyDiode       units.Quantity // forward voltage in the dead time, V
}

// EdgesResult is what Edges finds.
type EdgesResult struct {
	Switching units.Quantity // where voltage and current overlap in the switch, W
	Node      units.Quantity // of the switch node's capacitance, W
	Recovery  units.Quantity // W
	DeadTime  units.Quantity // in the body diode, W
	Gate      units.Quantity // W
	Total     units.Quantity // W
}

// Edges computes what is lost at the edges of the switch in each period.
//
//	Switching = (blocked + rectifier drop) · (turn-on · RiseTime + turn-off · FallTime)/2 · frequency
//	Node      = node capacitance · blocked² · frequency/2
//	Recovery  = recovery charge · blocked · frequency
//	DeadTime  = body diode · (turn-on + turn-off)/2 · dead time · frequency
//	Gate      = gate charge · gate supply · frequency
//	Total     = the sum of these
//
// Arguments: Blocked, V, and Frequency, Hz, above zero; GateSupply, V, above
// zero if given; the others, in the units named at them, not below zero. It
// is an error outside of that. Blocked is the input in a step-down, the output
// in a step-up, both together in an inverting regulator.
//
//	e, err := switching.Edges(switching.EdgesInputs{
//		Blocked: 12V, RectifierDrop: 0.45V, TurnOn: 1.2A, TurnOff: 1.8A, Frequency: 1MHz, RiseTime: 8ns, FallTime: 10ns,
//	})
//
// Holds for hard switching with straight edges, at a fixed frequency. Recovery
// and Node count all of their energy as heat in the switch, and Recovery also
// below the boundary of conduction, where there is less.
//
// Source: Erickson and Maksimović, Fundamentals of Power Electronics, chapter
// 4, from memory; the sum of the parts is in many data sheets.
//
// Caution: capacitances of switches fall with the voltage; take the data
// sheet's energy-related value. Rise and fall times depend on the gate's
// resistor: those of a data sheet are for its own.
func Edges(in EdgesInputs) (EdgesResult, error) {
	rectifierDrop := argument.Voltage.OrZero(in.RectifierDrop)
	riseTime, fallTime := argument.Time.OrZero(in.RiseTime), argument.Time.OrZero(in.FallTime)
	nodeCapacitance, recoveryCharge := argument.Capacitance.OrZero(in.NodeCapacitance), argument.Charge.OrZero(in.RecoveryCharge)
	gateCharge, gateSupply := argument.Charge.OrZero(in.GateCharge), in.GateSupply
	deadTime, bodyDiode := argument.Time.OrZero(in.DeadTime), argument.Voltage.OrZero(in.BodyDiode)
	if !argument.Given(in.GateSupply) {
		gateSupply = in.Blocked
	}
	if err := argument.First("switching.Edges",
		argument.Voltage.Positive("Blocked", in.Blocked),
		argument.Voltage.NotNegative("RectifierDrop", rectifierDrop),
		argument.Current.NotNegative("TurnOn", in.TurnOn),
		argument.Current.NotNegative("TurnOff", in.TurnOff),
		argument.Frequency.Positive("Frequency", in.Frequency),
		argument.Time.NotNegative("RiseTime", riseTime),
		argument.Time.NotNegative("FallTime", fallTime),
		argument.Capacitance.NotNegative("NodeCapacitance", nodeCapacitance),
		argument.Charge.NotNegative("RecoveryCharge", recoveryCharge),
		argument.Charge.NotNegative("GateCharge", gateCharge),
		argument.Voltage.Positive("GateSupply", gateSupply),
		argument.Time.NotNegative("DeadTime", deadTime),
		argument.Voltage.NotNegative("BodyDiode", bodyDiode),
	); err != nil {
		return EdgesResult{}, err
	}
	half := units.Number(0.5)
	swing := in.Blocked.Add(rectifierDrop)
	overlap := in.TurnOn.Mul(riseTime).Add(in.TurnOff.Mul(fallTime)).Mul(half)
	current := in.TurnOn.Add(in.TurnOff).Mul(half)
	switching := swing.Mul(overlap).Mul(in.Frequency)
	node := nodeCapacitance.Mul(in.Blocked).Mul(in.Blocked).Mul(in.Frequency).Mul(half)
	recovery := recoveryCharge.Mul(in.Blocked).Mul(in.Frequency)
	dead := bodyDiode.Mul(current).Mul(deadTime).Mul(in.Frequency)
	gate := gateCharge.Mul(gateSupply).Mul(in.Frequency)
	total := switching.Add(node).Add(recovery).Add(dead).Add(gate)
	return EdgesResult{Switching: switching, Node: node, Recovery: recovery, DeadTime: dead, Gate: gate, Total: total}, nil
}
