package exec

import (
	"go/types"
	"strconv"
	"strings"

	"ohmwright/units"
)

// View is a value in a form that faces can show.
type View struct {
	Kind     ViewKind
	Type     string  // as the user would write it: "Quantity", "[]float64", "divider.Result"
	Quantity any     // units.Quantity for KindQuantity
	Number   float64 // KindNumber (also ints)
	Text     string  // what fmt's %v prints, for every kind
	Items    []Item  // KindRecord, KindList, KindMap (in key order), at most 1000
	More     int     // items left out
}

// Item is a part of a View.
type Item struct {
	Name  string // field name, "[3]", map key as text
	Value View
}

// Walk visits a value called name and then its parts, each by the name that a
// cell gives it: "rail.Vout", "taps[2]", "limits[cold]".
func (v View) Walk(name string, visit func(name string, v View)) {
	visit(name, v)
	for _, i := range v.Items {
		part := name + "." + i.Name
		switch v.Kind {
		case KindList:
			part = name + i.Name
		case KindMap:
			part = name + "[" + i.Name + "]"
		}
		i.Value.Walk(part, visit)
	}
}

// ViewKind says what a View shows.
type ViewKind int

const (
	KindOther ViewKind = iota // functions, pointers, channels: Text only
	KindNil
	KindBool
	KindNumber
	KindText
	KindQuantity
	KindRecord
	KindList
	KindMap
)

// itemsMost bounds the parts of one view, viewMost those of a whole one.
const (
	itemsMost = 1000
	viewMost  = 20_000
	viewDepth = 20
)

// Show makes the view of a value. Methods String() string and Error() string of cell
// types are called under run (nil: not called).
func Show(run *Run, v Value) View {
	var m *machine
	if run != nil {
		m = run.machine()
		defer run.release(m)
	}
	s := &shower{m: m}
	return s.view(v.Type, v.V, 0)
}

type shower struct {
	m     *machine
	count int
}

// text is what %v prints; a fault while printing shows as its message.
func (s *shower) text(t types.Type, v any) (text string) {
	defer func() {
		if x := recover(); x != nil {
			if s.m == nil {
				panic(x)
			}
			text = "(" + s.m.fault(x).Msg + ")"
			s.m.top, s.m.stopped = nil, nil
		}
	}()
	var b strings.Builder
	if i, ok := v.(*iface); ok && types.IsInterface(t) {
		t, v = i.t, i.v
	}
	p := printer{m: s.m, b: &b, verb: 'v', longest: printMost}
	p.value(t, v, 0, true)
	return b.String()
}

func (s *shower) view(t types.Type, v any, depth int) View {
	s.count++
	if d, ok := t.(*hostDyn); ok {
		return View{Kind: KindText, Type: d.rt.String(), Text: s.text(t, v)}
	}
	w := View{Type: shortName(t), Text: s.text(t, v)}
	if q, ok := v.(units.Quantity); ok {
		w.Kind, w.Quantity = KindQuantity, q
		return w
	}
	own := s.m != nil && s.m.program() != nil && (textMethod(t, "Error") != nil || textMethod(t, "String") != nil)
	parts := func(n int, at func(i int) Item) {
		if depth >= viewDepth || s.count > viewMost {
			w.More = n
			return
		}
		for i := range min(n, itemsMost) {
			w.Items = append(w.Items, at(i))
		}
		w.More = n - len(w.Items)
	}
	switch u := t.Underlying().(type) {
	case *types.Basic:
		n, isNumber := v.(uint64)
		switch k := kindOf(t); {
		case own || !isNumber:
			w.Kind = KindText
		case k == types.Bool:
			w.Kind = KindBool
		default:
			w.Kind, w.Number = KindNumber, asFloat(k, n)
		}
	case *types.Struct:
		x, ok := v.(*structure)
		if !ok {
			w.Kind = KindText
			break
		}
		w.Kind = KindRecord
		parts(u.NumFields(), func(i int) Item {
			return Item{u.Field(i).Name(), s.view(u.Field(i).Type(), x.field(i), depth+1)}
		})
	case *types.Array:
		w.Kind = KindList
		if x, ok := v.(*structure); ok {
			parts(x.lay.len, func(i int) Item {
				return Item{"[" + strconv.Itoa(i) + "]", s.view(u.Elem(), x.field(i), depth+1)}
			})
		}
	case *types.Slice:
		w.Kind = KindList
		parts(sliceLen(v), func(i int) Item {
			return Item{"[" + strconv.Itoa(i) + "]", s.view(u.Elem(), elem(v, i), depth+1)}
		})
	case *types.Map:
		w.Kind = KindMap
		x, _ := v.(*mapping)
		es := x.entries()
		parts(len(es), func(i int) Item {
			return Item{s.text(u.Key(), es[i].key), s.view(u.Elem(), x.value(es[i]), depth+1)}
		})
	case *types.Interface:
		i, _ := v.(*iface)
		if i == nil {
			w.Kind = KindNil
			break
		}
		return s.view(i.t, i.v, depth)
	default:
		if v == nil {
			w.Kind = KindNil
		}
		if own {
			w.Kind = KindText
		}
	}
	return w
}

// shortName writes a type as the user does: names of cells stand alone, those
// of packages under the name of their package.
func shortName(t types.Type) string {
	return types.TypeString(t, func(p *types.Package) string {
		if p.Path() == unitsPath || !packagePath(p.Path()) {
			return ""
		}
		return p.Name()
	})
}

// packagePath reports whether a path is that of a compiled package: those of
// cells are single words that no package of the standard library has.
func packagePath(path string) bool {
	switch path {
	case "cell", "main", "note":
		return false
	}
	return true
}
