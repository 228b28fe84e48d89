package host

import (
	"go/types"
	"io/fs"

	"ohmwright/kernel/cell/host/symbols"
)

// Source returns the files of a package of lib, from which its formulas are
// drawn; ok is false for packages that do not carry theirs.
func (w *World) Source(pkgPath string) (files fs.ReadFileFS, ok bool) {
	if f := symbols.Source(pkgPath); f != nil {
		return f, true
	}
	return nil, false
}

// Imported reports whether a package is one that cells may import.
func (w *World) Imported(p *types.Package) bool { return w.packages[p.Path()] == p }
