package note

import (
	"context"
	"fmt"
	"go/types"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/tools/go/ssa"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// linker finds for the executor what a cell's program does not contain.
type linker struct{ n *Note }

func (l linker) Host(path, name string) (reflect.Value, bool) {
	return l.n.options.World.Host(path, name)
}
func (l linker) HostType(t *types.Named) (reflect.Type, bool) { return l.n.options.World.HostType(t) }
func (l linker) Wrapper(path, name string) (reflect.Type, bool) {
	return l.n.options.World.Wrapper(path, name)
}
func (l linker) Cost(path, name string, args []reflect.Value) int64 {
	return l.n.options.World.Cost(path, name, args)
}
func (l linker) Func(obj *types.Func) (*exec.Program, *ssa.Function, bool) {
	c := l.n.packets[obj.Pkg()]
	if c == nil || c.program == nil {
		return nil, nil, false
	}
	f := c.program.Function(obj)
	return c.program.Code(), f, f != nil
}

// compute brings one cell up to date.
func (n *Note) compute(ctx context.Context, c *node, done, total int) {
	if c.broken {
		return // link said why
	}
	if waits := n.waiting(c); len(waits) > 0 {
		n.drop(c)
		c.settled = false
		c.result.State, c.result.Items, c.result.Errors = Waiting, nil, waits
		return
	}
	if !n.stale(c) {
		return
	}
	if n.options.Progress != nil {
		n.options.Progress(c.Label, done, total)
	}
	c.result.Ran = true
	if err := ctx.Err(); err != nil {
		n.fail(c, []*cell.Error{{Code: cell.CodeStopped, Line: 1, Column: 1, Msg: "the cell was not run: " + reason(err)}})
		// What nobody asked for by name is made up for in the next run. The
		// cell that was asked for may be the one that does not end.
		if c.asked {
			n.settle(c)
		}
		return
	}
	if errs := n.prepare(c); len(errs) > 0 {
		n.fail(c, errs)
	} else {
		n.execute(ctx, c)
	}
	n.settle(c)
}

// settle remembers what a cell was computed from: it stays until that changes.
func (n *Note) settle(c *node) {
	c.settled = true
	c.seen = make(map[string]int, len(c.names))
	for _, name := range c.names {
		c.seen[name] = n.owner[name].versions[name]
	}
	n.watch(c)
	c.read = make(map[string]string, len(c.parsed.Files))
	for _, name := range c.parsed.Files {
		c.read[name] = n.files[c.fileOf(name)].mark
	}
}

func reason(err error) string {
	if err == context.DeadlineExceeded {
		return "the time allowed was over before its turn"
	}
	return "the run was interrupted"
}

// waiting tells which names the cell waits for, and whose they are.
func (n *Note) waiting(c *node) []*cell.Error {
	first := ""
	var owners []*node
	missing := map[*node][]string{}
	for _, name := range c.names {
		o := n.owner[name]
		if o.ok || !c.uses(name) {
			continue
		}
		if first == "" {
			first = name
		}
		if missing[o] == nil {
			owners = append(owners, o)
		}
		missing[o] = append(missing[o], name)
	}
	if first == "" {
		return nil
	}
	var parts []string
	for _, o := range owners {
		why := "which has an error"
		if o.result.State == Waiting {
			why = "which waits itself"
		}
		parts = append(parts, strings.Join(missing[o], ", ")+" of "+o.Label+", "+why)
	}
	e := c.parsed.ErrorAtUse(first, cell.CodeWaiting, c.Label+" waits for "+strings.Join(parts, "; and for "), "")
	e.Cell = c.Label
	return []*cell.Error{e}
}

// uses reports whether the checker found a name used; before the check every
// candidate counts, but for those that only might be one.
func (c *node) uses(name string) bool {
	if c.checked == nil {
		return !c.parsed.Weak[name]
	}
	return slices.Contains(c.checked.Uses, name)
}

// stale reports whether the cell has to run.
func (n *Note) stale(c *node) bool {
	if !c.settled || len(c.seen) != len(c.names) || !n.reads(c) {
		return true
	}
	for _, name := range c.names {
		if o := n.owner[name]; c.seen[name] != o.versions[name] {
			return true
		}
	}
	return n.trendsMoved(c)
}

// prepare checks and builds the cell where it is new or what it uses has
// another type than at the last check.
func (n *Note) prepare(c *node) []*cell.Error {
	if c.program != nil && n.sameObjects(c) {
		return nil
	}
	if c.checked != nil {
		// The check mends the tree in place: start from the text again.
		n.forget(c)
		var errs []*cell.Error
		if c.parsed, errs = cell.ParseIn(n.fset, c.ID, c.Code, n.whatIf, n.namingOf(c)); len(errs) > 0 {
			return errs
		}
	}
	checked, errs := c.parsed.Check(n.scope(c))
	if len(errs) > 0 {
		return errs
	}
	c.checked, c.against = checked, append([]string(nil), c.names...)
	for _, k := range checked.Packages() {
		n.packets[k] = c
	}
	program, err := n.build(checked)
	if err != nil {
		return []*cell.Error{err}
	}
	c.program = program
	return nil
}

// scope is the note as a cell of it sees it; a cell that is being typed is none
// of its cells yet.
func (n *Note) scope(c *node) cell.Scope {
	return cell.Scope{
		World: n.options.World,
		Object: func(name string) types.Object {
			if o := n.sees(c, name); o != nil && o != c && o.checked != nil {
				return o.checked.Object(name)
			}
			return nil
		},
		Owner: func(name string) string {
			if o := n.owner[name]; o != nil {
				return o.Label
			}
			return "another cell"
		},
		Cell:   n.cellOf,
		Names:  n.names,
		Unread: n.unread,
		Naming: n.namingOf(c),
	}
}

func (n *Note) build(checked *cell.Checked) (p *cell.Program, err *cell.Error) {
	defer func() {
		if x := recover(); x != nil {
			err = &cell.Error{Code: cell.CodeInternal, Line: 1, Column: 1, Msg: fmt.Sprintf("internal error while building the cell: %v", x),
				Hint: "this is a mistake of the program, not of the note; please report the cell"}
		}
	}()
	return checked.Build(linker{n}, n.cellOf, n.embeds), nil
}

func (n *Note) cellOf(k *types.Package) *cell.Checked {
	if o := n.packets[k]; o != nil {
		return o.checked
	}
	return nil
}

// sameObjects reports whether what the cell uses still is what it was checked
// against: variables of the same type do, functions and types must be the very same.
func (n *Note) sameObjects(c *node) bool {
	if !slices.Equal(c.names, c.against) {
		return false
	}
	for _, name := range c.names {
		o := n.owner[name]
		if o.checked == nil {
			return false
		}
		now, then := o.checked.Object(name), c.checked.Object(name)
		if now == then {
			continue
		}
		_, ok1 := now.(*types.Var)
		_, ok2 := then.(*types.Var)
		if !ok1 || !ok2 || !types.Identical(now.Type(), then.Type()) {
			return false
		}
	}
	return true
}

// execute runs a built cell and commits what it came to.
func (n *Note) execute(ctx context.Context, c *node) {
	if n.options.CellTime > 0 {
		var cancel context.CancelFunc
		ctx, cancel = context.WithTimeout(ctx, n.options.CellTime)
		defer cancel()
	}
	var printed strings.Builder
	out := writer(func(text string) {
		if left := maxPrinted - printed.Len(); left < len(text) {
			if left < 0 {
				return
			}
			text = text[:left] + "\n… cut: the cell prints more than " + strconv.Itoa(maxPrinted>>20) + " MB; to see all, print it in parts, each in a cell of its own\n"
		}
		printed.WriteString(text)
		if n.options.Printed != nil {
			n.options.Printed(c.ID, text)
		}
	})
	env := n.env(ctx, c, out, n.study, present)
	env.Limit = n.limit(ctx, c)
	chosen := map[string][]exec.Value{}
	if len(n.whatIf) > 0 && !n.again {
		env.Kept = func(key string) ([]exec.Value, bool) {
			v, ok := c.design[key]
			return v, ok
		}
		env.Would = func(string, units.Quantity, units.Quantity) {}
	}
	env.Chose = func(key string, results []exec.Value) { chosen[key] = exec.CopyAll(results) }
	came, errs := c.program.Run(env)
	if len(errs) > 0 {
		n.fail(c, errs)
		if text := printed.String(); text != "" {
			c.result.Items = []Item{&Printed{Text: text}}
		}
		return
	}
	if errs := n.misfits(c, came.Values); len(errs) > 0 {
		n.fail(c, errs)
		return
	}
	if len(n.whatIf) == 0 {
		c.design = chosen
	}
	c.chosen = chosen
	c.runs++
	n.commit(c, came.Values)
	c.spreads = came.Placed > 0 || n.usesSpread(c)
	c.result.State, c.result.Errors = Done, nil
	c.result.Items = items(came, printed.String(), c.checked.Notices)
	for _, i := range c.result.Items {
		if e, ok := i.(*Entry); ok {
			e.Files = n.filesOf(c, e.Name)
		}
	}
	c.result.Files = n.asRead(c, c.parsed.Files)
	c.ok = true
}

// usesSpread reports whether a cell that another one needs has spread.
func (n *Note) usesSpread(c *node) bool {
	return slices.ContainsFunc(c.names, func(name string) bool {
		o := n.owner[name]
		return o != nil && o.spreads && c.uses(name)
	})
}

// commit stores the values and gives a new version to every name whose value changed.
func (n *Note) commit(c *node, values map[string]exec.Value) {
	old := c.values
	c.values = values
	if c.versions == nil {
		c.versions = map[string]int{}
	}
	for _, name := range c.parsed.Defines {
		v, isVar := values[name]
		before, had := old[name]
		if isVar && had && !holdsCode(v.Type, nil) && exec.Same(before, v) {
			continue
		}
		n.version++
		c.versions[name] = n.version
	}
}

// holdsCode reports whether values of a type can hold functions, whose
// results may have changed although they are the same functions.
func holdsCode(t types.Type, seen map[types.Type]bool) bool {
	if seen[t] {
		return false
	}
	// A method of the note may use names whose values have changed.
	if named, ok := types.Unalias(t).(*types.Named); ok && named.Obj().Pkg() != nil && named.Obj().Pkg().Path() == cell.NotePath && named.Origin().NumMethods() > 0 {
		return true
	}
	switch u := t.Underlying().(type) {
	case *types.Basic:
		return false
	case *types.Signature, *types.Interface:
		return true
	case *types.Slice:
		return holdsCode(u.Elem(), mark(seen, t))
	case *types.Array:
		return holdsCode(u.Elem(), mark(seen, t))
	case *types.Pointer:
		return holdsCode(u.Elem(), mark(seen, t))
	case *types.Map:
		return holdsCode(u.Key(), mark(seen, t)) || holdsCode(u.Elem(), mark(seen, t))
	case *types.Struct:
		for i := 0; i < u.NumFields(); i++ {
			if holdsCode(u.Field(i).Type(), mark(seen, t)) {
				return true
			}
		}
	}
	return false
}

func mark(seen map[types.Type]bool, t types.Type) map[types.Type]bool {
	if seen == nil {
		seen = map[types.Type]bool{}
	}
	seen[t] = true
	return seen
}

// maxPrinted bounds what a cell shows of what it prints.
const maxPrinted = 1 << 20

type writer func(string)

func (w writer) Write(b []byte) (int, error) {
	w(string(b))
	return len(b), nil
}
