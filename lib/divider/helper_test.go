package divider

import (
	"math"
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

// rounded is the tolerance of values that are written here with six figures.
const rounded = 1e-6
