package cell

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	goscanner "go/scanner"
	"go/token"
	"sort"
	"strconv"
	"strings"
	"unicode/utf8"

	"ohmwright/units"
)

// Parsed is a cell whose text has been read: its statements, what they define
// and which names they might use. It is the same whatever the other cells say.
type Parsed struct {
	ID  string
	Src string

	// Defines lists the top-level names in the order of their definition.
	Defines []string
	// Uses lists names that the cell might take from elsewhere, sorted. It may hold a
	// few too many (Weak ones surely are only candidates), never too few.
	Uses []string
	Weak map[string]bool
	// Files lists the files that the cell reads tables from, sorted.
	Files []string
	// Embeds: the cell embeds a type in a struct.
	Embeds bool
	// Imports lists the notes that the cell imports.
	Imports []Import
	// Blocks lists the notes that it computes anew with other inputs; without a
	// naming those that may be.
	Blocks []Block
	// Replaced are the inputs that the cell defines and a block gives: why one
	// cannot be given, "" where it can.
	Replaced map[string]string

	fset      *token.FileSet
	files     []token.Pos // where the cell's files start in it
	declFile  *ast.File
	stmtFile  *ast.File
	stmts     []*statement
	imports   map[string]string // alias to path
	literals  map[string]literal
	spans     []span // of literals, by start
	made      map[ast.Node]bool
	kinds     map[string]token.Token // VAR, CONST, FUNC, TYPE of each defined name
	aliases   map[string]string      // made names of a second := of a name
	needUnits bool
	needMust  bool
	marked    bool                   // Markdown is the built-in one
	texts     map[ast.Stmt]*written  // of calls of Markdown, by their statement
	markers   map[ast.Stmt]bool      // statements that use the names in them
	discard   map[*ast.ExprStmt]bool // expression statements whose value Go would not let go unused
	source    map[string]string      // override text of names that were set from outside
	naming    *Naming                // nil: names are called as they are written
	// The following are filled in under a naming only.
	widths   map[*ast.Ident]int   // of those that have another name than is written
	through  map[string]bool      // the imports that names are used of
	ofBlocks map[*ast.Object]bool // the parser's objects of what computes blocks
	embedded map[string]bool      // the types of an imported note that structs embed
}

type span struct{ start, end int }

// statement is one top-level statement.
type statement struct {
	node    ast.Stmt
	spec    *ast.ValueSpec // for a definition: the package-level variable it makes
	defines []*ast.Ident
	again   []*ast.AssignStmt // names of a := that were defined before: assigned from a made name
	value   ast.Expr          // of an expression statement
	quiet   bool
	about   Note
	line    int
}

// Override replaces the right side of a definition: the what-if of --set.
type Override struct {
	Text string // an expression, "9V"
}

// Parse reads the text of a cell. The file set must be one for all cells of a
// note; Release takes the cell's files out of it.
func Parse(fset *token.FileSet, id, src string, overrides map[string]*Override) (*Parsed, []*Error) {
	return ParseIn(fset, id, src, overrides, nil)
}

// ParseIn reads the text of a cell whose names are called as naming says.
func ParseIn(fset *token.FileSet, id, src string, overrides map[string]*Override, naming *Naming) (*Parsed, []*Error) {
	p := &Parsed{ID: id, Src: src, fset: fset, naming: naming, imports: map[string]string{}, literals: map[string]literal{},
		made: map[ast.Node]bool{}, aliases: map[string]string{}, texts: map[ast.Stmt]*written{}, markers: map[ast.Stmt]bool{}, discard: map[*ast.ExprStmt]bool{}, kinds: map[string]token.Token{}, source: map[string]string{}}
	if naming != nil {
		p.widths, p.through, p.ofBlocks, p.embedded = map[*ast.Ident]int{}, map[string]bool{}, map[*ast.Object]bool{}, map[string]bool{}
	}
	if !utf8.ValidString(src) {
		return p, []*Error{{Code: CodeSyntax, Line: 1, Column: 1, Msg: "the cell is not valid UTF-8 text"}}
	}
	sc, problems := scan(src)
	segs, more := split(sc.text)
	problems = append(problems, more...)
	if len(problems) > 0 {
		return p, p.locate(problems)
	}
	for _, l := range sc.literals {
		p.spans = append(p.spans, span{l.start, l.end})
	}
	sort.Slice(p.spans, func(i, j int) bool { return p.spans[i].start < p.spans[j].start })

	if errs := p.readImports(sc.text, segs); len(errs) > 0 {
		return p, errs
	}
	decls, stmts := texts(sc.text, segs)
	var errs []*Error
	p.declFile = p.parse(decls, &errs)
	p.stmtFile = p.parse(stmts, &errs)
	if len(errs) > 0 || p.declFile == nil || p.stmtFile == nil {
		return p, p.tidy(errs)
	}
	around := p.commentsOf(p.stmtFile) // while all statements are there: what stands behind one is nothing of the next
	p.blocks()
	p.readMarkdown()
	if errs := p.callNames(); len(errs) > 0 {
		return p, errs
	}
	p.replace()
	for at := range sc.tolerances {
		if rest := strings.TrimLeft(sc.text[at+len("&^"):], " "); strings.HasPrefix(rest, "=") && !strings.HasPrefix(rest, "==") {
			e := p.at(at)
			e.Code, e.Msg, e.Hint = CodeSyntax, "± and = do not join", "write x = x ± 1%"
			return p, []*Error{e}
		}
	}
	for _, f := range []*ast.File{p.declFile, p.stmtFile} {
		if errs := p.additions(f, sc, len(declPrefix)); len(errs) > 0 {
			return p, errs
		}
	}
	if errs := p.collect(segs, overrides, around); len(errs) > 0 {
		return p, errs
	}
	p.aliasesOfEmbedded()
	if errs := p.rulesOfText(); len(errs) > 0 {
		return p, p.tidy(errs)
	}
	p.findUses()
	p.findFiles()
	p.Embeds = p.embeds()
	return p, nil
}

// Release takes the cell's files out of the file set, so that a note that is
// edited for days does not grow.
func (p *Parsed) Release() {
	for _, at := range p.files {
		if f := p.fset.File(at); f != nil {
			p.fset.RemoveFile(f)
		}
	}
}

func (p *Parsed) parse(text string, errs *[]*Error) *ast.File {
	f, err := p.parseFile(p.ID, text, parser.ParseComments|parser.AllErrors)
	if list, ok := err.(goscanner.ErrorList); ok {
		line := 0
		for _, e := range list {
			own := p.syntaxError(e.Pos.Offset-len(declPrefix), e.Msg)
			if e.Pos.Line == line || line > 0 && own.Msg == unfinished {
				continue // comes of what the parser misread after the first
			}
			line = e.Pos.Line
			*errs = append(*errs, own)
		}
	} else if err != nil {
		*errs = append(*errs, &Error{Code: CodeSyntax, Msg: err.Error()})
	}
	return f
}

// parseFile parses a text and remembers its file, which the file set has also
// where the parser gives up.
func (p *Parsed) parseFile(name, text string, mode parser.Mode) (*ast.File, error) {
	p.files = append(p.files, token.Pos(p.fset.Base()))
	return parser.ParseFile(p.fset, name, text, mode)
}

// syntaxError words a parser's message: made identifiers become the literals
// that the user typed.
func (p *Parsed) syntaxError(at int, msg string) *Error {
	e := p.at(at)
	e.Code = CodeSyntax
	switch {
	case strings.Contains(msg, "found 'EOF'") || at >= len(p.Src) && strings.Contains(msg, "found '}'"):
		msg, e.Hint = unfinished, "a bracket or a brace is not closed"
	case p.spacedUnit(at) != "":
		before := strings.TrimRight(p.Src[:at], " \t")
		msg, e.Hint = "a number and its unit are written without a space", "write "+before[lastNumber(before):]+p.spacedUnit(at)
	case strings.Contains(msg, reserved):
		if s, ok := p.literalAt(at); ok {
			msg = replaceMade(msg, p.Src[s.start:s.end])
		}
	}
	e.Msg = msg
	return e
}

// spacedUnit is the unit at an offset if a number and a space stand before it.
func (p *Parsed) spacedUnit(at int) string {
	if at <= 0 || at >= len(p.Src) {
		return ""
	}
	before := strings.TrimRight(p.Src[:at], " \t")
	if before == p.Src[:at] || lastNumber(before) == len(before) {
		return ""
	}
	rest := p.Src[at:]
	n := word(rest)
	if strings.HasPrefix(rest, "°") || strings.HasPrefix(rest, "%") {
		n = strings.IndexFunc(rest+" ", func(r rune) bool { return r == ' ' || r == '\n' || r == ')' || r == ',' })
	}
	if n == 0 {
		return ""
	}
	if _, k, err := units.ScanLiteral("1" + rest[:n]); err != nil || k != n+1 {
		return ""
	}
	return rest[:n]
}

// lastNumber is where the number at the end of s starts, len(s) if none does.
func lastNumber(s string) int {
	i := len(s)
	for i > 0 && (isDigit(s[i-1]) || s[i-1] == '.' || s[i-1] == '_') {
		i--
	}
	if i < len(s) && i > 0 && endsWord(s[:i]) {
		return len(s)
	}
	return i
}

const unfinished = "the cell ends in the middle of something"

func replaceMade(msg, with string) string {
	i := strings.Index(msg, reserved)
	if i < 0 {
		return msg
	}
	n := word(msg[i:])
	return msg[:i] + with + msg[i+n:]
}

func (p *Parsed) literalAt(at int) (span, bool) {
	i := sort.Search(len(p.spans), func(i int) bool { return p.spans[i].end > at })
	if i < len(p.spans) && p.spans[i].start <= at {
		return p.spans[i], true
	}
	return span{}, false
}

// at makes an error at a byte offset of the source.
func (p *Parsed) at(offset int) *Error {
	offset = min(max(offset, 0), len(p.Src))
	line := 1 + strings.Count(p.Src[:offset], "\n")
	start := strings.LastIndexByte(p.Src[:offset], '\n') + 1
	return &Error{Line: line, Column: 1 + utf8.RuneCountInString(p.Src[start:offset])}
}

// offset is the byte offset in the source of a position in the cell's files; ok is false elsewhere.
func (p *Parsed) offset(pos token.Pos) (int, bool) {
	f := p.fset.File(pos)
	if f == nil || f.Name() != p.ID {
		return 0, false
	}
	return f.Offset(pos) - len(declPrefix), true
}

// errorAt makes an error at a position of the cell's files.
func (p *Parsed) errorAt(pos token.Pos, code Code, msg, hint string) *Error {
	e := &Error{}
	if at, ok := p.offset(pos); ok {
		e = p.at(at)
	}
	e.Code, e.Msg, e.Hint = code, msg, hint
	if f := p.fset.File(pos); f != nil && strings.HasPrefix(f.Name(), setFile) {
		e.Line, e.Column, e.Msg = 1, 1, f.Name()+": "+msg // it stands in the override, not in the cell
	}
	return e
}

// setFile starts the name of the file of an override.
const setFile = "--set "

func (p *Parsed) locate(problems []problem) []*Error {
	var errs []*Error
	for _, q := range problems {
		e := p.at(q.at)
		e.Code, e.Msg, e.Hint = q.code, q.msg, q.hint
		errs = append(errs, e)
	}
	return p.tidy(errs)
}

// tidy sorts errors by place, drops repetitions and keeps the first ten.
func (p *Parsed) tidy(errs []*Error) []*Error {
	sort.SliceStable(errs, func(i, j int) bool {
		a, b := errs[i], errs[j]
		return a.Line < b.Line || a.Line == b.Line && a.Column < b.Column
	})
	var out []*Error
	for _, e := range errs {
		if n := len(out); n > 0 && out[n-1].Line == e.Line && (out[n-1].Msg == e.Msg || out[n-1].Column == e.Column) {
			continue
		}
		out = append(out, e)
		if len(out) == 10 {
			break
		}
	}
	return out
}

// readImports takes the import lines out of the text. A package is in scope
// anyway; importing it serves to give it another name. A note is not.
func (p *Parsed) readImports(text string, segs []segment) []*Error {
	for _, g := range segs {
		if !g.importing {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), "", "package note;"+text[g.start:g.end], parser.ImportsOnly)
		if err != nil {
			e := p.at(g.start)
			e.Code, e.Msg, e.Hint = CodeSyntax, "this import cannot be read", `write import "strings"`
			return []*Error{e}
		}
		for _, spec := range f.Imports {
			path, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				continue
			}
			e := p.at(g.start)
			e.Code = CodeRefused
			if strings.HasSuffix(path, noteSuffix) {
				if e := p.importNote(spec, path, g.start); e != nil {
					return []*Error{e}
				}
				continue
			}
			name := path[strings.LastIndexByte(path, '/')+1:]
			if spec.Name != nil {
				name = spec.Name.Name
			}
			if name == "." || name == "_" {
				e.Msg, e.Hint = "import "+name+" is not available in cells", "packages are in scope under their own names"
				return []*Error{e}
			}
			p.imports[name] = path
		}
	}
	return nil
}

// additions puts the literals and tolerances of the scan into the tree.
func (p *Parsed) additions(f *ast.File, sc *scanned, prefix int) []*Error {
	var errs []*Error
	base := p.fset.File(f.Pos()).Base()
	at := func(pos token.Pos) int { return int(pos) - base - prefix }
	ast.Inspect(f, func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok && isMade(id.Name) {
			if l, ok := sc.literals[at(id.Pos())]; ok {
				id.Name = fmt.Sprintf("%s%d", reserved, l.start)
				p.literals[id.Name] = l
			}
		}
		return true
	})
	edit(f, func(e ast.Expr) ast.Expr {
		switch x := e.(type) {
		case *ast.UnaryExpr:
			// A sign before a point or a level belongs to the number: −40 °C is
			// not the negative of a temperature.
			if id, ok := x.X.(*ast.Ident); ok && (x.Op == token.SUB || x.Op == token.ADD) {
				if l, ok := p.literals[id.Name]; ok && l.value.Dim().Kind() != units.PlainScale {
					if x.Op == token.SUB {
						signed, _, err := units.ScanLiteral("-" + p.Src[l.start:l.end])
						if err != nil {
							problem := p.errorAt(x.Pos(), CodeLiteral, err.Error(), "")
							var bad *units.LiteralError
							if errors.As(err, &bad) {
								problem.Msg, problem.Hint = bad.Msg, bad.Hint
							}
							errs = append(errs, problem)
							return e
						}
						l.value = signed
					}
					l.start = at(x.Pos())
					name := fmt.Sprintf("%ss%d", reserved, l.start)
					p.literals[name] = l
					return &ast.Ident{NamePos: x.Pos(), Name: name}
				}
			}
		case *ast.BinaryExpr:
			if x.Op != token.AND_NOT || !sc.tolerances[at(x.OpPos)] {
				return e
			}
			if c, ok := x.X.(*ast.CallExpr); ok && p.made[c] { // x ± 1% ± 0.5% is one part
				c.Args, c.Rparen = append(c.Args, x.Y), x.Y.End()
				return c
			}
			call := &ast.CallExpr{Fun: p.fromUnits("Tolerance", x.OpPos), Lparen: x.OpPos, Args: []ast.Expr{x.X, x.Y}, Rparen: x.Y.End()}
			p.made[call] = true
			if _, ok := x.X.(*ast.BinaryExpr); ok {
				errs = append(errs, p.errorAt(x.OpPos, CodeSyntax, "± binds to the single value at its left, and a longer expression stands there",
					"put brackets where they belong: (a · b) ± 1 % or a · (b ± 1 %)"))
			}
			return call
		}
		return e
	})
	// a + b ± 1 %: Go's precedence binds ± to b alone, which readers miss.
	edit(f, func(e ast.Expr) ast.Expr {
		if b, ok := e.(*ast.BinaryExpr); ok && (b.Op == token.ADD || b.Op == token.SUB) {
			if c, ok := b.Y.(*ast.CallExpr); ok && p.made[c] {
				errs = append(errs, p.errorAt(c.Lparen, CodeSyntax, "± binds to the single value at its left, and a longer expression stands there",
					"put brackets where they belong: (a + b) ± 1 % or a + (b ± 1 %)"))
			}
		}
		return e
	})
	return errs
}

// unitsName is the made name under which a cell's own additions reach package units,
// whatever names the user has taken.
const unitsName = reserved + "u"

func (p *Parsed) fromUnits(name string, pos token.Pos) ast.Expr {
	p.needUnits = true
	return &ast.SelectorExpr{X: &ast.Ident{NamePos: pos, Name: unitsName}, Sel: &ast.Ident{NamePos: pos, Name: name}}
}
