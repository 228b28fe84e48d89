// Package allow says what of the compiled world a cell may use: pure packages
// that neither read nor write anything, and of them what can be called from a
// cell.
//
// It is the one place where this is decided; the generator builds the tables
// by it and the host explains by it why a name is not there.
package allow

import (
	"fmt"
	"go/types"
	"slices"
	"strings"
)

// Import paths of the packages of our own that cells may use; every package
// below Lib is another.
const (
	Units     = "ohmwright/units"
	Builtin   = "ohmwright/kernel/cell/builtin"
	Preferred = "ohmwright/lib/preferred"
	Lib       = "ohmwright/lib/"
)

// InScope reports whether an allowed package is in scope under its name. The
// functions of Builtin are, and the checks of lib's arguments are called by
// lib's own source only, so neither takes a name away from the note.
func InScope(path string) bool {
	return path != Builtin && path != argument && !slices.Contains(importedOnly, path)
}

// importedOnly are packages that a cell has to import, because their names
// are words that notes use for values.
var importedOnly = []string{"math/bits", "cmp", "unicode/utf8"}

// Yields reports whether a package in scope leaves its name to a note that
// defines it, as the functions of Builtin do: people call many a value table.
func Yields(path string) bool { return path == Lib+"table" }

const argument = "ohmwright/lib/argument"

// standard lists the packages of Go's library that compute and nothing else.
var standard = []string{
	"cmp", "errors", "fmt", "math", "math/bits", "sort", "strconv", "strings", "unicode", "unicode/utf8",
}

// Standard returns the import paths of the standard packages that cells may
// use, sorted.
func Standard() []string { return slices.Clone(standard) }

// Path reports whether cells may import the package. Packages below an
// internal folder of lib are lib's own.
func Path(path string) bool {
	if strings.HasPrefix(path, Lib) {
		return !strings.Contains(path+"/", "/internal/")
	}
	return path == Units || path == Builtin || slices.Contains(standard, path)
}

// Refusal says why a cell cannot have something, and what to write instead.
type Refusal struct {
	Msg  string
	Hint string // "" if there is nothing to say
}

func (r *Refusal) Error() string {
	if r.Hint == "" {
		return r.Msg
	}
	return r.Msg + ": " + r.Hint
}

// Object returns why a cell cannot use an exported package-level object or
// method of a package that it may import; nil if it can.
func Object(obj types.Object) *Refusal {
	pkg := obj.Pkg()
	if pkg == nil {
		return nil // predeclared, such as error.Error
	}
	name := pkg.Name() + "." + obj.Name()
	if f, ok := obj.(*types.Func); ok && f.Signature().Recv() != nil {
		name = pkg.Name() + "." + receiver(f) + "." + obj.Name()
	}
	if !Path(pkg.Path()) {
		return &Refusal{Msg: name + " is not available in cells"}
	}
	if r, ok := refused[key(pkg, name)]; ok {
		return &Refusal{Msg: name + " is not available in cells, because it " + r.why, Hint: r.instead}
	}
	if Generic(obj) {
		return &Refusal{
			Msg:  name + " is not available in cells, because compiled generic code cannot be called from a cell",
			Hint: "write the loop, or a function of your own; generic functions of a note's own cells work",
		}
	}
	switch obj := obj.(type) {
	case *types.Func:
		if foreign := foreignIn(obj.Signature()); foreign != "" {
			return &Refusal{Msg: fmt.Sprintf("%s is not available in cells, because it needs %s", name, foreign)}
		}
	case *types.Var:
		if foreign := foreign(obj.Type()); foreign != "" {
			return &Refusal{Msg: fmt.Sprintf("%s is not available in cells, because it is of type %s", name, foreign)}
		}
		if !obj.IsField() && slices.Contains(standard, pkg.Path()) && !constant(obj.Type()) {
			return &Refusal{Msg: name + " is not available in cells, because a cell could change it for everyone"}
		}
	}
	return nil
}

// Generic reports whether obj is a generic function, or a generic type that
// has values. Compiled code of it cannot be called from cells.
func Generic(obj types.Object) bool {
	switch obj := obj.(type) {
	case *types.Func:
		return obj.Signature().TypeParams().Len() > 0 || obj.Signature().RecvTypeParams().Len() > 0
	case *types.TypeName:
		t, ok := types.Unalias(obj.Type()).(*types.Named)
		return ok && t.TypeParams().Len() > 0 && !types.IsInterface(t)
	}
	return false
}

// receiver is the name of the type that a method belongs to.
func receiver(f *types.Func) string {
	t := f.Signature().Recv().Type()
	if p, ok := types.Unalias(t).(*types.Pointer); ok {
		t = p.Elem()
	}
	if n, ok := types.Unalias(t).(*types.Named); ok {
		return n.Obj().Name()
	}
	return types.TypeString(t, nil)
}

// constant reports whether a variable of type t has no contents that could be
// changed through a copy of it.
func constant(t types.Type) bool {
	if types.Identical(t, types.Universe.Lookup("error").Type()) {
		return true
	}
	_, basic := t.Underlying().(*types.Basic)
	return basic
}

// key is the name in refused of what is called name, "bits.Add", in code.
func key(pkg *types.Package, name string) string {
	return strings.TrimSuffix(pkg.Path(), pkg.Name()) + name
}

// foreignIn returns the first named type in the parameters and results of sig
// that cells do not have, such as "io.Writer".
func foreignIn(sig *types.Signature) string {
	for tuple := range tuples(sig) {
		for v := range tuple.Variables() {
			if f := foreign(v.Type()); f != "" {
				return f
			}
		}
	}
	return ""
}

func tuples(sig *types.Signature) func(func(*types.Tuple) bool) {
	return func(yield func(*types.Tuple) bool) {
		_ = yield(sig.Params()) && yield(sig.Results())
	}
}

func foreign(t types.Type) string {
	switch t := types.Unalias(t).(type) {
	case *types.Named:
		if pkg := t.Obj().Pkg(); pkg != nil {
			name := pkg.Name() + "." + t.Obj().Name()
			if _, out := refused[key(pkg, name)]; out || !Path(pkg.Path()) {
				return name
			}
		}
		for arg := range t.TypeArgs().Types() {
			if f := foreign(arg); f != "" {
				return f
			}
		}
	case *types.Basic:
		if t.Kind() == types.UnsafePointer {
			return "unsafe.Pointer"
		}
	case *types.Map:
		if f := foreign(t.Key()); f != "" {
			return f
		}
		return foreign(t.Elem())
	case interface{ Elem() types.Type }: // pointer, slice, array, channel
		return foreign(t.Elem())
	case *types.Signature:
		return foreignIn(t)
	}
	return ""
}
