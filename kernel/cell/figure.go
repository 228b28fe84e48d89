package cell

import (
	"errors"
	"fmt"
	"go/ast"
	"go/types"
	"reflect"
	"strings"

	"ohmwright/kernel/cell/exec"
	"ohmwright/lib/plot"
	"ohmwright/lib/powertree"
	"ohmwright/units"
)

// plotType is the name of a type of package plot, "" for any other.
func plotType(t types.Type) string {
	n, ok := types.Unalias(t).(*types.Named)
	if !ok || n.Obj().Pkg() == nil || !strings.HasSuffix(n.Obj().Pkg().Path(), "/lib/plot") {
		return ""
	}
	return n.Obj().Name()
}

// isSeriesList reports whether a type is a list of series.
func isSeriesList(t types.Type) bool {
	s, ok := t.Underlying().(*types.Slice)
	return ok && plotType(s.Elem()) == "Series"
}

// isFigure reports whether values of a type are shown as a picture.
func isFigure(t types.Type) bool {
	name := plotType(t)
	return name == "Figure" || name == "Series" || isSeriesList(t) || isTree(t)
}

// isTree reports whether a type is that of a power tree.
func isTree(t types.Type) bool {
	n, ok := types.Unalias(t).(*types.Named)
	return ok && n.Obj().Pkg() != nil && strings.HasSuffix(n.Obj().Pkg().Path(), "/lib/powertree") && n.Obj().Name() == "Result"
}

// treeOf is the power tree of a value; nil where it was never computed.
func treeOf(v exec.Value) (*powertree.Result, error) {
	x, err := exec.ToGo(v, reflect.TypeFor[powertree.Result]())
	if err != nil {
		return nil, err
	}
	tree := x.Interface().(powertree.Result)
	if len(tree.Rails) == 0 || len(tree.Modes) == 0 {
		return nil, errors.New("the power tree is empty: make it with powertree.Compute")
	}
	return &tree, nil
}

// figureOf makes a figure of what is shown as a picture, and checks it.
func figureOf(v exec.Value) (plot.Figure, error) {
	var f plot.Figure
	into := reflect.ValueOf(&f).Elem()
	switch {
	case isSeriesList(v.Type):
		into = into.FieldByName("Series")
	case plotType(v.Type) == "Series":
		f.Series = make([]plot.Series, 1)
		into = into.FieldByName("Series").Index(0)
	}
	x, err := exec.ToGo(v, into.Type())
	if err != nil {
		return f, err
	}
	into.Set(x)
	return plot.New(f)
}

// view is what is shown of the value of a name: of a figure one line, not all
// of its data.
func (r *runner) view(run *exec.Run, v exec.Value) View {
	if !isFigure(v.Type) {
		return exec.Show(run, v)
	}
	if isTree(v.Type) {
		tree, err := treeOf(v)
		if err != nil {
			return View{Kind: exec.KindOther, Text: "power tree"}
		}
		most := units.Nominal(tree.MostPower)
		return View{Kind: exec.KindOther, Text: fmt.Sprintf("power tree, %d rails, %s from the source at most, in %s", len(tree.Rails), most, tree.MostPowerIn)}
	}
	f, err := figureOf(v)
	if err != nil { // whoever shows it is told
		return View{Kind: exec.KindOther, Text: "figure"}
	}
	points := 0
	for _, s := range f.Series {
		points += len(s.X)
	}
	switch {
	case plotType(v.Type) == "Series":
		return View{Kind: exec.KindOther, Text: fmt.Sprintf("series, %d points", points)}
	case isSeriesList(v.Type):
		return View{Kind: exec.KindOther, Text: fmt.Sprintf("list of %d series, %d points", len(f.Series), points)}
	case len(f.Series) == 1 && f.YName != "" && f.XName != "":
		return View{Kind: exec.KindOther, Text: fmt.Sprintf("figure, %s over %s, %d points", f.YName, f.XName, points)}
	case len(f.Series) == 1:
		return View{Kind: exec.KindOther, Text: fmt.Sprintf("figure, 1 curve, %d points", points)}
	}
	return View{Kind: exec.KindOther, Text: fmt.Sprintf("figure, %d curves, %d points", len(f.Series), points)}
}

// figure records a figure that stands alone.
func (r *runner) figure(s *statement, v exec.Value) {
	shown := &ShownFigure{Formula: r.formula(s.value, nil), of: ast.Unparen(s.value), value: v}
	r.steps = append(r.steps, Step{Line: s.line, Figure: shown})
	r.draw(shown)
}

// draw makes the figure of the value that is shown.
func (r *runner) draw(shown *ShownFigure) {
	var err error
	if isTree(shown.value.Type) {
		if shown.Tree, err = treeOf(shown.value); err != nil {
			r.failed = r.errorAt(shown.of.Pos(), CodeRefused, "the power tree cannot be drawn", err.Error())
		}
		return
	}
	if shown.Figure, err = figureOf(shown.value); err != nil {
		r.failed = r.errorAt(shown.of.Pos(), CodeRefused, "the figure cannot be drawn", strings.TrimPrefix(err.Error(), "plot.New: "))
	}
}

// standing lists the expressions of the cell whose values are shown for
// themselves, as text or picture.
func (p *Program) standing() (list []ast.Expr) {
	for _, s := range p.stmts {
		if s.value == nil || s.quiet {
			continue
		}
		e := ast.Unparen(s.value)
		tv := p.info.Types[e]
		if _, several := tv.Type.(*types.Tuple); tv.Type != nil && tv.Value == nil && !tv.IsVoid() && !several {
			list = append(list, e)
		}
	}
	return list
}

// keepShown keeps, of a run in one case, what is shown for itself.
func (r *runner) keepShown() {
	r.stood = map[ast.Expr]exec.Value{}
	for _, e := range r.standing() {
		if v, ok := r.values[e]; ok {
			r.stood[e] = v
		}
	}
}

// joinShown shows what stands for itself as it is in all cases.
func (r *runner) joinShown(runs []*runner, join func(units.Quantity, []units.Quantity) units.Quantity) {
	others := func(e ast.Expr) (list []exec.Value) {
		for _, one := range runs {
			if v, ok := one.stood[e]; ok {
				list = append(list, v)
			}
		}
		return list
	}
	for i := range r.steps {
		if figure := r.steps[i].Figure; figure != nil {
			if list := others(figure.of); len(list) == len(runs) {
				figure.value, _ = exec.Join(figure.value, list, join)
				r.draw(figure)
			}
		}
		if shown := r.steps[i].Shown; shown != nil && shown.of != nil {
			if list := others(shown.of); len(list) == len(runs) {
				shown.value, _ = exec.Join(shown.value, list, join)
			}
		}
	}
}
