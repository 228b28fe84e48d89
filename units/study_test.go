package units

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// For one part, x − x is 0 and x / x is 1 in every case; two parts of a kind
// are two.
func TestOnePartIsOnePart(t *testing.T) {
	t.Parallel()
	s := NewStudy(StudyOptions{})
	r := s.Place("r", "r", Tolerance(q("10 kΩ"), q("1 %")))
	other := s.Place("other", "other", Another(r))
	if d := r.Sub(r); High(d).SI() != 0 || Low(d).SI() != 0 {
		t.Errorf("r − r is %v", limitsText(d))
	}
	if d := r.Div(r); High(d).SI() != 1 || Low(d).SI() != 1 {
		t.Errorf("r / r is %v", limitsText(d))
	}
	// ± 100 Ω of each.
	if d := r.Sub(other); High(d).SI() != 200 || Low(d).SI() != -200 {
		t.Errorf("r − another is %v", limitsText(d))
	}
	// A divider of one part used twice is ½ exactly; of two parts 0.495 … 0.505:
	// 9.9/(9.9 + 10.1) = 0.495.
	one := r.Div(r.Add(r))
	two := r.Div(r.Add(other))
	if limitsText(one) != "0.5: 0.5 … 0.5" || limitsText(two) != "0.5: 0.495 … 0.505" {
		t.Errorf("dividers: %s, %s", limitsText(one), limitsText(two))
	}
}

// The corners of an expression are what brute force finds, to the bit: every
// source at every end, computed with exact values.
func TestCornersAreBruteForce(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, MaxCorners).Draw(t, "sources")
		s := NewStudy(StudyOptions{Boards: 3})
		var parts []Quantity
		for i := range n {
			mid := rapid.Float64Range(0.5, 2).Draw(t, "mid")
			low, high := mid-rapid.Float64Range(0, 0.4).Draw(t, "below"), mid+rapid.Float64Range(0, 0.4).Draw(t, "above")
			key := string(rune('a' + i))
			parts = append(parts, s.Place(key, key, Band(Number(low), Number(mid), Number(high))))
		}
		// A random expression, as steps on a stack of all parts.
		type step struct{ op, a, b int }
		var steps []step
		for range rapid.IntRange(1, 15).Draw(t, "steps") {
			steps = append(steps, step{rapid.IntRange(0, 6).Draw(t, "op"), rapid.IntRange(0, 30).Draw(t, "a"), rapid.IntRange(0, 30).Draw(t, "b")})
		}
		compute := func(x []Quantity) Quantity {
			x = append([]Quantity(nil), x...)
			for _, st := range steps {
				a, b := x[st.a%len(x)], x[st.b%len(x)]
				switch st.op {
				case 0:
					x = append(x, a.Add(b))
				case 1:
					x = append(x, a.Sub(b))
				case 2:
					x = append(x, a.Mul(b))
				case 3:
					x = append(x, Abs(a).Add(Number(1)))
				case 4:
					x = append(x, a.Div(b.Mul(b).Add(Number(1))))
				case 5:
					x = append(x, Where(a, b, a.Mul(Number(3)), b))
				case 6:
					x = append(x, Max(a, b, Number(1)))
				}
			}
			return x[len(x)-1]
		}
		got := compute(parts)
		low, high := math.Inf(1), math.Inf(-1)
		for c := range 1 << n {
			x := make([]Quantity, n)
			for i, p := range parts {
				x[i] = Low(p)
				if c>>i&1 == 1 {
					x[i] = High(p)
				}
			}
			v := compute(x).SI()
			low, high = min(low, v), max(high, v)
		}
		if got.e == nil {
			if low != high {
				t.Fatalf("an exact value from %v to %v", low, high)
			}
			return
		}
		corners := got.e.lanes[:got.e.set.corners]
		gotLow, gotHigh := math.Inf(1), math.Inf(-1)
		for _, v := range corners {
			gotLow, gotHigh = min(gotLow, v), max(gotHigh, v)
		}
		if gotLow != low || gotHigh != high {
			t.Fatalf("corners from %v to %v, brute force from %v to %v", gotLow, gotHigh, low, high)
		}
	})
}

// The order in which sources become known, and in which a sum is written,
// changes no limit and no board.
func TestOrderOfSourcesDoesNotMatter(t *testing.T) {
	t.Parallel()
	keys := []string{"a", "b", "c", "d"}
	make1 := func(order []int) []Quantity {
		s := NewStudy(StudyOptions{})
		out := make([]Quantity, len(keys))
		for _, i := range order {
			out[i] = s.Place(keys[i], keys[i], Tolerance(Number(float64(i+1)), q("1 %")))
		}
		return out
	}
	x, y := make1([]int{0, 1, 2, 3}), make1([]int{3, 1, 0, 2})
	f := func(x []Quantity) Quantity { return x[0].Mul(x[1]).Add(x[2].Mul(x[3])) }
	a, b := f(x), f(y)
	if limitsText(a) != limitsText(b) {
		t.Errorf("%s and %s", limitsText(a), limitsText(b))
	}
	for i, v := range a.Boards() {
		if v != b.Boards()[i] {
			t.Fatalf("board %d: %v and %v", i, v.SI(), b.Boards()[i].SI())
		}
	}
}

// A maximum inside the range: the current in an input capacitor,
// I·√(D(1−D)) with D = 12 V/Vin, is largest at D = ½, that is at 24 V: 1 A of
// 2 A. At 18 V it is 2·√(2/3·1/3) = 0.9428 A, at 32 V 2·√(0.375·0.625) = 0.9682 A.
func TestMaximumInsideTheRange(t *testing.T) {
	t.Parallel()
	s := NewStudy(StudyOptions{})
	for _, usual := range []string{"20 V", "24 V", "30 V"} {
		vin := s.Place("Vin"+usual, "Vin", Range(q("18 V"), q(usual), q("32 V")))
		d := q("12 V").Div(vin)
		i := q("2 A").Mul(Sqrt(d.Mul(Number(1).Sub(d))))
		low, high, _ := i.Extremes()
		if !i.Inside() {
			t.Errorf("usually %s: the maximum inside is not noticed", usual)
		}
		if math.Abs(high.Value.SI()-1) > 1e-3 || math.Abs(low.Value.SI()-0.9428090415820634) > 1e-12 {
			t.Errorf("usually %s: from %v to %v", usual, low.Value, high.Value)
		}
		if _, std := i.Std(); std {
			t.Error("a range is no matter of chance")
		}
	}
}

// Two resistors share one temperature: their coefficients, 100 ppm/K each of
// its own sign, work on the same distance from 25 °C.
func TestTempco(t *testing.T) {
	t.Parallel()
	s := NewStudy(StudyOptions{})
	board := s.Place("T", "T", Range(q("-40 °C"), q("25 °C"), q("85 °C")))
	a := s.Place("a", "a", Tolerance(q("10 kΩ"), Tempco(q("100 ppm/K"), board)))
	b := s.Place("b", "b", Tolerance(q("10 kΩ"), Tempco(q("100 ppm/K"), board)))
	// −40 °C is 65 K away: 65·100 ppm of 10 kΩ are 65 Ω.
	if low, high := Low(a).SI(), High(a).SI(); math.Abs(low-9935) > 1e-9 || math.Abs(high-10065) > 1e-9 {
		t.Errorf("alone from %v to %v", low, high)
	}
	if d := a.Sub(b); math.Abs(High(d).SI()-130) > 1e-9 {
		t.Errorf("the difference is %s", limitsText(d))
	}
	// Boards are drawn at the usual temperature, at which there is no drift.
	if d, _ := a.Std(); d.SI() != 0 {
		t.Errorf("at 25 °C the standard deviation is %v", d)
	}
	hot := s.Restrict([]Case{{At: map[string]float64{"T": 1, "a": 1}}, {At: map[string]float64{"T": 1, "a": -1}}})
	at85 := hot.Place("T", "T", Range(q("-40 °C"), q("25 °C"), q("85 °C")))
	c := hot.Place("a", "a", Tolerance(q("10 kΩ"), Tempco(q("100 ppm/K"), at85)))
	// 60 K: 60 Ω.
	if v := c.Boards(); math.Abs(v[0].SI()-10060) > 1e-9 || math.Abs(v[1].SI()-9940) > 1e-9 {
		t.Errorf("at 85 °C: %v", v)
	}
}

// What is drawn has the mean and standard deviation of its distribution:
// uniform half-width/√3 (JCGM 100:2008, 4.3.7), normal limit/sigmas. With
// 200 000 boards the standard error of the deviation is 0.16 % (normal).
func TestShapes(t *testing.T) {
	t.Parallel()
	s := NewStudy(StudyOptions{Boards: 200_000})
	for _, c := range []struct {
		name     string
		x        Quantity
		mean, sd float64
	}{
		{"uniform", Tolerance(Number(10), Number(3)), 10, 3 / math.Sqrt(3)},
		{"normal", Tolerance(Number(10), Normal(Number(3), 3)), 10, 1},
		{"two uniform terms", Tolerance(Number(10), Number(3), Number(4)), 10, 5 / math.Sqrt(3)},
		{"a drift is no chance", Tolerance(Number(10), Number(3), Drift(Number(4))), 10, 3 / math.Sqrt(3)},
		// An uneven band is even from end to end: mean 11.5, width 7.
		{"uneven band", Band(Number(8), Number(10), Number(15)), 11.5, 7 / math.Sqrt(12)},
		// Shares ¾ on 0 … 1 and ¼ on 1 … 3: mean 0.75·0.5 + 0.25·2 = 0.875,
		// mean of squares 0.75/3 + 0.25·(27 − 1)/(3·2) = 1.3333.
		{"histogram", Histogram([]Quantity{Number(0), Number(1), Number(3)}, []float64{3, 1}), 0.875, math.Sqrt(4.0/3 - 0.875*0.875)},
	} {
		x := s.Place(c.name, c.name, c.x)
		mean := 0.0
		for _, v := range x.Boards() {
			mean += v.SI() / 200_000
		}
		sd, _ := x.Std()
		if math.Abs(mean-c.mean) > 4*c.sd/math.Sqrt(200_000) || math.Abs(sd.SI()/c.sd-1) > 0.007 {
			t.Errorf("%s: mean %v, deviation %v, want %v and %v", c.name, mean, sd.SI(), c.mean, c.sd)
		}
	}
	// 0.27 % lie outside 3 sigma: 540 of 200 000, give or take 4·√540.
	x := s.Place("n", "n", Tolerance(Number(0), Normal(Number(3), 3)))
	out := 0.0
	for _, v := range x.Boards() {
		if math.Abs(v.SI()) > 3 {
			out++
		}
	}
	if math.Abs(out-540) > 93 {
		t.Errorf("%v of 200 000 lie outside 3 sigma", out)
	}
}

// A wrong case is named: which source stands where.
func TestRefusalsNameTheCase(t *testing.T) {
	t.Parallel()
	s := NewStudy(StudyOptions{})
	x := s.Place("x", "Voff", Tolerance(q("1 mV"), q("2 mV")))
	zero := s.Place("z", "gain", Band(Number(-1), Number(0.5), Number(1)))
	for _, c := range []struct {
		f    func()
		want string
	}{
		{func() { Sqrt(x) }, "cannot take Sqrt of 1 mV (voltage): the argument is negative where Voff is −1 mV"},
		{func() { Ln(x.Div(q("1 mV"))) }, "cannot take Ln of 1 (number): the argument is not positive where Voff is −1 mV"},
		{func() { q("1 V").Div(x.Add(q("1 mV"))) }, "cannot divide 1 V (voltage) by 2 mV (voltage): the divisor is zero where Voff is −1 mV"},
		{func() { Pow(zero, 0.5) }, "cannot take Pow of 0.5 (number): a negative number has whole powers only where gain is −1"},
		{func() { s.Place("t", "T", Tolerance(q("-270 °C"), q("10 K"))) }, "the limits of −270 °C (temperature on the scale) go below absolute zero: give it less room"},
	} {
		if e := refusal(c.f); e == nil || e.Error() != c.want {
			t.Errorf("\n\tsays %v\n\twant %s", e, c.want)
		}
	}
}

// A comparison that does not come out alike in all cases is noted, with one.
func TestSplits(t *testing.T) {
	t.Parallel()
	s := NewStudy(StudyOptions{})
	x := s.Place("x", "Vin", Range(q("4 V"), q("6 V"), q("8 V")))
	if x.Less(q("9 V")); true {
		if first, n := s.TakeSplits(); n != 0 {
			t.Errorf("noted %v", first)
		}
	}
	if !q("5 V").Less(x) {
		t.Error("the decision is not that of the nominal value")
	}
	first, n := s.TakeSplits()
	if n != 1 || first[0] != (Split{"5 V < 6 V", "Vin is 4 V"}) {
		t.Errorf("noted %v", first)
	}
}

// More sources than MaxCorners: the corners are a sample, which lies within
// the true extremes and says so.
func TestSampledCorners(t *testing.T) {
	t.Parallel()
	s := NewStudy(StudyOptions{})
	sum := Number(0)
	for i := range 14 {
		key := string(rune('a' + i))
		sum = sum.Add(s.Place(key, key, Tolerance(Number(1), Number(1))))
	}
	low, high, _ := sum.Extremes()
	if !sum.Sampled() || low.Value.SI() < 0 || high.Value.SI() > 28 || high.Value.SI() < 20 {
		t.Errorf("from %v to %v", low.Value, high.Value)
	}
	if len(sum.Sources()) != 14 || len(sum.Sweeps()) != 14 {
		t.Error("sources are missing")
	}
	// Each sweep of a sum of one ± 1 goes from 13 to 15.
	for _, w := range sum.Sweeps() {
		if w.Values[0].SI() != 13 || w.Values[len(w.Values)-1].SI() != 15 {
			t.Errorf("%s: from %v", w.Source.Name, w.Values[0])
		}
	}
}

// Solve finds the root in every case: x² = a, a from 1 to 4.
func TestSolve(t *testing.T) {
	t.Parallel()
	s := NewStudy(StudyOptions{})
	a := s.Place("a", "a", Range(Number(1), Number(2), Number(4)))
	x := Solve("the root", Number(0), Number(10), func(x Quantity) Quantity { return x.Mul(x).Sub(a) })
	c := s.CasesOf([]Quantity{a})
	for i := range c.Len() {
		if want := math.Sqrt(c.Pick(a, i).SI()); math.Abs(c.Pick(x, i).SI()-want) > 1e-14*want {
			t.Fatalf("%v, want %v", c.Pick(x, i).SI(), want)
		}
	}
	if e := refusal(func() { Solve("x", Number(1.2), Number(10), func(x Quantity) Quantity { return x.Mul(x).Sub(a) }) }); e == nil ||
		e.Error() != "cannot solve x between 1.2 and 10: no solution lies between them where a is 1" {
		t.Errorf("says %v", e)
	}
}

// Matched parts share what they have in common: their ratio is ± 0.1 % each,
// however far the array is off.
func TestMatched(t *testing.T) {
	t.Parallel()
	s := NewStudy(StudyOptions{})
	r := s.Place("r", "r", Tolerance(q("10 kΩ"), q("5 %")))
	var m []Quantity
	for i, x := range Matched(r, q("0.1 %"), 2) {
		m = append(m, s.Place("m"+string(rune('0'+i)), "m", x))
	}
	// 1.001/0.999 and its inverse.
	ratio := m[0].Div(m[1])
	if math.Abs(High(ratio).SI()-1.001/0.999) > 1e-12 || math.Abs(Low(ratio).SI()-0.999/1.001) > 1e-12 {
		t.Errorf("the ratio is %s", limitsText(ratio))
	}
	// 1.05·1.001.
	if h := High(m[0]).SI(); math.Abs(h-10510.5) > 1e-8 {
		t.Errorf("one alone goes to %v", h)
	}
}

// A value that was computed case by case beside others keeps only the sources
// that move it.
func TestJoinDropsWhatDoesNotMove(t *testing.T) {
	t.Parallel()
	s := NewStudy(StudyOptions{})
	a := s.Place("a", "a", Range(Number(1), Number(2), Number(4)))
	b := s.Place("b", "b", Tolerance(Number(5), q("1 %")))
	c := s.CasesOf([]Quantity{a, b})
	values := make([]Quantity, c.Len())
	for i := range values {
		values[i] = c.Pick(b, i).Mul(Number(2))
	}
	got := c.Join(Number(10), values)
	want := b.Mul(Number(2))
	if !got.Identical(want) {
		t.Errorf("%s of %v, want %s of %v", limitsText(got), got.Sources(), limitsText(want), want.Sources())
	}
}
