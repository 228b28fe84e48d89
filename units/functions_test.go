package units

import (
	"math"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Values from memory of mathematics, or worked out in the comment.
func TestFunctions(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		got  Quantity
		want string
	}{
		{"Sqrt(2)", Sqrt(Number(2)), "1.4142135623730951"},
		{"Sqrt(16 V²)", Sqrt(q("16 V²")), "4 V"},
		{"Sqrt(100 Hz)", Sqrt(q("100 Hz")), "10 √Hz"},
		{"Sqrt(0)", Sqrt(q("0 V²")), "0 V"},
		{"Pow(3 V, 2)", Pow(q("3 V"), 2), "9 V²"},
		{"Pow(4 V, 0.5)", Pow(q("4 V"), 0.5), "2 kg^0.5·m/(s^1.5·√A)"},
		{"Pow(4 V², 0.5)", Pow(q("4 V²"), 0.5), "2 V"},
		{"Pow(2 s, -1)", Pow(q("2 s"), -1), "500 mHz"},
		{"Pow(2 V, 0)", Pow(q("2 V"), 0), "1"},
		{"Pow(16, 0.25)", Pow(Number(16), 0.25), "2"},
		{"Pow(5 %, 2)", Pow(q("5 %"), 2), "0.0025"},
		{"Exp(1)", Exp(Number(1)), "2.718281828459045"},
		{"Ln(e²)", Ln(Number(math.E * math.E)), "2"},
		{"Log10(1000)", Log10(Number(1000)), "3"},
		{"Log10(0.001)", Log10(Number(0.001)), "−3"},
		{"Sin(30°)", Sin(q("30 deg")), "0.5"},
		{"Cos(60°)", Cos(q("60 deg")), "0.5"},
		{"Tan(45°)", Tan(q("45 deg")), "1"},
		{"Sin(45°)", Sin(q("45 deg")), "0.7071"},
		{"Sin(Pi/2)", Sin(Pi.Div(Number(2))), "1"},
		{"Abs(-5 V)", Abs(q("-5 V")), "5 V"},
		{"Abs(-3 dB)", Abs(q("-3 dB")), "3 dB"},
		{"Min", Min(q("5 V"), q("300 mV"), q("1 kV")), "300 mV"},
		{"Max", Max(q("5 V"), q("300 mV"), q("1 kV")), "1 kV"},
		{"Max of one", Max(q("5 V")), "5 V"},
		{"Max with 0", Max(q("-5 V"), Quantity{}), "0 V"},
		{"Max of 0 first", Max(Quantity{}, q("-5 V"), q("-1 V")), "0 V"},
		{"Min with 0", Min(Quantity{}, q("-5 V")), "−5 V"},
		{"Parallel of two equal", Parallel(q("10 kΩ"), q("10 kΩ")), "5 kΩ"},
		{"Parallel 1k 2k 6k", Parallel(q("1 kΩ"), q("2 kΩ"), q("6 kΩ")), "600 Ω"}, // 1 + 1/2 + 1/6 = 10/6 mS
		{"Parallel with 0", Parallel(q("1 kΩ"), q("0 Ω")), "0 Ω"},
		{"Parallel of one", Parallel(q("3 kΩ")), "3 kΩ"},
		{"Where less", Where(q("1 V"), q("2 V"), q("1 A"), q("2 A")), "1 A"},
		{"Where 0", Where(q("1 V"), q("2 V"), Quantity{}, q("2 A")), "0 A"},
		{"Where otherwise 0", Where(q("2 V"), q("1 V"), q("2 A"), Quantity{}), "0 A"},
		{"Parallel with the constant 0", Parallel(Quantity{}, q("1 kΩ")), "0 Ω"},
		{"Where not less", Where(q("2 V"), q("2 V"), q("1 A"), q("2 A")), "2 A"},
		{"thermal voltage", In(Boltzmann.Mul(q("300 K")).Div(ElementaryCharge), "mV"), "25.852 mV"}, // 25.8520 mV at 300 K, exact k and e
	} {
		digits := 5
		if len(c.want) > 16 {
			digits = 0 // all digits of the float64
		}
		if strings.HasPrefix(c.name, "Sin(4") {
			digits = 4
		}
		if got := c.got.Text(digits); got != c.want {
			t.Errorf("%s is %s, want %s", c.name, got, c.want)
		}
	}
}

func TestParallelProperties(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		a := Quantity{v: rapid.Float64Range(1e-3, 1e9).Draw(t, "a"), d: q("1 Ω").d}
		b := Quantity{v: rapid.Float64Range(1e-3, 1e9).Draw(t, "b"), d: q("1 Ω").d}
		p := Parallel(a, b)
		if want := a.v * b.v / (a.v + b.v); !near(p.v, want, 1e-15) || !p.Same(Parallel(b, a)) {
			t.Fatalf("%v and %v in parallel are %v, want %v", a, b, p.v, want)
		}
	})
}

// The exact constants are products of those that define the SI; the others
// fit each other within their uncertainty.
func TestConstants(t *testing.T) {
	t.Parallel()
	r := func(s string) *big.Rat {
		x, _ := new(big.Rat).SetString(s)
		return x
	}
	f := func(x *big.Rat) float64 { v, _ := x.Float64(); return v }
	k, e, na := r("1.380649e-23"), r("1.602176634e-19"), r("6.02214076e23")
	for _, c := range []struct {
		name string
		got  Quantity
		want float64
		unit string
		from string
	}{
		{"SpeedOfLight", SpeedOfLight, 299792458, "m/s", "SI table 1"},
		{"Planck", Planck, 6.62607015e-34, "J·s", "SI table 1"},
		{"ElementaryCharge", ElementaryCharge, f(e), "C", "SI table 1"},
		{"Boltzmann", Boltzmann, f(k), "J/K", "SI table 1"},
		{"Avogadro", Avogadro, f(na), "1/mol", "SI table 1"},
		{"GasConstant", GasConstant, f(new(big.Rat).Mul(k, na)), "J/(mol·K)", "k·N, exact"},
		{"Faraday", Faraday, f(new(big.Rat).Mul(e, na)), "C/mol", "e·N, exact"},
		{"StandardGravity", StandardGravity, 9.80665, "m/s²", "SP 811"},
		{"Epsilon0", Epsilon0, 8.8541878188e-12, "F/m", "CODATA 2022, from memory"},
		{"Mu0", Mu0, 1.25663706127e-6, "H/m", "CODATA 2022, from memory"},
		{"Pi", Pi, math.Pi, "1", "mathematics"},
	} {
		if c.got.SI() != c.want || c.got.SIUnit() != c.unit {
			t.Errorf("%s is %v %s, want %v %s (%s)", c.name, c.got.SI(), c.got.SIUnit(), c.want, c.unit, c.from)
		}
	}
	sb := Number(2).Mul(Pow(Pi, 5)).Mul(Pow(Boltzmann, 4)).Div(Number(15).Mul(Pow(Planck, 3)).Mul(Pow(SpeedOfLight, 2)))
	if !sb.d.Same(StefanBoltzmann.d) || !near(sb.v, StefanBoltzmann.v, 1e-15) {
		t.Errorf("StefanBoltzmann is %v, 2π⁵k⁴/(15h³c²) %v", StefanBoltzmann.Text(0), sb.Text(0))
	}
	one := Epsilon0.Mul(Mu0).Mul(SpeedOfLight).Mul(SpeedOfLight)
	if one.Dim() != 0 || !near(one.v, 1, 4e-10) {
		t.Errorf("ε0·µ0·c² is %v", one.Text(0))
	}
}

// Thermodynamic temperature is the Celsius temperature plus 273.15 K (The
// International System of Units, 9th edition, section 2.3.1).
func TestTemperature(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ x, want string }{
		{"298.15K", "25 °C"}, {"333.15K", "60 °C"}, {"0K", "−273.15 °C"}, {"273150mK", "0 °C"},
	} {
		if got := Temperature(q(c.x)).Text(0); got != c.want {
			t.Errorf("Temperature(%s) is %s, want %s", c.x, got, c.want)
		}
	}
	if got := Temperature(Absolute(q("-40 °C"))); !got.Equal(q("-40 °C")) || got.Dim().Kind() != PointScale {
		t.Errorf("there and back is %s", got)
	}
	for _, bad := range []string{"-1K", "25°C", "5V", "3"} {
		func() {
			defer func() {
				if _, ok := recover().(*Error); !ok {
					t.Errorf("Temperature(%s) is not refused", bad)
				}
			}()
			Temperature(q(bad))
		}()
	}
}

// Power is torque times angular velocity: 2 N·m at 3000 turns a minute are
// 2 · 2π · 50 = 628.3 W (mechanics textbook; arithmetic).
func TestTorqueTimesTurns(t *testing.T) {
	t.Parallel()
	torque, speed := q("2 N·m"), q("3000 rpm")
	for _, product := range []func() Quantity{func() Quantity { return torque.Mul(speed) }, func() Quantity { return speed.Mul(torque) }} {
		func() {
			defer func() {
				if e, ok := recover().(*Error); !ok || !strings.Contains(e.Error(), "2*Pi*speed") {
					t.Errorf("is not refused: %v", e)
				}
			}()
			product()
		}()
	}
	if got := torque.Mul(Number(2).Mul(Pi).Mul(speed)).String(); got != "628.3 W" {
		t.Errorf("torque times angular velocity is %s", got)
	}
	if got := torque.Mul(q("314.159 rad/s")).String(); got != "628.3 W" {
		t.Errorf("torque times rad/s is %s", got)
	}
	if got := q("3 J").Mul(q("50 Hz")).String(); got != "150 W" {
		t.Errorf("energy times a repetition rate is %s", got)
	}
}
