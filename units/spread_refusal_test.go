package units

import "testing"

// No case is left with a number that is none: what overflows in some case is
// refused, with that case. The largest float64 is 1.798·10³⁰⁸.
func TestOverflowNamesTheCase(t *testing.T) {
	t.Parallel()
	s := NewStudy(StudyOptions{})
	x := s.Place("x", "x", Band(Number(1), Number(1.5), Number(1.9)))
	z := s.Place("z", "z", Band(Number(1e-9), Number(1), Number(2)))
	big := Number(1e308)
	for _, c := range []struct {
		name string
		f    func()
		want string
	}{
		{"product", func() { x.Mul(big) }, "the result is too large where x is 1.9"},
		{"sum", func() { x.Mul(Number(9e307)).Add(Number(2e307)) }, "the result is too large where x is 1.9"},
		{"quotient", func() { big.Div(z) }, "the result is too large where z is 1e-9"},
		{"two values", func() { x.Mul(Number(5e307)).Mul(z) }, "the result is too large where x is 1.9, z is 2"},
		{"divisor", func() { x.Div(x.Sub(Number(1.9))) }, "the divisor is zero where x is 1.9"},
		{"Exp", func() { Exp(x.Mul(Number(400))) }, "the result is too large where x is 1.9"},
		{"PowerRatio", func() { PowerRatio(x.Mul(q("1700 dB"))) }, "the result is too large where x is 1.9"},
		{"Power", func() { Power(q("1000 dBW").Add(x.Mul(q("1100 dB")))) }, "the result is too large where x is 1.9"},
		{"limits", func() { s.Place("y", "y", Tolerance(Number(1.5e308), q("50 %"))) }, "are too large where y is"},
	} {
		wantRefusal(t, c.name, c.f, c.want)
	}
	// 2,000 boards of 1.7·10³⁰⁸ are finite, each by itself; their sum is not.
	if e := refusal(func() { x.Mul(Number(9e307)) }); e != nil {
		t.Errorf("a large value is refused: %v", e)
	}
}

// A part whose only spread is one tolerance has one source, and a part that
// only drifts keeps its own beside the drift.
func TestSourcesOfOneTolerance(t *testing.T) {
	t.Parallel()
	s := NewStudy(StudyOptions{})
	one := s.Place("a", "a", Tolerance(q("10 kΩ"), q("1 %")))
	drift := s.Place("b", "b", Tolerance(q("10 kΩ"), Drift(q("1 %"))))
	if n := len(one.Sources()); n != 1 {
		t.Errorf("%d sources", n)
	}
	if n := len(drift.Sources()); n != 2 {
		t.Errorf("%d sources of a drift", n)
	}
	for _, x := range []Quantity{one, drift} {
		if got := limitsText(x); got != "10 kΩ: 9.9 kΩ … 10.1 kΩ" {
			t.Error(got)
		}
	}
	if sd, ok := drift.Std(); !ok || sd.SI() != 0 {
		t.Errorf("a drift has the standard deviation %v", sd)
	}
}
