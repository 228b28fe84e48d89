package jupyter

import (
	"context"
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
	// picture draws an item that has a picture beside its text; nil: none has.
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

// NewEngine makes an engine with an empty note.
func NewEngine() (*Engine, error) {
	w, err := host.Load()
	if err != nil {
		return nil, err
	}
	e := &Engine{world: w, picture: render.PictureBundle, code: map[string]string{}, label: map[string]string{},
		session: map[string]string{}, display: map[string]*shown{}, values: map[string][]came{}}
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
