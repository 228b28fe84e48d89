package host

import (
	"go/types"
	"path"
	"slices"
	"strings"

	"github.com/agext/levenshtein"

	"ohmwright/kernel/cell/host/allow"
)

// Importer returns an importer of the packages that cells may use. For any
// other it returns a *Refusal.
func (w *World) Importer() types.Importer { return importer{w} }

type importer struct{ w *World }

func (i importer) Import(p string) (*types.Package, error) {
	if r := i.w.Allowed(p); r != nil {
		return nil, r
	}
	return i.w.packages[p], nil
}

// Allowed returns why a cell cannot import the path; nil if it can. Whoever
// checks a cell asks for each of its imports, because go/types never asks
// an importer for unsafe.
func (w *World) Allowed(path string) *Refusal {
	if w.packages[path] != nil {
		return nil
	}
	return w.refuseImport(path)
}

func (w *World) refuseImport(p string) *Refusal {
	r := &Refusal{Msg: "package " + p + " is not available in cells, because a note is a calculation"}
	if pkg := w.byName[path.Base(p)]; pkg != nil {
		r.Msg = "there is no package " + p
		r.Hint = pkg.Name() + " is in scope without an import"
		return r
	}
	if near := nearest(p, w.Paths()); near != "" {
		r.Msg = "there is no package " + p + " for cells"
		r.Hint = "did you mean " + near + "?"
		return r
	}
	if near := nearest(path.Base(p), w.PackageNames()); near != "" {
		r.Msg = "there is no package " + p + " for cells"
		r.Hint = "did you mean " + near + ", which is in scope without an import?"
		return r
	}
	var own, standard []string
	for _, path := range w.Paths() {
		if !strings.HasPrefix(path, "ohmwright/") {
			standard = append(standard, path)
		} else if allow.InScope(path) {
			own = append(own, w.packages[path].Name())
		}
	}
	slices.Sort(own)
	r.Hint = "cells can use " + strings.Join(standard, ", ") + ", and without an import " + strings.Join(own, ", ")
	return r
}

// nearest returns the name that is at most two slips away from s, but less
// than half of it; "" if there is none. The first of equals wins.
func nearest(s string, names []string) string {
	best, found := 3, ""
	for _, name := range names {
		if d := levenshtein.Distance(s, name, nil); d < best && 2*d < len(s) {
			best, found = d, name
		}
	}
	return found
}
