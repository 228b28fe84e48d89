package host

import (
	"go/token"
	"go/types"
	"reflect"
	"strings"

	"ohmwright/kernel/cell/host/allow"
)

// Refusal says why a cell cannot have something, and what to write instead.
type Refusal = allow.Refusal

// Host returns the compiled function or variable of an allowed package; for a
// variable a pointer to a copy of it, so that nothing a cell does to it
// reaches anybody else. Types are HostType's, constants are in the export data.
func (w *World) Host(pkgPath, name string) (reflect.Value, bool) {
	obj := w.lookup(pkgPath, name)
	v, ok := w.symbol(pkgPath, name)
	if obj == nil || !ok {
		return reflect.Value{}, false
	}
	switch obj.(type) {
	case *types.Func:
		return v, true
	case *types.Var:
		copied := reflect.New(v.Type())
		copied.Elem().Set(v)
		return copied, true
	}
	return reflect.Value{}, false
}

// HostType returns the compiled type of a named type of an allowed package;
// for an interface the interface type itself. There is none for a constraint
// and for a type that cells do not have.
func (w *World) HostType(named *types.Named) (reflect.Type, bool) {
	obj := named.Obj()
	if obj.Pkg() == nil || obj.Parent() != obj.Pkg().Scope() {
		return nil, false
	}
	if _, isType := w.lookup(obj.Pkg().Path(), obj.Name()).(*types.TypeName); !isType {
		return nil, false
	}
	v, ok := w.symbol(obj.Pkg().Path(), obj.Name())
	if !ok {
		return nil, false
	}
	return v.Type().Elem(), true
}

// Wrapper returns a compiled struct type that implements the interface
// pkgPath.name, so that a value of a cell can be handed to compiled code as
// one: for a method M it has a field WM, the function that M calls, and in
// IValue the value as %v should print it.
func (w *World) Wrapper(pkgPath, name string) (reflect.Type, bool) {
	v, ok := w.symbol(pkgPath, "_"+name)
	if !ok {
		return nil, false
	}
	return v.Type().Elem(), true
}

// Missing returns why cells do not have pkgPath.name, where name is exported
// by an allowed package, or is "Type.Method" of one; nil if they have it, or
// if there is no such name.
func (w *World) Missing(pkgPath, name string) *Refusal {
	obj := w.lookup(pkgPath, name)
	if obj == nil {
		return nil
	}
	return w.Refused(obj)
}

// Refused is Missing for an object or method that the checker found. Objects
// of packages that are not the host's, such as those of cells, are not refused.
func (w *World) Refused(obj types.Object) *Refusal {
	if obj.Pkg() == nil || w.packages[obj.Pkg().Path()] != obj.Pkg() {
		return nil
	}
	return allow.Object(obj)
}

func (w *World) symbol(pkgPath, name string) (reflect.Value, bool) {
	table := w.tables[pkgPath]
	if table == nil {
		return reflect.Value{}, false
	}
	v, ok := table()[name]
	return v, ok
}

// lookup finds an exported "Name", "Type.Method" or "Type.Field".
func (w *World) lookup(pkgPath, name string) types.Object {
	p := w.packages[pkgPath]
	if p == nil {
		return nil
	}
	typeName, member, isMember := strings.Cut(name, ".")
	obj := p.Scope().Lookup(typeName)
	if obj == nil || !token.IsExported(typeName) {
		return nil
	}
	if isMember {
		obj, _, _ = types.LookupFieldOrMethod(obj.Type(), true, p, member)
		if obj == nil || !obj.Exported() {
			return nil
		}
	}
	return obj
}
