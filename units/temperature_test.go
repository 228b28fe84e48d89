package units

import "testing"

func TestPointsAndDifferences(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		got  Quantity
		want string
		si   float64
	}{
		{"point - point", q("125 °C").Sub(q("25 °C")), "100 K", 100},
		{"point + difference", q("25 °C").Add(q("40 K")), "65 °C", 338.15},
		{"difference + point", q("40 K").Add(q("25 °C")), "65 °C", 338.15},
		{"point - difference", q("25 °C").Sub(q("65 K")), "−40 °C", 233.15},
		{"power times thermal resistance", q("25 °C").Add(q("0.5 W").Mul(q("62 °C/W"))), "56 °C", 329.15},
		{"drift over a difference", q("100 ppm/°C").Mul(q("85 °C").Sub(q("25 °C"))), "0.006", 0.006},
		{"drift per °F", q("1 ppm/°F").Mul(q("5 K")), "9e-6", 9e-6},
		{"Absolute", Absolute(q("25 °C")), "298.1 K", 298.15},
		{"Absolute of zero", Absolute(q("-273.15 °C")), "0 K", 0},
		{"°F and °C", q("212 °F").Sub(q("32 °F")), "100 K", 100},
		{"°F keeps", q("212 °F").Add(q("100 K")), "392 °F", 473.15},
		{"Max of points", Max(q("25 °C"), q("77.1 °F")), "77.1 °F", 298.205555},
		{"Where", Where(q("25 °C"), q("26 °C"), q("1 °C"), q("2 °C")), "1 °C", 274.15},
	} {
		if got := c.got.String(); got != c.want || !near(c.got.SI(), c.si, 1e-8) {
			t.Errorf("%s is %s, %v; want %s, %v", c.name, got, c.got.SI(), c.want, c.si)
		}
	}
	if !q("20 °C").Less(q("25 °C")) || q("25 °C").Less(q("77 °F")) || !q("25 °C").Equal(q("77 °F")) || !q("-40 °C").Equal(q("-40 °F")) {
		t.Error("points compare wrongly")
	}
	// The mean that the advice of point + point names.
	a, b := q("20 °C"), q("30 °C")
	if m := a.Add(b.Sub(a).Div(Number(2))); m.String() != "25 °C" {
		t.Errorf("mean is %v", m)
	}
	// The B equation of a thermistor: 10 kΩ, B 3977 K, at 85 °C 1070.3 Ω
	// (the definition worked out with a calculator: exp(3977·(1/358.15 − 1/298.15)) = 0.10703).
	r := q("10 kΩ").Mul(Exp(q("3977 K").Mul(Number(1).Div(Absolute(q("85 °C"))).Sub(Number(1).Div(Absolute(q("25 °C")))))))
	if !near(r.SI(), 1070.3, 1e-4) {
		t.Errorf("thermistor is %v", r)
	}
	// 25 °C is the float64 nearest to 298.15, not a sum of two roundings.
	for s, want := range map[string]float64{"25 °C": 298.15, "0.1 °C": 273.25, "-40 °C": 233.15, "85.6 °C": 358.75, "1000.7 °C": 1273.85} {
		if got := q(s).SI(); got != want {
			t.Errorf("%s is %v K, want %v", s, got, want)
		}
	}
}
