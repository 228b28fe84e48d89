package jupyter

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// pythonModules are what the checks with real clients need, with the Debian
// packages that have them.
var pythonModules = map[string]string{"jupyter_client": "python3-jupyter-client", "jsonschema": "python3-jsonschema"}

// install registers this test binary as two kernels and returns the
// environment in which clients find them.
func install(t *testing.T) []string {
	t.Helper()
	prefix := t.TempDir()
	lines := testSpec(prefix)
	engine := testSpec(prefix)
	engine.Name, engine.Language = "engine", "go"
	engine.Env = map[string]string{asKernel: "engine", "GORACE": "atexit_sleep_ms=0"}
	for _, o := range []InstallOptions{lines, engine} {
		if _, err := Install(context.Background(), o); err != nil {
			t.Fatal(err)
		}
	}
	return append(os.Environ(), "JUPYTER_PATH="+filepath.Join(prefix, "share", "jupyter"), "PYTHONDONTWRITEBYTECODE=1")
}

// What people and servers do, with jupyter_client and the engine. Every message
// is held against the schemas.
func TestClientCheck(t *testing.T) {
	t.Parallel()
	python := needPython(t, pythonModules)
	env := install(t)
	for _, checks := range []string{"interrupt two abort stdin", "big flood", "ipc orphan", "memory"} {
		t.Run(checks, func(t *testing.T) {
			t.Parallel()
			if checks == "memory" && raceDetector {
				t.Skip("the race detector's own memory grows")
			}
			cmd := exec.Command(python, append([]string{"testdata/client_check.py"}, strings.Fields(checks)...)...)
			cmd.Env = env
			out, err := cmd.CombinedOutput()
			t.Logf("%s", out)
			if err != nil || !strings.Contains(string(out), " messages, 0 wrong") {
				t.Errorf("%v", err)
			}
		})
	}
}

// jupyter console, typed into through a pseudo terminal.
func TestConsole(t *testing.T) {
	t.Parallel()
	python := needPython(t, map[string]string{"jupyter_client": "python3-jupyter-client", "jsonschema": "python3-jsonschema",
		"jupyter_console": "python3-jupyter-console", "pexpect": "python3-pexpect"})
	env := install(t)
	// On a machine at its limit the console has shown a prompt without the
	// output before it. That the kernel sends all output before idle is held in
	// order_test.go; so a session may be tried again.
	for attempt := 1; ; attempt++ {
		cmd := exec.Command(python, "testdata/console_check.py")
		cmd.Env = env
		out, err := cmd.CombinedOutput()
		t.Logf("%s", out)
		if err == nil && strings.Contains(string(out), "console: all passed") {
			return
		}
		if attempt == 3 {
			t.Fatalf("%v", err)
		}
	}
}

// A host of kernels that is reached through the web only: what a remote or
// multi-user one passes on.
func TestServer(t *testing.T) {
	t.Parallel()
	python := needPython(t, map[string]string{"jupyter_server": "python3-jupyter-server"})
	cmd := exec.Command(python, "testdata/server_check.py")
	cmd.Env = install(t)
	out, err := cmd.CombinedOutput()
	t.Logf("%s", out)
	if err != nil || !strings.Contains(string(out), "server: all passed") {
		t.Errorf("%v", err)
	}
}
