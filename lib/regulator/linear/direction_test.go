package linear

import (
	"testing"

	"ohmwright/lib/divider"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// What physics says of the direction: more of the one value never gives less
// (or never more) of the other.
func TestDirections(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name  string
		low   string
		high  string
		rises bool
		of    func(x units.Quantity) (units.Quantity, error)
	}{
		{"dropout over load", "0 A", "500 mA", true, func(x units.Quantity) (units.Quantity, error) { return Dropout(twoCurves(), x, q("60 °C")) }},
		{"ground share over load", "1 µA", "1 A", false, func(x units.Quantity) (units.Quantity, error) {
			l, err := Loss(LossInputs{Input: q("5 V"), Output: q("3.3 V"), Load: x, Ground: q("90 µA")})
			return l.GroundShare, err
		}},
		{"efficiency over load", "1 µA", "1 A", true, func(x units.Quantity) (units.Quantity, error) {
			l, err := Loss(LossInputs{Input: q("5 V"), Output: q("3.3 V"), Load: x, Ground: q("90 µA")})
			return l.Efficiency, err
		}},
		{"efficiency over input", "3.3 V", "12 V", false, func(x units.Quantity) (units.Quantity, error) {
			l, err := Loss(LossInputs{Input: x, Output: q("3.3 V"), Load: q("1 mA"), Ground: q("90 µA")})
			return l.Efficiency, err
		}},
		{"largest load over input", "3.4 V", "12 V", false, func(x units.Quantity) (units.Quantity, error) {
			h, err := Heat(HeatInputs{Input: x, Output: q("3.3 V"), Load: q("1 mA"), Ambient: q("60 °C"), Resistance: q("62 K/W"), Limit: q("125 °C")})
			return h.LargestLoad, err
		}},
		{"zero over resistance", "1 mΩ", "10 Ω", false, func(x units.Quantity) (units.Quantity, error) {
			z, err := ESRZero(ESRZeroInputs{Capacitance: q("10 µF"), Resistance: x, Lowest: q("5 kHz"), Highest: q("50 kHz")})
			return z.Zero, err
		}},
		{"dip over capacitance", "1 µF", "1 mF", false, func(x units.Quantity) (units.Quantity, error) {
			s, err := LoadStep(LoadStepInputs{Step: q("200 mA"), Response: q("5 µs"), Capacitance: x, ESR: q("20 mΩ")})
			return s.Dip, err
		}},
		{"input dip over inductance", "1 nH", "100 µH", true, func(x units.Quantity) (units.Quantity, error) {
			d, err := InputDip(InputInputs{Step: q("280 mA"), Inductance: x, Capacitance: q("10 µF")})
			return d.Dip, err
		}},
		{"overshoot over resistance", "1 mΩ", "2 Ω", false, func(x units.Quantity) (units.Quantity, error) {
			p, err := HotPlug(HotPlugInputs{Input: q("24 V"), Inductance: q("1 µH"), Capacitance: q("10 µF"), Resistance: x, Rating: q("40 V")})
			return p.Overshoot, err
		}},
		{"ripple over rejection", "0 dB", "100 dB", false, func(x units.Quantity) (units.Quantity, error) { return Ripple(q("50 mV"), x) }},
		{"reverse current over input", "0 V", "12 V", false, func(x units.Quantity) (units.Quantity, error) {
			r, err := ReverseCurrent(ReverseInputs{Output: q("5 V"), Input: x, Forward: q("0.7 V"), Resistance: q("200 mΩ"), Capacitance: q("100 µF"), Rated: q("1 A")})
			return r.Peak, err
		}},
		{"clamp current over surge", "1 V", "200 V", true, func(x units.Quantity) (units.Quantity, error) {
			s, err := Surge(SurgeInputs{Peak: x, Source: q("0.5 Ω"), Duration: q("40 ms"), Clamp: q("36 V"), Rating: q("40 V"), Output: q("5 V"), Load: q("1 A")})
			return s.ClampCurrent, err
		}},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			low, span := q(test.low), q(test.high).Sub(q(test.low))
			at := func(t *rapid.T, share float64) units.Quantity {
				y, err := test.of(low.Add(span.Mul(units.Number(share))))
				if err != nil {
					t.Fatal(err)
				}
				return y
			}
			rapid.Check(t, func(t *rapid.T) {
				a := float64(rapid.IntRange(0, 1000).Draw(t, "a")) / 1000
				b := float64(rapid.IntRange(0, 1000).Draw(t, "b")) / 1000
				first, second := at(t, min(a, b)), at(t, max(a, b))
				if test.rises && second.Less(first) || !test.rises && first.Less(second) {
					t.Fatalf("at %v %v, at %v %v", min(a, b), first, max(a, b), second)
				}
			})
		})
	}
}

// The resistor that divider finds sets what is wanted, and the capacitance
// that OutputCapacitor asks for is just enough.
func TestSettingAndCapacitorBackAndForth(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		reference := of(rapid.Float64Range(0.4, 1.3).Draw(t, "reference"), "V")
		wanted := reference.Mul(units.Number(rapid.Float64Range(1.01, 20).Draw(t, "ratio")))
		pin := of(float64(rapid.IntRange(-100, 1000).Draw(t, "pin")), "nA")
		f, err := divider.FeedbackUpper(divider.FeedbackInputs{Reference: reference, Output: wanted, Lower: q("10 kΩ"), PinCurrent: pin})
		if err != nil {
			t.Fatal(err)
		}
		s, err := Setting(SettingInputs{Reference: reference, Upper: f.Upper, Lower: q("10 kΩ"), PinCurrent: pin, Wanted: wanted})
		if err != nil || s.ErrorShare.SI() > 1e-12 || s.ErrorShare.SI() < -1e-12 {
			t.Fatalf("off by %v (%v)", s.ErrorShare, err)
		}
		in := OutputCapacitorInputs{
			Marked: q("10 µF"), Kept: units.Number(rapid.Float64Range(0.01, 1).Draw(t, "kept")), ESR: q("5 mΩ"),
			LeastCapacitance: of(rapid.Float64Range(0.1, 100).Draw(t, "least"), "µF"), MostESR: q("1 Ω"),
		}
		c, err := OutputCapacitor(in)
		if err != nil {
			t.Fatal(err)
		}
		in.Marked = c.LeastMarked
		again, err := OutputCapacitor(in)
		if m := again.CapacitanceMargin.SI(); err != nil || m > 1e-12*in.LeastCapacitance.SI() || m < -1e-12*in.LeastCapacitance.SI() {
			t.Fatalf("of the least capacitor %v is left (%v)", again.CapacitanceMargin, err)
		}
	})
}
