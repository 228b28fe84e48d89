package note

import "fmt"

// Why gives the derivation of a name down to its inputs. The error of an
// unknown name suggests the nearest.
func (n *Note) Why(name string) (*Why, error) {
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.owner[name] == nil {
		return nil, n.unknown(name)
	}
	if c := n.owner[name]; c.result == nil || !c.ok {
		if c.result != nil && len(c.result.Errors) > 0 {
			return nil, fmt.Errorf("%s has no value: %s, line %d: %w", name, c.Label, c.result.Errors[0].Line, c.result.Errors[0])
		}
		return nil, fmt.Errorf("%s has no value: run the note first", name)
	}
	return n.why(name, map[string]bool{}), nil
}

func (n *Note) why(name string, shown map[string]bool) *Why {
	c := n.owner[name]
	w := &Why{Cell: c.Label}
	for _, i := range c.result.Items {
		if e, ok := i.(*Entry); ok && e.Name == name {
			w.Entry = e
		}
	}
	if w.Entry == nil { // a function, a type or a constant
		w.Entry = &Entry{Name: name, Form: FormMade, Files: n.filesOf(c, name)}
	}
	if shown[name] {
		w.Again = true
		return w
	}
	shown[name] = true
	for _, used := range c.checked.UsedBy(name) {
		if n.owner[used] != nil && used != name {
			w.Inputs = append(w.Inputs, n.why(used, shown))
		}
	}
	return w
}
