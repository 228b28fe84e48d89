package cell

import (
	"fmt"
	"go/ast"
	"go/token"
	"io"
	"maps"
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
	if before, named := r.env.Study.NameOf(key); named && r.env.pick != nil {
		name = before // one source, whichever branch makes it
	}
	if !ok || !live.GivenAs(x) {
		live = r.env.Study.Place(key, name, x)
	}
	if !live.HasSpread() {
		r.plain[key] = true
		return live // a tolerance that says how it counts, no part yet
	}
	r.sources[key] = live
	if r.env.pick != nil {
		return r.env.pick(live)
	}
	return live
}

// again reports whether a function of units makes a part of what is given as
// one already, which the exact value of one case is no more.
func again(path, name string) bool {
	return strings.HasSuffix(path, "/units") && (name == "Another" || name == "Matched" || name == "Normal" || name == "Uniform")
}

// knownPart gives, in a run of one case, the part that such a call made in the
// ordinary run. It is not known where that made none, as Normal(1%, 3) does.
func (r *runner) knownPart(call exec.Call) (results []exec.Value, known bool, err error) {
	ordinal, twice := maps.Clone(r.ordinal), maps.Clone(r.twice)
	key, _ := r.sourceOf(call)
	result := exec.Value{Type: call.Func.Signature().Results().At(0).Type()}
	if live, ok := r.env.known[key]; ok {
		result.V = r.env.pick(live)
		return []exec.Value{result}, true, nil
	}
	var list []units.Quantity
	for {
		live, ok := r.env.known[fmt.Sprintf("%s[%d]", key, len(list))]
		if !ok {
			break
		}
		list = append(list, r.env.pick(live))
	}
	if list != nil {
		result.V = list
		return []exec.Value{result}, true, nil
	}
	if name := call.Func.Name(); !r.env.plain[key] && (name == "Another" || name == "Matched") {
		return nil, false, &exec.Fault{Msg: name + " cannot be taken where only some of the cases come", Hint: "state the part before the decision"}
	}
	r.ordinal, r.twice = ordinal, twice // the call will count
	return nil, false, nil
}

// sourceOf gives the key and the name of a source that a call makes.
func (r *runner) sourceOf(call exec.Call) (key, name string) {
	outermost := call.Pos
	if n := len(call.Chain); n > 0 {
		outermost = call.Chain[n-1]
	}
	home, whole := r.home(outermost)
	if own := r.naming.home(); !strings.HasPrefix(home, own) {
		home = own + home // a text may stand in two notes
	}
	n := r.ordinal[home]
	r.ordinal[home]++
	key = fmt.Sprintf("%s#%d", home, n)
	if len(call.Chain) > 1 {
		whole = n == 0
	}
	if whole {
		return key, home
	}
	what := ordinal(n + 1)
	if len(call.Chain) <= 1 {
		if node := r.callAt(call.Pos); node != nil {
			what = r.spokenSource(node)
			if r.twice[home+what]++; r.twice[home+what] > 1 {
				what = ordinal(r.twice[home+what]) + " " + what
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
			if !(e.Pos() <= pos && pos <= r.end(e)) {
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
			if call, what := r.standingCall(s); what == "Case" {
				return r.inCase(call, pos)
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
	// A loop or another statement: what it assigns first, else its text.
	for _, s := range r.stmts {
		if s.node == nil || !(s.node.Pos() <= pos && pos <= r.end(s.node)) {
			continue
		}
		ast.Inspect(s.node, func(n ast.Node) bool {
			if a, ok := n.(*ast.AssignStmt); ok && name == "" && a.Pos() <= pos && pos <= r.end(a) {
				if id := baseOf(a.Lhs[0]); id != nil {
					name = id.Name
				}
			}
			return name == ""
		})
		if name == "" {
			name = strings.Join(strings.Fields(r.text(s.node)), " ")
		}
		return name, false
	}
	return strings.Join(strings.Fields(r.Src), " "), false
}

// callAt finds a call of this cell by the place of its bracket.
func (r *runner) callAt(pos token.Pos) *ast.CallExpr {
	return nodeAt(r.Parsed, func(c *ast.CallExpr) bool { return c.Lparen == pos })
}

// comparisonAt finds a comparison of this cell by the place of its operator.
func (r *runner) comparisonAt(pos token.Pos) *ast.BinaryExpr {
	return nodeAt(r.Parsed, func(b *ast.BinaryExpr) bool { return b.OpPos == pos })
}

// nodeAt finds the node of the cell of which is holds; the zero N if none is.
func nodeAt[N ast.Node](p *Parsed, is func(N) bool) (found N) {
	done := false
	for _, f := range []*ast.File{p.declFile, p.stmtFile} {
		ast.Inspect(f, func(n ast.Node) bool {
			if c, ok := n.(N); ok && !done && is(c) {
				found, done = c, true
			}
			return !done
		})
	}
	return found
}

// caseByCase computes the cell again in every case by itself, each with exact
// values, because a decision in it does not come out alike in all of them; and
// joins what came of it.
func (p *Program) caseByCase(env Env, nominal *runner, values map[string]exec.Value) *Error {
	sources := maps.Clone(nominal.sources)
	used := map[string]exec.Value{} // of other cells, by some case
	for name, v := range nominal.vars {
		if v.ReadOnly {
			used[name] = v.Load()
		}
	}
	for key, v := range nominal.trends { // which moves through cases that the cell itself has not
		used["Trend "+key] = v[0]
	}
	for range 10 {
		var all []units.Quantity
		for _, name := range slices.Sorted(maps.Keys(used)) {
			all = append(all, exec.Quantities(used[name])...)
		}
		for _, key := range slices.Sorted(maps.Keys(sources)) {
			all = append(all, sources[key])
		}
		cases := env.Study.CasesOf(all)
		if cases == nil {
			return nil
		}
		runs := make([]*runner, cases.Len())
		known := len(sources) + len(used)
		for i := range runs {
			one := env
			one.Out, one.Chose, one.lean = discard{}, nil, true
			one.Kept, one.Frozen = nominal.before(env.Kept), nominal.before(env.Frozen)
			one.pick = func(q units.Quantity) units.Quantity {
				if cases.Has(q) {
					return cases.Pick(q, i)
				}
				return units.Nominal(q) // no case before came here: all are computed again
			}
			one.Value = func(name string) (exec.Value, string, bool) {
				v, owner, ok := env.Value(name)
				if ok {
					if _, before := used[name]; !before {
						used[name] = v
					}
					v = exec.EachQuantity(v, one.pick)
				}
				return v, owner, ok
			}
			one.known, one.plain, one.drawn = sources, nominal.plain, nominal.trends
			r, _, fault := p.call(one)
			if fault != nil {
				if len(sources)+len(used) > known {
					break // perhaps only because not all was known yet
				}
				fault.Msg += ", where " + cases.Where(i)
				return fault
			}
			r.keepShown()
			r.values, r.counted, r.chosen, r.ordinal = nil, nil, nil, nil // thousands of them wait to be joined
			runs[i] = r
			for key, q := range r.sources {
				if _, ok := sources[key]; !ok {
					sources[key] = q
				}
			}
		}
		if len(sources)+len(used) == known {
			p.joined(cases, nominal, runs, values)
			return nil
		}
	}
	return &Error{Code: CodeRefused, Line: 1, Column: 1, Msg: "the parts of the cell differ from case to case without end", Hint: "state the parts outside of the decision"}
}

// nominally runs the cell with the nominal values alone, where a run of all
// cases together failed after they had parted: it took all of them through
// what a decision keeps some out of, such as the root of a negative. nil if
// they had not parted, or if this does not say all that the cases need.
func (p *Program) nominally(env Env, failed *runner, told int) (*runner, *exec.Run) {
	if env.Study == nil || !env.Study.Parted() || env.Probe != nil {
		return nil, nil
	}
	splits, _ := env.Study.TakeSplits()
	one := env
	one.Out, one.Chose, one.Limit = &counted{to: env.Out, skip: told}, nil, nil
	one.pick = units.Nominal
	one.Value = func(name string) (exec.Value, string, bool) {
		v, owner, ok := env.Value(name)
		if ok {
			v = exec.EachQuantity(v, units.Nominal)
		}
		return v, owner, ok
	}
	// What was chosen of a value with spread, or one of its limits, is not
	// known of its nominal value alone.
	unknown := false
	noting := func(before func(string) ([]exec.Value, bool)) func(string) ([]exec.Value, bool) {
		return func(key string) ([]exec.Value, bool) {
			v, ok := before(key)
			unknown = unknown || !ok
			return v, ok
		}
	}
	one.Kept, one.Frozen = noting(failed.before(env.Kept)), noting(failed.before(env.Frozen))
	r, run, fault := p.call(one)
	if fault != nil || unknown {
		return nil, nil
	}
	for name, v := range r.vars {
		if x, owner, ok := env.Value(name); ok && v.ReadOnly {
			whole := exec.NewVariable(x.Type)
			whole.Set(exec.Copy(x))
			whole.ReadOnly, whole.Owner = true, owner
			r.vars[name] = whole
		}
	}
	for _, s := range splits {
		env.Study.NoteSplit(s.Text, s.Case)
	}
	r.env, r.parting, r.chosen, r.trends = env, failed.parting, failed.chosen, failed.trends
	return r, run
}

// before gives what a choice or a limit came to in an earlier run of the cell,
// or else in the design as written.
func (r *runner) before(written func(string) ([]exec.Value, bool)) func(key string) ([]exec.Value, bool) {
	return func(key string) ([]exec.Value, bool) {
		v, ok := r.chosen[key]
		if !ok && written != nil {
			v, ok = written(key)
		}
		return v, ok
	}
}

// counted counts what goes to a writer, and keeps the first of it back.
type counted struct {
	to      io.Writer
	n, skip int
}

func (c *counted) Write(b []byte) (int, error) {
	from := min(max(c.skip-c.n, 0), len(b))
	c.n += len(b)
	if c.to != nil {
		if _, err := c.to.Write(b[from:]); err != nil {
			return 0, err
		}
	}
	return len(b), nil
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

// joined puts what the cases gave in the place of what the ordinary run gave.
func (p *Program) joined(cases *units.Cases, nominal *runner, runs []*runner, values map[string]exec.Value) {
	join := func(q units.Quantity, others []units.Quantity) units.Quantity { return cases.Join(q, others) }
	notice := func(name string, parts []string) {
		line := 1
		for _, s := range nominal.steps {
			if s.Define != nil && s.Define.Name == name {
				line = s.Line
			}
		}
		nominal.steps = append(nominal.steps, Step{Line: line, Notice: "in " + name + ", " + strings.Join(parts, " and ") + " is not alike in all cases, and is shown as it is nominally"})
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
	nominal.joinShown(runs, join)
	nominal.steps = append(nominal.steps, missing(nominal, runs)...)
	for i := range nominal.steps {
		if s := &nominal.steps[i]; s.Key != "" {
			s.joined(cases, runs)
		}
	}
}

// missing lists what some case reaches and the nominal one does not.
func missing(nominal *runner, runs []*runner) []Step {
	seen := map[string]bool{}
	for _, s := range nominal.steps {
		seen[s.Key] = true
	}
	var out []Step
	for _, r := range runs {
		for _, s := range r.steps {
			if s.Key == "" || seen[s.Key] {
				continue
			}
			seen[s.Key] = true
			if s.Require != nil {
				q := *s.Require
				q.Holds, q.Unreached = true, true
				s.Require = &q
			}
			out = append(out, s)
		}
	}
	return out
}

// joined makes a Require or Spread of what it was in every case. A case that
// does not reach it has nothing to say against it.
func (s *Step) joined(cases *units.Cases, runs []*runner) {
	steps := make([]*Step, len(runs))
	for i, r := range runs {
		for k := range r.steps {
			if r.steps[k].Key == s.Key {
				steps[i] = &r.steps[k]
			}
		}
	}
	values := make([]units.Quantity, len(runs))
	if v := s.value(); v != nil {
		for i, o := range steps {
			if values[i] = *v; o != nil {
				values[i] = *o.value()
			}
		}
		*v = cases.Join(*v, values)
		return
	}
	var best *units.Quantity // the margin furthest from failing
	for i, o := range steps {
		if o == nil {
			continue
		}
		if !o.Require.Holds && s.Require.FailsWhere == "" {
			s.Require.FailsWhere, s.Require.FailsAll = cases.Where(i), cases.WhereAll(i)
		}
		if m := o.Require.Margin; m != nil && (best == nil || m.SI() > best.SI()) {
			best = m
		}
	}
	if s.Require.Margin == nil || best == nil {
		return
	}
	for i, o := range steps {
		if values[i] = *best; o != nil && o.Require.Margin != nil {
			values[i] = *o.Require.Margin
		}
	}
	m := cases.Join(*s.Require.Margin, values)
	s.Require.Margin = &m
}

// value is what a Measured or Spread is of.
func (s *Step) value() *units.Quantity {
	switch {
	case s.Measured != nil:
		return &s.Measured.Value
	case s.Spread != nil:
		return &s.Spread.Value
	}
	return nil
}

type discard struct{}

func (discard) Write(b []byte) (int, error) { return len(b), nil }
