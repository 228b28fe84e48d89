package host_test

import (
	"os/exec"
	"strings"
	"testing"
)

// The generated files are those of the packages as they are now.
func TestGeneratedFilesAreFresh(t *testing.T) {
	if testing.Short() {
		t.Skip("type-checks the packages from source")
	}
	if _, err := exec.LookPath("go"); err != nil {
		t.Skip("no go tool")
	}
	out, err := exec.Command("go", "run", "./generate", "-check").CombinedOutput()
	if strings.Contains(string(out), "cannot be checked with") {
		t.Skip(string(out))
	}
	if err != nil {
		t.Errorf("%v\n%s", err, strings.TrimSpace(string(out)))
	}
}
