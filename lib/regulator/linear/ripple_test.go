package linear

import (
	"fmt"
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/table"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// Sources: Macnica's introduction with the data sheet ADP1715 (3.3 V, 1 kHz):
// 53 dB make of 10 mV about 22 µV; by hand 10^−2.65 = 2.238721e-3. TI
// technical article SSZTAD7 (TPS717 at 1 MHz, inputs read, result from
// memory): 50 mV and 45 dB: 281 µV. The LM350 at 120 Hz with 80 dB: 1.2 V to
// 0.12 mV (knowledge base of an industrial trader). The definition: 20 dB a
// factor of ten.
func TestRipple(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ input, rejection, want, within string }{
		{"10 mV", "53 dB", "22.38721 µV", "1e-10 V"},
		{"50 mV", "45 dB", "281 µV", "0.5 µV"},
		{"1.2 V", "80 dB", "0.12 mV", "1e-15 V"},
		{"1 V", "0 dB", "1 V", "0 V"},
		{"1 V", "-20 dB", "10 V", "1e-12 V"},
		{"0 V", "60 dB", "0 V", "0 V"},
	} {
		expect.Within(t, fmt.Sprint(test), expect.Result[units.Quantity](t)(Ripple(q(test.input), q(test.rejection))), test.want, test.within)
	}
	// 50 mV to 1 mV is a factor of 50: 20 · 1.698970 = 33.9794 dB.
	expect.Within(t, "needed", expect.Result[units.Quantity](t)(NeededRejection(q("50 mV"), q("1 mV"))), "33.9794 dB", "0.00001 dB")
	expect.Within(t, "none needed", expect.Result[units.Quantity](t)(NeededRejection(q("1 mV"), q("10 mV"))), "-20 dB", "1e-12 dB")
}

// By hand: 60 dB at 1 kHz and 20 dB at 100 kHz fall by 20 dB a decade; 3.162278
// kHz is half a decade up: 50 dB; from 100 kHz to 1 MHz it rises to 30 dB, as
// over the output capacitor.
func TestRejection(t *testing.T) {
	t.Parallel()
	points := expect.Table("frequency [kHz], rejection [dB]\n1, 60\n100, 20\n1000, 30")
	for frequency, want := range map[string]string{
		"1 kHz": "60 dB", "3.16227766 kHz": "50 dB", "10 kHz": "40 dB", "100 kHz": "20 dB", "316.227766 kHz": "25 dB", "1 MHz": "30 dB",
	} {
		expect.Within(t, "at "+frequency, expect.Result[units.Quantity](t)(Rejection(points, q(frequency))), want, "1e-7 dB")
	}
}

// One pole by hand: at the corner √2, 3.0103 dB, are gone; at ten times the
// corner √101, 20.0432 dB; at a hundred times 40.0004 dB.
func TestRejectionOfLoop(t *testing.T) {
	t.Parallel()
	for frequency, want := range map[string]string{"1 Hz": "60 dB", "1 kHz": "56.9897 dB", "10 kHz": "39.9568 dB", "100 kHz": "19.9996 dB"} {
		expect.Within(t, "at "+frequency, expect.Result[units.Quantity](t)(RejectionOfLoop(q("60 dB"), q("1 kHz"), q(frequency))), want, "0.00005 dB")
	}
}

// What NeededRejection asks for makes the ripple that is allowed; rejection
// between two points lies between theirs; that of a loop never rises.
func TestRejectionBackAndForth(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		input := of(rapid.Float64Range(1e-3, 1).Draw(t, "input"), "V")
		allowed := input.Mul(units.Number(rapid.Float64Range(1e-5, 1).Draw(t, "share")))
		needed, err := NeededRejection(input, allowed)
		if err != nil {
			t.Fatal(err)
		}
		left, err := Ripple(input, needed)
		if err != nil || math.Abs(left.SI()-allowed.SI()) > 1e-12*allowed.SI() {
			t.Fatalf("%v is left, %v allowed (%v)", left, allowed, err)
		}
		a, b := rapid.Float64Range(1, 90).Draw(t, "first"), math.Round(rapid.Float64Range(-10, 90).Draw(t, "second"))
		f := rapid.Float64Range(1, 1000).Draw(t, "frequency")
		curve, err := table.Curve([]units.Quantity{q("1 Hz"), q("1 kHz")}, []units.Quantity{of(a, "dB"), of(b, "dB")})
		if err != nil {
			t.Skip(err) // below 1e-30 dB
		}
		r, err := Rejection(curve, of(f, "Hz"))
		if err != nil || r.SI() < min(a, b)-1e-9 || r.SI() > max(a, b)+1e-9 {
			t.Fatalf("between %v and %v dB: %v (%v)", a, b, r, err)
		}
		low, err := RejectionOfLoop(q("120 dB"), q("10 Hz"), of(f, "Hz"))
		if err != nil {
			t.Fatal(err)
		}
		high, err := RejectionOfLoop(q("120 dB"), q("10 Hz"), of(f*1.5, "Hz"))
		if err != nil || high.SI() > low.SI() {
			t.Fatalf("rejection rises from %v to %v (%v)", low, high, err)
		}
	})
}

func ExampleRejection() {
	p := units.MustParse
	r, err := Rejection(expect.Table("frequency [kHz], rejection [dB]\n1, 60\n100, 20"), p("10 kHz"))
	fmt.Println(r, err)
	// Output: 40 dB <nil>
}

func ExampleRipple() {
	v, err := Ripple(units.MustParse("50 mV"), units.MustParse("45 dB"))
	fmt.Println(v, err)
	// Output: 281.2 µV <nil>
}
