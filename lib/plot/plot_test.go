package plot

import (
	"fmt"
	"math"
	"testing"

	"ohmwright/units"
)

var q = units.MustParse

func qs(texts ...string) []units.Quantity {
	var out []units.Quantity
	for _, t := range texts {
		out = append(out, q(t))
	}
	return out
}

// What a series is refused for; the message says where and what to write.
func TestDataRefuses(t *testing.T) {
	t.Parallel()
	study := units.NewStudy(units.StudyOptions{})
	load := study.Place("i", "Iload", units.Range(q("1 mA"), q("2 mA"), q("3 mA")))
	huge := q("1 W").Mul(units.Number(math.Inf(1)))
	for _, c := range []struct {
		x, y []units.Quantity
		want string
	}{
		{qs("1 mA", "2 mA"), qs("1 W"), `plot.Data: series "loss": the number of X is 2, that of Y 1: give each X its Y`},
		{qs("1 mA"), qs("1 W"), `plot.Data: series "loss" needs at least two points and has 1: give X and Y of each`},
		{make([]units.Quantity, 2001), make([]units.Quantity, 2001), `plot.Data: series "loss" has 2001 points; a picture shows at most 2000: leave some out`},
		{qs("1 mA", "2 V"), qs("1 W", "2 W"), `plot.Data: X of point 2 of series "loss" is 2 V, that of point 1 is 1 mA: give all X in the same unit`},
		{qs("1 mA", "2 mA"), qs("1 W", "2 V"), `plot.Data: Y of point 2 of series "loss" is 2 V, that of point 1 is 1 W: give all Y in the same unit`},
		{qs("1 Hz", "2 rad/s"), qs("1 W", "2 W"), `plot.Data: X of point 2 of series "loss" is 2 rad/s, that of point 1 is 1 Hz: give all X in the same unit`},
		{[]units.Quantity{q("1 mA"), load}, qs("1 W", "2 W"), `plot.Data: X of point 2 of series "loss" is 2 mA and has spread; its place in the picture is one: write Nominal(x), Low(x) or High(x)`},
		{[]units.Quantity{{}, q("1 mA")}, qs("1 W", "2 W"), `plot.Data: X of point 1 of series "loss" is not given, or is the bare number 0: write it with its unit, such as 0 A`},
		{qs("1 mA", "2 mA"), []units.Quantity{q("1 W"), huge}, `plot.Data: Y of point 2 of series "loss" is ` + huge.String() + `; it must be a finite number: check the formula it comes from`},
	} {
		_, err := Data("loss", c.x, c.y)
		if err == nil || err.Error() != c.want {
			t.Errorf("\ngot  %v\nwant %s", err, c.want)
		}
	}
}

// What a figure is refused for.
func TestNewRefuses(t *testing.T) {
	t.Parallel()
	study := units.NewStudy(units.StudyOptions{})
	offset := study.Place("v", "Voff", units.Tolerance(q("1 mV"), q("2 mV")))
	s := Series{Name: "a", X: qs("1 mA", "2 mA"), Y: qs("1 W", "2 W")}
	other := Series{Name: "b", X: qs("1 V", "2 V"), Y: qs("1 W", "2 W")}
	volts := Series{Name: "b", X: qs("1 mA", "2 mA"), Y: qs("1 V", "2 V")}
	for _, c := range []struct {
		f    Figure
		want string
	}{
		{Figure{}, "plot.New: the figure has no series: write Series: []plot.Series{…}, each made with plot.Data"},
		{Figure{Series: make([]Series, 7)}, "plot.New: the figure has 7 series; at most 6 can be told apart in print: make two figures of them"},
		{Figure{Series: make([]Series, 1)}, "plot.New: the series needs at least two points and has 0: give X and Y of each"},
		{Figure{Series: []Series{s, {X: s.X, Y: s.Y}}}, "plot.New: a series has no name: write Name for each where there are several, so that the legend can tell them apart"},
		{Figure{Series: []Series{s, s}}, `plot.New: two series are called "a": give each a name of its own`},
		{Figure{Series: []Series{s, other}}, `plot.New: X of series "b" is 1 V, X of series "a" is 1 mA: curves on one axis need one unit; make two figures of them`},
		{Figure{Series: []Series{s, volts}}, `plot.New: Y of series "b" is 1 V, Y of series "a" is 1 W: curves on one axis need one unit; make two figures of them`},
		{Figure{LogX: true, Series: []Series{{Name: "a", X: qs("0 A", "1 A"), Y: s.Y}}}, `plot.New: X of point 1 of series "a" is 0 A; a logarithmic axis has no place for it: leave the point out, or LogX`},
		{Figure{LogX: true, Series: []Series{{Name: "a", X: qs("0 °C", "1 °C"), Y: s.Y}}}, "plot.New: LogX is set and the axis shows 0 °C; a temperature or a level has no logarithmic axis: leave out LogX"},
		{Figure{LogY: true, Series: []Series{{Name: "a", X: s.X, Y: []units.Quantity{q("1 V"), offset}}}}, `plot.New: Y of point 2 of series "a" is −1 mV where Voff is −1 mV; a logarithmic axis has no place for it: leave the point out, or LogY`},
		{Figure{Series: []Series{s}, Marks: []Mark{{Value: q("1 W")}}}, `plot.New: the mark at 1 W has no name: write Name, such as "rating"`},
		{Figure{Series: []Series{s}, Marks: []Mark{{Name: "m", Value: q("1 A")}}}, `plot.New: mark "m" is 1 A, the y axis shows 1 W: give it in the unit of that axis, or set AlongX for a limit on the x axis only`},
		{Figure{Series: []Series{s}, Marks: []Mark{{Name: "m", Value: q("1 W"), AlongX: true}}}, `plot.New: mark "m" is 1 W, the x axis shows 1 mA: give it in the unit of that axis, or set AlongX for a limit on the x axis only`},
		{Figure{LogY: true, Series: []Series{s}, Marks: []Mark{{Name: "m", Value: q("-1 W")}}}, `plot.New: mark "m" is −1 W; a logarithmic axis has no place for it: leave it out, or LogY`},
		{Figure{Series: []Series{volts}, Marks: []Mark{{Name: "m", Value: offset}}}, `plot.New: mark "m" is 1 mV and has spread; its place in the picture is one: write Nominal(x), Low(x) or High(x)`},
	} {
		_, err := New(c.f)
		if err == nil || err.Error() != c.want {
			t.Errorf("\ngot  %v\nwant %s", err, c.want)
		}
	}
}

// What fits comes back as it was given, spread of Y included.
func TestFigureIsKept(t *testing.T) {
	t.Parallel()
	study := units.NewStudy(units.StudyOptions{})
	gain := study.Place("g", "gain", units.Tolerance(q("50 %"), q("1 mV").Div(q("1 V"))))
	s, err := Data("a", qs("1 mA", "100 µA"), []units.Quantity{gain, units.Number(0.25)})
	if err != nil {
		t.Fatal(err)
	}
	f, err := New(Figure{Title: "t", XName: "x", LogX: true, LogY: true, Series: []Series{s}, Marks: []Mark{{Name: "m", Value: q("10 µA"), AlongX: true}, {Name: "n", Value: q("20 %")}}})
	if err != nil {
		t.Fatal(err)
	}
	if y := f.Series[0].Y[0]; !y.Identical(gain) || !y.HasSpread() || f.Title != "t" || !f.LogX || len(f.Marks) != 2 {
		t.Errorf("the figure has changed: %+v", f)
	}
	// A temperature and a level have linear axes.
	if _, err := New(Figure{Series: []Series{{X: qs("-40 °C", "0 °C"), Y: qs("-20 dBm", "0 dBm")}}}); err != nil {
		t.Error(err)
	}
	if splits, n := study.TakeSplits(); n != 0 {
		t.Errorf("a check decides: %v", splits)
	}
}

func TestSteps(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		steps    func(a, b units.Quantity, n int) ([]units.Quantity, error)
		from, to units.Quantity
		count    int
		want     string
	}{ // by hand
		{Steps, q("0 A"), q("2 A"), 5, "[0 A 500 mA 1 A 1.5 A 2 A]"},
		{Steps, units.Quantity{}, q("2 A"), 3, "[0 A 1 A 2 A]"},
		{Steps, q("-40 °C"), q("85 °C"), 3, "[−40 °C 22.5 °C 85 °C]"},
		{Steps, q("-10 dBm"), q("20 dBm"), 4, "[−10 dBm 0 dBm 10 dBm 20 dBm]"},
		{StepsLog, q("1 kHz"), q("1 MHz"), 4, "[1 kHz 10 kHz 100 kHz 1 MHz]"},
		{StepsLog, q("1 mA"), q("100 mA"), 2, "[1 mA 100 mA]"},
		{Steps, q("2 A"), q("2 A"), 5, "plot.Steps: the steps go from 2 A to 2 A: write the smaller end first"},
		{Steps, q("1 V"), q("2 A"), 5, "plot.Steps: the steps go from 1 V to 2 A: give both ends in the same unit"},
		{Steps, q("1 A"), q("2 A"), 1, "plot.Steps: count is 1; it must be from 2 to 2000: a curve needs two points, and a picture shows no more than that"},
		{Steps, q("-1 A"), units.Quantity{}, 2, "plot.Steps: the last step is not given, or is the bare number 0: write it with its unit, such as 0 A"},
		{StepsLog, q("0 A"), q("2 A"), 5, "plot.StepsLog: the first step is 0 A; a logarithmic axis has no place for it: start above zero"},
		{StepsLog, q("1 °C"), q("2 °C"), 5, "plot.StepsLog: the steps go from 1 °C to 2 °C; a temperature or a level has no ratio: use Steps"},
	} {
		list, err := c.steps(c.from, c.to, c.count)
		got := fmt.Sprint(list)
		if err != nil {
			got = err.Error()
		}
		if got != c.want {
			t.Errorf("from %v to %v\ngot  %s\nwant %s", c.from, c.to, got, c.want)
		}
	}
}
