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
			case x.Spread != nil:
				m[x.Name] = t + limitsMark + x.Spread.Low.String() + " … " + x.Spread.High.String()
			default:
				m[x.Name] = t
			}
		case *note.Requirement:
			m[" "+x.Text] = "failed"
			if x.Holds {
				m[" "+x.Text] = "held"
			}
		}
	}
	return m
}

// limitsMark stands between a value and its limits.
const limitsMark = "\x00"

// was is an old value beside the new one: its limits count only where they are
// all that changed.
func was(old, now string) string {
	value, limits, spreads := strings.Cut(old, limitsMark)
	if same, _, _ := strings.Cut(now, limitsMark); spreads && same == value {
		return value + " (" + limits + ")"
	}
	return value
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

// changes tells what a recomputed cell showed before, in one line for all that
// the same names of the executed cell moved.
func (e *Engine) changes(before map[string]map[string]string, moved []string, r *note.Result) (list []note.Item) {
	old, now := before[r.ID], e.values[r.ID]
	var causes []string
	said := map[string][]string{}
	say := func(name, text string) {
		cause := strings.Join(firstFew(e.note.ComesFrom(r.ID, name, moved), 3), ", ")
		if said[cause] == nil {
			causes = append(causes, cause)
		}
		said[cause] = append(said[cause], text)
	}
	if r.State != note.Done {
		for _, name := range r.Defines {
			if text, ok := old[name]; ok {
				say("", name+" "+was(text, ""))
			}
		}
	} else if r.Ran {
		for _, i := range r.Items {
			switch x := i.(type) {
			case *note.Entry:
				if text, ok := old[x.Name]; ok && now[x.Name] != "" && text != now[x.Name] {
					say(x.Name, x.Name+" "+was(text, now[x.Name]))
				}
			case *note.Requirement:
				if text, ok := old[" "+x.Text]; ok && text != now[" "+x.Text] {
					say("", "“"+x.Text+"” "+text)
				}
			}
		}
	}
	for _, cause := range causes {
		when := "before: "
		if cause != "" {
			when = "before " + cause + " changed: "
		}
		list = append(list, notice("%s%s", when, strings.Join(said[cause], ", ")))
	}
	return list
}

// redefined tells of the executed cell's names what another cell had made them
// before. Without cell ids that may be this cell's text before an edit.
func (e *Engine) redefined(before map[string]map[string]string, r *note.Result) []note.Item {
	if _, known := before[r.ID]; known {
		return nil
	}
	var texts []string
	for _, name := range r.Defines {
		old, ok := lookUp(before, name)
		if now := e.values[r.ID][name]; ok && now != "" && old != now {
			texts = append(texts, name+" "+was(old, now))
		}
	}
	if texts == nil {
		return nil
	}
	return []note.Item{notice("before: %s", strings.Join(texts, ", "))}
}
