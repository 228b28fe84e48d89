package report

import (
	"html/template"
	"regexp"
	"strings"

	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
)

// HTML sets changes as a page of its own that needs no script and nothing from
// outside, with the workings of both versions beside each other.
func HTML(c *Changes) (string, error) {
	var page struct {
		Notes []sides
	}
	for _, n := range c.Notes {
		s := sides{NoteChanges: n}
		s.Workings = n.workings()
		page.Notes = append(page.Notes, s)
	}
	var b strings.Builder
	err := sidesPage.Execute(&b, page)
	return b.String(), err
}

// sides is a note with what is drawn of it.
type sides struct {
	*NoteChanges
	Workings []working
}

// working is how a name was computed in both versions.
type working struct {
	Name     string
	Was, Now template.HTML
}

// workings draws the entries of the names that moved.
func (n *NoteChanges) workings() (list []working) {
	if n.old == nil || n.now == nil {
		return nil
	}
	was := map[string]string{} // by the name that it has now
	for _, r := range n.Renamed {
		was[r.Now] = r.Was
	}
	_, at := names(n.old)
	_, in := names(n.now)
	seen := map[string]bool{}
	for _, v := range append(append([]ValueChange{}, n.Inputs...), n.Results...) {
		if seen[v.root] {
			continue
		}
		seen[v.root] = true
		w := working{Name: v.root}
		if x := in[v.root]; x != nil {
			w.Now = drawn(x.entry)
		}
		old := v.root
		if o := was[v.root]; o != "" {
			old = o
		}
		if o := at[old]; o != nil {
			w.Was = drawn(o.entry)
		}
		list = append(list, w)
	}
	return list
}

// numbered is a number and what stands behind it.
var numbered = regexp.MustCompile(`([0-9]) ([^0-9 …(])`)

// firm keeps numbers with their units on one line.
func firm(s string) string { return numbered.ReplaceAllString(s, "$1\u00a0$2") }

// drawn is HTML of render, which escapes what users wrote.
func drawn(e *note.Entry) template.HTML {
	shown := *e
	shown.Quiet = false
	return template.HTML(render.HTML([]note.Item{&shown}, render.MathML))
}

var sidesPage = template.Must(template.New("changes").Funcs(template.FuncMap{"firm": firm}).Parse(`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>What changed</title>
<style>
:root { color-scheme: light dark; }
body { font: 1rem/1.5 system-ui, sans-serif; max-width: 75rem; margin: 2rem auto; padding: 0 1rem; }
h1 { font-size: 1.5rem; } h2 { font-size: 1.25rem; } h3 { font-size: 1.05rem; margin-bottom: .3rem; }
table { border-collapse: collapse; } td, th { padding: .15rem .9rem .15rem 0; text-align: left; vertical-align: top; }
.sides { table-layout: fixed; width: 100%; } .sides > tbody > tr > td { width: 50%; border-top: 1px solid; padding: .5rem 1rem .5rem 0; overflow-wrap: break-word; }
.sides table { max-width: 100%; } .ow-value, .ow-limits, .ow-name, .ow-label { white-space: nowrap; }
del { text-decoration: line-through; } ins { text-decoration: underline; font-weight: bold; }
@media print { body { margin: 0; } .sides > tbody > tr { break-inside: avoid; } }
</style>
</head>
<body>
<main>
<h1>What changed</h1>
{{- if not .Notes}}
<p>Nothing that a board could show, and no text.</p>
{{- end}}
{{- range .Notes}}
<h2>{{.Note}}{{if .Presence}}: the note is {{.Presence}}{{end}}{{if .Was}}, was {{.Was}}{{end}}</h2>
{{- if .Requirements}}
<h3>Requirements</h3>
<table><thead><tr><th scope="col">What must hold</th><th scope="col">Was</th><th scope="col">Is</th></tr></thead><tbody>
{{- range .Requirements}}
<tr><td>{{if .Flipped}}<strong>{{.Text}}</strong>{{else}}{{.Text}}{{end}}{{if .Needs}}<br>needs {{.Needs}}; before it was {{.Needed}}{{end}}</td><td>{{if .Was}}{{firm .Was}}{{else}}–{{end}}</td><td>{{if .Now}}{{firm .Now}}{{else}}–{{end}}</td></tr>
{{- end}}
</tbody></table>
{{- end}}
{{- if .Inputs}}
<h3>Inputs</h3>
{{template "values" .Inputs}}
{{- end}}
{{- if .Results}}
<h3>Results, what is needed first above</h3>
{{template "values" .Results}}
{{- end}}
{{- if .Workings}}
<h3>Workings</h3>
<table class="sides"><thead><tr><th scope="col">Before</th><th scope="col">Now</th></tr></thead><tbody>
{{- range .Workings}}
<tr><td>{{if .Was}}{{.Was}}{{else}}–{{end}}</td><td>{{if .Now}}{{.Now}}{{else}}–{{end}}</td></tr>
{{- end}}
</tbody></table>
{{- end}}
{{- if .Parts}}
<h3>Parts of the schematic</h3>
<table><tbody>{{range .Parts}}<tr><td>{{.Reference}}</td><td>{{if .Was}}{{.Was}}{{else}}–{{end}}</td><td>{{if .Now}}{{.Now}}{{else}}–{{end}}</td></tr>{{end}}</tbody></table>
{{- end}}
{{- if .Renamed}}
<h3>Other names for the same</h3>
<ul>{{range .Renamed}}<li>{{.Was}} is {{.Now}} now</li>{{end}}</ul>
{{- end}}
{{- if .Rewritten}}
<h3>Computed in another way, with the same result</h3>
<table><tbody>{{range .Rewritten}}<tr><td>{{.Name}}</td><td>{{.Was}}</td><td>{{.Now}}</td></tr>{{end}}</tbody></table>
{{- end}}
{{- if .Said}}
<h3>Said otherwise</h3>
<ul>{{range .Said}}<li>{{.What}} of {{.Name}}: <ins>{{.Now}}</ins> <del>{{.Was}}</del></li>{{end}}</ul>
{{- end}}
{{- if .Prose}}
<h3>Text</h3>
{{- range .Prose}}
<p>{{range .Words}}{{if eq .Kind "gone"}}<del>{{.Text}}</del>{{else if eq .Kind "new"}}<ins>{{.Text}}</ins>{{else}}{{.Text}}{{end}} {{end}}</p>
{{- end}}
{{- end}}
{{- if .Errors}}
<h3>Cells that fail now</h3>
<ul>{{range .Errors}}<li>{{.}}</li>{{end}}</ul>
{{- end}}
{{- if .Mended}}
<h3>Cells that failed before</h3>
<ul>{{range .Mended}}<li>{{.}}</li>{{end}}</ul>
{{- end}}
{{- end}}
</main>
</body>
</html>
{{define "values"}}<table><thead><tr><th scope="col">Name</th><th scope="col">Was</th><th scope="col">Is</th><th scope="col">Change</th><th scope="col">Because of</th></tr></thead><tbody>
{{- range .}}
<tr><td>{{.Name}}</td><td>{{if .Was}}{{firm .Was}}{{else}}–{{end}}</td><td>{{if .Now}}{{firm .Now}}{{else}}–{{end}}</td><td>{{if not .Was}}added{{else if not .Now}}removed{{else}}{{.Change}}{{end}}{{if .Part}}, a chosen part{{end}}</td><td>{{range $i, $n := .Because}}{{if $i}}, {{end}}{{$n}}{{end}}</td></tr>
{{- end}}
</tbody></table>{{end}}`))
