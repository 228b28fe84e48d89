package exec_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

const quantityDecls = `
var volt, ampere, ohm = units.MustParse("1V"), units.MustParse("1A"), units.MustParse("1ohm")
type T struct { A, B units.Quantity }
func (t *T) Inc() { t.A++; t.B += t.A }
func sum[N ~float64 | ~int](s ...N) N { var t N; for _, x := range s { t += x }; return t }
func mapped[A, B any](xs []A, f func(A) B) []B { var o []B; for _, x := range xs { o = append(o, f(x)) }; return o }
type pair[T any] struct { a, b T }
var kept units.Quantity
`

// Results are numbers in SI; each is worked out beside the program.
var quantityTests = []struct {
	name, body string
	want       float64
}{
	{"ohm's law", `return 3*volt/(2*ohm)`, 1.5},            // 3 V / 2 Ω
	{"product", `return (2*volt*3*ampere)/ampere/volt`, 6}, // 2·3
	{"sum and difference", `return 5*volt - 2*volt + volt`, 4},
	{"negation", `return -(2*volt) + 5*volt`, 3},
	{"zero takes the other side", `var x units.Quantity; x += 3*volt; return x`, 3},
	{"constant zero", `x := units.Quantity(0); return x + 2*volt`, 2},
	{"zero compared", `if 2*volt > 0 { return 1 }; return 0`, 1},
	{"min and max", `return max(2*volt, 5*volt, 3*volt) + min(2*volt, volt)`, 6}, // 5 + 1
	{"max with zero", `return max(0, 5*volt)`, 5},
	{"at most and at least", `n := 0; if volt <= volt { n++ }; if volt >= 2*volt { n += 10 }; if volt != 2*volt { n += 100 }; return units.Quantity(n)`, 101},
	{"switch", `switch 2*volt { case volt: return 1; case 2*volt: return 22 }; return 0`, 22},
	{"struct fields", `t := T{1, 2}; t.Inc(); t.Inc(); return t.B`, 7}, // A 2, B 4; A 3, B 7
	{"field address", `t := T{1, 2}; p := &t.A; *p = 9; return t.A`, 9},
	{"slice", `s := make([]units.Quantity, 2, 3); s[1] = 4*volt; s = append(s, volt); t := s[1:]; t[0] += volt; return s[1] + s[2]`, 6}, // 5 + 1
	{"array copy", `a := [2]units.Quantity{volt, 2*volt}; b := a; b[0] = 7*volt; return a[0] + b[0]`, 8},
	{"range", `s := []units.Quantity{volt, 2*volt, 3*volt}; var t units.Quantity; for _, x := range s { t += x }; return t`, 6},
	{"map value", `m := map[string]units.Quantity{"a": volt}; m["a"] += 2*volt; return m["a"]`, 3},
	{"map key", `m := map[units.Quantity]int{volt: 1, 2*volt: 2}; m[volt] += 5; return units.Quantity(m[volt] + len(m))`, 8}, // 6 + 2
	{"key by dimension", `m := map[units.Quantity]int{volt: 1, ampere: 2}; return units.Quantity(m[ampere])`, 2},
	{"struct equality never panics", `if (T{volt, 0}) == (T{ampere, 0}) { return 1 }; if (T{volt, ampere}) == (T{volt, ampere}) { return 2 }; return 3`, 2},
	{"interface equality", `var a, b any = volt, volt; if a == b { return 1 }; return 0`, 1},
	{"assertion", `var a any = 3*volt; q, ok := a.(units.Quantity); _, no := a.(float64); if ok && !no { return q }; return 0`, 3},
	{"closure", `k := 2*volt; f := func(x units.Quantity) units.Quantity { k += x; return k }; f(volt); return f(volt)`, 4},
	{"generic sum", `return sum(volt, 2*volt) + units.Quantity(sum(0, 0))*volt + 0`, 3},
	{"generic map", `return mapped([]float64{1, 2}, func(x float64) units.Quantity { return units.Quantity(x)*volt })[1]`, 2},
	{"generic struct", `p := pair[units.Quantity]{volt, 2*volt}; p.a, p.b = p.b, p.a; return p.a`, 2},
	{"float of plain number", `return units.Quantity(float64(3*volt/volt) + 0.5)`, 3.5},
	{"int to quantity", `n := 7; return units.Quantity(n) / 2`, 3.5},
	{"method", `return units.Sqrt(4*volt*volt) + units.Max(volt, 2*volt)`, 4}, // 2 + 2
	{"method value of compiled type", `f := volt.Add; return f(2*volt)`, 3},
	{"method expression of compiled type", `f := units.Quantity.Mul; return f(2*volt, volt)/volt`, 2},
	{"package variable", `kept = 3*volt; kept += volt; return kept`, 4},
	{"pointer", `x := volt; p := &x; *p *= 4; return x`, 4},
	{"deferred", `func() { defer func(q units.Quantity) { kept = q }(6*volt) }(); return kept`, 6},
	{"multiple results", `f := func() (units.Quantity, int, units.Quantity) { return volt, 2, 3*volt }; a, n, b := f(); return a*units.Quantity(n) + b`, 5},
	{"increment", `x := units.Quantity(1); x++; x--; x++; return x`, 2},
	{"compiled error recovered", `n := units.Quantity(0); func() { defer func() { if e, ok := recover().(error); ok && e.Error() != "" { n = 1 } }(); _ = volt + ampere }(); return n`, 1},
	{"compiled error by type", `n := units.Quantity(0); func() { defer func() { if e, ok := recover().(*units.Error); ok && e.Msg != "" { n = 1 } }(); _ = volt < ampere }(); return n`, 1},
	{"interface call", `var s fmt.Stringer = volt; if s.String() == volt.String() { return 1 }; return 0`, 1},
}

func TestQuantities(t *testing.T) {
	t.Parallel()
	for _, tt := range quantityTests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			p := mustCompile(t, "package note\nimport (\"fmt\"; \"ohmwright/units\")\nvar _ = fmt.Sprint\n"+quantityDecls+"func Run() units.Quantity {\n"+tt.body+"\n}")
			_, vs, err := p.run(nil, "Run")
			if err != nil {
				t.Fatal(err)
			}
			if got := vs[0].V.(units.Quantity).SI(); math.Abs(got-tt.want) > 1e-12*math.Abs(tt.want) {
				t.Errorf("got %v, want %v", got, tt.want)
			}
		})
	}
}

func TestDimensionFault(t *testing.T) {
	t.Parallel()
	src := "package note\nimport \"ohmwright/units\"\nfunc f(a, b units.Quantity) units.Quantity {\n\treturn a +\n\t\tb\n}\nfunc Run() units.Quantity {\n\treturn f(units.MustParse(\"3.3V\"), units.MustParse(\"20mA\"))\n}\n"
	p := mustCompile(t, src)
	_, _, err := p.run(nil, "Run")
	var f *exec.Fault
	var ue *units.Error
	if !errors.As(err, &f) || !errors.As(err, &ue) {
		t.Fatalf("got %v", err)
	}
	if f.Msg != ue.Msg || !strings.Contains(f.Msg, "3.3 V") {
		t.Errorf("message %q", f.Msg)
	}
	if at := p.fset.Position(f.Pos); at.Line != 4 || at.Column != 11 { // the + of line 4
		t.Errorf("at %v", at)
	}
	if len(f.Stack) != 2 || f.Stack[0].Func != "f" || f.Stack[1].Func != "Run" || p.fset.Position(f.Stack[1].Pos).Line != 8 {
		t.Errorf("stack %v", f.Stack)
	}
}

func TestFloatOfDimensionFault(t *testing.T) {
	t.Parallel()
	p := mustCompile(t, "package note\nimport \"ohmwright/units\"\nfunc Run() float64 {\n\tv := units.MustParse(\"5V\")\n\treturn float64(v)\n}")
	_, _, err := p.run(nil, "Run")
	var f *exec.Fault
	if !errors.As(err, &f) || p.fset.Position(f.Pos).Line != 5 {
		t.Fatalf("got %v", err)
	}
}
