package note_test

import (
	"context"
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"ohmwright/kernel/note"
	"ohmwright/units"
)

// handNotes are the cases of testdata/spread/hand.csv as a designer writes
// them. x is the value that a case is about; Require lines give its verdicts.
var handNotes = map[string]string{
	"divider-one-part":  "R := 10kΩ ± 1%\nx := R/(R + R)",
	"divider-two-parts": "R := 10kΩ ± 1%\nR2 := Another(R)\n---\nx := R/(R + R2)",
	"parallel-one-part": "R := 1kΩ ± 1%\n---\nx := Parallel(R, R)",
	// The second figure of the standard deviation is of first order.
	"parallel-two-parts":    "R := 1kΩ ± 1%\n---\nx := Parallel(R, R2)\n---\nR2 := Another(R)",
	"difference-one-part":   "R := 10kΩ ± 1%\nx := R - R",
	"difference-two-parts":  "x := R - R2\n---\nR, R2 := 10kΩ ± 1%, 10kΩ ± 1%",
	"block-twice":           "func block(v Quantity) Quantity {\n\ttop := 10kΩ ± 1%\n\tbottom := 10kΩ ± 1%\n\treturn v * bottom / (top + bottom)\n}\n---\nV := 5V ± 5%\na := block(V)\nx := block(V) - a\ny := a - a",
	"input-capacitor":       "Vin := Range(18V, 20V, 32V) // supply [system spec]\nI := 2A\n---\nD := 12V / Vin\n---\nx := I * Sqrt(D*(1-D))",
	"dropout":               "Vin := Range(4.5V, 6V, 7V)\nVdo := 0.4V ± 0.1V\n---\nx := 5V\nif Vin-Vdo < x {\n\tx = Vin - Vdo\n}",
	"chosen":                "Vref := Band(788mV, 800mV, 812mV)\nRtop := 10kΩ\nRbot := Nearest(E96, Rtop*Nominal(Vref)/(5V-Nominal(Vref)))\n---\nx := Vref * (1 + Rtop/Rbot)",
	"shared-temperature":    "T := Range(-40°C, 25°C, 85°C)\n---\nR1 := 10kΩ ± Tempco(100ppm/K, T)\nR2 := 1kΩ ± Tempco(100ppm/K, T)\n---\nx := R2 / (R1 + R2)",
	"tracking-temperature":  "T := Range(-40°C, 25°C, 85°C)\nk := 1 + 100ppm/K*(T-25°C)\nR1 := 10kΩ * k\nR2 := 1kΩ * k\nx := R2 / (R1 + R2)",
	"same-sign-temperature": "T := Range(-40°C, 25°C, 85°C)\nR1 := 10kΩ * (1 + 100ppm/K*(T-25°C))\nR2 := 1kΩ * (1 + 50ppm/K*(T-25°C))\nx := R2 / (R1 + R2)",
	"terms":                 "x := 10kΩ ± 1% ± 0.5% ± Drift(0.2%)\nSpread(x)",
	"two-drifts":            "R := 10kΩ ± 1% ± 0.5% ± Drift(0.2%)\nR2 := Another(R)\nx := R + R2\nSpread(x)",
	"range-and-part":        "V := Range(9V, 12V, 15V)\nR := 1kΩ ± 1%\nx := V / R\nSpread(x)",
	"feedback":              "Vref := Band(788mV, 800mV, 812mV)\nRtop := 10kΩ ± 1%\nRbot := Nearest(E96, Rtop*Vref/(5V-Vref)) ± 1%\n---\nx := Vref * (1 + Rtop/Rbot)\nSpread(x)",
	"bias-network":          "Vcc := 5V ± 5%\nRload := 750Ω\nRtop := Nearest(E96, 1.021kΩ) ± 5%\nRbot := 60Ω ± 5%\n---\nlower := Parallel(Rbot, Rload)\nx := Vcc * lower / (Rtop + lower)\n---\nRequire(x >= 0.25V, \"the bias is enough\")",
	"bridge-equal":          bridge(1000, 10, "x := 10V * (B/(A+B) - D/(C+D))"),
	"bridge-equal-power":    bridge(1000, 10, "U := 10V * (B/(A+B) - D/(C+D))\nx := U * U / 1kΩ"),
}

// bridge is a bridge whose four arms are three parts in series each.
func bridge(ohms, halfWidth float64, x string) string {
	var b strings.Builder
	for _, arm := range "ABCD" {
		for i := range 3 {
			fmt.Fprintf(&b, "R%c%d := %gΩ ± %gΩ\n", arm, i+1, ohms, halfWidth)
		}
		fmt.Fprintf(&b, "%c := R%c1 + R%c2 + R%c3\n---\n", arm, arm, arm, arm)
	}
	return b.String() + x
}

// handFigures reads testdata/spread/hand.csv: case, quantity, value.
func handFigures(t *testing.T) map[string]map[string]float64 {
	t.Helper()
	f, err := os.Open("../../testdata/spread/hand.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]map[string]float64{}
	for _, row := range rows[1:] {
		v, err := strconv.ParseFloat(row[2], 64)
		if err != nil {
			t.Fatal(err)
		}
		if out[row[0]] == nil {
			out[row[0]] = map[string]float64{}
		}
		out[row[0]][row[1]] = v
	}
	return out
}

// spreadOf is the spread of a name that was computed.
func spreadOf(t testing.TB, rs []*note.Result, name string) *note.Spread {
	t.Helper()
	if e := firstError(rs); e != nil {
		t.Fatalf("%s: %s", e.Cell, e)
	}
	e := entry(rs, name)
	if e == nil || e.Spread == nil {
		t.Fatalf("%s has no spread", name)
	}
	if e.Spread.Trouble != "" {
		t.Errorf("%s: %s", name, e.Spread.Trouble)
	}
	return e.Spread
}

func nominalOf(rs []*note.Result, name string) float64 {
	return entry(rs, name).Value.Quantity.(units.Quantity).SI()
}

// TestByHand computes the cases of testdata/spread/hand.csv as notes.
func TestByHand(t *testing.T) {
	t.Parallel()
	done := map[string]bool{}
	for name, figures := range handFigures(t) {
		cells, ok := handNotes[name]
		if !ok {
			continue
		}
		done[name] = true
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			_, rs := compute(t, strings.Split(cells, "\n---\n")...)
			s := spreadOf(t, rs, "x")
			// Ends to a billionth, extremes inside a range to what the search promises.
			scale := math.Max(math.Abs(s.Low.SI()), math.Abs(s.High.SI()))
			for what, want := range figures {
				var got float64
				near := 1e-9 * scale
				switch what {
				case "low":
					got = s.Low.SI()
				case "high":
					got = s.High.SI()
				case "nominal":
					got = nominalOf(rs, "x")
				case "std":
					if s.Std == nil {
						t.Errorf("no standard deviation, want %v", want)
						continue
					}
					if name == "range-and-part" || name == "shared-temperature" {
						continue // at the worst point of the range; ours is at its usual value
					}
					// 2000 boards: five standard errors of a deviation are 8 % of a
					// normal value, less of these.
					got, near = s.Std.SI(), 0.08*want
				case "wrong high":
					if math.Abs(s.High.SI()-want) <= 1e-3*math.Abs(want) {
						t.Errorf("high is %v, that of a wrong idea of a source", s.High.SI())
					}
					continue
				default:
					continue // checked by the tests below
				}
				if !(math.Abs(got-want) <= near) {
					t.Errorf("%s is %v, want %v", what, got, want)
				}
			}
		})
	}
	for name := range handNotes {
		if !done[name] {
			t.Errorf("hand.csv has no %s", name)
		}
	}
}

// TestEndsAloneMissTheCapacitor holds the current in an input capacitor, whose
// largest value lies inside the range of the supply: √(D(1−D)) has its top at
// D = ½, 24 V. High asks the same search, in the same cell and in another.
func TestEndsAloneMissTheCapacitor(t *testing.T) {
	t.Parallel()
	const cell = "Vin := Range(18V, 20V, 32V)\nD := 12V / Vin\nI := 2A * Sqrt(D*(1-D))\nhere := High(I)\nleast := Low(I)"
	_, rs := compute(t, cell, "there := High(I)\nRequire(I <= 0.99A, \"the capacitor stays cool\")\nRequire(I <= 1.001A, \"it stays within its rating\")", "func worst(x Quantity) Quantity { return High(x) }\nfar := worst(I)")
	s := spreadOf(t, rs, "I")
	if d := math.Abs(s.High.SI() - 1); d > 1e-6 || s.Search != note.Inside || s.HighCase != "Vin is 24 V" {
		t.Errorf("high is %v where %s, found as %v", s.High.SI(), s.HighCase, s.Search)
	}
	for name, want := range map[string]float64{"here": s.High.SI(), "there": s.High.SI(), "far": s.High.SI(), "least": s.Low.SI()} {
		if got := nominalOf(rs, name); got != want {
			t.Errorf("%s is %v, the limits say %v", name, got, want)
		}
		if entry(rs, name).Spread != nil {
			t.Errorf("%s has spread", name)
		}
	}
	fails, holds := requirement(rs, "the capacitor stays cool"), requirement(rs, "it stays within its rating")
	// Nominally, at 20 V, it is 0.98 A; at both ends less.
	if fails.Holds || !fails.Nominal || math.Abs(fails.Worst.SI()+0.01) > 1e-6 || fails.WorstCase != "Vin is 24 V" {
		t.Errorf("at most 0.99 A: holds %v, nominally %v, worst %v where %s", fails.Holds, fails.Nominal, fails.Worst, fails.WorstCase)
	}
	if !holds.Holds {
		t.Errorf("at most 1.001 A does not hold: worst %v where %s", holds.Worst, holds.WorstCase)
	}
	// Alone in a cell, too, it is the same figure.
	_, alone := compute(t, cell)
	if got := nominalOf(alone, "here"); got != s.High.SI() {
		t.Errorf("alone it is %v, beside other cells %v", got, s.High.SI())
	}
}

// requirement finds a requirement by its text.
func requirement(rs []*note.Result, text string) *note.Requirement {
	for _, r := range rs {
		for _, i := range r.Items {
			if q, ok := i.(*note.Requirement); ok && q.Text == text {
				return q
			}
		}
	}
	return nil
}

func spreading(rs []*note.Result) *note.Spreading {
	for _, r := range rs {
		for _, i := range r.Items {
			if s, ok := i.(*note.Spreading); ok {
				return s
			}
		}
	}
	return nil
}

// TestBridgeOfTwelve searches a balanced bridge of twelve parts, too many for
// all corners: what it finds is what all 4096 of them hold.
func TestBridgeOfTwelve(t *testing.T) {
	t.Parallel()
	figures := handFigures(t)
	for _, name := range []string{"bridge-equal", "bridge-equal-power"} {
		_, rs := compute(t, strings.Split(handNotes[name], "\n---\n")...)
		s := spreadOf(t, rs, "x")
		if s.Search != note.Sampled || len(s.Sources) != 12 {
			t.Errorf("%s: %d sources, found as %v", name, len(s.Sources), s.Search)
		}
		want := figures[name]
		if d := math.Abs(s.High.SI() - want["high"]); d > 1e-12*want["high"] {
			t.Errorf("%s: high is %v, want %v", name, s.High.SI(), want["high"])
		}
		if d := math.Abs(s.Low.SI() - want["low"]); d > 1e-12*want["high"] {
			t.Errorf("%s: low is %v, want %v", name, s.Low.SI(), want["low"])
		}
	}
}

// TestRootSumSquareByHand holds what Spread says of terms, drifts and ranges.
func TestRootSumSquareByHand(t *testing.T) {
	t.Parallel()
	figures := handFigures(t)
	for name, want := range map[string]float64{
		"terms":          figures["terms"]["rss high"] - 10e3,
		"two-drifts":     figures["two-drifts"]["rss"],
		"range-and-part": figures["range-and-part"]["rss half-width"],
		"feedback":       figures["feedback"]["rss half-width"],
	} {
		_, rs := compute(t, strings.Split(handNotes[name], "\n---\n")...)
		if e := firstError(rs); e != nil {
			t.Fatal(e)
		}
		s := spreading(rs)
		from := map[string]float64{"terms": 10e3, "two-drifts": 20e3, "range-and-part": 15e-3, "feedback": figures["feedback"]["nominal"]}[name]
		near := 1e-9 * want
		if name == "range-and-part" || name == "feedback" {
			near = 0.02 * want // by hand it is of first order
		}
		if got := s.RSSHigh.SI() - from; math.Abs(got-want) > near {
			t.Errorf("%s: %v above, want %v", name, got, want)
		}
	}
	// 1.5², and (10/11.91)² for each resistor.
	_, rs := compute(t, strings.Split(handNotes["feedback"], "\n---\n")...)
	for _, h := range spreading(rs).Shares {
		if want := figures["feedback"]["share of Vref in the variance"]; h.Name == "Vref" && math.Abs(h.Variance-want) > 0.02 {
			t.Errorf("Vref has %v of the variance, want %v", h.Variance, want)
		}
	}
}

// TestBiasPassesNominally: the nominal choice passes, the worst case does not,
// and it is named; so does what the designer sees if the parts are bought tighter.
func TestBiasPassesNominally(t *testing.T) {
	t.Parallel()
	n, rs := compute(t, strings.Split(handNotes["bias-network"], "\n---\n")...)
	q := requirement(rs, "the bias is enough")
	figures := handFigures(t)["bias-network"]
	if q.Holds || !q.Nominal || math.Abs(q.Worst.SI()-(figures["low"]-0.25)) > 1e-9 || q.WorstCase != "Vcc is 4.75 V, Rtop is 1.071 kΩ, Rbot is 57 Ω" {
		t.Errorf("holds %v, nominally %v, worst %v where %s", q.Holds, q.Nominal, q.Worst, q.WorstCase)
	}
	if math.Abs(q.Margin.SI()-(figures["nominal"]-0.25)) > 1e-12 {
		t.Errorf("margin %v", q.Margin)
	}
	if y := q.Yield; y == nil || y.Passed == 0 || y.Passed == y.Boards || !(y.Low < float64(y.Passed)/float64(y.Boards) && float64(y.Passed)/float64(y.Boards) < y.High) {
		t.Errorf("boards: %+v", y)
	}
	// 4.95 V · 55.1/(1030.2 + 55.1) with all parts at 1 %: 59.4 Ω beside 750 Ω is
	// 55.04 Ω; 4.95 · 55.04/(1030.2 + 55.04) = 0.25105 V.
	if err := n.WhatIf(map[string]string{"Rbot": "60Ω ± 1%", "Rtop": "1.02kΩ ± 1%", "Vcc": "5V ± 1%"}, false); err != nil {
		t.Fatal(err)
	}
	rs = n.Run(context.Background())
	if q := requirement(rs, "the bias is enough"); !q.Holds || q.Yield.Passed != q.Yield.Boards || q.Yield.High != 1 || math.Abs(q.Worst.SI()-0.00105) > 1e-5 {
		t.Errorf("with parts of 1 %%: holds %v, worst %v, %+v", q.Holds, q.Worst, q.Yield)
	}
}
