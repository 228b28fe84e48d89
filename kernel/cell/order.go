package cell

import (
	"go/ast"
	"go/token"
	"go/types"
	"slices"
)

// order brings the statements into an order in which every definition stands
// before its uses, and otherwise leaves them as they were typed. What a
// statement uses is taken from the checker, so a local name or a field that is
// spelt like a definition moves nothing.
func (c *Checked) order() []*Error {
	where := map[types.Object]int{}
	for i, s := range c.stmts {
		for _, id := range s.defines {
			if o := c.info.Defs[id]; o != nil {
				where[o] = i
			}
		}
	}
	var errs []*Error
	state := make([]int, len(c.stmts))
	var out []*statement
	var visit func(i int)
	visit = func(i int) {
		if state[i] != 0 {
			return // done, or a circle: go/types reports it with its path
		}
		state[i] = 1
		s := c.stmts[i]
		var later []int
		for _, o := range c.needs(s.nodes()...) {
			j, ok := where[o]
			if !ok || j <= i {
				continue
			}
			later = append(later, j)
			if c.assigned[o.Name()] {
				at := s.node.Pos()
				if s.spec != nil {
					at = s.spec.Pos()
				}
				errs = append(errs, c.errorAt(at, CodeName, o.Name()+" is used above the statements that give it its value",
					"write this line below them"))
			}
		}
		slices.Sort(later)
		for _, j := range later {
			visit(j)
		}
		out = append(out, s)
		state[i] = 2
	}
	for i := range c.stmts {
		visit(i)
	}
	c.ordered = out
	return errs
}

// nodes are what a statement evaluates.
func (s *statement) nodes() []ast.Node {
	if s.spec == nil {
		return []ast.Node{s.node}
	}
	var list []ast.Node
	for _, v := range s.spec.Values {
		list = append(list, v)
	}
	return list
}

// needs lists the package-level objects that evaluating nodes asks for, in
// the order of the text, through the cell's own functions and methods.
func (c *Checked) needs(nodes ...ast.Node) []types.Object {
	bodies := map[types.Object]*ast.BlockStmt{}
	methods := map[string][]*ast.BlockStmt{} // by name: an interface may hold any of them
	for _, d := range c.declFile.Decls {
		f, ok := d.(*ast.FuncDecl)
		if !ok || f.Body == nil {
			continue
		}
		bodies[c.info.Defs[f.Name]] = f.Body
		if f.Recv != nil {
			methods[f.Name.Name] = append(methods[f.Name.Name], f.Body)
		}
	}
	var list []types.Object
	seen := map[types.Object]bool{}
	var collect func(n ast.Node)
	collect = func(n ast.Node) {
		ast.Inspect(n, func(n ast.Node) bool {
			id, ok := n.(*ast.Ident)
			if !ok {
				return true
			}
			o := c.info.Uses[id]
			if f, ok := o.(*types.Func); ok {
				o = f.Origin()
			}
			if o == nil || seen[o] || isMade(o.Name()) {
				return true
			}
			seen[o] = true
			if topLevel(o) {
				list = append(list, o)
			}
			if b := bodies[o]; b != nil {
				collect(b)
			} else if f, ok := o.(*types.Func); ok && f.Signature().Recv() != nil && types.IsInterface(f.Signature().Recv().Type()) {
				for _, b := range methods[o.Name()] {
					collect(b)
				}
			}
			return true
		})
	}
	for _, n := range nodes {
		collect(n)
	}
	return list
}

// topLevel reports whether an object is what a cell of the note defines.
func topLevel(o types.Object) bool {
	return o.Pkg() != nil && o.Pkg().Path() == notePath && o.Parent() == o.Pkg().Scope()
}

// UsedBy lists the names of the note that the definition of a name uses, in
// the order of the text: those of its expression or body, and of the
// statements that change it later.
func (c *Checked) UsedBy(name string) []string {
	var nodes []ast.Node
	for _, s := range c.stmts {
		for _, id := range s.defines {
			if id.Name == name {
				nodes = append(nodes, s.nodes()...)
			}
		}
		if c.assigned[name] && s.spec == nil && c.assigns(s.node, name) {
			nodes = append(nodes, s.node)
		}
	}
	for _, d := range c.declFile.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Recv == nil && d.Name.Name == name && d.Body != nil {
				nodes = append(nodes, d.Body)
			}
		case *ast.GenDecl:
			for _, sp := range d.Specs {
				if v, ok := sp.(*ast.ValueSpec); ok && d.Tok == token.CONST {
					for i, id := range v.Names {
						if id.Name == name && i < len(v.Values) {
							nodes = append(nodes, v.Values[i])
						}
					}
				}
			}
		}
	}
	var list []string
	for _, n := range nodes {
		ast.Inspect(n, func(n ast.Node) bool {
			if id, ok := n.(*ast.Ident); ok {
				o := c.info.Uses[id]
				if o != nil && topLevel(o) && !isMade(o.Name()) && o.Name() != name && !slices.Contains(list, o.Name()) {
					list = append(list, o.Name())
				}
			}
			return true
		})
	}
	return list
}

// assigns reports whether a statement names a variable of the cell.
func (c *Checked) assigns(n ast.Node, name string) bool {
	found := false
	ast.Inspect(n, func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok && id.Name == name {
			if o := c.info.Uses[id]; o != nil && topLevel(o) {
				found = true
			}
		}
		return !found
	})
	return found
}
