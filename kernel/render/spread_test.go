package render

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ohmwright/kernel/note"
	"ohmwright/units"
)

// Limits of Clopper and Pearson for n = 2000 at 95 %, two-sided. Where none or
// all pass they are exact: 0.025^(1/2000) = 0.998157 by arithmetic. Where one
// passes the lower one is 1 − 0.975^(1/2000), and the upper one solves
// (1−p)^2000 + 2000·p·(1−p)^1999 = 0.025; for all but one they are mirrored.
func TestYieldText(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		passed    int
		low, high float64
		want      string
	}{
		{0, 0, 1 - 0.998157, "at most 0.19 % pass with 95 % confidence (0 of 2000 drawn, parts uniform)"},
		{1, 1.2658824e-05, 0.0027828, "0.050 % pass, 0.0012 % … 0.28 % with 95 % confidence (1 of 2000 drawn, parts uniform)"},
		{1000, 0.47785, 0.52215, "50.0 % pass, 47.7 % … 52.3 % with 95 % confidence (1000 of 2000 drawn, parts uniform)"},
		{1999, 1 - 0.0027828, 1 - 1.2658824e-05, "99.950 % pass, 99.72 % … 99.9988 % with 95 % confidence (1999 of 2000 drawn, parts uniform)"},
		{2000, 0.998157, 1, "at least 99.81 % pass with 95 % confidence (2000 of 2000 drawn, parts uniform)"},
	} {
		y := &note.Yield{Passed: c.passed, Boards: 2000, Low: c.low, High: c.high, Assumed: "uniform"}
		if got := yieldText(y); got != c.want {
			t.Errorf("%d of 2000: %s\nwant %s", c.passed, got, c.want)
		}
	}
}

func TestAssumedText(t *testing.T) {
	t.Parallel()
	for assumed, want := range map[string]string{
		"uniform":               "parts uniform",
		"normal, limits at 3 σ": "parts normal, limits at 3 σ",
		"as tabled; uniform":    "parts some as tabled and some uniform",
		"as tabled; normal, limits at 3 σ; uniform": "parts some as tabled, some normal with limits at 3 σ and some uniform",
	} {
		if got := assumedText(assumed); got != want {
			t.Errorf("%s: %s, want %s", assumed, got, want)
		}
	}
}

// By hand: rounded to the careful side, and never 0 % or 100 % but where it is.
func TestShares(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		share    float64
		down, up string
	}{
		{0, "0.0 %", "0.0 %"}, {1, "100.0 %", "100.0 %"}, {0.5, "50.0 %", "50.0 %"}, {0.29, "29.0 %", "29.0 %"},
		{1.0 / 3, "33.3 %", "33.4 %"}, {0.9987, "99.87 %", "99.87 %"}, {0.99874, "99.87 %", "99.88 %"},
		{0.0005, "0.050 %", "0.050 %"}, {1e-5, "0.0010 %", "0.0010 %"}, {1e-7, "0.000010 %", "0.000010 %"}, {1 - 3e-7, "99.999970 %", "99.999970 %"},
	} {
		if got := percent(c.share, false); got != c.down {
			t.Errorf("%v down: %s, want %s", c.share, got, c.down)
		}
		if got := percent(c.share, true); got != c.up {
			t.Errorf("%v up: %s, want %s", c.share, got, c.up)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 1_000_000).Draw(t, "n")
		k := rapid.IntRange(1, n-1).Draw(t, "k")
		share := float64(k) / float64(n)
		var down, up float64
		fmt.Sscanf(percent(share, false), "%f", &down)
		fmt.Sscanf(percent(share, true), "%f", &up)
		if !(0 < down && down <= 100*share+1e-7 && 100*share-1e-7 <= up && up < 100) {
			t.Fatalf("%d of %d lies between %v %% and %v %%", k, n, down, up)
		}
	})
}

func TestSharePercent(t *testing.T) {
	t.Parallel()
	for share, want := range map[float64]string{0: "none", 1e-9: "under 1 %", 0.004: "under 1 %", 0.006: "1 %", 0.5: "50 %", 0.994: "99 %", 0.9999: "over 99 %", 1: "100 %"} {
		if got := sharePercent(share); got != want {
			t.Errorf("%v: %s, want %s", share, got, want)
		}
	}
}

func TestInputsText(t *testing.T) {
	t.Parallel()
	for in, want := range map[note.Inputs]string{
		{}:                                "",
		{Spread: 4}:                       "", // nothing to warn of
		{Exact: 2}:                        "2 without spread",
		{Spread: 4, Exact: 1, Typical: 2}: "4 with limits, 1 without spread, 2 typical only",
		{Typical: 1}:                      "1 typical only",
	} {
		if got := inputsText(in); got != want {
			t.Errorf("%+v: %q, want %q", in, got, want)
		}
	}
}

func TestPercentilesText(t *testing.T) {
	t.Parallel()
	p := func(at float64, v string) note.Percentile { return note.Percentile{P: at, Value: q(v)} }
	for want, ps := range map[string][]note.Percentile{
		"half below 5 V, 90 % in 4.9 … 5.1 V, 99 % in 4.8 … 5.2 V": {p(0.5, "4.8V"), p(5, "4.9V"), p(50, "5V"), p(95, "5.1V"), p(99.5, "5.2V")},
		"1 % below 4.8 V, half below 5 V":                          {p(1, "4.8V"), p(50, "5V")},
		"99 % below 5.2 V":                                         {p(99, "5.2V")},
		"80 % in 4.9 … 5.1 V":                                      {p(10, "4.9V"), p(90, "5.1V")},
		"":                                                         nil,
	} {
		if got := percentilesText(ps); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

// Every line of figures that rest on chance says how parts are distributed.
func TestStatisticsSayWhatWasAssumed(t *testing.T) {
	t.Parallel()
	text := Text(spreads(t)[:1], Options{})
	for _, line := range []string{"sigma", "of the variance"} {
		if l := lineWith(text, line); !strings.Contains(l, "parts uniform") {
			t.Errorf("does not say what was assumed: %s", l)
		}
	}
	if strings.Contains(text, "100 %") {
		t.Errorf("a bare 100 %% in %s", text)
	}
}

func TestLimits(t *testing.T) {
	t.Parallel()
	for _, c := range [][3]string{
		{"18V", "32V", "18 … 32 V"}, {"788mV", "812mV", "788 … 812 mV"}, {"9.9kΩ", "10.15kΩ", "9.9 … 10.15 kΩ"},
		{"900mV", "1.1V", "0.9 … 1.1 V"}, {"-20°C", "50°C", "−20 … 50 °C"}, {"0.1", "0.25", "0.1 … 0.25"}, {"-3dBm", "0dBm", "−3 … 0 dBm"},
		// Four figures each: the fifth of the one and a zero behind the other say nothing.
		{"9.8752kΩ", "10.1248kΩ", "9.875 … 10.12 kΩ"}, {"9.664V", "10.30012V", "9.664 … 10.3 V"},
		// As many figures as show how far apart they are.
		{"4.09518V", "4.09682V", "4.0952 … 4.0968 V"}, {"24.999°C", "25.001°C", "24.999 … 25.001 °C"},
		// On scales of their own where one is much smaller.
		{"20µA", "1.5A", "20 µA … 1.5 A"}, {"-1.5A", "20µA", "−1.5 A … 20 µA"}, {"10mA", "1A", "10 mA … 1 A"}, {"100mA", "1A", "0.1 … 1 A"}, {"-10mV", "5V", "−10 mV … 5 V"}, {"0.05", "3", "0.05 … 3"}, {"250µA", "30mA", "250 µA … 30 mA"},
		{"30mA", "1.5A", "30 mA … 1.5 A"}, {"0V", "5V", "0 … 5 V"}, {"0.01%", "5%", "0.01 … 5 %"},
	} {
		if got := Limits(q(c[0]), q(c[1])); got != c[2] {
			t.Errorf("%s and %s: %s, want %s", c[0], c[1], got, c[2])
		}
	}
	// Limits that were typed stand as they were.
	typed := &note.Entry{Form: note.FormInput, Spread: spread("3.29255V", "3.31V")}
	if got := EntryLimits(typed); got != "3.29255 … 3.31 V" {
		t.Errorf("typed limits: %s", got)
	}
	typed.Form = note.FormComputed
	if got := EntryLimits(typed); got != "3.293 … 3.31 V" {
		t.Errorf("computed limits: %s", got)
	}
	if got := spreadText(spread("1V", "1V")); got != "" {
		t.Errorf("no distance between limits: %s", got)
	}
}

// What is printed reads back: each end lies within half of its last place, or
// half a thousandth, of what it stands for, the two are in order, and they are
// as far apart as the true ones to a tenth.
func TestLimitsReadBack(t *testing.T) {
	t.Parallel()
	scales := []string{"V", "mV", "kΩ", "µA", "°C", "K", "nF", "dBm", "dB", "%", "", "rad/s", "°C/W"}
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom(scales).Draw(t, "unit")
		mid := rapid.Float64Range(-200, 200).Draw(t, "middle")
		if unit == "K" || unit == "kΩ" {
			mid = math.Abs(mid)
		}
		width := math.Pow(10, rapid.Float64Range(-5, 2).Draw(t, "width"))
		low, err := units.Parse(fmt.Sprintf("%.9f%s", mid, unit))
		if err != nil {
			t.Fatal(err)
		}
		high, err := units.Parse(fmt.Sprintf("%.9f%s", mid+width, unit))
		if err != nil {
			t.Fatal(err)
		}
		text := Limits(low, high)
		lo, hi, ok := strings.Cut(text, " … ")
		if !ok {
			t.Fatalf("no limits: %s", text)
		}
		if _, u, _ := strings.Cut(hi, " "); !strings.Contains(lo, " ") && u != "" {
			lo += " " + u
		}
		l, h := units.MustParse(lo), units.MustParse(hi)
		if !(l.SI() < h.SI()) {
			t.Fatalf("%s of %v and %v", text, low.SI(), high.SI())
		}
		distance := high.SI() - low.SI()
		if got := h.SI() - l.SI(); math.Abs(got-distance) > 0.1*distance+1e-12 {
			t.Fatalf("%s is %v wide, the limits are %v apart", text, got, distance)
		}
		for _, end := range [][2]units.Quantity{{l, low}, {h, high}} {
			off := math.Abs(end[0].SI() - end[1].SI())
			if off > distance/20*(1+1e-9)+1e-15 {
				t.Fatalf("%s is %v off %v, of %v between the limits", text, off, end[1].SI(), distance)
			}
		}
	})
}
