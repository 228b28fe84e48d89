package cell

import (
	"go/ast"
	"go/token"
	"go/types"
	"slices"
	"strings"

	"ohmwright/kernel/cell/exec"
)

// names adds what is in scope.
func (c *completer) names() {
	own := map[string]bool{} // what the statement being typed defines: it cannot use itself
	if c.Checked != nil {
		for _, s := range c.stmts {
			if c.word != nil && s.spec != nil && slices.ContainsFunc(c.path, func(n ast.Node) bool { return n == s.spec }) {
				for _, id := range s.defines {
					own[id.Name] = true
				}
			}
		}
		for _, o := range c.locals() {
			c.object(o.Name(), o, classLocal)
		}
		for _, name := range c.Defines {
			if !own[name] && name != c.wordName() {
				c.object(name, c.Object(name), classCell)
			}
		}
		for alias, path := range c.imports {
			c.add(candidate{Offer: Offer{Text: alias, Kind: KindPackage, Beside: path}, class: classPackage, fit: c.want.other()})
		}
	}
	for _, name := range c.lost {
		c.object(name, c.s.Object(name), classCell)
	}
	for name, file := range c.s.Naming.imported() {
		c.add(candidate{Offer: Offer{Text: name, Kind: KindPackage, Beside: file}, class: classNote, fit: c.want.other()})
	}
	for _, name := range c.s.Names() {
		if !own[name] && !strings.Contains(name, ".") { // the others stand behind their import
			c.object(name, c.s.Object(name), classNote)
		}
	}
	w := c.s.World
	for _, name := range w.BuiltinNames() {
		c.object(name, w.Builtin(name), classBuiltin)
	}
	for _, name := range w.PackageNames() {
		c.add(candidate{Offer: Offer{Text: name, Kind: KindPackage, Beside: w.Package(name).Path()}, class: classPackage, fit: c.want.other()})
	}
	for _, name := range types.Universe.Names() {
		if !notInCells[name] && (name != "iota" || c.before.start >= 0 && c.before.levels[0].first == token.CONST) {
			c.object(name, types.Universe.Lookup(name), classGo)
		}
	}
}

// notInCells are names of Go's own that a note has no use for.
var notInCells = map[string]bool{
	"complex": true, "real": true, "imag": true, "complex64": true, "complex128": true, "close": true,
	"print": true, "println": true, "uintptr": true, "comparable": true,
}

func (d *draft) wordName() string {
	if d.word == nil {
		return ""
	}
	return d.word.Name
}

// members adds what may follow a point.
func (c *completer) members() {
	if _, imported := c.widths[c.word]; imported {
		prefix := c.word.Name[:strings.LastIndexByte(c.word.Name, '.')+1]
		for _, name := range c.s.Names() {
			if rest, ok := strings.CutPrefix(name, prefix); ok && rest != "" {
				c.named(rest, name, c.s.Object(name), classNote)
			}
		}
		if file, block, ok := c.s.Naming.behind(prefix); ok && !block {
			c.add(candidate{Offer: Offer{Text: "Compute", Kind: KindFunction, Beside: file + " with other inputs"}, class: classType, fit: c.want.other()})
			c.add(candidate{Offer: Offer{Text: "Inputs", Kind: KindType, Beside: "of " + file}, class: classType, fit: c.want.other()})
		}
		return
	}
	sel, ok := c.parent(1).(*ast.SelectorExpr)
	if !ok || sel.Sel != c.word {
		return
	}
	if id, ok := sel.X.(*ast.Ident); ok {
		if k, ok := c.info.Uses[id].(*types.PkgName); ok {
			scope := k.Imported().Scope()
			for _, name := range scope.Names() {
				if o := scope.Lookup(name); o.Exported() && c.s.World.Refused(o) == nil {
					c.object(name, o, classMember)
				}
			}
			return
		}
	}
	tv := c.info.Types[sel.X]
	if tv.Type == nil || !tv.IsValue() {
		return
	}
	var view *View
	if id, ok := sel.X.(*ast.Ident); ok {
		view, _ = c.s.Value(id.Name)
	}
	for i, f := range fieldsOf(tv.Type) {
		x := candidate{Offer: Offer{Text: f.Name(), Kind: KindField, Beside: c.fieldBeside(tv.Type, f, view)}, class: classMember, order: i}
		x.fit = c.want.fit(f, partOf(view, f.Name()))
		c.add(x)
	}
	t := tv.Type
	if !types.IsInterface(t) && !isPointer(t) {
		t = types.NewPointer(t)
	}
	set := types.NewMethodSet(t)
	for i := range set.Len() {
		if m := set.At(i).Obj(); c.visible(m) && c.s.World.Refused(m) == nil {
			c.add(candidate{Offer: Offer{Text: m.Name(), Kind: KindMethod, Beside: c.beside(m)}, class: classLocal})
		}
	}
}

// visible: the cells of a note are one package.
func (c *completer) visible(o types.Object) bool {
	return o.Exported() || o.Pkg() != nil && o.Pkg().Path() == NotePath
}

// fieldsOf lists the fields of a struct, or of what a pointer points to, with
// those of what it embeds behind its own.
func fieldsOf(t types.Type) []*types.Var {
	var list []*types.Var
	seen := map[string]bool{}
	level := []types.Type{t}
	for depth := 0; depth < 4 && len(level) > 0; depth++ {
		var next []types.Type
		for _, t := range level {
			if p, ok := t.Underlying().(*types.Pointer); ok {
				t = p.Elem()
			}
			s, ok := t.Underlying().(*types.Struct)
			if !ok {
				continue
			}
			for f := range s.Fields() {
				if f.Embedded() {
					next = append(next, f.Type())
				}
				if own := f.Pkg() != nil && f.Pkg().Path() == NotePath; !seen[f.Name()] && (own || f.Exported()) && f.Name() != "_" {
					seen[f.Name()] = true
					list = append(list, f)
				}
			}
		}
		level = next
	}
	return list
}

// partOf is the view of a field.
func partOf(v *View, name string) *View {
	if v == nil || v.Kind != exec.KindRecord {
		return nil
	}
	for i := range v.Items {
		if v.Items[i].Name == name {
			return &v.Items[i].Value
		}
	}
	return nil
}

// keys adds the fields that a composite literal has not set yet.
func (c *completer) keys() {
	lit, ok := c.parent(1).(*ast.CompositeLit)
	if !ok || lit.Type == c.word {
		return
	}
	if id, ok := lit.Type.(*ast.Ident); ok && c.widths[id] > 0 && c.s.Inputs != nil {
		if prefix, ok := strings.CutSuffix(id.Name, "Inputs"); ok {
			c.inputsOf(prefix, lit)
			return
		}
	}
	t := c.info.Types[lit].Type
	if t == nil {
		return
	}
	if _, isStruct := t.Underlying().(*types.Struct); !isStruct {
		return
	}
	set := map[string]bool{}
	for _, e := range lit.Elts {
		if kv, ok := e.(*ast.KeyValueExpr); ok {
			if id, ok := kv.Key.(*ast.Ident); ok {
				set[id.Name] = true
			}
		} else if e != c.word {
			return // values in their order, without keys
		}
	}
	for i, f := range fieldsOf(t) {
		if !set[f.Name()] && !f.Embedded() {
			c.add(candidate{Offer: Offer{Text: f.Name() + ":", Kind: KindField, Beside: c.fieldBeside(t, f, nil)}, class: classMember, order: i})
		}
	}
}

// inputsOf adds the inputs of an imported note that a block does not give yet.
func (c *completer) inputsOf(prefix string, lit *ast.CompositeLit) {
	given := map[string]bool{}
	for _, e := range lit.Elts {
		if kv, ok := e.(*ast.KeyValueExpr); ok {
			if id, ok := kv.Key.(*ast.Ident); ok {
				given[id.Name] = true
			}
		}
	}
	for i, name := range c.s.Inputs(prefix) {
		if !given[name] {
			_, beside := c.s.Value(prefix + name)
			c.add(candidate{Offer: Offer{Text: name + ":", Kind: KindField, Beside: beside}, class: classMember, order: i})
		}
	}
}

// fieldBeside is what stands beside a field: its value, or its type and what
// the documentation says.
func (c *completer) fieldBeside(of types.Type, f *types.Var, record *View) string {
	text := typeName(f.Type())
	if v := partOf(record, f.Name()); v != nil && v.Text != "" {
		text = shortText(v.Text)
	}
	if named := namedOf(of); named != nil && f.Pkg() != nil {
		if d, ok := c.s.World.Doc(f.Pkg().Path(), named.Obj().Name()+"."+f.Name()); ok && d.Text != "" {
			text += "  " + shortText(d.Text)
		}
	}
	return text
}

func namedOf(t types.Type) *types.Named {
	if t == nil {
		return nil
	}
	if p, ok := types.Unalias(t).(*types.Pointer); ok {
		t = p.Elem()
	}
	n, _ := types.Unalias(t).(*types.Named)
	return n
}

// shortText is the first line of a text, cut.
func shortText(s string) string {
	s, _, _ = strings.Cut(s, "\n")
	if r := []rune(s); len(r) > 70 {
		return string(r[:69]) + "…"
	}
	return s
}

// kind says what an object is.
func (c *completer) kind(o types.Object) Kind {
	switch o := o.(type) {
	case *types.Func, *types.Builtin:
		return KindFunction
	case *types.TypeName:
		return KindType
	case *types.Const, *types.Nil:
		return KindConstant
	case *types.PkgName:
		return KindPackage
	case *types.Var:
		if o.IsField() {
			return KindField
		}
		if types.Identical(o.Type(), c.s.World.Quantity()) {
			return KindQuantity
		}
		if _, ok := o.Type().Underlying().(*types.Signature); ok {
			return KindFunction
		}
	}
	return KindVariable
}

func kindOfView(v *View) Kind {
	if v.Kind == exec.KindQuantity {
		return KindQuantity
	}
	return KindVariable
}

// beside is the type of an object, for a function its parameters and results.
func (c *completer) beside(o types.Object) string {
	switch o := o.(type) {
	case *types.Func:
		return strings.TrimPrefix(typeName(o.Type()), "func")
	case *types.Var:
		return typeName(o.Type())
	case *types.Const:
		return typeName(o.Type()) + " " + shortText(o.Val().String())
	case *types.TypeName:
		if o.Pkg() != nil {
			if d, ok := c.s.World.Doc(o.Pkg().Path(), o.Name()); ok {
				return shortText(d.Text)
			}
		}
		if _, basic := o.Type().(*types.Basic); !basic {
			if u := o.Type().Underlying(); o.Type() != types.Type(c.s.World.Quantity()) {
				return shortText(typeName(u))
			}
		}
	}
	return ""
}

// typeName writes a type as a user of cells would.
func typeName(t types.Type) string {
	return types.TypeString(t, func(p *types.Package) string {
		if p.Path() == NotePath || p.Name() == "units" {
			return ""
		}
		return p.Name()
	})
}

// keywords adds the words of the language that may stand here.
func (c *completer) keywords() {
	put := func(words ...string) {
		for _, w := range words {
			c.add(candidate{Offer: Offer{Text: w, Kind: KindKeyword}, class: classKeyword, fit: c.want.other()})
		}
	}
	o := c.before
	t := o.top()
	if o.last == token.RBRACE && o.sameLine {
		if t.first == token.IF {
			put("else")
		}
		return
	}
	if t.switches && (t.statement < 0 || o.last == token.LBRACE) {
		put("case", "default")
		if o.last == token.LBRACE {
			return
		}
	}
	if t.first == token.FOR && t.pending == "{}" && (o.last == token.DEFINE || o.last == token.ASSIGN || o.last == token.FOR) {
		put("range")
	}
	if o.last == token.ELSE {
		put("if")
		return
	}
	if t.statement >= 0 || t.close == ")" && !t.group || t.close == "]" {
		put("func", "map", "struct")
		return
	}
	if c.parent(1) != nil {
		if _, ok := c.parent(1).(*ast.ExprStmt); !ok {
			put("func", "map", "struct")
			return
		}
	}
	put("if", "for", "switch", "var", "const", "type", "func")
	if len(o.levels) == 1 {
		put("import")
	}
	if where := c.around(); where.function {
		put("return", "defer")
	} else if where.loop {
		put("break", "continue")
	}
	if c.around().loop {
		put("break", "continue")
	}
	if t.switches {
		put("fallthrough", "break")
	}
}

// around says what a statement stands in.
func (c *completer) around() (where struct{ function, loop bool }) {
	for i := len(c.path) - 1; i >= 0; i-- {
		switch f := c.path[i].(type) {
		case *ast.ForStmt, *ast.RangeStmt:
			where.loop = true
		case *ast.FuncLit:
			where.function = true
			return where
		case *ast.FuncDecl:
			where.function = f.Name.Name != runName
			return where
		}
	}
	return where
}
