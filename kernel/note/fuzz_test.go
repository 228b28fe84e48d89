package note_test

import (
	"context"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/note"
)

// The cells beside the fuzzed one: names for it to use, and one that uses its x.
const (
	fuzzOther = "U := 3V\nn := 4\nxs := []int{1, 2}\nm := map[string]Quantity{\"a\": 2A}\ntype point struct{ x, y Quantity }\nfunc (p point) sum() Quantity { return p.x + p.y }\nfunc twice[T any](f func(T) T, v T) T { return f(f(v)) }"
	fuzzUser  = "z := x"
)

var fuzzSeeds = []string{
	// Found by fuzzing: they showed names that the program makes up.
	"x±1±2=3", "0A=4", "x := 5V\nx, y := 1, 2", "x := 1\nx = units.Parse(\"5V\")", "\"os\" ± 1%",

	"", "x := 5V", "x := U*n + 1V // text [source]", "// why\nx := 10kΩ ± 1%", "x := Range(1V, 2V, 3V)", "x := -40°C\nx + 5K", "x := 14dBm - 3dB",
	"x := xs[5]", "x := m[\"a\"] * 2Ω;", "p := point{1V, 2V}\nx := p.sum()", "x := twice(func(v Quantity) Quantity { return v * 2 }, U)",
	"x := 1/2*U", "x := U^2", "x := float64(U)", "x := 10k", "x := 4.7kOhmz", "x := 5V / 0", "x := U + 2A", "Require(U < 4V, \"low\")\nRequire(Within(U, 1V, 4V))",
	"for i := 0; i < 3; i++ { fmt.Println(i, U) }", "for {}", "func f(i int) int { return f(i + 1) }\nx := f(0)", "go func() {}()", "var c chan int",
	"import \"os\"", "import s \"strings\"\nx := s.ToUpper(\"a\")", "x := y\ny := x", "x := x", "U := 4V", "U = 4V", "xs[0] = 1", "panic(\"no\")", "x := []int{}[0]",
	"type T struct{ a int; b []T }\nfunc (t *T) m() { t.a++ }\nvar x T\nx.m()", "x, err := strconv.Atoi(\"k\")", "x := strconv.Itoa(\n", "\"a\"\n`b`\n'c'", "x := 1 ± 2 ± 3",
	"a, b := 1, 2\na, c := b, a\n", "x := func() int { return 1 }", "func x() int { return n }", "const x = 1 << 3", "var x, y = 1, 2.5", "x := 0x1p-2 + 1e3 + 017 + 0b1", "x := 2i",
	"x := Nearest(E96, 3kΩ) ± 1%", "defer func() { recover() }()", "switch { case U > 1V: fmt.Print(1) }", "L: for range 3 { continue L }", "goto L", "return", "break",
	"x := struct{ a, b Quantity }{1V, 2A}", "x := map[Quantity]int{1V: 2}", "x := [...]Quantity{1V, 2: 3V}", "x := any(U)", "_ = U", "U;", "U", "x := \"ƣ\"", "ƣ := 1", "\xff", "x := U // [7:0]",
	"type A = Quantity\nvar x A", "type B Quantity", "x := thermal.Rise(2W, 0K/W)", "x := thermal.Rise(2W, 10K/W)", "x := units.Parse(\"5V\")", "x := new(Quantity)", "/* open", "x := (1", "}", ")", "{", "x := U ≤ 4V", "f := func(q Quantity) Quantity { return q*n }\nx := f(2V)",
	"Markdown(`a {U}\n\t{p.x} {nope} {U limits} {U x}`)\np := point{1V, 2V}", "Markdown(\"\\u03a9 {n}\" + `{twice}` + \"\")", "Markdown(`{xs} {m} <b> [a](x:y)`)", "x := Markdown", "Markdown(`{x}`)\nx := 1\nx = 2",
	"type L[T any] struct { v T; next *L[T] }\nx := L[int]{v: 1}", "if U > 2V { x := 1; _ = x }", "x := min(U, 1V) + max(0, U)", "for k, v := range m { fmt.Println(k, v) }", "func g(yield func(int) bool) { yield(1) }\nfor i := range g { fmt.Println(i) }",
}

// FuzzCell computes an arbitrary text as a cell: nothing panics, no error is
// our own, errors stand in the text and do not show made names, and the same
// text gives the same results.
func FuzzCell(f *testing.F) {
	for _, s := range fuzzSeeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, code string) {
		if len(code) > 4096 {
			return // a loop of statements teaches nothing new and is slow
		}
		first, timed := fuzzRun(t, code)
		again, timedAgain := fuzzRun(t, code)
		if !timed && !timedAgain && first != again {
			t.Errorf("the same cells gave\n%s\nand\n%s", first, again)
		}
	})
}

// fuzzRun computes a text between the other cells; timed: the clock decided
// about the result.
func fuzzRun(t *testing.T, code string) (results string, timed bool) {
	n := note.New(note.Options{World: world, CellTime: 2 * time.Second, Limits: exec.Limits{Steps: 1e6, Depth: 1000, Memory: 32 << 20}})
	n.Set(sources(fuzzOther, code, fuzzUser))
	rs := n.Run(context.Background())
	for _, r := range rs {
		for _, e := range r.Errors {
			timed = timed || strings.Contains(e.Msg, "time allowed")
			if e.Code == cell.CodeInternal {
				t.Errorf("our own mistake: %s", e)
			}
			if e.Code == "" || e.Msg == "" {
				t.Errorf("an error without code or text: %+v", e)
			}
			if !strings.Contains(code, "ƣ") && strings.Contains(e.Error()+strings.Join(e.Frames, ""), "ƣ") {
				t.Errorf("shows a made name: %s %q", e, e.Frames)
			}
			if strings.Contains(e.Error(), "ohmwright/") && !strings.Contains(code, "ohmwright/") {
				t.Errorf("shows a path of ours: %s", e)
			}
			if r.ID == "c2" && utf8.ValidString(code) {
				inside(t, code, e)
			}
		}
	}
	if _, err := n.Why(context.Background(), "x", note.WhyOptions{}); err != nil && strings.Contains(err.Error(), "ƣ") && !strings.Contains(code, "ƣ") {
		t.Errorf("why shows a made name: %s", err)
	}
	return dump(rs), timed
}

// inside holds that an error stands in the text, or right behind its end.
func inside(t *testing.T, code string, e *cell.Error) {
	t.Helper()
	lines := strings.Split(code, "\n")
	if e.Line < 1 || e.Line > len(lines) || e.Column < 1 || e.Column > utf8.RuneCountInString(lines[e.Line-1])+1 {
		t.Errorf("at %d:%d, outside the text: %s", e.Line, e.Column, e)
	}
}
