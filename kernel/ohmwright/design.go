package main

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"time"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/folder"
	"ohmwright/kernel/note"
	"ohmwright/kernel/notebook"
)

// noteFile is a notebook with the note that its cells make.
type noteFile struct {
	path     string
	file     *notebook.Notebook
	cells    []*notebook.Cell // the code cells
	note     *note.Note
	results  []*note.Result
	progress *progress
	hash     string            // of the file, SHA-256
	read     map[string]string // of each file that its cells read, as it was last
}

// settings are the flags that several commands share.
type settings struct {
	set      []string
	redesign bool
	timeout  time.Duration
	json     bool
}

// check refuses flags that mean nothing.
func (s settings) check() error {
	if s.timeout < 0 {
		return fmt.Errorf("--timeout %v: write a duration such as 10s, or 0 for no limit", s.timeout)
	}
	return checkSet(s, nil)
}

// findNotes lists the notebooks that the arguments name; a folder is a design
// and stands for all notebooks below it.
func findNotes(args []string) ([]string, error) {
	var paths []string
	for _, a := range args {
		info, err := os.Stat(a)
		if errors.Is(err, fs.ErrNotExist) {
			return nil, fmt.Errorf("%s: there is no such file or folder", a)
		} else if err != nil {
			return nil, err
		}
		if !info.IsDir() {
			paths = append(paths, a)
			continue
		}
		found, _, err := search(a)
		if err != nil {
			return nil, err
		}
		if len(found) == 0 {
			return nil, fmt.Errorf("%s: there is no note (.ipynb) in this folder", a)
		}
		paths = append(paths, found...)
	}
	return paths, nil
}

// search lists the notebooks and the folders of a design. What could not be
// looked at is left out, and the first such error is given.
func search(design string) (notes, folders []string, first error) {
	_ = filepath.WalkDir(design, func(p string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			if first == nil {
				first = err
			}
			return fs.SkipDir
		case d.IsDir() && p != design && strings.HasPrefix(d.Name(), "."):
			return fs.SkipDir // .ipynb_checkpoints, .git
		case d.IsDir():
			folders = append(folders, p)
		case filepath.Ext(p) == ".ipynb":
			notes = append(notes, p)
		}
		return nil
	})
	sort.Strings(notes)
	return notes, folders, first
}

// load reads a notebook and makes a note of its code cells.
func load(path string, world *host.World, s settings, talk io.Writer) (*noteFile, error) {
	f, err := notebook.Read(path)
	if err != nil {
		return nil, err
	}
	n := &noteFile{path: path, progress: &progress{out: talk, path: path, start: time.Now()}, read: map[string]string{}}
	read := func(name string) ([]byte, error) {
		text, err := n.open(name)
		if delete(n.read, name); err == nil {
			n.read[name] = hashOf(text)
		}
		return text, err
	}
	n.note = note.New(note.Options{World: world, CellTime: s.timeout, Progress: n.progress.step, Open: read})
	n.take(f)
	return n, nil
}

// open reads a file that a cell of the note names.
func (n *noteFile) open(name string) ([]byte, error) {
	return folder.Of(filepath.Dir(n.path)).Open(name)
}

// take makes the code cells of a notebook those of the note. Cells that it had
// keep their values.
func (n *noteFile) take(f *notebook.Notebook) {
	n.file, n.hash, n.cells = f, hashOf(f.Bytes()), nil
	var sources []note.Source
	known := map[string]bool{}
	for _, c := range f.Cells() {
		if c.Type() != "code" {
			continue
		}
		n.cells = append(n.cells, c)
		label := fmt.Sprintf("cell %d", len(n.cells))
		id := c.ID() // stays where cells are put in before it
		if id == "" || known[id] {
			id = label // with a space, which no id has
		}
		known[id] = true
		sources = append(sources, note.Source{ID: id, Label: label, Code: c.Source()})
	}
	n.note.Set(sources)
}

func hashOf(text []byte) string { return fmt.Sprintf("%x", sha256.Sum256(text)) }

// whatIf computes the note with the names of --set that it defines.
func (n *noteFile) whatIf(ctx context.Context, s settings) error {
	set := map[string]string{}
	for _, a := range s.set {
		name, value, _ := strings.Cut(a, "=")
		if n.defines(name) {
			set[name] = value
		}
	}
	if len(set) == 0 {
		return nil
	}
	if err := n.note.WhatIf(set, s.redesign); err != nil {
		return err
	}
	n.results = n.note.Run(ctx)
	return nil
}

func (n *noteFile) defines(name string) bool {
	for _, r := range n.results {
		for _, d := range r.Defines {
			if d == name {
				return true
			}
		}
	}
	return false
}

// failed reports whether a cell has an error or a requirement does not hold.
func (n *noteFile) failed() bool {
	for _, r := range n.results {
		if r.State != note.Done {
			return true
		}
		for _, i := range r.Items {
			if note.Fails(i) {
				return true
			}
		}
	}
	return false
}

// checkSet refuses malformed and unknown names of --set.
func checkSet(s settings, notes []*noteFile) error {
	for _, a := range s.set {
		name, value, ok := strings.Cut(a, "=")
		if !ok || strings.TrimSpace(name) == "" || strings.TrimSpace(value) == "" {
			return fmt.Errorf("--set %s: write a name and its value, --set Vin=9V", a)
		}
		if len(notes) == 0 {
			if err := cell.CheckExpression(value); err != nil {
				return fmt.Errorf("--set %s: %w", a, err)
			}
			continue
		}
		known := false
		for _, n := range notes {
			known = known || n.defines(name)
		}
		if !known {
			return notes[0].note.WhatIf(map[string]string{name: value}, false)
		}
	}
	return nil
}

// progress tells what a long design is at, from its second second on.
type progress struct {
	out   io.Writer
	path  string
	start time.Time
	last  time.Time
}

func (p *progress) step(label string, done, total int) {
	now := time.Now()
	if now.Sub(p.start) < time.Second || now.Sub(p.last) < 500*time.Millisecond {
		return
	}
	p.last = now
	fmt.Fprintf(p.out, "%s: %s, %d of %d done\n", p.path, label, done, total)
}
