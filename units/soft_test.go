package units

import "testing"

// What units say beyond their dimension.
func TestAnglesAndCounts(t *testing.T) {
	t.Parallel()
	two := Number(2)
	f, w := q("1 kHz"), q("1 krad/s")
	r, c, l := q("10 kΩ"), q("100 nF"), q("1 mH")
	rc := r.Mul(c)
	fc := Number(1).Div(two.Mul(Pi).Mul(r).Mul(c))
	area := Pi.Mul(Pow(q("2 mm"), 2))
	for _, x := range []struct {
		name string
		got  Quantity
		want string
	}{
		{"Pi", Pi, "3.142"},
		{"2·Pi·f", two.Mul(Pi).Mul(f), "6.283 krad/s"},
		{"f·2·Pi", f.Mul(two).Mul(Pi), "6.283 krad/s"},
		{"ω/(2·Pi)", w.Div(two.Mul(Pi)), "159.2 Hz"},
		{"ω/2/Pi", w.Div(two).Div(Pi), "159.2 Hz"},
		{"1/(2·Pi·R·C)", fc, "159.2 Hz"},
		{"2·Pi·(1/(2·Pi·R·C))", two.Mul(Pi).Mul(fc), "1 krad/s"},
		{"R/(2·Pi·L)", r.Div(two.Mul(Pi).Mul(l)), "1.592 MHz"},
		{"1/(R·C)", Number(1).Div(rc), "1 kHz"},
		{"1/T", Number(1).Div(q("10 µs")), "100 kHz"},
		{"1/(2·Pi·Sqrt(L·C))", Number(1).Div(two.Mul(Pi).Mul(Sqrt(l.Mul(c)))), "15.92 kHz"},
		{"Sqrt(ω·ω)", Sqrt(w.Mul(w)), "1 krad/s"},
		{"2·Pi·n of 3000 rpm", two.Mul(Pi).Mul(q("3000 rpm")), "314.2 rad/s"},
		{"asked-for rad/s times a number", In(w, "rad/s").Mul(two), "2000 rad/s"},
		{"°/s times a number", two.Mul(q("3 °/s")), "6 °/s"},
		{"Pi times mAh", Pi.Mul(q("1 mAh")), "3.142 mAh"},
		{"ω·L", two.Mul(Pi).Mul(f).Mul(l), "6.283 Ω"},
		{"R + ω·L", r.Add(w.Mul(l)), "10 kΩ"},
		{"1/(ω·C)", Number(1).Div(w.Mul(c)), "10 kΩ"},
		{"ω·t", w.Mul(q("1 ms")), "1"},
		{"ω·L/L", w.Mul(l).Div(l), "1 krad/s"},
		{"3rad/2s", q("3 rad").Div(q("2 s")), "1.5 rad/s"},
		{"f·t", f.Mul(q("2 s")), "2000"},
		{"f/f", f.Div(f), "1"},
		{"Pi·r²", area, "1.257e-5 m²"},
		{"flow over area", q("1 m³/s").Div(area).Div(q("1 m")), "79.58 kHz"},
		{"cos φ·S", q("100 VA").Mul(Cos(q("60 deg"))), "50 VA"},
		{"45° + 1 rad", q("45 deg").Add(q("1 rad")), "102.3 °"},
		{"Atan", Atan(Number(1)), "0.7854 rad"},
		{"Atan in degrees", In(Atan(Number(1)), "deg"), "45 °"},
		{"Pi/4 in degrees", In(Pi.Div(Number(4)), "deg"), "45 °"},
		{"f in Hz from a computed 1/s", In(Number(1).Div(rc), "Hz"), "1000 Hz"},
		{"ω in rad/s from a computed 1/s", In(Number(1).Div(rc), "rad/s"), "1000 rad/s"},
		{"baud from a computed 1/s", In(Number(1).Div(q("100 µs")), "baud"), "10000 Bd"},
		{"computed 1/s and rad/s", Number(1).Div(rc).Add(w), "2 krad/s"},
		{"Ω/sq · sq", q("0.5 mΩ/sq").Mul(q("10 sq")), "5 mΩ"},
		{"Ω/sq · number", q("0.5 mΩ/sq").Mul(Number(10)), "5 mΩ/sq"},
		{"Ω / sq", q("5 mΩ").Div(q("10 sq")), "500 µΩ/sq"},
		{"length over width in squares", In(q("10 mm").Div(q("1 mm")), "sq"), "10 sq"},
		{"resistivity over thickness", In(q("17.2 nΩ·m").Div(q("34.4 µm")), "mΩ/sq"), "0.5 mΩ/sq"},
		{"V/sq", q("1 mA").Mul(q("5 Ω/sq")), "0.005 V/sq"},
		{"V/sq · sq", q("1 mA").Mul(q("5 Ω/sq")).Mul(q("2 sq")), "10 mV"},
		{"bit/s · s", q("115.2 kbit/s").Mul(q("2 s")), "230.4 kbit"},
		{"B / (bit/s)", q("12 kB").Div(q("96 kbit/s")), "1 s"},
		{"bit · Hz", q("8 bit").Mul(q("1 kHz")), "8 kbit/s"},
		{"bit / s", q("8 bit").Div(q("1 ms")), "8 kbit/s"},
		{"bit/s over bit", q("1 kbit/s").Div(q("8 bit")), "125 Hz"},
		{"W over bit/s", q("10 mW").Div(q("100 kbit/s")), "100 nJ/bit"},
		{"bit in B", In(q("64 kbit"), "B"), "8000 B"},
		{"bit²", Pow(q("3 bit"), 2), "9 bit²"},
		{"VA / V", q("100 VA").Div(q("10 V")), "10 A"},
		{"baud · number", q("9600 baud").Mul(two), "19.2 kBd"},
		{"In(S, W)", In(q("100 VA"), "W"), "100 W"},
	} {
		if got := x.got.String(); got != x.want {
			t.Errorf("%s is %q, want %q", x.name, got, x.want)
		}
	}
	// What Pi remembers does not count as a difference.
	if !Pi.Sub(Pi).Equal(Number(0)) || Number(3).Less(Number(2)) || !Number(3).Less(Pi) {
		t.Error("Pi does not compare as a number")
	}
	if Pi.SIUnit() != "1" || Pi.Float() != 3.141592653589793 {
		t.Errorf("Pi is %v %s", Pi.Float(), Pi.SIUnit())
	}
}

func TestPreferredUnitsAreStable(t *testing.T) {
	t.Parallel()
	v, a, s := q("6 V"), q("2 A"), q("3 s")
	for _, x := range []struct {
		got  Quantity
		want string
	}{
		{v.Div(a), "3 Ω"}, {a.Div(v), "333.3 mS"}, {v.Mul(a), "12 W"}, {v.Mul(a).Mul(s), "36 J"}, {a.Mul(s), "6 C"},
		{a.Mul(s).Div(v), "1 F"}, {v.Mul(s).Div(a), "9 H"}, {v.Mul(s), "18 Wb"}, {v.Div(q("4 √Hz")), "1.5 V/√Hz"},
		{q("20 K").Div(q("4 W")), "5 K/W"}, {q("4 W").Div(q("20 K")), "200 mW/K"}, {Number(1).Div(s), "333.3 mHz"},
		{q("2 m").Mul(q("3 m")), "6 m²"}, {v.Div(q("2 m")), "3 V/m"}, {v.Div(a).Mul(q("2 m")), "6 Ω·m"}, {q("6 m").Div(s), "2 m/s"},
		{q("6 m").Div(s).Div(s), "0.6667 m/s²"}, {q("2 kg").Mul(q("3 m/s²")), "6 N"}, {q("6 N").Div(q("2 m²")), "3 Pa"}, {a.Mul(a).Mul(s), "12 A²·s"},
		{v.Mul(v), "36 V²"}, {Sqrt(q("4 kΩ").Mul(Boltzmann).Mul(q("300 K"))), "4.07 nV/√Hz"}, {q("2 N").Mul(q("3 m")), "6 J"},
		{q("5 V").Mul(q("3 Ω")), "15 V·Ω"}, {q("3 Ω").Mul(q("3 Ω")), "9 Ω²"}, {q("2 W").Mul(q("2 A")), "4 A·W"}, {q("1 K").Mul(q("5 V")), "5 V·K"}, {q("1 K/W").Mul(q("1 K/W")), "1 K²/W²"},
		{q("1 m").Mul(q("1 kg")).Mul(q("1 mol")), "1 kg·m·mol"}, {Number(1).Div(q("1 m").Mul(q("1 kg"))), "1 1/(kg·m)"},
	} {
		if got := x.got.String(); got != x.want {
			t.Errorf("%q, want %q", got, x.want)
		}
	}
}
