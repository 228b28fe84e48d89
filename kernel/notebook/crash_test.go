//go:build !windows

package notebook_test

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"ohmwright/kernel/notebook"
)

// childEnv says to a copy of the test binary what it shall do with which file.
const childEnv = "OHMWRIGHT_NOTEBOOK_CHILD"

func TestMain(m *testing.M) {
	if task, path, ok := strings.Cut(os.Getenv(childEnv), " "); ok {
		if err := child(task, path); err != nil {
			fmt.Println(err)
			os.Exit(3)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

func child(task, path string) error {
	n, err := notebook.Read(path)
	if err != nil {
		return err
	}
	switch task {
	case "loop": // until it is killed
		for i := 0; ; i++ {
			if err := setVersion(n, i); err != nil {
				return err
			}
			if err := n.Write(path); err != nil {
				return err
			}
			fmt.Print(".")
		}
	case "full": // the system takes 64 KiB of a file and no more, as a full disk would
		signal.Ignore(syscall.SIGXFSZ)
		limit := syscall.Rlimit{Cur: 64 << 10, Max: 64 << 10}
		if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limit); err != nil {
			return err
		}
		if err := setVersion(n, 1); err != nil {
			return err
		}
		return n.Write(path)
	case "same":
		return n.Write(path)
	case "plain": // as a user without privileges
		if err := setVersion(n, 1); err != nil {
			return err
		}
		return n.Write(path)
	}
	return errors.New("unknown task " + task)
}

// setVersion makes a notebook of some 200 kB that tells its version at both ends.
func setVersion(n *notebook.Notebook, i int) error {
	text := fmt.Sprintf("version %d\n%s\nversion %d", i%2, strings.Repeat("filler µ\n", 20000), i%2)
	return n.Cells()[2].SetOutputs([]notebook.Output{notebook.Stream("stdout", text)})
}

func childCommand(t *testing.T, task, path string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	must(t, err)
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), childEnv+"="+task+" "+path)
	return cmd
}

// TestKilledWhileWriting: whenever a writer is killed, the file is whole, the
// old one or the new one.
func TestKilledWhileWriting(t *testing.T) {
	t.Parallel()
	path, n := inFolder(t, "canonical-4.5.ipynb")
	versions := map[string]bool{}
	for i := range 2 {
		must(t, setVersion(n, i))
		versions[string(n.Bytes())] = true
	}
	must(t, n.Write(path))
	inTheMiddle := 0
	for round := range 15 {
		cmd := childCommand(t, "loop", path)
		progress, err := cmd.StdoutPipe()
		must(t, err)
		must(t, cmd.Start())
		// The first write is done when the first byte comes. The kill follows at
		// a moment that differs from round to round, or as soon as a new text
		// is seen beside the file.
		if _, err := progress.Read(make([]byte, 1)); err != nil {
			t.Fatalf("the writer did not write: %v", err)
		}
		if round%3 == 0 {
			time.Sleep(time.Duration(round) * 731 * time.Microsecond)
		} else {
			for end := time.Now().Add(2 * time.Second); len(hidden(t, path)) == 0 && time.Now().Before(end); {
			}
		}
		must(t, cmd.Process.Kill()) // SIGKILL
		var exit *exec.ExitError
		if err := cmd.Wait(); !errors.As(err, &exit) || exit.Exited() {
			t.Fatalf("the writer ended by itself: %v", err)
		}
		after := content(t, path)
		if !versions[after] {
			t.Fatalf("round %d: the file is neither the old nor the new one (%d bytes)", round, len(after))
		}
		if _, err := notebook.Read(path); err != nil {
			t.Fatalf("round %d: %v", round, err)
		}
		left := hidden(t, path)
		inTheMiddle += len(left)
		for _, file := range left {
			must(t, os.Remove(file))
		}
	}
	// A new text that was not renamed shows that the kill came during a write.
	if inTheMiddle == 0 {
		t.Error("no kill came in the middle of a write: the test shows nothing")
	}
	t.Logf("%d of 15 kills came in the middle of a write", inTheMiddle)
}

// hidden gives the hidden files beside a file.
func hidden(t *testing.T, path string) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(filepath.Dir(path), ".*"))
	must(t, err)
	return files
}

// TestFullDisk: when the new text does not fit, the old file stays and nothing
// is left beside it.
func TestFullDisk(t *testing.T) {
	t.Parallel()
	path, _ := inFolder(t, "canonical-4.5.ipynb")
	before := content(t, path)
	out, err := childCommand(t, "full", path).CombinedOutput()
	var exit *exec.ExitError
	if !errors.As(err, &exit) || exit.ExitCode() != 3 || !strings.Contains(string(out), path+": "+syscall.EFBIG.Error()) {
		t.Fatalf("%v: %s", err, out)
	}
	if content(t, path) != before {
		t.Error("the old file is gone")
	}
	alone(t, filepath.Dir(path), "10-supply.ipynb")
}

// TestNoPermission: neither a folder nor a file that is protected is written to.
func TestNoPermission(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name, task   string
		folder, file fs.FileMode
		refused      bool
	}{
		{"folder", "plain", 0o555, 0o644, true},
		{"file", "plain", 0o755, 0o444, true},
		{"nothing to write", "same", 0o555, 0o444, false},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			path, _ := inFolder(t, "canonical-4.5.ipynb")
			before := content(t, path)
			folder := filepath.Dir(path)
			cmd := childCommand(t, test.task, path)
			if os.Geteuid() == 0 {
				asNobody(t, cmd, folder)
			}
			must(t, os.Chmod(path, test.file))
			must(t, os.Chmod(folder, test.folder))
			defer func() { _ = os.Chmod(folder, 0o755) }()
			out, err := cmd.CombinedOutput()
			if !test.refused && err != nil {
				t.Fatalf("%v: %s", err, out)
			}
			var exit *exec.ExitError
			if test.refused && (!errors.As(err, &exit) || exit.ExitCode() != 3 || !strings.Contains(string(out), path+": "+syscall.EACCES.Error())) {
				t.Fatalf("%v: %s", err, out)
			}
			if content(t, path) != before {
				t.Error("the old file is gone")
			}
			alone(t, folder, "10-supply.ipynb")
		})
	}
}

// asNobody lets the command run without root's privileges, which would make it
// deaf to permissions, on files that are its own.
func asNobody(t *testing.T, cmd *exec.Cmd, folder string) {
	t.Helper()
	const nobody = 65534
	cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	// The way there must be open, and the test binary must be readable to it.
	self, err := os.ReadFile(cmd.Path)
	must(t, err)
	bin := filepath.Join(t.TempDir(), "child")
	must(t, os.WriteFile(bin, self, 0o755))
	cmd.Path, cmd.Args[0] = bin, bin
	for _, dir := range []string{folder, filepath.Dir(bin)} {
		for ; len(dir) > len(os.TempDir()); dir = filepath.Dir(dir) {
			must(t, os.Chmod(dir, 0o755))
		}
	}
	must(t, os.Chown(folder, nobody, nobody))
	must(t, os.Chown(filepath.Join(folder, "10-supply.ipynb"), nobody, nobody))
}

// TestOwnerStays: root's save leaves a user's file the user's.
func TestOwnerStays(t *testing.T) {
	t.Parallel()
	if os.Geteuid() != 0 {
		t.Skip("only root can give a file to another user")
	}
	path, n := inFolder(t, "canonical-4.5.ipynb")
	must(t, os.Chown(path, 65534, 65533))
	change(t, n, "x")
	must(t, n.Write(path))
	info, err := os.Stat(path)
	must(t, err)
	if st := info.Sys().(*syscall.Stat_t); st.Uid != 65534 || st.Gid != 65533 || info.Mode().Perm() != 0o640 {
		t.Errorf("the file now belongs to %d:%d, %v", st.Uid, st.Gid, info.Mode())
	}
}

// TestDevices: reading one may never end, and none may be replaced by a file.
func TestDevices(t *testing.T) {
	t.Parallel()
	pipe := filepath.Join(t.TempDir(), "pipe.ipynb")
	must(t, syscall.Mkfifo(pipe, 0o644))
	for _, path := range []string{pipe, "/dev/null"} {
		if _, err := notebook.Read(path); err == nil || err.Error() != path+": is not a regular file" {
			t.Errorf("read: %v", err)
		}
		if err := notebook.New().Write(path); err == nil || err.Error() != path+": is not a regular file" {
			t.Errorf("write: %v", err)
		}
	}
}
