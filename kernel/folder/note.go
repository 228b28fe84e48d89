package folder

import (
	"fmt"

	"ohmwright/kernel/note"
	"ohmwright/kernel/notebook"
)

// Note reads the code cells of a note that a cell imports.
func (f Folder) Note(name string) ([]note.Source, error) {
	text, err := f.NoteText(name)
	if err != nil {
		return nil, err
	}
	return Cells(name, text)
}

// NoteText reads the file of a note that a cell imports.
func (f Folder) NoteText(name string) ([]byte, error) { return f.read(name, notes) }

// Cells are the code cells in the file of a note.
func Cells(name string, text []byte) ([]note.Source, error) {
	n, err := notebook.Parse(text)
	if err != nil {
		return nil, fmt.Errorf("%s is no note: %w", name, err)
	}
	return Sources(n), nil
}

// Sources are the code cells of a notebook, numbered as people count them. Each
// has the notebook's id of it, which stays where cells are put in before it.
func Sources(n *notebook.Notebook) []note.Source {
	var list []note.Source
	known := map[string]bool{}
	for _, c := range n.Cells() {
		if c.Type() != "code" {
			continue
		}
		label := fmt.Sprintf("cell %d", len(list)+1)
		id := c.ID()
		if id == "" || known[id] {
			id = label // with a space, which no id has
		}
		known[id] = true
		list = append(list, note.Source{ID: id, Label: label, Code: c.Source()})
	}
	return list
}
