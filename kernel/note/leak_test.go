package note_test

import (
	"context"
	"fmt"
	"runtime"
	"testing"

	"ohmwright/kernel/note"
)

// TestRecompilesLeaveNothing edits a note 10 000 times, as somebody does who
// works on it for days, which compiles its two cells 20 000 times: the memory
// in use stays where it was.
//
// The cells have a function, a type, a generic one, literals, a result with an
// error and a package, so that each kind of made file and object is among
// them, and a second cell that is checked and built again with them.
func TestRecompilesLeaveNothing(t *testing.T) {
	if testing.Short() {
		t.Skip("compiles 20 000 cells")
	}
	// Not parallel: other tests' memory would count.
	n := note.New(note.Options{World: world})
	edit := func(i int) {
		n.Put(note.Source{ID: "a", Label: "cell 1", Code: fmt.Sprintf(
			"type point%d struct { x, y Quantity }\nfunc (p point%d) sum() Quantity { return p.x + p.y }\n"+
				"func pick[T any](xs []T, i int) T { return xs[i] }\nU := point%d{%dV, 2V}.sum()\nm := %d.5\nn, err := strconv.Atoi(\"%d\")", i%2, i%2, i%2, i%7, i%5, i%3)})
		n.Put(note.Source{ID: "b", Label: "cell 2", Code: "P := U * 2mA * m\nh := pick([]Quantity{U, P}, 1)\nR := Nearest(E24, (U+1V)/1mA)\nT := thermal.Rise(1W, 10K/W) + 1K"})
		if i%10 == 9 { // a mistake, mended with the next edit
			n.Put(note.Source{ID: "b", Label: "cell 2", Code: [...]string{"P := U + 1A", "P := (", "P := nothing"}[i/10%3]})
		}
		rs := n.Run(context.Background())
		if e := firstError(rs); e != nil && i%10 != 9 {
			t.Fatalf("edit %d: %s: %s", i, e.Cell, e)
		}
	}
	inUse := func() float64 {
		edit(0) // always the same cells: others need more or less
		var m runtime.MemStats
		for range 3 {
			runtime.GC()
		}
		runtime.ReadMemStats(&m)
		return float64(m.HeapAlloc)
	}
	const warm, edits = 500, 10_000
	for i := range warm {
		edit(i)
	}
	before := inUse()
	for i := range edits {
		edit(i)
	}
	after := inUse()
	runtime.KeepAlive(n)
	perEdit := (after - before) / edits
	t.Logf("%.0f kB in use before, %.0f kB after, %.1f bytes an edit", before/1024, after/1024, perEdit)
	// One pointer kept for each edit would be 8 bytes.
	if perEdit > 8 {
		t.Errorf("an edit leaves %.0f bytes behind", perEdit)
	}
}
