package note_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"ohmwright/kernel/note"
	"ohmwright/lib/plot"
	"ohmwright/units"
)

// plotted are the figures in the results.
func plotted(t testing.TB, rs []*note.Result) (out []plot.Figure) {
	t.Helper()
	for _, r := range rs {
		for _, e := range r.Errors {
			t.Fatalf("%s, line %d: %v", r.Label, e.Line, e)
		}
		for _, i := range r.Items {
			if p, ok := i.(*note.Plotted); ok {
				out = append(out, p.Figure)
			}
		}
	}
	return out
}

// heater is a note of several cells in which Tj follows from Iout in three of
// them; by hand Tj = 25 °C + 50 K/W · (R·Iout² + 0.5 V·Iout), R being 10 Ω ± 10 %.
var heater = []string{
	"Ta := 25°C\nIout := Range(2mA, 15mA, 25mA)\nRs := 10Ω ± 10%",
	"drop := 0.5V",
	"Pr := Rs*Iout*Iout",
	"Pd := Pr + drop*Iout",
	"Tj := Ta + Pd*50K/W",
	"Tjmax := Band(100°C, 110°C, 120°C)\nRequire(Tj <= Tjmax, \"cool\")\nRequire(Tj < 90°C, \"by far\")\nRequire(-40°C <= Tj, \"not frozen\")",
	"Trend(Tj, Iout, 0mA, 300mA)",
}

func tjByHand(amperes, ohms float64) float64 {
	return 298.15 + 50*(ohms*amperes*amperes+0.5*amperes)
}

func TestTrend(t *testing.T) {
	t.Parallel()
	_, rs := compute(t, heater...)
	f := plotted(t, rs)[0]
	if f.XName != "Iout" || f.YName != "Tj" || f.LogX || len(f.Series) != 1 {
		t.Fatalf("%+v", f)
	}
	s := f.Series[0]
	for i, x := range s.X {
		if want := 0.3 * float64(i) / float64(len(s.X)-1); math.Abs(x.SI()-want) > 1e-15 {
			t.Errorf("point %d is at %v, want %v A", i, x, want)
		}
		low, high, ok := s.Y[i].Limits()
		if !ok && i > 0 {
			t.Fatalf("Tj has no limits at %v", x)
		}
		for _, c := range []struct {
			got  units.Quantity
			ohms float64
		}{{s.Y[i], 10}, {low, 9}, {high, 11}} {
			if want := tjByHand(x.SI(), c.ohms); i > 0 && math.Abs(c.got.SI()-want) > 1e-9 {
				t.Errorf("at %v Tj is %v, want %v K", x, c.got.SI(), want)
			}
		}
	}
	// The limits that the note sets, the stricter end of one that spreads.
	var marks []string
	for _, m := range f.Marks {
		marks = append(marks, m.Name)
	}
	if got, want := strings.Join(marks, ", "), "Tj ≤ 100 °C, Tj ≤ 90 °C, Tj ≥ −40 °C"; got != want {
		t.Errorf("marks %s, want %s", got, want)
	}
}

// A Trend at a value gives what the note gives with that value in its place:
// parts stay chosen, High follows, a decision is taken in each case.
func TestTrendIsWhatTheNoteGives(t *testing.T) {
	t.Parallel()
	cells := []string{
		"Boards(100) // fewer cases in which the notes are computed\nVin := Range(18V, 24V, 32V)\nIout := Range(10mA, 20mA, 40mA)\nRs := 10Ω ± 1%",
		"Rtop := Nearest(E24, 1V/Iout) ± 1%",
		"worst := High(Iout)*Rs",
		"V := Vin - Rtop*Iout\nif V > 20V {\n\tV = 20V\n}",
		"type pair struct{ A, B Quantity }\nfunc both(k Quantity) pair { return pair{V*k, worst + V*Iout*1Ω/1V} }",
		"res := both(2)",
		"Trend(res.B, Iout, 10mA, 40mA)",
	}
	n, rs := compute(t, cells...)
	s := plotted(t, rs)[0].Series[0]
	for _, i := range []int{0, 17, 60} {
		if err := n.WhatIf(map[string]string{"Iout": fmt.Sprintf("%.17gA", s.X[i].SI())}, false); err != nil {
			t.Fatal(err)
		}
		res := entry(n.Run(context.Background()), "res")
		want := res.Value.Items[1].Value.Quantity.(units.Quantity)
		if math.Abs(want.SI()-s.Y[i].SI()) > 1e-12 {
			t.Errorf("at %v the Trend has %v, the note %v", s.X[i], s.Y[i].SI(), want.SI())
		}
		wl, wh, _ := want.Limits()
		gl, gh, _ := s.Y[i].Limits()
		if math.Abs(wl.SI()-gl.SI()) > 1e-12 || math.Abs(wh.SI()-gh.SI()) > 1e-12 {
			t.Errorf("at %v the Trend goes from %v to %v, the note from %v to %v", s.X[i], gl, gh, wl, wh)
		}
	}
	if err := n.WhatIf(nil, false); err != nil {
		t.Fatal(err)
	}
}

// The points of a Trend are values of the note: a requirement on one of them is
// judged in all cases and on all boards as one on the same thing written out.
func TestTrendIsComputedWith(t *testing.T) {
	t.Parallel()
	cells := append(heater[:len(heater)-1:len(heater)-1],
		"g := Trend(Tj, Iout, 0mA, 300mA)\nTop := g.Series[0].Y[60]\nRequire(Top <= 79°C, \"at the end\")",
		"T2 := Ta + (Rs*0.3A*0.3A + drop*0.3A)*50K/W\nRequire(T2 <= 79°C, \"at the end\")")
	_, rs := compute(t, cells...)
	plotted(t, rs)
	var needs []*note.Requirement
	for _, r := range rs[6:] {
		for _, i := range r.Items {
			if q, ok := i.(*note.Requirement); ok {
				needs = append(needs, q)
			}
		}
	}
	if len(needs) != 2 {
		t.Fatalf("%d requirements", len(needs))
	}
	a, b := needs[0], needs[1]
	if a.Yield == nil || b.Yield == nil || a.Yield.Passed != b.Yield.Passed || a.Yield.Passed == a.Yield.Boards || a.WorstCase != b.WorstCase ||
		math.Abs(a.Worst.SI()-b.Worst.SI()) > 1e-9 {
		t.Errorf("at the end of the Trend %+v, written out %+v", a, b)
	}
	if got, want := entry(rs, "g").Value.Text, "figure, Tj over Iout, 61 points"; got != want {
		t.Errorf("g is shown as %q, want %q", got, want)
	}
}

// A change between x and y that leaves y as it is in the design moves the
// curve, and the Trend is computed again; so is it where a limit changes.
func TestTrendFollowsWhatLiesBetween(t *testing.T) {
	t.Parallel()
	cells := []string{"x := 2V", "k := x*x/1V", "y := k + 1V", "Trend(y, x, 0V, 4V)", "Require(y <= 30V, \"low\")", "z := 5"}
	n, rs := compute(t, cells...)
	end := func(rs []*note.Result) float64 { return plotted(t, rs)[0].Series[0].Y[60].SI() }
	if got := end(rs); got != 17 { // 4·4 + 1
		t.Errorf("%v at the end, want 17", got)
	}
	edit := func(id, code string) []*note.Result {
		n.Put(note.Source{ID: id, Code: code})
		return n.Run(context.Background())
	}
	if got := end(edit("c2", "k := x*2")); got != 9 { // 4·2 + 1; k is 4 V as before
		t.Errorf("%v at the end, want 9", got)
	}
	if rs := edit("c6", "z := 6"); rs[3].Ran {
		t.Error("a Trend runs again where nothing of it changed")
	}
	rs = edit("c5", "Require(y <= 20V, \"low\")")
	if m := plotted(t, rs)[0].Marks; len(m) != 1 || m[0].Value.SI() != 20 {
		t.Errorf("the mark is %v, want one at 20 V", m)
	}
	rs = edit("c5", "lim := 25V\nRequire(y <= lim, \"low\")")
	if m := plotted(t, rs)[0].Marks; len(m) != 1 || m[0].Value.SI() != 25 {
		t.Errorf("the mark is %v, want one at 25 V", m)
	}
	// A limit that needs the figure itself, or moves with x, is no line.
	rs = edit("c5", "lim := x*10\nRequire(y <= lim, \"low\")")
	if m := plotted(t, rs)[0].Marks; len(m) != 0 {
		t.Errorf("the mark is %v, want none", m)
	}
	// A limit that cannot be computed takes no picture away.
	rs = edit("c5", "lim := 1V + 1A\nRequire(y <= lim, \"low\")")
	if rs[3].State != note.Done {
		t.Errorf("the figure waits: %v", rs[3].Errors)
	}
}

// The order of the cells says nothing, nor does the order in which they ran.
func TestTrendStandsAnywhere(t *testing.T) {
	t.Parallel()
	text := func(f plot.Figure) string { return fmt.Sprintf("%.6v %v", f.Series[0].Y, f.Marks) }
	_, rs := compute(t, heater...)
	want := text(plotted(t, rs)[0])
	for shift := range heater {
		n := note.New(note.Options{World: world})
		for i := range heater {
			k := (i*3 + shift) % len(heater)
			n.Put(note.Source{ID: fmt.Sprint("c", k), Code: heater[k]})
			n.Run(context.Background())
		}
		if got := text(plotted(t, n.Run(context.Background()))[0]); got != want {
			t.Errorf("from %d on:\n%s, want\n%s", shift, got, want)
		}
	}
}

// What a Trend does on the way leaves no trace in the note.
func TestTrendLeavesNoTrace(t *testing.T) {
	t.Parallel()
	cells := []string{"I := 1A", "R := (0.1V/I) ± 1%", "U := R*2A", "Trend(U, I, 1A, 9A)", "if U > 0.1V {\n\tx := 1\n\t_ = x\n}\nw := U*2\nRequire(w <= 401mV, \"w\")"}
	_, with := compute(t, cells...)
	cells[3] = "q := 1"
	_, without := compute(t, cells...)
	plotted(t, with)
	a, b := with[4].Items, without[4].Items
	for i := range a {
		if x, ok := a[i].(*note.Requirement); ok {
			if y := b[i].(*note.Requirement); x.WorstCase != y.WorstCase {
				t.Errorf("with a Trend the worst case is %s, without %s", x.WorstCase, y.WorstCase)
			}
		}
	}
}

func TestTrendLog(t *testing.T) {
	t.Parallel()
	_, rs := compute(t, "f := 1kHz\nC := 1µF", "Xc := 1/(2*Pi*f*C)", "TrendLog(Xc, f, 10Hz, 1MHz)")
	got := plotted(t, rs)[0]
	if !got.LogX || got.Series[0].X[60].SI() != 1e6 || math.Abs(got.Series[0].X[12].SI()-100) > 1e-9 {
		t.Errorf("logarithmic %v, points %v", got.LogX, got.Series[0].X)
	}
}

// Cells show series, lists of series and figures, of values and of functions.
func TestFiguresOfCells(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ cells, want string }{
		{`plot.Data("a", []Quantity{1mA, 2mA}, []Quantity{1W, 2W})`, "[a 2]"},
		{"s := plot.Data(\"a\", []Quantity{1mA, 2mA}, []Quantity{1W, 2W})\nr := plot.Series{Name: \"b\", X: s.X, Y: []Quantity{0W, 1W}}\n[]plot.Series{s, r}", "[a 2][b 2]"},
		{`plot.New(plot.Figure{Series: []plot.Series{plot.Data("a", []Quantity{1mA, 2mA}, []Quantity{1W, 2W})}})`, "[a 2]"},
		{"R := 2Ω\n---\nCurve(\"P\", func(I Quantity) Quantity { return I*I*R }, 0A, 2A)", "[P 61]"},
		{"R := 2Ω\n---\nfunc p(I Quantity) Quantity { return I*I*R }\n---\nPlot(Curve(\"P\", p, 0A, 2A), plot.Data(\"m\", []Quantity{1A, 2A}, []Quantity{1W, 2W}))", "[P 61][m 2]"},
		{"R := 2Ω\n---\nlist := []plot.Series{plot.Data(\"m\", []Quantity{1A, 2A}, []Quantity{1W, 2W})}\nPlot(list)", "[m 2]"},
		{"x := 1V\n---\ny := x*2\nz := x*3\n---\nPlot(Trend(y, x, 0V, 1V), Trend(z, x, 0V, 1V))", "[y 61][z 61]"},
		{"g := Curve(\"P\", func(I Quantity) Quantity { return I*1V }, 0A, 2A)\ng.Title = \"load\"\ng", "load[P 61]"},
		{"Boards(100)\nV := Range(1V, 2V, 3V)\n---\ng := Curve(\"P\", func(I Quantity) Quantity { if V > 2.5V { return I*V*2 }; return I*V }, 0A, 2A)\ng", "[P 61]"},
	} {
		_, rs := compute(t, strings.Split(c.cells, "\n---\n")...)
		got := ""
		for _, f := range plotted(t, rs) {
			got += f.Title
			for _, s := range f.Series {
				got += fmt.Sprintf("[%s %d]", s.Name, len(s.X))
			}
		}
		if got != c.want {
			t.Errorf("%s\ngot %s, want %s", c.cells, got, c.want)
		}
	}
}

// Where the cases part, the figure that is shown holds all of them: at 2 A and
// 1 V it is 2 W, and at 3 V, where it is doubled, 12 W.
func TestFigureOfCasesThatPart(t *testing.T) {
	t.Parallel()
	for _, code := range []string{"CURVE", "g := CURVE\ng", "Plot(CURVE)", "Require(V > 0V, \"positive\")\n1V\nCURVE\nz := V\nif V > 2.5V { z = 1V }"} {
		code = strings.ReplaceAll(code, "CURVE", "Curve(\"P\", func(I Quantity) Quantity { if V > 2.5V { return I*V*2 }; return I*V }, 0A, 2A)")
		_, rs := compute(t, "Boards(100)\nV := Range(1V, 2V, 3V)", code)
		y := plotted(t, rs)[0].Series[0].Y
		low, high, _ := y[len(y)-1].Limits()
		if low.SI() != 2 || high.SI() != 12 {
			t.Errorf("%s\nP at 2 A is %v … %v, want 2 W … 12 W", code, low, high)
		}
	}
}

// A Trend in a cell whose cases part is computed once, and is in every case what
// it is in a cell of its own.
func TestTrendWhereCasesPart(t *testing.T) {
	t.Parallel()
	cells := []string{"Boards(100)\nV := Range(1V, 2V, 3V)\nx := 1A\nR := 10Ω ± 1%", "y := V + x*R", "Trend(y, x, 0A, 1A)",
		"z := V\nif V > 2.5V {\n\tz = 1V\n}\ng := Trend(y, x, 0A, 1A)\ng\nTrend(y, x, 0A, 1A)\nw := g.Series[0].Y[60] - V\nRequire(w <= 10.2V, \"w\")"}
	_, rs := compute(t, cells...)
	fs := plotted(t, rs)
	if len(fs) != 3 {
		t.Fatalf("%d figures", len(fs))
	}
	for _, f := range fs {
		for i, y := range f.Series[0].Y {
			low, high, _ := y.Limits()
			x := float64(i) / 60
			if math.Abs(low.SI()-(1+9.9*x)) > 1e-9 || math.Abs(high.SI()-(3+10.1*x)) > 1e-9 {
				t.Fatalf("at %v A y is %v … %v, want %v V … %v V", x, low, high, 1+9.9*x, 3+10.1*x)
			}
		}
	}
	if w := entry(rs, "w").Spread; w == nil || math.Abs(w.Low.SI()-9.9) > 1e-9 || math.Abs(w.High.SI()-10.1) > 1e-9 {
		t.Errorf("w spreads as %+v, want 9.9 V … 10.1 V: what y has beyond V", w)
	}
}

// A Trend of 60 points over ten cells.
func BenchmarkTrend(b *testing.B) {
	cells := []string{"x := Range(1V, 2V, 3V)\nk := 1Ω ± 1%\nm := 2Ω ± 2%\nn := 3V ± 5%"}
	for i := range 10 {
		before := "x"
		if i > 0 {
			before = fmt.Sprint("y", i-1)
		}
		cells = append(cells, fmt.Sprintf("a%d := %s*k/m\nb%d := a%d + n*k/m\ny%d := b%d + n", i, before, i, i, i, i))
	}
	cells = append(cells, "Trend(y9, x, 1V, 3V)")
	n, rs := compute(b, cells...)
	plotted(b, rs)
	for b.Loop() {
		n.Again(fmt.Sprint("c", len(cells)))
		n.Run(context.Background())
	}
}
