package jupyter

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"ohmwright/kernel/note"
)

// outOfDate lists the cells whose output is out of date on a page of this
// session, or cannot be replaced where it stands.
func (e *Engine) outOfDate(session string) map[string]bool {
	list := map[string]bool{}
	for _, id := range e.order {
		if d := e.display[id]; d != nil && (d.stale && d.session != session || d.off()) {
			list[id] = true
		}
	}
	return list
}

// off reports whether a cell that shows nothing, or a result that cannot be
// replaced, would show something else now.
func (d *shown) off() bool { return d.id == "" && !same(d.now, d.first) }

// unseen cells may be on no page any more: they have neither an id nor a name
// by which a newer text could replace them.
func (e *Engine) unseen(id string) bool { return e.anonymous(id) && len(e.note.Defined(id)) == 0 }

// untold lists what is out of date unless a cell of this session tells so
// already, and marks it as told. If there is something new, the list is whole.
//
// The kernel cannot tell a page that was loaded again from a second one: both
// are another session. So each output is told of once in a session, beside
// whatever is run first after it went out of date, and that stands until the
// output is made anew: two pages in turn do not drown anybody in notices.
func (e *Engine) untold(session string) map[string]bool {
	list := e.outOfDate(session)
	news := maps.Clone(list)
	for _, d := range e.display {
		if d.session == session && d.id != "" {
			for id := range d.tells {
				delete(news, id)
			}
		}
	}
	for id := range news {
		told := e.display[id].told
		if told[session] && e.unseen(id) {
			delete(news, id) // once is enough: nothing can end it
		}
		told[session] = true
	}
	if len(news) == 0 {
		return nil
	}
	return list
}

// telling is the words for those of some cells that are out of date still.
func (e *Engine) telling(cells map[string]bool) (said []note.Item) {
	var stale, off []string
	for _, id := range e.order {
		d := e.display[id]
		switch {
		case d == nil || !cells[id]:
		case d.stale:
			stale = append(stale, e.nameOf(id))
		case d.off():
			off = append(off, e.nameOf(id))
		}
	}
	switch n := len(stale); n {
	case 0:
	case 1:
		said = append(said, notice("1 result that this page may still show from before it was loaded is out of date: run all cells, or %s", stale[0]))
	default:
		said = append(said, notice("%d results that this page may still show from before it was loaded are out of date: run all cells, or %s", n, strings.Join(firstFew(stale, 5), ", ")))
	}
	if len(off) > 0 {
		said = append(said, notice("run again what would show something else now and cannot be replaced where it stands: %s", strings.Join(firstFew(off, 5), ", ")))
	}
	return said
}

func (e *Engine) nameOf(id string) string {
	if names := e.note.Defined(id); len(names) > 0 {
		return e.label[id] + " (" + strings.Join(firstFew(names, 3), ", ") + ")"
	}
	return e.label[id]
}

func firstFew(list []string, n int) []string {
	if len(list) > n {
		return append(slices.Clone(list[:n]), "…")
	}
	return list
}

func notice(format string, args ...any) note.Item {
	return &note.Notice{Text: fmt.Sprintf(format, args...)}
}

func withoutPrinted(items []note.Item) []note.Item {
	return slices.DeleteFunc(slices.Clone(items), func(i note.Item) bool { _, printed := i.(*note.Printed); return printed })
}
