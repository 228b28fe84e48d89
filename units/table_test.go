package units

import (
	"math"
	"math/big"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// figures are the sizes of units in coherent SI, entered apart from the table.
// Sources: SP 811 is NIST Special Publication 811 (2008) appendix B.8 and B.9,
// SI is the SI Brochure, 9th edition; all from memory of these publications,
// many confirmed by the arithmetic in the comment. Values of SP 811 are exact
// where digits is 0, else right to that many digits as printed there.
var figures = []struct {
	unit, si string
	size     string
	digits   int
	source   string
}{
	{"m", "m", "1", 0, "SI table 2"},
	{"g", "kg", "0.001", 0, "SI table 2"},
	{"s", "s", "1", 0, "SI table 2"},
	{"A", "A", "1", 0, "SI table 2"},
	{"K", "K", "1", 0, "SI table 2"},
	{"mol", "mol", "1", 0, "SI table 2"},
	{"cd", "cd", "1", 0, "SI table 2"},
	{"rad", "1", "1", 0, "SI table 4"},
	{"sr", "1", "1", 0, "SI table 4"},
	{"Hz", "1/s", "1", 0, "SI table 4"},
	{"N", "kg*m/s^2", "1", 0, "SI table 4"},
	{"Pa", "kg/m/s^2", "1", 0, "SI table 4"},
	{"J", "kg*m^2/s^2", "1", 0, "SI table 4"},
	{"W", "kg*m^2/s^3", "1", 0, "SI table 4"},
	{"C", "A*s", "1", 0, "SI table 4"},
	{"V", "kg*m^2/s^3/A", "1", 0, "SI table 4"},
	{"F", "s^4*A^2/kg/m^2", "1", 0, "SI table 4"},
	{"ohm", "kg*m^2/s^3/A^2", "1", 0, "SI table 4"},
	{"S", "s^3*A^2/kg/m^2", "1", 0, "SI table 4"},
	{"Wb", "kg*m^2/s^2/A", "1", 0, "SI table 4"},
	{"T", "kg/s^2/A", "1", 0, "SI table 4"},
	{"H", "kg*m^2/s^2/A^2", "1", 0, "SI table 4"},
	{"lm", "cd", "1", 0, "SI table 4, the steradian being 1"},
	{"lx", "cd/m^2", "1", 0, "SI table 4, the steradian being 1"},
	{"Bq", "1/s", "1", 0, "SI table 4"},
	{"Gy", "m^2/s^2", "1", 0, "SI table 4"},
	{"Sv", "m^2/s^2", "1", 0, "SI table 4"},
	{"kat", "mol/s", "1", 0, "SI table 4"},
	{"min", "s", "60", 0, "SI table 8"},
	{"h", "s", "3600", 0, "SI table 8"},
	{"d", "s", "86400", 0, "SI table 8"},
	{"L", "m^3", "0.001", 0, "SI table 8"},
	{"t", "kg", "1000", 0, "SI table 8"},
	{"eV", "J", "1.602176634e-19", 0, "SI table 8"},
	{"deg", "1", "0.01745329", 7, "SP 811: degree (angle)"},
	{"arcmin", "1", "2.908882e-4", 7, "SP 811: minute (angle)"},
	{"arcsec", "1", "4.848137e-6", 7, "SP 811: second (angle)"},
	{"VA", "W", "1", 0, "definition"},
	{"var", "W", "1", 0, "definition"},
	{"Ah", "C", "3600", 0, "SP 811: ampere hour 3.6e3 C"},
	{"Wh", "J", "3600", 0, "SP 811: watt hour 3.6e3 J"},
	{"VAh", "J", "3600", 0, "1 V·A for 3600 s"},
	{"varh", "J", "3600", 0, "1 var for 3600 s"},
	{"in", "m", "0.0254", 0, "SP 811: inch 2.54e-2 m"},
	{"mil", "m", "2.54e-5", 0, "SP 811: mil 2.54e-5 m"},
	{"ft", "m", "0.3048", 0, "SP 811: foot 3.048e-1 m"},
	{"yd", "m", "0.9144", 0, "SP 811: yard 9.144e-1 m"},
	{"lb", "kg", "0.4535924", 7, "SP 811: pound (avoirdupois)"},
	{"oz", "kg", "0.02834952", 7, "SP 811: ounce (avoirdupois)"},
	{"oz/ft^2", "kg/m^2", "0.3051517", 7, "SP 811: ounce (avoirdupois) per square foot"},
	{"lbf", "N", "4.448222", 7, "SP 811: pound-force"},
	{"psi", "Pa", "6894.757", 7, "SP 811: psi"},
	{"bar", "Pa", "1e5", 0, "SP 811: bar"},
	{"atm", "Pa", "101325", 0, "SP 811: atmosphere, standard"},
	{"mmHg", "Pa", "133.3224", 7, "SP 811: millimeter of mercury, conventional"},
	{"cal", "J", "4.184", 0, "SP 811: calorie (th)"},
	{"BTU", "J", "1055.056", 7, "SP 811: British thermal unit (IT)"},
	{"BTU/h", "W", "0.2930711", 7, "SP 811: Btu (IT) per hour"},
	{"cmil", "m^2", "5.067075e-10", 7, "SP 811: circular mil"},
	{"rpm", "1/s", "0.01666667", 7, "SP 811: revolution per minute (r/min), 1/60 of a turn a second"},
	{"Bd", "1/s", "1", 0, "IEC 80000-13"},
	{"bit", "1", "1", 0, "IEC 80000-13"},
	{"B", "bit", "8", 0, "IEC 80000-13"},
	{"KiB", "bit", "8192", 0, "8 × 1024"},
	{"MiB", "B", "1048576", 0, "1024²"},
	{"Gibit", "bit", "1073741824", 0, "1024³"},
	{"Tibit", "bit", "1099511627776", 0, "1024⁴"},
	{"Pibit", "bit", "1125899906842624", 0, "1024⁵"},
	{"%", "1", "0.01", 0, "definition"},
	{"‰", "1", "0.001", 0, "definition"},
	{"ppm", "1", "1e-6", 0, "definition"},
	{"ppb", "1", "1e-9", 0, "definition"},
	{"sq", "1", "1", 0, "definition"},
	{"dB", "dB", "1", 0, "definition"},
	{"dBi", "dB", "1", 0, "definition"},
}

func TestUnitSizes(t *testing.T) {
	t.Parallel()
	for _, f := range figures {
		u, err := std.parseUnit(f.unit)
		if err != nil {
			t.Errorf("%s: %v", f.unit, err)
			continue
		}
		si, err := std.parseUnit(f.si)
		if err != nil {
			t.Errorf("%s: %v", f.si, err)
			continue
		}
		if !u.dim.Same(si.dim) {
			t.Errorf("%s is not measured in %s", f.unit, f.si)
		}
		want, _ := new(big.Rat).SetString(f.size)
		got := new(big.Rat).Quo(u.scale, si.scale)
		if f.digits == 0 && got.Cmp(want) != 0 {
			t.Errorf("%s is %s %s, want %s (%s)", f.unit, got.FloatString(20), f.si, f.size, f.source)
		}
		if f.digits > 0 {
			d, w := ratDigits(got, f.digits), ratDigits(want, f.digits)
			if d != w {
				t.Errorf("%s is %s %s, want %s (%s)", f.unit, d.scientific(), f.si, f.size, f.source)
			}
		}
	}
}

// Scales with a zero of their own: two points fix each.
var scalePoints = []struct {
	value string
	want  float64 // kelvin, or decibels over 1 W or 1 V
	rel   float64
	from  string
}{
	{"0 °C", 273.15, 0, "SI brochure 2.3.1"},
	{"100 °C", 373.15, 0, "the same"},
	{"-273.15 °C", 0, 0, "the same"},
	{"32 °F", 273.15, 0, "SP 811: t/°C = (t/°F − 32)/1.8"},
	{"212 °F", 373.15, 0, "the same: (212 − 32)/1.8 = 100"},
	{"77 °F", 298.15, 0, "the same: 45/1.8 = 25"},
	{"-40 °F", 233.15, 0, "the same: −72/1.8 = −40"},
	{"0 dBW", 0, 0, "1 W"},
	{"0 dBm", -30, 0, "10·log10(1 mW/1 W)"},
	{"30 dBm", 0, 0, "the same"},
	{"14.1 dBm", -15.9, 0, "14.1 − 30"},
	{"0 dBV", 0, 0, "1 V"},
	{"0 dBmV", -60, 0, "20·log10(1 mV/1 V)"},
	{"0 dBµV", -120, 0, "20·log10(1 µV/1 V)"},
	{"0 dBu", 20 * math.Log10(math.Sqrt(0.6)), 1e-15, "1 mW in 600 Ω is √(0.001·600) V"},
}

func TestScalesWithAZeroOfTheirOwn(t *testing.T) {
	t.Parallel()
	for _, p := range scalePoints {
		got := q(p.value)
		if got.v != p.want && !near(got.v, p.want, p.rel) {
			t.Errorf("%s is %v, want %v (%s)", p.value, got.v, p.want, p.from)
		}
	}
}

// Nothing in the table goes unchecked.
func TestEveryUnitHasAnOutsideFigure(t *testing.T) {
	t.Parallel()
	checked := map[*entry]bool{}
	for _, f := range figures {
		checked[std.units[f.unit]] = true
	}
	for _, p := range scalePoints {
		_, unit, _ := strings.Cut(p.value, " ")
		checked[std.units[unit]] = true
	}
	for _, e := range std.order {
		if !checked[e] {
			t.Errorf("%s has no figure", e.unit.Symbol)
		}
	}
}

// Identities that hold whatever the table says.
func TestUnitIdentities(t *testing.T) {
	t.Parallel()
	for _, c := range [][2]string{
		{"1 V*A", "1 W"}, {"1 V/A", "1 ohm"}, {"1 A*s", "1 C"}, {"1 W*s", "1 J"}, {"1 C/V", "1 F"},
		{"1 V*s", "1 Wb"}, {"1 Wb/A", "1 H"}, {"1 Wb/m^2", "1 T"}, {"1 N*m", "1 J"}, {"1 N/m^2", "1 Pa"},
		{"1 ohm*F", "1 s"}, {"1 H/ohm", "1 s"}, {"1 S", "1 1/ohm"}, {"1 J/C", "1 V"}, {"1 V^2/ohm", "1 W"},
		{"1 A^2*ohm", "1 W"}, {"12 in", "1 ft"}, {"3 ft", "1 yd"}, {"1000 mil", "1 in"}, {"16 oz", "1 lb"},
		{"1 lbf/in^2", "1 psi"}, {"24 h", "1 d"}, {"60 min", "1 h"}, {"1000 mAh", "1 Ah"}, {"3.6 kC", "1 Ah"},
		{"1 kWh", "3.6 MJ"}, {"180 deg", "3.14159265358979323846 rad"}, {"60 arcmin", "1 deg"}, {"60 arcsec", "1 arcmin"},
		{"1e6 ppm", "1"}, {"100 %", "1"}, {"1000 ppb", "1 ppm"}, {"10 ‰", "1 %"}, {"60 rpm", "1 Hz"},
		{"8 kbit", "1 kB"}, {"1024 B", "1 KiB"}, {"1 L", "1 dm^3"}, {"1 t", "1 Mg"}, {"1 bar", "100 kPa"},
		{"1 atm", "760 mmHg"}, {"25 °C/W", "25 K/W"}, {"9 ppm/°C", "9 ppm/K"}, {"1 BTU/lb/°F", "4186.8 J/kg/K"},
		{"1 nV/sqrtHz", "1 nV/Hz^0.5"}, {"1 m³", "1000 L"}, {"1 ft", "304.8 mm"}, {"0.2 dB/m", "200 dB/km"},
	} {
		a, b := q(c[0]), q(c[1])
		// The conventional millimetre of mercury is rounded; the rest is exact.
		rel := 1e-15
		if strings.Contains(c[1], "mmHg") {
			rel = 1e-6
		}
		if !a.d.Same(b.d) || !near(a.v, b.v, rel) {
			t.Errorf("%s is %v, and %s %v", c[0], a.v, c[1], b.v)
		}
	}
}

// SI Brochure table 7.
func TestPrefixes(t *testing.T) {
	t.Parallel()
	for symbol, exp := range map[string]int{
		"Q": 30, "R": 27, "Y": 24, "Z": 21, "E": 18, "P": 15, "T": 12, "G": 9, "M": 6, "k": 3, "h": 2, "da": 1,
		"d": -1, "c": -2, "m": -3, "µ": -6, "n": -9, "p": -12, "f": -15, "a": -18, "z": -21, "y": -24, "r": -27, "q": -30,
		"u": -6, "μ": -6,
	} {
		want, _ := strconv.ParseFloat("1e"+strconv.Itoa(exp), 64)
		if got := q("1 " + symbol + "m").SI(); got != want {
			t.Errorf("1 %sm is %v m, want %v", symbol, got, want)
		}
	}
}

func TestSpellings(t *testing.T) {
	t.Parallel()
	for spelling, canonical := range map[string]string{
		"4.7k\u03a9": "4.7kΩ", "4.7k\u2126": "4.7kΩ", "4.7kohm": "4.7kΩ", "10\u00b5F": "10µF", "10\u03bcF": "10µF", "10uF": "10µF",
		"25degC": "25°C", "77degF": "77°F", "3nV/rtHz": "3nV/√Hz", "3nV/sqrtHz": "3nV/√Hz", "9600baud": "9600Bd",
		"2inch": "2in", "45deg": "45°", "1dBuV": "1dBµV", "2m^2": "2m²", "2kg*m^2": "2kg·m²", "3m⋅s": "3m·s", "1Mohm": "1MΩ", "5permille": "5‰",
	} {
		a, n, err := ScanLiteral(spelling)
		if err != nil || n != len(spelling) {
			t.Errorf("%s: read %d bytes, %v", spelling, n, err)
			continue
		}
		b := q(canonical)
		if !a.Same(b) || a.Text(0) != b.Text(0) {
			t.Errorf("%s is %s, want %s", spelling, a.Text(0), b.Text(0))
		}
	}
}

func TestEveryUnitAndPrefixHasAnASCIISpelling(t *testing.T) {
	t.Parallel()
	plain := func(symbol string, also []string) bool {
		return slices.ContainsFunc(append([]string{symbol}, also...), func(s string) bool {
			return strings.IndexFunc(s, func(r rune) bool { return r > 0x7e }) < 0
		})
	}
	for _, e := range std.order {
		if !plain(e.unit.Symbol, e.also) {
			t.Errorf("%s has none", e.unit.Symbol)
		}
	}
	for _, p := range std.prefixes {
		if !plain(p.symbol, p.also) {
			t.Errorf("%s has none", p.symbol)
		}
	}
}

func TestNoSpellingIsAmbiguous(t *testing.T) {
	t.Parallel()
	if err := std.clashes(); err != nil {
		t.Error(err)
	}
}

// A unit beats a prefix and a unit, whatever the table holds.
func TestUnitBeatsPrefixAndUnit(t *testing.T) {
	t.Parallel()
	for s, want := range map[string]string{"1 min": "60 s", "1 cd": "1 cd", "1 ft": "0.3048 m", "1 h": "3600 s", "1 T": "1 Wb/m^2", "1 Pa": "1 N/m^2", "1 mol": "1 mol", "1 d": "24 h"} {
		if !q(s).Same(q(want)) {
			t.Errorf("%s is %v, want %s", s, q(s), want)
		}
	}
}

func TestBrokenTablesAreRefused(t *testing.T) {
	t.Parallel()
	const base = "prefix | m | | -3\nprefix | k | | 3\nunit | m | | base L | SI | m..k | | x\nunit | s | | base T | SI | m..1 | | x\n"
	for _, c := range []struct{ name, lines, want string }{
		{"clash of prefix and unit", "unit | in | | 0.0254 m | m | - | | x\nunit | min | | 60 s | - | - | | x", "min is"},
		{"spelling taken", "unit | x | s | 1 m | - | - | | x", "line 5: unit x: the spelling s is taken"},
		{"unknown unit", "unit | x | | 1 y | - | - | | x", "line 5: unit x: unknown unit y"},
		{"no source", "unit | x | | 1 m | - | - | | ", "no source"},
		{"bad number", "unit | x | | 1..2 m | - | - | | x", "bad number"},
		{"bad prefix", "unit | x | | 1 m | Z | - | | x", "unknown prefix"},
		{"bad range", "unit | x | | 1 m | SI | k..m | | x", "bad range of prefixes"},
		{"bad mark", "unit | x | | 1 m | - | - | dozen | x", "unknown mark"},
		{"columns", "unit | x | | 1 m", "a unit has 8 columns, not 4"},
		{"entry", "thing | x", "not \"thing\""},
		{"one dimension twice", "quantity | length | m | - |\nquantity | way | km | - |", "same dimension as length"},
		{"refused unit", "refused | km | write m", "km is a unit and refused"},
		{"base", "unit | x | | base Q | - | - | | x", "bad base unit"},
		{"zero fraction", "unit | x | | 1/0 m | - | - | | x", "bad number"},
	} {
		tab, err := loadTable(base + c.lines)
		if err == nil {
			err = tab.clashes()
		}
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
}

func TestUnitNamesAreSortedAndRead(t *testing.T) {
	t.Parallel()
	names := UnitNames()
	for i, n := range names {
		if i > 0 && names[i-1] >= n {
			t.Errorf("%s stands before %s", names[i-1], n)
		}
		if _, err := std.parseUnit(n); err != nil {
			t.Errorf("%s: %v", n, err)
		}
	}
}
