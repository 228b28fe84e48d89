package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"
)

// thirtyCells is a note as a designer writes one: ten stages of an input
// cell, a cell that computes and a cell that chooses, calls and requires.
func thirtyCells() []byte {
	var cells []string
	for i := range 10 {
		vin := fmt.Sprintf("%dV", 6+i)
		cells = append(cells,
			fmt.Sprintf("Vin%d := Range(%s, %s, %s)   // supply of stage %d [system spec 4.%d]\n"+
				"// Ten times above the pin current.\nRbot%d := 10kΩ ± 1%%   // lower resistor [assumed]\nVref%d := Band(788mV, 800mV, 812mV)   // reference [datasheet]",
				i, vin, vin, vin, i, i, i, i),
			fmt.Sprintf("Vout%d := Nominal(Vin%d) / 2   // output\nI%d := Vout%d / 100Ω   // load\nPd%d := (Nominal(Vin%d) - Vout%d) * I%d   // loss",
				i, i, i, i, i, i, i, i),
			fmt.Sprintf("Rtop%d := Nearest(E96, Rbot%d*(Vout%d/Vref%d - 1))   // upper resistor\n"+
				"m%d := divider.Measuring(divider.MeasuringInputs{Input: Vout%d, Upper: Rtop%d, Lower: Rbot%d, Reference: 3.3V, Bits: 12})\n"+
				"Tj%d := 25°C + Pd%d*62°C/W   // junction\nRequire(Tj%d <= 125°C, \"stage %d stays cool\")",
				i, i, i, i, i, i, i, i, i, i, i, i),
		)
	}
	return notebookOf(cells...)
}

// BenchmarkRun30Cells is ohmwright run on a note of 30 cells as a whole
// process, from its start to its end, with the file written (aim: 120 ms).
func BenchmarkRun30Cells(b *testing.B) {
	dir := b.TempDir()
	command := filepath.Join(dir, "ohmwright")
	if runtime.GOOS == "windows" {
		command += ".exe"
	}
	if out, err := exec.Command("go", "build", "-o", command, ".").CombinedOutput(); err != nil {
		b.Fatalf("build: %v\n%s", err, out)
	}
	path := filepath.Join(dir, "thirty.ipynb")
	fresh := thirtyCells()
	for b.Loop() {
		b.StopTimer()
		if err := os.WriteFile(path, fresh, 0o666); err != nil {
			b.Fatal(err)
		}
		b.StartTimer()
		if out, err := exec.Command(command, "run", path).CombinedOutput(); err != nil {
			b.Fatalf("run: %v\n%s", err, out)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Milliseconds())/float64(b.N), "ms/run")
}

// The note of the benchmark computes: 30 cells, every stage with its choice
// and its requirement.
func TestThirtyCells(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "thirty.ipynb")
	if err := os.WriteFile(path, thirtyCells(), 0o666); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("ohmwright", "run", path).CombinedOutput()
	if err != nil {
		t.Fatalf("run: %v\n%s", err, out)
	}
	if found := inside(string(out)); found != "" {
		t.Errorf("shows insides, %s", found)
	}
}
