package exec

import (
	"go/types"

	"ohmwright/units"

	"golang.org/x/tools/go/ssa"
)

func (c *compiler) makeMap(x *ssa.MakeMap) op {
	d, t := c.reg(x), x.Type()
	return func(fr *frame) { fr.m.count(96); fr.r[d] = newMapping(t) }
}

func (c *compiler) mapUpdate(x *ssa.MapUpdate) op {
	mr, k, v, pos := c.reg(x.Map), c.regs[x.Key], c.regs[x.Value], x.Pos()
	return func(fr *frame) {
		fr.pos = pos
		m, _ := fr.r[mr].(*mapping)
		if m == nil {
			fr.m.top = fr
			panic(fr.m.goPanic(plainError("assignment to entry in nil map")))
		}
		e := m.put(fr, fr.box(k.c, k.i))
		if v.c == classNum {
			e.n = fr.s[v.i]
		} else {
			e.r = fr.box(v.c, v.i)
		}
	}
}

func (c *compiler) lookup(x *ssa.Lookup) op {
	if kindOf(x.X.Type()) == types.String {
		a, ix, d := c.reg(x.X), c.reg(x.Index), c.reg(x)
		at := where{x.Pos(), isUnsigned(kindOf(x.Index.Type()))}
		return func(fr *frame) {
			s := fr.r[a].(string)
			i := fr.s[ix]
			if i >= uint64(len(s)) {
				fr.badIndex(at.pos, i, len(s), at.unsigned)
			}
			fr.s[d] = uint64(s[i])
		}
	}
	mr, k, pos := c.reg(x.X), c.regs[x.Index], x.Pos()
	et := x.X.Type().Underlying().(*types.Map).Elem()
	var d slot
	ok := -1
	if x.CommaOk {
		d, ok = c.tuples[x][0], c.tuples[x][1].i
	} else {
		d = c.regs[x]
	}
	var z zero
	if d.c == classRef {
		z = c.p.lays.zero(et)
	}
	n := weight(d.c, z)
	return func(fr *frame) {
		m, _ := fr.r[mr].(*mapping)
		var e *entry
		switch {
		case m == nil:
		case m.nums != nil:
			e = m.nums[m.number(fr.s[k.i])]
		case m.texts != nil:
			e = m.texts[fr.r[k.i].(string)]
		default:
			fr.pos = pos
			fr.m.top = fr
			e = m.find(fr, fr.box(k.c, k.i))
		}
		switch {
		case e == nil && d.c == classNum:
			fr.s[d.i] = 0
		case e == nil && d.c == classQty:
			fr.q[d.i] = units.Quantity{}
		case e == nil:
			fr.m.charge(n)
			fr.r[d.i] = z.make()
		case d.c == classNum:
			fr.s[d.i] = e.n
		default:
			fr.unbox(d.c, d.i, e.r)
		}
		if ok >= 0 {
			fr.s[ok] = truth(e != nil)
		}
	}
}

// walk is the state of a range over a map: its keys when the range began.
type walk struct {
	m  *mapping
	es []*entry
}

// runes is the state of a range over a string.
type runes struct {
	s string
	i int
}

func (c *compiler) rangeOver(x *ssa.Range) op {
	d, a, pos := c.reg(x), c.reg(x.X), x.Pos()
	if kindOf(x.X.Type()) == types.String {
		return func(fr *frame) { fr.r[d] = &runes{s: fr.r[a].(string)} }
	}
	return func(fr *frame) {
		m, _ := fr.r[a].(*mapping)
		if m != nil {
			fr.pos = pos
			fr.m.count(8 * int64(m.n))
			fr.m.charge(256 * int64(m.n))
		}
		fr.r[d] = &walk{m, m.entries()}
	}
}

func (c *compiler) next(x *ssa.Next) op {
	it := c.reg(x.Iter)
	t := c.tuples[x]
	ok, k, v := t[0].i, t[1], t[2]
	tuple := x.Type().(*types.Tuple)
	used := func(i int) bool { return tuple.At(i).Type() != types.Typ[types.Invalid] }
	useK, useV := used(1), used(2)
	if x.IsString {
		return func(fr *frame) {
			r := fr.r[it].(*runes)
			if r.i >= len(r.s) {
				fr.s[ok] = 0
				return
			}
			fr.s[ok] = 1
			at := r.i
			ch, n := decode(r.s[at:])
			r.i += n
			if useK {
				fr.s[k.i] = uint64(at)
			}
			if useV {
				fr.s[v.i] = uint64(int64(ch))
			}
		}
	}
	return func(fr *frame) {
		w := fr.r[it].(*walk)
		for len(w.es) > 0 && w.es[0].gone {
			w.es = w.es[1:]
		}
		if len(w.es) == 0 {
			fr.s[ok] = 0
			return
		}
		e := w.es[0]
		w.es = w.es[1:]
		fr.s[ok] = 1
		if useK {
			fr.unbox(k.c, k.i, e.key)
		}
		if useV {
			fr.unbox(v.c, v.i, w.m.value(e))
		}
	}
}
