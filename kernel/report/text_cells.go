package report

import (
	"bytes"
	"html"
	"strings"

	"github.com/yuin/goldmark/ast"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/util"

	"ohmwright/kernel/prose"
	"ohmwright/kernel/texmath"
)

// plainText is the text of a node without its markup.
func plainText(n ast.Node, source []byte) string {
	var b strings.Builder
	ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		switch x := n.(type) {
		case *ast.Text:
			if entering {
				b.Write(util.UnescapePunctuations(x.Segment.Value(source)))
				if x.SoftLineBreak() {
					b.WriteByte(' ')
				}
			}
		case *prose.Math:
			if entering {
				b.WriteString(x.TeX)
			}
		case *prose.Mark:
			if entering {
				b.Write(source[x.From:x.To])
			}
		}
		return ast.WalkContinue, nil
	})
	return strings.Join(strings.Fields(b.String()), " ")
}

// setter writes the text cells of one note as HTML.
type setter struct {
	chapter *Chapter
	base    int // level of its highest heading
	last    int // level of the heading before
	next    int // which of the chapter's headings comes next
}

// HTML sets a text cell. HTML in it is shown as text: a stranger's note runs
// nothing in a document. Pictures are those that the note brings with it, or that
// stand in its folder.
func (s *setter) HTML(c Cell) (string, error) {
	source, tree := s.chapter.tree(c)
	src := []byte(source)
	md := markdown()
	md.Renderer().AddOptions(renderer.WithNodeRenderers(util.Prioritized(nodes{s.chapter, c}, 1)))
	for n := tree.FirstChild(); n != nil; {
		next := n.NextSibling()
		if h, ok := n.(*ast.Heading); ok {
			if s.next++; s.next == 1 { // the title, which the document has already
				tree.RemoveChild(tree, h)
			} else {
				h.SetAttributeString("id", s.chapter.headings[s.next-1].id)
				h.Level = min(6, s.last+1, max(s.base, h.Level+s.base-2))
				s.last = h.Level
			}
		}
		n = next
	}
	err := ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if h, ok := n.(*ast.Heading); ok && entering && h.Parent() != tree { // in a quotation or list
			h.Level = min(6, s.last+1)
		}
		if h, ok := n.(*extast.TableHeader); ok && entering {
			for c := h.FirstChild(); c != nil; c = c.NextSibling() {
				c.SetAttributeString("scope", []byte("col"))
			}
		}
		return ast.WalkContinue, nil
	})
	if err != nil {
		return "", err
	}
	var b bytes.Buffer
	err = md.Renderer().Render(&b, src, tree)
	return b.String(), err
}

// nodes renders what is otherwise in a document than on a page of the web.
type nodes struct {
	chapter *Chapter
	cell    Cell
}

func (r nodes) RegisterFuncs(reg renderer.NodeRendererFuncRegisterer) {
	reg.Register(prose.KindMath, func(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
		if m := n.(*prose.Math); entering {
			w.WriteString(texmath.MathML(m.TeX, m.Display))
		}
		return ast.WalkSkipChildren, nil
	})
	reg.Register(prose.KindWall, func(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
		if entering {
			w.WriteString(texmath.MathML(n.(*prose.MathBlock).TeX, true) + "\n")
		}
		return ast.WalkSkipChildren, nil
	})
	reg.Register(prose.KindMark, func(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
		if m := n.(*prose.Mark); entering {
			w.WriteString(html.EscapeString(string(source[m.From:m.To])))
		}
		return ast.WalkSkipChildren, nil
	})
	reg.Register(ast.KindRawHTML, func(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
		if entering {
			w.WriteString(html.EscapeString(string(n.(*ast.RawHTML).Segments.Value(source))))
		}
		return ast.WalkSkipChildren, nil
	})
	reg.Register(ast.KindHTMLBlock, func(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
		if b := n.(*ast.HTMLBlock); entering {
			text := string(b.Lines().Value(source))
			if b.HasClosure() {
				text += string(b.ClosureLine.Value(source))
			}
			w.WriteString("<p>" + html.EscapeString(text) + "</p>\n")
		}
		return ast.WalkSkipChildren, nil
	})
	reg.Register(ast.KindImage, r.image)
	reg.Register(ast.KindLink, r.link)
	reg.Register(ast.KindAutoLink, r.autoLink)
}

// image embeds a picture; of one that cannot be its description remains.
func (r nodes) image(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		x := n.(*ast.Image)
		alt := plainText(x, source)
		if p := r.chapter.picture(r.cell, string(x.Destination)); p.why != "" {
			w.WriteString(html.EscapeString(p.missing(alt)))
		} else {
			w.WriteString(`<img src="` + p.uri() + `" alt="` + html.EscapeString(alt) + `">`)
		}
	}
	return ast.WalkSkipChildren, nil
}

// link leaves the text of one that leads nowhere.
func (r nodes) link(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if href, ok := r.chapter.target(string(n.(*ast.Link).Destination)); !ok {
		return ast.WalkContinue, nil
	} else if entering {
		w.WriteString(`<a href="` + html.EscapeString(href) + `">`)
	} else {
		w.WriteString("</a>")
	}
	return ast.WalkContinue, nil
}

// autoLink is an address that stands for itself.
func (r nodes) autoLink(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkSkipChildren, nil
	}
	x := n.(*ast.AutoLink)
	label, to := string(x.Label(source)), string(x.URL(source))
	if x.AutoLinkType == ast.AutoLinkEmail && !strings.HasPrefix(strings.ToLower(to), "mailto:") {
		to = "mailto:" + to
	}
	if href, ok := r.chapter.target(to); ok && !inLink(n) {
		w.WriteString(`<a href="` + html.EscapeString(href) + `">` + html.EscapeString(label) + "</a>")
	} else {
		w.WriteString(html.EscapeString(label))
	}
	return ast.WalkSkipChildren, nil
}

func inLink(n ast.Node) bool {
	for p := n.Parent(); p != nil; p = p.Parent() {
		if p.Kind() == ast.KindLink {
			return true
		}
	}
	return false
}
