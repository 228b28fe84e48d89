package main

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Notes come to a design and go, with folders of their own; one that an
// argument names is waited for.
func TestWatchNotesComeAndGo(t *testing.T) {
	t.Parallel()
	l := started(t, folderOf(t, map[string][]byte{"design/a.ipynb": board("24V"), "named.ipynb": board("24V")}), settings{timeout: time.Minute}, "", 0, "design", "named.ipynb")
	deep := filepath.Join("design", "new", "deep", "b.ipynb")
	l.save(deep, board("12V"))
	l.out.until(t, "\n"+deep+"\nname")
	l.out.until(t, "holds   the supply is not overloaded   margin 4 mA")
	l.fresh(deep, board("12V"))
	l.save(deep, board("24V"))
	l.out.until(t, "Vin   12 V   24 V")
	if err := os.RemoveAll(filepath.Join(l.folder, "design", "new")); err != nil {
		t.Fatal(err)
	}
	l.talk.until(t, deep+": the note is gone\n")
	l.save(deep, board("12V")) // which is a new note
	l.out.until(t, "\n"+deep+"\nname")
	l.save(filepath.Join("design", ".hidden", "c.ipynb"), board("12V"))
	if err := os.Remove(filepath.Join(l.folder, "named.ipynb")); err != nil {
		t.Fatal(err)
	}
	l.talk.until(t, "named.ipynb: the note is gone\n")
	l.save("named.ipynb", board("12V"))
	l.out.until(t, strings.Replace(halved, "board", "named", 1))
	if err := l.stop(); err != nil {
		t.Errorf("it ends with %v", err)
	}
	if strings.Contains(l.out.all(), "c.ipynb") {
		t.Error("a hidden folder is watched")
	}
}

// A whole design that is taken away and put back.
func TestWatchDesignMovedAway(t *testing.T) {
	t.Parallel()
	l := started(t, folderOf(t, map[string][]byte{"top/design/a.ipynb": board("24V")}), settings{timeout: time.Minute}, "", 0, filepath.Join("top", "design"))
	l.out.until(t, "cell 2\n")
	from, to := filepath.Join(l.folder, "top", "design"), filepath.Join(l.folder, "away")
	if err := os.Rename(from, to); err != nil {
		t.Fatal(err)
	}
	l.talk.until(t, "a.ipynb: the note is gone\n")
	if err := os.Rename(to, from); err != nil {
		t.Fatal(err)
	}
	l.out.until(t, "a.ipynb\nname")
	l.save(filepath.Join("top", "design", "a.ipynb"), board("12V"))
	l.out.until(t, "Vin   24 V   12 V")
}

// --set holds in every round, and the note is left as it was saved. By hand:
// 10 V/2/2 kΩ is 2.5 mA, over 1 kΩ 5 mA.
func TestWatchSet(t *testing.T) {
	t.Parallel()
	l := started(t, folderOf(t, map[string][]byte{"board.ipynb": board("24V")}), settings{timeout: time.Minute, set: []string{"Vin=10V"}}, "", 0, "board.ipynb")
	l.out.until(t, "I      2.5 mA")
	half := bytes.Replace(board("24V"), []byte("R := 2kΩ"), []byte("R := 1kΩ"), 1)
	l.save("board.ipynb", half)
	l.out.until(t, "  I   2.5 mA   5 mA   +100.0 %   because of R\n")
	if after, err := os.ReadFile(filepath.Join(l.folder, "board.ipynb")); err != nil || !bytes.Equal(after, half) {
		t.Errorf("a what-if was stored: %v\n%s", err, after)
	}
	// The input is another one under the what-if, too: nothing moves.
	l.save("board.ipynb", bytes.Replace(half, []byte("24V"), []byte("30V"), 1))
	l.out.until(t, "board.ipynb: unchanged\n")
	l.save("board.ipynb", bytes.ReplaceAll(half, []byte("Vin"), []byte("Vsupply")))
	l.talk.until(t, "ohmwright: --set Vin: the note does not define Vin\n")
	l.save("board.ipynb", half)
	l.out.until(t, "  Vsupply   24 V   –      removed\n")
	if n := strings.Count(l.talk.all(), "a what-if, so the note stays as it is"); n != 1 {
		t.Errorf("that nothing is stored is told %d times", n)
	}
	if err := l.stop(); err != nil {
		t.Errorf("it ends with %v", err)
	}
}

// A chosen part stays chosen under --set, and is that of the note as it is
// saved now. E24 (IEC 60063) has 30 and 33: 10 kΩ·(2.4 V/0.8 V − 1) = 20 kΩ is one of
// its values, and so is 10 kΩ·(3.2 V/0.8 V − 1) = 30 kΩ.
func TestWatchSetKeepsParts(t *testing.T) {
	t.Parallel()
	note := func(v string) []byte {
		return notebookOf("Vwanted := "+v, "Rtop := Nearest(E24, 10kΩ*(Vwanted/0.8V-1))")
	}
	l := started(t, folderOf(t, map[string][]byte{"board.ipynb": note("2.4V")}), settings{timeout: time.Minute, set: []string{"Vwanted=4V"}}, "", 0, "board.ipynb")
	l.out.until(t, "Rtop      20 kΩ")
	l.save("board.ipynb", note("3.2V"))
	l.out.until(t, "  Rtop   20 kΩ   30 kΩ   +50.0 %, a chosen part")
}

// With --out the notes stay as they were saved; results that stand in the
// design itself are no notes of it.
func TestWatchOut(t *testing.T) {
	t.Parallel()
	folder := folderOf(t, map[string][]byte{"design/a.ipynb": board("24V"), "design/b.ipynb": board("24V")})
	l := started(t, folder, settings{timeout: time.Minute}, filepath.Join(folder, "design", "results"), 0, "design")
	l.save("design/a.ipynb", board("12V"))
	l.out.until(t, "Vin   24 V   12 V")
	l.fresh("design/results/a.ipynb", board("12V"))
	if after, err := os.ReadFile(filepath.Join(folder, "design", "a.ipynb")); err != nil || !bytes.Equal(after, board("12V")) {
		t.Errorf("the note was written: %v\n%s", err, after)
	}
	l.save("design/c.ipynb", board("12V"))
	l.out.until(t, "c.ipynb\nname")
	l.fresh("design/results/c.ipynb", board("12V"))
	l.save("design/deeper/c.ipynb", board("12V")) // of which the results have no place
	l.talk.until(t, "would be stored in the same file")
	if err := l.stop(); !errors.Is(err, failures{}) {
		t.Errorf("it ends with %v, want a failure", err)
	}
	if strings.Contains(l.out.all(), "results"+string(filepath.Separator)) {
		t.Errorf("results are computed as notes:\n%s", l.out.all())
	}
}

// With --poll no news of the system are needed.
func TestWatchPoll(t *testing.T) {
	t.Parallel()
	l := started(t, folderOf(t, map[string][]byte{"board.ipynb": board("24V")}), settings{timeout: time.Minute}, "", 20*time.Millisecond, "board.ipynb")
	l.save("board.ipynb", board("12V"))
	l.out.until(t, halved)
	l.fresh("board.ipynb", board("12V"))
}
