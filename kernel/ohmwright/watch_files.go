package main

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"time"

	"ohmwright/kernel/notebook"
	"ohmwright/kernel/report"
)

// watchedNote is a note that is watched.
type watchedNote struct {
	*noteFile // nil until it can be read
	path      string
	named     bool // an argument names it: it is waited for when it is gone

	due       bool  // it is to be computed
	overtaken bool  // its file changed while it was computed
	failed    bool  // as it was last, and before it was computed
	trouble   error // why it has no results, or why they are not stored

	wrong string    // why the file cannot be read, "" if it can
	since time.Time // from when on
	told  bool

	before *report.Note    // what was shown last
	said   map[string]bool // notices and errors of then
}

// root is a note or a design that an argument names.
type root struct {
	path   string
	design bool
}

// ready reports whether the note is to be computed, and can be.
func (n *watchedNote) ready() bool { return n != nil && n.due && n.wrong == "" }

// rootsOf tells notes from designs. Each must be there at the beginning.
func rootsOf(args []string) (roots []root, err error) {
	if _, err := findNotes(args); err != nil {
		return nil, err
	}
	for _, a := range args {
		info, err := os.Stat(a)
		roots = append(roots, root{a, err == nil && info.IsDir()})
	}
	return roots, nil
}

// list finds the notes, and lets the folders be watched in which they and
// their tables are. more says that some were not watched before.
func (w *watching) list() (more bool, err error) {
	found, folders := w.find()
	for _, p := range found {
		if w.notes[p] == nil {
			named := slices.ContainsFunc(w.roots, func(r root) bool { return !r.design && r.path == p })
			w.notes[p] = &watchedNote{path: p, named: named, failed: true}
		}
	}
	w.paths = found
	for _, p := range slices.Sorted(maps.Keys(w.notes)) {
		if !slices.Contains(found, p) {
			w.paths = append(w.paths, p) // gone, or just being saved
		}
		folders = append(folders, w.notes[p].folders()...)
	}
	for i, f := range folders {
		folders[i] = nearest(f)
	}
	if more, err = w.files.Folders(folders); err != nil {
		err = failures{err.Error() + inPlaceOfNews}
	}
	return more, err
}

// find lists the notes that are there, and the folders of the designs.
func (w *watching) find() (notes, folders []string) {
	add := func(p string) {
		if !slices.Contains(notes, p) {
			notes = append(notes, p)
		}
	}
	for _, r := range w.roots {
		if !r.design {
			add(r.path)
			continue
		}
		found, within, _ := search(r.path) // a folder may go while it is walked
		folders = append(append(folders, r.path), within...)
		for _, p := range found {
			if !w.isOut(r.path, p) {
				add(p)
			}
		}
	}
	return notes, folders
}

// isOut reports whether a file of a design is what --out stores below it.
func (w *watching) isOut(design, p string) bool {
	if w.out == "" || filepath.Clean(w.out) == filepath.Clean(design) {
		return false
	}
	return below(design, w.out) && below(w.out, p)
}

// below reports whether a path is that of a folder, or of something in it.
func below(folder, path string) bool {
	a, err1 := filepath.Abs(folder)
	b, err2 := filepath.Abs(path)
	if err1 != nil || err2 != nil {
		return false
	}
	rel, err := filepath.Rel(a, b)
	return err == nil && filepath.IsLocal(rel)
}

// folders are those in which a change may be one of the note.
func (n *watchedNote) folders() []string {
	files := []string{n.path}
	if n.noteFile != nil {
		beside := n.note.Files()
		for _, i := range n.note.Imports() {
			beside = append(beside, i.File)
		}
		for _, name := range beside {
			if name = filepath.FromSlash(name); filepath.IsLocal(name) { // others are not read
				files = append(files, filepath.Join(filepath.Dir(n.path), name))
			}
		}
	}
	var list []string
	for _, f := range files {
		list = append(list, filepath.Dir(f))
		if real, err := filepath.EvalSymlinks(f); err == nil {
			list = append(list, filepath.Dir(real))
		}
	}
	return list
}

// nearest is a folder, or where it is not there the next above that is.
func nearest(folder string) string {
	for {
		if info, err := os.Stat(folder); err == nil && info.IsDir() {
			return folder
		}
		up := filepath.Dir(folder)
		if up == folder {
			return folder
		}
		folder = up
	}
}

// look reads a note whose file, or a table of which, is not what it was, and
// makes it due. wait says that the file may become another soon.
func (w *watching) look(n *watchedNote) (wait bool) {
	f, err := notebook.Read(n.path)
	if err != nil {
		return w.unreadable(n, err)
	}
	if n.noteFile == nil {
		if n.noteFile, err = load(n.path, w.world, w.flags, w.talk); err != nil {
			return w.unreadable(n, err) // from one moment to the next
		}
		n.due = true
	} else if n.due || n.told || hashOf(f.Bytes()) != n.hash || n.besideChanged() {
		n.take(f)
		n.due = true
	}
	n.wrong, n.told = "", false
	return false
}

// unreadable waits for a while for a file that is no note, which may be in the
// middle of being saved, and then tells of it, once. A note that came with its
// folder goes with its file.
func (w *watching) unreadable(n *watchedNote, err error) (wait bool) {
	if text := err.Error(); text != n.wrong {
		n.wrong, n.since, n.told = text, time.Now(), false
	}
	switch gone := errors.Is(err, fs.ErrNotExist); {
	case n.told:
		return false
	case time.Since(n.since) < patience:
		return true
	case gone:
		fmt.Fprintf(w.talk, "%s: the note is gone\n", n.path)
		if !n.named {
			delete(w.notes, n.path)
		}
	default:
		fmt.Fprintln(w.talk, "ohmwright: "+n.wrong)
	}
	n.told, n.failed = true, true
	return false
}

// besideChanged reports whether a table that the note reads, or the cells of a
// note that it imports, are something else than when it was computed.
func (n *noteFile) besideChanged() bool {
	for name, was := range n.imports {
		cells, _, err := n.cellsOf(name)
		if is := codeOf(cells); err == nil && is != was || err != nil && fmt.Sprint(err) != was {
			return true
		}
	}
	return slices.ContainsFunc(n.note.Files(), func(name string) bool {
		text, err := n.open(name)
		if err != nil {
			return n.read[name] != ""
		}
		return n.read[name] != hashOf(text)
	})
}

// place finds where the results are stored.
func (w *watching) place(first bool) error {
	places, err := destinations(w.paths, w.out)
	if err == nil {
		w.places = places
	} else if first {
		return err
	}
	w.lost = w.tellOnce(w.lost, err)
	return nil
}
