package powertree

import (
	"math"
	"reflect"
	"testing"

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
			in.Loads[0].Currents[1], in.Loads[3].Currents[1] = x[1], x[2].Mul(units.Number(1e4))
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
		}
		all, err := f(x)
		if err != nil {
			t.Fatal(name, err)
		}
		if splits, n := study.TakeSplits(); n > 0 {
			t.Errorf("%s decides for all cases: %v", name, splits)
		}
		got := quantities(reflect.ValueOf(all))
		cases := study.CasesOf(x)
		for i := range cases.Len() {
			one, err := f([]units.Quantity{cases.Pick(x[0], i), cases.Pick(x[1], i), cases.Pick(x[2], i)})
			if err != nil {
				t.Fatal(name, err)
			}
			for k, want := range quantities(reflect.ValueOf(one)) {
				if g := cases.Pick(got[k], i); math.Abs(g.SI()-want.SI()) > 1e-12*math.Abs(want.SI()) {
					t.Errorf("%s: quantity %d is %v where %s, of the exact values %v", name, k, g, cases.Where(i), want)
				}
			}
		}
	}
}
