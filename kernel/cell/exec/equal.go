package exec

import (
	"go/types"
	"reflect"

	"ohmwright/units"
)

// equalFunc compares two boxed values; depth guards against values nested
// deeper than Go's own stack would bear.
type equalFunc func(fr *frame, a, b any, depth int) bool

// nestedMost is how deep interfaces may nest arrays and structs of
// interfaces when they are compared, hashed or printed.
const nestedMost = 5000

// equal returns the == of type t on boxed values.
func (p *Program) equal(t types.Type) equalFunc {
	return func(fr *frame, a, b any, depth int) bool { return fr.equal(t, a, b, depth) }
}

func (fr *frame) equal(t types.Type, a, b any, depth int) bool {
	if depth > nestedMost {
		fr.m.halt(&Fault{Msg: "the values to compare are nested too deep"})
	}
	switch classOf(t) {
	case classNum:
		x, y := a.(uint64), b.(uint64)
		if isFloat(kindOf(t)) {
			return float(x) == float(y)
		}
		return x == y
	case classQty:
		return a.(units.Quantity).Same(b.(units.Quantity))
	}
	switch x := a.(type) {
	case string:
		return x == b.(string)
	case *iface:
		y, ok := b.(*iface)
		return ok && fr.equalDynamic(x, y, depth)
	case *structure:
		if _, ok := t.Underlying().(*types.Pointer); ok {
			return a == b
		}
		return fr.equalParts(x, b.(*structure), depth)
	case *hostBox:
		y, ok := b.(*hostBox)
		if !ok {
			return false
		}
		if _, ok := t.Underlying().(*types.Pointer); ok {
			return samePointer(x, y)
		}
		return x.ptr.Elem().Equal(y.ptr.Elem())
	}
	return samePointer(a, b)
}

func (fr *frame) equalParts(x, y *structure, depth int) bool {
	if s, ok := x.lay.t.Underlying().(*types.Struct); ok {
		for i := range x.lay.len {
			if s.Field(i).Name() == "_" {
				continue
			}
			if !fr.equal(x.lay.types[i], x.field(i), y.field(i), depth+1) {
				return false
			}
		}
		return true
	}
	for i := range x.lay.len {
		if !fr.equal(x.lay.elem, x.field(i), y.field(i), depth+1) {
			return false
		}
	}
	return true
}

func (fr *frame) equalDynamic(x, y *iface, depth int) bool {
	hx, okx := x.t.(*hostDyn)
	hy, oky := y.t.(*hostDyn)
	switch {
	case okx && oky:
		if hx.rt != hy.rt {
			return false
		}
		if !hx.rt.Comparable() {
			fr.throw(fr.pos, "comparing uncomparable type %s", hx.rt)
		}
		return x.v == y.v
	case okx || oky:
		return false
	case !sameType(x.t, y.t):
		return false
	}
	if !types.Comparable(x.t) {
		fr.throw(fr.pos, "comparing uncomparable type %s", typeName(x.t))
	}
	return fr.equal(x.t, x.v, y.v, depth+1)
}

// sameType is types.Identical that knows of compiled types.
func sameType(a, b types.Type) bool {
	if a == b {
		return true
	}
	x, okx := a.(*hostDyn)
	y, oky := b.(*hostDyn)
	if okx || oky {
		return okx && oky && x.rt == y.rt
	}
	return types.Identical(a, b)
}

// samePointer compares pointer forms.
func samePointer(a, b any) bool {
	if a == nil || b == nil {
		return a == nil && b == nil
	}
	if reflect.TypeOf(a) != reflect.TypeOf(b) {
		return false
	}
	switch x := a.(type) {
	case *hostBox:
		return x.ptr.Pointer() == b.(*hostBox).ptr.Pointer()
	case *hostPtr:
		return x.v.Addr().Pointer() == b.(*hostPtr).v.Addr().Pointer()
	case *structure:
		y := b.(*structure)
		return x == y || x.sameArray(y)
	case *uint64, *units.Quantity, *any, *mapping, *closure:
		return a == b
	}
	return false
}

// sameArray reports whether two array headers share their elements, as two
// conversions of one slice to an array pointer do.
func (s *structure) sameArray(t *structure) bool {
	if !s.lay.array || !t.lay.array || s.lay.len == 0 {
		return false
	}
	switch {
	case len(s.n) > 0 && len(t.n) > 0:
		return &s.n[0] == &t.n[0]
	case len(s.q) > 0 && len(t.q) > 0:
		return &s.q[0] == &t.q[0]
	case len(s.r) > 0 && len(t.r) > 0:
		return &s.r[0] == &t.r[0]
	}
	return false
}
