package cell

import (
	"go/ast"
	"go/token"
	"strings"
)

// A block is another note computed anew with inputs of this one:
//
//	rail := stepdown.Compute(stepdown.Inputs{Vin: supply.Vbus, Iout: 1.5A})
//
// The inputs are names of this note, rail.Vin, and stand in that one in the
// place of its own; the rest of its names are those of an import called rail.

// Block is a block that a cell computes.
type Block struct {
	Name  string // "rail"
	Of    string // what the note is imported as: "stepdown"
	Given []string
	at    int
}

// blockCall stands in every text that computes a block.
const blockCall = ".Compute("

const exampleBlock = "rail := stepdown.Compute(stepdown.Inputs{Vin: 12V})"

// blocks finds the statements that compute one, and puts the definitions of
// its inputs in their place. Without a naming nobody knows which they are.
func (p *Parsed) blocks() {
	run := p.runFunc()
	if run == nil || run.Body == nil {
		return
	}
	var list []ast.Stmt
	for _, s := range run.Body.List {
		name, of, inputs := blockIn(s)
		if name == nil || p.naming != nil && p.naming.Imports[name.Name] == "" {
			list = append(list, s)
			continue
		}
		at, _ := p.offset(name.Pos())
		b := Block{Name: name.Name, Of: of.Name, at: at}
		for _, kv := range inputs {
			b.Given = append(b.Given, kv.Key.(*ast.Ident).Name)
		}
		p.Blocks = append(p.Blocks, b)
		if p.naming == nil {
			list = append(list, s)
			continue
		}
		if name.Obj != nil { // what follows it in this text is a name of a note
			p.ofBlocks[name.Obj] = true
		}
		home := p.naming.Home
		p.kinds[home+b.Name] = token.IMPORT
		p.Defines = append(p.Defines, home+b.Name)
		p.through[home+b.Of] = true
		for _, kv := range inputs {
			key := kv.Key.(*ast.Ident)
			whole := &ast.Ident{NamePos: key.NamePos, Name: home + b.Name + "." + key.Name}
			p.widths[whole] = len(key.Name)
			list = append(list, &ast.AssignStmt{Lhs: []ast.Expr{whole}, TokPos: kv.Colon, Tok: token.DEFINE, Rhs: []ast.Expr{kv.Value}})
		}
	}
	run.Body.List = list
}

// blockIn reads x := note.Compute(note.Inputs{…}); name is nil for other statements.
func blockIn(s ast.Stmt) (name, of *ast.Ident, inputs []*ast.KeyValueExpr) {
	a, ok := s.(*ast.AssignStmt)
	if !ok || a.Tok != token.DEFINE || len(a.Lhs) != 1 || len(a.Rhs) != 1 {
		return nil, nil, nil
	}
	call, ok := ast.Unparen(a.Rhs[0]).(*ast.CallExpr)
	if !ok || len(call.Args) != 1 {
		return nil, nil, nil
	}
	lit, ok := ast.Unparen(call.Args[0]).(*ast.CompositeLit)
	if !ok || lit.Type == nil {
		return nil, nil, nil
	}
	of = selected(call.Fun, "Compute")
	if also := selected(lit.Type, "Inputs"); of == nil || also == nil || also.Name != of.Name {
		return nil, nil, nil
	}
	for _, e := range lit.Elts {
		kv, ok := e.(*ast.KeyValueExpr)
		if !ok {
			return nil, nil, nil
		}
		if _, ok := kv.Key.(*ast.Ident); !ok {
			return nil, nil, nil
		}
		inputs = append(inputs, kv)
	}
	name, _ = a.Lhs[0].(*ast.Ident)
	return name, of, inputs
}

// selected is x of x.name, nil of anything else.
func selected(e ast.Expr, name string) *ast.Ident {
	sel, ok := ast.Unparen(e).(*ast.SelectorExpr)
	if !ok || sel.Sel.Name != name {
		return nil
	}
	id, _ := sel.X.(*ast.Ident)
	return id
}

// replace takes the definitions of the inputs out that a block gives.
func (p *Parsed) replace() {
	if p.naming == nil || len(p.naming.Given) == 0 {
		return
	}
	p.Replaced = map[string]string{}
	given := func(id *ast.Ident) (string, bool) {
		name := strings.TrimPrefix(id.Name, p.naming.Home)
		return name, p.naming.Given[name] && name != id.Name
	}
	take := func(names []*ast.Ident, values []ast.Expr) bool {
		for _, id := range names {
			name, ok := given(id)
			if !ok {
				continue
			}
			if len(names) != 1 || len(values) != 1 {
				p.Replaced[name] = "shares its definition with other names"
				return false
			}
			trouble := ""
			ast.Inspect(values[0], func(n ast.Node) bool {
				id, ok := n.(*ast.Ident)
				if !ok {
					return true
				}
				if _, renamed := p.widths[id]; renamed {
					trouble = "is computed, so give what it comes from"
				}
				return true
			})
			p.Replaced[name] = trouble
			return trouble == ""
		}
		return false
	}
	run := p.runFunc()
	var list []ast.Stmt
	for _, s := range run.Body.List {
		drop := false
		switch x := s.(type) {
		case *ast.AssignStmt:
			var names []*ast.Ident
			for _, l := range x.Lhs {
				if id, ok := l.(*ast.Ident); ok && x.Tok == token.DEFINE {
					names = append(names, id)
				}
			}
			drop = take(names, x.Rhs)
		case *ast.DeclStmt:
			if g, ok := x.Decl.(*ast.GenDecl); ok {
				for _, spec := range g.Specs {
					if v, ok := spec.(*ast.ValueSpec); ok && take(v.Names, v.Values) {
						drop = len(g.Specs) == 1
						if !drop {
							p.Replaced[strings.TrimPrefix(v.Names[0].Name, p.naming.Home)] = "shares its definition with other names"
						}
					}
				}
			}
		}
		if !drop {
			list = append(list, s)
		}
	}
	run.Body.List = list
	for _, d := range p.declFile.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if name, ok := given(d.Name); ok && d.Recv == nil {
				p.Replaced[name] = "is a function"
			}
		case *ast.GenDecl:
			for _, s := range d.Specs {
				var names []*ast.Ident
				switch s := s.(type) {
				case *ast.TypeSpec:
					names = []*ast.Ident{s.Name}
				case *ast.ValueSpec:
					names = s.Names
				}
				for _, id := range names {
					if name, ok := given(id); ok {
						p.Replaced[name] = "is a " + d.Tok.String()
					}
				}
			}
		}
	}
}
