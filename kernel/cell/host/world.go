// Package host is the compiled world that cells may use: the types of an
// allow-list of packages for checking a cell, and their compiled functions
// for running it.
//
// A World is what one needs of it:
//
//	w, err := host.Load()
//	conf := types.Config{Importer: w.Importer()}
//	…
//	sqrt, ok := w.Host("ohmwright/units", "Sqrt") // a reflect.Value to call
//
// Packages outside the list, os for one, cannot be imported:
//
//	_, err := w.Importer().Import("os")
//	// package os is not available in cells, because a note is a calculation: …
//
// Nothing here reads a file or runs the Go tool: the data is embedded, and
// what is not in the tables cannot be called. Which packages and functions
// are in them is decided in allow. A compiled function cannot be stopped once
// it runs; Cost says beforehand what it may make of its arguments.
//
// The embedded files are generated: run go generate here after any change
// of units, of a lib package or of builtin.
package host

//go:generate go run ./generate

import (
	"bytes"
	"compress/gzip"
	_ "embed"
	"fmt"
	"go/token"
	"go/types"
	"io"
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"

	"golang.org/x/tools/go/gcexportdata"

	"ohmwright/kernel/cell/host/allow"
	"ohmwright/kernel/cell/host/symbols"
)

//go:embed export.bin
var exportData []byte

// World holds the packages that cells may use. It never changes after Load
// and may be used from several goroutines at once. Types of two Worlds are
// different types: a program needs one World.
//
// Objects have no positions; see Doc for where they stand.
type World struct {
	packages map[string]*types.Package // by import path, all complete
	byName   map[string]*types.Package // those in scope without an import
	builtins map[string]types.Object
	quantity *types.Named
	tables   map[string]func() map[string]reflect.Value
}

// Load reads the embedded export data.
func Load() (*World, error) {
	loaded, err := readPackages()
	if err != nil {
		return nil, fmt.Errorf("embedded export data: %w", err)
	}
	w := &World{
		packages: loaded,
		byName:   map[string]*types.Package{},
		tables:   map[string]func() map[string]reflect.Value{},
	}
	u := w.packages[allow.Units]
	if u == nil || w.packages[allow.Builtin] == nil {
		return nil, fmt.Errorf("embedded export data: it lacks %s or %s", allow.Units, allow.Builtin)
	}
	q, ok := u.Scope().Lookup("Quantity").(*types.TypeName)
	if !ok {
		return nil, fmt.Errorf("embedded export data: %s has no type Quantity", allow.Units)
	}
	w.quantity = q.Type().(*types.Named)
	// To the checker a Quantity is a number, so that go/types itself checks
	// the arithmetic and infers the types. Its methods stay.
	w.quantity.SetUnderlying(types.Typ[types.Float64])
	for path, p := range w.packages {
		if allow.InScope(path) {
			w.byName[p.Name()] = p
		}
		w.tables[path] = sync.OnceValue(func() map[string]reflect.Value { return symbols.Table(path) })
	}
	w.builtins = builtinObjects(w)
	return w, nil
}

// readPackages decodes the packages of the allow-list, by import path.
func readPackages() (map[string]*types.Package, error) {
	r, err := gzip.NewReader(bytes.NewReader(exportData))
	if err != nil {
		return nil, err
	}
	data, err := io.ReadAll(r)
	if err != nil {
		return nil, err
	}
	_, data, _ = bytes.Cut(data, []byte("\n")) // the Go release is for the generator
	// Packages that are only mentioned, such as io for io.Writer, come into
	// all as far as they are mentioned.
	all := map[string]*types.Package{}
	listed := map[string]*types.Package{}
	fset := token.NewFileSet()
	for len(data) > 0 {
		line, rest, _ := bytes.Cut(data, []byte("\n"))
		path, length, _ := strings.Cut(string(line), " ")
		n, err := strconv.Atoi(length)
		if err != nil || n > len(rest) {
			return nil, fmt.Errorf("bad entry %q", line)
		}
		if listed[path], err = gcexportdata.Read(bytes.NewReader(rest[:n]), fset, all, path); err != nil {
			return nil, fmt.Errorf("%s: %w", path, err)
		}
		data = rest[n:]
	}
	return listed, nil
}

// Quantity returns units.Quantity as the checker sees it: its underlying type
// is float64, its methods are those of the compiled type.
func (w *World) Quantity() *types.Named { return w.quantity }

// Paths returns the import paths that a cell may write, sorted.
func (w *World) Paths() []string { return slices.Sorted(maps.Keys(w.packages)) }

// Package returns the package that is in scope under its name without an
// import: the packages of lib, units, and the standard packages of the
// allow-list but for a few with common names; nil if there is none.
func (w *World) Package(name string) *types.Package { return w.byName[name] }

// PackageNames returns the names that Package knows, sorted.
func (w *World) PackageNames() []string { return slices.Sorted(maps.Keys(w.byName)) }
