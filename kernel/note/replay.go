package note

import (
	"context"
	"errors"
	"fmt"
	"go/types"
	"io"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// env is what the cell c computes from: the present values, but for those that
// values gives.
func (n *Note) env(ctx context.Context, c *node, out io.Writer, study *units.Study, values func(*node) map[string]exec.Value) cell.Env {
	return cell.Env{
		Ctx: ctx, Limits: n.options.Limits, Out: out, Study: study, Table: n.tableOf(c),
		Value: func(name string) (exec.Value, string, bool) {
			o := n.owner[name]
			if o == nil {
				return exec.Value{}, "", false
			}
			v, ok := values(o)[name]
			return v, o.Label, ok
		},
		CellOf: func(k *types.Package) *cell.Program {
			if o := n.packets[k]; o != nil {
				return o.program
			}
			return nil
		},
		Cell: func(id string) *cell.Program {
			if o := n.byID[id]; o != nil {
				return o.program
			}
			return nil
		},
		Label: func(id string) string {
			if o := n.byID[id]; o != nil {
				return o.Label
			}
			return id
		},
		Trend: n.trend, Policy: func(reference, what string) float64 { return n.policy(c, reference, what) }, Input: n.isInputNow,
	}
}

func present(c *node) map[string]exec.Value { return c.values }

// replay computes some cells and what they need once more, in stated cases
// only, without changing anything. Parts stay chosen, and High, Low and
// Nominal say what they said.
type replay struct {
	n     *Note
	ctx   context.Context
	study *units.Study
	done  map[*node]*cell.Outcome
}

func (n *Note) replay(ctx context.Context, cases []units.Case) *replay {
	return &replay{n: n, ctx: ctx, study: n.study.Restrict(cases), done: map[*node]*cell.Outcome{}}
}

// values gives what a cell came to in the stated cases, which must have been
// computed if it has spread.
func (r *replay) values(c *node) map[string]exec.Value {
	if o := r.done[c]; o != nil {
		return o.Values
	}
	return c.values
}

// compute computes the cell and all that it needs.
func (r *replay) compute(c *node) (*cell.Outcome, error) {
	if err := r.needs(c); err != nil {
		return nil, err
	}
	if o := r.done[c]; o != nil {
		return o, nil
	}
	env := r.n.env(r.ctx, c, io.Discard, r.study, r.values)
	env.Bare = true
	env.Kept = func(key string) ([]exec.Value, bool) { v, ok := c.chosen[key]; return v, ok }
	env.Frozen = env.Kept
	out, errs := c.program.Run(env)
	if len(errs) > 0 {
		return nil, fmt.Errorf("%s, line %d: %w", c.Label, errs[0].Line, errs[0])
	}
	r.done[c] = out
	return out, nil
}

// needs computes what the cell needs.
func (r *replay) needs(c *node) error {
	for _, name := range c.names {
		o := r.n.owner[name]
		if o == nil || !o.ok || !o.spreads || r.done[o] != nil || !c.uses(name) {
			continue
		}
		if _, err := r.compute(o); err != nil {
			return err
		}
	}
	return nil
}

// probe computes the cell up to one call of High, Low or Nominal and returns
// what that is asked of. soFar is what such calls and choices came to before.
func (r *replay) probe(c *node, key string, soFar map[string][]exec.Value) (units.Quantity, error) {
	if err := r.needs(c); err != nil {
		return units.Quantity{}, err
	}
	env := r.n.env(r.ctx, c, io.Discard, r.study, r.values)
	env.Bare = true
	env.Kept = func(k string) ([]exec.Value, bool) { v, ok := soFar[k]; return v, ok }
	env.Frozen = env.Kept
	var got units.Quantity
	found := false
	env.Probe = func(k string, x units.Quantity) bool {
		if k == key {
			got, found = x, true
		}
		return found
	}
	if _, errs := c.program.Run(env); !found && len(errs) > 0 {
		return got, errs[0]
	}
	if !found {
		return got, errors.New("the call is not reached in the cases that are computed")
	}
	return got, nil
}
