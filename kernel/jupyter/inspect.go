package jupyter

import "ohmwright/kernel/render"

// Inspect tells about what stands at the offset: a name of the note, a
// function, a unit. Detail 1 and more asks for the source of functions too.
func (e *Engine) Inspect(code string, at, detail int) (Bundle, bool) {
	e.mu.Lock()
	defer e.mu.Unlock()
	i := e.note.Inspect(code, at, detail > 0)
	if i == nil {
		return nil, false
	}
	data := Bundle{}
	for mime, text := range render.Inspection(i) {
		data[mime] = text
	}
	return data, true
}
