package cell

import (
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"

	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// formula draws the tree of an expression as the user typed it. values holds
// what the parts were when the cell ran.
func (c *Checked) formula(e ast.Expr, values map[ast.Expr]exec.Value) *Expr {
	e = ast.Unparen(e)
	if x := c.constants[e]; x != nil {
		return x
	}
	x := c.shape(e, values)
	if v, ok := values[e]; ok && x.Kind != ExprLiteral {
		x.Value = bare(viewOf(v))
		if call, ok := e.(*ast.CallExpr); ok && !c.made[call] && (x.Text == "High" || x.Text == "Low") && len(x.Args) == 1 {
			if of, ok := values[ast.Unparen(call.Args[0])]; ok {
				x.Args[0].Value = viewOf(of) // what is drawn may be one of its limits
			}
		}
	} else if tv := c.info.Types[e]; tv.Value != nil {
		x.Value = constantView(tv)
		c.constants[e] = x
	} else if x.Kind == ExprLiteral {
		c.constants[e] = x
	}
	return x
}

// viewOf is the view of a part of a formula. Whoever draws a quantity chooses
// its digits, so its text is left out.
func viewOf(v exec.Value) *View {
	if q, ok := v.V.(units.Quantity); ok {
		return &View{Kind: exec.KindQuantity, Type: "Quantity", Quantity: q}
	}
	view := exec.Show(nil, v)
	return &view
}

// bare takes the cases out of a view: a formula shows what its parts are
// nominally, and would keep the cases of all of them alive.
func bare(v *View) *View {
	if q, ok := v.Quantity.(units.Quantity); ok && q.HasSpread() {
		v.Quantity = units.Nominal(q)
	}
	return v
}

func (c *Checked) shape(e ast.Expr, values map[ast.Expr]exec.Value) *Expr {
	sub := func(list ...ast.Expr) []*Expr {
		var out []*Expr
		for _, a := range list {
			out = append(out, c.formula(a, values))
		}
		return out
	}
	switch x := e.(type) {
	case *ast.Ident:
		if l, ok := c.literals[x.Name]; ok {
			return &Expr{Kind: ExprLiteral, Text: c.literalText(l), Value: viewOf(exec.Value{V: l.value})}
		}
		return &Expr{Kind: ExprName, Text: x.Name}
	case *ast.BasicLit:
		if x.Kind == token.STRING {
			return &Expr{Kind: ExprString, Text: x.Value}
		}
		return &Expr{Kind: ExprNumber, Text: x.Value}
	case *ast.UnaryExpr:
		switch x.Op {
		case token.SUB, token.ADD, token.NOT:
			return &Expr{Kind: ExprUnary, Text: x.Op.String(), Args: sub(x.X)}
		}
	case *ast.BinaryExpr:
		return &Expr{Kind: ExprBinary, Text: x.Op.String(), Args: sub(x.X, x.Y)}
	case *ast.CallExpr:
		if c.made[x] {
			if sel, ok := x.Fun.(*ast.SelectorExpr); ok && sel.Sel.Name == "Tolerance" {
				args := sub(x.Args...)
				term := args[0]
				for _, t := range args[1:] {
					term = &Expr{Kind: ExprBinary, Text: "±", Args: []*Expr{term, t}}
				}
				return term
			}
			return c.formula(x.Args[0], values) // a number made a quantity, or a call whose error was taken
		}
		if sel, ok := x.Fun.(*ast.SelectorExpr); ok {
			if _, method := c.info.Selections[sel]; method {
				return &Expr{Kind: ExprCall, Text: "." + sel.Sel.Name, Args: sub(append([]ast.Expr{sel.X}, x.Args...)...)}
			}
		}
		if _, ok := ast.Unparen(x.Fun).(*ast.FuncLit); ok {
			return &Expr{Kind: ExprCode, Text: c.text(x)}
		}
		return &Expr{Kind: ExprCall, Text: c.text(x.Fun), Args: sub(x.Args...)}
	case *ast.SelectorExpr:
		if id, ok := x.X.(*ast.Ident); ok {
			if _, ok := c.info.Uses[id].(*types.PkgName); ok {
				return &Expr{Kind: ExprName, Text: id.Name + "." + x.Sel.Name}
			}
		}
		return &Expr{Kind: ExprField, Text: x.Sel.Name, Args: sub(x.X)}
	case *ast.IndexExpr:
		if tv := c.info.Types[x.Index]; tv.IsValue() {
			return &Expr{Kind: ExprIndex, Args: sub(x.X, x.Index)}
		}
	case *ast.CompositeLit:
		r := &Expr{Kind: ExprRecord}
		if x.Type != nil {
			r.Text = c.text(x.Type)
		}
		for _, el := range x.Elts {
			if kv, ok := el.(*ast.KeyValueExpr); ok {
				r.Args = append(r.Args, &Expr{Kind: ExprKey, Text: c.text(kv.Key), Args: sub(kv.Value)})
			} else {
				r.Args = append(r.Args, sub(el)...)
			}
		}
		return r
	}
	return &Expr{Kind: ExprCode, Text: c.text(e)}
}

// constantView is the view of a constant, which the executor never sees.
func constantView(tv types.TypeAndValue) *View {
	switch tv.Value.Kind() {
	case constant.Bool:
		return &View{Kind: exec.KindBool, Type: "bool", Text: tv.Value.String()}
	case constant.String:
		return &View{Kind: exec.KindText, Type: "string", Text: constant.StringVal(tv.Value)}
	case constant.Int, constant.Float:
		f, _ := constant.Float64Val(tv.Value)
		return &View{Kind: exec.KindNumber, Type: "number", Number: f, Text: tv.Value.String()}
	}
	return nil
}

// isInput reports whether an expression takes nothing from other names: a
// literal, a number, a text, or a call of Range, Band, Typical, Another on such.
func (c *Checked) isInput(e ast.Expr) bool {
	input := true
	ast.Inspect(e, func(n ast.Node) bool {
		switch x := n.(type) {
		case *ast.Ident:
			if _, ok := c.literals[x.Name]; ok || isMade(x.Name) {
				return true
			}
			switch o := c.info.Uses[x].(type) {
			case *types.Func:
				if tabling(o) {
					return true
				}
				switch o.Name() {
				case "Range", "Band", "Typical", "In", "Tolerance", "Quantity", "Drift", "Normal", "Uniform", "Histogram":
					return true
				}
				input = false
			case *types.Const:
				if o.Pkg() != nil && o.Pkg() != c.pkg && o.Pkg().Path() == NotePath || o.Pkg() == c.pkg {
					input = false
				}
			case *types.TypeName, *types.Nil, *types.PkgName:
			case *types.Var:
				if !o.IsField() {
					input = false
				}
			}
		case *ast.FuncLit:
			input = false
		case *ast.BinaryExpr:
			input = false // 2*5V is a calculation, worth showing
		}
		return input
	})
	return input
}
