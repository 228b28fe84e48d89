package exec_test

import (
	"fmt"
	"strings"
	"testing"

	"ohmwright/kernel/cell/exec"
)

const copySource = `package note
import ("fmt"; "strings"; "ohmwright/units")
type N struct { v int; next *N; q units.Quantity; a [2]int }
type All struct { s, t []int; m map[string][]int; p *int; n *N; i any; f func() int; b *strings.Builder; e [2]N }
func Make() All {
	s := []int{1, 2, 3, 4}
	n := &N{v: 1}
	n.next = n
	k := 5
	b := new(strings.Builder)
	b.WriteString("x")
	return All{s: s, t: s[1:3], m: map[string][]int{"a": s}, p: &s[3], n: n, i: n, f: func() int { return k }, b: b}
}
// Spoil changes all that can be reached and prints it.
func Spoil(x All) string {
	x.s[1] = 9
	*x.p = 8
	x.n.v = 7
	x.n.a[1] = 6
	x.b.WriteString("y")
	x.e[0].v = 3
	x.m["b"] = nil
	return Show(x)
}
func Show(x All) string {
	return fmt.Sprint(x.s, x.t, x.m, *x.p, x.n.v, x.n.next == x.n, x.i == any(x.n), x.n.a, x.f(), x.b.String(), x.e[0].v, cap(x.t))
}
func List() *N { var l *N; for i := 0; i < 100000; i++ { l = &N{v: i, next: l} }; return l }
func Len(l *N) (n int) { for ; l != nil; l = l.next { n++ }; return }
func Counter() func() int { n := 0; return func() int { n++; return n } }
func Reader() func() int { n := 4; return func() int { return n } }
type C struct { n int; m map[string]int; s []int }
func (c *C) Inc() { c.n++ }
func (c *C) Get() int { return c.n }
func (c C) Set() { c.n = 5 }
func Bound() func() { c := &C{}; return c.Inc }
func BoundGet() func() int { c := &C{}; return c.Get }
func BoundSet() func() { c := C{}; return c.Set }
func MapKeeper() func() { m := map[string]int{}; return func() { m["x"]++ } }
func SliceKeeper() func() { s := make([]int, 3); return func() { s[0] = 1 } }
func Appender() func() []int { s := []int{}; return func() []int { t := append([]int(nil), s...); t[0] = 1; return t } }
func Nested() func() func() { n := 0; return func() func() { return func() { n++ } } }
func Calls() func() { n := 0; return func() { bump(&n) } }
func bump(p *int) { *p++ }
var global int
func Global() func() { return func() { global++ } }
func Fresh() func() int { return func() int { n := 0; f := func() { n++ }; f(); return n } }
func Held() any { n := 0; _ = n; return map[string]any{"f": []func(){func() { n = 1 }}} }
type Incer interface { Inc(); Get() int }
func ByInterface() func() { var i Incer = &C{}; return func() { i.Inc() } }
func ReadsInterface() func() int { var i Incer = &C{}; return func() int { return i.Get() } }
func InRange() func() { n := 0; return func() { for range func(y func() bool) { y() } { n++ } } }
`

func one(t *testing.T, p *program, fn string, args ...exec.Value) exec.Value {
	t.Helper()
	_, vs, err := p.run(nil, fn, args...)
	if err != nil {
		t.Fatal(fn, err)
	}
	if len(vs) == 0 {
		return exec.Value{}
	}
	return vs[0]
}

func TestCopyIsolatesAndKeepsAliases(t *testing.T) {
	t.Parallel()
	p := mustCompile(t, copySource)
	v := one(t, p, "Make")
	before := one(t, p, "Show", v).V
	c := exec.Copy(v)
	if got := one(t, p, "Show", c).V; got != before {
		t.Errorf("the copy shows %v, want %v", got, before)
	}
	if !exec.Same(v, c) {
		t.Error("a copy is not the same as its original")
	}
	spoiled := one(t, p, "Spoil", c).V
	// s[1] is t[0], p is s[3], n is its own next and also i.
	if want := "[1 9 3 8] [9 3] map[a:[1 9 3 8] b:[]] 8 7 true true [0 6] 5xy3 3"; spoiled != want {
		t.Errorf("the copy lost an alias: %v, want %v", spoiled, want)
	}
	if got := one(t, p, "Show", v).V; got != before {
		t.Errorf("the original changed to %v from %v", got, before)
	}
	if exec.Same(v, c) {
		t.Error("the changed copy is still the same")
	}
}

// A struct that was copied before has room behind its fields, for allocations
// come in steps: with 20 quantities the next copy counted that room as fields.
func TestCopyOfACopyOfAnySize(t *testing.T) {
	t.Parallel()
	var src strings.Builder
	src.WriteString("package note\nimport \"ohmwright/units\"\n")
	for n := range 70 {
		fmt.Fprintf(&src, "func Make%d() [%[1]d]units.Quantity { var a [%[1]d]units.Quantity; for i := range a { a[i] = units.Number(float64(i)) }; b := a; return b }\n", n)
	}
	p := mustCompile(t, src.String())
	for n := range 70 {
		v := one(t, p, fmt.Sprintf("Make%d", n))
		if c := exec.Copy(exec.Copy(v)); !exec.Same(v, c) {
			t.Errorf("a copy of %d quantities is not the same as its original", n)
		}
	}
}

func TestCopyAllKeepsSharing(t *testing.T) {
	t.Parallel()
	p := mustCompile(t, "package note\nfunc Make() ([]int, []int) { s := []int{1, 2, 3}; return s[:2], s[1:] }\nfunc Put(s []int) { s[1] = 7 }\nfunc Get(s []int) int { return s[0] }")
	_, vs, err := p.run(nil, "Make")
	if err != nil {
		t.Fatal(err)
	}
	cs := exec.CopyAll(vs)
	one(t, p, "Put", cs[0])
	if got := one(t, p, "Get", cs[1]).V; got != uint64(7) {
		t.Errorf("copies do not share: %v", got)
	}
	if got := one(t, p, "Get", vs[1]).V; got != uint64(2) {
		t.Errorf("the original changed: %v", got)
	}
}

func TestCopyOfLongList(t *testing.T) {
	t.Parallel()
	p := mustCompile(t, copySource)
	l := one(t, p, "List")
	c := exec.Copy(l)
	if n := one(t, p, "Len", c).V; n != uint64(100000) {
		t.Errorf("length %v", n)
	}
	if !exec.Same(l, c) {
		t.Error("not the same")
	}
}

func TestCopyOfClosure(t *testing.T) {
	t.Parallel()
	p := mustCompile(t, copySource)
	f := one(t, p, "Counter")
	c := exec.Copy(f)
	run := &exec.Run{}
	for i, step := range []struct {
		f    exec.Value
		want uint64
	}{{f, 1}, {f, 2}, {c, 1}, {f, 3}, {c, 2}} {
		vs, err := exec.CallValue(run, step.f)
		if err != nil || vs[0].V != step.want {
			t.Errorf("step %d: %v %v, want %d", i, vs, err, step.want)
		}
	}
}

func TestChanges(t *testing.T) {
	t.Parallel()
	p := mustCompile(t, copySource)
	for fn, want := range map[string]string{
		"Counter": "n", "Reader": "", "Bound": "recv", "BoundGet": "", "BoundSet": "", "MapKeeper": "m", "SliceKeeper": "s",
		"Appender": "", "Nested": "n", "Calls": "n", "Global": "global", "Fresh": "", "Held": "n", "InRange": "n",
		"ByInterface": "i", "ReadsInterface": "",
	} {
		if got := exec.Changes(one(t, p, fn)); got != want {
			t.Errorf("%s: %q, want %q", fn, got, want)
		}
	}
}

func TestShow(t *testing.T) {
	t.Parallel()
	src := `package note
import ("errors"; "ohmwright/units")
type R struct { Ratio float64; V units.Quantity; tags []string }
type S int
func (s S) String() string { return "S!" }
func Rec() R { return R{0.5, units.MustParse("3.3V"), []string{"a"}} }
func Str() S { return 3 }
func Err() error { return errors.New("no") }
func Nil() error { return nil }
func Map() map[string]bool { return map[string]bool{"b": true, "a": false} }
func Long() []int { return make([]int, 1500) }
func Fn() func(int) string { return nil }
func Num() uint8 { return 200 }
func Loop() []any { s := []any{nil}; s[0] = s; return s }
`
	p := mustCompile(t, src)
	show := func(fn string) exec.View {
		run := &exec.Run{}
		_, vs, err := p.run(run, fn)
		if err != nil {
			t.Fatal(err)
		}
		return exec.Show(run, vs[0])
	}
	r := show("Rec")
	if r.Kind != exec.KindRecord || r.Type != "R" || r.Text != "{0.5 3.3 V [a]}" || len(r.Items) != 3 ||
		r.Items[0].Name != "Ratio" || r.Items[0].Value.Number != 0.5 || r.Items[1].Value.Kind != exec.KindQuantity ||
		r.Items[1].Value.Type != "Quantity" || r.Items[2].Value.Items[0].Name != "[0]" || r.Items[2].Value.Type != "[]string" {
		t.Errorf("record %+v", r)
	}
	for fn, want := range map[string]string{
		"Str": fmt.Sprint(exec.KindText, "S", "S!"), "Err": fmt.Sprint(exec.KindText, "*errors.errorString", "no"),
		"Nil": fmt.Sprint(exec.KindNil, "error", "<nil>"), "Map": fmt.Sprint(exec.KindMap, "map[string]bool", "map[a:false b:true]"),
		"Fn": fmt.Sprint(exec.KindNil, "func(int) string", "<nil>"), "Num": fmt.Sprint(exec.KindNumber, "uint8", "200"),
	} {
		if v := show(fn); fmt.Sprint(v.Kind, v.Type, v.Text) != want {
			t.Errorf("%s: %v %v %v, want %v", fn, v.Kind, v.Type, v.Text, want)
		}
	}
	if m := show("Map"); m.Items[0].Name != "a" || m.Items[1].Value.Kind != exec.KindBool {
		t.Errorf("map %+v", m)
	}
	parts := func(v exec.View, name string) string {
		var list []string
		v.Walk(name, func(name string, _ exec.View) { list = append(list, name) })
		return strings.Join(list, " ")
	}
	if got := parts(r, "r") + ", " + parts(show("Map"), "m"); got != "r r.Ratio r.V r.tags r.tags[0], m m[a] m[b]" {
		t.Errorf("parts are called %s", got)
	}
	if l := show("Long"); len(l.Items) != 1000 || l.More != 500 {
		t.Errorf("list of %d, %d left out", len(l.Items), l.More)
	}
	if l := show("Loop"); l.Kind != exec.KindList || l.Text == "" {
		t.Errorf("a list that contains itself: %v", l.Kind)
	}
}
