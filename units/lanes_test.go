package units

import (
	"math"
	"testing"
)

// 100 Ω · 1 A … 3 A, and 100 V … 300 V: a limit of 250 V is passed at the upper
// end first of all corners, and the values there are given.
func TestEverywhereNamesTheFirstCase(t *testing.T) {
	t.Parallel()
	s := NewStudy(StudyOptions{Boards: 10})
	i := s.Place("i", "I", Range(MustParse("1 A"), MustParse("2 A"), MustParse("3 A")))
	v := i.Mul(MustParse("100 Ω"))
	limit := MustParse("250 V")
	below := func(x []float64) bool { return x[0] < x[1] }
	where, at, ok := Everywhere(below, v, limit, i)
	if ok || where != "where I is 3 A" || at[0].String() != "300 V" || at[1].String() != "250 V" || at[2].String() != "3 A" {
		t.Errorf("%v %q %v", ok, where, at)
	}
	for _, x := range at {
		if x.HasSpread() {
			t.Errorf("%v has spread", x)
		}
	}
	if where, at, ok := Everywhere(below, v, MustParse("301 V")); !ok || where != "" || at != nil {
		t.Errorf("%v %q %v", ok, where, at)
	}
	// The nominal case comes first, and has no words.
	if where, at, ok := Everywhere(below, v, MustParse("150 V")); ok || where != "" || at[0].String() != "200 V" {
		t.Errorf("%v %q %v", ok, where, at)
	}
	if where, at, ok := Everywhere(below, limit, MustParse("150 V")); ok || where != "" || at[0] != limit {
		t.Errorf("%v %q %v", ok, where, at)
	}
	if _, n := s.TakeSplits(); n != 0 {
		t.Errorf("%d decisions", n)
	}
}

// What holds at every corner may fail inside: |x| of −1 … 1 is below 0.1 there.
func TestEverywhereLooksInside(t *testing.T) {
	t.Parallel()
	s := NewStudy(StudyOptions{Boards: 10})
	x := s.Place("x", "x", Range(Number(-1), Number(1), Number(2)))
	_, at, ok := Everywhere(func(v []float64) bool { return math.Abs(v[0]) >= 0.1 }, x)
	if ok || math.Abs(at[0].SI()) >= 0.1 {
		t.Errorf("%v %v", ok, at)
	}
}
