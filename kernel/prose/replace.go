package prose

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/text"
)

// Marker is a place in a text that stands for a value.
type Marker struct {
	Name     string // "Vout", "i.Peak", "rows[0].Peak"
	Word     string // behind the name: "limits", "", or one that means nothing
	From, To int    // bytes of the text, braces included
}

// Limits reports whether the limits of the value are meant.
func (m Marker) Limits() bool { return m.Word == "limits" }

// Known reports whether the word is one of those that a marker has. What is
// {a b} may be text as well: it was meant as a marker if a is a name.
func (m Marker) Known() bool { return m.Word == "" || m.Limits() }

// String is the marker as it stands between its braces.
func (m Marker) String() string { return strings.TrimSpace(m.Name + " " + m.Word) }

// Steps are the name of a value and what leads into it: "rows", "[0]", "Peak".
func (m Marker) Steps() []string {
	return strings.Split(strings.ReplaceAll(m.Name, "[", ".["), ".")
}

// Parse reads Markdown as notes have it.
func Parse(markdown string) ast.Node {
	return goldmark.New(goldmark.WithExtensions(Extension)).Parser().Parse(text.NewReader([]byte(markdown)))
}

// Markers lists the markers of a text in their order.
func Markers(markdown string) (list []Marker) {
	if !strings.Contains(markdown, "{") {
		return nil
	}
	ast.Walk(Parse(markdown), func(n ast.Node, entering bool) (ast.WalkStatus, error) { // no error comes from below
		if m, ok := n.(*Mark); ok && entering {
			list = append(list, m.Marker)
		}
		return ast.WalkContinue, nil
	})
	slices.SortFunc(list, func(a, b Marker) int { return a.From - b.From })
	return list
}

// Replace puts values in the place of markers; those for which there is none
// stay as they are and are listed. The values are escaped: they are text
// wherever they stand.
func Replace(markdown string, value func(Marker) (text string, ok bool)) (out string, unknown []Marker) {
	return replace(markdown, value, escape)
}

// ReplacePlain is Replace for a text that nobody reads as Markdown again.
func ReplacePlain(markdown string, value func(Marker) (text string, ok bool)) string {
	out, _ := replace(markdown, value, func(s string) string { return s })
	return out
}

func replace(markdown string, value func(Marker) (string, bool), write func(string) string) (out string, unknown []Marker) {
	var b strings.Builder
	at := 0
	for _, m := range Markers(markdown) {
		text, ok := value(m)
		if !ok {
			unknown = append(unknown, m)
			continue
		}
		b.WriteString(markdown[at:m.From])
		b.WriteString(write(strings.Join(strings.Fields(text), " ")))
		at = m.To
	}
	return b.String() + markdown[at:], unknown
}

// escape writes text so that Markdown reads it as such.
func escape(s string) string {
	var b strings.Builder
	for _, r := range s {
		if strings.ContainsRune("\\`*_[]<>#|~&${}!", r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

// WordHint says what may stand behind the name of a marker that has another
// word there.
func WordHint(m Marker) string {
	return "write {" + m.Name + "} for its value, {" + m.Name + " limits} for its limits"
}
