// Package inside computes a call of a lib function once more from the
// function's own source, and tells each step with its numbers.
//
// The source is the one that the package embeds. It is checked and built as a
// cell is, and run by the same executor, so that two different machines have
// computed the result: if the compiled function gave another, that is an
// error and no steps are told.
//
//	library := inside.New(world)
//	steps, err := library.Steps(ctx, call, results)
//	// OnSlope = onVoltage/inductance = 18.84 V/22 µH = 856.3 kA/s …
//
// Without a call, [Library.Formulas] reads from the same source what a function
// computes: OnSlope = OnVoltage/Inductance.
package inside

import (
	"context"
	"errors"
	"fmt"
	"go/ast"
	"go/types"
	"io"
	"math"
	"sync"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/cell/host"
	"ohmwright/units"
)

// Library runs the sources of lib. It builds a package at the first call of
// one of its functions. It may be used from several goroutines at once.
type Library struct {
	world *host.World

	mu       sync.Mutex
	packages map[string]*source
}

// New makes a library of the world's packages.
func New(w *host.World) *Library {
	return &Library{world: w, packages: map[string]*source{}}
}

// Step is one thing that a function computes on its way.
type Step struct {
	Name    string // the field of the result that it gives, or the function's own name for it
	Value   cell.View
	Formula *cell.Expr // with the values of its parts
}

// limits of a run: a lib function is short, but may solve an equation.
var limits = exec.Limits{Steps: 20_000_000, Depth: 500}

// Has reports whether a function is one of lib that can be told step by step.
func (l *Library) Has(f *types.Func) bool {
	if f.Pkg() == nil || f.Signature().Recv() != nil {
		return false
	}
	_, ok := l.world.Source(f.Pkg().Path())
	return ok
}

// Steps computes the call, which came to results, from the source. Of values
// with spread it takes the nominal case, so call and results should be those
// of a run of that case. Steps that only rename something, checks of
// arguments and what a loop does are left out.
//
// It is an error if the source cannot be run here, or gives something else
// than results.
func (l *Library) Steps(ctx context.Context, call exec.Call, results []exec.Value) (steps []Step, err error) {
	name := call.Func.Pkg().Name() + "." + call.Func.Name()
	defer func() {
		if x := recover(); x != nil {
			steps, err = nil, fmt.Errorf("%s cannot be told step by step: %v", name, x)
		}
	}()
	s, err := l.source(call.Func.Pkg().Path())
	if err != nil {
		return nil, fmt.Errorf("%s cannot be told step by step: %w", name, err)
	}
	fn := s.pkg.Func(call.Func.Name())
	if fn == nil || len(fn.Params) != len(call.Args) {
		return nil, fmt.Errorf("%s cannot be told step by step: its source has another form", name)
	}
	t := &teller{source: s, values: map[ast.Expr]exec.Value{}, seen: map[string]bool{}, times: map[ast.Expr]int{}}
	run := &exec.Run{Ctx: ctx, Limits: limits, Out: io.Discard, Global: s.globals(), Trace: t.trace, Traced: fn}
	if _, err := s.code.Call(run, s.pkg.Func("init")); err != nil {
		return nil, fmt.Errorf("%s cannot be told step by step: %w", name, err)
	}
	args := exec.CopyAll(call.Args)
	for i, p := range fn.Params {
		args[i].Type = p.Type()
	}
	t.began = true
	came, err := s.code.Call(run, fn, args...)
	if err != nil {
		return nil, fmt.Errorf("%s cannot be told step by step: %w", name, err)
	}
	if len(came) != len(results) {
		return nil, errors.New(name + " cannot be told step by step: its source has another form")
	}
	for i := range came {
		if !alike(exec.Show(nil, came[i]), exec.Show(nil, results[i])) {
			return nil, fmt.Errorf("%s gave another result than its source does, step by step: please report both the function and its arguments", name)
		}
	}
	return t.told(), nil
}

// alike compares what the source gave with what the compiled function gave.
func alike(a, b exec.View) bool {
	if a.Kind != b.Kind || len(a.Items) != len(b.Items) || a.More != b.More {
		return false
	}
	for i := range a.Items {
		if a.Items[i].Name != b.Items[i].Name || !alike(a.Items[i].Value, b.Items[i].Value) {
			return false
		}
	}
	p, ok := a.Quantity.(units.Quantity)
	q, ok2 := b.Quantity.(units.Quantity)
	switch {
	case ok != ok2:
		return false
	case ok:
		return p.Dim() == q.Dim() && close(p.SI(), q.SI())
	case a.Kind == exec.KindNumber:
		return close(a.Number, b.Number)
	case len(a.Items) == 0:
		return a.Text == b.Text
	}
	return true
}

// close allows for the fused multiplications of some processors.
func close(a, b float64) bool {
	return a == b || math.Abs(a-b) <= 1e-12*max(math.Abs(a), math.Abs(b))
}
