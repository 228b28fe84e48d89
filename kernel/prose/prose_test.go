package prose_test

import (
	"context"
	"strings"
	"testing"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/text"

	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/note"
	"ohmwright/kernel/prose"
	"ohmwright/kernel/render"
)

func valuesOf(t testing.TB, code string) render.Values {
	t.Helper()
	w, err := host.Load()
	if err != nil {
		t.Fatal(err)
	}
	n := note.New(note.Options{World: w})
	n.Set([]note.Source{{ID: "a", Code: code}})
	results := n.Run(context.Background())
	for _, r := range results {
		for _, e := range r.Errors {
			t.Fatal(e)
		}
	}
	return render.ValuesOf(results)
}

// The values are those that the code states; where a marker is none follows
// from CommonMark (code spans 6.1, links 6.3, HTML 6.6, escapes 2.4) and from
// TeX's delimiters.
func TestReplace(t *testing.T) {
	t.Parallel()
	v := valuesOf(t, `Vout := 5V ± 2%
type pair struct { Peak, Mean Quantity }
i := pair{2A, 1.5A}
word := "a*b|c"
Vs := []Quantity{1V ± 10%, 2V}
rows := []pair{{2A, 1A}, {4A, 3A}}
grid := [][]int{{1, 2}, {3}}
none := []int{}
named := map[string]int{"a": 1}
`)
	for _, c := range []struct{ name, in, want, unknown string }{
		{"value", "It is {Vout}.", "It is 5 V.", ""},
		{"limits", "{Vout limits}", "4.9 … 5.1 V", ""},
		{"field", "# At {i.Peak}", "# At 2 A", ""},
		{"table", "| a | b |\n|---|---|\n| {Vout} | `{Vout}` |", "| a | b |\n|---|---|\n| 5 V | `{Vout}` |", ""},
		{"link's words", "[{Vout}](x)", "[5 V](x)", ""},
		{"link's target", "[a](x{Vout})", "[a](x{Vout})", ""},
		{"emphasis", "**{Vout}**", "**5 V**", ""},
		{"list in a quotation", "> - {Vout}\n>   {Vout}", "> - 5 V\n>   5 V", ""},
		{"escaped", `\{Vout}`, `\{Vout}`, ""},
		{"code", "`{Vout}`", "`{Vout}`", ""},
		{"indented code", "    {Vout}", "    {Vout}", ""},
		{"fence", "```\n{Vout}\n```", "```\n{Vout}\n```", ""},
		{"HTML", `<a title="{Vout}">x</a>`, `<a title="{Vout}">x</a>`, ""},
		{"HTML block", "<div>\n{Vout}\n</div>", "<div>\n{Vout}\n</div>", ""},
		{"dollar", "$x_{Vout}$ {Vout}", "$x_{Vout}$ 5 V", ""},
		{"dollars", "$$\n- {Vout}\n$$\n\n{Vout}", "$$\n- {Vout}\n$$\n\n5 V", ""},
		{"round", `\({Vout}\) {Vout}`, `\({Vout}\) 5 V`, ""},
		{"square", "\\[\n{Vout}\n\\]\n", "\\[\n{Vout}\n\\]\n", ""},
		{"money", "$5 and {Vout} and $6", "$5 and 5 V and $6", ""},
		{"unknown", "{Vuot} {Vout}", "{Vuot} 5 V", "Vuot"},
		{"unknown field", "{i.Top}", "{i.Top}", "i.Top"},
		{"whole record", "{i}", "{i}", "i"},
		{"whole list", "{Vs} {rows}", "{Vs} {rows}", "Vs rows"},
		{"place of a list", "{Vs[1]} [{Vs[0]}](x) {Vs[0] limits}", "2 V [1 V](x) 0.9 … 1.1 V", ""},
		{"field of a record in a list", "{rows[1].Peak}", "4 A", ""},
		{"list in a list", "{grid[1][0]}", "3", ""},
		{"place that is not there", "{Vs[2]} {Vs.Peak} {i[0]} {Vout[0]}", "{Vs[2]} {Vs.Peak} {i[0]} {Vout[0]}", "Vs[2] Vs.Peak i[0] Vout[0]"},
		{"no place", "{Vs[-1]} {Vs[01]} {Vs[]} {Vs[n]} {[0]} {Vs[0]x}", "{Vs[-1]} {Vs[01]} {Vs[]} {Vs[n]} {[0]} {Vs[0]x}", ""},
		{"no marker", "{a, b} {1} {} {a b} {.x} {x.}", "{a, b} {1} {} {a b} {.x} {x.}", ""},
		{"wrong word", "{Vout limit} {Vuot limit}", "{Vout limit} {Vuot limit}", "Vout limit"},
		{"text is escaped", "{word}", `a\*b\|c`, ""},
	} {
		got, unknown := prose.Replace(c.in, v.Text)
		var names []string
		for _, m := range unknown {
			if v.Meant(m) {
				names = append(names, m.String())
			}
		}
		if u := strings.Join(names, " "); got != c.want || u != c.unknown {
			t.Errorf("%s: %q gives %q, unknown %q; want %q, unknown %q", c.name, c.in, got, u, c.want, c.unknown)
		}
	}
	for name, want := range map[string]string{
		"Vs": "Vs is a list of 2: write one value of it, such as {Vs[0]}", "Vs[7]": "Vs is a list of 2: write one value of it, such as {Vs[0]}",
		"rows": "rows is a list of 2: write one value of it, such as {rows[0].Peak}", "rows[1]": "rows[1] is a record: write one value of it, such as {rows[1].Peak}",
		"i": "i is a record: write one value of it, such as {i.Peak}", "grid[1]": "grid[1] is a list of 1: write one value of it, such as {grid[1][0]}",
		"none": "none is an empty list", "named": "named is a map, of which a text can quote nothing: give the value in it a name",
		"Vout": "", "Vuot": "", "i.Top": "", "Vout[0]": "", "Vs.Peak": "",
	} {
		if got := v.Several(prose.Marker{Name: name}); got != want {
			t.Errorf("{%s}: %q, want %q", name, got, want)
		}
	}
	if got := v.Nearest(prose.Marker{Name: "Vuot"}); !strings.Contains(got, "Vout") {
		t.Errorf("nearest to Vuot: %q", got)
	}
}

// hasHTML reports whether a text has HTML in it, to goldmark without our own
// additions.
func hasHTML(markdown string) (found bool) {
	ast.Walk(goldmark.DefaultParser().Parse(text.NewReader([]byte(markdown))), func(n ast.Node, _ bool) (ast.WalkStatus, error) { // no error comes from below
		found = found || n.Kind() == ast.KindRawHTML || n.Kind() == ast.KindHTMLBlock
		return ast.WalkContinue, nil
	})
	return found
}

// A tag behind a backslash within a block of HTML: a backslash before it would
// escape the backslash (CommonMark 2.4), so it has to become an entity (2.5).
func TestWithoutHTML(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ in, want string }{
		{"a < b and b > c", "a < b and b > c"},
		{"I <b>x</b>", "I &lt;b>x&lt;/b>"},
		{"<div>\n\\<script>\n</div>", "&lt;div>\n\\&lt;script>\n&lt;/div>"},
		{"`<b>` <https://example.org>", "`<b>` <https://example.org>"},
	} {
		if got := prose.WithoutHTML(c.in); got != c.want || hasHTML(got) {
			t.Errorf("%q gives %q, want %q", c.in, got, c.want)
		}
	}
}

// Schemes that a browser acts upon itself (WHATWG URL 4.1, HTML 7.4.2.3.2), as
// themselves and hidden in an escape or an entity.
func TestStranger(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ in, want string }{
		{"[a](https://example.org) [b](#place) [c](a/b:c) <mailto:a@example.org> ![d](https://example.org/x.png)", ""},
		{"[a](javascript:alert(1))", "javascript:alert(1)"},
		{"[a](JavaScript&#58;alert)", "JavaScript:alert"},
		{"[a](java\\script:x)", "java\\script:x"},
		{"[a][x]\n\n[x]: data:text/html,x", "data:text/html,x"},
		{"![a](file:///etc/x)", "file:///etc/x"},
		{"<javascript:alert>", "javascript:alert"},
	} {
		if got := prose.Stranger(c.in); got != c.want {
			t.Errorf("%q leads to %q, want %q", c.in, got, c.want)
		}
	}
}

// What is replaced is what stands in braces, nothing else, and the text
// without its values has no marker any more.
func FuzzReplace(f *testing.F) {
	for _, s := range []string{"{a}", "$${a}$$", "\\[\n{a}", "`{a}", "| {a} |\n|-|", "[{a}]({a} \"{a}\")", "{a limits}\\{a}", "$$\n", "> $$\n> {a}\n",
		"<div>\n\\<b>{a}", "a <b\nc='<'> \\<!-- <i> -->", "<script>\n`<b>`\n</script> <x>"} {
		f.Add(s)
	}
	v := valuesOf(f, "a := 5V")
	f.Fuzz(func(t *testing.T, s string) {
		last := 0
		for _, m := range prose.Markers(s) {
			if m.From < last || m.To > len(s) || s[m.From] != '{' || s[m.To-1] != '}' || !strings.HasPrefix(s[m.From+1:], m.Name) {
				t.Fatalf("%q: marker %+v", s, m)
			}
			last = m.To
		}
		prose.Replace(s, v.Text)
		if safe := prose.WithoutHTML(s); hasHTML(safe) {
			t.Fatalf("%q: %q has HTML", s, safe)
		}
	})
}
