package switching

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// InductorLossInputs are the arguments of InductorLoss.
type InductorLossInputs struct {
	Mean           units.Quantity // of the inductor's current over the whole period, A
	AlternatingRMS units.Quantity // of the current without its mean, A
	Winding        units.Quantity // resistance to direct current, hot, Ω; left out: none
	WindingAC      units.Quantity // resistance to the ripple, hot, Ω; left out: as Winding
	Core           units.Quantity // loss in the core, W; see CoreLoss; left out: none
}

// InductorLossResult is what InductorLoss finds.
type InductorLossResult struct {
	Direct  units.Quantity // of the mean current in the winding, W
	Ripple  units.Quantity // of the rest in the winding, W
	Winding units.Quantity // sum of the two, W
	Core    units.Quantity // W
	Total   units.Quantity // heat of the inductor, W
}

// InductorLoss computes what an inductor loses in winding and core.
//
//	Direct  = winding · mean²
//	Ripple  = winding AC · AlternatingRMS²
//	Winding = Direct + Ripple
//	Total   = Winding + core
//
// Arguments: Mean and AlternatingRMS, A, as Cycle finds them, Winding and
// WindingAC, Ω, and Core, W, not below zero. It is an error outside of that.
//
//	l, err := switching.InductorLoss(switching.InductorLossInputs{
//		Mean: 1.5A, AlternatingRMS: 0.2A, Winding: 60mΩ, WindingAC: 300mΩ, Core: 20mW,
//	})
//	// l.Total: 135 mW + 12 mW + 20 mW = 167 mW
//
// Source: squares of a mean and of what alternates about it add up (any
// textbook).
//
// Caution: skin and proximity make the resistance to the ripple several times
// that to direct current; makers' curves of the inductor say how many.
func InductorLoss(in InductorLossInputs) (InductorLossResult, error) {
	winding, core := argument.Resistance.OrZero(in.Winding), argument.Power.OrZero(in.Core)
	windingAC := winding
	if argument.Given(in.WindingAC) {
		windingAC = in.WindingAC
	}
	if err := argument.First("switching.InductorLoss",
		argument.Current.NotNegative("Mean", in.Mean),
		argument.Current.NotNegative("AlternatingRMS", in.AlternatingRMS),
		argument.Resistance.NotNegative("Winding", winding),
		argument.Resistance.NotNegative("WindingAC", windingAC),
		argument.Power.NotNegative("Core", core),
	); err != nil {
		return InductorLossResult{}, err
	}
	direct := winding.Mul(in.Mean).Mul(in.Mean)
	ripple := windingAC.Mul(in.AlternatingRMS).Mul(in.AlternatingRMS)
	copper := direct.Add(ripple)
	total := copper.Add(core)
	return InductorLossResult{Direct: direct, Ripple: ripple, Winding: copper, Core: core, Total: total}, nil
}
