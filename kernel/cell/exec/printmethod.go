package exec

import (
	"fmt"
	"go/types"
	"reflect"
)

// byMethod prints with the value's own Error or String, as fmt does.
func (p *printer) byMethod(t types.Type, v any) bool {
	if p.m == nil || types.IsInterface(t) {
		return false
	}
	if p.goSyntax() {
		if f := textMethod(t, "GoString"); f != nil {
			if s, ok := p.callText(t, v, f); ok {
				p.b.WriteString(s)
			}
			return true
		}
		return false
	}
	switch p.verb {
	case 'v', 's', 'x', 'X', 'q':
	default:
		return false
	}
	f := textMethod(t, "Error")
	if f == nil {
		f = textMethod(t, "String")
	}
	if f == nil || p.m.program() == nil {
		return false
	}
	if s, ok := p.callText(t, v, f); ok {
		p.raw(s, p.verb)
	}
	return true
}

// callText calls a text method; a panic in it is printed, as fmt does.
func (p *printer) callText(t types.Type, v any, f *types.Func) (s string, ok bool) {
	top, nest := p.m.top, p.m.nest
	s, at, halted := p.m.attemptText(&iface{t, v}, f)
	p.m.top, p.m.nest = top, nest
	switch {
	case halted != nil:
		panic(halted)
	case at == nil:
		return s, true
	case v == nil:
		p.b.WriteString("<nil>")
	default:
		fmt.Fprintf(p.b, "%%!%c(PANIC=%s method: ", p.verb, f.Name())
		inner := printer{m: p.m, b: p.b, verb: 'v', longest: p.longest}
		inner.value(at.v.t, at.v.v, 0, true)
		p.b.WriteByte(')')
	}
	return "", false
}

// attemptText calls a method func() string.
func (m *machine) attemptText(v *iface, f *types.Func) (text string, p *panicking, s *stop) {
	defer func() {
		if x := recover(); x != nil {
			p, s = m.caught(x)
		}
	}()
	text, _ = m.callMethod(m.program(), v, f, nil, nil)[0].(string)
	return text, nil, nil
}

// program is a program by which methods can be found: that of the running
// function, else the first that the run used.
func (m *machine) program() *Program {
	if m == nil {
		return nil
	}
	if m.top != nil {
		return m.top.ps.p
	}
	m.run.in.mu.Lock()
	defer m.run.in.mu.Unlock()
	return m.run.in.first
}

// methodText calls a method func() string of a value.
func (m *machine) methodText(v *iface, name string) string {
	if _, ok := v.t.(*hostDyn); ok {
		out := reflect.ValueOf(v.v).MethodByName(name).Call(nil)
		return out[0].String()
	}
	f := textMethod(v.t, name)
	p := m.program()
	if f == nil || p == nil {
		return ""
	}
	top := m.top
	out := m.callMethod(p, v, f, nil, nil)
	m.top = top
	s, _ := out[0].(string)
	return s
}
