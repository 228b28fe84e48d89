package cell

import (
	"context"
	"errors"
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"io"
	"sort"
	"strings"

	"ohmwright/kernel/cell/builtin"
	"ohmwright/kernel/cell/exec"
	"ohmwright/lib/plot"
	"ohmwright/lib/powertree"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// Env is what a run of a cell takes from outside.
type Env struct {
	Ctx    context.Context
	Limits exec.Limits
	Out    io.Writer
	// Value gives the present value of a variable of another cell and that
	// cell's label.
	Value func(name string) (v exec.Value, owner string, ok bool)
	// CellOf and Cell find the cell of a package and of an id, for the literals
	// and requirements of functions that other cells declare.
	CellOf func(*types.Package) *Program
	Cell   func(id string) *Program
	// Label names a cell by its id, for messages.
	Label func(id string) string
	// Kept gives what a choice was in the design as written, under a what-if;
	// Chose is told each choice that is made, and what High, Low and Nominal
	// came to. Frozen gives these where only some cases are computed again.
	Kept   func(key string) ([]exec.Value, bool)
	Frozen func(key string) ([]exec.Value, bool)
	Chose  func(key string, results []exec.Value)
	// Table reads the table of a file beside the note; nil: there is no folder.
	Table func(file string) (table.Table, error)
	// Study gives values with spread their place.
	Study *units.Study
	// Limit, if set, is asked for a limit (High, Low) of a value whose cases
	// may miss it. key is that of the call, soFar what Chose was told.
	Limit func(call, key string, x units.Quantity, soFar map[string][]exec.Value) (units.Quantity, error)
	// Probe, if set, sees what High, Low and Nominal are asked of; the run ends
	// with ErrProbed where it returns true.
	Probe func(key string, x units.Quantity) bool
	// Called, if set, sees each call of a compiled function and what it gave.
	Called func(call exec.Call, results []exec.Value)
	// Held are variables of the cell that keep a value whatever their definition says.
	Held map[string]units.Quantity
	// Policy gives the share of a rating of a part that may be used.
	Policy func(reference, what string) float64
	// Input reports whether a name of another cell is an input.
	Input func(name string) bool
	// Would, if set, is told what a choice that is kept would be now.
	Would func(name string, kept, would units.Quantity)
	// Trend, if set, computes a name of the note anew for values of another.
	Trend func(t Trend) ([]units.Quantity, []plot.Mark, error)
	// Bare leaves out what only people look at: of the steps there are
	// requirements and Spread, without their formulas.
	Bare bool

	// In a run of one case: what a value is in it, and the sources of the
	// ordinary run.
	pick  func(units.Quantity) units.Quantity
	known map[string]units.Quantity
	plain map[string]bool         // calls that could have made a part and made none
	drawn map[string][]exec.Value // what Trend came to in the ordinary run
	lean  bool                    // without the formulas that only people look at
}

// Outcome is what a run of a cell gave.
type Outcome struct {
	Values map[string]exec.Value // of the variables that the cell defines
	Steps  []Step                // in the order of the text
	Placed int                   // sources of spread that it made
}

// Step is one thing that a statement gave: exactly one of the pointers is set.
type Step struct {
	Line     int
	Define   *Definition
	Shown    *ShownValue
	Require  *Requirement
	Spread   *SpreadOf
	Figure   *ShownFigure
	Part     *PartOf
	Derate   *Policy
	Waive    *Waiver
	Case     *CaseOf
	Measured *MeasuredOf
	Markdown *MarkdownText
	Notice   string
	Why      string // the name, or field of one, of which the derivation is wanted
	// Key finds a Require, a Spread or a Measured again when the cell is computed again:
	// where it stands and how often it was reached before.
	Key string
}

// SpreadOf is a Spread that was reached.
type SpreadOf struct {
	Value   units.Quantity
	Formula *Expr
}

// ShownFigure is a figure that an expression statement gave.
type ShownFigure struct {
	Figure  plot.Figure
	Tree    *powertree.Result // in place of Figure
	Formula *Expr

	of    ast.Expr
	value exec.Value
}

// Definition is a name and how it got its value.
type Definition struct {
	Name    string
	View    View
	Input   bool  // taken from nothing else in the note
	Formula *Expr // nil where statements built the value up
	Choice  *Choice
	About   Note
	Quiet   bool
	Set     string // the what-if text that stands in the place of its formula
}

// Choice is a preferred value that a definition chose.
type Choice struct {
	Rule   string // "nearest", "at least", "at most"
	Series string
	Ideal  units.Quantity
	Chosen units.Quantity
	Of     *Expr
	Kept   bool
	Would  *units.Quantity // what it would be now, where it is kept and would be another
}

// ShownValue is the value of an expression that stands alone.
type ShownValue struct {
	View    View
	Formula *Expr

	of    ast.Expr
	value exec.Value
}

// Requirement is a Require that was reached.
type Requirement struct {
	Text      string
	Condition *Expr
	Holds     bool            // nominally
	Margin    *units.Quantity // positive where it holds; nil where there is no distance (==)
	Strict    bool            // a margin of zero does not do
	// FailsWhere is a case in which it does not hold, if that does not show in
	// the margin.
	FailsWhere string
	FailsAll   string // the same with all sources, however many
	Unreached  bool   // the nominal case does not get there
	About      Note
	Rating     *Rating // of a part that this holds
	Stress     *Expr   // what the rating is held against
}

// ErrProbed ends a run that got to what a probe wanted to see.
var ErrProbed = errors.New("the run got to the call that was probed")

// ErrNoFolder is what Table gives where a face has no folder to read from.
var ErrNoFolder = errors.New("there is no folder to read a table from: write it into the cell, table.Text(\"…\")")

// runner is the state of one run.
type runner struct {
	*Program
	env     Env
	values  map[ast.Expr]exec.Value
	vars    map[string]*exec.Variable // own and foreign, by name
	steps   []Step
	counted map[string]int
	kept    map[token.Pos]bool
	would   map[token.Pos]units.Quantity // what kept choices would be
	ordinal map[string]int               // sources so far, by definition
	twice   map[string]int
	sources map[string]units.Quantity // by key
	plain   map[string]bool
	chosen  map[string][]exec.Value
	reached map[token.Pos]int
	parting token.Pos // of the first comparison at which the cases part
	trends  map[string][]exec.Value
	failed  *Error // what it shows cannot be shown
	// stood is, of a run in one case, what the cell shows for itself.
	stood map[ast.Expr]exec.Value
}

// call runs the program once.
func (p *Program) call(env Env) (*runner, *exec.Run, *Error) {
	r := &runner{Program: p, env: env, values: map[ast.Expr]exec.Value{}, vars: map[string]*exec.Variable{}, counted: map[string]int{}, kept: map[token.Pos]bool{}, would: map[token.Pos]units.Quantity{},
		reached: map[token.Pos]int{}, sources: map[string]units.Quantity{}, plain: map[string]bool{}, ordinal: map[string]int{}, twice: map[string]int{}, chosen: map[string][]exec.Value{}, trends: map[string][]exec.Value{}}
	run := &exec.Run{Compared: r.compared, Ctx: env.Ctx, Limits: env.Limits, Out: env.Out, Global: r.global, Intercept: r.intercept, After: r.after,
		Trace: func(e ast.Expr, v exec.Value) {
			if r.whole[e] {
				v = exec.Copy(v) // as it was then: statements may change it in place
			}
			r.values[e] = v
		}, Traced: p.run}
	if (env.lean || env.Bare) && len(p.requires) == 0 && (env.Bare || len(p.standing()) == 0) {
		run.Trace = nil
	}
	if _, err := p.code.Call(run, p.run); err != nil {
		return r, run, r.fault(err)
	}
	return r, run, nil
}

// Run runs the cell. Errors leave no value behind.
func (p *Program) Run(env Env) (out *Outcome, errs []*Error) {
	defer func() {
		// A panic here is a mistake of ours; the note goes on.
		if x := recover(); x != nil {
			out, errs = nil, []*Error{{Code: CodeInternal, Line: 1, Column: 1, Msg: fmt.Sprintf("internal error: %v", x), Hint: "this is a mistake of the program, not of the note; please report the cell"}}
		}
	}()
	if env.Study != nil {
		env.Study.TakeSplits()
	}
	told := &counted{to: env.Out}
	first := env
	first.Out = told
	r, run, fault := p.call(first)
	if fault != nil {
		if r, run = p.nominally(env, r, told.n); r == nil {
			return nil, []*Error{fault}
		}
	}
	out = &Outcome{Values: make(map[string]exec.Value, len(p.Defines))}
	for _, name := range p.Defines {
		if p.kinds[name] != token.VAR {
			continue
		}
		v := r.vars[name]
		if v == nil {
			v = exec.NewVariable(p.pkg.Scope().Lookup(name).Type())
		}
		out.Values[name] = v.Load()
	}
	for _, name := range p.Defines {
		if v, ok := out.Values[name]; ok {
			if held := exec.Changes(v); held != "" {
				return nil, []*Error{p.ErrorFor(name, CodeRefused, name+" is a function that changes "+held+" each time it is called",
					"other cells would get results that depend on the order of calls: return the new value instead")}
			}
		}
	}
	out.Placed = len(r.sources)
	if !env.Bare {
		for _, s := range p.stmts {
			r.statement(run, s, out.Values)
		}
	}
	if env.Study != nil {
		if splits, total := env.Study.TakeSplits(); total > 0 {
			r.apart(splits)
			if err := p.caseByCase(env, r, out.Values); err != nil {
				return nil, []*Error{err}
			}
			env.Study.TakeSplits()
			for i := range r.steps {
				if shown := r.steps[i].Shown; shown != nil && shown.of != nil {
					shown.View = exec.Show(run, shown.value)
				}
				if d := r.steps[i].Define; d != nil {
					d.View = r.view(run, out.Values[d.Name])
				}
			}
		}
	}
	if r.failed != nil {
		return nil, []*Error{r.failed}
	}
	if !env.Bare {
		r.constantEntries()
	}
	sort.SliceStable(r.steps, func(i, j int) bool { return r.steps[i].Line < r.steps[j].Line })
	out.Steps = r.steps
	return out, nil
}

// statement records what a statement gave.
func (r *runner) statement(run *exec.Run, s *statement, values map[string]exec.Value) {
	for i, id := range s.defines {
		v, ok := values[id.Name]
		if !ok {
			continue
		}
		d := &Definition{Name: id.Name, View: r.view(run, v), About: s.about, Quiet: s.quiet, Set: r.source[id.Name]}
		changed := r.changed[r.info.Defs[id]]
		if !changed && len(s.spec.Values) == len(s.spec.Names) {
			e := s.spec.Values[i+len(s.spec.Names)-len(s.defines)]
			if len(s.spec.Names) == len(s.defines) {
				e = s.spec.Values[i]
			}
			if then, traced := r.values[ast.Unparen(e)]; traced && !exec.Same(then, v) {
				r.steps = append(r.steps, Step{Line: s.line, Define: d})
				continue // changed behind a second name: the expression does not say what it is
			}
			d.Input = r.isInput(e)
			if _, isFunc := ast.Unparen(e).(*ast.FuncLit); !isFunc {
				d.Formula = r.formula(e, r.values)
			}
			d.Choice = r.choice(e)
		} else if !changed && len(s.spec.Values) == 1 {
			d.Formula = r.formula(s.spec.Values[0], r.values)
			d.Formula.Value = nil
		}
		r.steps = append(r.steps, Step{Line: s.line, Define: d})
	}
	if of := r.whyOf(s.value); of != "" {
		r.steps = append(r.steps, Step{Line: s.line, Why: of})
		return
	}
	if text := r.textShown(s); text != nil {
		if !s.quiet {
			r.steps = append(r.steps, Step{Line: s.line, Markdown: text})
		}
		return
	}
	if call, _ := r.standingCall(s); call != nil {
		return // it was recorded when it was reached
	}
	if s.value != nil && !s.quiet && !r.isBuiltin(calledBy(s.value), "Require") && !r.isBuiltin(calledBy(s.value), "Spread") {
		v, ok := r.values[ast.Unparen(s.value)]
		tv := r.info.Types[ast.Unparen(s.value)]
		switch {
		case tv.Value != nil:
			r.steps = append(r.steps, Step{Line: s.line, Shown: &ShownValue{View: *constantView(tv), Formula: r.formula(s.value, r.values)}})
		case ok && isFigure(v.Type):
			r.figure(s, v)
		case ok && !tv.IsVoid() && !r.printing(s.value):
			r.steps = append(r.steps, Step{Line: s.line, Shown: &ShownValue{View: exec.Show(run, v), Formula: r.formula(s.value, r.values), of: ast.Unparen(s.value), value: v}})
		}
	}
}

// constantEntries records the constants that the cell defines.
func (r *runner) constantEntries() {
	var around *comments
	for _, d := range r.declFile.Decls {
		g, ok := d.(*ast.GenDecl)
		if !ok || g.Tok != token.CONST {
			continue
		}
		if around == nil {
			around = r.commentsOf(r.declFile)
		}
		for _, sp := range g.Specs {
			vs := sp.(*ast.ValueSpec)
			for i, id := range vs.Names {
				o, ok := r.info.Defs[id].(*types.Const)
				if !ok || id.Name == "_" {
					continue
				}
				view := constantView(types.TypeAndValue{Type: o.Type(), Value: o.Val()})
				if view == nil {
					continue
				}
				at, _ := r.offset(id.Pos())
				def := &Definition{Name: id.Name, View: *view, Input: true, About: around.around(vs.Pos(), r.end(vs))}
				if i < len(vs.Values) && !r.isInput(vs.Values[i]) {
					def.Input, def.Formula = false, r.formula(vs.Values[i], r.values)
				}
				r.steps = append(r.steps, Step{Line: r.line(at), Define: def})
			}
		}
	}
}

func calledBy(e ast.Expr) ast.Expr {
	if call, ok := ast.Unparen(e).(*ast.CallExpr); ok {
		return call.Fun
	}
	return e
}

func (r *runner) printing(e ast.Expr) bool {
	call, ok := ast.Unparen(e).(*ast.CallExpr)
	return ok && r.prints(call)
}

// global gives the run the storage of a variable.
func (r *runner) global(v *types.Var) *exec.Variable {
	if isMade(v.Name()) {
		s := exec.NewVariable(v.Type())
		of := r.Program
		if v.Pkg() != r.literalPkg && v.Pkg() != r.pkg {
			of = r.env.CellOf(v.Pkg())
		}
		if of != nil {
			if l, ok := of.literals[v.Name()]; ok {
				s.Set(exec.Value{Type: v.Type(), V: l.value})
			}
		}
		return s
	}
	if s := r.vars[v.Name()]; s != nil {
		return s
	}
	s := exec.NewVariable(v.Type())
	if q, held := r.env.Held[v.Name()]; held && v.Pkg() == r.pkg {
		s.Set(exec.Value{Type: v.Type(), V: q})
		s.Held = true
	}
	if v.Pkg() != r.pkg {
		if x, owner, ok := r.env.Value(v.Name()); ok {
			s.Set(exec.Copy(exec.Value{Type: v.Type(), V: x.V}))
			s.ReadOnly, s.Owner = true, owner
		}
	}
	r.vars[v.Name()] = s
	return s
}

// intercept sees the calls that mean something to the note.
func (r *runner) intercept(call exec.Call) ([]exec.Value, bool, error) {
	k := call.Func.Pkg()
	if k == nil {
		return nil, false, nil
	}
	switch {
	case call.Func.Name() == "Require" && strings.HasSuffix(k.Path(), "/kernel/cell/builtin"):
		r.require(call)
		return nil, true, nil
	case call.Func.Name() == "Spread" && strings.HasSuffix(k.Path(), "/kernel/cell/builtin"):
		r.spreadOf(call)
		return nil, true, nil
	case standsBySelf(call.Func):
		return nil, true, r.standingStep(call)
	case trending(call.Func.Name()) && strings.HasSuffix(k.Path(), "/kernel/cell/builtin"):
		results, err := r.trend(call)
		return results, true, err
	case readsTable(call):
		return r.tableOf(call), true, nil
	case call.Func.Name() == "Within" && r.judged[call.Pos]:
		// Require judges every case itself.
		var q [3]units.Quantity
		for i, a := range call.Args {
			x, _ := a.V.(units.Quantity)
			q[i] = units.Nominal(x)
		}
		holds := uint64(0)
		if builtin.Within(q[0], q[1], q[2]) {
			holds = 1
		}
		return []exec.Value{{Type: types.Typ[types.Bool], V: holds}}, true, nil
	case choosing(k.Path(), call.Func.Name()) && r.env.Kept != nil:
		key := r.key(call)
		if results, ok := r.env.Kept(key); ok {
			if r.env.Would != nil && len(call.Chain) <= 1 && r.env.pick == nil {
				r.kept[call.Pos] = true
				return nil, false, nil // what it would be now is told, and what was kept taken, after it
			}
			r.count(call)
			r.remember(key, results) // runs of some of the cases keep it, too
			r.kept[call.Pos] = true
			return results, true, nil
		}
	case r.env.pick != nil && again(k.Path(), call.Func.Name()):
		return r.knownPart(call)
	case freezing(k.Path(), call.Func.Name()):
		key := r.key(call)
		x, ok := call.Args[0].V.(units.Quantity)
		if ok && r.env.Probe != nil && r.env.Probe(key, x) {
			return nil, false, ErrProbed
		}
		if r.env.Frozen != nil {
			if results, ok := r.env.Frozen(key); ok {
				r.count(call)
				r.remember(key, results)
				return results, true, nil
			}
		}
		if name := call.Func.Name(); ok && name != "Nominal" && x.HasSpread() && r.env.pick == nil && r.env.Study != nil && r.env.Study.Parted() && !r.settled(call) {
			// The ordinary run took all cases through one branch.
			return nil, false, &exec.Fault{Msg: name + " cannot be taken in the cell in which the cases of its value part",
				Hint: "put it into a cell of its own: there every case is known"}
		}
		if !ok || r.env.Limit == nil || call.Func.Name() == "Nominal" || !x.Inside() && !x.Sampled() {
			break
		}
		limit, err := r.env.Limit(call.Func.Name(), key, x, r.chosen)
		if err != nil {
			return nil, false, err
		}
		results := []exec.Value{{Type: call.Func.Signature().Results().At(0).Type(), V: limit}}
		r.count(call)
		r.remember(key, results)
		return results, true, nil
	}
	return nil, false, nil
}

func (r *runner) after(call exec.Call, results []exec.Value) []exec.Value {
	k := call.Func.Pkg()
	if k == nil {
		return nil
	}
	if r.env.Called != nil {
		r.env.Called(call, results)
	}
	path, name := k.Path(), call.Func.Name()
	switch {
	case choosing(path, name), freezing(path, name):
		key := r.key(call)
		r.count(call)
		results, kept := r.keeping(call, key, results)
		r.remember(key, results)
		if kept {
			return results
		}
	case r.env.Study == nil:
	case placing(path, name):
		return r.settle(call, results)
	case baring(call):
		if q, ok := call.Args[0].V.(units.Quantity); ok && q.HasSpread() {
			if low, high, ok := q.Extremes(); ok && !low.Value.Same(high.Value) {
				other := low
				if low.Value.Same(q) {
					other = high
				}
				r.env.Study.NoteSplit("the bare number of "+q.String(), r.env.Study.Describe(other.Case))
				r.compared(call.Pos)
			}
		}
	}
	return nil
}

// settled reports whether the argument of a call is a name of another cell or an
// input of this one: it does not depend on what this cell decided.
func (r *runner) settled(call exec.Call) bool {
	c := r.callAt(call.Pos)
	if c == nil || len(c.Args) != 1 {
		return false
	}
	id, ok := ast.Unparen(c.Args[0]).(*ast.Ident)
	if !ok {
		return false
	}
	v, ok := r.info.Uses[id].(*types.Var)
	if !ok || v.Pkg() == nil || v.Parent() != v.Pkg().Scope() {
		return false
	}
	if v.Pkg() != r.pkg {
		return true
	}
	for _, s := range r.stmts {
		for i, def := range s.defines {
			if r.info.Defs[def] == v && s.spec != nil && len(s.spec.Values) == len(s.defines) {
				return r.isInput(s.spec.Values[i]) && !r.changed[v]
			}
		}
	}
	return false
}

// remember keeps what a call came to for runs of some of the cases.
func (r *runner) remember(key string, results []exec.Value) {
	results = exec.CopyAll(results)
	r.chosen[key] = results
	if r.env.Chose != nil {
		r.env.Chose(key, results)
	}
}
