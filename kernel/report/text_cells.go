package report

import (
	"bytes"
	"encoding/base64"
	"html"
	"maps"
	"net/url"
	"slices"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	markup "github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"

	"ohmwright/kernel/prose"
	"ohmwright/kernel/render"
	"ohmwright/kernel/texmath"
)

// firstHeading is the text of the first heading of a note, "" if it has none.
func firstHeading(n *Note) string {
	values := render.ValuesOf(n.Results)
	for _, c := range n.Cells {
		source, _ := prose.Replace(c.Markdown, values.Text)
		tree := markdown().Parser().Parse(markup.NewReader([]byte(source)))
		for x := tree.FirstChild(); x != nil; x = x.NextSibling() {
			if h, ok := x.(*ast.Heading); ok {
				return plainText(h, []byte(source))
			}
		}
	}
	return ""
}

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

func markdown() goldmark.Markdown {
	return goldmark.New(goldmark.WithExtensions(prose.Extension))
}

// setter writes the text cells of one note, and the texts that its other cells
// show, as HTML.
type setter struct {
	base   int  // level of its highest heading
	last   int  // level of the heading before
	titled bool // its title was left out, as the document has it already
	values render.Values
}

// HTML sets a text cell. HTML in it is shown as text: a stranger's note runs
// nothing in a document. Pictures are those that the note brings with it.
func (s *setter) HTML(c Cell) (string, error) {
	source, _ := prose.Replace(c.Markdown, s.values.Text)
	return s.text(source, c.Attachments, &s.titled)
}

// text sets Markdown whose values stand in it. The first heading of the note
// is left out, unless it was before.
func (s *setter) text(source string, attachments map[string]map[string]string, titled *bool) (string, error) {
	src := []byte(source)
	md := markdown()
	md.Renderer().AddOptions(renderer.WithNodeRenderers(util.Prioritized(nodes{attachments}, 1)))
	tree := md.Parser().Parse(markup.NewReader(src))
	for n := tree.FirstChild(); n != nil; {
		next := n.NextSibling()
		if h, ok := n.(*ast.Heading); ok {
			if !*titled {
				*titled = true
				tree.RemoveChild(tree, h)
			} else {
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
	attachments map[string]map[string]string
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
}

// image embeds an attachment; of any other picture its description remains.
func (r nodes) image(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkSkipChildren, nil
	}
	x := n.(*ast.Image)
	alt := plainText(x, source)
	if uri := dataOf(r.attachments, string(x.Destination)); uri != "" {
		w.WriteString(`<img src="` + uri + `" alt="` + html.EscapeString(alt) + `">`)
		return ast.WalkSkipChildren, nil
	}
	w.WriteString("(picture, not in this document: " + html.EscapeString(strings.TrimSpace(alt+" "+string(x.Destination))) + ")")
	return ast.WalkSkipChildren, nil
}

// dataOf is the data of an attachment as an address, "" if there is none.
func dataOf(attachments map[string]map[string]string, destination string) string {
	name, ok := strings.CutPrefix(destination, "attachment:")
	if !ok {
		return ""
	}
	types := attachments[name]
	if types == nil {
		if plain, err := url.PathUnescape(name); err == nil {
			types = attachments[plain]
		}
	}
	for _, kind := range slices.Sorted(maps.Keys(types)) {
		data, err := base64.StdEncoding.DecodeString(strings.Join(strings.Fields(types[kind]), ""))
		if kind == "image/svg+xml" && err != nil { // is kept as text
			data, err = []byte(types[kind]), nil
		}
		if err == nil && slices.Contains([]string{"image/png", "image/jpeg", "image/gif", "image/webp", "image/svg+xml"}, kind) {
			return "data:" + kind + ";base64," + base64.StdEncoding.EncodeToString(data)
		}
	}
	return ""
}
