package exec

import (
	"go/token"
	"go/types"
	"math"

	"ohmwright/units"

	"golang.org/x/tools/go/ssa"
)

// changeType converts between types of one underlying type. To the checker
// the underlying type of a quantity is float64, so float64(q) comes here.
func (c *compiler) changeType(x *ssa.ChangeType) op {
	d, s := c.regs[x], c.regs[x.X]
	if d.c != s.c {
		return c.convert(x, x.X)
	}
	return moveOp(d, s)
}

func (c *compiler) convert(x, from ssa.Value) op {
	d, s, pos := c.regs[x], c.regs[from], x.Pos()
	to, ft := x.Type(), from.Type()
	di, si := d.i, s.i
	if isComplex(to) || isComplex(ft) {
		return refuseComplex(pos)
	}
	switch {
	case s.c == classNum && d.c == classNum:
		return convertNumber(kindOf(ft), kindOf(to), di, si)
	case s.c == classNum && d.c == classQty:
		k := kindOf(ft)
		return func(fr *frame) { fr.q[di] = units.Number(asFloat(k, fr.s[si])) }
	case s.c == classQty && d.c == classNum:
		k := kindOf(to)
		return func(fr *frame) {
			fr.pos = pos
			fr.s[di] = fromFloat(k, fr.q[si].Plain())
		}
	case s.c == classQty && d.c == classQty:
		return moveOp(d, s)
	case s.c == classNum: // string(rune)
		unsigned := isUnsigned(kindOf(ft))
		return func(fr *frame) {
			n := fr.s[si]
			if unsigned && n > math.MaxInt32 || !unsigned && (int64(n) < 0 || int64(n) > math.MaxInt32) {
				n = 0xFFFD
			}
			fr.r[di] = string(rune(n))
		}
	}
	return c.convertText(d, s, to, ft, pos)
}

func (c *compiler) convertText(d, s slot, to, ft types.Type, pos token.Pos) op {
	di, si := d.i, s.i
	if kindOf(ft) == types.String {
		sl, ok := to.Underlying().(*types.Slice)
		if !ok {
			return moveOp(d, s)
		}
		if kindOf(sl.Elem()) == types.Uint8 {
			return func(fr *frame) {
				t := fr.r[si].(string)
				fr.pos = pos
				fr.m.count(8 * int64(len(t)))
				b := make([]uint64, len(t))
				for i := range len(t) {
					b[i] = uint64(t[i])
				}
				fr.r[di] = b
			}
		}
		return func(fr *frame) {
			t := fr.r[si].(string)
			fr.pos = pos
			fr.m.count(8 * int64(len(t)))
			b := make([]uint64, 0, len(t))
			for _, r := range t {
				b = append(b, uint64(int64(r)))
			}
			fr.r[di] = b
		}
	}
	if sl, ok := ft.Underlying().(*types.Slice); ok && kindOf(to) == types.String {
		if kindOf(sl.Elem()) == types.Uint8 {
			return func(fr *frame) {
				b, _ := fr.r[si].([]uint64)
				fr.pos = pos
				fr.m.count(int64(len(b)))
				fr.r[di] = string(asBytes(b))
			}
		}
		return func(fr *frame) {
			b, _ := fr.r[si].([]uint64)
			fr.pos = pos
			fr.m.count(4 * int64(len(b)))
			t := make([]rune, len(b))
			for i, r := range b {
				t[i] = rune(r)
			}
			fr.r[di] = string(t)
		}
	}
	if _, ok := to.Underlying().(*types.Array); ok {
		lay := c.p.lays.of(to)
		return func(fr *frame) {
			if a, _ := fr.arrayOf(fr.r[si], lay, pos).(*structure); a != nil {
				fr.r[di] = a.clone()
			} else {
				fr.r[di] = newStructure(lay)
			}
		}
	}
	return moveOp(d, s)
}

func asBytes(b []uint64) []byte {
	t := make([]byte, len(b))
	for i, x := range b {
		t[i] = byte(x)
	}
	return t
}

// asFloat gives the number of kind k as a float64.
func asFloat(k types.BasicKind, x uint64) float64 {
	switch {
	case isFloat(k):
		return float(x)
	case isUnsigned(k):
		return float64(x)
	}
	return float64(int64(x))
}

// fromFloat converts a float64 to kind k as Go does.
func fromFloat(k types.BasicKind, f float64) uint64 {
	switch k {
	case types.Float64:
		return bits(f)
	case types.Float32:
		return bits(float64(float32(f)))
	case types.Uint64, types.Uint, types.Uintptr:
		return uint64(f)
	case types.Uint32:
		return uint64(uint32(f))
	case types.Uint16:
		return uint64(uint16(f))
	case types.Uint8:
		return uint64(uint8(f))
	case types.Int32:
		return uint64(int64(int32(f)))
	case types.Int16:
		return uint64(int64(int16(f)))
	case types.Int8:
		return uint64(int64(int8(f)))
	}
	return uint64(int64(f))
}

func convertNumber(from, to types.BasicKind, d, s int) op {
	switch {
	case from == to || to == types.Bool:
		return func(fr *frame) { fr.s[d] = fr.s[s] }
	case isFloat(from):
		return func(fr *frame) { fr.s[d] = fromFloat(to, float(fr.s[s])) }
	case to == types.Float32 && isUnsigned(from):
		return func(fr *frame) { fr.s[d] = bits(float64(float32(fr.s[s]))) }
	case to == types.Float32:
		return func(fr *frame) { fr.s[d] = bits(float64(float32(int64(fr.s[s])))) }
	case to == types.Float64 && isUnsigned(from):
		return func(fr *frame) { fr.s[d] = bits(float64(fr.s[s])) }
	case to == types.Float64:
		return func(fr *frame) { fr.s[d] = bits(float64(int64(fr.s[s]))) }
	}
	return func(fr *frame) { fr.s[d] = norm(to, fr.s[s]) }
}
