package report

import (
	"bytes"
	"cmp"
	"fmt"
	"net/url"
	"runtime"
	"strings"

	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
)

// Markdown sets the document for a code host: tables as those read them,
// mathematics between dollar signs. Code hosts show no picture that stands in
// the text itself, so pictures are files of their own in a folder of this name,
// given back with their content.
func (d *Document) Markdown(folder string) (string, map[string][]byte) {
	w := &markdownWriter{folder: folder, pictures: map[string][]byte{}}
	w.line("# " + render.MarkdownText(d.Title))
	w.line(render.MarkdownText(d.Kind()))
	w.line("**" + render.MarkdownText(d.Verdict()) + "**")
	for _, s := range d.State {
		w.line(render.MarkdownText(s))
	}
	if len(d.Failures)+len(d.Unread) > 0 {
		w.line("## Failures")
		for _, s := range d.Unread {
			w.item(s)
		}
		for _, f := range d.Failures {
			w.item(link(f.Place) + ": " + render.MarkdownText(f.Text))
		}
		w.line("")
	}
	if len(d.Missed) > 0 {
		w.line("## What fails")
		for _, m := range d.Missed {
			w.item(render.MarkdownBlock(m.What+": "+m.How) + at(m.Place))
		}
		w.line("")
	}
	var rows [][]string
	for _, q := range d.Requirements {
		rows = append(rows, row(q.Place, q.Words(), q.Verdict()+behind(": ", q.Waived), q.Nominally(), q.Worstly(), q.Case(), q.About()))
	}
	w.table("Requirements", []string{"What must hold", "Verdict", "Nominal margin", "Worst margin", "Worst where", "Description", "Working"}, rows)
	w.cases(d)
	rows = nil
	for _, in := range d.Inputs {
		rows = append(rows, row(in.Place, in.Name, in.Value, in.Limits, in.About+behind(" Because: ", in.Reason), cmp.Or(in.Source, "none")))
	}
	w.table("Inputs", []string{"Name", "Value", "Limits", "Description", "Source", "Working"}, rows)
	unsourced := d.Unsourced()
	if len(d.Assumptions)+len(unsourced) > 0 {
		w.line("## Assumptions")
	}
	if len(d.Assumptions) > 0 {
		w.line("These inputs are assumed, or nobody says where they come from.")
		for _, in := range d.Assumptions {
			limits := behind(" (", in.Limits) + strings.Repeat(")", min(1, len(in.Limits)))
			w.item(render.MarkdownBlock(in.Name+" "+in.Value+limits+behind(", ", in.About)+": "+cmp.Or(in.Source, "no source")+behind(". ", in.Reason)) + at(in.Place))
		}
		w.line("")
	}
	for _, u := range unsourced {
		var list []string
		for _, q := range u.Requirements {
			list = append(list, render.MarkdownText(q.Words())+at(q.Place))
		}
		w.line(strings.TrimSpace(u.What + " " + strings.Join(list, "; ")))
	}
	w.line("## Working")
	for _, c := range d.Notes {
		w.chapter(c, len(d.Notes) > 1)
	}
	rows = nil
	for _, p := range d.Parts {
		rows = append(rows, row(p.Place, p.Reference, p.Name, p.Value, p.Limits, p.Rule+" "+p.Series, p.Ideal, p.Deviation, p.Stress, p.About+behind(" Because: ", p.Reason)))
	}
	w.table("Chosen parts", []string{"Reference", "Name", "Value", "Limits", "Choice", "Ideal", "Deviation", "Stress", "Description", "Working"}, rows)
	if len(d.Cautions) > 0 {
		w.line("## Cautions")
		w.line("What the documentation of the functions says that this design uses.")
		for _, c := range d.Cautions {
			w.item(render.MarkdownBlock(c.Function+": "+c.Text) + at(c.Places...))
		}
		w.line("")
	}
	rows = nil
	for _, f := range d.Files {
		rows = append(rows, []string{render.MarkdownText(f.Name), f.Hash})
	}
	w.table("Files", []string{"File", "SHA-256"}, rows)
	w.line(render.MarkdownText(d.Running()) + "; computed by Ohmwright " + d.Version + ", " + runtime.Version() + ".")
	return strings.TrimRight(render.Visible(w.b.String()), "\n") + "\n", w.pictures
}

// cases is the table of requirements against operating cases.
func (w *markdownWriter) cases(d *Document) {
	if len(d.CaseRows) == 0 {
		return
	}
	head := []string{"What must hold", "As designed"}
	for _, name := range d.CaseNames {
		head = append(head, render.MarkdownText(name))
	}
	var rows [][]string
	for _, r := range d.CasesShown() {
		cells := []string{r.Words()}
		for _, c := range r.In {
			cells = append(cells, c.Text)
		}
		rows = append(rows, row(r.Place, cells...))
	}
	w.table("Operating cases", append(head, "Working"), rows)
	if text := d.Caseless(); text != "" {
		w.line(render.MarkdownText(text) + ".")
	}
	for _, o := range d.OperatingCases {
		w.item(render.MarkdownBlock(o.Name+": "+o.Inputs()+", "+o.Verdict()) + at(o.Place))
	}
	w.line("")
}

func behind(words, s string) string {
	if s == "" {
		return ""
	}
	return words + s
}

// row escapes the cells of a row; the last leads to the working.
func row(p Place, cells ...string) []string {
	for i, s := range cells {
		cells[i] = render.MarkdownText(s)
	}
	return append(cells, link(p))
}

func link(p Place) string { return "[" + render.MarkdownText(p.Where()) + "](#" + p.ID + ")" }

// at is the places behind an item of a list.
func at(places ...Place) string {
	var links []string
	for _, p := range places {
		links = append(links, link(p))
	}
	return " (" + strings.Join(links, "; ") + ")"
}

type markdownWriter struct {
	b        strings.Builder
	folder   string
	pictures map[string][]byte
}

func (w *markdownWriter) line(s string) {
	w.b.WriteString(s + "\n")
	if s != "" {
		w.b.WriteString("\n")
	}
}

func (w *markdownWriter) item(s string) { w.b.WriteString("- " + s + "\n") }

func (w *markdownWriter) table(title string, head []string, rows [][]string) {
	if len(rows) == 0 {
		return
	}
	w.line("## " + title)
	w.b.WriteString("| " + strings.Join(head, " | ") + " |\n|" + strings.Repeat(" --- |", len(head)) + "\n")
	for _, row := range rows {
		for _, s := range row {
			w.b.WriteString("| " + s + " ")
		}
		w.b.WriteString("|\n")
	}
	w.b.WriteString("\n")
}

func (w *markdownWriter) chapter(c *Chapter, several bool) {
	deeper := 1
	switch {
	case !several && c.document.linked[c.ID]:
		w.line(anchor(c.ID))
	case several:
		w.line("### " + anchor(c.ID) + render.MarkdownText(c.Title))
		deeper = 2
	}
	next, number := 0, 0
	for i, x := range c.Cells {
		if x.Result == nil {
			w.line(w.text(c, x, fmt.Sprintf("%s-%d", c.ID, i+1), deeper, &next))
			continue
		}
		w.line(anchor(c.cellID(number)))
		number++
		if x.Result.State != note.Done {
			w.line("```\n" + strings.ReplaceAll(strings.TrimRight(render.ErrorText(x.Result.Errors, x.Code), "\n"), "```", "'''") + "\n```")
			continue
		}
		for k, items := range render.Displays(x.Result.Items) {
			if p, ok := items[0].(*note.Prose); ok {
				for j := range items {
					p = items[j].(*note.Prose)
					w.line(w.text(c, Cell{Markdown: p.Text, shown: p}, fmt.Sprintf("%s-%d-%d-%d", c.ID, i+1, k+1, j+1), deeper, nil))
				}
				continue
			}
			w.line(strings.TrimSpace(render.Markdown(items)))
		}
		for k, it := range x.Result.Items {
			b := render.PictureBundle(it)
			if svg := b["image/svg+xml"]; svg != "" {
				w.picture(fmt.Sprintf("%s-%d-%d.svg", c.ID, i+1, k+1), []byte(svg), pictureName(b))
			} else if b != nil {
				w.line("*" + render.MarkdownText(pictureName(b)) + "*")
			}
		}
	}
}

// anchor is where links of the document lead.
func anchor(id string) string { return `<a id="` + id + `"></a>` }

// picture is a picture of our own, in a file of its own.
func (w *markdownWriter) picture(name string, data []byte, alt string) {
	w.line(w.shown(name, data, alt))
}

// file gives a picture of a text cell a file: a number behind the cell.
func (w *markdownWriter) file(id string, p picture, alt string) string {
	for n := 1; ; n++ {
		name := fmt.Sprintf("%s-picture-%d.%s", id, n, p.ending())
		if data, taken := w.pictures[name]; !taken || bytes.Equal(data, p.data) {
			return w.shown(name, p.data, alt)
		}
	}
}

// address is where a file beside the document is.
func (w *markdownWriter) address(name string) string {
	return (&url.URL{Path: w.folder + "/" + name}).String()
}

func (w *markdownWriter) shown(name string, data []byte, alt string) string {
	w.pictures[name] = data
	return "![" + render.MarkdownText(alt) + "](<" + w.address(name) + ">)"
}
