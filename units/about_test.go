package units_test

import (
	"strings"
	"testing"

	"ohmwright/units"
)

// Values and factors are from the SI Brochure (tables 4 and 8), NIST SP 811
// appendix B (inch, psi, Fahrenheit) and the definitions of the levels, worked
// out by hand: 14 dBm is 1 mW · 10^1.4, 3 dB a ratio of 10^0.3 of powers.
func TestAboutLiteral(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ literal, value, measures, si, definition, source string }{
		{"4.7kΩ", "4700 Ω", "resistance", "1 kΩ = 1000 Ω", "1 Ω = 1 V/A", "SI Brochure, 9th edition (2019), table 4"},
		{"100nF", "1e−7 F", "capacitance", "1 nF = 1e−9 F", "1 F = 1 C/V", "SI Brochure"},
		{"62°C/W", "62 K/W", "thermal resistance", "1 °C/W = 1 K/W", "", ""},
		{"25°C", "298.15 K", "temperature on the scale", "", "a point on the temperature scale: 0 °C = 273.15 K, and a step of 1 °C is 1 K", "SI Brochure"},
		{"-40°C", "233.15 K", "temperature on the scale", "", "", ""},
		{"32°F", "273.15 K", "temperature on the scale", "", "and a step of 1 °F is 5/9 K", "NIST Special Publication 811"},
		{"2mAh", "7.2 C", "charge", "1 mAh = 3.6 C", "1 Ah = 3600 C", "NIST Special Publication 811"},
		{"10in", "0.254 m", "length", "1 in = 0.0254 m", "1 in = 0.0254 m", "exact"},
		{"14dBm", "0.02511886432 W", "power level", "", "a level over a reference: 0 dBm = 1 mW", "ITU-R V.574"},
		{"0dBV", "1 V", "voltage level", "", "0 dBV = 1 V", ""},
		{"3dB", "a ratio of powers of 1.995262315, of voltages of 1.412537545", "gain", "", "ten times the logarithm", ""},
		{"5%", "0.05", "share", "1 % = 0.01", "", "ISO 80000-1"},
		{"180°", "3.141592654 rad", "angle", "1 ° = 0.01745329252 rad", "", ""},
		{"1KiB", "8192 bit", "information", "1 KiB = 8192 bit", "1 B = 8 bit", "IEC 80000-13"},
		{"10g", "0.01 kg", "mass", "1 g = 0.001 kg", "the SI base unit is kg", ""},
		{"3s", "3 s", "time", "", "1 s is the SI base unit of time", ""},
		{"600rpm", "10 Hz", "frequency", "1 rpm = 0.01666666667 Hz", "", ""},
	} {
		value, u, ok := units.AboutLiteral(c.literal)
		if !ok || value != c.value || u.Measures != c.measures || u.SI != c.si || !strings.Contains(u.Definition, c.definition) || !strings.Contains(u.Source, c.source) {
			t.Errorf("%s: %v\n got %q %+v\nwant %+v", c.literal, ok, value, u, c)
		}
	}
	_, u, _ := units.AboutLiteral("35nV/√Hz")
	if len(u.Parts) != 2 || u.Parts[0].Prefix != "n = 10⁻⁹" || u.Parts[1].Definition != "1 Hz = 1 1/s" || u.Symbol != "nV/√Hz" {
		t.Errorf("35nV/√Hz: %+v", u)
	}
	for _, none := range []string{"", "12", "10k", "V", "0x1F"} {
		if _, _, ok := units.AboutLiteral(none); ok {
			t.Errorf("%q is told about", none)
		}
	}
}
