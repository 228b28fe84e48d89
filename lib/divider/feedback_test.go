package divider

import (
	"fmt"
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// Sources: published design examples of adjustable regulators, their numbers
// recomputed: MCP16367/8/9 data sheet section 8.1 (0.8 V, 3.3 V, 10 kΩ:
// 31.25 kΩ), TPS54824 SLVSDC9B (6.04 kΩ and 12.08 kΩ, reference and output
// inferred from the ratio), TLV766-Q1 JAJSKJ9A (0.8 V, 3.3 V, 160 kΩ: 500 kΩ).
func TestFeedbackUpper(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ reference, output, lower, pin, upper string }{
		{"0.8 V", "3.3 V", "10 kΩ", "", "31.25 kΩ"},
		{"0.6 V", "1.8 V", "6.04 kΩ", "", "12.08 kΩ"},
		{"0.8 V", "3.3 V", "160 kΩ", "", "500 kΩ"},
		// 100 nA into the pin: 80 µA + 0.1 µA flow through Upper, 2.5 V/80.1 µA.
		{"0.8 V", "3.3 V", "10 kΩ", "100 nA", "31.210986 kΩ"},
		// 20 µA out of it: 2.5 V/60 µA.
		{"0.8 V", "3.3 V", "10 kΩ", "-20 µA", "41.666667 kΩ"},
		// At the reference itself the output goes straight to the pin.
		{"0.8 V", "0.8 V", "10 kΩ", "", "0 Ω"},
	} {
		in := FeedbackInputs{Reference: q(test.reference), Output: q(test.output), Lower: q(test.lower)}
		if test.pin != "" {
			in.PinCurrent = q(test.pin)
		}
		f, err := FeedbackUpper(in)
		if err != nil {
			t.Errorf("%v: %v", test, err)
			continue
		}
		expect.Near(t, fmt.Sprint("Upper of ", test), f.Upper, test.upper, 1e-7)
		expect.Near(t, fmt.Sprint("Output of ", test), f.Output, test.output, 1e-12)
	}
}

// Sources: TPS54283/286 SLUS749C p. 36 (20 kΩ, 0.80 V: 3.8095 kΩ for 5 V,
// published as 3.80 kΩ, and 6.40 kΩ for 3.3 V; outputs inferred); with pin
// current: (5 − 0.8)/20 kΩ = 210 µA, less 10 µA: 0.8/200 µA = 4 kΩ.
func TestFeedbackLower(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ reference, output, upper, pin, lower string }{
		{"0.8 V", "5 V", "20 kΩ", "0 A", "3.8095238 kΩ"},
		{"0.8 V", "3.3 V", "20 kΩ", "0 A", "6.4 kΩ"},
		{"0.8 V", "5 V", "20 kΩ", "10 µA", "4 kΩ"},
	} {
		f, err := FeedbackLower(FeedbackInputs{Reference: q(test.reference), Output: q(test.output), Upper: q(test.upper), PinCurrent: q(test.pin)})
		if err != nil {
			t.Errorf("%v: %v", test, err)
			continue
		}
		expect.Near(t, fmt.Sprint("Lower of ", test), f.Lower, test.lower, 1e-7)
		expect.Near(t, fmt.Sprint("Output of ", test), f.Output, test.output, 1e-12)
	}
}

// Sources: as TestFeedbackUpper, with the chosen resistors: 0.8 · (1 + 3.16)
// = 3.328 V; 0.6 · (1 + 12.1/6.04) = 1.80199 V; 0.8 · (1 + 499/160) = 3.295 V.
// The last: a reference of 1.25 V from output to adjust pin, 240 Ω, 5 kΩ to
// ground and 50 µA out of the adjust pin (textbook three-terminal regulator):
// 1.25 · (1 + 5000/240) + 50 µA · 5 kΩ = 27.291667 + 0.25 V.
func TestFeedbackOutput(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ reference, upper, lower, pin, output, shift, share string }{
		{"0.8 V", "31.6 kΩ", "10 kΩ", "0 A", "3.328 V", "0 V", "0"},
		{"0.6 V", "12.1 kΩ", "6.04 kΩ", "0 A", "1.8019868 V", "0 V", "0"},
		{"0.8 V", "499 kΩ", "160 kΩ", "0 A", "3.295 V", "0 V", "0"},
		{"1.25 V", "5 kΩ", "240 Ω", "50 µA", "27.541667 V", "0.25 V", "0.0096"},
	} {
		f, err := FeedbackOutput(FeedbackInputs{Reference: q(test.reference), Upper: q(test.upper), Lower: q(test.lower), PinCurrent: q(test.pin)})
		if err != nil {
			t.Errorf("%v: %v", test, err)
			continue
		}
		expect.Near(t, fmt.Sprint("Output of ", test), f.Output, test.output, 1e-7)
		expect.Near(t, fmt.Sprint("PinShift of ", test), f.PinShift, test.shift, 1e-12)
		expect.Near(t, fmt.Sprint("PinShare of ", test), f.PinShare, test.share, 1e-12)
	}
}

// The resistor that is found makes the output that was wanted, and the
// currents add up at the pin.
func TestFeedbackBackAndForth(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		reference := rapid.Float64Range(0.3, 3).Draw(t, "reference")
		output := reference * rapid.Float64Range(1.01, 30).Draw(t, "ratio")
		lower := drawResistance(t, "lower")
		pin := units.Number(rapid.Float64Range(-0.9, 5).Draw(t, "pin share") * reference / lower.SI()).Mul(q("1 A"))
		volt := q("1 V")
		in := FeedbackInputs{Reference: units.Number(reference).Mul(volt), Output: units.Number(output).Mul(volt), Lower: lower, PinCurrent: pin}
		f, err := FeedbackUpper(in)
		if err != nil {
			t.Skip(err) // a pin current below 1e-30 A
		}
		back, err := FeedbackOutput(FeedbackInputs{Reference: in.Reference, Upper: f.Upper, Lower: lower, PinCurrent: pin})
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(back.Output.SI()-output) > 1e-9*output {
			t.Fatalf("wanted %v V, the divider makes %v", output, back.Output)
		}
		low, err := FeedbackLower(FeedbackInputs{Reference: in.Reference, Output: in.Output, Upper: f.Upper, PinCurrent: pin})
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(low.Lower.SI()-lower.SI()) > 1e-6*lower.SI() {
			t.Fatalf("from %v the lower resistor is %v, want %v", f.Upper, low.Lower, lower)
		}
		if d := f.UpperCurrent.SI() - f.LowerCurrent.SI() - pin.SI(); math.Abs(d) > 1e-9*f.LowerCurrent.SI() {
			t.Fatalf("at the pin %v A is left over", d)
		}
	})
}

func ExampleFeedbackOutput() {
	f, err := FeedbackOutput(FeedbackInputs{
		Reference: units.MustParse("0.8 V"), Upper: units.MustParse("31.6 kΩ"), Lower: units.MustParse("10 kΩ"),
	})
	fmt.Println(f.Output, err)
	// Output: 3.328 V <nil>
}

func ExampleFeedbackLower() {
	f, err := FeedbackLower(FeedbackInputs{
		Reference: units.MustParse("0.8 V"), Output: units.MustParse("5 V"), Upper: units.MustParse("20 kΩ"),
	})
	fmt.Println(f.Lower, err)
	// Output: 3.81 kΩ <nil>
}
