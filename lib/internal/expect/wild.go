package expect

import (
	"fmt"
	"math"
	"reflect"

	"ohmwright/units"

	"pgregory.net/rapid"
)

// Manner draws a way to draw quantities, by name and unit, and says whether
// the inputs of a function made so may work: of usual sizes; of any size that
// lib takes; usual with something wild now and then, which comes far into a
// function; or wild all together.
func Manner(t *rapid.T) (draw func(name, unit string) units.Quantity, mayWork bool) {
	manner := rapid.IntRange(0, 3).Draw(t, "manner")
	return func(name, unit string) units.Quantity {
		switch {
		case manner == 0 || manner == 2 && rapid.IntRange(0, 9).Draw(t, name+" is wild") > 0:
			return tame(t, name, unit, -3, 2)
		case manner == 1:
			return tame(t, name, unit, -28, 28)
		}
		return Wild(t, name, unit)
	}, manner < 3
}

// Between draws a number of a unit between two limits, and now and then
// something wild.
func Between(t *rapid.T, least, most float64, unit string) units.Quantity {
	if rapid.IntRange(0, 19).Draw(t, "wild") == 0 {
		return Wild(t, "x", unit)
	}
	return number(rapid.Float64Range(least, most).Draw(t, "x"), unit)
}

func tame(t *rapid.T, name, unit string, least, most float64) units.Quantity {
	if unit == "°C" {
		return units.MustParse("0 °C").Add(number(float64(rapid.IntRange(-50, 200).Draw(t, name)), "K"))
	}
	return number(math.Pow(10, rapid.Float64Range(least, most).Draw(t, name)), unit)
}

// Wild draws what a function must refuse, or just not: nothing, another kind,
// zero, a wrong sign, sizes at the edge of what lib takes and beyond.
func Wild(t *rapid.T, name, unit string) units.Quantity {
	switch rapid.IntRange(0, 9).Draw(t, name+" wildly") {
	case 0:
		return units.Quantity{}
	case 1, 2:
		return otherKind(t, name)
	}
	size := rapid.SampledFrom([]float64{1, 1, 10, 3.3, 1e-3, 1e-3, 1e3, 1e-6, 1e6, 0, -1, 1e-12, 1e-29, -1e-29, 1e29, 1e300, 5e-324, math.Inf(1), math.NaN()}).Draw(t, name+" size")
	if unit == "°C" {
		return units.MustParse("0 °C").Add(number(size, "K"))
	}
	return number(size, unit)
}

// kinds are quantities of which a place takes one at most.
var kinds = []string{"25 °C", "3 V", "2 A", "3 dB", "0 dBm", "5", "7 Ω/sq", "40 K"}

func otherKind(t *rapid.T, name string) units.Quantity {
	return units.MustParse(rapid.SampledFrom(kinds).Draw(t, name+" of another kind"))
}

func number(x float64, unit string) units.Quantity {
	return units.Number(x).Mul(units.MustParse("1 " + unit))
}

// Filler fills the inputs of functions.
type Filler struct {
	// Units are those of the fields by what they are called; "Inputs.Load" is
	// of one struct only. A field that is not here is an error: it is new.
	Units map[string]string
	// Draw makes a quantity, as those of Manner do.
	Draw func(name, unit string) units.Quantity
	// Others are slices of what fields of other types may be.
	Others []any
}

// Fill fills a struct, and those inside it; one quantity in six is left out.
func (f Filler) Fill(t *rapid.T, v reflect.Value) {
	for i := range v.NumField() {
		f.field(t, v.Type(), v.Type().Field(i).Name, v.Field(i))
	}
}

func (f Filler) field(t *rapid.T, in reflect.Type, name string, v reflect.Value) {
	for _, o := range f.Others {
		if list := reflect.ValueOf(o); list.Type().Elem() == v.Type() {
			v.Set(list.Index(rapid.IntRange(0, list.Len()-1).Draw(t, name)))
			return
		}
	}
	switch {
	case v.Type() == reflect.TypeFor[units.Quantity]():
		unit, ok := f.Units[in.Name()+"."+name]
		if !ok {
			unit, ok = f.Units[name]
		}
		if !ok {
			t.Fatalf("the field %s is new: say its unit here", name)
		}
		if x := f.Draw(name, unit); rapid.IntRange(0, 5).Draw(t, name+" given") > 0 {
			v.Set(reflect.ValueOf(x))
		}
	case v.Kind() == reflect.Bool:
		v.SetBool(rapid.Bool().Draw(t, name))
	case v.Kind() == reflect.Struct:
		f.Fill(t, v)
	case v.Kind() == reflect.Slice:
		n := rapid.IntRange(0, 3).Draw(t, name)
		v.Set(reflect.MakeSlice(v.Type(), n, n))
		for k := range n {
			f.field(t, in, name, v.Index(k))
		}
	default:
		t.Fatalf("the field %s is new: say in Others what it may be", name)
	}
}

// Call calls a function of one struct of inputs, which change may mend before.
// Finite says what is held; and where the call works, each quantity in turn is
// replaced by one of another kind, which must not end in a refusal of the
// arithmetic.
func (f Filler) Call(t *rapid.T, function any, change func(in reflect.Value)) {
	call := reflect.ValueOf(function)
	in := reflect.New(call.Type().In(0)).Elem()
	f.Fill(t, in)
	if change != nil {
		change(in)
	}
	works := false
	run := func() (any, error) {
		out := call.Call([]reflect.Value{in})
		err, _ := out[1].Interface().(error)
		works = err == nil
		return out[0].Interface(), err
	}
	what := func() string { return fmt.Sprintf("%v of %+v", call.Type(), in.Interface()) }
	finite(t, what, run)
	if !works {
		return
	}
	other := otherKind(t, "one")
	for _, place := range places(in) {
		kept := place.Interface()
		place.Set(reflect.ValueOf(other))
		finite(t, what, run)
		place.Set(reflect.ValueOf(kept))
	}
}

// OtherKinds holds that a call, which works with what in points to, does not
// end in a refusal of the arithmetic with a quantity of another kind in any
// place there.
func OtherKinds(t T, name string, in any, call func() (any, error)) {
	t.Helper()
	otherKinds(t, name, places(reflect.ValueOf(in).Elem()), call)
}

func otherKinds(t T, name string, places []reflect.Value, call func() (any, error)) {
	t.Helper()
	for _, place := range places {
		kept := place.Interface()
		for _, other := range kinds {
			place.Set(reflect.ValueOf(units.MustParse(other)))
			if _, _, refused := attempt(call); refused != nil {
				t.Errorf("%s, with %s in place of %v, panics: %v", name, other, kept, refused)
			}
		}
		place.Set(reflect.ValueOf(kept))
	}
}

// places finds the quantities in inputs that are given.
func places(v reflect.Value) (found []reflect.Value) {
	switch {
	case v.Type() == reflect.TypeFor[units.Quantity]():
		if !v.IsZero() {
			return []reflect.Value{v}
		}
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				found = append(found, places(v.Field(i))...)
			}
		}
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			found = append(found, places(v.Index(i))...)
		}
	}
	return found
}

// Part is the one of a kind that inputs are or have as a field; nil if there
// is none.
func Part[P any](in reflect.Value) *P {
	if p, ok := in.Addr().Interface().(*P); ok {
		return p
	}
	for i := range in.NumField() {
		if p, ok := in.Field(i).Addr().Interface().(*P); ok {
			return p
		}
	}
	return nil
}
