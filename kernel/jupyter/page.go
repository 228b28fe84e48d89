package jupyter

import (
	"fmt"
	"go/token"
	"reflect"
	"slices"
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/note"
)

// shown is the output of a cell that can be replaced. It belongs to the
// session that saw it made: any other page does not know its id and drops
// updates of it without a word.
type shown struct {
	id, session string
	sent        Bundle // what was sent last
	stale       bool   // it was updated by another session
	failed      bool   // an error output, which nothing can replace, stands above it
	again       bool   // it was computed again: what it printed then is in no stream
	notice      bool   // it tells of stale results while there are any
}

// staleNotice names the results that a page of this session shows out of date.
func (e *Engine) staleNotice(session string) *note.Notice {
	var cells []string
	for _, id := range e.order {
		if d := e.display[id]; d != nil && d.stale && d.session != session {
			text := e.label[id]
			if names := e.note.Names(e.code[id]); len(names) > 0 {
				text += " (" + strings.Join(firstFew(names, 3), ", ") + ")"
			}
			cells = append(cells, text)
		}
	}
	what := "results shown before this page was loaded are"
	switch len(cells) {
	case 0:
		return nil
	case 1:
		what = "result shown before this page was loaded is"
	}
	return &note.Notice{Text: fmt.Sprintf("%d %s out of date: run all cells; %s", len(cells), what, strings.Join(firstFew(cells, 5), ", "))}
}

func firstFew(list []string, n int) []string {
	if len(list) > n {
		return append(slices.Clone(list[:n]), "…")
	}
	return list
}

// usesNote reports whether a text uses a name that a cell defines: only then
// can another cell change what it shows.
func (e *Engine) usesNote(code string) bool {
	p, _ := cell.Parse(token.NewFileSet(), "", code, nil)
	for _, id := range e.order {
		for _, name := range e.note.Names(e.code[id]) {
			if slices.Contains(p.Uses, name) {
				return true
			}
		}
	}
	return false
}

// constant reports whether all that a cell shows is expressions that can never change.
func (e *Engine) constant(r *note.Result, items []note.Item) bool {
	for _, i := range items {
		if _, ok := i.(*note.Shown); !ok {
			return false
		}
	}
	return r.State == note.Done && len(r.Defines) == 0 && !e.usesNote(e.code[r.ID])
}

// texts is what the names and requirements of a cell came to, for comparison.
func texts(r *note.Result) map[string]string {
	m := map[string]string{}
	for _, i := range r.Items {
		switch x := i.(type) {
		case *note.Entry:
			t, ok := x.Text()
			if !ok {
				t = x.Value.Text
			}
			if t != "" && !x.Quiet {
				m[x.Name] = t
			}
		case *note.Requirement:
			m[" "+x.Text] = "failed before"
			if x.Holds {
				m[" "+x.Text] = "held before"
			}
		}
	}
	return m
}

// changes tells what a recomputed cell showed before, and which names of the
// executed cell moved it.
func changes(before, now map[string]string, r *note.Result, cause string) []note.Item {
	var list []note.Item
	add := func(text string) { list = append(list, &note.Notice{Text: text + cause}) }
	if r.State != note.Done {
		for _, name := range r.Defines {
			if old, ok := before[name]; ok {
				add(name + " had a value before: " + old)
			}
		}
		return list
	}
	for _, i := range r.Items {
		switch x := i.(type) {
		case *note.Entry:
			if old, ok := before[x.Name]; ok && now[x.Name] != "" && old != now[x.Name] {
				add(x.Name + " was " + old)
			}
		case *note.Requirement:
			if old, ok := before[" "+x.Text]; ok && old != now[" "+x.Text] {
				add(old + ": " + x.Text)
			}
		}
	}
	return list
}

// causeOf names what the executed cell changed. Without cell ids another cell
// may have defined the name before.
func causeOf(before map[string]map[string]string, now map[string]string, defines []string) string {
	var moved []string
	for _, name := range defines {
		for _, cell := range before {
			if old, ok := cell[name]; ok && old != now[name] {
				moved = append(moved, name)
				break
			}
		}
	}
	if len(moved) == 0 {
		return ""
	}
	return "; " + strings.Join(firstFew(moved, 3), ", ") + " changed"
}

// same reports whether a front end that was sent a shows b already.
func same(a, b Bundle) bool { return reflect.DeepEqual(a, b) }
