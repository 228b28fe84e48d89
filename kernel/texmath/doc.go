// Package texmath turns the TeX that stands in a note's text into MathML Core:
// fractions, scripts, roots, Greek letters, \text, \mathrm and their like,
// operators, \left and \right, accents, spaces, and the environments aligned,
// cases and matrix.
//
//	MathML(`V_\mathrm{out} = \frac{R_1}{R_2}`, false)
//
// It never fails. A command that it does not know stays visible as its TeX,
// set as text; a brace without a partner is dropped. There are no macros, and
// nothing in the text can become a tag.
package texmath
