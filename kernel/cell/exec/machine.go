package exec

import (
	"context"
	"errors"
	"fmt"
	"go/token"
	"go/types"
	"sync"

	"ohmwright/units"
)

const (
	defaultSteps  = 2_000_000_000
	defaultDepth  = 10_000
	defaultMemory = 1 << 30
	// Every nested call of a cell nests a few Go calls; 100,000 of them stay
	// far below the 1 GB at which Go gives up without a chance to recover.
	deepest = 100_000
	// testEvery is how many blocks run between two looks at the context.
	testEvery = 1024
)

// runState is what a Run keeps between its calls.
type runState struct {
	mu     sync.Mutex
	idle   *machine
	first  *Program // the first program that the run used
	states map[*Program]*state
	vars   map[*types.Var]*Variable
}

// state is what one run keeps of one program: its variables.
type state struct {
	p       *Program
	globals []global
}

// global is a linked package-level variable.
type global struct {
	v   *Variable
	n   *uint64
	w   *uint64 // n where the cell may store
	q   *units.Quantity
	ptr any
}

// machine executes calls, one inside the other.
type machine struct {
	run    *Run
	frames []*frame // by depth, reused
	top    *frame   // the running one; after a panic the one that panicked
	left   int64    // blocks until the next test
	steps  int64    // blocks left after those
	memory int64    // bytes left
	depth  int      // limit
	nest   int      // what compiled code and the printer take of Go's stack, see dig
	done   <-chan struct{}
	// stopped is set once a limit or cancel stopped the run, in case a
	// compiled function (fmt does) swallowed the panic.
	stopped *stop
}

// frame is the activation of one function.
type frame struct {
	s []uint64
	q []units.Quantity
	r []any

	m       *machine
	ps      *state
	code    *code
	caller  *frame
	pos     token.Pos // of the instruction that runs, kept by those that can fail
	depth   int
	defers  []deferred
	panic   *panicking // while deferred calls run
	deferOf *frame     // the frame whose deferred call this is
}

// stop is the Go panic of what a cell cannot recover from.
type stop struct{ fault *Fault }

func (run *Run) machine() *machine {
	run.in.mu.Lock()
	defer run.in.mu.Unlock()
	if m := run.in.idle; m != nil {
		run.in.idle = nil
		return m
	}
	m := &machine{run: run, steps: run.Limits.Steps, memory: run.Limits.Memory, depth: run.Limits.Depth}
	if m.steps <= 0 {
		m.steps = defaultSteps
	}
	if m.memory <= 0 {
		m.memory = defaultMemory
	}
	if m.depth <= 0 {
		m.depth = defaultDepth
	}
	m.depth = min(m.depth, deepest)
	if run.Ctx != nil {
		m.done = run.Ctx.Done()
	}
	return m
}

func (run *Run) release(m *machine) {
	m.top, m.nest = nil, 0
	m.stopped = nil
	run.in.mu.Lock()
	run.in.idle = m
	run.in.mu.Unlock()
}

// state returns what run keeps of p.
func (m *machine) state(p *Program) *state {
	if m.top != nil && m.top.ps.p == p {
		return m.top.ps
	}
	in := &m.run.in
	in.mu.Lock()
	defer in.mu.Unlock()
	s := in.states[p]
	if s == nil {
		if in.states == nil {
			in.states = map[*Program]*state{}
		}
		s = &state{p: p}
		if in.first == nil {
			in.first = p
		}
		in.states[p] = s
	}
	return s
}

// push makes the frame for a call of k from caller (nil: from outside).
func (m *machine) push(k *code, ps *state, caller *frame) *frame {
	k.ready()
	if k.entry == nil {
		m.halt(&Fault{Msg: k.broken})
	}
	d := 0
	if caller != nil {
		d = caller.depth + 1
	}
	if d >= len(m.frames) {
		if d >= m.depth {
			m.halt(&Fault{Msg: fmt.Sprintf("%s: more than %d nested calls", name(k.fn), m.depth), Hint: "a function that calls itself needs a case in which it does not", Err: ErrLimit})
		}
		m.frames = append(m.frames, &frame{m: m, depth: d})
	}
	fr := m.frames[d]
	if cap(fr.s) < k.ns {
		fr.s = make([]uint64, k.ns+8)
	}
	if cap(fr.q) < k.nq {
		fr.q = make([]units.Quantity, k.nq+4)
	}
	if cap(fr.r) < k.nr {
		fr.r = make([]any, k.nr+4)
	}
	fr.s, fr.q, fr.r = fr.s[:k.ns], fr.q[:k.nq], fr.r[:k.nr]
	copy(fr.s[k.sc0:], k.sc)
	copy(fr.q[k.qc0:], k.qc)
	copy(fr.r[k.rc0:], k.rc)
	fr.ps, fr.code, fr.caller, fr.pos = ps, k, caller, token.NoPos
	fr.defers, fr.panic, fr.deferOf = fr.defers[:0], nil, nil
	m.top = fr
	if k.globals != nil {
		for _, g := range k.globals {
			fr.r[g.reg] = fr.global(g.index).ptr
		}
	}
	return fr
}

// invoke runs the frame that push made, its arguments in place.
func (m *machine) invoke(fr *frame) {
	if fr.code.defers {
		fr.runDeferring()
		return
	}
	m.exec(fr, fr.code.entry)
}

// pop ends the frame after its results were taken.
func (m *machine) pop(fr *frame) {
	clear(fr.r)
	m.top = fr.caller
}

// exec runs from block b to the return.
func (m *machine) exec(fr *frame, b *block) {
	for b != nil {
		if m.left--; m.left < 0 {
			if b.pos != token.NoPos {
				fr.pos = b.pos // so that a loop without an end is found
			}
			m.top = fr
			m.tick()
		}
		for _, o := range b.ops {
			o(fr)
		}
		b = b.next(fr)
	}
}

// tick tests the limits and buys the next blocks.
func (m *machine) tick() {
	m.poll()
	if m.steps <= 0 {
		m.halt(&Fault{Msg: "the cell ran too long: its limit of steps is reached", Hint: "look for a loop that does not end", Err: ErrLimit})
	}
	m.left = min(testEvery, m.steps)
	m.steps -= m.left
	m.left--
}

// poll stops the run if it was cancelled.
func (m *machine) poll() {
	if m.stopped != nil {
		panic(m.stopped)
	}
	select {
	case <-m.done:
		err := m.run.Ctx.Err()
		msg := "stopped"
		if errors.Is(err, context.DeadlineExceeded) {
			msg = "stopped: the time for this cell is over"
		}
		m.halt(&Fault{Msg: msg, Err: err})
	default:
	}
}

// count takes n bytes from what the run may use.
func (m *machine) count(n int64) {
	if m.memory -= n; m.memory < 0 || n < 0 {
		m.halt(&Fault{Msg: "the cell needs too much memory", Hint: "its limit is reached: look for something that grows in a loop", Err: ErrLimit})
	}
}

// nestMost bounds the nesting of compiled calls and of values in print, which
// take more of Go's stack than calls of cells: 40,000 units of about 1 kB.
const (
	nestMost     = 40_000
	nestHostCall = 4
)

// dig takes n units of Go's stack; whoever calls it puts m.nest back.
func (m *machine) dig(n int) {
	if m.nest += n; m.nest > nestMost {
		m.halt(&Fault{Msg: "more nested calls through compiled code than there is room for", Hint: "a function that calls itself needs a case in which it does not", Err: ErrLimit})
	}
}

// charge takes steps for work on n bytes that one instruction does, so that a
// cancel is seen and a loop over large values ends in time.
func (m *machine) charge(n int64) {
	if n > 1<<16 {
		m.steps -= n >> 10
		m.left = 0
	}
}

// halt stops the run with a fault that the cell cannot recover from.
func (m *machine) halt(f *Fault) {
	f.Stack = m.stack()
	if f.Pos == token.NoPos {
		f.Pos = place(f.Stack)
	}
	m.stopped = &stop{f}
	panic(m.stopped)
}

// stackShown is how many of the innermost frames a Fault lists.
const stackShown = 50

// stack lists the functions that are running, the innermost first.
func (m *machine) stack() []Frame {
	var fs []Frame
	for fr := m.top; fr != nil && len(fs) < stackShown; fr = fr.caller {
		if fr.code.wrapper {
			continue
		}
		fs = append(fs, Frame{name(fr.code.fn), fr.pos})
	}
	return fs
}

// place returns the innermost known position.
func place(fs []Frame) token.Pos {
	for _, f := range fs {
		if f.Pos != token.NoPos {
			return f.Pos
		}
	}
	return token.NoPos
}
