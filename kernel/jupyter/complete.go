package jupyter

import "ohmwright/kernel/cell"

// typesKey is where front ends look for the types of what is offered: a
// convention of IPython's that JupyterLab and others read.
const typesKey = "_jupyter_types_experimental"

// Complete offers what may stand at the offset.
func (e *Engine) Complete(code string, at int) Completion {
	e.mu.Lock()
	defer e.mu.Unlock()
	found := e.note.Complete(code, at)
	out := Completion{Start: found.Start, End: found.End, Matches: make([]string, 0, len(found.Offers))}
	described := make([]map[string]any, 0, len(found.Offers))
	start, end := codePoint(code, found.Start), codePoint(code, found.End)
	for _, o := range found.Offers {
		out.Matches = append(out.Matches, o.Text)
		described = append(described, map[string]any{"start": start, "end": end, "text": o.Text, "type": string(o.Kind), "signature": o.Beside})
	}
	out.Metadata = map[string]any{typesKey: described}
	return out
}

// IsComplete tells a console whether a cell may still go on.
func (e *Engine) IsComplete(code string) (status, indent string) { return cell.Finish(code) }
