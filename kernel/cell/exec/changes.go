package exec

import (
	"go/types"
	"strings"

	"golang.org/x/tools/go/ssa"
)

// Changes reports the name of a captured variable that the closures reachable from v
// would change when called, "" if none: such a value is not handed to other cells.
//
// It reads the code of the closures and of the functions they call; for a method
// of a captured interface, that of every type that an interface within v has.
func Changes(v Value) string {
	a := &changes{done: map[string]bool{}}
	var fs []*closure
	c := &copier{
		structs: map[*structure]*structure{}, maps: map[*mapping]*mapping{}, funcs: map[*closure]*closure{},
		boxes: map[uintptr]*hostBox{}, seen: map[piece]bool{}, todo: []any{v.V},
	}
	var found []string
	for len(c.todo) > 0 {
		x := c.todo[len(c.todo)-1]
		c.todo = c.todo[:len(c.todo)-1]
		switch x := x.(type) {
		case *closure:
			if x.fn != nil && c.funcs[x] == nil {
				fs = append(fs, x)
			}
		case *iface:
			a.note(x.t)
		}
		c.find(x)
	}
	for _, f := range fs {
		all := make([]bool, len(f.fn.FreeVars))
		for i := range all {
			all[i] = true
		}
		if n := a.function(f.p, f.fn, nil, all, 0); n != "" {
			found = append(found, n)
		}
	}
	if found == nil {
		return ""
	}
	least := found[0]
	for _, n := range found {
		least = min(least, n)
	}
	return least
}

type changes struct {
	done  map[string]bool
	types []types.Type // that values in interfaces have
}

func (a *changes) note(t types.Type) {
	if _, ok := t.(*hostDyn); ok {
		return
	}
	for _, u := range a.types {
		if sameType(t, u) {
			return
		}
	}
	a.types = append(a.types, t)
}

// invoke looks at the methods that a call through an interface may reach.
func (a *changes) invoke(p *Program, c *ssa.CallCommon, in func(ssa.Value) string, depth int) string {
	n := in(c.Value)
	if n == "" {
		return ""
	}
	marked := []bool{true}
	for _, v := range c.Args {
		marked = append(marked, in(v) != "")
	}
	for _, t := range a.types {
		fn := p.lookup(t, c.Method.Pkg(), c.Method.Name())
		if fn == nil {
			continue
		}
		if at := p.resolve(fn); at.host != nil {
			if pointer(t) {
				return n
			}
			continue
		}
		if a.function(p, fn, marked, nil, depth+1) != "" {
			return n
		}
	}
	return ""
}

// function reports what fn changes of its outside: of captured variables and
// of parameters marked as outside, and package-level variables.
func (a *changes) function(p *Program, fn *ssa.Function, params, free []bool, depth int) string {
	at := p.resolve(fn)
	if at.host != nil || at.fn == nil || depth > 200 {
		return ""
	}
	p, fn = at.p, at.fn
	key := fn.String() + marks(params) + "|" + marks(free)
	if a.done[key] {
		return ""
	}
	a.done[key] = true
	in := func(v ssa.Value) string { return outside(fn, v, params, free, map[ssa.Value]bool{}) }
	for _, b := range fn.Blocks {
		for _, i := range b.Instrs {
			switch x := i.(type) {
			case *ssa.Store:
				if n := in(x.Addr); n != "" {
					return n
				}
			case *ssa.MapUpdate:
				if n := in(x.Map); n != "" {
					return n
				}
			case ssa.CallInstruction:
				if n := a.call(p, x.Common(), in, depth); n != "" {
					return n
				}
			case *ssa.MakeClosure:
				marked := make([]bool, len(x.Bindings))
				any := false
				for j, v := range x.Bindings {
					marked[j] = in(v) != ""
					any = any || marked[j]
				}
				if n := a.function(p, x.Fn.(*ssa.Function), nil, marked, depth+1); n != "" {
					return n
				}
			}
		}
	}
	return ""
}

func (a *changes) call(p *Program, c *ssa.CallCommon, in func(ssa.Value) string, depth int) string {
	if b, ok := c.Value.(*ssa.Builtin); ok {
		switch b.Name() {
		case "delete", "clear", "copy":
			return in(c.Args[0])
		}
		return ""
	}
	if c.IsInvoke() {
		return a.invoke(p, c, in, depth)
	}
	fn, ok := c.Value.(*ssa.Function)
	if !ok {
		return "" // a closure is looked at where it is made or captured
	}
	marked := make([]bool, len(c.Args))
	first := ""
	for i, v := range c.Args {
		n := in(v)
		marked[i] = n != ""
		if first == "" && n != "" && shares(v.Type()) {
			first = n
		}
	}
	if at := p.resolve(fn); at.host != nil {
		path := ""
		if at.host.obj != nil && at.host.obj.Pkg() != nil {
			path = at.host.obj.Pkg().Path()
		}
		if recv := at.host.sig.Recv(); path == "sort" || recv != nil && pointer(recv.Type()) {
			return first
		}
		return ""
	}
	if n := a.function(p, fn, marked, nil, depth+1); n != "" {
		if first != "" && !strings.Contains(n, ".") {
			return first
		}
		return n
	}
	return ""
}

func pointer(t types.Type) bool {
	_, ok := t.Underlying().(*types.Pointer)
	return ok
}

// shares reports whether a value of type t gives access to somebody's variables.
func shares(t types.Type) bool {
	switch t.Underlying().(type) {
	case *types.Pointer, *types.Slice, *types.Map, *types.Interface:
		return true
	}
	return false
}

func marks(bs []bool) string {
	var b strings.Builder
	for _, x := range bs {
		if x {
			b.WriteByte('1')
		} else {
			b.WriteByte('0')
		}
	}
	return b.String()
}

// outside names the variable outside of fn of which v is a part or an address.
func outside(fn *ssa.Function, v ssa.Value, params, free []bool, seen map[ssa.Value]bool) string {
	for !seen[v] {
		seen[v] = true
		switch x := v.(type) {
		case *ssa.Global:
			return x.Name()
		case *ssa.FreeVar:
			for i, f := range fn.FreeVars {
				if f == x && i < len(free) && free[i] {
					return x.Name()
				}
			}
			return ""
		case *ssa.Parameter:
			for i, f := range fn.Params {
				if f == x && i < len(params) && params[i] {
					return x.Name()
				}
			}
			return ""
		case *ssa.FieldAddr:
			v = x.X
		case *ssa.IndexAddr:
			v = x.X
		case *ssa.UnOp:
			v = x.X
		case *ssa.Slice:
			v = x.X
		case *ssa.ChangeType:
			v = x.X
		case *ssa.ChangeInterface:
			v = x.X
		case *ssa.MakeInterface:
			v = x.X
		case *ssa.TypeAssert:
			v = x.X
		case *ssa.Field:
			v = x.X
		case *ssa.Index:
			v = x.X
		case *ssa.Lookup:
			v = x.X
		case *ssa.Extract:
			v = x.Tuple
		case *ssa.SliceToArrayPointer:
			v = x.X
		case *ssa.Phi:
			for _, e := range x.Edges {
				if n := outside(fn, e, params, free, seen); n != "" {
					return n
				}
			}
			return ""
		default:
			return ""
		}
	}
	return ""
}
