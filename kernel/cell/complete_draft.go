package cell

import (
	"go/ast"
	"go/token"
	"go/types"
	"slices"
	"strings"
)

// draft is a cell that is being typed, read as far as it can be: the text up
// to a word is completed to something that parses, and what stands elsewhere
// in the cell and does not is left out.
type draft struct {
	*Checked
	before *outline // of the text before the word
	word   *ast.Ident
	path   []ast.Node // from the file down to the word
	lost   []string   // names that the parts left out seem to define
}

// draftOf reads src with the word that starts at start and is to be read as
// word. It needs a word that no name of the cell is spelt like, or one that
// stands there.
func draftOf(src string, start, resume int, word string, s Scope) *draft {
	sc, _ := scan(src)
	d := &draft{before: outlineOf(sc.text, 0, start)}
	open := start
	if d.before.start >= 0 {
		open = d.before.start
	}
	own := d.typed(src, open, start, word)
	defined := map[string]bool{}
	keep := func(list []segment) (texts []string) {
		for _, g := range list {
			text := src[g.start:g.end]
			p, errs := ParseIn(token.NewFileSet(), "", text, nil, s.Naming)
			twice := false
			for _, name := range p.Defines {
				twice = twice || defined[name]
			}
			if len(errs) > 0 || twice {
				d.lost = append(d.lost, namesIn(text)...)
				continue
			}
			for _, name := range p.Defines {
				defined[name] = true
			}
			texts = append(texts, text)
		}
		return texts
	}
	p, _ := ParseIn(token.NewFileSet(), "", own, nil, s.Naming)
	for _, name := range p.Defines {
		defined[name] = true
	}
	texts := keep(d.before.segments)
	at := 0
	for _, t := range texts {
		at += len(t) + 1
	}
	texts = append(texts, own)
	if from := leftEdge(sc.text, resume); from < len(src) {
		texts = append(texts, keep(outlineOf(sc.text, from, len(src)).finished(len(src)))...)
	}
	parsed, errs := ParseIn(token.NewFileSet(), "", strings.Join(texts, "\n"), nil, s.Naming)
	if len(errs) > 0 {
		at = 0
		if parsed, errs = ParseIn(token.NewFileSet(), "", own, nil, s.Naming); len(errs) > 0 {
			return d
		}
	}
	d.Checked = parsed.checkDraft(s)
	d.find(at+strings.LastIndex(own, word), word)
	return d
}

// typed completes the piece of the cell that the word stands in, so that it
// can be read.
func (d *draft) typed(src string, open, start int, word string) string {
	o := d.before
	all := len(o.levels)
	tries := []string{
		src[open:start] + word + o.closing(all),
		src[open:start] + word + o.closing(0),
	}
	if t := o.top(); t.statement >= 0 && o.start >= 0 {
		// The statement itself cannot be read: the word alone in its place.
		if selected := strings.LastIndexByte(src[:start], '.'); selected >= 0 && strings.TrimSpace(src[selected+1:start]) == "" {
			from := operandStart(src[:selected])
			tries = append(tries, src[open:t.statement]+src[from:start]+word+o.closing(all-1))
		}
		tries = append(tries, src[open:t.statement]+word+o.closing(all-1))
	}
	for _, text := range tries {
		if _, errs := Parse(token.NewFileSet(), "", text, nil); len(errs) == 0 {
			return text
		}
	}
	if selected := strings.LastIndexByte(src[:start], '.'); selected >= 0 && strings.TrimSpace(src[selected+1:start]) == "" {
		return src[operandStart(src[:selected]):start] + word
	}
	return word
}

// operandStart is where the names joined by points at the end of s start.
func operandStart(s string) int {
	i := len(s)
	for i > 0 && (endsWord(s[:i]) || s[i-1] == '.') {
		i--
		for i > 0 && s[i]&0xc0 == 0x80 {
			i--
		}
	}
	return i
}

// finished lists the pieces with the last one, which ends with the text.
func (o *outline) finished(end int) []segment {
	if o.start >= 0 {
		return append(o.segments, segment{start: o.start, end: end})
	}
	return o.segments
}

// leftEdge is where the next piece of the cell starts after an offset: a line
// at the left edge that closes nothing.
func leftEdge(text string, at int) int {
	for {
		n := strings.IndexByte(text[at:], '\n')
		if n < 0 {
			return len(text)
		}
		at += n + 1
		if at < len(text) && !strings.ContainsRune(" \t\n\r)]}", rune(text[at])) {
			return at
		}
	}
}

// namesIn lists what a text that cannot be read seems to define.
func namesIn(text string) []string {
	line, _, _ := strings.Cut(text, "\n")
	if before, _, ok := strings.Cut(line, ":="); ok {
		var names []string
		for _, n := range strings.Split(before, ",") {
			if n = strings.TrimSpace(n); n != "" && n != "_" && token.IsIdentifier(n) {
				names = append(names, n)
			}
		}
		return names
	}
	if f := strings.Fields(line); len(f) > 1 {
		switch f[0] {
		case "func", "var", "type", "const":
			if n := f[1][:word(f[1])]; token.IsIdentifier(n) {
				return []string{n}
			}
		}
	}
	return nil
}

// checkDraft checks as Check does and keeps what is known beside the errors.
func (p *Parsed) checkDraft(s Scope) *Checked {
	strangers := p.strangers(s)
	p.declFile.Decls = slices.DeleteFunc(p.declFile.Decls, func(d ast.Decl) bool {
		f, ok := d.(*ast.FuncDecl)
		return ok && slices.Contains(strangers, f)
	})
	for round := 0; ; round++ {
		c, raw := p.checkOnce(s)
		if raw = c.ownFields(raw); round == 20 || len(raw) == 0 || !c.mend(raw) {
			return c
		}
	}
}

// find looks for the word at its offset in the text that was read.
func (d *draft) find(at int, word string) {
	for _, f := range []*ast.File{d.declFile, d.stmtFile} {
		var path []ast.Node
		ast.Inspect(f, func(n ast.Node) bool {
			if n == nil {
				path = path[:len(path)-1]
				return true
			}
			path = append(path, n)
			if id, ok := n.(*ast.Ident); ok && d.word == nil && (id.Name == word || strings.HasSuffix(id.Name, "."+word)) {
				if here, ok := d.offset(d.end(id)); ok && here == at+len(word) {
					d.word, d.path = id, append([]ast.Node(nil), path...)
				}
			}
			return true
		})
	}
}

// parent is the node n steps above the word, nil above the file.
func (d *draft) parent(n int) ast.Node {
	if i := len(d.path) - 1 - n; i >= 0 {
		return d.path[i]
	}
	return nil
}

// locals lists what the functions and blocks around the word define, the
// innermost first.
func (d *draft) locals() []types.Object {
	if d.word == nil {
		return nil
	}
	var list []types.Object
	seen := map[string]bool{}
	for s := d.pkg.Scope().Innermost(d.word.Pos()); s != nil && s != d.pkg.Scope(); s = s.Parent() {
		for _, name := range s.Names() {
			_, o := s.LookupParent(name, d.word.Pos())
			if _, isPackage := o.(*types.PkgName); o == nil || isPackage || o.Parent() != s || isMade(name) || seen[name] || name == d.word.Name {
				continue
			}
			seen[name] = true
			list = append(list, o)
		}
	}
	return list
}
