package note

import (
	"context"
	"errors"
	"io"
	"slices"

	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/cell/inside"
	"ohmwright/units"
)

// Inner is how a function of lib came to what it gave, step by step, at the
// nominal values.
type Inner struct {
	Function string // "stepdown.Currents"
	Steps    []*Entry
	Trouble  string // why there are no steps
}

// innerMost bounds how many calls of one definition are told.
const innerMost = 12

// inner tells the calls of lib functions in the definition of a name: the cell
// is computed once more, in the nominal case, without changing anything.
func (n *Note) inner(ctx context.Context, c *node, name string) []*Inner {
	var calls []exec.Call
	var gave [][]exec.Value
	r := n.replay(ctx, []units.Case{{}})
	if err := r.needs(c); err != nil {
		return nil
	}
	env := n.env(ctx, c, io.Discard, r.study, r.values)
	env.Bare = true
	env.Kept = func(key string) ([]exec.Value, bool) { v, ok := c.chosen[key]; return v, ok }
	env.Frozen = env.Kept
	env.Called = func(call exec.Call, results []exec.Value) {
		if len(calls) < innerMost && len(call.Chain) == 1 && c.checked.InDefinition(name, call.Pos) && n.library.Has(call.Func) {
			calls, gave = append(calls, call), append(gave, exec.CopyAll(results))
			calls[len(calls)-1].Args = exec.CopyAll(call.Args)
		}
	}
	if _, errs := c.program.Run(env); len(errs) > 0 {
		return nil
	}
	var told []*Inner
	for i, call := range calls {
		in := &Inner{Function: call.Func.Pkg().Name() + "." + call.Func.Name()}
		steps, err := n.library.Steps(ctx, call, gave[i])
		if errors.Is(err, inside.ErrCompiled) {
			continue
		}
		if err != nil {
			in.Trouble = err.Error()
		}
		for _, s := range steps {
			in.Steps = append(in.Steps, &Entry{Name: s.Name, Value: s.Value, Formula: s.Formula, Form: FormComputed})
		}
		if len(in.Steps) > 0 || in.Trouble != "" {
			told = append(told, in)
		}
	}
	return told
}

// towards leaves of the steps those that a field of the result needs.
func towards(in *Inner, field string) *Inner {
	if !slices.ContainsFunc(in.Steps, func(e *Entry) bool { return e.Name == field }) {
		return in
	}
	needed := map[string]bool{field: true}
	var kept []*Entry
	for i := len(in.Steps) - 1; i >= 0; i-- {
		e := in.Steps[i]
		if !needed[e.Name] {
			continue
		}
		for name := range e.Formula.Names() {
			needed[name] = true
		}
		kept = append(kept, e)
	}
	slices.Reverse(kept)
	return &Inner{Function: in.Function, Steps: kept}
}
