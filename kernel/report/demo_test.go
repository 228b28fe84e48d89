package report

import (
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/folder"
	"ohmwright/kernel/note"
	"ohmwright/kernel/notebook"
)

// noteAt reads a notebook and computes it.
func noteAt(t testing.TB, path string) *Note {
	t.Helper()
	f, err := notebook.Read(path)
	if err != nil {
		t.Fatal(err)
	}
	w, err := host.Load()
	if err != nil {
		t.Fatal(err)
	}
	beside := folder.Of(filepath.Dir(path))
	n := note.New(note.Options{World: w, Open: beside.Open, Note: beside.Note})
	var sources []note.Source
	for _, c := range f.Cells() {
		if c.Type() == "code" {
			id := fmt.Sprintf("cell %d", len(sources)+1)
			sources = append(sources, note.Source{ID: id, Label: id, Code: c.Source()})
		}
	}
	n.Set(sources)
	out := &Note{Path: filepath.Base(path), Note: n, Results: n.Run(t.Context()), Open: beside.Open,
		Files: []File{{filepath.Base(path), fmt.Sprintf("%x", sha256.Sum256(f.Bytes()))}}}
	code := 0
	for _, c := range f.Cells() {
		x := Cell{Markdown: c.Source(), Attachments: c.Attachments()}
		if c.Type() == "code" {
			x = Cell{Result: out.Results[code], Code: c.Source()}
			code++
		}
		out.Cells = append(out.Cells, x)
	}
	return out
}

// What a cell says, read from its text by patterns: the engine has no part in
// it, nor has what writes the document. The demo notes are formatted, so what
// stands at the left is at the top level of its cell.
var (
	needing = regexp.MustCompile(`(?m)^Require\((.*), "([^"]*)"\)`)
	parting = regexp.MustCompile(`(?m)^Part\("([^"]*)"`)
	drawing = regexp.MustCompile(`(?m)^(?:(?:Plot|Trend|TrendLog|Curve|CurveLog|Spread)\(|powertree\.)`)
	numbers = regexp.MustCompile(`(^|[^\pL\d_])[\d.]+[\pL°µΩ%√][^\s,(){}*+-]*`)
	wording = regexp.MustCompile(`[\pL_][\pL\d_]*(?:\.[\pL_][\pL\d_]*)*`)
	remark  = regexp.MustCompile(`\s*//.*`)
)

// definition is a line "name := …" of a cell.
type definition struct {
	name, value string
	line        int
	quiet       bool // a semicolon: nothing is shown
}

// definitions are those at the top level of a cell, in their order; of the
// values of several lines the first and those that are set in.
func definitions(code string) (list []definition) {
	lines := strings.Split(code, "\n")
	for i := 0; i < len(lines); i++ {
		name, value, ok := strings.Cut(lines[i], " := ")
		if !ok || !regexp.MustCompile(`^[\pL_][\pL\d_]*$`).MatchString(name) {
			continue
		}
		at := i
		value = remark.ReplaceAllString(value, "")
		for ; i+1 < len(lines) && (strings.HasPrefix(lines[i+1], "\t") || strings.HasPrefix(lines[i+1], "}") || strings.HasPrefix(lines[i+1], ")")); i++ {
			value += "\n" + remark.ReplaceAllString(lines[i+1], "")
		}
		list = append(list, definition{name: name, value: strings.TrimSuffix(value, ";"), line: at + 1, quiet: strings.HasSuffix(value, ";")})
	}
	return list
}

// Every formula of the demo notes stands in both documents, at the name that it
// gives, and with all names that it uses; so do requirements, parts, figures.
func TestEveryFormulaOfTheDemoNotes(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("computes all demo notes")
	}
	paths, err := filepath.Glob(filepath.Join("..", "..", "notebooks", "*.ipynb"))
	if err != nil || len(paths) < 12 {
		t.Fatalf("demo notes: %v, %v", paths, err)
	}
	for _, path := range paths {
		t.Run(filepath.Base(path), func(t *testing.T) {
			t.Parallel()
			n := noteAt(t, path)
			doc := NewDocument(&Design{Notes: []*Note{n}}, "", "0")
			html, err := doc.HTML()
			if err != nil {
				t.Fatal(err)
			}
			page, err := readPage(html)
			if err != nil {
				t.Fatal(err)
			}
			if err := checkLinks(page); err != nil {
				t.Error(err)
			}
			md, files := doc.Markdown("files")
			text, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			checkForeign(t, page, string(text))
			inputs, requirements, parts := table(page, "inputs"), table(page, "requirements"), table(page, "parts")
			code := 0
			found := 0
			defined := map[string]bool{}
			for _, c := range n.Cells {
				for _, d := range definitions(c.Code) {
					defined[d.name] = true
				}
			}
			for _, c := range n.Cells {
				if c.Result == nil {
					continue
				}
				code++
				id := fmt.Sprintf("note-1-cell-%d", code)
				cell := cellOf(page, id)
				inMarkdown := between(md, `<a id="`+id+`"></a>`, `<a id="note-1-cell-`)
				if cell == nil || inMarkdown == "" {
					t.Fatalf("%s is not in the document", id)
				}
				for _, d := range definitions(c.Code) {
					if d.quiet || d.name == "_" {
						continue
					}
					where := fmt.Sprintf("%s, line %d, %s", c.Result.Label, d.line, d.name)
					entry := entryOf(cell, d.name)
					if entry == nil {
						t.Errorf("%s: no entry in the page", where)
						continue
					}
					lines := markdownEntry(inMarkdown, d.name)
					if lines == nil {
						t.Errorf("%s: no entry in Markdown", where)
						continue
					}
					var uses []string
					for _, w := range wording.FindAllString(numbers.ReplaceAllString(outsideStrings(d.value), "$1"), -1) {
						if first, _, _ := strings.Cut(w, "."); defined[first] && first != d.name {
							uses = append(uses, w)
						}
					}
					if len(uses) == 0 {
						if regexp.MustCompile(`^(Range|Band|Typical|Table)\(|^[-+]?\d`).MatchString(d.value) && !slices.ContainsFunc(inputs, func(r []string) bool { return r[0] == d.name }) {
							t.Errorf("%s: not among the inputs", where)
						}
						continue
					}
					found++
					from := lineOf(entry, "from")
					if from == nil {
						t.Errorf("%s: no formula in the page", where)
						continue
					}
					if len(from.all("math")) == 0 && !strings.ContainsAny(d.value, "{\"") {
						t.Errorf("%s: the formula is not typeset: %s", where, from.words())
					}
					source := ""
					for _, l := range lines {
						if s, ok := strings.CutPrefix(strings.TrimSpace(l), "- from "); ok {
							source = s
						}
					}
					for _, use := range uses {
						for what, in := range map[string]string{"the page": from.words(), "Markdown": source} {
							if !strings.Contains(letters(in), letters(use)) && !strings.Contains(in, "…") {
								t.Errorf("%s: the formula in %s does not have %s: %s", where, what, use, in)
							}
						}
					}
				}
				for _, m := range needing.FindAllStringSubmatch(c.Code, -1) {
					found++
					if !slices.ContainsFunc(requirements, func(r []string) bool { return r[0] == m[2] && r[len(r)-1] == c.Result.Label }) {
						t.Errorf("%s: %q is not in the table of requirements", c.Result.Label, m[2])
					}
					if !strings.Contains(cell.words(), m[2]) || !strings.Contains(letters(inMarkdown), letters(m[2])) {
						t.Errorf("%s: %q is not in the working", c.Result.Label, m[2])
					}
				}
				for _, m := range parting.FindAllStringSubmatch(c.Code, -1) {
					found++
					if !slices.ContainsFunc(parts, func(r []string) bool { return r[0] == m[1] && r[2] != "" }) {
						t.Errorf("%s: %s is not in the table of parts", c.Result.Label, m[1])
					}
				}
				want := len(drawing.FindAllString(c.Code, -1))
				if got := len(cell.all("figure")); got < want || got != strings.Count(inMarkdown, "\n![") {
					t.Errorf("%s: %d figures in the page, %d in Markdown, %d in the cell", c.Result.Label, got, strings.Count(inMarkdown, "\n!["), want)
				}
			}
			if found < 5 || len(requirements) == 0 {
				t.Errorf("only %d formulas and requirements found: the patterns of this test are wrong", found)
			}
			for name := range files {
				if !strings.Contains(md, "(<files/"+name+">)") {
					t.Errorf("%s is beside the document, which does not show it", name)
				}
			}
			for _, m := range regexp.MustCompile(`\]\(#([^)]*)\)`).FindAllStringSubmatch(md, -1) {
				if strings.Count(md, `<a id="`+m[1]+`"></a>`) != 1 {
					t.Errorf("the link to %s leads nowhere in Markdown", m[1])
				}
			}
		})
	}
}

// checkForeign fails where a page leads to an address that does not stand in
// the text of its note.
func checkForeign(t *testing.T, page *element, text string) {
	t.Helper()
	for _, a := range page.all("a") {
		if href := a.attrs["href"]; !strings.HasPrefix(href, "#") && !strings.Contains(text, href) {
			t.Errorf("a link to %s, which the note does not have", href)
		}
	}
}

// table is the rows of the table of a section, without the headings.
func table(page *element, id string) (rows [][]string) {
	for _, s := range page.all("section") {
		if s.attrs["id"] != id {
			continue
		}
		for _, tr := range s.all("tr")[1:] {
			if tr.is("group") { // the note that the rows below it are of
				continue
			}
			var row []string
			for _, x := range tr.inside {
				row = append(row, x.words())
			}
			rows = append(rows, row)
		}
	}
	return rows
}

func cellOf(page *element, id string) *element {
	for _, d := range page.all("div") {
		if d.attrs["id"] == id {
			return d
		}
	}
	return nil
}

// entryOf is the rows of a name: that of the result and the lines below it.
func entryOf(cell *element, name string) *element {
	var rows []*element
	for _, tr := range cell.all("tr") {
		switch {
		case tr.is("ow-entry") && letters(tr.inside[0].words()) == letters(name):
			rows = []*element{tr}
		case tr.is("ow-entry") || tr.is("ow-requirement"):
			if rows != nil {
				return &element{inside: rows}
			}
		case rows != nil:
			rows = append(rows, tr)
		}
	}
	if rows == nil {
		return nil
	}
	return &element{inside: rows}
}

// lineOf is what a line of a label says.
func lineOf(entry *element, label string) *element {
	for _, tr := range entry.inside {
		if len(tr.inside) == 3 && tr.inside[1].is("ow-label") && tr.inside[1].words() == label {
			return tr.inside[2]
		}
	}
	return nil
}

// markdownEntry is the item of a name and those below it.
func markdownEntry(text, name string) (lines []string) {
	for line := range strings.Lines(text) {
		start, _, _ := strings.Cut(strings.TrimPrefix(line, "- "), " ")
		switch {
		case strings.HasPrefix(line, "- ") && letters(start) == letters(name):
			lines = []string{line}
		case lines != nil && !strings.HasPrefix(line, "  "):
			return lines
		case lines != nil:
			lines = append(lines, line)
		}
	}
	return lines
}

func between(s, from, to string) string {
	_, s, _ = strings.Cut(s, from)
	s, _, _ = strings.Cut(s, to)
	return s
}

// outsideStrings is code without its texts.
func outsideStrings(code string) (out string) {
	for i, s := range strings.Split(code, `"`) {
		if i%2 == 0 {
			out += s + " "
		}
	}
	return out
}

var (
	greek = strings.NewReplacer(`\alpha`, "α", `\beta`, "β", `\gamma`, "γ", `\Delta`, "Δ", `\delta`, "δ", `\eta`, "η", `\theta`, "θ", `\vartheta`, "ϑ",
		`\lambda`, "λ", `\mu`, "μ", `\pi`, "π", `\rho`, "ρ", `\sigma`, "σ", `\tau`, "τ", `\varphi`, "φ", `\phi`, "ϕ", `\omega`, "ω", `\Omega`, "Ω", `\epsilon`, "ϵ", `\varepsilon`, "ε")
	commands = regexp.MustCompile(`\\[a-zA-Z]+`)
	others   = regexp.MustCompile(`[^\pL\d]`)
)

// letters is what a name or formula is made of, however it is typeset.
func letters(s string) string {
	return others.ReplaceAllString(commands.ReplaceAllString(greek.Replace(s), ""), "")
}

// Two notes that point to each other: ids stand once in the whole page, and
// every link of it leads somewhere.
func TestDesignOfTwoNotes(t *testing.T) {
	t.Parallel()
	folder := filepath.Join("..", "ohmwright", "testdata", "report", "design")
	d := &Design{Notes: []*Note{noteAt(t, filepath.Join(folder, "10-supply.ipynb")), noteAt(t, filepath.Join(folder, "20-driver.ipynb"))}}
	html, err := NewDocument(d, "", "0").HTML()
	if err != nil {
		t.Fatal(err)
	}
	page, err := readPage(html)
	if err != nil {
		t.Fatal(err)
	}
	if err := checkLinks(page); err != nil {
		t.Error(err)
	}
	var leads []string
	for _, a := range page.all("a") {
		if p := a.within("p"); p != nil {
			leads = append(leads, a.words()+" → "+a.attrs["href"])
		}
	}
	want := []string{"the driver → #note-2", "the divider below → #note-1-heading-1", "the SI brochure → https://www.bipm.org/en/publications/si-brochure"}
	if !slices.Equal(leads, want) {
		t.Errorf("links of the text are %q, want %q", leads, want)
	}
}
