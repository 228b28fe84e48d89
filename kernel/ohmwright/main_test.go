package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// The command is this test binary under another name on PATH, so nothing is
// built for the tests.
func TestMain(m *testing.M) {
	// Under the race detector every process would sleep for a second at its end.
	if os.Getenv("GORACE") == "" {
		os.Setenv("GORACE", "atexit_sleep_ms=0")
	}
	testscript.Main(m, map[string]func(){"ohmwright": func() { os.Exit(Main()) }})
}

// TestScripts drives the command as a user does. In a script,
//
//	status N ohmwright ARG…    runs the command, wants exit status N, and looks
//	                           for insides in all that it prints
//	edit FILE OLD NEW          replaces the only OLD in a file
//	json FILE PATH [WANT]      looks up document/key/key in a file of JSON lines
//	shape FILE                 wants FILE to be what run --json prints, field by field
//	tree FILE                  the same for why --json
//	changed A B NAME…          wants the values of two run --json to differ in
//	                           these names and in no other
//	until FILE TEXT            waits until a file holds a text
//	clean FILE…                looks for insides, times and paths in files
//
// A file NAME.cells of the archive becomes the notebook NAME.ipynb: lines of
// --- divide its code cells.
func TestScripts(t *testing.T) {
	t.Parallel()
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join("testdata", "script"),
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		ContinueOnError:     true, // one run tells all that is wrong
		Setup:               makeNotebooks,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"status":  statusCmd,
			"edit":    editCmd,
			"json":    jsonCmd,
			"shape":   shapeCmd,
			"tree":    treeCmd,
			"changed": changedCmd,
			"clean":   cleanCmd,
			"until":   untilCmd,
		},
	})
}

// makeNotebooks makes a notebook of every file of cells in the script.
func makeNotebooks(e *testscript.Env) error {
	e.Setenv("GORACE", os.Getenv("GORACE"))
	return filepath.WalkDir(e.WorkDir, func(p string, d os.DirEntry, err error) error {
		if err != nil || filepath.Ext(p) != ".cells" {
			return err
		}
		text, err := os.ReadFile(p)
		if err != nil {
			return err
		}
		cells := strings.Split(strings.TrimSuffix(string(text), "\n"), "\n---\n")
		return os.WriteFile(strings.TrimSuffix(p, ".cells")+".ipynb", notebookOf(cells...), 0o666)
	})
}

// notebookOf writes code cells as nbformat 4.5 has them, with the layout of
// Python's nbformat package: one space a level, keys sorted.
func notebookOf(cells ...string) []byte {
	list := []any{}
	for i, c := range cells {
		list = append(list, map[string]any{
			"cell_type": "code", "execution_count": nil, "id": fmt.Sprintf("code-%02d", i+1), "metadata": map[string]any{},
			"outputs": []any{}, "source": strings.SplitAfter(c, "\n"),
		})
	}
	var b strings.Builder
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	if err := enc.Encode(map[string]any{"cells": list, "metadata": map[string]any{}, "nbformat": 4, "nbformat_minor": 5}); err != nil {
		panic(err) // maps of texts always encode
	}
	return []byte(b.String())
}

// insides are what a user must never see: the letter that marks names made
// by the program, import paths, goroutine traces, Go files, and what fmt and
// the Go runtime write when something is wrong in the program.
var insides = regexp.MustCompile(`ƣ|ohmwright/\w|\bgoroutine \d|\.go:\d|runtime error|runtime\.|reflect[.:]|%!|0xc0|float64 \(|<nil>|internal error`)

// inside gives the line in which a text shows something of the program's insides.
func inside(text string) string {
	for _, line := range strings.Split(text, "\n") {
		if found := insides.FindString(line); found != "" {
			return fmt.Sprintf("%q in: %s", found, line)
		}
	}
	return ""
}
