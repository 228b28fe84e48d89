package note_test

import (
	"context"
	"go/ast"
	"go/token"
	"go/types"
	"slices"
	"strings"
	"testing"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/note"
)

// refusals holds the programs that a cell does not take although they are
// good Go, with a part of the message and why that is meant to be so.
var refusals = map[string]struct{ message, reason string }{
	"const_division_untyped": {"7/2 is a division of whole numbers, which Go cuts to 3", "such a division is silently wrong in a calculation"},
	"const_division_kinds":   {"a/b is a division of whole numbers, which Go cuts to 2", "the same behind names"},

	"fmt_formatter_and_gostringer": {"fmt.State is not available in cells", "a formatter writes piecewise into the printer that calls it"},
	"fmt_scan_errors":              {"fmt.Sscanf is not available in cells", "scanning writes through pointers from compiled code"},
	"fmt_sscan_and_sscanf":         {"fmt.Sscan is not available in cells", "scanning writes through pointers from compiled code"},
	"string_builder":               {"fmt.Fprintf is not available in cells", "cells have no streams"},

	"generic_reduce_over_func_iterator": {"strings.FieldsSeq is not available in cells", "the iterators of Go's iter package are generic types"},
	"library_iterators":                 {"strings.SplitSeq is not available in cells", "the iterators of Go's iter package are generic types"},
	"generic_ordered_and_comparable":    {"cmp.Compare is not available in cells", "generic compiled code cannot be called"},
	"library_types_and_variables":       {"unicode.Han is not available in cells", "the tables of package unicode could be changed for everyone"},

	"scope_package_level": {"table is a function that changes total each time it is called", "a value with a memory of its own would make results depend on the order of running"},
}

// unlike holds the programs of which Go's specification lets more than one output be right.
var unlike = map[string]string{
	"string_append_to_bytes": "the order of a conversion and a call that changes its operand is not specified",
}

// printedBy runs cells and gives what they print, in the order in which they
// ran, with the value of a panic at its end as the go command's programs have it.
func printedBy(codes ...string) (string, []*cell.Error) {
	var out strings.Builder
	n := note.New(note.Options{World: world, Printed: func(_, text string) { out.WriteString(text) }})
	n.Set(sources(codes...))
	var errs []*cell.Error
	for _, r := range n.Run(context.Background()) {
		errs = append(errs, r.Errors...)
	}
	if len(errs) == 1 && errs[0].Code == cell.CodePanic {
		return out.String() + uncaught + strings.TrimPrefix(errs[0].Msg, "panic: "), nil
	}
	return out.String(), errs
}

// imports gives the import lines of a program.
func (p *goProgram) imports() string {
	var b strings.Builder
	for _, d := range p.file.Decls {
		if g, ok := d.(*ast.GenDecl); ok && g.Tok == token.IMPORT {
			b.WriteString(p.text(g) + "\n")
		}
	}
	return b.String()
}

func (p *goProgram) text(n ast.Node) string {
	return p.src[p.fset.Position(n.Pos()).Offset:p.fset.Position(n.End()).Offset]
}

// asCell is the program as one cell that calls its main.
func (p *goProgram) asCell() string {
	after := p.file.Name.End()
	for _, d := range p.file.Decls {
		if g, ok := d.(*ast.GenDecl); ok && g.Tok == token.IMPORT {
			after = g.End()
		}
	}
	return p.imports() + p.src[p.fset.Position(after).Offset:] + "\nmain()\n"
}

// TestGoProgramsAsCells runs every program of the executor's tests through the
// whole pipeline of a cell: it prints what Go prints.
func TestGoProgramsAsCells(t *testing.T) {
	t.Parallel()
	used := 0
	for _, p := range corpus(t) {
		if _, ok := refusals[p.name]; ok {
			used++
		}
		t.Run(p.name, func(t *testing.T) {
			t.Parallel()
			got, errs := printedBy(p.asCell())
			p.compare(t, got, errs)
		})
	}
	if used != len(refusals) {
		t.Errorf("the table of refusals names %d programs, %d of them exist", len(refusals), used)
	}
}

// compare holds what cells printed against what Go printed, or their error
// against the refusal that is meant.
func (p *goProgram) compare(t *testing.T, got string, errs []*cell.Error) {
	t.Helper()
	if r, ok := refusals[p.name]; ok {
		if !slices.ContainsFunc(errs, func(e *cell.Error) bool { return strings.Contains(e.Error(), r.message) }) {
			t.Errorf("is not refused with %q, as it should be (%s): %v", r.message, r.reason, errs)
		}
		return
	}
	if len(errs) > 0 {
		for _, e := range errs {
			t.Errorf("%s %d:%d: %s %s", e.Cell, e.Line, e.Column, e.Code, e)
		}
		return
	}
	if unlike[p.name] == "" && got != p.want {
		t.Errorf("the cells printed\n%s\nGo printed\n%s", got, p.want)
	}
}

// TestGoProgramsAsManyCells makes a cell of every declaration of those
// programs, as far as they do not change each other's variables, and calls
// main in one more: types, methods, functions and generics are shared between
// cells, and the order of the cells does not matter.
func TestGoProgramsAsManyCells(t *testing.T) {
	t.Parallel()
	divided := 0
	for _, p := range corpus(t) {
		cells, err := p.asCells()
		if err != nil {
			t.Errorf("%s: %v", p.name, err)
			continue
		}
		if len(cells) < 3 {
			continue // the declarations are one cell
		}
		divided++
		t.Run(p.name, func(t *testing.T) {
			t.Parallel()
			got, errs := printedBy(cells...)
			p.compare(t, got, errs)
			if t.Failed() {
				t.Logf("in cells:\n%s", strings.Join(cells, "\n-----\n"))
				return
			}
			slices.Reverse(cells)
			again, errs := printedBy(cells...)
			p.compare(t, again, errs)
		})
	}
	if divided < 100 {
		t.Errorf("only %d programs could be divided", divided)
	}
}

// asCells divides a program: what needs each other, and what changes a
// variable, stands in one cell.
func (p *goProgram) asCells() ([]string, error) {
	info := &types.Info{Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{}, Selections: map[*ast.SelectorExpr]*types.Selection{}}
	conf := types.Config{Importer: world.Importer(), GoVersion: "go1.26"}
	if _, err := conf.Check("main", p.fset, []*ast.File{p.file}, info); err != nil {
		return nil, err
	}
	var decls []ast.Decl
	owner := map[types.Object]int{} // declaration that defines a top-level name
	for _, d := range p.file.Decls {
		if g, ok := d.(*ast.GenDecl); ok {
			if g.Tok == token.IMPORT {
				continue
			}
			for _, s := range g.Specs {
				switch s := s.(type) {
				case *ast.TypeSpec:
					owner[info.Defs[s.Name]] = len(decls)
				case *ast.ValueSpec:
					for _, id := range s.Names {
						owner[info.Defs[id]] = len(decls)
					}
				}
			}
		} else if f := d.(*ast.FuncDecl); f.Recv == nil {
			owner[info.Defs[f.Name]] = len(decls)
		}
		decls = append(decls, d)
	}
	// uses[i][j]: declaration i uses a name of j; an edge both ways joins them.
	uses := make([]map[int]bool, len(decls))
	for i := range uses {
		uses[i] = map[int]bool{}
	}
	join := func(i, j int) { uses[i][j], uses[j][i] = true, true }
	for i, d := range decls {
		if f, ok := d.(*ast.FuncDecl); ok && f.Recv != nil {
			ast.Inspect(f.Recv.List[0].Type, func(n ast.Node) bool {
				if id, ok := n.(*ast.Ident); ok {
					if j, ok := owner[info.Uses[id]]; ok {
						join(i, j)
					}
				}
				return true
			})
		}
		ast.Inspect(d, func(n ast.Node) bool {
			if id, ok := n.(*ast.Ident); ok {
				if j, ok := owner[info.Uses[id]]; ok {
					uses[i][j] = true
					// Other cells get copies: whoever may change a variable stands with it.
					if v, ok := info.Uses[id].(*types.Var); ok && changeable(v.Type()) {
						join(i, j)
					}
				}
			}
			for _, v := range changed(info, n) {
				if j, ok := owner[v]; ok {
					join(i, j)
				}
			}
			return true
		})
	}
	var cells []string
	done := make([]bool, len(decls))
	reach := func(from int) []bool {
		seen := make([]bool, len(decls))
		var visit func(int)
		visit = func(i int) {
			if !seen[i] {
				seen[i] = true
				for j := range uses[i] {
					visit(j)
				}
			}
		}
		visit(from)
		return seen
	}
	all := make([][]bool, len(decls))
	for i := range decls {
		all[i] = reach(i)
	}
	for i := range decls {
		if done[i] {
			continue
		}
		text := p.imports()
		for j := i; j < len(decls); j++ {
			if all[i][j] && all[j][i] {
				done[j] = true
				text += p.text(decls[j]) + "\n"
			}
		}
		cells = append(cells, text)
	}
	return append(cells, "main()\n"), nil
}

// changeable reports whether what a variable holds can be changed through a
// copy of it.
func changeable(t types.Type) bool {
	switch u := t.Underlying().(type) {
	case *types.Basic:
		return false
	case *types.Array:
		return changeable(u.Elem())
	case *types.Struct:
		for i := range u.NumFields() {
			if changeable(u.Field(i).Type()) {
				return true
			}
		}
		return false
	}
	return true
}

// changed lists the variables that a node assigns to or takes the address of.
func changed(info *types.Info, n ast.Node) []types.Object {
	var roots []ast.Expr
	switch x := n.(type) {
	case *ast.AssignStmt:
		roots = x.Lhs
	case *ast.IncDecStmt:
		roots = []ast.Expr{x.X}
	case *ast.RangeStmt:
		roots = []ast.Expr{x.Key, x.Value}
	case *ast.UnaryExpr:
		if x.Op == token.AND {
			roots = []ast.Expr{x.X}
		}
	case *ast.SelectorExpr:
		if s := info.Selections[x]; s != nil && s.Kind() == types.MethodVal {
			if _, ok := s.Obj().(*types.Func).Signature().Recv().Type().(*types.Pointer); ok {
				roots = []ast.Expr{x.X}
			}
		}
	case *ast.SliceExpr:
		roots = []ast.Expr{x.X}
	}
	var objs []types.Object
	for _, e := range roots {
		if id := rootOf(e); id != nil {
			objs = append(objs, info.Uses[id])
		}
	}
	return objs
}

func rootOf(e ast.Expr) *ast.Ident {
	for {
		switch x := e.(type) {
		case *ast.Ident:
			return x
		case *ast.ParenExpr:
			e = x.X
		case *ast.SelectorExpr:
			e = x.X
		case *ast.IndexExpr:
			e = x.X
		case *ast.StarExpr:
			e = x.X
		default:
			return nil
		}
	}
}
