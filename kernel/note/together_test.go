package note_test

import (
	"context"
	"fmt"
	"sync"
	"testing"

	"ohmwright/kernel/note"
)

// TestPutsAtOnce puts cells from many goroutines, as a front end may do that
// sends all cells of a document: none is lost.
func TestPutsAtOnce(t *testing.T) {
	t.Parallel()
	for range 10 {
		putsAtOnce(t)
	}
}

func putsAtOnce(t *testing.T) {
	const cells = 50
	n := note.New(note.Options{World: world})
	var all sync.WaitGroup
	for i := range cells {
		all.Go(func() {
			n.Put(note.Source{ID: fmt.Sprint("c", i), Label: fmt.Sprint("cell ", i), Code: fmt.Sprintf("x%d := x%d + 1V", i, i-1)})
			if i%5 == 0 {
				n.Run(context.Background())
			}
		})
	}
	n.Put(note.Source{ID: "first", Label: "cell first", Code: "x := 1V"})
	all.Wait()
	n.Put(note.Source{ID: "c0", Label: "cell 0", Code: "x0 := x"})
	rs := n.Run(context.Background())
	if len(rs) != cells+1 {
		t.Fatalf("%d of %d cells are there", len(rs), cells+1)
	}
	if got, want := text(rs, fmt.Sprint("x", cells-1)), "50 V"; got != want {
		t.Errorf("the last cell is %s, want %s", got, want)
	}
}

// TestInterruptedRunsAgain interrupts a run: the one that was stopped is not
// tried again until it is asked for, since it may not end; the cells that had no
// turn compute at the next run without being touched.
func TestInterruptedRunsAgain(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ reason, stopAt string }{
		{"in the first cell", "one\n"}, {"in a dependent", "two\n"}, {"in the last", "three\n"},
	} {
		t.Run(c.reason, func(t *testing.T) {
			t.Parallel()
			ctx, cancel := context.WithCancel(context.Background())
			n := note.New(note.Options{World: world, Printed: func(_, text string) {
				if text == c.stopAt {
					cancel()
				}
			}})
			long := "func wait() { for i := 0; i < 1_000_000; i++ {} }\n"
			n.Set(sources(long+"a := 1V\nfmt.Println(\"one\")\nwait()", "b := a\nfmt.Println(\"two\")\nwait()", "c := b\nfmt.Println(\"three\")\nwait()", "d := 4V"))
			if e := firstError(n.Run(ctx)); e == nil {
				t.Fatal("was not interrupted")
			}
			rs := n.Run(context.Background())
			stopped := 0
			for _, r := range rs {
				if r.State == note.Failed {
					stopped++
					n.Again(r.ID)
				}
			}
			if stopped != 1 || text(rs, "d") != "4 V" {
				t.Errorf("%d cells stopped, d is %s", stopped, text(rs, "d"))
			}
			rs = n.Run(context.Background())
			if e := firstError(rs); e != nil {
				t.Errorf("after the next run: %s: %s", e.Cell, e)
			}
			if got := text(rs, "c"); got != "1 V" {
				t.Errorf("c is %s", got)
			}
		})
	}
}
