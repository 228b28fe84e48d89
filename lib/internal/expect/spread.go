package expect

import (
	"math"
	"reflect"
	"slices"
	"strings"

	"ohmwright/units"
)

// Spread holds that every case of a value with spread gives what the function
// gives of the exact value in it, that nothing on the way decides for all
// cases, and that all results have spread but those named, which do not depend
// on the value. A name stands for all that is inside, too; of what moves in
// some parts only, "*" says nothing. It returns the results.
func Spread(t T, name string, value units.Quantity, call func(x units.Quantity) (any, error), without ...string) map[string]units.Quantity {
	t.Helper()
	study := units.NewStudy(units.StudyOptions{Boards: 20})
	results := EveryCase(t, name, study, []units.Quantity{study.Place("x", "x", value)}, func(x []units.Quantity) (any, error) { return call(x[0]) })
	if slices.Contains(without, "*") {
		return results
	}
	for field, x := range results {
		fixed := slices.ContainsFunc(without, func(w string) bool {
			return field == w || strings.HasPrefix(field, w) && strings.ContainsAny(field[len(w):len(w)+1], ".[")
		})
		if x.HasSpread() == fixed {
			t.Errorf("%s: %s has spread: %v", name, field, x.HasSpread())
		}
	}
	return results
}

// SpreadOfAll is Spread of several values at once, each a fifth to both
// sides, a temperature 10 K; some result is to have spread.
func SpreadOfAll(t T, name string, values []string, call func(x []units.Quantity) (any, error)) {
	t.Helper()
	study := units.NewStudy(units.StudyOptions{Boards: 20})
	var x []units.Quantity
	for _, text := range values {
		v := units.MustParse(text)
		way := units.MustParse("10 K")
		if v.Dim().Kind() != units.PointScale {
			way = v.Mul(units.Number(0.2))
		}
		x = append(x, study.Place(text, text, units.Range(v.Sub(way), v, v.Add(way))))
	}
	for _, r := range EveryCase(t, name, study, x, call) {
		if r.HasSpread() {
			return
		}
	}
	t.Errorf("%s: no result has spread", name)
}

// EveryCase calls a function with placed values, and with what they are in
// each case by itself. It holds that both give the same, and that nothing
// decides for all cases, and returns what the call with spread gives. One of
// another kind in the place of a value must not end in a refusal of the
// arithmetic.
func EveryCase(t T, name string, study *units.Study, x []units.Quantity, call func(x []units.Quantity) (any, error)) map[string]units.Quantity {
	t.Helper()
	result, err := call(x)
	if err != nil {
		t.Errorf("%s: %v", name, err)
		return nil
	}
	if splits, n := study.TakeSplits(); n > 0 {
		t.Errorf("%s decides for all cases: %v", name, splits)
	}
	got, cases := Quantities(result), study.CasesOf(x)
	for i := range cases.Len() {
		exact := make([]units.Quantity, len(x))
		for k := range x {
			exact[k] = cases.Pick(x[k], i)
		}
		one, err := call(exact)
		if err != nil {
			t.Fatalf("%s, where %s: %v", name, cases.Where(i), err)
		}
		for field, want := range Quantities(one) {
			if g := cases.Pick(got[field], i); !(math.Abs(g.SI()-want.SI()) <= 1e-12*math.Abs(want.SI())) || g.Dim() != want.Dim() {
				t.Errorf("%s: %s is %v where %s, of the exact value %v", name, field, g.SI(), cases.Where(i), want.SI())
			}
		}
	}
	var all []reflect.Value
	for k := range x {
		all = append(all, reflect.ValueOf(&x[k]).Elem())
	}
	otherKinds(t, name, all, func() (any, error) { return call(x) })
	return got
}
