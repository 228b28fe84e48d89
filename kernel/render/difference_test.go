package render

import "testing"

func TestDeviation(t *testing.T) {
	t.Parallel()
	// By arithmetic: 1.91/1.904762 − 1 = 0.275 %.
	for d, want := range map[float64]string{0.00275: "+0.3 %", -0.0125: "−1.2 %", 0: "exact", 1e-15: "exact", 0.0002: "+0.02 %", -0.00001: "−0.001 %", 0.5: "+50.0 %"} {
		if got := Deviation(d); got != want {
			t.Errorf("%v is written %s, want %s", d, got, want)
		}
	}
}

func TestPercent(t *testing.T) {
	t.Parallel()
	// By hand: the share times a hundred, rounded to one decimal or to two figures.
	for d, want := range map[float64]string{-0.5: "−50.0 %", 0.125: "+12.5 %", 0.00276: "+0.28 %", -0.0094: "−0.94 %", 0.0096: "+1.0 %",
		0.0000123: "+0.0012 %", 0: "+0.0 %", 999: "+99900.0 %", 123456: "+1.23e+07 %"} {
		if got := Percent(d, 2); got != want {
			t.Errorf("%v is written %s, want %s", d, got, want)
		}
	}
}
