package note

import (
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/lib/plot"
	"ohmwright/units"
)

// trend computes a name anew for values of an input, in all cases of the
// study of the cell that asks. Parts stay chosen; High, Low and Nominal follow
// what they are asked of, but in stated cases they say, point by point, what
// they said when all cases were computed.
func (n *Note) trend(t cell.Trend) ([]units.Quantity, []plot.Mark, error) {
	name, field := n.split(t.Y)
	to, from := n.owner[name], n.owner[t.X]
	if to == nil || from == nil {
		return nil, nil, fmt.Errorf("Trend takes names that cells define: %s and %s", t.Y, t.X)
	}
	if err := n.isInput(from, t.X); err != nil {
		return nil, nil, err
	}
	if name == t.X || !slices.Contains(n.ancestry(to, name), t.X) {
		return nil, nil, fmt.Errorf("%s does not depend on %s: a Trend computes anew what lies between an input and a value that comes from it", t.Y, t.X)
	}
	between := n.between(from, to)
	defer t.Env.Study.Aside()()
	ys := make([]units.Quantity, len(t.At))
	for i, x := range t.At {
		p := &point{n: n, t: t, at: i, x: x, between: between, from: from, done: map[*node]*cell.Outcome{}}
		out, err := p.compute(to)
		if err == nil {
			ys[i], err = fieldOf(out.Values[name], field)
		}
		if err != nil {
			return nil, nil, fmt.Errorf("%s cannot be computed where %s is %s: %w", t.Y, t.X, x, err)
		}
	}
	return ys, n.marks(t), nil
}

// isInput refuses to hold a value that the note computes.
func (n *Note) isInput(c *node, name string) error {
	for _, b := range c.parsed.Blocks {
		if strings.HasPrefix(name, c.prefix()+b.Name+".") {
			return nil // of the block it is an input
		}
	}
	if e := c.entry(name); e != nil && e.Form == FormInput {
		return nil
	}
	return fmt.Errorf("%s is computed in %s, and a Trend moves an input: write the input that it comes from", name, c.Label)
}

// ancestry lists the names that a name of a cell comes from.
func (n *Note) ancestry(c *node, name string) []string {
	var list []string
	var visit func(names []string)
	visit = func(names []string) {
		for _, name := range names {
			o := n.owner[name]
			if o == nil || slices.Contains(list, name) {
				continue
			}
			list = append(list, name)
			if o.checked != nil {
				visit(o.checked.UsedBy(name))
			}
		}
	}
	visit(c.checked.UsedBy(name))
	return list
}

// between finds the cells that need one and that another needs, both among
// them.
func (n *Note) between(from, to *node) map[*node]bool {
	on := map[*node]bool{}
	seen := map[*node]bool{}
	var visit func(c *node) bool
	visit = func(c *node) bool {
		if seen[c] {
			return on[c]
		}
		seen[c] = true
		on[c] = c == from
		for _, d := range c.needs {
			if visit(d) {
				on[c] = true
			}
		}
		return on[c]
	}
	visit(to)
	return on
}

// point is the note where x is at one of the values of a Trend.
type point struct {
	n       *Note
	t       cell.Trend
	at      int
	x       units.Quantity
	between map[*node]bool
	from    *node
	done    map[*node]*cell.Outcome
}

// compute computes a cell and what it needs of those between.
func (p *point) compute(c *node) (*cell.Outcome, error) {
	for _, name := range c.names {
		if o := p.n.owner[name]; o != nil && p.between[o] && p.done[o] == nil && c.uses(name) {
			if _, err := p.compute(o); err != nil {
				return nil, err
			}
		}
	}
	if o := p.done[c]; o != nil {
		return o, nil
	}
	outer := p.t.Env
	env := p.n.env(outer.Ctx, c, io.Discard, outer.Study, nil)
	env.Bare = true
	env.Value = func(name string) (exec.Value, string, bool) {
		if o := p.n.owner[name]; o != nil && p.done[o] != nil {
			v, ok := p.done[o].Values[name]
			return v, o.Label, ok
		}
		return outer.Value(name)
	}
	if c == p.from {
		env.Held = map[string]units.Quantity{p.t.X: p.x}
	}
	key := func(k string) string { return fmt.Sprintf("%s at %d in %s: %s", p.t.Key, p.at, c.ID, k) }
	env.Kept = func(k string) ([]exec.Value, bool) { v, ok := c.chosen[k]; return v, ok }
	if outer.Frozen != nil {
		env.Frozen = func(k string) ([]exec.Value, bool) { return outer.Frozen(key(k)) }
	}
	if outer.Chose != nil {
		env.Chose = func(k string, v []exec.Value) { outer.Chose(key(k), v) }
	}
	out, errs := c.program.Run(env)
	if len(errs) > 0 {
		return nil, fmt.Errorf("%s, line %d: %w", c.Label, errs[0].Line, errs[0])
	}
	p.done[c] = out
	return out, nil
}

// fieldOf is the quantity that a name, or a field of one, comes to.
func fieldOf(v exec.Value, path string) (units.Quantity, error) {
	if q, ok := v.V.(units.Quantity); ok {
		return q, nil
	}
	view := exec.Show(nil, v)
	for _, name := range strings.FieldsFunc(path, func(r rune) bool { return r == '.' }) {
		i := slices.IndexFunc(view.Items, func(i exec.Item) bool { return i.Name == name })
		if i < 0 {
			return units.Quantity{}, errors.New("it has no such field there")
		}
		view = view.Items[i].Value
	}
	q, ok := view.Quantity.(units.Quantity)
	if !ok {
		return q, errors.New("it is no quantity there")
	}
	return q, nil
}

// marks are the limits that the note sets to what a Trend draws.
func (n *Note) marks(t cell.Trend) []plot.Mark {
	var out []plot.Mark
	for _, c := range n.cells {
		for _, l := range c.parsed.Limits() {
			if l.Of != t.Y {
				continue
			}
			q := l.Value
			if l.Name != "" {
				if o := n.owner[l.Name]; o == nil || o.checked == nil || slices.Contains(n.ancestry(o, l.Name), t.X) {
					continue // it moves with x: no line across the picture
				}
				v, _, ok := t.Env.Value(l.Name)
				x, isQuantity := v.V.(units.Quantity)
				if !ok || !isQuantity {
					continue
				}
				q = units.Low(x)
				if l.Below {
					q = units.High(x)
				}
			}
			sign := " ≤ "
			if l.Below {
				sign = " ≥ "
			}
			m := plot.Mark{Name: t.Y + sign + q.String(), Value: q}
			if !slices.ContainsFunc(out, func(o plot.Mark) bool { return o.Name == m.Name }) {
				out = append(out, m)
			}
		}
	}
	return out
}

// limitsOf finds the limits that the Trends of a cell draw, and makes the
// names in them names that the cell needs, where that makes no circle.
func (n *Note) limitsOf(c *node) {
	c.limits = nil
	if len(c.parseErr) > 0 {
		return
	}
	for _, t := range c.parsed.Trends() {
		for _, o := range n.cells {
			for _, l := range o.parsed.Limits() {
				if l.Of != t[0] {
					continue
				}
				if d := n.owner[l.Name]; d != nil && d != c && !slices.Contains(c.needs, d) {
					if reaches(d, c, map[*node]bool{}) {
						continue
					}
					c.needs = append(c.needs, d)
				}
				if n.owner[l.Name] != nil && n.owner[l.Name] != c && !slices.Contains(c.names, l.Name) {
					c.names = append(c.names, l.Name)
					c.parsed.Weak[l.Name] = true // without it there is a picture, too
				}
				c.limits = append(c.limits, l)
			}
		}
	}
}

// watch remembers how often the cells were computed that the Trends of a cell
// compute anew: what lies between may change while the value as designed
// stays the same.
func (n *Note) watch(c *node) {
	c.watched, c.drew = nil, c.limits
	if len(c.parsed.Trends()) > 0 {
		c.watched = n.behind(c)
	}
}

// behind lists all that a cell comes from, and how often it was computed.
func (n *Note) behind(c *node) map[*node]int {
	all := map[*node]int{}
	var visit func(c *node)
	visit = func(c *node) {
		for _, d := range c.needs {
			if _, ok := all[d]; !ok {
				all[d] = d.runs
				visit(d)
			}
		}
	}
	visit(c)
	return all
}

// trendsMoved reports whether a cell draws a Trend of what has changed.
func (n *Note) trendsMoved(c *node) bool {
	return c.watched != nil && (!reflect.DeepEqual(c.watched, n.behind(c)) || !reflect.DeepEqual(c.drew, c.limits))
}
