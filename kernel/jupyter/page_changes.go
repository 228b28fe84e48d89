package jupyter

import (
	"strings"

	"ohmwright/kernel/note"
)

// remember keeps what the names and requirements of each cell came to, as they
// are shown, for comparison with the next execution.
func (e *Engine) remember(results []*note.Result) {
	before := e.values
	e.values = map[string]map[string]string{}
	for _, r := range results {
		if old, ok := before[r.ID]; ok && !r.Ran && r.State == note.Done && len(old) > 0 {
			e.values[r.ID] = old
			continue
		}
		e.values[r.ID] = texts(r)
	}
}

// manifold stands before the names of values that are no line to be shown again.
const manifold = "\x00"

// texts is the values of a cell by name, and its verdicts by a space and what
// is required.
func texts(r *note.Result) map[string]string {
	m := map[string]string{}
	for _, i := range r.Items {
		switch x := i.(type) {
		case *note.Entry:
			t, ok := x.Text()
			if !ok {
				t = x.Value.Text
			}
			switch {
			case t == "" || x.Quiet:
			case len(x.Value.Items) > 0 || strings.Contains(t, "\n"):
				m[manifold+x.Name] = t
			default:
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

// moved lists the names of the executed cell that came to something else.
// Without cell ids another cell may have defined them before.
func (e *Engine) moved(before map[string]map[string]string, id string) (names []string) {
	for _, name := range e.note.Defined(id) {
		for _, key := range []string{name, manifold + name} {
			if old, ok := lookUp(before, key); ok && old != e.values[id][key] {
				names = append(names, name)
			}
		}
	}
	return names
}

// lookUp finds what a name came to.
func lookUp(values map[string]map[string]string, name string) (text string, ok bool) {
	for _, m := range values { // one cell at most has it
		if text, ok := m[name]; ok {
			return text, true
		}
	}
	return "", false
}

// changes tells what a recomputed cell showed before, and which names of the
// executed cell moved it.
func (e *Engine) changes(before map[string]map[string]string, moved []string, r *note.Result) (list []note.Item) {
	was, now := before[r.ID], e.values[r.ID]
	cause := func(name string) string {
		from := e.note.ComesFrom(r.ID, name, moved)
		if len(from) == 0 {
			return ""
		}
		return "; " + strings.Join(firstFew(from, 3), ", ") + " changed"
	}
	if r.State != note.Done {
		for _, name := range r.Defines {
			if old, ok := was[name]; ok {
				list = append(list, notice("%s had a value before: %s%s", name, old, cause("")))
			}
		}
		return list
	}
	if !r.Ran {
		return nil
	}
	for _, i := range r.Items {
		switch x := i.(type) {
		case *note.Entry:
			if old, ok := was[x.Name]; ok && now[x.Name] != "" && old != now[x.Name] {
				list = append(list, notice("%s was %s%s", x.Name, old, cause(x.Name)))
			}
		case *note.Requirement:
			if old, ok := was[" "+x.Text]; ok && old != now[" "+x.Text] {
				list = append(list, notice("%s: %s%s", old, x.Text, cause("")))
			}
		}
	}
	return list
}

// redefined tells of the executed cell's names what another cell had made them
// before. Without cell ids that may be this cell's text before an edit.
func (e *Engine) redefined(before map[string]map[string]string, r *note.Result) (list []note.Item) {
	if _, known := before[r.ID]; known {
		return nil
	}
	for _, name := range r.Defines {
		old, ok := lookUp(before, name)
		if now := e.values[r.ID][name]; ok && now != "" && old != now {
			list = append(list, notice("%s was %s", name, old))
		}
	}
	return list
}
