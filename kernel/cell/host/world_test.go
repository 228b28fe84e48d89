package host_test

import (
	"bytes"
	"compress/gzip"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"golang.org/x/tools/go/ssa"

	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/cell/host/allow"
	"ohmwright/units"
)

func load(t testing.TB) *host.World {
	t.Helper()
	w, err := host.Load()
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// check type-checks src as a file of its own.
func check(w *host.World, src string) error {
	fset := token.NewFileSet()
	f, err := parser.ParseFile(fset, "cell", "package note\n"+src, parser.SkipObjectResolution)
	if err != nil {
		return err
	}
	conf := types.Config{Importer: w.Importer()}
	_, err = conf.Check("note", fset, []*ast.File{f}, nil)
	return err
}

func TestSampleOfEachPackageChecks(t *testing.T) {
	t.Parallel()
	w := load(t)
	samples := map[string]string{
		"cmp":          `func least[T cmp.Ordered](a, b T) T { if a < b { return a }; return b }; var _ = least(1, 2)`,
		"errors":       `var _ = errors.Is(errors.New("x"), errors.ErrUnsupported)`,
		"fmt":          `var s fmt.Stringer; var _ = fmt.Sprintf("%v", s)`,
		"math":         `var x float64 = math.Sqrt(math.Pi) + math.MaxInt8`,
		"math/bits":    `var n int = bits.OnesCount8(7)`,
		"sort":         `func f() { var s sort.Interface = sort.IntSlice{2, 1}; sort.Sort(s); sort.Slice(s, func(i, j int) bool { return i < j }) }`,
		"strconv":      `var x, err = strconv.ParseFloat("1", 64)`,
		"strings":      `var b strings.Builder; var _ = strings.Map(func(r rune) rune { return r }, b.String())`,
		"unicode":      `var ok bool = unicode.IsLetter('x'); const max = unicode.MaxRune`,
		"unicode/utf8": `var n int = utf8.RuneCountInString("Ω")`,
		allow.Units: `var q units.Quantity = units.Sqrt(units.Range(1, 2, 3))*2 + 1
			func f(q units.Quantity) string { if q > 2 { return q.String() }; return q.Text(3) }`,
		allow.Builtin: `func f(a, b, c units.Quantity) { builtin.Require(builtin.Within(a, b, c), "") }`,
	}
	for _, path := range w.Paths() {
		name := path[strings.LastIndex(path, "/")+1:]
		src, ok := samples[path]
		switch {
		case strings.HasPrefix(path, allow.Lib):
			src = "import _ \"" + path + "\""
		case !ok:
			t.Errorf("%s: no sample", path)
			continue
		case path == allow.Builtin:
			src = "import \"" + allow.Units + "\"\nimport \"" + path + "\"\n" + src
		default:
			src = "import \"" + path + "\"\n" + src
		}
		if err := check(w, src); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		delete(samples, path)
	}
	for path := range samples {
		t.Errorf("%s: not in the world", path)
	}
}

func TestForbiddenPackagesAreRefused(t *testing.T) {
	t.Parallel()
	w := load(t)
	for _, path := range []string{
		"os", "os/exec", "net", "net/http", "unsafe", "syscall", "runtime", "reflect", "time", "io", "plugin", "C",
		"math/rand", "math/rand/v2", "crypto/rand", "embed", "iter", "slices", "maps", "sync", "context", "bufio", "bytes",
		"ohmwright/kernel/note", "ohmwright/kernel/cell", "ohmwright/lib/x/internal/y", "../units", "/etc", "",
	} {
		pkg, err := w.Importer().Import(path)
		if err == nil {
			t.Errorf("%q was imported: %v", path, pkg)
			continue
		}
		if _, ok := err.(*host.Refusal); !ok {
			t.Errorf("%q: error is a %T, want a *Refusal", path, err)
		}
		if _, ok := w.Host(path, "Exit"); ok {
			t.Errorf("%q: has symbols", path)
		}
		if w.Package(path) != nil {
			t.Errorf("%q: is in scope", path)
		}
	}
}

// go/types answers an import of unsafe itself, so the importer cannot stop
// it: whoever checks cells asks Allowed.
func TestUnsafeIsNotAllowed(t *testing.T) {
	t.Parallel()
	w := load(t)
	if r := w.Allowed("unsafe"); r == nil {
		t.Error("unsafe is allowed")
	}
	for _, path := range w.Paths() {
		if r := w.Allowed(path); r != nil {
			t.Errorf("%s: %v", path, r)
		}
	}
}

func TestImportErrors(t *testing.T) {
	t.Parallel()
	w := load(t)
	for _, c := range []struct{ path, msg, hint string }{
		{"os", "package os is not available in cells, because a note is a calculation",
			"cells can use cmp, errors, fmt, math, math/bits, sort, strconv, strings, unicode, unicode/utf8, and without an import "},
		{"string", "there is no package string for cells", "did you mean strings?"},
		{"maths", "there is no package maths for cells", "did you mean math?"},
		{"unit", "there is no package unit for cells", "did you mean units, which is in scope without an import?"},
		{"text/strings", "there is no package text/strings", "strings is in scope without an import"},
		{"units", "there is no package units", "units is in scope without an import"},
	} {
		_, err := w.Importer().Import(c.path)
		r, ok := err.(*host.Refusal)
		if !ok {
			t.Errorf("%s: error is a %T", c.path, err)
			continue
		}
		if r.Msg != c.msg || !strings.HasPrefix(r.Hint, c.hint) {
			t.Errorf("%s: %q, %q; want %q, %q", c.path, r.Msg, r.Hint, c.msg, c.hint)
		}
	}
}

func TestQuantityIsANumberWithMethods(t *testing.T) {
	t.Parallel()
	w := load(t)
	q := w.Quantity()
	if q.Underlying() != types.Typ[types.Float64] {
		t.Errorf("underlying type is %v", q.Underlying())
	}
	compiled := reflect.TypeFor[units.Quantity]()
	if got, ok := w.HostType(q); !ok || got != compiled {
		t.Errorf("compiled type is %v", got)
	}
	for i := range compiled.NumMethod() {
		name := compiled.Method(i).Name
		if obj, _, _ := types.LookupFieldOrMethod(q, true, nil, name); obj == nil {
			t.Errorf("method %s is lost", name)
		}
	}
	// A function of lib or units speaks of the same type.
	f := w.Builtin("Sqrt").(*types.Func)
	if f.Signature().Results().At(0).Type() != q {
		t.Errorf("Sqrt returns %v", f.Signature().Results().At(0).Type())
	}
}

func TestEachPackageHasANameOfItsOwn(t *testing.T) {
	t.Parallel()
	w := load(t)
	want := 0
	for _, path := range w.Paths() {
		if !allow.InScope(path) {
			continue
		}
		want++
		found := false
		for _, name := range w.PackageNames() {
			found = found || w.Package(name).Path() == path
		}
		if !found {
			t.Errorf("%s: another package has its name", path)
		}
	}
	if got := len(w.PackageNames()); got != want {
		t.Errorf("%d names for %d packages", got, want)
	}
	for _, name := range []string{"builtin", "argument", "io"} {
		if w.Package(name) != nil {
			t.Errorf("%s takes its name away from notes", name)
		}
	}
	if !slices.IsSorted(w.PackageNames()) || !slices.IsSorted(w.BuiltinNames()) || !slices.IsSorted(w.Paths()) {
		t.Error("names are not sorted")
	}
}

// Run with -race: several checkers and builders share one World.
func TestParallelUse(t *testing.T) {
	t.Parallel()
	w := load(t)
	src := `package note
		import ("fmt"; "ohmwright/units"; "sort"; "strings"; "strconv"; "cmp")
		type byValue []Quantity
		func (b byValue) Len() int { return len(b) }
		func (b byValue) Less(i, j int) bool { return b[i] < b[j] }
		func (b byValue) Swap(i, j int) { b[i], b[j] = b[j], b[i] }
		func top[T cmp.Ordered](x ...T) (t T) { for _, v := range x { t = max(t, v) }; return }
		var s sort.Interface = sort.Reverse(byValue{1, 2})
		var q = top(Abs(1)*2, 3, units.Sqrt(Pi))
		var b strings.Builder
		func run() error { Require(Within(q, 1, 2), "x"); return fmt.Errorf("%w", strconv.ErrRange) }`
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			own := load(t)
			for _, w := range []*host.World{w, w, own} {
				if err := build(w, src); err != nil {
					t.Error(err)
				}
				for _, name := range w.BuiltinNames() {
					obj := w.Builtin(name)
					_, _ = w.Host(obj.Pkg().Path(), name)
					_, _ = w.Doc(obj.Pkg().Path(), name)
				}
			}
		})
	}
	wg.Wait()
}

// build does what is done with a cell: the built-in names are put into its
// package, it is checked, and all packages it knows become SSA.
func build(w *host.World, src string) error {
	fset := token.NewFileSet()
	f, err := parser.ParseFile(fset, "cell", src, parser.SkipObjectResolution)
	if err != nil {
		return err
	}
	pkg := types.NewPackage("note", "note")
	for _, name := range w.BuiltinNames() {
		pkg.Scope().Insert(w.Builtin(name))
	}
	info := &types.Info{
		Types: map[ast.Expr]types.TypeAndValue{}, Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{},
		Implicits: map[ast.Node]types.Object{}, Scopes: map[ast.Node]*types.Scope{}, Selections: map[*ast.SelectorExpr]*types.Selection{},
		Instances: map[*ast.Ident]types.Instance{}, FileVersions: map[*ast.File]string{},
	}
	conf := types.Config{Importer: w.Importer()}
	if err := types.NewChecker(&conf, fset, pkg, info).Files([]*ast.File{f}); err != nil {
		return err
	}
	prog := ssa.NewProgram(fset, ssa.InstantiateGenerics)
	seen := map[*types.Package]bool{}
	var add func(*types.Package)
	add = func(p *types.Package) {
		if seen[p] {
			return
		}
		seen[p] = true
		for _, dep := range p.Imports() {
			add(dep)
		}
		prog.CreatePackage(p, nil, nil, true)
	}
	for _, name := range w.BuiltinNames() {
		add(w.Builtin(name).Pkg())
	}
	for _, dep := range pkg.Imports() {
		add(dep)
	}
	built := prog.CreatePackage(pkg, []*ast.File{f}, info, false)
	built.Build()
	if built.Func("run") == nil || len(built.Func("run").Blocks) == 0 {
		return errors.New("run was not built")
	}
	return nil
}

func TestGeneratedFilesHoldNoPathOfAMachine(t *testing.T) {
	t.Parallel()
	packed, err := os.ReadFile("export.bin")
	if err != nil {
		t.Fatal(err)
	}
	r, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	if !r.ModTime.IsZero() || r.Name != "" {
		t.Errorf("export.bin names a time or file: %v %q", r.ModTime, r.Name)
	}
	files := map[string][]byte{"export.bin": data}
	for _, name := range []string{"docs.json", "symbols/symbols.go"} {
		if files[name], err = os.ReadFile(name); err != nil {
			t.Fatal(err)
		}
	}
	wd, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	home, _ := os.UserHomeDir()
	for name, data := range files {
		for _, path := range []string{strings.TrimSuffix(wd, "/kernel/cell/host"), home, "/usr/", "/home/", "/root/", "/Users/", "GOROOT", "/go/src", "/pkg/mod"} {
			if len(path) > 1 && bytes.Contains(data, []byte(path)) {
				t.Errorf("%s holds %q", name, path)
			}
		}
	}
	if bytes.Contains(data, []byte(".go")) {
		t.Error("export.bin holds a file name")
	}
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		load(b)
	}
}
