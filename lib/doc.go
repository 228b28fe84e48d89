// Package lib is the folder of electronics: one package a topic, pure
// functions on quantities. It holds nothing itself.
//
//	argument    the checks that all of them make on what they are given
//	preferred   preferred numbers, a stock of one's own, marking codes
//	divider     plain, loaded, feedback and measuring dividers
//	thermal     rise, chains, heat sinks, derating
//	regulator   a folder: stepdown
//
// What every package keeps, and the tests of this folder hold it to:
//
//   - A function that can fail returns a result and an error. The error names
//     the function, the argument, its value, the limit, and what to change.
//     Nothing infinite and no not-a-number leaves a function.
//   - No function reads a bare number out of a quantity, so that spread is not
//     lost on the way; only preferred does, which picks from lists.
//   - More than three arguments are the fields of a struct, and the fields of
//     a result are the steps of the computation.
//   - A formula is written once, as a chain of methods with one step to an
//     assignment. Each package embeds its source, from which the formula that
//     a note shows is drawn.
//   - The doc comment of a function gives the formula, each argument and
//     result with its unit, where it holds, the error outside of that, an
//     example, the source, and the usual cautions.
package lib
