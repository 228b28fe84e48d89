package inside

import (
	"go/ast"
	"go/token"
	"go/types"

	"ohmwright/kernel/cell"
)

// Formula is a step of a function as its source has it, without numbers.
type Formula struct {
	Name    string
	Formula *cell.Expr
	When    *cell.Expr // a condition under which it is computed; nil: always
	Else    bool       // computed where When does not hold
}

// deepestHelper is how far helpers are followed.
const deepestHelper = 8

// Formulas reads what a function of lib computes, step by step, from its source
// and that of its helpers, without running it. It gives all steps or none: a
// function that repeats something, or chooses between cases by more than a
// condition, has none, for what can be drawn of it would be wrong without the
// rest. None are given for a package that cannot be built here.
func (l *Library) Formulas(path, name string) []Formula {
	s, err := l.source(path)
	if err != nil {
		return nil
	}
	fn := s.pkg.Func(name)
	if fn == nil {
		return nil
	}
	f := s.notes.body[fn.Object()]
	if f == nil {
		return nil
	}
	r := &reader{
		teller: &teller{source: s}, entered: map[*ast.FuncDecl]*entrance{f: {}},
		known: map[types.Object]bool{}, ours: map[types.Object]bool{}, bound: map[types.Object]given{},
		owner: map[string]types.Object{}, called: map[string]string{},
	}
	r.instead = r.own
	for p := range fn.Signature.Params().Variables() {
		r.known[p] = true
	}
	r.results(f)
	r.body(f.Body.List, []target{{nil, name}})
	return r.formulas()
}

// reader follows a function in the order in which it computes. What it cannot
// follow sets lost.
type reader struct {
	*teller
	entered map[*ast.FuncDecl]*entrance
	depth   int                     // helpers in helpers
	known   map[types.Object]bool   // variables that steps or arguments give
	ours    map[types.Object]bool   // structures that are made here
	bound   map[types.Object]given  // variables that stand for something else
	owner   map[string]types.Object // the variable that a step is of; nil: a field
	called  map[string]string       // steps by the field of the result that takes them
	list    []Formula
	when    *cell.Expr
	other   bool
}

// target is a variable that gets a value, or with none what is called name.
type target struct {
	object types.Object
	name   string
}

// body reads statements to a return, which gives what is wanted of it.
func (r *reader) body(list []ast.Stmt, to []target) {
	for i, s := range list {
		switch s := s.(type) {
		case *ast.ReturnStmt:
			switch {
			case i < len(list)-1 || len(s.Results) == 0:
				r.lost = true
			case r.depth == 0 && r.when == nil && isName(s.Results[0]): // a step gives it
			case len(s.Results) == 1:
				r.give(to, s.Results[0])
			default:
				for k, t := range to {
					r.give([]target{t}, s.Results[k])
				}
			}
			return
		case *ast.IfStmt:
			if returns(s.Body) && !refusing(s.Body) && s.Else == nil { // what follows is the other case
				r.branch(s.Init, s.Cond, func() { r.body(s.Body.List, to) }, func() { r.body(list[i+1:], to) })
				return
			}
		}
		if r.statement(s); r.lost {
			return
		}
	}
	r.lost = true // it ends in another way
}

func isName(e ast.Expr) bool { _, ok := ast.Unparen(e).(*ast.Ident); return ok }

func (r *reader) statement(s ast.Stmt) {
	switch s := s.(type) {
	case *ast.AssignStmt:
		if s.Tok != token.DEFINE && s.Tok != token.ASSIGN {
			r.lost = true
			return
		}
		var to []target
		for _, l := range s.Lhs {
			switch l := l.(type) {
			case *ast.Ident:
				o := object(r.info, l)
				to = append(to, target{o, r.name(gift{l.Name, o})})
			case *ast.SelectorExpr:
				to = append(to, target{nil, l.Sel.Name})
				if id, ok := l.X.(*ast.Ident); !ok || !r.ours[r.info.Uses[id]] {
					r.lost = true // what others have as well changes
				}
			default:
				r.lost = true
			}
		}
		if len(s.Rhs) == 1 {
			r.give(to, s.Rhs[0])
			return
		}
		for i, e := range s.Rhs {
			r.give(to[i:i+1], e)
		}
	case *ast.IfStmt:
		block := func(list []ast.Stmt) func() {
			return func() {
				for _, s := range list {
					r.statement(s)
				}
			}
		}
		otherwise, ok := s.Else.(*ast.BlockStmt)
		switch {
		case s.Else == nil:
			otherwise = &ast.BlockStmt{}
		case !ok:
			r.lost = true
			return
		}
		if refusing(s.Body) {
			block(otherwise.List)()
		} else {
			r.branch(s.Init, s.Cond, block(s.Body.List), block(otherwise.List))
		}
	case *ast.DeclStmt: // a constant for messages, a structure to be filled
		for _, spec := range s.Decl.(*ast.GenDecl).Specs {
			if v, ok := spec.(*ast.ValueSpec); ok {
				for _, id := range v.Names {
					o := r.info.Defs[id]
					r.known[o] = len(v.Values) == 0 && isRecord(o.Type())
					r.ours[o] = r.known[o]
				}
			}
		}
	default:
		r.lost = true
	}
}

// branch reads both sides of a condition.
func (r *reader) branch(init ast.Stmt, cond ast.Expr, then, otherwise func()) {
	if init != nil || r.when != nil { // of a condition in a condition the formula would not tell
		r.lost = true
		return
	}
	r.when = r.draw(cond, 0)
	then()
	r.other = true
	otherwise()
	r.when, r.other = nil, false
}

func returns(b *ast.BlockStmt) bool {
	if len(b.List) == 0 {
		return false
	}
	_, ok := b.List[len(b.List)-1].(*ast.ReturnStmt)
	return ok
}

// refusing reports whether a block does nothing but return an error.
func refusing(b *ast.BlockStmt) bool {
	if !returns(b) {
		return false
	}
	ret := b.List[len(b.List)-1].(*ast.ReturnStmt)
	if len(ret.Results) == 0 {
		return false
	}
	id, isName := ast.Unparen(ret.Results[len(ret.Results)-1]).(*ast.Ident)
	return len(ret.Results) > 1 && (!isName || id.Name != "nil")
}

// give reads what some variables or fields get.
func (r *reader) give(to []target, e ast.Expr) {
	e = ast.Unparen(e)
	if u, ok := e.(*ast.UnaryExpr); ok && u.Op == token.AND {
		e = ast.Unparen(u.X)
	}
	first := to[0]
	if r.lost || first.name == "_" || first.object != nil && r.notes.alias[first.object] != nil {
		return
	}
	call, isCall := e.(*ast.CallExpr)
	t := r.info.TypeOf(e)
	if several, ok := t.(*types.Tuple); ok {
		t = several.At(0).Type()
		for v := range several.Variables() { // the formula of a value that can fail is that of the value
			if v != several.At(0) && (drawn(v.Type()) || isRecord(v.Type())) {
				r.lost = r.enter(call, to) == nil
				return
			}
		}
	}
	switch {
	case drawn(t):
		if isCall && (r.info.Types[call.Fun].IsBuiltin() || r.enter(call, to[:1]) != nil) {
			return
		}
		if x := r.draw(e, 0); !r.lost {
			r.put(first.object, first.name, x)
		}
	case isRecord(t):
		lit, isLit := e.(*ast.CompositeLit)
		if isLit {
			r.record(lit)
		} else if isCall {
			r.lost = r.enter(call, []target{{}}) == nil
		} else {
			r.recordOf(e)
		}
		if first.object != nil {
			r.known[first.object], r.ours[first.object] = true, isCall || isLit
		}
	} // anything else is missed where a formula uses it
}
