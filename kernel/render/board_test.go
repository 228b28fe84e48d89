package render

import (
	"strings"
	"testing"

	"ohmwright/kernel/note"
)

// board has a part, ratings, a rule, waivers, cases and readings, with text
// that means something to HTML, TeX and Markdown. 32 V on 50 V is 64 %.
func board(t testing.TB) []note.Item {
	vals := circuit
	choice := &note.Choice{Rule: "nearest", Series: "E96", Ideal: q("1905Ω"), Chosen: q("1.91kΩ"), Deviation: 1910.0/1905 - 1}
	rbot := &note.Entry{Name: "Rbot", Value: *quantityView(q("1.91kΩ")), Form: note.FormChosen, Choice: choice,
		Description: "lower <resistor>", Source: "assumed", Reason: "costs $2 & is in the drawer"}
	moved := *choice
	would := q("1.54kΩ")
	moved.Kept, moved.Would = true, &would
	other := *rbot
	other.Choice, other.Reason = &moved, ""
	return []note.Item{
		&note.Part{Reference: "R2", Name: "Rbot", Value: q("1.91kΩ"), Low: limit("1.8909kΩ"), High: limit("1.9291kΩ"), Entry: rbot},
		&note.Part{Reference: "R3", Name: "Rbot", Value: q("1.91kΩ"), Entry: &other, Twice: "cell 1, line 2"},
		&note.Part{Reference: "C1", Value: q("10µF")},
		&note.Part{Reference: "U1", Words: "2 A step-down regulator, <5 V & $x$>"},
		&note.Requirement{Text: "C1 voltage", Rating: &note.Rated{Reference: "C1", What: "voltage", Limit: q("50V"), Policy: 0.6, Stress: tree(t, "Vin", vals)},
			Margin: limit("12%"), Worst: limit("-4%"), WorstCase: "Vin is 32 V"},
		&note.Requirement{Text: "C1 <b>current</b>", Rating: &note.Rated{Reference: "C1", What: "<b>current</b>", Limit: q("2A"), Policy: 1}, Holds: true, Margin: limit("50%")},
		&note.Policy{Letters: "C", What: "voltage", Share: 0.6, Ratings: 1},
		&note.Policy{What: "power_1", Share: 0.5},
		&note.Requirement{Text: "PWR-3: the *drop* stays small", ID: "PWR-3", Condition: tree(t, "Vin <= 26V", vals), Margin: limit("2V"), Worst: limit("-6V"), WorstCase: "Vin is 32 V",
			Waived: "bench only, \\(x\\) 2026-11-02", Description: "owner: N.N.", Source: "spec 4.2", Reason: "a third <i>"},
		&note.Waiver{ID: "PWR-3", Reason: "bench only, \\(x\\) 2026-11-02"},
		&note.Waiver{ID: "PWR-4", Reason: "no", Trouble: "the note has no requirement PWR-4"},
		&note.Operating{Name: "cold start", Inputs: []note.Setting{{Name: "Vin", Value: q("18V")}, {Name: "Ta", Value: q("-20°C")}}, Holds: true},
		&note.Requirement{Text: "PWR-3: the <drop> again", ID: "PWR-3", Holds: true, Margin: limit("2V"), Twice: "cell 1, line 9"},
		&note.Operating{Name: "cold start", Inputs: []note.Setting{{Name: "Vin", Value: q("19V")}}, Holds: true, Twice: "cell 1, line 12"},
		&note.Operating{Name: "surge <1>", Inputs: []note.Setting{{Name: "Vin", Value: q("40V")}},
			Judged: []note.InCase{{Text: "C1 voltage", Margin: limit("-20%"), Worst: limit("-20%")}, {Text: "PWR-3: the *drop* stays small", Margin: limit("-14V"), Waived: "bench only"}},
			Would:  []note.Would{{Name: "Rbot", Kept: q("1.91kΩ"), Then: q("1.54kΩ")}}},
		&note.Operating{Name: "none", Inputs: []note.Setting{{Name: "Vin", Value: q("0V")}}, Trouble: "cell 2, line 1: the root of −1",
			Table: [][]string{{"margin, worst", "as designed", "cold start", "surge <1>", "none"}, {"C1 voltage", "FAILS 12 %, −4 %", "FAILS 12 %, −4 %", "FAILS −20 %, −20 %", "not computed"}}},
		&note.Measurement{Name: "Vout", Value: q("4.988V"), Low: q("4.906V"), High: q("5.073V"), Reading: q("4.97V"), From: q("4.965V"), To: q("4.975V"), How: "2026-11-02, <meter>"},
		&note.Measurement{Formula: tree(t, "2*Vin", vals), Value: q("48V"), Low: q("48V"), High: q("48V"), Reading: q("48.1V"), From: q("47.9V"), To: q("48.3V"), How: "bench", Verdict: note.FitPerhaps, Search: note.Sampled},
		&note.Measurement{Name: "Vin", Value: q("24V"), Low: q("18V"), High: q("32V"), Reading: q("33V"), From: q("33V"), To: q("33V"), How: "bench", Verdict: note.FitOutside},
	}
}

func TestGoldenBoard(t *testing.T) {
	t.Parallel()
	golden(t, "board-table.txt", Table(Options{}, &note.Result{Label: "cell 1", Items: board(t)}))
}

// A lone part was taken for the head of a table of nothing, and left out.
func TestLonePartIsListed(t *testing.T) {
	t.Parallel()
	part := &note.Part{Reference: "C1", Name: "Cin", Value: q("10µF")}
	if got, want := Table(Options{}, &note.Result{Label: "cell 1", Items: []note.Item{part}}), "C1   10 µF   Cin   cell 1\n"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// What fails is named in one line, and nothing else is.
func TestVerdict(t *testing.T) {
	t.Parallel()
	for _, i := range board(t) {
		if text := Verdict(i) + Twice(i); note.Fails(i) && text == "" || strings.Contains(text, "\n") {
			t.Errorf("%T: %q", i, text)
		}
	}
	failing := board(t)[4]
	if got := Verdict(failing); got != "C1 voltage: at most 60 % of its rating of 50 V, and it is 32 V, 64 %" {
		t.Error(got)
	}
}
