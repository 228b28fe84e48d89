package cell

import (
	"go/ast"
	"go/token"
	"go/types"
	"slices"
	"strings"

	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// want is what a place asks for.
type want struct {
	typ types.Type // nil: anything
	dim *units.Dim // nil: any
}

// fit grades a name, 0 is best: of the dimension, of the type, a function
// that gives the type, anything else.
func (w want) fit(o types.Object, view *View) int {
	if w.typ == nil {
		return 0
	}
	t := typeOf(o)
	if t == nil && view == nil {
		return w.other()
	}
	if _, isType := o.(*types.TypeName); isType {
		return w.other()
	}
	if view != nil && w.dim != nil {
		if q, ok := view.Quantity.(units.Quantity); ok && view.Kind == exec.KindQuantity {
			if q.Dim().Same(*w.dim) {
				return 0
			}
			return w.other()
		}
	}
	if t == nil {
		return w.other()
	}
	if types.AssignableTo(t, w.typ) {
		return 1
	}
	if s, ok := t.Underlying().(*types.Signature); ok && s.Results().Len() > 0 && types.AssignableTo(s.Results().At(0).Type(), w.typ) {
		return 2
	}
	return w.other()
}

// other is the grade of what does not fit.
func (w want) other() int {
	if w.typ == nil {
		return 0
	}
	return 3
}

func typeOf(o types.Object) types.Type {
	if o == nil || o.Type() == nil {
		return nil
	}
	if b, ok := o.Type().(*types.Basic); ok && b.Kind() == types.Invalid {
		return nil
	}
	return o.Type()
}

// wanted finds what the place of the word asks for.
func (c *completer) wanted() want {
	if c.word == nil {
		return want{}
	}
	var below ast.Node = c.word
	for i := 1; c.parent(i) != nil; i++ {
		switch n := c.parent(i).(type) {
		case *ast.ParenExpr, *ast.SelectorExpr:
			below = n
			continue
		case *ast.CallExpr:
			if c.made[n] && len(n.Args) == 1 { // what mending put there
				below = n
				continue
			}
			return c.argument(n, below)
		case *ast.BinaryExpr:
			return c.operand(n, below)
		case *ast.KeyValueExpr:
			if lit, ok := c.parent(i + 1).(*ast.CompositeLit); ok && n.Value == below {
				return c.value(lit, n.Key)
			}
		case *ast.ValueSpec:
			if n.Type != nil && n.Type != below {
				return want{typ: c.info.Types[n.Type].Type}
			}
		case *ast.AssignStmt:
			if len(n.Lhs) == 1 && len(n.Rhs) == 1 && n.Rhs[0] == below {
				return want{typ: c.info.Types[n.Lhs[0]].Type, dim: c.dimOf(n.Lhs[0])}
			}
		}
		break
	}
	return want{}
}

// parameter is what a call takes in the place of below, nil if that is no
// argument of it.
func (c *completer) parameter(call *ast.CallExpr, below ast.Node) *types.Var {
	s, ok := c.signature(call.Fun)
	at := slices.IndexFunc(call.Args, func(a ast.Expr) bool { return a == below })
	if !ok || at < 0 || s.Params().Len() == 0 || at >= s.Params().Len() && !s.Variadic() {
		return nil
	}
	return s.Params().At(min(at, s.Params().Len()-1))
}

// argument finds what an argument of a call should be.
func (c *completer) argument(call *ast.CallExpr, below ast.Node) want {
	p := c.parameter(call, below)
	if p == nil {
		return want{}
	}
	w := want{typ: p.Type()}
	if s, _ := c.signature(call.Fun); s.Variadic() && p == s.Params().At(s.Params().Len()-1) {
		if list, ok := p.Type().(*types.Slice); ok {
			w.typ = list.Elem()
		}
	}
	if c.made[call] { // ±: a share, or the dimension of what it stands at
		return w
	}
	o := c.called(call)
	if o == nil || o.Pkg() == nil {
		return w
	}
	if d, ok := c.s.World.Doc(o.Pkg().Path(), o.Name()); ok {
		w.dim = unitOfArgument(d.Text, p.Name())
	}
	if w.dim == nil && alike[o.Name()] {
		for _, a := range call.Args {
			if d := c.dimOf(a); d != nil && a != below {
				w.dim = d
				break
			}
		}
	}
	return w
}

// alike are the built-in functions whose arguments are of one dimension.
var alike = map[string]bool{"Within": true, "Min": true, "Max": true, "Range": true, "Band": true, "Parallel": true, "PowerSum": true}

// called is the function that a call calls, nil for a value that is one.
func (c *completer) called(call *ast.CallExpr) types.Object {
	switch f := ast.Unparen(call.Fun).(type) {
	case *ast.Ident:
		return c.info.Uses[f]
	case *ast.SelectorExpr:
		return c.info.Uses[f.Sel]
	}
	return nil
}

// operand finds what goes with the other side of an operator.
func (c *completer) operand(b *ast.BinaryExpr, below ast.Node) want {
	other := b.X
	if b.X == below {
		other = b.Y
	}
	switch b.Op {
	case token.ADD, token.SUB, token.LSS, token.LEQ, token.GTR, token.GEQ, token.EQL, token.NEQ:
		return want{typ: c.info.Types[other].Type, dim: c.dimOf(other)}
	case token.MUL, token.QUO:
		return want{typ: c.info.Types[other].Type}
	}
	return want{}
}

// value finds what a field of a composite literal takes.
func (c *completer) value(lit *ast.CompositeLit, key ast.Expr) want {
	t := c.info.Types[lit].Type
	id, ok := key.(*ast.Ident)
	if t == nil || !ok {
		return want{}
	}
	for _, f := range fieldsOf(t) {
		if f.Name() != id.Name {
			continue
		}
		w := want{typ: f.Type()}
		if named := namedOf(t); named != nil && f.Pkg() != nil {
			if d, ok := c.s.World.Doc(f.Pkg().Path(), named.Obj().Name()+"."+f.Name()); ok {
				w.dim = unitIn(d.Text)
			}
		}
		return w
	}
	return want{}
}

// dimOf is the dimension of a literal or of a name that has a value.
func (c *completer) dimOf(e ast.Expr) *units.Dim {
	id, ok := ast.Unparen(e).(*ast.Ident)
	if !ok {
		return nil
	}
	if l, ok := c.literals[id.Name]; ok {
		d := l.value.Dim()
		return &d
	}
	if view, _ := c.s.Value(id.Name); view != nil && view.Kind == exec.KindQuantity {
		if q, ok := view.Quantity.(units.Quantity); ok {
			d := q.Dim()
			return &d
		}
	}
	return nil
}

// unitOfArgument finds the unit of an argument in a doc comment: "Arguments:
// power, W, not below zero; resistance, K/W, above zero."
func unitOfArgument(doc, name string) *units.Dim {
	_, text, ok := strings.Cut(doc, "Arguments:")
	if !ok || name == "" {
		return nil
	}
	text, _, _ = strings.Cut(text, "\n\n")
	for _, part := range strings.Split(text, ";") {
		if names, rest, ok := strings.Cut(part, ","); ok {
			for _, n := range strings.Fields(names) {
				if n == name {
					return unitIn(rest)
				}
			}
		}
	}
	return nil
}

// unitIn finds the unit that stands by itself between the commas of a text:
// "voltage across the divider, V, of either sign".
func unitIn(text string) *units.Dim {
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(",;:.\n", r) }) {
		part, _, _ = strings.Cut(strings.TrimSpace(part), " (")
		if part == "no unit" {
			d := units.Number(1).Dim()
			return &d
		}
		if strings.ContainsAny(part, " 0123456789") || part == "" {
			continue
		}
		if q, err := units.Parse("1 " + part); err == nil {
			d := q.Dim()
			return &d
		}
	}
	return nil
}
