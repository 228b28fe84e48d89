package exec_test

import (
	"context"
	"errors"
	"runtime"
	"strings"
	"testing"
	"time"

	"ohmwright/kernel/cell/exec"
)

// runaways are programs that would not end, or would take all memory. None of
// them may recover from being stopped.
var runaways = []struct{ name, decls, body, want string }{
	{"empty loop", "", `for { }`, "ran too long"},
	{"loop with goto", "", "again:\ngoto again", "ran too long"},
	{"loop in range func", "", `for range func(y func() bool) { for y() { } } { }`, "ran too long"},
	{"loop that recovers", "", `for { func() { defer func() { recover() }(); panic(1) }() }`, "too"},
	{"deferred loop", "", `defer func() { recover(); for { } }(); for { }`, "ran too long"},
	{"loop with true condition", "", `n := 0; for n >= 0 { }`, "ran too long"},
	{"recursion", "func f(n int) int { return f(n+1) + 1 }", `f(0)`, "nested calls"},
	{"mutual recursion that recovers", "func f(n int) (r int) { defer func() { recover() }(); return g(n) }; func g(n int) int { return f(n + 1) }", `f(0)`, "nested calls"},
	{"recursion through closures", "", `var f func(); f = func() { f() }; f()`, "nested calls"},
	{"recursion through a method", "type T struct{}; type I interface{ M(I) }; func (t T) M(i I) { i.M(i) }", `T{}.M(T{})`, "nested calls"},
	{"recursion through sort", "", `var f func(); f = func() { sort.Slice([]int{2, 1}, func(i, j int) bool { f(); return i < j }) }; f()`, "nested calls"},
	{"recursion through String", "type S int; func (s S) String() string { return fmt.Sprint(s) }", `fmt.Println(S(1))`, "nested calls"},
	{"slice that grows", "", `var s []int; for { s = append(s, 1, 2, 3, 4) }`, "memory"},
	{"large make", "", `n := 1 << 35; _ = make([]int, n)`, "memory"},
	{"large make of structs", "type P struct{ a [1000]int }", `n := 1 << 30; _ = make([]P, n)`, "memory"},
	{"string that doubles", "", `s := "x"; for { s += s }`, "memory"},
	{"map that grows", "", `m := map[int]int{}; for i := 0; ; i++ { m[i] = i }`, "memory"},
	{"list that grows", "type N struct{ next *N }", `var l *N; for { l = &N{l} }`, "memory"},
	{"closures that pile up", "", `var fs []func(); for i := 0; ; i++ { fs = append(fs, func() { _ = i }) }`, "memory"},
	{"boxes that pile up", "", `var v any; for { v = []any{v} }`, "memory"},
	{"strings.Repeat", "", `_ = strings.Repeat("x", 1<<40)`, "memory"},
	{"width", "", `for { _ = fmt.Sprintf("%1000000d", 1) }`, "memory"},
	{"prints itself", "", `s := []any{nil}; s[0] = s; fmt.Sprint(s)`, "contains itself"},
	{"map that contains itself", "", `m := map[string]any{}; m["m"] = m; m["n"] = m; fmt.Sprint(m)`, "contains itself"},
	{"large array", "", `var a [1 << 40]int; a[5] = 1`, "memory"},
	{"large nested array", "", `var a [2000][2000][2000]int; a[5][0][0] = 1`, "memory"},
	{"large package variable", "var a [2000][2000][2000]int", `a[5][0][0] = 1`, "memory"},
	{"copies of a large array", "var a [1 << 17]int", `for { b := a; b[1] = 2; a = b }`, "too"},
	{"ranges over a large map", "", `m := map[int]bool{}; for i := range 20000 { m[i] = true }; for { for range m { break } }`, "too"},
	{"deep value in print that prints itself", "type S struct{ v any }; func (s S) String() string { return fmt.Sprint(s.v, s) }", `var v any = 1; for range 400 { v = []any{v} }; fmt.Println(S{v})`, "nested calls"},
	{"long chain of errors", "", `err := errors.New("x"); e := err; for range 100000 { e = wrap{e} }; fmt.Println(errors.Is(e, fmt.Errorf("y")))`, "nested calls"},
	{"goroutine", "", `go func() {}()`, "without goroutines and channels"},
	{"channel", "", `c := make(chan int); _ = c`, "without goroutines and channels"},
	{"complex", "", `c := complex(1, 2); _ = real(c)`, "complex numbers are not available"},
}

func TestLimits(t *testing.T) {
	t.Parallel()
	for _, tt := range runaways {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			p := mustCompile(t, "package main\nimport (\"errors\"; \"fmt\"; \"sort\"; \"strings\")\ntype wrap struct{ e error }\nfunc (w wrap) Error() string { return \"w\" }\nfunc (w wrap) Unwrap() error { return w.e }\nvar _ = errors.New\nvar _ = fmt.Sprint\nvar _ = sort.Ints\nvar _ = strings.Join\n"+tt.decls+"\nfunc main() {\n"+tt.body+"\n}")
			run := &exec.Run{Limits: exec.Limits{Steps: 3_000_000, Memory: 20 << 20}}
			_, _, err := p.run(run, "main")
			var f *exec.Fault
			if !errors.As(err, &f) || !strings.Contains(f.Msg, tt.want) {
				t.Fatalf("got %v, want a fault with %q", err, tt.want)
			}
		})
	}
}

func TestDepthIsReached(t *testing.T) {
	t.Parallel()
	p := mustCompile(t, "package main\nfunc f(n int) int { if n == 0 { return 0 }; return f(n-1) + 1 }\nfunc g(n int) (r int) { defer func() { r++ }(); if n == 0 { return 0 }; return g(n-1) }\nfunc F() int { return f(9990) }\nfunc G() int { return g(4990) }\n")
	for _, tt := range []struct {
		fn   string
		want uint64
	}{{"F", 9990}, {"G", 4991}} {
		_, vs, err := p.run(nil, tt.fn)
		if err != nil || vs[0].V != tt.want {
			t.Errorf("%s: %v %v", tt.fn, vs, err)
		}
	}
	// The deepest that may be asked for does not end the process, not even
	// where every level goes through compiled code.
	p = mustCompile(t, `package main
import ("fmt"; "sort"; "strings")
func f(n int) (r int) { defer func() { recover() }(); return f(n+1) }
func F() { f(0) }
type S int
func (s S) String() string { return fmt.Sprint([]any{s}) }
func G() { fmt.Println(S(1)) }
func H() { sort.Slice([]int{2, 1}, func(i, j int) bool { H(); return i < j }) }
func I() { strings.Map(func(r rune) rune { I(); return r }, "x") }
`)
	for _, fn := range []string{"F", "G", "H", "I"} {
		_, _, err := p.run(&exec.Run{Limits: exec.Limits{Depth: 1 << 40}}, fn)
		if err == nil || !strings.Contains(err.Error(), "nested calls") {
			t.Errorf("%s: got %v", fn, err)
		}
	}
}

func TestCancel(t *testing.T) {
	t.Parallel()
	p := mustCompile(t, "package main\nfunc F() { defer func() { recover() }(); for { } }\nfunc G() int { return 1 + 1 }\n")
	ctx, cancel := context.WithTimeout(context.Background(), 50*time.Millisecond)
	defer cancel()
	run := &exec.Run{Ctx: ctx}
	start := time.Now()
	_, _, err := p.run(run, "F")
	if !errors.Is(err, context.DeadlineExceeded) || time.Since(start) > 5*time.Second {
		t.Fatalf("got %v after %v", err, time.Since(start))
	}
	if _, vs, err := p.run(nil, "G"); err != nil || vs[0].V != uint64(2) {
		t.Errorf("afterwards: %v %v", vs, err)
	}
	cancelled, stop := context.WithCancel(context.Background())
	stop()
	if _, _, err := p.run(&exec.Run{Ctx: cancelled}, "G"); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled before: %v", err)
	}
}

func TestFaults(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name, decls, body, msg string
		line                   int
	}{
		{"index", "", "a := []int{1, 2, 3}\nk := 5\n_ = a[k]", "index out of range [5] with length 3", 8},
		{"nil map", "", "var m map[string]int\nm[\"x\"] = 1", "assignment to entry in nil map", 7},
		{"nil pointer", "type P struct{ x int }", "var p *P\np.x = 1", "invalid memory address or nil pointer dereference", 7},
		{"nil func", "", "var f func()\nf()", "invalid memory address or nil pointer dereference", 7},
		{"division", "", "z := 0\n_ = 1 / z", "integer divide by zero", 7},
		{"assertion", "", "var v any = \"s\"\n_ = v.(int)", "interface conversion: interface {} is string, not int", 7},
		{"panic text", "", "panic(fmt.Sprintf(\"x is %d\", 3))", "panic: x is 3", 6},
		{"panic error", "", "panic(fmt.Errorf(\"bad %s\", \"thing\"))", "panic: bad thing", 6},
		{"panic stringer", "type S int; func (s S) String() string { return \"S!\" }", "panic(S(1))", "panic: S!", 6},
		{"panic of an error of the cell", "type E struct{}; func (E) Error() string { return \"E!\" }", "panic(E{})", "panic: E!", 6},
		{"panic whose text panics", "type E struct{}; func (E) Error() string { panic(\"again\") }", "panic(E{})", "panic: %!v(PANIC=Error method: again)", 6},
		{"panic nil", "", "panic(nil)", new(runtime.PanicNilError).Error(), 6},
		{"panic in a deferred call", "", "defer func() { panic(\"second\") }()\npanic(\"first\")", "panic: second", 6},
		{"compiled panic", "", "_ = strings.Repeat(\"x\", -1)", "panic: strings: negative Repeat count", 6},
		{"panic in a callback", "", "s := []int{2, 1}\nsort.Slice(s, func(i, j int) bool { panic(\"in less\") })", "panic: in less", 7},
		{"read only", "", "units.Quantity.String(0)\nstrconv.ErrRange = nil", "cannot assign to ErrRange: it belongs to package strconv", 7},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			src := "package main; import (\"fmt\"; \"sort\"; \"strings\"; \"strconv\"; \"ohmwright/units\")\nvar _ = fmt.Sprint; var _ = sort.Ints; var _ = strings.Join; var _ = strconv.Itoa; var _ units.Quantity\n" + tt.decls + "\n\nfunc main() {\n" + tt.body + "\n}\n"
			p := mustCompile(t, src)
			_, _, err := p.run(nil, "main")
			var f *exec.Fault
			if !errors.As(err, &f) {
				t.Fatalf("got %v", err)
			}
			if f.Msg != tt.msg {
				t.Errorf("message %q, want %q", f.Msg, tt.msg)
			}
			if at := p.fset.Position(f.Pos); at.Line != tt.line {
				t.Errorf("at line %d, want %d", at.Line, tt.line)
			}
		})
	}
}
