package jupyter

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"ohmwright/kernel/render"
)

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
