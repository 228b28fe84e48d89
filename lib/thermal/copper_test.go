package thermal

import (
	"fmt"
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// e^−x · I₀, e^−x · I₁, e^x · K₀ and e^x · K₁, by the general-purpose library
// mpmath 1.3 with 30 digits.
func TestBessel(t *testing.T) {
	t.Parallel()
	for _, test := range [][5]float64{
		{1e-6, 0.99999900000075, 4.99999500000312e-7, 13.9314560050755, 1000000.99999328},
		{1e-3, 0.999000749583516, 0.000499500312354221, 7.03071600237825, 1000.99673455907},
		{0.1, 0.907100925782301, 0.0452984468088093, 2.68232610226289, 10.8901826830497},
		{1.5, 0.367433609054158, 0.219039387420926, 0.958210053294896, 1.24316587355255},
		{5, 0.183540812609328, 0.163972266944542, 0.547807564313519, 0.600273858788313},
		{29.9, 0.0732692190460019, 0.0720333749118688, 0.228264348959032, 0.232050577954944},
		{30.1, 0.0730232941310609, 0.0717998543510143, 0.227510851056279, 0.231259704097996},
		{100, 0.0399443792990967, 0.0397441530251303, 0.125175621659127, 0.125799950479579},
	} {
		x := test[0]
		for i, got := range []float64{besselI(0, x), besselI(1, x), besselK(0, x), besselK(1, x)} {
			if math.Abs(got/test[i+1]-1) > 5e-14 {
				t.Errorf("function %d at %g: %.15g, want %.15g", i, x, got, test[i+1])
			}
		}
	}
}

// Measured junction-to-air resistances of one package (TO-252) over its copper
// area on one and on two layers of 1 oz: SNVS774Q, table 1, read. Of the
// junction to the pad 10 K/W (from memory), the board taken as 39 cm² of 1.6 mm
// with 13 W/(m²·K), which still air makes of some 50 K. The figure is on the
// safe side, by at most a quarter.
func TestCopperAreaMeasured(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		area     float64 // in²
		copper   string
		measured float64 // K/W
	}{
		{0.3, "35 µm", 60}, {0.53, "35 µm", 54}, {0.76, "35 µm", 52}, {1, "35 µm", 47},
		{0.175, "70 µm", 72}, {0.284, "70 µm", 61}, {0.392, "70 µm", 55}, {0.5, "70 µm", 53},
	} {
		c := must(CopperArea(CopperInputs{
			Pad: q("0.3 cm²"), Area: q("6.4516 cm²").Mul(units.Number(test.area)), Copper: q(test.copper), Board: q("39 cm²"), Thickness: q("1.6 mm"), Transfer: q("13 W/(m²·K)"),
		}))(t)
		got := 10 + c.Resistance.SI()
		if got < test.measured || got > 1.25*test.measured {
			t.Errorf("%g in² of %s: %.1f K/W, measured %g K/W", test.area, test.copper, got, test.measured)
		}
	}
}

// The disc cut into rings and solved from ring to ring, over a grid of boards:
// heat in, heat lost by each ring, heat on. It gives the resistance, the rise
// at every radius and that all heat which comes in goes out.
func TestCopperAreaAgainstRings(t *testing.T) {
	t.Parallel()
	for _, area := range []float64{1e-4, 6e-4, 39e-4} {
		for _, copper := range []float64{10e-6, 35e-6, 140e-6} {
			for _, h := range []float64{5, 15, 50} {
				const pad, board, thickness, rings = 0.3e-4, 40e-4, 1.6e-3, 6000
				radius := func(a float64) float64 { return math.Sqrt(a / math.Pi) }
				inner, edge, outer := radius(pad), radius(area), radius(board)
				// Rings of one ratio of radii.
				step := math.Pow(outer/inner, 1.0/rings)
				lost := func(i int) float64 { // W/K of ring i
					r := inner * math.Pow(step, float64(i))
					return 2 * h * math.Pi * (r*r*step*step - r*r)
				}
				on := func(i int) float64 { // W/K from the middle of ring i−1 to that of ring i
					middle := inner * math.Pow(step, float64(i))
					sheet := 0.8 * thickness
					if middle < edge {
						sheet += 385 * copper
					}
					between := math.Log(step)
					if i == 0 {
						between /= 2
					}
					return 2 * math.Pi * sheet / between
				}
				// From the edge inwards: what a ring and all beyond it lead away.
				beyond := make([]float64, rings+1)
				for i := rings - 1; i >= 0; i-- {
					here := lost(i) + beyond[i+1]
					beyond[i] = 1 / (1/on(i) + 1/here)
				}
				want := 1 / (beyond[0] + 2*h*pad)
				in := CopperInputs{Pad: q("0.3 cm²"), Area: q("1 m²").Mul(units.Number(area)), Copper: q("1 m").Mul(units.Number(copper)), Board: q("40 cm²"), Thickness: q("1.6 mm"), Transfer: q("1 W/(m²·K)").Mul(units.Number(h))}
				c := must(CopperArea(in))(t)
				name := fmt.Sprintf("%g m², %g m, %g W/(m²·K)", area, copper, h)
				expect.Within(t, name, c.Resistance, fmt.Sprint(want, " K/W"), fmt.Sprint(2e-3*want, " K/W"))
				rise := 1.0
				out := 2 * h * pad
				for i := range rings {
					rise *= (beyond[i]) / (lost(i) + beyond[i+1])
					out += rise * lost(i)
					if i%1500 == 700 {
						r := inner * math.Pow(step, float64(i)+0.5)
						heats := must(Neighbour(in, q("1 m").Mul(units.Number(r))))(t)
						expect.Within(t, fmt.Sprintf("%s at %g m", name, r), heats, fmt.Sprint(rise*want, " K/W"), fmt.Sprint(5e-3*rise*want, " K/W"))
					}
				}
				if math.Abs(out*want-1) > 1e-9 {
					t.Errorf("%s: of one watt %g W go out", name, out*want)
				}
				expect.Within(t, name+": edge", c.BoardEdge, fmt.Sprint(rise), fmt.Sprint(1e-2*rise))
			}
		}
	}
}

// Copper without limit makes it ideal: 1/(2 · 12 W/(m²·K) · 40 cm²) = 10.417
// K/W; one face alone twice that. With no more copper than the pad, and a
// board that ends there, too. More copper, area, board or air: never worse.
func TestCopperAreaAtItsLimits(t *testing.T) {
	t.Parallel()
	in := CopperInputs{Pad: q("0.3 cm²"), Area: q("40 cm²"), Copper: q("35 µm"), Thickness: q("1.6 mm"), Transfer: q("12 W/(m²·K)"), CopperConducts: q("1e9 W/(m·K)")}
	c := must(CopperArea(in))(t)
	expect.Within(t, "ideal", c.Ideal, "10.4166667 K/W", "1e-6 K/W")
	expect.Within(t, "without limit", c.Resistance, "10.4166667 K/W", "1e-4 K/W")
	expect.Within(t, "efficiency", c.Efficiency, "1", "1e-5")
	expect.Within(t, "edge", c.BoardEdge, "1", "1e-5")
	in.OneFace = true
	expect.Within(t, "one face", must(CopperArea(in))(t).Resistance, "20.8333333 K/W", "1e-4 K/W")
	in = CopperInputs{Pad: q("2 cm²"), Area: q("2 cm²"), Copper: q("35 µm"), Thickness: q("1.6 mm"), Transfer: q("12 W/(m²·K)")}
	c = must(CopperArea(in))(t)
	expect.Within(t, "the pad alone", c.Resistance, "208.333333 K/W", "1e-6 K/W")
	expect.Within(t, "its edge", c.CopperEdge, "1", "1e-12")
	expect.Within(t, "a neighbour at its edge", must(Neighbour(in, c.PadRadius))(t), "208.333333 K/W", "1e-6 K/W")
	rapid.Check(t, func(r *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(r, name) }
		area, copper, h, extra := draw("area", 0.5, 30), draw("copper", 5, 200), draw("h", 3, 60), draw("extra", 0, 50)
		at := func(area, copper, h, board float64) float64 {
			c, err := CopperArea(CopperInputs{Pad: q("0.3 cm²"), Area: q("1 cm²").Mul(units.Number(area)), Copper: q("1 µm").Mul(units.Number(copper)), Board: q("1 cm²").Mul(units.Number(board)), Thickness: q("1.6 mm"), Transfer: q("1 W/(m²·K)").Mul(units.Number(h))})
			if err != nil {
				r.Fatal(err)
			}
			if e := c.Efficiency.SI(); e > 1+1e-12 || c.CopperEdge.SI() > 1+1e-12 || c.BoardEdge.SI() > c.CopperEdge.SI()+1e-12 {
				r.Fatalf("efficiency %g, edges %v and %v", e, c.CopperEdge, c.BoardEdge)
			}
			return c.Resistance.SI()
		}
		board := 1.2*area + extra
		first := at(area, copper, h, board)
		for i, better := range []float64{at(1.1*area, copper, h, board), at(area, 1.1*copper, h, board), at(area, copper, 1.1*h, board), at(area, copper, h, 1.1*board)} {
			if better > first*(1+1e-12) {
				r.Fatalf("input %d: from %g to %g K/W", i, first, better)
			}
		}
	})
}

// By hand: π · 20 µm · 280 µm = 17593 µm²; 1.6 mm/(385 · 17593e-12) = 236.2 K/W;
// nine of them 26.25 K/W; laminate 1.6 mm/(0.3 · (9 − 9 · 0.070686) mm²) = 637.7
// K/W; together 25.21 K/W. A via of 12 mil with half an ounce of copper through
// 1.6 mm: 261 K/W (SNVA419, rule 2, from memory), here of 17.5 µm.
func TestVias(t *testing.T) {
	t.Parallel()
	in := ViasInputs{Count: 9, Drill: q("0.3 mm"), Plating: q("20 µm"), Length: q("1.6 mm"), Pad: q("9 mm²")}
	v := must(Vias(in))(t)
	expect.Within(t, "barrel", v.Barrel, "17593 µm²", "1 µm²")
	expect.Within(t, "one", v.One, "236.2 K/W", "0.05 K/W")
	expect.Within(t, "all", v.All, "26.25 K/W", "0.01 K/W")
	expect.Within(t, "laminate", v.Laminate, "637.7 K/W", "0.1 K/W")
	expect.Within(t, "together", v.Resistance, "25.21 K/W", "0.01 K/W")
	// Solder of 50 W/(m·K) in the holes: π · (130 µm)² · 50 = 2.6546e-6 beside
	// 17593e-12 · 385 = 6.7733e-6 W·m/K: 1.6e-3/9.4279e-6.
	in.Filling = q("50 W/(m·K)")
	expect.Within(t, "filled", must(Vias(in))(t).One, "169.7 K/W", "0.1 K/W")
	published := must(Vias(ViasInputs{Count: 1, Drill: q("12 mil"), Plating: q("17.5 µm"), Length: q("1.6 mm"), Pad: q("1 mm²")}))(t)
	expect.Within(t, "published", published.One, "261 K/W", "5 K/W")
	// All copper: a bar.
	bar := must(Vias(ViasInputs{Count: 1, Drill: q("0.3 mm"), Plating: q("0.15 mm"), Length: q("1.6 mm"), Pad: q("9 mm²")}))(t)
	expect.Within(t, "bar", bar.One, fmt.Sprint(1.6e-3/(385*math.Pi*0.15e-3*0.15e-3), " K/W"), "1e-9 K/W")
}
