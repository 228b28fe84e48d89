package cell

import (
	"fmt"
	"go/ast"
	"go/token"
	"sort"
	"strings"

	"golang.org/x/tools/go/ast/astutil"
)

// edit replaces expressions from the leaves up.
func edit(root ast.Node, f func(ast.Expr) ast.Expr) {
	astutil.Apply(root, nil, func(c *astutil.Cursor) bool {
		if e, ok := c.Node().(ast.Expr); ok {
			if r := f(e); r != e {
				c.Replace(r)
			}
		}
		return true
	})
}

// collect makes statements of the parsed files: a definition x := e becomes a
// variable of the package, so that functions of the cell and other cells see
// it; everything else stays a statement of the function that runs the cell.
func (p *Parsed) collect(segs []segment, overrides map[string]*Override, around *comments) []*Error {
	var errs []*Error
	define := func(id *ast.Ident, kind token.Token) bool {
		if id.Name == "_" {
			return true
		}
		if _, again := p.kinds[id.Name]; again {
			return false
		}
		p.kinds[id.Name] = kind
		p.Defines = append(p.Defines, id.Name)
		return true
	}
	twice := func(id *ast.Ident) {
		errs = append(errs, p.errorAt(id.Pos(), CodeTwice, id.Name+" is defined twice in this cell", "a name has one definition; write "+id.Name+" = … to change it"))
	}
	var decls []ast.Decl
	for _, d := range p.declFile.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Recv == nil && d.Name.Name != "_" {
				if d.Name.Name == "init" {
					errs = append(errs, p.errorAt(d.Name.Pos(), CodeRefused, "init cannot be defined in a cell", "its statements run by themselves, write them without the function"))
				} else if !define(d.Name, token.FUNC) {
					twice(d.Name)
				}
			}
			if d.Body == nil {
				errs = append(errs, p.errorAt(d.Pos(), CodeSyntax, "func "+d.Name.Name+" has no body", ""))
			}
		case *ast.GenDecl:
			for _, s := range d.Specs {
				switch s := s.(type) {
				case *ast.TypeSpec:
					if !define(s.Name, token.TYPE) {
						twice(s.Name)
					}
					// go/types follows a bare name to its declaration, which for
					// a type of another cell is not there; brackets stop it.
					if id, ok := s.Type.(*ast.Ident); ok {
						s.Type = &ast.ParenExpr{Lparen: id.Pos(), X: id, Rparen: id.End()}
					}
				case *ast.ValueSpec:
					for _, id := range s.Names {
						if !define(id, token.CONST) {
							twice(id)
						}
					}
				}
			}
		}
	}
	run := p.runFunc()
	if run == nil || len(p.stmtFile.Decls) != 1 {
		return append(errs, &Error{Code: CodeSyntax, Line: 1, Column: 1, Msg: "the cell's brackets and braces do not match"})
	}
	quiet := map[int]bool{}
	for _, g := range segs {
		quiet[g.start] = g.quiet
	}
	for _, s := range run.Body.List {
		st := &statement{node: s, about: around.around(s.Pos(), p.end(s))}
		at, _ := p.offset(s.Pos())
		st.line, st.quiet = p.line(at), quiet[at]
		switch x := s.(type) {
		case *ast.EmptyStmt:
			continue
		case *ast.DeclStmt:
			g := x.Decl.(*ast.GenDecl)
			for _, spec := range g.Specs {
				vs, ok := spec.(*ast.ValueSpec)
				if !ok || g.Tok != token.VAR {
					continue
				}
				one := *st
				if g.Lparen.IsValid() {
					one.about = around.around(vs.Pos(), p.end(vs))
					if at, ok := p.offset(vs.Pos()); ok {
						one.line = p.line(at)
					}
				}
				one.spec, one.defines = vs, vs.Names
				for _, id := range vs.Names {
					if !define(id, token.VAR) {
						twice(id)
					}
				}
				p.stmts = append(p.stmts, &one)
			}
			continue
		case *ast.AssignStmt:
			if x.Tok == token.DEFINE {
				p.definition(st, x, define, twice, &errs)
			}
		case *ast.ExprStmt:
			st.value = x.X
		case *ast.ReturnStmt:
			errs = append(errs, p.errorAt(s.Pos(), CodeRefused, "return outside a function", "a cell runs to its end; put the code in a function"))
		case *ast.BranchStmt:
			errs = append(errs, p.errorAt(s.Pos(), CodeRefused, x.Tok.String()+" outside a loop", ""))
		}
		p.stmts = append(p.stmts, st)
	}
	if len(errs) > 0 {
		return p.tidy(errs)
	}
	if errs := p.applyOverrides(overrides); len(errs) > 0 {
		return errs
	}
	for _, s := range p.stmts {
		if s.spec != nil {
			decls = append(decls, &ast.GenDecl{TokPos: s.spec.Pos(), Tok: token.VAR, Specs: []ast.Spec{s.spec}})
		}
	}
	p.stmtFile.Decls = append(decls, run)
	return nil
}

// runFunc is the function that runs the cell, the last of its file.
func (p *Parsed) runFunc() *ast.FuncDecl {
	if len(p.stmtFile.Decls) == 0 {
		return nil
	}
	f, _ := p.stmtFile.Decls[len(p.stmtFile.Decls)-1].(*ast.FuncDecl)
	return f
}

func (p *Parsed) line(at int) int { return 1 + strings.Count(p.Src[:min(at, len(p.Src))], "\n") }

// definition turns x, y := e into a variable. A name that the cell has
// defined before is assigned from a made variable, as := does.
func (p *Parsed) definition(st *statement, x *ast.AssignStmt, define func(*ast.Ident, token.Token) bool, twice func(*ast.Ident), errs *[]*Error) {
	spec := &ast.ValueSpec{Values: x.Rhs}
	fresh := 0
	var old []*ast.Ident
	for _, l := range x.Lhs {
		id, ok := l.(*ast.Ident)
		if !ok {
			*errs = append(*errs, p.errorAt(l.Pos(), CodeSyntax, "only a name can be defined with :=", "write = to change a part of something"))
			return
		}
		if id.Name != "_" && p.kinds[id.Name] != 0 {
			old = append(old, id)
			made := &ast.Ident{NamePos: id.NamePos, Name: fmt.Sprintf("%sa%d", reserved, id.NamePos)}
			p.aliases[made.Name] = id.Name
			spec.Names = append(spec.Names, made)
			st.again = append(st.again, &ast.AssignStmt{Lhs: []ast.Expr{id}, TokPos: x.TokPos, Tok: token.ASSIGN,
				Rhs: []ast.Expr{&ast.Ident{NamePos: id.NamePos, Name: made.Name}}})
			continue
		}
		if define(id, token.VAR) && id.Name != "_" {
			fresh++
			st.defines = append(st.defines, id)
		}
		spec.Names = append(spec.Names, id)
	}
	if fresh == 0 && len(old) > 0 {
		twice(old[0])
		return
	}
	st.spec = spec
}

func (p *Parsed) commentsOf(f *ast.File) *comments {
	c := &comments{file: p.fset.File(f.Pos()), groups: f.Comments, code: map[int]bool{}}
	ast.Inspect(f, func(n ast.Node) bool {
		switch n.(type) {
		case nil, *ast.File, *ast.Comment, *ast.CommentGroup:
			return n != nil
		}
		// The end too: a line may hold nothing but the brackets that close a call.
		for _, pos := range [2]token.Pos{n.Pos(), n.End() - 1} {
			if at, ok := p.offset(pos); ok && at >= 0 {
				c.code[c.file.Line(pos)] = true
			}
		}
		return true
	})
	return c
}

// applyOverrides puts the what-if expressions in the place of the right sides.
func (p *Parsed) applyOverrides(overrides map[string]*Override) []*Error {
	var names []string
	for n := range overrides {
		names = append(names, n)
	}
	sort.Strings(names)
	for _, name := range names {
		o := overrides[name]
		kind, here := p.kinds[name]
		if !here {
			continue
		}
		fail := func(msg, hint string) []*Error {
			return []*Error{{Code: CodeName, Msg: msg, Hint: hint}}
		}
		if kind != token.VAR {
			if kind == token.IMPORT {
				return fail("--set "+name+": "+name+" is a note, not a value that can be set", "set a name in it, --set "+name+".NAME=VALUE")
			}
			return fail("--set "+name+": "+name+" is a "+kind.String()+", not a value that can be set", "define it with :=")
		}
		set := false
		for _, s := range p.stmts {
			if s.spec == nil || len(s.defines) != 1 || s.defines[0].Name != name {
				continue
			}
			q := &Parsed{ID: setFile + name, Src: o.Text, fset: p.fset}
			sc, problems := scan(o.Text)
			if len(problems) > 0 {
				return fail("--set "+name+"="+o.Text+": "+problems[0].msg, problems[0].hint)
			}
			f, err := p.parseFile(q.ID, stmtPrefix+"_ = "+sc.text+"\n}", 0)
			if err != nil || len(f.Decls) != 1 {
				return fail("--set "+name+"="+o.Text+": this is no expression", "write a value as in a cell, 9V")
			}
			if p.naming != nil {
				p.rename(f, nil)
			}
			q.literals, q.made = map[string]literal{}, p.made
			errs := q.additions(f, sc, len(stmtPrefix)+len("_ = "))
			p.needUnits = p.needUnits || q.needUnits
			if len(errs) > 0 {
				return fail("--set "+name+"="+o.Text+": "+strings.TrimPrefix(errs[0].Msg, q.ID+": "), errs[0].Hint)
			}
			body := f.Decls[0].(*ast.FuncDecl).Body.List
			a, ok := body[0].(*ast.AssignStmt)
			if !ok || len(body) != 1 || len(a.Rhs) != 1 {
				return fail("--set "+name+"="+o.Text+": this is no expression", "write a value as in a cell, 9V")
			}
			// The override's literals get names of their own: their offsets
			// are those of another text.
			edit(a, func(e ast.Expr) ast.Expr {
				if id, ok := e.(*ast.Ident); ok && isMade(id.Name) {
					if l, ok := q.literals[id.Name]; ok {
						made := fmt.Sprintf("%so%s%s", reserved, name, strings.TrimPrefix(id.Name, reserved))
						l.text = o.Text[l.start:l.end]
						p.literals[made] = l
						return &ast.Ident{NamePos: s.spec.Pos(), Name: made}
					}
				}
				return e
			})
			s.spec.Values = a.Rhs
			p.source[name] = o.Text
			set = true
		}
		if !set {
			return fail("--set "+name+": "+name+" is defined together with other names and cannot be set alone", "")
		}
	}
	return nil
}

// CheckExpression reports what keeps a text from being read as an expression
// of a cell, nil if nothing does.
func CheckExpression(text string) error {
	p, errs := Parse(token.NewFileSet(), "", "_ = ("+text+")", nil)
	if len(errs) == 0 && (len(p.stmts) != 1 || p.stmts[0].spec != nil) {
		errs = []*Error{{Msg: "this is no expression", Hint: "write a value as in a cell, 9V"}}
	}
	if len(errs) == 0 {
		return nil
	}
	if errs[0].Code == CodeSyntax {
		return fmt.Errorf("this is no expression: write a value as in a cell, 9V")
	}
	return errs[0]
}

// findUses lists the names that the cell may take from elsewhere.
func (p *Parsed) findUses() {
	own := map[string]bool{}
	for _, n := range p.Defines {
		own[n] = true
	}
	strong := map[string]bool{}
	weak := map[string]bool{}
	for _, f := range []*ast.File{p.declFile, p.stmtFile} {
		for _, id := range f.Unresolved {
			if !own[id.Name] && !isMade(id.Name) && id.Name != "_" {
				strong[id.Name] = true
			}
		}
		// The parser leaves out keys of composite literals, which are fields
		// or, in a map, names.
		ast.Inspect(f, func(n ast.Node) bool {
			if c, ok := n.(*ast.CompositeLit); ok {
				for _, e := range c.Elts {
					if kv, ok := e.(*ast.KeyValueExpr); ok {
						// In an imported note a key that got no name of its own is a field.
						if id, ok := kv.Key.(*ast.Ident); ok && !own[id.Name] && (p.naming.home() == "" || strings.Contains(id.Name, ".")) {
							weak[id.Name] = true
						}
					}
				}
			}
			return true
		})
	}
	// An override is not in the parser's list.
	for _, s := range p.stmts {
		if len(s.defines) == 1 && p.source[s.defines[0].Name] != "" {
			for _, v := range s.spec.Values {
				ast.Inspect(v, func(n ast.Node) bool {
					switch x := n.(type) {
					case *ast.SelectorExpr:
						ast.Inspect(x.X, func(n ast.Node) bool {
							if id, ok := n.(*ast.Ident); ok && !own[id.Name] && !isMade(id.Name) {
								strong[id.Name] = true
							}
							return true
						})
						return false
					case *ast.Ident:
						if !own[x.Name] && !isMade(x.Name) {
							strong[x.Name] = true
						}
					}
					return true
				})
			}
		}
	}
	p.Weak = map[string]bool{}
	for n := range weak {
		if !strong[n] {
			p.Weak[n] = true
			strong[n] = true
		}
	}
	for n := range strong {
		p.Uses = append(p.Uses, n)
	}
	sort.Strings(p.Uses)
}
