// Package table holds curves as data sheets give them: tables of text whose
// columns are headed by a quantity and its unit, read between their rows.
//
//	t, err := table.Text("ambient [°C], hold current [A]\n-40, 2.2\n25, 1.5\n85, 0.8")
//	I, err := t.At(units.MustParse("55 °C"))   // 1.15 A
//
// In a cell, Table("hold.csv") reads the same from a file beside the note. A
// function of lib that needs a curve takes a Table.
//
// The first column is the input, the others are outputs that depend on it; Of
// chooses one of several. Where the values of the first column come again for
// each value of the second, the table is a family of curves and both are
// inputs: At(load, junction) reads along the curves of the two junction
// temperatures around and then between them.
//
// The text is CSV in UTF-8. A heading is a name and a unit in brackets, [1] for
// a plain number, with log behind it where the axis is logarithmic:
// "frequency [Hz] log". A cell is a plain number in the unit of its heading, a
// value with a unit of its own (250 mA), or a marking code (4k7). The inputs
// rise from row to row. An output may be left blank where nothing is known.
// Lines that start with # are comments. Decimals have a point; a file whose
// columns are separated by semicolons may have decimal commas instead, if all
// of it has. Thousands are not separated.
//
// What fails: a table that could be read in two ways, with the line and the
// column; a value outside of the columns' range, with the case in which it is
// outside, unless Held or Extended say what holds there.
//
// What it cannot know: whether a curve is typical or a limit, and how bent it
// is between two rows. Its values are exact; a tolerance belongs to what At
// returns.
package table
