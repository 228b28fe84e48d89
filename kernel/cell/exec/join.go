package exec

import (
	"ohmwright/units"
)

// Quantities returns the quantities in v, deeply, in a fixed order.
func Quantities(v Value) []units.Quantity {
	var out []units.Quantity
	j := &joiner{seen: map[any]bool{}}
	j.join = func(q units.Quantity, _ []units.Quantity) units.Quantity {
		out = append(out, q)
		return q
	}
	j.walk(v.V, nil)
	return out
}

// EachQuantity replaces the quantities in a copy of v, deeply, by what f makes
// of them.
func EachQuantity(v Value, f func(units.Quantity) units.Quantity) Value {
	v = Copy(v)
	j := &joiner{seen: map[any]bool{}}
	j.join = func(q units.Quantity, _ []units.Quantity) units.Quantity { return f(q) }
	v.V = j.walk(v.V, nil)
	return v
}

// Join makes one value of what a variable came to in several runs of the same
// program: a copy of nominal in which every quantity is what join makes of the
// nominal one and of those that stand in its place in the other runs.
// parts names what is not a quantity and yet not alike in all runs: it stays
// as it is in nominal.
func Join(nominal Value, others []Value, join func(nominal units.Quantity, others []units.Quantity) units.Quantity) (joined Value, parts []string) {
	j := &joiner{seen: map[any]bool{}, join: join}
	out := Copy(nominal)
	vs := make([]any, len(others))
	for i, o := range others {
		vs[i] = o.V
	}
	out.V = j.walk(out.V, vs)
	return out, j.parts
}

type joiner struct {
	join  func(q units.Quantity, others []units.Quantity) units.Quantity
	seen  map[any]bool
	parts []string
}

func (j *joiner) differs(what string) {
	for _, p := range j.parts {
		if p == what {
			return
		}
	}
	j.parts = append(j.parts, what)
}

// castAll gives the others in the form of T; ok is false where one has another.
func castAll[T any](others []any) ([]T, bool) {
	out := make([]T, len(others))
	for i, o := range others {
		x, ok := o.(T)
		if !ok {
			return nil, false
		}
		out[i] = x
	}
	return out, true
}

// again reports whether a piece of memory was joined already.
func (j *joiner) again(p any) bool {
	if j.seen[p] {
		return true
	}
	j.seen[p] = true
	return false
}

// walk joins v with the others in place, and returns it for forms that have
// no place.
func (j *joiner) walk(v any, others []any) any {
	switch x := v.(type) {
	case units.Quantity:
		qs, ok := castAll[units.Quantity](others)
		if !ok {
			j.differs("a value is not of one kind")
			return v
		}
		return j.join(x, qs)
	case uint64:
		for _, o := range others {
			if o != v {
				j.differs("a plain number or truth value")
				break
			}
		}
	case string:
		for _, o := range others {
			if o != v {
				j.differs("a text")
				break
			}
		}
	case []uint64:
		ys, ok := castAll[[]uint64](others)
		for i := 0; ok && i < len(ys); i++ {
			ok = len(ys[i]) == len(x)
			for k := 0; ok && k < len(x); k++ {
				ok = ys[i][k] == x[k]
			}
		}
		if !ok {
			j.differs("a list of plain numbers")
		}
	case []units.Quantity:
		if len(x) == 0 || j.again(&x[0]) {
			return v
		}
		ys, ok := castAll[[]units.Quantity](others)
		if !j.long(ok, len(x), len(ys), func(i int) int { return len(ys[i]) }) {
			return v
		}
		for k := range x {
			qs := make([]units.Quantity, len(ys))
			for i := range ys {
				qs[i] = ys[i][k]
			}
			x[k] = j.join(x[k], qs)
		}
	case []any:
		if len(x) == 0 || j.again(&x[0]) {
			return v
		}
		ys, ok := castAll[[]any](others)
		if !j.long(ok, len(x), len(ys), func(i int) int { return len(ys[i]) }) {
			return v
		}
		for k := range x {
			vs := make([]any, len(ys))
			for i := range ys {
				vs[i] = ys[i][k]
			}
			x[k] = j.walk(x[k], vs)
		}
	case *structure:
		if j.again(x) {
			return v
		}
		ys, ok := castAll[*structure](others)
		if !ok {
			j.differs("a value is missing")
			return v
		}
		ns, qs, rs := make([]any, len(ys)), make([]any, len(ys)), make([]any, len(ys))
		for i, y := range ys {
			ns[i], qs[i], rs[i] = y.n, y.q, y.r
		}
		j.walk(x.n, ns)
		j.walk(x.q, qs)
		j.walk(x.r, rs)
	case *units.Quantity:
		if x == nil || j.again(x) {
			return v
		}
		ys, ok := castAll[*units.Quantity](others)
		if !ok {
			j.differs("a value is missing")
			return v
		}
		qs := make([]units.Quantity, len(ys))
		for i, y := range ys {
			qs[i] = *y
		}
		*x = j.join(*x, qs)
	case *uint64:
		ys, ok := castAll[*uint64](others)
		for i := 0; ok && i < len(ys); i++ {
			ok = *ys[i] == *x
		}
		if !ok {
			j.differs("a plain number or truth value")
		}
	case *any:
		if j.again(x) {
			return v
		}
		ys, ok := castAll[*any](others)
		if !ok {
			j.differs("a value is missing")
			return v
		}
		vs := make([]any, len(ys))
		for i, y := range ys {
			vs[i] = *y
		}
		*x = j.walk(*x, vs)
	case *iface:
		ys, ok := castAll[*iface](others)
		for i := 0; ok && i < len(ys); i++ {
			ok = sameType(x.t, ys[i].t)
		}
		if !ok {
			j.differs("a value is not of one kind")
			return v
		}
		vs := make([]any, len(ys))
		for i, y := range ys {
			vs[i] = y.v
		}
		return &iface{x.t, j.walk(x.v, vs)}
	case *mapping:
		if j.again(x) {
			return v
		}
		ys, ok := castAll[*mapping](others)
		if !j.long(ok, x.n, len(ys), func(i int) int { return ys[i].n }) {
			return v
		}
		j.entries(x, ys)
	case *closure:
		if x == nil || j.again(x) {
			return v
		}
		ys, ok := castAll[*closure](others)
		for i := 0; ok && i < len(ys); i++ {
			ok = ys[i].fn == x.fn && len(ys[i].free) == len(x.free)
		}
		if !ok {
			j.differs("a function")
			return v
		}
		for k := range x.free {
			vs := make([]any, len(ys))
			for i, y := range ys {
				vs[i] = y.free[k]
			}
			x.free[k] = j.walk(x.free[k], vs)
		}
	}
	return v
}

// long reports whether all lists are as long as the nominal one.
func (j *joiner) long(ok bool, n, others int, length func(i int) int) bool {
	for i := 0; ok && i < others; i++ {
		ok = length(i) == n
	}
	if !ok {
		j.differs("how long a list is")
	}
	return ok
}

// entries joins the values of maps, whose keys must be alike.
func (j *joiner) entries(x *mapping, ys []*mapping) {
	own := x.entries()
	all := make([][]*entry, len(ys))
	for i, y := range ys {
		all[i] = y.entries()
	}
	for k, e := range own {
		vs := make([]any, len(ys))
		for i := range ys {
			other := all[i][k]
			a, number := e.key.(uint64)
			b, _ := other.key.(uint64)
			text, _ := e.key.(string)
			otherText, _ := other.key.(string)
			if number && a != b || text != otherText {
				j.differs("the keys of a map")
				return
			}
			vs[i] = ys[i].value(other)
		}
		x.setValue(e, j.walk(x.value(e), vs))
	}
}
