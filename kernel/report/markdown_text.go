package report

import (
	"encoding/base64"
	"fmt"
	"maps"
	"net/url"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	markup "github.com/yuin/goldmark/text"

	"ohmwright/kernel/prose"
)

// headings makes those of a text cell deeper by so many levels and takes the
// first of the note away, which is its title. Those with a line below them
// become such with signs before them.
func headings(source string, deeper int, titled *bool) string {
	source = prose.WithoutHTML(source) // as in the page
	src := []byte(source)
	tree := markdown().Parser().Parse(markup.NewReader(src))
	type edit struct {
		from, to int
		text     string
	}
	var edits []edit
	for n := tree.FirstChild(); n != nil; n = n.NextSibling() {
		h, ok := n.(*ast.Heading)
		if !ok || h.Lines().Len() == 0 {
			continue
		}
		first, last := h.Lines().At(0), h.Lines().At(h.Lines().Len()-1)
		from := strings.LastIndexByte(source[:first.Start], '\n') + 1
		to := len(source)
		if i := strings.IndexByte(source[max(last.Stop-1, first.Start):], '\n'); i >= 0 {
			to = max(last.Stop-1, first.Start) + i
		}
		text := strings.Join(strings.Fields(string(h.Lines().Value(src))), " ")
		if !strings.HasPrefix(strings.TrimLeft(source[from:], " "), "#") { // a line of = or - follows
			if i := strings.IndexByte(source[min(to+1, len(source)):], '\n'); i >= 0 {
				to += 1 + i
			} else {
				to = len(source)
			}
		}
		if !*titled {
			*titled = true
			edits = append(edits, edit{from, to, ""})
			continue
		}
		edits = append(edits, edit{from, to, strings.Repeat("#", min(6, h.Level+deeper)) + " " + text})
	}
	slices.SortStableFunc(edits, func(a, b edit) int { return a.from - b.from })
	for _, e := range slices.Backward(edits) {
		source = source[:e.from] + e.text + source[e.to:]
	}
	return source
}

// attached writes the pictures that a text cell brings with it beside the
// document, and their names into the text.
func (w *markdownWriter) attached(source string, c Cell, id string) string {
	for i, name := range slices.Sorted(maps.Keys(c.Attachments)) {
		uri := dataOf(c.Attachments, "attachment:"+name)
		kind, data, ok := strings.Cut(strings.TrimPrefix(uri, "data:image/"), ";base64,")
		raw, err := base64.StdEncoding.DecodeString(data)
		if !ok || err != nil {
			continue
		}
		file := fmt.Sprintf("%s-attachment-%d.%s", id, i+1, strings.TrimSuffix(kind, "+xml"))
		w.pictures[file] = raw
		for _, spelt := range []string{name, url.PathEscape(name)} {
			source = strings.ReplaceAll(source, "(attachment:"+spelt+")", "(<"+w.folder+"/"+file+">)")
		}
	}
	return source
}
