package host_test

import (
	"go/types"
	"slices"
	"testing"

	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/cell/host/allow"
)

// A cell that calls a function of our own packages gets values of its result
// types, with their fields and what their methods return. The executor needs
// the compiled type of each.
func TestReachableTypesAreCompiled(t *testing.T) {
	t.Parallel()
	w := load(t)
	for _, path := range w.Paths() {
		if slices.Contains(allow.Standard(), path) {
			continue
		}
		scope := packageOf(t, w, path).Scope()
		for _, name := range scope.Names() {
			if obj := scope.Lookup(name); obj.Exported() && w.Refused(obj) == nil {
				r := reach{w: w, t: t, from: path + "." + name, seen: map[types.Type]bool{}}
				r.walk(obj.Type())
			}
		}
	}
}

type reach struct {
	w    *host.World
	t    *testing.T
	from string
	seen map[types.Type]bool
}

func (r *reach) walk(typ types.Type) {
	typ = types.Unalias(typ)
	if r.seen[typ] {
		return
	}
	r.seen[typ] = true
	switch typ := typ.(type) {
	case *types.Named:
		if typ.Obj().Pkg() == nil {
			return // error
		}
		if _, ok := r.w.HostType(typ); !ok && !constraint(typ) {
			r.t.Errorf("%s reaches %v, which is not in the tables", r.from, typ)
		}
		for m := range typ.Methods() {
			if m.Exported() && r.w.Refused(m) == nil {
				r.walk(m.Type())
			}
		}
		r.walk(typ.Underlying())
	case *types.Struct:
		for f := range typ.Fields() {
			if f.Exported() {
				r.walk(f.Type())
			}
		}
	case *types.Signature:
		r.walk(typ.Params())
		r.walk(typ.Results())
	case *types.Tuple:
		for v := range typ.Variables() {
			r.walk(v.Type())
		}
	case *types.Map:
		r.walk(typ.Key())
		r.walk(typ.Elem())
	case interface{ Elem() types.Type }:
		r.walk(typ.Elem())
	}
}
