package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"time"

	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/notebook"
	"ohmwright/kernel/watch"
)

const (
	// patience is how long a file may be no note, or not be there, while it is
	// being saved.
	patience = time.Second
	// soon is when such a file is looked at again.
	soon = 100 * time.Millisecond
	// shortestPoll keeps --poll from doing nothing else.
	shortestPoll = 10 * time.Millisecond
)

// inPlaceOfNews is what to do where the system tells of no changes.
const inPlaceOfNews = "; with --poll 2s the files are looked at every two seconds instead"

// watching is run --watch: notes that stay computed while their files change.
// It goes by what the files hold. That something may have changed is only the
// occasion to look at them, so its own writing does not set it off.
type watching struct {
	stdout, talk io.Writer
	flags        settings
	out          string
	world        *host.World
	files        *watch.Watcher

	roots  []root
	notes  map[string]*watchedNote // by path
	paths  []string                // of them, in the order in which they are shown
	places map[string]string       // where the results are stored
	lost   string                  // why some have no place
	unset  string                  // what is wrong with --set by now
	shown  bool                    // something was printed
}

// watchNotes is run --watch.
func watchNotes(ctx context.Context, stdout, talk io.Writer, args []string, s settings, out string, poll time.Duration) error {
	if err := s.check(); err != nil {
		return err
	}
	w := &watching{stdout: stdout, talk: talk, flags: s, out: out, notes: map[string]*watchedNote{}}
	var err error
	if w.roots, err = rootsOf(args); err != nil {
		return err
	}
	if w.world, err = host.Load(); err != nil {
		return err
	}
	if poll > 0 {
		w.files = watch.Every(poll)
	} else if w.files, err = watch.New(); err != nil {
		return failures{err.Error() + inPlaceOfNews}
	}
	defer w.files.Close()
	for first := true; ; first = false {
		again, err := w.round(ctx, first)
		switch {
		case err != nil && ctx.Err() != nil && first:
			return errInterrupted
		case err != nil && ctx.Err() != nil:
			return w.status()
		case err != nil:
			return err
		}
		if first {
			w.tellWatched()
		}
		var retry <-chan time.Time
		if again {
			retry = time.After(soon)
		}
		select {
		case <-ctx.Done():
			return w.status()
		case <-w.files.Changed():
		case <-retry:
		}
	}
}

// status is that of the notes as they were last.
func (w *watching) status() error {
	failed := w.unset != "" || w.lost != ""
	for _, n := range w.notes {
		failed = failed || n.failed
	}
	if failed {
		return failures{}
	}
	return nil
}

// round looks at the files, computes what is due, stores and shows it. again
// says that a file is on its way to what it will be.
func (w *watching) round(ctx context.Context, first bool) (again bool, err error) {
	more, err := w.list()
	if err != nil {
		return false, err
	}
	if err := w.place(first); err != nil {
		return false, err
	}
	for _, p := range w.paths {
		again = w.look(w.notes[p]) || again
	}
	// What a note reads is known now. What came to a folder before it was
	// watched was not told, so it is looked for once more.
	now, err := w.list()
	if err != nil {
		return false, err
	}
	again = again || more || now
	for _, p := range w.paths {
		if n := w.notes[p]; n.ready() {
			again = w.compute(ctx, n) || again
			if ctx.Err() != nil {
				return false, ctx.Err()
			}
		}
	}
	if err := w.checkSet(first); err != nil {
		return false, err
	}
	for _, p := range w.paths {
		n := w.notes[p]
		switch {
		case !n.ready():
		case n.overtaken || w.finish(n):
			again = true
		default:
			if err := w.show(n); err != nil {
				return false, err
			}
		}
	}
	return again, nil
}

// compute brings a note up to date, and stops where its file changes
// meanwhile: then it may be a cell without an end that was mended. heard says
// that something changed meanwhile.
func (w *watching) compute(ctx context.Context, n *watchedNote) (heard bool) {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	n.overtaken = false
	n.progress.start = time.Now()
	done := make(chan error)
	go func() { done <- n.recompute(ctx, w.flags, w.computed()) }()
	for {
		select {
		case err := <-done:
			n.trouble = err
			if n.overtaken {
				n.again()
			}
			return heard
		case <-w.files.Changed():
			heard = true
			if f, err := notebook.Read(n.path); err != nil || hashOf(f.Bytes()) != n.hash {
				n.overtaken = true
				cancel()
			}
		}
	}
}

// recompute computes the note as it is written, and then with --set: only so
// are the parts chosen that the built board has.
func (n *noteFile) recompute(ctx context.Context, s settings, notes []*noteFile) error {
	if len(s.set) > 0 {
		if err := n.note.WhatIf(nil, false); err != nil {
			return err
		}
	}
	n.results = n.note.Run(ctx)
	if ctx.Err() != nil {
		return nil
	}
	return n.whatIf(ctx, s, notes)
}

// computed lists the notes that have results.
func (w *watching) computed() (list []*noteFile) {
	for _, p := range w.paths {
		if n := w.notes[p]; n != nil && n.noteFile != nil {
			list = append(list, n.noteFile)
		}
	}
	return list
}

// again lets a run that was broken off be made up for: its cells have errors
// that say so, or were not searched to the end.
func (n *noteFile) again() {
	for _, r := range n.results {
		if r.Ran {
			n.note.Again(r.ID)
		}
	}
}

// finish stores the results. late says that the file is not any more what they
// were computed from.
func (w *watching) finish(n *watchedNote) (late bool) {
	place, ok := w.places[n.path]
	switch {
	case n.trouble != nil:
	case !ok:
		n.trouble = failures{n.path + ": the results are not stored: " + w.lost}
	case w.out == "" && len(w.flags.set) > 0 && n.before != nil: // it was told
	default:
		err := n.write(w.talk, w.flags, w.out, place)
		if errors.Is(err, notebook.ErrChanged) {
			return true
		}
		n.trouble = err
		if err == nil && w.out == "" && len(w.flags.set) == 0 {
			n.hash = hashOf(n.file.Bytes())
		}
	}
	n.due = false
	n.failed = n.trouble != nil || n.noteFile.failed()
	return false
}

// tellWatched says, once, that the program waits.
func (w *watching) tellWatched() {
	tables := 0
	for _, n := range w.notes {
		if n.noteFile != nil {
			tables += len(n.note.Files())
		}
	}
	text := "watching " + counted(len(w.notes), "note")
	if tables > 0 {
		text += " and " + counted(tables, "table")
	}
	fmt.Fprintln(w.talk, text+"; Ctrl-C ends it")
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// checkSet refuses a name of --set that no note defines, and tells when no note
// defines it any more.
func (w *watching) checkSet(first bool) error {
	var list []*noteFile
	for _, p := range w.paths {
		if n := w.notes[p]; n != nil && n.noteFile != nil {
			list = append(list, n.noteFile)
		}
	}
	err := checkSet(w.flags, list)
	if first {
		return err
	}
	w.unset = w.tellOnce(w.unset, err)
	return nil
}

// tellOnce tells an error unless it was told before, and gives its text.
func (w *watching) tellOnce(before string, err error) string {
	if err == nil {
		return ""
	}
	if err.Error() != before {
		fmt.Fprintln(w.talk, "ohmwright: "+err.Error())
	}
	return err.Error()
}
