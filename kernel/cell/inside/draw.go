package inside

import (
	"bytes"
	"go/ast"
	"go/format"
	"go/token"
	"go/types"
	"strconv"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// operators are the methods of quantities that stand for one.
var operators = map[string]string{"Add": "+", "Sub": "-", "Mul": "*", "Div": "/", "Less": "<", "Equal": "=="}

// deepest bounds how far names are followed.
const deepest = 40

// draw makes an expression a formula, with what its parts came to.
func (t *teller) draw(e ast.Expr, depth int) *cell.Expr {
	e = ast.Unparen(e)
	x := t.shape(e, depth)
	if v, ok := t.values[e]; ok && x.Value == nil && x.Kind != cell.ExprNumber && numeric(v.Type) {
		x.Value = view(v)
	}
	return x
}

func view(v exec.Value) *cell.View {
	w := exec.Show(nil, v)
	if q, ok := w.Quantity.(units.Quantity); ok && q.HasSpread() {
		w.Quantity = units.Nominal(q)
	}
	return &w
}

func (t *teller) shape(e ast.Expr, depth int) *cell.Expr {
	if t.instead != nil {
		if x := t.instead(e, depth); x != nil {
			y := *x
			return &y
		}
	}
	if text, ok := t.constantOf(e); ok {
		return &cell.Expr{Kind: cell.ExprNumber, Text: text}
	}
	if depth > deepest {
		return t.code(e)
	}
	sub := func(list ...ast.Expr) (out []*cell.Expr) {
		for _, a := range list {
			out = append(out, t.draw(a, depth+1))
		}
		return out
	}
	switch x := e.(type) {
	case *ast.Ident:
		o := t.info.Uses[x]
		if known := t.notes.alias[o]; known != nil {
			d := t.draw(known, depth+1)
			return &cell.Expr{Kind: d.Kind, Text: d.Text, Args: d.Args, Value: d.Value}
		}
		if f := t.notes.field[o]; f != "" {
			return &cell.Expr{Kind: cell.ExprName, Text: f}
		}
		return &cell.Expr{Kind: cell.ExprName, Text: x.Name}
	case *ast.UnaryExpr:
		if x.Op == token.SUB || x.Op == token.NOT {
			return &cell.Expr{Kind: cell.ExprUnary, Text: x.Op.String(), Args: sub(x.X)}
		}
	case *ast.BinaryExpr:
		return &cell.Expr{Kind: cell.ExprBinary, Text: x.Op.String(), Args: sub(x.X, x.Y)}
	case *ast.SelectorExpr:
		if id, ok := x.X.(*ast.Ident); ok {
			if k, ok := t.info.Uses[id].(*types.PkgName); ok {
				if k.Imported().Name() == "units" {
					return &cell.Expr{Kind: cell.ExprName, Text: x.Sel.Name}
				}
				return &cell.Expr{Kind: cell.ExprName, Text: id.Name + "." + x.Sel.Name}
			}
		}
		return &cell.Expr{Kind: cell.ExprName, Text: x.Sel.Name} // what is given, or a step above
	case *ast.IndexExpr:
		return &cell.Expr{Kind: cell.ExprIndex, Args: sub(x.X, x.Index)}
	case *ast.CallExpr:
		return t.call(x, depth)
	}
	return t.code(e)
}

func (t *teller) call(x *ast.CallExpr, depth int) *cell.Expr {
	sub := func(list ...ast.Expr) (out []*cell.Expr) {
		for _, a := range list {
			out = append(out, t.draw(a, depth+1))
		}
		return out
	}
	switch f := ast.Unparen(x.Fun).(type) {
	case *ast.SelectorExpr:
		name := f.Sel.Name
		var pkg *types.PkgName
		if id, ok := f.X.(*ast.Ident); ok {
			pkg, _ = t.info.Uses[id].(*types.PkgName)
		}
		switch {
		case name == "Given" && pkg != nil && len(x.Args) == 1:
			return &cell.Expr{Kind: cell.ExprCall, Text: "given", Args: sub(x.Args...)}
		case name == "Given" && len(x.Args) == 0: // a table
			return &cell.Expr{Kind: cell.ExprCall, Text: "given", Args: sub(f.X)}
		case name == "At" && isTable(t.info.TypeOf(f.X)): // a curve is a function of what it is read at
			if curve := t.draw(f.X, depth+1); curve.Kind == cell.ExprName || curve.Kind == cell.ExprField {
				return &cell.Expr{Kind: cell.ExprCall, Text: curve.Text, Args: sub(x.Args...)}
			}
		case name == "OrZero" && len(x.Args) == 1: // what is left out counts as zero
			d := t.draw(x.Args[0], depth+1)
			d.Value = nil // that of the call
			return d
		case pkg != nil && pkg.Imported().Name() == "units":
			switch name {
			case "Number", "In":
				return t.draw(x.Args[0], depth+1)
			case "MustParse":
				if tv := t.info.Types[x.Args[0]]; tv.Value != nil {
					if text, err := strconv.Unquote(tv.Value.ExactString()); err == nil {
						if q, err := units.Parse(text); err == nil {
							return &cell.Expr{Kind: cell.ExprLiteral, Text: text, Value: &cell.View{Kind: exec.KindQuantity, Type: "Quantity", Quantity: q}}
						}
					}
				}
			case "Lanewise":
				if tv := t.info.Types[x.Args[0]]; tv.Value != nil && len(x.Args) > 3 {
					if text, err := strconv.Unquote(tv.Value.ExactString()); err == nil {
						return &cell.Expr{Kind: cell.ExprCode, Text: text}
					}
				}
			case "Solve":
				return &cell.Expr{Kind: cell.ExprCode, Text: "the solution of an equation"}
			}
			return &cell.Expr{Kind: cell.ExprCall, Text: name, Args: sub(x.Args...)}
		case pkg != nil:
			return &cell.Expr{Kind: cell.ExprCall, Text: pkg.Name() + "." + name, Args: sub(x.Args...)}
		case operators[name] != "" && len(x.Args) == 1:
			return &cell.Expr{Kind: cell.ExprBinary, Text: operators[name], Args: sub(f.X, x.Args[0])}
		case name == "Neg" && len(x.Args) == 0:
			return &cell.Expr{Kind: cell.ExprUnary, Text: "-", Args: sub(f.X)}
		}
		return &cell.Expr{Kind: cell.ExprCall, Text: name, Args: sub(x.Args...)}
	case *ast.Ident:
		if t.info.Types[f].IsType() && len(x.Args) == 1 { // a number as one of another kind
			return t.draw(x.Args[0], depth+1)
		}
		return &cell.Expr{Kind: cell.ExprCall, Text: f.Name, Args: sub(x.Args...)}
	}
	return t.code(x)
}

// code is source that has no form as a formula.
func (t *teller) code(e ast.Expr) *cell.Expr {
	t.lost = true
	var b bytes.Buffer
	if err := format.Node(&b, t.fset, e); err != nil {
		b.Reset()
		b.WriteString("…")
	}
	return &cell.Expr{Kind: cell.ExprCode, Text: b.String()}
}
