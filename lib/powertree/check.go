package powertree

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// Check looks whether every rail stays within its limit in every mode and case.
//
//	left = the least over all rails of (limit − largest current)/limit
//
// Argument: tree, a result of Compute with at least one rail that has a limit.
// Result: the smallest share of its limit that a rail has left. The first rail
// of the tree that carries more is an error that names it, the mode, by how
// much, and what to change; so is a tree without a limit.
//
//	left, err := powertree.Check(tree)
//
// Source: a definition. Caution: a converter at its limit has nothing left for
// starting and ageing; a fifth of the limit is common practice.
func Check(tree Result) (units.Quantity, error) {
	const function = "powertree.Check"
	var left units.Quantity
	for _, r := range tree.Rails {
		if !argument.Given(r.Limit) {
			continue
		}
		for _, f := range r.Flows {
			if at := argument.Below(f.Margin, f.Margin.Sub(f.Margin), f.Out, f.Margin.Neg(), r.Limit); at != nil {
				return none, fmt.Errorf("%s: rail %s carries %s in mode %s, %s above its limit of %s: take a converter for more, move a load to another rail, or take less in this mode", function, r.Name, at[0], f.Mode, at[1], at[2])
			}
		}
		share := units.In(r.LeastLeft.Div(r.Limit), "%")
		if argument.Given(left) {
			share = units.Min(left, share)
		}
		left = share
	}
	if !argument.Given(left) {
		return none, fmt.Errorf("%s: no rail has a limit: write LimitCurrent of the rails that have one", function)
	}
	return left, nil
}

// checkRail looks at a rail and its converter by themselves.
func checkRail(in Inputs, nodes []node, n node) error {
	r := in.Rails[n.rail]
	c := r.Converter
	named := func(what string) string { return what + " of rail " + r.Name }
	if err := argument.Voltage.Signed(named("Voltage"), r.Voltage); err != nil {
		return err
	}
	if err := argument.Current.Optional(named("LimitCurrent"), r.LimitCurrent); err != nil {
		return err
	}
	if n.from < 0 {
		if c.Kind != "" || argument.Given(c.Efficiency) || c.Efficiencies.Given() || c.Losses.Given() || argument.Given(c.Quiescent) {
			return fmt.Errorf("rail %s is the source and has a converter: leave it out, or write From", r.Name)
		}
		return argument.Voltage.Positive(named("Voltage"), r.Voltage)
	}
	before := in.Rails[nodes[n.from].rail]
	input, voltage := before.Voltage, r.Voltage
	zero := argument.Voltage.OrZero(none)
	behind := func() error {
		return argument.Voltage.Positive(fmt.Sprintf("Voltage of rail %s, which feeds the %s converter of rail %s,", before.Name, c.Kind, r.Name), input)
	}
	var err error
	switch c.Kind {
	case "linear":
		if argument.NotAbove(zero, input, input) == nil { // a rail below zero
			input, voltage = input.Neg(), voltage.Neg()
		}
		drop := argument.Voltage.OrZero(c.Dropout)
		if err = argument.First(r.Name, argument.Voltage.NotNegative("Dropout", drop)); err != nil {
			return err
		}
		if err = argument.Voltage.Positive(named("Voltage")+" on its side of ground", voltage); err != nil {
			return err
		}
		if at := argument.Below(input, voltage.Add(drop), input, voltage.Add(drop), voltage.Add(drop).Sub(input)); at != nil {
			return fmt.Errorf("the input of rail %s is %s; its linear regulator needs %s, output and Dropout, which is %s more: raise rail %s, or take a regulator with less dropout", r.Name, at[0], at[1], at[2], before.Name)
		}
	case "step-down":
		if err = behind(); err == nil {
			err = argument.Voltage.Positive(named("Voltage"), voltage)
		}
		if err == nil {
			err = argument.AtMost(named("Voltage"), voltage, "its input "+before.Name, input, "step-down makes less of more; write step-up, or another From")
		}
	case "step-up":
		if err = behind(); err == nil {
			err = argument.AtLeast(named("Voltage"), voltage, "its input "+before.Name, input, "step-up makes more of less; write step-down, or another From")
		}
	case "inverting":
		if err = behind(); err == nil && argument.Below(zero, voltage.Neg(), voltage) == nil {
			err = fmt.Errorf("%s is %v; behind an inverting converter it must be below 0 V: write it with its sign, such as -5V", named("Voltage"), voltage)
		}
		if err == nil {
			err = argument.Voltage.Positive("the size of "+named("Voltage"), voltage.Neg())
		}
	default:
		err = fmt.Errorf("the converter of rail %s is of kind %q: write linear, step-down, step-up or inverting as Kind", r.Name, c.Kind)
	}
	if err != nil {
		return err
	}
	if err := c.checkLosses(r.Name); err != nil {
		return err
	}
	return c.checkInput(r.Name, before.Name, input)
}

// checkLosses looks whether what the converter loses is said, and once.
func (c Converter) checkLosses(rail string) error {
	ways := 0
	for _, given := range [3]bool{argument.Given(c.Efficiency), c.Efficiencies.Given(), c.Losses.Given()} {
		if given {
			ways++
		}
	}
	switch {
	case c.Kind == "linear" && ways > 0:
		return fmt.Errorf("rail %s has a linear converter and an efficiency: leave it out, it follows from the voltages", rail)
	case c.Kind != "linear" && ways != 1:
		return fmt.Errorf("the %s converter of rail %s has %d of Efficiency, Efficiencies and Losses: write one of them", c.Kind, rail, ways)
	case c.Kind != "linear" && argument.Given(c.Dropout):
		return fmt.Errorf("the %s converter of rail %s has a Dropout, which only a linear one has: write LeastInput", c.Kind, rail)
	case c.Losses.Given() && argument.Given(c.Quiescent):
		return fmt.Errorf("the converter of rail %s has Losses and Quiescent: leave Quiescent out, Losses at no load has it", rail)
	}
	if err := argument.Current.NotNegative("Quiescent of rail "+rail, argument.Current.OrZero(c.Quiescent)); err != nil {
		return err
	}
	expect := func(name, unit string, t table.Table) error {
		if family(t, unit) {
			return nil
		}
		return t.Expect(name+" of rail "+rail, "A", unit)
	}
	switch {
	case c.Efficiencies.Given():
		return expect("Efficiencies", "%", c.Efficiencies)
	case c.Losses.Given():
		return expect("Losses", "W", c.Losses)
	case c.Kind != "linear":
		return efficiency("Efficiency of rail "+rail, c.Efficiency)
	}
	return nil
}

// family reports whether a table is over the load and the input voltage.
func family(t table.Table, unit string) bool { return t.Expect("", "A", "V", unit) == nil }

// checkInput looks whether the converter stands its input.
func (c Converter) checkInput(rail, from string, input units.Quantity) error {
	for _, limit := range []struct {
		name string
		v    units.Quantity
	}{{"LeastInput", c.LeastInput}, {"MostInput", c.MostInput}} {
		if err := argument.Voltage.Optional(limit.name+" of rail "+rail, limit.v); err != nil {
			return err
		}
	}
	if argument.Given(c.LeastInput) {
		if at := argument.Below(input, c.LeastInput, input, c.LeastInput, c.LeastInput.Sub(input)); at != nil {
			return fmt.Errorf("the input of rail %s is %s; its converter needs at least %s, which is %s more: raise rail %s, or take a converter that starts lower", rail, at[0], at[1], at[2], from)
		}
	}
	if argument.Given(c.MostInput) {
		if at := argument.Below(c.MostInput, input, input, c.MostInput, input.Sub(c.MostInput)); at != nil {
			return fmt.Errorf("the input of rail %s is %s; its converter stands at most %s, which is %s less: lower rail %s, or take a converter for more", rail, at[0], at[1], at[2], from)
		}
	}
	return nil
}
