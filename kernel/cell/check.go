package cell

import (
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"slices"
	"sort"
	"strconv"
	"strings"

	"ohmwright/kernel/cell/host"
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
}

// Checked is a cell that go/types has accepted.
type Checked struct {
	*Parsed
	pkg        *types.Package
	literalPkg *types.Package
	info       *types.Info
	quantity   types.Type
	scope      Scope
	// Uses holds the names of other cells that the cell really uses; Direct those
	// that its statements use, not only its functions.
	Uses    []string
	ordered []*statement          // in the order in which they run
	changed map[types.Object]bool // variables of the cell that statements change
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
	notePath    = NotePath
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
					if i < s.NumFields() && s.Field(i).Pkg() != nil && s.Field(i).Pkg().Path() == notePath {
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
		} else if s.World.Package(name) != nil {
			what = "a package"
		}
		if what == "" {
			continue
		}
		e := &Error{}
		if id := p.definition1(name); id != nil {
			e = p.errorAt(id.Pos(), CodeName, "", "")
		}
		e.Code, e.Msg, e.Hint = CodeName, name+" is "+what+", and a note cannot define it", "choose another name"
		errs = append(errs, e)
	}
	return p.tidy(errs)
}

// definition1 finds the identifier that defines a name.
func (p *Parsed) definition1(name string) *ast.Ident {
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
	c.pkg = types.NewPackage(notePath, notePath)
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
	files := []*ast.File{p.withImports(p.declFile, packages), p.withImports(p.stmtFile, packages)}
	body := p.runBody(p.stmts, true)
	p.runFunc2().Body.List = body
	types.NewChecker(&conf, p.fset, c.pkg, c.info).Files(files)
	return c, raw
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

// runFunc2 is the function that runs the cell, the last of the file.
func (p *Parsed) runFunc2() *ast.FuncDecl {
	return p.stmtFile.Decls[len(p.stmtFile.Decls)-1].(*ast.FuncDecl)
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
		default:
			body = append(body, s.node)
		}
	}
	return body
}

// mend changes the tree where a plain number meets a quantity, where a result
// comes with an error, and where a value stands alone; it reports whether it did.
func (c *Checked) mend(raw []types.Error) bool {
	if len(raw) == 0 {
		return c.mendErrorsAlone()
	}
	p := c.Parsed
	mended := c.mendPairs()
	for _, e := range raw {
		if strings.Contains(e.Msg, "is not used") || strings.Contains(e.Msg, "not used") {
			for _, s := range p.stmts {
				if x, ok := s.node.(*ast.ExprStmt); ok && s.value != nil && !p.discard[x] && x.Pos() <= e.Pos && e.Pos < x.End() {
					p.discard[x] = true
					mended = true
				}
			}
		}
	}
	return c.mendNumbers() || mended
}

// mendNumbers wraps plain numbers beside quantities, from the left, so that a
// chain is mended in one pass.
func (c *Checked) mendNumbers() bool {
	p := c.Parsed
	mended := false
	quantity := map[ast.Expr]bool{} // expressions known to become quantities
	isQ := func(e ast.Expr) bool {
		e = ast.Unparen(e)
		return quantity[e] || c.info.Types[e].Type != nil && types.Identical(c.info.Types[e].Type, c.quantity)
	}
	number := func(e ast.Expr) bool {
		t := c.info.Types[ast.Unparen(e)].Type
		if t == nil || isQ(e) {
			return false
		}
		b, ok := t.(*types.Basic) // a defined number type says what it is: no silent change
		return ok && b.Info()&types.IsUntyped == 0 && b.Info()&(types.IsInteger|types.IsFloat) != 0
	}
	wrap := func(e ast.Expr) ast.Expr {
		call := &ast.CallExpr{Fun: p.fromUnits("Quantity", e.Pos()), Lparen: e.Pos(), Args: []ast.Expr{e}, Rparen: e.End()}
		p.made[call] = true
		mended = true
		return call
	}
	fix := func(e ast.Expr) ast.Expr {
		if call, ok := e.(*ast.CallExpr); ok && p.made[call] && len(call.Args) == 2 { // ±
			for i, a := range call.Args {
				if number(a) {
					call.Args[i] = wrap(a)
				}
			}
			quantity[call] = true
			return e
		}
		b, ok := e.(*ast.BinaryExpr)
		if !ok {
			if u, ok := e.(*ast.UnaryExpr); ok && quantity[ast.Unparen(u.X)] {
				quantity[e] = true
			}
			return e
		}
		switch b.Op {
		case token.ADD, token.SUB, token.MUL, token.QUO, token.EQL, token.NEQ, token.LSS, token.LEQ, token.GTR, token.GEQ:
		default:
			return e
		}
		switch {
		case isQ(b.X) && number(b.Y):
			b.Y = wrap(b.Y)
		case isQ(b.Y) && number(b.X):
			b.X = wrap(b.X)
		case !isQ(b.X) || !isQ(b.Y):
			return e
		}
		switch b.Op {
		case token.ADD, token.SUB, token.MUL, token.QUO:
			quantity[b] = true
		}
		return e
	}
	for _, f := range []*ast.File{p.declFile, p.stmtFile} {
		edit(f, fix)
		ast.Inspect(f, func(n ast.Node) bool {
			if a, ok := n.(*ast.AssignStmt); ok && len(a.Lhs) == 1 && len(a.Rhs) == 1 {
				switch a.Tok {
				case token.ADD_ASSIGN, token.SUB_ASSIGN, token.MUL_ASSIGN, token.QUO_ASSIGN:
					if isQ(a.Lhs[0]) && number(a.Rhs[0]) {
						a.Rhs[0] = wrap(a.Rhs[0])
					}
				}
			}
			return true
		})
	}
	return mended
}

// mendPairs makes one value of a call that gives a value and an error, where
// one value is asked for: the error stops the cell.
func (c *Checked) mendPairs() bool {
	p := c.Parsed
	mended := false
	wrap := func(e ast.Expr) ast.Expr {
		call, ok := ast.Unparen(e).(*ast.CallExpr)
		if !ok || !c.givesPair(call) {
			return e
		}
		mended = true
		return p.must(call)
	}
	wrapAll := func(list []ast.Expr) {
		for i := range list {
			list[i] = wrap(list[i])
		}
	}
	for _, f := range []*ast.File{p.declFile, p.stmtFile} {
		ast.Inspect(f, func(n ast.Node) bool {
			switch x := n.(type) {
			case *ast.ValueSpec:
				if len(x.Names) == len(x.Values) {
					wrapAll(x.Values)
				}
			case *ast.AssignStmt:
				if len(x.Lhs) == len(x.Rhs) {
					wrapAll(x.Rhs)
				}
			case *ast.BinaryExpr:
				x.X, x.Y = wrap(x.X), wrap(x.Y)
			case *ast.UnaryExpr:
				x.X = wrap(x.X)
			case *ast.SelectorExpr:
				x.X = wrap(x.X)
			case *ast.IndexExpr:
				x.X, x.Index = wrap(x.X), wrap(x.Index)
			case *ast.KeyValueExpr:
				x.Value = wrap(x.Value)
			case *ast.CompositeLit:
				wrapAll(x.Elts)
			case *ast.RangeStmt:
				x.X = wrap(x.X)
			case *ast.SwitchStmt:
				if x.Tag != nil {
					x.Tag = wrap(x.Tag)
				}
			case *ast.FuncDecl:
				wrapReturns(x.Type, x.Body, wrap)
			case *ast.FuncLit:
				wrapReturns(x.Type, x.Body, wrap)
			case *ast.CallExpr:
				if p.made[x] {
					if sel, ok := x.Fun.(*ast.Ident); ok && sel.Name == mustName {
						return true
					}
				}
				if sig, ok := c.signature(x.Fun); len(x.Args) > 1 || ok && sig.Params().Len() == 1 && !sig.Variadic() || c.info.Types[x.Fun].IsType() {
					wrapAll(x.Args)
				}
			}
			return true
		})
	}
	return mended
}

// wrapReturns takes the error of what a function with one result returns.
func wrapReturns(t *ast.FuncType, body *ast.BlockStmt, wrap func(ast.Expr) ast.Expr) {
	if body == nil || t.Results.NumFields() != 1 {
		return
	}
	ast.Inspect(body, func(n ast.Node) bool {
		switch x := n.(type) {
		case *ast.FuncLit:
			return false
		case *ast.ReturnStmt:
			if len(x.Results) == 1 {
				x.Results[0] = wrap(x.Results[0])
			}
		}
		return true
	})
}

// mendErrorsAlone makes a statement of its own stop the cell when it gives an error.
func (c *Checked) mendErrorsAlone() bool {
	mended := false
	for _, s := range c.stmts {
		if x, ok := s.node.(*ast.ExprStmt); ok {
			if call, ok := ast.Unparen(x.X).(*ast.CallExpr); ok && c.givesPair(call) && !c.prints(call) {
				x.X = c.must(call)
				s.value = x.X
				mended = true
			}
		}
	}
	return mended
}

// prints reports whether a call is one of fmt's Print functions, whose count
// of bytes and error nobody wants to see.
func (c *Checked) prints(call *ast.CallExpr) bool {
	sel, ok := call.Fun.(*ast.SelectorExpr)
	if !ok {
		return false
	}
	o := c.info.Uses[sel.Sel]
	return o != nil && o.Pkg() != nil && o.Pkg().Path() == "fmt" && strings.HasPrefix(o.Name(), "Print")
}

func (c *Checked) signature(fun ast.Expr) (*types.Signature, bool) {
	t := c.info.Types[fun].Type
	if t == nil {
		return nil, false
	}
	s, ok := t.Underlying().(*types.Signature)
	return s, ok
}

func (c *Checked) givesPair(call *ast.CallExpr) bool {
	if t, ok := c.info.Types[call].Type.(*types.Tuple); ok {
		return t.Len() == 2 && types.Identical(t.At(1).Type(), types.Universe.Lookup("error").Type())
	}
	return false
}

// must wraps a call in the made function that panics with its error.
func (p *Parsed) must(call *ast.CallExpr) ast.Expr {
	if !p.needMust {
		p.needMust = true
		f, err := p.parseFile(p.ID+" "+mustName, mustText, parser.SkipObjectResolution)
		if err != nil {
			panic(err) // the text is our own
		}
		p.declFile.Decls = append(p.declFile.Decls, f.Decls...)
	}
	m := &ast.CallExpr{Fun: &ast.Ident{NamePos: call.Pos(), Name: mustName}, Lparen: call.Pos(), Args: []ast.Expr{call}, Rparen: call.End()}
	p.made[m] = true
	return m
}

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
				} else if v.Pkg() != nil && v.Pkg() != c.pkg && v.Pkg().Path() != notePath {
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
	return o != nil && o.Pkg() != nil && o.Pkg() != c.pkg && o.Pkg().Path() == notePath && o.Parent() == o.Pkg().Scope()
}

// findRealUses lists the names of other cells that the cell uses, from what the checker resolved.
func (c *Checked) findRealUses() {
	seen := map[string]bool{}
	for id, o := range c.info.Uses {
		if c.isForeign(id, o) {
			seen[o.Name()] = true
		}
	}
	for n := range seen {
		c.Uses = append(c.Uses, n)
	}
	sort.Strings(c.Uses)
}
