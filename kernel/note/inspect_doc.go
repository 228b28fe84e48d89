package note

import (
	"go/types"
	"regexp"
	"strings"

	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/cell/inside"
)

// DocInfo is the documentation of something that cells have without defining it.
type DocInfo struct {
	host.Doc
	Arguments []FieldInfo      // of a function: those that its comment does not list by name
	Results   []FieldInfo      // the fields of its result
	Fields    []FieldInfo      // of a type
	Members   []FieldInfo      // of a package: its functions
	Steps     []inside.Formula // of a function of lib, where formulas tell what it computes
	See       string           // what the documentation of another function adds
	Code      string           // source, for those who ask for more
	Value     string           // of a field, where it has one
}

// FieldInfo is a field or function with what its comment says.
type FieldInfo struct{ Name, Type, Text string }

// docInfo gathers what is known about a documented object.
func docInfo(w *host.World, library *inside.Library, d host.Doc, o types.Object, more bool) *DocInfo {
	i := &DocInfo{Doc: d}
	const hidden = "\n\t// contains filtered or unexported fields\n"
	i.Signature = strings.Replace(strings.Replace(i.Signature, " {"+hidden+"}", "", 1), hidden, "\n", 1)
	switch o := o.(type) {
	case *types.Func:
		s := o.Signature()
		i.Arguments = fieldsOfTuple(w, s.Params())
		i.Results = fieldsOfTuple(w, s.Results())
		if s.Recv() == nil {
			i.Steps = library.Formulas(d.Package, d.Name)
			if more {
				i.Code = library.Code(d.Package, d.Name)
			}
		}
		i.See = seeAlso(w, d)
	case *types.TypeName:
		i.Fields = fieldsOfType(w, o.Type())
	}
	return i
}

// fieldsOfTuple lists the fields of the documented structs among parameters
// or results.
func fieldsOfTuple(w *host.World, t *types.Tuple) []FieldInfo {
	var list []FieldInfo
	for v := range t.Variables() {
		list = append(list, fieldsOfType(w, v.Type())...)
	}
	return list
}

func fieldsOfType(w *host.World, t types.Type) []FieldInfo {
	if s, ok := t.(*types.Slice); ok {
		t = s.Elem()
	}
	named, ok := types.Unalias(t).(*types.Named)
	if !ok || named.Obj().Pkg() == nil {
		return nil
	}
	s, ok := named.Underlying().(*types.Struct)
	if !ok {
		return nil
	}
	var list []FieldInfo
	said := false
	for f := range s.Fields() {
		if !f.Exported() {
			continue
		}
		d, _ := w.Doc(named.Obj().Pkg().Path(), named.Obj().Name()+"."+f.Name())
		_, typ, _ := strings.Cut(d.Signature, " ")
		list = append(list, FieldInfo{Name: f.Name(), Type: strings.TrimPrefix(typ, "units."), Text: d.Text})
		said = said || d.Text != ""
	}
	if !said {
		return nil // the signature says as much
	}
	return list
}

// packageInfo is the documentation of a package and what it has.
func packageInfo(w *host.World, k *types.Package) *DocInfo {
	i := &DocInfo{}
	i.Doc, _ = w.Doc(k.Path(), "")
	i.Package, i.Kind = k.Path(), "package"
	if i.Signature == "" {
		i.Signature = "package " + k.Name()
	}
	for _, name := range k.Scope().Names() {
		o := k.Scope().Lookup(name)
		if _, isFunc := o.(*types.Func); !isFunc || !o.Exported() || w.Refused(o) != nil {
			continue
		}
		d, _ := w.Doc(k.Path(), name)
		i.Members = append(i.Members, FieldInfo{Name: name, Text: firstSentence(d.Text)})
	}
	return i
}

func firstSentence(text string) string {
	text, _, _ = strings.Cut(text, "\n\n")
	text = strings.Join(strings.Fields(text), " ")
	if s, _, ok := strings.Cut(text, ". "); ok {
		return s + "."
	}
	return text
}

// asAnother finds the place where a comment sends its reader to another function.
var asAnother = regexp.MustCompile(`(?m)^(?:Where it holds|Holds|Source|Caution)[^:]*: as (\w+)\.`)

// seeAlso is what the comment of another function says on validity, source
// and cautions, where d's sends the reader there.
func seeAlso(w *host.World, d host.Doc) string {
	m := asAnother.FindStringSubmatch(d.Text)
	if m == nil {
		return ""
	}
	other, ok := w.Doc(d.Package, m[1])
	if !ok {
		return ""
	}
	var parts []string
	for _, p := range strings.Split(other.Text, "\n\n") {
		for _, start := range []string{"Holds", "Where it holds", "Source", "Caution"} {
			if strings.HasPrefix(p, start) {
				parts = append(parts, p)
				break
			}
		}
	}
	return strings.Join(parts, "\n\n")
}
