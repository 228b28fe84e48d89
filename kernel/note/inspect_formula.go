package note

import (
	"go/ast"
	"go/token"
	"strconv"

	"ohmwright/kernel/cell"
)

// operators are the methods of quantities that stand for one.
var operators = map[string]string{"Add": "+", "Sub": "-", "Mul": "*", "Div": "/", "Less": "<", "Equal": "=="}

// expr is a Go expression as a formula.
func (r *stepReader) expr(e ast.Expr, depth int) *cell.Expr {
	if depth > 50 {
		r.failed = true
	}
	if r.failed {
		return &cell.Expr{}
	}
	sub := func(list ...ast.Expr) (out []*cell.Expr) {
		for _, a := range list {
			out = append(out, r.expr(a, depth+1))
		}
		return out
	}
	switch x := e.(type) {
	case *ast.Ident:
		if known := r.names[x.Name]; known != nil {
			return known
		}
		return &cell.Expr{Kind: cell.ExprName, Text: x.Name}
	case *ast.BasicLit:
		if x.Kind == token.INT || x.Kind == token.FLOAT {
			return &cell.Expr{Kind: cell.ExprNumber, Text: x.Value}
		}
	case *ast.ParenExpr:
		return r.expr(x.X, depth+1)
	case *ast.UnaryExpr:
		if x.Op == token.SUB || x.Op == token.NOT {
			return &cell.Expr{Kind: cell.ExprUnary, Text: x.Op.String(), Args: sub(x.X)}
		}
	case *ast.BinaryExpr:
		return &cell.Expr{Kind: cell.ExprBinary, Text: x.Op.String(), Args: sub(x.X, x.Y)}
	case *ast.SelectorExpr:
		if id, ok := x.X.(*ast.Ident); ok {
			switch {
			case id.Name == r.inputs, id.Name == "units":
				return &cell.Expr{Kind: cell.ExprName, Text: x.Sel.Name}
			case id.Name == "math":
				return &cell.Expr{Kind: cell.ExprName, Text: "math." + x.Sel.Name}
			}
		}
		return &cell.Expr{Kind: cell.ExprField, Text: x.Sel.Name, Args: sub(x.X)}
	case *ast.CallExpr:
		return r.call(x, depth)
	}
	r.failed = true
	return &cell.Expr{}
}

func (r *stepReader) call(x *ast.CallExpr, depth int) *cell.Expr {
	args := func() (out []*cell.Expr) {
		for _, a := range x.Args {
			out = append(out, r.expr(a, depth+1))
		}
		return out
	}
	switch f := x.Fun.(type) {
	case *ast.SelectorExpr:
		pkg, _ := f.X.(*ast.Ident)
		switch name := f.Sel.Name; {
		case name == "OrZero" && len(x.Args) == 1, // what is left out counts as zero
			pkg != nil && pkg.Name == "units" && (name == "Number" || name == "In") && len(x.Args) > 0:
			return r.expr(x.Args[0], depth+1)
		case pkg != nil && pkg.Name == "units" && name == "MustParse" && len(x.Args) == 1:
			if lit, ok := x.Args[0].(*ast.BasicLit); ok {
				if text, err := strconv.Unquote(lit.Value); err == nil {
					return &cell.Expr{Kind: cell.ExprLiteral, Text: text}
				}
			}
		case pkg != nil && (pkg.Name == "units" || pkg.Name == "math"):
			text := name
			if pkg.Name == "math" {
				text = "math." + name
			}
			return &cell.Expr{Kind: cell.ExprCall, Text: text, Args: args()}
		case pkg != nil && pkg.Name == "argument" && name == "Given" && len(x.Args) == 1:
			return &cell.Expr{Kind: cell.ExprCall, Text: "given", Args: args()}
		case operators[name] != "" && len(x.Args) == 1:
			return &cell.Expr{Kind: cell.ExprBinary, Text: operators[name], Args: []*cell.Expr{r.expr(f.X, depth+1), r.expr(x.Args[0], depth+1)}}
		case name == "Neg" && len(x.Args) == 0:
			return &cell.Expr{Kind: cell.ExprUnary, Text: "-", Args: []*cell.Expr{r.expr(f.X, depth+1)}}
		case name == "Given" && len(x.Args) == 0: // a table
			return &cell.Expr{Kind: cell.ExprCall, Text: "given", Args: []*cell.Expr{r.expr(f.X, depth+1)}}
		case name == "At": // a curve is a function of what it is read at
			if curve := r.expr(f.X, depth+1); curve.Kind == cell.ExprName {
				return &cell.Expr{Kind: cell.ExprCall, Text: curve.Text, Args: args()}
			}
		}
	case *ast.Ident:
		if f.Name == "float64" && len(x.Args) == 1 {
			return r.expr(x.Args[0], depth+1)
		}
		// A helper of one line is written out.
		if h := r.pkg.funcs[f.Name]; h != nil && h.Body != nil && len(h.Body.List) == 1 {
			if ret, ok := h.Body.List[0].(*ast.ReturnStmt); ok && len(ret.Results) == 1 {
				inner := &stepReader{pkg: r.pkg, names: map[string]*cell.Expr{}}
				values := args()
				i := 0
				for _, p := range h.Type.Params.List {
					for _, id := range p.Names {
						if i < len(values) {
							inner.names[id.Name] = values[i]
						}
						i++
					}
				}
				e := inner.expr(ret.Results[0], depth+1)
				r.failed = r.failed || i != len(values)
				if !inner.failed {
					return e
				}
			}
		}
		if r.pkg.funcs[f.Name] != nil { // a longer one stands by its name
			return &cell.Expr{Kind: cell.ExprCall, Text: f.Name, Args: args()}
		}
	}
	r.failed = true
	return &cell.Expr{}
}
