package units

import (
	"testing"

	"pgregory.net/rapid"
)

// Exponents are added and subtracted seven at a time in one word; here the
// same is done one at a time with ordinary integers.

func TestExponentsAllPairsInEveryPlace(t *testing.T) {
	t.Parallel()
	for place := range 7 {
		for a := -128; a < 128; a++ {
			for b := -128; b < 128; b++ {
				// Neighbours at their ends show a carry that leaks.
				x, y := [7]int{}, [7]int{}
				for i := range x {
					x[i], y[i] = -64, 63
				}
				x[place], y[place] = a, b
				checkExponents(t, x, y)
				if t.Failed() {
					return
				}
			}
		}
	}
}

func TestExponentsAgainstIntegers(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		var x, y [7]int
		for i := range x {
			x[i] = rapid.IntRange(-128, 127).Draw(t, "x")
			y[i] = rapid.IntRange(-128, 127).Draw(t, "y")
		}
		checkExponents(t, x, y)
	})
}

func checkExponents(t interface{ Errorf(string, ...any) }, x, y [7]int) {
	a, b := dimOf(x[:]...), dimOf(y[:]...)
	sum, sumOK := addExponents(a|computedMark, b)
	diff, diffOK := subExponents(a, b|computedMark)
	wantSum, wantDiff := true, true
	for i := range x {
		wantSum = wantSum && x[i]+y[i] >= -128 && x[i]+y[i] <= 127
		wantDiff = wantDiff && x[i]-y[i] >= -128 && x[i]-y[i] <= 127
	}
	if sumOK != wantSum || diffOK != wantDiff {
		t.Errorf("%v and %v: sum ok %v, want %v; difference ok %v, want %v", x, y, sumOK, wantSum, diffOK, wantDiff)
		return
	}
	for i := range x {
		if sumOK && sum.halves(i) != x[i]+y[i] {
			t.Errorf("%v + %v: place %d is %d", x, y, i, sum.halves(i))
		}
		if diffOK && diff.halves(i) != x[i]-y[i] {
			t.Errorf("%v - %v: place %d is %d", x, y, i, diff.halves(i))
		}
	}
	if sum&^exponents != 0 || diff&^exponents != 0 {
		t.Errorf("%v and %v: kind or mark is touched", x, y)
	}
}

func TestScaleExponents(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		var x [7]int
		for i := range x {
			x[i] = rapid.IntRange(-128, 127).Draw(t, "x")
		}
		n := rapid.IntRange(-6, 6).Draw(t, "n")
		want := true
		for _, h := range x {
			want = want && h*n%2 == 0 && h*n/2 >= -128 && h*n/2 <= 127
		}
		d, ok := scaleExponents(dimOf(x[:]...), n)
		if ok != want {
			t.Fatalf("%v times %d/2: ok %v, want %v", x, n, ok, want)
		}
		for i := range x {
			if ok && d.halves(i) != x[i]*n/2 {
				t.Fatalf("%v times %d/2: place %d is %d", x, n, i, d.halves(i))
			}
		}
	})
}

func TestExponentOverflowIsAnError(t *testing.T) {
	t.Parallel()
	x := MustParse("1 m^40")
	wantRefusal(t, "m^40 times m^40", func() { x.Mul(x) }, "beyond what a dimension holds")
	y := MustParse("1 1/m^40")
	wantRefusal(t, "1/m^40 over m^40", func() { y.Div(x) }, "beyond what a dimension holds")
	wantRefusal(t, "Pow(m^40, 2)", func() { Pow(x, 2) }, "larger than 63")
}
