// Package builtin holds the functions that a cell has besides those of units
// and lib, all in scope without an import:
//
//	Require(Tj <= 125°C, "the junction stays below its rating")
//	Require(Within(Vout, 4.75V, 5.25V), "the supply suits the logic")
//	Tj := Settle(Ta, func(t Quantity) Quantity { return Ta + loss(t)*θJA })
//
// They are ordinary Go and work outside a note as well. In a note the engine
// takes a Require over before it is called, to show its margin.
//
// A misuse panics with *units.Error, as the arithmetic of quantities does;
// the engine turns that into an error of the cell.
package builtin

import (
	"strconv"

	"ohmwright/lib/table"
	"ohmwright/units"
)

// Require states what must hold for the design to be good, and in the
// designer's words what that means.
//
// In a note the engine shows the requirement with its margin, and a failed one
// stops nothing. Outside a note a failed requirement panics with *units.Error.
func Require(holds bool, what string) {
	if holds {
		return
	}
	panic(&units.Error{Msg: "requirement " + strconv.Quote(what) + " does not hold"})
}

// Within reports whether lo ≤ x ≤ hi. The three must be of one dimension;
// a NaN is within nothing. Limits that are the wrong way round are an error,
// because nothing would ever be within them.
//
// Of values with spread it answers for the nominal one, as every comparison
// does, and a note computes the cell case by case where the answer is not
// alike in all cases; in a Require it is held in every case.
func Within(x, lo, hi units.Quantity) bool {
	if hi.Less(lo) {
		panic(&units.Error{
			Msg:  "Within has its limits the wrong way round, " + lo.String() + " before " + hi.String(),
			Hint: "write the lower limit first, Within(x, " + hi.String() + ", " + lo.String() + ")",
		})
	}
	return atMost(lo, x) && atMost(x, hi)
}

// atMost is a ≤ b, false where one of them is no number. It is not written as
// less or equal: where a and b are equal nominally only, the cases in which a
// is less would count as deciding otherwise.
func atMost(a, b units.Quantity) bool { return !b.Less(a) && a.Equal(a) && b.Equal(b) }

// Spread shows, in a note, how x spreads: its smallest and largest value and
// the case that gives each, what chance makes of it, and the share that each
// source has in that. Outside a note it does nothing.
func Spread(x units.Quantity) {}

// Why shows, in a note, how x came about, down to the inputs and where they
// are from, with what happened inside lib functions step by step. x is a name
// of the note or a field of one: Why(Vout), Why(i.Peak). Outside a note it does
// nothing.
func Why(x any) {}

// Boards sets how many boards a note draws at random to find what chance makes
// of its values, 2,000 without it. More of them narrow the confidence limits
// with the square root of their number. It holds for the whole note.
func Boards(n int) {}

// PartsAreNormal says that all parts of a note which do not say how they are
// distributed are normal, each limit being so many standard deviations from
// the nominal value; without it they are even between their limits. It holds
// for the whole note; Normal(1%, 3) and Uniform(1%) say it of one part.
func PartsAreNormal(sigmas float64) {}

// Table reads a table from a file beside the note, or in a folder below it:
//
//	hold := Table("hold.csv")        // hold current of the fuse [data sheet figure 3]
//	Ihold := hold.At(Ta) ± 10%
//
// The name is written out, with / between folder and file. How the file is
// written and what a table can do stands in package table. The value rests on
// the file: it is computed again when the file has changed, and the stored
// results hold the file's SHA-256. Outside a note there is no folder, and
// table.Read takes the text.
func Table(file string) (table.Table, error) {
	return table.Table{}, &units.Error{Msg: "Table is for the cells of a note", Hint: "read the file and give its text to table.Read"}
}

// Level returns x as a level over the reference ref: Level(P, 1mW) is in dBm.
// It is units.LevelOf under the name that cells use.
func Level(x, ref units.Quantity) units.Quantity { return units.LevelOf(x, ref) }

// Markdown shows a text of the designer's, in Markdown, with values of the
// note in it:
//
//	Markdown(`The rail is {Vout}, in all cases {Vout limits}; with $I_{max}$ = {i.Peak}.`)
//
// What stands in braces is a marker: a name of the note, or a field of one, for
// its value, and with the word limits for its limits in all cases. The text is
// computed again when a value in it changes. It is written out, between quotes
// of either kind or as a sum of such strings, and the call stands by itself at
// the top level of a cell. White space that all its lines begin with is layout.
// HTML in it is shown as text. Outside a note it does nothing.
func Markdown(text string) {}
