// Package notebook reads and writes .ipynb files without loss.
//
// A [Notebook] is a file of the notebook format 4.0 to 4.5, its [Cell]s are
// what the file holds, and an [Output] is one thing that a cell shows:
//
//	n, err := notebook.Read("divider.ipynb")
//	…
//	out, err := notebook.DisplayData(map[string]any{"text/plain": "Vout   3.3 V"}, nil)
//	…
//	err = n.Cells()[2].SetOutputs([]notebook.Output{out})
//	err = n.Write("divider.ipynb")
//
// The text of the file is kept and only what was set is replaced in it: keys
// that this package does not know, the order of keys, the spelling of numbers
// and escapes, the indent, the line ends and the newline at the end stay as
// they are. Outputs that say the same as those already there leave the file as
// it is, to the byte, however those are written. What is new is written as the
// reference writer of the format writes it (keys sorted, text cut into lines),
// in the indent of the file; a canonical file therefore stays canonical.
// Below 4.5 no cell ids are written, for the format forbids them there.
//
// A file that cannot be understood is refused with an [Error] that names the
// line and the cell:
//
//	divider.ipynb:212:9: cell 7: source must be a text or a list of texts, found a number
//
// What it cannot catch: it checks the structure it relies on, not the whole
// schema, so a file with a surplus key or a malformed cell id passes (and stays
// as it is). It does not sign notebooks: what another program wrote counts as
// untrusted in a front end. Between the last look at the file and its
// replacement a few microseconds remain in which another program's save is lost.
package notebook
