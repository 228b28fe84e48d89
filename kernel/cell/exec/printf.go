package exec

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// sprintf is fmt.Sprintf on values of interfaces (*iface or nil). The verbs,
// flags and complaints are fmt's; %w is %v.
func (m *machine) sprintf(format string, args []any) string {
	f := formatter{m: m, args: args}
	f.run(format)
	return f.out.String()
}

// formatter walks through a format.
type formatter struct {
	m     *machine
	out   strings.Builder
	args  []any
	next  int
	moved bool // an index was used: surplus arguments are not complained of
	bad   bool // the index at hand was wrong
	errs  []*iface
}

func (f *formatter) run(format string) {
	for i := 0; i < len(format); {
		if format[i] != '%' {
			j := strings.IndexByte(format[i:], '%')
			if j < 0 {
				j = len(format) - i
			}
			f.out.WriteString(format[i : i+j])
			i += j
			continue
		}
		i = f.verb(format, i+1)
		if f.m != nil {
			f.m.poll()
		}
	}
	if f.moved || f.next >= len(f.args) {
		return
	}
	f.out.WriteString("%!(EXTRA ")
	for i, a := range f.args[f.next:] {
		if i > 0 {
			f.out.WriteString(", ")
		}
		v, _ := a.(*iface)
		if v == nil {
			f.out.WriteString("<nil>")
			continue
		}
		f.out.WriteString(typeName(v.t) + "=")
		f.m.printTop(&f.out, spec{}, 'v', v)
	}
	f.out.WriteByte(')')
}

// verb prints what the verb at format[i:] asks for and returns where the
// format goes on.
func (f *formatter) verb(format string, i int) int {
	var s spec
	f.bad = false
	after := false // an index stood before the verb
flags:
	for ; i < len(format); i++ {
		switch format[i] {
		case '+', '-', '#', ' ', '0':
			s.flags += format[i : i+1]
		default:
			break flags
		}
	}
	i, after = f.index(format, i)
	switch {
	case i < len(format) && format[i] == '*':
		i++
		n, ok := f.number()
		if !ok {
			f.out.WriteString("%!(BADWIDTH)")
		} else {
			if n < 0 {
				s.flags += "-"
				n = -n
			}
			s.width = strconv.Itoa(n)
		}
		after = false
	default:
		j := i
		for i < len(format) && '0' <= format[i] && format[i] <= '9' {
			i++
		}
		s.width = format[j:i]
		if after && i > j {
			f.bad = true
		}
	}
	if i+1 <= len(format) && i < len(format) && format[i] == '.' {
		i++
		if after {
			f.bad = true
		}
		i, after = f.index(format, i)
		if i < len(format) && format[i] == '*' {
			i++
			n, ok := f.number()
			switch {
			case !ok:
				f.out.WriteString("%!(BADPREC)")
			case n >= 0:
				s.prec = "." + strconv.Itoa(n)
			}
			after = false
		} else {
			j := i
			for i < len(format) && '0' <= format[i] && format[i] <= '9' {
				i++
			}
			s.prec = "." + format[j:i]
		}
	}
	if !after {
		i, _ = f.index(format, i)
	}
	if i >= len(format) {
		f.out.WriteString("%!(NOVERB)")
		return i
	}
	verb, size := utf8.DecodeRuneInString(format[i:])
	i += size
	switch {
	case verb == '%':
		f.out.WriteByte('%')
	case f.bad:
		fmt.Fprintf(&f.out, "%%!%c(BADINDEX)", verb)
	case f.next >= len(f.args):
		fmt.Fprintf(&f.out, "%%!%c(MISSING)", verb)
	default:
		v, _ := f.args[f.next].(*iface)
		f.next++
		if verb == 'w' {
			if v != nil && f.m.hasMethod(v, "Error") {
				f.errs = append(f.errs, v)
				verb = 'v'
			}
		}
		f.m.printTop(&f.out, s, verb, v)
	}
	return i
}

// index reads an argument index like [2].
func (f *formatter) index(format string, i int) (int, bool) {
	if i >= len(format) || format[i] != '[' {
		return i, false
	}
	f.moved = true
	end := strings.IndexByte(format[i:], ']')
	if end < 0 {
		f.bad = true
		return i + 1, false
	}
	n, err := strconv.Atoi(format[i+1 : i+end])
	if err != nil || n < 1 || n > len(f.args) {
		f.bad = true
		return i + end + 1, true
	}
	f.next = n - 1
	return i + end + 1, true
}

// number takes the argument for a *.
func (f *formatter) number() (int, bool) {
	if f.next >= len(f.args) {
		return 0, false
	}
	v, _ := f.args[f.next].(*iface)
	f.next++
	if v == nil || classOf0(v.t) != classNum {
		return 0, false
	}
	k := kindOf(v.t)
	n, ok := v.v.(uint64)
	if !ok || !isInteger(k) || int64(n) > 1e6 || int64(n) < -1e6 {
		return 0, false
	}
	return int(int64(n)), true
}

// sprint is fmt.Sprint, sprintln fmt.Sprintln.
func (m *machine) sprint(args []any) string {
	var b strings.Builder
	before := false
	for i, a := range args {
		v, _ := a.(*iface)
		isText := false
		if v != nil {
			_, isText = v.v.(string)
		}
		if i > 0 && !isText && !before {
			b.WriteByte(' ')
		}
		m.printTop(&b, spec{}, 'v', v)
		before = isText
	}
	return b.String()
}

func (m *machine) sprintln(args []any) string {
	var b strings.Builder
	for i, a := range args {
		if i > 0 {
			b.WriteByte(' ')
		}
		v, _ := a.(*iface)
		m.printTop(&b, spec{}, 'v', v)
	}
	b.WriteByte('\n')
	return b.String()
}

// text is what %v prints.
func (m *machine) text(v *iface) string {
	var b strings.Builder
	m.printTop(&b, spec{}, 'v', v)
	return b.String()
}
