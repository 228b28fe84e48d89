package report

import (
	"strings"
	"testing"
)

// What is too broad for a sheet on end is turned; what is not stays as it is.
func TestPlaced(t *testing.T) {
	t.Parallel()
	row := func(n int) string {
		return "<table><tr>" + strings.Repeat("<td>\u20078.9\u00a0V,\u00a02\u00a0V</td>", n) + "</tr></table>"
	}
	math := func(n int) string { return "<math><mi>" + strings.Repeat("x</mi><mi>", n-1) + "x</mi></math>" }
	for _, c := range []struct {
		name, shown, box string
	}{
		{"eight columns", row(8), `class="cell"`},
		{"nine columns", row(9), `class="cell turned" style="--columns: 9; --math: 0"`},
		{"rows of eight", row(8) + row(8), `class="cell"`},
		{"a formula of 90 characters", math(90), `class="cell"`},
		{"a formula of 91 characters", row(2) + math(91), `class="cell turned" style="--columns: 2; --math: 91"`},
		{"many short formulas", strings.Repeat(math(50), 9), `class="cell"`},
	} {
		box, content := placed(c.shown)
		if box != c.box {
			t.Errorf("%s: %s, want %s", c.name, box, c.box)
		}
		if !strings.Contains(box, "turned") && content != strings.ReplaceAll(c.shown, ",\u00a0", ", ") {
			t.Errorf("%s: %s", c.name, content)
		}
		if strings.Contains(box, "turned") && strings.ContainsAny(content, "\u2007") {
			t.Errorf("%s: spaces make its columns wide", c.name)
		}
	}
	// A number stays with its unit; two may stand one above the other.
	if _, content := placed(row(9)); !strings.Contains(content, "<td>8.9\u00a0V, 2\u00a0V</td>") {
		t.Errorf("%s", content)
	}
}

func TestSized(t *testing.T) {
	t.Parallel()
	long := "<math display=\"block\"><mi>" + strings.Repeat("x", 81) + "</mi></math>"
	for in, want := range map[string]string{
		"<p>text</p>":                      "<p>text</p>",
		"<math><mi>x</mi></math>":          "<math><mi>x</mi></math>",
		"<table><tr></tr></table>":         `<div class="wide" role="group" tabindex="0" aria-label="table"><table><tr></tr></table></div>`,
		`<math display="block"></math>`:    `<math tabindex="0" display="block"></math>`,
		long + "<math><mi>x</mi></math>":   `<math style="--math: 81" tabindex="0" display="block"><mi>` + strings.Repeat("x", 81) + "</mi></math><math><mi>x</mi></math>",
		"<p>&lt;math&gt;&lt;table&gt;</p>": "<p>&lt;math&gt;&lt;table&gt;</p>",
	} {
		if got := sized(in); got != want {
			t.Errorf("%s:\n got %s\nwant %s", in, got, want)
		}
	}
}

func TestByNote(t *testing.T) {
	t.Parallel()
	list := []Input{{Place: Place{Note: "a"}, Name: "x"}, {Place: Place{Note: "a"}, Name: "y"}, {Place: Place{Note: "b"}, Name: "z"}}
	got := ""
	for _, r := range byNote(list) {
		got += r.Note + ":"
		for _, in := range r.Rows {
			got += in.Name
		}
		got += " "
	}
	if got != "a:xy b:z " {
		t.Errorf("got %s", got)
	}
	if byNote([]Part(nil)) != nil {
		t.Error("rows out of nothing")
	}
}

// The name of a field may be broken behind its dots, and carries nothing else in.
func TestDotted(t *testing.T) {
	t.Parallel()
	if got := string(dotted("zth.Stages[0].<b>")); got != "zth.<wbr>Stages[0].<wbr>&lt;b&gt;" {
		t.Errorf("got %s", got)
	}
}
