package jupyter

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"time"
)

// InstallOptions say what Install registers.
type InstallOptions struct {
	Spec
	Owner       string            // of the kernelspec: a key of its metadata; only the owner replaces or removes it
	Version     string            // written there
	DisplayName string            // in the front ends' menus
	Language    string            // of the cells
	Executable  string            // "" is the program that runs
	Args        []string          // after the executable; "{connection_file}" stands for the file
	Env         map[string]string // of the kernel, besides the front end's
}

// Installed is what Install did and found.
type Installed struct {
	Dir       string
	Replaced  bool          // there was one of the same name and owner
	Start     time.Duration // from starting the kernel to its first answer
	FrontEnds []FrontEnd
}

// A FrontEnd is a program found on PATH that can use the kernel.
type FrontEnd struct{ Name, Path string }

// Install writes the kernelspec and starts the kernel once, as a front end
// would, to see that it answers and ends. If it does not, the kernelspec stays
// and the error tells what the kernel said.
func Install(ctx context.Context, o InstallOptions) (*Installed, error) {
	dir, err := o.Dir()
	if err != nil {
		return nil, err
	}
	program, err := executable(o.Executable)
	if err != nil {
		return nil, err
	}
	exists, err := checkOwner(dir, o.Owner)
	if err != nil {
		return nil, err
	}
	argv := append([]string{program}, o.Args...)
	err = writeSpec(dir, kernelJSON{
		Argv: argv, DisplayName: o.DisplayName, Language: o.Language, InterruptMode: "message", Env: o.Env,
		Metadata: map[string]map[string]any{o.Owner: {"version": o.Version}},
	})
	if err != nil {
		return nil, fmt.Errorf("kernelspec cannot be written: %w", err)
	}
	done := &Installed{Dir: dir, Replaced: exists, FrontEnds: frontEnds(exec.LookPath)}
	if done.Start, err = tryKernel(ctx, argv, o.Env); err != nil {
		return done, fmt.Errorf("kernelspec is written to %s, but the kernel does not work: %w", dir, err)
	}
	return done, nil
}

// Remove takes the kernelspec away and returns its folder.
func Remove(s Spec, owner string) (string, error) {
	dir, err := s.Dir()
	if err != nil {
		return "", err
	}
	exists, err := checkOwner(dir, owner)
	if err != nil {
		return dir, err
	}
	if !exists {
		return dir, fmt.Errorf("kernel %s is not installed: %s does not exist", s.Name, dir)
	}
	return dir, os.RemoveAll(dir)
}

// executable is the absolute path that goes into kernel.json: front ends start
// it from any folder and with another PATH.
func executable(path string) (string, error) {
	if path == "" {
		own, err := os.Executable()
		if err != nil {
			return "", err
		}
		if path, err = filepath.EvalSymlinks(own); err != nil {
			return "", err
		}
		if temporary(path) {
			return "", errors.New("the program that runs is a temporary one of go run and will be gone: " +
				"build it first (go build) and run install from the file that makes")
		}
	}
	return filepath.Abs(path)
}

// temporary tells a program of go run, in a temporary folder or (since Go 1.24)
// in the build cache. A test binary lies there too and is what tests install.
func temporary(path string) bool {
	return strings.Contains(filepath.ToSlash(path), "/go-build") && !strings.HasSuffix(strings.TrimSuffix(path, ".exe"), ".test")
}

// frontEnds looks for programs that take kernels from the kernelspec folders.
func frontEnds(look func(string) (string, error)) []FrontEnd {
	var found []FrontEnd
	for _, f := range []struct{ name, command string }{
		{"JupyterLab", "jupyter-lab"},
		{"Jupyter Notebook", "jupyter-notebook"},
		{"Jupyter console", "jupyter-console"},
		{"Qt console", "jupyter-qtconsole"},
		{"nbconvert", "jupyter-nbconvert"},
		{"nbclient", "jupyter-execute"},
		{"Visual Studio Code (with its Jupyter extension)", "code"},
	} {
		if path, err := look(f.command); err == nil {
			found = append(found, FrontEnd{f.name, path})
		}
	}
	return found
}

// tryKernel starts the kernel over a connection file of its own, asks who it
// is, waits for the welcome and a heartbeat, and shuts it down.
func tryKernel(ctx context.Context, argv []string, env map[string]string) (start time.Duration, err error) {
	ctx, cancel := context.WithTimeout(ctx, 15*time.Second)
	defer cancel()
	dir, err := os.MkdirTemp("", "kernel-")
	if err != nil {
		return 0, err
	}
	defer os.RemoveAll(dir)
	c, err := freeConnection()
	if err != nil {
		return 0, err
	}
	file := filepath.Join(dir, "connection.json")
	if err := c.write(file); err != nil {
		return 0, err
	}
	var said strings.Builder
	cmd := exec.CommandContext(ctx, argv[0])
	for _, a := range argv[1:] {
		cmd.Args = append(cmd.Args, strings.ReplaceAll(a, "{connection_file}", file))
	}
	cmd.Env = os.Environ()
	if runtime.GOOS != "windows" { // there it is a handle, which we have none of
		cmd.Env = append(cmd.Env, fmt.Sprintf("JPY_PARENT_PID=%d", os.Getpid()))
	}
	for k, v := range env {
		cmd.Env = append(cmd.Env, k+"="+v)
	}
	cmd.Stdout, cmd.Stderr = &said, &said
	cmd.WaitDelay = time.Second
	began := time.Now()
	if err := cmd.Start(); err != nil {
		return 0, err
	}
	ended := make(chan error, 1)
	go func() { ended <- cmd.Wait() }()
	talked := make(chan error, 1)
	talk, stop := context.WithCancel(ctx)
	defer stop()
	go func() {
		var err error
		start, err = converse(talk, c, began)
		talked <- err
	}()
	select {
	case err := <-ended:
		// It may have ended as it was asked to, and its last reply waits to be
		// read.
		late := time.AfterFunc(2*time.Second, stop)
		defer late.Stop()
		if <-talked == nil && err == nil {
			return start, nil
		}
		return 0, fmt.Errorf("it ended before it answered (%v): %s", cmd.ProcessState, strings.TrimSpace(said.String()))
	case err = <-talked:
	}
	if err == nil {
		select {
		case err = <-ended:
			if err == nil {
				return start, nil
			}
		case <-time.After(5 * time.Second):
			err = errors.New("it did not end after its shutdown_reply")
		}
	}
	cancel() // kills it
	select {
	case <-ended: // so that what it said is complete
		if words := strings.TrimSpace(said.String()); words != "" {
			err = fmt.Errorf("%w; it said: %s", err, words)
		}
	case <-time.After(3 * time.Second):
	}
	return 0, err
}
