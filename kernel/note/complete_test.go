package note_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"ohmwright/kernel/note"
)

// askedNote is the note in which the tests complete and inspect.
var askedNote = []string{
	"// What the bench supply gives.\nVin := Range(18V, 24V, 32V) // supply [spec 4.2]\nRtop := 10kΩ ± 1% // upper resistor [assumed]",
	"Rbot := Nearest(E96, Rtop*800mV/(5V-800mV)) ± 1% // lower resistor\nVout := 800mV * (1 + Rtop/Rbot) // output",
	"type stage struct{ In, Out Quantity; n int }\n\nfunc (s stage) Gain() Quantity { return s.Out / s.In }\n\nst := stage{5V, 10V, 3}",
	"// twice gives the double.\nfunc twice(v Quantity) Quantity { return 2 * v }\n\nPd := (Vin - Vout) * 15mA\nRequire(Vout < 6V, \"suits the logic\")",
	"d := divider.Plain(12V, 10kΩ, 3.3kΩ)\nTa := 25°C // air",
	"Tj := Ta + Missing",
}

// split takes the cursor, a vertical bar, out of a text.
func cursor(t testing.TB, text string) (code string, at int) {
	t.Helper()
	at = strings.IndexByte(text, '|')
	if at < 0 {
		t.Fatalf("%q has no cursor", text)
	}
	return text[:at] + text[at+1:], at
}

// Which offers there are follows from the language: Go's scopes and types, the
// fields of the structs, the table of units. The values are those of a voltage
// divider by hand: 12 V · 3.3/13.3 = 2.977 V; Rbot is the E96 value (IEC
// 60063) next to 10 kΩ · 0.8/4.2 = 1.905 kΩ.
func TestComplete(t *testing.T) {
	t.Parallel()
	n, _ := compute(t, askedNote...)
	for _, c := range []struct{ why, code, first, has, lacks string }{
		{"a name of the note with its value", "x := Vi|", "Vin", "quantity Vin: 24 V  supply", "Vout"},
		{"a chosen part as it is bought", "x := Rb|", "Rbot", "quantity Rbot: 1.91 kΩ  lower resistor", ""},
		{"a name without a value says where to look", "x := Tj|", "Tj", "variable Tj: no value: see cell 6", ""},
		{"small letters find capitals, behind what is spelt so", "vi|", "Vin", "", ""},
		{"a name that is defined earlier in the cell", "Rsense := 5mΩ\nx := Rs|", "Rsense", "quantity Rsense: Quantity", ""},
		{"a name that is defined further down in the cell", "x := Rs|\nRsense := 5mΩ", "Rsense", "", ""},
		{"a name is not offered for its own definition", "Rsense := 2*Rs|", "", "", "Rsense"},
		{"local variables come first", "func f(Vx Quantity) Quantity {\n\tVsum := Vx + 1V\n\treturn V|", "Vsum Vx Vin", "", ""},
		{"but for those of another block", "func f() {\n\tif true {\n\t\tinner := 1\n\t}\n\tin|\n}", "", "", "inner"},
		{"and those that are not defined yet", "func f() {\n\tla|\n\tlater := 1\n}", "", "", "later"},
		{"loop variables", "for i, item := range []int{1} {\n\tit|", "item", "variable item: int", ""},
		{"fields of a struct of the note, with their values", "x := st.|", "In Out n Gain", "field In: 5 V", "Vin if"},
		{"methods", "x := st.G|", "Gain", "method Gain: () Quantity", ""},
		{"fields of a result, with values and what they are", "x := d.|", "Current Output", "field Output: 2.977 V  node to ground, V", ""},
		{"fields of the result of a call, whose error is taken", "x := divider.Plain(12V, 1kΩ, 1kΩ).|", "Current Output", "field Output: Quantity  node to ground, V", ""},
		{"methods of a quantity", "x := Vin.Mu|", "Mul", "method Mul: (b Quantity) Quantity", ""},
		{"but none that cells may not call", "x := Vin.E|", "", "", "Extremes"},
		{"fields of what an expression gives", "x := twice(Vin).Mu|", "Mul", "", ""},
		{"what a package has", "x := divider.Pl|", "Plain", "function Plain: (input Quantity, upper Quantity, lower Quantity) (divider.PlainResult, error)", ""},
		{"but nothing that cells may not use", "x := fmt.F|", "", "", "Fprint Fprintf"},
		{"a function of the note with its signature", "x := tw|", "twice", "function twice: (v Quantity) Quantity", ""},
		{"packages", "x := the|", "thermal", "package thermal: ohmwright/lib/thermal", ""},
		{"units behind a prefix", "x := 10k|", "kΩ kHz kV", "unit kΩ: resistance", "kF Vin"},
		{"units behind a stroke", "θ := 62°C/|", "W", "unit W: thermal resistance", ""},
		{"and names of quantities there", "I := 12V/|", "", "quantity Rtop: 10 kΩ  upper resistor", "twice"},
		{"a name behind a stroke that no unit is spelt like", "I := 12V/Rt|", "Rtop", "", ""},
		{"units in the text of In", "x := In(Pd, \"m|\")", "m mV mA", "unit mV: voltage", "Vin"},
		{"and of its method", "x := Pd.In(\"kW/|\")", "K m²", "unit K: thermal conductance", "Vin"},
		{"no units behind a number in another base", "x := 0x1|", "", "", "V F"},
		{"series first for Nearest", "R := Nearest(|", "E3 E6 E12 E24 E48 E96 E192 Stock", "", ""},
		{"then what they are chosen for", "R := Nearest(E96, |", "Pd Rbot Rtop Ta Vin Vout", "", ""},
		{"dimension: the other operand of a sum", "x := 1V + |", "Vin Vout twice", "", ""},
		{"dimension: the other side of a comparison", "Require(Vin >= |", "Vin Vout", "", ""},
		{"dimension: the name before", "x := Rtop - |", "Rbot Rtop", "", ""},
		{"dimension: what the documentation of a parameter says", "x := thermal.Rise(|", "Pd", "", ""},
		{"dimension: the second parameter", "x := divider.Plain(Vin, |", "Rbot Rtop", "", ""},
		{"dimension: the field of an argument", "x := divider.Loaded(divider.LoadedInputs{Lower: |", "Rbot Rtop", "", ""},
		{"dimension: a temperature", "x := thermal.Junction(|", "Ta", "", ""},
		{"dimension: limits of one value", "Require(Within(Vout, |", "Vin Vout", "", ""},
		{"the fields of an argument that are not set yet", "x := divider.Loaded(divider.LoadedInputs{Input: Vin, |})", "Upper: Lower: LoadResistance: LoadCurrent:", "field Upper:: Quantity  resistor from the input to the node, Ω", "Input:"},
		{"dimension: a field", "x := 1A + d.|", "Current", "", ""},
		{"a type that is written out", "var s string = strconv.I|", "Itoa", "", ""},
		{"statements at the start of one", "sw|", "switching switch", "keyword switch: ", ""},
		{"no statements inside an expression", "x := 1 + sw|", "", "", "switch"},
		{"a function as a value", "f := fu|", "func", "", ""},
		{"return inside a function only", "func f() int {\n\tret|", "return", "", ""},
		{"", "ret|", "", "", "return"},
		{"break inside a loop only", "for {\n\tbr|", "break", "", ""},
		{"", "br|", "", "", "break"},
		{"nothing but cases in a switch", "switch {\n|", "case default", "", "Vin if"},
		{"else behind a block", "if Vin > 1V {\n} el|", "else", "", ""},
		{"range in a loop", "for _, v := ra|", "range", "", ""},
		{"import at the top level", "imp|", "import", "", ""},
		{"paths of an import", "import \"stri|", "strings", "path strings: ", "strconv"},
		{"not what is refused", "x := rea|", "", "", "real"},
		{"nothing in a comment", "x := 1 // Vi|", "", "", "Vin"},
		{"nothing in a text", "x := \"Vi|\"", "", "", "Vin"},
		{"nothing for the name of a function", "func Vi|", "", "", "Vin"},
		{"types for a variable", "var x Quan|", "Quantity", "type Quantity: Quantity is a number with its dimension. It is a small immutable valu…", ""},
		{"types of the note", "var x sta|", "stage", "", ""},
		{"another name of a package", "import str \"strings\"\nx := str.ToU|", "ToUpper", "", ""},
		{"names of values inside a marker", "Markdown(\"The rail is {V|\")", "Vin Vout", "quantity Vout: 4.988 V  output", "twice Voltage Pi if"},
		{"with more of the text behind it", "Markdown(`is {Vo|ut}, {Vin}\nand so (on`)", "Vout", "", ""},
		{"in a text that is not closed", "x := 3V\nMarkdown(`is {Vo|", "Vout", "", ""},
		{"in the second of two strings", "Markdown(\"a\" +\n\"{Vo|\")", "Vout", "", ""},
		{"names of the cell", "Rsense := 5mΩ\nMarkdown(`{Rs|}`)", "Rsense", "", ""},
		{"all of them at its start", "Markdown(`{|`)", "", "quantity Ta: 25 °C  air", "Abs E96 divider st.Gain"},
		{"fields inside a marker", "Markdown(`{d.|}`)", "Current Output", "field Output: 2.977 V  node to ground, V", "Vin"},
		{"no methods there", "Markdown(`{st.|}`)", "In Out n", "", "Gain"},
		{"the word behind a name", "Markdown(`{Vout l|}`)", "limits", "keyword limits: its limits in all cases", "Vin"},
		{"nothing outside a marker", "Markdown(`V|`)", "", "", "Vin"},
		{"nothing behind one", "Markdown(`{Vin} V|`)", "", "", "Vin"},
		{"nothing in a brace that is one", "Markdown(`\\{V|`)", "", "", "Vin"},
		{"nothing in other texts", "x := strings.ToUpper(\"{V|\")", "", "", "Vin"},
		{"an error earlier in the cell", "Rsense := 5mΩ\ny := +* 3\nx := Rs|", "Rsense", "", ""},
		{"a bracket left open earlier in the cell", "Rsense := 5mΩ\ny := (Rsense + 3\nx := Rs|", "Rsense", "quantity Rsense: Quantity", ""},
		{"a bad literal earlier in the cell", "Rsense := 5mΩ\ny := 10k\nx := Rs|", "Rsense", "", ""},
		{"a name whose definition cannot be read", "Rsense := 5 +* 3\nx := Rs|", "Rsense", "", ""},
		{"an error further down", "x := Vi|\ny := +* 3)", "Vin", "", ""},
		{"a statement that cannot be read before the word", "func f(abc Quantity) {\n\tx y abc.Mu|", "Mul", "", ""},
		{"a name defined twice", "Vsum := 1V\nVsum := 2V\nx := Vs|", "Vsum", "", ""},
		{"Ω, µ and ° before the cursor", "C := 10µF; R := 3Ω; T := 5°C; ΩxΩ := R*C; y := Ωx|", "ΩxΩ", "", ""},
		{"a character outside the basic plane", "s := \"𝛀\"; x := Vi|", "Vin", "", ""},
		{"± and its terms", "x := 5V ± Vi|", "Vin", "", ""},
	} {
		code, at := cursor(t, c.code)
		got := n.Complete(code, at)
		var texts, described []string
		for _, o := range got.Offers {
			texts = append(texts, o.Text)
			described = append(described, fmt.Sprintf("%s %s: %s", o.Kind, o.Text, o.Beside))
		}
		if want := strings.Fields(c.first); len(texts) < len(want) || !slices.Equal(texts[:len(want)], want) {
			t.Errorf("%q (%s): the first offers are %q, want %q", c.code, c.why, texts[:min(len(texts), len(want)+3)], want)
		}
		if c.has != "" && !slices.Contains(described, c.has) {
			t.Errorf("%q (%s): no offer %q in %q", c.code, c.why, c.has, described[:min(len(described), 12)])
		}
		for _, l := range strings.Fields(c.lacks) {
			if slices.Contains(texts, l) {
				t.Errorf("%q (%s): %s is offered", c.code, c.why, l)
			}
		}
		if got.End != at || got.Start > at {
			t.Errorf("%q: replaces %d to %d, the cursor is at %d", c.code, got.Start, got.End, at)
		}
	}
}

// A note that was never run, or is empty, completes what is always there.
func TestCompleteInAnEmptyNote(t *testing.T) {
	t.Parallel()
	n := note.New(note.Options{World: world})
	if got := n.Complete("x := Near", 9); len(got.Offers) != 1 || got.Offers[0].Text != "Nearest" {
		t.Errorf("%v", got)
	}
	n.Set([]note.Source{{ID: "a", Code: "Vin := 5V"}})
	if i := n.Inspect("Vin", 2, false); i != nil {
		t.Errorf("a name of a cell that never ran: %+v", i)
	}
}

// BenchmarkComplete300 completes and inspects in a note of 300 cells. Aim: 10 ms.
func BenchmarkComplete300(b *testing.B) {
	n := noteOf300(b)
	b.Run("names", func(b *testing.B) {
		for b.Loop() {
			if got := n.Complete("x := Vadc17 + V", 15); len(got.Offers) < 150 {
				b.Fatal(len(got.Offers))
			}
		}
	})
	b.Run("everything", func(b *testing.B) {
		for b.Loop() {
			if got := n.Complete("x := Vadc17 + ", 14); len(got.Offers) < 375 {
				b.Fatal(len(got.Offers))
			}
		}
	})
	b.Run("inspect", func(b *testing.B) {
		for b.Loop() {
			if i := n.Inspect("x := Vadc17", 9, true); i == nil || i.Name == nil {
				b.Fatal(i)
			}
		}
	})
	b.Run("function", func(b *testing.B) {
		for b.Loop() {
			if i := n.Inspect("divider.Loaded()", 10, true); i == nil || len(i.Doc.Steps) == 0 {
				b.Fatal(i)
			}
		}
	})
}

func noteOf300(b *testing.B) *note.Note {
	var codes []string
	for i := range 75 {
		codes = append(codes,
			fmt.Sprintf("Vin%d := Range(18V, 24V, 32V) // supply [spec]", i),
			fmt.Sprintf("Rtop%d := %dkΩ ± 1%% // upper [assumed]\nRbot%d := Nearest(E96, Rtop%d*3V/(32V-3V)) ± 1%%", i, 10+i, i, i),
			fmt.Sprintf("func part%d(v Quantity) Quantity { return v * Rbot%d / (Rtop%d + Rbot%d) }", i, i, i, i),
			fmt.Sprintf("Vadc%d := part%d(Vin%d)\nRequire(Vadc%d <= 3.3V, \"the input stays within its supply\")", i, i, i, i))
	}
	n, rs := compute(b, codes...)
	if e := firstError(rs); e != nil {
		b.Fatal(e)
	}
	return n
}
