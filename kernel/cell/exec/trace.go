package exec

import (
	"go/types"

	"golang.org/x/tools/go/ssa"
)

// follows reports whether somebody wants the value of an expression.
func (c *compiler) follows(x *ssa.DebugRef) bool {
	return c.traced && (c.p.only == nil || c.p.only(x.Expr))
}

// trace reports the value of a source expression.
func (c *compiler) trace(x *ssa.DebugRef) op {
	if _, ok := x.X.(*ssa.Function); ok {
		return nil
	}
	if _, ok := x.X.(*ssa.Builtin); ok {
		return nil
	}
	if _, ok := x.X.(*ssa.Const); ok {
		return nil
	}
	e, t := x.Expr, x.X.Type()
	if _, ok := t.(*types.Tuple); ok {
		return nil
	}
	if g, ok := x.X.(*ssa.Global); ok {
		i, t := c.global(g), deref(t)
		return func(fr *frame) {
			if tr := fr.m.run.Trace; tr != nil {
				tr(e, Value{t, loadCell(fr.global(i).ptr)})
			}
		}
	}
	s := c.regs[x.X]
	if x.IsAddr {
		t := deref(t)
		return func(fr *frame) {
			if tr := fr.m.run.Trace; tr != nil && fr.r[s.i] != nil {
				tr(e, Value{t, loadCell(fr.r[s.i])})
			}
		}
	}
	return func(fr *frame) {
		if tr := fr.m.run.Trace; tr != nil {
			tr(e, Value{t, fr.box(s.c, s.i)})
		}
	}
}
