package note_test

import (
	"strings"
	"testing"

	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
)

// textsOf lists the texts that a cell shows, in Markdown.
func textsOf(r *note.Result) (list []string) {
	for _, it := range r.Items {
		if p, ok := it.(*note.Prose); ok {
			list = append(list, render.Prose(p))
		}
	}
	return list
}

// What a text says. The values are those that the cells state, their limits
// by hand: 5 V · (1 ± 0.02) is 4.9 … 5.1 V. How strings are read follows from
// the Go specification (String literals), what a marker is from the rules of
// Markdown cells.
func TestTextsOfCells(t *testing.T) {
	t.Parallel()
	const values = "Vout := 5V ± 2%\nV := 3V\ntype pair struct{ Peak, Mean Quantity }\ni := pair{2A, 1.5A}\nconst n = 3\nok := true\ns := \"a*b\"\nlist := []Quantity{Vout, V}\n"
	for _, c := range []struct{ why, code, want string }{
		{"a value and its limits", "Markdown(`The rail is {Vout}, in all cases {Vout limits}.`)", "The rail is 5 V, in all cases 4.9 … 5.1 V."},
		{"a field, a constant, a truth value, a text", "Markdown(`{i.Peak} {n} {ok} {s}`)", `2 A 3 true a\*b`},
		{"places of lists", "Markdown(`{list[1]} {list[0] limits} {pairs[0].Mean} {deep.L[1]}`)\npairs := []pair{{1A, 2A}}\ntype box struct{ L []int }\ndeep := box{[]int{7, 8}}", "3 V 4.9 … 5.1 V 2 A 8"},
		{"the other kind of string", `Markdown("a \"b\"\n\n{Vout} \u03a9 \xce\xa9")`, "a \"b\"\n\n5 V Ω Ω"},
		{"a sum of strings, a marker across them", "Markdown(\"a {Vo\" + \"ut}\" + (` b`))", "a 5 V b"},
		{"in brackets", "(Markdown)((`{Vout}`))", "5 V"},
		{"common white space is layout", "Markdown(`\n\n\t\tThe rail\n\t\t  is {Vout}.\n\n\t\t\tcode\n\t`)", "The rail\n  is 5 V.\n\n\tcode"},
		{"a line that stands in the least", "Markdown(`one\n    two\n  three`)", "one\n  two\nthree"},
		{"Windows' ends of lines", "Markdown(`a\r\n\r\n{Vout}`)", "a\n\n5 V"},
		{"mathematics is left alone", "Markdown(`$V_{Vout}$ {Vout} $$ {V} $$`)", "$V_{Vout}$ 5 V $$ {V} $$"},
		{"code is left alone", "Markdown(\"`{Vout}` {Vout}\")", "`{Vout}` 5 V"},
		{"what is no marker", "Markdown(`\\{Vout} {a b} {1, 2} {} {`)", `\{Vout} {a b} {1, 2} {} {`},
		{"HTML is text", "Markdown(`<script>x</script>\n\na <b>{V}</b>`)", "&lt;script>x&lt;/script>\n\na &lt;b>3 V&lt;/b>"},
		{"a name that is spelt like a unit", "Markdown(`{V}`)", "3 V"},
		{"a name that is defined further down, and changed", "y := 1\nMarkdown(`{y} {z}`)\ny = 2\nz := 4V", "2 4 V"},
		{"a name that statements below it change", "Markdown(`{y}`)\ny := 1V\nfor range 3 { y += 1V }", "4 V"},
		{"no text where the line ends in a semicolon", "Markdown(`{V}`);", ""},
		{"several, between other results", "Markdown(`a`)\nx := 1V\nMarkdown(`b {x}`)\nMarkdown(`c`)", "a|b 1 V|c"},
	} {
		_, results := compute(t, values, c.code)
		if got := strings.Join(textsOf(results[1]), "|"); got != c.want || len(results[1].Errors) > 0 {
			t.Errorf("%s: %q gives %q, want %q %v", c.why, c.code, got, c.want, results[1].Errors)
		}
	}
}

// A text is made again when a name in it has another value, waits for one that
// fails, and says what is new about a value that stays: an input is written in
// all digits that were typed, what is computed in four.
func TestTextsFollowTheirNames(t *testing.T) {
	t.Parallel()
	n := newNote(t)
	run := func(code string) *note.Result {
		n.Put(note.Source{ID: "a", Code: code})
		n.Put(note.Source{ID: "text", Code: "Markdown(`R is {R limits}, by {R}`)"})
		return n.Run(t.Context())[1]
	}
	for _, c := range []struct{ code, want string }{
		{"R := 1kΩ", "R is 1 kΩ, by 1 kΩ"},
		{"R := 2kΩ ± 1%", "R is 1.98 … 2.02 kΩ, by 2 kΩ"},
		{"R := nope", ""},
		{"R := 1234.5Ω", "R is 1.2345 kΩ, by 1.2345 kΩ"},
		{"x := 1234.5Ω\nR := x + 0Ω", "R is 1.234 kΩ, by 1.234 kΩ"},
		{"R := 1234.5Ω", "R is 1.2345 kΩ, by 1.2345 kΩ"},
	} {
		r := run(c.code)
		if got := strings.Join(textsOf(r), "|"); got != c.want {
			t.Errorf("%q: %q, want %q", c.code, got, c.want)
		}
		if !r.Ran && c.want != "" {
			t.Errorf("%q: nobody is told of the new text", c.code)
		}
	}
	if r := run("R := 1234.5Ω // with a comment that changes nothing in the text"); len(textsOf(r)) != 1 {
		t.Errorf("the text is gone: %v", r.Errors)
	}
}

// A note that has a function Markdown of its own, in whichever cell, keeps it.
func TestOwnMarkdown(t *testing.T) {
	t.Parallel()
	_, results := compute(t, "Markdown(`{nope}`)", "func Markdown(s string) int { return len(s) }")
	if s, ok := results[0].Items[0].(*note.Shown); !ok || s.Value.Text != "6" {
		t.Errorf("%v %v", results[0].Items, results[0].Errors)
	}
}

// What-if moves what a text says, and its call makes no name an input of a
// value: a text is no value.
func TestTextUnderWhatIf(t *testing.T) {
	t.Parallel()
	n := newNote(t)
	n.Set([]note.Source{{ID: "a", Code: "Vin := 9V\nVout := Vin/3"}, {ID: "b", Code: "Markdown(`{Vout}`)"}})
	n.Run(t.Context())
	if err := n.WhatIf(map[string]string{"Vin": "12V"}, false); err != nil {
		t.Fatal(err)
	}
	if got := textsOf(n.Run(t.Context())[1]); len(got) != 1 || got[0] != "4 V" {
		t.Errorf("%q", got)
	}
}
