package main

import (
	"io"
	"slices"
	"strings"

	"ohmwright/kernel/note"
	"ohmwright/kernel/report"
)

// show prints what a note came to: all of it the first time, then what is not
// as it was. Notices and errors that were told before are not told again.
func (w *watching) show(n *watchedNote) error {
	now := n.version()
	var b strings.Builder
	switch {
	case w.flags.json:
		if err := printJSON(&b, n.noteFile); err != nil {
			return err
		}
	case n.before == nil:
		n.print(&b)
	default:
		b.WriteString(n.changes(now))
	}
	text := b.String()
	// Blocks of several lines stand apart.
	if w.shown && !w.flags.json && strings.Count(text, "\n") > 1 {
		text = "\n" + text
	}
	if _, err := io.WriteString(w.stdout, text); err != nil {
		return err
	}
	w.shown, n.before = true, now
	said := map[string]bool{}
	for _, line := range n.talk() {
		if said[line] = true; !n.said[line] {
			io.WriteString(w.talk, line)
		}
	}
	n.said = said
	return nil
}

// talk is what there is to be said of a note besides its results.
func (n *watchedNote) talk() []string {
	list := append(n.notices(), n.errors()...)
	if n.trouble != nil {
		list = append(list, "ohmwright: "+n.trouble.Error()+"\n")
	}
	return list
}

// version is what the note came to, for a comparison with the next time. A cell
// that fails, or waits, leaves what it showed before: once it is mended, its
// values are held against those that it had.
func (n *watchedNote) version() *report.Note {
	v := &report.Note{Path: n.path, Note: n.note, Order: n.note.Order(), Borrowed: n.note.Borrowed()}
	computed := map[string]bool{}
	for _, r := range n.results {
		if r.State == note.Done {
			for _, name := range r.Defines {
				computed[name] = true
			}
		}
	}
	for _, r := range n.results {
		r := *r
		r.Items = slices.Clone(r.Items)
		if old := n.last(r.ID); old != nil && r.State != note.Done {
			for _, i := range old.Items {
				e, entry := i.(*note.Entry)
				_, printed := i.(*note.Printed)
				if !printed && !(entry && computed[e.Name]) { // by another cell now
					r.Items = append(r.Items, i)
				}
			}
			for _, i := range r.Items {
				if e, ok := i.(*note.Entry); ok && !slices.Contains(v.Order, e.Name) {
					v.Order = append(v.Order, e.Name)
				}
			}
		}
		v.Results = append(v.Results, &r)
	}
	return v
}

// last is what a cell came to when the note was shown last.
func (n *watchedNote) last(id string) *note.Result {
	if n.before == nil {
		return nil
	}
	for _, r := range n.before.Results {
		if r.ID == id {
			return r
		}
	}
	return nil
}

// changes are the lines for what is not as it was when it was shown last.
func (n *watchedNote) changes(now *report.Note) string {
	found := report.Compare(&report.Design{Notes: []*report.Note{n.before}}, &report.Design{Notes: []*report.Note{now}})
	for _, c := range found.Notes {
		// What the errors are stands on standard error, with their places.
		c.Errors, c.Mended = n.failing(now)
	}
	text := report.Text(found, width())
	for _, r := range now.Results {
		old := n.last(r.ID)
		for i, printed := range printedBy(r) {
			if old == nil || i >= len(printedBy(old)) || printedBy(old)[i] != printed {
				if text == "" {
					text = n.path + "\n"
				}
				text += "\n" + printed
			}
		}
	}
	switch {
	case text != "":
		return text
	case n.failed:
		return n.path + ": unchanged, fails as before\n"
	}
	return n.path + ": unchanged\n"
}

// failing names the cells that have an error that they did not have, and those
// that had one and have none.
func (n *watchedNote) failing(now *report.Note) (fail, mended []string) {
	var failing, healed []string
	for _, r := range now.Results {
		old := n.last(r.ID)
		before := ""
		if old != nil && len(old.Errors) > 0 {
			before = old.Errors[0].Msg
		}
		switch {
		case len(r.Errors) > 0 && r.Errors[0].Msg != before:
			failing = append(failing, r.Label)
		case len(r.Errors) == 0 && before != "":
			healed = append(healed, r.Label)
		}
	}
	return joined(failing), joined(healed)
}

// joined makes one line of some words.
func joined(list []string) []string {
	if len(list) == 0 {
		return nil
	}
	return []string{strings.Join(list, ", ")}
}
