package exec

import (
	"go/token"
	"go/types"

	"golang.org/x/tools/go/ssa"
)

// fuse makes one step of a comparison of numbers and the branch on it.
func (c *compiler) fuse(b *ssa.BasicBlock, x *ssa.BinOp) func(fr *frame) *block {
	if classOf(x.X.Type()) != classNum {
		return nil
	}
	k := kindOf(x.X.Type())
	l, r := c.reg(x.X), c.reg(x.Y)
	yes, no := c.edge(b, 0), c.edge(b, 1)
	op := x.Op
	switch op { // a > b is b < a
	case token.GTR:
		l, r, op = r, l, token.LSS
	case token.GEQ:
		l, r, op = r, l, token.LEQ
	}
	y, n := yes.to, no.to
	bare := yes.moves == nil && no.moves == nil
	switch {
	case isFloat(k):
		test := compareFloat(op)
		if op == token.LSS {
			return func(fr *frame) *block {
				if float(fr.s[l]) < float(fr.s[r]) {
					return yes.take(fr)
				}
				return no.take(fr)
			}
		}
		return func(fr *frame) *block {
			if test(float(fr.s[l]), float(fr.s[r])) {
				return yes.take(fr)
			}
			return no.take(fr)
		}
	case op == token.EQL:
		return func(fr *frame) *block {
			if fr.s[l] == fr.s[r] {
				return yes.take(fr)
			}
			return no.take(fr)
		}
	case op == token.NEQ:
		return func(fr *frame) *block {
			if fr.s[l] != fr.s[r] {
				return yes.take(fr)
			}
			return no.take(fr)
		}
	case isUnsigned(k) || k == types.Bool:
		strict := op == token.LSS
		return func(fr *frame) *block {
			if x, y := fr.s[l], fr.s[r]; x < y || !strict && x == y {
				return yes.take(fr)
			}
			return no.take(fr)
		}
	case op == token.LSS && bare:
		return func(fr *frame) *block {
			if int64(fr.s[l]) < int64(fr.s[r]) {
				return y
			}
			return n
		}
	case op == token.LSS:
		return func(fr *frame) *block {
			if int64(fr.s[l]) < int64(fr.s[r]) {
				return yes.take(fr)
			}
			return no.take(fr)
		}
	}
	return func(fr *frame) *block {
		if int64(fr.s[l]) <= int64(fr.s[r]) {
			return yes.take(fr)
		}
		return no.take(fr)
	}
}
