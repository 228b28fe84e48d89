package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"ohmwright/kernel/cell/host/allow"
)

// source is one package, parsed and type-checked.
type source struct {
	ImportPath string
	Name       string
	Dir        string
	GoFiles    []string
	ImportMap  map[string]string // import path as written → as found
	DepOnly    bool              // only imported by what was asked for

	fset   *token.FileSet
	syntax []*ast.File
	types  *types.Package
}

// load type-checks the packages that cells may use, from source, and returns
// them sorted by import path.
func load(root string) ([]*source, error) {
	args := []string{"list", "-deps", "-json=ImportPath,Name,Dir,GoFiles,ImportMap,DepOnly"}
	args = append(append(args, allow.Standard()...), allow.Units, allow.Builtin)
	if _, err := os.Stat(filepath.Join(root, "lib")); err == nil {
		args = append(args, "./lib/...")
	}
	cmd := exec.Command("go", args...)
	cmd.Dir = root
	// The files of one platform stand for all: cells compute alike everywhere.
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOARCH=amd64", "GOOS=linux")
	var out, talk bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &talk
	if err := cmd.Run(); err != nil {
		return nil, fmt.Errorf("go list: %w\n%s", err, talk.String())
	}
	var asked []*source
	done := map[string]*types.Package{"unsafe": types.Unsafe}
	fset := token.NewFileSet()
	for dec := json.NewDecoder(&out); ; { // imported packages come before those that import them
		p := &source{fset: fset}
		if err := dec.Decode(p); err == io.EOF {
			break
		} else if err != nil {
			return nil, fmt.Errorf("go list: %w", err)
		}
		if p.ImportPath == "unsafe" {
			continue
		}
		if err := p.check(done); err != nil {
			return nil, err
		}
		if !p.DepOnly && allow.Path(p.ImportPath) {
			asked = append(asked, p)
		}
	}
	slices.SortFunc(asked, func(a, b *source) int { return strings.Compare(a.ImportPath, b.ImportPath) })
	return asked, nil
}

// check parses and type-checks p and adds it to done. Bodies of functions
// are the compiler's business.
func (p *source) check(done map[string]*types.Package) error {
	for _, name := range p.GoFiles {
		f, err := parser.ParseFile(p.fset, filepath.Join(p.Dir, name), nil, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		p.syntax = append(p.syntax, f)
	}
	var errs []error
	conf := types.Config{
		IgnoreFuncBodies: true,
		FakeImportC:      true,
		Sizes:            types.SizesFor("gc", "amd64"),
		Error:            func(err error) { errs = append(errs, err) },
		Importer: importerFunc(func(path string) (*types.Package, error) {
			if found, ok := p.ImportMap[path]; ok {
				path = found
			}
			if pkg := done[path]; pkg != nil {
				return pkg, nil
			}
			return nil, fmt.Errorf("package %s was not listed", path)
		}),
	}
	p.types, _ = conf.Check(p.ImportPath, p.fset, p.syntax, nil)
	done[p.ImportPath] = p.types
	return errors.Join(errs...)
}

type importerFunc func(path string) (*types.Package, error)

func (f importerFunc) Import(path string) (*types.Package, error) { return f(path) }

// audit returns what in our own packages cells could not use or could do
// harm with.
func audit(pkgs []*source) (problems []string) {
	names := map[string]string{}
	var quantity types.Type
	for _, p := range pkgs {
		if p.ImportPath == allow.Units {
			quantity = p.types.Scope().Lookup("Quantity").Type()
		}
	}
	for _, p := range pkgs {
		if other, ok := names[p.Name]; ok {
			problems = append(problems, fmt.Sprintf("%s: has the same name as %s", p.ImportPath, other))
		}
		names[p.Name] = p.ImportPath
		if slices.Contains(allow.Standard(), p.ImportPath) {
			continue
		}
		scope := p.types.Scope()
		for _, name := range scope.Names() {
			if obj := scope.Lookup(name); obj.Exported() {
				if why := unfit(obj, quantity); why != "" {
					problems = append(problems, fmt.Sprintf("%s.%s: %s", p.ImportPath, name, why))
				}
			}
		}
	}
	return problems
}

// unfit says what is wrong with an exported object of units, builtin or lib.
func unfit(obj types.Object, quantity types.Type) string {
	if allow.Generic(obj) {
		return "generic, so cells could not use it"
	}
	if allow.Object(obj) != nil {
		return "" // cells do not get it
	}
	switch obj := obj.(type) {
	case *types.Var:
		switch obj.Type().Underlying().(type) {
		case *types.Map, *types.Slice, *types.Pointer, *types.Chan:
			return "a variable that cells could change for everyone; make it a function or a type with unexported fields"
		}
	case *types.TypeName:
		// The checker sees Quantity as a number; a type made from it would
		// keep the struct and compute with neither.
		named, ok := types.Unalias(obj.Type()).(*types.Named)
		if ok && !obj.IsAlias() && named != quantity && types.Identical(named.Underlying(), quantity.Underlying()) {
			return "a type defined from Quantity, which the checker cannot follow; put the Quantity into a field"
		}
	}
	return ""
}
