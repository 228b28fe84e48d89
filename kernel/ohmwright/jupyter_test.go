package main

import (
	"context"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"ohmwright/kernel/jupyter"
	"ohmwright/kernel/notebook"
)

// python is Debian's, whose packages the tests with a real client need.
const python = "/usr/bin/python3"

// registered builds the program, registers its kernel in a folder of the test
// and gives the environment in which Jupyter finds it there.
func registered(t *testing.T, name string) []string {
	t.Helper()
	if testing.Short() {
		t.Skip("-short: starts a Jupyter client")
	}
	for _, module := range []string{"nbclient", "nbconvert", "jupyter_client"} {
		if exec.Command(python, "-c", "import "+module).Run() != nil {
			t.Skipf("needs the Debian package python3-%s", strings.ReplaceAll(module, "_", "-"))
		}
	}
	dir := t.TempDir()
	program := filepath.Join(dir, "ohmwright")
	if out, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	if _, err := jupyter.Install(context.Background(), jupyter.InstallOptions{Spec: jupyter.Spec{Name: name, Prefix: dir}, Owner: "ohmwright",
		Version: Version, DisplayName: "Ohmwright", Language: "go", Executable: program, Args: []string{"kernel", "{connection_file}"}}); err != nil {
		t.Fatal(err)
	}
	return append(os.Environ(), "JUPYTER_PATH="+filepath.Join(dir, "share", "jupyter"))
}

// executeNote runs a note as a person's own script does, with nbclient.
const executeNote = `
import sys, nbformat
from nbclient import NotebookClient
nb = nbformat.read(sys.argv[1], as_version=4)
NotebookClient(nb, timeout=60).execute()
nbformat.write(nb, sys.argv[1])
`

// everyOutput is a note with each kind of output that a cell can have.
const everyOutput = `{"cells":[
{"cell_type":"code","id":"a","execution_count":null,"metadata":{},"outputs":[],"source":"2+2"},
{"cell_type":"code","id":"b","execution_count":null,"metadata":{},"outputs":[],"source":"x := 3V ± 1% // supply"},
{"cell_type":"code","id":"c","execution_count":null,"metadata":{},"outputs":[],"source":"y := 2*x;"},
{"cell_type":"code","id":"d","execution_count":null,"metadata":{},"outputs":[],"source":"fmt.Println(Nominal(x))\nz := x/1kΩ"},
{"cell_type":"code","id":"e","execution_count":null,"metadata":{},"outputs":[],"source":"fmt.Println(Nominal(x))"},
{"cell_type":"code","id":"f","execution_count":null,"metadata":{},"outputs":[],"source":"func double(v Quantity) Quantity { return 2*v }"},
{"cell_type":"code","id":"g","execution_count":null,"metadata":{},"outputs":[],"source":"double(z)\nRequire(z < 4mA, \"small\")"},
{"cell_type":"code","id":"h","execution_count":null,"metadata":{},"outputs":[],"source":"Spread(z)"}
],"metadata":{"kernelspec":{"name":"ohmwright","display_name":"Ohmwright","language":"go"}},"nbformat":4,"nbformat_minor":5}`

// What nbclient and nbconvert store for a note is what the command stores, and
// verify accepts it.
func TestRealClientStoresWhatRunStores(t *testing.T) {
	t.Parallel()
	env := registered(t, "ohmwright")
	for _, path := range demoNames(t) {
		ran := copyTo(t, path)
		if out, err := exec.Command("ohmwright", "run", ran).CombinedOutput(); err != nil {
			t.Fatalf("run: %v\n%s", err, out)
		}
		want := storedOutputs(t, ran)
		for name, args := range map[string][]string{
			"nbclient":  {"-c", executeNote},
			"nbconvert": {"-m", "nbconvert", "--to", "notebook", "--execute", "--inplace"},
		} {
			t.Run(filepath.Base(path)+" "+name, func(t *testing.T) {
				t.Parallel()
				note := withoutOutputs(t, copyTo(t, path))
				cmd := exec.Command(python, append(args, note)...)
				cmd.Env, cmd.Dir = env, filepath.Dir(note) // nbclient starts the kernel where it is
				if out, err := cmd.CombinedOutput(); err != nil {
					t.Fatalf("%v\n%s", err, out)
				}
				if diff := cmp.Diff(want, storedOutputs(t, note)); diff != "" {
					t.Errorf("run stores -, %s +:\n%s", name, diff)
				}
				if out, err := exec.Command("ohmwright", "verify", note).CombinedOutput(); err != nil {
					t.Errorf("verify: %v\n%s", err, out)
				}
			})
		}
	}
}

// withoutOutputs empties the cells of a file, so that nothing of it can pass
// for a result.
func withoutOutputs(t *testing.T, path string) string {
	t.Helper()
	nb := readJSON(t, path)
	for _, c := range nb["cells"].([]any) {
		if c := c.(map[string]any); c["cell_type"] == "code" {
			c["outputs"] = []any{}
		}
	}
	text, err := json.Marshal(nb)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, text, 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

// storedOutputs are the outputs of a file's code cells. How a cell is called
// is left out: a front end counts executions, "In [2]", the command cells. So
// is the empty display that waits below printed text for other text to come.
func storedOutputs(t *testing.T, path string) []any {
	t.Helper()
	var outputs []any
	shown := 0
	for _, c := range readJSON(t, path)["cells"].([]any) {
		c := c.(map[string]any)
		if c["cell_type"] != "code" {
			continue
		}
		list := slices.DeleteFunc(c["outputs"].([]any), func(o any) bool {
			return cmp.Equal(o.(map[string]any)["data"], map[string]any{"text/plain": []any{}}) || cmp.Equal(o.(map[string]any)["data"], map[string]any{"text/plain": ""})
		})
		for _, o := range list {
			shown++
			delete(o.(map[string]any), "execution_count")
			ours, _ := o.(map[string]any)["metadata"].(map[string]any)["ohmwright"].(map[string]any)
			values, _ := ours["values"].(map[string]any)
			for _, v := range values {
				delete(v.(map[string]any), "cell")
			}
		}
		outputs = append(outputs, list)
	}
	if shown == 0 {
		t.Fatalf("%s has no outputs", path)
	}
	return outputs
}

func readJSON(t *testing.T, path string) map[string]any {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var v map[string]any
	if err := json.Unmarshal(text, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

// TestRealClient starts the kernel from its kernelspec with nbclient, a real
// Jupyter client, runs the demo note in it, changes an input and reads what the
// notebook then holds.
func TestRealClient(t *testing.T) {
	t.Parallel()
	env := registered(t, "ohmwright-test")
	dir := t.TempDir()
	n, err := notebook.Read("../../notebooks/20-logic-rail.ipynb")
	if err != nil {
		t.Fatal(err)
	}
	scenario := map[string]any{"kernel": "ohmwright-test"}
	var cells []string
	for _, c := range n.Cells() {
		if c.Type() == "code" {
			cells = append(cells, c.Source())
		}
	}
	last := len(cells)
	// What is added: a dependent, an error, printed text, and an input that
	// is defined again after something was computed from it.
	cells = append(cells, "hot := Tj + 10K // with a warmer housing", "bad := Vout + Iout", "fmt.Println(\"printed\")",
		"Uin := 9V", "Iin := Uin/1kΩ", "Markdown(`It is {Uin}, $x$.`)", "Uin := 12V")
	scenario["cells"] = cells
	// (5 V − 3.295203 V) · 60 mA + 5 V · 90 µA = 102.74 mW; · 62 K/W = 6.37 K; + 25 °C.
	scenario["nbclient"] = []map[string]any{
		{"cell": 0, "text": "text/latex"},
		{"cell": 1, "text": "chosen 37.4 k"},
		{"cell": 3, "text": "31.37 "},
		{"cell": last, "text": "41.37 "},
		{"cell": last + 1, "text": "cannot add 3.295 V (voltage) and 60 mA (current)"},
		{"cell": last + 2, "text": "printed"},
		{"cell": last + 4, "text": "12 mA", "not": "<b>9"},
		{"cell": last + 5, "text": `"text/markdown": "It is 12 V, $x$.\n"`, "not": "9 V"},
		{"cell": last + 4, "text": "before Uin changed: Iin 9 mA"},
	}
	text, err := json.Marshal(scenario)
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(dir, "scenario.json")
	if err := os.WriteFile(file, text, 0o666); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(python, "../jupyter/testdata/nbclient_check.py", file, "--out", filepath.Join(dir, "out.ipynb"))
	cmd.Env = env
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}
