package builtin_test

import (
	"errors"
	"testing"

	"ohmwright/kernel/cell/builtin"
	"ohmwright/units"
)

// What is no rating is refused, with what to write instead.
func TestRatedRefusals(t *testing.T) {
	t.Parallel()
	q := units.MustParse
	for _, c := range []struct {
		what          string
		limit, stress units.Quantity
		want          string
	}{
		{"", q("16V"), q("5V"), `a rating has no name: say what is rated, Rated("voltage", 16V, Vout)`},
		{"voltage", units.Tolerance(q("16V"), q("1%")), q("5V"), "the voltage rating, 16 V, has spread: a rating is one number: take Low of it"},
		{"temperature", q("125°C"), q("25°C"), "the temperature rating, 125 °C, has no share: it is a point on a scale: write a Require for it, Require(Tj <= 125°C, …)"},
		{"voltage", q("-16V"), q("5V"), "the voltage rating, −16 V, is not above zero: write what the maker allows; the sign of the stress does not count"},
		{"voltage", q("0V"), q("5V"), "the voltage rating, 0 V, is not above zero: write what the maker allows; the sign of the stress does not count"},
		{"voltage", q("16V"), q("5A"), "the voltage rating is 16 V, and the stress 5 A: rating and stress are of one kind"},
	} {
		func() {
			defer func() {
				err, _ := recover().(error)
				var e *units.Error
				if !errors.As(err, &e) || e.Error() != c.want {
					t.Errorf("got %v, want %s", err, c.want)
				}
			}()
			builtin.Rated(c.what, c.limit, c.stress)
		}()
	}
	// Nothing at all is a stress of any kind.
	if r := builtin.Rated("voltage", q("16V"), units.Quantity{}); r.What != "voltage" {
		t.Errorf("%+v", r)
	}
}
