package render

import (
	"strings"
	"testing"

	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/note"
)

func TestBundle(t *testing.T) {
	t.Parallel()
	items := regulator(t)
	for _, it := range items {
		b := Bundle(it)
		if len(b) != 3 || b["text/plain"] == "" || b["text/html"] == "" || !strings.HasPrefix(b["text/latex"], "$$\n") {
			t.Errorf("bundle %q", b)
		}
	}
	group := GroupBundle(items)
	if len(group) != 3 || strings.Count(group["text/plain"], "because") != 1 {
		t.Errorf("group %q", group)
	}
	if b := Bundle(&note.Entry{Quiet: true, Value: *numberView(1)}); b != nil {
		t.Errorf("a quiet entry shows %q", b)
	}
	if Text(nil, Options{}) != "" || HTML(nil, TeX) != "" || LaTeX(nil) != "" || Markdown(nil) != "" || GroupBundle(nil) != nil {
		t.Error("nothing is shown as something")
	}
}

func TestEntriesWithoutNoise(t *testing.T) {
	t.Parallel()
	// A formula that is a name alone has no numbers line: it would repeat the result.
	vals := values{"Rtop": "10kΩ"}
	alias := &note.Entry{Name: "R", Value: *quantityView(q("10kΩ")), Form: note.FormComputed, Formula: tree(t, "Rtop", vals)}
	if got := Text([]note.Item{alias}, Options{}); got != "R   10 kΩ\n    from      Rtop\n" {
		t.Errorf("alias: %q", got)
	}
	// Without limits in their column, ± stays in the formula.
	loose := &note.Entry{Name: "R", Value: *quantityView(q("20kΩ")), Form: note.FormComputed, Formula: tree(t, "(2*Rtop) ± 1%", vals)}
	if got := Text([]note.Item{loose}, Options{}); !strings.Contains(got, "from      2 · Rtop ± 1 %") {
		t.Errorf("±: %q", got)
	}
	// Numbers of a cell's own arithmetic carry noise that nobody asked for.
	sum := cellNumber(0.1 + 0.2)
	if got := Text([]note.Item{&note.Entry{Name: "x", Value: sum, Form: note.FormInput}}, Options{}); got != "x   0.3\n" {
		t.Errorf("0.1 + 0.2: %q", got)
	}
	deep := numberView(1)
	for range 10 {
		deep = &[]exec.View{{Kind: exec.KindRecord, Type: "T", Items: []exec.Item{{Name: "F", Value: *deep}}}}[0]
	}
	if got := Text([]note.Item{&note.Shown{Value: *deep}}, Options{}); strings.Count(got, "\n") != maxDepth+2 || !strings.Contains(got, "… 1 more") {
		t.Errorf("a deep record: %s", got)
	}
}

func TestTextIsAligned(t *testing.T) {
	t.Parallel()
	items := append(mixed(t), regulator(t)...)
	for _, width := range []int{0, 60, 80, 100} {
		at := -1
		for _, line := range strings.Split(Text(items, Options{Width: width}), "\n") {
			// The labels stand in one column, in cells, whatever the names are.
			for _, label := range []string{"from", "with", "because", "needs"} {
				head, rest, ok := strings.Cut(line, label+gap)
				if !ok || strings.TrimSpace(head) != "" {
					continue
				}
				if at < 0 {
					at = cells(head)
				}
				if cells(head) != at || rest == "" {
					t.Errorf("width %d: label out of line: %q", width, line)
				}
			}
			if width >= 80 && cells(line) > width && strings.Contains(line, "from") {
				t.Errorf("wider than %d: %q", width, line)
			}
		}
	}
	text := Text(items, Options{})
	wide, narrow := lineWith(text, "wide name"), lineWith(text, "costs $5")
	if a, b := strings.Index(wide, "wide name"), strings.Index(narrow, "costs"); cells(wide[:a]) != cells(narrow[:b]) {
		t.Errorf("descriptions are out of line:\n%s\n%s", wide, narrow)
	}
}

func TestWrap(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		text  string
		width int
		want  string
	}{
		{"one two three", 0, "one two three"},
		{"one two three", 8, "one two|three"},
		{"incomprehensible words", 5, "incomprehensible|words"},
		{"the loss at 32 V, in milliwatts", 14, "the loss at|32 V, in|milliwatts"},
		{"電圧 電圧 電圧", 9, "電圧 電圧|電圧"},
		{"a  b   c", 4, "a  b|c"},
		{"", 5, ""},
	} {
		if got := strings.Join(wrap(c.text, c.width), "|"); got != c.want {
			t.Errorf("%q in %d: %s, want %s", c.text, c.width, got, c.want)
		}
	}
}

func lineWith(text, what string) string {
	for _, line := range strings.Split(text, "\n") {
		if strings.Contains(line, what) {
			return line
		}
	}
	return ""
}

func TestMarkdownStart(t *testing.T) {
	t.Parallel()
	for s, want := range map[string]string{
		"1. x": "- 1\\. x\n", "- x": "- \\- x\n", "x": "- x\n", "12": "- 12\n", "": "- \n", "$5": "- <span>$</span>5\n",
	} {
		shown := &note.Shown{Value: exec.View{Kind: exec.KindText, Text: s}}
		if got := Markdown([]note.Item{shown}); got != want {
			t.Errorf("%q is written %q, want %q", s, got, want)
		}
	}
}

func cellNumber(x float64) exec.View { return *numberView(x) }
