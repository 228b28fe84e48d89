package note_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/note"
)

// rails is a proven block: a divider of the supply, with a resistor that is
// chosen for it.
var rails = design{
	"supply.ipynb": "Vbus := Range(9V, 10V, 11V) // the bus [spec 4.2]",
	"rail.ipynb": "Vin := Range(4V, 5V, 6V) // the supply [its own]\nI := 1mA // through it\n---\n" +
		"// Tight enough.\nR := Nearest(E24, (Vin - 2V)/I) ± 1% // series resistor\n---\n" +
		"Vout := Vin - R*I\nP := R * I * I\n---\nRequire(Vout <= 3V, \"OUT-1: the load stays whole\")\n---\nRequire(P < 5mW, \"P-1: it stays cool\")\n---\nWaive(\"P-1\", \"tried on the bench\")\n---\n" +
		"Part(\"R1\", R)\nTrend(Vout, Vin, 4V, 6V)",
}

// By hand: (10 V − 2 V)/1 mA = 8 kΩ, E24 has 8.2 kΩ: 1.8 V nominal, 11 V −
// 8.118 V = 2.882 V at most; (24 V − 2 V)/2 mA = 11 kΩ: 2 V, 8.2 mW and 44 mW.
func TestBlock(t *testing.T) {
	t.Parallel()
	n := rails.root(nil, "import supply \"supply.ipynb\"\nimport rail \"rail.ipynb\"\n---\n"+
		"low := rail.Compute(rail.Inputs{\n\tVin: supply.Vbus, // from the bus [system]\n})\n---\n"+
		"high := rail.Compute(rail.Inputs{Vin: 24V, I: 2mA})\n---\n"+
		"same := rail.Compute(rail.Inputs{Vin: 24V, I: 2mA})\n---\n"+
		"sum := low.Vout + high.Vout\nD := high.R - same.R\nd := high.R - high.R\n---\nPart(\"R31\", high.R)")
	rs := n.Run(context.Background())
	if e := errorsOf(rs); e != "" {
		t.Fatal(e)
	}
	for name, want := range map[string]string{"sum": "3.8 V", "low.Vin": "10 V", "high.I": "2 mA", "d": "0 Ω"} {
		if got := text(rs, name); got != want {
			t.Errorf("%s is %s, want %s", name, got, want)
		}
	}
	// Two blocks are two sets of parts: 11 kΩ ± 1 % less 11 kΩ ± 1 %.
	if s := entry(rs, "D").Spread; s == nil || s.High.String() != "220 Ω" {
		t.Errorf("D spreads %+v", s)
	}
	if e := entry(rs, "low.Vin"); e.Description != "from the bus" || e.Source != "system" || e.Spread.High.String() != "11 V" {
		t.Errorf("the input is %+v", e)
	}
	var said []string
	for _, r := range rs[1:4] {
		for _, i := range r.Items {
			switch x := i.(type) {
			case *note.Imported:
				said = append(said, fmt.Sprint(x.Name, " ", x.File, " ", x.Given, x.Failed, x.Errors))
			case *note.Requirement:
				said = append(said, fmt.Sprint(x.Text, " ", x.Holds, " ", x.Worst, " ", x.Waived))
			}
		}
	}
	want := []string{
		"low rail.ipynb [Vin] [] []", "low: OUT-1: the load stays whole true 118 mV ", "low: P-1: it stays cool false −3.282 mW tried on the bench",
		"high rail.ipynb [Vin I] [] []", "high: OUT-1: the load stays whole true 780 mV ", "high: P-1: it stays cool false −39.44 mW tried on the bench",
		"same rail.ipynb [Vin I] [] []", "same: OUT-1: the load stays whole true 780 mV ", "same: P-1: it stays cool false −39.44 mW tried on the bench",
	}
	if !slices.Equal(said, want) {
		t.Errorf("the blocks say\n%s\nwant\n%s", strings.Join(said, "\n"), strings.Join(want, "\n"))
	}
	w, err := n.Why(context.Background(), "low.Vout", note.WhyOptions{})
	if err != nil || branches(w) != "low.Vout(low.Vin(supply.Vbus) low.R(low.Vin low.I) low.I)" {
		t.Errorf("the derivation is %v, %v", w, err)
	}
	if err := n.WhatIf(map[string]string{"high.Vin": "26V"}, false); err != nil {
		t.Fatal(err)
	}
	// The part stays: 26 V − 22 V.
	if rs = n.Run(context.Background()); text(rs, "sum") != "5.8 V" {
		t.Errorf("with 26 V the sum is %s\n%s", text(rs, "sum"), errorsOf(rs))
	}
	if err := n.WhatIf(nil, false); err != nil {
		t.Fatal(err)
	}
	first := fmt.Sprint(text(n.Run(context.Background()), "sum"))
	for _, r := range n.Run(context.Background()) {
		if r.Ran {
			t.Errorf("%s ran although nothing changed", r.Label)
		}
	}
	if first != "3.8 V" {
		t.Errorf("as designed the sum is %s", first)
	}
}

// blocks are what is said of blocks.
var blocks = []struct{ why, text, want string }{
	{"an input that it has not", "a := rail.Compute(rail.Inputs{Vinn: 3V})", "cell 2:1:31: rail.ipynb does not define Vinn: did you mean Vin?"},
	{"one that it computes", "a := rail.Compute(rail.Inputs{R: 3kΩ})", "cell 2:1:31: rail.ipynb cannot take R, which is computed, so give what it comes from"},
	{"another kind of value", "a := rail.Compute(rail.Inputs{Vin: 3A})", "cell 2:1:31: rail.ipynb has 5 V for Vin, and this is 3 A: both are of one kind"},
	{"no quantity", "a := rail.Compute(rail.Inputs{Vin: 3})", "cell 2:1:31: rail.ipynb has a value of type Quantity for Vin, and this is one of type int: both are of one kind"},
	// 3/2 would be 1.
	{"a whole number for another", "a := plain.Compute(plain.Inputs{n: 3})\n---\nx := a.half", "cell 2:1:33: plain.ipynb has a value of type float64 for n, and this is one of type int: write a whole number with its point, 2.0"},
	{"a text for a number", "a := plain.Compute(plain.Inputs{n: \"3\"})", "cell 2:1:33: plain.ipynb has a value of type float64 for n, and this is one of type string: both are of one kind"},
	{"twice the same", "a := rail.Compute(rail.Inputs{Vin: 3V, Vin: 4V})", "cell 2:1:40: a.Vin is defined twice in this cell"},
	{"no block of a block", "a := rail.Compute(rail.Inputs{Vin: 3V})\nb := a + 1V", "cell 2:2:6: a is a note, not a value: write a name in it, a.NAME"},
	{"in a function", "func f() { _ = rail.Compute(rail.Inputs{Vin: 3V}) }", "rail.Compute computes a note anew, and cannot be used like this: let it stand by itself at the top level of a cell, each input with its name: rail := stepdown.Compute(stepdown.Inputs{Vin: 12V})"},
	{"without names", "a := rail.Compute(rail.Inputs{3V})", "rail.Compute computes a note anew"},
	{"of a name that is taken", "x := 1V\nx := rail.Compute(rail.Inputs{Vin: 3V})", "x is defined twice"},
	{"with itself", "a := rail.Compute(rail.Inputs{Vin: a.Vout})", "the cells need each other"},
	{"with what comes of it", "a := rail.Compute(rail.Inputs{Vin: 3V})\nx := a.Vin + a.Vout", "cell 2:2:14: the cells need each other: cell 2 needs a.Vout of cell 3 of rail.ipynb for a, cell 3 of rail.ipynb for a needs a.Vin of cell 2: a cell that computes a block cannot use what comes of it: use a.Vout in another cell"},
	{"blocks without end", "import ring \"ring.ipynb\"\n---\nx := ring.V", "ring.ipynb imports ring.ipynb: notes cannot import each other"},
	{"a mistake in it", "a := broken.Compute(broken.Inputs{V: 2V})\n---\nx := a.y", "cell 3:1:6: cell 3 waits for a.y of cell 2 of broken.ipynb for a, which has an error"},
	{"a value that shares its definition", "a := broken.Compute(broken.Inputs{p: 2V})", "cell 2:1:35: broken.ipynb cannot take p, which shares its definition with other names"},
	{"a constant", "a := broken.Compute(broken.Inputs{k: 2})", "cell 2:1:35: broken.ipynb cannot take k, which is a const"},
	{"a function of it", "a := broken.Compute(broken.Inputs{f: 2})", "cell 2:1:35: broken.ipynb cannot take f, which is a function"},
	{"one that is changed later", "a := broken.Compute(broken.Inputs{c: 2V})\n---\nx := a.c2", "cell 3:1:6: cell 3 waits for a.c2 of cell 3 of broken.ipynb for a, which has an error"},
	{"a package's own Compute", "t := powertree.Compute(powertree.Inputs{})", "cell 2:1:6: powertree.Compute: "},
}

func TestBlockTrouble(t *testing.T) {
	t.Parallel()
	d := design{"rail.ipynb": rails["rail.ipynb"], "broken.ipynb": "V := 1V\np, q := 1V, 2V\nconst k = 3\nfunc f() {}\n---\ny := V + 1A\n---\nc := 1V\nc += 1V\nc2 := 2 * c",
		"plain.ipynb": "n := 3.0\nhalf := n / 2", "ring.ipynb": "import own \"ring.ipynb\"\nV := 1V\n---\nr := own.Compute(own.Inputs{V: 2V})"}
	for _, c := range blocks {
		n := d.root(nil, "import rail \"rail.ipynb\"\nimport broken \"broken.ipynb\"\nimport plain \"plain.ipynb\"\n---\n"+c.text)
		if got := errorsOf(n.Run(context.Background())); !strings.Contains(got, c.want) {
			t.Errorf("%s: got %q, want %q", c.why, got, c.want)
		}
	}
}

// What a block is held against is the note as it is now.
func TestBlockOfAnotherNote(t *testing.T) {
	t.Parallel()
	d := design{"r.ipynb": "V := 1V\n---\nW := 2 * V"}
	n := d.root(nil, "import r \"r.ipynb\"\n---\na := r.Compute(r.Inputs{V: 3V})\n---\nx := a.W")
	if rs := n.Run(context.Background()); text(rs, "x") != "6 V" {
		t.Fatalf("x is %s\n%s", text(rs, "x"), errorsOf(rs))
	}
	d["r.ipynb"] = "V := 1A\n---\nW := 2 * V"
	if e := errorsOf(n.Run(context.Background())); !strings.Contains(e, "cell 2:1:25: r.ipynb has 1 A for V, and this is 3 V") {
		t.Errorf("with another kind of input: %q", e)
	}
	d["r.ipynb"] = "V := 5V\n---\nW := 4 * V"
	if rs := n.Run(context.Background()); text(rs, "x") != "12 V" {
		t.Errorf("mended, x is %s\n%s", text(rs, "x"), errorsOf(rs))
	}
}

// Three blocks in each of three, and so on: 3^6 notes are more than are computed.
func TestBlocksAreBounded(t *testing.T) {
	t.Parallel()
	d := design{"n6.ipynb": "V := 1V"}
	for i := range 6 {
		d[fmt.Sprintf("n%d.ipynb", i)] = fmt.Sprintf("import n \"n%d.ipynb\"\n---\na := n.Compute(n.Inputs{})\n---\nb := n.Compute(n.Inputs{})\n---\nc := n.Compute(n.Inputs{})\n---\nV := 1V", i+1)
	}
	n := d.root(nil, "import n \"n0.ipynb\"\n---\nx := n.V")
	if rs := n.Run(context.Background()); text(rs, "x") != "1 V" {
		t.Errorf("x is %s\n%s", text(rs, "x"), errorsOf(rs))
	}
	want := "n6.ipynb is not computed: with the notes and blocks in its imports the note comes to more than 300"
	if errs := n.ImportErrors(); !slices.ContainsFunc(errs, func(e *cell.Error) bool { return e.Msg == want }) {
		t.Errorf("%d errors, none of them %q", len(errs), want)
	}
}

// The cases of a note judge its blocks. By hand, with 8.2 kΩ and 11 kΩ kept: 12 V −
// 8.2 V is 0.8 V over 3 V, and 0.882 V with 8.118 kΩ; 26 V − 22 V is 1 V over it,
// 1.22 V with 10.89 kΩ. Anew the first would be 10 kΩ, the second 12 kΩ.
func TestCasesJudgeBlocks(t *testing.T) {
	t.Parallel()
	n := rails.root(nil, "import supply \"supply.ipynb\"\nimport rail \"rail.ipynb\"\n---\n"+
		"low := rail.Compute(rail.Inputs{Vin: supply.Vbus})\n---\nhigh := rail.Compute(rail.Inputs{Vin: 24V, I: 2mA})\n---\n"+
		"Case(\"surge\", supply.Vbus, 12V)\n---\nCase(\"swell\", high.Vin, 26V)")
	said := func(rs []*note.Result) string {
		var list []string
		for _, r := range rs {
			for _, i := range r.Items {
				if o, ok := i.(*note.Operating); ok {
					for _, j := range o.Judged {
						list = append(list, fmt.Sprintf("%s: %s %v %s %s %s", o.Name, j.Text, j.Holds, j.Margin, j.Worst, j.Waived))
					}
					list = append(list, fmt.Sprintf("%s holds %v, %s would be %s, anyway %q%s", o.Name, o.Holds, o.Would[0].Name, o.Would[0].Then, o.Anyway, o.Trouble))
				}
			}
		}
		return strings.Join(list, "\n")
	}
	want := "surge: low: OUT-1: the load stays whole false −800 mV −882 mV \nsurge holds false, low.R would be 10 kΩ, anyway []\n" +
		"swell: high: OUT-1: the load stays whole false −1 V −1.22 V \nswell holds false, high.R would be 12 kΩ, anyway []"
	for i := range 3 {
		rs := n.Run(context.Background())
		if got := said(rs); got != want {
			t.Fatalf("in run %d the cases say\n%s\nwant\n%s\n%s", i+1, got, want, errorsOf(rs))
		}
		table := note.CaseTable(rs)
		if len(table) != 5 || table[1][0] != "low: OUT-1: the load stays whole" || table[1][2] != "FAILS −800 mV, −882 mV" || table[3][3] != "FAILS −1 V, −1.22 V" {
			t.Errorf("their table is %q", table)
		}
	}
}

// What stands behind an input that a block gives is no reason of what follows it.
func TestBlockLeavesNoComment(t *testing.T) {
	t.Parallel()
	d := design{"r.ipynb": "V := 1V // the supply [spec]\nW := 2V // another"}
	n := d.root(nil, "import r \"r.ipynb\"\n---\na := r.Compute(r.Inputs{ // anew\n\tV: 3V, // its own\n})\nx := 1V")
	rs := n.Run(context.Background())
	w, err := n.Why(context.Background(), "a.W", note.WhyOptions{})
	if err != nil || w.Entry.Reason != "" || w.Entry.Description != "another" {
		t.Errorf("a.W: %+v, %v", w, err)
	}
	if v, x := entry(rs, "a.V"), entry(rs, "x"); v.Reason != "" || v.Description != "its own" || x.Reason != "" {
		t.Errorf("a.V is %+v, x is %+v", v, x)
	}
}
