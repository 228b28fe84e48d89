package note_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/note"
)

// settled runs a note of these cells and gives its results.
func settled(t *testing.T, n *note.Note, cells ...string) []*note.Result {
	t.Helper()
	var sources []note.Source
	for i, code := range cells {
		sources = append(sources, note.Source{ID: string(rune('a' + i)), Code: code})
	}
	n.Set(sources)
	return n.Run(context.Background())
}

func requirementIn(t *testing.T, results []*note.Result) *note.Requirement {
	t.Helper()
	for _, r := range results {
		for _, i := range r.Items {
			if q, ok := i.(*note.Requirement); ok {
				return q
			}
		}
	}
	t.Fatal("no requirement")
	return nil
}

// A setting holds for the whole note, wherever it stands, and what spreads is
// computed again when it changes or goes.
func TestSettingsOfANote(t *testing.T) {
	t.Parallel()
	w, err := host.Load()
	if err != nil {
		t.Fatal(err)
	}
	n := note.New(note.Options{World: w})
	design := "R := 10kΩ ± 1%\nRequire(R < 10.05kΩ, \"small\")"
	y := requirementIn(t, settled(t, n, design)).Yield
	if y.Boards != 2000 || y.Assumed != "uniform" {
		t.Errorf("without a setting: %+v", y)
	}
	// Uniform from 9.9 to 10.1: three quarters are below 10.05.
	if y.Low > 0.75 || y.High < 0.75 {
		t.Errorf("75 %% are expected, found %v … %v", y.Low, y.High)
	}
	y = requirementIn(t, settled(t, n, design, "Boards(50_000)\nPartsAreNormal(2)")).Yield
	if y.Boards != 50_000 || y.Assumed != "normal, limits at 2 σ" {
		t.Errorf("with settings below: %+v", y)
	}
	// σ is 50 Ω: 84.134 % are below the mean and one σ.
	if y.Low > 0.84134 || y.High < 0.84134 {
		t.Errorf("84.13 %% are expected, found %v … %v", y.Low, y.High)
	}
	if y = requirementIn(t, settled(t, n, design)).Yield; y.Boards != 2000 || y.Assumed != "uniform" {
		t.Errorf("after the setting is gone: %+v", y)
	}
	results := settled(t, n, design, "Boards(500)", "Boards(600)")
	if r := results[2]; r.State != note.Failed || r.Errors[0].Msg != "Boards is set here, in cell 3, and in cell 2" {
		t.Errorf("set twice: %v", r.Errors)
	}
	results = settled(t, n, design, "for i := 0; i < 2; i++ { Boards(500) }")
	if r := results[1]; r.State != note.Failed || !strings.HasPrefix(r.Errors[0].Msg, "Boards holds for the whole note") {
		t.Errorf("in a loop: %v", r.Errors)
	}
	if results = settled(t, n, "Boards := 3\nx := Boards + 1", design); results[0].State != note.Done || requirementIn(t, results).Yield.Boards != 2000 {
		t.Errorf("a note's own name: %v", results[0].Errors)
	}
}

// A tolerance that says how it counts is no part: it stays what it is where
// the cell is computed case by case.
func TestMarkedToleranceCaseByCase(t *testing.T) {
	t.Parallel()
	w, err := host.Load()
	if err != nil {
		t.Fatal(err)
	}
	results := settled(t, note.New(note.Options{World: w}), "a := 10V ± 1%\nb := 10V ± Normal(2%, 3) ± Drift(0.1%)\nx := a\nif a < b { x = b }\nRequire(x >= 9.79V, \"low\")")
	if r := results[0]; r.State != note.Done {
		t.Fatal(r.Errors)
	}
	// The larger of two: least where both are, 9.9 V.
	if q := requirementIn(t, results); q.Worst == nil || q.Worst.SI() < 0.10999 || q.Worst.SI() > 0.11001 {
		t.Errorf("worst margin %v, want 110 mV", q.Worst)
	}
}

// High of a value that the cell decided about would be that of one branch for
// all cases: it is refused there, and right in a cell of its own. Of another
// cell's value and of an input it is right anywhere.
func TestHighAfterADecision(t *testing.T) {
	t.Parallel()
	w, err := host.Load()
	if err != nil {
		t.Fatal(err)
	}
	clamp := "V := Range(1V, 2V, 3V)\nk := V\nif k > 2.5V { k = 2.5V }"
	n := note.New(note.Options{World: w})
	results := settled(t, n, clamp+"\nh := High(k)")
	if r := results[0]; r.State != note.Failed || r.Errors[0].Msg != "High cannot be taken in the cell in which the cases of its value part" {
		t.Errorf("in one cell: %v", r.Errors)
	}
	results = settled(t, n, clamp, "h := High(k)")
	for _, i := range results[1].Items {
		if e, ok := i.(*note.Entry); ok && e.Value.Text != "2.5 V" {
			t.Errorf("in a cell of its own: %v", e.Value.Text)
		}
	}
	for _, cells := range [][]string{{clamp + "\nh := High(V)"}, {"V := Range(1V, 2V, 3V)", "k := V\nif k > 2.5V { k = 2.5V }\nh := High(V)"}} {
		results = settled(t, n, cells...)
		last := results[len(results)-1]
		if last.State != note.Done {
			t.Errorf("%q: %v", cells, last.Errors)
			continue
		}
		for _, i := range last.Items {
			if e, ok := i.(*note.Entry); ok && e.Name == "h" && e.Value.Text != "3 V" {
				t.Errorf("%q: %v", cells, e.Value.Text)
			}
		}
	}
}

// A second part of the kind of an input is a second part in every case, also
// where the cell is computed case by case: the difference of two parts of
// 10 kΩ ± 1 % goes from −200 to 200 Ω.
func TestAnotherCaseByCase(t *testing.T) {
	t.Parallel()
	w, err := host.Load()
	if err != nil {
		t.Fatal(err)
	}
	results := settled(t, note.New(note.Options{World: w}), "R := 10kΩ ± 1%\nV := Range(1V, 2V, 3V)",
		"d := Another(R) - R\nm := Matched(R, 1%, 2)\ne := m[0] - m[1]\nb := Normal(Band(9V, 10V, 11V), 3)\nk := 0V\nif V > 2.5V { k = 1V }\nRequire(d > -199Ω, \"close\")")
	if r := results[1]; r.State != note.Done {
		t.Fatal(r.Errors)
	}
	if q := requirementIn(t, results); q.Worst == nil || math.Abs(q.Worst.SI()+1) > 1e-9 {
		t.Errorf("worst margin %v, want −1 Ω", q.Worst)
	}
	for _, i := range results[1].Items {
		e, ok := i.(*note.Entry)
		if !ok || e.Spread == nil {
			continue
		}
		// 10.1 kΩ · (1.01 − 0.99) = 202 Ω; the band as given.
		want := map[string][2]float64{"d": {-200, 200}, "e": {-202, 202}, "b": {9, 11}, "k": {0, 1}}[e.Name]
		if math.Abs(e.Spread.Low.SI()-want[0]) > 1e-9 || math.Abs(e.Spread.High.SI()-want[1]) > 1e-9 {
			t.Errorf("%s goes from %v to %v, want %v", e.Name, e.Spread.Low, e.Spread.High, want)
		}
	}
	results = settled(t, note.New(note.Options{World: w}), "R := 10kΩ ± 1%\nV := Range(1V, 2V, 3V)", "d := R\nif V > 2.5V { d = Another(R) }")
	if r := results[1]; r.State != note.Failed || !strings.HasPrefix(r.Errors[0].Msg, "Another cannot be taken where only some of the cases come") {
		t.Errorf("in a branch: %v", r.Errors)
	}
}
