package exec

import (
	"fmt"
	"go/constant"
	"go/token"
	"go/types"
	"sync"

	"ohmwright/units"

	"golang.org/x/tools/go/ssa"
)

// op is one compiled instruction.
type op func(fr *frame)

// block is a compiled basic block.
type block struct {
	ops  []op
	next func(fr *frame) *block // nil: the function returns
	pos  token.Pos              // of its first instruction that has one
}

// code is a compiled function. Registers of each class are numbered: the
// parameters first, then the results, free variables, values, constants.
type code struct {
	p       *Program
	fn      *ssa.Function
	traced  bool
	wrapper bool // made by ssa for a method: calls through it, recover sees past it
	yield   bool // body of a range over a function

	once    sync.Once
	entry   *block
	recover *block
	defers  bool
	broken  string // why entry is nil

	ns, nq, nr    int
	params        []slot
	results       []slot
	free          []slot
	sc            []uint64 // constants, copied to sc0… when the function is entered
	qc            []units.Quantity
	rc            []any
	sc0, qc0, rc0 int
	globals       []globalReg
}

// globalReg says that register reg holds the address of variable index.
type globalReg struct{ index, reg int }

func newCode(p *Program, fn *ssa.Function, traced bool) *code {
	k := &code{p: p, fn: fn, traced: traced, yield: isYield(fn)}
	k.wrapper = fn.Synthetic != "" && !k.yield && fn.Syntax() == nil && fn.Origin() == nil
	for _, v := range fn.Params {
		k.params = append(k.params, k.alloc(v.Type()))
	}
	for v := range fn.Signature.Results().Variables() {
		k.results = append(k.results, k.alloc(v.Type()))
	}
	for _, v := range fn.FreeVars {
		k.free = append(k.free, k.alloc(v.Type()))
	}
	return k
}

// alloc takes a register for a value of type t.
func (k *code) alloc(t types.Type) slot { return k.take(classOf(t)) }

// take takes a register of a class.
func (k *code) take(c class) slot {
	s := slot{c: c}
	switch c {
	case classNum:
		s.i = k.ns
		k.ns++
	case classQty:
		s.i = k.nq
		k.nq++
	default:
		s.i = k.nr
		k.nr++
	}
	return s
}

// ready compiles the function if that was not done.
func (k *code) ready() { k.once.Do(k.compileSafely) }

// compileSafely keeps a failure of the compiler as a fault of the function.
func (k *code) compileSafely() {
	defer func() {
		if x := recover(); x != nil {
			k.entry, k.broken = nil, fmt.Sprintf("internal error: %s cannot be prepared: %v", name(k.fn), x)
		}
	}()
	k.compile()
}

// compiler is what compiling one function needs to remember.
type compiler struct {
	*code
	regs   map[ssa.Value]slot
	tuples map[ssa.Value][]slot
	blocks []*block
	nums   map[uint64]int // constants by value
	texts  map[string]int
	null   int // register of nil, -1 for none yet
	skip   map[ssa.Instruction]bool
}

func (k *code) compile() {
	p := k.p
	p.mu.Lock()
	defer p.mu.Unlock()
	fn := k.fn
	c := &compiler{
		code: k, regs: map[ssa.Value]slot{}, tuples: map[ssa.Value][]slot{},
		nums: map[uint64]int{}, texts: map[string]int{}, null: -1, skip: map[ssa.Instruction]bool{},
	}
	for i, v := range fn.Params {
		c.regs[v] = k.params[i]
	}
	for i, v := range fn.FreeVars {
		c.regs[v] = k.free[i]
	}
	for _, b := range fn.Blocks {
		for _, in := range b.Instrs {
			c.define(in)
		}
	}
	k.sc0, k.qc0, k.rc0 = k.ns, k.nq, k.nr
	var rands []*ssa.Value
	for _, b := range fn.Blocks {
		for _, in := range b.Instrs {
			if _, ok := in.(*ssa.DebugRef); ok && !k.traced {
				continue
			}
			rands = in.Operands(rands[:0])
			for _, v := range rands {
				if *v != nil {
					c.operand(*v)
				}
			}
		}
	}
	k.ns, k.nq, k.nr = k.sc0+len(k.sc), k.qc0+len(k.qc), k.rc0+len(k.rc)
	// Addresses of variables used as plain values come after the constants.
	for _, b := range fn.Blocks {
		for _, in := range b.Instrs {
			rands = in.Operands(rands[:0])
			for _, v := range rands {
				if g, ok := (*v).(*ssa.Global); ok && !c.direct(in, g) {
					c.addressReg(g)
				}
			}
		}
	}
	c.blocks = make([]*block, len(fn.Blocks))
	for i := range c.blocks {
		c.blocks[i] = &block{}
	}
	for i, b := range fn.Blocks {
		c.block(b, c.blocks[i])
	}
	k.entry = c.blocks[0]
	if fn.Recover != nil {
		k.recover = c.blocks[fn.Recover.Index]
	}
}

// define takes the registers of an instruction's value.
func (c *compiler) define(in ssa.Instruction) {
	switch x := in.(type) {
	case *ssa.Defer:
		c.defers = true
	case *ssa.Call:
		if b, ok := x.Call.Value.(*ssa.Builtin); ok && b.Name() == "ssa:deferstack" {
			c.defers = true
		}
	}
	v, ok := in.(ssa.Value)
	if !ok {
		return
	}
	if t, ok := v.Type().(*types.Tuple); ok {
		var ss []slot
		for e := range t.Variables() {
			ss = append(ss, c.alloc(e.Type()))
		}
		c.tuples[v] = ss
		return
	}
	if _, ok := v.(*ssa.Range); ok {
		c.regs[v] = slot{classRef, c.nr}
		c.nr++
		return
	}
	c.regs[v] = c.alloc(v.Type())
}

// operand takes a register for a constant or function.
func (c *compiler) operand(v ssa.Value) {
	if _, ok := c.regs[v]; ok {
		return
	}
	switch x := v.(type) {
	case *ssa.Const:
		c.regs[v] = c.constant(x)
	case *ssa.Function:
		c.regs[v] = c.constRef(c.p.function(x))
	}
}

// function makes the function value of fn; p.mu is held.
func (p *Program) function(fn *ssa.Function) *closure {
	f := &closure{p: p, fn: fn, sig: fn.Signature}
	if fn.Blocks != nil {
		f.code = p.codeLocked(fn)
	}
	return f
}

func (c *compiler) constRef(v any) slot {
	if v == nil {
		if c.null < 0 {
			c.null = c.rc0 + len(c.rc)
			c.rc = append(c.rc, nil)
		}
		return slot{classRef, c.null}
	}
	if s, ok := v.(string); ok {
		i, ok := c.texts[s]
		if !ok {
			i = c.rc0 + len(c.rc)
			c.rc = append(c.rc, v)
			c.texts[s] = i
		}
		return slot{classRef, i}
	}
	c.rc = append(c.rc, v)
	return slot{classRef, c.rc0 + len(c.rc) - 1}
}

func (c *compiler) constant(x *ssa.Const) slot {
	switch classOf(x.Type()) {
	case classQty:
		c.qc = append(c.qc, constQuantity(x.Value))
		return slot{classQty, c.qc0 + len(c.qc) - 1}
	case classNum:
		bits := constNumber(kindOf(x.Type()), x.Value)
		i, ok := c.nums[bits]
		if !ok {
			i = c.sc0 + len(c.sc)
			c.sc = append(c.sc, bits)
			c.nums[bits] = i
		}
		return slot{classNum, i}
	}
	if x.Value != nil && x.Value.Kind() == constant.String {
		return c.constRef(constant.StringVal(x.Value))
	}
	if x.Value != nil { // complex
		return c.constRef(nil)
	}
	if _, ok := x.Type().(*types.Tuple); ok {
		return c.constRef(nil)
	}
	return c.constRef(c.p.lays.zero(x.Type()).make())
}

// constQuantity makes the quantity of a constant: the constant 0 takes the
// dimension of what it meets.
func constQuantity(v constant.Value) units.Quantity {
	if v == nil {
		return units.Quantity{}
	}
	f, _ := constant.Float64Val(constant.ToFloat(v))
	if f == 0 {
		return units.Quantity{}
	}
	return units.Number(f)
}

// constNumber makes the canonical form of a constant of kind k.
func constNumber(k types.BasicKind, v constant.Value) uint64 {
	switch {
	case v == nil:
		return 0
	case k == types.Bool:
		return truth(constant.BoolVal(v))
	case k == types.Float32:
		f, _ := constant.Float32Val(constant.ToFloat(v))
		return bits(float64(f))
	case k == types.Float64:
		f, _ := constant.Float64Val(constant.ToFloat(v))
		return bits(f)
	}
	i := constant.ToInt(v)
	if u, ok := constant.Uint64Val(i); ok {
		return norm(k, u)
	}
	n, _ := constant.Int64Val(i)
	return norm(k, uint64(n))
}

// direct reports whether instruction in uses variable g itself, without its
// address in a register.
func (c *compiler) direct(in ssa.Instruction, g *ssa.Global) bool {
	switch x := in.(type) {
	case *ssa.UnOp:
		return x.Op == token.MUL
	case *ssa.Store:
		return x.Addr == g && x.Val != ssa.Value(g)
	case *ssa.DebugRef:
		return true
	}
	return false
}

// addressReg takes a register for the address of g.
func (c *compiler) addressReg(g *ssa.Global) {
	if _, ok := c.regs[g]; ok {
		return
	}
	c.regs[g] = slot{classRef, c.nr}
	c.globals = append(c.globals, globalReg{c.global(g), c.nr})
	c.nr++
}

// global returns the index of a package-level variable in its program.
func (c *compiler) global(g *ssa.Global) int {
	p := c.p
	i, ok := p.globals[g]
	if !ok {
		i = len(p.byIndex)
		p.globals[g] = i
		p.byIndex = append(p.byIndex, g)
	}
	return i
}

// reg returns the register of v.
func (c *compiler) reg(v ssa.Value) int { return c.regs[v].i }
