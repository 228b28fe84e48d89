package cell

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"strings"

	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// key names a choice: where it stands, by which calls it was reached, and how
// often it was reached that way before.
func (r *runner) key(call exec.Call) string {
	way := r.way(call)
	return fmt.Sprintf("%s#%d", way, r.counted[way])
}

func (r *runner) count(call exec.Call) { r.counted[r.way(call)]++ }

func (r *runner) way(call exec.Call) string {
	var b strings.Builder
	for _, at := range call.Chain {
		b.WriteString(r.place(at))
		b.WriteByte(' ')
	}
	return b.String()
}

func (r *runner) place(pos token.Pos) string {
	f := r.fset.File(pos)
	if f == nil {
		return "?"
	}
	return fmt.Sprintf("%s:%d", f.Name(), f.Offset(pos))
}

// choosing reports whether a function chooses a part that can be bought.
func choosing(path, name string) bool {
	if !strings.HasSuffix(path, "/lib/preferred") {
		return false
	}
	switch name {
	case "Nearest", "AtLeast", "AtMost", "RatioPair", "SeriesPair", "ParallelPair":
		return true
	}
	return false
}

// choice describes a definition that chose a preferred value.
func (r *runner) choice(e ast.Expr) *Choice {
	e = ast.Unparen(e)
	call, ok := e.(*ast.CallExpr)
	if ok && r.made[call] && len(call.Args) > 0 {
		return r.choice(call.Args[0])
	}
	if !ok || len(call.Args) != 2 {
		return nil
	}
	var o types.Object
	switch f := ast.Unparen(call.Fun).(type) {
	case *ast.Ident:
		o = r.info.Uses[f]
	case *ast.SelectorExpr:
		o = r.info.Uses[f.Sel]
	}
	if o == nil || o.Pkg() == nil || !choosing(o.Pkg().Path(), o.Name()) {
		return nil
	}
	rule := map[string]string{"Nearest": "nearest", "AtLeast": "at least", "AtMost": "at most"}[o.Name()]
	if rule == "" {
		return nil
	}
	chosen, ok1 := r.quantityOf(call)
	ideal, ok2 := r.quantityOf(call.Args[1])
	if !ok1 || !ok2 {
		return nil
	}
	series := r.text(call.Args[0])
	if i := strings.LastIndexByte(series, '.'); i >= 0 {
		series = series[i+1:]
	}
	return &Choice{Rule: rule, Series: series, Ideal: ideal, Chosen: chosen, Of: r.formula(call.Args[1], r.values), Kept: r.kept[call.Lparen], Would: r.wouldBe(call.Lparen)}
}

// keeping gives a choice that is kept, in the place of what it would be now.
func (r *runner) keeping(call exec.Call, key string, now []exec.Value) (results []exec.Value, kept bool) {
	if r.env.Would == nil || !r.kept[call.Pos] || !choosing(call.Func.Pkg().Path(), call.Func.Name()) {
		return now, false
	}
	results, ok := r.env.Kept(key)
	if !ok {
		return now, false
	}
	a, ok1 := results[0].V.(units.Quantity)
	b, ok2 := now[0].V.(units.Quantity)
	if failed := len(now) > 1 && now[1].V != nil; ok1 && ok2 && !failed && !a.Identical(b) {
		r.would[call.Pos] = b
		name, _ := r.home(call.Pos)
		r.env.Would(name, a, b)
	}
	return results, true
}

func (r *runner) wouldBe(at token.Pos) *units.Quantity {
	if q, ok := r.would[at]; ok {
		return &q
	}
	return nil
}
