package cell

import (
	"go/ast"
	"go/types"
	"reflect"
	"strings"

	"ohmwright/kernel/cell/exec"
	"ohmwright/lib/plot"
	"ohmwright/units"
)

// Trend is what Trend(y, x, from, to) asks the note for: y at each of At, with
// x held there.
type Trend struct {
	Y, X string // "loss.Regulator", "Iout"
	At   []units.Quantity
	// Key finds the Trend again when the cell is computed again.
	Key string
	Env Env // of the cell that asks
}

// trending reports whether a built-in is Trend or TrendLog.
func trending(name string) bool { return name == "Trend" || name == "TrendLog" }

// trend answers a Trend. A cell that is computed again in one case has its
// points from the ordinary run, which knows all cases.
func (r *runner) trend(call exec.Call) ([]exec.Value, error) {
	key := r.keyOf(call)
	result := exec.Value{Type: call.Func.Signature().Results().At(0).Type()}
	if known, ok := r.env.drawn[key]; ok {
		return []exec.Value{exec.EachQuantity(known[0], r.env.pick)}, nil
	}
	node := r.callAt(call.Pos)
	if node == nil || r.env.Trend == nil {
		return nil, &exec.Fault{Msg: call.Func.Name() + " stands in a function that another cell calls",
			Hint: "write it where its picture is to be: it takes names of the note"}
	}
	at, err := trendPoints(call)
	if err != nil {
		return nil, err
	}
	t := Trend{Y: r.chain(node.Args[0]), X: r.chain(node.Args[1]), At: at, Key: key, Env: r.env}
	y, marks, err := r.env.Trend(t)
	if err != nil {
		return nil, &exec.Fault{Msg: err.Error()}
	}
	f := plot.Figure{XName: t.X, YName: t.Y, LogX: call.Func.Name() == "TrendLog", Series: []plot.Series{{Name: t.Y, X: at, Y: y}}, Marks: marks}
	if _, err := plot.New(f); err != nil {
		return nil, &exec.Fault{Msg: strings.Replace(err.Error(), "plot.New: ", call.Func.Name()+": ", 1)}
	}
	result = r.code.FromGo(result.Type, reflect.ValueOf(f))
	r.trends[key] = []exec.Value{exec.Copy(result)}
	return []exec.Value{result}, nil
}

// trendPoints are the values of x at which a Trend computes y.
func trendPoints(call exec.Call) ([]units.Quantity, error) {
	const points = 61
	name := call.Func.Name()
	var q [4]units.Quantity
	for i := range q {
		q[i], _ = call.Args[i].V.(units.Quantity)
	}
	x, from, to := q[1], q[2], q[3]
	steps := plot.Steps
	if name == "TrendLog" {
		steps = plot.StepsLog
	}
	list, err := steps(from, to, points)
	if err != nil {
		_, text, _ := strings.Cut(err.Error(), ": ")
		return nil, &exec.Fault{Msg: name + " cannot draw this", Hint: text}
	}
	if to.Dim() != x.Dim() || to.SIUnit() != x.SIUnit() {
		return nil, &exec.Fault{Msg: name + " goes from " + from.String() + " to " + to.String() + " over a name that is " + units.Nominal(x).String(),
			Hint: "write both ends in its unit"}
	}
	return list, nil
}

// Trends lists the calls of Trend in the cell: what it draws over what, as far
// as they take names.
func (p *Parsed) Trends() (list [][2]string) {
	for _, f := range []*ast.File{p.declFile, p.stmtFile} {
		if f == nil {
			continue
		}
		ast.Inspect(f, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok {
				return true
			}
			if id := calledName(call.Fun); id != nil && trending(id.Name) && len(call.Args) == 4 {
				list = append(list, [2]string{p.chain(call.Args[0]), p.chain(call.Args[1])})
			}
			return true
		})
	}
	return list
}

// fieldChain is the name at the start of a value that is a name, or a field
// of one; nil for anything else.
func fieldChain(e ast.Expr) *ast.Ident {
	for {
		switch x := ast.Unparen(e).(type) {
		case *ast.Ident:
			return x
		case *ast.SelectorExpr:
			e = x.X
		default:
			return nil
		}
	}
}

// chain is the text of a name with fields behind it, as the note calls it.
func (p *Parsed) chain(e ast.Expr) string {
	if fieldChain(e) == nil {
		return p.text(e)
	}
	if sel, ok := ast.Unparen(e).(*ast.SelectorExpr); ok {
		return p.chain(sel.X) + "." + sel.Sel.Name
	}
	return ast.Unparen(e).(*ast.Ident).Name
}

// trendArguments refuses a Trend of anything but names of the note.
func (c *Checked) trendArguments() []*Error {
	var errs []*Error
	for _, f := range []*ast.File{c.declFile, c.stmtFile} {
		ast.Inspect(f, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || len(call.Args) != 4 {
				return true
			}
			for _, name := range []string{"Trend", "TrendLog"} {
				if !c.isBuiltin(call.Fun, name) {
					continue
				}
				for i, a := range call.Args[:2] {
					if e := c.trendArgument(name, i, a); e != nil {
						errs = append(errs, e)
					}
				}
			}
			return true
		})
	}
	return errs
}

func (c *Checked) trendArgument(name string, i int, a ast.Expr) *Error {
	_, plain := ast.Unparen(a).(*ast.Ident)
	id := fieldChain(a)
	var v *types.Var
	if id != nil && (plain || i == 0) {
		v, _ = c.info.Uses[id].(*types.Var)
	}
	if v == nil || v.Pkg() == nil || v.Parent() != v.Pkg().Scope() || v.Pkg().Path() != NotePath || isMade(id.Name) {
		what := "what " + name + " draws is a name of the note, or a field of one"
		if i == 1 {
			what = "what " + name + " draws it over is a name of the note"
		}
		return c.errorAt(a.Pos(), CodeRefused, what+", and "+c.text(a)+" is none", "give it a name in a cell above, and write "+name+"(y, x, from, to) with the two names")
	}
	if v.Pkg() == c.pkg {
		return c.errorAt(a.Pos(), CodeRefused, name+" computes other cells anew, and "+id.Name+" is defined in its own", "put "+name+" into a cell of its own")
	}
	return nil
}
