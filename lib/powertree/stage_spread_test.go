package powertree

import (
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"
)

// The stages and Check give in every case what they give of its exact values;
// which rail has the least left changes from case to case.
func TestStagesCaseByCase(t *testing.T) {
	t.Parallel()
	for name, f := range map[string]func(x []units.Quantity) (any, error){
		"Linear": func(x []units.Quantity) (any, error) {
			return Linear(StageInputs{Input: x[0], Output: q("3.3 V"), Load: x[1], Quiescent: x[2]})
		},
		"Switching": func(x []units.Quantity) (any, error) {
			return Switching(StageInputs{Input: x[0], Output: q("3.3 V"), Load: x[1], Quiescent: x[2], Efficiency: q("80 %")})
		},
		"Check": func(x []units.Quantity) (any, error) {
			in := board()
			in.Loads[0].Currents[1], in.Loads[3].Currents[1] = x[1], x[3]
			tree, err := Compute(in)
			if err != nil {
				return nil, err
			}
			return Check(tree)
		},
	} {
		study := units.NewStudy(units.StudyOptions{Boards: 20})
		x := []units.Quantity{
			study.Place("V", "V", units.Range(q("4 V"), q("5 V"), q("6 V"))),
			study.Place("I", "I", units.Range(q("0 A"), q("50 mA"), q("150 mA"))),
			study.Place("Q", "Q", units.Range(q("0 A"), q("60 µA"), q("90 µA"))),
			study.Place("lamp", "lamp", units.Range(q("0 A"), q("0.6 A"), q("0.9 A"))),
		}
		expect.EveryCase(t, name, study, x, f)
	}
}

// A tree says what is of another kind by its rail and load.
func TestOtherKinds(t *testing.T) {
	t.Parallel()
	in := board()
	expect.OtherKinds(t, "Compute", &in, func() (any, error) { return Compute(in) })
	stage := StageInputs{Input: q("5 V"), Output: q("3.3 V"), Load: q("150 mA"), Quiescent: q("60 µA")}
	expect.OtherKinds(t, "Linear", &stage, func() (any, error) { return Linear(stage) })
	stage.Efficiency = q("80 %")
	expect.OtherKinds(t, "Switching", &stage, func() (any, error) { return Switching(stage) })
}
