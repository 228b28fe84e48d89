package exec

import (
	"fmt"
	"go/token"
	"go/types"
	"math"
	"reflect"
	"strings"

	"ohmwright/units"
)

// spec is what stands between % and the verb.
type spec struct{ flags, width, prec string }

func (s spec) format(verb rune) string { return "%" + s.flags + s.width + s.prec + string(verb) }

func (s spec) has(flag string) bool { return strings.Contains(s.flags, flag) }

// printer prints one value as fmt does.
type printer struct {
	m    *machine // nil: no methods of cells are called
	b    *strings.Builder
	s    spec
	verb rune
	// longest bounds the output: a value may contain itself.
	longest int
}

// printMost bounds what one value may print.
const printMost = 16 << 20

// address stands for the address that fmt prints of a pointer, function or
// channel: real ones differ from run to run.
const address = 0xc000010000

// classOf0 is classOf for a type that may be a *hostDyn.
func classOf0(t types.Type) class {
	if _, ok := t.(*hostDyn); ok {
		return classRef
	}
	return classOf(t)
}

// printTop prints an argument of a print function.
func (m *machine) printTop(b *strings.Builder, s spec, verb rune, v *iface) {
	p := printer{m: m, b: b, s: s, verb: verb, longest: b.Len() + printMost}
	switch {
	case v == nil && (verb == 'T' || verb == 'v'):
		p.raw("<nil>", 's')
	case v == nil:
		fmt.Fprintf(b, "%%!%c(<nil>)", verb)
	case verb == 'T':
		p.raw(typeName(v.t), 's')
	case verb == 'p':
		p.pointer(v.t, v.v)
	default:
		p.value(v.t, v.v, 0, true)
	}
}

// raw prints a Go value under the flags.
func (p *printer) raw(x any, verb rune) {
	fmt.Fprintf(p.b, p.s.format(verb), x)
}

func (p *printer) goSyntax() bool { return p.verb == 'v' && p.s.has("#") }

// value prints v of type t. open says that fmt would reach it through
// exported fields only, so that its methods are called.
func (p *printer) value(t types.Type, v any, depth int, open bool) {
	if p.m != nil {
		p.m.dig(1)
		defer func(n int) { p.m.nest = n }(p.m.nest - 1)
	}
	if depth > 1000 || p.b.Len() > p.longest {
		if p.m != nil {
			p.m.halt(&Fault{Msg: "the value to print is too large, or contains itself"})
		}
		p.b.WriteString("…")
		return
	}
	if _, ok := t.(*hostDyn); ok {
		p.raw(v, p.verb)
		return
	}
	if q, ok := v.(units.Quantity); ok {
		p.quantity(q)
		return
	}
	if open && p.byMethod(t, v) {
		return
	}
	switch u := t.Underlying().(type) {
	case *types.Basic:
		p.basic(t, v)
	case *types.Struct:
		p.structure(t, u, v, depth, open)
	case *types.Array:
		if s, ok := v.(*structure); ok {
			p.list(t, u.Elem(), s.lay.len, func(i int) any { return s.field(i) }, depth, open, false)
		}
	case *types.Slice:
		p.list(t, u.Elem(), sliceLen(v), func(i int) any { return elem(v, i) }, depth, open, v == nil)
	case *types.Map:
		p.mapping(t, u, v, depth, open)
	case *types.Interface:
		i, _ := v.(*iface)
		if i == nil {
			if p.goSyntax() {
				p.b.WriteString(typeName(t) + "(nil)")
			} else {
				p.b.WriteString("<nil>")
			}
			return
		}
		p.value(i.t, i.v, depth+1, open)
	case *types.Pointer:
		if depth == 0 && v != nil {
			switch u.Elem().Underlying().(type) {
			case *types.Array, *types.Slice, *types.Struct, *types.Map:
				if !isQuantity(u.Elem()) {
					p.b.WriteByte('&')
					p.value(u.Elem(), peek(v), depth+1, open)
					return
				}
			}
		}
		p.pointer(t, v)
	default:
		p.pointer(t, v)
	}
}

// peek reads what a pointer form points to without copying it.
func peek(v any) any {
	switch v.(type) {
	case *structure, *hostBox:
		return v
	}
	return loadCell(v)
}

// quantity prints with the quantity's own text; number verbs print a plain number.
func (p *printer) quantity(q units.Quantity) {
	if _, ok := any(q).(fmt.Formatter); ok {
		p.raw(q, p.verb)
		return
	}
	switch p.verb {
	case 'v', 's':
		p.raw(q.String(), 's')
	case 'q', 'x', 'X':
		p.raw(q.String(), p.verb)
	case 'e', 'E', 'f', 'F', 'g', 'G':
		if q.SIUnit() == "1" {
			p.raw(q.SI(), p.verb)
			return
		}
		fallthrough
	default:
		fmt.Fprintf(p.b, "%%!%c(Quantity=%s)", p.verb, q)
	}
}

// goodVerbs says which verbs a kind of value takes.
func goodVerbs(k types.BasicKind) string {
	switch {
	case k == types.Bool:
		return "tv"
	case isFloat(k):
		return "vbgGxXfFeE"
	case k == types.String:
		return "vsxXq"
	}
	return "vdboOxXcqU"
}

func (p *printer) basic(t types.Type, v any) {
	k := kindOf(t)
	g := goBasic(k, v)
	if g == nil {
		p.pointer(t, v)
		return
	}
	if strings.ContainsRune(goodVerbs(k), p.verb) {
		p.raw(g, p.verb)
		return
	}
	fmt.Fprintf(p.b, "%%!%c(%s=", p.verb, typeName(t))
	p.raw(g, 'v')
	p.b.WriteByte(')')
}

// goBasic gives a number or text as the Go value of its basic type.
func goBasic(k types.BasicKind, v any) any {
	if s, ok := v.(string); ok {
		return s
	}
	n, ok := v.(uint64)
	if !ok {
		return nil
	}
	switch k {
	case types.Bool:
		return n != 0
	case types.Int8:
		return int8(n)
	case types.Int16:
		return int16(n)
	case types.Int32:
		return int32(n)
	case types.Int64:
		return int64(n)
	case types.Uint:
		return uint(n)
	case types.Uint8:
		return uint8(n)
	case types.Uint16:
		return uint16(n)
	case types.Uint32:
		return uint32(n)
	case types.Uint64:
		return n
	case types.Uintptr:
		return uintptr(n)
	case types.Float32:
		return float32(math.Float64frombits(n))
	case types.Float64:
		return math.Float64frombits(n)
	}
	return int(n)
}

func (p *printer) structure(t types.Type, u *types.Struct, v any, depth int, open bool) {
	if b, ok := v.(*hostBox); ok {
		p.raw(b.ptr.Elem().Interface(), p.verb)
		return
	}
	s, ok := v.(*structure)
	if p.goSyntax() {
		p.b.WriteString(typeName(t))
	}
	p.b.WriteByte('{')
	if !ok {
		p.b.WriteByte('}')
		return
	}
	for i := range u.NumFields() {
		f := u.Field(i)
		if i > 0 {
			if p.goSyntax() {
				p.b.WriteString(", ")
			} else {
				p.b.WriteByte(' ')
			}
		}
		if p.verb == 'v' && (p.s.has("+") || p.s.has("#")) {
			p.b.WriteString(f.Name() + ":")
		}
		p.value(f.Type(), s.field(i), depth+1, open && token.IsExported(f.Name()))
	}
	p.b.WriteByte('}')
}

func (p *printer) list(t, et types.Type, n int, at func(i int) any, depth int, open, null bool) {
	switch p.verb {
	case 's', 'q', 'x', 'X':
		if kindOf(et) == types.Uint8 {
			b := make([]byte, n)
			for i := range b {
				b[i] = byte(at(i).(uint64))
			}
			p.raw(b, p.verb)
			return
		}
	}
	open1, sep, close1 := "[", " ", "]"
	if p.goSyntax() {
		p.b.WriteString(typeName(t))
		if null {
			p.b.WriteString("(nil)")
			return
		}
		open1, sep, close1 = "{", ", ", "}"
	}
	p.b.WriteString(open1)
	for i := range n {
		if i > 0 {
			p.b.WriteString(sep)
		}
		p.value(et, at(i), depth+1, open)
	}
	p.b.WriteString(close1)
}

func (p *printer) mapping(t types.Type, u *types.Map, v any, depth int, open bool) {
	m, _ := v.(*mapping)
	open1, sep, close1 := "map[", " ", "]"
	if p.goSyntax() {
		p.b.WriteString(typeName(t))
		if m == nil {
			p.b.WriteString("(nil)")
			return
		}
		open1, sep, close1 = "{", ", ", "}"
	}
	p.b.WriteString(open1)
	for i, e := range m.entries() {
		if i > 0 {
			p.b.WriteString(sep)
		}
		p.value(u.Key(), e.key, depth+1, open)
		p.b.WriteByte(':')
		p.value(u.Elem(), m.value(e), depth+1, open)
	}
	p.b.WriteString(close1)
}

// pointer prints what fmt prints as an address.
func (p *printer) pointer(t types.Type, v any) {
	null := v == nil || reflect.ValueOf(v).Kind() == reflect.Pointer && reflect.ValueOf(v).IsNil()
	switch p.verb {
	case 'v':
		switch {
		case p.goSyntax() && null:
			p.b.WriteString("(" + typeName(t) + ")(nil)")
		case p.goSyntax():
			fmt.Fprintf(p.b, "(%s)(%#x)", typeName(t), address)
		case null:
			fmt.Fprintf(p.b, spec{flags: strings.ReplaceAll(p.s.flags, "+", ""), width: p.s.width}.format('s'), "<nil>")
		default:
			fmt.Fprintf(p.b, "%#x", address)
		}
	case 'p', 'b', 'o', 'd', 'x', 'X':
		a := address
		if null {
			a = 0
		}
		if p.verb == 'p' {
			if null {
				fmt.Fprintf(p.b, "%%!p(%s=<nil>)", typeName(t))
				return
			}
			fmt.Fprintf(p.b, "%#x", a)
			return
		}
		p.raw(a, p.verb)
	default:
		if null {
			fmt.Fprintf(p.b, "%%!%c(%s=<nil>)", p.verb, typeName(t))
			return
		}
		fmt.Fprintf(p.b, "%%!%c(%s=%#x)", p.verb, typeName(t), address)
	}
}
