package exec

import (
	"reflect"
	"slices"
	"strings"

	"ohmwright/units"
)

// Copy returns a deep copy of v that shares nothing mutable with it;
// aliasing inside v is kept. Closures are copied with what they captured.
func Copy(v Value) Value { return CopyAll([]Value{v})[0] }

// CopyAll copies several values as one graph, so that two variables that
// share a slice still share it.
//
// It goes in two passes without recursion, because a list may have millions
// of members: the first finds everything that can be reached and which pieces
// of memory overlap, the second makes the new pieces and translates pointers.
func CopyAll(vs []Value) []Value {
	out := slices.Clone(vs)
	deep := false
	for _, v := range vs {
		deep = deep || !immutable(v.V)
	}
	if !deep {
		return out
	}
	c := &copier{
		structs: map[*structure]*structure{}, maps: map[*mapping]*mapping{}, funcs: map[*closure]*closure{},
		boxes: map[uintptr]*hostBox{}, seen: map[piece]bool{},
	}
	for _, v := range vs {
		c.todo = append(c.todo, v.V)
	}
	for len(c.todo) > 0 {
		v := c.todo[len(c.todo)-1]
		c.todo = c.todo[:len(c.todo)-1]
		c.find(v)
	}
	c.merge()
	c.fill()
	for i, v := range vs {
		out[i].V = c.translate(v.V)
	}
	return out
}

// immutable reports whether v has no part that can change.
func immutable(v any) bool {
	switch v.(type) {
	case nil, uint64, units.Quantity, string:
		return true
	}
	return false
}

// piece is a part of memory: elements of one class from an address on.
type piece struct {
	c          class
	start, end uintptr
}

// memory is a piece with what it holds: first the original, then the copy.
type memory struct {
	piece
	n []uint64
	q []units.Quantity
	r []any
}

type copier struct {
	todo    []any
	structs map[*structure]*structure
	maps    map[*mapping]*mapping
	funcs   map[*closure]*closure
	boxes   map[uintptr]*hostBox
	seen    map[piece]bool
	mem     [3][]memory
}

var elementSize = [3]uintptr{8, reflect.TypeFor[units.Quantity]().Size(), reflect.TypeFor[any]().Size()}

func addr(p any) uintptr { return reflect.ValueOf(p).Pointer() }

// find notes what v refers to.
func (c *copier) find(v any) {
	switch x := v.(type) {
	case *structure:
		if _, ok := c.structs[x]; ok {
			return
		}
		c.structs[x] = &structure{lay: x.lay}
		c.addN(x.n) // a struct comes here once: no need to ask whether it was seen
		c.addQ(x.q)
		c.addR(x.r)
	case []uint64:
		c.pieceN(x[:cap(x)])
	case []units.Quantity:
		c.pieceQ(x[:cap(x)])
	case []any:
		c.pieceR(x[:cap(x)])
	case *uint64:
		c.single(x, nil, nil)
	case *units.Quantity:
		c.single(nil, x, nil)
	case *any:
		c.single(nil, nil, x)
	case *iface:
		c.todo = append(c.todo, x.v)
	case *mapping:
		if _, ok := c.maps[x]; ok {
			return
		}
		m := *x
		c.maps[x] = &m
		for _, e := range x.entries() {
			c.todo = append(c.todo, e.key, e.r)
		}
	case *closure:
		if _, ok := c.funcs[x]; ok {
			return
		}
		f := *x
		c.funcs[x] = &f
		c.todo = append(c.todo, x.free...)
	case *hostBox:
		c.box(x)
	}
}

// fresh reports whether a piece was not seen before.
func (c *copier) fresh(k class, a uintptr, n int) bool {
	p := piece{k, a, a + uintptr(n)*elementSize[k]}
	if n == 0 || c.seen[p] {
		return false
	}
	c.seen[p] = true
	return true
}

func (c *copier) add(k class, a uintptr, n int, m memory) {
	m.piece = piece{k, a, a + uintptr(n)*elementSize[k]}
	c.mem[k] = append(c.mem[k], m)
}

func (c *copier) addN(s []uint64) {
	if len(s) > 0 {
		c.add(classNum, addr(&s[0]), len(s), memory{n: s})
	}
}

func (c *copier) addQ(s []units.Quantity) {
	if len(s) > 0 {
		c.add(classQty, addr(&s[0]), len(s), memory{q: s})
	}
}

func (c *copier) addR(s []any) {
	if len(s) > 0 {
		c.add(classRef, addr(&s[0]), len(s), memory{r: s})
		for _, v := range s {
			if !immutable(v) {
				c.todo = append(c.todo, v)
			}
		}
	}
}

func (c *copier) pieceN(s []uint64) {
	if len(s) > 0 && c.fresh(classNum, addr(&s[0]), len(s)) {
		c.addN(s)
	}
}

func (c *copier) pieceQ(s []units.Quantity) {
	if len(s) > 0 && c.fresh(classQty, addr(&s[0]), len(s)) {
		c.addQ(s)
	}
}

func (c *copier) pieceR(s []any) {
	if len(s) > 0 && c.fresh(classRef, addr(&s[0]), len(s)) {
		c.addR(s)
	}
}

// single notes a variable of its own, or a part of something.
func (c *copier) single(n *uint64, q *units.Quantity, r *any) {
	switch {
	case n != nil && c.fresh(classNum, addr(n), 1):
		c.add(classNum, addr(n), 1, memory{n: []uint64{*n}})
	case q != nil && c.fresh(classQty, addr(q), 1):
		c.add(classQty, addr(q), 1, memory{q: []units.Quantity{*q}})
	case r != nil && c.fresh(classRef, addr(r), 1):
		c.add(classRef, addr(r), 1, memory{r: []any{*r}})
		c.todo = append(c.todo, *r)
	}
}

// merge joins overlapping pieces and makes their copies, untranslated.
func (c *copier) merge() {
	for k := range c.mem {
		c.mem[k] = mergePieces(class(k), c.mem[k])
	}
}

func mergePieces(k class, src []memory) []memory {
	slices.SortFunc(src, func(a, b memory) int {
		switch {
		case a.start < b.start:
			return -1
		case a.start > b.start:
			return 1
		}
		return 0
	})
	var out []memory
	for i := 0; i < len(src); {
		end := src[i].end
		j := i + 1
		for j < len(src) && src[j].start < end {
			end = max(end, src[j].end)
			j++
		}
		m := memory{piece: piece{k, src[i].start, end}}
		n := int((end - m.start) / elementSize[k])
		switch k {
		case classNum:
			m.n = make([]uint64, n)
		case classQty:
			m.q = make([]units.Quantity, n)
		default:
			m.r = make([]any, n)
		}
		for _, s := range src[i:j] {
			at := int((s.start - m.start) / elementSize[k])
			copy(m.n[min(at, len(m.n)):], s.n)
			copy(m.q[min(at, len(m.q)):], s.q)
			copy(m.r[min(at, len(m.r)):], s.r)
		}
		out = append(out, m)
		i = j
	}
	return out
}

// fill puts the translated contents into everything new.
func (c *copier) fill() {
	for _, m := range c.mem[classRef] {
		for i, v := range m.r {
			m.r[i] = c.translate(v)
		}
	}
	for old, s := range c.structs {
		if len(old.n) > 0 {
			s.n = c.translate(slices.Clip(old.n)).([]uint64)
		}
		if len(old.q) > 0 {
			s.q = c.translate(slices.Clip(old.q)).([]units.Quantity)
		}
		if len(old.r) > 0 {
			s.r = c.translate(slices.Clip(old.r)).([]any)
		}
	}
	for old, m := range c.maps {
		m.nums, m.texts, m.other, m.nans, m.n = nil, nil, nil, nil, 0
		m.types = slices.Clone(old.types)
		switch {
		case old.nums != nil:
			m.nums = map[uint64]*entry{}
		case old.texts != nil:
			m.texts = map[string]*entry{}
		default:
			m.other = map[any]*entry{}
		}
	}
	// Structs in keys are complete only now.
	for old, m := range c.maps {
		es := old.entries()
		slices.SortFunc(es, func(a, b *entry) int { return a.seq - b.seq })
		for _, e := range es {
			n := m.put(nil, c.translate(e.key))
			n.n, n.r = e.n, c.translate(e.r)
		}
	}
	for old, f := range c.funcs {
		f.free = make([]any, len(old.free))
		for i, v := range old.free {
			f.free[i] = c.translate(v)
		}
	}
}

// where finds the copy of the memory at address a.
func (c *copier) where(k class, a uintptr) (*memory, int) {
	ms := c.mem[k]
	i, ok := slices.BinarySearchFunc(ms, a, func(m memory, a uintptr) int {
		switch {
		case m.end <= a:
			return -1
		case m.start > a:
			return 1
		}
		return 0
	})
	if !ok {
		return nil, 0
	}
	return &ms[i], int((a - ms[i].start) / elementSize[k])
}

// translate gives the copy of v.
func (c *copier) translate(v any) any {
	switch x := v.(type) {
	case *structure:
		return c.structs[x]
	case []uint64:
		if cap(x) == 0 {
			return x
		}
		m, i := c.where(classNum, addr(&x[:1][0]))
		return m.n[i : i+len(x) : i+cap(x)]
	case []units.Quantity:
		if cap(x) == 0 {
			return x
		}
		m, i := c.where(classQty, addr(&x[:1][0]))
		return m.q[i : i+len(x) : i+cap(x)]
	case []any:
		if cap(x) == 0 {
			return x
		}
		m, i := c.where(classRef, addr(&x[:1][0]))
		return m.r[i : i+len(x) : i+cap(x)]
	case *uint64:
		m, i := c.where(classNum, addr(x))
		return &m.n[i]
	case *units.Quantity:
		m, i := c.where(classQty, addr(x))
		return &m.q[i]
	case *any:
		m, i := c.where(classRef, addr(x))
		return &m.r[i]
	case *iface:
		if immutable(x.v) {
			return x
		}
		if _, ok := x.t.(*hostDyn); ok {
			return x
		}
		return &iface{x.t, c.translate(x.v)}
	case *mapping:
		return c.maps[x]
	case *closure:
		return c.funcs[x]
	case *hostBox:
		return c.boxes[x.ptr.Pointer()]
	}
	return v
}

// box copies an opaque compiled struct. A strings.Builder must be written anew: it
// refuses to be copied.
func (c *copier) box(x *hostBox) {
	if _, ok := c.boxes[x.ptr.Pointer()]; ok {
		return
	}
	if b, ok := x.ptr.Interface().(*strings.Builder); ok {
		n := new(strings.Builder)
		n.WriteString(b.String())
		c.boxes[x.ptr.Pointer()] = &hostBox{ptr: reflect.ValueOf(n)}
		return
	}
	c.boxes[x.ptr.Pointer()] = x.clone()
}
