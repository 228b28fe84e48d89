package cell

import (
	"fmt"
	"go/ast"
	"go/token"
	"math"
	"strings"

	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// quantityOf is the value of a traced expression as a quantity.
func (r *runner) quantityOf(e ast.Expr) (units.Quantity, bool) {
	e = ast.Unparen(e)
	if v, ok := r.values[e]; ok {
		switch view := viewOf(v); view.Kind {
		case exec.KindQuantity:
			return view.Quantity.(units.Quantity), true
		case exec.KindNumber:
			return units.Number(view.Number), true
		}
		return units.Quantity{}, false
	}
	if id, ok := e.(*ast.Ident); ok {
		if l, ok := r.literals[id.Name]; ok {
			return l.value, true
		}
	}
	if tv := r.info.Types[e]; tv.Value != nil {
		if view := constantView(tv); view != nil && view.Kind == exec.KindNumber {
			if view.Number == 0 {
				return units.Quantity{}, true
			}
			return units.Number(view.Number), true
		}
	}
	return units.Quantity{}, false
}

// require records a requirement with its margin.
func (r *runner) require(call exec.Call) {
	req := &Requirement{}
	if len(call.Args) > 0 {
		view := exec.Show(nil, call.Args[0])
		req.Holds = view.Text == "true"
	}
	var texts []string
	for _, a := range call.Args[1:] {
		if view := exec.Show(nil, a); view.Kind == exec.KindText {
			texts = append(texts, view.Text)
		} else {
			for _, i := range view.Items {
				texts = append(texts, i.Value.Text)
			}
		}
	}
	req.Text = strings.Join(texts, " ")
	of := r.Program
	if f := r.fset.File(call.Pos); f != nil && f.Name() != r.ID {
		of = r.env.Cell(f.Name())
	}
	var node *ast.CallExpr
	if of != nil {
		node = of.requires[call.Pos]
	}
	line := 1
	if at, ok := r.offset(call.Pos); ok {
		line = r.line(at)
	}
	for _, s := range r.stmts {
		if node != nil && s.value != nil && ast.Unparen(s.value) == ast.Expr(node) {
			req.About = s.about
		}
	}
	if node != nil {
		cond := ast.Unparen(node.Args[0])
		there := *r
		there.Program = of
		if !r.env.lean && !r.env.Bare {
			req.Condition = there.formula(cond, r.values)
		}
		there.judge(req, cond)
		if req.Text == "" {
			req.Text = of.text(cond)
		}
	}
	r.steps = append(r.steps, Step{Line: line, Require: req, Key: r.keyOf(call)})
}

// keyOf is the key of a Require or Spread.
func (r *runner) keyOf(call exec.Call) string {
	n := r.reached[call.Pos]
	r.reached[call.Pos]++
	return fmt.Sprintf("%s#%d", r.place(call.Pos), n)
}

// judge finds the distance to the limit, which is positive where the
// requirement holds.
func (r *runner) judge(req *Requirement, cond ast.Expr) {
	defer func() {
		if recover() != nil { // dimensions that do not subtract were refused by the comparison itself
			req.Margin = nil
		}
	}()
	switch x := cond.(type) {
	case *ast.BinaryExpr:
		a, ok1 := r.quantityOf(x.X)
		b, ok2 := r.quantityOf(x.Y)
		if !ok1 || !ok2 {
			return
		}
		var d units.Quantity
		switch x.Op {
		case token.LSS, token.LEQ:
			d = margin(b, a)
		case token.GTR, token.GEQ:
			d = margin(a, b)
		default:
			r.alike(req, x.Op == token.EQL, a.Sub(b))
			return
		}
		req.Margin, req.Strict = &d, x.Op == token.LSS || x.Op == token.GTR
		if d.SI() == 0 {
			req.Holds = !req.Strict
		}
	case *ast.CallExpr:
		if len(x.Args) != 3 {
			return
		}
		v, ok1 := r.quantityOf(x.Args[0])
		lo, ok2 := r.quantityOf(x.Args[1])
		hi, ok3 := r.quantityOf(x.Args[2])
		if !ok1 || !ok2 || !ok3 {
			return
		}
		d := units.Min(margin(v, lo), margin(hi, v))
		req.Margin = &d
		if d.SI() == 0 {
			req.Holds = true
		}
	}
}

// rounding is what the last digits of a computation may come to, beside its
// numbers: 0.8 V · (1 + 30 kΩ/6 kΩ) is 4.8 V and less than 10⁻¹⁵ of it.
const rounding = 1e-14

// margin is a − b, and nothing where only rounding parts the two: a limit that
// is met exactly is met, and no femtovolt is shown that nobody computed.
func margin(a, b units.Quantity) units.Quantity {
	d := a.Sub(b)
	return units.Lanewise("a margin", d, func(x []float64) float64 {
		if math.Abs(x[0]) <= rounding*max(math.Abs(x[1]), math.Abs(x[2])) {
			return 0
		}
		return x[0]
	}, d, a, b)
}

// alike judges == and != in all cases; d is the difference of the sides.
func (r *runner) alike(req *Requirement, equal bool, d units.Quantity) {
	low, high, ok := d.Extremes()
	if !ok || r.env.Study == nil {
		return
	}
	in := func(describe func(units.Case) string) string {
		switch {
		case equal && low.Value.SI() < 0:
			return describe(low.Case)
		case equal && high.Value.SI() > 0:
			return describe(high.Case)
		case !equal && low.Value.SI() <= 0 && high.Value.SI() >= 0:
			return "both sides are equal, somewhere between " + describe(low.Case) + " and " + describe(high.Case)
		}
		return ""
	}
	req.FailsWhere, req.FailsAll = in(r.env.Study.Describe), in(r.env.Study.DescribeAll)
}

// spreadOf records a Spread.
func (r *runner) spreadOf(call exec.Call) {
	x, ok := call.Args[0].V.(units.Quantity)
	if !ok {
		return
	}
	step := Step{Line: 1, Spread: &SpreadOf{Value: x}, Key: r.keyOf(call)}
	if at, ok := r.offset(call.Pos); ok {
		step.Line = r.line(at)
	}
	if c := r.callAt(call.Pos); c != nil && len(c.Args) == 1 && !r.env.lean && !r.env.Bare {
		step.Spread.Formula = r.formula(c.Args[0], r.values)
	}
	r.steps = append(r.steps, step)
}
