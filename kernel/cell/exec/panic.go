package exec

import (
	"errors"
	"fmt"
	"go/token"
	"go/types"
	"reflect"
	"runtime"
	"strings"

	"ohmwright/units"

	"golang.org/x/tools/go/ssa"
)

// panicking is the Go panic of a panic of the cell.
type panicking struct {
	v         *iface // what recover returns
	recovered bool
	stack     []Frame
}

// runtimeError is a run-time panic of the cell, as package runtime words it.
type runtimeError string

func (e runtimeError) Error() string { return "runtime error: " + string(e) }
func (e runtimeError) RuntimeError() {}

// assertError is a failed type assertion.
type assertError string

func (e assertError) Error() string { return "interface conversion: " + string(e) }
func (e assertError) RuntimeError() {}

// deferred is a deferred call with its arguments evaluated.
type deferred struct {
	call func(of *frame)
}

// goPanic makes the panic for a Go value.
func (m *machine) goPanic(x any) *panicking {
	return &panicking{v: &iface{&hostDyn{reflect.TypeOf(x)}, x}, stack: m.stack()}
}

// throw panics with a run-time error at pos.
func (fr *frame) throw(pos token.Pos, format string, args ...any) {
	if pos != token.NoPos {
		fr.pos = pos
	}
	fr.m.top = fr
	panic(fr.m.goPanic(runtimeError(fmt.Sprintf(format, args...))))
}

func (fr *frame) nilPointer(pos token.Pos) {
	fr.throw(pos, "invalid memory address or nil pointer dereference")
}

func (fr *frame) badIndex(pos token.Pos, i uint64, n int, unsigned bool) {
	if !unsigned && int64(i) < 0 {
		fr.throw(pos, "index out of range [%d]", int64(i))
	}
	fr.throw(pos, "index out of range [%d] with length %d", i, n)
}

// panicWith is the statement panic(v).
func (fr *frame) panicWith(pos token.Pos, v any) {
	if pos != token.NoPos {
		fr.pos = pos
	}
	fr.m.top = fr
	i, _ := v.(*iface)
	if i == nil {
		panic(fr.m.goPanic(new(runtime.PanicNilError)))
	}
	panic(&panicking{v: i, stack: fr.m.stack()})
}

// caught makes of a recovered Go panic the panic of the cell, or gives the
// stop that a cell cannot recover from.
func (m *machine) caught(x any) (*panicking, *stop) {
	switch x := x.(type) {
	case *panicking:
		return x, nil
	case *stop:
		return nil, x
	}
	return m.goPanic(x), nil
}

// try runs f; a panic of the cell in it is returned, a stop goes on. It goes on
// from here and not from the deferred function, where the panic of each
// level would pile up on the Go stack.
func (fr *frame) try(f func(fr *frame)) *panicking {
	p, s := fr.attempt(f)
	if s != nil {
		panic(s)
	}
	return p
}

func (fr *frame) attempt(f func(fr *frame)) (p *panicking, s *stop) {
	nest := fr.m.nest
	defer func() {
		if x := recover(); x != nil {
			fr.m.nest = nest
			p, s = fr.m.caught(x)
			fr.m.top = fr
		}
	}()
	f(fr)
	return nil, nil
}

// runDeferring runs a function that has deferred calls.
func (fr *frame) runDeferring() {
	fr.panic = fr.try(func(fr *frame) { fr.m.exec(fr, fr.code.entry) })
	if fr.panic == nil {
		return
	}
	for len(fr.defers) > 0 {
		if p := fr.try((*frame).runDefers); p != nil {
			fr.panic = p
		}
	}
	if fr.panic != nil {
		panic(fr.panic)
	}
	if fr.code.recover != nil {
		fr.m.exec(fr, fr.code.recover)
		return
	}
	for i, s := range fr.code.results { // no named results: zero
		fr.unbox(s.c, s.i, fr.code.p.lays.zeroBoxed(fr.code.fn.Signature.Results().At(i).Type()))
	}
}

// runDefers runs the deferred calls, the last first, until one panics.
func (fr *frame) runDefers() {
	for n := len(fr.defers); n > 0; n = len(fr.defers) {
		d := fr.defers[n-1]
		fr.defers[n-1] = deferred{}
		fr.defers = fr.defers[:n-1]
		d.call(fr)
		fr.m.top = fr
		if fr.panic != nil && fr.panic.recovered {
			fr.panic = nil
		}
	}
}

// recovers is the built-in recover called in fr.
func (fr *frame) recovers() any {
	at := fr
	for at != nil && at.code.yield { // the body of a range over a function
		source := at.code.fn.Parent()
		for at = at.caller; at != nil && at.code.fn != source; {
			at = at.caller
		}
	}
	if at == nil || at.deferOf == nil {
		return nil
	}
	p := at.deferOf.panic
	if p == nil || p.recovered {
		return nil
	}
	p.recovered = true
	return p.v
}

// isYield reports whether fn is the body of a range over a function.
func isYield(fn *ssa.Function) bool { return strings.HasPrefix(fn.Synthetic, "range-over-func") }

// fault turns what came out of a run into a *Fault.
func (m *machine) fault(x any) *Fault {
	if s, ok := x.(*stop); ok {
		return s.fault
	}
	p, ok := x.(*panicking)
	if !ok {
		p = m.goPanic(x)
	}
	f := &Fault{Pos: place(p.stack), Stack: p.stack}
	if _, ok := p.v.t.(*hostDyn); ok {
		switch e := p.v.v.(type) {
		case *units.Error:
			f.Msg, f.Hint, f.Err = e.Msg, e.Hint, e
			return f
		case runtimeError:
			f.Msg, f.Err = string(e), e
			return f
		case *runtime.TypeAssertionError, assertError:
			f.Msg, f.Err = e.(error).Error(), e.(error)
			return f
		case runtime.Error:
			f.Msg, f.Err = strings.TrimPrefix(e.Error(), "runtime error: "), e
			return f
		case error:
			f.Err = e
		}
	}
	f.Msg = "panic: " + m.panicText(p.v)
	if f.Err == nil {
		if m.hasMethod(p.v, "Error") {
			f.Err = errors.New(strings.TrimPrefix(f.Msg, "panic: "))
		}
	}
	return f
}

// panicText is the text of a panic's value: its Error or String method may
// itself panic.
func (m *machine) panicText(v *iface) (text string) {
	defer func() {
		if x := recover(); x != nil {
			if s, ok := x.(*stop); ok {
				text = s.fault.Msg
				return
			}
			text = "a value whose text could not be made"
		}
	}()
	m.top, m.nest = nil, 0
	return m.text(v)
}

// missingMethod words why dynamic type t does not implement want, "" if it does.
func missingMethod(t types.Type, want *types.Interface) string {
	if d, ok := t.(*hostDyn); ok {
		for f := range want.Methods() {
			mt, ok := d.rt.MethodByName(f.Name())
			sig := f.Signature()
			if !ok || mt.Type.NumIn()-1 != sig.Params().Len() || mt.Type.NumOut() != sig.Results().Len() {
				return f.Name()
			}
		}
		return ""
	}
	if f, _ := types.MissingMethod(t, want, true); f != nil {
		return f.Name()
	}
	return ""
}
