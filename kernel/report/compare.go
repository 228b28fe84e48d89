package report

import (
	"slices"
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
	"ohmwright/units"
)

// Changes are what parts two versions of a design.
type Changes struct {
	Notes []*NoteChanges `json:"notes"` // those with a difference
}

// Any reports whether there is a difference.
func (c *Changes) Any() bool { return len(c.Notes) > 0 }

// NoteChanges are those of one note. Each list is in the order of the new
// version's graph: what is needed first.
type NoteChanges struct {
	Note         string              `json:"note"`
	Was          string              `json:"was,omitempty"`      // its path before, if it was another
	Presence     string              `json:"presence,omitempty"` // "added" or "removed"
	Requirements []RequirementChange `json:"requirements"`       // those that flipped first
	Inputs       []ValueChange       `json:"inputs"`
	Results      []ValueChange       `json:"results"`
	Renamed      []Rename            `json:"renamed"`
	Rewritten    []Rewrite           `json:"rewritten"` // formulas that give the same
	Parts        []PartChange        `json:"parts"`     // of the schematic
	Said         []Said              `json:"said"`
	Prose        []ProseChange       `json:"prose"`
	Errors       []string            `json:"errors"` // cells that fail now and did not
	Mended       []string            `json:"mended"` // cells that failed and do not now

	old, now *Note
}

// ValueChange is a value that changed, came or went.
type ValueChange struct {
	Name    string   `json:"name"`
	Was     string   `json:"was,omitempty"` // "" where it is added
	Now     string   `json:"now,omitempty"` // "" where it is removed
	Change  string   `json:"change,omitempty"`
	Part    bool     `json:"part,omitempty"`    // a part that was chosen
	Because []string `json:"because,omitempty"` // the names that changed and that it comes from
	About   string   `json:"about,omitempty"`

	root string
}

// RequirementChange is a requirement that flipped, moved, came or went.
type RequirementChange struct {
	Text    string `json:"text"`
	Was     string `json:"was,omitempty"`
	Now     string `json:"now,omitempty"`
	Flipped bool   `json:"flipped"`
	Needs   string `json:"needs,omitempty"` // the condition, where it is another
	Needed  string `json:"needed,omitempty"`
}

// Rename is a name that is another for the same value.
type Rename struct {
	Was string `json:"was"`
	Now string `json:"now"`
}

// Rewrite is a formula that changed and gives what it gave.
type Rewrite struct {
	Name string `json:"name"`
	Was  string `json:"was"`
	Now  string `json:"now"`
}

// Said is what the text at a definition says differently.
type Said struct {
	Name string `json:"name"`
	What string `json:"what"` // "description", "source", "reason", "words", "waiver"
	Was  string `json:"was"`
	Now  string `json:"now"`
}

// Compare finds what parts two versions.
func Compare(old, now *Design) *Changes {
	c := &Changes{}
	single := len(old.Notes) == 1 && len(now.Notes) == 1 // two files whose names are known
	for _, p := range pairs(old, now) {
		n := compareNotes(p[0], p[1])
		if p[0] != nil && p[1] != nil && p[0].Path != p[1].Path && !single {
			n.Was = p[0].Path
		}
		if !n.empty() {
			c.Notes = append(c.Notes, n)
		}
	}
	return c
}

// pairs finds each note in the other version: by its path, the only note
// anyway, others by the names that they define.
func pairs(old, now *Design) (list [][2]*Note) {
	if len(old.Notes) == 1 && len(now.Notes) == 1 {
		return [][2]*Note{{old.Notes[0], now.Notes[0]}}
	}
	taken := map[*Note]*Note{} // new to old
	used := map[*Note]bool{}
	for _, n := range now.Notes {
		for _, o := range old.Notes {
			if o.Path == n.Path {
				taken[n], used[o] = o, true
			}
		}
	}
	for _, n := range now.Notes {
		if taken[n] != nil {
			continue
		}
		var best *Note
		most := 0
		for _, o := range old.Notes {
			if shared, all := overlap(o, n); !used[o] && shared > most && 2*shared >= all {
				best, most = o, shared
			}
		}
		if best != nil {
			taken[n], used[best] = best, true
		}
	}
	for _, n := range now.Notes {
		list = append(list, [2]*Note{taken[n], n})
	}
	for _, o := range old.Notes {
		if !used[o] {
			list = append(list, [2]*Note{o, nil})
		}
	}
	return list
}

// overlap counts the names that two notes share, and those of the larger.
func overlap(a, b *Note) (shared, all int) {
	x, y := a.order(), b.order()
	for _, name := range x {
		if slices.Contains(y, name) {
			shared++
		}
	}
	return shared, max(len(x), len(y))
}

func (n *NoteChanges) empty() bool {
	return n.Presence == "" && n.Was == "" && len(n.Requirements)+len(n.Inputs)+len(n.Results)+len(n.Renamed)+len(n.Rewritten)+len(n.Parts)+len(n.Said)+len(n.Prose)+len(n.Errors)+len(n.Mended) == 0
}

func compareNotes(old, now *Note) *NoteChanges {
	n := &NoteChanges{Requirements: []RequirementChange{}, Inputs: []ValueChange{}, Results: []ValueChange{}, Renamed: []Rename{}, Rewritten: []Rewrite{}, Parts: []PartChange{},
		Said: []Said{}, Prose: []ProseChange{}, Errors: []string{}, Mended: []string{}, old: old, now: now}
	switch {
	case old == nil:
		n.Note, n.Presence = now.Path, "added"
		return n
	case now == nil:
		n.Note, n.Presence = old.Path, "removed"
		return n
	}
	n.Note = now.Path
	a, at := names(old)
	b, in := names(now)
	renamed := renames(a, b, at, in) // old to new
	n.values(a, b, renamed)
	n.requirements(renamed)
	n.Prose = proseChanges(old.Prose, now.Prose)
	n.Errors, n.Mended = failing(now, old), failing(old, now)
	return n
}

// values compares the names one by one.
func (n *NoteChanges) values(a, b []*named, renamed map[string]string) {
	back := map[string]*named{}
	for _, o := range a {
		name := o.name
		if to, ok := renamed[name]; ok {
			n.Renamed = append(n.Renamed, Rename{name, to})
			name = to
		}
		back[name] = o
	}
	slices.SortStableFunc(n.Renamed, func(x, y Rename) int { return place(b, x.Now) - place(b, y.Now) })
	causes := map[string]bool{} // names that changed by themselves
	for _, x := range b {
		o := back[x.name]
		switch {
		case o == nil:
			causes[x.name] = true
			n.add(x, nil)
			continue
		case differs(o.entry, x.entry, renamed):
			causes[x.name] = true
		}
		moved := n.add(x, o)
		if moved && x.entry.Form == note.FormInput {
			causes[x.name] = true
		}
		if was, is := formula(o.entry, renamed), formula(x.entry, nil); !moved && causes[x.name] && was != "" && is != "" && was != is {
			n.Rewritten = append(n.Rewritten, Rewrite{x.name, was, is})
		}
		for _, s := range []Said{
			{x.name, "description", o.entry.Description, x.entry.Description},
			{x.name, "source", o.entry.Source, x.entry.Source},
			{x.name, "reason", o.entry.Reason, x.entry.Reason},
		} {
			if s.Was != s.Now {
				n.Said = append(n.Said, s)
			}
		}
		delete(back, x.name)
	}
	for _, o := range a {
		name := o.name
		if to, ok := renamed[name]; ok {
			name = to
		}
		if back[name] == o {
			n.remove(o)
		}
	}
	n.because(b, causes)
}

func place(list []*named, name string) int {
	return slices.IndexFunc(list, func(x *named) bool { return x.name == name })
}

// add compares a name with what it was, nil for nothing, and reports whether it moved.
func (n *NoteChanges) add(x, o *named) bool {
	list := &n.Results
	if x.entry.Form == note.FormInput {
		list = &n.Inputs
	}
	before := len(*list)
	for i, l := range x.leaves {
		v := ValueChange{Name: l.name, Now: l.text(x.entry), Part: x.entry.Form == note.FormChosen, About: x.entry.Description, root: x.name}
		if o != nil {
			was, ok := find(o, strings.TrimPrefix(l.name, x.name))
			if ok && was.same(l) {
				continue
			}
			if ok {
				v.Was, v.Change = was.text(o.entry), change(was, l)
				if v.Was == v.Now { // they differ in digits that nobody reads
					v.Was, v.Now = exact(was), exact(x.leaves[i])
				}
			}
		}
		*list = append(*list, v)
	}
	if o != nil {
		for _, l := range o.leaves {
			if _, ok := find(x, strings.TrimPrefix(l.name, o.name)); !ok {
				*list = append(*list, ValueChange{Name: x.name + strings.TrimPrefix(l.name, o.name), Was: l.text(o.entry), root: x.name})
			}
		}
	}
	return len(*list) > before
}

// exact is a value in all its digits.
func exact(l leaf) string {
	if q, ok := l.view.Quantity.(units.Quantity); ok {
		text := q.Text(0)
		if l.low != nil {
			text += " (" + l.low.Text(0) + " … " + l.high.Text(0) + ")"
		}
		return text
	}
	return l.view.Text
}

func find(x *named, field string) (leaf, bool) {
	for _, l := range x.leaves {
		if strings.TrimPrefix(l.name, x.name) == field {
			return l, true
		}
	}
	return leaf{}, false
}

func (n *NoteChanges) remove(o *named) {
	list := &n.Results
	if o.entry.Form == note.FormInput {
		list = &n.Inputs
	}
	for _, l := range o.leaves {
		*list = append(*list, ValueChange{Name: l.name, Was: l.text(o.entry), Part: o.entry.Form == note.FormChosen, About: o.entry.Description, root: o.name})
	}
}

// because says of each result that moved which of the causes it comes from.
func (n *NoteChanges) because(b []*named, causes map[string]bool) {
	var all []string
	ids := map[string]string{}
	for _, x := range b {
		ids[x.name] = x.id
		if causes[x.name] {
			all = append(all, x.name)
		}
	}
	for i := range n.Results {
		v := &n.Results[i]
		if id, ok := ids[v.root]; ok && v.Was != "" {
			v.Because = n.now.Note.ComesFrom(id, v.root, all)
			if causes[v.root] {
				v.Because = append([]string{"its formula"}, v.Because...)
			}
		}
	}
}

// formula is what a definition says, with names as the new version has them;
// "" for an input, and for what statements built up.
func formula(e *note.Entry, renamed map[string]string) string {
	f := e.Formula
	if e.Choice != nil {
		f = e.Choice.Of
	}
	if f == nil {
		return ""
	}
	text := render.Formula(renamedIn(f, renamed), render.Plain)
	if e.Choice != nil {
		text = e.Choice.Rule + " " + e.Choice.Series + " to " + text
	}
	return text
}

// differs reports whether two definitions compute in different ways.
func differs(o, x *note.Entry, renamed map[string]string) bool {
	if o.Form == note.FormInput && x.Form == note.FormInput {
		return false
	}
	if o.Form != x.Form {
		return true
	}
	if o.Choice != nil && x.Choice != nil && (o.Choice.Rule != x.Choice.Rule || o.Choice.Series != x.Choice.Series || !sameExpr(renamedIn(o.Choice.Of, renamed), x.Choice.Of)) {
		return true
	}
	return !sameExpr(renamedIn(o.Formula, renamed), x.Formula)
}

// renamedIn is a formula with other names.
func renamedIn(e *cell.Expr, renamed map[string]string) *cell.Expr {
	if e == nil || len(renamed) == 0 {
		return e
	}
	out := *e
	if to, ok := renamed[e.Text]; ok && e.Kind == cell.ExprName {
		out.Text = to
	}
	out.Args = nil
	for _, a := range e.Args {
		out.Args = append(out.Args, renamedIn(a, renamed))
	}
	return &out
}

// sameExpr compares formulas; a literal is its value, however it is spelt.
func sameExpr(a, b *cell.Expr) bool {
	if a == nil || b == nil {
		return a == b
	}
	if a.Kind != b.Kind || len(a.Args) != len(b.Args) {
		return false
	}
	if a.Text != b.Text && !(a.Kind == cell.ExprLiteral && sameLiteral(a, b)) {
		return false
	}
	for i := range a.Args {
		if !sameExpr(a.Args[i], b.Args[i]) {
			return false
		}
	}
	return true
}

func sameLiteral(a, b *cell.Expr) bool {
	p, err := units.Parse(a.Text)
	q, err2 := units.Parse(b.Text)
	return err == nil && err2 == nil && p.Dim() == q.Dim() && near(p.SI(), q.SI())
}
