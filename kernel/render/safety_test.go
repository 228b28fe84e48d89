package render

import (
	"encoding/xml"
	"io"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/note"
)

// What survives the sanitising of an untrusted notebook, and so may be used:
// measured with two front ends.
var (
	safeTags  = set("table tbody tr td b i sub sup span p div pre code br details summary")
	safeAttrs = set("class style colspan open")
	safeStyle = set("text-align:left background:none margin-left:2em")
)

// walkSafe fails on a tag, attribute or style outside the list, and returns
// the text in which a front end looks for mathematics.
func walkSafe(t interface {
	Fatalf(string, ...any)
	Helper()
}, html string) string {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader("<div>" + html + "</div>"))
	var searched strings.Builder
	var quiet []bool
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return searched.String()
		}
		if err != nil {
			t.Fatalf("%v in %s", err, html)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			name := tok.Name.Local
			if !safeTags[name] {
				t.Fatalf("element %s in %s", name, html)
			}
			skip := name == "pre" || name == "code" || len(quiet) > 0 && quiet[len(quiet)-1]
			for _, a := range tok.Attr {
				if !safeAttrs[a.Name.Local] || a.Name.Local == "style" && !safeStyle[a.Value] {
					t.Fatalf("attribute %s=%q in %s", a.Name.Local, a.Value, html)
				}
				skip = skip || a.Name.Local == "class" && a.Value == "tex2jax_ignore mathjax_ignore"
			}
			quiet = append(quiet, skip)
		case xml.EndElement:
			quiet = quiet[:len(quiet)-1]
		case xml.CharData:
			if !quiet[len(quiet)-1] {
				searched.WriteString(string(tok))
			}
		case xml.Comment, xml.ProcInst, xml.Directive:
			t.Fatalf("%T in %s", tok, html)
		}
	}
}

// outsideMath is text without what stands between \( and \).
func outsideMath(s string) string {
	var b strings.Builder
	for {
		before, rest, ok := strings.Cut(s, `\(`)
		b.WriteString(before)
		if !ok {
			return b.String()
		}
		_, s, ok = strings.Cut(rest, `\)`)
		if !ok {
			return b.String() + `\(`
		}
	}
}

func TestJupyterHTMLIsSafe(t *testing.T) {
	t.Parallel()
	for _, items := range [][]note.Item{regulator(t), mixed(t), spreads(t), board(t)} {
		text := outsideMath(walkSafe(t, HTML(items, TeX)))
		if strings.ContainsAny(text, `$\`) {
			t.Errorf("mathematics would start in %q", text)
		}
	}
}

// Whatever stands in comments, strings and messages: no tag, no attribute and
// no mathematics comes of it, and no flavour breaks.
func TestHostileText(t *testing.T) {
	t.Parallel()
	piece := rapid.SampledFrom([]string{"<script>alert(1)</script>", "$x$", "\\(", "\\)", "\\begin{align}", "&lt;", `"`, "'", "]]>", "<!--",
		"\x1b[31m", "\u202e", "\x00", "\xff", "電", "e\u0301", "\t", "\n", "{", "}", "%", "#", "^", "~", "_", "|", "`", "*", "word", " ", "[a](b)", "5 €", "$"})
	text := rapid.Custom(func(t *rapid.T) string { return strings.Join(rapid.SliceOfN(piece, 0, 6).Draw(t, "pieces"), "") })
	rapid.Check(t, func(t *rapid.T) {
		s := func(what string) string { return text.Draw(t, what) }
		code := &cell.Expr{Kind: cell.ExprCode, Text: s("code")}
		formula := &cell.Expr{Kind: cell.ExprCall, Text: "f", Args: []*cell.Expr{code, {Kind: cell.ExprString, Text: s("string")}}}
		items := []note.Item{
			&note.Entry{Name: "x", Value: cell.View{Kind: exec.KindText, Text: s("value")}, Form: note.FormComputed, Formula: formula,
				Description: s("description"), Source: s("source"), Reason: s("reason")},
			&note.Entry{Name: "y", Value: cell.View{Kind: exec.KindMap, Type: s("type"), Items: []exec.Item{{Name: s("key"), Value: cell.View{Text: s("other")}}}}},
			&note.Requirement{Text: s("requirement"), Condition: formula, Worst: limit("1V"), WorstCase: s("case"), Yield: &note.Yield{Boards: 2, Assumed: "uniform", Where: s("where")}},
			&note.Spreading{Formula: formula, Value: q("1V"), Spread: &note.Spread{Low: q("1V"), High: q("2V"), LowCase: s("low"), HighCase: s("high"), Trouble: s("trouble")},
				Shares: []note.Share{{Name: s("source")}, {Name: s("another")}}},
			&note.Derivation{Why: &note.Why{Cell: s("label"), Cut: []string{s("deeper")}, Entry: &note.Entry{Name: "z", Form: note.FormComputed, Formula: formula, Description: s("about"), Source: s("from")},
				Inside: []*note.Inner{{Trouble: s("trouble")}, {Function: s("function"), Steps: []*note.Entry{{Name: "w", Form: note.FormComputed, Formula: formula}}}}}},
			&note.Printed{Text: s("printed")}, &note.Notice{Text: s("notice")},
			&note.Prose{Text: s("prose") + "{x}", Entries: []*note.Entry{{Name: "x", Value: cell.View{Kind: exec.KindText, Text: s("value")}}}},
		}
		searched := outsideMath(walkSafe(t, HTML(items, TeX)))
		if strings.ContainsAny(searched, `$\`) {
			t.Fatalf("mathematics would start in %q", searched)
		}
		errs := []*cell.Error{{Line: 1, Column: 2, Msg: s("message"), Hint: s("hint"), Cell: s("cell"), Frames: []string{s("frame")}}}
		if searched := walkSafe(t, ErrorHTML(errs, s("line"))); strings.ContainsAny(searched, `$\`) {
			t.Fatalf("mathematics would start in %q", searched)
		}
		checkWellFormed(t, HTML(items, MathML))
		for _, out := range []string{Text(items, Options{Width: 40}), LaTeX(items), Markdown(items), ErrorText(errs, s("line")),
			Table(Options{Width: 40}, &note.Result{Items: items}), WhyText(&note.Why{Entry: items[0].(*note.Entry)}, 40)} {
			if !utf8.ValidString(out) || strings.ContainsAny(out, "\x1b\x00\u202e") {
				t.Fatalf("a terminal would act upon %q", out)
			}
		}
		if l := LaTeX(items); strings.Count(l, "$") != 4+strings.Count(l, `\$`) {
			t.Fatalf("a dollar sign ends the mathematics in %s", l)
		}
	})
}

func checkWellFormed(t *rapid.T, html string) {
	d := xml.NewDecoder(strings.NewReader("<div>" + html + "</div>"))
	for {
		if _, err := d.Token(); err == io.EOF {
			return
		} else if err != nil {
			t.Fatalf("%v in %s", err, html)
		}
	}
}

// The column is that of the character, the caret stands below its cell. Wide
// characters take two cells (Unicode Standard Annex 11), combining ones none.
func TestCaret(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		why, source string
		column      int
		caret       int // cells before it, of the printed line
	}{
		{"first", "x := y", 1, 0},
		{"plain", "x := y", 6, 5},
		{"behind wide ones", "電圧 + y", 6, 7},
		{"a wide one", "a + 電圧", 6, 6},
		{"behind a combining one", "a\u0308 + y", 6, 4},
		{"on a combining one", "xa\u0308 + y", 3, 1},
		{"behind a tab", "\ty", 2, 4},
		{"a tab in the line", "ab\ty", 4, 4},
		{"Greek and degrees are one cell", "θJA := 62°C/W + Ω", 17, 16},
		{"at the end", "x +", 4, 3},
		{"beyond the end", "x", 9, -1},
		{"none", "x", 0, -1},
	} {
		_, caret, ok := placeOf(&cell.Error{Line: 1, Column: c.column}, c.source)
		if !ok || caret != c.caret {
			t.Errorf("%s: %q column %d: caret at %d, want %d", c.why, c.source, c.column, caret, c.caret)
		}
	}
	if _, _, ok := placeOf(&cell.Error{Line: 3, Column: 1}, "one line"); ok {
		t.Error("a line that is not there is shown")
	}
	long := strings.Repeat("電 + ", 60) + "oops" + strings.Repeat(" + 電", 60)
	line, caret, _ := placeOf(&cell.Error{Line: 1, Column: 4*60 + 1}, long)
	if at := strings.Index(line, "oops"); cells(line[:at]) != caret || cells(line) > sourceWidth+5 {
		t.Errorf("in %q the caret is at %d", line, caret)
	}
}
