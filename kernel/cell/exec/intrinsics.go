package exec

import (
	"fmt"
	"io"
	"reflect"
	"sort"
)

// intrinsics are the compiled functions that the executor does itself:
// those that print look into the values of cells, those of errors walk along
// errors of cells, those of sort change slices in place.
var intrinsics map[string]intrinsic

func init() {
	intrinsics = map[string]intrinsic{
		"fmt.Print":    func(m *machine, _ *hostFunc, a []any) []any { return m.printed(m.sprint(refsOf(a[0]))) },
		"fmt.Println":  func(m *machine, _ *hostFunc, a []any) []any { return m.printed(m.sprintln(refsOf(a[0]))) },
		"fmt.Printf":   func(m *machine, _ *hostFunc, a []any) []any { return m.printed(m.sprintf(a[0].(string), refsOf(a[1]))) },
		"fmt.Sprint":   func(m *machine, _ *hostFunc, a []any) []any { return m.made(m.sprint(refsOf(a[0]))) },
		"fmt.Sprintln": func(m *machine, _ *hostFunc, a []any) []any { return m.made(m.sprintln(refsOf(a[0]))) },
		"fmt.Sprintf":  func(m *machine, _ *hostFunc, a []any) []any { return m.made(m.sprintf(a[0].(string), refsOf(a[1]))) },
		"fmt.Fprint": func(m *machine, h *hostFunc, a []any) []any {
			return m.fprint(h, a[0], m.sprint(refsOf(a[1])))
		},
		"fmt.Fprintln": func(m *machine, h *hostFunc, a []any) []any {
			return m.fprint(h, a[0], m.sprintln(refsOf(a[1])))
		},
		"fmt.Fprintf": func(m *machine, h *hostFunc, a []any) []any {
			return m.fprint(h, a[0], m.sprintf(a[1].(string), refsOf(a[2])))
		},
		"fmt.Append": func(m *machine, h *hostFunc, a []any) []any {
			return m.appended(a[0], m.sprint(refsOf(a[1])))
		},
		"fmt.Appendln": func(m *machine, h *hostFunc, a []any) []any {
			return m.appended(a[0], m.sprintln(refsOf(a[1])))
		},
		"fmt.Appendf": func(m *machine, h *hostFunc, a []any) []any {
			return m.appended(a[0], m.sprintf(a[1].(string), refsOf(a[2])))
		},
		"fmt.Errorf":    func(m *machine, h *hostFunc, a []any) []any { return m.errorf(a[0].(string), refsOf(a[1])) },
		"errors.Is":     errorsIs,
		"errors.As":     errorsAs,
		"errors.Unwrap": errorsUnwrap,
		"errors.Join":   errorsJoin,

		"sort.Slice":         sortSlice(sort.Sort),
		"sort.SliceStable":   sortSlice(sort.Stable),
		"sort.SliceIsSorted": sliceIsSorted,

		"sort.IntSlice.Len":      elementsLen,
		"sort.Float64Slice.Len":  elementsLen,
		"sort.StringSlice.Len":   elementsLen,
		"sort.IntSlice.Swap":     elementsSwap,
		"sort.Float64Slice.Swap": elementsSwap,
		"sort.StringSlice.Swap":  elementsSwap,
		"sort.IntSlice.Less": func(m *machine, _ *hostFunc, a []any) []any {
			i, j := m.two(a)
			s := a[0].([]uint64)
			return []any{truth(int64(s[i]) < int64(s[j]))}
		},
		"sort.Float64Slice.Less": func(m *machine, _ *hostFunc, a []any) []any {
			i, j := m.two(a)
			s := a[0].([]uint64)
			x, y := float(s[i]), float(s[j])
			return []any{truth(x < y || x != x && y == y)}
		},
		"sort.StringSlice.Less": func(m *machine, _ *hostFunc, a []any) []any {
			i, j := m.two(a)
			s := a[0].([]any)
			return []any{truth(s[i].(string) < s[j].(string))}
		},
	}
}

func refsOf(v any) []any {
	s, _ := v.([]any)
	return s
}

// printed writes to the run's output and gives the results of fmt.Print.
func (m *machine) printed(s string) []any {
	m.write(s)
	return []any{uint64(len(s)), nil}
}

// made counts a text against the memory limit and gives it back.
func (m *machine) made(s string) []any {
	m.count(int64(len(s)))
	return []any{s}
}

func (m *machine) appended(to any, s string) []any {
	b := make([]uint64, len(s))
	for i := range len(s) {
		b[i] = uint64(s[i])
	}
	return []any{m.appendTo(classNum, zero{}, 8, to, b)}
}

// fprint writes to a writer of the cell.
func (m *machine) fprint(h *hostFunc, w any, s string) []any {
	m.count(int64(len(s)))
	c := &conversion{m: m, p: h.p}
	to, _ := c.toGo(h.params[0], w, reflect.TypeFor[io.Writer]()).Interface().(io.Writer)
	if to == nil {
		m.top.nilPointer(m.top.pos)
	}
	n, err := io.WriteString(to, s)
	for _, back := range c.back {
		back()
	}
	if err != nil {
		return []any{uint64(n), h.p.fromInterface(reflect.ValueOf(err))}
	}
	return []any{uint64(n), nil}
}

func (m *machine) errorf(format string, args []any) []any {
	f := formatter{m: m, args: args}
	f.run(format)
	msg := f.out.String()
	m.count(int64(len(msg)) + 64)
	var err error
	switch len(f.errs) {
	case 0:
		err = fmt.Errorf("%s", msg)
	case 1:
		err = &wrapError{wrapErrors{msg, f.errs, m, m.program()}}
	default:
		err = &wrapErrors{msg, f.errs, m, m.program()}
	}
	return []any{&iface{&hostDyn{reflect.TypeOf(err)}, err}}
}

// elements sorts a slice of the executor in place.
type elements struct {
	m    *machine
	s    any
	swap func(i, j int)
	less *closure
}

func (e *elements) Len() int      { return sliceLen(e.s) }
func (e *elements) Swap(i, j int) { e.swap(i, j) }
func (e *elements) Less(i, j int) bool {
	out := e.m.callClosure(e.less, []any{uint64(i), uint64(j)}, nil, nil)
	return out[0].(uint64) != 0
}

// swapper exchanges elements that are values.
func swapper(s any) func(i, j int) {
	switch s := s.(type) {
	case []uint64:
		return reflect.Swapper(s)
	case []any:
		return func(i, j int) { s[i], s[j] = s[j], s[i] }
	}
	if s == nil {
		return func(i, j int) {}
	}
	return reflect.Swapper(s)
}

func (m *machine) elements(h *hostFunc, a []any) *elements {
	v, _ := a[0].(*iface)
	f, _ := a[1].(*closure)
	if v == nil || f == nil {
		m.top.nilPointer(m.top.pos)
	}
	e := &elements{m: m, s: v.v, less: f, swap: swapper(v.v)}
	if s, ok := v.v.([]any); ok && len(s) > 0 && h.p.identityElems(v) {
		e.swap = func(i, j int) {
			t := cloneRef(s[i])
			setRef(s[i], s[j])
			setRef(s[j], t)
		}
	}
	return e
}

func sortSlice(by func(sort.Interface)) intrinsic {
	return func(m *machine, h *hostFunc, a []any) []any {
		by(m.elements(h, a))
		return nil
	}
}

func sliceIsSorted(m *machine, h *hostFunc, a []any) []any {
	return []any{truth(sort.IsSorted(m.elements(h, a)))}
}

func elementsLen(m *machine, _ *hostFunc, a []any) []any { return []any{uint64(sliceLen(a[0]))} }

func elementsSwap(m *machine, _ *hostFunc, a []any) []any {
	i, j := m.two(a)
	swapper(a[0])(i, j)
	return nil
}

// two checks the indices of a Less or Swap.
func (m *machine) two(a []any) (i, j int) {
	x, y := a[1].(uint64), a[2].(uint64)
	n := sliceLen(a[0])
	for _, k := range []uint64{x, y} {
		if k >= uint64(n) {
			m.top.badIndex(m.top.pos, k, n, false)
		}
	}
	return int(x), int(y)
}
