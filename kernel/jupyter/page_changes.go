package jupyter

import (
	"fmt"
	"strconv"
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
	"ohmwright/units"
)

// came is one value or verdict of a cell, as it is shown.
type came struct {
	key   string // tells it from the others of its cell
	name  string // the name that the cell defines, "" for what has none
	label string // before the value in a line of old values; "" if it has no place there
	text  string
	// limits count as old value only where they are all that changed.
	limits string
}

// fieldsMost bounds how many parts of a record are followed one by one.
const fieldsMost = 50

// remember keeps what each cell came to, for comparison with the next execution.
func (e *Engine) remember(results []*note.Result) {
	before := e.values
	e.values = map[string][]came{}
	for _, r := range results {
		if old, ok := before[r.ID]; ok && !r.Ran && r.State == note.Done && len(old) > 0 {
			e.values[r.ID] = old
			continue
		}
		e.values[r.ID] = values(r)
	}
}

// values lists what a cell came to.
func values(r *note.Result) (list []came) {
	for i, item := range r.Items {
		switch x := item.(type) {
		case *note.Entry:
			list = append(list, parts(x.Name, x.Name, x.Value, x.Spread)...)
			if t, ok := x.Text(); ok && t != "" {
				list[len(list)-1].text = t
			}
			if x.Quiet {
				for k := range list {
					if list[k].name == x.Name {
						list[k].label = ""
					}
				}
			}
		case *note.Shown:
			label := "" // many a Go expression is too long for a line
			if f := render.Formula(x.Formula, render.Plain); len(f) <= 40 && !strings.Contains(f, "\n") {
				label = f
			}
			for _, v := range parts(label, "", x.Value, x.Spread) {
				v.key = fmt.Sprint(i, " ", v.key)
				list = append(list, v)
			}
		case *note.Requirement:
			verdict := "failed"
			switch {
			case x.Waived != "":
				verdict = "waived"
			case x.Holds:
				verdict = "held"
			}
			list = append(list, came{key: " " + x.Text, label: "“" + x.Text + "”", text: verdict})
		case *note.Operating:
			verdict := "failed"
			if x.Holds {
				verdict = "held"
			}
			list = append(list, came{key: " case " + x.Name, label: "operating case “" + x.Name + "”", text: verdict})
		case *note.Measurement:
			list = append(list, came{key: fmt.Sprint(" measured ", i), label: "reading of " + x.Name, text: x.Verdict.String()})
		}
	}
	return list
}

// parts is a value that fits a line, or the fields of a record that do.
func parts(label, name string, v cell.View, s *note.Spread) []came {
	one := came{key: label, name: name, label: label, text: v.Text}
	switch v.Kind {
	case exec.KindQuantity:
		one.text = v.Quantity.(units.Quantity).String()
		if s != nil {
			one.limits = s.Low.String() + " … " + s.High.String()
		}
	case exec.KindRecord:
		if len(v.Items) == 0 || len(v.Items) > fieldsMost || label == "" {
			one.label = ""
			break
		}
		var list []came
		for _, i := range v.Items {
			if len(i.Value.Items) > 0 {
				list = append(list, came{key: label + "." + i.Name, name: name, text: i.Value.Text})
				continue
			}
			list = append(list, parts(label+"."+i.Name, name, i.Value, nil)...)
		}
		return list
	case exec.KindNumber:
		if len(v.Text) > 10 {
			one.text = strconv.FormatFloat(v.Number, 'g', 6, 64)
		}
	case exec.KindBool, exec.KindText:
		if len(v.Text) > 40 || strings.Contains(v.Text, "\n") {
			one.label = ""
		}
	default:
		one.label = ""
	}
	return []came{one}
}

// was is an old value as it stands in a line beside the new one.
func (c came) was(now came) string {
	if c.text == now.text && c.limits != "" {
		return c.label + " " + c.text + " (" + c.limits + ")"
	}
	return c.label + " " + c.text
}

func keyed(list []came) map[string]came {
	m := make(map[string]came, len(list))
	for _, c := range list {
		m[c.key] = c
	}
	return m
}

// moved lists the names of the executed cell that came to something else, with
// what they were. Without cell ids another cell may have defined them before.
func (e *Engine) moved(before map[string][]came, id string) (names, texts []string) {
	defined := map[string]bool{}
	for _, name := range e.note.Defined(id) {
		defined[name] = true
	}
	olds := map[string]came{}
	for _, list := range before {
		for _, old := range list { // one cell at most has a name
			if defined[old.name] {
				olds[old.key] = old
			}
		}
	}
	seen := map[string]bool{}
	for _, now := range e.values[id] {
		old, ok := olds[now.key]
		delete(olds, now.key)
		if ok && old != now {
			seen[now.name] = true
			if old.label != "" {
				texts = append(texts, old.was(now))
			}
		}
	}
	for _, gone := range olds {
		seen[gone.name] = true
	}
	for _, name := range e.note.Defined(id) {
		if seen[name] {
			names = append(names, name)
		}
	}
	return names, texts
}

// changes tells what a recomputed cell showed before, in one line for all that
// the same names of the executed cell moved.
func (e *Engine) changes(before map[string][]came, moved []string, r *note.Result) (list []note.Item) {
	if r.State == note.Done && !r.Ran {
		return nil
	}
	var causes []string
	said := map[string][]string{}
	now := keyed(e.values[r.ID])
	for _, old := range before[r.ID] {
		next, ok := now[old.key]
		if old.label == "" || ok && next == old || !ok && (r.State == note.Done || old.name == "") {
			continue
		}
		name := old.name
		if r.State != note.Done {
			name = ""
		}
		cause := strings.Join(firstFew(e.note.ComesFrom(r.ID, name, moved), 3), ", ")
		if said[cause] == nil {
			causes = append(causes, cause)
		}
		said[cause] = append(said[cause], old.was(next))
	}
	for _, cause := range causes {
		when := "before: "
		if cause != "" {
			when = "before " + cause + " changed: "
		}
		list = append(list, notice("%s%s", when, strings.Join(firstFew(said[cause], 8), ", ")))
	}
	return list
}
