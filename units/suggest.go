package units

import (
	"sort"
	"strings"
	"unicode/utf8"

	"github.com/agext/levenshtein"
)

// unknown is the error for a symbol that is no unit.
func (t *table) unknown(name, rest string) error {
	if name == "" {
		if rest == "" {
			return &Error{"a unit is missing", "write a unit such as mV, K/W or kg*m^2"}
		}
		return &Error{quoteRune(rest) + " is no unit", "write a unit such as mV, K/W or kg*m^2"}
	}
	if advice, ok := t.refused[name]; ok {
		return &Error{"the unit " + name + " is not read", advice}
	}
	if p := t.prefix(name); p != nil {
		return &Error{name + " is a prefix without a unit", "write a unit behind it, as in " + p.likely("")}
	}
	for _, p := range t.prefixes {
		rest, ok := strings.CutPrefix(name, p.symbol)
		if e := t.units[rest]; ok && e != nil {
			switch {
			case e.unit.dim.Kind() == PointScale:
				return &Error{"the unit " + name + " is not read: " + e.unit.Symbol + " is a point on the scale and takes no prefix", "write a difference in kelvin: " + p.symbol + "K"}
			case e.unit.dim.Kind() == PlainScale && len(rest) > 1 && !p.binary:
				return &Error{"the unit " + name + " is not read: " + e.unit.Symbol + " does not take the prefix " + p.symbol, "write the number with an exponent: 1e" + itoa(p.exp) + e.unit.Symbol}
			}
		}
	}
	if near := t.nearest(name); near != "" {
		return &Error{"unknown unit " + cut(name), "did you mean " + near + "?"}
	}
	return &Error{"unknown unit " + cut(name), "units are written like V, mA, kohm, uF, degC, K/W"}
}

// usual lists the units that the prefix is most often used with, the most
// usual first: common practice.
func (p *prefix) usual() []string {
	switch {
	case p.binary:
		return []string{"bit", "B"}
	case p.symbol == "h":
		return []string{"Pa"} // of the air
	case p.exp%3 != 0:
		return []string{"m"}
	case p.symbol == "k":
		return []string{"Ω", "Hz", "V"}
	case p.exp == 6, p.exp == 9:
		return []string{"Ω", "Hz"}
	case p.exp == -6, p.exp == -9:
		return []string{"F", "H", "A"}
	case p.exp == -12:
		return []string{"F", "A"}
	}
	return []string{"V", "A"}
}

// likely shows the number with units that the prefix is often used with.
func (p *prefix) likely(number string) string {
	usual := p.usual()
	ascii := p.symbol
	if len(p.also) > 0 {
		ascii = p.also[0]
	}
	var b strings.Builder
	for i, u := range usual {
		switch {
		case i > 0 && i == len(usual)-1:
			b.WriteString(" or ")
		case i > 0:
			b.WriteString(", ")
		}
		b.WriteString(number + p.symbol + u)
		if plain := strings.Replace(ascii+u, "Ω", "ohm", 1); plain != p.symbol+u {
			b.WriteString(" (" + number + plain + ")")
		}
	}
	return b.String()
}

// nearest finds the spelling most like name, "" if none is much like it.
func (t *table) nearest(name string) string {
	length := utf8.RuneCountInString(name)
	if length > 20 {
		return ""
	}
	type candidate struct {
		distance int
		spelling string
	}
	var best []candidate
	consider := func(s string) {
		d := levenshtein.Distance(name, s, nil)
		if strings.EqualFold(name, s) {
			d = min(d, 7) // nearer than any other, mA nearer to ma than MA
		} else {
			d *= 8
		}
		best = append(best, candidate{d, s})
	}
	for _, e := range t.order {
		for _, s := range append([]string{e.unit.Symbol}, e.also...) {
			consider(s)
			for _, p := range t.prefixes {
				if e.takes.has(p) {
					consider(p.symbol + s)
				}
			}
		}
	}
	sort.SliceStable(best, func(i, j int) bool { return best[i].distance < best[j].distance })
	if best[0].distance > 16 || best[0].distance > 4*length {
		return ""
	}
	spelling := best[0].spelling
	e, p, _ := t.lookup(spelling)
	symbol := e.unit.Symbol
	if p != nil {
		symbol = p.symbol + symbol
	}
	if symbol != spelling {
		return symbol + " (" + spelling + ")"
	}
	return symbol
}

// UnitNames returns all unit symbols and their other spellings, without
// prefixes, sorted.
func UnitNames() []string {
	var names []string
	for s := range std.units {
		names = append(names, s)
	}
	sort.Strings(names)
	return names
}
