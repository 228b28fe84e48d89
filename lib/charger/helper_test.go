package charger

import (
	"math"
	"reflect"
	"testing"

	"ohmwright/lib/table"
	"ohmwright/units"
)

var q = units.MustParse

// near checks a result against a value from outside, within a tolerance in
// the unit of the result (kelvin for temperatures).
func near(t *testing.T, name string, got units.Quantity, want, tolerance string) {
	t.Helper()
	w := q(want)
	if got.Dim() != w.Dim() {
		t.Errorf("%s is %v, want %s", name, got, want)
		return
	}
	if d := math.Abs(got.SI() - w.SI()); !(d <= q(tolerance).SI()) {
		t.Errorf("%s is %s, want %s within %s", name, got.Text(9), want, tolerance)
	}
}

// must returns a result that has no error.
func must[T any](t *testing.T) func(T, error) T {
	return func(x T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
}

// of makes a quantity of a number and a unit.
func of(x float64, unit string) units.Quantity { return units.Number(x).Mul(q("1 " + unit)) }

func box[T any](x T, err error) (any, error) { return x, err }

// quantities lists the quantities in a result.
func quantities(v reflect.Value) (list []units.Quantity) {
	if x, ok := v.Interface().(units.Quantity); ok {
		return []units.Quantity{x}
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			list = append(list, quantities(v.Field(i))...)
		}
	case reflect.Slice:
		for i := range v.Len() {
			list = append(list, quantities(v.Index(i))...)
		}
	}
	return list
}

// tab is a table of text that is known to be right.
func tab(text string) table.Table {
	t, err := table.Text(text)
	if err != nil {
		panic(err)
	}
	return t
}

// everyCase holds that every case of a result is what the function gives of
// the exact values in it, whatever regime the case is in, and that nothing
// decides for all cases.
func everyCase(t *testing.T, name string, values []string, call func(x []units.Quantity) (any, error)) {
	t.Helper()
	study := units.NewStudy(units.StudyOptions{Boards: 20})
	var x []units.Quantity
	for _, text := range values {
		v := q(text)
		var least, most units.Quantity
		if v.Dim().Kind() == units.PointScale {
			least, most = v.Sub(q("10 K")), v.Add(q("10 K"))
		} else {
			least, most = v.Mul(units.Number(0.8)), v.Mul(units.Number(1.2))
		}
		x = append(x, study.Place(text, text, units.Range(least, v, most)))
	}
	result, err := call(x)
	if err != nil {
		t.Errorf("%s: %v", name, err)
		return
	}
	got := quantities(reflect.ValueOf(result))
	cases := study.CasesOf(x)
	for i := range cases.Len() {
		exact := make([]units.Quantity, len(x))
		for k := range x {
			exact[k] = cases.Pick(x[k], i)
		}
		one, err := call(exact)
		if err != nil {
			t.Fatalf("%s, where %s: %v", name, cases.Where(i), err)
		}
		for k, want := range quantities(reflect.ValueOf(one)) {
			if g := cases.Pick(got[k], i); math.Abs(g.SI()-want.SI()) > 1e-11*(math.Abs(want.SI())+1e-9) || g.Dim() != want.Dim() {
				t.Errorf("%s: result %d is %v where %s, of the exact values %v", name, k, g.SI(), cases.Where(i), want.SI())
			}
		}
	}
	if splits, n := study.TakeSplits(); n > 0 {
		t.Errorf("%s decides for all cases: %v", name, splits)
	}
	spreads := 0
	for _, v := range got {
		if v.HasSpread() {
			spreads++
		}
	}
	if spreads == 0 {
		t.Errorf("%s: no result has spread: %v", name, result)
	}
}
