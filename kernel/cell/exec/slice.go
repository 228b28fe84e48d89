package exec

import (
	"go/token"
	"go/types"

	"ohmwright/units"

	"golang.org/x/tools/go/ssa"
)

// bounds is a checked slice expression: -1 for a bound not given.
type bounds struct{ lo, hi, max int }

// check tests the bounds of a slice expression as Go does; n is the length or
// capacity and word what the message calls it.
func (fr *frame) check(at token.Pos, b bounds, given3 bool, n int, word string) {
	if given3 {
		switch {
		case b.max < 0:
			fr.throw(at, "slice bounds out of range [::%d]", b.max)
		case b.max > n:
			fr.throw(at, "slice bounds out of range [::%d] with %s %d", b.max, word, n)
		case b.hi < 0:
			fr.throw(at, "slice bounds out of range [:%d:]", b.hi)
		case b.hi > b.max:
			fr.throw(at, "slice bounds out of range [:%d:%d]", b.hi, b.max)
		case b.lo < 0:
			fr.throw(at, "slice bounds out of range [%d::]", b.lo)
		case b.lo > b.hi:
			fr.throw(at, "slice bounds out of range [%d:%d:]", b.lo, b.hi)
		}
		return
	}
	switch {
	case b.hi < 0:
		fr.throw(at, "slice bounds out of range [:%d]", b.hi)
	case b.hi > n:
		fr.throw(at, "slice bounds out of range [:%d] with %s %d", b.hi, word, n)
	case b.lo < 0:
		fr.throw(at, "slice bounds out of range [%d:]", b.lo)
	case b.lo > b.hi:
		fr.throw(at, "slice bounds out of range [%d:%d]", b.lo, b.hi)
	}
}

func (c *compiler) slice(x *ssa.Slice) op {
	d, a, pos := c.reg(x), c.reg(x.X), x.Pos()
	lo, hi, max := -1, -1, -1
	if x.Low != nil {
		lo = c.reg(x.Low)
	}
	if x.High != nil {
		hi = c.reg(x.High)
	}
	if x.Max != nil {
		max = c.reg(x.Max)
	}
	get := func(fr *frame, length, capacity int) bounds {
		b := bounds{0, length, capacity}
		if lo >= 0 {
			b.lo = int(fr.s[lo])
		}
		if hi >= 0 {
			b.hi = int(fr.s[hi])
		}
		if max >= 0 {
			b.max = int(fr.s[max])
		}
		return b
	}
	if kindOf(x.X.Type()) == types.String {
		return func(fr *frame) {
			s := fr.r[a].(string)
			b := get(fr, len(s), len(s))
			fr.check(pos, b, false, len(s), "length")
			fr.r[d] = s[b.lo:b.hi]
		}
	}
	_, ptr := x.X.Type().Underlying().(*types.Pointer)
	word := "capacity"
	if ptr {
		word = "length"
	}
	three := max >= 0
	return func(fr *frame) {
		v := fr.r[a]
		if ptr {
			p, ok := v.(*structure)
			if !ok {
				fr.nilPointer(pos)
			}
			v = p.whole()
		}
		n := sliceCap(v)
		b := get(fr, sliceLen(v), n)
		fr.check(pos, b, three, n, word)
		if v == nil {
			fr.r[d] = nil
			return
		}
		fr.r[d] = reslice(v, b)
	}
}

// whole is a[:] of an array.
func (s *structure) whole() any {
	switch s.lay.c {
	case classNum:
		if s.n == nil {
			return []uint64{}
		}
		return s.n
	case classQty:
		if s.q == nil {
			return []units.Quantity{}
		}
		return s.q
	}
	if s.r == nil {
		return []any{}
	}
	return s.r
}

func reslice(v any, b bounds) any {
	switch s := v.(type) {
	case []uint64:
		return s[b.lo:b.hi:b.max]
	case []units.Quantity:
		return s[b.lo:b.hi:b.max]
	case []any:
		return s[b.lo:b.hi:b.max]
	}
	return nil
}

// makeBacking makes n zeroed elements.
func makeBacking(k class, z zero, n int) any {
	switch k {
	case classNum:
		return make([]uint64, n)
	case classQty:
		return make([]units.Quantity, n)
	}
	s := make([]any, n)
	fill(s, z)
	return s
}

// fill makes every element the zero value.
func fill(s []any, z zero) {
	if !z.identity() && z.v == nil {
		clear(s)
		return
	}
	for i := range s {
		s[i] = z.make()
	}
}

// weight is what an element of a slice counts against the memory limit.
func weight(k class, z zero) int64 {
	switch k {
	case classNum:
		return 8
	case classQty:
		return 32
	}
	if z.lay != nil {
		return 16 + z.lay.size()
	}
	if z.host != nil {
		return 32 + int64(z.host.Size())
	}
	return 16
}

// elemZero returns the class and zero of the elements of a slice type.
func (c *compiler) elemZero(t types.Type) (class, zero) {
	k := classOf(t)
	if k != classRef {
		return k, zero{}
	}
	return k, c.p.lays.zero(t)
}

// biggest is the longest slice that is made at all.
const biggest = 1 << 40

func (c *compiler) makeSlice(x *ssa.MakeSlice) op {
	d, ln, cp, pos := c.reg(x), c.reg(x.Len), c.reg(x.Cap), x.Pos()
	k, z := c.elemZero(x.Type().Underlying().(*types.Slice).Elem())
	w := weight(k, z)
	return func(fr *frame) {
		n, m := int64(fr.s[ln]), int64(fr.s[cp])
		if n < 0 || n > biggest {
			fr.throw(pos, "makeslice: len out of range")
		}
		if m < n || m > biggest {
			fr.throw(pos, "makeslice: cap out of range")
		}
		fr.pos = pos
		fr.m.count(24 + m*w)
		fr.r[d] = reslice(makeBacking(k, z, int(m)), bounds{0, int(n), int(m)})
	}
}

// appendTo is the built-in append(s, t...) for slices of one class.
func (m *machine) appendTo(k class, z zero, w int64, s, t any) any {
	if t == nil || sliceLen(t) == 0 {
		return s
	}
	m.charge(int64(sliceLen(t)) * w)
	switch k {
	case classNum:
		a, _ := s.([]uint64)
		b := t.([]uint64)
		if len(a)+len(b) > cap(a) {
			m.count(int64(grown(cap(a), len(a)+len(b))) * w)
		}
		return append(a, b...)
	case classQty:
		a, _ := s.([]units.Quantity)
		b := t.([]units.Quantity)
		if len(a)+len(b) > cap(a) {
			m.count(int64(grown(cap(a), len(a)+len(b))) * w)
		}
		return append(a, b...)
	}
	a, _ := s.([]any)
	b := t.([]any)
	n := len(a) + len(b)
	if !z.identity() {
		if n > cap(a) {
			m.count(int64(grown(cap(a), n)) * w)
			if z.v != nil { // the spare elements hold the zero value, not nil
				g := make([]any, n, grown(cap(a), n))
				copy(g, a)
				copy(g[len(a):], b)
				fill(g[n:cap(g)], z)
				return g
			}
		}
		return append(a, b...)
	}
	if n <= cap(a) {
		r := a[:n]
		vals := make([]any, len(b))
		for i := range b {
			vals[i] = cloneRef(b[i])
		}
		for i := range vals {
			setRef(r[len(a)+i], vals[i])
		}
		return r
	}
	m.count(int64(grown(cap(a), n)) * w)
	g := make([]any, n, grown(cap(a), n))
	for i := range a {
		g[i] = cloneRef(a[i])
	}
	for i := range b {
		g[len(a)+i] = cloneRef(b[i])
	}
	fill(g[n:cap(g)], z)
	return g
}

// grown is the capacity for n elements after one of c.
func grown(c, n int) int {
	if c < 256 {
		return max(n, 2*c)
	}
	return max(n, c+(c+768)/4)
}

// copyTo is the built-in copy(d, s).
func copyTo(z zero, d, s any) int {
	switch d := d.(type) {
	case []uint64:
		s, _ := s.([]uint64)
		return copy(d, s)
	case []units.Quantity:
		s, _ := s.([]units.Quantity)
		return copy(d, s)
	case []any:
		s, _ := s.([]any)
		if !z.identity() {
			return copy(d, s)
		}
		n := min(len(d), len(s))
		vals := make([]any, n)
		for i := range vals {
			vals[i] = cloneRef(s[i])
		}
		for i, v := range vals {
			setRef(d[i], v)
		}
		return n
	}
	return 0
}

func (c *compiler) sliceToArray(x *ssa.SliceToArrayPointer) op {
	d, a, pos := c.reg(x), c.reg(x.X), x.Pos()
	lay := c.p.lays.of(deref(x.Type()))
	return func(fr *frame) { fr.r[d] = fr.arrayOf(fr.r[a], lay, pos) }
}

// arrayOf is the conversion of a slice to a pointer to an array that shares
// its elements.
func (fr *frame) arrayOf(s any, lay *layout, pos token.Pos) any {
	if n := sliceLen(s); n < lay.len {
		fr.throw(pos, "cannot convert slice with length %d to array or pointer to array with length %d", n, lay.len)
	}
	a := &structure{lay: lay}
	switch s := s.(type) {
	case nil:
		return nil
	case []uint64:
		a.n = s[:lay.len:lay.len]
	case []units.Quantity:
		a.q = s[:lay.len:lay.len]
	case []any:
		a.r = s[:lay.len:lay.len]
	}
	return a
}
