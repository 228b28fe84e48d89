package cell

import (
	"go/ast"
	"go/token"
	"strconv"

	"ohmwright/units"
)

// Limit is what a Require at the top level of a cell sets to a value.
type Limit struct {
	Of    string // the value: "Tj", "loss.Regulator"
	Below bool   // the least that it may be, and not the most
	Name  string // of the limit; "" where it is written out
	Value units.Quantity
}

// Limits lists the limits that the requirements of the cell set to names, as
// far as they are a value that is written out, or a name: Require(Tj <= 125°C,
// …), Require(Within(Vout, Vlow, Vhigh), …).
func (p *Parsed) Limits() []Limit {
	var out []Limit
	add := func(of, limit ast.Expr, below bool) {
		l := Limit{Below: below}
		if id := fieldChain(of); id == nil || isMade(id.Name) {
			return
		}
		l.Of = p.chain(of)
		if id, ok := ast.Unparen(limit).(*ast.Ident); ok && !isMade(id.Name) {
			l.Name = id.Name
			out = append(out, l)
		} else if q, ok := p.written(limit); ok {
			l.Value = q
			out = append(out, l)
		}
	}
	for _, s := range p.stmts {
		call, ok := ast.Unparen(s.value).(*ast.CallExpr)
		if s.value == nil || !ok || len(call.Args) == 0 {
			continue
		}
		if id := calledName(call.Fun); id == nil || id.Name != "Require" {
			continue
		}
		switch cond := ast.Unparen(call.Args[0]).(type) {
		case *ast.BinaryExpr:
			switch cond.Op {
			case token.LSS, token.LEQ:
				add(cond.X, cond.Y, false)
				add(cond.Y, cond.X, true)
			case token.GTR, token.GEQ:
				add(cond.X, cond.Y, true)
				add(cond.Y, cond.X, false)
			}
		case *ast.CallExpr:
			if id := calledName(cond.Fun); id != nil && id.Name == "Within" && len(cond.Args) == 3 {
				add(cond.Args[0], cond.Args[1], true)
				add(cond.Args[0], cond.Args[2], false)
			}
		}
	}
	return out
}

// written is the value of an expression that is one literal, perhaps with
// a sign.
func (p *Parsed) written(e ast.Expr) (units.Quantity, bool) {
	switch x := ast.Unparen(e).(type) {
	case *ast.Ident:
		l, ok := p.literals[x.Name]
		return l.value, ok
	case *ast.BasicLit:
		v, err := strconv.ParseFloat(x.Value, 64)
		return units.Number(v), err == nil
	case *ast.UnaryExpr:
		q, ok := p.written(x.X)
		if ok && x.Op == token.SUB && q.Dim().Kind() != units.PointScale && q.Dim().Kind() != units.LevelScale {
			return q.Neg(), true
		}
		return q, ok && x.Op == token.ADD
	}
	return units.Quantity{}, false
}
