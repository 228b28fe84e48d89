package note_test

import (
	"context"
	"encoding/json"
	"fmt"
	"runtime"
	"sort"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/note"
	"ohmwright/units"
)

// spreadLines are lines of a random note of up to ten sources, each line using
// names of lines before it: parts, ranges, what follows from them, decisions,
// choices and requirements.
func spreadLines(t *rapid.T) []string {
	lines := []string{"Boards(200)"} // enough to see a difference, and quick
	var names []string
	n := rapid.IntRange(1, 10).Draw(t, "sources")
	for i := range n {
		name := fmt.Sprint("s", i)
		v := rapid.IntRange(10, 99).Draw(t, "value")
		form := rapid.SampledFrom([]string{
			"%s := %d.0 ± 1%%", "%s := %d.0 ± 0.3 ± Drift(0.1)", "%s := Range(9, %d, 110)", "%s := Band(8.5, %d, 111)", "%s := %d.0 ± Normal(2%%, 3)",
		}).Draw(t, "form")
		lines, names = append(lines, fmt.Sprintf(form, name, v)), append(names, name)
	}
	use := func() string { return rapid.SampledFrom(names).Draw(t, "uses") }
	for i := range rapid.IntRange(2, 6).Draw(t, "lines") {
		name := fmt.Sprint("x", i)
		a, b, c := use(), use(), use()
		lines = append(lines, name+" := "+rapid.SampledFrom([]string{
			a + " + " + b + "*" + c,
			a + "/(" + b + " + " + c + ")",
			a + " - " + b,
			"Sqrt(Abs(" + a + ")) * " + b,
			"Abs(" + a + " - " + b + ") + " + c,
			"Min(" + a + ", " + b + ") * Max(" + b + ", " + c + ")",
			a + " + High(" + b + ")",
			"Nearest(E24, Abs(" + a + ")+1) ± 1%",
			"Another(" + names[0] + ") * " + a,
			"larger(" + a + ", " + b + ")",
		}).Draw(t, "form"))
		names = append(names, name)
	}
	lines = append(lines, fmt.Sprintf("Require(%s > Low(%s) - 1e-3, \"above\")", use(), use()),
		fmt.Sprintf("Require(%s <= %s, \"in order\")", use(), use()))
	return append(lines, "func larger(a, b Quantity) Quantity {\n\tif a < b {\n\t\treturn b\n\t}\n\treturn a\n}")
}

// figures lists all that the results say of values and requirements, whichever
// cell they stand in.
func figures(rs []*note.Result) string {
	var out []string
	for _, r := range rs {
		rec := note.NewRecord(r)
		for name, v := range rec.Values {
			v.Cell = ""
			b, _ := json.Marshal(v)
			out = append(out, name+" "+string(b))
		}
		for _, q := range rec.Requirements {
			b, _ := json.Marshal(q)
			out = append(out, string(b))
		}
		for _, e := range r.Errors {
			out = append(out, "error "+e.Error())
		}
	}
	sort.Strings(out)
	return strings.Join(out, "\n")
}

// split puts lines into cells.
func split(t *rapid.T, lines []string) []string {
	var cells []string
	for i, l := range lines {
		if i == 0 || rapid.Bool().Draw(t, "new cell") {
			cells = append(cells, l)
		} else {
			cells[len(cells)-1] += "\n" + l
		}
	}
	return cells
}

// differ shows the first lines in which two texts differ.
func differ(a, b string) string {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range min(len(x), len(y)) {
		if x[i] != y[i] {
			return x[i] + "\n" + y[i]
		}
	}
	return a + "\n\n" + b
}

// TestSpreadInAnyOrder holds that no digit of a limit, a deviation, a worst case
// or a yield depends on the order of cells, on that of definitions in a cell,
// or on how lines are divided into cells.
func TestSpreadInAnyOrder(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		lines := spreadLines(t)
		n := note.New(note.Options{World: world})
		n.Set(sources(split(t, lines)...))
		want := figures(n.Run(context.Background()))
		mixed := split(t, rapid.Permutation(lines).Draw(t, "order"))
		m := note.New(note.Options{World: world})
		m.Set(sources(mixed...))
		got := figures(m.Run(context.Background()))
		if strings.Contains(got+want, "the cells need each other") {
			return // as they are divided
		}
		if strings.Contains(got+want, "cannot be taken in the cell in which the cases of its value part") {
			return // that is refused as they are divided, and says so
		}
		if strings.Contains(want, "error ") != strings.Contains(got, "error ") || !strings.Contains(want, "error ") && got != want {
			t.Fatalf("%s\n\nin another order:\n%s\n\n%s", strings.Join(lines, "\n"), strings.Join(mixed, "\n---\n"), differ(want, got))
		}
	})
}

// TestSpreadComesBack edits an input and edits it back, takes a cell out and
// puts it in again: all that is recorded is what it was, and what a fresh run
// from top to bottom gives.
func TestSpreadComesBack(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		lines := spreadLines(t)
		cells := sources(lines...)
		fresh := note.New(note.Options{World: world})
		fresh.Set(cells)
		want := record(t, fresh.Run(context.Background()))

		n := note.New(note.Options{World: world})
		for _, i := range rapid.Permutation(index(len(cells))).Draw(t, "run in the order") {
			n.Put(cells[i])
			if rapid.Bool().Draw(t, "run") {
				n.Run(context.Background())
			}
		}
		n.Set(cells)
		n.Run(context.Background())
		for range rapid.IntRange(1, 4).Draw(t, "edits") {
			i := rapid.IntRange(0, len(cells)-1).Draw(t, "cell")
			edited := cells[i]
			switch rapid.IntRange(0, 2).Draw(t, "edit") {
			case 0:
				edited.Code = strings.Replace(edited.Code, ":= ", ":= 1 * ", 1)
				n.Put(edited)
			case 1:
				n.Remove(edited.ID)
			case 2:
				edited.Code = "other := 3.0 ± 1%\n" + edited.Code
				n.Put(edited)
			}
			n.Run(context.Background())
		}
		n.Set(cells)
		got := record(t, n.Run(context.Background()))
		if got != want {
			t.Fatalf("%s\n%s", strings.Join(lines, "\n---\n"), differ(want, got))
		}
	})
}

func index(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// record is what the note stores, a line for each cell.
func record(t *rapid.T, rs []*note.Result) string {
	var out []string
	for _, r := range rs {
		b, err := json.Marshal(note.NewRecord(r))
		if err != nil {
			t.Fatal(err)
		}
		line := string(b)
		for _, e := range r.Errors {
			line += " error " + e.Error()
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}

// TestRecomputesLeaveNothing changes inputs of a note with spread a thousand
// times, and renames a part each time: the memory in use stays where it was.
func TestRecomputesLeaveNothing(t *testing.T) {
	if testing.Short() {
		t.Skip("computes a note 1,300 times")
	}
	// Not parallel: other tests' memory would count.
	n := note.New(note.Options{World: world})
	edit := func(i int) {
		n.Set(sources(
			"Boards(200)", fmt.Sprintf("Vin := Range(9V, %d.5V, 15V)", 10+i%3),
			fmt.Sprintf("Vref := Band(788mV, 800mV, 812mV)\nRtop := %dkΩ ± 1%%", 9+i%4),
			fmt.Sprintf("R%d := 1kΩ ± 1%%\nload := R%d + Rtop", i, i),
			"Rbot := Nearest(E96, Rtop*Vref/(5V-Vref)) ± 1%\nVout := Vref * (1 + Rtop/Rbot)",
			"I := 2A * Sqrt(Vout/Vin*(1-Vout/Vin))\nRequire(I <= 1.1A, \"the capacitor stays cool\")\nRequire(Vout <= 5.3V, \"the output stays below the rating\")",
			"P := Vout * Vout / load\nx := 1.0\nif Vin > 12V {\n\tx = 2.0\n}"))
		if e := firstError(n.Run(context.Background())); e != nil {
			t.Fatalf("edit %d: %s: %s", i, e.Cell, e)
		}
	}
	inUse := func(i int) float64 {
		edit(12 * i) // always the same inputs
		var m runtime.MemStats
		for range 3 {
			runtime.GC()
		}
		runtime.ReadMemStats(&m)
		return float64(m.HeapAlloc) / (1 << 20)
	}
	for i := range 300 {
		edit(i)
	}
	before := inUse(100)
	for i := range 1000 {
		edit(1300 + i)
	}
	after := inUse(1000)
	runtime.KeepAlive(n)
	t.Logf("%.1f MB in use before, %.1f MB after", before, after)
	if after-before > 1 {
		t.Errorf("a thousand recomputes leave %.1f MB behind", after-before)
	}
}

// TestFormulasKeepNoCases: the parts of a formula hold no cases of their own,
// which would keep far more memory than the values of the note.
func TestFormulasKeepNoCases(t *testing.T) {
	t.Parallel()
	_, rs := compute(t, "R := 1kΩ ± 1%\nU := Range(4V, 5V, 6V)", "I := (U*2 - 1V) / (R + 10Ω)\nH := High(U) * 2\nI + 1mA\nRequire(I*2 < 1A, \"small\")")
	if e := firstError(rs); e != nil {
		t.Fatal(e)
	}
	checked := 0
	for _, r := range rs {
		for _, i := range r.Items {
			switch x := i.(type) {
			case *note.Entry:
				checked += casesKept(t, x.Formula, false)
			case *note.Shown:
				checked += casesKept(t, x.Formula, false)
			case *note.Requirement:
				checked += casesKept(t, x.Condition, false)
			}
		}
	}
	if checked < 20 {
		t.Errorf("only %d parts were seen", checked)
	}
}

// casesKept counts the parts of a formula, none of which may have spread but
// what High and Low are asked of: that is a value of the note anyway.
func casesKept(t *testing.T, e *cell.Expr, limits bool) int {
	if e == nil {
		return 0
	}
	n := 1
	if e.Value != nil {
		if q, ok := e.Value.Quantity.(units.Quantity); ok && q.HasSpread() != limits {
			t.Errorf("%s %s has spread: %v", e.Text, q, q.HasSpread())
		}
	}
	for _, a := range e.Args {
		n += casesKept(t, a, e.Kind == cell.ExprCall && e.Text == "High")
	}
	return n
}

// TestTiesDoNotDependOnTheOrder: where two cases give the same extreme, the one
// that is named does not depend on which part was stated first.
func TestTiesDoNotDependOnTheOrder(t *testing.T) {
	t.Parallel()
	const a, b, x = "A := 1kΩ ± 1%", "B := 1kΩ ± 1%", "x := Abs(A - B)\nRequire(x <= 15Ω, \"alike\")"
	_, one := compute(t, a, b, x)
	_, other := compute(t, b, a, x)
	if s, o := spreadOf(t, one, "x"), spreadOf(t, other, "x"); s.HighCase != o.HighCase || s.LowCase != o.LowCase {
		t.Errorf("high where %s and where %s, low where %s and where %s", s.HighCase, o.HighCase, s.LowCase, o.LowCase)
	}
	if q, o := requirement(one, "alike"), requirement(other, "alike"); q.WorstCase != o.WorstCase || q.Yield.Passed != o.Yield.Passed {
		t.Errorf("worst where %s, and where %s; %+v, %+v", q.WorstCase, o.WorstCase, q.Yield, o.Yield)
	}
}
