package note

import (
	"reflect"
	"slices"
	"strings"
)

// What a note shows of those that it imports, and what faces may know of them.

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

// shown is what a cell shows of a note.
func (m *imported) shown(name string) *Imported {
	out := &Imported{Name: name, File: m.file}
	waived := m.waivers()
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
				if _, is := waived[x.waivedAs()]; !x.Holds && !is {
					out.Failed = append(out.Failed, x.Text)
				}
			}
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
