package report

import (
	"cmp"
	"fmt"
	"net/url"
	"path"
	"slices"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	markup "github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"

	"ohmwright/kernel/prose"
	"ohmwright/kernel/render"
)

// markdown reads the text of a note.
func markdown() goldmark.Markdown { return reader(prose.Extension) }

// plain reads text as a reader does that knows of no mathematics.
func plain() goldmark.Markdown { return reader(extension.Table, extension.Strikethrough) }

// reader is goldmark, with links and images that remember where in the source
// they stand, see spanOf.
func reader(extensions ...goldmark.Extender) goldmark.Markdown {
	inline := parser.DefaultInlineParsers()
	for i, p := range inline {
		if p.Value == parser.NewLinkParser() {
			inline[i].Value = spanning{p.Value.(linkParser)}
		}
	}
	return goldmark.New(goldmark.WithParser(parser.NewParser(
		parser.WithBlockParsers(parser.DefaultBlockParsers()...),
		parser.WithInlineParsers(inline...),
		parser.WithParagraphTransformers(parser.DefaultParagraphTransformers()...),
	)), goldmark.WithExtensions(extensions...))
}

// span is where a link or image stands: from its first bracket (or !) over the
// bracket behind its text to its end.
type span struct{ from, behind, to int }

// spanning is goldmark's reader of links, which forgets where they end.
type spanning struct{ linkParser }

type linkParser interface {
	parser.InlineParser
	parser.CloseBlocker // else what a block leaves open would go on in the next
}

func (s spanning) Parse(parent ast.Node, block markup.Reader, pc parser.Context) ast.Node {
	_, at := block.Position()
	n := s.linkParser.Parse(parent, block, pc)
	switch n.(type) {
	case *ast.Link, *ast.Image:
		_, end := block.Position()
		n.SetAttributeString("span", span{n.Pos(), at.Start + 1, end.Start})
	}
	return n
}

func spanOf(n ast.Node) (span, bool) {
	v, _ := n.AttributeString("span")
	s, ok := v.(span)
	return s, ok
}

var lineEnds = strings.NewReplacer("\r\n", "\n", "\r", "\n")

// tree reads a text cell, its markers replaced by values.
func (c *Chapter) tree(cell Cell) (source string, tree ast.Node) {
	values := c.values
	if cell.shown != nil {
		values = render.ValuesIn(cell.shown)
	}
	source, _ = prose.Replace(render.Visible(lineEnds.Replace(cell.Markdown)), values.Text)
	return source, markdown().Parser().Parse(markup.NewReader([]byte(source)))
}

// read gathers what the text of a note has that other places point to: its
// title, its headings, and the pictures beside it.
func (c *Chapter) read() {
	for _, cell := range c.Cells {
		if cell.Result != nil {
			continue
		}
		source, tree := c.tree(cell)
		ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) { // no error comes from below
			switch x := n.(type) {
			case *ast.Heading:
				if !entering || x.Parent() != tree {
					break
				}
				text, id := plainText(x, []byte(source)), c.ID
				if len(c.headings) == 0 {
					c.Title, c.headed = cmp.Or(text, c.Title), text != ""
				} else {
					id = fmt.Sprintf("%s-heading-%d", c.ID, len(c.headings))
				}
				c.headings = append(c.headings, heading{strings.ReplaceAll(text, " ", "-"), id})
			case *ast.Link:
				if entering {
					c.links = append(c.links, string(x.Destination))
				}
			case *ast.Image:
				if !entering {
					break
				}
				if p := c.picture(cell, string(x.Destination)); p.file != "" && p.why == "" &&
					!slices.ContainsFunc(c.pictures, func(f File) bool { return f.Name == p.file }) {
					c.pictures = append(c.pictures, File{p.file, hashOf(p.data)})
				}
			}
			return ast.WalkContinue, nil
		})
	}
}

// heading is one of the text of a note; the first is its title.
type heading struct {
	name string // by which links in notebooks call it
	id   string // in the document
}

// target is where a link of a note leads in a document: to a heading or note
// in it, to the web. ok is false for what leads nowhere there, such as what
// would run, or a heading that the note does not have.
func (c *Chapter) target(destination string) (href string, ok bool) {
	address := plainAddress(destination)
	u, err := url.Parse(address)
	if err != nil {
		return "", false
	}
	switch strings.ToLower(u.Scheme) {
	case "http", "https", "mailto":
		return string(util.URLEscape([]byte(address), false)), true
	case "":
	default:
		return "", false
	}
	if u.Host != "" {
		return string(util.URLEscape([]byte(address), false)), true
	}
	to := c
	if u.Path != "" {
		i := slices.IndexFunc(c.document.Notes, func(o *Chapter) bool { return o.Path == path.Join(path.Dir(c.Path), u.Path) })
		if i < 0 {
			return string(util.URLEscape([]byte(address), false)), true // a file beside the document
		}
		to = c.document.Notes[i]
	}
	if u.Fragment == "" {
		return "#" + to.ID, true
	}
	i := slices.IndexFunc(to.headings, func(h heading) bool { return h.name == u.Fragment })
	if i < 0 {
		return "", false
	}
	return "#" + to.headings[i].id, true
}
