package note

import (
	"context"
	"fmt"
	"io"
	"reflect"
	"slices"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// Operating is a named operating case, and what the requirements come to in it.
type Operating struct {
	Name    string
	Inputs  []Setting
	Holds   bool
	Judged  []InCase // the requirements that the inputs of the case touch, in the order of the note
	Would   []Would  // parts that it would choose otherwise; the design's are kept
	Trouble string   // why it cannot be computed
	Twice   string   // where else the note has a case of this name, "" if nowhere
	Line    int
	// Anyway lists the requirements that fail as they do without the case.
	Anyway []string
	// Table is that of all cases, CaseTable, with the last of several.
	Table [][]string
}

// Setting is an input and the value that it has in a case.
type Setting struct {
	Name  string
	Value units.Quantity // with its cases, if it has spread
}

// Text is the value as people write it.
func (s Setting) Text() string {
	text := s.Value.String()
	if spread := spreadOf(s.Value); spread != nil {
		text += " (" + spread.Low.String() + " … " + spread.High.String() + ")"
	}
	return text
}

// InCase is a requirement in a case.
type InCase struct {
	Text      string
	Holds     bool
	Waived    string
	Margin    *units.Quantity
	Worst     *units.Quantity
	WorstCase string
	WorstAll  string // the same with all sources, however many

	as     string // what a Waive calls it
	id     string // the cell and key of the requirement
	reason string // why its block waives it
}

// Would is a chosen part that would be another.
type Would struct {
	Name       string
	Kept, Then units.Quantity
}

func (*Operating) item() {}

// misses reports whether a requirement fails in the case.
func (o *Operating) misses(q *Requirement) bool {
	return slices.ContainsFunc(o.Judged, func(j InCase) bool { return !j.Holds && j.as == q.waivedAs() && j.Text == q.Text })
}

// Misses lists the requirements that fail in the case and are not waived.
func (o *Operating) Misses() []string {
	list := slices.Clone(o.Anyway)
	for _, j := range o.Judged {
		if !j.Holds && j.Waived == "" {
			list = append(list, j.Text)
		}
	}
	return list
}

// operating makes the item of a Case, which is judged once all cells are known.
func operating(c *cell.CaseOf, line int) *Operating {
	o := &Operating{Name: c.Name, Holds: true, Line: line}
	for i, name := range c.Inputs {
		o.Inputs = append(o.Inputs, Setting{name, c.Values[i]})
	}
	return o
}

// operate computes the requirements of the note in each of its cases. What
// depends on the inputs of a case is computed once more, in the study of the
// note and with the parts and limits of the design.
func (n *Note) operate(ctx context.Context, found *boardItems) {
	n.eachCase(func(o, now *Operating) bool {
		now.Judged, now.Would, now.Trouble = nil, nil, ""
		if err := n.inCase(ctx, now); err != nil {
			now.Trouble = err.Error()
		}
		return now.Trouble != o.Trouble || !sameJudged(now.Judged, o.Judged) || !reflect.DeepEqual(now.Would, o.Would)
	})
	*found = *n.boardItems()
}

// eachCase replaces the cases of which change makes a copy another one.
func (n *Note) eachCase(change func(o, now *Operating) bool) {
	for _, c := range n.cells {
		for i, it := range c.result.Items {
			if o, ok := it.(*Operating); ok {
				if now := *o; change(o, &now) {
					n.replaceItem(c, i, &now)
				}
			}
		}
	}
}

// sameJudged leaves out what waivers say, which is found later.
func sameJudged(a, b []InCase) bool {
	return slices.EqualFunc(a, b, func(x, y InCase) bool {
		x.Waived, y.Waived = "", ""
		return reflect.DeepEqual(x, y)
	})
}

// inCase computes one case.
func (n *Note) inCase(ctx context.Context, o *Operating) error {
	if n.options.CellTime > 0 { // as long as one cell may take
		var cancel context.CancelFunc
		ctx, cancel = context.WithTimeout(ctx, n.options.CellTime)
		defer cancel()
	}
	defer n.study.Aside()()
	held := map[*node]map[string]units.Quantity{}
	for _, s := range o.Inputs {
		c := n.owner[s.Name]
		if c == nil {
			return fmt.Errorf("the note does not define %s", s.Name)
		}
		if held[c] == nil {
			held[c] = map[string]units.Quantity{}
		}
		held[c][s.Name] = s.Value
	}
	done := map[*node]*cell.Outcome{}
	judged := n.judged()
	for _, c := range n.ordered {
		_, direct := held[c]
		if !c.ok || !judged[c] || !direct && !slices.ContainsFunc(c.names, func(name string) bool { d := n.owner[name]; return d != nil && done[d] != nil && c.uses(name) }) {
			continue
		}
		env := n.env(ctx, c, io.Discard, n.study, func(d *node) map[string]exec.Value {
			if out := done[d]; out != nil {
				return out.Values
			}
			return d.values
		})
		env.Bare, env.Held = true, held[c]
		env.Kept = func(key string) ([]exec.Value, bool) { v, ok := c.chosen[key]; return v, ok }
		env.Would = func(name string, kept, would units.Quantity) {
			if n.owner[name] == c {
				o.Would = append(o.Would, Would{name, kept, would})
			}
		}
		out, errs := c.program.Run(env)
		if len(errs) > 0 {
			return fmt.Errorf("%s, line %d: %w", c.Label, errs[0].Line, errs[0])
		}
		done[c] = out
	}
	for _, j := range n.judges() {
		if out := done[j.cell]; out != nil {
			o.judge(j, out)
		}
	}
	return nil
}

// judging is a cell whose requirements are the note's: its own or those of a
// block.
type judging struct {
	cell *node
	in   *node // the cell of the note that shows them
	of   *imported
	name string // of the block
}

// judges lists the cells whose requirements are the note's, in its order.
func (n *Note) judges() (list []judging) {
	for _, c := range n.cells {
		list = append(list, judging{cell: c, in: c})
		for _, b := range c.parsed.Blocks {
			if m := n.blockOf(c, b); m != nil {
				for _, x := range m.cells {
					list = append(list, judging{x, c, m, b.Name})
				}
			}
		}
	}
	return list
}

// judged finds the cells with requirements, or with chosen parts, and what they
// need: a case leaves out the others, such as one that draws a Trend.
func (n *Note) judged() map[*node]bool {
	on := map[*node]bool{}
	var visit func(c *node)
	visit = func(c *node) {
		if on[c] {
			return
		}
		on[c] = true
		for _, d := range c.needs {
			visit(d)
		}
	}
	for _, j := range n.judges() {
		if slices.ContainsFunc(j.cell.result.Items, func(i Item) bool {
			e, isEntry := i.(*Entry)
			_, needs := i.(*Requirement)
			return needs || isEntry && e.Choice != nil
		}) {
			visit(j.cell)
		}
	}
	return on
}

// judge adds the requirements of a cell that depend on the inputs of the case.
func (o *Operating) judge(of judging, out *cell.Outcome) {
	was := map[string]*Requirement{}
	waived := map[string]string{}
	if of.of != nil {
		waived = of.of.waivers()
	}
	for _, it := range of.cell.result.Items {
		if q, ok := it.(*Requirement); ok && q.block == "" {
			was[q.key] = q
		}
	}
	for _, s := range out.Steps {
		q := was[s.Key]
		if s.Require == nil || q == nil {
			continue
		}
		j := InCase{Text: q.Text, Holds: s.Require.Holds && s.Require.FailsWhere == "", as: q.waivedAs(), id: of.in.ID + s.Key, WorstCase: s.Require.FailsWhere, WorstAll: s.Require.FailsAll}
		if of.of != nil {
			j.Text, j.as, j.id, j.reason = of.name+": "+q.Text, "", of.in.ID+of.cell.ID+s.Key, waived[q.waivedAs()]
		}
		if m := s.Require.Margin; m != nil {
			nominal := units.Nominal(*m)
			j.Margin = &nominal
			if spread := spreadOf(*m); spread != nil {
				worst := spread.Low
				j.Worst, j.WorstCase, j.WorstAll = &worst, m.Describe(spread.lowCase), m.DescribeAll(spread.lowCase)
				if !(worst.SI() > 0 || !q.strict && worst.SI() == 0) {
					j.Holds = false
				}
			}
		}
		if same(j.Margin, q.Margin) && same(j.Worst, q.Worst) && j.Holds == q.Holds {
			continue // the inputs of the case do not touch it
		}
		o.Judged = append(o.Judged, j)
	}
}

func same(a, b *units.Quantity) bool {
	if a == nil || b == nil {
		return a == b
	}
	return near(a.SI(), b.SI())
}

// judgeCases finds the verdict of each case, with what is waived.
func (n *Note) judgeCases(waived map[string]*Waiver) {
	type known struct {
		need *Requirement
		id   string
	}
	var needs []known
	for _, c := range n.cells {
		for _, it := range c.result.Items {
			if q, ok := it.(*Requirement); ok {
				needs = append(needs, known{q, c.ID + q.key})
			}
		}
	}
	n.eachCase(func(o, now *Operating) bool {
		now.Holds, now.Judged, now.Anyway = o.Trouble == "", slices.Clone(o.Judged), nil
		for _, q := range needs {
			if !slices.ContainsFunc(o.Judged, func(j InCase) bool { return j.id == q.id }) && q.need.Missed() {
				now.Anyway = append(now.Anyway, q.need.Text)
			}
		}
		for k := range now.Judged {
			j := &now.Judged[k]
			j.Waived = ""
			if !j.Holds {
				j.Waived = j.reason
			}
			if w := waived[j.as]; w != nil && j.as != "" && !j.Holds {
				j.Waived = w.Reason
			}
		}
		now.Holds = now.Holds && len(now.Misses()) == 0
		return now.Holds != o.Holds || !slices.Equal(now.Anyway, o.Anyway) || !reflect.DeepEqual(now.Judged, o.Judged)
	})
}

// tabulate puts the table of all cases with the last of them.
func (n *Note) tabulate() {
	var results []*Result
	for _, c := range n.cells {
		results = append(results, c.result)
	}
	cases, at := len(n.boardItems().cases), 0
	n.eachCase(func(o, now *Operating) bool {
		now.Table = nil
		if at++; at == cases && cases > 1 {
			if table := CaseTable(results); len(table) > 1 {
				now.Table = table
			}
		}
		return !reflect.DeepEqual(now.Table, o.Table)
	})
}

// isInputNow reports whether a name of the note is an input of it.
func (n *Note) isInputNow(name string) bool {
	e := n.entryOf(name)
	return e != nil && e.Form == FormInput
}

// CaseTable is one table of all operating cases of a note: every requirement
// that some case touches or that fails, its margins as designed and in each case. The first
// row is its head; nil where there are no cases.
func CaseTable(results []*Result) [][]string {
	cases, needs := InCases(results)
	if len(cases) == 0 {
		return nil
	}
	head := []string{"margin, worst", "as designed"}
	for _, o := range cases {
		head = append(head, o.Name)
	}
	rows := [][]string{head}
	for _, q := range needs {
		if q.Holds && !slices.ContainsFunc(q.In, func(j *InCase) bool { return j != nil }) {
			continue
		}
		designed := marginsText(q.Holds, q.Waived, q.Margin, q.Worst)
		row := []string{q.Text, designed}
		for i, j := range q.In {
			text := designed
			switch {
			case j != nil:
				text = marginsText(j.Holds, j.Waived, j.Margin, j.Worst)
			case cases[i].Trouble != "":
				text = "not computed"
			}
			row = append(row, text)
		}
		rows = append(rows, row)
	}
	return rows
}

// RequirementInCases is a requirement and what it comes to in each operating
// case of its note; nil where the case does not touch it, or has Trouble.
type RequirementInCases struct {
	*Requirement
	In []*InCase
}

// InCases are the operating cases of a note, and its requirements in them.
func InCases(results []*Result) (cases []*Operating, needs []RequirementInCases) {
	for _, r := range results {
		for _, it := range r.Items {
			if o, ok := it.(*Operating); ok {
				cases = append(cases, o)
			}
		}
	}
	for _, r := range results {
		for _, it := range r.Items {
			q, ok := it.(*Requirement)
			if !ok {
				continue
			}
			row := RequirementInCases{q, make([]*InCase, len(cases))}
			for i, o := range cases {
				for k, j := range o.Judged {
					if j.id == r.ID+q.key && j.Text == q.Text {
						row.In[i] = &o.Judged[k]
					}
				}
			}
			needs = append(needs, row)
		}
	}
	return cases, needs
}

// marginsText is a verdict in a table: what is missed says so.
func marginsText(holds bool, waived string, margin, worst *units.Quantity) string {
	text := ""
	switch {
	case margin != nil && worst != nil:
		text = margin.String() + ", " + worst.String()
	case margin != nil:
		text = margin.String()
	case holds:
		text = "holds"
	}
	switch {
	case holds:
		return text
	case waived != "":
		return "waived " + text
	}
	return "FAILS " + text
}
