package linear

import (
	"fmt"
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// Source: National application note AN-1148 (SNVA020), from memory: 10 µF and
// 1 Ω put the zero at 16 kHz; by hand 1/(2π · 10 µs) = 15 915.494 Hz. The
// window and the resistances by hand: 15 915.494/5000 = 3.183, 50 000/15 915.494
// = 3.1416; 1/(2π · 50 kHz · 10 µF) = 1/π Ω; ten times that.
func TestESRZero(t *testing.T) {
	t.Parallel()
	z := expect.Result[ESRZeroResult](t)(ESRZero(ESRZeroInputs{Capacitance: q("10 µF"), Resistance: q("1 Ω"), Lowest: q("5 kHz"), Highest: q("50 kHz")}))
	expect.Within(t, "Zero", z.Zero, "15915.494309 Hz", "1e-6 Hz")
	expect.Within(t, "Margin", z.Margin, "3.14159265", "1e-8")
	expect.Within(t, "LeastResistance", z.LeastResistance, "0.318309886 Ω", "1e-9 Ω")
	expect.Within(t, "MostResistance", z.MostResistance, "3.18309886 Ω", "1e-8 Ω")
	// A tenth of the resistance: ten times the frequency, out of the window.
	z = expect.Result[ESRZeroResult](t)(ESRZero(ESRZeroInputs{Capacitance: q("10 µF"), Resistance: q("100 mΩ"), Lowest: q("5 kHz"), Highest: q("50 kHz")}))
	expect.Within(t, "Margin outside", z.Margin, "0.314159265", "1e-9")
	// TI SLVAEY8 asks for a zero below 10 kHz: with 10 µF more than 1.59 Ω.
	z = expect.Result[ESRZeroResult](t)(ESRZero(ESRZeroInputs{Capacitance: q("10 µF"), Resistance: q("2 Ω"), Lowest: q("1 Hz"), Highest: q("10 kHz")}))
	expect.Within(t, "LeastResistance below 10 kHz", z.LeastResistance, "1.59154943 Ω", "1e-8 Ω")
}

// At the ends of the window the margin is one, in its geometric middle it is
// largest.
func TestESRZeroAtTheEnds(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := ESRZeroInputs{
			Capacitance: of(math.Pow(10, rapid.Float64Range(-8, -3).Draw(t, "capacitance")), "F"), Resistance: q("1 Ω"),
			Lowest: of(math.Pow(10, rapid.Float64Range(2, 5).Draw(t, "lowest")), "Hz"),
		}
		ratio := rapid.Float64Range(1.1, 100).Draw(t, "ratio")
		in.Highest = in.Lowest.Mul(units.Number(ratio))
		at := func(r units.Quantity) float64 {
			in.Resistance = r
			z, err := ESRZero(in)
			if err != nil {
				t.Fatal(err)
			}
			return z.Margin.SI()
		}
		z, err := ESRZero(in)
		if err != nil {
			t.Fatal(err)
		}
		for name, r := range map[string]units.Quantity{"least": z.LeastResistance, "most": z.MostResistance} {
			if m := at(r); math.Abs(m-1) > 1e-12 {
				t.Fatalf("with the %s resistance the margin is %v", name, m)
			}
		}
		if m := at(units.Sqrt(z.LeastResistance.Mul(z.MostResistance))); math.Abs(m-math.Sqrt(ratio)) > 1e-12*m {
			t.Fatalf("in the middle of a window of %v the margin is %v", ratio, m)
		}
	})
}

// By hand: 60 % of 10 µF is 6 µF, 3.8 µF above 2.2 µF; 5 + 220 = 225 mΩ lies
// 125 mΩ above 100 mΩ and 775 mΩ below 1 Ω; 1/(2π · 225 mΩ · 6 µF) = 1/(8.4823
// µs) = 117.893 kHz; 2.2 µF/0.6 = 3.667 µF.
func TestOutputCapacitor(t *testing.T) {
	t.Parallel()
	in := OutputCapacitorInputs{
		Marked: q("10 µF"), Kept: q("60 %"), ESR: q("5 mΩ"), Series: q("220 mΩ"),
		LeastCapacitance: q("2.2 µF"), LeastESR: q("100 mΩ"), MostESR: q("1 Ω"),
	}
	c := expect.Result[OutputCapacitorResult](t)(OutputCapacitor(in))
	expect.Within(t, "Effective", c.Effective, "6 µF", "1e-18 F")
	expect.Within(t, "Resistance", c.Resistance, "225 mΩ", "1e-12 Ω")
	expect.Within(t, "Zero", c.Zero, "117892.55 Hz", "0.01 Hz")
	expect.Within(t, "CapacitanceMargin", c.CapacitanceMargin, "3.8 µF", "1e-18 F")
	expect.Within(t, "ESRMargin", c.ESRMargin, "125 mΩ", "1e-12 Ω")
	expect.Within(t, "LeastMarked", c.LeastMarked, "3.66666667 µF", "1e-14 F")
	// The upper ends decide where they are nearer.
	in.MostCapacitance, in.MostESR = q("7 µF"), q("300 mΩ")
	c = expect.Result[OutputCapacitorResult](t)(OutputCapacitor(in))
	expect.Within(t, "CapacitanceMargin below the most", c.CapacitanceMargin, "1 µF", "1e-18 F")
	expect.Within(t, "ESRMargin below the most", c.ESRMargin, "75 mΩ", "1e-12 Ω")
	// A plain ceramic capacitor where ESR is needed, and one too small.
	in.Series = units.Quantity{}
	in.LeastCapacitance = q("10 µF")
	in.MostCapacitance = units.Quantity{}
	c = expect.Result[OutputCapacitorResult](t)(OutputCapacitor(in))
	expect.Within(t, "ESRMargin of ceramic", c.ESRMargin, "-95 mΩ", "1e-12 Ω")
	expect.Within(t, "CapacitanceMargin of a small one", c.CapacitanceMargin, "-4 µF", "1e-18 F")
	// What is left out: all of the capacitance is kept, no ESR is asked for.
	c = expect.Result[OutputCapacitorResult](t)(OutputCapacitor(OutputCapacitorInputs{Marked: q("10 µF"), ESR: q("5 mΩ"), LeastCapacitance: q("1 µF"), MostESR: q("1 Ω")}))
	expect.Within(t, "Effective, all kept", c.Effective, "10 µF", "0 F")
	expect.Within(t, "ESRMargin from nothing", c.ESRMargin, "5 mΩ", "1e-12 Ω")
}

// By hand: 200 mA · 20 mΩ = 4 mV; 200 mA · 5 µs/10 µF = 100 mV. For 100 mV in
// all: 1 µC/96 mV = 10.41667 µF.
func TestLoadStep(t *testing.T) {
	t.Parallel()
	s := expect.Result[LoadStepResult](t)(LoadStep(LoadStepInputs{Step: q("200 mA"), Response: q("5 µs"), Capacitance: q("10 µF"), ESR: q("20 mΩ")}))
	expect.Within(t, "Jump", s.Jump, "4 mV", "1e-12 V")
	expect.Within(t, "Sag", s.Sag, "100 mV", "1e-12 V")
	expect.Within(t, "Dip", s.Dip, "104 mV", "1e-12 V")
	s = expect.Result[LoadStepResult](t)(LoadStepCapacitor(LoadStepInputs{Step: q("200 mA"), Response: q("5 µs"), ESR: q("20 mΩ"), Allowed: q("100 mV")}))
	expect.Within(t, "Capacitance", s.Capacitance, "10.4166667 µF", "1e-13 F")
}

// The other way round is the same: the capacitor that is found makes the dip
// that is allowed, at the output and at the input.
func TestCapacitorsBackAndForth(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		step := of(rapid.Float64Range(0.01, 5).Draw(t, "step"), "A")
		esr := of(rapid.Float64Range(0.001, 0.5).Draw(t, "ESR"), "Ω")
		allowed := step.Mul(esr).Mul(units.Number(rapid.Float64Range(1.01, 20).Draw(t, "allowed")))
		response := of(rapid.Float64Range(1e-7, 1e-4).Draw(t, "response"), "s")
		found, err := LoadStepCapacitor(LoadStepInputs{Step: step, Response: response, ESR: esr, Allowed: allowed})
		if err != nil {
			t.Fatal(err)
		}
		back, err := LoadStep(LoadStepInputs{Step: step, Response: response, ESR: esr, Capacitance: found.Capacitance})
		if err != nil || math.Abs(back.Dip.SI()-allowed.SI()) > 1e-12*allowed.SI() {
			t.Fatalf("the output dips by %v, want %v (%v)", back.Dip, allowed, err)
		}
		inductance := of(rapid.Float64Range(1e-8, 1e-5).Draw(t, "inductance"), "H")
		input, err := InputCapacitor(InputInputs{Step: step, Inductance: inductance, ESR: esr, Allowed: allowed})
		if err != nil {
			t.Fatal(err)
		}
		again, err := InputDip(InputInputs{Step: step, Inductance: inductance, ESR: esr, Capacitance: input.Capacitance})
		if err != nil || math.Abs(again.Dip.SI()-allowed.SI()) > 1e-12*allowed.SI() {
			t.Fatalf("the input dips by %v, want %v (%v)", again.Dip, allowed, err)
		}
	})
}

func ExampleESRZero() {
	p := units.MustParse
	z, err := ESRZero(ESRZeroInputs{Capacitance: p("10 µF"), Resistance: p("1 Ω"), Lowest: p("5 kHz"), Highest: p("50 kHz")})
	fmt.Println(z.Zero, z.LeastResistance, z.MostResistance, err)
	// Output: 15.92 kHz 318.3 mΩ 3.183 Ω <nil>
}

func ExampleLoadStep() {
	p := units.MustParse
	s, err := LoadStep(LoadStepInputs{Step: p("200 mA"), Response: p("5 µs"), Capacitance: p("10 µF"), ESR: p("20 mΩ")})
	fmt.Println(s.Jump, s.Sag, s.Dip, err)
	// Output: 4 mV 100 mV 104 mV <nil>
}
