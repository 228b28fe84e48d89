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
	"slices"
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
	imports  map[string]string // of each note that they import, what its cells said
	beside   string            // where files are that are not beside it, as in settings
	told     map[string]bool   // those that were taken from there
}

// settings are the flags that several commands share.
type settings struct {
	set      []string
	redesign bool
	timeout  time.Duration
	json     bool
	// beside is where the files are that git has not put beside a version of a
	// note: its folder in the working tree; "" if there is no such folder.
	beside string
}

// check refuses flags that mean nothing.
func (s settings) check() error {
	if s.timeout < 0 {
		return fmt.Errorf("--timeout %v: write a duration such as 10s, or 0 for no limit", s.timeout)
	}
	return checkSet(s, nil)
}

// findNotes lists the notebooks that the arguments name; a folder is a design
// and stands for all notebooks below it. One that is named twice
// stands once: its parts are no second ones.
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
	seen := map[string]bool{}
	return slices.DeleteFunc(paths, func(p string) bool {
		whole, err := filepath.Abs(p)
		again := err == nil && seen[whole]
		seen[whole] = true
		return again
	}), nil
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
	n := &noteFile{path: path, progress: &progress{out: talk, path: path, start: time.Now()}, read: map[string]string{}, imports: map[string]string{}, beside: s.beside, told: map[string]bool{}}
	open := func(name string) ([]byte, error) {
		text, err := n.open(name)
		if delete(n.read, name); err == nil {
			n.read[name] = hashOf(text)
		}
		return text, err
	}
	imported := func(name string) ([]note.Source, error) {
		cells, hash, err := n.cellsOf(name)
		delete(n.read, name)
		if n.imports[name] = fmt.Sprint(err); err == nil {
			n.read[name], n.imports[name] = hash, codeOf(cells)
		}
		return cells, err
	}
	n.note = note.New(note.Options{World: world, CellTime: s.timeout, Progress: n.progress.step, Open: open, Note: imported})
	n.take(f)
	return n, nil
}

// take makes the code cells of a notebook those of the note. Cells that it had
// keep their values.
func (n *noteFile) take(f *notebook.Notebook) {
	n.file, n.hash, n.cells = f, hashOf(f.Bytes()), nil
	for _, c := range f.Cells() {
		if c.Type() == "code" {
			n.cells = append(n.cells, c)
		}
	}
	n.note.Set(folder.Sources(f))
}

// open reads a table that a cell of the note names.
func (n *noteFile) open(name string) ([]byte, error) { return n.fileBeside(name, folder.Folder.Open) }

// cellsOf reads the cells of a note that a cell imports.
func (n *noteFile) cellsOf(name string) (cells []note.Source, hash string, err error) {
	text, err := n.fileBeside(name, folder.Folder.NoteText)
	if err != nil {
		return nil, "", err
	}
	cells, err = folder.Cells(name, text)
	return cells, hashOf(text), err
}

// fileBeside reads a file beside the note. A version of a note that git puts
// somewhere else has none there: then it is the one of the working tree.
func (n *noteFile) fileBeside(name string, open func(folder.Folder, string) ([]byte, error)) ([]byte, error) {
	text, err := open(folder.Of(filepath.Dir(n.path)), name)
	if err != nil && n.beside != "" && !same(n.beside, filepath.Dir(n.path)) {
		if now, failed := open(folder.Of(n.beside), name); failed == nil {
			if !n.told[name] {
				fmt.Fprintf(n.progress.out, "%s: %s is read as it is now: git hands a note without the files beside it\n", filepath.Base(n.path), name)
				n.told[name] = true
			}
			return now, nil
		}
	}
	return text, err
}

// codeOf is what cells say.
func codeOf(cells []note.Source) string {
	var b strings.Builder
	for _, c := range cells {
		b.WriteString(c.ID + "\n" + c.Code + "\n")
	}
	return b.String()
}

func hashOf(text []byte) string { return fmt.Sprintf("%x", sha256.Sum256(text)) }

// whatIf computes the note with the names of --set that it defines, or that the
// notes define that it imports and that are computed as well.
func (n *noteFile) whatIf(ctx context.Context, s settings, notes []*noteFile) error {
	set := map[string]string{}
	for _, i := range n.note.Imports() {
		for _, o := range notes {
			if !same(filepath.Join(filepath.Dir(n.path), filepath.FromSlash(i.File)), o.path) {
				continue
			}
			for _, a := range s.set {
				if name, value, _ := strings.Cut(a, "="); o.defines(name) && !i.Gives(name) {
					set[i.Prefix+name] = value
				}
			}
		}
	}
	for _, a := range s.set {
		name, value, _ := strings.Cut(a, "=")
		if n.note.Knows(name) {
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
			known = known || n.note.Knows(name)
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
