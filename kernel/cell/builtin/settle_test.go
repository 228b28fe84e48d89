package builtin_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ohmwright/kernel/cell/builtin"
	"ohmwright/units"
)

// number makes a function of quantities from one of plain numbers.
func number(f func(float64) float64) func(units.Quantity) units.Quantity {
	return func(x units.Quantity) units.Quantity { return units.Number(f(x.SI())) }
}

func TestSettle(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name  string
		start float64
		f     func(float64) float64
		want  float64
	}{
		// The Dottie number, OEIS A003957.
		{"cosine", 1, math.Cos, 0.7390851332151607},
		// The omega constant W(1), OEIS A030178.
		{"e^-x", 0, func(x float64) float64 { return math.Exp(-x) }, 0.5671432904097838},
		// W(10) = 1.745528…, and x = 10·e^-x swings apart: the slope is -1.7.
		{"10 e^-x swings apart", 0, func(x float64) float64 { return 10 * math.Exp(-x) }, 1.7455280027406994},
		// x = 8 - 3x gives 4x = 8.
		{"8 - 3x swings apart", 0, func(x float64) float64 { return 8 - 3*x }, 2},
		// x = 1000 - 999x gives 1000x = 1000.
		{"very strong feedback", 0, func(x float64) float64 { return 1000 - 999*x }, 1},
		// x = 0.99x + 1 gives 0.01x = 1.
		{"slow", 0, func(x float64) float64 { return 0.99*x + 1 }, 100},
		// The mean of x and 2/x: Newton's square root of 2.
		{"square root", 1, func(x float64) float64 { return (x + 2/x) / 2 }, math.Sqrt2},
		{"to zero", 5, func(x float64) float64 { return x / 2 }, 0},
		{"at rest at once", 7, func(x float64) float64 { return x }, 7},
		{"jumps there", 3, func(float64) float64 { return -4 }, -4},
	} {
		got := builtin.Settle(units.Number(c.start), number(c.f)).SI()
		if math.Abs(got-c.want) > 1e-10*math.Abs(c.want) {
			t.Errorf("%s: %.17g, want %.17g", c.name, got, c.want)
		}
	}
}

// A winding whose loss rises with its temperature: 1 W at 25 °C, α = 0.4 %/K,
// 50 K/W. ΔT = 50 K·(1 + 0.004/K·ΔT) gives ΔT = 50 K/(1 − 0.2) = 62.5 K.
func TestSettleOfATemperature(t *testing.T) {
	t.Parallel()
	ambient, loss, rise := q("25°C"), q("1W"), q("50K/W")
	alpha := q("0.4%/K")
	got := builtin.Settle(ambient, func(hot units.Quantity) units.Quantity {
		p := loss.Mul(units.Number(1).Add(alpha.Mul(hot.Sub(ambient))))
		return ambient.Add(p.Mul(rise))
	})
	if d := got.Sub(q("87.5°C")).SI(); math.Abs(d) > 1e-8 {
		t.Errorf("settles at %v, %g K off", got, d)
	}
}

// The constant 0 has no dimension; the first result gives it one.
func TestSettleFromTheConstantZero(t *testing.T) {
	t.Parallel()
	got := builtin.Settle(units.Quantity{}, func(x units.Quantity) units.Quantity {
		return q("6V").Add(x).Mul(units.Number(0.5)) // x = (6 V + x)/2 gives 6 V
	})
	if d := got.Sub(q("6V")).SI(); math.Abs(d) > 1e-10 {
		t.Errorf("settles at %v", got)
	}
}

// Noise of 1e-10 in f keeps the step above the aim, but not above what
// counts as rest for a noisy function.
func TestSettleWithNoise(t *testing.T) {
	t.Parallel()
	n := 0
	got := builtin.Settle(units.Number(1), number(func(x float64) float64 {
		n++
		return math.Cos(x) * (1 + 1e-10*math.Sin(float64(n*n)))
	})).SI()
	if math.Abs(got-0.7390851332151607) > 1e-9 {
		t.Errorf("settles at %.17g", got)
	}
}

func TestSettleErrors(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name      string
		start     string
		f         func(units.Quantity) units.Quantity
		msg, hint string // how they start
	}{
		{"runaway", "1W", func(x units.Quantity) units.Quantity { return x.Mul(units.Number(2)) },
			"Settle ran away after 101 rounds: the last values are ", "the function answers a change with a larger one"},
		{"no number", "1", number(func(x float64) float64 { return math.Sqrt(x - 2) }),
			"Settle ran away after 1 rounds: the last values are ", ""},
		{"endless", "1", number(func(x float64) float64 { return x + 1 }),
			"Settle found no rest in 10000 rounds: the last values are 9999, 10000, 10001", "start closer to where it should rest"},
		// A choice between two members that each make the other the better one.
		{"jump", "1", number(func(x float64) float64 {
			if x > 1.5 {
				return 1
			}
			return 2
		}), "Settle found no rest in 10000 rounds: the last values are ", ""},
		{"another dimension", "1V", func(x units.Quantity) units.Quantity { return q("2A") },
			"Settle went from 1 V to 2 A, which is another dimension", "return from the function what it takes"},
		{"no function", "1V", nil, "Settle has no function to repeat", ""},
	} {
		err := failure(t, func() { builtin.Settle(q(c.start), c.f) })
		if !strings.HasPrefix(err.Msg, c.msg) || !strings.HasPrefix(err.Hint, c.hint) {
			t.Errorf("%s: %q, %q", c.name, err.Msg, err.Hint)
		}
	}
}

// x = a + k·x rests at a/(1−k) for every feedback k below 1, however
// strongly negative; the step of 1e-12 leaves an error of 1/(1−k) of it.
func TestSettleOfALine(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.Float64Range(-500, 0.95).Draw(t, "k")
		a := rapid.Float64Range(1e-3, 1e3).Draw(t, "a")
		start := rapid.Float64Range(-1e3, 1e3).Draw(t, "start")
		got := builtin.Settle(units.Number(start), number(func(x float64) float64 { return a + k*x })).SI()
		if want := a / (1 - k); math.Abs(got-want) > 1e-8*want {
			t.Fatalf("%g, want %g", got, want)
		}
	})
}

// Positive feedback of more than 1 has a rest on paper, which nothing real
// stays at.
func TestRunawayOfALine(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.Float64Range(1.05, 10).Draw(t, "k")
		defer func() {
			if err, ok := recover().(*units.Error); !ok || !strings.HasPrefix(err.Msg, "Settle ran away") {
				t.Fatalf("got %v", err)
			}
		}()
		builtin.Settle(units.Number(1), number(func(x float64) float64 { return 1 + k*x }))
	})
}
