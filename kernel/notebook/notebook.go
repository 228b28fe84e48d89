package notebook

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
)

// Notebook is a notebook file. It must not be used by several goroutines at
// once while one of them changes it.
type Notebook struct {
	src    string // the text of the file as read
	root   *node
	layout layout
	minor  int
	cells  []*Cell
	known  string // the text of the file on disk, as far as this program knows
	path   string // the file itself, links followed; "" unless read or written
}

// emptyText is a new notebook in canonical form.
const emptyText = `{
 "cells": [],
 "metadata": {
  "kernelspec": {
   "display_name": "Ohmwright",
   "language": "go",
   "name": "ohmwright"
  }
 },
 "nbformat": 4,
 "nbformat_minor": 5
}
`

// New gives a notebook without cells for the Ohmwright kernel, nbformat 4.5.
func New() *Notebook {
	n, err := Parse([]byte(emptyText))
	if err != nil {
		panic("notebook: the text of an empty notebook: " + err.Error())
	}
	return n
}

// Minor is the minor version of the format, 5 for nbformat 4.5.
func (n *Notebook) Minor() int { return n.minor }

// Metadata gives the notebook's metadata as JSON, as the file spells it.
func (n *Notebook) Metadata() json.RawMessage { return rawOf(n.root.get("metadata")) }

// KernelName is the name of the kernel that the notebook asks for, "" if it
// asks for none.
func (n *Notebook) KernelName() string {
	return valid(n.root.get("metadata").get("kernelspec").get("name").text())
}

// Cells gives the cells in their order.
func (n *Notebook) Cells() []*Cell { return slices.Clone(n.cells) }

// AddCode appends a code cell.
func (n *Notebook) AddCode(source string) *Cell { return n.add("code", source) }

// AddMarkdown appends a Markdown cell.
func (n *Notebook) AddMarkdown(source string) *Cell { return n.add("markdown", source) }

func (n *Notebook) add(kind, source string) *Cell {
	cell := &Cell{nb: n, n: &node{kind: object}, number: len(n.cells) + 1}
	cell.n.set("cell_type", textNode(kind))
	if n.minor >= 5 {
		cell.n.set("id", textNode(n.freeID(cell.number)))
	}
	cell.n.set("metadata", &node{kind: object})
	cell.SetSource(source)
	if kind == "code" {
		cell.n.set("outputs", &node{kind: array})
		cell.n.set("execution_count", &node{kind: null})
	}
	n.cells = append(n.cells, cell)
	list := n.root.get("cells")
	list.items = append(list.items, cell.n)
	return cell
}

// freeID makes an id from the place of a cell, so that the same notebook is
// built the same way each time.
func (n *Notebook) freeID(number int) string {
	base := fmt.Sprintf("cell-%d", number)
	id := base
	for i := 2; slices.ContainsFunc(n.cells, func(c *Cell) bool { return c.ID() == id }); i++ {
		id = fmt.Sprintf("%s-%d", base, i)
	}
	return id
}

// Canonical gives the notebook as the format's reference writer would: keys
// sorted, one space a level, text in lines. Metadata that the format never
// keeps in files (trust, signature) is left out.
func (n *Notebook) Canonical() []byte {
	var b strings.Builder
	canonicalLayout.write(&b, canonicalNotebook(n.root), "")
	b.WriteByte('\n')
	return []byte(b.String())
}

// Bytes gives the text of the file: that which was read, with only those parts
// replaced that were set to something else.
func (n *Notebook) Bytes() []byte { return []byte(n.text()) }

// splice is a piece of the text that is replaced by another.
type splice struct {
	from, to int
	text     string
}

func (n *Notebook) text() string {
	splices := n.splices()
	if len(splices) == 0 {
		return n.src
	}
	// Stable: keys that are added to one object keep their order.
	slices.SortStableFunc(splices, func(a, b splice) int { return cmp.Compare(a.from, b.from) })
	var b strings.Builder
	done := 0
	for _, s := range splices {
		b.WriteString(n.src[done:s.from])
		b.WriteString(s.text)
		done = s.to
	}
	b.WriteString(n.src[done:])
	return b.String()
}

func (n *Notebook) splices() []splice {
	var out []splice
	list := n.root.find("cells")
	var last *node // the last cell that the file has
	var added []*node
	for _, cell := range list.value.items {
		if cell.raw == "" {
			added = append(added, cell)
			continue
		}
		last = cell
		out = append(out, n.cellSplices(cell)...)
	}
	if len(added) == 0 {
		return out
	}
	var b strings.Builder
	if last == nil {
		n.layout.list(&b, "[", "]", len(added), indentAt(n.src, list.at), func(i int, indent string) {
			n.layout.write(&b, canonicalCell(added[i]), indent)
		})
		return append(out, splice{list.value.at, list.value.end(), b.String()})
	}
	indent := indentAt(n.src, last.at)
	for _, cell := range added {
		b.WriteString(n.layout.between() + n.layout.newline)
		if n.layout.newline != "" {
			b.WriteString(indent)
		}
		n.layout.write(&b, canonicalCell(cell), indent)
	}
	return append(out, splice{last.end(), last.end(), b.String()})
}

// cellSplices gives what has changed in a cell that the file has.
func (n *Notebook) cellSplices(cell *node) []splice {
	var out []splice
	for _, m := range cell.members {
		var b strings.Builder
		switch {
		case m.orig == nil:
			// A key that the cell lacked goes behind its last one.
			last := lastOf(cell)
			indent := indentAt(n.src, last.at)
			b.WriteString(n.layout.between() + n.layout.newline)
			if n.layout.newline != "" {
				b.WriteString(indent)
			}
			writeText(&b, m.name)
			b.WriteString(n.layout.colon)
			n.value(&b, m, indent)
			out = append(out, splice{last.orig.end(), last.orig.end(), b.String()})
		case m.value != m.orig:
			n.value(&b, m, indentAt(n.src, m.at))
			out = append(out, splice{m.orig.at, m.orig.end(), b.String()})
		}
	}
	return out
}

// lastOf gives the last member that an object has in the file.
func lastOf(n *node) *member {
	var last *member
	for _, m := range n.members {
		if m.orig != nil {
			last = m
		}
	}
	return last
}

// value writes the new value of a cell's key; outputs that were kept as the
// file spells them.
func (n *Notebook) value(b *strings.Builder, m *member, indent string) {
	if m.name != "outputs" {
		n.layout.write(b, m.value, indent)
		return
	}
	n.layout.list(b, "[", "]", len(m.value.items), indent, func(i int, inner string) {
		if item := m.value.items[i]; item.raw != "" {
			b.WriteString(item.raw)
		} else {
			n.layout.write(b, canonicalOutput(item), inner)
		}
	})
}
