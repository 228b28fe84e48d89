package jupyter

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
)

// A page is a model of a notebook in a front end: what each cell shows, after
// the rules that were measured of nbclient 0.7.2 and the classic notebook 6.4.12
// (no cell ids) and JupyterLab 4.6.4 (ids, and which cells were deleted):
//
//   - an execution clears the outputs of its cell, and their display ids are dead;
//   - an update replaces every display of its id, wherever it stands, in this page;
//   - error, stream and (in JupyterLab) execute_result are never replaced;
//   - a page that was loaded again shows what it showed and knows no id any more.
type page struct {
	engine  *Engine
	ids     bool
	session int
	cells   []*pageCell
	deleted []string
	count   int
	running *pageCell
	known   map[string]bool // display ids of this session
	next    int
	told    map[string]bool // cells named in notices of this session
	faults  []string
}

type pageCell struct {
	id, source string
	ran        string // the text that was executed last, "" if none was
	label      string
	session    int
	outputs    []*pageOutput
}

type pageOutput struct{ kind, id, text string }

func newPage(ids bool) (*page, error) {
	e, err := NewEngine(nil, nil)
	return &page{engine: e, ids: ids, known: map[string]bool{}, told: map[string]bool{}}, err
}

func (p *page) run(c *pageCell) ExecuteReply {
	p.count++
	for _, o := range c.outputs {
		delete(p.known, o.id)
	}
	c.outputs, c.ran, c.label, c.session = nil, c.source, fmt.Sprintf("In [%d]", p.count), p.session
	p.running = c
	req := ExecuteRequest{Code: c.source, Session: fmt.Sprint("session ", p.session), Count: p.count}
	if p.ids {
		req.CellID, req.DeletedCells = c.id, p.deleted
		p.deleted = nil
	}
	return p.engine.Execute(context.Background(), req, p)
}

// silently executes what no cell of the page holds.
func (p *page) silently(id, code string) {
	p.running = &pageCell{}
	p.engine.Execute(context.Background(), ExecuteRequest{Code: code, CellID: id, Session: fmt.Sprint("session ", p.session), Count: p.count, Silent: true}, silence{p})
}

func (p *page) reload() {
	p.session++
	p.known, p.told = map[string]bool{}, map[string]bool{}
}

func (p *page) remove(c *pageCell) {
	p.cells = slices.DeleteFunc(p.cells, func(x *pageCell) bool { return x == c })
	for _, o := range c.outputs {
		delete(p.known, o.id)
	}
	if c.ran != "" {
		p.deleted = append(p.deleted, c.id)
	}
}

func (p *page) add(kind, id string, d Bundle) {
	text, _ := d["text/plain"].(string)
	p.listen(text)
	p.running.outputs = append(p.running.outputs, &pageOutput{kind, id, text})
}

func (p *page) listen(text string) {
	if strings.Contains(text, "out of date") || strings.Contains(text, "run again") {
		for _, label := range regexp.MustCompile(`In \[\d+\]`).FindAllString(text, -1) {
			p.told[label] = true
		}
	}
}

func (p *page) DisplayData(d Bundle, _ map[string]any, id string) {
	if id != "" {
		p.known[id] = true
	}
	p.add("display", id, d)
}

func (p *page) UpdateDisplayData(d Bundle, _ map[string]any, id string) {
	text, _ := d["text/plain"].(string)
	found := false
	for _, c := range p.cells {
		for _, o := range c.outputs {
			if o.id == id {
				found = true
				if p.known[id] {
					o.text = text
				}
			}
		}
	}
	if !found && p.ids {
		p.faults = append(p.faults, "an update of an id whose cell ran again: "+text)
	}
	if p.known[id] {
		p.listen(text)
	}
}

func (p *page) ExecuteResult(d Bundle, _ map[string]any) { p.add("result", "", d) }
func (p *page) Stream(_, text string)                    { p.add("stream", "", Bundle{"text/plain": text}) }
func (p *page) Error(_, _ string, trace []string) {
	p.add("error", "", Bundle{"text/plain": strings.Join(trace, "\n") + "\n"})
}
func (p *page) ClearOutput(bool)     { p.running.outputs = nil }
func (p *page) NewDisplayID() string { p.next++; return fmt.Sprint("d", p.next) }

// silence is the output of a silent execution: nothing may come out of it.
type silence struct{ *page }

func (s silence) DisplayData(Bundle, map[string]any, string)       { s.fault() }
func (s silence) UpdateDisplayData(Bundle, map[string]any, string) { s.fault() }
func (s silence) ExecuteResult(Bundle, map[string]any)             { s.fault() }
func (s silence) fault()                                           { s.faults = append(s.faults, "a silent execution showed something") }
func (s silence) Stream(string, string)                            {} // closed by the session
func (s silence) Error(string, string, []string)                   {}

// says are the words that may stand beside results.
var says = regexp.MustCompile(`^(` + strings.Join([]string{
	`\d+ results? that this page may still show from before it was loaded (is|are) out of date: run all cells, or (In \[\d+\]( \([^)]*\))?(, )?|…)+`,
	`run again what would show something else now and cannot be replaced where it stands: (In \[\d+\]( \([^)]*\))?(, )?|…)+`,
	`computed again: the error above is from before`, `computed again: the text above is from before`,
	`before( \w+(, \w+)* changed)?: ([^,\n“]{1,80}|“cool” (held|failed))(, [^,\n“]{1,80}|, “cool” (held|failed))*`,
	`\w+(, \w+)* is defined here now; In \[\d+\], (which defined it before|run from another page or before this one was loaded), is retired`,
	`\w+(, \w+)* of In \[\d+\] stays defined: if this is that cell with another name, restart the kernel and run all cells to be rid of the old one`,
}, "|") + `)\s*`)

// withoutSays takes such words out of a text.
func withoutSays(text string) string {
	lines := strings.Split(strings.TrimSpace(text), "\n")
	var rest []string
	for len(lines) > 0 {
		matched := 0
		for n := min(len(lines), 4); n > 0 && matched == 0; n-- { // a notice may be wrapped
			if one := strings.Join(strings.Fields(strings.Join(lines[:n], " ")), " "); says.FindString(one) == one {
				matched = n
			}
		}
		if matched == 0 {
			rest = append(rest, strings.TrimSpace(lines[0]))
		}
		lines = lines[max(1, matched):]
	}
	return strings.Join(rest, "\n")
}

// fresh computes the texts that were executed once more, from nothing.
func (p *page) fresh(w *host.World, order []*pageCell) map[*pageCell]*note.Result {
	n := note.New(note.Options{World: w})
	var sources []note.Source
	for i, c := range order {
		sources = append(sources, note.Source{ID: fmt.Sprint(i), Label: c.label, Code: c.ran})
	}
	n.Set(sources)
	came := map[*pageCell]*note.Result{}
	for i, r := range n.Run(context.Background()) {
		came[order[i]] = r
	}
	return came
}

// wrong tells in which way a cell does not show what it came to; "" if it does.
func (c *pageCell) wrong(r *note.Result) string {
	var want string
	if len(r.Errors) > 0 {
		want = render.ErrorText(r.Errors, c.ran)
	} else {
		want = render.Text(r.Items, render.Options{Width: 100})
	}
	var shown string
	healed := false
	for _, o := range c.outputs {
		healed = healed || strings.Contains(o.text, "above is from before")
	}
	for _, o := range c.outputs {
		if (o.kind == "error" || o.kind == "stream") && healed {
			continue // said to be from before
		}
		shown += o.text
	}
	if withoutSays(shown) != withoutSays(want) {
		return fmt.Sprintf("%s %q shows\n%s\na fresh run gives\n%s", c.label, c.ran, shown, want)
	}
	return ""
}
