package thermal

import (
	"fmt"
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// A reading from a maker's forum: 95.26 °C on top, 0.51 W, ψJT 6.1 K/W: 98.37
// °C (e2e.ti.com, thread 930658). By hand: 80 °C + 0.5 W · 20 K/W = 90 °C.
func TestJunctionFromMeasured(t *testing.T) {
	t.Parallel()
	psi := Psi{JunctionToTop: q("6.1 K/W"), JunctionToBoard: q("20 K/W")}
	m := must(JunctionFromMeasured(MeasuredInputs{Power: q("0.51 W"), Psi: psi, Top: q("95.26 °C")}))(t)
	expect.Within(t, "from top", m.Junction, "98.37 °C", "5e-3 K")
	expect.Within(t, "alone", m.Disagreement, "0 K", "0 K")
	m = must(JunctionFromMeasured(MeasuredInputs{Power: q("0.5 W"), Psi: psi, Board: q("80 °C")}))(t)
	expect.Within(t, "from board", m.Junction, "90 °C", "1e-9 K")
	m = must(JunctionFromMeasured(MeasuredInputs{Power: q("0.5 W"), Psi: psi, Top: q("85 °C"), Board: q("80 °C")}))(t)
	expect.Within(t, "from both", m.Junction, "90 °C", "1e-9 K")
	expect.Within(t, "between both", m.Disagreement, "1.95 K", "1e-9 K") // 90 − 88.05
	old, err := JunctionFromTop(q("95.26 °C"), q("0.51 W"), q("6.1 K/W"))
	if err != nil {
		t.Fatal(err)
	}
	expect.Within(t, "JunctionFromTop", old, "98.371 °C", "1e-9 K")
}

// By hand: 25 + 175 = 200 and 10 + 30 = 40 K/W in parallel are 33.333 K/W; 1 W
// makes 33.333 K, 1/6 W leaves by the top, 5/6 W by the board: case 50 + 29.167
// °C, board 50 + 25 °C. With 0.4 W of others the board is 12 K warmer at first:
// (1 + 12/40) · 33.333 = 43.333 K, of which 31.333/40 = 0.78333 W by the board.
func TestTopAndBoard(t *testing.T) {
	t.Parallel()
	in := TopAndBoardInputs{Ambient: q("50 °C"), Power: q("1 W"), JunctionToCase: q("25 K/W"), CaseToAir: q("175 K/W"), JunctionToBoard: q("10 K/W"), BoardToAir: q("30 K/W")}
	r := must(TopAndBoard(in))(t)
	expect.Within(t, "junction", r.Junction, "83.3333333 °C", "1e-6 K")
	expect.Within(t, "case", r.Case, "79.1666667 °C", "1e-6 K")
	expect.Within(t, "board", r.Board, "75 °C", "1e-9 K")
	expect.Within(t, "top power", r.TopPower, "166.666667 mW", "1e-9 W")
	in.Others = q("0.4 W")
	r = must(TopAndBoard(in))(t)
	expect.Within(t, "junction among others", r.Junction, "93.3333333 °C", "1e-6 K")
	expect.Within(t, "board power among others", r.BoardPower, "783.333333 mW", "1e-9 W")
	expect.Within(t, "board among others", r.Board, "85.5 °C", "1e-9 K") // 50 + 30 · 1.18333
	// The same as a network.
	n := must(Network(NetworkInputs{
		Paths: []Segment{{"junction", "case", in.JunctionToCase}, {"case", "air", in.CaseToAir}, {"board", "junction", in.JunctionToBoard}, {"air", "board", in.BoardToAir}},
		Heats: []Heat{{"junction", in.Power}, {"board", in.Others}}, Held: []Held{{"air", in.Ambient}},
	}))(t)
	for i, want := range []units.Quantity{r.Junction, r.Case, in.Ambient, r.Board} {
		expect.Within(t, n.Points[i].Name, n.Points[i].Temperature, fmt.Sprint(want.SI()-273.15, " °C"), "1e-9 K")
	}
	expect.Within(t, "flow to the board", n.Flows[2].Power, "-783.333333 mW", "1e-9 W")
}

// Any network, against Gauss's elimination with pivots on bare numbers; all
// heat that is made arrives at the held points, and none is hotter than it may
// be: the hottest point is one where heat is made or one that is held.
func TestNetworkAgainstElimination(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		n := rapid.IntRange(2, 7).Draw(r, "points")
		name := func(i int) string { return fmt.Sprint("point ", i) }
		in := NetworkInputs{Held: []Held{{name(0), q("20 °C")}}}
		temperature := make([]float64, n)
		fixed := make([]bool, n)
		fixed[0] = true
		if n > 3 && rapid.Bool().Draw(r, "two held") {
			in.Held = append(in.Held, Held{name(1), q("60 °C")})
			fixed[1], temperature[1] = true, 40
		}
		a := make([][]float64, n)
		for i := range a {
			a[i] = make([]float64, n+1)
		}
		join := func(i, j int) {
			R := math.Pow(10, rapid.Float64Range(-6, 6).Draw(r, "resistance"))
			from, to := i, j
			if rapid.Bool().Draw(r, "turned") {
				from, to = j, i
			}
			in.Paths = append(in.Paths, Segment{name(from), name(to), q("1 K/W").Mul(units.Number(R))})
			a[i][i] += 1 / R
			a[j][j] += 1 / R
			a[i][j] -= 1 / R
			a[j][i] -= 1 / R
		}
		for i := 1; i < n; i++ {
			join(i, rapid.IntRange(0, i-1).Draw(r, "to"))
		}
		for range rapid.IntRange(0, 5).Draw(r, "more") {
			i, j := rapid.IntRange(0, n-1).Draw(r, "i"), rapid.IntRange(0, n-1).Draw(r, "j")
			if i != j {
				join(i, j)
			}
		}
		made := 0.0
		for i := range n {
			if !fixed[i] {
				P := rapid.Float64Range(0.01, 2).Draw(r, "power")
				in.Heats = append(in.Heats, Heat{name(i), q("1 W").Mul(units.Number(P))})
				a[i][n] = P
				made += P
			}
		}
		for i := range n {
			if fixed[i] {
				for j := range a[i] {
					a[i][j] = 0
				}
				a[i][i], a[i][n] = 1, temperature[i]
			}
		}
		got, err := Network(in)
		if err != nil {
			r.Fatal(err)
		}
		want := gauss(a)
		largest := 1.0
		for _, w := range want {
			largest = max(largest, math.Abs(w))
		}
		for _, p := range got.Points {
			var i int
			fmt.Sscanf(p.Name, "point %d", &i)
			if g := p.Temperature.SI() - 293.15; math.Abs(g-want[i]) > 1e-4*largest {
				r.Fatalf("%s is %g K above, by elimination %g K", p.Name, g, want[i])
			}
		}
		arrives := 0.0
		for _, f := range got.Flows {
			for _, h := range in.Held {
				if f.To == h.Name {
					arrives += f.Power.SI()
				}
				if f.From == h.Name {
					arrives -= f.Power.SI()
				}
			}
		}
		scale := made
		for _, f := range got.Flows {
			scale = max(scale, math.Abs(f.Power.SI()))
		}
		if math.Abs(arrives-made) > 1e-6*scale {
			r.Fatalf("%g W are made, %g W arrive", made, arrives)
		}
	})
}

func gauss(a [][]float64) []float64 {
	n := len(a)
	for k := range n {
		p := k
		for i := k; i < n; i++ {
			if math.Abs(a[i][k]) > math.Abs(a[p][k]) {
				p = i
			}
		}
		a[k], a[p] = a[p], a[k]
		for i := range n {
			if i != k {
				f := a[i][k] / a[k][k]
				for j := k; j <= n; j++ {
					a[i][j] -= f * a[k][j]
				}
			}
		}
	}
	x := make([]float64, n)
	for i := range n {
		x[i] = a[i][n] / a[i][i]
	}
	return x
}

// A network without branches is a chain, and two paths are parallel ones; a
// resistance of 1e-9 beside one of 1e9 K/W costs no digits.
func TestNetworkIsChainAndParallelPaths(t *testing.T) {
	t.Parallel()
	segments := []Segment{{"junction", "case", q("1.5 K/W")}, {"case", "sink", q("0.5 K/W")}, {"sink", "air", q("4 K/W")}}
	c := must(Chain(ChainInputs{Reference: q("40 °C"), Power: q("10 W"), Segments: segments}))(t)
	n := must(Network(NetworkInputs{Paths: segments, Heats: []Heat{{"junction", q("10 W")}}, Held: []Held{{"air", q("40 °C")}}}))(t)
	for i := range c.Nodes {
		expect.Within(t, n.Points[i].Name, n.Points[i].Temperature, fmt.Sprint(c.Nodes[i].Temperature.SI()-273.15, " °C"), "1e-9 K")
	}
	n = must(Network(NetworkInputs{Paths: []Segment{{"board", "air", q("60 K/W")}, {"board", "air", q("30 K/W")}}, Heats: []Heat{{"board", q("0.4 W")}, {"board", q("0.6 W")}}, Held: []Held{{"air", q("0 °C")}}}))(t)
	expect.Within(t, "both", n.Points[0].Temperature, "20 °C", "1e-9 K")
	n = must(Network(NetworkInputs{Paths: []Segment{{"a", "b", q("1e-9 K/W")}, {"b", "air", q("1e9 K/W")}}, Heats: []Heat{{"a", q("1e-9 W")}}, Held: []Held{{"air", q("20 °C")}}}))(t)
	expect.Within(t, "far apart", n.Points[0].Temperature, "21 °C", "1e-9 K")
}

// By hand: 42 · 0.6 + 11 · 0.9 = 25.2 + 9.9 K, and 38 · 0.9 + 11 · 0.6 = 34.2 +
// 6.6 K; the regulator seems to have 35.1/0.6 = 58.5 K/W. And a network's own
// figures, source by source, are those of all sources together: superposition
// (JEDEC JESD51-1: linear).
func TestCoupled(t *testing.T) {
	t.Parallel()
	c := must(Coupled(CoupledInputs{Ambient: q("50 °C"), Sources: []CoupledSource{{"regulator", q("0.6 W"), []units.Quantity{q("42 K/W"), q("11 K/W")}}, {"driver", q("0.9 W"), []units.Quantity{q("11 K/W"), q("38 K/W")}}}}))(t)
	expect.Within(t, "regulator", c.Points[0].Temperature, "85.1 °C", "1e-9 K")
	expect.Within(t, "of the driver", c.Points[0].FromOthers, "9.9 K", "1e-9 K")
	expect.Within(t, "driver", c.Points[1].Temperature, "90.8 °C", "1e-9 K")
	expect.Within(t, "hottest", c.Hottest, "90.8 °C", "1e-9 K")
	expect.Within(t, "effective", c.Points[0].Effective, "58.5 K/W", "1e-9 K/W")

	paths := []Segment{{"A", "board", q("8 K/W")}, {"B", "board", q("12 K/W")}, {"board", "air", q("25 K/W")}, {"A", "air", q("150 K/W")}}
	net := func(heats ...Heat) NetworkResult {
		return must(Network(NetworkInputs{Paths: paths, Heats: heats, Held: []Held{{"air", q("40 °C")}}}))(t)
	}
	at := func(n NetworkResult, i int) units.Quantity {
		return n.Points[i].Temperature.Sub(q("40 °C")).Div(q("1 W"))
	}
	alone := []NetworkResult{net(Heat{"A", q("1 W")}), net(Heat{"B", q("1 W")})}
	both := net(Heat{"A", q("1.3 W")}, Heat{"B", q("0.7 W")})
	c = must(Coupled(CoupledInputs{Ambient: q("40 °C"), Sources: []CoupledSource{
		{"A", q("1.3 W"), []units.Quantity{at(alone[0], 0), at(alone[0], 2)}}, {"B", q("0.7 W"), []units.Quantity{at(alone[1], 0), at(alone[1], 2)}},
	}}))(t)
	expect.Within(t, "A of both", c.Points[0].Temperature, fmt.Sprint(both.Points[0].Temperature.SI()-273.15, " °C"), "1e-9 K")
	expect.Within(t, "B of both", c.Points[1].Temperature, fmt.Sprint(both.Points[2].Temperature.SI()-273.15, " °C"), "1e-9 K")
	expect.Within(t, "A at B and B at A", at(alone[0], 2), at(alone[1], 0).Text(15), "1e-9 K/W") // reciprocity
}
