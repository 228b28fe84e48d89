package note

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"maps"
	"slices"

	"ohmwright/kernel/cell"
	"ohmwright/lib/table"
)

// File is a file that a value was computed from, as it was then.
type File struct {
	Name string
	Hash string // the first digits of its SHA-256
}

// String names the file with its hash.
func (f File) String() string { return f.Name + ", sha256 " + f.Hash }

// opened is a file as it is in one run of the note.
type opened struct {
	table table.Table
	err   error
	mark  string // another one where the content, or why there is none, is another
}

// Files lists the files that the cells of the note name, sorted: a face that
// watches the note watches them, too.
func (n *Note) Files() []string {
	n.mu.Lock()
	defer n.mu.Unlock()
	if slices.ContainsFunc(n.all(), func(c *node) bool { return c.edited }) {
		n.parse() // else not, for it reads imported notes, whose changes are found in a run
	}
	names := map[string]bool{}
	for _, c := range n.all() {
		for _, name := range c.parsed.Files {
			names[c.fileOf(name)] = true
		}
	}
	return slices.Sorted(maps.Keys(names))
}

// Changed lists the files, imported notes among them, that were not in the last run what they were in the
// run before it, sorted.
func (n *Note) Changed() []string {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.changed
}

// reread looks at the files that the cells name, once for a whole run: all its
// cells see the same.
func (n *Note) reread() {
	before := n.files
	n.files, n.changed = map[string]*opened{}, nil
	for _, c := range n.all() {
		for _, name := range c.parsed.Files {
			name = c.fileOf(name)
			if n.files[name] == nil {
				n.files[name] = n.open(name, before[name])
				if before[name] != nil && before[name].mark != n.files[name].mark {
					n.changed = append(n.changed, name)
				}
			}
		}
	}
	for _, m := range n.imports {
		if m.changed {
			n.changed = append(n.changed, m.file)
		}
	}
	slices.Sort(n.changed)
}

func (n *Note) open(name string, before *opened) *opened {
	if n.options.Open == nil {
		return &opened{err: cell.ErrNoFolder}
	}
	text, err := n.options.Open(name)
	if err != nil {
		return &opened{err: err, mark: err.Error()}
	}
	mark := fmt.Sprintf("%x", sha256.Sum256(text))
	if before != nil && before.mark == mark {
		return before
	}
	f := &opened{mark: mark}
	f.table, f.err = table.Read(name, string(text))
	return f
}

// tableOf is the table that a cell reads from a file.
func (n *Note) tableOf(c *node) func(name string) (table.Table, error) {
	return func(name string) (table.Table, error) {
		f := n.files[c.fileOf(name)]
		if f == nil {
			return table.Table{}, errors.New("the file " + name + " is not among those that the note names")
		}
		return f.table, f.err
	}
}

// reads reports whether the files that a cell names are as they were when it
// was computed.
func (n *Note) reads(c *node) bool {
	for _, name := range c.parsed.Files {
		if c.read[name] != n.files[c.fileOf(name)].mark {
			return false
		}
	}
	return true
}

// filesOf lists the files that the definition of a name reads.
func (n *Note) filesOf(c *node, name string) []File { return n.asRead(c, c.checked.FilesOf(name)) }

func (n *Note) asRead(c *node, names []string) []File {
	var list []File
	for _, file := range names {
		file = c.fileOf(file)
		if f := n.files[file]; f != nil && f.err == nil {
			list = append(list, File{Name: file, Hash: f.table.Hash()})
		}
	}
	return list
}
