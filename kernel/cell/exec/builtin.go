package exec

import (
	"fmt"
	"go/token"
	"go/types"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"ohmwright/units"

	"golang.org/x/tools/go/ssa"
)

// plainError is a run-time panic that Go words without its usual prefix.
type plainError string

func (e plainError) Error() string { return string(e) }
func (e plainError) RuntimeError() {}

func decode(s string) (rune, int) { return utf8.DecodeRuneInString(s) }

// builtin compiles the call of a built-in function.
func (c *compiler) builtin(x *ssa.Call, b *ssa.Builtin) op {
	args, pos := x.Call.Args, x.Pos()
	d := c.regs[x].i
	for _, a := range args {
		if isComplex(a.Type()) {
			return refuseComplex(pos)
		}
	}
	switch b.Name() {
	case "len":
		return c.length(args[0], d, pos, sliceLen)
	case "cap":
		return c.length(args[0], d, pos, sliceCap)
	case "append":
		return c.append(x, d)
	case "copy":
		to, from := c.reg(args[0]), c.reg(args[1])
		if kindOf(args[1].Type()) == types.String {
			return func(fr *frame) {
				s := fr.r[from].(string)
				b, _ := fr.r[to].([]uint64)
				n := min(len(s), len(b))
				for i := range n {
					b[i] = uint64(s[i])
				}
				fr.s[d] = uint64(n)
			}
		}
		_, z := c.elemZero(args[0].Type().Underlying().(*types.Slice).Elem())
		return func(fr *frame) {
			n := copyTo(z, fr.r[to], fr.r[from])
			fr.m.charge(16 * int64(n))
			fr.s[d] = uint64(n)
		}
	case "delete":
		m, k := c.reg(args[0]), c.regs[args[1]]
		return func(fr *frame) {
			fr.pos = pos
			if mp, _ := fr.r[m].(*mapping); mp != nil {
				mp.remove(fr, fr.box(k.c, k.i))
			}
		}
	case "clear":
		a := c.reg(args[0])
		var z zero
		if s, ok := args[0].Type().Underlying().(*types.Slice); ok {
			_, z = c.elemZero(s.Elem())
		}
		return func(fr *frame) {
			fr.m.charge(16 * int64(sliceLen(fr.r[a])))
			clearAll(z, fr.r[a])
		}
	case "min", "max":
		return c.minmax(x, b.Name() == "max")
	case "panic":
		a := c.reg(args[0])
		return func(fr *frame) { fr.panicWith(pos, fr.r[a]) }
	case "recover":
		return func(fr *frame) { fr.r[d] = fr.recovers() }
	case "print", "println":
		p := c.passing(args, nil)
		ts := typesOf(args)
		ln := b.Name() == "println"
		return func(fr *frame) { fr.m.print(ln, ts, p.boxed(fr)) }
	case "ssa:wrapnilchk":
		a := c.reg(args[0])
		return func(fr *frame) {
			if fr.r[a] == nil {
				fr.nilPointer(pos)
			}
			fr.r[d] = fr.r[a]
		}
	case "ssa:deferstack":
		return func(fr *frame) { fr.r[d] = fr }
	case "real", "imag", "complex":
		return refuseComplex(pos)
	case "close":
		return refuse(pos, "a channel")
	}
	return refuse(pos, b.Name())
}

func typesOf(vs []ssa.Value) []types.Type {
	ts := make([]types.Type, len(vs))
	for i, v := range vs {
		ts[i] = v.Type()
	}
	return ts
}

func (c *compiler) length(v ssa.Value, d int, pos token.Pos, of func(any) int) op {
	a := c.reg(v)
	switch t := v.Type().Underlying().(type) {
	case *types.Basic:
		return func(fr *frame) { fr.s[d] = uint64(len(fr.r[a].(string))) }
	case *types.Map:
		return func(fr *frame) {
			m, _ := fr.r[a].(*mapping)
			if m == nil {
				fr.s[d] = 0
				return
			}
			fr.s[d] = uint64(m.n)
		}
	case *types.Array:
		n := uint64(t.Len())
		return func(fr *frame) { fr.s[d] = n }
	case *types.Pointer:
		n := uint64(t.Elem().Underlying().(*types.Array).Len())
		return func(fr *frame) { fr.s[d] = n }
	case *types.Chan:
		return refuse(pos, "a channel")
	}
	return func(fr *frame) { fr.s[d] = uint64(of(fr.r[a])) }
}

func (c *compiler) append(x *ssa.Call, d int) op {
	args, pos := x.Call.Args, x.Pos()
	if len(args) == 1 {
		return moveOp(slot{classRef, d}, c.regs[args[0]])
	}
	s, t := c.reg(args[0]), c.reg(args[1])
	if kindOf(args[1].Type()) == types.String {
		return func(fr *frame) {
			str := fr.r[t].(string)
			b := make([]uint64, len(str))
			for i := range len(str) {
				b[i] = uint64(str[i])
			}
			fr.pos = pos
			fr.r[d] = fr.m.appendTo(classNum, zero{}, 8, fr.r[s], b)
		}
	}
	k, z := c.elemZero(x.Type().Underlying().(*types.Slice).Elem())
	w := weight(k, z)
	return func(fr *frame) {
		fr.pos = pos
		fr.r[d] = fr.m.appendTo(k, z, w, fr.r[s], fr.r[t])
	}
}

func clearAll(z zero, v any) {
	switch s := v.(type) {
	case *mapping:
		s.clear()
	case []uint64:
		clear(s)
	case []units.Quantity:
		clear(s)
	case []any:
		if z.identity() {
			for i := range s {
				setRef(s[i], z.make())
			}
			return
		}
		fill(s, z)
	}
}

func (c *compiler) minmax(x *ssa.Call, max bool) op {
	args, pos := x.Call.Args, x.Pos()
	d := c.regs[x]
	regs := make([]int, len(args))
	for i, a := range args {
		regs[i] = c.reg(a)
	}
	k := kindOf(x.Type())
	switch {
	case d.c == classQty:
		pick := units.Min
		if max {
			pick = units.Max
		}
		return func(fr *frame) {
			fr.pos = pos
			q := fr.q[regs[0]]
			for _, r := range regs[1:] {
				q = pick(q, fr.q[r])
			}
			fr.q[d.i] = q
		}
	case k == types.String:
		return func(fr *frame) {
			s := fr.r[regs[0]].(string)
			for _, r := range regs[1:] {
				if t := fr.r[r].(string); (t < s) != max && t != s {
					s = t
				}
			}
			fr.r[d.i] = s
		}
	case isFloat(k):
		pick := math.Min
		if max {
			pick = math.Max
		}
		return func(fr *frame) {
			f := float(fr.s[regs[0]])
			for _, r := range regs[1:] {
				g := float(fr.s[r])
				if f != f || g != g {
					f = math.NaN()
				} else {
					f = pick(f, g)
				}
			}
			fr.s[d.i] = bits(f)
		}
	}
	unsigned := isUnsigned(k)
	return func(fr *frame) {
		a := fr.s[regs[0]]
		for _, r := range regs[1:] {
			b := fr.s[r]
			less := int64(b) < int64(a)
			if unsigned {
				less = b < a
			}
			if less != max && a != b {
				a = b
			}
		}
		fr.s[d.i] = a
	}
}

// deferBuiltin is a deferred call of a built-in function.
func (c *compiler) deferBuiltin(b *ssa.Builtin, args []ssa.Value, pos token.Pos) func(fr *frame, args []any) func(of *frame) {
	name, ts := b.Name(), typesOf(args)
	var z zero
	if len(ts) > 0 {
		if s, ok := ts[0].Underlying().(*types.Slice); ok && name != "append" {
			_, z = c.elemZero(s.Elem())
		}
	}
	return func(fr *frame, v []any) func(of *frame) {
		return func(of *frame) {
			switch name {
			case "panic":
				of.panicWith(pos, v[0])
			case "print", "println":
				of.m.print(name == "println", ts, v)
			case "delete":
				if m, _ := v[0].(*mapping); m != nil {
					m.remove(of, v[1])
				}
			case "clear":
				clearAll(z, v[0])
			case "copy":
				if s, ok := v[1].(string); ok {
					b, _ := v[0].([]uint64)
					for i := range min(len(s), len(b)) {
						b[i] = uint64(s[i])
					}
					return
				}
				copyTo(z, v[0], v[1])
			case "recover": // it does not recover when it is itself the deferred function
			default:
				refuse(pos, name)(of)
			}
		}
	}
}

// print is the built-in print and println; it writes where fmt.Print does.
func (m *machine) print(ln bool, ts []types.Type, vs []any) {
	var b strings.Builder
	for i, v := range vs {
		if ln && i > 0 {
			b.WriteByte(' ')
		}
		switch classOf(ts[i]) {
		case classNum:
			x := v.(uint64)
			switch k := kindOf(ts[i]); {
			case k == types.Bool:
				b.WriteString(strconv.FormatBool(x != 0))
			case isFloat(k):
				b.WriteString(printFloat(float(x)))
			case isUnsigned(k):
				b.WriteString(strconv.FormatUint(x, 10))
			default:
				b.WriteString(strconv.FormatInt(int64(x), 10))
			}
		case classQty:
			b.WriteString(v.(units.Quantity).String())
		default:
			if s, ok := v.(string); ok {
				b.WriteString(s)
			} else {
				b.WriteString(m.text(&iface{ts[i], v}))
			}
		}
	}
	if ln {
		b.WriteByte('\n')
	}
	m.write(b.String())
}

// printFloat is how println writes a float: +1.500000e+000.
func printFloat(f float64) string {
	switch {
	case f != f:
		return "NaN"
	case math.IsInf(f, 0):
		return fmt.Sprintf("%+v", f)
	}
	s := fmt.Sprintf("%+e", f)
	i := strings.LastIndexAny(s, "+-")
	for len(s)-i-1 < 3 {
		s = s[:i+1] + "0" + s[i+1:]
	}
	return s
}

// write sends text to the run's output.
func (m *machine) write(s string) {
	m.count(int64(len(s)))
	if m.run.Out != nil {
		_, _ = m.run.Out.Write([]byte(s))
	}
}
