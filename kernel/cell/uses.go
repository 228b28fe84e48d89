package cell

import (
	"go/ast"
	"go/token"
)

// ErrorFor makes an error at the definition of a name.
func (p *Parsed) ErrorFor(name string, code Code, msg, hint string) *Error {
	if id := p.definition1(name); id != nil {
		return p.errorAt(id.Pos(), code, msg, hint)
	}
	return &Error{Code: code, Line: 1, Column: 1, Msg: msg, Hint: hint}
}

// ErrorAtUse makes an error at the first place where the cell uses a name.
func (p *Parsed) ErrorAtUse(name string, code Code, msg, hint string) *Error {
	var first token.Pos
	for _, f := range []*ast.File{p.declFile, p.stmtFile} {
		if f == nil {
			continue
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if id, ok := n.(*ast.Ident); ok && id.Name == name {
				at, ok1 := p.offset(id.Pos())
				was, ok2 := p.offset(first)
				if ok1 && (!ok2 || at < was) {
					first = id.Pos()
				}
			}
			return true
		})
	}
	e := p.errorAt(first, code, msg, hint)
	if e.Line == 0 {
		e.Line, e.Column = 1, 1
	}
	return e
}

// UsedBy lists the names that the definition of a name uses, in the order of
// the text: those of its expression, or of the function's body.
func (p *Parsed) UsedBy(name string) []string {
	var list []string
	seen := map[string]bool{}
	collect := func(n ast.Node) {
		ast.Inspect(n, func(n ast.Node) bool {
			switch x := n.(type) {
			case *ast.SelectorExpr:
				ast.Inspect(x.X, func(n ast.Node) bool {
					if id, ok := n.(*ast.Ident); ok && !seen[id.Name] {
						seen[id.Name] = true
						list = append(list, id.Name)
					}
					return true
				})
				return false
			case *ast.Ident:
				if !seen[x.Name] && !isMade(x.Name) {
					seen[x.Name] = true
					list = append(list, x.Name)
				}
			}
			return true
		})
	}
	for _, s := range p.stmts {
		for _, id := range s.defines {
			if id.Name == name {
				for _, v := range s.spec.Values {
					collect(v)
				}
			}
		}
		// Statements that change the name later belong to its derivation.
		if p.assigned[name] && s.spec == nil && assigns(s.node, name) {
			collect(s.node)
		}
	}
	for _, d := range p.declFile.Decls {
		if f, ok := d.(*ast.FuncDecl); ok && f.Recv == nil && f.Name.Name == name && f.Body != nil {
			collect(f.Body)
		}
	}
	return list
}

func assigns(n ast.Node, name string) bool {
	found := false
	ast.Inspect(n, func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok && id.Name == name {
			found = true
		}
		return !found
	})
	return found
}

// Suggest words the names nearest to one that is unknown, "" if none is near.
func Suggest(name string, among []string) string { return suggest(name, among) }
