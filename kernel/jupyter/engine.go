package jupyter

import (
	"context"
	"encoding/json"
	"fmt"
	"sort"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

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
	display map[string]string // display id of each cell's present output
	next    int
}

// NewEngine makes an engine with an empty note.
func NewEngine() (*Engine, error) {
	w, err := host.Load()
	if err != nil {
		return nil, err
	}
	e := &Engine{world: w, code: map[string]string{}, label: map[string]string{}, display: map[string]string{}}
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
	if strings.TrimSpace(req.Code) == "" {
		return ExecuteReply{}
	}
	id, retired := e.place(req)
	e.code[id], e.label[id] = req.Code, fmt.Sprintf("In [%d]", req.Count)
	e.note.Set(e.sources())
	e.note.Again(id)
	e.stream = func(from, text string) {
		if from == id {
			out.Stream("stdout", text)
		}
	}
	defer func() { e.stream = nil }()
	delete(e.display, id) // the front end has cleared it; an update would go to a dead id
	results := e.note.Run(ctx)

	var reply ExecuteReply
	for _, r := range results {
		if r.ID == id {
			reply = e.show(id, r, retired, out)
		}
	}
	for _, r := range results {
		shown := e.display[r.ID]
		if r.ID == id || shown == "" || !r.Ran && r.State != note.Waiting {
			continue
		}
		data, meta := e.bundle(r, r.Items, e.code[r.ID])
		if data == nil { // it shows nothing any more, but an output cannot be taken away
			data = Bundle{"text/plain": ""}
		}
		out.UpdateDisplayData(data, meta, shown)
	}
	reply.UserExpressions = e.expressions(req.UserExpressions, results)
	return reply
}

// place finds the cell that a request is for. Where the front end gives no
// id, a cell is known by its text and by the names that it defines: the newest
// definition of a name retires the older.
func (e *Engine) place(req ExecuteRequest) (id string, retired []string) {
	if req.CellID != "" {
		if _, ok := e.code[req.CellID]; !ok {
			e.order = append(e.order, req.CellID)
		}
		return req.CellID, nil
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
// error; that it waits for another cell is a display, which heals.
func (e *Engine) show(id string, r *note.Result, retired []string, out Output) ExecuteReply {
	var items []note.Item
	for _, text := range retired {
		items = append(items, &note.Notice{Text: text})
	}
	if r.State == note.Failed {
		if data, meta := e.bundle(&note.Result{}, items, ""); data != nil {
			out.DisplayData(data, meta, "")
		}
		first := r.Errors[0]
		trace := render.Traceback(r.Errors, e.code[id])
		out.Error(string(first.Code), first.Error(), trace)
		return ExecuteReply{Err: &Error{Name: string(first.Code), Value: first.Error(), Traceback: trace}}
	}
	for _, i := range r.Items {
		if _, printed := i.(*note.Printed); !printed {
			items = append(items, i)
		}
	}
	data, meta := e.bundle(r, items, e.code[id])
	if data != nil {
		shown := out.NewDisplayID()
		e.display[id] = shown
		out.DisplayData(data, meta, shown)
	}
	return ExecuteReply{}
}

// bundle is what a cell shows, in the forms that front ends ask for.
func (e *Engine) bundle(r *note.Result, items []note.Item, source string) (Bundle, map[string]any) {
	if len(r.Errors) > 0 {
		return Bundle{"text/plain": render.ErrorText(r.Errors, source), "text/html": render.ErrorHTML(r.Errors, source)}, nil
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

// Complete offers the names that are in scope.
func (e *Engine) Complete(code string, at int) Completion {
	e.mu.Lock()
	defer e.mu.Unlock()
	start := at
	for start > 0 {
		r, n := utf8.DecodeLastRuneInString(code[:start])
		if r != '_' && !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			break
		}
		start -= n
	}
	prefix := code[start:at]
	set := map[string]bool{}
	add := func(names []string) {
		for _, n := range names {
			if strings.HasPrefix(n, prefix) {
				set[n] = true
			}
		}
	}
	if start > 0 && code[start-1] == '.' {
		end := start - 1
		begin := end
		for begin > 0 && (code[begin-1] == '_' || unicode.IsLetter(rune(code[begin-1])) || unicode.IsDigit(rune(code[begin-1]))) {
			begin--
		}
		if k := e.world.Package(code[begin:end]); k != nil {
			for _, n := range k.Scope().Names() {
				if o := k.Scope().Lookup(n); o.Exported() && e.world.Refused(o) == nil {
					add([]string{n})
				}
			}
		}
	} else {
		for _, id := range e.order {
			add(e.note.Names(e.code[id]))
		}
		add(e.world.BuiltinNames())
		add(e.world.PackageNames())
	}
	matches := make([]string, 0, len(set))
	for n := range set {
		matches = append(matches, n)
	}
	sort.Strings(matches)
	return Completion{Matches: matches, Start: start, End: at}
}

// Inspect shows the entry of a name of the note, or the documentation of a function.
func (e *Engine) Inspect(code string, at, detail int) (Bundle, bool) {
	e.mu.Lock()
	defer e.mu.Unlock()
	isWord := func(r rune) bool { return r == '_' || r == '.' || unicode.IsLetter(r) || unicode.IsDigit(r) }
	start, end := at, at
	for start > 0 {
		r, n := utf8.DecodeLastRuneInString(code[:start])
		if !isWord(r) {
			break
		}
		start -= n
	}
	for end < len(code) {
		r, n := utf8.DecodeRuneInString(code[end:])
		if !isWord(r) || r == '.' {
			break
		}
		end += n
	}
	name := code[start:end]
	if w, err := e.note.Why(name); err == nil && w.Entry != nil {
		return Bundle{"text/plain": render.WhyText(w, 80)}, true
	}
	path, short := "", name
	if i := strings.LastIndexByte(name, '.'); i > 0 {
		if k := e.world.Package(name[:i]); k != nil {
			path, short = k.Path(), name[i+1:]
		}
	} else if o := e.world.Builtin(name); o != nil && o.Pkg() != nil {
		path = o.Pkg().Path()
	}
	if d, ok := e.world.Doc(path, short); ok {
		return Bundle{"text/plain": d.Signature + "\n\n" + d.Text}, true
	}
	return nil, false
}

// IsComplete tells a console whether a cell may still go on.
func (e *Engine) IsComplete(code string) (status, indent string) {
	switch errs := e.note.Syntax(code); {
	case len(errs) == 0:
		return "complete", ""
	case cell.Unfinished(errs):
		return "incomplete", "\t"
	}
	return "invalid", ""
}

// Shutdown has nothing to put away: a note lives in its notebook.
func (e *Engine) Shutdown() {}

var _ Core = (*Engine)(nil)
