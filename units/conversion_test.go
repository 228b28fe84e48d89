package units

import "testing"

// Conversions as they are looked up, with published results.
func TestPublishedConversions(t *testing.T) {
	t.Parallel()
	copper := func(density string) Quantity { return In(q("1 oz/ft²").Div(q(density)), "µm") }
	for _, c := range []struct {
		got    Quantity
		digits int
		want   string
		from   string
	}{
		{In(q("1 BTU"), "J"), 7, "1055.056 J", "SP 811 B.8"},
		{In(q("1 BTU"), "cal"), 6, "252.164 cal", "1055.056 J over 4.184 J"},
		{In(q("1 BTU/h"), "W"), 6, "0.293071 W", "SP 811 B.8"},
		{In(q("1 mil²"), "cmil"), 4, "1.273 cmil", "4/π, wire tables"},
		{In(q("1 cmil"), "mm²"), 7, "0.0005067075 mm²", "SP 811 B.8"},
		{In(q("1 mil"), "µm"), 4, "25.4 µm", "0.001 inch"},
		{In(q("1 oz/ft²"), "kg/m²"), 6, "0.305152 kg/m²", "SP 811 B.8"},
		{copper("8.96 kg/L"), 4, "34.06 µm", "0.305152/8960; the trade calls 1 oz copper 34.8 or 35 µm"},
		{copper("8.89 kg/L"), 4, "34.33 µm", "0.305152/8890"},
		{In(q("1 kWh"), "MJ"), 4, "3.6 MJ", "SP 811 B.8"},
		{In(q("1 Ah"), "C"), 4, "3600 C", "SP 811 B.8"},
		{In(q("77 °F"), "°C"), 4, "25 °C", "SP 811 B.8: (77 − 32)/1.8"},
		{In(q("9 °F/W").Mul(q("1 W")), "K"), 4, "5 K", "9/1.8"},
		{In(Power(q("13 dBm")), "mW"), 6, "19.9526 mW", "10^1.3"},
		{LevelOf(q("25 mW"), q("1 mW")), 5, "13.979 dBm", "10·log10(25)"},
		{In(q("1 psi"), "kPa"), 7, "6.894757 kPa", "SP 811 B.8"},
		{In(q("1 lbf"), "N"), 7, "4.448222 N", "SP 811 B.8"},
		{In(q("1 eV"), "J"), 10, "1.602176634e-19 J", "SI Brochure, table 8"},
		{In(q("1 in²"), "cm²"), 5, "6.4516 cm²", "SP 811 B.8"},
		{In(q("10 m/s"), "ft/min"), 6, "1968.5 ft/min", "600/0.3048"},
		{In(q("1 °/s"), "rad/s"), 7, "0.01745329 rad/s", "SP 811 B.8"},
		{In(q("3000 rpm"), "Hz"), 4, "50 Hz", "3000/60"},
		{In(q("2 kB/s"), "kbit/s"), 4, "16 kbit/s", "8 bits a byte"},
		{In(q("1 GiB"), "MB"), 8, "1073.7418 MB", "1024³ bytes"},
	} {
		if got := c.got.Text(c.digits); got != c.want {
			t.Errorf("%s, want %s (%s)", got, c.want, c.from)
		}
	}
}

// Units that have no name are built from base units and read back.
func TestUnnamedDimensions(t *testing.T) {
	t.Parallel()
	m, s, db := q("2 m"), q("3 s"), q("3 dB")
	for _, c := range []struct {
		got  Quantity
		want string
	}{
		{db.Mul(s), "9 dB·s"},
		{db.Div(m).Div(m), "0.75 dB/m²"},
		{db.Mul(m).Div(s), "2 dB·m/s"},
		{q("3 dB/m").In("dB/ft"), "0.9144 dB/ft"},
		{m.Mul(m).Mul(m).Mul(m), "16 m⁴"},
		{Number(1).Div(s.Mul(s).Mul(s)), "0.03704 1/s³"},
		{q("8 bit").Mul(m), "16 m·bit"},
		{q("8 bit").Mul(q("2 V")), "16 V·bit"},
		{q("8 V").Div(q("2 bit")), "4 V/bit"},
		{Sqrt(q("16 bit^2")), "4 bit"},
		{Sqrt(q("16 bit")), "4"},
		{q("2 rad").Mul(q("3 bit")), "6 bit·rad"},
		{Pow(q("2 rad/s"), 3), "8 1/s³"},
	} {
		if got := c.got.String(); got != c.want {
			t.Errorf("%s, want %s", got, c.want)
		}
		if c.got.u == nil || !c.got.u.hidden {
			checkReadBack(t, c.got)
		}
	}
}
