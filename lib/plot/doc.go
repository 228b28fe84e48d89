// Package plot holds what a picture of curves is made of, as data: series of
// points, limits drawn across them, axes. A cell whose last expression is
// a Figure, a Series or a list of series shows the picture.
//
//	loss, err := plot.Data("loss", []units.Quantity{1mA, 10mA, 100mA}, []units.Quantity{20mW, 29mW, 110mW})
//	fig, err := plot.New(plot.Figure{
//		XName: "load", YName: "loss", LogX: true,
//		Series: []plot.Series{loss},
//		Marks:  []plot.Mark{{Name: "allowed", Value: 100mW}},
//	})
//
// In a cell the functions Plot, Curve and Trend make figures of values,
// functions and the note itself.
//
// What fails: a series whose X and Y are not of one length or have fewer than
// two points, values of several dimensions on one axis, X that differs from
// board to board, zero or less on a logarithmic axis. Each error names the
// series, the point, its value, and what to write instead.
//
// Y may carry spread: the picture shows the nominal curve and, shaded, the
// limits over all cases. The points of a series are joined by straight lines in
// the order in which they are given; what a curve does between two of its
// points no picture can know, so take enough of them.
package plot
