package note

import (
	"go/types"
	"slices"

	"ohmwright/kernel/cell"
)

// Constant reports whether a cell shows nothing but expressions that no other
// cell can change: 2+2, Parallel(10kΩ, 22kΩ).
func (r *Result) Constant() bool {
	return r.State == Done && r.Fixed && len(r.Defines) == 0 && len(r.Items) > 0 &&
		!slices.ContainsFunc(r.Items, func(i Item) bool { _, shown := i.(*Shown); return !shown })
}

// Defined lists the names that a cell of the note defines, in the order of
// their definition. Unlike Names it reads no text again.
func (n *Note) Defined(id string) []string {
	n.mu.Lock()
	defer n.mu.Unlock()
	if c := n.byID[id]; c != nil && c.parsed != nil {
		return c.parsed.Defines
	}
	return nil
}

// ComesFrom lists which of some names and files a cell's value of that name was
// computed from, directly or not; with the name "" which of them anything in the
// cell uses.
func (n *Note) ComesFrom(id, name string, of []string) []string {
	n.mu.Lock()
	defer n.mu.Unlock()
	c := n.byID[id]
	if c == nil || len(of) == 0 {
		return nil
	}
	seen := map[string]bool{}
	mark := func(files []string) {
		for _, f := range files {
			seen[f] = true
		}
	}
	var visit func(names []string)
	visit = func(names []string) {
		for _, name := range names {
			o := n.owner[name]
			if o == nil || seen[name] {
				continue
			}
			seen[name] = true
			if o.in != nil {
				seen[o.in.file] = true
			}
			if o.checked != nil {
				mark(o.checked.FilesOf(name))
				visit(o.checked.UsedBy(name))
			} else {
				visit(o.names)
			}
		}
	}
	if name != "" && c.checked != nil {
		mark(c.checked.FilesOf(name))
		visit(c.checked.UsedBy(name))
	} else {
		mark(c.parsed.Files)
		visit(c.names)
	}
	return slices.DeleteFunc(slices.Clone(of), func(name string) bool { return !seen[name] })
}

// fixed reports whether no other cell can change what a cell comes to: it uses
// none of their names and none that is still to be defined, and nobody else
// defines what it defines. A file that it reads may change without a cell.
func (n *Note) fixed(c *node) bool {
	if len(c.names) > 0 || len(c.parsed.Files) > 0 || slices.ContainsFunc(c.result.Errors, func(e *cell.Error) bool { return e.Code == cell.CodeTwice }) {
		return false
	}
	if slices.ContainsFunc(c.result.Items, ofTheBoard) {
		return false
	}
	w := n.options.World
	return !slices.ContainsFunc(c.parsed.Uses, func(name string) bool {
		return !c.parsed.Weak[name] && w.Builtin(name) == nil && w.Package(name) == nil && types.Universe.Lookup(name) == nil
	})
}

// Order lists the names that the cells define, each after those that it was
// computed from.
func (n *Note) Order() []string {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.order()
}

func (n *Note) order() []string {
	var list []string
	seen := map[string]bool{}
	var visit func(c *node, name string)
	visit = func(c *node, name string) {
		if seen[name] || n.owner[name] != c {
			return
		}
		seen[name] = true
		if c.checked != nil {
			for _, used := range c.checked.UsedBy(name) {
				if o := n.owner[used]; o != nil {
					visit(o, used)
				}
			}
		}
		list = append(list, name)
	}
	for _, c := range n.cells {
		if c.parsed == nil {
			continue
		}
		for _, name := range c.parsed.Defines {
			visit(c, name)
		}
	}
	return list
}
