package main

import (
	"bytes"
	"errors"
	"fmt"
	"go/ast"
	"go/format"
	"go/parser"
	"go/token"
	"go/types"
	"maps"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"ohmwright/kernel/cell/host/allow"
)

// symbolTables lets yaegi's extractor list the compiled symbols of each
// package, and keeps of its output what cells may use. The extractor offers
// whole packages; it adds constants, which export data has already, and
// fills a global map at start-up, where a table a package that is built when
// it is first asked for costs a program nothing.
func symbolTables(host string, pkgs []*source) ([]byte, error) {
	// The extractor writes into its working directory and finds our packages
	// only from inside the module.
	dir, err := os.MkdirTemp(host, ".extract-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	args := []string{"tool", "yaegi", "extract", "-name", "symbols"}
	for _, p := range pkgs {
		args = append(args, p.ImportPath)
	}
	cmd := exec.Command("go", args...)
	cmd.Dir = dir
	// It leaves with status 0 where it could not read a package, and says so on
	// standard error only, where the go tool tells of its downloads as well.
	out, err := cmd.CombinedOutput()
	said := slices.DeleteFunc(strings.Split(strings.TrimSpace(string(out)), "\n"), func(line string) bool {
		return line == "" || strings.HasPrefix(line, "go: downloading ")
	})
	if err != nil || len(said) > 0 {
		return nil, fmt.Errorf("go tool yaegi extract: %w", errors.Join(err, errors.New(strings.Join(said, "\n"))))
	}
	s := selection{fset: token.NewFileSet(), imports: map[string]string{"reflect": "reflect"}}
	for _, p := range pkgs {
		name := strings.NewReplacer("/", "-", ".", "_", "~", "_").Replace(p.ImportPath) + ".go"
		if err := s.pick(filepath.Join(dir, name), p.types); err != nil {
			return nil, fmt.Errorf("%s: %w", p.ImportPath, err)
		}
	}
	return s.source()
}

// selection is what is kept of the extractor's files.
type selection struct {
	fset    *token.FileSet
	imports map[string]string // by name
	tables  []table
	types   bytes.Buffer // wrapper types
	sources []string     // packages that embed their source, as import path and name
}

type table struct {
	path    string
	entries []string
}

func (s *selection) pick(file string, pkg *types.Package) error {
	f, err := parser.ParseFile(s.fset, file, nil, parser.SkipObjectResolution)
	if err != nil {
		return err
	}
	t := table{path: pkg.Path()}
	var kept []ast.Node
	wrappers := map[string]bool{}
	ast.Inspect(f, func(n ast.Node) bool {
		kv, ok := n.(*ast.KeyValueExpr)
		if !ok {
			return true
		}
		key, err := strconv.Unquote(kv.Key.(*ast.BasicLit).Value)
		if err != nil || !offered(pkg, strings.TrimPrefix(key, "_")) {
			return false
		}
		if strings.HasPrefix(key, "_") {
			wrappers[wrapperType(kv.Value)] = true
		}
		kept = append(kept, kv)
		t.entries = append(t.entries, s.print(kv))
		return false
	})
	for _, d := range f.Decls {
		if wrappers[declared(d)] {
			kept = append(kept, d)
			s.types.WriteString("\n" + s.print(d) + "\n")
		}
	}
	if len(t.entries) > 0 {
		s.tables = append(s.tables, t)
	}
	if v, ok := pkg.Scope().Lookup("Source").(*types.Var); ok && v.Type().String() == "embed.FS" {
		s.sources = append(s.sources, pkg.Path())
		s.imports["embed"], s.imports[pkg.Name()] = "embed", pkg.Path()
	}
	s.needImports(f, kept)
	return nil
}

// offered reports whether the symbol goes into the tables.
func offered(pkg *types.Package, name string) bool {
	obj := pkg.Scope().Lookup(name)
	if obj == nil || allow.Object(obj) != nil {
		return false
	}
	_, isConst := obj.(*types.Const)
	return !isConst
}

// wrapperType is the T in reflect.ValueOf((*T)(nil)).
func wrapperType(e ast.Expr) (name string) {
	ast.Inspect(e, func(n ast.Node) bool {
		if star, ok := n.(*ast.StarExpr); ok {
			name = star.X.(*ast.Ident).Name
		}
		return true
	})
	return name
}

// declared is the type that a declaration declares or adds a method to.
func declared(d ast.Decl) string {
	switch d := d.(type) {
	case *ast.GenDecl:
		if spec, ok := d.Specs[0].(*ast.TypeSpec); ok {
			return spec.Name.Name
		}
	case *ast.FuncDecl:
		if d.Recv != nil {
			return d.Recv.List[0].Type.(*ast.Ident).Name
		}
	}
	return ""
}

// needImports notes the imports of f that the kept parts of it use.
func (s *selection) needImports(f *ast.File, kept []ast.Node) {
	byName := map[string]string{}
	for _, imp := range f.Imports {
		p, _ := strconv.Unquote(imp.Path.Value)
		byName[path.Base(p)] = p
	}
	for _, n := range kept {
		ast.Inspect(n, func(n ast.Node) bool {
			if sel, ok := n.(*ast.SelectorExpr); ok {
				if id, ok := sel.X.(*ast.Ident); ok && byName[id.Name] != "" {
					s.imports[id.Name] = byName[id.Name]
				}
			}
			return true
		})
	}
}

func (s *selection) print(n ast.Node) string {
	var b strings.Builder
	if err := format.Node(&b, s.fset, n); err != nil {
		panic(err) // what the parser made, the printer prints
	}
	return b.String()
}

// source writes the tables as one Go file.
func (s *selection) source() ([]byte, error) {
	var b bytes.Buffer
	b.WriteString(`// Code generated by go run ./generate from the output of yaegi extract. DO NOT EDIT.

// Package symbols holds the compiled functions, variables and types that
// cells may use, in the form of yaegi's symbol tables: a function by its
// value, a variable by its place, a type as a nil pointer to it, and under
// its name with an underscore before it the wrapper of an interface.
package symbols

import (
`)
	for _, p := range slices.Sorted(maps.Values(s.imports)) {
		fmt.Fprintf(&b, "\t%q\n", p)
	}
	b.WriteString(`)

// Table returns a new table of the package's symbols by name; nil if there
// are none.
func Table(path string) map[string]reflect.Value {
	switch path {
`)
	for _, t := range s.tables {
		fmt.Fprintf(&b, "\tcase %q:\n\t\treturn map[string]reflect.Value{\n", t.path)
		for _, e := range t.entries {
			b.WriteString("\t\t\t" + e + ",\n")
		}
		b.WriteString("\t\t}\n")
	}
	b.WriteString("\t}\n\treturn nil\n}\n")
	b.WriteString("\n// Source returns the package's own source, nil where it embeds none.\n" +
		"func Source(path string) *embed.FS {\n\tswitch path {\n")
	for _, p := range s.sources {
		fmt.Fprintf(&b, "\tcase %q:\n\t\treturn &%s.Source\n", p, path.Base(p))
	}
	b.WriteString("\t}\n\treturn nil\n}\n")
	b.Write(s.types.Bytes())
	return format.Source(b.Bytes())
}
