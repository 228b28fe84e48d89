package note

import (
	"errors"
	"fmt"
	"go/token"
	"go/types"
	"maps"
	"path"
	"reflect"
	"slices"
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
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
			c.imports, c.blocks = cell.ImportsOf(c.Code), cell.BlocksOf(c.Code)
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
		naming := &cell.Naming{Imports: map[string]string{}, Files: map[string]string{}}
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
					naming.Imports[b.Name], naming.Files[b.Name] = m.prefix, m.file
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
			c.defines, c.imports, c.blocks = p.Defines, p.Imports, cell.BlocksOf(s.Code)
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

// blockOf is the note that a block of a cell computes anew.
func (n *Note) blockOf(c *node, b cell.Block) *imported {
	for _, m := range n.imports {
		if m.given != nil && m.prefix == c.prefix()+b.Name+"." {
			return m
		}
	}
	return nil
}

// gives reports whether a note is a block that a cell computes.
func (n *Note) gives(c *node, m *imported) bool {
	return m != nil && slices.ContainsFunc(c.parsed.Blocks, func(b cell.Block) bool { return n.blockOf(c, b) == m })
}

// notGiven says which inputs a note does not take from a block.
func (m *imported) notGiven(c *node, b cell.Block) (errs []*cell.Error) {
	for _, name := range b.Given {
		trouble, hint := "", ""
		if !m.naming.Own[name] {
			trouble, hint = "does not define "+name, cell.Suggest(name, slices.Sorted(maps.Keys(m.naming.Own)))
		}
		for _, x := range m.cells {
			if why := x.parsed.Replaced[name]; why != "" {
				trouble = "cannot take " + name + ", which " + why
			}
		}
		if trouble != "" {
			errs = append(errs, c.parsed.ErrorFor(m.prefix+name, cell.CodeName, m.file+" "+trouble, hint))
		}
	}
	return errs
}

// ownInput finds what a block gives an input instead of: the name of the imported
// note and the cell that defines it, nil where none does.
func (n *Note) ownInput(c *node, b cell.Block, input string) (string, *node) {
	name := n.namingOf(c).Imports[b.Of] + input
	return name, n.owner[name]
}

// compares makes the inputs of an imported note names that a cell needs which
// gives others in a block: these are held against them.
func (n *Note) compares(c *node) {
	if len(c.parseErr) > 0 {
		return
	}
	for _, b := range c.parsed.Blocks {
		if n.blockOf(c, b) == nil {
			continue
		}
		for _, input := range b.Given {
			name, o := n.ownInput(c, b, input)
			if o == nil || o == c || slices.Contains(c.names, name) {
				continue
			}
			c.names = append(c.names, name)
			c.parsed.Weak[name] = true // nothing waits for it
			if !slices.Contains(c.needs, o) {
				c.needs = append(c.needs, o)
			}
		}
	}
}

// misfits says which inputs of its blocks a cell gives in another kind or
// dimension than the note has them.
func (n *Note) misfits(c *node, values map[string]exec.Value) (errs []*cell.Error) {
	for _, b := range c.parsed.Blocks {
		m := n.blockOf(c, b)
		if m == nil {
			continue
		}
		for _, input := range b.Given {
			name, o := n.ownInput(c, b, input)
			now := values[m.prefix+input]
			if o == nil || o.checked == nil || now.Type == nil {
				continue
			}
			object := o.checked.Object(name)
			if object == nil {
				continue
			}
			was, hint := object.Type(), "both are of one kind"
			own, isQuantity := o.values[name].V.(units.Quantity)
			q, also := now.V.(units.Quantity)
			if isQuantity && also {
				if !own.Dim().Same(q.Dim()) {
					errs = append(errs, c.parsed.ErrorFor(m.prefix+input, cell.CodeDimension,
						m.file+" has "+units.Nominal(own).String()+" for "+input+", and this is "+units.Nominal(q).String(), hint))
				}
				continue
			}
			if types.Identical(was, now.Type) || !plain(was) && !plain(now.Type) {
				continue // what a note does with its own types it checks itself
			}
			if is(was, types.Float64) && is(now.Type, types.Int) {
				hint = "write a whole number with its point, 2.0" // or the note would divide whole numbers
			}
			errs = append(errs, c.parsed.ErrorFor(m.prefix+input, cell.CodeType, m.file+" has a value of type "+typeText(was)+" for "+input+", and this is one of type "+typeText(now.Type), hint))
		}
	}
	return errs
}

// plain reports whether a type is one of Go's own simple ones.
func plain(t types.Type) bool {
	_, ok := types.Unalias(t).(*types.Basic)
	return ok
}

func is(t types.Type, kind types.BasicKind) bool {
	b, ok := types.Unalias(t).(*types.Basic)
	return ok && b.Kind() == kind
}

func typeText(t types.Type) string {
	return types.TypeString(t, func(*types.Package) string { return "" })
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

// showImports completes what the cells show of the notes that they import.
func (n *Note) showImports() {
	for _, c := range n.cells {
		var now, needs []Item // what must hold stands behind what is given
		if c.result.State == Done {
			for _, i := range c.imports {
				for _, m := range n.imports {
					if m.given == nil && m.file == i.File {
						now = append(now, m.shown(i.Name))
					}
				}
			}
			for _, b := range c.parsed.Blocks {
				if m := n.blockOf(c, b); m != nil {
					x := m.shown(b.Name)
					now = append(now, x)
					needs = append(needs, m.needs(b.Name)...)
					x.Given, x.Failed = b.Given, nil // they stand behind it
				}
			}
		}
		var old, rest []Item
		for _, i := range c.result.Items {
			if _, is := i.(*Imported); is || ofBlock(i) {
				old = append(old, i)
			} else {
				rest = append(rest, i)
			}
		}
		if len(now)+len(old) > 0 {
			c.result.Items = slices.Concat(now, rest, needs)
			c.result.Ran = c.result.Ran || !slices.EqualFunc(slices.Concat(now, needs), old, sameShown)
		}
	}
}

// sameShown reports whether two imports look alike.
func sameShown(a, b Item) bool {
	x, ok1 := a.(*Imported)
	y, ok2 := b.(*Imported)
	if ok1 && ok2 {
		v, w := *x, *y
		v.Entries, w.Entries = nil, nil
		return reflect.DeepEqual(v, w)
	}
	return reflect.DeepEqual(a, b)
}

// ofBlock reports whether an item is a requirement of a block.
func ofBlock(i Item) bool {
	q, ok := i.(*Requirement)
	return ok && q.block != ""
}

// waivers lists what is waived in a note, with the reasons.
func (m *imported) waivers() map[string]string {
	waived := map[string]string{}
	for _, c := range m.cells {
		for _, it := range c.result.Items {
			if w, ok := it.(*Waiver); ok {
				waived[w.ID] = w.Reason
			}
		}
	}
	return waived
}

// needs lists what must hold in a block: of this board.
func (m *imported) needs(name string) (list []Item) {
	waived := m.waivers()
	for _, c := range m.cells {
		for _, it := range c.result.Items {
			if q, ok := it.(*Requirement); ok {
				own := *q
				if !q.Holds && q.waivedAs() != "" {
					own.Waived = waived[q.waivedAs()]
				}
				own.block, own.Text, own.ID, own.key = name, name+": "+q.Text, "", c.ID+q.key
				list = append(list, &own)
			}
		}
	}
	return list
}

// shown is what a cell shows of a note.
func (m *imported) shown(name string) *Imported {
	out := &Imported{Name: name, File: m.file}
	waived := m.waivers()
	var needs []*Requirement
	for _, c := range m.cells {
		if c.result.State == Failed {
			label, _, _ := strings.Cut(c.Label, " of "+m.file)
			out.Errors = append(out.Errors, label)
		}
		for _, it := range c.result.Items {
			switch x := it.(type) {
			case *Entry:
				out.Entries = append(out.Entries, x)
			case *Requirement:
				needs = append(needs, x)
			}
		}
	}
	for _, q := range needs {
		if _, is := waived[q.waivedAs()]; !q.Holds && !is {
			out.Failed = append(out.Failed, q.Text)
		}
	}
	return out
}

// Import is a note that is computed with the note, because it is imported or
// as a block.
type Import struct {
	File   string // from the note's own folder
	Prefix string // of its names: "supply."
	given  map[string]bool
}

// Gives reports whether a name of it is an input that the note gives it.
func (i Import) Gives(name string) bool { return i.given[name] }

// Imports lists the notes that are computed with the note, as of its last run:
// a face that watches the note watches them, too.
func (n *Note) Imports() []Import {
	n.mu.Lock()
	defer n.mu.Unlock()
	var files []Import
	for _, m := range n.imports {
		files = append(files, Import{m.file, m.prefix, m.given})
	}
	return files
}

// Borrowed is an input of an imported note that a value of the note comes from.
type Borrowed struct {
	File  string // from the note's own folder
	ID    string // of its cell, and what people call that
	Cell  string
	Entry *Entry
}

// Borrowed lists the inputs of imported notes that values of the note come
// from, each before what was computed from it.
func (n *Note) Borrowed() []Borrowed {
	n.mu.Lock()
	defer n.mu.Unlock()
	var list []Borrowed
	for _, name := range n.order() {
		c := n.owner[name]
		if c.in == nil || !c.ok {
			continue
		}
		if e := entryOf(c, name); e.Form == FormInput {
			list = append(list, Borrowed{c.in.file, c.ID, c.Label, e})
		}
	}
	return list
}

// Knows reports whether a cell of the note, or of one that it imports, defines
// a name.
func (n *Note) Knows(name string) bool {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.owner[name] != nil
}
