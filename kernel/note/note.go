package note

import (
	"context"
	"errors"
	"fmt"
	"go/token"
	"go/types"
	"maps"
	"slices"
	"strings"
	"sync"
	"time"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/cell/inside"
	"ohmwright/units"
)

// Source is a cell as a face hands it in.
type Source struct {
	ID    string // stays with the cell while it is edited
	Label string // for people: "cell 3"; made from its place if empty
	Code  string
}

// Options of a note. World is needed, the rest may be zero.
type Options struct {
	World  *host.World
	Limits exec.Limits
	// CellTime is the longest that one cell may run; 0: as long as it takes.
	CellTime time.Duration
	// Open reads a file of the note's own folder, by the name that a cell
	// gives; nil: the note has no folder.
	Open func(name string) ([]byte, error)
	// Note reads the cells of a note that a cell imports, by its name from the
	// note's own folder; nil: the note has no folder.
	Note func(file string) ([]Source, error)
	// Printed is told what a cell prints while it runs.
	Printed func(id, text string)
	// Progress is told before each cell that runs.
	Progress func(label string, done, total int)
}

// Note is a set of cells and what they came to. Its methods may be called
// from several goroutines; one at a time does its work.
type Note struct {
	mu      sync.Mutex
	options Options
	fset    *token.FileSet
	cells   []*node
	version int
	whatIf  map[string]*cell.Override
	again   bool // a what-if chooses parts anew

	byID    map[string]*node
	owner   map[string]*node // of each name
	packets map[*types.Package]*node
	embeds  bool // some cell embeds a type in a struct

	imports []*imported // each before those that it alone imports
	naming  *cell.Naming

	files   map[string]*opened // those that the cells name, as in the last run
	changed []string           // of them, those that the run before saw otherwise

	study    *units.Study
	policies map[rule]float64 // shares of ratings
	overdue  bool             // the cases of the note were not computed when they had to be
	ordered  []*node          // the cells, each after those that it needs
	placed   int              // sources of the study after its first run
	library  *inside.Library
}

// node is a cell in the graph.
type node struct {
	Source
	in     *imported // nil for a cell of the note itself
	index  int
	edited bool // its text is newer than parsed

	imports []cell.Import // of its text
	blocks  []cell.Block  // that it may compute
	defines []string      // of the text of a cell in an imported note, as they are called there

	parsed  *cell.Parsed
	checked *cell.Checked
	program *cell.Program

	needs  []*node // cells whose names it uses
	names  []string
	result *Result

	values   map[string]exec.Value
	versions map[string]int    // of each name it defines: grows when the value changes
	seen     map[string]int    // version of each name it used at its last run
	read     map[string]string // marks of the files that it names, at its last run
	against  []string          // names of other cells it was checked against
	broken   bool              // its text, a second definition or a circle keeps it from being computed
	asked    bool              // Again asks for it in the next run
	settled  bool              // it was computed and nothing but what seen says can change that
	ok       bool              // it has values
	parseErr []*cell.Error

	runs    int           // how often it was computed
	watched map[*node]int // runs of what its Trends compute anew, at its own last run
	limits  []cell.Limit  // those that its Trends draw
	drew    []cell.Limit  // those of its last run

	design  map[string][]exec.Value // choices of the design as written
	chosen  map[string][]exec.Value // choices, and what High, Low and Nominal came to, of the last run
	spreads bool                    // it has sources of spread, or uses what has
}

// New makes an empty note.
func New(o Options) *Note {
	return &Note{options: o, fset: token.NewFileSet(), byID: map[string]*node{}, owner: map[string]*node{}, packets: map[*types.Package]*node{},
		study: units.NewStudy(units.StudyOptions{}), library: inside.New(o.World)}
}

// Set makes these the note's cells, in this order. Cells that keep their id
// and text keep their values.
func (n *Note) Set(sources []Source) {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.set(sources)
}

func (n *Note) set(sources []Source) {
	var cells []*node
	kept := map[string]bool{}
	for i, s := range sources {
		if s.Label == "" {
			s.Label = fmt.Sprintf("cell %d", i+1)
		}
		c := n.byID[s.ID]
		if c == nil || kept[s.ID] {
			c = &node{}
		}
		kept[s.ID] = true
		if c.Code != s.Code || c.parsed == nil {
			c.edited = true
		}
		c.Source = s
		cells = append(cells, c)
	}
	for _, c := range n.cells {
		if !kept[c.ID] {
			n.forget(c)
		}
	}
	n.cells = cells
	n.byID = map[string]*node{}
	for _, c := range n.all() {
		n.byID[c.ID] = c
	}
}

// Put adds a cell at the end, or gives the cell of this id a new text.
func (n *Note) Put(s Source) {
	n.mu.Lock()
	defer n.mu.Unlock()
	sources := n.sources()
	for i := range sources {
		if sources[i].ID == s.ID {
			sources[i] = s
			n.set(sources)
			return
		}
	}
	n.set(append(sources, s))
}

// Again makes the next Run compute a cell although nothing that it uses
// changed. A cell that was interrupted needs this as well: it is not tried
// again by itself, since it may be one that does not end.
func (n *Note) Again(id string) {
	n.mu.Lock()
	defer n.mu.Unlock()
	if c := n.byID[id]; c != nil {
		c.settled, c.asked = false, true
	}
}

// Names lists what a text would define as a cell.
func (n *Note) Names(code string) []string {
	p, _ := cell.Parse(token.NewFileSet(), "", code, nil)
	return p.Defines
}

// Remove takes a cell out.
func (n *Note) Remove(id string) {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.set(slices.DeleteFunc(n.sources(), func(s Source) bool { return s.ID == id }))
}

func (n *Note) sources() []Source {
	var s []Source
	for _, c := range n.cells {
		s = append(s, c.Source)
	}
	return s
}

func (n *Note) forget(c *node) {
	n.overdue = true // a requirement may be gone, and no cell run for it
	if c.parsed != nil {
		c.parsed.Release()
	}
	if c.checked != nil {
		for _, k := range c.checked.Packages() {
			delete(n.packets, k)
		}
	}
	c.parsed, c.checked, c.program = nil, nil, nil
}

// WhatIf sets names to other expressions, as the command's --set does: each
// stands in the place of the right side of its definition. An empty map goes
// back to the design as written. Parts that the design chose stay chosen,
// unless redesign asks to choose again. Call Run before (for the design) and after.
func (n *Note) WhatIf(set map[string]string, redesign bool) error {
	n.mu.Lock()
	defer n.mu.Unlock()
	touched := map[string]bool{}
	for name := range n.whatIf {
		touched[name] = true
	}
	for name := range set {
		touched[name] = true
		if n.owner[name] == nil {
			return fmt.Errorf("--set %s: %w", name, n.unknown(name))
		}
	}
	n.whatIf = map[string]*cell.Override{}
	for name, text := range set {
		n.whatIf[name] = &cell.Override{Text: text}
	}
	n.again = redesign
	for name := range touched {
		if c := n.owner[name]; c != nil {
			c.edited = true
		}
	}
	if redesign {
		for _, c := range n.all() {
			c.settled = false
		}
	}
	return nil
}

// unknown is the error of a name that no cell defines, with the nearest of the
// note's names and of others.
func (n *Note) unknown(name string, others ...string) error {
	msg := "the note does not define " + name
	if s := cell.Suggest(name, append(n.names(), others...)); s != "" {
		msg += ": " + s
	}
	return errors.New(msg)
}

// names lists what a cell of the note may use, sorted.
func (n *Note) names() []string {
	return slices.DeleteFunc(slices.Sorted(maps.Keys(n.owner)), func(name string) bool {
		return strings.Count(name, ".") > 1 // of a note that an import imports
	})
}

// Run computes what is not up to date, in the order of the dependencies, and
// gives the results of all cells in the order of the note.
func (n *Note) Run(ctx context.Context) []*Result {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.parse()
	n.reread()
	n.embeds = false
	for _, c := range n.all() {
		n.embeds = n.embeds || c.parsed.Embeds
	}
	order := n.link()
	n.ordered = order
	var ran []*node
	for i, c := range order {
		n.compute(ctx, c, i, len(order))
		if c.result.Ran {
			ran = append(ran, c)
		}
	}
	if n.placed == 0 {
		n.placed = n.study.Len()
	}
	n.surveyed(ctx, ran)
	n.derivations(ctx, ran)
	n.showImports()
	n.board(ctx, ran)
	n.texts()
	var out []*Result
	for _, c := range n.cells {
		c.result.Fixed, c.asked = n.fixed(c), false
		out = append(out, c.result)
	}
	return out
}

// parse reads the texts that changed.
func (n *Note) parse() {
	n.resolve()
	for _, c := range n.all() {
		if !c.edited {
			continue
		}
		c.edited = false
		n.forget(c)
		c.parsed, c.parseErr = cell.ParseIn(n.fset, c.ID, c.Code, n.whatIf, n.namingOf(c))
		c.settled, c.seen = false, nil
		if c.result == nil {
			c.result = &Result{}
		}
	}
}

// link finds who defines what, refuses second definitions and cycles, and
// gives an order in which every cell comes after those that it needs.
func (n *Note) link() []*node {
	n.owner = map[string]*node{}
	errs := map[*node][]*cell.Error{}
	all := n.all()
	for i, c := range all {
		c.index = i
		c.result = &Result{ID: c.ID, Label: c.Label, Files: c.result.Files, Defines: c.parsed.Named(), Items: c.result.Items, Errors: c.result.Errors, State: c.result.State}
		c.broken = false
		for _, e := range c.parseErr {
			e.Cell = c.Label // which may be another than when it was parsed
		}
		errs[c] = append(errs[c], c.parseErr...)
		for _, name := range n.definedBy(c) {
			if first := n.owner[name]; first != nil {
				e := c.parsed.ErrorFor(name, cell.CodeTwice, name+" is defined twice: here, in "+c.Label+", and in "+first.Label,
					"a name has one defining cell; rename one of them")
				errs[c] = append(errs[c], e)
				continue
			}
			n.owner[name] = c
		}
	}
	n.notImported(errs)
	n.configure(errs)
	n.derate(errs)
	for _, c := range all {
		c.needs, c.names = nil, nil
		for _, name := range c.parsed.Uses {
			if o := n.sees(c, name); o != nil && o != c {
				c.names = append(c.names, name)
				if !c.parsed.Weak[name] && !slices.Contains(c.needs, o) {
					c.needs = append(c.needs, o)
				}
			}
		}
	}
	// A key of a composite literal is a field or a name: it counts as a name
	// where that makes no circle.
	for _, c := range all {
		for _, name := range c.parsed.Uses { // in their order: one such name may rule out another
			if !c.parsed.Weak[name] {
				continue
			}
			if o := n.sees(c, name); o != nil && o != c && !slices.Contains(c.needs, o) && !reaches(o, c, map[*node]bool{}) {
				c.needs = append(c.needs, o)
			}
		}
		n.compares(c)
		n.limitsOf(c)
		slices.SortFunc(c.needs, func(a, b *node) int { return a.index - b.index })
	}
	var order []*node
	state := map[*node]int{}
	var path []*node
	var visit func(c *node)
	visit = func(c *node) {
		switch state[c] {
		case 2:
			return
		case 1:
			i := len(path) - 1
			for path[i] != c {
				i--
			}
			n.cycle(path[i:], errs)
			return
		}
		state[c] = 1
		path = append(path, c)
		for _, d := range c.needs {
			visit(d)
		}
		path = path[:len(path)-1]
		state[c] = 2
		order = append(order, c)
	}
	for _, c := range all {
		if c.onlyShows() {
			n.drop(c) // it may have done more before it was edited
			c.result.Items, c.result.Errors, c.result.State = nil, nil, Done
			continue
		}
		visit(c)
	}
	for _, c := range all {
		if len(errs[c]) > 0 {
			n.fail(c, errs[c])
			c.settled, c.broken = false, true
		}
	}
	return order
}

// namingOf says what the names in the text of a cell are called.
func (n *Note) namingOf(c *node) *cell.Naming {
	if c.in != nil {
		return c.in.naming
	}
	return n.naming
}

// reaches reports whether a cell needs another, directly or not.
func reaches(from, to *node, seen map[*node]bool) bool {
	if from == to {
		return true
	}
	if seen[from] {
		return false
	}
	seen[from] = true
	return slices.ContainsFunc(from.needs, func(d *node) bool { return reaches(d, to, seen) })
}

// cycle tells every cell of a circle which names go round.
func (n *Note) cycle(ring []*node, errs map[*node][]*cell.Error) {
	steps := make([]string, len(ring))
	firsts := make([]string, len(ring)) // the name of the next cell that ring[i] uses
	for i, c := range ring {
		next := ring[(i+1)%len(ring)]
		for _, name := range c.names {
			if n.owner[name] == next {
				firsts[i] = name
				break
			}
		}
		steps[i] = c.Label + " needs " + firsts[i] + " of " + next.Label
	}
	for i, c := range ring {
		turned := append(append([]string{}, steps[i:]...), steps[:i]...)
		hint := "break the circle with a value that does not depend on the other, or put the loop into Settle"
		if next := ring[(i+1)%len(ring)]; n.gives(c, next.in) {
			hint = "a cell that computes a block cannot use what comes of it: use " + firsts[i] + " in another cell"
		}
		e := c.parsed.ErrorAtUse(firsts[i], cell.CodeCycle, "the cells need each other: "+strings.Join(turned, ", "), hint)
		errs[c] = append(errs[c], e)
	}
}

// fail leaves the names of a cell undefined.
func (n *Note) fail(c *node, errs []*cell.Error) {
	for _, e := range errs {
		if e.Cell == "" {
			e.Cell = c.Label
		}
	}
	c.result.State, c.result.Errors, c.result.Items = Failed, errs, nil
	n.drop(c)
}

// drop takes the values of a cell away, so that its dependents notice.
func (n *Note) drop(c *node) {
	if c.ok {
		for name := range c.versions {
			n.version++
			c.versions[name] = n.version
		}
	}
	c.ok, c.values = false, nil
}
