package jupyter

import (
	"bytes"
	"context"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// testSpec is this test binary as a kernel.
func testSpec(prefix string) InstallOptions {
	return InstallOptions{
		Spec: Spec{Name: "Lines", Prefix: prefix}, Owner: "lines", Version: "1.0",
		DisplayName: "Lines (test)", Language: "lines",
		Args: []string{"{connection_file}"}, Env: map[string]string{asKernel: "1", "GORACE": "atexit_sleep_ms=0"},
	}
}

func TestInstall(t *testing.T) {
	t.Parallel()
	prefix := t.TempDir()
	done, err := Install(context.Background(), testSpec(prefix))
	if err != nil {
		t.Fatal(err)
	}
	dir := filepath.Join(prefix, "share", "jupyter", "kernels", "lines") // lower case: case does not count
	if done.Dir != dir || done.Replaced || done.Start <= 0 {
		t.Errorf("%+v", done)
	}
	data, err := os.ReadFile(filepath.Join(dir, "kernel.json"))
	if err != nil {
		t.Fatal(err)
	}
	var k map[string]any
	if err := json.Unmarshal(data, &k); err != nil {
		t.Fatal(err)
	}
	argv := k["argv"].([]any)
	if !filepath.IsAbs(argv[0].(string)) || argv[1] != "{connection_file}" || len(argv) != 2 {
		t.Errorf("argv %v", argv)
	}
	if k["interrupt_mode"] != "message" || k["display_name"] != "Lines (test)" || k["language"] != "lines" {
		t.Errorf("%s", data)
	}
	for name, value := range k["metadata"].(map[string]any) { // JEP 105: objects
		if _, ok := value.(map[string]any); !ok {
			t.Errorf("metadata %s is %v", name, value)
		}
	}
	for _, claim := range []string{"kernel_protocol_version", "supported_encryption"} {
		if strings.Contains(string(data), claim) {
			t.Errorf("it claims %s", claim)
		}
	}
	files, _ := os.ReadDir(dir)
	if len(files) != 4 {
		t.Errorf("files %v", files)
	}
	for name, size := range map[string]int{"logo-32x32.png": 32, "logo-64x64.png": 64} {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		c, err := png.DecodeConfig(bytes.NewReader(data))
		if err != nil || c.Width != size || c.Height != size {
			t.Errorf("%s: %+v %v", name, c, err)
		}
	}

	again, err := Install(context.Background(), testSpec(prefix))
	if err != nil || !again.Replaced {
		t.Errorf("again: %+v %v", again, err)
	}
	if _, err := Remove(Spec{Name: "lines", Prefix: prefix}, "someone"); err == nil {
		t.Error("another owner removed it")
	}
	if got, err := Remove(Spec{Name: "lines", Prefix: prefix}, "lines"); err != nil || got != dir {
		t.Errorf("remove: %s %v", got, err)
	}
	if _, err := os.Stat(dir); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the folder stays: %v", err)
	}
	if _, err := Remove(Spec{Name: "lines", Prefix: prefix}, "lines"); err == nil || !strings.Contains(err.Error(), "is not installed") {
		t.Errorf("remove again: %v", err)
	}
}

func TestInstallRefuses(t *testing.T) {
	t.Parallel()
	foreign := t.TempDir()
	dir := filepath.Join(foreign, "share", "jupyter", "kernels", "lines")
	os.MkdirAll(dir, 0o755)
	theirs := []byte(`{"argv":["x"],"display_name":"x","language":"x"}`)
	os.WriteFile(filepath.Join(dir, "kernel.json"), theirs, 0o644)
	occupied := t.TempDir()
	os.MkdirAll(filepath.Join(occupied, "share", "jupyter", "kernels", "lines", "thesis"), 0o755)
	for name, c := range map[string]struct {
		change func(*InstallOptions)
		want   string
	}{
		"a name with a slash":         {func(o *InstallOptions) { o.Name = "../x" }, "use ASCII letters"},
		"a name of dots":              {func(o *InstallOptions) { o.Name = ".." }, "use ASCII letters"},
		"no name":                     {func(o *InstallOptions) { o.Name = "" }, "use ASCII letters"},
		"another program's":           {func(o *InstallOptions) { o.Prefix = foreign }, "another program's kernel"},
		"a folder in use":             {func(o *InstallOptions) { o.Prefix = occupied }, "is in use"},
		"a program that is not there": {func(o *InstallOptions) { o.Executable = "/nowhere/at/all" }, "does not work"},
		"a kernel that fails":         {func(o *InstallOptions) { o.Args = []string{"/no/such/file"} }, "connection file: open /no/such/file"},
	} {
		o := testSpec(t.TempDir())
		c.change(&o)
		if _, err := Install(context.Background(), o); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want one that says %q", name, err, c.want)
		}
	}
	if data, _ := os.ReadFile(filepath.Join(dir, "kernel.json")); !bytes.Equal(data, theirs) {
		t.Error("another program's kernel.json was changed")
	}
}

// From jupyter_core's paths and JEP 105.
func TestUserData(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		goos, env, want string
	}{
		{"linux", "", "/home/x/.local/share/jupyter"},
		{"linux", "XDG_DATA_HOME=/xdg", "/xdg/jupyter"},
		{"linux", "JUPYTER_DATA_DIR=/jd", "/jd"},
		{"darwin", "", "/home/x/Library/Jupyter"},
		{"darwin", "XDG_DATA_HOME=/xdg", "/home/x/Library/Jupyter"},
		{"windows", "APPDATA=/ad", "/ad/jupyter"},
		{"windows", "JUPYTER_DATA_DIR=/jd", "/jd"},
	} {
		getenv := func(name string) string {
			if k, v, _ := strings.Cut(c.env, "="); k == name {
				return v
			}
			return ""
		}
		got, err := userData(c.goos, getenv, func() (string, error) { return "/home/x", nil })
		if err != nil || filepath.ToSlash(got) != c.want {
			t.Errorf("%s %s: %s %v, want %s", c.goos, c.env, got, err, c.want)
		}
	}
	_, err := userData("linux", func(string) string { return "" }, func() (string, error) { return "", errors.New("no home") })
	if err == nil || !strings.Contains(err.Error(), "JUPYTER_DATA_DIR") {
		t.Errorf("without a home: %v", err)
	}
}

func TestTemporaryProgram(t *testing.T) {
	t.Parallel()
	for path, want := range map[string]bool{
		"/tmp/go-build123/b001/exe/ohmwright":         true,
		"/home/x/.cache/go-build/b7/b7e0-d/ohmwright": true,
		"/tmp/go-build123/b001/jupyter.test":          false,
		"/home/x/go/bin/ohmwright":                    false,
		"/home/x/build/ohmwright":                     false,
	} {
		if got := temporary(path); got != want {
			t.Errorf("%s: %v, want %v", path, got, want)
		}
	}
}

func TestFrontEnds(t *testing.T) {
	t.Parallel()
	got := frontEnds(func(name string) (string, error) {
		if name == "jupyter-lab" || name == "code" {
			return "/bin/" + name, nil
		}
		return "", errors.New("not found")
	})
	if s := fmt.Sprint(got); s != "[{JupyterLab /bin/jupyter-lab} {Visual Studio Code (with its Jupyter extension) /bin/code}]" {
		t.Error(s)
	}
}

// Both forms are one drawing: the points where the SVG's shapes must be have
// their colour in the PNG.
func TestLogo(t *testing.T) {
	t.Parallel()
	d := xml.NewDecoder(bytes.NewReader(logoSVG()))
	elements := 0
	for {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if _, ok := token.(xml.StartElement); ok {
			elements++
		}
	}
	if elements != 4 || bytes.Contains(logoSVG(), []byte("NaN")) {
		t.Errorf("%d elements: %s", elements, logoSVG())
	}
	data, err := logoPNG(64)
	if err != nil {
		t.Fatal(err)
	}
	m, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what string
		x, y int
		want string
	}{
		{"outside the rounded corner", 0, 0, "00000000"},
		{"the ground", 4, 32, "1d3b3aff"},
		{"inside the arch", 32, 24, "1d3b3aff"},
		{"the gap between the legs", 32, 38, "1d3b3aff"},
		{"the top of the arch", 32, 10, "f4e7c5ff"},
		{"the arch's left side", 17, 24, "f4e7c5ff"},
		{"the right leg", 41, 40, "f4e7c5ff"},
		{"the level line's left end", 11, 44, "f4e7c5ff"},
		{"the level line's right end", 52, 44, "f4e7c5ff"},
		{"the peg", 32, 51, "e08a2eff"},
	} {
		r, g, b, a := m.At(c.x, c.y).RGBA()
		if got := fmt.Sprintf("%02x%02x%02x%02x", r>>8, g>>8, b>>8, a>>8); got != c.want {
			t.Errorf("%s is %s, want %s", c.what, got, c.want)
		}
	}
}
