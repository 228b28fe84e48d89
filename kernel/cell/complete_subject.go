package cell

import (
	"go/ast"
	"go/token"
	"go/types"
	"slices"
	"strings"

	"ohmwright/units"
)

// Subject is what a place of a cell is about. At most one of the fields is set.
type Subject struct {
	Literal string       // a quantity literal, with its sign
	Name    string       // a name that the note or the cell defines at its top level
	Object  types.Object // anything else with a name
	Member  string       // of Object: "Result.Rise" for a field or method of a type with a name
	Of      string       // the name before the point
}

// SubjectAt finds what stands at the offset at of a cell; between words it is
// the function whose arguments stand there, or the type whose fields do.
func SubjectAt(src string, at int, s Scope) Subject {
	at = clamp(src, at)
	p := pieceAt(src, at)
	if p.kind == pieceOther && at < len(src) {
		if next := pieceFrom(src, at); next.kind == pieceWord || next.kind == pieceNumber {
			p = next
		}
	}
	switch p.kind {
	case pieceComment:
		return Subject{}
	case pieceString:
		m, ok := draftOf(src, p.start, p.end, madeWord(src), s).markerAt(src, p, at)
		if !ok {
			return Subject{}
		}
		return m.subject(s)
	case pieceNumber:
		return literalAt(src, p.start)
	case pieceWord:
		return wordAt(src, p, s)
	}
	return enclosing(src, at, s)
}

// literalAt is the literal that starts at an offset, with a sign that belongs
// to it.
func literalAt(src string, start int) Subject {
	q, n, err := units.ScanLiteral(src[start:])
	if err != nil || n == 0 {
		return Subject{}
	}
	if before := strings.TrimRight(src[:start], " \t"); strings.HasSuffix(before, "-") && q.Dim().Kind() != units.PlainScale {
		operand := strings.TrimRight(before[:len(before)-1], " \t")
		if operand == "" || !endsWord(operand) && !strings.ContainsAny(operand[len(operand)-1:], ")]}%") {
			return Subject{Literal: "-" + src[start:start+n]}
		}
	}
	return Subject{Literal: src[start : start+n]}
}

func wordAt(src string, p piece, s Scope) Subject {
	name := src[p.start:p.end]
	if token.IsKeyword(name) {
		return Subject{}
	}
	d := draftOf(src, p.start, p.end, name, s)
	if d.word != nil {
		if o := d.meaning(d.word); o != nil {
			return d.subject(o, d.word)
		}
		if o := d.key(); o != nil {
			return d.subject(o, d.word)
		}
	}
	if d.before.last == token.PERIOD {
		return Subject{}
	}
	if s.Object(name) != nil || slices.Contains(s.Names(), name) {
		return Subject{Name: name}
	}
	if k := s.World.Package(name); k != nil {
		return Subject{Object: types.NewPkgName(token.NoPos, nil, name, k)}
	}
	if o := s.World.Builtin(name); o != nil {
		return Subject{Object: o}
	}
	return Subject{}
}

// enclosing is the innermost call or composite literal around an offset.
func enclosing(src string, at int, s Scope) Subject {
	word := madeWord(src)
	d := draftOf(src, at, at, word, s)
	var below ast.Node = d.word
	for i := len(d.path) - 2; i >= 0; i-- {
		var fun ast.Expr
		switch n := d.path[i].(type) {
		case *ast.CallExpr:
			if n.Fun != below && !d.made[n] {
				fun = n.Fun
			}
		case *ast.CompositeLit:
			if n.Type != nil && n.Type != below {
				fun = n.Type
			}
		}
		below = d.path[i]
		if sel, ok := fun.(*ast.SelectorExpr); ok {
			fun = sel.Sel
		}
		if id, ok := fun.(*ast.Ident); ok {
			if o := d.meaning(id); o != nil {
				return d.subject(o, id)
			}
		}
	}
	return Subject{}
}

// meaning is the object of an identifier.
func (d *draft) meaning(id *ast.Ident) types.Object {
	if o := d.info.Uses[id]; o != nil {
		return o
	}
	return d.info.Defs[id]
}

// key is the field that the word sets in a composite literal, whose colon was
// not read.
func (d *draft) key() types.Object {
	lit, ok := d.parent(1).(*ast.CompositeLit)
	if !ok {
		return nil
	}
	if t := d.info.Types[lit].Type; t != nil {
		for _, f := range fieldsOf(t) {
			if f.Name() == d.word.Name {
				return f
			}
		}
	}
	return nil
}

// subject says what an object that was found is.
func (d *draft) subject(o types.Object, id *ast.Ident) Subject {
	if o.Pkg() == nil {
		return Subject{}
	}
	switch {
	case o.Pkg().Path() == NotePath && o.Parent() == o.Pkg().Scope():
		return Subject{Name: o.Name()}
	case o.Parent() == o.Pkg().Scope() || o.Parent() != nil:
		return Subject{Object: o}
	}
	// A field or method: of which type?
	sub := Subject{Object: o}
	var of types.Type
	if f, ok := o.(*types.Func); ok && f.Signature().Recv() != nil {
		of = f.Signature().Recv().Type()
	}
	if i := slices.Index(d.path, ast.Node(id)); i > 0 && of == nil {
		switch n := d.path[i-1].(type) {
		case *ast.SelectorExpr:
			of = d.info.Types[n.X].Type
			if base, ok := n.X.(*ast.Ident); ok {
				sub.Of = base.Name
			}
		case *ast.CompositeLit:
			of = d.info.Types[n].Type
		}
	}
	if named := namedOf(of); named != nil {
		sub.Member = named.Obj().Name() + "." + o.Name()
	}
	return sub
}

// Declaration gives what a cell says of a function, type or constant that it
// declares: the comment above it and its source. Both are empty for a value.
func (c *Checked) Declaration(name string) (comment, source string) {
	for _, d := range c.declFile.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Recv == nil && d.Name.Name == name {
				return c.above(d), c.text(d)
			}
		case *ast.GenDecl:
			for _, s := range d.Specs {
				if declares(s, name) {
					return c.above(d), c.text(d)
				}
			}
		}
	}
	return "", ""
}

// above is the text of the comment lines right above a declaration.
func (c *Checked) above(d ast.Decl) string {
	at, ok := c.offset(d.Pos())
	if !ok {
		return ""
	}
	lines := strings.Split(c.Src[:at], "\n")
	var text []string
	for i := len(lines) - 2; i >= 0 && strings.HasPrefix(lines[i], "//"); i-- {
		text = append(text, strip(lines[i]))
	}
	slices.Reverse(text)
	return strings.Join(text, " ")
}

func declares(s ast.Spec, name string) bool {
	switch s := s.(type) {
	case *ast.TypeSpec:
		return s.Name.Name == name
	case *ast.ValueSpec:
		return slices.ContainsFunc(s.Names, func(id *ast.Ident) bool { return id.Name == name })
	}
	return false
}

// TypeText writes the type of an object as a user of cells would, for a
// function with its name: "func gain(v Quantity) Quantity".
func TypeText(o types.Object) string {
	switch o := o.(type) {
	case *types.Func:
		return "func " + o.Name() + strings.TrimPrefix(typeName(o.Type()), "func")
	case *types.TypeName:
		return "type " + o.Name() + " " + typeName(o.Type().Underlying())
	case *types.Const:
		return "const " + o.Name() + " " + typeName(o.Type()) + " = " + o.Val().String()
	}
	return o.Name() + " " + typeName(o.Type())
}
