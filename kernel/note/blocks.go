package note

import (
	"go/types"
	"maps"
	"slices"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// A block is a note that is computed anew with inputs of the one that imports
// it: what it takes, and what must hold in it, which is judged for this board.

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
