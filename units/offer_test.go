package units_test

import (
	"strings"
	"testing"

	"ohmwright/units"
)

// What is offered first behind a number: what the trade writes with a prefix
// is common practice (kΩ, kHz and kV, µF and µH); what a unit measures is
// the SI Brochure's, table 4.
func TestOfferUnits(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ typed, first, never, why string }{
		{"10k", "kΩ resistance, kHz frequency, kV voltage", "kF ks Ki", "the usual of the prefix; a capacitor of a kilofarad is none"},
		{"10", "V voltage, A current, Ω resistance", "kΩ mA", "without a prefix the order of the table"},
		{"4.7ko", "kohm resistance", "kΩ", "the plain spelling goes on with what was typed"},
		{"10u", "uF capacitance, uH inductance, uA current", "µF", "u was typed"},
		{"10µ", "µF capacitance, µH inductance, µA current", "uF", "the micro sign, U+00B5"},
		{"10μ", "μF capacitance, μH inductance, μA current", "µF", "the Greek letter, U+03BC"},
		{"10m", "m length, mV voltage, mA current", "mF", "a unit that is finished comes first; 1 mF is marked 1000 µF"},
		{"100n", "nF capacitance, nH inductance, nA current", "n", ""},
		{"10d", "d time, dm length", "dV", "deci stands before the metre only"},
		{"1013h", "h time, hPa pressure", "hV", "hecto is the barometer's"},
		{"25deg", "deg angle, degC temperature on the scale", "°C", ""},
		{"100pp", "ppm share, ppb share", "", ""},
		{"3dB", "dB gain, dBm power level", "", ""},
		{"64Ki", "Kibit information, KiB information", "", "binary prefixes"},
		{"62°C/", "W thermal resistance, s temperature rate", "A V", "K/A measures nothing that has a name"},
		{"62degC/", "W thermal resistance", "", ""},
		{"35nV/", "K thermovoltage, √Hz noise voltage density, s voltage slew rate", "V", "quantities that are written so come first"},
		{"0.5Ω/", "sq sheet resistance, K resistance drift", "", "resistance drift stands behind sheet resistance in the table"},
		{"1V/u", "uK thermovoltage, us voltage slew rate, um electric field strength", "", "a prefix below the stroke"},
		{"5%", "% share", "", ""},
	} {
		start, offers := units.OfferUnits(c.typed)
		var got, texts []string
		for _, o := range offers {
			got = append(got, o.Text+" "+o.Measures)
			texts = append(texts, o.Text)
			if !strings.HasPrefix(o.Text, c.typed[start:]) {
				t.Errorf("%s: %s does not go on with %q", c.typed, o.Text, c.typed[start:])
			}
		}
		if all := strings.Join(got, ", "); !strings.HasPrefix(all, c.first) {
			t.Errorf("%s (%s):\n got %.120s\nwant %s", c.typed, c.why, all, c.first)
		}
		for _, n := range strings.Fields(c.never) {
			for _, x := range texts {
				if x == n {
					t.Errorf("%s (%s): %s is offered", c.typed, c.why, n)
				}
			}
		}
	}
	for _, none := range []string{"", "V", "0x1F", "2.", "10qq", "10V/Rt", "10/", "1dBm/"} {
		if _, offers := units.OfferUnits(none); len(offers) > 0 {
			t.Errorf("%q: offered %v", none, offers)
		}
	}
}

// Everything that is offered can be read: by all prefixes of all literals of
// the table of quantities.
func TestOfferedUnitsAreRead(t *testing.T) {
	t.Parallel()
	heads := []string{"1"}
	for _, n := range units.UnitNames() {
		heads = append(heads, "1"+n[:1], "1"+n+"/", "1"+n+"·")
	}
	for _, p := range []string{"Q", "G", "M", "k", "h", "d", "c", "m", "µ", "u", "n", "p", "q", "Ki"} {
		heads = append(heads, "1"+p, "1V/"+p)
	}
	for _, h := range heads {
		start, offers := units.OfferUnits(h)
		for _, o := range offers {
			literal := h[:start] + o.Text
			if _, n, err := units.ScanLiteral(literal); err != nil || n != len(literal) {
				t.Errorf("%s offers %s: read %d bytes, %v", h, literal, n, err)
			}
		}
	}
}
