package note_test

import (
	"context"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"testing"

	"ohmwright/kernel/note"
)

// files are a folder in memory.
type files map[string]string

func (f files) open(name string) ([]byte, error) {
	text, ok := f[name]
	if !ok {
		return nil, fmt.Errorf("there is no file %s: %w", name, fs.ErrNotExist)
	}
	return []byte(text), nil
}

func withFiles(f files, codes ...string) *note.Note {
	n := note.New(note.Options{World: world, Open: f.open})
	n.Set(sources(codes...))
	return n
}

const holdText = "ambient [°C], hold current [A], trip current [A]\n-40, 2.2, 4.4\n25, 1.5, 3\n85, 0.8, 1.6\n"

// By hand: 1.5 A − 0.7 A · 25/60 at 50 °C, 1.5 A + 0.7 A · 45/65 at −20 °C.
func TestTableOfFile(t *testing.T) {
	t.Parallel()
	n := withFiles(files{"hold.csv": holdText, "sub/other.csv": holdText},
		"Ta := Range(-20°C, 25°C, 50°C)",
		"hold := Table(\"hold.csv\").Of(\"hold current\") // of the fuse [data sheet figure 3]",
		"I := hold.At(Ta)",
		"Ihold := hold.At(Ta) ± 10%",
		"func trip(t Quantity) Quantity { return Table(`sub/other.csv`).Of(\"trip current\").At(t) }",
		"twice := 2 * trip(25°C)",
		"rest := Table(\"hold.csv\").Of(\"trip current\").At(25°C) - 1A",
		"back := hold.Inverse().At(1.15A)",
		"missed := hold.At(90°C)",
		"t, err := Table(\"hold.csv\")\nrows, failed := t.Rows(), err != nil",
	)
	rs := n.Run(context.Background())
	for name, want := range map[string]string{"I": "1.5 A", "twice": "6 A", "rest": "2 A", "back": "55 °C", "rows": "3", "failed": "false"} {
		if got := text(rs, name); got != want {
			t.Errorf("%s is %s, want %s", name, got, want)
		}
	}
	if e := entry(rs, "I"); e.Spread == nil || e.Spread.Low.String() != "1.208 A" || e.Spread.High.String() != "1.985 A" {
		t.Errorf("I spreads %+v", e.Spread)
	}
	// 0.9 and 1.1 times as much.
	if e := entry(rs, "Ihold"); e.Spread == nil || e.Spread.Low.String() != "1.087 A" || e.Spread.High.String() != "2.183 A" {
		t.Errorf("Ihold spreads %+v", e.Spread)
	}
	if got := message(rs[8].Errors[0]); got != "cell 9 1:11 panic: hold.csv: ambient is 90 °C; the column goes from −40 °C to 85 °C: add rows there, or say with Held() that the end values hold" {
		t.Error(got)
	}
	// Where the values come from: SHA-256 of the text, by sha256sum.
	hash := "bf2a1f7ab6cc"
	e := entry(rs, "hold")
	if got, want := e.Origin(), "data sheet figure 3; hold.csv, sha256 "+hash; got != want {
		t.Errorf("hold is from %s, want %s", got, want)
	}
	if e.Form != note.FormInput || !strings.HasPrefix(e.Value.Text, "3 rows: hold current 800 mA … 2.2 A over ambient ") {
		t.Errorf("hold is %+v", e.Value)
	}
	if got := entry(rs, "rest").Origin(); got != "hold.csv, sha256 "+hash {
		t.Errorf("rest is from %q", got)
	}
	if got := entry(rs, "I").Origin(); got != "" {
		t.Errorf("I is from %q itself", got)
	}
	w, err := n.Why(context.Background(), "twice", note.WhyOptions{})
	if err != nil || len(w.Inputs) != 1 || w.Inputs[0].Entry.Origin() != "sub/other.csv, sha256 "+hash {
		t.Errorf("the derivation of twice: %+v, %v", w, err)
	}
	if got := n.Files(); !slices.Equal(got, []string{"hold.csv", "sub/other.csv"}) {
		t.Errorf("the note names %q", got)
	}
	rec := note.NewRecord(rs[1])
	if rec.Files["hold.csv"] != hash || !slices.Equal(rec.Values["hold"].Files, []string{"hold.csv"}) {
		t.Errorf("recorded: %v, %v", rec.Files, rec.Values["hold"].Files)
	}
}

// When a file has changed, the next run computes anew what reads it, and what
// depends on that, and nothing else; a file that comes or goes is a change.
func TestTableThatChanges(t *testing.T) {
	t.Parallel()
	f := files{"a.csv": "x [V], y [A]\n0,0\n1,10\n", "b.csv": "x [V], y [A]\n0,0\n1,20\n"}
	n := withFiles(f,
		"a := Table(\"a.csv\").At(0.5V)",
		"b := Table(\"b.csv\").At(0.5V)",
		"sum := a + b",
		"other := 2 * b",
		"func of(x Quantity) Quantity { return Table(\"a.csv\").At(x) }",
		"called := of(0.1V)",
		"late := Table(\"c.csv\").At(0.5V)",
		"x := 7V",
	)
	ran := func(want ...string) []*note.Result {
		t.Helper()
		var got []string
		rs := n.Run(context.Background())
		for _, r := range rs {
			if r.Ran {
				got = append(got, strings.TrimPrefix(r.Label, "cell "))
			}
		}
		if !slices.Equal(got, want) {
			t.Errorf("the run computes cells %q, want %q", got, want)
		}
		return rs
	}
	rs := ran("1", "2", "3", "4", "5", "6", "7", "8")
	if got := text(rs, "sum") + ", " + text(rs, "called"); got != "15 A, 1 A" {
		t.Errorf("first: %s", got)
	}
	ran()
	f["a.csv"] = "x [V], y [A]\n0,0\n1,12\n"
	rs = ran("1", "3", "5", "6")
	if got := text(rs, "sum") + ", " + text(rs, "called"); got != "16 A, 1.2 A" {
		t.Errorf("with another file: %s", got)
	}
	// The same values in other words: what reads it is computed, and nothing
	// further, for its value is the same; a function may be another.
	f["a.csv"] = "# a comment\nx [V], y [A]\n0,0\n1,12\n"
	rs = ran("1", "5", "6")
	if got := entry(rs, "a").Origin(); got != entry(rs, "called").Origin() && !strings.HasPrefix(got, "a.csv, sha256 ") {
		t.Errorf("a is from %q", got)
	}
	f["c.csv"] = f["b.csv"]
	rs = ran("7")
	if got := text(rs, "late"); got != "10 A" {
		t.Errorf("late is %s", got)
	}
	delete(f, "b.csv")
	rs = ran("2")
	if got := message(rs[1].Errors[0]); got != "cell 2 1:6 panic: there is no file b.csv: file does not exist" {
		t.Error(got)
	}
	if rs[2].State != note.Waiting || rs[3].State != note.Waiting {
		t.Error("what depends on a file that went does not wait")
	}
	f["b.csv"] = f["c.csv"]
	ran("2", "3", "4")
	if got := rs[0].Fixed; got {
		t.Error("a cell that reads a file is said to be fixed")
	}
}

// All cells of a run see a file as it was at its start.
func TestTableIsReadOnce(t *testing.T) {
	t.Parallel()
	opened := 0
	n := note.New(note.Options{World: world, Open: func(name string) ([]byte, error) {
		opened++
		return []byte(fmt.Sprintf("x [V], y [A]\n0,0\n1,%d\n", opened)), nil
	}})
	n.Set(sources("a := Table(\"a.csv\").At(1V)", "b := Table(\"a.csv\").At(1V)\nV := Range(0V, 0.5V, 1V)\nk := 1\nif V > 0.7V { k = 2 }\nc := Table(\"a.csv\").At(V)"))
	rs := n.Run(context.Background())
	if text(rs, "a") != "1 A" || text(rs, "b") != "1 A" || opened != 1 {
		t.Errorf("a is %s, b is %s, opened %d times", text(rs, "a"), text(rs, "b"), opened)
	}
	rs = n.Run(context.Background())
	if text(rs, "a") != "2 A" || opened != 2 {
		t.Errorf("again: a is %s, opened %d times", text(rs, "a"), opened)
	}
}

// A table as the source of a distribution: classes and counts of parts that
// were measured. By hand: 60 parts at 99 … 100 Ω, 40 at 100 … 101 Ω: the mean
// is (60·99.5 + 40·100.5)/100 = 99.9 Ω.
func TestTableAsDistribution(t *testing.T) {
	t.Parallel()
	n := withFiles(files{"measured.csv": "from [Ω], parts [1]\n99, 60\n100, 40\n101,\n"},
		"measured := Table(\"measured.csv\")",
		"var counts []float64\nfor _, n := range measured.Column(\"parts\") {\n\tcounts = append(counts, float64(n))\n}\nR := Histogram(measured.Column(\"from\"), counts) // drawn from the lot",
	)
	rs := n.Run(context.Background())
	if got := text(rs, "R"); got != "99.9 Ω" {
		t.Errorf("R is %s", got)
	}
	if e := entry(rs, "R"); e == nil || e.Spread == nil || e.Spread.Low.String() != "99 Ω" || e.Spread.High.String() != "101 Ω" {
		t.Errorf("R spreads %+v", e)
	}
}

// A structure of a cell or of lib that holds a table beside values with spread
// keeps their cases, also where a decision parts them.
func TestTableInStructure(t *testing.T) {
	t.Parallel()
	n := withFiles(files{"a.csv": "x [V], y [A]\n0,0\n1,10\n"},
		"type part struct {\n\tcurve table.Table\n\tV Quantity\n}\np := part{curve: Table(\"a.csv\"), V: Range(0.2V, 0.5V, 0.9V)}",
		"I := p.curve.At(p.V)\nif p.V > 0.7V {\n\tI = 0A\n}",
		"all := []part{p, {p.curve, 1V}}\nsum := all[0].curve.At(all[0].V) + all[1].curve.At(all[1].V)",
		"same := p.curve.String() == all[1].curve.String()",
	)
	rs := n.Run(context.Background())
	for _, r := range rs {
		for _, e := range r.Errors {
			t.Error(message(e))
		}
	}
	// 2 A at the lower end, nothing at the upper one.
	if e := entry(rs, "I"); e == nil || e.Spread == nil || e.Spread.Low.String() != "0 A" || text(rs, "I") != "5 A" {
		t.Errorf("I is %s, spreads %+v", text(rs, "I"), e.Spread)
	}
	if e := entry(rs, "sum"); e == nil || e.Spread == nil || e.Spread.Low.String() != "12 A" || e.Spread.High.String() != "19 A" {
		t.Errorf("sum is %s", text(rs, "sum"))
	}
	if got := text(rs, "same"); got != "true" {
		t.Errorf("same is %s", got)
	}
}

// The what-if may put another file in the place of one.
func TestTableOfWhatIf(t *testing.T) {
	t.Parallel()
	n := withFiles(files{"a.csv": "x [V], y [A]\n0,0\n1,10\n", "b.csv": "x [V], y [A]\n0,0\n1,20\n"}, "curve := Table(\"a.csv\")", "I := curve.At(0.5V)")
	n.Run(context.Background())
	if err := n.WhatIf(map[string]string{"curve": "Table(\"b.csv\")"}, false); err != nil {
		t.Fatal(err)
	}
	if got := text(n.Run(context.Background()), "I"); got != "10 A" {
		t.Errorf("I is %s", got)
	}
	if err := n.WhatIf(nil, false); err != nil {
		t.Fatal(err)
	}
	if got := text(n.Run(context.Background()), "I"); got != "5 A" {
		t.Errorf("back again, I is %s", got)
	}
}

// People call many a value table: it is the note's own where the note defines
// it, as a function that is built in would be, with a word about it.
func TestNoteMayDefineTable(t *testing.T) {
	t.Parallel()
	n, rs := compute(t, "table := []Quantity{1V, 2V}", "x := table[1] + 3V", "y := 2 * x")
	if got := text(rs, "y"); got != "10 V" {
		t.Errorf("y is %s", got)
	}
	var said []string
	for _, i := range rs[0].Items {
		if k, ok := i.(*note.Notice); ok {
			said = append(said, k.Text)
		}
	}
	if len(said) != 1 || said[0] != "table hides what is built in under this name, in the whole note" {
		t.Errorf("it says %q", said)
	}
	n.Put(note.Source{ID: "c1", Code: "x0 := table.Text(\"a [V], b [A]\\n0, 0\\n1, 1\").At(0.5V)"})
	if got := text(n.Run(context.Background()), "x0"); got != "500 mA" {
		t.Errorf("without it, x0 is %s", got)
	}
}
