package atomicfile

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
)

// TestReplaceNotReady: an error at the last moment, when the new text is on the
// disk already, leaves the old file and no other.
func TestReplaceNotReady(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	path := filepath.Join(folder, "a.ipynb")
	if err := os.WriteFile(path, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	late := errors.New("changed meanwhile")
	seen := 0
	err := Write(path, []byte("new"), func(string) error {
		entries, err := os.ReadDir(folder)
		seen = len(entries)
		return errors.Join(err, late)
	})
	if !errors.Is(err, late) || seen != 2 {
		t.Errorf("error %v, %d files at the last moment", err, seen)
	}
	data, err := os.ReadFile(path)
	if err != nil || string(data) != "old" {
		t.Errorf("the file holds %q, %v", data, err)
	}
	if entries, err := os.ReadDir(folder); err != nil || len(entries) != 1 {
		t.Errorf("the folder holds %v, %v", entries, err)
	}
}
