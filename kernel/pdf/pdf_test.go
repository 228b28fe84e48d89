package pdf

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
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

// How a PDF begins and ends: ISO 32000-1, 7.5.2 (header) and 7.5.5 (trailer).
func TestWhole(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{
		"%PDF-1.4\nbody\n%%EOF":         "",
		"%PDF-1.7\nbody\n%%EOF\n":       "",
		"%PDF-1.7\r\nbody\r\n%%EOF\r\n": "",
		"":                              "it gave an empty file",
		"<html></html>":                 "it gave a file that is no PDF",
		"%PDF-1.4\nbody":                "it gave a PDF that is cut off",
		"%PDF-1.4\n%%EOF\nmore body":    "it gave a PDF that is cut off",
	} {
		got := ""
		if err := whole([]byte(text)); err != nil {
			got = err.Error()
		}
		if got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// What a program says over many lines becomes one, of a length that can be read.
func TestFailureIsOneLine(t *testing.T) {
	t.Parallel()
	got := failure{errors.New("first\n\tsecond:\n")}.Error()
	if want := "Chromium cannot print the page: first second"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if n := len([]rune(failure{errors.New(strings.Repeat("ä ", 5000))}.Error())); n > 400 {
		t.Errorf("%d characters", n)
	}
}

// Both sizes of paper, and a sheet on its side, are what the PDF has: 72 points an
// inch, so that A4 is 595 × 842 and Letter 612 × 792.
func TestPaper(t *testing.T) {
	t.Parallel()
	if _, err := Find(); err != nil {
		t.Skip("needs the Debian package chromium")
	}
	ctx, stop := context.WithTimeout(t.Context(), 2*time.Minute)
	defer stop()
	const page = `<!DOCTYPE html><title>x</title><style>@page wide { size: landscape; } div { page: wide; }</style><p>on end<div>turned</div>`
	for name, c := range map[string]struct {
		on            Paper
		short, length int
	}{"A4": {A4, 595, 842}, "Letter": {Letter, 612, 792}} {
		data, err := Print(ctx, page, c.on)
		if err != nil {
			t.Fatal(err)
		}
		var sizes [][2]int
		for _, m := range regexp.MustCompile(`/MediaBox \[0 0 ([0-9.]+) ([0-9.]+)\]`).FindAllSubmatch(data, -1) {
			w, _ := strconv.ParseFloat(string(m[1]), 64)
			h, _ := strconv.ParseFloat(string(m[2]), 64)
			sizes = append(sizes, [2]int{int(w), int(h)})
		}
		if want := [][2]int{{c.short, c.length}, {c.length, c.short}}; !near(sizes, want) {
			t.Errorf("%s: pages of %v points, want %v", name, sizes, want)
		}
	}
}

// near allows for Chromium's rounding to its own units.
func near(a, b [][2]int) bool {
	return slices.EqualFunc(a, b, func(x, y [2]int) bool {
		return max(x[0]-y[0], y[0]-x[0], x[1]-y[1], y[1]-x[1]) <= 1
	})
}
