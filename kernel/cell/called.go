package cell

import (
	"go/types"
	"slices"
	"strings"
)

// Called lists the functions of other packages that the cell names, by package
// path and name, sorted: those of units, lib and builtin among them.
func (c *Checked) Called() []string {
	var list []string
	for _, o := range c.info.Uses {
		f, ok := o.(*types.Func)
		if ok && f.Pkg() != nil && f.Signature().Recv() == nil && strings.Contains(f.Pkg().Path(), "/") && f.Pkg() != c.pkg {
			list = append(list, f.Pkg().Path()+"."+f.Name())
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}
