package report

import (
	"math"
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
	"ohmwright/units"
)

// named is a name that a note defines.
type named struct {
	name   string
	cell   string // its label
	id     string
	entry  *note.Entry
	leaves []leaf
}

// leaf is a value that has no parts: of a name, or of a field of one.
type leaf struct {
	name      string // "i.Peak"
	view      cell.View
	low, high *units.Quantity
}

// names lists what a note defines and shows, what is needed first.
func names(n *Note) (list []*named, at map[string]*named) {
	at = map[string]*named{}
	add := func(label, id string, e *note.Entry) {
		if e.Form == note.FormMade && e.Value.Kind == exec.KindOther {
			return // a function has no value to compare
		}
		x := &named{name: e.Name, cell: label, id: id, entry: e}
		x.leaves = leavesOf(e)
		if e.Spread != nil && len(x.leaves) == 1 {
			x.leaves[0].low, x.leaves[0].high = &e.Spread.Low, &e.Spread.High
		}
		at[e.Name] = x
	}
	for _, r := range n.Results {
		for _, it := range r.Items {
			if e, ok := it.(*note.Entry); ok {
				add(r.Label, r.ID, e)
			}
		}
	}
	for _, b := range n.borrowed() { // which may move what stands here
		add(b.Cell, b.ID, b.Entry)
	}
	for _, name := range n.order() {
		if at[name] != nil {
			list = append(list, at[name])
		}
	}
	return list, at
}

func (n *Note) borrowed() []note.Borrowed {
	if n.Order != nil {
		return n.Borrowed
	}
	return n.Note.Borrowed()
}

func (n *Note) order() []string {
	if n.Order != nil {
		return n.Order
	}
	return n.Note.Order()
}

// leavesOf lists what a value is made of, an empty list being a leaf.
func leavesOf(e *note.Entry) (list []leaf) {
	e.Value.Walk(e.Name, func(name string, v cell.View) {
		if len(v.Items) > 0 {
			return
		}
		l := leaf{name: name, view: v}
		if q, ok := v.Quantity.(units.Quantity); ok {
			if low, high, ok := q.Extremes(); ok {
				l.low, l.high = &low.Value, &high.Value
			}
		}
		list = append(list, l)
	})
	return list
}

// within is how far two numbers may be apart, relatively, and count as one:
// the last digits of another order of computing.
const within = 1e-9

func near(a, b float64) bool {
	return a == b || math.Abs(a-b) <= within*max(math.Abs(a), math.Abs(b))
}

// same reports whether two leaves say the same.
func (l leaf) same(m leaf) bool {
	p, ok := l.view.Quantity.(units.Quantity)
	q, ok2 := m.view.Quantity.(units.Quantity)
	switch {
	case ok != ok2 || l.view.Kind != m.view.Kind:
		return false
	case ok:
		return p.Dim() == q.Dim() && near(p.SI(), q.SI()) && sameLimit(l.low, m.low, p) && sameLimit(l.high, m.high, p)
	case l.view.Kind == exec.KindNumber:
		return near(l.view.Number, m.view.Number)
	}
	return l.view.Text == m.view.Text
}

// sameLimit compares limits beside the size of the value.
func sameLimit(a, b *units.Quantity, of units.Quantity) bool {
	if a == nil || b == nil {
		return a == b
	}
	return math.Abs(a.SI()-b.SI()) <= within*max(math.Abs(a.SI()), math.Abs(b.SI()), math.Abs(of.SI()))
}

func sameLeaves(a, b []leaf, from, to string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if strings.TrimPrefix(a[i].name, from) != strings.TrimPrefix(b[i].name, to) || !a[i].same(b[i]) {
			return false
		}
	}
	return true
}

// text is a value as it is shown, with its limits.
func (l leaf) text(e *note.Entry) string {
	text := strings.ReplaceAll(l.view.Text, "\n", " ")
	if q, ok := l.view.Quantity.(units.Quantity); ok {
		text = q.String()
		if t, ok := e.Text(); ok && l.name == e.Name {
			text = t
		}
	}
	if l.low != nil && !l.low.Same(*l.high) {
		text += " (" + render.Limits(*l.low, *l.high) + ")"
	}
	return text
}

// change says by how much a value moved; "" where that says nothing.
func change(a, b leaf) string {
	p, ok := a.view.Quantity.(units.Quantity)
	q, ok2 := b.view.Quantity.(units.Quantity)
	switch {
	case a.view.Kind == exec.KindNumber && b.view.Kind == exec.KindNumber:
		p, q = units.Number(a.view.Number), units.Number(b.view.Number)
	case !ok || !ok2 || p.Dim() != q.Dim():
		return ""
	}
	if near(p.SI(), q.SI()) {
		return changeOfLimits(a, b, p)
	}
	return moved(p, q)
}

// changeOfLimits says which limits of a value moved that stayed itself.
func changeOfLimits(a, b leaf, of units.Quantity) string {
	switch {
	case a.low == nil && b.low == nil:
		return ""
	case a.low == nil:
		return "has limits now"
	case b.low == nil:
		return "has no limits now"
	}
	var parts []string
	for _, side := range []struct {
		name     string
		was, now *units.Quantity
	}{{"low", a.low, b.low}, {"high", a.high, b.high}} {
		if !sameLimit(side.was, side.now, of) {
			parts = append(parts, strings.TrimSpace(side.name+" "+moved(*side.was, *side.now)))
		}
	}
	return strings.Join(parts, ", ")
}

// moved says by how much a quantity did; "" where a ratio says nothing.
func moved(p, q units.Quantity) string {
	if p.Dim().Kind() != units.PlainScale { // temperatures and levels have no ratio
		return render.Signed(units.Nominal(q).Sub(units.Nominal(p)).String()) // of two studies
	}
	if p.SI() == 0 || math.Signbit(p.SI()) != math.Signbit(q.SI()) {
		return ""
	}
	return render.Percent(q.SI()/p.SI()-1, 2)
}
