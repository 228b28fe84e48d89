package note

import (
	"context"
	"slices"

	"ohmwright/kernel/cell"
)

// board completes what the cells say of the board as a whole: where it stands
// on what other cells show, that may have changed although the values have not.
func (n *Note) board(ctx context.Context, ran []*node) {
	found := n.boardItems()
	if (len(ran) > 0 || n.overdue) && len(found.cases) > 0 {
		if n.overdue = ctx.Err() != nil; !n.overdue {
			n.operate(ctx, found)
			n.overdue = ctx.Err() != nil // interrupted among them
		}
	}
	applied := map[rule]int{}
	for _, q := range found.requirements {
		if q.Rating != nil {
			applied[n.policyKey(&node{}, q.Rating.Reference, q.Rating.What)]++
		}
	}
	waived := found.waivers()
	once := twins{}
	for _, c := range n.cells {
		for i, it := range c.result.Items {
			if ofBlock(it) {
				continue
			}
			if twice := once.before(c, it); twice != nil {
				n.replaceItem(c, i, twice)
				it = twice
			}
			switch x := it.(type) {
			case *Part:
				if e := n.entryOf(x.Name); e != x.Entry {
					p := *x
					p.Entry = e
					n.replaceItem(c, i, &p)
				}
			case *Policy:
				if count := applied[ruleOf("", x.Letters, x.What)]; count != x.Ratings {
					p := *x
					p.Ratings = count
					n.replaceItem(c, i, &p)
				}
			case *Requirement:
				reason := ""
				if w := waived[x.waivedAs()]; w != nil && !x.Holds {
					reason = w.Reason
				}
				if reason != x.Waived {
					q := *x
					q.Waived = reason
					n.replaceItem(c, i, &q)
				}
			case *Waiver:
				if trouble := found.trouble(x); trouble != x.Trouble {
					w := *x
					w.Trouble = trouble
					n.replaceItem(c, i, &w)
				}
			}
		}
	}
	n.judgeCases(waived)
	n.tabulate()
}

func (n *Note) replaceItem(c *node, i int, it Item) {
	c.result.Items = slices.Clone(c.result.Items)
	c.result.Items[i] = it
	c.result.Ran = true
}

// boardItems are what is judged for the note as a whole.
type boardItems struct {
	requirements []*Requirement
	cases        []*Operating
	waive        []*Waiver
}

func (n *Note) boardItems() *boardItems {
	b := &boardItems{}
	for _, c := range n.cells {
		for _, it := range c.result.Items {
			switch x := it.(type) {
			case *Requirement:
				if x.block == "" { // a block judges its own
					b.requirements = append(b.requirements, x)
				}
			case *Operating:
				b.cases = append(b.cases, x)
			case *Waiver:
				b.waive = append(b.waive, x)
			}
		}
	}
	return b
}

// waivedAs is what a Waive calls the requirement.
func (r *Requirement) waivedAs() string {
	if r.Rating != nil {
		return r.Text
	}
	return r.ID
}

func (b *boardItems) waivers() map[string]*Waiver {
	list := map[string]*Waiver{}
	for _, w := range b.waive {
		if !b.shared(w.ID) {
			list[w.ID] = w
		}
	}
	return list
}

// shared reports whether several requirements have an identifier: a waiver of
// one is none of the others.
func (b *boardItems) shared(id string) bool {
	first := ""
	for _, q := range b.requirements {
		if q.waivedAs() != id {
			continue
		}
		if first != "" && q.Text != first {
			return true
		}
		first = q.Text
	}
	return false
}

// trouble says why a waiver waives nothing.
func (b *boardItems) trouble(w *Waiver) string {
	if b.shared(w.ID) {
		return "several requirements have the identifier " + w.ID + ", and nothing is waived: give each its own"
	}
	var known []string
	found := false
	for _, q := range b.requirements {
		id := q.waivedAs()
		if id != "" {
			known = append(known, id)
		}
		if id != w.ID {
			continue
		}
		found = true
		if !q.Holds || slices.ContainsFunc(b.cases, func(o *Operating) bool { return o.misses(q) }) {
			return ""
		}
	}
	if found {
		return w.ID + " holds: nothing is waived"
	}
	text := "the note has no requirement " + w.ID
	if s := cell.Suggest(w.ID, known); s != "" {
		text += ": " + s
	}
	return text
}

// entryOf is the entry of a name, or of the name that a field is of.
func (n *Note) entryOf(name string) *Entry {
	name, _ = n.split(name)
	return n.owner[name].entry(name)
}
