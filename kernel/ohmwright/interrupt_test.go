//go:build unix

package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
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

// An interrupt while a browser prints ends that with all that it started, and
// leaves the document of before and nothing temporary.
func TestInterruptWhileABrowserPrints(t *testing.T) {
	t.Parallel()
	for _, sig := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM} {
		t.Run(sig.String(), func(t *testing.T) {
			t.Parallel()
			dir := t.TempDir()
			path := func(name string) string { return filepath.Join(dir, name) }
			for _, d := range []string{"bin", "tmp", "out"} {
				if err := os.Mkdir(path(d), 0o777); err != nil {
					t.Fatal(err)
				}
			}
			// The note of its number comes last and at once.
			browser := "#!/bin/sh\n/bin/sleep 100 &\necho $$ $! >" + path("part") + "\n/bin/mv " + path("part") + " " + path("pids") + "\nexec fake-chromium hangs\n"
			for name, text := range map[string]string{"note.ipynb": string(notebookOf("a := 2V")), "bin/chromium": browser, "out/a.pdf": "an older one"} {
				if err := os.WriteFile(path(name), []byte(text), 0o777); err != nil {
					t.Fatal(err)
				}
			}
			var talk bytes.Buffer
			c := exec.Command("ohmwright", "report", path("note.ipynb"), "--out", path("out/a.pdf"))
			c.Env = append(os.Environ(), "PATH="+path("bin")+string(os.PathListSeparator)+os.Getenv("PATH"), "TMPDIR="+path("tmp"))
			c.Stderr = &talk
			if err := c.Start(); err != nil {
				t.Fatal(err)
			}
			defer c.Process.Kill()
			var pids []byte
			for end := time.Now().Add(30 * time.Second); len(pids) == 0; time.Sleep(10 * time.Millisecond) {
				if pids, _ = os.ReadFile(path("pids")); time.Now().After(end) {
					t.Fatalf("the browser was not started\n%s", talk.String())
				}
			}
			if err := c.Process.Signal(sig); err != nil {
				t.Fatal(err)
			}
			began := time.Now()
			c.Wait()
			if d := time.Since(began); d > 20*time.Second {
				t.Errorf("ended after %v", d)
			}
			if code := c.ProcessState.ExitCode(); code != 1 || talk.String() != "ohmwright: interrupted; no file was changed\n" {
				t.Errorf("exit status %d, %q", code, talk.String())
			}
			if text, err := os.ReadFile(path("out/a.pdf")); err != nil || string(text) != "an older one" {
				t.Errorf("the document of before is now %q, %v", text, err)
			}
			for d, want := range map[string]int{"tmp": 0, "out": 1} {
				if left, err := os.ReadDir(path(d)); err != nil || len(left) != want {
					t.Errorf("in %s are %v, %v", d, left, err)
				}
			}
			for _, number := range strings.Fields(string(pids)) {
				pid, err := strconv.Atoi(number)
				if err != nil {
					t.Fatal(err)
				}
				for end := time.Now().Add(10 * time.Second); running(pid); time.Sleep(10 * time.Millisecond) {
					if time.Now().After(end) {
						t.Fatalf("program %d still runs", pid)
					}
				}
			}
		})
	}
}
