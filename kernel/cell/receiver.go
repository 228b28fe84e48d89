package cell

import (
	"go/ast"
	"go/token"
)

// strangers are the methods of the cell whose type another cell or a package
// defines. To go/types all of that stands in the scope of one package, and it
// looks for the declaration there and falls over.
func (p *Parsed) strangers(s Scope) []*ast.FuncDecl {
	var list []*ast.FuncDecl
	for _, d := range p.declFile.Decls {
		f, ok := d.(*ast.FuncDecl)
		if !ok || f.Recv == nil || len(f.Recv.List) == 0 {
			continue
		}
		if id := p.baseType(f.Recv.List[0].Type); id != nil && p.kinds[id.Name] == 0 && (s.Object(id.Name) != nil || s.World.Builtin(id.Name) != nil) {
			list = append(list, f)
		}
	}
	return list
}

// baseType is the name of the type of a receiver, through the cell's own
// aliases.
func (p *Parsed) baseType(e ast.Expr) *ast.Ident {
	seen := map[string]bool{}
	for {
		switch x := ast.Unparen(e).(type) {
		case *ast.StarExpr:
			e = x.X
		case *ast.IndexExpr:
			e = x.X
		case *ast.IndexListExpr:
			e = x.X
		case *ast.Ident:
			alias := p.aliasOf(x.Name)
			if alias == nil || seen[x.Name] {
				return x
			}
			seen[x.Name] = true
			e = alias
		default:
			return nil
		}
	}
}

// aliasOf is what an alias of the cell stands for, nil for anything else.
func (p *Parsed) aliasOf(name string) ast.Expr {
	for _, d := range p.declFile.Decls {
		if g, ok := d.(*ast.GenDecl); ok && g.Tok == token.TYPE {
			for _, s := range g.Specs {
				if t := s.(*ast.TypeSpec); t.Name.Name == name && t.Assign.IsValid() {
					return t.Type
				}
			}
		}
	}
	return nil
}
