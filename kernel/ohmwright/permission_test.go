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
)

// A file that may not be read or written gets a message with its name; it
// stays as it is, and notes beside it are computed.
func TestFilesWithoutPermission(t *testing.T) {
	t.Parallel()
	folder, command := openFolder(t)
	note := notebookOf("y := 24V / 2")
	for _, test := range []struct {
		name    string
		file    os.FileMode
		dir     os.FileMode
		args    []string
		says    string
		results bool // standard output still has the results
		status  int
	}{
		{name: "unreadable", file: 0o200, dir: 0o777, args: []string{"run"}, says: "permission denied", status: 1},
		{name: "unreadable-verify", file: 0o200, dir: 0o777, args: []string{"verify"}, says: "permission denied", status: 1},
		{name: "unreadable-why", file: 0o200, dir: 0o777, args: []string{"why"}, says: "permission denied", status: 1},
		{name: "read-only-file", file: 0o444, dir: 0o777, args: []string{"run"}, says: "permission denied", results: true, status: 1},
		{name: "read-only-folder", file: 0o666, dir: 0o555, args: []string{"run"}, says: "permission denied", results: true, status: 1},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			dir := filepath.Join(folder, test.name)
			path := filepath.Join(dir, "note.ipynb")
			for _, err := range []error{
				os.Mkdir(dir, 0o777), os.WriteFile(path, note, 0o666),
				os.Chmod(path, test.file), os.Chmod(dir, test.dir),
			} {
				if err != nil {
					t.Fatal(err)
				}
			}
			t.Cleanup(func() { os.Chmod(dir, 0o777) })
			args := append(test.args, path)
			if test.args[0] == "why" {
				args = append(args, "y")
			}
			c := exec.Command(command, args...)
			var out, talk bytes.Buffer
			c.Stdout, c.Stderr = &out, &talk
			asNobody(c)
			err := c.Run()
			var exit *exec.ExitError
			if err != nil && !errors.As(err, &exit) {
				t.Fatal(err)
			}
			if got := c.ProcessState.ExitCode(); got != test.status {
				t.Errorf("exit status %d, want %d", got, test.status)
			}
			if text := talk.String(); !strings.Contains(text, path) || !strings.Contains(text, test.says) {
				t.Errorf("standard error does not name %s and say %s: %q", path, test.says, text)
			}
			if found := inside(out.String() + talk.String()); found != "" {
				t.Errorf("shows insides, %s", found)
			}
			if has := strings.Contains(out.String(), "12 V"); has != test.results {
				t.Errorf("results on standard output: %v, want %v: %q", has, test.results, out.String())
			}
			if after, err := os.ReadFile(path); os.Geteuid() == 0 && (err != nil || !bytes.Equal(after, note)) {
				t.Errorf("the file changed (%v):\n%s", err, after)
			}
			info, err := os.Stat(path)
			if err != nil || info.Mode().Perm() != test.file || info.Size() != int64(len(note)) {
				t.Errorf("the file is now %v, %v", info, err)
			}
			if left, err := os.ReadDir(dir); err != nil || len(left) != 1 {
				t.Errorf("beside the note are %v, %v", left, err)
			}
		})
	}
}

// openFolder makes a folder that every user may use, with the command in it.
// The superuser may read and write everything, so that tests of permissions
// run the command as another user.
func openFolder(t *testing.T) (folder, command string) {
	t.Helper()
	folder, err := os.MkdirTemp("", "permission")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(folder) })
	if err := os.Chmod(folder, 0o777); err != nil {
		t.Fatal(err)
	}
	binary, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(binary)
	if err != nil {
		t.Fatal(err)
	}
	command = filepath.Join(folder, "ohmwright")
	if err := os.WriteFile(command, text, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(command, 0o755); err != nil {
		t.Fatal(err)
	}
	return folder, command
}

// asNobody lets a command run without the superuser's rights.
func asNobody(c *exec.Cmd) {
	if os.Geteuid() == 0 {
		c.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534}}
		c.Dir = "/"
	}
}

// A document that may not be written into its folder leaves the one of before.
func TestReportIntoAFolderWithoutPermission(t *testing.T) {
	t.Parallel()
	folder, command := openFolder(t)
	out := filepath.Join(folder, "out")
	note, old := filepath.Join(folder, "note.ipynb"), filepath.Join(out, "a.html")
	for _, err := range []error{
		os.WriteFile(note, notebookOf("y := 24V / 2"), 0o644), os.Chmod(note, 0o644),
		os.Mkdir(out, 0o755), os.WriteFile(old, []byte("an older one"), 0o644), os.Chmod(out, 0o555),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	t.Cleanup(func() { os.Chmod(out, 0o777) })
	for _, kind := range []string{".html", ".md", ".csv"} {
		to := filepath.Join(out, "a"+kind)
		c := exec.Command(command, "report", note, "--out", to)
		asNobody(c)
		talk, err := c.CombinedOutput()
		var exit *exec.ExitError
		if !errors.As(err, &exit) || exit.ExitCode() != 1 {
			t.Errorf("%s: %v", kind, err)
		}
		if want := "ohmwright: " + to + " is not written: permission denied; an older one stays as it was, and --out names another place\n"; string(talk) != want {
			t.Errorf("says %q, want %q", talk, want)
		}
	}
	if text, err := os.ReadFile(old); err != nil || string(text) != "an older one" {
		t.Errorf("the document of before is now %q, %v", text, err)
	}
	if left, err := os.ReadDir(out); err != nil || len(left) != 1 {
		t.Errorf("beside it are %v, %v", left, err)
	}
}
