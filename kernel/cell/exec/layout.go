package exec

import (
	"go/types"
	"reflect"
	"sync"

	"ohmwright/units"

	"golang.org/x/tools/go/types/typeutil"
)

// structure is a struct or array: as a variable (a pointer to it is the
// structure itself) or as a value in a register, which nobody changes.
// Loading a variable clones it, storing copies into it.
type structure struct {
	lay *layout
	n   []uint64
	q   []units.Quantity
	r   []any
}

// slot is where a field is: register class and index in that part.
type slot struct {
	c class
	i int
}

// layout says how a struct or array type is laid out in a structure.
type layout struct {
	t      types.Type // as declared, for printing
	array  bool
	elem   types.Type // of an array
	len    int        // fields or elements
	slots  []slot     // of a struct; an array's element i is index i of its class
	c      class      // of an array's elements
	nn     int
	nq     int
	nr     int
	types  []types.Type // of a struct's fields
	zeros  []zero       // for r, per field; an array has one for all
	nested bool         // some part of r is itself a structure or host box
	plain  bool         // every zero of r is nil
}

// zero makes the zero value of a type of class ref.
type zero struct {
	lay  *layout      // struct or array
	host reflect.Type // opaque compiled type
	v    any          // otherwise: "" or nil
}

func (z zero) make() any {
	if z.lay != nil {
		return newStructure(z.lay)
	}
	if z.host != nil {
		return &hostBox{ptr: reflect.New(z.host)}
	}
	return z.v
}

func (z zero) identity() bool { return z.lay != nil || z.host != nil }

// maxArray bounds the elements of an array type: larger ones would take all
// memory before any limit is tested.
const maxArray = 1 << 24

// layouts makes and keeps the layouts of one program.
type layouts struct {
	link Linker // nil: no compiled types known

	mu sync.Mutex
	m  typeutil.Map
}

// of returns the layout of a struct or array type.
func (ls *layouts) of(t types.Type) *layout {
	ls.mu.Lock()
	l, ok := ls.m.At(t).(*layout)
	ls.mu.Unlock()
	if ok {
		return l
	}
	l = ls.compute(t)
	ls.mu.Lock()
	defer ls.mu.Unlock()
	ls.m.Set(t, l)
	return l
}

func (ls *layouts) compute(t types.Type) *layout {
	l := &layout{t: t}
	switch u := t.Underlying().(type) {
	case *types.Array:
		l.array, l.elem, l.len, l.c = true, u.Elem(), int(min(u.Len(), maxArray+1)), classOf(u.Elem())
		switch l.c {
		case classNum:
			l.nn = l.len
		case classQty:
			l.nq = l.len
		default:
			l.nr = l.len
			l.zeros = []zero{ls.zero(u.Elem())}
		}
	case *types.Struct:
		l.len = u.NumFields()
		for f := range u.Fields() {
			c := classOf(f.Type())
			l.types = append(l.types, f.Type())
			switch c {
			case classNum:
				l.slots = append(l.slots, slot{c, l.nn})
				l.nn++
			case classQty:
				l.slots = append(l.slots, slot{c, l.nq})
				l.nq++
			default:
				l.slots = append(l.slots, slot{c, l.nr})
				l.nr++
				l.zeros = append(l.zeros, ls.zero(f.Type()))
			}
		}
	}
	l.plain = true
	for _, z := range l.zeros {
		l.nested = l.nested || z.identity()
		l.plain = l.plain && !z.identity() && z.v == nil
	}
	return l
}

// zero returns the maker of t's zero value; t is of class ref.
func (ls *layouts) zero(t types.Type) zero {
	if rt := ls.opaque(t); rt != nil {
		return zero{host: rt}
	}
	if isAggregate(t) {
		return zero{lay: ls.of(t)}
	}
	if kindOf(t) == types.String {
		return zero{v: ""}
	}
	return zero{}
}

// opaque returns the compiled type of a struct whose inside the executor does
// not keep itself: one from a compiled package with unexported fields.
func (ls *layouts) opaque(t types.Type) reflect.Type {
	n, ok := types.Unalias(t).(*types.Named)
	if !ok || ls.link == nil || n.Obj().Pkg() == nil || isQuantity(t) {
		return nil
	}
	s, ok := n.Underlying().(*types.Struct)
	if !ok {
		return nil
	}
	hidden := false
	for f := range s.Fields() {
		hidden = hidden || !f.Exported()
	}
	if !hidden {
		return nil
	}
	if rt, ok := ls.link.HostType(n); ok && rt.Kind() == reflect.Struct {
		return rt
	}
	return nil
}

// size is what a structure of this layout counts against the memory limit.
func (l *layout) size() int64 {
	s := int64(64) + 8*int64(l.nn) + 32*int64(l.nq) + 16*int64(l.nr)
	if l.array && l.len > maxArray {
		return tooLarge
	}
	each := int64(1)
	if l.array {
		each = int64(l.nr)
	}
	for _, z := range l.zeros {
		if z.lay == nil {
			continue
		}
		n := z.lay.size()
		if n >= tooLarge || each > 0 && n > tooLarge/each {
			return tooLarge
		}
		s += each * n
	}
	return min(s, tooLarge)
}

// tooLarge is the size of what no run may have.
const tooLarge = 1 << 50

// at returns where field or element i is.
func (l *layout) at(i int) slot {
	if l.array {
		return slot{l.c, i}
	}
	return l.slots[i]
}

// typeAt returns the type of field or element i.
func (l *layout) typeAt(i int) types.Type {
	if l.array {
		return l.elem
	}
	return l.types[i]
}

func newStructure(l *layout) *structure {
	s := &structure{lay: l}
	if l.nn > 0 {
		s.n = make([]uint64, l.nn)
	}
	if l.nq > 0 {
		s.q = make([]units.Quantity, l.nq)
	}
	if l.nr > 0 {
		s.r = make([]any, l.nr)
		if !l.plain {
			for i := range s.r {
				s.r[i] = l.zeroAt(i).make()
			}
		}
	}
	return s
}

func (l *layout) zeroAt(i int) zero {
	if l.array {
		return l.zeros[0]
	}
	return l.zeros[i]
}

// clone returns a copy that shares no variable with s.
func (s *structure) clone() *structure {
	c := &structure{lay: s.lay}
	if s.n != nil {
		c.n = append([]uint64(nil), s.n...)
	}
	if s.q != nil {
		c.q = append([]units.Quantity(nil), s.q...)
	}
	if s.r != nil {
		c.r = append([]any(nil), s.r...)
		if s.lay.nested {
			for i := range c.r {
				if s.lay.zeroAt(i).identity() {
					c.r[i] = cloneRef(c.r[i])
				}
			}
		}
	}
	return c
}

// set copies the value v into the variable s, whose inner variables stay
// the same variables.
func (s *structure) set(v *structure) {
	copy(s.n, v.n)
	copy(s.q, v.q)
	if !s.lay.nested {
		copy(s.r, v.r)
		return
	}
	for i := range s.r {
		if s.lay.zeroAt(i).identity() {
			setRef(s.r[i], v.r[i])
		} else {
			s.r[i] = v.r[i]
		}
	}
}

// cloneRef copies the value of a struct, array or host box.
func cloneRef(v any) any {
	switch x := v.(type) {
	case *structure:
		return x.clone()
	case *hostBox:
		return x.clone()
	}
	return v
}

// setRef copies the value v into the variable dst, both structures or boxes.
func setRef(dst, v any) {
	switch d := dst.(type) {
	case *structure:
		d.set(v.(*structure))
	case *hostBox:
		d.ptr.Elem().Set(v.(*hostBox).ptr.Elem())
	}
}
