package inside_test

import (
	"go/types"
	"slices"
	"strings"
	"testing"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/host/allow"
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
		{"regulator/stepup", "Duty", []string{"wanted", "square", "Mean", "SwitchDrop", "OnVoltage", "Duty"}},
		{"regulator/stepdown", "Currents", []string{"HighDrop", "OnVoltage", "Duty", "OnSlope", "FullRipple", "Peak", "HighRMS"}},
		{"regulator/linear", "Setting", []string{"LowerCurrent", "UpperCurrent", "Output", "Error", "ErrorShare"}},
		{"divider", "Plain", []string{"total", "Ratio", "Output", "Power"}},
	} {
		var names []string
		for _, f := range l.Formulas(allow.Lib+c.path, c.name) {
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
}

// What formulas would tell wrongly without the rest has none.
func TestNoHalfToldFormulas(t *testing.T) {
	t.Parallel()
	l := inside.New(world(t))
	for _, c := range []struct{ path, name, reason string }{
		{"preferred", "Nearest", "it searches"},
		{"capacitor", "RippleCurrent", "it adds up in a loop"},
		{"thermal", "Coupled", "its result is made in loops"},
		{"battery", "Pulse", "a condition stands in a condition"},
		{"charger", "Window", "a result is given once more, from itself"},
		{"regulator/stepup", "LoadStep", "two states of one stage have fields of one name"},
		{"regulator/stepup", "Currents", "its Boundary is not that of the cycle"},
		{"divider", "None", "it is not there"},
	} {
		if f := l.Formulas(allow.Lib+c.path, c.name); f != nil {
			t.Errorf("%s.%s has formulas, but %s: %+v", c.path, c.name, c.reason, f)
		}
	}
}

// The source of every package of lib can be read and gives the text of each of
// its functions; nearly half of them have formulas, without a name or formula
// missing in any.
func TestFormulasOfAllFunctions(t *testing.T) {
	t.Parallel()
	w := world(t)
	l := inside.New(w)
	drawn := 0
	for _, path := range w.Paths() {
		if _, ok := w.Source(path); !ok {
			continue
		}
		k, err := w.Importer().Import(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range k.Scope().Names() {
			f, ok := k.Scope().Lookup(name).(*types.Func)
			if !ok || !f.Exported() {
				continue
			}
			if code := l.Code(path, name); !strings.HasPrefix(code, "func "+name) || !strings.HasSuffix(code, "}") {
				t.Errorf("%s.%s has no source: %q", path, name, code)
			}
			list := l.Formulas(path, name)
			if len(list) > 0 {
				drawn++
			}
			given := map[string]bool{}
			for _, s := range list {
				if s.Name == "" || s.Formula == nil {
					t.Errorf("%s.%s: a step %+v", path, name, s)
				}
				if given[s.Name] && s.When == nil {
					t.Errorf("%s.%s gives %s twice", path, name, s.Name)
				}
				given[s.Name] = true
			}
		}
	}
	if drawn < 115 {
		t.Errorf("only %d functions have formulas", drawn)
	}
}
