package exec

import (
	"go/token"
	"go/types"
	"math"

	"ohmwright/units"

	"golang.org/x/tools/go/ssa"
)

func float(x uint64) float64 { return math.Float64frombits(x) }
func bits(x float64) uint64  { return math.Float64bits(x) }

func truth(b bool) uint64 {
	if b {
		return 1
	}
	return 0
}

func (c *compiler) unop(x *ssa.UnOp) op {
	d, a := c.reg(x), c.reg(x.X)
	if isComplex(x.X.Type()) {
		return refuseComplex(x.Pos())
	}
	k := kindOf(x.Type())
	pos := x.Pos()
	switch x.Op {
	case token.NOT:
		return func(fr *frame) { fr.s[d] = fr.s[a] ^ 1 }
	case token.SUB:
		switch {
		case classOf(x.Type()) == classQty:
			return func(fr *frame) { fr.pos = pos; fr.q[d] = fr.q[a].Neg() }
		case isFloat(k):
			return func(fr *frame) { fr.s[d] = bits(-float(fr.s[a])) }
		}
		return func(fr *frame) { fr.s[d] = norm(k, -fr.s[a]) }
	case token.XOR:
		return func(fr *frame) { fr.s[d] = norm(k, ^fr.s[a]) }
	}
	return refuse(x.Pos(), "a channel")
}

func (c *compiler) binop(x *ssa.BinOp) op {
	d, l, r, pos := c.reg(x), c.reg(x.X), c.reg(x.Y), x.Pos()
	t := x.X.Type()
	if isComplex(t) {
		return refuseComplex(pos)
	}
	switch classOf(t) {
	case classQty:
		if test := comparison(x.Op); test != nil && c.p.nominal != nil && c.p.nominal(pos) {
			return func(fr *frame) {
				fr.pos = pos
				fr.s[d] = truth(test(units.Nominal(fr.q[l]), units.Nominal(fr.q[r])))
			}
		}
		if test := comparison(x.Op); test != nil {
			compare := quantityOp(x.Op, d, l, r, pos)
			return func(fr *frame) {
				compare(fr)
				if fr.m.run.Compared != nil && (fr.q[l].HasSpread() || fr.q[r].HasSpread()) {
					fr.m.run.Compared(pos)
				}
			}
		}
		return quantityOp(x.Op, d, l, r, pos)
	case classRef:
		if kindOf(t) == types.String {
			return stringOp(x.Op, d, l, r, pos)
		}
		return c.equality(x, d, l, r)
	}
	k := kindOf(t)
	switch x.Op {
	case token.EQL, token.NEQ, token.LSS, token.LEQ, token.GTR, token.GEQ:
		return compareOp(x.Op, k, d, l, r)
	case token.SHL, token.SHR:
		return shiftOp(x.Op, k, d, l, r, pos, isUnsigned(kindOf(x.Y.Type())))
	}
	switch k {
	case types.Float64:
		return floatOp(x.Op, d, l, r)
	case types.Float32:
		o := floatOp(x.Op, d, l, r)
		return func(fr *frame) { o(fr); fr.s[d] = bits(float64(float32(float(fr.s[d])))) }
	case types.Int, types.Int64, types.Uint, types.Uint64, types.Uintptr:
		return wordOp(x.Op, isUnsigned(k), d, l, r, pos)
	}
	o := wordOp(x.Op, isUnsigned(k), d, l, r, pos)
	return func(fr *frame) { o(fr); fr.s[d] = norm(k, fr.s[d]) }
}

func floatOp(op token.Token, d, l, r int) op {
	switch op {
	case token.ADD:
		return func(fr *frame) { fr.s[d] = bits(float(fr.s[l]) + float(fr.s[r])) }
	case token.SUB:
		return func(fr *frame) { fr.s[d] = bits(float(fr.s[l]) - float(fr.s[r])) }
	case token.MUL:
		return func(fr *frame) { fr.s[d] = bits(float(fr.s[l]) * float(fr.s[r])) }
	}
	return func(fr *frame) { fr.s[d] = bits(float(fr.s[l]) / float(fr.s[r])) }
}

// wordOp is arithmetic on 64 bits; narrower kinds are normed afterwards.
func wordOp(op token.Token, unsigned bool, d, l, r int, pos token.Pos) op {
	switch op {
	case token.ADD:
		return func(fr *frame) { fr.s[d] = fr.s[l] + fr.s[r] }
	case token.SUB:
		return func(fr *frame) { fr.s[d] = fr.s[l] - fr.s[r] }
	case token.MUL:
		return func(fr *frame) { fr.s[d] = fr.s[l] * fr.s[r] }
	case token.AND:
		return func(fr *frame) { fr.s[d] = fr.s[l] & fr.s[r] }
	case token.OR:
		return func(fr *frame) { fr.s[d] = fr.s[l] | fr.s[r] }
	case token.XOR:
		return func(fr *frame) { fr.s[d] = fr.s[l] ^ fr.s[r] }
	case token.AND_NOT:
		return func(fr *frame) { fr.s[d] = fr.s[l] &^ fr.s[r] }
	}
	quo := op == token.QUO
	return func(fr *frame) {
		y := fr.s[r]
		if y == 0 {
			fr.throw(pos, "integer divide by zero")
		}
		switch x := fr.s[l]; {
		case unsigned && quo:
			fr.s[d] = x / y
		case unsigned:
			fr.s[d] = x % y
		case quo:
			fr.s[d] = uint64(int64(x) / int64(y))
		default:
			fr.s[d] = uint64(int64(x) % int64(y))
		}
	}
}

func shiftOp(op token.Token, k types.BasicKind, d, l, r int, pos token.Pos, countUnsigned bool) op {
	left, unsigned := op == token.SHL, isUnsigned(k)
	return func(fr *frame) {
		x, n := fr.s[l], fr.s[r]
		if !countUnsigned && int64(n) < 0 {
			fr.throw(pos, "negative shift amount")
		}
		switch {
		case left:
			fr.s[d] = norm(k, x<<n)
		case unsigned:
			fr.s[d] = x >> n
		default:
			fr.s[d] = uint64(int64(x) >> n)
		}
	}
}

func compareFloat(op token.Token) func(x, y float64) bool {
	switch op {
	case token.EQL:
		return func(x, y float64) bool { return x == y }
	case token.NEQ:
		return func(x, y float64) bool { return x != y }
	case token.LSS:
		return func(x, y float64) bool { return x < y }
	case token.LEQ:
		return func(x, y float64) bool { return x <= y }
	case token.GTR:
		return func(x, y float64) bool { return x > y }
	}
	return func(x, y float64) bool { return x >= y }
}

func compareOp(op token.Token, k types.BasicKind, d, l, r int) op {
	switch op {
	case token.GTR:
		l, r, op = r, l, token.LSS
	case token.GEQ:
		l, r, op = r, l, token.LEQ
	}
	if isFloat(k) {
		test := compareFloat(op)
		return func(fr *frame) { fr.s[d] = truth(test(float(fr.s[l]), float(fr.s[r]))) }
	}
	switch op {
	case token.EQL:
		return func(fr *frame) { fr.s[d] = truth(fr.s[l] == fr.s[r]) }
	case token.NEQ:
		return func(fr *frame) { fr.s[d] = truth(fr.s[l] != fr.s[r]) }
	}
	strict := op == token.LSS
	switch {
	case isUnsigned(k) && strict:
		return func(fr *frame) { fr.s[d] = truth(fr.s[l] < fr.s[r]) }
	case isUnsigned(k):
		return func(fr *frame) { fr.s[d] = truth(fr.s[l] <= fr.s[r]) }
	case strict:
		return func(fr *frame) { fr.s[d] = truth(int64(fr.s[l]) < int64(fr.s[r])) }
	}
	return func(fr *frame) { fr.s[d] = truth(int64(fr.s[l]) <= int64(fr.s[r])) }
}

func stringOp(op token.Token, d, l, r int, pos token.Pos) op {
	if op == token.ADD {
		return func(fr *frame) {
			a, b := fr.r[l].(string), fr.r[r].(string)
			fr.pos = pos
			fr.m.count(int64(len(a)+len(b)) + 16)
			fr.r[d] = a + b
		}
	}
	var test func(a, b string) bool
	switch op {
	case token.EQL:
		test = func(a, b string) bool { return a == b }
	case token.NEQ:
		test = func(a, b string) bool { return a != b }
	case token.LSS:
		test = func(a, b string) bool { return a < b }
	case token.LEQ:
		test = func(a, b string) bool { return a <= b }
	case token.GTR:
		test = func(a, b string) bool { return a > b }
	default:
		test = func(a, b string) bool { return a >= b }
	}
	return func(fr *frame) { fr.s[d] = truth(test(fr.r[l].(string), fr.r[r].(string))) }
}

// quantityOp is an operator between quantities: their method, which panics
// where the dimensions do not fit.
func quantityOp(op token.Token, d, l, r int, pos token.Pos) op {
	switch op {
	case token.ADD:
		return func(fr *frame) { fr.pos = pos; fr.q[d] = fr.q[l].Add(fr.q[r]) }
	case token.SUB:
		return func(fr *frame) { fr.pos = pos; fr.q[d] = fr.q[l].Sub(fr.q[r]) }
	case token.MUL:
		return func(fr *frame) { fr.pos = pos; fr.q[d] = fr.q[l].Mul(fr.q[r]) }
	case token.QUO:
		return func(fr *frame) { fr.pos = pos; fr.q[d] = fr.q[l].Div(fr.q[r]) }
	case token.EQL:
		return func(fr *frame) { fr.pos = pos; fr.s[d] = truth(fr.q[l].Equal(fr.q[r])) }
	case token.NEQ:
		return func(fr *frame) { fr.pos = pos; fr.s[d] = truth(!fr.q[l].Equal(fr.q[r])) }
	case token.LSS:
		return func(fr *frame) { fr.pos = pos; fr.s[d] = truth(fr.q[l].Less(fr.q[r])) }
	case token.GTR:
		return func(fr *frame) { fr.pos = pos; fr.s[d] = truth(fr.q[r].Less(fr.q[l])) }
	case token.LEQ:
		return func(fr *frame) { fr.pos = pos; fr.s[d] = truth(atMost(fr.q[l], fr.q[r])) }
	case token.GEQ:
		return func(fr *frame) { fr.pos = pos; fr.s[d] = truth(atMost(fr.q[r], fr.q[l])) }
	}
	return func(fr *frame) {
		fr.m.top = fr
		fr.m.halt(&Fault{Pos: pos, Msg: "operator " + op.String() + " is not defined on quantities"})
	}
}

// comparison is what a comparing operator does with quantities; nil for others.
func comparison(op token.Token) func(a, b units.Quantity) bool {
	switch op {
	case token.EQL:
		return units.Quantity.Equal
	case token.NEQ:
		return func(a, b units.Quantity) bool { return !a.Equal(b) }
	case token.LSS:
		return units.Quantity.Less
	case token.GTR:
		return func(a, b units.Quantity) bool { return b.Less(a) }
	case token.LEQ:
		return atMost
	case token.GEQ:
		return func(a, b units.Quantity) bool { return atMost(b, a) }
	}
	return nil
}

// atMost is a <= b; it is false when either is not a number.
func atMost(a, b units.Quantity) bool { return a.Less(b) || a.Equal(b) }

// equality compiles == and != of everything that is not a number or string.
func (c *compiler) equality(x *ssa.BinOp, d, l, r int) op {
	pos, want := x.Pos(), x.Op == token.EQL
	t := x.X.Type()
	switch t.Underlying().(type) {
	case *types.Pointer, *types.Slice, *types.Map, *types.Signature, *types.Chan:
		// A slice, map or function is only ever compared with nil.
		if _, ok := t.Underlying().(*types.Pointer); !ok {
			return func(fr *frame) { fr.s[d] = truth((fr.r[l] == nil && fr.r[r] == nil) == want) }
		}
		return func(fr *frame) { fr.s[d] = truth(samePointer(fr.r[l], fr.r[r]) == want) }
	}
	eq := c.p.equal(t)
	return func(fr *frame) {
		fr.pos = pos
		fr.m.top = fr
		fr.s[d] = truth(eq(fr, fr.r[l], fr.r[r], 0) == want)
	}
}
