package note_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/note"
	"ohmwright/units"
)

// itemsOf lists the items of one kind that the cells show.
func itemsOf[T note.Item](t testing.TB, results []*note.Result) (list []T) {
	t.Helper()
	for _, r := range results {
		if r.State != note.Done {
			t.Fatalf("%s: %v", r.Label, r.Errors)
		}
		for _, i := range r.Items {
			if x, ok := i.(T); ok {
				list = append(list, x)
			}
		}
	}
	return list
}

func newNote(t testing.TB) *note.Note {
	t.Helper()
	w, err := host.Load()
	if err != nil {
		t.Fatal(err)
	}
	return note.New(note.Options{World: w})
}

// A rating is held with its largest stress over all cases: 32 V on 50 V is
// 64 %, whatever the sign; the policy of the letters goes before that of all.
func TestRatings(t *testing.T) {
	t.Parallel()
	n := newNote(t)
	design := []string{
		"V := Range(18V, 24V, 32V)\nI := Range(-2A, 0.5A, 1A)",
		"C := 10µF ± 20% // input capacitor [datasheet]\nPart(\"C1\", C, Rated(\"voltage\", 50V, V), Rated(\"current\", 4A, I))\nPart(\"CN1\", 1kΩ, Rated(\"voltage\", 50V, -V))",
	}
	for _, c := range []struct {
		rules string
		want  []string // share and policy, "" where it holds
		why   string
	}{
		{"", []string{"0.64 1 true", "0.5 1 true", "0.64 1 true"}, "no rule: all of the rating"},
		{"Derate(\"voltage\", 64%)", []string{"0.64 0.64 true", "0.5 1 true", "0.64 0.64 true"}, "just all that is allowed"},
		{"Derate(\"voltage\", 0.6)", []string{"0.64 0.6 false", "0.5 1 true", "0.64 0.6 false"}, "a rule for all"},
		{"Derate(\"voltage\", 60%)\nDerate(\"C\", \"voltage\", 80%)", []string{"0.64 0.8 true", "0.5 1 true", "0.64 0.6 false"}, "CN1 is no C"},
		{"Derate(\"current\", 40%)", []string{"0.64 1 true", "0.5 0.4 false", "0.64 1 true"}, "the sign does not count"},
	} {
		var got []string
		for _, q := range itemsOf[*note.Requirement](t, settled(t, n, append(design, c.rules)...)) {
			share, stress := q.Share()
			got = append(got, fmt.Sprintf("%.6g %.6g %v", share, q.Rating.Policy, q.Holds))
			if q.Rating.What == "current" && math.Abs(stress.SI()-2) > 1e-9 {
				t.Errorf("the current is %v", stress)
			}
		}
		if fmt.Sprint(got) != fmt.Sprint(c.want) {
			t.Errorf("%s: %v, want %v", c.why, got, c.want)
		}
	}
	p := itemsOf[*note.Part](t, settled(t, n, design...))[0]
	if share, ok := p.Tolerance(); !ok || math.Abs(share-0.2) > 1e-9 || p.Entry == nil || p.Entry.Source != "datasheet" || p.Text() != "10 µF" {
		t.Errorf("%+v", p)
	}
	// A comment that is edited does not run the part's cell, and is said there.
	moved := []string{design[0], "C := 10µF ± 20% // input capacitor [datasheet]", strings.SplitN(design[1], "\n", 2)[1]}
	settled(t, n, moved...)
	moved[1] = "C := 10µF ± 20% // input capacitor [other sheet]"
	if p := itemsOf[*note.Part](t, settled(t, n, moved...))[0]; p.Entry.Source != "other sheet" {
		t.Errorf("after the comment changed: %q", p.Entry.Source)
	}
}

// The largest stress is the largest of exact notes at every corner.
func TestLargestStressIsThatOfACorner(t *testing.T) {
	t.Parallel()
	n := newNote(t)
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.IntRange(1, 50)
		lowV := number.Draw(t, "low")
		highV := lowV + number.Draw(t, "more")
		tol := rapid.IntRange(1, 20).Draw(t, "tolerance")
		r := number.Draw(t, "resistance")
		offset := rapid.IntRange(-60, 60).Draw(t, "offset")
		cells := func(v, r string) []string {
			return []string{"V := " + v, "R := " + r, fmt.Sprintf("I := (V - %dV)/R", offset), "Part(\"F1\", 1A, Rated(\"current\", 100A, I))"}
		}
		share := func(list []string) float64 {
			var sources []note.Source
			for i, c := range list {
				sources = append(sources, note.Source{ID: fmt.Sprint(i), Code: c})
			}
			n.Set(sources)
			for _, r := range n.Run(context.Background()) {
				for _, i := range r.Items {
					if q, ok := i.(*note.Requirement); ok {
						s, _ := q.Share()
						return s
					}
				}
			}
			t.Fatal("no rating")
			return 0
		}
		got := share(cells(fmt.Sprintf("Range(%dV, %dV, %dV)", lowV, lowV, highV), fmt.Sprintf("%dΩ ± %d%%", r, tol)))
		most := 0.0
		for _, v := range []int{lowV, highV} {
			for _, sign := range []int{-1, 1} {
				most = max(most, share(cells(fmt.Sprintf("%dV", v), fmt.Sprintf("%gΩ", float64(r)*(1+float64(sign*tol)/100)))))
			}
		}
		if math.Abs(got-most) > 1e-9*max(most, 1e-3) {
			t.Errorf("the largest share is %v, of the corners %v", got, most)
		}
	})
}

// A reference that stands twice in a note is a finding that names both places.
func TestReferenceTwice(t *testing.T) {
	t.Parallel()
	parts := itemsOf[*note.Part](t, settled(t, newNote(t), "Part(\"R1\", 1kΩ)\nPart(\"R2\", 1kΩ)", "Part(\"R1\", 2kΩ)"))
	if parts[0].Twice != "" || parts[1].Twice != "" || parts[2].Twice != "cell 1, line 1" || !note.Fails(parts[2]) {
		t.Errorf("%+v %+v %+v", parts[0], parts[1], parts[2])
	}
}

// A part may have a text in place of a value, which may be a name; its ratings
// are held as those of others: 32 V of 40 V are 80 %.
func TestPartsWithoutANumber(t *testing.T) {
	t.Parallel()
	n := newNote(t)
	results := settled(t, n, "V := Range(18V, 24V, 32V)\nregulator := \"2 A step-down  regulator\" // for both rails [data sheet]", "Part(\"U1\", regulator)\nPart(\"d1\", \"Schottky diode\", Rated(\"voltage\", 40V, V))\nPart(\"D2\", Nearest(E24, 5V), Rated(\"voltage\", 40V, V))",
		"Derate(\"D\", \"voltage\", 75%)")
	parts := itemsOf[*note.Part](t, results)
	if p := parts[0]; p.Text() != "2 A step-down regulator" || p.Name != "regulator" || p.Entry == nil || p.Entry.Source != "data sheet" {
		t.Errorf("%+v", p)
	}
	if _, ok := parts[0].Tolerance(); ok || parts[1].Text() != "Schottky diode" || parts[1].Name != "" || parts[2].Words != "" || parts[2].Text() != "5.1 V" {
		t.Errorf("%+v %+v", parts[1], parts[2])
	}
	for _, q := range itemsOf[*note.Requirement](t, results) {
		if share, _ := q.Share(); math.Abs(share-0.8) > 1e-12 || q.Holds || q.Rating.Policy != 0.75 {
			t.Errorf("%s: %v of %v, holds %v", q.Text, share, q.Rating.Policy, q.Holds)
		}
	}
	if p := itemsOf[*note.Policy](t, results)[0]; p.Ratings != 2 {
		t.Errorf("the rule of D is for %d ratings, also that of d1", p.Ratings)
	}
	if r := note.NewRecord(results[1]).Parts[0]; r.SI != nil || r.Unit != "" || r.Text != "2 A step-down regulator" {
		t.Errorf("%+v", r)
	}
}

// So are an identifier and the name of a case; a Require that is reached twice
// is one requirement, and what is mended is no finding any more.
func TestIdentifierAndCaseTwice(t *testing.T) {
	t.Parallel()
	n := newNote(t)
	twice := func(cells ...string) (list []string) {
		for _, r := range settled(t, n, cells...) {
			for _, i := range r.Items {
				if what, where := note.Twice(i); what != "" {
					list = append(list, what+" in "+where)
					if !note.Fails(i) {
						t.Errorf("%s does not fail", what)
					}
				}
			}
		}
		return list
	}
	design := []string{"V := 3V\nRequire(V >= 2V, \"PWR-1: high\")", "Require(V <= 4V, \"PWR-1: low\")\nRequire(V <= 5V, \"no identifier\")\nRequire(V <= 5V, \"no identifier\")",
		"Case(\"hot\", V, 3.5V)\nCase(\"hot\", V, 2.5V)\nfor range 2 { Require(V < 4V, \"PWR-2: in a loop\") }"}
	if got := fmt.Sprint(twice(design...)); got != "[PWR-1 in cell 1, line 2 case hot in cell 3, line 1]" {
		t.Error(got)
	}
	design[0] = strings.Replace(design[0], "PWR-1", "PWR-9", 1)
	design[2] = strings.Replace(design[2], "\"hot\", V, 2", "\"cold\", V, 2", 1)
	if got := twice(design...); got != nil {
		t.Error(got)
	}
	// A part may be called as a requirement is.
	if got := twice("V := 3V\nPart(\"R1\", 1kΩ)\nRequire(V >= 2V, \"R1: high\")"); got != nil {
		t.Error(got)
	}
}

// What a chosen part would be under a what-if is said, and the part kept:
// 10 kΩ · 0.8 V/(5 V − 0.8 V) is 1.905 kΩ, and with 6 V 1.538 kΩ (E96: 1.91,
// 1.54, IEC 60063 from memory).
func TestWouldBe(t *testing.T) {
	t.Parallel()
	n := newNote(t)
	cells := []string{"U := 5V", "R := Nearest(E96, 10kΩ*0.8V/(U-0.8V)) ± 1%\nV := 0.8V*(1+10kΩ/R)"}
	settled(t, n, cells...)
	if err := n.WhatIf(map[string]string{"U": "6V"}, false); err != nil {
		t.Fatal(err)
	}
	choice := func() *note.Choice {
		for _, e := range itemsOf[*note.Entry](t, n.Run(context.Background())) {
			if e.Name == "R" {
				return e.Choice
			}
		}
		return nil
	}
	if c := choice(); !c.Kept || c.Would == nil || math.Abs(c.Chosen.SI()-1910) > 1e-6 || math.Abs(c.Would.SI()-1540) > 1e-6 {
		t.Errorf("%+v", c)
	}
	if err := n.WhatIf(map[string]string{"U": "5.001V"}, false); err != nil {
		t.Fatal(err)
	}
	if c := choice(); !c.Kept || c.Would != nil {
		t.Errorf("the same part: %+v", c)
	}
}

func TestWaivers(t *testing.T) {
	t.Parallel()
	n := newNote(t)
	for _, c := range []struct {
		cells           []string
		waived, trouble string
		fails           bool
		why             string
	}{
		{[]string{"V := 3V\n// as agreed\nRequire(V <= 2V, \"PWR-3: low\") // owner: N.N. [spec 4.2]", "Waive(\"PWR-3\", \"bench\")"}, "bench", "", false, "waived"},
		{[]string{"V := 3V\nRequire(V <= 2V, \"PWR-3: low\")", "Waive(\"PWR-33\", \"bench\")"}, "", "the note has no requirement PWR-33: did you mean PWR-3?", true, "another identifier"},
		{[]string{"V := 1V\nRequire(V <= 2V, \"PWR-3: low\")", "Waive(\"PWR-3\", \"bench\")"}, "", "PWR-3 holds: nothing is waived", false, "what holds"},
		{[]string{"V := 1V\nRequire(V <= 2V, \"PWR-3: low\")\nCase(\"high\", V, 3V)", "Waive(\"PWR-3\", \"bench\")"}, "", "", false, "what fails in a case only"},
		{[]string{"V := 3V\nRequire(V <= 2V, \"PWR-3: low\")\nRequire(V >= 4V, \"PWR-3: high\")", "Waive(\"PWR-3\", \"bench\")"}, "", "several requirements have the identifier PWR-3, and nothing is waived: give each its own", true, "which of two is not said"},
		{[]string{"V := 3V\nfor i := 0; i < 2; i++ { Require(V <= 2V, \"PWR-3: low\") }", "Waive(\"PWR-3\", \"bench\")"}, "bench", "", false, "one requirement, twice"},
		{[]string{"V := 3V\nPart(\"C1\", 1µF, Rated(\"voltage\", 2V, V))", "Waive(\"C1 voltage\", \"bench\")"}, "bench", "", false, "a rating"},
	} {
		results := settled(t, n, c.cells...)
		q, w := itemsOf[*note.Requirement](t, results)[0], itemsOf[*note.Waiver](t, results)[0]
		if q.Waived != c.waived || w.Trouble != c.trouble || note.Fails(q) != c.fails {
			t.Errorf("%s: waived %q, trouble %q, fails %v", c.why, q.Waived, w.Trouble, note.Fails(q))
		}
		for _, o := range itemsOf[*note.Operating](t, results) {
			if !o.Holds || o.Judged[0].Waived != "bench" {
				t.Errorf("%s: %+v", c.why, o)
			}
		}
	}
	q := itemsOf[*note.Requirement](t, settled(t, n, "V := 3V\n// as agreed\nRequire(V <= 2V, \"PWR-3: low\") // owner: N.N. [spec 4.2]"))[0]
	if q.ID != "PWR-3" || q.Description != "owner: N.N." || q.Source != "spec 4.2" || q.Reason != "as agreed" {
		t.Errorf("%+v", q)
	}
	for text, want := range map[string]string{"PWR-3: x": "PWR-3", "R1.2: x": "R1.2", "note: x": "", "5V: x": "", "A1:x": "", "the PWR-3: x": ""} {
		q := itemsOf[*note.Requirement](t, settled(t, n, "V := 3V\nRequire(V >= 2V, \""+text+"\")"))[0]
		if q.ID != want {
			t.Errorf("%q has the identifier %q", text, q.ID)
		}
	}
}

// What a note comes to in a case is what it comes to with these inputs
// written in it, but for parts, which stay chosen.
func TestCases(t *testing.T) {
	t.Parallel()
	n := newNote(t)
	cells := func(v, ta string) []string {
		return []string{"Vin := " + v + "\nTa := " + ta, "R := 100Ω ± 5%", "P := Vin*Vin/R\nTj := Ta + P*10K/W", "Require(Tj <= 100°C, \"T-1: cool\")\nRequire(R >= 90Ω, \"R-1: high\")"}
	}
	written := append(cells("Range(10V, 12V, 20V)", "25°C"), "Case(\"hot\", Ta, 50°C)\nCase(\"surge\", Vin, 70V)\nCase(\"both\", Vin, Range(20V, 30V, 40V), Ta, 50°C)")
	results := settled(t, n, written...)
	got := itemsOf[*note.Operating](t, results)
	for i, w := range [][]string{cells("Range(10V, 12V, 20V)", "50°C"), cells("70V", "25°C"), cells("Range(20V, 30V, 40V)", "50°C")} {
		q := itemsOf[*note.Requirement](t, settled(t, newNote(t), w...))[0]
		o := got[i]
		if len(o.Judged) != 1 || o.Judged[0].Text != "T-1: cool" {
			t.Errorf("%s touches %+v", o.Name, o.Judged)
			continue
		}
		j := o.Judged[0]
		if !units.Nominal(*j.Margin).Identical(*q.Margin) || !j.Worst.Identical(*q.Worst) || j.Holds != q.Holds || strings.ReplaceAll(j.WorstCase, " in "+o.Name, "") != q.WorstCase || o.Holds != q.Holds {
			t.Errorf("%s: margin %v, worst %v (%s), %v; written out %v, %v (%s), %v", o.Name, j.Margin, j.Worst, j.WorstCase, j.Holds, q.Margin, q.Worst, q.WorstCase, q.Holds)
		}
	}
	// Tj is 25 °C + 10 K/W · (70 V)²/100 Ω = 515 °C.
	if m := got[1].Judged[0].Margin; math.Abs(m.SI()+415) > 1e-9 || got[1].Holds || !got[0].Holds {
		t.Errorf("surge: margin %v", m)
	}
	table := note.CaseTable(results)
	if len(table) != 2 || len(table[0]) != 5 || table[1][0] != "T-1: cool" || !strings.HasPrefix(table[1][3], "FAILS −415 K") {
		t.Errorf("%q", table)
	}
	if got[0].Table != nil || got[1].Table != nil || fmt.Sprint(got[2].Table) != fmt.Sprint(table) {
		t.Errorf("the last case shows %q", got[2].Table)
	}
	// The design itself is as it was, and a change of it reaches the cases.
	if q := itemsOf[*note.Requirement](t, results)[0]; !q.Holds {
		t.Error("the design does not hold")
	}
	written[1] = "R := 50Ω ± 5%"
	if m := itemsOf[*note.Operating](t, settled(t, n, written...))[1].Judged[0].Margin; math.Abs(m.SI()+905) > 1e-9 {
		t.Errorf("surge with half the resistance: margin %v", m)
	}
	// A cell that cannot be computed in a case.
	o := itemsOf[*note.Operating](t, settled(t, n, "V := 4V\nx := Sqrt(V/1V - 1)\nRequire(x <= 5, \"small\")\nCase(\"none\", V, 0.5V)"))[0]
	if o.Trouble == "" || o.Holds {
		t.Errorf("%+v", o)
	}
	// Parts stay, and what they would be is said.
	o = itemsOf[*note.Operating](t, settled(t, n, "U := 5V", "R := Nearest(E96, 10kΩ*0.8V/(U-0.8V))\nRequire(R <= 2kΩ, \"small\")", "Case(\"six\", U, 6V)"))[0]
	if len(o.Would) != 1 || o.Would[0].Name != "R" || math.Abs(o.Would[0].Kept.SI()-1910) > 1e-6 || math.Abs(o.Would[0].Then.SI()-1540) > 1e-6 || len(o.Judged) != 0 {
		t.Errorf("%+v", o)
	}
}

// Each way in which a reading lies to 4.95 … 5.05 V.
func TestMeasured(t *testing.T) {
	t.Parallel()
	n := newNote(t)
	for _, c := range []struct {
		reading string
		want    note.Fit
	}{
		{"5V", note.FitInside}, {"5V ± 10mV", note.FitInside}, {"4.95V", note.FitInside}, {"4.951V ± 1mV", note.FitInside},
		{"4.95V ± 1mV", note.FitPerhaps}, {"5.055V ± 5mV", note.FitPerhaps}, {"5V ± 100mV", note.FitPerhaps},
		{"5.06V ± 5mV", note.FitOutside}, {"4.9V", note.FitOutside},
	} {
		for _, cells := range [][]string{{"V := 5V ± 50mV\nMeasured(V, " + c.reading + ", \"bench\")"}, {"V := 2.5V ± 25mV", "Measured(2*V, " + c.reading + ", \"bench\")"}} {
			m := itemsOf[*note.Measurement](t, settled(t, n, cells...))[0]
			if m.Verdict != c.want || m.How != "bench" || note.Fails(m) != (c.want == note.FitOutside) {
				t.Errorf("%v: %v, want %v", cells, m.Verdict, c.want)
			}
		}
	}
	// An extreme inside a range: x·(1 − x) is largest, 1/4, at x = 1/2.
	m := itemsOf[*note.Measurement](t, settled(t, n, "x := Range(0.1, 0.2, 0.83)\ny := x*(1-x)", "Measured(y, 0.2499, \"bench\")"))[0]
	if math.Abs(m.High.SI()-0.25) > 1e-6 || m.Verdict != note.FitInside {
		t.Errorf("%v … %v, %v", m.Low, m.High, m.Verdict)
	}
	// A cell that is computed case by case.
	m = itemsOf[*note.Measurement](t, settled(t, n, "x := Range(1V, 2V, 3V)\ny := x\nif y > 2.5V { y = 2.5V }\nMeasured(y, 2.6V, \"bench\")"))[0]
	if m.High.SI() != 2.5 || m.Verdict != note.FitOutside {
		t.Errorf("%v … %v, %v", m.Low, m.High, m.Verdict)
	}
}

// A run that was interrupted leaves the cases to the next one.
func TestCasesAfterAnInterrupt(t *testing.T) {
	t.Parallel()
	n := newNote(t)
	results := settled(t, n, "V := 3V\nRequire(V <= 5V, \"low\")\nCase(\"high\", V, 4V)")
	if o := itemsOf[*note.Operating](t, results)[0]; len(o.Judged) != 1 || o.Judged[0].Margin.SI() != 1 {
		t.Fatalf("%+v", o)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	n.Put(note.Source{ID: "b", Code: "W := 1V"})
	n.Put(note.Source{ID: "a", Code: "V := 3V\nRequire(V <= 6V, \"low\")\nCase(\"high\", V, 4V)"})
	n.Run(ctx)
	n.Again("a")
	if o := itemsOf[*note.Operating](t, n.Run(context.Background()))[0]; o.Trouble != "" || len(o.Judged) != 1 || o.Judged[0].Margin.SI() != 2 {
		t.Errorf("%+v", o)
	}
}
