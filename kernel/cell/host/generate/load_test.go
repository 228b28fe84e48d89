package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"ohmwright/kernel/cell/host/allow"
)

// fake type-checks sources by import path, in the order given.
func fake(t *testing.T, sources ...[2]string) []*source {
	t.Helper()
	done := map[string]*types.Package{}
	var list []*source
	for _, s := range sources {
		p := &source{ImportPath: s[0], fset: token.NewFileSet()}
		f, err := parser.ParseFile(p.fset, "x.go", s[1], parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		conf := types.Config{Importer: importerFunc(func(path string) (*types.Package, error) { return done[path], nil })}
		if p.types, err = conf.Check(s[0], p.fset, []*ast.File{f}, nil); err != nil {
			t.Fatal(err)
		}
		p.Name, p.syntax = p.types.Name(), []*ast.File{f}
		done[s[0]] = p.types
		list = append(list, p)
	}
	return list
}

var unitsSource = [2]string{allow.Units, "package units; type Quantity struct { v float64 }"}

func TestAuditFindsWhatCellsCannotHave(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ name, code, want string }{
		{"sound", "func F(q units.Quantity) (units.Quantity, error) { return q, nil }\nvar E struct{ u []int }\ntype R struct { Q units.Quantity }", ""},
		{"generic function", "func F[T any](x T) T { return x }", "generic, so cells could not use it"},
		{"generic type", "type F[T any] struct { x T }", "generic, so cells could not use it"},
		{"map", "var F = map[string]int{}", "a variable that cells could change for everyone"},
		{"slice", "var F = []int{1}", "a variable that cells could change for everyone"},
		{"pointer", "var F = new(int)", "a variable that cells could change for everyone"},
		{"type from Quantity", "type F units.Quantity", "a type defined from Quantity"},
		{"alias of Quantity", "type F = units.Quantity", ""},
		{"unexported", "type f units.Quantity\nvar m = map[string]int{}", ""},
	} {
		problems := audit(fake(t, unitsSource, [2]string{"ohmwright/lib/x", "package x\nimport \"ohmwright/units\"\nvar _ units.Quantity\n" + c.code}))
		switch {
		case c.want == "" && len(problems) > 0:
			t.Errorf("%s: %v", c.name, problems)
		case c.want != "" && (len(problems) != 1 || !strings.HasPrefix(problems[0], "ohmwright/lib/x.F: "+c.want)):
			t.Errorf("%s: %q, want %q", c.name, problems, c.want)
		}
	}
}

func TestAuditFindsTwoPackagesOfOneName(t *testing.T) {
	t.Parallel()
	problems := audit(fake(t, unitsSource, [2]string{"ohmwright/lib/sort", "package sort"}, [2]string{"sort", "package sort"}))
	if want := []string{"sort: has the same name as ohmwright/lib/sort"}; !slices.Equal(problems, want) {
		t.Errorf("%q, want %q", problems, want)
	}
}

func TestDescribe(t *testing.T) {
	t.Parallel()
	root := t.TempDir()
	p := fake(t, [2]string{"ohmwright/lib/x", `// Package x is small.
package x

// Limits of it.
const (
	Low = 1 + 1 // at the bottom
	High = 3
	inside = 4
)

// F doubles.
func F(a, b int) (sum int) { return 2*a + b }

// R is a result.
type R struct {
	// Sum of both.
	Sum int
	Mean float64 // half of it
	hidden int
}

// M is 1.
func (r *R) M() int { return 1 }

// New makes one.
func New() *R { return nil }
`})[0]
	f := p.fset.File(p.syntax[0].Pos())
	// Positions are those of a file inside the module.
	moved := token.NewFileSet()
	lines := f.Lines()
	g := moved.AddFile(filepath.Join(root, "lib", "x", "x.go"), f.Base(), f.Size())
	if !g.SetLines(lines) {
		t.Fatal("lines do not fit")
	}
	p.fset = moved
	list, err := describe(root, p)
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]entry{}
	for _, e := range list {
		got[e.Name] = e
	}
	for _, want := range []entry{
		{Name: "", Kind: "package", Signature: "package x", Text: "Package x is small.", Line: 2},
		{Name: "Low", Kind: "const", Signature: "const Low = 2", Text: "at the bottom", Line: 6},
		{Name: "High", Kind: "const", Signature: "const High = 3", Text: "Limits of it.", Line: 7},
		{Name: "F", Kind: "func", Signature: "func F(a, b int) (sum int)", Text: "F doubles.", Line: 12},
		{Name: "R.Sum", Kind: "field", Signature: "Sum int", Text: "Sum of both.", Line: 17},
		{Name: "R.Mean", Kind: "field", Signature: "Mean float64", Text: "half of it", Line: 18},
		{Name: "R.M", Kind: "method", Signature: "func (r *R) M() int", Text: "M is 1.", Line: 23},
		{Name: "New", Kind: "func", Signature: "func New() *R", Text: "New makes one.", Line: 26},
	} {
		want.Package, want.File = "ohmwright/lib/x", "lib/x/x.go"
		if got[want.Name] != want {
			t.Errorf("%+v, want %+v", got[want.Name], want)
		}
		delete(got, want.Name)
	}
	if r := got["R"]; r.Kind != "type" || r.Line != 15 || !strings.HasPrefix(r.Signature, "type R struct {\n") || strings.Contains(r.Signature, "hidden") {
		t.Errorf("%+v", r)
	}
	if delete(got, "R"); len(got) > 0 {
		t.Errorf("described as well: %v", got)
	}
}

func TestUnpackOfPack(t *testing.T) {
	t.Parallel()
	a, err := pack([]byte("data"))
	if err != nil {
		t.Fatal(err)
	}
	b, _ := pack([]byte("data"))
	if !slices.Equal(a, b) {
		t.Error("packing is not stable")
	}
	if back, err := unpack(a); err != nil || string(back) != "data" {
		t.Errorf("%q, %v", back, err)
	}
	if _, err := unpack([]byte("data")); err == nil {
		t.Error("plain data was unpacked")
	}
}
