package report

import (
	_ "embed"
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
		Chapters []chapterHTML
		Go       string
		Several  bool
		Style    template.CSS

		RequirementByNote []rows[Requirement]
		CaseByNote        []rows[CaseRow]
		InputByNote       []rows[Input]
		PartByNote        []rows[Part]
	}{Document: d, RequirementByNote: byNote(d.Requirements), CaseByNote: byNote(d.CasesShown()), InputByNote: byNote(d.Inputs), PartByNote: byNote(d.Parts),
		Go: runtime.Version(), Several: len(d.Notes) > 1, Style: template.CSS(documentStyle)}
	for _, c := range d.Notes {
		body, err := c.html(page.Several)
		if err != nil {
			return "", fmt.Errorf("%s: %w", c.Path, err)
		}
		page.Chapters = append(page.Chapters, chapterHTML{c, template.HTML(body)})
	}
	var b strings.Builder
	err := documentPage.Execute(&b, page)
	return render.Visible(b.String()), err
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
	s := setter{chapter: c, base: base, last: base - 1}
	var b strings.Builder
	number := 0
	for _, x := range c.Cells {
		if x.Result == nil {
			text, err := s.HTML(x)
			if err != nil {
				return "", err
			}
			b.WriteString(sized(text))
			continue
		}
		var shown strings.Builder
		if x.Result.State != note.Done {
			shown.WriteString(tidy(render.ErrorHTML(x.Result.Errors, x.Code)))
		} else if err := s.items(&shown, x.Result.Items); err != nil {
			return "", err
		}
		box, content := placed(shown.String())
		fmt.Fprintf(&b, `<div %s role="group" tabindex="0" aria-label="%s" id="%s">`+"\n%s</div>\n", box, html.EscapeString(x.Result.Label), c.cellID(number), content)
		number++
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
			text, err := s.HTML(Cell{Markdown: p.Text, shown: p})
			if err != nil {
				return err
			}
			b.WriteString(sized(text))
			continue
		}
		bundle := render.PictureBundle(it)
		if bundle == nil {
			continue
		}
		b.WriteString(tidy(render.HTML(list[from:i+1], render.MathML)))
		from = i + 1
		picture, title := bundle["image/svg+xml"], pictureName(bundle)
		if picture == "" { // and why
			b.WriteString(`<p class="ow-notice">` + html.EscapeString(title) + "</p>\n")
			continue
		}
		svg, err := inline(picture, title)
		if err != nil {
			return err
		}
		b.WriteString("<figure>" + svg + "</figure>\n")
	}
	b.WriteString(tidy(render.HTML(list[from:], render.MathML)))
	return nil
}

// pictureName is what a picture shows, or why it cannot be drawn.
func pictureName(bundle map[string]string) string {
	return strings.TrimSpace(strings.TrimPrefix(bundle["text/plain"], "picture: "))
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

// documentStyle looks at the screen first and at paper below.
//
//go:embed document.css
var documentStyle string

var documentPage = template.Must(template.New("document").Funcs(template.FuncMap{"width": width, "dotted": dotted, "firm": render.FirmUnits, "plus": func(a, b int) int { return a + b }}).Parse(`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{{.Title}}</title>
<style>
{{.Style}}@page { @bottom-left { content: "{{.Running}}"; } }
</style>
</head>
<body>
<header>
<h1>{{.Title}}</h1>
<p class="kind">{{.Kind}}</p>
</header>
<main>
<p class="verdict{{if .Fails}} fails{{end}}">{{.Verdict}}</p>
{{- template "state" .State}}
{{- if or .Unread .Failures}}
<section id="failures">
<h2>Failures</h2>
<ul>
{{- range .Unread}}
<li>{{.}}</li>
{{- end}}
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
<li><span class="fails">{{.What}}</span>: {{firm .How}} ({{template "place" .Place}})</li>
{{- end}}
</ul>
</section>
{{- end}}
{{- if .Several}}
<nav aria-labelledby="contents">
<h2 id="contents">Contents</h2>
<ul class="contents">
{{- if .Requirements}}
<li><a href="#requirements">Requirements</a></li>
{{- end}}
{{- if .CaseRows}}
<li><a href="#cases">Operating cases</a></li>
{{- end}}
{{- if .Inputs}}
<li><a href="#inputs">Inputs</a></li>
{{- end}}
{{- if or .Assumptions .Unsourced}}
<li><a href="#assumptions">Assumptions</a></li>
{{- end}}
<li><a href="#working">Working</a>
<ul>
{{- range .Chapters}}
<li><a href="#{{.ID}}">{{.Title}}</a></li>
{{- end}}
</ul>
</li>
{{- if .Parts}}
<li><a href="#parts">Chosen parts</a></li>
{{- end}}
{{- if .Cautions}}
<li><a href="#cautions">Cautions</a></li>
{{- end}}
<li><a href="#files">What it was computed from</a></li>
</ul>
</nav>
{{- end}}
{{- if .Requirements}}
<section id="requirements">
<h2>Requirements</h2>
<section class="wide" tabindex="0" aria-label="table of requirements">
<table class="list">
<caption>Margins are the distance to what is required; the worst is the least over all limits of inputs and parts.</caption>
<thead><tr><th scope="col">What must hold</th><th scope="col">Verdict</th><th scope="col">Nominal margin</th><th scope="col">Worst margin</th><th scope="col">Worst where</th>{{if .Described}}<th scope="col">Description</th>{{end}}<th scope="col">Working</th></tr></thead>
{{- range .RequirementByNote}}
<tbody>
{{- if $.Several}}
<tr class="group"><th scope="rowgroup" colspan="{{if $.Described}}7{{else}}6{{end}}">{{.Note}}</th></tr>
{{- end}}
{{- range .Rows}}
<tr><th scope="row">{{firm .Words}}</th><td{{if .Misses}} class="fails"{{end}}>{{.Verdict}}{{with .Waived}}: {{.}}{{end}}</td><td class="{{width .Nominally}}">{{.Nominally}}</td><td class="{{width .Worstly}}">{{.Worstly}}</td><td>{{firm .Case}}</td>{{if $.Described}}<td>{{.About}}</td>{{end}}<td>{{template "cell" .Place}}</td></tr>
{{- end}}
</tbody>
{{- end}}
</table>
</section>
</section>
{{- end}}
{{- if .CaseRows}}
<section id="cases"{{if gt (len .CaseNames) 3}} class="turned"{{end}}>
<h2>Operating cases</h2>
<ul>
{{- range .OperatingCases}}
<li><b>{{.Name}}</b>: {{firm .Inputs}}, <span{{if not .Holds}} class="fails"{{end}}>{{.Verdict}}</span> ({{template "place" .Place}})</li>
{{- end}}
</ul>
{{- with .Caseless}}
<p>{{.}}.</p>
{{- end}}
{{- if .CasesShown}}
<section class="wide" tabindex="0" aria-label="table of operating cases">
<table class="list">
<caption>Nominal and worst margins. As designed: the case changes nothing.{{if .Elsewhere}} A dash: the note states no such case.{{end}}</caption>
<thead><tr><th scope="col">What must hold</th><th scope="col">As designed</th>{{range .CaseNames}}<th scope="col">{{.}}</th>{{end}}<th scope="col">Working</th></tr></thead>
{{- range .CaseByNote}}
<tbody>
{{- if $.Several}}
<tr class="group"><th scope="rowgroup" colspan="{{plus 3 (len $.CaseNames)}}">{{.Note}}</th></tr>
{{- end}}
{{- range .Rows}}
<tr><th scope="row">{{firm .Words}}</th>{{range .In}}<td{{if .Misses}} class="fails"{{end}}>{{firm .Text}}</td>{{end}}<td>{{template "cell" .Place}}</td></tr>
{{- end}}
</tbody>
{{- end}}
</table>
</section>
{{- end}}
</section>
{{- end}}
{{- if .Inputs}}
<section id="inputs">
<h2>Inputs</h2>
<section class="wide" tabindex="0" aria-label="table of inputs">
<table class="list">
<caption>What the design was given.</caption>
<thead><tr><th scope="col">Name</th><th scope="col">Value</th><th scope="col">Limits</th><th scope="col">Description</th><th scope="col">Source</th><th scope="col">Working</th></tr></thead>
{{- range .InputByNote}}
<tbody>
{{- if $.Several}}
<tr class="group"><th scope="rowgroup" colspan="6">{{.Note}}</th></tr>
{{- end}}
{{- range .Rows}}
<tr><th scope="row">{{dotted .Name}}</th><td class="{{width .Value}}">{{.Value}}</td><td class="{{width .Limits}}">{{.Limits}}</td><td>{{.About}}{{with .Reason}} <span class="reason">Because: {{.}}</span>{{end}}</td><td>{{if .Source}}{{.Source}}{{else}}none{{end}}</td><td>{{template "cell" .Place}}</td></tr>
{{- end}}
</tbody>
{{- end}}
</table>
</section>
</section>
{{- end}}
{{- if or .Assumptions .Unsourced}}
<section id="assumptions">
<h2>Assumptions</h2>
{{- if .Assumptions}}
<p>These inputs are assumed, or nobody says where they come from.</p>
<ul>
{{- range .Assumptions}}
<li><b>{{.Name}}</b> {{.Value}}{{with .Limits}} ({{.}}){{end}}{{with .About}}, {{.}}{{end}}: {{if .Source}}{{.Source}}{{else}}no source{{end}}{{with .Reason}}. {{.}}{{end}} ({{template "place" .Place}})</li>
{{- end}}
</ul>
{{- end}}
{{- with .Unsourced}}
<ul>
{{- range .}}
<li>{{.What}}{{range $i, $q := .Requirements}}{{if $i}}; {{else}} {{end}}{{firm $q.Words}} ({{template "place" $q.Place}}){{end}}</li>
{{- end}}
</ul>
{{- end}}
</section>
{{- end}}
<section id="working">
<h2>Working</h2>
{{- range .Chapters}}
<section class="chapter" id="{{.ID}}">
{{- if $.Several}}
<h3>{{.Title}}</h3>
{{- end}}
{{.Body}}</section>
{{- end}}
</section>
{{- if .Parts}}
<section id="parts" class="turned">
<h2>Chosen parts</h2>
<section class="wide" tabindex="0" aria-label="table of chosen parts">
<table class="list">
<caption>Parts of the schematic, and values that were taken from a series.</caption>
<thead><tr><th scope="col">Reference</th><th scope="col">Name</th><th scope="col">Value</th><th scope="col">Limits</th><th scope="col">Choice</th><th scope="col">Ideal</th><th scope="col">Deviation</th><th scope="col">Stress</th><th scope="col">Description</th><th scope="col">Working</th></tr></thead>
{{- range .PartByNote}}
<tbody>
{{- if $.Several}}
<tr class="group"><th scope="rowgroup" colspan="10">{{.Note}}</th></tr>
{{- end}}
{{- range .Rows}}
<tr><th scope="row">{{if .Reference}}{{.Reference}}{{else}}–{{end}}</th><td>{{dotted .Name}}</td><td class="{{width .Value}}">{{.Value}}</td><td class="{{width .Limits}}">{{.Limits}}</td><td>{{.Rule}} {{.Series}}</td><td class="{{width .Ideal}}">{{.Ideal}}</td><td class="{{width .Deviation}}">{{.Deviation}}</td><td>{{firm .Stress}}</td><td>{{.About}}{{with .Reason}} <span class="reason">Because: {{.}}</span>{{end}}</td><td>{{template "cell" .Place}}</td></tr>
{{- end}}
</tbody>
{{- end}}
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
<footer id="files">
{{- template "state" .State}}
<p>{{.Running}}; computed by Ohmwright {{.Version}}, {{.Go}}.</p>
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
{{define "place"}}<a href="#{{.ID}}">{{.Where}}</a>{{end}}
{{- define "cell"}}<a href="#{{.ID}}">{{.Cell}}</a>{{end}}
{{- define "state"}}{{range .}}
<p class="state">{{.}}</p>
{{- end}}{{end}}`))
