package note

import "ohmwright/kernel/cell"

// Complete offers what may stand at the offset at, in bytes, of a cell that is
// being typed. The names of the note come with their present values.
func (n *Note) Complete(code string, at int) cell.Completion {
	n.mu.Lock()
	defer n.mu.Unlock()
	return cell.Complete(code, at, n.surroundings())
}

// surroundings is the note as a cell that is being typed sees it.
func (n *Note) surroundings() cell.Surroundings {
	entries := n.entries()
	return cell.Surroundings{
		Scope: n.scope(&node{}),
		Value: func(name string) (*cell.View, string) {
			if e := entries[name]; e != nil && e.Form != FormMade {
				return &e.Value, beside(e)
			}
			if o := n.owner[name]; o != nil && !o.ok {
				return nil, "no value: see " + o.Label
			}
			return nil, ""
		},
		Inputs: n.inputsBehind,
	}
}

// inputsBehind lists the inputs of the imported note whose names have a prefix.
func (n *Note) inputsBehind(prefix string) (list []string) {
	for _, m := range n.imports {
		if m.prefix != prefix {
			continue
		}
		for _, c := range m.cells {
			for _, name := range c.defines {
				if e := c.entry(prefix + name); e != nil && e.Form == FormInput {
					list = append(list, name)
				}
			}
		}
	}
	return list
}

// entries lists what the cells show of each name.
func (n *Note) entries() map[string]*Entry {
	m := map[string]*Entry{}
	for _, c := range n.all() {
		if c.result == nil || !c.ok {
			continue
		}
		for _, i := range c.result.Items {
			if e, ok := i.(*Entry); ok && n.owner[e.Name] == c {
				m[e.Name] = e
			}
		}
	}
	return m
}

// entry is what a cell shows of a name, nil if nothing.
func (c *node) entry(name string) *Entry {
	if c == nil || c.result == nil {
		return nil
	}
	for _, i := range c.result.Items {
		if e, ok := i.(*Entry); ok && e.Name == name {
			return e
		}
	}
	return nil
}

// beside is a value with its description, short enough for a list.
func beside(e *Entry) string {
	text, ok := e.Text()
	if !ok {
		if text = e.Value.Text; e.Value.Type != "" && (len(e.Value.Items) > 0 || len(text) > 40) {
			text = e.Value.Type
		}
	}
	if e.Description != "" {
		text += "  " + e.Description
	}
	if r := []rune(text); len(r) > 70 {
		return string(r[:69]) + "…"
	}
	return text
}
