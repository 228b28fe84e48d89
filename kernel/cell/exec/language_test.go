package exec_test

import (
	"strings"
	"testing"
)

// languageTests are statements and what they print. The expectations are
// worked out by hand from the Go specification; programs is held against the
// go command as well, in TestAgainstGo.
var languageTests = []struct {
	name, decls, body, want string
}{
	{"closure per iteration", "", `var fs []func() int; for i := 0; i < 3; i++ { fs = append(fs, func() int { return i }) }; for _, f := range fs { fmt.Print(f(), " ") }`, "0 1 2 "},
	{"deferred arguments", "", `func() { for i := 0; i < 3; i++ { defer func(k int) { fmt.Print(k, " ") }(i) } }()`, "2 1 0 "},
	{"assertion to interface", "type S interface{ S() string }; type A struct{}; func (A) S() string { return \"a\" }", `var v any = A{}; s, ok := v.(S); fmt.Print(ok, s.S())`, "truea"},
	{"integer constant division", "", `var y float64 = 7 / 2 * 2.0; fmt.Print(y)`, "6"},
	{"integer division then float", "", `y := 7 / 2; fmt.Print(float64(y) * 2.0)`, "6"},
	{"method value keeps receiver", "type C struct{ n int }; func (c C) N() int { return c.n }", `c := C{1}; f := c.N; c.n = 5; fmt.Print(f())`, "1"},
	{"default fallthrough", "", `x := 0; switch 7 { default: x = 10; fallthrough; case 2: x++ }; fmt.Print(x)`, "11"},
	{"overflow int8", "", `var x int8 = 127; x++; fmt.Print(x)`, "-128"},
	{"overflow uint8", "", `var x uint8 = 3; x -= 5; fmt.Print(x)`, "254"},
	{"shift beyond width", "", `var x int32 = -8; n := 40; fmt.Print(x>>n, x<<n, uint8(1)<<7)`, "-1 0 128"},
	{"min int divided by -1", "", `x := math.MinInt64; y := -1; fmt.Print(x/y, x%y)`, "-9223372036854775808 0"},
	{"rune conversion", "", `fmt.Print(string(rune(937)), []byte("Ω"), []rune("aΩ"), string([]rune{97, 937}))`, "Ω[206 169] [97 937]aΩ"},
	{"range string", "", `for i, r := range "aΩb" { fmt.Print(i, r, " ") }`, "0 97 1 937 3 98 "},
	{"range int and func", "", `for i := range 3 { fmt.Print(i) }; seq := func(y func(int) bool) { for i := 0; i < 9; i++ { if !y(i) { return } } }; for i := range seq { if i == 3 { break }; if i == 1 { continue }; fmt.Print(i) }`, "012\x0002"},
	{"return inside range func", "func f() int { for i := range func(y func(int) bool) { _ = y(1) && y(2) } { if i == 2 { return i * 10 } }; return -1 }", `fmt.Print(f())`, "20"},
	{"defer in range func", "func f() { for i := range func(y func(int) bool) { _ = y(1) && y(2) } { defer fmt.Print(\"d\", i, \" \") }; fmt.Print(\"end \") }", `f()`, "end d2 d1 "},
	{"array copy", "", `a := [3]int{1, 2, 3}; b := a; b[0] = 9; p := &a; p[1] = 8; fmt.Print(a, b)`, "[1 8 3] [9 2 3]"},
	{"slice aliasing", "", `a := []int{1, 2, 3, 4}; b := a[1:3]; b[0] = 9; b = append(b, 7); fmt.Print(a, b, len(b), cap(b))`, "[1 9 3 7] [9 3 7] 3 3"},
	{"three index slice", "", `a := []int{1, 2, 3, 4}; b := a[1:2:2]; b = append(b, 7); fmt.Print(a, b)`, "[1 2 3 4] [2 7]"},
	{"struct copy in slice", "type P struct{ X int; Q [2]int }", `a := []P{{1, [2]int{1, 2}}}; b := append(a, P{}); b[0].Q[0] = 5; c := a[0]; c.X = 7; p := &a[0]; p.X = 3; fmt.Print(a, b, c)`, "[{3 [1 2]}] [{1 [5 2]} {0 [0 0]}] {7 [1 2]}"},
	{"append within capacity", "type P struct{ X int }", `a := make([]P, 1, 4); b := append(a, P{2}); c := append(a, P{3}); b[0].X = 9; fmt.Print(a, b, c)`, "[{9}] [{9} {3}] [{9} {3}]"},
	{"map of struct", "type K struct{ A int; B string }", `m := map[K]int{{1, "a"}: 1}; m[K{1, "a"}]++; m[K{2, "b"}] = 5; v, ok := m[K{3, ""}]; fmt.Print(m, v, ok, len(m))`, "map[{1 a}:2 {2 b}:5] 0 false 2"},
	{"map of interface", "", `m := map[any]string{1: "i", "1": "s", 1.0: "f", [1]int{1}: "a"}; fmt.Print(m[1], m["1"], m[1.0], m[[1]int{1}], m[int8(1)])`, "isfa"},
	{"NaN key", "", `m := map[float64]int{}; m[math.NaN()] = 1; m[math.NaN()] = 2; _, ok := m[math.NaN()]; fmt.Print(len(m), ok)`, "2 false"},
	{"delete in range", "", `m := map[int]int{1: 1, 2: 2, 3: 3}; n := 0; for k := range m { delete(m, k+1); n++ }; fmt.Print(n, len(m))`, "2 2"},
	{"nil map read", "", `var m map[string]int; fmt.Print(m["x"], len(m), m == nil); delete(m, "x"); for range m { }`, "0 0 true"},
	{"embedded promotion", "type A struct{ n int }; func (a *A) Inc() { a.n++ }; func (a A) Get() int { return a.n }; type B struct{ *A }; type C struct{ B; m int }", `c := C{B{&A{1}}, 2}; c.Inc(); f := c.Get; c.Inc(); var i interface{ Get() int } = c; fmt.Print(c.n, f(), i.Get())`, "3 2 3"},
	{"method expression", "type A struct{ n int }; func (a A) Add(m int) int { return a.n + m }; func (a *A) Set(m int) { a.n = m }", `f := A.Add; a := A{2}; g := (*A).Set; g(&a, 5); fmt.Print(f(a, 3), (*A).Add(&a, 1))`, "8 6"},
	{"interface embedding", "type R interface{ R() int }; type W interface{ W() int }; type RW interface { R; W }; type X int; func (x X) R() int { return int(x) }; func (x X) W() int { return -int(x) }", `var rw RW = X(4); var r R = rw; _, isW := r.(W); fmt.Print(rw.W(), r.R(), isW)`, "-4 4 true"},
	{"type switch", "type E struct{}; func (E) Error() string { return \"E!\" }", `for _, v := range []any{1, "s", nil, E{}, []int{1}, 2.5} { switch x := v.(type) { case int: fmt.Print("int", x+1, " "); case string, float64: fmt.Print("sf ", x, " "); case nil: fmt.Print("nil "); case error: fmt.Print(x.Error(), " "); default: fmt.Printf("%T ", x) } }`, "int2 sf s nil E! []int sf 2.5 "},
	{"recover value", "func f() (s string) { defer func() { s = fmt.Sprint(recover()) }(); panic(\"boom\") }", `fmt.Print(f())`, "boom"},
	{"recover runtime errors", "func try(f func()) { defer func() { fmt.Println(recover()) }(); f() }", `var a []int; var m map[string]int; var p *struct{ x int }; z := 0; var v any = "s"; k := 5
		try(func() { _ = a[k] }); try(func() { m["x"] = 1 }); try(func() { _ = p.x }); try(func() { _ = 1 / z }); try(func() { _ = a[:k] }); try(func() { _ = v.(int) }); try(func() { _ = [2]int(a) }); try(func() { _ = "abc"[k:] }); try(func() { _ = v.(error) }); try(func() { _ = make([]int, z-1) })`,
		"runtime error: index out of range [5] with length 0\nassignment to entry in nil map\nruntime error: invalid memory address or nil pointer dereference\nruntime error: integer divide by zero\nruntime error: slice bounds out of range [:5] with capacity 0\ninterface conversion: interface {} is string, not int\nruntime error: cannot convert slice with length 0 to array or pointer to array with length 2\nruntime error: slice bounds out of range [5:3]\ninterface conversion: string is not error: missing method Error\nruntime error: makeslice: len out of range\n"},
	{"re-panic", "func f() { defer func() { fmt.Print(recover(), \" \") }(); defer func() { panic(fmt.Sprint(recover(), \"2\")) }(); panic(\"1\") }", `f()`, "12 "},
	{"recover not in nested", "func f() { defer func() { fmt.Print(\"outer:\", recover()) }(); defer func() { func() { fmt.Print(\"inner:\", recover(), \" \") }() }(); panic(1) }", `f()`, "inner:<nil> outer:1"},
	{"named result after recover", "func f() (n int, err error) { defer func() { if r := recover(); r != nil { err = fmt.Errorf(\"got %v\", r) } }(); n = 3; panic(\"x\") }", `fmt.Print(f())`, "3 got x"},
	{"deferred change of result", "func f() (n int) { defer func() { n *= 2 }(); return 4 }", `fmt.Print(f())`, "8"},
	{"labels", "", "outer:\nfor i := 0; i < 3; i++ { for j := 0; j < 3; j++ { if j == 2 { continue outer }; if i == 2 { break outer }; fmt.Print(i, j, \";\") } }", "0 0;0 1;1 0;1 1;"},
	{"goto", "", "i := 0\nagain:\nif i < 3 { fmt.Print(i); i++; goto again }", "012"},
	{"generic map", "func Map[A, B any](xs []A, f func(A) B) (out []B) { for _, x := range xs { out = append(out, f(x)) }; return }; type N interface{ ~int | ~float64 }; func Sum[T N](xs ...T) (t T) { for _, x := range xs { t += x }; return }", `fmt.Print(Map([]int{1, 2}, func(i int) string { return fmt.Sprint(i * 2) }), Sum(1, 2, 3), Sum(1.5, 2))`, "[2 4] 6 3.5"},
	{"generic type", "type L[T any] struct{ v T; next *L[T] }; func (l *L[T]) Push(v T) *L[T] { return &L[T]{v, l} }; func (l *L[T]) Len() int { if l == nil { return 0 }; return 1 + l.next.Len() }", `var l *L[string]; l = l.Push("a").Push("b"); fmt.Printf("%d %s %T", l.Len(), l.v, *l)`, "2 b main.L[string]"},
	{"min max clear", "", `s := []int{3, 1, 2}; m := map[int]int{1: 1}; fmt.Print(min(3, 1, 2), max(2.5, 1), min("b", "a")); clear(s); clear(m); fmt.Print(s, len(m))`, "1 2.5a[0 0 0] 0"},
	{"copy overlapping", "", `s := []int{1, 2, 3, 4}; n := copy(s[1:], s); b := make([]byte, 2); copy(b, "xyz"); fmt.Print(s, n, string(b))`, "[1 1 2 3] 3xy"},
	{"format verbs", "type T struct{ A int; B string; C []float64; D map[string]int; E *int; F any }", `t := T{1, "x", []float64{1.5}, map[string]int{"b": 2, "a": 1}, nil, 3}; fmt.Printf("%v|%+v|%#v|%T|%5d|%-5d|%05d|%x|%q|%6.2f|%t|%c|%U|%e|%%", t, &t, t.C, t, 42, 42, 42, "hi", "q\n", math.Pi, true, 'Ω', 'Ω', 1234.5)`,
		"{1 x [1.5] map[a:1 b:2] <nil> 3}|&{A:1 B:x C:[1.5] D:map[a:1 b:2] E:<nil> F:3}|[]float64{1.5}|main.T|   42|42   |00042|6869|\"q\\n\"|  3.14|true|Ω|U+03A9|1.234500e+03|%"},
	{"stringer in containers", "type C int; func (c C) String() string { return fmt.Sprintf(\"<%d>\", int(c)) }; type P struct{ X C; y C }", `fmt.Print([]C{1, 2}, map[C]C{1: 2}, P{1, 2}, &P{3, 4}); fmt.Printf(" %d %v %s %5v", C(1), C(2), C(3), C(4))`, "[<1> <2>] map[<1>:<2>] {<1> 2} &{<3> 4} 1 <2> <3>   <4>"},
	{"errors", "type E struct{ n int }; func (e *E) Error() string { return fmt.Sprint(\"E\", e.n) }; var base = errors.New(\"base\")", `e := fmt.Errorf("w: %w", &E{4}); var t *E; fmt.Print(e, errors.As(e, &t), t.n, " "); f := fmt.Errorf("a %w b %w", base, e); fmt.Print(errors.Is(f, base), errors.Is(e, base), errors.Unwrap(e) == error(t), errors.Join(base, nil, e))`, "w: E4 true 4 true false true base\nw: E4"},
	{"sort", "type by []string; func (b by) Len() int { return len(b) }; func (b by) Less(i, j int) bool { return len(b[i]) < len(b[j]) }; func (b by) Swap(i, j int) { b[i], b[j] = b[j], b[i] }", `s := []string{"ccc", "a", "bb"}; sort.Sort(by(s)); fmt.Print(s); n := []int{3, 1, 2}; sort.Ints(n); fmt.Print(n); sort.Slice(n, func(i, j int) bool { return n[i] > n[j] }); fmt.Print(n); sort.Sort(sort.Reverse(sort.StringSlice(s))); fmt.Print(s); fmt.Print(sort.Search(100, func(i int) bool { return i*i >= 50 }))`, "[a bb ccc][1 2 3][3 2 1][ccc bb a]8"},
	{"strings", "", `var b strings.Builder; b.WriteString("x"); fmt.Fprintf(&b, "%d", 7); fmt.Print(b.String(), b.Len(), strings.Map(func(r rune) rune { return r + 1 }, "abc"), strings.Fields(" a b "), strings.Join([]string{"p", "q"}, "-"))`, "x72bcd[a b]p-q"},
	{"strconv error", "", `_, err := strconv.Atoi("x"); var ne *strconv.NumError; fmt.Print(err, errors.As(err, &ne), errors.Is(err, strconv.ErrSyntax)); if ne != nil { fmt.Print(ne.Func, ne.Num) }`, "strconv.Atoi: parsing \"x\": invalid syntax true trueAtoix"},
	{"package variables", "var a = b + 1; var b = f(); func f() int { return 41 }; var tab = map[string][]int{\"x\": {1, 2}}", `tab["x"][0] = 7; fmt.Print(a, tab)`, "42 map[x:[7 2]]"},
	{"iota and consts", "type W uint8; const ( A W = iota + 1; B; _; D ); const big = 1 << 100", `fmt.Print(A, B, D, big>>98, uint64(math.MaxUint64))`, "1 2 4 4 18446744073709551615"},
	{"float32", "", `var x float32 = 0.1; y := x * 3; fmt.Print(y, float64(x) == 0.1, float32(1)/3)`, "0.3 false 0.33333334"},
	{"string comparison and concat", "", `s := "a"; s += "b"; fmt.Print(s < "b", s == "ab", s+"c", len(s), s[1])`, "true trueabc2 98"},
	{"comparing interfaces", "func f(a, b any) (s string) { defer func() { if r := recover(); r != nil { s = fmt.Sprint(r) } }(); return fmt.Sprint(a == b) }", `fmt.Print(f(1, 1), f(1, int8(1)), f([]int{}, []int{}), f(struct{ a, b int }{1, 2}, struct{ a, b int }{1, 2}))`, "truefalseruntime error: comparing uncomparable type []inttrue"},
	{"pointer to pointer", "", `x := 1; p := &x; q := &p; **q = 5; y := 2; *q = &y; *p = 7; fmt.Print(x, y, p == &y)`, "5 7 true"},
	{"linked structs", "type N struct{ v int; l, r *N }; func (n *N) add(v int) *N { if n == nil { return &N{v: v} }; if v < n.v { n.l = n.l.add(v) } else { n.r = n.r.add(v) }; return n }; func (n *N) walk(f func(int)) { if n != nil { n.l.walk(f); f(n.v); n.r.walk(f) } }", `var r *N; for _, v := range []int{5, 2, 8, 1} { r = r.add(v) }; r.walk(func(v int) { fmt.Print(v) })`, "1\x002\x005\x008"},
	{"variadic", "func f(p string, xs ...int) int { return len(xs) }", `s := []int{1, 2}; fmt.Print(f("a"), f("a", 1), f("a", s...), f("a", nil...))`, "0 1 2 0"},
	{"anonymous struct", "", `x := []struct{ a int; b string }{{1, "x"}, {2, "y"}}; for _, e := range x { e.a = 9; fmt.Print(e.a, e.b) }; fmt.Printf("%v %T", x, x[0])`, "9x9y[{1 x} {2 y}] struct { a int; b string }"},
	{"array of arrays", "", `var g [2][3]int; g[1][2] = 5; h := g; h[0] = [3]int{1, 1, 1}; r := &g[0]; r[0] = 4; fmt.Print(g, h, g == h, len(g[0]))`, "[[4 0 0] [0 0 5]] [[1 1 1] [0 0 5]] false 3"},
	{"phi swap", "", `a, b := 1, 2; for i := 0; i < 3; i++ { a, b = b, a+b }; x, y := "x", "y"; for range 3 { x, y = y, x }; fmt.Print(a, b, x, y)`, "5 8yx"},
	{"evaluation order", "func f(s *[]int, n int) int { *s = append(*s, n); return n }", `var s []int; a := []int{0, 0, 0}; a[f(&s, 1)] = f(&s, 2) + f(&s, 3); fmt.Print(s, a)`, "[1 2 3] [0 5 0]"},
}

func TestLanguage(t *testing.T) {
	t.Parallel()
	for _, tt := range languageTests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			src := "package main\nimport (\"errors\"; \"fmt\"; \"math\"; \"sort\"; \"strconv\"; \"strings\")\nvar _ = errors.New\nvar _ = math.Pi\nvar _ = sort.Ints\nvar _ = strconv.Itoa\nvar _ = strings.Join\n" +
				tt.decls + "\nfunc main() {\n" + tt.body + "\n}\nvar _ = fmt.Sprint\n"
			p := mustCompile(t, src)
			out, _, err := p.run(nil, "main")
			if err != nil {
				t.Fatalf("%v\nprinted %q", err, out)
			}
			want := strings.ReplaceAll(tt.want, "\x00", "")
			if out != want {
				t.Errorf("printed\n%q\nwant\n%q", out, want)
			}
		})
	}
}
