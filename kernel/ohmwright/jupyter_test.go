package main

import (
	"context"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"ohmwright/kernel/jupyter"
	"ohmwright/kernel/notebook"
)

// TestRealClient starts the kernel from its kernelspec with nbclient, a real
// Jupyter client, runs the demo note in it, changes an input and reads what the
// notebook then holds.
func TestRealClient(t *testing.T) {
	if testing.Short() {
		t.Skip("-short: starts a Jupyter client")
	}
	const python = "/usr/bin/python3"
	if exec.Command(python, "-c", "import nbclient, nbformat, jupyter_client").Run() != nil {
		t.Skip("needs the Debian package python3-nbclient")
	}
	dir := t.TempDir()
	program := filepath.Join(dir, "ohmwright")
	if out, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	if _, err := jupyter.Install(context.Background(), jupyter.InstallOptions{Spec: jupyter.Spec{Name: "ohmwright-test", Prefix: dir}, Owner: "ohmwright",
		Version: Version, DisplayName: "Ohmwright", Language: "go", Executable: program, Args: []string{"kernel", "{connection_file}"}}); err != nil {
		t.Fatal(err)
	}
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
		"Uin := 9V", "Iin := Uin/1kΩ", "Uin := 12V")
	scenario["cells"] = cells
	// (5.25 V − 3.295203 V) · 280 mA + 5.25 V · 90 µA = 547.8 mW; · 62 K/W = 33.96 K; + 60 °C.
	scenario["nbclient"] = []map[string]any{
		{"cell": 0, "text": "text/latex"},
		{"cell": 1, "text": "chosen 37.4 k"},
		{"cell": 3, "text": "93.96 "},
		{"cell": last, "text": "104 "},
		{"cell": last + 1, "text": "cannot add 3.295 V (voltage) and 60 mA (current)"},
		{"cell": last + 2, "text": "printed"},
		{"cell": last + 4, "text": "12 mA", "not": "9 mA"},
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
	cmd.Env = append(os.Environ(), "JUPYTER_PATH="+filepath.Join(dir, "share", "jupyter"))
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}
