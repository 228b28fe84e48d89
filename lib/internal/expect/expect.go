// Package expect holds what the tests of lib have in common: a result is near
// a figure from outside, a refusal reads as it should, every case of a value
// with spread is computed as if it were exact, and nothing infinite leaves a
// function, whatever goes in.
//
//	expect.Near(t, "the ripple", r.Ripple, "341 mA", 1e-3)
//	expect.Message(t, "no load", err, "stepup.Losses: Load is 0 A; …")
//
// A figure that a test expects is the test's own: none is found here.
package expect

import (
	"fmt"
	"math"
	"reflect"

	"ohmwright/lib/table"
	"ohmwright/units"
)

// T is a test, of the standard library or of rapid.
type T interface {
	Helper()
	Errorf(format string, args ...any)
	Fatalf(format string, args ...any)
}

// Near checks a result against a value from outside, within a relative
// tolerance.
func Near(t T, name string, got units.Quantity, want string, tolerance float64) {
	t.Helper()
	w := units.MustParse(want)
	within(t, name, got, w, tolerance*math.Abs(w.SI()), fmt.Sprintf("%s within %g", want, tolerance))
}

// Within checks a result against a value from outside, within a tolerance in
// the unit of the result (kelvin for temperatures).
func Within(t T, name string, got units.Quantity, want, tolerance string) {
	t.Helper()
	within(t, name, got, units.MustParse(want), units.MustParse(tolerance).SI(), want+" within "+tolerance)
}

func within(t T, name string, got, want units.Quantity, tolerance float64, text string) {
	t.Helper()
	if d := math.Abs(got.SI() - want.SI()); got.Dim() != want.Dim() || !(d <= tolerance) {
		t.Errorf("%s is %s, want %s", name, got.Text(9), text)
	}
}

// Must is the result of a call that is not to fail, as in
// Must(t, result, err).
func Must[R any](t T, result R, err error) R {
	t.Helper()
	if err != nil {
		t.Fatalf("%v", err)
	}
	return result
}

// Result is Must for a call that stands behind it: Result[R](t)(call()).
func Result[R any](t T) func(R, error) R {
	return func(result R, err error) R {
		t.Helper()
		return Must(t, result, err)
	}
}

// Table is a table of text that is known to be right.
func Table(text string) table.Table {
	made, err := table.Text(text)
	if err != nil {
		panic(err)
	}
	return made
}

// Message checks what an error says, to the letter; "no error" if there is to
// be none.
func Message(t T, name string, err error, want string) {
	t.Helper()
	got := "no error"
	if err != nil {
		got = err.Error()
	}
	if got != want {
		t.Errorf("%s:\ngot  %s\nwant %s", name, got, want)
	}
}

// Quantities lists the quantities in a result that are given, by the names of
// their fields, such as Stages[2].Current.
func Quantities(result any) map[string]units.Quantity {
	list := map[string]units.Quantity{}
	var collect func(name string, v reflect.Value)
	collect = func(name string, v reflect.Value) {
		switch {
		case v.Type() == reflect.TypeFor[units.Quantity]():
			if x := v.Interface().(units.Quantity); x != (units.Quantity{}) {
				list[name] = x
			}
		case v.Kind() == reflect.Struct:
			for i := range v.NumField() {
				field := v.Type().Field(i)
				if !field.IsExported() {
					continue
				}
				if name != "" {
					field.Name = name + "." + field.Name
				}
				collect(field.Name, v.Field(i))
			}
		case v.Kind() == reflect.Slice:
			for i := range v.Len() {
				collect(fmt.Sprintf("%s[%d]", name, i), v.Index(i))
			}
		}
	}
	collect("", reflect.ValueOf(result))
	return list
}

// Finite checks that a call, whatever it is given, does not panic, and holds
// finite numbers only in what it returns without an error.
func Finite(t T, name string, call func() (any, error)) {
	t.Helper()
	finite(t, func() string { return name }, call)
}

// finite is Finite for a call whose name is long to write.
func finite(t T, what func() string, call func() (any, error)) {
	t.Helper()
	result, err, refused := attempt(call)
	if refused != nil {
		t.Fatalf("%s panics: %v", what(), refused)
	}
	if err != nil {
		return
	}
	for field, x := range Quantities(result) {
		if n := x.SI(); math.IsNaN(n) || math.IsInf(n, 0) {
			t.Fatalf("%s: %s is %v in %+v", what(), field, n, result)
		}
	}
}

// attempt calls; what the arithmetic of quantities refuses is refused.
func attempt(call func() (any, error)) (result any, err error, refused *units.Error) {
	defer func() {
		switch p := recover().(type) {
		case nil:
		case *units.Error:
			refused = p
		default: // rapid's own, or a mistake whose place is to be seen
			panic(p)
		}
	}()
	result, err = call()
	return result, err, nil
}
