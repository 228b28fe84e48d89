package jupyter

import (
	"context"
	"fmt"
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
	// picture draws an item that has a picture beside its text.
	picture func(note.Item) map[string]string

	mu     sync.Mutex
	stream func(id, text string)

	order   []string          // ids in the order of their first execution
	code    map[string]string // what each cell was run with
	label   map[string]string
	session map[string]string // who ran each cell last
	display map[string]*shown // each cell's present output
	values  map[string][]came // what each cell came to last
	next    int
}

// NewEngine makes an engine with an empty note. open reads a file of the
// note's folder, by the name that a cell gives, and imported the cells of a note
// there; nil: there is no folder.
func NewEngine(open func(name string) ([]byte, error), imported func(file string) ([]note.Source, error)) (*Engine, error) {
	w, err := host.Load()
	if err != nil {
		return nil, err
	}
	e := &Engine{world: w, picture: render.PictureBundle, code: map[string]string{}, label: map[string]string{},
		session: map[string]string{}, display: map[string]*shown{}, values: map[string][]came{}}
	e.note = note.New(note.Options{World: w, Open: open, Note: imported, Printed: func(id, text string) {
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
	var said, passing []note.Item
	if strings.TrimSpace(req.Code) == "" {
		e.remove(req.CellID) // a cell that was emptied defines nothing any more
	} else {
		id, said, passing = e.place(req)
		e.code[id], e.label[id], e.session[id] = req.Code, fmt.Sprintf("In [%d]", req.Count), req.Session
		if !req.Silent {
			delete(e.display, id) // the front end has cleared it; an update would go to a dead id
		}
	}
	e.note.Set(e.sources())
	e.note.Again(id)
	var streamed strings.Builder
	e.stream = func(from, text string) {
		if from == id {
			streamed.WriteString(text)
			out.Stream("stdout", text)
		}
	}
	defer func() { e.stream = nil }()
	results := e.note.Run(ctx)

	before := e.values
	e.remember(results)
	moved, old := e.moved(before, id)
	if _, known := before[id]; !known && len(old) > 0 {
		// Another cell had the names; without cell ids, or this one before an edit.
		passing = append(passing, notice("before: %s", strings.Join(firstFew(old, 8), ", ")))
	}
	moved = append(moved, e.note.Changed()...)
	changed := e.prepare(results, before, moved, req)
	var reply ExecuteReply
	for _, r := range results {
		if r.ID == id {
			reply = e.show(r, said, passing, streamed.String(), req, out)
		}
	}
	if !req.Silent {
		if id == "" {
			if told := e.telling(e.untold(req.Session)); told != nil {
				out.DisplayData(grouped(told), nil, "")
			}
		}
		e.replace(changed, out)
	}
	reply.UserExpressions = e.expressions(req.UserExpressions, results)
	return reply
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
