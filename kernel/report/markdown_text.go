package report

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	markup "github.com/yuin/goldmark/text"

	"ohmwright/kernel/render"
)

// edit replaces bytes of a source.
type edit struct {
	from, to int
	text     string
}

func edited(source string, edits []edit) string {
	slices.SortStableFunc(edits, func(a, b edit) int { return a.from - b.from })
	for _, e := range slices.Backward(edits) {
		source = source[:e.from] + e.text + source[e.to:]
	}
	return source
}

// text is a text cell as it stands in the document: values for its markers,
// pictures beside the document, links into it, HTML as text, and headings so
// many levels deeper. next is which of the chapter's headings comes next.
func (w *markdownWriter) text(c *Chapter, cell Cell, id string, deeper int, next *int) string {
	source, tree := c.tree(cell)
	source = edited(source, w.links(c, cell, source, tree, id))
	source = edited(source, escapes(source, markdown(), `\<`))
	// What is mathematics here may be HTML for another reader: a<b> c. A space
	// changes nothing in mathematics. A tag that is mended can uncover another.
	plain := goldmark.New(goldmark.WithExtensions(extension.Table, extension.Strikethrough))
	for e := escapes(source, plain, "< "); len(e) > 0; e = escapes(source, plain, "< ") {
		source = edited(source, e)
	}
	return c.deeper(source, deeper, next)
}

// links puts pictures into files, says what became of the others, and lets
// links lead to where their targets are in the document.
func (w *markdownWriter) links(c *Chapter, cell Cell, source string, tree ast.Node, id string) (edits []edit) {
	ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) { // no error comes from below
		at, ok := spanOf(n)
		if !entering || !ok {
			return ast.WalkContinue, nil
		}
		switch x := n.(type) {
		case *ast.Image:
			alt := plainText(x, []byte(source))
			p := c.picture(cell, string(x.Destination))
			text := render.MarkdownText(p.missing(alt))
			if p.why == "" {
				text = w.file(id, p, alt)
			}
			edits = append(edits, edit{at.from, at.to, text})
			return ast.WalkSkipChildren, nil
		case *ast.Link:
			href, ok := c.target(string(x.Destination))
			switch {
			case !ok:
				edits = append(edits, edit{at.from, at.from + 1, ""}, edit{at.behind - 1, at.to, ""})
			case strings.HasPrefix(href, "#"):
				edits = append(edits, edit{at.behind, at.to, "(" + href + ")"})
			}
		}
		return ast.WalkContinue, nil
	})
	return edits
}

// escapes finds the brackets that open HTML and writes something else.
func escapes(source string, by goldmark.Markdown, as string) (edits []edit) {
	open := func(segments *markup.Segments) {
		for i := range segments.Len() {
			for at := segments.At(i).Start; at < segments.At(i).Stop; at++ {
				if source[at] == '<' {
					edits = append(edits, edit{at, at + 1, as})
				}
			}
		}
	}
	ast.Walk(by.Parser().Parse(markup.NewReader([]byte(source))), func(n ast.Node, entering bool) (ast.WalkStatus, error) { // no error comes from below
		if !entering {
			return ast.WalkContinue, nil
		}
		switch x := n.(type) {
		case *ast.RawHTML:
			open(x.Segments)
		case *ast.HTMLBlock:
			open(x.Lines())
			if x.HasClosure() {
				one := markup.NewSegments()
				one.Append(x.ClosureLine)
				open(one)
			}
		}
		return ast.WalkContinue, nil
	})
	return edits
}

// deeper makes the headings of a text cell deeper by so many levels and takes
// the first of the note away, which is its title. Those with a line below them
// become such with signs before them.
func (c *Chapter) deeper(source string, deeper int, next *int) string {
	src := []byte(source)
	var edits []edit
	for n := markdown().Parser().Parse(markup.NewReader(src)).FirstChild(); n != nil; n = n.NextSibling() {
		h, ok := n.(*ast.Heading)
		if !ok {
			continue
		}
		if *next++; h.Lines().Len() == 0 {
			continue
		}
		first, last := h.Lines().At(0), h.Lines().At(h.Lines().Len()-1)
		from := strings.LastIndexByte(source[:first.Start], '\n') + 1
		to := len(source)
		if i := strings.IndexByte(source[max(last.Stop-1, first.Start):], '\n'); i >= 0 {
			to = max(last.Stop-1, first.Start) + i
		}
		if !strings.HasPrefix(strings.TrimLeft(source[from:], " "), "#") { // a line of = or - follows
			if i := strings.IndexByte(source[min(to+1, len(source)):], '\n'); i >= 0 {
				to += 1 + i
			} else {
				to = len(source)
			}
		}
		if *next == 1 {
			edits = append(edits, edit{from, to, ""})
			continue
		}
		text := strings.Join(strings.Fields(string(h.Lines().Value(src))), " ")
		if id := c.headings[min(*next, len(c.headings))-1].id; c.document.linked[id] {
			text = anchor(id) + text
		}
		edits = append(edits, edit{from, to, strings.Repeat("#", min(6, h.Level+deeper)) + " " + text})
	}
	return edited(source, edits)
}
