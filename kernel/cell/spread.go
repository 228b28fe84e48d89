package cell

import (
	"fmt"
	"go/ast"
	"go/token"
	"slices"
	"strings"

	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// Values with spread in a cell. Each call that states limits (Range, Band, ±)
// is a source of its own every time it is reached; what makes it the same
// source when the note is computed again is its key: the definition it serves
// and how many came before it there.

// placing reports whether a function of units gives values that have limits
// but no place in a study yet.
func placing(path, name string) bool {
	if !strings.HasSuffix(path, "/units") {
		return false
	}
	switch name {
	case "Range", "Band", "Tolerance", "Normal", "Uniform", "Another", "Histogram", "Matched":
		return true
	}
	return false
}

// freezing reports whether a function makes an exact value of one with
// spread: it says what it said in the ordinary run when only some of the
// cases are computed again.
func freezing(path, name string) bool {
	return strings.HasSuffix(path, "/units") && (name == "High" || name == "Low" || name == "Nominal")
}

// baring reports whether a method takes the bare number out of a quantity.
func baring(call exec.Call) bool {
	return call.Func.Signature().Recv() != nil && (call.Func.Name() == "SI" || call.Func.Name() == "Float") && len(call.Args) > 0
}

// settle gives the results of a call their places in the study.
func (r *runner) settle(call exec.Call, results []exec.Value) []exec.Value {
	if len(results) != 1 {
		return nil
	}
	out := results[0]
	switch x := out.V.(type) {
	case units.Quantity:
		key, name := r.sourceOf(call)
		out.V = r.placeOne(key, name, x)
	case []units.Quantity:
		key, name := r.sourceOf(call)
		list := make([]units.Quantity, len(x))
		for i, q := range x {
			list[i] = r.placeOne(fmt.Sprintf("%s[%d]", key, i), fmt.Sprintf("%s[%d]", name, i), q)
		}
		out.V = list
	default:
		return nil
	}
	return []exec.Value{out}
}

func (r *runner) placeOne(key, name string, x units.Quantity) units.Quantity {
	live, ok := r.env.known[key]
	if !ok || !live.GivenAs(x) {
		live = r.env.Study.Place(key, name, x)
	}
	if live.HasSpread() {
		r.placed = append(r.placed, key)
		r.sources[key] = live
	}
	if r.env.pick != nil {
		return r.env.pick(live)
	}
	return live
}

// sourceOf gives the key and the name of a source that a call makes.
func (r *runner) sourceOf(call exec.Call) (key, name string) {
	outermost := call.Pos
	if n := len(call.Chain); n > 0 {
		outermost = call.Chain[n-1]
	}
	home, whole := r.home(outermost)
	n := r.ordinal[home]
	r.ordinal[home]++
	key = fmt.Sprintf("%s#%d", home, n)
	if len(call.Chain) > 1 {
		whole = n == 0
	}
	if whole {
		return key, home
	}
	what := fmt.Sprintf("#%d", n+1)
	if len(call.Chain) <= 1 {
		if node := r.callAt(call.Pos); node != nil {
			what = r.text(node)
			if r.made[node] { // its place is that of the ±
				from, ok1 := r.offset(node.Args[0].Pos())
				to, ok2 := r.offset(node.End())
				if ok1 && ok2 {
					what = r.Src[from:to]
				}
			}
			if r.twice[home+what] = r.twice[home+what] + 1; r.twice[home+what] > 1 {
				what += fmt.Sprintf(" #%d", r.twice[home+what])
			}
		}
	}
	return key, home + " (" + what + ")"
}

// home is the definition that a place in the text serves; whole says that the
// call there is all of it.
func (r *runner) home(pos token.Pos) (name string, whole bool) {
	for _, s := range r.stmts {
		var list []ast.Expr
		switch {
		case s.spec != nil:
			list = s.spec.Values
		case s.value != nil:
			list = []ast.Expr{s.value}
		}
		for i, e := range list {
			if !(e.Pos() <= pos && pos <= e.End()) {
				continue
			}
			var names []string
			if s.spec != nil && len(list) == len(s.spec.Names) {
				names = []string{s.spec.Names[i].Name}
			} else {
				for _, id := range s.defines {
					names = append(names, id.Name)
				}
			}
			name := strings.Join(names, ", ")
			if name == "" {
				name = r.text(e)
			}
			at := ast.Unparen(e)
			for {
				call, ok := at.(*ast.CallExpr)
				if !ok {
					return name, false
				}
				if call.Lparen == pos {
					return name, true
				}
				// What a marking function gets is placed once more by it.
				if len(call.Args) == 0 || !r.isBuiltin(call.Fun, "Normal") && !r.isBuiltin(call.Fun, "Uniform") && !r.made[call] {
					return name, false
				}
				at = ast.Unparen(call.Args[0])
			}
		}
	}
	if len(r.Defines) > 0 {
		return strings.Join(r.Defines, ", "), false
	}
	return strings.Join(strings.Fields(r.Src), " "), false
}

// callAt finds a call of this cell by the place of its bracket.
func (r *runner) callAt(pos token.Pos) *ast.CallExpr {
	var found *ast.CallExpr
	for _, f := range []*ast.File{r.declFile, r.stmtFile} {
		ast.Inspect(f, func(n ast.Node) bool {
			if c, ok := n.(*ast.CallExpr); ok && c.Lparen == pos {
				found = c
			}
			return found == nil
		})
	}
	return found
}

// caseByCase computes the cell again in every case by itself, each with exact
// values, because a decision in it does not come out alike in all of them; and
// joins what came of it.
func (p *Program) caseByCase(env Env, nominal *runner, values map[string]exec.Value) (steps []Step, err *Error) {
	study := env.Study
	keys := nominal.placed
	for range 3 {
		var inputs []units.Quantity
		for _, v := range nominal.vars {
			if v.ReadOnly {
				inputs = append(inputs, exec.Quantities(v.Load())...)
			}
		}
		cases := study.CasesOf(inputs, keys)
		if cases == nil {
			return nominal.steps, nil
		}
		runs := make([]*runner, cases.Len())
		more := false
		for i := range runs {
			one := env
			one.Study, one.Out = study, discard{}
			one.Chose = nil
			one.Kept = func(key string) ([]exec.Value, bool) { v, ok := nominal.chosen[key]; return v, ok }
			one.Frozen = one.Kept
			one.Value = func(name string) (exec.Value, string, bool) {
				v, owner, ok := env.Value(name)
				if ok {
					v = exec.EachQuantity(v, func(q units.Quantity) units.Quantity { return cases.Pick(q, i) })
				}
				return v, owner, ok
			}
			one.known = nominal.sources
			one.pick = func(q units.Quantity) units.Quantity { return cases.Pick(q, i) }
			r, _, fault := p.call(one)
			if fault != nil {
				fault.Msg += ", where " + cases.Where(i)
				return nil, fault
			}
			runs[i] = r
			for _, k := range r.placed {
				if !slices.Contains(keys, k) {
					keys, more = append(keys, k), true
				}
			}
		}
		if more {
			continue // a case has parts that the nominal one has not
		}
		return p.joined(cases, nominal, runs, values), nil
	}
	return nil, &Error{Code: CodeRefused, Line: 1, Column: 1, Msg: "the parts of the cell differ from case to case without end", Hint: "state the parts outside of the decision"}
}

// compared notes where the cases part for the first time.
func (r *runner) compared(at token.Pos) {
	if r.parting == token.NoPos && r.env.Study != nil && r.env.Study.Parted() {
		r.parting = at
	}
}

// apart says which decision the cases part at.
func (r *runner) apart(splits []units.Split) {
	first := splits[0]
	step := Step{}
	text := first.Text
	if at, ok := r.offset(r.parting); ok {
		step.Line = r.line(at)
		if e := r.comparisonAt(r.parting); e != nil {
			text = r.text(e)
		}
	}
	step.Notice = text + " comes out otherwise where " + first.Case + ": the cell is computed case by case"
	r.steps = append(r.steps, step)
}

// comparisonAt finds a comparison of this cell by the place of its operator.
func (r *runner) comparisonAt(pos token.Pos) *ast.BinaryExpr {
	var found *ast.BinaryExpr
	for _, f := range []*ast.File{r.declFile, r.stmtFile} {
		ast.Inspect(f, func(n ast.Node) bool {
			if b, ok := n.(*ast.BinaryExpr); ok && b.OpPos == pos {
				found = b
			}
			return found == nil
		})
	}
	return found
}

// joined puts what the cases gave in the place of what the ordinary run gave.
func (p *Program) joined(cases *units.Cases, nominal *runner, runs []*runner, values map[string]exec.Value) []Step {
	join := func(q units.Quantity, others []units.Quantity) units.Quantity { return cases.Join(q, others) }
	notice := func(name string, parts []string) {
		nominal.steps = append(nominal.steps, Step{Notice: "in " + name + ", " + strings.Join(parts, " and ") + " is not alike in all cases, and is shown as it is nominally"})
	}
	for _, name := range p.Defines {
		v, ok := values[name]
		if !ok {
			continue
		}
		others := make([]exec.Value, len(runs))
		for i, r := range runs {
			if s := r.vars[name]; s != nil {
				others[i] = s.Load()
			} else {
				others[i] = exec.NewVariable(v.Type).Load()
			}
		}
		joined, parts := exec.Join(v, others, join)
		if len(parts) > 0 {
			notice(name, parts)
		}
		values[name] = joined
	}
	// Requirements and shown values, in the order in which they were reached.
	reached := func(r *runner) (list []*Step) {
		for i := range r.steps {
			if s := &r.steps[i]; s.Require != nil || s.Spread != nil {
				list = append(list, s)
			}
		}
		return list
	}
	own := reached(nominal)
	all := make([][]*Step, len(runs))
	for i, r := range runs {
		all[i] = reached(r)
		if len(all[i]) != len(own) {
			notice("this cell", []string{"which requirements are reached"})
			return nominal.steps
		}
	}
	for k, s := range own {
		qs := make([]units.Quantity, len(runs))
		if s.Spread != nil {
			for i := range runs {
				qs[i] = all[i][k].Spread.Value
			}
			s.Spread.Value = join(s.Spread.Value, qs)
			continue
		}
		whole := s.Require.Margin != nil
		for i := range runs {
			r := all[i][k].Require
			if !r.Holds {
				s.Require.FailsWhere = cases.Where(i)
			}
			if whole = whole && r.Margin != nil; whole {
				qs[i] = *r.Margin
			}
		}
		if whole {
			m := join(*s.Require.Margin, qs)
			s.Require.Margin = &m
		}
	}
	return nominal.steps
}

type discard struct{}

func (discard) Write(b []byte) (int, error) { return len(b), nil }
