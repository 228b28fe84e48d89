package note

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"slices"
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/host"
)

// Step is one formula of a lib function, as its source computes it.
type Step struct {
	Name    string     // what it gives: a field of the result, or a value on the way
	Formula *cell.Expr // without values
	When    *cell.Expr // a condition under which it is computed; nil: always
	Else    bool       // computed where When does not hold
}

// lesson draws the steps of a function from its package's own source, and
// gives that source. A function that repeats something or chooses between
// cases by more than a condition has no such steps: its comment tells.
func lesson(w *host.World, path, name string) (steps []Step, source string) {
	files, ok := w.Source(path)
	if !ok {
		return nil, ""
	}
	p := &lessonPackage{fset: token.NewFileSet(), funcs: map[string]*ast.FuncDecl{}, texts: map[string]string{}}
	if err := p.read(files); err != nil {
		return nil, "" // a test reads them all
	}
	f := p.funcs[name]
	if f == nil {
		return nil, ""
	}
	r := &stepReader{pkg: p, names: map[string]*cell.Expr{}, fields: map[string]string{}}
	for _, param := range f.Type.Params.List {
		for _, id := range param.Names {
			if s, ok := param.Type.(*ast.Ident); ok && strings.HasSuffix(s.Name, "Inputs") {
				r.inputs = id.Name
			}
		}
	}
	if !r.function(f, name, 0) || r.failed {
		r.steps = nil
	}
	for i := range r.steps {
		s := &r.steps[i]
		r.rename(s)
		if mentions(s.Formula, s.Name) { // x = x + y is no formula
			return nil, p.texts[name]
		}
		// A value that a condition replaces is that of the other case.
		if i > 0 && s.When != nil && r.steps[i-1].Name == s.Name && r.steps[i-1].When == nil {
			r.steps[i-1].When, r.steps[i-1].Else = s.When, !s.Else
		}
	}
	return r.steps, p.texts[name]
}

// mentions reports whether a name stands in a formula.
func mentions(e *cell.Expr, name string) bool {
	return e != nil && (e.Kind == cell.ExprName && e.Text == name ||
		slices.ContainsFunc(e.Args, func(a *cell.Expr) bool { return mentions(a, name) }))
}

type lessonPackage struct {
	fset  *token.FileSet
	funcs map[string]*ast.FuncDecl
	texts map[string]string
}

func (p *lessonPackage) read(files fs.ReadFileFS) error {
	names, err := fs.Glob(files, "*.go")
	if err != nil {
		return err
	}
	for _, name := range names {
		text, err := files.ReadFile(name)
		if err != nil {
			return err
		}
		f, err := parser.ParseFile(p.fset, name, text, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		for _, d := range f.Decls {
			if d, ok := d.(*ast.FuncDecl); ok && d.Recv == nil {
				p.funcs[d.Name.Name] = d
				p.texts[d.Name.Name] = string(text[p.fset.Position(d.Pos()).Offset:p.fset.Position(d.End()).Offset])
			}
		}
	}
	return nil
}

// stepReader follows a function.
type stepReader struct {
	pkg    *lessonPackage
	inputs string                // the parameter whose fields are the arguments
	names  map[string]*cell.Expr // locals that only rename something
	fields map[string]string     // locals by the field of the result that takes them
	steps  []Step
	when   *cell.Expr
	other  bool
	failed bool // something has no form as a formula
}

// function follows a body to its last return; result names what a bare
// expression there gives.
func (r *stepReader) function(f *ast.FuncDecl, result string, depth int) bool {
	if depth > 3 || f.Body == nil {
		return false
	}
	changed := reassigned(f.Body)
	for _, s := range f.Body.List {
		if ret, ok := s.(*ast.ReturnStmt); ok {
			return r.result(ret, result, depth)
		}
		r.statement(s, changed)
		if r.failed {
			return false
		}
	}
	return false
}

// reassigned lists the locals that are set more than once.
func reassigned(body *ast.BlockStmt) map[string]bool {
	sets := map[string]int{}
	ast.Inspect(body, func(n ast.Node) bool {
		if a, ok := n.(*ast.AssignStmt); ok {
			for _, l := range a.Lhs {
				if id, ok := l.(*ast.Ident); ok {
					sets[id.Name]++
				}
			}
		}
		return true
	})
	many := map[string]bool{}
	for name, n := range sets {
		many[name] = n > 1
	}
	return many
}

func (r *stepReader) statement(s ast.Stmt, changed map[string]bool) {
	switch s := s.(type) {
	case *ast.AssignStmt:
		if len(s.Lhs) == 2 && len(s.Rhs) == 1 { // a value that can fail: the formula is that of the value
			s = &ast.AssignStmt{Lhs: s.Lhs[:1], Rhs: s.Rhs, Tok: s.Tok}
		}
		if len(s.Lhs) != len(s.Rhs) || s.Tok != token.DEFINE && s.Tok != token.ASSIGN {
			r.failed = true
			return
		}
		for i, l := range s.Lhs {
			id, ok := l.(*ast.Ident)
			if !ok {
				r.failed = true
				return
			}
			if id.Name == "err" || id.Name == "_" {
				continue
			}
			e := r.expr(s.Rhs[i], 0)
			if r.failed {
				return
			}
			if zero(e) {
				e = &cell.Expr{Kind: cell.ExprNumber, Text: "0"}
			}
			switch known := r.names[id.Name] != nil || r.has(id.Name); {
			case known && !changed[id.Name]:
				continue // a helper finds again what it was given
			case (e.Kind == cell.ExprName || e.Kind == cell.ExprNumber) && !changed[id.Name]:
				r.names[id.Name] = e
				continue
			}
			r.steps = append(r.steps, Step{Name: id.Name, Formula: e, When: r.when, Else: r.other})
		}
	case *ast.IfStmt:
		if refuses(s.Body) {
			return // bad arguments
		}
		if s.Init != nil || r.when != nil {
			r.failed = true
			return
		}
		r.when = r.expr(s.Cond, 0)
		for _, inner := range s.Body.List {
			r.statement(inner, changed)
		}
		if block, ok := s.Else.(*ast.BlockStmt); ok {
			r.other = true
			for _, inner := range block.List {
				r.statement(inner, changed)
			}
		} else if s.Else != nil {
			r.failed = true
		}
		r.when, r.other = nil, false
	case *ast.DeclStmt: // a constant for messages, a zero
	default:
		r.failed = true
	}
}

// zero reports whether an expression is x − x, a zero with the unit of x.
func zero(e *cell.Expr) bool {
	return e.Kind == cell.ExprBinary && e.Text == "-" && e.Args[0].Kind == cell.ExprName && e.Args[1].Kind == cell.ExprName && e.Args[0].Text == e.Args[1].Text
}

// has reports whether a step gives the name already.
func (r *stepReader) has(name string) bool {
	return slices.ContainsFunc(r.steps, func(s Step) bool { return s.Name == name })
}

// refuses reports whether a block does nothing but return an error.
func refuses(b *ast.BlockStmt) bool {
	if len(b.List) == 0 {
		return false
	}
	ret, ok := b.List[len(b.List)-1].(*ast.ReturnStmt)
	if !ok || len(ret.Results) < 2 {
		return false
	}
	id, isName := ret.Results[len(ret.Results)-1].(*ast.Ident)
	return !isName || id.Name != "nil"
}

// result reads the last return.
func (r *stepReader) result(ret *ast.ReturnStmt, name string, depth int) bool {
	if len(ret.Results) == 0 {
		return false
	}
	switch x := ret.Results[0].(type) {
	case *ast.CompositeLit:
		for _, e := range x.Elts {
			kv, ok := e.(*ast.KeyValueExpr)
			if !ok {
				return false
			}
			field := kv.Key.(*ast.Ident).Name
			if id, ok := kv.Value.(*ast.Ident); ok && (r.names[id.Name] == nil || r.has(id.Name)) {
				r.fields[id.Name] = field
				continue
			}
			if v := r.expr(kv.Value, 0); v.Kind != cell.ExprName {
				r.steps = append(r.steps, Step{Name: field, Formula: v})
			}
		}
		return len(r.steps) > 0 && !r.failed
	case *ast.Ident:
		return len(r.steps) > 0
	case *ast.CallExpr:
		if f := r.helper(x); f != nil && len(f.Body.List) > 1 {
			r.bind(f, x.Args)
			return !r.failed && r.function(f, name, depth+1)
		}
	}
	r.steps = append(r.steps, Step{Name: name, Formula: r.expr(ret.Results[0], 0)})
	return !r.failed
}

// helper is the function of the package that a call calls.
func (r *stepReader) helper(call *ast.CallExpr) *ast.FuncDecl {
	if id, ok := call.Fun.(*ast.Ident); ok {
		return r.pkg.funcs[id.Name]
	}
	return nil
}

// bind gives the parameters of a helper the arguments of its call.
func (r *stepReader) bind(f *ast.FuncDecl, args []ast.Expr) {
	values := make([]*cell.Expr, len(args))
	for i, a := range args {
		values[i] = r.expr(a, 0)
	}
	i := 0
	for _, p := range f.Type.Params.List {
		for _, id := range p.Names {
			if i >= len(values) {
				r.failed = true
				return
			}
			if values[i].Kind != cell.ExprName || values[i].Text != id.Name {
				r.names[id.Name] = values[i]
			}
			i++
		}
	}
}

// rename calls locals by the field of the result that takes them.
func (r *stepReader) rename(s *Step) {
	if f := r.fields[s.Name]; f != "" {
		s.Name = f
	}
	seen := map[*cell.Expr]bool{}
	var walk func(e *cell.Expr)
	walk = func(e *cell.Expr) {
		if e == nil || seen[e] {
			return
		}
		seen[e] = true
		if f := r.fields[e.Text]; f != "" && e.Kind == cell.ExprName {
			e.Text = f
		}
		for _, a := range e.Args {
			walk(a)
		}
	}
	walk(s.Formula)
	walk(s.When)
}
