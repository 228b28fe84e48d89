package jupyter

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// The demo notes in the pages of real front ends: the classic notebook and
// JupyterLab's notebook panel, in headless Chromium. testdata/frontend has what
// is done there and what must be seen; "prepare" beside it installs what it
// needs into a folder that OHMWRIGHT_FRONTEND names. The pictures that are taken
// on the way go into the folder that OHMWRIGHT_PICTURES names.
func TestNotesInFrontEnds(t *testing.T) {
	env := needFrontEnds(t)
	pictures := os.Getenv("OHMWRIGHT_PICTURES")
	if pictures == "" {
		pictures = t.TempDir()
	}
	for _, front := range []string{"classic", "lab"} {
		for _, note := range []string{"10-supply-sense", "20-logic-rail"} {
			t.Run(front+" "+note, func(t *testing.T) {
				t.Parallel()
				cmd := exec.Command("node", "testdata/frontend/check.mjs", front, "../../notebooks/"+note+".ipynb", filepath.Join(pictures, note))
				cmd.Env = env
				out, err := cmd.CombinedOutput()
				if err != nil {
					t.Errorf("%v\n%s", err, out)
				}
				if n := strings.Count(string(out), "ok    "); n == 0 {
					t.Error("nothing was checked")
				} else {
					t.Logf("%d checks passed", n)
				}
			})
		}
	}
}

// needFrontEnds skips the test where something is missing, builds and registers
// the kernel, and gives the environment in which a server finds it.
func needFrontEnds(t *testing.T) []string {
	needPython(t, map[string]string{"notebook": "python3-notebook", "jupyter_server": "python3-jupyter-server"})
	for program, pkg := range map[string]string{"node": "nodejs", "/usr/bin/chromium": "chromium"} {
		if _, err := exec.LookPath(program); err != nil {
			t.Skipf("needs the Debian package %s", pkg)
		}
	}
	folder := os.Getenv("OHMWRIGHT_FRONTEND")
	if folder == "" {
		t.Skip("needs a folder with npm's packages: run testdata/frontend/prepare FOLDER and set OHMWRIGHT_FRONTEND=FOLDER")
	}
	if _, err := os.Stat(filepath.Join(folder, "build", "page.html")); err != nil {
		t.Skipf("OHMWRIGHT_FRONTEND=%s has no bundled page: run testdata/frontend/prepare %[1]s", folder)
	}
	dir := t.TempDir()
	program := filepath.Join(dir, "ohmwright")
	if out, err := exec.Command("go", "build", "-o", program, "../ohmwright").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	if out, err := exec.Command(program, "install", "--prefix", dir).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return append(os.Environ(), "JUPYTER_PATH="+filepath.Join(dir, "share", "jupyter"))
}
