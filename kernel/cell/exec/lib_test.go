package exec_test

import (
	"math"
	"testing"

	"ohmwright/units"
)

const libSource = `package note
import (
	"ohmwright/kernel/cell/builtin"
	"ohmwright/lib/divider"
	"ohmwright/lib/preferred"
	"ohmwright/units"
)
func V(s string) units.Quantity { return units.MustParse(s) }
func Plain() (units.Quantity, error) {
	d, err := divider.Plain(V("12V"), V("10kohm"), V("3.3kohm"))
	e := d
	e.Output += V("1V")
	p := &d
	return e.Output - p.Output + p.Output, err
}
func Bad() error { _, err := divider.Plain(V("12V"), V("0ohm"), V("3.3kohm")); return err }
func Nearest() units.Quantity { return preferred.Nearest(preferred.E96, V("1.905kohm")) }
func Members() int { s := preferred.E12; ms, err := preferred.Members(s, V("1ohm"), V("9.9ohm")); if err != nil { return -1 }; return len(ms) }
func Settle() units.Quantity { n := 0; x := builtin.Settle(V("1"), func(x units.Quantity) units.Quantity { n++; return (x + 2/x) / 2 }); return x }
func Runaway() units.Quantity { return builtin.Settle(V("1V"), func(x units.Quantity) units.Quantity { return x + V("1A") }) }
`

func TestLibrary(t *testing.T) {
	t.Parallel()
	p := mustCompile(t, libSource)
	near := func(fn string, i int, want float64) {
		t.Helper()
		_, vs, err := p.run(nil, fn)
		if err != nil {
			t.Errorf("%s: %v", fn, err)
			return
		}
		if got := vs[i].V.(units.Quantity).SI(); math.Abs(got-want) > 1e-9*want {
			t.Errorf("%s: %v, want %v", fn, got, want)
		}
	}
	near("Plain", 0, 12*3.3/13.3+1) // 12 V · 3.3/(10 + 3.3), and 1 V
	near("Nearest", 0, 1910)        // IEC 60063, E96: 1.87 1.91 1.96
	near("Settle", 0, math.Sqrt2)   // Heron's rule for the square root of 2
	if _, vs, err := p.run(nil, "Bad"); err != nil || vs[0].V == nil {
		t.Errorf("Bad: %v %v", vs, err)
	}
	if _, vs, err := p.run(nil, "Members"); err != nil || vs[0].V != uint64(12) { // E12 has 12 in a decade
		t.Errorf("Members: %v %v", vs, err)
	}
	if _, _, err := p.run(nil, "Runaway"); err == nil {
		t.Error("1 V + 1 A in a function that a solver calls went through")
	}
}
