package table

import (
	"testing"

	"ohmwright/units"
)

// Platinum resistors of 100 Ω at 0 °C, to the hundredth: IEC 60751, table 1;
// read in a copy, sensorsci.com/reference.htm (−200, −100, 0, 50, 100, 200,
// 400, 600 °C).
const platinum = `# IEC 60751, table 1
temperature [°C], resistance [Ω]
-200, 18.52
-100, 60.26
0, 100.00
50, 119.40
100, 138.51
200, 175.86
400, 247.09
600, 313.71
`

// Between rows: the values of the equation of IEC 60751,
// R = 100 Ω · (1 + 3.9083e-3·t − 5.775e-7·t²), by hand at 25 °C:
// 1 + 0.0977075 − 0.0003609375 = 1.0973465625, 109.73 Ω. The straight line
// between 0 and 50 °C gives 109.70 Ω; it lies below by 5.775e-5 Ω/K² · 25² K²
// = 0.036 Ω.
func TestPlatinumResistor(t *testing.T) {
	t.Parallel()
	pt := must(t, platinum)
	for x, want := range map[string]string{
		"-200 °C": "18.52 Ω", "-100 °C": "60.26 Ω", "0 °C": "100 Ω", "50 °C": "119.4 Ω", "100 °C": "138.51 Ω",
		"200 °C": "175.86 Ω", "400 °C": "247.09 Ω", "600 °C": "313.71 Ω",
		"25 °C": "109.7 Ω", // by hand: (100 + 119.40)/2
		"77 °F": "109.7 Ω", // the same point
		"75 °C": "128.955 Ω",
	} {
		r, err := pt.At(q(x))
		near(t, "Pt100 at "+x, r, err, want, 1e-14)
	}
	back := ok(t)(pt.Inverse())
	temperature, err := back.At(q("109.7 Ω"))
	near(t, "temperature of 109.7 Ω", temperature, err, "25 °C", 1e-14)
	equation := q("100 Ω").Mul(units.Number(1.0973465625))
	line, err := pt.At(q("25 °C"))
	near(t, "the bend between 0 and 50 °C", equation.Sub(line), err, "0.03465625 Ω", 1e-9) // 109.73465625 − 109.70
}

// Hold current of a resettable fuse over the air around it, as a share of its
// rating: checks of the project, 07-03 (145, 130, 120, 100, 88, 80, 71, 66 and
// 56 % at −40, −20, 0, 25, 40, 50, 60, 70 and 85 °C; so a part of 1.10 A holds
// 0.781 A at 60 °C), from a manufacturer's page.
func TestHoldCurrent(t *testing.T) {
	t.Parallel()
	hold := must(t, "air [°C], hold [%]\n-40,145\n-20,130\n0,120\n25,100\n40,88\n50,80\n60,71\n70,66\n85,56")
	share, err := hold.At(q("60 °C"))
	near(t, "the part at 60 °C", share.Mul(q("1.10 A")), err, "0.781 A", 1e-12)
	share, err = hold.At(q("30 °C")) // by hand: 100 − 12 · 5/15
	near(t, "the share at 30 °C", share, err, "96 %", 1e-12)
}

// A 20 dB a decade slope is straight on logarithmic axes: 1/f.
func TestStraightLineOnLogarithmicAxes(t *testing.T) {
	t.Parallel()
	// |Z| of 1 µF is 1/(2π·f·C): 159.15494309189535 Ω at 1 kHz, a tenth of
	// that at 10 kHz (1/2π = 0.15915494309189535, a mathematical constant).
	z := must(t, "frequency [Hz] log, impedance [Ω] log\n1k, 159.15494309189535\n1M, 0.15915494309189535")
	for x, want := range map[string]string{"1 kHz": "159.15494309189535 Ω", "10 kHz": "15.915494309189535 Ω", "25 kHz": "6.366197723675814 Ω", "1 MHz": "0.15915494309189535 Ω"} {
		got, err := z.At(q(x))
		near(t, "impedance at "+x, got, err, want, 1e-12)
	}
	// The same rows on linear axes: at 10 kHz 9/999 of the way down from
	// 159.15 Ω: by hand 159.154943 − 158.995788 · 0.009009 = 157.722.
	linear := ok(t)(z.Linear("frequency", "impedance"))
	got, err := linear.At(q("10 kHz"))
	near(t, "on linear axes", got, err, "157.722548604 Ω", 1e-9)
	// On a logarithmic frequency alone, 10 kHz is a third of the way:
	// 159.15494309 − 158.99578815/3 = 106.15634704.
	half := ok(t)(linear.Log("frequency"))
	got, err = half.At(q("10 kHz"))
	near(t, "impedance by log f", got, err, "106.156347042 Ω", 1e-9)
	// On a logarithmic impedance alone: 159.15494309 · 0.001^(9/999), where
	// 0.001^(1/111) = exp(−6.907755279/111) = exp(−0.062232030) = 0.939664829.
	steep := ok(t)(linear.Log("impedance"))
	got, err = steep.At(q("10 kHz"))
	near(t, "log impedance by f", got, err, "149.552302 Ω", 1e-6)
}

// Dropout over load at two junction temperatures, by hand: at 250 mA half of
// each curve, 150 mV and 225 mV; at 75 °C half of the way between them.
func TestFamily(t *testing.T) {
	t.Parallel()
	const text = "load [A], junction [°C], dropout [mV]\n0,25,0\n0.5,25,300\n0,125,0\n0.2,125,150\n0.5,125,450\n"
	dropout := must(t, text)
	for _, c := range []struct{ load, junction, want string }{
		{"500 mA", "25 °C", "300 mV"}, {"500 mA", "125 °C", "450 mV"}, {"0 A", "75 °C", "0 V"},
		{"250 mA", "25 °C", "150 mV"},
		{"250 mA", "125 °C", "200 mV"}, // 150 + 300 · 0.05/0.3
		{"250 mA", "75 °C", "175 mV"},
		{"100 mA", "45 °C", "63 mV"}, // 60 and 75 mV, a fifth of the way
	} {
		got, err := dropout.At(q(c.load), q(c.junction))
		near(t, "dropout at "+c.load+" and "+c.junction, got, err, c.want, 1e-14)
	}
	// Rows in another order are the same family.
	mixed := must(t, "load [A], junction [°C], dropout [mV]\n0,125,0\n0,25,0\n0.2,125,150\n0.5,25,300\n0.5,125,450\n")
	got, err := mixed.At(q("100 mA"), q("45 °C"))
	near(t, "the same in another order", got, err, "63 mV", 1e-14)
	// Outside of one of the two curves that are needed it is not known, though
	// the other reaches so far; on that other alone it is.
	short := must(t, "load [A], junction [°C], dropout [mV]\n0,25,0\n0.5,25,300\n0,125,0\n0.2,125,150\n")
	if got, err := short.At(q("300 mA"), q("75 °C")); err == nil {
		t.Errorf("beyond a curve that is needed: %v", got)
	}
	got, err = short.At(q("300 mA"), q("25 °C"))
	near(t, "on the longer curve", got, err, "180 mV", 1e-14)
	// Held: the end of the shorter curve, 150 mV, and 180 mV: 165 mV half way.
	got, err = short.Held().At(q("300 mA"), q("75 °C"))
	near(t, "held", got, err, "165 mV", 1e-14)
	got, err = short.Held().At(q("300 mA"), q("200 °C"))
	near(t, "held beyond the last curve", got, err, "150 mV", 1e-14)
	// Straight on: 150 · 0.3/0.2 = 225 mV and 180 mV: 270 mV at 225 °C.
	got, err = short.Extended().At(q("300 mA"), q("225 °C"))
	near(t, "straight on", got, err, "270 mV", 1e-12)
}

// Cells in every notation that is read.
func TestNotations(t *testing.T) {
	t.Parallel()
	want := must(t, "r [kΩ], level [dBm], t [°C]\n1,-30,-40\n4.7,0,25\n10,14,125")
	for name, text := range map[string]string{
		"units of their own":      "r [kΩ], level [dBm], t [°C]\n1000 ohm, -60dBW, -40 °F\n4.7kΩ,0 dBm,77 °F\n0.01 Mohm, 14dBm, 398.15 K\n",
		"marking codes":           "r [Ω], level [dBm], t [°C]\n1k, -30, -40\n4k7, 0, 25\n10K, 14, 125\n",
		"semicolons":              "r [kΩ]; level [dBm]; t [°C]\n1;-30;-40\n4.7;0;25\n10;14;125\n",
		"decimal commas":          "r [kΩ]; level [dBm]; t [°C]\n1,0;-30;-40\n4,7;0;25\n10;14;125,000\n",
		"BOM, CR LF, blank lines": "\ufeff# from figure 3\r\n\r\nr [kΩ], level [dBm], t [°C]\r\n1,-30,-40\r\n\r\n# middle\r\n4.7,0,25\r\n10,14,125\r\n,,\r\n\r\n",
		"old line ends":           "r [kΩ], level [dBm], t [°C]\r1,-30,-40\r4.7,0,25\r10,14,125",
		"quotes and spaces":       "\"r [kΩ]\", level   [ dBm ],t [°C],\n 1 , -30 , \"-40\",\n4.7,0,25,,\n10,14,125\n",
		"exponents and minus":     "r [Ω], level [dBm], t [°C]\n1e3,−30,−40\n4.7E3,+0,25.\n1e+4,14,125",
	} {
		got, err := Text(text)
		if name == "units of their own" {
			// 398.15 K is a difference: a temperature on the scale is in °C.
			if err == nil {
				t.Errorf("%s: a difference is taken for a temperature", name)
			}
			got, err = Text("r [kΩ], level [dBm], t [°C]\n1000 ohm, -60dBW, -40 °F\n4.7kΩ,0 dBm,77 °F\n0.01 Mohm, 14dBm, 257 °F\n")
		}
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, column := range want.Columns() {
			a, _ := want.Column(column)
			b, err := got.Column(column)
			if err != nil || len(a) != len(b) {
				t.Errorf("%s: %s has %v, %v", name, column, b, err)
				continue
			}
			for i := range a {
				near(t, name+": "+column, b[i], nil, a[i].Text(0), 1e-14)
			}
		}
	}
}

// Levels and points are read between as their differences are.
func TestLevelsAndPoints(t *testing.T) {
	t.Parallel()
	power := must(t, "drive [dBm], output [dBm], case [°C]\n-10,4,30\n0,14,40\n5,16,60")
	output := ok(t)(power.Of("output"))
	got, err := output.At(q("-5 dBm"))
	near(t, "output", got, err, "9 dBm", 1e-14)
	got, err = output.At(q("-33 dBW"))
	near(t, "output at -3 dBm", got, err, "11 dBm", 1e-14)
	got, err = ok(t)(power.Of("case")).At(q("2 dBm"))
	near(t, "case", got, err, "48 °C", 1e-14) // 40 + 20 · 2/5
}
