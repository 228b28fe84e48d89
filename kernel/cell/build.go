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
// that an object came from, so that generic functions can be instantiated here.
func (c *Checked) Build(link exec.Linker, cellOf func(*types.Package) *Checked) *Program {
	c.runFunc2().Body.List = c.runBody(c.ordered, false)
	c.info.InitOrder = nil // the run function initialises, in the order of the text
	prog := ssa.NewProgram(c.fset, ssa.InstantiateGenerics)
	seen := map[*types.Package]bool{c.pkg: true}
	var add func(k *types.Package)
	add = func(k *types.Package) {
		if k == nil || seen[k] {
			return
		}
		seen[k] = true
		if o := cellOf(k); k.Path() == notePath && o != nil && o.generic() {
			// Its generic functions are instantiated here, from their source.
			for _, i := range o.pkg.Imports() {
				add(i)
			}
			for q := range o.packages() {
				add(q)
			}
			prog.CreatePackage(k, []*ast.File{o.declFile, o.stmtFile}, o.info, true)
			return
		}
		prog.CreatePackage(k, nil, nil, true)
	}
	for _, k := range c.pkg.Imports() {
		add(k)
	}
	for k := range c.packages() {
		add(k)
	}
	sp := prog.CreatePackage(c.pkg, []*ast.File{c.declFile, c.stmtFile}, c.info, false)
	sp.SetDebugMode(true)
	sp.Build()
	p := &Program{Checked: c, prog: prog, run: sp.Func(runName), code: exec.New(prog, c.quantity, link), requires: map[token.Pos]*ast.CallExpr{}}
	for _, f := range []*ast.File{c.declFile, c.stmtFile} {
		ast.Inspect(f, func(n ast.Node) bool {
			if call, ok := n.(*ast.CallExpr); ok && c.isBuiltin(call.Fun, "Require") {
				p.requires[call.Lparen] = call
			}
			return true
		})
	}
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

// packages lists the packages whose objects the cell uses.
func (c *Checked) packages() map[*types.Package]bool {
	set := map[*types.Package]bool{}
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
