package exec

import (
	"go/token"
	"go/types"

	"ohmwright/units"

	"golang.org/x/tools/go/ssa"
)

// load compiles *x.
func (c *compiler) load(x *ssa.UnOp) op {
	d, pos, t := c.regs[x], x.Pos(), x.Type()
	if isComplex(t) {
		return refuseComplex(pos)
	}
	if g, ok := x.X.(*ssa.Global); ok {
		return c.loadGlobal(d, c.global(g))
	}
	di, a := d.i, c.reg(x.X)
	slow := c.slowLoad(d, a, pos, t)
	switch d.c {
	case classNum:
		return func(fr *frame) {
			if p, ok := fr.r[a].(*uint64); ok {
				fr.s[di] = *p
				return
			}
			slow(fr)
		}
	case classQty:
		return func(fr *frame) {
			if p, ok := fr.r[a].(*units.Quantity); ok {
				fr.q[di] = *p
				return
			}
			slow(fr)
		}
	}
	if z := c.p.lays.zero(t); z.identity() {
		n := weight(classRef, z)
		return func(fr *frame) {
			if p, ok := fr.r[a].(*structure); ok {
				fr.m.charge(n)
				fr.r[di] = p.clone()
				return
			}
			slow(fr)
		}
	}
	return func(fr *frame) {
		if p, ok := fr.r[a].(*any); ok {
			fr.r[di] = *p
			return
		}
		slow(fr)
	}
}

func (c *compiler) slowLoad(d slot, a int, pos token.Pos, t types.Type) op {
	p := c.p
	return func(fr *frame) {
		switch x := fr.r[a].(type) {
		case *hostBox:
			fr.r[d.i] = x.clone()
		case *hostPtr:
			fr.unbox(d.c, d.i, p.fromGo(t, x.v))
		default:
			fr.nilPointer(pos)
		}
	}
}

func (c *compiler) loadGlobal(d slot, g int) op {
	di := d.i
	switch d.c {
	case classNum:
		return func(fr *frame) {
			if gs := fr.ps.globals; g < len(gs) && gs[g].n != nil {
				fr.s[di] = *gs[g].n
				return
			}
			fr.s[di] = *fr.global(g).n
		}
	case classQty:
		return func(fr *frame) { fr.q[di] = *fr.global(g).q }
	}
	return func(fr *frame) { fr.r[di] = loadCell(fr.global(g).ptr) }
}

func (c *compiler) store(x *ssa.Store) op {
	v, pos, t := c.regs[x.Val], x.Pos(), x.Val.Type()
	if g, ok := x.Addr.(*ssa.Global); ok {
		return c.storeGlobal(g, v, pos)
	}
	store := c.storeTo(x, v, pos, t)
	if g := root(x.Addr); g != nil { // x.f = v, a[i] = v of a package-level variable
		i := c.global(g)
		return func(fr *frame) {
			if at := fr.global(i); at.v.ReadOnly {
				fr.m.top = fr
				fr.m.readOnly(g, at.v, pos)
			}
			store(fr)
		}
	}
	return store
}

// root returns the package-level variable of which addr is a part.
func root(addr ssa.Value) *ssa.Global {
	for {
		switch x := addr.(type) {
		case *ssa.Global:
			return x
		case *ssa.FieldAddr:
			addr = x.X
		case *ssa.IndexAddr:
			if _, ok := x.X.Type().Underlying().(*types.Pointer); !ok {
				return nil
			}
			addr = x.X
		default:
			return nil
		}
	}
}

func (c *compiler) storeTo(x *ssa.Store, v slot, pos token.Pos, t types.Type) op {
	a, vi := c.reg(x.Addr), v.i
	slow := func(fr *frame) {
		switch p := fr.r[a].(type) {
		case *structure, *hostBox:
			setRef(p, fr.r[vi])
		case *hostPtr:
			fr.pos = pos
			c := &conversion{m: fr.m, p: fr.ps.p}
			p.v.Set(c.toGo(t, fr.box(v.c, vi), p.v.Type()))
		default:
			fr.nilPointer(pos)
		}
	}
	switch v.c {
	case classNum:
		return func(fr *frame) {
			if p, ok := fr.r[a].(*uint64); ok {
				*p = fr.s[vi]
				return
			}
			slow(fr)
		}
	case classQty:
		return func(fr *frame) {
			if p, ok := fr.r[a].(*units.Quantity); ok {
				*p = fr.q[vi]
				return
			}
			slow(fr)
		}
	}
	return func(fr *frame) {
		if p, ok := fr.r[a].(*any); ok {
			*p = fr.r[vi]
			return
		}
		slow(fr)
	}
}

func (c *compiler) storeGlobal(g *ssa.Global, v slot, pos token.Pos) op {
	i, vi := c.global(g), v.i
	check := func(fr *frame) *global {
		at := fr.global(i)
		if at.v.ReadOnly {
			fr.m.top = fr
			fr.m.readOnly(g, at.v, pos)
		}
		return at
	}
	switch v.c {
	case classNum:
		return func(fr *frame) {
			if gs := fr.ps.globals; i < len(gs) && gs[i].w != nil {
				*gs[i].w = fr.s[vi]
				return
			}
			*check(fr).n = fr.s[vi]
		}
	case classQty:
		return func(fr *frame) {
			if at := check(fr); !at.v.Held {
				*at.q = fr.q[vi]
			}
		}
	}
	return func(fr *frame) { storeCell(check(fr).ptr, fr.r[vi]) }
}
