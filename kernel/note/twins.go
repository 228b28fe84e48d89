package note

import (
	"reflect"
	"strconv"
	"strings"
)

// Once is what an item has that stands once: the reference of a part, the
// identifier of a requirement, both once in a design, the name of a case, once
// in a note; "" if it has none.
func Once(i Item) (what string, line int, inDesign bool) {
	switch x := i.(type) {
	case *Part:
		return x.Reference, x.Line, true
	case *Requirement:
		return x.ID, x.Line, true
	case *Operating:
		return "case " + x.Name, x.Line, false
	}
	return "", 0, false
}

// Twice is what stands twice, and where else; "" and "" if nothing does.
func Twice(i Item) (what, where string) {
	what, _, _ = Once(i)
	switch x := i.(type) {
	case *Part:
		where = x.Twice
	case *Requirement:
		where = x.Twice
	case *Operating:
		where = x.Twice
	}
	if where == "" {
		return "", ""
	}
	return what, where
}

// WithTwice is the item saying that what it has stands there, too.
func WithTwice(i Item, where string) Item {
	switch x := i.(type) {
	case *Part:
		p := *x
		p.Twice = where
		return &p
	case *Requirement:
		q := *x
		q.Twice = where
		return &q
	case *Operating:
		o := *x
		o.Twice = where
		return &o
	}
	return i
}

// twins has where each thing that stands once in a note first stands.
type twins map[once]twin

type once struct {
	kind reflect.Type
	what string
}

type twin struct {
	where string
	by    string // the Require: one that is reached several times is one
}

// before gives an item as it says whether what it has stood before; nil if it
// says so already.
func (t twins) before(c *node, i Item) Item {
	what, line, _ := Once(i)
	if what == "" {
		return nil
	}
	by := ""
	if q, ok := i.(*Requirement); ok {
		by, _, _ = strings.Cut(q.key, "#")
	}
	key := once{reflect.TypeOf(i), what}
	first, again := t[key]
	where := ""
	switch {
	case !again:
		t[key] = twin{c.Label + ", line " + strconv.Itoa(line), by}
	case by == "" || by != first.by:
		where = first.where
	}
	if _, was := Twice(i); was == where {
		return nil
	}
	return WithTwice(i, where)
}
