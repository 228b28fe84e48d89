package stepdown

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/regulator/switching"
	"ohmwright/lib/table"
)

// SaturationInputs are the arguments of Saturation.
type SaturationInputs struct {
	Stage Stage       // Inductance is that without current, with its tolerance
	Curve table.Table // inductance, H or %, over current, A, from almost none on
}

// Saturation finds the peak of the current in an inductor whose inductance
// falls as the current rises, from a curve of its data sheet.
//
//	Inductance = stage's inductance · curve(Peak)/curve(its first current)
//	Peak       = what Currents finds with Inductance
//
// as switching.Saturation solves them, which says what the result holds.
//
// Arguments: Stage; Curve, with current in A and inductance in H or %, the
// first row almost without current. It is an error outside of that, and where
// the peak would lie beyond the curve: the inductor saturates.
//
//	s, err := stepdown.Saturation(stepdown.SaturationInputs{Stage: stage, Curve: Table("inductor.csv")})
//	Require(s.Remaining >= 70%, "the inductor does not saturate in operation")
//
// Give Input as a range: the peak is largest at its high end.
//
// Where it holds, source and cautions: as switching.Saturation.
func Saturation(in SaturationInputs) (switching.SaturationResult, error) {
	const function = "stepdown.Saturation"
	if err := argument.First(function, in.Stage.withInductor()); err != nil {
		return switching.SaturationResult{}, err
	}
	s, d := in.Stage, in.Stage.duty()
	r, err := switching.Saturation(switching.SaturationInputs{Cycle: switching.CycleInputs{
		OnVoltage: d.OnVoltage, OffVoltage: d.OffVoltage, Inductance: s.Inductance, Frequency: s.Frequency, Mean: s.Load, Forced: s.Forced,
	}, Curve: in.Curve})
	return r, argument.Within(function, err)
}
