package table

import (
	"fmt"
	"math"
	"sort"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ohmwright/units"
)

// drawn is a random curve: x rises, and y does where rising.
func drawn(r *rapid.T, rising bool) (x, y []float64) {
	n := rapid.IntRange(2, 12).Draw(r, "rows")
	set := map[float64]bool{}
	for len(set) < n {
		set[rapid.Float64Range(0.001, 1000).Draw(r, "x")] = true
	}
	for v := range set {
		x = append(x, v)
	}
	sort.Float64s(x)
	level := 0.001
	for range x {
		step := rapid.Float64Range(0.001, 100).Draw(r, "step")
		if level += step; rising {
			y = append(y, level)
		} else {
			y = append(y, step)
		}
	}
	return x, y
}

func written(head string, x, y []float64) string {
	var b strings.Builder
	b.WriteString(head)
	for i := range x {
		fmt.Fprintf(&b, "\n%v, %v", x[i], y[i])
	}
	return b.String()
}

var axes = []string{"x [V], y [A]", "x [V] log, y [A]", "x [V], y [A] log", "x [V] log, y [A] log"}

func volts(x float64) units.Quantity { return q("1 V").Mul(units.Number(x)) }

func TestProperties(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		x, y := drawn(r, true)
		head := rapid.SampledFrom(axes).Draw(r, "axes")
		c, err := Text(written(head, x, y))
		if err != nil {
			r.Fatal(err)
		}
		at := func(v float64) float64 {
			got, err := c.At(volts(v))
			if err != nil {
				r.Fatalf("at %v: %v", v, err)
			}
			return got.SI()
		}
		// At a row: the row, to the bit.
		for i := range x {
			if got := at(x[i]); got != y[i] {
				r.Fatalf("at the row %v: %v, want %v", x[i], got, y[i])
			}
		}
		// Between its neighbours, and no step down where the rows rise.
		a := rapid.Float64Range(x[0], x[len(x)-1]).Draw(r, "a")
		b := rapid.Float64Range(a, x[len(x)-1]).Draw(r, "b")
		i := min(max(sort.SearchFloat64s(x, a), 1), len(x)-1)
		if got := at(a); got < y[i-1] || got > y[i] {
			r.Fatalf("at %v: %v is not between %v and %v", a, got, y[i-1], y[i])
		}
		if at(a) > at(b)*(1+1e-14) {
			r.Fatalf("%v at %v, but %v at %v", at(a), a, at(b), b)
		}
		// Held ends, and pieces that go on straight.
		below, above := volts(x[0]/2), volts(2*x[len(x)-1])
		if got, err := c.Held().At(below); err != nil || got.SI() != y[0] {
			r.Fatalf("held below: %v, %v", got, err)
		}
		if got, err := c.Held().At(above); err != nil || got.SI() != y[len(y)-1] {
			r.Fatalf("held above: %v, %v", got, err)
		}
		if _, err := c.At(above); err == nil {
			r.Fatal("read beyond the end")
		}
		if got, err := c.Extended().At(above); err == nil && got.SI() < y[len(y)-1] {
			r.Fatalf("straight on above: %v", got)
		}
		// There and back again. On a steep piece x has fewer digits than y.
		inverse, err := c.Inverse()
		if err != nil {
			r.Fatal(err)
		}
		back, err := inverse.At(q("1 A").Mul(units.Number(at(a))))
		if err != nil {
			r.Fatal(err)
		}
		slack := 1e-11 * (1 + (x[i]-x[i-1])/(y[i]-y[i-1])*y[i]) * max(x[i], 1)
		if math.Abs(back.SI()-a) > slack {
			r.Fatalf("from %v to %v and back to %v", a, at(a), back.SI())
		}
		// Curve reads as Text does.
		var xs, ys []units.Quantity
		for i := range x {
			xs, ys = append(xs, volts(x[i])), append(ys, q("1 A").Mul(units.Number(y[i])))
		}
		same, err := Curve(xs, ys)
		if err != nil {
			r.Fatal(err)
		}
		if same, err = same.Linear("x", "y"); err != nil {
			r.Fatal(err)
		}
		if strings.HasSuffix(head, "y [A]") && !strings.Contains(head, "log") {
			if got, err := same.At(volts(a)); err != nil || got.SI() != at(a) {
				r.Fatalf("Curve gives %v, %v; Text %v", got, err, at(a))
			}
		}
	})
}

// A value with spread is read in each case as that case's exact value is, on
// its own piece and with the ends in every state; what fails in one case fails
// with that case in words.
func TestSpreadEqualsExactCases(t *testing.T) {
	t.Parallel()
	family := must(t, "load [A], junction [°C], dropout [mV]\n0.1,25,20\n0.5,25,300\n0.1,85,50\n0.2,85,60\n0.5,85,400\n0.1,125,70\n0.2,125,150\n0.5,125,450\n")
	logs := ok(t)(ok(t)(family.Log("load", "dropout")).Linear("load"))
	for name, table := range map[string]Table{"plain": family, "held": family.Held(), "straight on": family.Extended(), "log": logs, "log, held": logs.Held(), "log, straight on": logs.Extended()} {
		for _, load := range []units.Quantity{units.Range(q("0.1 A"), q("0.3 A"), q("0.5 A")), units.Tolerance(q("0.2 A"), q("20 %")), units.Range(q("10 mA"), q("0.3 A"), q("2 A")), q("0.2 A")} {
			for _, junction := range []units.Quantity{units.Range(q("25 °C"), q("60 °C"), q("125 °C")), units.Range(q("-40 °C"), q("25 °C"), q("150 °C")), units.Tolerance(q("85 °C"), q("5 K"))} {
				study := units.NewStudy(units.StudyOptions{Boards: 200})
				x, z := load, study.Place("Tj", "Tj", junction)
				if load.HasSpread() {
					x = study.Place("I", "I", load)
				}
				got, err := table.At(x, z)
				if splits, n := study.TakeSplits(); n > 0 {
					t.Errorf("%s: it decides for all cases: %v", name, splits)
				}
				cases := study.CasesOf([]units.Quantity{x, z})
				var failed error
				for i := range cases.Len() {
					want, e := table.At(cases.Pick(x, i), cases.Pick(z, i))
					if e != nil {
						failed = e
						continue
					}
					if err == nil && !cases.Pick(got, i).Same(want) {
						t.Errorf("%s: %v where %s, of exact values %v", name, cases.Pick(got, i), cases.Where(i), want)
						break
					}
				}
				if (err != nil) != (failed != nil) {
					t.Errorf("%s at %v and %v: %v; by cases: %v", name, x, z, err, failed)
				}
				if err != nil && !strings.Contains(err.Error(), " where ") {
					t.Errorf("%s: does not say where: %v", name, err)
				}
			}
		}
	}
}

// A result with spread is shown in the unit of its column, and is exact where
// the input is.
func TestResultIsPlainValue(t *testing.T) {
	t.Parallel()
	c := must(t, "load [A], charge [mAh]\n0,0\n1,400")
	got, err := c.At(q("0.5 A"))
	if err != nil || got.HasSpread() || got.String() != "200 mAh" {
		t.Errorf("got %v, %v", got, err)
	}
}
