package note_test

import (
	"context"
	"strings"
	"testing"

	"ohmwright/kernel/note"
)

// TestBetweenCells holds what cells get from each other and what they cannot
// do to each other, with the values worked out by hand. The cells run in the
// order given and in the reverse one.
func TestBetweenCells(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		reason string
		cells  []string
		want   map[string]string
	}{
		{"a literal without field names of another cell's type", []string{"type point struct { a int; b Quantity }", "p := point{1, 2V}\nx := p.b"}, map[string]string{"x": "2 V"}},
		{"also inside a list, a map and a pointer", []string{"type point struct { a, b int }", "ps := []point{{1, 2}, {3, 4}}\nqs := map[string]*point{\"k\": {5, 6}}\nx := ps[1].b*10 + qs[\"k\"].a"}, map[string]string{"x": "45"}},
		{"also of a generic type", []string{"type pair[A, B any] struct { a A; b B }", "x := pair[int, Quantity]{1, 2V}.b"}, map[string]string{"x": "2 V"}},
		{"also of an embedded one", []string{"type in struct { n int }\ntype out struct { in; m int }", "x := out{in{4}, 5}.n"}, map[string]string{"x": "4"}},
		{"a type of one's own sorts", []string{"type byLen []string\nfunc (b byLen) Len() int { return len(b) }\nfunc (b byLen) Less(i, j int) bool { return len(b[i]) < len(b[j]) }\nfunc (b byLen) Swap(i, j int) { b[i], b[j] = b[j], b[i] }",
			"xs := byLen{\"ccc\", \"a\", \"bb\"}\nsort.Sort(xs)\nx := xs[0]"}, map[string]string{"x": "a"}},
		{"an element set through a local name", []string{"xs := []int{1, 2, 3}", "ys := xs\nys[0] = 9\na := ys[0]", "b := xs[0]"}, map[string]string{"a": "9", "b": "1", "xs": "[1 2 3]"}},
		{"an append into room that was left", []string{"xs := make([]int, 1, 4)\nall := xs[:3]", "ys := append(xs, 7)\na := ys[1]", "b := all[1]"}, map[string]string{"a": "7", "b": "0"}},
		{"a map", []string{"m := map[string]int{\"a\": 1}", "k := m\nk[\"a\"], k[\"b\"] = 5, 6\na := len(k)", "b := m[\"a\"]*10 + len(m)"}, map[string]string{"a": "2", "b": "11"}},
		{"a pointer", []string{"type box struct { n int }\np := &box{1}", "q := p\nq.n = 8\na := q.n", "b := p.n"}, map[string]string{"a": "8", "b": "1"}},
		{"a struct that holds a slice", []string{"v := struct { xs []int }{[]int{1}}", "w := v\nw.xs[0] = 4\na := w.xs[0]", "b := v.xs[0]"}, map[string]string{"a": "4", "b": "1"}},
		{"an array of slices", []string{"v := [2][]int{{1}, {2}}", "w := v\nw[1][0] = 4\na := w[1][0]", "b := v[1][0]"}, map[string]string{"a": "4", "b": "2"}},
		{"something in an interface", []string{"var v any = []int{1}", "w := v.([]int)\nw[0] = 4\na := w[0]", "b := v.([]int)[0]"}, map[string]string{"a": "4", "b": "1"}},
		{"what a closure holds", []string{"f := func() func() []int { held := []int{1}; return func() []int { return held } }()", "w := f()\nw[0] = 4\na := w[0]", "b := f()[0]"}, map[string]string{"a": "4", "b": "1"}},
		{"what a function returns of its own cell", []string{"xs := []int{1}\nfunc get() []int { return xs }", "w := get()\nw[0] = 4\na := w[0]", "b := get()[0]"}, map[string]string{"a": "4", "b": "1", "xs": "[1]"}},
		{"what a function changes through its parameter", []string{"xs := []int{3, 1, 2}", "func first(ys []int) int { ys[0] = 7; return ys[0] }", "a := first(xs)", "b := xs[0]"}, map[string]string{"a": "7", "b": "3"}},
		{"what compiled code sorts in place", []string{"xs := []int{3, 1, 2}", "ys := xs\nsort.Ints(ys)\na := ys[0]", "b := xs[0]"}, map[string]string{"a": "1", "b": "3"}},
		{"what a loop variable reaches", []string{"ps := []*struct{ n int }{{1}, {2}}", "for _, p := range ps { p.n *= 10 }\na := 0", "b := ps[1].n"}, map[string]string{"b": "2"}},
		{"what two names shared at home", []string{"xs := []int{1, 2}\nys := xs\nys[0] = 9", "b := xs[0]"}, map[string]string{"b": "9"}},
	} {
		t.Run(c.reason, func(t *testing.T) {
			t.Parallel()
			forth := sources(c.cells...)
			var back []note.Source
			for i, s := range forth {
				s.Label = "cell " + strings.TrimPrefix(s.ID, "c")
				forth[i] = s
				back = append([]note.Source{s}, back...)
			}
			for _, order := range [][]note.Source{forth, back} {
				n := note.New(note.Options{World: world})
				var rs []*note.Result
				for _, s := range order {
					n.Put(s)
					rs = n.Run(context.Background())
				}
				for name, want := range c.want {
					if got := text(rs, name); got != want {
						t.Errorf("%s is %s, want %s", name, got, want)
					}
				}
			}
		})
	}
}

// TestEditedKind changes what a name is, while its type stays: whoever uses it
// must be built again.
func TestEditedKind(t *testing.T) {
	t.Parallel()
	kinds := []struct{ code, want string }{
		{"const k int = 2", "4"}, {"k := 3", "6"}, {"const k int = 4", "8"}, {"var k int\nk = 5", "10"}, {"const k = 6", "12"}, {"k := 7", "14"},
	}
	n := note.New(note.Options{World: world})
	n.Put(note.Source{ID: "user", Code: "x := 2*k"})
	for _, k := range kinds {
		n.Put(note.Source{ID: "owner", Code: k.code})
		if got := text(n.Run(context.Background()), "x"); got != k.want {
			t.Errorf("after %q x is %s, want %s", k.code, got, k.want)
		}
	}
	kinds = []struct{ code, want string }{
		{"func f() int { return 2 }", "4"}, {"f := func() int { return 3 }", "6"}, {"func f() int { return 4 }", "8"},
		{"var f func() int\nf = func() int { return 5 }", "10"}, {"type f = int", "error: "}, {"func f() int { return 6 }", "12"},
	}
	n = note.New(note.Options{World: world})
	n.Put(note.Source{ID: "user", Code: "x := 2*f()"})
	for _, k := range kinds {
		n.Put(note.Source{ID: "owner", Code: k.code})
		if got := text(n.Run(context.Background()), "x"); got != k.want && !(k.want == "error: " && strings.HasPrefix(got, k.want)) {
			t.Errorf("after %q x is %s, want %s", k.code, got, k.want)
		}
	}
}

// foreignHome is the cell that TestForeignChanges tries to change.
const foreignHome = `type box struct { n int; xs []int }
func (b *box) bump() { b.n++ }
v := box{1, []int{1}}
p := &box{1, nil}
m := map[string]int{"a": 1}
xs := []int{3, 1, 2}
arr := [3]int{3, 1, 2}
var e any = &v
func setV() { v.n = 50 }
func grow() { xs = append(xs, 4) }
func put(k string) { m[k] = 9 }`

// TestForeignChanges tries to change another cell's values by all ways that
// Go has. What stands there openly is refused; what goes through another name
// or a function may change a copy, and nobody else sees it.
func TestForeignChanges(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		code    string
		refused bool // with the owner's name
	}{
		{"v.n = 5", true}, {"v.xs[0] = 3", true}, {"(*p).n = 4", true}, {"*p = box{}", true}, {"m[\"q\"]++", true}, {"xs = nil", true},
		{"for i := range xs { xs[i] = 1 }", true}, {"for i := range arr { y := &arr[i]; *y = 1 }", true}, {"func() { v.n = 5 }()", true},
		{"(*box).bump(&v)", true}, {"var x int\nx, xs[0] = 1, 2", true}, {"setV()", true}, {"grow()", true},
		// A method takes the address as & does; Go's own functions change what they are given.
		{"v.bump()", true}, {"f := v.bump\nf()", true}, {"clear(m)", true}, {"delete(m, \"a\")", true}, {"copy(xs, []int{9})", true},
		{"p.bump()", false}, {"put(\"z\")", false}, {"sort.Ints(xs)", false}, {"e.(*box).n = 7", false}, {"ys := append(xs[:0], 9)", false}, {"ys := arr[:]\nys[0] = 9", false},
		{"q := *p\nq.n = 3", false}, {"type w struct{ *box }\ny := w{p}\ny.n = 8", false}, {"func g(v *box) { v.n = 9 }\ng(p)", false}, {"for _, b := range []*box{p} { b.n = 3 }", false},
	} {
		t.Run(c.code, func(t *testing.T) {
			t.Parallel()
			_, rs := compute(t, foreignHome, c.code, "seen := fmt.Sprint(v, *p, m, xs, arr, e.(*box).n)")
			if got, want := text(rs[2:], "seen"), "{1 [1]} {1 []} map[a:1] [3 1 2] [3 1 2] 1"; got != want {
				t.Errorf("another cell sees %s, want %s", got, want)
			}
			e := firstError(rs)
			switch {
			case c.refused && (e == nil || !strings.Contains(e.Msg, "cell 1")):
				t.Errorf("is not refused with the name of the owner: %v", e)
			case !c.refused && e != nil:
				t.Errorf("is refused: %s", e)
			}
		})
	}
}
