package exec_test

import (
	"context"
	"errors"
	"flag"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"reflect"
	"runtime"
	"sync"
	"testing"

	"golang.org/x/tools/go/ssa"

	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// cells is a pair of programs: the second uses the objects of the first,
// inserted into its own package, as cells of a note do.
type cells struct {
	alone
	first *program
	pkg   *types.Package
}

func (c *cells) Func(obj *types.Func) (*exec.Program, *ssa.Function, bool) {
	if obj.Pkg() != c.pkg {
		return nil, nil, false
	}
	fn := c.first.pkg.Prog.FuncValue(obj)
	return c.first.code, fn, fn != nil && fn.Blocks != nil
}

type chain struct {
	first types.Importer
	pkg   *types.Package
}

func (c chain) Import(path string) (*types.Package, error) {
	if path == c.pkg.Path() {
		return c.pkg, nil
	}
	return c.first.Import(path)
}

func TestForeignCell(t *testing.T) {
	t.Parallel()
	first, err := compile("note", `package note
import ("fmt"; "ohmwright/units")
type D struct { Top, Bottom units.Quantity }
func (d D) Ratio() units.Quantity { return d.Bottom / (d.Top + d.Bottom) }
func (d *D) Swap() { d.Top, d.Bottom = d.Bottom, d.Top }
func (d D) String() string { return fmt.Sprint("D", float64(d.Ratio())) }
type E struct{}
func (E) Error() string { return "E of the first cell" }
func Make(f func(int) int) (D, error) { if f(1) == 2 { return D{1, 3}, nil }; return D{}, E{} }
func Fail(a []int) int { return a[5] }
var Kept = 7
`, nil)
	if err != nil {
		t.Fatal(err)
	}
	link := &cells{alone{world()}, first, first.pkg.Pkg}
	fset := token.NewFileSet()
	f, err := parser.ParseFile(fset, "second.go", `package second
import ("fmt"; "errors"; "note")
type W struct { note.D }
func Run() string {
	d, err := note.Make(func(n int) int { return n + 1 })
	_, err2 := note.Make(func(n int) int { return n })
	w := W{d}
	w.Swap()
	var s fmt.Stringer = w
	var e note.E
	f := d.Ratio
	return fmt.Sprint(d, err, " ", errors.As(err2, &e), err2, " ", s.String(), float64(f()), note.Kept, " ") + fmt.Sprintf("%T %v", d, w)
}
func Bad() int { return note.Fail(nil) }
func Assign() { note.Kept = 8 }
`, 0)
	if err != nil {
		t.Fatal(err)
	}
	second, err := compileWith(fset, "second", f, link, chain{world().Importer(), first.pkg.Pkg})
	if err != nil {
		t.Fatal(err)
	}
	kept := exec.NewVariable(types.Typ[types.Int])
	kept.Set(goValue(types.Typ[types.Int], 7))
	kept.ReadOnly, kept.Owner = true, "cell 1"
	asked := 0
	run := func() *exec.Run {
		return &exec.Run{Global: func(v *types.Var) *exec.Variable {
			if v.Name() == "Kept" {
				asked++
				return kept
			}
			return exec.NewVariable(v.Type())
		}}
	}
	_, vs, err := second.run(run(), "Run")
	if err != nil {
		t.Fatal(err)
	}
	// Ratio is 3/4, and 1/4 when swapped.
	if want := "D0.75 <nil> true E of the first cell D0.250.75 7 note.D D0.25"; vs[0].V != want {
		t.Errorf("got %q, want %q", vs[0].V, want)
	}
	if asked != 1 {
		t.Errorf("asked %d times for the variable", asked)
	}
	var fault *exec.Fault
	if _, _, err := second.run(run(), "Bad"); !errors.As(err, &fault) || fault.Msg != "index out of range [5] with length 0" || len(fault.Stack) != 2 {
		t.Errorf("got %v", err)
	}
	if _, _, err := second.run(run(), "Assign"); !errors.As(err, &fault) || fault.Msg != "cannot assign to Kept: it belongs to cell 1" {
		t.Errorf("got %v", err)
	}
}

func TestInterceptAndAfter(t *testing.T) {
	t.Parallel()
	p := mustCompile(t, "package note\nimport (\"math\"; \"ohmwright/units\")\nfunc Run(q units.Quantity) (units.Quantity, float64) { return units.Sqrt(q), math.Sqrt(16) }")
	var seen []string
	run := &exec.Run{
		Intercept: func(c exec.Call) ([]exec.Value, bool, error) {
			if c.Func.Pkg().Path() == "math" {
				return []exec.Value{goValue(types.Typ[types.Float64], 7.0)}, true, nil
			}
			return nil, false, nil
		},
		After: func(c exec.Call, rs []exec.Value) []exec.Value {
			seen = append(seen, c.Func.FullName()+" "+rs[0].V.(units.Quantity).String())
			return nil
		},
	}
	_, vs, err := p.run(run, "Run", quantity(9))
	if err != nil || vs[0].V.(units.Quantity).SI() != 3 || reflect.TypeOf(vs[1].V) != reflect.TypeFor[uint64]() {
		t.Fatal(vs, err)
	}
	if f, err := exec.ToGo(vs[1], reflect.TypeFor[float64]()); err != nil || f.Float() != 7 {
		t.Errorf("%v %v", f, err)
	}
	if len(seen) != 1 || seen[0] != "ohmwright/units.Sqrt 3" {
		t.Errorf("seen %v", seen)
	}
	run = &exec.Run{Intercept: func(exec.Call) ([]exec.Value, bool, error) { return nil, false, errors.New("not now") }}
	if _, _, err := p.run(run, "Run", quantity(9)); err == nil || err.Error() != "not now" {
		t.Errorf("got %v", err)
	}
}

func TestTrace(t *testing.T) {
	t.Parallel()
	p := mustCompile(t, "package note\nimport \"ohmwright/units\"\nvar k = 2.0\nfunc half(x units.Quantity) units.Quantity { return x / 2 }\nfunc Run(a, b units.Quantity) units.Quantity {\n\treturn half(a*b) + units.Quantity(k)\n}")
	got := map[string]string{}
	run := &exec.Run{Traced: p.pkg.Func("Run"), Trace: func(e ast.Expr, v exec.Value) {
		got[types.ExprString(e)] = exec.Show(nil, v).Text
	}}
	_, vs, err := p.run(run, "Run", quantity(3), quantity(4))
	if err != nil || vs[0].V.(units.Quantity).SI() != 8 {
		t.Fatal(vs, err)
	}
	for e, want := range map[string]string{"a": "3", "b": "4", "a * b": "12", "half(a * b)": "6", "k": "2", "half(a * b) + units.Quantity(k)": "8"} {
		if got[e] != want {
			t.Errorf("%s: %q, want %q (all: %v)", e, got[e], want, got)
		}
	}
	if _, ok := got["x / 2"]; ok {
		t.Error("a function that is not traced was")
	}
}

func TestGoValues(t *testing.T) {
	t.Parallel()
	ints := types.NewSlice(types.Typ[types.Int])
	m := types.NewMap(types.Typ[types.String], types.Typ[types.Float64])
	for _, tt := range []struct {
		t types.Type
		x any
	}{
		{types.Typ[types.Int8], int8(-3)}, {types.Typ[types.Uint64], uint64(1 << 63)}, {types.Typ[types.Float32], float32(0.1)},
		{types.Typ[types.Bool], true}, {types.Typ[types.String], "Ω"}, {ints, []int{1, -2}}, {ints, []int(nil)}, {m, map[string]float64{"a": 1, "b": 2}},
		{types.NewArray(types.Typ[types.Int16], 2), [2]int16{1, 2}}, {types.NewSlice(world().Quantity()), []units.Quantity{units.Number(2)}},
	} {
		back, err := exec.ToGo(exec.FromGo(tt.t, reflect.ValueOf(tt.x)), reflect.TypeOf(tt.x))
		if err != nil || !reflect.DeepEqual(back.Interface(), tt.x) {
			t.Errorf("%v: %v %v", tt.x, back, err)
		}
	}
	if _, err := exec.ToGo(goValue(types.Typ[types.String], "x"), reflect.TypeFor[int]()); err == nil {
		t.Error("a string became an int")
	}
	e := errors.New("x")
	if back, err := exec.ToGo(exec.FromGo(types.Universe.Lookup("error").Type(), reflect.ValueOf(e)), reflect.TypeFor[error]()); err != nil || back.Interface() != e {
		t.Errorf("error: %v %v", back, err)
	}
}

// TestRecompilesLeaveNothing builds and runs one cell many times.
func TestRecompilesLeaveNothing(t *testing.T) {
	n := *recompiles
	src := "package note\nimport (\"fmt\"; \"ohmwright/units\")\ntype T[A any] struct{ a A }\nfunc (t T[A]) String() string { return fmt.Sprint(t.a) }\nvar k = 2.0\nfunc Run(v units.Quantity) string { f := func(x units.Quantity) units.Quantity { return x * v }; m := map[any]int{1: 2}; return fmt.Sprint(f(v), m, T[int]{3}, any(T[string]{\"x\"}) == nil) }"
	build := func() {
		p := mustCompile(t, src)
		if _, _, err := p.run(&exec.Run{Ctx: context.Background()}, "Run", quantity(3)); err != nil {
			t.Fatal(err)
		}
	}
	heap := func() int64 {
		var m runtime.MemStats
		runtime.GC()
		runtime.GC()
		runtime.ReadMemStats(&m)
		return int64(m.HeapAlloc)
	}
	for range 50 {
		build()
	}
	before := heap()
	for range n {
		build()
	}
	// One build takes some 50 kB: were each kept, 2,000 would be 100 MB.
	if grown := heap() - before; grown > 2<<20 {
		t.Errorf("%d recompiles left %d kB", n, grown>>10)
	}
}

// TestProgramIsShared runs one program in several runs at a time.
func TestProgramIsShared(t *testing.T) {
	t.Parallel()
	p := mustCompile(t, "package note\nimport (\"fmt\"; \"sort\")\nvar n int\ntype S struct{ a int }\nfunc (s S) String() string { return fmt.Sprint(s.a) }\nfunc Run() string { s := []any{S{1}, 2, \"x\"}; for i := range 100 { n += i; switch v := s[i%3].(type) { case fmt.Stringer: _ = v.String(); case int: n++ } }; a := []int{3, 1, 2}; sort.Slice(a, func(i, j int) bool { return a[i] < a[j] }); return fmt.Sprint(s, n, a) }")
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			// 0+…+99 = 4950, and 33 of the hundred meet the int.
			if _, vs, err := p.run(nil, "Run"); err != nil || vs[0].V != "[1 2 x] 4983 [1 2 3]" {
				t.Error(vs, err)
			}
		})
	}
	wg.Wait()
}

var recompiles = flag.Int("recompiles", 2000, "how often TestRecompilesLeaveNothing builds its cell")
