// Package powertree adds up what a board takes from its supply: rails, the
// converters between them, the loads on them, all by operating mode.
//
//	tree, err := powertree.Compute(powertree.Inputs{
//		Rails: []powertree.Rail{
//			{Name: "input", Voltage: 24V, LimitCurrent: 1A},
//			{Name: "bus", Voltage: 5V, From: "input", Converter: powertree.Converter{Kind: "step-down", Efficiency: 88%}},
//			{Name: "logic", Voltage: 3.3V, From: "bus", Converter: powertree.Converter{Kind: "linear", Quiescent: 60µA, Dropout: 300mV}, LimitCurrent: 300mA},
//		},
//		Modes: []powertree.Mode{{Name: "idle"}, {Name: "send", Time: 10min}}, // a day; what has no Time has the rest
//		Loads: []powertree.Load{{Name: "controller", Rail: "logic", Currents: []Quantity{20µA, 80mA}}},
//	})
//
// A cell whose last expression is a Result shows a picture of the tree.
//
// What fails: a rail that nobody feeds or that feeds itself, a name that
// stands twice, a converter whose input is below what it needs, a load beside
// its table. A rail that carries more than its limit is a result, with
// a Margin below zero and its place in the picture; Check makes an error of it.
//
// What it cannot know: currents that flow while a converter starts or
// capacitors charge, loads that take turns within a mode (write a mode for
// each that can meet), two supplies that share a rail, resistance of wires
// (a linear converter between two rails stands for a drop), and heat that moves
// an efficiency: give the table of the temperature that is met.
package powertree
