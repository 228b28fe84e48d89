// Package prose reads the text between the cells of a note: Markdown, in which
// mathematics may stand between dollar signs and a name in braces stands for a
// value, so that no sentence of a rationale goes stale.
//
//	The rail is {Vout}, in all cases {Vout limits}.
//
// becomes "The rail is 4.988 V, in all cases 4.832 … 5.149 V". [Replace] puts
// the values into the source text, [Markers] lists the places. Code, HTML, the
// targets of links and mathematics are left alone; \{ is a brace. A marker is a
// Go identifier, with fields behind dots and the places of lists in square brackets
// where it has some, and optionally the word limits; everything else in braces is text. The same rules hold in a
// Markdown cell and in what a cell shows with the function Markdown.
//
// It knows no values: render.Values has them. What it cannot know: whether a
// name in braces that the note does not define was meant as a marker. In a
// Markdown cell it stays as it stands, and verify tells of it.
package prose
