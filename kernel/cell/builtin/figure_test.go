package builtin_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"ohmwright/kernel/cell/builtin"
	"ohmwright/lib/plot"
	"ohmwright/units"
)

func names(f plot.Figure) (list []string) {
	for _, s := range f.Series {
		list = append(list, s.Name)
	}
	return list
}

func TestPlotJoins(t *testing.T) {
	t.Parallel()
	series := func(name string) plot.Series {
		return plot.Series{Name: name, X: []units.Quantity{q("1A"), q("2A")}, Y: []units.Quantity{q("1V"), q("2V")}}
	}
	limit := plot.Mark{Name: "limit", Value: q("3V")}
	a := plot.Figure{Title: "t", XName: "load", YName: "a", Series: []plot.Series{series("a")}, Marks: []plot.Mark{limit}}
	b := plot.Figure{Title: "t", XName: "load", YName: "b", LogX: true, Series: []plot.Series{series("b")}, Marks: []plot.Mark{limit, {Name: "other", Value: q("4V")}}}
	f := builtin.Plot(a, b, series("c"), []plot.Series{series("d"), series("e")})
	if got, want := names(f), []string{"a", "b", "c", "d", "e"}; !slices.Equal(got, want) {
		t.Errorf("series %v, want %v", got, want)
	}
	if f.Title != "t" || f.XName != "load" || f.YName != "" || !f.LogX || f.LogY || len(f.Marks) != 2 {
		t.Errorf("%+v", f)
	}
	if f := builtin.Plot(a); f.YName != "a" || len(f.Marks) != 1 {
		t.Errorf("alone: %+v", f)
	}
	// Plot(plot.Data(…)) is legal Go and hands over the error, too.
	if got := names(builtin.Plot(series("a"), nil)); !slices.Equal(got, []string{"a"}) {
		t.Errorf("with no error: %v", got)
	}
	for want, parts := range map[string][]any{
		"Plot cannot draw its argument 1": {nil},
		"Plot has nothing to draw: no x":  {plot.Series{}, errors.New("no x")},
		"Plot cannot draw its argument 2": {a, 3},
		"Plot cannot draw this":           {a, a},
	} {
		if err := failure(t, func() { builtin.Plot(parts...) }); err.Msg != want {
			t.Errorf("%q, want %q", err.Msg, want)
		}
	}
}

// Straight lines join the points of a curve. Nowhere are they off by more than
// some thousandths of its height, near a resonance as well: here of the
// impedance of 10 µH and 1 µF in series, with 0.1 Ω.
func TestCurveFollowsWhereItBends(t *testing.T) {
	t.Parallel()
	z := func(f units.Quantity) units.Quantity {
		w := 2 * math.Pi * f.SI()
		return q("1Ω").Mul(units.Number(math.Hypot(0.1, w*10e-6-1/(w*1e-6))))
	}
	admittance := func(f units.Quantity) units.Quantity { return units.Number(1).Div(z(f)) }
	for _, c := range []struct {
		name string
		f    func(units.Quantity) units.Quantity
		fig  plot.Figure
	}{
		{"linear", admittance, builtin.Curve("y", admittance, q("10kHz"), q("200kHz"))},
		{"logarithmic", admittance, builtin.CurveLog("y", admittance, q("10kHz"), q("1MHz"))},
		{"level", func(units.Quantity) units.Quantity { return q("1S") }, builtin.Curve("y", func(units.Quantity) units.Quantity { return q("1S") }, q("10kHz"), q("200kHz"))},
	} {
		s := c.fig.Series[0]
		if len(s.X) > 400 || c.name == "level" && len(s.X) != 61 || c.name != "level" && len(s.X) <= 61 {
			t.Errorf("%s: %d points", c.name, len(s.X))
		}
		top, worst := 0.0, 0.0
		for i := 1; i < len(s.X); i++ {
			if !s.X[i-1].Less(s.X[i]) {
				t.Fatalf("%s: the points are out of order at %d", c.name, i)
			}
			top = math.Max(top, s.Y[i].SI())
			middle := s.X[i-1].Add(s.X[i].Sub(s.X[i-1]).Mul(units.Number(0.5)))
			worst = math.Max(worst, math.Abs(c.f(middle).SI()-(s.Y[i-1].SI()+s.Y[i].SI())/2))
		}
		if worst > 0.006*top {
			t.Errorf("%s: off by %v of %v", c.name, worst, top)
		}
		// Resonance lies at 1/(2π√(10 µH · 1 µF)) = 50.33 kHz, where 1/Z is 10 S.
		if c.name != "level" && math.Abs(top-10) > 0.1 {
			t.Errorf("%s: the peak is %v S, want 10 S", c.name, top)
		}
	}
}

func TestCurveErrors(t *testing.T) {
	t.Parallel()
	same := func(x units.Quantity) units.Quantity { return x }
	for want, f := range map[string]func(){
		"Curve has no function to draw: ": func() { builtin.Curve("a", nil, q("1V"), q("2V")) },
		"Curve cannot draw this: the steps go from 2 V to 1 V: write the smaller end first":                           func() { builtin.Curve("a", same, q("2V"), q("1V")) },
		"CurveLog cannot draw this: the first step is 0 V; a logarithmic axis has no place for it: start above zero":  func() { builtin.CurveLog("a", same, q("0V"), q("1V")) },
		"CurveLog cannot draw this: the steps go from 0 °C to 1 °C; a temperature or a level has no ratio: use Steps": func() { builtin.CurveLog("a", same, q("0°C"), q("1°C")) },
		"Trend is for notes: compute the value in a loop":                                                             func() { builtin.Trend(q("1V"), q("1V"), q("1V"), q("2V")) },
		"TrendLog is for notes: compute the value in a loop":                                                          func() { builtin.TrendLog(q("1V"), q("1V"), q("1V"), q("2V")) },
	} {
		if err := failure(t, f); err.Msg+": "+err.Hint != want {
			t.Errorf("%q, want %q", err.Msg+": "+err.Hint, want)
		}
	}
}
