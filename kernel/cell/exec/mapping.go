package exec

import (
	"cmp"
	"go/types"
	"math"
	"slices"
	"strings"

	"ohmwright/units"
)

// mapping is a map. Numbers and strings have tables of their own; other keys
// go by a canonical comparable form.
type mapping struct {
	key   types.Type
	elem  types.Type
	nums  map[uint64]*entry
	texts map[string]*entry
	other map[any]*entry
	nans  []*entry // keys that are not equal to themselves
	types []types.Type
	n     int
	seq   int
}

type entry struct {
	key  any // boxed, as first stored
	n    uint64
	r    any // boxed value unless it is a number
	seq  int // order of insertion
	gone bool
}

func newMapping(t types.Type) *mapping {
	u := t.Underlying().(*types.Map)
	m := &mapping{key: u.Key(), elem: u.Elem()}
	switch {
	case classOf(u.Key()) == classNum:
		m.nums = map[uint64]*entry{}
	case kindOf(u.Key()) == types.String:
		m.texts = map[string]*entry{}
	default:
		m.other = map[any]*entry{}
	}
	return m
}

type quantityKey struct {
	v float64
	d units.Dim
}
type pairKey struct{ head, tail any }
type dynKey struct {
	t int
	v any
}
type hostKey struct{ p uintptr }
type nanKey struct{}

// canonical gives the comparable form of a key; nanKey where some part of it
// is not equal to itself.
func (m *mapping) canonical(fr *frame, t types.Type, k any, depth int) (key any, nan bool) {
	if depth > nestedMost {
		fr.m.halt(&Fault{Msg: "the key of the map is nested too deep"})
	}
	switch classOf(t) {
	case classNum:
		x := k.(uint64)
		if isFloat(kindOf(t)) {
			f := float(x)
			if f == 0 {
				x = 0
			}
			return x, f != f
		}
		return x, false
	case classQty:
		q := k.(units.Quantity)
		v := q.SI()
		return quantityKey{v + 0, q.Dim()}, v != v
	}
	switch x := k.(type) {
	case *iface:
		if h, ok := x.t.(*hostDyn); ok {
			if !h.rt.Comparable() {
				fr.throw(fr.pos, "hash of unhashable type %s", h.rt)
			}
			return dynKey{-1, x.v}, false
		}
		if !types.Comparable(x.t) {
			fr.throw(fr.pos, "hash of unhashable type %s", typeName(x.t))
		}
		v, nan := m.canonical(fr, x.t, x.v, depth+1)
		return dynKey{m.typeIndex(x.t), v}, nan
	case *structure:
		if _, ok := t.Underlying().(*types.Pointer); ok {
			return x, false
		}
		var key any
		nan := false
		for i := range x.lay.len {
			v, bad := m.canonical(fr, x.lay.typeAt(i), x.field(i), depth+1)
			nan = nan || bad
			key = pairKey{key, v}
		}
		return key, nan
	case *hostBox:
		if _, ok := t.Underlying().(*types.Pointer); ok {
			return hostKey{x.ptr.Pointer()}, false
		}
		return x.ptr.Elem().Interface(), false
	}
	return k, false
}

func (m *mapping) typeIndex(t types.Type) int {
	for i, u := range m.types {
		if sameType(t, u) {
			return i
		}
	}
	m.types = append(m.types, t)
	return len(m.types) - 1
}

// find returns the entry of a boxed key, nil if there is none.
func (m *mapping) find(fr *frame, k any) *entry {
	if m == nil {
		return nil
	}
	switch {
	case m.nums != nil:
		return m.nums[m.number(k.(uint64))]
	case m.texts != nil:
		return m.texts[k.(string)]
	}
	key, nan := m.canonical(fr, m.key, k, 0)
	if nan {
		return nil
	}
	return m.other[key]
}

// number gives the table key of a number: both zeros of a float are one.
func (m *mapping) number(x uint64) uint64 {
	if isFloat(kindOf(m.key)) && float(x) == 0 {
		return 0
	}
	return x
}

// put returns the entry of a boxed key, made if there is none.
func (m *mapping) put(fr *frame, k any) *entry {
	isNaN := false
	var key any
	switch {
	case m.nums != nil:
		x := k.(uint64)
		if isFloat(kindOf(m.key)) && math.IsNaN(float(x)) {
			isNaN = true
		} else if e := m.nums[m.number(x)]; e != nil {
			return e
		}
	case m.texts != nil:
		if e := m.texts[k.(string)]; e != nil {
			return e
		}
	default:
		key, isNaN = m.canonical(fr, m.key, k, 0)
		if !isNaN {
			if e := m.other[key]; e != nil {
				return e
			}
		}
	}
	if fr != nil {
		fr.m.count(120)
	}
	e := &entry{key: k, seq: m.seq}
	m.seq++
	m.n++
	switch {
	case isNaN:
		m.nans = append(m.nans, e)
	case m.nums != nil:
		m.nums[m.number(k.(uint64))] = e
	case m.texts != nil:
		m.texts[k.(string)] = e
	default:
		m.other[key] = e
	}
	return e
}

func (m *mapping) remove(fr *frame, k any) {
	e := m.find(fr, k)
	if e == nil {
		return
	}
	e.gone = true
	m.n--
	switch {
	case m.nums != nil:
		delete(m.nums, m.number(k.(uint64)))
	case m.texts != nil:
		delete(m.texts, k.(string))
	default:
		key, _ := m.canonical(fr, m.key, k, 0)
		delete(m.other, key)
	}
}

func (m *mapping) clear() {
	for _, e := range m.entries() {
		e.gone = true
	}
	clear(m.nums)
	clear(m.texts)
	clear(m.other)
	m.nans, m.n = nil, 0
}

// value and setValue read and write an entry, boxed.
func (m *mapping) value(e *entry) any {
	if classOf(m.elem) == classNum {
		return e.n
	}
	return e.r
}

func (m *mapping) setValue(e *entry, v any) {
	if n, ok := v.(uint64); ok {
		e.n = n
		return
	}
	e.r = v
}

// entries lists the entries in the order of their keys.
func (m *mapping) entries() []*entry {
	if m == nil {
		return nil
	}
	es := make([]*entry, 0, m.n)
	es = append(es, m.nans...)
	for _, e := range m.nums {
		es = append(es, e)
	}
	for _, e := range m.texts {
		es = append(es, e)
	}
	for _, e := range m.other {
		es = append(es, e)
	}
	slices.SortFunc(es, func(a, b *entry) int {
		if c := order(m.key, a.key, b.key, 0); c != 0 {
			return c
		}
		return cmp.Compare(a.seq, b.seq)
	})
	return es
}

// order sorts keys as fmt does when it prints a map; keys without an order,
// as pointers, keep that of their insertion.
func order(t types.Type, a, b any, depth int) int {
	if depth > nestedMost {
		return 0
	}
	switch classOf(t) {
	case classNum:
		x, y := a.(uint64), b.(uint64)
		switch k := kindOf(t); {
		case isFloat(k):
			return cmp.Compare(float(x), float(y))
		case isUnsigned(k):
			return cmp.Compare(x, y)
		}
		return cmp.Compare(int64(x), int64(y))
	case classQty:
		x, y := a.(units.Quantity), b.(units.Quantity)
		if c := cmp.Compare(x.Dim(), y.Dim()); c != 0 {
			return c
		}
		return cmp.Compare(x.SI(), y.SI())
	}
	switch x := a.(type) {
	case string:
		return strings.Compare(x, b.(string))
	case *structure:
		if _, ok := t.Underlying().(*types.Pointer); ok {
			return 0
		}
		y := b.(*structure)
		for i := range x.lay.len {
			if c := order(x.lay.typeAt(i), x.field(i), y.field(i), depth+1); c != 0 {
				return c
			}
		}
		return 0
	case *iface:
		y, ok := b.(*iface)
		if !ok {
			return 1
		}
		if !sameType(x.t, y.t) {
			return strings.Compare(typeName(x.t), typeName(y.t))
		}
		if _, ok := x.t.(*hostDyn); ok {
			return 0
		}
		return order(x.t, x.v, y.v, depth+1)
	case nil:
		if b != nil {
			return -1
		}
	}
	return 0
}
