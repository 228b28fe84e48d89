package jupyter

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// asParent makes this test binary a process that starts a kernel and ends.
const asParent = "OHMWRIGHT_TEST_PARENT"

// noRaceSleep keeps the race detector from sleeping for a second at the end of
// every process.
const noRaceSleep = "GORACE=atexit_sleep_ms=0"

// process is a kernel in a process of its own.
func process(t *testing.T, env ...string) (*running, *exec.Cmd) {
	t.Helper()
	c := &connection{Transport: "ipc", IP: filepath.Join(t.TempDir(), "k"), Key: "key",
		Shell: 1, IOPub: 2, Stdin: 3, Control: 4, Heartbeat: 5}
	file := filepath.Join(t.TempDir(), "c.json")
	if err := c.write(file); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(os.Args[0], file)
	cmd.Env = append(append(os.Environ(), noRaceSleep), env...)
	cmd.Stderr = os.Stderr
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { cmd.Process.Kill(); cmd.Wait() })
	return &running{t: t, conn: c}, cmd
}

// A terminal sends SIGINT to the kernel too when the person ends the server, or
// types it in a console: that is for the front end to translate.
func TestSIGINTDoesNothing(t *testing.T) {
	t.Parallel()
	k, cmd := process(t, asKernel+"=1")
	p := k.client()
	a := p.execute("sleep 200\necho done")
	waitInput(p, a)
	if err := cmd.Process.Signal(os.Interrupt); err != nil {
		t.Skip("no SIGINT here:", err)
	}
	p.wantStatus(p.reply(a), "ok")
}

// kill -9 of the process that started the kernel leaves no kernel behind.
func TestParentWatch(t *testing.T) {
	t.Parallel()
	k, parent := process(t, asParent+"=1")
	p := k.client()
	p.run("echo")
	if err := parent.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	parent.Wait()
	began := time.Now()
	for { // until the connection ends
		if _, err := p.shell.Recv(); err != nil {
			if isTimeout(err) || time.Since(began) > 5*time.Second {
				t.Errorf("the kernel lived for %v more: %v", time.Since(began), err)
			}
			return
		}
	}
}

// beParent starts the kernel as Jupyter does and waits to be killed.
func beParent(file string) {
	cmd := exec.Command(os.Args[0], file)
	cmd.Env = append(os.Environ(), asKernel+"=1", asParent+"=", fmt.Sprintf("JPY_PARENT_PID=%d", os.Getpid()))
	if err := cmd.Start(); err != nil {
		panic(err)
	}
	cmd.Wait()
}

// needPython skips the test where Debian's Python lacks a module.
func needPython(t *testing.T, modules map[string]string) string {
	t.Helper()
	if testing.Short() {
		t.Skip("starts many processes")
	}
	const python = "/usr/bin/python3"
	if _, err := os.Stat(python); err != nil {
		t.Skip("needs the Debian package python3")
	}
	for module, pkg := range modules {
		if exec.Command(python, "-c", "import "+module).Run() != nil {
			t.Skipf("needs the Debian package %s", pkg)
		}
	}
	return python
}

// What real clients, and broken ones, do to the sockets, with libzmq.
func TestSocketCheck(t *testing.T) {
	t.Parallel()
	python := needPython(t, map[string]string{"zmq": "python3-zmq", "jupyter_client": "python3-jupyter-client", "jsonschema": "python3-jsonschema"})
	for _, tests := range []string{
		"roundtrips,queue,big,two,sameid",
		"connects,tcpflood,stalled,garbage,hugeframe,manyframes,burst,slowsub",
		"slowdealer,heartbeat,shutdown,welcome",
		"reconnect,vanish,zmtpping",
	} {
		t.Run(tests, func(t *testing.T) {
			t.Parallel()
			cmd := exec.Command(python, "testdata/socket_check.py", "--rounds", "500", "--only", tests,
				"--env", asKernel+"=1", "--env", noRaceSleep, "--argv", fmt.Sprintf(`[%q, "{connection_file}"]`, os.Args[0]))
			out, err := cmd.CombinedOutput()
			if err != nil {
				t.Errorf("%v\n%s", err, out)
			}
			t.Logf("%s", out)
			want := fmt.Sprintf("%d passed, 0 failed", 1+strings.Count(tests, ","))
			if !strings.Contains(string(out), want) || !strings.Contains(string(out), " messages, 0 wrong") {
				t.Errorf("no %q in\n%s", want, out)
			}
		})
	}
}

// nbclient, with the installed kernelspec: updates reach earlier cells and the
// stored notebook.
func TestNbclient(t *testing.T) {
	t.Parallel()
	python := needPython(t, map[string]string{"nbclient": "python3-nbclient", "nbformat": "python3-nbformat", "jsonschema": "python3-jsonschema"})
	prefix := t.TempDir()
	if _, err := Install(context.Background(), testSpec(prefix)); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(python, "testdata/nbclient_check.py", "testdata/update.json")
	cmd.Env = append(os.Environ(), "JUPYTER_PATH="+filepath.Join(prefix, "share", "jupyter"))
	out, err := cmd.CombinedOutput()
	if err != nil || !strings.Contains(string(out), "6 passed, 0 failed") || !strings.Contains(string(out), " messages, 0 wrong") {
		t.Errorf("%v\n%s", err, out)
	}
}

// The public conformance suite, every test that this kernel can be asked: four
// are skipped, the pager of both, stderr and clear_output of the engine.
func TestConformanceSuite(t *testing.T) {
	t.Parallel()
	python := needPython(t, map[string]string{"jupyter_kernel_test": "python3-jupyter-kernel-test", "jsonschema": "python3-jsonschema"})
	cmd := exec.Command(python, "testdata/conformance.py")
	cmd.Env = install(t)
	out, err := cmd.CombinedOutput()
	t.Logf("%s", out)
	if err != nil || !strings.Contains(string(out), " messages, 0 wrong") || !strings.Contains(string(out), "OK (skipped=4)") {
		t.Errorf("%v", err)
	}
}
