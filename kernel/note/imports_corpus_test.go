package note_test

import (
	"context"
	"strings"
	"testing"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/note"
)

// TestGoProgramsInImportedNotes runs every program of the executor's tests in
// a note that another imports, as one cell and as many: whatever a name is,
// being called something else does not change what it does.
func TestGoProgramsInImportedNotes(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("a thousand notes")
	}
	for _, p := range corpus(t) {
		if p.name == "embed_generic_type" {
			continue // imports has it
		}
		t.Run(p.name, func(t *testing.T) {
			t.Parallel()
			got, errs := printedImported(p.asCell() + "\nran := true")
			p.compare(t, got, errs)
			cells, err := p.asCells()
			if err != nil {
				t.Fatal(err)
			}
			cells[len(cells)-1] += "\nran := true"
			got, errs = printedImported(cells...)
			p.compare(t, got, errs)
		})
	}
}

// printedImported is printedBy for the cells of a note that another imports.
func printedImported(codes ...string) (string, []*cell.Error) {
	var out strings.Builder
	d := design{"p.ipynb": strings.Join(codes, "\n---\n")}
	n := note.New(note.Options{World: world, Note: d.note, Printed: func(_, text string) { out.WriteString(text) }})
	n.Set(sources("import taken \"p.ipynb\"", "done := taken.ran"))
	n.Run(context.Background())
	errs := n.ImportErrors()
	for _, e := range errs {
		e.Msg = strings.ReplaceAll(e.Msg, "taken.", "")
	}
	printed := strings.ReplaceAll(out.String(), "note.taken.", "note.") // what %T says of a type of the note
	if len(errs) == 1 && errs[0].Code == cell.CodePanic {
		return printed + uncaught + strings.TrimPrefix(errs[0].Msg, "panic: "), nil
	}
	return printed, errs
}
