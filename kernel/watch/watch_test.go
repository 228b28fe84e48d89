package watch_test

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"ohmwright/kernel/watch"
)

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// told waits for news.
func told(t *testing.T, w *watch.Watcher, what string) {
	t.Helper()
	select {
	case <-w.Changed():
	case <-time.After(30 * time.Second):
		t.Fatalf("%s: nothing is told", what)
	}
}

func watcher(t *testing.T) *watch.Watcher {
	t.Helper()
	w, err := watch.New()
	must(t, err)
	t.Cleanup(w.Close)
	return w
}

// Each change of a file in the folder is told, in whatever way it is made.
func TestChanges(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	file := filepath.Join(folder, "a")
	w := watcher(t)
	if more, err := w.Folders([]string{folder}); err != nil || !more {
		t.Fatalf("more %v, %v", more, err)
	}
	if more, err := w.Folders([]string{folder, folder}); err != nil || more {
		t.Fatalf("a folder that is watched: more %v, %v", more, err)
	}
	for _, step := range []struct {
		what string
		do   func() error
	}{
		{"made", func() error { return os.WriteFile(file, []byte("1"), 0o666) }},
		{"written", func() error { return os.WriteFile(file, []byte("2"), 0o666) }},
		{"renamed", func() error { return os.Rename(file, file+"b") }},
		{"renamed back", func() error { return os.Rename(file+"b", file) }},
		{"a folder made", func() error { return os.Mkdir(filepath.Join(folder, "sub"), 0o777) }},
		{"deleted", func() error { return os.Remove(file) }},
	} {
		must(t, step.do())
		told(t, w, step.what)
	}
}

// A hundred writes that follow each other are one or two bursts.
func TestBurst(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	w := watcher(t)
	_, err := w.Folders([]string{folder})
	must(t, err)
	news := 0
	end := make(chan struct{})
	done := make(chan struct{})
	go func() {
		defer close(done)
		for {
			select {
			case <-w.Changed():
				news++
			case <-end:
				return
			}
		}
	}()
	began := time.Now()
	for range 100 {
		must(t, os.WriteFile(filepath.Join(folder, "a"), []byte("x"), 0o666))
	}
	took := time.Since(began)
	time.Sleep(3 * time.Second / 2)
	close(end)
	<-done
	// On a busy machine the writes may pause long enough to be several bursts.
	if most := 1 + int(took/(100*time.Millisecond)); news < 1 || news > most {
		t.Errorf("100 writes in %v are told %d times, want 1 … %d", took, news, most)
	}
}

// Writes without a pause are told all the same.
func TestEndlessBurst(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	w := watcher(t)
	_, err := w.Folders([]string{folder})
	must(t, err)
	stop := time.After(30 * time.Second)
	for {
		must(t, os.WriteFile(filepath.Join(folder, "a"), []byte("x"), 0o666))
		select {
		case <-w.Changed():
			return
		case <-stop:
			t.Fatal("nothing is told while somebody writes")
		case <-time.After(5 * time.Millisecond):
		}
	}
}

// A folder that is not there is left out; one that was deleted and made anew, or
// in whose place another was put, is watched again.
func TestFolderComesBack(t *testing.T) {
	t.Parallel()
	top := t.TempDir()
	folder := filepath.Join(top, "sub")
	w := watcher(t)
	list := []string{top, folder}
	if more, err := w.Folders(list); err != nil || !more {
		t.Fatalf("more %v, %v", more, err)
	}
	must(t, os.Mkdir(folder, 0o777))
	told(t, w, "made")
	if more, err := w.Folders(list); err != nil || !more {
		t.Fatalf("a new folder: more %v, %v", more, err)
	}
	must(t, os.WriteFile(filepath.Join(folder, "a"), nil, 0o666))
	told(t, w, "written")
	must(t, os.RemoveAll(folder))
	must(t, os.Mkdir(folder, 0o777))
	told(t, w, "made anew")
	if more, err := w.Folders(list); err != nil || !more {
		t.Fatalf("made anew: more %v, %v", more, err)
	}
	must(t, os.WriteFile(filepath.Join(folder, "a"), nil, 0o666))
	told(t, w, "written in it")
	must(t, os.Rename(folder, folder+"-old"))
	must(t, os.Mkdir(folder, 0o777))
	told(t, w, "another in its place")
	if more, err := w.Folders(list); err != nil || !more {
		t.Fatalf("another in its place: more %v, %v", more, err)
	}
	must(t, os.WriteFile(filepath.Join(folder, "a"), nil, 0o666))
	told(t, w, "written in that")
	// Of a folder that is asked for no more nothing is told.
	if more, err := w.Folders([]string{folder}); err != nil || more {
		t.Fatalf("one less: more %v, %v", more, err)
	}
}

// Every lets look without any news.
func TestEvery(t *testing.T) {
	t.Parallel()
	w := watch.Every(time.Millisecond)
	defer w.Close()
	if more, err := w.Folders([]string{"nowhere"}); err != nil || more {
		t.Fatalf("more %v, %v", more, err)
	}
	for range 3 {
		told(t, w, "an interval")
	}
}

// A watch that is closed leaves no goroutine and no open file.
func TestCloseLeavesNothing(t *testing.T) {
	// Not parallel: the goroutines of other tests would count.
	folder := t.TempDir()
	open := func() int {
		list, err := os.ReadDir("/proc/self/fd")
		if err != nil {
			return 0 // another system
		}
		return len(list)
	}
	goroutines, files := runtime.NumGoroutine(), open()
	for range 20 {
		for _, w := range []*watch.Watcher{watcherOf(t), watch.Every(time.Hour)} {
			_, err := w.Folders([]string{folder})
			must(t, err)
			must(t, os.WriteFile(filepath.Join(folder, "a"), nil, 0o666))
			w.Close()
		}
	}
	// The system's own goroutine ends a moment after it was told to.
	for end := time.Now().Add(10 * time.Second); time.Now().Before(end) && (runtime.NumGoroutine() > goroutines || open() > files); {
		time.Sleep(time.Millisecond)
	}
	if g, f := runtime.NumGoroutine(), open(); g > goroutines || f > files {
		t.Errorf("%d goroutines and %d open files, before %d and %d", g, f, goroutines, files)
	}
}

func watcherOf(t *testing.T) *watch.Watcher {
	t.Helper()
	w, err := watch.New()
	must(t, err)
	return w
}
