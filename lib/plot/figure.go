package plot

import (
	"fmt"

	"ohmwright/units"
)

// Series is one curve: points that are joined in the order in which they stand.
type Series struct {
	Name string           // as the legend calls it
	X    []units.Quantity // exact, all of one dimension
	Y    []units.Quantity // as many as X, all of one dimension; with spread, its limits are shaded
}

// Mark is a limit that is drawn as a line across the picture, with its name.
type Mark struct {
	Name   string
	Value  units.Quantity // exact
	AlongX bool           // Value lies on the x axis; otherwise on the y axis
}

// Figure is a picture of curves over common axes.
type Figure struct {
	Title        string
	XName, YName string // what the axes show: "load current"; the units are found from the values
	Series       []Series
	Marks        []Mark
	LogX, LogY   bool // logarithmic axes
}

// Data makes a series of points.
//
//	point i = (xᵢ, yᵢ)
//
// Arguments: name, as the legend is to call it; x, at least two and at most
// 2000 exact values of one dimension; y, as many values of one dimension, which
// may have spread. Result: the series. It is an error if the lists differ in
// length, or a value is not given, not finite, or of another dimension than
// the first of its list.
//
//	s, err := plot.Data("loss", []units.Quantity{10mA, 20mA}, []units.Quantity{29mW, 38mW})
//
// Source: a definition. Caution: the picture joins the points by straight
// lines.
func Data(name string, x, y []units.Quantity) (Series, error) {
	series := Series{Name: name, X: x, Y: y}
	if err := checkSeries(series); err != nil {
		return Series{}, fmt.Errorf("plot.Data: %w", err)
	}
	return series, nil
}

// New checks a figure.
//
//	figure = series over common axes, and marks across them
//
// Argument: figure, with one to six series, whose X are of one dimension and
// whose Y are of one dimension; each mark is of the dimension of its axis. Several
// series have names of their own. Result: the figure. It is an error if
// a series or mark does not fit, or if anything on a logarithmic axis is not
// above zero in every case.
//
//	fig, err := plot.New(plot.Figure{XName: "load", YName: "loss", LogX: true, Series: []plot.Series{s}})
//
// Source: a definition. Caution: a logarithmic axis makes much of small
// values; it has no zero.
func New(figure Figure) (Figure, error) {
	if err := checkFigure(figure); err != nil {
		return none, fmt.Errorf("plot.New: %w", err)
	}
	return figure, nil
}
