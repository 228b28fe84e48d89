package units

// Equal reports whether a and b are the same value, exactly. It panics with
// *Error where their dimensions differ: a voltage neither equals a current
// nor differs from it.
func (a Quantity) Equal(b Quantity) bool {
	if (a.d^b.d)&^computedMark|uint64Dim(a.u != b.u) != 0 {
		mustCompare(a, b)
	}
	if a.e != nil || b.e != nil {
		decide(a, b, " == ", func(x, y float64) bool { return x == y })
	}
	return a.v == b.v
}

// Less reports whether a is smaller than b; it panics with *Error where they
// cannot be compared.
func (a Quantity) Less(b Quantity) bool {
	if (a.d^b.d)&^computedMark|uint64Dim(a.u != b.u) != 0 {
		mustCompare(a, b)
	}
	if a.e != nil || b.e != nil {
		decide(a, b, " < ", func(x, y float64) bool { return x < y })
	}
	return a.v < b.v
}

// decide tells the study of a and b where the comparison does not come out as
// it does for the nominal values: what follows from it may be wrong there.
func decide(a, b Quantity, sign string, f func(x, y float64) bool) {
	s, _ := common(a, b)
	if s == nil {
		return
	}
	nominal := f(a.v, b.v)
	e := every(func(x []float64) float64 {
		if f(x[0], x[1]) != nominal {
			return 1
		}
		return 0
	}, a, b)
	for i, other := range e.lanes {
		if other != 0 {
			s.NoteSplit(a.String()+sign+b.String(), e.where(i))
			return
		}
	}
}

// Same reports whether a and b have the same number and dimension; it never
// panics. The unit they were given in and their spread play no part.
func (a Quantity) Same(b Quantity) bool { return a.v == b.v && a.d.Same(b.d) }

// Identical reports whether a and b are the same in all that a note shows of
// them: number, dimension, unit, and spread as given. It never panics.
func (a Quantity) Identical(b Quantity) bool {
	if !a.Same(b) || a.wild() != b.wild() || tagOf(a.u) != tagOf(b.u) || (a.e == nil) != (b.e == nil) {
		return false
	}
	if ua, ub := a.printed(), b.printed(); ua.Symbol != ub.Symbol || (ua.ladder == nil) != (ub.ladder == nil) {
		return false
	}
	return a.e.same(b.e)
}

func uint64Dim(b bool) Dim {
	if b {
		return 1
	}
	return 0
}

// mustCompare panics where a and b cannot be compared.
func mustCompare(a, b Quantity) {
	no := func(hint string) {
		refuse("cannot compare "+a.described()+" with "+b.described(), hint)
	}
	if !a.d.Same(b.d) {
		scaled := a.d.Kind() == PointScale || a.d.Kind() == LevelScale || b.d.Kind() == PointScale || b.d.Kind() == LevelScale
		switch {
		case scaled && (a.wild() || b.wild()):
			no("the constant 0 has no place on this scale: write its unit")
		case a.wild() || b.wild():
			return
		}
		no(mismatchHint(a, b))
	}
	if a.wild() || b.wild() {
		return
	}
	if hint := tagConflict(a, b); hint != "" {
		no(hint)
	}
}
