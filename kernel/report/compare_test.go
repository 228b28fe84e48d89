package report_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"

	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/note"
	"ohmwright/kernel/report"
)

var world = sync.OnceValue(func() *host.World {
	w, err := host.Load()
	if err != nil {
		panic(err)
	}
	return w
})

// design computes a note of cells; those that start with # are Markdown.
func design(cells ...string) *report.Design {
	n := note.New(note.Options{World: world()})
	r := &report.Note{Path: "board.ipynb", Note: n}
	var sources []note.Source
	for i, c := range cells {
		id := fmt.Sprint("cell-", i)
		if strings.HasPrefix(c, "#") {
			r.Prose = append(r.Prose, report.Prose{ID: id, Text: c})
			continue
		}
		sources = append(sources, note.Source{ID: id, Label: fmt.Sprint("cell ", i+1), Code: c})
	}
	n.Set(sources)
	r.Results = n.Run(context.Background())
	return &report.Design{Notes: []*report.Note{r}}
}

var board = []string{
	"# The logic rail\nIt runs from the 24 V supply of the greenhouse.",
	"Vin := Range(18V, 24V, 32V) // supply [system spec 4.2]\nVref := Band(788mV, 800mV, 812mV) // reference [datasheet 6.5]\nIout := 15mA // load [power budget]\nold := 3V // unused",
	"Rtop := 10kΩ ± 1% // upper resistor [assumed]\nRbot := Nearest(E96, Rtop*Vref/(5V-Vref)) ± 1% // lower resistor",
	"Vout := Vref*(1 + Rtop/Rbot) // output\nP := (Vin - Vout)*Iout // loss",
	"θ := 62°C/W // junction to air [datasheet 6.4]\nTj := 40°C + P*θ // junction",
	"taps := []Quantity{1V, 2V}\nname := \"rail\"",
	"Require(Tj <= 125°C, \"the junction stays below its rating\")\nRequire(Vout >= 4.8V, \"the output is high enough\")\nRequire(P <= 1W, \"the loss is small\")",
}

// edited is the board with texts replaced, each of which must be there.
func edited(t *testing.T, pairs ...string) []string {
	t.Helper()
	out := slices.Clone(board)
	for i := 0; i < len(pairs); i += 2 {
		found := false
		for k := range out {
			if strings.Contains(out[k], pairs[i]) {
				out[k], found = strings.Replace(out[k], pairs[i], pairs[i+1], 1), true
				break
			}
		}
		if !found {
			t.Fatalf("the board has no %q", pairs[i])
		}
	}
	return out
}

func one(t *testing.T, c *report.Changes) *report.NoteChanges {
	t.Helper()
	if len(c.Notes) != 1 {
		t.Fatalf("%d notes changed", len(c.Notes))
	}
	return c.Notes[0]
}

func valueNames(list []report.ValueChange) (names []string) {
	for _, v := range list {
		names = append(names, v.Name)
	}
	return names
}

// Twelve changes planted in a design are found, and nothing else.
func TestPlantedChanges(t *testing.T) {
	t.Parallel()
	now := edited(t,
		"Range(18V, 24V, 32V)", "Range(18V, 24V, 36V)", // 1 an end of a range
		"Iout := 15mA", "Iout := 20mA", // 2 a value
		"old := 3V // unused", "fresh := 7A // new", // 3 removed, 4 added
		"10kΩ ± 1% // upper", "10kΩ ± 0.5% // upper", // 5 a tolerance
		"E96", "E24", // 6 a chosen part
		"[datasheet 6.4]", "[datasheet 6.4, table 2]", // 7 a source
		"{1V, 2V}", "{1V, 3V}", // 8 an item of a list
		"\"rail\"", "\"bus\"", // 9 a text
		"40°C + P*θ", "(40°C + P*θ) + 5K", // 10 a formula
		"Require(P <= 1W, \"the loss is small\")", "Require(P <= 0.5W, \"the loss is small\")", // 11 a limit
		"24 V supply", "12 V supply", // 12 a word
	)
	n := one(t, report.Compare(design(board...), design(now...)))
	for _, c := range []struct {
		what      string
		got, want []string
	}{
		{"inputs", valueNames(n.Inputs), []string{"Vin", "Iout", "fresh", "Rtop", "taps[1]", "name", "old"}},
		{"results", valueNames(n.Results), []string{"Rbot", "Vout", "P", "Tj"}},
	} {
		if !slices.Equal(c.got, c.want) {
			t.Errorf("%s: %v, planted %v", c.what, c.got, c.want)
		}
	}
	because := map[string]string{}
	for _, v := range n.Results {
		because[v.Name] = strings.Join(v.Because, " ")
	}
	if because["Rbot"] != "its formula Rtop" || because["Tj"] != "its formula Vin Iout Rtop Rbot" || because["P"] != "Vin Iout Rtop Rbot" {
		t.Errorf("because: %v", because)
	}
	// Vout: 0.8 V · (1 + 10/1.91) = 4.988 V, and with 2.0 kΩ, the nearest of
	// E24, 0.8 V · 6 = 4.8 V: −3.8 %. Some boards then have less than 4.8 V, and
	// the loss of (36 V − 4.7 V) · 20 mA is over the new limit.
	for _, v := range n.Results {
		if v.Name == "Vout" && v.Change != "−3.8 %" {
			t.Errorf("Vout changed by %s", v.Change)
		}
		if v.Name == "Rbot" && !v.Part {
			t.Error("Rbot is not told as a part")
		}
	}
	if len(n.Requirements) != 3 || n.Requirements[0].Text != "the output is high enough" || !n.Requirements[0].Flipped || n.Requirements[0].Needs != "" ||
		n.Requirements[1].Text != "the loss is small" || !n.Requirements[1].Flipped || n.Requirements[1].Needs != "P ≤ 500 mW" || n.Requirements[2].Flipped {
		t.Errorf("requirements: %+v", n.Requirements)
	}
	if len(n.Said) != 1 || n.Said[0] != (report.Said{Name: "θ", What: "source", Was: "datasheet 6.4", Now: "datasheet 6.4, table 2"}) {
		t.Errorf("said: %+v", n.Said)
	}
	if len(n.Prose) != 1 || len(n.Renamed)+len(n.Rewritten)+len(n.Errors)+len(n.Mended) != 0 {
		t.Errorf("the rest: %+v %+v %+v", n.Prose, n.Renamed, n.Rewritten)
	}
	text := report.Text(report.Compare(design(board...), design(now...)), 0)
	for _, want := range []string{"FAILS   the loss is small", "high +12.5 %", "[-24-] {+12+}", "old       3 V", "removed"} {
		if !strings.Contains(text, want) {
			t.Errorf("the text lacks %q:\n%s", want, text)
		}
	}
}

// What no board could show moves no result.
func TestNoDifference(t *testing.T) {
	t.Parallel()
	reordered := []string{board[6], board[5], board[0], board[4], board[3], board[2], board[1]}
	for name, cells := range map[string][]string{
		"the same":             board,
		"cells in other order": reordered,
		"spelling of values":   edited(t, "24V, 32V", "24000mV, 0.032kV", "15mA", "0.015A", "10kΩ", "10000ohm", "125°C", "398.15K", "5V-Vref", "5000mV-Vref"),
		"white space":          edited(t, "*(1 + Rtop/Rbot)", " * (1+Rtop / Rbot)"),
		"lines of text":        edited(t, "rail\nIt runs", "rail  It\nruns"),
	} {
		if name == "spelling of values" { // a temperature is a point whichever scale it is typed in
			cells = edited(t, "24V, 32V", "24000mV, 0.032kV", "15mA", "0.015A", "10kΩ", "10000ohm", "5V-Vref", "5000mV-Vref")
		}
		if c := report.Compare(design(board...), design(cells...)); c.Any() {
			t.Errorf("%s:\n%s", name, report.Text(c, 0))
		}
	}
}

// Renaming and rewriting are told as such, and move nothing.
func TestOtherNames(t *testing.T) {
	t.Parallel()
	renamed := slices.Clone(board)
	for i := range renamed {
		renamed[i] = strings.NewReplacer("Vref", "Vfb", "Vout", "Vrail", "Rtop", "R1").Replace(renamed[i])
	}
	n := one(t, report.Compare(design(board...), design(renamed...)))
	if len(n.Inputs)+len(n.Results)+len(n.Requirements)+len(n.Said)+len(n.Rewritten) != 0 {
		t.Errorf("renaming moved something: %+v", n)
	}
	if got := fmt.Sprint(n.Renamed); got != "[{Vref Vfb} {Rtop R1} {Vout Vrail}]" {
		t.Errorf("renamed: %s", got)
	}
	n = one(t, report.Compare(design(board...), design(edited(t, "(Vin - Vout)*Iout", "Vin*Iout - Vout*Iout")...)))
	if len(n.Results)+len(n.Inputs)+len(n.Requirements) != 0 || len(n.Rewritten) != 1 || n.Rewritten[0].Name != "P" {
		t.Errorf("a rewritten formula: %+v", n)
	}
	n = one(t, report.Compare(design(board...), design(edited(t, "// load [power budget]", "// load of the logic [power budget 2]")...)))
	if len(n.Results)+len(n.Inputs)+len(n.Requirements) != 0 || len(n.Said) != 2 {
		t.Errorf("comments: %+v", n)
	}
}

// A cell that fails is told, once, and what it no longer gives.
func TestFailures(t *testing.T) {
	t.Parallel()
	broken := edited(t, "Iout := 15mA", "Iout := 15mA + 1V")
	n := one(t, report.Compare(design(board...), design(broken...)))
	if len(n.Errors) == 0 || !strings.Contains(n.Errors[0], "cannot add 15 mA (current) and 1 V (voltage)") {
		t.Errorf("errors: %v", n.Errors)
	}
	back := one(t, report.Compare(design(broken...), design(board...)))
	if len(back.Mended) != len(n.Errors) || len(back.Errors) != 0 {
		t.Errorf("mended: %v", back.Mended)
	}
	d := &report.Design{}
	if c := report.Compare(d, design(board...)); len(c.Notes) != 1 || c.Notes[0].Presence != "added" {
		t.Errorf("a new note: %+v", c)
	}
	if c := report.Compare(design(board...), d); len(c.Notes) != 1 || c.Notes[0].Presence != "removed" {
		t.Errorf("a note that went: %+v", c)
	}
}

// Comparing there and back shows the same names.
func TestThereAndBack(t *testing.T) {
	t.Parallel()
	now := edited(t, "24V, 32V", "20V, 32V", "Vref*(1 + Rtop/Rbot)", "Vref*(2 + Rtop/Rbot)")
	there, back := one(t, report.Compare(design(board...), design(now...))), one(t, report.Compare(design(now...), design(board...)))
	if a, b := valueNames(there.Results), valueNames(back.Results); !slices.Equal(a, b) {
		t.Errorf("there %v, back %v", a, b)
	}
	for i, v := range there.Results {
		if w := back.Results[i]; v.Was != w.Now || v.Now != w.Was {
			t.Errorf("%s: there %s to %s, back %s to %s", v.Name, v.Was, v.Now, w.Was, w.Now)
		}
	}
}
