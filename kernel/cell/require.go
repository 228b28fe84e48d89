package cell

import (
	"go/ast"
	"go/token"
	"strings"

	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// quantityOf is the value of a traced expression as a quantity.
func (r *runner) quantityOf(e ast.Expr) (units.Quantity, bool) {
	e = ast.Unparen(e)
	if v, ok := r.values[e]; ok {
		switch view := viewOf(v); view.Kind {
		case exec.KindQuantity:
			return view.Quantity.(units.Quantity), true
		case exec.KindNumber:
			return units.Number(view.Number), true
		}
		return units.Quantity{}, false
	}
	if id, ok := e.(*ast.Ident); ok {
		if l, ok := r.literals[id.Name]; ok {
			return l.value, true
		}
	}
	if tv := r.info.Types[e]; tv.Value != nil {
		if view := constantView(tv); view != nil && view.Kind == exec.KindNumber {
			if view.Number == 0 {
				return units.Quantity{}, true
			}
			return units.Number(view.Number), true
		}
	}
	return units.Quantity{}, false
}

// require records a requirement with its margin.
func (r *runner) require(call exec.Call) {
	req := &Requirement{}
	if len(call.Args) > 0 {
		view := exec.Show(nil, call.Args[0])
		req.Holds = view.Text == "true"
	}
	var texts []string
	for _, a := range call.Args[1:] {
		if view := exec.Show(nil, a); view.Kind == exec.KindText {
			texts = append(texts, view.Text)
		} else {
			for _, i := range view.Items {
				texts = append(texts, i.Value.Text)
			}
		}
	}
	req.Text = strings.Join(texts, " ")
	of := r.Program
	if f := r.fset.File(call.Pos); f != nil && f.Name() != r.ID {
		of = r.env.Cell(f.Name())
	}
	var node *ast.CallExpr
	if of != nil {
		node = of.requires[call.Pos]
	}
	line := 1
	if at, ok := r.offset(call.Pos); ok {
		line = r.line(at)
	}
	if node != nil {
		cond := ast.Unparen(node.Args[0])
		there := *r
		there.Program = of
		req.Condition = there.formula(cond, r.values)
		req.Margin, req.Spread = there.margin(cond)
		if req.Text == "" {
			req.Text = of.text(cond)
		}
	}
	r.steps = append(r.steps, Step{Line: line, Require: req})
}

// margin is the distance to the limit, positive when the requirement holds.
func (r *runner) margin(cond ast.Expr) (m *units.Quantity, spread bool) {
	defer func() {
		if recover() != nil { // dimensions that do not subtract were refused by the comparison itself
			m = nil
		}
	}()
	switch x := cond.(type) {
	case *ast.BinaryExpr:
		a, ok1 := r.quantityOf(x.X)
		b, ok2 := r.quantityOf(x.Y)
		if !ok1 || !ok2 {
			return nil, false
		}
		spread = a.HasSpread() || b.HasSpread()
		switch x.Op {
		case token.LSS, token.LEQ:
			d := b.Sub(a)
			return &d, spread
		case token.GTR, token.GEQ:
			d := a.Sub(b)
			return &d, spread
		}
		return nil, spread
	case *ast.CallExpr:
		if len(x.Args) != 3 {
			return nil, false
		}
		v, ok1 := r.quantityOf(x.Args[0])
		lo, ok2 := r.quantityOf(x.Args[1])
		hi, ok3 := r.quantityOf(x.Args[2])
		if !ok1 || !ok2 || !ok3 {
			return nil, false
		}
		d := units.Min(v.Sub(lo), hi.Sub(v))
		return &d, v.HasSpread() || lo.HasSpread() || hi.HasSpread()
	}
	return nil, false
}
