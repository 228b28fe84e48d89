package prose

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// WithoutHTML makes HTML in a text the text that it is.
func WithoutHTML(markdown string) string {
	for strings.Contains(markdown, "<") {
		places := htmlIn(markdown)
		if len(places) == 0 {
			break
		}
		for _, at := range slices.Backward(places) {
			// Not a backslash: behind another one it would escape nothing.
			markdown = markdown[:at] + "&lt;" + markdown[at+1:]
		}
	}
	return markdown
}

// htmlIn lists where the signs < of HTML stand, sorted.
func htmlIn(markdown string) (places []int) {
	add := func(s text.Segment) {
		for at := s.Start; at < s.Stop; at++ {
			if markdown[at] == '<' {
				places = append(places, at)
			}
		}
	}
	ast.Walk(Parse(markdown), func(n ast.Node, entering bool) (ast.WalkStatus, error) { // no error comes from below
		if !entering {
			return ast.WalkContinue, nil
		}
		switch x := n.(type) {
		case *ast.RawHTML:
			for i := range x.Segments.Len() {
				add(x.Segments.At(i))
			}
		case *ast.HTMLBlock:
			for i := range x.Lines().Len() {
				add(x.Lines().At(i))
			}
			if x.HasClosure() {
				add(x.ClosureLine)
			}
		}
		return ast.WalkContinue, nil
	})
	slices.Sort(places)
	return slices.Compact(places)
}

// schemes are what the address of a link may start with.
var schemes = []string{"http", "https", "mailto"}

// Stranger is the first address in a text that leads neither into the web nor
// to another place of the note, "" if there is none: what a page runs, or reads
// from the disk, when somebody follows it.
func Stranger(markdown string) (address string) {
	ast.Walk(Parse(markdown), func(n ast.Node, entering bool) (ast.WalkStatus, error) { // no error comes from below
		var to []byte
		switch x := n.(type) {
		case *ast.Link:
			to = x.Destination
		case *ast.Image:
			to = x.Destination
		case *ast.AutoLink:
			to = x.URL([]byte(markdown))
		}
		to = util.ResolveEntityNames(util.ResolveNumericReferences(util.UnescapePunctuations(to)))
		scheme, _, found := strings.Cut(string(to), ":")
		if entering && address == "" && found && !strings.ContainsAny(scheme, "/?#") && !slices.Contains(schemes, strings.ToLower(scheme)) {
			address = string(to)
		}
		return ast.WalkContinue, nil
	})
	return address
}
