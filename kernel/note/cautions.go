package note

import "strings"

// Caution is what the documentation of a function warns of.
type Caution struct {
	Function string // "divider.Loaded"
	Text     string
	Cells    []string // ids of those that name the function
}

// Cautions are those of the functions that the cells name, each once, in the
// order of the cells.
func (n *Note) Cautions() []*Caution {
	n.mu.Lock()
	defer n.mu.Unlock()
	var list []*Caution
	known := map[string]*Caution{}
	for _, c := range n.cells {
		if c.checked == nil {
			continue
		}
		for _, called := range c.checked.Called() {
			dot := strings.LastIndexByte(called, '.')
			path, name := called[:dot], called[dot+1:]
			x := known[called]
			if x == nil {
				d, _ := n.options.World.Doc(path, name)
				short := path[strings.LastIndexByte(path, '/')+1:] + "." + name
				if o := n.options.World.Builtin(name); o != nil && o.Pkg() != nil && o.Pkg().Path() == path {
					short = name // as cells write it
				}
				x = &Caution{Function: short, Text: cautionIn(d.Text)}
				known[called] = x
				if x.Text != "" {
					list = append(list, x)
				}
			}
			x.Cells = append(x.Cells, c.ID)
		}
	}
	return list
}

// cautionIn finds the paragraphs of a comment that begin with Caution.
func cautionIn(doc string) string {
	var found []string
	for p := range strings.SplitSeq(doc, "\n\n") {
		if text, ok := strings.CutPrefix(strings.TrimSpace(p), "Caution: "); ok {
			found = append(found, strings.Join(strings.Fields(text), " "))
		}
	}
	return strings.Join(found, " ")
}
