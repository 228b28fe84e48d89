// Package watch tells that something in some folders may have changed.
//
//	w, err := watch.New()
//	err = w.Folders([]string{"boards", "boards/curves"})
//	for range w.Changed() {
//		// look at the files
//	}
//
// It tells no more than that. What a system says of a file differs between
// systems, and between the ways in which editors save: write over the file,
// rename a new one over it, delete it and make it anew. So who watches looks at
// what the files hold, and then what he wrote himself, or what changed nothing,
// does no harm. Changes in quick succession are told once, when they are over.
//
// A folder stands for the files in it, not for the folders below. What a network
// file system changes from elsewhere, no system tells: [Every] asks to look all
// the same.
package watch

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"time"

	"github.com/fsnotify/fsnotify"
)

const (
	// quiet is how long nothing may happen before a burst of changes is over.
	quiet = 100 * time.Millisecond
	// longest is how long a burst may last and not be told: some program may
	// write without a pause.
	longest = time.Second
)

// Watcher tells of changes. Its methods are for one goroutine.
type Watcher struct {
	changed chan struct{}
	stop    chan struct{}
	done    chan struct{}
	system  *fsnotify.Watcher      // nil: it looks every so often
	folders map[string]os.FileInfo // those that are watched, as they were then
}

// New is a watcher that the system tells of changes.
func New() (*Watcher, error) {
	system, err := fsnotify.NewWatcher()
	if err != nil {
		return nil, fmt.Errorf("the system does not tell of changed files: %w", err)
	}
	w := newWatcher()
	w.system = system
	go w.gather()
	return w, nil
}

// Every is a watcher that lets look after each interval, whatever happened.
func Every(interval time.Duration) *Watcher {
	w := newWatcher()
	go func() {
		defer close(w.done)
		t := time.NewTicker(interval)
		defer t.Stop()
		for {
			select {
			case <-w.stop:
				return
			case <-t.C:
				w.tell()
			}
		}
	}()
	return w
}

func newWatcher() *Watcher {
	return &Watcher{changed: make(chan struct{}, 1), stop: make(chan struct{}), done: make(chan struct{}), folders: map[string]os.FileInfo{}}
}

// Changed receives once after every burst of changes. A burst that nobody
// received yet counts for those that follow it.
func (w *Watcher) Changed() <-chan struct{} { return w.changed }

// Folders makes these the folders that are watched. more says that some were
// not before: what happened in them up to now was not told. A folder that is
// not there, or may not be read, is left out.
func (w *Watcher) Folders(list []string) (more bool, err error) {
	if w.system == nil {
		return false, nil
	}
	wanted := map[string]bool{}
	still := w.system.WatchList() // without those that were deleted meanwhile
	for _, path := range list {
		wanted[path] = true
		info, err := os.Stat(path)
		if err != nil || !info.IsDir() {
			w.drop(path)
			continue
		}
		// Under the same name may stand another folder by now.
		if before := w.folders[path]; before != nil && os.SameFile(before, info) && slices.Contains(still, path) {
			continue
		}
		w.drop(path)
		switch err := w.system.Add(path); {
		case errors.Is(err, fs.ErrNotExist), errors.Is(err, fs.ErrPermission):
			continue
		case err != nil:
			return more, fmt.Errorf("the folder %s cannot be watched: %w", path, err)
		}
		w.folders[path], more = info, true
	}
	for path := range w.folders {
		if !wanted[path] {
			w.drop(path)
		}
	}
	return more, nil
}

func (w *Watcher) drop(path string) {
	if w.folders[path] != nil {
		delete(w.folders, path)
		_ = w.system.Remove(path) // of a folder that is gone the system has taken it away
	}
}

// Close ends the watch.
func (w *Watcher) Close() {
	close(w.stop)
	<-w.done
	if w.system != nil {
		_ = w.system.Close()
	}
}

func (w *Watcher) tell() {
	select {
	case w.changed <- struct{}{}:
	default:
	}
}

// gather makes one of the changes of a burst.
func (w *Watcher) gather() {
	defer close(w.done)
	var over <-chan time.Time
	var latest time.Time
	for {
		select {
		case <-w.stop:
			return
		case <-over:
			over = nil
			w.tell()
			continue
		case <-w.system.Events:
		case <-w.system.Errors: // some changes may have been lost
		}
		now := time.Now()
		if over == nil {
			latest = now.Add(longest)
		}
		over = time.After(min(quiet, latest.Sub(now)))
	}
}
