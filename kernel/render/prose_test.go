package render

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/note"
	"ohmwright/units"
)

func textOfCell(text string) *note.Prose {
	v, err := units.Parse("5 V")
	if err != nil {
		panic(err)
	}
	return &note.Prose{Text: text, Entries: []*note.Entry{{Name: "Vout", Form: note.FormInput, Value: cell.View{Kind: exec.KindQuantity, Quantity: v, Text: "5 V"}}}}
}

// In a terminal a paragraph, and each item of a list, is wrapped as a whole;
// code, rows of tables and displayed mathematics stay as they are (what is
// which: CommonMark 4.4, 4.5, 4.8, 5.2). The widths are counted by hand.
func TestTextOfProse(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ why, in, want string }{
		{"a paragraph", "The rail\nis {Vout}, which suits.", "The rail is 5 V, which\nsuits.\n"},
		{"a value is not parted from its unit", "The rail is so well at {Vout}.", "The rail is so well at\n5 V.\n"},
		{"a heading, a list", "# A heading that is long enough\n- one\n  two and three and four\n- five\n10. a b c d e f g h i j k l", "# A heading that is long enough\n- one two and three and\n  four\n- five\n10. a b c d e f g h i j\n    k l\n"},
		{"a paragraph behind a list is its own", "- one\n\ntwo", "- one\n\ntwo\n"},
		{"minus and numbers that start no item", "a\n-5 V and\n3.3 V", "a -5 V and 3.3 V\n"},
		{"code", "```\na b c d e f g h i j k l m\n- x\n```\nb\nc", "```\na b c d e f g h i j k l m\n- x\n```\nb c\n"},
		{"tildes around dots", "~~~\n```\na\n~~~\nb\nc", "~~~\n```\na\n~~~\nb c\n"},
		{"mathematics", "$$\na\nb\n$$\nc\nd $$x$$\ne", "$$\na\nb\n$$\nc d $$x$$ e\n"},
		{"a table", "| a | b |\n|---|---|\n| {Vout} | c |", "| a | b |\n|---|---|\n| 5 V | c |\n"},
		{"no control characters", "a\x1b[31m", "a\ufffd[31m\n"},
		{"no escapes of the value", "{Vout} \\{Vout}", "5 V \\{Vout}\n"},
	} {
		if got := Text([]note.Item{textOfCell(c.in)}, Options{Width: 24}); got != c.want {
			t.Errorf("%s:\n%q, want\n%q", c.why, got, c.want)
		}
	}
}

// Texts are displays of their own, in the order of the cell; what shows nothing
// is none.
func TestDisplays(t *testing.T) {
	t.Parallel()
	entry := func(name string, quiet bool) note.Item {
		return &note.Entry{Name: name, Value: cell.View{Kind: exec.KindNumber, Number: 1, Text: "1"}, Quiet: quiet}
	}
	for _, c := range []struct {
		items []note.Item
		want  string // the form that tells, of each display
	}{
		{nil, ""},
		{[]note.Item{entry("a", false), entry("b", false)}, "html"},
		{[]note.Item{textOfCell("a"), textOfCell("b")}, "markdown"},
		{[]note.Item{entry("a", true), textOfCell("a"), entry("a", true)}, "markdown"},
		{[]note.Item{entry("a", false), textOfCell("a"), entry("b", false), textOfCell("b")}, "html markdown html markdown"},
		{[]note.Item{entry("p", false), textOfCell("a"), entry("p", false)}, "html picture markdown html picture"},
	} {
		var got []string
		for _, b := range Bundles(c.items, func(it note.Item) map[string]string {
			if e, ok := it.(*note.Entry); ok && e.Name == "p" {
				return map[string]string{"picture": ""}
			}
			return nil
		}) {
			for _, form := range []string{"html", "markdown"} {
				if b["text/"+form] != "" {
					got = append(got, form)
				}
			}
			if _, ok := b["picture"]; ok {
				got = append(got, "picture")
			} else if b["text/plain"] == "" {
				t.Errorf("no plain text: %v", b)
			}
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%v, want %s", got, c.want)
		}
	}
}

// No flavour lets through what the text or a value of it could do to a page.
func TestProseIsSafe(t *testing.T) {
	t.Parallel()
	bad := "<script>alert(1)</script> <img src=x onerror=y> {s}"
	p := textOfCell(bad)
	p.Entries = []*note.Entry{{Name: "s", Form: note.FormInput, Value: cell.View{Kind: exec.KindText, Text: "<b>[x](javascript:y)$z$"}}}
	items := []note.Item{p}
	for flavour, text := range map[string]string{"markdown": GroupBundle(items)["text/markdown"], "HTML": HTML(items, TeX), "LaTeX": LaTeX(items), "MathML": HTML(items, MathML)} {
		for _, tag := range []string{"<script", "<img", "<b>", " [x]("} {
			if flavour != "LaTeX" && strings.Contains(text, tag) {
				t.Errorf("%s: %q is in %q", flavour, tag, text)
			}
		}
		if text == "" {
			t.Errorf("%s: nothing", flavour)
		}
	}
	if forms := GroupBundle(items); len(forms) != 2 {
		t.Errorf("forms %v", slices.Sorted(maps.Keys(forms)))
	}
}
