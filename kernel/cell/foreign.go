package cell

import (
	"go/ast"
	"go/token"
	"go/types"
)

// foreign refuses assignments to what other cells define.
func (c *Checked) foreign() []*Error {
	var errs []*Error
	check := func(e ast.Expr, at token.Pos) {
		for {
			switch x := ast.Unparen(e).(type) {
			case *ast.SelectorExpr:
				e = x.X
				if id, ok := x.X.(*ast.Ident); ok {
					if _, ok := c.info.Uses[id].(*types.PkgName); ok {
						errs = append(errs, c.errorAt(at, CodeForeign, c.text(x)+" belongs to package "+id.Name+" and cannot be changed", ""))
						return
					}
				}
				continue
			case *ast.IndexExpr:
				e = x.X
				continue
			case *ast.StarExpr:
				e = x.X
				continue
			case *ast.Ident:
				if l, ok := c.literals[x.Name]; ok {
					errs = append(errs, c.errorAt(at, CodeForeign, c.literalText(l)+" is a literal: it can neither be changed nor pointed to", "define a name for it first"))
					return
				}
				o := c.info.Uses[x]
				v, ok := o.(*types.Var)
				if !ok || v.IsField() {
					return
				}
				if c.isForeign(x, o) {
					errs = append(errs, c.errorAt(at, CodeForeign, x.Name+" belongs to "+c.scope.Owner(x.Name)+", and only that cell may change it",
						"define a new name here, or change the definition there"))
				} else if v.Pkg() != nil && v.Pkg() != c.pkg && v.Pkg().Path() != NotePath {
					errs = append(errs, c.errorAt(at, CodeForeign, x.Name+" is built in and cannot be changed", "define a name of your own"))
				}
			}
			return
		}
	}
	c.eachChange(check)
	return errs
}

// calledName is the name that a call calls, nil if it is no plain name.
func calledName(fun ast.Expr) *ast.Ident {
	id, _ := ast.Unparen(fun).(*ast.Ident)
	return id
}

// changesReceiver reports whether a method of the note has a pointer receiver
// and stores through it.
func (c *Checked) changesReceiver(o types.Object) bool {
	f, ok := o.(*types.Func)
	if !ok {
		return false
	}
	f = f.Origin()
	if r := f.Signature().Recv(); r == nil || !isPointer(r.Type()) {
		return false
	}
	in := c
	if f.Pkg() != c.pkg && c.scope.Cell != nil {
		in = c.scope.Cell(f.Pkg())
	}
	if in == nil {
		return false
	}
	for _, d := range in.declFile.Decls {
		m, ok := d.(*ast.FuncDecl)
		if !ok || in.info.Defs[m.Name] != f || m.Body == nil || len(m.Recv.List[0].Names) == 0 {
			continue
		}
		self := in.info.Defs[m.Recv.List[0].Names[0]]
		found := false
		stores := func(e ast.Expr) {
			if id := baseOf(e); id != nil && in.info.Uses[id] == self {
				found = true
			}
		}
		ast.Inspect(m.Body, func(n ast.Node) bool {
			switch x := n.(type) {
			case *ast.AssignStmt:
				for _, l := range x.Lhs {
					if _, plain := l.(*ast.Ident); !plain {
						stores(l)
					}
				}
			case *ast.IncDecStmt:
				stores(x.X)
			}
			return !found
		})
		return found
	}
	return false
}

// baseOf is the name at the start of a chain of selections and indices.
func baseOf(e ast.Expr) *ast.Ident {
	for {
		switch x := ast.Unparen(e).(type) {
		case *ast.Ident:
			return x
		case *ast.SelectorExpr:
			e = x.X
		case *ast.IndexExpr:
			e = x.X
		case *ast.StarExpr:
			e = x.X
		default:
			return nil
		}
	}
}

// isForeign reports whether an identifier means what another cell defines.
func (c *Checked) isForeign(id *ast.Ident, o types.Object) bool {
	return o != nil && o.Pkg() != nil && o.Pkg() != c.pkg && o.Pkg().Path() == NotePath && o.Parent() == o.Pkg().Scope()
}
