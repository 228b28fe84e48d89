package note

import (
	"errors"
	"fmt"
	"go/token"
	"maps"
	"path"
	"slices"
	"strings"

	"ohmwright/kernel/cell"
)

// A note may import others. Their cells are computed with its own, in the same
// study: what comes from one part is the same part in both. Their names stand
// in the note behind what it calls the import, supply.Vbus, and nothing else
// of them shows.

// imported is a note that is computed with the one that imports it.
type imported struct {
	file   string          // from the folder of the note
	prefix string          // of its names: "supply."
	given  map[string]bool // the inputs that a block gives; nil for an import
	by     *imported       // the note that imports or computes it first; nil for the note itself
	cells  []*node
	naming *cell.Naming
	err    error
	// changed: its cells are not what they were in the run before.
	changed bool
}

// Imported is a note that a cell imports, as the cell shows it.
type Imported struct {
	Name   string   // "supply"
	File   string   // "10-supply.ipynb"
	Failed []string // its requirements that do not hold, and are not waived
	Errors []string // its cells that have an error
	// Entries are its names, as the note calls them.
	Entries []*Entry
	// Given are the inputs that it is computed anew with; nil for an import.
	Given []string
}

func (*Imported) item() {}

// all lists the cells that are computed: those of imported notes first.
func (n *Note) all() []*node {
	if len(n.imports) == 0 {
		return n.cells
	}
	var list []*node
	for _, m := range slices.Backward(n.imports) {
		list = append(list, m.cells...)
	}
	return append(list, n.cells...)
}

// resolve finds the notes that the cells import, directly or not, and what
// the names in each text are called.
func (n *Note) resolve() {
	importing := len(n.imports) > 0
	for _, c := range n.cells {
		if c.edited {
			c.imports, c.blocks = cell.NotesIn(c.Code)
		}
		importing = importing || len(c.imports) > 0
	}
	if !importing {
		return
	}
	before := map[string]*imported{}
	for _, m := range n.imports {
		before[m.key()] = m
	}
	n.imports = nil
	found := map[string]*imported{}
	edges := map[string][]string{}
	take := func(m *imported) *imported {
		if known := found[m.key()]; known != nil {
			return known
		}
		found[m.key()] = m
		n.imports = append(n.imports, m)
		switch {
		case m.within(): // blocks in blocks without end; circle says so
		case len(n.imports) > mostNotes:
			m.err = fmt.Errorf("%s is not computed: with the notes and blocks in its imports the note comes to more than %d", m.file, mostNotes)
		default:
			n.load(m, before[m.key()])
		}
		return m
	}
	visit := func(from *imported, cells []*node) *cell.Naming {
		naming := &cell.Naming{Imports: map[string]string{}, Files: map[string]string{}, Blocks: map[string]bool{}}
		at, dir := "", ""
		if from != nil {
			naming.Home, at, dir = from.prefix, from.file, path.Dir(from.file)
		}
		for _, c := range cells {
			for _, i := range c.imports {
				m := take(&imported{file: path.Join(dir, i.File), prefix: naming.Home + i.Name + ".", by: from})
				naming.Imports[i.Name], naming.Files[i.Name] = m.prefix, m.file
				edges[at] = append(edges[at], m.file)
			}
		}
		notes := maps.Clone(naming.Files)
		for _, c := range cells {
			for _, b := range c.blocks {
				if file := notes[b.Of]; file != "" {
					m := take(&imported{file: file, prefix: naming.Home + b.Name + ".", given: set(b.Given), by: from})
					naming.Imports[b.Name], naming.Files[b.Name], naming.Blocks[b.Name] = m.prefix, m.file, true
				}
			}
		}
		return naming
	}
	n.named(n.cells, &n.naming, visit(nil, n.cells))
	for i := 0; i < len(n.imports); i++ {
		m := n.imports[i]
		naming := visit(m, m.cells)
		naming.Own, naming.Given = map[string]bool{}, m.given
		for _, c := range m.cells {
			for _, name := range c.defines {
				naming.Own[name] = true
			}
		}
		if old := before[m.key()]; old != nil {
			m.naming = old.naming
		}
		n.named(m.cells, &m.naming, naming)
	}
	for _, m := range n.imports {
		if ring := circle(m.file, edges); ring != nil {
			m.err = fmt.Errorf("%s imports %s: notes cannot import each other; move what both need into a third", m.file, strings.Join(ring, ", which imports "))
		}
	}
	kept := map[*node]bool{}
	for _, m := range n.imports {
		if m.err != nil {
			m.cells = nil
		}
		for _, c := range m.cells {
			kept[c] = true
			n.byID[c.ID] = c
		}
	}
	for _, m := range before {
		for _, c := range m.cells {
			if !kept[c] {
				n.forget(c)
				if n.byID[c.ID] == c {
					delete(n.byID, c.ID)
				}
			}
		}
	}
}

// mostNotes bounds how many notes and blocks are computed with a note: blocks in
// blocks may come to more than a machine holds.
const mostNotes = 300

// within reports whether a note is computed on behalf of itself.
func (m *imported) within() bool {
	for o := m.by; o != nil; o = o.by {
		if o.file == m.file {
			return true
		}
	}
	return false
}

// key tells an import, which is one for all that import it, from blocks, each of
// which is one by itself.
func (m *imported) key() string {
	if m.given == nil {
		return m.file
	}
	return m.file + " as " + m.prefix
}

func set(names []string) map[string]bool {
	m := map[string]bool{}
	for _, name := range names {
		m[name] = true
	}
	return m
}

// named gives cells what their names are called. Where that has changed, those
// that it may touch are read again.
func (n *Note) named(cells []*node, old **cell.Naming, now *cell.Naming) {
	if (*old).Same(now) {
		return
	}
	changed := func(c *node) bool { return true }
	if now.Home == "" { // its own names are called as before
		moved := map[string]bool{}
		for name, prefix := range now.Imports {
			moved[name] = *old == nil || (*old).Imports[name] != prefix || (*old).Files[name] != now.Files[name]
		}
		if *old != nil {
			for name := range (*old).Imports {
				moved[name] = moved[name] || now.Imports[name] == ""
			}
		}
		changed = func(c *node) bool {
			for name := range moved {
				if moved[name] && strings.Contains(c.Code, name) {
					return true
				}
			}
			return false
		}
	}
	*old = now
	for _, c := range cells {
		c.edited = c.edited || changed(c)
	}
}

// load reads the cells of a note.
func (n *Note) load(m, before *imported) {
	if n.options.Note == nil {
		m.err = errors.New("there is no folder to import a note from")
		return
	}
	var sources []Source
	sources, m.err = n.options.Note(m.file)
	if before != nil {
		m.changed = (m.err == nil) != (before.err == nil) || len(sources) != len(before.cells)
	}
	if m.err != nil {
		return
	}
	known := map[string]*node{}
	if before != nil && before.prefix == m.prefix {
		for _, c := range before.cells {
			known[c.ID] = c
		}
	}
	for i, s := range sources {
		if s.Label == "" {
			s.Label = fmt.Sprintf("cell %d", i+1)
		}
		s.ID, s.Label = m.key()+"#"+s.ID, s.Label+" of "+m.file
		if m.given != nil {
			s.Label += " for " + strings.TrimSuffix(m.prefix, ".")
		}
		c := known[s.ID]
		delete(known, s.ID)
		if c == nil {
			c = &node{edited: true}
		}
		if c.in = m; c.edited || c.Code != s.Code {
			m.changed = m.changed || before != nil
			c.edited = true
			p, _ := cell.Parse(token.NewFileSet(), "", s.Code, nil)
			c.defines, c.imports, c.blocks = p.Defines, p.Imports, p.Blocks
		}
		c.Source = s
		m.cells = append(m.cells, c)
	}
}

// circle is the way from a file back to itself, nil if there is none.
func circle(file string, edges map[string][]string) []string {
	seen := map[string]bool{}
	var walk func(at string) []string
	walk = func(at string) []string {
		for _, to := range edges[at] {
			if to == file {
				return []string{to}
			}
			if !seen[to] {
				seen[to] = true
				if rest := walk(to); rest != nil {
					return append([]string{to}, rest...)
				}
			}
		}
		return nil
	}
	return walk(file)
}

// notImported tells the cells whose imports cannot be had.
func (n *Note) notImported(errs map[*node][]*cell.Error) {
	for _, c := range n.all() {
		for _, i := range c.parsed.Imports {
			for _, m := range n.imports {
				if m.file == path.Join(c.folder(), i.File) && m.err != nil {
					errs[c] = append(errs[c], c.parsed.ErrorFor(c.prefix()+i.Name, cell.CodeName, m.err.Error(), ""))
				}
			}
		}
		for _, b := range c.parsed.Blocks {
			if m := n.blockOf(c, b); m != nil && m.err == nil {
				errs[c] = append(errs[c], m.notGiven(c, b)...)
			}
		}
	}
}

// prefix is what the names of a cell stand behind.
func (c *node) prefix() string {
	if c.in == nil {
		return ""
	}
	return c.in.prefix
}

// folder is the folder of a cell's note, from that of the note that is computed.
func (c *node) folder() string {
	if c.in == nil {
		return ""
	}
	return path.Dir(c.in.file)
}

// fileOf is a file that a cell names, from the folder of the note that is computed.
func (c *node) fileOf(name string) string {
	if c.in == nil {
		return name
	}
	return path.Join(c.folder(), name)
}

// sees finds the cell that defines a name in a text. Names of an imported note
// have a prefix, so without one there a name is none of any note.
func (n *Note) sees(c *node, name string) *node {
	if c.in != nil && !strings.Contains(name, ".") {
		return nil
	}
	return n.owner[name]
}

// definedBy lists the names of a cell; of one in an imported note also where
// only that keeps it from being read.
func (n *Note) definedBy(c *node) []string {
	if c.in == nil || len(c.parseErr) == 0 {
		return c.parsed.Defines
	}
	var names []string
	for _, name := range c.defines {
		names = append(names, c.prefix()+name)
	}
	return names
}

// unread says which cells of the note behind a prefix cannot be read, "" if all can.
func (n *Note) unread(prefix string) string {
	for _, m := range n.imports {
		if m.prefix != prefix {
			continue
		}
		for _, c := range m.cells {
			if len(c.parseErr) > 0 {
				return c.Label + " has an error"
			}
		}
	}
	return ""
}

// onlyShows reports whether a cell of an imported note computes nothing that
// matters here: pictures, texts.
func (c *node) onlyShows() bool {
	return c.in != nil && len(c.parsed.Defines) == 0 && !c.parsed.Judges()
}

// split cuts a path into the name that a cell defines and fields of it:
// "supply.loss.Total" into "supply.loss" and "Total".
func (n *Note) split(path string) (name, field string) {
	for at := range len(path) + 1 {
		if at == len(path) || path[at] == '.' {
			if o := n.owner[path[:at]]; o != nil && !o.isImport(path[:at]) {
				return path[:at], strings.TrimPrefix(path[at:], ".")
			}
		}
	}
	name, field, _ = strings.Cut(path, ".")
	if o := n.owner[name]; o != nil && field != "" { // of an import
		return path, ""
	}
	return name, field
}

// isImport reports whether a name of the cell is that of an import.
func (c *node) isImport(name string) bool {
	return slices.ContainsFunc(c.imports, func(i cell.Import) bool { return c.prefix()+i.Name == name }) ||
		slices.ContainsFunc(c.parsed.Blocks, func(b cell.Block) bool { return c.prefix()+b.Name == name })
}
