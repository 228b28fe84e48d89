package units

// value makes the quantity of d times the unit that the factors make.
func (t *table) value(d decimal, fs []factor) (Quantity, error) {
	if len(fs) == 1 && fs[0].halves == 2 && fs[0].unit.pure && !d.tooLong() {
		// The usual literal, 4.7kΩ, without building the unit kΩ.
		f := fs[0]
		shift, kept, ok := f.unit.pow10, f.unit, f.prefix == nil
		if f.prefix != nil && !f.prefix.binary && f.onLadder() {
			shift, ok = shift+f.prefix.exp, true
		}
		if ok {
			return checked(d, d.float(shift), kept, t.unlessPreferred(kept))
		}
	}
	u, err := compose(fs)
	if err != nil {
		return Quantity{}, err
	}
	return quantityOf(d, u, t.keep(u, fs))
}

// onLadder reports whether printing may choose the prefix of f.
func (f factor) onLadder() bool {
	for _, r := range f.unit.ladder {
		if r.symbol == f.symbol {
			return true
		}
	}
	return false
}

// keep returns what a value given in unit u, read as factors, remembers: the
// unit that may change its prefix where there is one, nil where it is the
// preferred one anyway.
func (t *table) keep(u *Unit, fs []factor) *Unit {
	if len(fs) == 0 {
		return nil
	}
	if len(fs) == 1 && fs[0].halves == 2 {
		if fs[0].prefix == nil || fs[0].onLadder() {
			return t.unlessPreferred(fs[0].unit)
		}
		return u
	}
	if len(fs) > 0 && fs[0].prefix != nil && !fs[0].prefix.binary {
		bare := append([]factor(nil), fs...)
		bare[0].symbol, bare[0].prefix = bare[0].unit.Symbol, nil
		if a, ok := t.adaptive[symbolOf(bare)]; ok {
			for _, r := range a.ladder {
				if r.symbol == u.Symbol {
					return t.unlessPreferred(a)
				}
			}
		}
	} else if a, ok := t.adaptive[u.Symbol]; ok {
		return t.unlessPreferred(a)
	}
	if k, ok := t.named[named{u.dim, u.tag}]; ok && k.unit.Symbol == u.Symbol {
		return t.unlessPreferred(k.unit)
	}
	return u
}

// unlessPreferred returns nil for the unit that values of this dimension are
// printed in anyway, so that arithmetic on them takes the short way.
func (t *table) unlessPreferred(u *Unit) *Unit {
	if u.tag != (tag{}) {
		return u
	}
	if k, ok := t.named[named{dim: u.dim}]; ok && k.unit == u {
		return nil
	}
	return u
}
