package units

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// plainUnits are units of plain quantities, exponents small enough to multiply.
var plainUnits = []string{"", "V", "mA", "kΩ", "µF", "Hz", "rad/s", "mAh", "K/W", "°C/W", "V/√Hz", "%", "ppm/K", "mil", "oz/ft²", "sq", "Ω/sq", "bit", "kbit/s", "rpm", "VA", "deg", "m³"}

func drawQuantity(t *rapid.T, name string) Quantity {
	return drawIn(t, name, rapid.SampledFrom(plainUnits).Draw(t, name+" unit"))
}

func drawIn(t *rapid.T, name, unit string) Quantity {
	x := rapid.Float64Range(-10, 10).Draw(t, name)
	if math.Abs(x) < 1e-3 {
		x = 0 // products of three stay clear of the numbers that lose digits
	}
	x *= math.Pow10(rapid.IntRange(-15, 12).Draw(t, name+" scale"))
	u, err := std.parseUnit(unit)
	if err != nil {
		t.Fatal(err)
	}
	factors, _ := std.factors(unit)
	return Quantity{v: x, d: u.dim | computedMark, u: std.keep(u, factors)}
}

// The number of every operation is that of float64, whatever units say.
func TestNumbersAreThoseOfFloat64(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawQuantity(t, "a"), drawQuantity(t, "b")
		same := drawIn(t, "c", "")
		same.d, same.u = a.d, a.u
		if got := a.Mul(b); got.v != a.v*b.v {
			t.Fatalf("%v · %v is %v", a, b, got.v)
		}
		if b.v != 0 {
			if got := a.Div(b); got.v != a.v/b.v {
				t.Fatalf("%v / %v is %v", a, b, got.v)
			}
		}
		if got := a.Add(same); got.v != a.v+same.v || !got.d.Same(a.d) {
			t.Fatalf("%v + %v is %v", a, same, got.v)
		}
		if got := a.Sub(same); got.v != a.v-same.v || !got.d.Same(a.d) {
			t.Fatalf("%v - %v is %v", a, same, got.v)
		}
		if a.Less(same) != (a.v < same.v) || a.Equal(same) != (a.v == same.v) {
			t.Fatalf("%v and %v compare wrongly", a, same)
		}
	})
}

func TestIdentities(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := drawQuantity(t, "a"), drawQuantity(t, "b"), drawQuantity(t, "c")
		if d := a.Sub(a); d.v != 0 || !d.d.Same(a.d) {
			t.Fatalf("%v minus itself is %v", a, d)
		}
		if s, w := a.Mul(b), b.Mul(a); !s.Same(w) || s.Text(0) != w.Text(0) && tagOf(a.u).counts() == tagOf(b.u).counts() && !(a.hasOwnUnit() && b.hasOwnUnit()) {
			t.Fatalf("%v · %v is %s, the other way %s", a, b, s.Text(0), w.Text(0))
		}
		if s, w := a.Mul(b).Mul(c), a.Mul(b.Mul(c)); !s.d.Same(w.d) || !near(s.v, w.v, 4e-16) {
			t.Fatalf("%v, %v, %v: %v and %v", a, b, c, s, w)
		}
		if a.v != 0 {
			if r := a.Div(a); r.v != 1 || r.Dim() != 0 || r.wild() {
				t.Fatalf("%v over itself is %v", a, r)
			}
			if r := b.Mul(a).Div(a); !r.d.Same(b.d) || !near(r.v, b.v, 4e-16) {
				t.Fatalf("%v · %v / %v is %v", b, a, a, r)
			}
		}
		if n := a.Neg().Neg(); !n.Same(a) || n.u != a.u {
			t.Fatalf("-(-%v) is %v", a, n)
		}
		if p := Pow(a, 2); !p.Same(a.Mul(a)) {
			t.Fatalf("Pow(%v, 2) is %v, %v", a, p, a.Mul(a))
		}
		if r := Sqrt(a.Mul(a)); !r.d.Same(a.d) || !near(r.v, math.Abs(a.v), 4e-16) {
			t.Fatalf("Sqrt(%v²) is %v", a, r)
		}
	})
}

func TestSumsAreAssociative(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom(plainUnits).Draw(t, "unit")
		a, b, c := drawIn(t, "a", unit), drawIn(t, "b", unit), drawIn(t, "c", unit)
		s, w := a.Add(b).Add(c), a.Add(b.Add(c))
		if bound := 4e-16 * (math.Abs(a.v) + math.Abs(b.v) + math.Abs(c.v)); math.Abs(s.v-w.v) > bound {
			t.Fatalf("%v, %v, %v: %v and %v", a, b, c, s, w)
		}
		if x, y := a.Add(b), b.Add(a); !x.Same(y) || x.String() != y.String() {
			t.Fatalf("%v + %v is %v, the other way %v", a, b, x, y)
		}
		if a.Less(b) && b.Less(a) || a.Less(b) != b.Neg().Less(a.Neg()) {
			t.Fatalf("%v and %v compare wrongly", a, b)
		}
		if m := Max(a, b, c); m.Less(a) || m.Less(b) || m.Less(c) || !Min(a.Neg(), b.Neg(), c.Neg()).Neg().Same(m) {
			t.Fatalf("Max(%v, %v, %v) is %v", a, b, c, m)
		}
	})
}

// The constant 0 and an unset Quantity take the other side's dimension; a
// zero that was computed has its own.
func TestWildZero(t *testing.T) {
	t.Parallel()
	var zero Quantity
	for _, s := range []string{"5 V", "5 mAh", "5", "3 dB", "5 rad/s", "5 Ω/sq", "8 bit", "40 K"} {
		a := q(s)
		for name, got := range map[string]Quantity{"a+0": a.Add(zero), "0+a": zero.Add(a), "a-0": a.Sub(zero)} {
			if !got.Same(a) || got.String() != a.String() {
				t.Errorf("%s: %s is %v", s, name, got)
			}
		}
		if got := zero.Sub(a); got.v != -a.v || !got.d.Same(a.d) {
			t.Errorf("0 - %s is %v", s, got)
		}
		if !zero.Less(a) || a.Less(zero) || a.Equal(zero) || zero.Equal(a) || !a.Sub(a).Equal(zero) {
			t.Errorf("%s and 0 compare wrongly", s)
		}
		if p := a.Mul(zero); p.v != 0 || p.wild() || !p.d.Same(a.d) {
			t.Errorf("%s times 0 is %v", s, p)
		}
		if p := zero.Mul(a); p.v != 0 || p.wild() || !p.d.Same(a.d) {
			t.Errorf("0 times %s is %v", s, p)
		}
	}
	if s := zero.Add(zero); s.wild() {
		t.Error("0 + 0 is still the constant 0")
	}
	if s := zero.Neg(); s.wild() {
		t.Error("-0 is still the constant 0")
	}
	// (x/x - 1) is 0, and a plain number.
	computed := q("5 V").Div(q("5 V")).Sub(Number(1))
	wantRefusal(t, "computed 0 + 1 V", func() { computed.Add(q("1 V")) }, "cannot add 0 (number) and 1 V (voltage)")
	wantRefusal(t, "0 V literal times 1 plus 1 A", func() { q("0 V").Add(q("1 A")) }, "cannot add 0 V (voltage) and 1 A (current)")
	wantRefusal(t, "Number(0) + 1 V", func() { Number(0).Add(q("1 V")) }, "cannot add")
	wantRefusal(t, "0·V + 1 A", func() { zero.Mul(q("1 V")).Add(q("1 A")) }, "cannot add")
	if got := Range(zero, q("5 V"), q("10 V")); !got.Same(q("5 V")) {
		t.Errorf("Range from 0 is %v", got)
	}
	if !zero.Same(Number(0)) || zero.Same(q("0 V")) {
		t.Error("Same goes by number and dimension")
	}
}

func TestIdentical(t *testing.T) {
	t.Parallel()
	values := []Quantity{
		{}, Number(0), q("0 V"), q("5 V"), q("5 A"), In(q("5 V"), "mV"), In(q("5 V"), "V"), q("7.2 C"), q("2 mAh"), In(q("7.2 C"), "mAh"),
		Tolerance(q("5 V"), q("1 %")), Tolerance(q("5 V"), q("2 %")), Band(q("4.95 V"), q("5 V"), q("5.06 V")), Typical(q("5 V")), q("25 °C"), q("77 °F"), q("298.15 K"), Pi, Nominal(Number(Pi.Float())),
	}
	for i, a := range values {
		for j, b := range values {
			if got := a.Identical(b); got != (i == j) {
				t.Errorf("%v and %v (%d, %d): %v", a, b, i, j, got)
			}
		}
		again := a
		if !a.Identical(again) {
			t.Errorf("%v is not itself", a)
		}
	}
	if !In(q("5 V"), "mV").Identical(In(q("5 V"), "mV")) || !Tolerance(q("5 V"), q("1 %")).Identical(Tolerance(q("5 V"), q("1 %"))) {
		t.Error("made twice is not identical")
	}
}

// The three lines that static float types let pass.
func TestWhatFloatTypesDoNotCatch(t *testing.T) {
	t.Parallel()
	a := q("2 V")
	if p := a.Mul(a); p.String() != "4 V²" {
		t.Errorf("V·V is %v", p)
	}
	wantRefusal(t, "a + 1.5", func() { a.Add(Number(1.5)) }, "cannot add")
	wantRefusal(t, "a > 2", func() { Number(2).Less(a) }, "cannot compare")
}

func TestMultiplyAndAddDoNotAllocate(t *testing.T) {
	a, b, n := q("5 V"), q("3 V"), Number(2)
	mah := q("3 mAh")
	if got := testing.AllocsPerRun(100, func() {
		sinkQuantity = a.Mul(b)
		sinkQuantity = a.Add(b)
		sinkQuantity = a.Sub(b)
		sinkQuantity = a.Div(b)
		sinkQuantity = mah.Mul(n)
		sinkQuantity = mah.Add(mah)
	}); got != 0 {
		t.Errorf("%v allocations", got)
	}
}
