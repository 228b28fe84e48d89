package main

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// board is a note: half of Vin over 2 kΩ is I, and I may not be above 7 mA.
func board(vin string) []byte {
	return notebookOf("Vin := "+vin+"   // supply", "I := Vin / 2 / R\nRequire(I <= 7mA, \"the supply is not overloaded\")", "R := 2kΩ")
}

// The lines for a step from 24 V to 12 V. By hand: 24 V/2/2 kΩ = 6 mA, 12 V/2/2 kΩ
// = 3 mA; to 7 mA are 1 mA and 4 mA.
const halved = `
board.ipynb

requirements
  holds   the supply is not overloaded
           was   holds, margin 1 mA
           now   holds, margin 4 mA

inputs
  Vin   24 V   12 V   −50.0 %

results, what is needed first above
  I   6 mA   3 mA   −50.0 %   because of Vin
`

// live is a run --watch.
type live struct {
	t      *testing.T
	folder string
	out    heard
	talk   heard
	end    context.CancelFunc
	done   chan error
}

// heard is what the program has printed.
type heard struct {
	mu   sync.Mutex
	text strings.Builder
	read int // up to here a test has asked for
	more chan struct{}
}

func (h *heard) Write(b []byte) (int, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.text.Write(b)
	select {
	case h.more <- struct{}{}:
	default:
	}
	return len(b), nil
}

func (h *heard) all() string {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.text.String()
}

// until waits for a text behind the one that was asked for last.
func (h *heard) until(t *testing.T, want string) {
	t.Helper()
	deadline := time.After(30 * time.Second)
	for {
		h.mu.Lock()
		at := strings.Index(h.text.String()[h.read:], want)
		if at >= 0 {
			h.read += at + len(want)
		}
		h.mu.Unlock()
		if at >= 0 {
			return
		}
		select {
		case <-h.more:
		case <-deadline:
			t.Fatalf("no %q in\n%s", want, h.all())
		}
	}
}

// folderOf makes a folder of files.
func folderOf(t *testing.T, files map[string][]byte) string {
	t.Helper()
	folder := t.TempDir()
	for name, text := range files {
		put(t, filepath.Join(folder, name), text)
	}
	return folder
}

func put(t *testing.T, path string, text []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, text, 0o666); err != nil {
		t.Fatal(err)
	}
}

// started starts run --watch and waits until it watches. Paths in what it
// prints are without the folder.
func started(t *testing.T, folder string, s settings, out string, poll time.Duration, args ...string) *live {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	l := &live{t: t, folder: folder, end: cancel, done: make(chan error, 1)}
	l.out.more, l.talk.more = make(chan struct{}, 1), make(chan struct{}, 1)
	for i := range args {
		args[i] = filepath.Join(folder, args[i])
	}
	go func() {
		l.done <- watchNotes(ctx, without{&l.out, folder}, without{&l.talk, folder}, args, s, out, poll)
	}()
	t.Cleanup(func() {
		cancel()
		select {
		case <-l.done:
		case <-time.After(30 * time.Second):
			t.Error("it does not end")
		}
	})
	l.talk.until(t, "; Ctrl-C ends it\n")
	return l
}

// without leaves a folder out of what is printed.
type without struct {
	to     *heard
	folder string
}

func (w without) Write(b []byte) (int, error) {
	_, err := w.to.Write(bytes.ReplaceAll(b, []byte(w.folder+string(filepath.Separator)), nil))
	return len(b), err
}

// stop ends the watch and gives how it ended.
func (l *live) stop() error {
	l.t.Helper()
	l.end()
	err := <-l.done
	l.done <- err // for the cleanup
	return err
}

func (l *live) save(name string, text []byte) {
	l.t.Helper()
	put(l.t, filepath.Join(l.folder, name), text)
}

// fresh wants a note to be what a run from nothing makes of a source.
func (l *live) fresh(name string, source []byte) {
	l.t.Helper()
	path := filepath.Join(l.t.TempDir(), filepath.Base(name))
	put(l.t, path, source)
	// Its status says what it found, which is not asked here.
	if err := run(context.Background(), &bytes.Buffer{}, &bytes.Buffer{}, []string{path}, settings{timeout: time.Minute}, ""); err != nil && !errors.As(err, &failures{}) {
		l.t.Fatal(err)
	}
	want, err := os.ReadFile(path)
	if err != nil {
		l.t.Fatal(err)
	}
	got, err := os.ReadFile(filepath.Join(l.folder, name))
	if err != nil || !bytes.Equal(got, want) {
		l.t.Errorf("%s is not what a run makes of it (%v):\n%s", name, err, got)
	}
}

// In whatever way an editor saves, the note is computed again, once, and what
// it came to is stored: nothing else is printed, so what the program wrote
// itself has not set it off.
func TestWatchWaysOfSaving(t *testing.T) {
	t.Parallel()
	check := func(t *testing.T, err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, way := range []struct {
		name string
		save func(t *testing.T, path string, text []byte)
	}{
		{"over the file", put},
		{"a new file renamed over it", func(t *testing.T, path string, text []byte) {
			put(t, path+".new", text)
			check(t, os.Rename(path+".new", path))
		}},
		{"the old file kept under another name", func(t *testing.T, path string, text []byte) {
			check(t, os.Rename(path, path+"~"))
			put(t, path, text)
		}},
		{"deleted and made anew", func(t *testing.T, path string, text []byte) {
			check(t, os.Remove(path))
			put(t, path, text)
		}},
		{"emptied and written in pieces", func(t *testing.T, path string, text []byte) {
			f, err := os.Create(path)
			check(t, err)
			for piece := range 5 {
				_, err := f.Write(text[len(text)*piece/5 : len(text)*(piece+1)/5])
				check(t, err)
				check(t, f.Sync())
				time.Sleep(40 * time.Millisecond) // an editor on a slow disk
			}
			check(t, f.Close())
		}},
	} {
		t.Run(way.name, func(t *testing.T) {
			t.Parallel()
			l := started(t, folderOf(t, map[string][]byte{"board.ipynb": board("24V")}), settings{timeout: time.Minute}, "", 0, "board.ipynb")
			l.out.until(t, "the supply is not overloaded")
			path := filepath.Join(l.folder, "board.ipynb")
			way.save(t, path, board("12V"))
			l.out.until(t, halved)
			l.fresh("board.ipynb", board("12V"))
			way.save(t, path, board("24V"))
			l.out.until(t, "I   3 mA   6 mA   +100.0 %   because of Vin\n")
			l.fresh("board.ipynb", board("24V"))
			if err := l.stop(); err != nil {
				t.Errorf("it ends with %v", err)
			}
			if n := strings.Count(l.out.all(), "board.ipynb"); n != 3 {
				t.Errorf("%d rounds are shown, want 3:\n%s", n, l.out.all())
			}
			if got := l.talk.all(); got != "watching 1 note; Ctrl-C ends it\n" {
				t.Errorf("standard error has\n%s", got)
			}
		})
	}
}

// A change that moves nothing is answered in one line, and a requirement that
// is missed by the exit status.
func TestWatchUnchangedAndMissed(t *testing.T) {
	t.Parallel()
	l := started(t, folderOf(t, map[string][]byte{"board.ipynb": board("24V")}), settings{timeout: time.Minute}, "", 0, "board.ipynb")
	l.save("board.ipynb", board("24.0V"))
	l.out.until(t, "\nboard.ipynb: unchanged\n")
	l.save("board.ipynb", board("40V"))
	l.out.until(t, "  FAILS   the supply is not overloaded\n           was   holds, margin 1 mA\n           now   fails, margin −3 mA\n") // 40 V/2/2 kΩ = 10 mA
	l.save("board.ipynb", board("40.0V"))
	l.out.until(t, "\nboard.ipynb: unchanged, fails as before\n")
	if err := l.stop(); !errors.Is(err, failures{}) {
		t.Errorf("it ends with %v, want a failure", err)
	}
}

// Two notes that are saved in one burst are both computed; a note that was not saved is not shown.
func TestWatchTwoNotesInOneBurst(t *testing.T) {
	t.Parallel()
	l := started(t, folderOf(t, map[string][]byte{"a.ipynb": board("24V"), "b.ipynb": board("24V"), "deeper/c.ipynb": board("24V")}), settings{timeout: time.Minute}, "", 0, ".")
	l.out.until(t, "c.ipynb")
	before := len(l.out.all())
	l.save("deeper/c.ipynb", board("12V"))
	l.save("a.ipynb", board("12V"))
	l.out.until(t, strings.Replace(halved, "board", "a", 1))
	l.out.read = before // on a busy machine the burst may be two, and c the first
	l.out.until(t, strings.Replace(halved, "board", filepath.Join("deeper", "c"), 1))
	l.save("b.ipynb", board("24.0V"))
	l.out.until(t, "b.ipynb: unchanged\n")
	if n := strings.Count(l.out.all()[before:], "ipynb"); n != 3 {
		t.Errorf("%d notes are shown, want 3:\n%s", n, l.out.all()[before:])
	}
}

// A table that a note reads is watched, wherever below the note it stands, and
// also before it is there.
func TestWatchTable(t *testing.T) {
	t.Parallel()
	reader := notebookOf("hold := Table(\"curves/hold.csv\")   // fuse", "I := hold.At(50°C)")
	const table = "ambient [°C], hold current [A]\n0, 2\n100, 1\n"
	l := started(t, folderOf(t, map[string][]byte{"fuse.ipynb": reader, "other.ipynb": board("24V")}), settings{timeout: time.Minute}, "", 0, ".")
	l.talk.until(t, "") // what was told before it watched
	if got := l.talk.all(); !strings.Contains(got, "there is no file curves/hold.csv") || !strings.Contains(got, "watching 2 notes and 1 table; Ctrl-C") {
		t.Errorf("standard error has\n%s", got)
	}
	l.save("curves/hold.csv", []byte(table))
	// Half way from 2 A to 1 A.
	l.out.until(t, "  I   –   1.5 A   added\n")
	l.save("curves/hold.csv", []byte(strings.Replace(table, "100, 1", "100, 1.5", 1)))
	l.out.until(t, "  I   1.5 A   1.75 A   +16.7 %   because of hold\n")
	before := len(l.talk.all())
	if err := os.Remove(filepath.Join(l.folder, "curves", "hold.csv")); err != nil {
		t.Fatal(err)
	}
	l.out.until(t, "cells that fail now\n  cell 1, cell 2\n")
	l.talk.until(t, "there is no file curves/hold.csv")
	if got := l.talk.all()[before:]; strings.Contains(got, "other") {
		t.Errorf("standard error has\n%s", got)
	}
	// What it had before is what it is held against.
	l.save("curves/hold.csv", []byte(strings.Replace(table, "100, 1", "100, 1.6", 1)))
	l.out.until(t, "  I   1.75 A   1.8 A   +2.9 %")
	l.out.until(t, "cells that failed before\n  cell 1, cell 2\n")
	if err := l.stop(); err != nil {
		t.Errorf("it ends with %v", err)
	}
	if n := strings.Count(l.out.all(), "other.ipynb"); n != 1 {
		t.Errorf("the note without a table is shown %d times", n)
	}
}

// A table in a folder of its own is watched from the first round on, also where
// that round stores nothing.
func TestWatchTableUnderSet(t *testing.T) {
	t.Parallel()
	l := started(t, folderOf(t, map[string][]byte{
		"fuse.ipynb":      notebookOf("T := 0°C", "I := Table(\"curves/hold.csv\").At(T)"),
		"curves/hold.csv": []byte("ambient [°C], hold current [A]\n0, 2\n100, 1\n"),
	}), settings{timeout: time.Minute, set: []string{"T=50°C"}}, "", 0, "fuse.ipynb")
	l.out.until(t, "I      1.5 A")
	l.save("curves/hold.csv", []byte("ambient [°C], hold current [A]\n0, 2\n100, 1.5\n"))
	l.out.until(t, "  I   1.5 A   1.75 A   +16.7 %")
}

// A file that is no note is told of once, however often it is looked at, and
// the note goes on from where it was once it is mended.
func TestWatchBrokenThenMended(t *testing.T) {
	t.Parallel()
	l := started(t, folderOf(t, map[string][]byte{"board.ipynb": board("24V"), "b.ipynb": board("24V")}), settings{timeout: time.Minute}, "", 0, "board.ipynb", "b.ipynb")
	l.save("board.ipynb", board("12V")[:100])
	l.talk.until(t, "board.ipynb:")
	l.save("b.ipynb", board("12V")) // another note goes on, and the broken one is looked at again
	l.out.until(t, "b.ipynb\n")
	l.out.until(t, "I   6 mA   3 mA")
	if after, err := os.ReadFile(filepath.Join(l.folder, "board.ipynb")); err != nil || !bytes.Equal(after, board("12V")[:100]) {
		t.Errorf("the broken note was written: %v\n%s", err, after)
	}
	l.save("board.ipynb", board("12V"))
	l.out.until(t, halved)
	if n := strings.Count(l.talk.all(), "ohmwright: board.ipynb:"); n != 1 {
		t.Errorf("it is told %d times:\n%s", n, l.talk.all())
	}
	// An error in a cell is told with its place, and once.
	l.save("board.ipynb", board("12V + 1A"))
	l.talk.until(t, "board.ipynb: cell 1, line 1, column 12: cannot add 12 V (voltage) and 1 A (current)\n")
	l.out.until(t, "\nboard.ipynb\n\ncells that fail now\n  cell 1, cell 2\n")
	l.save("board.ipynb", bytes.Replace(board("12V + 1A"), []byte("R := 2kΩ"), []byte("R := 2.0kΩ"), 1))
	l.out.until(t, "board.ipynb: unchanged, fails as before\n")
	l.save("board.ipynb", board("6V"))
	l.out.until(t, "  I   3 mA   1.5 mA   −50.0 %   because of Vin\n")
	l.out.until(t, "cells that failed before\n  cell 1, cell 2\n")
	if n := strings.Count(l.talk.all(), "cannot add"); n != 1 {
		t.Errorf("it is told %d times:\n%s", n, l.talk.all())
	}
}

// A cell without an end does not keep the note from being computed once it is
// mended, and what was broken off for that is made up for.
func TestWatchEndlessCellMended(t *testing.T) {
	t.Parallel()
	cells := func(loop string) []byte {
		return notebookOf("Vin := 24V", "n := 0\nfor "+loop+" { n++ }", "I := Vin / 2kΩ\n_ = n")
	}
	l := started(t, folderOf(t, map[string][]byte{"board.ipynb": cells("n < 3")}), settings{}, "", 0, "board.ipynb")
	l.out.until(t, "n      3")
	l.save("board.ipynb", cells(""))
	// Its own round takes for ever: nothing says when it has begun. A save that
	// comes before shows the same.
	time.Sleep(300 * time.Millisecond)
	l.save("board.ipynb", cells("n < 4"))
	l.out.until(t, "n   3   4   +33.3 %")
	l.fresh("board.ipynb", cells("n < 4"))
	if err := l.stop(); err != nil {
		t.Errorf("it ends with %v", err)
	}
}

// What a cell prints is shown when it is another text, also of a cell that
// fails behind it.
func TestWatchPrinted(t *testing.T) {
	t.Parallel()
	cells := func(v, rest string) []byte {
		return notebookOf("Vin := "+v+"\nfmt.Println(\"half is\", Vin/2)"+rest, "R := 2kΩ")
	}
	l := started(t, folderOf(t, map[string][]byte{"board.ipynb": cells("24V", "")}), settings{timeout: time.Minute}, "", 0, "board.ipynb")
	l.out.until(t, "\ncell 1 printed\n    half is 12 V\n")
	l.save("board.ipynb", cells("12V", ""))
	l.out.until(t, "Vin   24 V   12 V   −50.0 %\n\ncell 1 printed\n    half is 6 V\n")
	l.save("board.ipynb", cells("10V", "\n_ = []int{1}[len(fmt.Sprint(Vin))]"))
	l.out.until(t, "cells that fail now\n  cell 1\n\ncell 1 printed\n    half is 5 V\n")
	l.save("board.ipynb", cells("10V", "\n_ = []int{1}[len(fmt.Sprint(Vin))] "))
	l.out.until(t, "unchanged, fails as before\n")
	if n := strings.Count(l.out.all(), "printed"); n != 3 {
		t.Errorf("printed text is shown %d times:\n%s", n, l.out.all())
	}
	l.save("board.ipynb", cells("6V", ""))
	l.out.until(t, "Vin   12 V   6 V   −50.0 %\n\ncells that failed before\n  cell 1\n\ncell 1 printed\n    half is 3 V\n")
}
