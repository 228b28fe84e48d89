package units

import (
	"sort"
	"strings"
	"unicode/utf8"
)

// Offered is a unit that may stand behind a number.
type Offered struct {
	Text     string // as it would be written: "kΩ"
	Measures string // "resistance"
}

// OfferUnits lists the units with which an unfinished literal may go on, as
// in "10k" or "62°C/", and where in it they would start. A prefix is offered
// before the units that are printed with it only: kΩ, but no kF. Behind a
// stroke only what makes a quantity with a name is offered until something is
// typed there: W behind °C/.
//
// The usual units of a prefix come first, then those in the order of the table
// of quantities, then the rest in the order of the table of units. Where the
// symbol of a unit cannot go on with what was typed, one of its other
// spellings is offered: kohm behind ko.
func OfferUnits(literal string) (start int, offers []Offered) {
	_, sign := scanSign(literal)
	if isGoPrefix(literal[sign:]) {
		return 0, nil
	}
	_, n, ok := scanDecimal(literal[sign:])
	if !ok || strings.HasSuffix(literal[:sign+n], ".") {
		return 0, nil
	}
	start = sign + n
	unit := literal[start:]
	at := 0 // where the last factor of the unit starts
	for i, r := range unit {
		if strings.ContainsRune("/·⋅*", r) {
			at = i + utf8.RuneLen(r)
		}
	}
	head, typed := unit[:at], unit[at:]
	var found []offer
	if head == "" {
		found = std.offers(typed)
	} else {
		found = std.offersBehind(head, typed)
	}
	sort.SliceStable(found, func(i, j int) bool { return found[i].rank < found[j].rank })
	seen := map[string]bool{}
	for _, o := range found {
		if !seen[o.Text] {
			seen[o.Text] = true
			offers = append(offers, o.Offered)
		}
	}
	return start + at, offers
}

// offer is a unit with its place in the list.
type offer struct {
	Offered
	rank int
	bare string // the symbol without its prefix
}

// The ranks of what is offered, each with room for an order of its own.
const (
	rankExact = iota * 1000
	rankUsual
	rankPrefixed
	rankPrefixedRest
	rankBare
	rankBareRest
)

// offers lists units that start with what was typed.
func (t *table) offers(typed string) []offer {
	var found []offer
	add := func(e *entry, p *prefix, rank int) {
		if text, ok := e.goesOn(p, typed); ok {
			if text == typed {
				rank = rankExact
			}
			found = append(found, offer{Offered{text, Quantity{d: e.unit.dim, u: e.unit}.measures()}, rank, e.unit.Symbol})
		}
	}
	for i, e := range t.order {
		order, printed := t.orderOf(e.unit)
		rank := rankBareRest + i
		if printed {
			rank = rankBare + order
		}
		add(e, nil, rank)
		if typed == "" {
			continue
		}
		for _, p := range t.prefixes {
			usual := indexOf(p.usual(), e.unit.Symbol)
			switch {
			case !e.takes.has(p):
			case usual >= 0:
				add(e, p, rankUsual+usual)
			case !e.printedWith(p):
			case printed:
				add(e, p, rankPrefixed+order)
			default:
				add(e, p, rankPrefixedRest+i)
			}
		}
	}
	return found
}

// offersBehind lists the factors that may follow head, "°C/".
func (t *table) offersBehind(head, typed string) []offer {
	whole, _, err := ScanLiteral("1" + strings.TrimRight(head, "/·⋅*"))
	if err != nil {
		return nil
	}
	var found []offer
	consider := func(tail, bare string) {
		literal := "1" + head + tail
		q, n, err := ScanLiteral(literal)
		if err != nil || n < len(literal) {
			return
		}
		k, order, named := t.nameOf(q.unit())
		switch {
		case named && strings.HasSuffix(k.unit.Symbol, "/"+bare):
			found = append(found, offer{Offered{tail, k.name}, order, bare})
		case named && q.Dim() != 0 && q.Dim() != whole.Dim(): // V/V and V/% say nothing
			found = append(found, offer{Offered{tail, k.name}, rankPrefixed + order, bare})
		case typed != "":
			found = append(found, offer{Offered{tail, q.measures()}, rankBareRest, bare})
		}
	}
	// Quantities whose unit is written with this stroke, V/√Hz, come before those
	// that have one of their own, V/A. A cell reads no brackets in a unit.
	for _, k := range t.quantities {
		if _, tail, ok := strings.Cut(k.unit.Symbol, "/"); ok && !strings.ContainsAny(tail, "(/") && strings.HasPrefix(tail, typed) {
			consider(tail, tail)
		}
	}
	for _, o := range t.offers(typed) {
		if typed != "" || o.rank < rankBareRest {
			consider(o.Text, o.bare)
		}
	}
	return found
}

// goesOn is the first way to write e with prefix p that starts with typed. A
// prefix is offered only once it has been typed.
func (e *entry) goesOn(p *prefix, typed string) (string, bool) {
	prefixes := []string{""}
	if p != nil {
		prefixes = append([]string{p.symbol}, p.also...)
	}
	for _, before := range prefixes {
		for _, s := range append([]string{e.unit.Symbol}, e.also...) {
			if text := before + s; strings.HasPrefix(text, typed) && strings.HasPrefix(typed, before) {
				return text, true
			}
		}
	}
	return "", false
}

// printedWith reports whether values are printed with prefix p before the
// unit, or whether the unit is not printed with prefixes at all but takes it.
func (e *entry) printedWith(p *prefix) bool {
	rungs := e.unit.bought
	if rungs == nil {
		rungs = e.unit.ladder
	}
	if rungs == nil || p.binary {
		return true
	}
	for _, r := range rungs {
		if r.exp == p.exp {
			return true
		}
	}
	return false
}

// nameOf finds the quantity that a unit measures and its place in the table.
func (t *table) nameOf(u *Unit) (k *kindOf, order int, ok bool) {
	key := named{u.dim, u.tag}
	key.tag.rate = noRate
	if k = t.named[key]; k == nil {
		return nil, 0, false
	}
	for i, q := range t.quantities {
		if q == k {
			return k, i, true
		}
	}
	return nil, 0, false
}

// orderOf is the place of the quantity that is printed in unit u.
func (t *table) orderOf(u *Unit) (order int, ok bool) {
	for i, k := range t.quantities {
		if k.unit == u {
			return i, true
		}
	}
	return 0, false
}

// unit is the unit that a was given in, with its scale.
func (a Quantity) unit() *Unit { return &Unit{dim: a.Dim(), tag: tagOf(a.u)} }

// measures is kindName, with a word for %, ppm and the like.
func (a Quantity) measures() string {
	if a.Dim() == 0 && a.u != nil && a.u.number {
		return "share"
	}
	return a.kindName()
}

func indexOf(list []string, s string) int {
	for i, x := range list {
		if x == s {
			return i
		}
	}
	return -1
}
