package exec

import (
	"errors"
	"fmt"
	"go/token"
	"go/types"
	"reflect"

	"ohmwright/units"
)

// hostFunc is a compiled function or method, with the receiver as its first
// parameter.
type hostFunc struct {
	p       *Program
	obj     *types.Func // nil for a function value without a name
	fn      reflect.Value
	sig     *types.Signature
	params  []types.Type
	results []types.Type
	own     intrinsic // the executor's own version, nil for none
	cost    func(args []reflect.Value) int64
}

// intrinsic is a compiled function that the executor does itself, because its
// arguments are values that compiled code cannot look into.
type intrinsic func(m *machine, h *hostFunc, args []any) []any

// coster is what a Linker may offer: how many bytes a call may make that are
// not in proportion to its arguments.
type coster interface {
	Cost(pkgPath, name string, args []reflect.Value) int64
}

// wrapperer is what a Linker may offer: a compiled struct type implementing a
// compiled interface, with a function field WM for each method M.
type wrapperer interface {
	Wrapper(pkgPath, name string) (reflect.Type, bool)
}

// hostFunc finds a compiled function by its object, nil if there is none.
func (p *Program) hostFunc(obj *types.Func) *hostFunc {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.hostFuncLocked(obj)
}

func (p *Program) hostFuncLocked(obj *types.Func) *hostFunc {
	if h, ok := p.hosts[obj]; ok {
		return h
	}
	h := p.findHost(obj)
	p.hosts[obj] = h
	return h
}

func (p *Program) findHost(obj *types.Func) *hostFunc {
	if obj.Pkg() == nil && obj.Name() != "Error" || p.link == nil {
		return nil
	}
	sig := obj.Signature()
	h := &hostFunc{p: p, obj: obj, sig: sig}
	path := ""
	if obj.Pkg() != nil {
		path = obj.Pkg().Path()
	}
	title := obj.Name()
	if recv := sig.Recv(); recv != nil {
		rt := p.rtype(recv.Type())
		if rt == nil {
			return nil
		}
		m, ok := rt.MethodByName(obj.Name())
		if !ok {
			return nil
		}
		h.fn = m.Func
		if rt.Kind() == reflect.Interface {
			return nil
		}
		h.params = append(h.params, recv.Type())
		if n, ok := types.Unalias(deref(recv.Type())).(*types.Named); ok {
			title = n.Obj().Name() + "." + title
		}
	} else {
		fn, ok := p.link.Host(path, obj.Name())
		if intrinsics[path+"."+title] == nil && (!ok || fn.Kind() != reflect.Func) {
			return nil
		}
		h.fn = fn
	}
	for v := range sig.Params().Variables() {
		h.params = append(h.params, v.Type())
	}
	for v := range sig.Results().Variables() {
		h.results = append(h.results, v.Type())
	}
	h.own = intrinsics[path+"."+title]
	if c, ok := p.link.(coster); ok && path != "" && path != unitsPath {
		h.cost = func(args []reflect.Value) int64 { return c.Cost(path, title, args) }
	}
	return h
}

// hostValue is the hostFunc of a function value that compiled code gave.
func (p *Program) hostValue(c *closure) *hostFunc {
	h := &hostFunc{p: p, obj: c.obj, fn: c.host, sig: c.sig}
	for v := range c.sig.Params().Variables() {
		h.params = append(h.params, v.Type())
	}
	for v := range c.sig.Results().Variables() {
		h.results = append(h.results, v.Type())
	}
	return h
}

// watched reports whether somebody wants to see the calls of the run.
func (m *machine) watched() bool { return m.run.Intercept != nil || m.run.After != nil }

// op compiles the call of a compiled function. Common signatures on numbers
// and quantities go without reflection.
func (h *hostFunc) op(p passing, pos token.Pos) op {
	slow := func(fr *frame) {
		fr.pos = pos
		p.results(fr, fr.m.callHost(h, p.boxed(fr)))
	}
	if h.own != nil || h.cost != nil && !plainNumbers(h) {
		return slow
	}
	quick := quickCall(h.fn.Interface(), p)
	if quick == nil {
		return slow
	}
	return func(fr *frame) {
		fr.pos = pos
		fr.m.poll()
		if fr.m.watched() {
			h.watchedCall(fr, p, quick)
			return
		}
		quick(fr)
	}
}

// plainNumbers reports whether no argument is text or a slice: such a call
// cannot be large.
func plainNumbers(h *hostFunc) bool {
	for _, t := range h.params {
		if classOf(t) == classRef {
			return false
		}
	}
	return true
}

func quickCall(f any, p passing) op {
	switch f := f.(type) {
	case func(units.Quantity) units.Quantity:
		a, d := p.q[0], p.out[0].i
		return func(fr *frame) { fr.q[d] = f(fr.q[a]) }
	case func(units.Quantity, units.Quantity) units.Quantity:
		a, b, d := p.q[0], p.q[1], p.out[0].i
		return func(fr *frame) { fr.q[d] = f(fr.q[a], fr.q[b]) }
	case func(units.Quantity, units.Quantity, units.Quantity) units.Quantity:
		a, b, c, d := p.q[0], p.q[1], p.q[2], p.out[0].i
		return func(fr *frame) { fr.q[d] = f(fr.q[a], fr.q[b], fr.q[c]) }
	case func(...units.Quantity) units.Quantity:
		a, d := p.r[0], p.out[0].i
		return func(fr *frame) { s, _ := fr.r[a].([]units.Quantity); fr.q[d] = f(s...) }
	case func(units.Quantity, ...units.Quantity) units.Quantity:
		a, r, d := p.q[0], p.r[0], p.out[0].i
		return func(fr *frame) { s, _ := fr.r[r].([]units.Quantity); fr.q[d] = f(fr.q[a], s...) }
	case func(units.Quantity, string) units.Quantity:
		a, r, d := p.q[0], p.r[0], p.out[0].i
		return func(fr *frame) { fr.q[d] = f(fr.q[a], fr.r[r].(string)) }
	case func(units.Quantity, float64) units.Quantity:
		a, b, d := p.q[0], p.s[0], p.out[0].i
		return func(fr *frame) { fr.q[d] = f(fr.q[a], float(fr.s[b])) }
	case func(float64) units.Quantity:
		a, d := p.s[0], p.out[0].i
		return func(fr *frame) { fr.q[d] = f(float(fr.s[a])) }
	case func(string) units.Quantity:
		a, d := p.r[0], p.out[0].i
		return func(fr *frame) { fr.q[d] = f(fr.r[a].(string)) }
	case func(units.Quantity) float64:
		a, d := p.q[0], p.out[0].i
		return func(fr *frame) { fr.s[d] = bits(f(fr.q[a])) }
	case func(units.Quantity) string:
		a, d := p.q[0], p.out[0].i
		return func(fr *frame) { fr.r[d] = f(fr.q[a]) }
	case func(units.Quantity, units.Quantity) bool:
		a, b, d := p.q[0], p.q[1], p.out[0].i
		return func(fr *frame) { fr.s[d] = truth(f(fr.q[a], fr.q[b])) }
	case func(float64) float64:
		a, d := p.s[0], p.out[0].i
		return func(fr *frame) { fr.s[d] = bits(f(float(fr.s[a]))) }
	case func(float64, float64) float64:
		a, b, d := p.s[0], p.s[1], p.out[0].i
		return func(fr *frame) { fr.s[d] = bits(f(float(fr.s[a]), float(fr.s[b]))) }
	case func(string) string:
		a, d := p.r[0], p.out[0].i
		return func(fr *frame) { fr.r[d] = f(fr.r[a].(string)) }
	case func(string, string) bool:
		a, b, d := p.r[0], p.r[1], p.out[0].i
		return func(fr *frame) { fr.s[d] = truth(f(fr.r[a].(string), fr.r[b].(string))) }
	}
	return nil
}

// callHost calls a compiled function with boxed arguments.
func (m *machine) callHost(h *hostFunc, args []any) []any {
	m.poll()
	if out, handled := m.intercept(h, args); handled {
		return out
	}
	top, nest := m.top, m.nest
	m.dig(nestHostCall)
	var out []any
	if h.own != nil {
		out = h.own(m, h, args)
	} else {
		out = m.reflectCall(h, args)
	}
	m.top, m.nest = top, nest
	if m.stopped != nil {
		panic(m.stopped)
	}
	if m.run.After != nil && h.obj != nil {
		if in := m.run.After(m.seen(h, args), valuesOf(h.results, out)); in != nil {
			return boxesOf(in)
		}
	}
	return out
}

// intercept asks the run whether it makes the call itself.
func (m *machine) intercept(h *hostFunc, args []any) ([]any, bool) {
	if m.run.Intercept == nil || h.obj == nil {
		return nil, false
	}
	top := m.top
	vs, handled, err := m.run.Intercept(m.seen(h, args))
	m.top = top
	if err != nil {
		f := &Fault{Msg: err.Error(), Err: err}
		if own := new(Fault); errors.As(err, &own) {
			f.Msg, f.Hint = own.Msg, own.Hint
		}
		m.halt(f)
	}
	if !handled {
		return nil, false
	}
	return boxesOf(vs), true
}

func boxesOf(vs []Value) []any {
	out := make([]any, len(vs))
	for i, v := range vs {
		out[i] = v.V
	}
	return out
}

// watchedCall is a quick call in a run that looks at calls.
func (h *hostFunc) watchedCall(fr *frame, p passing, quick op) {
	args := p.boxed(fr)
	if out, handled := fr.m.intercept(h, args); handled {
		p.results(fr, out)
		return
	}
	quick(fr)
	if fr.m.run.After == nil {
		return
	}
	out := make([]any, len(p.out))
	for i, s := range p.out {
		out[i] = fr.box(s.c, s.i)
	}
	if in := fr.m.run.After(fr.m.seen(h, args), valuesOf(h.results, out)); in != nil {
		p.results(fr, boxesOf(in))
	}
}

func (m *machine) seen(h *hostFunc, args []any) Call {
	var chain []token.Pos
	for fr := m.top; fr != nil && len(chain) < stackShown; fr = fr.caller {
		if fr.pos != token.NoPos && !fr.code.wrapper {
			chain = append(chain, fr.pos)
		}
	}
	pos := token.NoPos
	if len(chain) > 0 {
		pos = chain[0]
	}
	return Call{Func: h.obj, Args: valuesOf(h.params, args), Pos: pos, Chain: chain}
}

func valuesOf(ts []types.Type, vs []any) []Value {
	out := make([]Value, len(vs))
	for i, v := range vs {
		out[i] = Value{ts[i], v}
	}
	return out
}

func (m *machine) reflectCall(h *hostFunc, args []any) []any {
	c := &conversion{m: m, p: h.p}
	in := make([]reflect.Value, len(args))
	ft := h.fn.Type()
	for i, a := range args {
		in[i] = c.toGo(h.params[i], a, ft.In(i))
	}
	if h.cost != nil {
		m.count(h.cost(in))
	}
	var res []reflect.Value
	if ft.IsVariadic() {
		res = h.fn.CallSlice(in)
	} else {
		res = h.fn.Call(in)
	}
	for _, back := range c.back {
		back()
	}
	out := make([]any, len(res))
	for i, r := range res {
		out[i] = h.p.fromGo(h.results[i], r)
		m.countGo(out[i])
	}
	return out
}

// countGo takes what compiled code returned from the memory of the run.
func (m *machine) countGo(v any) {
	switch x := v.(type) {
	case string:
		m.count(int64(len(x)))
	case []uint64:
		m.count(8 * int64(len(x)))
	case []units.Quantity:
		m.count(32 * int64(len(x)))
	case []any:
		m.count(48 * int64(len(x)))
	}
}

// callDyn calls a method of a compiled value whose type has no name here.
func (m *machine) callDyn(p *Program, d *hostDyn, v any, method *types.Func, args []any) []any {
	fn := reflect.ValueOf(v).MethodByName(method.Name())
	if !fn.IsValid() {
		m.halt(&Fault{Msg: fmt.Sprintf("%s has no method %s", d.rt, method.Name())})
	}
	return m.callHost(p.hostValue(&closure{host: fn, sig: method.Signature()}), args)
}
