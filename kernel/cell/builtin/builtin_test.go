package builtin_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"ohmwright/kernel/cell/builtin"
	"ohmwright/units"
)

func q(s string) units.Quantity { return units.MustParse(s) }

// failure runs f and returns the error of units that it panicked with.
func failure(t *testing.T, f func()) *units.Error {
	t.Helper()
	var got *units.Error
	func() {
		defer func() {
			if r := recover(); r != nil {
				err, ok := r.(error)
				if !ok || !errors.As(err, &got) {
					t.Errorf("panic with %v (%T), want *units.Error", r, r)
				}
			}
		}()
		f()
	}()
	if got == nil {
		t.Fatal("no *units.Error")
	}
	return got
}

func TestRequireOutsideANote(t *testing.T) {
	t.Parallel()
	builtin.Require(true, "nothing happens")
	err := failure(t, func() { builtin.Require(false, "the junction stays below its rating") })
	if want := `requirement "the junction stays below its rating" does not hold`; err.Msg != want {
		t.Errorf("%q, want %q", err.Msg, want)
	}
}

func TestWithin(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		x, lo, hi string
		want      bool
	}{
		{"5V", "4.75V", "5.25V", true},
		{"4.75V", "4.75V", "5.25V", true}, // the limits belong to it
		{"5.25V", "4.75V", "5.25V", true},
		{"4749mV", "4.75V", "5.25V", false},
		{"5251mV", "4.75V", "5.25V", false},
		{"3V", "3V", "3V", true},
		{"25°C", "-40°C", "85°C", true},
		{"-41°C", "-40°C", "85°C", false},
		{"14dBm", "10dBm", "20dBm", true},
		{"9dBm", "10dBm", "20dBm", false},
	} {
		if got := builtin.Within(q(c.x), q(c.lo), q(c.hi)); got != c.want {
			t.Errorf("Within(%s, %s, %s) is %v", c.x, c.lo, c.hi, got)
		}
	}
}

func TestNaNIsWithinNothing(t *testing.T) {
	t.Parallel()
	nan, one, two := units.Number(math.NaN()), units.Number(1), units.Number(2)
	for _, c := range [][3]units.Quantity{{nan, one, two}, {one, nan, two}, {one, one, nan}, {nan, nan, nan}} {
		if builtin.Within(c[0], c[1], c[2]) {
			t.Errorf("Within%v holds", c)
		}
	}
}

func TestWithinErrors(t *testing.T) {
	t.Parallel()
	err := failure(t, func() { builtin.Within(q("5V"), q("6V"), q("4V")) })
	if want := "Within has its limits the wrong way round, 6 V before 4 V"; err.Msg != want {
		t.Errorf("%q, want %q", err.Msg, want)
	}
	if want := "write the lower limit first, Within(x, 4 V, 6 V)"; err.Hint != want {
		t.Errorf("%q, want %q", err.Hint, want)
	}
	// What Less says of two dimensions is not ours to word.
	for _, c := range [][3]string{{"5V", "1A", "2A"}, {"5V", "1V", "2A"}, {"5V", "1A", "2V"}, {"5K", "1°C", "20°C"}} {
		failure(t, func() { builtin.Within(q(c[0]), q(c[1]), q(c[2])) })
	}
}

// 1 mW is 0 dBm by definition of dBm (IEC 60027-3), 100 mW is 10·lg(100) = 20 dBm.
func TestLevel(t *testing.T) {
	t.Parallel()
	if got := builtin.Level(q("100mW"), q("1mW")); math.Abs(got.Sub(q("20dBm")).SI()) > 1e-12 {
		t.Errorf("100 mW is %v", got)
	}
	if got := builtin.Level(q("1mW"), q("1mW")); strings.TrimSpace(got.String()) != "0 dBm" {
		t.Errorf("1 mW is %v", got)
	}
}
