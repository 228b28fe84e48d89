package render

import (
	"strconv"
	"strings"

	"ohmwright/kernel/cell"
)

// functionNames are the functions that have a symbol of their own (ISO
// 80000-2); ln and lg would do for both logarithms, but lg is not read by
// everybody in the trade.
var functionNames = map[string]function{
	"Exp": {name: "exp"}, "Ln": {name: "ln"}, "Log10": {name: "log", base: "10"},
	"Min": {name: "min"}, "Max": {name: "max"},
	"Sin": {name: "sin"}, "Cos": {name: "cos"}, "Tan": {name: "tan"}, "Atan": {name: "arctan"},
	"math.Exp": {name: "exp"}, "math.Log": {name: "ln"}, "math.Log10": {name: "log", base: "10"},
	"math.Log2": {name: "log", base: "2"}, "math.Min": {name: "min"}, "math.Max": {name: "max"},
	"math.Sin": {name: "sin"}, "math.Cos": {name: "cos"}, "math.Tan": {name: "tan"}, "math.Atan": {name: "arctan"},
	"min": {name: "min"}, "max": {name: "max"},
}

// choiceWords are the preferred-number functions: the words before the
// series and between it and what is rounded.
var choiceWords = map[string][2]string{
	"Nearest": {"nearest ", " to "},
	"AtLeast": {"smallest ", " of at least "},
	"AtMost":  {"largest ", " of at most "},
}

func (b *builder) call(e *cell.Expr) term {
	args := e.Args
	name := strings.TrimPrefix(e.Text, "units.")
	switch {
	case (name == "Sqrt" || name == "math.Sqrt") && len(args) == 1:
		return b.root(args[0])
	case (name == "Pow" || name == "math.Pow") && len(args) == 2:
		return b.power(args[0], args[1])
	case (name == "Abs" || name == "math.Abs") && len(args) == 1:
		return b.absolute(args[0])
	case name == "Parallel" && len(args) >= 1:
		return b.parallel(args)
	case name == "Within" && len(args) == 3:
		lo, x, hi := b.at(args[1], precParallel), b.at(args[0], precParallel), b.at(args[2], precParallel)
		return term{node: &row{[]node{lo.node, &sign{"≤", true}, x.node, &sign{"≤", true}, hi.node}}, prec: precCompare}
	case (name == "In" || name == "float64") && len(args) >= 1:
		return b.expr(args[0]) // the value is the same; its unit shows in the result
	}
	if v, ok := b.selected(name, e); ok {
		return v
	}
	if w, ok := choiceWords[strings.TrimPrefix(name, "preferred.")]; ok && len(args) == 2 {
		return b.choice(w, args[0], b.expr(args[1]))
	}
	if f, ok := functionNames[name]; ok {
		return b.join(&function{f.name, f.base}, &fence{"(", ")", b.list(args)})
	}
	if method, ok := strings.CutPrefix(e.Text, "."); ok && len(args) >= 1 {
		return b.join(b.at(args[0], precAtom).node, &sign{".", false}, &function{name: method}, &fence{"(", ")", b.list(args[1:])})
	}
	return b.join(&function{name: e.Text}, &fence{"(", ")", b.list(args)})
}

// selected draws High(Vin) in a line of numbers as the value that it takes:
// High(24 V) would show the one that it does not take.
func (b *builder) selected(name string, e *cell.Expr) (term, bool) {
	if !b.numbers || len(e.Args) != 1 || !chain(e.Args[0]) {
		return term{}, false
	}
	switch name {
	case "High", "Low", "Nominal", "Typical", "Another":
	default:
		return term{}, false
	}
	if q, ok := quantityOf(e); ok {
		return b.quantity(q, b.digits), true
	}
	q, ok := quantityOf(e.Args[0])
	if !ok {
		return term{}, false
	}
	low, high, limited := q.Limits()
	switch {
	case limited && name == "High":
		q = high
	case limited && name == "Low":
		q = low
	case q.HasSpread() && (name == "High" || name == "Low"):
		return term{}, false
	}
	return b.quantity(q, b.digits), true
}

func (b *builder) choice(w [2]string, series *cell.Expr, of term) term {
	var s node = &words{series.Text}
	if series.Kind != cell.ExprName {
		s = b.at(series, precAtom).node
	}
	return term{node: &row{[]node{&words{w[0]}, s, &words{w[1]}, of.node}}, prec: precWords}
}

func (b *builder) root(x *cell.Expr) term {
	body := b.expr(x)
	if b.linear {
		body = b.bracketed(body, precAtom) // there is no bar over it
	}
	return term{node: &root{body.node}, prec: precPower}
}

func (b *builder) power(x, n *cell.Expr) term {
	base := b.at(x, precAtom)
	var exponent node
	if b.linear {
		exponent = b.exponent(n)
	} else {
		exponent = b.expr(n).node
	}
	return term{node: &power{base.node, exponent}, prec: precPower}
}

// exponent of a line of text: a whole number can be raised, anything else
// stands behind ^ and must hold together there.
func (b *builder) exponent(n *cell.Expr) node {
	t := b.expr(n)
	if _, err := strconv.Atoi(strings.Replace(writePlain(t.node), "−", "-", 1)); err == nil {
		return t.node
	}
	return b.bracketed(t, precAtom).node
}

func (b *builder) absolute(x *cell.Expr) term {
	if containsAbs(x) {
		// ||a| − b| cannot be read: bars open and close alike.
		return b.join(&function{name: "abs"}, &fence{"(", ")", b.expr(x).node})
	}
	return term{node: &fence{"|", "|", b.expr(x).node}, prec: precAtom}
}

func containsAbs(e *cell.Expr) bool {
	if e == nil {
		return false
	}
	if e.Kind == cell.ExprCall && (strings.HasSuffix(e.Text, "Abs")) {
		return true
	}
	for _, a := range e.Args {
		if containsAbs(a) {
			return true
		}
	}
	return false
}

func (b *builder) parallel(args []*cell.Expr) term {
	if len(args) == 1 {
		return b.expr(args[0])
	}
	r := &row{}
	for i, a := range args {
		if i > 0 {
			r.parts = append(r.parts, &sign{"∥", true})
		}
		t := b.at(a, precFraction)
		if t.slashed {
			t = b.fenced(t)
		}
		r.parts = append(r.parts, t.node)
	}
	return term{node: r, prec: precParallel}
}
