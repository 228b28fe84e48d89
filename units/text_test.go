package units

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestText(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		value  string
		digits int
		want   string
	}{
		{"10 kΩ", 4, "10 kΩ"},
		{"1904.7 Ω", 4, "1.905 kΩ"},
		{"1904.7 Ω", 6, "1.9047 kΩ"},
		{"1904.7 Ω", 2, "1.9 kΩ"},
		{"1904.7 Ω", 1, "2 kΩ"},
		{"1904.7 Ω", 0, "1.9047 kΩ"},
		{"470 Ω", 1, "500 Ω"},
		{"0 V", 4, "0 V"},
		{"-0 V", 4, "0 V"},
		{"-40 °C", 4, "−40 °C"},
		{"66.038 °C", 4, "66.04 °C"},
		{"0.00001 °C", 4, "0 °C"},
		{"-0.02 mA", 4, "−20 µA"},
		{"5 %", 4, "5 %"},
		{"5e-9 V", 4, "5 nV"},
		{"5e-18 V", 4, "0.005 fV"},
		{"5e-22 V", 4, "5e-7 fV"},
		{"5e20 V", 4, "5e8 TV"},
		{"123456", 4, "123500"},
		{"12345678", 4, "1.235e7"},
		{"12345678", 9, "12345678"},
		{"0.0000047", 4, "4.7e-6"},
		{"1500 s", 4, "1500 s"},
		{"0.0015 s", 4, "1.5 ms"},
		{"1500 kg", 4, "1500 kg"},
		{"1.5 g", 4, "1.5 g"},
		{"0.1 µF", 4, "100 nF"},
		{"62 °C/W", 4, "62 °C/W"},
		{"0.0001 m²", 4, "0.0001 m²"},
		{"2500 mAh", 4, "2.5 Ah"},
		{"115200 bit/s", 4, "115.2 kbit/s"},
		{"12 V/√Hz", 4, "12 V/√Hz"},
		{"1.2e-8 V/√Hz", 4, "12 nV/√Hz"},
		{"3 1/s²", 4, "3 1/s²"},
		{"3 m^1.5", 4, "3 m^1.5"},
		{"3 m^1.5/s^-2", 4, "3 m^1.5·s²"},
		{"13.97940 dBm", 4, "13.98 dBm"},
		{"0.00004 dB", 4, "0 dB"},
		{"100.123 dBm", 4, "100.1 dBm"},
		{"3.14159 rad", 4, "3.142 rad"},
		{"25.4 mm", 4, "25.4 mm"},
	} {
		if got := q(c.value).Text(c.digits); got != c.want {
			t.Errorf("%s with %d digits is %q, want %q", c.value, c.digits, got, c.want)
		}
	}
}

// Each threshold with its neighbouring floats: the prefix follows from what
// is printed, so 1000 mV is never seen.
func TestPrefixAtEveryThreshold(t *testing.T) {
	t.Parallel()
	symbols := map[int]string{-15: "f", -12: "p", -9: "n", -6: "µ", -3: "m", 0: "", 3: "k", 6: "M", 9: "G", 12: "T"}
	for exp := -12; exp <= 12; exp += 3 {
		for digits := 1; digits <= 8; digits++ {
			// The smallest value that rounds up to the next step.
			edge := decimal{digits: strings.Repeat("9", digits) + "5", exp: exp - digits - 1}.float(0)
			x := edge
			for range 3 {
				x = math.Nextafter(x, 0)
			}
			for range 7 {
				text := Quantity{v: x, d: dimVolt}.Text(digits)
				nines := strings.Repeat("9", digits)
				below := decimal{digits: nines, exp: 3 - digits}
				low := below.plain() + " " + symbols[exp-3] + "V"
				high := "1 " + symbols[exp] + "V"
				// What the exact value of the float rounds to.
				r := ratDigits(unitOne.fromSI(x), digits)
				want := low
				if r.order() == exp {
					want = high
				}
				if text != want {
					t.Errorf("%v with %d digits is %q, want %q", x, digits, text, want)
				}
				if strings.HasPrefix(text, "1000 ") {
					t.Errorf("%v with %d digits is %q", x, digits, text)
				}
				x = math.Nextafter(x, math.Inf(1))
			}
		}
	}
}

// allUnits are the units of the table with and without prefixes, and
// compound ones.
func allUnits() []string {
	var all []string
	for _, e := range std.order {
		for _, s := range append([]string{e.unit.Symbol}, e.also...) {
			all = append(all, s)
		}
		for _, p := range std.prefixes {
			if e.takes.has(p) {
				all = append(all, p.symbol+e.unit.Symbol)
			}
		}
	}
	for _, k := range std.named {
		all = append(all, k.unit.Symbol)
	}
	return append(all, "°C/W", "°F/W", "ppm/°C", "mΩ/°C", "oz/ft²", "in²", "mil²", "1/mil", "dB/ft", "mAh/°F", "m^1.5", "V²·s/√m", "mV/%", "BTU/h", "µV/√Hz", "psi/min", "kB/s", "J/B", "°/s", "cmil", "")
}

// Written in full and read again: the same float64, the same dimension, over
// all units and all orders of magnitude.
func TestWrittenInFullReadsBack(t *testing.T) {
	t.Parallel()
	units := allUnits()
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom(units).Draw(t, "unit")
		number := fmt.Sprintf("%s%de%d", rapid.SampledFrom([]string{"", "-"}).Draw(t, "sign"),
			rapid.Uint64().Draw(t, "digits"), rapid.IntRange(-45, 20).Draw(t, "exponent"))
		a, err := Parse(number + " " + unit)
		if err != nil {
			t.Skip() // below absolute zero
		}
		// Some steps away from what a decimal gives.
		for range rapid.IntRange(0, 3).Draw(t, "steps") {
			a.v = math.Nextafter(a.v, math.Inf(1))
		}
		checkReadBack(t, a)
		checkReadBack(t, Quantity{v: a.v, d: a.d})
	})
}

func TestEveryUnitReadsBack(t *testing.T) {
	t.Parallel()
	for _, unit := range allUnits() {
		for _, number := range []string{"0", "1", "4.7", "0.1", "123.456", "1e-7", "33333333"} {
			a, err := Parse(number + " " + unit)
			if err != nil {
				t.Errorf("%s %s: %v", number, unit, err)
				continue
			}
			checkReadBack(t, a)
			b := In(a, unit)
			checkReadBack(t, b)
			if !b.Same(a) {
				t.Errorf("In(%v, %q) changes the value", a, unit)
			}
		}
	}
}

func checkReadBack(t interface{ Errorf(string, ...any) }, a Quantity) {
	text := a.Text(0)
	b, err := Parse(text)
	switch {
	case err != nil:
		t.Errorf("%v in full is %q, which does not read: %v", a.v, text, err)
	case !a.Same(b):
		t.Errorf("%v in full is %q, which reads as %v", a.v, text, b.v)
	case a.u != nil && a.u.ladder != nil && b.Text(0) != text:
		t.Errorf("%q read and written again is %q", text, b.Text(0))
	case tagOf(a.u) != tagOf(b.u) && !(a.u != nil && a.u.hidden) && a.u != nil:
		t.Errorf("%q reads as counting something else", text)
	}
	number, unit := a.Parts(0)
	if strings.TrimSuffix(number+" "+unit, " ") != text {
		t.Errorf("%q has the parts %q and %q", text, number, unit)
	}
}

// The smallest and largest numbers read back as well.
func TestEndsOfTheNumbersReadBack(t *testing.T) {
	t.Parallel()
	for _, v := range []float64{5e-324, 2.2250738585072014e-308, 1e-200, math.MaxFloat64, 1e200} {
		for _, unit := range []string{"V", "in", "K/W", "oz/ft²", "dB", "dBm", "°C"} {
			u := q("1 " + unit)
			u.v = v
			checkReadBack(t, u)
		}
	}
}

func TestUnitOfNamesStays(t *testing.T) {
	t.Parallel()
	charge := q("2 A").Mul(q("3 h"))
	for _, c := range []struct {
		got  Quantity
		want string
	}{
		{charge, "21.6 kC"},
		{In(charge, "mAh"), "6000 mAh"},
		{In(charge, "mAh").Mul(Number(2)), "12000 mAh"},
		{Number(2).Mul(In(charge, "mAh")), "12000 mAh"},
		{In(charge, "mAh").Div(Number(4)), "1500 mAh"},
		{In(charge, "mAh").Add(charge), "12000 mAh"},
		{charge.Add(In(charge, "mAh")), "43.2 kC"},
		{In(charge, "Ah").Mul(q("80 %")), "4.8 Ah"},
		{In(charge, "mAh").Div(q("2 mA")), "1.08e7 s"},
		{q("5 mAh"), "5 mAh"},
		{q("5 mAh").Neg(), "−5 mAh"},
		{Abs(q("-5 mAh")), "5 mAh"},
		{Max(q("5 mAh"), q("6 C")), "5 mAh"},
		{q("10 VA").Mul(Number(3)), "30 VA"},
		{q("10 V").Mul(q("1 A")), "10 W"},
		{q("10 W").Add(q("10 VA")), "20 W"},
		{q("10 VA").Add(q("10 W")), "20 VA"},
		{q("3000 rpm").Mul(Number(2)), "6000 rpm"},
		{q("9600 baud").Mul(Number(2)), "19.2 kBd"},
		{q("10 mil").Add(q("1 mm")), "49.37 mil"},
		{q("10 mil").Mul(q("10 mil")), "6.452e-8 m²"},
		{q("64 KiB").Mul(Number(2)), "128 KiB"},
		{In(q("0.5 V"), "V"), "0.5 V"},
		{In(q("1000 mV"), "mV"), "1000 mV"},
		{q("1000 mV"), "1 V"},
		{In(q("5 V").Div(q("20 V")), "%"), "25 %"},
		{q("5 %").Mul(q("5 %")), "0.0025"},
		{q("5 %").Mul(Number(2)), "10 %"},
		{q("5 %").Add(q("1 %")), "6 %"},
		{Number(1).Add(q("5 %")), "1.05"},
		{In(q("50 °C"), "°F"), "122 °F"},
		{In(q("77 °F"), "°C"), "25 °C"},
		{q("77 °F").Add(q("5 K")), "86 °F"},
		{In(q("1 W/K"), "mW/°C"), "1000 mW/°C"},
		{In(Quantity{}, "mAh"), "0 mAh"},
		{In(Number(0.2), "1"), "0.2"},
	} {
		if got := c.got.String(); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

func TestUnitAndSIUnit(t *testing.T) {
	t.Parallel()
	for value, want := range map[string]string{
		"3 mAh": "Ah C 10.8", "3 V": "V V 3", "3 kV": "V V 3000", "2 kg": "g kg 2", "5 %": "% 1 0.05", "5": " 1 5", "25 °C": "°C K 298.15",
		"77 °F": "°F K 298.15", "62 °C/W": "°C/W K/W 62", "14.1 dBm": "dBm dBm 14.1", "2.15 dBi": "dBi dBi 2.15", "0.1 dBm": "dBm dBm 0.1",
		"200 dB/km": "dB/km dB/m 0.2", "3000 rpm": "rpm Hz 50", "5 Hz": "Hz Hz 5", "1 kbit/s": "bit/s bit/s 1000", "1 B": "B bit 8",
		"2 mΩ/sq": "Ω/sq Ω/sq 0.002", "5 rad/s": "rad/s rad/s 5", "180 arcmin": "arcmin rad 0.05235987755982989", "10 kVA": "VA VA 10000", "1 oz/ft²": "oz/ft² kg/m² 0.30515172727394063",
		"2 nV/√Hz": "V/√Hz V/√Hz 2e-09", "5 cm": "cm m 0.05", "9600 baud": "Bd Bd 9600", "1 VAh": "VAh J 3600", "1 MB/s": "MB/s bit/s 8e+06", "1 mil²": "mil² m² 6.4516e-10", "4 V/sq": "V/sq V/sq 4", "1 Gy": "Gy Gy 1",
	} {
		a := q(value)
		if got := fmt.Sprintf("%s %s %v", a.Unit(), a.SIUnit(), a.SI()); got != want {
			t.Errorf("%s: %q, want %q", value, got, want)
		}
		// The pair is a value that reads as the same.
		if a.d.Kind() != PointScale {
			b := q(fmt.Sprintf("%v %s", a.SI(), a.SIUnit()))
			if !b.Same(a) {
				t.Errorf("%s: %v %s reads as %v", value, a.SI(), a.SIUnit(), b)
			}
		}
	}
}

func TestColumn(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		values []string
		want   string
	}{
		{nil, ""},
		{[]string{"1 kΩ", "470 Ω", "0 Ω", "12 kΩ"}, "1 kΩ|0.47 kΩ|0 kΩ|12 kΩ"},
		{[]string{"999.96 mV", "3 mV"}, "1 V|0.003 V"},
		{[]string{"9.9 kΩ", "10.1 kΩ"}, "9.9 kΩ|10.1 kΩ"},
		{[]string{"-20 °C", "50 °C"}, "−20 °C|50 °C"},
		{[]string{"3 mAh", "36 C"}, "3 mAh|10 mAh"},
		{[]string{"1 V", "1 A"}, "1 V|1 A"},
		{[]string{"0 V", "0 V"}, "0 V|0 V"},
		{[]string{"5", "0.5"}, "5|0.5"},
	} {
		var qs []Quantity
		for _, v := range c.values {
			qs = append(qs, q(v))
		}
		if got := strings.Join(Column(4, qs...), "|"); got != c.want {
			t.Errorf("%v: %q, want %q", c.values, got, c.want)
		}
	}
}

func TestAsBought(t *testing.T) {
	t.Parallel()
	for value, want := range map[string]string{
		"1910 Ω": "1.91 kΩ", "4.7 µF": "4.7 µF", "0.1 µF": "100 nF", "4.7 mF": "4700 µF", "1 F": "1 F", "4700 pF": "4.7 nF", "10 kΩ": "10 kΩ",
		"1910.0000000000002 Ω": "1.91 kΩ", "0.47 Ω": "470 mΩ", "22 µH": "22 µH", "32.768 kHz": "32.768 kHz", "59.04 Ω": "59.04 Ω", "2.5 A": "2.5 A", "0 Ω": "0 Ω", "99.99999999999999 nF": "100 nF",
	} {
		if got := q(value).AsBought(); got != want {
			t.Errorf("%s: %q, want %q", value, got, want)
		}
	}
}

func TestFormatVerbs(t *testing.T) {
	t.Parallel()
	a := q("1904.7 Ω")
	for _, c := range []struct{ format, want string }{
		{"%v", "1.905 kΩ"}, {"%s", "1.905 kΩ"}, {"%.6v", "1.9047 kΩ"}, {"%.2s", "1.9 kΩ"}, {"%12v|", "    1.905 kΩ|"}, {"%-12v|", "1.905 kΩ    |"},
		{"%f", "1904.700000 Ω"}, {"%.1f", "1904.7 Ω"}, {"%g", "1904.7 Ω"}, {"%.3e", "1.905e+03 Ω"}, {"%10.1f", "  1904.7 Ω"}, {"%+.0f", "+1905 Ω"},
		{"%d", "%!d(units.Quantity=1.905 kΩ)"},
	} {
		if got := fmt.Sprintf(c.format, a); got != c.want {
			t.Errorf("%s: %q, want %q", c.format, got, c.want)
		}
	}
	if got := fmt.Sprintf("%.1f %.1f %.1f %v", q("25 °C"), q("14 dBm"), q("2 mil"), []Quantity{q("1 V")}); got != "25.0 °C 14.0 dBm 2.0 mil [1 V]" {
		t.Errorf("%q", got)
	}
	for v, want := range map[float64]string{math.Inf(1): "∞ V", math.Inf(-1): "−∞ V", math.NaN(): "NaN V"} {
		if got := (Quantity{v: v, d: dimVolt}).String(); got != want {
			t.Errorf("%v: %q, want %q", v, got, want)
		}
	}
}
