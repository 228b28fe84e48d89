// Package divider computes voltage dividers: plain and loaded, the feedback
// divider of an adjustable regulator, and the divider in front of a
// converter input with its errors, settling and over-voltage.
//
// In all of them the upper resistor goes from the input to the node, the
// lower one from the node to ground:
//
//	input ── upper ──┬── node (output, feedback pin, converter input)
//	               lower
//	                 │
//	               ground
//
//	d, err := divider.Plain(12V, 10kΩ, 3.3kΩ)
//	// d.Output is 2.977 V, d.Resistance (seen by the load) 2.481 kΩ
//
// What fails: a resistor of 0 Ω or less, a quantity of another dimension, a
// load that takes more than the divider delivers. Each error names the
// argument, its value, the limit, and what to change.
//
// Where a function takes more than three arguments they are the fields of a
// struct. A field that is left out counts as zero where its comment says so.
// The fields of every result are the steps of the computation, in order.
//
// What the package cannot know: the tolerance and temperature coefficient of
// the resistors (write them as spread), their voltage rating (a single small
// chip resistor often ends at 50 V to 200 V), and noise picked up by a
// high-impedance node.
package divider
