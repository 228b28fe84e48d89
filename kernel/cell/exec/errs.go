package exec

import (
	"errors"
	"go/types"
	"reflect"
	"strings"
)

// wrapErrors is what fmt.Errorf makes of several %w, and errors.Join.
type wrapErrors struct {
	msg  string
	errs []*iface
	m    *machine
	p    *Program
}

func (e *wrapErrors) Error() string { return e.msg }

func (e *wrapErrors) Unwrap() []error {
	var out []error
	for _, w := range e.errs {
		out = append(out, e.m.goError(e.p, w))
	}
	return out
}

// wrapError is what fmt.Errorf makes of one %w.
type wrapError struct{ wrapErrors }

func (e *wrapError) Unwrap() error { return e.m.goError(e.p, e.errs[0]) }

// unwrapOne and unwrapAll follow an error to what it wraps.
func (m *machine) unwrapOne(v *iface) *iface {
	if _, ok := v.t.(*hostDyn); ok {
		if w, ok := v.v.(*wrapError); ok {
			return w.errs[0]
		}
		if e, ok := v.v.(error); ok {
			if u := errors.Unwrap(e); u != nil {
				return m.program().fromInterface(reflect.ValueOf(u))
			}
		}
		return nil
	}
	f := findMethod(v.t, "Unwrap")
	if f == nil || f.Signature().Params().Len() != 0 || f.Signature().Results().Len() != 1 {
		return nil
	}
	if _, ok := f.Signature().Results().At(0).Type().Underlying().(*types.Interface); !ok {
		return nil
	}
	next, _ := m.callMethod(m.program(), v, f, nil, nil)[0].(*iface)
	return next
}

func (m *machine) unwrapAll(v *iface) []*iface {
	if _, ok := v.t.(*hostDyn); ok {
		if w, ok := v.v.(*wrapErrors); ok {
			return w.errs
		}
		if u, ok := v.v.(interface{ Unwrap() []error }); ok {
			var out []*iface
			for _, e := range u.Unwrap() {
				out = append(out, m.program().fromInterface(reflect.ValueOf(e)))
			}
			return out
		}
	} else if f := findMethod(v.t, "Unwrap"); f != nil && f.Signature().Results().Len() == 1 {
		if _, ok := f.Signature().Results().At(0).Type().Underlying().(*types.Slice); ok {
			s, _ := m.callMethod(m.program(), v, f, nil, nil)[0].([]any)
			var out []*iface
			for _, e := range s {
				if i, _ := e.(*iface); i != nil {
					out = append(out, i)
				}
			}
			return out
		}
	}
	if one := m.unwrapOne(v); one != nil {
		return []*iface{one}
	}
	return nil
}

// errorIs is errors.Is; self leaves out what v wraps.
func (m *machine) errorIs(v, target *iface, self bool) bool {
	if v == nil || target == nil {
		return v == nil && target == nil
	}
	m.poll()
	m.count(16)
	m.dig(1)
	defer func(n int) { m.nest = n }(m.nest - 1)
	if m.comparable(v.t) && m.comparable(target.t) && m.same(v, target) {
		return true
	}
	if f := m.methodOf(v, "Is", 1); f != nil {
		if out := m.callMethod(m.program(), v, f, []any{target}, nil); out[0].(uint64) != 0 {
			return true
		}
	} else if is, ok := v.v.(interface{ Is(error) bool }); ok {
		if is.Is(m.goError(m.program(), target)) {
			return true
		}
	}
	if self {
		return false
	}
	for _, w := range m.unwrapAll(v) {
		if m.errorIs(w, target, false) {
			return true
		}
	}
	return false
}

func (m *machine) comparable(t types.Type) bool {
	if d, ok := t.(*hostDyn); ok {
		return d.rt.Comparable()
	}
	return types.Comparable(t)
}

func (m *machine) same(a, b *iface) bool {
	if m.top == nil {
		return false
	}
	return m.top.equalDynamic(a, b, 0)
}

// methodOf finds a method of a cell's type with n parameters.
func (m *machine) methodOf(v *iface, name string, n int) *types.Func {
	f := findMethod(v.t, name)
	if f == nil || f.Signature().Params().Len() != n || f.Signature().Results().Len() != 1 ||
		kindOf(f.Signature().Results().At(0).Type()) != types.Bool {
		return nil
	}
	return f
}

func errorsIs(m *machine, _ *hostFunc, a []any) []any {
	v, _ := a[0].(*iface)
	t, _ := a[1].(*iface)
	return []any{truth(m.errorIs(v, t, false))}
}

func errorsUnwrap(m *machine, _ *hostFunc, a []any) []any {
	v, _ := a[0].(*iface)
	if v == nil {
		return []any{nil}
	}
	if next := m.unwrapOne(v); next != nil {
		return []any{next}
	}
	return []any{nil}
}

func errorsJoin(m *machine, _ *hostFunc, a []any) []any {
	var errs []*iface
	var texts []string
	for _, e := range refsOf(a[0]) {
		if v, _ := e.(*iface); v != nil {
			errs = append(errs, v)
			texts = append(texts, m.methodText(v, "Error"))
		}
	}
	if errs == nil {
		return []any{nil}
	}
	err := &joinError{wrapErrors{strings.Join(texts, "\n"), errs, m, m.program()}}
	return []any{&iface{&hostDyn{reflect.TypeOf(err)}, err}}
}

// joinError is what errors.Join makes.
type joinError struct{ wrapErrors }

func errorsAs(m *machine, h *hostFunc, a []any) []any {
	v, _ := a[0].(*iface)
	target, _ := a[1].(*iface)
	if v == nil {
		return []any{uint64(0)}
	}
	if target == nil {
		m.top.panicText("errors: target cannot be nil")
	}
	pt, ok := target.t.Underlying().(*types.Pointer)
	if !ok || target.v == nil {
		m.top.panicText("errors: target must be a non-nil pointer")
	}
	want := pt.Elem()
	if _, ok := want.Underlying().(*types.Interface); !ok && textMethod(want, "Error") == nil {
		m.top.panicText("errors: *target must be interface or implement error")
	}
	return []any{truth(m.errorAs(h.p, v, target, want))}
}

func (m *machine) errorAs(p *Program, v, target *iface, want types.Type) bool {
	m.poll()
	m.count(16)
	m.dig(1)
	defer func(n int) { m.nest = n }(m.nest - 1)
	if p.asserts(v.t, want) {
		switch d, ok := v.t.(*hostDyn); {
		case types.IsInterface(want):
			storeCell(target.v, v)
		case ok:
			storeCell(target.v, p.fromDyn(want, d, v.v))
		default:
			storeCell(target.v, v.v)
		}
		return true
	}
	if f := m.methodOf(v, "As", 1); f != nil {
		if out := m.callMethod(p, v, f, []any{target}, nil); out[0].(uint64) != 0 {
			return true
		}
	}
	for _, w := range m.unwrapAll(v) {
		if m.errorAs(p, w, target, want) {
			return true
		}
	}
	return false
}

// panicText panics with a text.
func (fr *frame) panicText(s string) {
	fr.panicWith(fr.pos, &iface{types.Typ[types.String], s})
}

// identityElems reports whether the elements of the slice in v are variables
// of a struct or array type.
func (p *Program) identityElems(v *iface) bool {
	st, ok := v.t.Underlying().(*types.Slice)
	return ok && classOf(st.Elem()) == classRef && p.lays.zero(st.Elem()).identity()
}
