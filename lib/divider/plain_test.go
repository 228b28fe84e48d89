package divider

import (
	"fmt"
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// 12 V over 10 kΩ and 3.3 kΩ, by hand: 12/13300 = 902.256 µA,
// · 3300 = 2.97744 V, 10·3.3/13.3 = 2.48120 kΩ,
// 902.256 µA² · 10 kΩ = 8.14065 mW, · 3.3 kΩ = 2.68642 mW, sum = 12² /13300 = 10.8271 mW.
func TestPlain(t *testing.T) {
	t.Parallel()
	d, err := Plain(q("12 V"), q("10 kΩ"), q("3.3 kΩ"))
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "Current", d.Current, "902.2556 µA", rounded)
	expect.Near(t, "Output", d.Output, "2.977444 V", rounded)
	expect.Near(t, "Ratio", d.Ratio, "0.2481203", rounded)
	expect.Near(t, "Resistance", d.Resistance, "2.481203 kΩ", rounded)
	expect.Near(t, "UpperPower", d.UpperPower, "8.140652 mW", rounded)
	expect.Near(t, "LowerPower", d.LowerPower, "2.686415 mW", rounded)
	expect.Near(t, "Power", d.Power, "10.82707 mW", rounded)
}

func TestPlainTakesEitherSign(t *testing.T) {
	t.Parallel()
	d, err := Plain(q("-12 V"), q("10 kΩ"), q("3.3 kΩ"))
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "Output", d.Output, "-2.977444 V", rounded)
	expect.Near(t, "Power", d.Power, "10.82707 mW", rounded)
	d, err = Plain(q("0 V"), q("10 kΩ"), q("3.3 kΩ"))
	if err != nil || d.Output.SI() != 0 {
		t.Errorf("0 V: %v, %v", d.Output, err)
	}
}

// Kirchhoff: 12 V, 10 kΩ, 3.3 kΩ with 10 kΩ of load: 3.3 ∥ 10 = 2.481203 kΩ,
// 12 · 2.481203/12.481203 = 2.385542 V.
func TestLoaded(t *testing.T) {
	t.Parallel()
	d, err := Loaded(LoadedInputs{Input: q("12 V"), Upper: q("10 kΩ"), Lower: q("3.3 kΩ"), LoadResistance: q("10 kΩ")})
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "Effective", d.Effective, "2.481203 kΩ", rounded)
	expect.Near(t, "Output", d.Output, "2.385542 V", rounded)
	expect.Near(t, "Unloaded", d.Unloaded, "2.977444 V", rounded)
	expect.Near(t, "Sag", d.Sag, "0.5919016 V", rounded)                    // 2.9774436 − 2.3855422
	expect.Near(t, "UpperCurrent", d.UpperCurrent, "0.9614458 mA", rounded) // (12 − 2.385542)/10 kΩ
	expect.Near(t, "LowerCurrent", d.LowerCurrent, "0.7228916 mA", rounded) // 2.385542/3.3 kΩ
	expect.Near(t, "Load", d.Load, "0.2385542 mA", rounded)                 // 2.385542/10 kΩ
	expect.Near(t, "Power", d.Power, "11.53735 mW", rounded)                // 12 · 0.9614458
}

// A current alone: 10 V, two of 10 kΩ, 100 µA: 5 V − 100 µA · 5 kΩ = 4.5 V.
func TestLoadedByCurrent(t *testing.T) {
	t.Parallel()
	d, err := Loaded(LoadedInputs{Input: q("10 V"), Upper: q("10 kΩ"), Lower: q("10 kΩ"), LoadCurrent: q("100 µA")})
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "Output", d.Output, "4.5 V", 1e-12)
	expect.Near(t, "OpenVoltage", d.OpenVoltage, "5 V", 1e-12)
	expect.Near(t, "Resistance", d.Resistance, "5 kΩ", 1e-12)
	expect.Near(t, "UpperCurrent", d.UpperCurrent, "550 µA", 1e-12)
	expect.Near(t, "LowerCurrent", d.LowerCurrent, "450 µA", 1e-12)
	expect.Near(t, "Load", d.Load, "100 µA", 1e-9)
	expect.Near(t, "UpperPower", d.UpperPower, "3.025 mW", 1e-12) // 550 µA² · 10 kΩ
	expect.Near(t, "LowerPower", d.LowerPower, "2.025 mW", 1e-12)
	// Into the node instead: 5 V + 0.5 V.
	d, err = Loaded(LoadedInputs{Input: q("10 V"), Upper: q("10 kΩ"), Lower: q("10 kΩ"), LoadCurrent: q("-100 µA")})
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "Output", d.Output, "5.5 V", 1e-12)
}

func drawResistance(t *rapid.T, name string) units.Quantity {
	return units.Number(math.Pow(10, rapid.Float64Range(0, 6).Draw(t, name))).Mul(q("1 Ω"))
}

// A load far above the divider's resistance changes nothing, whatever the
// divider.
func TestLoadedBecomesPlain(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		upper, lower := drawResistance(t, "upper"), drawResistance(t, "lower")
		input := units.Number(rapid.Float64Range(-100, 100).Draw(t, "input")).Mul(q("1 V"))
		plain, err := Plain(input, upper, lower)
		if err != nil {
			t.Skip(err) // an input below 1e-30 V
		}
		for _, in := range []LoadedInputs{
			{Input: input, Upper: upper, Lower: lower},
			{Input: input, Upper: upper, Lower: lower, LoadResistance: q("1e20 Ω")},
			{Input: input, Upper: upper, Lower: lower, LoadCurrent: q("0 A")},
		} {
			loaded, err := Loaded(in)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(loaded.Output.SI()-plain.Output.SI()) > 1e-9*math.Abs(plain.Output.SI()) {
				t.Fatalf("loaded %v, plain %v", loaded.Output.Text(12), plain.Output.Text(12))
			}
		}
	})
}

// Thévenin: the loaded divider is a source of the open voltage behind
// Resistance; and at the node the currents add up to nothing (Kirchhoff).
func TestTheveninAndKirchhoff(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		upper, lower, load := drawResistance(t, "upper"), drawResistance(t, "lower"), drawResistance(t, "load")
		v := rapid.Float64Range(0.1, 100).Draw(t, "input")
		input := units.Number(v).Mul(q("1 V"))
		plain, err := Plain(input, upper, lower)
		if err != nil {
			t.Fatal(err)
		}
		share := rapid.Float64Range(-1, 0.99).Draw(t, "share of the largest current")
		current := units.Number(share).Mul(plain.Output.Div(units.Parallel(upper, lower)))
		d, err := Loaded(LoadedInputs{Input: input, Upper: upper, Lower: lower, LoadResistance: load, LoadCurrent: current})
		if err != nil {
			t.Skip(err)
		}
		open, source, r, i := plain.Output.SI(), plain.Resistance.SI(), load.SI(), current.SI()
		want := (open - i*source) * r / (source + r)
		if math.Abs(d.Output.SI()-want) > 1e-9*v {
			t.Fatalf("output %v, Thévenin %v", d.Output.SI(), want)
		}
		scale := v/upper.SI() + v/lower.SI() + math.Abs(i)
		if sum := d.UpperCurrent.SI() - d.LowerCurrent.SI() - d.Output.SI()/r - i; math.Abs(sum) > 1e-9*scale {
			t.Fatalf("at the node %v A is left over", sum)
		}
		if math.Abs(d.Sag.SI()-(open-want)) > 1e-9*v {
			t.Fatalf("sag %v, want %v", d.Sag.SI(), open-want)
		}
	})
}

func ExamplePlain() {
	d, err := Plain(units.MustParse("12 V"), units.MustParse("10 kΩ"), units.MustParse("3.3 kΩ"))
	fmt.Println(d.Output, d.Resistance, err)
	// Output: 2.977 V 2.481 kΩ <nil>
}

func ExampleLoaded() {
	d, err := Loaded(LoadedInputs{
		Input: units.MustParse("12 V"), Upper: units.MustParse("10 kΩ"), Lower: units.MustParse("3.3 kΩ"),
		LoadResistance: units.MustParse("10 kΩ"),
	})
	fmt.Println(d.Output, err)
	// Output: 2.386 V <nil>
}
