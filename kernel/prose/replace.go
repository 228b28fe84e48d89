package prose

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/text"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
	"ohmwright/units"
)

// Marker is a place in a text that stands for a value.
type Marker struct {
	Name     string // "Vout", "i.Peak"
	Limits   bool   // its limits are meant
	From, To int    // bytes of the text, braces included
}

// Markers lists the markers of a text in their order.
func Markers(markdown string) (list []Marker) {
	if !strings.Contains(markdown, "{") {
		return nil
	}
	tree := goldmark.New(goldmark.WithExtensions(Extension)).Parser().Parse(text.NewReader([]byte(markdown)))
	ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) { // no error comes from below
		if m, ok := n.(*Mark); ok && entering {
			list = append(list, m.Marker)
		}
		return ast.WalkContinue, nil
	})
	slices.SortFunc(list, func(a, b Marker) int { return a.From - b.From })
	return list
}

// Values finds what markers stand for, in what the cells of a note came to.
type Values struct{ entries map[string]*note.Entry }

// ValuesOf are those of some cells.
func ValuesOf(results []*note.Result) Values {
	v := Values{map[string]*note.Entry{}}
	for _, r := range results {
		for _, it := range r.Items {
			switch x := it.(type) {
			case *note.Entry:
				v.entries[x.Name] = x
			case *note.Imported:
				for _, e := range x.Entries {
					v.entries[e.Name] = e
				}
			}
		}
	}
	return v
}

// Text is what a marker stands for, ok false where there is no such value.
func (v Values) Text(m Marker) (string, bool) {
	name, path, field := strings.Cut(m.Name, ".")
	if v.entries[name] == nil && field { // of a note that is imported
		inner, rest, more := strings.Cut(path, ".")
		name, path, field = name+"."+inner, rest, more
	}
	e := v.entries[name]
	if e == nil {
		return "", false
	}
	if !field {
		if m.Limits {
			if e.Spread == nil || e.Spread.Low.Same(e.Spread.High) {
				return viewText(e, e.Value), scalar(e.Value)
			}
			return render.Limits(e.Spread.Low, e.Spread.High), true
		}
		return viewText(e, e.Value), scalar(e.Value)
	}
	view := e.Value
	for part := range strings.SplitSeq(path, ".") {
		i := slices.IndexFunc(view.Items, func(it exec.Item) bool { return it.Name == part })
		if i < 0 || view.Kind != exec.KindRecord {
			return "", false
		}
		view = view.Items[i].Value
	}
	if q, ok := view.Quantity.(units.Quantity); ok && m.Limits {
		if low, high, ok := q.Limits(); ok && !low.Same(high) {
			return render.Limits(low, high), true
		}
	}
	return viewText(nil, view), scalar(view)
}

func scalar(v cell.View) bool {
	switch v.Kind {
	case exec.KindQuantity, exec.KindNumber, exec.KindText, exec.KindBool:
		return true
	}
	return false
}

func viewText(e *note.Entry, v cell.View) string {
	if e != nil {
		if t, ok := e.Text(); ok {
			return t
		}
	}
	if q, ok := v.Quantity.(units.Quantity); ok && v.Kind == exec.KindQuantity {
		return q.String()
	}
	return v.Text
}

// Nearest suggests a name for one that is none; "" if none is near.
func (v Values) Nearest(m Marker) string {
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

// Replace puts values in the place of markers; those that stand for nothing
// stay as they are and are listed. The values are escaped: they are text
// wherever they stand.
func Replace(markdown string, v Values) (out string, unknown []Marker) {
	var b strings.Builder
	at := 0
	for _, m := range Markers(markdown) {
		text, ok := v.Text(m)
		if !ok {
			unknown = append(unknown, m)
			continue
		}
		b.WriteString(markdown[at:m.From])
		b.WriteString(escape(text))
		at = m.To
	}
	return b.String() + markdown[at:], unknown
}

// escape writes text so that Markdown reads it as such.
func escape(s string) string {
	var b strings.Builder
	for _, r := range strings.Join(strings.Fields(s), " ") {
		if strings.ContainsRune("\\`*_[]<>#|~&${}!", r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}
