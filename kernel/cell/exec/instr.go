package exec

import (
	"fmt"
	"go/token"
	"go/types"
	"reflect"

	"ohmwright/units"

	"golang.org/x/tools/go/ssa"
)

// instr compiles one instruction that does not end a block.
func (c *compiler) instr(in ssa.Instruction) op {
	switch x := in.(type) {
	case *ssa.DebugRef:
		if c.follows(x) {
			return c.trace(x)
		}
		return nil
	case *ssa.Alloc:
		return c.allocate(x)
	case *ssa.UnOp:
		if x.Op == token.MUL {
			return c.load(x)
		}
		return c.unop(x)
	case *ssa.BinOp:
		return c.binop(x)
	case *ssa.Store:
		return c.store(x)
	case *ssa.FieldAddr:
		return c.fieldAddr(x)
	case *ssa.Field:
		return c.field(x)
	case *ssa.IndexAddr:
		return c.indexAddr(x)
	case *ssa.Index:
		return c.index(x)
	case *ssa.Slice:
		return c.slice(x)
	case *ssa.MakeSlice:
		return c.makeSlice(x)
	case *ssa.MakeMap:
		return c.makeMap(x)
	case *ssa.MapUpdate:
		return c.mapUpdate(x)
	case *ssa.Lookup:
		return c.lookup(x)
	case *ssa.Range:
		return c.rangeOver(x)
	case *ssa.Next:
		return c.next(x)
	case *ssa.MakeInterface:
		return c.makeInterface(x)
	case *ssa.ChangeInterface:
		return c.move(x, x.X)
	case *ssa.ChangeType:
		return c.changeType(x)
	case *ssa.Convert:
		return c.convert(x, x.X)
	case *ssa.MultiConvert:
		return c.convert(x, x.X)
	case *ssa.SliceToArrayPointer:
		return c.sliceToArray(x)
	case *ssa.TypeAssert:
		return c.typeAssert(x)
	case *ssa.Extract:
		return c.extract(x)
	case *ssa.MakeClosure:
		return c.makeClosure(x)
	case *ssa.Call:
		return c.call(x)
	case *ssa.Defer:
		return c.deferCall(x)
	case *ssa.RunDefers:
		return (*frame).runDefers
	case *ssa.Go:
		return refuse(x.Pos(), "go")
	case *ssa.Send:
		return refuse(x.Pos(), "a channel")
	case *ssa.Select:
		return refuse(x.Pos(), "select")
	case *ssa.MakeChan:
		return refuse(x.Pos(), "a channel")
	}
	return refuse(in.Pos(), fmt.Sprintf("%T", in))
}

// refuse is the instruction that a cell may not have.
func refuse(pos token.Pos, what string) op {
	return func(fr *frame) {
		fr.pos = pos
		fr.m.top = fr
		fr.m.halt(&Fault{Pos: pos, Msg: what + " is not available: a note is a calculation without goroutines and channels"})
	}
}

func refuseComplex(pos token.Pos) op {
	return func(fr *frame) {
		fr.pos = pos
		fr.m.top = fr
		fr.m.halt(&Fault{Pos: pos, Msg: "complex numbers are not available in cells", Hint: "keep the real and the imaginary part in two values"})
	}
}

func isComplex(t types.Type) bool {
	b, ok := t.Underlying().(*types.Basic)
	return ok && b.Info()&types.IsComplex != 0
}

// move copies a register.
func (c *compiler) move(d, s ssa.Value) op { return moveOp(c.regs[d], c.regs[s]) }

func moveOp(d, s slot) op {
	if d == s {
		return nil
	}
	di, si := d.i, s.i
	switch d.c {
	case classNum:
		return func(fr *frame) { fr.s[di] = fr.s[si] }
	case classQty:
		return func(fr *frame) { fr.q[di] = fr.q[si] }
	}
	return func(fr *frame) { fr.r[di] = fr.r[si] }
}

func (c *compiler) extract(x *ssa.Extract) op {
	return moveOp(c.regs[x], c.tuples[x.Tuple][x.Index])
}

func deref(t types.Type) types.Type {
	if p, ok := t.Underlying().(*types.Pointer); ok {
		return p.Elem()
	}
	return t
}

func (c *compiler) allocate(x *ssa.Alloc) op {
	d := c.reg(x)
	t := deref(x.Type())
	if isComplex(t) {
		return refuseComplex(x.Pos())
	}
	switch classOf(t) {
	case classNum:
		return func(fr *frame) { fr.m.count(16); fr.r[d] = new(uint64) }
	case classQty:
		return func(fr *frame) { fr.m.count(40); fr.r[d] = new(units.Quantity) }
	}
	z := c.p.lays.zero(t)
	if z.lay != nil {
		n := z.lay.size()
		lay := z.lay
		return func(fr *frame) { fr.m.count(n); fr.r[d] = newStructure(lay) }
	}
	if z.host != nil {
		n := int64(z.host.Size()) + 32
		return func(fr *frame) { fr.m.count(n); fr.r[d] = z.make() }
	}
	v := z.v
	return func(fr *frame) {
		fr.m.count(24)
		p := new(any)
		*p = v
		fr.r[d] = p
	}
}

func (c *compiler) fieldAddr(x *ssa.FieldAddr) op {
	d, a, pos := c.reg(x), c.reg(x.X), x.Pos()
	st := deref(x.X.Type())
	f := x.Field
	ft := deref(x.Type())
	at := slot{}
	var aggregate bool
	if c.p.lays.opaque(st) == nil {
		at = c.p.lays.of(st).at(f)
		aggregate = at.c == classRef && c.p.lays.zero(ft).identity()
	}
	i := at.i
	slow := func(fr *frame) {
		switch p := fr.r[a].(type) {
		case *hostBox:
			fr.r[d] = hostAddr(p.ptr.Elem().Field(f), ft, c.p)
		case *hostPtr:
			fr.r[d] = hostAddr(p.v.Field(f), ft, c.p)
		default:
			fr.nilPointer(pos)
		}
	}
	switch {
	case at.c == classNum:
		return func(fr *frame) {
			if p, ok := fr.r[a].(*structure); ok {
				fr.r[d] = &p.n[i]
				return
			}
			slow(fr)
		}
	case at.c == classQty:
		return func(fr *frame) {
			if p, ok := fr.r[a].(*structure); ok {
				fr.r[d] = &p.q[i]
				return
			}
			slow(fr)
		}
	case aggregate:
		return func(fr *frame) {
			if p, ok := fr.r[a].(*structure); ok {
				fr.r[d] = p.r[i]
				return
			}
			slow(fr)
		}
	}
	return func(fr *frame) {
		if p, ok := fr.r[a].(*structure); ok {
			fr.r[d] = &p.r[i]
			return
		}
		slow(fr)
	}
}

// hostAddr makes a pointer into compiled memory.
func hostAddr(v reflect.Value, t types.Type, p *Program) any {
	if classOf(t) == classQty && v.CanInterface() {
		if q, ok := v.Addr().Interface().(*units.Quantity); ok {
			return q
		}
	}
	if p.lays.opaque(t) != nil {
		return &hostBox{ptr: v.Addr()}
	}
	return &hostPtr{v, t}
}

func (c *compiler) field(x *ssa.Field) op {
	d, a := c.regs[x], c.reg(x.X)
	di := d.i
	t, f := x.Type(), x.Field
	if c.p.lays.opaque(x.X.Type()) != nil {
		p := c.p
		return func(fr *frame) {
			b := fr.r[a].(*hostBox)
			fr.unbox(d.c, di, p.fromGo(t, b.ptr.Elem().Field(f)))
		}
	}
	i := c.p.lays.of(x.X.Type()).at(f).i
	switch d.c {
	case classNum:
		return func(fr *frame) { fr.s[di] = fr.r[a].(*structure).n[i] }
	case classQty:
		return func(fr *frame) { fr.q[di] = fr.r[a].(*structure).q[i] }
	}
	return func(fr *frame) { fr.r[di] = fr.r[a].(*structure).r[i] }
}

func (c *compiler) makeInterface(x *ssa.MakeInterface) op {
	d, s, t := c.reg(x), c.regs[x.X], x.X.Type()
	if isComplex(t) {
		return refuseComplex(x.Pos())
	}
	si := s.i
	switch s.c {
	case classNum:
		return func(fr *frame) { fr.m.count(48); fr.r[d] = &iface{t, fr.s[si]} }
	case classQty:
		return func(fr *frame) { fr.m.count(72); fr.r[d] = &iface{t, fr.q[si]} }
	}
	return func(fr *frame) { fr.m.count(40); fr.r[d] = &iface{t, fr.r[si]} }
}

func (c *compiler) makeClosure(x *ssa.MakeClosure) op {
	d := c.reg(x)
	fn := x.Fn.(*ssa.Function)
	model := c.p.function(fn)
	from := make([]slot, len(x.Bindings))
	for i, b := range x.Bindings {
		from[i] = c.regs[b]
	}
	n := int64(64 + 16*len(from))
	return func(fr *frame) {
		fr.m.count(n)
		f := *model
		f.free = make([]any, len(from))
		for i, s := range from {
			f.free[i] = fr.box(s.c, s.i)
		}
		fr.r[d] = &f
	}
}
