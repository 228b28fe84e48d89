package exec

import (
	"go/constant"
	"go/token"

	"golang.org/x/tools/go/ssa"
)

// block compiles the instructions of b. Phis are moves on the edges.
func (c *compiler) block(b *ssa.BasicBlock, out *block) {
	runDefersAt := c.lostRunDefers(b)
	for _, in := range b.Instrs {
		if _, phi := in.(*ssa.Phi); !phi && in.Pos() != token.NoPos {
			out.pos = in.Pos()
			break
		}
	}
	for i, in := range b.Instrs {
		if i == runDefersAt {
			out.ops = append(out.ops, (*frame).runDefers)
		}
		if c.skip[in] {
			continue
		}
		next := c.following(b, i)
		switch x := in.(type) {
		case *ssa.Phi:
		case *ssa.Jump:
			out.next = c.jump(b, 0)
		case *ssa.If:
			if out.next == nil { // not fused with its comparison
				cond := c.reg(x.Cond)
				yes, no := c.edge(b, 0), c.edge(b, 1)
				out.next = func(fr *frame) *block {
					if fr.s[cond] != 0 {
						return yes.take(fr)
					}
					return no.take(fr)
				}
			}
		case *ssa.Return:
			out.next = c.returns(x)
		case *ssa.Panic:
			v, pos := c.reg(x.X), x.Pos()
			own := rangePanic(x)
			out.next = func(fr *frame) *block {
				if own != "" {
					fr.throw(pos, "%s", own)
				}
				fr.panicWith(pos, fr.r[v])
				return nil
			}
		default:
			if cmp, ok := in.(*ssa.BinOp); ok {
				if f, ok := next.(*ssa.If); ok && f.Cond == cmp && c.uses(cmp) == 1 {
					if out.next = c.fuse(b, cmp); out.next != nil {
						continue
					}
				}
			}
			if o := c.pair(in, next); o != nil && i+1 != runDefersAt {
				c.skip[next] = true
				out.ops = append(out.ops, o)
				continue
			}
			if o := c.instr(in); o != nil {
				out.ops = append(out.ops, o)
			}
		}
	}
	if out.next == nil {
		out.next = func(*frame) *block { return nil }
	}
}

// following is the instruction after the i-th, DebugRefs that nobody follows
// left out.
func (c *compiler) following(b *ssa.BasicBlock, i int) ssa.Instruction {
	for _, in := range b.Instrs[i+1:] {
		if ref, ok := in.(*ssa.DebugRef); !ok || c.follows(ref) {
			return in
		}
	}
	return nil
}

// rangePanic is the run-time error for which ssa puts a panic of its own into
// a range over a function, "" for a panic of the source.
func rangePanic(x *ssa.Panic) string {
	mi, ok := x.X.(*ssa.MakeInterface)
	if !ok || x.Pos() != token.NoPos {
		return ""
	}
	k, ok := mi.X.(*ssa.Const)
	if !ok || k.Value == nil || k.Value.Kind() != constant.String {
		return ""
	}
	switch constant.StringVal(k.Value) {
	case "yield function called after range loop exit":
		return "range function continued iteration after function for loop body returned false"
	case "iterator call did not preserve panic":
		return "range function recovered a loop body panic and did not resume panicking"
	}
	return ""
}

// lostRunDefers says where in b deferred calls must run, -1 for nowhere.
// ssa (v0.52, lift.go) drops RunDefers from a function whose only defers
// stand in the bodies of ranges over functions; it stood before the results
// are loaded for the return.
func (c *compiler) lostRunDefers(b *ssa.BasicBlock) int {
	if !c.defers || c.fn.Recover == b || c.yield {
		return -1
	}
	for _, b := range c.fn.Blocks {
		for _, in := range b.Instrs {
			if _, ok := in.(*ssa.RunDefers); ok {
				return -1
			}
		}
	}
	at := len(b.Instrs) - 1
	if _, ok := b.Instrs[at].(*ssa.Return); !ok {
		return -1
	}
	for ; at > 0; at-- {
		switch x := b.Instrs[at-1].(type) {
		case *ssa.DebugRef:
		case *ssa.UnOp:
			if x.Op != token.MUL {
				return at
			}
		default:
			return at
		}
	}
	return at
}

// uses counts the instructions that use v; only a traced function follows DebugRefs.
func (c *compiler) uses(v ssa.Value) int {
	n := 0
	for _, r := range *v.Referrers() {
		if _, ok := r.(*ssa.DebugRef); !ok || c.traced {
			n++
		}
	}
	return n
}

func (c *compiler) jump(b *ssa.BasicBlock, i int) func(fr *frame) *block {
	e := c.edge(b, i)
	to := e.to
	branch := c.onlyBranches(b.Succs[i])
	switch {
	case branch && e.moves == nil:
		return func(fr *frame) *block { return to.next(fr) }
	case branch && len(e.s) == 2 && len(e.r)+len(e.q) == 0:
		d0, s0, d1, s1 := e.s[0].dst, e.s[0].src, e.s[1].dst, e.s[1].src
		return func(fr *frame) *block {
			s := fr.s
			s[d0] = s[s0]
			s[d1] = s[s1]
			return to.next(fr)
		}
	case branch:
		moves := e.moves
		return func(fr *frame) *block {
			moves(fr)
			return to.next(fr)
		}
	case e.moves == nil:
		return func(*frame) *block { return to }
	case len(e.s) == 2 && len(e.r)+len(e.q) == 0:
		d0, s0, d1, s1 := e.s[0].dst, e.s[0].src, e.s[1].dst, e.s[1].src
		return func(fr *frame) *block {
			s := fr.s
			s[d0] = s[s0]
			s[d1] = s[s1]
			return to
		}
	}
	return e.take
}

// onlyBranches reports whether b does nothing but choose where to go, as the
// head of a loop does: then the jump to it makes the choice. The choice leads
// to a block that is counted, so that no loop goes uncounted.
func (c *compiler) onlyBranches(b *ssa.BasicBlock) bool {
	for i, in := range b.Instrs {
		switch x := in.(type) {
		case *ssa.Phi, *ssa.If:
		case *ssa.DebugRef:
			if c.traced {
				return false
			}
		case *ssa.BinOp:
			last, ok := b.Instrs[len(b.Instrs)-1].(*ssa.If)
			if !ok || c.following(b, i) != ssa.Instruction(last) || last.Cond != x || c.uses(x) != 1 || classOf(x.X.Type()) != classNum {
				return false
			}
		default:
			return false
		}
	}
	_, ok := b.Instrs[len(b.Instrs)-1].(*ssa.If)
	return ok
}

// edge is a way from one block to another with the moves for its phis.
type edge struct {
	to    *block
	moves func(fr *frame)
	copies
}

// copies are values that go from register to register, by their classes.
type copies struct{ s, q, r []move }

type move struct{ dst, src int }

func (k *copies) add(c class, dst, src int) {
	m := move{dst, src}
	switch c {
	case classNum:
		k.s = append(k.s, m)
	case classQty:
		k.q = append(k.q, m)
	default:
		k.r = append(k.r, m)
	}
}

func (k *copies) make(fr *frame) {
	for _, m := range k.s {
		fr.s[m.dst] = fr.s[m.src]
	}
	for _, m := range k.q {
		fr.q[m.dst] = fr.q[m.src]
	}
	for _, m := range k.r {
		fr.r[m.dst] = fr.r[m.src]
	}
}

func (e *edge) take(fr *frame) *block {
	if e.moves != nil {
		e.moves(fr)
	}
	return e.to
}

// edge compiles the i-th way out of b. All phis read before any is written:
// a value that another phi overwrites goes through a register of its own.
func (c *compiler) edge(b *ssa.BasicBlock, i int) *edge {
	to := b.Succs[i]
	e := &edge{to: c.blocks[to.Index]}
	pred := predIndex(b, to, i)
	written := map[slot]bool{}
	var first, then []struct{ d, s slot }
	for _, in := range to.Instrs {
		phi, ok := in.(*ssa.Phi)
		if !ok {
			if _, ok := in.(*ssa.DebugRef); ok {
				continue
			}
			break
		}
		d, s := c.regs[phi], c.regs[phi.Edges[pred]]
		if d == s {
			continue
		}
		if written[s] {
			t := c.take(s.c)
			first = append(first, struct{ d, s slot }{t, s})
			s = t
		}
		written[d] = true
		then = append(then, struct{ d, s slot }{d, s})
	}
	all := append(first, then...)
	if len(all) == 0 {
		return e
	}
	for _, m := range all {
		e.add(m.d.c, m.d.i, m.s.i)
	}
	if ss := e.s; len(e.q)+len(e.r) == 0 {
		e.moves = func(fr *frame) {
			s := fr.s
			for _, m := range ss {
				s[m.dst] = s[m.src]
			}
		}
		return e
	}
	e.moves = e.make
	return e
}

// predIndex says which predecessor of to the i-th way out of b is; both ways
// of an If may lead to one block.
func predIndex(b, to *ssa.BasicBlock, i int) int {
	nth := 0
	for _, s := range b.Succs[:i] {
		if s == to {
			nth++
		}
	}
	for j, p := range to.Preds {
		if p == b {
			if nth == 0 {
				return j
			}
			nth--
		}
	}
	return 0
}

func (c *compiler) returns(x *ssa.Return) func(fr *frame) *block {
	var k copies
	for i, v := range x.Results {
		k.add(c.results[i].c, c.results[i].i, c.reg(v))
	}
	switch {
	case len(x.Results) == 0:
		return func(*frame) *block { return nil }
	case len(k.s) == 1 && len(x.Results) == 1:
		m := k.s[0]
		return func(fr *frame) *block { fr.s[m.dst] = fr.s[m.src]; return nil }
	case len(k.q) == 1 && len(x.Results) == 1:
		m := k.q[0]
		return func(fr *frame) *block { fr.q[m.dst] = fr.q[m.src]; return nil }
	}
	return func(fr *frame) *block {
		k.make(fr)
		return nil
	}
}
