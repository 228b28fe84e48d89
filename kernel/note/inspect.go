package note

import (
	"go/types"
	"slices"
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/units"
)

// Inspection is what there is to say of a place of a cell. One of the fields
// is set.
type Inspection struct {
	Name    *NameInfo    // a name of the note
	Literal *LiteralInfo // a number with its unit
	Doc     *DocInfo     // a function, type, field, method or package
	Other   *OtherInfo   // anything that nobody has documented
}

// OtherInfo is a name with nothing but a type.
type OtherInfo struct{ Text, What string }

// NameInfo is a name of the note in its surroundings.
type NameInfo struct {
	Name    string
	Type    string // of a function, type or constant: how it is declared
	Comment string // what stands above such a declaration
	Entry   *Entry // nil where there is no value
	Cell    string // label of the cell that defines it, "" if none ran
	Trouble string // why there is no value
	Inputs  []NamedValue
	UsedBy  []Use
	Code    string // of a declaration, for those who ask for more
}

// NamedValue is a name with its value as it stands.
type NamedValue struct{ Name, Value string }

// Use is a cell that uses a name, and what it computes from it.
type Use struct {
	Cell  string
	Names []string
}

// LiteralInfo is a quantity literal.
type LiteralInfo struct {
	Text string // as typed
	SI   string // its value in SI
	Unit units.About
}

// Inspect tells about what stands at the offset at, in bytes, of a cell. more
// asks for the source of functions as well. It is nil where nothing stands
// that has something to tell.
func (n *Note) Inspect(code string, at int, more bool) *Inspection {
	n.mu.Lock()
	defer n.mu.Unlock()
	s := n.surroundings()
	switch sub := cell.SubjectAt(code, at, s.Scope); {
	case sub.Literal != "":
		if si, unit, ok := units.AboutLiteral(sub.Literal); ok {
			return &Inspection{Literal: &LiteralInfo{Text: sub.Literal, SI: si, Unit: unit}}
		}
	case sub.Name != "":
		if i := n.inspectName(sub.Name, more); i != nil {
			return &Inspection{Name: i}
		}
	case sub.Object != nil:
		return n.inspectObject(sub, more)
	}
	return nil
}

// inspectName tells about a name of the note; nil if no cell that ran defines it.
func (n *Note) inspectName(name string, more bool) *NameInfo {
	c := n.owner[name]
	if c == nil {
		return nil
	}
	i := &NameInfo{Name: name, Cell: c.Label}
	for _, m := range c.imports {
		if c.prefix()+m.Name == name {
			i.Type = "the note " + m.File
			return i
		}
	}
	if c.checked != nil {
		switch o := c.checked.Object(name).(type) {
		case *types.Func, *types.TypeName, *types.Const:
			i.Type = cell.TypeText(o)
			var source string
			if i.Comment, source = c.checked.Declaration(name); more {
				i.Code = source
			}
		}
	}
	if w := n.entries()[name]; w != nil {
		i.Entry = w
	} else if !c.ok {
		i.Trouble = "no value: the cell has not run"
		if c.result != nil && len(c.result.Errors) > 0 {
			i.Trouble = "no value: " + c.result.Errors[0].Error()
		}
	}
	if c.ok && c.checked != nil {
		for _, used := range c.checked.UsedBy(name) {
			if o := n.owner[used]; o != nil && used != name {
				i.Inputs = append(i.Inputs, n.valueOf(used))
			}
		}
	}
	i.UsedBy = n.usesOf(name)
	return i
}

// valueOf is a name with its value in short.
func (n *Note) valueOf(name string) NamedValue {
	v := NamedValue{Name: name}
	if e := n.owner[name].entry(name); e != nil && e.Form != FormMade {
		if text, ok := e.Text(); ok {
			v.Value = text
		} else {
			v.Value = shortValue(&e.Value)
		}
	}
	return v
}

// shortValue is the text of a value that has room in a line, else "".
func shortValue(v *cell.View) string {
	if len(v.Items) > 0 || len(v.Text) > 40 {
		return ""
	}
	return v.Text
}

// usesOf lists the cells that use a name, in the order of the note, and which
// of their names come from it.
func (n *Note) usesOf(name string) []Use {
	var uses []Use
	for _, c := range n.cells {
		own := n.owner[name] == c
		if c.checked == nil || !own && !slices.Contains(c.checked.Uses, name) {
			continue
		}
		u := Use{Cell: c.Label}
		for _, d := range c.parsed.Defines {
			if d != name && n.owner[d] == c && slices.Contains(c.checked.UsedBy(d), name) {
				u.Names = append(u.Names, d)
			}
		}
		if !own || len(u.Names) > 0 {
			uses = append(uses, u)
		}
	}
	return uses
}

// inspectObject tells about what is not a name of the note.
func (n *Note) inspectObject(sub cell.Subject, more bool) *Inspection {
	o, w := sub.Object, n.options.World
	if k, ok := o.(*types.PkgName); ok {
		return &Inspection{Doc: packageInfo(w, k.Imported())}
	}
	name := o.Name()
	if sub.Member != "" {
		name = sub.Member
	}
	value := ""
	if e := n.entries()[sub.Of]; e != nil {
		for _, item := range e.Value.Items {
			if item.Name == o.Name() {
				value = shortValue(&item.Value)
			}
		}
	}
	if d, ok := w.Doc(o.Pkg().Path(), name); ok {
		i := docInfo(w, n.library, d, o, more)
		i.Value = value
		return &Inspection{Doc: i}
	}
	other := &OtherInfo{Text: cell.TypeText(o), What: "local to the function or block"}
	switch {
	case w.Imported(o.Pkg()):
		other.What = "package " + o.Pkg().Path()
	case sub.Member != "":
		other.What = "of " + strings.TrimSuffix(sub.Member, "."+o.Name())
	}
	if value != "" {
		other.Text += " = " + value
	}
	return &Inspection{Other: other}
}
