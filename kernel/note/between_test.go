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
