package inside

import (
	"go/ast"
	"go/token"
	"go/types"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
)

// Formula is a step of a function as its source has it, without numbers.
type Formula struct {
	Name    string
	Formula *cell.Expr
	When    *cell.Expr // a condition under which it is computed; nil: always
	Else    bool       // computed where When does not hold
}

// deepestHelper is how far helpers are followed.
const deepestHelper = 4

// Formulas reads what a function of lib computes, step by step, from its source
// and that of its helpers, without running it. What loops or searches has no
// formulas; none are given for a package that cannot be built here.
func (l *Library) Formulas(path, name string) []Formula {
	s, err := l.source(path)
	if err != nil {
		return nil
	}
	fn := s.pkg.Func(name)
	if fn == nil {
		return nil
	}
	r := &reader{teller: &teller{source: s, values: map[ast.Expr]exec.Value{}}, entered: map[*ast.FuncDecl]bool{}}
	if f := s.notes.body[fn.Object()]; f != nil {
		r.function(f, 0)
	}
	return r.list
}

// reader walks through functions in the order in which they compute.
type reader struct {
	*teller
	entered map[*ast.FuncDecl]bool
	list    []Formula
	when    *cell.Expr
	other   bool
}

func (r *reader) function(f *ast.FuncDecl, depth int) {
	if r.entered[f] || depth > deepestHelper {
		return
	}
	r.entered[f] = true
	r.block(f.Body.List, depth)
}

func (r *reader) block(list []ast.Stmt, depth int) {
	for _, s := range list {
		switch s := s.(type) {
		case *ast.AssignStmt:
			for _, e := range s.Rhs {
				r.expression(e, depth)
			}
		case *ast.ReturnStmt:
			for _, e := range s.Results {
				r.expression(e, depth)
			}
		case *ast.IfStmt:
			r.branch(s, depth)
		case *ast.BlockStmt:
			r.block(s.List, depth)
		}
	}
}

// branch reads both sides of a condition; one that only refuses is none.
func (r *reader) branch(s *ast.IfStmt, depth int) {
	if a, ok := s.Init.(*ast.AssignStmt); ok {
		for _, e := range a.Rhs {
			r.expression(e, depth)
		}
	}
	if refusing(s.Body) {
		if b, ok := s.Else.(*ast.BlockStmt); ok {
			r.block(b.List, depth)
		}
		return
	}
	if r.when != nil { // of a condition in a condition the formula would not tell
		return
	}
	r.when = r.draw(s.Cond, 0)
	r.block(s.Body.List, depth)
	if b, ok := s.Else.(*ast.BlockStmt); ok {
		r.other = true
		r.block(b.List, depth)
	}
	r.when, r.other = nil, false
}

// refusing reports whether a block does nothing but return an error.
func refusing(b *ast.BlockStmt) bool {
	if len(b.List) == 0 {
		return false
	}
	ret, ok := b.List[len(b.List)-1].(*ast.ReturnStmt)
	if !ok || len(ret.Results) == 0 {
		return false
	}
	id, isName := ast.Unparen(ret.Results[len(ret.Results)-1]).(*ast.Ident)
	return len(ret.Results) > 1 && (!isName || id.Name != "nil")
}

// expression enters the helpers that an expression calls and then takes down
// what it gives.
func (r *reader) expression(e ast.Expr, depth int) {
	e = ast.Unparen(e)
	if u, ok := e.(*ast.UnaryExpr); ok && u.Op == token.AND {
		e = u.X
	}
	if record, ok := e.(*ast.CompositeLit); ok {
		for _, el := range record.Elts {
			if kv, ok := el.(*ast.KeyValueExpr); ok {
				r.expression(kv.Value, depth)
			}
		}
		return
	}
	var open []ast.Node // arguments are computed before the call
	ast.Inspect(e, func(n ast.Node) bool {
		if _, ok := n.(*ast.FuncLit); ok {
			return false
		}
		if n != nil {
			open = append(open, n)
			return true
		}
		if call, ok := open[len(open)-1].(*ast.CallExpr); ok {
			if f := r.helper(call); f != nil {
				r.function(f, depth+1)
			}
		}
		open = open[:len(open)-1]
		return true
	})
	g, ok := r.notes.gives[e]
	if t := r.info.TypeOf(e); !ok || t == nil || !isQuantity(t) {
		return
	}
	f := Formula{Name: r.name(g), Formula: r.draw(e, 0), When: r.when, Else: r.other}
	if f.Formula.Kind == cell.ExprCode || f.Formula.Kind == cell.ExprName && f.Formula.Text == f.Name {
		return
	}
	r.list = append(r.list, f)
}

// helper is the function that a call calls, where its source is here and it
// does more than return one expression or say whether something is wrong.
func (r *reader) helper(call *ast.CallExpr) *ast.FuncDecl {
	var id *ast.Ident
	switch f := ast.Unparen(call.Fun).(type) {
	case *ast.Ident:
		id = f
	case *ast.SelectorExpr:
		id = f.Sel
	default:
		return nil
	}
	o, ok := r.info.Uses[id].(*types.Func)
	if !ok || refuses(o.Signature()) {
		return nil
	}
	f := r.notes.body[o]
	if f == nil || len(f.Body.List) == 1 && isQuantity(o.Signature().Results().At(0).Type()) {
		return nil
	}
	return f
}
