package render

import (
	"slices"
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/note"
	"ohmwright/kernel/prose"
	"ohmwright/units"
)

// Values finds what the markers of a text stand for, in what the cells of a
// note came to.
type Values struct{ entries map[string]*note.Entry }

// ValuesOf are those of some cells.
func ValuesOf(results []*note.Result) Values {
	var list []*note.Entry
	for _, r := range results {
		for _, it := range r.Items {
			switch x := it.(type) {
			case *note.Entry:
				list = append(list, x)
			case *note.Imported:
				list = append(list, x.Entries...)
			}
		}
	}
	return valuesOf(list)
}

func valuesOf(list []*note.Entry) Values {
	v := Values{map[string]*note.Entry{}}
	for _, e := range list {
		v.entries[e.Name] = e
	}
	return v
}

// Text is what a marker stands for, ok false where there is no such value.
func (v Values) Text(m prose.Marker) (text string, ok bool) {
	e, steps := v.find(m)
	if e == nil || !m.Known() {
		return "", false
	}
	if len(steps) == 0 {
		if text, ok := e.Text(); ok {
			if limits := spreadText(e.Spread); m.Limits() && limits != "" {
				text = limits
			}
			return text, true
		}
		return e.Value.Text, single(e.Value)
	}
	view, steps := follow(e.Value, steps)
	if len(steps) > 0 {
		return "", false
	}
	if limits := limitsOf(&view); m.Limits() && limits != "" {
		return limits, true
	}
	if q, ok := view.Quantity.(units.Quantity); ok {
		return q.String(), true
	}
	return view.Text, single(view)
}

// find gives the entry that a marker starts with, and the steps into it.
func (v Values) find(m prose.Marker) (e *note.Entry, steps []string) {
	steps = m.Steps()
	if v.entries[steps[0]] == nil && len(steps) > 1 { // of a note that is imported
		return v.entries[steps[0]+"."+steps[1]], steps[2:]
	}
	return v.entries[steps[0]], steps[1:]
}

// follow goes into a value as far as it has what the steps name.
func follow(view cell.View, steps []string) (at cell.View, left []string) {
	for i, step := range steps {
		k := slices.IndexFunc(view.Items, func(it exec.Item) bool { return it.Name == step })
		if k < 0 || view.Kind != exec.KindRecord && view.Kind != exec.KindList {
			return view, steps[i:]
		}
		view = view.Items[k].Value
	}
	return view, nil
}

// Several says of a marker for more than one value what it stands for, and
// what to write; "" for other markers.
func (v Values) Several(m prose.Marker) string {
	e, steps := v.find(m)
	if e == nil || !m.Known() {
		return ""
	}
	view, left := follow(e.Value, steps)
	there := m.Steps()
	name := strings.ReplaceAll(strings.Join(there[:len(there)-len(left)], "."), ".[", "[")
	what := ""
	switch {
	case view.Kind == exec.KindList && len(view.Items) == 0:
		return name + " is an empty list"
	case view.Kind == exec.KindList && (len(left) == 0 || strings.HasPrefix(left[0], "[")):
		what = " is a list of " + count(len(view.Items)+view.More)
	case view.Kind == exec.KindRecord && len(left) == 0:
		what = " is a record"
	case view.Kind == exec.KindMap:
		return name + " is a map, of which a text can quote nothing: give the value in it a name"
	default:
		return ""
	}
	one := name
	for !single(view) && len(view.Items) > 0 && (view.Kind == exec.KindRecord || view.Kind == exec.KindList) {
		if view.Kind == exec.KindRecord {
			one += "."
		}
		one += view.Items[0].Name
		view = view.Items[0].Value
	}
	return name + what + ": write one value of it, such as {" + one + "}"
}

// Meant reports whether something in braces was meant as a marker: what has
// a word behind it that no marker has is one if it starts with a name.
func (v Values) Meant(m prose.Marker) bool {
	e, _ := v.find(m)
	return m.Known() || e != nil
}

func single(v cell.View) bool {
	switch v.Kind {
	case exec.KindQuantity, exec.KindNumber, exec.KindText, exec.KindBool:
		return true
	}
	return false
}

// Nearest suggests a marker for one that is none; "" if none is near.
func (v Values) Nearest(m prose.Marker) string {
	if !m.Known() {
		return prose.WordHint(m)
	}
	var names []string
	for name, e := range v.entries {
		names = fields(names, name, e.Value)
	}
	slices.Sort(names)
	return cell.Suggest(m.Name, names)
}

func fields(names []string, name string, v cell.View) []string {
	names = append(names, name)
	if v.Kind == exec.KindRecord {
		for _, it := range v.Items {
			names = fields(names, name+"."+it.Name, it.Value)
		}
	}
	return names
}

// Prose is the Markdown of a text that a cell shows, with its values. HTML in
// it is text: an output may not do what a page of the web can.
func Prose(p *note.Prose) string {
	text, _ := prose.Replace(p.Text, ValuesIn(p).Text)
	return prose.WithoutHTML(visible(text))
}

// ValuesIn are what the markers of a text that a cell shows stand for.
func ValuesIn(p *note.Prose) Values { return valuesOf(p.Entries) }

// proseLine is a line of such a text in a terminal. A paragraph, and what an
// item of a list begins with, is one line.
type proseLine struct {
	text  string
	hang  int  // what stands before its words, and indents its further lines
	fixed bool // it stays whole: code, a row of a table
}

// proseLines is such a text for a terminal: its Markdown with the values.
func proseLines(p *note.Prose) (out []proseLine) {
	text := visible(prose.ReplacePlain(p.Text, valuesOf(p.Entries).Text))
	free, fence := false, "" // whether the line before goes on, and what ends a block of code
	for line := range strings.SplitSeq(text, "\n") {
		line = strings.TrimRight(line, " \t")
		bare := strings.TrimLeft(line, " ")
		mark := ""
		for _, m := range []string{"```", "~~~", "$$"} {
			if strings.HasPrefix(bare, m) && !(m == "$$" && strings.Contains(bare[2:], m)) {
				mark = m
			}
		}
		fixed := fence != "" || mark != "" || bare == "" || !free && strings.HasPrefix(line, "    ") || strings.ContainsAny(bare[:1], "#>|=\t")
		switch item := itemMark(bare); {
		case fixed:
			if mark != "" && (fence == "" || fence == mark) {
				fence = strings.TrimPrefix(mark, fence)
			}
			out = append(out, proseLine{text: line, fixed: true})
		case free && item == 0:
			out[len(out)-1].text += " " + bare
		default:
			out = append(out, proseLine{text: line, hang: len(line) - len(bare) + item})
		}
		free = !fixed
	}
	return out
}

// itemMark is how long the mark is that starts an item of a list, 0 where
// there is none.
func itemMark(line string) int {
	rest := strings.TrimLeft(line, "0123456789")
	signs := "-*+"
	if rest != line {
		signs = ".)"
	}
	if len(rest) > 1 && strings.Contains(signs, rest[:1]) && rest[1] == ' ' {
		return len(line) - len(rest) + len("- ")
	}
	return 0
}
