package report

import (
	"fmt"
	"html"
	"html/template"
	"runtime"
	"strings"

	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
)

// HTML sets the document as a page that needs no script and loads nothing.
func (d *Document) HTML() (string, error) {
	page := struct {
		*Document
		Missed   []Requirement
		Chapters []chapterHTML
		Go       string
		Several  bool
		Style    template.CSS
	}{Document: d, Missed: d.missed(), Go: runtime.Version(), Several: len(d.Notes) > 1, Style: template.CSS(documentStyle)}
	for _, c := range d.Notes {
		body, err := c.html(page.Several)
		if err != nil {
			return "", fmt.Errorf("%s: %w", c.Path, err)
		}
		page.Chapters = append(page.Chapters, chapterHTML{c, template.HTML(body)})
	}
	var b strings.Builder
	err := documentPage.Execute(&b, page)
	return b.String(), err
}

type chapterHTML struct {
	*Chapter
	Body template.HTML // of our own writers, which escape what users wrote
}

// html sets the working of a note: its text, and what its cells came to.
func (c *Chapter) html(several bool) (string, error) {
	base := 3
	if several {
		base = 4
	}
	s := setter{base: base, last: base - 1, values: render.ValuesOf(c.Results)}
	var b strings.Builder
	number := 0
	for _, x := range c.Cells {
		if x.Result == nil {
			text, err := s.HTML(x)
			if err != nil {
				return "", err
			}
			b.WriteString(text)
			continue
		}
		fmt.Fprintf(&b, `<div class="cell" role="group" tabindex="0" aria-label="%s" id="%s">`+"\n", html.EscapeString(x.Result.Label), c.cellID(number))
		number++
		if x.Result.State != note.Done {
			b.WriteString(tidy(render.ErrorHTML(x.Result.Errors, x.Code)))
		} else if err := s.items(&b, x.Result.Items); err != nil {
			return "", err
		}
		b.WriteString("</div>\n")
	}
	return b.String(), nil
}

// items sets what a cell shows, with each picture behind what it belongs to.
func (s *setter) items(b *strings.Builder, list []note.Item) error {
	from := 0
	for i, it := range list {
		if p, ok := it.(*note.Prose); ok {
			b.WriteString(tidy(render.HTML(list[from:i], render.MathML)))
			from = i + 1
			text, err := s.text(render.Prose(p), nil, new(true))
			if err != nil {
				return err
			}
			b.WriteString(text)
			continue
		}
		picture := render.PictureBundle(it)["image/svg+xml"]
		if picture == "" {
			continue
		}
		b.WriteString(tidy(render.HTML(list[from:i+1], render.MathML)))
		from = i + 1
		svg, err := inline(picture, strings.TrimSpace(strings.TrimPrefix(render.PictureBundle(it)["text/plain"], "picture: ")))
		if err != nil {
			return err
		}
		b.WriteString("<figure>" + svg + "</figure>\n")
	}
	b.WriteString(tidy(render.HTML(list[from:], render.MathML)))
	return nil
}

// tidy writes void elements as HTML does. What users wrote is escaped there.
func tidy(s string) string {
	return strings.NewReplacer("<br/>", "<br>", "/>", "></mspace>").Replace(s)
}

// inline makes a picture part of a page: without XML's head, with a title.
func inline(svg, title string) (string, error) {
	start := strings.Index(svg, "<svg")
	end := -1
	if start >= 0 {
		end = strings.IndexByte(svg[start:], '>')
	}
	if end < 0 {
		return "", fmt.Errorf("a picture is no SVG: %.40q", svg)
	}
	head := svg[start+len("<svg") : start+end]
	if !strings.Contains(head, "role=") {
		head = ` role="img"` + head
	}
	if strings.Contains(svg, "<title>") { // it says itself what it shows
		return "<svg" + svg[start+len("<svg"):], nil
	}
	return "<svg" + head + "><title>" + html.EscapeString(title) + "</title>" + strings.TrimSpace(svg[start+end+1:]), nil
}

const documentStyle = `
:root { color-scheme: light dark; --text: #1a1a1a; --soft: #555; --line: #bbb; --back: #fff; --fail: #9b1c1c; }
@media (prefers-color-scheme: dark) { :root { --text: #e6e6e6; --soft: #aaa; --line: #555; --back: #161616; --fail: #ff9b93; } }
* { box-sizing: border-box; }
body { margin: 0; background: var(--back); color: var(--text); font: 1rem/1.5 "Liberation Sans", Arial, sans-serif; }
header, main, footer { max-width: 62rem; margin: 0 auto; padding: 0 1.25rem; }
h1 { font-size: 1.9rem; line-height: 1.2; margin: 2.2rem 0 1rem; }
h2 { font-size: 1.35rem; margin: 2.4rem 0 .6rem; border-bottom: 1px solid var(--line); padding-bottom: .2rem; }
h3 { font-size: 1.15rem; margin: 1.8rem 0 .4rem; } h4, h5, h6 { font-size: 1rem; margin: 1.4rem 0 .3rem; }
p, ul, ol { max-width: 46rem; }
a { color: inherit; text-underline-offset: .15em; }
.verdict { font-size: 1.15rem; font-weight: bold; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; }
caption { text-align: left; color: var(--soft); padding: .2rem 0; }
th, td { text-align: left; vertical-align: top; padding: .25rem 1.1rem .25rem 0; }
.list th, .list td { border-bottom: 1px solid var(--line); }
.list { width: 100%; } .list tbody th { font-weight: bold; }
.value { white-space: nowrap; }
.fails, .ow-fails b { color: var(--fail); font-weight: bold; }
.cell { margin: .8rem 0 1.2rem; overflow-x: auto; }
.ow-items { margin: .3rem 0; } .ow-items td { padding-top: .12rem; padding-bottom: .12rem; }
.ow-limits, .ow-value { white-space: nowrap; }
.ow-source, .ow-label, .ow-limits, .reason { color: var(--soft); }
.ow-notice { color: var(--soft); font-style: italic; }
math { font-size: 1.05em; }
pre { overflow-x: auto; white-space: pre-wrap; overflow-wrap: anywhere; }
figure { margin: 1rem 0; } svg, img { max-width: 100%; height: auto; }
blockquote { margin: 1rem 0; padding-left: 1rem; border-left: 2px solid var(--line); }
footer { margin-top: 3rem; margin-bottom: 2rem; border-top: 1px solid var(--line); color: var(--soft); font-size: .85rem; }
footer td, footer th { overflow-wrap: anywhere; padding-top: 0; padding-bottom: 0; font-weight: normal; }
@media (max-width: 40rem) { .value, .ow-limits, .ow-value { white-space: normal; } td, th { padding-right: .6rem; } h1 { font-size: 1.5rem; } }
@page { size: A4; margin: 18mm 16mm 20mm; }
@media print {
  :root { color-scheme: light; --text: #000; --soft: #444; --line: #999; --back: #fff; --fail: #9b1c1c; }
  body { font-size: 9.5pt; line-height: 1.4; } header, main, footer { max-width: none; padding: 0; }
  h1 { font-size: 18pt; margin-top: 0; } h2 { font-size: 13pt; } h3 { font-size: 11pt; }
  h1, h2, h3, h4, h5, h6, caption { break-after: avoid; } tr, figure, .ow-items tbody, li { break-inside: avoid; }
  thead { display: table-header-group; } p { orphans: 3; widows: 3; }
  .wide, .cell { overflow: visible; } .chapter + .chapter { break-before: page; }
  .list { font-size: 8.5pt; } .cell td { padding-right: .7rem; } .value { white-space: normal; }
  figure svg { width: 130mm; } a { text-decoration: none; }
  details > * { display: block; } details::details-content { content-visibility: visible; display: block; }
}
`

var documentPage = template.Must(template.New("document").Parse(`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{{.Title}}</title>
<style>{{.Style}}</style>
</head>
<body>
<header>
<h1>{{.Title}}</h1>
</header>
<main>
<p class="verdict{{if .Fails}} fails{{end}}">{{.Verdict}}</p>
{{- if .Failures}}
<section id="failures">
<h2>Failures</h2>
<ul>
{{- range .Failures}}
<li>{{template "place" .Place}}: {{.Text}}</li>
{{- end}}
</ul>
</section>
{{- end}}
{{- if .Missed}}
<section id="missed">
<h2>What fails</h2>
<ul>
{{- range .Missed}}
<li><span class="fails">{{.Text}}</span>: {{.Verdict}}{{with .Nominally}}, nominal margin {{.}}{{end}}{{with .Worstly}}, worst {{.}}{{end}}{{with .Case}} at {{.}}{{end}} ({{template "place" .Place}})</li>
{{- end}}
</ul>
</section>
{{- end}}
{{- if .Requirements}}
<section id="requirements">
<h2>Requirements</h2>
<section class="wide" tabindex="0" aria-label="table of requirements">
<table class="list">
<caption>Margins are the distance to the limit; the worst is that of all cases.</caption>
<thead><tr><th scope="col">What must hold</th><th scope="col">Verdict</th><th scope="col">Nominal margin</th><th scope="col">Worst margin</th><th scope="col">Worst case</th><th scope="col">Working</th></tr></thead>
<tbody>
{{- range .Requirements}}
<tr><th scope="row">{{.Text}}</th><td{{if not .Holds}} class="fails"{{end}}>{{.Verdict}}</td><td class="value">{{.Nominally}}</td><td class="value">{{.Worstly}}</td><td>{{.Case}}</td><td>{{template "place" .Place}}</td></tr>
{{- end}}
</tbody>
</table>
</section>
</section>
{{- end}}
{{- if .Inputs}}
<section id="inputs">
<h2>Inputs</h2>
<section class="wide" tabindex="0" aria-label="table of inputs">
<table class="list">
<caption>What the design was given.</caption>
<thead><tr><th scope="col">Name</th><th scope="col">Value</th><th scope="col">Limits</th><th scope="col">Description</th><th scope="col">Source</th><th scope="col">Working</th></tr></thead>
<tbody>
{{- range .Inputs}}
<tr><th scope="row">{{.Name}}</th><td class="value">{{.Value}}</td><td class="value">{{.Limits}}</td><td>{{.About}}{{with .Reason}} <span class="reason">Because: {{.}}</span>{{end}}</td><td>{{if .Source}}{{.Source}}{{else}}none{{end}}</td><td>{{template "place" .Place}}</td></tr>
{{- end}}
</tbody>
</table>
</section>
</section>
{{- end}}
{{- if .Assumptions}}
<section id="assumptions">
<h2>Assumptions</h2>
<p>These inputs are assumed, or nobody says where they come from.</p>
<ul>
{{- range .Assumptions}}
<li><b>{{.Name}}</b> {{.Value}}{{with .Limits}} ({{.}}){{end}}{{with .About}}, {{.}}{{end}}: {{if .Source}}{{.Source}}{{else}}no source{{end}}{{with .Reason}}. {{.}}{{end}} ({{template "place" .Place}})</li>
{{- end}}
</ul>
</section>
{{- end}}
<section id="working">
<h2>Working</h2>
{{- range .Chapters}}
{{- if $.Several}}
<section class="chapter" id="{{.ID}}">
<h3>{{.Title}}</h3>
{{.Body}}</section>
{{- else}}
{{.Body}}
{{- end}}
{{- end}}
</section>
{{- if .Parts}}
<section id="parts">
<h2>Chosen parts</h2>
<section class="wide" tabindex="0" aria-label="table of chosen parts">
<table class="list">
<caption>Parts of the schematic, and values that were taken from a series.</caption>
<thead><tr><th scope="col">Reference</th><th scope="col">Name</th><th scope="col">Value</th><th scope="col">Limits</th><th scope="col">Choice</th><th scope="col">Ideal</th><th scope="col">Deviation</th><th scope="col">Stress</th><th scope="col">Description</th><th scope="col">Working</th></tr></thead>
<tbody>
{{- range .Parts}}
<tr><th scope="row">{{if .Reference}}{{.Reference}}{{else}}–{{end}}</th><td>{{.Name}}</td><td class="value">{{.Value}}</td><td class="value">{{.Limits}}</td><td>{{.Rule}} {{.Series}}</td><td class="value">{{.Ideal}}</td><td class="value">{{.Deviation}}</td><td>{{.Stress}}</td><td>{{.About}}{{with .Reason}} <span class="reason">Because: {{.}}</span>{{end}}</td><td>{{template "place" .Place}}</td></tr>
{{- end}}
</tbody>
</table>
</section>
</section>
{{- end}}
{{- if .Cautions}}
<section id="cautions">
<h2>Cautions</h2>
<p>What the documentation of the functions says that this design uses.</p>
<ul>
{{- range .Cautions}}
<li><b>{{.Function}}</b>: {{.Text}} ({{range $i, $p := .Places}}{{if $i}}; {{end}}{{template "place" $p}}{{end}})</li>
{{- end}}
</ul>
</section>
{{- end}}
</main>
<footer>
<p>Computed by Ohmwright {{.Version}}, {{.Go}}.</p>
<section class="wide" tabindex="0" aria-label="table of files">
<table>
<caption>What it was computed from</caption>
<thead><tr><th scope="col">File</th><th scope="col">SHA-256</th></tr></thead>
<tbody>
{{- range .Files}}
<tr><th scope="row">{{.Name}}</th><td>{{.Hash}}</td></tr>
{{- end}}
</tbody>
</table>
</section>
</footer>
</body>
</html>
{{define "place"}}<a href="#{{.ID}}">{{.Where}}</a>{{end}}`))
