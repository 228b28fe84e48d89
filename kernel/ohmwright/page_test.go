package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// TestRealClientReport holds the report of the demo notes against html-validate
// (the W3C's rules of HTML and of accessibility) and axe-core, in Chromium with
// the network off.
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
	page := filepath.Join(dir, "report.html")
	c := command()
	c.SetArgs([]string{"report", "../../notebooks", "--out", page})
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
