package note_test

import (
	"fmt"
	"slices"
	"strings"

	"pgregory.net/rapid"
)

// A template is one cell of a random note. In its texts, $ is the number of
// the cell and @1, @2 are names of the kinds that it needs. Every text defines
// the same names with the same types, so that one can replace the other.
type template struct {
	gives map[string]string // name to kind
	needs string            // kinds, one letter each
	texts []string
}

// The kinds: q voltage, o resistance, n float64, i int, s []int, z []Quantity,
// m map[string]int, t a struct type with total and bump, v a value of one, p a pointer,
// f func(int) int, l func() []int, h func(int) int that may
// change what it sees, g generic sum of a slice, a any.
var templates = []template{
	{map[string]string{"q$": "q"}, "", []string{"q$ := 3V // supply [assumed]", "q$ := 4.5V ± 2%", "// why\nq$ := Range(1V, 2V, 3V)"}},
	{map[string]string{"n$": "n"}, "", []string{"n$ := 1.5", "n$ := 0.25 * 3"}},
	{map[string]string{"i$": "i"}, "", []string{"i$ := 3", "i$ := 40 + 2", "const i$ int = 6", "const i$ = 8", "var i$ int\nfor k := range 5 { i$ += k }"}},
	{map[string]string{"s$": "s"}, "", []string{"s$ := []int{1, 2, 3}", "s$ := []int{9, 8, 7, 6}", "s$ := make([]int, 3, 10)\ns$[1] = 5"}},
	{map[string]string{"z$": "z"}, "", []string{"z$ := []Quantity{1V, 2V, 3V}", "z$ := []Quantity{-1V, 0.5V, 12V, 3V}"}},
	{map[string]string{"m$": "m"}, "", []string{"m$ := map[string]int{\"a\": 1, \"b\": 2}", "m$ := map[string]int{\"a\": 5, \"c\": 3, \"d\": 4}"}},
	// Two names of one backing array, and a pointer into a struct of the same cell.
	{map[string]string{"s$": "s", "s$b": "s"}, "", []string{"s$ := []int{1, 2, 3, 4}\ns$b := s$[:3]\ns$b[1] = 20", "s$ := []int{5, 6, 7}\ns$b := append(s$[:1], 1, 2)"}},
	{map[string]string{"v$": "v", "p$": "p"}, "", []string{structType + "v$ := t${a: 1, q: 2V, xs: []int{1, 2}, m: map[string]int{\"k\": 1}}\np$ := &v$\np$.bump()",
		structTypeOther + "v$ := t${a: 1, n: 2.5, xs: []int{1, 2}, m: map[string]int{}}\np$ := &v$",
		structType + "v$ := t${a: 7, q: 5V, xs: []int{3, 4, 5}, m: map[string]int{}}\np$ := &v$"}},
	{map[string]string{"t$": "t"}, "", []string{structType, structTypeOther}},
	{map[string]string{"v$": "v", "p$": "p"}, "ti", []string{"v$ := @1{a: @2, xs: []int{@2, 2}, m: map[string]int{}}\nvar p$ *@1 = &@1{m: v$.m}", "var v$ @1\nv$.xs = []int{@2}\np$ := new(@1)\np$.m = map[string]int{\"k\": 3}\nv$.m = p$.m\np$.bump()"}},
	{map[string]string{"g$": "g"}, "", []string{"func g$[T ~int | ~float64](xs []T) T { return apply$(xs, func(a, b T) T { return a + b }) }\nfunc apply$[T any](xs []T, f func(a, b T) T) T { var s T; for _, x := range xs { s = f(s, x) }; return s }",
		"type stack$[T any] struct { list []T }\nfunc (s *stack$[T]) push(x T) { s.list = append(s.list, x) }\nfunc g$[T ~int | ~float64](xs []T) T { var s stack$[T]; for _, x := range xs { s.push(x) }; return s.list[len(s.list)-1] }"}},
	{map[string]string{"p$": "p"}, "i", []string{structType + "p$ := &t${a: @1, xs: []int{@1}, m: map[string]int{\"k\": @1}}", structType + "p$ := &t${a: @1 + 1, q: 1V, xs: []int{@1, 2}, m: map[string]int{}}\np$.bump()"}},
	{map[string]string{"f$": "f"}, "i", []string{"f$ := func(x int) int { return x*@1 + 1 }", "k$ := 3\nf$ := func(x int) int { return x + @1*k$ }"}},
	{map[string]string{"f$": "f"}, "is", []string{"func f$(x int) int { return x + @1 + @2[0] }", "func f$(x int) int { return x*@1 + len(@2) }"}},
	{map[string]string{"h$": "h"}, "is", []string{"func h$(x int) int {\n\tys := @2\n\tys[0]++\n\treturn x*@1 + ys[0]\n}", "h$ := func(x int) int { return x - @1*@2[1] }"}},
	{map[string]string{"h$": "h"}, "i", []string{"k$ := 5\nfunc h$(x int) int { return x*k$ + @1 }", "calls$ := []int{0}\nfunc h$(x int) int { calls$[0] += x; return calls$[0] + @1 }\ncalls$[0] = h$(1)"}},
	{map[string]string{"i$": "i"}, "hh", []string{"i$ := @1(1) + @2(2)", "i$ := @2(3)\ni$ = i$*2 + @1(i$)"}},
	{map[string]string{"f$": "f"}, "fi", []string{"func f$(x int) int { return @1(x) - @2 }", "f$ := func(x int) int { return @1(@1(x)) + @2 }"}},
	{map[string]string{"f$": "f"}, "v", []string{"f$ := @1.total2", "f$ := func(x int) int { c := @1; c.bump(); return c.total() + x }"}},
	{map[string]string{"l$": "l"}, "s", []string{"func l$() []int { return @1 }", "l$ := func() []int { return @1 }", "own$ := append([]int{}, @1...)\nl$ := func() []int { return own$ }"}},
	{map[string]string{"g$": "g"}, "", []string{"func g$[T ~int | ~float64](xs []T) T { var s T; for _, x := range xs { s += x }; return s }",
		"func g$[T ~int | ~float64](xs []T) T { var s T; for _, x := range xs { s += 2 * x }; return s }"}},
	{map[string]string{"g$": "g"}, "g", []string{"func g$[T ~int | ~float64](xs []T) T { return @1(xs) + @1(xs[:1]) }", "func g$[T ~int | ~float64](xs []T) T { return @1(append(xs[:1:1], xs...)) }"}},
	{map[string]string{"a$": "a"}, "v", []string{"var a$ any = @1", "var a$ any = []any{@1, @1.a, \"x\"}"}},
	{map[string]string{"a$": "a"}, "ism", []string{"var a$ any = map[string]any{\"i\": @1, \"s\": @2, \"m\": @3}", "var a$ any = struct { i int; s []int }{@1, @2}"}},
	{map[string]string{"o$": "o"}, "q", []string{"o$ := Nearest(E96, Abs(@1)/1.7mA + 1Ω)", "o$ := AtLeast(E24, Nominal(Abs(@1)/3mA) + 1Ω) ± 1%", "o$ := AtMost(E12, Nominal(@1*@1)/(0.1V*1A) + 1Ω)"}},
	{map[string]string{"q$": "q"}, "oq", []string{"q$ := @2 * @1 / (@1 + 1kΩ) // divided", "q$ := @2 - 0.1V\nq$ = q$ + @2*@1/10kΩ"}},
	{map[string]string{"q$": "q"}, "zn", []string{"q$ := @1[0] + @2*@1[1]", "q$ := Max(@1[0], @1[1])\nfor _, x := range @1 { if x > q$ { q$ = x } }\nRequire(q$ >= @1[0], \"the largest\")"}},
	{map[string]string{"q$": "q"}, "gz", []string{"q$ := @1(@2)", "q$ := @1([]Quantity{@2[0], 1V}) - @2[1]"}},
	{map[string]string{"i$": "i"}, "gs", []string{"i$ := @1(@2)", "i$ := @1(append(@2, 4)) + len(@2)"}},
	{map[string]string{"i$": "i"}, "fi", []string{"i$ := @1(@2)", "i$ := @1(@2) + @1(3)\nfmt.Println(\"i\", i$)"}},
	{map[string]string{"i$": "i"}, "pv", []string{"i$ := @1.total() + @2.total()", "i$ := @1.a*2 + len(@2.m) + @1.total2(1)"}},
	{map[string]string{"n$": "n"}, "ni", []string{"n$ := @1*1.5 + float64(@2)", "n$ := math.Sqrt(@1*@1) - float64(@2)/4"}},
	{map[string]string{"z$": "z"}, "qz", []string{"z$ := append([]Quantity{@1}, @2...)", "z$ := make([]Quantity, len(@2))\nfor i, x := range @2 { z$[i] = x + @1 }"}},
	// Local names for what another cell owns, changed here.
	{map[string]string{"y$": "s", "i$": "i"}, "s", []string{"y$ := @1\ny$[0] = 99\ni$ := @1[0]", "y$ := @1[1:]\ny$[0]--\ny$ = append(y$, 5)\ni$ := len(@1)*100 + @1[1]"}},
	{map[string]string{"y$": "s"}, "s", []string{"y$ := append(@1[:1], 1000)", "y$ := @1\nsort.Sort(sort.Reverse(sort.IntSlice(y$)))", "y$ := @1\nfor i := range y$ { y$[i] *= 2 }"}},
	{map[string]string{"i$": "i"}, "s", []string{"func spoil$(xs []int) int { xs[0] = 77; return xs[0] }\ni$ := spoil$(@1) + @1[1]", "func spoil$(xs ...int) { xs[1] = 55 }\nspoil$(@1...)\ni$ := 4"}},
	{map[string]string{"k$": "m"}, "m", []string{"k$ := @1\nk$[\"z\"] = 26\ndelete(k$, \"a\")", "k$ := @1\nfor x := range k$ { k$[x]++ }"}},
	{map[string]string{"i$": "i"}, "l", []string{"g$ := @1()\ng$[0] = 500\ni$ := len(@1())", "i$ := func() int { xs := @1(); xs[1] += 3; return xs[1] }()"}},
	{map[string]string{"w$": "v", "i$": "i"}, "v", []string{"w$ := @1\nw$.xs[0] = 66\nw$.bump()\ni$ := w$.total()", "w$ := @1\nw$.m[\"new\"] = 4\ni$ := len(w$.m)"}},
	{map[string]string{"w$": "p", "i$": "i"}, "p", []string{"w$ := @1\nw$.bump()\ni$ := w$.total()", "w$ := @1\nw$.a = 1000\nw$.xs = append(w$.xs, 8)\ni$ := @1.a"}},
	{map[string]string{"i$": "i"}, "vs", []string{"i$ := func() int { in := struct { v []int; n [2][]int }{v: @2}; in.n[1] = @2; in.n[1][0] = -4; return in.v[0] + @1.total() }()", "i$ := func() int { c := []([]int){@2, @1.xs}; c[0][1], c[1][0] = 3, 4; return c[0][1] }()"}},
	{map[string]string{"i$": "i"}, "a", []string{"i$ := func() int { switch x := @1.(type) { case map[string]any: x[\"s\"].([]int)[0] = 1; return len(x); case []any: x[1] = 2; return 4 }; return 1 }()", "i$ := len(fmt.Sprint(@1))"}},
}

const structType = "type t$ struct { a int; q Quantity; xs []int; m map[string]int }\n" +
	"func (t t$) total() int { s := t.a; for _, x := range t.xs { s += x }; return s + 10*len(t.m) }\n" +
	"func (t t$) total2(x int) int { return t.total() * x }\n" +
	"func (t *t$) bump() { t.a++; if len(t.xs) > 0 { t.xs[0] += 10 }; t.m[\"z\"] = t.a }\n"

const structTypeOther = "type t$ struct { n float64; xs []int; q Quantity; a int; m map[string]int }\n" +
	"func (t t$) total() int { return t.a - len(t.xs) }\n" +
	"func (t t$) total2(x int) int { return x - t.total() }\n" +
	"func (t *t$) bump() { t.a *= 2; t.n++; t.m[\"y\"] = t.total() }\n"

// randomCell is a cell of a random note: all its texts are good.
type randomCell struct {
	id, label string
	texts     []string
	values    []string // names of values and functions that they define
}

// drawNote makes a note whose cells use each other without a circle, in an
// order in which definitions may stand below their uses.
func drawNote(t *rapid.T) []randomCell {
	have := map[string][]string{} // names by kind
	var cells []randomCell
	for n := rapid.IntRange(3, 12).Draw(t, "cells"); len(cells) < n; {
		var fit []template
		for _, x := range templates {
			if !strings.ContainsFunc(x.needs, func(k rune) bool { return len(have[string(k)]) == 0 }) {
				fit = append(fit, x)
			}
		}
		x := rapid.SampledFrom(fit).Draw(t, "template")
		number := fmt.Sprint(len(cells) + 1)
		swap := []string{"$", number}
		for i, k := range x.needs {
			swap = append(swap, fmt.Sprint("@", i+1), rapid.SampledFrom(have[string(k)]).Draw(t, "name"))
		}
		put := strings.NewReplacer(swap...)
		c := randomCell{id: "c" + number}
		for _, text := range x.texts {
			c.texts = append(c.texts, put.Replace(text))
		}
		for name, kind := range x.gives {
			have[kind] = append(have[kind], put.Replace(name))
			if kind != "t" && kind != "g" {
				c.values = append(c.values, put.Replace(name))
			}
		}
		slices.Sort(c.values)
		for _, names := range have {
			slices.Sort(names) // not in the order of the map, so that a draw can be repeated
		}
		cells = append(cells, c)
	}
	cells = rapid.Permutation(cells).Draw(t, "document")
	for i := range cells {
		cells[i].label = fmt.Sprint("cell ", i+1)
	}
	return cells
}
