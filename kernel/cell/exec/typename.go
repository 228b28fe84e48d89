package exec

import (
	"fmt"
	"go/types"
	"reflect"
	"strings"
)

// typeName writes a type as package reflect does, which is what %T and
// run-time errors show: "map[string]main.T", "interface {}".
func typeName(t types.Type) string {
	var b strings.Builder
	writeType(&b, t, false)
	return b.String()
}

func writeType(b *strings.Builder, t types.Type, full bool) {
	if d, ok := t.(*hostDyn); ok {
		b.WriteString(dynName(d.rt))
		return
	}
	switch t := types.Unalias(t).(type) {
	case *types.Basic:
		switch t.Kind() {
		case types.Uint8:
			b.WriteString("uint8")
		case types.Int32:
			b.WriteString("int32")
		default:
			b.WriteString(types.Default(t).String())
		}
	case *types.Named:
		if p := t.Obj().Pkg(); p != nil {
			if full {
				b.WriteString(p.Path())
			} else {
				b.WriteString(p.Name())
			}
			b.WriteByte('.')
		}
		b.WriteString(t.Obj().Name())
		if args := t.TypeArgs(); args.Len() > 0 {
			b.WriteByte('[')
			for i := range args.Len() {
				if i > 0 {
					b.WriteByte(',')
				}
				writeType(b, args.At(i), true)
			}
			b.WriteByte(']')
		}
	case *types.Pointer:
		b.WriteByte('*')
		writeType(b, t.Elem(), full)
	case *types.Slice:
		b.WriteString("[]")
		writeType(b, t.Elem(), full)
	case *types.Array:
		fmt.Fprintf(b, "[%d]", t.Len())
		writeType(b, t.Elem(), full)
	case *types.Map:
		b.WriteString("map[")
		writeType(b, t.Key(), full)
		b.WriteByte(']')
		writeType(b, t.Elem(), full)
	case *types.Signature:
		b.WriteString("func")
		writeSignature(b, t, full)
	case *types.Struct:
		b.WriteString("struct {")
		for i := range t.NumFields() {
			if i > 0 {
				b.WriteByte(';')
			}
			b.WriteByte(' ')
			f := t.Field(i)
			if !f.Embedded() {
				b.WriteString(f.Name() + " ")
			}
			writeType(b, f.Type(), full)
			if tag := t.Tag(i); tag != "" {
				fmt.Fprintf(b, " %q", tag)
			}
		}
		if t.NumFields() > 0 {
			b.WriteByte(' ')
		}
		b.WriteByte('}')
	case *types.Interface:
		b.WriteString("interface {")
		for i := range t.NumMethods() {
			if i > 0 {
				b.WriteByte(';')
			}
			b.WriteByte(' ')
			if m := t.Method(i); !m.Exported() && m.Pkg() != nil {
				b.WriteString(m.Pkg().Name() + ".")
			}
			b.WriteString(t.Method(i).Name())
			writeSignature(b, t.Method(i).Signature(), full)
		}
		if t.NumMethods() > 0 {
			b.WriteByte(' ')
		}
		b.WriteByte('}')
	default:
		b.WriteString(t.String())
	}
}

func writeSignature(b *strings.Builder, s *types.Signature, full bool) {
	b.WriteByte('(')
	for i := range s.Params().Len() {
		if i > 0 {
			b.WriteString(", ")
		}
		t := s.Params().At(i).Type()
		if sl, ok := t.(*types.Slice); ok && s.Variadic() && i == s.Params().Len()-1 {
			b.WriteString("...")
			t = sl.Elem()
		}
		writeType(b, t, full)
	}
	b.WriteByte(')')
	switch n := s.Results().Len(); {
	case n == 1:
		b.WriteByte(' ')
		writeType(b, s.Results().At(0).Type(), full)
	case n > 1:
		b.WriteString(" (")
		for i := range n {
			if i > 0 {
				b.WriteString(", ")
			}
			writeType(b, s.Results().At(i).Type(), full)
		}
		b.WriteByte(')')
	}
}

// dynName is the name of a compiled type; the executor's own errors go by the
// names of those that they stand for.
func dynName(rt reflect.Type) string {
	switch rt {
	case reflect.TypeFor[*wrapError]():
		return "*fmt.wrapError"
	case reflect.TypeFor[*wrapErrors]():
		return "*fmt.wrapErrors"
	case reflect.TypeFor[*joinError]():
		return "*errors.joinError"
	case reflect.TypeFor[runtimeError]():
		return "runtime.Error"
	case reflect.TypeFor[plainError]():
		return "runtime.plainError"
	case reflect.TypeFor[assertError]():
		return "*runtime.TypeAssertionError"
	}
	return rt.String()
}
