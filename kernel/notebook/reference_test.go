package notebook_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// referenceScript reads each file with nbformat, the reference implementation
// of the format, validates it, and writes it beside the file.
const referenceScript = `
import sys, nbformat, warnings
warnings.simplefilter("error")
for path in sys.argv[1:]:
    with open(path, encoding="utf-8", newline="") as f:
        nb = nbformat.reads(f.read(), as_version=nbformat.NO_CONVERT)
    try:
        nbformat.validate(nb)
    except Exception as e:
        sys.exit("%s is not valid: %s" % (path, e))
    with open(path + ".reference", "w", encoding="utf-8", newline="") as f:
        nbformat.write(nb, f)
`

// reference runs the script over texts and gives what nbformat writes for each.
func reference(t *testing.T, texts []string) []string {
	t.Helper()
	python := ""
	for _, candidate := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(candidate, "-c", "import nbformat, jsonschema").Run() == nil {
			python = candidate
			break
		}
	}
	if python == "" {
		t.Skip("not compared with the reference implementation: no python3 with the module nbformat (Debian: python3-nbformat)")
	}
	folder := t.TempDir()
	var paths []string
	for i, text := range texts {
		path := filepath.Join(folder, strings.Repeat("n", i+1)+".ipynb")
		must(t, os.WriteFile(path, []byte(text), 0o644))
		paths = append(paths, path)
	}
	if out, err := exec.Command(python, append([]string{"-c", referenceScript}, paths...)...).CombinedOutput(); err != nil {
		t.Fatalf("nbformat refuses what was written: %v\n%s", err, out)
	}
	var written []string
	for _, path := range paths {
		text, err := os.ReadFile(path + ".reference")
		if err != nil {
			t.Fatal(err)
		}
		written = append(written, string(text))
	}
	return written
}

// TestCanonicalEqualsReference: the canonical text is what nbformat writes, for
// the sample files and for random notebooks, and nbformat finds it valid.
func TestCanonicalEqualsReference(t *testing.T) {
	t.Parallel()
	var names, files, ours []string
	for name, text := range samples(t) {
		// Not valid by the schema, but readable: lacking keys, an unknown minor
		// version, ids before 4.5.
		if strings.HasPrefix(name, "lacking") || strings.HasPrefix(name, "newer") || strings.HasPrefix(name, "ids") {
			continue
		}
		n := parse(t, text)
		names = append(names, name)
		files = append(files, text)
		ours = append(ours, string(n.Canonical()))
	}
	random := notebooks()
	for i := range 60 {
		n := random.Example(i)
		names = append(names, "random notebook")
		files = append(files, string(n.Bytes()))
		ours = append(ours, string(n.Canonical()))
	}
	for i, want := range reference(t, files) {
		if diff := cmp.Diff(want, ours[i]); diff != "" {
			t.Errorf("%s (-reference +ours):\n%s", names[i], diff)
		}
	}
	for i, want := range reference(t, ours) {
		if diff := cmp.Diff(want, ours[i]); diff != "" {
			t.Errorf("%s, once more (-reference +ours):\n%s", names[i], diff)
		}
	}
}

// notebooks draws notebooks made with the package's own means.
func notebooks() *rapid.Generator[*made] { return rapid.Custom(drawNotebook) }
