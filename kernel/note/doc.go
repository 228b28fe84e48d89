// Package note keeps the cells of a note as a graph and runs what an edit
// makes stale. It knows nothing of Jupyter, HTTP or files; each face drives it
// through the same few calls:
//
//	n := note.New(note.Options{World: world})
//	n.Set([]note.Source{{ID: "a", Code: "Vin := 24V"}, {ID: "b", Code: "P := Vin*2mA"}})
//	results := n.Run(ctx)                  // all cells, in the order of the note
//	n.Put(note.Source{ID: "a", Code: "Vin := 12V"})
//	results = n.Run(ctx)                   // a and b ran again: Result.Ran says so
//	why, err := n.Why(ctx, "P", note.WhyOptions{})   // the derivation, down to the inputs
//
// A name has one defining cell. A cell sees copies of other cells' values, so
// the result does not depend on the order of running: it is what a fresh run
// from top to bottom gives. A cell that fails takes its names away, and those
// that use them wait:
//
//	cell 4 waits for P of cell 3, which has an error
//
// WhatIf computes with other inputs and keeps the parts that the design chose.
//
// What it cannot know: whether a text outside the cells still fits the results.
package note
