package notebook

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"ohmwright/kernel/atomicfile"
)

// ErrChanged is what [Notebook.Write] fails with when another program has
// changed the file since it was read.
var ErrChanged = errors.New("the file was changed by another program since it was read: read it again")

// Read reads a notebook file. What the file holds is judged as by [Parse].
func Read(path string) (*Notebook, error) {
	if err := checkRegular(path); err != nil {
		return nil, err
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, fileError(path, err)
	}
	n, bad := parse(string(data))
	if bad != nil {
		bad.Path = path
		return nil, bad
	}
	n.known = n.src
	if n.path, err = realPath(path); err != nil {
		return nil, err
	}
	return n, nil
}

// Write puts the notebook into a file. The new text is written beside the old
// file and renamed over it, so that a crash at any moment leaves the one or the
// other whole, and at worst a hidden file beside it. Where path is a link, the file it points to is replaced; the
// permissions of a file stay. Nothing is written when the file has that text
// already, and nothing when the file is the one that the notebook was read from
// and has changed since: the error is [ErrChanged] then.
func (n *Notebook) Write(path string) error {
	real, err := realPath(path)
	if err != nil {
		return err
	}
	data := n.text()
	check := func(at string) (same bool, err error) {
		old, err := os.ReadFile(at)
		missing := errors.Is(err, fs.ErrNotExist)
		switch {
		case err != nil && !missing:
			return false, fileError(path, err)
		case !missing && string(old) == data:
			return true, nil
		case real == n.path && (missing || string(old) != n.known):
			return false, fmt.Errorf("%s: %w", path, ErrChanged)
		}
		return false, nil
	}
	if err := checkRegular(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	same, err := check(real)
	if err != nil {
		return err
	}
	if !same {
		if err := checkWritable(path, real); err != nil {
			return err
		}
		// The next look comes when the new text is safe on the disk, for that
		// may take seconds; a last one behind the exchange.
		err := atomicfile.Write(real, []byte(data), func(old string) error {
			_, err := check(old)
			return err
		})
		if errors.Is(err, ErrChanged) {
			return err
		}
		if err != nil {
			return fileError(path, err)
		}
	}
	n.path, n.known = real, data
	return nil
}

// realPath follows links. A file need not exist, its folder must.
func realPath(path string) (string, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return "", fileError(path, err)
	}
	real, err := filepath.EvalSymlinks(abs)
	if err == nil {
		return real, nil
	}
	if !errors.Is(err, fs.ErrNotExist) {
		return "", fileError(path, err)
	}
	if target, linkErr := os.Readlink(abs); linkErr == nil {
		return "", fmt.Errorf("%s: is a link to %s, which does not exist", path, target)
	}
	folder, err := filepath.EvalSymlinks(filepath.Dir(abs))
	if err != nil {
		return "", fmt.Errorf("%s: the folder does not exist: %w", path, fs.ErrNotExist)
	}
	return filepath.Join(folder, filepath.Base(abs)), nil
}

// checkRegular refuses folders and devices, on which a read may never end.
func checkRegular(path string) error {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return fileError(path, err)
	case info.IsDir():
		return fmt.Errorf("%s: is a folder, not a notebook file", path)
	case !info.Mode().IsRegular():
		return fmt.Errorf("%s: is not a regular file", path)
	}
	return nil
}

// checkWritable refuses a file that its owner has protected: a rename over it
// would succeed all the same.
func checkWritable(path, real string) error {
	f, err := os.OpenFile(real, os.O_WRONLY, 0)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return fileError(path, err)
	}
	return f.Close()
}

// fileError says what the system reported, with the path as the user gave it:
// the system's own text may name the temporary file.
func fileError(path string, err error) error {
	var pathErr *fs.PathError
	if errors.As(err, &pathErr) {
		err = pathErr.Err
	}
	var linkErr *os.LinkError
	if errors.As(err, &linkErr) {
		err = linkErr.Err
	}
	return fmt.Errorf("%s: %w", path, err)
}
