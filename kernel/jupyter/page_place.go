package jupyter

import (
	"fmt"
	"slices"
	"strings"

	"ohmwright/kernel/note"
)

// place finds the cell that a request is for, and says what it replaces;
// passing is what is worth saying until the next cell runs.
//
// The id that a front end gives is the key by itself, without the session: ids
// are random, and the page of a notebook that is loaded again gives its cells
// the same ones under a new session. Only where such a page makes ids anew, as
// those that are addresses, its definitions retire what it ran before.
//
// Where the front end gives no id, a cell is known by its text and by the names
// that it defines: the newest definition of a name retires the older.
func (e *Engine) place(req ExecuteRequest) (id string, said, passing []note.Item) {
	defines := e.note.Names(req.Code)
	if req.CellID != "" {
		for _, old := range slices.Clone(e.order) {
			if old == req.CellID || e.session[old] == req.Session {
				continue
			}
			if both := shared(defines, e.note.Defined(old)); len(both) > 0 {
				said = append(said, notice("%s is defined here now; %s, run from another page or before this one was loaded, is retired", strings.Join(both, ", "), e.label[old]))
				e.remove(old)
			}
		}
		if _, ok := e.code[req.CellID]; !ok {
			e.order = append(e.order, req.CellID)
		}
		return req.CellID, said, nil
	}
	for _, old := range e.order {
		if e.code[old] == req.Code && e.anonymous(old) {
			return old, nil, nil
		}
	}
	like := "" // the cell that this may be under other names
	for _, old := range slices.Clone(e.order) {
		theirs := e.note.Defined(old)
		both := shared(defines, theirs)
		if len(both) > 0 {
			if len(both) < len(theirs) || len(both) < len(defines) {
				said = append(said, notice("%s is defined here now; %s, which defined it before, is retired", strings.Join(both, ", "), e.label[old]))
			}
			e.remove(old)
		} else if e.anonymous(old) && renamed(e.code[old], theirs, req.Code, defines) {
			like = old
		}
	}
	if like != "" {
		// A second part of the same kind looks the same: so this stands only
		// until the next cell runs.
		names := strings.Join(e.note.Defined(like), ", ")
		passing = append(passing, notice("%s of %s stays defined: if this is that cell with another name, restart the kernel and run all cells to be rid of the old one", names, e.label[like]))
	}
	e.next++
	id = fmt.Sprintf("%s%d", anonymousPrefix, e.next)
	e.order = append(e.order, id)
	return id, said, passing
}

// anonymousPrefix begins the ids of cells to which the front end gave none; a
// front end's own id holds no such character.
const anonymousPrefix = "\x00"

func (e *Engine) anonymous(id string) bool { return strings.HasPrefix(id, anonymousPrefix) }

func shared(a, b []string) []string {
	return slices.DeleteFunc(slices.Clone(a), func(name string) bool { return !slices.Contains(b, name) })
}

// renamed reports whether two texts are the same but for the names they define.
func renamed(code string, names []string, other string, others []string) bool {
	if len(names) == 0 || len(names) != len(others) {
		return false
	}
	for i, name := range names {
		a, afterA, ok := strings.Cut(code, name)
		b, afterB, ok2 := strings.Cut(other, others[i])
		if !ok || !ok2 || a != b {
			return false
		}
		code, other = afterA, afterB
	}
	return code == other
}

func (e *Engine) remove(id string) {
	e.order = slices.DeleteFunc(e.order, func(o string) bool { return o == id })
	delete(e.code, id)
	delete(e.label, id)
	delete(e.session, id)
	delete(e.display, id)
}

func (e *Engine) sources() []note.Source {
	var s []note.Source
	for _, id := range e.order {
		s = append(s, note.Source{ID: id, Label: e.label[id], Code: e.code[id]})
	}
	return s
}
