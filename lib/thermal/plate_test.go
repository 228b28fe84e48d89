package thermal

import (
	"fmt"
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// Air at atmospheric pressure and 300 K: conductivity 26.3 mW/(m·K), kinematic
// viscosity 15.89e-6 m²/s, diffusivity 22.5e-6 m²/s, Prandtl number 0.707; at
// 350 K 30.0 mW/(m·K), 20.92e-6, 29.9e-6 and 0.700 (Incropera, Fundamentals of
// Heat and Mass Transfer, table A.4, from memory). At 35 °C a solved problem
// has 26.25 mW/(m·K), 16.55e-6 m²/s and 0.7268 (Çengel, problem 9-26, read).
func TestAir(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ at, conductivity, viscosity, diffusivity, prandtl float64 }{
		{300, 26.3e-3, 15.89e-6, 22.5e-6, 0.707}, {350, 30.0e-3, 20.92e-6, 29.9e-6, 0.700}, {308.15, 26.25e-3, 16.55e-6, 22.8e-6, 0.7268},
	} {
		a := airAt(units.Temperature(q("1 K").Mul(units.Number(test.at))), q("101.325 kPa"))
		for i, x := range [][2]float64{{a.conductivity.SI(), test.conductivity}, {a.viscosity.SI(), test.viscosity}, {a.diffusivity.SI(), test.diffusivity}, {a.prandtl().SI(), test.prandtl}} {
			if math.Abs(x[0]/x[1]-1) > 0.03 {
				t.Errorf("at %g K, property %d is %g, published %g", test.at, i, x[0], x[1])
			}
		}
	}
}

// Solved problems of Çengel, Heat Transfer, chapter 9. Problem 9-26, read: a
// board of 15 cm by 20 cm with an emissivity of 0.8 gives 8 W from one face in
// 20 °C: facing up 42.6 °C, with 6.696 W/(m²·K) by convection; vertical 46.6 °C
// and facing down 50.7 °C (these two from memory). Problem 9-19E, read: a
// Rayleigh number of 5.503e8 and a Prandtl number of 0.7256 make 102.6. Example
// 9-2, from memory: a plate of 0.6 m, 90 °C in 30 °C: vertical 115 W, facing
// down 64.2 W, facing up 128 W (with 0.54 · Ra^¼ just beyond its range, where
// the turbulent piece makes a tenth more).
func TestPlatePublished(t *testing.T) {
	t.Parallel()
	board := Plate{Height: q("20 cm"), Width: q("15 cm"), Emissivity: q("80 %")}
	for position, want := range map[string][2]string{"face up": {"42.6 °C", "0.3 K"}, "vertical, one face": {"46.6 °C", "0.7 K"}, "face down": {"50.7 °C", "1 K"}} {
		board.Position = position
		r := must(PlateTemperature(board, q("8 W"), q("20 °C")))(t)
		expect.Within(t, position, r.Surface, want[0], want[1])
		if position == "face up" {
			expect.Within(t, "convection", r.Convection, "6.696 W/(m²·K)", "0.1 W/(m²·K)")
		}
	}
	expect.Within(t, "Nusselt", verticalNusselt(units.Number(5.503e8), units.Number(0.7256)), "102.6", "0.05")
	plate := Plate{Height: q("0.6 m"), Width: q("0.6 m")}
	for position, want := range map[string][2]string{"vertical, one face": {"115 W", "3 W"}, "face down": {"64.2 W", "2 W"}, "face up": {"128 W", "14 W"}} {
		plate.Position = position
		expect.Within(t, position, must(PlateLoss(plate, q("90 °C"), q("30 °C")))(t).Power, want[0], want[1])
	}
}

// Radiation by hand: 0.9 · 5.670374e-8 · (353.15 + 323.15) · (353.15² + 323.15²)
// = 0.9 · 5.670374e-8 · 676.3 · 229140.8 = 7.9087 W/(m²·K); over a difference of
// 30 K that is 0.9 · σ · (353.15⁴ − 323.15⁴) = 237.26 W/m².
func TestRadiation(t *testing.T) {
	t.Parallel()
	expect.Within(t, "radiation", radiation(q("90 %"), q("80 °C"), q("50 °C")), "7.9087 W/(m²·K)", "1e-3 W/(m²·K)")
}

// The rule of thumb for a board in still air, 10 W/(m²·K) from each face
// (common practice), is to a quarter what comes out for a board of 100 mm by 160 mm.
func TestRuleOfThumb(t *testing.T) {
	t.Parallel()
	for _, position := range []string{"vertical", "horizontal"} {
		r := must(PlateLoss(Plate{Height: q("100 mm"), Width: q("160 mm"), Position: position, Emissivity: q("0.9")}, q("60 °C"), q("30 °C")))(t)
		expect.Within(t, position, r.Transfer, "10 W/(m²·K)", "2.5 W/(m²·K)")
		// One watt for each kelvin of 100 cm² · 2: 1/(10 · 0.032).
		expect.Within(t, position+": resistance", r.Resistance, fmt.Sprint(1/(0.032*r.Transfer.SI()), " K/W"), "1e-9 K/W")
	}
}

// Where one piece of the upper correlation takes over from another they agree:
// 0.96 · x^(1/6) = 0.54 · x^(1/4) at (0.96/0.54)^12 = 996.8, and 0.54 · x^(1/4) =
// 0.15 · x^(1/3) at 3.6^12 = 4.738e6.
func TestUpperNusseltIsContinuous(t *testing.T) {
	t.Parallel()
	for _, at := range []float64{math.Pow(0.96/0.54, 12), math.Pow(3.6, 12)} {
		below, above := upperNusselt(units.Number(at*(1-1e-9))).SI(), upperNusselt(units.Number(at*(1+1e-9))).SI()
		if math.Abs(above/below-1) > 1e-8 {
			t.Errorf("at %g: %g below, %g above", at, below, above)
		}
	}
	// In the middle of each published range, by hand.
	for at, want := range map[float64]float64{64: 1.92, 1e6: 0.54 * 31.6227766, 1e9: 150} {
		if got := upperNusselt(units.Number(at)).SI(); math.Abs(got/want-1) > 1e-6 {
			t.Errorf("at %g: %g, want %g", at, got, want)
		}
	}
}

// PlateTemperature is PlateLoss the other way round; more power is hotter, a
// larger plate cooler, thin air hotter, a black plate cooler.
func TestPlateBackAndForth(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		draw := func(name string, low, high float64) units.Quantity {
			return units.Number(rapid.Float64Range(low, high).Draw(r, name))
		}
		plate := Plate{
			Height: q("1 m").Mul(draw("height", 0.05, 0.5)), Width: q("1 m").Mul(draw("width", 0.05, 0.5)),
			Position: rapid.SampledFrom([]string{"vertical", "vertical, one face", "horizontal", "face up", "face down"}).Draw(r, "position"), Emissivity: draw("emissivity", 0, 0.95),
		}
		rise := q("1 K").Mul(draw("rise", 10, 100))
		loss, err := PlateLoss(plate, q("40 °C").Add(rise), q("40 °C"))
		if err != nil {
			r.Skip(err)
		}
		back, err := PlateTemperature(plate, loss.Power, q("40 °C"))
		if err != nil || math.Abs(back.Surface.SI()-loss.Surface.SI()) > 1e-6 {
			r.Fatal(back.Surface, loss.Surface, err)
		}
		if loss.Resistance.Mul(loss.Power).Sub(rise).SI() > 1e-9 {
			r.Fatal("resistance", loss.Resistance)
		}
		hotter := func(name string, p Plate, power units.Quantity, sign float64) {
			other, err := PlateTemperature(p, power, q("40 °C"))
			if err != nil {
				return
			}
			if (other.Surface.SI()-back.Surface.SI())*sign < -1e-9 {
				r.Fatalf("%s: from %v to %v", name, back.Surface, other.Surface)
			}
		}
		hotter("more power", plate, loss.Power.Mul(units.Number(1.1)), 1)
		p := plate
		p.Width = p.Width.Mul(units.Number(1.2))
		hotter("wider", p, loss.Power, -1)
		p = plate
		p.Pressure = q("70 kPa")
		hotter("thin air", p, loss.Power, 1)
		p = plate
		p.Emissivity = units.Number(1)
		hotter("black", p, loss.Power, -1)
	})
}
