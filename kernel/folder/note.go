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

// Sources are the code cells of a notebook, numbered as people count them.
func Sources(n *notebook.Notebook) []note.Source {
	var list []note.Source
	for _, c := range n.Cells() {
		if c.Type() == "code" {
			number := len(list) + 1
			list = append(list, note.Source{ID: fmt.Sprintf("cell-%d", number), Label: fmt.Sprintf("cell %d", number), Code: c.Source()})
		}
	}
	return list
}
