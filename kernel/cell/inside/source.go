package inside

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"io/fs"
	"maps"
	"reflect"
	"slices"
	"strconv"

	"golang.org/x/tools/go/ssa"

	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/cell/host/allow"
)

// source is a package of lib, with those of lib that it imports, built from
// source.
type source struct {
	fset  *token.FileSet
	info  *types.Info
	pkg   *ssa.Package
	code  *exec.Program
	notes notes
}

// source builds a package, once.
func (l *Library) source(path string) (*source, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	s, known := l.packages[path]
	if !known {
		var err error
		if s, err = build(l.world, path); err != nil {
			return nil, err
		}
		l.packages[path] = s
	}
	return s, nil
}

// ErrCompiled is why a function of table or preferred has no steps: their values
// hide what is in them, so they come from compiled code and go to it.
var ErrCompiled = errors.New("its package is only there compiled")

// Build builds a package, and says why it cannot.
func (l *Library) Build(path string) error {
	_, err := l.source(path)
	return err
}

func build(w *host.World, path string) (*source, error) {
	b := &builder{world: w, from: w.Importer(), fset: token.NewFileSet(), checked: map[string]*types.Package{}, files: map[string][]*ast.File{}, infos: map[string]*types.Info{}}
	if b.compiled(path) {
		return nil, ErrCompiled
	}
	if _, err := b.Import(path); err != nil {
		return nil, err
	}
	prog := ssa.NewProgram(b.fset, ssa.InstantiateGenerics|ssa.GlobalDebug)
	seen := map[*types.Package]bool{}
	var add func(p *types.Package)
	add = func(p *types.Package) {
		if seen[p] {
			return
		}
		seen[p] = true
		for _, q := range p.Imports() {
			add(q)
		}
		if b.checked[p.Path()] != p {
			prog.CreatePackage(p, nil, nil, true)
		}
	}
	for _, p := range b.order {
		add(p)
	}
	var built []*ssa.Package
	for _, p := range b.order { // those that are imported first
		built = append(built, prog.CreatePackage(p, b.files[p.Path()], b.infos[p.Path()], true))
	}
	s := &source{fset: b.fset, info: newInfo(), pkg: built[len(built)-1], notes: newNotes()}
	for i, p := range b.order {
		built[i].Build()
		info := b.infos[p.Path()]
		maps.Copy(s.info.Types, info.Types)
		maps.Copy(s.info.Uses, info.Uses)
		maps.Copy(s.info.Defs, info.Defs)
		maps.Copy(s.info.Selections, info.Selections)
		s.notes.read(b.files[p.Path()], info)
	}
	s.code = exec.New(prog, w.Quantity(), linker{w, b.checked})
	s.code.TraceAlways(func(fn *ssa.Function) bool { return fn.Pkg != nil && b.checked[fn.Pkg.Pkg.Path()] == fn.Pkg.Pkg })
	return s, nil
}

func newInfo() *types.Info {
	return &types.Info{
		Types: map[ast.Expr]types.TypeAndValue{}, Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{},
		Implicits: map[ast.Node]types.Object{}, Scopes: map[ast.Node]*types.Scope{}, Selections: map[*ast.SelectorExpr]*types.Selection{},
		Instances: map[*ast.Ident]types.Instance{}, FileVersions: map[*ast.File]string{},
	}
}

// builder checks a package from source and those of lib that it imports.
type builder struct {
	world   *host.World
	from    types.Importer
	fset    *token.FileSet
	infos   map[string]*types.Info // of each package its own: they say in which order its variables start
	checked map[string]*types.Package
	files   map[string][]*ast.File
	order   []*types.Package
}

// compiled reports whether a package is used as it was compiled: those without
// a source, and those whose values hide what is in them, which come from
// compiled code and go to it.
func (b *builder) compiled(path string) bool {
	if _, ok := b.world.Source(path); !ok || path == allow.Lib+"argument" {
		return true
	}
	p, err := b.from.Import(path)
	if err != nil {
		return true
	}
	for _, name := range p.Scope().Names() {
		t, ok := p.Scope().Lookup(name).(*types.TypeName)
		if !ok || !t.Exported() {
			continue
		}
		if st, ok := t.Type().Underlying().(*types.Struct); ok {
			for i := range st.NumFields() {
				if !st.Field(i).Exported() {
					return true
				}
			}
		}
	}
	return false
}

// Import finds what a source imports.
func (b *builder) Import(path string) (*types.Package, error) {
	if p := b.checked[path]; p != nil {
		return p, nil
	}
	if b.compiled(path) {
		return b.from.Import(path)
	}
	files, err := b.parse(path)
	if err != nil {
		return nil, err
	}
	conf := types.Config{Importer: b, GoVersion: "go1.26"}
	info := newInfo()
	p, err := conf.Check(path, b.fset, files, info)
	if err != nil {
		return nil, err
	}
	b.checked[path], b.files[path], b.infos[path] = p, files, info
	b.order = append(b.order, p)
	return p, nil
}

// parse reads a package but for the file that embeds the others.
func (b *builder) parse(path string) ([]*ast.File, error) {
	from, _ := b.world.Source(path)
	names, err := fs.Glob(from, "*.go")
	if err != nil {
		return nil, err
	}
	var files []*ast.File
	for _, name := range names {
		text, err := from.ReadFile(name)
		if err != nil {
			return nil, err
		}
		f, err := parser.ParseFile(b.fset, path+"/"+name, text, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		if !slices.ContainsFunc(f.Imports, func(i *ast.ImportSpec) bool { p, _ := strconv.Unquote(i.Path.Value); return p == "embed" }) {
			files = append(files, f)
		}
	}
	if len(files) == 0 {
		return nil, fmt.Errorf("package %s carries no source", path)
	}
	return files, nil
}

// linker finds what is compiled. Types and variables of a package that is built
// from source are the executor's own.
type linker struct {
	*host.World
	checked map[string]*types.Package
}

func (linker) Func(*types.Func) (*exec.Program, *ssa.Function, bool) { return nil, nil, false }

func (l linker) Host(path, name string) (reflect.Value, bool) {
	if l.checked[path] != nil { // its variables are made anew by each run
		return reflect.Value{}, false
	}
	return l.World.Host(path, name)
}

func (l linker) HostType(t *types.Named) (reflect.Type, bool) {
	if p := t.Obj().Pkg(); p != nil && l.checked[p.Path()] == p {
		return nil, false
	}
	return l.World.HostType(t)
}

// globals gives the variables of the packages storage of their own.
func (s *source) globals() func(v *types.Var) *exec.Variable {
	made := map[*types.Var]*exec.Variable{}
	return func(v *types.Var) *exec.Variable {
		if made[v] == nil {
			made[v] = exec.NewVariable(v.Type())
		}
		return made[v]
	}
}
