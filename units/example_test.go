package units_test

import (
	"fmt"

	"ohmwright/units"
)

func Example() {
	vin := units.MustParse("24V")
	r := units.MustParse("4.7kΩ")
	i := vin.Div(r)
	fmt.Println(i)
	fmt.Println(i.Mul(units.MustParse("2h")))
	defer func() { fmt.Println(recover()) }()
	vin.Add(i)
	// Output:
	// 5.106 mA
	// 36.77 C
	// cannot add 24 V (voltage) and 5.106 mA (current)
}

func ExampleParse() {
	for _, s := range []string{"4.7 kohm", "-40 °C", "100ppm/K", "10k"} {
		q, err := units.Parse(s)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(q, q.SI(), q.SIUnit())
	}
	// Output:
	// 4.7 kΩ 4700 Ω
	// −40 °C 233.15 K
	// 100 ppm/K 0.0001 1/K
	// cannot read “10k”: k is a prefix without a unit: write a unit behind it, as in kΩ (kohm), kHz or kV
}

func ExampleScanLiteral() {
	for _, src := range []string{"62°C/W*x", "10V/R", "12+x", "4.7kOhmz"} {
		q, n, err := units.ScanLiteral(src)
		fmt.Println(q, src[:n], err)
	}
	// Output:
	// 62 °C/W 62°C/W <nil>
	// 10 V 10V <nil>
	// 0  <nil>
	// 0  unknown unit kOhmz: did you mean kΩ (kOhm)?
}

func ExampleParseRKM() {
	r, _ := units.ParseRKM("4k7", "Ω")
	c, _ := units.ParseRKM("100nJ", "F")
	low, high, _ := c.Limits()
	fmt.Println(r, c, low, high)
	// Output: 4.7 kΩ 100 nF 95 nF 105 nF
}

func ExampleIn() {
	charge := units.MustParse("50 mA").Mul(units.MustParse("8 h"))
	fmt.Println(charge)
	fmt.Println(units.In(charge, "mAh"))
	fmt.Println(units.In(charge, "mAh").Mul(units.Number(7)))
	// Output:
	// 1.44 kC
	// 400 mAh
	// 2800 mAh
}

func ExampleQuantity_Text() {
	r := units.MustParse("1904.76 Ω")
	fmt.Println(r.Text(4), r.Text(2), r.Text(0))
	fmt.Println(units.MustParse("999.96 mV").Text(4))
	// Output:
	// 1.905 kΩ 1.9 kΩ 1.90476 kΩ
	// 1 V
}

func ExampleQuantity_Format() {
	r := units.MustParse("1904.76 Ω")
	fmt.Printf("%v|%.2v|%10v|%.1f\n", r, r, r, r)
	// Output: 1.905 kΩ|1.9 kΩ|  1.905 kΩ|1904.8 Ω
}

func ExampleColumn() {
	fmt.Println(units.Column(4, units.MustParse("470Ω"), units.MustParse("12kΩ")))
	// Output: [0.47 kΩ 12 kΩ]
}

func ExampleQuantity_AsBought() {
	fmt.Println(units.MustParse("0.0047 F").AsBought(), units.MustParse("1910 Ω").AsBought())
	// Output: 4700 µF 1.91 kΩ
}

func ExamplePi() {
	f := units.MustParse("1 kHz")
	w := units.Number(2).Mul(units.Pi).Mul(f)
	fmt.Println(w)
	fmt.Println(w.Div(units.Number(2).Mul(units.Pi)))
	// Output:
	// 6.283 krad/s
	// 1 kHz
}

func ExampleAbsolute() {
	fmt.Println(units.Absolute(units.MustParse("25°C")).Text(5))
	// Output: 298.15 K
}

func ExampleLevelOf() {
	level := units.LevelOf(units.MustParse("25mW"), units.MustParse("1mW"))
	fmt.Println(level, level.Add(units.MustParse("2.15dBi")), units.Power(level))
	// Output: 13.98 dBm 16.13 dBm 25 mW
}

func ExamplePowerSum() {
	fmt.Println(units.PowerSum(units.MustParse("10dBm"), units.MustParse("10dBm")))
	// Output: 13.01 dBm
}

func ExampleTolerance() {
	r := units.Tolerance(units.MustParse("10kΩ"), units.MustParse("1%"))
	low, high, _ := r.Limits()
	fmt.Println(r, low, high)
	// Output: 10 kΩ 9.9 kΩ 10.1 kΩ
}

func ExampleStudy() {
	study := units.NewStudy(units.StudyOptions{})
	percent := units.MustParse("1%")
	upper := study.Place("R1", "R1", units.Tolerance(units.MustParse("10kΩ"), percent))
	lower := study.Place("R2", "R2", units.Tolerance(units.MustParse("1kΩ"), percent))
	ratio := lower.Div(upper.Add(lower))
	low, high, _ := ratio.Limits()
	fmt.Println(ratio, low, high)
	fmt.Println(upper.Div(upper))
	// Output:
	// 0.09091 0.08927 0.09258
	// 1
}

func ExampleRange() {
	vin := units.Range(units.MustParse("18V"), units.MustParse("24V"), units.MustParse("32V"))
	fmt.Println(vin, units.Low(vin), units.High(vin))
	// Output: 24 V 18 V 32 V
}

func ExampleParallel() {
	fmt.Println(units.Parallel(units.MustParse("1kΩ"), units.MustParse("2kΩ"), units.MustParse("6kΩ")))
	// Output: 600 Ω
}
