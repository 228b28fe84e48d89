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
		var found []string
		err = filepath.WalkDir(a, func(p string, d fs.DirEntry, err error) error {
			switch {
			case err != nil:
				return err
			case d.IsDir() && p != a && strings.HasPrefix(d.Name(), "."):
				return fs.SkipDir // .ipynb_checkpoints, .git
			case !d.IsDir() && filepath.Ext(p) == ".ipynb":
				found = append(found, p)
			}
			return nil
		})
		if err != nil {
			return nil, err
		}
		if len(found) == 0 {
			return nil, fmt.Errorf("%s: there is no note (.ipynb) in this folder", a)
		}
		sort.Strings(found)
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

// load reads a notebook and makes a note of its code cells.
func load(path string, world *host.World, s settings, talk io.Writer) (*noteFile, error) {
	f, err := notebook.Read(path)
	if err != nil {
		return nil, err
	}
	n := &noteFile{path: path, file: f, progress: &progress{out: talk, path: path, start: time.Now()}, hash: hashOf(f.Bytes()), read: map[string]string{}}
	read := func(name string) ([]byte, error) {
		return n.fileBeside(name, s, talk, folder.Folder.Open)
	}
	imported := func(name string) ([]note.Source, error) {
		text, err := n.fileBeside(name, s, talk, folder.Folder.NoteText)
		if err != nil {
			return nil, err
		}
		return folder.Cells(name, text)
	}
	n.note = note.New(note.Options{World: world, CellTime: s.timeout, Progress: n.progress.step, Open: read, Note: imported})
	for _, c := range f.Cells() {
		if c.Type() == "code" {
			n.cells = append(n.cells, c)
		}
	}
	n.note.Set(folder.Sources(f))
	return n, nil
}

// fileBeside reads a file beside the note. A version of a note that git puts
// somewhere else has none there: then it is the one of the working tree.
func (n *noteFile) fileBeside(name string, s settings, talk io.Writer, open func(folder.Folder, string) ([]byte, error)) ([]byte, error) {
	text, err := open(folder.Of(filepath.Dir(n.path)), name)
	if err != nil && s.beside != "" && !same(s.beside, filepath.Dir(n.path)) {
		if now, ok := open(folder.Of(s.beside), name); ok == nil {
			if n.read[name] == "" {
				fmt.Fprintf(talk, "%s: %s is read as it is now: git hands a note without the files beside it\n", filepath.Base(n.path), name)
			}
			text, err = now, nil
		}
	}
	if err == nil {
		n.read[name] = hashOf(text)
	}
	return text, err
}

func hashOf(text []byte) string { return fmt.Sprintf("%x", sha256.Sum256(text)) }

// whatIf computes the note with the names of --set that it defines, or that the
// notes define that it imports and that are computed as well.
func (n *noteFile) whatIf(ctx context.Context, s settings, notes []*noteFile) error {
	set := map[string]string{}
	for file, prefix := range n.note.Imports() {
		for _, o := range notes {
			if !same(filepath.Join(filepath.Dir(n.path), filepath.FromSlash(file)), o.path) {
				continue
			}
			for _, a := range s.set {
				if name, value, _ := strings.Cut(a, "="); o.defines(name) {
					set[prefix+name] = value
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
