package cell

import (
	"go/ast"
	"go/token"
	"go/types"
	"strconv"
	"strings"

	"ohmwright/kernel/prose"
)

// Markdown("The rail is {Vout}.") shows a text with values of the note in it.
// The note reads the text before it computes anything: each marker becomes an
// expression that stands where the marker does, so the checker finds what it
// is, the cell uses its name, and an error has its place.

// MarkdownText is a text that a cell shows.
type MarkdownText struct {
	Text  string
	Names []string // that its markers stand for, as the note calls them, with fields: "i.Peak"
}

// written is a text that stands in a cell, and where in the source each byte
// of it stands.
type written struct {
	text string
	at   []int
	uses []use
}

// use is a marker of the text as a statement that uses its name, _ = i.Peak.
type use struct {
	prose.Marker
	stmt *ast.AssignStmt
}

func (u use) expr() ast.Expr { return u.stmt.Rhs[0] }

const markdownExample = "Markdown(`The rail is {Vout}, in all cases {Vout limits}.`)"

// markdown reads the text of a call of Markdown, nil for other calls and for
// a text that does not stand there.
func (p *Parsed) markdown(e ast.Expr) *written {
	call, ok := ast.Unparen(e).(*ast.CallExpr)
	if !ok || len(call.Args) != 1 {
		return nil
	}
	if id, ok := ast.Unparen(call.Fun).(*ast.Ident); !ok || id.Name != "Markdown" {
		return nil
	}
	w := &written{}
	if !p.read(w, call.Args[0]) {
		return nil
	}
	w.outdent()
	for _, m := range prose.Markers(w.text) {
		if m.Known() {
			e := p.markerExpr(w, m, call.Pos())
			w.uses = append(w.uses, use{m, &ast.AssignStmt{Lhs: []ast.Expr{&ast.Ident{NamePos: e.Pos(), Name: "_"}}, TokPos: e.Pos(), Tok: token.ASSIGN, Rhs: []ast.Expr{e}}})
		}
	}
	return w
}

// read adds what a string, or a sum of strings, says.
func (p *Parsed) read(w *written, e ast.Expr) bool {
	switch x := ast.Unparen(e).(type) {
	case *ast.BinaryExpr:
		return x.Op == token.ADD && p.read(w, x.X) && p.read(w, x.Y)
	case *ast.BasicLit:
		if at, ok := p.offset(x.Pos()); ok && x.Kind == token.STRING {
			w.quoted(p.Src, at)
			return true
		}
	}
	return false
}

// quoted adds the string whose quote stands at an offset of the source.
func (w *written) quoted(src string, at int) {
	quote := src[at]
	if quote == '`' {
		for at++; src[at] != quote; at++ {
			if src[at] != '\r' { // as Go reads it
				w.add(src[at:at+1], at)
			}
		}
		return
	}
	for at++; src[at] != quote; {
		r, several, rest, err := strconv.UnquoteChar(src[at:], quote)
		if err != nil {
			return // the parser has refused it
		}
		text := string(r)
		if !several {
			text = string([]byte{byte(r)})
		}
		w.add(text, at)
		at = len(src) - len(rest)
	}
}

func (w *written) add(text string, at int) {
	w.text += text
	for range len(text) {
		w.at = append(w.at, at)
	}
}

// outdent takes away the white space that all lines begin with, but for the
// first, which stands behind the quote: in a cell it is layout, in Markdown it
// would make a block of code. Empty lines at both ends go, too.
func (w *written) outdent() {
	common, first := "", true
	for i, line := range strings.Split(w.text, "\n") {
		indent := line[:len(line)-len(strings.TrimLeft(line, " \t"))]
		switch {
		case i == 0 || indent == line:
		case first:
			common, first = indent, false
		default:
			for !strings.HasPrefix(indent, common) {
				common = common[:len(common)-1]
			}
		}
	}
	text, at := "", []int(nil)
	from := 0
	for i, line := range strings.SplitAfter(w.text, "\n") {
		cut := 0
		if i > 0 && strings.HasPrefix(line, common) {
			cut = len(common)
		}
		text += line[cut:]
		at = append(at, w.at[from+cut:from+len(line)]...)
		from += len(line)
	}
	empty := 0
	for i, line := range strings.SplitAfter(text, "\n") {
		if strings.TrimSpace(line) != "" || i == strings.Count(text, "\n") {
			break
		}
		empty += len(line)
	}
	end := max(empty, len(strings.TrimRight(text, " \t\n")))
	w.text, w.at = text[empty:end], at[empty:end]
}

// markerExpr is a marker as an expression. from is where its file has a place
// in the set.
func (p *Parsed) markerExpr(w *written, m prose.Marker, from token.Pos) ast.Expr {
	base, _ := p.offset(from)
	var e ast.Expr
	at := m.From + len("{")
	for _, step := range m.Steps() {
		pos := from + token.Pos(w.at[at]-base)
		place, isPlace := strings.CutPrefix(strings.TrimSuffix(step, "]"), "[")
		switch {
		case isPlace:
			e = &ast.IndexExpr{X: e, Lbrack: pos, Index: &ast.BasicLit{ValuePos: pos, Kind: token.INT, Value: place}, Rbrack: pos}
		case e == nil:
			e = &ast.Ident{NamePos: pos, Name: step}
		default:
			e = &ast.SelectorExpr{X: e, Sel: &ast.Ident{NamePos: pos, Name: step}}
		}
		if at += len(step); at < len(w.text) && w.text[at] == '.' {
			at++
		}
	}
	return e
}

// outside is a marker's expression up to the first place of a list in it.
func outside(e ast.Expr) ast.Expr {
	for x := e; ; {
		switch in := x.(type) {
		case *ast.IndexExpr:
			e, x = in.X, in.X
		case *ast.SelectorExpr:
			x = in.X
		default:
			return e
		}
	}
}

// readMarkdown reads the texts of the cell. Their markers become statements at
// its end: what a text shows of a name is what it is in the end.
func (p *Parsed) readMarkdown() {
	run := p.runFunc()
	if run == nil || run.Body == nil {
		return
	}
	for _, s := range run.Body.List {
		x, ok := s.(*ast.ExprStmt)
		if !ok {
			continue
		}
		w := p.markdown(x.X)
		if w == nil {
			continue
		}
		p.texts[s] = w
		for _, u := range w.uses {
			p.markers[u.stmt] = true
			run.Body.List = append(run.Body.List, u.stmt)
			p.stmtFile.Unresolved = append(p.stmtFile.Unresolved, fieldChain(outside(u.expr())))
		}
	}
}

// markdownRules refuses texts that the note cannot read, and markers that
// stand for no value.
func (c *Checked) markdownRules() []*Error {
	good := map[*ast.Ident]bool{}
	var errs []*Error
	for _, s := range c.stmts {
		w := c.texts[s.node]
		if w == nil || !c.isBuiltin(calledBy(s.value), "Markdown") {
			continue
		}
		call := ast.Unparen(s.value).(*ast.CallExpr)
		good[ast.Unparen(call.Fun).(*ast.Ident)] = true
		errs = append(errs, c.markdownText(w, call)...)
	}
	for _, f := range []*ast.File{c.declFile, c.stmtFile} {
		ast.Inspect(f, func(n ast.Node) bool {
			id, ok := n.(*ast.Ident)
			if !ok || good[id] || !c.isBuiltin(id, "Markdown") {
				return true
			}
			msg := "Markdown shows a text where it stands"
			hint := "let it stand by itself at the top level of a cell: " + markdownExample
			for _, s := range c.stmts {
				if s.value != nil && calledBy(s.value) == ast.Expr(id) {
					msg = "Markdown needs its text written out, so that the note knows the names in it before it computes"
					hint = "write it between quotes, with each value as a marker: " + markdownExample
				}
			}
			errs = append(errs, c.errorAt(id.Pos(), CodeRefused, msg, hint))
			return true
		})
	}
	return errs
}

// markdownText holds one text against the rules.
func (c *Checked) markdownText(w *written, call *ast.CallExpr) (errs []*Error) {
	if w.text == "" {
		return []*Error{c.errorAt(call.Args[0].Pos(), CodeRefused, "Markdown has no text", "write "+markdownExample)}
	}
	if address := prose.Stranger(w.text); address != "" {
		errs = append(errs, c.errorAt(call.Args[0].Pos(), CodeRefused, "a text cannot lead to "+address, "write an address that starts with https:, or the text without the link"))
	}
	for _, m := range prose.Markers(w.text) {
		if name := m.Steps()[0]; !m.Known() && (c.kinds[name] != 0 || c.scope.Object(name) != nil) {
			e := c.at(w.at[m.From])
			e.Code, e.Msg, e.Hint = CodeName, "{"+m.String()+"} is no marker", prose.WordHint(m)
			errs = append(errs, e)
		}
	}
	for _, u := range w.uses {
		if !c.noted(u.expr()) {
			errs = append(errs, c.errorAt(u.expr().Pos(), CodeName, "{"+u.Name+"} is no value that the note defines", "give it a name in a cell, and write that in the text"))
		} else if t := c.info.TypeOf(u.expr()); !c.single(t) {
			errs = append(errs, c.errorAt(u.expr().Pos(), CodeType, "{"+u.Name+"} is "+typeName(t)+", which is no single value", "write a marker for one value in it: a field, {i.Peak}, or a place of a list, {rows[0]}"))
		}
	}
	return errs
}

// noted reports whether an expression is a value of the note, or a field or a
// place of one, with all fields on the way to it named.
func (c *Checked) noted(e ast.Expr) bool {
	switch x := e.(type) {
	case *ast.Ident:
		o := c.info.Uses[x]
		_, isVar := o.(*types.Var)
		_, isConst := o.(*types.Const)
		return (isVar || isConst) && topLevel(o)
	case *ast.SelectorExpr:
		s := c.info.Selections[x]
		_, behind := c.info.TypeOf(x.X).Underlying().(*types.Pointer)
		return c.noted(x.X) && s != nil && s.Kind() == types.FieldVal && len(s.Index()) == 1 && !behind
	case *ast.IndexExpr:
		switch c.info.TypeOf(x.X).Underlying().(type) {
		case *types.Slice, *types.Array:
			return c.noted(x.X)
		}
	}
	return false
}

// single reports whether values of a type are shown as one text.
func (c *Checked) single(t types.Type) bool {
	_, basic := t.Underlying().(*types.Basic)
	return basic || types.Identical(t, c.quantity)
}

// textShown is the text that a statement shows.
func (c *Checked) textShown(s *statement) *MarkdownText {
	w := c.texts[s.node]
	if w == nil || !c.isBuiltin(calledBy(s.value), "Markdown") {
		return nil
	}
	m := &MarkdownText{Text: w.text}
	for _, u := range w.uses {
		m.Names = append(m.Names, c.chain(outside(u.expr())))
	}
	return m
}
