package plot

import (
	"errors"
	"fmt"
	"math"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// How much a picture holds: more curves than mostSeries cannot be told apart
// in black and white, more points than mostPoints not in its width.
const (
	mostSeries = 6
	mostPoints = 2000
)

// called is a series in a message.
func called(s Series) string {
	if s.Name == "" {
		return "the series"
	}
	return fmt.Sprintf("series %q", s.Name)
}

func checkSeries(s Series) error {
	switch {
	case len(s.X) != len(s.Y):
		return fmt.Errorf("%s: the number of X is %d, that of Y %d: give each X its Y", called(s), len(s.X), len(s.Y))
	case len(s.X) < 2:
		return fmt.Errorf("%s needs at least two points and has %d: give X and Y of each", called(s), len(s.X))
	case len(s.X) > mostPoints:
		return fmt.Errorf("%s has %d points; a picture shows at most %d: leave some out", called(s), len(s.X), mostPoints)
	}
	for i, x := range s.X {
		if err := checkExact(fmt.Sprintf("X of point %d of %s", i+1, called(s)), x); err != nil {
			return err
		}
		if err := checkFinite(fmt.Sprintf("Y of point %d of %s", i+1, called(s)), s.Y[i]); err != nil {
			return err
		}
		if !alike(x, s.X[0]) {
			return fmt.Errorf("X of point %d of %s is %v, that of point 1 is %v: give all X in the same unit", i+1, called(s), x, s.X[0])
		}
		if !alike(s.Y[i], s.Y[0]) {
			return fmt.Errorf("Y of point %d of %s is %v, that of point 1 is %v: give all Y in the same unit", i+1, called(s), s.Y[i], s.Y[0])
		}
	}
	return nil
}

func checkFigure(f Figure) error {
	if len(f.Series) == 0 {
		return errors.New("the figure has no series: write Series: []plot.Series{…}, each made with plot.Data")
	}
	if len(f.Series) > mostSeries {
		return fmt.Errorf("the figure has %d series; at most %d can be told apart in print: make two figures of them", len(f.Series), mostSeries)
	}
	names := map[string]bool{}
	first := f.Series[0]
	if err := checkSeries(first); err != nil {
		return err
	}
	for _, axis := range []struct {
		log  bool
		name string
		of   units.Quantity
	}{{f.LogX, "LogX", first.X[0]}, {f.LogY, "LogY", first.Y[0]}} {
		if axis.log && axis.of.Dim().Kind() != units.PlainScale {
			return fmt.Errorf("%s is set and the axis shows %v; a temperature or a level has no logarithmic axis: leave out %s", axis.name, axis.of, axis.name)
		}
	}
	for _, s := range f.Series {
		if err := checkSeries(s); err != nil {
			return err
		}
		if len(f.Series) > 1 && s.Name == "" {
			return errors.New("a series has no name: write Name for each where there are several, so that the legend can tell them apart")
		}
		if names[s.Name] {
			return fmt.Errorf("two series are called %q: give each a name of its own", s.Name)
		}
		names[s.Name] = true
		if !alike(s.X[0], first.X[0]) {
			return fmt.Errorf("X of %s is %v, X of %s is %v: curves on one axis need one unit; make two figures of them", called(s), s.X[0], called(first), first.X[0])
		}
		if !alike(s.Y[0], first.Y[0]) {
			return fmt.Errorf("Y of %s is %v, Y of %s is %v: curves on one axis need one unit; make two figures of them", called(s), s.Y[0], called(first), first.Y[0])
		}
		for i, x := range s.X {
			if err := checkLog(f.LogX, "leave the point out, or LogX", fmt.Sprintf("X of point %d of %s", i+1, called(s)), x); err != nil {
				return err
			}
			if err := checkLog(f.LogY, "leave the point out, or LogY", fmt.Sprintf("Y of point %d of %s", i+1, called(s)), s.Y[i]); err != nil {
				return err
			}
		}
	}
	for _, m := range f.Marks {
		if err := checkMark(f, m); err != nil {
			return err
		}
	}
	return nil
}

func checkMark(f Figure, m Mark) error {
	if m.Name == "" {
		return fmt.Errorf("the mark at %v has no name: write Name, such as \"rating\"", m.Value)
	}
	about := fmt.Sprintf("mark %q", m.Name)
	if err := checkExact(about, m.Value); err != nil {
		return err
	}
	axis, on, log, logName := "y", f.Series[0].Y[0], f.LogY, "LogY"
	if m.AlongX {
		axis, on, log, logName = "x", f.Series[0].X[0], f.LogX, "LogX"
	}
	if !alike(m.Value, on) {
		return fmt.Errorf("%s is %v, the %s axis shows %v: give it in the unit of that axis, or set AlongX for a limit on the x axis only", about, m.Value, axis, on)
	}
	return checkLog(log, "leave it out, or "+logName, about, m.Value)
}

// alike reports whether two values may stand on one axis. The coherent unit
// also tells Ω from Ω/sq and Hz from rad/s, which have one dimension.
func alike(x, y units.Quantity) bool { return x.Dim() == y.Dim() && x.SIUnit() == y.SIUnit() }

func checkExact(about string, x units.Quantity) error {
	if x.HasSpread() {
		return fmt.Errorf("%s is %v and has spread; its place in the picture is one: write Nominal(x), Low(x) or High(x)", about, x)
	}
	return checkFinite(about, x)
}

func checkFinite(about string, x units.Quantity) error {
	if !argument.Given(x) {
		return fmt.Errorf("%s is not given, or is the bare number 0: write it with its unit, such as 0 A", about)
	}
	finite := func(v []float64) bool { return !math.IsNaN(v[0]) && math.Abs(v[0]) < 1e100 }
	if where, at, ok := units.Everywhere(finite, x); !ok {
		return fmt.Errorf("%s is %v%s; it must be a finite number: check the formula it comes from", about, at[0], spaced(where))
	}
	return nil
}

func checkLog(log bool, mend, about string, x units.Quantity) error {
	if !log {
		return nil
	}
	if where, at, ok := units.Everywhere(func(v []float64) bool { return v[0] > 1e-100 }, x); !ok {
		return fmt.Errorf("%s is %v%s; a logarithmic axis has no place for it: %s", about, at[0], spaced(where), mend)
	}
	return nil
}

func spaced(where string) string {
	if where == "" {
		return ""
	}
	return " " + where
}
