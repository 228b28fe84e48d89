package exec

import (
	"go/types"
	"reflect"

	"ohmwright/units"

	"golang.org/x/tools/go/ssa"
)

// The forms of class ref, by type:
//
//	string                 string
//	struct, array          *structure (opaque compiled struct: *hostBox)
//	pointer                nil, *uint64, *units.Quantity, *any, *structure, *hostBox, *hostPtr
//	slice                  nil, []uint64, []units.Quantity, []any
//	map                    nil, *mapping
//	func                   nil, *closure
//	interface              nil, *iface
//
// Slices are Go's own, so sharing, append and capacity behave as in Go.

// iface is the value of an interface. It is never changed.
type iface struct {
	t types.Type // the dynamic type; *hostDyn for a compiled type that has no types.Type here
	v any        // boxed: uint64, units.Quantity or a form of class ref
}

// hostDyn stands for the dynamic type of a compiled value in an interface.
// It must not be given to go/types.
type hostDyn struct{ rt reflect.Type }

func (h *hostDyn) Underlying() types.Type { return h }
func (h *hostDyn) String() string         { return h.rt.String() }

// hostBox is a variable of an opaque compiled struct type, or its value.
type hostBox struct {
	ptr reflect.Value // *T
}

func (b *hostBox) clone() *hostBox {
	c := reflect.New(b.ptr.Type().Elem())
	c.Elem().Set(b.ptr.Elem())
	return &hostBox{ptr: c}
}

// hostPtr is a pointer into compiled memory, to an exported field of an
// opaque struct.
type hostPtr struct {
	v reflect.Value // addressable
	t types.Type
}

// closure is a function value.
type closure struct {
	p    *Program
	fn   *ssa.Function
	code *code
	free []any         // boxed values of fn.FreeVars
	host reflect.Value // a compiled function; fn is nil
	obj  *types.Func   // its object, if known
	sig  *types.Signature
}

// box gives the boxed form of register i of class c.
func (fr *frame) box(c class, i int) any {
	switch c {
	case classNum:
		return fr.s[i]
	case classQty:
		return fr.q[i]
	}
	return fr.r[i]
}

// unbox puts a boxed value into register i of class c.
func (fr *frame) unbox(c class, i int, v any) {
	switch c {
	case classNum:
		fr.s[i], _ = v.(uint64)
	case classQty:
		fr.q[i], _ = v.(units.Quantity)
	default:
		fr.r[i] = v
	}
}

// zeroBoxed returns the boxed zero value of t.
func (ls *layouts) zeroBoxed(t types.Type) any {
	switch classOf(t) {
	case classNum:
		return uint64(0)
	case classQty:
		return units.Quantity{}
	}
	return ls.zero(t).make()
}

// newCell makes a zeroed variable of type t and returns the pointer to it.
func (ls *layouts) newCell(t types.Type) any {
	switch classOf(t) {
	case classNum:
		return new(uint64)
	case classQty:
		return new(units.Quantity)
	}
	z := ls.zero(t)
	if z.identity() {
		return z.make()
	}
	p := new(any)
	*p = z.v
	return p
}

// loadCell reads the variable behind a pointer form, boxed; nil for a nil pointer.
// identity says that the variable is itself an object (struct, array).
func loadCell(p any) any {
	switch x := p.(type) {
	case *uint64:
		return *x
	case *units.Quantity:
		return *x
	case *any:
		return *x
	case *structure:
		return x.clone()
	case *hostBox:
		return x.clone()
	}
	return nil
}

// storeCell writes the boxed value v to the variable behind p.
func storeCell(p, v any) {
	switch x := p.(type) {
	case *uint64:
		*x, _ = v.(uint64)
	case *units.Quantity:
		*x, _ = v.(units.Quantity)
	case *any:
		*x = v
	case *structure, *hostBox:
		setRef(p, v)
	}
}

// elem and setElem read and write element i of a slice form, boxed.
func elem(s any, i int) any {
	switch x := s.(type) {
	case []uint64:
		return x[i]
	case []units.Quantity:
		return x[i]
	case []any:
		return x[i]
	}
	return nil
}

func sliceLen(s any) int {
	switch x := s.(type) {
	case []uint64:
		return len(x)
	case []units.Quantity:
		return len(x)
	case []any:
		return len(x)
	}
	return 0
}

func sliceCap(s any) int {
	switch x := s.(type) {
	case []uint64:
		return cap(x)
	case []units.Quantity:
		return cap(x)
	case []any:
		return cap(x)
	}
	return 0
}

// field returns field or element i of a structure, boxed.
func (s *structure) field(i int) any {
	at := s.lay.at(i)
	switch at.c {
	case classNum:
		return s.n[at.i]
	case classQty:
		return s.q[at.i]
	}
	return s.r[at.i]
}

// setField writes a boxed value to field or element i of a fresh structure.
func (s *structure) setField(i int, v any) {
	at := s.lay.at(i)
	switch at.c {
	case classNum:
		s.n[at.i] = v.(uint64)
	case classQty:
		s.q[at.i] = v.(units.Quantity)
	default:
		s.r[at.i] = v
	}
}
