package note_test

import (
	"context"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/folder"
	"ohmwright/kernel/note"
	"ohmwright/kernel/notebook"
	"ohmwright/units"
)

// demo computes a note of the demo design.
func demo(t *testing.T, path string) (*note.Note, []*note.Result) {
	t.Helper()
	nb, err := notebook.Read(path)
	if err != nil {
		t.Fatal(err)
	}
	var codes []string
	for _, c := range nb.Cells() {
		if c.Type() == "code" {
			codes = append(codes, c.Source())
		}
	}
	beside := folder.Of(filepath.Dir(path))
	made := note.New(note.Options{World: world, Open: beside.Open, Note: beside.Note})
	made.Set(sources(codes...))
	return made, made.Run(context.Background())
}

// untold are the functions of which there are no steps, and why.
var untold = map[string]string{}

// What happens inside the lib functions of the demo design is told, and each
// step is what its formula gives of the numbers that stand in it.
func TestInsideOfTheDemo(t *testing.T) {
	t.Parallel()
	paths, err := filepath.Glob("../../notebooks/*.ipynb")
	if err != nil || len(paths) == 0 {
		t.Fatal(err)
	}
	steps, functions := 0, map[string]bool{}
	for _, path := range paths {
		n, results := demo(t, path)
		for _, r := range results {
			for _, name := range r.Defines {
				w, err := n.Why(context.Background(), name, note.WhyOptions{Depth: 1})
				if err != nil {
					t.Errorf("%s: %s: %v", path, name, err)
					continue
				}
				for _, in := range w.Inside {
					functions[in.Function] = true
					if in.Trouble != "" && untold[in.Function] == "" {
						t.Errorf("%s: %s: %s", path, name, in.Trouble)
					}
					for _, s := range in.Steps {
						steps++
						adds(t, path+": "+name+": "+in.Function+": "+s.Name, s.Formula)
					}
				}
			}
		}
	}
	if steps < 300 || len(functions) < 25 {
		t.Errorf("%d steps in %d functions: too few to say anything", steps, len(functions))
	}
}

// adds holds that the value of every sum, difference, product and quotient of
// a formula is that of its parts.
func adds(t *testing.T, where string, e *cell.Expr) {
	t.Helper()
	for _, a := range e.Args {
		adds(t, where, a)
	}
	if e.Kind != cell.ExprBinary || e.Value == nil || len(e.Text) != 1 || !strings.Contains("+-*/", e.Text) {
		return
	}
	var x [2]units.Quantity
	for i, a := range e.Args {
		q, ok := valueIn(a)
		if !ok {
			return
		}
		x[i] = q
	}
	var got units.Quantity
	switch e.Text {
	case "+":
		got = x[0].Add(x[1])
	case "-":
		got = x[0].Sub(x[1])
	case "*":
		got = x[0].Mul(x[1])
	case "/":
		got = x[0].Div(x[1])
	}
	want, ok := e.Value.Quantity.(units.Quantity)
	if !ok {
		want = units.Number(e.Value.Number)
	}
	if math.Abs(got.SI()-want.SI()) > 1e-12*math.Abs(want.SI()) {
		t.Errorf("%s: %v %s %v is told to be %v", where, x[0], e.Text, x[1], want)
	}
}

func valueIn(e *cell.Expr) (units.Quantity, bool) {
	switch {
	case e.Kind == cell.ExprNumber:
		q, err := units.Parse(e.Text)
		return q, err == nil
	case e.Value == nil:
		return units.Quantity{}, false
	case e.Value.Kind == exec.KindQuantity:
		return e.Value.Quantity.(units.Quantity), true
	case e.Value.Kind == exec.KindNumber:
		return units.Number(e.Value.Number), true
	}
	return units.Quantity{}, false
}

// Why of a field tells what that field needs and nothing else.
func TestInsideTowardsAField(t *testing.T) {
	t.Parallel()
	n, _ := compute(t, "d := divider.Plain(12V, 10kΩ ± 1%, 3.3kΩ)", "Why(d.Output)")
	w, err := n.Why(context.Background(), "d.Output", note.WhyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, s := range w.Inside[0].Steps {
		names = append(names, s.Name)
	}
	// the sum of the resistors, and of it the share of the lower one.
	if got := strings.Join(names, " "); got != "total Ratio Output" {
		t.Errorf("steps towards Output: %s", got)
	}
	if w.Part == nil || w.Part.Quantity.(units.Quantity).String() != "2.977 V" { // 12 · 3.3/13.3
		t.Errorf("the field is %v", w.Part)
	}
}

// A derivation that a cell shows is told anew where what it says has changed,
// also where the value has not.
func TestWhyInACell(t *testing.T) {
	t.Parallel()
	n, results := compute(t, "R := 10kΩ // pull-up [assumed]", "I := 3.3V/R", "Why(I)")
	shown := func() *note.Derivation {
		t.Helper()
		d, ok := results[2].Items[0].(*note.Derivation)
		if !ok {
			t.Fatalf("cell 3 shows %T", results[2].Items[0])
		}
		return d
	}
	if got := shown().Why.Inputs[0].Entry.Source; got != "assumed" {
		t.Errorf("source %q", got)
	}
	ids := results[0].ID
	n.Put(note.Source{ID: ids, Label: "cell 1", Code: "R := 10kΩ // pull-up [datasheet 4.1]"})
	results = n.Run(context.Background())
	if got := shown().Why.Inputs[0].Entry.Source; got != "datasheet 4.1" || !results[2].Ran || results[1].Ran {
		t.Errorf("source %q; cell 3 told anew: %v; cell 2 computed: %v", got, results[2].Ran, results[1].Ran)
	}
	n.Put(note.Source{ID: ids, Label: "cell 1", Code: "R := 10kΩ + 1A"})
	results = n.Run(context.Background())
	if results[2].State != note.Waiting {
		t.Errorf("cell 3 is in state %v", results[2].State)
	}
	n.Put(note.Source{ID: ids, Label: "cell 1", Code: "R := 33kΩ"})
	results = n.Run(context.Background())
	if got := shown().Why.Entry.Value.Quantity.(units.Quantity).String(); got != "100 µA" {
		t.Errorf("after mending: %s", got)
	}
}
