package units

import "testing"

// The figures are those of the definition, 10·log10 of powers and 20·log10 of
// voltages; 25 mW in dBm is 13.979, 13 dBm 19.9526 mW (from memory of any
// table of dBm).
func TestLevels(t *testing.T) {
	t.Parallel()
	mw, uv := q("1 mW"), q("1 µV")
	for _, c := range []struct {
		name string
		got  Quantity
		want string
	}{
		{"level + gain", q("14 dBm").Add(q("2.15 dBi")), "16.15 dBm"},
		{"gain + level", q("3 dB").Add(q("14 dBm")), "17 dBm"},
		{"level - gain", q("14 dBm").Sub(q("100.5 dB")), "−86.5 dBm"},
		{"level - level", q("-86.5 dBm").Sub(q("-120 dBm")), "33.5 dB"},
		{"dBW - dBm", q("0 dBW").Sub(q("0 dBm")), "30 dB"},
		{"gain + gain", q("3 dB").Add(q("4.5 dB")), "7.5 dB"},
		{"antenna + gain", q("2.15 dBi").Add(q("1 dB")), "3.15 dBi"},
		{"gain - gain", q("3 dB").Sub(q("4.5 dB")), "−1.5 dB"},
		{"number · gain", Number(3).Mul(q("1.5 dB")), "4.5 dB"},
		{"gain · number", q("1.5 dBi").Mul(Number(2)), "3 dBi"},
		{"gain / number", q("3 dB").Div(Number(2)), "1.5 dB"},
		{"gain / gain", q("30 dB").Div(q("6 dB")), "5"},
		{"-gain", q("3 dB").Neg(), "−3 dB"},
		{"attenuation of a cable", q("0.2 dB/m").Mul(q("15 m")), "3 dB"},
		{"attenuation per length", q("3 dB").Div(q("15 m")), "0.2 dB/m"},
		{"dB/km", q("200 dB/km").Mul(q("15 m")), "3 dB"},
		{"Power(0 dBm)", Power(q("0 dBm")), "1 mW"},
		{"Power(13 dBm)", In(Power(q("13 dBm")), "mW"), "19.95 mW"},
		{"Power(30 dBm)", Power(q("30 dBm")), "1 W"},
		{"Power(-30 dBm)", Power(q("-30 dBm")), "1 µW"},
		{"Power(-3 dBW)", Power(q("-3 dBW")), "501.2 mW"},
		{"Voltage(0 dBV)", Voltage(q("0 dBV")), "1 V"},
		{"Voltage(6 dBV)", Voltage(q("6 dBV")), "1.995 V"},
		{"Voltage(0 dBu)", Voltage(q("0 dBu")), "774.6 mV"},
		{"Voltage(40 dBµV)", Voltage(q("40 dBµV")), "100 µV"},
		{"Level(25 mW, 1 mW)", LevelOf(q("25 mW"), mw), "13.98 dBm"},
		{"Level(1 mW, 1 mW)", LevelOf(mw, mw), "0 dBm"},
		{"Level(1 µW, 1 mW)", LevelOf(q("1 µW"), mw), "−30 dBm"},
		{"Level(2 W, 1 W)", LevelOf(q("2 W"), q("1 W")), "3.01 dBW"},
		{"Level(100 µV, 1 µV)", LevelOf(q("100 µV"), uv), "40 dBµV"},
		{"Level(1 V, 1 V)", LevelOf(q("1 V"), q("1 V")), "0 dBV"},
		{"Level(1 V, 0.7746 V)", LevelOf(q("1 V"), q("0.774597 V")), "2.218 dBu"},
		{"Level(1 V, 0.7746 V) as written", LevelOf(q("1 V"), q("0.7746 V")), "2.218 dBu"},
		{"Level(1 V, 1 mV)", LevelOf(q("1 V"), q("1 mV")), "60 dBmV"},
		{"dBm in dBW", In(q("30 dBm"), "dBW"), "0 dBW"},
		{"dBu in dBV", In(q("4 dBu"), "dBV"), "1.782 dBV"},
		{"dBi in dB", In(q("2.15 dBi"), "dB"), "2.15 dB"},
		{"PowerRatio", PowerRatio(q("20 dB")), "100"},
		{"PowerRatio(3 dB)", PowerRatio(q("3 dB")), "1.995"},
		{"VoltageRatio", VoltageRatio(q("20 dB")), "10"},
		{"VoltageRatio(-6 dB)", VoltageRatio(q("-6 dB")), "0.5012"},
		{"PowerGain", PowerGain(Number(100)), "20 dB"},
		{"VoltageGain", VoltageGain(q("1 V").Div(q("1 mV"))), "60 dB"},
		{"PowerSum of two", PowerSum(q("10 dBm"), q("10 dBm")), "13.01 dBm"},
		{"PowerSum of dBW and dBm", PowerSum(q("0 dBW"), q("-100 dBm")), "0 dBW"},
		{"PowerSum of one", PowerSum(q("10 dBm")), "10 dBm"},
		{"PowerSum far down", PowerSum(q("-400 dBm"), q("-400 dBm")), "−397 dBm"},
		{"Min of levels", Min(q("10 dBm"), q("0 dBW")), "10 dBm"},
	} {
		if got := c.got.String(); got != c.want {
			t.Errorf("%s is %s, want %s", c.name, got, c.want)
		}
	}
	if !q("30 dBm").Equal(q("0 dBW")) || !q("29 dBm").Less(q("0 dBW")) || !(Quantity{}).Less(q("3 dB")) {
		t.Error("levels compare wrongly")
	}
	// Free space, 1 km at 1 GHz: 92.44778322188337 dB (documentation of a
	// general signal library for Python, free_space_path_loss).
	path := VoltageGain(Number(4).Mul(Pi).Mul(q("1 km")).Mul(q("1 GHz")).Div(SpeedOfLight))
	if !near(path.SI(), 92.44778322188337, 1e-12) {
		t.Errorf("free space loss is %v", path.Text(0))
	}
}

// Whole tens are exact.
func TestLevelsOfPowersOfTenAreExact(t *testing.T) {
	t.Parallel()
	for n := -200; n <= 200; n += 10 {
		level := Quantity{v: float64(n), d: dimWatt | Dim(LevelScale)<<kindShift}
		p := Power(level)
		want := decimal{digits: "1", exp: n / 10}.float(0)
		if p.SI() != want || LevelOf(p, q("1 W")).v != float64(n) {
			t.Errorf("%d dBW is %v W, and back %v", n, p.SI(), LevelOf(p, q("1 W")).v)
		}
	}
}
