package note

import "slices"

// texts gives the texts that cells show the entries that their markers name.
// What an entry says of a value may be new although the value is not.
func (n *Note) texts() {
	for _, c := range n.cells {
		for i, it := range c.result.Items {
			p, ok := it.(*Prose)
			if !ok {
				continue
			}
			var entries []*Entry
			for _, name := range p.names {
				if e := n.entryOf(name); e != nil && !slices.Contains(entries, e) {
					entries = append(entries, e)
				}
			}
			if !slices.Equal(entries, p.Entries) {
				n.replaceItem(c, i, &Prose{Text: p.Text, Entries: entries, names: p.names})
			}
		}
	}
}
