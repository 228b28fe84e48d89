package inside

import (
	"go/ast"
	"go/types"
	"maps"
	"slices"

	"ohmwright/kernel/cell"
)

// given is what a variable stands for in formulas. A structure has nothing
// before the names of its fields if x is nil, or has them in fields.
type given struct {
	x      *cell.Expr
	fields map[string]given
}

// entrance is a helper that has been read.
type entrance struct {
	args []given
	to   []target
}

// enter reads the helper that a call calls, where its source is here and it
// does more than return one expression; to gets its results. If it cannot be
// followed, all is as before and there is no entrance. What it was asked before
// it need not be asked again.
func (r *reader) enter(call *ast.CallExpr, to []target) *entrance {
	f := r.helper(call)
	if f == nil || r.depth >= deepestHelper || r.lost || single(f) != nil && drawn(r.info.TypeOf(call)) {
		return nil
	}
	before := *r
	before.owner, before.called = maps.Clone(r.owner), maps.Clone(r.called)
	in := &entrance{args: r.arguments(f, call), to: to}
	if was := r.entered[f]; was != nil {
		if r.lost || was.to == nil || to[0].object != nil || !slices.EqualFunc(was.args, in.args, given.same) {
			was, r.lost = nil, false
		}
		return was
	}
	r.entered[f] = &entrance{} // until it is read
	r.depth++
	if r.bind(f, in.args, true); !r.lost {
		r.body(f.Body.List, to)
	}
	r.depth--
	if !r.lost {
		if r.when == nil {
			r.entered[f] = in
		}
		return in
	}
	r.list, r.owner, r.called, r.when, r.other, r.lost = before.list, before.owner, before.called, before.when, before.other, false
	return nil
}

func (g given) same(h given) bool {
	return (g.x == nil) == (h.x == nil) && (g.x == nil || same(g.x, h.x)) && maps.EqualFunc(g.fields, h.fields, given.same)
}

// helper is the function that a call calls, where its source is here.
func (r *reader) helper(call *ast.CallExpr) *ast.FuncDecl {
	var id *ast.Ident
	switch f := ast.Unparen(call.Fun).(type) {
	case *ast.Ident:
		id = f
	case *ast.SelectorExpr:
		id = f.Sel
	default:
		return nil
	}
	f, ok := r.info.Uses[id].(*types.Func)
	if !ok || refuses(f.Signature()) {
		return nil
	}
	return r.notes.body[f]
}

// single is what a function of one line returns.
func single(f *ast.FuncDecl) ast.Expr {
	if len(f.Body.List) == 1 {
		if ret, ok := f.Body.List[0].(*ast.ReturnStmt); ok && len(ret.Results) == 1 {
			return ret.Results[0]
		}
	}
	return nil
}

// parameters are those of a function, its receiver first.
func parameters(f *ast.FuncDecl) (list []*ast.Ident) {
	if f.Recv != nil {
		list = append(list, f.Recv.List[0].Names...)
	}
	for _, p := range f.Type.Params.List {
		list = append(list, p.Names...)
	}
	return list
}

// arguments are what a call has for the parameters of a helper.
func (r *reader) arguments(f *ast.FuncDecl, call *ast.CallExpr) []given {
	args := call.Args
	if sel, ok := ast.Unparen(call.Fun).(*ast.SelectorExpr); ok && f.Recv != nil {
		args = append([]ast.Expr{sel.X}, args...)
	}
	if len(args) != len(parameters(f)) {
		r.lost = true
		return nil
	}
	list := make([]given, len(args))
	for i, a := range args {
		list[i] = r.value(a)
	}
	return list
}

// value is what an expression gives a parameter or a field.
func (r *reader) value(e ast.Expr) given {
	switch t := r.info.TypeOf(e); {
	case drawn(t):
		return given{x: r.draw(e, 1)}
	case isRecord(t):
		return r.recordOf(e)
	}
	return given{} // missed where a formula uses it
}

// bind gives the parameters of a helper their values. With steps an argument
// that is computed is a step of its own.
func (r *reader) bind(f *ast.FuncDecl, args []given, steps bool) {
	r.results(f)
	for i, id := range parameters(f) {
		o := r.info.Defs[id]
		if o == nil || r.lost { // a parameter without a name
			continue
		}
		delete(r.bound, o)
		x := args[i].x
		r.known[o] = isRecord(o.Type())
		switch {
		case steps && x != nil && drawn(o.Type()) && len(x.Args) > 0 && x.Kind != cell.ExprField:
			r.put(o, r.name(gift{id.Name, o}), x)
		case x != nil || args[i].fields != nil:
			r.bound[o] = args[i]
		}
	}
}

// results are known where they have names.
func (r *reader) results(f *ast.FuncDecl) {
	if f.Type.Results == nil {
		return
	}
	for _, p := range f.Type.Results.List {
		for _, id := range p.Names {
			o := r.info.Defs[id]
			r.known[o] = isRecord(o.Type())
			r.ours[o] = r.known[o]
		}
	}
}

// recordOf is a structure whose fields formulas use.
func (r *reader) recordOf(e ast.Expr) given {
	switch x := ast.Unparen(e).(type) {
	case *ast.Ident:
		o := r.info.Uses[x]
		if known := r.notes.alias[o]; known != nil {
			return r.recordOf(known)
		}
		if g, ok := r.bound[o]; ok || r.known[o] {
			return g
		}
	case *ast.SelectorExpr:
		return r.selected(x)
	case *ast.CallExpr:
		if r.enter(x, []target{{}}) != nil {
			return given{}
		}
	case *ast.CompositeLit:
		g := given{fields: map[string]given{}}
		for _, el := range x.Elts {
			if kv, ok := el.(*ast.KeyValueExpr); ok {
				g.fields[kv.Key.(*ast.Ident).Name] = r.value(kv.Value)
			} else {
				r.lost = true
			}
		}
		return g
	}
	r.lost = true
	return given{}
}

// selected is a field of a structure.
func (r *reader) selected(x *ast.SelectorExpr) given {
	base := r.recordOf(x.X)
	if g, ok := base.fields[x.Sel.Name]; ok {
		return g
	}
	if base.x == nil {
		if id, ok := ast.Unparen(x.X).(*ast.Ident); ok && !r.ours[r.info.Uses[id]] {
			if _, taken := r.owner[x.Sel.Name]; taken {
				r.lost = true // a step and what the function is given have one name
			}
		}
		return given{x: &cell.Expr{Kind: cell.ExprName, Text: x.Sel.Name}}
	}
	return given{x: &cell.Expr{Kind: cell.ExprField, Text: x.Sel.Name, Args: []*cell.Expr{base.x}}}
}

// own draws what stands for something else in a formula without numbers; nil
// is what is drawn as ever.
func (r *reader) own(e ast.Expr, depth int) *cell.Expr {
	switch x := e.(type) {
	case *ast.Ident:
		o := r.info.Uses[x]
		if g, ok := r.bound[o]; ok && g.x != nil {
			return g.x
		}
		if id, ok := r.notes.alias[o].(*ast.Ident); ok && r.notes.again[r.info.Uses[id]] {
			r.lost = true // the other one changes
		}
		if v, ok := o.(*types.Var); ok && r.notes.alias[o] == nil && v.Parent() != v.Pkg().Scope() && !r.known[o] {
			r.lost = true
		}
	case *ast.SelectorExpr:
		if isName(x.X) {
			if _, ok := r.info.Uses[ast.Unparen(x.X).(*ast.Ident)].(*types.PkgName); ok {
				return nil
			}
		}
		if g := r.selected(x); g.x != nil {
			return g.x
		}
		r.lost = true
	case *ast.CallExpr:
		switch f := ast.Unparen(x.Fun).(type) {
		case *ast.Ident:
			if _, ok := r.info.Uses[f].(*types.Var); ok { // a function of its own
				r.lost = true
			}
		case *ast.SelectorExpr:
			if s := r.info.Selections[f]; s != nil && isQuantity(s.Recv()) && operators[f.Sel.Name] == "" && f.Sel.Name != "Neg" {
				r.lost = true
			}
		}
		if f := r.helper(x); f != nil {
			if line := single(f); line != nil {
				args := r.arguments(f, x)
				if r.lost {
					return nil
				}
				r.bind(f, args, false)
				if y := r.draw(line, depth+1); !r.lost && y.Kind != cell.ExprCode {
					return y
				}
				r.lost = false // it stands by its name
			}
			if !slices.ContainsFunc(x.Args, func(a ast.Expr) bool { return drawn(r.info.TypeOf(a)) }) {
				name := f.Name.Name // alone it would say nothing
				when, other := r.when, r.other
				r.when, r.other = nil, false
				in := r.enter(x, []target{{nil, name}})
				if r.when, r.other = when, other; in != nil {
					if g := r.bound[in.to[0].object]; g.x != nil {
						return g.x
					}
					return &cell.Expr{Kind: cell.ExprName, Text: in.to[0].name}
				}
				r.lost = true
			}
		}
	}
	return nil
}
