package report

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
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
	source = edited(source, w.escapes(source, markdown(), `\<`))
	// What is mathematics here may be HTML for another reader: a<b> c. A space
	// changes nothing in mathematics. A tag that is mended can uncover another.
	for e := w.escapes(source, plain(), "< "); len(e) > 0; e = w.escapes(source, plain(), "< ") {
		source = edited(source, e)
	}
	source = strings.TrimRight(c.deeper(source, deeper, next), " \n\t")
	for i := strings.IndexByte(source, '\n'); i >= 0 && strings.TrimSpace(source[:i]) == ""; i = strings.IndexByte(source, '\n') {
		source = source[i+1:]
	}
	return closed(source)
}

// closed ends a block that a text cell leaves open, so that it does not swallow
// the cells that follow.
func closed(source string) string {
	ends := []string{""}
	for _, sign := range []string{"`", "~"} {
		for fence := strings.Repeat(sign, 3); strings.Contains(source, fence); fence += sign {
			ends = append(ends, fence)
		}
	}
	ends = append(ends, "$$", `\]`)
	const after = "\n\nWhat follows.\n"
	for _, end := range ends {
		whole := source + strings.TrimSuffix("\n"+end, "\n")
		follows := true
		for _, by := range []goldmark.Markdown{plain(), markdown()} {
			last := by.Parser().Parse(markup.NewReader([]byte(whole + after))).LastChild()
			follows = follows && last.Kind() == ast.KindParagraph && strings.TrimSpace(string(last.Lines().Value([]byte(whole+after)))) == "What follows."
		}
		if follows {
			return whole
		}
	}
	return source
}

// links puts pictures into files, says what became of the others, and lets
// links lead to where their targets are in the document. What a cell defines
// as the target of links is set into these, for it would be one in every cell.
func (w *markdownWriter) links(c *Chapter, cell Cell, source string, tree ast.Node, id string) (edits []edit) {
	ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) { // no error comes from below
		if !entering {
			return ast.WalkContinue, nil
		}
		at, _ := spanOf(n)
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
			case x.Reference != nil:
				edits = append(edits, edit{at.behind, at.to, "(<" + href + ">)"})
			}
		case *ast.LinkReferenceDefinition:
			for i := range x.Lines().Len() {
				edits = append(edits, edit{x.Lines().At(i).Start, x.Lines().At(i).Stop, ""})
			}
		}
		return ast.WalkContinue, nil
	})
	return edits
}

// escapes finds what a reader would take for HTML, and writes something else
// for the brackets that open it, and what it would take for a picture from
// elsewhere.
func (w *markdownWriter) escapes(source string, by goldmark.Markdown, as string) (edits []edit) {
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
		case *ast.Image:
			if at, ok := spanOf(x); ok && !strings.HasPrefix(string(x.Destination), w.address("")) {
				edits = append(edits, edit{at.from, at.from + 1, "! "})
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
