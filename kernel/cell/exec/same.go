package exec

import (
	"reflect"

	"ohmwright/units"
)

// Same reports whether two values are the same, deeply (quantities by number,
// dimension, unit and limits as given; functions by code and captured values).
func Same(a, b Value) bool {
	if !sameType(a.Type, b.Type) {
		return false
	}
	type pair struct{ a, b any }
	todo := []pair{{a.V, b.V}}
	seen := map[pair]bool{}
	again := func(a, b any) bool {
		p := pair{a, b}
		if seen[p] {
			return true
		}
		seen[p] = true
		return false
	}
	for len(todo) > 0 {
		p := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if reflect.TypeOf(p.a) != reflect.TypeOf(p.b) {
			return false
		}
		switch x := p.a.(type) {
		case nil:
		case uint64, string:
			if p.a != p.b {
				return false
			}
		case units.Quantity:
			if !sameQuantity(x, p.b.(units.Quantity)) {
				return false
			}
		case []uint64:
			y := p.b.([]uint64)
			if len(x) != len(y) {
				return false
			}
			for i := range x {
				if x[i] != y[i] {
					return false
				}
			}
		case []units.Quantity:
			y := p.b.([]units.Quantity)
			if len(x) != len(y) {
				return false
			}
			for i := range x {
				if !sameQuantity(x[i], y[i]) {
					return false
				}
			}
		case []any:
			y := p.b.([]any)
			if len(x) != len(y) {
				return false
			}
			if len(x) > 0 && again(&x[0], &y[0]) {
				continue
			}
			for i := range x {
				todo = append(todo, pair{x[i], y[i]})
			}
		case *structure:
			y := p.b.(*structure)
			if again(x, y) {
				continue
			}
			if x.lay.len != y.lay.len || len(x.r) != len(y.r) {
				return false
			}
			todo = append(todo, pair{x.n, y.n}, pair{x.q, y.q})
			for i := range x.r {
				todo = append(todo, pair{x.r[i], y.r[i]})
			}
		case *uint64:
			if *x != *p.b.(*uint64) {
				return false
			}
		case *units.Quantity:
			if !sameQuantity(*x, *p.b.(*units.Quantity)) {
				return false
			}
		case *any:
			y := p.b.(*any)
			if !again(x, y) {
				todo = append(todo, pair{*x, *y})
			}
		case *iface:
			y := p.b.(*iface)
			if !sameType(x.t, y.t) {
				return false
			}
			if _, ok := x.t.(*hostDyn); ok {
				if !reflect.DeepEqual(x.v, y.v) {
					return false
				}
				continue
			}
			todo = append(todo, pair{x.v, y.v})
		case *mapping:
			y := p.b.(*mapping)
			if again(x, y) {
				continue
			}
			if x.n != y.n {
				return false
			}
			ex, ey := x.entries(), y.entries()
			for i := range ex {
				todo = append(todo, pair{ex[i].key, ey[i].key}, pair{x.value(ex[i]), y.value(ey[i])})
			}
		case *closure:
			y := p.b.(*closure)
			if again(x, y) {
				continue
			}
			if x.fn != y.fn || len(x.free) != len(y.free) {
				return false
			}
			if x.fn == nil && x.host.Pointer() != y.host.Pointer() {
				return false
			}
			for i := range x.free {
				todo = append(todo, pair{x.free[i], y.free[i]})
			}
		case *hostBox:
			y := p.b.(*hostBox)
			if !reflect.DeepEqual(x.ptr.Interface(), y.ptr.Interface()) {
				return false
			}
		case *hostPtr:
			if !samePointer(x, p.b) {
				return false
			}
		default:
			return false
		}
	}
	return true
}

func sameQuantity(a, b units.Quantity) bool { return bits(a.SI()) == bits(b.SI()) && a.Identical(b) }
