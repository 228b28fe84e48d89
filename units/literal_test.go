package units

import (
	"errors"
	"strings"
	"testing"
)

// Values are the float64 nearest to what is written: the wanted number is
// read by the compiler from the same decimal, moved by hand to SI.
func TestLiterals(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		src  string
		n    int
		si   float64
		text string
	}{
		{"24V", 3, 24, "24 V"},
		{"4.7kΩ", 6, 4700, "4.7 kΩ"},
		{"4.7µF", 6, 4.7e-6, "4.7 µF"},
		{"4mil", 4, 101.6e-6, "4 mil"},
		{"0.1uH", 5, 1e-7, "100 nH"},
		{"1.1pF", 5, 1.1e-12, "1.1 pF"},
		{"33nH", 4, 33e-9, "33 nH"},
		{"1eV", 3, 1.602176634e-19, "1 eV"},
		{"1e3V", 4, 1000, "1 kV"},
		{"1e-3V", 5, 0.001, "1 mV"},
		{"2E3V", 4, 2000, "2 kV"},
		{"1EV", 3, 1e18, "1 EV"},
		{"1_000V", 6, 1000, "1 kV"},
		{".5V", 3, 0.5, "500 mV"},
		{"5.V", 3, 5, "5 V"},
		{"10m", 3, 10, "10 m"},
		{"10mm", 4, 0.01, "10 mm"},
		{"5cm", 3, 0.05, "5 cm"},
		{"5%", 2, 0.05, "5 %"},
		{"0V", 2, 0, "0 V"},
		{"0F", 2, 0, "0 F"},
		{"25°C", 5, 298.15, "25 °C"},
		{"-40°C", 6, 233.15, "−40 °C"},
		{"-120dBm", 7, -120, "−120 dBm"},
		{"+3dB", 4, 3, "3 dB"},
		{"62°C/W", 7, 62, "62 °C/W"},
		{"100ppm/K", 8, 100e-6, "100 ppm/K"},
		{"35nV/√Hz", 10, 35e-9, "35 nV/√Hz"},
		{"0.5mΩ/sq", 9, 0.5e-3, "500 µΩ/sq"},
		{"1oz/ft²", 8, 0.028349523125 / (0.3048 * 0.3048), "1 oz/ft²"},
		{"9.81m/s²", 9, 9.81, "9.81 m/s²"},
		{"9.81m/s^2", 9, 9.81, "9.81 m/s²"},
		{"2V·s", 5, 2, "2 V·s"},
		{"1.5mAh", 6, 5.4, "1.5 mAh"},
		{"5kg*m^2", 7, 5, "5 kg·m²"},
		{"3s^-1", 5, 3, "3 1/s"},
		{"115.2kbit/s", 11, 115200, "115.2 kbit/s"},
		// What follows is not part of the literal.
		{"5V+x", 2, 5, "5 V"},
		{"5V/R", 2, 5, "5 V"},
		{"5V/Ax", 2, 5, "5 V"},
		{"5V/A2", 2, 5, "5 V"},
		{"5V/W(1)", 2, 5, "5 V"},
		{"5V/W.x", 2, 5, "5 V"},
		{"5V/W[0]", 2, 5, "5 V"},
		{"5V /W", 2, 5, "5 V"},
		{"5V/ W", 2, 5, "5 V"},
		{"5V/2", 2, 5, "5 V"},
		{"5V^x", 2, 5, "5 V"},
		{"5V/(A)", 2, 5, "5 V"},
		{"62°C/W*x", 7, 62, "62 °C/W"},
		{"5%/x", 2, 0.05, "5 %"},
		{"5% 3", 2, 0.05, "5 %"},
		{"5V[7:0]", 2, 5, "5 V"},
		// A unit right behind is a unit, whatever names the note has.
		{"62°C/W", 7, 62, "62 °C/W"},
		{"5%*V", 4, 0.05, "5 %·V"},
	} {
		got, n, err := ScanLiteral(c.src)
		if err != nil {
			t.Errorf("%s: %v", c.src, err)
			continue
		}
		if text := got.String(); n != c.n || got.SI() != c.si && !near(got.SI(), c.si, 1e-16) || text != c.text {
			t.Errorf("%s: %d bytes, %v, %q; want %d, %v, %q", c.src, n, got.SI(), text, c.n, c.si, c.text)
		}
	}
}

func TestPlainGoNumbersAreNoLiterals(t *testing.T) {
	t.Parallel()
	for _, s := range []string{"", "x", "12", "1e3", "1e+3", "0x1F", "0X1p-2", "0b101", "0o17", "1_000", "3.14", ".5", "12)", "12 V", "7 % 3", "1/2*x", "-5", "5...", "[7:0]", "5[0]", "1-V", "(5V)"} {
		got, n, err := ScanLiteral(s)
		if n != 0 || err != nil || got != (Quantity{}) {
			t.Errorf("%q: %v, %d bytes, %v", s, got, n, err)
		}
	}
}

func TestLiteralErrors(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		src, msg, hint string
		len            int
	}{
		{"10k", "10k has a prefix without a unit", "write 10kΩ (10kohm), 10kHz or 10kV", 3},
		{"10k*x", "10k has a prefix without a unit", "write 10kΩ (10kohm), 10kHz or 10kV", 3},
		{"2.2M", "2.2M has a prefix without a unit", "write 2.2MΩ (2.2Mohm) or 2.2MHz", 4},
		{"100n", "100n has a prefix without a unit", "write 100nF, 100nH or 100nA", 4},
		{"10u", "10u has a prefix without a unit", "write 10µF (10uF), 10µH (10uH) or 10µA (10uA)", 3},
		{"10c", "the unit c is not read", "a coulomb is C, a centimetre cm", 3},
		{"10Ki", "10Ki has a prefix without a unit", "write 10Kibit or 10KiB", 4},
		{"10da", "10da has a prefix without a unit", "write 10dam", 4},
		{"5a", "the unit a is not read", "an ampere is A", 2},
		{"1.5ma", "unknown unit ma", "did you mean mA?", 5}, // not MA: one letter's case is off, not two
		{"1MHZ", "unknown unit MHZ", "did you mean MHz?", 4},
		{"5v", "unknown unit v", "did you mean V?", 2},
		{"5i", "the unit i is not read", "an imaginary number is no value: give its parts", 2},
		{"5kin", "the unit kin is not read: in does not take the prefix k", "write the number with an exponent: 1e3in", 4},
		{"5kg·q", "q is a prefix without a unit", "write a unit behind it, as in qV or qA", 3},
		{"4.7kOhmz", "unknown unit kOhmz", "did you mean kΩ (kOhm)?", 8},
		{"5Volts", "unknown unit Volts", "units are written like V, mA, kohm, uF, degC, K/W", 6},
		{"4k7", "4k7 is a marking code, not a number with a unit", "write 4.7k with its unit, as in 4.7kΩ", 3},
		{"4R7", "4R7 is a marking code, not a number with a unit", "write 4.7 with its unit, as in 4.7Ω", 3},
		{"7%3", "7% is a percentage, and a value follows it", "write spaces around % for the remainder, or an operator behind the percentage", 2},
		{"7%n", "7% is a percentage, and a value follows it", "write spaces around % for the remainder, or an operator behind the percentage", 2},
		{"5m°C", "the unit m°C is not read: °C is a point on the scale and takes no prefix", "write a difference in kelvin: mK", 5},
		{"5mdegC", "the unit mdegC is not read: °C is a point on the scale and takes no prefix", "write a difference in kelvin: mK", 6},
		{"1V/A*s", "the unit V/A*s can be read in two ways", "write every unit of the denominator behind a stroke of its own, as in W/m/K, or those of the numerator first", 2},
		{"5KHz", "the unit KHz is not read", "write kHz: K is the kelvin", 4},
		{"5G", "the unit G is not read", "a gauss is 100µT; giga stands before a unit, as in 5GHz", 2},
		{"2.15dBd", "the unit dBd is not read", "write the gain over an isotropic radiator: 0 dBd is 2.15dBi", 7},
		{"5dBm/Hz", "5dBm/Hz: the level unit dBm does not combine with other units", "write the level by itself, and a gain such as 3dB beside it", 7},
		{"-300°C", "-300°C: the temperature is below absolute zero", "−273.15 °C is the lowest", 6},
		{"1e400V", "1e400V: the number is too large", "the largest is about 1.8e308 in SI units", 6},
		{"1e-400V", "1e-400V: the number is too small to tell from 0", "the smallest is about 4.9e-324 in SI units", 7},
		{"1e999999999999V", "1e999999999999V: the number is too long or its exponent too large", "write it with fewer digits", 15},
		{"1e-999999999999in", "1e-999999999999in: the number is too long or its exponent too large", "write it with fewer digits", 17},
		{"5V^70", "the unit V^70 has too large an exponent", "no quantity has a power beyond 60", 2},
	} {
		got, n, err := ScanLiteral(c.src)
		var e *LiteralError
		if !errors.As(err, &e) || n != 0 || got != (Quantity{}) {
			t.Errorf("%s: %v, %d bytes, %v", c.src, got, n, err)
			continue
		}
		if e.Msg != c.msg || e.Hint != c.hint {
			t.Errorf("%s:\n\tsays %q: %q\n\twant %q: %q", c.src, e.Msg, e.Hint, c.msg, c.hint)
		}
		if e.Len < 1 || e.Len > len(c.src) {
			t.Errorf("%s: speaks of %d bytes", c.src, e.Len)
		}
	}
}

// A note that has a W is told that 62°C/W means the watt.
func TestUnitsSpeltLikeNames(t *testing.T) {
	t.Parallel()
	for src, want := range map[string]string{
		"62°C/W":   "°C@2 W@6",
		"35nV/√Hz": "nV@2 Hz@8",
		"5kg*m^2":  "kg@1 m@4",
		"5V/R":     "V@1",
		"12":       "",
		"10k":      "",
	} {
		var got []string
		for _, id := range LiteralUnits(src) {
			if src[id.Offset:id.Offset+len(id.Name)] != id.Name {
				t.Errorf("%s: %s is not at %d", src, id.Name, id.Offset)
			}
			got = append(got, id.Name+"@"+itoa(id.Offset))
		}
		if s := strings.Join(got, " "); s != want {
			t.Errorf("%s: %q, want %q", src, s, want)
		}
	}
}

func TestParse(t *testing.T) {
	t.Parallel()
	for s, want := range map[string]string{
		"4.7kΩ": "4.7 kΩ", " 4.7 kohm ": "4.7 kΩ", "-40 °C": "−40 °C", "−40 °C": "−40 °C", "5%": "5 %", "5 %": "5 %",
		"12": "12", "1e3": "1000", "100 mA": "100 mA", "0.35 W/(m·K)": "0.35 W/(m·K)", "0.35 W/(m*K)": "0.35 W/(m·K)",
		"3 1/s²": "3 1/s²", "5\u00a0V": "5 V", "5\u202fV": "5 V", "1 1": "1", "2 1/K": "2 1/K", "7 m/(s)": "7 m/s", "1e-7 J/(kg·K)": "1e-7 J/(kg·K)",
	} {
		got, err := Parse(s)
		if err != nil || got.String() != want {
			t.Errorf("%q: %v, %v; want %s", s, got, err, want)
		}
	}
}

func TestParseErrors(t *testing.T) {
	t.Parallel()
	for s, want := range map[string]string{
		"":           "“” does not start with a number: write a number with its unit, as in 4.7kΩ",
		"V":          "“V” does not start with a number: write a number with its unit, as in 4.7kΩ",
		"4,7 kΩ":     "cannot read “4,7 kΩ”: a comma stands in the number: write a point for decimals, as in 4.7",
		"4k7":        "cannot read “4k7”: this is a marking code: write 4.7k with its unit, as in 4.7kΩ",
		"0x10 V":     "cannot read “0x10 V”: only decimal numbers are values: write the number in base ten",
		"5 kOhmz":    "cannot read “5 kOhmz”: unknown unit kOhmz: did you mean kΩ (kOhm)?",
		"5 V V":      "cannot read “5 V V”: the unit V V has \" \" where no unit stands: write a unit such as mV, K/W or kg*m^2",
		"5 W/(m·K":   "cannot read “5 W/(m·K”: the unit W/(m·K lacks a closing bracket: write for instance W/(m·K)",
		"5 k":        "cannot read “5 k”: k is a prefix without a unit: write a unit behind it, as in kΩ (kohm), kHz or kV",
		"5 V/":       "cannot read “5 V/”: a unit is missing: write a unit such as mV, K/W or kg*m^2",
		"5 √in":      "cannot read “5 √in”: the root of in has no exact size: write it with the SI unit, V/√Hz",
		"5 m/dB":     "cannot read “5 m/dB”: decibels combine with other units only as dB per something: write dB/m",
		"5 √Hz^2":    "cannot read “5 √Hz^2”: a power of a root such as √Hz is not read: write the exponent once, as in Hz^0.5",
		"-1 K/W °C)": "cannot read “-1 K/W °C)”: the unit K/W °C) has \" \" where no unit stands: write a unit such as mV, K/W or kg*m^2",
	} {
		_, err := Parse(s)
		var e *Error
		if !errors.As(err, &e) || e.Error() != want {
			t.Errorf("%q:\n\tsays %v\n\twant %s", s, err, want)
		}
	}
	if e := refusal(func() { MustParse("5 xx") }); e == nil {
		t.Error("MustParse of an unknown unit returns")
	}
}

// IEC 60062 clause 4 has these forms; the values are the codes read by hand.
func TestParseRKM(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		code, unit, want string
		si               float64
	}{
		{"4k7", "Ω", "4.7 kΩ", 4700}, {"2R2", "Ω", "2.2 Ω", 2.2}, {"R47", "Ω", "470 mΩ", 0.47}, {"100n", "F", "100 nF", 100e-9},
		{"4u7", "H", "4.7 µH", 4.7e-6}, {"1M0", "ohm", "1 MΩ", 1e6}, {"4p7", "F", "4.7 pF", 4.7e-12}, {"5R", "Ω", "5 Ω", 5},
		{"0R1", "Ω", "100 mΩ", 0.1}, {"10L", "Ω", "10 mΩ", 0.01}, {"47K", "Ω", "47 kΩ", 47e3}, {"µ47", "F", "470 nF", 0.47e-6},
		{"3V3", "V", "3.3 V", 3.3}, {"1F5", "F", "1.5 F", 1.5}, {"2m2", "F", "2.2 mF", 2.2e-3}, {"59R04", "Ω", "59.04 Ω", 59.04}, {"0R", "Ω", "0 Ω", 0},
	} {
		got, err := ParseRKM(c.code, c.unit)
		if err != nil || got.SI() != c.si || got.String() != c.want || got.HasSpread() {
			t.Errorf("%s %s: %v, %v; want %s", c.code, c.unit, got, err, c.want)
		}
	}
	// The letters of IEC 60062 clause 5, from memory.
	for _, c := range []struct {
		code, unit string
		low, high  float64
	}{
		{"4k7F", "Ω", 4653, 4747}, {"1k0J", "Ω", 950, 1050}, {"4K7K", "Ω", 4230, 5170}, {"100nM", "F", 80e-9, 120e-9},
		{"10R0B", "Ω", 9.99, 10.01}, {"4p7C", "F", 4.45e-12, 4.95e-12}, {"10pF", "F", 9.9e-12, 10.1e-12}, {"9p1D", "F", 8.6e-12, 9.6e-12},
	} {
		got, err := ParseRKM(c.code, c.unit)
		if err != nil {
			t.Errorf("%s: %v", c.code, err)
			continue
		}
		low, high, ok := got.Limits()
		if !ok || !near(low.SI(), c.low, 1e-14) || !near(high.SI(), c.high, 1e-14) {
			t.Errorf("%s %s: %v … %v, want %v … %v", c.code, c.unit, low, high, c.low, c.high)
		}
	}
	for code, want := range map[string]string{
		"":      "it is empty",
		"470":   "it has no letter for the point",
		"k":     "it has no digits",
		"4x7":   "the letter x stands for no power of ten",
		"4k7FF": "it has a letter too many",
		"4.7k":  "it has both a point and a letter",
		"4k7Z":  "the letter Z states no tolerance",
		"-4k7":  "the letter - stands for no power of ten",
	} {
		_, err := ParseRKM(code, "Ω")
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", code, err, want)
		}
	}
	for _, unit := range []string{"kΩ", "", "°C", "dBm", "K/W", "xx", "%", "sq"} {
		if _, err := ParseRKM("4k7", unit); err == nil {
			t.Errorf("the unit %q is taken", unit)
		}
	}
}
