package main

import (
	"bytes"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "rewrite the documents in testdata/report; read them before you commit")

// runReport writes documents of a design. Its exit status is 1 where the design
// misses something.
func runReport(t *testing.T, design string, args ...string) {
	t.Helper()
	c := exec.Command("ohmwright", append([]string{"report", design}, args...)...)
	c.Env = append(os.Environ(), "GORACE=atexit_sleep_ms=0")
	if out, err := c.CombinedOutput(); err != nil && c.ProcessState.ExitCode() != 1 {
		t.Fatalf("%v: %v\n%s", c.Args, err, out)
	}
}

// The documents of a small design that has everything: two notes with links to
// each other, spread, a table, parts with ratings, requirements that hold, fail
// and are waived, cases, readings, figures, text of every kind, pictures that
// are there and that are not, a cell that fails and one that waits for it.
func TestReportGoldens(t *testing.T) {
	t.Parallel()
	here := filepath.Join("testdata", "report")
	folder := t.TempDir()
	for name, args := range map[string][]string{
		"report.html": {"--revision", "B", "--author", "N. <N>"}, "report.md": {"--revision", "B"}, "parts.csv": nil, "cases.csv": {"--what", "cases"},
		"inputs.csv": {"--what", "inputs"}, "requirements.csv": {"--what", "requirements"},
	} {
		out := filepath.Join(folder, name)
		runReport(t, filepath.Join(here, "design"), append(args, "--out", out)...)
		got, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		got = bytes.ReplaceAll(got, []byte(runtime.Version()), []byte("GO"))
		golden := filepath.Join(here, name)
		if *update {
			if err := os.WriteFile(golden, got, 0o666); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, want) {
			t.Errorf("%s differs (-want +got):\n%s", name, cmp.Diff(strings.Split(string(want), "\n"), strings.Split(string(got), "\n")))
		}
	}
	text, err := os.ReadFile(filepath.Join(folder, "report.md"))
	if err != nil {
		t.Fatal(err)
	}
	beside, err := os.ReadDir(filepath.Join(folder, "report.md_files"))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range beside {
		if !bytes.Contains(text, []byte("(<report.md_files/"+f.Name()+">)")) {
			t.Errorf("%s is beside report.md, which does not show it", f.Name())
		}
	}
	for _, same := range [][2]string{{"bench.png", "note-1-5-picture-1.png"}, {"housing.svg", "note-1-5-picture-1.svg"}} {
		a, _ := os.ReadFile(filepath.Join(here, "design", "pictures", same[0]))
		b, _ := os.ReadFile(filepath.Join(folder, "report.md_files", same[1]))
		if len(a) == 0 || !bytes.Equal(a, b) {
			t.Errorf("%s is not what %s was", same[1], same[0])
		}
	}
	if len(beside) != 5 { // three pictures of the text, two figures
		t.Errorf("beside report.md are %v", beside)
	}
}
