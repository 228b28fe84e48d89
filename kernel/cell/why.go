package cell

import (
	"go/ast"
	"go/types"
)

// Why(x) asks the note for the derivation of a value, so x is a name of the
// note or a field of one, and the call stands by itself.

// whyOf gives what a statement asks the derivation of, "i.Peak"; "" for other
// statements.
func (c *Checked) whyOf(e ast.Expr) string {
	if e == nil {
		return ""
	}
	call, ok := ast.Unparen(e).(*ast.CallExpr)
	if !ok || !c.isBuiltin(call.Fun, "Why") || len(call.Args) != 1 {
		return ""
	}
	return c.nameOf(call.Args[0])
}

// nameOf is the text of a name of the note, with fields behind it.
func (c *Checked) nameOf(e ast.Expr) string {
	switch x := ast.Unparen(e).(type) {
	case *ast.Ident:
		if v, ok := c.info.Uses[x].(*types.Var); ok && v.Pkg() != nil && v.Pkg().Path() == NotePath && v.Parent() == v.Pkg().Scope() {
			return x.Name
		}
	case *ast.SelectorExpr:
		if name := c.nameOf(x.X); name != "" {
			if s, ok := c.info.Selections[x]; ok && s.Kind() == types.FieldVal {
				return name + "." + x.Sel.Name
			}
		}
	case *ast.CallExpr: // what the check put around a name
		if c.made[x] && len(x.Args) > 0 {
			return c.nameOf(x.Args[0])
		}
	}
	return ""
}

// isName reports whether an expression is a name of the note, and no field of one.
func (c *Checked) isName(e ast.Expr) bool {
	switch x := ast.Unparen(e).(type) {
	case *ast.Ident:
		return c.nameOf(x) != ""
	case *ast.CallExpr:
		return c.made[x] && len(x.Args) > 0 && c.isName(x.Args[0])
	}
	return false
}

// misplacedWhy refuses a Why that the note cannot answer.
func (c *Checked) misplacedWhy() []*Error {
	good := map[ast.Expr]bool{}
	for _, s := range c.stmts {
		if c.whyOf(s.value) != "" {
			good[ast.Unparen(s.value)] = true
		}
	}
	var errs []*Error
	for _, f := range []*ast.File{c.declFile, c.stmtFile} {
		ast.Inspect(f, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if ok && !good[call] && c.isBuiltin(call.Fun, "Why") {
				errs = append(errs, c.errorAt(call.Pos(), CodeRefused, "Why shows how a name of the note came about",
					"let it stand by itself at the top level of a cell, with a name or a field of one: Why(Vout)"))
			}
			return true
		})
	}
	return errs
}
