package cell

import (
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"slices"
	"strconv"
	"strings"
)

// rulesOfText refuses what a calculation has no use for, from the syntax alone.
func (p *Parsed) rulesOfText() []*Error {
	var errs []*Error
	refuse := func(n ast.Node, msg, hint string) {
		errs = append(errs, p.errorAt(n.Pos(), CodeRefused, msg, hint))
	}
	for _, f := range []*ast.File{p.declFile, p.stmtFile} {
		ast.Inspect(f, func(n ast.Node) bool {
			switch x := n.(type) {
			case *ast.GoStmt:
				refuse(n, "go is not available in cells", "a note is a calculation: call the function directly")
			case *ast.SelectStmt:
				refuse(n, "select is not available in cells", "a note is a calculation, it has no channels")
			case *ast.ChanType:
				refuse(n, "channels are not available in cells", "a note is a calculation: use a slice")
			case *ast.SendStmt:
				refuse(n, "channels are not available in cells", "a note is a calculation: use a slice")
			case *ast.BasicLit:
				if x.Kind == token.IMAG {
					refuse(n, "complex numbers are not available in cells", "work with magnitude and phase")
				}
			case *ast.BinaryExpr:
				if x.Op == token.XOR && decimal(x.Y) {
					refuse(&ast.Ident{NamePos: x.OpPos}, "^ is not a power in Go, it flips bits", p.powerHint(x))
				}
			case *ast.AssignStmt:
				if x.Tok == token.XOR_ASSIGN && decimal(x.Rhs[0]) {
					refuse(&ast.Ident{NamePos: x.TokPos}, "^= is not a power in Go, it flips bits", "write Pow(x, n), or a mask in hexadecimal for exclusive or")
				}
			}
			return true
		})
	}
	return errs
}

func (p *Parsed) powerHint(x *ast.BinaryExpr) string {
	return "write Pow(" + p.text(x.X) + ", " + p.text(x.Y) + ") for the power, or the mask in hexadecimal for exclusive or"
}

// decimal reports whether e is a whole number as people write exponents.
func decimal(e ast.Expr) bool {
	switch x := ast.Unparen(e).(type) {
	case *ast.BasicLit:
		return x.Kind == token.FLOAT || x.Kind == token.INT && !(len(x.Value) > 1 && x.Value[0] == '0')
	case *ast.UnaryExpr:
		return x.Op == token.SUB && decimal(x.X)
	}
	return false
}

// end is where a node ends in the source. A literal that the scan renamed is
// as long as it was typed, not as its name is.
func (p *Parsed) end(n ast.Node) token.Pos {
	last := func(list []ast.Expr) token.Pos { return p.end(list[len(list)-1]) }
	switch x := n.(type) {
	case *ast.Ident:
		if l, ok := p.literals[x.Name]; ok && l.text == "" {
			return x.NamePos + token.Pos(l.end-l.start)
		}
		if width, ok := p.widths[x]; ok {
			return x.NamePos + token.Pos(width)
		}
	case *ast.BinaryExpr:
		return p.end(x.Y)
	case *ast.UnaryExpr:
		return p.end(x.X)
	case *ast.StarExpr:
		return p.end(x.X)
	case *ast.KeyValueExpr:
		return p.end(x.Value)
	case *ast.ExprStmt:
		return p.end(x.X)
	case *ast.AssignStmt:
		return last(x.Rhs)
	case *ast.ValueSpec:
		if len(x.Values) > 0 {
			return last(x.Values)
		}
	case *ast.DeclStmt:
		if g, ok := x.Decl.(*ast.GenDecl); ok && !g.Lparen.IsValid() && len(g.Specs) == 1 {
			return p.end(g.Specs[0])
		}
	case *ast.ReturnStmt:
		if len(x.Results) > 0 {
			return last(x.Results)
		}
	case *ast.CallExpr:
		if p.made[x] {
			return last(x.Args)
		}
	}
	return n.End()
}

// text is the source of a node as the user typed it.
func (p *Parsed) text(n ast.Node) string {
	from, ok1 := p.offset(n.Pos())
	to, ok2 := p.offset(p.end(n))
	if !ok1 || !ok2 || from < 0 || to > len(p.Src) || from > to {
		if e, ok := n.(ast.Expr); ok { // of an override
			return madeLiteral.ReplaceAllStringFunc(types.ExprString(e), func(s string) string {
				if l, ok := p.literals[s]; ok && l.text != "" {
					return l.text
				}
				return s
			})
		}
		return "…"
	}
	return strings.TrimSpace(p.Src[from:to])
}

// rulesOfTypes refuses what Go accepts and a reader would take for something else.
func (c *Checked) rulesOfTypes() []*Error {
	p := c.Parsed
	var errs []*Error
	refuse := func(pos token.Pos, msg, hint string) {
		errs = append(errs, p.errorAt(pos, CodeRefused, msg, hint))
	}
	isQ := func(t types.Type) bool { return t != nil && types.Identical(t, c.quantity) }
	for _, f := range []*ast.File{p.declFile, p.stmtFile} {
		ast.Inspect(f, func(n ast.Node) bool {
			switch x := n.(type) {
			case *ast.BinaryExpr:
				if x.Op == token.QUO {
					c.wholeDivision(x.X, x.Y, x.OpPos, refuse)
				}
			case *ast.ArrayType:
				if a, ok := c.info.TypeOf(x).(*types.Array); ok && a.Len() > largestArray {
					refuse(x.Pos(), "an array of "+strconv.FormatInt(a.Len(), 10)+" elements is too large for a note", "use a slice, and make it as long as it has to be")
				}
			case *ast.TypeSpec:
				if !x.Assign.IsValid() && isQ(c.info.Types[x.Type].Type) {
					refuse(x.Pos(), "a type cannot be made from Quantity", "use Quantity itself, or a struct with a Quantity field")
				}
			case *ast.CallExpr:
				tv := c.info.Types[x.Fun]
				if !tv.IsType() || len(x.Args) != 1 || p.made[x] {
					break
				}
				from, to := c.info.Types[x.Args[0]], tv.Type
				if from.Value != nil && !isQ(from.Type) {
					break
				}
				switch {
				case isQ(from.Type) && !isQ(to):
					b, ok := to.Underlying().(*types.Basic)
					if ok && b.Kind() == types.Float64 {
						break // checked when it runs: only a plain number has a float64
					}
					if ok && b.Info()&types.IsNumeric != 0 {
						hint := "divide by a unit, take float64 of the ratio and say how to round: " + to.String() + "(math.Round(float64(x/1V)))"
						if b.Info()&types.IsFloat != 0 {
							hint = "take float64 of a ratio without a unit, float64(x/1V)"
						}
						refuse(x.Pos(), to.String()+"("+p.text(x.Args[0])+") would drop the unit or the fraction", hint)
					}
				case isPointerTo(from.Type, c.quantity) != isPointerTo(to, c.quantity) && isPointer(from.Type) && isPointer(to):
					refuse(x.Pos(), "a pointer to a quantity's number is not available in cells", "")
				}
			}
			return true
		})
	}
	for id, o := range c.info.Uses {
		if o.Pkg() == nil && slices.Contains([]string{"complex", "real", "imag", "complex64", "complex128"}, o.Name()) {
			refuse(id.Pos(), o.Name()+": complex numbers are not available in cells", "work with magnitude and phase")
		}
		if r := c.scope.World.Refused(o); r != nil {
			errs = append(errs, p.errorAt(id.Pos(), CodeRefused, r.Msg, r.Hint))
		}
	}
	errs = append(errs, c.requirements()...)
	errs = append(errs, c.misplaced()...)
	errs = append(errs, c.unnamedTables()...)
	errs = append(errs, c.misplacedWhy()...)
	errs = append(errs, c.misplacedParts()...)
	errs = append(errs, c.trendArguments()...)
	errs = append(errs, c.markdownRules()...)
	return errs
}

// largestArray is more than any calculation keeps on the spot.
const largestArray = 1 << 22

func isPointer(t types.Type) bool {
	_, ok := t.Underlying().(*types.Pointer)
	return ok
}

func isPointerTo(t, elem types.Type) bool {
	ptr, ok := t.Underlying().(*types.Pointer)
	return ok && types.Identical(ptr.Elem(), elem)
}

// wholeDivision refuses 1/2, which Go takes for 0.
func (c *Checked) wholeDivision(x, y ast.Expr, at token.Pos, refuse func(token.Pos, string, string)) {
	if !c.wholeConstant(x) || !c.wholeConstant(y) {
		return
	}
	a, b := constant.ToInt(c.info.Types[x].Value), constant.ToInt(c.info.Types[y].Value)
	if a.Kind() != constant.Int || b.Kind() != constant.Int || constant.Sign(b) == 0 {
		return
	}
	if rest := constant.BinaryOp(a, token.REM, b); constant.Sign(rest) != 0 {
		q := constant.BinaryOp(a, token.QUO_ASSIGN, b)
		exact, _ := constant.Float64Val(constant.BinaryOp(constant.ToFloat(a), token.QUO, constant.ToFloat(b)))
		refuse(at, c.Parsed.text(x)+"/"+c.Parsed.text(y)+" is a division of whole numbers, which Go cuts to "+q.String(),
			"write "+decimalText(exact, c.Parsed.text(x), c.Parsed.text(y)))
	}
}

// wholeConstant reports whether e is a whole-number constant by its own
// nature; in 1/2*x the checker has given 1 and 2 the type of x by now.
func (c *Checked) wholeConstant(e ast.Expr) bool {
	if c.info.Types[e].Value == nil {
		return false
	}
	switch x := ast.Unparen(e).(type) {
	case *ast.BasicLit:
		return x.Kind == token.INT || x.Kind == token.CHAR
	case *ast.UnaryExpr:
		return c.wholeConstant(x.X)
	case *ast.BinaryExpr:
		switch x.Op {
		case token.SHL, token.SHR:
			return c.wholeConstant(x.X)
		case token.ADD, token.SUB, token.MUL, token.QUO, token.REM, token.AND, token.OR, token.XOR, token.AND_NOT:
			return c.wholeConstant(x.X) && c.wholeConstant(x.Y)
		}
		return false
	case *ast.Ident:
		return isWhole(c.info.ObjectOf(x))
	case *ast.SelectorExpr:
		return isWhole(c.info.ObjectOf(x.Sel))
	}
	b, ok := c.info.Types[e].Type.Underlying().(*types.Basic)
	return ok && b.Info()&types.IsInteger != 0
}

func isWhole(o types.Object) bool {
	k, ok := o.(*types.Const)
	if !ok {
		return false
	}
	b, ok := k.Type().Underlying().(*types.Basic)
	return ok && b.Info()&types.IsInteger != 0
}

// requirements holds the form of Require: the comparison itself stands there,
// so that the margin can be shown.
func (c *Checked) requirements() []*Error {
	p := c.Parsed
	var errs []*Error
	for _, f := range []*ast.File{p.declFile, p.stmtFile} {
		ast.Inspect(f, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || !c.isBuiltin(call.Fun, "Require") || len(call.Args) == 0 {
				return true
			}
			cond := ast.Unparen(call.Args[0])
			switch x := cond.(type) {
			case *ast.BinaryExpr:
				switch x.Op {
				case token.LSS, token.LEQ, token.GTR, token.GEQ, token.EQL, token.NEQ:
					return true
				case token.LAND, token.LOR:
					hint := "write one Require for each side, so that each shows its own margin"
					if x.Op == token.LOR {
						hint = "compare with Min or Max of the two, so that there is one margin"
					}
					errs = append(errs, p.errorAt(x.OpPos, CodeRefused, "Require takes one comparison, and "+x.Op.String()+" joins two", hint))
					return true
				}
			case *ast.CallExpr:
				if c.isBuiltin(x.Fun, "Within") {
					return true
				}
			}
			errs = append(errs, p.errorAt(cond.Pos(), CodeRefused, "Require needs the comparison itself, and "+p.text(cond)+" is only its outcome",
				"write it out, Require(Tj <= 125°C, …) or Require(Within(x, lo, hi), …), so that the margin can be shown"))
			return true
		})
	}
	return errs
}

func (c *Checked) isBuiltin(fun ast.Expr, name string) bool {
	id, ok := ast.Unparen(fun).(*ast.Ident)
	if !ok || id.Name != name {
		return false
	}
	o := c.info.Uses[id]
	return o != nil && o.Pkg() != nil && strings.HasSuffix(o.Pkg().Path(), "/kernel/cell/builtin")
}
