package exec

import (
	"go/token"
	"go/types"
	"sync/atomic"

	"golang.org/x/tools/go/ssa"
)

// verdict is what a type assertion found for a dynamic type.
type verdict struct {
	t  types.Type
	ok bool
}

func (c *compiler) typeAssert(x *ssa.TypeAssert) op {
	a, pos, want := c.reg(x.X), x.Pos(), x.AssertedType
	from := x.X.Type()
	var d slot
	ok := -1
	if x.CommaOk {
		d, ok = c.tuples[x][0], c.tuples[x][1].i
	} else {
		d = c.regs[x]
	}
	p := c.p
	var last atomic.Pointer[verdict]
	holds := func(fr *frame, t types.Type) bool {
		if v := last.Load(); v != nil && v.t == t {
			return v.ok
		}
		v := &verdict{t, p.asserts(t, want)}
		last.Store(v)
		return v.ok
	}
	_, toInterface := want.Underlying().(*types.Interface)
	bound := c.forMethodValue(x)
	var z zero
	if d.c == classRef {
		z = p.lays.zero(want)
	}
	return func(fr *frame) {
		v, _ := fr.r[a].(*iface)
		good := v != nil && holds(fr, v.t)
		if ok >= 0 {
			fr.s[ok] = truth(good)
		}
		if !good {
			if ok < 0 {
				if v == nil && bound {
					fr.nilPointer(pos)
				}
				fr.failAssert(pos, from, want, v)
			}
			if d.c == classRef {
				fr.r[d.i] = z.make()
			} else {
				fr.unbox(d.c, d.i, nil)
			}
			return
		}
		if toInterface {
			fr.r[d.i] = v
			return
		}
		if h, ok := v.t.(*hostDyn); ok {
			fr.unbox(d.c, d.i, p.fromDyn(want, h, v.v))
			return
		}
		fr.unbox(d.c, d.i, v.v)
	}
}

// forMethodValue reports whether ssa made the assertion to test the interface
// of a method value i.m for nil: it asserts the type that the value has anyhow,
// and nobody uses the result.
func (c *compiler) forMethodValue(x *ssa.TypeAssert) bool {
	return !x.CommaOk && types.Identical(x.X.Type(), x.AssertedType) && c.uses(x) == 0
}

// asserts reports whether a value of dynamic type t has type want.
func (p *Program) asserts(t, want types.Type) bool {
	if i, ok := want.Underlying().(*types.Interface); ok {
		return missingMethod(t, i) == ""
	}
	if h, ok := t.(*hostDyn); ok {
		return p.rtype(want) == h.rt
	}
	return types.Identical(t, want)
}

// failAssert panics as Go does where an assertion does not hold.
func (fr *frame) failAssert(pos token.Pos, from, want types.Type, v *iface) {
	fr.pos = pos
	fr.m.top = fr
	as := typeName(want)
	inter := typeName(from)
	i, toInterface := want.Underlying().(*types.Interface)
	var msg string
	switch {
	case v == nil && toInterface:
		msg = "interface is nil, not " + as
	case v == nil:
		msg = inter + " is nil, not " + as
	case toInterface:
		msg = typeName(v.t) + " is not " + as + ": missing method " + missingMethod(v.t, i)
	default:
		is := typeName(v.t)
		msg = inter + " is " + is + ", not " + as
		if is == as {
			msg += " (types from different scopes)"
		}
	}
	panic(fr.m.goPanic(assertError(msg)))
}
