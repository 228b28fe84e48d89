package units

import (
	_ "embed"
	"fmt"
	"math/big"
	"strconv"
	"strings"
)

//go:embed table.txt
var tableText string

// std is the table of the units that notes can use.
var std = func() *table {
	t, err := loadTable(tableText)
	if err != nil {
		panic("units: " + err.Error())
	}
	return t
}()

// table holds what the unit file says. It is not changed after loading.
type table struct {
	prefixes   []*prefix         // in the order of the file
	units      map[string]*entry // by every spelling
	order      []*entry          // in the order of the file
	named      map[named]*kindOf // by dimension and tag
	quantities []*kindOf         // the same in the order of the file
	refused    map[string]string // spelling to advice
	adaptive   map[string]*Unit  // compound units printed with a prefix, by symbol
}

// prefix is a power of ten, or of two, before a unit.
type prefix struct {
	symbol string
	also   []string
	exp    int // power of ten, where binary is false
	binary bool
	index  int // its place in the table
	factor *big.Rat
}

// entry is a unit of the table.
type entry struct {
	unit       *Unit
	also       []string
	takes      prefixSet
	definition string // as it stands in the file
	source     string
}

// prefixSet holds the prefixes that a unit takes, by their place in the table.
type prefixSet uint64

func (s prefixSet) has(p *prefix) bool { return s>>p.index&1 == 1 }

// named is the key of a quantity: its dimension and what it counts.
type named struct {
	dim Dim
	tag tag
}

// kindOf is a quantity with the unit it is printed in.
type kindOf struct {
	name string
	unit *Unit
}

// loadTable reads a unit file; errors name the line.
func loadTable(text string) (*table, error) {
	t := &table{
		units: map[string]*entry{}, named: map[named]*kindOf{}, refused: map[string]string{},
		adaptive: map[string]*Unit{},
	}
	for i, line := range strings.Split(text, "\n") {
		line, _, _ = strings.Cut(line, "#")
		if strings.TrimSpace(line) == "" {
			continue
		}
		cols := strings.Split(line, "|")
		for j := range cols {
			cols[j] = strings.TrimSpace(cols[j])
		}
		if err := t.add(cols); err != nil {
			return nil, fmt.Errorf("line %d: %w", i+1, err)
		}
	}
	return t, nil
}

func (t *table) add(cols []string) error {
	want := map[string]int{"prefix": 4, "unit": 8, "quantity": 5, "refused": 3}[cols[0]]
	switch {
	case want == 0:
		return fmt.Errorf("an entry is a prefix, unit, quantity or refused, not %q", cols[0])
	case len(cols) != want:
		return fmt.Errorf("a %s has %d columns, not %d", cols[0], want, len(cols))
	}
	switch cols[0] {
	case "prefix":
		return t.addPrefix(cols[1], cols[2], cols[3])
	case "unit":
		return t.addUnit(cols)
	case "quantity":
		return t.addQuantity(cols[1], cols[2], cols[3])
	}
	if _, twice := t.refused[cols[1]]; twice {
		return fmt.Errorf("%s is refused twice", cols[1])
	}
	if _, _, ok := t.lookup(cols[1]); ok {
		return fmt.Errorf("%s is a unit and refused", cols[1])
	}
	t.refused[cols[1]] = cols[2]
	return nil
}

func (t *table) addPrefix(symbol, also, power string) error {
	p := &prefix{symbol: symbol, also: strings.Fields(also), index: len(t.prefixes)}
	if p.index == 64 {
		return fmt.Errorf("prefix %s is one too many", symbol)
	}
	if two, ok := strings.CutPrefix(power, "2^"); ok {
		n, err := strconv.Atoi(two)
		if err != nil || n < 0 {
			return fmt.Errorf("prefix %s: bad power %q", symbol, power)
		}
		p.binary = true
		p.factor = new(big.Rat).SetInt(new(big.Int).Lsh(big.NewInt(1), uint(n)))
	} else {
		n, err := strconv.Atoi(power)
		if err != nil {
			return fmt.Errorf("prefix %s: bad power %q", symbol, power)
		}
		p.exp = n
		p.factor = ratPow10(n)
	}
	t.prefixes = append(t.prefixes, p)
	return nil
}

func (t *table) addUnit(cols []string) error {
	symbol := cols[1]
	fail := func(err error) error { return fmt.Errorf("unit %s: %w", symbol, err) }
	u := &Unit{Symbol: symbol, scale: big.NewRat(1, 1)}
	if err := t.define(u, cols[3]); err != nil {
		return fail(err)
	}
	switch cols[6] {
	case "rad":
		u.tag = tag{rad: 1}
	case "sq":
		u.tag = tag{sq: 1}
	case "bit":
		u.tag = tag{bit: 1}
	case "cycle":
		u.tag = tag{rate: cycleRate}
	case "symbol":
		u.tag = tag{rate: symbolRate}
	case "ratio":
		u.number = true
	case "", "apart":
	default:
		return fail(fmt.Errorf("unknown mark %q", cols[6]))
	}
	if cols[7] == "" {
		return fail(fmt.Errorf("no source"))
	}
	u.finish()
	e := &entry{unit: u, also: strings.Fields(cols[2]), definition: cols[3], source: cols[7]}
	var err error
	if e.takes, err = t.takes(cols[4]); err != nil {
		return fail(err)
	}
	general, bought, _ := strings.Cut(cols[5], " ")
	if u.ladder, err = t.ladder(symbol, general); err != nil {
		return fail(err)
	}
	if u.bought, err = t.ladder(symbol, strings.TrimSpace(bought)); err != nil {
		return fail(err)
	}
	u.si = t.coherent(u)
	for _, s := range append([]string{symbol}, e.also...) {
		if _, twice := t.units[s]; twice {
			return fail(fmt.Errorf("the spelling %s is taken", s))
		}
		t.units[s] = e
	}
	t.order = append(t.order, e)
	return nil
}

// define reads the definition column into u.
func (t *table) define(u *Unit, def string) error {
	words := strings.Fields(def)
	switch {
	case words[0] == "base":
		i := strings.Index("LMTIΘNJ", words[len(words)-1])
		if i < 0 || len(words) > 3 {
			return fmt.Errorf("bad base unit %q", def)
		}
		u.dim = dimOf(append(make([]int, len([]rune("LMTIΘNJ"[:i]))), 2)...)
		if len(words) == 3 {
			r, err := parseExact(words[1])
			u.scale = r
			return err
		}
		return nil
	case words[0] == "point" && len(words) == 5 && words[3] == "+":
		scale, err := parseExact(words[1])
		if err != nil {
			return err
		}
		zero, err := parseExact(words[4])
		u.scale, u.offset, u.dim = scale, zero, t.units["K"].unit.dim|Dim(PointScale)<<kindShift
		return err
	case words[0] == "gain" && len(words) == 2:
		scale, err := parseExact(words[1])
		u.scale, u.dim = scale, Dim(GainScale)<<kindShift
		return err
	case words[0] == "level" && len(words) == 4 && words[2] == "over":
		over, err := t.parseUnit(words[3])
		if err != nil {
			return err
		}
		zero, err := parseExact(words[1])
		u.offset, u.dim = zero, over.dim|Dim(LevelScale)<<kindShift
		return err
	case len(words) > 2:
		return fmt.Errorf("bad definition %q", def)
	}
	scale, err := parseExact(words[0])
	if err != nil {
		return err
	}
	u.scale = scale
	if len(words) == 2 {
		of, err := t.parseUnit(words[1])
		if err != nil {
			return err
		}
		if of.dim.Kind() != PlainScale {
			return fmt.Errorf("%s is no plain unit", words[1])
		}
		u.dim = of.dim
		u.scale = new(big.Rat).Mul(scale, of.scale)
	}
	return nil
}

// pi to 60 digits: enough for the nearest float64 of any angle.
const pi60 = "3.14159265358979323846264338327950288419716939937510582097494"

// parseExact reads a number of the table: decimal, a/b, pi or pi/a.
func parseExact(s string) (*big.Rat, error) {
	s = strings.Replace(s, "pi", pi60, 1)
	over, under, fraction := strings.Cut(s, "/")
	a, ok := new(big.Rat).SetString(over)
	if ok && fraction {
		var b *big.Rat
		b, ok = new(big.Rat).SetString(under)
		if ok = ok && b.Sign() != 0; ok {
			a.Quo(a, b)
		}
	}
	if !ok {
		return nil, fmt.Errorf("bad number %q", s)
	}
	return a, nil
}

// takes reads the column of prefixes.
func (t *table) takes(s string) (prefixSet, error) {
	var set prefixSet
	for _, p := range t.prefixes {
		if s == "SI" && !p.binary && p.exp%3 == 0 || s == "metric" && !p.binary ||
			s == "binary" && (p.binary || p.exp%3 == 0 && p.exp > 0 && p.exp <= 15) {
			set |= 1 << p.index
		}
	}
	if s == "SI" || s == "metric" || s == "binary" || s == "-" {
		return set, nil
	}
	for _, w := range strings.Fields(s) {
		p := t.prefix(w)
		if p == nil {
			return 0, fmt.Errorf("unknown prefix %q", w)
		}
		set |= 1 << p.index
	}
	return set, nil
}

func (t *table) prefix(spelling string) *prefix {
	for _, p := range t.prefixes {
		if p.symbol == spelling {
			return p
		}
		for _, s := range p.also {
			if s == spelling {
				return p
			}
		}
	}
	return nil
}

// ladder reads the range of prefixes that printing may choose.
func (t *table) ladder(symbol, s string) ([]rung, error) {
	if s == "-" || s == "" {
		return nil, nil
	}
	from, to, ok := strings.Cut(s, "..")
	exp := func(s string) int {
		if s == "1" {
			return 0
		}
		if p := t.prefix(s); p != nil && !p.binary && p.exp%3 == 0 {
			return p.exp
		}
		ok = false
		return 0
	}
	lo, hi := exp(from), exp(to)
	if !ok || lo > hi {
		return nil, fmt.Errorf("bad range of prefixes %q", s)
	}
	var rungs []rung
	for e := lo; e <= hi; e += 3 {
		r := rung{exp: e, symbol: symbol}
		for _, p := range t.prefixes {
			if e != 0 && !p.binary && p.exp == e {
				r.symbol = p.symbol + symbol
			}
		}
		rungs = append(rungs, r)
	}
	return rungs, nil
}

func (t *table) addQuantity(name, symbol, ladder string) error {
	fail := func(err error) error { return fmt.Errorf("quantity %s: %w", name, err) }
	u, err := t.parseUnit(symbol)
	if err != nil {
		return fail(err)
	}
	if e, ok := t.units[symbol]; ok {
		u = e.unit
	} else {
		if u.ladder, err = t.ladder(symbol, ladder); err != nil {
			return fail(err)
		}
		if u.ladder != nil {
			t.adaptive[u.Symbol] = u
		}
	}
	if u.Symbol != symbol {
		return fail(fmt.Errorf("the unit %s is written %s", symbol, u.Symbol))
	}
	if u.si == "" {
		u.si = t.coherent(u)
	}
	key := named{u.dim, u.tag}
	key.tag.rate = noRate
	if old, twice := t.named[key]; twice {
		return fail(fmt.Errorf("the same dimension as %s", old.name))
	}
	k := &kindOf{name, u}
	t.named[key] = k
	t.quantities = append(t.quantities, k)
	return nil
}

// lookup finds a unit symbol, which may have a prefix. The unit itself comes
// first: min is the minute, never a milli-inch.
func (t *table) lookup(s string) (*entry, *prefix, bool) {
	if e, ok := t.units[s]; ok {
		return e, nil, true
	}
	for _, p := range t.prefixes {
		for i := -1; i < len(p.also); i++ {
			spelling := p.symbol
			if i >= 0 {
				spelling = p.also[i]
			}
			if rest, ok := strings.CutPrefix(s, spelling); ok {
				if e, ok := t.units[rest]; ok && e.takes.has(p) {
					return e, p, true
				}
			}
		}
	}
	return nil, nil, false
}
