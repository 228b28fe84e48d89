package prose

import (
	"bytes"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// Kinds of the nodes that a note's Markdown has besides the usual ones.
var (
	KindMark = ast.NewNodeKind("NoteMark")
	KindMath = ast.NewNodeKind("NoteMath")
	KindWall = ast.NewNodeKind("NoteMathBlock")
)

// Mark is a marker.
type Mark struct {
	ast.BaseInline
	Marker
}

func (*Mark) Kind() ast.NodeKind { return KindMark }

// Dump is for goldmark's own debugging.
func (m *Mark) Dump(source []byte, level int) { ast.DumpHelper(m, source, level, nil, nil) }

// Math is mathematics within a line of text; Display stands by itself.
type Math struct {
	ast.BaseInline
	TeX     string
	Display bool
}

func (*Math) Kind() ast.NodeKind { return KindMath }

// Dump is for goldmark's own debugging.
func (m *Math) Dump(source []byte, level int) { ast.DumpHelper(m, source, level, nil, nil) }

// MathBlock is mathematics in lines of its own.
type MathBlock struct {
	ast.BaseBlock
	TeX  string
	ends string
}

func (*MathBlock) Kind() ast.NodeKind { return KindWall }

// Dump is for goldmark's own debugging.
func (m *MathBlock) Dump(source []byte, level int) { ast.DumpHelper(m, source, level, nil, nil) }

// IsRaw keeps text within from being read as Markdown.
func (*MathBlock) IsRaw() bool { return true }

// Extension makes goldmark read mathematics, markers, tables and what is
// struck out.
var Extension goldmark.Extender = extender{}

type extender struct{}

func (extender) Extend(m goldmark.Markdown) {
	extension.Table.Extend(m)
	extension.Strikethrough.Extend(m)
	m.Parser().AddOptions(
		parser.WithInlineParsers(util.Prioritized(mathParser{}, 150), util.Prioritized(markParser{}, 160)),
		parser.WithBlockParsers(util.Prioritized(wallParser{}, 750)),
	)
}

type markParser struct{}

func (markParser) Trigger() []byte { return []byte{'{'} }

func (markParser) Parse(_ ast.Node, block text.Reader, _ parser.Context) ast.Node {
	line, segment := block.PeekLine()
	end := bytes.IndexByte(line, '}')
	if end < 0 {
		return nil
	}
	m, ok := marker(string(line[1:end]))
	if !ok {
		return nil
	}
	block.Advance(end + 1)
	m.From, m.To = segment.Start, segment.Start+end+1
	return &Mark{Marker: m}
}

// marker reads what stands between braces.
func marker(s string) (m Marker, ok bool) {
	m.Name, m.Word, _ = strings.Cut(s, " ")
	if strings.HasSuffix(s, " ") || strings.ContainsFunc(m.Word, func(r rune) bool { return !unicode.IsLetter(r) }) {
		return m, false
	}
	return m, markerName.MatchString(m.Name) && utf8.ValidString(m.Name)
}

// markerName is a name, with fields and places of lists behind it.
var markerName = regexp.MustCompile(`^[\pL_][\pL_\p{Nd}]*(?:\.[\pL_][\pL_\p{Nd}]*|\[(?:0|[1-9][0-9]{0,8})\])*$`)

type mathParser struct{}

func (mathParser) Trigger() []byte { return []byte{'$', '\\'} }

func (mathParser) Parse(_ ast.Node, block text.Reader, _ parser.Context) ast.Node {
	line, _ := block.PeekLine()
	before := block.PrecendingCharacter()
	for _, d := range []struct {
		open, close string
		display     bool
	}{{"$$", "$$", true}, {`\[`, `\]`, true}, {`\(`, `\)`, false}, {"$", "$", false}} {
		if !bytes.HasPrefix(line, []byte(d.open)) {
			continue
		}
		tex, ok := upTo(block, d.open, d.close)
		// A lone dollar opens mathematics only where it touches what follows, and
		// ends it only where no figure follows: $5 and $10 are sums of money.
		if d.open == "$" && ok {
			next, _ := block.PeekLine()
			first, last := tex[0], tex[len(tex)-1]
			ok = !space(first) && !space(last) && !(len(next) > 0 && next[0] >= '0' && next[0] <= '9') && !unicode.IsDigit(before)
		}
		if !ok {
			return nil
		}
		return &Math{TeX: tex, Display: d.display}
	}
	return nil
}

func space(c byte) bool { return c == ' ' || c == '\n' || c == '\t' }

// upTo reads mathematics that may go over several lines of a block.
func upTo(block text.Reader, open, close string) (string, bool) {
	block.Advance(len(open))
	var b bytes.Buffer
	for {
		line, _ := block.PeekLine()
		if line == nil {
			return "", false
		}
		for i := 0; i < len(line); i++ {
			if bytes.HasPrefix(line[i:], []byte(close)) {
				b.Write(line[:i])
				block.Advance(i + len(close))
				return b.String(), len(bytes.TrimSpace(b.Bytes())) > 0
			}
			if line[i] == '\\' {
				i++
			}
		}
		b.Write(line)
		block.AdvanceLine()
	}
}

// wallParser reads mathematics that begins a line, before a line of it such as
// "- x" is taken for the item of a list.
type wallParser struct{}

func (wallParser) Trigger() []byte { return []byte{'$', '\\'} }

func (wallParser) Open(_ ast.Node, reader text.Reader, _ parser.Context) (ast.Node, parser.State) {
	line, _ := reader.PeekLine()
	line = bytes.TrimSpace(line)
	for open, close := range map[string]string{"$$": "$$", `\[`: `\]`} {
		rest, ok := bytes.CutPrefix(line, []byte(open))
		if !ok {
			continue
		}
		if bytes.Contains(rest, []byte(close)) {
			return nil, parser.NoChildren // in one line: a paragraph's own matter
		}
		reader.AdvanceToEOL()
		return &MathBlock{TeX: string(rest), ends: close}, parser.NoChildren
	}
	return nil, parser.NoChildren
}

func (wallParser) Continue(n ast.Node, reader text.Reader, _ parser.Context) parser.State {
	m := n.(*MathBlock)
	line, _ := reader.PeekLine()
	if m.ends == "" || line == nil {
		return parser.Close
	}
	if i := bytes.Index(line, []byte(m.ends)); i >= 0 {
		m.TeX += "\n" + string(line[:i])
		m.ends = ""
		reader.AdvanceToEOL()
		return parser.Continue | parser.NoChildren
	}
	m.TeX += "\n" + string(bytes.TrimRight(line, "\r\n"))
	reader.AdvanceToEOL()
	return parser.Continue | parser.NoChildren
}

func (wallParser) Close(ast.Node, text.Reader, parser.Context) {}
func (wallParser) CanInterruptParagraph() bool                 { return true }
func (wallParser) CanAcceptIndentedLine() bool                 { return false }
