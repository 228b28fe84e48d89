package units

import (
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// near in every case: x and y differ by at most rel of size, a value that has
// the size of what was added and subtracted on the way.
func nearInEveryCase(t *rapid.T, name string, x, y, size Quantity, rel float64) {
	t.Helper()
	s, _ := common(x, y, size)
	if s == nil {
		t.Fatalf("%s: no spread", name)
	}
	c := s.CasesOf([]Quantity{x, y, size})
	for i := range c.Len() {
		a, b := c.Pick(x, i).v, c.Pick(y, i).v
		if math.Abs(a-b) > rel*math.Abs(c.Pick(size, i).v) {
			t.Fatalf("%s: %v and %v where %s", name, a, b, c.Where(i))
		}
	}
}

// What holds of numbers holds in every case, because one part is one part.
func TestCorrelationIdentities(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := NewStudy(StudyOptions{Boards: 30})
		part := func(key string) Quantity {
			mid := rapid.Float64Range(0.1, 1e3).Draw(t, key)
			w := rapid.Float64Range(1e-6, 0.9).Draw(t, key+" share")
			return s.Place(key, key, Band(Number(mid*(1-w)), Number(mid), Number(mid*(1+w/2))))
		}
		a, b, c := part("a"), part("b"), part("c")
		if rapid.Bool().Draw(t, "composed") { // of parts in common
			a, b = a.Mul(c).Add(b), b.Add(c.Div(a))
		}
		zero := a.Sub(a)
		one := a.Div(a)
		if zero.v != 0 || Low(zero).v != 0 || High(zero).v != 0 || one.v != 1 || Low(one).v != 1 || High(one).v != 1 {
			t.Fatalf("a − a is %s, a / a is %s", limitsText(zero), limitsText(one))
		}
		if sd, ok := zero.Std(); !ok || sd.v != 0 {
			t.Fatalf("a − a has the standard deviation %v", sd)
		}
		const ulp = 0x1p-52
		all := a.Add(b).Add(c)
		// To the bit: sums and products commute.
		nearInEveryCase(t, "a + b", a.Add(b), b.Add(a), all, 0)
		nearInEveryCase(t, "a·b", a.Mul(b), b.Mul(a), all, 0)
		nearInEveryCase(t, "a − b", a.Sub(b), b.Sub(a).Neg(), all, 0)
		nearInEveryCase(t, "Parallel(a, a)", Parallel(a, a), a.Div(Number(2)), a, 2*ulp)
		nearInEveryCase(t, "Min and Max", Min(a, b).Add(Max(a, b)), a.Add(b), all, 0)
		// Within roundings, of which each is half an ulp of a step.
		nearInEveryCase(t, "(a + b) − b", a.Add(b).Sub(b), a, all, 2*ulp)
		nearInEveryCase(t, "a·b/b", a.Mul(b).Div(b), a, a, 2*ulp)
		nearInEveryCase(t, "(a + b) + c", a.Add(b).Add(c), a.Add(b.Add(c)), all, 2*ulp)
		nearInEveryCase(t, "a(b + c)", a.Mul(b.Add(c)), a.Mul(b).Add(a.Mul(c)), a.Mul(all), 3*ulp)
		nearInEveryCase(t, "√a²", Sqrt(a.Mul(a)), a, a, 2*ulp)
		nearInEveryCase(t, "a², a·a", Pow(a, 2), a.Mul(a), a.Mul(a), 2*ulp)
		nearInEveryCase(t, "a∥b", Parallel(a, b), a.Mul(b).Div(a.Add(b)), Parallel(a, b), 6*ulp)
	})
}

// Functions that choose or search work case by case: what they give of the
// numbers of one case is what they have in it.
func TestCaseByCase(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := NewStudy(StudyOptions{Boards: 10})
		var parts []Quantity
		for _, key := range []string{"a", "b", "c", "d"} {
			mid := rapid.Float64Range(1, 3).Draw(t, key)
			parts = append(parts, s.Place(key, key, Tolerance(Number(mid), Number(rapid.Float64Range(0, 0.9).Draw(t, key+" ±")))))
		}
		for name, f := range map[string]func(x []Quantity) Quantity{
			"Where":    func(x []Quantity) Quantity { return Where(x[0], x[1], x[2], x[3]) },
			"Min":      func(x []Quantity) Quantity { return Min(x[0], x[1], x[2]) },
			"Max":      func(x []Quantity) Quantity { return Max(x[0], x[1], x[2]) },
			"Parallel": func(x []Quantity) Quantity { return Parallel(x[0], x[1], x[2]) },
			"Lanewise": func(x []Quantity) Quantity {
				return Lanewise("hypot", x[0], func(v []float64) float64 { return math.Hypot(v[0], v[1]) }, x[1], x[2])
			},
			"Solve": func(x []Quantity) Quantity { // v·b + v³·c = a + d
				return Solve("v", Number(0), Number(10), func(v Quantity) Quantity {
					return v.Mul(x[1]).Add(Pow(v, 3).Mul(x[2])).Sub(x[0].Add(x[3]))
				})
			},
		} {
			y := f(parts)
			c := s.CasesOf(parts)
			for i := range c.Len() {
				var x []Quantity
				for _, p := range parts {
					x = append(x, c.Pick(p, i))
				}
				want, tolerance := f(x), 0.0
				if name == "Solve" { // halves until all cases stand still, one of them sooner
					tolerance = 4e-15
				}
				if got := c.Pick(y, i); math.Abs(got.v-want.v) > tolerance*want.v {
					t.Fatalf("%s: %v, by itself %v where %s", name, got.v, want.v, c.Where(i))
				}
			}
		}
	})
}

// functions are those of the package that compute a Quantity from one, for
// TestEveryFunctionKeepsSpread, which finds out when one is missing.
var functions = map[string]any{
	"Sqrt": Sqrt, "Pow": Pow, "Exp": Exp, "Ln": Ln, "Log10": Log10, "Sin": Sin, "Cos": Cos, "Tan": Tan, "Atan": Atan,
	"Abs": Abs, "Min": Min, "Max": Max, "Where": Where, "Parallel": Parallel, "In": In, "Absolute": Absolute,
	"Temperature": Temperature, "Power": Power, "Voltage": Voltage, "PowerRatio": PowerRatio,
	"VoltageRatio": VoltageRatio, "PowerGain": PowerGain, "VoltageGain": VoltageGain, "PowerSum": PowerSum,
	"LevelOf": func(x Quantity) Quantity { return LevelOf(x, q("1 mW")) }, // of an exact reference
	"Lanewise": func(x, y Quantity) Quantity {
		return Lanewise("hypot", x, func(v []float64) float64 { return math.Hypot(v[0], v[1]) }, x, y)
	},
	"Solve": func(x Quantity) Quantity {
		return Solve("x", x.Mul(Number(-2)), x.Mul(Number(2)), func(v Quantity) Quantity { return v.Sub(x) })
	},
}

// notFunctions give a Quantity and keep no spread, and why.
var notFunctions = map[string]string{
	"Range": "declares spread", "Band": "declares spread", "Tolerance": "declares spread", "Histogram": "declares spread",
	"Tempco": "declares a tolerance", "Drift": "declares a tolerance", "Normal": "declares a shape", "Uniform": "declares a shape",
	"Another": "declares another part", "Matched": "declares other parts", "Typical": "refuses what has spread",
	"High": "exact by its meaning", "Low": "exact by its meaning", "Nominal": "exact by its meaning",
	"Quantity.WithSI": "exact by its meaning", "Everywhere": "gives the values of one case",
	"Quantity.Std":    "a figure of the spread", "Quantity.Percentile": "a figure of the spread", "Quantity.Limits": "a figure of the spread",
	"Quantity.Boards": "the cases one by one",
}

// Whatever computes a Quantity from quantities has the spread of each of them,
// and in every case the number that it gives of the numbers of that case.
func TestEveryFunctionKeepsSpread(t *testing.T) {
	t.Parallel()
	for _, name := range exportedOfQuantity(t) {
		f := functions[name]
		if method, ok := strings.CutPrefix(name, "Quantity."); ok {
			m, _ := reflect.TypeFor[Quantity]().MethodByName(method)
			f = m.Func.Interface()
		}
		switch {
		case notFunctions[name] != "":
		case f == nil:
			t.Errorf("%s is neither among functions nor among notFunctions", name)
		default:
			keepsSpread(t, name, reflect.ValueOf(f))
		}
	}
}

// keepsSpread tries arguments of every kind until some are accepted.
func keepsSpread(t *testing.T, name string, f reflect.Value) {
	kinds := []string{"10 kΩ ± 1 %", "0.5 ± 1 %", "25 °C ± 5 K", "3 dB ± 1 dB", "0 dBm ± 1 dB", "0 dBV ± 1 dB", "300 K ± 5 K", "3 W ± 1 %"}
	quantity := reflect.TypeFor[Quantity]()
	accepted := false
	n := f.Type().NumIn()
	for pick := range len(kinds) * len(kinds) {
		s := NewStudy(StudyOptions{Boards: 5})
		var args []reflect.Value
		var parts []Quantity
		for i := range n {
			in := f.Type().In(i)
			if in.Kind() == reflect.Slice {
				in = in.Elem()
			}
			switch {
			case in == quantity:
				text := strings.Split(kinds[pick%len(kinds)], " ± ")
				if len(parts) == 1 {
					text = strings.Split(kinds[pick/len(kinds)], " ± ")
				}
				key := string(rune('a' + i))
				p := s.Place(key, key, Tolerance(q(text[0]), q(text[1])))
				parts = append(parts, p)
				args = append(args, reflect.ValueOf(p))
			case in.Kind() == reflect.Float64:
				args = append(args, reflect.ValueOf(2.0))
			case in.Kind() == reflect.String:
				args = append(args, reflect.ValueOf("Ω"))
			default:
				t.Fatalf("%s: no argument of type %v is known", name, in)
			}
		}
		call := func(args []reflect.Value) (y Quantity, e *Error) {
			e = refusal(func() { y = f.Call(args)[0].Interface().(Quantity) })
			return y, e
		}
		y, refused := call(args)
		if refused != nil {
			continue
		}
		accepted = true
		if got := len(y.Sources()); got != len(parts) {
			t.Errorf("%s: %d sources of %d", name, got, len(parts))
		}
		c := s.CasesOf(append([]Quantity{y}, parts...))
		for i := range c.Len() {
			one := append([]reflect.Value(nil), args...)
			for k, a := range one {
				if a.Type() == quantity {
					one[k] = reflect.ValueOf(c.Pick(a.Interface().(Quantity), i))
				}
			}
			want, refused := call(one)
			if got := c.Pick(y, i); refused != nil || !near(got.v, want.v, 1e-14) || !got.d.Same(want.d) {
				t.Fatalf("%s: %v, by itself %v (%v) where %s", name, got, want, refused, c.Where(i))
			}
		}
	}
	if !accepted {
		t.Errorf("%s accepts no arguments that were tried", name)
	}
}

// exportedOfQuantity lists the exported functions and methods of the package
// that take a Quantity and return one, in its sources.
func exportedOfQuantity(t *testing.T) []string {
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	has := func(l *ast.FieldList) bool {
		found := false
		if l != nil {
			for _, f := range l.List {
				ast.Inspect(f.Type, func(n ast.Node) bool {
					id, ok := n.(*ast.Ident)
					found = found || ok && id.Name == "Quantity"
					return true
				})
			}
		}
		return found
	}
	var out []string
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range file.Decls {
			f, ok := d.(*ast.FuncDecl)
			if !ok || !f.Name.IsExported() || !has(f.Type.Results) || !has(f.Recv) && !has(f.Type.Params) {
				continue
			}
			switch {
			case f.Recv == nil:
				out = append(out, f.Name.Name)
			case has(f.Recv):
				out = append(out, "Quantity."+f.Name.Name)
			}
		}
	}
	if len(out) < 40 {
		t.Fatalf("%d functions only", len(out))
	}
	return out
}
