package capacitor

import (
	"math"
	"reflect"
	"testing"

	"ohmwright/units"
)

var q = units.MustParse

// near checks a result against a value from outside, within a relative
// tolerance.
func near(t *testing.T, name string, got units.Quantity, want string, tolerance float64) {
	t.Helper()
	w := q(want)
	if got.Dim() != w.Dim() {
		t.Errorf("%s is %v, want %s", name, got, want)
		return
	}
	if d := math.Abs(got.SI() - w.SI()); !(d <= tolerance*math.Abs(w.SI())) {
		t.Errorf("%s is %s, want %s within %g", name, got.Text(7), want, tolerance)
	}
}

// must is the result of a call that is not to fail.
func must[T any](t testing.TB, result T, err error) T {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	return result
}

func box[T any](x T, err error) (any, error) { return x, err }

// quantities lists the quantities of a result by field.
func quantities(result any) map[string]units.Quantity {
	if x, ok := result.(units.Quantity); ok {
		return map[string]units.Quantity{"result": x}
	}
	list := map[string]units.Quantity{}
	v := reflect.ValueOf(result)
	for i := range v.NumField() {
		if x, ok := v.Field(i).Interface().(units.Quantity); ok {
			list[v.Type().Field(i).Name] = x
		}
	}
	return list
}

// of is x in the given unit.
func of(x float64, unit string) units.Quantity { return units.Number(x).Mul(q("1 " + unit)) }
