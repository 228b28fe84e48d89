package thermal

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// SinkInputs are the arguments of RequiredSink.
type SinkInputs struct {
	Ambient        units.Quantity // air at the heat sink, °C
	Limit          units.Quantity // highest junction temperature allowed, °C
	Power          units.Quantity // of the part, W
	JunctionToCase units.Quantity // θJC, K/W
	CaseToSink     units.Quantity // θCS of pad or paste, K/W; left out: none
}

// SinkResult is what RequiredSink finds.
type SinkResult struct {
	Allowed units.Quantity // whole path from junction to air, K/W
	Sink    units.Quantity // largest resistance of the heat sink to air, θSA, K/W
	AtSink  units.Quantity // temperature of the heat sink with it, °C
	AtCase  units.Quantity // temperature of the case with it, °C
}

// RequiredSink finds the heat sink with which a junction stays at its limit.
//
//	Allowed = (limit − ambient)/power
//	Sink    = Allowed − junction to case − case to sink
//	AtSink  = ambient + power · Sink
//	AtCase  = AtSink + power · case to sink
//
// Arguments: Ambient and Limit, °C, Limit above Ambient; Power, W, and
// JunctionToCase, K/W, above zero; CaseToSink, K/W, not below zero. It is an
// error outside of that, and where part and pad alone take the whole allowed
// resistance: no heat sink is good enough then.
//
//	s, err := thermal.RequiredSink(thermal.SinkInputs{
//		Ambient: 40°C, Limit: 125°C, Power: 10W, JunctionToCase: 1.5K/W, CaseToSink: 0.5K/W,
//	})
//	// s.Sink: 6.5 K/W
//
// Holds where nearly all heat goes through the heat sink, and for a θJC to
// the side that carries it.
//
// Source: definition of thermal resistance (JEDEC JESD51-1); resistances in
// series add (any textbook).
//
// Caution: choose a heat sink below Sink; its figure holds for its own
// position, air flow and a rise near that of its data sheet. A metal case may
// carry the part's voltage.
func RequiredSink(in SinkInputs) (SinkResult, error) {
	const function = "thermal.RequiredSink"
	caseToSink := argument.ThermalResistance.OrZero(in.CaseToSink)
	if err := argument.First(function,
		argument.Temperature("Ambient", in.Ambient),
		argument.Temperature("Limit", in.Limit),
		argument.Power.Positive("Power", in.Power),
		argument.ThermalResistance.Positive("JunctionToCase", in.JunctionToCase),
		argument.ThermalResistance.NotNegative("CaseToSink", caseToSink),
	); err != nil {
		return SinkResult{}, err
	}
	ambient, limit, power, junctionToCase := in.Ambient, in.Limit, in.Power, in.JunctionToCase
	if err := argument.First(function, argument.Above("Limit", limit, "Ambient", ambient, limitMend)); err != nil {
		return SinkResult{}, err
	}
	allowed := limit.Sub(ambient).Div(power)
	sink := allowed.Sub(junctionToCase).Sub(caseToSink)
	var zero units.Quantity
	if at := argument.NotAbove(sink, zero, junctionToCase.Add(caseToSink), allowed); at != nil {
		return SinkResult{}, fmt.Errorf("%s: JunctionToCase and CaseToSink are %s together; they must be below %s, which is allowed from junction to air: lower the power, share it between parts, or choose a part with a lower θJC", function, at[0], at[1])
	}
	atSink := ambient.Add(power.Mul(sink))
	atCase := atSink.Add(power.Mul(caseToSink))
	return SinkResult{Allowed: allowed, Sink: sink, AtSink: atSink, AtCase: atCase}, nil
}
