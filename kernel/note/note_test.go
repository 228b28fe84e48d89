package note_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/note"
	"ohmwright/units"
)

var world = func() *host.World {
	w, err := host.Load()
	if err != nil {
		panic(err)
	}
	return w
}()

// compute runs cells in the order given and returns the results by label.
func compute(t interface{ Helper() }, codes ...string) (*note.Note, []*note.Result) {
	t.Helper()
	n := note.New(note.Options{World: world})
	n.Set(sources(codes...))
	return n, n.Run(context.Background())
}

func sources(codes ...string) []note.Source {
	var s []note.Source
	for i, c := range codes {
		s = append(s, note.Source{ID: fmt.Sprint("c", i+1), Code: c})
	}
	return s
}

// entry finds a name among the results.
func entry(rs []*note.Result, name string) *note.Entry {
	for _, r := range rs {
		for _, i := range r.Items {
			if e, ok := i.(*note.Entry); ok && e.Name == name {
				return e
			}
		}
	}
	return nil
}

// text is what a name came to, as text, or the first error.
func text(rs []*note.Result, name string) string {
	if e := entry(rs, name); e != nil {
		if q, ok := e.Value.Quantity.(units.Quantity); ok {
			return q.String()
		}
		return e.Value.Text
	}
	for _, r := range rs {
		if len(r.Errors) > 0 {
			return "error: " + r.Errors[0].Error()
		}
	}
	return "no " + name
}

func firstError(rs []*note.Result) *cell.Error {
	for _, r := range rs {
		if len(r.Errors) > 0 {
			return r.Errors[0]
		}
	}
	return nil
}

// TestTraps holds programs that look right and would be silently wrong, or
// look wrong and are right.
func TestTraps(t *testing.T) {
	for _, c := range []struct {
		reason string
		code   string // defines x
		want   string // of x; or a part of the error
	}{
		{"a sign before a temperature belongs to it", "x := -40°C", "−40 °C"},
		{"also in brackets and behind space", "x := (- 40°C)", "−40 °C"},
		{"a sign before a level belongs to it", "x := -120dBm", "−120 dBm"},
		{"between two points it is a difference", "T := 25°C\nx := T -40°C", "−15 K"},
		{"1/2 is 0 in Go", "y := 4V\nx := 1/2*y", "error: 1/2 is a division of whole numbers, which Go cuts to 0: write 0.5"},
		{"also hidden behind names", "const n = 7\nx := n/2*1V", "error: n/2 is a division of whole numbers, which Go cuts to 3: write 3.5"},
		{"without remainder it is harmless", "x := 4/2*1V", "2 V"},
		{"whole-number variables divide as in Go", "n := 7\nx := n/2", "3"},
		{"a number that is a fraction divides", "y := 4V\nx := y*1/2", "2 V"},
		{"°C in a denominator is a difference", "W := 3\nx := 62°C/W*2W", "124 K"},
		{"a prefix is no unit", "x := 10k", "error: 10k"},
		{"an unknown unit gets a suggestion", "x := 4.7kOhmz", "error: "},
		{"^ flips bits", "y := 3V\nx := y^2", "error: ^ is not a power in Go"},
		{"also for plain numbers", "n := 3\nx := n^2", "error: ^ is not a power in Go, it flips bits: write Pow(n, 2)"},
		{"a mask is a mask", "n := 6\nx := n ^ 0x3", "5"},
		{"a unit cannot be dropped", "x := float64(5V)", "error: "},
		{"a plain ratio can", "x := float64(5V/2V)", "2.5"},
		{"a whole number would drop the fraction too", "x := int(5V/2V)", "error: int(5V/2V) would drop the unit or the fraction"},
		{"a name may be spelt like a unit", "V := 3V\nx := V*2", "6 V"},
		{"all of them", "R, W, K, A := 1kΩ, 2W, 3K, 4A\nx := R*A*A + W*0", "16 kW"},
		{"a literal binds tighter than any operator", "x := 1/2V", "0.5 1/V"},
		{"ASCII spellings", "x := 4.7kohm + 300ohm", "5 kΩ"},
		{"a plain number beside a quantity", "n := 3\nx := n*2V*n", "18 V"},
		{"in a chain", "n, f := 2, 0.5\nx := 8V*n*f/n + n*1V", "6 V"},
		{"op and assign", "n := 2\nx := 3V\nx *= n", "6 V"},
		{"a number compared with a quantity", "n := 2\nx := 3V > n", "error: cannot compare 2 (number) with 3 V (voltage)"},
		{"a percentage touches its number", "x := 5% * 10V", "500 mV"},
		{"the remainder needs spaces", "x := 7 % 4", "3"},
		{"a percentage before a value is no remainder", "x := 7%4", "error: 7% is a percentage"},
		{"± takes the value at its left", "x := 10kΩ ± 1%", "10 kΩ"},
		{"± after a product would mislead", "a, b := 2V, 3\nx := a*b ± 1%", "error: ± binds to the single value at its left"},
		{"± after a sum would mislead", "a, b := 2V, 3V\nx := a + b ± 1%", "error: ± binds to the single value at its left"},
		{"brackets help", "a, b := 2V, 3V\nx := (a + b) +/- 1%", "5 V"},
		{"a point has no percentage", "x := 25°C ± 5%", "error: "},
		{"a point has a difference", "x := 25°C ± 5K", "25 °C"},
		{"mixed dimensions name both sides", "x := 3.3V + 20mA", "error: cannot add 3.3 V (voltage) and 20 mA (current)"},
		{"two points do not add", "x := 25°C + 10°C", "error: "},
		{"two levels do not add", "x := 10dBm + 10dBm", "error: "},
		{"a level and a gain do", "x := 10dBm - 3dB", "7 dBm"},
		{"an unset quantity takes the other side's dimension", "var s Quantity\nfor _, v := range []Quantity{1V, 2V} { s += v }\nx := s", "3 V"},
		{"0 does too", "x := max(0, 3V)", "3 V"},
		{"but is no temperature", "x := 25°C > 0", "error: "},
		{"a computed 0 has its dimension", "y := 1V/1V - 1\nx := y + 1V", "error: cannot add 0"},
		{"a defined type loses the unit's rules", "type Volt Quantity\nx := Volt(3)", "error: a type cannot be made from Quantity"},
		{"goroutines", "go func() {}()\nx := 1", "error: go is not available in cells"},
		{"channels", "x := make(chan int)", "error: channels are not available"},
		{"complex numbers", "x := 2i", "error: complex numbers are not available"},
		{"packages outside the list", "import \"os\"\nx := os.Getpid()", "error: package os is not available in cells"},
		{"also unused", "import \"os\"\nx := 1", "error: package os is not available in cells"},
		{"and unsafe", "import \"unsafe\"\nx := unsafe.Sizeof(1)", "error: package unsafe is not available in cells"},
		{"a package cannot be redefined", "math := 3\nx := 1", "error: math is a package, and a note cannot define it"},
		{"nor what Go defines", "len := 3\nx := 1", "error: len is Go's own, and a note cannot define it"},
		{"a built-in can", "Series := 3\nx := Series", "3"},
		{"unknown names are suggested", "Vout := 5V\nx := Vuot", "error: Vuot is not defined: did you mean Vout?"},
		{"twice in one cell", "x := 1\nx := 2", "error: x is defined twice in this cell"},
		{"a := with one new name assigns the other", "x, err := strconv.Atoi(\"7\")\ny, err := strconv.Atoi(\"8\")\n_, _ = y, err", "7"},
		{"a result with an error is one value", "x := thermal.Rise(2W, 10K/W)", "20 K"},
		{"and its error is the cell's", "x := thermal.Rise(2W, 0K/W)", "error: "},
		{"also inside an expression", "x := 2*thermal.Rise(2W, 10K/W) + 1K", "41 K"},
		{"or taken by hand", "r, err := thermal.Rise(2W, 0K/W)\nx := err != nil", "true"},
		{"a defined name below its use in one cell", "x := 2*y\ny := 3V", "6 V"},
		{"a name that needs itself", "x := x + 1V", "error: x needs itself"},
		{"a minus pasted from a document", "x := 5V − 2V", "3 V"},
		{"a letter of ours", "ƣ1 := 3\nx := 1", "error: a name cannot contain ƣ"},
		{"a space between number and unit", "x := 5 V", "error: "},
		{"integer overflow wraps as in Go", "var b uint8 = 255\nb++\nx := b", "0"},
	} {
		t.Run(c.reason, func(t *testing.T) {
			_, rs := compute(t, c.code)
			got := text(rs, "x")
			if want, isErr := strings.CutPrefix(c.want, "error: "); isErr {
				if !strings.HasPrefix(got, "error: ") || !strings.Contains(got, want) {
					t.Errorf("%s\n got %s\nwant an error with %q", c.code, got, want)
				}
			} else if got != c.want {
				t.Errorf("%s\n got %s\nwant %s", c.code, got, c.want)
			}
		})
	}
}

// TestPlaces holds where an error is told to be: in what the user typed.
func TestPlaces(t *testing.T) {
	for _, c := range []struct {
		reason, code string
		line, column int
	}{
		{"behind a wide literal", "R := 4.7kΩ + µnknown", 1, 14},
		{"the operator of a sum", "a := 1V\nb := 2A\nc := a + b", 3, 8},
		{"a literal that cannot be read", "x := 1 +\n\t10k", 2, 2},
		{"an unknown name in a function", "func f(v Quantity) Quantity {\n\treturn v * frm\n}", 2, 13},
		{"a division in a call, the place in the function", "func f(i int) int {\n\treturn 7 / i\n}\nx := f(0)", 2, 11},
		{"an unclosed brace", "x := 1V\nif x > 0V {", 2, 12},
		{"an index", "xs := []int{1, 2}\ni := 5\ny := xs[i]", 3, 8},
	} {
		t.Run(c.reason, func(t *testing.T) {
			_, rs := compute(t, c.code)
			e := firstError(rs)
			if e == nil {
				t.Fatal("no error")
			}
			if e.Line != c.line || e.Column != c.column {
				t.Errorf("%s: at %d:%d, want %d:%d", e, e.Line, e.Column, c.line, c.column)
			}
			if strings.Contains(e.Error(), "ƣ") || strings.Contains(e.Error(), "ohmwright/") {
				t.Errorf("the message shows our own names: %s", e)
			}
		})
	}
}

func TestDescriptions(t *testing.T) {
	_, rs := compute(t, `// Ten times the pin current,
// and still little.
Rtop := 10kΩ ± 1%   // upper resistor [assumed]
bits := 3V // of CTRL [7:0]
reg := 4V // bits [7:0]
idx := 5V // taps[3]
two := 6V // first [note] second [datasheet table 6.5, rev [B]]

// far above

bare := 7V
a, b := 1V, 2V // both [lab]
many := Max(
	1V,
) // of several [sum]
next := 8V
`)
	for _, c := range []struct{ name, description, source, reason string }{
		{"Rtop", "upper resistor", "assumed", "Ten times the pin current, and still little."},
		{"bits", "of CTRL [7:0]", "", ""},
		{"reg", "bits [7:0]", "", ""},
		{"idx", "taps[3]", "", ""},
		{"two", "first [note] second", "datasheet table 6.5, rev [B]", ""},
		{"bare", "", "", ""},
		{"a", "both", "lab", ""},
		{"b", "both", "lab", ""},
		{"many", "of several", "sum", ""},
		{"next", "", "", ""},
	} {
		e := entry(rs, c.name)
		if e == nil {
			t.Fatalf("no %s: %v", c.name, firstError(rs))
		}
		if e.Description != c.description || e.Source != c.source || e.Reason != c.reason {
			t.Errorf("%s: %q [%s] because %q; want %q [%s] because %q", c.name, e.Description, e.Source, e.Reason, c.description, c.source, c.reason)
		}
	}
}

// TestGraph holds what cells do to each other.
func TestGraph(t *testing.T) {
	t.Run("a definition below its use works", func(t *testing.T) {
		_, rs := compute(t, "P := U*I", "U := 3V", "I := 2A")
		if got := text(rs, "P"); got != "6 W" {
			t.Error(got)
		}
	})
	t.Run("a second definition names both cells, the first holds", func(t *testing.T) {
		_, rs := compute(t, "U := 3V", "U := 4V", "x := U")
		if got := text(rs, "x"); got != "3 V" {
			t.Error(got)
		}
		if e := firstError(rs); e == nil || !strings.Contains(e.Msg, "cell 2") || !strings.Contains(e.Msg, "cell 1") || rs[1].State != note.Failed {
			t.Error(e)
		}
	})
	t.Run("a cycle names the cells", func(t *testing.T) {
		_, rs := compute(t, "a := b + 1V", "b := c", "c := a", "d := a", "e := 5V")
		for i := 0; i < 3; i++ {
			e := rs[i].Errors
			if len(e) == 0 || e[0].Code != cell.CodeCycle || !strings.Contains(e[0].Msg, "cell 1 needs b of cell 2") || !strings.Contains(e[0].Msg, "cell 3 needs a of cell 1") {
				t.Errorf("cell %d: %v", i+1, e)
			}
		}
		if rs[3].State != note.Waiting || text(rs, "e") != "5 V" {
			t.Error("dependents wait, others compute")
		}
	})
	t.Run("foreign assignment names the owner", func(t *testing.T) {
		for _, code := range []string{"U = 4V", "U += 1V", "for _, U = range []Quantity{1V} {}", "p := &U\n_ = p", "xs[0] = 3", "s.a = 3V", "m[\"a\"] = 3"} {
			_, rs := compute(t, "U := 3V\nxs := []int{1}\nvar s struct{ a Quantity }\nm := map[string]int{}", code)
			if e := firstError(rs); e == nil || e.Code != cell.CodeForeign || !strings.Contains(e.Msg, "cell 1") {
				t.Errorf("%s: %v", code, e)
			}
		}
	})
	t.Run("a failed cell commits nothing, and heals", func(t *testing.T) {
		n, rs := compute(t, "a := 1V\nb := a + 1A", "c := a", "d := 2V")
		if rs[0].State != note.Failed || rs[1].State != note.Waiting || !strings.Contains(rs[1].Errors[0].Msg, "waits for a of cell 1") || text(rs, "d") != "2 V" {
			t.Errorf("%v %v", rs[0], rs[1])
		}
		n.Put(note.Source{ID: "c1", Label: "cell 1", Code: "a := 1V\nb := a + 1V"})
		if rs = n.Run(context.Background()); text(rs, "c") != "1 V" {
			t.Error(text(rs, "c"))
		}
		n.Put(note.Source{ID: "c1", Label: "cell 1", Code: "a := 1V\npanic(\"no\")"})
		if rs = n.Run(context.Background()); rs[1].State != note.Waiting {
			t.Error("a cell that failed again leaves its names undefined")
		}
	})
	t.Run("only what depends runs again", func(t *testing.T) {
		n, _ := compute(t, "a := 1V", "b := 2*a", "c := 3V", "d := b + c", "e := Abs(a)")
		n.Put(note.Source{ID: "c1", Label: "cell 1", Code: "a := -1V"})
		ran := ran(n.Run(context.Background()))
		if ran != "1 2 4 5" {
			t.Error(ran)
		}
		n.Put(note.Source{ID: "c1", Label: "cell 1", Code: "a := -1V // same value"})
		if got := ranLabels(n); got != "1" {
			t.Errorf("a cell whose inputs did not change ran: %s", got)
		}
	})
	t.Run("limits that change count, though the number stays", func(t *testing.T) {
		n, _ := compute(t, "I := Range(8mA, 60mA, 280mA)", "most := High(I)")
		n.Put(note.Source{ID: "c1", Label: "cell 1", Code: "I := Range(8mA, 60mA, 420mA)"})
		if got := text(n.Run(context.Background()), "most"); got != "420 mA" {
			t.Error(got)
		}
		n.Put(note.Source{ID: "c1", Label: "cell 1", Code: "I := 0.06A"})
		n.Put(note.Source{ID: "c2", Label: "cell 2", Code: "twice := 2*I"})
		n.Run(context.Background())
		n.Put(note.Source{ID: "c1", Label: "cell 1", Code: "I := In(0.06A, \"A\")"})
		if got := text(n.Run(context.Background()), "twice"); got != "0.12 A" {
			t.Errorf("a unit that was asked for counts too: %s", got)
		}
	})
	t.Run("an equal result stops the spreading", func(t *testing.T) {
		n, _ := compute(t, "a := 1V", "b := Abs(a)", "c := 2*b")
		n.Put(note.Source{ID: "c1", Label: "cell 1", Code: "a := -1V"})
		if got := ranLabels(n); got != "1 2" {
			t.Error(got)
		}
	})
	t.Run("functions, types, methods and generics of other cells", func(t *testing.T) {
		_, rs := compute(t,
			"x := stage{gain: 3dB}.after(-10dBm)\ny := sum([]Quantity{1V, U})\nz := largest(3, 9, 4)\ns := stack[Quantity]{}\ns.push(2V)\nw := s.top()",
			"type stage struct{ gain Quantity }\nfunc (s stage) after(l Quantity) Quantity { return l + s.gain + extra() }",
			"func extra() Quantity { return 1dB }\nU := 4V",
			"func sum[T ~float64 | ~int](xs []T) T { var s T; for _, x := range xs { s += x }; return s }\nfunc largest[T ~int](xs ...T) T { m := xs[0]; for _, x := range xs { m = max(m, x) }; return m }",
			"type stack[T any] struct{ list []T }\nfunc (s *stack[T]) push(x T) { s.list = append(s.list, x) }\nfunc (s *stack[T]) top() T { return s.list[len(s.list)-1] }")
		for name, want := range map[string]string{"x": "−6 dBm", "y": "5 V", "z": "9", "w": "2 V"} {
			if got := text(rs, name); got != want {
				t.Errorf("%s is %s, want %s", name, got, want)
			}
		}
	})
	t.Run("a function's own inputs count", func(t *testing.T) {
		n, rs := compute(t, "x := double(3V)", "func double(v Quantity) Quantity { return v*k }", "k := 2.0")
		if text(rs, "x") != "6 V" {
			t.Fatal(text(rs, "x"))
		}
		n.Put(note.Source{ID: "c3", Label: "cell 3", Code: "k := 3.0"})
		if got := text(n.Run(context.Background()), "x"); got != "9 V" {
			t.Error(got)
		}
	})
	t.Run("a type that changes is checked again", func(t *testing.T) {
		n, _ := compute(t, "a := 1V", "b := 2*a")
		n.Put(note.Source{ID: "c1", Label: "cell 1", Code: "a := 4"})
		if got := text(n.Run(context.Background()), "b"); got != "8" {
			t.Error(got)
		}
		n.Put(note.Source{ID: "c1", Label: "cell 1", Code: "a := \"no\""})
		if e := firstError(n.Run(context.Background())); e == nil || e.Cell != "cell 2" {
			t.Error(e)
		}
		n.Remove("c1")
		if e := firstError(n.Run(context.Background())); e == nil || !strings.Contains(e.Msg, "a is not defined") {
			t.Error(e)
		}
	})
	t.Run("a closure that keeps a count is not handed out", func(t *testing.T) {
		_, rs := compute(t, "func counter() func() int { n := 0; return func() int { n++; return n } }\nnext := counter()", "x := next()")
		if e := firstError(rs); e == nil || !strings.Contains(e.Msg, "next is a function that changes n") {
			t.Error(e)
		}
	})
}

func ran(rs []*note.Result) string {
	var s []string
	for _, r := range rs {
		if r.Ran {
			s = append(s, strings.TrimPrefix(r.Label, "cell "))
		}
	}
	return strings.Join(s, " ")
}

func ranLabels(n *note.Note) string { return ran(n.Run(context.Background())) }

func TestRequire(t *testing.T) {
	for _, c := range []struct {
		reason, code string
		holds        bool
		margin       string
		err          string
	}{
		{reason: "at most", code: "Tj := 80°C\nRequire(Tj <= 125°C, \"cool\")", holds: true, margin: "45 K"},
		{reason: "at least, missed", code: "V := 3V\nRequire(V >= 3.3V, \"enough\")", margin: "−300 mV"},
		{reason: "within, the nearer limit", code: "V := 3.3V\nRequire(Within(V, 3V, 3.5V), \"right\")", holds: true, margin: "200 mV"},
		{reason: "in brackets", code: "V := 3V\nRequire((V < 4V), \"low\")", holds: true, margin: "1 V"},
		{reason: "plain numbers", code: "n := 3\nRequire(n < 4, \"few\")", holds: true, margin: "1"},
		{reason: "in a function of the cell", code: "func check(v Quantity) { Require(v < 4V, \"low\") }\ncheck(3V)", holds: true, margin: "1 V"},
		{reason: "a stored outcome", code: "ok := 3V < 4V\nRequire(ok, \"low\")", err: "Require needs the comparison itself"},
		{reason: "two in one", code: "V := 3V\nRequire(V < 4V && V > 1V, \"right\")", err: "Require takes one comparison, and && joins two: write one Require for each side"},
		{reason: "one or the other", code: "V := 3V\nRequire(V < 4V || V > 1V, \"right\")", err: "|| joins two"},
		{reason: "a function's outcome", code: "func good() bool { return true }\nRequire(good(), \"right\")", err: "Require needs the comparison itself"},
	} {
		t.Run(c.reason, func(t *testing.T) {
			_, rs := compute(t, c.code)
			if c.err != "" {
				if e := firstError(rs); e == nil || !strings.Contains(e.Error(), c.err) {
					t.Errorf("%v, want %q", e, c.err)
				}
				return
			}
			var q *note.Requirement
			for _, i := range rs[0].Items {
				if r, ok := i.(*note.Requirement); ok {
					q = r
				}
			}
			if q == nil {
				t.Fatalf("no requirement: %v", firstError(rs))
			}
			if q.Holds != c.holds || q.Margin == nil || q.Margin.String() != c.margin {
				t.Errorf("holds %v, margin %v; want %v, %s", q.Holds, q.Margin, c.holds, c.margin)
			}
		})
	}
}

func TestChoices(t *testing.T) {
	design := []string{"Vin := 12V", "Rtop := 10kΩ\nRbot := Nearest(E96, Rtop*0.8V/(Vin/2 - 0.8V))\nVout := 0.8V*(1 + Rtop/Rbot)"}
	n, rs := compute(t, design...)
	e := entry(rs, "Rbot")
	// 10 kΩ · 0.8/5.2 = 1538.46 Ω; E96 has 1.54 kΩ (IEC 60063).
	if e == nil || e.Form != note.FormChosen || text(rs, "Rbot") != "1.54 kΩ" || e.Choice.Rule != "nearest" || e.Choice.Series != "E96" {
		t.Fatalf("%+v %v", e, firstError(rs))
	}
	if got := e.Choice.Ideal.SI(); math.Abs(got-10e3*0.8/5.2) > 1e-9 {
		t.Error(got)
	}
	if err := n.WhatIf(map[string]string{"Vin": "9V"}, false); err != nil {
		t.Fatal(err)
	}
	rs = n.Run(context.Background())
	if e := entry(rs, "Rbot"); text(rs, "Rbot") != "1.54 kΩ" || !e.Choice.Kept {
		t.Errorf("a chosen part did not stay chosen: %s", text(rs, "Rbot"))
	}
	if err := n.WhatIf(map[string]string{"Vin": "9V"}, true); err != nil {
		t.Fatal(err)
	}
	// 10 kΩ · 0.8/3.7 = 2162 Ω; E96: 2.15 kΩ.
	if got := text(n.Run(context.Background()), "Rbot"); got != "2.15 kΩ" {
		t.Errorf("redesign kept %s", got)
	}
	if err := n.WhatIf(nil, false); err != nil {
		t.Fatal(err)
	}
	if got := text(n.Run(context.Background()), "Rbot"); got != "1.54 kΩ" {
		t.Errorf("back at the design: %s", got)
	}
	if err := n.WhatIf(map[string]string{"Vinn": "9V"}, false); err == nil || !strings.Contains(err.Error(), "did you mean Vin?") {
		t.Error(err)
	}
}

func TestShown(t *testing.T) {
	_, rs := compute(t, "a := 2V\nb := 3V;\n_ = a\na*2\nfmt.Println(\"hello\", a)")
	var kinds []string
	for _, i := range rs[0].Items {
		switch x := i.(type) {
		case *note.Printed:
			kinds = append(kinds, "printed "+x.Text)
		case *note.Entry:
			kinds = append(kinds, fmt.Sprint("entry ", x.Name, " ", x.Quiet))
		case *note.Shown:
			kinds = append(kinds, "shown "+x.Value.Text)
		}
	}
	if got, want := strings.Join(kinds, "; "), "printed hello 2 V\n; entry a false; entry b true; shown 4 V"; got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
}

func TestLimits(t *testing.T) {
	n := note.New(note.Options{World: world, Limits: exec.Limits{Steps: 100000, Memory: 1 << 20}})
	n.Set(sources("for {}", "func f(n int) int { return f(n+1) + 1 }\nx := f(0)", "s := \"x\"\nfor { s += s }", "a := 1V"))
	rs := n.Run(context.Background())
	for i := 0; i < 3; i++ {
		if e := rs[i].Errors; len(e) != 1 || e[0].Code != cell.CodeLimit {
			t.Errorf("cell %d: %v", i+1, e)
		}
	}
	if text(rs, "a") != "1 V" {
		t.Error("the other cells are still computed")
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	n.Put(note.Source{ID: "c4", Label: "cell 4", Code: "a := 2V"})
	if rs := n.Run(ctx); rs[3].State != note.Failed || rs[3].Errors[0].Code != cell.CodeStopped {
		t.Errorf("%+v", rs[3])
	}
}
