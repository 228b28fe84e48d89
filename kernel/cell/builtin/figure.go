package builtin

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ohmwright/lib/plot"
	"ohmwright/units"
)

// Plot puts series, lists of series and figures into one figure, which a cell
// shows as a picture where it stands alone:
//
//	Plot(measured, Trend(Vdrop, Iout, 0.1A, 2A))
//
// Names of axes on which the parts do not agree are left out, their marks are
// all drawn, and an axis is logarithmic where it is in one of them. A misuse
// panics with *units.Error.
func Plot(parts ...any) plot.Figure {
	var f plot.Figure
	for i, p := range parts {
		switch p := p.(type) {
		case plot.Series:
			f.Series = append(f.Series, p)
		case []plot.Series:
			f.Series = append(f.Series, p...)
		case plot.Figure:
			joinFigure(&f, p)
		case error:
			panic(&units.Error{Msg: "Plot has nothing to draw: " + p.Error()})
		default:
			if p == nil && i == 1 && len(parts) == 2 {
				continue // Plot(plot.Data(…)): Go hands over the error of Data, too, and there is none
			}
			panic(&units.Error{Msg: fmt.Sprintf("Plot cannot draw its argument %d", i+1),
				Hint: "it takes series, made with plot.Data, and figures, made with Curve and Trend"})
		}
	}
	return checked("Plot", f)
}

// joinFigure adds a figure to another.
func joinFigure(f *plot.Figure, p plot.Figure) {
	name := func(mine *string, other string) {
		switch {
		case len(f.Series) == 0:
			*mine = other
		case *mine != other:
			*mine = ""
		}
	}
	name(&f.Title, p.Title)
	name(&f.XName, p.XName)
	name(&f.YName, p.YName)
	f.Series = append(f.Series, p.Series...)
	for _, m := range p.Marks {
		if !slices.ContainsFunc(f.Marks, func(o plot.Mark) bool {
			return o.Name == m.Name && o.AlongX == m.AlongX && o.Value.Identical(m.Value)
		}) {
			f.Marks = append(f.Marks, m)
		}
	}
	f.LogX, f.LogY = f.LogX || p.LogX, f.LogY || p.LogY
}

func checked(function string, f plot.Figure) plot.Figure {
	f, err := plot.New(f)
	if err != nil {
		panic(&units.Error{Msg: function + " cannot draw this", Hint: withoutPrefix(err)})
	}
	return f
}

// withoutPrefix is an error of package plot without the function's name.
func withoutPrefix(err error) string {
	_, text, _ := strings.Cut(err.Error(), ": ")
	return text
}

// Curve computes f from one value to another and gives the figure of it:
//
//	Curve("loss", func(load Quantity) Quantity { return load*load*Rwind }, 10mA, 2A)
//
// Where the curve bends it takes more points. f is computed in every case of
// the values that it uses, as anything is. A misuse panics with *units.Error.
func Curve(name string, f func(units.Quantity) units.Quantity, from, to units.Quantity) plot.Figure {
	return curve("Curve", name, f, from, to, false)
}

// CurveLog is Curve with points that are spread over decades, and
// a logarithmic axis for them.
func CurveLog(name string, f func(units.Quantity) units.Quantity, from, to units.Quantity) plot.Figure {
	return curve("CurveLog", name, f, from, to, true)
}

func curve(function, name string, f func(units.Quantity) units.Quantity, from, to units.Quantity, log bool) plot.Figure {
	if f == nil {
		panic(&units.Error{Msg: function + " has no function to draw"})
	}
	steps := plot.Steps
	if log {
		steps = plot.StepsLog
	}
	x, err := steps(from, to, curvePoints)
	if err != nil {
		panic(&units.Error{Msg: function + " cannot draw this", Hint: withoutPrefix(err)})
	}
	y := make([]units.Quantity, len(x))
	for i := range x {
		y[i] = f(x[i])
	}
	x, y = refine(x, y, f, log)
	return checked(function, plot.Figure{YName: name, LogX: log, Series: []plot.Series{{Name: name, X: x, Y: y}}})
}

const (
	curvePoints = 61
	mostPoints  = 400   // of a curve that is refined
	flatEnough  = 0.002 // of the height of the curve: how far off a straight line nobody sees
	refinings   = 6
)

// refine halves the intervals in which the curve is not straight.
func refine(x, y []units.Quantity, f func(units.Quantity) units.Quantity, log bool) (xs, ys []units.Quantity) {
	for range refinings {
		low, high := y[0].SI(), y[0].SI()
		for _, q := range y {
			low, high = math.Min(low, q.SI()), math.Max(high, q.SI())
		}
		xs, ys = x[:1:1], y[:1:1]
		before := false // there is a bend at the start of the interval
		for i := 1; i < len(x); i++ {
			here := i+1 < len(x) && math.Abs(y[i-1].SI()-2*y[i].SI()+y[i+1].SI()) > 8*flatEnough*(high-low)
			if (before || here) && len(xs)+len(x)-i < mostPoints {
				m := x[i-1].Add(x[i].Sub(x[i-1]).Mul(units.Number(0.5)))
				if log {
					m = x[i-1].Mul(units.Pow(x[i].Div(x[i-1]), 0.5))
				}
				if x[i-1].Less(m) && m.Less(x[i]) {
					xs, ys = append(xs, m), append(ys, f(m))
				}
			}
			xs, ys = append(xs, x[i]), append(ys, y[i])
			before = here
		}
		if len(xs) == len(x) {
			break
		}
		x, y = xs, ys
	}
	return x, y
}

// Trend shows how y moves when x goes from one value to another and all that
// lies between them in the note is computed anew:
//
//	Trend(Tj, Iout, 0.1A, 2A)
//
// y is a name of the note, or a field of one, and x an input of it. The parts
// that the note chose stay chosen: it asks what the board does that was
// built. All else keeps its spread. Limits that a Require at the top level of
// a cell sets to y, as in Require(Tj <= 125°C, …), are drawn with it.
//
// It means something in a note only, and panics with *units.Error elsewhere.
func Trend(y, x, from, to units.Quantity) plot.Figure { panic(notInANote("Trend")) }

// TrendLog is Trend with points that are spread over decades, and
// a logarithmic axis for them.
func TrendLog(y, x, from, to units.Quantity) plot.Figure { panic(notInANote("TrendLog")) }

func notInANote(function string) *units.Error {
	return &units.Error{Msg: function + " is for notes", Hint: "compute the value in a loop"}
}
