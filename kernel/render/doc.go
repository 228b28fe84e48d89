// Package render draws what a cell shows: entries, shown values,
// requirements, errors and derivations, as plain text, HTML, LaTeX and
// Markdown.
//
// Start with [Text] and [HTML]; both take the items of a cell and give what
// stands below it:
//
//	Rbot   1.91 kΩ   1.891 … 1.929 kΩ   lower feedback resistor
//	       from      nearest E96 to Rtop · Vref/(5 V − Vref)
//	       with      10 kΩ · 800 mV/(5 V − 800 mV), ideal 1.905 kΩ, chosen 1.91 kΩ (+0.3 %)
//
// The result stands first; the lines below it say where it comes from. They
// are never joined into one row with several equals signs.
//
// Limits stand beside a value wherever it has spread: four significant digits
// each, more where these do not show how far apart they are. What rests on
// chance says how parts were taken to be distributed. [SpreadPicture] draws
// the boards of a Spread as SVG and PNG, [FigurePicture] the curves of a figure.
//
// A formula is drawn from the tree of the code that ran ([cell.Expr]): see
// [Formula] and [Numbers]. The tree holds no brackets; they are set where
// precedence, associativity or a unit needs them, so that what is read back
// is what was computed. The rule by which names are typeset stands at [Name].
//
// Everything is a pure function of its arguments, and the output depends on
// nothing else: no clock, no locale, no counter.
//
// What it cannot know: a cell that defines its own function Sqrt or Nearest
// gets the root sign or the words of the built-in one, for the tree carries
// names and not what they stand for.
package render
