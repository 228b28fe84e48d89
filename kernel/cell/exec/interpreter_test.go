package exec_test

import (
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestOffTheShelfInterpreter shows why cells have an executor of their own:
// the interpreter whose symbol tables we use computes these valid programs
// wrongly, without a word. Should a newer version of it compute all of them as
// Go does, this test fails, and the question of keeping our own is open again.
func TestOffTheShelfInterpreter(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("-short: runs the go tool")
	}
	if _, err := exec.LookPath("go"); err != nil {
		t.Skip("no go tool on PATH")
	}
	wrong := 0
	for _, name := range []string{
		"closure_per_iteration", "defer_closure_in_loop", "interface_assertion_ok",
		"const_division_untyped", "method_value_copies_receiver", "switch_default_first_fallthrough",
	} {
		file := filepath.Join("testdata", "programs", name+".go")
		want, err := exec.Command("go", "run", file).Output()
		if err != nil {
			t.Fatalf("go run %s: %v", file, err)
		}
		got, err := exec.Command("go", "tool", "yaegi", "run", file).Output()
		if err != nil || strings.TrimSpace(string(got)) != strings.TrimSpace(string(want)) {
			wrong++
			t.Logf("%s: the interpreter differs from Go", name)
		}
	}
	if wrong == 0 {
		t.Error("the interpreter computes every program as Go does: reconsider whether an executor of our own is needed")
	}
}
