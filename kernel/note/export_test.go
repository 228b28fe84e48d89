package note

import "ohmwright/kernel/cell"

// ImportErrors lists the errors of the cells in imported notes.
func (n *Note) ImportErrors() []*cell.Error {
	var list []*cell.Error
	for _, m := range n.imports {
		for _, c := range m.cells {
			list = append(list, c.result.Errors...)
		}
	}
	return list
}
