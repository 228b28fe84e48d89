package inside_test

import (
	"slices"
	"strings"
	"testing"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/inside"
)

// The formulas of a function that works through methods, helpers and another
// package stand in the order in which they are computed: each name in one is a
// step before it, or is given.
func TestFormulasInOrder(t *testing.T) {
	t.Parallel()
	l := inside.New(world(t))
	for _, c := range []struct {
		path, name string
		want       []string // some of the steps, in their order
	}{
		{"ohmwright/lib/regulator/stepup", "Currents", []string{"OnVoltage", "OffVoltage", "OnSlope", "FullRipple", "Peak", "RMS"}},
		{"ohmwright/lib/regulator/stepdown", "Currents", []string{"HighDrop", "OnVoltage", "Duty", "OnSlope", "FullRipple", "Peak", "HighRMS"}},
		{"ohmwright/lib/divider", "Plain", []string{"total", "Ratio", "Output", "Power"}},
	} {
		var names []string
		for _, f := range l.Formulas(c.path, c.name) {
			names = append(names, f.Name)
			if f.Formula == nil || f.Formula.Kind == cell.ExprCode {
				t.Errorf("%s: %s has no formula", c.name, f.Name)
			}
		}
		at := -1
		for _, want := range c.want {
			i := slices.Index(names, want)
			if i <= at {
				t.Errorf("%s: %s stands at %d in %s", c.name, want, i, strings.Join(names, " "))
			}
			at = i
		}
	}
	if f := l.Formulas("ohmwright/lib/preferred", "Nearest"); f != nil {
		t.Errorf("a search has formulas: %v", f)
	}
	if f := l.Formulas("ohmwright/lib/divider", "None"); f != nil {
		t.Errorf("a function that is not there has formulas: %v", f)
	}
}
