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

// By hand: gain 50 · 0.5 · 0.005 = 0.125; at 60 °C the loss is 0.5 · 1.175 =
// 0.5875 W; rise 50 · 0.5875/0.875 = 33.571 K; at 125 °C 0.5 · 1.5 = 0.75 W
// make 37.5 K, which leaves 27.5 K to Ambient; 65 K/50 = 1.3 W = 1.5 times the
// largest loss.
func TestSettled(t *testing.T) {
	t.Parallel()
	s := must(Settled(SettledInputs{Ambient: q("60 °C"), Resistance: q("50 K/W"), Loss: q("0.5 W"), At: q("25 °C"), Tempco: q("0.5 %/K"), Limit: q("125 °C")}))(t)
	expect.Within(t, "gain", s.Gain, "0.125", "1e-12")
	expect.Within(t, "cold", s.Cold, "0.5875 W", "1e-12 W")
	expect.Within(t, "rise", s.Rise, "33.5714286 K", "1e-7 K")
	expect.Within(t, "junction", s.Junction, "93.5714286 °C", "1e-7 K")
	expect.Within(t, "loss", s.Heat, "0.671428571 W", "1e-9 W")
	expect.Within(t, "margin", s.Margin, "31.4285714 K", "1e-7 K")
	expect.Within(t, "runaway", s.RunawayThermal, "400 K/W", "1e-9 K/W")
	expect.Within(t, "ambient margin", s.AmbientMargin, "27.5 K", "1e-9 K")
	expect.Within(t, "largest loss", s.LargestLoss, "0.866666667 W", "1e-9 W")
	// Copper: 0.393 %/K from 20 °C (IEC 60028), so a winding of 1 W at 20 °C and
	// 30 K/W in 20 °C: 30/(1 − 0.1179) = 34.0098 K.
	w := must(Settled(SettledInputs{Ambient: q("20 °C"), Resistance: q("30 K/W"), Loss: q("1 W"), At: q("20 °C"), Tempco: q("0.393 %/K"), Limit: q("130 °C")}))(t)
	expect.Within(t, "winding", w.Rise, "34.0098 K", "1e-4 K")
}

// By hand: 12 K/ln 2 = 17.3123 K make e times as much; at 60 K/W the gain is 1
// where the leakage loses 17.3123/60 = 0.288539 W; that is 12.0225 times 24 mW,
// at 75 + 12 · log₂ 12.0225 = 75 + 12 · 3.58766 = 118.052 °C; less 60 · 0.688539
// = 41.312 K: 76.740 °C.
func TestLeakage(t *testing.T) {
	t.Parallel()
	l := must(Leakage(LeakageInputs{Ambient: q("60 °C"), Resistance: q("60 K/W"), Fixed: q("0.4 W"), Leakage: q("24 mW"), At: q("75 °C"), Doubling: q("12 K"), Limit: q("125 °C")}))(t)
	expect.Within(t, "runaway loss", l.RunawayLoss, "0.288539 W", "1e-6 W")
	expect.Within(t, "runaway junction", l.RunawayJunction, "118.052 °C", "2e-3 K")
	expect.Within(t, "runaway ambient", l.RunawayAmbient, "76.740 °C", "2e-3 K")
	expect.Within(t, "ambient margin", l.AmbientMargin, "16.740 K", "2e-3 K") // the limit lies above the runaway
	// It settles: 60 + 60 · (0.4 + 0.024 · 2^((T − 75)/12)).
	T := l.Junction.SI() - 273.15
	if back := 60 + 60*(0.4+0.024*math.Exp2((T-75)/12)); math.Abs(back-T) > 1e-9 {
		t.Errorf("%g °C makes %g °C", T, back)
	}
	expect.Within(t, "gain", l.Gain, fmt.Sprint(60*l.Leaking.SI()*math.Ln2/12), "1e-12")
	// With the limit below the runaway: 110 − 60 · (0.4 + 0.024 · 2^(35/12)) =
	// 110 − 24 − 10.872 = 75.128 °C (2^(35/12) = 7.5496).
	l = must(Leakage(LeakageInputs{Ambient: q("60 °C"), Resistance: q("60 K/W"), Fixed: q("0.4 W"), Leakage: q("24 mW"), At: q("75 °C"), Doubling: q("12 K"), Limit: q("110 °C")}))(t)
	expect.Within(t, "ambient margin at 110 °C", l.AmbientMargin, "15.128 K", "2e-3 K")
}

// In the time domain: a heat capacity with the same loss comes to rest where
// Leakage and Settled say, and just above the ambient of runaway never does.
func TestSettledSimulated(t *testing.T) {
	t.Parallel()
	settle := func(ambient, resistance float64, loss func(T float64) float64) float64 {
		T, capacity := ambient, 1.0/resistance // a time constant of 1 s
		const dt = 1e-3
		for range 200000 {
			before := T
			T += dt / capacity * (loss(T) - (T-ambient)/resistance)
			if T > 1000 {
				return math.Inf(1)
			}
			if math.Abs(T-before) < 1e-12 {
				break
			}
		}
		return T
	}
	celsius := func(x float64) units.Quantity { return q("0 °C").Add(q("1 K").Mul(units.Number(x))) }
	for _, resistance := range []float64{10, 60, 150} {
		for _, fixed := range []float64{0, 0.2} {
			in := LeakageInputs{Ambient: q("-40 °C"), Resistance: q("1 K/W").Mul(units.Number(resistance)), Fixed: q("1 W").Mul(units.Number(fixed)), Leakage: q("10 mW"), At: q("60 °C"), Doubling: q("11 K"), Limit: q("150 °C")}
			loss := func(T float64) float64 { return fixed + 0.01*math.Exp2((T-60)/11) }
			edge := must(Leakage(in))(t).RunawayAmbient.SI() - 273.15
			for _, below := range []float64{40, 5, 0.2} {
				in.Ambient = celsius(edge - below)
				l := must(Leakage(in))(t)
				want := settle(edge-below, resistance, loss)
				expect.Within(t, fmt.Sprintf("%g K/W, %g W, %g K below", resistance, fixed, below), l.Junction, fmt.Sprint(want, " °C"), "1e-6 K")
				expect.Within(t, "margin", l.RunawayMargin, fmt.Sprint(below, " K"), "1e-9 K")
				if g := l.Gain.SI(); !(g < 1) {
					t.Errorf("the gain is %g", g)
				}
			}
			if T := settle(edge+0.2, resistance, loss); !math.IsInf(T, 1) {
				t.Errorf("%g K/W, %g W: above the runaway it settles at %g °C", resistance, fixed, T)
			}
			in.Ambient = celsius(edge + 0.2)
			if l, err := Leakage(in); err == nil {
				t.Errorf("above the runaway: %v", l.Junction)
			}
			s := must(Settled(SettledInputs{Ambient: q("50 °C"), Resistance: in.Resistance, Loss: q("0.6 W"), At: q("25 °C"), Tempco: q("0.6 %/K"), Fixed: in.Fixed, Limit: q("150 °C")}))(t)
			want := settle(50, resistance, func(T float64) float64 { return fixed + 0.6*(1+0.006*(T-25)) })
			expect.Within(t, "Settled", s.Junction, fmt.Sprint(want, " °C"), "1e-6 K")
		}
	}
}

// A curve of two points is a straight line; a curve drawn from an exponential
// is Leakage. Both margins say by how much the ambient may rise: with it the
// part settles at the limit.
func TestSettledCurve(t *testing.T) {
	t.Parallel()
	line := must(table.Text("junction [°C], factor [1]\n-40, 0.675\n175, 1.75"))(t) // 0.5 %/K from 25 °C
	in := SettledCurveInputs{Ambient: q("60 °C"), Resistance: q("50 K/W"), Loss: q("0.5 W"), Factor: line, Fixed: q("0.1 W"), Limit: q("125 °C")}
	straight := SettledInputs{Ambient: q("60 °C"), Resistance: q("50 K/W"), Loss: q("0.5 W"), At: q("25 °C"), Tempco: q("0.5 %/K"), Fixed: q("0.1 W"), Limit: q("125 °C")}
	c, s := must(SettledCurve(in))(t), must(Settled(straight))(t)
	expect.Within(t, "junction", c.Junction, fmt.Sprint(s.Junction.SI()-273.15, " °C"), "1e-9 K")
	expect.Within(t, "loss", c.Heat, s.Heat.Text(15), "1e-9 W")
	expect.Within(t, "gain", c.Gain, "0.125", "1e-9")
	expect.Within(t, "ambient margin", c.AmbientMargin, s.AmbientMargin.Text(15), "1e-9 K")
	in.Ambient = in.Ambient.Add(c.AmbientMargin).Sub(q("1e-9 K"))
	expect.Within(t, "junction in the largest ambient", must(SettledCurve(in))(t).Junction, "125 °C", "1e-6 K")
	straight.Ambient = straight.Ambient.Add(s.AmbientMargin)
	expect.Within(t, "and on the straight line", must(Settled(straight))(t).Junction, "125 °C", "1e-6 K")
	straight.Ambient, straight.Loss = q("60 °C"), s.LargestLoss
	expect.Within(t, "with the largest loss", must(Settled(straight))(t).Junction, "125 °C", "1e-6 K")

	var at, factor []units.Quantity
	for T := 0.0; T <= 160; T += 0.25 {
		at = append(at, q("0 °C").Add(q("1 K").Mul(units.Number(T))))
		factor = append(factor, units.Number(math.Exp2((T-75)/12)))
	}
	leak := must(Leakage(LeakageInputs{Ambient: q("60 °C"), Resistance: q("60 K/W"), Fixed: q("0.4 W"), Leakage: q("24 mW"), At: q("75 °C"), Doubling: q("12 K"), Limit: q("110 °C")}))(t)
	drawn := must(SettledCurve(SettledCurveInputs{Ambient: q("60 °C"), Resistance: q("60 K/W"), Loss: q("24 mW"), Factor: must(table.Curve(at, factor))(t), Fixed: q("0.4 W"), Limit: q("110 °C")}))(t)
	expect.Within(t, "leakage by its curve", drawn.Junction, fmt.Sprint(leak.Junction.SI()-273.15, " °C"), "1e-2 K")
	expect.Within(t, "its gain", drawn.Gain, leak.Gain.Text(12), "1e-3")
	expect.Within(t, "its ambient margin", drawn.AmbientMargin, leak.AmbientMargin.Text(12), "1e-9 K")
}

// More loss, more resistance, more tempco, hotter air: always hotter.
func TestSettledIsMonotonic(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(r, name) }
		resistance, loss, tempco, ambient := draw("resistance", 1, 50), draw("loss", 0.01, 1), draw("tempco", 1e-4, 8e-3), draw("ambient", -40, 80)
		at := func(resistance, loss, tempco, ambient float64) float64 {
			s, err := Settled(SettledInputs{Ambient: q("0 °C").Add(q("1 K").Mul(units.Number(ambient))), Resistance: q("1 K/W").Mul(units.Number(resistance)),
				Loss: q("1 W").Mul(units.Number(loss)), At: q("-40 °C"), Tempco: q("1 1/K").Mul(units.Number(tempco)), Limit: q("150 °C")})
			if err != nil {
				r.Fatal(err)
			}
			return s.Junction.SI()
		}
		first := at(resistance, loss, tempco, ambient)
		for i, more := range []float64{at(1.1*resistance, loss, tempco, ambient), at(resistance, 1.1*loss, tempco, ambient), at(resistance, loss, 1.1*tempco, ambient), at(resistance, loss, tempco, ambient+1)} {
			if more < first {
				r.Fatalf("input %d: from %g to %g", i, first, more)
			}
		}
	})
}
