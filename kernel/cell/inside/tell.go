package inside

import (
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"strconv"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// notes is what the source says before it runs.
type notes struct {
	gives map[ast.Expr]gift         // an expression, and what its value is given to
	field map[types.Object]string   // of the result that takes a local variable
	alias map[types.Object]ast.Expr // what a local variable only renames
	again map[types.Object]bool     // local variables that are set more than once
	body  map[types.Object]*ast.FuncDecl
}

// gift says what gets the value of an expression.
type gift struct {
	name string
	to   types.Object // a local variable, nil for a field
}

func newNotes() notes {
	return notes{gives: map[ast.Expr]gift{}, field: map[types.Object]string{}, alias: map[types.Object]ast.Expr{}, again: map[types.Object]bool{}, body: map[types.Object]*ast.FuncDecl{}}
}

// read goes through the functions of some files.
func (n *notes) read(files []*ast.File, info *types.Info) {
	for _, file := range files {
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Body != nil {
				n.function(f, info)
			}
		}
	}
}

func (n *notes) function(f *ast.FuncDecl, info *types.Info) {
	n.body[info.Defs[f.Name]] = f
	if refuses(info.Defs[f.Name].(*types.Func).Signature()) {
		return
	}
	set := map[types.Object]bool{}
	ast.Inspect(f.Body, func(x ast.Node) bool {
		if a, ok := x.(*ast.AssignStmt); ok {
			for _, l := range a.Lhs {
				if o := object(info, l); o != nil {
					n.again[o], set[o] = set[o], true
				}
			}
		}
		return true
	})
	ast.Inspect(f.Body, func(x ast.Node) bool {
		switch x := x.(type) {
		case *ast.FuncLit, *ast.ForStmt, *ast.RangeStmt:
			return false // what is done again and again is no step
		case *ast.AssignStmt:
			if len(x.Lhs) != len(x.Rhs) || x.Tok != token.DEFINE && x.Tok != token.ASSIGN {
				return true
			}
			for i, l := range x.Lhs {
				e := ast.Unparen(x.Rhs[i])
				switch l := l.(type) {
				case *ast.Ident:
					o := object(info, l)
					if o == nil || l.Name == "_" {
						continue
					}
					if !n.again[o] && renames(e, info) {
						n.alias[o] = e
						continue
					}
					n.gives[e] = gift{name: l.Name, to: o}
				case *ast.SelectorExpr:
					n.gives[e] = gift{name: l.Sel.Name}
				}
			}
		case *ast.ReturnStmt:
			n.result(x, f, info)
		}
		return true
	})
}

// result reads what a return gives.
func (n *notes) result(ret *ast.ReturnStmt, f *ast.FuncDecl, info *types.Info) {
	if len(ret.Results) == 0 {
		return
	}
	e := ast.Unparen(ret.Results[0])
	record, ok := e.(*ast.CompositeLit)
	if !ok {
		if _, isName := e.(*ast.Ident); !isName {
			n.gives[e] = gift{name: f.Name.Name}
		}
		return
	}
	for _, el := range record.Elts {
		kv, ok := el.(*ast.KeyValueExpr)
		if !ok {
			continue
		}
		key, ok := kv.Key.(*ast.Ident)
		if !ok {
			continue
		}
		v := ast.Unparen(kv.Value)
		if id, ok := v.(*ast.Ident); ok && info.Uses[id] != nil && n.alias[info.Uses[id]] == nil {
			n.field[info.Uses[id]] = key.Name
			continue
		}
		n.gives[v] = gift{name: key.Name}
	}
}

// refuses reports whether a function only says whether something is wrong.
func refuses(s *types.Signature) bool {
	return s.Results().Len() == 1 && types.Identical(s.Results().At(0).Type(), types.Universe.Lookup("error").Type())
}

func object(info *types.Info, e ast.Expr) types.Object {
	id, ok := e.(*ast.Ident)
	if !ok {
		return nil
	}
	if o := info.Defs[id]; o != nil {
		return o
	}
	return info.Uses[id]
}

// renames reports whether an expression is another name of something, a plain
// number, or what is left out counted as zero.
func renames(e ast.Expr, info *types.Info) bool {
	switch x := ast.Unparen(e).(type) {
	case *ast.Ident:
		return true
	case *ast.BasicLit:
		return true
	case *ast.SelectorExpr:
		return renames(x.X, info)
	case *ast.CallExpr:
		f, ok := ast.Unparen(x.Fun).(*ast.SelectorExpr)
		if !ok || len(x.Args) != 1 {
			return false
		}
		switch f.Sel.Name {
		case "OrZero":
			return true
		case "Number", "MustParse":
			tv := info.Types[x.Args[0]]
			return tv.Value != nil
		case "Mul": // of plain numbers: a full turn
			return renames(f.X, info) && renames(x.Args[0], info) && !variable(f.X, info) && !variable(x.Args[0], info)
		}
	}
	return false
}

// variable reports whether an expression depends on what the function is given.
func variable(e ast.Expr, info *types.Info) bool {
	found := false
	ast.Inspect(e, func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok {
			if v, ok := info.Uses[id].(*types.Var); ok && v.Parent() != nil && v.Pkg() != nil && v.Parent() != v.Pkg().Scope() {
				found = true
			}
		}
		return !found
	})
	return found
}

// teller hears what a run computes.
type teller struct {
	*source
	began  bool
	values map[ast.Expr]exec.Value
	steps  []Step
	of     []ast.Expr // what the steps are of
	times  map[ast.Expr]int
	seen   map[string]bool

	instead func(e ast.Expr, depth int) *cell.Expr // draws some in another way
	lost    bool                                   // something had no form as a formula
}

// trace is told the value of every expression, its parts before the whole.
func (t *teller) trace(e ast.Expr, v exec.Value) {
	if !t.began {
		return
	}
	e = ast.Unparen(e)
	t.values[e] = v
	g, ok := t.notes.gives[e]
	if !ok || !isQuantity(v.Type) {
		return
	}
	if t.times[e]++; t.times[e] > oftenest {
		return
	}
	view := exec.Show(nil, v)
	if q, ok := view.Quantity.(units.Quantity); ok && q.HasSpread() {
		view.Quantity = units.Nominal(q)
	}
	s := Step{Name: t.name(g), Value: view, Formula: t.draw(e, 0)}
	if s.Formula.Kind == cell.ExprName && s.Formula.Text == s.Name {
		return
	}
	key := s.Name + "\x00" + view.Text
	if t.seen[key] { // asked for by several of its helpers
		return
	}
	t.seen[key] = true
	t.steps, t.of = append(t.steps, s), append(t.of, e)
}

// isQuantity: the steps of a function are its quantities; plain numbers are
// what a search counts and measures with.
func isQuantity(t types.Type) bool {
	n, ok := types.Unalias(t).(*types.Named)
	return ok && n.Obj().Name() == "Quantity"
}

// numeric reports whether values of a type stand in a formula.
func numeric(t types.Type) bool {
	if isQuantity(t) {
		return true
	}
	b, ok := t.Underlying().(*types.Basic)
	return ok && b.Info()&types.IsNumeric != 0
}

func (t *teller) name(g gift) string {
	if f := t.notes.field[g.to]; g.to != nil && f != "" {
		return f
	}
	return g.name
}

// oftenest is how often a step may be made by several calls of a helper. What
// is made more often belongs to a search.
const oftenest = 3

// told are the steps that were made once or a few times.
func (t *teller) told() (steps []Step) {
	for i, s := range t.steps {
		if t.times[t.of[i]] <= oftenest {
			steps = append(steps, s)
		}
	}
	return steps
}

// named reports whether π or another constant of mathematics stands in an expression.
func (t *teller) named(e ast.Expr) bool {
	found := false
	ast.Inspect(e, func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok {
			c, ok := t.info.Uses[id].(*types.Const)
			found = found || ok && c.Pkg() != nil && c.Pkg().Path() == "math"
		}
		return !found
	})
	return found
}

// constantOf is the text of a constant.
func (t *teller) constantOf(e ast.Expr) (string, bool) {
	tv := t.info.Types[e]
	if tv.Value == nil || t.named(e) {
		return "", false
	}
	switch tv.Value.Kind() {
	case constant.Int:
		return tv.Value.ExactString(), true
	case constant.Float:
		f, _ := constant.Float64Val(tv.Value)
		return strconv.FormatFloat(f, 'g', -1, 64), true
	}
	return "", false
}
