package jupyter

import (
	"encoding/json"
	"reflect"
	"slices"

	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
)

// shown is what a cell has on the page. It belongs to the session that saw it
// made: any other page does not know its display id and drops updates of it
// without a word.
type shown struct {
	id       string // "": nothing was sent that could be replaced
	session  string
	first    Bundle   // of its results, when it was executed
	now      Bundle   // of its results, last
	sent     Bundle   // all that was sent last
	rest     []Bundle // of what its results have in displays of their own, last
	streamed string   // what it printed when it was executed
	failed   bool     // an error output, which nothing can replace, stands above
	stale    bool     // another session replaced it
	settled  bool     // now is what its last run came to
	said     []note.Item
	passing  []note.Item     // said until the next execution
	tells    map[string]bool // cells that it tells to be out of date
	told     map[string]bool // sessions in which another cell has told that of it
	below    []*slot
}

// slot is a display below a cell's first: a picture, a text, what comes behind
// a text.
type slot struct {
	id   string
	sent Bundle
}

var nothing = Bundle{"text/plain": ""}

// same reports whether a front end that was sent a shows b already.
func same(a, b Bundle) bool { return reflect.DeepEqual(a, b) }

// prepare looks at what the cells of the page came to and gives those that may
// have to be replaced. What a silent execution changed is caught up with by the
// next that may speak.
func (e *Engine) prepare(results []*note.Result, before map[string][]came, moved []string, req ExecuteRequest) (changed []*note.Result) {
	for _, r := range results {
		d := e.display[r.ID]
		if d == nil {
			continue
		}
		if r.Ran || r.State != note.Done || len(d.passing) > 0 {
			d.settled = false
		}
		if req.Silent {
			continue
		}
		d.passing = e.changes(before, moved, r)
		if d.settled && len(d.tells) == 0 {
			continue
		}
		changed = append(changed, r)
		now, rest := e.results(r, d.streamed)
		if d.session != req.Session && !(same(d.now, now) && reflect.DeepEqual(d.rest, rest)) {
			d.stale = true
		}
		d.now, d.rest, d.settled = now, rest, true
	}
	return changed
}

// replace sends what is not on the page already.
func (e *Engine) replace(changed []*note.Result, out Output) {
	for _, r := range changed {
		d := e.display[r.ID]
		if d.id == "" {
			continue
		}
		if data := e.all(d); !same(d.sent, data) {
			d.sent = data
			out.UpdateDisplayData(data, metadata(r), d.id)
		}
		for i, s := range d.below {
			data := nothing
			if i < len(d.rest) {
				data = d.rest[i]
			}
			if !same(s.sent, data) {
				s.sent = data
				out.UpdateDisplayData(data, nil, s.id)
			}
		}
	}
}

// show sends what the executed cell shows.
//
// An error of its own goes out as an error output, which front ends ask for and
// nothing can replace; nor can what it prints. If another cell can change
// either, an empty display below takes what comes then. A cell that shows
// nothing gets no display: it would stand in the stored note; that another cell
// makes it fail is told by that cell.
func (e *Engine) show(r *note.Result, said, passing []note.Item, streamed string, req ExecuteRequest, out Output) (reply ExecuteReply) {
	failed := r.State == note.Failed
	if failed {
		first := r.Errors[0]
		trace := render.Traceback(r.Errors, e.code[r.ID])
		out.Error(string(first.Code), first.Error(), trace)
		reply.Err = &Error{Name: string(first.Code), Value: first.Error(), Traceback: trace}
	}
	if req.Silent {
		return reply
	}
	d := &shown{session: req.Session, told: map[string]bool{}, failed: failed, streamed: streamed, settled: true, said: said, passing: passing}
	d.now, d.rest = e.results(r, streamed)
	d.first = d.now
	d.tells = e.untold(req.Session)
	e.display[r.ID] = d
	d.sent = e.all(d)
	switch empty := same(d.sent, nothing); {
	case empty && (r.Fixed || !failed && streamed == ""):
		return reply
	case same(d.sent, d.now) && r.Constant():
		out.ExecuteResult(d.sent, metadata(r))
		return reply
	}
	d.id = out.NewDisplayID()
	out.DisplayData(d.sent, metadata(r), d.id)
	for _, data := range d.rest {
		s := &slot{out.NewDisplayID(), data}
		d.below = append(d.below, s)
		out.DisplayData(data, nil, s.id)
	}
	return reply
}

// results is what a cell came to: its first display, and what stands in
// displays of its own below. What it printed when it was executed was streamed,
// and stands above.
func (e *Engine) results(r *note.Result, streamed string) (first Bundle, rest []Bundle) {
	printed := ""
	var items, above []note.Item
	for _, i := range r.Items {
		if p, ok := i.(*note.Printed); ok {
			printed = p.Text
			continue
		}
		items = append(items, i)
	}
	if printed != streamed {
		if streamed != "" {
			above = append(above, notice("computed again: the text above is from before"))
		}
		if printed != "" {
			above = append(above, &note.Printed{Text: printed})
		}
	}
	if len(r.Errors) > 0 {
		source := e.code[r.ID]
		return joined(grouped(append(above, items...)), Bundle{"text/plain": render.ErrorText(r.Errors, source), "text/html": render.ErrorHTML(r.Errors, source)}), nil
	}
	first = nothing
	for i, b := range render.Bundles(items, e.picture) {
		if i == 0 {
			first = bundleOf(b)
			continue
		}
		rest = append(rest, bundleOf(b))
	}
	return joined(beside(first, above), first), rest
}

// all is everything that stands in a cell's first display.
func (e *Engine) all(d *shown) Bundle {
	var above, below []note.Item
	above = append(above, e.telling(d.tells)...)
	now := d.now
	switch {
	case d.failed && same(d.now, d.first): // it stands above
		now = nothing
	case d.failed:
		above = append(above, notice("computed again: the error above is from before"))
	}
	if n := len(d.below); n < len(d.rest) && d.id != "" {
		what := "a picture"
		if slices.ContainsFunc(d.rest[n:], func(b Bundle) bool { return b["text/html"] != nil || b["text/markdown"] != nil }) {
			what = "more"
		}
		below = append(below, notice("there is %s now: run the cell to see it", what))
	}
	below = append(append(below, d.said...), d.passing...)
	return joined(beside(now, above), now, beside(now, below))
}

func grouped(items []note.Item) Bundle { return bundleOf(render.GroupBundle(items)) }

// beside is what stands above or below in the display of a bundle: in its forms.
func beside(b Bundle, items []note.Item) Bundle {
	if b["text/markdown"] != nil {
		return bundleOf(render.MarkdownBundle(items))
	}
	return grouped(items)
}

func bundleOf(forms map[string]string) Bundle {
	if forms == nil {
		return nothing
	}
	data := Bundle{}
	for k, v := range forms {
		data[k] = v
	}
	return data
}

// joined puts bundles below each other, in the forms that all of them have.
func joined(parts ...Bundle) Bundle {
	sum := nothing
	for _, p := range parts {
		switch {
		case same(p, nothing):
		case same(sum, nothing):
			sum = p
		default:
			both := Bundle{}
			for k, v := range sum {
				if w, ok := p[k]; ok {
					both[k] = v.(string) + gap[k] + w.(string)
				}
			}
			sum = both
		}
	}
	return sum
}

// gap is what must stand between two parts of a form.
var gap = map[string]string{"text/markdown": "\n"}

// metadata is the record of a cell's values, for other programs.
func metadata(r *note.Result) map[string]any {
	if r.State != note.Done || len(render.Displays(withoutPrinted(r.Items))) == 0 {
		return nil
	}
	text, err := json.Marshal(note.StoredRecord(r))
	if err != nil {
		return nil
	}
	return map[string]any{note.RecordKey: json.RawMessage(text)}
}
