package cell

import (
	"cmp"
	"go/ast"
	"go/token"
	"go/types"
	"slices"
	"strings"
	"unicode/utf8"

	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// Surroundings is what a cell that is being typed stands among.
type Surroundings struct {
	Scope
	// Value gives the present value of a name of the note, nil if it has none,
	// and what stands beside the name in a list.
	Value func(name string) (view *View, beside string)
	// Inputs lists those of the imported note whose names stand behind a prefix,
	// in its order and as it calls them.
	Inputs func(prefix string) []string
}

// Completion is what may stand in place of the bytes Start to End of a cell.
type Completion struct {
	Start, End int
	Offers     []Offer
}

// Offer is one of these.
type Offer struct {
	Text string
	Kind Kind
	// Beside is the value of a name, the parameters of a function, what a
	// unit measures: what helps to choose.
	Beside string
}

// Kind is what an offer is, in a word for people.
type Kind string

const (
	KindQuantity Kind = "quantity"
	KindVariable Kind = "variable"
	KindConstant Kind = "constant"
	KindFunction Kind = "function"
	KindMethod   Kind = "method"
	KindField    Kind = "field"
	KindType     Kind = "type"
	KindPackage  Kind = "package"
	KindUnit     Kind = "unit"
	KindKeyword  Kind = "keyword"
	KindPath     Kind = "path" // of an import
)

// Complete offers what may stand at the offset at of a cell that is being
// typed. What is wrong elsewhere in the cell does not matter.
//
//	Vin := 24V
//	I := Vin/10k|      kΩ (resistance), kHz (frequency), kV …
//	R := Nearest(|     E3, E6, E12 …, because a series stands there
//	P := V|            Vin 24 V, Voltage …
//
// What fits the place comes first: what has the type that is asked for and,
// where the other operand or the documentation of the argument says it, the
// dimension. Then come local variables, names of the cell, of the note, and
// built-in ones.
func Complete(src string, at int, s Surroundings) Completion {
	at = clamp(src, at)
	p := pieceAt(src, at)
	nothing := Completion{Start: at, End: at}
	switch p.kind {
	case pieceComment:
		return nothing
	case pieceString:
		return completeText(src, p, at, s)
	case pieceNumber:
		return completeNumber(src, p, at, s)
	}
	return completeName(src, p.start, at, s)
}

func clamp(src string, at int) int {
	at = min(max(at, 0), len(src))
	for at > 0 && at < len(src) && !utf8.RuneStart(src[at]) {
		at--
	}
	return at
}

// completeText offers import paths inside the quotes of an import, and units
// inside those of In(Q, "mAh"), and names inside a marker of Markdown.
func completeText(src string, p piece, at int, s Surroundings) Completion {
	c := Completion{Start: p.start + 1, End: at}
	typed := src[c.Start:at]
	if sc, _ := scan(src[:p.start]); outlineOf(sc.text, 0, p.start).importing() {
		for _, path := range s.World.Paths() {
			if strings.HasPrefix(path, typed) {
				c.Offers = append(c.Offers, Offer{Text: path, Kind: KindPath})
			}
		}
		return c
	}
	d := &completer{s: s, draft: draftOf(src, p.start, p.end, madeWord(src), s.Scope)}
	if m, ok := d.markerAt(src, p, at); ok {
		return m.complete(at, s)
	}
	if call, ok := d.parent(1).(*ast.CallExpr); ok {
		if param := d.parameter(call, d.word); param != nil && param.Name() == "unit" {
			start, offered := units.OfferUnits("1" + typed)
			c.Start += max(start-1, 0)
			c.units(offered)
			return c
		}
	}
	return Completion{Start: at, End: at}
}

func (c *Completion) units(offered []units.Offered) {
	for _, u := range offered {
		c.Offers = append(c.Offers, Offer{Text: u.Text, Kind: KindUnit, Beside: u.Measures})
	}
}

// madeWord is a word that stands nowhere in a text.
func madeWord(src string) string {
	word := "cursor"
	for strings.Contains(src, word) {
		word += "_"
	}
	return word
}

func (o *outline) importing() bool {
	return o.start >= 0 && o.levels[0].first == token.IMPORT
}

// completeNumber offers units, and behind a stroke names as well.
func completeNumber(src string, p piece, at int, s Surroundings) Completion {
	start, offered := units.OfferUnits(src[p.start:at])
	c := Completion{Start: p.start + start, End: at}
	if start == 0 {
		c.Start = at
	}
	c.units(offered)
	if head := src[p.start:c.Start]; strings.HasSuffix(head, "/") || strings.HasSuffix(head, "*") {
		names := completeName(src, c.Start, at, s)
		for _, o := range names.Offers {
			if o.Kind == KindQuantity { // 12V/Rload, spelt like no unit
				c.Offers = append(c.Offers, o)
			}
		}
	}
	return c
}

// candidate is an offer with what decides about its place in the list.
type candidate struct {
	Offer
	fit   int // 0 is best
	class int // locals, the cell, the note …
	order int // within the class; names are sorted where it is the same
}

const (
	classMember = iota
	classLocal
	classCell
	classNote
	classBuiltin
	classPackage
	classType
	classGo
	classKeyword
)

// completer collects candidates for one place.
type completer struct {
	s Surroundings
	*draft
	typed string
	want  want
	list  []candidate
	seen  map[string]bool
}

// completeName offers names, fields and keywords that start with the word
// between two offsets.
func completeName(src string, start, at int, s Surroundings) Completion {
	c := &completer{s: s, typed: src[start:at], seen: map[string]bool{}}
	c.draft = draftOf(src, start, at, madeWord(src), s.Scope)
	switch {
	case c.before.names(): // the name of something new
	case c.before.last == token.PERIOD:
		if c.word != nil {
			c.want = c.wanted()
			c.members()
		}
	case c.before.last == token.LBRACE && c.before.top().switches:
		c.keywords() // case and default, nothing else
	default:
		c.want = c.wanted()
		c.keys()
		c.names()
		c.keywords()
	}
	slices.SortStableFunc(c.list, func(a, b candidate) int {
		exact := func(x candidate) int {
			if strings.HasPrefix(x.Text, c.typed) {
				return 0
			}
			return 1
		}
		return cmp.Or(cmp.Compare(exact(a), exact(b)), cmp.Compare(a.fit, b.fit), cmp.Compare(a.class, b.class),
			cmp.Compare(a.order, b.order), cmp.Compare(a.Text, b.Text))
	})
	out := Completion{Start: start, End: at}
	for _, x := range c.list {
		out.Offers = append(out.Offers, x.Offer)
	}
	return out
}

// names reports whether the name of something new is being typed.
func (o *outline) names() bool {
	if !o.sameLine {
		return false
	}
	switch o.last {
	case token.VAR, token.CONST, token.TYPE, token.FUNC, token.PACKAGE, token.GOTO:
		return o.top().statement >= 0 && o.top().first == o.last
	}
	return false
}

// add takes a candidate whose text goes on with what was typed, small and
// capital letters alike. The first of a name hides later ones.
func (c *completer) add(x candidate) {
	if c.seen[x.Text] || !c.goesOn(x.Text) {
		return
	}
	c.seen[x.Text] = true
	c.list = append(c.list, x)
}

func (c *completer) goesOn(name string) bool {
	return len(name) >= len(c.typed) && strings.EqualFold(name[:len(c.typed)], c.typed)
}

// object adds a declared name.
func (c *completer) object(name string, o types.Object, class int) { c.named(name, name, o, class) }

// named adds a name as it is to be written.
func (c *completer) named(text, name string, o types.Object, class int) {
	if c.seen[text] || !c.goesOn(text) {
		return
	}
	x := candidate{Offer: Offer{Text: text, Kind: c.kind(o), Beside: c.beside(o)}, class: class}
	var view *View
	if class == classCell || class == classNote {
		var beside string
		if view, beside = c.s.Value(name); beside != "" {
			x.Beside = beside
		}
		if o == nil && view != nil {
			x.Kind = kindOfView(view)
		}
	}
	if class == classBuiltin {
		if _, isType := o.(*types.TypeName); isType {
			x.class = classType
		}
		if view = c.constant(o); view != nil {
			x.Beside = view.Text
		}
	}
	x.fit = c.want.fit(o, view)
	x.order = seriesOrder(name)
	c.add(x)
}

// constant is the value of a built-in quantity, such as the speed of light.
func (c *completer) constant(o types.Object) *View {
	v, ok := o.(*types.Var)
	if !ok || c.kind(o) != KindQuantity {
		return nil
	}
	p, ok := c.s.World.Host(v.Pkg().Path(), v.Name())
	if !ok {
		return nil
	}
	q, ok := p.Elem().Interface().(units.Quantity)
	if !ok {
		return nil
	}
	return &View{Kind: exec.KindQuantity, Type: "Quantity", Quantity: q, Text: q.String()}
}

// seriesOrder sorts E3, E6, E12 … by their number.
func seriesOrder(name string) int {
	n := 0
	if len(name) < 2 || name[0] != 'E' {
		return 0
	}
	for _, d := range name[1:] {
		if d < '0' || d > '9' || n > 1000 {
			return 0
		}
		n = 10*n + int(d-'0')
	}
	return n
}
