package atomicfile

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
)

// What another program saves behind the last look at the file, in whatever way,
// is what the file holds in the end.
func TestSavedBehindTheLastLook(t *testing.T) {
	t.Parallel()
	changed := errors.New("changed")
	check := func(t *testing.T, err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, test := range []struct {
		name string
		// save begins behind the first look; what it gives is done after all.
		save func(t *testing.T, path string) (rest func())
		// again is saved behind the exchange, before the old file is put back.
		again bool
		want  string
	}{
		{name: "written over", want: "theirs", save: func(t *testing.T, path string) func() {
			check(t, os.WriteFile(path, []byte("theirs"), 0o666))
			return nil
		}},
		{name: "renamed over", want: "theirs", save: func(t *testing.T, path string) func() {
			check(t, os.WriteFile(path+".new", []byte("theirs"), 0o666))
			check(t, os.Rename(path+".new", path))
			return nil
		}},
		{name: "emptied, and written later", want: "theirs", save: func(t *testing.T, path string) func() {
			f, err := os.Create(path)
			check(t, err)
			return func() {
				_, err := f.WriteString("theirs")
				check(t, err)
				check(t, f.Close())
			}
		}},
		{name: "twice", again: true, want: "newest", save: func(t *testing.T, path string) func() {
			check(t, os.WriteFile(path, []byte("theirs"), 0o666))
			return nil
		}},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			folder := t.TempDir()
			path := filepath.Join(folder, "a.ipynb")
			check(t, os.WriteFile(path, []byte("old"), 0o600))
			looks := 0
			var rest func()
			err := Write(path, []byte("ours"), func(at string) error {
				text, err := os.ReadFile(at)
				check(t, err)
				if looks++; looks == 1 {
					if at != path || string(text) != "old" {
						t.Errorf("the first look is at %q in %s", text, at)
					}
					rest = test.save(t, path)
					return nil
				}
				if test.again {
					check(t, os.WriteFile(path+".new", []byte("newest"), 0o600))
					check(t, os.Rename(path+".new", path))
				}
				if string(text) != "old" {
					return changed
				}
				return nil
			})
			if looks < 2 {
				t.Skip("the file system cannot exchange files")
			}
			if err != changed {
				t.Errorf("error %v", err)
			}
			if rest != nil {
				rest()
			}
			if text, err := os.ReadFile(path); err != nil || string(text) != test.want {
				t.Errorf("the file holds %q, %v", text, err)
			}
			if list, err := os.ReadDir(folder); err != nil || len(list) != 1 {
				t.Errorf("the folder holds %v, %v", list, err)
			}
		})
	}
}

// An exchange leaves the new file alone, with the old one's permissions.
func TestExchanged(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	path := filepath.Join(folder, "a.ipynb")
	if err := os.WriteFile(path, []byte("old"), 0o640); err != nil {
		t.Fatal(err)
	}
	if err := Write(path, []byte("new"), nil); err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(path)
	if err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("%v, %v", info, err)
	}
	text, err := os.ReadFile(path)
	if err != nil || string(text) != "new" {
		t.Errorf("the file holds %q, %v", text, err)
	}
	if list, err := os.ReadDir(folder); err != nil || len(list) != 1 {
		t.Errorf("the folder holds %v, %v", list, err)
	}
}
