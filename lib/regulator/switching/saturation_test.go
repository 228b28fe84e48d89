package switching

import (
	"testing"

	"ohmwright/lib/internal/expect"
)

// An inductance that falls in a straight line from 22 µH at nothing to half at
// 5 A, 19 V and 5 V at 400 kHz, 2 A: 9.8958 Vµs swing. The peak p solves
// p = 2 A + 9.8958 Vµs/(2 · (22 − 2.2 p) µH), 2.2 p² − 26.4 p + 48.948 = 0:
// p = 2.2918 A by the formula of the quadratic.
func TestSaturationByHand(t *testing.T) {
	t.Parallel()
	cycle := CycleInputs{OnVoltage: q("19 V"), OffVoltage: q("5 V"), Inductance: q("22 µH"), Frequency: q("400 kHz"), Mean: q("2 A")}
	curve := expect.Table("current [A], left [%]\n0, 100\n5, 50")
	s, err := Saturation(SaturationInputs{Cycle: cycle, Curve: curve})
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "Peak", s.Peak, "2.29180 A", 1e-4)
	expect.Near(t, "Remaining", s.Remaining, "77.082 %", 1e-4) // 1 − 2.2918/10
	expect.Near(t, "Inductance", s.Inductance, "16.958 µH", 1e-4)
	expect.Near(t, "Ripple", s.Ripple, "583.55 mA", 1e-4) // 9.8958/16.958
	expect.Near(t, "Headroom", s.Headroom, "2.70820 A", 1e-4)
	// Below the boundary the current starts from nothing: with a curve that
	// does not fall the peak is that of the plain cycle, √(2 · 0.1 A · ripple).
	flat := expect.Table("current [A], left [%]\n0, 100\n5, 100")
	cycle.Mean = q("0.1 A")
	s, err = Saturation(SaturationInputs{Cycle: cycle, Curve: flat})
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "Peak below the boundary", s.Peak, "299.937 mA", 1e-5) // √(2 · 0.1 · 0.449811)
}
