package note_test

import (
	"context"
	"fmt"
	"regexp"
	"runtime"
	"testing"

	"pgregory.net/rapid"

	"ohmwright/kernel/note"
)

// edited is a design of three notes, each of whose cells has several texts:
// imports and blocks come, go, get other names, files and inputs, while others
// use them, and fail and recover.
var edited = []struct {
	file  string
	cells [][]string
}{
	{"", [][]string{
		{"import s \"s.ipynb\"", "import s \"t.ipynb\"", "import u \"s.ipynb\"", ""},
		{"import t \"t.ipynb\"", "import t \"gone.ipynb\"", "import t \"t.ipynb\"\nV := 3V", "import v \"t.ipynb\""},
		{"b := t.Compute(t.Inputs{Vin: s.V})", "b := t.Compute(t.Inputs{})", "c := t.Compute(t.Inputs{Vin: 7V ± 2%})", "b := t.Compute(t.Inputs{Vin: 3A})", "b := s.Compute(s.Inputs{V: 4V})", "b := 3V", ""},
		{"c := t.Compute(t.Inputs{Vin: b.Vout + 1V})", "c := t.Compute(t.Inputs{Vin: 2 * s.V, I: 2mA})", ""},
		{"x := b.Vout + c.Vout", "x := b.R - c.R", "x := t.Vout", "x := s.V", "b, c := 1V, 2V\nx := b + c"},
		{"Require(b.Vout < 20V, \"A-1: low\")\ny := 2 * x", "y := s.f(2)", "w := t.w\ny := w.V", "y := c.inner.V"},
		{"Case(\"high\", s.V, 15V)", "Case(\"high\", c.Vin, 15V)", "Derate(\"power\", 50%)", ""},
	}},
	{"t.ipynb", [][]string{
		{"Vin := 5V ± 5% // its own [spec]\nI := 1mA", "Vin := 5A\nI := 1mA", "Vin, I := 6V, 1mA", "Vin := 4V\nI := 2mA", "import s \"s.ipynb\"\nVin := s.V\nI := 1mA"},
		{"R := Nearest(E24, Vin/I) ± 1%", "R := AtLeast(E12, Nominal(Vin)/I)", "R := "},
		{"Vout := Vin - R*I/2", "Vout := Vin - R*1A"},
		{"type W struct{ V Quantity }\nw := W{V: Vout}", "w := struct{ V Quantity }{Vin}"},
		{"Require(Vout > 2V, \"T-1: enough\")", "Require(Vout > 2V, \"T-1: enough\")\nWaive(\"T-1\", \"tried\")", ""},
		{"import q \"s.ipynb\"\nl := q.V", "import q \"t.ipynb\"", ""},
		{"inner := q.Compute(q.Inputs{V: Vout})", ""},
	}},
	{"s.ipynb", [][]string{
		{"V := 9V ± 10%", "V := Range(8V, 9V, 10V)", "V := 3"},
		{"func f(x float64) Quantity { return x * V }", "f := func(x float64) Quantity { return x * g() }"},
		{"func g() Quantity { return V + 1V }", "func g() Quantity { return 2 * V }", ""},
	}},
}

// written is how the design is at a moment: which text each cell has.
type written [][]int

func blank() written {
	w := make(written, len(edited))
	for i, n := range edited {
		w[i] = make([]int, len(n.cells))
	}
	return w
}

func (w written) of(i int) (list []note.Source) {
	for j, texts := range edited[i].cells {
		list = append(list, note.Source{ID: fmt.Sprint("c", j), Label: fmt.Sprint("cell ", j+1), Code: texts[w[i][j]]})
	}
	return list
}

func (w written) read(file string) ([]note.Source, error) {
	for i, n := range edited {
		if n.file == file {
			return w.of(i), nil
		}
	}
	return nil, fmt.Errorf("there is no note %s", file)
}

func (w written) note() *note.Note {
	return note.New(note.Options{World: world, Note: w.read})
}

// passing is what may be otherwise after edits: where a function is, and which
// names were near to a wrong one when it was found.
var passing = regexp.MustCompile(`0x[0-9a-f]+|: did you mean [^[]*`)

// TestImportsAndBlocksAreEdited edits the notes of a design in any order: after
// each run the note holds what a fresh one does.
func TestImportsAndBlocksAreEdited(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		w := blank()
		n := w.note()
		for range rapid.IntRange(1, 8).Draw(t, "runs") {
			for range rapid.IntRange(1, 3).Draw(t, "edits") {
				i := rapid.IntRange(0, len(w)-1).Draw(t, "note")
				j := rapid.IntRange(0, len(w[i])-1).Draw(t, "cell")
				w[i][j] = rapid.IntRange(0, len(edited[i].cells[j])-1).Draw(t, "text")
			}
			n.Set(w.of(0))
			got := dump(n.Run(context.Background()))
			fresh := w.note()
			fresh.Set(w.of(0))
			if want := dump(fresh.Run(context.Background())); passing.ReplaceAllString(got, "") != passing.ReplaceAllString(want, "") {
				t.Fatalf("edited\n%s\nfresh\n%s\nof %v", got, want, w)
			}
		}
	})
}

// TestEditedImportsLeaveNothing edits a design 1 000 times: the memory in use
// stays where it was.
func TestEditedImportsLeaveNothing(t *testing.T) {
	if testing.Short() {
		t.Skip("compiles some 10 000 cells")
	}
	// Not parallel: other tests' memory would count.
	w := blank()
	n := w.note()
	edit := func(k int) {
		for i := range w {
			for j := range w[i] {
				w[i][j] = 0
				if (k+3*i+5*j)%7 == 0 {
					w[i][j] = k / 7 % len(edited[i].cells[j])
				}
			}
		}
		n.Set(w.of(0))
		n.Run(context.Background())
	}
	inUse := func() float64 {
		edit(0)
		var m runtime.MemStats
		for range 3 {
			runtime.GC()
		}
		runtime.ReadMemStats(&m)
		return float64(m.HeapAlloc)
	}
	const warm, edits = 420, 1000
	for k := range warm {
		edit(k)
	}
	before := inUse()
	for k := range edits {
		edit(k)
	}
	after := inUse()
	runtime.KeepAlive(n)
	t.Logf("%.0f kB in use before, %.0f kB after, %.1f bytes an edit", before/1024, after/1024, (after-before)/edits)
	// A package kept for each edit would be some kB.
	if after-before > 200*edits {
		t.Errorf("an edit leaves %.0f bytes behind", (after-before)/edits)
	}
}
