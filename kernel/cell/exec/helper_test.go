package exec_test

import (
	"bytes"
	"context"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"reflect"
	"sync"
	"testing"

	"golang.org/x/tools/go/ssa"

	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/cell/host"
)

// world is the compiled world, loaded once and only read.
var world = sync.OnceValue(func() *host.World {
	w, err := host.Load()
	if err != nil {
		panic(err)
	}
	return w
})

// alone links a program to the compiled world and to no other cell.
type alone struct{ *host.World }

func (alone) Func(*types.Func) (*exec.Program, *ssa.Function, bool) { return nil, nil, false }

// program is a compiled test program.
type program struct {
	fset *token.FileSet
	pkg  *ssa.Package
	code *exec.Program
	uses map[*ast.Ident]types.Object
}

// compile checks and builds src as package path.
func compile(path, src string, link exec.Linker) (*program, error) {
	fset := token.NewFileSet()
	f, err := parser.ParseFile(fset, path+".go", src, parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	return compileFile(fset, path, f, link)
}

func compileFile(fset *token.FileSet, path string, f *ast.File, link exec.Linker) (*program, error) {
	return compileWith(fset, path, f, link, world().Importer())
}

func compileWith(fset *token.FileSet, path string, f *ast.File, link exec.Linker, from types.Importer) (*program, error) {
	info := &types.Info{
		Types: map[ast.Expr]types.TypeAndValue{}, Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{},
		Implicits: map[ast.Node]types.Object{}, Scopes: map[ast.Node]*types.Scope{}, Selections: map[*ast.SelectorExpr]*types.Selection{},
		Instances: map[*ast.Ident]types.Instance{}, FileVersions: map[*ast.File]string{},
	}
	conf := types.Config{Importer: from, GoVersion: "go1.26"}
	p, err := conf.Check(path, fset, []*ast.File{f}, info)
	if err != nil {
		return nil, err
	}
	prog := ssa.NewProgram(fset, ssa.InstantiateGenerics|ssa.GlobalDebug)
	seen := map[*types.Package]bool{}
	var add func(q *types.Package)
	add = func(q *types.Package) {
		if seen[q] {
			return
		}
		seen[q] = true
		for _, r := range q.Imports() {
			add(r)
		}
		prog.CreatePackage(q, nil, nil, true)
	}
	for _, q := range p.Imports() {
		add(q)
	}
	sp := prog.CreatePackage(p, []*ast.File{f}, info, false)
	sp.Build()
	if link == nil {
		link = alone{world()}
	}
	return &program{fset, sp, exec.New(prog, world().Quantity(), link), info.Uses}, nil
}

func mustCompile(t testing.TB, src string) *program {
	t.Helper()
	p, err := compile("main", src, nil)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// run initialises the package and calls fn; what it printed comes back.
func (p *program) run(run *exec.Run, fn string, args ...exec.Value) (string, []exec.Value, error) {
	var out bytes.Buffer
	if run == nil {
		run = &exec.Run{}
	}
	if run.Ctx == nil {
		run.Ctx = context.Background()
	}
	run.Out = &out
	if _, err := p.code.Call(run, p.pkg.Func("init")); err != nil {
		return out.String(), nil, err
	}
	vs, err := p.code.Call(run, p.pkg.Func(fn), args...)
	return out.String(), vs, err
}

// goValue makes a value of a predeclared type or quantity from Go's.
func goValue(t types.Type, x any) exec.Value { return exec.FromGo(t, reflect.ValueOf(x)) }
