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
//
// Only a definition whose value does not depend on where it stands is moved:
// one that neither changes anything nor takes from what statements change.
func (c *Checked) order() []*Error {
	where := map[types.Object]int{}
	for i, s := range c.stmts {
		for _, id := range s.defines {
			if o := c.info.Defs[id]; o != nil {
				where[o] = i
			}
		}
	}
	c.findChanged()
	uses := make([][]types.Object, len(c.stmts))
	for i, s := range c.stmts {
		uses[i] = c.needs(s.nodes()...)
	}
	c.findTied(uses)
	var errs []*Error
	state := make([]int, len(c.stmts))
	var out []*statement
	emitted := 0 // statements before this one have all run
	var visit func(i int, user *statement)
	visit = func(i int, user *statement) {
		if state[i] != 0 {
			return // done, or a circle: go/types reports it with its path
		}
		state[i] = 1
		s := c.stmts[i]
		for emitted < len(state) && state[emitted] == 2 {
			emitted++
		}
		if user != nil && i > emitted {
			if why := c.bound(s, uses[i]); why != "" {
				errs = append(errs, c.errorAt(user.start(), CodeName, s.defines[0].Name+" is used above the line that defines it, and that line cannot be moved up: "+why,
					"write this line below it"))
				return
			}
		}
		for _, o := range uses[i] {
			j, ok := where[o]
			switch {
			case !ok:
			case j == i && s.spec != nil:
				errs = append(errs, c.errorAt(s.start(), CodeCycle, o.Name()+" is used in the line that defines it", "define it in a line of its own, above"))
			case c.changed[o] && j > i:
				errs = append(errs, c.errorAt(s.start(), CodeName, o.Name()+" is used above the statements that give it its value", "write this line below them"))
			default:
				visit(j, s)
			}
		}
		out = append(out, s)
		state[i] = 2
	}
	for i := range c.stmts {
		visit(i, nil)
	}
	c.ordered = out
	for name := range c.source {
		if o := c.pkg.Scope().Lookup(name); o != nil && c.changed[o] {
			errs = append(errs, &Error{Code: CodeName, Msg: "--set " + name + ": statements change " + name + " after its definition, so setting it would have no effect",
				Hint: "set what it is computed from"})
		}
	}
	return errs
}

func (s *statement) start() token.Pos {
	if s.spec != nil {
		return s.spec.Pos()
	}
	return s.node.Pos()
}

// bound says what ties a statement to its place, "" if nothing does.
func (c *Checked) bound(s *statement, uses []types.Object) string {
	if len(s.again) > 0 {
		return "it also changes " + s.again[0].Lhs[0].(*ast.Ident).Name
	}
	for _, id := range s.defines {
		if c.changed[c.info.Defs[id]] {
			return "other statements change " + id.Name
		}
	}
	for _, o := range uses {
		if c.tied[o] {
			return "it depends on " + o.Name() + ", which statements change"
		}
	}
	return ""
}

// findChanged collects the variables of the cell that something changes after
// their definition: an assignment, a pointer to them, a method, a builtin.
func (c *Checked) findChanged() {
	c.changed = map[types.Object]bool{}
	change := func(e ast.Expr) {
		if e == nil {
			return
		}
		if id := baseOf(e); id != nil {
			if o := c.info.Uses[id]; o != nil && topLevel(o) {
				c.changed[o] = true
			}
		}
	}
	for _, s := range c.stmts {
		for _, a := range s.again {
			change(a.Lhs[0])
		}
	}
	c.eachChange(func(e ast.Expr, _ token.Pos) { change(e) })
}

// findTied collects what depends on changed variables even after its own
// definition has run: a function that reads one, a list that shares its
// elements with one. uses holds what each statement uses.
func (c *Checked) findTied(uses [][]types.Object) {
	c.tied = map[types.Object]bool{}
	for o := range c.changed {
		c.tied[o] = true
	}
	for again := true; again; {
		again = false
		for i, s := range c.stmts {
			if !slices.ContainsFunc(uses[i], func(o types.Object) bool { return c.tied[o] }) {
				continue
			}
			for _, id := range s.defines {
				o := c.info.Defs[id]
				if o == nil || c.tied[o] {
					continue
				}
				if _, plain := o.Type().Underlying().(*types.Basic); !plain {
					c.tied[o], again = true, true
				}
			}
		}
	}
}

// eachChange calls f for whatever the cell's code changes in place.
func (c *Checked) eachChange(f func(e ast.Expr, at token.Pos)) {
	for _, file := range []*ast.File{c.declFile, c.stmtFile} {
		ast.Inspect(file, func(n ast.Node) bool {
			switch x := n.(type) {
			case *ast.AssignStmt:
				if x.Tok != token.DEFINE {
					for _, l := range x.Lhs {
						f(l, l.Pos())
					}
				}
			case *ast.IncDecStmt:
				f(x.X, x.X.Pos())
			case *ast.UnaryExpr:
				if x.Op == token.AND {
					f(x.X, x.Pos())
				}
			case *ast.CallExpr:
				if b, ok := c.info.Uses[calledName(x.Fun)].(*types.Builtin); ok && len(x.Args) > 0 {
					switch b.Name() {
					case "copy", "delete", "clear":
						f(x.Args[0], x.Args[0].Pos())
					}
				}
			case *ast.SelectorExpr:
				if s := c.info.Selections[x]; s != nil && s.Kind() == types.MethodVal && c.changesReceiver(s.Obj()) && !isPointer(c.info.TypeOf(x.X)) {
					f(x.X, x.Pos())
				}
			case *ast.RangeStmt:
				if x.Tok == token.ASSIGN {
					f(x.Key, x.Pos())
					if x.Value != nil {
						f(x.Value, x.Value.Pos())
					}
				}
			}
			return true
		})
	}
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
	return o.Pkg() != nil && o.Pkg().Path() == NotePath && o.Parent() == o.Pkg().Scope()
}

// UsedBy lists the names of the note that the definition of a name uses, in
// the order of the text: those of its expression or body, and of the
// statements that change it later.
func (c *Checked) UsedBy(name string) []string {
	var list []string
	for _, n := range c.nodesOf(name) {
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

// nodesOf lists what a name is made of: its expression or body, and the
// statements that change it later.
func (c *Checked) nodesOf(name string) []ast.Node {
	var nodes []ast.Node
	for _, s := range c.stmts {
		for _, id := range s.defines {
			if id.Name == name {
				nodes = append(nodes, s.nodes()...)
			}
		}
		if s.spec == nil && c.changed[c.pkg.Scope().Lookup(name)] && c.assigns(s.node, name) {
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
	return nodes
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
