package report

import (
	"fmt"
	"path"
	"runtime"
	"strings"

	"ohmwright/kernel/note"
	"ohmwright/kernel/prose"
	"ohmwright/kernel/render"
)

// Markdown sets the document for a code host: tables as those read them,
// mathematics between dollar signs. Code hosts show no picture that stands in
// the text itself, so pictures are files of their own in a folder of this name,
// given back with their content.
func (d *Document) Markdown(folder string) (string, map[string][]byte) {
	w := &markdownWriter{folder: folder, pictures: map[string][]byte{}}
	w.line("# " + render.MarkdownText(d.Title))
	w.line("**" + render.MarkdownText(d.Verdict()) + "**")
	if len(d.Failures) > 0 {
		w.line("## Failures")
		for _, f := range d.Failures {
			w.item(f.Place.Where() + ": " + f.Text)
		}
		w.line("")
	}
	if missed := d.missed(); len(missed) > 0 {
		w.line("## What fails")
		for _, q := range missed {
			w.item(q.Text + ": " + q.Verdict() + behind(", nominal margin ", q.Nominally()) + behind(", worst ", q.Worstly()) + behind(" at ", q.Case()) + " (" + q.Place.Where() + ")")
		}
		w.line("")
	}
	var rows [][]string
	for _, q := range d.Requirements {
		rows = append(rows, []string{q.Text, q.Verdict(), q.Nominally(), q.Worstly(), q.Case(), q.Place.Where()})
	}
	w.table("Requirements", []string{"What must hold", "Verdict", "Nominal margin", "Worst margin", "Worst case", "Working"}, rows)
	rows = nil
	for _, in := range d.Inputs {
		rows = append(rows, []string{in.Name, in.Value, in.Limits, in.About + behind(" Because: ", in.Reason), orNone(in.Source), in.Place.Where()})
	}
	w.table("Inputs", []string{"Name", "Value", "Limits", "Description", "Source", "Working"}, rows)
	if len(d.Assumptions) > 0 {
		w.line("## Assumptions")
		w.line("These inputs are assumed, or nobody says where they come from.")
		for _, in := range d.Assumptions {
			w.item(in.Name + " " + in.Value + behind(", ", in.About) + ": " + orNone(in.Source) + " (" + in.Place.Where() + ")")
		}
		w.line("")
	}
	w.line("## Working")
	for _, c := range d.Notes {
		w.chapter(c, len(d.Notes) > 1)
	}
	rows = nil
	for _, p := range d.Parts {
		rows = append(rows, []string{p.Reference, p.Name, p.Value, p.Limits, p.Rule + " " + p.Series, p.Ideal, p.Deviation, p.Stress, p.About + behind(" Because: ", p.Reason), p.Place.Where()})
	}
	w.table("Chosen parts", []string{"Reference", "Name", "Value", "Limits", "Choice", "Ideal", "Deviation", "Stress", "Description", "Working"}, rows)
	if len(d.Cautions) > 0 {
		w.line("## Cautions")
		for _, c := range d.Cautions {
			var places []string
			for _, p := range c.Places {
				places = append(places, p.Where())
			}
			w.item(c.Function + ": " + c.Text + " (" + strings.Join(places, "; ") + ")")
		}
		w.line("")
	}
	rows = nil
	for _, f := range d.Files {
		rows = append(rows, []string{f.Name, f.Hash})
	}
	w.table("Files", []string{"File", "SHA-256"}, rows)
	w.line("Computed by Ohmwright " + d.Version + ", " + runtime.Version() + ".")
	return strings.TrimRight(w.b.String(), "\n") + "\n", w.pictures
}

func behind(words, s string) string {
	if s == "" {
		return ""
	}
	return words + s
}

func orNone(s string) string {
	if s == "" {
		return "none"
	}
	return s
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

func (w *markdownWriter) item(s string) { w.b.WriteString("- " + render.MarkdownText(s) + "\n") }

func (w *markdownWriter) table(title string, head []string, rows [][]string) {
	if len(rows) == 0 {
		return
	}
	w.line("## " + title)
	w.b.WriteString("| " + strings.Join(head, " | ") + " |\n|" + strings.Repeat(" --- |", len(head)) + "\n")
	for _, row := range rows {
		for _, s := range row {
			w.b.WriteString("| " + render.MarkdownText(s) + " ")
		}
		w.b.WriteString("|\n")
	}
	w.b.WriteString("\n")
}

func (w *markdownWriter) chapter(c *Chapter, several bool) {
	values := render.ValuesOf(c.Results)
	deeper := 1
	if several {
		w.line("### " + render.MarkdownText(c.Title))
		deeper = 2
	}
	titled := false
	for i, x := range c.Cells {
		if x.Result == nil {
			source, _ := prose.Replace(x.Markdown, values.Text)
			source = headings(source, deeper, &titled)
			w.line(strings.TrimSpace(w.attached(source, x, fmt.Sprintf("%s-%d", c.ID, i+1))))
			continue
		}
		if x.Result.State != note.Done {
			w.line("```\n" + strings.ReplaceAll(strings.TrimRight(render.ErrorText(x.Result.Errors, x.Code), "\n"), "```", "'''") + "\n```")
			continue
		}
		for _, items := range render.Displays(x.Result.Items) {
			text := render.Markdown(items)
			if _, ok := items[0].(*note.Prose); ok {
				text = headings(text, deeper, new(true))
			}
			w.line(strings.TrimSpace(text))
		}
		for k, it := range x.Result.Items {
			b := render.PictureBundle(it)
			if svg := b["image/svg+xml"]; svg != "" {
				w.picture(fmt.Sprintf("%s-%d-%d.svg", c.ID, i+1, k+1), []byte(svg), strings.TrimSpace(strings.TrimPrefix(b["text/plain"], "picture: ")))
			}
		}
	}
}

func (w *markdownWriter) picture(name string, data []byte, alt string) {
	w.pictures[name] = data
	w.line("![" + render.MarkdownText(alt) + "](<" + path.Join(w.folder, name) + ">)")
}
