package note_test

import (
	"math"
	"testing"

	"ohmwright/kernel/note"
)

// spreadings are the items of Spread in the results.
func spreadings(rs []*note.Result) (out []*note.Spreading) {
	for _, r := range rs {
		for _, i := range r.Items {
			if s, ok := i.(*note.Spreading); ok {
				out = append(out, s)
			}
		}
	}
	return out
}

// By hand: at the lower end of the drift x is 10 · 2 · 0.95 = 19, where the
// parts move it by 3 % and 4 %: √(0.57² + 0.76²) = 0.95. At the upper end it
// is 21, and √(0.63² + 0.84²) = 1.05. A drift added to the nominal value
// alone would go beyond the product.
func TestRootSumSquareStandsWhereDriftsAreWorst(t *testing.T) {
	t.Parallel()
	_, rs := compute(t, "a := 10V ± 3%\nb := 2A ± 4%\nk := 1Ω ± Drift(5%)\nSpread(a*b*k)")
	for _, r := range rs {
		for _, e := range r.Errors {
			t.Fatal(e)
		}
	}
	s := spreadings(rs)[0]
	if low, high := s.RSSLow.SI(), s.RSSHigh.SI(); math.Abs(low-18.05) > 1e-9 || math.Abs(high-22.05) > 1e-9 {
		t.Errorf("root of the sum of squares %v … %v, want 18.05 … 22.05", low, high)
	}
}

// x = 3·A + 4·B of two parts alike: they have 9/25 and 16/25 of the variance,
// and 3/7 and 4/7 of the limits.
func TestSharesOfVariance(t *testing.T) {
	t.Parallel()
	_, rs := compute(t, "A := 10V ± 1%\nB := Another(A)\nSpread(3*A + 4*B)")
	s := spreadings(rs)[0]
	for i, want := range []note.Share{{Name: "B", Extreme: 4.0 / 7, Variance: 16.0 / 25}, {Name: "A", Extreme: 3.0 / 7, Variance: 9.0 / 25}} {
		got := s.Shares[i]
		// The variance of 2000 uniform draws is good to √(0.8/2000) = 2 %.
		if got.Name != want.Name || math.Abs(got.Extreme-want.Extreme) > 1e-9 || math.Abs(got.Variance-want.Variance) > 0.06*want.Variance {
			t.Errorf("%+v, want %+v", got, want)
		}
	}
}

// 2 A · √(D·(1−D)) is largest at half duty: 1 A at 24 V, also where the value
// is shown once more as a last expression.
func TestShownNameHasSearchedLimits(t *testing.T) {
	t.Parallel()
	_, rs := compute(t, "Vin := Range(18V, 26V, 32V)\nD := 12V/Vin\nI := 2A*Sqrt(D*(1-D))", "I")
	for _, i := range rs[1].Items {
		if s, ok := i.(*note.Shown); ok {
			if s.Spread == nil || s.Spread.Search != note.Inside || math.Abs(s.Spread.High.SI()-1) > 1e-9 || s.Spread.HighCase != "Vin is 24 V" {
				t.Errorf("%+v", s.Spread)
			}
			return
		}
	}
	t.Error("nothing is shown")
}
