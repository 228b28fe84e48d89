package powertree

import (
	"ohmwright/lib/table"
	"ohmwright/units"
)

// Converter is what makes a rail of the one before it. Of Efficiency,
// Efficiencies and Losses a switching converter has exactly one, a linear one
// none.
type Converter struct {
	Kind         string         // "linear", "step-down", "step-up" or "inverting"; "" of the source alone
	Efficiency   units.Quantity // the same at every load, 85 %
	Efficiencies table.Table    // efficiency over the load current, A, and perhaps the input voltage, V
	Losses       table.Table    // power lost, W, over the same; what is lost without load is in it
	Quiescent    units.Quantity // taken from the input beside the rest, without load too, A; may be left out
	Dropout      units.Quantity // least difference of input and output of a linear one, V; may be left out
	LeastInput   units.Quantity // least input voltage, V; may be left out
	MostInput    units.Quantity // largest input voltage, V; may be left out
}

// Rail is a supply voltage and where it comes from.
type Rail struct {
	Name         string
	Voltage      units.Quantity // to ground, V; below zero behind an inverting converter
	From         string         // the rail that feeds it; "" of the source, which there is one of
	Converter    Converter
	LimitCurrent units.Quantity // most that the rail delivers, A; may be left out
}

// Load is what takes current from a rail.
type Load struct {
	Name     string
	Rail     string
	Currents []units.Quantity // in each mode, in the order of Modes, A
}

// Mode is a way of operation.
type Mode struct {
	Name string
	Time units.Quantity // in a day, h; one mode may leave it out, and has the rest of the day
}

// Inputs are the arguments of Compute.
type Inputs struct {
	Rails []Rail
	Loads []Load
	Modes []Mode
}

// Flow is what goes through a rail in one mode. Sizes: no current or power is
// below zero, whatever the sign of the rail.
type Flow struct {
	Mode    string
	Loads   units.Quantity // into the loads of the rail itself, A
	Onward  units.Quantity // into the converters that it feeds, A
	Out     units.Quantity // Loads + Onward, A
	Power   units.Quantity // voltage · Out, W
	In      units.Quantity // from the rail before it, A; of the source Out
	InPower units.Quantity // Power + Heat, W
	Heat    units.Quantity // lost in the converter, W
	Margin  units.Quantity // limit − Out, A, below zero where it carries too much; not set without a limit
}

// RailResult is what Compute finds of a rail.
type RailResult struct {
	Name       string
	From       string
	Kind       string
	Depth      int // how many converters lie before it
	Voltage    units.Quantity
	Limit      units.Quantity // not set where there is none
	Flows      []Flow         // in each mode
	MostOut    units.Quantity // largest current over all modes, A
	MostOutIn  string         // the mode that takes it; several where cases differ
	MostHeat   units.Quantity // largest loss of the converter, W
	MostHeatIn string
	LeastLeft  units.Quantity // limit − MostOut, A; not set without a limit
	HeatEnergy units.Quantity // lost in the converter in a day, Wh
}

// ModeResult is what Compute finds of a mode.
type ModeResult struct {
	Name    string
	Time    units.Quantity // in a day
	Current units.Quantity // out of the source, A
	Power   units.Quantity // out of the source, W
	Loads   units.Quantity // what the loads have of it, W
	Heat    units.Quantity // what the converters make of it, W
	Energy  units.Quantity // Power · Time, Wh
}

// Result is what Compute finds: the rails as a tree, each behind the one that
// feeds it, and the modes.
type Result struct {
	Rails         []RailResult
	Modes         []ModeResult
	MostCurrent   units.Quantity // largest source current over all modes, A
	MostCurrentIn string
	MostPower     units.Quantity // largest source power, W
	MostPowerIn   string
	Charge        units.Quantity // out of the source in a day, Ah
	Energy        units.Quantity // out of the source in a day, Wh
	LoadEnergy    units.Quantity // what the loads have of it, Wh
	MeanCurrent   units.Quantity // Charge/24 h, A
	MeanPower     units.Quantity // Energy/24 h, W
	Efficiency    units.Quantity // LoadEnergy/Energy over the day; not set where nothing flows
}
