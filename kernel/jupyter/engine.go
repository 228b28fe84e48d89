package jupyter

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"sync"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
)

// Engine is a Core that computes a note: each execution gives a cell its
// text, and what depends on it is computed again and replaced where it stands.
type Engine struct {
	world *host.World
	note  *note.Note

	mu     sync.Mutex
	stream func(id, text string)

	order   []string          // ids in the order of their first execution
	code    map[string]string // what each cell was run with
	label   map[string]string
	session map[string]string            // who ran each cell last
	display map[string]*shown            // each cell's present output
	values  map[string]map[string]string // what each cell's names came to last
	next    int
}

// NewEngine makes an engine with an empty note.
func NewEngine() (*Engine, error) {
	w, err := host.Load()
	if err != nil {
		return nil, err
	}
	e := &Engine{world: w, code: map[string]string{}, label: map[string]string{},
		session: map[string]string{}, display: map[string]*shown{}, values: map[string]map[string]string{}}
	e.note = note.New(note.Options{World: w, Printed: func(id, text string) {
		if e.stream != nil {
			e.stream(id, text)
		}
	}})
	return e, nil
}

// Execute runs a cell and everything that depends on it.
func (e *Engine) Execute(ctx context.Context, req ExecuteRequest, out Output) ExecuteReply {
	e.mu.Lock()
	defer e.mu.Unlock()
	for _, id := range req.DeletedCells {
		e.remove(id)
	}
	id := ""
	var retired []string
	if strings.TrimSpace(req.Code) == "" {
		e.remove(req.CellID) // a cell that was emptied defines nothing any more
	} else {
		id, retired = e.place(req)
		e.code[id], e.label[id], e.session[id] = req.Code, fmt.Sprintf("In [%d]", req.Count), req.Session
		if !req.Silent {
			delete(e.display, id) // the front end has cleared it; an update would go to a dead id
		}
	}
	e.note.Set(e.sources())
	e.note.Again(id)
	e.stream = func(from, text string) {
		if from == id {
			out.Stream("stdout", text)
		}
	}
	defer func() { e.stream = nil }()
	results := e.note.Run(ctx)

	before := e.values
	e.values = map[string]map[string]string{}
	cause := ""
	for _, r := range results {
		e.values[r.ID] = texts(r)
		if r.ID == id {
			cause = causeOf(before, e.values[id], r.Defines)
		}
	}
	var reply ExecuteReply
	if !req.Silent {
		for _, r := range results {
			if r.ID != id {
				e.update(r, changes(before[r.ID], e.values[r.ID], r, cause), req.Session, out)
			}
		}
	}
	for _, r := range results {
		if r.ID == id {
			reply = e.show(r, retired, req, out)
		}
	}
	if !req.Silent {
		e.updateNotices(results, id, out)
	}
	reply.UserExpressions = e.expressions(req.UserExpressions, results)
	return reply
}

// update replaces what a cell shows if that is not on screen already. What a
// silent execution changed is caught up with here by the next that may speak.
func (e *Engine) update(r *note.Result, changed []note.Item, session string, out Output) {
	d := e.display[r.ID]
	if d == nil {
		return
	}
	d.again = d.again || r.Ran
	data, meta := e.present(r, d, changed)
	if same(d.sent, data) {
		return
	}
	d.sent = data
	d.stale = d.stale || d.session != session
	out.UpdateDisplayData(data, meta, d.id)
}

// updateNotices takes away the notices of stale results that are none any more.
func (e *Engine) updateNotices(results []*note.Result, id string, out Output) {
	for _, r := range results {
		if d := e.display[r.ID]; d != nil && r.ID != id && d.notice && e.staleNotice(d.session) == nil {
			d.notice = false
			e.update(r, nil, d.session, out)
		}
	}
}

// present is what stands in a cell's replaceable output.
func (e *Engine) present(r *note.Result, d *shown, extra []note.Item) (Bundle, map[string]any) {
	var items []note.Item
	if n := e.staleNotice(d.session); d.notice && n != nil {
		items = append(items, n)
	}
	if d.failed && r.State == note.Done {
		items = append(items, &note.Notice{Text: "now computed: the error above is from before"})
	}
	// What the executed cell printed was streamed and stands above.
	for _, i := range r.Items {
		if _, printed := i.(*note.Printed); !printed || d.again {
			items = append(items, i)
		}
	}
	items = append(items, extra...)
	data, meta := e.bundle(r, items, e.code[r.ID])
	if data == nil { // an output cannot be taken away
		data = Bundle{"text/plain": ""}
	}
	return data, meta
}

// place finds the cell that a request is for. Where the front end gives no
// id, a cell is known by its text and by the names that it defines: the newest
// definition of a name retires the older.
func (e *Engine) place(req ExecuteRequest) (id string, retired []string) {
	if req.CellID != "" {
		// A page that was loaded again may call the same cells by other ids.
		for _, old := range slices.Clone(e.order) {
			if old == req.CellID || e.session[old] == req.Session {
				continue
			}
			for _, name := range e.note.Names(req.Code) {
				if slices.Contains(e.note.Names(e.code[old]), name) {
					retired = append(retired, fmt.Sprintf("%s is defined here now; %s, run before this page was loaded, is retired", name, e.label[old]))
					e.remove(old)
					break
				}
			}
		}
		if _, ok := e.code[req.CellID]; !ok {
			e.order = append(e.order, req.CellID)
		}
		return req.CellID, retired
	}
	defines := map[string]bool{}
	for _, name := range e.note.Names(req.Code) {
		defines[name] = true
	}
	for _, old := range append([]string(nil), e.order...) {
		if e.code[old] == req.Code {
			return old, nil
		}
	}
	for _, old := range append([]string(nil), e.order...) {
		var shared []string
		for _, name := range e.note.Names(e.code[old]) {
			if defines[name] {
				shared = append(shared, name)
			}
		}
		if len(shared) > 0 {
			if len(shared) < len(e.note.Names(e.code[old])) || len(shared) < len(defines) {
				retired = append(retired, fmt.Sprintf("%s is defined here now; %s, which defined it before, is retired", strings.Join(shared, ", "), e.label[old]))
			}
			e.remove(old)
		}
	}
	e.next++
	id = fmt.Sprintf("run-%d", e.next)
	e.order = append(e.order, id)
	return id, retired
}

func (e *Engine) remove(id string) {
	for i, o := range e.order {
		if o == id {
			e.order = append(e.order[:i], e.order[i+1:]...)
			break
		}
	}
	delete(e.code, id)
	delete(e.label, id)
	delete(e.session, id)
	delete(e.display, id)
}

func (e *Engine) sources() []note.Source {
	var s []note.Source
	for _, id := range e.order {
		s = append(s, note.Source{ID: id, Label: e.label[id], Code: e.code[id]})
	}
	return s
}

// show sends what the executed cell shows. An error of its own goes out as an
// error output, which front ends ask for and nothing can replace; an empty
// display below it takes the value when another cell mends it.
func (e *Engine) show(r *note.Result, retired []string, req ExecuteRequest, out Output) ExecuteReply {
	var reply ExecuteReply
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
	var said []note.Item
	for _, text := range retired {
		said = append(said, &note.Notice{Text: text})
	}
	d := &shown{session: req.Session, failed: failed, notice: e.staleNotice(req.Session) != nil}
	var data Bundle
	var meta map[string]any
	if failed { // its error stands above already
		data, meta = e.present(&note.Result{ID: r.ID, State: note.Failed}, d, said)
	} else {
		data, meta = e.present(r, d, said)
	}
	empty := same(data, Bundle{"text/plain": ""})
	switch {
	case empty && !failed && !e.usesNote(e.code[r.ID]):
		return reply // it can never show anything
	case !empty && !d.notice && len(said) == 0 && e.constant(r, r.Items):
		out.ExecuteResult(data, meta)
		return reply
	}
	d.id, d.sent = out.NewDisplayID(), data
	if failed {
		d.sent, _ = e.present(r, d, nil) // the same error again is no news
	}
	e.display[r.ID] = d
	out.DisplayData(data, meta, d.id)
	return reply
}

// bundle is what a cell shows, in the forms that front ends ask for.
func (e *Engine) bundle(r *note.Result, items []note.Item, source string) (Bundle, map[string]any) {
	if len(r.Errors) > 0 {
		said := render.GroupBundle(slices.DeleteFunc(slices.Clone(items), func(i note.Item) bool {
			_, notice := i.(*note.Notice)
			return !notice
		}))
		return Bundle{"text/plain": render.ErrorText(r.Errors, source) + said["text/plain"],
			"text/html": render.ErrorHTML(r.Errors, source) + said["text/html"]}, nil
	}
	group := render.GroupBundle(items)
	if group == nil {
		return nil, nil
	}
	data := Bundle{}
	for k, v := range group {
		data[k] = v
	}
	text, err := json.Marshal(note.NewRecord(r))
	if err != nil {
		return data, nil
	}
	return data, map[string]any{note.RecordKey: json.RawMessage(text)}
}

// expressions answers the names that a front end asks for beside the code.
func (e *Engine) expressions(asked map[string]string, results []*note.Result) map[string]Expression {
	if len(asked) == 0 {
		return nil
	}
	out := map[string]Expression{}
	for key, name := range asked {
		x := Expression{Err: &Error{Name: string(cell.CodeName), Value: strings.TrimSpace(name) + " is not a name of the note"}}
		for _, r := range results {
			for _, i := range r.Items {
				if n, ok := i.(*note.Entry); ok && n.Name == strings.TrimSpace(name) {
					x = Expression{Data: Bundle{"text/plain": n.Value.Text}, Metadata: map[string]any{}}
				}
			}
		}
		out[key] = x
	}
	return out
}

// Shutdown has nothing to put away: a note lives in its notebook.
func (e *Engine) Shutdown() {}

var _ Core = (*Engine)(nil)
