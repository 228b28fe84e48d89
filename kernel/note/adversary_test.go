package note_test

import (
	"context"
	"strings"
	"testing"

	"ohmwright/kernel/note"
)

// TestOrderInACell holds definitions used above themselves: moved up where
// that cannot change a value, refused where it could.
func TestOrderInACell(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ reason, code, name, want string }{
		{"a chain, its source between", "y := z*2\na := 5V\nz := a + 1V", "y", "12 V"},
		{"the same, its middle", "y := z*2\na := 5V\nz := a + 1V", "z", "6 V"},
		{"through a function", "y := f()\na := 5V\nz := a + 1V\nfunc f() Quantity { return z }", "y", "6 V"},
		{"in a requirement", "Require(Vout < 3V, \"low\")\nR1 := 10kΩ\nR2 := 10kΩ\nVout := 10V*R2/(R1+R2)", "Vout", "5 V"},
		{"in a statement", "x := 0\nif z > 3V { x = 1 }\na := 5V\nz := a", "x", "1"},
		{"of a value that statements build up", "y := z\nn := 0\nn++\nz := n*1V", "y", "error: z is used above the line that defines it, and that line cannot be moved up: it depends on n, which statements change: write this line below it"},
		{"of a list changed in place", "y := z\nl := []Quantity{1V}\nl[0] = 5V\nz := l[0]", "y", "error: z is used above the line that defines it"},
		{"of a function that changes something", "y := z\ntotal := 2V\nfunc bump() Quantity { total += 1V; return total }\nz := bump()", "y", "error: z is used above the line that defines it"},
		{"of a line that defines another name again", "x := c\na := 1V\na, c := 3V, 4V\nb := a", "x", "error: c is used above the line that defines it, and that line cannot be moved up: it also changes a"},
		{"of a call of a closure that reads what changes", "n := 0\ninc := func() int { return n }\ny := z\nn = 5\nz := inc()*1V", "y", "error: z is used above the line that defines it, and that line cannot be moved up: it depends on inc"},
		{"of a list that shares its elements", "l := []Quantity{1V}\nm := l\ny := z\nl[0] = 5V\nz := m[0]", "y", "error: z is used above the line that defines it"},
		{"of a name that statements change", "x := c\nc := 1V\nc = 3V", "x", "error: c is used above the statements that give it its value"},
		{"of a name changed by its line", "a := 1V\nx := c\na, c := 3V, 4V\na = 2V", "x", "error: c is used above"},
		{"a name in its own line", "a, b := b, 3V", "a", "error: b is used in the line that defines it"},
		{"the other way round", "a, b := 2V, a*2", "b", "error: a is used in the line that defines it"},
		{"a local of the same spelling moves nothing", "x := 1\nif x > 0 { y := 4; x += y }\ny := x*2", "y", "10"},
		{"nor a parameter", "f := func(p int) int { return p*2 }\nm := f(3)\np := m + 1", "p", "7"},
		{"nor a field", "type T struct{ Vout Quantity }\nt := T{Vout: 5V}\nVout := t.Vout*2", "Vout", "10 V"},
		{"a local that changes is not the name", "y := x*2\nx := 3V\nfunc g() Quantity { x := 1V; x += 3V; return x }", "y", "6 V"},
	} {
		t.Run(c.reason, func(t *testing.T) {
			t.Parallel()
			_, rs := compute(t, c.code)
			got := text(rs, c.name)
			if strings.HasPrefix(c.want, "error: ") && strings.HasPrefix(got, c.want) {
				return
			}
			if got != c.want {
				t.Errorf("%s\n got %s\nwant %s", c.code, got, c.want)
			}
		})
	}
}

// TestFormulaBelongsToItsValue holds that an entry shows no formula where
// something changed the value afterwards, by whatever way.
func TestFormulaBelongsToItsValue(t *testing.T) {
	t.Parallel()
	for _, code := range []string{
		"type S struct{ V Quantity }\nfunc (s *S) Set(v Quantity) { s.V = v }\nbase := 1V\na := S{base*1}\na.Set(9V)",
		"base := 1V\na := []Quantity{base*1, 2V}\nb := a\nb[0] = 9V",
		"base := 1\na := map[string]int{\"x\": base}\nb := a\nb[\"x\"] = 2",
		"a := []float64{3, 1, 2}\nsort.Float64s(a)",
		"func mod(l []int) { l[0] = 9 }\na := []int{1, 2}\nmod(a)",
		"a := 5V\na += 1V",
	} {
		_, rs := compute(t, code)
		e := entry(rs, "a")
		if e == nil {
			t.Fatalf("%s: %v", code, firstError(rs))
		}
		if e.Formula != nil || e.Form == note.FormInput {
			t.Errorf("%s\nshows a formula or an input for %s", code, e.Value.Text)
		}
	}
	_, rs := compute(t, "a := []Quantity{1V, 2V}\na\na[0] = 5V")
	for _, i := range rs[0].Items {
		if s, ok := i.(*note.Shown); ok && s.Value.Text != "[1 V 2 V]" {
			t.Errorf("shown is %s, but was [1 V 2 V] when its line ran", s.Value.Text)
		}
	}
}

// TestMethodsCarryChanges holds that a value whose type has methods counts as
// changed with what its methods use.
func TestMethodsCarryChanges(t *testing.T) {
	t.Parallel()
	for _, value := range []string{"T{1V}", "[]T{{1V}}[0]", "&T{1V}", "D{T{1V}}"} {
		n, rs := compute(t, "type T struct{ A Quantity }\nfunc (t T) G() Quantity { return t.A*k }\ntype D struct{ T }", "k := 2", "t := "+value, "x := t.G()")
		if text(rs, "x") != "2 V" {
			t.Fatalf("%s: %s", value, text(rs, "x"))
		}
		n.Put(note.Source{ID: "c2", Label: "cell 2", Code: "k := 3"})
		if got := text(n.Run(context.Background()), "x"); got != "3 V" {
			t.Errorf("%s: x is %s after its method's factor changed, want 3 V", value, got)
		}
	}
}

// TestKeptPartsStayWithTheirChoice holds that a what-if that takes another way
// through a function does not hand one choice the part of another.
func TestKeptPartsStayWithTheirChoice(t *testing.T) {
	t.Parallel()
	n, rs := compute(t, "R := 10kΩ\nfunc pick(r Quantity) Quantity { return Nearest(E24, r) }\na := 0kΩ\nif R < 15kΩ { a = pick(R*1.07) }\nb := pick(R*3.3)")
	if text(rs, "b") != "33 kΩ" || text(rs, "a") != "11 kΩ" {
		t.Fatal(text(rs, "a"), text(rs, "b"))
	}
	if err := n.WhatIf(map[string]string{"R": "20kΩ"}, false); err != nil {
		t.Fatal(err)
	}
	if got := text(n.Run(context.Background()), "b"); got != "33 kΩ" {
		t.Errorf("b is %s, but the design chose 33 kΩ", got)
	}
	n, _ = compute(t, "R := 47kΩ\nfunc p(r Quantity) Quantity { return Nearest(E24, r) }\na := Nearest(E24, R)\nb := p(22kΩ)")
	if err := n.WhatIf(map[string]string{"a": "p(33kΩ)"}, false); err != nil {
		t.Fatal(err)
	}
	rs = n.Run(context.Background())
	if text(rs, "a") != "33 kΩ" || text(rs, "b") != "22 kΩ" {
		t.Errorf("a is %s, b is %s", text(rs, "a"), text(rs, "b"))
	}
}

// TestTakenErrors holds that a result with an error counts as one value
// wherever one is asked for.
func TestTakenErrors(t *testing.T) {
	t.Parallel()
	_, rs := compute(t, "func f(p Quantity) Quantity { return thermal.Rise(p, 10K/W) }\nx := f(2W)\ny := 0\nswitch thermal.Rise(1W, 10K/W) {\ncase 10K: y = 1\n}\nn := 10\nz := n ± 1%",
		"k := map[Quantity]int{late: 3}\nw := k[late]", "late := 5V")
	for name, want := range map[string]string{"x": "20 K", "y": "1", "z": "10", "w": "3"} {
		if got := text(rs, name); got != want {
			t.Errorf("%s is %s, want %s", name, got, want)
		}
	}
}

// TestEndlessPrinting holds that a cell that prints without end leaves a
// bounded text.
func TestEndlessPrinting(t *testing.T) {
	t.Parallel()
	n := note.New(note.Options{World: world, CellTime: 300_000_000})
	n.Set(sources("line := strings.Repeat(\"again and \", 2000)\nfor { fmt.Println(line) }"))
	rs := n.Run(context.Background())
	for _, i := range rs[0].Items {
		if p, ok := i.(*note.Printed); ok && (len(p.Text) > 1<<20+200 || !strings.HasSuffix(p.Text, "the cell prints more than 1 MB; to see all, print it in parts, each in a cell of its own\n")) {
			t.Errorf("%d bytes, ends in %q", len(p.Text), p.Text[len(p.Text)-40:])
		}
	}
}
