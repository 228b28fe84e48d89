package cell

import (
	"go/ast"
	"go/token"
	"strings"
)

// ErrorFor makes an error at the definition of a name.
func (p *Parsed) ErrorFor(name string, code Code, msg, hint string) *Error {
	if id := p.definingIdent(name); id != nil {
		return p.errorAt(id.Pos(), code, msg, hint)
	}
	places := map[string]int{}
	for _, i := range p.Imports {
		places[p.naming.home()+i.Name] = i.at
	}
	for _, b := range p.Blocks {
		places[p.naming.home()+b.Name] = b.at
	}
	if at, ok := places[name]; ok {
		e := p.at(at)
		e.Code, e.Msg, e.Hint = code, msg, hint
		return e
	}
	return &Error{Code: code, Line: 1, Column: 1, Msg: msg, Hint: hint}
}

// ErrorAtUse makes an error at the first place where the cell uses a name.
func (p *Parsed) ErrorAtUse(name string, code Code, msg, hint string) *Error {
	var first token.Pos
	for _, f := range []*ast.File{p.declFile, p.stmtFile} {
		if f == nil {
			continue
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if id, ok := n.(*ast.Ident); ok && (id.Name == name || p.widths[id] > 0 && strings.HasPrefix(id.Name, name+".")) {
				at, ok1 := p.offset(id.Pos())
				was, ok2 := p.offset(first)
				if ok1 && (!ok2 || at < was) {
					first = id.Pos()
				}
			}
			return true
		})
	}
	e := p.errorAt(first, code, msg, hint)
	if e.Line == 0 {
		e.Line, e.Column = 1, 1
	}
	return e
}

// InDefinition reports whether a place stands in what defines a name.
func (c *Checked) InDefinition(name string, at token.Pos) bool {
	for _, s := range c.stmts {
		for i, id := range s.defines {
			if id.Name != name || s.spec == nil {
				continue
			}
			values := s.spec.Values
			if len(values) == len(s.defines) {
				values = values[i : i+1]
			}
			for _, e := range values {
				if e.Pos() <= at && at < c.end(e) {
					return true
				}
			}
		}
	}
	return false
}

// DefinitionText is the expression that defines a name, as it was typed; ok is
// false where a name shares its expression with others or has none.
func (p *Parsed) DefinitionText(name string) (text string, ok bool) {
	for _, s := range p.stmts {
		for i, id := range s.defines {
			if id.Name == name && s.spec != nil && len(s.spec.Values) == len(s.defines) {
				return p.typed(s.spec.Values[i])
			}
		}
	}
	return "", false
}

// typed is the source of an expression from its first part on: what the check
// put around a part begins behind it.
func (p *Parsed) typed(e ast.Expr) (string, bool) {
	from := len(p.Src)
	ast.Inspect(e, func(n ast.Node) bool {
		if n != nil && n.Pos().IsValid() {
			if at, ok := p.offset(n.Pos()); ok {
				from = min(from, at)
			}
		}
		return true
	})
	to, ok := p.offset(p.end(e))
	if !ok || from < 0 || to > len(p.Src) || from >= to {
		return "", false
	}
	return strings.TrimSpace(p.Src[from:to]), true
}
