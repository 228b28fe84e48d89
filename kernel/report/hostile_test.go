package report

import (
	"encoding/csv"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	extast "github.com/yuin/goldmark/extension/ast"
	markup "github.com/yuin/goldmark/text"
	"pgregory.net/rapid"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
	"ohmwright/lib/plot"
	"ohmwright/units"
)

// tester is what *testing.T and *rapid.T have in common.
type tester interface {
	Helper()
	Fatal(...any)
	Fatalf(string, ...any)
}

func quantity(t tester, s string) units.Quantity {
	t.Helper()
	q, err := units.Parse(s)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// hostile is a document in which a text stands wherever a user's text can
// stand, and Markdown in cells of its own.
func hostile(t tester, text, markdown string, figure bool) *Document {
	volts, amps := quantity(t, "5V"), quantity(t, "1A")
	five := cell.View{Kind: exec.KindQuantity, Quantity: volts, Text: "5 V"}
	formula := &cell.Expr{Kind: cell.ExprCall, Text: "f", Args: []*cell.Expr{{Kind: cell.ExprString, Text: text}, {Kind: cell.ExprCode, Text: text}}}
	entry := &note.Entry{Name: "x", Value: five, Description: text, Source: text, Reason: text, Files: []note.File{{Name: text}}}
	chosen := &note.Entry{Name: "R", Value: five, Form: note.FormChosen, Formula: formula, Description: text, Reason: text,
		Choice: &note.Choice{Rule: "nearest", Series: text, Ideal: volts, Chosen: volts}}
	missed := &note.Requirement{Text: text, Description: text, Source: text, Reason: text, Condition: formula, Nominal: true, Margin: &volts, Worst: &volts, WorstCase: text}
	waived := &note.Requirement{Text: "P-1: " + text, ID: "P-1", Waived: text, FailsWhere: text}
	rated := &note.Requirement{Text: "R1 power", Holds: true, Rating: &note.Rated{Reference: text, What: text, Limit: volts, Policy: 0.5, Stress: formula}}
	items := []note.Item{
		entry, chosen, missed, waived, rated,
		&note.Entry{Name: "s", Value: cell.View{Kind: exec.KindText, Text: text}, Description: text},
		&note.Entry{Name: "r", Value: cell.View{Kind: exec.KindRecord, Type: text, Items: []exec.Item{{Name: text, Value: cell.View{Kind: exec.KindText, Text: text}}}}},
		&note.Part{Reference: text, Name: "R", Value: volts, Entry: chosen, Twice: text},
		&note.Policy{Letters: text, What: text, Share: 0.5},
		&note.Waiver{ID: text, Reason: text, Trouble: text},
		&note.Operating{Name: text, Inputs: []note.Setting{{Name: "x", Value: volts}}, Judged: []note.InCase{{Text: text, Margin: &volts, WorstCase: text}},
			Table: [][]string{{text, text}, {text, text}}, Trouble: text},
		&note.Measurement{Name: text, Value: volts, Low: volts, High: volts, Reading: volts, From: volts, To: volts, How: text, Verdict: note.FitOutside, Trouble: text},
		&note.Printed{Text: text}, &note.Notice{Text: text, Line: 1},
		&note.Derivation{Of: text, Why: &note.Why{Entry: chosen, Cell: text, Cut: []string{text}}},
	}
	if figure { // drawing takes its time
		items = append(items, &note.Plotted{Figure: plot.Figure{Title: text, XName: text, YName: text, Marks: []plot.Mark{{Name: text, Value: volts}},
			Series: []plot.Series{{Name: text, X: []units.Quantity{amps, amps.Mul(quantity(t, "2"))}, Y: []units.Quantity{volts, volts}}}}, Formula: formula})
	}
	done := &note.Result{ID: "a", Label: "cell 1", Items: items}
	failed := &note.Result{ID: "b", Label: "cell 2", State: note.Failed, Errors: []*cell.Error{{Line: 1, Column: 1, Msg: text, Hint: text, Cell: "cell 2", Frames: []string{text}}}}
	attachments := map[string]map[string]string{text: {text: text}, "a.svg": {"image/svg+xml": text}}
	n := &Note{Path: "a/a.ipynb", Note: note.New(note.Options{}), Results: []*note.Result{done, failed}, Files: []File{{Name: text, Hash: "0"}},
		Cells: []Cell{{Markdown: markdown, Attachments: attachments}, {Result: done, Code: text}, {Markdown: "# [" + text + "](" + text + ")\n\n![" + text + "](" + text + ")", Attachments: attachments}, {Result: failed, Code: text}, {Markdown: markdown}}}
	other := &Note{Path: "b.ipynb", Note: note.New(note.Options{}), Cells: []Cell{{Markdown: markdown + "\n\n# " + text}}}
	d := NewDocument(&Design{Notes: []*Note{n, other}}, "", "0")
	d.Cautions = append(d.Cautions, Caution{Function: "f", Text: text, Places: []Place{{Note: text, Cell: "cell 1", ID: "note-1-cell-1"}}})
	return d
}

func hostileTexts() []string {
	return []string{
		"", "plain", "<script>alert(1)</script>", `" onload="x`, "' onclick='x", "</style><b>", "</title>", "]]>", "<!--", "-->", "&lt;b&gt; &amp &#60; &x", "a|b", "|\n|-|", "\\|", "\\", "`", "```\nx", "~~~\n",
		"$x$", "$$\n<b>\n", "$a<b c>d$", `\[ <img src=x>`, "[x](javascript:alert(1))", "[x](JaVaScRiPt:alert(1))", "<javascript:alert(1)>", "[x](data:text/html,<b>)", "![x](http://example.org/a.png)", "$![x](http://example.org/a.png)$",
		"![x][y]\n\n[y]: http://example.org/a.png", "[P-1]: http://example.org", "![x](attachment:a.svg)", "<img src=http://example.org/a.png>", "<a href=x", "=1+1", "@SUM(A1)", "-2+3|cmd", "+1", "\t=1", "-3.3 V", "＝1", "a,\"b\"\r\nc",
		"\x00", "\x1b[31m", "\u202e", "\xff", "\u2028", "# x", "x\n===", "- ", "1. ", "> > x", "    code", "<details open ontoggle=x>", "a<b>c", "<http://example.org/\"onmouseover=x>", "<svg onload=x>", "<?php", "<![CDATA[", "<a\nb>", "{x}", "{x.y} {R limits}", "[a\n](b)", "[x](#y)", "[x](b.ipynb#z)", "*_~~", "==", "\\<b>", "&#x3c;b>", "\\\\<b>", "[<b>](c)", "[x](<a b> \"<c>\")", "![a ![b](c)](d)", "[![a](b)](#c)", "| <b> |\n|-|", "> ```\n> <b>", "- ```\n  <b>",
		"[<http://example.org/>](x)", "- |\n|-|", "plain\n    ![x](http://example.org/a.png)", "~~~]($a<b c>d$", "$$\n<b>\n\\\\<b>", "<script>alert(1)</script>[x](javascript:alert(1))", "\n    ](<script>alert(1)</script>",
	}
}

// FuzzHostileText: whatever a user wrote, and wherever, a document shows it as
// text: nothing in it runs or loads, and nothing breaks out of its place.
func FuzzHostileText(f *testing.F) {
	for _, s := range hostileTexts() {
		f.Add(s, s)
	}
	f.Fuzz(func(t *testing.T, text, markdown string) {
		checkHostile(t, text, markdown, false)
	})
}

// Several of them in a row, also as blocks of Markdown within each other.
func TestHostileTexts(t *testing.T) {
	t.Parallel()
	piece := rapid.SampledFrom(append(hostileTexts(), "\n", "\n\n", " ", "\n> ", "\n- ", "\n    ", "\t", "a", "|", "\n|-|-|\n", "---\n", "~~~", "````\n", "$", "$$", "<", ">", "]", "(", ")", "!", "["))
	text := rapid.Custom(func(t *rapid.T) string { return strings.Join(rapid.SliceOfN(piece, 0, 6).Draw(t, "pieces"), "") })
	rapid.Check(t, func(t *rapid.T) {
		checkHostile(t, text.Draw(t, "text"), text.Draw(t, "markdown"), false)
	})
}

// The names of a picture, too.
func TestHostileFigures(t *testing.T) {
	t.Parallel()
	for _, s := range hostileTexts() {
		if len(s) < 30 && strings.ContainsAny(s, "<&\"]\x00\n") {
			checkHostile(t, s, "", true)
		}
	}
}

func checkHostile(t tester, text, markdown string, figure bool) {
	t.Helper()
	d := hostile(t, text, markdown, figure)
	html, err := d.HTML()
	if err != nil {
		t.Fatal(err)
	}
	page, err := readPage(html)
	if err != nil {
		t.Fatal(err)
	}
	if err := checkLinks(page); err != nil {
		t.Fatal(err)
	}
	// As text it stands in the tables of requirements and inputs, in the
	// working, in the list of cautions, in the footer.
	shown := strings.Join(strings.Fields(render.Visible(text)), " ")
	for _, id := range []string{"missed", "failures", "requirements", "inputs", "working", "parts", "cautions"} {
		if s := section(page, id); s == nil || !strings.Contains(strings.Join(strings.Fields(s.words()), " "), shown) {
			t.Fatalf("%q is not in %s", shown, id)
		}
	}
	for id, want := range map[string]int{"requirements": 3, "inputs": 3, "parts": 1} {
		if got := len(table(page, id)); got != want {
			t.Fatalf("%d rows of %s, want %d", got, id, want)
		}
	}
	md, files := d.Markdown("files")
	checkMarkdown(t, md, files)
	for _, what := range Lists {
		text, err := d.CSV(what)
		if err != nil {
			t.Fatal(err)
		}
		checkCSV(t, text)
	}
}

func section(page *element, id string) *element {
	for _, s := range page.all("section") {
		if s.attrs["id"] == id {
			return s
		}
	}
	return nil
}

var oursInMarkdown = regexp.MustCompile(`^(<a id="[a-z0-9-]+">|</a>|<span>|</span>)$`)

// checkMarkdown reads the document as a code host does that knows of no
// mathematics: no HTML but ours, no picture but those beside it, and tables
// and headings of ours as many as there must be, with as many cells.
func checkMarkdown(t tester, md string, files map[string][]byte) {
	t.Helper()
	if !utf8.ValidString(md) || strings.ContainsAny(md, "\x00\x1b\u202e") {
		t.Fatalf("characters that do not show in %q", md)
	}
	src := []byte(md)
	tree := goldmark.New(goldmark.WithExtensions(extension.Table, extension.Strikethrough)).Parser().Parse(markup.NewReader(src))
	sections := map[string]int{}
	heading := ""
	ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch x := n.(type) {
		case *ast.RawHTML:
			if s := string(x.Segments.Value(src)); !oursInMarkdown.MatchString(s) {
				t.Fatalf("HTML in Markdown: %q in\n%s", s, md)
			}
		case *ast.HTMLBlock:
			if s := strings.TrimSpace(string(x.Lines().Value(src))); s != "<!-- -->" || x.HasClosure() {
				t.Fatalf("HTML in Markdown: %q in\n%s", s, md)
			}
		case *ast.Image:
			if name, ok := strings.CutPrefix(string(x.Destination), "files/"); !ok || files[name] == nil {
				t.Fatalf("a picture from %s in\n%s", x.Destination, md)
			}
		case *ast.Link:
			if u := strings.ToLower(string(x.Destination)); strings.HasPrefix(u, "javascript:") || strings.HasPrefix(u, "data:") {
				t.Fatalf("a link to %s in\n%s", x.Destination, md)
			}
		case *ast.LinkReferenceDefinition:
			t.Fatalf("a definition of %s, which is one for all cells, in\n%s", x.Label, md)
		case *ast.Heading:
			if x.Level == 2 && x.Parent() == tree {
				heading = string(x.Lines().Value(src))
				sections[heading] = 0
			}
		case *extast.Table:
			if want := map[string]int{"Requirements": 7, "Inputs": 6, "Chosen parts": 10, "Files": 2}[heading]; want > 0 {
				if len(x.Alignments) != want {
					t.Fatalf("%s has %d columns in\n%s", heading, len(x.Alignments), md)
				}
				sections[heading] = x.ChildCount() - 1
				for row := x.FirstChild(); row != nil; row = row.NextSibling() {
					if row.ChildCount() != want || row.LastChild().FirstChild() == nil {
						t.Fatalf("a row of %s is broken in\n%s", heading, md)
					}
				}
			}
		}
		return ast.WalkContinue, nil
	})
	for heading, rows := range map[string]int{"Failures": 0, "What fails": 0, "Requirements": 3, "Inputs": 3, "Assumptions": 0, "Working": 0, "Chosen parts": 1, "Cautions": 0, "Files": 1} {
		if got, ok := sections[heading]; !ok || got != rows {
			t.Fatalf("%s: %d rows, want %d, found is %v, in\n%s", heading, got, rows, ok, md)
		}
	}
}

// checkCSV reads a list as RFC 4180 has it: rows of one length, no field that a
// spreadsheet computes.
func checkCSV(t tester, text string) {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%v, %d rows in %q", err, len(rows), text)
	}
	for _, row := range rows {
		for _, s := range row {
			start := strings.TrimLeft(s, " \t\n\u00a0")
			if start != "" && slices.Contains([]rune("=+-@＝＋－＠"), []rune(start)[0]) && !regexp.MustCompile(`^[+-]\d+(\.\d+)?[ %\pLµ°Ω·/√]*$`).MatchString(s) {
				t.Fatalf("a spreadsheet computes %q", s)
			}
		}
	}
}

func TestCSVFields(t *testing.T) {
	t.Parallel()
	for in, want := range map[string]string{
		"-3.3 V": "-3.3 V", "+0.28 %": "+0.28 %", "-3.3": "-3.3", "-40 °C": "-40 °C", "−3.3 V": "−3.3 V", "-5 µV/√Hz": "-5 µV/√Hz", "4.7 kΩ": "4.7 kΩ", "": "", "a=b": "a=b", "E-mail a@b": "E-mail a@b", "− x": "− x",
		"=1+1": "'=1+1", "+cmd|' /C x'!A0": "'+cmd|' /C x'!A0", "-2+3": "'-2+3", "@SUM(A1)": "'@SUM(A1)", "\t=1": "'\t=1", " =1": "' =1", "\r=1": "'=1", "-1 V|x": "'-1 V|x", "＝1": "'＝1", "- x": "'- x", "-f(1)": "'-f(1)",
	} {
		if got := plainField(in); got != want {
			t.Errorf("%q is written %q, want %q", in, got, want)
		}
	}
}
