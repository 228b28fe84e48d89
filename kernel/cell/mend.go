package cell

import (
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"strings"
)

// mend changes the tree where a plain number meets a quantity, where a result
// comes with an error, and where a value stands alone; it reports whether it did.
func (c *Checked) mend(raw []types.Error) bool {
	if len(raw) == 0 {
		return c.mendErrorsAlone()
	}
	p := c.Parsed
	mended := c.mendPairs()
	for _, e := range raw {
		if strings.Contains(e.Msg, "is not used") || strings.Contains(e.Msg, "not used") {
			for _, s := range p.stmts {
				if x, ok := s.node.(*ast.ExprStmt); ok && s.value != nil && !p.discard[x] && x.Pos() <= e.Pos && e.Pos < x.End() {
					p.discard[x] = true
					mended = true
				}
			}
		}
	}
	return c.mendNumbers() || mended
}

// mendNumbers wraps plain numbers beside quantities, from the left, so that a
// chain is mended in one pass.
func (c *Checked) mendNumbers() bool {
	p := c.Parsed
	mended := false
	quantity := map[ast.Expr]bool{} // expressions known to become quantities
	isQ := func(e ast.Expr) bool {
		e = ast.Unparen(e)
		return quantity[e] || c.info.Types[e].Type != nil && types.Identical(c.info.Types[e].Type, c.quantity)
	}
	number := func(e ast.Expr) bool {
		t := c.info.Types[ast.Unparen(e)].Type
		if t == nil || isQ(e) {
			return false
		}
		b, ok := t.(*types.Basic) // a defined number type says what it is: no silent change
		return ok && b.Info()&types.IsUntyped == 0 && b.Info()&(types.IsInteger|types.IsFloat) != 0
	}
	wrap := func(e ast.Expr) ast.Expr {
		call := &ast.CallExpr{Fun: p.fromUnits("Quantity", e.Pos()), Lparen: e.Pos(), Args: []ast.Expr{e}, Rparen: e.End()}
		p.made[call] = true
		mended = true
		return call
	}
	fix := func(e ast.Expr) ast.Expr {
		if call, ok := e.(*ast.CallExpr); ok && p.made[call] && len(call.Args) == 2 { // ±
			for i, a := range call.Args {
				if number(a) {
					call.Args[i] = wrap(a)
				}
			}
			quantity[call] = true
			return e
		}
		b, ok := e.(*ast.BinaryExpr)
		if !ok {
			if u, ok := e.(*ast.UnaryExpr); ok && quantity[ast.Unparen(u.X)] {
				quantity[e] = true
			}
			return e
		}
		switch b.Op {
		case token.ADD, token.SUB, token.MUL, token.QUO, token.EQL, token.NEQ, token.LSS, token.LEQ, token.GTR, token.GEQ:
		default:
			return e
		}
		switch {
		case isQ(b.X) && number(b.Y):
			b.Y = wrap(b.Y)
		case isQ(b.Y) && number(b.X):
			b.X = wrap(b.X)
		case !isQ(b.X) || !isQ(b.Y):
			return e
		}
		switch b.Op {
		case token.ADD, token.SUB, token.MUL, token.QUO:
			quantity[b] = true
		}
		return e
	}
	for _, f := range []*ast.File{p.declFile, p.stmtFile} {
		edit(f, fix)
		ast.Inspect(f, func(n ast.Node) bool {
			if a, ok := n.(*ast.AssignStmt); ok && len(a.Lhs) == 1 && len(a.Rhs) == 1 {
				switch a.Tok {
				case token.ADD_ASSIGN, token.SUB_ASSIGN, token.MUL_ASSIGN, token.QUO_ASSIGN:
					if isQ(a.Lhs[0]) && number(a.Rhs[0]) {
						a.Rhs[0] = wrap(a.Rhs[0])
					}
				}
			}
			return true
		})
	}
	return mended
}

// mendPairs makes one value of a call that gives a value and an error, where
// one value is asked for: the error stops the cell.
func (c *Checked) mendPairs() bool {
	p := c.Parsed
	mended := false
	wrap := func(e ast.Expr) ast.Expr {
		call, ok := ast.Unparen(e).(*ast.CallExpr)
		if !ok || !c.givesPair(call) {
			return e
		}
		mended = true
		return p.must(call)
	}
	wrapAll := func(list []ast.Expr) {
		for i := range list {
			list[i] = wrap(list[i])
		}
	}
	for _, f := range []*ast.File{p.declFile, p.stmtFile} {
		ast.Inspect(f, func(n ast.Node) bool {
			switch x := n.(type) {
			case *ast.ValueSpec:
				if len(x.Names) == len(x.Values) {
					wrapAll(x.Values)
				}
			case *ast.AssignStmt:
				if len(x.Lhs) == len(x.Rhs) {
					wrapAll(x.Rhs)
				}
			case *ast.BinaryExpr:
				x.X, x.Y = wrap(x.X), wrap(x.Y)
			case *ast.UnaryExpr:
				x.X = wrap(x.X)
			case *ast.SelectorExpr:
				x.X = wrap(x.X)
			case *ast.IndexExpr:
				x.X, x.Index = wrap(x.X), wrap(x.Index)
			case *ast.KeyValueExpr:
				x.Value = wrap(x.Value)
			case *ast.CompositeLit:
				wrapAll(x.Elts)
			case *ast.RangeStmt:
				x.X = wrap(x.X)
			case *ast.SwitchStmt:
				if x.Tag != nil {
					x.Tag = wrap(x.Tag)
				}
			case *ast.FuncDecl:
				wrapReturns(x.Type, x.Body, wrap)
			case *ast.FuncLit:
				wrapReturns(x.Type, x.Body, wrap)
			case *ast.CallExpr:
				if p.made[x] {
					if sel, ok := x.Fun.(*ast.Ident); ok && sel.Name == mustName {
						return true
					}
				}
				if sig, ok := c.signature(x.Fun); len(x.Args) > 1 || ok && sig.Params().Len() == 1 && !sig.Variadic() || c.info.Types[x.Fun].IsType() {
					wrapAll(x.Args)
				}
			}
			return true
		})
	}
	return mended
}

// wrapReturns takes the error of what a function with one result returns.
func wrapReturns(t *ast.FuncType, body *ast.BlockStmt, wrap func(ast.Expr) ast.Expr) {
	if body == nil || t.Results.NumFields() != 1 {
		return
	}
	ast.Inspect(body, func(n ast.Node) bool {
		switch x := n.(type) {
		case *ast.FuncLit:
			return false
		case *ast.ReturnStmt:
			if len(x.Results) == 1 {
				x.Results[0] = wrap(x.Results[0])
			}
		}
		return true
	})
}

// mendErrorsAlone makes a statement of its own stop the cell when it gives an error.
func (c *Checked) mendErrorsAlone() bool {
	mended := false
	for _, s := range c.stmts {
		if x, ok := s.node.(*ast.ExprStmt); ok {
			if call, ok := ast.Unparen(x.X).(*ast.CallExpr); ok && c.givesPair(call) && !c.prints(call) {
				x.X = c.must(call)
				s.value = x.X
				mended = true
			}
		}
	}
	return mended
}

// prints reports whether a call is one of fmt's Print functions, whose count
// of bytes and error nobody wants to see.
func (c *Checked) prints(call *ast.CallExpr) bool {
	sel, ok := call.Fun.(*ast.SelectorExpr)
	if !ok {
		return false
	}
	o := c.info.Uses[sel.Sel]
	return o != nil && o.Pkg() != nil && o.Pkg().Path() == "fmt" && strings.HasPrefix(o.Name(), "Print")
}

func (c *Checked) signature(fun ast.Expr) (*types.Signature, bool) {
	t := c.info.Types[fun].Type
	if t == nil {
		return nil, false
	}
	s, ok := t.Underlying().(*types.Signature)
	return s, ok
}

func (c *Checked) givesPair(call *ast.CallExpr) bool {
	if t, ok := c.info.Types[call].Type.(*types.Tuple); ok {
		return t.Len() == 2 && types.Identical(t.At(1).Type(), types.Universe.Lookup("error").Type())
	}
	return false
}

// must wraps a call in the made function that panics with its error.
func (p *Parsed) must(call *ast.CallExpr) ast.Expr {
	if !p.needMust {
		p.needMust = true
		f, err := p.parseFile(p.ID+" "+mustName, mustText, parser.SkipObjectResolution)
		if err != nil {
			panic(err) // the text is our own
		}
		p.declFile.Decls = append(p.declFile.Decls, f.Decls...)
	}
	m := &ast.CallExpr{Fun: &ast.Ident{NamePos: call.Pos(), Name: mustName}, Lparen: call.Pos(), Args: []ast.Expr{call}, Rparen: call.End()}
	p.made[m] = true
	return m
}
