package exec

import (
	"fmt"
	"go/types"
	"reflect"
)

// inside is implemented by what stands for a cell's value in compiled code.
type inside interface{ inner() *iface }

// standIn makes a compiled value with the methods of interface rt that stands
// for the value v of a cell.
func (m *machine) standIn(p *Program, v *iface, rt reflect.Type, t types.Type) reflect.Value {
	b := stand{m, p, v}
	switch {
	case rt == errorType:
		if m.hasMethod(v, "Error") {
			return reflect.ValueOf(&standError{b})
		}
	case rt.NumMethod() == 0:
		if m.hasMethod(v, "Error") {
			return reflect.ValueOf(&standError{b})
		}
		return reflect.ValueOf(&b)
	case rt == reflect.TypeFor[fmt.Stringer]():
		return reflect.ValueOf(&standStringer{b})
	}
	return m.wrapped(p, v, rt, t)
}

// wrapped uses the linker's generated type for a compiled interface.
func (m *machine) wrapped(p *Program, v *iface, rt reflect.Type, t types.Type) reflect.Value {
	w, ok := p.link.(wrapperer)
	if !ok || rt.Name() == "" {
		return reflect.Value{}
	}
	wt, ok := w.Wrapper(rt.PkgPath(), rt.Name())
	it, isI := t.Underlying().(*types.Interface)
	if !ok || !isI || !wt.Implements(rt) && !reflect.PointerTo(wt).Implements(rt) {
		return reflect.Value{}
	}
	box := reflect.New(wt)
	if f := box.Elem().FieldByName("IValue"); f.IsValid() {
		f.Set(reflect.ValueOf(&stand{m, p, v}))
	}
	for method := range it.Methods() {
		f := box.Elem().FieldByName("W" + method.Name())
		if !f.IsValid() {
			return reflect.Value{}
		}
		f.Set(m.goFunc(p, method.Signature(), f.Type(), func(args []any) []any { return m.callMethod(p, v, method, args, nil) }))
	}
	if wt.Implements(rt) {
		return box.Elem()
	}
	return box
}

// unwrap finds the cell's value behind a wrapped one.
func unwrap(x reflect.Value) (*iface, bool) {
	if x.Kind() == reflect.Pointer && !x.IsNil() {
		x = x.Elem()
	}
	if x.Kind() != reflect.Struct {
		return nil, false
	}
	f := x.FieldByName("IValue")
	if !f.IsValid() || f.Kind() != reflect.Interface || f.IsNil() || !f.CanInterface() {
		return nil, false
	}
	s, ok := f.Interface().(inside)
	if !ok {
		return nil, false
	}
	return s.inner(), true
}

// stand stands for a cell's value of a type that compiled code does not have.
type stand struct {
	m *machine
	p *Program
	v *iface
}

func (s stand) inner() *iface { return s.v }

// Format lets compiled code print the value as the cell would.
func (s stand) Format(st fmt.State, verb rune) {
	_, _ = st.Write([]byte(s.m.sprintf(fmt.FormatString(st, verb), []any{s.v})))
}

// standStringer stands for a value with a String method.
type standStringer struct{ stand }

func (s *standStringer) String() string { return s.m.methodText(s.v, "String") }

// standError stands for an error of a cell's type.
type standError struct{ stand }

func (s *standError) Error() string { return s.m.methodText(s.v, "Error") }

// Unwrap is the cell's own Unwrap, if it has one.
func (s *standError) Unwrap() error {
	next := s.m.unwrapOne(s.v)
	if next == nil {
		return nil
	}
	return s.m.goError(s.p, next)
}

// Is is == of the cell's errors, or the cell's own Is.
func (s *standError) Is(target error) bool {
	return s.m.errorIs(s.v, s.p.fromInterface(reflect.ValueOf(target)), true)
}

// goError gives an error of a cell as one of Go.
func (m *machine) goError(p *Program, v *iface) error {
	c := &conversion{m: m, p: p}
	if g := c.dynamic(v); g.IsValid() {
		if e, ok := g.Interface().(error); ok {
			return e
		}
	}
	return &standError{stand{m, p, v}}
}

// hasMethod reports whether the value has a method of this name without
// parameters and with one string result.
func (m *machine) hasMethod(v *iface, name string) bool {
	if v == nil {
		return false
	}
	if d, ok := v.t.(*hostDyn); ok {
		mt, ok := d.rt.MethodByName(name)
		return ok && mt.Type.NumIn() == 1 && mt.Type.NumOut() == 1 && mt.Type.Out(0).Kind() == reflect.String
	}
	return textMethod(v.t, name) != nil
}

// textMethod finds a method func() string.
func textMethod(t types.Type, name string) *types.Func {
	f := findMethod(t, name)
	if f == nil {
		return nil
	}
	sig := f.Signature()
	if sig.Params().Len() != 0 || sig.Results().Len() != 1 || kindOf(sig.Results().At(0).Type()) != types.String {
		return nil
	}
	return f
}

// findMethod finds an exported method in the method set of t.
func findMethod(t types.Type, name string) *types.Func {
	if _, ok := t.(*hostDyn); ok {
		return nil
	}
	switch u := types.Unalias(t).(type) {
	case *types.Basic:
		return nil
	case *types.Pointer:
		if _, ok := types.Unalias(u.Elem()).(*types.Basic); ok {
			return nil
		}
	}
	sel := types.NewMethodSet(t).Lookup(nil, name)
	if sel == nil {
		return nil
	}
	f, _ := sel.Obj().(*types.Func)
	return f
}
