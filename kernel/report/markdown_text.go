package report

import (
	"regexp"
	"slices"
	"strings"
	"unicode"

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
	source, _ := c.tree(cell)
	source = mended(source, func(s string) []edit {
		return tags(s, markdown().Parser().Parse(markup.NewReader([]byte(s))), literal)
	})
	tree := markdown().Parser().Parse(markup.NewReader([]byte(source)))
	source = edited(source, w.links(c, cell, source, tree, id))
	source = mended(source, func(s string) []edit { return w.foreign(c, s) })
	source = strings.TrimRight(c.deeper(source, deeper, next), " \n\t")
	for i := strings.IndexByte(source, '\n'); i >= 0 && strings.TrimSpace(source[:i]) == ""; i = strings.IndexByte(source, '\n') {
		source = source[i+1:]
	}
	if continues.MatchString(source) {
		source = "<!-- -->\n\n" + source // else it would go on with the list of the cell before
	}
	return closed(source)
}

var continues = regexp.MustCompile(`^([ \t]|[-+*]|[0-9]+[.)])`)

// mended edits a source until there is nothing to do: what is mended can
// uncover another. What does not come to an end becomes plain text.
func mended(source string, edits func(string) []edit) string {
	for range 20 {
		e := edits(source)
		if len(e) == 0 {
			return source
		}
		source = edited(source, e)
	}
	return literal(source)
}

// closed ends a block that a text cell leaves open, code or mathematics, so
// that it does not swallow the cells that follow.
func closed(source string) string {
	fences := []string{""}
	for _, sign := range []string{"`", "~"} {
		for fence := strings.Repeat(sign, 3); strings.Contains(source, fence); fence += sign {
			fences = append(fences, "\n"+fence)
		}
	}
	for _, math := range []string{"", "\n$$", "\n\\]"} { // readers may see different blocks open
		for _, fence := range fences {
			for _, whole := range []string{source + fence + math, source + math + fence} {
				if ends(whole) {
					return whole
				}
			}
		}
	}
	return literal(source)
}

// ends reports whether a paragraph behind a source stands by itself.
func ends(source string) bool {
	const after = "What follows."
	whole := []byte(source + "\n\n" + after + "\n")
	for _, by := range []goldmark.Markdown{plain(), markdown()} {
		last := by.Parser().Parse(markup.NewReader(whole)).LastChild()
		if last.Kind() != ast.KindParagraph || strings.TrimSpace(string(last.Lines().Value(whole))) != after {
			return false
		}
	}
	return true
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

// tags finds HTML, and writes it otherwise.
func tags(source string, tree ast.Node, otherwise func(string) string) (edits []edit) {
	write := func(s markup.Segment) {
		if old := source[s.Start:s.Stop]; otherwise(old) != old {
			edits = append(edits, edit{s.Start, s.Stop, otherwise(old)})
		}
	}
	ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) { // no error comes from below
		if !entering {
			return ast.WalkContinue, nil
		}
		switch x := n.(type) {
		case *ast.RawHTML:
			for i := range x.Segments.Len() {
				write(x.Segments.At(i))
			}
		case *ast.HTMLBlock:
			for i := range x.Lines().Len() {
				write(x.Lines().At(i))
			}
			if x.HasClosure() {
				write(x.ClosureLine)
			}
		}
		return ast.WalkContinue, nil
	})
	return edits
}

// literal writes every sign that Markdown knows as itself.
func literal(s string) string {
	var b strings.Builder
	for _, r := range s {
		if r > ' ' && r < 0x7f && !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

// foreign finds what a reader who knows of no mathematics would take for HTML,
// for a picture from elsewhere or a link that runs: a<b> c. A space keeps it
// from that, and changes nothing in mathematics.
func (w *markdownWriter) foreign(c *Chapter, source string) []edit {
	tree := plain().Parser().Parse(markup.NewReader([]byte(source)))
	edits := tags(source, tree, func(s string) string { return opening.ReplaceAllString(s, "< $1") })
	ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) { // no error comes from below
		if !entering {
			return ast.WalkContinue, nil
		}
		at, _ := spanOf(n)
		switch x := n.(type) {
		case *ast.LinkReferenceDefinition:
			from := x.Lines().At(0).Start
			if i := strings.Index(source[from:], "]:"); i >= 0 {
				edits = append(edits, edit{from + i + 1, from + i + 1, " "})
			}
		case *ast.Image:
			if !strings.HasPrefix(string(x.Destination), w.address("")) {
				edits = append(edits, edit{at.from, at.from + 1, "! "})
			}
		case *ast.Link:
			if _, ok := c.target(string(x.Destination)); !ok && !strings.HasPrefix(string(x.Destination), "#") {
				edits = append(edits, edit{at.behind, at.behind, " "})
			}
		}
		return ast.WalkContinue, nil
	})
	return edits
}

var opening = regexp.MustCompile(`<(\S)`)

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
			between := ""
			if strings.TrimSpace(source[:from]) != "" { // it kept blocks apart
				between = "<!-- -->"
			}
			edits = append(edits, edit{from, to, between})
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
