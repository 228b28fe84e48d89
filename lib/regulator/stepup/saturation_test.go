package stepup

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/table"
)

// An inductance that falls in a straight line from 50 µH at nothing to 25 µH at
// 5 A. 5 V to 10 V at 100 kHz put 25 µVs on it in each half. With 2 A in the
// inductor the peak p solves p = 2 A + 25 µVs/(2 · (50 − 5 p) µH): p² − 12 p +
// 22.5 = 0 (p in A), p = 6 − √13.5.
func TestSaturationByHand(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("5 V"), Output: q("10 V"), Load: q("1 A"), Frequency: q("100 kHz"), Inductance: q("50 µH")}
	for _, text := range []string{"current [A], inductance [µH]\n0, 50\n5, 25", "current [A], left [%]\n0, 100\n2, 80\n5, 50"} {
		curve, err := table.Text(text)
		expect.Must(t, curve, err)
		s, err := Saturation(SaturationInputs{Stage: stage, Curve: curve})
		expect.Near(t, "Peak", expect.Must(t, s, err).Peak, "2.3257653858 A", 1e-9)
		expect.Near(t, "Remaining", s.Remaining, "76.742346142 %", 1e-9)
		expect.Near(t, "Inductance", s.Inductance, "38.371173071 µH", 1e-9)
		expect.Near(t, "Ripple", s.Ripple, "0.6515307717 A", 1e-9) // 25/38.371173071
		expect.Near(t, "Headroom", s.Headroom, "2.6742346142 A", 1e-9)
		// Below the boundary a triangle of the height p over (p · L/5 V) · 2 has
		// the mean 0.1 A of 10 µs: p² · (50 − 5 p) = 5.
		light := stage
		light.Load = q("50 mA")
		s, err = Saturation(SaturationInputs{Stage: light, Curve: curve})
		expect.Must(t, s, err)
		if p := s.Peak.SI(); math.Abs(p*p*(50-5*p)-5) > 1e-9 || p < 0.3 {
			t.Errorf("at light load the peak is %v A", p)
		}
	}
	// A curve that does not fall is an inductance.
	flat := expect.Table("current [A], left [%]\n0, 100\n5, 100")
	s, err := Saturation(SaturationInputs{Stage: stage, Curve: flat})
	expect.Near(t, "Peak of a flat curve", expect.Must(t, s, err).Peak, "2.25 A", 1e-12)
}
