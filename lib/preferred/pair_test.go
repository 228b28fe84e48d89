package preferred

import (
	"math"
	"strconv"
	"testing"

	"ohmwright/units"

	"pgregory.net/rapid"
)

func TestRatioPair(t *testing.T) {
	t.Parallel()
	// 2.25 is 180/80 and 270/120 in E12, of which 80 is no member: 12 and 27
	// are the first pair that meets it from 1 on, 1.2/2.7 within the decade.
	p, err := RatioPair(E12, units.Number(2.25), q("1 kΩ"), q("100 kΩ"))
	if err != nil || !p.Upper.Same(q("2.7 kΩ")) || !p.Lower.Same(q("1.2 kΩ")) || p.Ratio.SI() != 2.25 || p.Deviation.SI() != 0 {
		t.Errorf("2.25 from E12: %v, %v", p, err)
	}
	// On a tie the smallest Lower: 2 is 2/1 in E24, and 20/10, 22/11, 24/12 …
	p, err = RatioPair(E24, units.Number(2), q("1 kΩ"), q("1 MΩ"))
	if err != nil || !p.Lower.Same(q("1 kΩ")) || !p.Upper.Same(q("2 kΩ")) {
		t.Errorf("2 from E24: %v, %v", p, err)
	}
	// Both parts stay in the range, however far the ratio lies outside.
	p, err = RatioPair(E6, units.Number(1000), q("1 kΩ"), q("10 kΩ"))
	if err != nil || !p.Upper.Same(q("10 kΩ")) || !p.Lower.Same(q("1 kΩ")) || !equalWithin(p.Deviation.SI(), -0.99, 1e-12) {
		t.Errorf("1000 from E6: %v, %v", p, err)
	}
	p, err = RatioPair(E6, q("10 %"), q("1 kΩ"), q("10 kΩ"))
	if err != nil || !p.Upper.Same(q("1 kΩ")) || !p.Lower.Same(q("10 kΩ")) || !equalWithin(p.Deviation.SI(), 0, 1e-12) && math.Abs(p.Deviation.SI()) > 1e-12 {
		t.Errorf("10 %% from E6: %v, %v", p, err)
	}
	drawer, err := Stock(q("1 kΩ"), q("2.2 kΩ"), q("10 kΩ"))
	if err != nil {
		t.Fatal(err)
	}
	p, err = RatioPair(drawer, units.Number(4), q("1 Ω"), q("1 MΩ"))
	if err != nil || !p.Upper.Same(q("10 kΩ")) || !p.Lower.Same(q("2.2 kΩ")) { // 4.545 (+14 %), 10 and 2.2 are further off
		t.Errorf("4 from a stock: %v, %v", p, err)
	}
}

func TestSeriesAndParallelPair(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name                 string
		got                  func() (Combination, error)
		first, second, value string
		source               string
	}{
		{"series", func() (Combination, error) { return SeriesPair(E12, q("20 Ω")) }, "10 Ω", "10 Ω", "20 Ω", "10 + 10"},
		{"series", func() (Combination, error) { return SeriesPair(E24, q("12.5 kΩ")) }, "8.2 kΩ", "4.3 kΩ", "12.5 kΩ", "8.2 + 4.3; 11 + 1.5 is exact too, but less alike"},
		{"parallel", func() (Combination, error) { return ParallelPair(E12, q("50 Ω")) }, "100 Ω", "100 Ω", "50 Ω", "100/2"},
		{"parallel", func() (Combination, error) { return ParallelPair(E24, q("120 Ω")) }, "240 Ω", "240 Ω", "120 Ω", "240/2"},
		{"capacitors in parallel add", func() (Combination, error) { return ParallelPair(E6, q("20 µF")) }, "10 µF", "10 µF", "20 µF", "10 + 10"},
		{"capacitors in series", func() (Combination, error) { return SeriesPair(E6, q("5 nF")) }, "10 nF", "10 nF", "5 nF", "10/2"},
	} {
		c, err := test.got()
		if err != nil || !c.First.Same(q(test.first)) || !c.Second.Same(q(test.second)) || !equalWithin(c.Value.SI(), q(test.value).SI(), 1e-12) || math.Abs(c.Deviation.SI()) > 1e-12 {
			t.Errorf("%s: %v, %v, want %s and %s (%s)", test.name, c, err, test.first, test.second, test.source)
		}
	}
}

// RatioPair against every pair of the second list.
func TestRatioPairByBruteForce(t *testing.T) {
	t.Parallel()
	lists := map[string][]float64{}
	for _, s := range allSeries {
		lists[s.Name] = listed(t, s.Name, 2, 5)
	}
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(allSeries[:6]).Draw(t, "series")
		ratio := math.Pow(10, rapid.Float64Range(-2.5, 2.5).Draw(t, "exponent"))
		least := math.Pow(10, rapid.Float64Range(2.5, 4).Draw(t, "least"))
		most := least * math.Pow(10, rapid.Float64Range(0.5, 1.2).Draw(t, "span"))
		var in []float64
		for _, m := range lists[s.Name] {
			if m >= least && m <= most {
				in = append(in, m)
			}
		}
		p, err := RatioPair(s, units.Number(ratio), units.Number(least).Mul(q("1 Ω")), units.Number(most).Mul(q("1 Ω")))
		if len(in) == 0 {
			if err == nil {
				t.Fatal("no error for an empty range")
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		best := math.Inf(1)
		var lower float64
		for _, l := range in {
			for _, u := range in {
				if d := math.Abs(u/l/ratio - 1); d < best-1e-12 {
					best, lower = d, l
				}
			}
		}
		got := math.Abs(p.Upper.SI()/p.Lower.SI()/ratio - 1)
		if !equalWithin(got, best, 1e-9) && math.Abs(got-best) > 1e-11 {
			t.Fatalf("ratio %v from %v to %v in %v: %v/%v is off by %v, the best by %v", ratio, least, most, s, p.Upper, p.Lower, got, best)
		}
		if p.Lower.SI() != lower {
			t.Fatalf("ratio %v: Lower is %v, the smallest that is equally good is %v", ratio, p.Lower, lower)
		}
		if !equalWithin(math.Abs(p.Deviation.SI()), got, 1e-9) && math.Abs(p.Deviation.SI()-got) > 1e-11 {
			t.Fatalf("deviation is %v, want %v", p.Deviation, got)
		}
	})
}

// SeriesPair and ParallelPair against every pair of the second list.
func TestCombinationsByBruteForce(t *testing.T) {
	t.Parallel()
	lists := map[string][]float64{}
	for _, s := range allSeries {
		lists[s.Name] = listed(t, s.Name, -2, 8)
	}
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(allSeries[:5]).Draw(t, "series")
		sum := rapid.Bool().Draw(t, "sum")
		capacitor := rapid.Bool().Draw(t, "capacitor")
		v, err := strconv.ParseFloat(strconv.FormatFloat(math.Pow(10, rapid.Float64Range(2, 4).Draw(t, "exponent")), 'g', rapid.IntRange(2, 6).Draw(t, "digits"), 64), 64)
		if err != nil {
			t.Fatal(err)
		}
		unit := "Ω"
		f := ParallelPair
		if sum != capacitor {
			f = SeriesPair
		}
		if capacitor {
			unit = "F"
		}
		c, err := f(s, q(strconv.FormatFloat(v, 'f', -1, 64)+" "+unit))
		if err != nil {
			t.Fatal(err)
		}
		together := func(a, b float64) float64 {
			if sum {
				return a + b
			}
			return a * b / (a + b)
		}
		// Every pair of members within a factor of 1000 of v.
		var in []float64
		for _, m := range lists[s.Name] {
			if m >= v/1000*(1-1e-9) && m <= v*1000*(1+1e-9) {
				in = append(in, m)
			}
		}
		best := math.Inf(1)
		for i, a := range in {
			for _, b := range in[:i+1] {
				best = math.Min(best, math.Abs(together(a, b)/v-1))
			}
		}
		got := math.Abs(together(c.First.SI(), c.Second.SI())/v - 1)
		if got > best+1e-12 {
			t.Fatalf("%v from %v (sum %v): %v and %v are off by %v, the best by %v", v, s, sum, c.First, c.Second, got, best)
		}
		alike := math.Inf(1)
		for i, a := range in {
			for _, b := range in[:i+1] {
				if math.Abs(math.Abs(together(a, b)/v-1)-best) < 1e-13 {
					alike = math.Min(alike, a/b)
				}
			}
		}
		if r := c.First.SI() / c.Second.SI(); r > alike*(1+1e-9) {
			t.Fatalf("%v from %v: %v and %v, but a pair that is as good differs by a factor of %v only", v, s, c.First, c.Second, alike)
		}
		if !equalWithin(c.Value.SI(), together(c.First.SI(), c.Second.SI()), 1e-12) || c.First.Less(c.Second) {
			t.Fatalf("%v", c)
		}
	})
}

// The pairs of a stock against every pair of its values.
func TestStockPairsByBruteForce(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		var values []units.Quantity
		numbers := rapid.SliceOfN(rapid.SampledFrom([]float64{1, 3.3, 10, 22, 47, 51, 99, 100, 150, 1000, 4700, 1e5}), 1, 8).Draw(t, "numbers")
		for _, n := range numbers {
			values = append(values, units.Number(n).Mul(q("1 Ω")))
		}
		s, err := Stock(values...)
		if err != nil {
			t.Fatal(err)
		}
		v := math.Pow(10, rapid.Float64Range(-1, 6).Draw(t, "exponent"))
		for _, f := range []struct {
			name     string
			pair     func(Series, units.Quantity) (Combination, error)
			together func(a, b float64) float64
		}{
			{"series", SeriesPair, func(a, b float64) float64 { return a + b }},
			{"parallel", ParallelPair, func(a, b float64) float64 { return a * b / (a + b) }},
		} {
			best := math.Inf(1)
			for _, a := range numbers {
				for _, b := range numbers {
					if min(a, b) >= v/1000*(1-1e-9) && max(a, b) <= v*1000*(1+1e-9) {
						best = min(best, math.Abs(f.together(a, b)/v-1))
					}
				}
			}
			c, err := f.pair(s, units.Number(v).Mul(q("1 Ω")))
			if math.IsInf(best, 1) != (err != nil) {
				t.Fatalf("%s pair for %v from %v: %v, %v", f.name, v, numbers, c, err)
			}
			if err == nil && math.Abs(f.together(c.First.SI(), c.Second.SI())/v-1) > best+1e-12 {
				t.Fatalf("%s pair for %v from %v: %v and %v, the best is off by %v", f.name, v, numbers, c.First, c.Second, best)
			}
		}
	})
}
