package render

import (
	"strings"
	"testing"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/cell/inside"
	"ohmwright/kernel/note"
	"ohmwright/units"
)

// Text of the user's and of comments can neither open an element nor
// mathematics, nor steer a terminal: the same rule as for what cells show.
func TestInspectionIsSafe(t *testing.T) {
	t.Parallel()
	const hostile = "<script>x</script> $1 and $2 \\(y\\) \x1b[31m"
	for name, i := range map[string]*note.Inspection{
		"name":  {Name: &note.NameInfo{Name: "x", Type: hostile, Comment: hostile, Cell: hostile, Trouble: hostile, Inputs: []note.NamedValue{{Name: "a", Value: hostile}}, UsedBy: []note.Use{{Cell: hostile}}, Code: hostile}},
		"entry": {Name: &note.NameInfo{Name: "x", Cell: hostile, Entry: &note.Entry{Name: "x", Description: hostile, Source: hostile, Reason: hostile}}},
		"other": {Other: &note.OtherInfo{Text: hostile, What: hostile}},
		"doc": {Doc: &note.DocInfo{Doc: host.Doc{Signature: hostile, Text: hostile + "\n\n\t" + hostile + "\n\n  - " + hostile}, See: hostile, Code: hostile, Value: hostile,
			Fields: []note.FieldInfo{{Name: "A", Type: hostile, Text: hostile}}}},
	} {
		got := Inspection(i)
		if html := got["text/html"]; strings.Contains(html, "<script") || strings.Contains(html, "\x1b") {
			t.Errorf("%s: %s", name, html)
		}
		// Mathematics is looked for outside of pre and of the two classes.
		html := got["text/html"]
		for _, pair := range [][2]string{{"<pre>", "</pre>"}, {`<span class="tex2jax_ignore mathjax_ignore">`, "</span>"}} {
			for strings.Contains(html, pair[0]) {
				before, rest, _ := strings.Cut(html, pair[0])
				_, after, _ := strings.Cut(rest, pair[1])
				html = before + after
			}
		}
		if strings.ContainsAny(html, `$\`) {
			t.Errorf("%s: a sign that opens mathematics is left in %s", name, html)
		}
		if strings.Contains(got["text/plain"], "\x1b") {
			t.Errorf("%s: the text steers the terminal: %q", name, got["text/plain"])
		}
	}
}

// A formula stands in for the block of code that says it in words; conditions
// are worded. The text keeps the comment as it is.
func TestInspectionOfFunction(t *testing.T) {
	t.Parallel()
	name := func(s string) *cell.Expr { return &cell.Expr{Kind: cell.ExprName, Text: s} }
	quotient := &cell.Expr{Kind: cell.ExprBinary, Text: "/", Args: []*cell.Expr{name("Vin"), name("Rtop")}}
	given := &cell.Expr{Kind: cell.ExprCall, Text: "given", Args: []*cell.Expr{name("Rload")}}
	less := &cell.Expr{Kind: cell.ExprBinary, Text: "<", Args: []*cell.Expr{name("Vin"), name("Vout")}}
	got := Inspection(&note.Inspection{Doc: &note.DocInfo{
		Doc: host.Doc{Signature: "func F(x units.Quantity) units.Quantity", Text: "F finds a current.\n\n\tI = Vin/Rtop\n\nSource: by hand.\n\n\tF(3V) // 3 mA"},
		Steps: []inside.Formula{
			{Name: "I", Formula: quotient, When: given, Else: true},
			{Name: "I", Formula: name("Iload"), When: given},
			{Name: "I2", Formula: quotient, When: less},
			{Name: "I2", Formula: quotient, When: less, Else: true},
			{Name: "I3", Formula: quotient, When: &cell.Expr{Kind: cell.ExprUnary, Text: "!", Args: []*cell.Expr{name("forced")}}, Else: true},
		},
	}})
	html := got["text/html"]
	for _, want := range []string{
		`\(\displaystyle I = \frac{V_{\mathrm{in}}}{R_{\mathrm{top}}}\)`,
		`without \(\displaystyle R_{\mathrm{load}}\)`, `with \(\displaystyle R_{\mathrm{load}}\)`,
		`where \(\displaystyle V_{\mathrm{in}} &lt; V_{\mathrm{out}}\)`, `unless \(\displaystyle V_{\mathrm{in}} &lt; V_{\mathrm{out}}\)`,
		`where \(\displaystyle \mathrm{forced}\)`,
		"<p>Source: by hand.</p>", "<pre>F(3V) // 3 mA\n</pre>",
	} {
		if !strings.Contains(html, want) {
			t.Errorf("the HTML lacks %s:\n%s", want, html)
		}
	}
	if strings.Contains(html, "I = Vin/Rtop") || !strings.Contains(got["text/plain"], "\tI = Vin/Rtop") {
		t.Errorf("the formula in words: HTML\n%s\ntext\n%s", html, got["text/plain"])
	}
}

// A compound unit is told factor by factor.
func TestInspectionOfLiteral(t *testing.T) {
	t.Parallel()
	si, unit, ok := units.AboutLiteral("35nV/√Hz")
	if !ok {
		t.Fatal("no literal")
	}
	text := strings.ReplaceAll(Inspection(&note.Inspection{Literal: &note.LiteralInfo{Text: "35nV/√Hz", SI: si, Unit: unit}})["text/plain"], hard, " ")
	for _, want := range []string{"noise voltage density", "3.5e−8 V/√Hz", "1 nV/√Hz = 1e−9 V/√Hz", "n = 10⁻⁹, 1 V = 1 W/A", "1 Hz = 1 1/s"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
}
