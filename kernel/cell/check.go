package cell

import (
	"go/ast"
	"go/token"
	"go/types"
	"slices"
	"sort"
	"strconv"
	"strings"

	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/cell/host/allow"
)

// Scope is what a cell sees of the other cells.
type Scope struct {
	World *host.World
	// Object gives the object of a name that another cell defines, nil if none does.
	Object func(name string) types.Object
	// Owner names the cell that defines it: "cell 3".
	Owner func(name string) string
	// Cell finds the cell of a package that an object came from.
	Cell func(*types.Package) *Checked
	// Names lists what the other cells define, for suggestions.
	Names func() []string
	// Unread says of an imported note which cell of it cannot be read, "" if all can.
	Unread func(prefix string) string
	// Naming says what names are called in a cell that is being typed; a cell
	// that is checked was read with its own.
	Naming *Naming
}

// Checked is a cell that go/types has accepted.
type Checked struct {
	*Parsed
	pkg        *types.Package
	literalPkg *types.Package
	info       *types.Info
	quantity   types.Type
	scope      Scope
	// Uses holds the names of other cells that the cell really uses.
	Uses    []string
	ordered []*statement          // in the order in which they run
	changed map[types.Object]bool // variables of the cell that statements change
	tied    map[types.Object]bool // those, and what reads them later
	Notices []Located
	// constants keeps the drawn parts that are the same in every run.
	constants map[ast.Expr]*Expr
}

// Located is a notice with its line.
type Located struct {
	Text string
	Line int
}

// Object gives the object of a name that the cell defines.
func (c *Checked) Object(name string) types.Object { return c.pkg.Scope().Lookup(name) }

// Packages are the packages that stand for the cell: its own, and that of its literals.
func (c *Checked) Packages() []*types.Package { return []*types.Package{c.pkg, c.literalPkg} }

// NotePath is the path of the packages that the cells of a note are checked as.
const NotePath = "note"

const (
	literalPath = "note/literals"
	mustName    = reserved + "m"
	mustText    = "package note; func " + mustName + "[T any](v T, err error) T { if err != nil { panic(err) }; return v }"
	goIs        = "go1.26"
)

var sizes = types.SizesFor("gc", "amd64")

// Check type-checks the cell. A plain number beside a quantity and a result
// with an error used as one value are mended and checked again.
func (p *Parsed) Check(s Scope) (*Checked, []*Error) {
	if errs := p.definable(s); len(errs) > 0 {
		return nil, errs
	}
	for round := 0; ; round++ {
		c, raw := p.checkOnce(s)
		raw = c.ownFields(raw)
		mended := false
		if round < 20 {
			mended = c.mend(raw)
		}
		if mended {
			continue
		}
		if errs := c.foreign(); len(errs) > 0 {
			return nil, p.tidy(errs)
		}
		if len(raw) > 0 {
			return nil, p.tidy(c.reword(raw))
		}
		if errs := c.rulesOfTypes(); len(errs) > 0 {
			return nil, p.tidy(errs)
		}
		if errs := c.order(); len(errs) > 0 {
			return nil, p.tidy(errs)
		}
		c.findRealUses()
		c.notice()
		return c, nil
	}
}

// ownFields drops the complaint that a literal without field names sets
// hidden fields, where the type comes from another cell: to go/types that is
// another package, to the user it is the same note.
func (c *Checked) ownFields(raw []types.Error) []types.Error {
	const hidden = "implicit assignment to unexported field"
	some := func(e types.Error) bool { return strings.HasPrefix(e.Msg, hidden) }
	if !slices.ContainsFunc(raw, some) {
		return raw
	}
	own := map[token.Pos]bool{}
	for _, f := range []*ast.File{c.declFile, c.stmtFile} {
		ast.Inspect(f, func(n ast.Node) bool {
			lit, ok := n.(*ast.CompositeLit)
			if !ok {
				return true
			}
			t := c.info.Types[lit].Type
			if t == nil {
				return true
			}
			if p, ok := t.Underlying().(*types.Pointer); ok {
				t = p.Elem()
			}
			if s, ok := t.Underlying().(*types.Struct); ok {
				for i, e := range lit.Elts {
					if i < s.NumFields() && s.Field(i).Pkg() != nil && s.Field(i).Pkg().Path() == NotePath {
						own[e.Pos()] = true
					}
				}
			}
			return true
		})
	}
	return slices.DeleteFunc(raw, func(e types.Error) bool { return some(e) && own[e.Pos] })
}

// definable refuses names that are taken by the language or a package.
func (p *Parsed) definable(s Scope) []*Error {
	var errs []*Error
	for _, path := range p.imports {
		if r := s.World.Allowed(path); r != nil {
			e := p.at(max(strings.Index(p.Src, strconv.Quote(path)), 0))
			e.Code, e.Msg, e.Hint = CodeRefused, r.Msg, r.Hint
			errs = append(errs, e)
		}
	}
	for _, name := range p.Defines {
		what := ""
		if types.Universe.Lookup(name) != nil {
			what = "Go's own"
		} else if k := s.World.Package(name); k != nil && !allow.Yields(k.Path()) {
			what = "a package"
		}
		if what == "" {
			continue
		}
		errs = append(errs, p.ErrorFor(name, CodeName, name+" is "+what+", and a note cannot define it", "choose another name"))
	}
	for _, f := range p.strangers(s) {
		id := p.baseType(f.Recv.List[0].Type)
		errs = append(errs, p.errorAt(f.Name.Pos(), CodeForeign, f.Name.Name+" is a method of "+id.Name+", which this cell does not define",
			"write it in the cell that defines the type, or write a function"))
	}
	return p.tidy(errs)
}

// definingIdent finds the identifier that defines a name.
func (p *Parsed) definingIdent(name string) *ast.Ident {
	for _, s := range p.stmts {
		for _, id := range s.defines {
			if id.Name == name {
				return id
			}
		}
	}
	for _, d := range p.declFile.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Recv == nil && d.Name.Name == name {
				return d.Name
			}
		case *ast.GenDecl:
			for _, s := range d.Specs {
				switch s := s.(type) {
				case *ast.TypeSpec:
					if s.Name.Name == name {
						return s.Name
					}
				case *ast.ValueSpec:
					for _, id := range s.Names {
						if id.Name == name {
							return id
						}
					}
				}
			}
		}
	}
	return nil
}

// checkOnce runs go/types over the cell in a fresh package.
func (p *Parsed) checkOnce(s Scope) (*Checked, []types.Error) {
	c := &Checked{Parsed: p, scope: s, quantity: s.World.Quantity(), constants: map[ast.Expr]*Expr{}}
	c.pkg = types.NewPackage(NotePath, NotePath)
	scope := c.pkg.Scope()
	packages := map[string]string{}
	for _, name := range p.Uses {
		if path, ok := p.imports[name]; ok {
			packages[name] = path
		} else if o := s.Object(name); o != nil {
			scope.Insert(o)
		} else if o := s.World.Builtin(name); o != nil {
			scope.Insert(o)
		} else if k := s.World.Package(name); k != nil {
			packages[name] = k.Path()
		}
	}
	// Literals live in a package of their own: what stands in the cell's
	// package without a declaration there, go/ssa would not find.
	c.literalPkg = types.NewPackage(literalPath, "literals")
	for name := range p.literals {
		v := types.NewVar(token.NoPos, c.literalPkg, name, c.quantity)
		c.literalPkg.Scope().Insert(v)
		scope.Insert(v)
	}
	c.literalPkg.MarkComplete()
	if p.needUnits {
		packages[unitsName] = s.World.Quantity().Obj().Pkg().Path()
	}
	c.info = &types.Info{
		Types: map[ast.Expr]types.TypeAndValue{}, Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{},
		Implicits: map[ast.Node]types.Object{}, Selections: map[*ast.SelectorExpr]*types.Selection{}, Scopes: map[ast.Node]*types.Scope{},
		Instances: map[*ast.Ident]types.Instance{}, FileVersions: map[*ast.File]string{},
	}
	var raw []types.Error
	conf := types.Config{Importer: s.World.Importer(), GoVersion: goIs, Sizes: sizes, DisableUnusedImportCheck: true,
		Error: func(err error) { raw = append(raw, err.(types.Error)) }}
	p.marked = scope.Lookup("Markdown") == s.World.Builtin("Markdown")
	files := []*ast.File{p.withImports(p.declFile, packages), p.withImports(p.stmtFile, packages)}
	p.runFunc().Body.List = p.runBody(p.stmts, true)
	types.NewChecker(&conf, p.fset, c.pkg, c.info).Files(files)
	return c, append(raw, c.undefinedImports()...)
}

// withImports gives a file the imports that it needs, without changing the tree.
func (p *Parsed) withImports(f *ast.File, packages map[string]string) *ast.File {
	if len(packages) == 0 {
		return f
	}
	names := make([]string, 0, len(packages))
	for n := range packages {
		names = append(names, n)
	}
	sort.Strings(names)
	g := &ast.GenDecl{Tok: token.IMPORT, TokPos: f.Name.End(), Lparen: f.Name.End()}
	for _, n := range names {
		g.Specs = append(g.Specs, &ast.ImportSpec{Name: &ast.Ident{Name: n, NamePos: f.Name.End()},
			Path: &ast.BasicLit{ValuePos: f.Name.End(), Kind: token.STRING, Value: strconv.Quote(packages[n])}})
	}
	copy := *f
	copy.Decls = append([]ast.Decl{g}, f.Decls...)
	return &copy
}

// runBody lists what the cell's function does. For checking, definitions are
// left out, since they are checked as variables of the package.
func (p *Parsed) runBody(stmts []*statement, checking bool) []ast.Stmt {
	var body []ast.Stmt
	for _, s := range stmts {
		switch {
		case s.spec != nil:
			if !checking && len(s.spec.Values) > 0 {
				a := &ast.AssignStmt{TokPos: s.spec.Pos(), Tok: token.ASSIGN, Rhs: s.spec.Values}
				for _, id := range s.spec.Names {
					a.Lhs = append(a.Lhs, id)
				}
				body = append(body, a)
			}
			for _, a := range s.again {
				body = append(body, a)
			}
		case s.value != nil:
			if e := s.node.(*ast.ExprStmt); p.discard[e] {
				body = append(body, &ast.AssignStmt{Lhs: []ast.Expr{&ast.Ident{NamePos: e.Pos(), Name: "_"}}, TokPos: e.Pos(), Tok: token.ASSIGN, Rhs: []ast.Expr{e.X}})
			} else {
				body = append(body, e)
			}
		case p.markers[s.node] && !p.marked:
		default:
			body = append(body, s.node)
		}
	}
	return body
}

// findRealUses lists the names of other cells that the cell uses, from what the checker resolved.
func (c *Checked) findRealUses() {
	seen := map[string]bool{}
	for id, o := range c.info.Uses {
		if c.isForeign(id, o) {
			seen[o.Name()] = true
		}
	}
	for n := range c.through {
		seen[n] = true
	}
	for n := range seen {
		c.Uses = append(c.Uses, n)
	}
	sort.Strings(c.Uses)
}
