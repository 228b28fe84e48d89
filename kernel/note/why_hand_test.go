package note_test

import (
	"bufio"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ohmwright/kernel/note"
)

// The derivation of a value of each demo note is the tree that is written by
// hand in testdata/notes/why.txt, and every note has one there.
func TestWhyByHand(t *testing.T) {
	t.Parallel()
	file, err := os.Open("../../testdata/notes/why.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	want := map[string]string{}
	for lines := bufio.NewScanner(file); lines.Scan(); {
		if name, tree, ok := strings.Cut(lines.Text(), " "); ok && !strings.HasPrefix(name, "#") {
			want[name] = strings.TrimSpace(tree)
		}
	}
	paths, err := filepath.Glob("../../notebooks/*.ipynb")
	if err != nil || len(paths) == 0 {
		t.Fatal(err)
	}
	for _, path := range paths {
		name := strings.TrimSuffix(filepath.Base(path), ".ipynb")
		tree, ok := want[name]
		if !ok {
			t.Errorf("%s has no tree", name)
			continue
		}
		of, _, _ := strings.Cut(tree, "(")
		n, _ := demo(t, path)
		w, err := n.Why(context.Background(), of, note.WhyOptions{})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if got := branches(w); got != tree {
			t.Errorf("%s\n got %s\nhand %s", name, got, tree)
		}
	}
}

func branches(w *note.Why) string {
	if len(w.Inputs) == 0 {
		return w.Entry.Name
	}
	var inputs []string
	for _, in := range w.Inputs {
		inputs = append(inputs, branches(in))
	}
	return w.Entry.Name + "(" + strings.Join(inputs, " ") + ")"
}
