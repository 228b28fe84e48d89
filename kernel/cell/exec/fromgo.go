package exec

import (
	"go/types"
	"reflect"

	"ohmwright/units"
)

var basicKinds = map[reflect.Kind]types.BasicKind{
	reflect.Bool: types.Bool, reflect.Int: types.Int, reflect.Int8: types.Int8, reflect.Int16: types.Int16,
	reflect.Int32: types.Int32, reflect.Int64: types.Int64, reflect.Uint: types.Uint, reflect.Uint8: types.Uint8,
	reflect.Uint16: types.Uint16, reflect.Uint32: types.Uint32, reflect.Uint64: types.Uint64, reflect.Uintptr: types.Uintptr,
	reflect.Float32: types.Float32, reflect.Float64: types.Float64, reflect.String: types.String,
}

var basicTypes = map[types.BasicKind]reflect.Type{
	types.Bool: reflect.TypeFor[bool](), types.Int: reflect.TypeFor[int](), types.Int8: reflect.TypeFor[int8](),
	types.Int16: reflect.TypeFor[int16](), types.Int32: reflect.TypeFor[int32](), types.Int64: reflect.TypeFor[int64](),
	types.Uint: reflect.TypeFor[uint](), types.Uint8: reflect.TypeFor[uint8](), types.Uint16: reflect.TypeFor[uint16](),
	types.Uint32: reflect.TypeFor[uint32](), types.Uint64: reflect.TypeFor[uint64](), types.Uintptr: reflect.TypeFor[uintptr](),
	types.Float32: reflect.TypeFor[float32](), types.Float64: reflect.TypeFor[float64](), types.String: reflect.TypeFor[string](),
}

// basicType is the Go type of a basic type or a quantity, nil for others.
func basicType(t types.Type) reflect.Type {
	if isQuantity(t) {
		return quantityType
	}
	if _, ok := types.Unalias(t).(*types.Basic); ok {
		return basicTypes[kindOf(t)]
	}
	return nil
}

// rtype returns the compiled type of t, nil if there is none: types of cells
// have none.
func (p *Program) rtype(t types.Type) reflect.Type {
	if rt := basicType(t); rt != nil {
		return rt
	}
	switch u := types.Unalias(t).(type) {
	case *types.Named:
		if u == types.Universe.Lookup("error").Type() {
			return errorType
		}
		if p.link == nil || u.Obj().Pkg() == nil {
			return nil
		}
		rt, _ := p.link.HostType(u)
		return rt
	case *types.Pointer:
		if rt := p.rtype(u.Elem()); rt != nil {
			return reflect.PointerTo(rt)
		}
	case *types.Slice:
		if rt := p.rtype(u.Elem()); rt != nil {
			return reflect.SliceOf(rt)
		}
	case *types.Array:
		if rt := p.rtype(u.Elem()); rt != nil && u.Len() < maxArray {
			return reflect.ArrayOf(int(u.Len()), rt)
		}
	case *types.Map:
		k, e := p.rtype(u.Key()), p.rtype(u.Elem())
		if k != nil && e != nil && k.Comparable() {
			return reflect.MapOf(k, e)
		}
	case *types.Interface:
		if u.Empty() {
			return anyType
		}
	}
	return nil
}

// typeOf returns the types.Type of a compiled type as this program sees it,
// nil if it does not.
func (p *Program) typeOf(rt reflect.Type) types.Type {
	if rt == quantityType {
		return p.qty
	}
	if rt.PkgPath() != "" {
		if p.prog == nil {
			return nil
		}
		pkg := p.prog.ImportedPackage(rt.PkgPath())
		if pkg == nil {
			return nil
		}
		n, ok := pkg.Pkg.Scope().Lookup(rt.Name()).(*types.TypeName)
		if !ok || p.link == nil {
			return nil
		}
		named, ok := n.Type().(*types.Named)
		if !ok || !n.Exported() {
			return nil
		}
		if got, ok := p.link.HostType(named); !ok || got != rt {
			return nil
		}
		return named
	}
	if k, ok := basicKinds[rt.Kind()]; ok {
		return types.Typ[k]
	}
	switch rt.Kind() {
	case reflect.Pointer:
		if t := p.typeOf(rt.Elem()); t != nil {
			return types.NewPointer(t)
		}
	case reflect.Slice:
		if t := p.typeOf(rt.Elem()); t != nil {
			return types.NewSlice(t)
		}
	case reflect.Map:
		k, e := p.typeOf(rt.Key()), p.typeOf(rt.Elem())
		if k != nil && e != nil {
			return types.NewMap(k, e)
		}
	case reflect.Interface:
		if rt == anyType {
			return types.NewInterfaceType(nil, nil)
		}
		if rt == errorType {
			return types.Universe.Lookup("error").Type()
		}
	}
	return nil
}

// FromGo makes a value of the type t, as which the program knows x's type, of
// the Go value x.
func (p *Program) FromGo(t types.Type, x reflect.Value) Value { return Value{t, p.fromGo(t, x)} }

// fromGo converts a Go value to the boxed form of type t.
func (p *Program) fromGo(t types.Type, x reflect.Value) any {
	switch classOf(t) {
	case classNum:
		return fromNumber(x)
	case classQty:
		if q, ok := x.Interface().(units.Quantity); ok {
			return q
		}
		return units.Quantity{}
	}
	switch u := t.Underlying().(type) {
	case *types.Basic:
		return x.String()
	case *types.Interface:
		if x.Kind() == reflect.Interface {
			if x.IsNil() {
				return nil
			}
			x = x.Elem()
		}
		return p.fromInterface(x)
	case *types.Slice:
		return p.fromSlice(u, x)
	case *types.Array:
		s := newStructure(p.lays.of(t))
		for i := range s.lay.len {
			s.setField(i, p.fromGo(u.Elem(), x.Index(i)))
		}
		return s
	case *types.Struct:
		return p.fromStruct(t, u, x)
	case *types.Map:
		if x.IsNil() {
			return nil
		}
		m := newMapping(t)
		for it := x.MapRange(); it.Next(); {
			m.setValue(m.put(nil, p.fromGo(u.Key(), it.Key())), p.fromGo(u.Elem(), it.Value()))
		}
		return m
	case *types.Pointer:
		return p.fromPointer(u.Elem(), x)
	case *types.Signature:
		if x.IsNil() {
			return nil
		}
		return &closure{p: p, host: x, sig: u}
	}
	return nil
}

func fromNumber(x reflect.Value) uint64 {
	switch x.Kind() {
	case reflect.Bool:
		return truth(x.Bool())
	case reflect.Float32, reflect.Float64:
		return bits(x.Float())
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64, reflect.Uintptr:
		return x.Uint()
	}
	return uint64(x.Int())
}

func (p *Program) fromSlice(u *types.Slice, x reflect.Value) any {
	if x.IsNil() {
		return nil
	}
	n := x.Len()
	switch classOf(u.Elem()) {
	case classNum:
		s := make([]uint64, n)
		for i := range s {
			s[i] = fromNumber(x.Index(i))
		}
		return s
	case classQty:
		s := make([]units.Quantity, n)
		for i := range s {
			s[i], _ = x.Index(i).Interface().(units.Quantity)
		}
		return s
	}
	s := make([]any, n)
	for i := range s {
		s[i] = p.fromGo(u.Elem(), x.Index(i))
	}
	return s
}

func (p *Program) fromStruct(t types.Type, u *types.Struct, x reflect.Value) any {
	if p.lays.opaque(t) != nil || p.lays.link == nil && hidden(u) {
		b := reflect.New(x.Type())
		b.Elem().Set(x)
		return &hostBox{ptr: b}
	}
	s := newStructure(p.lays.of(t))
	for i := range s.lay.len {
		s.setField(i, p.fromGo(s.lay.typeAt(i), x.Field(i)))
	}
	return s
}

func hidden(u *types.Struct) bool {
	for f := range u.Fields() {
		if !f.Exported() {
			return true
		}
	}
	return false
}

func (p *Program) fromPointer(elem types.Type, x reflect.Value) any {
	if x.IsNil() {
		return nil
	}
	if p.lays.opaque(elem) != nil {
		return &hostBox{ptr: x}
	}
	if q, ok := x.Interface().(*units.Quantity); ok && classOf(elem) == classQty {
		return q
	}
	v := p.fromGo(elem, x.Elem())
	if isAggregate(elem) {
		return v
	}
	c := p.lays.newCell(elem)
	storeCell(c, v)
	return c
}

// fromInterface makes the value of an interface from the compiled value in it.
func (p *Program) fromInterface(x reflect.Value) *iface {
	if x.CanInterface() {
		if s, ok := x.Interface().(inside); ok {
			return s.inner()
		}
	}
	if w, ok := unwrap(x); ok {
		return w
	}
	rt := x.Type()
	if t := p.typeOf(rt); t != nil {
		return &iface{t, p.fromGo(t, x)}
	}
	return &iface{&hostDyn{rt}, x.Interface()}
}

// fromDyn makes a value of type want from a compiled value of that type that
// had no name where it came from.
func (p *Program) fromDyn(want types.Type, d *hostDyn, v any) any {
	return p.fromGo(want, reflect.ValueOf(v))
}

// FromGo converts a Go value (bool, numbers, string, units.Quantity, slices,
// maps, structs of host packages, error) to a value of type t.
func FromGo(t types.Type, x reflect.Value) Value {
	if !x.IsValid() {
		return Value{t, (&layouts{}).zeroBoxed(t)}
	}
	p := &Program{}
	return Value{t, p.fromGo(t, x)}
}
