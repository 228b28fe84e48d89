// Package cell takes one cell of a note from what the user typed to values:
// scan, check, build, run.
package cell
