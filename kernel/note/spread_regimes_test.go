package note_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"
	"testing"

	"ohmwright/kernel/note"
	"ohmwright/units"
)

// ends are what the definitions of a note say at the two ends of their limits:
// what stands in their place in a what-if.
type ends map[string][2]string

// corners computes a note in every corner by itself, as exact notes: the value
// of each name there. Parts stay chosen.
func corners(t testing.TB, n *note.Note, sources ends, names ...string) map[string][]float64 {
	t.Helper()
	var keys []string
	for k := range sources {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	out := map[string][]float64{}
	for c := range 1 << len(keys) {
		set := map[string]string{}
		for i, k := range keys {
			set[k] = sources[k][c>>i&1]
		}
		if err := n.WhatIf(set, false); err != nil {
			t.Fatal(err)
		}
		rs := n.Run(context.Background())
		if e := firstError(rs); e != nil {
			t.Fatalf("%v: %s", set, e)
		}
		for _, name := range names {
			if entry(rs, name).Spread != nil {
				t.Fatalf("%s has spread although all is exact", name)
			}
			out[name] = append(out[name], nominalOf(rs, name))
		}
	}
	if err := n.WhatIf(nil, false); err != nil {
		t.Fatal(err)
	}
	return out
}

// TestRegimesAreBruteForce holds the limits of values on which a decision
// parts the corners against exact notes, one for each corner. In each note the
// nominal branch gives another extreme, which stands beside it.
func TestRegimesAreBruteForce(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name    string
		cells   string
		sources ends
		x       string
		nominal float64 // an extreme that the nominal branch would give
		inside  float64 // the largest value, where no corner has it
	}{
		{"dropout in the same cell", "Vin := Range(4.5V, 6V, 7V)\nVdo := 0.4V ± 0.1V\nx := 5V\nif Vin-Vdo < x {\n\tx = Vin - Vdo\n}",
			ends{"Vin": {"4.5V", "7V"}, "Vdo": {"0.3V", "0.5V"}}, "x", 5, 0},
		{"dropout in a function of another cell", "Vin := Range(4.5V, 6V, 7V)\n---\nfunc regulated(v, drop Quantity) Quantity {\n\tif v-drop < 5V {\n\t\treturn v - drop\n\t}\n\treturn 5V\n}\n---\nVdo := 0.4V ± 0.1V\nx := regulated(Vin, Vdo)",
			ends{"Vin": {"4.5V", "7V"}, "Vdo": {"0.3V", "0.5V"}}, "x", 5, 0},
		{"dropout, then a cell behind it", "Vin := Range(4.5V, 6V, 7V)\nVout := 5V\nif Vin < 5.3V {\n\tVout = Vin - 0.3V\n}\n---\nR := 100Ω ± 1%\nx := Vout / R",
			ends{"Vin": {"4.5V", "7V"}, "R": {"99Ω", "101Ω"}}, "x", 5.0 / 101, 0},
		// A converter whose current stops in each cycle at light load: the peak
		// is not the load and half the ripple then (R. Erickson, D. Maksimović,
		// Fundamentals of Power Electronics, 2nd ed., chapter 5; from memory).
		{"discontinuous conduction", `Vin := Range(9V, 12V, 15V)
Vout := 5V
L := 22µH ± 20%
f := 400kHz ± 10%
Iout := Range(20mA, 500mA, 1A)
---
D := Vout / Vin
ripple := (Vin - Vout) * D / (L * f)
Ipeak := Iout + ripple/2
if Iout < ripple/2 {
	D = Sqrt(2 * L * f * Iout * Vout / (Vin * (Vin - Vout)))
	Ipeak = (Vin - Vout) * D / (L * f)
}
x := Ipeak`,
			ends{"Vin": {"9V", "15V"}, "L": {"17.6µH", "26.4µH"}, "f": {"360kHz", "440kHz"}, "Iout": {"20mA", "1A"}}, "x", 0.02 + 4*5/9.0/(26.4e-6*440e3)/2, 0},
		{"a switch of three ways", "I := Range(1mA, 50mA, 2A)\nR := 10mΩ ± 10%\n---\ngain := 1.0\nswitch {\ncase I < 10mA:\n\tgain = 100\ncase I < 1A:\n\tgain = 10\n}\nx := I * R * gain",
			ends{"I": {"1mA", "2A"}, "R": {"9mΩ", "11mΩ"}}, "x", 0.22, 0.11},
		{"a loop whose length parts", "U := Range(10V, 10V, 30V)\nx := 0V\nfor u := U; u > 4V; u = u / 2 {\n\tx += 1V\n}",
			ends{"U": {"10V", "30V"}}, "x", -1, 0},
		{"a field of a structure", "type rail struct{ V Quantity }\nU := Range(3V, 5V, 9V)\nr := rail{U}\nif r.V > 6V {\n\tr.V = 6V\n}\nx := r.V",
			ends{"U": {"3V", "9V"}}, "x", 9, 0},
		{"a closure", "U := Range(3V, 5V, 9V)\nclamp := func(limit Quantity) Quantity {\n\tif U > limit {\n\t\treturn limit\n\t}\n\treturn U\n}\n---\nx := clamp(6V)",
			ends{"U": {"3V", "9V"}}, "x", 9, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			n, rs := compute(t, strings.Split(c.cells, "\n---\n")...)
			s := spreadOf(t, rs, c.x)
			low, high := s.Low.SI(), s.High.SI()
			exact := corners(t, n, c.sources, c.x)[c.x]
			// A limit that is computed from ± differs from the one that is typed by
			// a rounding.
			near := 1e-12 * max(math.Abs(low), math.Abs(high))
			least, most := slices.Min(exact), slices.Max(exact)
			switch {
			case low > least+near, high < most-near:
				t.Errorf("%v … %v leaves out corners: %v … %v", low, high, least, most)
			case c.inside != 0 && (s.Search != note.Inside || math.Abs(high-c.inside) > 1e-5*high):
				t.Errorf("high is %v (found as %v), want %v inside", high, s.Search, c.inside)
			case c.inside == 0 && (low < least-near || high > most+near):
				t.Errorf("%v … %v, corner by corner %v … %v", low, high, least, most)
			}
			for _, got := range []float64{low, high} {
				if math.Abs(got-c.nominal) < 1e-9 && !slices.Contains(exact, c.nominal) {
					t.Errorf("%v is what the nominal branch gives", got)
				}
			}
			// Back from the what-ifs, all is as it was.
			rs = n.Run(context.Background())
			if s := spreadOf(t, rs, c.x); s.Low.SI() != low || s.High.SI() != high {
				t.Errorf("after the what-ifs %v … %v, before %v … %v", s.Low, s.High, low, high)
			}
		})
	}
}

// TestRequirementInAnotherRegime: a requirement that only some corners reach is
// judged there.
func TestRequirementInAnotherRegime(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		cells string
		holds bool
		worst string
	}{
		{"Vin := Range(4V, 6V, 8V)\nif Vin < 5V {\n\tRequire(Vin >= 4.5V, \"it starts\")\n}", false, "Vin is 4 V"},
		{"Vin := Range(4V, 6V, 8V)\nif Vin < 5V {\n\tRequire(Vin >= 3.5V, \"it starts\")\n}", true, "Vin is 4 V"},
		{"Vin := Range(4V, 6V, 8V)\nVout := 5V\nif Vin < Vout {\n\tVout = Vin\n}\nRequire(Vout >= 4.5V, \"it starts\")", false, "Vin is 4 V"},
		{"Vin := Range(4V, 6V, 8V)\nVout := 5V\nif Vin < Vout {\n\tVout = Vin\n}\n---\nRequire(Vout >= 4.5V, \"it starts\")", false, "Vin is 4 V"},
	} {
		_, rs := compute(t, strings.Split(c.cells, "\n---\n")...)
		if e := firstError(rs); e != nil {
			t.Fatalf("%s\n%s", c.cells, e)
		}
		q := requirement(rs, "it starts")
		if q == nil || q.Holds != c.holds || q.WorstCase != c.worst || q.Trouble != "" {
			t.Errorf("%s\n%+v", c.cells, q)
		}
	}
}

// TestChosenStaysChosen: a part that was chosen is the same part in every case,
// in every replay and under every what-if; choosing again is asked for.
func TestChosenStaysChosen(t *testing.T) {
	t.Parallel()
	figures := handFigures(t)["chosen"]
	for name, cells := range map[string]string{
		"in a definition":  "Vref := Band(788mV, 800mV, 812mV)\nRtop := 10kΩ\n---\nRbot := Nearest(E96, Rtop*Vref/(5V-Vref))\n---\nVout := Vref * (1 + Rtop/Rbot)\nH := High(Vout)",
		"in the same cell": "Vref := Band(788mV, 800mV, 812mV)\nRtop := 10kΩ\nRbot := Nearest(E96, Rtop*Vref/(5V-Vref))\nVout := Vref * (1 + Rtop/Rbot)\nH := High(Vout)",
		"in a function":    "func lower(v Quantity) Quantity { return Nearest(E96, 10kΩ*v/(5V-v)) }\n---\nRtop := 10kΩ\nVref := Band(788mV, 800mV, 812mV)\nRbot := lower(Vref)\nVout := Vref * (1 + Rtop/Rbot)\n---\nH := High(Vout)",
		// The decision makes every case of the cell one of its own.
		"where the cases part": "Vref := Band(788mV, 800mV, 812mV)\nRtop := 10kΩ\nRbot := Nearest(E96, Rtop*Vref/(5V-Vref))\nVout := Vref * (1 + Rtop/Rbot)\nif Vref > 810mV {\n\tVout = Vref*1 + Vref*Rtop/Rbot\n}\n---\nH := High(Vout)",
		// An extreme inside makes the note search, which computes cells again.
		"in a search": "Vref := Band(788mV, 800mV, 812mV)\nT := Range(-40°C, 20°C, 85°C)\nRtop := 10kΩ\n---\nRbot := Nearest(E96, Rtop*Vref/(5V-Vref))\n---\nbow := 1 - Pow((T-10°C)/1000K, 2)\nVout := Vref * (1 + Rtop/Rbot) * bow\nH := High(Vout)",
	} {
		n, rs := compute(t, strings.Split(cells, "\n---\n")...)
		s := spreadOf(t, rs, "Vout")
		if got := s.High.SI(); math.Abs(got-figures["high"]) > 1e-6 {
			t.Errorf("%s: high is %v, want %v", name, got, figures["high"])
		}
		if got := nominalOf(rs, "H"); got != s.High.SI() {
			t.Errorf("%s: High says %v, the limits %v", name, got, s.High.SI())
		}
		for _, redesign := range []bool{false, true} {
			if err := n.WhatIf(map[string]string{"Vref": "812mV"}, redesign); err != nil {
				t.Fatal(err)
			}
			rs = n.Run(context.Background())
			// E96 has 1.91 and, next to 1.9389, 1.96: 1.96 is 1.1 % away, 1.91 1.5 %.
			rbot, want := 1910.0, figures["high"]
			if redesign {
				rbot, want = 1960, figures["wrong high"]
			}
			if got := nominalOf(rs, "Rbot"); got != rbot {
				t.Errorf("%s: at 812 mV, chosen anew %v, Rbot is %v, want %v", name, redesign, got, rbot)
			}
			if got := nominalOf(rs, "H"); math.Abs(got-want) > 1e-6 {
				t.Errorf("%s: at 812 mV, chosen anew %v, Vout is %v, want %v", name, redesign, got, want)
			}
		}
	}
}

// TestVerdictsOfLimits holds which comparisons a value between two limits meets.
func TestVerdictsOfLimits(t *testing.T) {
	t.Parallel()
	const given = "Vin := Range(4V, 6V, 8V)\nR := 1kΩ ± 1%\nn := 6V\n"
	for _, c := range []struct {
		condition string
		holds     bool
		nominal   bool
		fails     string // a case where it does
	}{
		{"Vin > 4V", false, true, "Vin is 4 V"},
		{"Vin >= 4V", true, true, ""},
		{"Vin < 8V", false, true, "Vin is 8 V"},
		{"Vin <= 8V", true, true, ""},
		{"4V < Vin", false, true, "Vin is 4 V"},
		{"8V >= Vin", true, true, ""},
		{"Within(Vin, 4V, 8V)", true, true, ""},
		{"Within(Vin, 4.1V, 9V)", false, true, "Vin is 4 V"},
		{"Within(Vin, 3V, 7.9V)", false, true, "Vin is 8 V"},
		{"Within(Vin, 7V, 9V)", false, false, "Vin is 4 V"},
		{"Within(R, 990Ω, 1.01kΩ)", true, true, ""},
		{"Within(R, 990.1Ω, 1.01kΩ)", false, true, "R is 990 Ω"},
		{"Vin == 6V", false, true, "Vin is 4 V"},
		{"Vin == Vin", true, true, ""},
		{"Vin-Vin == 0V", true, true, ""},
		{"n == 6V", true, true, ""},
		{"Vin != 9V", true, true, ""},
		{"Vin != 8V", false, true, "both sides are equal, somewhere between Vin is 4 V and Vin is 8 V"},
		{"Vin != 5V", false, true, "both sides are equal, somewhere between Vin is 4 V and Vin is 8 V"},
		{"Vin*0.5 < Vin", true, true, ""},
		{"Vin-R*1mA > 2.99V", false, true, "Vin is 4 V, R is 1.01 kΩ"},
		{"Min(Vin, 5V) <= 5V", true, true, ""},
	} {
		_, rs := compute(t, given+"Require("+c.condition+", \"it holds\")")
		if e := firstError(rs); e != nil {
			t.Errorf("%s: %s", c.condition, e)
			continue
		}
		q := requirement(rs, "it holds")
		fails := q.FailsWhere
		if q.Worst != nil && !q.Holds {
			fails = q.WorstCase
		}
		if q.Holds != c.holds || q.Nominal != c.nominal || fails != c.fails {
			t.Errorf("%s: holds %v, nominally %v, fails where %s; want %v, %v, %s", c.condition, q.Holds, q.Nominal, fails, c.holds, c.nominal, c.fails)
		}
	}
}

// TestBoardsThatPass holds the counted shares of boards against exact ones.
func TestBoardsThatPass(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		cells      string
		share      float64 // exact
		where      string
		low, high  float64
		everyBoard bool
	}{
		// Three quarters of 990 … 1010 Ω are below 1005 Ω.
		{"R := 1kΩ ± 1%\nRequire(R <= 1.005kΩ, \"it holds\")", 0.75, "", 0.72, 0.78, false},
		// 5.5 V/R ≤ 5.5 mA needs R ≥ 1 kΩ: half of them, at the upper end of the range.
		{"V := Range(4.5V, 5V, 5.5V)\nR := 1kΩ ± 1%\n---\nRequire(V/R <= 5.5mA, \"it holds\")", 0.5, "V is 5.5 V", 0.46, 0.54, false},
		// A triangle of −2 … 2 % for two parts in series: above 1 % lies an eighth.
		{"R := 1kΩ ± 1%\nR2 := Another(R)\nRequire(R+R2 <= 2.01kΩ, \"it holds\")", 0.875, "", 0.85, 0.9, false},
		{"R := 1kΩ ± 1%\nRequire(R <= 1.02kΩ, \"it holds\")", 1, "", 0.998, 1, true},
		// Φ(1) of a normal part whose limits stand for three sigmas, at 1003.33 Ω: 0.8413.
		{"PartsAreNormal(3)\nR := 1kΩ ± 1%\nRequire(R <= 1.0033333333kΩ, \"it holds\")", 0.8413, "", 0.81, 0.87, false},
	} {
		_, rs := compute(t, strings.Split(c.cells, "\n---\n")...)
		q := requirement(rs, "it holds")
		if q == nil || q.Yield == nil {
			t.Fatalf("%s: no boards", c.cells)
		}
		y := q.Yield
		got := float64(y.Passed) / float64(y.Boards)
		if y.Boards != 2000 || got < c.low || got > c.high || y.Where != c.where {
			t.Errorf("%s: %d of %d pass where %q, want %v where %q", c.cells, y.Passed, y.Boards, y.Where, c.share, c.where)
		}
		if !(y.Low <= c.share && c.share <= y.High) {
			t.Errorf("%s: the share of all boards is %v, between %v and %v it is said", c.cells, c.share, y.Low, y.High)
		}
		if all := y.Passed == y.Boards; all != c.everyBoard || y.High-y.Low <= 0 || all && y.Low == 1 {
			t.Errorf("%s: %+v", c.cells, y)
		}
	}
}

// TestThreeSigma counts the boards outside three sigma: testdata/spread/exact.csv
// has the fewest and the most of a fair draw.
func TestThreeSigma(t *testing.T) {
	t.Parallel()
	// 20 000 boards, 0.27 % of them: 54; five standard deviations are 37.
	_, rs := compute(t, "Boards(20_000)\nR := 1kΩ ± Normal(1%, 3)\nRequire(Within(R, 990Ω, 1.01kΩ), \"within\")")
	q := requirement(rs, "within")
	if out := q.Yield.Boards - q.Yield.Passed; q.Yield.Boards != 20_000 || out < 54-37 || out > 54+37 {
		t.Errorf("%d of %d boards lie outside of three sigma", out, q.Yield.Boards)
	}
	// The limits of the part are kept in every corner: only boards go beyond.
	if !q.Holds || q.Yield.Assumed != "normal, limits at 3 σ" {
		t.Errorf("%+v", q.Yield)
	}
}

// TestPartsOfAllForms: each evaluation of ± is a part of its own, copies of a
// value are the same part, wherever they are kept.
func TestPartsOfAllForms(t *testing.T) {
	t.Parallel()
	const one, two = 0.0, 20.0 // of a difference between equal parts of 1 kΩ ± 1 %
	for name, c := range map[string]struct {
		cells   string
		sources int
		high    float64
	}{
		"a copy":                     {"R := 1kΩ ± 1%\nS := R\nx := R - S", 1, one},
		"a copy in another cell":     {"R := 1kΩ ± 1%\n---\nS := R\n---\nx := R - S", 1, one},
		"Another":                    {"R := 1kΩ ± 1%\nS := Another(R)\nx := R - S", 2, two},
		"Another in another cell":    {"R := 1kΩ ± 1%\n---\nS := Another(R)\n---\nx := R - S", 2, two},
		"Another twice":              {"R := 1kΩ ± 1%\nx := Another(R) - Another(R)", 2, two},
		"written twice":              {"x := (1kΩ ± 1%) - (1kΩ ± 1%)", 2, two},
		"a loop":                     {"rs := []Quantity{}\nfor range 2 {\n\trs = append(rs, 1kΩ ± 1%)\n}\nx := rs[0] - rs[1]", 2, two},
		"made before a loop":         {"R := 1kΩ ± 1%\nrs := []Quantity{}\nfor range 2 {\n\trs = append(rs, R)\n}\nx := rs[0] - rs[1]", 1, one},
		"a function called twice":    {"func part() Quantity { return 1kΩ ± 1% }\n---\nx := part() - part()", 2, two},
		"its value used twice":       {"func part() Quantity { return 1kΩ ± 1% }\n---\nR := part()\nx := R - R", 1, one},
		"a function in a loop":       {"func part() Quantity { return 1kΩ ± 1% }\nx := 0Ω\nfor i := range 2 {\n\tif i == 0 {\n\t\tx += part()\n\t} else {\n\t\tx -= part()\n\t}\n}", 2, two},
		"a closure called twice":     {"part := func() Quantity { return 1kΩ ± 1% }\n---\nx := part() - part()", 2, two},
		"a closure over a part":      {"func keep(r Quantity) func() Quantity { return func() Quantity { return r } }\npart := keep(1kΩ ± 1%)\nx := part() - part()", 1, one},
		"a structure copied":         {"type pair struct{ a, b Quantity }\np := pair{1kΩ ± 1%, 1kΩ ± 1%}\n---\nq := p\nx := p.a - q.a", 1, one},
		"fields of a structure":      {"type pair struct{ a, b Quantity }\np := pair{1kΩ ± 1%, 1kΩ ± 1%}\n---\nx := p.a - p.b", 2, two},
		"a function of structures":   {"type pair struct{ a, b Quantity }\nfunc twins() pair { return pair{1kΩ ± 1%, 1kΩ ± 1%} }\np, q := twins(), twins()\n---\nx := p.a - q.a", 2, two},
		"a method":                   {"type kind struct{ r Quantity }\nfunc (k kind) part() Quantity { return k.r ± 1% }\nk := kind{1kΩ}\n---\nx := k.part() - k.part()", 2, two},
		"elements of a slice":        {"rs := []Quantity{1kΩ ± 1%, 1kΩ ± 1%}\n---\nx := rs[0] - rs[1]", 2, two},
		"one element twice":          {"rs := []Quantity{1kΩ ± 1%, 1kΩ ± 1%}\n---\nx := rs[1] - rs[1]", 1, one},
		"a map":                      {"m := map[string]Quantity{\"a\": 1kΩ ± 1%, \"b\": 1kΩ ± 1%}\n---\nx := m[\"a\"] - m[\"b\"]", 2, two},
		"a generic function":         {"func both[T any](f func() T) (T, T) { return f(), f() }\na, b := both(func() Quantity { return 1kΩ ± 1% })\nx := a - b", 2, two},
		"a generic copy":             {"func same[T any](v T) T { return v }\nR := 1kΩ ± 1%\nx := same(R) - same(R)", 1, one},
		"recursion":                  {"func chain(n int) Quantity {\n\tif n == 0 {\n\t\treturn 0Ω\n\t}\n\treturn (1kΩ ± 1%) - chain(n-1)\n}\nx := chain(2)", 2, two},
		"another of a field":         {"type pair struct{ a, b Quantity }\np := pair{1kΩ ± 1%, 2kΩ ± 1%}\nq := pair{Another(p.a), Another(p.b)}\nx := p.a - q.a", 2, two},
		"a deferred part":            {"func late() (r Quantity) {\n\tdefer func() { r = 1kΩ ± 1% }()\n\treturn 0Ω\n}\nx := late() - late()", 2, two},
		"a name with two values":     {"R, S := 1kΩ ± 1%, 1kΩ ± 1%\nx := R - S", 2, two},
		"± of a name, twice":         {"R := 1kΩ\nx := (R ± 1%) - (R ± 1%)", 2, two},
		"a part tested again":        {"R := 1kΩ ± 0.5%\nS := R ± 0.5%\nT := R ± 0.5%\nx := S - T", 3, 10.05},
		"matched parts":              {"rs := Matched(1kΩ ± 1%, 0.1%, 2)\nx := rs[0] - rs[1]", 3, 2.02},
		"Normal of a part is a part": {"R := 1kΩ ± Normal(1%, 3)\nx := R - R", 1, one},
	} {
		_, rs := compute(t, strings.Split(c.cells, "\n---\n")...)
		if e := firstError(rs); e != nil {
			t.Errorf("%s: %s", name, e)
			continue
		}
		e := entry(rs, "x")
		if e == nil || e.Spread == nil {
			t.Errorf("%s: no spread", name)
			continue
		}
		q := e.Value.Quantity.(units.Quantity)
		if n := len(q.Sources()); n != c.sources || math.Abs(e.Spread.High.SI()-c.high) > 1e-9 {
			t.Errorf("%s: %d sources (%s), high %v; want %d, %v", name, n, strings.Join(e.Spread.Sources, "; "), e.Spread.High, c.sources, c.high)
		}
		if seen := fmt.Sprint(e.Spread.Sources); len(slices.Compact(slices.Sorted(slices.Values(e.Spread.Sources)))) != len(e.Spread.Sources) {
			t.Errorf("%s: two sources have one name: %s", name, seen)
		}
	}
}
