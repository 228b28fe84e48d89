package exec

import (
	"errors"
	"fmt"
	"go/types"
	"reflect"

	"ohmwright/units"
)

// conversion makes Go values of the executor's for one call, and afterwards
// carries back what compiled code changed in them.
type conversion struct {
	m    *machine // nil: no functions of cells and no stand-ins
	p    *Program
	seen map[any]reflect.Value // pointers already converted
	back []func()
	deep int
}

// mismatch is the Go panic of a value that has no form in Go.
type mismatch struct{ error }

func cannot(t types.Type, rt reflect.Type) {
	panic(mismatch{fmt.Errorf("a value of type %s cannot be handed to compiled code as %s", typeName(t), rt)})
}

var (
	quantityType = reflect.TypeFor[units.Quantity]()
	anyType      = reflect.TypeFor[any]()
	solverType   = reflect.TypeFor[func(units.Quantity) units.Quantity]()
	errorType    = reflect.TypeFor[error]()
)

// toGo converts the boxed value v of type t to Go type rt.
func (c *conversion) toGo(t types.Type, v any, rt reflect.Type) reflect.Value {
	out := reflect.New(rt).Elem()
	c.put(out, t, v)
	return out
}

// put converts v into out, which is settable.
func (c *conversion) put(out reflect.Value, t types.Type, v any) {
	rt := out.Type()
	if c.deep++; c.deep > nestedMost {
		panic(mismatch{errors.New("the value is nested too deep for a compiled function")})
	}
	defer func() { c.deep-- }()
	if rt == quantityType {
		q, ok := v.(units.Quantity)
		if !ok {
			cannot(t, rt)
		}
		out.Set(reflect.ValueOf(q))
		return
	}
	switch rt.Kind() {
	case reflect.Bool, reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64, reflect.Uint, reflect.Uint8,
		reflect.Uint16, reflect.Uint32, reflect.Uint64, reflect.Uintptr, reflect.Float32, reflect.Float64:
		n, ok := v.(uint64)
		if !ok {
			cannot(t, rt)
		}
		setNumber(out, kindOf(t), n)
	case reflect.String:
		s, ok := v.(string)
		if !ok {
			cannot(t, rt)
		}
		out.SetString(s)
	case reflect.Slice:
		c.putSlice(out, t, v)
	case reflect.Array:
		s, ok := v.(*structure)
		if !ok || !s.lay.array || s.lay.len != rt.Len() {
			cannot(t, rt)
		}
		for i := range s.lay.len {
			c.put(out.Index(i), s.lay.elem, s.field(i))
		}
	case reflect.Struct:
		c.putStruct(out, t, v)
	case reflect.Map:
		c.putMap(out, t, v)
	case reflect.Pointer:
		c.putPointer(out, t, v)
	case reflect.Interface:
		c.putInterface(out, t, v)
	case reflect.Func:
		c.putFunc(out, t, v)
	default:
		cannot(t, rt)
	}
}

func setNumber(out reflect.Value, k types.BasicKind, n uint64) {
	switch out.Kind() {
	case reflect.Bool:
		out.SetBool(n != 0)
	case reflect.Float32, reflect.Float64:
		out.SetFloat(asFloat(k, n))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64, reflect.Uintptr:
		if isFloat(k) {
			n = uint64(float(n))
		}
		out.SetUint(n)
	default:
		if isFloat(k) {
			n = uint64(int64(float(n)))
		}
		out.SetInt(int64(n))
	}
}

func (c *conversion) putSlice(out reflect.Value, t types.Type, v any) {
	rt := out.Type()
	st, ok := t.Underlying().(*types.Slice)
	if !ok {
		cannot(t, rt)
	}
	if v == nil {
		return
	}
	if qs, ok := v.([]units.Quantity); ok && rt.Elem() == quantityType {
		out.Set(reflect.ValueOf(qs).Convert(rt)) // the same memory on both sides
		return
	}
	n := sliceLen(v)
	s := reflect.MakeSlice(rt, n, n)
	for i := range n {
		c.put(s.Index(i), st.Elem(), elem(v, i))
	}
	out.Set(s)
	c.writeBack(s, st.Elem(), v)
}

// writeBack carries elements that compiled code changed back into the slice.
func (c *conversion) writeBack(s reflect.Value, et types.Type, v any) {
	n := s.Len()
	if c.m == nil || n == 0 {
		return
	}
	k := s.Type().Elem().Kind()
	if !s.Type().Elem().Comparable() || k == reflect.Interface || k == reflect.Struct || k == reflect.Array {
		return // compiled functions of the allowed packages only read these
	}
	was := reflect.MakeSlice(s.Type(), n, n)
	reflect.Copy(was, s)
	c.back = append(c.back, func() {
		for i := range n {
			if s.Index(i).Equal(was.Index(i)) {
				continue
			}
			x := c.p.fromGo(et, s.Index(i))
			switch d := v.(type) {
			case []uint64:
				d[i] = x.(uint64)
			case []any:
				d[i] = x
			}
		}
	})
}

func (c *conversion) putStruct(out reflect.Value, t types.Type, v any) {
	rt := out.Type()
	switch x := v.(type) {
	case *hostBox:
		if x.ptr.Type().Elem() == rt {
			out.Set(x.ptr.Elem())
			return
		}
	case *structure:
		if x.lay.array || x.lay.len != rt.NumField() {
			break
		}
		for i := range x.lay.len {
			f := out.Field(i)
			if !f.CanSet() {
				cannot(t, rt)
			}
			c.put(f, x.lay.typeAt(i), x.field(i))
		}
		return
	}
	cannot(t, rt)
}

func (c *conversion) putMap(out reflect.Value, t types.Type, v any) {
	rt := out.Type()
	mt, ok := t.Underlying().(*types.Map)
	if !ok {
		cannot(t, rt)
	}
	m, _ := v.(*mapping)
	if m == nil {
		return
	}
	g := reflect.MakeMapWithSize(rt, m.n)
	for _, e := range m.entries() {
		g.SetMapIndex(c.toGo(mt.Key(), e.key, rt.Key()), c.toGo(mt.Elem(), m.value(e), rt.Elem()))
	}
	out.Set(g)
}

func (c *conversion) putPointer(out reflect.Value, t types.Type, v any) {
	rt := out.Type()
	if v == nil {
		return
	}
	if b, ok := v.(*hostBox); ok {
		if b.ptr.Type() != rt {
			cannot(t, rt)
		}
		out.Set(b.ptr)
		return
	}
	if h, ok := v.(*hostPtr); ok && h.v.Addr().Type() == rt {
		out.Set(h.v.Addr())
		return
	}
	if q, ok := v.(*units.Quantity); ok && rt.Elem() == quantityType {
		out.Set(reflect.ValueOf(q))
		return
	}
	if p, ok := c.seen[v]; ok && p.Type() == rt {
		out.Set(p)
		return
	}
	p := reflect.New(rt.Elem())
	if c.seen == nil {
		c.seen = map[any]reflect.Value{}
	}
	c.seen[v] = p
	elem := deref(t)
	out.Set(p)
	if s, ok := v.(*structure); ok {
		c.put(p.Elem(), elem, s)
	} else {
		c.put(p.Elem(), elem, loadCell(v))
	}
	if c.m != nil {
		c.back = append(c.back, func() { storeCell(v, c.p.fromGo(elem, p.Elem())) })
	}
}

func (c *conversion) putInterface(out reflect.Value, t types.Type, v any) {
	rt := out.Type()
	i, ok := v.(*iface)
	if !ok {
		if v == nil {
			return
		}
		i = &iface{t, v}
	}
	if c.m != nil && rt.NumMethod() > 0 && sharing(i) {
		// Compiled code that keeps the value (sort.Reverse) must see and
		// change the elements themselves, not a copy.
		if g := c.m.standIn(c.p, i, rt, t); g.IsValid() {
			out.Set(g)
			return
		}
	}
	if g := c.dynamic(i); g.IsValid() && g.Type().AssignableTo(rt) {
		out.Set(g)
		return
	}
	if c.m != nil {
		if g := c.m.standIn(c.p, i, rt, t); g.IsValid() {
			out.Set(g)
			return
		}
	}
	cannot(i.t, rt)
}

// sharing reports whether the value in an interface is a slice or map.
func sharing(i *iface) bool {
	if _, ok := i.t.(*hostDyn); ok {
		return false
	}
	switch i.t.Underlying().(type) {
	case *types.Slice, *types.Map:
		return true
	}
	return false
}

// dynamic converts the value in an interface to the compiled type that it
// has, if it has one.
func (c *conversion) dynamic(i *iface) reflect.Value {
	if _, ok := i.t.(*hostDyn); ok {
		return reflect.ValueOf(i.v)
	}
	if c.p != nil {
		if rt := c.p.rtype(i.t); rt != nil {
			return c.toGo(i.t, i.v, rt)
		}
		return reflect.Value{}
	}
	if rt := basicType(i.t); rt != nil {
		return c.toGo(i.t, i.v, rt)
	}
	return reflect.Value{}
}

func (c *conversion) putFunc(out reflect.Value, t types.Type, v any) {
	rt := out.Type()
	f, _ := v.(*closure)
	if f == nil {
		return
	}
	if f.fn == nil && f.host.Type().ConvertibleTo(rt) {
		out.Set(f.host.Convert(rt))
		return
	}
	sig, ok := t.Underlying().(*types.Signature)
	if c.m == nil || !ok {
		cannot(t, rt)
	}
	m, p := c.m, c.p
	if rt == solverType { // what solvers call thousands of times
		out.Set(reflect.ValueOf(func(x units.Quantity) units.Quantity {
			top := m.top
			res := m.callClosure(f, []any{x}, nil, nil)
			m.top = top
			q, _ := res[0].(units.Quantity)
			return q
		}))
		return
	}
	out.Set(m.goFunc(p, sig, rt, func(args []any) []any { return m.callClosure(f, args, nil, nil) }))
}

// goFunc makes call, which takes and gives the executor's values, a function of
// compiled code.
func (m *machine) goFunc(p *Program, sig *types.Signature, rt reflect.Type, call func(args []any) []any) reflect.Value {
	return reflect.MakeFunc(rt, func(in []reflect.Value) []reflect.Value {
		args := make([]any, len(in))
		for i, a := range in {
			args[i] = p.fromGo(sig.Params().At(i).Type(), a)
		}
		top := m.top
		gave := call(args)
		m.top = top
		back := &conversion{m: m, p: p}
		out := make([]reflect.Value, len(gave))
		for i, g := range gave {
			out[i] = back.toGo(sig.Results().At(i).Type(), g, rt.Out(i))
		}
		return out
	})
}

// ToGo converts the executor's value to Go type t.
func ToGo(v Value, t reflect.Type) (out reflect.Value, err error) {
	defer func() {
		if x := recover(); x != nil {
			bad, ok := x.(mismatch)
			if !ok {
				panic(x)
			}
			err = bad.error
		}
	}()
	return (&conversion{}).toGo(v.Type, v.V, t), nil
}
