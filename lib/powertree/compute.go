package powertree

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// Compute adds a power tree up from its loads to its source, in every mode.
//
//	Out     = currents of the loads on the rail + currents into the converters on it
//	Power   = voltage · Out
//	In      = Out + quiescent                          (linear)
//	In      = (Power/efficiency)/input + quiescent     (switching)
//	Heat    = input · In − Power
//	Margin  = limit − Out
//	Energy  = sum over the modes of power · time
//
// Arguments: see Rail, Converter, Load and Mode. One rail, the source, has no
// From and no converter. A linear converter needs an input that is above its
// output by Dropout, step-down an input not below the output, step-up one not
// above it, inverting an output below zero; a linear one behind a rail below
// zero is on that side too. Efficiencies and Losses are read at the current of
// the rail; at exactly no load an efficiency is not read, and only Quiescent
// flows. It is an error outside of that, where a table does not reach to
// a current, and where the times of the modes are more than a day. A rail above
// its limit is no error here: see Check.
//
//	tree, err := powertree.Compute(powertree.Inputs{Rails: rails, Loads: loads, Modes: modes})
//	// tree.MostCurrent, tree.Energy, tree.Rails[1].MostHeat
//
// Holds for steady currents in each mode. In every mode the power of the source
// is the sum of the power of all loads and all heats.
//
// Source: Kirchhoff's laws and the definition of efficiency.
//
// Caution: a maximum of every load at once may be more than the board ever
// takes; a typical current is less than some boards take. Give both, as a Range
// or Band. Regulation, ripple and starting currents are other questions.
func Compute(in Inputs) (Result, error) {
	const function = "powertree.Compute"
	nodes, err := order(in)
	if err == nil {
		err = checkModes(in)
	}
	if err != nil {
		return Result{}, fmt.Errorf("%s: %w", function, err)
	}
	span, err := times(in.Modes)
	if err != nil {
		return Result{}, fmt.Errorf("%s: %w", function, err)
	}
	for _, n := range nodes {
		if err := checkRail(in, nodes, n); err != nil {
			return Result{}, fmt.Errorf("%s: %w", function, err)
		}
	}
	flows := make([][]Flow, len(nodes))
	for i := range flows {
		flows[i] = make([]Flow, len(in.Modes))
	}
	for m := range in.Modes {
		if err := flow(in, nodes, m, flows); err != nil {
			return Result{}, fmt.Errorf("%s: %w", function, err)
		}
	}
	return sum(in, nodes, flows, span), nil
}

// flow goes from the leaves of the tree to its source in one mode.
func flow(in Inputs, nodes []node, mode int, flows [][]Flow) error {
	onward := make([]units.Quantity, len(nodes))
	for i := len(nodes) - 1; i >= 0; i-- {
		n := nodes[i]
		r := in.Rails[n.rail]
		own := argument.Current.OrZero(none)
		for _, l := range n.loads {
			own = own.Add(argument.Current.OrZero(in.Loads[l].Currents[mode]))
		}
		feeds := argument.Current.OrZero(onward[i])
		out := own.Add(feeds)
		about := fmt.Sprintf("the current of rail %s in mode %s", r.Name, in.Modes[mode].Name)
		if err := argument.Current.NotNegative(about, out); err != nil {
			return err
		}
		voltage := units.Abs(r.Voltage)
		s := StageResult{Power: voltage.Mul(out), In: out}
		s.Heat = s.Power.Sub(s.Power)
		s.InPower = s.Power
		if n.from >= 0 {
			input := units.Abs(in.Rails[nodes[n.from].rail].Voltage)
			var err error
			if s, err = r.Converter.stage(input, voltage, out); err != nil {
				return fmt.Errorf("rail %s in mode %s: %w", r.Name, in.Modes[mode].Name, err)
			}
			onward[n.from] = argument.Current.OrZero(onward[n.from]).Add(s.In)
		}
		f := Flow{Mode: in.Modes[mode].Name, Loads: own, Onward: feeds, Out: out, Power: s.Power, In: s.In, InPower: s.InPower, Heat: s.Heat}
		for _, p := range [2]units.Quantity{s.Power, s.InPower} {
			if err := argument.Power.NotNegative(fmt.Sprintf("the power of rail %s in mode %s", r.Name, in.Modes[mode].Name), p); err != nil {
				return err
			}
		}
		if argument.Given(r.LimitCurrent) {
			f.Margin = r.LimitCurrent.Sub(out)
		}
		flows[i][mode] = f
	}
	return nil
}

// stage is what the converter takes at a load.
func (c Converter) stage(input, output, load units.Quantity) (StageResult, error) {
	quiescent := argument.Current.OrZero(c.Quiescent)
	if c.Kind == "linear" {
		return linear(input, output, load, quiescent), nil
	}
	t, unit := c.Efficiencies, "%"
	if c.Losses.Given() {
		t, unit = c.Losses, "W"
	}
	if !t.Given() {
		return switching(input, output, load, c.Efficiency, quiescent), nil
	}
	at := []units.Quantity{load, input}[:1]
	if family(t, unit) {
		at = at[:2]
	}
	if c.Losses.Given() {
		heat, err := t.At(at...)
		if err != nil {
			return StageResult{}, fmt.Errorf("Losses: %w", err)
		}
		if err := argument.Power.NotNegative("the loss of Losses at "+load.String(), heat); err != nil {
			return StageResult{}, err
		}
		return losing(input, output, load, heat), nil
	}
	// Without load an efficiency is 0 of 0: what is read instead does not count.
	least, _, err := t.Ends(t.Columns()[0])
	if err != nil {
		return StageResult{}, err
	}
	at[0] = units.Where(load.Sub(load), load, load, least)
	share, err := t.At(at...)
	if err != nil {
		return StageResult{}, fmt.Errorf("Efficiencies: %w", err)
	}
	// A row at no load may say 0 %.
	some := units.Where(load.Sub(load), load, share, units.In(units.Number(1), "%"))
	if err := efficiency("the efficiency of Efficiencies at "+load.String(), some); err != nil {
		return StageResult{}, err
	}
	return switching(input, output, load, some, quiescent), nil
}

// sum puts the flows together by rails, modes, and over the day.
func sum(in Inputs, nodes []node, flows [][]Flow, span []units.Quantity) Result {
	var out Result
	energy := func(of func(mode int) units.Quantity) units.Quantity {
		total := units.In(of(0).Mul(span[0]), "Wh")
		for m := 1; m < len(span); m++ {
			total = total.Add(of(m).Mul(span[m]))
		}
		return total
	}
	pick := func(of func(mode int) units.Quantity) (list []units.Quantity) {
		for m := range in.Modes {
			list = append(list, of(m))
		}
		return list
	}
	for i, n := range nodes {
		r := in.Rails[n.rail]
		one := RailResult{Name: r.Name, From: r.From, Kind: r.Converter.Kind, Depth: n.depth, Voltage: r.Voltage, Limit: r.LimitCurrent, Flows: flows[i]}
		heat := func(m int) units.Quantity { return flows[i][m].Heat }
		one.MostOut, one.MostOutIn = most(in.Modes, pick(func(m int) units.Quantity { return flows[i][m].Out }))
		one.MostHeat, one.MostHeatIn = most(in.Modes, pick(heat))
		one.HeatEnergy = energy(heat)
		if argument.Given(r.LimitCurrent) {
			one.LeastLeft = r.LimitCurrent.Sub(one.MostOut)
		}
		out.Rails = append(out.Rails, one)
	}
	for m, mode := range in.Modes {
		source := flows[0][m]
		one := ModeResult{Name: mode.Name, Time: span[m], Current: source.Out, Power: source.Power, Energy: units.In(source.Power.Mul(span[m]), "Wh")}
		one.Loads, one.Heat = source.Power.Sub(source.Power), source.Heat
		for i, n := range nodes {
			own := units.Abs(in.Rails[n.rail].Voltage).Mul(flows[i][m].Loads)
			one.Loads = one.Loads.Add(own)
			if i > 0 {
				one.Heat = one.Heat.Add(flows[i][m].Heat)
			}
		}
		out.Modes = append(out.Modes, one)
	}
	out.MostCurrent, out.MostCurrentIn = most(in.Modes, pick(func(m int) units.Quantity { return out.Modes[m].Current }))
	out.MostPower, out.MostPowerIn = most(in.Modes, pick(func(m int) units.Quantity { return out.Modes[m].Power }))
	out.Energy = energy(func(m int) units.Quantity { return out.Modes[m].Power })
	out.LoadEnergy = energy(func(m int) units.Quantity { return out.Modes[m].Loads })
	charge := out.Modes[0].Current.Mul(span[0])
	for m := 1; m < len(span); m++ {
		charge = charge.Add(out.Modes[m].Current.Mul(span[m]))
	}
	out.Charge = units.In(charge, "Ah")
	out.MeanCurrent = units.In(charge.Div(day), "A")
	out.MeanPower = units.In(out.Energy.Div(day), "W")
	if argument.NotAbove(out.Energy, out.Energy.Sub(out.Energy), out.Energy) == nil {
		out.Efficiency = units.In(out.LoadEnergy.Div(out.Energy), "%")
	}
	return out
}
