package table

import (
	"math"
	"testing"

	"ohmwright/units"
)

var q = units.MustParse

func must(t testing.TB, text string) Table {
	t.Helper()
	table, err := Text(text)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

func ok(t testing.TB) func(Table, error) Table {
	return func(table Table, err error) Table {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return table
	}
}

// near holds a value against one that was worked out elsewhere, in the unit of
// the latter.
func near(t testing.TB, name string, got units.Quantity, err error, want string, relative float64) {
	t.Helper()
	if err != nil {
		t.Errorf("%s: %v", name, err)
		return
	}
	w := q(want)
	if got.Dim() != w.Dim() || !(math.Abs(numbersOf(got)[0]-numbersOf(w)[0]) <= relative*math.Abs(numbersOf(w)[0])) {
		t.Errorf("%s is %s, want %s", name, got.Text(0), want)
	}
}
