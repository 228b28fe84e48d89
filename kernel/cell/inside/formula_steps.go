package inside

import (
	"go/ast"
	"go/token"
	"go/types"
	"slices"
	"strconv"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/host/allow"
)

// drawn reports whether values of a type stand in formulas or conditions.
func drawn(t types.Type) bool {
	b, ok := t.Underlying().(*types.Basic)
	return numeric(t) || isTable(t) || ok && b.Info()&types.IsBoolean != 0
}

// isTable reports whether a type is that of curves, which formulas call.
func isTable(t types.Type) bool {
	n, ok := types.Unalias(t).(*types.Named)
	return ok && n.Obj().Name() == "Table" && n.Obj().Pkg().Path() == allow.Lib+"table"
}

func isRecord(t types.Type) bool {
	if p, ok := t.(*types.Pointer); ok {
		t = p.Elem()
	}
	_, ok := t.Underlying().(*types.Struct)
	return ok && !drawn(t)
}

// record reads a structure: its fields are steps.
func (r *reader) record(lit *ast.CompositeLit) {
	for _, el := range lit.Elts {
		kv, ok := el.(*ast.KeyValueExpr)
		if !ok {
			r.lost = true
			return
		}
		name, t := kv.Key.(*ast.Ident).Name, r.info.TypeOf(kv.Value)
		switch {
		case isRecord(t) && !isName(kv.Value):
			r.give([]target{{nil, name}}, kv.Value)
		case numeric(t):
			r.field(name, r.draw(kv.Value, 0))
		}
	}
}

// field gives a field of a result: a step may take its name.
func (r *reader) field(name string, x *cell.Expr) {
	_, taken := r.owner[name]
	switch {
	case x.Kind == cell.ExprName && (x.Text == name || r.called[x.Text] == name):
	case taken && (r.when == nil || !slices.ContainsFunc(r.list, func(f Formula) bool { return f.Name == name && f.When == r.when })):
		r.lost = true // two structures have a field of this name
	case x.Kind == cell.ExprName && r.owner[x.Text] != nil && !token.IsExported(x.Text) && !taken && r.called[x.Text] == "" && r.when == nil:
		r.called[x.Text] = name
		r.owner[name] = r.owner[x.Text]
	default:
		r.put(nil, name, x)
	}
}

// put takes a step down. What only gives something another name, and what a
// helper computes once more, is none.
func (r *reader) put(to types.Object, name string, x *cell.Expr) {
	if x.Kind == cell.ExprBinary && x.Text == "-" && same(x.Args[0], x.Args[1]) {
		x = &cell.Expr{Kind: cell.ExprNumber, Text: "0"} // with the unit of x
	}
	once := r.when == nil && to != nil && !r.notes.again[to]
	if once && !r.moves(x) {
		at := slices.IndexFunc(r.list, func(f Formula) bool { return f.When == nil && same(f.Formula, x) && !r.notes.again[r.owner[f.Name]] })
		if at >= 0 {
			x = &cell.Expr{Kind: cell.ExprName, Text: r.list[at].Name}
		}
		if x.Kind == cell.ExprName || x.Kind == cell.ExprNumber {
			r.bound[to] = given{x: x}
			if field := r.notes.field[to]; field != "" {
				r.field(field, x)
			}
			return
		}
	}
	if to != nil {
		r.known[to] = true
		name = r.free(to, name)
	}
	if x.Kind == cell.ExprName && x.Text == name {
		return
	}
	if owner, taken := r.owner[name]; mentions(x, name) || taken && (owner != to || to == nil && r.when == nil) {
		r.lost = true // x = x + y is no formula, and neither are two results of one name
		return
	}
	r.owner[name] = to
	r.list = append(r.list, Formula{name, x, r.when, r.other})
}

// free numbers a name that another variable has.
func (r *reader) free(to types.Object, name string) string {
	free := name
	for i := 2; ; i++ {
		if owner, taken := r.owner[free]; !taken || owner == to {
			break
		}
		if token.IsExported(name) {
			return name
		}
		free = name + strconv.Itoa(i)
	}
	if free != name {
		r.bound[to] = given{x: &cell.Expr{Kind: cell.ExprName, Text: free}}
	}
	return free
}

// moves reports whether a formula rests on a variable that is set again.
func (r *reader) moves(x *cell.Expr) bool {
	for name := range x.Names() {
		if r.notes.again[r.owner[name]] {
			return true
		}
	}
	return false
}

func same(a, b *cell.Expr) bool {
	return a.Kind == b.Kind && a.Text == b.Text && slices.EqualFunc(a.Args, b.Args, same)
}

// mentions reports whether a name stands in a formula.
func mentions(x *cell.Expr, name string) bool {
	for n := range x.Names() {
		if n == name {
			return true
		}
	}
	return false
}

// formulas are the steps by their last names. A value that a condition
// replaces is that of the other case.
func (r *reader) formulas() []Formula {
	if r.lost {
		return nil
	}
	seen := map[*cell.Expr]bool{}
	var rename func(x *cell.Expr)
	rename = func(x *cell.Expr) {
		if x == nil || seen[x] {
			return
		}
		seen[x] = true
		if name := r.called[x.Text]; name != "" && x.Kind == cell.ExprName {
			x.Text = name
		}
		for _, a := range x.Args {
			rename(a)
		}
	}
	for i := range r.list {
		f := &r.list[i]
		rename(f.Formula)
		rename(f.When)
		if name := r.called[f.Name]; name != "" {
			f.Name = name
		}
	}
	for i, f := range r.list {
		if f.When == nil {
			continue
		}
		for k := i - 1; k >= 0 && !mentions(r.list[k].Formula, f.Name); k-- {
			if was := &r.list[k]; was.Name == f.Name {
				if was.When == nil {
					was.When, was.Else = f.When, !f.Else
				}
				break
			}
		}
	}
	return slices.Clip(r.list)
}
