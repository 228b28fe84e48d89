package pdf

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"
)

// A page becomes a PDF, whose first bytes ISO 32000 fixes; what comes from
// outside or runs does not keep it.
func TestPrint(t *testing.T) {
	t.Parallel()
	if _, err := Find(); err != nil {
		t.Skip("needs the Debian package chromium")
	}
	ctx, stop := context.WithTimeout(t.Context(), time.Minute)
	defer stop()
	data, err := Print(ctx, `<!DOCTYPE html><title>x</title><script>for (;;) {}</script><p>text`, A4)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(data, []byte("%PDF-")) {
		t.Errorf("begins with %.20q", data)
	}
}

// A Chromium that says nothing is ended in time.
func TestHangs(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("needs a shell")
	}
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "chromium"), []byte("#!/bin/sh\n/bin/sleep 100\n"), 0o755); err != nil {
		t.Fatal(err)
	}
	t.Setenv("PATH", dir)
	ctx, stop := context.WithTimeout(t.Context(), time.Second)
	defer stop()
	began := time.Now()
	if _, err := Print(ctx, "<p>x", A4); !errors.Is(err, ErrTime) {
		t.Errorf("got %v", err)
	}
	if d := time.Since(began); d > 20*time.Second {
		t.Errorf("ended after %v", d)
	}
}

func TestNoChromium(t *testing.T) {
	if runtime.GOOS == "darwin" {
		t.Skip("Chromium is found outside PATH there")
	}
	t.Setenv("PATH", t.TempDir())
	if _, err := Print(t.Context(), "<p>x", A4); !errors.Is(err, ErrNone) {
		t.Errorf("got %v", err)
	}
}
