package jupyter

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
)

// A Spec is where and under which name a kernel is known to front ends.
type Spec struct {
	Name   string // ASCII letters, digits, "-", ".", "_"; case does not count
	Prefix string // of a Python environment; "" is the user's own folder
}

var specName = regexp.MustCompile(`^[a-z0-9._-]*[a-z0-9][a-z0-9._-]*$`)

// Dir is the kernelspec's folder.
func (s Spec) Dir() (string, error) {
	name := strings.ToLower(s.Name)
	if !specName.MatchString(name) {
		return "", fmt.Errorf("kernel name %q: use ASCII letters, digits, - . and _ only", s.Name)
	}
	if s.Prefix != "" {
		prefix, err := filepath.Abs(s.Prefix)
		return filepath.Join(prefix, "share", "jupyter", "kernels", name), err
	}
	data, err := userData(runtime.GOOS, os.Getenv, os.UserHomeDir)
	return filepath.Join(data, "kernels", name), err
}

// userData is the user's Jupyter folder (JEP 105, jupyter_core's paths).
func userData(goos string, getenv func(string) string, home func() (string, error)) (string, error) {
	if dir := getenv("JUPYTER_DATA_DIR"); dir != "" {
		return dir, nil
	}
	if goos == "windows" {
		if dir := getenv("APPDATA"); dir != "" {
			return filepath.Join(dir, "jupyter"), nil
		}
	} else if dir := getenv("XDG_DATA_HOME"); dir != "" && goos != "darwin" {
		return filepath.Join(dir, "jupyter"), nil
	}
	dir, err := home()
	if err != nil {
		return "", fmt.Errorf("the user's Jupyter folder cannot be found (set JUPYTER_DATA_DIR): %w", err)
	}
	switch goos {
	case "darwin":
		return filepath.Join(dir, "Library", "Jupyter"), nil
	case "windows":
		return filepath.Join(dir, ".jupyter", "data"), nil
	}
	return filepath.Join(dir, ".local", "share", "jupyter"), nil
}

// kernelJSON is the file that describes a kernel (JEP 105).
type kernelJSON struct {
	Argv          []string                  `json:"argv"`
	DisplayName   string                    `json:"display_name"`
	Language      string                    `json:"language"`
	InterruptMode string                    `json:"interrupt_mode"`
	Env           map[string]string         `json:"env,omitempty"`
	Metadata      map[string]map[string]any `json:"metadata"`
}

// writeSpec writes the folder. Each file is replaced as a whole, kernel.json
// last: a front end never sees a description without what it describes.
func writeSpec(dir string, k kernelJSON) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	files, err := logoFiles()
	if err != nil {
		return err
	}
	description, err := json.MarshalIndent(k, "", " ")
	if err != nil {
		return err
	}
	for _, f := range append(files, logoFile{"kernel.json", append(description, '\n')}) {
		if err := replaceFile(filepath.Join(dir, f.name), f.data); err != nil {
			return err
		}
	}
	return nil
}

func replaceFile(path string, data []byte) error {
	f, err := os.CreateTemp(filepath.Dir(path), ".new-*")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	_, err = f.Write(data)
	if e := f.Chmod(0o644); err == nil && runtime.GOOS != "windows" {
		err = e
	}
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}

// checkOwner refuses a folder that holds something of somebody else: what is
// ours has the owner as a key of its metadata.
func checkOwner(dir, owner string) (exists bool, err error) {
	data, err := os.ReadFile(filepath.Join(dir, "kernel.json"))
	if errors.Is(err, os.ErrNotExist) {
		if left, _ := os.ReadDir(dir); len(left) > 0 {
			return false, fmt.Errorf("folder %s is in use and holds no kernel.json: choose another kernel name", dir)
		}
		return false, nil
	}
	if err != nil {
		return false, err
	}
	var k kernelJSON
	if err := json.Unmarshal(data, &k); err != nil || k.Metadata[owner] == nil {
		return true, fmt.Errorf("folder %s holds another program's kernel: choose another kernel name", dir)
	}
	return true, nil
}
