package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// A note that somebody saves while it is computed keeps what was saved: the
// results of the older text are not written over it.
func TestNoteSavedWhileItIsComputed(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "board.ipynb")
	saved := notebookOf("a := 3V", "n := 1")
	var out, talk bytes.Buffer
	for limit := time.Second; ; limit *= 2 {
		if err := os.WriteFile(path, notebookOf("a := 2V", "n := 0\nfor { n++ }"), 0o666); err != nil {
			t.Fatal(err)
		}
		out.Reset()
		talk.Reset()
		c := exec.Command("ohmwright", "run", "--timeout", limit.String(), path)
		c.Stdout, c.Stderr = &out, &talk
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(limit / 2)
		if err := os.WriteFile(path, saved, 0o666); err != nil {
			t.Fatal(err)
		}
		c.Wait()
		// On a busy machine the program may have read the note only after it
		// was saved, and then has nothing to complain of: give it more time.
		if code := c.ProcessState.ExitCode(); code == 1 {
			break
		} else if limit > 10*time.Second {
			t.Fatalf("exit status %d, want 1\n%s", code, talk.String())
		}
	}
	if !strings.Contains(out.String(), "2 V") {
		t.Errorf("the results of what was read are not printed: %q", out.String())
	}
	if !strings.Contains(talk.String(), path) || !strings.Contains(talk.String(), "changed by another program") {
		t.Errorf("standard error does not say that the note was changed: %q", talk.String())
	}
	if after, err := os.ReadFile(path); err != nil || !bytes.Equal(after, saved) {
		t.Errorf("what was saved is gone (%v):\n%s", err, after)
	}
}
