package linear

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

// quantities lists the quantities of a result by field.
func quantities(result any) map[string]units.Quantity {
	if x, ok := result.(units.Quantity); ok {
		return map[string]units.Quantity{"result": x}
	}
	list := map[string]units.Quantity{}
	v := reflect.ValueOf(result)
	for i := range v.NumField() {
		list[v.Type().Field(i).Name] = v.Field(i).Interface().(units.Quantity)
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
