package exec

import (
	"go/ast"
	"go/token"
	"go/types"
	"reflect"
	"sync"

	"ohmwright/units"

	"golang.org/x/tools/go/ssa"
)

// Program holds the compiled functions of one ssa.Program. Functions are
// compiled at their first call. A Program is dropped as a whole when its cell
// is replaced: nothing outside refers to it then but values it made.
type Program struct {
	prog *ssa.Program
	qty  types.Type
	link Linker

	nominal func(pos token.Pos) bool
	always  func(fn *ssa.Function) bool
	only    func(e ast.Expr) bool

	mu      sync.Mutex // guards what follows and compilation
	codes   map[*ssa.Function]*code
	traced  map[*ssa.Function]*code
	globals map[*ssa.Global]int
	byIndex []*ssa.Global
	lays    layouts
	hosts   map[*types.Func]*hostFunc
}

// New prepares a program. quantity is the types.Type of units.Quantity as the
// checker sees it (underlying type float64).
func New(prog *ssa.Program, quantity types.Type, link Linker) *Program {
	return &Program{
		prog:    prog,
		qty:     quantity,
		link:    link,
		codes:   map[*ssa.Function]*code{},
		globals: map[*ssa.Global]int{},
		hosts:   map[*types.Func]*hostFunc{},
		lays:    layouts{link: link},
	}
}

// TraceAlways names the functions whose expressions a run that has a Trace is
// told of, beside those of Run.Traced. It is set before the first Call.
func (p *Program) TraceAlways(is func(fn *ssa.Function) bool) { p.always = is }

// TraceOnly names the expressions that a run that has a Trace is told of; the
// others cost nothing. It is set before the first Call.
func (p *Program) TraceOnly(is func(e ast.Expr) bool) { p.only = is }

// CompareNominal names the places of comparisons that go by nominal values
// alone, because what they are for judges the other cases itself. It is set
// before the first Call.
func (p *Program) CompareNominal(at func(pos token.Pos) bool) { p.nominal = at }

// Call runs fn. Errors are *Fault.
func (p *Program) Call(run *Run, fn *ssa.Function, args ...Value) ([]Value, error) {
	return run.enter(func(m *machine) []Value {
		boxed := make([]any, len(args))
		for i, a := range args {
			boxed[i] = a.V
		}
		out := m.callFunction(p, fn, nil, boxed, nil)
		return typed(fn.Signature.Results(), out)
	})
}

// CallValue calls a function value (a closure that a cell made).
func CallValue(run *Run, fn Value, args ...Value) ([]Value, error) {
	sig, _ := fn.Type.Underlying().(*types.Signature)
	c, _ := fn.V.(*closure)
	if c == nil || sig == nil {
		return nil, &Fault{Msg: "call of a function that is nil"}
	}
	return run.enter(func(m *machine) []Value {
		boxed := make([]any, len(args))
		for i, a := range args {
			boxed[i] = a.V
		}
		return typed(sig.Results(), m.callClosure(c, boxed, nil, nil))
	})
}

func typed(tuple *types.Tuple, vs []any) []Value {
	out := make([]Value, len(vs))
	for i, v := range vs {
		out[i] = Value{tuple.At(i).Type(), v}
	}
	return out
}

// enter runs f on a machine of the run and turns what stops it into a *Fault.
func (run *Run) enter(f func(m *machine) []Value) (vs []Value, err error) {
	m := run.machine()
	defer run.release(m)
	defer func() {
		if x := recover(); x != nil {
			vs, err = nil, m.fault(x)
			m.frames = nil // they hold what the stopped functions had
		}
	}()
	m.poll()
	return f(m), nil
}

// name is how a Fault calls a function.
func name(fn *ssa.Function) string {
	if fn.Pkg != nil {
		return fn.RelString(fn.Pkg.Pkg)
	}
	return fn.Name()
}

// code returns the code of fn, compiled when it is first entered.
func (p *Program) code(fn *ssa.Function) *code {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.codeLocked(fn)
}

func (p *Program) codeLocked(fn *ssa.Function) *code {
	k := p.codes[fn]
	if k == nil {
		k = newCode(p, fn, p.always != nil && p.always(fn))
		p.codes[fn] = k
	}
	return k
}

// codeFor is code, in the variant that reports to run.Trace where asked for.
func (p *Program) codeFor(run *Run, fn *ssa.Function) *code {
	if run.Trace == nil || run.Traced != fn {
		return p.code(fn)
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	k := p.traced[fn]
	if k == nil {
		if p.traced == nil {
			p.traced = map[*ssa.Function]*code{}
		}
		k = newCode(p, fn, true)
		p.traced[fn] = k
	}
	return k
}

// resolved is a function found where its body is.
type resolved struct {
	p    *Program
	fn   *ssa.Function
	host *hostFunc
}

// resolve finds the body of fn: here, in another cell's program, or compiled.
// The zero result means there is none.
func (p *Program) resolve(fn *ssa.Function) resolved {
	if fn.Blocks != nil {
		return resolved{p: p, fn: fn}
	}
	obj, _ := fn.Object().(*types.Func)
	if obj == nil || p.link == nil {
		return resolved{}
	}
	if q, f, ok := p.link.Func(obj); ok && f != nil && f.Blocks != nil {
		return resolved{p: q, fn: f}
	}
	if h := p.hostFunc(obj); h != nil {
		return resolved{p: p, fn: fn, host: h}
	}
	return resolved{}
}

// emptyInit reports whether fn is the initialiser of a compiled package,
// which has run long ago.
func emptyInit(fn *ssa.Function) bool {
	return fn.Blocks == nil && fn.Name() == "init" && fn.Object() == nil
}

// callFunction calls fn with boxed arguments and returns boxed results.
// deferOf is the frame whose deferred call this is, nil for none.
func (m *machine) callFunction(p *Program, fn *ssa.Function, free, args []any, deferOf *frame) []any {
	if emptyInit(fn) {
		return nil
	}
	at := p.resolve(fn)
	switch {
	case at.host != nil:
		return m.callHost(at.host, args)
	case at.fn == nil:
		m.halt(missing(fn))
	}
	k := at.p.codeFor(m.run, at.fn)
	nf := m.push(k, m.state(at.p), m.top)
	nf.deferOf = deferOf
	for i, s := range k.params {
		nf.unbox(s.c, s.i, args[i])
	}
	for i, s := range k.free {
		nf.unbox(s.c, s.i, free[i])
	}
	m.invoke(nf)
	var out []any
	if len(k.results) > 0 {
		out = make([]any, len(k.results))
		for i, s := range k.results {
			out[i] = nf.box(s.c, s.i)
		}
	}
	m.pop(nf)
	return out
}

// callClosure calls a function value with boxed arguments.
func (m *machine) callClosure(c *closure, args []any, deferOf *frame, at *frame) []any {
	if at != nil {
		m.top = at
	}
	if c.fn == nil {
		return m.callHost(c.p.hostValue(c), args)
	}
	return m.callFunction(c.p, c.fn, c.free, args, deferOf)
}

func missing(fn *ssa.Function) *Fault {
	f := &Fault{Msg: name(fn) + ": this function cannot be called here"}
	if fn.Origin() != nil || fn.Signature.TypeParams() != nil {
		f.Hint = "a generic function is usable only where its source is known"
	}
	return f
}

// global returns the storage of package-level variable index of this run.
func (fr *frame) global(index int) *global {
	gs := fr.ps.globals
	if index < len(gs) && gs[index].ptr != nil {
		return &gs[index]
	}
	return fr.m.linkGlobal(fr.ps, index)
}

// linkGlobal asks for the storage of a variable, once per run.
func (m *machine) linkGlobal(ps *state, index int) *global {
	p := ps.p
	p.mu.Lock()
	g := p.byIndex[index]
	p.mu.Unlock()
	for len(ps.globals) <= index {
		ps.globals = append(ps.globals, global{})
	}
	v := m.variable(p, g)
	if v.ptr == nil {
		if t := deref(g.Type()); isAggregate(t) {
			m.count(p.lays.of(t).size())
		}
	}
	v.link(&p.lays)
	at := &ps.globals[index]
	at.v, at.ptr = v, v.ptr
	switch x := v.ptr.(type) {
	case *uint64:
		at.n = x
		if !v.ReadOnly {
			at.w = x
		}
	default:
		at.q, _ = x.(*units.Quantity)
	}
	return at
}

// variable finds the variable that g names.
func (m *machine) variable(p *Program, g *ssa.Global) *Variable {
	elem := g.Type().Underlying().(*types.Pointer).Elem()
	obj, _ := g.Object().(*types.Var)
	if obj == nil { // init$guard
		return NewVariable(elem)
	}
	if p.link != nil && g.Pkg != nil {
		if h, ok := p.link.Host(g.Pkg.Pkg.Path(), g.Name()); ok && h.Kind() == reflect.Pointer {
			v := NewVariable(elem)
			v.link(&p.lays)
			v.Set(Value{elem, p.fromGo(elem, h.Elem())})
			v.ReadOnly, v.Owner = true, "package "+g.Pkg.Pkg.Path()
			return v
		}
	}
	in := &m.run.in
	in.mu.Lock()
	v := in.vars[obj]
	in.mu.Unlock()
	if v != nil {
		return v
	}
	if m.run.Global != nil {
		v = m.run.Global(obj)
	}
	if v == nil {
		v = NewVariable(elem)
	}
	in.mu.Lock()
	if in.vars == nil {
		in.vars = map[*types.Var]*Variable{}
	}
	in.vars[obj] = v
	in.mu.Unlock()
	return v
}

// readOnly stops a store to a variable of somebody else.
func (m *machine) readOnly(g *ssa.Global, v *Variable, pos token.Pos) {
	f := &Fault{Pos: pos, Msg: "cannot assign to " + g.Name() + ": it belongs to " + v.Owner}
	if v.Owner == "" {
		f.Msg = "cannot assign to " + g.Name() + ": it belongs to another cell"
	}
	f.Hint = "give the new value a name of its own"
	m.top.pos = pos
	m.halt(f)
}
