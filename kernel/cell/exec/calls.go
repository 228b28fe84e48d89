package exec

import (
	"go/token"
	"go/types"
	"sync/atomic"

	"golang.org/x/tools/go/ssa"
)

// passing says which registers of the caller are the arguments, by class in
// the order of the parameters, and where the results go.
type passing struct {
	s, q, r []int
	out     []slot
	args    []slot
}

func (c *compiler) passing(args []ssa.Value, res ssa.Value) passing {
	var p passing
	for _, a := range args {
		s := c.regs[a]
		p.args = append(p.args, s)
		switch s.c {
		case classNum:
			p.s = append(p.s, s.i)
		case classQty:
			p.q = append(p.q, s.i)
		default:
			p.r = append(p.r, s.i)
		}
	}
	if res != nil {
		if t, ok := c.tuples[res]; ok {
			p.out = t
		} else {
			p.out = []slot{c.regs[res]}
		}
	}
	return p
}

// enter puts the arguments into the callee's frame; the offsets leave room
// for a receiver that is there already.
func (p *passing) enter(nf, fr *frame, s0, q0, r0 int) {
	for j, a := range p.s {
		nf.s[s0+j] = fr.s[a]
	}
	for j, a := range p.q {
		nf.q[q0+j] = fr.q[a]
	}
	for j, a := range p.r {
		nf.r[r0+j] = fr.r[a]
	}
}

// leave takes the results from the callee's frame and ends it.
func (p *passing) leave(nf, fr *frame) {
	for j, s := range nf.code.results {
		d := p.out[j]
		switch s.c {
		case classNum:
			fr.s[d.i] = nf.s[s.i]
		case classQty:
			fr.q[d.i] = nf.q[s.i]
		default:
			fr.r[d.i] = nf.r[s.i]
		}
	}
	fr.m.pop(nf)
}

func (p *passing) boxed(fr *frame) []any {
	args := make([]any, len(p.args))
	for i, s := range p.args {
		args[i] = fr.box(s.c, s.i)
	}
	return args
}

func (p *passing) results(fr *frame, out []any) {
	for i, v := range out {
		fr.unbox(p.out[i].c, p.out[i].i, v)
	}
}

func (c *compiler) call(x *ssa.Call) op {
	call := &x.Call
	pos := x.Pos()
	if b, ok := call.Value.(*ssa.Builtin); ok {
		return c.builtin(x, b)
	}
	p := c.passing(call.Args, x)
	if t, ok := x.Type().(*types.Tuple); ok && t.Len() == 0 {
		p.out = nil
	}
	if call.IsInvoke() {
		return c.invoke(call, p, pos)
	}
	if fn, ok := call.Value.(*ssa.Function); ok {
		return c.static(fn, p, pos)
	}
	return c.dynamic(c.reg(call.Value), p, pos)
}

// static compiles the call of a known function.
func (c *compiler) static(fn *ssa.Function, p passing, pos token.Pos) op {
	wrapper := c.wrapper
	if fn.Blocks != nil {
		k := c.p.codeLocked(fn)
		return func(fr *frame) {
			fr.pos = pos
			nf := fr.m.push(k, fr.ps, fr)
			if wrapper {
				nf.deferOf = fr.deferOf
			}
			p.enter(nf, fr, 0, 0, 0)
			fr.m.invoke(nf)
			p.leave(nf, fr)
		}
	}
	if emptyInit(fn) {
		return nil
	}
	if obj, ok := fn.Object().(*types.Func); ok && fn.Origin() == nil {
		if h := c.p.hostFuncLocked(obj); h != nil {
			return h.op(p, pos)
		}
	}
	prog := c.p
	return func(fr *frame) { // another cell's, or there is none
		fr.pos = pos
		var of *frame
		if wrapper {
			of = fr.deferOf
		}
		p.results(fr, fr.m.callFunction(prog, fn, nil, p.boxed(fr), of))
	}
}

// dynamic compiles the call of a function value.
func (c *compiler) dynamic(f int, p passing, pos token.Pos) op {
	wrapper := c.wrapper
	return func(fr *frame) {
		fr.pos = pos
		cl, _ := fr.r[f].(*closure)
		if cl == nil {
			fr.nilPointer(pos)
		}
		k := cl.code
		if k == nil {
			p.results(fr, fr.m.callClosure(cl, p.boxed(fr), nil, fr))
			return
		}
		ps := fr.ps
		if ps.p != cl.p {
			ps = fr.m.state(cl.p)
		}
		nf := fr.m.push(k, ps, fr)
		if wrapper {
			nf.deferOf = fr.deferOf
		}
		p.enter(nf, fr, 0, 0, 0)
		for i, s := range k.free {
			nf.unbox(s.c, s.i, cl.free[i])
		}
		fr.m.invoke(nf)
		p.leave(nf, fr)
	}
}

// target is a method found for a dynamic type, kept at the place of the call.
type target struct {
	t types.Type
	k *code
}

func (c *compiler) invoke(call *ssa.CallCommon, p passing, pos token.Pos) op {
	recv, method, prog := c.reg(call.Value), call.Method, c.p
	var last atomic.Pointer[target]
	wrapper := c.wrapper
	return func(fr *frame) {
		fr.pos = pos
		v, _ := fr.r[recv].(*iface)
		if v == nil {
			fr.nilPointer(pos)
		}
		at := last.Load()
		if at == nil || at.t != v.t {
			k := fr.m.method(prog, v.t, method)
			if k == nil {
				p.results(fr, fr.m.callMethod(prog, v, method, p.boxed(fr), nil))
				return
			}
			at = &target{v.t, k}
			last.Store(at)
		}
		ps := fr.ps
		if ps.p != at.k.p {
			ps = fr.m.state(at.k.p)
		}
		nf := fr.m.push(at.k, ps, fr)
		if wrapper {
			nf.deferOf = fr.deferOf
		}
		r := at.k.params[0]
		nf.unbox(r.c, r.i, v.v)
		off := [3]int{}
		off[r.c] = 1
		p.enter(nf, fr, off[classNum], off[classQty], off[classRef])
		fr.m.invoke(nf)
		p.leave(nf, fr)
	}
}

// lookup finds a method of a concrete type; nil if there is none.
func (p *Program) lookup(t types.Type, pkg *types.Package, name string) *ssa.Function {
	if _, ok := t.(*hostDyn); ok {
		return nil
	}
	sel := p.prog.MethodSets.MethodSet(t).Lookup(pkg, name)
	if sel == nil {
		return nil
	}
	return p.prog.MethodValue(sel)
}

// method returns the code of a method that runs in the executor; nil if it
// is compiled or there is none.
func (m *machine) method(p *Program, t types.Type, method *types.Func) *code {
	fn := p.lookup(t, method.Pkg(), method.Name())
	if fn == nil {
		return nil
	}
	at := p.resolve(fn)
	if at.fn == nil || at.host != nil {
		return nil
	}
	return at.p.code(at.fn)
}

// callMethod calls a method of the value of an interface, boxed.
func (m *machine) callMethod(p *Program, v *iface, method *types.Func, args []any, of *frame) []any {
	if d, ok := v.t.(*hostDyn); ok {
		return m.callDyn(p, d, v.v, method, args)
	}
	fn := p.lookup(v.t, method.Pkg(), method.Name())
	if fn == nil {
		m.halt(&Fault{Msg: typeName(v.t) + " has no method " + method.Name()})
	}
	return m.callFunction(p, fn, nil, append([]any{v.v}, args...), of)
}

// deferCall evaluates the function and its arguments now and puts the call
// on the stack of the function, or that of the function around a loop body.
func (c *compiler) deferCall(x *ssa.Defer) op {
	call, pos := &x.Call, x.Pos()
	p := c.passing(call.Args, nil)
	stack := -1
	if x.DeferStack != nil {
		stack = c.reg(x.DeferStack)
	}
	prog := c.p
	var prepare func(fr *frame, args []any) func(of *frame)
	switch f := call.Value.(type) {
	case *ssa.Builtin:
		prepare = c.deferBuiltin(f, call.Args, pos)
	case *ssa.Function:
		prepare = func(fr *frame, args []any) func(of *frame) {
			return func(of *frame) { of.m.callFunction(prog, f, nil, args, of) }
		}
	default:
		r := c.reg(call.Value)
		if call.IsInvoke() {
			method := call.Method
			prepare = func(fr *frame, args []any) func(of *frame) {
				v, _ := fr.r[r].(*iface)
				if v == nil {
					fr.nilPointer(pos)
				}
				return func(of *frame) { of.m.callMethod(prog, v, method, args, of) }
			}
			break
		}
		prepare = func(fr *frame, args []any) func(of *frame) {
			cl, _ := fr.r[r].(*closure)
			return func(of *frame) {
				if cl == nil {
					of.nilPointer(pos)
				}
				of.m.callClosure(cl, args, of, of)
			}
		}
	}
	return func(fr *frame) {
		call := prepare(fr, p.boxed(fr))
		to := fr
		if stack >= 0 {
			if f, ok := fr.r[stack].(*frame); ok {
				to = f
			}
		}
		fr.pos = pos
		fr.m.count(96)
		to.defers = append(to.defers, deferred{call: func(of *frame) {
			of.pos = pos
			call(of)
		}})
	}
}
