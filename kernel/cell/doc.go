// Package cell takes one cell of a note from what the user typed to values:
// scan, check, build, run.
//
//	p, errs := cell.Parse(fset, "c1", "Vin := 24V // supply\nI := Vin/4.7kΩ", nil)
//	c, errs := p.Check(cell.Scope{World: world, …})  // go/types, and our own refusals
//	b := c.Build(linker, cellOf, false)              // go/ssa, for kernel/cell/exec
//	out, errs := b.Run(cell.Env{…})                  // values, formulas, requirements
//
// Parsed depends on the text alone, Checked on the types of the names it uses,
// Program is the compiled cell, Outcome what one run gave. A cell whose inputs
// changed only runs again; one whose inputs changed their types is parsed and
// checked again, since the check mends the tree in place.
//
// Errors are *Error values for the user: what, where in the text that was
// typed, and what to write instead:
//
//	1:13: cannot add 24 V (voltage) and 20 mA (current): both sides need the same dimension
//
// A name that this package makes up starts with a letter that users may not
// write (reserved), and no message shows one.
//
// What it cannot catch: a dimension is checked when the cell runs, not before,
// so a mistake in a branch that is not taken stays unseen until it is.
package cell
