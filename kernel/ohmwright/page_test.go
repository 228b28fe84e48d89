package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// broadNote has what is too broad for a sheet on end: as many cases as make a table
// of eleven columns, and a long formula in a cell and in the text.
var broadNote = `{"cells": [
{"cell_type": "markdown", "id": "a", "metadata": {}, "source": "# Broad\n\n$$P = ` + strings.Repeat(`\\left(1+\\frac{I R}{V}\\right)`, 14) + `$$\n\n| a | b | c | d | e | f | g | h | i | j |\n` + strings.Repeat("|--", 10) + `|\n` + strings.Repeat("| 12.34 mV and a word ", 10) + `|\n\nhttps://example.org/` + strings.Repeat("unbroken", 30) + `"},
{"cell_type": "code", "id": "b", "execution_count": null, "metadata": {}, "outputs": [], "source": "Vin := Range(18V, 24V, 32V) // supply\nR := 10Ω\nI := Vin/R\nRequire(I <= 4A, \"the source carries it in every mode that the budget names\")"},
{"cell_type": "code", "id": "c", "execution_count": null, "metadata": {}, "outputs": [], "source": "` + cases(9) + `"},
{"cell_type": "code", "id": "d", "execution_count": null, "metadata": {}, "outputs": [], "source": "P := I*I*R` + strings.Repeat("*(1+I*R/Vin)*(1+Vin/(I*R))", 7) + `"}
], "metadata": {}, "nbformat": 4, "nbformat_minor": 5}`

func cases(n int) string {
	text := ""
	for i := range n {
		text += fmt.Sprintf(`Case(\"mode number %d\", Vin, %dV)\n`, i+1, 18+i)
	}
	return text
}

// TestRealClientReport holds the report of the demo notes, and of one that is
// broad, against html-validate (the W3C's rules of HTML and of accessibility) and
// axe-core, in Chromium with the network off.
func TestRealClientReport(t *testing.T) {
	t.Parallel()
	front := os.Getenv("OHMWRIGHT_FRONTEND")
	if front == "" {
		t.Skip("needs a folder with npm's packages: run kernel/jupyter/testdata/frontend/prepare FOLDER and set OHMWRIGHT_FRONTEND=FOLDER")
	}
	if _, err := exec.LookPath("node"); err != nil {
		t.Skip("needs the Debian package nodejs")
	}
	if _, err := os.Stat("/usr/bin/chromium"); err != nil {
		t.Skip("needs the Debian package chromium")
	}
	dir := t.TempDir()
	broad := filepath.Join(dir, "broad.ipynb")
	if err := os.WriteFile(broad, []byte(broadNote), 0o644); err != nil {
		t.Fatal(err)
	}
	page := filepath.Join(dir, "report.html")
	c := command()
	c.SetArgs([]string{"report", "../../notebooks", broad, "--out", page})
	if err := c.Execute(); err != nil {
		t.Fatal(err)
	}
	config := filepath.Join(dir, ".htmlvalidate.json")
	if err := os.WriteFile(config, []byte(`{"root":true,"extends":["html-validate:standard","html-validate:a11y"]}`), 0o644); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("node", filepath.Join(front, "node_modules", ".bin", "html-validate"), "--config", config, page).CombinedOutput(); err != nil {
		t.Errorf("html-validate: %v\n%s", err, out)
	}
	if out, err := exec.Command("node", "testdata/page.mjs", page).CombinedOutput(); err != nil || len(out) > 0 {
		t.Errorf("in Chromium: %v\n%s", err, out)
	}
}
