package cell

import (
	"go/ast"
	"go/token"
	"go/types"

	"golang.org/x/tools/go/ssa"

	"ohmwright/kernel/cell/exec"
)

// Program is a cell ready to run.
type Program struct {
	*Checked
	code *exec.Program
	run  *ssa.Function
	prog *ssa.Program
	// requires finds a Require by the place of its call.
	requires map[token.Pos]*ast.CallExpr
	// judged are the comparisons and calls of Within that stand in a Require,
	// which judges every case itself.
	judged map[token.Pos]bool
	// whole are the expressions that define or show something that can be
	// changed in place.
	whole map[ast.Expr]bool
}

// Code is the compiled program; other cells call its functions.
func (p *Program) Code() *exec.Program { return p.code }

// Function finds the body of a function or method that the cell declares.
func (p *Program) Function(obj *types.Func) *ssa.Function {
	if f := p.prog.FuncValue(obj); f != nil && f.Blocks != nil {
		return f
	}
	return nil
}

// Build makes the checked cell a program. cellOf finds the cell of a package
// that an object came from, so that generic functions can be instantiated
// here. whole says that some cell embeds a type in a struct: go/ssa may then ask
// for any method of a compiled package, and not only for what the cell names.
func (c *Checked) Build(link exec.Linker, cellOf func(*types.Package) *Checked, whole bool) *Program {
	c.runFunc().Body.List = c.runBody(c.ordered, false)
	c.info.InitOrder = nil // the run function initialises, in the order of the text
	prog := ssa.NewProgram(c.fset, ssa.InstantiateGenerics)
	// Cells whose generic functions are instantiated here, from their source;
	// what that source names is needed as well.
	sources := []*Checked{c}
	seen := map[*types.Package]bool{c.pkg: true}
	for i := 0; i < len(sources); i++ {
		for k := range sources[i].packages() {
			if o := cellOf(k); !seen[k] && k.Path() == NotePath && o != nil && o.generic() {
				seen[k] = true
				sources = append(sources, o)
			}
		}
	}
	for _, o := range sources[1:] {
		prog.CreatePackage(o.pkg, []*ast.File{o.declFile, o.stmtFile}, o.info, true)
	}
	for _, o := range sources {
		for k := range o.packages() {
			switch {
			case seen[k]:
				continue
			case whole || k.Path() == NotePath || k.Path() == literalPath:
				prog.CreatePackage(k, nil, nil, true)
			default:
				file, info := named(k, sources)
				prog.CreatePackage(k, []*ast.File{file}, info, true)
			}
			seen[k] = true
		}
	}
	sp := prog.CreatePackage(c.pkg, []*ast.File{c.declFile, c.stmtFile}, c.info, false)
	sp.SetDebugMode(true)
	sp.Build()
	p := &Program{Checked: c, prog: prog, run: sp.Func(runName), code: exec.New(prog, c.quantity, link), requires: map[token.Pos]*ast.CallExpr{}, judged: map[token.Pos]bool{}}
	for _, f := range []*ast.File{c.declFile, c.stmtFile} {
		ast.Inspect(f, func(n ast.Node) bool {
			if call, ok := n.(*ast.CallExpr); ok && c.isBuiltin(call.Fun, "Require") {
				p.requires[call.Lparen] = call
				switch cond := ast.Unparen(call.Args[0]).(type) {
				case *ast.BinaryExpr:
					p.judged[cond.OpPos] = true
				case *ast.CallExpr:
					p.judged[cond.Lparen] = true
				}
			}
			return true
		})
	}
	p.code.CompareNominal(func(at token.Pos) bool { return p.judged[at] })
	p.whole = map[ast.Expr]bool{}
	for _, s := range c.stmts {
		var list []ast.Expr
		if s.spec != nil {
			list = s.spec.Values
		} else if s.value != nil {
			list = []ast.Expr{s.value}
		}
		for _, e := range list {
			e = ast.Unparen(e)
			if t := c.info.TypeOf(e); t != nil {
				if _, basic := t.Underlying().(*types.Basic); !basic {
					p.whole[e] = true
				}
			}
		}
	}
	wanted := p.shown()
	p.code.TraceOnly(func(e ast.Expr) bool { return wanted[e] })
	// The margin of a Require needs what its sides were, in functions as well.
	p.code.TraceAlways(func(fn *ssa.Function) bool {
		if n := fn.Syntax(); n != nil && fn != p.run {
			for at := range p.requires {
				if n.Pos() <= at && at < n.End() {
					return true
				}
			}
		}
		return false
	})
	return p
}

// shown collects the expressions whose values are shown: those of definitions
// and of values that stand alone, and the sides of requirements.
func (p *Program) shown() map[ast.Expr]bool {
	set := map[ast.Expr]bool{}
	add := func(n ast.Node) {
		ast.Inspect(n, func(n ast.Node) bool {
			if _, inside := n.(*ast.FuncLit); inside {
				return false
			}
			if e, ok := n.(ast.Expr); ok {
				set[e] = true
			}
			return true
		})
	}
	for _, s := range p.stmts {
		if s.spec != nil {
			for _, v := range s.spec.Values {
				add(v)
			}
		} else if s.value != nil {
			add(s.value)
		}
	}
	for _, call := range p.requires {
		add(call)
	}
	return set
}

// named declares to go/ssa what the sources use of a compiled package. Declaring
// all of it, as go/ssa does for a package without files, took half of the time
// from a cell's text to its result.
func named(k *types.Package, sources []*Checked) (*ast.File, *types.Info) {
	file := &ast.File{Name: &ast.Ident{Name: k.Name()}}
	info := &types.Info{Defs: map[*ast.Ident]types.Object{}}
	seen := map[types.Object]bool{}
	add := func(o types.Object) {
		if f, ok := o.(*types.Func); ok {
			o = f.Origin()
		}
		if o.Pkg() != k || seen[o] {
			return
		}
		seen[o] = true
		id := &ast.Ident{Name: o.Name()}
		switch o := o.(type) {
		case *types.Func:
			if r := o.Signature().Recv(); r != nil && types.IsInterface(r.Type()) {
				return
			}
			info.Defs[id] = o
			file.Decls = append(file.Decls, &ast.FuncDecl{Name: id, Type: &ast.FuncType{}})
		case *types.Var:
			if o.IsField() {
				return
			}
			info.Defs[id] = o
			file.Decls = append(file.Decls, &ast.GenDecl{Tok: token.VAR, Specs: []ast.Spec{&ast.ValueSpec{Names: []*ast.Ident{id}}}})
		}
	}
	for _, c := range sources {
		for _, o := range c.info.Uses {
			add(o)
		}
		for _, s := range c.info.Selections {
			add(s.Obj())
		}
	}
	return file, info
}

// embeds reports whether the cell embeds a type in a struct.
func (p *Parsed) embeds() bool {
	for _, f := range []*ast.File{p.declFile, p.stmtFile} {
		for range embeddedIn(f) {
			return true
		}
	}
	return false
}

// packages lists the packages whose objects the cell uses.
func (c *Checked) packages() map[*types.Package]bool {
	set := map[*types.Package]bool{}
	for _, k := range c.pkg.Imports() {
		set[k] = true
	}
	for _, o := range c.info.Uses {
		if o.Pkg() != nil {
			set[o.Pkg()] = true
		}
	}
	for _, s := range c.info.Selections {
		if k := s.Obj().Pkg(); k != nil {
			set[k] = true
		}
	}
	if k := c.quantity.(*types.Named).Obj().Pkg(); k != nil {
		set[k] = true
	}
	return set
}

// generic reports whether the cell declares something generic.
func (c *Checked) generic() bool {
	for _, d := range c.declFile.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Type.TypeParams != nil {
				return true
			}
		case *ast.GenDecl:
			for _, s := range d.Specs {
				if t, ok := s.(*ast.TypeSpec); ok && t.TypeParams != nil {
					return true
				}
			}
		}
	}
	return false
}
