package exec

import (
	"go/token"
	"go/types"

	"ohmwright/units"

	"golang.org/x/tools/go/ssa"
)

// where marks the place of a check against a length.
type where struct {
	pos      token.Pos
	unsigned bool
}

func (c *compiler) indexAddr(x *ssa.IndexAddr) op {
	d, a, ix := c.reg(x), c.reg(x.X), c.reg(x.Index)
	at := where{x.Pos(), isUnsigned(kindOf(x.Index.Type()))}
	et := deref(x.Type())
	_, ptr := x.X.Type().Underlying().(*types.Pointer)
	identity := classOf(et) == classRef && c.p.lays.zero(et).identity()
	switch k := classOf(et); {
	case k == classNum:
		return func(fr *frame) {
			s := fr.nums(a, ptr, at)
			i := fr.s[ix]
			if i >= uint64(len(s)) {
				fr.badIndex(at.pos, i, len(s), at.unsigned)
			}
			fr.r[d] = &s[i]
		}
	case k == classQty:
		return func(fr *frame) {
			s := fr.qtys(a, ptr, at)
			i := fr.s[ix]
			if i >= uint64(len(s)) {
				fr.badIndex(at.pos, i, len(s), at.unsigned)
			}
			fr.r[d] = &s[i]
		}
	case identity:
		return func(fr *frame) {
			s := fr.refs(a, ptr, at)
			i := fr.s[ix]
			if i >= uint64(len(s)) {
				fr.badIndex(at.pos, i, len(s), at.unsigned)
			}
			fr.r[d] = s[i]
		}
	}
	return func(fr *frame) {
		s := fr.refs(a, ptr, at)
		i := fr.s[ix]
		if i >= uint64(len(s)) {
			fr.badIndex(at.pos, i, len(s), at.unsigned)
		}
		fr.r[d] = &s[i]
	}
}

// nums, qtys and refs give the elements of the slice or pointed-to array in
// register a.
func (fr *frame) nums(a int, ptr bool, at where) []uint64 {
	if !ptr {
		s, _ := fr.r[a].([]uint64)
		return s
	}
	p, ok := fr.r[a].(*structure)
	if !ok {
		fr.nilPointer(at.pos)
	}
	return p.n
}

func (fr *frame) qtys(a int, ptr bool, at where) []units.Quantity {
	if !ptr {
		s, _ := fr.r[a].([]units.Quantity)
		return s
	}
	p, ok := fr.r[a].(*structure)
	if !ok {
		fr.nilPointer(at.pos)
	}
	return p.q
}

func (fr *frame) refs(a int, ptr bool, at where) []any {
	if !ptr {
		s, _ := fr.r[a].([]any)
		return s
	}
	p, ok := fr.r[a].(*structure)
	if !ok {
		fr.nilPointer(at.pos)
	}
	return p.r
}

// index compiles x[i] of an array value or string.
func (c *compiler) index(x *ssa.Index) op {
	d, a, ix := c.regs[x], c.reg(x.X), c.reg(x.Index)
	at := where{x.Pos(), isUnsigned(kindOf(x.Index.Type()))}
	di := d.i
	if kindOf(x.X.Type()) == types.String {
		return func(fr *frame) {
			s := fr.r[a].(string)
			i := fr.s[ix]
			if i >= uint64(len(s)) {
				fr.badIndex(at.pos, i, len(s), at.unsigned)
			}
			fr.s[di] = uint64(s[i])
		}
	}
	if _, ok := x.X.Type().Underlying().(*types.Slice); ok {
		return func(fr *frame) {
			s := fr.r[a]
			i := fr.s[ix]
			if n := sliceLen(s); i >= uint64(n) {
				fr.badIndex(at.pos, i, n, at.unsigned)
			}
			fr.unbox(d.c, di, elem(s, int(i)))
		}
	}
	return func(fr *frame) {
		s := fr.r[a].(*structure)
		i := fr.s[ix]
		if i >= uint64(s.lay.len) {
			fr.badIndex(at.pos, i, s.lay.len, at.unsigned)
		}
		switch d.c {
		case classNum:
			fr.s[di] = s.n[i]
		case classQty:
			fr.q[di] = s.q[i]
		default:
			fr.r[di] = s.r[i]
		}
	}
}

// pair compiles an address and the load from it or store to it that follows
// at once as one step, so that no pointer is made. nil: not such a pair.
func (c *compiler) pair(in, next ssa.Instruction) op {
	addr, ok := in.(ssa.Value)
	if !ok || next == nil || c.traced {
		return nil
	}
	var loaded *ssa.UnOp
	var stored *ssa.Store
	switch n := next.(type) {
	case *ssa.UnOp:
		if n.Op != token.MUL || n.X != addr {
			return nil
		}
		loaded = n
	case *ssa.Store:
		if n.Addr != addr || n.Val == addr || root(addr) != nil {
			return nil
		}
		stored = n
	default:
		return nil
	}
	switch x := in.(type) {
	case *ssa.IndexAddr:
		if c.uses(x) != 1 {
			return nil
		}
		if _, ok := x.X.(*ssa.Global); ok && stored != nil {
			return nil
		}
		return c.indexPair(x, loaded, stored)
	case *ssa.FieldAddr:
		if c.uses(x) != 1 || c.p.lays.opaque(deref(x.X.Type())) != nil {
			return nil
		}
		return c.fieldPair(x, loaded, stored)
	}
	return nil
}

func (c *compiler) indexPair(x *ssa.IndexAddr, loaded *ssa.UnOp, stored *ssa.Store) op {
	a, ix := c.reg(x.X), c.reg(x.Index)
	at := where{x.Pos(), isUnsigned(kindOf(x.Index.Type()))}
	_, ptr := x.X.Type().Underlying().(*types.Pointer)
	et := deref(x.Type())
	k := classOf(et)
	if k == classRef && c.p.lays.zero(et).identity() {
		return nil
	}
	var d int
	if loaded != nil {
		d = c.reg(loaded)
	} else {
		d = c.reg(stored.Val)
	}
	check := func(fr *frame, n int) uint64 {
		i := fr.s[ix]
		if i >= uint64(n) {
			fr.badIndex(at.pos, i, n, at.unsigned)
		}
		return i
	}
	switch {
	case k == classNum && loaded != nil && !ptr:
		return func(fr *frame) {
			s, _ := fr.r[a].([]uint64)
			i := fr.s[ix]
			if i >= uint64(len(s)) {
				fr.badIndex(at.pos, i, len(s), at.unsigned)
			}
			fr.s[d] = s[i]
		}
	case k == classNum && loaded != nil:
		return func(fr *frame) { s := fr.nums(a, ptr, at); fr.s[d] = s[check(fr, len(s))] }
	case k == classNum:
		return func(fr *frame) { s := fr.nums(a, ptr, at); s[check(fr, len(s))] = fr.s[d] }
	case k == classQty && loaded != nil:
		return func(fr *frame) { s := fr.qtys(a, ptr, at); fr.q[d] = s[check(fr, len(s))] }
	case k == classQty:
		return func(fr *frame) { s := fr.qtys(a, ptr, at); s[check(fr, len(s))] = fr.q[d] }
	case loaded != nil:
		return func(fr *frame) { s := fr.refs(a, ptr, at); fr.r[d] = s[check(fr, len(s))] }
	}
	return func(fr *frame) { s := fr.refs(a, ptr, at); s[check(fr, len(s))] = fr.r[d] }
}

func (c *compiler) fieldPair(x *ssa.FieldAddr, loaded *ssa.UnOp, stored *ssa.Store) op {
	ft := deref(x.Type())
	k := classOf(ft)
	if k == classRef {
		return nil
	}
	a := c.reg(x.X)
	i := c.p.lays.of(deref(x.X.Type())).at(x.Field).i
	var d slot
	if loaded != nil {
		d = c.regs[loaded]
	} else {
		d = c.regs[stored.Val]
	}
	di := d.i
	address := c.fieldAddr(x)
	var slow op
	if loaded != nil {
		access := c.load(loaded)
		slow = func(fr *frame) { address(fr); access(fr) }
	} else {
		access := c.store(stored)
		slow = func(fr *frame) { address(fr); access(fr) }
	}
	switch {
	case k == classNum && loaded != nil:
		return func(fr *frame) {
			if p, ok := fr.r[a].(*structure); ok {
				fr.s[di] = p.n[i]
				return
			}
			slow(fr)
		}
	case k == classNum:
		return func(fr *frame) {
			if p, ok := fr.r[a].(*structure); ok {
				p.n[i] = fr.s[di]
				return
			}
			slow(fr)
		}
	case loaded != nil:
		return func(fr *frame) {
			if p, ok := fr.r[a].(*structure); ok {
				fr.q[di] = p.q[i]
				return
			}
			slow(fr)
		}
	}
	return func(fr *frame) {
		if p, ok := fr.r[a].(*structure); ok {
			p.q[i] = fr.q[di]
			return
		}
		slow(fr)
	}
}
