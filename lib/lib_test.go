package lib_test

import (
	"embed"
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"ohmwright/lib/argument"
	"ohmwright/lib/battery"
	"ohmwright/lib/capacitor"
	"ohmwright/lib/charger"
	"ohmwright/lib/divider"
	"ohmwright/lib/plot"
	"ohmwright/lib/powertree"
	"ohmwright/lib/preferred"
	"ohmwright/lib/protect"
	"ohmwright/lib/regulator/inverting"
	"ohmwright/lib/regulator/linear"
	"ohmwright/lib/regulator/loop"
	"ohmwright/lib/regulator/stepdown"
	"ohmwright/lib/regulator/stepup"
	"ohmwright/lib/regulator/switching"
	"ohmwright/lib/ripple"
	"ohmwright/lib/solar"
	"ohmwright/lib/table"
	"ohmwright/lib/thermal"
)

// sources are the embedded sources of every package; a new package joins
// here, and TestEveryPackageIsListed says so.
var sources = map[string]embed.FS{
	"argument":            argument.Source,
	"divider":             divider.Source,
	"preferred":           preferred.Source,
	"regulator/linear":    linear.Source,
	"thermal":             thermal.Source,
	"regulator/stepdown":  stepdown.Source,
	"regulator/stepup":    stepup.Source,
	"regulator/inverting": inverting.Source,
	"regulator/switching": switching.Source,
	"regulator/loop":      loop.Source,
	"plot":                plot.Source,
	"table":               table.Source,
	"capacitor":           capacitor.Source,
	"ripple":              ripple.Source,
	"protect":             protect.Source,
	"powertree":           powertree.Source,
	"battery":             battery.Source,
	"charger":             charger.Source,
	"solar":               solar.Source,
}

// byNumber are the packages that may lose the spread of a quantity: preferred
// picks from lists by number, on the nominal value.
var byNumber = map[string]bool{"preferred": true}

// parsed reads the files of a package that are not tests.
func parsed(t *testing.T, name string) (*token.FileSet, []*ast.File) {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(name, "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	fset := token.NewFileSet()
	var files []*ast.File
	for _, path := range paths {
		if strings.HasSuffix(path, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(fset, path, nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, f)
	}
	return fset, files
}

func TestEveryPackageIsListed(t *testing.T) {
	t.Parallel()
	err := filepath.WalkDir(".", func(path string, e fs.DirEntry, err error) error {
		if err != nil || !e.IsDir() || path == "." {
			return err
		}
		if e.Name() == "internal" { // what tests share is no part of lib
			return fs.SkipDir
		}
		files, err := filepath.Glob(filepath.Join(path, "*.go"))
		if _, ok := sources[filepath.ToSlash(path)]; len(files) > 0 && !ok {
			t.Errorf("package %s is not in the list of this test", path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// Each package embeds all of its files but tests, so that the formulas that
// are shown are the ones that ran.
func TestSourceIsComplete(t *testing.T) {
	t.Parallel()
	for name, source := range sources {
		paths, err := filepath.Glob(filepath.Join(name, "*.go"))
		if err != nil {
			t.Fatal(err)
		}
		var want []string
		for _, path := range paths {
			if !strings.HasSuffix(path, "_test.go") {
				want = append(want, filepath.Base(path))
			}
		}
		entries, err := source.ReadDir(".")
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, e := range entries {
			got = append(got, e.Name())
		}
		slices.Sort(want)
		slices.Sort(got)
		if !slices.Equal(got, want) {
			t.Errorf("%s embeds\n%v, its files are\n%v", name, got, want)
		}
	}
}

// spreadLosers are the methods and functions whose result knows nothing of the
// spread of what they are given: a bare number, or one case of many.
var spreadLosers = map[string]bool{
	"SI": true, "Float": true, "Plain": true, "WithSI": true,
	"Limits": true, "Extremes": true, "Sweeps": true, "Boards": true, "Std": true, "Percentile": true,
	"units.High": true, "units.Low": true, "units.Nominal": true,
}

// losses finds where a file loses the spread of a quantity.
func losses(f *ast.File) []ast.Node {
	var found []ast.Node
	ast.Inspect(f, func(n ast.Node) bool {
		s, ok := n.(*ast.SelectorExpr)
		if !ok {
			return true
		}
		name := s.Sel.Name
		if x, ok := s.X.(*ast.Ident); ok && x.Name == "units" {
			name = "units." + name
		}
		if spreadLosers[name] {
			found = append(found, s)
		}
		return true
	})
	return found
}

func TestSpreadIsNotLost(t *testing.T) {
	t.Parallel()
	for name := range sources {
		fset, files := parsed(t, name)
		for _, f := range files {
			if byNumber[name] {
				continue
			}
			for _, n := range losses(f) {
				t.Errorf("%s: %s loses the spread of a quantity: use arithmetic and the functions of units that go case by case", fset.Position(n.Pos()), n.(*ast.SelectorExpr).Sel.Name)
			}
		}
	}
	// The search finds what it is there for, and leaves the fields of a result alone.
	f, err := parser.ParseFile(token.NewFileSet(), "x.go", `package x
func f(q Q) float64 {
	g := q.SI
	low, high, _ := q.Limits()
	first, last, _ := q.Extremes()
	nominal := units.Nominal(q).Add(units.High(q)).Add(units.Low(q))
	band := result.Low
	return g() + q.Div(q).Float() + q.Plain() + q.Boards()[0]
}`, 0)
	if err != nil {
		t.Fatal(err)
	}
	if n := len(losses(f)); n != 9 {
		t.Errorf("of nine losses in a sample %d are found", n)
	}
}

// The engine checks this source with Quantity as a plain number, which has no
// composite literal.
func TestNoQuantityLiterals(t *testing.T) {
	t.Parallel()
	for name := range sources {
		fset, files := parsed(t, name)
		for _, f := range files {
			ast.Inspect(f, func(n ast.Node) bool {
				c, ok := n.(*ast.CompositeLit)
				if !ok {
					return true
				}
				if s, ok := c.Type.(*ast.SelectorExpr); ok && s.Sel.Name == "Quantity" {
					t.Errorf("%s: write a variable that is not set in place of units.Quantity{}", fset.Position(c.Pos()))
				}
				return true
			})
		}
	}
}

// Cells call these functions by reflection and copy their values: nothing
// generic, no interface but error, no map, channel or function leaves a
// package.
func TestSignaturesArePlain(t *testing.T) {
	t.Parallel()
	for name := range sources {
		fset, files := parsed(t, name)
		for _, f := range files {
			for _, d := range f.Decls {
				switch d := d.(type) {
				case *ast.FuncDecl:
					if !d.Name.IsExported() {
						continue
					}
					if d.Type.TypeParams != nil {
						t.Errorf("%s: %s is generic", fset.Position(d.Pos()), d.Name)
					}
					plainTypes(t, fset, d.Type.Params, d.Name.Name)
					plainTypes(t, fset, d.Type.Results, d.Name.Name)
				case *ast.GenDecl:
					for _, s := range d.Specs {
						ts, ok := s.(*ast.TypeSpec)
						if !ok || !ts.Name.IsExported() {
							continue
						}
						if ts.TypeParams != nil {
							t.Errorf("%s: %s is generic", fset.Position(ts.Pos()), ts.Name)
						}
						st, ok := ts.Type.(*ast.StructType)
						if !ok {
							t.Errorf("%s: %s is no struct", fset.Position(ts.Pos()), ts.Name)
							continue
						}
						plainTypes(t, fset, st.Fields, ts.Name.Name)
					}
				}
			}
		}
	}
}

func plainTypes(t *testing.T, fset *token.FileSet, fields *ast.FieldList, name string) {
	t.Helper()
	if fields == nil {
		return
	}
	ast.Inspect(fields, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.MapType, *ast.ChanType, *ast.FuncType, *ast.InterfaceType, *ast.StarExpr:
			t.Errorf("%s: %s has a type that cells cannot hold", fset.Position(n.Pos()), name)
		case *ast.Ident:
			if n.Name == "any" {
				t.Errorf("%s: %s has a type that cells cannot hold", fset.Position(n.Pos()), name)
			}
		}
		return true
	})
}

// Every exported name has a doc comment that starts with it, and every
// function one that names its source and shows how it is written.
func TestDocComments(t *testing.T) {
	t.Parallel()
	for name := range sources {
		fset, files := parsed(t, name)
		p, err := doc.NewFromFiles(fset, files, "ohmwright/lib/"+name)
		if err != nil {
			t.Fatal(err)
		}
		if len(p.Doc) < 200 {
			t.Errorf("%s: the package comment is too short to be of use", name)
		}
		funcs := p.Funcs
		for _, typ := range p.Types {
			if !strings.Contains(firstSentence(typ.Doc), typ.Name) {
				t.Errorf("%s.%s: the comment does not start with its name: %q", name, typ.Name, firstSentence(typ.Doc))
			}
			funcs = append(funcs, typ.Funcs...)
			for _, m := range typ.Methods {
				if m.Doc == "" {
					t.Errorf("%s.%s.%s has no comment", name, typ.Name, m.Name)
				}
			}
		}
		for _, f := range funcs {
			if !strings.HasPrefix(f.Doc, f.Name+" ") {
				t.Errorf("%s.%s: the comment does not start with its name", name, f.Name)
			}
			if name == "argument" {
				continue
			}
			for _, part := range []string{"ource", "\n\t", "error"} {
				if !strings.Contains(f.Doc, part) && !(part == "error" && f.Name == "IsMember") && !(part == "error" && strings.Contains(f.Doc, "panics")) {
					t.Errorf("%s.%s: the comment has no %q", name, f.Name, part)
				}
			}
		}
	}
}

func firstSentence(s string) string {
	first, _, _ := strings.Cut(s, "\n")
	return first
}
