//go:build unix

package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// endless is a note that computes for ever in its second cell.
var endless = notebookOf("a := 2V", "n := 0\nfor { n++ }", "b := a * 2")

// An interrupt while a note computes ends the program with status 1 within a
// second, says so, prints no half results and leaves the file as it was.
func TestInterruptLeavesTheFile(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name string
		sig  os.Signal
		args []string
	}{
		{"interrupt while run computes", os.Interrupt, []string{"run", "--timeout", "0"}},
		{"interrupt under a time limit", os.Interrupt, []string{"run", "--json", "--timeout", "1m"}},
		{"termination while run computes", syscall.SIGTERM, []string{"run", "--timeout", "0"}},
		{"interrupt while a watch computes for the first time", os.Interrupt, []string{"run", "--watch", "--timeout", "0"}},
		{"interrupt while verify computes", os.Interrupt, []string{"verify", "--timeout", "0"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			path := filepath.Join(t.TempDir(), "endless.ipynb")
			if err := os.WriteFile(path, endless, 0o666); err != nil {
				t.Fatal(err)
			}
			stdout, stderr, code := interrupted(t, test.sig, append(test.args, path)...)
			if code != 1 {
				t.Errorf("exit status %d, want 1", code)
			}
			if !strings.Contains(stderr, "interrupted") {
				t.Errorf("standard error does not say that it was interrupted: %q", stderr)
			}
			if stdout != "" {
				t.Errorf("half results on standard output: %q", stdout)
			}
			if found := inside(stdout + stderr); found != "" {
				t.Errorf("shows insides, %s", found)
			}
			after, err := os.ReadFile(path)
			if err != nil || !bytes.Equal(after, endless) {
				t.Errorf("the file changed (%v):\n%s", err, after)
			}
			if left, err := os.ReadDir(filepath.Dir(path)); err != nil || len(left) != 1 {
				t.Errorf("beside the note are %v, %v", left, err)
			}
		})
	}
}

// An interrupt ends a watch with the status of the last round, whether it waits
// or computes a cell without an end.
func TestInterruptWatching(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name   string
		vin    string
		sig    os.Signal
		loops  bool
		status int
	}{
		{"waits, all holds", "24V", os.Interrupt, false, 0},
		{"waits, a requirement is missed", "40V", os.Interrupt, false, 1},
		{"computes, all held", "24V", os.Interrupt, true, 0},
		{"computes, a requirement was missed", "40V", syscall.SIGTERM, true, 1},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			path := filepath.Join(t.TempDir(), "board.ipynb")
			put(t, path, board(test.vin))
			c := exec.Command("ohmwright", "run", "--watch", "--timeout", "0", path)
			talk := heard{more: make(chan struct{}, 1)}
			c.Stderr = &talk
			if err := c.Start(); err != nil {
				t.Fatal(err)
			}
			talk.until(t, "Ctrl-C ends it\n")
			if test.loops {
				put(t, path, endless)
				time.Sleep(500 * time.Millisecond) // nothing says when a cell has begun
			}
			began := time.Now()
			if err := c.Process.Signal(test.sig); err != nil {
				t.Fatal(err)
			}
			late := time.AfterFunc(10*time.Second, func() { c.Process.Kill() })
			defer late.Stop()
			_ = c.Wait() // its status is looked at
			t.Logf("ended after %v", time.Since(began).Round(time.Millisecond))
			if code := c.ProcessState.ExitCode(); code != test.status {
				t.Errorf("exit status %d, want %d\n%s", code, test.status, talk.all())
			}
			if after, err := os.ReadFile(path); test.loops && (err != nil || !bytes.Equal(after, endless)) {
				t.Errorf("the file was written: %v\n%s", err, after)
			}
		})
	}
}

// interrupted starts the command, sends it a signal while it computes and
// gives what it printed and its exit status.
func interrupted(t *testing.T, sig os.Signal, args ...string) (stdout, stderr string, code int) {
	t.Helper()
	// On a busy machine the signal may come before the program is ready for
	// it, and end the process as it ends any other: wait longer then.
	for wait := 200 * time.Millisecond; ; wait *= 2 {
		var out, talk bytes.Buffer
		c := exec.Command("ohmwright", args...)
		c.Stdout, c.Stderr = &out, &talk
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		done := make(chan error, 1)
		go func() { done <- c.Wait() }()
		select {
		case err := <-done:
			t.Fatalf("ended before it was interrupted: %v\n%s%s", err, out.String(), talk.String())
		case <-time.After(wait):
		}
		if err := c.Process.Signal(sig); err != nil {
			t.Fatal(err)
		}
		var err error
		select {
		case err = <-done:
		case <-time.After(10 * time.Second):
			c.Process.Kill()
			<-done
			t.Fatalf("still computing ten seconds after the signal\n%s%s", out.String(), talk.String())
		}
		var exit *exec.ExitError
		if err != nil && !errors.As(err, &exit) {
			t.Fatal(err)
		}
		if state := c.ProcessState.Sys().(syscall.WaitStatus); state.Signaled() && wait < 5*time.Second {
			continue
		}
		return out.String(), talk.String(), c.ProcessState.ExitCode()
	}
}
