package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/watch"
)

// rounds are those of a watch that a test goes through one by one.
type rounds struct {
	*watching
	t         *testing.T
	path      string
	out, talk bytes.Buffer
}

func roundsOf(t *testing.T, text []byte) *rounds {
	t.Helper()
	world, err := host.Load()
	if err != nil {
		t.Fatal(err)
	}
	r := &rounds{t: t, path: filepath.Join(t.TempDir(), "board.ipynb")}
	put(t, r.path, text)
	files := watch.Every(time.Hour)
	t.Cleanup(files.Close)
	r.watching = &watching{stdout: &r.out, talk: &r.talk, flags: settings{timeout: time.Minute}, world: world, files: files,
		roots: []root{{path: r.path}}, notes: map[string]*watchedNote{}}
	if r.next(true) {
		t.Fatal("the first round is not the last word")
	}
	return r
}

// next is one round more.
func (r *rounds) next(first bool) (again bool) {
	r.t.Helper()
	r.out.Reset()
	r.talk.Reset()
	again, err := r.round(context.Background(), first)
	if err != nil {
		r.t.Fatal(err)
	}
	return again
}

func (r *rounds) file() string {
	r.t.Helper()
	text, err := os.ReadFile(r.path)
	if err != nil {
		r.t.Fatal(err)
	}
	return string(text)
}

// What a round has stored is no occasion for another.
func TestRoundAfterItsOwnWriting(t *testing.T) {
	t.Parallel()
	r := roundsOf(t, board("24V"))
	stored := r.file()
	if stored == string(board("24V")) {
		t.Fatal("nothing is stored")
	}
	for range 3 {
		if again := r.next(false); again || r.out.Len()+r.talk.Len() > 0 || r.notes[r.path].due {
			t.Fatalf("another round (%v) prints\n%s%s", again, r.out.String(), r.talk.String())
		}
	}
	if r.file() != stored {
		t.Error("the file was written again")
	}
}

// A file that is half written is waited for without a word. It is told of when
// it has stayed so, and then no more.
func TestRoundOfHalfAFile(t *testing.T) {
	t.Parallel()
	r := roundsOf(t, board("24V"))
	text := board("12V")
	for _, size := range []int{0, 1, len(text) / 2, len(text) - 2} {
		put(t, r.path, text[:size])
		if again := r.next(false); !again || r.out.Len()+r.talk.Len() > 0 {
			t.Fatalf("%d bytes: again %v, it prints\n%s%s", size, again, r.out.String(), r.talk.String())
		}
	}
	put(t, r.path, text)
	if again := r.next(false); again || r.out.String() != halvedAt(r.path) || r.talk.Len() > 0 {
		t.Fatalf("the whole file: again %v, it prints\n%s%s", again, r.out.String(), r.talk.String())
	}
	for _, size := range []int{0, len(text) / 2} {
		put(t, r.path, text[:size])
		r.next(false)
		r.notes[r.path].since = time.Now().Add(-patience)
		if again := r.next(false); again || strings.Count(r.talk.String(), r.path) != 1 || r.file() != string(text[:size]) {
			t.Errorf("%d bytes that stay: again %v, it prints\n%s", size, again, r.talk.String())
		}
		if again := r.next(false); again || r.talk.Len() > 0 {
			t.Errorf("%d bytes that stay: told again\n%s", size, r.talk.String())
		}
	}
	put(t, r.path, text)
	if r.next(false); r.out.String() != r.path+": unchanged\n" {
		t.Errorf("mended, it prints\n%s", r.out.String())
	}
}

func halvedAt(path string) string { return strings.Replace(halved, "board.ipynb", path, 1) }

// What somebody saves between the reading of a note and the writing of its
// results stays, and is computed next: also where the file was deleted, to be made anew.
func TestRoundThatIsOvertaken(t *testing.T) {
	t.Parallel()
	for _, between := range []string{"saved", "deleted", "emptied"} {
		r := roundsOf(t, board("24V"))
		put(t, r.path, board("30V"))
		n := r.notes[r.path]
		if r.look(n) || !n.ready() {
			t.Fatal("the note is not due")
		}
		r.compute(context.Background(), n)
		switch between {
		case "saved":
			put(t, r.path, board("12V"))
		case "deleted":
			if err := os.Remove(r.path); err != nil {
				t.Fatal(err)
			}
		case "emptied":
			put(t, r.path, nil)
		}
		if late := r.finish(n); !late || !n.due {
			t.Errorf("%s: late %v, due %v", between, late, n.due)
		}
		if after, err := os.ReadFile(r.path); between == "saved" && !bytes.Equal(after, board("12V")) || between == "deleted" && err == nil || len(after) > 0 && between == "emptied" {
			t.Errorf("%s: it was written: %v\n%s", between, err, after)
		}
		put(t, r.path, board("12V"))
		if again := r.next(false); again || r.out.String() != halvedAt(r.path) {
			t.Errorf("%s: again %v, it prints\n%s", between, again, r.out.String())
		}
	}
}

// A cell that is put in before others keeps them from nothing: they are not
// computed again.
func TestRoundComputesWhatChanged(t *testing.T) {
	t.Parallel()
	note := func(cells ...string) []byte { return notebookOf(cells...) }
	r := roundsOf(t, note("a := 1V", "b := a * 2", "c := 3V"))
	ran := func() (list []string) {
		for _, x := range r.notes[r.path].results {
			if x.Ran {
				list = append(list, x.Label)
			}
		}
		return list
	}
	// The ids that notebookOf gives go by the place: the second cell is put in, the others move down.
	moved := strings.NewReplacer("code-02", "code-09", "code-03", "code-02", "code-04", "code-03").Replace(string(note("a := 1V", "d := 5V", "b := a * 2", "c := 3V")))
	put(t, r.path, []byte(moved))
	r.next(false)
	if got := fmt.Sprint(ran()); got != "[cell 2]" {
		t.Errorf("computed are %s, want the new cell, cell 2", got)
	}
	put(t, r.path, []byte(strings.Replace(moved, "a := 1V", "a := 2V", 1)))
	r.next(false)
	if got := fmt.Sprint(ran()); got != "[cell 1 cell 3]" {
		t.Errorf("computed are %s, want cells 1 and 3", got)
	}
}

// Days of editing leave nothing behind: no memory and no goroutine.
func TestRoundsLeaveNothing(t *testing.T) {
	if testing.Short() {
		t.Skip("computes a note some hundred times")
	}
	// Not parallel: the memory of other tests would count.
	r := roundsOf(t, board("24V"))
	edit := func(i int) {
		v := fmt.Sprintf("%dV", 10+i%9)
		if i%10 == 9 {
			v += " + 1A"
		}
		put(t, r.path, board(v))
		if r.next(false) {
			t.Fatal("a round is not the last word")
		}
	}
	inUse := func() (heap float64, goroutines int) {
		edit(0)
		var m runtime.MemStats
		for range 3 {
			runtime.GC()
		}
		runtime.ReadMemStats(&m)
		return float64(m.HeapAlloc), runtime.NumGoroutine()
	}
	const warm, edits = 50, 300
	for i := range warm {
		edit(i)
	}
	heap, goroutines := inUse()
	for i := range edits {
		edit(i)
	}
	heapAfter, goroutinesAfter := inUse()
	runtime.KeepAlive(r)
	perEdit := (heapAfter - heap) / edits
	t.Logf("%.0f kB in use before, %.0f kB after, %.0f bytes an edit", heap/1024, heapAfter/1024, perEdit)
	// The results of the note are some 20 kB: one that was kept would be seen.
	if perEdit > 1000 {
		t.Errorf("an edit leaves %.0f bytes behind", perEdit)
	}
	if goroutinesAfter > goroutines {
		t.Errorf("%d goroutines, before %d", goroutinesAfter, goroutines)
	}
}

// A change of a note that is imported, also in a folder below, makes the note
// due once: 2 · 12 V, 2 · 15 V.
func TestRoundOfAnImportedNote(t *testing.T) {
	t.Parallel()
	r := roundsOf(t, board("24V"))
	below := filepath.Join(filepath.Dir(r.path), "below", "supply.ipynb")
	if err := os.Mkdir(filepath.Dir(below), 0o777); err != nil {
		t.Fatal(err)
	}
	put(t, below, notebookOf("V := 12V"))
	put(t, r.path, notebookOf("import supply \"below/supply.ipynb\"", "twice := 2 * supply.V"))
	if r.next(false); !strings.Contains(r.file(), "24 V") {
		t.Fatalf("computed: %s%s", r.out.String(), r.talk.String())
	}
	if r.next(false); r.out.Len()+r.talk.Len() > 0 {
		t.Errorf("nothing changed, and a round prints\n%s%s", r.out.String(), r.talk.String())
	}
	if more, err := r.files.Folders([]string{filepath.Dir(below)}); more || err != nil {
		t.Errorf("the folder of the imported note was not watched, %v", err)
	}
	put(t, below, notebookOf("V := 15V"))
	if r.next(false); !strings.Contains(r.file(), "30 V") || r.out.Len() == 0 {
		t.Errorf("after the change: %s%s", r.out.String(), r.talk.String())
	}
	if r.next(false); r.out.Len()+r.talk.Len() > 0 {
		t.Errorf("a round more prints\n%s%s", r.out.String(), r.talk.String())
	}
}
