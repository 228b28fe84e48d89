package note_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"ohmwright/kernel/cell"
)

// FuzzAsk completes and inspects at every position of arbitrary text: nothing
// panics, offers go on with what was typed and replace whole characters, and
// no made name shows.
func FuzzAsk(f *testing.F) {
	for _, s := range fuzzSeeds {
		f.Add(s)
	}
	for _, s := range askedNote {
		f.Add(s)
	}
	for _, s := range []string{"x := 62°C/", "x := st.", "divider.Loaded(divider.LoadedInputs{Input: ", "switch {\ncase ", "x := 10kΩ/", "func f(a Quantity) {\n\tfor i := ", "import \"", "5/*", "5V/*", "5V//", "1.", "a.b.", "f(\n{(\n[", "`", "'"} {
		f.Add(s)
	}
	n, _ := compute(f, askedNote...)
	f.Fuzz(func(t *testing.T, code string) {
		if len(code) > 200 {
			return // every position is one more reading
		}
		for at := range len(code) + 1 {
			c := n.Complete(code, at)
			if c.Start < 0 || c.End > len(code) || c.Start > c.End {
				t.Fatalf("%q at %d: replaces %d to %d", code, at, c.Start, c.End)
			}
			typed := code[c.Start:c.End]
			if utf8.ValidString(code) && !utf8.ValidString(typed) {
				t.Fatalf("%q at %d: replaces a part of a character", code, at)
			}
			for _, o := range c.Offers {
				if !strings.HasPrefix(strings.ToLower(o.Text), strings.ToLower(typed)) || strings.Contains(o.Text+o.Beside, "ƣ") && !strings.Contains(code, "ƣ") {
					t.Fatalf("%q at %d: offers %+v for %q", code, at, o, typed)
				}
			}
			n.Inspect(code, at, true)
		}
		status, indent := cell.Finish(code)
		if status == "complete" && indent != "" || strings.Trim(indent, " \t") != "" {
			t.Fatalf("%q: %s, indent %q", code, status, indent)
		}
	})
}
