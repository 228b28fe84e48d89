package loop

import (
	"math"
	"testing"

	"ohmwright/units"

	"pgregory.net/rapid"
)

var q = units.MustParse

// near checks a result against a value from outside, within a relative
// tolerance.
func near(t testing.TB, name string, got units.Quantity, want string, tolerance float64) {
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

// of is x in the given unit.
func of(x float64, unit string) units.Quantity { return units.Number(x).Mul(q("1 " + unit)) }

// all are the quantities of one unit, "430 Hz", "2 kHz".
func all(texts ...string) (list []units.Quantity) {
	for _, text := range texts {
		list = append(list, q(text))
	}
	return list
}

// size draws a number that is spread evenly over its decades.
func size(t *rapid.T, name string, low, high float64) float64 {
	return math.Exp(rapid.Float64Range(math.Log(low), math.Log(high)).Draw(t, name))
}
