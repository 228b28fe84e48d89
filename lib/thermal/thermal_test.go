package thermal

import (
	"fmt"
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/table"
	"ohmwright/units"

	"pgregory.net/rapid"
)

var q = units.MustParse

// The numbers of published examples, recomputed. The linear regulator of
// MCP1700 DS20001826C p. 14 and DS21826B p. 13: 218.1 mW (here 218.1 mW
// exactly) over 230 K/W from 40 °C: 50.2 K and 90.2 °C.
func TestRiseAndJunction(t *testing.T) {
	t.Parallel()
	rise, err := Rise(q("218.1 mW"), q("230 °C/W"))
	if err != nil {
		t.Fatal(err)
	}
	expect.Within(t, "Rise", rise, "50.163 K", "1e-9 K") // 0.2181 · 230
	for _, resistances := range [][]units.Quantity{
		{q("230 K/W")},
		{q("200 K/W"), q("30 K/W")},
		{q("100 K/W"), q("70 K/W"), q("60 K/W")},
	} {
		junction, err := Junction(q("40 °C"), q("218.1 mW"), resistances...)
		if err != nil {
			t.Fatal(err)
		}
		expect.Within(t, "Junction", junction, "90.163 °C", "1e-9 K")
	}
	cold, err := Junction(q("-20 °C"), q("0 W"), q("62 K/W"))
	if err != nil {
		t.Fatal(err)
	}
	expect.Within(t, "Junction without power", cold, "-20 °C", "0 K")
}

// By hand: 71 °C + 1.2 W · 2.5 K/W = 74 °C.
func TestJunctionFromTop(t *testing.T) {
	t.Parallel()
	junction, err := JunctionFromTop(q("71 °C"), q("1.2 W"), q("2.5 K/W"))
	if err != nil {
		t.Fatal(err)
	}
	expect.Within(t, "junction", junction, "74 °C", "1e-9 K")
}

// By hand: 10 W over 4, 0.5 and 1.5 K/W from 40 °C: sink 80 °C, case 85 °C,
// junction 100 °C.
func TestChain(t *testing.T) {
	t.Parallel()
	c, err := Chain(ChainInputs{Reference: q("40 °C"), Power: q("10 W"), Segments: []Segment{
		{"junction", "case", q("1.5 K/W")}, {"case", "sink", q("0.5 K/W")}, {"sink", "air", q("4 K/W")},
	}})
	if err != nil {
		t.Fatal(err)
	}
	expect.Within(t, "Total", c.Total, "6 K/W", "1e-12 K/W")
	expect.Within(t, "Rise", c.Rise, "60 K", "1e-9 K")
	expect.Within(t, "Hottest", c.Hottest, "100 °C", "1e-9 K")
	want := []struct{ name, temperature, rise string }{
		{"junction", "100 °C", "60 K"}, {"case", "85 °C", "45 K"}, {"sink", "80 °C", "40 K"}, {"air", "40 °C", "0 K"},
	}
	if len(c.Nodes) != len(want) {
		t.Fatalf("%d nodes, want %d", len(c.Nodes), len(want))
	}
	for i, w := range want {
		if c.Nodes[i].Name != w.name {
			t.Errorf("node %d is %s, want %s", i, c.Nodes[i].Name, w.name)
		}
		expect.Within(t, w.name, c.Nodes[i].Temperature, w.temperature, "1e-9 K")
		expect.Within(t, w.name+" rise", c.Nodes[i].Rise, w.rise, "1e-9 K")
	}
}

// Published networks of four sections each, whose sum is the steady
// resistance: Vishay document 70428 (833.0000 K/W) and 91643 (3.8346 K/W for
// the tank, 3.8355 K/W for the filter network: the source differs by 0.02 %).
func TestChainOfPublishedNetworks(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		sections [4]string
		total    string
	}{
		{[4]string{"327.5464", "123.5765", "88.0766", "293.8005"}, "833.0000 K/W"},
		{[4]string{"107.6550", "207.6868", "426.5449", "91.1133"}, "833.0000 K/W"},
		{[4]string{".4892393", ".5044556", ".2857113", "2.5552"}, "3.8346 K/W"},
		{[4]string{".685583", ".6792242", ".964041", "1.5067"}, "3.8355 K/W"},
	} {
		var segments []Segment
		for i, r := range test.sections {
			segments = append(segments, Segment{fmt.Sprint("point ", i), fmt.Sprint("point ", i+1), q("0" + r + " K/W")})
		}
		c, err := Chain(ChainInputs{Reference: q("25 °C"), Power: q("10 mW"), Segments: segments})
		if err != nil {
			t.Fatal(err)
		}
		expect.Within(t, "Total", c.Total, test.total, "1e-4 K/W")
	}
}

// Source: Nisshinbo/RICOH FAQ 029: 125 °C, 40 K/W: 1.0 W at 85 °C and 2.5 W
// at 25 °C. The rating of 600 mW at 25 °C and 150 °C: 125 K/0.6 W = 208.33
// K/W; with it 1.8 V · 100 mA from 40 °C: 77.5 °C (inputs from Toshiba's
// introduction to low-drop regulators, chapter 4.2, result by hand).
func TestLimits(t *testing.T) {
	t.Parallel()
	for ambient, want := range map[string]string{"85 °C": "1 W", "25 °C": "2.5 W"} {
		power, err := LargestPower(q(ambient), q("125 °C"), q("40 K/W"))
		if err != nil {
			t.Fatal(err)
		}
		expect.Within(t, "power at "+ambient, power, want, "1e-12 W")
	}
	resistance, err := LargestResistance(q("25 °C"), q("150 °C"), q("600 mW"))
	if err != nil {
		t.Fatal(err)
	}
	expect.Within(t, "resistance", resistance, "208.3333333 K/W", "1e-6 K/W")
	junction, err := Junction(q("40 °C"), q("1.8 V").Mul(q("100 mA")), resistance)
	if err != nil {
		t.Fatal(err)
	}
	expect.Within(t, "junction", junction, "77.5 °C", "1e-9 K")
	ambient, err := LargestAmbient(q("125 °C"), q("500 mW"), q("62 K/W"))
	if err != nil {
		t.Fatal(err)
	}
	expect.Within(t, "ambient", ambient, "94 °C", "1e-9 K") // 125 − 31
}

// By hand: 85 K/10 W = 8.5 K/W, less 1.5 and 0.5: 6.5 K/W; the sink is then
// at 40 + 65 = 105 °C, the case at 110 °C.
func TestRequiredSink(t *testing.T) {
	t.Parallel()
	s, err := RequiredSink(SinkInputs{
		Ambient: q("40 °C"), Limit: q("125 °C"), Power: q("10 W"), JunctionToCase: q("1.5 K/W"), CaseToSink: q("0.5 K/W"),
	})
	if err != nil {
		t.Fatal(err)
	}
	expect.Within(t, "Allowed", s.Allowed, "8.5 K/W", "1e-12 K/W")
	expect.Within(t, "Sink", s.Sink, "6.5 K/W", "1e-12 K/W")
	expect.Within(t, "AtSink", s.AtSink, "105 °C", "1e-9 K")
	expect.Within(t, "AtCase", s.AtCase, "110 °C", "1e-9 K")
	s, err = RequiredSink(SinkInputs{Ambient: q("40 °C"), Limit: q("125 °C"), Power: q("10 W"), JunctionToCase: q("1.5 K/W")})
	if err != nil {
		t.Fatal(err)
	}
	expect.Within(t, "Sink without pad", s.Sink, "7 K/W", "1e-12 K/W")
	expect.Within(t, "AtCase without pad", s.AtCase, "110 °C", "1e-9 K")
}

// By hand: 60 ∥ 30 = 20 K/W; 1 W makes 20 K: 1/3 W and 2/3 W.
func TestParallelPaths(t *testing.T) {
	t.Parallel()
	p, err := ParallelPaths(q("1 W"), q("60 K/W"), q("30 K/W"))
	if err != nil {
		t.Fatal(err)
	}
	expect.Within(t, "Total", p.Total, "20 K/W", "1e-12 K/W")
	expect.Within(t, "Rise", p.Rise, "20 K", "1e-12 K")
	expect.Within(t, "first path", p.Powers[0], "333.3333333 mW", "1e-9 W")
	expect.Within(t, "second path", p.Powers[1], "666.6666667 mW", "1e-9 W")
}

// By hand: film resistor curve, 70 °C to 155 °C: at 100 °C 55/85 of 250 mW =
// 161.7647 mW; a slope of 250 mW/85 K = 2.941176 mW/K.
func TestDerating(t *testing.T) {
	t.Parallel()
	for temperature, want := range map[string]string{
		"-55 °C": "250 mW", "70 °C": "250 mW", "100 °C": "161.7647059 mW", "112.5 °C": "125 mW", "155 °C": "0 W", "200 °C": "0 W",
	} {
		d, err := Derating(DeratingInputs{Rated: q("250 mW"), Full: q("70 °C"), Zero: q("155 °C"), Temperature: q(temperature)})
		if err != nil {
			t.Fatal(err)
		}
		expect.Within(t, "Allowed at "+temperature, d.Allowed, want, "1e-10 W")
		expect.Within(t, "Slope", d.Slope, "2.94117647 mW/K", "1e-10 W/K")
	}
	// 4.8 mW/K above 25 °C from 600 mW: at 40 °C 600 − 72 = 528 mW.
	d, err := DeratingBySlope(SlopeDeratingInputs{Rated: q("600 mW"), Slope: q("4.8 mW/K"), Full: q("25 °C"), Temperature: q("40 °C")})
	if err != nil {
		t.Fatal(err)
	}
	expect.Within(t, "Allowed", d.Allowed, "528 mW", "1e-12 W")
	expect.Within(t, "Share", d.Share, "0.88", "1e-12")
	expect.Within(t, "Slope", d.Slope, "4.8 mW/K", "1e-12 W/K")
}

// By hand: between 60 °C (2 A) and 85 °C (1.2 A): at 70 °C 2 − 0.8 · 10/25 =
// 1.68 A; between 85 °C and 105 °C (0 A): at 95 °C 0.6 A.
func TestDeratingFrom(t *testing.T) {
	t.Parallel()
	curve := expect.Table("air [°C], current [A]\n-40, 2\n60, 2\n85, 1.2\n105, 0")
	for temperature, want := range map[string]string{
		"-40 °C": "2 A", "25 °C": "2 A", "60 °C": "2 A", "70 °C": "1.68 A", "85 °C": "1.2 A", "95 °C": "0.6 A", "105 °C": "0 A",
	} {
		got, err := DeratingFrom(curve, q(temperature))
		if err != nil {
			t.Fatal(err)
		}
		expect.Within(t, "at "+temperature, got, want, "1e-12 A")
	}
	share, err := DeratingFrom(expect.Table("air [°C], power [%]\n70, 100\n155, 0"), q("112.5 °C"))
	if err != nil {
		t.Fatal(err)
	}
	expect.Within(t, "share", share, "0.5", "1e-12")
}

// A curve of two corners is the straight line of Derating.
func TestCurveOfTwoCornersIsALine(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		celsius := func(x float64) units.Quantity { return q("0 °C").Add(units.Number(x).Mul(q("1 K"))) }
		full := celsius(rapid.Float64Range(0, 100).Draw(t, "full"))
		span := rapid.Float64Range(1, 100).Draw(t, "span")
		zero := full.Add(units.Number(span).Mul(q("1 K")))
		at := full.Add(units.Number(span * rapid.Float64Range(0, 1).Draw(t, "share")).Mul(q("1 K")))
		if zero.Less(at) {
			at = zero
		}
		line, err := Derating(DeratingInputs{Rated: q("2 W"), Full: full, Zero: zero, Temperature: at})
		if err != nil {
			t.Fatal(err)
		}
		two, err := table.Curve([]units.Quantity{full, zero}, []units.Quantity{q("2 W"), q("0 W")})
		if err != nil {
			t.Fatal(err)
		}
		curve, err := DeratingFrom(two, at)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(line.Allowed.SI()-curve.SI()) > 1e-9 {
			t.Fatalf("line %v, curve %v", line.Allowed, curve)
		}
	})
}

// LargestPower, LargestResistance and LargestAmbient are Junction the other
// way round, and the chain of RequiredSink ends at the limit.
func TestLimitsBackAndForth(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		ambient := q("0 °C").Add(units.Number(rapid.Float64Range(-40, 85).Draw(t, "ambient")).Mul(q("1 K")))
		limit := ambient.Add(units.Number(rapid.Float64Range(1, 150).Draw(t, "rise")).Mul(q("1 K")))
		theta := units.Number(rapid.Float64Range(0.1, 500).Draw(t, "resistance")).Mul(q("1 K/W"))
		power, err := LargestPower(ambient, limit, theta)
		if err != nil {
			t.Fatal(err)
		}
		junction, err := Junction(ambient, power, theta)
		if err != nil || math.Abs(junction.SI()-limit.SI()) > 1e-9 {
			t.Fatalf("%v, %v, want %v", junction, err, limit)
		}
		back, err := LargestResistance(ambient, limit, power)
		if err != nil || math.Abs(back.SI()-theta.SI()) > 1e-9*theta.SI() {
			t.Fatalf("%v, %v, want %v", back, err, theta)
		}
		cold, err := LargestAmbient(limit, power, theta)
		if err != nil || math.Abs(cold.SI()-ambient.SI()) > 1e-9 {
			t.Fatalf("%v, %v, want %v", cold, err, ambient)
		}
		part, pad := units.Number(0.3).Mul(theta), units.Number(0.2).Mul(theta)
		s, err := RequiredSink(SinkInputs{Ambient: ambient, Limit: limit, Power: power, JunctionToCase: part, CaseToSink: pad})
		if err != nil {
			t.Fatal(err)
		}
		c, err := Chain(ChainInputs{Reference: ambient, Power: power, Segments: []Segment{
			{"junction", "case", part}, {"case", "sink", pad}, {"sink", "air", s.Sink},
		}})
		if err != nil || math.Abs(c.Hottest.SI()-limit.SI()) > 1e-9 ||
			math.Abs(c.Nodes[1].Temperature.SI()-s.AtCase.SI()) > 1e-9 || math.Abs(c.Nodes[2].Temperature.SI()-s.AtSink.SI()) > 1e-9 {
			t.Fatalf("%v, %v, want %v, %v, %v", c, err, limit, s.AtCase, s.AtSink)
		}
	})
}

func ExampleJunction() {
	Tj, err := Junction(units.MustParse("50 °C"), units.MustParse("500 mW"), units.MustParse("62 K/W"))
	fmt.Println(Tj, err)
	// Output: 81 °C <nil>
}

func ExampleRequiredSink() {
	s, err := RequiredSink(SinkInputs{
		Ambient: units.MustParse("40 °C"), Limit: units.MustParse("125 °C"), Power: units.MustParse("10 W"),
		JunctionToCase: units.MustParse("1.5 K/W"), CaseToSink: units.MustParse("0.5 K/W"),
	})
	fmt.Println(s.Sink, err)
	// Output: 6.5 K/W <nil>
}

func ExampleDerating() {
	d, err := Derating(DeratingInputs{
		Rated: units.MustParse("250 mW"), Full: units.MustParse("70 °C"), Zero: units.MustParse("155 °C"),
		Temperature: units.MustParse("100 °C"),
	})
	fmt.Println(d.Allowed, err)
	// Output: 161.8 mW <nil>
}
