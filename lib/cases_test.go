package lib_test

import (
	"go/ast"
	"math"
	"reflect"
	"strings"
	"testing"

	"ohmwright/lib/divider"
	"ohmwright/lib/internal/expect"
	"ohmwright/lib/thermal"
	"ohmwright/units"
)

var q = units.MustParse

// call is an exported function and what it is called with.
type call struct {
	name string
	f    any
	args []any
}

// calls are all exported functions of lib that compute; TestEveryFunctionIsCalled
// says so. What may be left out is given in one of the calls.
var calls = append([]call{
	{"divider.Plain", divider.Plain, list(q("12 V"), q("10 kΩ"), q("3.3 kΩ"))},
	{"divider.Loaded", divider.Loaded, list(divider.LoadedInputs{Input: q("12 V"), Upper: q("10 kΩ"), Lower: q("3.3 kΩ")})},
	{"divider.Loaded", divider.Loaded, list(divider.LoadedInputs{Input: q("12 V"), Upper: q("10 kΩ"), Lower: q("3.3 kΩ"), LoadResistance: q("10 kΩ"), LoadCurrent: q("100 µA")})},
	{"divider.FeedbackUpper", divider.FeedbackUpper, list(divider.FeedbackInputs{Reference: q("0.8 V"), Output: q("5 V"), Lower: q("10 kΩ"), PinCurrent: q("-1 µA")})},
	{"divider.FeedbackLower", divider.FeedbackLower, list(divider.FeedbackInputs{Reference: q("0.8 V"), Output: q("5 V"), Upper: q("20 kΩ"), PinCurrent: q("1 µA")})},
	{"divider.FeedbackOutput", divider.FeedbackOutput, list(divider.FeedbackInputs{Reference: q("0.8 V"), Upper: q("31.6 kΩ"), Lower: q("10 kΩ"), PinCurrent: q("1 µA")})},
	{"divider.MeasuringUpper", divider.MeasuringUpper, list(q("32 V"), q("3.3 V"), q("10 kΩ"))},
	{"divider.Measuring", divider.Measuring, list(divider.MeasuringInputs{Input: q("32 V"), Upper: q("100 kΩ"), Lower: q("10 kΩ"), Reference: q("3.3 V"), Bits: 12, Leakage: q("100 nA")})},
	{"divider.Filter", divider.Filter, list(q("9 kΩ"), q("100 nF"), 12)},
	{"divider.DirectSampling", divider.DirectSampling, list(divider.DirectInputs{Source: q("9 kΩ"), Switch: q("1 kΩ"), Sampling: q("14 pF"), Bits: 12})},
	{"divider.LargestSource", divider.LargestSource, list(divider.DirectInputs{Time: q("1.5 µs"), Switch: q("1 kΩ"), Sampling: q("14 pF"), Bits: 12})},
	{"divider.ReservoirSampling", divider.ReservoirSampling, list(divider.ReservoirInputs{Reference: q("3.3 V"), Bits: 12, Source: q("9 kΩ"), Reservoir: q("100 nF"), Sampling: q("14 pF"), Period: q("1 ms")})},
	// The clamp at rest, and conducting.
	{"divider.Clamp", divider.Clamp, list(divider.ClampInputs{Input: q("32 V"), Upper: q("100 kΩ"), Lower: q("10 kΩ"), Level: q("3.6 V")})},
	{"divider.Clamp", divider.Clamp, list(divider.ClampInputs{Input: q("60 V"), Upper: q("100 kΩ"), Lower: q("10 kΩ"), Level: q("3.6 V")})},

	{"thermal.Rise", thermal.Rise, list(q("1 W"), q("62 K/W"))},
	{"thermal.Junction", thermal.Junction, list(q("25 °C"), q("1 W"), q("62 K/W"), q("1 K/W"))},
	{"thermal.JunctionFromTop", thermal.JunctionFromTop, list(q("71 °C"), q("1.2 W"), q("2.5 K/W"))},
	{"thermal.Chain", thermal.Chain, list(thermal.ChainInputs{Reference: q("40 °C"), Power: q("10 W"), Segments: []thermal.Segment{
		{From: "junction", To: "case", Resistance: q("1.5 K/W")}, {From: "case", To: "sink", Resistance: q("0.5 K/W")}, {From: "sink", To: "air", Resistance: q("4 K/W")}}})},
	{"thermal.LargestPower", thermal.LargestPower, list(q("85 °C"), q("125 °C"), q("40 K/W"))},
	{"thermal.LargestResistance", thermal.LargestResistance, list(q("50 °C"), q("125 °C"), q("1.5 W"))},
	{"thermal.LargestAmbient", thermal.LargestAmbient, list(q("125 °C"), q("500 mW"), q("62 K/W"))},
	{"thermal.RequiredSink", thermal.RequiredSink, list(thermal.SinkInputs{Ambient: q("50 °C"), Limit: q("125 °C"), Power: q("10 W"), JunctionToCase: q("1.5 K/W"), CaseToSink: q("0.5 K/W")})},
	{"thermal.ParallelPaths", thermal.ParallelPaths, list(q("1 W"), q("62 K/W"), q("40 K/W"))},
	{"thermal.Derating", thermal.Derating, list(thermal.DeratingInputs{Rated: q("250 mW"), Full: q("70 °C"), Zero: q("155 °C"), Temperature: q("68 °C")})},
	{"thermal.DeratingBySlope", thermal.DeratingBySlope, list(thermal.SlopeDeratingInputs{Rated: q("250 mW"), Slope: q("3 mW/K"), Full: q("70 °C"), Temperature: q("150 °C")})},
	{"thermal.DeratingFrom", thermal.DeratingFrom, list(curve("air [°C], current [A]\n-60, 2\n60, 2\n85, 1.2"), q("58 °C"))},
}, thermalCalls...)

func list(args ...any) []any { return args }

// elsewhere are packages that are not called here: argument and preferred
// decide on the nominal value by their nature, plot computes nothing, the others hold every case of
// every function against exact values in a spread_test.go of their own.
var elsewhere = map[string]bool{"argument": true, "battery": true, "capacitor": true, "charger": true, "plot": true, "powertree": true, "preferred": true, "protect": true, "regulator/inverting": true, "regulator/linear": true, "regulator/loop": true, "regulator/stepdown": true, "regulator/stepup": true, "regulator/switching": true, "ripple": true, "solar": true, "table": true}

func TestEveryFunctionIsCalled(t *testing.T) {
	t.Parallel()
	called := map[string]bool{}
	for _, c := range calls {
		called[c.name] = true
	}
	for name := range sources {
		if elsewhere[name] {
			continue
		}
		_, files := parsed(t, name)
		for _, f := range files {
			for _, d := range f.Decls {
				if d, ok := d.(*ast.FuncDecl); ok && d.Name.IsExported() && d.Recv == nil && !called[name+"."+d.Name.Name] {
					t.Errorf("%s.%s is not among the calls of this test", name, d.Name.Name)
				}
			}
		}
	}
}

// places finds the quantities in what a function takes or gives, in a fixed
// order, and returns them in settable places.
func places(v reflect.Value) (found []reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		if v.Type() == reflect.TypeFor[units.Quantity]() {
			return []reflect.Value{v}
		}
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() { // a table keeps exact values to itself
				found = append(found, places(v.Field(i))...)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			found = append(found, places(v.Index(i))...)
		}
	}
	return found
}

// inputs are copies of the arguments of a call, and the quantities in them
// that are given.
func (c call) inputs() (args []reflect.Value, given []reflect.Value) {
	for _, a := range c.args {
		v := reflect.New(reflect.TypeOf(a)).Elem()
		v.Set(reflect.ValueOf(a))
		ownSlices(v)
		args = append(args, v)
		for _, p := range places(v) {
			if !p.IsZero() {
				given = append(given, p)
			}
		}
	}
	return args, given
}

// ownSlices gives a value slices of its own, however deep they lie in it.
func ownSlices(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				ownSlices(v.Field(i))
			}
		}
	case reflect.Slice:
		v.Set(reflect.AppendSlice(reflect.MakeSlice(v.Type(), 0, v.Len()), v))
		for i := range v.Len() {
			ownSlices(v.Index(i))
		}
	}
}

// run calls the function with xs in the place of the quantities given.
func (c call) run(xs []units.Quantity) (results []units.Quantity, err error) {
	args, given := c.inputs()
	for i, x := range xs {
		given[i].Set(reflect.ValueOf(x))
	}
	out := reflect.ValueOf(c.f).Call(args)
	if e := out[len(out)-1].Interface(); e != nil {
		return nil, e.(error)
	}
	for _, v := range out[:len(out)-1] {
		for _, p := range places(v) {
			results = append(results, p.Interface().(units.Quantity))
		}
	}
	return results, nil
}

// limits are ways in which an input may spread: as parts do; from far below
// to far above; and from its negative on, through zero, where many functions
// refuse it.
var limits = []struct {
	name  string
	apply func(x units.Quantity) units.Quantity
}{
	{"a little", func(x units.Quantity) units.Quantity {
		if isPoint(x) {
			return units.Tolerance(x, q("5 K"))
		}
		if x.Dim() == units.Number(1).Dim() { // ± 1 % of a share is ambiguous
			return ordered(x.Mul(units.Number(0.99)), x, x.Mul(units.Number(1.01)))
		}
		return units.Tolerance(x, q("1 %"))
	}},
	{"widely", func(x units.Quantity) units.Quantity {
		if isPoint(x) {
			return units.Range(x.Sub(q("60 K")), x, x.Add(q("60 K")))
		}
		return ordered(x.Mul(units.Number(0.01)), x, x.Mul(units.Number(100)))
	}},
	{"through zero", func(x units.Quantity) units.Quantity {
		if isPoint(x) {
			return units.Range(x.Sub(q("200 K")), x, x.Add(q("200 K")))
		}
		return ordered(x.Neg(), x, x.Mul(units.Number(3)))
	}},
}

func isPoint(x units.Quantity) bool { return x.Dim().Kind() == units.PointScale }

func ordered(a, x, b units.Quantity) units.Quantity {
	return units.Range(units.Min(a, b), x, units.Max(a, b))
}

// With spread, a function gives in every case what it gives of the exact
// values of that case, and fails if it fails in one of them, and says in
// which. Nothing infinite comes out, and nothing is decided for all cases by
// the nominal one.
func TestFunctionsEqualThemselvesCaseByCase(t *testing.T) {
	t.Parallel()
	for _, c := range calls {
		_, given := c.inputs()
		for _, l := range limits {
			for i := range given {
				c.compare(t, l.name, l.apply, func(k int) bool { return k == i })
			}
			if len(given) <= 6 {
				c.compare(t, l.name, l.apply, func(int) bool { return true })
			}
		}
	}
}

// A quantity of another kind in the place of any is refused in words, not by
// the arithmetic behind it.
func TestOtherKinds(t *testing.T) {
	t.Parallel()
	for _, c := range calls {
		_, given := c.inputs()
		var xs []units.Quantity
		for _, p := range given {
			xs = append(xs, p.Interface().(units.Quantity))
		}
		expect.OtherKinds(t, c.name, &xs, func() (any, error) { return box(c.run(xs)) })
	}
}

func box[T any](x T, err error) (any, error) { return x, err }

// cancels are the results in which an input cancels or is held at a limit,
// exactly and in every case: they have its spread, of no width.
var cancels = map[string]bool{
	// Without a load nothing sags.
	"divider.Loaded with 12 V widely of Sag":                true,
	"divider.Loaded with 10 kΩ widely of Sag":               true,
	"divider.Loaded with 3.3 kΩ widely of Sag":              true,
	"divider.Loaded with 12 V, 10 kΩ, 3.3 kΩ widely of Sag": true,
	// The dip and the step grow with the reference alike.
	"divider.ReservoirSampling with 3.3 V widely of DipInSteps": true,
	"divider.ReservoirSampling with 3.3 V widely of Recovery":   true,
	// The rise of the reference above itself.
	"thermal.Chain with 40 °C widely of Nodes":                                true,
	"thermal.Chain with 40 °C, 10 W, 1.5 K/W, 0.5 K/W, 4 K/W widely of Nodes": true,
	// At 68 °C nothing is lost yet, wherever the line ends.
	"thermal.Derating with 155 °C widely of Share":   true,
	"thermal.Derating with 155 °C widely of Allowed": true,
	// The slope of the line does not change where the line does.
	"thermal.DeratingBySlope with 70 °C widely of Slope": true,
	// As the first pulse starts, nothing has heated yet; as one ends, the other
	// may not have begun.
	"thermal.Pulses with 0.307 K/W widely of Energy":  true,
	"thermal.Pulses with 124.2 mJ/K widely of Energy": true,
	"thermal.Pulses with 5 ms widely of Energy":       true,
	"thermal.Pulses with 20 W widely of Energy":       true,
	"thermal.Pulses with 20 ms widely of Energy":      true,
	"thermal.Pulses with 2 W widely of Energy":        true,
	"thermal.Pulses with 9 ms widely of Energy":       true,
}

// resultName is the field of the k-th quantity in the result.
func (c call) resultName(k int) string {
	v := reflect.New(reflect.TypeOf(c.f).Out(0)).Elem()
	if v.Kind() != reflect.Struct || v.Type() == reflect.TypeFor[units.Quantity]() {
		return "the result"
	}
	for i := range v.NumField() {
		n := len(places(v.Field(i)))
		if k < n {
			return v.Type().Field(i).Name
		}
		k -= n
	}
	return v.Type().Field(v.NumField() - 1).Name // of a list at the end
}

func (c call) compare(t *testing.T, limits string, apply func(units.Quantity) units.Quantity, spreads func(i int) bool) {
	t.Helper()
	study := units.NewStudy(units.StudyOptions{Boards: 20})
	var xs []units.Quantity
	var varied []string
	_, given := c.inputs()
	for i, p := range given {
		x := p.Interface().(units.Quantity)
		if spreads(i) {
			name := "x" + string(rune('0'+i))
			x = study.Place(name, name, apply(x))
			varied = append(varied, x.String())
		}
		xs = append(xs, x)
	}
	about := c.name + " with " + strings.Join(varied, ", ") + " " + limits
	results, err := c.run(xs)
	if splits, n := study.TakeSplits(); n > 0 {
		t.Errorf("%s decides for all cases: %v", about, splits)
	}
	cases := study.CasesOf(xs)
	moves := make([]bool, len(results))
	failing := ""
	for i := range cases.Len() {
		exact := make([]units.Quantity, len(xs))
		for k, x := range xs {
			exact[k] = cases.Pick(x, i)
		}
		want, failed := c.run(exact)
		if failed != nil {
			failing = cases.Where(i)
			if err == nil {
				t.Errorf("%s: no error, but where %s: %v", about, failing, failed)
				return
			}
			continue
		}
		for k, r := range results {
			got := cases.Pick(r, i)
			if v := got.SI(); math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%s: result %d is %v where %s", about, k, v, cases.Where(i))
				return
			}
			if math.Abs(got.SI()-want[k].SI()) > 1e-12*math.Abs(want[k].SI()) || got.Dim() != want[k].Dim() {
				t.Errorf("%s: result %d is %v where %s, of the exact value %v", about, k, got.SI(), cases.Where(i), want[k].SI())
				return
			}
			moves[k] = moves[k] || want[k].SI() != results[k].SI()
		}
	}
	if err != nil {
		if failing == "" {
			t.Errorf("%s: %v; but it holds in every case", about, err)
		} else if !strings.Contains(err.Error(), " where x") && !strings.Contains(err.Error(), " where board ") {
			t.Errorf("%s: does not say where: %v", about, err)
		}
		return
	}
	nominal := make([]units.Quantity, len(xs))
	for k, x := range xs {
		nominal[k] = units.Nominal(x)
	}
	plain, _ := c.run(nominal)
	for k, r := range results {
		// What units.Solve finds may differ in its last digit.
		if math.Abs(r.SI()-plain[k].SI()) > 1e-14*math.Abs(plain[k].SI()) {
			t.Errorf("%s: result %d is nominally %v, without spread %v", about, k, r.SI(), plain[k].SI())
		}
		if r.HasSpread() && !moves[k] && limits == "widely" && !cancels[about+" of "+c.resultName(k)] {
			t.Errorf("%s of %s: it has spread and does not move", about, c.resultName(k))
		}
	}
}
