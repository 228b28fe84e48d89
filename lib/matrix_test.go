package lib_test

import (
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// column is a kind of test, known by what its files and functions are called.
type column struct {
	what  string
	is    []string // words of which one is in the name; none: any name does
	isNot []string // words of which none is
}

// Every function of lib is held against figures from outside or a second way,
// refuses what it must, and keeps spread. The tests are found by their names
// and by the calls in them; which figures and whose they are, they say
// themselves.
var matrix = []column{
	{"figures", nil, []string{"refus", "error", "message", "wild", "spread", "draws", "bench", "helper", "example"}},
	{"what is refused", []string{"refus", "error", "message", "wild", "bad", "wrong", "limit"}, nil},
}

// excused are functions without tests of a kind, and why.
var excused = map[string]string{
	"table.Read":         "the same reader as Text",
	"preferred.IsMember": "what is in no series is no member",
	"table.Text":         "the same reader as Read",
	"plot.Steps":         "TestSteps has both",
	"plot.StepsLog":      "the same",
}

func TestEveryFunctionHasItsRow(t *testing.T) {
	t.Parallel()
	for name := range sources {
		if name == "argument" {
			continue
		}
		fset, files := parsed(t, name)
		p, err := doc.NewFromFiles(fset, files, "ohmwright/lib/"+name)
		if err != nil {
			t.Fatal(err)
		}
		funcs := p.Funcs
		for _, typ := range p.Types {
			funcs = append(funcs, typ.Funcs...)
		}
		calls := testCalls(t, name)
		for _, f := range funcs {
			for _, c := range matrix {
				if excused[name+"."+f.Name] != "" {
					continue
				}
				found := false
				for place, called := range calls {
					found = found || called[f.Name] && c.fits(strings.ToLower(place))
				}
				if !found {
					t.Errorf("%s.%s: no test of %s", name, f.Name, c.what)
				}
			}
		}
	}
}

func (c column) fits(place string) bool {
	in := func(w string) bool { return strings.Contains(place, w) }
	return (c.is == nil || slices.ContainsFunc(c.is, in)) && !slices.ContainsFunc(c.isNot, in)
}

// testCalls lists which functions of a package each of its tests names, by
// file and test.
func testCalls(t *testing.T, name string) map[string]map[string]bool {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(name, "*_test.go"))
	if err != nil {
		t.Fatal(err)
	}
	if own, err := filepath.Glob(path.Base(name) + "cases_test.go"); err == nil {
		paths = append(paths, own...)
	}
	calls := map[string]map[string]bool{}
	for _, p := range paths {
		f, err := parser.ParseFile(token.NewFileSet(), p, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range f.Decls {
			at := filepath.Base(p)
			if fn, ok := d.(*ast.FuncDecl); ok {
				at += " " + fn.Name.Name
			}
			if calls[at] == nil {
				calls[at] = map[string]bool{}
			}
			ast.Inspect(d, func(n ast.Node) bool {
				if id, ok := n.(*ast.Ident); ok {
					calls[at][id.Name] = true
				}
				return true
			})
		}
	}
	return calls
}
