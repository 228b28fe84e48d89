package notebook_test

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"ohmwright/kernel/notebook"
)

// inFolder puts a sample into a new folder and reads it.
func inFolder(t *testing.T, name string) (path string, n *notebook.Notebook) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "10-supply.ipynb")
	must(t, os.WriteFile(path, sample(t, name), 0o640))
	n, err := notebook.Read(path)
	must(t, err)
	return path, n
}

func content(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	must(t, err)
	return string(data)
}

// alone fails the test if anything but the named files is left in the folder.
func alone(t *testing.T, folder string, names ...string) {
	t.Helper()
	entries, err := os.ReadDir(folder)
	must(t, err)
	var got []string
	for _, e := range entries {
		got = append(got, e.Name())
	}
	if strings.Join(got, " ") != strings.Join(names, " ") {
		t.Errorf("the folder holds %v, want %v", got, names)
	}
}

func change(t *testing.T, n *notebook.Notebook, text string) {
	t.Helper()
	for _, c := range n.Cells() {
		if c.Type() == "code" {
			must(t, c.SetOutputs([]notebook.Output{notebook.Stream("stdout", text)}))
		}
	}
}

func TestWriteReplaces(t *testing.T) {
	t.Parallel()
	path, n := inFolder(t, "canonical-4.4.ipynb")
	for _, text := range []string{"one", "two"} { // a second write by the same holder is no foreign change
		change(t, n, text)
		must(t, n.Write(path))
		if content(t, path) != string(n.Bytes()) {
			t.Errorf("the file holds %s", content(t, path))
		}
	}
	info, err := os.Stat(path)
	must(t, err)
	if runtime.GOOS != "windows" && info.Mode().Perm() != 0o640 {
		t.Errorf("permissions became %v", info.Mode().Perm())
	}
	alone(t, filepath.Dir(path), "10-supply.ipynb")
}

// TestWriteNothingWhenSame: an unchanged note keeps its file, its time and its
// place on the disk, so that build tools and version control see nothing.
func TestWriteNothingWhenSame(t *testing.T) {
	t.Parallel()
	path, n := inFolder(t, "other-order-4.5.ipynb")
	old := time.Date(2020, 1, 2, 3, 4, 5, 0, time.UTC)
	must(t, os.Chtimes(path, old, old))
	before, err := os.Stat(path)
	must(t, err)
	must(t, n.Write(path))
	after, err := os.Stat(path)
	must(t, err)
	if !os.SameFile(before, after) || !after.ModTime().Equal(old) {
		t.Error("an unchanged file was written")
	}
}

func TestWriteNewFile(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	path := filepath.Join(folder, "new.ipynb")
	n := notebook.New()
	n.AddCode("x := 1Ω")
	must(t, n.Write(path))
	if content(t, path) != string(n.Canonical()) {
		t.Errorf("the file holds %s", content(t, path))
	}
	alone(t, folder, "new.ipynb")

	err := n.Write(filepath.Join(folder, "missing", "new.ipynb"))
	if !errors.Is(err, fs.ErrNotExist) || !strings.Contains(err.Error(), "the folder does not exist") {
		t.Errorf("in a missing folder: %v", err)
	}
}

func TestWriteElsewhereReplaces(t *testing.T) {
	t.Parallel()
	path, n := inFolder(t, "canonical-4.5.ipynb")
	other := filepath.Join(filepath.Dir(path), "other.ipynb")
	must(t, os.WriteFile(other, []byte("anything"), 0o644))
	change(t, n, "x")
	must(t, n.Write(other))
	if content(t, other) != string(n.Bytes()) || content(t, path) != string(sample(t, "canonical-4.5.ipynb")) {
		t.Error("writing elsewhere did not write there only")
	}
}

// TestWriteFollowsLinks: the link stays a link, also a relative one to a link.
func TestWriteFollowsLinks(t *testing.T) {
	t.Parallel()
	path, _ := inFolder(t, "canonical-4.5.ipynb")
	links := t.TempDir()
	first, second := filepath.Join(links, "a.ipynb"), filepath.Join(links, "b.ipynb")
	if err := os.Symlink(path, first); err != nil {
		t.Skipf("links cannot be made here: %v", err)
	}
	must(t, os.Symlink("a.ipynb", second))
	n, err := notebook.Read(second)
	must(t, err)
	change(t, n, "through links")
	must(t, n.Write(second))
	for _, link := range []string{first, second} {
		info, err := os.Lstat(link)
		must(t, err)
		if info.Mode()&fs.ModeSymlink == 0 {
			t.Errorf("%s is a link no more", link)
		}
	}
	if content(t, path) != string(n.Bytes()) {
		t.Error("the file behind the links did not change")
	}

	must(t, os.Remove(path))
	if err := notebook.New().Write(second); err == nil || !strings.Contains(err.Error(), "is a link to a.ipynb, which does not exist") {
		t.Errorf("a link to nothing: %v", err)
	}
}

// TestWriteRefusesForeignChange: what another program saved meanwhile is not lost.
func TestWriteRefusesForeignChange(t *testing.T) {
	t.Parallel()
	t.Run("changed", func(t *testing.T) {
		t.Parallel()
		path, n := inFolder(t, "canonical-4.5.ipynb")
		foreign := strings.Replace(content(t, path), "100kΩ", "120kΩ", 1)
		must(t, os.WriteFile(path, []byte(foreign), 0o640))
		change(t, n, "x")
		err := n.Write(path)
		if !errors.Is(err, notebook.ErrChanged) || !strings.HasPrefix(err.Error(), path+": ") {
			t.Errorf("error %v", err)
		}
		if content(t, path) != foreign {
			t.Error("the other program's change is lost")
		}
		alone(t, filepath.Dir(path), "10-supply.ipynb")
	})
	t.Run("changed, nothing to write", func(t *testing.T) {
		t.Parallel()
		path, n := inFolder(t, "canonical-4.5.ipynb")
		must(t, os.WriteFile(path, []byte("{}"), 0o640))
		if err := n.Write(path); !errors.Is(err, notebook.ErrChanged) {
			t.Errorf("error %v", err)
		}
	})
	t.Run("changed to the same", func(t *testing.T) {
		t.Parallel()
		path, n := inFolder(t, "canonical-4.5.ipynb")
		change(t, n, "x")
		must(t, os.WriteFile(path, n.Bytes(), 0o640))
		must(t, n.Write(path))
	})
	t.Run("deleted", func(t *testing.T) {
		t.Parallel()
		path, n := inFolder(t, "canonical-4.5.ipynb")
		must(t, os.Remove(path))
		if err := n.Write(path); !errors.Is(err, notebook.ErrChanged) {
			t.Errorf("error %v", err)
		}
		alone(t, filepath.Dir(path))
	})
}

func TestReadErrors(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	_, err := notebook.Read(filepath.Join(folder, "missing.ipynb"))
	if !errors.Is(err, fs.ErrNotExist) || !strings.HasPrefix(err.Error(), filepath.Join(folder, "missing.ipynb")+": ") {
		t.Errorf("missing file: %v", err)
	}
	if _, err = notebook.Read(folder); err == nil || err.Error() != folder+": is a folder, not a notebook file" {
		t.Errorf("folder: %v", err)
	}
	bad := filepath.Join(folder, "bad.ipynb")
	must(t, os.WriteFile(bad, []byte("{\n\"nbformat\": x"), 0o644))
	_, err = notebook.Read(bad)
	if want := bad + `:2:13: not valid JSON: expected a value, found "x"`; err == nil || err.Error() != want {
		t.Errorf("broken file\n got %v\nwant %s", err, want)
	}
	if err := notebook.New().Write(folder); err == nil || err.Error() != folder+": is a folder, not a notebook file" {
		t.Errorf("write over a folder: %v", err)
	}
}
