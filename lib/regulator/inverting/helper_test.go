package inverting

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

// rail is an inverting stage with every drop, in continuous conduction: our
// own.
func rail() Stage {
	return Stage{
		Input: q("12 V"), Output: q("-5 V"), Load: q("0.8 A"), Frequency: q("500 kHz"), Inductance: q("15 µH"),
		Switch: q("150 mΩ"), Rectifier: q("90 mΩ"), Winding: q("60 mΩ"),
	}
}

// sepic is a SEPIC with every drop, in continuous conduction: our own.
func sepic() Stage {
	return Stage{
		Input: q("12 V"), Output: q("12 V"), Load: q("0.6 A"), Frequency: q("400 kHz"), Inductance: q("33 µH"), Second: q("22 µH"),
		Switch: q("80 mΩ"), Diode: q("0.45 V"), Winding: q("70 mΩ"), SecondWinding: q("50 mΩ"), SEPIC: true,
	}
}

// coupled is the same on one core.
func coupled() Stage {
	s := sepic()
	s.Second, s.SecondWinding, s.Coupled = units.Quantity{}, units.Quantity{}, true
	return s
}
