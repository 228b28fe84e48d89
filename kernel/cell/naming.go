package cell

import (
	"go/ast"
	"go/token"
	"go/types"
	"iter"
	"maps"
	"path"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// A cell may import another note and use its names behind that of the import,
// supply.Vbus. All the cells that a note is computed from share one space of
// names: those of an imported note stand there behind what the note calls it.
// So the tree of an imported cell gets those names for its own, and supply.Vbus
// is one name, whatever cell it stands in.

// Naming says what the names in a text are called in the note that is computed.
type Naming struct {
	Home    string            // stands before the names of the cell's own note: "supply."; "" where that is the note itself
	Own     map[string]bool   // those names; nil where Home is ""
	Imports map[string]string // what the names of imported notes stand behind, by the name of the import: "supply" to "supply."
	Files   map[string]string // of those notes, likewise
	Given   map[string]bool   // the names that a block gives, for the note that it computes anew
	Blocks  map[string]bool   // which of the imports are blocks
}

// Import is an import of a note by a cell.
type Import struct {
	Name string // "supply"
	File string // "10-supply.ipynb", from the folder of the note
	at   int
}

// NotesIn lists the notes that a text imports, and the blocks that it may
// compute (those of names that are imports of the note), as far as it can be read.
func NotesIn(src string) ([]Import, []Block) {
	if !strings.Contains(src, noteSuffix) && !strings.Contains(src, blockCall) {
		return nil, nil
	}
	p, _ := Parse(token.NewFileSet(), "", src, nil)
	return p.Imports, p.Blocks
}

const noteSuffix = ".ipynb"

// importNote takes an import of a note.
func (p *Parsed) importNote(spec *ast.ImportSpec, file string, at int) *Error {
	at += max(strings.Index(p.Src[at:], strconv.Quote(file)), 0)
	e := p.at(at)
	e.Code = CodeRefused
	name := ""
	if spec.Name != nil {
		name = spec.Name.Name
	} else if name = importName(file); name == "" {
		e.Msg, e.Hint = "the file's name makes no name for its note", "write one before it: import supply "+strconv.Quote(file)
		return e
	}
	switch {
	case name == "." || name == "_":
		e.Msg, e.Hint = "import "+name+" is not available in cells", "give the note a name, import supply "+strconv.Quote(file)+", and write supply.Vbus for a name in it"
	case strings.ContainsAny(file, `\`) || path.IsAbs(file) || file != path.Clean(file):
		e.Msg, e.Hint = strconv.Quote(file)+" is no name of a note below the note's own folder", `write it as in import supply "10-supply.ipynb" or import rail "blocks/rail.ipynb"`
	case p.kinds[p.naming.home()+name] != 0:
		e.Code, e.Msg, e.Hint = CodeTwice, name+" is imported twice in this cell", "give each note a name of its own"
	default:
		p.Imports = append(p.Imports, Import{Name: name, File: file, at: at})
		name = p.naming.home() + name
		p.kinds[name] = token.IMPORT
		p.Defines = append(p.Defines, name)
		return nil
	}
	return e
}

// importName is what a note is called that is imported without a name: its
// file's, without a number in front.
func importName(file string) string {
	name := strings.TrimSuffix(path.Base(file), noteSuffix)
	name = strings.TrimLeftFunc(name, func(r rune) bool { return unicode.IsDigit(r) || strings.ContainsRune("-_. ", r) })
	if !token.IsIdentifier(name) {
		return ""
	}
	return name
}

func (n *Naming) home() string {
	if n == nil {
		return ""
	}
	return n.Home
}

// file is the file of the imported note whose names stand behind a prefix.
func (n *Naming) file(prefix string) (string, bool) {
	file, _, ok := n.behind(prefix)
	return file, ok
}

// behind is the note whose names stand behind a prefix; block says that it is
// computed anew.
func (n *Naming) behind(prefix string) (file string, block, ok bool) {
	if n != nil {
		for name, p := range n.Imports {
			if p == prefix {
				return n.Files[name], n.Blocks[name], true
			}
		}
	}
	return "", false, false
}

// imported gives the files of the imported notes by the names of their imports.
func (n *Naming) imported() map[string]string {
	if n == nil {
		return nil
	}
	return n.Files
}

// Same reports whether two say the same.
func (n *Naming) Same(o *Naming) bool {
	if n == nil || o == nil {
		return n == o
	}
	return n.Home == o.Home && maps.Equal(n.Own, o.Own) && maps.Equal(n.Imports, o.Imports) && maps.Equal(n.Files, o.Files) && maps.Equal(n.Given, o.Given) && maps.Equal(n.Blocks, o.Blocks)
}

// Named lists what the cell defines but for the names of imports.
func (p *Parsed) Named() []string {
	if len(p.Imports)+len(p.Blocks) == 0 {
		return p.Defines
	}
	return slices.DeleteFunc(slices.Clone(p.Defines), func(name string) bool { return p.kinds[name] == token.IMPORT })
}

// callNames gives the names in the cell what the note calls them.
func (p *Parsed) callNames() []*Error {
	if p.naming == nil {
		return nil
	}
	top := p.topLevel()
	return append(p.rename(p.declFile, top), p.rename(p.stmtFile, top)...)
}

// rename gives the names in a file what the note calls them. top are those that
// the text defines at its top level.
func (p *Parsed) rename(f *ast.File, top map[*ast.Object]bool) []*Error {
	n := p.naming
	free := map[*ast.Ident]bool{}
	for _, id := range f.Unresolved {
		free[id] = true
	}
	ofNote := func(id *ast.Ident) bool { return free[id] || id.Obj != nil && p.ofBlocks[id.Obj] }
	errs := p.embeddedOfOthers(f, ofNote)
	edit(f, func(e ast.Expr) ast.Expr {
		sel, ok := e.(*ast.SelectorExpr)
		if !ok {
			return e
		}
		id, ok := sel.X.(*ast.Ident)
		prefix, imported := "", false
		if ok && ofNote(id) {
			prefix, imported = n.Imports[id.Name]
		}
		if !imported {
			return e
		}
		whole := &ast.Ident{NamePos: id.NamePos, Name: prefix + sel.Sel.Name}
		p.widths[whole] = int(sel.Sel.End() - id.NamePos)
		p.through[n.Home+id.Name] = true
		f.Unresolved = append(f.Unresolved, whole)
		return whole
	})
	if n.Home == "" {
		return errs
	}
	keys := keysOf(f)
	fields := map[*ast.Ident]bool{}
	for t := range embeddedIn(f) {
		of, is := generic(t)
		id, ok := of.(*ast.Ident)
		switch {
		case !ok:
		case !is:
			fields[id] = true
		case n.Own[id.Name] || id.Obj != nil && top[id.Obj]:
			errs = append(errs, p.errorAt(t.Pos(), CodeRefused, "a struct of a note that is imported cannot embed a generic type", "give the field a name"))
		}
	}
	give := func(id *ast.Ident) {
		if fields[id] {
			p.embedded[id.Name] = true
		} else if _, done := p.widths[id]; !done {
			p.widths[id] = len(id.Name)
			id.Name = n.Home + id.Name
		}
	}
	for _, id := range f.Unresolved {
		if n.Own[id.Name] {
			give(id)
		}
	}
	ast.Inspect(f, func(node ast.Node) bool {
		id, ok := node.(*ast.Ident)
		if !ok || id.Name == "_" {
			return true
		}
		name, isKey := keys[id]
		if id.Obj != nil && top[id.Obj] && (name || !isKey) || name && id.Obj == nil && n.Own[id.Name] {
			give(id)
		}
		return true
	})
	return errs
}

// embeddedOfOthers refuses structs that embed a type of another note, whose
// field would have the name of the type there.
func (p *Parsed) embeddedOfOthers(f *ast.File, ofNote func(*ast.Ident) bool) (errs []*Error) {
	for t := range embeddedIn(f) {
		t, _ = generic(t)
		sel, ok := t.(*ast.SelectorExpr)
		if !ok {
			continue
		}
		if id, ok := sel.X.(*ast.Ident); ok && ofNote(id) && p.naming.Imports[id.Name] != "" {
			errs = append(errs, p.errorAt(id.Pos(), CodeRefused, "a struct cannot embed a type of another note",
				"give the field a name: "+sel.Sel.Name+" "+id.Name+"."+sel.Sel.Name))
		}
	}
	return errs
}

// embeddedIn goes through the types that structs embed, without the star of a
// pointer: a field has the name of its type.
func embeddedIn(f *ast.File) iter.Seq[ast.Expr] {
	return func(yield func(ast.Expr) bool) {
		more := true
		ast.Inspect(f, func(n ast.Node) bool {
			s, ok := n.(*ast.StructType)
			if !ok || !more {
				return more
			}
			for _, field := range s.Fields.List {
				if len(field.Names) > 0 || !more {
					continue
				}
				t := ast.Unparen(field.Type)
				if star, ok := t.(*ast.StarExpr); ok {
					t = ast.Unparen(star.X)
				}
				more = yield(t)
			}
			return more
		})
	}
}

// generic is a type without its arguments; is reports whether it has any.
func generic(t ast.Expr) (of ast.Expr, is bool) {
	switch x := t.(type) {
	case *ast.IndexExpr:
		return x.X, true
	case *ast.IndexListExpr:
		return x.X, true
	}
	return t, false
}

// aliasesOfEmbedded lets embedded types keep the names that their fields have: type
// stage = supply.stage.
func (p *Parsed) aliasesOfEmbedded() {
	at := p.declFile.Name.End()
	for _, name := range slices.Sorted(maps.Keys(p.embedded)) {
		whole := &ast.Ident{NamePos: at, Name: p.naming.Home + name}
		p.declFile.Unresolved = append(p.declFile.Unresolved, whole)
		p.declFile.Decls = append(p.declFile.Decls, &ast.GenDecl{TokPos: at, Tok: token.TYPE,
			Specs: []ast.Spec{&ast.TypeSpec{Name: &ast.Ident{NamePos: at, Name: name}, Assign: at, Type: &ast.ParenExpr{Lparen: at, X: whole, Rparen: at}}}}) // brackets as in collect
	}
}

// undefinedImports lists the names with a prefix that no cell defines: the
// checker leaves out what is no name in Go.
func (c *Checked) undefinedImports() []types.Error {
	var list []types.Error
	if len(c.widths) == 0 {
		return nil
	}
	for _, f := range []*ast.File{c.declFile, c.stmtFile} {
		ast.Inspect(f, func(n ast.Node) bool {
			id, ok := n.(*ast.Ident)
			if _, renamed := c.widths[id]; ok && renamed && c.info.Uses[id] == nil && c.info.Defs[id] == nil {
				list = append(list, types.Error{Fset: c.fset, Pos: id.Pos(), Msg: "undefined: " + id.Name})
			}
			return true
		})
	}
	return list
}

// keysOf finds the identifiers that are keys in literals: those of maps and
// lists are names, the others are fields, though the parser may take them for
// names.
func keysOf(f *ast.File) map[*ast.Ident]bool {
	keys := map[*ast.Ident]bool{}
	implied := map[*ast.CompositeLit]ast.Expr{}
	ast.Inspect(f, func(n ast.Node) bool {
		lit, ok := n.(*ast.CompositeLit)
		if !ok {
			return true
		}
		t := lit.Type
		if t == nil {
			t = implied[lit]
		}
		var key, value ast.Expr
		named := true
		switch t := ast.Unparen(t).(type) {
		case *ast.MapType:
			key, value = t.Key, t.Value
		case *ast.ArrayType:
			value = t.Elt
		default:
			named = false
		}
		inner := func(e, t ast.Expr) {
			if star, ok := t.(*ast.StarExpr); ok {
				t = star.X
			}
			if l, ok := e.(*ast.CompositeLit); ok && l.Type == nil {
				implied[l] = t
			}
		}
		for _, e := range lit.Elts {
			kv, ok := e.(*ast.KeyValueExpr)
			if !ok {
				inner(e, value)
				continue
			}
			if id, ok := kv.Key.(*ast.Ident); ok {
				keys[id] = named
			}
			inner(kv.Key, key)
			inner(kv.Value, value)
		}
		return true
	})
	return keys
}

// topLevel lists the parser's objects of what the cell defines at its top level.
func (p *Parsed) topLevel() map[*ast.Object]bool {
	top := map[*ast.Object]bool{}
	for _, o := range p.declFile.Scope.Objects {
		top[o] = true
	}
	if run := p.runFunc(); run != nil && run.Body != nil {
		add := func(id *ast.Ident) {
			if id.Obj != nil {
				top[id.Obj] = true
			}
		}
		for _, s := range run.Body.List {
			switch x := s.(type) {
			case *ast.AssignStmt:
				for _, l := range x.Lhs {
					if id, ok := l.(*ast.Ident); ok && x.Tok == token.DEFINE {
						add(id)
					}
				}
			case *ast.DeclStmt:
				if g, ok := x.Decl.(*ast.GenDecl); ok {
					for _, spec := range g.Specs {
						if v, ok := spec.(*ast.ValueSpec); ok {
							for _, id := range v.Names {
								add(id)
							}
						}
					}
				}
			}
		}
	}
	return top
}
