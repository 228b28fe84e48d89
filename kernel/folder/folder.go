// Package folder reads the files that cells of a note name, for the faces:
// files of the note's own folder and of folders below it, nothing else.
//
//	note.New(note.Options{World: w, Open: folder.Of("boards").Open})
//
// A name is written with / between folder and file. What leads out of the
// folder (an absolute name, "..", a link to elsewhere) is refused, and so is
// what is no plain file. Errors name the file as the cell does, never where
// the folder is.
package folder

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"

	"github.com/agext/levenshtein"
)

// Most is the largest part of a file that is read: one byte more than what a
// table may have, so that its reader can say that it is too large.
const Most = 4<<20 + 1

// Folder is a folder with files that cells may read.
type Folder struct {
	path string
	// away says what else a person may have to know where a file is not there.
	away string
}

// Of is the folder at a path.
func Of(path string) Folder { return Folder{path: path} }

// Working is the folder that the program was started in. Jupyter starts a
// kernel in the folder of its notebook; other front ends may not.
func Working() Folder {
	return Folder{path: ".", away: " (Jupyter starts the kernel in the notebook's folder; another front end may not)"}
}

// Open reads a file.
func (f Folder) Open(name string) ([]byte, error) { return f.read(name, tables) }

// kind is what a file is read as.
type kind struct {
	suffix  string
	most    int64
	example string // beside the note
	inside  string // in a folder
	one     string // "table"
}

var (
	tables = kind{".csv", Most, `Table("curve.csv")`, `Table("%s/curve.csv")`, "table"}
	notes  = kind{".ipynb", mostNote, `import supply "10-supply.ipynb"`, `import rail "%s/rail.ipynb"`, "note"}
)

// mostNote is the largest note that is imported, with all that it shows.
const mostNote = 64 << 20

// read reads a file of a kind.
func (f Folder) read(name string, k kind) ([]byte, error) {
	if !fs.ValidPath(name) || name == "." || strings.ContainsAny(name, `\`+"\x00") {
		return nil, fmt.Errorf("%q is no name of a file in the note's folder: write it as in %s or %s, without a leading / or .", name, k.example, fmt.Sprintf(k.inside, "folder"))
	}
	root, err := os.OpenRoot(f.path)
	if err != nil {
		return nil, fmt.Errorf("the note's folder cannot be read: %w", bare(err))
	}
	defer root.Close()
	info, err := root.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("there is no file %s in the note's folder: %s%s", name, near(root, name, k), f.away)
	case err != nil:
		return nil, f.cannot(name, err)
	case info.IsDir():
		return nil, fmt.Errorf("%s is a folder: write the name of a file in it, as in %s", name, fmt.Sprintf(k.inside, name))
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%s is no plain file: put a copy of what it gives into the note's folder", name)
	}
	file, err := root.Open(name)
	if err != nil {
		return nil, f.cannot(name, err)
	}
	defer file.Close()
	text, err := io.ReadAll(io.LimitReader(file, k.most))
	if err != nil {
		return nil, f.cannot(name, err)
	}
	return text, nil
}

// cannot is the error for a file that the system does not give.
func (f Folder) cannot(name string, err error) error {
	if err = bare(err); strings.Contains(err.Error(), "escapes") {
		return fmt.Errorf("%s leads out of the note's folder: put a copy of the file beside the note", name)
	}
	return fmt.Errorf("%s cannot be read: %w", name, err)
}

// bare is an error without the path, which is the machine's own.
func bare(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// near says which files a person may have meant.
func near(root *os.Root, name string, k kind) string {
	var others []string
	best, least := "", len(name)/2+1
	walked := 0
	_ = fs.WalkDir(root.FS(), ".", func(at string, e fs.DirEntry, err error) error {
		if walked++; err != nil || walked > 2000 {
			return fs.SkipDir
		}
		if e.IsDir() {
			if at != "." && (strings.HasPrefix(e.Name(), ".") || strings.Count(at, "/") > 2) {
				return fs.SkipDir
			}
			return nil
		}
		if strings.EqualFold(path.Ext(at), k.suffix) {
			others = append(others, at)
		}
		d := min(levenshtein.Distance(name, at, nil), levenshtein.Distance(path.Base(name), e.Name(), nil))
		if d < least {
			best, least = at, d
		}
		return nil
	})
	if best != "" {
		return "did you mean " + best + "?"
	}
	slices.Sort(others)
	switch n := len(others); {
	case n == 0:
		return "put it beside the note"
	case n > 5:
		return fmt.Sprintf("its %ss are %s and %d more", k.one, strings.Join(others[:5], ", "), n-5)
	case n == 1:
		return "its one " + k.one + " is " + others[0]
	default:
		return "its " + k.one + "s are " + strings.Join(others[:n-1], ", ") + " and " + others[n-1]
	}
}
