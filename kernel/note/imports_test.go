package note_test

import (
	"context"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"testing"

	"ohmwright/kernel/note"
	"ohmwright/units"
)

// design is a folder of notes in memory, by file; cells are parted by a line of dashes.
type design map[string]string

func (d design) note(file string) ([]note.Source, error) {
	text, ok := d[file]
	if !ok {
		return nil, fmt.Errorf("there is no note %s: %w", file, fs.ErrNotExist)
	}
	return cellsOf(text), nil
}

func cellsOf(text string) []note.Source {
	var list []note.Source
	for i, code := range strings.Split(text, "\n---\n") {
		list = append(list, note.Source{ID: fmt.Sprint(i), Label: fmt.Sprintf("cell %d", i+1), Code: code})
	}
	return list
}

func (d design) root(f files, text string) *note.Note {
	n := note.New(note.Options{World: world, Open: f.open, Note: d.note})
	n.Set(cellsOf(text))
	return n
}

func errorsOf(rs []*note.Result) string {
	var list []string
	for _, r := range rs {
		for _, e := range r.Errors {
			list = append(list, fmt.Sprintf("%s:%d:%d: %s", r.Label, e.Line, e.Column, e.Error()))
		}
	}
	return strings.Join(list, "\n")
}

// A 5 V supply of 4.75 … 5.25 V on a 10 Ω load: 0.5 A, from 0.475 A to 0.525 A.
func TestImport(t *testing.T) {
	t.Parallel()
	d := design{
		"10-supply.ipynb": "Vbus := Range(4.75V, 5V, 5.25V) // the bus [system spec 4.2]\n---\n" +
			"const poles = 3\ntype Rail struct{ V, I Quantity }\n---\n" +
			"func doubled(x Quantity) Quantity { return twice(x) + 0*Vbus }\n---\n" +
			"func twice(x Quantity) Quantity { return 2 * x }\n---\n" +
			"main := Rail{V: Vbus, I: 1A}\n---\n" +
			"byName := map[string]Quantity{\"a\": Vbus}\nη := 0.9\n---\n" +
			"Rs := 1Ω ± 10%\nlist := []Quantity{Vbus, Vbus}\nsum := 0V\nfor _, v := range list { sum += v }",
	}
	n := d.root(nil, "import supply \"10-supply.ipynb\"\n---\nVbus := 3V\nI := supply.Vbus/10Ω\n---\n"+
		"P := supply.main.V * supply.main.I\nd := supply.doubled(Vbus)\nr := supply.Rail{V: Vbus, I: I}\nPr := r.V * r.I\n---\n"+
		"k := supply.poles\nn := supply.byName[\"a\"]\nη := supply.η / 2\n---\n"+
		"zero := supply.Rs - supply.Rs + supply.Vbus/1A - supply.Vbus/1A\nsame := supply.sum - 2*supply.Vbus\n---\n"+
		"func f() Quantity {\n\tsupply := struct{ Vbus Quantity }{7V}\n\treturn supply.Vbus\n}\nshadow := f()")
	rs := n.Run(context.Background())
	if e := errorsOf(rs); e != "" {
		t.Fatal(e)
	}
	for name, want := range map[string]string{
		"I": "500 mA", "P": "5 W", "d": "6 V", "Pr": "1.5 W", "k": "3", "n": "5 V", "η": "0.45", "zero": "0 Ω", "same": "0 V", "shadow": "7 V",
	} {
		if got := text(rs, name); got != want {
			t.Errorf("%s is %s, want %s", name, got, want)
		}
	}
	i := entry(rs, "I")
	if i.Spread == nil || i.Spread.Low.String() != "475 mA" || i.Spread.High.String() != "525 mA" || i.Spread.LowCase != "supply.Vbus is 4.75 V" {
		t.Errorf("I spreads %+v", i.Spread)
	}
	if s := entry(rs, "zero").Spread; s != nil && (s.Low.SI() != 0 || s.High.SI() != 0) {
		t.Errorf("a part less itself spreads %+v: the note and its import do not mean the same part", s)
	}
	w, err := n.Why(context.Background(), "I", note.WhyOptions{})
	if err != nil || len(w.Inputs) != 1 || w.Inputs[0].Entry.Name != "supply.Vbus" || w.Inputs[0].Entry.Source != "system spec 4.2" || w.Inputs[0].Cell != "cell 1 of 10-supply.ipynb" {
		t.Errorf("the derivation of I: %+v, %v", w, err)
	}
	if w, err := n.Why(context.Background(), "supply.main.V", note.WhyOptions{}); err != nil || w.Field != "V" || w.Entry.Name != "supply.main" {
		t.Errorf("the derivation of supply.main.V: %+v, %v", w, err)
	}
	if got := n.Imports(); len(got) != 1 || got[0].File != "10-supply.ipynb" || got[0].Prefix != "supply." {
		t.Errorf("the note imports %v", got)
	}
}

// A change of an imported note computes what depends on it, and nothing else.
func TestImportMoves(t *testing.T) {
	t.Parallel()
	d := design{"a.ipynb": "V := 5V\n---\nW := 2V"}
	n := d.root(nil, "import a \"a.ipynb\"\n---\nx := 2 * a.V\n---\ny := 3 * a.W\n---\nz := 1V")
	n.Run(context.Background())
	d["a.ipynb"] = "V := 6V\n---\nW := 2V\n---\nmore := 1V"
	rs := n.Run(context.Background())
	if got := text(rs, "x"); got != "12 V" {
		t.Errorf("x is %s", got)
	}
	for _, r := range rs[2:] {
		if r.Ran {
			t.Errorf("%s ran, and nothing that it uses has changed", r.Label)
		}
	}
	// A what-if reaches into the import, in the words of its note.
	if err := n.WhatIf(map[string]string{"a.V": "W + 8V"}, false); err != nil {
		t.Fatal(err)
	}
	if rs = n.Run(context.Background()); text(rs, "x") != "20 V" {
		t.Errorf("with a.V = W + 8 V, x is %s\n%s", text(rs, "x"), errorsOf(rs))
	}
	if err := n.WhatIf(nil, false); err != nil {
		t.Fatal(err)
	}
	if rs = n.Run(context.Background()); text(rs, "x") != "12 V" {
		t.Errorf("as designed, x is %s", text(rs, "x"))
	}
	touched, err := n.Touches(context.Background(), "a.V")
	if err != nil || len(touched.Values) != 1 || touched.Values[0].Entry.Name != "x" || !touched.Values[0].Effects[0].Known {
		t.Errorf("what a.V touches: %+v, %v", touched, err)
	}
	// The import goes, and so do its names.
	n.Set(cellsOf("z := 1V\n---\nx := 2 * a.V"))
	if e := errorsOf(n.Run(context.Background())); !strings.Contains(e, "a is not defined") {
		t.Errorf("without the import: %s", e)
	}
}

var troubled = design{
	"a.ipynb":          "V := 5V\n---\nbad := V + 1A\n---\nRequire(V > 6V, \"the bus is high enough\")\n---\nWaive(\"PWR-1\", \"until the next board\")\nRequire(V > 7V, \"PWR-1: more still\")",
	"circle.ipynb":     "import other \"sub/other.ipynb\"\nx := 1V",
	"sub/other.ipynb":  "import back \"../circle.ipynb\"\nx := 1V",
	"sub/third.ipynb":  "import deeper \"deeper.ipynb\"\nx := 2 * deeper.x\n---\nhold := Table(\"hold.csv\").Of(\"hold current\")",
	"sub/deeper.ipynb": "x := 21V // at the far end",
	"generic.ipynb":    "type list[T any] struct{ items []T }\n---\ntype named struct{ list[int] }\nx := 1V",
	"outer.ipynb":      "import g \"generic.ipynb\"\n---\ntype X struct{ g.box }\nx := 1V",
	"unread.ipynb":     "x := (1V",
	"root.ipynb":       "import r \"root.ipynb\"\nx := 1V",
}

// imports are what is said of imports.
var imports = []struct{ why, text, want string }{
	{"no such file", "import b \"b.ipynb\"", "cell 1:1:10: there is no note b.ipynb"},
	{"its dependents wait", "import b \"b.ipynb\"\n---\nx := b.V", "cell 2:1:6: cell 2 waits for b of cell 1, which has an error"},
	{"no such name", "import a \"a.ipynb\"\n---\nx := a.Vbus", "cell 2:1:6: a.ipynb does not define Vbus"},
	{"nearly a name", "import a \"a.ipynb\"\n---\nx := a.Bad", "cell 2:1:6: a.ipynb does not define Bad: did you mean a.bad?"},
	{"a name without a value", "import a \"a.ipynb\"\n---\nx := a.bad", "cell 2:1:6: cell 2 waits for a.bad of cell 2 of a.ipynb, which has an error"},
	{"the note as a value", "import a \"a.ipynb\"\n---\nx := a", "cell 2:1:6: a is a note, not a value: write a name in it, a.NAME"},
	{"a change of its names", "import a \"a.ipynb\"\n---\na.V = 3V", "cell 2:1:1: a.V belongs to cell 1 of a.ipynb, and only that cell may change it"},
	{"two notes of one name", "import a \"a.ipynb\"\n---\nimport a \"circle.ipynb\"", "cell 2:1:10: a is defined twice: here, in cell 2, and in cell 1"},
	{"twice in a cell", "import a \"a.ipynb\"\nimport a \"a.ipynb\"", "cell 1:2:10: a is imported twice in this cell: give each note a name of its own"},
	{"a name of the note", "a := 3V\n---\nimport a \"a.ipynb\"", "cell 2:1:10: a is defined twice"},
	{"the name of a package", "import fmt \"a.ipynb\"", "cell 1:1:12: fmt is a package, and a note cannot define it"},
	{"no name to be made", "import \"10.ipynb\"", "cell 1:1:8: the file's name makes no name for its note: write one before it: import supply \"10.ipynb\""},
	{"a dot", "import . \"a.ipynb\"", "cell 1:1:10: import . is not available in cells: give the note a name, import supply \"a.ipynb\", and write supply.Vbus for a name in it"},
	{"a path of the machine", "import a \"/home/a.ipynb\"", "cell 1:1:10: \"/home/a.ipynb\" is no name of a note below the note's own folder: write it as in import supply \"10-supply.ipynb\" or import rail \"blocks/rail.ipynb\""},
	{"notes that import each other", "import c \"circle.ipynb\"", "cell 1:1:10: circle.ipynb imports sub/other.ipynb, which imports circle.ipynb: notes cannot import each other; move what both need into a third"},
	{"a cell that cannot be read", "import u \"unread.ipynb\"\n---\nx := u.x", "cell 2:1:6: unread.ipynb does not define x: cell 1 of unread.ipynb has an error"},
	{"what cannot be called something else", "import g \"generic.ipynb\"\n---\nx := g.x", "cell 2:1:6: cell 2 waits for g.x of cell 2 of generic.ipynb, which has an error"},
	{"a note that imports itself", "import r \"root.ipynb\"", "cell 1:1:10: root.ipynb imports root.ipynb: notes cannot import each other"},
	{"a set note", "import a \"a.ipynb\"\n---\nx := a.V", ""},
	{"an embedded type", "import a \"generic.ipynb\"\n---\ntype X struct{ *a.box }", "cell 2:1:17: a struct cannot embed a type of another note: give the field a name: box a.box"},
	{"an embedded type of its own import", "import o \"outer.ipynb\"\n---\nx := o.x", "waits for o.x of cell 2 of outer.ipynb, which has an error"},
	{"a note in a folder, with one beside it", "import third \"sub/third.ipynb\"\n---\nx := third.x\n---\ny := third.deeper.x", "cell 3:1:6: sub/third.ipynb does not define deeper"},
}

// What is wrong with an import is said where it stands, and in its dependents.
func TestImportTrouble(t *testing.T) {
	t.Parallel()
	for _, c := range imports {
		n := troubled.root(nil, c.text)
		got := errorsOf(n.Run(context.Background()))
		if !strings.Contains(got, c.want) || c.want == "" && got != "" {
			t.Errorf("%s: got %q, want %q", c.why, got, c.want)
		}
	}
	n := troubled.root(files{"sub/hold.csv": holdText}, "import a \"a.ipynb\"\nimport third \"sub/third.ipynb\"\n---\nx := third.x + a.V\nI := third.hold.At(25°C)")
	rs := n.Run(context.Background())
	if text(rs, "x") != "47 V" || text(rs, "I") != "1.5 A" {
		t.Errorf("x is %s, I is %s\n%s", text(rs, "x"), text(rs, "I"), errorsOf(rs))
	}
	var shown []string
	for _, i := range rs[0].Items {
		if m, ok := i.(*note.Imported); ok {
			shown = append(shown, fmt.Sprintf("%s %s failed %q errors %q", m.Name, m.File, m.Failed, m.Errors))
		}
	}
	want := []string{`a a.ipynb failed ["the bus is high enough"] errors ["cell 2"]`, `third sub/third.ipynb failed [] errors []`}
	if !slices.Equal(shown, want) {
		t.Errorf("the import shows\n%s\nwant\n%s", strings.Join(shown, "\n"), strings.Join(want, "\n"))
	}
	w, err := n.Why(context.Background(), "x", note.WhyOptions{})
	if err != nil || len(w.Inputs) != 2 || w.Inputs[0].Entry.Name != "third.x" || w.Inputs[0].Inputs[0].Entry.Name != "third.deeper.x" || w.Inputs[0].Inputs[0].Entry.Description != "at the far end" {
		t.Errorf("the derivation of x: %+v, %v", w, err)
	}
}

// Cases, Trends and Spread go across notes: 2 W at 10 V into 50 Ω, 4.5 W at 15 V.
func TestAcrossNotes(t *testing.T) {
	t.Parallel()
	d := design{"in.ipynb": "V := Range(9V, 10V, 11V)\n---\nR := 50Ω ± 10%"}
	n := d.root(nil, "import in \"in.ipynb\"\n---\nP := in.V * in.V / in.R\n---\nRequire(P < 4W, \"P-1: the resistor stays cool\")\n---\n"+
		"Case(\"surge\", in.V, 15V)\n---\nTrend(P, in.V, 5V, 15V)\n---\nSpread(P)\n---\nlow := Low(in.V)\nMeasured(in.V, 10.1V ± 10mV, \"today, meter\")")
	rs := n.Run(context.Background())
	if e := errorsOf(rs); e != "" {
		t.Fatal(e)
	}
	seen := 0
	for _, r := range rs {
		for _, i := range r.Items {
			switch x := i.(type) {
			case *note.Operating:
				seen++
				// 15² / 50 = 4.5, 15² / 45 = 5.
				if len(x.Judged) != 1 || x.Judged[0].Holds || x.Judged[0].Margin.String() != "−500 mW" || x.Judged[0].Worst.String() != "−1 W" {
					t.Errorf("the case comes to %+v", x.Judged)
				}
			case *note.Plotted:
				seen++
				s := x.Figure.Series[0]
				if first, last := s.Y[0], s.Y[len(s.Y)-1]; units.Nominal(first).String() != "500 mW" || units.Nominal(last).String() != "4.5 W" || len(x.Figure.Marks) != 1 {
					t.Errorf("the curve goes from %s to %s with the limits %v", first, last, x.Figure.Marks)
				}
			case *note.Spreading:
				seen++
				if len(x.Shares) != 2 || x.Shares[0].Name != "in.V" && x.Shares[1].Name != "in.V" {
					t.Errorf("the shares are %+v", x.Shares)
				}
			case *note.Measurement:
				seen++
				if x.Verdict != note.FitInside {
					t.Errorf("the reading is %+v", x)
				}
			}
		}
	}
	if seen != 4 {
		t.Errorf("%d of 4 things were shown", seen)
	}
	if text(rs, "low") != "9 V" {
		t.Errorf("low is %s", text(rs, "low"))
	}
}

// What may follow the name of an import, and what is told of it.
func TestImportIsCompleted(t *testing.T) {
	t.Parallel()
	d := design{"10-supply.ipynb": "Vbus := Range(4.75V, 5V, 5.25V) // the bus [spec 4.2]\nst := struct{ In, Out Quantity }{5V, 3V}\nI := 1A\n---\nbad := Vbus + 1A"}
	n := d.root(nil, "import supply \"10-supply.ipynb\"\n---\nx := supply.Vbus")
	n.Run(context.Background())
	for _, c := range []struct{ why, code, first, has string }{
		{"the import", "y := sup|", "supply", "package supply: 10-supply.ipynb"},
		{"its names, with their values", "y := supply.|", "I Vbus bad st Compute Inputs", "quantity Vbus: 5 V  the bus"},
		{"as far as they are typed", "y := 2*supply.Vb|", "Vbus", ""},
		{"one without a value", "y := supply.b|", "bad", "quantity bad: no value: see cell 2 of 10-supply.ipynb"},
		{"what computes it anew", "y := supply.Com|", "Compute", "function Compute: 10-supply.ipynb with other inputs"},
		{"its inputs", "y := supply.Compute(supply.Inputs{|", "Vbus:", "field Vbus:: 5 V  the bus"},
		{"those that are not given yet", "y := supply.Compute(supply.Inputs{Vbus: 6V, |})", "st: I:", "field I:: 1 A"},
		{"fields of one", "y := supply.st.|", "In Out", "field In: 5 V"},
		{"what has the dimension first", "y := 1V + supply.|", "Vbus", ""},
	} {
		code, at := cursor(t, c.code)
		var texts, described []string
		for _, o := range n.Complete(code, at).Offers {
			texts = append(texts, o.Text)
			described = append(described, fmt.Sprintf("%s %s: %s", o.Kind, o.Text, o.Beside))
		}
		want := strings.Fields(c.first)
		if len(texts) < len(want) || !slices.Equal(texts[:len(want)], want) || c.has != "" && !slices.Contains(described, c.has) {
			t.Errorf("%s: %q offers %q", c.why, c.code, described[:min(len(described), 5)])
		}
	}
	for text, want := range map[string]string{"supply.Vb|us": "supply.Vbus, 5 V, of cell 1 of 10-supply.ipynb", "sup|ply.Vbus": "supply, the note 10-supply.ipynb"} {
		code, at := cursor(t, text)
		i := n.Inspect(code, at, false)
		got := "nothing"
		if i != nil && i.Name != nil {
			got = i.Name.Name + ", " + i.Name.Type
			if i.Name.Entry != nil {
				v, _ := i.Name.Entry.Text()
				got = i.Name.Name + ", " + v + ", of " + i.Name.Cell
			}
		}
		if got != want {
			t.Errorf("inspecting %s tells of %s, want %s", text, got, want)
		}
	}
}
